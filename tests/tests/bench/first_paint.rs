//! A first visit over a slow line: when something is painted, when the largest part of it, and when the app stands.

use super::table::Table;
use super::{SLOW, throttle};
use serde_json::json;
use std::time::Duration;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, steps};

/// A slow 4G line: milliseconds there and back, and bytes a second.
const LATENCY: u32 = 150;
const DOWN: u32 = 1_638_400 / 8;
const UP: u32 = 768_000 / 8;
/// The largest paint may take so long, ms.
const LARGEST: f64 = 2500.0;

async fn slow_line(page: &Page) {
    page.cdp("Network.enable", json!({})).await;
    let how = json!({
        "offline": false, "latency": LATENCY, "downloadThroughput": DOWN, "uploadThroughput": UP
    });
    page.cdp("Network.emulateNetworkConditions", how).await;
}

async fn painted(page: &Page, address: &str, table: &mut Table, what: &str, most: Option<f64>) {
    page.open(address).await;
    // What is painted late would still be noted.
    tokio::time::sleep(Duration::from_secs(2)).await;
    let paints = page
        .js("return [window.__paints, window.__drawn]", vec![])
        .await;
    let time = |name: &str| paints[0][name].as_f64().expect("a time");
    table.row(format!("{what}: first paint"), time("first"), "ms", None);
    let text = paints[0]["what"].as_str().unwrap_or_default();
    let largest = format!("  largest paint (“{text}”)");
    table.row(largest, time("largest"), "ms", most);
    let drawn = paints[1].as_f64().expect("a time");
    table.row("  the app's own first screen", drawn, "ms", None);
}

pub(super) async fn paints(table: &mut Table) {
    let profile = Folder::new("bench-paints");
    let server = Server::start();
    let browser = Browser::start(Device::Phone, &profile).await;
    let page = browser.page();
    for source in [
        include_str!("../bench-start.js"),
        include_str!("../bench-paints.js"),
    ] {
        let source = json!({ "source": source });
        page.cdp("Page.addScriptToEvaluateOnNewDocument", source)
            .await;
    }
    slow_line(&page).await;
    throttle(&page, SLOW).await;
    let what = "first visit, slow 4G, 4x";
    painted(&page, server.address(), table, what, Some(LARGEST)).await;
    page.network(true).await;
    page.wait_for("the worker", "navigator.serviceWorker.controller", vec![])
        .await;
    steps::open_sample(&page, server.address()).await;
    slow_line(&page).await;
    let what = "a start with the sample, slow 4G, 4x";
    painted(&page, server.address(), table, what, None).await;
    browser.close().await;
}
