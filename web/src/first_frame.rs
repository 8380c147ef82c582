//! A note for the next start: whether anything is recorded. `boot.js` reads it, to show the start's text or a neutral
//! frame before the app has come. Nothing but that picture follows from it.

use crate::shell::platform::warn;

/// The note; it stands there while nothing is recorded.
const NOTE: &str = "nothing-recorded";

/// Notes whether the start is what the next first screen shows.
pub(crate) fn note(shows_start: bool) {
    // nothing lost: without the note the next start shows a neutral frame
    let notes = web_sys::window().and_then(|window| window.local_storage().ok().flatten());
    let Some(notes) = notes else { return };
    let done = match shows_start {
        true => notes.set_item(NOTE, "yes"),
        false => notes.remove_item(NOTE),
    };
    if let Err(why) = done {
        warn(&format!("the next start's picture is not noted: {why:?}"));
    }
}
