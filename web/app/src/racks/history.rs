//! Every entry about a piece, the newest first; what was corrected or deleted is struck through.

use crate::book::event_words::event;
use crate::page::Ui;
use crate::words::{Language, Spoken, count, dates};
use crate::yard::verdict::capital;
use maud::{Markup, html};
use stillwood_core::record::queries;
use stillwood_core::record::{HistoryTold, Piece};

/// So many entries are drawn at first.
const FIRST: usize = 12;

fn line(ui: &Ui<'_>, told: &HistoryTold) -> Markup {
    let day = dates::day(ui.w, told.on, ui.model.now.date());
    let said = match ui.model.settings.language {
        Language::English => told.words.clone(),
        _ => {
            let entry = ui.model.record.log().entry(told.entry);
            let said = entry.map(|entry| event(ui.model, &entry.event));
            said.unwrap_or_else(|| told.words.clone())
        }
    };
    let said = capital(&said);
    html! {
        li {
            span.below {
                (day) @if told.on_confirmed { " " (ui.w.racks.day_confirmed) } " · " (told.device)
            }
            @match told.no_longer {
                None => p { (said) },
                Some(why) => p { del { (said) } " " span.below { (why.spoken()) } },
            }
        }
    }
}

/// The part of the page.
pub fn history(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let (state, log) = (ui.model.state(), ui.model.record.log());
    let mut lines = queries::history_told(&piece.history, state, log, ui.model.units());
    lines.reverse();
    let earlier = lines.len().saturating_sub(FIRST);
    html! {
        h2.small { (words.history) }
        p.below { (words.history_note) }
        ol.history { @for told in lines.iter().take(FIRST) { (line(ui, told)) } }
        @if earlier > 0 {
            details {
                summary { (count(earlier as u64, words.earlier_one, words.earlier_other)) }
                ol.history { @for told in lines.iter().skip(FIRST) { (line(ui, told)) } }
            }
        }
    }
}
