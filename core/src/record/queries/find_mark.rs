//! Finding wood by what is typed in the header of a screen: by its mark, with or without dashes and check
//! character, or by words.

use crate::record::log::mark::plain_mark;
use crate::record::log::{Id, Mark, MarkError};
use crate::record::queries::marks::marks_on_wood;
use crate::record::queries::{Called, woods_in};
use crate::record::state::{End, Piece, State};

/// So many are found at most: who wants more types more.
const MOST_FOUND: usize = 50;

/// What was found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Found {
    /// Wood that carries the mark, whole or without its check character: a press opens it.
    pub exactly: Vec<Id>,
    /// Wood whose mark begins so, in the order of the marks.
    pub beginning: Vec<Id>,
    /// Wood of which all words are told: its wood, yard, pile, reasons, rack and notes.
    pub by_words: Vec<Id>,
    /// It is a mark whose check character does not fit: a sign is misread, or two are swapped.
    pub misread: Option<MarkError>,
}

/// Finds wood by a mark or by words. Capitals, dashes and spaces make no difference to a mark.
pub fn find_mark(state: &State, typed: &str) -> Found {
    find_mark_called(state, typed, &|_| None)
}

/// As [`find_mark`], where woods and reasons are shown by other names than core's: these are searched through too.
pub fn find_mark_called(state: &State, typed: &str, called: Called<'_>) -> Found {
    let plain = plain_mark(typed);
    if plain.is_empty() {
        return Found::default();
    }
    let marks = marks_on_wood(state);
    let of = |mark: &str| marks.get(mark).cloned().unwrap_or_default();
    let mut exactly = of(&plain);
    // Upper case as typed: a mark that adds up by chance may be the beginning of another.
    let letters: String = typed
        .chars()
        .filter(|sign| sign.is_alphanumeric())
        .collect();
    let letters = letters.to_uppercase();
    let whole = with_its_check(&letters);
    if exactly.is_empty()
        && let Some(whole) = whole.as_deref()
    {
        exactly = of(whole);
    }
    let begins = marks.range(letters.clone()..);
    let begins = begins.take_while(|(mark, _)| mark.starts_with(&letters));
    let mut beginning: Vec<Id> = Vec::new();
    for id in begins.flat_map(|(_, pieces)| pieces) {
        if !exactly.contains(id) && !beginning.contains(id) && beginning.len() < MOST_FOUND {
            beginning.push(*id);
        }
    }
    let by_words = match exactly.is_empty() && beginning.is_empty() {
        true => by_words(state, typed, called),
        false => Vec::new(),
    };
    let nothing = exactly.is_empty() && beginning.is_empty() && by_words.is_empty();
    let misread = Mark::parse(typed).err().filter(|why| {
        let read_wrong = matches!(why, MarkError::DoesNotAddUp(_));
        nothing && whole.is_none() && read_wrong
    });
    Found {
        exactly,
        beginning,
        by_words,
        misread,
    }
}

/// The mark that was typed without its check character, as marks are compared.
fn with_its_check(letters: &str) -> Option<String> {
    let checks = ('0'..='9').chain('A'..='Z');
    let whole = checks.map(|check| format!("{letters}{check}"));
    whole
        .filter_map(|whole| Mark::parse(&whole).ok())
        .map(|mark| plain_mark(&mark.to_string()))
        .next()
}

/// Wood of which all words are told.
fn by_words(state: &State, typed: &str, called: Called<'_>) -> Vec<Id> {
    let typed = typed.to_lowercase();
    let words: Vec<&str> = typed.split_whitespace().collect();
    let mut found = Vec::new();
    for piece in state.pieces() {
        let told = told_of(state, piece, called);
        if words.iter().all(|word| told.contains(word)) {
            found.push(piece.id);
            if found.len() == MOST_FOUND {
                break;
            }
        }
    }
    found
}

/// What is told of a piece, in small letters.
fn told_of(state: &State, piece: &Piece, called: Called<'_>) -> String {
    let named = |name: &str| [Some(name.to_owned()), called(name)].into_iter().flatten();
    let mut told = vec![piece.mark.clone()];
    told.extend(
        woods_in(state, piece.id)
            .into_iter()
            .flat_map(|wood| named(&wood.text)),
    );
    if let Some(pile) = state.pile(piece.pile) {
        told.push(pile.opened.name.clone());
        if let Some(visit) = state.visit(pile.opened.visit) {
            told.push(visit.opened.yard.clone());
        }
    }
    if let Some(judged) = piece.judgement() {
        let reasons = judged.judged.reasons.iter();
        told.extend(reasons.flat_map(|reason| named(reason.name())));
    }
    if let Some(End::Discarded(discarded, _)) = piece.work.end.as_ref().map(|end| &end.payload) {
        let reasons = discarded.reasons.iter();
        told.extend(reasons.flat_map(|reason| named(reason.name())));
    }
    told.extend(piece.work.place().map(|place| place.payload.clone()));
    told.extend(piece.notes.iter().map(|note| note.text.clone()));
    told.join(" ").to_lowercase()
}
