//! What was recorded apart is settled: two texts of one entry, two corrections of one, two records of one plank,
//! two events that can't both be true.

use super::filled::{Filled, NewEvent};
use crate::record::log::{Conflict, Dispute, Event, Id, Log, SamePlank};

/// The text of an entry that is right, by its line; `None` where it is not there any more.
pub fn conflict(log: &Log, entry: Id, line: &str) -> Option<Filled> {
    let conflicts = log.conflicts();
    let conflict: &Conflict<'_> = conflicts.iter().find(|conflict| conflict.id == entry)?;
    let mut variants = conflict.variants.iter();
    let at = variants.position(|variant| variant.to_line() == line)?;
    let (about, event) = conflict.settle(at)?;
    Some(Filled::of(vec![NewEvent::new(about, event)]))
}

/// The correction that holds, of several that were made apart; `None` where it is not there any more.
pub fn dispute(log: &Log, dispute: &Dispute, chosen: Id) -> Option<Filled> {
    let entry = log.entry(chosen)?;
    let (event, replaced) = dispute.settle(entry)?;
    let event = NewEvent::instead_of(entry.about, event, replaced);
    Some(Filled::of(vec![event]))
}

/// Two records are of one plank, or of two.
pub fn pair(one: Id, other: Id, same: bool) -> Filled {
    let told = Event::SamePlank(SamePlank { other, same });
    Filled::of(vec![NewEvent::new(one, told)])
}
