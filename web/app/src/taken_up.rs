//! A form that was left half typed is taken up again on its screen.

use crate::blanks;
use crate::effect::Effect;
use crate::form::{self, FormId};
use crate::half_typed::{form_of_key, screen};
use crate::model::{HalfTyped, Model};
use crate::racks::{self, PieceForm, rests, round};
use crate::route::Route;
use crate::tell::keep;
use std::collections::BTreeMap;
use stillwood_core::record::Draft;

/// Goes to a half-typed form, by the key under which it is kept.
pub fn go_on(model: &mut Model, key: String) -> Vec<Effect> {
    let Some(kept) = model.forms.get(&key) else {
        return Vec::new();
    };
    let route = screen(model, &key, kept);
    let form = form_of_key(&key);
    let deed = match (route, form) {
        (Route::Deed(_), Some(FormId::Workshop(_, name))) => Some(PieceForm::Workshop(name)),
        (Route::Deed(_), Some(FormId::FlattenAgain(_))) => Some(PieceForm::FlattenAgain),
        _ => None,
    };
    match (route, deed) {
        (Route::Deed(id), Some(deed)) => racks::update(model, racks::Action::Do(id, deed)),
        _ => {
            model.go_on = form;
            vec![Effect::Go(route)]
        }
    }
}

/// Its screen is shown: where several may stand open there, it is this one.
pub fn arrived(model: &mut Model) -> Vec<Effect> {
    match (model.go_on.take(), model.route) {
        (Some(form @ (FormId::RestTimes(_) | FormId::RoomAir)), Route::RestTimes) => {
            model.form = None;
            rests::toggle(model, form)
        }
        (Some(FormId::Moved(piece)), Route::LookOver) => round::take_up(model, piece),
        (Some(FormId::Workshop(id, name)), Route::Blank(_)) => blanks::open_form(model, id, name),
        (Some(form), Route::Cut(_)) if model.form.is_none() => {
            form::open(model, form);
            Vec::new()
        }
        _ => Vec::new(),
    }
}

/// Takes in what is half typed as all windows of this device left it. What is open here stays as it is typed here.
pub fn half_typed(model: &mut Model, drafts: Vec<Draft>, mut forms: BTreeMap<String, HalfTyped>) {
    let open = model.yard.entering.as_ref().map(|one| one.piece);
    let is_open = |draft: &Draft| draft.piece.is_some() && draft.piece == open;
    let own = model.drafts.iter().find(|draft| is_open(draft)).cloned();
    model.drafts = drafts;
    if let Some(own) = own {
        match model.drafts.iter_mut().find(|draft| is_open(draft)) {
            Some(there) => *there = own,
            None => model.drafts.push(own),
        }
    }
    let open = model.form.as_ref().map(|form| form.key.clone());
    if let Some((key, own)) = open.and_then(|key| model.forms.remove_entry(&key)) {
        forms.insert(key, own);
    }
    model.forms = forms;
}

/// What was recorded is undone: its form stands open again, in place of the screen that it led to.
pub fn reopen(model: &mut Model, key: &str, kept: HalfTyped) -> Vec<Effect> {
    if let Some(FormId::Moved(piece)) = form_of_key(key) {
        model
            .racks
            .round
            .checked_this_round
            .retain(|(one, _)| *one != piece);
    }
    let mut effects = keep(format!("{}{key}", form::FORM), &kept);
    model.forms.insert(key.to_owned(), kept);
    let there = go_on(model, key.to_owned()).into_iter();
    effects.extend(there.map(|effect| match effect {
        Effect::Go(route) => Effect::Replace(route),
        other => other,
    }));
    effects
}
