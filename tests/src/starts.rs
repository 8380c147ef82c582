//! Planks to start in their simplest form, which the tables of statistics hold.

use stillwood_core::season::{InHand, StageShare, StartTask, Way};

/// So sure that no chance over 0 and under 1 ends the search: the chances go on to the most planks looked at.
pub const AS_GOOD_AS_SURE: f64 = 1.0 - f64::EPSILON;

/// Every plank is one laminate and a blank of its own, and each comes through by itself with the same share: the chances
/// are those of the binomial distribution.
pub fn start_one_by_one(wanted: u32, share: f64, confidence: f64, most: u32) -> StartTask {
    StartTask {
        way: Way {
            parts_per_plank: 1,
            part_stages: vec![StageShare::Known(share)],
            intraclass_correlation: 0.0,
            parts_per_blank: 1,
            blank_stages: Vec::new(),
        },
        in_hand: InHand::default(),
        wanted,
        confidence,
        most,
    }
}
