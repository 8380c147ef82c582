//! How far a share may be off: the beta distribution, and the factors of 95 % intervals.
//!
//! It holds distributions only, and knows nothing of wood. The incomplete beta function is that of the
//! `special` crate, which stands on `libm`; what turns it round is halving, which can't fail to end.

use special::Beta;

/// The factor of a two-sided 95 % interval of the normal distribution.
pub const NORMAL_95: f64 = 1.959_963_984_540_054;

/// A share that is known only so far: a beta distribution over 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BetaSpread {
    a: f64,
    b: f64,
    ln_beta: f64,
}

impl BetaSpread {
    /// With the density x^(a-1) (1-x)^(b-1) / B(a, b); `None` unless both are over 0 and under 1e7.
    pub fn new(a: f64, b: f64) -> Option<Self> {
        let usable = |x: f64| x > 0.0 && x < 1e7;
        (usable(a) && usable(b)).then(|| Self {
            a,
            b,
            ln_beta: libm::lgamma(a) + libm::lgamma(b) - libm::lgamma(a + b),
        })
    }

    /// The mean, a/(a + b).
    pub fn mean(self) -> f64 {
        self.a / (self.a + self.b)
    }

    /// The chance that the share lies below x: the regularised incomplete beta function I_x(a, b). 0 for
    /// x at or under 0, 1 for x at or over 1.
    pub fn below(self, x: f64) -> f64 {
        if x <= 0.0 || x.is_nan() {
            0.0
        } else if x >= 1.0 {
            1.0
        } else {
            x.inc_beta(self.a, self.b, self.ln_beta)
        }
    }

    /// The share below which it lies with chance p: [`below`](Self::below) turned round by halving, to
    /// the last digit. 0 for p at or under 0, 1 for p at or over 1.
    pub fn quantile(self, p: f64) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        if p <= 0.0 || p.is_nan() {
            return 0.0;
        }
        if p >= 1.0 {
            return 1.0;
        }
        loop {
            let middle = 0.5 * (low + high);
            if middle <= low || middle >= high {
                return middle;
            }
            if self.below(middle) < p {
                low = middle;
            } else {
                high = middle;
            }
        }
    }
}

/// Student's factor of a two-sided 95 % interval, for so many degrees of freedom; `None` for none.
///
/// t = sqrt(n (1 - x)/x), x the 5 % quantile of the beta distribution of n/2 and 1/2. Textbook
/// identity, from memory; the values are held against printed tables (read).
pub fn student_factor(degrees: u32) -> Option<f64> {
    let n = f64::from(degrees);
    let x = BetaSpread::new(n / 2.0, 0.5)?.quantile(0.05);
    Some((n * (1.0 - x) / x).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_ends_of_the_range() {
        assert_eq!(BetaSpread::new(0.0, 1.0), None);
        assert_eq!(BetaSpread::new(1.0, f64::NAN), None);
        assert_eq!(student_factor(0), None);
        let even = BetaSpread::new(1.0, 1.0).unwrap();
        assert_eq!((even.below(-1.0), even.below(2.0)), (0.0, 1.0));
        assert_eq!((even.quantile(0.0), even.quantile(1.0)), (0.0, 1.0));
        assert_eq!(even.quantile(f64::NAN), 0.0);
        assert_eq!(BetaSpread::new(2.0, 6.0).unwrap().mean(), 0.25);
    }

    proptest! {
        #[test]
        fn there_and_back(a in 0.5..400.0f64, b in 0.5..400.0f64, p in 0.001..0.999f64) {
            let spread = BetaSpread::new(a, b).unwrap();
            let back = spread.below(spread.quantile(p));
            prop_assert!((back - p).abs() < 1e-9, "{back} {p}");
        }

        // I_x(a, b) = 1 - I_(1-x)(b, a), and I_x(a, 1) = x^a.
        #[test]
        fn the_known_identities(a in 0.5..50.0f64, b in 0.5..50.0f64, x in 0.01..0.99f64) {
            let one = BetaSpread::new(a, b).unwrap().below(x);
            let other = BetaSpread::new(b, a).unwrap().below(1.0 - x);
            prop_assert!((one + other - 1.0).abs() < 1e-11);
            let power = BetaSpread::new(a, 1.0).unwrap().below(x);
            prop_assert!((power - libm::pow(x, a)).abs() < 1e-11);
        }
    }
}
