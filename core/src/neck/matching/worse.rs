//! Why a set of laminates is worse than another.

use super::{Judged, MatchLimits, MatchWarning};

/// What makes a set worse than another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorseBy {
    /// Moistures are too far apart.
    Moisture,
    /// Flatsawn, rift and quartersawn are mixed.
    RingClasses,
    /// A wood is not mirrored about the middle.
    Wood,
    Crook,
    Twist,
    /// Less was measured.
    NotMeasured,
    /// More grain runs out against the rest.
    Grain,
    /// Mirrored laminates are less alike.
    Pairs,
}

impl Judged {
    /// What adds most to its cost over that of another set; `None` where it costs no more.
    pub fn worse_by(&self, other: &Judged, within: &MatchLimits) -> Option<WorseBy> {
        let more = self.cost - other.cost;
        if more <= ALIKE {
            return None;
        }
        let crook = (self.mean_crook.abs() - other.mean_crook.abs()) / within.crook;
        let twist = (self.mean_twist.abs() - other.mean_twist.abs()) / within.twist;
        let (crook, twist) = (crook.value, twist.value);
        let rest = more - crook - twist;
        Some(if rest >= crook.max(twist) {
            self.worse_beside_shape(other)
        } else if crook >= twist {
            WorseBy::Crook
        } else {
            WorseBy::Twist
        })
    }

    /// What adds most beside crook and twist: a warning does, then what was not measured, then grain and unlike pairs.
    fn worse_beside_shape(&self, other: &Judged) -> WorseBy {
        let of = |judged: &Judged, what: fn(&MatchWarning) -> usize| -> usize {
            judged.warnings.iter().map(what).sum()
        };
        let first = ORDER
            .into_iter()
            .find(|(what, _)| of(self, *what) > of(other, *what));
        first.map_or(WorseBy::Pairs, |(_, by)| by)
    }
}

/// How much there is of what is warned of, and what that makes a set worse by.
type Counted = (fn(&MatchWarning) -> usize, WorseBy);

const ORDER: [Counted; 5] = [
    (
        |one| usize::from(matches!(one, MatchWarning::MoistureSpread(_))),
        WorseBy::Moisture,
    ),
    (
        |one| usize::from(matches!(one, MatchWarning::MixedRingClasses)),
        WorseBy::RingClasses,
    ),
    (
        |one| usize::from(matches!(one, MatchWarning::WoodNotMirrored)),
        WorseBy::Wood,
    ),
    (
        |one| match one {
            MatchWarning::NotMeasured {
                crook,
                twist,
                moisture,
            } => crook + twist + moisture,
            _ => 0,
        },
        WorseBy::NotMeasured,
    ),
    (
        |one| match one {
            MatchWarning::RunoutBothWays(n) => *n,
            _ => 0,
        },
        WorseBy::Grain,
    ),
];

/// Costs no further apart than this, in limits, are the same.
const ALIKE: f64 = 1e-9;
