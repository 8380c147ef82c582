//! What the screens of the book are put together from: fields that are no form, choices, lists that fold.

use crate::action::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, bar, icon, notices, task_head, toast};
use crate::route::Route;
use maud::{Markup, html};
use stillwood_core::quantity::show;

/// A screen of the book with the bar of the places, a way back and the search.
pub fn screen(model: &Model, title: &str, below: &str) -> Page {
    Page::new(title, Layout::Place)
        .with(model, "bar", "nav", bar)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, below, html! {
                button.key.quiet type="button" data-press=(ui.press(Route::Find)) aria-label=(ui.w.common.find) {
                    (icon(Icon::Find))
                }
            })
        })
        .with(model, "notices", "div", notices)
        .with(model, "toast", "div", toast)
}

/// One of several that exclude each other: whether it is chosen, what it is called, and what choosing it does.
pub type Choice<'a> = (bool, &'a str, Action);

/// A group of choices that exclude each other.
pub fn choose(ui: &Ui<'_>, label: &str, of: Vec<Choice<'_>>) -> Markup {
    html! {
        div.field role="radiogroup" aria-label=(label) {
            span.name { (label) }
            div.chips {
                @for (chosen, name, action) in of {
                    button.chip type="button" role="radio" aria-checked=(chosen.to_string())
                        data-press=(ui.press(action)) { (name) }
                }
            }
        }
    }
}

/// A line that opens a screen: icon, name, what there is to say of it.
pub fn opens(
    ui: &Ui<'_>,
    picture: Icon,
    name: &str,
    below: &str,
    action: impl Into<Action>,
) -> Markup {
    html! {
        li {
            button.item type="button" data-press=(ui.press(action)) {
                (icon(picture))
                span.what { strong { (name) } @if !below.is_empty() { span.below { (below) } } }
                (icon(Icon::Forward))
            }
        }
    }
}

/// Names and what stands beside each.
pub fn facts(of: &[(&str, String)]) -> Markup {
    html! {
        dl.facts {
            @for (name, value) in of { dt { (name) } dd { (value) } }
        }
    }
}

/// A share.
pub fn percent(share: f64) -> String {
    format!("{} %", show::whole_percent(share))
}
