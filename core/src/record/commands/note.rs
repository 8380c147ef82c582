//! A note on a visit, a pile or a piece.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Filled, NewEvent};
use super::form::Form;
use crate::record::log::{Event, Id, Noted};

/// The text.
pub const NOTE: FormField = FormField::new("A new note", FieldKind::Note);

/// What a filled form becomes.
pub fn command(form: &Form<'_>, about: Id) -> Result<Filled, FieldErrors> {
    let text = form.text(NOTE.key).to_owned();
    if text.is_empty() {
        return Err(FieldErrors::at(NOTE.key, FieldError::Missing));
    }
    let noted = Event::Noted(Noted { text });
    Ok(Filled::of(vec![NewEvent::new(about, noted)]))
}
