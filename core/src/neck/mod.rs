//! Necks out of planks: how many parts a plank holds, and where its cuts fall.
//!
//! Sizes and counts only: whether the wood is good enough is judged elsewhere.

mod cost;
mod held;
mod placement;

pub use cost::{cost_per_good_blank, cost_per_part};
pub use held::{
    Blanks, Cutting, CuttingError, Held, Place, Zones, held, places_across, places_along,
    zones_to_cut_round,
};
pub use placement::{
    BestBlanks, Placement, PlacementError, Stick, Worth, best_blanks, best_places,
};
