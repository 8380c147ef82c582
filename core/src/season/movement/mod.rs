//! How far a piece has moved since it was last machined flat, and where that stands against the limit of
//! its stage.
//!
//! Signs are kept: a hollow that changed sides moved by the sum of both. Where a side was not noted both
//! are tried, and only what holds for both is said. It never calls still what was not measured.

mod change;
mod explain;
mod formulas;
mod limit;
mod shape;

pub use change::{Change, Movement, changes, worst};
pub use explain::explain_change;
pub use limit::{LimitError, limit_over};
pub use shape::{EYE, FEELER_MM, Gap, Warp, Warps, standard_of, warps};

#[cfg(test)]
mod tests;
