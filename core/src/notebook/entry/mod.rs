//! One entry of the record: who wrote it, in what order, about what, and what happened.
//!
//! An entry is made by [`super::Author`] or read from text, and never changes. It always knows the
//! text of its own body, so that what a newer version wrote goes back into the file as it came.

mod frame;
mod place;
mod read;
mod sorted;
mod strict;
mod text;
mod words;

pub(super) use place::{byte_of, field_at, long_text};
pub use read::{EntryError, EntryFault};
pub(super) use sorted::sort_keys;
pub use text::date;
pub(super) use text::id_text;

use super::Happening;
use chrono::NaiveDate;
use serde_json::Value;
use std::collections::BTreeMap;
use text::{push_date, push_id, push_text};
use uuid::Uuid;

/// The version in which this app writes entries.
pub const ENTRY_VERSION: u32 = 1;

/// The largest `seq` and `step` that is read: above it, other tools no longer keep whole numbers exact.
pub const LARGEST_NUMBER: u64 = (1 << 53) - 1;

/// What is refused for its mere size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Bytes in a file.
    pub file: usize,
    /// Entries in a file.
    pub entries: usize,
    /// Bytes in an entry.
    pub entry: usize,
    /// Bytes in one text.
    pub text: usize,
    /// Problems listed; the rest are counted.
    pub problems: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            file: 512 << 20,
            entries: 1_000_000,
            entry: 1 << 20,
            text: 64 << 10,
            problems: 500,
        }
    }
}

/// One entry. It never changes and is never removed.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its own, random (UUID version 7, RFC 9562).
    pub id: Uuid,
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
    /// What the device's clock said. A remark, never a judge: any text is kept.
    pub at: String,
    /// The visit, the pile, the piece or the wood.
    pub about: Uuid,
    /// What happened.
    pub happening: Happening,
    /// The entries that it replaces.
    pub supersedes: Vec<Uuid>,
    /// What a newer version wrote beside all this.
    pub extra: BTreeMap<String, Value>,
    /// The body as it stands in the file: compact, keys sorted.
    body: Box<str>,
}

impl Entry {
    /// Its place in the order of the fold.
    pub fn order(&self) -> (u64, Uuid) {
        (self.step, self.id)
    }

    /// What happened, as it stands in the file, with all that this version does not understand.
    pub fn body(&self) -> &str {
        &self.body
    }

    /// The entry as one line of JSON, keys sorted, without a line end.
    pub fn to_line(&self) -> String {
        let mut out = Vec::with_capacity(self.body.len() + 320);
        self.write_line(&mut out);
        String::from_utf8_lossy(&out).into_owned()
    }

    /// Writes the entry as one line of JSON, keys sorted, without a line end.
    pub(super) fn write_line(&self, out: &mut Vec<u8>) {
        let mut extra = self.extra.iter().peekable();
        out.push(b'{');
        for key in OWN_KEYS {
            while let Some((name, value)) = extra.next_if(|(name, _)| name.as_str() < *key) {
                push_extra(out, name, value);
            }
            self.write_own(out, key);
        }
        for (name, value) in extra {
            push_extra(out, name, value);
        }
        out.push(b'}');
    }

    fn write_own(&self, out: &mut Vec<u8>, key: &str) {
        if key == "supersedes" && self.supersedes.is_empty() {
            return;
        }
        push_key(out, key);
        match key {
            "about" => push_id(out, self.about),
            "at" => push_text(out, &self.at),
            "body" => out.extend_from_slice(self.body.as_bytes()),
            "by" => push_text(out, &self.by),
            "happening" => push_text(out, self.happening.kind()),
            "id" => push_id(out, self.id),
            "on" => push_date(out, self.on),
            "seq" => out.extend_from_slice(self.seq.to_string().as_bytes()),
            "step" => out.extend_from_slice(self.step.to_string().as_bytes()),
            "supersedes" => {
                for (i, id) in self.supersedes.iter().enumerate() {
                    out.push(if i == 0 { b'[' } else { b',' });
                    push_id(out, *id);
                }
                out.push(b']');
            }
            _ => out.extend_from_slice(self.v.to_string().as_bytes()),
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
pub(super) const OWN_KEYS: &[&str] = &[
    "about",
    "at",
    "body",
    "by",
    "happening",
    "id",
    "on",
    "seq",
    "step",
    "supersedes",
    "v",
];

fn push_key(out: &mut Vec<u8>, key: &str) {
    if out.last() != Some(&b'{') {
        out.push(b',');
    }
    push_text(out, key);
    out.push(b':');
}

fn push_extra(out: &mut Vec<u8>, name: &str, value: &Value) {
    push_key(out, name);
    sort_keys(value.to_string().as_bytes(), out);
}
