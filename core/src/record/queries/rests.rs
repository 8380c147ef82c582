//! The wood that rests, and how it stands; the stock for a plan.
//!
//! The day is passed in. Nothing is called overdue, and what is missing or in doubt is in no list of what
//! is held.

use crate::order;
use crate::quantity::{Length, Mass};
use crate::record::log::RoomRead;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::marks::compare_marks;
use crate::record::state::{Dated, PieceConflict};
use crate::record::state::{Piece, State};
use crate::season::{Movement, Readiness, RestError, RestLength, Rests, Stage, readiness};
use chrono::NaiveDate;
use std::collections::BTreeMap;

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RestLine {
    pub piece: Id,
    pub mark: String,
    pub stage: Stage,
    /// Its rack; empty where none was said.
    pub place: String,
    pub since: NaiveDate,
    pub ready: Result<Readiness, RestError>,
    /// How it stood at the last check of this rest; `None` where it was not checked.
    pub movement: Option<Movement>,
    /// It is kept for somebody on that day.
    pub reserved: bool,
}

impl RestLine {
    /// The share of it that is over on a day, 0 to 1; `None` where it never ends.
    pub fn share_over(&self, today: NaiveDate) -> Option<f64> {
        let due = self.ready.as_ref().ok()?.due;
        Some(share_over(self.since, due, today))
    }

    fn due(&self) -> Option<NaiveDate> {
        self.ready.as_ref().ok().map(|ready| ready.due)
    }
}

/// The share of the days from one to another that are over, 0 to 1.
pub(crate) fn share_over(since: NaiveDate, until: NaiveDate, today: NaiveDate) -> f64 {
    let whole = (until - since).num_days();
    if whole <= 0 {
        return 1.0;
    }
    ((today - since).num_days() as f64 / whole as f64).clamp(0.0, 1.0)
}

/// Entries that can't both be true, in the order of the fold.
pub fn piece_conflicts(state: &State) -> &[PieceConflict] {
    &state.piece_conflicts
}

/// What was read in each room, in the order of the days.
pub fn rooms(state: &State) -> &BTreeMap<String, Vec<Dated<RoomRead>>> {
    &state.rooms
}

/// Wood that can be worked, those missing left out.
pub fn stock(state: &State) -> impl Iterator<Item = &Piece> {
    state
        .pieces
        .values()
        .map(Box::as_ref)
        .filter(|piece| piece.is_at_hand() && piece.work.missing.is_none())
}

/// Wood that can't be found.
pub fn missing_wood(state: &State) -> impl Iterator<Item = &Piece> {
    state
        .pieces
        .values()
        .map(Box::as_ref)
        .filter(|piece| piece.is_at_hand() && piece.work.missing.is_some())
}

/// How a piece rests, by its day, its checks and its weighings; `None` where it does not. `scale` as for
/// [`queries::drying_report`]. All screens ask this.
pub fn rest_line(
    state: &State,
    piece: &Piece,
    today: NaiveDate,
    feeler: Length,
    scale: Mass,
) -> Option<RestLine> {
    let rest = piece.work.rest()?;
    let weight_at_rest = queries::weight_at_rest(state, piece, scale);
    let (checks, starts) = queries::moved_from(state, piece, feeler);
    // What was looked at before it was laid to rest, if only on the same day, tells of the rest before.
    let begun = (rest.on, rest.place);
    let since_then = checks
        .iter()
        .filter(|check| (check.on, check.place) > begun);
    let has_start = queries::has_start(state, piece, &starts);
    let movements: Vec<Movement> = since_then.map(|check| check.movement).collect();
    let terms = queries::stage_limits(state, rest.payload.stage);
    Some(RestLine {
        piece: piece.id,
        mark: piece.mark.clone(),
        stage: rest.payload.stage,
        place: place_of(piece),
        since: rest.on,
        ready: readiness(
            rest.on,
            &terms,
            today,
            &movements,
            has_start,
            weight_at_rest,
        ),
        movement: movements.last().copied(),
        reserved: piece.is_kept_on(today),
    })
}

/// All that rests, those due first in front, then by mark; see [`rest_line`].
pub fn resting(state: &State, today: NaiveDate, feeler: Length, scale: Mass) -> Vec<RestLine> {
    let at_rest = stock(state).filter(|piece| piece.work.rest().is_some());
    let line = |piece| rest_line(state, piece, today, feeler, scale);
    let mut lines: Vec<RestLine> = at_rest.filter_map(line).collect();
    order::sort_by(&mut lines, |a, b| {
        let key = |line: &RestLine| (line.due().is_none(), line.due());
        key(a)
            .cmp(&key(b))
            .then_with(|| compare_marks(&a.mark, &b.mark))
    });
    lines
}

/// The least rest of each stage; of pieces none where planks are ripped straight to laminates.
pub fn least_rests(state: &State) -> Rests {
    let rests = Rests::least(|stage| queries::stage_limits(state, stage));
    match queries::start::rips_planks_straight(state) {
        true => Rests {
            pieces: RestLength::least(0),
            ..rests
        },
        false => rests,
    }
}

pub(crate) fn place_of(piece: &Piece) -> String {
    let place = piece.work.place();
    place.map_or_else(String::new, |place| place.payload.clone())
}
