//! A plank that is opened to be measured: its draft as it was kept, from what is recorded, or with what its
//! pile's planks share.

use super::draft::{Draft, DraftDefect, DraftValue};
use crate::plank::{Field, Reading, Readings, retyped};
use crate::record::log::Id;
use crate::record::queries::said_of_pile;
use crate::record::state::{Piece, State};

/// The draft of a piece: as `kept`, else from what is recorded, else with what the pile's planks share. `at`
/// is what the clock says. `None` where neither a draft nor the record knows it.
pub fn plank_draft(state: &State, piece: Id, kept: Option<Draft>, at: &str) -> Option<Draft> {
    let mut draft = match kept {
        Some(kept) => kept,
        None => recorded(state.piece(piece)?, at),
    };
    if draft.is_empty() {
        carry_over(state, &mut draft);
    }
    Some(draft)
}

fn kept_value(field: Field, taken: &Reading, confirmed: bool) -> DraftValue {
    DraftValue {
        text: retyped(field, taken),
        seen: taken.seen,
        confirmed,
    }
}

/// What is recorded of a plank, to be changed.
pub(super) fn recorded(known: &Piece, at: &str) -> Draft {
    let mut draft = Draft::new(known.pile, known.mark.clone(), at.to_owned());
    draft.piece = Some(known.id);
    draft.begun_from = Some(known.measured.clone());
    for (field, current) in &known.readings {
        let taken = &current.taken;
        draft.put(*field, kept_value(*field, taken, taken.confirmed));
    }
    let place = |taken: &Option<Reading>| {
        let taken = taken.as_ref();
        taken.map_or_else(String::new, |taken| retyped(Field::BowKink, taken))
    };
    for found in known.defects_found() {
        draft.defects.push(DraftDefect {
            from: place(&found.from),
            kind: found.kind,
            note: found.note.clone(),
            to: place(&found.to),
        });
    }
    if let Some((_, species)) = &known.species {
        draft.species.clone_from(&species.text);
    }
    draft
}

/// Puts into a new draft what the pile's planks share.
fn carry_over(state: &State, draft: &mut Draft) {
    for (field, taken) in said_of_pile(state, draft.pile) {
        draft.put(field, kept_value(field, &taken, false));
    }
}

/// The readings of the plank of this pile that was recorded last, to have them one touch away.
pub fn plank_before(state: &State, pile: Id, now: Id) -> Readings {
    let pieces = state.pieces_of(pile);
    let measured =
        pieces.filter(|piece| piece.id != now && !piece.withdrawn && !piece.readings.is_empty());
    let last = measured.max_by_key(|piece| piece.recorded.entry);
    last.map(Piece::readings_in_use).unwrap_or_default()
}

/// The next maybe of a pile that is not measured yet, besides one that is being decided on; `None` after the last.
pub fn next_maybe(state: &State, pile: Id, besides: Option<Id>) -> Option<Id> {
    let pieces = state.pieces_of(pile).filter(|piece| !piece.withdrawn);
    let pieces = pieces.filter(|piece| Some(piece.id) != besides);
    let open = pieces.filter(|piece| piece.decision().is_none() && piece.readings.is_empty());
    let next = open.min_by_key(|piece| piece.recorded.entry);
    next.map(|piece| piece.id)
}
