//! What a file would bring, told before anything changes.

use crate::record::log::id::Id;
use crate::record::log::{Entry, FileReading, Log, Problem};
use crate::record::queries::{PairOffered, pairs};
use crate::record::state::State;
use std::collections::{BTreeMap, BTreeSet};

/// What merging a file would do.
#[derive(Debug, Clone, PartialEq)]
pub struct Preview {
    pub new: usize,
    pub already_here: usize,
    /// Ids under which a different entry is here, or that the file itself holds twice.
    pub altered: Vec<Id>,
    /// Entries that say that the import of something in this file was undone: to take those back is to put
    /// it in force again.
    pub undone: Vec<Id>,
    /// What could not be read.
    pub problems: Vec<Problem>,
    pub new_pieces: usize,
    /// Planks that two phones may both have recorded, after merging.
    pub pairs: Vec<PairOffered>,
    /// The file is from a newer version.
    pub newer: bool,
}

/// What merging the file would do. Nothing changes.
pub fn preview(log: &Log, reading: &FileReading) -> Preview {
    preview_with_state(log, &State::project(log), reading).0
}

/// As [`preview()`], where the record is folded already; and the state of everything as it
/// would be after merging, so that nothing has to be folded again then.
pub fn preview_with_state(log: &Log, before: &State, reading: &FileReading) -> (Preview, State) {
    let mut arriving: BTreeMap<Id, &Entry> = BTreeMap::new();
    let mut altered: BTreeSet<Id> = BTreeSet::new();
    let mut undone: BTreeSet<Id> = BTreeSet::new();
    let mut already_here = 0;
    for entry in &reading.accepted {
        if log.holds(entry) {
            already_here += 1;
            undone.extend(before.undone_by(entry.id));
            continue;
        }
        match (log.entry(entry.id), arriving.get(&entry.id)) {
            (None, Some(first)) if *first == entry => already_here += 1,
            (None, None) => {
                arriving.insert(entry.id, entry);
            }
            _ => {
                altered.insert(entry.id);
            }
        }
    }
    arriving.retain(|id, _| !altered.contains(id));
    let after = after(log, &arriving, &altered, &reading.accepted);
    let new_pieces = after
        .planks()
        .filter(|piece| {
            let ids = std::iter::once(&piece.id).chain(&piece.also);
            ids.into_iter().all(|id| before.piece(*id).is_none())
        })
        .count();
    let preview = Preview {
        new: arriving.len(),
        already_here,
        altered: altered.into_iter().collect(),
        undone: undone.into_iter().collect(),
        problems: reading.problems.clone(),
        new_pieces,
        pairs: pairs(&after),
        newer: reading.newer,
    };
    (preview, after)
}

/// The state of everything once what arrives is here.
fn after(
    log: &Log,
    arriving: &BTreeMap<Id, &Entry>,
    altered: &BTreeSet<Id>,
    accepted: &[Entry],
) -> State {
    if altered.is_empty() && log.conflicts().is_empty() {
        return State::project_entries(log.entries().chain(arriving.values().copied()));
    }
    // Which of several lines is in force depends on all the others.
    let mut whole = log.clone();
    whole.merge(accepted.iter().cloned());
    State::project(&whole)
}
