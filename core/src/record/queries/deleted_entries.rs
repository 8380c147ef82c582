//! What was deleted and can be put back: the deletions in force, the latest first, each with what it took.
//!
//! Entries that one device deleted at one moment are one deletion: a visit goes with all that was recorded in it.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::order_of_entries::in_order;
use crate::record::log::standing::EventStatuses;
use crate::record::log::{Entry, Event, EventStatus, Log};
use std::collections::BTreeMap;

/// A deletion in force.
#[derive(Debug, Clone, PartialEq)]
pub struct DeletedEntries<'a> {
    /// The entries that delete, in order.
    pub deletions: Vec<&'a Entry>,
    /// The entries that they took, in order.
    pub taken: Vec<&'a Entry>,
}

/// The deletions in force, the latest first.
pub fn deleted_entries(log: &Log) -> Vec<DeletedEntries<'_>> {
    let ordered = in_order(log.entries());
    let statuses = EventStatuses::settle(&ordered);
    let mut taken_by: BTreeMap<Id, Vec<&Entry>> = BTreeMap::new();
    for entry in &ordered {
        // To delete a deletion is to put back what it took.
        if matches!(entry.event, Event::Withdrawn(_) | Event::ImportUndone(_)) {
            continue;
        }
        if let EventStatus::TakenBack { by } = statuses.of(entry.id) {
            taken_by.entry(by).or_default().push(entry);
        }
    }
    let mut found: Vec<DeletedEntries<'_>> = Vec::new();
    for entry in ordered {
        let Some(taken) = taken_by.remove(&entry.id) else {
            continue;
        };
        match found.last_mut() {
            Some(last)
                if last
                    .deletions
                    .last()
                    .is_some_and(|before| goes_with(before, entry)) =>
            {
                last.deletions.push(entry);
                last.taken.extend(taken);
            }
            _ => found.push(DeletedEntries {
                deletions: vec![entry],
                taken,
            }),
        }
    }
    for one in &mut found {
        order::sort_by_key(&mut one.taken, |entry| (entry.order(), entry.id));
    }
    found.reverse();
    found
}

/// Both were written down by one device in one go.
fn goes_with(before: &Entry, entry: &Entry) -> bool {
    before.by == entry.by && before.at == entry.at && before.seq.checked_add(1) == Some(entry.seq)
}
