//! The shape of a piece at one time, as its readings tell it: each gap over the whole piece, with its uncertainty.

use crate::plank::{
    Bend, Cup, Field, FormError, Plank, Readings, Seen, Side, Sign, SizeError, Twist, TwistRead,
    bend_left, cup_left, describe, mean_of_stations, twist_left,
};
use crate::quantity::TraceOff;
use crate::quantity::{Length, in_mm, mm};
use crate::season::stage::{Limit, StageLimits};
use std::collections::BTreeMap;

/// How far off a gap may be that is taken with feelers under a straightedge at the bench, either way,
/// mm. Common practice, no source.
pub const FEELER_MM: f64 = 0.1;

/// How far off a gap judged by eye may be: these times the tool's half-width, as in the yard. Common
/// practice, no source.
pub const EYE: f64 = 2.0;

/// A way of going out of shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Warp {
    /// Curve along the length, flatwise.
    Bow,
    /// Curve along the length, edgewise.
    Crook,
    /// Curve across the width.
    Cup,
    /// Ends not in one plane.
    Twist,
}

impl Warp {
    pub const ALL: [Warp; 4] = [Warp::Bow, Warp::Crook, Warp::Cup, Warp::Twist];

    /// The field in which it is measured.
    pub fn field(self) -> Field {
        match self {
            Warp::Bow => Field::Bow,
            Warp::Crook => Field::Crook,
            Warp::Cup => Field::Cup,
            Warp::Twist => Field::Twist,
        }
    }

    /// The trade's term.
    pub fn name(self) -> &'static str {
        match self {
            Warp::Bow => "bow",
            Warp::Crook => "crook",
            Warp::Cup => "cup",
            Warp::Twist => "twist",
        }
    }

    /// Its limit under a stage's terms.
    pub fn limit(self, terms: &StageLimits) -> Option<Limit> {
        match self {
            Warp::Bow => terms.bow,
            Warp::Crook => terms.crook,
            Warp::Cup => terms.cup,
            Warp::Twist => terms.twist,
        }
    }
}

/// A gap over the whole piece: of a bow, crook or cup the gap, of a twist the rise of the fourth corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Plus: the marked side is hollow; of a twist, right-handed.
    pub value: Length,
    pub standard: Length,
    /// Whether the side or the hand was noted.
    pub signed: bool,
}

impl Gap {
    /// Flat, as far as the tool can tell.
    pub fn flat(standard: Length) -> Self {
        Self {
            value: mm(0.0),
            standard,
            signed: true,
        }
    }
}

/// The shape of a piece at one time; what was not measured is absent.
pub type Warps = BTreeMap<Warp, Gap>;

/// The standard uncertainty of a gap that may be off by the half-width either way: `half_width /
/// sqrt(3)` (JCGM 100:2008 4.3.7, from memory).
///
/// No published value: the half-width over the root of three (JCGM 100), held in quantity.
pub fn standard_of(half_width: Length) -> Length {
    half_width.abs() / 3.0_f64.sqrt()
}

/// The shape that readings tell, each gap carried over to the whole of the piece, with its uncertainty.
///
/// `size` gives the piece's length and width, which are needed where a straightedge or stick shorter
/// than the piece was used; `half_width` is how far off a gap may be. See [`bend_left`], [`cup_left`]
/// and [`twist_left`], which give an error outside their range.
pub fn warps(readings: &Readings, size: &Plank, half_width: Length) -> Result<Warps, FormError> {
    let seen = describe(readings, &[]);
    let standard = |field| {
        let eye = readings.get(&field).map(|taken| taken.seen) == Some(Seen::ByEye);
        standard_of(half_width) * if eye { EYE } else { 1.0 }
    };
    let mut warps = Warps::new();
    let mut put = |warp, value: Length, signed, field, scale: f64| {
        let gap = Gap {
            value: value * scale,
            standard: standard(field) * scale,
            signed,
        };
        if gap.value.is_finite() {
            warps.insert(warp, gap);
            Ok(())
        } else {
            Err(FormError::NoNumber)
        }
    };
    if let Some(bow) = seen.bow {
        let scale = bend_scale(&bow, size)?;
        put(Warp::Bow, bow.gap, bow.signed, Field::Bow, scale)?;
    }
    if let Some(crook) = seen.crook {
        let scale = bend_scale(&crook, size)?;
        put(Warp::Crook, crook.gap, crook.signed, Field::Crook, scale)?;
    }
    if let Some(cup) = seen.cup {
        let signed = readings
            .get(&Field::Cup)
            .is_some_and(|taken| taken.sign == Sign::Known);
        let scale = cup_scale(&cup, size)?;
        put(Warp::Cup, cup.gap, signed, Field::Cup, scale)?;
    }
    if let (Some(twist), Some(taken)) = (seen.twist, readings.get(&Field::Twist)) {
        let signed = twist.hand.is_some();
        let scale = twist_scale(&twist, size)?;
        put(Warp::Twist, mm(taken.value), signed, Field::Twist, scale)?;
    }
    Ok(warps)
}

/// By what a gap read over a shorter straightedge is multiplied for the whole length.
fn bend_scale(bend: &Bend, size: &Plank) -> Result<f64, FormError> {
    if bend.over.is_none() {
        return Ok(1.0);
    }
    let length = size.length.ok_or(SizeError::Missing(Side::Length))?;
    let unit = Bend {
        gap: mm(1.0),
        ..*bend
    };
    Ok(in_mm(
        bend_left(&mut TraceOff, &unit, length, length)?.inside,
    ))
}

fn cup_scale(cup: &Cup, size: &Plank) -> Result<f64, FormError> {
    let Some(over) = cup.over else {
        return Ok(1.0);
    };
    let width = width_of(size)?;
    let unit = Cup {
        gap: mm(1.0),
        over: Some(over),
    };
    Ok(in_mm(cup_left(&mut TraceOff, &unit, width, width)?))
}

fn twist_scale(twist: &Twist, size: &Plank) -> Result<f64, FormError> {
    if twist.read == TwistRead::Corner {
        return Ok(1.0);
    }
    let length = size.length.ok_or(SizeError::Missing(Side::Length))?;
    let width = width_of(size)?;
    let unit = Twist {
        rise: mm(1.0),
        ..*twist
    };
    Ok(in_mm(twist_left(
        &mut TraceOff,
        &unit,
        (length, Some(width)),
        (length, width),
    )?))
}

fn width_of(size: &Plank) -> Result<Length, SizeError> {
    mean_of_stations(&size.widths).ok_or(SizeError::Missing(Side::Width))
}
