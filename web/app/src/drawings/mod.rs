//! Drawings as markup: they scale what core returns to the size of a picture and work out nothing of wood.

mod end_grain;
mod plank;

pub use end_grain::{end_grain, tile};
pub use plank::{PlankDrawn, edge_view, end_view, face_view};
pub mod lasting;
pub mod plan_in_time;
