//! The app in the browser. It carries what is typed into core and draws what core derives; it holds no
//! arithmetic on wood.

#![deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
// The component macro makes a public props type for each component.
#![allow(unreachable_pub)]

mod app;
mod beside;
mod drawings;
mod entering;
mod held;
mod identity;
mod imports;
mod kept_elsewhere;
mod marks;
mod parts;
mod record;
mod route;
mod screens;
mod shell;
mod start;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// A long record is hundreds of thousands of small pieces of memory: a start spends a good part of its time
/// handing them out, and this allocator does it in a few steps, whatever is in use.
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

#[cfg(not(test))]
fn main() {
    // The worker beside the page runs this module too, and has no window.
    if web_sys::window().is_none() {
        console_error_panic_hook::set_once();
        return beside::work();
    }
    std::panic::set_hook(Box::new(stand_still));
    wasm_bindgen_futures::spawn_local(run());
}

// Under test the harness decides what runs; the app itself stays out of the page.
#[cfg(test)]
fn main() {}

/// Says on the screen that the app stands still, with the way out; the console has the rest.
#[cfg_attr(test, allow(dead_code))]
fn stand_still(why: &std::panic::PanicHookInfo<'_>) {
    console_error_panic_hook::hook(why);
    let said = document().create_element("div").and_then(|said| {
        said.set_attribute("role", "alert")?;
        said.set_class_name("note bad");
        said.set_text_content(Some(
            "Stillwood has run into a fault of its own and stands still. What was saved and what is \
             half typed is kept on this device: load the page again.",
        ));
        Ok(said)
    });
    if let (Ok(said), Some(body)) = (said, document().body()) {
        // Nothing can be done about a failure here: the console has been told.
        let _ = body.prepend_with_node_1(&said);
    }
}

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
