//! News that stay until something is done about them, and the passing word on what was done.

use super::{Icon, capital, icon};
use crate::action::Action;
use crate::model::Saving;
use crate::page::Ui;
use crate::route::Route;
use crate::words::{Spoken, count, fill};
use maud::{Markup, html};

/// What is not kept, or was emptied: told on every screen.
pub fn urgent(ui: &Ui<'_>) -> Markup {
    let (shell, words) = (&ui.model.shell, &ui.w.common);
    html! {
        (trouble(ui))
        // A newer version waits until all is saved: what is in memory alone would go with the window.
        @if shell.new_version && !shell.is_unsaved() {
            div.notice role="status" {
                p { (words.new_version) }
                div.keys {
                    button.key.main type="button" data-press=(ui.press(Action::StartNewVersion)) {
                        (words.update_now)
                    }
                }
            }
        }
    }
}

/// What is not saved, and what may have been lost: told in the midst of a task as well.
fn trouble(ui: &Ui<'_>) -> Markup {
    let (shell, words) = (&ui.model.shell, &ui.w.common);
    html! {
        @if let Saving::Failed(why) | Saving::Again(why) = &shell.saving {
            @let again = matches!(shell.saving, Saving::Again(_));
            div.notice.bad role="alert" {
                p { (fill(words.not_saved_why, &[("why", &why.spoken())])) }
                div.keys {
                    button.key type="button" disabled[again] data-press=(ui.press(Action::TryAgain)) {
                        @if again { (words.trying_again) } @else { (words.try_again) }
                    }
                    button.key.main type="button" data-press=(ui.press(Route::Share)) { (words.save_as_file) }
                }
            }
        }
        @if shell.emptied {
            div.notice.bad role="alert" {
                p { (words.emptied) }
                div.keys {
                    button.key type="button" data-press=(ui.press(Action::EmptiedIsKnown)) { (words.emptied_is_known) }
                    @if !shell.sample {
                        button.key.quiet type="button" data-press=(ui.press(ask_to_delete_everything(ui))) { (ui.w.book.delete_key) }
                    }
                }
            }
        }
        @if let Some(why) = &shell.draft_trouble { div.notice.bad role="alert" { p { (why.spoken()) } } }
    }
}

/// News that stay until something is done about them.
pub fn notices(ui: &Ui<'_>) -> Markup {
    let shell = &ui.model.shell;
    html! {
        (urgent(ui))
        @if let Some(why) = &shell.identity_notice { div.notice.doubt role="status" { p { (why.spoken()) } } }
    }
}

/// A message with its marks in one piece each: a mark is never broken at its hyphens.
fn words_of(
    text: &str,
    plain: impl Fn(&str) -> Markup,
    unbroken: impl Fn(&str) -> Markup,
) -> Markup {
    let text = capital(text);
    let is_mark =
        |word: &str| word.contains('-') && word.contains(|one: char| one.is_ascii_digit());
    let mut parts: Vec<(bool, String)> = Vec::new();
    for word in text.split_inclusive(' ') {
        match parts.last_mut() {
            Some((false, before)) if !is_mark(word) => before.push_str(word),
            _ => parts.push((is_mark(word), word.to_owned())),
        }
    }
    html! {
        @for (mark, part) in &parts {
            @if *mark {
                (unbroken(part.trim_end())) @if part.ends_with(' ') { " " }
            } @else { (plain(part)) }
        }
    }
}

/// The passing word on what was done. It stands above the bar or the keypad and covers neither: `toast-room` is as high
/// as the word, unseen, and keeps room for it on a page that scrolls.
pub fn toast(ui: &Ui<'_>) -> Markup {
    html! {
        @if let Some(toast) = &ui.model.toast {
            div.toast-room aria-hidden="true" {
                span { (words_of(&toast.text, |part| html! { span data-says=(part) {} }, |part| html! { span.nowrap data-says=(part) {} })) }
                @if !toast.undo.is_empty() { span.key data-says=(ui.w.common.undo) { (icon(Icon::Undo)) } }
            }
            div.toast role="status" {
                span { (words_of(&toast.text, |part| html! { (part) }, |part| html! { span.nowrap { (part) } })) }
                @if !toast.undo.is_empty() {
                    button.key.quiet type="button" data-press=(ui.press(Action::Undo)) {
                        (icon(Icon::Undo)) (ui.w.common.undo)
                    }
                }
            }
        }
    }
}

/// Deleting everything is asked about twice; the second question says how much goes.
pub fn ask_to_delete_everything(ui: &Ui<'_>) -> Action {
    let words = &ui.w.book;
    let planks = count(
        ui.model.state().planks().count() as u64,
        ui.w.common.planks_one,
        ui.w.common.planks_other,
    );
    let really = Action::Ask {
        question: fill(words.delete_really, &[("planks", &planks)]),
        yes: words.delete_now.to_owned(),
        action: Box::new(Action::delete_everything()),
    };
    Action::Ask {
        question: words.delete_question.to_owned(),
        yes: words.delete_go_on.to_owned(),
        action: Box::new(really),
    }
}
