//! The shell: it puts a screen's markup into the page, listens once at the root, and carries out effects. It decides
//! nothing and knows nothing of wood.

#![deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod app;
mod effects;
mod files;
mod first_frame;
mod half_typed;
mod identity;
mod keep;
mod keep_again;
mod kept_elsewhere;
mod listeners;
mod new_name;
mod page;
mod shell;
mod start;
mod steps_behind;

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

/// The id of the word on a fault.
const FAULT: &str = "fault";

/// What is said of a fault, by language: the page shows the one that is spoken.
const SAID: [(&str, &str); 2] = [
    (
        "en",
        "Stillwood has run into a fault of its own and stands still. What was said to be saved is kept on this \
         device. What is not yet saved is lost with this page. Load it again.",
    ),
    (
        "de",
        "Stillwood ist auf einen eigenen Fehler gestoßen und steht still. Was als gesichert gemeldet wurde, liegt auf \
         diesem Gerät. Was noch nicht gesichert ist, geht mit dieser Seite verloren. Lade sie neu.",
    ),
];

/// Says on the screen that the app stands still, with the way out; the console has the rest.
fn stand_still(why: &std::panic::PanicHookInfo<'_>) {
    console_error_panic_hook::hook(why);
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    if document.get_element_by_id(FAULT).is_some() {
        return;
    }
    let said = document.create_element("div").and_then(|said| {
        said.set_id(FAULT);
        said.set_attribute("role", "alert")?;
        said.set_class_name("notice bad");
        for (language, text) in SAID {
            let line = document.create_element("p")?;
            line.set_attribute("lang", language)?;
            line.set_text_content(Some(text));
            said.append_child(&line)?;
        }
        Ok(said)
    });
    if let (Ok(said), Some(body)) = (said, document.body())
        && let Some(body) = body.dyn_ref::<web_sys::Element>()
    {
        // Nothing can be done about a failure here: the console has been told.
        let _ = body.prepend_with_node_1(&said);
    }
}
