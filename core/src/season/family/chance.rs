//! The chances for given shares: families of laminates added up, made into blanks, and carried through.

use super::way::{Lot, StageShare, Way};
use crate::season::start::StartError;

/// How many places stand for what counted shares may be.
const PLACES: u32 = 256;

/// The shares of all stages at each place: one place where all are known, else points that fill the unit
/// cube evenly (the additive recurrence of the generalised golden ratio, from memory), each turned into
/// the quantile of its stage.
pub(super) fn share_places(stages: &[StageShare]) -> Result<Vec<Vec<f64>>, StartError> {
    let mut spreads = Vec::new();
    for stage in stages {
        spreads.push(stage.spread()?);
    }
    let counted = spreads.iter().flatten().count();
    if counted == 0 {
        return stages
            .iter()
            .map(|stage| stage.mean())
            .collect::<Result<_, _>>()
            .map(|one| vec![one]);
    }
    let ratio = 1.0 / golden_ratio(counted);
    let mut places = Vec::new();
    for place in 0..PLACES {
        let mut step = 1.0;
        let mut shares = Vec::new();
        for (stage, spread) in stages.iter().zip(&spreads) {
            shares.push(match spread {
                None => stage.mean()?,
                Some(spread) => {
                    step *= ratio;
                    let along = 0.5 + step * f64::from(place);
                    spread.quantile(along - along.floor())
                }
            });
        }
        places.push(shares);
    }
    Ok(places)
}

/// The root over 1 of x^(d + 1) = x + 1.
fn golden_ratio(dimensions: usize) -> f64 {
    let power = 1.0 / (dimensions as f64 + 1.0);
    (0..60).fold(1.5, |x: f64, _| libm::pow(1.0 + x, power))
}

/// The laminates that come through, as far as they matter, for one set of shares.
pub(super) struct Reckoning {
    /// The chance of so many laminates ready for gluing; the last stands for so many or more.
    ready: Vec<f64>,
    /// The chance of so many of one plank.
    family: Vec<f64>,
    /// The chance of enough good blanks, from so many laminates ready.
    enough: Vec<f64>,
}

pub(super) type Alike = (Lot, u32);

/// So little is left beneath the most laminates that matter that no further lot changes anything.
const AS_GOOD_AS_NONE: f64 = 1e-16;

impl Reckoning {
    /// `parts` are the laminates in hand, the largest lots first.
    pub(super) fn new(
        way: &Way,
        parts: &[Alike],
        blanks: &[Lot],
        wanted: u32,
        shares: &[f64],
    ) -> Self {
        let (of_parts, of_blanks) = shares.split_at(way.part_stages.len());
        let left = |stages_done: usize| -> f64 { of_parts.iter().skip(stages_done).product() };
        let enough = enough_by_ready(way.parts_per_blank, wanted, of_blanks, blanks);
        let mut reckoning = Self {
            ready: vec![1.0],
            family: family(
                way.parts_per_plank,
                left(0),
                way.intraclass_correlation,
                usize::MAX,
            ),
            enough,
        };
        for (lot, times) in parts {
            if reckoning.is_as_good_as_sure() {
                break;
            }
            let most = reckoning.most();
            let one = family(
                lot.pieces,
                left(lot.stages_done),
                way.intraclass_correlation,
                most,
            );
            reckoning.add_times(one, *times);
        }
        reckoning
    }

    /// The chance of enough good blanks.
    pub(super) fn chance(&self) -> f64 {
        let sum: f64 = self
            .ready
            .iter()
            .zip(&self.enough)
            .map(|(ready, enough)| ready * enough)
            .sum();
        sum.min(1.0)
    }

    pub(super) fn add_plank(&mut self) {
        self.ready = added(&self.ready, &self.family, self.most());
    }

    /// About the multiplications that it took to begin, with so many lots in hand.
    pub(super) fn work_to_begin(&self, lots: usize) -> u64 {
        let most = self.enough.len() as u64;
        most.saturating_mul(8 + lots as u64)
    }

    /// About the multiplications that a plank more takes.
    pub(super) fn work_of_a_plank(&self) -> u64 {
        (self.ready.len() as u64).saturating_mul(self.family.len() as u64)
    }

    /// The most laminates that matter.
    fn most(&self) -> usize {
        self.enough.len() - 1
    }

    fn is_as_good_as_sure(&self) -> bool {
        let below: f64 = self.ready.iter().take(self.most()).sum();
        below < AS_GOOD_AS_NONE
    }

    /// Adds so many lots alike, two and two of them together.
    fn add_times(&mut self, mut lots: Vec<f64>, times: u32) {
        let (most, mut times) = (self.most(), times);
        while times > 0 {
            if times % 2 == 1 {
                self.ready = added(&self.ready, &lots, most);
            }
            times /= 2;
            if times > 0 {
                lots = added(&lots, &lots, most);
            }
        }
    }
}

/// A chance so small that thousands of such counts together change no chance that is shown.
const NOTHING: f64 = 1e-24;

/// The chance of a sum of two counts; what is over `most` counts as `most`. Most counts lie so far from the usual ones
/// that they have no chance worth adding: they are left out.
fn added(a: &[f64], b: &[f64], most: usize) -> Vec<f64> {
    let length = (a.len() + b.len()).saturating_sub(1).min(most + 1);
    let last = length.saturating_sub(1);
    let mut sum = vec![0.0; length];
    for (i, x) in a.iter().enumerate().filter(|(_, x)| **x > NOTHING) {
        let (within, beyond) = b.split_at(b.len().min(last.saturating_sub(i)));
        for (place, y) in sum.iter_mut().skip(i).zip(within) {
            *place += x * y;
        }
        if let Some(place) = sum.last_mut() {
            beyond.iter().for_each(|y| *place += x * y);
        }
    }
    sum
}

/// The chances of 0 to n; what is over `most` counts as `most`.
fn up_to(n: u32, most: usize, chance: impl Fn(u32) -> f64) -> Vec<f64> {
    if n as usize <= most {
        return (0..=n).map(chance).collect();
    }
    let mut chances: Vec<f64> = (0..most as u32).map(chance).collect();
    let below: f64 = chances.iter().sum();
    chances.push((1.0 - below).max(0.0));
    chances
}

/// The chance of 0 to n of one family of n coming through, beta-binomial: mean share p, likeness rho.
fn family(n: u32, p: f64, rho: f64, most: usize) -> Vec<f64> {
    let scale = (1.0 - rho) / rho;
    let (a, b) = (p * scale, (1.0 - p) * scale);
    // So little likeness, or a share so near to 0 or 1, that only rounding would be left of it.
    if !(a < 1e7 && b < 1e7 && a > 0.0 && b > 0.0) {
        return binomial(n, p, most);
    }
    let ln_beta = |a: f64, b: f64| libm::lgamma(a) + libm::lgamma(b) - libm::lgamma(a + b);
    let whole = ln_beta(a, b);
    up_to(n, most, |k| {
        let (through, failed) = (f64::from(k), f64::from(n - k));
        libm::exp(ln_ways(n, k) + ln_beta(through + a, failed + b) - whole)
    })
}

/// The chance of 0 to n coming through, each by itself.
fn binomial(n: u32, p: f64, most: usize) -> Vec<f64> {
    up_to(n, most, |k| {
        let power = |base: f64, times: u32| {
            if times == 0 {
                0.0
            } else {
                f64::from(times) * libm::log(base)
            }
        };
        libm::exp(ln_ways(n, k) + power(p, k) + power(1.0 - p, n - k))
    })
}

/// ln of the ways to take k out of n.
fn ln_ways(n: u32, k: u32) -> f64 {
    let ln_factorial = |x: u32| libm::lgamma(f64::from(x) + 1.0);
    ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k)
}

/// The chance of enough good blanks from 0, 1, 2, ... laminates ready, up to where it is as good as sure.
fn enough_by_ready(per_blank: u32, wanted: u32, shares: &[f64], held: &[Lot]) -> Vec<f64> {
    let most = wanted as usize;
    let mut good = vec![1.0];
    for lot in held {
        let share = shares.iter().skip(lot.stages_done).product();
        good = added(&good, &binomial(lot.pieces, share, most), most);
    }
    let one = binomial(1, shares.iter().product(), 1);
    let mut enough = Vec::new();
    // Where blanks hardly ever come through, it breaks off: that answer is far beyond reckoning anyway.
    for _ in 0..=40 * (most + 5) {
        let chance = good.get(most).copied().unwrap_or_default();
        enough.extend(std::iter::repeat_n(chance, per_blank as usize));
        if chance > 1.0 - 1e-12 {
            break;
        }
        good = added(&good, &one, most);
    }
    enough
}
