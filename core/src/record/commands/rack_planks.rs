//! The planks of a visit are put on a rack, all in one go: an event a plank, on one day. Any of them can be left out.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent, on_its_day};
use super::form::{Form, Texts, texts_of};
use super::workshop::RACK;
use crate::record::log::{Event, Id, Placed};
use crate::record::queries::on_no_rack;
use crate::record::state::State;
use std::collections::BTreeSet;

/// Those that are left out.
pub const LEFT_OUT: FormField = FormField::new("planks left out", FieldKind::Gathered);
/// Since when they lie there.
pub const SINCE: FormField = FormField::new("On the rack since", FieldKind::Day);
/// What is asked.
pub const FIELDS: [FormField; 3] = [RACK, SINCE, LEFT_OUT];

/// The key under which the form is kept while it is half typed.
pub fn form_key(visit: Id) -> String {
    format!("{visit}/planks on a rack")
}

/// All planks are chosen, and the day is today.
pub fn begins(context: &Context<'_>) -> Texts {
    texts_of([
        (RACK, String::new()),
        (SINCE, context.today.to_string()),
        (LEFT_OUT, "[]".to_owned()),
    ])
}

/// The planks of a visit that are on no rack yet, each with whether it is left out.
pub fn planks(state: &State, form: &Form<'_>, visit: Id) -> Vec<(Id, String, bool)> {
    let left_out: BTreeSet<Id> = form.json(LEFT_OUT.key).unwrap_or_default();
    let of_visit = on_no_rack(state).into_iter().find(|one| one.visit == visit);
    let planks = of_visit.map(|one| one.planks).unwrap_or_default();
    planks
        .into_iter()
        .map(|(id, mark)| (id, mark, left_out.contains(&id)))
        .collect()
}

/// What a filled form becomes.
pub fn command(form: &Form<'_>, visit: Id, context: &Context<'_>) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let place = read.needed_words(RACK);
    let on = read.needed_day(SINCE);
    let planks = planks(context.state, form, visit).into_iter();
    let chosen: Vec<Id> = planks
        .filter(|(_, _, left_out)| !left_out)
        .map(|(id, ..)| id)
        .collect();
    if chosen.is_empty() {
        read.wrong(LEFT_OUT, FieldError::NoPlank);
    }
    let on = read.finish(|| on)?;
    let confirmed = form.is_confirmed(SINCE.key);
    let mut all = Filled::default();
    for piece in chosen {
        let event = Event::Placed(Placed {
            place: place.clone(),
        });
        let event = NewEvent::new(piece, event).on(on).on_confirmed(confirmed);
        let one = on_its_day(form, context, event, &FIELDS);
        all.events.extend(one.events);
        // What is odd about the day of one is odd about that of all: it is asked once.
        let asked = |all: &Filled, key: &str| all.questions.iter().any(|known| known.key == key);
        for question in one.questions {
            if !asked(&all, &question.key) {
                all.questions.push(question);
            }
        }
    }
    Ok(all)
}
