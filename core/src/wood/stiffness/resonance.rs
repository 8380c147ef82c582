//! Stiffness from the note of a bar that hangs or lies free, along its length.
//!
//! The bar is straight, of one section all along, and its density is that at the moisture at which it
//! was rung. It never finds the note; a frequency comes in.

use super::{StiffnessError, positive};
use crate::quantity::{
    Frequency, Length, MassDensity, Pressure, Trace, TraceOff, Velocity, formula, gpa, in_gpa,
    in_hz, in_kg_per_m3, in_metres_per_second, in_mm, metres_per_second,
};

/// Stiffness for its weight: modulus of elasticity over density.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct SpecificStiffness(f64);

impl SpecificStiffness {
    /// In MN m/kg, which is GPa over g/cm³: hard maple has 17.9.
    pub const fn in_mn_m_per_kg(self) -> f64 {
        self.0
    }
}

/// Speed of sound along a bar from the note of its first longitudinal mode: V = 2 L f.
///
/// L is the length, f the frequency of the bar free at both ends. An error for a length or frequency of
/// nothing. Standard theory of the free bar, from memory.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{quantity::{hz, in_metres_per_second, mm}, wood::sound_along};
/// let speed = sound_along(&mut TraceOff, mm(950.0), hz(2220.0)).unwrap();
/// assert!((in_metres_per_second(speed) - 4218.0).abs() < 1e-9);
/// ```
pub fn sound_along(
    trace: &mut impl Trace,
    length: Length,
    frequency: Frequency,
) -> Result<Velocity, StiffnessError> {
    let l = positive("a length, mm,", in_mm(length))?;
    let f = positive("a frequency, Hz,", in_hz(frequency))?;
    Ok(metres_per_second(trace.work(&SOUND, [l, f])))
}

formula! {
    /// Speed of sound from the first note along the length.
    SOUND: "Speed of sound along the grain", "V", "m/s";
    l: "L", "length", "mm";
    f: "f", "the first note along the length", "Hz";
    = 2.0 * (l / 1000.0) * f;
    range "a bar free at both ends";
    source "standard theory of the free bar, from memory";
}

formula! {
    /// Stiffness from the speed of sound.
    OF_SOUND: "Modulus of elasticity", "E", "GPa";
    rho: "ρ", "density as rung", "kg/m³";
    v: "V", "speed of sound", "m/s";
    = rho * sq(v) / 1000000000.0;
    range "a bar thin beside the wavelength; above what a slow bend gives";
    source "standard theory of the thin bar, from memory";
}

formula! {
    /// Stiffness for its weight.
    FOR_ITS_WEIGHT: "Stiffness for its weight", "E/ρ", "MN·m/kg";
    e: "E", "modulus of elasticity", "GPa";
    rho: "ρ", "density", "kg/m³";
    = e * 1000.0 / rho;
    range "any";
    source "a definition";
}

/// Modulus of elasticity from the speed of sound along the grain: E = rho V².
///
/// rho is the density at the moisture of the test. A bar thin beside the wavelength; an error for a speed
/// or density of nothing. Standard theory of the thin bar, from memory.
pub fn stiffness_from_sound(
    trace: &mut impl Trace,
    speed: Velocity,
    density: MassDensity,
) -> Result<Pressure, StiffnessError> {
    let v = positive("a speed of sound, m/s,", in_metres_per_second(speed))?;
    let rho = positive("a density, kg/m³,", in_kg_per_m3(density))?;
    Ok(gpa(trace.work(&OF_SOUND, [rho, v])))
}

/// Speed of sound along the grain: V = sqrt(E/rho). An error for a stiffness or density of nothing.
///
/// In air-dry wood it lies about 3000 to 6000 m/s and falls by about 1 % for each 1 % of moisture
/// (Gerhards 1975 and 1982 as quoted by Han, Wu and Wang, Forest Products Journal; read); in Scots pine
/// from 12 to 21 % by half a percent (Montero and others 2015, abstract read).
///
/// Standard theory of the thin bar, from memory.
pub fn speed_of_sound(
    stiffness: Pressure,
    density: MassDensity,
) -> Result<Velocity, StiffnessError> {
    let per_mass = specific_stiffness(&mut TraceOff, stiffness, density)?.in_mn_m_per_kg();
    Ok(metres_per_second((per_mass * 1e6).sqrt()))
}

/// Stiffness for its weight, E/rho. An error for a stiffness or density of nothing.
pub fn specific_stiffness(
    trace: &mut impl Trace,
    stiffness: Pressure,
    density: MassDensity,
) -> Result<SpecificStiffness, StiffnessError> {
    let e = positive("a stiffness, GPa,", in_gpa(stiffness))?;
    let rho = positive("a density, kg/m³,", in_kg_per_m3(density))?;
    Ok(SpecificStiffness(trace.work(&FOR_ITS_WEIGHT, [e, rho])))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{hz, kg_per_m3, mm};
    use proptest::prelude::*;

    #[test]
    fn a_bar_of_nothing_is_refused() {
        let none = sound_along(&mut TraceOff, mm(950.0), hz(0.0));
        assert_eq!(
            none.unwrap_err().to_string(),
            "a frequency, Hz, of 0: it has to be more than nothing"
        );
        assert!(speed_of_sound(gpa(-1.0), kg_per_m3(700.0)).is_err());
    }

    proptest! {
        // A bar of known stiffness, rung by the theory along its length, gives it back.
        #[test]
        fn the_stiffness_comes_back(
            e in 7.0..20.0f64, rho in 400.0..1000.0f64, length in 500.0..1200.0f64,
        ) {
            let note = hz((e * 1e9 / rho).sqrt() / (2.0 * length / 1000.0));
            let speed = sound_along(&mut TraceOff, mm(length), note).unwrap();
            let found = stiffness_from_sound(&mut TraceOff, speed, kg_per_m3(rho)).unwrap();
            prop_assert!((in_gpa(found) / e - 1.0).abs() < 1e-9);
        }
    }
}
