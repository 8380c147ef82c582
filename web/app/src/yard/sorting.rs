//! What the keys of the quick sort do: No, Maybe, a mark to chalk.

use super::Action;
use super::kept::keep_draft;
use crate::effect::{AfterRecorded, Effect, MarkFor};
use crate::model::Model;
use crate::route::Route;
use crate::tell::{self, say};
use crate::words::{Spoken, fill};
use stillwood_core::record::commands::sort;
use stillwood_core::record::{Draft, Id};

/// Whether a key of the sort is pressed so soon after the one before it that it was not meant.
pub fn is_repeated(model: &mut Model) -> bool {
    model.yard.last_press.is_repeated(model.now.millis)
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
    tell::record(sort::no(pile, reasons).events, said)
}

pub fn delete_last_no(model: &mut Model, pile: Id) -> Vec<Effect> {
    let events = sort::undo_last_no(model.state(), pile).events;
    if events.is_empty() {
        return Vec::new();
    }
    tell::record(events, model.words().yard.last_no_deleted.to_owned())
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
pub fn take_mark(model: &mut Model, wanted: MarkFor) -> Vec<Effect> {
    if model.yard.busy {
        return Vec::new();
    }
    model.yard.busy = true;
    if matches!(wanted, MarkFor::Measuring(_)) {
        // What was said names the plank before: over the next one it would tell to chalk the wrong mark.
        model.toast = None;
    }
    vec![Effect::TakeMark(wanted)]
}

/// The id of a plank that a mark was taken for; none where no mark is left.
fn marked(model: &mut Model, mark: &str) -> Option<Id> {
    model.yard.busy = false;
    model.new_id().filter(|_| !mark.is_empty())
}

fn no_mark_left(model: &mut Model) -> Vec<Effect> {
    let text = model.words().yard.no_mark_left;
    say(model, text)
}

/// A mark is this device's to give: a plank of a pile is measured under it.
pub fn measure_marked(model: &mut Model, pile: Id, mark: String) -> Vec<Effect> {
    let Some(piece) = marked(model, &mark) else {
        return no_mark_left(model);
    };
    let mut draft = Draft::new(pile, mark, model.now.at.clone());
    draft.piece = Some(piece);
    // Kept at once: its mark may be chalked before the first key.
    let mut effects = keep_draft(model, draft);
    effects.push(Effect::Go(Route::Measure(piece)));
    effects
}

/// A mark is this device's to give: a plank of a pile that may be good is recorded under it.
pub fn maybe_marked(model: &mut Model, pile: Id, mark: String) -> Vec<Effect> {
    let Some(piece) = marked(model, &mark) else {
        return no_mark_left(model);
    };
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
            said: fill(model.words().yard.chalk_on_it, &[("mark", &mark)]),
            // Chalk on wood can't be taken back: the mark is shown once it is recorded.
            next: Some(Box::new(Action::Chalk(piece, mark).into())),
            ..AfterRecorded::default()
        },
    }]
}
