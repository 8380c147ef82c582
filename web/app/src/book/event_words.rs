//! What happened, in a line of plain words: for lists of what is to be settled, what was brought in and what was
//! deleted.

use crate::model::Model;
use crate::words::{Spoken, count, fill, show};
use rust_decimal::Decimal;
use stillwood_core::plank::{Field, Reading, Reason, Seen, retyped, shown};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Decision, Event, Id, Judged, Measured};

/// What an entry is about, in a word or two.
pub fn about(model: &Model, id: Id) -> String {
    let (words, state) = (&model.words().share, model.state());
    if let Some(piece) = state.piece(id) {
        return fill(words.about_piece, &[("mark", &piece.mark)]);
    }
    if let Some(pile) = state.pile(id) {
        return fill(words.about_pile, &[("wood", &pile.opened.species.text)]);
    }
    match state.visit(id) {
        Some(visit) => fill(words.about_visit, &[("yard", &visit.opened.yard)]),
        None => words.about_missing.to_owned(),
    }
}

fn reasons(of: &[Reason]) -> String {
    let names: Vec<String> = of.iter().map(|reason| reason.name().spoken()).collect();
    names.join(", ")
}

/// What happened.
pub fn event(model: &Model, of: &Event) -> String {
    let words = &model.words().share;
    match of {
        Event::VisitOpened(visit) => fill(words.event_visit, &[("yard", &visit.yard)]),
        Event::PileOpened(pile) => match pile.price {
            Some(price) => fill(
                words.event_pile_priced,
                &[
                    ("wood", &pile.species.text),
                    ("price", &show::decimal(&price.normalize().to_string())),
                ],
            ),
            None => fill(words.event_pile, &[("wood", &pile.species.text)]),
        },
        Event::PassedOver(passed) => {
            let count = count(
                u64::from(passed.count),
                words.event_no_one,
                words.event_no_other,
            );
            match passed.reasons.as_slice() {
                [] => count,
                some => format!("{count}: {}", reasons(some)),
            }
        }
        Event::Marked(marked) => fill(words.event_marked, &[("mark", &marked.mark)]),
        Event::Measured(measured) => measurement(model, measured),
        Event::Judged(judged) => judgement(model, judged),
        Event::YardLine(line) => yard(model, line.board_feet, line.cubic_metres, line.money),
        Event::YardTotal(total) => yard(model, total.board_feet, total.cubic_metres, total.money),
        Event::Noted(noted) => fill(words.event_note, &[("text", &noted.text)]),
        Event::SamePlank(told) if told.same => words.event_same.to_owned(),
        Event::SamePlank(_) => words.event_not_same.to_owned(),
        Event::WoodAdded(wood) => fill(words.event_wood, &[("wood", &wood.common)]),
        Event::Withdrawn(_) => words.event_deleted.to_owned(),
        Event::ConflictSettled(_) => words.event_text_chosen.to_owned(),
        Event::ImportUndone(undone) => fill(words.event_import_undone, &[("name", &undone.name)]),
        Event::DeviceRenamed(renamed) => fill(words.event_device, &[("name", &renamed.name)]),
        Event::Unknown { kind } => fill(words.event_newer, &[("kind", kind)]),
        workshop => crate::words::events::workshop_words(workshop).unwrap_or_default(),
    }
}

/// A reading: the value understood, and what was typed where that is not the same.
fn reading(model: &Model, field: Field, taken: &Reading, units: Units) -> String {
    let words = &model.words().share;
    let understood = shown(field, taken.value, units);
    let how = match (taken.seen, taken.confirmed) {
        (Seen::ByEye, _) => words.by_eye,
        (Seen::Measured, true) => words.kept_as_typed,
        (Seen::Measured, false) => "",
    };
    let plain = |text: &str| text.replace(' ', "").replace('−', "-");
    let same = [taken.typed.as_str(), &retyped(field, taken)]
        .map(plain)
        .contains(&plain(&understood));
    match same {
        true => format!("{}{how}", understood.spoken()),
        false => format!("{} (“{}”{how})", understood.spoken(), as_typed(taken)),
    }
}

/// What was typed; a step of the eye by its name.
fn as_typed(taken: &Reading) -> String {
    let typed = taken.typed.trim();
    match taken.seen {
        Seen::ByEye => typed.spoken(),
        Seen::Measured => typed.to_owned(),
    }
}

fn measurement(model: &Model, measured: &Measured) -> String {
    let words = &model.words().share;
    let units = model.units();
    let readings = measured.readings.iter();
    let mut parts: Vec<String> = readings
        .map(|(field, taken)| {
            format!(
                "{} {}",
                field.label().spoken(),
                reading(model, *field, taken, units)
            )
        })
        .collect();
    let defects = measured
        .defects
        .iter()
        .map(|found| found.kind.name().spoken());
    parts.extend(defects.map(|name| fill(words.event_defect, &[("name", &name)])));
    if let Some(species) = &measured.species {
        parts.push(fill(words.event_species, &[("wood", &species.text)]));
    }
    match parts.is_empty() {
        true => words.event_measured_nothing.to_owned(),
        false => fill(words.event_measured, &[("what", &parts.join(" · "))]),
    }
}

/// A decision in a word.
pub fn decision(model: &Model, decision: Decision) -> &'static str {
    match decision {
        Decision::Take => model.words().share.bought,
        Decision::SetAside => model.words().share.held,
        Decision::Leave => model.words().share.rejected,
    }
}

fn judgement(model: &Model, judged: &Judged) -> String {
    let words = &model.words().share;
    let mut said = decision(model, judged.decision).to_owned();
    if !judged.reasons.is_empty() {
        said.push_str(&format!(": {}", reasons(&judged.reasons)));
    }
    if let Some(score) = judged.score {
        said.push_str(&fill(
            words.event_score,
            &[("score", &format!("{score:.0}"))],
        ));
    }
    if let Some(proposed) = judged.proposed.filter(|_| judged.overruled()) {
        said.push_str(&fill(
            words.event_against,
            &[("proposed", &decision(model, proposed))],
        ));
    }
    said
}

fn yard(
    model: &Model,
    feet: Option<Decimal>,
    metres: Option<Decimal>,
    money: Option<Decimal>,
) -> String {
    let parts = [
        feet.map(|feet| format!("{} bd ft", show::decimal(&feet.normalize().to_string()))),
        metres.map(|metres| format!("{} m³", show::decimal(&metres.normalize().to_string()))),
        money.map(|money| {
            fill(
                model.words().share.event_money,
                &[("money", &show::decimal(&money.normalize().to_string()))],
            )
        }),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    fill(
        model.words().share.event_yard,
        &[("what", &parts.join(", "))],
    )
}
