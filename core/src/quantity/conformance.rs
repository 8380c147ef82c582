//! Guarded decisions: is a value surely inside its limit, surely beyond it, or too close to call?
//!
//! After JCGM 106:2012 (guard bands, 8.3; conformance probability, 7.2); clause numbers from memory.

use super::formula;
use super::formula::functions::normal;

/// Guard factor for a one-sided 95 % decision: the 95 % point of the normal distribution.
pub const GUARD_FACTOR: f64 = 1.645;

/// Where a value stands against its limit, given its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Conformance {
    /// Inside, with at least 95 % confidence.
    Inside,
    /// Neither: a repeated or finer measurement may turn it.
    TooClose,
    /// Beyond, with at least 95 % confidence.
    Beyond,
}

impl Conformance {
    /// Where a value stands whose margin to its limit is `margin` (negative: beyond) with standard
    /// uncertainty `standard`, both in one unit.
    ///
    /// The guard band is `1.645 u` on both sides of the limit. A value without uncertainty is never too
    /// close: at the limit itself it is inside.
    pub fn of(margin: f64, standard: f64) -> Self {
        let guard = GUARD_FACTOR * standard;
        if margin >= guard && margin >= 0.0 {
            Conformance::Inside
        } else if margin < -guard {
            Conformance::Beyond
        } else {
            Conformance::TooClose
        }
    }
}

/// The probability that the true value lies inside the limit.
///
/// `Phi(margin / u)` for a normal distribution: JCGM 106:2012, 7.3.1 (from memory). Without
/// uncertainty it is 1 inside and at the limit, 0 beyond.
///
/// No published value: its rows are those of [`normal_cdf`] and `Form::conformance`.
pub fn conformance_probability(margin: f64, standard: f64) -> f64 {
    if standard <= 0.0 {
        return if margin >= 0.0 { 1.0 } else { 0.0 };
    }
    CONFORMANCE.of([margin, standard])
}

formula! {
    /// The probability that the true value lies inside the limit.
    pub(crate) CONFORMANCE: "Probability that it is inside", "p", "";
    margin: "margin", "from the value to the limit", given;
    u: "u", "standard uncertainty", given;
    = normal(margin / u);
    range "errors as a normal distribution";
    source "JCGM 106:2012, 7.3.1 (from memory)";
}

/// The standard normal distribution function.
pub fn normal_cdf(z: f64) -> f64 {
    normal(z)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_guard_band_lies_on_both_sides() {
        assert_eq!(Conformance::of(1.645, 1.0), Conformance::Inside);
        assert_eq!(Conformance::of(1.644, 1.0), Conformance::TooClose);
        assert_eq!(Conformance::of(0.0, 1.0), Conformance::TooClose);
        assert_eq!(Conformance::of(-1.645, 1.0), Conformance::TooClose);
        assert_eq!(Conformance::of(-1.646, 1.0), Conformance::Beyond);
    }

    #[test]
    fn a_count_has_no_guard_band() {
        assert_eq!(Conformance::of(0.0, 0.0), Conformance::Inside);
        assert_eq!(Conformance::of(-1.0, 0.0), Conformance::Beyond);
        assert_eq!(conformance_probability(0.0, 0.0), 1.0);
        assert_eq!(conformance_probability(-1.0, 0.0), 0.0);
    }

    #[test]
    fn inside_means_at_least_95_percent() {
        let sure = conformance_probability(GUARD_FACTOR * 0.3, 0.3);
        assert!((sure - 0.95).abs() < 1e-4, "{sure}");
        assert!((conformance_probability(0.0, 0.3) - 0.5).abs() < 1e-12);
    }
}
