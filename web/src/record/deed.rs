//! What is to be written down, before it is an entry.

use stillwood_core::record::Event;
use stillwood_core::record::Id;

/// One thing to write down: what it is about, what happened, what it replaces.
#[derive(Debug, Clone)]
pub(crate) struct Deed {
    /// The piece, pile or visit.
    pub(crate) about: Id,
    /// What happened.
    pub(crate) event: Event,
    /// Entries that it replaces.
    pub(crate) supersedes: Vec<Id>,
    /// The day, as the maker says; none is today.
    pub(crate) on: Option<String>,
    /// The maker said "yes, really" to a question about the day.
    pub(crate) on_confirmed: bool,
}

impl Deed {
    /// Something new.
    pub(crate) fn new(about: Id, event: Event) -> Self {
        Self {
            about,
            event,
            supersedes: Vec::new(),
            on: None,
            on_confirmed: false,
        }
    }

    /// Something in place of other entries.
    pub(crate) fn instead_of(about: Id, event: Event, supersedes: Vec<Id>) -> Self {
        Self {
            about,
            event,
            supersedes,
            on: None,
            on_confirmed: false,
        }
    }

    /// The same on a day that the maker says.
    pub(crate) fn on(mut self, day: String) -> Self {
        self.on = Some(day);
        self
    }

    /// The same, with whether the maker insisted on the day.
    pub(crate) fn really(mut self, confirmed: bool) -> Self {
        self.on_confirmed = confirmed;
        self
    }
}
