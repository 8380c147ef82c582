//! Necks out of planks: how many parts a plank holds, and where its cuts fall.
//!
//! Sizes and counts only: whether the wood is good enough is judged elsewhere.

mod cost;
mod held;

pub use cost::{cost_per_good_blank, cost_per_part};
pub(crate) use held::count_held;
pub use held::{
    Blanks, Cutting, CuttingError, Held, Place, Zones, held, places_across, places_along,
    zones_to_cut_round,
};
