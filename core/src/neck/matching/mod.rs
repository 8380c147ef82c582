//! Which laminates go together in a blank, in what order and which way round.
//!
//! A laminate stands on edge and can be rolled half round about its long axis, or spun end for end with
//! the same edge up. Rolling turns its crook and its runout round and keeps the lean of its rings;
//! spinning turns the lean of the rings and the runout and keeps the crook; no turning changes the hand
//! of a twist. So crook and ring lean can be chosen freely, the runout then follows, and twist is
//! cancelled only by another laminate.
//!
//! It proposes and judges, and never decides; what was not measured never counts as good, and a side
//! that was not looked at stays unknown: such a laminate is placed as if it did not lean or run out.

mod by_hand;
mod explain;
mod formulas;
mod judge;
mod prepared;
mod search;
mod worse;

pub use by_hand::put_by_hand;
pub use explain::{MatchFigure, explain_match};
pub use judge::{Judged, MatchWarning, judge_match, runs_out_against};
pub use search::{MatchSearch, Proposal, SearchState};
pub use worse::WorseBy;

use crate::plank::{RingClass, RingTilt, RunoutDirection};
use crate::quantity::{Length, MassDensity, Moisture, in_mm, kg_per_m3, mm};
use serde::{Deserialize, Serialize};
use thiserror::Error;
use uom::si::f64::Pressure;

/// A laminate as it stands on edge: its marked edge up, its marked face to the right, its near end in
/// front. `None` is not looked at.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Laminate {
    /// Its size across the glue lines.
    #[serde(with = "crate::quantity::si")]
    pub thickness: Length,
    /// Its size along the glue lines.
    #[serde(with = "crate::quantity::si")]
    pub width: Length,
    /// Its wood, or its colour, by a number of the maker's.
    pub wood: u32,
    /// Edgewise bend, signed.
    #[serde(with = "crate::quantity::si::known")]
    pub crook: Option<Length>,
    /// Flatwise bend, signed.
    #[serde(with = "crate::quantity::si::known")]
    pub bow: Option<Length>,
    /// Rise of the fourth corner, its hand as sign.
    #[serde(with = "crate::quantity::si::known")]
    pub twist: Option<Length>,
    /// To which side its rings lean on the near end.
    pub lean: Option<RingTilt>,
    pub ring_class: Option<RingClass>,
    /// How its grain runs on the marked face, to the far end.
    pub rise: Option<RunoutDirection>,
    pub moisture: Option<Moisture>,
    #[serde(with = "crate::quantity::si::known")]
    pub density: Option<MassDensity>,
    /// Modulus of elasticity along the grain.
    #[serde(with = "crate::quantity::si::known")]
    pub modulus: Option<Pressure>,
}

/// How a laminate is turned from how it was marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Turn {
    /// Rolled half round about its long axis: the other edge is up.
    #[serde(rename = "rolled")]
    pub turned_over: bool,
    /// Spun end for end with the same edge up: the other end is in front.
    #[serde(rename = "spun")]
    pub end_for_end: bool,
}

fn sign(turned: bool) -> f64 {
    if turned { -1.0 } else { 1.0 }
}

impl Turn {
    /// One turn after another.
    pub fn then(self, next: Turn) -> Turn {
        Turn {
            turned_over: self.turned_over != next.turned_over,
            end_for_end: self.end_for_end != next.end_for_end,
        }
    }

    /// -1 where it turns a bow round, else 1.
    pub fn of_bow(self) -> f64 {
        sign(self.turned_over != self.end_for_end)
    }

    /// -1 where it turns the lean of the rings round, else 1.
    pub fn of_lean(self) -> f64 {
        sign(self.end_for_end)
    }

    /// -1 where it turns the runout seen on the wide face round, else 1.
    pub fn of_runout(self) -> f64 {
        sign(self.turned_over != self.end_for_end)
    }
}

/// A laminate at its place in a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Placed {
    /// Which of the stock, by its place there.
    pub laminate: usize,
    pub turn: Turn,
}

/// How far a blank may be off; each counts as one at its limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct MatchLimits {
    #[serde(with = "crate::quantity::si")]
    pub crook: Length,
    #[serde(with = "crate::quantity::si")]
    pub twist: Length,
    /// From the driest to the wettest laminate.
    pub moisture_spread: Moisture,
    /// Between mirrored laminates; counts a fifth.
    #[serde(with = "crate::quantity::si")]
    pub density: MassDensity,
    /// Between mirrored laminates.
    #[serde(with = "crate::quantity::si")]
    pub thickness: Length,
    /// Between mirrored laminates, as a share of the larger; counts a fifth.
    pub modulus_share: f64,
}

impl Default for MatchLimits {
    /// Crook 0.15 mm, twist 0.2 mm, moisture 1 %, density 50 kg/m³, thickness 0.5 mm, modulus a tenth:
    /// common practice, no source. The maker's own stand before them.
    fn default() -> Self {
        Self {
            crook: mm(0.15),
            twist: mm(0.2),
            moisture_spread: Moisture::percent(1.0),
            density: kg_per_m3(50.0),
            thickness: mm(0.5),
            modulus_share: 0.1,
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MatchTarget {
    /// The wood at each place of the blank, from one side to the other; `None` for any.
    pub places: Vec<Option<u32>>,
    /// How far a blank may be off.
    pub limits: MatchLimits,
    pub proposals: usize,
    /// A difference of cost that is not worth looking for: 0 to look through all.
    pub indifferent: f64,
}

impl MatchTarget {
    /// So many laminates of any wood, five proposals, indifferent to a twentieth of a limit.
    pub fn of(laminates: usize) -> Self {
        Self {
            places: vec![None; laminates],
            limits: MatchLimits::default(),
            proposals: 5,
            indifferent: 0.05,
        }
    }
}

/// Why nothing can be matched.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum MatchError {
    /// A blank of no laminates, or of more than are reckoned with.
    #[error("a blank of {0} laminates: between 1 and {MOST_PLACES} can be matched")]
    Places(usize),
    /// Fewer laminates of the woods wanted than places.
    #[error("only {stock} laminates for {places} places, of the woods wanted")]
    TooFew {
        /// As many can be placed.
        stock: usize,
        /// As many are wanted.
        places: usize,
    },
    /// More laminates than are looked through.
    #[error("{0} laminates: up to {MOST_LAMINATES} can be looked through")]
    TooMany(usize),
    /// A laminate that is not in the stock.
    #[error("there is no laminate {0} in the stock")]
    NotThere(usize),
    /// A laminate used twice.
    #[error("laminate {0} stands at two places")]
    Twice(usize),
    /// A size that is nothing, less than nothing, or no number.
    #[error("a laminate or limit of {:.2} mm: it has to be more than nothing", in_mm(*.0))]
    Size(Length),
    /// A limit or a property that is no number, or a limit of nothing.
    #[error("a limit or a property of {0}: it has to be a number, and a limit more than nothing")]
    Number(f64),
}

/// The most laminates of a blank.
pub const MOST_PLACES: usize = 15;

pub const MOST_LAMINATES: usize = 2000;

/// How far the crook or twist left in a blank reaches towards its limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgainstLimit {
    /// 1 at the limit, with the sign of what is left.
    pub share: f64,
    /// It lies within.
    pub within: bool,
}

impl AgainstLimit {
    /// Both in mm; the limit is more than 0, as the form of the limits demands.
    pub fn of(left_mm: f64, limit_mm: f64) -> Self {
        Self {
            share: left_mm / limit_mm,
            within: left_mm.abs() <= limit_mm,
        }
    }
}

#[cfg(test)]
mod tests;
