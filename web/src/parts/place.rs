//! The place on a screen that an address names after the screen: `#/carry/pairs`.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;

/// Brings the part of this screen that the address names under the eye, and puts the focus there.
pub(crate) fn show_named_place() {
    let hash = window().location().hash().unwrap_or_default();
    let Some(id) = hash.splitn(3, '/').nth(2).map(str::to_owned) else {
        return;
    };
    // Once it stands: a screen is drawn first and brought to its top.
    set_timeout(
        move || {
            let Some(part) = document().get_element_by_id(&id) else {
                return;
            };
            part.scroll_into_view();
            if let Ok(part) = part.dyn_into::<web_sys::HtmlElement>()
                && (part.has_attribute("tabindex") || part.set_attribute("tabindex", "-1").is_ok())
                && let Err(why) = part.focus()
            {
                leptos::logging::warn!("{id} can't take the focus: {why:?}");
            }
        },
        std::time::Duration::from_millis(60),
    );
}
