//! Stiffness along the grain from the note of a bar, the speed of sound, and what sloping grain leaves of strength.
//!
//! It computes from what was measured. Ringing a bar gives more than bending it, and no value is turned into another.

mod grain;
mod resonance;

pub use grain::strength_tested;
pub use resonance::{
    SpecificStiffness, sound_along, specific_stiffness, speed_of_sound, stiffness_from_sound,
};

use crate::quantity::is_positive;
use thiserror::Error;

/// Why no stiffness can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum StiffnessError {
    /// A measurement that is nothing, less than nothing, or no number.
    #[error("{what} of {value}: it has to be more than nothing")]
    NotPositive {
        what: &'static str,
        /// As given, in the unit of its name.
        value: f64,
    },
    /// Outside the range of the source.
    #[error("{what} of {value}: it lies between {low} and {high}")]
    OutOfRange {
        what: &'static str,
        /// As given.
        value: f64,
        /// The least that the formula takes.
        low: f64,
        /// The most.
        high: f64,
    },
}

fn positive(what: &'static str, value: f64) -> Result<f64, StiffnessError> {
    if is_positive(value) {
        Ok(value)
    } else {
        Err(StiffnessError::NotPositive { what, value })
    }
}

fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<f64, StiffnessError> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(StiffnessError::OutOfRange {
            what,
            value,
            low,
            high,
        })
    }
}
