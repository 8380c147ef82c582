//! A rack looked over for movement: a touch for each piece that did not move, and the sizes of those that did.
//! Each makes an event of its own; day and name are typed once for the round.

use super::field_error::FieldErrors;
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{DAY, Form, Texts, texts_of};
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
    let check = MovementChecked {
        nothing_moved: true,
        ..MovementChecked::default()
    };
    said(round, None, check, piece, context)
}

/// A piece that moved, with what was measured.
pub fn moved(
    round: &Form<'_>,
    form: &Form<'_>,
    piece: Id,
    context: &Context<'_>,
) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let check = checked(&mut read);
    let check = read.finish(|| Some(check));
    match check {
        Ok(check) => said(round, Some(form), check, piece, context),
        Err(mut errors) => {
            let mut day = round.reader();
            day.needed_day(DAY);
            day.words(WHO);
            errors.extend(day.finish(|| Some(())).err().unwrap_or_default());
            Err(errors)
        }
    }
}

fn said(
    round: &Form<'_>,
    form: Option<&Form<'_>>,
    mut check: MovementChecked,
    piece: Id,
    context: &Context<'_>,
) -> Result<Filled, FieldErrors> {
    let mut read = round.reader();
    let on = read.needed_day(DAY);
    check.who = read.words(WHO);
    if form.is_none() {
        check.within = read.reading(WITHIN);
    }
    let on = read.finish(|| on)?;
    let confirmed = round.is_confirmed(DAY.key);
    let event = NewEvent::new(piece, Event::MovementChecked(Arc::new(check)));
    let event = event.on(on).on_confirmed(confirmed);
    let asked_in = form.unwrap_or(round);
    let mut asked = Filled::default().ask_about(asked_in, context, &event, &MOVED);
    asked
        .questions
        .retain(|question| question.key != DAY.key || !confirmed);
    Ok(Filled {
        events: vec![event],
        ..asked
    })
}
