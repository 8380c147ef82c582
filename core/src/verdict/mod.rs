//! The verdict on a plank: a spec for a purpose, each criterion's margin, the score, and what to recommend.
//!
//! The weakest criterion decides: good density never buys off bad runout. What was not looked at is left
//! out and said so. Nothing here decides for the maker.

mod advice;
mod criterion;
mod desirability;
mod evaluate;
mod explain;
mod looked_at;
mod plank_under_spec;
mod reasons;
mod score;
mod sheet;
mod spec;
pub(crate) mod supplied;
mod value;

pub use advice::Advice;
pub use criterion::{Criterion, parts_in_words};
pub use desirability::geometric_mean;
pub use evaluate::{Evaluation, Recommendation, evaluate};
pub use explain::{Number, working};
pub use looked_at::{LookedAt, looked_at};
pub use plank_under_spec::{CountedSlab, SlabCounted, moisture, parts_held};
pub use reasons::reason_for_defect;
pub use score::{CriterionEvaluation, CriterionScore, Unscored};
pub use sheet::{Figure, RingsAcross, RingsSeen, Sheet, SlabCutOtherwise, sheet};
pub use spec::{FirstCut, Form, Order, Orientation, Part, Purpose, Requirement, Spec};
pub use value::{Bound, CriterionValue, Unworkable};
