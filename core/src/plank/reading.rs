//! What was typed, its unit and what was understood: the form in which a measurement is kept.

use super::bound::Bound;
use super::eye::is_open_step;
use super::{DefectKind, Field};
use crate::quantity::read::{UnderstoodNumber, before_side};
use serde::{Deserialize, Deserializer, Serialize};
use std::collections::BTreeMap;

/// How a value was come by. What was not looked at is absent.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Seen {
    /// With a tool.
    #[default]
    Measured,
    /// By eye, in the eye's coarse steps.
    ByEye,
}

/// Whether the side or the hand was noted: a plus, a minus, or left and right. What was seen without
/// one is kept as unsigned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    Known,
    Unknown,
}

/// One measurement as it is kept: never only a float. Its meaning is settled when it is made; a file
/// keeps what was typed, and [`StoredReading`] alone goes back from there to what it meant.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Reading {
    // In the order of the alphabet, as the file writes its keys: then nothing has to be sorted.
    /// The maker said "yes, really" to a question about it.
    #[serde(
        default,
        rename = "insisted",
        skip_serializing_if = "std::ops::Not::not"
    )]
    pub confirmed: bool,
    /// With a tool or by eye.
    #[serde(default)]
    pub seen: Seen,
    /// Exactly what was typed, or the words of the step chosen by eye.
    pub typed: String,
    /// The unit that was understood, as it is written.
    pub unit: String,
    /// The value understood, in the unit that [`super::Measure::kept_in`] names.
    pub value: f64,
    #[serde(skip)]
    pub sign: Sign,
    #[serde(skip)]
    pub bound: Bound,
}

/// The measurements of one plank, by field.
pub type Readings = BTreeMap<Field, Reading>;

/// A defect as it is kept: its places are readings like any other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct DefectFound {
    /// Where it starts, from the near end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Reading>,
    /// What it is.
    pub kind: DefectKind,
    /// The maker's note.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Where it ends; absent is the same place as it starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<Reading>,
}

impl Reading {
    pub fn understood(typed: &str, number: &UnderstoodNumber, seen: Seen) -> Self {
        let sign = match number.signed {
            true => Sign::Known,
            false => Sign::Unknown,
        };
        Self {
            confirmed: false,
            seen,
            typed: typed.trim().to_owned(),
            unit: number.unit.to_owned(),
            value: number.value,
            sign,
            bound: Bound::Point,
        }
    }

    /// A measured number that nobody typed, such as a place that was worked out, in the unit in which it
    /// is kept; its text is the number.
    pub fn of_number(value: f64, unit: &str) -> Self {
        Self {
            confirmed: false,
            seen: Seen::Measured,
            typed: value.to_string(),
            unit: unit.to_owned(),
            value,
            sign: match value.is_sign_negative() {
                true => Sign::Known,
                false => Sign::Unknown,
            },
            bound: Bound::Point,
        }
    }
}

/// A reading as a file keeps it. Which side was noted and whether it is a bound never had keys of their
/// own: every version wrote them in what was typed, and here they are read from it, once.
#[derive(Deserialize)]
#[serde(rename = "Reading")]
struct StoredReading {
    #[serde(default, rename = "insisted")]
    confirmed: bool,
    #[serde(default)]
    seen: Seen,
    typed: String,
    unit: String,
    value: f64,
}

impl<'de> Deserialize<'de> for Reading {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let stored = StoredReading::deserialize(deserializer)?;
        let bound = match stored.seen == Seen::ByEye && is_open_step(&stored.typed) {
            true => Bound::AtLeast,
            false => Bound::Point,
        };
        Ok(Self {
            sign: sign_of_stored(&stored.typed),
            bound,
            confirmed: stored.confirmed,
            seen: stored.seen,
            typed: stored.typed,
            unit: stored.unit,
            value: stored.value,
        })
    }
}

fn sign_of_stored(typed: &str) -> Sign {
    match typed.trim().starts_with(['+', '-', '−', '–', '—']) || before_side(typed).is_some()
    {
        true => Sign::Known,
        false => Sign::Unknown,
    }
}
