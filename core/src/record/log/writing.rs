//! Making an entry, from a moment, a running number and an id that are all passed in.
//!
//! It draws no random number and looks at no clock: the same arguments give the same entry.

use crate::order;
use crate::record::log::{Entry, EntryFault, Event, WrittenEntry};
use chrono::NaiveDate;
use uuid::{Builder, Uuid};

/// A UUID version 7 (RFC 9562, section 5.7) from the milliseconds since 1970 and ten random bytes.
/// The version and the variant take the place of six of the random bits.
pub fn uuid_v7(unix_ms: u64, random: &[u8; 10]) -> Uuid {
    Builder::from_unix_timestamp_millis(unix_ms, random).into_uuid()
}

/// The device that writes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceId {
    /// The device's short name.
    pub by: String,
}

/// What is passed in for one entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EventMeta {
    /// The entry's id.
    pub id: Uuid,
    /// The device's next running number ([`crate::record::log::Log::next_seq`]).
    pub seq: u64,
    /// The record's next step ([`crate::record::log::Log::next_step`]).
    pub step: u64,
    /// The day, as the maker says.
    pub on: NaiveDate,
    /// The maker said "yes, really" to a question about the day.
    pub on_confirmed: bool,
    /// What the clock says, RFC 3339 with offset.
    pub at: String,
}

impl DeviceId {
    /// An entry about something.
    ///
    /// # Errors
    /// Where the entry could not be read back as it is, for example for a number that is none.
    pub fn entry(&self, moment: EventMeta, about: Uuid, event: Event) -> Result<Entry, EntryFault> {
        self.correction(moment, about, event, Vec::new())
    }

    /// An entry that replaces others.
    ///
    /// # Errors
    /// As [`Self::entry`].
    pub fn correction(
        &self,
        moment: EventMeta,
        about: Uuid,
        event: Event,
        supersedes: Vec<Uuid>,
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
        about: Uuid,
        event: Event,
        mut supersedes: Vec<Uuid>,
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

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 9562, appendix A.6: Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00. Value and moment
    /// as quoted in the test suites of public implementations.
    #[test]
    fn the_example_of_rfc_9562() {
        let random = [0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];
        let id = uuid_v7(1_645_557_742_000, &random);
        assert_eq!(id.to_string(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
        assert_eq!(id.get_version_num(), 7);
    }
}
