//! What sloping grain leaves of strength and stiffness, as a share of straight grain.
//!
//! It knows the slope alone: no knots, no single piece.

use super::{StiffnessError, within};
use crate::quantity::{Slope, Trace, formula};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Strength {
    /// Breaking load in bending: modulus of rupture.
    Bending,
    /// Height of the blow that breaks it.
    Impact,
    /// Crushing along the grain.
    Compression,
}

impl Strength {
    /// Share across the grain, and exponent, with which Hankinson's curve lies close to the tests.
    ///
    /// Wood Handbook, FPL-GTR-190 (2010), chapter 5, on slope of grain (read).
    fn fitted(self) -> (f64, f64) {
        match self {
            Strength::Bending => (0.1, 1.5),
            Strength::Impact => (0.05, 1.5),
            Strength::Compression => (0.1, 2.5),
        }
    }
}

/// Share of straight grain that is left on a slope: `N/P = q/(sinⁿ a + q cosⁿ a)`.
///
/// q is the value across the grain over that along it, from 0.01 to 1; n the exponent, from 1 to 3; a the
/// angle whose tangent is the slope. An error outside.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), equation 5-2, the form with any exponent (read in a public
/// encyclopedia; the number of the equation from memory).
///
/// No published value: its values for wood stand under `strength_on_the_slope`.
pub fn hankinson(across: f64, exponent: f64, slope: Slope) -> Result<f64, StiffnessError> {
    let q = within("a value across the grain over along", across, 0.01, 1.0)?;
    let n = within("an exponent", exponent, 1.0, 3.0)?;
    let tangent = within("a slope", slope.in_tangent().abs(), 0.0, 1e6)?;
    let angle = libm::atan(tangent);
    let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
    Ok(q / (libm::pow(sine, n) + q * libm::pow(cosine, n)))
}

/// Share of straight grain's strength by Hankinson's curve as fitted to the tests; see [`hankinson`].
///
/// At 1 in 25 to 1 in 10 the curve for bending lies 3 to 5 points below the tests: see [`strength_tested`].
pub fn strength_on_the_slope(strength: Strength, slope: Slope) -> Result<f64, StiffnessError> {
    let (across, exponent) = strength.fitted();
    hankinson(across, exponent, slope)
}

/// Share of straight grain's stiffness on a slope, from the least to the most that is published:
/// Hankinson's curve with n = 2 and q = 0.04 and 0.12.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 5, range of Q/P and n for the modulus of elasticity,
/// from memory.
pub fn stiffness_on_the_slope(slope: Slope) -> Result<(f64, f64), StiffnessError> {
    Ok((hankinson(0.04, 2.0, slope)?, hankinson(0.12, 2.0, slope)?))
}

/// Run of the slope, then what is left in bending, impact and compression, %.
const TESTED: [(f64, [f64; 3]); 6] = [
    (f64::INFINITY, [100.0, 100.0, 100.0]),
    (25.0, [96.0, 95.0, 100.0]),
    (20.0, [93.0, 90.0, 100.0]),
    (15.0, [89.0, 81.0, 100.0]),
    (10.0, [81.0, 62.0, 99.0]),
    (5.0, [55.0, 36.0, 93.0]),
];

/// Share of straight grain's strength that tests left on a slope, between the rows of the table on a
/// straight line over the slope.
///
/// Holds from straight grain to 1 in 5; an error for a steeper slope.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), Table 5-12 (read).
pub fn strength_tested(
    trace: &mut impl Trace,
    strength: Strength,
    slope: Slope,
) -> Result<f64, StiffnessError> {
    let steep = within("a slope", slope.in_tangent().abs(), 0.0, 0.2 + 1e-9)?;
    let column = strength as usize;
    let mut left = TESTED[5].1[column];
    for pair in TESTED.windows(2) {
        let ((run, before), (next_run, after)) = (pair[0], pair[1]);
        let (from, to) = (1.0 / run, 1.0 / next_run);
        if steep <= to {
            let row = [steep, from, to, before[column], after[column]];
            left = trace.work(&BETWEEN_ROWS, row);
            break;
        }
    }
    Ok(left / 100.0)
}

formula! {
    /// Between two rows of the table of tests.
    BETWEEN_ROWS: "Strength left, of that of straight grain", "N", "%";
    s: "s", "slope of the grain", "";
    from: "s₁", "the row's slope that is just straighter", "";
    to: "s₂", "the row's slope that is just steeper", "";
    before: "N₁", "left at s₁", "%";
    after: "N₂", "left at s₂", "%";
    = before + (s - from) / (to - from) * (after - before);
    range "straight grain to 1 in 5; on a straight line between the rows";
    source "Wood Handbook, FPL-GTR-190 (2010), Table 5-12 (read)";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use proptest::prelude::*;

    const ALL: [Strength; 3] = [Strength::Bending, Strength::Impact, Strength::Compression];

    #[test]
    fn straight_grain_loses_nothing_and_right_across_is_the_share_across() {
        for strength in ALL {
            let straight = Slope::tangent(0.0);
            assert_eq!(strength_on_the_slope(strength, straight), Ok(1.0));
            assert_eq!(strength_tested(&mut TraceOff, strength, straight), Ok(1.0));
        }
        let across = hankinson(0.05, 1.5, Slope::tangent(1e6)).unwrap();
        assert!((across - 0.05).abs() < 1e-6);
    }

    #[test]
    fn steeper_than_1_in_5_was_not_tested() {
        let steep = strength_tested(&mut TraceOff, Strength::Bending, Slope::one_in(4.0));
        assert!(matches!(steep, Err(StiffnessError::OutOfRange { .. })));
        assert!(
            strength_tested(&mut TraceOff, Strength::Bending, Slope::tangent(f64::NAN)).is_err()
        );
        assert!(hankinson(0.0, 2.0, Slope::one_in(10.0)).is_err());
    }

    #[test]
    fn the_curve_stays_close_to_the_tests_it_was_fitted_to() {
        for strength in ALL {
            for (run, _) in &TESTED[1..] {
                let slope = Slope::one_in(*run);
                let curve = strength_on_the_slope(strength, slope).unwrap();
                let tests = strength_tested(&mut TraceOff, strength, slope).unwrap();
                assert!((curve - tests).abs() < 0.09, "{strength:?} 1 in {run}");
            }
        }
    }

    proptest! {
        #[test]
        fn steeper_is_never_stronger(a in 0.0..0.2f64, b in 0.0..0.2f64) {
            let (flat, steep) = (Slope::tangent(a.min(b)), Slope::tangent(a.max(b)));
            for strength in ALL {
                let left = |slope| strength_tested(&mut TraceOff, strength, slope).unwrap();
                prop_assert!(left(steep) <= left(flat) + 1e-12);
                prop_assert_eq!(left(flat), left(Slope::tangent(-a.min(b))));
            }
            let (least, most) = stiffness_on_the_slope(steep).unwrap();
            prop_assert!(least <= most && most <= 1.0);
        }
    }
}
