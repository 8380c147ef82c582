//! A page under the thumb: it finds by what is visible, touches where a thumb would, and waits for
//! what has to come. It counts touches and keys, so that a test can hold the app to them.

use super::chrome::Device;
use super::engine::Engine;
use super::{PATIENCE, until};
use serde_json::{Value, json};
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use thirtyfour::prelude::*;

/// Between two moves of the driver's own hand.
const HAND: Option<Duration> = Some(Duration::from_millis(5));

/// The page of one window. Clones are the same page and count together.
#[derive(Clone)]
pub struct Page {
    web: WebDriver,
    device: Device,
    engine: Engine,
    touches: Rc<Cell<u32>>,
}

impl Page {
    pub(super) fn new(web: WebDriver, device: Device, engine: Engine) -> Self {
        Self {
            web,
            device,
            engine,
            touches: Rc::default(),
        }
    }

    pub fn engine(&self) -> Engine {
        self.engine
    }

    /// The driver's own handle.
    pub fn web(&self) -> &WebDriver {
        &self.web
    }

    /// Touches and keys since the last call.
    pub fn take_touches(&self) -> u32 {
        self.touches.take()
    }

    /// Opens the app and waits until its first screen stands.
    pub async fn open(&self, address: &str) {
        self.web.goto(address).await.expect("the page is asked for");
        self.stands().await;
    }

    /// Goes to another screen of the app by the address bar, as a bookmark does.
    pub async fn go_to(&self, hash: &str) {
        self.js("location.hash = arguments[0]", vec![json!(hash)])
            .await;
        self.wait_for(
            &format!("the screen {hash}"),
            "location.hash === arguments[0]",
            vec![json!(hash)],
        )
        .await;
    }

    /// Reloads as the maker does (the driver's own reload goes past the service worker in some
    /// browsers), and waits until the first screen stands.
    pub async fn reload(&self) {
        self.js("window.__before = true; location.reload()", vec![])
            .await;
        self.wait_for("the page to be loaded anew", "!window.__before", vec![])
            .await;
        self.stands().await;
    }

    /// Waits for a screen of the app.
    pub async fn stands(&self) {
        self.wait_for(
            "the first screen",
            "document.querySelector('#app header h1, #app #title')",
            vec![],
        )
        .await;
    }

    /// Runs a script in the page; what it returns. A page that is just being replaced gives null.
    pub async fn js(&self, script: &str, args: Vec<Value>) -> Value {
        match self.web.execute(script, args).await {
            Ok(answer) => answer.json().clone(),
            Err(why) => {
                let said = why.to_string();
                let between_pages = ["context", "navigat", "frame", "detached", "loader"];
                assert!(
                    between_pages.iter().any(|word| said.contains(word)),
                    "{script}: {said}"
                );
                Value::Null
            }
        }
    }

    /// Waits for a promise in the page; the script has `done` to call with the answer.
    pub async fn js_async(&self, script: &str, args: Vec<Value>) -> Value {
        let script = format!("const done = arguments[arguments.length - 1];\n{script}");
        let answer = self.web.execute_async(script, args).await;
        answer.expect("a script").json().clone()
    }

    /// Waits until an expression holds.
    pub async fn wait_for(&self, what: &str, expression: &str, args: Vec<Value>) -> Value {
        let script = format!("return ({expression}) || null");
        let found = until(async || {
            let value = self.js(&script, args.clone()).await;
            (!value.is_null()).then_some(value)
        });
        match found.await {
            Some(value) => value,
            None => {
                self.fail(&format!("waited {} s for {what}", PATIENCE.as_secs()))
                    .await
            }
        }
    }

    /// Ends the test, with what is on the screen.
    pub async fn fail(&self, why: &str) -> ! {
        let script = "return location.hash + '\\n' + document.body.innerText";
        let shown = self.js(script, vec![]).await;
        let shown = shown.as_str().unwrap_or_default();
        let shown: String = shown.chars().take(2500).collect();
        panic!("{why}\n--- on the screen: {shown}\n---");
    }

    /// Whether something that fits is on the screen now.
    pub async fn shows(&self, css: &str) -> bool {
        let script =
            "return [...document.querySelectorAll(arguments[0])].some(e => e.checkVisibility())";
        self.js(script, vec![json!(css)]).await == Value::Bool(true)
    }

    /// Waits until something that fits has this in its text; all of that text.
    pub async fn see(&self, css: &str, text: &str) -> String {
        let found = self
            .wait_for(
                &format!("“{text}” in {css}"),
                "[...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility())\
                 .map(e => (e.innerText ?? '').replace(/\\s+/g, ' ').trim())\
                 .find(t => t.includes(arguments[1])) || null",
                vec![json!(css), json!(text)],
            )
            .await;
        found.as_str().unwrap_or_default().to_owned()
    }

    /// Waits until nothing that fits is on the screen.
    pub async fn gone(&self, css: &str) {
        self.wait_for(
            &format!("{css} to go"),
            "![...document.querySelectorAll(arguments[0])].some(e => e.checkVisibility())",
            vec![json!(css)],
        )
        .await;
    }

    /// The visible text of the first that fits, on one line, as soon as there is one.
    pub async fn text(&self, css: &str) -> String {
        let text = self
            .wait_for(
                css,
                "[...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility())\
                 .map(e => ({ is: (e.innerText ?? e.textContent).replace(/\\s+/g, ' ').trim() }))[0]",
                vec![json!(css)],
            )
            .await;
        text["is"].as_str().unwrap_or_default().to_owned()
    }

    /// Waits until the visible text of the first that fits is this.
    pub async fn reads(&self, css: &str, text: &str) {
        self.wait_for(
            &format!("“{text}” as all of {css}"),
            "[...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility())\
             .slice(0, 1).some(e => e.innerText.replace(/\\s+/g, ' ').trim() === arguments[1])",
            vec![json!(css), json!(text)],
        )
        .await;
    }

    /// The visible texts of all that fit.
    pub async fn texts(&self, css: &str) -> Vec<String> {
        let script = "return [...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility())\
                      .map(e => e.innerText.replace(/\\s+/g, ' ').trim())";
        let texts = self.js(script, vec![json!(css)]).await;
        serde_json::from_value(texts).unwrap_or_default()
    }

    /// What stands in an input, as soon as there is one.
    pub async fn value(&self, css: &str) -> String {
        let found = self
            .wait_for(
                &format!("the input {css}"),
                "[...document.querySelectorAll(arguments[0])].map(e => ({ is: e.value }))[0]",
                vec![json!(css)],
            )
            .await;
        found["is"].as_str().unwrap_or_default().to_owned()
    }

    /// Waits until this stands in an input.
    pub async fn holds(&self, css: &str, text: &str) {
        self.wait_for(
            &format!("“{text}” in the input {css}"),
            "document.querySelector(arguments[0])?.value === arguments[1]",
            vec![json!(css), json!(text)],
        )
        .await;
    }

    /// Touches the first that fits.
    pub async fn tap(&self, css: &str) {
        self.touch(css, Value::Null, "exact").await;
    }

    /// Sets a day in a field for days, as the system's own calendar does.
    pub async fn set_day(&self, css: &str, day: &str) {
        self.value(css).await;
        let script = "const e = document.querySelector(arguments[0]); e.value = arguments[1];\
            e.dispatchEvent(new Event('input', { bubbles: true }))";
        self.js(script, vec![json!(css), json!(day)]).await;
    }

    /// Touches the only one with this name: its text or its label for screen readers.
    pub async fn tap_named(&self, css: &str, name: &str) {
        self.touch(css, json!(name), "exact").await;
    }

    /// Touches the only one with this in its name.
    pub async fn tap_with(&self, css: &str, part: &str) {
        self.touch(css, json!(part), "part").await;
    }

    /// Touches a button or link by its name.
    pub async fn press(&self, name: &str) {
        self.tap_named("button, a, summary", name).await;
    }

    async fn touch(&self, css: &str, text: Value, how: &str) {
        let args = vec![json!(css), text.clone(), json!(how)];
        let mut why = String::new();
        let mut last = None;
        let place = until(async || {
            let found = self.js(include_str!("find.js"), args.clone()).await;
            let place = found["x"].as_f64().zip(found["y"].as_f64());
            if place.is_none() {
                why = found["why"]
                    .as_str()
                    .unwrap_or("the page was on its way")
                    .to_owned();
            }
            // Twice at one place: what still moves is not yet touched.
            let still = place.filter(|place| last == Some(*place));
            last = place;
            still
        });
        let Some((x, y)) = place.await else {
            self.fail(&format!("cannot touch {css} {text}: {why}"))
                .await
        };
        self.touch_at(x, y).await;
        self.touches.set(self.touches.get() + 1);
    }

    /// A touch, or a click where there is a mouse.
    async fn touch_at(&self, x: f64, y: f64) {
        if !self.engine.takes_commands() {
            // The driver's own pointer.
            let hand = self
                .web
                .action_chain_with_delay(HAND, HAND)
                .move_to(x as i64, y as i64)
                .click();
            return hand.perform().await.expect("a click");
        }
        let cdp = self.web.cdp();
        match self.device {
            Device::Phone => {
                let point = json!({ "x": x, "y": y });
                for (kind, points) in [("touchStart", vec![point]), ("touchEnd", vec![])] {
                    let event = json!({ "type": kind, "touchPoints": points });
                    let sent = cdp.send_raw("Input.dispatchTouchEvent", event).await;
                    sent.expect("a touch");
                }
            }
            Device::Laptop => {
                for kind in ["mouseMoved", "mousePressed", "mouseReleased"] {
                    let button = if kind == "mouseMoved" { "none" } else { "left" };
                    let event =
                        json!({ "type": kind, "x": x, "y": y, "button": button, "clickCount": 1 });
                    let sent = cdp.send_raw("Input.dispatchMouseEvent", event).await;
                    sent.expect("a click");
                }
            }
        }
    }

    /// Types on a keyboard into what has the focus, key by key.
    pub async fn type_keys(&self, text: &str) {
        for key in text.chars() {
            self.key_stroke(&key.to_string()).await;
            self.touches.set(self.touches.get() + 1);
        }
    }

    /// One key by its name, as `Backspace`, or by its character.
    pub async fn key_stroke(&self, key: &str) {
        if !self.engine.takes_commands() {
            let key = match key {
                "Backspace" => Key::Backspace.value().to_string(),
                key => key.to_owned(),
            };
            let hand = self.web.action_chain_with_delay(HAND, HAND).send_keys(key);
            return hand.perform().await.expect("a key");
        }
        for kind in ["keyDown", "keyUp"] {
            let mut event = json!({ "type": kind, "key": key });
            match key {
                "Backspace" => event["windowsVirtualKeyCode"] = json!(8),
                "Escape" => event["windowsVirtualKeyCode"] = json!(27),
                _ if kind == "keyDown" => event["text"] = json!(key),
                _ => {}
            }
            self.cdp("Input.dispatchKeyEvent", event).await;
        }
    }

    /// Puts the cursor into a field and types in place of what is there.
    pub async fn fill(&self, css: &str, text: &str) {
        self.tap(css).await;
        let script = "const e = document.querySelector(arguments[0]); e.focus(); e.select?.()";
        self.js(script, vec![json!(css)]).await;
        if text.is_empty() {
            let script = "document.execCommand('delete')";
            self.js(script, vec![]).await;
        }
        self.type_keys(text).await;
        self.wait_for(
            &format!("“{text}” in {css}"),
            "document.querySelector(arguments[0]).value === arguments[1]",
            vec![json!(css), json!(text)],
        )
        .await;
    }

    /// Brings another window to the front.
    pub async fn to_window(&self, window: thirtyfour::WindowHandle) {
        let switched = self.web.switch_to_window(window).await;
        switched.expect("the window is there");
        if !self.engine.takes_commands() {
            // What is switched to is in front.
            return;
        }
        self.cdp("Page.bringToFront", json!({})).await;
        self.wait_for(
            "the window in front",
            "document.visibilityState === 'visible'",
            vec![],
        )
        .await;
    }

    /// Sends a command to the browser.
    pub async fn cdp(&self, command: &str, params: Value) -> Value {
        let answer = self.web.cdp().send_raw(command, params).await;
        answer.unwrap_or_else(|why| panic!("{command}: {why}"))
    }

    /// Switches the network off or on for this page.
    pub async fn network(&self, on: bool) {
        self.cdp("Network.enable", json!({})).await;
        let how = json!({
            "offline": !on, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1
        });
        self.cdp("Network.emulateNetworkConditions", how).await;
    }

    /// Hands files to the first file input that fits, as the system's own dialog does.
    pub async fn choose_file(&self, css: &str, path: &std::path::Path) {
        self.wait_for(
            css,
            "document.querySelector(arguments[0])",
            vec![json!(css)],
        )
        .await;
        let input = self.web.find(By::Css(css)).await.expect("a file input");
        let path = path.to_str().expect("a path of letters");
        input.send_keys(path).await.expect("a file is chosen");
    }

    pub async fn download_into(&self, folder: &std::path::Path) {
        let how = json!({ "behavior": "allow", "downloadPath": folder.to_str() });
        self.cdp("Browser.setDownloadBehavior", how).await;
    }
}
