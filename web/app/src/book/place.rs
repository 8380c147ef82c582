//! The book as a place: a list of what it holds.

use super::parts::opens;
use super::{settle, share};
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, place_page, toast};
use crate::route::Route;
use crate::words::count;
use maud::{Markup, html};

/// The screen.
pub fn view(model: &Model) -> Page {
    place_page(model, model.words().book.title)
        .with(model, "body", "main", body)
        .with(model, "toast", "div", toast)
}

fn body(ui: &Ui<'_>) -> Markup {
    let (words, shares) = (&ui.w.book, &ui.w.share);
    let kept = share::only_here(ui.model).map_or(String::new(), |(_, said)| said);
    let open: usize = settle::found(ui.model)
        .iter()
        .filter(|one| !one.calm)
        .map(|one| one.count)
        .sum();
    let settle = match open {
        0 => words.settle_below.to_owned(),
        n => count(n as u64, shares.to_settle_one, shares.to_settle_other),
    };
    html! {
        div.columns {
            section {
                h2.small { (words.group_save) }
                ul.list {
                    (opens(ui, Icon::Share, shares.title, &kept, Route::Share))
                    (opens(ui, Icon::Warn, shares.settle_title, &settle, Route::Settle))
                }
            }
            section {
                h2.small { (words.group_learn) }
                ul.list {
                    (opens(ui, Icon::Chart, words.track_record, words.track_record_below, Route::TrackRecord))
                    (opens(ui, Icon::Plan, words.plan, words.plan_below, Route::Plan))
                }
            }
            section {
                h2.small { (words.group_ask) }
                ul.list {
                    (opens(ui, Icon::Ask, words.questions, words.questions_below, Route::QuickQuestions))
                    (opens(ui, Icon::Woods, words.woods, words.woods_below, Route::Woods))
                }
            }
            section {
                h2.small { (words.group_app) }
                ul.list {
                    (opens(ui, Icon::Settings, words.settings, words.settings_below, Route::Settings))
                    (opens(ui, Icon::Info, words.about, words.about_below, Route::About))
                }
            }
        }
    }
}
