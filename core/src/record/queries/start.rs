//! How many planks to start for so many blanks, by the maker's own counts and with what is in hand.
//!
//! It brings the record's counts to the chances of seasoning. Stages of which few pieces are decided make
//! the answer larger, and it says so.

use crate::quantity::{Derivation, TraceOff};
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::{InHandCount, StageCount, WoodInHand, lots_in_hand};
use crate::record::state::State;
use crate::season::{
    FamilyEffect, InHand, ShareCount, StageShare, StartError, StartFound, StartRange, StartSearch,
    StartTask, Way, explain_average, explain_intraclass_correlation, explain_start,
    intraclass_correlation, planks_on_average, survival_of,
};
use std::collections::BTreeMap;

/// A figure of an answer about planks to start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartFigure {
    Planks,
    /// How many on average, without a margin.
    OnAverage,
    /// How alike the laminates of one plank are.
    IntraclassCorrelation,
}

/// What is asked about planks to start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartTarget {
    /// Good blanks wanted.
    pub blanks: u32,
    pub laminates_per_plank: u32,
    pub laminates_per_blank: u32,
    /// How sure it has to be, over 0 and under 1.
    pub confidence: f64,
    /// The share taken for a stage of which nothing is decided yet.
    pub share_unknown: f64,
    /// The maker's own counts of pieces, laminates and blanks speak for it; otherwise `share_unknown` is
    /// taken for each stage.
    pub by_own_counts: bool,
}

impl StartTarget {
    /// With shares as they are typed, in per cent, by the maker's own counts.
    pub fn of_percents(
        blanks: u32,
        sure: u32,
        per_plank: u32,
        per_blank: u32,
        unknown: u32,
    ) -> Self {
        Self {
            blanks,
            laminates_per_plank: per_plank,
            laminates_per_blank: per_blank,
            confidence: f64::from(sure) / 100.0,
            share_unknown: f64::from(unknown) / 100.0,
            by_own_counts: true,
        }
    }
}

/// How many planks to start, and on what that stands.
#[derive(Debug, Clone, PartialEq)]
pub struct StartAnswer {
    /// The chance of enough blanks with 0, 1, 2 and more planks besides what is in hand.
    pub chances: Vec<f64>,
    /// So many planks for the confidence asked for; `None` where even the last of the chances is not
    /// enough.
    pub planks: Option<u32>,
    /// Between which numbers of planks the answer lies, by what the counted shares may be.
    pub range: StartRange,
    /// So many on average, by dividing; without a margin, and with its fraction.
    pub on_average: f64,
    /// The share of each stage: pieces, laminates, blanks; `None` for pieces where planks are ripped straight to
    /// laminates.
    pub shares: [Option<StageShare>; 3],
    /// How alike the laminates of one plank are, as taken: nothing where none shows.
    pub intraclass_correlation: f64,
    pub in_hand: InHandCount,
    pub wish: StartTarget,
    /// The way that the planks go, and the lots in hand.
    reckoned: (Way, InHand),
    /// How many laminates came through of how many decided, plank by plank.
    decided: Vec<(u32, u32)>,
}

/// What is asked of the search for the planks to start, and all that the answer stands on beside what it finds. The
/// search takes long where many blanks are wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct StartQuestion {
    task: StartTask,
    on_average: f64,
    shares: [Option<StageShare>; 3],
    intraclass_correlation: f64,
    in_hand: InHandCount,
    wish: StartTarget,
    decided: Vec<(u32, u32)>,
}

impl StartQuestion {
    /// What is searched for. It has no error.
    pub fn task(&self) -> &StartTask {
        &self.task
    }

    /// The answer, by what was found.
    pub fn answered(&self, found: StartFound) -> StartAnswer {
        let StartFound { chances, range } = found;
        let last = chances.last().copied();
        let reached = last.is_some_and(|chance| self.task.is_enough(chance));
        StartAnswer {
            range,
            planks: reached.then(|| chances.len().saturating_sub(1) as u32),
            on_average: self.on_average,
            chances,
            shares: self.shares,
            intraclass_correlation: self.intraclass_correlation,
            in_hand: self.in_hand,
            wish: self.wish,
            reckoned: (self.task.way.clone(), self.task.in_hand.clone()),
            decided: self.decided.clone(),
        }
    }
}

const MOST_PLANKS: u32 = 120;

impl StartAnswer {
    pub fn chance_in_hand(&self) -> f64 {
        self.chances.first().copied().unwrap_or_default()
    }

    /// The chance with the planks that are to be started, or with the most that were looked at.
    pub fn chance(&self) -> f64 {
        self.chances.last().copied().unwrap_or_default()
    }

    /// Between which numbers of planks the answer lies, in the maker's words; `None` where the shares leave one only, or
    /// none that was looked at.
    pub fn range_in_words(&self) -> Option<String> {
        let StartRange { low, high } = self.range;
        let low = low?;
        let high = match high {
            Some(high) if high == low => return None,
            Some(high) => high.to_string(),
            None => format!("more than {MOST_PLANKS}"),
        };
        Some(format!(
            "Your counts leave {low} to {high} planks open (95 of 100 cases)."
        ))
    }

    /// How a figure was worked out; `None` where there is none.
    pub fn worked(&self, figure: StartFigure) -> Option<Derivation> {
        let (way, lots) = &self.reckoned;
        let wanted = self.wish.blanks;
        match figure {
            StartFigure::Planks => {
                let confidence = self.wish.confidence;
                let told = explain_start(way, lots, wanted, confidence, &self.chances).ok()?;
                let told = self.with_straight(told);
                Some(match self.range_in_words() {
                    Some(range) => told.and(format!(
                        "{range} For each of the 256 places by itself the least number of planks that is enough; \
                         the least and the most 2.5 % are left out."
                    )),
                    None => told,
                })
            }
            StartFigure::OnAverage => {
                let told = explain_average(way, lots, wanted).ok()?;
                Some(self.with_straight(told))
            }
            StartFigure::IntraclassCorrelation => Some(
                explain_intraclass_correlation(&self.decided).unwrap_or_else(|| {
                    let why =
                        "0: fewer than two planks of which any is decided, or all of them alike.";
                    Derivation::note(why, "the maker's own counts")
                }),
            ),
        }
    }

    /// And why nothing is taken off for pieces, where that is so.
    fn with_straight(&self, told: Derivation) -> Derivation {
        match self.shares[0] {
            Some(_) => told,
            None => told.and("No piece was ever cut: planks are ripped straight to laminates."),
        }
    }

    /// The stages of which too few pieces are decided to say much; nothing decided counts.
    pub fn known_badly(&self) -> Vec<PieceKind> {
        let kinds = [PieceKind::Piece, PieceKind::Laminate, PieceKind::Blank];
        let badly = |share: &Option<StageShare>| match share {
            None => false,
            Some(StageShare::Known(_)) => true,
            Some(StageShare::Counted(count)) => survival_of(*count).is_ok_and(|s| s.few),
        };
        let with_share = kinds.into_iter().zip(&self.shares);
        let few = with_share.filter(|(_, share)| badly(share));
        few.map(|(kind, _)| kind).collect()
    }
}

/// Laminates that a plank gave on average, had none of its pieces been discarded, and of how many planks that is: of
/// those that were ripped to the last, for a plank of which a piece still rests has more to give. `None` while none was.
pub fn laminates_per_plank(state: &State) -> Option<(f64, usize)> {
    let gave = queries::stock::gave_of_planks(state);
    let all: f64 = gave.iter().map(|(_, laminates)| laminates).sum();
    (!gave.is_empty()).then(|| (all / gave.len() as f64, gave.len()))
}

/// Planks are ripped straight to laminates: some were decided, and no piece was ever cut.
pub(crate) fn rips_planks_straight(state: &State) -> bool {
    let counts = |kind| queries::stage_counts(state, kind);
    let is_decided = |count: &StageCount| count.decided() > 0;
    counts(PieceKind::Piece).is_empty() && counts(PieceKind::Laminate).values().any(is_decided)
}

/// How many came through of how many decided, plank by plank.
pub(crate) fn decided_by_plank(counts: &BTreeMap<Id, StageCount>) -> Vec<(u32, u32)> {
    counts
        .values()
        .map(|count| (count.through, count.decided()))
        .collect()
}

/// How many planks to start besides what is in hand, by the maker's own counts: stage by stage
/// pieces (where any are cut), laminates and blanks, and how alike the laminates of one plank turned out. An error as in
/// [`StartTask::check`].
pub fn start_for<'a>(
    state: &State,
    wish: &StartTarget,
    in_hand: impl IntoIterator<Item = &'a WoodInHand> + Clone,
) -> Result<StartAnswer, StartError> {
    let question = start_question(state, wish, in_hand)?;
    let search = StartSearch::new(question.task.clone())?;
    Ok(question.answered(search.finish()))
}

/// The same without the search. The same errors.
pub fn start_question<'a>(
    state: &State,
    wish: &StartTarget,
    in_hand: impl IntoIterator<Item = &'a WoodInHand> + Clone,
) -> Result<StartQuestion, StartError> {
    let [pieces, ripped, glued] = [PieceKind::Piece, PieceKind::Laminate, PieceKind::Blank]
        .map(|kind| decided_by_plank(&queries::stage_counts(state, kind)));
    let share = |planks: &[(u32, u32)]| -> Result<StageShare, StartError> {
        if !wish.by_own_counts || planks.iter().all(|(_, of)| *of == 0) {
            return Ok(StageShare::Known(wish.share_unknown));
        }
        Ok(StageShare::Counted(ShareCount::of_planks(
            &mut TraceOff,
            planks,
            FamilyEffect::of_planks(planks),
        )?))
    };
    let straight = wish.by_own_counts && rips_planks_straight(state);
    let of_pieces = match straight {
        true => None,
        false => Some(share(&pieces)?),
    };
    let (of_laminates, of_blanks) = (share(&ripped)?, share(&glued)?);
    let decided = ripped;
    // Under nothing no likeness shows; all or none of a plank can't be reckoned with.
    let intraclass_correlation =
        intraclass_correlation(&mut TraceOff, &decided).map_or(0.0, |found| found.clamp(0.0, 0.95));
    let lots = lots_in_hand(in_hand.clone());
    let way = Way {
        parts_per_plank: wish.laminates_per_plank,
        part_stages: vec![of_pieces.unwrap_or(StageShare::Known(1.0)), of_laminates],
        intraclass_correlation,
        parts_per_blank: wish.laminates_per_blank,
        blank_stages: vec![of_blanks],
    };
    let task = StartTask {
        way,
        in_hand: lots,
        wanted: wish.blanks,
        confidence: wish.confidence,
        most: MOST_PLANKS,
    };
    task.check()?;
    Ok(StartQuestion {
        on_average: planks_on_average(&mut TraceOff, &task.way, &task.in_hand, task.wanted)?,
        task,
        shares: [of_pieces, Some(of_laminates), Some(of_blanks)],
        intraclass_correlation,
        in_hand: InHandCount::of(in_hand),
        wish: *wish,
        decided,
    })
}
