//! Seasoning: whether wood has settled, what comes through, and how many to start, so that enough do.
//!
//! It reasons from weighings and counts that are passed in; where those come from is not its business.

mod cue;
mod drying;
mod family;
mod rate;
mod spread;
mod start;
mod survival;

pub use cue::{Cue, CueError, CueSays, rank_correlation};
pub use drying::{
    Bounded, Drying, DryingError, DryingFit, DryingReport, NEAR_ENOUGH, Weighing, air_from_witness,
    drying, fit_drying, mass_change_in_air, one_percent_of, smallest_change_seen,
};
pub use family::{
    InHand, Lot, PlanksToStart, StageShare, Way, blanks_on_average, chance_of_blanks,
    likeness_of_planks, planks_to_start,
};
pub use rate::{HeldFit, RateFit, fit_held, fit_rate};
pub use spread::{BetaSpread, NORMAL_95, student_factor};
pub use start::{StartError, StillNeeded, chance_of_at_least, how_many_to_start, still_needed};
pub use survival::{
    Difference, Survival, SurvivalError, SurvivalStep, Watched, score_interval, share_difference,
    share_spread, survival, survival_curve,
};
