//! The moisture of a piece that lags behind the equilibrium of its air, through all readings of that air.

use super::weighing::{AirReading, Weighing, grams};
use crate::season::rate::FitAtRate;
use crate::season::spread::{NORMAL_95, student_factor};

/// The weighings and the air as plain numbers, from the first day on.
pub(super) struct Curve {
    pub(super) days: Vec<f64>,
    pub(super) grams: Vec<f64>,
    /// Day and equilibrium at every reading from the first weighing to the last.
    pub(super) knots: Vec<(f64, f64)>,
    /// Which knot each weighing stands at.
    pub(super) weighed_at: Vec<usize>,
}

impl Curve {
    pub(super) fn of(weighings: &[Weighing], between: &[AirReading]) -> Self {
        let first = weighings.first().map_or(0.0, |one| one.day);
        let mut curve = Self {
            days: weighings.iter().map(|one| one.day - first).collect(),
            grams: weighings.iter().map(|one| grams(one.mass)).collect(),
            knots: Vec::new(),
            weighed_at: Vec::new(),
        };
        let mut before = None::<f64>;
        let mut reads = between.iter().peekable();
        for one in weighings {
            while let Some(read) = reads.next_if(|read| read.day < one.day) {
                if before.is_some_and(|before| read.day > before) {
                    let day = read.day - first;
                    // Of two on one day the later counts.
                    curve.knots.pop_if(|(known, _)| *known >= day);
                    curve.knots.push((day, read.air.in_percent()));
                }
            }
            curve.weighed_at.push(curve.knots.len());
            curve.knots.push((one.day - first, one.air.in_percent()));
            before = Some(one.day);
        }
        curve
    }

    /// The shortest and the longest time constant considered, days.
    pub(super) fn time_constants(&self) -> Option<(f64, f64)> {
        let gaps = self.days.windows(2).map(|pair| pair[1] - pair[0]);
        Some((0.1 * gaps.reduce(f64::min)?, 3.0 * self.days.last()?))
    }

    /// What the dry mass, and what the water at first, is multiplied by at each weighing.
    pub(super) fn columns(&self, tau: f64) -> Vec<Vec<f64>> {
        let driven = self.driven(tau, &|knot| self.air_of(knot));
        vec![
            driven.into_iter().map(|g| 1.0 + g / 100.0).collect(),
            self.fading(tau),
        ]
    }

    fn air_of(&self, knot: usize) -> f64 {
        self.knots.get(knot).map_or(0.0, |(_, air)| *air)
    }

    fn last_air(&self) -> f64 {
        self.knots.last().map_or(0.0, |(_, air)| *air)
    }

    /// The share of its first moisture that a piece still has at each weighing.
    fn fading(&self, tau: f64) -> Vec<f64> {
        self.days.iter().map(|day| libm::exp(-day / tau)).collect()
    }

    /// The moisture at each weighing of a piece that was dry at first, %, in air of that equilibrium at each knot;
    /// it is linear in the air.
    pub(super) fn driven(&self, tau: f64, air: &dyn Fn(usize) -> f64) -> Vec<f64> {
        let mut driven = Vec::with_capacity(self.days.len());
        let mut weighed = self.weighed_at.iter().copied().peekable();
        let mut now = 0.0;
        // Who weighs every day has the same gap over and over.
        let (mut last_gap, mut kept) = (0.0, 1.0);
        for (knot, (day, _)) in self.knots.iter().enumerate() {
            if let Some((before, _)) = knot.checked_sub(1).and_then(|n| self.knots.get(n)) {
                let gap = day - before;
                let (from, to) = (air(knot - 1), air(knot));
                // How far a piece lags behind air that changes evenly.
                let lag = (to - from) / gap * tau;
                if gap != last_gap {
                    (last_gap, kept) = (gap, libm::exp(-gap / tau));
                }
                now = to - lag + (now - from + lag) * kept;
            }
            if weighed.next_if_eq(&knot).is_some() {
                driven.push(now);
            }
        }
        driven
    }

    /// By how much a sum over the weighings, each moisture with its weight, moves for 1 % of each knot's air: what
    /// [`Self::driven`] does, turned round, so that all knots are found in one walk.
    pub(super) fn answer_to_air(&self, tau: f64, weights: &[f64]) -> Vec<f64> {
        let mut answer = vec![0.0; self.knots.len()];
        let weighed = self.weighed_at.iter().copied().zip(weights.iter().copied());
        let mut weighed = weighed.rev().peekable();
        let mut later = 0.0;
        for knot in (1..self.knots.len()).rev() {
            if let Some((_, weight)) = weighed.next_if(|(at, _)| *at == knot) {
                later += weight;
            }
            let gap = self.knots[knot].0 - self.knots[knot - 1].0;
            let (kept, even) = (libm::exp(-gap / tau), tau / gap);
            answer[knot] += later * (1.0 - even + even * kept);
            answer[knot - 1] += later * (even - kept - even * kept);
            later *= kept;
        }
        answer
    }

    /// The weights with which the fit's factors give the water left above the equilibrium, g.
    pub(super) fn left_weights(&self, columns: &[Vec<f64>]) -> [f64; 2] {
        let last = |at: usize| columns.get(at).and_then(|of| of.last()).copied();
        let [driven, fading] = [0, 1].map(|at| last(at).unwrap_or_default());
        [driven - 1.0 - self.last_air() / 100.0, fading]
    }

    /// The weights with which the fit's factors give the mass in equilibrium with the last air, g.
    pub(super) fn settled_weights(&self) -> [f64; 2] {
        [1.0 + self.last_air() / 100.0, 0.0]
    }

    /// The standard uncertainty of a weighing, g, and the factor of a 95 % interval with it.
    pub(super) fn spread(&self, held: &FitAtRate, scale: f64) -> Option<(f64, f64)> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Moisture, kg};
    use crate::season::rate::fit_held;

    /// Eight weighings a week apart that lie `off` grams above and below a level line by turns.
    fn spread_of(off: f64, scale: f64) -> (f64, f64) {
        let mut weighings = Vec::new();
        for week in 0..8 {
            weighings.push(Weighing {
                day: 7.0 * f64::from(week),
                mass: kg(1.0),
                air: Moisture::percent(8.0),
            });
        }
        let curve = Curve::of(&weighings, &[]);
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

    #[test]
    fn the_answer_to_the_air_is_that_of_each_reading_by_itself() {
        let weighed = [
            (0.0, 8.0),
            (9.0, 7.5),
            (40.0, 9.0),
            (41.0, 8.2),
            (90.0, 10.0),
        ];
        let weighings = weighed.map(|(day, air)| Weighing {
            day,
            mass: kg(1.0),
            air: Moisture::percent(air),
        });
        let between = [3.0, 5.0, 20.0, 21.0, 60.0].map(|day| AirReading {
            day,
            air: Moisture::percent(8.0),
        });
        let curve = Curve::of(&weighings, &between);
        let weights = [0.3, -2.0, 0.7, 5.0, -1.1];
        let answer = curve.answer_to_air(17.0, &weights);
        assert_eq!(answer.len(), 10);
        for (knot, found) in answer.into_iter().enumerate() {
            let alone = |other| if other == knot { 1.0 } else { 0.0 };
            let driven = curve.driven(17.0, &alone);
            let sum: f64 = driven.iter().zip(weights).map(|(m, w)| m * w).sum();
            assert!((found - sum).abs() < 1e-12, "{knot}: {found}, {sum}");
        }
    }

    #[test]
    fn air_read_between_two_weighings_is_followed() {
        let weighings = [(0.0, 8.0), (60.0, 8.0)].map(|(day, air)| Weighing {
            day,
            mass: kg(1.0),
            air: Moisture::percent(air),
        });
        let read = |day, air| AirReading {
            day,
            air: Moisture::percent(air),
        };
        let between = [read(-5.0, 3.0), read(30.0, 11.0), read(60.0, 3.0)];
        let curve = Curve::of(&weighings, &between);
        assert_eq!(curve.knots, [(0.0, 8.0), (30.0, 11.0), (60.0, 8.0)]);
        // A piece that keeps up at once has the air's moisture; a slow one stands above it, for the air was damper.
        let driven = |tau| curve.driven(tau, &|knot| curve.knots[knot].1);
        assert!((driven(0.01)[1] - 8.0).abs() < 0.01);
        let straight = Curve::of(&weighings, &[]);
        let without = straight.driven(20.0, &|knot| straight.knots[knot].1);
        assert!(driven(20.0)[1] > without[1] + 0.5);
    }
}
