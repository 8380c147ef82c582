//! The decision on a plank: the plank and the judgement go into the record together with the letting go of what was
//! half typed, and the next maybe of the pile is opened; after the last one, what the pile came to.

use super::entering::Entering;
use crate::action::Action;
use crate::effect::{AfterRecorded, Effect, NewEvent};
use crate::model::{Dialog, Model};
use crate::route::Route;
use crate::update::say;
use crate::words::fill;
use stillwood_core::plank::{Field, Reason};
use stillwood_core::record::commands::decide_plank::{self, DECISION};
use stillwood_core::record::commands::{FieldErrors, FieldQuestion, field_key};
use stillwood_core::record::{Deciding, Decision, Event, Id, next_maybe};

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
    Vec::new()
}

/// Writes down the plank and the decision on it. What can't be read is named; open questions are asked once.
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
        units: model.units(),
        decision,
        reasons: &reasons,
        confirmed: confirmed || entering.asked,
    };
    match decide_plank::command(&deciding, &model.context()) {
        Err(errors) => name_what_is_wrong(model, &errors),
        Ok(filled) if !filled.questions.is_empty() => ask(model, &filled.questions, decision),
        Ok(filled) => {
            let said = said_of(model, &entering.draft.mark, decision, &filled.events);
            let (draft, go) = (entering.draft.clone(), after(model, entering));
            if let Some(entering) = &mut model.yard.entering {
                entering.busy = true;
            }
            let after = AfterRecorded {
                said,
                go: Some(go),
                draft: Some(draft),
                ..AfterRecorded::default()
            };
            let events = filled.events;
            vec![Effect::Record { events, after }, Effect::AskToPersist]
        }
    }
}

/// Names the first thing that can't be written down; the keys type into it where it is a field.
fn name_what_is_wrong(model: &mut Model, errors: &FieldErrors) -> Vec<Effect> {
    let words = &model.words().yard;
    let Some((key, why)) = errors.all().first() else {
        return Vec::new();
    };
    let field = Field::ALL.iter().find(|field| field_key(**field) == key);
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    match field {
        Some(field) => {
            entering.active = Some(*field);
            let shown = Effect::Replace(Route::Measure(entering.piece));
            let said = fill(words.unread_field, &[("field", &field.label())]);
            let mut effects = say(model, said);
            effects.push(shown);
            effects
        }
        None if key.starts_with("defects/") => say(model, words.unread_place),
        None => say(model, why.to_string()),
    }
}

/// Asks once about what stands open before a plank is bought.
fn ask(model: &mut Model, questions: &[FieldQuestion], decision: Decision) -> Vec<Effect> {
    let words = &model.words().yard;
    let unmeasured = questions.iter().any(|asked| asked.key == DECISION);
    let question = match unmeasured {
        true => words.buy_nothing.to_owned(),
        false => {
            let all: Vec<&str> = questions
                .iter()
                .map(|asked| asked.question.as_str())
                .collect();
            fill(words.buy_open, &[("questions", &all.join(" "))])
        }
    };
    model.dialog = Some(Dialog::Ask {
        question,
        yes: words.buy.to_owned(),
        action: Box::new(Action::Yard(super::Action::Decide(decision))),
    });
    if let Some(entering) = &mut model.yard.entering {
        entering.asked = true;
    }
    vec![Effect::Focus("dialog".to_owned())]
}

/// What was decided, and whether it went against the verdict.
pub fn said_of(model: &Model, mark: &str, decision: Decision, events: &[NewEvent]) -> String {
    let words = &model.words().yard;
    let said = match decision {
        Decision::Take => words.bought,
        Decision::Leave => words.rejected,
        Decision::SetAside => words.held,
    };
    let said = fill(said, &[("mark", &mark)]);
    let mut judged = events.iter();
    match judged.any(|one| matches!(&one.event, Event::Judged(judged) if judged.overruled())) {
        true => fill(words.against, &[("said", &said)]),
        false => said,
    }
}

/// Where to go from a plank that was decided on.
fn after(model: &Model, entering: &Entering) -> Route {
    if entering.again {
        return Route::Visit(entering.visit);
    }
    let pile = entering.draft.pile;
    let next: Option<Id> = next_maybe(model.state(), pile, Some(entering.piece));
    next.map_or(Route::PileSummary(pile), Route::Measure)
}
