//! What happened to a piece and still counts, as it goes on paper: in a line each, oldest first.

use super::row;
use crate::page::Ui;
use maud::{Markup, html};
use stillwood_core::record::{Event, EventStatus, Piece};

/// One piece's entries that are in force; `hide` leaves out what is the maker's own: names, notes, judgements, prices.
pub fn of_piece(ui: &Ui<'_>, piece: &Piece, hide: bool) -> Markup {
    let log = ui.model.record.log();
    let lines = piece
        .history
        .iter()
        .filter(|line| line.standing == EventStatus::InForce);
    let entries = lines
        .filter_map(|line| log.entry(line.entry))
        .filter(|entry| !(hide && is_the_makers_own(&entry.event)));
    let units = ui.model.units();
    html! {
        ol.history {
            @for entry in entries { li { span.below { (row::day(ui, entry.on)) } " " (ui.w.events.event(units, &entry.event)) } }
        }
    }
}

fn is_the_makers_own(event: &Event) -> bool {
    matches!(
        event,
        Event::Reserved(_)
            | Event::Released(_)
            | Event::Noted(_)
            | Event::Judged(_)
            | Event::YardLine(_)
            | Event::YardTotal(_)
    )
}
