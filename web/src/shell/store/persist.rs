//! Asking the browser to keep the record even when the device runs short, and how much room there
//! is. A prompt may stay unanswered for ever, so nothing here belongs on the way to the first
//! screen. It never takes "granted" for safe: a record is safe once it is in a file elsewhere.

use crate::shell::timer;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

/// Whether the browser has promised not to clear the record by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Persistence {
    Granted,
    NotGranted,
    /// The browser has no such promise, or has not answered.
    Unknown,
}

/// Bytes used and bytes allowed, as the browser guesses them. "Allowed" may be ten times what the
/// disk has left (seen in Chromium), so it is for a rough remark and never a reason to skip a write
/// or to trust one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Room {
    pub(crate) used: f64,
    pub(crate) allowed: f64,
}

const ANSWER_LIMIT_MS: i32 = 60_000;

/// Asks for the promise. The browser may put a question to the maker; gives up after a minute.
pub(crate) async fn ask_to_persist() -> Persistence {
    answer("persist").await
}

/// Whether the promise was given before, without asking the maker anything.
pub(crate) async fn persisted() -> Persistence {
    answer("persisted").await
}

/// How much room there is; `None` where the browser does not say.
pub(crate) async fn estimate() -> Option<Room> {
    let found = timer::within(ANSWER_LIMIT_MS, call("estimate")).await??;
    let number = |key: &str| {
        js_sys::Reflect::get(&found, &JsValue::from_str(key))
            .ok()?
            .as_f64()
    };
    Some(Room {
        used: number("usage")?,
        allowed: number("quota")?,
    })
}

async fn answer(method: &str) -> Persistence {
    match timer::within(ANSWER_LIMIT_MS, call(method)).await.flatten() {
        Some(answer) if answer.is_truthy() => Persistence::Granted,
        Some(_) => Persistence::NotGranted,
        None => Persistence::Unknown,
    }
}

/// Calls `navigator.storage[method]()`; `None` where that is missing or refuses.
async fn call(method: &str) -> Option<JsValue> {
    let navigator: JsValue = web_sys::window()?.navigator().into();
    let storage = js_sys::Reflect::get(&navigator, &JsValue::from_str("storage")).ok()?;
    let function = js_sys::Reflect::get(&storage, &JsValue::from_str(method)).ok()?;
    let function: js_sys::Function = wasm_bindgen::JsCast::dyn_into(function).ok()?;
    let promise = function.call0(&storage).ok()?;
    JsFuture::from(js_sys::Promise::resolve(&promise))
        .await
        .ok()
}
