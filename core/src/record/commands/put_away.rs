//! Pieces are put away together, an event a piece, all on one day: the planks of a visit on a rack, the parts of a cut
//! or a blank to rest. Any of them can be left out.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent, on_its_day};
use super::form::{Form, Texts, texts_of};
use super::workshop::RACK;
use crate::record::log::{Climate, Event, Id, Placed, SetToRest};
use crate::record::queries::{PutAway, stage_of, to_put_away};
use crate::record::state::State;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Those that are left out.
pub const LEFT_OUT: FormField = FormField::new("pieces left out", FieldKind::Gathered);
/// Since when they lie there.
pub const SINCE: FormField = FormField::new("On the rack since", FieldKind::Day);
/// What is asked.
pub const FIELDS: [FormField; 3] = [RACK, SINCE, LEFT_OUT];

/// The key under which the form is kept while it is half typed.
pub fn form_key(which: PutAway) -> String {
    match which {
        PutAway::PlanksOfVisit(visit) => format!("{visit}/planks on a rack"),
        PutAway::PartsOfCut(piece) => format!("{piece}/parts to rest"),
        PutAway::GluedBlank(piece) => format!("{piece}/blank to rest"),
    }
}

/// All pieces are chosen, and the day is today.
pub fn begins(context: &Context<'_>) -> Texts {
    texts_of([
        (RACK, String::new()),
        (SINCE, context.today.to_string()),
        (LEFT_OUT, "[]".to_owned()),
    ])
}

/// The pieces that are to be put away, each with whether it is left out.
pub fn pieces(state: &State, form: &Form<'_>, which: PutAway) -> Vec<(Id, String, bool)> {
    let left_out: BTreeSet<Id> = form.json(LEFT_OUT.key).unwrap_or_default();
    let found = to_put_away(state)
        .into_iter()
        .find(|one| one.which == which);
    let pieces = found.map(|one| one.pieces).unwrap_or_default();
    pieces
        .into_iter()
        .map(|(id, mark)| (id, mark, left_out.contains(&id)))
        .collect()
}

/// What happens to one of them. A rack must be named for planks; parts may rest where they are.
fn event(state: &State, piece: Id, which: PutAway, place: &str) -> Option<Event> {
    let place = place.to_owned();
    Some(match which {
        PutAway::PlanksOfVisit(_) => Event::Placed(Placed { place }),
        PutAway::PartsOfCut(_) | PutAway::GluedBlank(_) => Event::SetToRest(Arc::new(SetToRest {
            climate: Climate::default(),
            place,
            stage: stage_of(state.piece(piece)?),
        })),
    })
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    which: PutAway,
    context: &Context<'_>,
) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let place = match which {
        PutAway::PlanksOfVisit(_) => read.needed_words(RACK),
        PutAway::PartsOfCut(_) | PutAway::GluedBlank(_) => read.words(RACK),
    };
    let on = read.needed_day(SINCE);
    let chosen: Vec<Id> = pieces(context.state, form, which)
        .into_iter()
        .filter(|(_, _, left_out)| !left_out)
        .map(|(id, ..)| id)
        .collect();
    if chosen.is_empty() {
        read.wrong(LEFT_OUT, FieldError::NoPiece);
    }
    let on = read.finish(|| on)?;
    let confirmed = form.is_confirmed(SINCE.key);
    let mut all = Filled::default();
    for piece in chosen {
        let Some(event) = event(context.state, piece, which, &place) else {
            continue;
        };
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
