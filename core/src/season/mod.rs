//! Seasoning: how many pieces to start, so that enough come through.
//!
//! It reasons from shares that come through; where those come from is not its business.

mod start;

pub use start::{StartError, StillNeeded, chance_of_at_least, how_many_to_start, still_needed};
