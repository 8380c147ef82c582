//! A line of a history: the day, the device, and what happened, struck through where it no longer counts.

use crate::page::Ui;
use crate::words::dates;
use maud::{Markup, html};
use stillwood_core::record::{HistoryLine, queries};

/// The line; nothing for an entry that is not here.
pub fn history_line(ui: &Ui<'_>, line: &HistoryLine) -> Markup {
    let words = &ui.w.events;
    let Some(entry) = ui.model.record.log().entry(line.entry) else {
        return Markup::default();
    };
    let said = super::capital(&words.event(ui.model.units(), &entry.event));
    html! {
        li {
            span.below {
                (dates::day(ui.w, entry.on, ui.model.now.date()))
                @if entry.on_confirmed { " " (ui.w.racks.day_confirmed) }
                " · " (queries::device_shown(ui.model.state(), &entry.by))
            }
            @match words.no_longer(line.standing) {
                None => p { (said) },
                Some(why) => p { del { (said) } " " span.below { (why) } },
            }
        }
    }
}
