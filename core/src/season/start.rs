//! How many to start, so that with a stated confidence at least so many come through.
//!
//! The simple form: each piece is taken to come through or not by itself, all with the same share. Pieces
//! of one plank fail together more often than that: then more are needed than is said here, and
//! [`planks_to_start`](super::planks_to_start) says how many.

use super::survival_error::SurvivalError;
use thiserror::Error;

/// The most pieces that are reckoned with.
const MOST: u32 = 100_000;

/// Why no number can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum StartError {
    /// A share outside 0 to 1, or of nothing.
    #[error("a share of {0} coming through: it has to be over 0 and at most 1")]
    Share(f64),
    /// A confidence outside 0 to 1, or certainty.
    #[error("a confidence of {0}: it has to be over 0 and under 1")]
    Confidence(f64),
    /// A likeness outside 0 to 1, or of all or none.
    #[error("a family effect of {0}: it has to be at least 0 and under 1")]
    IntraclassCorrelation(f64),
    /// Planks or blanks of no parts.
    #[error("a plank or a blank of no parts: it has to have at least one")]
    NoParts,
    /// Counts that can't be.
    #[error(transparent)]
    Counts(#[from] SurvivalError),
    /// So few come through that no sensible number of planks is enough.
    #[error("even {0} planks are not enough for that confidence")]
    TooManyPlanks(u32),
    /// More than can be reckoned.
    #[error("more than {MOST} pieces: that is beyond what is reckoned here")]
    TooMany,
}

fn share(value: f64) -> Result<f64, StartError> {
    if value > 0.0 && value <= 1.0 {
        Ok(value)
    } else {
        Err(StartError::Share(value))
    }
}

/// ln of the chance that the n-th piece started is the one that makes `wanted` come through:
/// C(n-1, N-1) p^N (1-p)^(n-N).
fn ln_chance_that_last_completes(wanted: u32, started: u32, p: f64) -> f64 {
    let (n, k) = (f64::from(started), f64::from(wanted));
    let ways = libm::lgamma(n) - libm::lgamma(k) - libm::lgamma(n - k + 1.0);
    let failed = n - k;
    // 0 ln 0 is 0 here: no piece fails where none can.
    let failing = if failed > 0.0 {
        failed * libm::log1p(-p)
    } else {
        0.0
    };
    ways + k * libm::log(p) + failing
}

/// The least number started for which the summed chance satisfies `enough`; the chance with it.
fn started_until(
    wanted: u32,
    p: f64,
    enough: impl Fn(u32, f64) -> bool,
) -> Result<(u32, f64), StartError> {
    let mut chance = 0.0;
    for started in wanted..=MOST {
        chance += libm::exp(ln_chance_that_last_completes(wanted, started, p));
        if enough(started, chance) {
            return Ok((started, chance.min(1.0)));
        }
    }
    Err(StartError::TooMany)
}

/// The chance that at least N of n pieces come through: P(X >= N), X binomial (n, p).
///
/// N is wanted, n started, p the share that comes through, over 0 and up to 1; n up to 100000, an error
/// beyond. Summed as the chance that the N-th success falls on the N-th to the n-th piece, which is the
/// same (the negative binomial). Textbook probability, no source read.
///
/// No published value: its rows are those of [`how_many_to_start`]; held against a library
/// of statistics.
///
/// ```
/// use stillwood_core::season::chance_of_at_least;
/// assert!((chance_of_at_least(1, 2, 0.5).unwrap() - 0.75).abs() < 1e-12);
/// ```
pub fn chance_of_at_least(wanted: u32, started: u32, p: f64) -> Result<f64, StartError> {
    let p = share(p)?;
    if wanted == 0 {
        return Ok(1.0);
    }
    if started < wanted {
        return Ok(0.0);
    }
    started_until(wanted, p, |n, _| n >= started).map(|(_, chance)| chance)
}

/// How many to start, so that with confidence C at least N come through: the least n with
/// P(X >= N) >= C, X binomial (n, p).
///
/// N is wanted, p the share that comes through, over 0 and up to 1; C over 0 and under 1; n up to
/// 100000, an error beyond. Nothing wanted needs nothing started. Textbook probability, no source read.
///
/// ```
/// use stillwood_core::season::how_many_to_start;
/// assert_eq!(how_many_to_start(10, 0.8, 0.90), Ok(15));
/// ```
pub fn how_many_to_start(wanted: u32, p: f64, confidence: f64) -> Result<u32, StartError> {
    let p = share(p)?;
    if !(confidence > 0.0 && confidence < 1.0) {
        return Err(StartError::Confidence(confidence));
    }
    if wanted == 0 {
        return Ok(0);
    }
    // A hair under the confidence counts, or the last digit of a sum would decide about a piece of wood.
    started_until(wanted, p, |_, chance| chance >= confidence - 1e-12).map(|(n, _)| n)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_confidence_that_is_just_reached_is_reached() {
        assert_eq!(how_many_to_start(1, 0.5, 0.5), Ok(1));
        assert_eq!(how_many_to_start(2, 0.5, 0.25), Ok(2));
        assert_eq!(how_many_to_start(1, 0.5, 0.75), Ok(2));
    }

    #[test]
    fn starting_numbers_for_90_percent() {
        for (wanted, p, n) in [
            (1, 0.5, 4),
            (5, 0.8, 8),
            (10, 0.9, 13),
            (10, 0.8, 15),
            (10, 0.7, 18),
            (10, 0.5, 26),
            (20, 0.9, 24),
            (20, 0.8, 28),
            (20, 0.7, 33),
            (50, 0.8, 68),
        ] {
            assert_eq!(how_many_to_start(wanted, p, 0.9), Ok(n), "{wanted} at {p}");
        }
    }

    #[test]
    fn the_ends_of_the_range() {
        assert_eq!(how_many_to_start(0, 0.5, 0.9), Ok(0));
        assert_eq!(how_many_to_start(7, 1.0, 0.999), Ok(7));
        for bad in [0.0, -0.1, 1.1, f64::NAN] {
            assert!(matches!(
                how_many_to_start(1, bad, 0.9),
                Err(StartError::Share(_))
            ));
        }
        for bad in [0.0, 1.0, f64::NAN] {
            assert!(matches!(
                how_many_to_start(1, 0.5, bad),
                Err(StartError::Confidence(_))
            ));
        }
        assert_eq!(
            how_many_to_start(1000, 0.001, 0.9),
            Err(StartError::TooMany)
        );
        assert_eq!(
            how_many_to_start(u32::MAX, 0.9, 0.9),
            Err(StartError::TooMany)
        );
        assert_eq!(chance_of_at_least(3, 2, 0.5), Ok(0.0));
    }

    #[test]
    fn large_numbers_neither_vanish_nor_burst() {
        // 0.1^1000 is below the smallest number there is; the answer stands near 10000 + 1.28 sd.
        let n = how_many_to_start(1000, 0.1, 0.9).unwrap();
        assert!((10_350..10_450).contains(&n), "{n}");
    }

    proptest! {
        // Against the plain binomial sum.
        #[test]
        fn agrees_with_the_plain_sum(n in 1u32..30, wanted in 1u32..30, p in 0.05..0.95f64) {
            let mut plain = 0.0;
            for k in wanted..=n {
                let ways = (0..k).fold(1.0, |w, i| w * f64::from(n - i) / f64::from(i + 1));
                plain += ways * libm::pow(p, f64::from(k)) * libm::pow(1.0 - p, f64::from(n - k));
            }
            let found = chance_of_at_least(wanted, n, p).unwrap();
            prop_assert!((found - plain).abs() < 1e-10, "{found} {plain}");
        }

        #[test]
        fn one_fewer_is_not_enough(wanted in 1u32..60, p in 0.2..0.99f64, c in 0.5..0.99f64) {
            let n = how_many_to_start(wanted, p, c).unwrap();
            prop_assert!(chance_of_at_least(wanted, n, p).unwrap() >= c - 1e-9);
            prop_assert!(chance_of_at_least(wanted, n - 1, p).unwrap() < c);
        }
    }
}
