//! How the totals of a visit were worked out, to be told: sums with what went into them, and the two
//! costs of the wood. It sums nothing anew: what it tells of is the tally itself.

use crate::neck::{each_costs, good_blank_costs};
use crate::quantity::{Derivation, Trace, formula, in_kg};
use crate::record::queries::VisitTally;
use crate::record::queries::visit_tally::budget::budget_left;
use crate::trade::{Money, Terms, show};
use crate::verdict::Spec;
use rust_decimal::Decimal;

/// A total of a visit's tally.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Total {
    /// Footage by the yard's rule.
    ByTheRule,
    /// Footage as measured, nothing rounded.
    Exact,
    Mass,
    /// Money without tax.
    Net,
    Tax,
    /// Money with tax.
    Gross,
    BudgetLeft,
    CostPerPart,
    CostPerGoodBlank,
}

formula! {
    exact
    /// Tax in a total.
    TAX: "Tax", "T", given;
    gross: "G", "with tax", given;
    net: "N", "without tax", given;
    = gross - net;
    range "both to the cent";
    source "a difference";
}

formula! {
    exact
    /// The yard's figure less ours.
    GAP: "Gap: theirs less ours", "Δ", given;
    theirs: "t", "by the yard's tally", given;
    ours: "o", "by the agreed rule", given;
    = theirs - ours;
    range "any";
    source "a difference";
}

formula! {
    exact
    /// The yard's total as the prices are.
    TOTAL_AS_PRICED: "Their total as the prices are", "t", given;
    said: "S", "their total, as they say it", given;
    tax: "T", "tax by which it differs from the prices", given;
    = said - tax;
    range "any; the tax is less than 0 where the prices hold it and the total does not";
    source "a difference";
}

/// How the gap between the yard's figure and ours was worked out; `unit` is bf or the currency.
pub(crate) fn explain_gap(theirs: Decimal, ours: Decimal, unit: &str) -> Option<Derivation> {
    let mut working = Derivation::default();
    working.steps.exact_in(unit, &GAP, [theirs, ours])?;
    Some(working)
}

/// How the gap in money was worked out where the yard's total was said with other tax than the prices.
pub(crate) fn explain_gap_without_tax(
    said: Decimal,
    tax: Decimal,
    ours: Decimal,
    currency: &str,
) -> Option<Derivation> {
    let mut working = Derivation::default();
    let steps = &mut working.steps;
    let theirs = steps.exact_in(currency, &TOTAL_AS_PRICED, [said, tax])?;
    steps.exact_in(currency, &GAP, [theirs, ours])?;
    Some(working)
}

/// How a gap in volume was turned into money.
pub(crate) fn explain_worth(gap: Decimal, terms: &Terms, currency: &str) -> Option<Derivation> {
    let mut working = Derivation::default();
    terms.worth_of(&mut working.steps, currency, gap)?;
    Some(working.and("The yard's money is not known here: the gap is what so much wood costs by the visit's terms."))
}

/// How a total was worked out; `None` where the tally does not have it. `currency` is that of the visit.
pub fn explain_total(
    total: Total,
    tally: &VisitTally,
    spec: &Spec,
    currency: &str,
) -> Option<Derivation> {
    let mut working = Derivation {
        source: "a sum over the planks taken",
        ..Derivation::default()
    };
    match total {
        Total::ByTheRule => of_planks(&mut working, tally, |plank| {
            Some(format!(
                "{} bd ft",
                plank.tallied.board_feet.as_ref().ok()?.round_dp(2)
            ))
        }),
        Total::Exact => of_planks(&mut working, tally, |plank| {
            Some(format!("{} bd ft", plank.exact_board_feet?.round_dp(2)))
        }),
        Total::Mass => of_planks(&mut working, tally, |plank| {
            Some(format!("{:.1} kg", in_kg(plank.line.mass?)))
        }),
        Total::Net => money_of_planks(&mut working, tally, currency, |money| money.net),
        Total::Gross => money_of_planks(&mut working, tally, currency, |money| money.gross),
        Total::Tax => {
            let money = &tally.tally.money;
            working
                .steps
                .exact_in(currency, &TAX, [money.gross, money.net])?;
            money_of_planks(&mut working, tally, currency, |money| money.tax);
        }
        Total::BudgetLeft => {
            budget_left(&mut working.steps, currency, tally.budget?, &tally.tally)?;
        }
        Total::CostPerPart => {
            let (paid, parts) = paid_for(tally)?;
            each_costs(&mut working.steps, currency, paid, parts)?;
        }
        Total::CostPerGoodBlank => {
            let (paid, parts) = paid_for(tally)?;
            let parts = [parts, spec.parts_per_blank];
            good_blank_costs(
                &mut working.steps,
                currency,
                paid,
                parts,
                spec.expected_yield,
            )?;
        }
    }
    Some(working)
}

fn money_of_planks(
    working: &mut Derivation,
    tally: &VisitTally,
    currency: &str,
    of: fn(&Money) -> Decimal,
) {
    of_planks(working, tally, |plank| {
        let money = of(plank.tallied.money.as_ref().ok()?);
        Some(show::money(money, currency))
    });
    working.notes.push(
        "Each to the cent. The total is rounded once, from the unrounded sum, so it may be a cent away from \
         these."
            .into(),
    );
}

fn of_planks(
    working: &mut Derivation,
    tally: &VisitTally,
    one: impl Fn(&crate::record::queries::PlankTallied) -> Option<String>,
) {
    let lines: Vec<String> = tally
        .planks
        .iter()
        .map(|plank| {
            let said = one(plank).unwrap_or_else(|| "not known, not in the sum".into());
            format!("{}: {said}", plank.line.mark)
        })
        .collect();
    working
        .notes
        .push(format!("The sum of {}.", lines.join("; ")));
}

/// What is paid for the planks of which price and parts are known, and those parts.
fn paid_for(tally: &VisitTally) -> Option<(Decimal, u32)> {
    let mut paid = Decimal::ZERO;
    let mut parts = 0;
    for plank in &tally.planks {
        if let (Ok(money), Some(held)) = (&plank.tallied.money, plank.parts) {
            paid = paid.saturating_add(money.gross);
            parts += held;
        }
    }
    (parts > 0).then_some((paid, parts))
}
