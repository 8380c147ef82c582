//! What lies on each rack in each stage, to be looked over for movement.

use crate::order;
use crate::record::log::Id;
use crate::record::queries::marks::mark_order;
use crate::record::queries::{stage_of, stock};
use crate::record::state::{Piece, State};
use crate::season::Stage;
use std::collections::BTreeMap;

/// What lies on one rack in one stage.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RackLot {
    /// The rack; empty where none was said.
    pub place: String,
    /// The stage.
    pub stage: Stage,
    /// Ids with their marks, in the order of the marks.
    pub pieces: Vec<(Id, String)>,
}

/// All that rests, rack by rack and stage by stage; what was downgraded is left out.
pub fn rack_lots(state: &State) -> Vec<RackLot> {
    let mut found: BTreeMap<(String, Stage), Vec<(Id, String)>> = BTreeMap::new();
    let rests = |piece: &&Piece| piece.work.rest().is_some() && piece.work.downgraded.is_none();
    for piece in stock(state).filter(rests) {
        let place = piece.work.place().map(|place| place.payload.clone());
        let lot = (place.unwrap_or_default(), stage_of(piece));
        let pieces = found.entry(lot).or_default();
        pieces.push((piece.id, piece.mark.clone()));
    }
    let lot = |((place, stage), mut pieces): (_, Vec<(Id, String)>)| {
        order::sort_by_key(&mut pieces, |(_, mark)| mark_order(mark));
        RackLot {
            place,
            stage,
            pieces,
        }
    };
    found.into_iter().map(lot).collect()
}
