//! How the totals of a visit were worked out, to be told: sums with what went into them, and the two
//! costs of the wood. It sums nothing anew: what it tells of is the tally itself.

use crate::neck::each_costs;
use crate::quantity::{Derivation, Trace, formula, in_kg};
use crate::record::queries::VisitTally;
use crate::trade::{Money, Terms};
use crate::verdict::Spec;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

/// A total of a visit's tally.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Total {
    /// Footage by the yard's rule.
    ByTheRule,
    /// Footage as measured, nothing rounded.
    Exact,
    /// Weight.
    Mass,
    /// Money without tax.
    Net,
    /// Tax.
    Tax,
    /// Money with tax.
    Gross,
    /// What is left of the budget.
    BudgetLeft,
    /// What a part costs.
    CostPerPart,
    /// What a good blank costs.
    CostPerGoodBlank,
}

formula! {
    /// Cost of a good blank.
    PER_GOOD_BLANK: "Wood for one good blank", "c", "¤";
    paid: "P", "paid for the planks, with tax", "¤";
    each: "k", "parts to a blank", "";
    parts: "n", "parts that they hold", "";
    share: "s", "share expected to come through", "";
    = paid * each / (parts * share);
    range "a share over 0, up to 1";
    source "arithmetic of shares: what fails is paid for by what comes through";
}

formula! {
    /// What is left of the budget.
    BUDGET_LEFT: "Left of the budget", "r", "¤";
    budget: "B", "the visit's budget", "¤";
    paid: "G", "to pay, with tax", "¤";
    = budget - paid;
    range "less than nothing: over the budget";
    source "a difference";
}

formula! {
    /// Tax in a total.
    TAX: "Tax", "T", "¤";
    gross: "G", "with tax", "¤";
    net: "N", "without tax", "¤";
    = gross - net;
    range "both to the cent";
    source "a difference";
}

formula! {
    /// The yard's figure less ours.
    GAP: "Gap: theirs less ours", "Δ", "¤";
    theirs: "t", "by the yard's tally", "¤";
    ours: "o", "by the agreed rule", "¤";
    = theirs - ours;
    range "any";
    source "a difference";
}

/// How the gap between the yard's figure and ours was worked out; `unit` is bf or the currency.
pub(crate) fn explain_gap(theirs: Decimal, ours: Decimal, unit: &str) -> Option<Derivation> {
    let mut working = Derivation::default();
    working.steps.work(&GAP, [theirs.to_f64()?, ours.to_f64()?]);
    Some(working.in_unit(unit))
}

/// How a gap in volume was turned into money.
pub(crate) fn explain_worth(
    gap: Decimal,
    worth: Decimal,
    terms: &Terms,
    currency: &str,
) -> Option<Derivation> {
    let price = terms.price_of_a_board_foot()?.round_dp(4);
    Some(Derivation::note(
        format!(
            "The yard's money is not known here: the gap of {} bf at {price} {currency} a board foot, discount \
             taken off, is {worth} {currency}.",
            gap.round_dp(2)
        ),
        "the visit's terms",
    ))
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
    let share = spec.expected_yield;
    let each = f64::from(spec.parts_per_blank);
    match total {
        Total::ByTheRule => of_planks(&mut working, tally, |plank| {
            Some(format!(
                "{} bf",
                plank.tallied.board_feet.as_ref().ok()?.round_dp(2)
            ))
        }),
        Total::Exact => of_planks(&mut working, tally, |plank| {
            Some(format!("{} bf", plank.exact_board_feet?.round_dp(2)))
        }),
        Total::Mass => of_planks(&mut working, tally, |plank| {
            Some(format!("{:.1} kg", in_kg(plank.line.mass?)))
        }),
        Total::Net => money_of_planks(&mut working, tally, currency, |money| money.net),
        Total::Gross => money_of_planks(&mut working, tally, currency, |money| money.gross),
        Total::Tax => {
            let money = &tally.tally.money;
            let values = [money.gross.to_f64()?, money.net.to_f64()?];
            working.steps.work(&TAX, values);
            money_of_planks(&mut working, tally, currency, |money| money.tax);
        }
        Total::BudgetLeft => {
            let paid = tally.tally.money.gross;
            let budget = tally.budget_left?.checked_add(paid)?;
            let values = [budget.to_f64()?, paid.to_f64()?];
            working.steps.work(&BUDGET_LEFT, values);
        }
        Total::CostPerPart => {
            let (paid, parts) = paid_for(tally)?;
            each_costs(&mut working.steps, paid, parts)?;
        }
        Total::CostPerGoodBlank => {
            let (paid, parts) = paid_for(tally)?;
            let parts = f64::from(parts);
            working
                .steps
                .work(&PER_GOOD_BLANK, [paid, each, parts, share]);
        }
    }
    working.measured_in(currency);
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
        Some(format!("{money} {currency}").trim_end().to_owned())
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
fn paid_for(tally: &VisitTally) -> Option<(f64, u32)> {
    let mut paid = Decimal::ZERO;
    let mut parts = 0;
    for plank in &tally.planks {
        if let (Ok(money), Some(held)) = (&plank.tallied.money, plank.parts) {
            paid = paid.saturating_add(money.gross);
            parts += held;
        }
    }
    (parts > 0).then_some((paid.to_f64()?, parts))
}
