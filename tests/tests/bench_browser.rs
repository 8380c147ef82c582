//! How fast the built app is in a browser: a keystroke, the start, a large record. A miss is printed,
//! never failed: the figures are those of the machine that it runs on.

use stillwood_tests::invented;
#[path = "bench/memory.rs"]
mod memory;
#[path = "bench/records.rs"]
mod records;

use records::{measured, opened, over_years};
use serde_json::json;
use std::time::Duration;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run_within};
use stillwood_tests::workshop::shelf_of;

/// Keystrokes measured in each way of typing.
const KEYS: usize = 100;
/// Starts measured; the median counts.
const STARTS: usize = 7;
/// A mid-range phone beside the machine that tests run on.
const SLOW: f64 = 4.0;
/// Planks that are judged under another spec.
const JUDGED: usize = 10_000;
/// Planks of the record of ten years.
const TEN_YEARS: u64 = 5_000;

struct Table(Vec<[String; 4]>);

impl Table {
    fn row(&mut self, what: impl Into<String>, found: f64, unit: &str, target: Option<f64>) {
        let places = usize::from(found < 100.0);
        let shown = format!("{found:.places$} {unit}");
        let (target, verdict) = match target {
            Some(most) => {
                let verdict = if found <= most { "met" } else { "MISSED" };
                (format!("≤ {most} {unit}"), verdict)
            }
            None => ("–".to_owned(), ""),
        };
        let row = [what.into(), shown, target, verdict.to_owned()];
        println!("{:<68} {:>12} {:>12} {}", row[0], row[1], row[2], row[3]);
        self.0.push(row);
    }
}

fn sorted(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values
}

fn median(values: Vec<f64>) -> f64 {
    let values = sorted(values);
    values[values.len() / 2]
}

/// The value that 95 of 100 do not exceed.
fn p95(values: Vec<f64>) -> f64 {
    let values = sorted(values);
    values[(values.len() * 95).div_ceil(100) - 1]
}

async fn throttle(page: &Page, rate: f64) {
    page.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": rate }))
        .await;
}

/// What the page has measured of keystrokes, handling and drawing; waits until there are that many. The
/// page itself says when: asking it again and again would be measured too.
async fn costs(page: &Page, count: usize) -> Vec<[f64; 2]> {
    let script = "const [count] = arguments;\
        window.__noted = () => { if (window.__costs.length >= count) done(window.__costs); };\
        window.__noted();";
    let all = page.js_async(script, vec![json!(count)]).await;
    serde_json::from_value(all).expect("numbers")
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

async fn starts(page: &Page, times: usize) -> Vec<f64> {
    let mut found = Vec::new();
    for _ in 0..times {
        found.push(start(page).await);
    }
    found
}

/// The rows for one way of typing.
fn typed(table: &mut Table, how: &str, costs: &[[f64; 2]]) {
    let all: Vec<f64> = costs.iter().map(|cost| cost[0] + cost[1]).collect();
    table.row(
        format!("keystroke to verdict drawn, {how}, 4x, 95th percentile of {KEYS}"),
        p95(all.clone()),
        "ms",
        Some(16.0),
    );
    table.row("  the median of them", median(all), "ms", None);
    for (at, part) in ["  of it handling, median", "  of it drawing, median"]
        .iter()
        .enumerate()
    {
        let part_of: Vec<f64> = costs.iter().map(|cost| cost[at]).collect();
        table.row(*part, median(part_of), "ms", None);
    }
}

async fn keystrokes(page: &Page, table: &mut Table) {
    page.tap_with("#visits a", "Plumlatch").await;
    page.tap("#piles a").await;
    page.begin_plank().await;
    // A plank with every part of the verdict to be worked out.
    page.keys("2620 next 214 next 205 next 193 next 52").await;
    page.key_into(
        "WeightWhole",
        "19.7 next 9 next 4 next 12 left next 4 next 1: 25 next 1: 20",
    )
    .await;
    page.tap("#f-WidthMiddle").await;
    throttle(page, SLOW).await;

    let keyboard = vec![json!("input"), json!("#f-WidthMiddle")];
    page.js(include_str!("bench-keys.js"), keyboard).await;
    for turn in 0..KEYS {
        page.key_stroke(if turn % 2 == 0 { "5" } else { "Backspace" })
            .await;
        costs(page, turn + 1).await;
    }
    typed(table, "keyboard", &costs(page, KEYS).await);

    let keypad = vec![json!("click"), json!(".keypad .keys")];
    page.js(include_str!("bench-keys.js"), keypad).await;
    for turn in 0..KEYS {
        page.keys(if turn % 2 == 0 { "5" } else { "back" }).await;
        costs(page, turn + 1).await;
    }
    typed(table, "the app's keypad", &costs(page, KEYS).await);
    floor(page, table).await;
    throttle(page, 1.0).await;
}

/// What the browser itself needs for a key in a page that holds one field and one line of text: less can't
/// be had here by any app.
async fn floor(page: &Page, table: &mut Table) {
    const BARE: &str = "data:text/html,<meta name=viewport content='width=device-width'>\
        <main class=bare><input autocomplete=off><p></p></main>";
    page.web().goto(BARE).await.expect("a bare page");
    let script = "const field = document.querySelector('input');\
        field.addEventListener('input', () => {\
            document.querySelector('p').textContent = field.value;\
        });\
        field.focus();";
    page.js(script, vec![]).await;
    let keyboard = vec![json!("input"), json!(".bare")];
    page.js(include_str!("bench-keys.js"), keyboard).await;
    for turn in 0..KEYS {
        page.key_stroke(if turn % 2 == 0 { "5" } else { "Backspace" })
            .await;
        costs(page, turn + 1).await;
    }
    let bare = costs(page, KEYS).await;
    let all: Vec<f64> = bare.iter().map(|cost| cost[0] + cost[1]).collect();
    table.row(
        format!("  a key in a page of one field and one line, 4x, 95th percentile of {KEYS}"),
        p95(all.clone()),
        "ms",
        None,
    );
    table.row("  the median of them", median(all), "ms", None);
}

struct Large {
    import: f64,
    parse: f64,
    start: f64,
    slow_start: f64,
}

/// Imports a record into a profile of its own and starts with it.
async fn large(planks: usize) -> Large {
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
    page.home().await;
    opened.server.stop();
    page.network(false).await;
    let plain = median(starts(&page, 3).await);
    throttle(&page, SLOW).await;
    let slow_start = median(starts(&page, 3).await);
    opened.browser.close().await;
    Large {
        import: opened.import,
        parse: median(parse),
        start: plain,
        slow_start,
    }
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_planks_are_judged_under_another_spec() {
    run_within(Duration::from_secs(900), async {
        println!("\nAll planks of the table under one spec after another, processor as it is.\n");
        judged(&mut Table(Vec::new())).await;
    });
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_ten_years_of_a_workshop_are() {
    run_within(Duration::from_secs(1500), async {
        println!("\nTen years of a workshop, processor as it is.\n");
        ten_years(&mut Table(Vec::new())).await;
    });
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_much_memory_a_long_record_takes() {
    run_within(Duration::from_secs(1500), async {
        println!("\nMemory of the browser's largest process.\n");
        memory::memory(&mut Table(Vec::new())).await;
    });
}

/// The judging alone, then until the table is painted.
async fn judged(table: &mut Table) {
    let opened = opened(measured(JUDGED), Device::Phone).await;
    let page = opened.browser.page();
    page.go_to("#/planks").await;
    page.see("#plank-count", &format!("{JUDGED} planks")).await;
    let costs = page.js_async(include_str!("bench-judged.js"), vec![]).await;
    let costs: Vec<[f64; 2]> = serde_json::from_value(costs).expect("times");
    opened.browser.close().await;
    let all = |at: usize| costs.iter().map(|cost| cost[at]).collect::<Vec<f64>>();
    table.row(
        format!(
            "{JUDGED} planks judged under another spec, median of {}",
            costs.len()
        ),
        median(all(0)),
        "ms",
        Some(16.0),
    );
    table.row(
        "  the slowest of them",
        sorted(all(0))[costs.len() - 1],
        "ms",
        None,
    );
    table.row(
        "  until the table is painted, median",
        median(all(1)),
        "ms",
        None,
    );
}

/// Milliseconds from the change of the address until what `css` names is painted.
async fn shown(page: &Page, hash: &str, css: &str) -> f64 {
    let script = include_str!("bench-shown.js");
    let time = page.js_async(script, vec![json!(hash), json!(css)]).await;
    time.as_f64().expect("a time")
}

/// Ten years of a workshop: the start, what is due, what came of it.
async fn ten_years(table: &mut Table) {
    let mut opened = opened(invented::years::ten_years(TEN_YEARS), Device::Phone).await;
    let page = opened.browser.page();
    table.row("ten years of a workshop: import", opened.import, "ms", None);
    page.home().await;
    opened.server.stop();
    page.network(false).await;
    let plain = median(starts(&page, 3).await);
    table.row(
        "  start offline with them, median of 3",
        plain,
        "ms",
        Some(3000.0),
    );
    let due = shown(&page, "#/workshop", "#shelves li").await;
    table.row(
        "  what is due, until it is painted",
        due,
        "ms",
        Some(3000.0),
    );
    let came = shown(&page, "#/learn", "#came li").await;
    table.row(
        "  what came of it, until it is painted",
        came,
        "ms",
        Some(3000.0),
    );
    let memory = page
        .js("return performance.memory?.usedJSHeapSize ?? 0", vec![])
        .await;
    table.row(
        "  memory of its scripts",
        memory.as_f64().unwrap_or(0.0) / 1e6,
        "MB",
        None,
    );
    opened.browser.close().await;
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_the_app_is_in_a_browser() {
    run_within(Duration::from_secs(1500), async {
        println!(
            "\nChromium, 390 x 844 with touch; “4x” is a processor slowed down four times by the browser.\n\
             A keystroke's cost is the page's own work: handling the event, then drawing the frame that\n\
             shows the verdict; the wait between the two for the screen's next frame is left out.\n\
             A start is offline, from the navigation until the record's first screen is painted.\n"
        );
        println!("{:<68} {:>12} {:>12}", "what", "found", "target");
        let mut table = Table(Vec::new());
        let profile = Folder::new("bench");
        let mut server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let source = json!({ "source": include_str!("bench-start.js") });
        page.cdp("Page.addScriptToEvaluateOnNewDocument", source)
            .await;
        page.open(server.address()).await;
        page.wait_for("the worker", "navigator.serviceWorker.controller", vec![])
            .await;
        page.tap("#open-demo").await;
        page.see("#demo-note", "invented example").await;
        server.stop();
        page.network(false).await;
        throttle(&page, SLOW).await;
        let found = starts(&page, STARTS).await;
        table.row(
            format!("start offline with the example, 4x, median of {STARTS}"),
            median(found.clone()),
            "ms",
            Some(1000.0),
        );
        table.row(
            "  the slowest of them",
            sorted(found)[STARTS - 1],
            "ms",
            None,
        );
        throttle(&page, 1.0).await;
        table.row(
            "  without slowing",
            median(starts(&page, STARTS).await),
            "ms",
            None,
        );
        keystrokes(&page, &mut table).await;
        browser.close().await;

        let small = large(500).await;
        let big = large(5000).await;
        table.row(
            "100,000 entries of 5,000 planks: import",
            big.import,
            "ms",
            None,
        );
        table.row(
            "  JSON.parse of the same bytes in the same run",
            big.parse,
            "ms",
            None,
        );
        table.row(
            "  import against JSON.parse",
            big.import / big.parse,
            "times",
            Some(3.0),
        );
        table.row(
            "  start offline with them, median of 3",
            big.start,
            "ms",
            Some(2000.0),
        );
        table.row("  the same, 4x", big.slow_start, "ms", None);
        table.row(
            "10,000 entries of 500 planks: import",
            small.import,
            "ms",
            None,
        );
        table.row(
            "  start offline with them, median of 3",
            small.start,
            "ms",
            None,
        );
        let import = big.import / small.import;
        table.row(
            "from 10,000 to 100,000 entries, import grows",
            import,
            "times",
            Some(12.0),
        );
        let start = big.start / small.start;
        table.row(
            "from 10,000 to 100,000 entries, the start grows",
            start,
            "times",
            Some(12.0),
        );
        let missed = table.0.iter().filter(|row| row[3] == "MISSED").count();
        println!("\n{missed} missed. What a first visit loads stands in the build's table above.");
    });
}

#[test]
#[ignore = "a measurement: `cargo xtask bench` runs it"]
fn how_fast_two_hundred_laminates_are_matched() {
    run_within(Duration::from_secs(300), async {
        let maple = ("maple-sugar", "hard maple");
        let mut table = Table(Vec::new());
        let server = Server::start();
        for sides in [false, true] {
            let (profile, files) = (Folder::new("bench-glue"), Folder::new("files"));
            let browser = Browser::start(Device::Phone, &profile).await;
            let page = browser.page();
            page.open(server.address()).await;
            let (phone, laminates) = shelf_of(&[maple; 10], sides, 0.0);
            assert_eq!(laminates.len(), 200);
            let path = files.put("shelf.json", phone.file());
            page.go_to("#/carry").await;
            page.choose_file("#import-file", &path).await;
            page.tap("#merge").await;
            page.see("#merged", "shelf.json:").await;
            page.go_to("#/glue").await;
            page.fill("#in-laminates-in-the-blank", "5").await;
            let mut times = Vec::new();
            for _ in 0..5 {
                let script = "const from = performance.now(); document.querySelector('#seek').click();\
                    const look = () => document.querySelector('#sought')?.textContent.includes('looked through')\
                        ? done(performance.now() - from) : setTimeout(look, 5);\
                    setTimeout(look, 0);";
                times.push(
                    page.js_async(script, vec![])
                        .await
                        .as_f64()
                        .expect("a time"),
                );
            }
            println!("{}", page.text("#sought").await);
            let what = if sides {
                "the best sets of five of 200 laminates, all sides known, touch to end"
            } else {
                "the best sets of five of 200 laminates, touch to end, median of 5"
            };
            table.row(what, median(times), "ms", Some(1000.0));
            browser.close().await;
        }
    });
}
