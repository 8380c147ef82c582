//! The decision on a plank: the plank and the judgement go into the record together with the letting go of what was
//! half typed, and the next maybe of the pile is opened; after the last one, what the pile came to.

use super::entering::Entering;
use crate::action::Action;
use crate::effect::{AfterRecorded, Effect, NewEvent};
use crate::model::{Dialog, Model};
use crate::route::Route;
use crate::tell::say;
use crate::words::{Spoken, fill};
use stillwood_core::plank::{Field, Reason};
use stillwood_core::record::commands::decide_plank::{self, WOOD};
use stillwood_core::record::{
    Deciding, Decision, Event, FieldErrors, FieldQuestion, Filled, Piece, field_key, next_maybe,
};

/// Begins to reject: the reasons that the verdict found are proposed.
pub fn choose_reasons(model: &mut Model) -> Vec<Effect> {
    let Some(found) = model
        .yard
        .entering
        .as_ref()
        .map(|one| one.sheet(model).verdict.reasons)
    else {
        return Vec::new();
    };
    if let Some(entering) = &mut model.yard.entering {
        entering.rejecting = Some(found);
        entering.active = None;
    }
    model.yard.all_reasons = false;
    // The verdict may have been scrolled: the first of the reasons is in view.
    vec![
        Effect::Focus("title".to_owned()),
        Effect::ScrollTo("reasons".to_owned()),
    ]
}

/// Writes down the plank and the decision on it. What can't be read is named; before it is bought, open questions are
/// asked.
pub fn decide(
    model: &mut Model,
    decision: Decision,
    reasons: Vec<Reason>,
    confirmed: bool,
) -> Vec<Effect> {
    let Some(entering) = model.yard.entering.as_ref().filter(|one| !one.busy) else {
        return Vec::new();
    };
    let deciding = Deciding {
        piece: entering.piece,
        draft: &entering.draft,
        weighed_by: entering.weighs,
        rings_by: entering.rings,
        units: model.units(),
        decision,
        reasons: &reasons,
        confirmed,
    };
    match decide_plank::command(&deciding, &model.context()) {
        Err(errors) => cannot_be_read(model, &errors),
        Ok(Filled { questions, .. }) if !questions.is_empty() => {
            let buy = super::Action::BuyAllTheSame;
            ask(model, &questions, buy.into())
        }
        Ok(filled) => record(model, filled),
    }
}

/// Names all that can't be read, and opens the first of it.
fn cannot_be_read(model: &mut Model, errors: &FieldErrors) -> Vec<Effect> {
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    entering.rejecting = None;
    let is_wrong = |field: &&Field| errors.of(field_key(**field)).is_some();
    let fields: Vec<Field> = Field::ALL.iter().filter(is_wrong).copied().collect();
    let Some(first) = fields.first().copied() else {
        model.yard.defects = true;
        let of_wood = errors.of(WOOD).map(|error| error.spoken());
        let words = model.words().yard.unread_place.to_owned();
        return say(model, of_wood.unwrap_or(words));
    };
    entering.activate(first);
    let (piece, from_measuring) = (entering.piece, entering.from_measuring);
    let names: Vec<String> = fields.iter().map(|field| field.label().spoken()).collect();
    let words = &model.words().yard;
    let sentence = match names.as_slice() {
        [_] => words.unread_field,
        _ => words.unread_fields,
    };
    let said = fill(sentence, &[("field", &names.join(", "))]);
    let mut effects = say(model, said);
    effects.push(match from_measuring {
        true => Effect::Back,
        false => Effect::Replace(Route::Measure(piece)),
    });
    effects
}

/// Asks about all that is odd before a plank is bought, and how to buy it all the same.
pub(super) fn ask(model: &mut Model, questions: &[FieldQuestion], buy: Action) -> Vec<Effect> {
    let words = &model.words().yard;
    let unmeasured = |asked: &&FieldQuestion| asked.key == decide_plank::DECISION;
    let question = match questions.iter().find(unmeasured) {
        Some(_) => words.buy_nothing.to_owned(),
        None => {
            let mut all: Vec<String> = Vec::new();
            for asked in questions {
                let question = asked.question.spoken();
                if !all.contains(&question) {
                    all.push(question);
                }
            }
            fill(words.buy_open, &[("questions", &all.join(" "))])
        }
    };
    model.dialog = Some(Dialog::Ask {
        question,
        yes: words.buy.to_owned(),
        action: Box::new(buy),
    });
    vec![Effect::Focus("dialog".to_owned())]
}

/// What was decided on a plank, in a sentence that says where it is against the verdict.
pub fn what_was_decided(model: &Model, events: &[NewEvent], mark: &str) -> String {
    let words = &model.words().yard;
    let judged = events.iter().find_map(|one| match &one.event {
        Event::Judged(judged) => Some(judged),
        _ => None,
    });
    let Some(judged) = judged else {
        return String::new();
    };
    let said = match judged.decision {
        Decision::Take => words.bought,
        Decision::Leave => words.rejected,
        Decision::SetAside => words.held,
    };
    let said = fill(said, &[("mark", &mark)]);
    match judged.overruled() {
        true => fill(words.against, &[("said", &said)]),
        false => said,
    }
}

fn record(model: &mut Model, filled: Filled) -> Vec<Effect> {
    let Some(entering) = &model.yard.entering else {
        return Vec::new();
    };
    let go = where_to(model, entering);
    let draft = entering.draft.clone();
    let said = what_was_decided(model, &filled.events, &draft.mark);
    if let Some(entering) = &mut model.yard.entering {
        entering.busy = true;
        model.yard.behind.push(entering.piece);
    }
    vec![
        Effect::Record {
            events: filled.events,
            after: AfterRecorded {
                said,
                go: Some(go),
                draft: Some(Box::new(draft)),
                ..AfterRecorded::default()
            },
        },
        Effect::AskToPersist,
    ]
}

/// The next maybe of the pile; after the last one the pile is summed up. One that was changed leads back to its visit.
fn where_to(model: &Model, entering: &Entering) -> Route {
    let is_measured = |known: &Piece| !(known.readings.is_empty() && known.defects.is_empty());
    if model.state().piece(entering.piece).is_some_and(is_measured) {
        return Route::Visit(entering.visit);
    }
    let pile = entering.draft.pile;
    let next = next_maybe(model.state(), pile, Some(entering.piece));
    next.map_or(Route::PileSummary(pile), Route::Measure)
}
