//! The curve through a series of weighings: a lag behind the moving equilibrium of the air.
//!
//! It never looks further ahead than the weighings bear: a time constant of more than three times the
//! days watched can't be told from a straight line, and is not considered.

use super::air::{AirUncertainty, OfAir, of_air};
use super::curve::Curve;
use super::formulas::{LEFT, days_until_near};
use super::weighing::{AirReading, DryingError, Weighing, air_percent, check, from_grams, grams};
use crate::quantity::{Mass, Moisture, TraceOff};
use crate::season::rate::{FitAtRate, fit_held, fit_rate, narrow, rates_between};
use crate::season::spread::NORMAL_95;

/// Three numbers are fitted, and one weighing more tells how well.
pub(super) const FEWEST: usize = 4;

/// A value with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounded<Q> {
    pub value: Q,
    pub low: Q,
    pub high: Q,
}

/// The curve through a series of weighings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingFit {
    /// Days in which all but 37 % of the way to the equilibrium is done.
    pub time_constant: Bounded<f64>,
    /// How far above the air's equilibrium the piece was at the last weighing; below it, less than
    /// nothing. In % moisture.
    pub left: Bounded<Moisture>,
    /// The same as water.
    pub left_mass: Bounded<Mass>,
    /// What the piece will weigh in the last air.
    pub settles_at: Bounded<Mass>,
    /// Days after the last weighing until it is within half a percent of the air's equilibrium.
    pub days_until_near: Bounded<f64>,
    /// The piece without water, as the fit has it.
    pub dry: Mass,
    /// The standard uncertainty of a weighing, as used for the intervals.
    pub spread: Mass,
    /// How far off the air may have been, as used for the intervals.
    pub air: AirUncertainty,
}

/// The curve through a series of weighings, by least squares.
///
/// The moisture M follows the equilibrium E of the air with the time constant tau:
/// `dM/dt = (E - M)/tau`, E running straight from one weighing to the next; the mass is D (1 + M/100), D
/// the dry mass. In unchanging air that is the exponential approach
/// `(M - E)/(M0 - E) = exp(-t/tau)`. D, the first M and tau are fitted: four weighings at least. tau is
/// looked for between a tenth of the shortest gap and three times the days watched, in days.
///
/// Intervals are the 95 % profile-likelihood intervals, which keep the lopsidedness that a short series
/// has; their ends are solved for. A weighing's spread is that of the scale (h/sqrt(3), factor 1.96) or, where the
/// weighings scatter about the curve by more, that of the scatter (with Student's factor). They hold if the air
/// was as logged.
///
/// An error for weights, days or air that make no sense, and where no curve can be laid. Exponential
/// approach: standard, from memory; its driven form derived here. The solver is held against the sets of
/// NIST's reference data that have one rate.
pub fn fit_drying(weighings: &[Weighing], scale: Mass) -> Result<DryingFit, DryingError> {
    fit_drying_in_air(weighings, &[], AirUncertainty::AS_LOGGED, scale)
}

/// [`fit_drying`] with what was read of the air `between` the weighings, in order of days: E runs straight from each
/// reading to the next. The intervals hold if each reading was off by no more than `air` says, each by itself; that
/// part is added as the root of the sum of squares, by the slopes of the fit (JCGM 100:2008, 5.1.2, from memory).
///
/// No published value: `fit_drying`, which has rows, with more readings; its intervals are held against simulated
/// series.
pub fn fit_drying_in_air(
    weighings: &[Weighing],
    between: &[AirReading],
    air: AirUncertainty,
    scale: Mass,
) -> Result<DryingFit, DryingError> {
    check(weighings, scale)?;
    for read in between {
        air_percent(read.air)?;
    }
    if weighings.len() < FEWEST {
        return Err(DryingError::NoFit(weighings.len()));
    }
    let none = DryingError::NoFit(weighings.len());
    let curve = Curve::of(weighings, between);
    let (from, to) = curve.time_constants().ok_or(none)?;
    let best = fit_rate(&curve.grams, &|tau| curve.columns(tau), from, to).ok_or(none)?;
    let (spread, factor) = curve.spread(&best.held, grams(scale)).ok_or(none)?;
    let profile = Profile {
        curve: &curve,
        allowed: best.held.squares + spread * spread * factor * factor,
    };
    let range = profile.time_constants(best.rate, from, to);
    let mut ends = Ends::at(&curve, best.rate, &best.held);
    profile.widen(&mut ends, range);
    ends.add(
        of_air(&curve, best.rate, &best.held, !best.at_end, air),
        (from, to),
    );
    Ok(DryingFit {
        time_constant: ends.tau,
        left: ends.left_percent.map(Moisture::percent),
        left_mass: ends.left.map(from_grams),
        settles_at: ends.settles.map(from_grams),
        days_until_near: ends.days,
        dry: from_grams(best.held.factors[0]),
        spread: from_grams(spread),
        air,
    })
}

/// So many time constants inside their interval are looked at before the farthest end is narrowed down.
const INSIDE: u32 = 48;
/// Halvings that bring an end of the time constant to the last digits that matter.
const HALVINGS: u32 = 44;

/// How well each time constant fits, with the other numbers at their best for it.
struct Profile<'a> {
    curve: &'a Curve,
    /// The sum of squares that is still within the interval.
    allowed: f64,
}

/// What a time constant allows: the low and the high end of each figure.
type Allowed = [[f64; 2]; 4];

impl Profile<'_> {
    /// What is allowed over the best fit with a time constant; less than nothing outside the interval.
    fn over(&self, tau: f64) -> f64 {
        let held = fit_held(&self.curve.grams, &self.curve.columns(tau));
        held.map_or(f64::NEG_INFINITY, |held| self.allowed - held.squares)
    }

    /// The interval of the time constant: from the best outwards to the outermost of the grid that is allowed, and
    /// from there to the very end by halving.
    fn time_constants(&self, best: f64, from: f64, to: f64) -> (f64, f64) {
        let grid = rates_between(from, to);
        let allowed = |tau: &&f64| self.over(**tau) >= 0.0;
        let low = grid.iter().find(allowed).map_or(best, |tau| tau.min(best));
        let high = grid.iter().rfind(allowed).map_or(best, |tau| tau.max(best));
        let below = grid.iter().rfind(|tau| **tau < low);
        let above = grid.iter().find(|tau| **tau > high);
        let end = |inside: f64, outside: Option<&f64>| {
            outside.map_or(inside, |outside| self.end_between(inside, *outside))
        };
        (end(low, below), end(high, above))
    }

    /// Where the interval ends between a time constant inside it and one outside.
    fn end_between(&self, mut inside: f64, mut outside: f64) -> f64 {
        for _ in 0..HALVINGS {
            let middle = (inside * outside).sqrt();
            if self.over(middle) >= 0.0 {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        inside
    }

    /// Water left, the same in percent, what it settles at and the days until it is near, at their ends for a time
    /// constant; `None` outside the interval.
    fn allowed_by(&self, tau: f64) -> Option<Allowed> {
        let columns = self.curve.columns(tau);
        let held = fit_held(&self.curve.grams, &columns)?;
        let over = self.allowed - held.squares;
        // The ends themselves are inside whatever rounding says.
        if over < -1e-9 * self.allowed {
            return None;
        }
        let over = over.max(0.0);
        let left = both_ends(&held, self.curve.left_weights(&columns), over);
        let percent = left.map(|left| LEFT.of([left, held.factors[0]]));
        let days = percent.map(|percent| days_until_near(&mut TraceOff, tau, percent));
        let settles = both_ends(&held, self.curve.settled_weights(), over);
        let days = [days[0].min(days[1]), days[0].max(days[1])];
        Some([left, percent, settles, days])
    }

    /// Takes in what all time constants of the interval allow.
    fn widen(&self, ends: &mut Ends, (low, high): (f64, f64)) {
        ends.tau.take_in(low);
        ends.tau.take_in(high);
        let ratio = libm::log(high / low) / f64::from(INSIDE);
        let taus: Vec<f64> = (0..=INSIDE)
            .map(|at| low * libm::exp(ratio * f64::from(at)))
            .collect();
        let all: Vec<Option<Allowed>> = taus.iter().map(|tau| self.allowed_by(*tau)).collect();
        for (at, figure) in ends.figures().into_iter().enumerate() {
            for (end, sign) in [(0, 1.0), (1, -1.0)] {
                // The farthest end is where this is least.
                let of = |allowed: &Option<Allowed>| {
                    allowed.map_or(f64::INFINITY, |allowed| sign * allowed[at][end])
                };
                let least = (0..taus.len()).min_by(|a, b| of(&all[*a]).total_cmp(&of(&all[*b])));
                let Some(least) = least else { continue };
                let before = taus[least.saturating_sub(1)];
                let after = *taus.get(least + 1).unwrap_or(&taus[least]);
                let found = narrow(&|tau| of(&self.allowed_by(tau)), before, after, FINE);
                for value in [of(&all[least]), of(&self.allowed_by(found))] {
                    if value.is_finite() {
                        figure.take_in(sign * value);
                    }
                }
            }
        }
    }
}

/// Steps that narrow down the farthest end of a figure between two neighbours.
const FINE: u32 = 24;

struct Ends {
    tau: Bounded<f64>,
    left: Bounded<f64>,
    left_percent: Bounded<f64>,
    settles: Bounded<f64>,
    days: Bounded<f64>,
}

impl<Q: Copy + PartialOrd> Bounded<Q> {
    /// A value without an interval yet.
    fn alone(value: Q) -> Self {
        Self {
            value,
            low: value,
            high: value,
        }
    }

    fn take_in(&mut self, value: Q) {
        if value < self.low {
            self.low = value;
        }
        if value > self.high {
            self.high = value;
        }
    }
}

impl<Q: Copy> Bounded<Q> {
    fn map<R>(self, to: impl Fn(Q) -> R) -> Bounded<R> {
        Bounded {
            value: to(self.value),
            low: to(self.low),
            high: to(self.high),
        }
    }
}

impl Bounded<f64> {
    /// With a further source of error of this standard uncertainty.
    fn add(&mut self, standard: f64) {
        let further = NORMAL_95 * standard;
        self.low = self.value - libm::hypot(self.value - self.low, further);
        self.high = self.value + libm::hypot(self.high - self.value, further);
    }
}

/// How low and how high a sum of the factors may be, within what is allowed over the best fit's squares.
fn both_ends(held: &FitAtRate, weights: [f64; 2], over: f64) -> [f64; 2] {
    let off = (over * held.variance_of(weights)).sqrt();
    [held.combined(weights) - off, held.combined(weights) + off]
}

impl Ends {
    fn at(curve: &Curve, tau: f64, held: &FitAtRate) -> Self {
        let left = held.combined(curve.left_weights(&curve.columns(tau)));
        let percent = LEFT.of([left, held.factors[0]]);
        Self {
            tau: Bounded::alone(tau),
            left: Bounded::alone(left),
            left_percent: Bounded::alone(percent),
            settles: Bounded::alone(held.combined(curve.settled_weights())),
            days: Bounded::alone(days_until_near(&mut TraceOff, tau, percent)),
        }
    }

    /// In the order of [`Allowed`].
    fn figures(&mut self) -> [&mut Bounded<f64>; 4] {
        [
            &mut self.left,
            &mut self.left_percent,
            &mut self.settles,
            &mut self.days,
        ]
    }

    /// Adds what comes of the air; a time constant stays within what is considered, and no days are less than none.
    fn add(&mut self, air: OfAir, (from, to): (f64, f64)) {
        self.tau.add(air.tau);
        self.left.add(air.left);
        self.left_percent.add(air.left_percent);
        self.settles.add(air.settles);
        self.days.add(air.days);
        self.tau.low = self.tau.low.max(from);
        self.tau.high = self.tau.high.min(to);
        self.days.low = self.days.low.max(0.0);
    }
}
