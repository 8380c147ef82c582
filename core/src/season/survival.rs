//! What share comes through, how sure that is, and whether two groups differ.
//!
//! It counts what came through and what did not; it never takes a difference that few pieces show for
//! evidence, and never counts as failed what is not yet decided.

use super::effective::ShareCount;
use super::spread::{BetaSpread, NORMAL_95};
use super::survival_error::SurvivalError;
use crate::order;
use crate::quantity::{Derivation, Trace, TraceOff, formula};

/// A share that came through, with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Survival {
    pub through: u32,
    pub of: u32,
    /// All of them count as so many pieces by themselves.
    pub counts_as: f64,
    pub share: f64,
    /// Low end of the interval.
    pub low: f64,
    /// High end of the interval.
    pub high: f64,
    /// Whether the interval is so wide that the share says little.
    pub few: bool,
}

impl Survival {
    /// What it is the share of.
    pub fn count(&self) -> ShareCount {
        ShareCount {
            through: self.through,
            of: self.of,
            counts_as: self.counts_as,
        }
    }
}

/// The most pieces that are reckoned with.
const MOST: u32 = 100_000;
/// An interval wider than this says little (common practice, no source).
const WIDE: f64 = 0.3;

fn counts(through: u32, of: u32) -> Result<(f64, f64), SurvivalError> {
    if of == 0 {
        Err(SurvivalError::None)
    } else if through > of {
        Err(SurvivalError::MoreThanAll { through, of })
    } else if of > MOST {
        Err(SurvivalError::TooMany(of))
    } else {
        Ok((f64::from(through), f64::from(of)))
    }
}

/// What is known of a share after x of n came through: the beta distribution of x + 1/2 and n - x + 1/2, with x and n
/// taken smaller by the same factor where pieces count as fewer.
///
/// The prior is that of Jeffreys, beta (1/2, 1/2). An error for none seen, more than 100000, or more
/// through than there were. Brown, Cai and DasGupta 2001, section 4.3 (from memory).
///
/// No published value: through `survival`, which has rows.
pub fn share_spread_of(count: ShareCount) -> Result<BetaSpread, SurvivalError> {
    let [x, n] = counted_as(count)?;
    BetaSpread::new(GOOD.of([x]), BAD.of([n, x])).ok_or(SurvivalError::TooMany(count.of))
}

/// Came through, and of how many, as pieces by themselves.
fn counted_as(count: ShareCount) -> Result<[f64; 2], SurvivalError> {
    let (x, n) = counts(count.through, count.of)?;
    match count.counts_as > 0.0 && count.counts_as <= n {
        true => Ok([x * count.counts_as / n, count.counts_as]),
        false => Err(SurvivalError::CountsAs(count.counts_as)),
    }
}

/// The share that came through, with the 95 % interval of [`share_spread_of`]: its 2.5 and 97.5 %
/// quantiles; from 0 where none came through and to 1 where all did, as the same source has it.
///
/// ```
/// use stillwood_core::season::survival;
/// let found = survival(14, 20).unwrap();
/// assert!((found.share - 0.7).abs() < 1e-12 && found.few);
/// assert!(found.low > 0.47 && found.high < 0.87);
/// ```
pub fn survival(through: u32, of: u32) -> Result<Survival, SurvivalError> {
    survival_of(ShareCount::by_themselves(through, of))
}

/// [`survival`] of pieces that count as fewer, as those of one plank do: the share is that of all of them, the
/// interval that of as many as they count as.
///
/// No published value: `survival`, which has rows, of other counts; held against simulated planks.
pub fn survival_of(count: ShareCount) -> Result<Survival, SurvivalError> {
    let ShareCount {
        through,
        of,
        counts_as,
    } = count;
    let spread = share_spread_of(count)?;
    let low = if through == 0 {
        0.0
    } else {
        spread.quantile(0.025)
    };
    let high = if through == of {
        1.0
    } else {
        spread.quantile(0.975)
    };
    Ok(Survival {
        through,
        of,
        counts_as,
        share: SHARE.of([f64::from(through), f64::from(of)]) / 100.0,
        low,
        high,
        few: high - low > WIDE,
    })
}

formula! {
    /// The share that came through.
    SHARE: "Share that came through", "p", "%";
    through: "x", "came through", "";
    of: "n", "decided: came through or failed", "";
    = 100.0 * through / of;
    range "what still waits counts nowhere";
    source "a count";
}

formula! {
    /// The half on the good side of the prior.
    GOOD: "First number of the beta distribution", "a", "";
    through: "x", "came through, counted as pieces by themselves", "";
    = through + 0.5;
    range "the prior of Jeffreys, beta (1/2, 1/2)";
    source "Brown, Cai and DasGupta 2001, section 4.3 (from memory)";
}

formula! {
    /// The half on the bad side of the prior.
    BAD: "Its second number", "b", "";
    of: "n", "decided, counted as pieces by themselves", "";
    through: "x", "came through, counted so", "";
    = of - through + 0.5;
    range "the prior of Jeffreys, beta (1/2, 1/2)";
    source "Brown, Cai and DasGupta 2001, section 4.3 (from memory)";
}

/// How a share and its interval were worked out.
pub fn explain_survival(found: &Survival) -> Derivation {
    let mut working = Derivation::default();
    let (x, n) = (f64::from(found.through), f64::from(found.of));
    let part = found.counts_as / n;
    working.steps.work(&GOOD, [part * x]);
    working.steps.work(&BAD, [part * n, part * x]);
    working.steps.work(&SHARE, [x, n]);
    working.notes.push(format!(
        "The share lies between the points under which beta (a, b) has 2.5 % and 97.5 % of its whole: {:.1} % and \
         {:.1} %; from 0 where none came through, to 100 where all did. They are found by halving, to the last \
         digit.",
        found.low * 100.0,
        found.high * 100.0
    ));
    working.notes.extend(counted_as_fewer(found.count()));
    if found.few {
        working.notes.push(format!(
            "The interval is wider than {:.0} points: too few to say (common practice, no source).",
            WIDE * 100.0
        ));
    }
    working
}

/// The 95 % score interval of a share:
/// `[p + z²/2n ± z sqrt(p(1-p)/n + z²/4n²)] / (1 + z²/n)`, p = x/n, z = 1.96.
///
/// An error for none seen, or more through than there were. Wilson 1927; NIST/SEMATECH e-Handbook,
/// 7.2.4.1 (read).
pub fn score_interval(through: u32, of: u32) -> Result<(f64, f64), SurvivalError> {
    let (x, n) = counts(through, of)?;
    let [low, high] = score_ends(&mut TraceOff, x / n, n);
    Ok((low, high))
}

/// The ends of [`score_interval`] of a share p of n.
fn score_ends(trace: &mut impl Trace, p: f64, n: f64) -> [f64; 2] {
    let [low, high] = [-NORMAL_95, NORMAL_95].map(|z| trace.work(&SCORE_END, [p, n, z]));
    // At none or all through, the outer end is 0 or 1 but for the last digit.
    [
        if p > 0.0 { low } else { 0.0 },
        if p < 1.0 { high } else { 1.0 },
    ]
}

formula! {
    /// An end of the score interval of a share.
    SCORE_END: "An end of a share's interval", "e", "";
    p: "p", "share that came through", "";
    n: "n", "decided, counted as pieces by themselves", "";
    z: "z", "standard uncertainties to either side, of 95 %", "";
    = (p + sq(z) / (2.0 * n) + z * sqrt(p * (1.0 - p) / n + sq(z) / (4.0 * sq(n)))) / (1.0 + sq(z) / n);
    range "95 of 100 cases; from 0 where none came through, to 1 where all did";
    source "Wilson 1927; NIST/SEMATECH e-Handbook, 7.2.4.1";
}

formula! {
    /// An end of the interval of a difference of shares.
    DIFFERENCE_END: "An end of the difference's interval", "d", "";
    p1: "p₁", "share of the one that came through", "";
    e1: "e₁", "end of its interval", "";
    p2: "p₂", "share of the other", "";
    e2: "e₂", "end of its interval", "";
    side: "s", "−1 for the low end, 1 for the high end", "";
    = p1 - p2 + side * sqrt(sq(p1 - e1) + sq(p2 - e2));
    range "95 of 100 cases; where 0 lies between both ends, it is not yet evidence";
    source "Newcombe 1998 (difference of independent proportions), method 10";
}

/// The difference of two shares, with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// The first less the second.
    pub difference: f64,
    /// Low end of the interval.
    pub low: f64,
    /// High end of the interval.
    pub high: f64,
}

impl Difference {
    /// The difference and the ends of its interval, in points.
    pub fn in_points(self) -> [f64; 3] {
        [self.difference, self.low, self.high].map(|share| 100.0 * share)
    }

    /// Whether the interval leaves out no difference at all.
    pub fn is_evidence(self) -> bool {
        self.low > 0.0 || self.high < 0.0
    }

    /// In the maker's words.
    pub fn words(self) -> &'static str {
        if self.is_evidence() {
            "evidence"
        } else {
            "not yet evidence"
        }
    }
}

/// The difference of two shares, each as how many came through of how many:
/// `d - sqrt[(p1-l1)² + (u2-p2)²]` to `d + sqrt[(u1-p1)² + (p2-l2)²]`.
///
/// d = p1 - p2, and l, u the ends of each [`score_interval`]. Pieces of one plank fail together, so count
/// planks where planks are compared, or the interval is too narrow. An error as there. Newcombe 1998
/// (difference of independent proportions), method 10 (formula read in the documentation of a statistics
/// package).
///
/// ```
/// use stillwood_core::season::share_difference;
/// assert_eq!(share_difference((14, 20), (9, 10)).unwrap().words(), "not yet evidence");
/// assert_eq!(share_difference((70, 100), (90, 100)).unwrap().words(), "evidence");
/// ```
pub fn share_difference(
    first: (u32, u32),
    second: (u32, u32),
) -> Result<Difference, SurvivalError> {
    let by_themselves = |(through, of)| ShareCount::by_themselves(through, of);
    share_difference_of(&mut TraceOff, by_themselves(first), by_themselves(second))
}

/// [`share_difference`] of pieces that count as fewer, as those of one plank do: the shares are those of all of them,
/// the intervals those of as many as they count as.
///
/// No published value: `share_difference`, which has rows, of other counts.
pub fn share_difference_of(
    trace: &mut impl Trace,
    first: ShareCount,
    second: ShareCount,
) -> Result<Difference, SurvivalError> {
    let [[x1, n1], [x2, n2]] = [counted_as(first)?, counted_as(second)?];
    let (p1, p2) = (x1 / n1, x2 / n2);
    let [l1, u1] = score_ends(trace, p1, n1);
    let [l2, u2] = score_ends(trace, p2, n2);
    Ok(Difference {
        difference: p1 - p2,
        low: trace.work(&DIFFERENCE_END, [p1, l1, p2, u2, -1.0]),
        high: trace.work(&DIFFERENCE_END, [p1, u1, p2, l2, 1.0]),
    })
}

/// How [`share_difference_of`] was worked out; `None` where there is none.
pub fn explain_difference(first: ShareCount, second: ShareCount) -> Option<Derivation> {
    let mut working = Derivation::default();
    share_difference_of(&mut working.steps, first, second).ok()?;
    let notes = [first, second].into_iter().filter_map(counted_as_fewer);
    working.notes.extend(notes);
    Some(working)
}

/// Says for how many pieces the pieces of a few planks count.
fn counted_as_fewer(count: ShareCount) -> Option<String> {
    (count.counts_as < f64::from(count.of)).then(|| {
        format!(
            "The pieces of one plank are alike: these {} count as {:.1} by themselves, by how alike the planks' pieces \
             turned out and by how few planks there are (Kish 1965; Korn and Graubard 1998; both from memory).",
            count.of, count.counts_as
        )
    })
}

/// How long a piece was watched, and how that ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Watched {
    /// For how long, in any unit.
    pub time: f64,
    /// Whether it failed then; otherwise it was still good when last seen.
    pub failed: bool,
}

/// The survival curve from one failure on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurvivalStep {
    pub time: f64,
    /// How many were watched until then.
    pub at_risk: u32,
    pub failed: u32,
    /// The share that outlasts this time.
    pub share: f64,
    pub standard: f64,
    /// Its 95 % interval; `None` once all have failed.
    pub interval: Option<(f64, f64)>,
}

/// The survival curve of pieces of which some are still good: S = product of (1 - d/n) over the failures.
///
/// d failed at a time, of n still watched; one last seen good at that time counts as watched. The
/// variance is Greenwood's, S² sum of d/(n (n - d)); the interval is taken on ln(-ln S), and so stays
/// between 0 and 1. An error for no piece, or a time that is none. Kaplan and Meier 1958; Greenwood 1926;
/// Kalbfleisch and Prentice 1980 (from memory; a worked table was read).
pub fn survival_curve(pieces: &[Watched]) -> Result<Vec<SurvivalStep>, SurvivalError> {
    survival_curve_of(pieces, pieces.len() as f64)
}

/// [`survival_curve`] of pieces that count as fewer, as those of one plank do (see [`ShareCount`]): the shares are
/// those of all of them, Greenwood's variance is larger by n over what they count as. An error as well for pieces
/// that count as none, or as more than they are. Design effect of clusters, Kish 1965 (from memory).
///
/// No published value: `survival_curve`, which has rows, with a wider band; held against simulated planks.
pub fn survival_curve_of(
    pieces: &[Watched],
    counts_as: f64,
) -> Result<Vec<SurvivalStep>, SurvivalError> {
    if pieces.is_empty() {
        return Err(SurvivalError::None);
    }
    let wider = pieces.len() as f64 / counts_as;
    if !(wider >= 1.0 && wider.is_finite()) {
        return Err(SurvivalError::CountsAs(counts_as));
    }
    if let Some(bad) = pieces
        .iter()
        .find(|p| !(p.time >= 0.0 && p.time.is_finite()))
    {
        return Err(SurvivalError::Time(bad.time));
    }
    let mut sorted = pieces.to_vec();
    order::sort_by(&mut sorted, |a, b| a.time.total_cmp(&b.time));
    let mut steps = Vec::new();
    let (mut share, mut sum) = (1.0, 0.0);
    let mut rest = sorted.as_slice();
    while let Some(first) = rest.first() {
        let now = rest.iter().take_while(|p| p.time == first.time).count();
        let failed = rest.iter().take(now).filter(|p| p.failed).count();
        if failed > 0 {
            let (d, n) = (failed as f64, rest.len() as f64);
            share *= 1.0 - d / n;
            sum += wider * d / (n * (n - d));
            steps.push(SurvivalStep {
                time: first.time,
                at_risk: rest.len() as u32,
                failed: failed as u32,
                share,
                standard: if share > 0.0 { share * sum.sqrt() } else { 0.0 },
                interval: (share > 0.0).then(|| log_log_interval(share, sum)),
            });
        }
        rest = rest.get(now..).unwrap_or_default();
    }
    Ok(steps)
}

/// The survival curve at a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StillIn {
    pub share: f64,
    /// Its 95 % interval; `None` before the first failure and once all have failed.
    pub interval: Option<(f64, f64)>,
    pub watched: u32,
}

impl StillIn {
    /// All that were watched kept still.
    pub fn all_still(&self) -> bool {
        self.share > 0.0 && self.interval.is_none()
    }

    /// Whether it says little: nothing failed yet, all did, or its interval is wide.
    pub fn few(&self) -> bool {
        self.interval.is_none_or(|(low, high)| high - low > WIDE)
    }
}

/// The survival curve of some pieces at a time: that of the last failure up to then, see
/// [`survival_curve_of`]. `None` beyond the longest that any was watched: nothing is known there. The same
/// errors.
///
/// No published value: a place on `survival_curve`, which has rows.
pub fn still_in(
    pieces: &[Watched],
    counts_as: f64,
    time: f64,
) -> Result<Option<StillIn>, SurvivalError> {
    let curve = survival_curve_of(pieces, counts_as)?;
    let watched = pieces.iter().filter(|piece| piece.time >= time).count();
    let last = curve.iter().rfind(|step| step.time <= time);
    let known = watched > 0 && time >= 0.0;
    Ok(known.then(|| StillIn {
        share: last.map_or(1.0, |step| step.share),
        interval: last.and_then(|step| step.interval),
        watched: watched as u32,
    }))
}

/// S^exp(±z sqrt(sum)/ln S), the interval taken on ln(-ln S).
fn log_log_interval(share: f64, sum: f64) -> (f64, f64) {
    let off = NORMAL_95 * sum.sqrt() / libm::log(share);
    (
        libm::pow(share, libm::exp(-off)),
        libm::pow(share, libm::exp(off)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn many_pieces_say_more_than_few() {
        // One in ten fails at half a year, the others are watched for a year.
        let at_half = |pieces: u32| {
            let watched: Vec<Watched> = (0..pieces)
                .map(|n| Watched {
                    time: if n % 10 == 0 { 6.0 } else { 12.0 },
                    failed: n % 10 == 0,
                })
                .collect();
            still_in(&watched, f64::from(pieces), 7.0).unwrap().unwrap()
        };
        assert!(at_half(10).few());
        assert!(!at_half(200).few());
        assert!((at_half(200).share - 0.9).abs() < 1e-12);
    }

    #[test]
    fn few_pieces_say_little() {
        let two = survival(2, 2).unwrap();
        assert!(two.few && two.high == 1.0 && two.low > 0.3 && two.low < 0.4);
        assert!(!survival(90, 100).unwrap().few);
        assert!((survival(90, 100).unwrap().share - 0.9).abs() < 1e-12);
        assert_eq!(survival(0, 8).unwrap().low, 0.0);
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        assert_eq!(survival(0, 0), Err(SurvivalError::None));
        assert_eq!(survival(1, u32::MAX), Err(SurvivalError::TooMany(u32::MAX)));
        assert_eq!(
            survival(3, 2).unwrap_err().to_string(),
            "3 came through of 2: there can't be more than there were"
        );
        assert!(share_difference((1, 2), (0, 0)).is_err());
        assert_eq!(survival_curve(&[]), Err(SurvivalError::None));
        let never = Watched {
            time: f64::NAN,
            failed: true,
        };
        assert!(survival_curve(&[never]).is_err());
    }

    #[test]
    fn a_difference_is_evidence_whichever_is_better() {
        let told = |one, other| share_difference(one, other).unwrap().is_evidence();
        assert!(told((38, 40), (20, 40)) && told((20, 40), (38, 40)));
        assert!(!told((20, 40), (21, 40)) && !told((21, 40), (20, 40)));
        // 70 and 90 of 100 are evidence; where the pieces of few planks count as a tenth, not yet.
        let of = |through, counts_as| ShareCount {
            through,
            of: 100,
            counts_as,
        };
        let all = explain_difference(of(90, 100.0), of(70, 100.0)).unwrap();
        assert!(all.notes.is_empty() && all.steps.len() == 6);
        let told = |counts_as| {
            let both = [of(90, counts_as), of(70, counts_as)];
            share_difference_of(&mut TraceOff, both[0], both[1]).unwrap()
        };
        assert!(told(100.0).is_evidence() && !told(10.0).is_evidence());
        assert_eq!(told(10.0).difference, told(100.0).difference);
    }

    #[test]
    fn what_is_still_good_is_not_counted_as_failed() {
        let good = [3.0, 6.0, 12.0].map(|time| Watched {
            time,
            failed: false,
        });
        assert_eq!(survival_curve(&good), Ok(Vec::new()));
        let all = [Watched {
            time: 2.0,
            failed: true,
        }; 3];
        let steps = survival_curve(&all).unwrap();
        assert_eq!(
            (steps[0].at_risk, steps[0].share, steps[0].interval),
            (3, 0.0, None)
        );
    }

    #[test]
    fn the_curve_is_asked_at_a_time_and_never_beyond_what_was_watched() {
        let pieces: Vec<Watched> = [(1.0, true), (4.0, false), (6.0, true), (9.0, false)]
            .map(|(time, failed)| Watched { time, failed })
            .into();
        let at = |time| still_in(&pieces, 4.0, time).unwrap();
        let found = |time| at(time).map(|found| (found.share, found.watched));
        assert_eq!(found(0.5), Some((1.0, 4)));
        assert_eq!(found(1.0), Some((0.75, 4)));
        assert_eq!(found(5.0), Some((0.75, 2)));
        assert_eq!(found(6.0), Some((0.375, 2)));
        assert_eq!(found(9.0), Some((0.375, 1)));
        assert_eq!((at(9.1), at(-1.0), at(f64::NAN)), (None, None, None));
        assert!(at(0.5).unwrap().few() && at(6.0).unwrap().few());
        assert!(still_in(&[], 0.0, 1.0).is_err());
        // Pieces that count as half as many: the share stays, the band is wider.
        let [four, two] =
            [4.0, 2.0].map(|as_many| still_in(&pieces, as_many, 6.0).unwrap().unwrap());
        assert_eq!(four.share, two.share);
        let width = |found: StillIn| found.interval.map(|(low, high)| high - low).unwrap();
        assert!(width(two) > width(four));
        for none in [0.0, 5.0, f64::NAN] {
            assert!(still_in(&pieces, none, 6.0).is_err());
        }
    }

    proptest! {
        #[test]
        fn intervals_hold_the_share(of in 1u32..400, part in 0.0..1.0f64) {
            let through = (f64::from(of) * part) as u32;
            let found = survival(through, of).unwrap();
            prop_assert!(0.0 <= found.low && found.low <= found.share);
            prop_assert!(found.share <= found.high && found.high <= 1.0);
            let (low, high) = score_interval(through, of).unwrap();
            prop_assert!((0.0..=found.share + 1e-12).contains(&low));
            prop_assert!((found.share - 1e-12..=1.0).contains(&high));
            // The two agree but for small counts.
            prop_assert!((low - found.low).abs() < 0.6 / f64::from(of).sqrt());
            prop_assert!((high - found.high).abs() < 0.6 / f64::from(of).sqrt());
        }

        // With nothing censored the curve is the plain share of those that outlast a time.
        #[test]
        fn uncensored_it_is_the_plain_share(times in prop::collection::vec(1u8..12, 1..40)) {
            let pieces: Vec<_> = times.iter().map(|t| Watched { time: f64::from(*t), failed: true }).collect();
            for step in survival_curve(&pieces).unwrap() {
                let outlast = times.iter().filter(|t| f64::from(**t) > step.time).count();
                prop_assert!((step.share - outlast as f64 / times.len() as f64).abs() < 1e-12);
            }
        }
    }
}
