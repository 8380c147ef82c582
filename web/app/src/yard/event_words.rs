//! What happened to a plank, in a line of plain words.

use super::amounts::{decided, feet};
use crate::page::Ui;
use crate::words::{count, fill};
use maud::{Markup, html};
use rust_decimal::Decimal;
use stillwood_core::plank::{DefectFound, Field, Reading, Reason, Seen, retyped, shown};
use stillwood_core::record::{Event, EventStatus, HistoryLine, Judged, Measured};

/// Reasons in a line, the main one first.
pub fn reasons(of: &[Reason]) -> String {
    of.iter()
        .map(|reason| reason.name())
        .collect::<Vec<_>>()
        .join(", ")
}

/// A reading: what was understood, and what was typed where that is not the same.
pub fn reading(ui: &Ui<'_>, field: Field, taken: &Reading) -> String {
    let words = &ui.w.planks;
    let understood = shown(field, taken.value, ui.model.units());
    let plain = |text: &str| text.replace(' ', "").replace('−', "-");
    let same = [taken.typed.clone(), retyped(field, taken)];
    let mut said = understood.clone();
    if !same.iter().any(|text| plain(text) == plain(&understood)) {
        said = fill(
            words.typed_as,
            &[("value", &understood), ("typed", &taken.typed.trim())],
        );
    }
    match (taken.seen, taken.confirmed) {
        (Seen::ByEye, _) => fill(words.by_eye, &[("value", &said)]),
        (Seen::Measured, true) => fill(words.confirmed, &[("value", &said)]),
        (Seen::Measured, false) => said,
    }
}

/// A defect with its place and note.
pub fn defect(ui: &Ui<'_>, found: &DefectFound) -> String {
    let words = &ui.w.planks;
    // A place is said once; what was typed only where it says more than the number.
    let place = |taken: &Reading| {
        let understood = shown(Field::BowKink, taken.value, ui.model.units());
        let typed = taken.typed.trim();
        match typed
            .chars()
            .all(|sign| sign.is_ascii_digit() || ".,".contains(sign))
        {
            true => understood,
            false => fill(words.typed_as, &[("value", &understood), ("typed", &typed)]),
        }
    };
    let name = found.kind.name();
    let said = match (&found.from, &found.to) {
        (Some(from), Some(to)) => fill(
            words.defect_from_to,
            &[
                ("defect", &name),
                ("from", &place(from)),
                ("to", &place(to)),
            ],
        ),
        (Some(at), None) | (None, Some(at)) => {
            fill(words.defect_at, &[("defect", &name), ("at", &place(at))])
        }
        (None, None) => fill(words.defect_somewhere, &[("defect", &name)]),
    };
    match found.note.as_str() {
        "" => said,
        note => format!("{said} ({note})"),
    }
}

/// What a yard said, in its own numbers.
pub fn yard_says(
    ui: &Ui<'_>,
    board_feet: Option<Decimal>,
    cubic_metres: Option<Decimal>,
    money: Option<Decimal>,
) -> String {
    let parts = [
        board_feet.map(feet),
        cubic_metres.map(|metres| format!("{metres} m³")),
        money.map(|money| fill(ui.w.planks.in_money, &[("money", &money)])),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    fill(ui.w.planks.yard_says, &[("what", &parts.join(", "))])
}

fn judgement(ui: &Ui<'_>, judged: &Judged) -> String {
    let words = &ui.w.planks;
    let mut said = decided(ui, Some(judged.decision)).to_owned();
    if !judged.reasons.is_empty() {
        said = format!("{said}: {}", reasons(&judged.reasons));
    }
    if let Some(score) = judged.score {
        said = fill(
            words.with_score,
            &[("said", &said), ("score", &format!("{score:.0}"))],
        );
    }
    if let Some(proposed) = judged.proposed.filter(|_| judged.overruled()) {
        let proposed = decided(ui, Some(proposed));
        said = fill(
            words.against_proposal,
            &[("said", &said), ("proposed", &proposed)],
        );
    }
    said
}

fn measurement(ui: &Ui<'_>, measured: &Measured) -> String {
    let words = &ui.w.planks;
    let readings = measured.readings.iter();
    let mut parts: Vec<String> = readings
        .map(|(field, taken)| format!("{} {}", field.label(), reading(ui, *field, taken)))
        .collect();
    parts.extend(measured.defects.iter().map(|found| defect(ui, found)));
    if let Some(species) = &measured.species {
        parts.push(fill(words.wood_is, &[("wood", &species.text)]));
    }
    match parts.is_empty() {
        true => words.measured_nothing.to_owned(),
        false => fill(words.measured, &[("what", &parts.join(" · "))]),
    }
}

/// What happened.
pub fn event(ui: &Ui<'_>, of: &Event) -> String {
    let words = &ui.w.planks;
    match of {
        Event::PassedOver(passed) => {
            let no = count(
                u64::from(passed.count),
                words.sorted_out_one,
                words.sorted_out_other,
            );
            match passed.reasons.as_slice() {
                [] => no,
                some => format!("{no}: {}", reasons(some)),
            }
        }
        Event::Marked(marked) => fill(words.marked, &[("mark", &marked.mark)]),
        Event::Measured(measured) => measurement(ui, measured),
        Event::Judged(judged) => judgement(ui, judged),
        Event::YardLine(line) => yard_says(ui, line.board_feet, line.cubic_metres, line.money),
        Event::YardTotal(total) => yard_says(ui, total.board_feet, total.cubic_metres, total.money),
        Event::Noted(noted) => fill(words.note_said, &[("text", &noted.text)]),
        Event::SamePlank(told) if told.same => words.same_plank.to_owned(),
        Event::SamePlank(_) => words.other_plank.to_owned(),
        Event::Withdrawn(_) => words.was_deleted.to_owned(),
        Event::Unknown { kind } => fill(words.newer, &[("kind", kind)]),
        other => other
            .workshop_words()
            .unwrap_or_else(|| words.settled.to_owned()),
    }
}

/// Every entry about a piece, struck through where it no longer counts.
pub fn history(ui: &Ui<'_>, lines: &[HistoryLine]) -> Markup {
    let words = &ui.w.planks;
    let log = ui.model.record.log();
    html! {
        details {
            summary { (fill(words.history_n, &[("n", &lines.len())])) }
            p.below { (words.history_note) }
            ol.history {
                @for line in lines {
                    @if let Some(entry) = log.entry(line.entry) {
                        @let fate = match line.standing {
                            EventStatus::InForce => None,
                            EventStatus::Replaced { .. } => Some(words.fate_replaced),
                            EventStatus::TakenBack { .. } => Some(words.fate_deleted),
                            EventStatus::Undone { .. } => Some(words.fate_undone),
                            EventStatus::Outvoted { .. } => Some(words.fate_outvoted),
                        };
                        li {
                            span.below { (super::frame::day_of(ui.model, entry.on)) ", " (fill(words.on_device, &[("device", &entry.by)])) }
                            @match fate {
                                None => p { (event(ui, &entry.event)) },
                                Some(fate) => p { del { (event(ui, &entry.event)) } " " span.below { (fate) } },
                            }
                        }
                    }
                }
            }
        }
    }
}
