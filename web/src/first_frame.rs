//! Notes for the next start: whether anything is recorded, and which language the maker chose. `boot.js` reads the
//! first, to show the start's text or a neutral frame before the app has come, `language.js` the second, for the pages
//! outside the app. Nothing but those pictures follows from them.

use crate::shell::platform::warn;
use stillwood_app::words::Language;

/// The note; it stands there while nothing is recorded.
const NOTE: &str = "nothing-recorded";
/// The tag of the language that was chosen; none is as the browser has it.
const LANGUAGE: &str = "language";

/// Notes whether the start is what the next first screen shows.
pub(crate) fn note(shows_start: bool) {
    put(NOTE, shows_start.then_some("yes"));
}

/// Notes the language that the maker chose.
pub(crate) fn note_language(chosen: Option<Language>) {
    put(LANGUAGE, chosen.map(Language::tag));
}

fn put(name: &str, text: Option<&str>) {
    // nothing lost: without the note the next start shows a neutral frame, or the browser's language
    let notes = web_sys::window().and_then(|window| window.local_storage().ok().flatten());
    let Some(notes) = notes else { return };
    let done = match text {
        Some(text) => notes.set_item(name, text),
        None => notes.remove_item(name),
    };
    if let Err(why) = done {
        warn(&format!("the next start's picture is not noted: {why:?}"));
    }
}
