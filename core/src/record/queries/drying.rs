//! Whether a piece is still drying: its weighings and the air of its room, brought to the formulas of
//! seasoning.
//!
//! It never makes up an air: where no room that the piece may lie in was read, nothing is said.

use crate::quantity::{Derivation, Mass, Moisture, Trace, TraceOff, celsius, in_kg, kg};
use crate::record::log::RoomRead;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::weight_over_time::scale_off;
use crate::record::state::Dated;
use crate::record::state::{Piece, State};
use crate::season::{
    AirReading, AirUncertainty, DriedTo, Drying, DryingError, DryingReport, Weighing,
    drying_in_air, explain_drying_figure,
};
use crate::wood::{EmcError, Humidity, emc};
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

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

/// The room that a piece lies in, of those that were read.
pub(crate) fn room_named<'a>(state: &'a State, piece: &Piece) -> Option<&'a str> {
    let place = piece.work.place.as_ref().map_or("", |place| &place.payload);
    room_of_rack(state, place)
}

/// The room that a rack stands in, of those that were read: that which the rack is named for, of several the longest
/// name, or the only room there is.
pub fn room_of_rack<'a>(state: &'a State, place: &str) -> Option<&'a str> {
    let ends = place.char_indices().map(|(at, sign)| at + sign.len_utf8());
    let names = ends.rev().filter_map(|end| place.get(..end));
    let named = names
        .filter_map(|name| state.rooms.get_key_value(name))
        .next();
    let named = named.map(|(room, _)| room.as_str());
    let only = || state.rooms.keys().next().filter(|_| state.rooms.len() == 1);
    named.or_else(|| only().map(String::as_str))
}

pub(crate) fn room_of<'a>(state: &'a State, piece: &Piece) -> Option<&'a [Dated<RoomRead>]> {
    let read = state.rooms.get(room_named(state, piece)?)?;
    Some(read)
}

/// Whether a piece is still drying, by its weighings; `None` where it was never weighed, or the air
/// of its room is not known. `scale` is how far off a weighing may be whose scale's step was not
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
    explain_drying_figure(what, &weighed.weighings, &weighed.drying().ok()?)
}

/// A piece's weighings with the air of each and between them.
fn weighed_in_air(state: &State, piece: &Piece, scale: Mass) -> Option<WeighedInAir> {
    let first = piece.work.weighings.first()?.on;
    let airs = queries::room_air::airs(state);
    let mut coarsest = None::<f64>;
    let mut weighings = Vec::new();
    for said in &piece.work.weighings {
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
    let last = piece.work.weighings.last()?.on;
    Some(WeighedInAir {
        weighings,
        between: queries::room_air::air_between(state, &airs, piece, first, last),
        coarsest: coarsest.map_or(scale, kg),
    })
}

/// The air of a piece's room on the days on which it was weighed and between them, in days from the first weighing,
/// in their order; `None` where it is not known.
pub(crate) fn air_by_days(
    state: &State,
    piece: &Piece,
    scale: Mass,
) -> Option<Vec<(f64, Moisture)>> {
    let weighed = weighed_in_air(state, piece, scale)?;
    let mut air: Vec<(f64, Moisture)> = weighed
        .between
        .iter()
        .map(|one| (one.day, one.air))
        .collect();
    air.extend(weighed.weighings.iter().map(|one| (one.day, one.air)));
    crate::order::sort_by(&mut air, |a, b| a.0.total_cmp(&b.0));
    air.dedup_by(|a, b| a.0 == b.0);
    Some(air)
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
