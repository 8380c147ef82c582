//! Drawings as markup: they scale what core returns to the size of a picture and work out nothing of wood.

mod chart;
mod end_grain;
mod plank;
mod spark;

pub use chart::{Chart, Line, round_ticks};
pub use end_grain::{end_grain, tile};
pub use plank::{PlankDrawn, edge_view, end_view, face_view};
pub use spark::spark;
