//! What is weighed and what is read of the air, what is refused of it, and the least change that a scale shows.

use crate::quantity::{Mass, Moisture, in_kg, is_positive, kg};
use thiserror::Error;

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighing {
    /// Days since any fixed day.
    pub day: f64,
    /// What the piece weighed.
    pub mass: Mass,
    /// The equilibrium moisture content of the air that it lay in by then.
    pub air: Moisture,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirReading {
    /// Days since the same day as the weighings'.
    pub day: f64,
    pub air: Moisture,
}

/// Why nothing can be said of a series of weighings.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum DryingError {
    /// No weight, or none that is a number.
    #[error("a weight of {:.3} kg: it has to be more than nothing", in_kg(*.0))]
    Mass(Mass),
    #[error("a scale that is good to {:.4} kg: it has to be more than nothing", in_kg(*.0))]
    Scale(Mass),
    /// A day that is not after the one before.
    #[error("the weighing of day {0} does not come after the one before it")]
    Order(f64),
    /// An equilibrium that no air keeps wood at.
    #[error("air that keeps wood at {percent} %: between 0 and 30 % was expected")]
    Air {
        /// As given, %.
        percent: f64,
    },
    #[error("nothing was weighed yet")]
    Nothing,
    /// No curve could be laid through the weighings.
    #[error("no curve can be laid through {0} weighings")]
    NoFit(usize),
}

/// The least change between two readings that is more than the scale's doubt: 2 sqrt(2) u, u = h/sqrt(3)
/// for readings that may be off by h either way.
///
/// JCGM 100:2008, 4.3.7 and 5.1.2, with coverage factor 2 (from memory).
///
/// No published value: one division by the piece's own percent.
pub fn smallest_change_seen(scale: Mass) -> Result<Mass, DryingError> {
    if is_positive(scale.value) {
        Ok(scale * (2.0 * (2.0_f64 / 3.0).sqrt()))
    } else {
        Err(DryingError::Scale(scale))
    }
}

pub(super) fn weight(mass: Mass) -> Result<Mass, DryingError> {
    if is_positive(mass.value) {
        Ok(mass)
    } else {
        Err(DryingError::Mass(mass))
    }
}

pub(super) fn air_percent(air: Moisture) -> Result<f64, DryingError> {
    let percent = air.in_percent();
    if (0.0..=30.0).contains(&percent) {
        Ok(percent)
    } else {
        Err(DryingError::Air { percent })
    }
}

/// Weights, days and air that make sense.
pub(super) fn check(weighings: &[Weighing], scale: Mass) -> Result<(), DryingError> {
    smallest_change_seen(scale)?;
    let mut before = f64::NEG_INFINITY;
    for one in weighings {
        weight(one.mass)?;
        air_percent(one.air)?;
        if !(one.day > before && one.day.is_finite()) {
            return Err(DryingError::Order(one.day));
        }
        before = one.day;
    }
    Ok(())
}

pub(super) fn grams(mass: Mass) -> f64 {
    1000.0 * in_kg(mass)
}

pub(super) fn from_grams(grams: f64) -> Mass {
    kg(grams / 1000.0)
}
