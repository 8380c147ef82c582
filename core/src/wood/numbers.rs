//! The numbers that are known of a wood, as they stand in their sources: percent, kg/m³ and MPa, each
//! with its origin. Units are given to them in `species`, nowhere else.

use super::shrinkage::{
    ChangeCoefficient, Shrinkage, coefficient_from_shrinkage, shrinkage_from_coefficient,
};
use super::source::{Adjustment, NumberOrigin, Sourced};

/// A number as it stands in its source, in the unit of its column.
pub(super) type Given = Option<(f64, NumberOrigin)>;

/// How far densities at 12 % spread, kg/m³.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Spread {
    Range { low: f64, high: f64 },
    Deviation(f64),
}

/// What is known, number by number; percent, kg/m³ and MPa.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Numbers {
    pub(super) basic_gravity: Given,
    pub(super) gravity_at_12: Given,
    pub(super) density_at_12: Given,
    pub(super) spread: Option<(Spread, NumberOrigin)>,
    pub(super) radial: Given,
    pub(super) tangential: Given,
    pub(super) volumetric: Given,
    pub(super) radial_coefficient: Given,
    pub(super) tangential_coefficient: Given,
    pub(super) stiffness_mpa: Given,
}

/// As it stands, with its source.
pub(super) fn as_given(number: Given) -> Option<Sourced<f64>> {
    number.map(|(value, origin)| Sourced::given(value, origin))
}

/// The total shrinkage, else that which belongs to the coefficient.
pub(super) fn total(total: Given, coefficient: Given) -> Option<Sourced<Shrinkage>> {
    if let Some((percent, origin)) = total {
        return Some(Sourced::given(Shrinkage::percent(percent), origin));
    }
    let given = as_given(coefficient)?;
    let found = shrinkage_from_coefficient(ChangeCoefficient::per_percent(given.value)).ok()?;
    Some(given.derived(found, Adjustment::FromCoefficient))
}

/// The coefficient, else that which belongs to the total shrinkage.
pub(super) fn coefficient(coefficient: Given, total: Given) -> Option<Sourced<ChangeCoefficient>> {
    if let Some((share, origin)) = coefficient {
        return Some(Sourced::given(
            ChangeCoefficient::per_percent(share),
            origin,
        ));
    }
    let given = as_given(total)?;
    let found = coefficient_from_shrinkage(Shrinkage::percent(given.value)).ok()?;
    Some(given.derived(found, Adjustment::FromTotalShrinkage))
}
