//! The least number of planks with which enough blanks come through, and the chance of that with any number.

use super::average::planks_on_average;
use super::chance::{Alike, Reckoning, share_places};
use super::way::{InHand, Lot, StageShare, Way, check};
use crate::quantity::TraceOff;
use crate::season::start::StartError;
use std::cmp::Reverse;
use std::collections::BTreeMap;

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanksToStart {
    /// So many, for the confidence asked for.
    pub planks: u32,
    /// The chance that with so many enough blanks come through.
    pub chance: f64,
    /// So many on average, by dividing; without a margin, and with its fraction.
    pub on_average: f64,
}

const MOST_PLANKS: u32 = 1000;

/// How many planks to start besides what is in hand, so that with confidence C at least N blanks come
/// through all stages.
///
/// Of a plank's laminates the number that comes through is beta-binomial: mean share P, the product of
/// the stages left, and likeness rho, so a = P (1 - rho)/rho and b = (1 - P)(1 - rho)/rho; binomial for
/// rho = 0. Laminates of all planks are added up by convolution, every so many make a blank, what is over
/// is left over, and blanks come through each by itself. That is exact where all shares are known. A
/// counted share is the beta distribution of [`share_spread`](crate::season::share_spread), and the same for all
/// planks: the chance is then the mean over 256 places spread evenly over what the shares may be.
///
/// With one laminate a plank and a blank, and no likeness, it is [`how_many_to_start`](crate::season::how_many_to_start).
/// An error for shares, a likeness or a confidence that are none, beyond 1000 planks or 1000 laminates
/// wanted, and for a lot in hand of over a million. Textbook probability, no source read.
///
/// ```
/// use stillwood_core::season::{InHand, StageShare::Known, Way, planks_to_start};
/// let mut way = Way {
///     parts_per_plank: 9, part_stages: [0.85, 0.90, 0.75, 0.85].map(Known).into(), intraclass_correlation: 0.0,
///     parts_per_blank: 5, blank_stages: [0.98, 0.95].map(Known).into(),
/// };
/// let start = planks_to_start(&way, &InHand::default(), 10, 0.9).unwrap();
/// assert_eq!((start.planks, (start.on_average * 10.0).round()), (15, 122.0));
/// way.intraclass_correlation = 0.3;
/// assert_eq!(planks_to_start(&way, &InHand::default(), 10, 0.9).unwrap().planks, 16);
/// ```
///
/// No published value: a search over `chance_of_blanks`, which has rows.
pub fn planks_to_start(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
) -> Result<PlanksToStart, StartError> {
    let chances = chance_by_planks(way, in_hand, wanted, confidence, MOST_PLANKS)?;
    match chances.last() {
        Some(&chance) if reaches(chance, confidence) => Ok(PlanksToStart {
            planks: chances.len().saturating_sub(1) as u32,
            chance,
            on_average: planks_on_average(&mut TraceOff, way, in_hand, wanted)?,
        }),
        _ => Err(StartError::TooManyPlanks(MOST_PLANKS)),
    }
}

/// A hair under the confidence counts, as in `how_many_to_start`.
pub(super) fn reaches(chance: f64, confidence: f64) -> bool {
    chance >= confidence - 1e-12
}

/// The chance that at least N blanks come through with 0, 1, 2 and more planks besides what is in hand, up
/// to the first number that is enough for the confidence, or to `most`; reckoned as in
/// [`planks_to_start`], and the same errors but for too many planks.
///
/// No published value: `chance_of_blanks`, which has rows, plank by plank.
pub fn chance_by_planks(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
    most: u32,
) -> Result<Vec<f64>, StartError> {
    if !(confidence > 0.0 && confidence < 1.0) {
        return Err(StartError::Confidence(confidence));
    }
    let mut reckonings = reckonings(way, in_hand, wanted)?;
    let mut chances = Vec::new();
    loop {
        let chance = mean_chance(&reckonings);
        chances.push(chance);
        if reaches(chance, confidence) || chances.len() > most as usize {
            return Ok(chances);
        }
        reckonings.iter_mut().for_each(Reckoning::add_plank);
    }
}

/// The chance that at least N blanks come through, of so many planks and what is in hand; reckoned as in
/// [`planks_to_start`], and the same errors.
///
/// ```
/// use stillwood_core::season::{InHand, Lot, StageShare::Known, Way, chance_of_blanks};
/// let way = Way {
///     parts_per_plank: 9, part_stages: vec![Known(0.85)], intraclass_correlation: 0.0,
///     parts_per_blank: 5, blank_stages: vec![Known(0.98), Known(0.95)],
/// };
/// let held = |pieces, stages_done| InHand {
///     parts: vec![Lot { pieces, stages_done }], ..InHand::default()
/// };
/// // 54 ready laminates are ten blanks, which all have to be good: no even bet.
/// assert!((chance_of_blanks(&way, 0, &held(54, 1), 10).unwrap() - 0.489).abs() < 0.001);
/// // Of 64 that still rest 54 come through on average, but it may be eleven blanks' worth.
/// assert!((chance_of_blanks(&way, 0, &held(64, 0), 10).unwrap() - 0.638).abs() < 0.001);
/// ```
pub fn chance_of_blanks(
    way: &Way,
    planks: u32,
    in_hand: &InHand,
    wanted: u32,
) -> Result<f64, StartError> {
    if planks > MOST_PLANKS {
        return Err(StartError::TooManyPlanks(MOST_PLANKS));
    }
    let mut reckonings = reckonings(way, in_hand, wanted)?;
    for reckoning in &mut reckonings {
        (0..planks).for_each(|_| reckoning.add_plank());
    }
    Ok(mean_chance(&reckonings))
}

/// The most laminates that the blanks wanted are made of.
const MOST_WANTED: u32 = 1000;

/// One reckoning for every place at which the shares are taken.
pub(super) fn reckonings(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
) -> Result<Vec<Reckoning>, StartError> {
    check(way, in_hand)?;
    check_wanted(way, wanted)?;
    let parts = alike(&in_hand.parts);
    let places = share_places(&stages(way))?;
    Ok(places
        .iter()
        .map(|shares| Reckoning::new(way, &parts, &in_hand.blanks, wanted, shares))
        .collect())
}

/// An error where more laminates are wanted than is reckoned with.
pub(super) fn check_wanted(way: &Way, wanted: u32) -> Result<(), StartError> {
    match wanted.saturating_mul(way.parts_per_blank) > MOST_WANTED {
        true => Err(StartError::TooMany),
        false => Ok(()),
    }
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

fn mean_chance(reckonings: &[Reckoning]) -> f64 {
    reckonings.iter().map(Reckoning::chance).sum::<f64>() / reckonings.len() as f64
}
