//! A plank's mark, large, to be chalked.

use crate::action::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use maud::{Markup, html};
use stillwood_core::record::Id;

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let draft = model.drafts.iter().find(|draft| draft.piece == Some(id));
    let known = model.state().piece(id).map(|piece| &piece.mark);
    let mark = draft.map(|draft| &draft.mark).or(known)?;
    let page = Page::new(mark.clone(), Layout::Bare)
        .with(model, "body", "main", |ui| to_chalk(ui, mark))
        .with(model, "foot", "footer", |ui| {
            html! {
                button.key.main.big.wide type="button" data-press=(ui.press(Action::Back)) { (ui.w.common.back) }
            }
        });
    Some(page)
}

/// A mark over the whole screen.
pub fn to_chalk(ui: &Ui<'_>, mark: &str) -> Markup {
    html! {
        h1 #title tabindex="-1" { (ui.w.yard.chalk_this) }
        p.chalk { (mark) }
    }
}
