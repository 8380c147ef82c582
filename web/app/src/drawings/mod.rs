//! Drawings as markup: they scale what core returns to the size of a picture and work out nothing of wood.

mod chart;
mod code;
mod cut;
mod end_grain;
mod lean;
mod plank;
pub mod section;
mod spark;

pub use chart::{Chart, Line, round_ticks};
pub use code::code;
pub use cut::{PartDrawn, PartStands, cut_from_above, cut_near_end, stretched};
pub use end_grain::{end_grain, tile};
pub use lean::{grain_sign, rings_sign};
pub use plank::{PlankDrawn, WeakPlace, edge_view, end_view, face_view};
pub use spark::spark;
pub mod lasting;
pub mod plan_in_time;

/// The colour of wood of which none is known.
pub const UNDYED: &str = "#d8c7a6";

/// How many times something is drawn larger, where the eye can tell.
pub fn seen_larger(times: f64) -> Option<f64> {
    (times > 1.05).then_some(times)
}
