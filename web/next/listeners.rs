//! One set of listeners at the root: presses, typing, keys, the address, the width of the window.

use crate::app::App;
use crate::page::told;
use stillwood_app::{Action, Route};
use wasm_bindgen::prelude::*;
use web_sys::{
    Element, Event, EventTarget, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement,
    KeyboardEvent, Window,
};

fn listen(target: &EventTarget, name: &str, hear: impl Fn(Event) + 'static) {
    let hear = Closure::<dyn Fn(Event)>::new(hear);
    told(target.add_event_listener_with_callback(name, hear.as_ref().unchecked_ref()));
    // They live as long as the page.
    hear.forget();
}

/// The screen of the address.
pub(crate) fn route(window: &Window) -> Route {
    // nothing lost: an address that can't be read leads to the first screen
    Route::of_address(&window.location().hash().unwrap_or_default())
}

/// Begins to listen.
pub(crate) fn start(app: &App, window: &Window) {
    let Some(document) = window.document() else {
        return;
    };
    let presses = app.clone();
    listen(&document, "click", move |event| press(&presses, &event));
    let typing = app.clone();
    listen(&document, "input", move |event| typed(&typing, &event));
    let changing = app.clone();
    listen(&document, "change", move |event| {
        let target = event.target();
        if target.is_some_and(|target| target.dyn_ref::<HtmlSelectElement>().is_some()) {
            typed(&changing, &event);
        }
    });
    let keys = app.clone();
    listen(&document, "keydown", move |event| key(&keys, &event));
    // The key that is pressed does not take the focus away from a field that is typed in.
    listen(&document, "mousedown", |event| {
        if element(&event)
            .and_then(|one| closest(&one, ".digits, .units"))
            .is_some()
        {
            event.prevent_default();
        }
    });
    let address = app.clone();
    let of_window = window.clone();
    listen(window, "hashchange", move |_| {
        address.act(Action::Shown(route(&of_window)));
        of_window.scroll_to_with_x_and_y(0.0, 0.0);
    });
    // nothing lost: without the answer it is drawn as for a phone
    if let Ok(Some(wide)) = window.match_media("(min-width: 1024px)") {
        let (app, query) = (app.clone(), wide.clone());
        listen(&wide, "change", move |_| {
            app.act(Action::Wide(query.matches()))
        });
    }
}

fn element(event: &Event) -> Option<Element> {
    event.target()?.dyn_into::<Element>().ok()
}

fn closest(element: &Element, what: &str) -> Option<Element> {
    // nothing lost: the selectors are written here
    element.closest(what).ok().flatten()
}

fn press(app: &App, event: &Event) {
    let Some(key) = element(event).and_then(|one| closest(&one, "[data-press]")) else {
        return;
    };
    event.prevent_default();
    if let Some(action) = key
        .get_attribute("data-press")
        .and_then(|press| app.pressed(&press))
    {
        app.act(action);
    }
}

fn typed(app: &App, event: &Event) {
    let Some(target) = event.target() else { return };
    let (name, text) = if let Some(field) = target.dyn_ref::<HtmlInputElement>() {
        (field.name(), field.value())
    } else if let Some(field) = target.dyn_ref::<HtmlTextAreaElement>() {
        (field.name(), field.value())
    } else if let Some(field) = target.dyn_ref::<HtmlSelectElement>() {
        (field.name(), field.value())
    } else {
        return;
    };
    if !name.is_empty() {
        app.act(Action::Typed(name, text));
    }
}

fn key(app: &App, event: &Event) {
    let Some(pressed) = event.dyn_ref::<KeyboardEvent>() else {
        return;
    };
    if pressed.ctrl_key() || pressed.meta_key() || pressed.alt_key() || pressed.is_composing() {
        return;
    }
    let in_field =
        element(event).is_some_and(|one| closest(&one, "input, textarea, select").is_some());
    let on_key = element(event).is_some_and(|one| closest(&one, "button, a, summary").is_some());
    let name = pressed.key();
    // Enter and blanks press the key that has the focus.
    let presses = on_key && (name == "Enter" || name == " ");
    if (in_field && name != "Escape") || presses {
        return;
    }
    let is_sign = name.chars().count() == 1;
    if is_sign
        || matches!(
            name.as_str(),
            "Enter" | "Backspace" | "Escape" | "ArrowUp" | "ArrowDown"
        )
    {
        app.act(Action::Key(name));
    }
}
