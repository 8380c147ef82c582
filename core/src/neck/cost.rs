//! What a part and a good blank cost in wood.
//!
//! It spreads the price of the plank over what comes of it; it never knows labour.

use crate::quantity::{Trace, TraceOff, formula};
use rust_decimal::Decimal;
use std::str::FromStr;

/// What one part costs: the plank's cost over the parts that it holds.
///
/// `None` when it holds none. Not rounded.
pub fn cost_per_part(plank_cost: Decimal, parts: u32) -> Option<Decimal> {
    each_costs(&mut TraceOff, "", plank_cost, parts)
}

formula! {
    exact
    /// Cost of a part.
    EACH_COSTS: "Wood for each", "c", given;
    paid: "C", "what the whole cost, tax included", given;
    parts: "n", "parts that come of it", "";
    = paid / parts;
    range "waste is paid for by the parts";
    source "arithmetic of shares";
}

/// [`cost_per_part`] in a currency, with its step.
///
/// No published value: a ratio, held against planks worked by hand.
pub fn each_costs(
    trace: &mut impl Trace,
    currency: &str,
    paid: Decimal,
    parts: u32,
) -> Option<Decimal> {
    trace.exact_in(currency, &EACH_COSTS, [paid, Decimal::from(parts)])
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
    good_blank_costs(
        &mut TraceOff,
        "",
        plank_cost,
        [parts, parts_per_blank],
        share,
    )
}

formula! {
    exact
    /// Cost of a good blank.
    PER_GOOD_BLANK: "Wood for one good blank", "c", given;
    paid: "P", "paid for the planks, with tax", given;
    each: "k", "parts to a blank", "";
    parts: "n", "parts that they hold", "";
    share: "s", "share expected to come through", "";
    = paid * each / (parts * share);
    range "a share over 0, up to 1";
    source "arithmetic of shares: what fails is paid for by what comes through";
}

/// [`cost_per_good_blank`] in a currency, with its step; of so many parts, so many to a blank.
///
/// No published value: a ratio, held against planks worked by hand.
pub fn good_blank_costs(
    trace: &mut impl Trace,
    currency: &str,
    paid: Decimal,
    [parts, each]: [u32; 2],
    share: f64,
) -> Option<Decimal> {
    if !(share > 0.0 && share <= 1.0) {
        return None;
    }
    let share = Decimal::from_str(&format!("{share:.12}")).ok()?;
    let values = [paid, Decimal::from(each), Decimal::from(parts), share];
    trace.exact_in(currency, &PER_GOOD_BLANK, values)
}

formula! {
    exact
    pub(crate) CARRIED: "What it carries", "c′", given;
    own: "c", "its own wood", given;
    paid: "P", "paid for the whole plank, with tax", given;
    through: "S", "the wood of the plank that came through, at its own cost", given;
    = own * paid / through;
    range "something of the plank came through";
    source "arithmetic of shares: what failed is paid for by what came through";
}

/// What each part of a plank carries once what failed is paid for by what came through: c P / S for a
/// part that came through, nothing for one that failed.
///
/// c is what the part cost itself, P all parts together, S those that came through. What they carry adds
/// up to P but for the last digit of division. `None` where nothing came through, for a cost that is less
/// than nothing, or a sum that is too large. Not rounded. Arithmetic of shares.
pub fn cost_carried(parts: &[(Decimal, bool)]) -> Option<Vec<Decimal>> {
    let (mut paid, mut through) = (Decimal::ZERO, Decimal::ZERO);
    for (own, came) in parts {
        if own.is_sign_negative() && !own.is_zero() {
            return None;
        }
        paid = paid.checked_add(*own)?;
        if *came {
            through = through.checked_add(*own)?;
        }
    }
    let carries = |(own, came): &(Decimal, bool)| match came {
        true => CARRIED.of([*own, paid, through]),
        false => Some(Decimal::ZERO),
    };
    if through.is_zero() {
        return None;
    }
    parts.iter().map(carries).collect()
}

formula! {
    exact
    /// A piece's part of what its parent cost.
    pub(crate) PART_OF_COST: "Its part of what the whole cost, by volume", "c", given;
    whole: "C", "what the whole cost", given;
    part: "v", "its volume", "m³";
    all: "V", "volume of all that was cut from the whole", "m³";
    = whole * part / all;
    range "waste is paid for by the pieces";
    source "arithmetic of shares";
}

/// What each child of a split piece carries: the piece's cost in parts of the children's volumes, m³.
///
/// Waste is paid for by the children. `None` for no children, a volume that is less than nothing, or
/// nothing in all. Not rounded; the parts add up to the cost but for the last digit of division.
/// Arithmetic of shares.
///
/// No published value: arithmetic of shares.
pub fn cost_by_volume(cost: Decimal, volumes: &[Decimal]) -> Option<Vec<Decimal>> {
    let mut whole = Decimal::ZERO;
    for volume in volumes {
        if volume.is_sign_negative() {
            return None;
        }
        whole = whole.checked_add(*volume)?;
    }
    volumes
        .iter()
        .map(|volume| PART_OF_COST.of([cost, *volume, whole]))
        .collect::<Option<Vec<_>>>()
        .filter(|parts| !parts.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_parts_carry_what_each_survivor_of_the_last_stage_carries() {
        let each = Decimal::from(171);
        let parts: Vec<(Decimal, bool)> = (0..16).map(|n| (each, n < 10)).collect();
        let carried = cost_carried(&parts).unwrap();
        assert_eq!(carried[0], Decimal::new(2736, 1));
        assert_eq!(carried[15], Decimal::ZERO);
        assert_eq!(cost_carried(&[(each, false)]), None);
        assert_eq!(cost_carried(&[]), None);
        assert_eq!(cost_carried(&[(-each, true)]), None);
        assert_eq!(cost_carried(&[(Decimal::MAX, true), (each, true)]), None);
    }

    #[test]
    fn a_split_shares_the_cost_by_volume() {
        let parts = cost_by_volume(Decimal::from(171), &[3, 3, 2].map(Decimal::from)).unwrap();
        assert_eq!(parts.iter().sum::<Decimal>(), Decimal::from(171));
        assert_eq!(parts[2], Decimal::new(4275, 2));
        assert_eq!(cost_by_volume(Decimal::ONE, &[]), None);
        assert_eq!(cost_by_volume(Decimal::ONE, &[Decimal::ZERO]), None);
        assert_eq!(
            cost_by_volume(Decimal::ONE, &[Decimal::from(-1), Decimal::from(3)]),
            None
        );
    }

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
