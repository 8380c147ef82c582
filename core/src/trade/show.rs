//! Volume and money as texts with their unit. It rounds for show only.

use super::cubic_metres;
use rust_decimal::{Decimal, RoundingStrategy};

/// To so many places, with the true minus.
pub fn rounded(value: Decimal, places: u32) -> String {
    let mut rounded = value.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
    rounded.rescale(places);
    rounded.to_string().replace('-', "−")
}

/// `166.84 EUR`; the number alone where no currency was given.
pub fn money(value: Decimal, currency: &str) -> String {
    with_currency(rounded(value, 2), currency)
}

fn with_currency(number: String, currency: &str) -> String {
    match currency {
        "" => number,
        currency => format!("{number} {currency}"),
    }
}

/// A price as it was agreed, with all its places and two at least.
pub fn price(value: Decimal, currency: &str) -> String {
    with_currency(rounded(value, value.normalize().scale().max(2)), currency)
}

/// Money that is short or left over, without its sign: where words say which.
pub fn money_either_way(value: Decimal, currency: &str) -> String {
    money(value.abs(), currency)
}

/// `11.51 bd ft`.
pub fn feet(value: Decimal) -> String {
    format!("{} bd ft", rounded(value, 2))
}

/// Board feet and cubic metres of one volume; the line may break between them.
pub fn volume(board_feet: Decimal) -> String {
    match cubic_metres(board_feet) {
        Some(metres) => format!("{} · {} m³", feet(board_feet), rounded(metres, 4)),
        None => feet(board_feet),
    }
}

/// A difference with its sign: `+1.40 bd ft`.
pub fn signed(value: Decimal, shown: impl Fn(Decimal) -> String) -> String {
    match value.is_sign_positive() && !value.is_zero() {
        true => format!("+{}", shown(value)),
        false => shown(value),
    }
}
