//! Between which numbers of planks the answer may lie, for shares that few pieces are counted of.
//!
//! It is the answer for each of the shares that the counts leave open, one by one, and not for their mean.

use super::chance::Reckoning;
use super::planks::{reaches, reckonings};
use super::way::{InHand, Way};
use crate::season::start::StartError;

/// Between which numbers of planks the answer lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StartRange {
    /// Enough if the shares are as good as the counts allow.
    pub low: u32,
    /// Enough if they are as bad; `None` where that is beyond what was looked at.
    pub high: Option<u32>,
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
/// assert_eq!(Some(range(&way).low), range(&way).high);
/// way.part_stages = vec![StageShare::Counted(ShareCount { through: 20, of: 25, counts_as: 4.0 })];
/// assert!(range(&way).low < range(&way).high.unwrap());
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
    if !(confidence > 0.0 && confidence < 1.0) {
        return Err(StartError::Confidence(confidence));
    }
    let mut places: Vec<Place> = reckonings(way, in_hand, wanted)?
        .into_iter()
        .map(|reckoning| (reckoning, None))
        .collect();
    let mut chances = Vec::new();
    let mut sure = false;
    for planks in 0..=most {
        let mut sum = 0.0;
        for (reckoning, answer) in places.iter_mut().filter(|place| is_open(place, sure)) {
            let chance = reckoning.chance();
            sum += chance;
            if answer.is_none() && reaches(chance, confidence) {
                *answer = Some(planks);
            }
        }
        if !sure {
            let chance = sum / places.len() as f64;
            chances.push(chance);
            sure = reaches(chance, confidence);
        }
        if !places.iter().any(|place| is_open(place, sure)) {
            break;
        }
        let open = places.iter_mut().filter(|place| is_open(place, sure));
        open.for_each(|(reckoning, _)| reckoning.add_plank());
    }
    Ok((chances, range_of(places, most)))
}

/// The reckoning at a place, and the least planks that are enough there.
type Place = (Reckoning, Option<u32>);

/// Whether more planks still tell something there: for the mean of all, until that is sure, or for the place itself.
fn is_open((_, answer): &Place, sure: bool) -> bool {
    !sure || answer.is_none()
}

fn range_of(places: Vec<Place>, most: u32) -> StartRange {
    let mut answers: Vec<Option<u32>> = places.into_iter().map(|(_, answer)| answer).collect();
    // Those beyond what was looked at come last.
    crate::order::sort_by_key(&mut answers, |planks| planks.unwrap_or(u32::MAX));
    let left_out = answers.len() / 40;
    let low = answers.get(left_out).copied().flatten();
    let high = answers.iter().rev().nth(left_out).copied().flatten();
    StartRange {
        low: low.unwrap_or(most),
        high,
    }
}
