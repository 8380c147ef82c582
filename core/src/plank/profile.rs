//! The line of a bent plank, for drawing it: how far each place lies off the straight.

use super::{Bend, BendShape, FormError, bend_left};
use crate::quantity::TraceOff;
use crate::quantity::{Length, mm};

/// The gap of a bend over the whole length of the plank, with its sign, whatever it was read over.
pub fn whole_gap(bend: &Bend, length: Length) -> Result<Length, FormError> {
    let gap = bend_left(&mut TraceOff, bend, length, length)?.inside;
    Ok(if bend.gap < mm(0.0) { -gap } else { gap })
}

/// Places along a plank of length `length` with how far each lies off the straight line between the
/// ends, positive when the marked face (or edge) is hollow. An even bend is a parabola, a kink two
/// straight legs. The gap is that over the whole length: see [`whole_gap`].
pub fn profile(bend: &Bend, whole_gap: Length, length: Length) -> Vec<(Length, Length)> {
    const STEPS: u32 = 24;
    let kink = match bend.shape {
        BendShape::Kink(place) if place > mm(0.0) && place < length => Some(place),
        BendShape::Kink(_) | BendShape::Even => None,
    };
    if let Some(place) = kink {
        return vec![(mm(0.0), mm(0.0)), (place, whole_gap), (length, mm(0.0))];
    }
    (0..=STEPS)
        .map(|step| {
            let t = f64::from(step) / f64::from(STEPS);
            (length * t, whole_gap * (4.0 * t * (1.0 - t)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::in_mm;

    #[test]
    fn a_kink_is_two_legs_and_keeps_its_side() {
        for gap in [9.0, -9.0] {
            let bend = |shape| Bend {
                gap: mm(gap),
                over: Some(mm(1200.0)),
                shape,
                signed: true,
            };
            let length = mm(2400.0);
            // Over half the length an even curve shows a quarter of its gap.
            let whole = whole_gap(&bend(BendShape::Even), length).unwrap();
            assert!((in_mm(whole) - 4.0 * gap).abs() < 1e-9, "{whole:?}");
            let kink = |at| profile(&bend(BendShape::Kink(mm(at))), mm(gap), length);
            let drawn: Vec<_> = kink(800.0)
                .iter()
                .map(|(x, y)| (in_mm(*x), in_mm(*y)))
                .collect();
            let wanted = [(0.0, 0.0), (800.0, gap), (2400.0, 0.0)];
            for (found, wanted) in drawn.iter().zip(wanted) {
                assert!((found.0 - wanted.0).abs() < 1e-9 && (found.1 - wanted.1).abs() < 1e-9);
            }
            assert_eq!(drawn.len(), 3);
            // A kink that is not in the plank has no legs.
            for outside in [-10.0, 0.0, 2400.0, 2500.0] {
                assert!(kink(outside).len() > 3);
            }
        }
    }

    #[test]
    fn an_even_curve_is_highest_in_the_middle_and_flat_at_its_ends() {
        let bend = Bend {
            gap: mm(9.0),
            over: None,
            shape: BendShape::Even,
            signed: true,
        };
        let drawn = profile(&bend, mm(9.0), mm(2400.0));
        let at = |length: f64| {
            drawn
                .iter()
                .find(|(x, _)| (*x - mm(length)).abs() < mm(1e-6))
        };
        let height = |length: f64| in_mm(at(length).unwrap().1);
        assert_eq!((height(0.0), height(2400.0)), (0.0, 0.0));
        assert!((height(1200.0) - 9.0).abs() < 1e-9);
        // A quarter of the way along a parabola stands at three quarters of its height.
        assert!((height(600.0) - 6.75).abs() < 1e-9 && (height(1800.0) - 6.75).abs() < 1e-9);
    }
}
