//! Moisture from weighing as it is and oven-dry.
//!
//! It never says how the water is spread inside, nor how long it takes to move.

use crate::quantity::{Mass, Moisture, Trace, formula, in_kg, is_positive};
use thiserror::Error;

/// Why nothing can be told from a weighing.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum OvenDryError {
    /// No weight at all, or no number.
    #[error("a mass of {:.3} kg: it has to be more than nothing", in_kg(*.0))]
    NotPositive(Mass),
    #[error("{:.3} kg is lighter than its oven-dry mass of {:.3} kg: were the two mixed up?", in_kg(*.wet), in_kg(*.dry))]
    LighterThanDry { wet: Mass, dry: Mass },
}

/// Moisture content by oven-drying: `M = 100 (m - m0)/m0`, in %.
///
/// m is the mass as it was, m0 the oven-dry mass. An error where m is less than m0 or either is nothing.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-1 (its number from memory, the definition read in
/// many places); ASTM D4442.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{quantity::kg, wood::moisture_from_ovendry};
/// let found = moisture_from_ovendry(&mut TraceOff, kg(0.136), kg(0.100)).unwrap();
/// assert!((found.in_percent() - 36.0).abs() < 1e-9);
/// ```
pub fn moisture_from_ovendry(
    trace: &mut impl Trace,
    wet: Mass,
    dry: Mass,
) -> Result<Moisture, OvenDryError> {
    let (wet, dry) = (positive(wet)?, positive(dry)?);
    if wet < dry {
        return Err(OvenDryError::LighterThanDry { wet, dry });
    }
    Ok(Moisture::percent(
        trace.work(&OVENDRY, [in_kg(wet), in_kg(dry)]),
    ))
}

formula! {
    /// Moisture content by oven-drying.
    OVENDRY: "Moisture by oven-drying", "M", "%";
    m: "m", "as it was", "kg";
    dry: "m₀", "oven-dry", "kg";
    = 100.0 * (m - dry) / dry;
    range "dried at 103 °C until it loses no more";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-1 (its number from memory); ASTM D4442";
}

fn positive(mass: Mass) -> Result<Mass, OvenDryError> {
    if is_positive(mass.value) {
        Ok(mass)
    } else {
        Err(OvenDryError::NotPositive(mass))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use crate::quantity::kg;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_weighing_is_refused() {
        assert_eq!(
            moisture_from_ovendry(&mut TraceOff, kg(0.1), kg(0.136))
                .unwrap_err()
                .to_string(),
            "0.100 kg is lighter than its oven-dry mass of 0.136 kg: were the two mixed up?"
        );
        assert!(moisture_from_ovendry(&mut TraceOff, kg(0.1), kg(0.0)).is_err());
        assert!(moisture_from_ovendry(&mut TraceOff, kg(f64::NAN), kg(0.1)).is_err());
    }

    proptest! {
        // Dried in the oven, whatever it weighed, it gives its moisture back.
        #[test]
        fn the_moisture_comes_back(m in 0.01..50.0f64, moisture in 0.0..200.0f64) {
            let dry = m / (1.0 + moisture / 100.0) * (1.0 - 1e-15);
            let back = moisture_from_ovendry(&mut TraceOff, kg(m), kg(dry)).unwrap();
            prop_assert!((back.in_percent() - moisture).abs() < 1e-9);
        }
    }
}
