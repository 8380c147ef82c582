//! The verdict on a plank: a spec for a purpose, each criterion's margin, the score, and the call.
//!
//! The weakest criterion rules: good density never buys off bad runout. What was not looked at is left
//! out and said so. Nothing here decides for the maker.

mod body;
mod candidate;
mod desirability;
mod guard;
mod judge;
mod known;
mod look;
mod qualities;
mod quality;
mod ready;
mod ruling;
mod sheet;
mod spec;
mod supplied;
mod worked;

pub use desirability::geometric_mean;
pub use guard::{GUARD_FACTOR, Standing, conformance_probability, normal_cdf, standing};
pub use judge::{Scored, Unscored, Verdict, judge, reason_for_fault};
pub use known::{Bound, Known, Unworkable};
pub use quality::{moisture, parts_held, slab_in_part};
pub use ready::{ReadyPlank, ReadySpec};
pub use ruling::{Call, Ruling};
pub use sheet::{Figure, RingsAcross, RingsSeen, Sheet, sheet};
pub use spec::{Criterion, Form, Laid, Order, Part, Purpose, Quality, Spec};
pub use worked::{Number, working};
