//! The air of a room is logged, with a witness stick that lies in it.

use super::climate::{HUMIDITY, TEMPERATURE, climate};
use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent, on_its_day};
use super::form::{DAY, Form, Texts};
use super::witness::{STICK, STICK_WEIGHS, witness};
use crate::record::log::{Event, Id, Log, RoomRead};
use crate::record::queries::rooms;
use crate::record::state::State;

/// The room, as the maker calls it: racks whose names begin so lie in it.
pub const ROOM: FormField = FormField::new("Room", FieldKind::Words);
/// The hygrometer.
pub const HYGROMETER: FormField = FormField::new("Hygrometer", FieldKind::Words);

/// What is asked.
pub const FIELDS: [FormField; 7] = [
    ROOM,
    HUMIDITY,
    TEMPERATURE,
    HYGROMETER,
    STICK,
    STICK_WEIGHS,
    DAY,
];

/// The key under which the form is kept while it is half typed.
pub const FORM_KEY: &str = "room";

/// The room where there is only one, and the day.
pub fn begins(context: &Context<'_>) -> Texts {
    let mut rooms = rooms(context.state).keys();
    let only = rooms.next().filter(|_| rooms.next().is_none());
    let mut texts: Texts = FIELDS
        .map(|field| (field.key.to_owned(), String::new()))
        .into();
    texts.insert(ROOM.key.to_owned(), only.cloned().unwrap_or_default());
    texts.insert(DAY.key.to_owned(), context.today.to_string());
    texts
}

/// The id under which a room was read before.
fn about_room(state: &State, log: &Log, room: &str) -> Option<Id> {
    let last = rooms(state).get(room)?.last()?.entry;
    Some(log.entry(last)?.about)
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    log: &Log,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let room = read.needed_name(ROOM);
    let climate = climate(&mut read);
    let hygrometer = read.words(HYGROMETER);
    let witness = witness(&mut read);
    let unread = [HUMIDITY, TEMPERATURE, STICK_WEIGHS];
    let unread = unread.iter().any(|field| read.is_wrong(*field));
    if climate.is_empty() && witness.is_none() && !unread {
        read.wrong(HUMIDITY, FieldError::NothingLogged);
    }
    let on = read.needed_day(DAY);
    let on = read.finish(|| on)?;
    let about = about_room(context.state, log, &room).unwrap_or_else(new_id);
    let air = RoomRead {
        climate,
        hygrometer,
        room,
        witness,
    };
    let event = NewEvent::new(about, Event::RoomRead(Box::new(air))).on(on);
    let event = event.on_confirmed(form.is_confirmed(DAY.key));
    Ok(on_its_day(form, context, event, &FIELDS))
}
