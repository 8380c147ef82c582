//! How well a custom explains a bill, for how much it assumes: an information criterion.
//!
//! The extended Bayesian information criterion (Chen and Chen 2008, from memory), with the uncertainty of
//! each figure known: the squared gaps in standard uncertainties added up, ln n for every custom assumed,
//! and twice the logarithm of how many sets of as many customs were tried. Among hundreds of pairs one
//! fits nearly anything; the last term is what that costs.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

/// Criteria nearer than this are not told apart: "not worth more than a bare mention" on the scale of Kass
/// and Raftery 1995, from memory.
pub(super) const NO_DIFFERENCE: f64 = 2.0;

/// How far our own footage of one plank may be off, as a share of it: a tape on three sides. Common
/// practice, no source.
const OF_FOOTAGE: f64 = 0.005;

/// The standard uncertainty of our footage of one plank.
pub(super) fn of_one(footage: &Decimal) -> f64 {
    OF_FOOTAGE * footage.to_f64().unwrap_or(f64::MAX)
}

/// The standard uncertainty of our footage of several planks together.
pub(super) fn of_a_sum(each: &[Decimal]) -> f64 {
    each.iter()
        .map(|one| of_one(one) * of_one(one))
        .sum::<f64>()
        .sqrt()
}

/// The criterion, from the gaps in standard uncertainties, the number of customs assumed, and how many sets
/// of as many customs were tried. Less is better.
///
/// No published value: a sum of squares and two logarithms.
pub(super) fn criterion(gaps: &[f64], customs: usize, tried: usize) -> f64 {
    let fit: f64 = gaps.iter().map(|gap| gap * gap).sum();
    let count = gaps.len().max(1) as f64;
    fit + customs as f64 * libm::log(count) + 2.0 * libm::log(tried.max(1) as f64)
}
