//! What 1 % of moisture weighs in a piece, and what a piece gains as its air grows damper.

use super::weighing::{DryingError, air_percent, from_grams, grams, weight};
use crate::quantity::{Mass, Moisture, Trace, TraceOff, formula};

/// What 1 % of moisture weighs in a piece: m/(100 + M).
///
/// m is its mass at the moisture M in %, 0 to 30; a hundredth of its dry mass. An error outside, or for
/// no mass. The definition of moisture content turned round.
pub fn one_percent_of(mass: Mass, at: Moisture) -> Result<Mass, DryingError> {
    one_percent(&mut TraceOff, mass, at)
}

formula! {
    /// What 1 % of moisture weighs.
    ONE_PERCENT: "1 % of moisture weighs", "m₁", "g";
    m: "m", "mass of the piece", "g";
    at: "M", "its moisture", "%";
    = m / (100.0 + at);
    range "a moisture from 0 to 30 %";
    source "the definition of moisture content turned round";
}

pub(super) fn one_percent(
    trace: &mut impl Trace,
    mass: Mass,
    at: Moisture,
) -> Result<Mass, DryingError> {
    let values = [grams(weight(mass)?), air_percent(at)?];
    Ok(from_grams(trace.work(&ONE_PERCENT, values)))
}

/// What a piece that keeps up with its air gains as the air's equilibrium goes from M1 to M2:
/// m (M2 - M1)/(100 + M1).
///
/// m is its mass at M1, both moistures in %, 0 to 30; less than nothing in drier air. An error outside,
/// or for no mass. The definition of moisture content turned round.
///
/// ```
/// use stillwood_core::{quantity::{Moisture, in_kg, kg}, season::mass_change_in_air};
/// // From 40 to 55 % relative humidity.
/// let gained = mass_change_in_air(kg(3.2), Moisture::percent(7.7), Moisture::percent(10.1));
/// assert!((in_kg(gained.unwrap()) - 0.071).abs() < 0.0005);
/// ```
pub fn mass_change_in_air(mass: Mass, from: Moisture, to: Moisture) -> Result<Mass, DryingError> {
    Ok(one_percent_of(mass, from)? * (air_percent(to)? - from.in_percent()))
}
