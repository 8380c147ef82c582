//! The quick sort of a pile: "no" with its reasons, the last "no" taken back, and "maybe" with its mark.

use super::delete::undo;
use super::field_error::{FieldError, FieldErrors};
use super::filled::{Filled, NewEvent};
use crate::plank::Reason;
use crate::record::log::{Event, Id, Marked, PassedOver};
use crate::record::queries::naming_faults;
use crate::record::state::State;

/// The stored name of the mark that is chalked on a maybe.
pub const MARK: &str = "mark";

/// A plank was looked at and left; `reasons` has the main one first, and may be empty.
pub fn no(pile: Id, reasons: Vec<Reason>) -> Filled {
    let passed = PassedOver { count: 1, reasons };
    Filled::of(vec![NewEvent::new(pile, Event::PassedOver(passed))])
}

/// The last "no" of a pile is taken back; nothing where there is none.
pub fn undo_last_no(state: &State, pile: Id) -> Filled {
    let last = state.pile(pile).and_then(|pile| pile.passed.last());
    let last: Vec<(Id, Id)> = last.map(|lot| (lot.entry, pile)).into_iter().collect();
    undo(&last)
}

/// A plank may be worth having: it begins with its mark, which no other wood has.
pub fn maybe(state: &State, pile: Id, plank: Id, mark: &str) -> Result<Filled, FieldErrors> {
    let mark = mark.trim().to_owned();
    if let Some(Some(why)) = naming_faults(state, std::slice::from_ref(&mark)).pop() {
        return Err(FieldErrors::at(MARK, FieldError::Mark(why)));
    }
    let marked = Event::Marked(Marked { mark, pile });
    Ok(Filled::of(vec![NewEvent::new(plank, marked)]))
}
