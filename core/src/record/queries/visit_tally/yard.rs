//! The yard's own lines and total, as entered, against ours.
//!
//! It decides which figures can be compared; the trying of customs is the bill's. Money is compared as
//! the yard's prices are, without tax or with it.

use crate::quantity::{Derivation, TraceOff};
use crate::record::log::YardFigures;
use crate::record::log::id::Id;
use crate::record::queries::visit_tally::money_left::{MoneyLeft, budget_left, money_left};
use crate::record::queries::visit_tally::total::{
    explain_gap, explain_gap_without_tax, explain_worth,
};
use crate::record::queries::{PlankTallied, VisitTally};
use crate::record::state::State;
use crate::trade::{
    Bill, Billed, BilledLine, Comparison, PricesAre, TallyLine, TallyRule, TallyUnit, Terms,
    board_feet_of, compare_with_bill,
};
use rust_decimal::Decimal;

/// A plank on both tallies.
#[derive(Debug, Clone, PartialEq)]
pub struct YardGap {
    pub piece: Id,
    pub mark: String,
    /// What the yard's line says.
    pub said: YardFigures,
    /// By our tally, board feet.
    pub ours: Option<Decimal>,
    /// By the yard's line, board feet.
    pub theirs: Option<Decimal>,
    /// Theirs less ours, board feet.
    pub difference: Option<Decimal>,
    /// Theirs less ours, money, as the prices are.
    pub money: Option<Decimal>,
    /// What ours costs, as the prices are.
    pub our_money: Option<Decimal>,
    terms: Terms,
}

impl YardGap {
    /// How the gap in volume was worked out.
    pub fn explain_volume(&self) -> Option<Derivation> {
        explain_gap(self.theirs?, self.ours?, "bd ft")
    }

    /// How the gap in money was worked out.
    pub fn explain_money(&self, currency: &str) -> Option<Derivation> {
        match self.said.money.zip(self.our_money) {
            Some((theirs, ours)) => explain_gap(theirs, ours, currency),
            None => explain_worth(self.difference?, &self.terms, currency),
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct CustomsTried {
    pub agreed: TallyRule,
    /// How the customs fit.
    pub found: Comparison,
}

#[derive(Debug, Clone, PartialEq)]
pub struct YardTotalGap {
    pub said: YardFigures,
    /// By our tally, board feet.
    pub ours: Decimal,
    /// By the yard's total, board feet.
    pub theirs: Option<Decimal>,
    /// Theirs less ours, board feet.
    pub difference: Option<Decimal>,
    /// Theirs less ours, money, as the prices are.
    pub money: Option<Decimal>,
    /// Customs that may explain it; `None` where the piles have several rules or no footage is known.
    pub customs: Option<CustomsTried>,
    /// The footage that was compared was worked out of the money.
    pub from_money: bool,
    /// What ours costs, as the prices are, where every plank has a price.
    pub our_money: Option<Decimal>,
    /// What the difference in footage is worth, where footage was said and all planks share a price.
    worth: Option<Decimal>,
    terms: Option<Terms>,
    /// The tax by which the total that was said differs from the prices; less than nothing where the prices hold it and
    /// the total does not. None where both are with it or both without.
    tax_apart: Option<Decimal>,
}

impl YardTotalGap {
    /// Where money was said with other tax than the prices, the tax is left out of the gap in money; nor does such money
    /// tell a footage, or what was told by that.
    fn with_tax_apart(self, tax: Decimal) -> Self {
        let one = Self {
            money: less(self.money, Some(tax)),
            tax_apart: Some(tax),
            ..self
        };
        match one.from_money {
            true => Self {
                theirs: None,
                difference: None,
                customs: None,
                from_money: false,
                ..one
            },
            false => one,
        }
    }

    /// How the gap in volume was worked out.
    pub fn explain_volume(&self) -> Option<Derivation> {
        explain_gap(self.theirs?, self.ours, "bd ft")
    }

    /// How the gap in money was worked out.
    pub fn explain_money(&self, currency: &str) -> Option<Derivation> {
        match self.said.money.zip(self.our_money) {
            Some((theirs, ours)) => match self.tax_apart {
                Some(tax) => explain_gap_without_tax(theirs, tax, ours, currency),
                None => explain_gap(theirs, ours, currency),
            },
            None => explain_worth(self.difference?, self.terms.as_ref()?, currency),
        }
    }
}

/// The yard's own tally against ours.
#[derive(Debug, Clone, PartialEq)]
pub struct YardAgainstOurs {
    /// Whether money is compared without tax or with it.
    pub prices_are: PricesAre,
    /// Planks with a line of the yard's.
    pub planks: Vec<YardGap>,
    /// Marks of planks without one.
    pub without_line: Vec<String>,
    /// Customs tried on the lines, for each rule and unit by themselves.
    pub by_lines: Vec<CustomsTried>,
    pub total: Option<YardTotalGap>,
    /// What of the gap in money no footage explains.
    pub money_left: Option<MoneyLeft>,
    /// What the yard's total leaves of the budget, where both are known.
    pub budget_left: Option<Decimal>,
}

/// What was said in volume, in the unit in which it was said.
fn volume_said(feet: Option<Decimal>, metres: Option<Decimal>) -> Option<(TallyUnit, Decimal)> {
    match (feet, metres) {
        (Some(feet), _) => Some((TallyUnit::BoardFoot, feet)),
        (None, Some(metres)) => Some((TallyUnit::CubicMetre, metres)),
        (None, None) => None,
    }
}

fn as_feet((unit, said): (TallyUnit, Decimal)) -> Option<Decimal> {
    match unit {
        TallyUnit::BoardFoot => Some(said),
        TallyUnit::CubicMetre => board_feet_of(said),
    }
}

fn less(theirs: Option<Decimal>, ours: Option<Decimal>) -> Option<Decimal> {
    theirs?.checked_sub(ours?)
}

/// The yard's lines and total of a visit against our tally of it.
pub fn yard_against(state: &State, visit: Id, ours: &VisitTally) -> Option<YardAgainstOurs> {
    let known = state.visit(visit)?;
    let prices_are = known.prices_are();
    let (mut planks, mut without_line) = (Vec::new(), Vec::new());
    let mut billed: Vec<(TallyUnit, &PlankTallied, Decimal)> = Vec::new();
    for plank in &ours.planks {
        let Some((_, said)) = state.piece(plank.piece).and_then(|p| p.yard_line.as_ref()) else {
            without_line.push(plank.line.mark.clone());
            continue;
        };
        let volume = volume_said(said.board_feet, said.cubic_metres);
        if let Some((unit, figure)) = volume {
            billed.push((unit, plank, figure));
        }
        planks.push(gap(plank, said, volume, prices_are));
    }
    let total = known.yard_total.as_ref();
    let mut total = total.map(|(_, said)| total_gap(said, ours, prices_are));
    let said = total.as_ref().and_then(|total| total.said.money);
    let by_its_footage = total.as_ref().and_then(|total| {
        let add = |sum: Decimal, gap: &YardGap| sum.checked_add(gap.money?);
        let lines = match without_line.as_slice() {
            [] => planks.iter().try_fold(Decimal::ZERO, add),
            _ => None,
        };
        total.our_money?.checked_add(lines.or(total.worth)?)
    });
    let left = said.and_then(|said| match by_its_footage {
        Some(by_footage) => money_left(said, by_footage, ours, prices_are),
        // Without footage nothing tells wood from a fee; that it is just the tax on ours is seen.
        None => money_left(said, total.as_ref()?.our_money?, ours, prices_are)
            .filter(|left| left.is_tax),
    });
    if let Some(tax) = left.filter(|left| left.is_tax) {
        total = total.map(|total| total.with_tax_apart(tax.left));
    }
    let budget = known.opened.budget.zip(said);
    Some(YardAgainstOurs {
        prices_are,
        planks,
        without_line,
        by_lines: by_lines(ours, &billed),
        total,
        money_left: left,
        budget_left: budget
            .and_then(|(budget, said)| budget_left(budget, said, left, ours, prices_are)),
    })
}

fn gap(
    plank: &PlankTallied,
    said: &YardFigures,
    volume: Option<(TallyUnit, Decimal)>,
    prices_are: PricesAre,
) -> YardGap {
    let ours = plank.tallied.board_feet.as_ref().ok().copied();
    let theirs = volume.and_then(as_feet);
    let difference = less(theirs, ours);
    let our_money = plank.tallied.money.as_ref().ok();
    let our_money = our_money.map(|money| money.as_asked(prices_are));
    let money = less(said.money, our_money);
    YardGap {
        our_money,
        terms: plank.terms.clone(),
        piece: plank.piece,
        mark: plank.line.mark.clone(),
        said: said.clone(),
        ours,
        theirs,
        difference,
        money: money.or_else(|| plank.terms.worth_of(&mut TraceOff, "", difference?)),
    }
}

/// Our planks with their rules, in the order of the tally.
fn with_rules(ours: &VisitTally) -> Vec<(&TallyLine, &TallyRule)> {
    let planks = ours.planks.iter();
    planks
        .map(|plank| (&plank.line, &plank.terms.rule))
        .collect()
}

/// Customs tried on lines that share a rule and a unit.
fn by_lines(
    ours: &VisitTally,
    billed: &[(TallyUnit, &PlankTallied, Decimal)],
) -> Vec<CustomsTried> {
    let mut groups: Vec<(TallyUnit, &TallyRule)> = Vec::new();
    for (unit, plank, _) in billed {
        if !groups.contains(&(*unit, &plank.terms.rule)) {
            groups.push((*unit, &plank.terms.rule));
        }
    }
    groups
        .into_iter()
        .map(|(unit, rule)| {
            let mine = billed
                .iter()
                .filter(|(other, plank, _)| *other == unit && plank.terms.rule == *rule);
            let figures = mine.map(|(_, plank, quantity)| BilledLine {
                mark: plank.line.mark.clone(),
                quantity: *quantity,
            });
            let bill = Bill {
                unit,
                billed: Billed::Lines(figures.collect()),
            };
            CustomsTried {
                agreed: rule.clone(),
                found: compare_with_bill(&with_rules(ours), rule, &bill),
            }
        })
        .collect()
}

fn total_gap(said: &YardFigures, ours: &VisitTally, prices_are: PricesAre) -> YardTotalGap {
    // A price of a board foot that all planks share.
    let mut prices = ours
        .planks
        .iter()
        .map(|plank| plank.terms.price_of_a_board_foot());
    let price = prices
        .next()
        .flatten()
        .filter(|first| prices.all(|other| other == Some(*first)));
    let volume = volume_said(said.board_feet, said.cubic_metres);
    let from_money = || {
        let mut feet = said.money?.checked_div(price?)?.round_dp(1);
        feet.rescale(1);
        Some((TallyUnit::BoardFoot, feet))
    };
    let compared = volume.or_else(from_money);
    let theirs = compared.and_then(as_feet);
    let difference = less(theirs, Some(ours.tally.board_feet));
    let our_money = ours.tally.money.as_asked(prices_are);
    let worth = || {
        ours.planks
            .first()?
            .terms
            .worth_of(&mut TraceOff, "", difference?)
    };
    let complete = ours.tally.without_price == 0;
    let our_money = complete.then_some(our_money);
    let money = less(said.money, our_money);
    let customs = match (compared, ours.rules().as_slice()) {
        (Some((unit, figure)), [rule]) => {
            let bill = Bill {
                unit,
                billed: Billed::Total(figure),
            };
            Some(CustomsTried {
                agreed: (*rule).clone(),
                found: compare_with_bill(&with_rules(ours), rule, &bill),
            })
        }
        _ => None,
    };
    YardTotalGap {
        said: said.clone(),
        ours: ours.tally.board_feet,
        theirs,
        difference,
        money: money.or_else(|| price.and_then(|_| worth())),
        worth: volume.and(price).and_then(|_| worth()),
        customs,
        from_money: volume.is_none() && compared.is_some(),
        our_money,
        terms: ours.planks.first().map(|plank| plank.terms.clone()),
        tax_apart: None,
    }
}
