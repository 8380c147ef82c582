//! A plan out of the record: when each lot in hand can be a blank, the earliest blanks, and for a wish by
//! when planks have to be cut, pieces ripped and laminates glued, and whether what is in hand is enough.
//!
//! Dates reckon with the rests that are passed in, the least ones or those of the maker's own pace (see
//! [`crate::record::queries::Paces`]), chances with the maker's own counts. It promises nothing: what moves while it rests
//! is found out by then.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::{PieceKind, TargetSet};
use crate::record::queries;
use crate::record::queries::{
    InHandCount, LaminatesBy, StartAnswer, StartQuestion, StartTarget, WoodInHand,
};
use crate::record::state::State;
use crate::season::{
    LatestDays, Leg, MeasureKey, PlanPosition, RestError, Rests, SeasonPlanError, Stage,
    StartError, StartFound, StartSearch, StartTask, StockItem, cut_on, earliest_blanks,
    latest_days, way_ahead,
};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// Wood of one kind that stands alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanLot {
    pub kind: PieceKind,
    pub standing: PlanPosition,
    /// Its pieces and their marks, by mark.
    pub pieces: Vec<(Id, String)>,
    /// Laminates to be expected of it together; of blanks none.
    pub laminates: u32,
    /// Of one at least it can be told.
    pub laminates_known: bool,
    /// Of one at least it is what fits, less what was lost of those that were ripped so far.
    pub less_lost: bool,
    /// The rests before it.
    pub legs: Vec<Leg>,
    /// How the measurement's key stands of how many pieces, where it rests; and where it is not looked at often enough,
    /// how many looks are still wanted of each.
    pub keys: BTreeMap<(MeasureKey, usize), usize>,
    /// How many of those that rest were looked over last too long ago to tell how they stand.
    pub looks_old: usize,
}

impl PlanLot {
    /// The day on which it can be blanks.
    pub fn blank_on(&self) -> Option<NaiveDate> {
        self.legs.last().map(|leg| leg.until)
    }
}

/// What the chances of a wish are reckoned with, besides the record's counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expected {
    /// Laminates that a plank gives.
    pub per_plank: u32,
    /// The share of a stage of which nothing is decided.
    pub share_unknown: f64,
    /// See [`StartTarget::by_own_counts`].
    pub by_own_counts: bool,
}

/// When what is in hand can be blanks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanAhead {
    /// Lot by lot, those that can be blanks first in front.
    pub lots: Vec<PlanLot>,
    /// The earliest day of each blank, if every piece comes through.
    pub blanks: Vec<NaiveDate>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct TargetAnswer {
    /// By when each step has to be taken; `None` where no day was said.
    pub latest: Option<Result<LatestDays, RestError>>,
    /// What is in hand and can be blanks in time.
    pub in_time: InHandCount,
    /// Planks bought on the day of asking, cut after their weeks in the room, are in time.
    pub planks_in_time: bool,
    /// The chances, with what is in time.
    pub start: Result<StartAnswer, StartError>,
}

/// [`TargetAnswer`] without the search for the planks to start, which takes long where many blanks are wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct TargetQuestion {
    pub latest: Option<Result<LatestDays, RestError>>,
    pub in_time: InHandCount,
    pub planks_in_time: bool,
    start: Result<StartQuestion, StartError>,
}

impl TargetQuestion {
    /// What is searched for; `None` where there is nothing to search for.
    pub fn task(&self) -> Option<&StartTask> {
        self.start.as_ref().ok().map(StartQuestion::task)
    }

    /// The answer, by what the search found, if there was one. The search is done where it was not.
    pub fn answered(&self, found: Option<StartFound>) -> TargetAnswer {
        let start = |question: &StartQuestion| {
            let found = match found {
                Some(found) => found,
                None => StartSearch::new(question.task().clone())?.finish(),
            };
            Ok(question.answered(found))
        };
        TargetAnswer {
            latest: self.latest,
            in_time: self.in_time,
            planks_in_time: self.planks_in_time,
            start: self.start.as_ref().map_err(|why| *why).and_then(start),
        }
    }
}

/// Order of kinds and standings in a plan; planks by the day on which they are cut.
fn place_of(
    one: &WoodInHand,
    rests: &Rests,
    today: NaiveDate,
) -> Result<(PieceKind, u8, Stage, Option<NaiveDate>), RestError> {
    Ok(match one.standing {
        PlanPosition::Plank(came) => {
            let cut = cut_on(came, rests, today)?;
            (one.kind, 0, Stage::Pieces, Some(cut))
        }
        PlanPosition::NotSetToRest(stage) => (one.kind, 1, stage, None),
        PlanPosition::Resting(stage, since) => (one.kind, 2, stage, Some(since)),
    })
}

/// When each lot of the wood in hand can be blanks if it rests so long, and the earliest blanks of all
/// together, so many laminates to each.
pub fn plan_ahead(
    wood: &[WoodInHand],
    per_blank: u32,
    rests: &Rests,
    today: NaiveDate,
) -> Result<PlanAhead, SeasonPlanError> {
    let mut alike: BTreeMap<_, Vec<&WoodInHand>> = BTreeMap::new();
    for one in wood {
        let place = place_of(one, rests, today)?;
        alike.entry(place).or_default().push(one);
    }
    let mut lots = Vec::new();
    for all in alike.into_values() {
        let Some(first) = all.first() else { continue };
        let mut keys = BTreeMap::new();
        for ready in all.iter().filter_map(|one| one.ready) {
            let looks = match ready.measure {
                MeasureKey::NotChecked => ready.looks_wanted,
                _ => 0,
            };
            *keys.entry((ready.measure, looks)).or_default() += 1;
        }
        let laminates = all.iter().map(|one| one.laminates);
        lots.push(PlanLot {
            kind: first.kind,
            standing: first.standing,
            laminates: laminates.fold(0, u32::saturating_add),
            laminates_known: all
                .iter()
                .any(|one| one.laminates_by != LaminatesBy::NotKnown),
            less_lost: all
                .iter()
                .any(|one| one.laminates_by == LaminatesBy::LessLost),
            legs: way_ahead(first.standing, rests, today)?,
            keys,
            looks_old: all
                .iter()
                .filter(|one| one.ready.is_some() && one.is_look_old)
                .count(),
            pieces: all
                .iter()
                .map(|one| (one.piece, one.mark.clone()))
                .collect(),
        });
    }
    order::sort_by_key(&mut lots, |lot| (lot.blank_on(), lot.kind));
    let held: Vec<StockItem> = wood.iter().map(WoodInHand::held).collect();
    Ok(PlanAhead {
        lots,
        blanks: earliest_blanks(&held, per_blank, rests, today)?,
    })
}

/// What a wish takes if wood rests so long: the last days of each step, whether what is in hand is
/// enough, and how many planks to start.
pub fn target_answer(
    state: &State,
    wish: &TargetSet,
    wood: &[WoodInHand],
    expected: Expected,
    rests: &Rests,
    today: NaiveDate,
) -> TargetAnswer {
    target_question(state, wish, wood, expected, rests, today).answered(None)
}

/// The same without the search.
pub fn target_question(
    state: &State,
    wish: &TargetSet,
    wood: &[WoodInHand],
    expected: Expected,
    rests: &Rests,
    today: NaiveDate,
) -> TargetQuestion {
    let in_time = |one: &&WoodInHand| {
        let legs = way_ahead(one.standing, rests, today).ok();
        let blank_on = legs.and_then(|legs| Some(legs.last()?.until));
        wish.by
            .is_none_or(|by| blank_on.is_some_and(|day| day <= by))
    };
    let latest = wish.by.map(|by| latest_days(by, rests));
    let buy_by = |latest: &Result<LatestDays, RestError>| {
        latest.as_ref().is_ok_and(|latest| latest.buy_by >= today)
    };
    let asked = StartTarget {
        blanks: wish.blanks,
        laminates_per_plank: expected.per_plank,
        laminates_per_blank: wish.laminates_per_blank,
        confidence: wish.confidence(),
        share_unknown: expected.share_unknown,
        by_own_counts: expected.by_own_counts,
    };
    let wood: Vec<&WoodInHand> = wood.iter().filter(in_time).collect();
    TargetQuestion {
        planks_in_time: latest.as_ref().is_none_or(buy_by),
        latest,
        in_time: InHandCount::of(wood.iter().copied()),
        start: queries::start_question(state, &asked, wood.iter().copied()),
    }
}
