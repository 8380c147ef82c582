//! A worker beside the page, for work that would hold the page up. It runs the app's own module, handed
//! over as the browser has compiled it, and is ended by dropping it. It knows nothing of the work.

use super::listen::Listener;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, Event, MessageEvent, Worker, WorkerOptions, WorkerType};

/// A worker that is at work. Dropping it ends the work at once.
pub(crate) struct BackgroundWorker {
    worker: Worker,
    _listeners: Vec<Listener>,
}

impl BackgroundWorker {
    /// Starts a worker on a job. `hear` is called with every answer, and with `None` where the worker
    /// breaks down. `None` where the browser has no such workers.
    pub(crate) fn start(
        job: JsValue,
        hear: impl Fn(Option<JsValue>) + Clone + 'static,
    ) -> Option<Self> {
        let document = web_sys::window()?.document()?;
        let named = document
            .query_selector("meta[name='background-worker']")
            .ok()??;
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(&named.get_attribute("content")?, &options).ok()?;
        let broke = hear.clone();
        let to = worker.clone();
        let heard = move |event: Event| match said(&event) {
            // It is up.
            Some(nothing) if nothing.is_null() => {
                if to.post_message(&job).is_err() {
                    hear(None);
                }
            }
            answer => hear(answer),
        };
        let listeners = [
            Listener::new(&worker, "message", heard),
            Listener::new(&worker, "error", move |_| broke(None)),
        ];
        worker.post_message(&wasm_bindgen::module()).ok()?;
        Some(Self {
            worker,
            _listeners: listeners.into_iter().flatten().collect(),
        })
    }
}

impl Drop for BackgroundWorker {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

fn said(event: &Event) -> Option<JsValue> {
    Some(event.dyn_ref::<MessageEvent>()?.data())
}

/// In the worker: says that it is up, and does every job that it is sent, telling answers on the way.
pub(crate) fn serve(work: impl Fn(JsValue, &dyn Fn(&JsValue)) + 'static) {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let back = scope.clone();
    // An answer that can't be sent has no other way to the page.
    let tell = move |answer: &JsValue| drop(back.post_message(answer));
    let listener = Listener::new(&scope, "message", move |event| {
        if let Some(job) = said(&event) {
            work(job, &tell);
        }
    });
    // As long as the worker lives.
    std::mem::forget(listener);
    drop(scope.post_message(&JsValue::NULL));
}
