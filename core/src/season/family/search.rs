//! The search for the planks to start, place by place and plank by plank: it can be told how far it is, and stopped.

use super::chance::{Alike, Reckoning, share_places};
use super::planks::{alike, check_wanted, reaches, stages};
use super::range::{StartRange, range_of};
use super::way::{InHand, Way, check};
use crate::season::start::StartError;
use serde::{Deserialize, Serialize};

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
    /// The errors of [`planks_to_start`](super::planks_to_start), but for too many planks. Where there is none, the
    /// search has none either.
    pub fn check(&self) -> Result<(), StartError> {
        if !(self.confidence > 0.0 && self.confidence < 1.0) {
            return Err(StartError::Confidence(self.confidence));
        }
        check(&self.way, &self.in_hand)?;
        check_wanted(&self.way, self.wanted)
    }

    /// Whether a chance is as sure as it has to be.
    pub fn is_enough(&self, chance: f64) -> bool {
        reaches(chance, self.confidence)
    }
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StartFound {
    /// As [`chance_by_planks`](super::chance_by_planks) has them.
    pub chances: Vec<f64>,
    /// As [`start_range`] has it.
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

    /// Goes on to the end.
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

/// The shares that the counts leave open are taken at 256 places; for each the least number of planks that is enough
/// for the confidence. Of these the range leaves out the least and the most 2.5 %: 95 of 100 lie in it. Shares that are
/// known give one number. The same errors as [`planks_to_start`](super::planks_to_start); no more than `most` planks are
/// looked at.
///
/// ```
/// use stillwood_core::season::{InHand, ShareCount, StageShare, StageShare::Known, Way, start_range};
/// let mut way = Way {
///     parts_per_plank: 9, part_stages: vec![Known(0.8)], intraclass_correlation: 0.0,
///     parts_per_blank: 5, blank_stages: vec![Known(0.95)],
/// };
/// let range = |way: &Way| start_range(way, &InHand::default(), 4, 0.9, 120).unwrap();
/// assert_eq!(range(&way).low, range(&way).high);
/// way.part_stages = vec![StageShare::Counted(ShareCount { through: 20, of: 25, counts_as: 4.0 })];
/// assert!(range(&way).low < range(&way).high);
/// ```
///
/// No published value: the answer of `planks_to_start` for each share by itself.
pub fn start_range(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
    most: u32,
) -> Result<StartRange, StartError> {
    start_by_planks(way, in_hand, wanted, confidence, most).map(|(_, range)| range)
}

/// [`chance_by_planks`](super::chance_by_planks) and [`start_range`] of the same, at the price of the dearer one: every
/// place goes on only as long as its chance, or the mean of all, is still open.
///
/// No published value: both by themselves, held against each other.
pub fn start_by_planks(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
    most: u32,
) -> Result<(Vec<f64>, StartRange), StartError> {
    let task = StartTask {
        way: way.clone(),
        in_hand: in_hand.clone(),
        wanted,
        confidence,
        most,
    };
    let StartFound { chances, range } = StartSearch::new(task)?.finish();
    Ok((chances, range))
}
