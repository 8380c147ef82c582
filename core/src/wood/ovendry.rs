//! Moisture from weighing: the oven-dry mass, what wood weighs at another moisture, what it gains and loses.
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
    /// No wood holds so much, or less than none.
    #[error("{percent:.1} % is not a moisture content of wood")]
    NotAMoisture {
        /// As given, %.
        percent: f64,
    },
}

/// More than the lightest wood can hold, %: balsa of basic specific gravity 0.1 holds about 935.
const SOAKED: f64 = 1000.0;

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

/// Oven-dry mass from mass and moisture: `m0 = m/(1 + M/100)`. An error for a mass of nothing or what is
/// no moisture of wood (0 to 1000 %).
///
/// The definition turned round, see [`moisture_from_ovendry`].
///
/// Derived here: `moisture_from_ovendry` turned round.
///
/// No published value: the definition turned round, held by `mass_at`, which has a row.
pub fn ovendry_mass(mass: Mass, at: Moisture) -> Result<Mass, OvenDryError> {
    Ok(positive(mass)? / (1.0 + moisture(at)?))
}

/// Mass at another moisture: `m' = m (1 + M'/100)/(1 + M/100)`. Range as [`ovendry_mass`].
///
/// ```
/// use stillwood_core::{quantity::{Moisture, in_kg, kg}, wood::mass_at};
/// let home = mass_at(kg(19.7), Moisture::percent(11.6), Moisture::percent(8.5)).unwrap();
/// assert!((in_kg(home) - 19.15).abs() < 0.01);
/// ```
///
/// Derived here: the definition at two moistures.
pub fn mass_at(mass: Mass, from: Moisture, to: Moisture) -> Result<Mass, OvenDryError> {
    Ok(ovendry_mass(mass, from)? * (1.0 + moisture(to)?))
}

fn positive(mass: Mass) -> Result<Mass, OvenDryError> {
    if is_positive(mass.value) {
        Ok(mass)
    } else {
        Err(OvenDryError::NotPositive(mass))
    }
}

/// As a plain fraction.
fn moisture(at: Moisture) -> Result<f64, OvenDryError> {
    let percent = at.in_percent();
    if (0.0..=SOAKED).contains(&percent) {
        Ok(at.fraction())
    } else {
        Err(OvenDryError::NotAMoisture { percent })
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
        assert!(ovendry_mass(kg(1.0), Moisture::percent(-1.0)).is_err());
        assert!(ovendry_mass(kg(1.0), Moisture::percent(f64::NAN)).is_err());
    }

    proptest! {
        // Dried in the oven, whatever it weighed, it gives its moisture back; and any way round is the same.
        #[test]
        fn the_moisture_comes_back(m in 0.01..50.0f64, first in 0.0..200.0f64, then in 0.0..200.0f64) {
            let at = Moisture::percent;
            let dry = ovendry_mass(kg(m), at(first)).unwrap();
            let back = moisture_from_ovendry(&mut TraceOff, kg(m), dry * (1.0 - 1e-15)).unwrap();
            prop_assert!((back.in_percent() - first).abs() < 1e-9);
            let there = mass_at(kg(m), at(first), at(then)).unwrap();
            let home = mass_at(there, at(then), at(first)).unwrap();
            prop_assert!((in_kg(home) - m).abs() < 1e-12 * m.max(1.0));
        }
    }
}
