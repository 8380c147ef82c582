//! What was deleted, and how much a deletion takes along.

use crate::order;
use crate::record::log::{Event, EventStatus, Id, Log};
use crate::record::queries::descendants;
use crate::record::state::{Origin, Piece, State};
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
        .filter(|piece| piece.is_from_yard() && !piece.withdrawn)
        .map(|piece| piece.id)
        .collect();
    with_it(state, piles, planks, |piece| !piece.withdrawn)
}

/// All that goes with piles and planks; of what was made of the planks that which is `meant`.
fn with_it(state: &State, piles: Vec<Id>, planks: Vec<Id>, meant: fn(&Piece) -> bool) -> Deletion {
    let mut made = BTreeSet::new();
    for plank in &planks {
        made.extend(descendants(state, *plank));
    }
    let is_meant = |id: &Id| state.piece(*id).is_some_and(meant);
    let gone = crate::order::set_of(planks.iter().chain(&made).copied());
    let only_of_them = |id: &Id| {
        let piece = state.piece(*id);
        piece.is_some_and(|piece| members_of(piece).iter().all(|member| gone.contains(member)))
    };
    let (made_of_them, in_doubt) = made.into_iter().filter(is_meant).partition(only_of_them);
    Deletion {
        left_in_sort: piles
            .iter()
            .filter_map(|id| state.pile(*id))
            .map(|pile| pile.passed_over())
            .sum(),
        made_of_them,
        in_doubt,
        piles,
        planks,
    }
}

/// The laminates of a blank; none of any other piece.
fn members_of(piece: &Piece) -> Vec<Id> {
    match &piece.work.origin {
        Origin::GluedFrom { glued, .. } => {
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
    /// The entries that deleted it: taken back, all of it is there again.
    pub by: Vec<Id>,
    /// The day on which it was deleted, as the maker says.
    pub on: NaiveDate,
    /// How much went with it.
    pub took: Deletion,
}

/// What was deleted, the latest in front: visits, piles of visits that are there, and planks of piles that are.
pub fn deleted(state: &State, log: &Log) -> Vec<Deleted> {
    let of_deleted_visit = |id: &Id| {
        let pile = state.pile(*id);
        pile.is_some_and(|pile| state.deleted.contains_key(&pile.opened.visit))
    };
    let took_along = |about: Id| {
        let own = state.pile(about).map(|pile| pile.id);
        let piles = state.piles.values().filter(|pile| {
            // A pile that had been deleted by itself did not go with its visit.
            pile.opened.visit == about && !state.deleted.contains_key(&pile.id)
        });
        let piles = own.into_iter().chain(piles.map(|pile| pile.id)).collect();
        let in_it = |piece: &&Piece| {
            let pile = state.pile(piece.pile);
            let visit = pile.map(|pile| pile.opened.visit);
            piece.pile == about || visit == Some(about)
        };
        let all = state.pieces.values().map(|piece| &**piece);
        let planks = all
            .filter(|piece| piece.work.origin == Origin::Yard && piece.withdrawn)
            .filter(in_it)
            // A plank that had been deleted by itself did not go with it.
            .filter(|piece| taken_back_by(piece, log).is_empty());
        let planks = planks.map(|piece| piece.id).collect();
        with_it(state, piles, planks, |piece| piece.withdrawn)
    };
    let mut found: Vec<(u64, Deleted)> = Vec::new();
    let mut put = |about: Id, by: Vec<Id>, took: Deletion| {
        let entries = by.iter().filter_map(|id| log.entry(*id));
        if let Some(last) = entries.max_by_key(|entry| entry.order()) {
            let (on, step) = (last.on, last.step);
            let deleted = Deleted {
                about,
                by,
                on,
                took,
            };
            found.push((step, deleted));
        }
    };
    for (about, by) in &state.deleted {
        if !of_deleted_visit(about) {
            put(*about, vec![*by], took_along(*about));
        }
    }
    for piece in state.pieces.values().filter(|piece| piece.withdrawn) {
        if !is_in_deleted(state, piece.pile) {
            let by = taken_back_by(piece, log);
            if !by.is_empty() {
                let took = with_it(state, Vec::new(), vec![piece.id], |piece| piece.withdrawn);
                put(piece.id, by, took);
            }
        }
    }
    order::sort_by_key(&mut found, |(step, deleted)| {
        (Reverse(*step), deleted.by.clone())
    });
    found.into_iter().map(|(_, deleted)| deleted).collect()
}

/// What has to be put back for a deleted plank to be there again: its visit, its pile or, where it was deleted by
/// itself, the plank; `None` where nothing was deleted, as with an import that was undone.
pub fn deleted_with(state: &State, log: &Log, plank: &Piece) -> Option<Id> {
    let visit = state.pile(plank.pile).map(|pile| pile.opened.visit);
    let mut around = visit.into_iter().chain([plank.pile]);
    let around = around.find(|id| state.deleted.contains_key(id));
    around.or_else(|| (!taken_back_by(plank, log).is_empty()).then_some(plank.id))
}

/// The entries that took the marks of a plank back; several where it was recorded more than once.
fn taken_back_by(piece: &Piece, log: &Log) -> Vec<Id> {
    let by = piece.history.iter().filter_map(|line| {
        let EventStatus::TakenBack { by } = line.standing else {
            return None;
        };
        matches!(log.entry(line.entry)?.event, Event::Marked(_)).then_some(by)
    });
    order::set_of(by).into_iter().collect()
}
