//! Necks out of planks: how many parts a plank holds and where its cuts fall, which laminates go
//! together, and what the glued blank does.
//!
//! Sizes, shapes and counts only: whether the wood is good enough is judged elsewhere.

mod beam;
mod beam_formulas;
mod cost;
mod cutting;
mod joints;
mod matching;
mod part_count;
mod placement;

pub use beam::{
    BeamError, BendingStiffness, Layer, blank_weight, stiffness_along_glue_lines, torsion_factor,
    twist_left_in_blank,
};
pub(crate) use cost::{CARRIED, PART_OF_COST};
pub use cost::{
    cost_by_volume, cost_carried, cost_per_good_blank, cost_per_part, each_costs, good_blank_costs,
};
pub use cutting::{
    CutPlanError, CuttingPlan, PartCut, PartRow, PartWorth, Patch, PlannedPart, Stock, plan_cuts,
};
pub use joints::joint_area;
pub use matching::{
    AgainstLimit, Judged, Laminate, MOST_LAMINATES, MOST_PLACES, MatchError, MatchFigure,
    MatchLimits, MatchSearch, MatchTarget, MatchWarning, Placed, Proposal, SearchState, Turn,
    WorseBy, explain_match, judge_match, put_by_hand, runs_out_against,
};
pub use part_count::{
    Blanks, CutSpec, CuttingError, PartCount, Place, Zones, count_parts, places_across,
    places_along, zones_to_cut_round,
};
pub use placement::{
    BestBlanks, Placement, PlacementError, Stick, Worth, best_blanks, best_places,
};
