//! The decision on a plank: the plank and the judgement go into the record together with the letting go of what was
//! half typed, and the next maybe of the pile is opened; after the last one, what the pile came to.

use super::entering::{defects_of, readings_of, understood_of, unread_place};
use super::verdict::reading_of;
use crate::action::Action;
use crate::effect::{AfterRecorded, Effect, NewEvent};
use crate::model::{Dialog, Model};
use crate::route::Route;
use crate::update::say;
use crate::words::{Spoken, fill};
use stillwood_core::plank::{Field, Reason};
use stillwood_core::record::{Decision, Event, Id, Judged, Marked, Measured, Noted, queries};
use stillwood_core::verdict::Recommendation;

/// What the verdict proposes; nothing where it is too close to call.
pub fn proposal(recommendation: Recommendation) -> Option<Decision> {
    match recommendation {
        Recommendation::Good | Recommendation::GoodSoFar => Some(Decision::Take),
        Recommendation::Refused => Some(Decision::Leave),
        Recommendation::TooClose | Recommendation::NothingYet => None,
    }
}

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
    let units = model.units();
    let words = &model.words().yard;
    let (readings, unread) = readings_of(&entering.draft, units);
    if let Some(field) = unread.first() {
        let said = fill(words.unread_field, &[("field", &field.label().spoken())]);
        let piece = entering.piece;
        let field = *field;
        if let Some(entering) = &mut model.yard.entering {
            entering.active = Some(field);
        }
        let mut effects = say(model, said);
        effects.push(Effect::Replace(Route::Measure(piece)));
        return effects;
    }
    if unread_place(&entering.draft, units) {
        let said = words.unread_place;
        return say(model, said);
    }
    let sheet = entering.sheet(model);
    if !confirmed
        && decision == Decision::Take
        && let Some(question) = open_question(model)
    {
        model.dialog = Some(Dialog::Ask {
            question,
            yes: words.buy.to_owned(),
            action: Box::new(Action::Yard(super::Action::Decide(decision))),
        });
        if let Some(entering) = &mut model.yard.entering {
            entering.asked = true;
        }
        return vec![Effect::Focus("dialog".to_owned())];
    }
    let proposed = proposal(sheet.verdict.recommendation);
    let piece = entering.piece;
    let draft = entering.draft.clone();
    let judged = Judged {
        decision,
        proposed,
        reasons,
        score: sheet.verdict.score,
        weakest: sheet.verdict.weakest,
    };
    let measured = Measured {
        defects: defects_of(&draft, units),
        readings,
        species: queries::wood_named(model.state(), &draft.species),
    };
    let mut events = Vec::new();
    if !entering.marked {
        let marked = Marked {
            mark: draft.mark.clone(),
            pile: draft.pile,
        };
        events.push(NewEvent::new(piece, Event::Marked(marked)));
    }
    let measured = Event::Measured(measured);
    events.push(NewEvent::instead_of(
        piece,
        measured,
        entering.earlier.clone(),
    ));
    if !draft.note.trim().is_empty() {
        let text = draft.note.trim().to_owned();
        events.push(NewEvent::new(piece, Event::Noted(Noted { text })));
    }
    events.push(NewEvent::new(piece, Event::Judged(judged)));
    let said = match decision {
        Decision::Take => words.bought,
        Decision::Leave => words.rejected,
        Decision::SetAside => words.held,
    };
    let mut said = fill(said, &[("mark", &draft.mark)]);
    if proposed.is_some_and(|proposed| proposed != decision) {
        said = fill(words.against, &[("said", &said)]);
    }
    let go = if entering.earlier.is_empty() {
        next_to_measure(model, draft.pile, piece)
            .map_or(Route::PileSummary(draft.pile), Route::Measure)
    } else {
        Route::Visit(entering.visit)
    };
    if let Some(entering) = &mut model.yard.entering {
        entering.busy = true;
    }
    vec![
        Effect::Record {
            events,
            after: AfterRecorded {
                said,
                go: Some(go),
                draft: Some(draft),
                ..AfterRecorded::default()
            },
        },
        Effect::AskToPersist,
    ]
}

/// What stands open before a plank is bought; none where nothing does, or it was asked already.
fn open_question(model: &Model) -> Option<String> {
    let entering = model.yard.entering.as_ref().filter(|one| !one.asked)?;
    let words = &model.words().yard;
    let measured = Field::ALL.iter().any(|field| {
        !matches!(field, Field::Moisture | Field::WoodTemperature)
            && !entering.value(*field).text.trim().is_empty()
    });
    if !measured {
        return Some(words.buy_nothing.to_owned());
    }
    let open: Vec<String> = Field::ALL
        .iter()
        .filter_map(|field| {
            let understood = understood_of(*field, &entering.value(*field), model.units());
            Some(understood.warning()?.question.clone())
        })
        .chain(reading_of(model, entering).questions)
        .collect();
    (!open.is_empty()).then(|| fill(words.buy_open, &[("questions", &open.join(" "))]))
}

/// The next maybe of a pile that is not yet measured.
fn next_to_measure(model: &Model, pile: Id, now: Id) -> Option<Id> {
    let pieces = model.state().pieces_of(pile);
    pieces
        .filter(|piece| !piece.withdrawn && piece.id != now)
        .filter(|piece| piece.decision().is_none() && piece.readings.is_empty())
        .min_by_key(|piece| piece.recorded.entry)
        .map(|piece| piece.id)
}
