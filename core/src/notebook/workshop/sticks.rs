//! Witness sticks: pieces of long-seasoned wood that are weighed now and then. What a stick gains or
//! loses, the air gave or took, so that its weight tells the equilibrium of the room.
//!
//! A stick counts from the first weighing for which a hygrometer was read in its room; before that it
//! says nothing. It never says which of two that disagree is right.

use super::{RoomRead, Said, Witness};
use crate::notebook::{Book, Happening, Piece};
use crate::quantity::{Moisture, Working, kg};
use crate::season::{DryingError, air_from_witness, air_from_witness_worked};
use chrono::NaiveDate;
use uuid::Uuid;

/// A hygrometer read within so many days tells the air of a stick's weighing: wood follows its room more
/// slowly than that. Common practice, no source.
const NEAR_DAYS: i64 = 7;

/// Stick and hygrometer further apart than this disagree, % moisture: a hygrometer that is 5 % off makes
/// about as much. Common practice, no source.
const APART: f64 = 1.0;

/// A weighing of a stick, and where it lay.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::notebook) struct StickWeighed {
    /// What it weighed, kg.
    mass: f64,
    /// Where it was weighed.
    place: Place,
}

#[derive(Debug, Clone, PartialEq)]
enum Place {
    Room(String),
    Beside(Uuid),
}

/// What a stick says of a room, and what the hygrometer says.
#[derive(Debug, Clone, PartialEq)]
pub struct WitnessTold {
    /// The stick, as the maker calls it.
    pub stick: String,
    /// The day of its weighing.
    pub on: NaiveDate,
    /// The equilibrium moisture content by the stick; `None` where it is the weighing that it counts
    /// from.
    pub says: Option<Result<Moisture, DryingError>>,
    /// How that was worked out.
    pub working: Option<Working>,
    /// The equilibrium moisture content by the hygrometer, where one was read about then.
    pub hygrometer: Option<Moisture>,
    /// How that was worked out.
    pub hygrometer_working: Option<Working>,
}

impl WitnessTold {
    /// Stick and hygrometer are so far apart that one of them is off.
    pub fn disagrees(&self) -> bool {
        match (&self.says, self.hygrometer) {
            (Some(Ok(says)), Some(read)) => (says.in_percent() - read.in_percent()).abs() > APART,
            _ => false,
        }
    }
}

/// The stick that an entry tells the weight of, by its name.
pub(in crate::notebook) fn stick_of(
    happening: &Happening,
    about: Uuid,
) -> Option<(String, StickWeighed)> {
    let weighed = |witness: &Witness, place| {
        let mass = witness.mass.value;
        (witness.name.trim().to_owned(), StickWeighed { mass, place })
    };
    match happening {
        Happening::Weighed(said) => Some(weighed(said.witness.as_ref()?, Place::Beside(about))),
        Happening::RoomRead(said) => Some(weighed(
            said.witness.as_ref()?,
            Place::Room(said.room.clone()),
        )),
        _ => None,
    }
}

/// The equilibrium by a hygrometer that was read about a day, the nearest first, and that reading.
fn read_about(read: &[Said<RoomRead>], day: NaiveDate) -> Option<(Moisture, &RoomRead)> {
    let days = |said: &&Said<RoomRead>| (said.on - day).num_days().abs();
    let near = read.iter().filter(|said| days(said) <= NEAR_DAYS);
    let near = near.filter_map(|said| {
        let air = said.said.settles_at()?.ok()?;
        Some((days(&said), (air, &said.said)))
    });
    near.min_by_key(|(days, _)| *days).map(|(_, air)| air)
}

impl Book {
    fn read_at(&self, place: &Place) -> Option<&[Said<RoomRead>]> {
        match place {
            Place::Room(room) => self.rooms().get(room).map(Vec::as_slice),
            Place::Beside(piece) => self.room_of(self.piece(*piece)?),
        }
    }

    /// The weighing that a stick counts from, and the equilibrium of its air by the hygrometer.
    fn counts_from(&self, stick: &str) -> Option<(&Said<StickWeighed>, Moisture)> {
        let weighings = self.sticks.get(stick)?;
        weighings.iter().find_map(|said| {
            let read = self.read_at(&said.said.place)?;
            Some((said, read_about(read, said.on)?.0))
        })
    }

    /// What a stick says of the air in which it was weighed; `None` before it counts.
    fn stick_says(
        &self,
        stick: &str,
        weighed: &Said<StickWeighed>,
    ) -> Option<Result<Moisture, DryingError>> {
        let (first, air) = self.counts_from(stick)?;
        (weighed.on >= first.on)
            .then(|| air_from_witness(kg(first.said.mass), air, kg(weighed.said.mass)))
    }

    fn stick_worked(&self, stick: &str, weighed: &Said<StickWeighed>) -> Option<Working> {
        let (first, air) = self.counts_from(stick)?;
        let mut working = Working::default();
        let (was, now) = (kg(first.said.mass), kg(weighed.said.mass));
        air_from_witness_worked(&mut working.steps, was, air, now).ok()?;
        working
            .notes
            .push(format!("The stick counts from {}.", first.on));
        Some(working)
    }

    /// What a stick weighed last by a day, kg, and when.
    pub(super) fn stick_weighed(&self, stick: &str, by: NaiveDate) -> Option<(f64, NaiveDate)> {
        let weighings = self.sticks.get(stick.trim())?;
        let last = weighings.iter().rfind(|said| said.on <= by)?;
        Some((last.said.mass, last.on))
    }

    /// The equilibrium by a stick that was weighed on that day in the room that a piece lies in.
    pub(super) fn air_by_stick(&self, piece: &Piece, day: NaiveDate) -> Option<Moisture> {
        let here = self.room_of(piece)?.as_ptr();
        self.sticks.iter().find_map(|(stick, weighings)| {
            let of_day = weighings.iter().filter(|said| said.on == day);
            let mut in_here = of_day.filter(|said| {
                let there = self.read_at(&said.said.place);
                there.is_some_and(|there| there.as_ptr() == here)
            });
            self.stick_says(stick, in_here.next_back()?)?.ok()
        })
    }

    /// What the stick that was weighed last in a room says of its air.
    pub fn witness_in(&self, room: &str) -> Option<WitnessTold> {
        let read = self.rooms().get(room)?;
        let in_here = |said: &&Said<StickWeighed>| {
            let there = self.read_at(&said.said.place);
            there.is_some_and(|there| there.as_ptr() == read.as_ptr())
        };
        let last = self.sticks.iter().filter_map(|(stick, weighings)| {
            let said = weighings.iter().rfind(in_here)?;
            Some((stick, said))
        });
        let (stick, said) = last.max_by_key(|(_, said)| (said.on, said.place))?;
        let first = self.counts_from(stick).map(|(first, _)| first.entry);
        let says = (first.is_some() && first != Some(said.entry))
            .then(|| self.stick_says(stick, said))
            .flatten();
        let hygrometer = read_about(read, said.on);
        Some(WitnessTold {
            stick: stick.clone(),
            on: said.on,
            working: says
                .is_some()
                .then(|| self.stick_worked(stick, said))
                .flatten(),
            says,
            hygrometer: hygrometer.map(|(air, _)| air),
            hygrometer_working: hygrometer.and_then(|(_, read)| read.settles_worked()),
        })
    }
}
