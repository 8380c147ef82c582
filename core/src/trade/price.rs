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

impl PriceBasis {
    /// What it is per, after a price.
    pub fn per(self) -> &'static str {
        match self {
            PriceBasis::BoardFoot => "per board foot",
            PriceBasis::CubicMetre => "per m³",
            PriceBasis::Piece => "per plank",
            PriceBasis::Kilogram => "per kg",
        }
    }
}

impl TallyRule {
    /// The rule in a sentence.
    ///
    /// ```
    /// use stillwood_core::trade::TallyRule;
    /// assert_eq!(
    ///     TallyRule::default().in_words(),
    ///     "length × width × nominal thickness, nothing rounded"
    /// );
    /// ```
    pub fn in_words(&self) -> String {
        let thickness = match self.thickness {
            ThicknessBasis::Nominal => "nominal thickness",
            ThicknessBasis::Measured => "measured thickness",
        };
        let mut words = match self.measure {
            TallyMeasure::Exact => format!("length × width × {thickness}"),
            TallyMeasure::SurfaceMeasure => format!(
                "surface measure (face in whole square feet, exact halves down and up by turns) × \
                 {thickness} in quarters of an inch"
            ),
        };
        let rounded = [
            ("width", "inches", self.width),
            ("length", "feet", self.length),
        ]
        .into_iter()
        .filter_map(|(side, unit, rounding)| {
            let way = match rounding {
                Rounding::None => return None,
                Rounding::Down => "down to whole",
                Rounding::Nearest => "to the nearest whole",
                Rounding::Up => "up to whole",
            };
            Some(format!("{side} {way} {unit}"))
        })
        .collect::<Vec<_>>();
        match (rounded.is_empty(), self.measure) {
            (true, TallyMeasure::Exact) => words.push_str(", nothing rounded"),
            (true, TallyMeasure::SurfaceMeasure) => {}
            (false, _) => {
                words.push_str(", ");
                words.push_str(&rounded.join(", "));
            }
        }
        if !self.added_percent.is_zero() {
            words.push_str(&format!(", {} % added", self.added_percent.normalize()));
        }
        words
    }
}
