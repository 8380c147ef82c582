//! The readings of a plank as typed, with the value understood and how each was come by; the faults with
//! their places; and what was not looked at.

use super::Shown;
use crate::app::App;
use crate::parts::{CollectAny, live};
use crate::screens::words;
use leptos::prelude::*;
use stillwood_core::plank::{DefectFound, Field, Reading, Seen, not_looked_at, shown};
use stillwood_core::quantity::read::Units;

/// The part of the sheet.
#[component]
pub(super) fn ReadingsTaken(shown: Shown) -> impl IntoView {
    let app = expect_context::<App>();
    let rows = move || {
        let units = app.units.get();
        let piece = shown.piece.get()?;
        let row = |(field, held): (&Field, &stillwood_core::record::CurrentReading)| {
            row(*field, &held.taken, held.earlier.len(), units)
        };
        Some(piece.readings.iter().map(row).collect_any())
    };
    let faults = move || {
        let units = app.units.get();
        let piece = shown.piece.get()?;
        let faults = piece.defects_found();
        (!faults.is_empty()).then(|| {
            let one = |found: DefectFound| view! { <li>{fault(&found, units)}</li> };
            view! {
                <h3>"Faults"</h3>
                <ul id="faults" class="given">{faults.into_iter().map(one).collect_any()}</ul>
            }
        })
    };
    let unseen = move || {
        let piece = shown.piece.get()?;
        let unseen = not_looked_at(&piece.described());
        (!unseen.is_empty()).then(|| format!("Not looked at: {}.", unseen.join(", ")))
    };
    view! {
        <h2>"Readings"</h2>
        <div class="scroll" tabindex="0" role="region" aria-label="The readings">
            <table id="readings">
                <thead>
                    <tr>
                        <th scope="col">"What"</th>
                        <th scope="col" class="n">"Understood"</th>
                        <th scope="col">"Typed"</th>
                        <th scope="col">"How"</th>
                    </tr>
                </thead>
                <tbody class="given">{live(rows)}</tbody>
            </table>
        </div>
        {live(faults)}
        <p id="not-looked-at">{live(unseen)}</p>
    }
}

fn row(field: Field, taken: &Reading, earlier: usize, units: Units) -> AnyView {
    let how = match taken.seen {
        Seen::Measured => "measured",
        Seen::ByEye => "by eye",
    };
    let confirmed = taken.confirmed.then_some(", “yes, really”");
    let before = (earlier > 0).then(|| format!(", read {} times", earlier + 1));
    view! {
        <tr>
            <th scope="row">{field.label()}</th>
            <td class="n">{shown(field, taken.value, units)}</td>
            <td>{taken.typed.clone()}</td>
            <td>{how}{confirmed}{before}</td>
        </tr>
    }
    .into_any()
}

fn fault(found: &DefectFound, units: Units) -> String {
    let place = |taken: &Reading| words::reading(Field::BowKink, taken, units);
    let at = match (&found.from, &found.to) {
        (Some(from), Some(to)) => format!(", from {} to {}", place(from), place(to)),
        (Some(at), None) | (None, Some(at)) => format!(", at {}", place(at)),
        (None, None) => ", place not noted".to_owned(),
    };
    let note = if found.note.is_empty() {
        String::new()
    } else {
        format!(" ({})", found.note)
    };
    format!("{}{at}{note}", found.kind.name())
}
