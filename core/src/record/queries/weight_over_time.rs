//! What a piece weighed, day by day, beside what it would weigh once it had come to rest in the air of its room on
//! that day: whether it still dries, drawn.

use crate::quantity::{Mass, in_kg, kg};
use crate::record::log::Weighed;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::{Piece, State};
use crate::season::mass_change_in_air;
use chrono::NaiveDate;

/// Readings that are less apart than a milligram are the same, kg.
const SAME_KG: f64 = 1e-6;

/// What a piece weighed on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighedOn {
    /// The entry.
    pub entry: Id,
    /// The day.
    pub on: NaiveDate,
    /// Its mass.
    pub mass: Mass,
    /// How far it may be off: half the step of its scale where that was said, else as the maker's scales are.
    pub off: Mass,
}

/// What it would weigh in the air of a day, once it had come to rest in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettledOn {
    /// The day.
    pub on: NaiveDate,
    /// The least.
    pub low: Mass,
    /// The most.
    pub high: Mass,
}

/// A piece's weight over time.
#[derive(Debug, Clone, PartialEq)]
pub struct WeightOverTime {
    /// What it weighed, in the order of the days.
    pub weighed: Vec<WeighedOn>,
    /// What its room would make of it, in the order of the days; empty while its weighings do not tell.
    pub settled: Vec<SettledOn>,
    /// What 1 % of moisture weighs in it; none while the air of its room is not known.
    pub one_percent: Option<Mass>,
}

/// How a weight has changed from the first weighing to the last, as it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WeightChange {
    /// It lost so much, and how far the difference may be off.
    Lighter(Mass, Mass),
    /// It gained so much, and how far the difference may be off.
    Heavier(Mass, Mass),
    /// Both times the same was read.
    Same,
}

impl WeightOverTime {
    /// From the first weighing to the last; `None` where it was weighed once. The difference may be off by as much as
    /// both readings together. One within that is not proven, but it was read: only where both readings are the same
    /// is there no change.
    pub fn change(&self) -> Option<WeightChange> {
        let [first, .., last] = self.weighed.as_slice() else {
            return None;
        };
        let by = last.mass - first.mass;
        let off = first.off + last.off;
        Some(match in_kg(by) {
            none if none.abs() < SAME_KG => WeightChange::Same,
            less if less < 0.0 => WeightChange::Lighter(-by, off),
            _ => WeightChange::Heavier(by, off),
        })
    }
}

/// How far a weighing may be off.
pub(super) fn scale_off(weighed: &Weighed, scale: Mass) -> Mass {
    let step = weighed.step.as_ref();
    step.map_or(scale, |step| kg(step.value) / 2.0)
}

/// A piece's weight over time; `None` where it was never weighed.
pub fn weight_over_time(state: &State, piece: &Piece, scale: Mass) -> Option<WeightOverTime> {
    piece.work.weighings.first()?;
    let weighed = piece.work.weighings.iter().map(|said| WeighedOn {
        entry: said.entry,
        on: said.on,
        mass: kg(said.payload.mass.value),
        off: scale_off(&said.payload, scale),
    });
    let report = queries::drying_report(state, piece, scale).and_then(Result::ok);
    let mut settled = Vec::new();
    if let Some(fit) = report.and_then(|report| report.fit) {
        let airs = queries::drying::air_by_days(state, piece, scale).unwrap_or_default();
        let last = airs.last().map(|(_, air)| *air);
        for (on, air) in airs {
            let in_it = |mass| Some(mass + mass_change_in_air(mass, last?, air).ok()?);
            let range = (in_it(fit.settles_at.low), in_it(fit.settles_at.high));
            if let (Some(low), Some(high)) = range
                && in_kg(low) <= in_kg(high)
            {
                settled.push(SettledOn { on, low, high });
            }
        }
    }
    Some(WeightOverTime {
        weighed: weighed.collect(),
        settled,
        one_percent: report.map(|report| report.one_percent),
    })
}
