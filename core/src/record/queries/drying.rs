//! Whether a piece is still drying: its weighings and the air of its room, brought to the formulas of
//! seasoning.
//!
//! It never makes up an air: where no room that the piece may lie in was read, nothing is said.

use crate::quantity::{Derivation, Mass, Moisture, Trace, TraceOff, celsius, in_kg, kg};
use crate::record::log::id::Id;
use crate::record::log::{RoomRead, Weighed};
use crate::record::queries;
use crate::record::queries::weight_over_time::scale_off;
use crate::record::state::Dated;
use crate::record::state::{Piece, State};
use crate::season::{
    AirReading, AirUncertainty, DriedTo, Drying, DryingError, DryingReport, Weighing,
    drying_in_air, explain_drying_figure,
};
use crate::wood::{EmcError, Humidity, emc};
use chrono::{Days, NaiveDate};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// The temperature that a room is taken to have where none was read with its humidity, degrees Celsius:
/// the equilibrium hardly follows it (0.1 % moisture for 5 degrees). Common practice, no source.
pub(crate) const ROOM_CELSIUS: f64 = 20.0;

impl RoomRead {
    /// The equilibrium moisture content of wood in this air; `None` where no humidity was read. See
    /// [`emc`], which gives an error outside its range.
    pub fn settles_at(&self) -> Option<Result<Moisture, EmcError>> {
        self.settles_by(&mut TraceOff)
    }

    /// How [`Self::settles_at`] was worked out; `None` where there is none.
    pub fn explain_equilibrium(&self) -> Option<Derivation> {
        let mut working = Derivation::default();
        self.settles_by(&mut working.steps)?.ok()?;
        if self.climate.temperature.is_none() {
            working.notes.push(format!(
                "The temperature was not read with it: {ROOM_CELSIUS} °C is taken. 5 °C more or less make 0.1 %."
            ));
        }
        Some(working)
    }

    fn settles_by(&self, trace: &mut impl Trace) -> Option<Result<Moisture, EmcError>> {
        let humidity = Humidity::percent(self.climate.humidity.as_ref()?.value);
        let warmth = self.climate.temperature.as_ref();
        let air = celsius(warmth.map_or(ROOM_CELSIUS, |taken| taken.value));
        Some(emc(trace, air, humidity))
    }
}

struct WeighedInAir {
    /// The day of the first of them, from which days are counted.
    first: NaiveDate,
    weighings: Vec<Weighing>,
    /// What was read of the air between the first and the last of them.
    between: Vec<AirReading>,
    /// How far off the coarsest of its scales may be.
    coarsest: Mass,
}

impl WeighedInAir {
    fn drying(&self) -> Result<DryingReport, DryingError> {
        let air = AirUncertainty::OF_A_DIAL;
        drying_in_air(&self.weighings, &self.between, air, self.coarsest)
    }
}

/// The rooms that were read, by their names in small letters.
struct RoomsByName(BTreeMap<String, Vec<String>>);

fn rooms_by_name(state: &State) -> RoomsByName {
    let mut rooms = BTreeMap::<String, Vec<String>>::new();
    for room in state.rooms.keys() {
        let named = rooms.entry(room.to_lowercase()).or_default();
        named.push(room.clone());
    }
    RoomsByName(rooms)
}

/// The room that a rack stands in, of those that were read: that whose name its own begins with, whole words in large or
/// small letters, of several the longest; else the only room there is.
pub fn room_of_rack<'a>(state: &'a State, rack: &str) -> Option<&'a str> {
    let rooms = state.memo.of(state.version(), || rooms_by_name(state));
    let small = rack.to_lowercase();
    let ends = small.char_indices().map(|(at, sign)| at + sign.len_utf8());
    let ends_a_word = |end: &usize| {
        let next = small.get(*end..).and_then(|rest| rest.chars().next());
        !next.is_some_and(char::is_alphanumeric)
    };
    let names = ends.rev().filter(ends_a_word);
    let mut named = names.filter_map(|end| rooms.0.get(small.get(..end)?));
    let named = named.next().and_then(|alike| {
        let as_written = alike.iter().find(|room| rack.starts_with(room.as_str()));
        as_written.or(alike.first())
    });
    let only = || state.rooms.keys().next().filter(|_| state.rooms.len() == 1);
    let room = match named {
        Some(room) => state.rooms.get_key_value(room)?.0,
        None => only()?,
    };
    Some(room)
}

/// The room that a piece was put in by its rack, see [`room_of_rack`].
fn room_put_in<'a>(state: &'a State, put: Option<&Dated<String>>) -> Option<&'a str> {
    room_of_rack(state, put.map_or("", |put| &put.payload))
}

/// The room that a piece lies in now.
pub(crate) fn room_named<'a>(state: &'a State, piece: &Piece) -> Option<&'a str> {
    room_put_in(state, piece.work.place())
}

/// The room that a piece lay in on a day.
pub(crate) fn room_on<'a>(state: &'a State, piece: &Piece, day: NaiveDate) -> Option<&'a str> {
    room_put_in(state, piece.work.place_on(day))
}

/// The day on which a piece came into the room that it lies in now, out of another; `None` where it lay in no other.
fn came_into_room(state: &State, piece: &Piece) -> Option<NaiveDate> {
    let now = room_named(state, piece);
    let places = &piece.work.places;
    let elsewhere = |put: &Dated<String>| room_put_in(state, Some(put)) != now;
    let last = places.iter().rposition(elsewhere)?;
    Some(places.get(last + 1)?.on)
}

pub(crate) fn room_of<'a>(state: &'a State, piece: &Piece) -> Option<&'a [Dated<RoomRead>]> {
    let read = state.rooms.get(room_named(state, piece)?)?;
    Some(read)
}

/// Whether a piece is still drying, by its weighings in the room that it lies in; `None` where it was not weighed
/// there, or the air of the room is not known. `scale` is how far off a weighing may be whose scale's step was not
/// said.
pub fn drying_report(
    state: &State,
    piece: &Piece,
    scale: Mass,
) -> Option<Result<DryingReport, DryingError>> {
    piece.work.weighings.first()?;
    let reports = state.memo.of(state.version(), Reports::default);
    let of = (piece.id, scale.value.to_bits());
    let mut kept = reports.0.lock().unwrap_or_else(PoisonError::into_inner);
    let report = || Some(weighed_in_air(state, piece, scale)?.drying());
    *kept.entry(of).or_insert_with(report)
}

type Report = Option<Result<DryingReport, DryingError>>;

/// What was worked out for a piece and a scale, kept until the record changes: a curve through many weighings takes
/// as long as all the rest of a screen.
#[derive(Default)]
struct Reports(Mutex<BTreeMap<(Id, u64), Report>>);

/// How a figure of its drying was worked out; `None` where there is none.
pub fn explain_drying(
    state: &State,
    piece: &Piece,
    scale: Mass,
    what: DriedTo,
) -> Option<Derivation> {
    let weighed = weighed_in_air(state, piece, scale)?;
    let report = weighed.drying().ok()?;
    let working = explain_drying_figure(what, &weighed.weighings, &report)?;
    Some(match came_into_room(state, piece) {
        Some(came) => working.and(format!(
            "What it weighed before it came into its room on {came} is left out."
        )),
        None => working,
    })
}

/// What a piece weighed since it came into the room that it lies in: what it weighed in another says nothing of how it
/// stands in this one.
pub fn weighed_in_room<'a>(state: &State, piece: &'a Piece) -> &'a [Dated<Arc<Weighed>>] {
    let all = &piece.work.weighings;
    let came = came_into_room(state, piece);
    let before = came.map_or(0, |came| all.partition_point(|said| said.on < came));
    all.get(before..).unwrap_or_default()
}

/// What a piece weighed in its room, with the air of each weighing and between them.
fn weighed_in_air(state: &State, piece: &Piece, scale: Mass) -> Option<WeighedInAir> {
    let of_room = weighed_in_room(state, piece);
    let first = of_room.first()?.on;
    let airs = queries::room_air::airs(state);
    let mut coarsest = None::<f64>;
    let mut weighings = Vec::new();
    for said in of_room {
        let weighed = &said.payload;
        let half = in_kg(scale_off(weighed, scale));
        coarsest = Some(coarsest.map_or(half, |known| known.max(half)));
        let day = (said.on - first).num_days() as f64;
        // Of two on one day the later counts.
        weighings.pop_if(|one: &mut Weighing| one.day >= day);
        weighings.push(Weighing {
            day,
            mass: kg(weighed.mass.value),
            air: queries::room_air::air_by(state, &airs, piece, said.on)?,
        });
    }
    let last = of_room.last()?.on;
    Some(WeighedInAir {
        first,
        weighings,
        between: queries::room_air::air_between(state, &airs, piece, first, last),
        coarsest: coarsest.map_or(scale, kg),
    })
}

/// The air of a piece's room on the days on which it was weighed there and between them, in their order; `None` where
/// it is not known.
pub(crate) fn air_by_days(
    state: &State,
    piece: &Piece,
    scale: Mass,
) -> Option<Vec<(NaiveDate, Moisture)>> {
    let weighed = weighed_in_air(state, piece, scale)?;
    let mut air: Vec<(f64, Moisture)> = weighed
        .between
        .iter()
        .map(|one| (one.day, one.air))
        .collect();
    air.extend(weighed.weighings.iter().map(|one| (one.day, one.air)));
    crate::order::sort_by(&mut air, |a, b| a.0.total_cmp(&b.0));
    air.dedup_by(|a, b| a.0 == b.0);
    let on = |(day, air): (f64, Moisture)| {
        let on = weighed
            .first
            .checked_add_days(Days::new(day.max(0.0) as u64));
        Some((on?, air))
    };
    air.into_iter().map(on).collect()
}

/// Whether a piece's weight has come to rest; `None` where its weighings leave that open.
pub fn weight_at_rest(state: &State, piece: &Piece, scale: Mass) -> Option<bool> {
    match drying_report(state, piece, scale)?.ok()?.drying {
        Drying::Steady => Some(true),
        Drying::StillDrying | Drying::TakingUpWater => Some(false),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::Reading;
    use crate::record::log::Climate;

    fn read(humidity: Option<f64>, temperature: Option<f64>) -> RoomRead {
        let taken = |unit: &str| {
            let unit = unit.to_owned();
            move |value| Reading::of_number(value, &unit)
        };
        RoomRead {
            climate: Climate {
                humidity: humidity.map(taken("%")),
                temperature: temperature.map(taken("degC")),
            },
            hygrometer: String::new(),
            room: "loft".into(),
            witness: None,
        }
    }

    #[test]
    fn the_air_tells_where_wood_settles_and_hardly_asks_for_the_warmth() {
        let settles = |room: RoomRead| room.settles_at().unwrap().unwrap().in_percent();
        let known = settles(read(Some(45.0), Some(25.0)));
        let taken = settles(read(Some(45.0), None));
        assert!((known - taken).abs() < 0.15, "{known} {taken}");
        assert!(read(None, Some(20.0)).settles_at().is_none());
        assert!(read(Some(120.0), None).settles_at().unwrap().is_err());
    }
}
