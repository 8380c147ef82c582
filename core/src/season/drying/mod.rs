//! Is it still drying: a series of weighings against the air that the piece lay in.
//!
//! A weight alone can't tell: it follows the air as well as the drying. Here the piece follows the
//! equilibrium of its air with a lag, and what is left is how far it still is from that equilibrium. It
//! never takes the air's ups and downs for drying, nor says what the scale can't see.

mod air;
mod curve;
mod fit;
mod told;

pub use air::{AirReading, AirUncertainty};
pub use fit::{Bounded, DryingFit, fit_drying, fit_drying_in_air};
pub use told::{DriedTo, drying_told};

use crate::quantity::{Mass, Moisture, Pen, Silent, formula, in_kg, is_positive, kg};
use thiserror::Error;

/// One weighing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighing {
    /// Days since any fixed day.
    pub day: f64,
    /// What the piece weighed.
    pub mass: Mass,
    /// The equilibrium moisture content of the air that it lay in by then.
    pub air: Moisture,
}

/// Why nothing can be said of a series of weighings.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum DryingError {
    /// No weight, or none that is a number.
    #[error("a weight of {:.3} kg: it has to be more than nothing", in_kg(*.0))]
    Mass(Mass),
    /// No step of a scale.
    #[error("a scale that is good to {:.4} kg: it has to be more than nothing", in_kg(*.0))]
    Scale(Mass),
    /// A day that is not after the one before.
    #[error("the weighing of day {0} does not come after the one before it")]
    Order(f64),
    /// An equilibrium that no air keeps wood at.
    #[error("air that keeps wood at {percent} %: between 0 and 30 % was expected")]
    Air {
        /// As given, %.
        percent: f64,
    },
    /// Nothing was weighed.
    #[error("nothing was weighed yet")]
    Nothing,
    /// No curve could be laid through the weighings.
    #[error("no curve can be laid through {0} weighings")]
    NoFit(usize),
}

/// What the weighings say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drying {
    /// More than half a percent above the room's equilibrium, beyond doubt.
    StillDrying,
    /// Within half a percent of the room's equilibrium, beyond doubt.
    Steady,
    /// More than half a percent below the room's equilibrium, beyond doubt.
    TakingUpWater,
    /// The scale can't see 1 % of moisture in this piece.
    ScaleTooCoarse,
    /// Fewer weighings than a curve needs.
    TooFew,
    /// The weighings leave it open.
    TooCloseToCall,
}

impl Drying {
    /// In the maker's words.
    pub fn words(self) -> &'static str {
        match self {
            Drying::StillDrying => "still drying",
            Drying::Steady => "steady",
            Drying::TakingUpWater => "taking up water",
            Drying::ScaleTooCoarse => "the scale cannot see 1 % in this piece",
            Drying::TooFew => "too few weighings",
            Drying::TooCloseToCall => "too close to call",
        }
    }
}

impl DryingReport {
    /// In the maker's words.
    pub fn in_words(&self) -> String {
        let word = self.drying.words();
        match self.gained_as_air {
            true => {
                format!("{word}; what it gained last is no more than the damper air accounts for")
            }
            false => word.to_owned(),
        }
    }
}

/// What the weighings say, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingReport {
    /// In a word.
    pub drying: Drying,
    /// Heavier than last time, by no more than the damper air between the two accounts for. It tells nothing of
    /// how far the piece is from its equilibrium.
    pub gained_as_air: bool,
    /// What 1 % of moisture weighs in this piece.
    pub one_percent: Mass,
    /// The curve through the weighings; `None` for fewer than four.
    pub fit: Option<DryingFit>,
}

/// How near to the room's equilibrium counts as there, % moisture (common practice, no source).
pub const NEAR_ENOUGH: f64 = 0.5;
/// Three numbers are fitted, and one weighing more tells how well.
pub(super) const FEWEST: usize = 4;

/// Whether a piece is still drying, from its weighings in order of days.
///
/// `scale` is how far a reading may be off either way. First what one scale can see, then the curve of
/// [`fit_drying`]: its 95 % interval of what is left has to lie wholly on one side of half a percent for a plain
/// word. An error for weights, days or air that make
/// no sense.
///
/// ```
/// use stillwood_core::{quantity::{Moisture, kg}, season::{Drying, Weighing, drying}};
/// let air = Moisture::percent(8.5);
/// let series = [(0.0, 3.264), (30.0, 3.231), (60.0, 3.213), (91.0, 3.204), (121.0, 3.199)]
///     .map(|(day, mass)| Weighing { day, mass: kg(mass), air });
/// let report = drying(&series, kg(0.0005)).unwrap();
/// assert_eq!(report.drying, Drying::Steady);
/// assert!((report.fit.unwrap().time_constant.value - 47.0).abs() < 0.5);
/// ```
pub fn drying(weighings: &[Weighing], scale: Mass) -> Result<DryingReport, DryingError> {
    drying_in_air(weighings, &[], AirUncertainty::AS_LOGGED, scale)
}

/// [`drying`] with what was read of the air between the weighings and how far off it may be, see
/// [`fit_drying_in_air`].
///
/// No published value: the words of `drying`, which has an example.
pub fn drying_in_air(
    weighings: &[Weighing],
    between: &[AirReading],
    air: AirUncertainty,
    scale: Mass,
) -> Result<DryingReport, DryingError> {
    check(weighings, scale)?;
    let last = weighings.last().ok_or(DryingError::Nothing)?;
    let one_percent = one_percent_of(last.mass, last.air)?;
    let fit = if weighings.len() < FEWEST {
        None
    } else {
        Some(fit_drying_in_air(weighings, between, air, scale)?)
    };
    let word = if smallest_change_seen(scale)? > one_percent {
        Drying::ScaleTooCoarse
    } else {
        fit.map_or(Drying::TooFew, |fit| word_of(&fit))
    };
    Ok(DryingReport {
        drying: word,
        gained_as_air: gained_as_air(weighings, scale)?,
        one_percent,
        fit,
    })
}

fn word_of(fit: &DryingFit) -> Drying {
    let low = fit.left.low.in_percent();
    let high = fit.left.high.in_percent();
    if low > NEAR_ENOUGH {
        Drying::StillDrying
    } else if high < -NEAR_ENOUGH {
        Drying::TakingUpWater
    } else if low >= -NEAR_ENOUGH && high <= NEAR_ENOUGH {
        Drying::Steady
    } else {
        Drying::TooCloseToCall
    }
}

/// Whether the last weighing is heavier than the one before, beyond what the scale may be off, and by no
/// more than the damper air between the two accounts for.
fn gained_as_air(weighings: &[Weighing], scale: Mass) -> Result<bool, DryingError> {
    let [.., before, last] = weighings else {
        return Ok(false);
    };
    let gained = last.mass - before.mass;
    let seen = smallest_change_seen(scale)?;
    let air = mass_change_in_air(before.mass, before.air, last.air)?;
    Ok(gained > seen && gained <= air + seen)
}

/// What 1 % of moisture weighs in a piece: m/(100 + M).
///
/// m is its mass at the moisture M in %, 0 to 30; a hundredth of its dry mass. An error outside, or for
/// no mass. The definition of moisture content turned round.
pub fn one_percent_of(mass: Mass, at: Moisture) -> Result<Mass, DryingError> {
    one_percent_worked(&mut Silent, mass, at)
}

formula! {
    /// What 1 % of moisture weighs.
    ONE_PERCENT: "1 % of moisture weighs", "m₁", "g";
    m: "m", "mass of the piece", "g";
    at: "M", "its moisture", "%";
    = m / (100.0 + at);
    range "a moisture from 0 to 30 %";
    source "the definition of moisture content turned round";
}

fn one_percent_worked(pen: &mut impl Pen, mass: Mass, at: Moisture) -> Result<Mass, DryingError> {
    let values = [grams(weight(mass)?), air_percent(at)?];
    Ok(from_grams(pen.work(&ONE_PERCENT, values)))
}

/// The least change between two readings that is more than the scale's doubt: 2 sqrt(2) u, u = h/sqrt(3)
/// for readings that may be off by h either way.
///
/// JCGM 100:2008, 4.3.7 and 5.1.2, with coverage factor 2 (from memory).
///
/// No published value: one division by the piece's own percent.
pub fn smallest_change_seen(scale: Mass) -> Result<Mass, DryingError> {
    if is_positive(scale.value) {
        Ok(scale * (2.0 * (2.0_f64 / 3.0).sqrt()))
    } else {
        Err(DryingError::Scale(scale))
    }
}

/// What a piece that keeps up with its air gains as the air's equilibrium goes from M1 to M2:
/// m (M2 - M1)/(100 + M1).
///
/// m is its mass at M1, both moistures in %, 0 to 30; less than nothing in drier air. An error outside,
/// or for no mass. The definition of moisture content turned round.
///
/// ```
/// use stillwood_core::{quantity::{Moisture, in_kg, kg}, season::mass_change_in_air};
/// // From 40 to 55 % relative humidity.
/// let gained = mass_change_in_air(kg(3.2), Moisture::percent(7.7), Moisture::percent(10.1));
/// assert!((in_kg(gained.unwrap()) - 0.071).abs() < 0.0005);
/// ```
pub fn mass_change_in_air(mass: Mass, from: Moisture, to: Moisture) -> Result<Mass, DryingError> {
    Ok(one_percent_of(mass, from)? * (air_percent(to)? - from.in_percent()))
}

/// The air's equilibrium from a long-seasoned witness piece beside the wood:
/// E = (100 + E1) m/m1 - 100, in %.
///
/// m1 is what the witness weighed in air of the equilibrium E1 in %, m what it weighs now. The witness
/// is taken to keep up with its air. An error for no mass, or a moisture outside 0 to 30 %. Derived here
/// from the definition of moisture content.
///
/// No published value: one subtraction of moistures.
pub fn air_from_witness(
    first: Mass,
    first_air: Moisture,
    now: Mass,
) -> Result<Moisture, DryingError> {
    air_from_witness_worked(&mut Silent, first, first_air, now)
}

formula! {
    /// The equilibrium by a witness stick.
    BY_STICK: "Wood settles at, by the stick", "E", "%";
    at: "E₁", "equilibrium of the air when it was weighed first, by the hygrometer", "%";
    now: "m", "what the stick weighs now", "g";
    first: "m₁", "what it weighed first", "g";
    = (100.0 + at) * (now / first) - 100.0;
    range "moistures from 0 to 30 %, a stick that keeps up with its air";
    source "Derived here from the definition of moisture content";
}

/// [`air_from_witness`], with its steps.
pub fn air_from_witness_worked(
    pen: &mut impl Pen,
    first: Mass,
    first_air: Moisture,
    now: Mass,
) -> Result<Moisture, DryingError> {
    let at = air_percent(first_air)?;
    let values = [at, grams(weight(now)?), grams(weight(first)?)];
    let found = Moisture::percent(pen.work(&BY_STICK, values));
    air_percent(found).map(|_| found)
}

fn weight(mass: Mass) -> Result<Mass, DryingError> {
    if is_positive(mass.value) {
        Ok(mass)
    } else {
        Err(DryingError::Mass(mass))
    }
}

fn air_percent(air: Moisture) -> Result<f64, DryingError> {
    let percent = air.in_percent();
    if (0.0..=30.0).contains(&percent) {
        Ok(percent)
    } else {
        Err(DryingError::Air { percent })
    }
}

/// Weights, days and air that make sense.
fn check(weighings: &[Weighing], scale: Mass) -> Result<(), DryingError> {
    smallest_change_seen(scale)?;
    let mut before = f64::NEG_INFINITY;
    for one in weighings {
        weight(one.mass)?;
        air_percent(one.air)?;
        if !(one.day > before && one.day.is_finite()) {
            return Err(DryingError::Order(one.day));
        }
        before = one.day;
    }
    Ok(())
}

/// A mass in grams, for the fit.
fn grams(mass: Mass) -> f64 {
    1000.0 * in_kg(mass)
}

/// A mass from grams.
fn from_grams(grams: f64) -> Mass {
    kg(grams / 1000.0)
}

#[cfg(test)]
mod coverage;
#[cfg(test)]
mod tests;
