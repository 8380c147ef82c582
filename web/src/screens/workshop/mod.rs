//! The workshop: what is due shelf by shelf, a piece with its history and what can be done with it, a
//! shelf looked through for movement, rests and rooms. It draws what core derives and writes down what
//! is typed.

mod asks;
mod check;
mod deeds;
mod due;
mod facts;
mod form;
mod list;
mod offered;
mod piece;
mod rests;
mod stress;
mod terms;
mod waiting;

pub(crate) use check::Check;
pub(crate) use deeds::{Doing, doing};
pub(crate) use due::class_of;
pub(crate) use facts::weighings_drawn;
pub(crate) use list::Workshop;
pub(crate) use piece::{WoodScreen, deed_form};
pub(crate) use rests::Rests;
use stillwood_core::record::queries;

use crate::app::App;
use crate::shell::clock;
use chrono::NaiveDate;
use leptos::prelude::With;
use stillwood_core::quantity::{Length, Mass, kg, mm};
use stillwood_core::record::{Due, Piece, RestLine, State, Waits, date};
use stillwood_core::season::FEELER_MM;

/// How far off a gap may be where a check does not say.
pub(crate) fn feeler() -> Length {
    mm(FEELER_MM)
}

/// The device's day.
fn today() -> NaiveDate {
    date(&clock::now().day).unwrap_or_default()
}

/// How far the maker's scale may be off.
fn scale_of(app: App) -> Mass {
    kg(app.settings.with(|settings| settings.instruments.scale_kg))
}

/// All that rests, those due first in front.
pub(crate) fn resting(app: App) -> Vec<RestLine> {
    let scale = scale_of(app);
    let at_rest = |state: &State| {
        let today = date(&clock::now().day)?;
        Some(queries::resting(state, today, feeler(), scale))
    };
    app.state(at_rest).unwrap_or_default()
}

/// How a piece rests; `None` where it does not.
pub(crate) fn rest_line(app: App, state: &State, piece: &Piece) -> Option<RestLine> {
    let scale = scale_of(app);
    queries::rest_line(state, piece, date(&clock::now().day)?, feeler(), scale)
}

/// All that waits for a day, that of the first day in front.
fn due(app: App) -> Vec<Due> {
    let scale = scale_of(app);
    let lines = resting(app);
    let waiting = |state: &State| {
        let today = date(&clock::now().day)?;
        Some(queries::due(state, lines, today, scale))
    };
    app.state(waiting).unwrap_or_default()
}

/// What a piece waits for that is there.
fn waits(app: App, state: &State, piece: &Piece) -> Option<Waits> {
    if !piece.is_at_hand() || piece.work.missing.is_some() {
        return None;
    }
    if let Some(line) = rest_line(app, state, piece) {
        return Some(Waits::Rest(line.stage, line.ready));
    }
    let scale = scale_of(app);
    let room = queries::resting_in_room(state, piece, date(&clock::now().day)?, scale);
    room.map(Waits::Room)
}

/// A shelf's name; words where none was said.
fn shelf_name(place: &str) -> String {
    if place.is_empty() {
        "No shelf said".to_owned()
    } else {
        place.to_owned()
    }
}
