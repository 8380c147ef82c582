//! A name that one window of this browser can hold at a time. It is never waited for: a window that
//! sleeps must not hold up another. The browser lets go of it when the window closes or dies.

use super::timer;
use js_sys::{Function, Object, Promise, Reflect};
use std::cell::RefCell;
use std::collections::BTreeSet;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A browser that has not answered by then is taken for one without locks.
const ANSWER_LIMIT_MS: i32 = 1_000;

thread_local! {
    static HELD: RefCell<BTreeSet<String>> = const { RefCell::new(BTreeSet::new()) };
}

/// Holds `name` until this window closes. `false` if another window holds it. Where the browser has no
/// locks every name is free.
pub(crate) async fn hold(name: &str) -> bool {
    if HELD.with_borrow(|held| held.contains(name)) {
        return true;
    }
    let Some(answer) = ask(name) else {
        return true;
    };
    let answer = timer::within(ANSWER_LIMIT_MS, JsFuture::from(answer)).await;
    let free = !matches!(answer, Some(Ok(answer)) if answer.is_falsy());
    if free {
        HELD.with_borrow_mut(|held| held.insert(name.to_owned()));
    }
    free
}

/// A promise of whether the name is ours now.
fn ask(name: &str) -> Option<Promise> {
    let navigator: JsValue = web_sys::window()?.navigator().into();
    let locks = Reflect::get(&navigator, &JsValue::from_str("locks")).ok()?;
    let request: Function = Reflect::get(&locks, &JsValue::from_str("request"))
        .ok()?
        .dyn_into()
        .ok()?;
    let options = Object::new();
    Reflect::set(&options, &JsValue::from_str("ifAvailable"), &JsValue::TRUE).ok()?;
    Some(Promise::new(&mut |resolve, _| {
        let tell = resolve.clone();
        let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
            let is_ours = !lock.is_null();
            // A promise's own resolve function throws nothing.
            let _ = tell.call1(&JsValue::UNDEFINED, &JsValue::from_bool(is_ours));
            if is_ours {
                // Held for as long as this promise is open, and it never ends.
                Promise::new(&mut |_, _| {}).into()
            } else {
                JsValue::UNDEFINED
            }
        });
        let asked = request.call3(&locks, &JsValue::from_str(name), &options, &granted);
        if asked.is_err() {
            let _ = resolve.call1(&JsValue::UNDEFINED, &JsValue::TRUE);
        }
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_test]
    async fn a_name_is_held_once() {
        assert!(hold("test-mark").await);
        assert!(hold("test-mark").await, "what this window holds is its own");
        HELD.with_borrow_mut(BTreeSet::clear);
        assert!(!hold("test-mark").await, "as another window would find it");
    }
}
