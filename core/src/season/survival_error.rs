//! Why counts of what came through say nothing.

use thiserror::Error;

/// Why nothing can be said of the counts.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SurvivalError {
    /// More came through than there were.
    #[error("{through} came through of {of}: there can't be more than there were")]
    MoreThanAll {
        /// Came through.
        through: u32,
        /// Of so many.
        of: u32,
    },
    #[error("none was seen yet")]
    None,
    /// More than can be reckoned.
    #[error("{0} pieces: that is beyond what is reckoned here")]
    TooMany(u32),
    /// Pieces that count as none, or as more than they are.
    #[error("pieces that count as {0}: it has to be over 0 and no more than they are")]
    CountsAs(f64),
    /// A time that is less than nothing, or no number.
    #[error("a time of {0}: it has to be a number, and not less than nothing")]
    Time(f64),
}
