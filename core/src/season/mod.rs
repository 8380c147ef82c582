//! Seasoning: the stages in which wood rests and how far it may move in them, when a rest is over,
//! whether wood has settled, what comes through and at what pace, plans forward and back, and how many to
//! start so that enough do.
//!
//! It reasons from days, gaps, weighings and counts that are passed in; which piece they belong to is the
//! record's business.

mod acclimatise;
mod calendar;
mod drying;
mod drying_time;
mod effective;
mod family;
mod movement;
mod pace;
mod plan;
mod predictor;
mod rate;
mod rest;
mod rests;
mod sawn;
mod spread;
mod stage;
mod start;
mod stress;
mod survival;
mod survival_error;

pub use acclimatise::{InRoom, cut_from, cut_from_told, in_room};
pub use calendar::{CalendarDay, Published, calendar};
pub use drying::{
    AirReading, AirUncertainty, Bounded, DriedTo, Drying, DryingError, DryingFit, DryingReport,
    NEAR_ENOUGH, Weighing, air_from_witness, air_from_witness_worked, drying, drying_in_air,
    drying_told, fit_drying, fit_drying_in_air, mass_change_in_air, one_percent_of,
    smallest_change_seen,
};
pub use drying_time::{DryingTimeError, red_oak_drying_days};
pub use effective::ShareCount;
pub use family::{
    InHand, Lot, PlanksToStart, StageShare, StartRange, Way, average_told, blanks_on_average,
    chance_by_planks, chance_of_blanks, intraclass_correlation, intraclass_correlation_told,
    planks_on_average, planks_to_start, start_range, start_told,
};
pub use movement::{
    Change, EYE, FEELER_MM, Gap, LimitError, Movement, Warp, Warps, change_told, changes,
    limit_over, standard_of, warps, worst,
};
pub use pace::{FEW_FOR_A_PACE, Lay, Pace, PaceError, pace};
pub use plan::{
    LatestDays, Leg, PlanError, PlanPosition, StockItem, ahead_told, earliest_blanks, latest_days,
    latest_told, way_ahead,
};
pub use predictor::{Predictor, PredictorError, PredictorSays, predictor_told, rank_correlation};
pub use rate::{HeldFit, RateFit, fit_held, fit_rate};
pub use rest::{
    DateKey, MeasureKey, Readiness, Ready, RestError, SOON_DAYS, begin_by, date_key, due_day,
    due_told, measure_key, passed_in_words, passed_told, readiness, whole_months,
};
pub use rests::{RestLength, Rests};
pub use sawn::{
    Block, CutWarning, SawnOut, Stretch, cut_warnings, kerf_between, lost_worked, sawn_out,
};
pub use spread::{BetaSpread, NORMAL_95, student_factor};
pub use stage::{Limit, Stage, StageLimits, WEEKS_IN_ROOM};
pub use start::{StartError, chance_of_at_least, how_many_to_start};
pub use stress::{StressSays, fork_says, ripped_says, spring_of_strip, spring_of_strip_worked};
pub use survival::{
    Difference, StillIn, Survival, SurvivalStep, Watched, score_interval, share_difference,
    share_spread, share_spread_of, still_in, survival, survival_curve, survival_of, survival_told,
};
pub use survival_error::SurvivalError;
