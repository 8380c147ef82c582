//! What the store holds and nobody can read: it stays where it is, and is listed.

use super::names::PageKey;

/// Where something damaged stands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Place {
    /// A page of the record.
    Page(PageKey),
    /// Something half typed, by its key.
    Draft(String),
    /// A setting of this device, by its key.
    Setting(String),
}

/// Something that can't be read.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Damage {
    /// Where it stands.
    pub(crate) place: Place,
    /// The line of the page, from 1; none where the whole is meant.
    pub(crate) line: Option<usize>,
    /// Why it can't be read.
    pub(crate) reason: String,
}

impl Damage {
    /// A whole page, draft or setting.
    pub(crate) fn of(place: Place, reason: impl Into<String>) -> Self {
        Self {
            place,
            line: None,
            reason: reason.into(),
        }
    }
}

impl std::fmt::Display for Damage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.place {
            Place::Page(key) => write!(f, "Stored page {}", key.number())?,
            Place::Draft(key) => write!(f, "Something half typed ({key})")?,
            Place::Setting(key) => write!(f, "The stored {key}")?,
        }
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        write!(f, ": {}", self.reason)
    }
}
