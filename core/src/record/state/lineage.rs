//! Where each piece comes from, worked out once for a whole record where families are deep.
//!
//! In any shop a piece has a few cuts behind it, and whoever asks walks them. A damaged or hostile file can hold
//! chains of tens of thousands: then all pieces are gone through once, what a piece was made of before the
//! piece itself, and what was found is kept until the record changes. Nothing of it is state, and nothing
//! recurses on the stack. A family that goes in a circle has no beginning: nothing is said of it but that.

use crate::record::log::id::Id;
use crate::record::state::Origin;
use crate::record::state::{Piece, State};
use std::sync::Arc;

/// So many steps straight up a family are walked anew by whoever asks; what is deeper is kept. More than any piece
/// in a shop has behind it.
pub(crate) const STEPS_WALKED: usize = 16;

/// So many pieces of a family are gone through anew, see [`STEPS_WALKED`].
pub(crate) const FEW_PIECES: usize = 64;

/// The planks that a piece comes from, as far as one counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum FromPlank {
    #[default]
    None,
    One(Id),
    /// More than one.
    Several,
}

impl FromPlank {
    fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::None, one) | (one, Self::None) => one,
            (Self::One(a), Self::One(b)) if a == b => self,
            _ => Self::Several,
        }
    }

    pub(crate) fn one(self) -> Option<Id> {
        match self {
            Self::One(plank) => Some(plank),
            Self::None | Self::Several => None,
        }
    }
}

/// What is known of the family of each piece, by the place of its id in the order of all.
#[derive(Debug)]
pub(crate) struct Lineages {
    ids: Vec<Id>,
    /// Places, each after those of what it was made of; pieces whose family goes in a circle are in none.
    order: Vec<usize>,
    in_order: Vec<bool>,
    planks: Vec<FromPlank>,
    /// Of which piece the wood is told.
    wood_of: Vec<Option<Id>>,
}

impl Lineages {
    fn new(state: &State) -> Self {
        let ids: Vec<Id> = state.pieces.keys().copied().collect();
        let place = |id: &Id| ids.binary_search(&state.stands_for(*id)).ok();
        let made_of: Vec<Vec<usize>> = state
            .pieces
            .values()
            .map(|piece| {
                let all = piece.made_of();
                all.filter_map(|id| place(&id)).collect()
            })
            .collect();
        let order = parts_first(&made_of);
        let mut found = Self {
            in_order: vec![false; ids.len()],
            planks: vec![FromPlank::None; ids.len()],
            wood_of: vec![None; ids.len()],
            order,
            ids,
        };
        for at in found.order.clone() {
            found.in_order[at] = true;
            let id = found.ids[at];
            let Some(piece) = state.pieces.get(&id) else {
                continue;
            };
            let above = made_of[at].iter().map(|one| found.planks[*one]);
            found.planks[at] = match piece.work.origin {
                Origin::Yard => FromPlank::One(id),
                _ => above.fold(FromPlank::None, FromPlank::and),
            };
            let cut_from = piece.work.parent().and(made_of[at].first());
            found.wood_of[at] = match cut_from {
                Some(parent) if piece.species.is_none() => found.wood_of[*parent],
                _ => Some(id),
            };
        }
        found
    }

    fn place(&self, id: Id) -> Option<usize> {
        self.ids.binary_search(&id).ok()
    }

    pub(crate) fn plank_of(&self, id: Id) -> FromPlank {
        self.place(id).map(|at| self.planks[at]).unwrap_or_default()
    }

    pub(crate) fn wood_of(&self, id: Id) -> Option<Id> {
        self.wood_of[self.place(id)?]
    }

    /// The pieces, each after what it was made of.
    pub(crate) fn parts_first(&self) -> impl Iterator<Item = Id> {
        self.order.iter().map(|at| self.ids[*at])
    }

    pub(crate) fn goes_in_a_circle(&self, id: Id) -> bool {
        self.place(id).is_some_and(|at| !self.in_order[at])
    }
}

/// Places, each after those that it was made of; what leads back to itself, and what hangs on that, is left
/// out.
fn parts_first(made_of: &[Vec<usize>]) -> Vec<usize> {
    let mut made_from: Vec<Vec<usize>> = vec![Vec::new(); made_of.len()];
    for (at, parts) in made_of.iter().enumerate() {
        for part in parts {
            made_from[*part].push(at);
        }
    }
    let mut waits_for: Vec<usize> = made_of.iter().map(Vec::len).collect();
    let mut order: Vec<usize> = (0..made_of.len())
        .filter(|at| waits_for[*at] == 0)
        .collect();
    let mut next = 0;
    while let Some(&at) = order.get(next) {
        next += 1;
        for whole in &made_from[at] {
            waits_for[*whole] -= 1;
            if waits_for[*whole] == 0 {
                order.push(*whole);
            }
        }
    }
    order
}

impl Piece {
    /// What it was made of, by the ids as they were written.
    pub(crate) fn made_of(&self) -> impl Iterator<Item = Id> {
        let members = match &self.work.origin {
            Origin::GluedFrom { glued, .. } => &glued.members[..],
            _ => &[],
        };
        let members = members.iter().map(|member| member.piece);
        self.work.parent().into_iter().chain(members)
    }
}

impl State {
    /// What is known of all families, found anew where the record has changed.
    pub(crate) fn lineages(&self) -> Arc<Lineages> {
        self.memo.of(self.version(), || Lineages::new(self))
    }

    /// The family of a piece leads back to itself, or to one that does: it has no beginning, and nothing can be
    /// told by it. Only damage or two records that were never one shop's can say so.
    pub fn goes_in_a_circle(&self, id: Id) -> bool {
        let mut open = vec![self.stands_for(id)];
        for _ in 0..FEW_PIECES {
            let Some(id) = open.pop() else {
                return false;
            };
            let parts = self
                .pieces
                .get(&id)
                .into_iter()
                .flat_map(|piece| piece.made_of());
            open.extend(parts.map(|part| self.stands_for(part)));
        }
        self.lineages().goes_in_a_circle(self.stands_for(id))
    }
}
