//! Rings that were read: how they are drawn, and where the pith lies in words.

use crate::drawings::RingsDrawn;
use stillwood_core::plank::{Field, Rings, ring_radius, shown};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_degrees, in_mm};

/// Where the pith lies, to stand behind other words; nothing where it lies below mid-width, or no ring was
/// read. Seen as the end is drawn: the marked edge to the left.
pub(crate) fn pith_words(rings: &Rings, units: Units) -> String {
    let Rings::Arc { pith, .. } = rings else {
        return String::new();
    };
    let way = match in_mm(*pith) {
        0.0 => return String::new(),
        left if left < 0.0 => "towards",
        _ => "away from",
    };
    let place = shown(Field::PithOffset, in_mm(*pith), units);
    format!("; pith {place} of mid-width, {way} the marked edge")
}

/// How rings are drawn.
pub(crate) fn drawn_rings(rings: &Rings) -> RingsDrawn {
    match rings {
        Rings::Angle(angle) => RingsDrawn::Angle(in_degrees(*angle)),
        Rings::Arc { chord, dip, pith } => match ring_radius(&mut TraceOff, *chord, *dip) {
            Ok(radius) => RingsDrawn::Arc {
                radius: in_mm(radius),
                pith: in_mm(*pith),
            },
            Err(_) => RingsDrawn::Unknown,
        },
    }
}
