//! The search for the planks to start, place by place and plank by plank: it can be told how far it is, and stopped.

use super::chance::{Alike, Reckoning, share_places};
use super::range::{StartRange, range_of};
use super::way::{InHand, Lot, MOST_LAMINATES, StageShare, Way, check};
use crate::season::start::StartError;
use serde::{Deserialize, Serialize};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// What is searched for: the least planks besides what is in hand with which so many blanks come through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StartTask {
    /// The way that the planks go.
    pub way: Way,
    /// What is in hand.
    pub in_hand: InHand,
    /// Good blanks wanted.
    pub wanted: u32,
    /// How sure it has to be, over 0 and under 1.
    pub confidence: f64,
    /// The most planks that are looked at.
    pub most: u32,
}

impl StartTask {
    /// An error for shares, a likeness or a confidence that are none, beyond 1000 laminates of a plank, of a blank or
    /// wanted in all, and for a lot in hand of over a million. Where there is none, the search has none either.
    pub fn check(&self) -> Result<(), StartError> {
        if !(self.confidence > 0.0 && self.confidence < 1.0) {
            return Err(StartError::Confidence(self.confidence));
        }
        check(&self.way, &self.in_hand)?;
        match self.wanted.saturating_mul(self.way.parts_per_blank) > MOST_LAMINATES {
            true => Err(StartError::TooMany(MOST_LAMINATES)),
            false => Ok(()),
        }
    }

    /// Whether a chance is as sure as it has to be.
    pub fn is_enough(&self, chance: f64) -> bool {
        reaches(chance, self.confidence)
    }
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StartFound {
    /// The chance that at least so many blanks come through with 0, 1, 2 and more planks besides what is in hand, up to
    /// the first number that is enough for the confidence, or to the most that are looked at.
    pub chances: Vec<f64>,
    /// The least number of planks that is enough at each of the 256 places by itself, without the least and the most
    /// 2.5 %: 95 of 100 lie in it. Shares that are known give one number.
    pub range: StartRange,
}

/// The reckoning at a place, and the least planks that are enough there.
type Place = (Reckoning, Option<u32>);

/// Whether more planks still tell something there: for the mean of all, until that is sure, or for the place itself.
fn is_open((_, answer): &Place, sure: bool) -> bool {
    !sure || answer.is_none()
}

/// A search under way.
pub struct StartSearch {
    task: StartTask,
    parts: Vec<Alike>,
    shares: Vec<Vec<f64>>,
    places: Vec<Place>,
    /// So many planks are looked at, from this place on.
    planks: u32,
    at: usize,
    /// The chances with so many planks at the places before it, added up.
    sum: f64,
    chances: Vec<f64>,
    is_sure: bool,
    is_done: bool,
}

impl StartSearch {
    /// Begins a search.
    ///
    /// # Errors
    /// Those of [`StartTask::check`].
    pub fn new(task: StartTask) -> Result<Self, StartError> {
        task.check()?;
        Ok(Self {
            parts: alike(&task.in_hand.parts),
            shares: share_places(&stages(&task.way))?,
            places: Vec::new(),
            planks: 0,
            at: 0,
            sum: 0.0,
            chances: Vec::new(),
            is_sure: false,
            is_done: false,
            task,
        })
    }

    /// Goes on for about so many multiplications.
    pub fn go_on(&mut self, multiplications: u64) {
        let mut done: u64 = 0;
        while !self.is_done && done < multiplications {
            done = done.saturating_add(self.one_place());
        }
    }

    /// How many planks are looked at.
    pub fn planks(&self) -> u32 {
        self.planks
    }

    /// Nothing is left to be looked at.
    pub fn is_done(&self) -> bool {
        self.is_done
    }

    /// Goes on to the end: how many planks to start besides what is in hand, so that with confidence C at least N
    /// blanks come through all stages, and between which numbers of planks that lies.
    ///
    /// Of a plank's laminates the number that comes through is beta-binomial: mean share P, the product of
    /// the stages left, and likeness rho, so a = P (1 - rho)/rho and b = (1 - P)(1 - rho)/rho; binomial for
    /// rho = 0. Laminates of all planks are added up by convolution, every so many make a blank, what is over
    /// is left over, and blanks come through each by itself. That is exact where all shares are known. A
    /// counted share is the beta distribution of [`share_spread_of`](crate::season::share_spread_of), and the same for
    /// all planks: the chance is then the mean over 256 places spread evenly over what the shares may be. Every place
    /// goes on only as long as its chance, or the mean of all, is still open. Textbook probability, no source read.
    ///
    /// ```
    /// use stillwood_core::season::{InHand, StageShare::Known, StartSearch, StartTask, Way};
    /// let mut task = StartTask {
    ///     way: Way {
    ///         parts_per_plank: 9, part_stages: [0.85, 0.90, 0.75, 0.85].map(Known).into(),
    ///         intraclass_correlation: 0.0,
    ///         parts_per_blank: 5, blank_stages: [0.98, 0.95].map(Known).into(),
    ///     },
    ///     in_hand: InHand::default(), wanted: 10, confidence: 0.9, most: 120,
    /// };
    /// let planks = |task: &StartTask| StartSearch::new(task.clone()).unwrap().finish().chances.len() - 1;
    /// assert_eq!(planks(&task), 15);
    /// task.way.intraclass_correlation = 0.3;
    /// assert_eq!(planks(&task), 16);
    /// ```
    pub fn finish(mut self) -> StartFound {
        while !self.is_done {
            self.one_place();
        }
        let answers = self.places.into_iter().map(|(_, answer)| answer);
        StartFound {
            chances: self.chances,
            range: range_of(answers.collect()),
        }
    }

    /// Looks at the next place with so many planks; the multiplications that it took, about.
    fn one_place(&mut self) -> u64 {
        let (task, at) = (&self.task, self.at);
        let Some(shares) = self.shares.get(at) else {
            self.next_plank();
            return 1;
        };
        self.at += 1;
        let mut work = 1;
        if at == self.places.len() {
            let blanks = &task.in_hand.blanks;
            let begun = Reckoning::new(&task.way, &self.parts, blanks, task.wanted, shares);
            work += begun.work_to_begin(self.parts.len());
            self.places.push((begun, None));
        }
        let open = |place: &&mut Place| is_open(place, self.is_sure);
        let Some((reckoning, answer)) = self.places.get_mut(at).filter(open) else {
            return work;
        };
        if self.planks > 0 {
            work += reckoning.work_of_a_plank();
            reckoning.add_plank();
        }
        let chance = reckoning.chance();
        self.sum += chance;
        if answer.is_none() && reaches(chance, task.confidence) {
            *answer = Some(self.planks);
        }
        work
    }

    /// All places were looked at with so many planks.
    fn next_plank(&mut self) {
        if !self.is_sure {
            let chance = self.sum / self.places.len() as f64;
            self.chances.push(chance);
            self.is_sure = reaches(chance, self.task.confidence);
        }
        let is_open = |place: &Place| is_open(place, self.is_sure);
        if self.planks == self.task.most || !self.places.iter().any(is_open) {
            self.is_done = true;
            return;
        }
        self.planks += 1;
        self.at = 0;
        self.sum = 0.0;
    }
}

/// A hair under the confidence counts, or the last digit of a sum would decide about a piece of wood.
pub(super) fn reaches(chance: f64, confidence: f64) -> bool {
    chance >= confidence - 1e-12
}

/// All stages, those of laminates before those of blanks.
pub(super) fn stages(way: &Way) -> Vec<StageShare> {
    let all = way.part_stages.iter().chain(&way.blank_stages);
    all.copied().collect()
}

/// Lots with the count of those alike, the largest first: after few of these no other lot matters.
pub(super) fn alike(lots: &[Lot]) -> Vec<Alike> {
    let mut counts: BTreeMap<(Reverse<u32>, usize), u32> = BTreeMap::new();
    for lot in lots {
        *counts
            .entry((Reverse(lot.pieces), lot.stages_done))
            .or_default() += 1;
    }
    let alike = |((Reverse(pieces), stages_done), times)| {
        let lot = Lot {
            pieces,
            stages_done,
        };
        (lot, times)
    };
    counts.into_iter().map(alike).collect()
}
