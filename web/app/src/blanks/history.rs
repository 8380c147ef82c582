//! What happened to a piece, in a line each, oldest first: the record's own words for the workshop, short ones for the
//! yard.

use super::row;
use crate::page::Ui;
use crate::words::{Spoken, fill, show};
use maud::{Markup, html};
use stillwood_core::plank::{Field, Reading, Seen};
use stillwood_core::record::{Entry, Event, EventStatus, Judged, Measured, Piece};

/// One piece's entries that are in force; `hide` leaves out what is the maker's own: names, notes, judgements, prices.
pub fn of_piece(ui: &Ui<'_>, piece: &Piece, hide: bool) -> Markup {
    let log = ui.model.record.log();
    let lines = piece
        .history
        .iter()
        .filter(|line| line.standing == EventStatus::InForce);
    let entries = lines.filter_map(|line| log.entry(line.entry));
    let told = entries
        .filter_map(|entry| told(ui, entry, hide).map(|what| (row::day(ui, entry.on), what)));
    html! {
        ol.history { @for (on, what) in told { li { span.below { (on) } " " (what) } } }
    }
}

/// What an entry says; none where it is no news, or where it is hidden.
fn told(ui: &Ui<'_>, entry: &Entry, hide: bool) -> Option<String> {
    let words = &ui.w.blanks;
    Some(match &entry.event {
        Event::Reserved(_)
        | Event::Released(_)
        | Event::Noted(_)
        | Event::Judged(_)
        | Event::YardLine(_)
            if hide =>
        {
            return None;
        }
        Event::Noted(noted) => fill(words.told_note, &[("note", &noted.text)]),
        Event::Marked(marked) => fill(words.told_marked, &[("mark", &marked.mark)]),
        Event::Measured(measured) => measurement(ui, measured),
        Event::Judged(judged) => judgement(ui, judged),
        Event::YardLine(_) => words.told_yard_line.to_owned(),
        Event::SamePlank(told) if told.same => words.told_same.to_owned(),
        Event::SamePlank(_) => words.told_other.to_owned(),
        Event::Unknown { kind } => fill(words.told_newer, &[("kind", kind)]),
        other => crate::words::events::workshop_words(other).filter(|words| !words.is_empty())?,
    })
}

fn reading(ui: &Ui<'_>, field: Field, taken: &Reading) -> String {
    let understood = show::reading(field, taken.value, ui.model.units());
    match taken.seen {
        Seen::ByEye => fill(
            ui.w.blanks.told_by_eye,
            &[("field", &field.label().spoken()), ("value", &understood)],
        ),
        Seen::Measured => format!("{} {understood}", field.label().spoken()),
    }
}

fn measurement(ui: &Ui<'_>, measured: &Measured) -> String {
    let readings = measured.readings.iter();
    let mut parts: Vec<String> = readings
        .map(|(field, taken)| reading(ui, *field, taken))
        .collect();
    let defects = measured
        .defects
        .iter()
        .map(|found| found.kind.name().spoken());
    parts.extend(defects.map(|name| fill(ui.w.blanks.told_defect, &[("name", &name)])));
    match parts.is_empty() {
        true => ui.w.blanks.told_nothing_measured.to_owned(),
        false => fill(ui.w.blanks.told_measured, &[("parts", &parts.join(" · "))]),
    }
}

fn judgement(ui: &Ui<'_>, judged: &Judged) -> String {
    let words = &ui.w.blanks;
    let decided = match judged.decision {
        stillwood_core::record::Decision::Take => words.told_bought,
        stillwood_core::record::Decision::SetAside => words.told_held,
        stillwood_core::record::Decision::Leave => words.told_rejected,
    };
    let reasons: Vec<String> = judged
        .reasons
        .iter()
        .map(|reason| reason.name().spoken())
        .collect();
    match reasons.is_empty() {
        true => decided.to_owned(),
        false => format!("{decided}: {}", reasons.join(", ")),
    }
}
