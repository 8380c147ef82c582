//! What happened in the workshop, in a line, in the language that is spoken.

use super::spoken::spoken_language;
use super::{Language, german};
use stillwood_core::record::Event;

/// What happened in the workshop; none for what happens elsewhere.
pub fn workshop_words(event: &Event) -> Option<String> {
    match spoken_language() {
        Language::English => event.workshop_words(),
        Language::German => german::events::workshop(event),
    }
}
