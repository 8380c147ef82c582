//! How heavy a plank is, from the ways in which one is weighed without lifting it whole.
//!
//! Statics only: it never judges whether the mass is likely for the wood.

use super::Weighing;
use crate::quantity::{Length, Mass, Trace, TraceOff, formula, in_kg, in_mm, is_positive, kg};
use thiserror::Error;

/// Why a weighing gives no mass.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum WeighingError {
    /// A reading that is nothing or less.
    #[error("the scale reading comes to {:.2} kg: it has to be more than nothing", in_kg(*.0))]
    NotPositive(Mass),
    /// The way of weighing needs the plank's length.
    #[error("this way of weighing needs the length of the plank")]
    LengthMissing,
    /// A length that is nothing or less.
    #[error("the length comes to {:.0} mm: it has to be more than nothing", in_mm(*.0))]
    LengthNotPositive(Length),
    /// A distance that is less than nothing.
    #[error("the distance comes to {:.0} mm: it can't be less than nothing", in_mm(*.0))]
    Negative(Length),
    /// The bearer stands at or beyond the middle.
    #[error(
        "the bearer is set in by {:.0} mm, past the middle of a {:.0} mm plank: lifting the end tells nothing",
        in_mm(*.overhang), in_mm(*.length)
    )]
    BearerPastMiddle {
        /// How far the resting end overhangs.
        overhang: Length,
        /// The plank's length.
        length: Length,
    },
    /// The bar stands at or beyond the middle, or right under the mass.
    #[error(
        "the bar is {:.0} mm from the hung mass; in a {:.0} mm plank it must stand between the mass and the middle",
        in_mm(*.arm), in_mm(*.length)
    )]
    BarPastMiddle {
        /// From the bar to the end with the mass.
        arm: Length,
        /// The plank's length.
        length: Length,
    },
}

fn read(reading: Mass) -> Result<Mass, WeighingError> {
    if is_positive(reading.value) {
        Ok(reading)
    } else {
        Err(WeighingError::NotPositive(reading))
    }
}

fn known(length: Option<Length>) -> Result<Length, WeighingError> {
    let length = length.ok_or(WeighingError::LengthMissing)?;
    if is_positive(length.value) {
        Ok(length)
    } else {
        Err(WeighingError::LengthNotPositive(length))
    }
}

/// The plank's length and the overhang, where the overhang matters.
fn set_in(
    length: Option<Length>,
    overhang: Length,
) -> Result<Option<(Length, Length)>, WeighingError> {
    let zero = Length::default();
    if overhang == zero {
        return Ok(None);
    }
    if overhang.value.is_nan() || overhang < zero {
        return Err(WeighingError::Negative(overhang));
    }
    let length = known(length)?;
    if overhang >= length / 2.0 {
        return Err(WeighingError::BearerPastMiddle { overhang, length });
    }
    Ok(Some((length, overhang)))
}

formula! {
    /// One end lifted, the other resting at its very end.
    TWICE: "Weight from one end", "W", "kg";
    f: "F", "reading at the end", "kg";
    = 2.0 * f;
    range "a plank without taper, its far end resting at its very end";
    source "statics: moments about the bearer";
}

formula! {
    /// One end lifted, the other over a bearer set in.
    ONE_END: "Weight from one end", "W", "kg";
    f: "F", "reading at the end", "kg";
    l: "L", "length", "mm";
    a: "a", "overhang of the resting end", "mm";
    = f * (l - a) / (l / 2.0 - a);
    range "a plank without taper, the overhang under half of its length";
    source "statics: moments about the bearer";
}

formula! {
    /// Each end lifted in turn.
    BOTH: "Weight from both ends", "W", "kg";
    f: "F₁", "reading at the first end", "kg";
    g: "F₂", "reading at the second end", "kg";
    = f + g;
    range "any taper, the resting end at its very end both times";
    source "statics: moments about the bearer";
}

formula! {
    /// Each end lifted in turn, the other over a bearer set in.
    BOTH_ENDS: "Weight from both ends", "W", "kg";
    f: "F₁", "reading at the first end", "kg";
    g: "F₂", "reading at the second end", "kg";
    l: "L", "length", "mm";
    a: "a", "overhang of the resting end", "mm";
    = (f + g) * (l - a) / (l - 2.0 * a);
    range "any taper, the overhang under half of the length";
    source "statics: moments about the bearer";
}

formula! {
    /// Balanced on a bar by a known mass on its end.
    BALANCE: "Weight from a balance", "W", "kg";
    m: "m", "the known weight", "kg";
    p: "p", "from the bar to it", "mm";
    l: "L", "length", "mm";
    = m * p / (l / 2.0 - p);
    range "a plank without taper, the bar short of its middle";
    source "statics: moments about the bar";
}

/// Mass of a parallel plank from one end lifted: W = F (L - a)/(L/2 - a), which is W = 2F for a = 0.
///
/// F is the reading, L the plank's length, a how far the other end overhangs its bearer; 0 <= a < L/2,
/// beyond which it is an error. The length is needed only where a is not 0. Derived here: moments about
/// the bearer, the centre of mass at mid-length.
///
/// No published value: statics, held against a known mass and its place.
pub fn mass_from_one_end(
    reading: Mass,
    length: Option<Length>,
    overhang: Length,
) -> Result<Mass, WeighingError> {
    one_end(&mut TraceOff, reading, length, overhang)
}

fn one_end(
    trace: &mut impl Trace,
    reading: Mass,
    length: Option<Length>,
    overhang: Length,
) -> Result<Mass, WeighingError> {
    let f = in_kg(read(reading)?);
    Ok(kg(match set_in(length, overhang)? {
        None => trace.work(&TWICE, [f]),
        Some((l, a)) => trace.work(&ONE_END, [f, in_mm(l), in_mm(a)]),
    }))
}

/// Mass from each end lifted in turn: W = (F1 + F2)(L - a)/(L - 2a), which is W = F1 + F2 for a = 0.
///
/// F1 and F2 are the readings, L the plank's length, a how far the resting end overhangs its bearer, the
/// same both times; 0 <= a < L/2, beyond which it is an error. It holds for any taper. Derived here:
/// moments about the bearer, F1 (L - a) = W (L - a - x) and F2 (L - a) = W (x - a), x the place of the
/// centre of mass, which falls out of the sum.
///
/// No published value: statics, held against a known mass and its place.
pub fn mass_from_both_ends(
    first: Mass,
    second: Mass,
    length: Option<Length>,
    overhang: Length,
) -> Result<Mass, WeighingError> {
    both_ends(&mut TraceOff, (first, second), length, overhang)
}

fn both_ends(
    trace: &mut impl Trace,
    (first, second): (Mass, Mass),
    length: Option<Length>,
    overhang: Length,
) -> Result<Mass, WeighingError> {
    let (f, g) = (in_kg(read(first)?), in_kg(read(second)?));
    Ok(kg(match set_in(length, overhang)? {
        None => trace.work(&BOTH, [f, g]),
        Some((l, a)) => trace.work(&BOTH_ENDS, [f, g, in_mm(l), in_mm(a)]),
    }))
}

/// Mass of a parallel plank balanced on a bar by a known mass on its end: W = m p/(L/2 - p).
///
/// m is the known mass, p the distance from the bar to it, L the plank's length; 0 < p < L/2, beyond
/// which it is an error. Derived here: moments about the bar, the centre of mass at mid-length.
///
/// No published value: statics, held against a plank worked by hand.
pub fn mass_from_balance(
    known_mass: Mass,
    arm: Length,
    length: Option<Length>,
) -> Result<Mass, WeighingError> {
    balance(&mut TraceOff, known_mass, arm, length)
}

fn balance(
    trace: &mut impl Trace,
    known_mass: Mass,
    arm: Length,
    length: Option<Length>,
) -> Result<Mass, WeighingError> {
    let known_mass = read(known_mass)?;
    let length = known(length)?;
    if arm.value > 0.0 && arm < length / 2.0 {
        let values = [in_kg(known_mass), in_mm(arm), in_mm(length)];
        Ok(kg(trace.work(&BALANCE, values)))
    } else {
        Err(WeighingError::BarPastMiddle { arm, length })
    }
}

/// Mass of a plank, however it was weighed.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::{Weighing, mass_as_weighed}, quantity::{in_kg, kg, mm}};
/// let ends = Weighing::Ends { first: kg(10.3), second: Some(kg(9.4)), overhang: mm(0.0) };
/// let mass = mass_as_weighed(&mut TraceOff, ends, Some(mm(2620.0))).unwrap();
/// assert!((in_kg(mass) - 19.7).abs() < 1e-9);
/// ```
pub fn mass_as_weighed(
    trace: &mut impl Trace,
    weighing: Weighing,
    length: Option<Length>,
) -> Result<Mass, WeighingError> {
    match weighing {
        Weighing::Whole(mass) => read(mass),
        Weighing::Ends {
            first,
            second: None,
            overhang,
        } => one_end(trace, first, length, overhang),
        Weighing::Ends {
            first,
            second: Some(second),
            overhang,
        } => both_ends(trace, (first, second), length, overhang),
        Weighing::Balanced { by, arm } => balance(trace, by, arm, length),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{kg, mm};
    use proptest::prelude::*;

    const LENGTH: f64 = 2600.0;

    #[test]
    fn two_ends_add_up_and_one_end_is_doubled() {
        let none = mm(0.0);
        let both = mass_from_both_ends(kg(10.3), kg(9.4), None, none).unwrap();
        assert!((in_kg(both) - 19.7).abs() < 1e-9);
        let one = mass_from_one_end(kg(9.85), None, none).unwrap();
        assert!((in_kg(one) - 19.7).abs() < 1e-9);
    }

    #[test]
    fn an_overhang_of_300_mm_makes_the_factor_2_30() {
        let mass = mass_from_one_end(kg(1.0), Some(mm(LENGTH)), mm(300.0)).unwrap();
        assert!((in_kg(mass) - 2.30).abs() < 1e-9);
    }

    #[test]
    fn five_litres_of_water_weigh_a_plank() {
        let mass = mass_from_balance(kg(5.0), mm(1037.0), Some(mm(LENGTH))).unwrap();
        assert!((in_kg(mass) - 19.7).abs() < 0.02);
        let off = mass_from_balance(kg(5.0), mm(1047.0), Some(mm(LENGTH))).unwrap();
        assert!(((off / mass).value - 1.05).abs() < 0.005);
    }

    #[test]
    fn the_impossible_is_refused_in_words() {
        let length = Some(mm(LENGTH));
        let past = mass_from_balance(kg(5.0), mm(1300.0), length).unwrap_err();
        assert!(past.to_string().contains("1300 mm"));
        let past = mass_from_one_end(kg(5.0), length, mm(1300.0)).unwrap_err();
        assert!(past.to_string().contains("past the middle"));
        assert_eq!(
            mass_from_one_end(kg(5.0), None, mm(10.0)),
            Err(WeighingError::LengthMissing)
        );
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(mass_as_weighed(&mut TraceOff, Weighing::Whole(kg(bad)), length).is_err());
            assert!(mass_from_one_end(kg(1.0), Some(mm(bad)), mm(1.0)).is_err());
            assert!(mass_from_balance(kg(1.0), mm(bad), length).is_err());
        }
        assert!(mass_from_one_end(kg(1.0), length, mm(-5.0)).is_err());
        assert!(mass_from_one_end(kg(1.0), length, mm(f64::NAN)).is_err());
    }

    proptest! {
        // Readings worked out from a known mass and a known centre of mass give the mass back.
        #[test]
        fn both_ends_find_the_mass_of_any_taper(
            whole in 0.5..80.0f64, at in 0.35..0.65f64, overhang in 0.0..0.3f64,
        ) {
            let (length, a) = (LENGTH, overhang * LENGTH);
            let x = at * length;
            let first = whole * (length - a - x) / (length - a);
            let second = whole * (x - a) / (length - a);
            let found = mass_from_both_ends(kg(first), kg(second), Some(mm(length)), mm(a)).unwrap();
            prop_assert!((in_kg(found) - whole).abs() < 1e-9 * whole.max(1.0));
        }
    }
}
