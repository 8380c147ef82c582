//! How much wood a size holds, what it costs and what it weighs.

use super::given::{Given, InputKind, Unanswered};
use super::given::{Input, wanted};
use super::movement::DENSITY_OF;
use super::question::{Answer, Question, Way};
use crate::plank::{Plank, Side, Stations, mass_of, volume};
use crate::quantity::{Step, Trace, formula, in_kg, show};
use crate::trade::{AMOUNT, ExactLength, exact_board_feet, in_cubic_metres};
use rust_decimal::{Decimal, RoundingStrategy};

const LENGTH: Input = wanted("Length", InputKind::Length);
const WIDTH: Input = wanted("Width", InputKind::Length);
const THICKNESS: Input = wanted("Thickness", InputKind::Length);
const PIECES: Input = Input {
    begins: "1",
    ..wanted("How many", InputKind::Amount)
};
const PRICE: Input = Input {
    needed: false,
    ..wanted("Price", InputKind::Amount)
};
const FOOTAGE_OF: &[Input] = &[LENGTH, WIDTH, THICKNESS, PIECES, PRICE];

/// How much wood is it, and what does it cost?
pub(super) static FOOTAGE: Question = Question {
    asks: "How much wood is it, and what does it cost?",
    ways: &[
        Way {
            name: "price per bd ft",
            inputs: FOOTAGE_OF,
            answer: |given| footage(given, |feet, _, _| Some(feet)),
        },
        Way {
            name: "per m³",
            inputs: FOOTAGE_OF,
            answer: |given| footage(given, |_, metres, _| metres),
        },
        Way {
            name: "per piece",
            inputs: FOOTAGE_OF,
            answer: |given| footage(given, |_, _, pieces| Some(pieces)),
        },
    ],
};

/// What the price is multiplied by: of board feet, cubic metres and pieces.
type Charged = fn(Decimal, Option<Decimal>, Decimal) -> Option<Decimal>;

formula! {
    exact
    /// Several pieces of one footage.
    SEVERAL: "Footage of all", "bf", "bd ft";
    one: "bf₁", "of one piece", "bd ft";
    pieces: "n", "pieces", "";
    = one * pieces;
    range "any";
    source "arithmetic";
}

fn footage(given: &Given<'_>, charged: Charged) -> Result<Answer, Unanswered> {
    let exact = |side, input: Input| ExactLength::read(side, given.length_if_any(input.label));
    let mut steps: Vec<Step> = Vec::new();
    let too_many = || Unanswered("more digits than any yard has wood".into());
    let one = exact_board_feet(
        &mut steps,
        exact(Side::Length, LENGTH)?,
        exact(Side::Width, WIDTH)?,
        exact(Side::Thickness, THICKNESS)?,
    )
    .ok_or_else(too_many)?;
    let pieces = given.amount_if_any(PIECES.label).unwrap_or(Decimal::ONE);
    let feet = steps.exact(&SEVERAL, [one, pieces]).ok_or_else(too_many)?;
    let metres = in_cubic_metres(&mut steps, feet);
    let mut answer = Answer::on(
        "Nothing rounded, as measured; a yard's own rule may say otherwise. By definition: 1 bd ft is \
         1 ft × 12 in × 1 in, 1 m³ is 423.776 bd ft.",
    )
    .with("Board feet", format!("{} bd ft", rounded(feet, 2)));
    if let Some(metres) = metres {
        answer = answer.with("Cubic metres", format!("{} m³", rounded(metres, 4)));
    }
    if let Some(price) = given.amount_if_any(PRICE.label) {
        let units = charged(feet, metres, pieces).ok_or_else(too_many)?;
        let money = steps
            .exact_in("", &AMOUNT, [units, price])
            .ok_or_else(too_many)?;
        answer = answer.with("Price", rounded(money, 2).to_string());
    }
    Ok(answer.worked(steps))
}

fn rounded(value: Decimal, places: u32) -> Decimal {
    let mut rounded = value.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
    rounded.rescale(places);
    rounded
}

pub(super) static WEIGHT: Question = Question {
    asks: "How heavy will it be?",
    ways: &[Way {
        name: "",
        inputs: &[LENGTH, WIDTH, THICKNESS, DENSITY_OF],
        answer: weight,
    }],
};

fn weight(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let one = |input: Input| given.length(input.label).map(Stations::one);
    let plank = Plank {
        length: Some(given.length(LENGTH.label)?),
        widths: one(WIDTH)?,
        thicknesses: one(THICKNESS)?,
        ..Plank::default()
    };
    let density = given.density(DENSITY_OF.label)?;
    let mut steps = Vec::new();
    let volume = volume(&mut steps, &plank)?;
    let mass = mass_of(&mut steps, density, volume);
    Ok(
        Answer::on("Density × volume, at one moisture; a parallel plank. A definition.")
            .worked(steps)
            .with("Weight", show::mass(in_kg(mass), given.units)),
    )
}
