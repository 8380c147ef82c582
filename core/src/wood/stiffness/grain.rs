//! What sloping grain leaves of strength in bending, as a share of straight grain.
//!
//! It knows the slope alone: no knots, no single piece.

use super::{StiffnessError, within};
use crate::quantity::{Slope, Trace, formula};

/// Run of the slope, then what is left of the modulus of rupture in bending, %.
const TESTED: [(f64, f64); 6] = [
    (f64::INFINITY, 100.0),
    (25.0, 96.0),
    (20.0, 93.0),
    (15.0, 89.0),
    (10.0, 81.0),
    (5.0, 55.0),
];

/// Share of straight grain's strength in bending that tests left on a slope, between the rows of the table on a
/// straight line over the slope.
///
/// Holds from straight grain to 1 in 5; an error for a steeper slope.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), Table 5-12 (read).
pub fn strength_tested(trace: &mut impl Trace, slope: Slope) -> Result<f64, StiffnessError> {
    let steep = within("a slope", slope.in_tangent().abs(), 0.0, 0.2 + 1e-9)?;
    let mut left = TESTED[5].1;
    for pair in TESTED.windows(2) {
        let ((run, before), (next_run, after)) = (pair[0], pair[1]);
        let (from, to) = (1.0 / run, 1.0 / next_run);
        if steep <= to {
            let row = [steep, from, to, before, after];
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

    #[test]
    fn straight_grain_loses_nothing() {
        assert_eq!(strength_tested(&mut TraceOff, Slope::tangent(0.0)), Ok(1.0));
    }

    #[test]
    fn steeper_than_1_in_5_was_not_tested() {
        let steep = strength_tested(&mut TraceOff, Slope::one_in(4.0));
        assert!(matches!(steep, Err(StiffnessError::OutOfRange { .. })));
        assert!(strength_tested(&mut TraceOff, Slope::tangent(f64::NAN)).is_err());
    }

    proptest! {
        #[test]
        fn steeper_is_never_stronger(a in 0.0..0.2f64, b in 0.0..0.2f64) {
            let left = |tangent: f64| strength_tested(&mut TraceOff, Slope::tangent(tangent)).unwrap();
            prop_assert!(left(a.max(b)) <= left(a.min(b)) + 1e-12);
            prop_assert_eq!(left(a), left(-a));
        }
    }
}
