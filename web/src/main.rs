//! The shell: it puts a screen's markup into the page, listens once at the root, and carries out effects. It decides
//! nothing and knows nothing of wood.

#![deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod app;
mod effects;
mod files;
mod first_frame;
mod identity;
mod keep;
mod keep_again;
mod kept_elsewhere;
mod listeners;
mod new_name;
mod page;
mod shell;
mod start;

use wasm_bindgen::JsCast;

/// A long record is hundreds of thousands of small pieces of memory: a start spends a good part of its time
/// handing them out, and this allocator does it in a few steps, whatever is in use.
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

fn main() {
    // The worker beside the page runs this module too, and has no window.
    if web_sys::window().is_none() {
        console_error_panic_hook::set_once();
        return files::work_in_the_background();
    }
    std::panic::set_hook(Box::new(stand_still));
    wasm_bindgen_futures::spawn_local(start::start());
}

/// Says on the screen that the app stands still, with the way out; the console has the rest.
fn stand_still(why: &std::panic::PanicHookInfo<'_>) {
    console_error_panic_hook::hook(why);
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    let said = document.create_element("div").and_then(|said| {
        said.set_attribute("role", "alert")?;
        said.set_class_name("notice bad");
        said.set_text_content(Some(
            "Stillwood has run into a fault of its own and stands still. What was saved and what is half typed is \
             kept on this device: load the page again.",
        ));
        Ok(said)
    });
    if let (Ok(said), Some(body)) = (said, document.body())
        && let Some(body) = body.dyn_ref::<web_sys::Element>()
    {
        // Nothing can be done about a failure here: the console has been told.
        let _ = body.prepend_with_node_1(&said);
    }
}
