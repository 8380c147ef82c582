//! What a part and a good blank cost in wood.
//!
//! It spreads the price of the plank over what comes of it; it never knows labour.

use rust_decimal::Decimal;
use std::str::FromStr;

/// What one part costs: the plank's cost over the parts that it holds.
///
/// `None` when it holds none. Not rounded.
pub fn cost_per_part(plank_cost: Decimal, parts: u32) -> Option<Decimal> {
    plank_cost.checked_div(Decimal::from(parts))
}

/// What a good blank costs in wood: cost x parts per blank / (parts x share).
///
/// `share` is the share of the parts cut that is expected to end in a good blank, over 0 and up to 1;
/// all that fails is paid for by what comes through. `None` when no part, or none that comes through,
/// is expected, or for a share outside. Not rounded. Arithmetic of shares.
///
/// No published value: a ratio, held against planks worked by hand.
///
/// ```
/// use rust_decimal::Decimal;
/// use stillwood_core::neck::cost_per_good_blank;
/// // 171 for a plank of 9 laminates, five to a blank; 4.39 of the 9 come through, blanks at 0.93.
/// let each = cost_per_good_blank(Decimal::from(171), 9, 5, 4.39 / 9.0 * 0.93).unwrap();
/// assert_eq!(each.round().to_string(), "209");
/// ```
pub fn cost_per_good_blank(
    plank_cost: Decimal,
    parts: u32,
    parts_per_blank: u32,
    share: f64,
) -> Option<Decimal> {
    if !(share > 0.0 && share <= 1.0) {
        return None;
    }
    let share = Decimal::from_str(&format!("{share:.12}")).ok()?;
    let good = Decimal::from(parts).checked_mul(share)?;
    plank_cost
        .checked_mul(Decimal::from(parts_per_blank))?
        .checked_div(good)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cheap_plank_may_be_the_dearer() {
        // 11.00 against 14.50 a board foot on 11.8 of them, but 2.6 laminates come through, not 4.39.
        let dear = cost_per_good_blank(Decimal::from(171), 9, 5, 4.39 * 0.93 / 9.0).unwrap();
        let cheap = cost_per_good_blank(Decimal::new(1298, 1), 9, 5, 2.6 * 0.93 / 9.0).unwrap();
        assert_eq!(dear.round(), Decimal::from(209));
        assert_eq!(cheap.round(), Decimal::from(268));
    }

    #[test]
    fn nothing_is_divided_by_nothing() {
        assert_eq!(cost_per_part(Decimal::from(171), 0), None);
        assert_eq!(
            cost_per_part(Decimal::from(171), 9),
            Some(Decimal::from(19))
        );
        for share in [0.0, -0.1, 1.1, f64::NAN, 1e-20] {
            assert_eq!(cost_per_good_blank(Decimal::from(171), 9, 5, share), None);
        }
        assert_eq!(cost_per_good_blank(Decimal::from(171), 0, 5, 0.5), None);
        assert_eq!(cost_per_good_blank(Decimal::MAX, 9, 5, 0.5), None);
    }
}
