//! How the growth rings stand: at mid-width, elsewhere across the width, and in a part turned on edge.
//!
//! Rings are taken as circles about one pith, which fails near a crotch; a ring read at each end of the
//! plank shows it. It never guesses the angle where only that at mid-width was read.

use super::Rings;
use crate::quantity::{Angle, Length, Trace, degrees, formula, in_degrees, in_mm, is_positive, mm};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Why an angle can't be told.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RingError {
    /// Not a chord or not a dip.
    #[error("a ring {:.1} mm across with a dip of {:.1} mm: both have to be more than nothing", in_mm(*.chord), in_mm(*.dip))]
    NotPositive { chord: Length, dip: Length },
    /// The dip of more than a half circle.
    #[error("a dip of {:.1} mm is more than half of the {:.1} mm across: were the two mixed up?", in_mm(*.dip), in_mm(*.chord))]
    MoreThanHalf { chord: Length, dip: Length },
    /// Only the angle at mid-width was read.
    #[error(
        "only the angle at mid-width was read; to know it elsewhere, read a ring's chord and dip"
    )]
    AngleOnly,
    /// The pith lies in the plank, or so near that the rings turn right round.
    #[error(
        "a ring of {:.0} mm radius in a plank {:.0} mm thick: the pith lies in it",
        in_mm(*.radius), in_mm(*.thickness)
    )]
    PithInside {
        /// The ring's radius.
        radius: Length,
        /// The plank's thickness.
        thickness: Length,
    },
    /// A stretch or thickness of nothing.
    #[error("a part from {:.1} to {:.1} mm: it has to be more than nothing", in_mm(.0.from), in_mm(.0.to))]
    NoBand(Band),
    #[error("a ring angle of {:.0} degrees: it lies between 0 and 90", in_degrees(*.0))]
    NotAcute(Angle),
}

/// How a piece is sawn, by the acute angle between its rings and its wide face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
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
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::ring_radius, quantity::{in_mm, mm}};
/// assert!((in_mm(ring_radius(&mut TraceOff, mm(150.0), mm(25.0)).unwrap()) - 125.0).abs() < 1e-9);
/// ```
pub fn ring_radius(
    trace: &mut impl Trace,
    chord: Length,
    dip: Length,
) -> Result<Length, RingError> {
    let usable = |l: Length| is_positive(l.value);
    if !usable(chord) || !usable(dip) {
        return Err(RingError::NotPositive { chord, dip });
    }
    if dip > chord / 2.0 {
        return Err(RingError::MoreThanHalf { chord, dip });
    }
    Ok(mm(trace.work(&RADIUS, [in_mm(chord), in_mm(dip)])))
}

formula! {
    /// Radius of a ring.
    RADIUS: "Radius of the ring", "R", "mm";
    c: "c", "chord of the ring across the end", "mm";
    s: "s", "its dip over that chord", "mm";
    = sq(c) / (8.0 * s) + s / 2.0;
    range "a dip up to half the chord; rings as circles about one pith";
    source "geometry of the circle, exact";
}

formula! {
    /// Angle between rings and wide face beside the foot of the pith.
    BESIDE_PITH: "Angle of the rings to the wide face", "θ", "°";
    x: "x", "from the foot of the pith, along the width", "mm";
    h: "h", "depth of the pith below that level; at the ring's crown its radius", "mm";
    = arctan(x / h);
    range "a pith below the level looked at";
    source "geometry, rings as circles about the pith";
}

formula! {
    /// The angle after a part is turned on edge.
    TURNED: "Angle of the rings once turned on edge", "θ′", "°";
    t: "θ", "angle as it lies", "°";
    = 90.0 - t;
    range "0 to 90°";
    source "geometry";
}

/// Acute angle between rings and wide face, at an offset from the foot of the pith: theta = atan(|x|/h).
///
/// x is the offset along the width, h the depth of the pith below the level looked at: for a ring whose
/// arc was read, its radius, at the level of its crown. Derived here: geometry, rings as circles about
/// the pith.
fn angle_beside_pith(trace: &mut impl Trace, offset: Length, depth: Length) -> Angle {
    degrees(trace.work(&BESIDE_PITH, [in_mm(offset).abs(), in_mm(depth)]))
}

/// Acute angle between the rings and the wide face at an offset from mid-width, to the side on which a
/// positive pith lies.
///
/// Where only an angle was read, it is known at mid-width (an offset of nothing) and is an error
/// elsewhere, on purpose: the angle does not tell how deep the pith lies, and with it every class is
/// possible a hand's breadth to the side (a test shows it). A range that wide would say nothing.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::{Rings, ring_angle_at, turned_on_edge}, quantity::{in_degrees, mm}};
/// let arc = Rings::Arc { chord: mm(150.0), dip: mm(25.0), pith: mm(0.0) };
/// let turned = turned_on_edge(&mut TraceOff, ring_angle_at(&mut TraceOff, &arc, mm(60.0)).unwrap()).unwrap();
/// assert!((in_degrees(turned) - 64.4).abs() < 0.1);
/// ```
pub fn ring_angle_at(
    trace: &mut impl Trace,
    rings: &Rings,
    offset: Length,
) -> Result<Angle, RingError> {
    match *rings {
        Rings::Angle(angle) if offset == Length::default() => acute(angle),
        Rings::Angle(_) => Err(RingError::AngleOnly),
        Rings::Arc { chord, dip, pith } => {
            let radius = ring_radius(trace, chord, dip)?;
            Ok(angle_beside_pith(trace, offset - pith, radius))
        }
    }
}

/// The ring angle of a part after it is turned on edge: 90 degrees less the angle as it lay.
///
/// An error for what is no acute angle. Derived here: geometry.
///
/// No published value: one subtraction.
pub fn turned_on_edge(trace: &mut impl Trace, angle: Angle) -> Result<Angle, RingError> {
    let turned = trace.work(&TURNED, [in_degrees(acute(angle)?)]);
    Ok(degrees(turned.max(0.0)))
}

/// A stretch of a plank's width, as offsets from mid-width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    pub from: Length,
    pub to: Length,
}

impl Band {
    pub fn whole(width: Length) -> Self {
        Self {
            from: -width / 2.0,
            to: width / 2.0,
        }
    }
}

/// The ring angles that are met in a part of the end grain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AngleSpan {
    pub least: Angle,
    pub greatest: Angle,
}

impl AngleSpan {
    /// The same part turned on edge: 90 degrees less, the flattest now the steepest.
    pub fn turned_on_edge(self) -> Self {
        let turn = |angle| degrees((90.0 - in_degrees(angle)).max(0.0));
        Self {
            least: turn(self.greatest),
            greatest: turn(self.least),
        }
    }

    /// The class of the whole part; `None` where it is of more than one.
    pub fn class(self) -> Option<RingClass> {
        let class = RingClass::of(self.least).ok()?;
        (RingClass::of(self.greatest) == Ok(class)).then_some(class)
    }
}

/// The ring angles, acute to the wide face, that are met in a part of the plank through its whole
/// thickness: from atan(x1/(R + t/2)) to atan(x2/(R - t/2)).
///
/// x1 and x2 are the least and the largest distance of the part from the foot of the pith, along the
/// width (x1 is nothing where the part lies over it), R the ring's radius, taken as the pith's depth
/// below half the thickness t. [`Band::whole`] gives the plank's own range. An error where only an angle
/// was read, the band is empty or the pith lies in the plank. Derived here: geometry, rings as circles about
/// the pith.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::{Band, Rings, ring_angles_within}, quantity::{in_degrees, mm}};
/// let arc = Rings::Arc { chord: mm(150.0), dip: mm(25.0), pith: mm(0.0) };
/// let part = Band { from: mm(50.0), to: mm(66.0) };
/// let turned = ring_angles_within(&mut TraceOff, &arc, part, mm(52.0)).unwrap().turned_on_edge();
/// assert!((in_degrees(turned.least) - 56.3).abs() < 0.1);
/// assert!((in_degrees(turned.greatest) - 71.7).abs() < 0.1);
/// ```
///
/// No published value: geometry, held against `ring_angle_at`.
pub fn ring_angles_within(
    trace: &mut impl Trace,
    rings: &Rings,
    band: Band,
    thickness: Length,
) -> Result<AngleSpan, RingError> {
    let Rings::Arc { chord, dip, pith } = *rings else {
        return Err(RingError::AngleOnly);
    };
    if band.from.partial_cmp(&band.to) != Some(std::cmp::Ordering::Less) {
        return Err(RingError::NoBand(band));
    }
    let radius = ring_radius(trace, chord, dip)?;
    let half = thickness / 2.0;
    // Written so that no number is refused too.
    if !(half >= Length::default() && half < radius) {
        return Err(RingError::PithInside { radius, thickness });
    }
    let (from, to) = (band.from - pith, band.to - pith);
    let over_pith = from <= Length::default() && to >= Length::default();
    let nearest = if over_pith {
        Length::default()
    } else {
        from.abs().min(to.abs())
    };
    Ok(AngleSpan {
        least: angle_beside_pith(trace, nearest, radius + half),
        greatest: angle_beside_pith(trace, from.abs().max(to.abs()), radius - half),
    })
}

/// The stretch of the width in which parts come out quartersawn when they are turned on edge: within
/// R tan(30 degrees) of the foot of the pith.
///
/// R is the ring's radius. `None` when none of the width lies in it. An error where only an angle was
/// read. Derived here: geometry, with 60 degrees as in [`RingClass::of`].
///
/// No published value: geometry, held against [`ring_angle_at`] at its ends.
pub fn quartered_when_turned(
    trace: &mut impl Trace,
    rings: &Rings,
    width: Length,
) -> Result<Option<Band>, RingError> {
    let Rings::Arc { chord, dip, pith } = *rings else {
        return Err(RingError::AngleOnly);
    };
    let radius = ring_radius(trace, chord, dip)?;
    let reach = mm(trace.work(&QUARTERED, [in_mm(radius)]));
    let half = width / 2.0;
    let from = (pith - reach).max(-half);
    let to = (pith + reach).min(half);
    Ok((from < to).then_some(Band { from, to }))
}

formula! {
    /// How far quartersawn parts reach.
    QUARTERED: "Parts come out quartersawn within, to either side of the foot of the pith", "x", "mm";
    r: "R", "radius of the ring", "mm";
    = r * tan(30.0);
    range "parts turned on edge; quartersawn from 60°";
    source "geometry, rings as circles about the pith";
}

#[cfg(test)]
mod tests;
