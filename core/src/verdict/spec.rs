//! A spec: what a plank is wanted for, and the maker's own targets and limits.
//!
//! The supplied limits are common practice, no source: they are a place to start and are meant to be
//! changed. Numbers are in the units that the field names say.

use crate::plank::DefectKind;
use serde::{Deserialize, Serialize};

/// What the wood is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// Laminates for a laminated neck.
    NeckLaminates,
    /// A neck from one piece.
    OnePieceNeck,
    /// A body.
    Body,
    /// Fingerboards.
    Fingerboard,
}

/// The part that is wanted from a plank: cut out, and flattened.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Part {
    /// Along the grain, mm.
    pub length_mm: f64,
    /// The part's wider cross dimension, mm.
    pub width_mm: f64,
    /// The part's thinner cross dimension, mm.
    pub thickness_mm: f64,
}

/// How the part lies in the plank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Laid {
    /// The part's width lies across the plank's width, its thickness in the plank's thickness.
    Flat,
    /// The plank is ripped into strips that are turned on edge: the part's thickness is taken across
    /// the plank's width, its width stands in the plank's thickness.
    OnEdge,
}

/// What a criterion looks at.
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
pub enum Quality {
    /// Thickness of the straight slab left in a part-sized piece, mm.
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

/// Where a value is good, and where it is refused. Between limit and target the score rises from 0 to
/// 100 in a straight line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Form {
    /// Smaller is better.
    AtMost {
        /// At this value or below, nothing is left to wish.
        target: f64,
        /// Beyond this it is refused.
        limit: f64,
    },
    /// Larger is better.
    AtLeast {
        /// At this value or above, nothing is left to wish.
        target: f64,
        /// Below this it is refused.
        limit: f64,
    },
    /// A window.
    Within {
        /// Below this it is refused.
        low_limit: f64,
        /// From here to `high_target` nothing is left to wish.
        low_target: f64,
        /// To here from `low_target` nothing is left to wish.
        high_target: f64,
        /// Above this it is refused.
        high_limit: f64,
    },
}

/// One criterion of a spec.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Criterion {
    /// What it looks at.
    pub quality: Quality,
    /// Target and limit.
    pub form: Form,
}

/// How planks that pass are ordered.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Order {
    /// By the weakest criterion, ties by the geometric mean of all.
    #[default]
    Score,
    /// By the cost of an expected part.
    CostPerPart,
}

/// What a plank is wanted for, with the maker's targets and limits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Spec {
    /// The maker's name for it.
    pub name: String,
    /// What the wood is for.
    pub purpose: Purpose,
    /// What is cut out of a plank.
    pub part: Part,
    /// How it lies in the plank.
    pub laid: Laid,
    /// How many parts make one blank: 1, or the number of laminates.
    pub parts_per_blank: u32,
    /// How many blanks are wanted in all.
    pub blanks_wanted: u32,
    /// Width of the saw cut, mm.
    pub kerf_mm: f64,
    /// What planing takes from each face, mm.
    pub planing_mm: f64,
    /// What is cut off each end of the plank, mm.
    pub end_trim_mm: f64,
    /// What is lost along both edges together, mm.
    pub edge_trim_mm: f64,
    /// The share of parts cut that is expected to come through the seasoning, 0 to 1.
    pub expected_yield: f64,
    /// The criteria, each at most once.
    pub criteria: Vec<Criterion>,
    /// Faults that refuse a plank outright.
    pub fatal: Vec<DefectKind>,
    /// How planks that pass are ordered.
    #[serde(default)]
    pub order: Order,
}

impl Spec {
    /// The criterion for a quality, if the spec has one.
    pub fn criterion(&self, quality: Quality) -> Option<Criterion> {
        self.criteria.iter().copied().find(|c| c.quality == quality)
    }

    /// The thickness of straight slab that a part needs: its thickness if it is laid
    /// flat, its width if it is turned on edge, mm.
    pub fn slab_needed_mm(&self) -> f64 {
        match self.laid {
            Laid::Flat => self.part.thickness_mm,
            Laid::OnEdge => self.part.width_mm,
        }
    }

    /// What a piece takes of the plank's width from which the parts of one blank are cut, mm: of parts
    /// turned on edge so many strips with their planing and kerfs.
    pub fn piece_across_mm(&self) -> f64 {
        match self.laid {
            Laid::Flat => self.part.width_mm,
            Laid::OnEdge => {
                let strip = self.part.thickness_mm + 2.0 * self.planing_mm + self.kerf_mm;
                strip * f64::from(self.parts_per_blank) - self.kerf_mm
            }
        }
    }

    /// What a part takes of the plank's width, mm.
    pub fn across_mm(&self) -> f64 {
        match self.laid {
            Laid::Flat => self.part.width_mm,
            Laid::OnEdge => self.part.thickness_mm,
        }
    }
}
