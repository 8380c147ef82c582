//! How far the far end of a twisted plank is turned against its near end, to be drawn.

use super::{Twist, TwistRead};
use crate::quantity::{Angle, Length, degrees, in_mm};

/// The angle between the two ends: atan(w / W), with the rise w read over W: the plank's width for the rise of a
/// corner, the stick's length for the gap at winding sticks. `None` where W is not known or nothing. Derived here:
/// geometry.
///
/// No published value: geometry, held against planks worked by hand.
///
/// ```
/// use stillwood_core::{plank::{Twist, TwistRead, end_turned}, quantity::{in_degrees, mm}};
/// let twist = Twist { rise: mm(12.0), read: TwistRead::Corner, hand: None };
/// let turned = end_turned(&twist, Some(mm(204.0))).unwrap();
/// assert!((in_degrees(turned) - 3.37).abs() < 0.01);
/// ```
pub fn end_turned(twist: &Twist, width: Option<Length>) -> Option<Angle> {
    let over = match twist.read {
        TwistRead::Corner => in_mm(width?),
        TwistRead::Sticks(stick) => in_mm(stick),
    };
    let turned = libm::atan2(in_mm(twist.rise), over).to_degrees();
    (over > 0.0).then(|| degrees(turned))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{in_degrees, mm};

    #[test]
    fn the_same_gap_turns_less_over_a_longer_stick() {
        let of = |read, width| {
            let twist = Twist {
                rise: mm(12.0),
                read,
                hand: None,
            };
            end_turned(&twist, width).map(in_degrees)
        };
        let corner = of(TwistRead::Corner, Some(mm(204.0))).unwrap();
        let sticks = of(TwistRead::Sticks(mm(408.0)), None).unwrap();
        assert!((corner - 3.366).abs() < 0.001, "{corner}");
        assert!((sticks - 1.685).abs() < 0.001, "{sticks}");
        assert_eq!(of(TwistRead::Corner, None), None);
        assert_eq!(of(TwistRead::Corner, Some(mm(0.0))), None);
    }
}
