//! What a record shows of its own gaps: entries whose beginnings are not here, runs of entries that
//! are missing, a cloned device, one mark on two pieces.
//!
//! Trouble is reported, never mended: the maker knows more.

use crate::record::log::id::Id;
use crate::record::log::mark::plain_mark;
use crate::record::queries;
use crate::record::state::State;

/// Entries about something whose own beginning is not here: its file has not come yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Orphan {
    /// What they are about, or belong to.
    pub missing: Id,
    /// The entries, in the order of the fold.
    pub entries: Vec<Id>,
}

/// Entries that a device has written and that are not here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MissingRun {
    pub by: String,
    /// The first running number that is missing.
    pub from: u64,
    /// The last in a row.
    pub to: u64,
}

/// A running number that a device used twice: somebody carries a copy of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClonedDevice {
    pub by: String,
    /// The running number.
    pub seq: u64,
    pub entries: Vec<Id>,
}

/// One mark on several pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DoubledMark {
    /// The mark, in capitals and without dashes and spaces.
    pub mark: String,
    pub pieces: Vec<Id>,
}

/// Entries whose beginning is not here.
pub fn orphans(state: &State) -> Vec<Orphan> {
    state
        .orphans
        .iter()
        .map(|(&missing, entries)| Orphan {
            missing,
            entries: entries.clone(),
        })
        .collect()
}

/// Runs of entries that are missing between the first number and the highest seen of each device.
/// A record that holds only a selection has such gaps by nature.
pub fn missing_runs(state: &State) -> Vec<MissingRun> {
    let mut runs = Vec::new();
    for (by, seen) in state.numbers.sorted() {
        let mut next = 1;
        for (seq, _) in seen {
            if seq > next {
                runs.push(MissingRun {
                    by: by.to_owned(),
                    from: next,
                    to: seq - 1,
                });
            }
            next = seq.saturating_add(1).max(next);
        }
    }
    runs
}

/// Devices that used a number twice.
pub fn cloned_devices(state: &State) -> Vec<ClonedDevice> {
    let mut clones = Vec::new();
    for (by, seen) in state.numbers.sorted() {
        for doubled in seen
            .chunk_by(|a, b| a.0 == b.0)
            .filter(|same| same.len() > 1)
        {
            clones.push(ClonedDevice {
                by: by.to_owned(),
                seq: doubled[0].0,
                entries: doubled.iter().map(|(_, id)| *id).collect(),
            });
        }
    }
    clones
}

/// Marks that stand on more than one piece.
pub fn doubled_marks(state: &State) -> Vec<DoubledMark> {
    let marks = queries::marks::marks_on_wood(state);
    let doubled = marks.iter().filter(|(_, pieces)| pieces.len() > 1);
    doubled
        .map(|(mark, pieces)| DoubledMark {
            mark: mark.clone(),
            pieces: pieces.clone(),
        })
        .collect()
}

/// The pieces that carry a mark, as typed or spoken.
pub fn pieces_with_mark(state: &State, mark: &str) -> Vec<Id> {
    let marks = queries::marks::marks_on_wood(state);
    marks.get(&plain_mark(mark)).cloned().unwrap_or_default()
}
