//! Seasoning: the stages in which wood rests and how far it may move in them, when a rest is over, plans
//! forward and back, and how many pieces to start so that enough come through.
//!
//! It reasons from days, gaps and shares; which piece they belong to is the record's business.

mod calendar;
mod movement;
mod plan;
mod rest;
mod sawn;
mod stage;
mod start;

pub use calendar::{CalendarDay, calendar};
pub use movement::{
    Change, EYE, FEELER_MM, Gap, LimitError, Movement, Warp, Warps, changes, limit_over,
    standard_of, warps, worst,
};
pub use plan::{Held, LatestDays, LeastRests, PlanError, Standing, earliest_blanks, latest_days};
pub use rest::{
    DateKey, MeasureKey, Readiness, RestError, SOON_DAYS, begin_by, date_key, due_day, measure_key,
    readiness,
};
pub use sawn::{Block, CutDoubt, SawnOut, Stretch, cut_doubts, kerf_between, sawn_out};
pub use stage::{Limit, Stage, StageTerms};
pub use start::{StartError, StillNeeded, chance_of_at_least, how_many_to_start, still_needed};
