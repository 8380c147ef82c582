//! Something is deleted: a visit, a pile, a wood of the maker's own, a plank, or an entry; and put back.
//! Nothing is lost: one event takes it out of every list, and another puts it back.

use super::filled::{FieldQuestion, Filled, NewEvent};
use crate::record::log::{Event, EventStatus, Id, Log, Withdrawn};
use crate::record::queries::{Deletion, deletion};
use crate::record::state::State;

/// The name under which a deletion is asked about.
pub const DELETE: &str = "delete";

fn withdrawn(about: Id, entries: Vec<Id>) -> NewEvent {
    NewEvent::instead_of(about, Event::Withdrawn(Withdrawn {}), entries)
}

/// A visit, a pile or a wood of the maker's own is deleted, and what was recorded in it with it. Where wood of it
/// is in the workshop, that is asked about; `confirmed` is the answer. Half-typed planks of its piles are the
/// caller's to drop.
pub fn command(state: &State, about: Id, confirmed: bool) -> Filled {
    let entries = state.begun_by(about);
    if entries.is_empty() {
        return Filled::default();
    }
    let made = deletion(state, about);
    let question = question(&made).filter(|_| !confirmed);
    Filled {
        events: vec![withdrawn(about, entries)],
        questions: question.into_iter().collect(),
    }
}

fn question(made: &Deletion) -> Option<FieldQuestion> {
    let pieces = made.made_of_them.len();
    let what = match pieces {
        0 => return None,
        1 => "1 piece in the workshop was".to_owned(),
        count => format!("{count} pieces in the workshop were"),
    };
    Some(FieldQuestion {
        key: DELETE.to_owned(),
        question: format!("{what} made of its planks. Delete that too?"),
    })
}

/// A plank is deleted: its marks no longer count, and so nothing about it does.
pub fn plank(state: &State, log: &Log, piece: Id) -> Filled {
    let marked = |event: &Event| matches!(event, Event::Marked(_));
    Filled::of(withdraw_each(state, log, piece, marked))
}

/// Each entry of a piece that is in force and that `wanted` picks is taken back.
fn withdraw_each(
    state: &State,
    log: &Log,
    piece: Id,
    wanted: impl Fn(&Event) -> bool,
) -> Vec<NewEvent> {
    let Some(piece) = state.piece(piece) else {
        return Vec::new();
    };
    let in_force = piece.history.iter();
    let in_force = in_force.filter(|line| line.standing == EventStatus::InForce);
    let entries = in_force.filter_map(|line| log.entry(line.entry));
    let wanted = entries.filter(|entry| wanted(&entry.event));
    wanted
        .map(|entry| withdrawn(entry.about, vec![entry.id]))
        .collect()
}

/// Entries that were just written are taken back: what an "Undo" does. Each with what it is about.
pub fn undo(entries: &[(Id, Id)]) -> Filled {
    let one = |(entry, about): &(Id, Id)| withdrawn(*about, vec![*entry]);
    Filled::of(entries.iter().map(one).collect())
}

/// A deletion is undone: the entries that deleted are taken back themselves.
pub fn restore(log: &Log, deleted_by: &[Id]) -> Filled {
    let entries = deleted_by.iter().filter_map(|id| log.entry(*id));
    let back = entries.map(|entry| withdrawn(entry.about, vec![entry.id]));
    Filled::of(back.collect())
}
