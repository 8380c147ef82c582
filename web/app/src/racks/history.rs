//! Every entry about a piece, the newest first; what was corrected or deleted is struck through.

use crate::page::Ui;
use crate::parts::history_line;
use crate::words::count;
use maud::{Markup, html};
use stillwood_core::record::Piece;

/// So many entries are drawn at first.
const FIRST: usize = 12;

/// The part of the page.
pub fn history(ui: &Ui<'_>, piece: &Piece) -> Markup {
    html! {
        h2.small { (ui.w.racks.history) }
        (lines(ui, piece))
    }
}

/// The same without its heading.
pub fn lines(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let lines = piece.history.iter().rev();
    let earlier = piece.history.len().saturating_sub(FIRST);
    html! {
        p.below { (words.history_note) }
        ol.history { @for line in lines.clone().take(FIRST) { (history_line(ui, line)) } }
        @if earlier > 0 {
            details {
                summary { (count(earlier as u64, words.earlier_one, words.earlier_other)) }
                ol.history { @for line in lines.skip(FIRST) { (history_line(ui, line)) } }
            }
        }
    }
}
