//! Slope of grain from two faces, and what it comes to over a length.
//!
//! It never takes a face that was not seen for straight.

use crate::quantity::{Length, Slope, Trace, TraceOff, formula, in_mm, mm};

/// What is known of a plank's slope of grain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GrainSlope {
    /// Seen on the wide face and on the edge: the slope of the fibres in space.
    Combined(Slope),
    /// Seen on the wide face alone: the fibres slope at least so much.
    AtLeastFace(Slope),
    /// Seen on the edge alone: the fibres slope at least so much.
    AtLeastEdge(Slope),
}

impl GrainSlope {
    /// The slope in space, where both faces were seen.
    pub fn combined(self) -> Option<Slope> {
        match self {
            GrainSlope::Combined(slope) => Some(slope),
            GrainSlope::AtLeastFace(_) | GrainSlope::AtLeastEdge(_) => None,
        }
    }

    pub fn at_least(self) -> Slope {
        match self {
            GrainSlope::Combined(slope)
            | GrainSlope::AtLeastFace(slope)
            | GrainSlope::AtLeastEdge(slope) => slope,
        }
    }
}

/// Slope of the fibres in space from the slopes seen on two adjacent faces: s = sqrt(a^2 + b^2).
///
/// a and b are the tangents seen on the wide face and on the edge. It holds for any slopes and never
/// falls below either. Derived here: geometry; a grading standard is said to use the same (ASTM D245,
/// from memory).
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::combined_slope, quantity::Slope};
/// let slope = combined_slope(&mut TraceOff, Slope::one_in(18.0), Slope::one_in(12.0));
/// assert!((slope.run().unwrap() - 9.98).abs() < 0.01);
/// ```
pub fn combined_slope(trace: &mut impl Trace, face: Slope, edge: Slope) -> Slope {
    Slope::tangent(trace.work(&COMBINED, [face.in_tangent(), edge.in_tangent()]))
}

formula! {
    /// Slope in space from two faces.
    COMBINED: "Slope of grain, both faces together", "s", "";
    a: "a", "slope on the face", "";
    b: "b", "slope on the edge", "";
    = sqrt(sq(a) + sq(b));
    range "two adjacent faces";
    source "geometry; said to be in ASTM D245 (from memory)";
}

formula! {
    /// How far the fibres run out.
    RUNOUT: "Runout over the part", "r", "mm";
    s: "s", "slope of grain", "";
    l: "l", "length of the part", "mm";
    = s * l;
    range "an even slope";
    source "geometry";
}

/// What is known of the slope of grain from the faces that were seen; `None` when neither was.
pub fn grain_slope(face: Option<Slope>, edge: Option<Slope>) -> Option<GrainSlope> {
    let steepness = |slope: Slope| Slope::tangent(slope.in_tangent().abs());
    match (face, edge) {
        (Some(face), Some(edge)) => Some(GrainSlope::Combined(combined_slope(
            &mut TraceOff,
            face,
            edge,
        ))),
        (Some(face), None) => Some(GrainSlope::AtLeastFace(steepness(face))),
        (None, Some(edge)) => Some(GrainSlope::AtLeastEdge(steepness(edge))),
        (None, None) => None,
    }
}

/// How far the fibres run out over a length: r = s l.
///
/// s is the tangent of the slope, l the length along the piece. Derived here: geometry.
///
/// No published value: one multiplication.
pub fn runout_over(trace: &mut impl Trace, slope: Slope, length: Length) -> Length {
    mm(trace.work(&RUNOUT, [slope.in_tangent(), in_mm(length)]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{in_mm, mm};

    #[test]
    fn one_in_25_and_one_in_20_make_one_in_15_6() {
        let found = combined_slope(&mut TraceOff, Slope::one_in(25.0), Slope::one_in(20.0));
        assert!((found.run().unwrap() - 15.6).abs() < 0.05);
        assert!((in_mm(runout_over(&mut TraceOff, found, mm(950.0))) - 60.8).abs() < 0.1);
    }

    #[test]
    fn one_face_gives_a_lower_bound_only() {
        let seen = grain_slope(Some(Slope::tangent(-0.04)), None).unwrap();
        assert_eq!(seen.combined(), None);
        assert_eq!(seen.at_least(), Slope::tangent(0.04));
        assert_eq!(grain_slope(None, None), None);
        let edge = grain_slope(None, Some(Slope::tangent(0.02))).unwrap();
        assert_eq!(edge, GrainSlope::AtLeastEdge(Slope::tangent(0.02)));
    }
}
