//! The yard's own tally against ours: where they differ, and which custom of the trade explains it.
//!
//! It tries customs and says how well each fits. It never says that a yard cheats, and from a total
//! alone it never picks one of several customs that fit.

mod evidence;
mod habit;
#[cfg(test)]
mod tests;

pub use habit::Habit;

use super::{TallyLine, TallyRule, board_feet_of};
use crate::order;
use crate::quantity::Derivation;
use habit::{candidates, footages};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

/// How many of the nearest are told of where none fits.
const NEAREST: usize = 3;

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
pub struct BillExplanation {
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

impl BillExplanation {
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

/// What can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Conclusion {
    /// The bill is what the agreed rule gives.
    Agrees,
    /// The bill is what the agreed rule gives, as far as our own measuring can tell.
    NearlyAgrees,
    /// One explanation fits or nearly fits, and no other does as simply.
    Explained,
    /// Several explanations fit or nearly fit; a total alone can't tell between them. The lines can.
    CannotTellFromTotal,
    /// Several explanations, each as simple, fit or nearly fit every line of the bill.
    CannotTell,
    /// None of the customs tried fits or nearly fits.
    Unexplained,
    /// Planks of ours have no footage, so that a total can't be compared; or none is on both tallies.
    NotComparable,
}

/// The yard's tally against ours.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    pub conclusion: Conclusion,
    /// The explanations that the conclusion speaks of, best first: the one, those that can't be told apart, or where
    /// none fits the nearest three. None where the agreed rule agrees.
    pub told: Vec<BillExplanation>,
}

impl Comparison {
    fn not_comparable() -> Self {
        Self {
            conclusion: Conclusion::NotComparable,
            told: Vec::new(),
        }
    }

    /// Whether all that is told of fits, and does not only nearly fit.
    pub fn all_fit(&self) -> bool {
        self.told.iter().all(|one| one.fits)
    }
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

/// The fit of every candidate, the one that explains most for how much it assumes first. `compared` are the places in
/// the tally of the planks that the figures speak of.
fn ranked(
    ours: &[(&TallyLine, &TallyRule)],
    compared: &[usize],
    agreed: &TallyRule,
    figures: &[Figure],
    total: bool,
) -> Vec<BillExplanation> {
    let candidates = candidates(ours, compared, agreed);
    let tried = |customs: usize| {
        let as_many = candidates
            .iter()
            .filter(|(habits, _)| habits.len() == customs);
        as_many.count()
    };
    let mut explanations: Vec<BillExplanation> = candidates
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
            BillExplanation {
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

fn conclude(explanations: Vec<BillExplanation>, total: bool) -> Comparison {
    let of = |conclusion, told| Comparison { conclusion, told };
    let agreed = |one: &BillExplanation| one.habits.is_empty();
    if explanations.iter().any(|one| one.fits && agreed(one)) {
        return of(Conclusion::Agrees, Vec::new());
    }
    let (mut told, others): (Vec<_>, Vec<_>) = explanations
        .into_iter()
        .partition(|one| one.fits || one.nearly);
    let Some(best) = told.first() else {
        return of(
            Conclusion::Unexplained,
            others.into_iter().take(NEAREST).collect(),
        );
    };
    if agreed(best) {
        return of(Conclusion::NearlyAgrees, Vec::new());
    }
    let (best_fits, best_criterion) = (best.fits, best.criterion);
    told.retain(|one| match total {
        // One figure says nothing between customs that all give it.
        true => one.fits || !best_fits,
        false => one.criterion - best_criterion < evidence::NO_DIFFERENCE,
    });
    let conclusion = match (total, told.len()) {
        (_, 1) => Conclusion::Explained,
        (true, _) => Conclusion::CannotTellFromTotal,
        (false, _) => Conclusion::CannotTell,
    };
    of(conclusion, told)
}

/// Sets the yard's tally against ours and ranks the customs that would explain a difference.
///
/// `ours` are all planks of the visit in the order of the tally, each with its pile's rule: exact halves go down and up
/// by turns through all of them. Those under the rule `agreed` are compared, the others only counted past. A
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
/// let rule = TallyRule::default();
/// let found = compare_with_bill(&[(&plank, &rule)], &rule, &bill);
/// assert_eq!(found.conclusion, Conclusion::Agrees);
/// ```
pub fn compare_with_bill(
    ours: &[(&TallyLine, &TallyRule)],
    agreed: &TallyRule,
    bill: &Bill,
) -> Comparison {
    let Some(by_rule) = footages(ours, agreed, &[]) else {
        return Comparison::not_comparable();
    };
    let mine = ours.iter().zip(&by_rule).enumerate();
    let mine = mine.filter(|(_, ((_, rule), _))| *rule == agreed);
    let (mut compared, mut figures) = (Vec::new(), Vec::new());
    let total = match &bill.billed {
        Billed::Total(total) => {
            for (at, (_, footage)) in mine {
                if footage.is_none() {
                    return Comparison::not_comparable();
                }
                compared.push(at);
            }
            figures.push(Figure::read(*total, bill.unit));
            true
        }
        Billed::Lines(billed) => {
            for (at, ((line, _), footage)) in mine {
                let mark = line.mark.trim();
                let said = billed.iter().find(|said| said.mark.trim() == mark);
                if let (Some(said), Some(_)) = (said, footage) {
                    compared.push(at);
                    figures.push(Figure::read(said.quantity, bill.unit));
                }
            }
            false
        }
    };
    if compared.is_empty() {
        return Comparison::not_comparable();
    }
    conclude(ranked(ours, &compared, agreed, &figures, total), total)
}
