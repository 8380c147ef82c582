//! A word between the tabs of one browser: "I have written page so-and-so". It is a hint and never
//! the truth: whoever hears it reads the pages from the store, and so does whoever comes back to
//! the front, for a hint sent to a sleeping tab is lost.

use super::listen::{Listener, on_return};
use super::store::PageKey;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{BroadcastChannel, MessageEvent};

const NAME: &str = "stillwood";

/// Why the record may hold more than this tab has read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Hint {
    /// Another tab has written this page.
    Written(PageKey),
    /// This tab was away and may have missed something.
    Returned,
}

/// The line to the other tabs. Dropping it hangs up.
pub(crate) struct Channel {
    /// Absent in old browsers; coming back to the front then has to do.
    line: Option<BroadcastChannel>,
    _listeners: Vec<Listener>,
}

impl Channel {
    /// Calls `hear` at every hint. A hint may come more than once for the same page.
    pub(crate) fn open(hear: impl Fn(Hint) + Clone + 'static) -> Self {
        let returned = hear.clone();
        let mut listeners = on_return(move || returned(Hint::Returned));
        let line = has_global("BroadcastChannel")
            .then(|| BroadcastChannel::new(NAME).ok())
            .flatten();
        if let Some(line) = &line {
            listeners.extend(Listener::new(line, "message", move |event| {
                let page = event
                    .dyn_ref::<MessageEvent>()
                    .and_then(|message| message.data().as_f64());
                if let Some(number) = page {
                    hear(Hint::Written(PageKey::from_number(number)));
                }
            }));
        }
        Self {
            line,
            _listeners: listeners,
        }
    }

    /// Tells the other tabs that `key` is written. If it gets lost they find out by themselves
    /// when they come to the front.
    pub(crate) fn tell(&self, key: PageKey) {
        if let Some(line) = &self.line {
            let _ = line.post_message(&JsValue::from_f64(key.number()));
        }
    }
}

impl Drop for Channel {
    fn drop(&mut self) {
        if let Some(line) = &self.line {
            line.close();
        }
    }
}

fn has_global(name: &str) -> bool {
    js_sys::Reflect::has(&js_sys::global(), &JsValue::from_str(name)).unwrap_or(false)
}
