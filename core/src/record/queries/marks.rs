//! Marks for what is about to be cut: proposed, and looked at before they are written on wood. It changes
//! no mark that was typed.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::log::mark::{Mark, plain_mark};
use crate::record::log::{NAME_SIGNS, has_hidden_sign, visible_text};
use crate::record::queries;
use crate::record::state::State;
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::Arc;
use thiserror::Error;

/// Why something can't be marked so.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NamingFault {
    #[error("Give it a mark.")]
    Nothing,
    /// Longer than the record takes.
    #[error("“{0}…” is too long for a mark: {NAME_SIGNS} letters at most.")]
    TooLong(String),
    #[error("“{0}” holds a sign that can't be seen: type it anew.")]
    HiddenSign(String),
    /// Another piece of wood has it.
    #[error("{0} is the mark of something else: give it another.")]
    MarkTaken(String),
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
        order::map_of(same.map(pieces))
    })
}

/// A stretch of a mark: digits are compared as the number that they are.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum MarkPart {
    /// Digits.
    Number(u64),
    /// All else, as it stands.
    Signs(String),
}

/// Which of two marks stands first in a list: `a9` before `a10`.
pub fn compare_marks(one: &str, other: &str) -> Ordering {
    mark_order(one).cmp(&mark_order(other))
}

/// A mark as a list is ordered by it: `a9` before `a10`.
pub(crate) fn mark_order(mark: &str) -> Vec<MarkPart> {
    let mut parts = Vec::new();
    let mut rest = mark;
    while let Some(first) = rest.chars().next() {
        let digits = first.is_ascii_digit();
        let ends = rest.find(|sign: char| sign.is_ascii_digit() != digits);
        let (part, after) = rest.split_at(ends.unwrap_or(rest.len()));
        // More digits than a number holds are compared as they stand.
        parts.push(match part.parse() {
            Ok(number) if digits => MarkPart::Number(number),
            _ => MarkPart::Signs(part.to_owned()),
        });
        rest = after;
    }
    parts
}

/// Marks as short as they can be told apart on a drawing: without the check character, and without the device where
/// all are of one and each is a part of something, so that no bare number stands there; whole where that does not
/// tell them apart.
///
/// ```
/// use stillwood_core::record::queries::short_marks;
/// let marks = |of: &[&str]| of.iter().map(|one| (*one).to_owned()).collect::<Vec<_>>();
/// assert_eq!(short_marks(&marks(&["K7-13-M a", "K7-5-P b"])), ["13 a", "5 b"]);
/// assert_eq!(short_marks(&marks(&["K7-13-M a", "K7-5-P"])), ["K7-13 a", "K7-5"]);
/// assert_eq!(short_marks(&marks(&["K7-13-M a", "H3-2-Y"])), ["K7-13 a", "H3-2"]);
/// assert_eq!(short_marks(&marks(&["K7-13-M a", "offcut"])), ["K7-13-M a", "offcut"]);
/// ```
pub fn short_marks(marks: &[String]) -> Vec<String> {
    let split = |mark: &'_ String| {
        let (own, part) = mark.split_once(' ').unwrap_or((mark, ""));
        Some((Mark::parse(own).ok()?, part.to_owned()))
    };
    let parsed: Option<Vec<(Mark, String)>> = marks.iter().map(split).collect();
    let Some(parsed) = parsed else {
        return marks.to_vec();
    };
    let devices = order::set_of(parsed.iter().map(|(own, _)| own.device()));
    let all_parts = parsed.iter().all(|(_, part)| !part.is_empty());
    let short = parsed.iter().map(|(own, part)| {
        let number = match devices.len() {
            0 | 1 if all_parts => own.number().to_string(),
            _ => format!("{}-{}", own.device(), own.number()),
        };
        format!("{number} {part}").trim_end().to_owned()
    });
    let short: Vec<String> = short.collect();
    let told_apart = order::set_of(short.iter()).len() == marks.len();
    if told_apart { short } else { marks.to_vec() }
}

/// Marks for what is cut out of a piece, as [`queries::child_marks`] has them, those passed over that stand on
/// other wood already.
pub fn marks_for(state: &State, parent: &str, kind: PieceKind, count: usize) -> Vec<String> {
    let taken = marks_on_wood(state);
    let marks = queries::family::child_marks_in_turn(parent, kind);
    let free = marks.filter(|mark| !taken.contains_key(&plain_mark(mark)));
    free.take(count).collect()
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
        } else if mark.chars().count() > NAME_SIGNS {
            Some(NamingFault::TooLong(mark.chars().take(20).collect()))
        } else if has_hidden_sign(mark) {
            Some(NamingFault::HiddenSign(visible_text(mark).into_owned()))
        } else if times.get(&plain).is_some_and(|times| *times > 1) {
            Some(NamingFault::Twice(shown))
        } else if taken.contains_key(&plain) {
            Some(NamingFault::MarkTaken(shown))
        } else {
            None
        }
    };
    marks.iter().map(fault).collect()
}
