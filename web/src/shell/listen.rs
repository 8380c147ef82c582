//! Listening to a browser event for as long as the holder lives. It never decides anything about
//! the event, and it leaves no listener behind.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Event, EventTarget};

/// A callback tied to an event. Dropping it stops the listening.
pub(crate) struct Listener {
    target: EventTarget,
    event: &'static str,
    callback: Closure<dyn FnMut(Event)>,
}

impl Listener {
    /// Calls `callback` at every `event` of `target`. `None` where the browser refuses, which it
    /// does for no event the app uses.
    pub(crate) fn new(
        target: &EventTarget,
        event: &'static str,
        callback: impl FnMut(Event) + 'static,
    ) -> Option<Self> {
        let callback = Closure::<dyn FnMut(Event)>::new(callback);
        target
            .add_event_listener_with_callback(event, callback.as_ref().unchecked_ref())
            .ok()?;
        Some(Self {
            target: target.clone(),
            event,
            callback,
        })
    }
}

impl Drop for Listener {
    fn drop(&mut self) {
        // Failing to remove leaves a dead callback, which the browser skips.
        let _ = self.target.remove_event_listener_with_callback(
            self.event,
            self.callback.as_ref().unchecked_ref(),
        );
    }
}

/// Calls `callback` whenever the page comes back before the maker's eyes: shown again, focused,
/// taken from the back/forward cache.
pub(crate) fn on_return(callback: impl Fn() + Clone + 'static) -> Vec<Listener> {
    let Some(window) = web_sys::window() else {
        return Vec::new();
    };
    let mut listeners = Vec::new();
    if let Some(document) = window.document() {
        let seen = document.clone();
        let callback = callback.clone();
        listeners.extend(Listener::new(&document, "visibilitychange", move |_| {
            if seen.visibility_state() == web_sys::VisibilityState::Visible {
                callback();
            }
        }));
    }
    for event in ["focus", "pageshow"] {
        let callback = callback.clone();
        listeners.extend(Listener::new(&window, event, move |_| callback()));
    }
    listeners
}
