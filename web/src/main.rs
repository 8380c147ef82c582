//! The app in the browser. It carries what is typed into core and draws what core derives.

#![deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

// The screens that call the shell are not all here yet.
#[allow(dead_code, unused_imports)]
mod shell;

#[cfg(not(test))]
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

#[cfg(not(test))]
fn main() {
    // The place that index.html keeps for the app, with "Opening…" in it until now.
    let Some(place) = document()
        .get_element_by_id("app")
        .and_then(|found| found.dyn_into::<leptos::web_sys::HtmlElement>().ok())
    else {
        return mount_to_body(|| view! { <p>"Stillwood"</p> });
    };
    place.set_text_content(None);
    mount_to(place, || view! { <p>"Stillwood"</p> }).forget();
}

// Under test the harness decides what runs; the app itself stays out of the page.
#[cfg(test)]
fn main() {}
