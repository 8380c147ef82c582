//! From a key to what it changes, painted: on the measuring screen, and in a page that holds one field and one line.

use super::table::{Table, median, p95};
use super::{SLOW, of, throttle};
use serde_json::{Value, json};
use std::time::Duration;
use stillwood_tests::browser::{Page, steps};

/// Keystrokes measured in each way of typing.
const KEYS: usize = 100;
/// A key may take so many times what the bare page takes.
const TIMES_THE_BARE_PAGE: f64 = 1.5;

/// How the keys follow each other: as fast as the browser takes them, and as a quick hand types, seven in a second.
const PACES: [(&str, Duration); 2] = [
    ("without a pause", Duration::ZERO),
    ("7 keys in a second", Duration::from_millis(143)),
];
/// A hand pauses so long between two numbers at least.
const PAUSE: Duration = Duration::from_millis(500);

/// A page of one field and one line of text: less than it takes can't be had here by any app.
const BARE: &str = "data:text/html,<meta name=viewport content='width=device-width'>\
    <main class=bare><input autocomplete=off><p></p></main>";

/// What the page has measured of keystrokes: handling, drawing, and all with the wait for the frame; waits until there are that many. The
/// page itself says when: asking it again and again would be measured too.
async fn costs(page: &Page, count: usize) -> Vec<[f64; 3]> {
    let script = "const [count] = arguments;\
        window.__noted = () => { if (window.__costs.length >= count) done(window.__costs); };\
        window.__noted();";
    let all = page.js_async(script, vec![json!(count)]).await;
    serde_json::from_value(all).expect("numbers")
}

fn whole(costs: &[[f64; 3]]) -> Vec<f64> {
    costs.iter().map(|cost| cost[2]).collect()
}

/// A digit and its taking back in turns, on a keyboard.
async fn on_a_keyboard(page: &Page, kind: &str, inside: &str, pause: Duration) -> Vec<[f64; 3]> {
    let keyboard = vec![json!(kind), json!(inside)];
    page.js(include_str!("../bench-keys.js"), keyboard).await;
    for turn in 0..of(KEYS, 4) {
        page.key_stroke(if turn % 2 == 0 { "5" } else { "Backspace" })
            .await;
        costs(page, turn + 1).await;
        tokio::time::sleep(pause).await;
    }
    costs(page, of(KEYS, 4)).await
}

/// The middle of a key of the keypad.
async fn place(page: &Page, key: &str) -> Value {
    let script = "const key = [...document.querySelectorAll('#keypad [data-press]')]\
            .find(e => [e.innerText.trim(), e.ariaLabel].includes(arguments[0]));\
        const b = key.getBoundingClientRect();\
        return { x: b.x + b.width / 2, y: b.y + b.height / 2 }";
    page.js(script, vec![json!(key)]).await
}

/// The same by touch.
async fn on_the_keypad(page: &Page, pause: Duration) -> Vec<[f64; 3]> {
    let keypad = vec![json!("click"), json!("#keypad")];
    page.js(include_str!("../bench-keys.js"), keypad).await;
    let five = place(page, "5").await;
    let back = place(page, "Delete the last sign").await;
    for turn in 0..of(KEYS, 4) {
        let point = if turn % 2 == 0 { &five } else { &back };
        for (kind, points) in [("touchStart", json!([point])), ("touchEnd", json!([]))] {
            let event = json!({ "type": kind, "touchPoints": points });
            page.cdp("Input.dispatchTouchEvent", event).await;
        }
        costs(page, turn + 1).await;
        tokio::time::sleep(pause).await;
    }
    costs(page, of(KEYS, 4)).await
}

/// From a key of the keypad until the drawing that follows it is painted: keys with a pause after each, as a hand
/// leaves it.
async fn until_drawn(page: &Page) -> Vec<f64> {
    let keypad = vec![json!("click"), json!("#keypad")];
    page.js(include_str!("../bench-keys.js"), keypad).await;
    for turn in 0..of(KEYS / 5, 4) {
        let key = if turn % 2 == 0 {
            "5"
        } else {
            "Delete the last sign"
        };
        page.tap_named("#keypad [data-press]", key).await;
        tokio::time::sleep(PAUSE).await;
    }
    let followed = page.js("return window.__followed", vec![]).await;
    let followed: Vec<f64> = serde_json::from_value(followed).expect("numbers");
    assert_eq!(
        followed.len(),
        of(KEYS / 5, 4),
        "the drawing follows each key"
    );
    followed
}

/// The rows for one way of typing.
fn typed(table: &mut Table, how: &str, pace: &str, costs: &[[f64; 3]], most: f64) {
    table.row(
        format!("key to paint, {how}, {pace}, 4x, 95th percentile of {KEYS}"),
        p95(whole(costs)),
        "ms",
        Some(most),
    );
    table.row("  the median of them", median(whole(costs)), "ms", None);
    for (at, part) in ["  of it handling, median", "  of it drawing, median"]
        .iter()
        .enumerate()
    {
        let part_of: Vec<f64> = costs.iter().map(|cost| cost[at]).collect();
        table.row(*part, median(part_of), "ms", None);
    }
}

/// On the measuring screen of a plank with every part of the verdict to be worked out; ends on the bare page.
pub(super) async fn keystrokes(page: &Page, table: &mut Table) {
    steps::begin_plank(page).await;
    steps::keys(
        page,
        "2620 next 214 next 205 next 193 next 52 next 19.7 next",
    )
    .await;
    steps::keys(page, "9 next 4 next 12 left next 1: 25 next 1: 20 next").await;
    steps::into_field(page, "Width middle").await;
    throttle(page, SLOW).await;
    let mut in_the_app = vec![];
    for (_, pause) in PACES {
        let keyboard = on_a_keyboard(page, "keydown", "html", pause).await;
        in_the_app.push([keyboard, on_the_keypad(page, pause).await]);
    }
    let drawn = until_drawn(page).await;
    steps::into_field(page, "Width middle").await;
    page.web().goto(BARE).await.expect("a bare page");
    let script = "const field = document.querySelector('input');\
        field.addEventListener('input', () => {\
            document.querySelector('p').textContent = field.value;\
        });\
        field.focus();";
    page.js(script, vec![]).await;
    let mut on_the_bare_page = vec![];
    for (_, pause) in PACES {
        on_the_bare_page.push(whole(&on_a_keyboard(page, "input", ".bare", pause).await));
    }
    throttle(page, 1.0).await;
    for (((pace, _), bare), [keyboard, keypad]) in
        PACES.iter().zip(on_the_bare_page).zip(in_the_app)
    {
        let most = p95(bare.clone()) * TIMES_THE_BARE_PAGE;
        table.row(
            format!(
                "a key in a page of one field and one line, {pace}, 4x, 95th percentile of {KEYS}"
            ),
            p95(bare.clone()),
            "ms",
            None,
        );
        table.row("  the median of them", median(bare), "ms", None);
        typed(table, "keyboard", pace, &keyboard, most);
        typed(table, "the app's keypad", pace, &keypad, most);
    }
    table.row(
        "from a key until the drawing has followed, 4x, 95th percentile of 20",
        p95(drawn),
        "ms",
        None,
    );
}
