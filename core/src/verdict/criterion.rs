//! What a plank is judged by, and which measurements move each criterion.

use crate::plank::{BendShape, Plank, Source};
use crate::quantity::show;
use serde::{Deserialize, Serialize};

/// What a plank is judged by.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "Quality")]
pub enum Criterion {
    /// Thickness of the straight slab left in what is flattened, mm.
    Straightness,
    /// What is left of the crook over the part's length, mm.
    Crook,
    /// Density at 12 % moisture, kg/m3.
    Density,
    /// Combined slope of grain, as a tangent.
    GrainSlope,
    /// Ring angle of the part as it will stand in the blank, degrees to its
    /// wide face: 90 is quartersawn.
    RingAngle,
    /// Moisture content after the meter's correction, %.
    Moisture,
    /// Parts of the wanted size that the plank holds.
    Size,
}

impl Criterion {
    /// All of them, in the order in which they are shown.
    pub const ALL: &'static [Criterion] = &[
        Criterion::Straightness,
        Criterion::Crook,
        Criterion::GrainSlope,
        Criterion::RingAngle,
        Criterion::Density,
        Criterion::Moisture,
        Criterion::Size,
    ];

    pub fn name(self) -> &'static str {
        match self {
            Criterion::Straightness => "clean thickness",
            Criterion::Crook => "crook",
            Criterion::Density => "density at 12 %",
            Criterion::GrainSlope => "slope of grain",
            Criterion::RingAngle => "ring angle",
            Criterion::Moisture => "moisture",
            Criterion::Size => "size",
        }
    }

    /// The unit of its values and limits; nothing for a slope or a count.
    pub fn unit(self) -> &'static str {
        match self {
            Criterion::Straightness | Criterion::Crook => "mm",
            Criterion::Density => "kg/m³",
            Criterion::RingAngle => "°",
            Criterion::Moisture => "%",
            Criterion::GrainSlope | Criterion::Size => "",
        }
    }

    /// Whether a measurement may move it in a plank; one that can't is not moved to find the uncertainty.
    pub(super) fn is_moved_by(self, source: Source, plank: &Plank) -> bool {
        use Source::*;
        let moves_slab = matches!(source, Length | Width | Thickness | Bow | Twist | Cup);
        match self {
            Criterion::Straightness | Criterion::Size => moves_slab,
            // Whether a kink is cut at hangs on the slab.
            Criterion::Crook if crook_is_kinked(plank) => moves_slab || source == Crook,
            Criterion::Crook => matches!(source, Length | Crook),
            Criterion::Density => matches!(
                source,
                Length
                    | Width
                    | Thickness
                    | BetweenStations
                    | OffMiddle
                    | Scale
                    | Bearer
                    | Meter
                    | Temperature
            ),
            Criterion::GrainSlope => matches!(source, GrainFace | GrainEdge),
            Criterion::RingAngle => source == Rings,
            Criterion::Moisture => matches!(source, Meter | Temperature),
        }
    }
}

/// How many parts a plank holds, with its ±. It hangs on the clean thickness: where that is near its limit, the plank
/// may hold none.
pub fn parts_in_words(parts: f64, expanded: f64) -> String {
    if expanded >= 0.5 && parts - expanded < 0.5 {
        format!("0 to {parts:.0} parts")
    } else if parts == 1.0 && expanded < 0.5 {
        "1 part".to_owned()
    } else {
        format!("{} parts", show::give_or_take(parts, expanded, 0))
    }
}

pub(super) fn crook_is_kinked(plank: &Plank) -> bool {
    let crook = plank.crook.as_ref();
    crook.is_some_and(|crook| crook.shape != BendShape::Even)
}
