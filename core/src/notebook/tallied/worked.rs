//! How the totals of a visit were worked out, to be told: sums with what went into them, and the two
//! costs of the wood. It sums nothing anew: what it tells of is the tally itself.

use super::VisitTally;
use crate::neck::each_costs_worked;
use crate::quantity::{Pen, Working, formula, in_kg};
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
    /// Money, without tax, tax, and with tax.
    Money,
    /// What a part costs.
    CostPerPart,
    /// What a good blank costs.
    CostPerGoodBlank,
    /// Parts to start, on average.
    ToStart,
    /// Parts to start, to be safe.
    SafeStart,
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
    /// Parts to start on average.
    TO_START: "Parts to start on average", "n", "";
    wanted: "N", "blanks wanted", "";
    each: "k", "parts to a blank", "";
    share: "s", "share expected to come through", "";
    = wanted * each / share;
    range "rounded up to a whole part";
    source "divided by the share, not added to: 100 with 30 % lost is 143";
}

/// How a total was worked out; `None` where the tally does not have it.
pub fn total_worked(total: Total, tally: &VisitTally, spec: &Spec) -> Option<Working> {
    let mut working = Working::default();
    let share = spec.expected_yield;
    let each = f64::from(spec.parts_per_blank);
    match total {
        Total::ByTheRule => of_planks(&mut working, tally, |plank| {
            Some(format!("{} bf", plank.tallied.board_feet.as_ref().ok()?.round_dp(2)))
        }),
        Total::Exact => of_planks(&mut working, tally, |plank| {
            Some(format!("{} bf", plank.exact_board_feet?.round_dp(2)))
        }),
        Total::Mass => of_planks(&mut working, tally, |plank| {
            Some(format!("{:.1} kg", in_kg(plank.line.mass?)))
        }),
        Total::Money => {
            of_planks(&mut working, tally, |plank| {
                Some(plank.tallied.money.as_ref().ok()?.gross.to_string())
            });
            working.notes.push(
                "Each with tax and to the cent. The total is rounded once, from the unrounded sum, so \
                 it may be a cent away from these."
                    .into(),
            );
        }
        Total::CostPerPart => {
            let (paid, parts) = paid_for(tally)?;
            each_costs_worked(&mut working.steps, paid, parts)?;
        }
        Total::CostPerGoodBlank => {
            let (paid, parts) = paid_for(tally)?;
            let parts = f64::from(parts);
            working.steps.work(&PER_GOOD_BLANK, [paid, each, parts, share]);
        }
        Total::ToStart => {
            let wanted = f64::from(spec.blanks_wanted);
            working.steps.work(&TO_START, [wanted, each, share]);
        }
        Total::SafeStart => working.notes.push(format!(
            "The least number of which at least {} come through in 9 of 10 cases, when each does with a \
             chance of {:.0} % by itself (binomial). Planks fail as families: take it as the least.",
            spec.blanks_wanted.saturating_mul(spec.parts_per_blank),
            share * 100.0
        )),
    }
    Some(working)
}

fn of_planks(
    working: &mut Working,
    tally: &VisitTally,
    one: impl Fn(&super::PlankTallied) -> Option<String>,
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
