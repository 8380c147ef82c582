//! A spec: what a plank is wanted for, and the maker's own targets and limits.
//!
//! The supplied limits are common practice, no source: they are a place to start and are meant to be
//! changed. Numbers are in the units that the field names say.

use super::Criterion;
use crate::neck::CutSpec;
use crate::plank::DefectKind;
use crate::quantity::mm;
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
#[schemars(rename = "Laid")]
pub enum Orientation {
    /// The part's width lies across the plank's width, its thickness in the plank's thickness.
    Flat,
    /// The plank is ripped into parts that are turned on edge: the part's thickness is taken across
    /// the plank's width, its width stands in the plank's thickness.
    OnEdge,
}

/// How the plank is sawn first: what is flattened is what is sawn first, and a wider piece loses more to cup
/// and twist.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FirstCut {
    /// The parts come straight off the plank, and each is flattened by itself. So reads a spec that does not
    /// say it, as all did that were written before it could be said.
    #[default]
    Part,
    /// A piece as long as a part is sawn and flattened first, and then ripped into parts.
    Piece {
        /// Its planed width, mm.
        width_mm: f64,
    },
}

impl FirstCut {
    fn is_part(&self) -> bool {
        *self == FirstCut::Part
    }
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

/// A criterion with the limits that a spec sets for it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[schemars(rename = "Criterion")]
pub struct Requirement {
    /// What is looked at.
    #[serde(rename = "quality")]
    pub criterion: Criterion,
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
    #[serde(rename = "laid")]
    pub orientation: Orientation,
    /// How the plank is sawn first.
    #[serde(default, skip_serializing_if = "FirstCut::is_part")]
    pub first_cut: FirstCut,
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
    /// The criteria with their limits, each at most once.
    pub criteria: Vec<Requirement>,
    /// Defects that refuse a plank outright.
    pub fatal: Vec<DefectKind>,
    /// How planks that pass are ordered.
    #[serde(default)]
    pub order: Order,
}

impl Spec {
    /// What the spec asks of a criterion, if it asks anything.
    pub fn requirement(&self, criterion: Criterion) -> Option<Requirement> {
        let mut all = self.criteria.iter().copied();
        all.find(|one| one.criterion == criterion)
    }

    /// How it has a plank cut up.
    pub fn cut_spec(&self) -> CutSpec {
        CutSpec {
            length: mm(self.part.length_mm),
            across: mm(self.across_mm()),
            slab: mm(self.slab_needed_mm()),
            piece: match self.first_cut {
                FirstCut::Part => None,
                FirstCut::Piece { width_mm } => Some(mm(width_mm)),
            },
            planing: mm(self.planing_mm),
            kerf: mm(self.kerf_mm),
            end_trim: mm(self.end_trim_mm),
            edge_trim: mm(self.edge_trim_mm),
            parts_per_blank: self.parts_per_blank,
        }
    }

    /// The planed width of the piece that is sawn first, mm; where the parts come straight off the plank, that
    /// of the piece that it would take: [`Spec::piece_across_mm`].
    pub fn piece_width_mm(&self) -> f64 {
        match self.first_cut {
            FirstCut::Part => self.piece_across_mm(),
            FirstCut::Piece { width_mm } => width_mm,
        }
    }

    /// The thickness of straight slab that a part needs: its thickness if it is laid
    /// flat, its width if it is turned on edge, mm.
    pub fn slab_needed_mm(&self) -> f64 {
        match self.orientation {
            Orientation::Flat => self.part.thickness_mm,
            Orientation::OnEdge => self.part.width_mm,
        }
    }

    /// What a piece takes of the plank's width from which the parts of one blank are cut, mm: of parts
    /// turned on edge so many parts with their planing and kerfs.
    pub fn piece_across_mm(&self) -> f64 {
        match self.orientation {
            Orientation::Flat => self.part.width_mm,
            Orientation::OnEdge => {
                let part = self.part.thickness_mm + 2.0 * self.planing_mm + self.kerf_mm;
                part * f64::from(self.parts_per_blank) - self.kerf_mm
            }
        }
    }

    /// Whether a plank is ripped into parts straight off, each turned on edge and flattened by itself.
    pub fn rips_parts_first(&self) -> bool {
        self.orientation == Orientation::OnEdge && self.first_cut == FirstCut::Part
    }

    /// What a part takes of the plank's width, mm.
    pub fn across_mm(&self) -> f64 {
        match self.orientation {
            Orientation::Flat => self.part.width_mm,
            Orientation::OnEdge => self.part.thickness_mm,
        }
    }
}
