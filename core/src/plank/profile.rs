//! The line of a bent plank, for drawing it: how far each place lies off the straight.

use super::{Bend, BendShape, FormError, bend_left};
use crate::quantity::{Length, mm};

/// The gap of a bend over the whole length of the plank, with its sign, whatever it was read over.
pub fn whole_gap(bend: &Bend, length: Length) -> Result<Length, FormError> {
    let gap = bend_left(bend, length, length)?.inside;
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
