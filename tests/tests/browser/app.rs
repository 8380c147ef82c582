//! The app in a real browser: what only a browser can show. What its screens say and do is tested
//! at the desk (`web/app/tests`).

use serde_json::json;
use stillwood_app::Route;
use stillwood_tests::browser::screens::plank_of_the_sample;
use stillwood_tests::browser::steps;
use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Pile, Server, run};

/// The address of the last pile of the sample workshop.
async fn pile_of_the_sample(page: &Page) -> String {
    let script = "fetch('./demo-data/two-yards.json').then(r => r.json()).then(f => \
        done(f.entries.filter(e => JSON.stringify(e).includes('\"pile_opened\"')).map(e => e.about).pop()))";
    let pile = page.js_async(script, vec![]).await;
    format!("#/pile/{}", pile.as_str().expect("a pile of the sample"))
}

/// Opens the sample workshop at its last pile; its address.
async fn at_a_pile(page: &Page, address: &str) -> String {
    page.open(address).await;
    page.press("Open the sample workshop").await;
    page.wait_for(
        "the sample",
        "document.querySelector('#head .chip.note')",
        vec![],
    )
    .await;
    let pile = pile_of_the_sample(page).await;
    page.go_to(&pile).await;
    page.see("#body", "turned over").await;
    pile
}

/// How many planks of the pile on the screen were left.
async fn left(page: &Page) -> u32 {
    let text = page.text("#body .row.below").await;
    let number = text
        .split(' ')
        .next()
        .and_then(|number| number.parse().ok());
    number.unwrap_or_else(|| panic!("no count in {text}"))
}

/// Presses a key that says this, as a thumb does.
async fn press(page: &Page, says: &str) {
    page.tap_named("[data-press]", says).await;
}

async fn keys(page: &Page, digits: &str) {
    for digit in digits.chars() {
        page.tap_named("#keypad [data-press]", &digit.to_string())
            .await;
    }
}

#[test]
fn what_was_acknowledged_and_what_is_half_typed_stays_through_a_kill() {
    run(async {
        let profile = Folder::new("next-kill");
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        // The maker's own record: whether the sample is open is a note that a kill may take.
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        let before = left(&page).await;
        press(&page, "twist").await;
        press(&page, "No").await;
        page.see(".toast", "No: twist.").await;
        assert_eq!(left(&page).await, before + 1);
        browser.kill().await;

        browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        page.go_to(&pile).await;
        page.see("#body", "turned over").await;
        assert_eq!(left(&page).await, before + 1);
        press(&page, "Measure it now").await;
        page.see("#active-field", "Length").await;
        keys(&page, "2620").await;
        press(&page, "Next").await;
        keys(&page, "205").await;
        let measuring = page.js("return location.hash", vec![]).await;
        let measuring = measuring.as_str().unwrap_or_default().to_owned();
        page.see("#drawing", "205").await;
        page.wait_for(
            "the last key to be kept",
            "(() => { const open = indexedDB.open('stillwood'); open.onsuccess = () => { const all = \
             open.result.transaction('drafts').objectStore('drafts').getAll(); all.onsuccess = () => { \
             open.result.close(); window.__kept = JSON.stringify(all.result).includes('205'); }; }; })(), window.__kept",
            vec![],
        )
        .await;
        browser.kill().await;

        browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        page.go_to(&measuring).await;
        page.see("#drawing", "2620").await;
        page.see("#drawing", "205").await;
        browser.close().await;
    });
}

#[test]
fn a_patch_leaves_focus_caret_and_what_is_folded_open_alone() {
    run(async {
        let profile = Folder::new("next-patch");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        at_a_pile(&page, server.address()).await;
        press(&page, "Measure it now").await;
        page.see("#active-field", "Length").await;
        page.js("document.querySelector('#note').focus()", vec![])
            .await;
        page.type_keys("warm wall").await;
        page.js(
            "document.querySelector('#note').setSelectionRange(4, 4)",
            vec![],
        )
        .await;
        page.type_keys("er").await;
        let state = page
            .js(
                "const e = document.activeElement; return [e.id, e.value, e.selectionStart]",
                vec![],
            )
            .await;
        assert_eq!(state, json!(["note", "warmer wall", 6]));
        browser.close().await;
    });
}

#[test]
fn what_lies_over_the_screen_has_the_focus_to_itself_and_gives_it_back() {
    run(async {
        let profile = Folder::new("next-over");
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        at_a_pile(&page, server.address()).await;
        page.go_to(&Route::Plank(plank_of_the_sample()).address())
            .await;
        page.tap("#body button.figure").await;
        page.text("#dialog").await;
        let has_focus = "document.activeElement.id === 'dialog'";
        page.wait_for("the focus on it", has_focus, vec![]).await;
        let reached = "return [...document.querySelectorAll('#app > *')].filter(e => !e.inert).map(e => e.id)";
        assert_eq!(page.js(reached, vec![]).await, json!(["over"]));
        page.key_stroke("Escape").await;
        let is_back = "document.activeElement.matches('#body button.figure')";
        page.wait_for("the focus back", is_back, vec![]).await;
        let left = "return document.querySelectorAll('[inert]').length";
        assert_eq!(page.js(left, vec![]).await, json!(0));
        browser.close().await;
    });
}

/// How far an element reaches beyond the window or what it scrolls in: below, and to the right.
const BEYOND: &str = "\
    const all = [...document.querySelectorAll(arguments[0])];\
    if (!all.length) return 'none';\
    const out = all.map(e => { const r = e.getBoundingClientRect(); const p = e.parentElement;\
      return Math.max(r.bottom - innerHeight, r.right - innerWidth, p.scrollWidth - p.clientWidth); });\
    return Math.ceil(Math.max(...out));";

async fn beyond(page: &Page, css: &str) -> serde_json::Value {
    page.js(BEYOND, vec![json!(css)]).await
}

async fn window(page: &Page, width: u32, height: u32) {
    let size =
        json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 1000 });
    page.cdp("Emulation.setDeviceMetricsOverride", size).await;
}

#[test]
fn measuring_bill_and_list_fit_small_windows_whole() {
    run(async {
        let profile = Folder::new("small-windows");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        at_a_pile(&page, server.address()).await;
        press(&page, "Measure it now").await;
        page.see("#keypad", "Next").await;
        let mut wrong = Vec::new();
        for (width, height) in [(320, 560), (390, 844), (844, 390)] {
            window(&page, width, height).await;
            for field in ["length", "bow"] {
                page.tap_with("#drawing .dimension", field).await;
                page.see("#active-field .name", "").await;
                for css in ["#keypad .key", "#active-field .chip, #active-field .typed"] {
                    let over = beyond(&page, css).await;
                    if over.as_i64().is_none_or(|over| over > 0) {
                        wrong.push(format!("{css} of {field} at {width} x {height}: {over}"));
                    }
                }
                let drawn = "return document.querySelector('#drawing').clientHeight";
                let drawn = page.js(drawn, vec![]).await;
                if drawn.as_i64().is_none_or(|high| high < 80) {
                    wrong.push(format!("{field} at {width} x {height}: {drawn} px to draw"));
                }
            }
        }
        window(&page, 320, 640).await;
        page.go_to("#/yard").await;
        page.tap_with("#body a", "Plumlatch").await;
        page.see("#body", "Piles").await;
        let visit = steps::address(&page).await;
        page.go_to(&visit.replace("#/visit/", "#/tally/")).await;
        page.see("#body .gaps", "K7-").await;
        let wide = "const t = document.querySelector('.gaps').parentElement; return t.scrollWidth - t.clientWidth";
        if page.js(wide, vec![]).await.as_i64() != Some(0) {
            wrong.push("the gaps of the bill at 320".to_owned());
        }
        window(&page, 1440, 900).await;
        page.go_to("#/planks").await;
        page.see("#planks", "K7-").await;
        let wide =
            "const b = document.querySelector('#body'); return b.scrollWidth - b.clientWidth";
        if page.js(wide, vec![]).await.as_i64() != Some(0) {
            wrong.push("the planks' table at 1440".to_owned());
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}
