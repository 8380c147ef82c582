//! Why no number of planks to start can be given.

use super::survival_error::SurvivalError;
use thiserror::Error;

/// Why no number can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum StartError {
    /// A share outside 0 to 1, or of nothing.
    #[error("a share of {0} coming through: it has to be over 0 and at most 1")]
    Share(f64),
    /// A confidence outside 0 to 1, or certainty.
    #[error("a confidence of {0}: it has to be over 0 and under 1")]
    Confidence(f64),
    /// A likeness outside 0 to 1, or of all or none.
    #[error("a family effect of {0}: it has to be at least 0 and under 1")]
    IntraclassCorrelation(f64),
    /// Planks or blanks of no parts.
    #[error("a plank or a blank of no parts: it has to have at least one")]
    NoParts,
    /// Counts that can't be.
    #[error(transparent)]
    Counts(#[from] SurvivalError),
    /// More than can be reckoned, with the most.
    #[error("more than {0} laminates: that is beyond what is reckoned here")]
    TooMany(u32),
}
