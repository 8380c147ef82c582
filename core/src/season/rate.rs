//! Least squares of a curve with one rate: everything else in it is found straight away once the rate is
//! set, so only the rate is searched for.
//!
//! It fits numbers to numbers, and knows neither wood nor what the rate is of. The rate is looked for
//! between given ends and nowhere else; a fit whose best lies at an end says so.

/// The best fit with the rate held: y = b1 c1 + b2 c2, or y = b1 c1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FitAtRate {
    /// What each column is multiplied by; the second is 0 where there is one column.
    pub factors: [f64; 2],
    /// The sum of the squares of what is left over.
    pub squares: f64,
    /// The inverse of the columns' products: times the variance of y, it is that of the factors.
    inverse: [[f64; 2]; 2],
}

impl FitAtRate {
    /// The value of a sum of the factors with given weights.
    pub fn combined(&self, weights: [f64; 2]) -> f64 {
        weights[0] * self.factors[0] + weights[1] * self.factors[1]
    }

    /// The variance of such a sum for y of variance 1.
    pub fn variance_of(&self, w: [f64; 2]) -> f64 {
        w[0] * w[0] * self.inverse[0][0]
            + 2.0 * w[0] * w[1] * self.inverse[0][1]
            + w[1] * w[1] * self.inverse[1][1]
    }
}

/// The best fit over all rates between the ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RateFit {
    pub rate: f64,
    /// The rest of the fit at that rate.
    pub held: FitAtRate,
    /// Whether the best rate lies at an end of what was searched.
    pub at_end: bool,
}

fn product(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Least squares of y on one or two columns, by making the second square to the first.
///
/// `None` for no column or more than two, for columns of another length than y, and where the columns
/// can't be told apart. Linear least squares, from memory.
///
/// No published value: the linear part of `fit_rate`, which has rows.
pub fn fit_held(y: &[f64], columns: &[Vec<f64>]) -> Option<FitAtRate> {
    let first = columns.first()?;
    if columns.len() > 2 || columns.iter().any(|c| c.len() != y.len()) {
        return None;
    }
    let n11 = product(first, first);
    if !(n11 > 0.0 && n11.is_finite()) {
        return None;
    }
    let alone = product(first, y) / n11;
    let fit = match columns.get(1) {
        None => ([alone, 0.0], [[1.0 / n11, 0.0], [0.0, 0.0]]),
        Some(second) => {
            let along = product(first, second) / n11;
            let square = || second.iter().zip(first).map(|(s, f)| s - along * f);
            let n22: f64 = square().map(|s| s * s).sum();
            // Under this, rounding would decide.
            if n22.is_nan() || n22 <= 1e-24 * product(second, second) {
                return None;
            }
            let left = y.iter().zip(first).map(|(y, f)| y - alone * f);
            let b2 = square().zip(left).map(|(s, l)| s * l).sum::<f64>() / n22;
            let inverse = [
                [1.0 / n11 + along * along / n22, -along / n22],
                [-along / n22, 1.0 / n22],
            ];
            ([alone - along * b2, b2], inverse)
        }
    };
    let (factors, inverse) = fit;
    let mut squares = 0.0;
    for (at, y) in y.iter().enumerate() {
        let fitted: f64 = columns.iter().zip(factors).map(|(c, b)| c[at] * b).sum();
        squares += (y - fitted) * (y - fitted);
    }
    squares.is_finite().then_some(FitAtRate {
        factors,
        squares,
        inverse,
    })
}

/// How finely the rates are first looked through.
const STEPS: u32 = 160;

/// Rates from end to end, each the same multiple of the one before.
pub(super) fn rates_between(from: f64, to: f64) -> Vec<f64> {
    let ratio = libm::log(to / from);
    (0..=STEPS)
        .map(|at| from * libm::exp(ratio * f64::from(at) / f64::from(STEPS)))
        .collect()
}

/// The rate between two ends, both over 0, for which the columns that go with it fit y best.
///
/// `columns` gives, for a rate, one column or two. First every one of 161 rates spread evenly by ratio is
/// tried, then the best is narrowed down by golden section. `None` where the ends are not in order, or
/// no rate gives columns that can be fitted. Separable least squares (variable projection) with one
/// rate; textbook, from memory.
pub fn fit_rate(
    y: &[f64],
    columns: &dyn Fn(f64) -> Vec<Vec<f64>>,
    from: f64,
    to: f64,
) -> Option<RateFit> {
    if !(from > 0.0 && from < to && to.is_finite()) {
        return None;
    }
    let squares = |rate: f64| fit_held(y, &columns(rate)).map_or(f64::INFINITY, |fit| fit.squares);
    let rates = rates_between(from, to);
    let mut best = 0;
    let mut least = f64::INFINITY;
    for (at, rate) in rates.iter().enumerate() {
        let found = squares(*rate);
        if found < least {
            (best, least) = (at, found);
        }
    }
    let low = rates[best.saturating_sub(1)];
    let high = *rates.get(best + 1).unwrap_or(&rates[best]);
    let narrowed = narrow(&squares, low, high, NARROWINGS);
    let rate = if squares(narrowed) <= least {
        narrowed
    } else {
        rates[best]
    };
    Some(RateFit {
        rate,
        held: fit_held(y, &columns(rate))?,
        at_end: rate / from < 1.0 + 1e-6 || to / rate < 1.0 + 1e-6,
    })
}

/// Steps of golden section that leave nothing of the bracket.
const NARROWINGS: u32 = 90;

/// Where a function with one valley between the ends is least, by so many steps of golden section.
pub(super) fn narrow(of: &dyn Fn(f64) -> f64, mut low: f64, mut high: f64, steps: u32) -> f64 {
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let mut inner = [high - golden * (high - low), low + golden * (high - low)];
    let mut found = [of(inner[0]), of(inner[1])];
    for _ in 0..steps {
        if found[0] <= found[1] {
            high = inner[1];
            (inner[1], found[1]) = (inner[0], found[0]);
            inner[0] = high - golden * (high - low);
            found[0] = of(inner[0]);
        } else {
            low = inner[0];
            (inner[0], found[0]) = (inner[1], found[1]);
            inner[1] = low + golden * (high - low);
            found[1] = of(inner[1]);
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_cannot_be_fitted_gives_nothing() {
        assert_eq!(fit_held(&[1.0, 2.0], &[]), None);
        assert_eq!(fit_held(&[1.0, 2.0], &[vec![1.0]]), None);
        assert_eq!(fit_held(&[1.0, 2.0], &[vec![0.0, 0.0]]), None);
        let alike = vec![1.0, 2.0];
        assert_eq!(fit_held(&[1.0, 2.0], &[alike.clone(), alike]), None);
        assert_eq!(fit_held(&[f64::NAN, 2.0], &[vec![1.0, 1.0]]), None);
        let column = |_| vec![vec![1.0, 1.0]];
        assert_eq!(fit_rate(&[1.0, 2.0], &column, 2.0, 1.0), None);
    }

    #[test]
    fn a_straight_line_with_its_variances() {
        // y = 1 + 2x through three points, exactly; variances of intercept and slope by hand: 5/6, 1/2.
        let fit = fit_held(&[1.0, 3.0, 5.0], &[vec![1.0; 3], vec![0.0, 1.0, 2.0]]).unwrap();
        assert!((fit.factors[0] - 1.0).abs() < 1e-12 && (fit.factors[1] - 2.0).abs() < 1e-12);
        assert!(fit.squares < 1e-20);
        assert!((fit.variance_of([1.0, 0.0]) - 5.0 / 6.0).abs() < 1e-12);
        assert!((fit.variance_of([0.0, 1.0]) - 0.5).abs() < 1e-12);
        assert!((fit.combined([1.0, 3.0]) - 7.0).abs() < 1e-12);
        // The line's height at 2 has the variance of the point there: 5/6 + 4/2 - 2·2/2.
        assert!((fit.variance_of([1.0, 2.0]) - 5.0 / 6.0).abs() < 1e-12);
    }

    #[test]
    fn the_variance_of_one_column_alone() {
        // (1, 2, 3): 1/14.
        let fit = fit_held(&[2.0, 4.0, 6.0], &[vec![1.0, 2.0, 3.0]]).unwrap();
        assert!((fit.factors[0] - 2.0).abs() < 1e-12 && fit.squares < 1e-20);
        for weights in [[1.0, 0.0], [1.0, 5.0]] {
            assert!((fit.variance_of(weights) - 1.0 / 14.0).abs() < 1e-12);
        }
    }

    #[test]
    fn variances_of_two_columns_that_lean_on_each_other() {
        // Columns (1, 2, 3) and (2, 1, 1): the inverse of [[14, 7], [7, 6]] is [[6, -7], [-7, 14]] / 35.
        let fit = fit_held(
            &[5.0, 4.0, 5.0],
            &[vec![1.0, 2.0, 3.0], vec![2.0, 1.0, 1.0]],
        )
        .unwrap();
        assert!((fit.factors[0] - 1.0).abs() < 1e-12 && (fit.factors[1] - 2.0).abs() < 1e-12);
        for (weights, variance) in [
            ([1.0, 0.0], 6.0 / 35.0),
            ([0.0, 1.0], 14.0 / 35.0),
            ([1.0, 1.0], 6.0 / 35.0),
            ([2.0, -1.0], 66.0 / 35.0),
        ] {
            assert!(
                (fit.variance_of(weights) - variance).abs() < 1e-12,
                "{weights:?}"
            );
        }
    }

    proptest! {
        #[test]
        fn an_exact_curve_gives_its_rate_back(
            rate in 0.02..0.5f64, height in 1.0..100.0f64, floor in 0.0..100.0f64,
        ) {
            let days: Vec<f64> = (0..8).map(|d| f64::from(d) * 3.0).collect();
            let fall = |r: f64| days.iter().map(|d| libm::exp(-r * d)).collect::<Vec<_>>();
            let y: Vec<f64> = fall(rate).iter().map(|e| floor + height * e).collect();
            let columns = |r: f64| vec![vec![1.0; 8], fall(r)];
            let fit = fit_rate(&y, &columns, 0.001, 5.0).unwrap();
            prop_assert!((fit.rate / rate - 1.0).abs() < 1e-5, "{} {rate}", fit.rate);
            prop_assert!(!fit.at_end);
        }
    }
}
