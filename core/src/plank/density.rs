//! Density as the plank lies in the yard: its mass over its volume, at whatever moisture it has.
//!
//! It never brings a density to another moisture content.

use super::{Plank, SizeError, WeighingError, mass_as_weighed, volume};
use crate::quantity::{
    Mass, MassDensity, Trace, Volume, formula, in_kg, in_kg_per_m3, in_m3, kg, kg_per_m3,
};
use thiserror::Error;

#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PlankDensityError {
    /// The weighing gives no mass.
    #[error(transparent)]
    Weighing(#[from] WeighingError),
    /// The sizes give no volume.
    #[error(transparent)]
    Size(#[from] SizeError),
}

/// Density, mass and volume both as measured: rho = m/V.
///
/// m is the mass, V the volume, at the same moisture content. `None` unless both are more than
/// nothing. A definition.
pub fn density_of(mass: Mass, volume: Volume) -> Option<MassDensity> {
    let values = [in_kg(mass), in_m3(volume)];
    (values[0] > 0.0 && values[1] > 0.0).then(|| kg_per_m3(DENSITY.of(values)))
}

formula! {
    /// Mass over volume.
    DENSITY: "Density as measured", "ρ", "kg/m³";
    m: "m", "weight", "kg";
    v: "V", "volume", "m³";
    = m / v;
    range "both at the moisture that the plank has";
    source "a definition";
}

/// What a body weighs: m = rho V, [`density_of`] turned round. A definition.
///
/// No published value: a definition, one product.
pub fn mass_of(trace: &mut impl Trace, density: MassDensity, volume: Volume) -> Mass {
    kg(trace.work(&MASS, [in_kg_per_m3(density), in_m3(volume)]))
}

formula! {
    /// Density times volume.
    MASS: "Weight", "m", "kg";
    rho: "ρ", "density", "kg/m³";
    v: "V", "volume", "m³";
    = rho * v;
    range "both at one moisture";
    source "a definition";
}

/// Density of the plank as measured, at the moisture content that it has.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::plank::{Plank, Stations, Weighing, density_as_measured};
/// use stillwood_core::quantity::{in_kg_per_m3, kg, mm};
/// let plank = Plank {
///     length: Some(mm(2620.0)),
///     widths: Stations::one(mm(204.0)),
///     thicknesses: Stations::one(mm(52.0)),
///     weighing: Some(Weighing::Whole(kg(19.7))),
///     ..Plank::default()
/// };
/// let density = in_kg_per_m3(density_as_measured(&mut TraceOff, &plank).unwrap());
/// assert!((density - 708.8).abs() < 0.1);
/// ```
pub fn density_as_measured(
    trace: &mut impl Trace,
    plank: &Plank,
) -> Result<MassDensity, PlankDensityError> {
    let mass = mass_as_weighed(trace, plank)?;
    let volume = volume(trace, plank)?;
    let values = [in_kg(mass), in_m3(volume)];
    Ok(kg_per_m3(trace.work(&DENSITY, values)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use crate::quantity::m3;

    #[test]
    fn nothing_over_nothing_is_no_density() {
        assert_eq!(density_of(kg(1.0), m3(0.0)), None);
        assert_eq!(density_of(kg(0.0), m3(1.0)), None);
        assert!(density_of(kg(1.0), m3(0.002)).is_some());
        let bare = Plank::default();
        assert_eq!(
            density_as_measured(&mut TraceOff, &bare),
            Err(WeighingError::NotWeighed.into())
        );
    }
}
