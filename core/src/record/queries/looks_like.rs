//! Whether a plank that is being decided on stands in its pile already under another mark.
//!
//! It only asks: two planks sawn one after the other may be as alike.

use super::pairs::spoken_pairs;
use crate::plank::{Field, Instruments, Readings};
use crate::record::log::id::Id;
use crate::record::state::{Piece, State};

/// What both must have been measured of: length, a width, a thickness, and the weight. Sizes alone are often copied from
/// the plank before.
const ASKED: [&[Field]; 4] = [
    &[Field::Length],
    &[Field::WidthNear, Field::WidthMiddle, Field::WidthFar],
    &[
        Field::ThicknessNear,
        Field::ThicknessMiddle,
        Field::ThicknessFar,
    ],
    &[
        Field::WeightWhole,
        Field::WeightFirst,
        Field::WeightSecond,
        Field::BalanceArm,
    ],
];

/// The field at the other end.
fn from_the_other_end(field: Field) -> Field {
    match field {
        Field::WidthNear => Field::WidthFar,
        Field::WidthFar => Field::WidthNear,
        Field::ThicknessNear => Field::ThicknessFar,
        Field::ThicknessFar => Field::ThicknessNear,
        Field::WeightFirst => Field::WeightSecond,
        Field::WeightSecond => Field::WeightFirst,
        other => other,
    }
}

/// Whether the sizes and the weight of two planks are the same within what tape and scale can tell
/// ([`Instruments::tells_apart`]), from whichever end each was measured.
fn alike(one: &Readings, other: &Readings, tools: &Instruments) -> bool {
    let all_agree = |end: fn(Field) -> Field| {
        ASKED.iter().all(|fields| {
            let both = fields.iter().filter_map(|field| {
                // Where it was measured at one end alone, that is compared.
                let there = other.get(&end(*field)).or_else(|| other.get(field));
                Some((*field, one.get(field)?, there?))
            });
            let mut both = both.peekable();
            both.peek().is_some() && both.all(|(field, a, b)| !tools.tells_apart(field, a, b))
        })
    };
    all_agree(|field| field) || all_agree(from_the_other_end)
}

/// The plank of a pile that a plank with these readings looks like; `None` where none does, or the maker has said that
/// the two differ.
pub fn looks_like<'a>(
    state: &'a State,
    plank: Id,
    pile: Id,
    readings: &Readings,
    tools: &Instruments,
) -> Option<&'a Piece> {
    let spoken = spoken_pairs(state);
    let mut others = state.pieces_of(pile);
    others.find(|other| {
        let pair = (plank.min(other.id), plank.max(other.id));
        other.id != plank
            && !other.withdrawn
            && !spoken.contains(&pair)
            && alike(readings, &other.readings_in_use(), tools)
    })
}
