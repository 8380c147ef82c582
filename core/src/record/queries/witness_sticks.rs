//! Witness sticks: pieces of long-seasoned wood that are weighed now and then. What a stick gains or
//! loses, the air gave or took, so that its weight tells the equilibrium of the room.
//!
//! A stick without a name is that of its room: each room has its own. A stick counts from the first weighing for which a hygrometer was read in its room; before that it
//! says nothing. It never says which of two that disagree is right.

use crate::quantity::TraceOff;
use crate::quantity::{Derivation, Moisture, kg};
use crate::record::log::witness_stick::{Place, StickWeighed};
use crate::record::queries;
use crate::record::state::Dated;
use crate::record::state::State;
use crate::season::{DryingError, air_from_witness};
use chrono::NaiveDate;

/// Stick and hygrometer further apart than this disagree, % moisture: a hygrometer that is 5 % off makes
/// about as much. Common practice, no source.
const APART: f64 = 1.0;

/// What a stick says of a room, and what the hygrometer says.
#[derive(Debug, Clone, PartialEq)]
pub struct WitnessFound {
    /// The stick, as the maker calls it.
    pub stick: String,
    /// The day of its weighing.
    pub on: NaiveDate,
    /// The equilibrium moisture content by the stick; `None` where it is the weighing that it counts
    /// from.
    pub says: Option<Result<Moisture, DryingError>>,
    pub working: Option<Derivation>,
    /// The equilibrium moisture content by the hygrometer, where one was read about then.
    pub hygrometer: Option<Moisture>,
    pub hygrometer_working: Option<Derivation>,
}

impl WitnessFound {
    /// Stick and hygrometer are so far apart that one of them is off.
    pub fn disagrees(&self) -> bool {
        match (&self.says, self.hygrometer) {
            (Some(Ok(says)), Some(read)) => (says.in_percent() - read.in_percent()).abs() > APART,
            _ => false,
        }
    }
}

/// What a stick says of the air in which it was weighed, counting from a weighing in known air; `None` before
/// that.
pub(crate) fn says_of(
    (first, air): (&Dated<StickWeighed>, Moisture),
    weighed: &Dated<StickWeighed>,
) -> Option<Result<Moisture, DryingError>> {
    (weighed.on >= first.on).then(|| {
        air_from_witness(
            &mut TraceOff,
            kg(first.payload.mass),
            air,
            kg(weighed.payload.mass),
        )
    })
}

/// The room that a stick was weighed in.
pub(crate) fn room_at<'a>(state: &'a State, weighed: &Dated<StickWeighed>) -> Option<&'a str> {
    match &weighed.payload.place {
        Place::Room(room) => Some(state.rooms.get_key_value(room)?.0),
        Place::Beside(piece) => queries::drying::room_on(state, state.piece(*piece)?, weighed.on),
    }
}

fn explain_stick(
    (first, air): (&Dated<StickWeighed>, Moisture),
    weighed: &Dated<StickWeighed>,
) -> Option<Derivation> {
    let mut working = Derivation::default();
    let (was, now) = (kg(first.payload.mass), kg(weighed.payload.mass));
    air_from_witness(&mut working.steps, was, air, now).ok()?;
    working
        .notes
        .push(format!("The stick counts from {}.", first.on));
    Some(working)
}

/// What a stick weighed last by a day, kg, and when; one without a name in the same room.
pub(crate) fn stick_weighed(
    state: &State,
    stick: &str,
    room: Option<&str>,
    by: NaiveDate,
) -> Option<(f64, NaiveDate)> {
    let stick = stick.trim();
    let weighings = state.sticks.get(stick)?;
    let is_it = |said: &Dated<StickWeighed>| {
        !stick.is_empty() || room.is_some() && room_at(state, said) == room
    };
    let mut weighings = weighings.iter();
    let last = weighings.rfind(|said| said.on <= by && is_it(said))?;
    Some((last.payload.mass, last.on))
}

/// What the stick that was weighed last in a room says of its air.
pub fn witness_in(state: &State, room: &str) -> Option<WitnessFound> {
    let (stick, said) = queries::room_air::last_stick_in(state, room)?;
    let counts = queries::room_air::counts_from(state, stick, room);
    let says = counts
        .filter(|(first, _)| first.entry != said.entry)
        .and_then(|counts| says_of(counts, said));
    let hygrometer = queries::room_air::read_about(state, room, said.on);
    Some(WitnessFound {
        stick: stick.clone(),
        on: said.on,
        working: counts
            .filter(|_| says.is_some())
            .and_then(|counts| explain_stick(counts, said)),
        says,
        hygrometer: hygrometer.map(|(air, _)| air),
        hygrometer_working: hygrometer.and_then(|(_, read)| read.explain_equilibrium()),
    })
}
