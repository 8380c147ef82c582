//! Waiting, and waiting no longer than. It never tells the time of day.

use std::future::Future;
use std::pin::pin;
use std::task::Poll;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

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
