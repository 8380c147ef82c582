//! Marks for what is about to be cut: proposed, and looked at before they are written on wood. It changes
//! no mark that was typed.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::log::mark::plain_mark;
use crate::record::queries::child_marks;
use crate::record::state::State;
use std::collections::BTreeMap;
use std::sync::Arc;
use thiserror::Error;

/// Why something can't be marked so.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NamingFault {
    #[error("Give it a mark.")]
    Nothing,
    /// Another piece of wood has it.
    #[error("{0} is the mark of something else: give it another.")]
    Reading(String),
    /// Two of these would have it.
    #[error("{0} stands on two of them.")]
    Twice(String),
}

/// Every mark that stands on wood, as marks are compared, with the pieces that carry it, by id.
type OnWood = BTreeMap<String, Vec<Id>>;

/// All marks, found anew where the record has changed.
pub(crate) fn marks_on_wood(state: &State) -> Arc<OnWood> {
    state.memo.of(state.version(), || {
        let mut found: Vec<(String, Id)> = Vec::new();
        for piece in state.pieces() {
            let marks = piece.marks.iter().map(|mark| plain_mark(mark));
            found.extend(marks.map(|mark| (mark, piece.id)));
        }
        order::sort(&mut found);
        found.dedup();
        let same = found.chunk_by(|a, b| a.0 == b.0);
        let pieces = |all: &[(String, Id)]| {
            let ids = all.iter().map(|(_, id)| *id).collect();
            (all[0].0.clone(), ids)
        };
        same.map(pieces).collect()
    })
}

/// Marks for what is cut out of a piece, as [`child_marks`] has them, those passed over that stand on
/// other wood already.
pub fn marks_for(state: &State, parent: &str, kind: PieceKind, count: usize) -> Vec<String> {
    let taken = marks_on_wood(state);
    let stem = plain_mark(parent);
    let alike = taken.range(stem.clone()..);
    let alike = alike
        .take_while(|(mark, _)| mark.starts_with(&stem))
        .count();
    let mut marks = child_marks(parent, kind, count + alike);
    marks.retain(|mark| !taken.contains_key(&plain_mark(mark)));
    marks.truncate(count);
    marks
}

/// What is wrong with marks that are to be given together, each in its place; capitals, dashes and
/// spaces make no difference.
pub fn naming_faults(state: &State, marks: &[String]) -> Vec<Option<NamingFault>> {
    let taken = marks_on_wood(state);
    let mut times = BTreeMap::<String, usize>::new();
    for mark in marks {
        *times.entry(plain_mark(mark)).or_default() += 1;
    }
    let fault = |mark: &String| {
        let shown = mark.trim().to_owned();
        let plain = plain_mark(mark);
        if plain.is_empty() {
            Some(NamingFault::Nothing)
        } else if times.get(&plain).is_some_and(|times| *times > 1) {
            Some(NamingFault::Twice(shown))
        } else if taken.contains_key(&plain) {
            Some(NamingFault::Reading(shown))
        } else {
            None
        }
    };
    marks.iter().map(fault).collect()
}
