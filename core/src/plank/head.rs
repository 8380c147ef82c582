//! How the grain runs through a head that is tilted back, by which end of the blank it is at.

use crate::quantity::{Angle, Slope, Trace, degrees, formula, in_degrees};
use thiserror::Error;

/// Why the grain in the head is not told.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum HeadError {
    /// No angle that heads have.
    #[error("a head at {:.0}°: from 0 to 45° are worked out", in_degrees(*.0))]
    NoHeadAngle(Angle),
}

/// The angle of the grain to the face of a tilted head, in side view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrainInHead {
    /// Where the grain falls away from the fingerboard towards the head.
    pub falling: Angle,
    /// Where it rises towards the head.
    pub rising: Angle,
}

formula! {
    /// The grain in a head that it falls towards.
    FALLING: "Grain in the head, where it falls towards the head", "γ", "°";
    head: "α", "angle of the head", "°";
    slope: "s", "slope of grain in side view", "";
    = abs(head - arctan(slope));
    range "a head of 0 to 45°, tilted back; an even slope";
    source "geometry";
}

formula! {
    /// The grain in a head that it rises towards.
    RISING: "Grain in the head, where it rises towards the head", "γ", "°";
    head: "α", "angle of the head", "°";
    slope: "s", "slope of grain in side view", "";
    = head + arctan(slope);
    range "a head of 0 to 45°, tilted back; an even slope";
    source "geometry";
}

/// The angle of the grain to the face of a head that is tilted back by an angle alpha, in side view: alpha - atan s
/// where the grain falls away from the fingerboard towards the head, alpha + atan s where it rises. The smaller one is
/// the stronger: the fibres run farther through the head before they end.
///
/// `slope` is that of the grain in side view, whichever sign it was read with. An error for a head outside 0 to 45°.
/// Derived here: geometry.
///
/// ```
/// use stillwood_core::plank::grain_in_head;
/// use stillwood_core::quantity::{Slope, TraceOff, degrees, in_degrees};
/// // 1 in 19.08 is 3°.
/// let found = grain_in_head(&mut TraceOff, degrees(13.0), Slope::one_in(19.08)).unwrap();
/// assert!((in_degrees(found.falling) - 10.0).abs() < 1e-3);
/// assert!((in_degrees(found.rising) - 16.0).abs() < 1e-3);
/// ```
///
/// No published value: a sum and a difference.
pub fn grain_in_head(
    trace: &mut impl Trace,
    head: Angle,
    slope: Slope,
) -> Result<GrainInHead, HeadError> {
    if !(0.0..=45.0).contains(&in_degrees(head)) {
        return Err(HeadError::NoHeadAngle(head));
    }
    let values = [in_degrees(head), slope.in_tangent().abs()];
    Ok(GrainInHead {
        falling: degrees(trace.work(&FALLING, values)),
        rising: degrees(trace.work(&RISING, values)),
    })
}
