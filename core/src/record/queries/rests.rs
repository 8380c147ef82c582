//! The wood that rests, and how it stands; the stock for a plan.
//!
//! The day is passed in. Nothing is called overdue, and what is missing or in doubt is in no list of what
//! is held.

use crate::order;
use crate::quantity::{Length, Mass};
use crate::record::log::{Kind, RoomRead};
use crate::record::queries;
use crate::record::state::{Book, Piece};
use crate::record::state::{Clash, Said};
use crate::season::{Held, Movement, Readiness, RestError, Rests, Stage, readiness};
use chrono::NaiveDate;
use std::collections::BTreeMap;
use uuid::Uuid;

/// A piece that rests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RestLine {
    /// The piece.
    pub piece: Uuid,
    /// Its mark.
    pub mark: String,
    /// Its stage.
    pub stage: Stage,
    /// Its shelf; empty where none was said.
    pub place: String,
    /// Since when it rests.
    pub since: NaiveDate,
    /// How its rest stands.
    pub ready: Result<Readiness, RestError>,
    /// How it stood at the last check of this rest; `None` where it was not checked.
    pub movement: Option<Movement>,
    /// It is kept for somebody on that day.
    pub reserved: bool,
}

impl RestLine {
    fn due(&self) -> Option<NaiveDate> {
        self.ready.as_ref().ok().map(|ready| ready.due)
    }
}

/// Entries that can't both be true, in the order of the fold.
pub fn clashes(book: &Book) -> &[Clash] {
    &book.clashes
}

/// What was read in each room, in the order of the days.
pub fn rooms(book: &Book) -> &BTreeMap<String, Vec<Said<RoomRead>>> {
    &book.rooms
}

/// Wood that can be worked, those missing left out.
pub fn stock(book: &Book) -> impl Iterator<Item = &Piece> {
    book.pieces
        .values()
        .filter(|piece| piece.is_at_hand() && piece.work.missing.is_none())
}

/// Wood that can't be found.
pub fn missing_wood(book: &Book) -> impl Iterator<Item = &Piece> {
    book.pieces
        .values()
        .filter(|piece| piece.is_at_hand() && piece.work.missing.is_some())
}

/// How a piece rests, by its day, its checks and its weighings; `None` where it does not. `scale` as for
/// [`Book::dries`]. All screens ask this.
pub fn rest_line(
    book: &Book,
    piece: &Piece,
    today: NaiveDate,
    feeler: Length,
    scale: Mass,
) -> Option<RestLine> {
    let rest = piece.work.rest()?;
    let weight_at_rest = queries::weight_at_rest(book, piece, scale);
    let checks = queries::moved(book, piece, feeler);
    // What was looked at before it was laid to rest, if only on the same day, tells of the rest before.
    let begun = (rest.on, rest.place);
    let since_then = checks
        .iter()
        .filter(|check| (check.on, check.place) > begun);
    let movements: Vec<Movement> = since_then.map(|check| check.movement).collect();
    let terms = queries::stage_limits(book, rest.said.stage);
    Some(RestLine {
        piece: piece.id,
        mark: piece.mark.clone(),
        stage: rest.said.stage,
        place: place_of(piece),
        since: rest.on,
        ready: readiness(rest.on, &terms, today, &movements, weight_at_rest),
        movement: movements.last().copied(),
        reserved: piece.is_kept_on(today),
    })
}

/// All that rests, those due first in front, then by mark; see [`rest_line`].
pub fn resting(book: &Book, today: NaiveDate, feeler: Length, scale: Mass) -> Vec<RestLine> {
    let at_rest = stock(book).filter(|piece| piece.work.rest().is_some());
    let line = |piece| rest_line(book, piece, today, feeler, scale);
    let mut lines: Vec<RestLine> = at_rest.filter_map(line).collect();
    order::sort_by(&mut lines, |a, b| {
        let key = |line: &RestLine| (line.due().is_none(), line.due());
        key(a).cmp(&key(b)).then_with(|| a.mark.cmp(&b.mark))
    });
    lines
}

/// Wood in hand as a plan takes it; `laminates` is how many a piece of wood is expected to give.
pub fn held(book: &Book, laminates: &dyn Fn(&Piece) -> u32) -> Vec<Held> {
    let held = |piece: &Piece| {
        let laminates = match piece.work.kind {
            Kind::Laminate => 1,
            Kind::Blank => 0,
            Kind::Plank | Kind::Piece => laminates(piece),
        };
        Held {
            standing: queries::stock::standing_of(book, piece),
            laminates,
        }
    };
    let for_necks = |piece: &&Piece| piece.work.downgraded.is_none() && piece.is_bought();
    stock(book).filter(for_necks).map(held).collect()
}

/// The least rests in force.
pub fn least_rests(book: &Book) -> Rests {
    Rests::least(|stage| queries::stage_limits(book, stage))
}

pub(crate) fn place_of(piece: &Piece) -> String {
    let place = piece.work.place.as_ref();
    place.map_or_else(String::new, |place| place.said.clone())
}
