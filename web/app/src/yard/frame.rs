//! The frame of the screens behind a place: its bar, a way back, a title, the search.

use crate::action::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, bar, icon, notices};
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
            html! {
                button.key.quiet.back type="button" data-press=(ui.press(Action::Back)) aria-label=(ui.w.common.back) {
                    (icon(Icon::Back))
                }
                div.titles {
                    h1 #title tabindex="-1" { (title) }
                    @if !below.is_empty() { p.below { (below) } }
                }
                (keys(ui))
                button.key.quiet type="button" data-press=(ui.press(Route::Find)) aria-label=(ui.w.common.find) {
                    (icon(Icon::Find))
                }
            }
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
