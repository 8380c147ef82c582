//! What is done on the screens of the blanks: as they open, at a key, at a press.

use super::chosen::chosen_side_by_side;
use super::{Action, filter, matching, place};
use super::{Answer, BLANKS, CHOICE, MOST_SIDE_BY_SIDE};
use crate::effect::{Effect, MarkFor, NewEvent};
use crate::form::{self, FormId};
use crate::half_typed;
use crate::model::Model;
use crate::route::Route;
use crate::tell::{self, say};
use crate::words::fill;
use stillwood_core::neck::MatchLimits;
use stillwood_core::record::commands::{glue, gluing_limits};
use stillwood_core::record::{Event, Id, Released, workshop_command};

/// What a screen does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    model.blanks.recording = None;
    model.blanks.more = false;
    // Going through the list leaves it as long as it was.
    model.blanks.all &= matches!(model.route, Route::Blank(_));
    let mut effects = match model.route {
        Route::Match => Vec::new(),
        // Nobody looks at what is being looked for.
        _ => matching::stop(model),
    };
    effects.extend(opened_here(model));
    effects
}

fn opened_here(model: &mut Model) -> Vec<Effect> {
    match model.route {
        Route::Match => matching::opened(model),
        Route::GlueUp => {
            form::open(model, FormId::GlueUp);
            matching::take_up(model);
            let has_mark = model
                .form
                .as_ref()
                .is_some_and(|form| !form.text(glue::MARK.key).is_empty());
            if has_mark {
                Vec::new()
            } else {
                vec![Effect::TakeMark(MarkFor::Blank)]
            }
        }
        Route::GluingLimits => {
            form::open(model, FormId::GluingLimits);
            Vec::new()
        }
        // Its gluing was undone.
        Route::Blank(id) if model.state().piece(id).is_some_and(|piece| piece.withdrawn) => {
            vec![Effect::Replace(Route::Blanks)]
        }
        Route::Blank(id) => {
            let mut effects = vec![Effect::ScrollTo(place::CHOSEN.to_owned())];
            effects.extend(take_up_half_typed(model, &[id]));
            effects
        }
        Route::SideBySide => {
            let ids = chosen_side_by_side(model);
            take_up_half_typed(model, &ids)
        }
        _ => Vec::new(),
    }
}

/// A form of one of these blanks that was left half typed stands open again.
fn take_up_half_typed(model: &mut Model, ids: &[Id]) -> Vec<Effect> {
    // Of several it is the one that stood open last.
    if let Some(FormId::Workshop(id, name)) = half_typed::stood_open(model, model.route)
        && ids.contains(&id)
        && model.forms.contains_key(&FormId::Workshop(id, name).key())
    {
        return open_form(model, id, name);
    }
    for id in ids {
        for command in &stillwood_core::record::WORKSHOP_COMMANDS {
            if model.forms.contains_key(&command.form_key(*id)) {
                return open_form(model, *id, command.key);
            }
        }
    }
    Vec::new()
}

/// Opens a form of something done with a blank.
pub fn open_form(model: &mut Model, id: Id, name: &'static str) -> Vec<Effect> {
    if workshop_command(name).is_none() {
        return Vec::new();
    }
    form::open(model, FormId::Workshop(id, name));
    model.blanks.recording = Some((id, name));
    let mut effects = half_typed::stands_open(model, model.route, FormId::Workshop(id, name));
    effects.push(Effect::ScrollTo("recording".to_owned()));
    effects
}

/// A key of a keyboard: up and down go through the list of a wide screen.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    let step = match key {
        "ArrowUp" => -1,
        "ArrowDown" => 1,
        _ => return Vec::new(),
    };
    let here = match model.route {
        Route::Blank(id) => Some(id),
        Route::Blanks => None,
        _ => return Vec::new(),
    };
    if !model.shell.wide || model.blanks.recording.is_some() {
        return Vec::new();
    }
    let ids = place::listed(model);
    let at = here.and_then(|id| ids.iter().position(|one| *one == id));
    let next = match at {
        Some(at) => at.checked_add_signed(step),
        None => Some(0),
    };
    let next = next.and_then(|next| ids.get(next));
    next.map_or_else(Vec::new, |id| vec![Effect::Replace(Route::Blank(*id))])
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    // What was asked before it is answered.
    model.dialog = None;
    match action {
        Action::All => {
            model.blanks.all = !model.blanks.all;
            Vec::new()
        }
        Action::More => {
            model.blanks.more = !model.blanks.more;
            // It would lie over what can be done.
            let open = model.blanks.more;
            model.toast.take_if(|_| open);
            Vec::new()
        }
        Action::Open(id, name) => open_form(model, id, name),
        Action::CloseForm => {
            model.blanks.recording = None;
            model.form = None;
            Vec::new()
        }
        Action::Release(id) => {
            let mark = model.state().piece(id).map_or("", |piece| &piece.mark);
            let said = fill(model.words().blanks.said_free, &[("mark", &mark)]);
            tell::record(vec![NewEvent::new(id, Event::Released(Released {}))], said)
        }
        Action::SideBySide(id) => turn_side_by_side(model, id),
        Action::NoneSideBySide => keep_choice(model, &[]),
        Action::OfWood(wood) => tell::choose(model, BLANKS, "Wood", wood),
        Action::LimitsAsSupplied => {
            let supplied = gluing_limits::texts(&MatchLimits::default());
            let mut effects = Vec::new();
            for field in gluing_limits::FIELDS {
                let text = supplied.get(field.key).cloned().unwrap_or_default();
                effects.extend(form::update(model, form::FormAction::Put(field.key, text)));
            }
            effects
        }
        Action::Glue => matching::glue(model),
        other => matching::update(model, other),
    }
}

fn keep_choice(model: &mut Model, ids: &[Id]) -> Vec<Effect> {
    let ids: Vec<String> = ids.iter().map(Id::to_string).collect();
    tell::choose(model, CHOICE, "blanks", ids.join(" "))
}

fn turn_side_by_side(model: &mut Model, id: Id) -> Vec<Effect> {
    let mut ids = chosen_side_by_side(model);
    match ids.iter().position(|one| *one == id) {
        Some(at) => drop(ids.remove(at)),
        None if ids.len() >= MOST_SIDE_BY_SIDE => {
            let text = fill(
                model.words().blanks.six_at_most,
                &[("n", &MOST_SIDE_BY_SIDE)],
            );
            return say(model, text);
        }
        None => ids.push(id),
    }
    if model.blanks.recording.is_some_and(|(of, _)| of == id) {
        model.blanks.recording = None;
        model.form = None;
    }
    keep_choice(model, &ids)
}

/// Something typed into a field that is no form: what a blank has to be.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    match model.route {
        Route::Blanks | Route::Blank(_) if filter::NAMES.contains(&name) => {
            tell::choose(model, BLANKS, name, text)
        }
        _ => Vec::new(),
    }
}

/// A mark is this device's to give: the blank gets it, unless one was typed meanwhile.
pub fn mark_taken(model: &mut Model, mark: String) -> Vec<Effect> {
    form::offer(model, FormId::GlueUp, glue::MARK.key, mark);
    Vec::new()
}

/// Takes what the work beside the page gave.
pub fn answered(model: &mut Model, answer: Answer) -> Vec<Effect> {
    matching::answered(model, answer);
    Vec::new()
}
