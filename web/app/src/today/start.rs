//! The start, while nothing is recorded: one sentence, two keys, and a ghosted plank that shows what will come.

use crate::action::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::route::Route;
use maud::{Markup, html};

/// The screen.
pub fn view(model: &Model) -> Page {
    Page::new(model.words().common.app, Layout::Bare).with(model, "body", "main", |ui| {
        let words = &ui.w.today;
        html! {
            div.start {
                (mark())
                h1 #title tabindex="-1" { (ui.w.common.app) }
                p { (words.what_it_is) }
                (ghost(ui))
                @if ui.model.shell.install_first { p.notice.doubt { strong { (words.install_first) } " " (words.install_first_how) } }
                button.key.main.big.whole type="button" data-press=(ui.press(Route::NewVisit)) { (words.start_a_visit) }
                button.key.big.whole type="button" data-press=(ui.press(Action::OpenSample(true))) { (words.open_sample) }
                p.below { (words.stays_here) }
                div.keys.middle {
                    a.key.quiet href=(Route::Racks.address()) data-press=(ui.press(Route::Racks)) { (ui.w.common.racks) }
                    a.key.quiet href=(Route::Share.address()) data-press=(ui.press(Route::Share)) { (words.open_a_file) }
                    a.key.quiet href=(Route::Book.address()) data-press=(ui.press(Route::Book)) { (ui.w.common.book) }
                }
            }
        }
    })
}

/// The app's own mark: the end grain of a plank.
fn mark() -> Markup {
    html! {
        svg.own-mark viewBox="0 0 76 62" aria-hidden="true" {
            clipPath #own-mark { rect x="2" y="2" width="72" height="58" rx="5" {} }
            rect x="2" y="2" width="72" height="58" rx="5" fill="#e8cfa0" {}
            g clip-path="url(#own-mark)" fill="none" stroke="#b98a4a" stroke-width="4" {
                @for ring in 1_u32..9 { circle cx="16" cy="66" r=(ring * 10 + 3) {} }
            }
            rect x="2" y="2" width="72" height="58" rx="5" fill="none" stroke="#6b4f2c" stroke-width="2.5" {}
        }
    }
}

/// A plank that is not there yet.
fn ghost(ui: &Ui<'_>) -> Markup {
    let yard = &ui.w.yard;
    html! {
        svg.ghost viewBox="0 0 320 132" aria-hidden="true" {
            path d="M6 16H286M6 11v10M286 11v10" {}
            text x="146" y="11" text-anchor="middle" { (yard.length) }
            path.dashed d="M6 38L286 32V96L6 102Z" {}
            path.dashed d="M294 36h20v58h-20z" {}
            text x="146" y="72" text-anchor="middle" { (yard.grain) }
            path.dashed d="M6 122Q146 114 286 122" {}
            text x="146" y="131" text-anchor="middle" { (yard.bow) }
        }
    }
}
