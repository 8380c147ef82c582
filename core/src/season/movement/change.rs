//! How each shape of a piece has changed, and where that stands against its limit.

use super::formulas::{CHANGE, CHANGE_AT_LEAST, CHANGE_AT_MOST, DOUBT};
use super::limit::{LimitError, limit_over};
use super::shape::{Gap, Warp, Warps};
use crate::quantity::{Conformance, GUARD_FACTOR, Length, Trace, TraceOff, in_mm, mm};
use crate::season::stage::{Limit, StageLimits};

/// A change this many times its standard uncertainty is movement and not measuring error: the 95 %
/// interval. JCGM 100:2008 6.2.1 with coverage factor 2 (from memory).
pub(super) const COVERAGE: f64 = 2.0;

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
            Movement::Within => "within its limit",
            Movement::Watch => "within its limit: watch it",
            Movement::NotMeasured => "not measured",
            Movement::TooClose => "too close to call",
            Movement::Beyond => "moved beyond its limit",
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    pub warp: Warp,
    /// The change, signed; without its sign where one of the two gaps has none. Absent where one was not
    /// measured.
    pub by: Option<Length>,
    /// What the change may be at most: more than `by` where the gaps may lie on opposite sides.
    pub at_most: Option<Length>,
    pub standard: Length,
    /// Whether both sides were noted.
    pub signed: bool,
    /// The limit for this piece, where the stage has one.
    pub limit: Option<Limit>,
    /// How it stands; `None` where there is no limit to stand against.
    pub movement: Option<Movement>,
}

impl Change {
    /// Whether it is more or less by the side to which a gap lies, which was not noted.
    pub fn side_is_open(&self) -> bool {
        self.at_most > self.by.map(Length::abs)
    }
}

/// The change between two shapes of a piece, shape by shape, against its limits.
///
/// The change is the later gap less the earlier, its uncertainty `sqrt(u1^2 + u2^2)` (JCGM 100:2008,
/// 5.1.2, from memory). Beyond and within are guarded decisions, see [`Conformance::of`]; a change surely within
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
        let change = change_worked(&mut TraceOff, warp, gaps, terms, length)?;
        if change.limit.is_some() || change.by.is_some() {
            found.push(change);
        }
    }
    Ok(found)
}

/// The change of one shape against its limit over this piece, with its steps.
pub(super) fn change_worked(
    trace: &mut impl Trace,
    warp: Warp,
    (from, to): (Option<&Gap>, Option<&Gap>),
    terms: &StageLimits,
    length: Option<Length>,
) -> Result<Change, LimitError> {
    let limit = match warp.limit(terms) {
        Some(limit) => Some(limit_over(trace, warp, limit, terms.over_mm, length)?),
        None => None,
    };
    Ok(change(trace, warp, from, to, limit))
}

pub(super) fn change(
    trace: &mut impl Trace,
    warp: Warp,
    from: Option<&Gap>,
    to: Option<&Gap>,
    limit: Option<Limit>,
) -> Change {
    let (Some(from), Some(to)) = (from, to) else {
        return Change {
            warp,
            by: None,
            at_most: None,
            standard: mm(0.0),
            signed: false,
            limit,
            movement: limit.map(|_| Movement::NotMeasured),
        };
    };
    let standard = trace.work(&DOUBT, [in_mm(from.standard), in_mm(to.standard)]);
    // A gap of nothing has no side to note.
    let sided = |gap: &Gap| gap.signed || in_mm(gap.value) == 0.0;
    let signed = sided(from) && sided(to);
    let gaps = [in_mm(to.value), in_mm(from.value)];
    let (by, most) = if signed {
        let by = trace.work(&CHANGE, gaps);
        (by, by.abs())
    } else {
        let gaps = gaps.map(f64::abs);
        let most = trace.work(&CHANGE_AT_MOST, gaps);
        (trace.work(&CHANGE_AT_LEAST, gaps), most)
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
        at_most: Some(mm(most)),
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
