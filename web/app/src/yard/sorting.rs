//! What the keys of the quick sort do: No, Maybe, a mark to chalk.

use super::Action;
use super::kept::keep_draft;
use crate::effect::{AfterRecorded, Effect, MarkFor};
use crate::model::Model;
use crate::route::Route;
use crate::tell::say;
use crate::words::{Spoken, fill};
use stillwood_core::record::commands::sort;
use stillwood_core::record::{Draft, Id};

/// A press of one of these keys so many milliseconds after the one before it was not meant.
const NOT_MEANT: u64 = 300;

/// Whether a key of the sort is pressed so soon after the one before it that it was not meant.
pub fn is_repeated(model: &mut Model) -> bool {
    let now = model.now.millis;
    let before = model.yard.pressed_at.replace(now);
    before.is_some_and(|before| now.saturating_sub(before) < NOT_MEANT)
}

pub fn no(model: &mut Model, pile: Id) -> Vec<Effect> {
    if model.yard.busy {
        return Vec::new();
    }
    model.yard.all_reasons = false;
    let reasons = std::mem::take(&mut model.yard.reasons);
    let words = &model.words().yard;
    let names: Vec<String> = reasons
        .iter()
        .map(|reason| reason.name().spoken())
        .collect();
    let said = match names.as_slice() {
        [] => words.said_no_without.to_owned(),
        names => fill(words.said_no, &[("reason", &names.join(", "))]),
    };
    vec![Effect::Record {
        events: sort::no(pile, reasons).events,
        after: AfterRecorded {
            said,
            ..AfterRecorded::default()
        },
    }]
}

pub fn delete_last_no(model: &mut Model, pile: Id) -> Vec<Effect> {
    let events = sort::undo_last_no(model.state(), pile).events;
    if events.is_empty() {
        return Vec::new();
    }
    vec![Effect::Record {
        events,
        after: AfterRecorded {
            said: model.words().yard.last_no_deleted.to_owned(),
            ..AfterRecorded::default()
        },
    }]
}

/// The planks of a pile that were begun and left empty, with their marks. One of them is taken up again before a new
/// mark is given, so that no mark is lost; the shell knows which of them another window is at.
pub fn left_empty(model: &Model, pile: Id) -> Vec<(Id, String)> {
    let left = model
        .drafts
        .iter()
        .filter(|draft| draft.pile == pile && draft.is_empty());
    let left = left.filter_map(|draft| Some((draft.piece?, draft.mark.clone())));
    left.filter(|(piece, _)| model.state().piece(*piece).is_none())
        .collect()
}

/// Takes a mark.
pub fn take_mark(model: &mut Model, pile: Id, then: MarkFor) -> Vec<Effect> {
    if model.yard.busy {
        return Vec::new();
    }
    model.yard.busy = true;
    if then == MarkFor::Measuring {
        // What was said names the plank before: over the next one it would tell to chalk the wrong mark.
        model.toast = None;
    }
    vec![Effect::TakeMark { pile, then }]
}

/// A mark is this device's to give.
pub fn mark_taken(model: &mut Model, pile: Id, then: MarkFor, mark: String) -> Vec<Effect> {
    model.yard.busy = false;
    let piece = model.new_id().filter(|_| !mark.is_empty());
    let Some(piece) = piece else {
        let text = model.words().yard.no_mark_left;
        return say(model, text);
    };
    match then {
        // Blanks take theirs where they are glued.
        MarkFor::Blank => Vec::new(),
        MarkFor::Measuring => {
            let mut draft = Draft::new(pile, mark, model.now.at.clone());
            draft.piece = Some(piece);
            // Kept at once: its mark may be chalked before the first key.
            let mut effects = keep_draft(model, draft);
            effects.push(Effect::Go(Route::Measure(piece)));
            effects
        }
        MarkFor::Maybe => {
            let said = model.words().yard.noted_as_maybe.to_owned();
            // Chalk on wood can't be taken back: the mark is shown once it is recorded.
            let chalk = Action::Chalk(piece, mark.clone());
            let filled = match sort::maybe(model.state(), pile, piece, &mark) {
                Ok(filled) => filled,
                Err(why) => {
                    let why = why.all().first().map(|(_, why)| why.spoken());
                    return say(model, why.unwrap_or_default());
                }
            };
            vec![Effect::Record {
                events: filled.events,
                after: AfterRecorded {
                    said,
                    next: Some(Box::new(chalk.into())),
                    ..AfterRecorded::default()
                },
            }]
        }
    }
}
