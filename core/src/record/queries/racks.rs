//! The racks as they are drawn: what lies on each, how much of its rest is over, and how it stands at a glance.
//!
//! It adds no judgement: the sign sums up what the two keys of a rest and the last check say, and what is not
//! known stays not known.

use crate::order;
use crate::quantity::{Length, Mass};
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::marks::mark_order;
use crate::record::queries::rests::{place_of, share_over};
use crate::record::queries::{Due, RestLine, Waits};
use crate::record::state::{Piece, State};
use crate::season::{DateKey, MeasureKey, Movement, is_look_old};
use chrono::{Datelike, Months, NaiveDate};
use std::collections::BTreeMap;
use std::sync::Arc;

/// How wood at rest stands at a glance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RestSign {
    /// It keeps its shape, and its weight has come to rest.
    Still,
    /// Near a limit, too close to call, its weight still changes, or it was still and not looked at for long.
    Watch,
    /// It moved beyond its limit.
    Moved,
    /// Too little was looked at to say.
    NotKnown,
}

impl RestSign {
    /// All of them, in the order of a legend.
    pub const ALL: [RestSign; 4] = [
        RestSign::Still,
        RestSign::Watch,
        RestSign::Moved,
        RestSign::NotKnown,
    ];

    /// What is waited for, how it stood at the last check of this rest, and whether that is too long ago to be
    /// called still.
    pub fn of(waits: &Waits, last: Option<Movement>, is_old: bool) -> RestSign {
        match waits {
            Waits::Rest(_, Ok(ready)) => match (ready.measure, last) {
                (MeasureKey::Moved, _) | (_, Some(Movement::Beyond)) => RestSign::Moved,
                (_, Some(Movement::Watch | Movement::TooClose)) => RestSign::Watch,
                (MeasureKey::Still, _) if is_old => RestSign::Watch,
                (MeasureKey::Still, _) => RestSign::Still,
                (MeasureKey::WeightChanging | MeasureKey::TooClose, _) => RestSign::Watch,
                (MeasureKey::WeightNotKnown | MeasureKey::NotChecked, _) => RestSign::NotKnown,
            },
            Waits::Room(Ok(room)) => match room.weight_at_rest {
                Some(true) => RestSign::Still,
                Some(false) => RestSign::Watch,
                None => RestSign::NotKnown,
            },
            Waits::Rest(_, Err(_)) | Waits::Room(Err(_)) => RestSign::NotKnown,
        }
    }
}

/// A piece as it lies on a rack.
#[derive(Debug, Clone, PartialEq)]
pub struct RackPiece {
    /// The piece.
    pub piece: Id,
    /// Its mark.
    pub mark: String,
    /// What it is.
    pub kind: PieceKind,
    /// The name of its wood.
    pub wood: String,
    /// The colours of its wood, as [`queries::colours_of`] has them.
    pub colours: Vec<Option<String>>,
    /// What it waits for; none where it waits for no day, or was put to another use.
    pub due: Option<Due>,
    /// It was put to another use: it lies there, and nothing is due with it.
    pub is_downgraded: bool,
    /// How it stood at the last check of this rest.
    pub movement: Option<Movement>,
    /// The day on which it was last looked at for movement.
    pub looked_at: Option<NaiveDate>,
    /// That is too long ago to tell how it stands.
    pub is_look_old: bool,
    /// The share of its rest that is over, 0 to 1; none where it waits for no day.
    pub passed: Option<f64>,
}

impl RackPiece {
    /// How it stands at a glance; none where it waits for no day.
    pub fn sign(&self) -> Option<RestSign> {
        let due = self.due.as_ref()?;
        Some(RestSign::of(&due.waits, self.movement, self.is_look_old))
    }

    /// The day of the look by which it is still, or was, where nobody has looked for long.
    pub fn still_on(&self) -> Option<NaiveDate> {
        let is_still = |due: &&Due| matches!(due.waits, Waits::Rest(_, Ok(ready)) if ready.measure == MeasureKey::Still);
        self.due.as_ref().filter(is_still)?;
        self.looked_at.filter(|_| {
            matches!(
                self.movement,
                Some(Movement::Steady | Movement::Within) | None
            )
        })
    }

    /// Its day has come.
    pub fn is_over(&self) -> bool {
        self.due.as_ref().and_then(Due::date_key) == Some(DateKey::RestOver)
    }
}

/// A rack.
#[derive(Debug, Clone, PartialEq)]
pub struct Rack {
    /// Its name; empty where none was said.
    pub place: String,
    /// What lies on it, by mark.
    pub pieces: Vec<RackPiece>,
}

impl Rack {
    /// The day since which all that rests on it was looked at; none where something never was, or nothing rests.
    pub fn looked_over(&self) -> Option<NaiveDate> {
        let rests = |one: &&RackPiece| matches!(&one.due, Some(due) if matches!(due.waits, Waits::Rest(..)));
        let days: Option<Vec<NaiveDate>> = self
            .pieces
            .iter()
            .filter(rests)
            .map(|one| one.looked_at)
            .collect();
        days?.into_iter().min()
    }

    /// How many rest on it.
    pub fn at_rest(&self) -> usize {
        let rests = |one: &&RackPiece| matches!(&one.due, Some(due) if matches!(due.waits, Waits::Rest(..)));
        self.pieces.iter().filter(rests).count()
    }

    /// How many stand in each way; ways in which none stands are left out.
    pub fn signs(&self) -> Vec<(RestSign, usize)> {
        let count = |sign| {
            self.pieces
                .iter()
                .filter(|one| one.sign() == Some(sign))
                .count()
        };
        let counts = RestSign::ALL.map(|sign| (sign, count(sign)));
        counts.into_iter().filter(|(_, count)| *count > 0).collect()
    }

    /// How many pieces of each kind lie on it; kinds of which there is none are left out.
    pub fn kinds(&self) -> Vec<(PieceKind, usize)> {
        let mut counts: BTreeMap<PieceKind, usize> = BTreeMap::new();
        for one in &self.pieces {
            *counts.entry(one.kind).or_default() += 1;
        }
        counts.into_iter().collect()
    }
}

/// The day, the feeler and the scale for which the racks were asked.
#[derive(Clone, PartialEq)]
struct RacksFor(NaiveDate, Length, Mass);

/// All wood at hand that is the maker's, rack by rack in the order of their names, what lies on none last. For the
/// few days and scales asked for last it is kept until the record changes.
pub fn racks(state: &State, today: NaiveDate, feeler: Length, scale: Mass) -> Arc<Vec<Rack>> {
    let asked = RacksFor(today, feeler, scale);
    let find = || racks_now(state, today, feeler, scale);
    state.memo.answer(state.version(), asked, find)
}

fn racks_now(state: &State, today: NaiveDate, feeler: Length, scale: Mass) -> Vec<Rack> {
    let lines = queries::resting(state, today, feeler, scale);
    let movements: BTreeMap<Id, Option<Movement>> = order::map_of(
        lines
            .iter()
            .map(|line: &RestLine| (line.piece, line.movement)),
    );
    let due = queries::due(state, lines, today, scale);
    let mut due: BTreeMap<Id, Due> = order::map_of(due.into_iter().map(|due| (due.piece, due)));
    let mut racks: BTreeMap<(bool, String), Vec<RackPiece>> = BTreeMap::new();
    for piece in queries::stock(state).filter(|piece| piece.is_bought()) {
        let due = due.remove(&piece.id);
        let place = place_of(piece);
        let movement = movements.get(&piece.id).copied().flatten();
        let one = rack_piece(state, piece, due, movement, today);
        racks
            .entry((place.is_empty(), place))
            .or_default()
            .push(one);
    }
    let rack = |((_, place), mut pieces): (_, Vec<RackPiece>)| {
        order::sort_by_key(&mut pieces, |one| mark_order(&one.mark));
        Rack { place, pieces }
    };
    racks.into_iter().map(rack).collect()
}

fn rack_piece(
    state: &State,
    piece: &Piece,
    due: Option<Due>,
    movement: Option<Movement>,
    today: NaiveDate,
) -> RackPiece {
    let is_downgraded = piece.work.downgraded.is_some();
    let due = due.filter(|_| !is_downgraded);
    let passed = due
        .as_ref()
        .and_then(|due| Some(share_over(due.since, due.day()?, today)));
    let looked_at = piece.work.checks.last().map(|check| check.on);
    RackPiece {
        piece: piece.id,
        mark: piece.mark.clone(),
        kind: piece.work.kind,
        wood: queries::woods_named(state, piece.id),
        colours: queries::colours_of(state, piece),
        movement,
        looked_at,
        is_look_old: looked_at.is_some_and(|looked| is_look_old(looked, today)),
        passed,
        due,
        is_downgraded,
    }
}

/// One piece as it lies on its rack; `None` where it is not at hand or not the maker's.
pub fn on_its_rack(
    state: &State,
    piece: &Piece,
    today: NaiveDate,
    feeler: Length,
    scale: Mass,
) -> Option<RackPiece> {
    if !piece.is_at_hand() || !piece.is_bought() {
        return None;
    }
    let line = queries::rest_line(state, piece, today, feeler, scale);
    let movement = line.as_ref().and_then(|line| line.movement);
    let due = match line {
        Some(line) => Some(queries::due::due_of_rest(state, line)),
        None => queries::due::due_in_room(state, piece, today, scale),
    };
    Some(rack_piece(state, piece, due, movement, today))
}

/// So many months are drawn ahead.
const MONTHS_AHEAD: u32 = 12;

/// How many rests end in each of the next twelve months, that of the day first; rests that are over are left out, and
/// what only gets used to the room is no rest.
pub fn rests_ending(lines: &[Due], today: NaiveDate) -> Vec<(NaiveDate, usize)> {
    let first = today.with_day(1).unwrap_or(today);
    let months = (0..MONTHS_AHEAD).filter_map(|n| first.checked_add_months(Months::new(n)));
    let ends_in = |month: NaiveDate| {
        let ends = |line: &&Due| {
            let day = line
                .day()
                .filter(|_| line.date_key() != Some(DateKey::RestOver))
                .filter(|_| matches!(line.waits, Waits::Rest(..)));
            day.is_some_and(|day| (day.year(), day.month()) == (month.year(), month.month()))
        };
        lines.iter().filter(ends).count()
    };
    months.map(|month| (month, ends_in(month))).collect()
}
