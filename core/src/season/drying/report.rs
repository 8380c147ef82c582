//! What a series of weighings says in a word, and what that rests on.

use super::air::AirUncertainty;
use super::fit::{DryingFit, FEWEST, fit_drying_in_air};
use super::formulas::NEAR_ENOUGH;
use super::one_percent::{mass_change_in_air, one_percent_of};
use super::weighing::{AirReading, DryingError, Weighing, check, smallest_change_seen};
use crate::quantity::Mass;

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

/// What the weighings say, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingReport {
    pub drying: Drying,
    /// Heavier than last time, by no more than the damper air between the two accounts for. It tells nothing of
    /// how far the piece is from its equilibrium.
    pub gained_as_air: bool,
    /// What 1 % of moisture weighs in this piece.
    pub one_percent: Mass,
    /// The curve through the weighings; `None` for fewer than four.
    pub fit: Option<DryingFit>,
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

/// Whether a piece is still drying, from its weighings in order of days.
///
/// `scale` is how far a reading may be off either way. First what one scale can see, then the curve of
/// [`fit_drying`](super::fit_drying): its 95 % interval of what is left has to lie wholly on one side of half a percent for a plain
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
