//! What is said when wood is cut, machined, tested and glued.
//!
//! Bodies of happenings: what was typed and done, nothing that can be worked out from it. Keys are
//! declared in the order of the alphabet, as the file writes them.

use crate::neck::MatchLimits;
use crate::plank::{Reading, Readings, RingTilt, RunoutDirection};
use crate::quantity::{Moisture, in_kg_per_m3, in_mm, kg_per_m3, mm};
use crate::record::log::Climate;
use crate::record::log::id::Id;
use serde::{Deserialize, Serialize};

/// What a piece of wood is.
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
pub enum PieceKind {
    /// As it came from the yard, or a length of it.
    Plank,
    /// Cut to the size from which laminates are ripped.
    Piece,
    /// One layer of a blank.
    Laminate,
    Blank,
}

impl PieceKind {
    /// The trade's term.
    pub fn name(self) -> &'static str {
        match self {
            PieceKind::Plank => "plank",
            PieceKind::Piece => "piece",
            PieceKind::Laminate => "laminate",
            PieceKind::Blank => "blank",
        }
    }
}

/// A stretch of the parent, from its near end, its marked edge or its marked face.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Span {
    /// Where it starts.
    pub from: Reading,
    /// Where it ends.
    pub to: Reading,
}

/// A piece that comes out of a cut. A stretch that is absent is the whole of the parent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Child {
    /// Its place across the parent's width.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub across: Option<Span>,
    /// Its place along the parent's length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub along: Option<Span>,
    /// Its id.
    pub id: Id,
    /// What it is now.
    pub kind: PieceKind,
    /// What is written on it, before the cut.
    pub mark: String,
    /// Its place through the parent's thickness.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub through: Option<Span>,
}

/// How wood sprang as it was cut: a gap, plus where it opens, minus where it closes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Tension {
    /// The gap.
    pub gap: Reading,
    /// Over which length; absent is all of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub over: Option<Reading>,
}

/// A piece is cut. `about` is the parent, which ends here; its children begin here.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Cut {
    /// What comes out of it and is kept, in their order in the parent.
    pub children: Vec<Child>,
    /// What the saw takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kerf: Option<Reading>,
    /// How it sprang.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tension: Option<Tension>,
}

/// A piece is machined flat: its movement counts from here. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default)]
pub struct Machined {
    /// An edge was made straight: crook counts from here.
    pub edge: bool,
    /// A face was made flat: bow, cup and twist count from here.
    pub face: bool,
    /// Sizes and shape right after, as far as they were taken.
    #[serde(skip_serializing_if = "Readings::is_empty")]
    pub readings: Readings,
    /// The face and edge that signs refer to from here on.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub reference: String,
}

/// The rings on the end of a laminate and the grain on its face are looked at, the laminate on edge: the
/// marked edge up, the marked face to the right, the near end in front. `about` is the laminate. What is
/// absent was not looked at, and stands as it was said before.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default)]
pub struct GrainSeen {
    /// How the grain runs on the marked face.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grain_rises: Option<RunoutDirection>,
    /// How steeply, whichever way.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grain_slope: Option<Reading>,
    /// Acute angle between the rings and the wide face.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ring_angle: Option<Reading>,
    /// To which side the rings lean on the near end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rings_lean: Option<RingTilt>,
}

impl GrainSeen {
    /// This, and what was said before of all that it does not speak of.
    pub fn after(self, before: GrainSeen) -> Self {
        Self {
            grain_rises: self.grain_rises.or(before.grain_rises),
            grain_slope: self.grain_slope.or(before.grain_slope),
            ring_angle: self.ring_angle.or(before.ring_angle),
            rings_lean: self.rings_lean.or(before.rings_lean),
        }
    }
}

/// How drying stress was looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StressTest {
    /// An offcut ripped in two and laid together again: stress along the length.
    Ripped,
    /// Prongs sawn into a slice of the end (fork test): stress across the section.
    Fork,
}

/// An offcut of a piece was tested for stress. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct StressTested {
    /// The gap: plus where it opens or the prongs spread, minus where they close.
    pub gap: Reading,
    /// Over which length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub over: Option<Reading>,
    /// Which test.
    pub test: StressTest,
}

/// The maker sets how far laminates glued together may be off. `about` is the setting. Each counts as one
/// at its limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct GluingSet {
    /// Crook left in the blank, mm.
    pub crook_mm: f64,
    /// Density between mirrored laminates, kg/m3.
    pub density_kg_m3: f64,
    /// Stiffness between mirrored laminates, as a share of the larger.
    pub modulus_share: f64,
    /// Moisture from the driest to the wettest, %.
    pub moisture_percent: f64,
    /// Thickness between mirrored laminates, mm.
    pub thickness_mm: f64,
    /// Mean twist, mm.
    pub twist_mm: f64,
}

impl GluingSet {
    /// As the matching takes them.
    pub fn limits(&self) -> MatchLimits {
        MatchLimits {
            crook: mm(self.crook_mm),
            twist: mm(self.twist_mm),
            moisture_spread: Moisture::percent(self.moisture_percent),
            density: kg_per_m3(self.density_kg_m3),
            thickness: mm(self.thickness_mm),
            modulus_share: self.modulus_share,
        }
    }

    /// The setting that says these limits.
    pub fn of(limits: &MatchLimits) -> Self {
        Self {
            crook_mm: in_mm(limits.crook),
            density_kg_m3: in_kg_per_m3(limits.density),
            modulus_share: limits.modulus_share,
            moisture_percent: limits.moisture_spread.in_percent(),
            thickness_mm: in_mm(limits.thickness),
            twist_mm: in_mm(limits.twist),
        }
    }
}

/// One laminate in a blank, and which way round it lies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Member {
    /// The laminate.
    pub piece: Id,
    /// Rolled about its length: the marked face looks the other way.
    #[serde(rename = "rolled", default, skip_serializing_if = "std::ops::Not::not")]
    pub turned_over: bool,
    /// Turned end for end.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub turned: bool,
}

/// What a blank is glued with.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default)]
pub struct Adhesive {
    /// The batch on the tin.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub batch: String,
    /// Whether it brings water into the wood; absent while it is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub brings_water: Option<bool>,
    /// The mix, as the maker writes it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub mix: String,
    /// What it is.
    pub name: String,
}

/// Laminates are glued to a blank. `about` is the blank, which begins here; its members end here.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Glued {
    /// The adhesive.
    #[serde(default)]
    pub adhesive: Adhesive,
    /// How long it stays clamped, hours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clamp_time: Option<Reading>,
    /// The room's climate.
    #[serde(default, skip_serializing_if = "Climate::is_empty")]
    pub climate: Climate,
    /// What is written on it.
    pub mark: String,
    /// Its laminates, in order.
    pub members: Vec<Member>,
    /// Who glued it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub who: String,
}
