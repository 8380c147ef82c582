//! Quantities as core shows them, with the decimal sign of the language that is spoken: the one place where it is
//! chosen for figures. What core says in sentences goes through [`super::Spoken`].

use super::Language;
use super::spoken::{Spoken, spoken_language, with_comma};
use rust_decimal::Decimal;
use stillwood_core::plank::Field;
use stillwood_core::quantity::read::{NotAnAmount, Units, amount};
use stillwood_core::quantity::show;
use stillwood_core::record::FieldKind;
use stillwood_core::trade::show as trade;

fn shown(text: String) -> String {
    match spoken_language() {
        Language::English => text,
        Language::German => with_comma(&text),
    }
}

/// What the app itself puts into a field, with the decimal sign of the language. It reads the same as before: an
/// amount that three digits behind the sign would make doubtful (`1.125`) gets a nought more (`1.1250`).
pub fn in_field(kind: FieldKind, text: &str) -> String {
    if !kind.is_number() {
        return text.to_owned();
    }
    let mut text = shown(text.to_owned());
    if kind == FieldKind::Money
        && matches!(amount(&text), Err(NotAnAmount::ThousandsOrDecimals(..)))
    {
        text.push('0');
    }
    text
}

/// What was typed, in the quotes of the language.
pub fn quoted(typed: &str) -> String {
    match spoken_language() {
        Language::English => format!("“{typed}”"),
        Language::German => format!("„{typed}“"),
    }
}

/// A decimal as it was written with a point, as money and volumes are.
pub fn decimal(written: &str) -> String {
    shown(written.replace('-', "−"))
}

/// A plank's reading by its field.
pub fn reading(field: Field, value: f64, units: Units) -> String {
    stillwood_core::plank::shown(field, value, units).spoken()
}

/// A number with at most `places` decimals.
pub fn number(value: f64, places: usize) -> String {
    shown(show::number(value, places))
}

/// A length.
pub fn length(mm: f64, units: Units) -> String {
    shown(show::length(mm, units))
}

/// A small gap.
pub fn gap(mm: f64, units: Units) -> String {
    shown(show::gap(mm, units))
}

/// Length, width and thickness in one.
pub fn sizes(mm: [Option<f64>; 3], units: Units) -> String {
    shown(show::sizes(mm, units))
}

/// A length along a plank.
pub fn long_length(mm: f64, units: Units) -> String {
    shown(show::long_length(mm, units))
}

/// A mass.
pub fn mass(kg: f64, units: Units) -> String {
    shown(show::mass(kg, units))
}

/// An area.
pub fn area(mm2: f64, units: Units) -> String {
    shown(show::area(mm2, units))
}

/// A density.
pub fn density(kg_per_m3: f64, units: Units) -> String {
    shown(show::density(kg_per_m3, units))
}

/// A moisture content.
pub fn moisture(percent: f64) -> String {
    shown(show::moisture(percent))
}

/// A temperature.
pub fn temperature(celsius: f64, units: Units) -> String {
    shown(show::temperature(celsius, units))
}

/// A slope of grain.
pub fn slope(tangent: f64) -> String {
    show::slope(tangent).spoken()
}

/// A slope of grain with its range.
pub fn slope_within(tangent: f64, expanded: f64) -> String {
    show::slope_within(tangent, expanded).spoken()
}

/// An angle.
pub fn angle(degrees: f64) -> String {
    shown(show::angle(degrees))
}

/// A value with its ±.
pub fn give_or_take(value: f64, expanded: f64, places: usize) -> String {
    shown(show::give_or_take(value, expanded, places))
}

/// A gap with its ±.
pub fn gap_within(mm: f64, expanded_mm: f64, units: Units) -> String {
    shown(show::gap_within(mm, expanded_mm, units))
}

/// A length with its ±.
pub fn length_within(mm: f64, expanded_mm: f64, units: Units) -> String {
    shown(show::length_within(mm, expanded_mm, units))
}

/// A mass with its ±.
pub fn mass_within(kg: f64, expanded_kg: f64, units: Units) -> String {
    shown(show::mass_within(kg, expanded_kg, units))
}

/// A density with its ±.
pub fn density_within(kg_per_m3: f64, expanded: f64, units: Units) -> String {
    shown(show::density_within(kg_per_m3, expanded, units))
}

/// A decimal to so many places.
pub fn rounded(value: Decimal, places: u32) -> String {
    shown(trade::rounded(value, places))
}

/// `166.84 EUR`; the number alone where no currency was given.
pub fn money(value: Decimal, currency: &str) -> String {
    shown(trade::money(value, currency))
}

/// A price as it was agreed, with all its places.
pub fn price(value: Decimal, currency: &str) -> String {
    shown(trade::price(value, currency))
}

/// Money that is short or left over, without its sign: where words say which.
pub fn money_either_way(value: Decimal, currency: &str) -> String {
    shown(trade::money_either_way(value, currency))
}

/// `11.51 bd ft`.
pub fn feet(value: Decimal) -> String {
    shown(trade::feet(value))
}

/// Board feet and cubic metres of one volume; the line may break between them.
pub fn volume(board_feet: Decimal) -> String {
    shown(trade::volume(board_feet))
}

/// A difference with its sign: `+1.40 bd ft`.
pub fn signed(value: Decimal, shown: impl Fn(Decimal) -> String) -> String {
    trade::signed(value, shown)
}

/// A small gap without its sign.
pub fn gap_either_way(mm: f64, units: Units) -> String {
    shown(show::gap_either_way(mm, units))
}

/// A share in whole per cent.
pub use stillwood_core::quantity::show::whole_percent;
