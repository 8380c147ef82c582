//! The way from planks to good blanks: its stages with the share that comes through each, and what is in hand.

use crate::season::effective::ShareCount;
use crate::season::spread::BetaSpread;
use crate::season::start::StartError;
use crate::season::survival::share_spread_of;
use serde::{Deserialize, Serialize};

/// What share comes through a stage.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum StageShare {
    Known(f64),
    Counted(ShareCount),
}

impl StageShare {
    /// The share on average.
    pub(super) fn mean(self) -> Result<f64, StartError> {
        Ok(match self {
            StageShare::Known(share) => share,
            StageShare::Counted(_) => self.spread()?.map_or(0.0, BetaSpread::mean),
        })
    }

    /// What it may be; `None` for a share that is known.
    pub(super) fn spread(self) -> Result<Option<BetaSpread>, StartError> {
        match self {
            StageShare::Known(share) if share > 0.0 && share <= 1.0 => Ok(None),
            StageShare::Known(share) => Err(StartError::Share(share)),
            StageShare::Counted(count) => Ok(Some(share_spread_of(count)?)),
        }
    }
}

/// The way from planks to good blanks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Way {
    /// Laminates that a plank gives.
    pub parts_per_plank: u32,
    /// The stages that laminates go through, in order.
    pub part_stages: Vec<StageShare>,
    /// How alike the laminates of one plank are in coming through: the correlation of two of them, from 0
    /// (each by itself) to under 1 (all or none).
    pub intraclass_correlation: f64,
    /// Laminates that make a blank.
    pub parts_per_blank: u32,
    /// The stages that blanks go through, in order.
    pub blank_stages: Vec<StageShare>,
}

/// What is held already.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct InHand {
    /// Laminates of one plank each time.
    pub parts: Vec<Lot>,
    pub blanks: Vec<Lot>,
}

/// Pieces that wait before a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lot {
    pub pieces: u32,
    /// How many stages they have behind them.
    pub stages_done: usize,
}

pub(super) fn mean_share(stages: &[StageShare], done: usize) -> Result<f64, StartError> {
    stages
        .iter()
        .skip(done)
        .try_fold(1.0, |product, stage| Ok(product * stage.mean()?))
}

/// The most laminates of a plank or a blank, and those that the blanks wanted are made of.
pub(super) const MOST_LAMINATES: u32 = 1000;
/// The most laminates or blanks of one lot in hand.
const MOST_OF_A_LOT: u32 = 1_000_000;

pub(super) fn check(way: &Way, in_hand: &InHand) -> Result<(), StartError> {
    if !(way.intraclass_correlation >= 0.0 && way.intraclass_correlation < 1.0) {
        return Err(StartError::IntraclassCorrelation(
            way.intraclass_correlation,
        ));
    }
    let lots = || in_hand.parts.iter().chain(&in_hand.blanks);
    let counts = [way.parts_per_plank, way.parts_per_blank];
    if counts.contains(&0) {
        return Err(StartError::NoParts);
    }
    if counts.into_iter().max() > Some(MOST_LAMINATES) {
        return Err(StartError::TooMany(MOST_LAMINATES));
    }
    if lots().map(|lot| lot.pieces).max() > Some(MOST_OF_A_LOT) {
        return Err(StartError::TooMany(MOST_OF_A_LOT));
    }
    for stage in way.part_stages.iter().chain(&way.blank_stages) {
        stage.spread()?;
    }
    Ok(())
}
