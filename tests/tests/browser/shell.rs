//! The shell of the app, broken: damaged, missing and hanging files are noticed and fetched anew where
//! there is a network; without one the maker is told, and saves the record without the app. And what
//! other websites may hand to it.

use serde_json::{Value, json};
use std::time::Duration;
use stillwood_core::record::{Limits, read};
use stillwood_tests::browser::steps::{
    OWN, begin_plank, kept, keys, quick_plank, save_record, set_up, titled, turned_over,
};
use stillwood_tests::browser::{
    Browser, Device, Folder, HOPPLE, Page, Pile, Server, downloaded, run,
};
use stillwood_tests::yard::Phone;

/// What is done to a kept file.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Spoilt {
    Flipped,
    Gone,
}

/// Files of the app by the pattern of their names; the page itself has none.
const MODULE: &str = r"_bg\.[0-9a-f]+\.wasm$";
const GLUE: &str = r"stillwood-web\.[0-9a-f]+\.js$";
const STYLES: &str = r"^app\..*css$";
const BOOT: &str = r"^boot\.";
const PATCH: &str = r"^patch\.";
const PAGE: &str = r"^$";

async fn ready_offline(page: &Page) {
    page.wait_for(
        "the worker in charge",
        "navigator.serviceWorker.controller",
        vec![],
    )
    .await;
}

/// The digest of a kept file; empty where there is none.
async fn digest(page: &Page, file: &str) -> String {
    let script = "(async (pattern) => {\
        for (const name of await caches.keys()) {\
            if (!name.startsWith('stillwood ')) continue;\
            const cache = await caches.open(name);\
            for (const request of await cache.keys()) {\
                if (!new RegExp(pattern).test(new URL(request.url).pathname.split('/').pop())) continue;\
                const bytes = await (await cache.match(request)).arrayBuffer();\
                const found = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));\
                return [...found].join(' ');\
            }\
        }\
        return '';\
    })(arguments[0]).then(done, (why) => done(String(why)))";
    let digest = page.js_async(script, vec![json!(file)]).await;
    digest.as_str().unwrap_or_default().to_owned()
}

/// Spoils a kept file, as a failing flash memory does.
async fn spoil(page: &Page, file: &str, how: Spoilt) {
    let before = digest(page, file).await;
    assert!(!before.is_empty(), "{file} is kept");
    let script = "(async (pattern, gone) => {\
        for (const name of await caches.keys()) {\
            if (!name.startsWith('stillwood ')) continue;\
            const cache = await caches.open(name);\
            for (const request of await cache.keys()) {\
                if (!new RegExp(pattern).test(new URL(request.url).pathname.split('/').pop())) continue;\
                const found = await cache.match(request);\
                const bytes = new Uint8Array(await found.arrayBuffer());\
                bytes[bytes.length >> 1] ^= 1;\
                if (gone) await cache.delete(request);\
                else await cache.put(request, new Response(bytes, { headers: found.headers }));\
            }\
        }\
        return 'spoilt';\
    })(arguments[0], arguments[1]).then(done, (why) => done(String(why)))";
    let args = vec![json!(file), json!(how == Spoilt::Gone)];
    assert_eq!(page.js_async(script, args).await, "spoilt");
    assert_ne!(digest(page, file).await, before);
}

/// Loads the page anew without waiting for the app.
async fn load_anew(page: &Page) {
    page.js("window.__before = true; location.reload()", vec![])
        .await;
    page.wait_for("the page to be loaded anew", "!window.__before", vec![])
        .await;
}

/// Cuts the device off, with no copy of any file but the one that the app keeps.
async fn cut_off(page: &Page, server: &mut Server) {
    server.stop();
    page.cdp("Network.clearBrowserCache", json!({})).await;
    page.network(false).await;
}

/// A record with two planks and a third half typed; the app's own file of it.
async fn with_a_record(page: &Page, server: &Server) -> String {
    set_up(page, server.address(), HOPPLE, Pile::MAPLE).await;
    ready_offline(page).await;
    for length in ["2620", "2480"] {
        quick_plank(page, length).await;
    }
    begin_plank(page).await;
    keys(page, "1999").await;
    kept(page, OWN, "1999").await;
    let loads = Folder::new("next-loads");
    page.download_into(loads.path()).await;
    page.go_to("#/carry").await;
    save_record(page).await;
    let (_, bytes) = downloaded(loads.path()).await;
    String::from_utf8(bytes).expect("text")
}

/// The entries of a file, without its first line, which says when it was written.
fn entries(file: &str) -> &str {
    file.split_once("\"entries\":").expect("a file of ours").1
}

/// Presses a button of the page that saves without the app; the file.
async fn saved_by(page: &Page, button: &str) -> String {
    let loads = Folder::new("next-rescued");
    page.download_into(loads.path()).await;
    page.press(button).await;
    let (name, bytes) = downloaded(loads.path()).await;
    page.see("#found", &format!("{name} was handed to the browser"))
        .await;
    String::from_utf8(bytes).expect("text")
}

/// Follows the link to the page that saves without the app, and holds its files to the app's own.
async fn rescue(page: &Page, app_file: &str) {
    page.see("#found", "entries").await;
    let file = saved_by(page, "Save the record").await;
    assert_eq!(entries(&file), entries(app_file), "byte for byte");
    let reading = read(file.as_bytes(), &Limits::default()).expect("a file of ours");
    assert!(reading.problems.is_empty(), "{:?}", reading.problems);
    assert_eq!(reading.header.count, Some(reading.accepted.len() as u64));
    let typed = saved_by(page, "Save what is half typed, and the settings").await;
    let typed: Value = serde_json::from_str(&typed).expect("JSON");
    assert!(typed["drafts"].to_string().contains("1999"), "{typed}");
    assert!(typed["settings"]["device"].is_string(), "{typed}");
}

#[test]
fn a_damaged_file_is_fetched_anew_where_there_is_a_network() {
    run(async {
        let profile = Folder::new("next-mends");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        ready_offline(&page).await;
        for (file, how) in [
            (MODULE, Spoilt::Flipped),
            (MODULE, Spoilt::Gone),
            (GLUE, Spoilt::Flipped),
            (GLUE, Spoilt::Gone),
            (PATCH, Spoilt::Flipped),
            (PATCH, Spoilt::Gone),
            (BOOT, Spoilt::Flipped),
            (PAGE, Spoilt::Flipped),
            (STYLES, Spoilt::Flipped),
            (r"^rescue\.html$", Spoilt::Flipped),
        ] {
            let before = digest(&page, file).await;
            spoil(&page, file, how).await;
            load_anew(&page).await;
            page.stands().await;
            turned_over(&page, 0).await;
            let mended = async {
                while digest(&page, file).await != before {
                    tokio::time::sleep(Duration::from_millis(250)).await;
                }
            };
            let ended = tokio::time::timeout(Duration::from_secs(60), mended).await;
            assert!(ended.is_ok(), "{file} stays damaged");
            // The page loads itself anew once, not for ever: each fault here is one of its own.
            page.js("sessionStorage.clear()", vec![]).await;
        }
        browser.close().await;
    });
}

/// The page before, or another window, may have had the file mended between this page's start and its own look.
#[test]
fn a_damaged_file_that_is_mended_meanwhile_is_tried_again() {
    run(async {
        let profile = Folder::new("next-meanwhile");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        ready_offline(&page).await;
        let mended_before = "const ask = ServiceWorker.prototype.postMessage;\
            ServiceWorker.prototype.postMessage = function (...asked) {\
                if (asked[0].type !== 'mend') return ask.apply(this, asked);\
                const { port1, port2 } = new MessageChannel();\
                port1.onmessage = () => ask.apply(this, asked);\
                ask.call(this, { type: 'mend' }, [port2]);\
            };";
        let planted = json!({ "source": mended_before });
        page.cdp("Page.addScriptToEvaluateOnNewDocument", planted)
            .await;
        spoil(&page, MODULE, Spoilt::Flipped).await;
        load_anew(&page).await;
        page.stands().await;
        turned_over(&page, 0).await;
        browser.close().await;
    });
}

#[test]
fn without_a_network_it_says_so_and_the_record_is_saved_all_the_same() {
    run(async {
        let profile = Folder::new("next-rescue");
        let mut server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let app_file = with_a_record(&page, &server).await;
        let whole = digest(&page, MODULE).await;
        spoil(&page, MODULE, Spoilt::Flipped).await;
        cut_off(&page, &mut server).await;
        load_anew(&page).await;
        page.see("#app", "Stillwood could not open").await;
        page.see("#app", "is damaged or gone").await;
        page.see("#app", "where there is a network").await;
        page.press("Save the record as a file").await;
        rescue(&page, &app_file).await;
        // With a network again it mends itself, and nothing is lost.
        server.start_again();
        page.network(true).await;
        page.press("Open Stillwood").await;
        page.stands().await;
        assert_eq!(digest(&page, MODULE).await, whole);
        page.go_to("#/planks").await;
        titled(&page, "All planks").await;
        two_planks(&page).await;
        browser.close().await;
    });
}

#[test]
fn whichever_file_is_broken_without_a_network_the_record_is_in_reach() {
    run(async {
        let profile = Folder::new("next-broken");
        let mut server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let app_file = with_a_record(&page, &server).await;
        let address = server.address().to_owned();
        for (file, how) in [
            (MODULE, Spoilt::Gone),
            (GLUE, Spoilt::Flipped),
            (GLUE, Spoilt::Gone),
        ] {
            spoil(&page, file, how).await;
            cut_off(&page, &mut server).await;
            load_anew(&page).await;
            page.see("#app", "Stillwood could not open").await;
            page.press("Save the record as a file").await;
            rescue(&page, &app_file).await;
            server.start_again();
            page.network(true).await;
            page.js("sessionStorage.clear()", vec![]).await;
            page.open(&address).await;
        }
        // Where the page itself or what starts it is damaged, that page stands in its place.
        for file in [PAGE, BOOT] {
            spoil(&page, file, Spoilt::Flipped).await;
            cut_off(&page, &mut server).await;
            load_anew(&page).await;
            page.see(
                "#why",
                "a file of the app on this device is damaged or gone",
            )
            .await;
            rescue(&page, &app_file).await;
            server.start_again();
            page.network(true).await;
            page.open(&address).await;
        }
        // A damaged style is said, and keeps nobody from working.
        spoil(&page, STYLES, Spoilt::Flipped).await;
        cut_off(&page, &mut server).await;
        load_anew(&page).await;
        page.stands().await;
        page.see("#shell-note", "app.").await;
        page.see("#shell-note", "could not be fetched anew").await;
        page.press("Put this away").await;
        page.gone("#shell-note").await;
        browser.close().await;
    });
}

#[test]
fn a_start_that_throws_or_hangs_leads_to_the_record_too() {
    run(async {
        let profile = Folder::new("next-hangs");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let app_file = with_a_record(&page, &server).await;
        for (planted, says) in [
            (
                "WebAssembly.instantiate = () => { throw new Error('planted by a test') }",
                "What went wrong: planted by a test",
            ),
            (
                "WebAssembly.instantiate = () => new Promise(() => {})",
                "This takes longer than it should",
            ),
        ] {
            let source = json!({ "source": planted });
            let id = page
                .cdp("Page.addScriptToEvaluateOnNewDocument", source)
                .await["identifier"]
                .clone();
            load_anew(&page).await;
            page.see("#app", says).await;
            let id = json!({ "identifier": id });
            page.cdp("Page.removeScriptToEvaluateOnNewDocument", id)
                .await;
            page.press("Save the record as a file").await;
            rescue(&page, &app_file).await;
            page.open(server.address()).await;
        }
        browser.close().await;
    });
}

#[test]
fn the_page_that_saves_reads_what_is_damaged_and_leaves_all_as_it_is() {
    run(async {
        let profile = Folder::new("next-damaged");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let rescue_page = format!("{}rescue.html", server.address());
        let goto = async || {
            let asked = page.web().goto(&rescue_page).await;
            asked.expect("the page is asked for");
        };
        // On a new device there is nothing, and nothing comes into being by looking for it.
        goto().await;
        page.see("#found", "There is no record on this device")
            .await;
        let app_file = with_a_record(&page, &server).await;
        let lines: Vec<&str> = entries(&app_file)
            .lines()
            .filter(|line| line.starts_with('{'))
            .map(|line| line.trim_end_matches(','))
            .collect();
        let plant = "const bytes = (text) => new TextEncoder().encode(text);\
            const open = indexedDB.open('stillwood');\
            open.onsuccess = () => {\
                const t = open.result.transaction('pages', 'readwrite');\
                const pages = t.objectStore('pages');\
                pages.add(bytes(arguments[0] + '\\n' + arguments[0].slice(0, 40)));\
                pages.add(bytes('\\n' + arguments[0]));\
                pages.add('no bytes at all');\
                pages.add(new Uint8Array([123, 255, 254, 125]));\
                t.oncomplete = () => { open.result.close(); done('planted') };\
            }";
        assert_eq!(page.js_async(plant, vec![json!(lines[0])]).await, "planted");
        goto().await;
        page.see("#found", "2 lines are damaged").await;
        page.see("#found", "holds no bytes").await;
        rescue(&page, &app_file).await;
        let damaged = Folder::new("next-lines");
        page.download_into(damaged.path()).await;
        page.press("Save the damaged lines").await;
        let (_, bytes) = downloaded(damaged.path()).await;
        let mut expected = lines[0].as_bytes()[..40].to_vec();
        expected.extend_from_slice(b"\n{\xff\xfe}\n");
        assert_eq!(bytes, expected);
        page.open(server.address()).await;
        page.go_to("#/planks").await;
        titled(&page, "All planks").await;
        two_planks(&page).await;
        browser.close().await;
    });
}

/// A page of another site that sends a file to the app as soon as it is open.
fn other_site(folder: &Folder, app: &str, referrer: &str, file: &str) {
    let file = serde_json::to_string(file).expect("a text");
    let page = format!(
        "<!doctype html><meta charset=utf-8><meta name=referrer content={referrer}>\
         <form method=post enctype=multipart/form-data action={app}share>\
         <input type=file name=notebook></form><p id=there>Another site</p>\
         <script>const to = new DataTransfer();\
         to.items.add(new File([{file}], 'gift.json', {{ type: 'application/json' }}));\
         document.querySelector('input').files = to.files;\
         addEventListener('message', () => {{}});\
         window.send = () => document.forms[0].submit();</script>"
    );
    folder.put("index.html", page);
}

async fn waiting(page: &Page) -> Value {
    let script = "caches.open('stillwood-shared').then(c => c.keys()).then(k => done(k.length))";
    page.js_async(script, vec![]).await
}

#[test]
fn another_website_hands_nothing_in() {
    run(async {
        let (profile, foreign) = (Folder::new("next-share"), Folder::new("next-foreign"));
        let (server, other) = (Server::start(), Server::of(foreign.path()));
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        ready_offline(&page).await;
        let mut phone = Phone::new("M4");
        phone.pile();
        let gift = phone.file();
        // One that gives its name is refused.
        other_site(&foreign, server.address(), "origin", &gift);
        let asked = page.web().goto(other.address()).await;
        asked.expect("the other site");
        page.see("#there", "Another site").await;
        page.js("window.send()", vec![]).await;
        page.stands().await;
        page.see(
            ".toast",
            "Another website tried to hand a file to Stillwood",
        )
        .await;
        assert_eq!(waiting(&page).await, 0);
        page.go_to("#/carry").await;
        page.see("#body", "Bring a file in").await;
        assert!(!page.text("#body").await.contains("gift.json"));
        // What was told is not told again.
        page.reload().await;
        page.gone(".toast").await;
        // One that hides it can't be told from another app: it waits, and is shown as what it is.
        other_site(&foreign, server.address(), "no-referrer", &gift);
        let asked = page.web().goto(other.address()).await;
        asked.expect("the other site");
        page.see("#there", "Another site").await;
        page.js("window.send()", vec![]).await;
        page.see("#body", "gift.json").await;
        page.see("#body", "website that does not give its name")
            .await;
        page.go_to("#/").await;
        assert!(!page.text("#app").await.contains("M4-1-3"));
        browser.close().await;
    });
}

#[test]
fn too_much_at_one_time_is_refused_whole() {
    run(async {
        let profile = Folder::new("next-too-much");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        ready_offline(&page).await;
        let share = "(async (count) => {\
            const form = new FormData();\
            for (let i = 0; i < count; i++) form.append('notebook', new File(['{}'], `${i}.json`));\
            const answer = await fetch('./share', { method: 'POST', body: form, redirect: 'manual' });\
            return (await caches.open('stillwood-shared').then(c => c.keys())).length;\
        })(arguments[0]).then(done, why => done(String(why)))";
        assert_eq!(page.js_async(share, vec![json!(21)]).await, 0);
        assert_eq!(page.js_async(share, vec![json!(19)]).await, 19);
        assert_eq!(page.js_async(share, vec![json!(2)]).await, 19);
        assert_eq!(page.js_async(share, vec![json!(1)]).await, 20);
        page.web()
            .goto(format!("{}?shared=too-much", server.address()))
            .await
            .expect("the page is asked for");
        page.see(".toast", "Too much was shared to Stillwood").await;
        browser.close().await;
    });
}

/// Both planks of the record are in the list.
async fn two_planks(page: &Page) {
    page.wait_for(
        "two planks",
        "document.querySelectorAll('#body a.item .what strong').length === 2",
        vec![],
    )
    .await;
}

#[test]
fn before_the_app_and_without_it_the_language_is_the_one_that_was_chosen() {
    run(async {
        let profile = Folder::new("next-language");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let lang = async || {
            page.js("return document.documentElement.lang", vec![])
                .await
        };
        assert_eq!(lang().await, "en", "as the browser has it");
        page.go_to("#/settings").await;
        page.press("Deutsch").await;
        page.wait_for(
            "the note of the language",
            "localStorage.getItem('language') === 'de'",
            vec![],
        )
        .await;
        page.go_to("#/").await;
        // The app never comes: what stands there is the page's own.
        let hangs = "WebAssembly.instantiate = () => new Promise(() => {})";
        let source = json!({ "source": hangs });
        let planted = page
            .cdp("Page.addScriptToEvaluateOnNewDocument", source)
            .await["identifier"]
            .clone();
        load_anew(&page).await;
        let start = page.see("#app", "Bohlen messen, wo sie liegen").await;
        assert!(!start.contains("Measure planks"), "{start}");
        assert_eq!(lang().await, "de");
        page.see("#app", "Das dauert länger, als es sollte").await;
        let planted = json!({ "identifier": planted });
        page.cdp("Page.removeScriptToEvaluateOnNewDocument", planted)
            .await;
        page.press("Die Aufzeichnung als Datei sichern").await;
        page.see("#found", "Einträge").await;
        let rescue = page.see("#rescue", "Diese Seite geht auch").await;
        assert!(!rescue.contains("This page works"), "{rescue}");
        assert_eq!(lang().await, "de");
        page.press("Stillwood öffnen").await;
        page.stands().await;
        page.go_to("#/settings").await;
        page.press("English").await;
        load_anew(&page).await;
        page.stands().await;
        assert_eq!(lang().await, "en");
        browser.close().await;
    });
}
