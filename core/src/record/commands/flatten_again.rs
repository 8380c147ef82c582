//! A piece that moved is machined flat and set to rest anew: two events of one day.

use super::field_error::FieldErrors;
use super::field_kind::FormField;
use super::filled::{Context, Filled, NewEvent};
use super::form::{DAY, Form, Texts};
use super::workshop::{RACK, WorkshopCommand, workshop_command};
use crate::record::log::{Climate, Event, Id, SetToRest};
use crate::record::queries::stage_of;
use std::sync::Arc;

/// The key under which the form is kept while it is half typed.
pub fn form_key(piece: Id) -> String {
    format!("{piece}/Flatten and rest again")
}

fn machined() -> Option<&'static WorkshopCommand> {
    workshop_command("Machined flat")
}

/// What is asked: what was made flat, its sizes after it, the rack, the day.
pub fn fields() -> Vec<FormField> {
    let mut fields = machined().map_or_else(Vec::new, |one| one.fields.to_vec());
    fields.extend([RACK, DAY]);
    fields
}

/// What stands in the form when it is opened afresh.
pub fn begins(piece: Id, context: &Context<'_>) -> Texts {
    let mut texts = machined().map_or_else(Texts::new, |one| one.begins(piece, context));
    let known = context.state.piece(piece);
    let place = known.and_then(|piece| piece.work.place());
    let place = place.map(|place| place.payload.clone());
    texts.insert(RACK.key.to_owned(), place.unwrap_or_default());
    texts
}

/// What a filled form becomes: it rests in the stage that it is in.
pub fn command(form: &Form<'_>, piece: Id, context: &Context<'_>) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let place = read.words(RACK);
    let place = read.finish(|| Some(place));
    let machined = machined().map(|one| one.command(form, piece, context));
    let (mut filled, place) = match (machined, place) {
        (Some(Ok(filled)), Ok(place)) => (filled, place),
        (machined, place) => {
            let mut errors = machined.and_then(Result::err).unwrap_or_default();
            errors.extend(place.err().unwrap_or_default());
            return Err(errors);
        }
    };
    let (Some(known), Some(flat)) = (context.state.piece(piece), filled.events.first()) else {
        return Ok(filled);
    };
    let rest = SetToRest {
        climate: Climate::default(),
        place,
        stage: stage_of(known),
    };
    let rest = NewEvent {
        event: Event::SetToRest(Arc::new(rest)),
        ..flat.clone()
    };
    filled.events.push(rest);
    Ok(filled)
}
