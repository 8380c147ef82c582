//! What a set of laminates comes to: for a proposal, or after a swap by hand.

use super::formulas::BOW_LEFT;
use super::prepared::{Limits, Numbers, Sum, limits, numbers, unlike};
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
    /// What was not measured, each on so many laminates: it counts a limit for each.
    NotMeasured {
        /// Crook, or its side.
        crook: usize,
        /// Twist, or its hand.
        twist: usize,
        /// Moisture.
        moisture: usize,
    },
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
    pub warnings: Vec<MatchWarning>,
    /// Mean crook, by each laminate's stiffness: what the blank is left with.
    pub mean_crook: Length,
    /// Mean twist of its laminates; the glued blank keeps less, see
    /// [`twist_left_in_blank`](crate::neck::twist_left_in_blank).
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
    (turned_over, runs): (bool, f64),
    mirror: Option<&Numbers>,
    limits: &Limits,
) -> Sum {
    let sum = sum.with(one, turned_over, runs);
    match mirror {
        Some(other) => sum.mirrored(unlike(one, other, limits)),
        None => sum,
    }
}

/// What a set of laminates comes to, at their places and turned as they are.
///
/// The mean crook is weighted by edgewise stiffness, E t w³/12: the glued blank keeps it whole (derived here: linear beam
/// statics); where one modulus is not known, by thickness and width alone. The cost is |mean crook| and
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
        sum = add(sum, one, (at.turn.turned_over, runs), mirror, limits);
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
    let not_seen = |of: fn(&Numbers) -> bool| placed.iter().filter(|(one, _)| of(one)).count();
    let (crook, twist, moisture) = (
        not_seen(|one| one.crook.is_none()),
        not_seen(|one| one.twist.is_none()),
        not_seen(Numbers::moisture_unknown),
    );
    if crook + twist + moisture > 0 {
        warnings.push(MatchWarning::NotMeasured {
            crook,
            twist,
            moisture,
        });
    }
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

/// The places whose grain runs out against that of most; of as many both ways, those that rise.
fn against_the_rest(placed: &[(&Numbers, &Placed)]) -> Vec<usize> {
    let runs = |wanted: f64| {
        let all = placed.iter().enumerate();
        all.filter(|(_, (one, at))| one.rise * at.turn.of_runout() == wanted)
            .map(|(place, _)| place)
            .collect::<Vec<usize>>()
    };
    let (rising, falling) = (runs(1.0), runs(-1.0));
    match rising.len() <= falling.len() {
        true => rising,
        false => falling,
    }
}

/// The places whose grain runs out against that of most, as [`MatchWarning::RunoutBothWays`] counts them. Errors as in
/// [`judge_match`].
pub fn runs_out_against(stock: &[Laminate], blank: &[Placed]) -> Result<Vec<usize>, MatchError> {
    let placed = placed_numbers(stock, blank)?;
    let placed: Vec<(&Numbers, &Placed)> = placed.iter().map(|(one, at)| (one, at)).collect();
    Ok(against_the_rest(&placed))
}

/// What stands the wrong way round: rings that do not alternate, runout both ways.
fn turned_wrong(placed: &[(&Numbers, &Placed)]) -> Vec<MatchWarning> {
    let lean = |(one, at): &(&Numbers, &Placed)| one.lean * at.turn.of_lean();
    let same = placed
        .windows(2)
        .filter(|pair| lean(&pair[0]) * lean(&pair[1]) > 0.0)
        .count();
    let against = against_the_rest(placed).len();
    let mut found = Vec::new();
    if same > 0 {
        found.push(MatchWarning::RingsNotAlternating(same));
    }
    if against > 0 {
        found.push(MatchWarning::RunoutBothWays(against));
    }
    found
}

#[cfg(test)]
mod tests {
    //! What a set comes to, figure by figure.

    use super::super::prepared::WARNED;
    use super::super::tests::{gpa, place, plain};
    use super::*;
    use crate::plank::{RingTilt, RunoutDirection};
    use crate::quantity::{in_mm, kg_per_m3};
    use proptest::prelude::*;

    /// What two mirrored laminates cost that are alike but for a change of the second.
    fn pair(change: impl Fn(&mut Laminate)) -> Judged {
        let mut stock = [plain(0.0, 0.0); 2];
        change(&mut stock[1]);
        let both = [place(0, false), place(1, false)];
        judge_match(&stock, &both, &MatchLimits::default()).unwrap()
    }

    #[test]
    fn what_mirrored_laminates_differ_by_counts_in_limits() {
        // Half a limit each: thickness in full, density and stiffness a fifth. 50 kg/m³, 0.5 mm, a tenth.
        type Change = fn(&mut Laminate);
        let changes: [(Change, f64); 7] = [
            (|_| (), 0.0),
            (|one| one.thickness = mm(15.25), 0.5),
            (|one| one.density = Some(kg_per_m3(675.0)), 0.1),
            (|one| one.modulus = Some(gpa(11.4)), 0.1),
            (|one| one.wood = 2, 100.0),
            // What was not measured is off by a limit.
            (|one| one.density = None, 0.2),
            (|one| one.modulus = None, 0.2),
        ];
        for (at, (change, cost)) in changes.into_iter().enumerate() {
            let judged = pair(change);
            assert!((judged.cost - cost).abs() < 1e-9, "{at}: {judged:?}");
        }
    }

    #[test]
    fn what_is_exactly_a_limit_apart_is_not_warned_of() {
        let apart = |from: f64, to: f64| {
            let mut stock = [plain(0.0, 0.0); 2];
            stock[0].moisture = Some(Moisture::percent(from));
            stock[1].moisture = Some(Moisture::percent(to));
            let both = [place(0, false), place(1, false)];
            judge_match(&stock, &both, &MatchLimits::default()).unwrap()
        };
        let mut a_trace_more = 0;
        for tenths in 60..140 {
            // As they are typed: some are a trace more than 1 % apart in binary.
            let typed = |tenths: u32| format!("{}.{}", tenths / 10, tenths % 10).parse().unwrap();
            let judged = apart(typed(tenths), typed(tenths + 10));
            let spread = judged.moisture_apart.unwrap().in_percent();
            a_trace_more += usize::from(spread > 1.0);
            assert!(judged.cost < WARNED, "{tenths}");
        }
        assert!(a_trace_more > 0);
        assert!(apart(8.0, 9.01).cost >= WARNED && apart(9.01, 8.0).cost >= WARNED);
    }

    #[test]
    fn only_rings_that_lean_can_lean_the_same_way() {
        let warnings = |leans: [Option<RingTilt>; 3]| {
            let stock = leans.map(|lean| Laminate {
                lean,
                ..plain(0.0, 0.0)
            });
            let set = [0, 1, 2].map(|at| place(at, false));
            judge_match(&stock, &set, &MatchLimits::default())
                .unwrap()
                .warnings
        };
        let [left, square, right] = RingTilt::ALL.map(Some);
        for leans in [
            [right, square, right],
            [left, square, left],
            [left, right, square],
            [square; 3],
        ] {
            assert_eq!(warnings(leans), []);
        }
        for leans in [[right, right, square], [square, left, left]] {
            assert_eq!(warnings(leans), [MatchWarning::RingsNotAlternating(1)]);
        }
        let rings = MatchWarning::NotLookedAt { rings: 1, grain: 0 };
        assert_eq!(warnings([right, None, right]), [rings]);
    }

    #[test]
    fn sides_that_were_not_looked_at_are_counted_each_by_itself() {
        let told = |rings: usize, grain: usize| {
            let mut stock = [plain(0.0, 0.0); 3];
            for (at, one) in stock.iter_mut().enumerate() {
                one.lean = (at >= rings).then_some(RingTilt::Neither);
                one.rise = (at >= grain).then_some(RunoutDirection::Along);
            }
            let set = [0, 1, 2].map(|at| place(at, false));
            judge_match(&stock, &set, &MatchLimits::default())
                .unwrap()
                .warnings
        };
        assert_eq!(told(0, 0), []);
        for (rings, grain) in [(1, 0), (0, 1), (1, 1), (2, 1), (3, 3)] {
            assert_eq!(
                told(rings, grain),
                [MatchWarning::NotLookedAt { rings, grain }]
            );
        }
    }

    #[test]
    fn means_keep_their_sign() {
        let stock = [plain(0.3, 0.3), plain(0.1, 0.0), plain(0.2, 0.6)];
        let judged = |turned_over: [bool; 3]| {
            let set = [0, 1, 2].map(|at| place(at, turned_over[at]));
            judge_match(&stock, &set, &MatchLimits::default()).unwrap()
        };
        let (as_marked, turned) = (judged([false; 3]), judged([true, false, true]));
        assert!((in_mm(as_marked.mean_crook) - 0.2).abs() < 1e-9);
        assert!((in_mm(turned.mean_crook) + 0.4 / 3.0).abs() < 1e-9);
        // No turning changes the hand of a twist.
        assert!((in_mm(as_marked.mean_twist) - 0.3).abs() < 1e-9);
        assert!((in_mm(turned.mean_twist) - 0.3).abs() < 1e-9);
    }

    proptest! {
        // Of equal laminates what statics leaves of their bows, each signed as it lies.
        #[test]
        fn the_bow_left_is_that_of_statics(
            bows in prop::collection::vec((-2.0..2.0f64, any::<bool>(), any::<bool>()), 1..8),
        ) {
            let laminate = |bow: f64| Laminate { bow: Some(mm(bow)), ..plain(0.0, 0.0) };
            let stock: Vec<Laminate> = bows.iter().map(|(bow, ..)| laminate(*bow)).collect();
            let set: Vec<Placed> = bows
                .iter()
                .enumerate()
                .map(|(laminate, &(_, turned_over, end_for_end))| Placed { laminate, turn: crate::neck::Turn { turned_over, end_for_end } })
                .collect();
            let found = judge_match(&stock, &set, &MatchLimits::default()).unwrap().bow_left;
            // The marked face to the right; either half turn brings it to the left.
            let lies = |(bow, a, b): &(f64, bool, bool)| if a != b { -bow } else { *bow };
            // E I d of each over that of the whole, n³ times as stiff as one: derived here, linear beam statics.
            let whole = libm::pow(bows.len() as f64, 3.0);
            let left = bows.iter().map(lies).sum::<f64>() / whole;
            prop_assert!((in_mm(found) - left).abs() < 1e-9);
        }
    }
}
