//! What may hold the page up: ten thousand planks in the laptop's list, shown, sorted, scrolled and judged under
//! another spec; and the plan of many blanks.

use super::of;
use super::records::{measured, opened};
use super::table::{Table, greatest, median};
use serde_json::json;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, steps};

/// Planks in the list.
const PLANKS: usize = 10_000;
/// Pixels a frame, and frames.
const SCROLLED: (u32, usize) = (120, 240);
/// A frame may take so long, ms.
const FRAME: f64 = 32.0;

/// Milliseconds until `there` holds and is painted, and the longest time for which the page was held up.
async fn held_up(page: &Page, go: &str, there: &str) -> (f64, f64) {
    let script = include_str!("../bench-held-up.js");
    let times = page.js_async(script, vec![json!(go), json!(there)]).await;
    serde_json::from_value(times).expect("two times")
}

/// Sorts by a column and back, some times.
async fn sorted_by(page: &Page, table: &mut Table) {
    let mut times = Vec::new();
    for turn in 0..of(8, 2) {
        let column = 1 + turn % 4;
        let go = format!(
            "const head = document.querySelectorAll('#planks thead th button')[{column}]; window.__order = \
             head.closest('th').ariaSort; head.click()"
        );
        let there = format!(
            "document.querySelectorAll('#planks thead th')[{column}].ariaSort !== window.__order"
        );
        times.push(held_up(page, &go, &there).await.0);
    }
    let what = format!(
        "{PLANKS} planks sorted and painted, median of {}",
        times.len()
    );
    table.row(what, median(times.clone()), "ms", Some(150.0));
    table.row("  the slowest of them", greatest(&times), "ms", None);
}

async fn scrolled(page: &Page, table: &mut Table) {
    let (step, frames) = (SCROLLED.0, of(SCROLLED.1, 24));
    let args = vec![json!("#body"), json!(step), json!(frames)];
    let times = page
        .js_async(include_str!("../bench-scroll.js"), args)
        .await;
    let times: Vec<f64> = serde_json::from_value(times).expect("times");
    let long = times.iter().filter(|time| **time > FRAME).count();
    table.row(
        format!("  scrolled by {step} px a frame: the longest of {frames} frames"),
        greatest(&times),
        "ms",
        Some(FRAME),
    );
    table.row("  frames over 32 ms", long as f64, "", None);
}

/// Under every spec that there is to choose.
async fn judged(page: &Page, table: &mut Table) {
    let script = "return [...document.querySelector('#judged-by').options].map((one) => one.value).filter(Boolean)";
    let specs = page.js(script, vec![]).await;
    let specs: Vec<String> = serde_json::from_value(specs).expect("names");
    let (mut times, mut held) = (Vec::new(), Vec::new());
    for spec in specs.iter().cycle().take(2 * specs.len()) {
        let go = format!(
            "const list = document.querySelector('#judged-by'); list.value = {0};\
             window.__spec = list.selectedOptions[0].text;\
             list.dispatchEvent(new Event('change', {{ bubbles: true }}))",
            json!(spec)
        );
        let there = "document.querySelector('#head .below').innerText.includes(window.__spec) \
            && !document.querySelector('#body progress')";
        let (time, longest) = held_up(page, &go, there).await;
        times.push(time);
        held.push(longest);
    }
    table.row(
        format!("{PLANKS} planks judged under another spec: the page is held up, at most"),
        greatest(&held),
        "ms",
        Some(150.0),
    );
    table.row(
        "  until the list is painted, median",
        median(times),
        "ms",
        None,
    );
}

pub(super) async fn planks(table: &mut Table) {
    let opened = opened(measured(of(PLANKS, 1_200)), Device::Laptop).await;
    let page = opened.browser.page();
    let size = json!({ "width": 1440, "height": 900, "deviceScaleFactor": 1, "mobile": false });
    page.cdp("Emulation.setDeviceMetricsOverride", size).await;
    let there = "document.querySelector('#planks tbody tr[aria-rowindex]') && !document.querySelector('#body progress')";
    let (time, longest) = held_up(&page, "location.hash = '#/planks'", there).await;
    table.row(
        format!("{PLANKS} planks, the list for the first time"),
        time,
        "ms",
        None,
    );
    table.row("  the page is held up, at most", longest, "ms", Some(150.0));
    sorted_by(&page, table).await;
    scrolled(&page, table).await;
    judged(&page, table).await;
    opened.browser.close().await;
}

/// From the number of blanks typed to the plan painted.
pub(super) async fn plans(table: &mut Table) {
    let profile = Folder::new("bench-plan");
    let server = Server::start();
    let browser = Browser::start(Device::Laptop, &profile).await;
    let page = browser.page();
    steps::open_sample(&page, server.address()).await;
    page.go_to("#/plan").await;
    let field = steps::field("Good blanks wanted");
    page.value(&field).await;
    for blanks in [5, 40, 80].into_iter().take(of(3, 1)) {
        let go = format!(
            "const field = document.querySelector('{field}'); field.value = '{blanks}';\
             field.dispatchEvent(new Event('input', {{ bubbles: true }}))"
        );
        let there = "!document.querySelector('#body progress')";
        let (time, longest) = held_up(&page, &go, there).await;
        let what = format!("the plan of {blanks} blanks, until it is painted");
        table.row(what, time, "ms", None);
        table.row("  the page is held up, at most", longest, "ms", Some(500.0));
    }
    browser.close().await;
}
