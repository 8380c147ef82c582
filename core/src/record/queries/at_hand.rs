//! Laminates at hand for a blank, as the screen of gluing offers them, and how their rings are drawn.

use crate::plank::{Instruments, RingTilt};
use crate::quantity::{Angle, in_degrees, kg, mm};
use crate::record::queries::{ReadyLaminate, laminates_to_glue, resting};
use crate::record::state::State;
use crate::season::FEELER_MM;
use chrono::NaiveDate;

/// All laminates that can be glued, those that are ready in front.
pub fn laminates_at_hand(
    state: &State,
    today: NaiveDate,
    instruments: &Instruments,
) -> Vec<ReadyLaminate> {
    let feeler = mm(FEELER_MM);
    let lines = resting(state, today, feeler, kg(instruments.scale_kg));
    laminates_to_glue(state, &lines, today, feeler, instruments).0
}

/// As many laminates as the spec of the last visit has in a blank; two at least.
pub fn usual_laminates(state: &State) -> u32 {
    let last = state.last_visit();
    last.map_or(5, |visit| visit.opened.spec.parts_per_blank)
        .max(2)
}

/// Rings that lean to neither side lie flat below this angle to the wide face, and stand above it.
const LIES_BELOW: f64 = 45.0;
/// A lean of which only the side is known is drawn as rift.
const AS_RIFT: f64 = 60.0;

/// How far the rings of a laminate are drawn from its wide face, degrees: plus to the right.
pub fn ring_slant(lean: RingTilt, angle: Option<Angle>) -> f64 {
    let angle = angle.map(in_degrees);
    match lean {
        RingTilt::Neither if angle.is_some_and(|angle| angle < LIES_BELOW) => 0.0,
        RingTilt::Neither => 90.0,
        lean => lean.sign() * angle.unwrap_or(AS_RIFT),
    }
}
