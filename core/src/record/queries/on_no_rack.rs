//! Planks that were bought and never put on a rack, visit by visit: what is to be done once a visit is home.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::marks::mark_order;
use crate::record::state::{Life, Piece, State};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// The planks of a visit that are on no rack yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnNoRack {
    /// The visit.
    pub visit: Id,
    /// Its yard.
    pub yard: String,
    /// Ids with their marks, in the order of the marks.
    pub planks: Vec<(Id, String)>,
}

/// Whether it is a plank that was bought, is at hand, and never came to a rack.
fn is_on_no_rack(piece: &Piece) -> bool {
    let work = &piece.work;
    work.kind == PieceKind::Plank
        && piece.life().0 == Life::Reading
        && work.came.is_none()
        && work.rest().is_none()
        && work.downgraded.is_none()
}

/// The planks that are on no rack yet: those of the latest visit first.
pub fn on_no_rack(state: &State) -> Vec<OnNoRack> {
    let mut found = BTreeMap::new();
    for piece in queries::stock(state).filter(|piece| is_on_no_rack(piece)) {
        if let Some(visit) = state.visit_of(piece) {
            let of_visit = found
                .entry((Reverse(visit.recorded.on), visit.id))
                .or_insert_with(|| OnNoRack {
                    visit: visit.id,
                    yard: visit.opened.yard.clone(),
                    planks: Vec::new(),
                });
            of_visit.planks.push((piece.id, piece.mark.clone()));
        }
    }
    let in_order = |mut one: OnNoRack| {
        order::sort_by_key(&mut one.planks, |(_, mark)| mark_order(mark));
        one
    };
    found.into_values().map(in_order).collect()
}
