//! The frame of the screens behind a place: its bar, a way back, a title, the search.

use crate::action::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, bar, icon, notices, task_head};
use crate::route::Route;
use maud::{Markup, html};

/// A screen behind the place, with its bar. `keys` stand before the search.
pub fn inner(
    model: &Model,
    layout: Layout,
    title: &str,
    below: &str,
    keys: impl FnOnce(&Ui<'_>) -> Markup,
) -> Page {
    Page::new(title, layout)
        .with(model, "bar", "nav", bar)
        .with(model, "head", "header", |ui| {
            let keys =
                html! { (keys(ui)) (head_key(ui, ui.w.common.find, Icon::Find, Route::Find)) };
            task_head(ui, title, below, keys)
        })
        .with(model, "notices", "div", notices)
}

/// A key in the head that shows an icon only.
pub fn head_key(ui: &Ui<'_>, name: &str, picture: Icon, action: impl Into<Action>) -> Markup {
    html! {
        button.key.quiet type="button" data-press=(ui.press(action)) aria-label=(name) { (icon(picture)) }
    }
}

/// A key with its words.
pub fn key(ui: &Ui<'_>, name: &str, action: impl Into<Action>) -> Markup {
    html! { button.key type="button" data-press=(ui.press(action)) { (name) } }
}

/// The fact of a label and what stands beside it, a label never far from it.
pub fn facts(of: Vec<(String, Markup)>) -> Markup {
    html! {
        dl.facts {
            @for (name, fact) in of {
                dt { (name) }
                dd { (fact) }
            }
        }
    }
}
