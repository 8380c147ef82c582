//! The air's equilibrium by a witness stick that lies beside the wood.

use super::weighing::{DryingError, air_percent, grams, weight};
use crate::quantity::{Mass, Moisture, Trace, formula};

/// The air's equilibrium from a long-seasoned witness piece beside the wood:
/// E = (100 + E1) m/m1 - 100, in %.
///
/// m1 is what the witness weighed in air of the equilibrium E1 in %, m what it weighs now. The witness
/// is taken to keep up with its air. An error for no mass, or a moisture outside 0 to 30 %. Derived here
/// from the definition of moisture content.
///
/// No published value: one subtraction of moistures.
pub fn air_from_witness(
    trace: &mut impl Trace,
    first: Mass,
    first_air: Moisture,
    now: Mass,
) -> Result<Moisture, DryingError> {
    let at = air_percent(first_air)?;
    let values = [at, grams(weight(now)?), grams(weight(first)?)];
    let found = Moisture::percent(trace.work(&BY_STICK, values));
    air_percent(found).map(|_| found)
}

formula! {
    /// The equilibrium by a witness stick.
    BY_STICK: "Wood settles at, by the stick", "E", "%";
    at: "E₁", "equilibrium of the air when it was weighed first, by the hygrometer", "%";
    now: "m", "what the stick weighs now", "g";
    first: "m₁", "what it weighed first", "g";
    = (100.0 + at) * (now / first) - 100.0;
    range "moistures from 0 to 30 %, a stick that keeps up with its air";
    source "Derived here from the definition of moisture content";
}
