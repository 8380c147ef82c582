//! Shrinking and swelling across the grain between two moisture contents. It never speaks of movement
//! along the grain, nor of how a shape distorts.

use crate::quantity::{Angle, Length, Moisture, Trace, formula, in_mm, mm};
use thiserror::Error;
use uom::si::angle::radian;

/// Shrinkage from green to a drier state, as a share of the green dimension. Total shrinkage is that
/// from green to oven-dry.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Shrinkage(f64);

impl Shrinkage {
    /// From percent of the green dimension.
    pub const fn percent(value: f64) -> Self {
        Self(value)
    }

    /// In percent of the green dimension.
    pub const fn in_percent(self) -> f64 {
        self.0
    }
}

/// Dimensional change coefficient: change as a share of the dimension, for each 1 % of moisture.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct ChangeCoefficient(f64);

impl ChangeCoefficient {
    /// From the share for 1 % of moisture: hard maple, tangentially, is 0.00353.
    pub const fn per_percent(value: f64) -> Self {
        Self(value)
    }

    /// The share for 1 % of moisture.
    pub const fn in_per_percent(self) -> f64 {
        self.0
    }
}

/// Why no change of size can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum ShrinkageError {
    /// The coefficient method is asked to go further than it holds.
    #[error("{percent:.1} %: change coefficients hold only from 6 to 14 % moisture")]
    OutsideCoefficients {
        /// The moisture that is outside, %.
        percent: f64,
    },
    /// Above fibre saturation, or not a moisture.
    #[error("{percent:.1} %: wood shrinks and swells between 0 and 30 % moisture only")]
    OutsideShrinking {
        /// The moisture that is outside, %.
        percent: f64,
    },
    /// No wood shrinks like this.
    #[error("{percent} % is not a total shrinkage of wood")]
    NotAShrinkage {
        /// As given, %.
        percent: f64,
    },
    /// No wood moves like this.
    #[error("{per_percent} is not a change coefficient of wood")]
    NotACoefficient {
        /// As given, share for 1 % of moisture.
        per_percent: f64,
    },
    /// Not an angle between rings and face.
    #[error("a ring angle lies between 0 and 90 degrees")]
    RingAngle,
}

/// Which dimension of a board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Across {
    /// Across the wide face.
    Width,
    Thickness,
}

/// Which method a [`Movement`] was found by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Change coefficient, inside 6 to 14 %.
    Coefficient,
    /// Total shrinkage, anywhere from 0 to 30 %.
    TotalShrinkage,
}

/// A change of size, and how it was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Movement {
    /// Positive swells, negative shrinks.
    pub change: Length,
    pub method: Method,
}

impl Movement {
    /// The change of a dimension between two moistures: by the coefficient where one is given and both
    /// moistures lie from 6 to 14 %, by the total shrinkage otherwise, as the Wood Handbook advises.
    pub fn find(
        trace: &mut impl Trace,
        size: Length,
        (coefficient, total): (Option<ChangeCoefficient>, Shrinkage),
        from: Moisture,
        to: Moisture,
    ) -> Result<Self, ShrinkageError> {
        if let Some(coefficient) = coefficient
            && in_coefficient_range(from).is_ok()
            && in_coefficient_range(to).is_ok()
        {
            return Ok(Self {
                change: change_by_coefficient(trace, size, coefficient, from, to)?,
                method: Method::Coefficient,
            });
        }
        Ok(Self {
            change: change_by_total_shrinkage(trace, size, total, from, to)?,
            method: Method::TotalShrinkage,
        })
    }
}

/// Change of a dimension by the coefficient method: `dD = D C (M_to - M_from)`, M in %, C for the
/// direction of D.
///
/// Holds from 6 to 14 % moisture; [`ShrinkageError`] outside. The straight line is in error by about 5 %
/// of the change. A board that is neither quite flat nor quite quarter sawn moves less across its width
/// and more in its thickness than this says: see [`coefficient_at_angle`].
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), equation 13-2 (read).
pub fn change_by_coefficient(
    trace: &mut impl Trace,
    size: Length,
    coefficient: ChangeCoefficient,
    from: Moisture,
    to: Moisture,
) -> Result<Length, ShrinkageError> {
    let values = [
        in_mm(size),
        valid_coefficient(coefficient)?,
        in_coefficient_range(from)?,
        in_coefficient_range(to)?,
    ];
    Ok(mm(trace.work(&BY_COEFFICIENT, values)))
}

formula! {
    /// Change of a dimension by its coefficient.
    BY_COEFFICIENT: "Change of the dimension", "ΔD", "mm";
    d: "D", "the dimension", "mm";
    c: "C", "change coefficient at this ring angle", "";
    from: "M₁", "moisture before", "%";
    to: "M₂", "moisture after", "%";
    = d * c * (to - from);
    range "6 to 14 % moisture; the straight line is out by about 5 % of the change";
    source "Wood Handbook, FPL-GTR-190 (2010), equation 13-2 (read)";
}

formula! {
    /// Change of a dimension by its total shrinkage.
    BY_TOTAL: "Change of the dimension", "ΔD", "mm";
    d: "D", "the dimension", "mm";
    s: "S", "total shrinkage at this ring angle", "%";
    from: "M₁", "moisture before", "%";
    to: "M₂", "moisture after", "%";
    = d * (to - from) / (3000.0 / s - 30.0 + from);
    range "0 to 30 % moisture";
    source "Wood Handbook, FPL-GTR-190 (2010), equation 13-3 (its use read, its printed form from memory)";
}

formula! {
    /// A shrinkage or a coefficient at a ring angle.
    AT_ANGLE: "Between radial and tangential", "S", "";
    radial: "S_R", "radially", "";
    tangential: "S_T", "tangentially", "";
    sine: "sin t", "of the angle from the log's radius", "";
    = radial * (1.0 - sq(sine)) + tangential * sq(sine);
    range "any ring angle";
    source "textbook, from memory";
}

/// Change of a dimension by the total-shrinkage method:
/// `dD = D (M_to - M_from) / (3000/S - 30 + M_from)`, M in %, S the total shrinkage in %, for the
/// direction of D.
///
/// Holds from 0 to 30 % moisture; [`ShrinkageError`] outside.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), equation 13-3. Its use is read; its form is read in a
/// university extension note that quotes it with a sign lost, and confirmed by the coefficients of Table
/// 13-5, which follow from it at 10 %.
pub fn change_by_total_shrinkage(
    trace: &mut impl Trace,
    size: Length,
    total: Shrinkage,
    from: Moisture,
    to: Moisture,
) -> Result<Length, ShrinkageError> {
    let values = [
        in_mm(size),
        valid_total(total)?,
        in_shrinking_range(from)?,
        in_shrinking_range(to)?,
    ];
    Ok(mm(trace.work(&BY_TOTAL, values)))
}

/// The change coefficient that belongs to a total shrinkage S in %: `C = 1 / (3000/S - 20)`.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), equation 13-3 at 10 % moisture; gives 68 of 72 values read
/// from Table 13-5 out of those read from Table 4-3.
pub fn coefficient_from_shrinkage(total: Shrinkage) -> Result<ChangeCoefficient, ShrinkageError> {
    Ok(ChangeCoefficient(
        1.0 / (3000.0 / valid_total(total)? - 20.0),
    ))
}

/// The total shrinkage that belongs to a change coefficient: `S = 3000 / (1/C + 20)`, in %. Turns
/// [`coefficient_from_shrinkage`] round. Derived here: algebra.
pub fn shrinkage_from_coefficient(
    coefficient: ChangeCoefficient,
) -> Result<Shrinkage, ShrinkageError> {
    Ok(Shrinkage(
        3000.0 / (1.0 / valid_coefficient(coefficient)? + 20.0),
    ))
}

/// Shrinkage across the width or through the thickness of a board whose rings stand at an angle:
/// `S = S_R cos² t + S_T sin² t`, with t the angle between that dimension and the radius of the log.
///
/// `ring_angle` is the acute angle between the rings and the wide face at the end grain: 0 flat
/// sawn, 90 quarter sawn. Across the width t = 90 - ring angle, through the thickness t = ring angle.
///
/// Source: textbook, from memory.
pub fn shrinkage_at_angle(
    radial: Shrinkage,
    tangential: Shrinkage,
    ring_angle: Angle,
    across: Across,
) -> Result<Shrinkage, ShrinkageError> {
    between(
        valid_total(radial)?,
        valid_total(tangential)?,
        ring_angle,
        across,
    )
    .map(Shrinkage)
}

/// Change coefficient of a board whose rings stand at an angle, found as [`shrinkage_at_angle`].
pub fn coefficient_at_angle(
    radial: ChangeCoefficient,
    tangential: ChangeCoefficient,
    ring_angle: Angle,
    across: Across,
) -> Result<ChangeCoefficient, ShrinkageError> {
    between(
        valid_coefficient(radial)?,
        valid_coefficient(tangential)?,
        ring_angle,
        across,
    )
    .map(ChangeCoefficient)
}

fn between(
    radial: f64,
    tangential: f64,
    ring_angle: Angle,
    across: Across,
) -> Result<f64, ShrinkageError> {
    let angle = ring_angle.get::<radian>();
    // A hair of slack, for 90 degrees that came through another unit.
    if !(0.0..=std::f64::consts::FRAC_PI_2 + 1e-9).contains(&angle) {
        return Err(ShrinkageError::RingAngle);
    }
    let sine = match across {
        Across::Width => libm::cos(angle),
        Across::Thickness => libm::sin(angle),
    };
    Ok(AT_ANGLE.of([radial, tangential, sine]))
}

fn in_coefficient_range(moisture: Moisture) -> Result<f64, ShrinkageError> {
    let percent = moisture.in_percent();
    if (6.0..=14.0).contains(&percent) {
        Ok(percent)
    } else {
        Err(ShrinkageError::OutsideCoefficients { percent })
    }
}

fn in_shrinking_range(moisture: Moisture) -> Result<f64, ShrinkageError> {
    let percent = moisture.in_percent();
    if (0.0..=30.0).contains(&percent) {
        Ok(percent)
    } else {
        Err(ShrinkageError::OutsideShrinking { percent })
    }
}

fn valid_total(total: Shrinkage) -> Result<f64, ShrinkageError> {
    let percent = total.in_percent();
    if percent > 0.0 && percent <= 40.0 {
        Ok(percent)
    } else {
        Err(ShrinkageError::NotAShrinkage { percent })
    }
}

fn valid_coefficient(coefficient: ChangeCoefficient) -> Result<f64, ShrinkageError> {
    let per_percent = coefficient.in_per_percent();
    if per_percent > 0.0 && per_percent <= 0.02 {
        Ok(per_percent)
    } else {
        Err(ShrinkageError::NotACoefficient { per_percent })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{TraceOff, degrees, in_mm, mm};

    const MAPLE: (Shrinkage, Shrinkage) = (Shrinkage(4.8), Shrinkage(9.9));

    #[test]
    fn outside_its_range_each_method_says_so() {
        let c = ChangeCoefficient(0.00353);
        let (dry, wet) = (Moisture::percent(5.0), Moisture::percent(31.0));
        let twelve = Moisture::STANDARD;
        assert_eq!(
            change_by_coefficient(&mut TraceOff, mm(75.0), c, twelve, dry),
            Err(ShrinkageError::OutsideCoefficients { percent: 5.0 })
        );
        let too_wet =
            change_by_total_shrinkage(&mut TraceOff, mm(75.0), MAPLE.1, wet, twelve).unwrap_err();
        assert_eq!(
            too_wet.to_string(),
            "31.0 %: wood shrinks and swells between 0 and 30 % moisture only"
        );
        assert!(coefficient_from_shrinkage(Shrinkage(0.0)).is_err());
        assert!(coefficient_from_shrinkage(Shrinkage(f64::NAN)).is_err());
        assert!(shrinkage_from_coefficient(ChangeCoefficient(-0.001)).is_err());
        assert_eq!(
            shrinkage_at_angle(MAPLE.0, MAPLE.1, degrees(91.0), Across::Width),
            Err(ShrinkageError::RingAngle)
        );
    }

    #[test]
    fn the_method_follows_the_moistures() {
        let c = Some(ChangeCoefficient(0.00353));
        let at = |m| Moisture::percent(m);
        let near =
            Movement::find(&mut TraceOff, mm(75.0), (c, MAPLE.1), at(8.0), at(10.0)).unwrap();
        assert_eq!(near.method, Method::Coefficient);
        assert!((in_mm(near.change) - 0.5295).abs() < 1e-9);
        let far =
            Movement::find(&mut TraceOff, mm(75.0), (c, MAPLE.1), at(18.0), at(10.0)).unwrap();
        assert_eq!(far.method, Method::TotalShrinkage);
        assert!(in_mm(far.change) < 0.0);
        let none =
            Movement::find(&mut TraceOff, mm(75.0), (None, MAPLE.1), at(8.0), at(10.0)).unwrap();
        assert_eq!(none.method, Method::TotalShrinkage);
    }

    #[test]
    fn green_to_ovendry_is_the_total_shrinkage() {
        let change = change_by_total_shrinkage(
            &mut TraceOff,
            mm(100.0),
            MAPLE.1,
            Moisture::percent(30.0),
            Moisture::percent(0.0),
        );
        assert!((in_mm(change.unwrap()) + 9.9).abs() < 1e-9);
    }
}
