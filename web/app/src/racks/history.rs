//! Every entry about a piece, the newest first; what was corrected or deleted is struck through.

use crate::model::Model;
use crate::page::Ui;
use crate::words::{count, dates, fill};
use maud::{Markup, html};
use stillwood_core::plank::shown;
use stillwood_core::record::{Decision, Event, EventStatus, Judged, Measured, Piece};

/// So many entries are drawn at first.
const FIRST: usize = 12;

fn judgement(model: &Model, judged: &Judged) -> String {
    let words = &model.words().racks;
    let said = match judged.decision {
        Decision::Take => words.bought,
        Decision::SetAside => words.held,
        Decision::Leave => words.rejected,
    };
    let mut said = said.to_owned();
    if !judged.reasons.is_empty() {
        let reasons: Vec<&str> = judged.reasons.iter().map(|one| one.name()).collect();
        said = format!("{said}: {}", reasons.join(", "));
    }
    if let Some(score) = judged.score {
        said = format!(
            "{said}; {}",
            fill(words.score_shown, &[("score", &format!("{score:.0}"))])
        );
    }
    if judged.overruled() {
        said = format!("{said}; {}", words.against_the_verdict);
    }
    said
}

fn measurement(model: &Model, measured: &Measured) -> String {
    let readings = measured.readings.iter();
    let one = |(field, taken): (
        &stillwood_core::plank::Field,
        &stillwood_core::plank::Reading,
    )| {
        format!(
            "{} {}",
            field.label(),
            shown(*field, taken.value, model.units())
        )
    };
    let mut parts: Vec<String> = readings.map(one).collect();
    parts.extend(
        measured
            .defects
            .iter()
            .map(|found| found.kind.name().to_owned()),
    );
    parts.extend(measured.species.iter().map(|named| named.text.clone()));
    fill(
        model.words().racks.was_measured,
        &[("what", &parts.join(" · "))],
    )
}

/// What happened.
fn event(model: &Model, of: &Event) -> String {
    let words = &model.words().racks;
    match of {
        Event::Marked(marked) => fill(words.was_marked, &[("mark", &marked.mark)]),
        Event::Measured(measured) => measurement(model, measured),
        Event::Judged(judged) => judgement(model, judged),
        Event::YardLine(_) | Event::YardTotal(_) => words.yard_line.to_owned(),
        Event::Noted(noted) => noted.text.clone(),
        Event::SamePlank(told) if told.same => words.same_plank.to_owned(),
        Event::SamePlank(_) => words.other_plank.to_owned(),
        Event::Withdrawn(_) => words.deleted.to_owned(),
        Event::Unknown { kind } => fill(words.from_newer_version, &[("kind", kind)]),
        other => other
            .workshop_words()
            .unwrap_or_else(|| words.was_settled.to_owned()),
    }
}

/// The part of the page.
pub fn history(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let log = ui.model.record.log();
    let line = |line: &stillwood_core::record::HistoryLine| {
        let entry = log.entry(line.entry)?;
        let fate = match line.standing {
            EventStatus::InForce => None,
            EventStatus::Replaced { .. } => Some(words.fate_corrected),
            EventStatus::TakenBack { .. } => Some(words.fate_deleted),
            EventStatus::Undone { .. } => Some(words.fate_undone),
            EventStatus::Outvoted { .. } => Some(words.fate_outvoted),
        };
        let said = event(ui.model, &entry.event);
        let day = dates::day(ui.w, entry.on, ui.model.now.date());
        let by = stillwood_core::record::queries::device_shown(ui.model.state(), &entry.by);
        Some(html! {
            li {
                span.below { (day) @if entry.on_confirmed { " " (words.day_confirmed) } " · " (by) }
                @match fate {
                    None => p { (said) },
                    Some(fate) => p { del { (said) } " " span.below { (fate) } },
                }
            }
        })
    };
    let lines: Vec<Markup> = piece.history.iter().rev().filter_map(line).collect();
    html! {
        h2.small { (words.history) }
        ol.history { @for line in lines.iter().take(FIRST) { (line) } }
        @if lines.len() > FIRST {
            details {
                summary { (count((lines.len() - FIRST) as u64, words.earlier_one, words.earlier_other)) }
                ol.history { @for line in lines.iter().skip(FIRST) { (line) } }
            }
        }
    }
}
