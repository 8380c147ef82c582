//! The readings of a plank that are its own, and not those of its pile.
//!
//! What a pile says of all its planks (moisture, wood temperature) caps every plank alike: it is told once, and
//! ranks none of them.

use crate::order;
use crate::plank::{Field, Instruments, Reading, Readings};
use crate::record::log::Id;
use crate::record::state::State;
use crate::verdict::{Criterion, CriterionScore, sheet};

/// What a pile says of all its planks.
pub fn said_of_pile(state: &State, pile: Id) -> Vec<(Field, Reading)> {
    let Some(pile) = state.pile(pile) else {
        return Vec::new();
    };
    let said = [
        (Field::Moisture, &pile.opened.moisture),
        (Field::WoodTemperature, &pile.opened.wood_temperature),
    ];
    said.into_iter()
        .filter_map(|(field, reading)| Some((field, reading.clone()?)))
        .collect()
}

/// The readings of a plank that are its own, not those that it has from its pile.
pub fn own_readings(state: &State, pile: Id, readings: &Readings) -> Readings {
    let shared = said_of_pile(state, pile);
    let from_pile = |field: Field, reading: &Reading| {
        let mut shared = shared.iter();
        shared.any(|(of, said)| *of == field && said.value == reading.value)
    };
    let own = readings.iter();
    let own = own.filter(|(field, reading)| !from_pile(**field, reading));
    order::map_of(own.map(|(field, reading)| (*field, reading.clone())))
}

/// How the moisture of a pile stands under the spec of its visit; `None` where it is not known, or not asked for.
pub fn moisture_of_pile(
    state: &State,
    pile: Id,
    instruments: &Instruments,
) -> Option<CriterionScore> {
    let visit = state.visit(state.pile(pile)?.opened.visit)?;
    let said: Readings = order::map_of(said_of_pile(state, pile));
    let found = sheet(&said, &[], instruments, &visit.opened.spec);
    let mut scored = found.verdict.scored.into_iter();
    scored.find(|one| one.requirement.criterion == Criterion::Moisture)
}

/// Whether a moisture was read on a plank itself, not on its pile.
pub(crate) fn moisture_is_own(state: &State, pile: Id, moisture: Option<&Reading>) -> bool {
    let of_pile = state
        .pile(pile)
        .and_then(|pile| pile.opened.moisture.as_ref());
    let of_pile = of_pile.map(|said| said.value);
    moisture.is_some_and(|moisture| Some(moisture.value) != of_pile)
}
