//! What was typed, its unit and what was understood: the form in which a measurement is kept.

use super::eye::open_step;
use super::{DefectKind, Field};
use serde::{Deserialize, Serialize};
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

/// One measurement as it is kept: never only a float.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
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
}

/// The measurements of one plank, by field.
pub type Readings = BTreeMap<Field, Reading>;

/// A fault as it is kept: its places are readings like any other.
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
    /// Whether what is there may be more than the value: the eye's last step.
    pub fn is_bound(&self, field: Field) -> bool {
        self.seen == Seen::ByEye && open_step(field) == Some(self.typed.as_str())
    }

    /// Whether the side or the hand was noted: a plus, a minus or a hand was typed. What was seen
    /// without one is kept as unsigned.
    pub fn is_signed(&self) -> bool {
        let typed = self.typed.trim().to_lowercase();
        typed.starts_with(['+', '-', '−', '–'])
            || ["l", "r", "left", "right"]
                .iter()
                .any(|hand| typed.ends_with(hand))
    }
}
