//! Seasoning: the stages in which wood rests and how far it may move in them, when a rest is over,
//! whether wood has settled, what comes through and at what pace, plans forward and back, and how many to
//! start so that enough do.
//!
//! It reasons from days, gaps, weighings and counts that are passed in; which piece they belong to is the
//! record's business.

mod acclimatise;
mod calendar;
mod drying;
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

pub use acclimatise::{InRoom, cut_from, explain_cut_from, in_room};
pub use calendar::{CalendarDay, Published, calendar};
pub use drying::{
    AirReading, AirUncertainty, Bounded, DriedTo, Drying, DryingError, DryingFit, DryingReport,
    NEAR_ENOUGH, Weighing, air_from_witness, drying, drying_in_air, explain_drying_figure,
    fit_drying, fit_drying_in_air, mass_change_in_air, one_percent_of, smallest_change_seen,
};
pub use effective::{FamilyEffect, ShareCount};
pub use family::{
    InHand, Lot, StageShare, StartFound, StartRange, StartSearch, StartTask, Way, explain_average,
    explain_intraclass_correlation, explain_start, intraclass_correlation, planks_on_average,
};
pub use movement::{
    Change, EYE, FEELER_MM, Gap, LimitError, Movement, Warp, Warps, changes, explain_change,
    limit_over, standard_of, warps, worst,
};
pub use pace::{FEW_FOR_A_PACE, Lay, Pace, PaceError, pace};
pub use plan::{
    LatestDays, Leg, PlanPosition, SeasonPlanError, StockItem, cut_on, earliest_blanks,
    explain_ahead, explain_latest, latest_days, way_ahead,
};
pub use predictor::{
    FEWEST_TO_COMPARE, Predictor, PredictorError, PredictorSays, explain_predictor,
    rank_correlation,
};
pub use rate::{FitAtRate, RateFit, fit_held, fit_rate};
pub use rest::{
    DateKey, MeasureKey, Readiness, Ready, RestError, SOON_DAYS, begin_by, date_key, due_day,
    explain_due, explain_passed, looks_wanted, measure_key, passed_in_words, readiness,
    whole_months,
};
pub use rests::{RestLength, Rests};
pub use sawn::{Block, CutWarning, SawnOut, Stretch, cut_warnings, kerf_between, lost, sawn_out};
pub use spread::{BetaSpread, NORMAL_95, student_factor};
pub use stage::{LOOK_HOLDS_MONTHS, Limit, Stage, StageLimits, WEEKS_IN_ROOM, is_look_old};
pub use start::StartError;
pub use stress::{StressSays, fork_says, ripped_says, spring_of_part};
pub use survival::{
    Difference, StillIn, Survival, SurvivalStep, Watched, explain_difference, explain_survival,
    score_interval, share_difference, share_difference_of, share_spread_of, still_in, survival,
    survival_curve, survival_curve_of, survival_of,
};
pub use survival_error::SurvivalError;
