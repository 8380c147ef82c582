//! Waiting, and waiting no longer than. It never tells the time of day.

use std::future::Future;
use std::pin::pin;
use std::task::Poll;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::{MessageChannel, VisibilityState};

/// Comes back after `millis`. Where the page has no timer it comes back at once.
pub(crate) async fn sleep(millis: i32) {
    let promise = js_sys::Promise::new(&mut |resolve, _| {
        let asked = web_sys::window().map(|window| {
            window.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, millis)
        });
        if !matches!(asked, Some(Ok(_))) {
            // A promise's own resolve function throws nothing.
            let _ = resolve.call0(&JsValue::UNDEFINED);
        }
    });
    // The promise above is never rejected.
    let _ = JsFuture::from(promise).await;
}

/// Comes back as a task of its own: what waits by now, a frame or a key, may come first. Browsers stretch a timeout of
/// 0 to 4 ms where it is asked for again and again, and do not stretch this.
pub(crate) async fn next_task() {
    let Ok(channel) = MessageChannel::new() else {
        return sleep(0).await;
    };
    let promise = js_sys::Promise::new(&mut |resolve, _| {
        channel.port1().set_onmessage(Some(&resolve));
        if channel.port2().post_message(&JsValue::NULL).is_err() {
            // A promise's own resolve function throws nothing.
            let _ = resolve.call0(&JsValue::UNDEFINED);
        }
    });
    // The promise above is never rejected.
    let _ = JsFuture::from(promise).await;
    channel.port1().close();
}

/// A page that is seen paints within this, ms; one that is not never paints.
const PAINTS_WITHIN_MS: i32 = 50;

/// Comes back as the next frame begins; soon, where the page is not seen.
pub(crate) async fn next_frame() {
    let window = web_sys::window().filter(|window| {
        let document = window.document();
        document.is_some_and(|page| page.visibility_state() == VisibilityState::Visible)
    });
    if let Some(window) = window {
        let frame = js_sys::Promise::new(&mut |resolve, _| {
            if window.request_animation_frame(&resolve).is_err() {
                // A promise's own resolve function throws nothing.
                let _ = resolve.call0(&JsValue::UNDEFINED);
            }
        });
        let _ = within(PAINTS_WITHIN_MS, JsFuture::from(frame)).await;
    }
}

/// Comes back once what the page shows by now is painted; soon, where it is not seen.
pub(crate) async fn painted() {
    next_frame().await;
    next_task().await;
}

/// What `work` gives, or `None` if `millis` pass first. The work is then dropped.
pub(crate) async fn within<F: Future>(millis: i32, work: F) -> Option<F::Output> {
    let mut work = pin!(work);
    let mut bell = pin!(sleep(millis));
    std::future::poll_fn(|context| {
        if let Poll::Ready(output) = work.as_mut().poll(context) {
            return Poll::Ready(Some(output));
        }
        bell.as_mut().poll(context).map(|()| None)
    })
    .await
}
