//! Questions about what is about to be written down in the workshop: a mass that grew, a size bigger than
//! before, a shape far beyond its limit, an air that no room has, a day before the last.
//!
//! It asks and changes nothing; a reading on which the maker insisted is not questioned again. The
//! bounds are common practice, no source, save that of solid wood.

use crate::plank::{
    Field, LIGHTEST, Reading, Readings, SOLID, density_of, mean_of_stations, unusual, volume,
};
use crate::quantity::TraceOff;
use crate::quantity::read::Units;
use crate::quantity::{Length, in_kg_per_m3, in_mm, kg, show};
use crate::record::log::Event;
use crate::record::log::id::Id;
use crate::record::log::{
    Climate, Glued, Machined, MovementChecked, Reserved, StressTested, Tension, Weighed, Witness,
};
use crate::record::queries;
use crate::record::queries::movement::shaped_size;
use crate::record::state::{Piece, State};
use crate::season::{Warp, limit_over};
use crate::trade::day_warning;
use chrono::NaiveDate;

/// What of an entry is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WarningSubject {
    Day,
    /// The last day for which it is kept.
    Until,
    /// What the scale showed.
    Mass,
    /// What the witness stick weighs.
    Witness,
    Humidity,
    Temperature,
    /// How far wood opened or closed.
    Gap,
    /// How long it stays clamped.
    Clamped,
    Reading(Field),
}

/// A question about an entry before it is recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkWarning {
    /// What is asked about.
    pub of: WarningSubject,
    pub question: String,
}

/// A piece heavier than at its last weighing by more than this share: no air does that to seasoned wood.
const HEAVIER: f64 = 0.06;
/// A piece lighter than at its last weighing by more than this share.
const LIGHTER: f64 = 0.3;
/// A witness stick off its last weight by more than this share.
const STICK_OFF: f64 = 0.07;
/// A size larger than it was before by more than this, mm.
const GREW_MM: f64 = 2.0;
/// A shape beyond so many times its limit.
const FAR_BEYOND: f64 = 10.0;
/// A gap of more than this share of the length.
const GAPES: f64 = 0.1;
/// Humidities of rooms, %.
const HUMID: std::ops::RangeInclusive<f64> = 10.0..=95.0;
/// Temperatures of rooms, degrees Celsius.
const WARM: std::ops::RangeInclusive<f64> = -10.0..=45.0;
const CLAMPED: std::ops::RangeInclusive<f64> = 0.2..=400.0;

/// An entry that is being asked about.
struct Asked<'a> {
    state: &'a State,
    piece: Option<&'a Piece>,
    on: NaiveDate,
    units: Units,
    found: Vec<WorkWarning>,
}

/// The questions that an entry raises before it is recorded, each about one thing in it.
pub fn work_warnings(
    state: &State,
    about: Id,
    event: &Event,
    on: NaiveDate,
    today: NaiveDate,
    units: Units,
) -> Vec<WorkWarning> {
    let piece = state.piece(about);
    let mut asked = Asked {
        state,
        piece,
        on,
        units,
        found: Vec::new(),
    };
    asked.day(event, today);
    match event {
        Event::Weighed(weighed) => asked.weighed(weighed),
        Event::MoistureRead(read) => {
            asked.as_in_the_yard(Field::Moisture, Some(&read.shown));
            asked.as_in_the_yard(Field::WoodTemperature, read.wood_temperature.as_ref());
        }
        Event::Machined(machined) => asked.machined(machined),
        Event::MovementChecked(check) => asked.checked(check),
        Event::StressTested(tested) => asked.tested(tested),
        Event::Cut(cut) => asked.sprang(cut.tension.as_ref()),
        Event::SetToRest(rest) => asked.air(&rest.climate),
        Event::RoomRead(read) => {
            asked.air(&read.climate);
            asked.witness(read.witness.as_ref(), Some(&read.room));
        }
        Event::Glued(glued) => asked.glued(glued),
        Event::Reserved(reserved) => asked.reserved(reserved),
        _ => {}
    }
    asked.found
}

/// The last day in a piece's history in the workshop.
fn last_day(state: &State, id: Id) -> Option<NaiveDate> {
    let piece = state.piece(id)?;
    let work = &piece.work;
    let days = [
        work.place().map(|said| said.on),
        work.rests.iter().map(|said| said.on).max(),
        work.weighings.last().map(|said| said.on),
        work.moistures.last().map(|said| said.on),
        work.checks.last().map(|said| said.on),
        work.machined.last().map(|said| said.on),
        work.tests.last().map(|said| said.on),
        Some(piece.recorded.on),
    ];
    days.into_iter().flatten().max()
}

impl Asked<'_> {
    fn ask(&mut self, of: WarningSubject, question: String) {
        self.found.push(WorkWarning { of, question });
    }

    fn day(&mut self, event: &Event, today: NaiveDate) {
        if let Some(question) = day_warning(self.on, today) {
            return self.ask(WarningSubject::Day, question);
        }
        let last = match event {
            Event::Glued(glued) => {
                let members = glued.members.iter();
                members.filter_map(|m| last_day(self.state, m.piece)).max()
            }
            Event::RoomRead(_) | Event::StageSet(_) => None,
            _ => self.piece.and_then(|piece| last_day(self.state, piece.id)),
        };
        if let Some(last) = last.filter(|last| self.on < *last) {
            let question = format!("That is before {last}, the last day in its history. Really?");
            self.ask(WarningSubject::Day, question);
        }
    }

    fn weighed(&mut self, weighed: &Weighed) {
        let room = self.piece;
        let room = room.and_then(|piece| queries::drying::room_named(self.state, piece));
        self.witness(weighed.witness.as_ref(), room);
        let mass = &weighed.mass;
        let Some(piece) = self.piece.filter(|_| !mass.confirmed) else {
            return;
        };
        let shown = show::mass(mass.value, self.units);
        let mut before = piece.work.weighings.iter();
        if let Some(before) = before.rfind(|said| said.on <= self.on) {
            let was = before.payload.mass.value;
            let grew = mass.value / was - 1.0;
            if !(-LIGHTER..=HEAVIER).contains(&grew) {
                let percent = show::number((grew * 100.0).abs(), 0);
                let than = if grew > 0.0 { "heavier" } else { "lighter" };
                let was = show::mass(was, self.units);
                let question = format!("{shown}, but {was} on {}: {percent} % {than}?", before.on);
                return self.ask(WarningSubject::Mass, question);
            }
        }
        let Ok(size) = volume(&mut TraceOff, &shaped_size(self.state, piece)) else {
            return;
        };
        let Some(density) = density_of(kg(mass.value), size) else {
            return;
        };
        let density = in_kg_per_m3(density);
        let makes = show::density(density, self.units);
        if density > SOLID {
            let solid = show::density(SOLID, self.units);
            let question =
                format!("Its weight and size make {makes}, heavier than solid wood ({solid})?");
            self.ask(WarningSubject::Mass, question);
        } else if density < LIGHTEST {
            let question =
                format!("Its weight and size make {makes}, lighter than wood for necks is?");
            self.ask(WarningSubject::Mass, question);
        }
    }

    fn witness(&mut self, witness: Option<&Witness>, room: Option<&str>) {
        let Some(witness) = witness.filter(|witness| !witness.mass.confirmed) else {
            return;
        };
        let Some((was, on)) =
            queries::witness_sticks::stick_weighed(self.state, &witness.name, room, self.on)
        else {
            return;
        };
        let now = witness.mass.value;
        if (now / was - 1.0).abs() > STICK_OFF {
            let (now, was) = (show::mass(now, self.units), show::mass(was, self.units));
            let question = format!("The stick weighs {now}, but {was} on {on}: is it that stick?");
            self.ask(WarningSubject::Witness, question);
        }
    }

    /// The question that the yard asks about a reading.
    fn as_in_the_yard(&mut self, field: Field, taken: Option<&Reading>) {
        let Some(taken) = taken else { return };
        if let Some(warning) = unusual(field, taken, self.units) {
            self.ask(WarningSubject::Reading(field), warning.question);
        }
    }

    fn machined(&mut self, machined: &Machined) {
        let Some(piece) = self.piece else { return };
        let before = queries::size_of(self.state, piece);
        let sizes = [
            (Field::Length, before.length),
            (Field::WidthNear, mean_of_stations(&before.widths)),
            (Field::ThicknessNear, mean_of_stations(&before.thicknesses)),
        ];
        for (field, before) in sizes {
            let (Some(now), Some(before)) = (open(&machined.readings, field), before) else {
                continue;
            };
            if now > in_mm(before) + GREW_MM {
                let (now, before) = (show::length(now, self.units), self.length(before));
                let question = format!("{now}, but it was {before} before it was machined?");
                self.ask(WarningSubject::Reading(field), question);
            }
        }
    }

    fn checked(&mut self, check: &MovementChecked) {
        let Some(piece) = self.piece else { return };
        let terms = queries::stage_limits(self.state, queries::stage_of(piece));
        let length = shaped_size(self.state, piece).length;
        for warp in Warp::ALL {
            let field = warp.field();
            let (Some(gap), Some(limit)) = (open(&check.readings, field), warp.limit(&terms))
            else {
                continue;
            };
            let Ok(limit) = limit_over(&mut TraceOff, warp, limit, terms.over_mm, length) else {
                continue;
            };
            if gap.abs() > FAR_BEYOND * limit.reject_mm {
                let (gap, limit) = (
                    show::gap(gap, self.units),
                    show::gap(limit.reject_mm, self.units),
                );
                let question = format!("{gap}, where your limit is {limit}?");
                self.ask(WarningSubject::Reading(field), question);
            }
        }
    }

    fn tested(&mut self, tested: &StressTested) {
        self.gapes(&tested.gap, tested.over.as_ref());
    }

    fn sprang(&mut self, tension: Option<&Tension>) {
        if let Some(tension) = tension {
            self.gapes(&tension.gap, tension.over.as_ref());
        }
    }

    fn gapes(&mut self, gap: &Reading, over: Option<&Reading>) {
        let own = || {
            let piece = self.piece?;
            queries::size_of(self.state, piece).length.map(in_mm)
        };
        let Some(over) = over.map(|over| over.value).or_else(own) else {
            return;
        };
        if !gap.confirmed && gap.value.abs() > GAPES * over {
            let (gap, over) = (
                show::gap(gap.value, self.units),
                show::length(over, self.units),
            );
            self.ask(WarningSubject::Gap, format!("{gap} in {over}?"));
        }
    }

    fn air(&mut self, air: &Climate) {
        let outside = |taken: &Option<Reading>, usual: std::ops::RangeInclusive<f64>| {
            let taken = taken.as_ref().filter(|taken| !taken.confirmed)?;
            (!usual.contains(&taken.value)).then_some(taken.value)
        };
        if let Some(humidity) = outside(&air.humidity, HUMID) {
            let shown = show::moisture(humidity);
            let question = format!("{shown}: is there a room with such air?");
            self.ask(WarningSubject::Humidity, question);
        }
        if let Some(warmth) = outside(&air.temperature, WARM) {
            let shown = show::temperature(warmth, self.units);
            let question = format!("{shown}: was it read in the other unit?");
            self.ask(WarningSubject::Temperature, question);
        }
    }

    fn glued(&mut self, glued: &Glued) {
        self.air(&glued.climate);
        let hours = glued.clamp_time.as_ref().filter(|taken| !taken.confirmed);
        if let Some(hours) = hours.filter(|hours| !CLAMPED.contains(&hours.value)) {
            let question = format!("{} hours in clamps?", show::number(hours.value, 2));
            self.ask(WarningSubject::Clamped, question);
        }
    }

    fn reserved(&mut self, reserved: &Reserved) {
        if let Some(until) = reserved.until.filter(|until| *until < self.on) {
            let question = format!("{until} is before {}, when it begins. Really?", self.on);
            self.ask(WarningSubject::Until, question);
        }
    }

    fn length(&self, length: Length) -> String {
        show::length(in_mm(length), self.units)
    }
}

/// A reading that may be asked about.
fn open(readings: &Readings, field: Field) -> Option<f64> {
    let taken = readings.get(&field)?;
    (!taken.confirmed).then_some(taken.value)
}
