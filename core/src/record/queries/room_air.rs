//! The air of every room by its days, as hygrometers and witness sticks told it: worked out once for a record
//! and looked up by the day.

use crate::quantity::Moisture;
use crate::record::log::RoomRead;
use crate::record::log::id::Id;
use crate::record::log::witness_stick::StickWeighed;
use crate::record::queries;
use crate::record::queries::witness_sticks::says_of;
use crate::record::state::Dated;
use crate::record::state::{Piece, State};
use crate::season::AirReading;
use chrono::NaiveDate;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A hygrometer read within so many days tells the air of a stick's weighing: wood follows its room more
/// slowly than that. Common practice, no source.
const NEAR_DAYS: i64 = 7;

/// An equilibrium by a hygrometer, its day, and the place of the reading among those of its room.
type Settled = (NaiveDate, Moisture, usize);

#[derive(Debug, Default)]
struct Air {
    /// Those readings that tell an equilibrium, in the order of the days.
    read: Vec<Settled>,
    /// By a stick that was weighed there: of several on one day the first by name.
    by_stick: BTreeMap<NaiveDate, Moisture>,
    /// The stick that was weighed there last, and the place of that weighing among its own.
    last_stick: Option<(String, usize)>,
}

impl Air {
    fn of(read: &[Dated<RoomRead>]) -> Self {
        let settled = |(at, said): (usize, &Dated<RoomRead>)| {
            Some((said.on, said.payload.settles_at()?.ok()?, at))
        };
        Self {
            read: read.iter().enumerate().filter_map(settled).collect(),
            ..Self::default()
        }
    }

    fn until(&self, day: NaiveDate) -> usize {
        self.read.partition_point(|(on, ..)| *on <= day)
    }

    /// By a day: as a stick told it on that day, else as read last before, else first after.
    fn by(&self, day: NaiveDate) -> Option<Moisture> {
        if let Some(air) = self.by_stick.get(&day) {
            return Some(*air);
        }
        let before = self.until(day);
        let (_, air, _) = self.read.get(before.saturating_sub(1))?;
        Some(*air)
    }

    /// As read about a day, the nearest first, of one day the first.
    fn about(&self, day: NaiveDate) -> Option<&Settled> {
        let before = self.until(day);
        let last = before.checked_sub(1).and_then(|at| self.read.get(at));
        let last = last.and_then(|(on, ..)| {
            let first_of_day = self.read.partition_point(|(one, ..)| one < on);
            self.read.get(first_of_day)
        });
        let days = |one: &&Settled| (one.0 - day).num_days().abs();
        let near = last.into_iter().chain(self.read.get(before));
        let near = near.filter(|one| days(one) <= NEAR_DAYS);
        near.min_by_key(days)
    }
}

/// A stick: its name, and the room of one that has none, for each room has its own.
type Stick = (String, String);

fn stick_of(name: &str, room: &str) -> Stick {
    let of_room = if name.is_empty() { room } else { "" };
    (name.to_owned(), of_room.to_owned())
}

/// The air of all rooms, and what each stick counts from.
#[derive(Debug, Default)]
pub(crate) struct Airs {
    rooms: BTreeMap<String, Air>,
    /// The place of the weighing that a stick counts from, and the air then by the hygrometer.
    counts: BTreeMap<Stick, (usize, Moisture)>,
}

impl Airs {
    fn new(state: &State) -> Self {
        let air = |(room, read): (&String, &Vec<Dated<RoomRead>>)| (room.clone(), Air::of(read));
        let mut airs = Self {
            rooms: crate::order::map_of(queries::rooms(state).iter().map(air)),
            counts: BTreeMap::new(),
        };
        for (name, weighings) in &state.sticks {
            for (at, said) in weighings.iter().enumerate() {
                let room = queries::witness_sticks::room_at(state, said);
                let air = room.and_then(|room| Some((room, airs.rooms.get(room)?)));
                let Some((room, Some((_, air, _)))) =
                    air.map(|(room, air)| (room, air.about(said.on)))
                else {
                    continue;
                };
                airs.counts
                    .entry(stick_of(name, room))
                    .or_insert((at, *air));
                if !name.is_empty() {
                    break;
                }
            }
        }
        airs.find_last_sticks(state);
        for (name, weighings) in &state.sticks {
            // Of several weighings of a day in a room the last counts, whatever it says.
            let mut of_days: BTreeMap<(&str, NaiveDate), &Dated<StickWeighed>> = BTreeMap::new();
            for said in weighings {
                if let Some(room) = queries::witness_sticks::room_at(state, said) {
                    of_days.insert((room, said.on), said);
                }
            }
            for ((room, on), said) in of_days {
                let counts = airs.counts.get(&stick_of(name, room));
                let says =
                    counts.and_then(|(first, then)| says_of((&weighings[*first], *then), said));
                if let (Some(Ok(says)), Some(air)) = (says, airs.rooms.get_mut(room)) {
                    air.by_stick.entry(on).or_insert(says);
                }
            }
        }
        airs
    }

    fn find_last_sticks(&mut self, state: &State) {
        type Weighing<'a> = ((NaiveDate, (u64, Id)), &'a String, usize);
        let mut last: BTreeMap<&str, Weighing<'_>> = BTreeMap::new();
        for (stick, weighings) in &state.sticks {
            for (at, said) in weighings.iter().enumerate() {
                let when = (said.on, said.place);
                let Some(room) = queries::witness_sticks::room_at(state, said) else {
                    continue;
                };
                if last.get(room).is_none_or(|known| known.0 <= when) {
                    last.insert(room, (when, stick, at));
                }
            }
        }
        for (room, (_, stick, at)) in last {
            if let Some(air) = self.rooms.get_mut(room) {
                air.last_stick = Some((stick.clone(), at));
            }
        }
    }
}

pub(crate) fn airs(state: &State) -> Arc<Airs> {
    state.memo.of(state.version(), || Airs::new(state))
}

/// The equilibrium moisture content of the air by a day: as a witness stick told it on that day, else
/// as read last before, else first after.
pub(crate) fn air_by(
    state: &State,
    airs: &Airs,
    piece: &Piece,
    day: NaiveDate,
) -> Option<Moisture> {
    airs.rooms
        .get(queries::drying::room_named(state, piece)?)?
        .by(day)
}

/// What was read of the air of a piece's room between two days, in days from the first; a witness stick's word
/// counts before the hygrometer's.
pub(crate) fn air_between(
    state: &State,
    airs: &Airs,
    piece: &Piece,
    first: NaiveDate,
    last: NaiveDate,
) -> Vec<AirReading> {
    let air = queries::drying::room_named(state, piece).and_then(|room| airs.rooms.get(room));
    let Some(air) = air else { return Vec::new() };
    let inside = |on: NaiveDate| on > first && on < last;
    let mut read: BTreeMap<NaiveDate, Moisture> = BTreeMap::new();
    read.extend(air.read.iter().map(|(on, air, _)| (*on, *air)));
    read.extend(air.by_stick.iter().map(|(on, air)| (*on, *air)));
    let one = |(on, air): (NaiveDate, Moisture)| AirReading {
        day: (on - first).num_days() as f64,
        air,
    };
    read.into_iter()
        .filter(|(on, _)| inside(*on))
        .map(one)
        .collect()
}

/// The equilibrium by a hygrometer that was read in a room about a day, the nearest first, and that reading.
pub(crate) fn read_about<'a>(
    state: &'a State,
    room: &str,
    day: NaiveDate,
) -> Option<(Moisture, &'a RoomRead)> {
    let airs = airs(state);
    let (_, air, at) = airs.rooms.get(room)?.about(day)?;
    Some((*air, &queries::rooms(state).get(room)?.get(*at)?.payload))
}

/// The stick that was weighed last in a room, by its name, and that weighing.
pub(crate) fn last_stick_in<'a>(
    state: &'a State,
    room: &str,
) -> Option<(&'a String, &'a Dated<StickWeighed>)> {
    let airs = airs(state);
    let (stick, at) = airs.rooms.get(room)?.last_stick.as_ref()?;
    let (stick, weighings) = state.sticks.get_key_value(stick)?;
    Some((stick, weighings.get(*at)?))
}

/// The weighing that a stick counts from, and the equilibrium of its air by the hygrometer; `room` tells sticks
/// without a name apart.
pub(crate) fn counts_from<'a>(
    state: &'a State,
    stick: &str,
    room: &str,
) -> Option<(&'a Dated<StickWeighed>, Moisture)> {
    let (at, air) = *airs(state).counts.get(&stick_of(stick, room))?;
    Some((state.sticks.get(stick)?.get(at)?, air))
}
