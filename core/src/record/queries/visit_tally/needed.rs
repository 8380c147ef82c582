//! What a visit still has to bring home for the wish in force: planks, footage and money.
//!
//! Days go by the maker's own pace where one is known, else by the least rests, and it is told which.
//! Footage and money go by what planks were like so far: those taken on the visit, else all that were ever
//! taken. It knows no yard's stock and decides nothing.

use crate::order;
use crate::quantity::{Derivation, Trace, formula};
use crate::record::log::id::Id;
use crate::record::log::{PieceKind, SpeciesNamed, TargetSet};
use crate::record::queries;
use crate::record::queries::{Expected, Paces, TargetAnswer, TargetQuestion, WoodInHand};
use crate::record::queries::{PlankTallied, VisitTally};
use crate::record::state::State;
use crate::season::{PlanPosition, Rests, Stage, StartFound, StartTask, explain_ahead, way_ahead};
use crate::verdict::supplied::NECK_LAMINATES_YIELD;
use crate::verdict::{Purpose, Spec};
use chrono::NaiveDate;
use rust_decimal::Decimal;

/// How sure it has to be where no wish says so, in percent.
const SURE_PERCENT: u32 = 90;
/// Laminates of a plank where none was measured or ripped yet. Common practice, no source.
const PER_PLANK: u32 = 9;

#[derive(Debug, Clone, PartialEq)]
pub struct PlanksSoFar {
    pub planks: usize,
    /// They were taken on this visit.
    pub of_this_visit: bool,
    /// Footage of one by the yard's rule.
    pub board_feet: Decimal,
    /// What one cost, with tax.
    pub gross: Decimal,
}

/// What a visit still has to bring home.
#[derive(Debug, Clone, PartialEq)]
pub struct StillToBuy {
    /// The wish: the maker's, else as the visit's spec has it.
    pub wish: TargetSet,
    /// The day on which the maker said it; `None` for the visit's spec.
    pub said_on: Option<NaiveDate>,
    pub answer: TargetAnswer,
    /// The planks taken on this visit that are in hand; none where planks are too late.
    pub picks: usize,
    /// Laminates to be expected of a plank.
    pub per_plank: u32,
    /// What that is told by.
    pub per_plank_by: ExpectedBy,
    /// What planks are like; `None` while none has a price.
    pub so_far: Option<PlanksSoFar>,
    /// The day of asking.
    pub today: NaiveDate,
    /// The rests that it reckons with: at the maker's own pace where one is known.
    pub rests: Rests,
    /// The stages whose pace is known; the least rest holds for the others.
    pub at_own_pace: Vec<Stage>,
}

/// What the laminates to expect of a plank are told by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExpectedBy {
    /// What fits in the planks of the visit.
    WhatFits,
    /// The same, less what was lost of the planks that were ripped so far.
    LessLost,
    /// The planks that were ripped to the last.
    Ripped,
    /// Neither is known: nine, common practice, no source.
    CommonPractice,
}

/// [`StillToBuy`] without the search for the planks to start.
#[derive(Debug, Clone, PartialEq)]
pub struct ToBuyQuestion {
    question: TargetQuestion,
    needed: NeededBeside,
}

/// What [`StillToBuy`] holds beside the answer.
#[derive(Debug, Clone, PartialEq)]
struct NeededBeside {
    wish: TargetSet,
    said_on: Option<NaiveDate>,
    picks: usize,
    per_plank: u32,
    per_plank_by: ExpectedBy,
    so_far: Option<PlanksSoFar>,
    today: NaiveDate,
    rests: Rests,
    at_own_pace: Vec<Stage>,
}

impl ToBuyQuestion {
    /// What is searched for; `None` where there is nothing to search for.
    pub fn task(&self) -> Option<&StartTask> {
        self.question.task()
    }

    /// The answer, by what the search found: see [`TargetQuestion::answered`].
    pub fn answered(&self, found: Option<StartFound>) -> StillToBuy {
        let beside = self.needed.clone();
        StillToBuy {
            wish: beside.wish,
            said_on: beside.said_on,
            answer: self.question.answered(found),
            picks: beside.picks,
            per_plank: beside.per_plank,
            per_plank_by: beside.per_plank_by,
            so_far: beside.so_far,
            today: beside.today,
            rests: beside.rests,
            at_own_pace: beside.at_own_pace,
        }
    }
}

formula! {
    exact
    /// For so many planks.
    FOR_PLANKS: "For the planks still needed", "x", given;
    planks: "n", "planks still needed", "";
    each: "x₁", "mean of the planks so far", given;
    = planks * each;
    range "planks like those so far";
    source "arithmetic";
}

impl StillToBuy {
    /// Planks still needed; `None` where no number is enough, or it can't be told.
    pub fn planks(&self) -> Option<u32> {
        self.answer.start.as_ref().ok()?.planks
    }

    /// The day on which a plank bought on the day of asking can be blanks, its weeks in the room and its rests over, if it
    /// comes through; `None` beyond the calendar.
    pub fn ready_if_bought_now(&self) -> Option<NaiveDate> {
        let legs = way_ahead(PlanPosition::Plank(None), &self.rests, self.today).ok()?;
        legs.last().map(|leg| leg.until)
    }

    /// How [`Self::ready_if_bought_now`] was worked out.
    pub fn explain_ready(&self) -> Option<Derivation> {
        explain_ahead(PlanPosition::Plank(None), &self.rests, self.today).ok()
    }

    /// Footage and money, with tax, of the planks still needed.
    pub fn of_planks(&self) -> Option<(Decimal, Decimal)> {
        let planks = Decimal::from(self.planks()?);
        let one = self.so_far.as_ref()?;
        let times = |each| FOR_PLANKS.of([planks, each]);
        Some((times(one.board_feet)?, times(one.gross)?))
    }

    /// How the money in a currency, or else the footage, of the planks still needed was worked out.
    pub fn worked(&self, currency: Option<&str>) -> Option<Derivation> {
        let one = self.so_far.as_ref()?;
        let each = match currency {
            Some(_) => one.gross,
            None => one.board_feet,
        };
        let mut working = Derivation::default();
        let planks = Decimal::from(self.planks()?);
        let unit = currency.unwrap_or("bd ft");
        working.steps.exact_in(unit, &FOR_PLANKS, [planks, each])?;
        let whose = match one.of_this_visit {
            true => "taken on this visit",
            false => "ever taken, for none of this visit has a price yet",
        };
        working.notes.push(format!(
            "The mean is that of {} planks {whose}.",
            one.planks
        ));
        Some(working)
    }
}

/// The mean of planks of which footage and price are known.
fn mean_of<'a>(
    planks: impl Iterator<Item = &'a PlankTallied>,
    of_this_visit: bool,
) -> Option<PlanksSoFar> {
    let (mut count, mut feet, mut gross) = (0_usize, Decimal::ZERO, Decimal::ZERO);
    for plank in planks {
        let (Ok(money), Ok(board_feet)) = (&plank.tallied.money, &plank.tallied.board_feet) else {
            continue;
        };
        count += 1;
        feet = feet.checked_add(*board_feet)?;
        gross = gross.checked_add(money.gross)?;
    }
    let of = Decimal::from(count);
    Some(PlanksSoFar {
        planks: count,
        of_this_visit,
        board_feet: feet.checked_div(of)?,
        gross: gross.checked_div(of)?,
    })
}

/// The share of one of three stages whose product is the share that a spec expects to come through; where there is
/// no spec yet, that of the neck laminates that come with the app. Common practice, no source.
///
/// No published value: the third root.
fn share_of_a_stage(spec: Option<&Spec>) -> f64 {
    libm::cbrt(yield_expected(spec))
}

/// The share of a plank's laminates that a spec expects to become good blanks, all stages together.
fn yield_expected(spec: Option<&Spec>) -> f64 {
    let expected = spec.map_or(NECK_LAMINATES_YIELD, |spec| spec.expected_yield);
    expected.clamp(0.001, 1.0)
}

/// The same by the spec of the last visit.
pub fn share_of_a_stage_now(state: &State) -> f64 {
    share_of_a_stage(last_spec(state))
}

/// What all stages together come to by the spec of the last visit.
pub fn yield_expected_now(state: &State) -> f64 {
    yield_expected(last_spec(state))
}

fn last_spec(state: &State) -> Option<&Spec> {
    state.last_visit().map(|visit| &visit.opened.spec)
}

/// The same in per cent.
pub fn percent_of_a_stage_now(state: &State) -> f64 {
    100.0 * share_of_a_stage_now(state)
}

/// The wish of a spec: what it wants, nine times in ten.
pub fn target_of_spec(spec: &Spec) -> TargetSet {
    TargetSet {
        blanks: spec.blanks_wanted,
        by: None,
        laminates_per_blank: spec.parts_per_blank,
        sure_percent: SURE_PERCENT,
        wood: None,
    }
}

/// Laminates that are to be expected of a plank that is still to be bought: of what fits in those taken
/// on a visit, on average, the share that was got of planks ripped so far; else the mean of those that
/// were ripped to the last, else nine.
pub fn laminates_to_expect(state: &State, tally: Option<&VisitTally>) -> u32 {
    expected_by(state, tally).0
}

fn expected_by(state: &State, tally: Option<&VisitTally>) -> (u32, ExpectedBy) {
    match (fits_on_average(tally), queries::laminates_per_plank(state)) {
        (Some(fits), _) => match queries::stock::cut_shares(state).plank.of(fits) {
            less if less < fits => (less, ExpectedBy::LessLost),
            all => (all, ExpectedBy::WhatFits),
        },
        (None, Some((mean, _))) => ((mean + 0.5).max(1.0) as u32, ExpectedBy::Ripped),
        (None, None) => (PER_PLANK, ExpectedBy::CommonPractice),
    }
}

/// How many parts fit in a plank of a visit on average; `None` where no size is known.
fn fits_on_average(tally: Option<&VisitTally>) -> Option<u32> {
    let known = tally.map_or(&[][..], |tally| &tally.planks[..]);
    let parts: Vec<u32> = known.iter().filter_map(|plank| plank.parts).collect();
    let all = parts.iter().copied().fold(0, u32::saturating_add);
    all.checked_div(parts.len() as u32).filter(|fits| *fits > 0)
}

/// The woods of a visit's piles, each once.
pub fn woods_of_visit(state: &State, visit: Id) -> Vec<SpeciesNamed> {
    let mut woods: Vec<SpeciesNamed> = Vec::new();
    for pile in state.piles_of(visit).filter(|pile| !pile.withdrawn) {
        let wood = &pile.opened.species;
        if !woods.iter().any(|known| known.is_same_wood(wood)) {
            woods.push(wood.clone());
        }
    }
    woods
}

/// The wish that a visit buys for, and the day on which the maker said it: the one in force, unless the number of
/// blanks was changed on the visit after it; else what the spec wants. A wish is for necks: of a visit for neck
/// laminates it holds before the visit is opened, for the plan comes first; of any other it has to be said after.
pub fn target_of_visit(state: &State, visit: Id) -> Option<(TargetSet, Option<NaiveDate>)> {
    let known = state.visit(visit)?;
    let spec = &known.opened.spec;
    let planned = !known.wanted.changed && spec.purpose == Purpose::NeckLaminates;
    Some(match &state.target {
        Some(wish) if planned || wish.place > known.wanted.said => {
            (wish.payload.clone(), Some(wish.on))
        }
        _ => (target_of_spec(spec), None),
    })
}

/// What a visit still has to bring home for its wish, with the wood in hand, before the planks to start are searched
/// for: see [`queries::wood_in_hand`], asked for the wish's wood, else for those of the visit's piles. The planks taken
/// on the visit are in hand. `paces` are the maker's, see [`queries::paces`]. `None` where the visit is not here.
pub fn to_buy_question(
    state: &State,
    visit: Id,
    tally: &VisitTally,
    wood: &[WoodInHand],
    paces: &Paces,
    today: NaiveDate,
) -> Option<ToBuyQuestion> {
    let known = state.visit(visit)?;
    let (wish, said_on) = target_of_visit(state, visit)?;
    let spec = &known.opened.spec;
    let laminated = spec.purpose == Purpose::NeckLaminates;
    let (per_plank, per_plank_by) = expected_by(state, Some(tally));
    let expected = Expected {
        per_plank,
        share_unknown: share_of_a_stage(Some(spec)),
        by_own_counts: laminated,
    };
    // Wood that was bought for another purpose is not in hand for this one.
    let for_it = |one: &&WoodInHand| {
        let bought = state
            .piece(one.piece)
            .and_then(|piece| state.visit_of(piece));
        bought.map_or(laminated, |visit| visit.opened.spec.purpose == spec.purpose)
    };
    let wood: Vec<WoodInHand> = wood.iter().filter(for_it).cloned().collect();
    let taken = order::set_of(tally.planks.iter().map(|plank| plank.piece));
    let picks = wood.iter().filter(|one| one.kind == PieceKind::Plank);
    let so_far = mean_of(tally.planks.iter(), true).or_else(|| {
        let currency = &known.opened.currency;
        let alike = state.visits().filter(|v| v.opened.currency == *currency);
        let tallies: Vec<VisitTally> = alike
            .filter_map(|v| queries::tally_of(state, v.id))
            .collect();
        mean_of(tallies.iter().flat_map(|tally| &tally.planks), false)
    });
    let least = queries::least_rests(state);
    let rests = paces.rests(&least).unwrap_or(least);
    let question = queries::target_question(state, &wish, &wood, expected, &rests, today);
    let in_time = question.planks_in_time;
    let needed = NeededBeside {
        picks: picks
            .filter(|one| in_time && taken.contains(&one.piece))
            .count(),
        wish,
        said_on,
        per_plank,
        per_plank_by,
        so_far,
        today,
        rests,
        at_own_pace: paces.known().collect(),
    };
    Some(ToBuyQuestion { question, needed })
}
