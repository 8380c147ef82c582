//! What the yard's total in money says beyond its footage: tax, another price, a fee; and what it leaves of the budget.

use crate::record::queries::{PlankTallied, VisitTally};
use crate::trade::PricesAre;
use rust_decimal::Decimal;

/// The part of a gap in money that no gap in footage explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MoneyLeft {
    /// How much, as the prices are.
    pub left: Decimal,
    /// It is just the tax: the total was said with it where the prices are without, or the other way round.
    pub is_tax: bool,
}

/// Every line is rounded for itself: by so much a sum may be off.
fn rounding(planks: &[PlankTallied]) -> Decimal {
    Decimal::new(planks.len() as i64, 2)
}

/// Money as the prices are, turned into money as they are not: with the tax put on, or taken off.
fn the_other_way(money: Decimal, ours: &VisitTally, prices: PricesAre) -> Option<Decimal> {
    let (net, gross) = (ours.tally.money.net, ours.tally.money.gross);
    let (by, of) = match prices {
        PricesAre::Net => (gross, net),
        PricesAre::Gross => (net, gross),
    };
    money.checked_mul(by)?.checked_div(of)
}

/// What is left of a gap in money, between what the yard's total says and what it would be by its footage; `None`
/// where nothing is.
pub(super) fn money_left(
    said: Decimal,
    by_its_footage: Decimal,
    ours: &VisitTally,
    prices: PricesAre,
) -> Option<MoneyLeft> {
    let left = said.checked_sub(by_its_footage)?;
    let off = rounding(&ours.planks);
    let taxed = the_other_way(by_its_footage, ours, prices)?;
    let is_tax = taxed != by_its_footage && said.checked_sub(taxed)?.abs() <= off;
    (left.abs() > off).then_some(MoneyLeft { left, is_tax })
}

/// What a total leaves of the budget, tax in it; less than nothing where it is over it.
pub(super) fn budget_left(
    budget: Decimal,
    said: Decimal,
    left: Option<MoneyLeft>,
    ours: &VisitTally,
    prices: PricesAre,
) -> Option<Decimal> {
    let is_the_other_way = left.is_some_and(|left| left.is_tax);
    let is_with_tax = (prices == PricesAre::Gross) != is_the_other_way;
    let to_pay = match is_with_tax {
        true => said,
        false => the_other_way(said, ours, PricesAre::Net)?.round_dp(2),
    };
    budget.checked_sub(to_pay)
}
