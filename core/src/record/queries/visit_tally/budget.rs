//! What is left of a visit's budget.

use crate::quantity::{Trace, formula};
use crate::trade::Tally;
use rust_decimal::Decimal;

formula! {
    exact
    /// What is left of the budget.
    BUDGET_LEFT: "Left of the budget", "r", given;
    budget: "B", "the visit's budget", given;
    paid: "G", "to pay, with tax", given;
    = budget - paid;
    range "less than nothing: over the budget";
    source "a difference";
}

/// What is left of a budget once a tally is paid, tax in it.
pub(crate) fn budget_left(
    trace: &mut impl Trace,
    currency: &str,
    budget: Decimal,
    tally: &Tally,
) -> Option<Decimal> {
    trace.exact_in(currency, &BUDGET_LEFT, [budget, tally.money.gross])
}
