//! Whether what was seen at purchase goes with what came of it.
//!
//! It compares ranks, so a predictor needs no scale; it never says why, and "no sign yet" is an answer.

use super::spread::NORMAL_95;
use crate::order;
use crate::quantity::{Derivation, Trace, TraceOff, formula, show};
use std::collections::BTreeMap;
use thiserror::Error;

/// Why nothing can be said of a predictor.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PredictorError {
    /// A predictor or outcome that is no number.
    #[error("{0} is no number to compare")]
    NoNumber(f64),
    /// All predictors, or all outcomes, are the same.
    #[error("all are the same: there is nothing to compare")]
    AllAlike,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PredictorSays {
    /// Fewer than five pairs.
    TooFew,
    /// Chance may well have brought it about.
    NoSignYet,
    /// More of the predictor goes with more of the outcome.
    MoreWithMore,
    /// More of the predictor goes with less of the outcome.
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

/// How a predictor and an outcome go together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predictor {
    pub pairs: usize,
    /// Spearman's rank correlation, -1 to 1.
    pub spearman: f64,
    /// The share of all ways to pair these predictors with these outcomes that go together as closely; `None` for fewer than
    /// five pairs, or where there are too many ways to count.
    pub chance: Option<f64>,
    /// Where there are too many ways, the 95 % interval of the correlation; `None` where the ranks agree throughout.
    pub interval: Option<(f64, f64)>,
    pub says: PredictorSays,
}

/// Fewer pairs than this are not judged: of four, even those that agree throughout are brought about by chance more
/// often than once in twenty, 2/4! (arithmetic). Where values are alike, five may be too few as well.
pub const FEWEST_TO_COMPARE: usize = 5;

/// A sign is told where chance brings it about less often than this.
const RARE: f64 = 0.05;

/// Whether a predictor goes with an outcome, from pairs of the two: one pair a plank, or pieces of one plank
/// count as many.
///
/// Spearman's correlation is that of the ranks, with equal values sharing their mean rank. A sign is told where less
/// than one in twenty of all ways to pair these predictors with these outcomes go together as closely: exact, equal values
/// among them. Where there are too many ways to count, its interval has to leave out 0:
/// tanh(atanh r ± 1.96 sqrt((1 + r²/2)/(n - 3))), Bonett and Wright 2000 (from memory). An error for what is no
/// number, or where nothing differs.
///
/// ```
/// use stillwood_core::season::{PredictorSays, rank_correlation};
/// let runout_and_share = [(20.0, 0.9), (15.0, 0.7), (12.0, 0.8), (25.0, 0.6), (18.0, 0.8)];
/// assert_eq!(rank_correlation(&runout_and_share).unwrap().says, PredictorSays::NoSignYet);
/// ```
pub fn rank_correlation(pairs: &[(f64, f64)]) -> Result<Predictor, PredictorError> {
    let predictors: Vec<f64> = pairs.iter().map(|pair| pair.0).collect();
    let outcomes: Vec<f64> = pairs.iter().map(|pair| pair.1).collect();
    if let Some(bad) = predictors.iter().chain(&outcomes).find(|x| x.is_nan()) {
        return Err(PredictorError::NoNumber(*bad));
    }
    let spearman = correlation(&mut TraceOff, &ranks(&predictors), &ranks(&outcomes))
        .ok_or(PredictorError::AllAlike)?;
    if pairs.len() < FEWEST_TO_COMPARE {
        return Ok(Predictor {
            pairs: pairs.len(),
            spearman,
            chance: None,
            interval: None,
            says: PredictorSays::TooFew,
        });
    }
    let chance = chance(&predictors, &outcomes);
    let agree = spearman.abs() > 1.0 - 1e-12;
    let interval =
        (chance.is_none() && !agree).then(|| rank_interval(&mut TraceOff, spearman, pairs.len()));
    let shows = match (chance, interval) {
        (Some(chance), _) => chance < RARE,
        (None, Some((low, high))) => low > 0.0 || high < 0.0,
        (None, None) => true,
    };
    let says = match (shows, spearman > 0.0) {
        (false, _) => PredictorSays::NoSignYet,
        (true, true) => PredictorSays::MoreWithMore,
        (true, false) => PredictorSays::MoreWithLess,
    };
    Ok(Predictor {
        pairs: pairs.len(),
        spearman,
        chance,
        interval,
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
    range "10 pairs and more, few of them alike, ranks that do not agree throughout";
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
    let found = rank_correlation(pairs).ok()?;
    let (predictors, outcomes): (Vec<f64>, Vec<f64>) = pairs.iter().copied().unzip();
    let (x, y) = (ranks(&predictors), ranks(&outcomes));
    let mut working = Derivation::default();
    let spearman = correlation(&mut working.steps, &x, &y)?;
    if found.interval.is_some() {
        rank_interval(&mut working.steps, spearman, pairs.len());
    }
    let one = |((predictor, share), (rank, ranked)): (&(f64, f64), (&f64, &f64))| {
        format!(
            "{} and {:.0} % (ranks {} and {})",
            show::number(*predictor, 3),
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
    let says = found.says.words();
    working.notes.push(match found.chance {
        Some(chance) => format!(
            "It says: {says}. Of all ways to pair these signs with these shares, {:.1} % go together as closely or \
             closer; less than {:.0} % is told as a sign.",
            100.0 * chance,
            100.0 * RARE
        ),
        None => format!(
            "It says: {says}. Under {FEWEST_TO_COMPARE} pairs nothing is said; else the interval has to leave out 0."
        ),
    });
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

/// The most places of values of one side, and the most sums at them, that [`chance`] goes through.
const MOST_PLACES: u64 = 1000;
const MOST_SUMS: usize = 10_000;

/// The share of all ways to pair the predictors with the outcomes that go together at least as closely, either way round,
/// as these do; `None` where there are too many ways: more than nine pairs of which few are alike.
///
/// It is exact, equal values among them: |r| of each way depends on the sum of the products of the ranks alone, and
/// the ways to each sum are counted pair by pair. A permutation test, textbook, no source read.
///
/// No published value: held against all ways, gone through one by one.
fn chance(predictors: &[f64], outcomes: &[f64]) -> Option<f64> {
    // Twice the ranks: whole numbers.
    let doubled = |values: &[f64]| -> Vec<i64> {
        let ranks = ranks(values).into_iter();
        ranks.map(|rank| (2.0 * rank) as i64).collect()
    };
    let (x, y) = (doubled(predictors), doubled(outcomes));
    let (groups_x, groups_y) = (Groups::of(&x), Groups::of(&y));
    let (each, groups) = match groups_x.places <= groups_y.places {
        true => (&y, groups_x),
        false => (&x, groups_y),
    };
    let pairs = x.len() as i64;
    let mean = x.iter().sum::<i64>() * y.iter().sum::<i64>();
    let off = |sum: i64| (pairs * sum - mean).abs();
    let found = off(x.iter().zip(&y).map(|(x, y)| x * y).sum());
    let (mut as_close, mut all) = (0.0, 0.0);
    for ((_, sum), ways) in groups.sums(each)? {
        all += ways;
        as_close += if off(sum) >= found { ways } else { 0.0 };
    }
    Some(as_close / all)
}

/// The values of one side, each with how many there are of it.
struct Groups {
    values: Vec<(i64, u64)>,
    /// In how many ways some of each can be taken; at most as large as can be written.
    places: u64,
}

impl Groups {
    fn of(values: &[i64]) -> Self {
        let mut counts: BTreeMap<i64, u64> = BTreeMap::new();
        for value in values {
            *counts.entry(*value).or_default() += 1;
        }
        let places = counts
            .values()
            .fold(1, |places: u64, count| places.saturating_mul(count + 1));
        Self {
            values: counts.into_iter().collect(),
            places,
        }
    }

    /// In how many ways these values, all of them, give each sum of products with the values of the other side;
    /// by what was taken of each, which is all.
    fn sums(&self, others: &[i64]) -> Option<BTreeMap<(u64, i64), f64>> {
        if self.places > MOST_PLACES {
            return None;
        }
        let mut sums = BTreeMap::from([((0, 0), 1.0)]);
        for other in others {
            let mut next: BTreeMap<(u64, i64), f64> = BTreeMap::new();
            for ((taken, sum), ways) in sums {
                // What was taken of each value, as the digits of one number.
                let mut one_more = 1;
                for (value, count) in &self.values {
                    if taken / one_more % (count + 1) < *count {
                        *next
                            .entry((taken + one_more, sum + other * value))
                            .or_default() += ways;
                    }
                    one_more *= count + 1;
                }
            }
            if next.len() > MOST_SUMS {
                return None;
            }
            sums = next;
        }
        Some(sums)
    }
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

    #[test]
    fn what_chance_does_often_is_no_sign() {
        // One plank with the only twist and the only loss: its loss falls on it once in so many.
        for (planks, says) in [
            (5, PredictorSays::NoSignYet),
            (20, PredictorSays::NoSignYet),
            (21, PredictorSays::MoreWithLess),
        ] {
            let mut pairs = vec![(0.0, 1.0); planks];
            pairs[2] = (4.0, 0.5);
            let found = rank_correlation(&pairs).unwrap();
            assert!((found.chance.unwrap() - 1.0 / planks as f64).abs() < 1e-12);
            assert_eq!(
                (found.spearman.round(), found.says),
                (-1.0, says),
                "{planks}"
            );
        }
        // Five that differ: two of 120 ways agree throughout.
        let rising: Vec<_> = (0..5).map(|n| (f64::from(n), f64::from(n))).collect();
        let found = rank_correlation(&rising).unwrap();
        assert!((found.chance.unwrap() - 2.0 / 120.0).abs() < 1e-12);
    }

    #[test]
    fn nine_that_differ_are_counted_and_ten_judged_by_their_interval() {
        let mixed = |n: u8| -> Vec<_> {
            (0..n)
                .map(|k| (f64::from(k), f64::from(k * 7 % 11)))
                .collect()
        };
        let of = |n| {
            let found = rank_correlation(&mixed(n)).unwrap();
            (found.chance.is_some(), found.interval.is_some())
        };
        assert_eq!((of(9), of(10)), ((true, false), (false, true)));
    }

    /// All ways, one by one: of these pairs, how many there are, and how many go together as closely.
    fn ways(x: &[f64], y: &mut [f64], from: usize, found: f64) -> (u32, u32) {
        if from == y.len() {
            let r = correlation(&mut TraceOff, &ranks(x), &ranks(y)).unwrap();
            return (1, u32::from(r.abs() >= found - 1e-9));
        }
        let mut sum = (0, 0);
        for at in from..y.len() {
            y.swap(from, at);
            let (all, close) = ways(x, y, from + 1, found);
            sum = (sum.0 + all, sum.1 + close);
            y.swap(from, at);
        }
        sum
    }

    proptest! {
        #[test]
        fn the_chance_is_that_of_all_ways_one_by_one(
            pairs in prop::collection::vec((0u8..4, 0u8..4), 5..8),
        ) {
            let (x, mut y): (Vec<f64>, Vec<f64>) =
                pairs.iter().map(|(x, y)| (f64::from(*x), f64::from(*y))).unzip();
            let Some(found) = correlation(&mut TraceOff, &ranks(&x), &ranks(&y)) else {
                return Ok(());
            };
            let told = chance(&x, &y).unwrap();
            let (all, close) = ways(&x, &mut y, 0, found.abs());
            prop_assert!((told - f64::from(close) / f64::from(all)).abs() < 1e-9);
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
            // Nothing is told only where all predictors or all outcomes are the same.
            let alike = |of: fn(&(u8, u8)) -> u8| pairs.iter().all(|pair| of(pair) == of(&pairs[0]));
            let found = rank_correlation(&as_floats(1.0));
            prop_assert_eq!(found.is_err(), alike(|pair| pair.0) || alike(|pair| pair.1));
            prop_assert_eq!(found.is_err(), turned.is_err());
            if let (Ok(found), Ok(turned)) = (found, turned) {
                prop_assert!((found.spearman + turned.spearman).abs() < 1e-12);
                prop_assert_eq!(found.chance, turned.chance);
                prop_assert!(found.spearman.abs() <= 1.0 + 1e-12);
                if let Some((low, high)) = found.interval {
                    prop_assert!(low <= found.spearman && found.spearman <= high);
                }
            }
        }
    }
}
