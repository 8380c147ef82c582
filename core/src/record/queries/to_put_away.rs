//! Pieces that nobody has put away yet: planks that were bought and never came to a rack, visit by visit, the parts of
//! a cut that were not set to rest, cut by cut, and blanks that were glued and never set to rest. It is what is to be
//! done once a visit is home, a plank is sawn or the clamps are off.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::marks::mark_order;
use crate::record::state::{Life, Origin, Piece, State};
use chrono::NaiveDate;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Pieces that are put away together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PutAway {
    /// The planks of a visit: they are put on a rack.
    PlanksOfVisit(Id),
    /// The parts that a piece was cut into: they are set to rest.
    PartsOfCut(Id),
    /// A blank that was glued: it is set to rest.
    GluedBlank(Id),
}

/// Pieces that are to be put away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToPutAway {
    /// Which they are.
    pub which: PutAway,
    /// The yard of the visit, or the mark of what was cut or glued.
    pub from: String,
    /// Ids with their marks, in the order of the marks.
    pub pieces: Vec<(Id, String)>,
}

/// Where a piece belongs that is to be put away, since when, and what that is called.
fn group(state: &State, piece: &Piece) -> Option<(Reverse<NaiveDate>, PutAway, String)> {
    let work = &piece.work;
    if work.rest().is_some() || work.downgraded.is_some() {
        return None;
    }
    match (piece.life(), &work.origin) {
        ((Life::Bought, _), _) if work.kind == PieceKind::Plank && work.came.is_none() => {
            let visit = state.visit_of(piece)?;
            let which = PutAway::PlanksOfVisit(visit.id);
            Some((Reverse(visit.recorded.on), which, visit.opened.yard.clone()))
        }
        ((Life::InShop, since), Origin::CutFrom { parent, .. }) => {
            let parent = state.piece(*parent)?;
            let which = PutAway::PartsOfCut(parent.id);
            Some((Reverse(since), which, parent.mark.clone()))
        }
        // One that somebody chose before it rested still has to; one that is used is not asked for any more.
        ((Life::InShop | Life::Reserved, since), Origin::GluedFrom { .. })
            if work.rests.is_empty() =>
        {
            let which = PutAway::GluedBlank(piece.id);
            Some((Reverse(since), which, piece.mark.clone()))
        }
        _ => None,
    }
}

/// What is to be put away, the latest first.
pub fn to_put_away(state: &State) -> Vec<ToPutAway> {
    let mut found = BTreeMap::new();
    for piece in queries::stock(state) {
        if let Some((since, which, from)) = group(state, piece) {
            let first = || {
                let pieces = Vec::new();
                (
                    since,
                    ToPutAway {
                        which,
                        from,
                        pieces,
                    },
                )
            };
            let (latest, one) = found.entry(which).or_insert_with(first);
            *latest = since.min(*latest);
            one.pieces.push((piece.id, piece.mark.clone()));
        }
    }
    let mut found: Vec<(Reverse<NaiveDate>, ToPutAway)> = found.into_values().collect();
    order::sort_by_key(&mut found, |(since, one)| (*since, one.which));
    let in_order = |mut one: ToPutAway| {
        order::sort_by_key(&mut one.pieces, |(_, mark)| mark_order(mark));
        one
    };
    found.into_iter().map(|(_, one)| in_order(one)).collect()
}
