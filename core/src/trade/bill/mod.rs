//! The yard's own tally against ours: where they differ, and which custom of the trade explains it.
//!
//! It tries customs and says how well each fits. It never says that a yard cheats, and from a total
//! alone it never picks one of several customs that fit.

mod evidence;
mod habit;
#[cfg(test)]
mod tests;

pub use habit::Habit;

use super::{Halves, MeasureError, TallyLine, TallyRule, board_feet, board_feet_of};
use crate::order;
use crate::quantity::Derivation;
use habit::{candidates, footages};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use std::collections::BTreeSet;

/// What a bill counts in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TallyUnit {
    #[default]
    BoardFoot,
    CubicMetre,
}

/// A line of the yard's tally.
#[derive(Debug, Clone, PartialEq)]
pub struct BilledLine {
    /// The plank's mark, as ours.
    pub mark: String,
    /// What the yard charges, in the bill's unit and with the places that it printed.
    pub quantity: Decimal,
}

/// What the yard gave.
#[derive(Debug, Clone, PartialEq)]
pub enum Billed {
    Total(Decimal),
    /// Plank by plank.
    Lines(Vec<BilledLine>),
}

/// The yard's tally.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    pub unit: TallyUnit,
    pub billed: Billed,
}

/// A candidate: the agreed rule with none, one or two habits changed, and how well it fits the bill.
#[derive(Debug, Clone, PartialEq)]
pub struct Explanation {
    /// What differs from the agreed rule; empty is the agreed rule itself.
    pub habits: Vec<Habit>,
    /// The footage that it gives, in board feet.
    pub board_feet: Decimal,
    /// What it leaves unexplained: the sum of the gaps, each without its sign, in board feet.
    pub left: Decimal,
    /// Whether it agrees with every figure of the bill within the places printed.
    pub fits: bool,
    /// Whether it agrees with every figure within twice its uncertainty: that of our own measuring and of
    /// the places printed.
    pub nearly: bool,
    /// How well it explains the bill for how much it assumes: less is better, see `bill/evidence.rs`.
    pub criterion: f64,
}

impl Explanation {
    /// How it was worked out: what was changed, and what that leaves.
    pub fn working(&self) -> Derivation {
        let habits: Vec<String> = self.habits.iter().map(|habit| habit.in_words()).collect();
        let changed = match habits.is_empty() {
            true => "The agreed rule as it stands".to_owned(),
            false => format!("The agreed rule, but {}", habits.join(" and ")),
        };
        Derivation::note(
            format!(
                "{changed}: every plank's footage by that, added up, is {} bd ft. What that leaves of the yard's \
                 figures, each gap without its sign, is {} bd ft.",
                self.board_feet.round_dp(2),
                self.left.round_dp(2)
            ),
            "the customs of the trade, alone and by twos, each tried on the planks as measured",
        )
    }
}

/// A plank on both tallies.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    pub mark: String,
    /// By the agreed rule, board feet.
    pub ours: Decimal,
    /// By the bill, board feet.
    pub theirs: Decimal,
    /// Theirs less ours in money, where a price is known.
    pub money: Option<Decimal>,
}

impl Gap {
    /// Theirs less ours, board feet.
    pub fn difference(&self) -> Decimal {
        self.theirs.saturating_sub(self.ours)
    }
}

/// What can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Conclusion {
    /// The bill is what the agreed rule gives.
    Agrees,
    /// The bill is what the agreed rule gives, as far as our own measuring can tell.
    NearlyAgrees,
    /// The first explanation fits, and no other does as simply.
    Explained,
    /// So many explanations fit; a total alone can't tell between them. The lines can.
    CannotTellFromTotal(usize),
    /// So many explanations, each as simple, fit every line of the bill.
    CannotTell(usize),
    /// None of the customs tried fits.
    Unexplained,
    /// Planks of ours have no footage, so that a total can't be compared; or none is on both tallies.
    NotComparable,
}

/// The yard's tally against ours.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// By the agreed rule, all planks that have a footage, board feet.
    pub ours: Decimal,
    /// By the bill, board feet.
    pub theirs: Decimal,
    /// Theirs less ours, in money, where a price is known.
    pub money: Option<Decimal>,
    /// Plank by plank, where the bill has lines.
    pub planks: Vec<Gap>,
    /// Planks of ours that the bill doesn't have.
    pub not_billed: Vec<String>,
    /// Lines of the bill that are none of ours, or there twice.
    pub not_ours: Vec<String>,
    /// Planks of ours without a footage, and why.
    pub not_measured: Vec<(String, MeasureError)>,
    /// The explanations tried, best first.
    pub explanations: Vec<Explanation>,
    /// What can be said.
    pub conclusion: Conclusion,
}

/// A figure of the bill in board feet, and half of its last printed place.
#[derive(Clone, Copy)]
struct Figure {
    value: Decimal,
    half_place: Decimal,
}

impl Figure {
    fn read(quantity: Decimal, unit: TallyUnit) -> Self {
        let half_place = Decimal::try_new(5, quantity.scale().min(27) + 1).unwrap_or_default();
        match unit {
            TallyUnit::BoardFoot => Self {
                value: quantity,
                half_place,
            },
            TallyUnit::CubicMetre => Self {
                value: board_feet_of(quantity).unwrap_or(Decimal::MAX),
                half_place: board_feet_of(half_place).unwrap_or_default(),
            },
        }
    }

    fn gap(self, footage: Decimal) -> Decimal {
        self.value
            .checked_sub(footage)
            .unwrap_or(Decimal::MAX)
            .abs()
    }

    /// The gap in standard uncertainties: of our own footage, and of the places that were printed.
    fn in_standards(self, footage: Decimal, ours: f64) -> f64 {
        let number = |value: Decimal| value.to_f64().unwrap_or(f64::MAX);
        let printed = number(self.half_place);
        number(self.gap(footage)) / (ours * ours + printed * printed / 3.0).sqrt()
    }

    fn fits(self, footage: Decimal) -> bool {
        self.gap(footage) <= self.half_place
    }
}

fn sum(values: impl Iterator<Item = Decimal>) -> Decimal {
    values.fold(Decimal::ZERO, |sum, value| {
        sum.checked_add(value).unwrap_or(Decimal::MAX)
    })
}

/// The fit of every candidate, the one that explains most for how much it assumes first.
fn ranked(
    lines: &[&TallyLine],
    agreed: &TallyRule,
    figures: &[Figure],
    total: bool,
) -> Vec<Explanation> {
    let candidates = candidates(lines, agreed);
    let tried = |customs: usize| {
        let as_many = candidates
            .iter()
            .filter(|(habits, _)| habits.len() == customs);
        as_many.count()
    };
    let mut explanations: Vec<Explanation> = candidates
        .iter()
        .map(|(habits, each)| {
            let footage = sum(each.iter().copied());
            let (against, standard) = match total {
                true => (vec![footage], vec![evidence::of_a_sum(each)]),
                false => (each.clone(), each.iter().map(evidence::of_one).collect()),
            };
            let pairs = || figures.iter().zip(&against);
            let gaps: Vec<f64> = pairs()
                .zip(standard)
                .map(|((figure, footage), ours)| figure.in_standards(*footage, ours))
                .collect();
            Explanation {
                board_feet: footage,
                left: sum(pairs().map(|(figure, footage)| figure.gap(*footage))),
                fits: pairs().all(|(figure, footage)| figure.fits(*footage)),
                nearly: gaps.iter().all(|gap| gap.abs() <= 2.0),
                criterion: evidence::criterion(&gaps, habits.len(), tried(habits.len())),
                habits: habits.clone(),
            }
        })
        .collect();
    order::sort_by(&mut explanations, |a, b| {
        a.criterion
            .total_cmp(&b.criterion)
            .then_with(|| a.left.cmp(&b.left))
    });
    explanations
}

fn conclude(explanations: &[Explanation], total: bool) -> Conclusion {
    let Some(best) = explanations.first() else {
        return Conclusion::Unexplained;
    };
    if explanations
        .iter()
        .any(|one| one.fits && one.habits.is_empty())
    {
        return Conclusion::Agrees;
    }
    if !best.fits && !best.nearly {
        return Conclusion::Unexplained;
    }
    if best.habits.is_empty() {
        return Conclusion::NearlyAgrees;
    }
    let rival = |one: &&Explanation| match total {
        // One figure says nothing between customs that all give it.
        true => one.fits || (one.nearly && !best.fits),
        false => one.criterion - best.criterion < evidence::NO_DIFFERENCE,
    };
    match (total, explanations.iter().filter(rival).count()) {
        (_, 0 | 1) => Conclusion::Explained,
        (true, several) => Conclusion::CannotTellFromTotal(several),
        (false, several) => Conclusion::CannotTell(several),
    }
}

/// Sets the yard's tally against ours and ranks the customs that would explain a difference.
///
/// `agreed` is the rule that was agreed on, `price` the price of a board foot where it is known. A
/// custom fits when it agrees with every figure of the bill within half of the last place printed. Customs
/// are ranked by the information criterion in `bill/evidence.rs`, which weighs the fit against the number of
/// customs assumed and of those tried. From a total, every custom (or pair of customs) that fits is a
/// rival; from lines, only those that the criterion can't tell apart.
///
/// ```
/// use rust_decimal::Decimal;
/// use stillwood_core::trade::{
///     Bill, Billed, Conclusion, TallyLine, Sawn, TallyRule, TallyUnit, compare_with_bill,
/// };
/// use stillwood_core::quantity::inches;
/// let plank = TallyLine {
///     mark: "C1".into(),
///     sawn: Sawn {
///         length: Some(inches(96.0)), width: Some(inches(9.0)),
///         thickness: Some(inches(1.0)), nominal: Some(inches(1.0)),
///     },
///     width_with_wane: None,
///     mass: None,
/// };
/// let bill = Bill { unit: TallyUnit::BoardFoot, billed: Billed::Total(Decimal::new(600, 2)) };
/// let found = compare_with_bill(&[plank], &TallyRule::default(), &bill, None);
/// assert_eq!(found.conclusion, Conclusion::Agrees);
/// ```
pub fn compare_with_bill(
    ours: &[TallyLine],
    agreed: &TallyRule,
    bill: &Bill,
    price: Option<Decimal>,
) -> Comparison {
    let mut halves = Halves::default();
    let (mut measured, mut not_measured) = (Vec::new(), Vec::new());
    for line in ours {
        match board_feet(agreed, &line.sawn, &mut halves) {
            Ok(_) => measured.push(line),
            Err(why) => not_measured.push((line.mark.clone(), why)),
        }
    }
    let footage_of = |lines: &[&TallyLine]| footages(lines, agreed, &[]).unwrap_or_default();
    let our_total = sum(footage_of(&measured).into_iter());
    let worth = |difference: Decimal| price.and_then(|price| difference.checked_mul(price));
    let mut found = Comparison {
        ours: our_total,
        theirs: Decimal::ZERO,
        money: None,
        planks: Vec::new(),
        not_billed: Vec::new(),
        not_ours: Vec::new(),
        not_measured,
        explanations: Vec::new(),
        conclusion: Conclusion::NotComparable,
    };
    match &bill.billed {
        Billed::Total(total) => {
            let figure = Figure::read(*total, bill.unit);
            found.theirs = figure.value;
            if found.not_measured.is_empty() && !measured.is_empty() {
                found.explanations = ranked(&measured, agreed, &[figure], true);
                found.conclusion = conclude(&found.explanations, true);
            }
        }
        Billed::Lines(billed) => {
            let mut seen = BTreeSet::new();
            let (mut both, mut figures) = (Vec::new(), Vec::new());
            for line in billed {
                let mark = line.mark.trim();
                let figure = Figure::read(line.quantity, bill.unit);
                found.theirs = sum([found.theirs, figure.value].into_iter());
                if !seen.insert(mark) || !ours.iter().any(|l| l.mark.trim() == mark) {
                    found.not_ours.push(line.mark.clone());
                } else if let Some(own) = measured.iter().find(|l| l.mark.trim() == mark) {
                    both.push(*own);
                    figures.push(figure);
                }
            }
            let absent = ours.iter().filter(|l| !seen.contains(l.mark.trim()));
            found.not_billed = absent.map(|l| l.mark.clone()).collect();
            let each = footage_of(&both).into_iter().zip(&figures).zip(&both);
            found.planks = each
                .map(|((ours, figure), line)| Gap {
                    mark: line.mark.clone(),
                    ours,
                    theirs: figure.value,
                    money: figure.value.checked_sub(ours).and_then(worth),
                })
                .collect();
            if !both.is_empty() {
                found.explanations = ranked(&both, agreed, &figures, false);
                found.conclusion = conclude(&found.explanations, false);
            }
        }
    }
    found.money = found.theirs.checked_sub(found.ours).and_then(worth);
    found
}
