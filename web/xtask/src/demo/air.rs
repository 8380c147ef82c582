//! The air of the invented workshop through the years, and how wood in it follows.
//!
//! The equilibrium is that of the core; the wood lags behind it, a day at a time. It decides nothing
//! about a piece.

use anyhow::{Context, Result, anyhow};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::celsius;
use stillwood_core::record::date;
use stillwood_core::wood::{Humidity, emc};

/// The room is read on the first of each month from this one on: a year, and how many of its months are
/// over.
const FIRST_MONTH: (i64, usize) = (2024, 3);
const MONTHS: usize = 32;
/// What the hygrometer shows on the first of January, February and so on, %, and the thermometer, °C.
const YEAR: [(f64, f64); 12] = [
    (38.0, 18.0),
    (36.0, 17.0),
    (39.0, 18.0),
    (43.0, 19.0),
    (48.0, 20.0),
    (53.0, 22.0),
    (56.0, 23.0),
    (57.0, 24.0),
    (53.0, 22.0),
    (48.0, 20.0),
    (43.0, 19.0),
    (40.0, 18.0),
];

/// A day, counted from 1970.
pub(super) fn day_number(day: &str) -> Result<i64> {
    let found = date(day).with_context(|| format!("\"{day}\" is no day"))?;
    let epoch = date("1970-01-01").context("1970")?;
    Ok((found - epoch).num_days())
}

/// What the instruments showed on one day.
#[derive(Debug, Clone)]
pub(super) struct RoomReading {
    pub(super) day: String,
    pub(super) humidity: f64,
    pub(super) temperature: f64,
}

pub(super) fn readings() -> Vec<RoomReading> {
    let (first, skipped) = FIRST_MONTH;
    (0..MONTHS)
        .map(|n| {
            let (year, month) = ((n + skipped) / 12, (n + skipped) % 12);
            let (humidity, temperature) = YEAR[month];
            // No two years are alike: a point damper or drier.
            let off = [0.0, 1.0, -1.0][(n + year) % 3];
            RoomReading {
                day: format!("{}-{:02}-01", first + year as i64, month + 1),
                humidity: humidity + off,
                temperature,
            }
        })
        .collect()
}

/// The air of the room, day by day: it changes evenly from one first of a month to the next.
#[derive(Debug)]
pub(super) struct Air {
    /// The day of each reading, the humidity, % and the temperature, °C.
    from: Vec<(i64, f64, f64)>,
}

impl Air {
    pub(super) fn of_the_room() -> Result<Self> {
        let from = readings()
            .iter()
            .map(|read| Ok((day_number(&read.day)?, read.humidity, read.temperature)))
            .collect::<Result<_>>()?;
        Ok(Self { from })
    }

    /// The humidity, % and the temperature, °C, on a day; before the first reading as then, after the last as
    /// last.
    pub(super) fn on(&self, day: i64) -> Result<(f64, f64)> {
        let at = self.from.partition_point(|(from, ..)| *from <= day).max(1);
        let last = self.from.get(at - 1).context("the room was never read")?;
        let (from, humidity, temperature) = *last;
        let day = day.max(from);
        let Some((until, then, warmth)) = self.from.get(at) else {
            return Ok((humidity, temperature));
        };
        let along = (day - from) as f64 / (until - from) as f64;
        let between = |a: f64, b: f64| a + along * (b - a);
        Ok((between(humidity, *then), between(temperature, *warmth)))
    }

    /// The equilibrium on a day, %.
    fn settles_at(&self, day: i64) -> Result<f64> {
        let (humidity, temperature) = self.on(day)?;
        let air = emc(
            &mut TraceOff,
            celsius(temperature),
            Humidity::percent(humidity),
        );
        let air = air.map_err(|why| anyhow!("day {day}: {why}"))?;
        Ok(air.in_percent())
    }
}

/// How wet a piece is, and how slowly it follows the air.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wet {
    pub(super) since: i64,
    /// How wet it was then, %.
    pub(super) percent: f64,
    /// The days in which all but 37 % of the way is done.
    pub(super) lag: f64,
}

impl Wet {
    /// How wet it is on a later day, %.
    pub(super) fn on(&self, day: i64, air: &Air) -> Result<f64> {
        (self.since..day).try_fold(self.percent, |wet, day| {
            Ok(wet + (air.settles_at(day)? - wet) / self.lag)
        })
    }
}
