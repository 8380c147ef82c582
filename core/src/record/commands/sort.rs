//! The quick sort of a pile: "no" with its reasons, "maybe" with its mark, and the last "no" taken back.

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

/// A plank may be worth having: it gets a mark, which no other wood has.
pub fn maybe(
    pile: Id,
    mark: &str,
    state: &State,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let mark = mark.trim().to_owned();
    if let Some(Some(why)) = naming_faults(state, std::slice::from_ref(&mark)).pop() {
        return Err(FieldErrors::at(MARK, FieldError::Mark(why)));
    }
    let marked = Event::Marked(Marked { mark, pile });
    Ok(Filled::of(vec![NewEvent::new(new_id(), marked)]))
}
