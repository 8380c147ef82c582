//! A running tally: what each plank holds and costs by the yard's terms, and the totals.
//!
//! Decimal all the way. A plank that can't be reckoned is kept and says why; it never blocks the tally
//! of the others, and never counts as nothing without being counted as missing.

mod explain;
#[cfg(test)]
mod tests;

pub use explain::explain_charge;

use super::board_measure::in_cubic_metres;
use super::{Halves, MeasureError, PriceBasis, Sawn, TallyRule, board_feet, cubic_metres};
use crate::quantity::{Length, Mass, Trace, TraceOff, formula, in_kg};
use rust_decimal::{Decimal, RoundingStrategy};
use std::str::FromStr;
use thiserror::Error;

#[derive(Debug, Clone, PartialEq)]
pub struct TallyLine {
    /// The plank's mark.
    pub mark: String,
    /// The sizes by which it is charged.
    pub sawn: Sawn,
    /// Its mean width with all of the wane, where that was measured.
    pub width_with_wane: Option<Length>,
    /// Its mass, for a price by the kilogram.
    pub mass: Option<Mass>,
}

/// Whether the prices asked hold the tax.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PricesAre {
    /// Tax comes on top.
    #[default]
    Net,
    /// Tax is in them.
    Gross,
}

/// A yard's terms for a pile.
#[derive(Debug, Clone, PartialEq)]
pub struct Terms {
    pub rule: TallyRule,
    /// What it asks, and per what; `None` where no price is known yet.
    pub price: Option<(Decimal, PriceBasis)>,
    /// Taken off the price, in percent.
    pub discount_percent: Decimal,
    /// Tax, in percent of the net amount.
    pub tax_percent: Decimal,
    /// Whether the price holds the tax.
    pub prices_are: PricesAre,
}

/// Why a plank has no price.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum TallyError {
    #[error("no price was given")]
    NoPrice,
    /// The footage is needed and can't be had.
    #[error(transparent)]
    Measure(#[from] MeasureError),
    /// The price is by weight and the plank was not weighed.
    #[error("the price is by the kilogram, and the plank was not weighed")]
    NotWeighed,
    /// A price or tax under nothing, a discount outside 0 to 100 %, or an amount of too many digits.
    #[error("price, discount or tax is beyond reason: the amount can't be reckoned")]
    Unreasonable,
}

/// An amount of money, rounded to two places, halves away from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Money {
    /// Without tax.
    pub net: Decimal,
    pub tax: Decimal,
    pub gross: Decimal,
}

impl Money {
    fn nothing() -> Self {
        let zero = cents(Decimal::ZERO);
        Self {
            net: zero,
            tax: zero,
            gross: zero,
        }
    }

    /// Two amounts together; where that has too many digits, the first alone.
    fn plus(self, other: Self) -> Self {
        let sum = || {
            Some(Self {
                net: self.net.checked_add(other.net)?,
                tax: self.tax.checked_add(other.tax)?,
                gross: self.gross.checked_add(other.gross)?,
            })
        };
        sum().unwrap_or(self)
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct TalliedLine {
    /// The plank's mark.
    pub mark: String,
    /// Its footage by the yard's rule, in board feet, unrounded.
    pub board_feet: Result<Decimal, MeasureError>,
    /// Which way an exact half of its surface measure went.
    halves_before: Halves,
    /// What it costs, rounded for itself: the lines need not add up to the total to the last place.
    pub money: Result<Money, TallyError>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// The planks, in the order given.
    pub lines: Vec<TalliedLine>,
    /// Footage of those that have one, in board feet, unrounded.
    pub board_feet: Decimal,
    pub cubic_metres: Decimal,
    /// What those with a price cost together: rounded once, from the unrounded sum.
    pub money: Money,
    pub without_footage: usize,
    pub without_price: usize,
}

impl Tally {
    /// What the lines come to, each rounded for itself, with tax; `None` where that is the total.
    pub fn lines_add_up_to(&self) -> Option<Decimal> {
        let priced = self.lines.iter().filter_map(|line| line.money.ok());
        let all = priced.fold(Money::nothing(), Money::plus).gross;
        (all != self.money.gross).then_some(all)
    }
}

fn cents(value: Decimal) -> Decimal {
    let mut rounded = value.round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
    rounded.rescale(2);
    rounded
}

formula! {
    exact
    pub(crate) AMOUNT: "Price", "P", given;
    n: "n", "what is charged", "";
    each: "p", "the price of one", given;
    = n * each;
    range "any";
    source "arithmetic";
}

formula! {
    exact
    /// With the discount taken off.
    DISCOUNTED: "With the discount taken off", "P′", given;
    p: "P", "price", given;
    d: "d", "discount", "%";
    = p * (1.0 - d / 100.0);
    range "0 to 100 %";
    source "the visit's terms";
}

formula! {
    exact
    /// Tax on top.
    TAXED: "With tax", "G", given;
    net: "N", "without tax, to the cent", given;
    t: "t", "tax", "%";
    = net * (1.0 + t / 100.0);
    range "any";
    source "the visit's terms";
}

formula! {
    exact
    /// Tax that is in the price.
    UNTAXED: "Without tax", "N", given;
    gross: "G", "with tax, to the cent", given;
    t: "t", "tax", "%";
    = gross / (1.0 + t / 100.0);
    range "any";
    source "the visit's terms";
}

impl Terms {
    /// Whether tax is worked out the same way.
    fn taxed_as(&self, other: &Self) -> bool {
        self.tax_percent == other.tax_percent && self.prices_are == other.prices_are
    }

    /// What so much more or less footage is worth at the price asked, discount taken off and tax as in
    /// the price, rounded to two places. `None` where the price is not by volume.
    pub fn worth_of(
        &self,
        trace: &mut impl Trace,
        currency: &str,
        board_feet: Decimal,
    ) -> Option<Decimal> {
        let (price, basis) = self.price?;
        let units = match basis {
            PriceBasis::BoardFoot => board_feet,
            PriceBasis::CubicMetre => in_cubic_metres(trace, board_feet)?,
            PriceBasis::Piece | PriceBasis::Kilogram => return None,
        };
        self.of_units(trace, currency, [units, price]).map(cents)
    }

    /// So many units at the price of one, the discount taken off.
    fn of_units(
        &self,
        trace: &mut impl Trace,
        currency: &str,
        units_and_price: [Decimal; 2],
    ) -> Option<Decimal> {
        let full = trace.exact_in(currency, &AMOUNT, units_and_price)?;
        match self.discount_percent.is_zero() {
            true => Some(full),
            false => trace.exact_in(currency, &DISCOUNTED, [full, self.discount_percent]),
        }
    }

    /// The price of a board foot, discount taken off; `None` where the price is not by volume.
    pub fn price_of_a_board_foot(&self) -> Option<Decimal> {
        let (price, basis) = self.price?;
        let one = match basis {
            PriceBasis::BoardFoot => Decimal::ONE,
            PriceBasis::CubicMetre => cubic_metres(Decimal::ONE)?,
            PriceBasis::Piece | PriceBasis::Kilogram => return None,
        };
        self.of_units(&mut TraceOff, "", [one, price])
    }

    /// What a plank costs before it is rounded and its tax worked out, discount taken off.
    fn amount(
        &self,
        trace: &mut impl Trace,
        currency: &str,
        line: &TallyLine,
        footage: Result<Decimal, MeasureError>,
    ) -> Result<Decimal, TallyError> {
        let (price, basis) = self.price.ok_or(TallyError::NoPrice)?;
        let whole = Decimal::ZERO..=Decimal::ONE_HUNDRED;
        if price < Decimal::ZERO
            || self.tax_percent < Decimal::ZERO
            || !whole.contains(&self.discount_percent)
        {
            return Err(TallyError::Unreasonable);
        }
        let units = match basis {
            PriceBasis::BoardFoot => footage?,
            PriceBasis::CubicMetre => {
                in_cubic_metres(trace, footage?).ok_or(TallyError::Unreasonable)?
            }
            PriceBasis::Piece => Decimal::ONE,
            PriceBasis::Kilogram => decimal_kg(line.mass.ok_or(TallyError::NotWeighed)?)?,
        };
        self.of_units(trace, currency, [units, price])
            .ok_or(TallyError::Unreasonable)
    }

    /// Splits an amount into net, tax and gross, each rounded to two places: the tax is worked out from
    /// the rounded net amount, or what is left between the gross amount and its net part, so that net
    /// and tax always add up to gross.
    fn split(
        &self,
        trace: &mut impl Trace,
        currency: &str,
        amount: Decimal,
    ) -> Result<Money, TallyError> {
        let tax = self.tax_percent;
        let mut split = || match self.prices_are {
            PricesAre::Net => {
                let net = cents(amount);
                let gross = cents(trace.exact_in(currency, &TAXED, [net, tax])?);
                Some(Money {
                    net,
                    tax: gross.checked_sub(net)?,
                    gross,
                })
            }
            PricesAre::Gross => {
                let gross = cents(amount);
                let net = cents(trace.exact_in(currency, &UNTAXED, [gross, tax])?);
                Some(Money {
                    net,
                    tax: gross.checked_sub(net)?,
                    gross,
                })
            }
        };
        split().ok_or(TallyError::Unreasonable)
    }
}

/// A mass in kilograms as an exact decimal, to a millionth of a kilogram.
fn decimal_kg(mass: Mass) -> Result<Decimal, TallyError> {
    let kilograms = in_kg(mass);
    if !(kilograms > 0.0 && kilograms <= 1e5) {
        return Err(TallyError::NotWeighed);
    }
    Decimal::from_str(&format!("{kilograms:.6}"))
        .map(|exact| exact.normalize())
        .map_err(|_| TallyError::NotWeighed)
}

/// Tallies planks by a yard's terms, in the order given.
///
/// ```
/// use rust_decimal::Decimal;
/// use stillwood_core::trade::{TallyLine, PriceBasis, PricesAre, Sawn, TallyRule, Terms, tally};
/// use stillwood_core::quantity::{inches, mm};
/// let a7 = TallyLine {
///     mark: "A7".into(),
///     sawn: Sawn {
///         length: Some(mm(2620.0)), width: Some(mm(204.0)),
///         thickness: Some(mm(52.0)), nominal: Some(inches(2.0)),
///     },
///     width_with_wane: None,
///     mass: None,
/// };
/// let terms = Terms {
///     rule: TallyRule::default(),
///     price: Some((Decimal::new(1450, 2), PriceBasis::BoardFoot)),
///     discount_percent: Decimal::ZERO,
///     tax_percent: Decimal::from(20),
///     prices_are: PricesAre::Net,
/// };
/// let found = tally(&[a7], &terms);
/// assert_eq!(found.money.net.to_string(), "166.84");
/// assert_eq!(found.money.gross.to_string(), "200.21");
/// ```
pub fn tally(planks: &[TallyLine], terms: &Terms) -> Tally {
    tally_visit(planks.iter().map(|plank| (plank, terms)))
}

/// Tallies planks of several piles, each by its own pile's terms, in the order given.
///
/// Exact halves of a surface measure go down and up by turns through the whole visit, not through each
/// pile. Money of one tax is summed unrounded and rounded once; where planks differ in their tax, each
/// tax is worked out and rounded for itself.
pub fn tally_visit<'a>(planks: impl IntoIterator<Item = (&'a TallyLine, &'a Terms)>) -> Tally {
    let mut halves = Halves::default();
    let mut total_feet = Decimal::ZERO;
    // What the planks of each tax come to, with terms that have this tax.
    let mut sums: Vec<(&Terms, Decimal)> = Vec::new();
    let mut lines = Vec::new();
    for (plank, terms) in planks {
        let halves_before = halves;
        let footage = board_feet(&terms.rule, &plank.sawn, &mut halves);
        // A plank whose footage or price runs the sum out of digits is not added, and says so.
        let amount = terms.amount(&mut TraceOff, "", plank, footage);
        let amount = amount.and_then(|amount| {
            let money = terms.split(&mut TraceOff, "", amount)?;
            let at = sums.iter().position(|(other, _)| other.taxed_as(terms));
            let before = at.map_or(Decimal::ZERO, |at| sums[at].1);
            let sum = before.checked_add(amount).ok_or(TallyError::Unreasonable)?;
            terms.split(&mut TraceOff, "", sum)?;
            match at {
                Some(at) => sums[at].1 = sum,
                None => sums.push((terms, sum)),
            }
            Ok(money)
        });
        if let Some(sum) = footage
            .as_ref()
            .ok()
            .and_then(|bf| total_feet.checked_add(*bf))
        {
            total_feet = sum;
        }
        lines.push(TalliedLine {
            mark: plank.mark.clone(),
            board_feet: footage,
            halves_before,
            money: amount,
        });
    }
    let money = sums
        .iter()
        .filter_map(|(terms, sum)| terms.split(&mut TraceOff, "", *sum).ok())
        .fold(Money::nothing(), Money::plus);
    Tally {
        without_footage: lines.iter().filter(|l| l.board_feet.is_err()).count(),
        without_price: lines.iter().filter(|l| l.money.is_err()).count(),
        lines,
        board_feet: total_feet,
        cubic_metres: cubic_metres(total_feet).unwrap_or_default(),
        money,
    }
}
