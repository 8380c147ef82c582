//! What a yard charges by, and the rule by which it tallies: the yard's custom, chosen per visit.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

/// What the price is per.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PriceBasis {
    /// Per board foot.
    BoardFoot,
    /// Per cubic metre.
    CubicMetre,
    /// Per plank.
    Piece,
    /// Per kilogram.
    Kilogram,
}

/// How the footage of a plank is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TallyMeasure {
    /// Length x width x thickness, unrounded.
    Exact,
    /// The hardwood trade's surface measure: square feet of the face, to the nearest whole foot, an
    /// exact half going down and up by turns through the tally; times the thickness in quarters of an
    /// inch, stock under one inch counting as one inch.
    SurfaceMeasure,
}

/// How a width or a length is rounded before it is multiplied.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Rounding {
    /// Taken as measured.
    #[default]
    None,
    /// Down to the whole unit (inch of width, foot of length).
    Down,
    /// To the nearest whole unit.
    Nearest,
    /// Up to the whole unit.
    Up,
}

/// Which thickness is charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ThicknessBasis {
    /// The pile's nominal thickness.
    Nominal,
    /// The thickness measured.
    Measured,
}

/// A tally rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct TallyRule {
    /// Exact or by surface measure.
    pub measure: TallyMeasure,
    /// Rounding of the width, to whole inches.
    #[serde(default)]
    pub width: Rounding,
    /// Rounding of the length, to whole feet.
    #[serde(default)]
    pub length: Rounding,
    /// Which thickness counts.
    pub thickness: ThicknessBasis,
    /// A percentage added to the footage (straight-line or kiln-loss charges).
    #[serde(default)]
    #[schemars(with = "String")]
    pub added_percent: Decimal,
}

impl Default for TallyRule {
    fn default() -> Self {
        Self {
            measure: TallyMeasure::Exact,
            width: Rounding::None,
            length: Rounding::None,
            thickness: ThicknessBasis::Nominal,
            added_percent: Decimal::ZERO,
        }
    }
}
