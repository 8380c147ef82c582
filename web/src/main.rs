//! The app in the browser. It carries what is typed into core and draws what core derives; it holds no
//! arithmetic on wood.

#![deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
// The component macro makes a public props type for each component.
#![allow(unreachable_pub)]

mod app;
mod drawings;
mod entering;
mod marks;
mod parts;
mod record;
mod route;
mod screens;
mod shell;
mod start;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

#[cfg(not(test))]
fn main() {
    console_error_panic_hook::set_once();
    wasm_bindgen_futures::spawn_local(run());
}

// Under test the harness decides what runs; the app itself stays out of the page.
#[cfg(test)]
fn main() {}

/// Reads the record, then puts the first screen in the place that the page keeps for it.
#[cfg_attr(test, allow(dead_code))]
async fn run() {
    let owner = Owner::new();
    owner.set();
    let app = start::start().await;
    let place = document()
        .get_element_by_id("app")
        .and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok());
    let Some(place) = place else {
        leptos::logging::error!("the page has no place for the app");
        return;
    };
    place.set_text_content(None);
    mount_to(place, move || {
        provide_context(app);
        screens::root(app)
    })
    .forget();
    // The state lives as long as the page.
    std::mem::forget(owner);
}
