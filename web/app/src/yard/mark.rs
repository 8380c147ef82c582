//! A plank's mark, large, to be chalked; or that which is chalked on it already, where its record was lost.

use super::Action;
use super::kept::keep_draft;
use crate::action::Action as Any;
use crate::effect::Effect;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::words::{Spoken, fill};
use maud::{Markup, html};
use stillwood_core::record::{Draft, Id, Mark, queries};

/// The field in which the mark is typed.
const FIELD: &str = "chalked-mark";

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let draft = model.drafts.iter().find(|draft| draft.piece == Some(id));
    let known = model.state().piece(id).map(|piece| &piece.mark);
    let mark = draft.map(|draft| &draft.mark).or(known)?;
    let page = Page::new(mark.clone(), Layout::Bare)
        .with(model, "body", "main", |ui| {
            html! {
                (to_chalk(ui, mark))
                @if known.is_none() { (another(ui, id)) }
            }
        })
        .with(model, "foot", "footer", |ui| {
            html! {
                button.key.main.big.wide type="button" data-press=(ui.press(Any::Back)) { (ui.w.common.back) }
            }
        });
    Some(page)
}

/// What is typed as the mark that a plank bears already, where it is one and no other plank has it; else why not.
fn chalked(model: &Model, id: Id) -> Result<String, String> {
    let mark = Mark::parse(&model.yard.chalked).map_err(|why| why.to_string().spoken())?;
    let mark = mark.to_string();
    let is_another = |draft: &Draft| draft.piece != Some(id) && draft.mark == mark;
    let on_wood = queries::pieces_with_mark(model.state(), &mark);
    match on_wood.is_empty() && !model.drafts.iter().any(is_another) {
        true => Ok(mark),
        false => Err(fill(model.words().yard.mark_is_taken, &[("mark", &mark)])),
    }
}

fn another(ui: &Ui<'_>, id: Id) -> Markup {
    let (words, typed) = (&ui.w.yard, &ui.model.yard.chalked);
    html! {
        div.field {
            label for=(FIELD) { (words.chalked_already) }
            input id=(FIELD) name=(FIELD) value=(typed) autocomplete="off" autocapitalize="characters" spellcheck="false";
            @if !typed.trim().is_empty() {
                @match chalked(ui.model, id) {
                    Ok(mark) => button.key type="button" data-press=(ui.press(Action::UseChalked(id))) {
                        (fill(words.use_this_mark, &[("mark", &mark)]))
                    },
                    Err(why) => p.notice.doubt { (why) },
                }
            }
        }
    }
}

/// Something typed into the field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    if name == FIELD {
        model.yard.chalked = text;
    }
    Vec::new()
}

/// The plank bears the mark that is typed, from here on in its half-typed record as well.
pub fn use_chalked(model: &mut Model, id: Id) -> Vec<Effect> {
    let Ok(mark) = chalked(model, id) else {
        return Vec::new();
    };
    let mut drafts = model.drafts.iter();
    let Some(draft) = drafts.find(|draft| draft.piece == Some(id)) else {
        return Vec::new();
    };
    let draft = Draft {
        mark,
        ..draft.clone()
    };
    model.yard.chalked.clear();
    let mut effects = keep_draft(model, draft);
    effects.push(Effect::Back);
    effects
}

/// A mark over the whole screen.
pub fn to_chalk(ui: &Ui<'_>, mark: &str) -> Markup {
    html! {
        h1 #title tabindex="-1" { (ui.w.yard.chalk_this) }
        p.chalk { (mark) }
    }
}
