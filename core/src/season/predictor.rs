//! Whether what was seen at purchase goes with what came of it.
//!
//! It compares ranks, so a cue needs no scale; it never says why, and "no sign yet" is an answer.

use super::spread::NORMAL_95;
use crate::order;
use crate::quantity::{Derivation, Trace, TraceOff, formula, show};
use std::cmp::Ordering;
use thiserror::Error;

/// Why nothing can be said of a cue.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PredictorError {
    /// A cue or outcome that is no number.
    #[error("{0} is no number to compare")]
    NoNumber(f64),
    /// All cues, or all outcomes, are the same.
    #[error("all are the same: there is nothing to compare")]
    AllAlike,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PredictorSays {
    /// Fewer than five pairs.
    TooFew,
    /// The interval holds no relation at all.
    NoSignYet,
    /// More of the cue goes with more of the outcome.
    MoreWithMore,
    /// More of the cue goes with less of the outcome.
    MoreWithLess,
}

impl PredictorSays {
    /// In the maker's words.
    pub fn words(self) -> &'static str {
        match self {
            PredictorSays::TooFew => "too few to say",
            PredictorSays::NoSignYet => "no sign yet",
            PredictorSays::MoreWithMore => "more of it goes with more",
            PredictorSays::MoreWithLess => "more of it goes with less",
        }
    }
}

/// How a cue and an outcome go together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predictor {
    pub pairs: usize,
    /// Spearman's rank correlation, -1 to 1.
    pub spearman: f64,
    /// Its 95 % interval; `None` for fewer than five pairs, or where the ranks agree throughout.
    pub interval: Option<(f64, f64)>,
    /// Kendall's tau-b, -1 to 1.
    pub kendall: f64,
    pub says: PredictorSays,
}

/// Fewer pairs than this are not judged: five that agree throughout are the fewest that chance brings
/// about less often than once in twenty, 2/5! (arithmetic).
pub const FEWEST_TO_COMPARE: usize = 5;

/// Whether a cue goes with an outcome, from pairs of the two: one pair a plank, or pieces of one plank
/// count as many.
///
/// Spearman's correlation is that of the ranks, with equal values sharing their mean rank; its interval is
/// tanh(atanh r ± 1.96 sqrt((1 + r²/2)/(n - 3))), Bonett and Wright 2000 (from memory). Kendall's tau-b is
/// (C - D)/sqrt((N - Tx)(N - Ty)) over all pairs of pairs (from memory; the form was read in a statistics
/// package's documentation). An error for what is no number, or where nothing differs.
///
/// ```
/// use stillwood_core::season::{PredictorSays, rank_correlation};
/// let runout_and_share = [(20.0, 0.9), (15.0, 0.7), (12.0, 0.8), (25.0, 0.6), (18.0, 0.8)];
/// assert_eq!(rank_correlation(&runout_and_share).unwrap().says, PredictorSays::NoSignYet);
/// ```
pub fn rank_correlation(pairs: &[(f64, f64)]) -> Result<Predictor, PredictorError> {
    let cues: Vec<f64> = pairs.iter().map(|pair| pair.0).collect();
    let outcomes: Vec<f64> = pairs.iter().map(|pair| pair.1).collect();
    if let Some(bad) = cues.iter().chain(&outcomes).find(|x| x.is_nan()) {
        return Err(PredictorError::NoNumber(*bad));
    }
    let spearman = correlation(&mut TraceOff, &ranks(&cues), &ranks(&outcomes))
        .ok_or(PredictorError::AllAlike)?;
    let kendall = tau_b(pairs).ok_or(PredictorError::AllAlike)?;
    let agree = spearman.abs() > 1.0 - 1e-12;
    let interval = if pairs.len() < FEWEST_TO_COMPARE || agree {
        None
    } else {
        Some(rank_interval(&mut TraceOff, spearman, pairs.len()))
    };
    let shows = match interval {
        Some((low, high)) => low > 0.0 || high < 0.0,
        None => agree,
    };
    let says = if pairs.len() < FEWEST_TO_COMPARE {
        PredictorSays::TooFew
    } else if !shows {
        PredictorSays::NoSignYet
    } else if spearman > 0.0 {
        PredictorSays::MoreWithMore
    } else {
        PredictorSays::MoreWithLess
    };
    Ok(Predictor {
        pairs: pairs.len(),
        spearman,
        interval,
        kendall,
        says,
    })
}

fn rank_interval(trace: &mut impl Trace, r: f64, pairs: usize) -> (f64, f64) {
    let warning = trace.work(&RANK_DOUBT, [r, pairs as f64]);
    (
        trace.work(&RANK_END, [r, -NORMAL_95, warning]),
        trace.work(&RANK_END, [r, NORMAL_95, warning]),
    )
}

formula! {
    /// Standard uncertainty of a rank correlation, on its own scale.
    RANK_DOUBT: "Standard uncertainty of artanh r", "u", "";
    r: "r", "rank correlation", "";
    n: "n", "pairs", "";
    = sqrt((1.0 + sq(r) / 2.0) / (n - 3.0));
    range "5 pairs and more, ranks that do not agree throughout";
    source "Bonett and Wright 2000 (from memory)";
}

formula! {
    /// An end of its interval.
    RANK_END: "An end of the interval", "r′", "";
    r: "r", "rank correlation", "";
    z: "z", "standard uncertainties to either side, of 95 %", "";
    u: "u", "standard uncertainty of artanh r", "";
    = tanh(artanh(r) + z * u);
    range "95 of 100 cases";
    source "Bonett and Wright 2000 (from memory)";
}

formula! {
    /// The product-moment correlation of ranks.
    SPEARMAN: "Rank correlation", "r", "";
    sxy: "Sxy", "sum of the products of what both ranks are off their means", "";
    sxx: "Sxx", "sum of the squares for the sign", "";
    syy: "Syy", "sum of the squares for the share", "";
    = sxy / sqrt(sxx * syy);
    range "−1 to 1; equal values share the mean of their ranks";
    source "Spearman's correlation, textbook";
}

/// How a rank correlation was worked out, from its pairs; `None` where there is none.
pub fn explain_predictor(pairs: &[(f64, f64)]) -> Option<Derivation> {
    let cue = rank_correlation(pairs).ok()?;
    let (cues, outcomes): (Vec<f64>, Vec<f64>) = pairs.iter().copied().unzip();
    let (x, y) = (ranks(&cues), ranks(&outcomes));
    let mut working = Derivation::default();
    let spearman = correlation(&mut working.steps, &x, &y)?;
    if cue.interval.is_some() {
        rank_interval(&mut working.steps, spearman, pairs.len());
    }
    let one = |((cue, share), (rank, ranked)): (&(f64, f64), (&f64, &f64))| {
        format!(
            "{} and {:.0} % (ranks {} and {})",
            show::number(*cue, 3),
            share * 100.0,
            show::number(*rank, 1),
            show::number(*ranked, 1)
        )
    };
    let all: Vec<String> = pairs.iter().zip(x.iter().zip(&y)).map(one).collect();
    working.notes.push(format!(
        "Plank by plank the sign and the share that came through: {}.",
        all.join("; ")
    ));
    working.notes.push(format!(
        "It says: {}. Under {FEWEST_TO_COMPARE} pairs nothing is said; else the interval has to leave out 0.",
        cue.says.words()
    ));
    Some(working)
}

/// The rank of each from 1 on; equal values share the mean of their ranks.
fn ranks(values: &[f64]) -> Vec<f64> {
    let mut places: Vec<usize> = (0..values.len()).collect();
    order::sort_by(&mut places, |a, b| values[*a].total_cmp(&values[*b]));
    let mut ranks = vec![0.0; values.len()];
    let mut from = 0;
    while let Some(first) = places.get(from) {
        let same = |at: &&usize| values[**at] == values[*first];
        let count = places[from..].iter().take_while(same).count();
        for place in &places[from..from + count] {
            ranks[*place] = from as f64 + (count as f64 + 1.0) / 2.0;
        }
        from += count;
    }
    ranks
}

/// The product-moment correlation; `None` where one of the two does not vary.
fn correlation(trace: &mut impl Trace, x: &[f64], y: &[f64]) -> Option<f64> {
    let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
    let (mx, my) = (mean(x), mean(y));
    let (mut sxx, mut syy, mut sxy) = (0.0, 0.0, 0.0);
    for (a, b) in x.iter().zip(y) {
        sxx += (a - mx) * (a - mx);
        syy += (b - my) * (b - my);
        sxy += (a - mx) * (b - my);
    }
    (sxx > 0.0 && syy > 0.0).then(|| trace.work(&SPEARMAN, [sxy, sxx, syy]))
}

/// Kendall's tau-b; `None` where one of the two does not vary.
///
/// The pairs of pairs are counted while sorting (Knight 1966, from memory), so that thousands of planks are
/// no wait: of pairs in the order of the first number, each swap that sorts the second is one that disagrees.
fn tau_b(pairs: &[(f64, f64)]) -> Option<f64> {
    let mut sorted = pairs.to_vec();
    let by = |a: f64, b: f64| a.partial_cmp(&b).unwrap_or(Ordering::Equal);
    order::sort_by(&mut sorted, |a, b| by(a.0, b.0).then(by(a.1, b.1)));
    let all = of_two(pairs.len());
    let same_x = alike(&sorted, |a, b| a.0 == b.0);
    let same_both = alike(&sorted, |a, b| a == b);
    let mut second: Vec<f64> = sorted.iter().map(|pair| pair.1).collect();
    let mut room = second.clone();
    let disagree = swaps(&mut second, &mut room);
    let same_y = alike(&second, |a, b| a == b);
    let (vary_x, vary_y) = (all - same_x, all - same_y);
    let agree = all - same_x - same_y + same_both - 2 * disagree;
    (vary_x > 0 && vary_y > 0)
        .then(|| agree as f64 / (vary_x as f64).sqrt() / (vary_y as f64).sqrt())
}

/// How many pairs there are among so many.
fn of_two(count: usize) -> i64 {
    let count = count as i64;
    count * (count - 1) / 2
}

/// How many pairs are alike, of those that stand beside one another when they are.
fn alike<T>(sorted: &[T], alike: impl Fn(&T, &T) -> bool) -> i64 {
    let groups = sorted.chunk_by(|a, b| alike(a, b));
    groups.map(|group| of_two(group.len())).sum()
}

/// Sorts, and tells how many pairs stood the wrong way round. `room` is as long, whatever it holds.
fn swaps(values: &mut [f64], room: &mut [f64]) -> i64 {
    let half = values.len() / 2;
    if half == 0 {
        return 0;
    }
    let (left, right) = values.split_at_mut(half);
    let mut count = {
        let (room_left, room_right) = room.split_at_mut(half);
        swaps(left, room_left) + swaps(right, room_right)
    };
    let (mut at_left, mut at_right) = (0, 0);
    for place in room.iter_mut() {
        let from_left = match (left.get(at_left), right.get(at_right)) {
            (Some(a), Some(b)) => a <= b,
            (Some(_), None) => true,
            (None, _) => false,
        };
        if from_left {
            *place = left[at_left];
            at_left += 1;
        } else {
            // It goes before all that is left on the left.
            count += (left.len() - at_left) as i64;
            *place = right[at_right];
            at_right += 1;
        }
    }
    values.copy_from_slice(room);
    count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use proptest::prelude::*;

    #[test]
    fn ranks_of_equals_are_shared() {
        assert_eq!(ranks(&[10.0, 20.0, 10.0, 5.0]), [2.5, 4.0, 2.5, 1.0]);
        assert_eq!(ranks(&[]), [0.0; 0]);
    }

    #[test]
    fn words_follow_the_interval() {
        let rising: Vec<_> = (0..5).map(|n| (f64::from(n), f64::from(n * n))).collect();
        let found = rank_correlation(&rising).unwrap();
        assert_eq!(
            (found.says, found.interval),
            (PredictorSays::MoreWithMore, None)
        );
        let falling: Vec<_> = rising.iter().map(|(x, y)| (*x, -y)).collect();
        assert_eq!(
            rank_correlation(&falling).unwrap().says,
            PredictorSays::MoreWithLess
        );
        assert_eq!(
            rank_correlation(&rising[..4]).unwrap().says,
            PredictorSays::TooFew
        );
        assert_eq!(PredictorSays::NoSignYet.words(), "no sign yet");
    }

    #[test]
    fn a_cue_against_come_through_or_not() {
        // Bow in mm against came through (1) or not (0), thirty planks.
        let pairs: Vec<_> = (0..30)
            .map(|n| (f64::from(n), f64::from(u8::from(n % 4 < 3 && n < 20))))
            .collect();
        let found = rank_correlation(&pairs).unwrap();
        assert_eq!(found.says, PredictorSays::MoreWithLess);
        assert!(found.spearman < found.kendall && found.kendall < 0.0);
    }

    #[test]
    fn a_sign_shows_whichever_way_it_points() {
        // Twelve pairs with two neighbours swapped here and there: nearly in order, not quite.
        let places = [
            2.0, 1.0, 3.0, 5.0, 4.0, 6.0, 7.0, 9.0, 8.0, 10.0, 12.0, 11.0,
        ];
        let rising: Vec<_> = (0..12).map(f64::from).zip(places).collect();
        let falling: Vec<_> = rising.iter().map(|(x, y)| (*x, -y)).collect();
        let (up, down) = (rank_correlation(&rising), rank_correlation(&falling));
        assert_eq!(up.unwrap().says, PredictorSays::MoreWithMore);
        assert_eq!(down.unwrap().says, PredictorSays::MoreWithLess);
    }

    #[test]
    fn nothing_to_compare_is_an_error() {
        assert_eq!(rank_correlation(&[]), Err(PredictorError::AllAlike));
        assert_eq!(
            rank_correlation(&[(1.0, 2.0), (1.0, 3.0)]),
            Err(PredictorError::AllAlike)
        );
        assert!(rank_correlation(&[(f64::NAN, 2.0), (1.0, 3.0)]).is_err());
    }

    #[test]
    fn the_interval_widens_with_the_correlation() {
        // tanh(atanh r ± 1.96 sqrt((1 + r²/2)/(n - 3))) with a pocket calculator's steps: for r = 0.6 and
        // n = 20 the half-width on the scale of z is 0.5165, for r = 0 it is 0.4754.
        let (low, high) = rank_interval(&mut TraceOff, 0.6, 20);
        assert!(
            (low - 0.175_0).abs() < 1e-4 && (high - 0.836_5).abs() < 1e-4,
            "{low} {high}"
        );
        let (low, high) = rank_interval(&mut TraceOff, 0.0, 20);
        assert!(
            (low + 0.442_6).abs() < 1e-4 && (high - 0.442_6).abs() < 1e-4,
            "{low} {high}"
        );
    }

    /// Every pair of pairs looked at.
    fn tau_b_one_by_one(pairs: &[(f64, f64)]) -> Option<f64> {
        let (mut agree, mut vary_x, mut vary_y) = (0_i64, 0_i64, 0_i64);
        for (at, a) in pairs.iter().enumerate() {
            for b in &pairs[at + 1..] {
                let sign = |x: f64, y: f64| i64::from(x > y) - i64::from(x < y);
                let (x, y) = (sign(a.0, b.0), sign(a.1, b.1));
                agree += x * y;
                vary_x += x.abs();
                vary_y += y.abs();
            }
        }
        (vary_x > 0 && vary_y > 0)
            .then(|| agree as f64 / (vary_x as f64).sqrt() / (vary_y as f64).sqrt())
    }

    proptest! {
        #[test]
        fn counted_while_sorting_or_one_by_one(
            pairs in prop::collection::vec((-3i8..3, -3i8..3), 0..40),
        ) {
            let pairs: Vec<_> = pairs.iter().map(|p| (f64::from(p.0), f64::from(p.1))).collect();
            prop_assert_eq!(tau_b(&pairs), tau_b_one_by_one(&pairs));
        }
    }

    proptest! {
        #[test]
        fn turning_the_outcome_round_turns_the_sign(
            pairs in prop::collection::vec((0u8..9, 0u8..9), 6..25),
        ) {
            let as_floats = |sign: f64| -> Vec<(f64, f64)> {
                pairs.iter().map(|(x, y)| (f64::from(*x), sign * f64::from(*y))).collect()
            };
            let turned = rank_correlation(&as_floats(-1.0));
            // Nothing is told only where all cues or all outcomes are the same.
            let alike = |of: fn(&(u8, u8)) -> u8| pairs.iter().all(|pair| of(pair) == of(&pairs[0]));
            let found = rank_correlation(&as_floats(1.0));
            prop_assert_eq!(found.is_err(), alike(|pair| pair.0) || alike(|pair| pair.1));
            prop_assert_eq!(found.is_err(), turned.is_err());
            if let (Ok(found), Ok(turned)) = (found, turned) {
                prop_assert!((found.spearman + turned.spearman).abs() < 1e-12);
                prop_assert!((found.kendall + turned.kendall).abs() < 1e-12);
                prop_assert!(found.spearman.abs() <= 1.0 + 1e-12);
                if let Some((low, high)) = found.interval {
                    prop_assert!(low <= found.spearman && found.spearman <= high);
                }
            }
        }
    }
}
