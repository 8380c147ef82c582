//! A long record: brought in, started with, asked; and two hundred laminates to be matched.

use super::records::{Opened, opened, over_years};
use super::table::{Table, median};
use super::{SLOW, begun, of, throttle};
use serde_json::json;
use stillwood_tests::browser::{Device, Folder, Page, Server, steps};
use stillwood_tests::invented;
use stillwood_tests::workshop::shelf_of;

/// Planks of the record of ten years.
const TEN_YEARS: usize = 5_000;

/// What a record takes, ms.
pub(super) struct Long {
    import: f64,
    parse: f64,
    start: f64,
    slow_start: Option<f64>,
}

/// Milliseconds from the start of the navigation until the first screen is drawn.
async fn start(page: &Page) -> f64 {
    page.js("window.__before = true; location.reload()", vec![])
        .await;
    let drawn = page.wait_for(
        "the first screen",
        "!window.__before && window.__drawn",
        vec![],
    );
    drawn.await.as_f64().expect("a time")
}

pub(super) async fn starts(page: &Page, times: usize) -> Vec<f64> {
    let mut found = Vec::new();
    for _ in 0..times {
        found.push(start(page).await);
    }
    found
}

/// At its first screen, without a network.
async fn offline(opened: &mut Opened) -> Page {
    let page = opened.browser.page();
    page.go_to("#/").await;
    opened.server.stop();
    page.network(false).await;
    page
}

/// Imports a record into a profile of its own and starts with it.
pub(super) async fn large(planks: usize, slowed_too: bool) -> Long {
    let mut opened = opened(over_years(planks), Device::Phone).await;
    let page = opened.browser.page();
    let script = "window.__file.text().then((text) => {\
        const times = [];\
        for (let turn = 0; turn < 5; turn += 1) {\
            const from = performance.now();\
            window.__parsed = JSON.parse(text);\
            times.push(performance.now() - from);\
        }\
        window.__parsed = null;\
        done(times);\
    })";
    let parse = page.js_async(script, vec![]).await;
    let parse: Vec<f64> = serde_json::from_value(parse).expect("times");
    let page = offline(&mut opened).await;
    let plain = median(starts(&page, of(3, 1)).await);
    let slow_start = match slowed_too {
        true => {
            throttle(&page, SLOW).await;
            Some(median(starts(&page, of(3, 1)).await))
        }
        false => None,
    };
    opened.browser.close().await;
    Long {
        import: opened.import,
        parse: median(parse),
        start: plain,
        slow_start,
    }
}

impl Long {
    pub(super) fn rows(&self, table: &mut Table, what: &str, most: [Option<f64>; 2]) {
        table.row(format!("{what}: import"), self.import, "ms", None);
        table.row("  JSON.parse of the same bytes", self.parse, "ms", None);
        table.row(
            "  import against JSON.parse",
            self.import / self.parse,
            "times",
            most[0],
        );
        table.row(
            "  start offline with them, median of 3",
            self.start,
            "ms",
            most[1],
        );
        if let Some(slow) = self.slow_start {
            table.row("  the same, 4x", slow, "ms", None);
        }
    }

    /// How much more it takes than a record of a tenth.
    pub(super) fn grows(&self, from: &Long, table: &mut Table) {
        let (import, start) = (self.import / from.import, self.start / from.start);
        let most = Some(12.0);
        table.row("ten times the entries: import grows", import, "times", most);
        table.row("  the start grows", start, "times", most);
    }
}

/// Milliseconds from the change of the address until what `css` names is painted.
async fn shown(page: &Page, hash: &str, css: &str) -> f64 {
    let script = include_str!("../bench-shown.js");
    let time = page.js_async(script, vec![json!(hash), json!(css)]).await;
    time.as_f64().expect("a time")
}

/// Ten years of a workshop: the start, what is due, what came of it.
pub(super) async fn ten_years(table: &mut Table) {
    let mut opened = opened(
        invented::years::ten_years(of(TEN_YEARS, 50) as u64),
        Device::Phone,
    )
    .await;
    let page = offline(&mut opened).await;
    let what = "ten years of a workshop: import";
    table.row(what, opened.import, "ms", None);
    let plain = median(starts(&page, of(3, 1)).await);
    let what = "  start offline with them, median of 3";
    table.row(what, plain, "ms", Some(3000.0));
    for (what, hash) in [
        ("  the racks, until they are painted", "#/workshop"),
        ("  the track record, until it is painted", "#/learn"),
    ] {
        let time = shown(&page, hash, "#body :is(h2, p, table)").await;
        table.row(what, time, "ms", Some(3000.0));
    }
    opened.browser.close().await;
}

/// The best sets of five of two hundred laminates.
pub(super) async fn matched(table: &mut Table) {
    let maple = ("maple-sugar", "hard maple");
    let server = Server::start();
    for sides in [true, false].into_iter().take(of(2, 1)) {
        let (profile, files) = (Folder::new("bench-glue"), Folder::new("files"));
        let browser = begun(Device::Phone, &profile, &server).await;
        let page = browser.page();
        let (phone, laminates) = shelf_of(&[maple; 10], sides, 0.0);
        assert_eq!(laminates.len(), 200);
        steps::bring_in(&page, &files.put("shelf.json", phone.file())).await;
        let mut times = Vec::new();
        for _ in 0..of(5, 1) {
            // The search begins as the screen opens.
            start(&page).await;
            let script = "const from = performance.now();\
                location.hash = '#/glue';\
                const look = () => document.querySelector('#body')?.innerText.includes(arguments[0])\
                    ? done(performance.now() - from) : setTimeout(look, 5);\
                setTimeout(look, 0);";
            let args = vec![json!("arrangements looked through")];
            times.push(page.js_async(script, args).await.as_f64().expect("a time"));
        }
        let what = if sides {
            "the best five of 200 laminates, all sides known, opened to end, median of 5"
        } else {
            "the best five of 200 laminates, opened to end, median of 5"
        };
        table.row(what, median(times), "ms", Some(1000.0));
        browser.close().await;
    }
}
