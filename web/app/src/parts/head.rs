//! The head of a screen and the bar of the five places.

use super::{Icon, icon};
use crate::action::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::route::{Place, Route};
use maud::{Markup, html};

/// The head of one task: a way back, what it is about, a line below, and keys at the right.
pub fn task_head(ui: &Ui<'_>, title: &str, below: &str, keys: Markup) -> Markup {
    html! {
        button.key.quiet.back type="button" data-press=(ui.press(Action::Back)) aria-label=(ui.w.common.back) {
            (icon(Icon::Back))
        }
        div.titles {
            h1 #title tabindex="-1" { (title) }
            @if !below.is_empty() { p.below { (below) } }
        }
        (keys)
    }
}

/// The head of a place: its name and the search.
pub fn place_head(ui: &Ui<'_>, title: &str, keys: Markup) -> Markup {
    html! {
        h1 #title tabindex="-1" { (title) }
        @if ui.model.shell.sample { span.chip.note { (ui.w.common.sample) } }
        (keys)
        button.key.quiet type="button" data-press=(ui.press(Route::Find)) aria-label=(ui.w.common.find) {
            (icon(Icon::Find))
        }
    }
}

/// The bar of the five places; on a wide screen it stands at the left.
pub fn bar(ui: &Ui<'_>) -> Markup {
    let here = ui.model.route.place();
    let words = &ui.w.common;
    let of = |place: Place| match place {
        Place::Today => (words.today, Icon::Today),
        Place::Yard => (words.yard, Icon::Yard),
        Place::Racks => (words.racks, Icon::Racks),
        Place::Blanks => (words.blanks, Icon::Blanks),
        Place::Book => (words.book, Icon::Book),
    };
    html! {
        @for place in Place::ALL {
            @let (name, picture) = of(place);
            a href=(place.first().address()) aria-current=[(place == here).then_some("page")]
                data-press=(ui.press(Action::Go(place.first())))
            {
                span.pill { (icon(picture)) }
                span { (name) }
            }
        }
    }
}

/// A place with its bar, its head and the notices.
pub fn place_page(model: &Model, title: &str) -> Page {
    Page::new(title, Layout::Place)
        .with(model, "bar", "nav", bar)
        .with(model, "head", "header", |ui| {
            place_head(ui, title, html! {})
        })
        .with(model, "notices", "div", super::notices)
}

/// The same with its body, and on a wide screen a pane beside it where there is one.
pub fn place_with_pane(
    model: &Model,
    title: &str,
    body: impl FnOnce(&Ui<'_>) -> Markup,
    pane: Option<impl FnOnce(&Ui<'_>) -> Markup>,
) -> Page {
    let mut page = place_page(model, title).with(model, "body", "main", body);
    if let Some(pane) = pane.filter(|_| model.shell.wide) {
        page.layout = Layout::ListAndPane;
        page = page.with(model, "pane", "aside", pane);
    }
    page.with(model, "toast", "div", super::toast)
}
