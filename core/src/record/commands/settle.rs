//! What was recorded apart is settled: two texts of one entry, two corrections of one, two records of one plank,
//! two events that can't both be true.

use super::filled::{Filled, NewEvent};
use crate::record::log::{Event, Id, Log, SamePlank};
use crate::record::state::State;

/// The text of an entry that is right, by its place among those shown; `None` where it is not there any more.
pub fn conflict(log: &Log, entry: Id, chosen: usize) -> Option<Filled> {
    let conflicts = log.conflicts();
    let conflict = conflicts.iter().find(|conflict| conflict.id == entry)?;
    let (about, event) = conflict.settle(chosen)?;
    Some(Filled::of(vec![NewEvent::new(about, event)]))
}

/// The correction of an entry that holds, of several that were made apart; `None` where it is not there any more.
pub fn dispute(state: &State, log: &Log, of: Id, chosen: Id) -> Option<Filled> {
    let dispute = state.disputes().iter().find(|one| one.of == of)?;
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
