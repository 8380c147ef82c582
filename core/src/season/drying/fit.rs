//! The curve through a series of weighings: a lag behind the moving equilibrium of the air.
//!
//! It never looks further ahead than the weighings bear: a time constant of more than three times the
//! days watched can't be told from a straight line, and is not considered.

use super::told::{LEFT, days_until_near};
use super::{DryingError, FEWEST, Mass, Moisture, Weighing, check, from_grams, grams};
use crate::quantity::Silent;
use crate::season::rate::{HeldFit, fit_held, fit_rate, rates_between};
use crate::season::spread::{NORMAL_95, student_factor};

/// A value with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounded<Q> {
    /// The value.
    pub value: Q,
    /// Its low end.
    pub low: Q,
    /// Its high end.
    pub high: Q,
}

/// The curve through a series of weighings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingFit {
    /// Days in which all but 37 % of the way to the equilibrium is done.
    pub time_constant: Bounded<f64>,
    /// Whether the weighings leave longer time constants open than are considered.
    pub no_end_in_sight: bool,
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
/// has. A weighing's spread is that of the scale (h/sqrt(3), factor 1.96) or, where the weighings scatter
/// about the curve by more, that of the scatter (with Student's factor).
///
/// An error for weights, days or air that make no sense, and where no curve can be laid. Exponential
/// approach: standard, from memory; its driven form derived here. The solver is held against the sets of
/// NIST's reference data that have one rate.
pub fn fit_drying(weighings: &[Weighing], scale: Mass) -> Result<DryingFit, DryingError> {
    check(weighings, scale)?;
    if weighings.len() < FEWEST {
        return Err(DryingError::NoFit(weighings.len()));
    }
    let none = DryingError::NoFit(weighings.len());
    let curve = Curve::of(weighings);
    let (from, to) = curve.time_constants().ok_or(none)?;
    let best = fit_rate(&curve.grams, &|tau| curve.columns(tau), from, to).ok_or(none)?;
    let (spread, factor) = curve.spread(&best.held, grams(scale)).ok_or(none)?;
    let allowed = spread * spread * factor * factor;

    let mut taus = rates_between(from, to);
    taus.push(best.rate);
    let mut ends = Ends::at(&curve, best.rate, &best.held);
    for tau in taus {
        if let Some(held) = fit_held(&curve.grams, &curve.columns(tau)) {
            let over = allowed - (held.squares - best.held.squares);
            if over >= 0.0 {
                ends.widen(&curve, tau, &held, over);
            }
        }
    }
    Ok(ends.into_fit(to, spread, best.held.factors[0]))
}

/// The weighings as plain numbers, from the first day on.
struct Curve {
    days: Vec<f64>,
    grams: Vec<f64>,
    air: Vec<f64>,
}

impl Curve {
    fn of(weighings: &[Weighing]) -> Self {
        let first = weighings.first().map_or(0.0, |one| one.day);
        Self {
            days: weighings.iter().map(|one| one.day - first).collect(),
            grams: weighings.iter().map(|one| grams(one.mass)).collect(),
            air: weighings.iter().map(|one| one.air.in_percent()).collect(),
        }
    }

    /// The shortest and the longest time constant considered, days.
    fn time_constants(&self) -> Option<(f64, f64)> {
        let gaps = self.days.windows(2).map(|pair| pair[1] - pair[0]);
        Some((0.1 * gaps.reduce(f64::min)?, 3.0 * self.days.last()?))
    }

    /// What the dry mass, and what the water at first, is multiplied by at each weighing.
    fn columns(&self, tau: f64) -> Vec<Vec<f64>> {
        let (driven, fading) = self.followed(tau);
        vec![driven.iter().map(|g| 1.0 + g / 100.0).collect(), fading]
    }

    /// The moisture at each weighing of a piece that was dry at first, %, and the share of its first
    /// moisture that a piece still has.
    fn followed(&self, tau: f64) -> (Vec<f64>, Vec<f64>) {
        let fading: Vec<f64> = self.days.iter().map(|day| libm::exp(-day / tau)).collect();
        let mut driven = Vec::with_capacity(self.days.len());
        driven.push(0.0);
        let mut now = 0.0;
        // Who weighs every day has the same gap over and over.
        let (mut last_gap, mut kept) = (0.0, 1.0);
        for (days, air) in self.days.windows(2).zip(self.air.windows(2)) {
            let gap = days[1] - days[0];
            // How far a piece lags behind air that changes evenly.
            let lag = (air[1] - air[0]) / gap * tau;
            if gap != last_gap {
                (last_gap, kept) = (gap, libm::exp(-gap / tau));
            }
            now = air[1] - lag + (now - air[0] + lag) * kept;
            driven.push(now);
        }
        (driven, fading)
    }

    /// The weights with which the fit's factors give the water left above the equilibrium, g.
    fn left_weights(&self, tau: f64) -> [f64; 2] {
        let (driven, fading) = self.followed(tau);
        let last = |of: &[f64]| of.last().copied().unwrap_or_default();
        [(last(&driven) - last(&self.air)) / 100.0, last(&fading)]
    }

    /// The weights with which the fit's factors give the mass in equilibrium with the last air, g.
    fn settled_weights(&self) -> [f64; 2] {
        let air = self.air.last().copied().unwrap_or_default();
        [1.0 + air / 100.0, 0.0]
    }

    /// The standard uncertainty of a weighing, g, and the factor of a 95 % interval with it.
    fn spread(&self, held: &HeldFit, scale: f64) -> Option<(f64, f64)> {
        let degrees = u32::try_from(self.days.len()).ok()?.checked_sub(3)?;
        let of_scale = scale / 3.0_f64.sqrt();
        let scatter = (held.squares / f64::from(degrees)).sqrt();
        if scatter > of_scale {
            Some((scatter, student_factor(degrees)?))
        } else {
            Some((of_scale, NORMAL_95))
        }
    }
}

/// The ends of the intervals as they widen over the time constants that the weighings allow.
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

/// How low and how high a sum of the factors may be, within what is allowed over the best fit's squares.
fn both_ends(held: &HeldFit, weights: [f64; 2], over: f64) -> [f64; 2] {
    let off = (over * held.variance_of(weights)).sqrt();
    [held.combined(weights) - off, held.combined(weights) + off]
}

impl Ends {
    fn at(curve: &Curve, tau: f64, held: &HeldFit) -> Self {
        let left = held.combined(curve.left_weights(tau));
        let percent = LEFT.of([left, held.factors[0]]);
        Self {
            tau: Bounded::alone(tau),
            left: Bounded::alone(left),
            left_percent: Bounded::alone(percent),
            settles: Bounded::alone(held.combined(curve.settled_weights())),
            days: Bounded::alone(days_until_near(&mut Silent, tau, percent)),
        }
    }

    /// Takes in what a time constant allows.
    fn widen(&mut self, curve: &Curve, tau: f64, held: &HeldFit, over: f64) {
        self.tau.take_in(tau);
        for left in both_ends(held, curve.left_weights(tau), over) {
            let percent = LEFT.of([left, held.factors[0]]);
            self.left.take_in(left);
            self.left_percent.take_in(percent);
            self.days
                .take_in(days_until_near(&mut Silent, tau, percent));
        }
        for settled in both_ends(held, curve.settled_weights(), over) {
            self.settles.take_in(settled);
        }
    }

    fn into_fit(self, longest: f64, spread: f64, dry: f64) -> DryingFit {
        DryingFit {
            time_constant: self.tau,
            no_end_in_sight: self.tau.high >= longest * (1.0 - 1e-9),
            left: self.left_percent.map(Moisture::percent),
            left_mass: self.left.map(from_grams),
            settles_at: self.settles.map(from_grams),
            days_until_near: self.days,
            dry: from_grams(dry),
            spread: from_grams(spread),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Eight weighings a week apart that lie `off` grams above and below a level line by turns.
    fn spread_of(off: f64, scale: f64) -> (f64, f64) {
        let days: Vec<f64> = (0..8).map(|week| 7.0 * f64::from(week)).collect();
        let curve = Curve {
            grams: vec![1000.0; 8],
            air: vec![8.0; 8],
            days,
        };
        let mut held = fit_held(&curve.grams, &[vec![1.0; 8]]).unwrap();
        held.squares = 8.0 * off * off;
        curve.spread(&held, scale).unwrap()
    }

    #[test]
    fn the_coarser_of_scale_and_scatter_is_the_spread() {
        // Scatter: the root of 8 x 2²/(8 - 3), three factors being fitted; Student's 2.571 at 5 degrees
        // of freedom (read in a printed table, see the season rows).
        let (scatter, factor) = spread_of(2.0, 1.0);
        assert!((scatter - (32.0_f64 / 5.0).sqrt()).abs() < 1e-12);
        assert!((factor - 2.571).abs() < 5e-4);
        // A scale that shows 5 g and no scatter: 5/sqrt(3) and the normal factor.
        let (of_scale, factor) = spread_of(0.0, 5.0);
        assert!((of_scale - 2.886_751).abs() < 1e-6);
        assert!((factor - 1.959_964).abs() < 1e-6);
    }
}
