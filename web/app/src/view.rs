//! The screen of a model: a pure function.

use crate::model::Model;
use crate::page::{Layout, Page};
use crate::parts::{bar, dialog, notices, place_head, task_head};
use crate::route::Route;
use crate::{book, yard};
use maud::html;

/// The screen.
pub fn view(model: &Model) -> Page {
    let page = screen(model).unwrap_or_else(|| missing(model));
    page.with(model, "over", "div", dialog)
}

fn screen(model: &Model) -> Option<Page> {
    match model.route {
        Route::Sort(id) => yard::sort::view(model, id),
        Route::Measure(id) => yard::measure::view(model, id),
        Route::Verdict(id) => yard::verdict::view(model, id),
        Route::Mark(id) => yard::mark::view(model, id),
        Route::Book => Some(book::place::view(model)),
        Route::Share => Some(book::share::view(model)),
        Route::BroughtIn => Some(book::imports::view(model)),
        Route::Deleted => Some(book::deleted::view(model)),
        Route::Settle => Some(book::settle_cards::view(model)),
        Route::QuickQuestions => Some(book::questions::view(model)),
        Route::Settings => Some(book::settings::view(model)),
        Route::Woods => Some(book::woods::view(model)),
        Route::NewWood => book::own_wood::view(model, None),
        Route::EditWood(id) => book::own_wood::view(model, Some(id)),
        Route::TrackRecord => Some(book::track_record::view(model)),
        Route::Plan => Some(book::plan::view(model)),
        Route::About => Some(book::about::view(model)),
        _ => Some(to_come(model)),
    }
}

/// A place with its bar.
pub fn place(model: &Model, title: &str) -> Page {
    Page::new(title, Layout::Place)
        .with(model, "bar", "nav", bar)
        .with(model, "head", "header", |ui| place_head(ui, title, html! {}))
        .with(model, "notices", "div", notices)
}

fn to_come(model: &Model) -> Page {
    place(model, model.words().common.app)
}

/// A screen for what is not in the record.
fn missing(model: &Model) -> Page {
    let title = model.words().common.app;
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, title, "", html! {}))
        .with(model, "body", "main", |ui| html! { p { (ui.w.common.not_here) } })
}
