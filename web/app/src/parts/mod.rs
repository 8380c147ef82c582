//! What screens are put together from.

mod dialog;
pub mod field;
mod gauge;
mod head;
mod history;
mod icon;
mod keypad;
mod notices;
mod ring;
mod typed;

pub use dialog::dialog;
pub use gauge::{Gauge, gauge, usual_gauge};
pub use head::{bar, place_head, place_page, place_with_pane, task_head};
pub use history::history_line;
pub use icon::{Icon, icon};
pub use keypad::{Key, after_key, keypad};
pub use notices::{ask_to_delete_everything, notices, toast, urgent};
pub use ring::{Segment, ring};
pub use typed::{Typed, typed};

use crate::action::Action;
use crate::page::Ui;
use maud::{Markup, html};

/// What can be done with a piece: all else behind More (whether that stands open, and what opens it), the second key, and
/// the one next act under the thumb.
pub fn next_keys(ui: &Ui<'_>, more: (bool, Action), second: &Markup, first: &Markup) -> Markup {
    let (open, open_it) = more;
    html! {
        div.keys.row {
            button.key.big type="button" aria-expanded=(open.to_string()) data-press=(ui.press(open_it)) { (ui.w.common.more) }
            (second)
            (first)
        }
    }
}

/// All else that can be done, over the screen: a name and what it does.
pub fn more_sheet(ui: &Ui<'_>, close: Action, all: &[(String, Action)]) -> Markup {
    let words = &ui.w.racks;
    html! {
        div.shade {
            section.sheet #more-sheet tabindex="-1" role="dialog" aria-modal="true" aria-label=(words.more_to_do) {
                div.row {
                    h2 { (words.what_was_done) }
                    button.key.quiet type="button" data-press=(ui.press(close)) aria-label=(ui.w.common.close) { (icon(Icon::Close)) }
                }
                ul.list {
                    @for (name, action) in all {
                        li {
                            button.item type="button" data-press=(ui.press(action.clone())) {
                                span.what { (name) }
                                (icon(Icon::Forward))
                            }
                        }
                    }
                }
            }
        }
    }
}

/// How something stands, each by colour, shape and word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judged {
    /// Inside its limits: green, full.
    Good,
    /// Near a limit, or a question: ochre, half.
    Doubt,
    /// Beyond a limit: brick, crossed.
    Bad,
    /// Not looked at: grey, dashed.
    Unknown,
}

impl Judged {
    /// Its class.
    pub fn class(self) -> &'static str {
        match self {
            Judged::Good => "good",
            Judged::Doubt => "doubt",
            Judged::Bad => "bad",
            Judged::Unknown => "unknown",
        }
    }
}

/// A text that begins with a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// The sign of a judgement: full, half, crossed or dashed.
pub fn sign(judged: Judged) -> Markup {
    html! {
        svg class={ "sign " (judged.class()) } viewBox="0 0 12 12" aria-hidden="true" {
            @match judged {
                Judged::Good => circle cx="6" cy="6" r="5" class="full" {},
                Judged::Doubt => {
                    circle cx="6" cy="6" r="4.5" class="line" {}
                    path d="M6 1a5 5 0 0 1 0 10z" class="full" {}
                }
                Judged::Bad => path d="M2 2l8 8M10 2l-8 8" class="line" {},
                Judged::Unknown => circle cx="6" cy="6" r="4.5" class="line dashed" {},
            }
        }
    }
}
