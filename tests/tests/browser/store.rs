//! The store emptied from outside while the app is open: at each point of the day, by a second tab,
//! while writes are on their way, and with two windows that both notice. Nothing that was acknowledged is missing
//! after a reload. And what is damaged in it: it stays, and hides nothing else.

use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use stillwood_core::plank::Field;
use stillwood_tests::browser::steps::{
    OWN, begin_plank, bring_in, hold, kept, keys, marks_once, measuring, new_pile, press,
    press_with, quick_plank, set_up, start_visit, titled, to_verdict, turned_over, typed,
};
use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Pile, Server, program, run};
use stillwood_tests::yard::Phone;

/// All that the browser's database holds, by store and key; pages as text. A database that is not there is not made
/// by looking: its stores are empty.
async fn stored(page: &Page) -> Value {
    let script = "const open = indexedDB.open('stillwood');\
        const none = () => done(JSON.stringify({ pages: {}, drafts: {}, settings: {} }));\
        open.onupgradeneeded = () => open.transaction.abort();\
        open.onerror = (event) => { event.preventDefault(); none(); };\
        open.onsuccess = async () => {\
            const all = {};\
            for (const name of ['pages', 'drafts', 'settings']) {\
                const store = open.result.transaction(name).objectStore(name);\
                const asked = [store.getAllKeys(), store.getAll()];\
                const [keys, values] = await Promise.all(asked.map(one => new Promise((is, not) => {\
                    one.onsuccess = () => is(one.result); one.onerror = not; })));\
                all[name] = Object.fromEntries(keys.map((key, n) => [key,\
                    values[n] instanceof Uint8Array ? new TextDecoder().decode(values[n]) : values[n]]));\
            }\
            open.result.close();\
            done(JSON.stringify(all));\
        };";
    let all = page.js_async(script, vec![]).await;
    serde_json::from_str(all.as_str().expect("text")).expect("JSON")
}

/// Waits until the settings in the browser's database hold a text.
async fn settings_hold(page: &Page, wanted: &str) {
    let mut settings = Value::Null;
    for _ in 0..200 {
        settings = stored(page).await["settings"]["settings"].clone();
        if settings.as_str().is_some_and(|text| text.contains(wanted)) {
            return;
        }
    }
    panic!("{wanted} was never among the settings: {settings}");
}

/// Puts something into the browser's database, past the app.
async fn plant(page: &Page, store: &str, key: Value, value: Value) {
    let script = "const [name, key, value] = arguments;\
        const open = indexedDB.open('stillwood');\
        open.onsuccess = () => {\
            const change = open.result.transaction(name, 'readwrite');\
            const bytes = name === 'pages' ? new TextEncoder().encode(value) : value;\
            const store = change.objectStore(name);\
            key === null ? store.add(bytes) : store.put(bytes, key);\
            change.oncomplete = () => { open.result.close(); done(true); };\
        };";
    page.js_async(script, vec![json!(store), key, value]).await;
}

/// Deletes the database from a second tab of the same address, which knows nothing of the app.
async fn deleted_from_a_second_tab(page: &Page, server: &Server) {
    let one = page.web().window().await.expect("a window");
    let two = page.web().new_tab().await.expect("a second window");
    page.to_window(two).await;
    let plain = format!("{}notebook-v1.schema.json", server.address());
    page.web()
        .goto(&plain)
        .await
        .expect("a page without the app");
    let script = "const gone = indexedDB.deleteDatabase('stillwood');\
        gone.onsuccess = () => done('gone'); gone.onerror = () => done('refused');";
    assert_eq!(page.js_async(script, vec![]).await, "gone");
    page.web().close_window().await.expect("it closes");
    page.to_window(one).await;
}

/// The news that the store was emptied.
const EMPTIED: &str = "This browser's store for Stillwood was emptied from outside. The record was written back from this window.";

/// Says that the store was emptied, whatever the screen, and goes on.
async fn told_and_gone_on(page: &Page) {
    page.see(".notice", EMPTIED).await;
    press(page, "Keep it").await;
    page.wait_for(
        "the news to go",
        "![...document.querySelectorAll('.notice')].some((e) => e.innerText.includes(arguments[0]))",
        vec![json!(EMPTIED)],
    )
    .await;
}

#[test]
fn the_store_deleted_at_each_point_of_the_day() {
    run(async {
        let (profile, files) = (Folder::new("next-deleted"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();

        // Nothing in it but the device's name.
        page.open(server.address()).await;
        let device = device_of(&stored(&page).await);
        deleted_from_a_second_tab(&page, &server).await;
        start_visit(&page, HOPPLE).await;
        page.reload().await;
        page.go_to("#/yard").await;
        page.see("#body", HOPPLE).await;
        assert_eq!(device_of(&stored(&page).await), device, "the same device");

        // A visit open, and chosen units.
        page.go_to("#/settings").await;
        press(&page, "inches, lb, °F").await;
        settings_hold(&page, "\"inch\"").await;
        deleted_from_a_second_tab(&page, &server).await;
        told_and_gone_on(&page).await;
        page.reload().await;
        settings_hold(&page, "\"inch\"").await;
        press(&page, "mm, kg, °C").await;
        page.go_to("#/yard").await;
        press_with(&page, HOPPLE).await;
        new_pile(&page, Pile::MAPLE).await;

        // A plank half typed: it is told on the screen of measuring too.
        let mark = begin_plank(&page).await;
        keys(&page, "2480 next 21").await;
        kept(&page, OWN, "\"text\":\"21\"").await;
        deleted_from_a_second_tab(&page, &server).await;
        told_and_gone_on(&page).await;
        page.reload().await;
        assert_eq!(measuring(&page).await, mark);
        page.see("#drawing", "2480").await;
        page.see("#drawing", "21").await;
        to_verdict(&page).await;
        hold(&page).await;

        // After a file was brought in.
        let mut other = Phone::new("M4");
        let (_, pile) = other.pile();
        other.plank(
            pile,
            "M4-1-3",
            &[(Field::Length, "2300"), (Field::WidthNear, "205")],
        );
        let path = files.put("other.json", other.file());
        bring_in(&page, &path).await;
        deleted_from_a_second_tab(&page, &server).await;
        told_and_gone_on(&page).await;
        let before = stored(&page).await;
        page.reload().await;
        let marks = marks_once(&page).await;
        assert!(marks.contains(&mark), "{mark} is not among {marks:?}");
        assert_eq!(marks.len(), 2, "{marks:?}");
        assert_eq!(device_of(&before), device);
        browser.close().await;
    });
}

#[test]
fn the_store_deleted_again_and_again_while_planks_are_written() {
    run(async {
        let profile = Folder::new("next-deleted-often");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let script = "window.__deleted = 0;\
            window.__deleting = setInterval(() => {\
                indexedDB.deleteDatabase('stillwood').onsuccess = () => window.__deleted++; }, 97)";
        page.js(script, vec![]).await;
        // The notice moves all that stands below it once: no key is touched while it comes.
        page.see(".notice", EMPTIED).await;
        let mut acknowledged = BTreeSet::new();
        for length in ["2620", "2480", "2300", "2750"] {
            acknowledged.insert(quick_plank(&page, length).await);
        }
        let deleted = page.js("return window.__deleted", vec![]).await;
        assert!(
            deleted.as_u64().is_some_and(|times| times > 10),
            "{deleted}"
        );
        page.js("clearInterval(window.__deleting)", vec![]).await;
        page.see(".notice", EMPTIED).await;
        // It is over when the store holds all of them.
        for mark in &acknowledged {
            in_the_pages(&page, mark).await;
        }
        browser.kill().await;
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        assert_eq!(marks_once(&page).await, acknowledged);
        browser.close().await;
    });
}

/// Waits until an entry of the browser's database holds a mark.
async fn in_the_pages(page: &Page, mark: &str) {
    for _ in 0..200 {
        if stored(page).await["pages"].to_string().contains(mark) {
            return;
        }
    }
    panic!("{mark} is not in the store");
}

#[test]
fn two_windows_that_both_notice_neither_double_nor_lose() {
    run(async {
        let profile = Folder::new("next-both-notice");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = page.js("return location.href", vec![]).await;
        let first = quick_plank(&page, "2620").await;
        let one = page.web().window().await.expect("a window");
        let two = page.web().new_tab().await.expect("a second window");
        page.to_window(two.clone()).await;
        page.open(pile.as_str().expect("an address")).await;
        let second = quick_plank(&page, "2480").await;
        deleted_from_a_second_tab(&page, &server).await;
        for window in [&two, &one] {
            page.to_window(window.clone()).await;
            page.see(".notice", EMPTIED).await;
        }
        let third = quick_plank(&page, "2300").await;
        let expected = BTreeSet::from([first, second, third]);
        for window in [two, one] {
            page.to_window(window).await;
            turned_over_or_listed(&page, expected.len()).await;
            assert_eq!(marks_once(&page).await, expected);
        }
        let all = stored(&page).await;
        let pages = all["pages"].as_object().expect("pages");
        let lines: Vec<&str> = pages
            .values()
            .filter_map(Value::as_str)
            .flat_map(str::lines)
            .collect();
        let apart: BTreeSet<&str> = lines.iter().copied().collect();
        assert_eq!(lines.len(), apart.len(), "no entry is stored twice");
        page.reload().await;
        assert_eq!(marks_once(&page).await, expected);
        browser.close().await;
    });
}

/// Waits until the list of planks holds so many.
async fn turned_over_or_listed(page: &Page, planks: usize) {
    page.go_to("#/planks").await;
    titled(page, "All planks").await;
    page.wait_for(
        &format!("{planks} planks"),
        "document.querySelectorAll('#body a.item .what strong').length === arguments[0]",
        vec![json!(planks)],
    )
    .await;
}

#[test]
fn whoever_meant_it_deletes_everything_in_every_window() {
    run(async {
        let profile = Folder::new("next-meant");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let one = page.web().window().await.expect("a window");
        let two = page.web().new_tab().await.expect("a second window");
        page.to_window(two.clone()).await;
        page.open(&format!("{}#/yard", server.address())).await;
        page.see("#body", HOPPLE).await;
        deleted_from_a_second_tab(&page, &server).await;
        page.see(".notice", EMPTIED).await;
        // A second copy, as it is kept after the disk refused a write: it must not bring back what is deleted.
        let copied = "const [lines] = arguments;\
            caches.open('stillwood-second-copy')\
                .then(kept => kept.put('./second-copy-of-record', new Response(lines)))\
                .then(() => done(true))";
        let pages = stored(&page).await["pages"].clone();
        let pages: BTreeMap<String, String> = serde_json::from_value(pages).expect("pages");
        let lines: String = pages.into_values().collect();
        assert!(lines.contains(HOPPLE));
        page.js_async(copied, vec![json!(lines)]).await;
        press(&page, "Delete everything").await;
        page.see("#dialog", "Files that you saved stay").await;
        press(&page, "Delete everything …").await;
        page.see("#dialog", "This can't be undone").await;
        page.js("window.__before = true", vec![]).await;
        press(&page, "Delete it all").await;
        page.wait_for("the page to be loaded anew", "!window.__before", vec![])
            .await;
        for window in [two, one] {
            page.to_window(window).await;
            page.see("#body", "Start a visit").await;
            assert!(!page.text("#app").await.contains(HOPPLE));
        }
        page.reload().await;
        let all = stored(&page).await;
        assert_eq!(all["pages"], json!({}));
        start_visit(&page, "Another yard").await;
        page.reload().await;
        titled(&page, "Another yard").await;
        browser.close().await;
    });
}

#[test]
fn a_deed_without_a_number_is_told_and_stays_on_the_screen() {
    run(async {
        let profile = Folder::new("next-no-number");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = page.js("return location.hash", vec![]).await;
        let before = stored(&page).await;
        let counters: Vec<String> = before["settings"]
            .as_object()
            .expect("settings")
            .keys()
            .filter(|key| key.starts_with("seq"))
            .cloned()
            .collect();
        assert_eq!(counters.len(), 1, "{before}");
        let mark = begin_plank(&page).await;
        keys(&page, "2620 next 205").await;
        kept(&page, OWN, "\"text\":\"205\"").await;
        to_verdict(&page).await;
        // At the end of its range, and past what a number of 64 bits holds.
        for number in ["9007199254740991", "18446744073709551615"] {
            plant(&page, "settings", json!(counters[0]), json!(number)).await;
            press(&page, "Hold").await;
            page.see(".toast", "Not saved").await;
            titled(&page, &mark).await;
            page.gone(".toast").await;
        }
        let after = stored(&page).await;
        assert_eq!(after["pages"], before["pages"], "no empty page");
        page.reload().await;
        titled(&page, &mark).await;
        press(&page, "Back").await;
        assert_eq!(measuring(&page).await, mark);
        assert_eq!(typed(&page, "Length").await, "2620");
        assert_eq!(typed(&page, "Width near").await, "205");
        to_verdict(&page).await;
        // Mended, it is saved.
        plant(
            &page,
            "settings",
            json!(counters[0]),
            before["settings"][&counters[0]].clone(),
        )
        .await;
        hold(&page).await;
        page.go_to(pile.as_str().expect("an address")).await;
        turned_over(&page, 1).await;
        page.reload().await;
        assert_eq!(marks_once(&page).await, BTreeSet::from([mark]));
        browser.close().await;
    });
}

#[test]
fn what_is_damaged_stays_and_hides_nothing_else() {
    run(async {
        let profile = Folder::new("next-damaged");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let mark = begin_plank(&page).await;
        keys(&page, "2480 next 214").await;
        kept(&page, OWN, "\"text\":\"214\"").await;
        let plank = page.js("return location.href", vec![]).await;
        let whole = stored(&page).await;

        // A draft that is no text, one that is no draft, settings that are none, a line that is no entry.
        plant(&page, "drafts", json!("damaged"), json!({ "no": "text" })).await;
        plant(&page, "drafts", json!("form/damaged"), json!("{\"at\":")).await;
        plant(
            &page,
            "settings",
            json!("settings"),
            json!("{\"units\":\"inch\","),
        )
        .await;
        let line = whole["pages"]["1"]
            .as_str()
            .expect("a page")
            .lines()
            .next()
            .expect("a line");
        let broken = line.replacen("\"seq\"", "\"sequence\"", 1);
        plant(
            &page,
            "pages",
            Value::Null,
            json!(format!("{line}\n{broken}")),
        )
        .await;
        page.open(plank.as_str().expect("an address")).await;
        page.reload().await;
        assert_eq!(measuring(&page).await, mark);
        page.see("#drawing", "2480").await;
        page.see("#drawing", "214").await;
        to_verdict(&page).await;
        hold(&page).await;
        // The settings are written, and what could not be read is still there.
        page.go_to("#/settings").await;
        page.see("#body", "4 parts of what this device keeps are damaged")
            .await;
        press(&page, "inches, lb, °F").await;
        // A page that is left while it writes may lose what it had not yet written: the new settings first.
        settings_hold(&page, "\"inch\"").await;
        page.reload().await;
        let after = stored(&page).await;
        assert_eq!(after["drafts"]["damaged"], json!({ "no": "text" }));
        assert_eq!(after["drafts"]["form/damaged"], "{\"at\":");
        assert_eq!(
            after["settings"]["unreadable/settings/1"],
            "{\"units\":\"inch\","
        );
        let settings = after["settings"]["settings"].as_str().expect("settings");
        assert!(settings.contains("\"inch\""), "{settings}");
        let pages = after["pages"].as_object().expect("pages");
        assert!(
            pages
                .values()
                .any(|page| *page == json!(format!("{line}\n{broken}")))
        );
        browser.close().await;
    });
}

#[test]
fn small_pages_are_gathered_and_damaged_ones_are_left_alone() {
    run(async {
        let profile = Folder::new("next-gathered");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let before = stored(&page).await;
        let pages = before["pages"].as_object().expect("pages");
        let lines: Vec<&str> = pages
            .values()
            .filter_map(Value::as_str)
            .flat_map(str::lines)
            .collect();
        // Seventy pages without a final newline, one among them damaged.
        for _ in 0..70 {
            plant(&page, "pages", Value::Null, json!(lines[0])).await;
        }
        let damaged = format!("{}\n{{\"half\":", lines[0]);
        plant(&page, "pages", Value::Null, json!(damaged)).await;
        page.reload().await;
        let mut count = usize::MAX;
        for _ in 0..100 {
            let now = stored(&page).await;
            count = now["pages"].as_object().expect("pages").len();
            if count < 10 {
                break;
            }
        }
        assert_eq!(count, 2, "one gathered, one damaged");
        let after = stored(&page).await;
        let pages = after["pages"].as_object().expect("pages");
        assert!(
            pages.values().any(|page| *page == json!(damaged)),
            "byte for byte"
        );
        let gathered = pages
            .values()
            .filter_map(Value::as_str)
            .find(|page| *page != damaged);
        let gathered: Vec<&str> = gathered.expect("the gathered page").lines().collect();
        assert!(
            lines.iter().all(|line| gathered.contains(line)),
            "{gathered:?}"
        );
        // And the window writes on.
        page.go_to("#/yard").await;
        start_visit(&page, "Another yard").await;
        page.gone(".notice.bad").await;
        page.reload().await;
        page.go_to("#/yard").await;
        page.see("#body", "Another yard").await;
        page.see("#body", HOPPLE).await;
        browser.close().await;
    });
}

/// Copies a folder with all below it.
fn copy_below(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder").flatten() {
        let (source, target) = (entry.path(), to.join(entry.file_name()));
        match entry.file_type() {
            Ok(kind) if kind.is_dir() => copy_below(&source, &target),
            Ok(kind) if kind.is_file() => drop(fs::copy(&source, &target).expect("a copy")),
            // Links to a running browser.
            _ => {}
        }
    }
}

fn device_of(stored: &Value) -> Value {
    let text = stored["settings"]["device"].as_str().expect("a device");
    serde_json::from_str(text).expect("JSON")
}

/// Who wrote the entries of a store.
fn writers(stored: &Value) -> BTreeSet<String> {
    let pages = stored["pages"].as_object().expect("pages");
    let lines = pages
        .values()
        .filter_map(Value::as_str)
        .flat_map(str::lines);
    lines
        .map(|line| serde_json::from_str::<Value>(line).expect("an entry")["by"].clone())
        .map(|by| by.as_str().expect("a name").to_owned())
        .collect()
}

#[test]
fn a_restored_copy_takes_a_name_of_its_own_before_it_writes() {
    run(async {
        let (profile, copy) = (Folder::new("first"), Folder::new("copy"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let mark = quick_plank(&page, "2620").await;
        let before = stored(&page).await;
        let device = device_of(&before);
        let id = device["id"].as_str().expect("an identity").to_owned();
        assert_eq!(device["sign"], id[..2], "{device}");
        assert_eq!(writers(&before), BTreeSet::from([id.clone()]));
        let counted = before["settings"][format!("seq-of-{id}")].clone();
        assert!(counted.is_string(), "{before}");
        // A start later it is the same.
        page.reload().await;
        assert_eq!(device_of(&stored(&page).await), device);
        browser.close().await;

        copy_below(profile.path(), copy.path());
        fs::remove_dir_all(copy.path().join("Default/Local Storage")).expect("its web storage");
        let browser = Browser::start(Device::Phone, &copy).await;
        let page = browser.page();
        page.open(server.address()).await;
        let now = device_of(&stored(&page).await);
        assert_ne!(now["id"], device["id"]);
        assert_eq!(marks_once(&page).await, BTreeSet::from([mark]));
        page.go_to("#/yard").await;
        start_visit(&page, "Another yard").await;
        let after = stored(&page).await;
        let new = now["id"].as_str().expect("an identity").to_owned();
        assert_eq!(writers(&after), BTreeSet::from([id.clone(), new.clone()]));
        assert_eq!(after["settings"][format!("seq-of-{new}")], "1");
        assert_eq!(after["settings"][format!("seq-of-{id}")], counted);
        page.reload().await;
        assert_eq!(device_of(&stored(&page).await), now, "once is enough");
        browser.close().await;
    });
}

#[test]
fn what_ships_has_no_hook_for_tests() {
    let dist = program("STILLWOOD_DIST");
    let mut modules = 0;
    for file in fs::read_dir(&dist).expect("the built app").flatten() {
        let name = file.file_name().to_string_lossy().into_owned();
        if !name.ends_with(".wasm") && !name.ends_with(".js") {
            continue;
        }
        modules += usize::from(name.ends_with(".wasm"));
        let bytes = fs::read(file.path()).expect("a file");
        let hook = b"__stillwood";
        let found = bytes.windows(hook.len()).any(|part| part == hook);
        assert!(!found, "{name} holds a hook for tests");
    }
    assert_eq!(modules, 1, "the module was looked at");
}
