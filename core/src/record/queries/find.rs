//! Wood found by what is typed: its mark, with or without dashes and in capitals or not, or words of its wood, its
//! yard, its rack, or why it was rejected or discarded.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::log::mark::{Mark, MarkError, plain_mark};
use crate::record::queries;
use crate::record::queries::marks::{mark_order, marks_on_wood};
use crate::record::queries::rests::place_of;
use crate::record::state::{End, Life, Piece, State};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// How closely a mark fits, the closest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FoundBy {
    /// Its mark is the one typed.
    WholeMark,
    /// Its mark begins so, with or without the name of the device.
    StartOfMark,
    /// The words stand in its mark, wood, yard, rack or reasons.
    Words,
}

/// A piece that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoundWood {
    /// The piece.
    pub piece: Id,
    /// Its mark.
    pub mark: String,
    /// What it is.
    pub kind: PieceKind,
    /// Where it is in its life, and since when.
    pub life: (Life, NaiveDate),
    /// Its wood.
    pub wood: String,
    /// The yard where its plank was found; empty where several were.
    pub yard: String,
    /// Its rack; empty where none was said.
    pub place: String,
    /// Why it was rejected or discarded; empty where it was not.
    pub reasons: String,
    /// By what it was found.
    pub by: FoundBy,
}

/// What a search gives.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Finding {
    /// What was found, the closest first, so many at most as were asked for.
    pub found: Vec<FoundWood>,
    /// How many more there are.
    pub more: usize,
    /// What is wrong with a mark that was typed in full and is on no wood.
    pub mark_error: Option<MarkError>,
}

impl Finding {
    /// The one piece whose mark was typed in full; none where several carry it.
    pub fn exact(&self) -> Option<Id> {
        let mut whole = self.found.iter().filter(|one| one.by == FoundBy::WholeMark);
        let first = whole.next()?;
        whole.next().is_none().then_some(first.piece)
    }
}

/// The signs that tell a device: they begin each mark.
const SIGNS_OF_DEVICE: usize = 2;

/// All wood that fits what is typed; nothing for nothing.
pub fn find(state: &State, typed: &str, most: usize) -> Finding {
    let plain = plain_mark(typed);
    let words: Vec<String> = typed.split_whitespace().map(str::to_lowercase).collect();
    if plain.is_empty() || words.is_empty() {
        return Finding::default();
    }
    let mut by: BTreeMap<Id, FoundBy> = BTreeMap::new();
    for (mark, pieces) in marks_on_wood(state).iter() {
        let short = mark.get(SIGNS_OF_DEVICE..).unwrap_or_default();
        let how = if *mark == plain {
            FoundBy::WholeMark
        } else if mark.starts_with(&plain) || short.starts_with(&plain) {
            FoundBy::StartOfMark
        } else {
            continue;
        };
        for piece in pieces {
            let known = by.entry(*piece).or_insert(how);
            *known = (*known).min(how);
        }
    }
    let mut hits: Vec<FoundWood> = Vec::new();
    for piece in state.pieces().filter(|piece| !piece.withdrawn) {
        let by_mark = by.get(&piece.id).copied();
        if by_mark.is_none() && !has_words(state, piece, &words) {
            continue;
        }
        hits.push(found(state, piece, by_mark.unwrap_or(FoundBy::Words)));
    }
    order::sort_by_key(&mut hits, |one| {
        let gone = state
            .piece(one.piece)
            .is_none_or(|piece| !piece.is_at_hand());
        (one.by, gone, mark_order(&one.mark))
    });
    let more = hits.len().saturating_sub(most);
    hits.truncate(most);
    let in_full = hits.is_empty() && words.len() == 1;
    let mark_error = match Mark::parse(typed) {
        Err(error @ MarkError::DoesNotAddUp(_)) if in_full => Some(error),
        _ => None,
    };
    Finding {
        found: hits,
        more,
        mark_error,
    }
}

fn yard_of<'a>(state: &'a State, piece: &Piece) -> &'a str {
    let visit = state.visit_of(piece);
    visit.map_or("", |visit| &visit.opened.yard)
}

/// Why it was rejected at the yard or discarded in the workshop, the main reason first.
fn reasons_of(piece: &Piece) -> String {
    let rejected = piece.judgement().map(|said| &said.judged.reasons);
    let discarded = piece.work.end.as_ref().and_then(|end| match &end.payload {
        End::Discarded(discarded, _) => Some(&discarded.reasons),
        _ => None,
    });
    let all = rejected.into_iter().chain(discarded).flatten();
    all.map(|reason| reason.name())
        .collect::<Vec<_>>()
        .join(", ")
}

fn has_words(state: &State, piece: &Piece, words: &[String]) -> bool {
    let pile = state.pile(piece.pile).map_or("", |pile| &pile.opened.name);
    let text = format!(
        "{} {} {} {pile} {} {} {}",
        piece.mark,
        queries::woods_named(state, piece.id),
        yard_of(state, piece),
        place_of(piece),
        reasons_of(piece),
        piece.work.kind.name(),
    );
    let text = text.to_lowercase();
    words.iter().all(|word| text.contains(word))
}

fn found(state: &State, piece: &Piece, by: FoundBy) -> FoundWood {
    FoundWood {
        piece: piece.id,
        mark: piece.mark.clone(),
        kind: piece.work.kind,
        life: piece.life(),
        wood: queries::woods_named(state, piece.id),
        yard: yard_of(state, piece).to_owned(),
        place: place_of(piece),
        reasons: reasons_of(piece),
        by,
    }
}
