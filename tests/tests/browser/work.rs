//! What takes a while: what is painted before the app has come, a long file that is stopped while it is brought in or
//! written, and a plan of many blanks.

use serde_json::json;
use stillwood_core::plank::Field;
use stillwood_tests::browser::{
    Browser, Device, Folder, HOPPLE, Page, Pile, Server, downloaded, run, steps,
};
use stillwood_tests::yard::Phone;

/// Keeps what stood in the page before the app drew its first screen: each text that was there, once.
const WATCH: &str = "window.__paintedFirst = [];\
    let stood = false;\
    new MutationObserver((_, watching) => {\
        const app = document.querySelector('#app');\
        const stands = !!app?.querySelector('.opening');\
        if (!stands && stood) watching.disconnect(); /* before, the page was not parsed so far */\
        if (!stands) return;\
        stood = true;\
        const text = [...app.querySelectorAll('p, h1, #bar span')].map(e => e.textContent.trim()).join(' | ');\
        const keys = app.querySelectorAll('button, a[href]:not(.late a), [data-press]').length;\
        if (!window.__paintedFirst.some(([known]) => known === text)) window.__paintedFirst.push([text, keys]);\
    }).observe(document, { childList: true, subtree: true });";

/// What was painted last before the app's first screen, and how many keys it had.
async fn painted_before(page: &Page) -> (String, u64) {
    let last = page.js("return window.__paintedFirst.at(-1)", vec![]).await;
    let text = last[0].as_str().unwrap_or_default().to_owned();
    (text, last[1].as_u64().expect("a count of keys"))
}

#[test]
fn before_the_app_has_come_the_start_or_a_neutral_frame_stands_with_nothing_to_press() {
    run(async {
        let profile = Folder::new("first-frame");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let watch = json!({ "source": WATCH });
        page.cdp("Page.addScriptToEvaluateOnNewDocument", watch)
            .await;
        page.open(server.address()).await;
        let (text, keys) = painted_before(&page).await;
        assert!(text.contains("Measure planks where they lie"), "{text}");
        assert!(!text.contains("Racks") && keys == 0, "{text}: {keys}");
        // Still nothing is recorded.
        page.reload().await;
        let (text, _) = painted_before(&page).await;
        assert!(text.contains("Measure planks where they lie"), "{text}");

        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        page.go_to("#/").await;
        steps::titled(&page, "Today").await;
        page.reload().await;
        let (text, keys) = painted_before(&page).await;
        assert!(!text.contains("Measure planks"), "{text}");
        assert!(text.contains("Racks") && keys == 0, "{text}: {keys}");
        browser.close().await;
    });
}

/// Planks of a file that takes a while.
const PLANKS: usize = 12_000;

fn long_file() -> String {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    for n in 0..PLANKS {
        let length = (2000 + n % 900).to_string();
        phone.plank(
            pile,
            &format!("K7-{n}"),
            &[(Field::Length, length.as_str())],
        );
    }
    phone.file()
}

/// How many of a kind stand in the database, by the keys of its store.
async fn kept(page: &Page, store: &str, begins: &str) -> u64 {
    let script = "const [store, begins] = arguments;\
        const open = indexedDB.open('stillwood');\
        open.onsuccess = () => {\
            const all = open.result.transaction(store).objectStore(store).getAllKeys();\
            all.onsuccess = () => {\
                open.result.close();\
                done(all.result.filter((key) => String(key).startsWith(begins)).length);\
            };\
        };";
    let count = page
        .js_async(script, vec![json!(store), json!(begins)])
        .await;
    count.as_u64().expect("a count")
}

#[test]
fn a_long_file_that_is_being_brought_in_shows_how_far_it_is_and_can_be_stopped() {
    run(async {
        let (profile, files) = (Folder::new("stop"), Folder::new("stop-files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let file = files.put("long.json", long_file());
        steps::look_at(&page, &file).await;
        // The key is pressed by the page itself as soon as some are written and some are not.
        let stop = "new MutationObserver((_, watching) => {\
                const bar = document.querySelector('#body .incoming progress');\
                if (!bar || bar.value === 0 || bar.value === bar.max) return;\
                watching.disconnect();\
                window.__far = bar.value;\
                document.querySelector('#body .incoming button').click();\
            }).observe(document, { childList: true, subtree: true, attributes: true })";
        page.js(stop, vec![]).await;
        steps::press(&page, "Bring in").await;
        page.wait_for("the stop", "window.__far", vec![]).await;
        page.see("#body .incoming .decide", "Bring in").await;
        assert_eq!(kept(&page, "pages", "").await, 0, "nothing of it is kept");
        let imports = kept(&page, "settings", "import/").await;
        assert_eq!(imports, 0, "it has no place in the list of imports");
        steps::press(&page, "Bring in").await;
        page.see("#brought-in", "long.json").await;
        page.reload().await;
        page.go_to("#/planks").await;
        page.see("#head", &format!("{PLANKS} planks")).await;
        assert_eq!(kept(&page, "settings", "import/").await, 1);
        browser.close().await;
    });
}

#[test]
fn the_file_of_a_long_record_shows_how_far_it_is_and_can_be_stopped() {
    run(async {
        let profile = Folder::new("long-out");
        let (files, loads) = (Folder::new("long-out-files"), Folder::new("long-out-loads"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let file = long_file();
        steps::bring_in(&page, &files.put("long.json", &file)).await;
        page.download_into(loads.path()).await;
        // The key is pressed by the page itself as soon as some are written and some are not.
        let stop = "new MutationObserver((_, watching) => {\
                const bar = document.querySelector('#body .card progress');\
                if (!bar || bar.value === 0 || bar.value === bar.max) return;\
                watching.disconnect();\
                window.__far = bar.value;\
                bar.closest('.card').querySelector('button').click();\
            }).observe(document, { childList: true, subtree: true, attributes: true })";
        page.js(stop, vec![]).await;
        steps::save_record(&page).await;
        page.wait_for("the stop", "window.__far", vec![]).await;
        page.see(".toast", "Stopped. No file was made.").await;
        page.gone("#body .card progress").await;
        let left = std::fs::read_dir(loads.path()).expect("a folder").count();
        assert_eq!(left, 0, "half a file is left");
        page.see("#last-saved", "never").await;
        steps::save_record(&page).await;
        let (_, bytes) = downloaded(loads.path()).await;
        let back = String::from_utf8(bytes).expect("text");
        let entries = |file: &str| {
            file.split_once("\"entries\":")
                .map(|(_, all)| all.to_owned())
        };
        assert_eq!(entries(&back), entries(&file), "byte for byte");
        browser.close().await;
    });
}

#[test]
fn a_plan_of_many_blanks_is_worked_out_beside_the_page_and_can_be_stopped() {
    run(async {
        let profile = Folder::new("plan");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        page.go_to("#/plan").await;
        let field = steps::field("Good blanks wanted");
        page.value(&field).await;
        // It is stopped by the page itself as soon as it is worked out.
        let stop = "new MutationObserver((_, watching) => {\
                const key = document.querySelector('#body .progress button');\
                if (!key) return;\
                watching.disconnect();\
                key.click();\
            }).observe(document, { childList: true, subtree: true })";
        page.js(stop, vec![]).await;
        let type_it = "const field = document.querySelector(arguments[0]); field.value = '80';\
            field.dispatchEvent(new Event('input', { bubbles: true }))";
        page.js(type_it, vec![json!(field)]).await;
        page.see("#body .progress", "Stopped. It is not worked out.")
            .await;
        page.holds(&field, "80").await;
        steps::press(&page, "Work it out").await;
        page.gone("#body .progress").await;
        page.see("#body .notice", "80 good blanks").await;
        browser.close().await;
    });
}
