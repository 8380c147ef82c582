//! Wood that waits for no day: what was never set to rest, planks that never came to a rack, what can't be found.

use crate::order;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::marks::mark_order;
use crate::record::state::{Piece, State};

/// Wood that waits for no day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotAtRest {
    /// The piece.
    pub piece: Id,
    /// Its mark.
    pub mark: String,
}

/// All of it, by mark; what is missing is in it.
pub fn not_at_rest(state: &State) -> Vec<NotAtRest> {
    let waits =
        |piece: &Piece| piece.work.rest().is_some() || queries::in_room_since(piece).is_some();
    let idle = queries::stock(state).filter(|piece| piece.is_bought() && !waits(piece));
    let one = |piece: &Piece| NotAtRest {
        piece: piece.id,
        mark: piece.mark.clone(),
    };
    let mut all: Vec<NotAtRest> = idle.chain(queries::missing_wood(state)).map(one).collect();
    order::sort_by_key(&mut all, |one| mark_order(&one.mark));
    all
}
