//! What a visit's planks come to: lines and terms out of the state, their tally, the budget, the parts
//! that they hold and what those cost.
//!
//! It only brings together what the entries say and what other rooms work out. What a plank's sizes do
//! not tell is left out and counted.

pub(crate) mod budget;
pub(crate) mod money_left;
pub(crate) mod needed;
#[cfg(test)]
pub(crate) mod tests;
pub(crate) mod total;
pub(crate) mod yard;

use crate::neck::{cost_per_good_blank, cost_per_part};
use crate::order;
use crate::plank::{Plank, described, mass_as_weighed, mean_of_stations};
use crate::quantity::TraceOff;
use crate::quantity::{Mass, kg, mm};
use crate::record::log::Decision;
use crate::record::log::id::Id;
use crate::record::state::{Piece, Pile, State, Visit};
use crate::trade::{
    Halves, Money, PricesAre, Sawn, TalliedLine, Tally, TallyLine, TallyMeasure, TallyRule, Terms,
    ThicknessBasis, board_feet, cubic_metres, tally_visit,
};
use crate::verdict::{Spec, parts_held};
use rust_decimal::Decimal;

/// A plank with its terms, before anything is reckoned.
#[derive(Debug, Clone, PartialEq)]
pub struct PlankCharged {
    pub piece: Id,
    /// Its sizes, as they are charged.
    pub line: TallyLine,
    pub terms: Terms,
}

#[derive(Debug, Clone, PartialEq)]
pub struct PlankTallied {
    pub piece: Id,
    /// Its sizes, as they are charged.
    pub line: TallyLine,
    pub terms: Terms,
    /// Footage by the yard's rule, and money.
    pub tallied: TalliedLine,
    /// Length x width x measured thickness, nothing rounded, in board feet.
    pub exact_board_feet: Option<Decimal>,
    /// How many parts of the visit's spec it holds, as far as its straight slab is known.
    pub parts: Option<u32>,
    /// What one of them costs, with tax, not rounded.
    pub cost_per_part: Option<Decimal>,
}

impl PlankTallied {
    /// [`Self::exact_board_feet`] in cubic metres.
    pub fn exact_cubic_metres(&self) -> Option<Decimal> {
        self.exact_board_feet.and_then(cubic_metres)
    }
}

/// What the planks taken on a visit come to.
#[derive(Debug, Clone, PartialEq)]
pub struct VisitTally {
    /// The planks, in the order in which they got their marks.
    pub planks: Vec<PlankTallied>,
    /// The tally by the yard's rule.
    pub tally: Tally,
    /// Exact footage of those that have one, in board feet.
    pub exact_board_feet: Decimal,
    /// Mass of those that were weighed.
    pub mass: Mass,
    pub not_weighed: usize,
    /// What a part costs on average, with tax, over the planks of which both are known.
    pub cost_per_part: Option<Decimal>,
    /// What a good blank costs in wood at the spec's expected yield, with tax, over the same planks.
    pub cost_per_good_blank: Option<Decimal>,
    /// The visit's budget.
    pub budget: Option<Decimal>,
    /// What is left of the budget once these are paid, tax in it; less than nothing when it is
    /// overdrawn.
    pub budget_left: Option<Decimal>,
}

impl VisitTally {
    /// [`Self::exact_board_feet`] in cubic metres.
    pub fn exact_cubic_metres(&self) -> Option<Decimal> {
        cubic_metres(self.exact_board_feet)
    }

    /// The rules that the planks are charged by, each once.
    pub fn rules(&self) -> Vec<&TallyRule> {
        let mut rules: Vec<&TallyRule> = Vec::new();
        for plank in &self.planks {
            if !rules.contains(&&plank.terms.rule) {
                rules.push(&plank.terms.rule);
            }
        }
        rules
    }
}

/// Length x width x thickness as measured.
pub(crate) fn exact_rule() -> TallyRule {
    TallyRule {
        measure: TallyMeasure::Exact,
        thickness: ThicknessBasis::Measured,
        ..TallyRule::default()
    }
}

/// A plank's sizes as a yard charges them: its length, the mean of its widths, the least of its
/// thicknesses (so that one typed as "the lowest" and three typed in full are charged alike: common
/// practice, no source), its pile's nominal thickness.
///
/// No published value: a rule of practice, not worked out.
pub fn line_of(mark: &str, plank: &Plank, nominal: Option<f64>) -> TallyLine {
    TallyLine {
        mark: mark.to_owned(),
        sawn: Sawn {
            length: plank.length,
            width: mean_of_stations(&plank.widths),
            thickness: plank.thicknesses.least(),
            nominal: nominal.map(mm),
        },
        width_with_wane: plank.width_with_wane,
        mass: mass_as_weighed(&mut TraceOff, plank).ok(),
    }
}

impl Piece {
    pub fn described(&self) -> Plank {
        let defects = self.defects.iter().map(|(_, defect)| defect);
        described(&|field| self.reading(field), defects)
    }
}

impl Visit {
    /// The terms of one of its piles: what the pile leaves open is as the visit says.
    pub fn terms_for(&self, pile: &Pile) -> Terms {
        let (visit, pile) = (&self.opened, &pile.opened);
        let basis = pile.price_basis.unwrap_or(visit.price_basis);
        Terms {
            rule: pile.rule.clone().unwrap_or_else(|| visit.rule.clone()),
            price: pile.price.map(|price| (price, basis)),
            discount_percent: visit.discount_percent,
            tax_percent: visit.tax_percent,
            prices_are: self.prices_are(),
        }
    }

    /// Whether its prices hold the tax.
    pub fn prices_are(&self) -> PricesAre {
        if self.opened.prices_include_tax {
            PricesAre::Gross
        } else {
            PricesAre::Net
        }
    }
}

impl Money {
    /// As the yard's prices are: without or with tax.
    pub fn as_asked(&self, prices: PricesAre) -> Decimal {
        match prices {
            PricesAre::Net => self.net,
            PricesAre::Gross => self.gross,
        }
    }
}

/// A piece with its sizes and its pile's terms; `None` where its pile or visit is not here.
pub fn charged(state: &State, piece: &Piece) -> Option<PlankCharged> {
    charged_as(state, piece, &piece.described())
}

/// [`charged`], of a piece whose description is made already.
pub(crate) fn charged_as(state: &State, piece: &Piece, plank: &Plank) -> Option<PlankCharged> {
    let pile = state.pile(piece.pile)?;
    let visit = state.visit(pile.opened.visit)?;
    let nominal = pile.opened.nominal_thickness.as_ref().map(|t| t.value);
    Some(PlankCharged {
        piece: piece.id,
        line: line_of(&piece.mark, plank, nominal),
        terms: visit.terms_for(pile),
    })
}

/// The planks of a visit that are taken, in the order in which they got their marks.
pub fn taken_on(state: &State, visit: Id) -> Vec<&Piece> {
    let mut taken: Vec<&Piece> = state
        .piles_of(visit)
        .flat_map(|pile| state.pieces_of(pile.id))
        .filter(|piece| !piece.withdrawn && piece.decision() == Some(Decision::Take))
        .collect();
    order::sort_by_key(&mut taken, |piece| piece.id);
    taken
}

/// The planks taken on a visit with their sizes and terms, and their descriptions.
pub(crate) fn charged_on(state: &State, visit: Id) -> Vec<(PlankCharged, Plank)> {
    let charged = |piece: &Piece| {
        let plank = piece.described();
        Some((charged_as(state, piece, &plank)?, plank))
    };
    taken_on(state, visit)
        .into_iter()
        .filter_map(charged)
        .collect()
}

/// A visit of which the tally was asked for.
#[derive(Clone, PartialEq)]
struct TallyOf(Id);

/// What the planks taken on a visit come to; `None` where the visit is not here. Of the few visits asked for last it is
/// kept until the record changes: the sheets of their planks ask for it again.
pub fn tally_of(state: &State, visit: Id) -> Option<VisitTally> {
    let tally = || tallied_anew(state, visit);
    let kept = state.memo.answer(state.version(), TallyOf(visit), tally);
    Option::clone(&kept)
}

fn tallied_anew(state: &State, visit: Id) -> Option<VisitTally> {
    let known = state.visit(visit)?;
    let spec = &known.opened.spec;
    let charged = charged_on(state, visit);
    let tally = tally_visit(charged.iter().map(|(one, _)| (&one.line, &one.terms)));
    let planks: Vec<PlankTallied> = charged
        .into_iter()
        .zip(&tally.lines)
        .map(|((one, plank), tallied)| tallied_plank(one, &plank, tallied, spec))
        .collect();
    Some(together(planks, tally, spec, known.opened.budget))
}

fn tallied_plank(
    one: PlankCharged,
    plank: &Plank,
    tallied: &TalliedLine,
    spec: &Spec,
) -> PlankTallied {
    let parts = parts_held(plank, spec).ok().map(|held| held.parts);
    let paid = tallied.money.as_ref().ok().map(|money| money.gross);
    PlankTallied {
        piece: one.piece,
        exact_board_feet: board_feet(&exact_rule(), &one.line.sawn, &mut Halves::default()).ok(),
        line: one.line,
        terms: one.terms,
        tallied: tallied.clone(),
        cost_per_part: paid.zip(parts).and_then(|(paid, n)| cost_per_part(paid, n)),
        parts,
    }
}

fn together(
    planks: Vec<PlankTallied>,
    tally: Tally,
    spec: &Spec,
    budget: Option<Decimal>,
) -> VisitTally {
    let (paid, paid_parts) = planks
        .iter()
        .filter_map(|plank| Some((plank.tallied.money.as_ref().ok()?.gross, plank.parts?)))
        .fold((Decimal::ZERO, 0u32), |(sum, count), (paid, parts)| {
            (sum.saturating_add(paid), count.saturating_add(parts))
        });
    let nothing = kg(0.0);
    VisitTally {
        exact_board_feet: planks
            .iter()
            .filter_map(|plank| plank.exact_board_feet)
            .fold(Decimal::ZERO, Decimal::saturating_add),
        mass: planks
            .iter()
            .filter_map(|plank| plank.line.mass)
            .fold(nothing, |sum, mass| sum + mass),
        not_weighed: planks.iter().filter(|p| p.line.mass.is_none()).count(),
        cost_per_part: cost_per_part(paid, paid_parts),
        cost_per_good_blank: cost_per_good_blank(
            paid,
            paid_parts,
            spec.parts_per_blank,
            spec.expected_yield,
        ),
        budget,
        budget_left: budget
            .and_then(|budget| budget::budget_left(&mut TraceOff, "", budget, &tally)),
        planks,
        tally,
    }
}
