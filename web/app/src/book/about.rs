//! Cautions, what the score means, and where the numbers come from.

use super::parts::screen;
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, icon};
use maud::{Markup, html};
use stillwood_core::wood::citations;

/// The screen.
pub fn view(model: &Model) -> Page {
    screen(model, model.words().book.about, "").with(model, "body", "main", body)
}

fn body(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.book;
    let cautions = [
        (words.caution_dust, words.caution_dust_text),
        (words.caution_saws, words.caution_saws_text),
        (words.caution_lifting, words.caution_lifting_text),
        (words.caution_protected, words.caution_protected_text),
    ];
    html! {
        h2 { (words.cautions) }
        @for (name, text) in cautions {
            div.caution {
                (icon(Icon::Warn))
                div { strong { (name) } p { (text) } }
            }
        }
        h2 { (words.score_means) }
        @for text in [words.score_means_1, words.score_means_2, words.score_means_3, words.score_means_4] {
            p.paragraph { (text) }
        }
        h2 { (words.sources) }
        ul.plain.below { @for citation in citations() { li { (citation.text) } } }
        h2 { (words.itself) }
        ul.list {
            li { a.item href="./notices.txt" {
                (icon(Icon::File))
                span.what { strong { (words.notices) } span.below { (words.notices_below) } }
            } }
            li { a.item href="./rescue.html" {
                (icon(Icon::Download))
                span.what { strong { (words.rescue) } span.below { (words.rescue_below) } }
            } }
        }
    }
}
