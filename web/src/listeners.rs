//! One set of listeners at the root: presses, typing, keys, the address, the width of the window, what is scrolled, and
//! files that are dropped.

use crate::app::App;
use crate::page::told;
use crate::shell::files_in;
use crate::steps_behind;
use std::cell::Cell;
use std::rc::Rc;
use stillwood_app::yard::table;
use stillwood_app::{Action, Model, Route};
use stillwood_core::float_of;
use wasm_bindgen::prelude::*;
use web_sys::{
    AddEventListenerOptions, Document, DragEvent, Element, Event, EventTarget, HtmlElement,
    HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement, KeyboardEvent, Window,
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
    drops(app, &document);
    scrolls(app, window, &document);
    let address = app.clone();
    let of_window = window.clone();
    steps_behind::note(window, 0.0);
    listen(window, "hashchange", move |_| {
        // An address typed by hand is a step from one screen of the app to another.
        steps_behind::note(&of_window, 1.0);
        address.act(Action::Shown(route(&of_window)));
        of_window.scroll_to_with_x_and_y(0.0, 0.0);
    });
    for (name, printing) in [("beforeprint", true), ("afterprint", false)] {
        let app = app.clone();
        listen(window, name, move |_| app.act(Action::Printing(printing)));
    }
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

/// Chooses the radio key beside the one that has the focus, where an arrow is pressed in a group of them; whether it was.
fn chooses_radio(event: &Event, name: &str) -> bool {
    let back = match name {
        "ArrowLeft" | "ArrowUp" => true,
        "ArrowRight" | "ArrowDown" => false,
        _ => return false,
    };
    let Some(radio) = element(event).and_then(|one| closest(&one, "[role=radio]")) else {
        return false;
    };
    let Some(group) = closest(&radio, "[role=radiogroup]") else {
        return false;
    };
    // nothing lost: the selector is written here
    let Ok(all) = group.query_selector_all("[role=radio]:not([disabled])") else {
        return false;
    };
    let all: Vec<HtmlElement> = (0..all.length())
        .filter_map(|at| all.item(at)?.dyn_into().ok())
        .collect();
    let at = all.iter().position(|one| one.is_same_node(Some(&radio)));
    // Behind the last stands the first.
    let next = at.and_then(|at| match back {
        true => all.get(..at)?.last().or(all.last()),
        false => all.get(at + 1..)?.first().or(all.first()),
    });
    if let Some(next) = next {
        told(next.focus());
        next.click();
    }
    true
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
    if chooses_radio(event, &name) {
        event.prevent_default();
        return;
    }
    // Enter and blanks press the key that has the focus: Enter once, however long it is held down.
    let presses = on_key && (name == "Enter" || name == " ");
    if presses && name == "Enter" && pressed.repeat() {
        event.prevent_default();
    }
    if (in_field && name != "Escape") || presses {
        return;
    }
    let counts = |model: &Model| Action::counts_held_down(&name, &model.route);
    if pressed.repeat() && !app.model(counts) {
        return;
    }
    let is_sign = name.chars().count() == 1;
    if is_sign
        || matches!(
            name.as_str(),
            "Enter" | "Backspace" | "Escape" | "ArrowUp" | "ArrowDown"
        )
    {
        let is_typed = is_sign || name == "Backspace";
        let goes_up_or_down = matches!(name.as_str(), "ArrowUp" | "ArrowDown");
        // What is typed into the app's own field is no sign for the browser, which may begin to search at a stroke. What
        // an arrow moves in a list is brought into view by the app: the page is not scrolled as well.
        if app.answers(Action::Key(name)) && (is_typed || goes_up_or_down) {
            event.prevent_default();
        }
    }
}

/// Takes the files that are dropped on the page. What is no file, as text of another window, is left to the browser.
fn drops(app: &App, document: &Document) {
    let brings_files = |event: &Event| {
        let data = event
            .dyn_ref::<DragEvent>()
            .and_then(DragEvent::data_transfer);
        data.filter(|data| data.types().includes(&"Files".into(), 0))
    };
    // A page that does not refuse the browser's own way has its place taken by the file.
    listen(document, "dragover", move |event| {
        if brings_files(&event).is_some() {
            event.prevent_default();
        }
    });
    let app = app.clone();
    listen(document, "drop", move |event| {
        if let Some(data) = brings_files(&event) {
            event.prevent_default();
            app.take_files(files_in::dropped(&data));
        }
    });
}

/// Tells the app which rows of a long list are in view, at most once a frame and only where others are then drawn.
fn scrolls(app: &App, window: &Window, document: &Document) {
    let waits = Rc::new(Cell::new(false));
    let (app, of_window, of_document) = (app.clone(), window.clone(), document.clone());
    let asked = Rc::clone(&waits);
    let look = Closure::<dyn Fn()>::new(move || {
        asked.set(false);
        let Some((first, rows)) = rows_in_view(&of_document) else {
            return;
        };
        if app.model(|model| model.yard.table.changes_with(first, rows)) {
            app.act(table::Action::InView(first, rows).into());
        }
    });
    let hear = {
        let window = of_window;
        Closure::<dyn Fn()>::new(move || {
            if waits.replace(true) {
                return;
            }
            if window
                .request_animation_frame(look.as_ref().unchecked_ref())
                .is_err()
            {
                waits.set(false);
            }
        })
    };
    // What scrolls may be the window or a part of the page, whose events do not bubble.
    let early = AddEventListenerOptions::new();
    early.set_capture(true);
    early.set_passive(true);
    told(
        document.add_event_listener_with_callback_and_add_event_listener_options(
            "scroll",
            hear.as_ref().unchecked_ref(),
            &early,
        ),
    );
    // It lives as long as the page.
    hear.forget();
}

/// The first row in view of the long list of the page, and how many are: how far the list's top has gone above what
/// scrolls it, and how high that is.
fn rows_in_view(document: &Document) -> Option<(usize, usize)> {
    // nothing lost: the selectors are written here
    let list = document
        .query_selector("[data-row-height]")
        .ok()
        .flatten()?;
    let height = float_of(&list.get_attribute("data-row-height")?)?;
    let scrolled_by = list
        .parent_element()
        .and_then(|around| closest(&around, ".two #body"));
    let around = scrolled_by.or_else(|| document.document_element())?;
    let top = match around.parent_element() {
        Some(_) => around.get_bounding_client_rect().top(),
        None => 0.0,
    };
    let first = ((top - list.get_bounding_client_rect().top()) / height).floor();
    let rows = (f64::from(around.client_height()) / height).ceil();
    // A list that has not come to the top yet shows its first row; a list is never longer than fits in 32 bits.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    (first.is_finite() && rows.is_finite()).then_some((first.max(0.0) as usize, rows as usize))
}
