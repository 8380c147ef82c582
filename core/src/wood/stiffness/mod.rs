//! Stiffness along the grain: from the note of a bar, from how far it bends, carried to another moisture,
//! and what sloping grain leaves of it.
//!
//! It computes from what was measured. Ringing a bar gives more than bending it, and no value is turned into another.

mod bending;
mod damping;
mod grain;
mod moisture;
mod resonance;

pub use bending::stiffness_from_bending;
pub use damping::{
    Decrement, LossTangent, decrement_from_decay, loss_tangent, loss_tangent_from_bandwidth,
};
pub use grain::{
    Strength, hankinson, stiffness_on_the_slope, strength_on_the_slope, strength_tested,
};
pub use moisture::{INTERSECTION, property_at_moisture, stiffness_by_rule, stiffness_to_12};
pub use resonance::{
    Bar, NODE_SHARE, isotropic_correction, shear_correction, slender_correction, sound_along,
    specific_stiffness, speed_of_sound, stiffness_from_flexural, stiffness_from_longitudinal,
    stiffness_from_sound,
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
    /// A bar too stout for the formula.
    #[error(
        "a bar {ratio:.1} times as long as it is thick: the formula holds from {least:.0} times"
    )]
    TooStout {
        /// Length over thickness.
        ratio: f64,
        /// From where the formula holds.
        least: f64,
    },
    #[error("bent by {share:.3} of the span: the formula holds up to a twentieth")]
    BentTooFar {
        /// Deflection over span.
        share: f64,
    },
    /// A ratio that no bar has.
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
    /// A moisture that the formula does not reach.
    #[error(
        "{percent:.1} %: stiffness can be carried over only between 6 and {high:.0} % moisture"
    )]
    Moisture {
        /// As given, %.
        percent: f64,
        /// The upper end.
        high: f64,
    },
}

/// Stiffness for its weight: modulus of elasticity over density.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct SpecificStiffness(f64);

impl SpecificStiffness {
    /// In MN m/kg, which is GPa over g/cm³: hard maple has 17.9.
    pub const fn in_mn_m_per_kg(self) -> f64 {
        self.0
    }
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
