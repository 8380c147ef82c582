//! Which way the rings of a laminate lean and its grain runs, as it is looked at: on edge, the marked edge
//! up, the marked face to the right, the near end in front. So it stood in its plank at the saw.
//!
//! Sides only: how steep is told by an angle and a slope beside them. A side that was not looked at is
//! never made up.

use serde::{Deserialize, Serialize};

/// To which side the rings lean on the near end: the side to which they rise.
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
pub enum RingLean {
    /// They rise to the left.
    Left,
    /// Neither: they stand square to the wide face, or along it.
    Neither,
    /// They rise to the right, to the marked face.
    Right,
}

impl RingLean {
    /// All of them, from left to right.
    pub const ALL: [RingLean; 3] = [RingLean::Left, RingLean::Neither, RingLean::Right];

    /// -1 to the left, 1 to the right, 0 for neither.
    pub fn sign(self) -> f64 {
        match self {
            RingLean::Left => -1.0,
            RingLean::Neither => 0.0,
            RingLean::Right => 1.0,
        }
    }

    /// To the other side: as seen from the far end.
    pub fn other_way(self) -> Self {
        match self {
            RingLean::Left => RingLean::Right,
            RingLean::Neither => RingLean::Neither,
            RingLean::Right => RingLean::Left,
        }
    }

    /// In words.
    pub fn in_words(self) -> &'static str {
        match self {
            RingLean::Left => "rings rise to the left",
            RingLean::Neither => "rings square",
            RingLean::Right => "rings rise to the right",
        }
    }
}

/// How the grain runs on the marked face, from the near end to the far end.
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
pub enum GrainRise {
    /// Away from the marked edge.
    Falls,
    /// Along the edges: it does not run out.
    Along,
    /// Towards the marked edge.
    Rises,
}

impl GrainRise {
    /// All of them, from falling to rising.
    pub const ALL: [GrainRise; 3] = [GrainRise::Falls, GrainRise::Along, GrainRise::Rises];

    /// -1 where it falls, 1 where it rises, 0 along the edges.
    pub fn sign(self) -> f64 {
        match self {
            GrainRise::Falls => -1.0,
            GrainRise::Along => 0.0,
            GrainRise::Rises => 1.0,
        }
    }

    /// In words.
    pub fn in_words(self) -> &'static str {
        match self {
            GrainRise::Falls => "grain falls to the far end",
            GrainRise::Along => "grain runs along",
            GrainRise::Rises => "grain rises to the far end",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_are_signed_and_the_far_end_mirrors_them() {
        assert_eq!(RingLean::ALL.map(RingLean::sign), [-1.0, 0.0, 1.0]);
        assert_eq!(GrainRise::ALL.map(GrainRise::sign), [-1.0, 0.0, 1.0]);
        for lean in RingLean::ALL {
            assert_eq!(lean.other_way().sign(), -lean.sign());
            assert_eq!(lean.other_way().other_way(), lean);
        }
    }
}
