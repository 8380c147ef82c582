//! What happened, in a maker's words: for a plank's history and for what is to be settled.

use super::figures::{feet, metres};
use rust_decimal::Decimal;
use stillwood_core::plank::{Field, Reading, Reason, Seen, retyped, shown};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Event, Judged, Measured};

/// Reasons in a line, the main one first.
pub(crate) fn reasons(of: &[Reason]) -> String {
    let names: Vec<&str> = of.iter().map(|reason| reason.name()).collect();
    names.join(", ")
}

/// A reading in words: the value understood, and what was typed where that is not the same.
pub(crate) fn reading(field: Field, taken: &Reading, units: Units) -> String {
    let understood = shown(field, taken.value, units);
    let how = match (taken.seen, taken.confirmed) {
        (Seen::ByEye, _) => ", by eye",
        (Seen::Measured, true) => ", “yes, really”",
        (Seen::Measured, false) => "",
    };
    let plain = |text: &str| text.replace(' ', "").replace('−', "-");
    let unit_added = retyped(field, taken);
    if [taken.typed.as_str(), &unit_added]
        .map(plain)
        .contains(&plain(&understood))
    {
        format!("{understood}{how}")
    } else {
        format!("{understood} (typed “{}”{how})", taken.typed.trim())
    }
}

/// What happened.
pub(crate) fn event(of: &Event, units: Units) -> String {
    match of {
        Event::VisitOpened(visit) => format!("visit to {}", visit.yard),
        Event::PileOpened(pile) => {
            let really = pile.price.filter(|_| pile.price_confirmed);
            let really = really.map_or_else(String::new, |price| {
                format!(" at {}, “yes, really”", price.normalize())
            });
            format!("pile of {}{really}", pile.species.text)
        }
        Event::PassedOver(passed) if passed.reasons.is_empty() => {
            format!("{} left in the quick sort", passed.count)
        }
        Event::PassedOver(passed) => format!(
            "{} left in the quick sort: {}",
            passed.count,
            reasons(&passed.reasons)
        ),
        Event::Marked(marked) => format!("marked {}", marked.mark),
        Event::Measured(measured) => measurement(measured, units),
        Event::Judged(judged) => judgement(judged),
        Event::YardLine(line) => yard(line.board_feet, line.cubic_metres, line.money),
        Event::YardTotal(total) => yard(total.board_feet, total.cubic_metres, total.money),
        Event::Noted(noted) => format!("note: {}", noted.text),
        Event::SamePlank(told) if told.same => "told to be the same plank as another record".into(),
        Event::SamePlank(_) => "told to be another plank than a like record".into(),
        Event::WoodAdded(wood) => format!("wood of your own: {}", wood.common),
        Event::Withdrawn(_) => "taken back".into(),
        Event::ConflictSettled(_) => "one of several texts of an entry chosen".into(),
        Event::ImportUndone(undone) if undone.name.is_empty() => "an import undone".into(),
        Event::ImportUndone(undone) => format!("the import of {} undone", undone.name),
        Event::DeviceRenamed(renamed) => format!("device called “{}”", renamed.name),
        Event::Unknown { kind } => format!("“{kind}”, from a newer version"),
        workshop => workshop.workshop_words().unwrap_or_default(),
    }
}

fn measurement(measured: &Measured, units: Units) -> String {
    let mut parts: Vec<String> = measured
        .readings
        .iter()
        .map(|(field, taken)| format!("{} {}", field.label(), reading(*field, taken, units)))
        .collect();
    let faults = measured.defects.iter().map(|found| found.kind.name());
    parts.extend(faults.map(|name| format!("fault: {name}")));
    if let Some(species) = &measured.species {
        parts.push(format!("wood: {}", species.text));
    }
    if parts.is_empty() {
        "measured: nothing".into()
    } else {
        format!("measured: {}", parts.join(" · "))
    }
}

/// A judgement, with its reasons and whether it went against the computation.
pub(crate) fn judgement(judged: &Judged) -> String {
    let mut words = judged.decision.in_words().to_owned();
    if !judged.reasons.is_empty() {
        words.push_str(&format!(": {}", reasons(&judged.reasons)));
    }
    if let Some(score) = judged.score {
        words.push_str(&format!("; score shown {score:.0}"));
    }
    if let Some(proposed) = judged.proposed.filter(|_| judged.overruled()) {
        words.push_str(&format!(
            "; against the computation, which proposed “{}”",
            proposed.in_words()
        ));
    }
    words
}

/// What a yard said, in its own numbers.
pub(crate) fn yard(
    board_feet: Option<Decimal>,
    cubic_metres: Option<Decimal>,
    money: Option<Decimal>,
) -> String {
    let parts: Vec<String> = [
        board_feet.map(feet),
        cubic_metres.map(metres),
        money.map(|money| format!("{money} in money")),
    ]
    .into_iter()
    .flatten()
    .collect();
    format!("the yard says {}", parts.join(", "))
}
