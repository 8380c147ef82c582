//! A rack looked over for movement: a touch for each piece that did not move, and the sizes of those that did.
//! Each makes an event of its own; day and name are typed once for the round.

use super::field_error::FieldErrors;
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{DAY, Form, FormReader, Texts, texts_of};
use super::workshop::{MOVED, checked};
use crate::record::log::{Event, Id, MovementChecked};
use std::sync::Arc;

/// Who looked.
pub const WHO: FormField = FormField::new("Who looked", FieldKind::Words);
/// How far off the tool may be with which each piece is looked over; empty is by eye.
pub const WITHIN: FormField = MOVED[7];
/// What is asked once for the round.
pub const ROUND: [FormField; 3] = [DAY, WHO, WITHIN];
/// The key under which the round is kept while it is half typed.
pub const ROUND_KEY: &str = "check";

/// The key under which the sizes of a piece that moved are kept while they are half typed.
pub fn form_key(piece: Id) -> String {
    format!("{piece}/check")
}

/// What stands in the round when it is begun.
pub fn begins(context: &Context<'_>) -> Texts {
    texts_of([
        (DAY, context.today.to_string()),
        (WHO, String::new()),
        (WITHIN, String::new()),
    ])
}

/// A piece that did not move.
pub fn no_change(
    round: &Form<'_>,
    piece: Id,
    context: &Context<'_>,
) -> Result<Filled, FieldErrors> {
    let mut read = round.reader();
    let check = MovementChecked {
        nothing_moved: true,
        within: read.reading(WITHIN),
        ..MovementChecked::default()
    };
    said(round, read, check, piece, context)
}

/// A piece that moved, with what was measured. The day of the round and who looked stand in its form as well.
pub fn moved(form: &Form<'_>, piece: Id, context: &Context<'_>) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let check = checked(&mut read);
    said(form, read, check, piece, context)
}

/// What was seen, by whom and on which day: all that is wrong with it is told at once.
fn said(
    form: &Form<'_>,
    mut read: FormReader<'_>,
    mut check: MovementChecked,
    piece: Id,
    context: &Context<'_>,
) -> Result<Filled, FieldErrors> {
    let on = read.needed_day(DAY);
    check.who = read.words(WHO);
    let on = read.finish(|| on)?;
    let event = NewEvent::new(piece, Event::MovementChecked(Arc::new(check)));
    let event = event.on(on).on_confirmed(form.is_confirmed(DAY.key));
    let asked = Filled::default().ask_about(form, context, &event, &MOVED);
    Ok(Filled {
        events: vec![event],
        ..asked
    })
}
