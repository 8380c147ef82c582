//! What version 0.1 left on a device comes through to the app of today: its database opens without loss,
//! its build updates to this one with a half-typed plank and a second tab open, old tabs and new ones read each
//! other, and every address that it ever had leads to the right screen.

mod fixture;

use fixture::{Dump, dist, stored, stored_ids};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use stillwood_tests::browser::steps;
use stillwood_tests::browser::{
    Browser, Device, Dist, Engine, Folder, Page, Server, downloaded, is_packed, program, run,
    skipped,
};
use thirtyfour::WindowHandle;

/// Opens the app over a dump.
async fn opened(page: &Page, dump: &Dump, address: &str) {
    dump.restore(page, address).await;
    page.open(address).await;
}

/// Whether every entry of the dump is in the store.
async fn all_kept(page: &Page, dump: &Dump, database: &str) {
    let missing: Vec<String> = dump
        .ids(database)
        .difference(&stored_ids(page, database).await)
        .cloned()
        .collect();
    assert!(missing.is_empty(), "not in {database}: {missing:?}");
}

/// Waits until the fields of the screen hold all of these texts.
async fn all_stand(page: &Page, what: &str, texts: &[String]) {
    page.wait_for(
        &format!("{texts:?} in the fields of {what}"),
        "((texts) => {\
            document.querySelectorAll('#app details').forEach((e) => { e.open = true; });\
            const stand = [...document.querySelectorAll('#app input, #app textarea')].map((e) => e.value);\
            return texts.every((text) => stand.includes(text));\
        })(arguments[0])",
        vec![json!(texts)],
    )
    .await;
}

/// Waits until the dimensions of the plank that is measured hold all of these texts, each as it was typed.
async fn all_measured(page: &Page, texts: &[String]) {
    page.see("#keypad", "").await;
    let script = "(async (texts) => {\
        const pause = () => new Promise((go) => setTimeout(go, 30));\
        const found = new Set();\
        const labels = [...document.querySelectorAll('#drawing button')].map((e) => e.getAttribute('aria-label'));\
        for (const label of labels.filter((label) => label)) {\
            const e = [...document.querySelectorAll('#drawing button')].find((e) => e.getAttribute('aria-label') === label);\
            e?.click();\
            await pause();\
            found.add(document.querySelector('#active-field .typed')?.innerText.trim());\
        }\
        return texts.filter((text) => !found.has(text));\
    })(arguments[0]).then(done, (why) => done(String(why)))";
    let missing = page.js_async(script, vec![json!(texts)]).await;
    assert_eq!(missing, json!([]), "not in the dimensions of the plank");
}

/// What was kept as the words of a form, as Today says it.
fn as_a_heading(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// Presses the row of Today that names something half typed, the `turn`th of that name.
async fn go_on(page: &Page, words: &str, turn: usize) {
    let found = page
        .wait_for(
            &format!("“{words}” among what is unfinished"),
            "((words, turn) => {\
                const rows = [...document.querySelectorAll('#body a.item')];\
                const of = rows.filter((e) => e.querySelector('strong')?.innerText.trim() === words);\
                document.querySelectorAll('#meant').forEach((e) => e.removeAttribute('id'));\
                if (of[turn]) of[turn].id = 'meant';\
                return of.length > turn;\
            })(arguments[0], arguments[1])",
            vec![json!(as_a_heading(words)), json!(turn)],
        )
        .await;
    assert_eq!(found, Value::Bool(true));
    page.tap("#meant").await;
}

/// The screen is one of the app's, and says something.
async fn is_a_screen(page: &Page, address: &str) {
    page.stands().await;
    let said = page
        .wait_for(
            &format!("a screen at {address}"),
            "(() => { const text = document.querySelector('#app')?.innerText.trim() ?? '';\
              return text.length > 20 && text; })()",
            vec![],
        )
        .await;
    let said = said.as_str().unwrap_or_default();
    let broken = ["could not open", "undefined", "[object"];
    assert!(
        !broken.iter().any(|word| said.contains(word)),
        "{address}: {said}"
    );
}

async fn today(page: &Page) {
    page.go_to("#/").await;
    page.see("#head h1", "Today").await;
}

#[test]
fn the_old_database_opens_without_loss() {
    run(async {
        let (profile, loads) = (Folder::new("next-old"), Folder::new("loads"));
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        let dump = Dump::read();

        // The sample was open: it still is, with its form, and the maker's own record lies untouched beside it.
        opened(&page, &dump, server.address()).await;
        page.see("#head .chip.note", "").await;
        go_on(&page, "reading of a room", 0).await;
        all_stand(
            &page,
            "the sample",
            &["half 101".to_owned(), "half 103".to_owned()],
        )
        .await;
        all_kept(&page, &dump, "stillwood-demo").await;
        all_kept(&page, &dump, "stillwood").await;
        page.js("localStorage.removeItem('demo')", vec![]).await;
        today(&page).await;
        page.reload().await;
        all_kept(&page, &dump, "stillwood").await;
        page.gone("#head .chip.note").await;

        // When it was last saved is known.
        let carried = dump.setting("settings")["carried"]["on"].clone();
        page.go_to("#/carry").await;
        let carried: chrono::NaiveDate = carried.as_str().expect("a day").parse().expect("a day");
        page.see("#last-saved", &carried.format("%-d %b").to_string())
            .await;

        half_typed_stands(&page, &dump).await;
        settings_stand(&page, &dump).await;

        // All entries are in what the app has read.
        page.download_into(loads.path()).await;
        page.go_to("#/carry").await;
        page.see("#body", "The whole record").await;
        save_whole(&page).await;
        let (_, file) = downloaded(loads.path()).await;
        let file: Value = serde_json::from_slice(&file).expect("JSON");
        let entries = file["entries"].as_array().expect("entries");
        let ids = entries.iter().filter_map(|entry| entry["id"].as_str());
        let ids: BTreeSet<String> = ids.map(str::to_owned).collect();
        let missing: Vec<_> = dump.ids("stillwood").difference(&ids).cloned().collect();
        assert!(missing.is_empty(), "not in the file: {missing:?}");
        // And nothing of what was half typed went by being looked at.
        let drafts = stored(&page, "stillwood", "drafts").await;
        let kept: BTreeSet<&String> = drafts.iter().map(|(key, _)| key).collect();
        for (key, _) in dump.texts("stillwood", "drafts") {
            assert!(kept.contains(&key), "{key} is kept");
        }
        browser.close().await;
    });
}

/// Saves the whole record to the downloads.
async fn save_whole(page: &Page) {
    let script = "const keys = [...document.querySelectorAll('#body button')]\
            .filter((e) => e.innerText.trim() === 'Save the record to downloads');\
        keys.at(-1).id = 'save-whole'";
    page.js(script, vec![]).await;
    page.tap("#save-whole").await;
}

/// Everything half typed is offered on the first screen, and opens as it was typed.
async fn half_typed_stands(page: &Page, dump: &Dump) {
    let mut turns: Vec<String> = Vec::new();
    let forms = dump.forms();
    for form in forms.iter().filter(|form| !form.words.is_empty()) {
        // Of forms with one name any row may lead to this one.
        let rows = forms.iter().filter(|one| one.words == form.words).count();
        turns.push(form.words.clone());
        let turn = turns.iter().filter(|one| **one == form.words).count() - 1;
        assert!(turn < rows);
        today(page).await;
        go_on(page, &form.words, turn).await;
        page.gone("#body a.item#meant").await;
        all_stand(page, &format!("{} at {}", form.words, form.at), &form.typed).await;
        page.see("#body, #pane", "You had begun this").await;
    }
    // The day and the name of a round stand in its form.
    for form in forms.iter().filter(|form| form.words.is_empty()) {
        page.go_to(&form.at).await;
        all_stand(page, &form.at, &form.typed).await;
    }
    for (piece, typed) in &dump.planks() {
        today(page).await;
        page.tap(&format!("#body a[href='#/measure/{piece}']"))
            .await;
        all_measured(page, typed).await;
    }
    page.holds("#note", "half a note").await;
    page.tap_with("#drawing ~ * button, #drawing button", "Defects")
        .await;
    page.holds("#defect-from-0", "400").await;
    page.holds("#defect-note-0", "by the edge").await;
}

/// The settings, and what was chosen to be shown, are as they were.
async fn settings_stand(page: &Page, dump: &Dump) {
    page.go_to("#/settings").await;
    page.see("#body [aria-checked='true']", "inches").await;
    all_stand(page, "the settings", &["2.5".to_owned(), "0.2".to_owned()]).await;
    let by = dump.setting("by");
    page.see("#device", by.as_str().expect("a sign")).await;
    page.go_to("#/planks").await;
    page.holds("#search", "k7").await;
    page.go_to("#/blanks").await;
    page.see(
        "#body [aria-pressed='true'], #body [aria-checked='true']",
        "maple",
    )
    .await;
}

#[test]
fn what_cant_be_read_stays_and_hides_nothing() {
    run(async {
        let profile = Folder::new("next-damaged");
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        let mut dump = Dump::read().sample_closed();
        let planted = [
            (
                "drafts",
                "form/visit",
                "{\"at\":\"#/visit/new\",\"words\":\"a new vis",
            ),
            ("drafts", "form/own-wood", "[1,2,3]"),
            (
                "drafts",
                "01a0c451-0840-7bbc-b163-422f8e9322c4",
                "not JSON at all",
            ),
            ("drafts", "shown/planks", "{\"filter\":7}"),
            ("settings", "settings", "{\"units\":\"cubits\""),
        ];
        for (store, key, text) in planted {
            dump.plant(store, key, text);
        }
        opened(&page, &dump, server.address()).await;
        today(&page).await;
        let forms = words_of_the_whole(&dump, |key| planted.iter().any(|(_, of, _)| *of == key));
        assert!(forms.len() > 10, "{}", forms.len());
        for words in forms {
            page.see("#body a.item", &as_a_heading(&words)).await;
        }
        for screen in ["#/planks", "#/settings", "#/visit/new", "#/own-wood"] {
            page.go_to(screen).await;
            is_a_screen(&page, screen).await;
        }
        page.reload().await;
        for (store, key, text) in planted {
            let rows = stored(&page, "stillwood", store).await;
            let found = rows.iter().find(|(known, _)| known == key);
            assert_eq!(
                found.map(|(_, text)| text.as_str()),
                Some(text),
                "{store} {key}"
            );
        }
        all_kept(&page, &dump, "stillwood").await;
        browser.close().await;
    });
}

/// The names of the forms that are listed, but for those that were damaged.
fn words_of_the_whole(dump: &Dump, damaged: impl Fn(&str) -> bool) -> Vec<String> {
    let texts = dump.texts("stillwood", "drafts");
    let forms = texts.iter().filter_map(|(key, json)| {
        let form: Value = serde_json::from_str(json).ok()?;
        let words = form["words"].as_str()?;
        let listed = key.starts_with("form/") && !damaged(key) && !words.is_empty();
        listed.then(|| words.to_owned())
    });
    forms.collect()
}

/// The old addresses that hold no id, and what stands at the head of the screen that each leads to.
const ADDRESSES: [(&str, &str); 17] = [
    ("", "Today"),
    ("#/", "Today"),
    ("#/visit/new", "Start a visit"),
    ("#/carry", "Save and share"),
    ("#/planks", "All planks"),
    ("#/ask", "Quick questions"),
    ("#/own-wood", "A wood of your own"),
    ("#/settings", "Settings"),
    ("#/about", "Cautions and sources"),
    ("#/workshop", "Racks"),
    ("#/rests", "Rest times and rooms"),
    ("#/glue", "Match "),
    ("#/blanks", "Blanks"),
    ("#/learn", "Track record"),
    ("#/plan", "Plan"),
    ("#/nowhere", "Today"),
    ("#/plank/not-an-id", "Today"),
];

#[test]
fn every_old_address_leads_to_the_right_screen() {
    run(async {
        let profile = Folder::new("next-addresses");
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        let dump = Dump::read().sample_closed();
        opened(&page, &dump, server.address()).await;
        for (address, title) in ADDRESSES {
            page.js("location.hash = arguments[0]", vec![json!(address)])
                .await;
            page.see("#head h1", title).await;
            is_a_screen(&page, address).await;
        }
        // A screen tells by what it is about that it is the right one.
        let about = |kind: &str| dump.about("stillwood", kind).swap_remove(0);
        let mut addresses: Vec<(String, &str)> = Vec::new();
        for (kind, screens) in [
            (
                "visit_opened",
                &["visit", "visit-form", "spec", "new-pile", "tally", "seller"][..],
            ),
            ("pile_opened", &["pile", "pile-form"]),
            ("judged", &["plank", "mark", "measure", "wood", "cut"]),
            ("wood_added", &["own-wood"]),
            ("glued", &["wood", "plank"]),
            ("cut", &["wood", "plank", "cut"]),
            ("weighed", &["wood", "plank", "cut"]),
        ] {
            let id = about(kind);
            addresses.extend(
                screens
                    .iter()
                    .map(|screen| (format!("#/{screen}/{id}"), kind)),
            );
        }
        for (address, kind) in &addresses {
            today(&page).await;
            page.js("location.hash = arguments[0]", vec![json!(address)])
                .await;
            page.wait_for(
                &format!("another screen than Today at {address} ({kind})"),
                "document.querySelector('#title, h1')?.innerText !== 'Today'",
                vec![],
            )
            .await;
            is_a_screen(&page, address).await;
            let said = page.text("#app").await;
            assert!(
                !said.contains("This is not in the record"),
                "{address} ({kind}): {said}"
            );
        }
        for address in [
            "#/check",
            "#/choice",
            "#/wood/01a0c451-0840-7bbc-b163-000000000000",
        ] {
            page.go_to(address).await;
            is_a_screen(&page, address).await;
        }
        // As a bookmark opens it, and as a share does.
        for address in ["?shared", "?shared=failed", addresses[0].0.as_str()] {
            page.web().goto("about:blank").await.expect("nothing");
            page.open(&format!("{}{address}", server.address())).await;
            is_a_screen(&page, address).await;
        }
        browser.close().await;
    });
}

/// Puts the build under test in the place of the old one, the worker last, as a release does.
fn release(into: &Path) -> String {
    let from = program("STILLWOOD_DIST");
    let mut last = Vec::new();
    copy(&from, into, &mut last);
    for (source, target) in last {
        fs::copy(source, target).expect("a copy");
    }
    let page = fs::read_to_string(from.join("index.html")).expect("the page");
    let (_, rest) = page
        .split_once("name=\"build\" content=\"")
        .expect("its version");
    rest.split('"').next().unwrap_or_default().to_owned()
}

fn copy(from: &Path, to: &Path, last: &mut Vec<(std::path::PathBuf, std::path::PathBuf)>) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("the built app").flatten() {
        let (source, target) = (entry.path(), to.join(entry.file_name()));
        if source.is_dir() {
            copy(&source, &target, last);
        } else if is_packed(&source) {
            // The old version lies there unpacked.
        } else if entry.file_name() == "sw.js" || entry.file_name() == "index.html" {
            last.push((source, target));
        } else {
            fs::copy(&source, &target).expect("a copy");
        }
    }
    last.sort();
}

/// Asks for a newer version and waits until the old build offers it. Chromium puts off every plain look for minutes
/// after its start, until a page has been idle: an address that is new is not put off as long. The page is left
/// alone meanwhile.
async fn newer_comes(page: &Page) {
    let script = "navigator.serviceWorker.ready.then((r) => arguments[0]\
        ? navigator.serviceWorker.register(r.active.scriptURL + '?newer', { updateViaCache: 'none' })\
        : r.update()).catch(() => {})";
    let by_address = page.engine() == Engine::Chromium;
    page.js(
        &script.replace("arguments[0]", &by_address.to_string()),
        vec![],
    )
    .await;
    for _ in 0..360 {
        if page.shows("#new-version").await {
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    }
    page.fail("no newer version is offered").await;
}

/// The version that a page is of.
const BUILD: &str = "return document.querySelector('meta[name=build]')?.content";

/// The old build, a plank half typed in one tab and another tab open, becomes the new one.
async fn update_from_the_old(engine: Engine) {
    let profile = Folder::new("next-update");
    let old = Dist::of(dist());
    let server = Server::of(old.path());
    let browser = Browser::start_in(engine, Device::Laptop, &profile).await;
    let page = browser.page();
    let dump = Dump::read().sample_closed();
    opened(&page, &dump, server.address()).await;
    page.wait_for(
        "the worker in charge",
        "navigator.serviceWorker.controller",
        vec![],
    )
    .await;
    let first = page.js(BUILD, vec![]).await;

    let pile = dump.about("stillwood", "passed_over").swap_remove(0);
    let front = page.web().window().await.expect("a window");
    let other = if engine == Engine::WebKit {
        skipped(
            engine,
            "an old tab beside a new one (its driver touches one window only)",
        );
        None
    } else {
        // The second tab stands on the pile of this device.
        let other = page.web().new_tab().await.expect("a second window");
        page.to_window(other.clone()).await;
        page.open(&format!("{}#/pile/{pile}", server.address()))
            .await;
        page.see("#pile-counts", "looked at").await;
        page.to_window(front.clone()).await;
        Some(other)
    };

    // The first has a plank under the thumb.
    page.go_to(&format!("#/pile/{pile}")).await;
    page.tap("#measure-new").await;
    page.fill("#f-Length", "91 3/8").await;
    steps::kept(&page, steps::OWN, "91 3/8").await;
    let version = release(old.path());
    newer_comes(&page).await;
    page.press("Update now").await;
    page.wait_for(
        "the new version",
        "document.querySelector('meta[name=build]')?.content === arguments[0]",
        vec![json!(version)],
    )
    .await;
    page.stands().await;
    // It stands on the same plank, as it was typed.
    all_measured(&page, &["91 3/8".to_owned()]).await;
    all_kept(&page, &dump, "stillwood").await;

    if let Some(other) = other {
        beside_each_other(&page, front, other, (&first, &version), &pile).await;
    }
    all_kept(&page, &dump, "stillwood").await;
    today(&page).await;
    for form in dump.forms().iter().filter(|form| !form.words.is_empty()) {
        page.see("#body a.item", &as_a_heading(&form.words)).await;
    }
    browser.close().await;
}

/// So many planks of the pile were turned over, as the new app says it.
async fn turned_over(page: &Page, count: u32) {
    page.see("#body .count", &format!("{count} planks turned over"))
        .await;
}

/// An old tab and a new one on one pile: each goes on, and each reads what the other writes.
async fn beside_each_other(
    page: &Page,
    front: WindowHandle,
    other: WindowHandle,
    (first, version): (&Value, &str),
    pile: &str,
) {
    // The old tab goes on as it was, and the new one reads what it writes.
    page.to_window(other.clone()).await;
    assert_eq!(
        page.js(BUILD, vec![]).await,
        *first,
        "it was not loaded anew"
    );
    let before = page.text("#pile-counts").await;
    let digits: String = before.chars().take_while(char::is_ascii_digit).collect();
    let before: u32 = digits.parse().expect("a count");
    page.tap("#no").await;
    page.see("#pile-counts", &format!("{} looked at", before + 1))
        .await;
    let saved = "document.querySelector('#saving')?.innerText.trim() === 'saved'";
    page.wait_for("“saved” in the old build", saved, vec![])
        .await;
    page.to_window(front.clone()).await;
    page.go_to(&format!("#/pile/{pile}")).await;
    turned_over(page, before + 1).await;

    // The other way: what the new one writes, the old one reads.
    page.tap_named("#foot button", "No").await;
    page.see(".toast", "No").await;
    turned_over(page, before + 2).await;
    page.to_window(other).await;
    page.see("#pile-counts", &format!("{} looked at", before + 2))
        .await;
    page.reload().await;
    assert_eq!(page.js(BUILD, vec![]).await, json!(version));
    turned_over(page, before + 2).await;
}

#[test]
fn the_old_build_updates_in_chromium() {
    run(update_from_the_old(Engine::Chromium));
}

#[test]
fn the_old_build_updates_in_firefox() {
    run(update_from_the_old(Engine::Firefox));
}

#[test]
fn the_old_build_updates_in_webkit() {
    run(update_from_the_old(Engine::WebKit));
}
