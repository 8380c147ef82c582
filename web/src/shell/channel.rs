//! A word between the tabs of one browser: "I have written something". It is a hint and never
//! the truth: whoever hears it reads the store, and so does whoever comes back to
//! the front, for a hint sent to a sleeping tab is lost.

use super::listen::{Listener, on_return};
use wasm_bindgen::JsValue;
use web_sys::BroadcastChannel;

const NAME: &str = "stillwood";

/// Why the record may hold more than this tab has read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Hint {
    /// Another tab has written something.
    Written,
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
    /// Calls `hear` at every hint.
    pub(crate) fn open(hear: impl Fn(Hint) + Clone + 'static) -> Self {
        let returned = hear.clone();
        let mut listeners = on_return(move || returned(Hint::Returned));
        let line = has_global("BroadcastChannel")
            .then(|| BroadcastChannel::new(NAME).ok())
            .flatten();
        if let Some(line) = &line {
            listeners.extend(Listener::new(line, "message", move |_| hear(Hint::Written)));
        }
        Self {
            line,
            _listeners: listeners,
        }
    }

    /// Tells the other tabs that something is written. If it gets lost they find out by themselves
    /// when they come to the front. An older version listens for the number of a page, and takes any.
    pub(crate) fn tell(&self) {
        if let Some(line) = &self.line {
            let _ = line.post_message(&JsValue::from_f64(0.0));
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
