//! How heavy a plank is, from the ways in which one is weighed without lifting it whole.
//!
//! Statics only: it never judges whether the mass is likely for the wood.

use super::{Plank, Side, SizeError, Weighing, cross_sections, positive};
use crate::quantity::{Length, Mass, Trace, TraceOff, formula, in_kg, in_mm, is_positive, kg};
use thiserror::Error;

/// Why a weighing gives no mass.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum WeighingError {
    #[error("the plank was not weighed")]
    NotWeighed,
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

/// The plank's length and the overhang of an end that rests short of the centre of mass.
fn set_in(
    length: Option<Length>,
    overhang: Length,
    off_middle: Length,
) -> Result<(Length, Length), WeighingError> {
    if overhang.value.is_nan() || overhang < Length::default() {
        return Err(WeighingError::Negative(overhang));
    }
    let length = known(length)?;
    if overhang >= length / 2.0 + off_middle {
        return Err(WeighingError::BearerPastMiddle { overhang, length });
    }
    Ok((length, overhang))
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
    x: "x", "from the resting end to the centre of mass, taken at mid-length", "mm";
    = f * (l - a) / (x - a);
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
    x: "x", "from it to the centre of mass, taken at mid-length", "mm";
    = m * p / (x - p);
    range "a plank without taper, the bar short of its middle";
    source "statics: moments about the bar";
}

/// From one end lifted: W = F (L - a)/(x - a), which is W = 2F for a = 0 and x = L/2.
///
/// F is the reading, L the plank's length, a how far the other end overhangs its bearer, x from that end to the
/// centre of mass; 0 <= a < x, beyond which it is an error. The length is needed only where that
/// is not twice the reading. Derived here: moments about the bearer.
fn one_end(
    trace: &mut impl Trace,
    reading: Mass,
    overhang: Length,
    plank: &Plank,
) -> Result<Mass, WeighingError> {
    let f = in_kg(read(reading)?);
    let zero = Length::default();
    if overhang == zero && plank.off_middle == zero {
        return Ok(kg(trace.work(&TWICE, [f])));
    }
    let (l, a) = set_in(plank.length, overhang, plank.off_middle)?;
    let x = l / 2.0 + plank.off_middle;
    Ok(kg(trace.work(&ONE_END, [f, in_mm(l), in_mm(a), in_mm(x)])))
}

/// From each end lifted in turn: W = (F1 + F2)(L - a)/(L - 2a), which is W = F1 + F2 for a = 0.
///
/// F1 and F2 are the readings, L the plank's length, a how far the resting end overhangs its bearer, the
/// same both times; 0 <= a < L/2, beyond which it is an error. It holds for any taper. Derived here:
/// moments about the bearer, F1 (L - a) = W (L - a - x) and F2 (L - a) = W (x - a), x the place of the
/// centre of mass, which falls out of the sum.
fn both_ends(
    trace: &mut impl Trace,
    (first, second): (Mass, Mass),
    overhang: Length,
    length: Option<Length>,
) -> Result<Mass, WeighingError> {
    let (f, g) = (in_kg(read(first)?), in_kg(read(second)?));
    let zero = Length::default();
    if overhang == zero {
        return Ok(kg(trace.work(&BOTH, [f, g])));
    }
    let (l, a) = set_in(length, overhang, zero)?;
    Ok(kg(trace.work(&BOTH_ENDS, [f, g, in_mm(l), in_mm(a)])))
}

/// Balanced on a bar by a known mass on its end: W = m p/(x - p), x = L/2.
///
/// m is the known mass, p the distance from the bar to it, L the plank's length, x from the known mass to the
/// plank's centre of mass; 0 < p < x, beyond which it is an error. Derived here: moments about the bar.
fn balance(
    trace: &mut impl Trace,
    known_mass: Mass,
    arm: Length,
    plank: &Plank,
) -> Result<Mass, WeighingError> {
    let known_mass = read(known_mass)?;
    let length = known(plank.length)?;
    let x = length / 2.0 + plank.off_middle;
    if arm.value > 0.0 && arm < x {
        let values = [in_kg(known_mass), in_mm(arm), in_mm(x)];
        Ok(kg(trace.work(&BALANCE, values)))
    } else {
        Err(WeighingError::BarPastMiddle { arm, length })
    }
}

/// How far the centre of mass of a plank lies from mid-length, towards either end: L (A2 - A1)/(2 (A1 + 4 Am + A2)).
///
/// L is the length, A1, Am and A2 the cross-sections at near end, middle and far end; between them the area is taken
/// as [`prismoidal_volume`](super::prismoidal_volume) takes it, and the wood as equally dense. An error when a size
/// is missing or not positive. Derived here: the first moment of a quadratic through three stations.
///
/// No published value: held against the wood of a thousand slices.
pub fn centre_off_middle(plank: &Plank) -> Result<Length, SizeError> {
    let length = positive(Side::Length, plank.length)?;
    let [near, middle, far] = cross_sections(&mut TraceOff, plank)?;
    let share = ((far - near) / (near + middle * 4.0 + far)).value;
    Ok((length * share / 2.0).abs())
}

/// Mass of a plank, however it was weighed. From one end, or by a balance, the centre of mass is taken at mid-length:
/// a taper makes that uncertain, see [`centre_off_middle`].
///
/// No published value: statics, held against known masses and their places.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::{Plank, Weighing, mass_as_weighed}, quantity::{in_kg, kg, mm}};
/// let ends = Weighing::Ends { first: kg(10.3), second: Some(kg(9.4)), overhang: mm(0.0) };
/// let plank = Plank { weighing: Some(ends), ..Plank::default() };
/// let mass = mass_as_weighed(&mut TraceOff, &plank).unwrap();
/// assert!((in_kg(mass) - 19.7).abs() < 1e-9);
/// ```
pub fn mass_as_weighed(trace: &mut impl Trace, plank: &Plank) -> Result<Mass, WeighingError> {
    match plank.weighing.ok_or(WeighingError::NotWeighed)? {
        Weighing::Whole(mass) => read(mass),
        Weighing::Ends {
            first,
            second: None,
            overhang,
        } => one_end(trace, first, overhang, plank),
        Weighing::Ends {
            first,
            second: Some(second),
            overhang,
        } => both_ends(trace, (first, second), overhang, plank.length),
        Weighing::Balanced { by, arm } => balance(trace, by, arm, plank),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Field, Instruments, Reading, Readings, Source, describe};
    use crate::quantity::{mm, propagate};
    use proptest::prelude::*;

    const LENGTH: f64 = 2600.0;

    fn weighed(weighing: Weighing, length: Option<f64>) -> Result<Mass, WeighingError> {
        let plank = Plank {
            length: length.map(mm),
            weighing: Some(weighing),
            ..Plank::default()
        };
        mass_as_weighed(&mut TraceOff, &plank)
    }

    fn ends(first: f64, second: Option<f64>, overhang: f64) -> Weighing {
        Weighing::Ends {
            first: kg(first),
            second: second.map(kg),
            overhang: mm(overhang),
        }
    }

    fn balanced(by: f64, arm: f64) -> Weighing {
        Weighing::Balanced {
            by: kg(by),
            arm: mm(arm),
        }
    }

    #[test]
    fn two_ends_add_up_and_one_end_is_doubled() {
        let both = weighed(ends(10.3, Some(9.4), 0.0), None).unwrap();
        assert!((in_kg(both) - 19.7).abs() < 1e-9);
        let one = weighed(ends(9.85, None, 0.0), None).unwrap();
        assert!((in_kg(one) - 19.7).abs() < 1e-9);
    }

    #[test]
    fn an_overhang_of_300_mm_makes_the_factor_2_30() {
        let mass = weighed(ends(1.0, None, 300.0), Some(LENGTH)).unwrap();
        assert!((in_kg(mass) - 2.30).abs() < 1e-9);
    }

    #[test]
    fn five_litres_of_water_weigh_a_plank() {
        let mass = weighed(balanced(5.0, 1037.0), Some(LENGTH)).unwrap();
        assert!((in_kg(mass) - 19.7).abs() < 0.02);
        let off = weighed(balanced(5.0, 1047.0), Some(LENGTH)).unwrap();
        assert!(((off / mass).value - 1.05).abs() < 0.005);
    }

    #[test]
    fn the_impossible_is_refused_in_words() {
        let length = Some(LENGTH);
        let past = weighed(balanced(5.0, 1300.0), length).unwrap_err();
        assert!(past.to_string().contains("1300 mm"));
        let past = weighed(ends(5.0, None, 1300.0), length).unwrap_err();
        assert!(past.to_string().contains("past the middle"));
        assert_eq!(
            weighed(ends(5.0, None, 10.0), None),
            Err(WeighingError::LengthMissing)
        );
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(weighed(Weighing::Whole(kg(bad)), length).is_err());
            assert!(weighed(ends(1.0, None, 1.0), Some(bad)).is_err());
            assert!(weighed(balanced(1.0, bad), length).is_err());
        }
        assert!(weighed(ends(1.0, None, -5.0), length).is_err());
        assert!(weighed(ends(1.0, None, f64::NAN), length).is_err());
    }

    /// Volume and centre of mass, from the near end, of a plank of 2620 mm, 52 mm thick, in thin slices.
    fn sliced([near, middle, far]: [f64; 3]) -> (f64, f64) {
        let slices = 1000;
        let each = |i: i32| {
            let at = (f64::from(i) + 0.5) / f64::from(slices);
            let bend = 2.0 * (near - 2.0 * middle + far);
            let width = near + (far - near - bend) * at + bend * at * at;
            (at * 2620.0, width * 52.0 * 2620.0 / f64::from(slices))
        };
        let volume: f64 = (0..slices).map(|i| each(i).1).sum();
        let moment: f64 = (0..slices).map(|i| each(i).0 * each(i).1).sum();
        (volume / 1e9, moment / volume)
    }

    #[test]
    fn a_taper_is_a_doubt_of_a_weight_from_one_end_and_not_of_one_from_both() {
        for widths in [
            [214.0, 205.0, 193.0],
            [193.0, 205.0, 214.0],
            [150.0, 205.0, 230.0],
        ] {
            let (volume, centre) = sliced(widths);
            let whole = 700.0 * volume;
            let [near, middle, far] = widths;
            let sizes = [
                (Field::Length, 2620.0),
                (Field::WidthNear, near),
                (Field::WidthMiddle, middle),
                (Field::WidthFar, far),
                (Field::ThicknessNear, 52.0),
            ];
            let reading = |value| Reading::of_number(value, "");
            let sizes: Readings = sizes.map(|(field, value)| (field, reading(value))).into();
            let off = in_mm(centre_off_middle(&describe(&sizes, &[])).unwrap());
            assert!(
                (off - (centre - 1310.0).abs()).abs() < 0.01,
                "{off} {centre}"
            );

            let estimate = |more: &[(Field, f64)]| {
                let mut readings = sizes.clone();
                readings.extend(more.iter().map(|(field, value)| (*field, reading(*value))));
                let plank = describe(&readings, &[]);
                let inputs = Instruments::default().inputs(&readings);
                let taper = inputs.iter().any(|one| one.source == Source::OffMiddle);
                let found = propagate(&inputs, |moved| {
                    let plank = moved.map_or(plank.clone(), |(s, by)| plank.perturbed(s, by));
                    mass_as_weighed(&mut TraceOff, &plank).ok()
                });
                (found.unwrap(), taper)
            };
            // The known mass hangs at the near end, then at the far one.
            for from_end in [centre, 2620.0 - centre] {
                let arm = from_end * whole / (whole + 5.0);
                let (found, taper) =
                    estimate(&[(Field::BalanceMass, 5.0), (Field::BalanceArm, arm)]);
                assert!(taper && (in_kg(found.value) - whole).abs() <= in_kg(found.expanded()));
                let end = whole * from_end / 2620.0;
                let (found, taper) = estimate(&[(Field::WeightFirst, end)]);
                assert!(taper && (in_kg(found.value) - whole).abs() <= in_kg(found.expanded()));
                let other = (Field::WeightSecond, whole - end);
                let (found, taper) = estimate(&[(Field::WeightFirst, end), other]);
                assert!(!taper && (in_kg(found.value) - whole).abs() < 1e-9);
            }
        }
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
            let found = weighed(ends(first, Some(second), a), Some(length)).unwrap();
            prop_assert!((in_kg(found) - whole).abs() < 1e-9 * whole.max(1.0));
        }
    }
}
