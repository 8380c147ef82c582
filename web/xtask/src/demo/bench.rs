//! The bench of the invented workshop: what is done to a piece is done to its size and its weight, and
//! is written down.
//!
//! Weights follow from size, wood and the room's air, so that none can contradict another. Which piece
//! is done what to is told by the seasons.

use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::record::queries;

use anyhow::{Context, Result, ensure};
use stillwood_core::plank::{
    Field, Instruments, Reading, Readings, Reason, RingTilt, RunoutDirection, mean_of_stations,
};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_kg, in_m3, in_mm};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Climate, Discarded, Entry, Event, GrainSeen, Measured, MoistureRead, MovementChecked,
    PieceKind, Placed, RoomRead, SetToRest, State, Weighed,
};
use stillwood_core::season::Stage;

use super::air::{Air, RoomReading, Wet, day_number, readings};
use super::phone::{Day, Phone};
use super::row;

/// The face and the edge to which signs refer.
pub(super) const REFERENCE: &str = "pith side, left edge";

/// A piece as it is at the bench.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wood {
    pub(super) id: Id,
    pub(super) kind: PieceKind,
    /// Length, width and thickness, mm.
    pub(super) size: [f64; 3],
    /// Without water, kg/m3 of its size as it is.
    pub(super) dry: f64,
    pub(super) wet: Wet,
}

/// The phone in the workshop, and all wood that came by.
#[derive(Debug)]
pub(super) struct Bench {
    pub(super) phone: Phone,
    pub(super) last_mark: u32,
    pub(super) air: Air,
    /// Readings of the room that are still to come.
    room: Vec<RoomReading>,
    room_id: Id,
    room_read_on: i64,
    pub(super) today: i64,
    pub(super) wood: BTreeMap<String, Wood>,
}

/// A number as it is typed, and understood.
pub(super) fn typed(value: f64, unit: &str, places: usize) -> Result<Reading> {
    let typed = format!("{value:.places$}");
    Ok(Reading {
        typed: typed.clone(),
        ..Reading::of_number(typed.parse()?, unit)
    })
}

/// Readings as the app reads them.
pub(super) fn read(texts: &[(Field, &str)]) -> Result<Readings> {
    let mut readings = Readings::new();
    for (field, text) in texts {
        if let Some(taken) = row::taken(*field, text, Units::Metric)? {
            readings.insert(*field, taken);
        }
    }
    Ok(readings)
}

impl Bench {
    /// The phone goes on from the yard.
    pub(super) fn new(mut phone: Phone, last_mark: u32) -> Result<Self> {
        Ok(Self {
            room_id: phone.id(),
            phone,
            last_mark,
            air: Air::of_the_room()?,
            room: readings(),
            room_read_on: 0,
            today: 0,
            wood: BTreeMap::new(),
        })
    }

    pub(super) fn into_written(self) -> Vec<Entry> {
        self.phone.into_written()
    }

    /// It is handed a record that goes up to this step.
    pub(super) fn hears(&mut self, step: u64) {
        self.phone.hears(step);
    }

    /// A day at the bench; the room was read on the first of every month before.
    pub(super) fn day(&mut self, date: &str) -> Result<()> {
        let today = day_number(date)?;
        ensure!(self.today < today, "{date} does not come after");
        let mut due = Vec::new();
        while let Some(next) = self.room.first() {
            if day_number(&next.day)? > today {
                break;
            }
            due.push(self.room.remove(0));
        }
        for one in due {
            self.phone
                .next_day(Day::in_the_workshop(&one.day)?, 8 * 3600);
            self.log_the_room(one.humidity, one.temperature)?;
        }
        self.today = today;
        self.phone.next_day(Day::in_the_workshop(date)?, 9 * 3600);
        Ok(())
    }

    pub(super) fn wood(&self, mark: &str) -> Result<&Wood> {
        let found = self.wood.get(mark);
        found.with_context(|| format!("{mark} is not at the bench"))
    }

    /// Something that happened to a piece.
    pub(super) fn record(&mut self, mark: &str, event: Event) -> Result<()> {
        let id = self.wood(mark)?.id;
        self.phone.wait(45);
        self.phone.write(id, event).map(|_| ())
    }

    /// A plank from the yard is put in its place and weighed.
    pub(super) fn arrives(&mut self, state: &State, mark: &str, place: &str) -> Result<()> {
        let [id] = queries::pieces_with_mark(state, mark)[..] else {
            anyhow::bail!("no one plank is marked {mark}");
        };
        let piece = state.piece(id).context("no plank")?;
        let sheet = queries::sheet_of(state, piece, &Instruments::default());
        let sheet = sheet.with_context(|| format!("{mark}: no visit"))?;
        let (mass, volume) = (sheet.mass, sheet.volume);
        let mass = in_kg(mass.with_context(|| format!("{mark}: not weighed"))?.value);
        let volume = in_m3(volume.with_context(|| format!("{mark}: no size"))?.value);
        let percent = sheet
            .moisture
            .with_context(|| format!("{mark}: no moisture"))?;
        let percent = percent.value.in_percent();
        let plank = queries::size_of(state, piece);
        let sides = [
            plank.length,
            mean_of_stations(&plank.widths),
            mean_of_stations(&plank.thicknesses),
        ];
        let mut size = [0.0; 3];
        for (side, found) in size.iter_mut().zip(sides) {
            *side = in_mm(found.with_context(|| format!("{mark}: a size is missing"))?);
        }
        let wood = Wood {
            id,
            kind: PieceKind::Plank,
            size,
            dry: mass / volume / (1.0 + percent / 100.0),
            wet: Wet {
                since: self.today,
                percent,
                lag: 90.0,
            },
        };
        self.wood.insert(mark.to_owned(), wood);
        self.put(mark, place)?;
        self.weigh(mark)
    }

    pub(super) fn put(&mut self, mark: &str, place: &str) -> Result<()> {
        let place = place.to_owned();
        self.record(mark, Event::Placed(Placed { place }))
    }

    /// The air of the room as the dial by the door shows it today, once a day.
    pub(super) fn read_the_room(&mut self) -> Result<()> {
        if self.room_read_on == self.today {
            return Ok(());
        }
        self.room_read_on = self.today;
        let (humidity, temperature) = self.air.on(self.today)?;
        self.phone.wait(45);
        self.log_the_room(humidity.round(), temperature.round())
    }

    fn log_the_room(&mut self, humidity: f64, temperature: f64) -> Result<()> {
        let read = RoomRead {
            climate: Climate {
                humidity: Some(typed(humidity, "%", 0)?),
                temperature: Some(typed(temperature, "°C", 0)?),
            },
            hygrometer: "dial by the door".to_owned(),
            room: "workshop".to_owned(),
            witness: None,
        };
        let read = Event::RoomRead(Box::new(read));
        self.phone.write(self.room_id, read).map(|_| ())
    }

    /// The room is read, and pieces are weighed.
    pub(super) fn weigh_all(&mut self, marks: &[String]) -> Result<()> {
        self.read_the_room()?;
        marks.iter().try_for_each(|mark| self.weigh(mark))
    }

    /// A piece is weighed: planks on the hanging scale, all else on the bench scale.
    pub(super) fn weigh(&mut self, mark: &str) -> Result<()> {
        let wood = self.wood(mark)?;
        let wet = wood.wet.on(self.today, &self.air)?;
        let volume: f64 = wood.size.iter().product::<f64>() * 1e-9;
        let mass = volume * wood.dry * (1.0 + wet / 100.0);
        let (scale, step, places) = match wood.kind {
            PieceKind::Plank => ("hanging", 0.05, 2),
            _ => ("bench", 0.001, 3),
        };
        let weighed = Weighed {
            mass: typed((mass / step).round() * step, "kg", places)?,
            scale: scale.to_owned(),
            step: Some(typed(step, "kg", places)?),
            witness: None,
        };
        self.record(mark, Event::Weighed(Arc::new(weighed)))
    }

    /// A piece lay where it got wet: so much by the meter, and it is slow to dry.
    pub(super) fn found_wet(&mut self, mark: &str, percent: f64, lag: f64) -> Result<()> {
        let since = self.today;
        if let Some(wood) = self.wood.get_mut(mark) {
            wood.wet = Wet {
                since,
                percent,
                lag,
            };
        }
        let read = MoistureRead {
            depth: Some(typed(17.0, "mm", 0)?),
            meter: "pins".to_owned(),
            shown: typed(percent, "%", 1)?,
            wood_temperature: Some(typed(19.0, "°C", 0)?),
        };
        self.record(mark, Event::MoistureRead(Arc::new(read)))
    }

    /// Flattens a piece and sets it to rest.
    pub(super) fn rest(&mut self, mark: &str, place: &str) -> Result<()> {
        self.flatten(mark)?;
        let stage = match self.wood(mark)?.kind {
            PieceKind::Plank | PieceKind::Piece => Stage::Pieces,
            PieceKind::Laminate => Stage::Laminates,
            PieceKind::Blank => Stage::Blanks,
        };
        let rest = SetToRest {
            climate: Climate::default(),
            place: place.to_owned(),
            stage,
        };
        self.record(mark, Event::SetToRest(Arc::new(rest)))
    }

    /// A piece is checked: bow, crook and twist as typed.
    pub(super) fn check(&mut self, mark: &str, shape: [&str; 3]) -> Result<()> {
        let fields = [Field::Bow, Field::Crook, Field::Twist];
        let texts: Vec<_> = fields.into_iter().zip(shape).collect();
        let checked = MovementChecked {
            readings: read(&texts)?,
            reference: REFERENCE.to_owned(),
            ..MovementChecked::default()
        };
        self.record(mark, Event::MovementChecked(Arc::new(checked)))
    }

    /// Pieces are looked at: none has moved.
    pub(super) fn none_moved(&mut self, marks: &[String]) -> Result<()> {
        for mark in marks {
            let checked = MovementChecked {
                nothing_moved: true,
                ..MovementChecked::default()
            };
            self.record(mark, Event::MovementChecked(Arc::new(checked)))?;
        }
        Ok(())
    }

    /// The rings on the end and the grain on the edge of a laminate.
    pub(super) fn look_at_the_grain(&mut self, mark: &str, rings: &str, edge: &str) -> Result<()> {
        let measured = Measured {
            readings: read(&[(Field::RingAngle, rings), (Field::GrainEdge, edge)])?,
            ..Measured::default()
        };
        self.record(mark, Event::Measured(measured))
    }

    /// To which side the rings of a laminate lean, and which way its grain runs out.
    pub(super) fn look_at_the_sides(
        &mut self,
        mark: &str,
        rings: RingTilt,
        grain: RunoutDirection,
    ) -> Result<()> {
        let seen = GrainSeen {
            grain_rises: Some(grain),
            rings_lean: Some(rings),
            ..GrainSeen::default()
        };
        self.record(mark, Event::GrainSeen(Box::new(seen)))
    }

    /// A piece is thrown out.
    pub(super) fn discard(&mut self, mark: &str, why: Reason) -> Result<()> {
        let reasons = vec![why];
        self.record(mark, Event::Discarded(Discarded { reasons }))
    }
}
