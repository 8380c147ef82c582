//! Every screen, on a phone and on a laptop, by the rules of axe-core; and on the phone targets of
//! 48 px, no scrolling sideways, and letters that a maker has set larger.

use serde_json::json;
use std::time::Duration;
use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Server, run, run_within};

/// The screens, by their names here and the way to them.
const SCREENS: &[&str] = &[
    "home",
    "visit form",
    "spec",
    "visit",
    "pile form",
    "pile",
    "measure",
    "leave",
    "mark",
    "sheet",
    "told",
    "tally",
    "seller",
    "carry",
    "planks",
    "settings",
    "about",
    "ask",
    "asked",
    "own wood",
    "own wood here",
    "workshop",
    "piece",
    "piece form",
    "check",
    "rests",
    "terms",
    "cut",
    "glue",
    "blanks",
    "learn",
    "plan",
    "wish",
];

/// Ids of one visit, pile and plank of the example.
struct Found {
    visit: String,
    pile: String,
    plank: String,
}

async fn last_part(page: &Page, css: &str) -> String {
    let href = page
        .wait_for(
            css,
            "document.querySelector(arguments[0])?.getAttribute('href')",
            vec![json!(css)],
        )
        .await;
    let href = href.as_str().unwrap_or_default();
    href.rsplit('/').next().unwrap_or_default().to_owned()
}

/// Opens the example and finds its ids.
async fn example(page: &Page, address: &str) -> Found {
    page.open_example(address).await;
    let visit = last_part(page, "#visits a").await;
    page.go_to(&format!("#/visit/{visit}")).await;
    let pile = last_part(page, "#piles a").await;
    let plank = last_part(page, "#planks a[href*='plank/']").await;
    // Something rests, so that the workshop's lists are not empty.
    page.go_to(&format!("#/wood/{plank}")).await;
    page.open_deed("Set to rest").await;
    page.tap("#deed-save").await;
    page.gone("#deed").await;
    Found { visit, pile, plank }
}

/// Goes to a screen and waits until it stands.
async fn go(page: &Page, screen: &str, found: &Found) {
    let Found { visit, pile, plank } = found;
    let (hash, there) = match screen {
        "home" => ("#/".to_owned(), "#visits a"),
        "visit form" => ("#/visit/new".to_owned(), "#save-visit"),
        "spec" => (format!("#/spec/{visit}"), "#save-spec"),
        "visit" => (format!("#/visit/{visit}"), "#piles a"),
        "pile form" => (format!("#/new-pile/{visit}"), "#save-pile"),
        "pile" | "measure" | "leave" => (format!("#/pile/{pile}"), "#measure-new"),
        "mark" => (format!("#/mark/{plank}"), ".mark-big"),
        "sheet" | "told" => (format!("#/plank/{plank}"), "#plank-sheet"),
        "tally" | "wish" => (format!("#/tally/{visit}"), "#totals"),
        "seller" => (format!("#/seller/{visit}"), "#seller-totals"),
        "carry" => ("#/carry".to_owned(), "#import-file"),
        "planks" => ("#/planks".to_owned(), "#planks tbody tr"),
        "settings" => ("#/settings".to_owned(), "#check-update"),
        "ask" | "asked" => ("#/ask".to_owned(), ".asked"),
        "own wood" => ("#/own-wood".to_owned(), "#save-wood"),
        "own wood here" => (format!("#/new-pile/{visit}"), "#own-wood-here"),
        "workshop" => ("#/workshop".to_owned(), "#rest-counts"),
        "piece" | "piece form" => (format!("#/wood/{plank}"), "#sheet-mark"),
        "check" => ("#/check".to_owned(), "#in-who-looked"),
        "rests" | "terms" => ("#/rests".to_owned(), "#rooms"),
        "cut" => (format!("#/cut/{plank}"), "#comes-out"),
        "glue" => ("#/glue".to_owned(), "#no-laminates, #laminates"),
        "blanks" => ("#/blanks".to_owned(), "#blank-count"),
        "learn" => ("#/learn".to_owned(), "#to-start"),
        "plan" => ("#/plan".to_owned(), "#enough"),
        _ => ("#/about".to_owned(), "main ul"),
    };
    page.go_to(&hash).await;
    page.wait_for(
        screen,
        "document.querySelector(arguments[0])",
        vec![json!(there)],
    )
    .await;
    if screen == "measure" || screen == "leave" {
        page.begin_plank().await;
        page.js("arguments[0]", vec![]).await;
        page.tap("#f-Length").await;
        page.keys("2620 next 8.25").await;
        page.see(".keypad .note.doubt", "Width").await;
    }
    if screen == "wish" {
        // What stands above it is worked out first: a thumb waits until nothing moves.
        page.see("#short-by", "Still needed").await;
        page.press("Change the wish").await;
        page.see("#wish-form", "Good blanks wanted").await;
    }
    if screen == "told" {
        page.tap(".criteria button.figure").await;
        page.see("dialog.told", "Desirability").await;
        page.see("#told-spread", "95 times in 100").await;
    }
    if screen == "asked" {
        page.press("How much does a width shrink or swell?").await;
        page.fill("#in-wood", "hard maple").await;
        page.tap("#woods button").await;
        page.fill("#in-width-across-the-grain", "8 stone").await;
        page.see("#in-width-across-the-grain-notes", "not a unit")
            .await;
    }
    if screen == "own wood here" {
        page.fill("#in-wood", "river chery").await;
        page.tap("#own-wood-here").await;
        page.fill("#in-radial-shrinkage", "75").await;
        page.tap("#save-wood").await;
        page.see("#wood-fault", "Not saved").await;
    }
    if screen == "piece form" {
        page.open_deed("Throw out").await;
        page.tap("#deed summary").await;
    }
    if screen == "terms" {
        page.press("Change the terms for pieces").await;
    }
    if screen == "leave" {
        page.tap("#leave").await;
        page.see("#why", "Why is it left?").await;
    }
}

async fn every_screen(device: Device) -> Vec<String> {
    let profile = Folder::new("access");
    let server = Server::start();
    let browser = Browser::start(device, &profile).await;
    let page = browser.page();
    let found = example(&page, server.address()).await;
    let mut breaches = Vec::new();
    for screen in SCREENS {
        go(&page, screen, &found).await;
        for breach in page.by_the_rules().await {
            breaches.push(format!("{screen}: {breach}"));
        }
    }
    browser.close().await;
    breaches
}

#[test]
fn no_screen_of_the_phone_breaks_a_rule_of_axe() {
    run(async {
        let breaches = every_screen(Device::Phone).await;
        assert!(breaches.is_empty(), "{}", breaches.join("\n"));
    });
}

#[test]
fn no_screen_of_the_laptop_breaks_a_rule_of_axe() {
    run(async {
        let breaches = every_screen(Device::Laptop).await;
        assert!(breaches.is_empty(), "{}", breaches.join("\n"));
    });
}

#[test]
fn targets_are_large_and_nothing_is_cut_off() {
    run_within(Duration::from_secs(900), async {
        let profile = Folder::new("targets");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let found = example(&page, server.address()).await;
        let mut breaches = Vec::new();
        for (width, zoom, what) in [
            (390, 1.0, "plain"),
            (320, 1.0, "the narrowest window"),
            (390, 2.0, "letters twice as large"),
        ] {
            let size =
                json!({ "width": width, "height": 844, "deviceScaleFactor": 2, "mobile": true });
            // The driver sets its own size whenever a page is loaded.
            page.reload().await;
            page.cdp("Emulation.setDeviceMetricsOverride", size).await;
            page.wait_for(what, "innerWidth === arguments[0]", vec![json!(width)])
                .await;
            if zoom != 1.0 {
                page.js(include_str!("text-zoom.js"), vec![json!(zoom)])
                    .await;
            }
            for screen in SCREENS {
                go(&page, screen, &found).await;
                let found = page.js(include_str!("audit.js"), vec![]).await;
                let found: Vec<String> = serde_json::from_value(found).expect("a list");
                breaches.extend(
                    found
                        .into_iter()
                        .map(|one| format!("{screen}, {what}: {one}")),
                );
            }
        }
        assert!(breaches.is_empty(), "{}", breaches.join("\n"));
        browser.close().await;
    });
}

#[test]
fn on_a_phone_that_clears_tabs_the_maker_is_told_to_install_first() {
    run(async {
        let profile = Folder::new("install");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let agent = "Object.defineProperty(Navigator.prototype, 'userAgent', { get: () =>\
            'Mozilla/5.0 (iPhone; CPU iPhone OS 18_1 like Mac OS X) AppleWebKit/605.1.15' })";
        page.cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": agent }),
        )
        .await;
        page.open(server.address()).await;
        let told = page.see("#install-first", "Install first.").await;
        assert!(told.contains("before your first entry"), "{told}");
        assert_eq!(page.by_the_rules().await, Vec::<String>::new());
        page.new_visit(HOPPLE).await;
        page.home().await;
        // Who has begun here is not told to begin elsewhere, but how much is on this device only.
        page.see("#only-here", "1 entry stands on this phone only")
            .await;
        page.gone("#install-first").await;
        browser.close().await;
    });
}
