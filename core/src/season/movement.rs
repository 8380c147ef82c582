//! How far a piece has moved since it was last machined flat, and where that stands against the limit of
//! its stage.
//!
//! Signs are kept: a hollow that changed sides moved by the sum of both. Where a side was not noted both
//! are tried, and only what holds for both is said. It never calls still what was not measured.

mod told;

pub use told::change_told;

use super::{Limit, StageLimits};
use crate::plank::{
    Bend, Cup, FormError, Plank, Readings, Seen, Side, SizeError, Twist, TwistRead, bend_left,
    cup_left, describe, mean_of_stations, twist_left,
};
use crate::quantity::{Conformance, GUARD_FACTOR, Length, Pen, Silent, in_mm, mm};
use std::collections::BTreeMap;
use thiserror::Error;
use told::{CHANGE, CHANGE_AT_LEAST, CHANGE_AT_MOST, DOUBT, LIMIT_OF_CURVE, LIMIT_OF_TWIST};

/// How far off a gap may be that is taken with feelers under a straightedge at the bench, either way,
/// mm. Common practice, no source.
pub const FEELER_MM: f64 = 0.1;

/// How far off a gap judged by eye may be: these times the tool's half-width, as in the yard. Common
/// practice, no source.
pub const EYE: f64 = 2.0;

/// A change this many times its standard uncertainty is movement and not measuring error: the 95 %
/// interval. JCGM 100:2008 6.2.1 with coverage factor 2 (from memory).
const COVERAGE: f64 = 2.0;

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
    /// All of them.
    pub const ALL: [Warp; 4] = [Warp::Bow, Warp::Crook, Warp::Cup, Warp::Twist];

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
    /// Its standard uncertainty.
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
    use crate::plank::Field;
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
            .is_some_and(|taken| taken.is_signed());
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
    Ok(in_mm(bend_left(&unit, length, length)?.inside))
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
    Ok(in_mm(cup_left(&unit, width, width)?))
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
        &unit,
        length,
        Some(width),
        (length, width),
    )?))
}

fn width_of(size: &Plank) -> Result<Length, SizeError> {
    mean_of_stations(&size.widths).ok_or(SizeError::Missing(Side::Width))
}

/// Why a limit can't be carried over to a piece.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum LimitError {
    /// A length of nothing.
    #[error("a limit over {0} mm: it has to be over more than nothing")]
    Over(f64),
    /// The piece's length was not measured.
    #[error("the length was not measured: a limit over {0} mm can't be carried over to it")]
    NoLength(f64),
}

/// A stage's limit carried over to a piece of length L.
///
/// The limit d holds over the length s. An even curve that is allowed d over s is allowed d (L/s)^2 over
/// L; an even twist of d over s comes to d L/s; a cup does not ask for the length. Derived here:
/// geometry. An error where s is nothing or less, or L was not measured.
///
/// No published value: the scaling of a sagitta, see `even_gap_over`, which is held in plank.
pub fn limit_over(
    warp: Warp,
    limit: Limit,
    over_mm: f64,
    length: Option<Length>,
) -> Result<Limit, LimitError> {
    limit_over_worked(&mut Silent, warp, limit, over_mm, length)
}

fn limit_over_worked(
    pen: &mut impl Pen,
    warp: Warp,
    limit: Limit,
    over_mm: f64,
    length: Option<Length>,
) -> Result<Limit, LimitError> {
    if warp == Warp::Cup {
        return Ok(limit);
    }
    if !(over_mm > 0.0 && over_mm.is_finite()) {
        return Err(LimitError::Over(over_mm));
    }
    let length = length.map(in_mm).filter(|length| *length > 0.0);
    let length = length.ok_or(LimitError::NoLength(over_mm))?;
    let formula = match warp {
        Warp::Twist => &LIMIT_OF_TWIST,
        _ => &LIMIT_OF_CURVE,
    };
    Ok(Limit {
        reject_mm: pen.work(formula, [limit.reject_mm, length, over_mm]),
        warn_mm: limit
            .warn_mm
            .map(|watch| formula.of([watch, length, over_mm])),
    })
}

/// Where a piece stands against its limit, from the best to the worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Movement {
    /// Not more than the tools may be off by.
    Steady,
    /// It moved, and is surely within its limit.
    Within,
    /// Within its limit, in the stretch where it is watched.
    Watch,
    /// A shape that has a limit was not measured, then or now.
    NotMeasured,
    /// Neither surely within nor surely beyond: measure again.
    TooClose,
    /// Surely beyond its limit.
    Beyond,
}

impl Movement {
    /// In the maker's words.
    pub fn in_words(self) -> &'static str {
        match self {
            Movement::Steady => "steady",
            Movement::Within => "moved within its limit",
            Movement::Watch => "moved within its limit: watch it",
            Movement::NotMeasured => "not measured",
            Movement::TooClose => "too close to call",
            Movement::Beyond => "moved beyond its limit",
        }
    }
}

/// How one shape has changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// The shape.
    pub warp: Warp,
    /// The change, signed; without its sign where one of the two gaps has none. Absent where one was not
    /// measured.
    pub by: Option<Length>,
    /// Its standard uncertainty.
    pub standard: Length,
    /// Whether both sides were noted.
    pub signed: bool,
    /// The limit for this piece, where the stage has one.
    pub limit: Option<Limit>,
    /// How it stands; `None` where there is no limit to stand against.
    pub movement: Option<Movement>,
}

/// The change between two shapes of a piece, shape by shape, against its limits.
///
/// The change is the later gap less the earlier, its uncertainty `sqrt(u1^2 + u2^2)` (JCGM 100:2008,
/// 5.1.2, from memory). Beyond and within are guarded decisions, see [`standing`]; a change surely within
/// its limit and under twice its uncertainty is no movement.
///
/// No published value: differences of readings.
pub fn changes(
    from: &Warps,
    to: &Warps,
    terms: &StageLimits,
    length: Option<Length>,
) -> Result<Vec<Change>, LimitError> {
    let mut found = Vec::new();
    for warp in Warp::ALL {
        let gaps = (from.get(&warp), to.get(&warp));
        let change = change_worked(&mut Silent, warp, gaps, terms, length)?;
        if change.limit.is_some() || change.by.is_some() {
            found.push(change);
        }
    }
    Ok(found)
}

/// The change of one shape against its limit over this piece, with its steps.
fn change_worked(
    pen: &mut impl Pen,
    warp: Warp,
    (from, to): (Option<&Gap>, Option<&Gap>),
    terms: &StageLimits,
    length: Option<Length>,
) -> Result<Change, LimitError> {
    let limit = match warp.limit(terms) {
        Some(limit) => Some(limit_over_worked(pen, warp, limit, terms.over_mm, length)?),
        None => None,
    };
    Ok(change(pen, warp, from, to, limit))
}

fn change(
    pen: &mut impl Pen,
    warp: Warp,
    from: Option<&Gap>,
    to: Option<&Gap>,
    limit: Option<Limit>,
) -> Change {
    let (Some(from), Some(to)) = (from, to) else {
        return Change {
            warp,
            by: None,
            standard: mm(0.0),
            signed: false,
            limit,
            movement: limit.map(|_| Movement::NotMeasured),
        };
    };
    let standard = pen.work(&DOUBT, [in_mm(from.standard), in_mm(to.standard)]);
    // A gap of nothing has no side to note.
    let sided = |gap: &Gap| gap.signed || in_mm(gap.value) == 0.0;
    let signed = sided(from) && sided(to);
    let gaps = [in_mm(to.value), in_mm(from.value)];
    let (by, most) = if signed {
        let by = pen.work(&CHANGE, gaps);
        (by, by.abs())
    } else {
        let gaps = gaps.map(f64::abs);
        let most = pen.work(&CHANGE_AT_MOST, gaps);
        (pen.work(&CHANGE_AT_LEAST, gaps), most)
    };
    let movement = limit.map(|limit| {
        let one = against(by.abs(), standard, limit);
        if one == against(most, standard, limit) {
            one
        } else {
            Movement::TooClose
        }
    });
    Change {
        warp,
        by: Some(mm(by)),
        standard: mm(standard),
        signed,
        limit,
        movement,
    }
}

/// Where a change, both in mm, stands against its limit.
fn against(by: f64, standard: f64, limit: Limit) -> Movement {
    match Conformance::of(limit.reject_mm - by, standard) {
        Conformance::Beyond => Movement::Beyond,
        Conformance::TooClose => Movement::TooClose,
        Conformance::Inside if by <= COVERAGE * standard => Movement::Steady,
        Conformance::Inside => {
            let watched = limit
                .warn_mm
                .is_some_and(|watch| by > watch + GUARD_FACTOR * standard);
            if watched {
                Movement::Watch
            } else {
                Movement::Within
            }
        }
    }
}

/// How the piece stands: as its worst shape. `NotMeasured` where nothing at all is judged.
pub fn worst(changes: &[Change]) -> Movement {
    let judged = changes.iter().filter_map(|change| change.movement);
    judged.max().unwrap_or(Movement::NotMeasured)
}

#[cfg(test)]
mod tests;
