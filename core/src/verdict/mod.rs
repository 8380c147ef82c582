//! The verdict on a plank: a spec for a purpose, each criterion's margin, the score, and the call.
//!
//! The weakest criterion rules: good density never buys off bad runout. What was not looked at is left
//! out and said so. Nothing here decides for the maker.

mod spec;

pub use spec::{Criterion, Form, Laid, Order, Part, Purpose, Quality, Spec};
