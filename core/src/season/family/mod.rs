//! How many planks to start, so that enough blanks come of them through every stage that is left.
//!
//! Planks fail as families: what comes of one plank is alike, and stages known from few pieces are known
//! badly. Both make the answer larger. It reckons the chances exactly for given shares, and goes through
//! what the shares may be at fixed places; it draws no random number.

mod average;
mod chance;
mod explain;
mod intraclass;
mod range;
mod search;
mod way;

pub use average::planks_on_average;
pub use explain::{explain_average, explain_start};
pub use intraclass::{explain_intraclass_correlation, intraclass_correlation};
pub use range::StartRange;
pub use search::{StartFound, StartSearch, StartTask};
pub use way::{InHand, Lot, StageShare, Way};

#[cfg(test)]
mod tests;
