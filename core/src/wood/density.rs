//! Density and specific gravity at different moisture contents. It computes from what was weighed and
//! measured; it never replaces a measured value by a formula.
//!
//! Two quantities are both called "specific gravity at 12 %" in trade texts. Here specific gravity is
//! always the **oven-dry** mass over the volume at a stated moisture, over the density of water: G of
//! hard maple at 12 % is 0.63. Density is mass **and** volume at one moisture: 706 kg/m³.

use crate::quantity::{MassDensity, Moisture, Trace, TraceOff, formula, in_kg_per_m3, kg_per_m3};
use thiserror::Error;

/// Moisture at which shrinking begins, taken as 30 % where a wood's own is not known. Wood Handbook,
/// FPL-GTR-282 (2021), equation 4-9 (read in a transcription).
pub const FIBRE_SATURATION: Moisture = Moisture::percent(30.0);

/// Specific gravity of the cell wall as equation 4-3 has it.
const CELL_WALL: f64 = 1.54;

/// Why no density or specific gravity can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum DensityError {
    /// Above fibre saturation: how much of the weight is water is not known.
    #[error("wood at {percent:.0} % is too wet: density can be carried over only below 30 %")]
    TooWet {
        /// As given, %.
        percent: f64,
    },
    #[error("{percent} % is not a moisture content")]
    NotAMoisture {
        /// As given, %.
        percent: f64,
    },
    /// Heavier than solid cell wall, or no weight at all.
    #[error(
        "specific gravity {value:.2} is not that of wood: solid cell wall, the heaviest it could be, is 1.54"
    )]
    NotWood {
        /// The specific gravity that follows from what was given.
        value: f64,
    },
}

/// Density at 12 % of wood weighed and measured at another moisture: [`density_at`] with 12 %.
pub fn density_at_12(measured: MassDensity, at: Moisture) -> Result<MassDensity, DensityError> {
    density_at(&mut TraceOff, measured, at, Moisture::STANDARD)
}

/// Density at one moisture of wood weighed and measured at another, both ways.
///
/// The measured density gives the specific gravity (equation 4-14 turned round), that the basic
/// specific gravity (4-13 turned round), and both go forward again at the moisture wanted.
/// Both moistures from 0 to 30 %; [`DensityError`] outside.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equations 4-13 and 4-14 (read in a transcription); 4-13 is
/// 4-11 in FPL-GTR-190 (2010).
pub fn density_at(
    trace: &mut impl Trace,
    measured: MassDensity,
    at: Moisture,
    wanted: Moisture,
) -> Result<MassDensity, DensityError> {
    let x = below_saturation(at)?;
    let gravity = wood(trace.work(&GRAVITY, [in_kg_per_m3(measured), x]))?;
    let basic = wood(trace.work(&BASIC, [gravity, x]))?;
    let x = below_saturation(wanted)?;
    let gravity = wood(trace.work(&GRAVITY_AT, [basic, x]))?;
    Ok(kg_per_m3(trace.work(&DENSITY_AT, [gravity, x])))
}

formula! {
    /// Specific gravity from density at one moisture.
    GRAVITY: "Specific gravity at the moisture measured", "Gₓ", "";
    rho: "ρ", "density as measured", "kg/m³";
    x: "x", "moisture", "%";
    = rho / (1000.0 * (1.0 + x / 100.0));
    range "0 to 30 % moisture";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-14 turned round (read in a transcription)";
}

formula! {
    /// Basic specific gravity from that at a moisture.
    BASIC: "Basic specific gravity", "G_b", "";
    g: "Gₓ", "specific gravity at that moisture", "";
    x: "x", "moisture", "%";
    = g / (1.0 + 0.265 * g * (1.0 - x / 30.0));
    range "0 to 30 % moisture; within 0.02 for most woods";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-13 turned round (read in two transcriptions)";
}

formula! {
    /// Specific gravity at a moisture from the basic one.
    GRAVITY_AT: "Specific gravity at the moisture wanted", "G", "";
    basic: "G_b", "basic specific gravity", "";
    x: "x", "moisture wanted", "%";
    = basic / (1.0 - 0.265 * basic * (1.0 - x / 30.0));
    range "0 to 30 % moisture; within 0.02 for most woods";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-13 (read in two transcriptions)";
}

formula! {
    /// Density from specific gravity at one moisture.
    DENSITY_AT: "Density at the moisture wanted", "ρ", "kg/m³";
    g: "G", "specific gravity at that moisture", "";
    x: "x", "moisture wanted", "%";
    = 1000.0 * g * (1.0 + x / 100.0);
    range "0 to 30 % moisture";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-14 (read in a transcription)";
}

/// Specific gravity from density: `Gx = rho_x / [rho_w (1 + x/100)]`, x the moisture in %, 0 to 30.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-14 turned round (read in a transcription).
pub fn gravity_from_density(
    trace: &mut impl Trace,
    measured: MassDensity,
    at: Moisture,
) -> Result<f64, DensityError> {
    let x = below_saturation(at)?;
    wood(trace.work(&GRAVITY, [in_kg_per_m3(measured), x]))
}

/// Density from specific gravity at the same moisture: `rho_x = rho_w Gx (1 + x/100)`, x in %, 0 to 30.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-14 (read in a transcription).
pub fn density_from_gravity(gravity: f64, at: Moisture) -> Result<MassDensity, DensityError> {
    let x = below_saturation(at)?;
    Ok(kg_per_m3(DENSITY_AT.of([wood(gravity)?, x])))
}

/// Specific gravity at moisture x from the basic one: `Gx = Gb / [1 - 0.265 Gb (1 - x/30)]`, x in %,
/// 0 to 30. For most woods within 0.02 of the measured value.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-13 (4-11 in FPL-GTR-190, 2010), read in two
/// transcriptions.
pub fn gravity_from_basic(basic: f64, at: Moisture) -> Result<f64, DensityError> {
    let x = below_saturation(at)?;
    Ok(GRAVITY_AT.of([wood(basic)?, x]))
}

fn wood(gravity: f64) -> Result<f64, DensityError> {
    if gravity > 0.0 && gravity < CELL_WALL {
        Ok(gravity)
    } else {
        Err(DensityError::NotWood { value: gravity })
    }
}

fn below_saturation(at: Moisture) -> Result<f64, DensityError> {
    let percent = at.in_percent();
    if percent > FIBRE_SATURATION.in_percent() {
        Err(DensityError::TooWet { percent })
    } else if percent >= 0.0 {
        Ok(percent)
    } else {
        Err(DensityError::NotAMoisture { percent })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn too_wet_or_not_wood_says_so() {
        let wet = density_at_12(kg_per_m3(900.0), Moisture::percent(145.0)).unwrap_err();
        assert_eq!(
            wet.to_string(),
            "wood at 145 % is too wet: density can be carried over only below 30 %"
        );
        assert!(density_at_12(kg_per_m3(1800.0), Moisture::percent(12.0)).is_err());
        assert!(density_at_12(kg_per_m3(f64::NAN), Moisture::percent(12.0)).is_err());
        assert!(density_at_12(kg_per_m3(700.0), Moisture::percent(f64::NAN)).is_err());
    }

    proptest! {
        #[test]
        fn there_and_back_is_where_it_began(rho in 100.0..1300.0, a in 0.0..30.0, b in 0.0..30.0) {
            let (a, b) = (Moisture::percent(a), Moisture::percent(b));
            let there = density_at(&mut TraceOff, kg_per_m3(rho), a, b).unwrap();
            let back = in_kg_per_m3(density_at(&mut TraceOff, there, b, a).unwrap());
            prop_assert!((back - rho).abs() < 1e-9 * rho);
        }
    }
}
