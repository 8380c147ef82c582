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
pub enum RingTilt {
    /// They rise to the left.
    Left,
    /// Neither: they stand square to the wide face, or along it.
    Neither,
    /// They rise to the right, to the marked face.
    Right,
}

impl RingTilt {
    pub const ALL: [RingTilt; 3] = [RingTilt::Left, RingTilt::Neither, RingTilt::Right];

    /// -1 to the left, 1 to the right, 0 for neither.
    pub fn sign(self) -> f64 {
        match self {
            RingTilt::Left => -1.0,
            RingTilt::Neither => 0.0,
            RingTilt::Right => 1.0,
        }
    }

    /// To the other side: as seen from the far end.
    pub fn other_way(self) -> Self {
        match self {
            RingTilt::Left => RingTilt::Right,
            RingTilt::Neither => RingTilt::Neither,
            RingTilt::Right => RingTilt::Left,
        }
    }

    pub fn in_words(self) -> &'static str {
        match self {
            RingTilt::Left => "rings rise to the left",
            RingTilt::Neither => "rings square",
            RingTilt::Right => "rings rise to the right",
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
pub enum RunoutDirection {
    /// Away from the marked edge.
    Falls,
    /// Along the edges: it does not run out.
    Along,
    /// Towards the marked edge.
    Rises,
}

impl RunoutDirection {
    /// All of them, from falling to rising.
    pub const ALL: [RunoutDirection; 3] = [
        RunoutDirection::Falls,
        RunoutDirection::Along,
        RunoutDirection::Rises,
    ];

    /// -1 where it falls, 1 where it rises, 0 along the edges.
    pub fn sign(self) -> f64 {
        match self {
            RunoutDirection::Falls => -1.0,
            RunoutDirection::Along => 0.0,
            RunoutDirection::Rises => 1.0,
        }
    }

    pub fn in_words(self) -> &'static str {
        match self {
            RunoutDirection::Falls => "grain falls to the far end",
            RunoutDirection::Along => "grain runs along",
            RunoutDirection::Rises => "grain rises to the far end",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_are_signed_and_the_far_end_mirrors_them() {
        assert_eq!(RingTilt::ALL.map(RingTilt::sign), [-1.0, 0.0, 1.0]);
        assert_eq!(
            RunoutDirection::ALL.map(RunoutDirection::sign),
            [-1.0, 0.0, 1.0]
        );
        for lean in RingTilt::ALL {
            assert_eq!(lean.other_way().sign(), -lean.sign());
            assert_eq!(lean.other_way().other_way(), lean);
        }
    }
}
