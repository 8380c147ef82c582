//! How a plank's bill was worked out, to be told.
//!
//! Money itself is decimal ([`super::tally`]); the steps told here are the same ones in plain numbers,
//! and a test holds them to the bill, to the cent. They never stand in for it.

use super::super::board_measure::{charged_sizes, inches_in_quarters};
use super::{PriceBasis, PricesAre, TalliedLine, TallyLine, Terms};
use crate::quantity::{Derivation, Step, Trace, formula, in_kg};
use crate::trade::TallyMeasure;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

formula! {
    /// Footage, nothing rounded.
    FOOTAGE: "Footage", "bf", "bf";
    l: "L", "length charged", "ft";
    w: "W", "width charged", "in";
    t: "T", "thickness charged", "in";
    = l * w * t / 12.0;
    range "any";
    source "the definition of the board foot: 1 ft × 12 in × 1 in";
}

formula! {
    /// Square feet of the face.
    FACE: "Square feet of the face", "F", "sq ft";
    l: "L", "length charged", "ft";
    w: "W", "width charged", "in";
    = l * w / 12.0;
    range "to the nearest whole foot after that, exact halves down and up by turns";
    source "the hardwood trade's surface measure (read as quoted)";
}

formula! {
    /// Footage by surface measure.
    BY_FACE: "Footage by surface measure", "bf", "bf";
    face: "SM", "surface measure: the face in whole square feet", "sq ft";
    t: "T", "thickness in quarters of an inch, at least 1", "in";
    = face * t;
    range "any";
    source "the hardwood trade's surface measure (read as quoted)";
}

formula! {
    /// With the rule's percentage.
    ADDED: "Footage with the yard's percentage", "bf′", "bf";
    bf: "bf", "footage", "bf";
    p: "p", "added by the rule", "%";
    = bf * (1.0 + p / 100.0);
    range "−100 to 1000 %";
    source "the visit's tally rule";
}

formula! {
    /// Board feet in cubic metres.
    CUBIC: "In cubic metres", "V", "m³";
    bf: "bf", "footage", "bf";
    = bf * 0.002359737216;
    range "any";
    source "the definition of the board foot, exact";
}

formula! {
    /// Price of what is charged.
    AMOUNT: "Price", "P", "¤";
    n: "n", "what is charged", "";
    each: "p", "the price of one", "¤";
    = n * each;
    range "any";
    source "arithmetic";
}

formula! {
    /// With the discount taken off.
    DISCOUNTED: "With the discount taken off", "P′", "¤";
    p: "P", "price", "¤";
    d: "d", "discount", "%";
    = p * (1.0 - d / 100.0);
    range "0 to 100 %";
    source "the visit's terms";
}

formula! {
    /// Tax on top.
    TAXED: "With tax", "G", "¤";
    net: "N", "without tax, to the cent", "¤";
    t: "t", "tax", "%";
    = net * (1.0 + t / 100.0);
    range "any";
    source "the visit's terms";
}

formula! {
    /// Tax that is in the price.
    UNTAXED: "Without tax", "N", "¤";
    gross: "G", "with tax, to the cent", "¤";
    t: "t", "tax", "%";
    = gross / (1.0 + t / 100.0);
    range "any";
    source "the visit's terms";
}

formula! {
    /// Several pieces of one footage.
    SEVERAL: "Footage of all", "bf", "bf";
    one: "bf₁", "of one piece", "bf";
    pieces: "n", "pieces", "";
    = one * pieces;
    range "any";
    source "arithmetic";
}

/// Footage and cubic metres of pieces alike, in plain numbers, with their steps: length in feet, width and
/// thickness in inches. To tell it, never for money itself.
pub fn explain_pieces(steps: &mut Vec<Step>, [l, w, t]: [f64; 3], pieces: f64) {
    let one = steps.work(&FOOTAGE, [l, w, t]);
    let all = steps.work(&SEVERAL, [one, pieces]);
    steps.work(&CUBIC, [all]);
}

/// The price of so many units, in plain numbers, with its step.
pub fn explain_price(steps: &mut Vec<Step>, units: f64, each: f64) {
    steps.work(&AMOUNT, [units, each]);
}

/// How a plank's bill was worked out from its sizes and its pile's terms; what can't be reckoned is
/// said.
pub fn explain_charge(line: &TallyLine, terms: &Terms, tallied: &TalliedLine) -> Derivation {
    let mut working = Derivation::default();
    let bf = match &tallied.board_feet {
        Ok(feet) => footage(&mut working, line, terms, *feet),
        Err(why) => {
            working.notes.push(format!("No footage: {why}."));
            None
        }
    };
    match (&tallied.money, terms.price) {
        (Ok(_), Some((price, basis))) => {
            let units = match basis {
                PriceBasis::BoardFoot => bf,
                PriceBasis::CubicMetre => bf.map(|bf| working.steps.work(&CUBIC, [bf])),
                PriceBasis::Piece => Some(1.0),
                PriceBasis::Kilogram => line.mass.map(in_kg),
            };
            if let Some(units) = units {
                working.notes.push(format!("The price is {}.", basis.per()));
                money(&mut working, units, price, terms);
            }
        }
        (Err(why), Some(_)) => working.notes.push(format!("No price: {why}.")),
        (_, None) => {}
    }
    working
}

fn number(value: Decimal) -> f64 {
    value.to_f64().unwrap_or(f64::NAN)
}

fn footage(
    working: &mut Derivation,
    line: &TallyLine,
    terms: &Terms,
    tallied: Decimal,
) -> Option<f64> {
    let rule = &terms.rule;
    let [length, width, thickness] = charged_sizes(rule, &line.sawn).ok()?;
    let (l, w) = (number(length.in_feet()), number(width.in_inches()));
    working
        .notes
        .push(format!("The rule: {}.", rule.in_words()));
    let bf = match rule.measure {
        TallyMeasure::Exact => {
            let t = number(thickness.in_inches());
            working.steps.work(&FOOTAGE, [l, w, t])
        }
        TallyMeasure::SurfaceMeasure => {
            working.steps.work(&FACE, [l, w]);
            let quarters = inches_in_quarters(thickness);
            // What the turn of an exact half made of it, as tallied.
            let factor = Decimal::ONE + rule.added_percent / Decimal::ONE_HUNDRED;
            let whole = tallied.checked_div(quarters.checked_mul(factor)?)?;
            working
                .steps
                .work(&BY_FACE, [number(whole.round()), number(quarters)])
        }
    };
    Some(match rule.added_percent.is_zero() {
        true => bf,
        false => working.steps.work(&ADDED, [bf, number(rule.added_percent)]),
    })
}

fn money(working: &mut Derivation, units: f64, price: Decimal, terms: &Terms) {
    let mut amount = working.steps.work(&AMOUNT, [units, number(price)]);
    if !terms.discount_percent.is_zero() {
        amount = working
            .steps
            .work(&DISCOUNTED, [amount, number(terms.discount_percent)]);
    }
    let cents = libm::round(amount * 100.0) / 100.0;
    let tax = number(terms.tax_percent);
    match terms.prices_are {
        PricesAre::Net => working.steps.work(&TAXED, [cents, tax]),
        PricesAre::Gross => working.steps.work(&UNTAXED, [cents, tax]),
    };
    working
        .notes
        .push("Money is reckoned in decimals, to the cent, halves up.".into());
}
