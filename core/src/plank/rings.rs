//! How the growth rings stand: at mid-width, elsewhere across the width, and in a strip turned on edge.
//!
//! Rings are taken as circles about one pith, which fails near a crotch; a ring read at each end of the
//! plank shows it. It never guesses the angle where only that at mid-width was read.

use super::Rings;
use crate::quantity::{Angle, Length, degrees, in_degrees, in_mm};
use thiserror::Error;

/// Why an angle can't be told.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RingError {
    /// Not a chord or not a dip.
    #[error("a ring {:.1} mm across with a dip of {:.1} mm: both have to be more than nothing", in_mm(*.chord), in_mm(*.dip))]
    NotPositive {
        /// The chord.
        chord: Length,
        /// The dip.
        dip: Length,
    },
    /// The dip of more than a half circle.
    #[error("a dip of {:.1} mm is more than half of the {:.1} mm across: were the two mixed up?", in_mm(*.dip), in_mm(*.chord))]
    MoreThanHalf {
        /// The chord.
        chord: Length,
        /// The dip.
        dip: Length,
    },
    /// Only the angle at mid-width was read.
    #[error(
        "only the angle at mid-width was read; to know it elsewhere, read a ring's chord and dip"
    )]
    AngleOnly,
    /// No acute angle.
    #[error("a ring angle of {:.0} degrees: it lies between 0 and 90", in_degrees(*.0))]
    NotAcute(Angle),
}

/// How a piece is sawn, by the acute angle between its rings and its wide face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RingClass {
    /// Below 30 degrees.
    Flatsawn,
    /// From 30 to below 60 degrees.
    Rift,
    /// 60 degrees and more.
    Quartersawn,
}

impl RingClass {
    /// The class of an angle from 0 to 90 degrees; an error outside.
    ///
    /// Hardwood practice: 60 degrees or more quartersawn, 30 to 60 rift (read in a JoVE teaching text
    /// on lumber; the flat class 0 to 30 in the AWI's words as quoted on a forum). Softwood texts cut at
    /// 45 into two classes instead.
    pub fn of(angle: Angle) -> Result<Self, RingError> {
        let a = in_degrees(acute(angle)?);
        // A thousandth of a degree: an angle of 60 that went through radians is still 60.
        Ok(if a < 30.0 - 1e-3 {
            RingClass::Flatsawn
        } else if a < 60.0 - 1e-3 {
            RingClass::Rift
        } else {
            RingClass::Quartersawn
        })
    }

    /// The trade's term.
    pub fn name(self) -> &'static str {
        match self {
            RingClass::Flatsawn => "flatsawn",
            RingClass::Rift => "rift",
            RingClass::Quartersawn => "quartersawn",
        }
    }
}

fn acute(angle: Angle) -> Result<Angle, RingError> {
    let a = in_degrees(angle);
    if (0.0..=90.0 + 1e-9).contains(&a) {
        Ok(angle)
    } else {
        Err(RingError::NotAcute(angle))
    }
}

/// Radius of a ring from its chord and its dip: R = c^2/(8 s) + s/2.
///
/// c is the chord across the end, s the rise of the arc over it; 0 < s <= c/2, an error outside (a
/// deeper dip would be more than half a circle, which no chord across a plank shows). Exact. Derived
/// here: geometry of the circle.
///
/// ```
/// use stillwood_core::{plank::ring_radius, quantity::{in_mm, mm}};
/// assert!((in_mm(ring_radius(mm(150.0), mm(25.0)).unwrap()) - 125.0).abs() < 1e-9);
/// ```
pub fn ring_radius(chord: Length, dip: Length) -> Result<Length, RingError> {
    let usable = |l: Length| l.value > 0.0 && l.value.is_finite();
    if !usable(chord) || !usable(dip) {
        return Err(RingError::NotPositive { chord, dip });
    }
    if dip > chord / 2.0 {
        return Err(RingError::MoreThanHalf { chord, dip });
    }
    Ok(chord * (chord / dip).value / 8.0 + dip / 2.0)
}

/// Acute angle between rings and wide face, at an offset from the foot of the pith: theta = atan(|x|/h).
///
/// x is the offset along the width, h the depth of the pith below the level looked at: for a ring whose
/// arc was read, its radius, at the level of its crown. Derived here: geometry, rings as circles about
/// the pith.
fn angle_beside_pith(offset: Length, depth: Length) -> Angle {
    degrees(libm::atan((offset / depth).value.abs()).to_degrees())
}

/// Acute angle between the rings and the wide face at an offset from mid-width, to the side on which a
/// positive pith lies.
///
/// Where only an angle was read, it is known at mid-width (an offset of nothing) and is an error
/// elsewhere.
///
/// ```
/// use stillwood_core::{plank::{Rings, ring_angle_at, turned_on_edge}, quantity::{in_degrees, mm}};
/// let arc = Rings::Arc { chord: mm(150.0), dip: mm(25.0), pith: mm(0.0) };
/// let turned = turned_on_edge(ring_angle_at(&arc, mm(60.0)).unwrap()).unwrap();
/// assert!((in_degrees(turned) - 64.4).abs() < 0.1);
/// ```
pub fn ring_angle_at(rings: &Rings, offset: Length) -> Result<Angle, RingError> {
    match *rings {
        Rings::Angle(angle) if offset == Length::default() => acute(angle),
        Rings::Angle(_) => Err(RingError::AngleOnly),
        Rings::Arc { chord, dip, pith } => {
            Ok(angle_beside_pith(offset - pith, ring_radius(chord, dip)?))
        }
    }
}

/// The ring angle of a strip after it is turned on edge: 90 degrees less the angle as it lay.
///
/// An error for what is no acute angle. Derived here: geometry.
///
/// No published value: one subtraction.
pub fn turned_on_edge(angle: Angle) -> Result<Angle, RingError> {
    Ok(degrees((90.0 - in_degrees(acute(angle)?)).max(0.0)))
}

/// A stretch of a plank's width, as offsets from mid-width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Where it starts.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// The stretch of the width in which strips come out quartersawn when they are turned on edge: within
/// R tan(30 degrees) of the foot of the pith.
///
/// R is the ring's radius. `None` when none of the width lies in it. An error where only an angle was
/// read. Derived here: geometry, with 60 degrees as in [`RingClass::of`].
///
/// No published value: geometry, held against [`ring_angle_at`] at its ends.
pub fn quartered_when_turned(rings: &Rings, width: Length) -> Result<Option<Band>, RingError> {
    let Rings::Arc { chord, dip, pith } = *rings else {
        return Err(RingError::AngleOnly);
    };
    let reach = ring_radius(chord, dip)? * libm::tan(30.0f64.to_radians());
    let half = width / 2.0;
    let from = (pith - reach).max(-half);
    let to = (pith + reach).min(half);
    Ok((from < to).then_some(Band { from, to }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;
    use proptest::prelude::*;

    /// A ring of radius 125 mm.
    fn arc() -> Rings {
        Rings::Arc {
            chord: mm(150.0),
            dip: mm(25.0),
            pith: mm(0.0),
        }
    }

    #[test]
    fn a_big_log_gives_a_wide_quartered_band() {
        let band = quartered_when_turned(&arc(), mm(205.0)).unwrap().unwrap();
        assert!((in_mm(band.to) - 72.2).abs() < 0.1 && (in_mm(band.from) + 72.2).abs() < 0.1);
        // A ring of radius 60: chord 96, dip 24.
        let small = Rings::Arc {
            chord: mm(96.0),
            dip: mm(24.0),
            pith: mm(0.0),
        };
        let band = quartered_when_turned(&small, mm(205.0)).unwrap().unwrap();
        assert!((in_mm(band.to) - 34.6).abs() < 0.1);
    }

    #[test]
    fn the_strip_at_80_mm_is_rift() {
        let turned = turned_on_edge(ring_angle_at(&arc(), mm(80.0)).unwrap()).unwrap();
        assert!((in_degrees(turned) - 57.4).abs() < 0.1);
        assert_eq!(RingClass::of(turned), Ok(RingClass::Rift));
    }

    #[test]
    fn pith_beside_the_plank_may_leave_nothing() {
        let far = Rings::Arc {
            chord: mm(96.0),
            dip: mm(24.0),
            pith: mm(300.0),
        };
        assert_eq!(quartered_when_turned(&far, mm(200.0)), Ok(None));
    }

    #[test]
    fn classes_meet_at_30_and_60() {
        let class = |a| RingClass::of(degrees(a)).unwrap();
        assert_eq!(class(0.0), RingClass::Flatsawn);
        assert_eq!(class(29.9), RingClass::Flatsawn);
        assert_eq!(class(30.0), RingClass::Rift);
        assert_eq!(class(60.0), RingClass::Quartersawn);
        assert_eq!(class(90.0), RingClass::Quartersawn);
        assert!(RingClass::of(degrees(91.0)).is_err());
        assert!(RingClass::of(degrees(f64::NAN)).is_err());
    }

    #[test]
    fn what_was_not_read_is_not_told() {
        let angle = Rings::Angle(degrees(10.0));
        assert_eq!(ring_angle_at(&angle, mm(0.0)), Ok(degrees(10.0)));
        assert_eq!(ring_angle_at(&angle, mm(30.0)), Err(RingError::AngleOnly));
        assert!(ring_radius(mm(25.0), mm(150.0)).is_err());
        assert!(ring_radius(mm(0.0), mm(1.0)).is_err());
    }

    proptest! {
        // A chord and its dip, cut out of a circle of known radius, give the radius back.
        #[test]
        fn the_radius_comes_back(radius in 20.0..800.0f64, share in 0.05..1.0f64) {
            let half = radius * share;
            let dip = radius - (radius * radius - half * half).sqrt();
            let found = in_mm(ring_radius(mm(2.0 * half), mm(dip * (1.0 - 1e-12))).unwrap());
            prop_assert!((found - radius).abs() < 1e-6 * radius, "{found}");
        }
    }
}
