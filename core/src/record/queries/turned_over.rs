//! How many planks a maker turns over in a yard for each that is bought.

use crate::record::log::Decision;
use crate::record::state::State;
use std::collections::BTreeMap;

/// What was turned over and what was bought in a yard, on all visits to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TurnedOver {
    /// Planks looked at, those left in the quick sort among them.
    pub looked_at: u64,
    pub bought: u64,
}

impl TurnedOver {
    /// Planks turned over for each that was bought; `None` where none was.
    pub fn for_each_bought(self) -> Option<f64> {
        (self.bought > 0).then(|| self.looked_at as f64 / self.bought as f64)
    }
}

/// What was turned over and bought, yard by yard; a yard in which nothing was looked at is left out.
pub fn turned_over(state: &State) -> BTreeMap<String, TurnedOver> {
    let mut yards: BTreeMap<String, TurnedOver> = BTreeMap::new();
    for visit in state.visits() {
        for pile in state.piles_of(visit.id).filter(|pile| !pile.withdrawn) {
            let bought = state
                .pieces_of(pile.id)
                .filter(|piece| !piece.withdrawn && piece.decision() == Some(Decision::Take));
            let of = yards.entry(visit.opened.yard.clone()).or_default();
            of.looked_at += pile.looked_at();
            of.bought += bought.count() as u64;
        }
    }
    yards.retain(|_, of| of.looked_at > 0);
    yards
}
