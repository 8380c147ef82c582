//! The decision that is proposed for a plank; the maker decides.

use crate::record::log::Decision;
use crate::verdict::Recommendation;

/// What the evaluation proposes; nothing where it is too close to call, or where nothing was judged yet.
pub fn proposal(recommendation: Recommendation) -> Option<Decision> {
    match recommendation {
        Recommendation::Good | Recommendation::GoodSoFar => Some(Decision::Take),
        Recommendation::Refused => Some(Decision::Leave),
        Recommendation::TooClose | Recommendation::NothingYet => None,
    }
}
