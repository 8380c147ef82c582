//! One entry of the record: who wrote it, in what order, about what, and what happened.
//!
//! An entry is made by [`crate::record::log::DeviceId`] or read from text, and never changes. It always knows the
//! text of its own body, so that what a newer version wrote goes back into the file as it came.

pub(crate) mod checksum;
pub(crate) mod envelope;
pub(crate) mod fast_path;
pub(crate) mod json_path;
pub(crate) mod messages;
pub(crate) mod no_duplicate_keys;
pub(crate) mod read;
pub(crate) mod sorted;
pub(crate) mod text;
pub(crate) mod written;

pub(crate) use sorted::sort_keys;

use crate::record::log::Event;
use crate::record::log::id::Id;
use chrono::NaiveDate;
use serde_json::Value;
use std::collections::{BTreeMap, btree_map};
use std::iter::Peekable;
use text::{push_date, push_id, push_number, push_text};

/// The version in which this app writes entries.
pub const ENTRY_VERSION: u32 = 2;

/// The first version whose entries carry a checksum, and must.
pub const FIRST_WITH_CHECKSUM: u32 = 2;

/// The largest `seq` and `step` that is read from a file. A shop that writes an entry every second, day
/// and night, gets there after 35,000 years.
pub const LARGEST_NUMBER: u64 = 1 << 40;

/// The largest `seq` and `step` that an earlier version may have stored: above it, other tools no longer
/// keep whole numbers exact.
const LARGEST_STORED_NUMBER: u64 = (1 << 53) - 1;

/// The years in which a day of a record may lie.
pub const YEARS: std::ops::RangeInclusive<i32> = 1900..=2200;

/// What is refused for its mere size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    pub file: usize,
    pub entries: usize,
    pub entry: usize,
    pub text: usize,
    /// Problems listed; the rest are counted.
    pub problems: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            file: 512 << 20,
            entries: 1_000_000,
            // An import of a million entries is undone by one entry that names them all.
            entry: 40 << 20,
            text: 64 << 10,
            problems: 500,
        }
    }
}

/// One entry. It never changes and is never removed.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its own, random (UUID version 7, RFC 9562).
    pub id: Id,
    /// The entry's own schema version.
    pub v: u32,
    /// The short name of the device that wrote it.
    pub by: String,
    /// That device's running number: a gap shows a missing file, a repeat a cloned device.
    pub seq: u64,
    /// A Lamport number: one more than the highest that the device had seen.
    pub step: u64,
    /// The day on which it happened, as the maker says.
    pub on: NaiveDate,
    /// The maker said "yes, really" to a question about the day.
    pub on_confirmed: bool,
    /// What the device's clock said. A remark, never a judge: any text is kept.
    pub at: String,
    /// The visit, the pile, the piece or the wood.
    pub about: Id,
    pub event: Event,
    /// The entries that it replaces.
    pub supersedes: Vec<Id>,
    /// What a newer version wrote beside all this.
    pub extra: BTreeMap<String, Value>,
    /// The body as it stands in the file: compact, keys sorted.
    body: Box<str>,
}

impl Entry {
    /// Its place in the order of the fold. What has damaged numbering stands after all others, by its device,
    /// its running number and, where those are equal, its id (sort by `(order(), id)`).
    pub fn order(&self) -> (u64, Id) {
        if self.is_ordered_last() {
            let mut device = [0; 8];
            for (place, byte) in device.iter_mut().zip(self.by.bytes()) {
                *place = byte;
            }
            return (
                u64::MAX,
                Id::from_u128(
                    (u128::from(u64::from_be_bytes(device)) << 64) | u128::from(self.seq),
                ),
            );
        }
        (self.step, self.id)
    }

    /// Whether its step or running number is one that no shop reaches. No file brings such an entry; an
    /// earlier version may have stored it.
    pub fn has_damaged_numbering(&self) -> bool {
        self.step > LARGEST_NUMBER || self.seq > LARGEST_NUMBER
    }

    /// Whether its step says nothing about its order any more: beyond the largest, or at the largest, where
    /// a clock that was pushed to its end stands still.
    pub(crate) fn is_ordered_last(&self) -> bool {
        self.step >= LARGEST_NUMBER || self.seq > LARGEST_NUMBER
    }

    /// What happened, as it stands in the file, with all that this version does not understand.
    pub fn body(&self) -> &str {
        &self.body
    }

    /// Whether another says the same, also where one was kept as an older version wrote it.
    pub(crate) fn says_the_same(&self, other: &Self) -> bool {
        let again = |entry: &Self| Self::from_kept_anew(&entry.to_line());
        self == other || again(self).is_some_and(|this| Some(this) == again(other))
    }

    /// The entry as one line of JSON, keys sorted, without a line end.
    pub fn to_line(&self) -> String {
        let mut out = Vec::with_capacity(self.body.len() + 320);
        self.write_line(&mut out);
        String::from_utf8_lossy(&out).into_owned()
    }

    /// Writes the entry as one line of JSON, keys sorted, without a line end.
    pub(crate) fn write_line(&self, out: &mut Vec<u8>) {
        let start = out.len();
        let extra = self.extra.iter().peekable();
        let mut line = Line { out, extra };
        line.out.push(b'{');
        push_id(line.key("about"), self.about);
        push_text(line.key("at"), &self.at);
        let body = line.key("body");
        body.extend_from_slice(self.body.as_bytes());
        push_text(line.key("by"), &self.by);
        line.extra_before(Some(checksum::KEY));
        let checksum_at = line.out.len();
        push_text(line.key("happening"), self.event.kind());
        push_id(line.key("id"), self.id);
        push_date(line.key("on"), self.on);
        if self.on_confirmed {
            line.key("on_insisted").extend_from_slice(b"true");
        }
        push_number(line.key("seq"), self.seq);
        push_number(line.key("step"), self.step);
        if !self.supersedes.is_empty() {
            let out = line.key("supersedes");
            for (i, id) in self.supersedes.iter().enumerate() {
                out.push(if i == 0 { b'[' } else { b',' });
                push_id(out, *id);
            }
            out.push(b']');
        }
        push_number(line.key("v"), self.v.into());
        line.extra_before(None);
        line.out.push(b'}');
        if self.v >= FIRST_WITH_CHECKSUM {
            let sum = checksum::of(&out[start..]);
            let member = checksum::member(sum);
            out.splice(checksum_at..checksum_at, member.bytes());
        }
    }

    /// Its line, also where one was kept as an older version wrote it.
    pub(crate) fn canonical_line(&self) -> String {
        let line = self.to_line();
        match Self::from_kept_anew(&line) {
            Some(again) => again.to_line(),
            None => line,
        }
    }

    /// Whether this version understands all that it says.
    pub(crate) fn is_understood(&self) -> bool {
        let mut known = Vec::new();
        if matches!(self.event, Event::Unknown { .. })
            || !self.extra.is_empty()
            || self.event.write_body(&mut known).is_err()
        {
            return false;
        }
        let mut sorted = Vec::with_capacity(known.len());
        sort_keys(&known, &mut sorted);
        sorted == self.body.as_bytes()
    }

    /// What tells this line from any other under the same id, in letters.
    pub fn fingerprint(&self) -> String {
        checksum::fingerprint(self.canonical_line().as_bytes())
    }
}

/// A line being written.
struct Line<'a> {
    out: &'a mut Vec<u8>,
    extra: Peekable<btree_map::Iter<'a, String, Value>>,
}

impl Line<'_> {
    /// A key of the entry's own, after what a newer version wrote that stands before it.
    fn key(&mut self, key: &str) -> &mut Vec<u8> {
        self.extra_before(Some(key));
        if self.out.last() != Some(&b'{') {
            self.out.push(b',');
        }
        self.out.push(b'"');
        self.out.extend_from_slice(key.as_bytes());
        self.out.extend_from_slice(b"\":");
        self.out
    }

    /// What a newer version wrote, up to a key of the entry's own or to the end.
    fn extra_before(&mut self, own: Option<&str>) {
        let stands_before = |(name, _): &(&String, _)| own.is_none_or(|own| name.as_str() < own);
        while let Some((name, value)) = self.extra.next_if(stands_before) {
            push_extra(self.out, name, value);
        }
    }
}

/// Entries as lines of JSON, each with its line end.
pub fn lines(entries: &[Entry]) -> String {
    let mut out = Vec::with_capacity(entries.iter().map(|entry| entry.body.len() + 320).sum());
    for entry in entries {
        entry.write_line(&mut out);
        out.push(b'\n');
    }
    String::from_utf8(out).unwrap_or_else(|e| String::from_utf8_lossy(e.as_bytes()).into_owned())
}

/// The keys of an entry, in the order of the file.
pub(crate) const OWN_KEYS: &[&str] = &[
    "about",
    "at",
    "body",
    "by",
    "checksum",
    "happening",
    "id",
    "on",
    "on_insisted",
    "seq",
    "step",
    "supersedes",
    "v",
];

fn push_extra(out: &mut Vec<u8>, name: &str, value: &Value) {
    if out.last() != Some(&b'{') {
        out.push(b',');
    }
    push_text(out, name);
    out.push(b':');
    sort_keys(value.to_string().as_bytes(), out);
}
