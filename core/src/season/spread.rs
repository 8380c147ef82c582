//! How far a share may be off: the beta distribution, and the factors of 95 % intervals.
//!
//! It holds distributions only, and knows nothing of wood. The incomplete beta function is a continued
//! fraction, which takes few terms also for counts of tens of thousands; what turns it round never leaves an
//! interval that grows smaller, and so can't fail to end.

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
            // Beneath its turning point the fraction needs few terms; above it the other tail's is taken.
            let turned = x > (self.a + 1.0) / (self.a + self.b + 2.0);
            let power = self.a * libm::log(x) + self.b * libm::log1p(-x) - self.ln_beta;
            let power = libm::exp(power);
            match turned {
                true => 1.0 - power / (self.b * beta_fraction(self.b, self.a, 1.0 - x)),
                false => power / (self.a * beta_fraction(self.a, self.b, x)),
            }
        }
    }

    fn density(self, x: f64) -> f64 {
        let power = (self.a - 1.0) * libm::log(x) + (self.b - 1.0) * libm::log1p(-x);
        libm::exp(power - self.ln_beta)
    }

    /// The share below which it lies with chance p: [`below`](Self::below) turned round by Newton's steps, and
    /// by halving where those are no help. 0 for p at or under 0, 1 for p at or over 1.
    pub fn quantile(self, p: f64) -> f64 {
        if p <= 0.0 || p.is_nan() {
            return 0.0;
        }
        if p >= 1.0 {
            return 1.0;
        }
        let (mut low, mut high) = (0.0, 1.0);
        let (mut x, mut step) = (self.mean(), 1.0);
        loop {
            let over = self.below(x) - p;
            if over < 0.0 {
                low = x;
            } else {
                high = x;
            }
            let middle: f64 = 0.5 * (low + high);
            if middle <= low || middle >= high {
                return middle;
            }
            let newton = x - over / self.density(x);
            let helps = newton > low && newton < high && (newton - x).abs() < 0.5 * step;
            let next = if helps { newton } else { middle };
            step = (next - x).abs();
            if step <= f64::EPSILON * x {
                return next;
            }
            x = next;
        }
    }
}

/// Far more terms than the fraction takes for any a and b that [`BetaSpread::new`] lets pass.
const MOST_TERMS: u32 = 100_000;

/// The continued fraction 1 + d₁/(1 + d₂/(1 + ...)) of the incomplete beta function, worked out from the front
/// (Lentz): I_x(a, b) = x^a (1-x)^b / (a B(a, b)) over it. DLMF 8.17.22, from memory.
fn beta_fraction(a: f64, b: f64, x: f64) -> f64 {
    let (mut value, mut front, mut back) = (1.0, 1.0, 0.0);
    for n in 1..=MOST_TERMS {
        let m = f64::from(n / 2);
        let d = match n % 2 {
            0 => m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m)),
            _ => -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0)),
        };
        back = 1.0 / (1.0 + d * back);
        front = 1.0 + d / front;
        value *= front * back;
        if (front * back - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    value
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

    /// I_x(a, b) of whole a and b is the chance of at least a of a + b - 1 even bets and uneven ones: the binomial
    /// sum (textbook identity, no source read), here of counts that only a long record has.
    #[test]
    fn large_counts_are_a_binomial_sum() {
        for (a, b, x) in [
            (2000u32, 1u32, 0.9997),
            (300, 4700, 0.062),
            (9000, 11_000, 0.45),
        ] {
            let n = a + b - 1;
            let ln_factorial = |k: u32| libm::lgamma(f64::from(k) + 1.0);
            let sum: f64 = (a..=n)
                .map(|k| {
                    let ways = ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k);
                    let powers = f64::from(k) * libm::log(x) + f64::from(n - k) * libm::log1p(-x);
                    libm::exp(ways + powers)
                })
                .sum();
            let spread = BetaSpread::new(f64::from(a), f64::from(b)).unwrap();
            assert!((spread.below(x) - sum).abs() < 1e-9, "{a} {b}");
            assert!((spread.quantile(spread.below(x)) - x).abs() < 1e-9);
        }
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
