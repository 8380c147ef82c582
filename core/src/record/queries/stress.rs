//! What the tests for stress say of a piece: those made on it, and those on what it was cut from.
//!
//! It brings the record's gaps to the readings of seasoning; it decides nothing.

use crate::quantity::{Derivation, Length, mm};
use crate::record::log::id::Id;
use crate::record::log::{StressTest, StressTested};
use crate::record::queries;
use crate::record::state::{Piece, State};
use crate::season::{Stage, StressSays, fork_says, ripped_says, spring_of_part};
use chrono::NaiveDate;

/// How far a part springs.
#[derive(Debug, Clone, PartialEq)]
pub struct Spring {
    pub by: Length,
    pub over: Length,
    /// At which bow a piece of that length is out by the terms in force; `None` where they have none.
    pub out_at: Option<Length>,
    pub working: Derivation,
}

/// A test and what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct StressFound {
    pub piece: Id,
    pub mark: String,
    pub on: NaiveDate,
    pub tested: StressTested,
    pub says: StressSays,
    /// How far a part springs over the length for which the limits of pieces hold; `None` for a fork
    /// test, for no stress, and where the offcut's length was not noted.
    pub spring: Option<Spring>,
}

/// What the tests for stress say, of this piece and of what it was cut from, nearest first. `feeler`
/// is how far off a gap may be.
pub fn explain_stress(state: &State, id: Id, feeler: Length) -> Vec<StressFound> {
    let line = std::iter::once(state.stands_for(id)).chain(queries::ancestors(state, id));
    let pieces = line.filter_map(|id| state.piece(id));
    let tests = pieces.flat_map(|piece| piece.work.tests.iter().map(move |said| (piece, said)));
    tests
        .map(|(piece, said)| told_of(state, piece, said.on, &said.payload, feeler))
        .collect()
}

fn told_of(
    state: &State,
    piece: &Piece,
    on: NaiveDate,
    tested: &StressTested,
    feeler: Length,
) -> StressFound {
    let gap = mm(tested.gap.value);
    let says = match tested.test {
        StressTest::Fork => fork_says(gap, feeler),
        StressTest::Ripped => ripped_says(gap, feeler),
    };
    let springs = matches!(says, StressSays::SpringsOpen | StressSays::SpringsShut);
    let offcut = tested.over.as_ref().filter(|_| springs);
    StressFound {
        piece: piece.id,
        mark: piece.mark.clone(),
        on,
        tested: tested.clone(),
        says,
        spring: offcut.and_then(|offcut| spring(state, gap, mm(offcut.value))),
    }
}

fn spring(state: &State, gap: Length, offcut: Length) -> Option<Spring> {
    let over = mm(queries::stage_limits(state, Stage::Pieces).over_mm);
    let mut working = Derivation::default();
    let by = spring_of_part(&mut working.steps, gap, offcut, over)?;
    Some(Spring {
        by,
        over,
        out_at: queries::spring_allowed(state, over),
        working,
    })
}
