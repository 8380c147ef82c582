//! Something is deleted: a visit, a pile, a wood of the maker's own, a plank, or an entry; and put back.
//! Nothing is lost: one event takes it out of every list, and another puts it back.

use super::filled::{Filled, NewEvent};
use crate::record::log::{Event, EventStatus, Id, Log, Withdrawn};
use crate::record::state::State;

fn withdrawn(about: Id, entries: Vec<Id>) -> NewEvent {
    NewEvent::instead_of(about, Event::Withdrawn(Withdrawn {}), entries)
}

/// A visit, a pile or a wood of the maker's own is deleted, and what was recorded in it with it. To ask whether
/// that is meant ([`crate::record::queries::deletion`] says how much goes), and to drop half-typed planks of its
/// piles, is the caller's.
pub fn command(state: &State, about: Id) -> Filled {
    let entries = state.begun_by(about);
    match entries.is_empty() {
        true => Filled::default(),
        false => Filled::of(vec![withdrawn(about, entries)]),
    }
}

/// A plank is deleted: each of its marks is taken back, and what was made of it goes with it.
pub fn plank(state: &State, log: &Log, piece: Id) -> Filled {
    let Some(piece) = state.piece(piece) else {
        return Filled::default();
    };
    let in_force = piece.history.iter();
    let in_force = in_force.filter(|line| line.standing == EventStatus::InForce);
    let entries = in_force.filter_map(|line| log.entry(line.entry));
    let marks = entries.filter(|entry| matches!(entry.event, Event::Marked(_)));
    let gone = marks.map(|entry| withdrawn(entry.about, vec![entry.id]));
    Filled::of(gone.collect())
}

/// Entries that were just written are taken back: what an "Undo" does. `written` are their ids, each with what it is
/// about; there is one event for each of those.
pub fn undo(written: &[(Id, Id)]) -> Filled {
    let mut gone: Vec<(Id, Vec<Id>)> = Vec::new();
    for (entry, about) in written {
        match gone.iter_mut().find(|(known, _)| known == about) {
            Some((_, entries)) => entries.push(*entry),
            None => gone.push((*about, vec![*entry])),
        }
    }
    let gone = gone.into_iter();
    Filled::of(
        gone.map(|(about, entries)| withdrawn(about, entries))
            .collect(),
    )
}

/// A deletion is undone, or an import put back: the entries that say so are taken back themselves.
pub fn restore(log: &Log, deleted_by: &[Id]) -> Filled {
    let entries = deleted_by.iter().filter_map(|id| log.entry(*id));
    let back = entries.map(|entry| withdrawn(entry.about, vec![entry.id]));
    Filled::of(back.collect())
}
