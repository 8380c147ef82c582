//! An entry together with the line that was checked.

use super::Entry;

/// An entry that was just made, with its line as it was checked: it was read back once, and what it said
/// was what was meant. The line goes to the store as it is.
#[derive(Debug, Clone, PartialEq)]
pub struct WrittenEntry {
    pub(crate) entry: Entry,
    pub(crate) line: String,
}

impl WrittenEntry {
    pub fn entry(&self) -> &Entry {
        &self.entry
    }

    /// The entry as one line of JSON, keys sorted, without a line end.
    pub fn line(&self) -> &str {
        &self.line
    }

    /// The entry without its line, for the record in memory.
    pub fn into_entry(self) -> Entry {
        self.entry
    }
}
