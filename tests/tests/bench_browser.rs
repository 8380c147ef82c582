//! How fast the built app is in a browser: a keystroke, the start, a long list, a large record. A miss is printed,
//! never failed: the figures are those of the machine that it runs on.

#[path = "bench/first_paint.rs"]
mod first_paint;
#[path = "bench/keys.rs"]
mod keys;
#[path = "bench/long.rs"]
mod long;
#[path = "bench/memory.rs"]
mod memory;
#[path = "bench/planks.rs"]
mod planks;
#[path = "bench/records.rs"]
mod records;
#[path = "bench/table.rs"]
mod table;

use long::{large, starts};
use serde_json::json;
use std::time::Duration;
use stillwood_tests::browser::{
    Browser, Device, Folder, HOPPLE, Page, Pile, Server, run_within, steps,
};
use table::{Table, greatest, median};

/// How much of something is measured: in the shortest form, in which the test command runs every bench so that none can
/// rot, only so little.
fn of(whole: usize, shortest: usize) -> usize {
    match std::env::var_os("STILLWOOD_BENCH_SHORTEST") {
        Some(_) => shortest,
        None => whole,
    }
}

/// Starts measured; the median counts.
const STARTS: usize = 7;
/// A mid-range phone beside the machine that tests run on.
const SLOW: f64 = 4.0;

async fn throttle(page: &Page, rate: f64) {
    page.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": rate }))
        .await;
}

/// Measures, prints, and says how much was missed.
fn measure(what: &str, within: u64, figures: impl AsyncFnOnce(&mut Table)) {
    run_within(Duration::from_secs(within), async {
        println!("\n{what}\n");
        let mut table = Table::default();
        figures(&mut table).await;
        println!("{} missed.", table.missed());
    });
}

/// A browser whose pages tell when the first screen is drawn, at the app.
async fn begun(device: Device, profile: &Folder, server: &Server) -> Browser {
    let browser = Browser::start(device, profile).await;
    let page = browser.page();
    let source = json!({ "source": include_str!("bench-start.js") });
    page.cdp("Page.addScriptToEvaluateOnNewDocument", source)
        .await;
    page.open(server.address()).await;
    page.wait_for("the worker", "navigator.serviceWorker.controller", vec![])
        .await;
    browser
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_the_app_starts_with_the_sample() {
    let what = "A start is offline, from the navigation until the first screen with what the record says is painted; \
        “4x” is a processor slowed down four times by the browser. Chromium, 390 x 844.";
    measure(what, 600, async |table| {
        let profile = Folder::new("bench");
        let mut server = Server::start();
        let browser = begun(Device::Phone, &profile, &server).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        server.stop();
        page.network(false).await;
        throttle(&page, SLOW).await;
        let times = of(STARTS, 1);
        let found = starts(&page, times).await;
        table.row(
            format!("start offline with the sample, 4x, median of {times}"),
            median(found.clone()),
            "ms",
            Some(400.0),
        );
        table.row("  the slowest of them", greatest(&found), "ms", None);
        throttle(&page, 1.0).await;
        let found = starts(&page, times).await;
        table.row("  without slowing", median(found), "ms", None);
        browser.close().await;
    });
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_soon_a_first_visit_is_painted() {
    measure("Over a slow line.", 300, first_paint::paints);
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_a_key_is_painted() {
    let what = "From a key until what it changes is painted, with the wait for the screen's next frame. The page's own \
        work in it is handling the event, then drawing that frame.";
    measure(what, 600, async |table| {
        let profile = Folder::new("bench-keys");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        keys::keystrokes(&page, table).await;
        browser.close().await;
    });
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_ten_thousand_planks_are_listed() {
    let what = "Ten thousand planks at 1440 x 900, processor as it is.";
    measure(what, 900, planks::planks);
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_a_long_record_is() {
    let what = "Long records, processor as it is unless told.";
    measure(what, 1500, async |table| {
        let small = large(of(500, 5), false).await;
        small.rows(table, "10,000 entries of 500 planks", [None, None]);
        let big = large(of(5_000, 50), true).await;
        let most = [Some(4.0), Some(900.0)];
        big.rows(table, "100,000 entries of 5,000 planks", most);
        big.grows(&small, table);
        let most_of_all = large(of(20_500, 55), false).await;
        most_of_all.rows(table, "410,000 entries of 20,500 planks", [None, None]);
    });
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_ten_years_of_a_workshop_are() {
    let what = "Ten years of a workshop, processor as it is.";
    measure(what, 1500, long::ten_years);
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_a_plan_is() {
    let what = "A plan of more and more blanks from the sample workshop, processor as it is.";
    measure(what, 300, planks::plans);
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_two_hundred_laminates_are_matched() {
    measure("Matching, processor as it is.", 300, long::matched);
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_much_memory_a_long_record_takes() {
    let what = "Memory of the browser's largest process.";
    measure(what, 1500, memory::memory);
}
