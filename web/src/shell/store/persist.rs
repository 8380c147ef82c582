//! Asking the browser to keep the record even when the device runs short, and how much room the
//! record takes. A prompt may stay unanswered for ever, so nothing here belongs on the way to the first
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

const ANSWER_LIMIT_MS: i32 = 60_000;

/// Asks for the promise. The browser may put a question to the maker; gives up after a minute.
pub(crate) async fn ask_to_persist() -> Persistence {
    answer("persist").await
}

/// Whether the promise was given before, without asking the maker anything.
pub(crate) async fn persisted() -> Persistence {
    answer("persisted").await
}

/// Bytes that the record and the app take here, as the browser guesses them; `None` where it does not
/// say. What it claims to allow is not asked: it may be ten times what the disk has left.
pub(crate) async fn bytes_used() -> Option<f64> {
    let found = timer::within(ANSWER_LIMIT_MS, call("estimate")).await??;
    js_sys::Reflect::get(&found, &JsValue::from_str("usage"))
        .ok()? // nothing lost: the browser does not say
        .as_f64()
}

async fn answer(method: &str) -> Persistence {
    // nothing lost: no answer in time is no answer
    match timer::within(ANSWER_LIMIT_MS, call(method)).await.flatten() {
        Some(answer) if answer.is_truthy() => Persistence::Granted,
        Some(_) => Persistence::NotGranted,
        None => Persistence::Unknown,
    }
}

/// Calls `navigator.storage[method]()`; `None` where that is missing or refuses.
async fn call(method: &str) -> Option<JsValue> {
    let navigator: JsValue = web_sys::window()?.navigator().into();
    // nothing lost: this browser has no such thing
    let storage = js_sys::Reflect::get(&navigator, &JsValue::from_str("storage")).ok()?;
    // nothing lost: this browser has no such thing
    let function = js_sys::Reflect::get(&storage, &JsValue::from_str(method)).ok()?;
    // nothing lost: this browser has no such thing
    let function: js_sys::Function = wasm_bindgen::JsCast::dyn_into(function).ok()?;
    // nothing lost: this browser refuses
    let promise = function.call0(&storage).ok()?;
    let answer = JsFuture::from(js_sys::Promise::resolve(&promise)).await;
    // nothing lost: this browser refuses
    answer.ok()
}
