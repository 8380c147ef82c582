//! Which entries are known to be kept on another device as well.
//!
//! A file that was saved or shared is handed over, no more: whether anybody kept it, no browser tells.
//! Entries are kept elsewhere once a file that another device wrote comes back and holds them, or once
//! the maker says so of the file that was handed over last. What this device keeps of it is no part of
//! the record.

use crate::order;
use crate::record::log::{Entry, Log, NumberRanges, date};
use crate::record::state::State;
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// What this device knows of where else its entries are kept.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptElsewhere {
    /// Entries that are kept on another device.
    pub entries: NumberRanges,
    /// The file that was handed over last.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub handed: Option<HandedOver>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HandedOver {
    pub on: String,
    pub way: HandedWay,
    #[serde(default)]
    pub entries: NumberRanges,
}

/// How a file was handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HandedWay {
    /// It lies among this device's downloads.
    Saved,
    /// Another app took it.
    Shared,
}

/// How an attempt to save or share a file ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HandingEnd {
    /// The browser took it.
    Done(HandedWay),
    /// The maker changed their mind.
    Cancelled,
    /// It did not work.
    Failed,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OnlyHere {
    /// Planks whose beginning is kept nowhere else.
    pub planks: usize,
    /// Entries that are kept nowhere else.
    pub entries: usize,
    pub of: usize,
}

/// The device in the maker's hand, as it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThisDevice {
    /// Worked by a thumb.
    Phone,
    /// Worked by a mouse.
    Laptop,
}

impl KeptElsewhere {
    /// How many days ago a file was last handed over; `None` where none ever was.
    pub fn days_since_handed(&self, today: NaiveDate) -> Option<i64> {
        let on = date(&self.handed.as_ref()?.on)?;
        Some((today - on).num_days())
    }

    /// From what older versions kept: the day on which the record was last saved as a file, or brought
    /// in. How many entries that were says nothing about which.
    pub fn from_last_saved(on: &str) -> Self {
        Self {
            handed: Some(HandedOver {
                on: on.to_owned(),
                way: HandedWay::Saved,
                entries: NumberRanges::default(),
            }),
            ..Self::default()
        }
    }

    /// Notes how the handing over of a file with these entries ended; true where that changed anything.
    pub fn hand_over(&mut self, end: HandingEnd, on: &str, entries: NumberRanges) -> bool {
        let HandingEnd::Done(way) = end else {
            return false;
        };
        self.handed = Some(HandedOver {
            on: on.to_owned(),
            way,
            entries,
        });
        true
    }

    /// Entries of the file that was handed over last of which it is not known that they are kept
    /// elsewhere.
    pub fn unconfirmed<'a>(&self, entries: impl IntoIterator<Item = &'a Entry>) -> usize {
        let Some(handed) = &self.handed else { return 0 };
        let open = |entry: &&Entry| {
            handed.entries.contains(&entry.by, entry.seq)
                && !self.entries.contains(&entry.by, entry.seq)
        };
        entries.into_iter().filter(open).count()
    }

    /// The maker says that the file that was handed over last is on another device.
    pub fn confirm(&mut self) {
        if let Some(handed) = &self.handed {
            self.entries.merge(&handed.entries);
        }
    }

    /// Notes entries that a file showed to be kept elsewhere; true where that changed anything.
    pub fn see(&mut self, shown: &NumberRanges) -> bool {
        let before = self.entries.count();
        self.entries.merge(shown);
        self.entries.count() != before
    }

    /// How many entries of those that a file shows to be kept elsewhere are not known to be.
    pub fn news(&self, shown: &NumberRanges) -> usize {
        let mut after = self.entries.clone();
        after.merge(shown);
        usize::try_from(after.count().saturating_sub(self.entries.count())).unwrap_or(usize::MAX)
    }

    /// Joins what another window of this device has noted meanwhile; of two files the one that was handed over on the
    /// later day counts, of one day this window's own.
    pub fn join(&mut self, other: &Self) {
        self.entries.merge(&other.entries);
        let day = |kept: &Self| kept.handed.as_ref().and_then(|handed| date(&handed.on));
        if self.handed.is_none() || day(other) > day(self) {
            self.handed.clone_from(&other.handed);
        }
    }

    pub fn only_here(&self, log: &Log, state: &State) -> OnlyHere {
        let here = |entry: &Entry| !self.entries.contains(&entry.by, entry.seq);
        let begins_here = |id| log.entry(id).is_some_and(here);
        OnlyHere {
            planks: state
                .planks()
                .filter(|plank| begins_here(plank.recorded.entry))
                .count(),
            entries: log.everything().filter(|entry| here(entry)).count(),
            of: log.everything().count(),
        }
    }
}

/// The entries that a file shows to be kept on another device. None where this device, under any of its
/// identities, may have written it itself: a file says who wrote it, except where an older version did; of such a
/// file it is known only if it brings an entry of another device that is new here. To be asked before
/// the file is merged.
pub fn kept_elsewhere_by(
    log: &Log,
    is_own: impl Fn(&str) -> bool,
    written_by: Option<&str>,
    accepted: &[Entry],
) -> NumberRanges {
    let is_new = |entry: &Entry| log.entry(entry.id).is_none();
    let from_another = match written_by {
        Some(by) => !is_own(by),
        None => accepted
            .iter()
            .any(|entry| !is_own(&entry.by) && is_new(entry)),
    };
    if !from_another {
        return NumberRanges::default();
    }
    // A number that stands on another entry here too says nothing of that one.
    let mut held: Vec<&Entry> = accepted.iter().collect();
    order::sort_by_key(&mut held, |entry| entry.id);
    let is_held = |entry: &Entry| {
        let from = held.partition_point(|one| one.id < entry.id);
        held[from..]
            .iter()
            .take_while(|one| one.id == entry.id)
            .any(|one| one.says_the_same(entry))
    };
    let not_held = NumberRanges::of(log.everything().filter(|entry| !is_held(entry)));
    let held = held.into_iter();
    NumberRanges::of(held.filter(|entry| !not_held.contains(&entry.by, entry.seq)))
}

impl ThisDevice {
    pub fn name(self) -> &'static str {
        match self {
            ThisDevice::Phone => "phone",
            ThisDevice::Laptop => "laptop",
        }
    }
}

#[cfg(test)]
mod tests;
