//! Stiffness from the note of a bar that hangs or lies free: along its length, or in bending.
//!
//! The bar is straight, of one section all along, and its density is that at the moisture at which it
//! was rung. It never finds the note; a frequency comes in.

use super::{SpecificStiffness, StiffnessError, positive, within};
use crate::quantity::{
    Frequency, Length, Mass, MassDensity, Pressure, Trace, TraceOff, Velocity, formula, gpa,
    in_gpa, in_hz, in_kg, in_kg_per_m3, in_metres_per_second, in_mm, metres_per_second,
};

/// From each end of a bar rung in bending to the place where it stands still, as a share of its length:
/// there it is held. Standard theory of the free bar; "0.224" read in a page that quotes ASTM E1876.
pub const NODE_SHARE: f64 = 0.224;

/// First root of cos x cosh x = 1 (read, as 4.73004074).
const ROOT: f64 = 4.730_040_744_862_704;

/// A bar of one section all along.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Along the grain.
    pub length: Length,
    /// Across the direction in which it swings or bends.
    pub width: Length,
    /// In the direction in which it swings or bends.
    pub thickness: Length,
    /// Its mass at the moisture at which it is rung.
    pub mass: Mass,
}

impl Bar {
    /// Length over thickness.
    pub fn slenderness(&self) -> f64 {
        (self.length / self.thickness).value
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

/// Modulus of elasticity from the first longitudinal note: E = 4 L² f² rho, by [`sound_along`] and
/// [`stiffness_from_sound`].
///
/// Standard theory of the thin bar, from memory.
///
/// No published value: two steps that have rows of their own or are definitions.
pub fn stiffness_from_longitudinal(
    length: Length,
    frequency: Frequency,
    density: MassDensity,
) -> Result<Pressure, StiffnessError> {
    stiffness_from_sound(
        &mut TraceOff,
        sound_along(&mut TraceOff, length, frequency)?,
        density,
    )
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

/// Modulus of elasticity from the first bending note of a bar free at both ends:
/// E = (48 pi²/x⁴) T m f² L³/(b t³).
///
/// m is the mass, f the frequency, L the length, b the width, t the thickness in the direction of the
/// swing; x = 4.7300 the first root of cos x cosh x = 1, so that the number in front is 0.9464. T is the
/// correction for shear and rotation: [`shear_correction`] for wood, [`isotropic_correction`] or
/// [`slender_correction`] as ASTM E1876 has it. An error for a measurement of nothing or a T under 1.
///
/// Source: ASTM E1876 as quoted on a public page, with 0.9465 in front (read); the number itself is
/// standard theory.
pub fn stiffness_from_flexural(
    bar: &Bar,
    frequency: Frequency,
    correction: f64,
) -> Result<Pressure, StiffnessError> {
    let metres = |what, l| Ok::<f64, StiffnessError>(positive(what, in_mm(l))? / 1000.0);
    let length = metres("a length, mm,", bar.length)?;
    let width = metres("a width, mm,", bar.width)?;
    let thickness = metres("a thickness, mm,", bar.thickness)?;
    let mass = positive("a mass, kg,", in_kg(bar.mass))?;
    let f = positive("a frequency, Hz,", in_hz(frequency))?;
    let t = within("a correction", correction, 1.0, 10.0)?;
    let front = 48.0 * std::f64::consts::PI * std::f64::consts::PI / (ROOT * ROOT * ROOT * ROOT);
    let slender = length / thickness;
    let pascals = front * t * mass * f * f / width * slender * slender * slender;
    Ok(gpa(pascals / 1e9))
}

/// Correction of the bending note for shear and rotation in wood:
/// T = 1 + (t/L)²/12 [h (h + 6) + h (h - 2) 1.2 E/G], h = 4.6473.
///
/// L/t is the slenderness, E/G the modulus along the grain over the shear modulus, in wood about 15 and
/// more (from memory): a bar 20 times as long as thick has T = 1.056, where an isotropic bar has 1.016.
/// h = x (cosh x - cos x)/(sinh x - sin x) with x = 4.7300; 1.2 is the rectangle's shear factor. First
/// order in (t/L)² E/G, within 1 % while T is below 1.1; an error for L/t below 10 or E/G outside 2 to 50.
///
/// Derived here: energy of the first mode of the free bar (Rayleigh), held against the numerical solution
/// of the Timoshenko beam. For E/G = 2 it gives the 6.585 of ASTM E1876.
pub fn shear_correction(slenderness: f64, e_over_g: f64) -> Result<f64, StiffnessError> {
    let ratio = within("stiffness over shear modulus", e_over_g, 2.0, 50.0)?;
    let thin = thinness(slenderness, 10.0)?;
    // x (cosh x - cos x)/(sinh x - sin x) at the first root.
    let h = 4.647_275_5;
    Ok(1.0 + thin * thin / 12.0 * (h * (h + 6.0) + h * (h - 2.0) * 1.2 * ratio))
}

/// Correction of the bending note as ASTM E1876 has it for a bar at least 20 times as long as thick:
/// T = 1 + 6.585 (t/L)².
///
/// An error for a stouter bar. For an isotropic material; wood needs more, see [`shear_correction`].
///
/// Source: ASTM E1876, as transcribed in public code (secondary).
///
/// No published value: no worked figure was found; held against `isotropic_correction`.
pub fn slender_correction(slenderness: f64) -> Result<f64, StiffnessError> {
    let thin = thinness(slenderness, 20.0)?;
    Ok(1.0 + 6.585 * thin * thin)
}

/// Correction of the bending note as ASTM E1876 has it for any bar:
/// T = 1 + 6.585 (1 + 0.0752 m + 0.8109 m²) (t/L)² - 0.868 (t/L)⁴
/// - 8.340 (1 + 0.2023 m + 2.173 m²) (t/L)⁴ / [1 + 6.338 (1 + 0.1408 m + 1.536 m²) (t/L)²].
///
/// m is Poisson's ratio, from 0 to 0.5. For an isotropic material: wood needs more, see
/// [`shear_correction`]. An error for a bar under 2 times as long as thick (the limit is ours).
///
/// Source: ASTM E1876, as transcribed in public code (secondary; one other copy prints 1.539 for 1.536);
/// held against the numerical solution of the Timoshenko beam.
pub fn isotropic_correction(slenderness: f64, poisson: f64) -> Result<f64, StiffnessError> {
    let m = within("Poisson's ratio", poisson, 0.0, 0.5)?;
    let thin = thinness(slenderness, 2.0)?;
    let (square, fourth) = (thin * thin, thin * thin * thin * thin);
    let below = 1.0 + 6.338 * (1.0 + 0.1408 * m + 1.536 * m * m) * square;
    Ok(1.0 + 6.585 * (1.0 + 0.0752 * m + 0.8109 * m * m) * square
        - 0.868 * fourth
        - 8.340 * (1.0 + 0.2023 * m + 2.173 * m * m) * fourth / below)
}

/// Thickness over length of a bar that is slender enough.
fn thinness(slenderness: f64, least: f64) -> Result<f64, StiffnessError> {
    // A hair, for a ratio that came through millimetres.
    if slenderness >= least - 1e-9 && slenderness.is_finite() {
        Ok(1.0 / slenderness)
    } else {
        Err(StiffnessError::TooStout {
            ratio: slenderness,
            least,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{kg, kg_per_m3, mm};
    use proptest::prelude::*;

    #[test]
    fn a_bar_is_so_many_times_as_long_as_it_is_thick() {
        let bar = Bar {
            length: mm(900.0),
            width: mm(48.0),
            thickness: mm(15.0),
            mass: kg(0.5),
        };
        assert!((bar.slenderness() - 60.0).abs() < 1e-9);
    }

    /// The correction by the Timoshenko beam itself: its first free-free note, by shooting from one end.
    fn by_shooting(slenderness: f64, e_over_g: f64) -> f64 {
        // Length, density, width and E are 1.
        let t = 1.0 / slenderness;
        let (area, inertia) = (t, t * t * t / 12.0);
        let shear = area / (1.2 * e_over_g);
        let left_over = |omega: f64| {
            let square = omega * omega;
            // Deflection, rotation, moment, shear force.
            let slope = |s: [f64; 4]| {
                [
                    s[1] + s[3] / shear,
                    s[2] / inertia,
                    -s[3] - inertia * square * s[1],
                    -area * square * s[0],
                ]
            };
            let shoot = |mut s: [f64; 4]| {
                let step = 1.0 / 400.0;
                for _ in 0..400 {
                    let move_by = |k: [f64; 4], by: f64| {
                        let mut moved = s;
                        moved.iter_mut().zip(k).for_each(|(m, k)| *m += by * k);
                        moved
                    };
                    let k1 = slope(s);
                    let k2 = slope(move_by(k1, step / 2.0));
                    let k3 = slope(move_by(k2, step / 2.0));
                    let k4 = slope(move_by(k3, step));
                    for i in 0..4 {
                        s[i] += step / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]);
                    }
                }
                s
            };
            let (a, b) = (shoot([1.0, 0.0, 0.0, 0.0]), shoot([0.0, 1.0, 0.0, 0.0]));
            a[2] * b[3] - a[3] * b[2]
        };
        let ideal = ROOT * ROOT * t / 12.0_f64.sqrt();
        let (mut low, mut high) = (0.6 * ideal, 1.01 * ideal);
        let sign = left_over(low) > 0.0;
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if (left_over(middle) > 0.0) == sign {
                low = middle;
            } else {
                high = middle;
            }
        }
        let ratio = ideal / low;
        ratio * ratio
    }

    #[test]
    fn the_corrections_are_those_of_the_timoshenko_beam() {
        for (slenderness, e_over_g) in [(20.0, 15.0), (30.0, 15.0), (20.0, 8.0), (50.0, 30.0)] {
            let found = shear_correction(slenderness, e_over_g).unwrap();
            let exact = by_shooting(slenderness, e_over_g);
            assert!(
                (found / exact - 1.0).abs() < 0.01,
                "{slenderness}: {found} {exact}"
            );
        }
        for (slenderness, poisson) in [(5.0, 0.0), (10.0, 0.3), (20.0, 0.3), (40.0, 0.2)] {
            let found = isotropic_correction(slenderness, poisson).unwrap();
            let exact = by_shooting(slenderness, 2.0 * (1.0 + poisson));
            assert!(
                (found / exact - 1.0).abs() < 0.004,
                "{slenderness}: {found} {exact}"
            );
        }
        let isotropic = shear_correction(25.0, 2.0).unwrap();
        assert!((isotropic - slender_correction(25.0).unwrap()).abs() < 1e-5);
    }

    #[test]
    fn a_bar_too_stout_or_of_nothing_is_refused() {
        assert_eq!(
            slender_correction(19.0).unwrap_err().to_string(),
            "a bar 19.0 times as long as it is thick: the formula holds from 20 times"
        );
        assert!(shear_correction(f64::NAN, 15.0).is_err());
        assert!(shear_correction(30.0, 100.0).is_err());
        assert!(isotropic_correction(30.0, 0.6).is_err());
        let none =
            stiffness_from_longitudinal(mm(950.0), crate::quantity::hz(0.0), kg_per_m3(700.0));
        assert_eq!(
            none.unwrap_err().to_string(),
            "a frequency, Hz, of 0: it has to be more than nothing"
        );
        assert!(speed_of_sound(gpa(-1.0), kg_per_m3(700.0)).is_err());
    }

    proptest! {
        // A bar of known stiffness, rung by the theory in bending and along its length, gives it back.
        #[test]
        fn the_stiffness_comes_back(
            e in 7.0..20.0f64, rho in 400.0..1000.0f64, length in 500.0..1200.0f64, thick in 10.0..24.0f64,
        ) {
            let bar = Bar {
                length: mm(length),
                width: mm(50.0),
                thickness: mm(thick),
                mass: kg(rho * length * 50.0 * thick * 1e-9),
            };
            let t = shear_correction(bar.slenderness(), 15.0).unwrap();
            let speed = (e * 1e9 / rho).sqrt();
            let metre = length / 1000.0;
            let note = ROOT * ROOT * thick / 1000.0 * speed
                / (2.0 * std::f64::consts::PI * metre * metre * (12.0 * t).sqrt());
            let found = stiffness_from_flexural(&bar, crate::quantity::hz(note), t).unwrap();
            prop_assert!((in_gpa(found) / e - 1.0).abs() < 1e-9);
            let note = crate::quantity::hz(speed / (2.0 * metre));
            let found = stiffness_from_longitudinal(bar.length, note, kg_per_m3(rho)).unwrap();
            prop_assert!((in_gpa(found) / e - 1.0).abs() < 1e-9);
        }
    }
}
