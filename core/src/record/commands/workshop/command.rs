//! One thing that can be done with a piece in the workshop, and how its filled form becomes an event.

use crate::record::commands::field_error::FieldErrors;
use crate::record::commands::field_kind::FormField;
use crate::record::commands::filled::{Context, Filled, NewEvent, on_its_day};
use crate::record::commands::form::{CONFIRMED, DAY, Form, FormReader, Texts, as_json};
use crate::record::log::{Event, Id};
use crate::record::queries::NextStep;
use crate::record::state::{Piece, State};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// One thing that can be done with a piece in the workshop.
#[derive(Debug, Clone, Copy)]
pub struct WorkshopCommand {
    /// Its stored name, in the key under which its form is kept while it is half typed.
    pub key: &'static str,
    /// Where it is likely next, what that is called.
    pub step: Option<NextStep>,
    /// What is asked, besides the day.
    pub fields: &'static [FormField],
    pub(super) offered: fn(&Piece, NaiveDate) -> bool,
    pub(super) begins: fn(&State, &Piece) -> Texts,
    pub(super) event: fn(FormReader<'_>) -> Result<Event, FieldErrors>,
}

impl WorkshopCommand {
    /// The key under which its form is kept while it is half typed.
    pub fn form_key(&self, piece: Id) -> String {
        format!("{piece}/{}", self.key)
    }

    /// Whether it is offered for a piece on a day.
    pub fn is_offered(&self, piece: &Piece, today: NaiveDate) -> bool {
        (self.offered)(piece, today)
    }

    /// What stands in the form when it is opened afresh: tools and terms as last time, and the day.
    pub fn begins(&self, piece: Id, context: &Context<'_>) -> Texts {
        let known = context.state.piece(piece);
        let mut texts = known.map_or_else(Texts::new, |piece| (self.begins)(context.state, piece));
        for field in self.fields {
            texts.entry(field.key.to_owned()).or_default();
        }
        texts.insert(DAY.key.to_owned(), context.today.to_string());
        let none: BTreeMap<String, String> = BTreeMap::new();
        texts.insert(CONFIRMED.to_owned(), as_json(&none));
        texts
    }

    /// What a filled form becomes.
    pub fn command(
        &self,
        form: &Form<'_>,
        piece: Id,
        context: &Context<'_>,
    ) -> Result<Filled, FieldErrors> {
        let mut day = form.reader();
        let on = day.needed_day(DAY);
        let day = day.finish(|| on);
        let event = (self.event)(form.reader());
        let (event, on) = match (event, day) {
            (Ok(event), Ok(on)) => (event, on),
            (event, day) => {
                let mut errors = event.err().unwrap_or_default();
                errors.extend(day.err().unwrap_or_default());
                return Err(errors);
            }
        };
        let confirmed = form.is_confirmed(DAY.key);
        let event = NewEvent::new(piece, event).on(on).on_confirmed(confirmed);
        Ok(on_its_day(form, context, event, self.fields))
    }
}

/// It is where it should be.
pub(super) fn here(piece: &Piece, _: NaiveDate) -> bool {
    piece.work.missing.is_none()
}

/// Whatever it is and wherever.
pub(super) fn always(_: &Piece, _: NaiveDate) -> bool {
    true
}

/// Nothing stands in the form at first.
pub(super) fn empty(_: &State, _: &Piece) -> Texts {
    Texts::new()
}
