//! What was deleted, and how much a deletion takes along.

use crate::order;
use crate::record::log::{Id, Log};
use crate::record::queries::descendants;
use crate::record::state::{Piece, State};
use chrono::NaiveDate;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// How much is deleted with a visit, a pile or a plank.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Deletion {
    /// The piles.
    pub piles: Vec<Id>,
    /// The planks.
    pub planks: Vec<Id>,
    /// Planks that were looked at and left in the quick sort.
    pub left_in_sort: u64,
    /// What was made of the planks in the workshop, and goes with them.
    pub made_of_them: Vec<Id>,
    /// Blanks of other wood as well, which stay and fall into doubt.
    pub in_doubt: Vec<Id>,
}

/// How much is deleted with a visit, a pile or a plank; nothing of what is none.
pub fn deletion(state: &State, about: Id) -> Deletion {
    let piles: Vec<Id> = match state.visit(about) {
        Some(visit) => visit.piles.iter().copied().collect(),
        None => state.pile(about).map(|pile| pile.id).into_iter().collect(),
    };
    let in_piles = || piles.iter().filter_map(|pile| state.pile(*pile));
    let plank = state.piece(about).filter(|piece| piece.is_from_yard());
    let planks: Vec<Id> = in_piles()
        .flat_map(|pile| state.pieces_of(pile.id))
        .chain(plank)
        .filter(|piece| !piece.withdrawn)
        .map(|piece| piece.id)
        .collect();
    let mut made = BTreeSet::new();
    for plank in &planks {
        made.extend(descendants(state, *plank));
    }
    let alive = |id: &Id| state.piece(*id).is_some_and(|piece| !piece.withdrawn);
    let gone = crate::order::set_of(planks.iter().chain(&made).copied());
    let only_of_them = |id: &Id| {
        let piece = state.piece(*id);
        piece.is_some_and(|piece| members_of(piece).iter().all(|member| gone.contains(member)))
    };
    let (made_of_them, in_doubt) = made.into_iter().filter(alive).partition(only_of_them);
    Deletion {
        left_in_sort: in_piles().map(|pile| pile.passed_over()).sum(),
        made_of_them,
        in_doubt,
        piles,
        planks,
    }
}

/// The laminates of a blank; none of any other piece.
fn members_of(piece: &Piece) -> Vec<Id> {
    match &piece.work.origin {
        crate::record::state::Origin::GluedFrom { glued, .. } => {
            glued.members.iter().map(|member| member.piece).collect()
        }
        _ => Vec::new(),
    }
}

/// Whether a half-typed plank of a pile is out of every list: its pile was deleted, or the pile's visit.
pub fn is_in_deleted(state: &State, pile: Id) -> bool {
    state.pile(pile).is_some_and(|pile| pile.withdrawn)
}

/// Something that was deleted and can be put back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Deleted {
    /// The visit, pile or plank.
    pub about: Id,
    /// The entry that deleted it: taken back, all of it is there again.
    pub by: Id,
    /// The day on which it was deleted, as the maker says.
    pub on: NaiveDate,
    /// How many planks went with it.
    pub planks: usize,
}

/// What was deleted, the latest in front: visits, piles of visits that are there, and planks of piles that are.
pub fn deleted(state: &State, log: &Log) -> Vec<Deleted> {
    let of_deleted_visit = |id: &Id| {
        let pile = state.pile(*id);
        pile.is_some_and(|pile| state.deleted.contains_key(&pile.opened.visit))
    };
    let planks_of = |about: Id| {
        let in_it = |piece: &&Piece| {
            let pile = state.pile(piece.pile);
            let visit = pile.map(|pile| pile.opened.visit);
            piece.pile == about || visit == Some(about)
        };
        let all = state.pieces.values().map(|piece| &**piece);
        all.filter(|piece| piece.work.parent().is_none() && piece.withdrawn)
            .filter(in_it)
            // A plank that had been deleted by itself did not go with it.
            .filter(|piece| taken_back_by(piece).is_none())
            .count()
    };
    let mut found: Vec<(u64, Deleted)> = Vec::new();
    let mut put = |about: Id, by: Id, planks: usize| {
        if let Some(entry) = log.entry(by) {
            let on = entry.on;
            let deleted = Deleted {
                about,
                by,
                on,
                planks,
            };
            found.push((entry.step, deleted));
        }
    };
    for (about, by) in &state.deleted {
        if !of_deleted_visit(about) {
            put(*about, *by, planks_of(*about));
        }
    }
    for piece in state.pieces.values().filter(|piece| piece.withdrawn) {
        if let Some(by) = taken_back_by(piece).filter(|_| !is_in_deleted(state, piece.pile)) {
            put(piece.id, by, 1);
        }
    }
    order::sort_by_key(&mut found, |(step, deleted)| (Reverse(*step), deleted.by));
    found.into_iter().map(|(_, deleted)| deleted).collect()
}

/// The entry that took a plank's mark back.
fn taken_back_by(piece: &Piece) -> Option<Id> {
    use crate::record::log::EventStatus;
    let begun = piece.recorded.entry;
    let line = piece.history.iter().find(|line| line.entry == begun)?;
    match line.standing {
        EventStatus::TakenBack { by } => Some(by),
        _ => None,
    }
}
