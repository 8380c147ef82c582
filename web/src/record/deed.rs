//! What is to be written down, before it is an entry.

use stillwood_core::record::Happening;
use uuid::Uuid;

/// One thing to write down: what it is about, what happened, what it replaces.
#[derive(Debug, Clone)]
pub(crate) struct Deed {
    /// The piece, pile or visit.
    pub(crate) about: Uuid,
    /// What happened.
    pub(crate) happening: Happening,
    /// Entries that it replaces.
    pub(crate) supersedes: Vec<Uuid>,
    /// The day, as the maker says; none is today.
    pub(crate) on: Option<String>,
    /// The maker said "yes, really" to a question about the day.
    pub(crate) on_insisted: bool,
}

impl Deed {
    /// Something new.
    pub(crate) fn new(about: Uuid, happening: Happening) -> Self {
        Self {
            about,
            happening,
            supersedes: Vec::new(),
            on: None,
            on_insisted: false,
        }
    }

    /// Something in place of other entries.
    pub(crate) fn instead_of(about: Uuid, happening: Happening, supersedes: Vec<Uuid>) -> Self {
        Self {
            about,
            happening,
            supersedes,
            on: None,
            on_insisted: false,
        }
    }

    /// The same on a day that the maker says.
    pub(crate) fn on(mut self, day: String) -> Self {
        self.on = Some(day);
        self
    }

    /// The same, with whether the maker insisted on the day.
    pub(crate) fn really(mut self, insisted: bool) -> Self {
        self.on_insisted = insisted;
        self
    }
}
