//! Making an entry, from a moment, a running number and an id that are all passed in.
//!
//! It draws no random number and looks at no clock: the same arguments give the same entry.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::{Entry, EntryFault, Event, WrittenEntry};
use chrono::NaiveDate;

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceId {
    /// The device's short name.
    pub by: String,
}

/// What is passed in for one entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EventMeta {
    /// The entry's id.
    pub id: Id,
    /// The device's next running number: one more than its highest.
    pub seq: u64,
    /// The record's next step: one more than the highest of all, at most [`crate::record::log::LARGEST_NUMBER`].
    pub step: u64,
    /// The day, as the maker says.
    pub on: NaiveDate,
    /// The maker said "yes, really" to a question about the day.
    pub on_confirmed: bool,
    /// What the clock says, RFC 3339 with offset.
    pub at: String,
}

impl DeviceId {
    /// An entry about something. The app keeps the line as well ([`Self::write`]); tests use this.
    ///
    /// # Errors
    /// Where the entry could not be read back as it is, for example for a number that is none.
    pub fn entry(&self, moment: EventMeta, about: Id, event: Event) -> Result<Entry, EntryFault> {
        self.correction(moment, about, event, Vec::new())
    }

    /// An entry that replaces others; for tests, as [`Self::entry`].
    ///
    /// # Errors
    /// As [`Self::entry`].
    pub fn correction(
        &self,
        moment: EventMeta,
        about: Id,
        event: Event,
        supersedes: Vec<Id>,
    ) -> Result<Entry, EntryFault> {
        self.write(moment, about, event, supersedes)
            .map(WrittenEntry::into_entry)
    }

    /// An entry, and the line that was checked. `supersedes` names what it replaces; mostly nothing.
    ///
    /// # Errors
    /// As [`Self::entry`].
    pub fn write(
        &self,
        moment: EventMeta,
        about: Id,
        event: Event,
        mut supersedes: Vec<Id>,
    ) -> Result<WrittenEntry, EntryFault> {
        order::sort(&mut supersedes);
        supersedes.dedup();
        let mut entry = Entry::bare(moment.id, about, moment.on, event);
        entry.by.clone_from(&self.by);
        entry.seq = moment.seq;
        entry.step = moment.step;
        entry.at = moment.at;
        entry.on_confirmed = moment.on_confirmed;
        entry.supersedes = supersedes;
        Entry::from_parts(entry)
    }
}
