//! What the error of the logged air does to the figures of a curve.
//!
//! It knows of errors that differ from reading to reading, and of one that all readings share: that of the
//! hygrometer, which moves the figures little, for the dry mass takes most of it up.

use super::curve::Curve;
use super::formulas::NEAR_ENOUGH;
use crate::season::rate::FitAtRate;

/// How far the logged air may be off the air that the wood felt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirUncertainty {
    /// The standard uncertainty of the equilibrium of one reading, % moisture, independent from one to the next.
    pub each_percent: f64,
    /// The standard uncertainty that all readings share, % moisture.
    pub all_percent: f64,
}

impl AirUncertainty {
    pub const AS_LOGGED: Self = Self {
        each_percent: 0.0,
        all_percent: 0.0,
    };
    /// A dial that is read to the nearest percent and wanders by another one, 0.6 % of humidity, and that may be off
    /// by 3 % either way, 1.7 %: a percent of humidity is 0.17 % of moisture at a room's air (common practice, no
    /// source).
    pub const OF_A_DIAL: Self = Self {
        each_percent: 0.1,
        all_percent: 0.3,
    };
}

/// The standard uncertainties that come of the air alone.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct OfAir {
    /// Of the time constant, days.
    pub(super) tau: f64,
    /// Of the water left, g.
    pub(super) left: f64,
    /// The same in % of the dry mass.
    pub(super) left_percent: f64,
    pub(super) settles: f64,
    /// Of the days until it is near, days.
    pub(super) days: f64,
}

impl OfAir {
    /// What an error of 1 % in some knots does to each figure: `taken` is what the moisture that it makes up comes to,
    /// `at_last` the error at the last weighing.
    fn of_one(slopes: &Slopes, taken: TakenUp, at_last: f64) -> Self {
        let gram = slopes.dry / 100.0;
        let left = gram * (taken.last - at_last - taken.left);
        let dry = -gram * taken.of_dry;
        let left_percent = 100.0 * left / slopes.dry - slopes.left_percent * dry / slopes.dry;
        let tau = -gram * taken.tau;
        let far = slopes.left_percent.abs() / NEAR_ENOUGH;
        let days = match far > 1.0 {
            true => {
                libm::log(far) * tau + slopes.time_constant * left_percent / slopes.left_percent
            }
            false => 0.0,
        };
        Self {
            tau,
            left,
            left_percent,
            settles: gram * (at_last - taken.settles),
            days,
        }
    }

    fn with(self, other: Self, by: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            tau: by(self.tau, other.tau),
            left: by(self.left, other.left),
            left_percent: by(self.left_percent, other.left_percent),
            settles: by(self.settles, other.settles),
            days: by(self.days, other.days),
        }
    }
}

/// What a moisture at each weighing comes to: at the last of them, and with the answer of each figure for weights.
#[derive(Debug, Clone, Copy)]
struct TakenUp {
    last: f64,
    left: f64,
    settles: f64,
    tau: f64,
    of_dry: f64,
}

/// How the fit answers to what is weighed, at its best.
struct Slopes {
    time_constant: f64,
    dry: f64,
    left_percent: f64,
    /// Of each figure, by each gram of each weighing.
    left: Vec<f64>,
    settles: Vec<f64>,
    tau: Vec<f64>,
    of_dry: Vec<f64>,
}

impl Slopes {
    fn of(curve: &Curve, tau: f64, held: &FitAtRate, free: bool) -> Self {
        let [dry, water] = held.factors;
        let model = |tau: f64| -> (Vec<Vec<f64>>, Vec<f64>, f64) {
            let columns = curve.columns(tau);
            let masses = columns[0].iter().zip(&columns[1]);
            let masses = masses.map(|(d, w)| dry * d + water * w).collect();
            let left = held.combined(curve.left_weights(&columns));
            (columns, masses, left)
        };
        let (mut columns, _, left) = model(tau);
        let mut of_left = curve.left_weights(&columns).to_vec();
        let mut of_settled = curve.settled_weights().to_vec();
        let (mut of_tau, mut of_dry) = (vec![0.0, 0.0], vec![1.0, 0.0]);
        if free {
            let step = 1e-4 * tau;
            let (above, below) = (model(tau + step), model(tau - step));
            let slope = |a: f64, b: f64| (a - b) / (2.0 * step);
            let both = above.1.iter().zip(&below.1);
            columns.push(both.map(|(a, b)| slope(*a, *b)).collect());
            of_left.push(slope(above.2, below.2));
            of_settled.push(0.0);
            of_tau.push(1.0);
            of_dry.push(0.0);
        }
        Self {
            time_constant: tau,
            dry,
            left_percent: 100.0 * left / dry,
            left: answer_to_masses(&columns, &of_left),
            settles: answer_to_masses(&columns, &of_settled),
            tau: answer_to_masses(&columns, &of_tau),
            of_dry: answer_to_masses(&columns, &of_dry),
        }
    }
}

/// What the errors of the air do to the figures, by the fit's own slopes at its best. `free` tells whether the time
/// constant was found inside its range.
pub(super) fn of_air(
    curve: &Curve,
    tau: f64,
    held: &FitAtRate,
    free: bool,
    air: AirUncertainty,
) -> OfAir {
    let none = OfAir::default();
    if air.each_percent <= 0.0 && air.all_percent <= 0.0 {
        return none;
    }
    let slopes = Slopes::of(curve, tau, held, free);
    let mut at_last = vec![0.0; curve.days.len()];
    if let Some(last) = at_last.last_mut() {
        *last = 1.0;
    }
    let weights = [
        &at_last,
        &slopes.left,
        &slopes.settles,
        &slopes.tau,
        &slopes.of_dry,
    ];
    let answers = weights.map(|weights| curve.answer_to_air(tau, weights));
    let taken = |of: &dyn Fn(&[f64]) -> f64| {
        let [last, left, settles, tau, of_dry] = [0, 1, 2, 3, 4].map(|at| of(&answers[at]));
        TakenUp {
            last,
            left,
            settles,
            tau,
            of_dry,
        }
    };
    let last = curve.knots.len().saturating_sub(1);
    let mut squares = none;
    if air.each_percent > 0.0 {
        for knot in 0..=last {
            let alone = taken(&|answer| answer.get(knot).copied().unwrap_or_default());
            let at_last = if knot == last { 1.0 } else { 0.0 };
            let one = OfAir::of_one(&slopes, alone, at_last);
            squares = squares.with(one, |sum, one| sum + one * one);
        }
    }
    let all = OfAir::of_one(&slopes, taken(&|answer| answer.iter().sum()), 1.0);
    squares.with(all, |each, all| {
        libm::hypot(air.each_percent * each.sqrt(), air.all_percent * all)
    })
}

/// By how much a figure with these slopes over the fitted numbers moves for each gram of each weighing: least squares
/// turned round, J (JᵀJ)⁻¹ a. Nothing where the fitted numbers can't be told apart.
fn answer_to_masses(columns: &[Vec<f64>], figure: &[f64]) -> Vec<f64> {
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let size = columns.len();
    let mut rows: Vec<Vec<f64>> = columns
        .iter()
        .zip(figure)
        .map(|(one, wanted)| {
            let mut row: Vec<f64> = columns.iter().map(|other| dot(one, other)).collect();
            row.push(*wanted);
            row
        })
        .collect();
    // The products are symmetric and positive: no rows need to change places.
    for at in 0..size {
        let pivot = rows[at].clone();
        if pivot[at].is_nan() || pivot[at] <= 0.0 {
            return Vec::new();
        }
        for (other, row) in rows.iter_mut().enumerate() {
            if other != at {
                let times = row[at] / pivot[at];
                for (value, taken) in row.iter_mut().zip(&pivot) {
                    *value -= times * taken;
                }
            }
        }
    }
    let count = columns.first().map_or(0, Vec::len);
    let mut answer = vec![0.0; count];
    for (at, column) in columns.iter().enumerate() {
        let by = rows[at][size] / rows[at][at];
        for (sum, value) in answer.iter_mut().zip(column) {
            *sum += by * value;
        }
    }
    answer
}
