//! The history of wood in words: every entry about it, also those that no longer count.

use crate::plank::{Field, Reading, Reason, Seen, retyped, shown};
use crate::quantity::read::Units;
use crate::record::log::{
    Entry, Event, EventStatus, Id, Judged, Log, Measured, YardLine, YardTotal,
};
use crate::record::queries::device_shown;
use crate::record::state::{HistoryLine, State};
use chrono::NaiveDate;
use rust_decimal::{Decimal, RoundingStrategy};

/// A line of a history.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HistoryTold {
    /// The entry.
    pub entry: Id,
    /// The day, as the maker says.
    pub on: NaiveDate,
    /// The maker said "yes, really" to a question about the day.
    pub on_confirmed: bool,
    /// The device, as it is called.
    pub device: String,
    /// What happened.
    pub words: String,
    /// Why it no longer counts; `None` where it does.
    pub no_longer: Option<&'static str>,
}

/// The lines of a history in words, oldest first; those whose entry is not here are left out.
pub fn history_told(
    history: &[HistoryLine],
    state: &State,
    log: &Log,
    units: Units,
) -> Vec<HistoryTold> {
    let told = |line: &HistoryLine| {
        let entry: &Entry = log.entry(line.entry)?;
        Some(HistoryTold {
            entry: entry.id,
            on: entry.on,
            on_confirmed: entry.on_confirmed,
            device: device_shown(state, &entry.by).to_owned(),
            words: event_in_words(&entry.event, units),
            no_longer: no_longer(line.standing),
        })
    };
    history.iter().filter_map(told).collect()
}

/// Why an entry no longer counts.
fn no_longer(standing: EventStatus) -> Option<&'static str> {
    match standing {
        EventStatus::InForce => None,
        EventStatus::Replaced { .. } => Some("corrected later"),
        EventStatus::TakenBack { .. } => Some("deleted later"),
        EventStatus::Undone { .. } => Some("its import was undone"),
        EventStatus::Outvoted { .. } => Some("another correction is in force"),
    }
}

fn reasons(of: &[Reason]) -> String {
    let names: Vec<&str> = of.iter().map(|reason| reason.name()).collect();
    names.join(", ")
}

/// A reading in words: the value understood, and what was typed where that is not the same.
pub fn reading_in_words(field: Field, reading: &Reading, units: Units) -> String {
    let understood = shown(field, reading.value, units);
    let how = match (reading.seen, reading.confirmed) {
        (Seen::ByEye, _) => ", by eye",
        (Seen::Measured, true) => ", “yes, really”",
        (Seen::Measured, false) => "",
    };
    let plain = |text: &str| text.replace(' ', "").replace('−', "-");
    let unit_added = retyped(field, reading);
    let same = [reading.typed.as_str(), &unit_added].map(plain);
    match same.contains(&plain(&understood)) {
        true => format!("{understood}{how}"),
        false => format!("{understood} (typed “{}”{how})", reading.typed.trim()),
    }
}

/// What happened, in a line.
pub fn event_in_words(event: &Event, units: Units) -> String {
    match event {
        Event::VisitOpened(visit) => format!("visit to {}", visit.yard),
        Event::PileOpened(pile) => {
            let really = pile.price.filter(|_| pile.price_confirmed);
            let really = really.map_or_else(String::new, |price| {
                format!(" at {}, “yes, really”", price.normalize())
            });
            format!("pile of {}{really}", pile.species.text)
        }
        Event::PassedOver(passed) if passed.reasons.is_empty() => {
            format!("{} rejected in the quick sort", passed.count)
        }
        Event::PassedOver(passed) => {
            let why = reasons(&passed.reasons);
            format!("{} rejected in the quick sort: {why}", passed.count)
        }
        Event::Marked(marked) => format!("marked {}", marked.mark),
        Event::Measured(measured) => measurement(measured, units),
        Event::Judged(judged) => judgement_in_words(judged),
        Event::YardLine(YardLine {
            board_feet,
            cubic_metres,
            money,
        })
        | Event::YardTotal(YardTotal {
            board_feet,
            cubic_metres,
            money,
        }) => yard(*board_feet, *cubic_metres, *money),
        Event::Noted(noted) => format!("note: {}", noted.text),
        Event::SamePlank(told) if told.same => "the same plank as another record".into(),
        Event::SamePlank(_) => "another plank than a like record".into(),
        Event::WoodAdded(wood) => format!("wood of your own: {}", wood.common),
        Event::Withdrawn(_) => "deleted".into(),
        Event::ConflictSettled(_) => "one of several texts of an entry chosen".into(),
        Event::ImportUndone(undone) if undone.name.is_empty() => "an import undone".into(),
        Event::ImportUndone(undone) => format!("the import of {} undone", undone.name),
        Event::DeviceRenamed(renamed) => format!("device called “{}”", renamed.name),
        Event::Unknown { kind } => format!("“{kind}”, from a newer version"),
        workshop => workshop.workshop_words().unwrap_or_default(),
    }
}

fn measurement(measured: &Measured, units: Units) -> String {
    let readings = measured.readings.iter();
    let mut parts: Vec<String> = readings
        .map(|(field, reading)| {
            let words = reading_in_words(*field, reading, units);
            format!("{} {words}", field.label())
        })
        .collect();
    let defects = measured.defects.iter();
    parts.extend(defects.map(|found| format!("defect: {}", found.kind.name())));
    let wood = measured.species.as_ref();
    parts.extend(wood.map(|wood| format!("wood: {}", wood.text)));
    match parts.is_empty() {
        true => "measured: nothing".into(),
        false => format!("measured: {}", parts.join(" · ")),
    }
}

/// A decision, with its reasons and whether it went against the verdict.
pub fn judgement_in_words(judged: &Judged) -> String {
    let mut words = judged.decision.in_words().to_owned();
    if !judged.reasons.is_empty() {
        words.push_str(&format!(": {}", reasons(&judged.reasons)));
    }
    if let Some(score) = judged.score {
        words.push_str(&format!("; score shown {score:.0}"));
    }
    if let Some(proposed) = judged.proposed.filter(|_| judged.overruled()) {
        let proposed = proposed.in_words();
        words.push_str(&format!(
            "; against the verdict, which proposed “{proposed}”"
        ));
    }
    words
}

/// What a yard said, in its own numbers.
fn yard(
    board_feet: Option<Decimal>,
    cubic_metres: Option<Decimal>,
    money: Option<Decimal>,
) -> String {
    let rounded = |value: Decimal, places: u32| {
        let way = RoundingStrategy::MidpointAwayFromZero;
        let mut rounded = value.round_dp_with_strategy(places, way);
        rounded.rescale(places);
        rounded
    };
    let parts = [
        board_feet.map(|feet| format!("{}\u{a0}bf", rounded(feet, 2))),
        cubic_metres.map(|metres| format!("{}\u{a0}m³", rounded(metres, 4))),
        money.map(|money| format!("{money} in money")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    format!("the yard says {}", parts.join(", "))
}
