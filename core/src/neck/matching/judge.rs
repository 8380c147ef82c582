//! What a set of laminates comes to: for a proposal, or after a swap by hand.

use super::prepared::{Limits, Numbers, Sum, WARNED, limits, numbers, unlike};
use super::told::BOW_LEFT;
use super::{Laminate, MOST_PLACES, MatchError, MatchLimits, Placed};
use crate::quantity::{Length, Moisture, mm};

/// What to look at before anything else.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MatchWarning {
    /// The driest and the wettest are further apart than the limit.
    MoistureSpread(Moisture),
    /// Flatsawn, rift and quartersawn are mixed.
    MixedRingClasses,
    /// A wood is not mirrored about the middle.
    WoodNotMirrored,
    /// Neighbours whose rings lean the same way, so many.
    RingsNotAlternating(usize),
    /// Runout that does not all go one way: so many against the rest.
    RunoutBothWays(usize),
    /// Crook, twist or moisture was not measured on so many laminates.
    NotMeasured(usize),
    /// Sides that were not looked at: they are placed as if it made no difference.
    NotLookedAt {
        /// To which side the rings lean, on so many.
        rings: usize,
        /// Which way the grain runs out, on so many.
        grain: usize,
    },
}

/// What a set of laminates comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// The warnings, first.
    pub warnings: Vec<MatchWarning>,
    /// Mean crook, by each laminate's stiffness: what the blank is left with.
    pub mean_crook: Length,
    /// Mean twist.
    pub mean_twist: Length,
    /// Mean bow over n²: nearly nothing.
    pub bow_left: Length,
    /// From the driest to the wettest, where any was read.
    pub moisture_apart: Option<Moisture>,
    /// The cost, in limits: 0 is perfect; a warning of moisture, ring class or wood counts 100.
    pub cost: f64,
}

/// The places from outside in: a pair of mirrored places after another, then the middle.
pub(super) fn outside_in(places: usize) -> Vec<usize> {
    let mut order = Vec::with_capacity(places);
    for at in 0..places / 2 {
        order.extend([at, places - 1 - at]);
    }
    if places % 2 == 1 {
        order.push(places / 2);
    }
    order
}

/// Adds a laminate that follows others from outside in, rolled or not, its grain running out one way or
/// the other; every second is the mirror of the one before.
pub(super) fn add(
    sum: Sum,
    one: &Numbers,
    (rolled, runs): (bool, f64),
    mirror: Option<&Numbers>,
    limits: &Limits,
) -> Sum {
    let sum = sum.with(one, rolled, runs);
    match mirror {
        Some(other) => sum.mirrored(unlike(one, other, limits)),
        None => sum,
    }
}

/// What a set of laminates comes to, at their places and turned as they are.
///
/// The mean crook is weighted by edgewise stiffness ([`crook_left_in_blank`](crate::neck::crook_left_in_blank));
/// where one modulus is not known, by thickness and width alone. The cost is |mean crook| and
/// |mean twist| in limits, and what mirrored pairs differ by; what was not measured counts as off by a
/// limit; each laminate whose grain runs out against that of most counts a fifth. Compare two for the effect of a swap. An error for places or numbers that make no sense. How
/// much each counts is common practice, no source.
///
/// No published value: means and limits of our own, held against brute force.
pub fn judge_match(
    stock: &[Laminate],
    blank: &[Placed],
    within: &MatchLimits,
) -> Result<Judged, MatchError> {
    let limits = limits(within)?;
    let placed = placed_numbers(stock, blank)?;
    let placed: Vec<(&Numbers, &Placed)> = placed.iter().map(|(one, at)| (one, at)).collect();
    Ok(judged(&placed, &limits))
}

/// The laminates at their places, as numbers.
pub(super) fn placed_numbers(
    stock: &[Laminate],
    blank: &[Placed],
) -> Result<Vec<(Numbers, Placed)>, MatchError> {
    if blank.is_empty() || blank.len() > MOST_PLACES {
        return Err(MatchError::Places(blank.len()));
    }
    let all = numbers(stock)?;
    let mut placed = Vec::new();
    for (at, one) in blank.iter().enumerate() {
        let found = all
            .get(one.laminate)
            .ok_or(MatchError::NotThere(one.laminate))?;
        if blank
            .iter()
            .take(at)
            .any(|before| before.laminate == one.laminate)
        {
            return Err(MatchError::Twice(one.laminate));
        }
        placed.push((*found, *one));
    }
    Ok(placed)
}

/// The laminates of a set added up, and whether a wood is not mirrored.
pub(super) fn summed(placed: &[(&Numbers, &Placed)], limits: &Limits) -> (Sum, bool) {
    let mut sum = Sum::default();
    let mut not_mirrored = false;
    for (step, place) in outside_in(placed.len()).into_iter().enumerate() {
        let (one, at) = placed[place];
        let mirror = (step % 2 == 1).then(|| placed[placed.len() - 1 - place].0);
        not_mirrored |= mirror.is_some_and(|other| other.wood != one.wood);
        let runs = one.rise * at.turn.of_runout();
        sum = add(sum, one, (at.turn.rolled, runs), mirror, limits);
    }
    (sum, not_mirrored)
}

pub(super) fn judged(placed: &[(&Numbers, &Placed)], limits: &Limits) -> Judged {
    let (sum, not_mirrored) = summed(placed, limits);
    let mut warnings = Vec::new();
    if let Some(spread) = sum
        .moisture_spread()
        .filter(|_| sum.too_unlike_moisture(limits))
    {
        warnings.push(MatchWarning::MoistureSpread(Moisture::percent(spread)));
    }
    if sum.mixed {
        warnings.push(MatchWarning::MixedRingClasses);
    }
    if not_mirrored {
        warnings.push(MatchWarning::WoodNotMirrored);
    }
    warnings.extend(turned_wrong(placed));
    let unmeasured =
        |one: &Numbers| one.crook.is_none() || one.twist.is_none() || one.moisture_unknown();
    let count = placed.iter().filter(|(one, _)| unmeasured(one)).count();
    if count > 0 {
        warnings.push(MatchWarning::NotMeasured(count));
    }
    let not_seen = |of: fn(&Numbers) -> bool| placed.iter().filter(|(one, _)| of(one)).count();
    let (rings, grain) = (
        not_seen(|one| one.lean_unknown),
        not_seen(|one| one.rise_unknown),
    );
    if rings + grain > 0 {
        warnings.push(MatchWarning::NotLookedAt { rings, grain });
    }
    Judged {
        warnings,
        mean_crook: mm(sum.mean_crook()),
        mean_twist: mm(sum.mean_twist()),
        bow_left: mm(bow_left(placed)),
        moisture_apart: sum.moisture_spread().map(Moisture::percent),
        cost: sum.cost(limits),
    }
}

/// Mean of the signed bows over n², mm; a bow that was not measured counts as none.
pub(super) fn bow_left(placed: &[(&Numbers, &Placed)]) -> f64 {
    let n = placed.len() as f64;
    let sum: f64 = placed
        .iter()
        .map(|(one, at)| at.turn.of_bow() * one.bow.unwrap_or_default())
        .sum();
    BOW_LEFT.of([sum, n])
}

/// What stands the wrong way round: rings that do not alternate, runout both ways.
fn turned_wrong(placed: &[(&Numbers, &Placed)]) -> Vec<MatchWarning> {
    let lean = |(one, at): &(&Numbers, &Placed)| one.lean * at.turn.of_lean();
    let same = placed
        .windows(2)
        .filter(|pair| lean(&pair[0]) * lean(&pair[1]) > 0.0)
        .count();
    let runouts = || {
        placed
            .iter()
            .map(|(one, at)| one.rise * at.turn.of_runout())
    };
    let against = runouts().filter(|runs| *runs > 0.0).count();
    let against = against.min(runouts().filter(|runs| *runs < 0.0).count());
    let mut found = Vec::new();
    if same > 0 {
        found.push(MatchWarning::RingsNotAlternating(same));
    }
    if against > 0 {
        found.push(MatchWarning::RunoutBothWays(against));
    }
    found
}

impl Judged {
    /// Whether moisture, ring class or wood is warned of.
    pub fn is_warned(&self) -> bool {
        self.cost >= WARNED
    }
}
