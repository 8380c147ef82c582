//! What stands where in the database, and the keys of pages.

use std::collections::BTreeMap;

pub(super) const PAGES: &str = "pages";
pub(super) const DRAFTS: &str = "drafts";
pub(super) const SETTINGS: &str = "settings";

/// A text to keep under a key, or `None` to drop what is there.
pub(super) type Texts = BTreeMap<String, Option<String>>;

/// A page's place in the order of writing. The browser counts up and never gives a number twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct PageKey(u64);

impl PageKey {
    /// The number itself, for telling another tab.
    pub(crate) fn number(self) -> f64 {
        // The browser counts no further than 2^53, below which this is exact.
        self.0 as f64
    }

    /// The key behind a number that [`PageKey::number`] gave.
    pub(crate) fn from_number(number: f64) -> Self {
        Self(number as u64)
    }
}
