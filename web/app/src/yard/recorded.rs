//! What is done with visits, piles and planks that stand in the record: decide again, note, delete, bring back, save
//! a visit as a file.

use super::decide;
use super::named::{Deletable, how_much, name_of, pile_here, visit_here};
use crate::action::Action as Any;
use crate::book::share;
use crate::effect::{AfterRecorded, Effect};
use crate::form::FORM;
use crate::model::{HalfTyped, Model, Texts};
use crate::route::Route;
use crate::tell::{keep, say};
use crate::words::{Spoken, count, fill};
use stillwood_core::plank::Reason;
use stillwood_core::record::commands::{decide_plank, delete as deleting, note};
use stillwood_core::record::{Decision, Draft, Filled, Form, Id, Judged, NewEvent, Piece, queries};

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Delete something with all that belongs to it.
    Delete(Deletable),
    /// Bring it back.
    BringBack(Deletable),
    /// Decide on a plank again.
    Decide(Id, Decision),
    /// Buy it: what stands open was asked about.
    BuyAllTheSame(Id),
    /// Reject it, for the reasons chosen.
    RejectNow,
    /// Back from choosing reasons.
    NotRejecting,
    /// Add the note that is typed.
    AddNote(Id),
    /// Save a visit as a file for another device.
    SaveVisit(Id),
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Delete(what) => delete(model, what),
        Action::BringBack(what) => bring_back(model, what),
        Action::Decide(piece, Decision::Leave) => {
            let found = evaluation(model, piece).map(|verdict| verdict.reasons);
            model.yard.judging = Some((piece, found.unwrap_or_default()));
            vec![Effect::Focus("title".to_owned())]
        }
        Action::Decide(piece, Decision::Take) if is_half_typed(model, piece) => {
            vec![Effect::Go(Route::Verdict(piece))]
        }
        Action::Decide(piece, decision) => judge(model, piece, decision, Vec::new(), false),
        Action::BuyAllTheSame(piece) => {
            model.dialog = None;
            judge(model, piece, Decision::Take, Vec::new(), true)
        }
        Action::RejectNow => match model.yard.judging.take() {
            Some((piece, reasons)) => judge(model, piece, Decision::Leave, reasons, false),
            None => Vec::new(),
        },
        Action::NotRejecting => {
            model.yard.judging = None;
            Vec::new()
        }
        Action::AddNote(piece) => add_note(model, piece),
        Action::SaveVisit(visit) => save_visit(model, visit),
    }
}

/// Half-typed planks, those of a pile or visit that was deleted left out.
pub fn drafts_in_sight(model: &Model) -> impl Iterator<Item = &Draft> {
    let state = model.state();
    model
        .drafts
        .iter()
        .filter(move |draft| !queries::is_in_deleted(state, draft.pile))
}

fn evaluation(model: &Model, piece: Id) -> Option<stillwood_core::verdict::Evaluation> {
    let state = model.state();
    let sheet = queries::sheet_of(state, state.piece(piece)?, &model.settings.instruments)?;
    Some(sheet.verdict)
}

/// Whether something is typed for a plank that is not in the record yet: it is bought on the verdict of that.
fn is_half_typed(model: &Model, piece: Id) -> bool {
    let mut drafts = model.drafts.iter();
    drafts.any(|draft| draft.piece == Some(piece) && !draft.is_empty())
}

fn judge(
    model: &mut Model,
    piece: Id,
    decision: Decision,
    reasons: Vec<Reason>,
    confirmed: bool,
) -> Vec<Effect> {
    let in_force = model.state().piece(piece).and_then(Piece::judgement);
    let is_so = |one: &Judged| one.decision == decision && one.reasons == reasons;
    if in_force.is_some_and(|judgement| is_so(&judgement.judged)) {
        return Vec::new();
    }
    let (units, context) = (model.units(), model.context());
    let filled = match decide_plank::again(piece, decision, &reasons, confirmed, units, &context) {
        Ok(Filled { questions, .. }) if !questions.is_empty() => {
            return decide::ask(model, &questions, Action::BuyAllTheSame(piece).into());
        }
        Ok(filled) => filled,
        Err(errors) => {
            let why = errors.all().first().map(|(_, why)| why.spoken());
            return say(model, why.unwrap_or_default());
        }
    };
    let mark = model.state().piece(piece).map_or("", |piece| &piece.mark);
    let said = decide::what_was_decided(model, &filled.events, mark);
    record(filled.events, said, None)
}

fn record(events: Vec<NewEvent>, said: String, go: Option<Route>) -> Vec<Effect> {
    vec![Effect::Record {
        events,
        after: AfterRecorded {
            said,
            go,
            ..AfterRecorded::default()
        },
    }]
}

/// Under which a half-typed note on a piece is kept.
fn note_key(piece: Id) -> String {
    format!("note/{piece}")
}

/// What is half typed as a note on a piece.
pub fn half_typed_note(model: &Model, piece: Id) -> &str {
    let known = model.forms.get(&note_key(piece));
    known
        .and_then(|known| known.texts.get(note::NOTE.key))
        .map_or("", String::as_str)
}

/// A note on a piece, as far as it is typed.
pub fn typed_note(model: &mut Model, piece: Id, text: String) -> Vec<Effect> {
    let key = note_key(piece);
    let kept = format!("{FORM}{key}");
    if text.is_empty() {
        model.forms.remove(&key);
        return vec![Effect::RemoveDraft(kept)];
    }
    let mark = model.state().piece(piece).map_or("", |piece| &piece.mark);
    let values: [(&str, &dyn std::fmt::Display); 2] =
        [("mark", &mark), ("form", &model.words().planks.new_note)];
    let half_typed = HalfTyped {
        at: Route::Plank(piece).address(),
        words: fill(model.words().common.form_piece, &values),
        units: model.units(),
        texts: Texts::from([(note::NOTE.key.to_owned(), text)]),
    };
    let effects = keep(kept, &half_typed);
    model.forms.insert(key, half_typed);
    effects
}

fn add_note(model: &mut Model, piece: Id) -> Vec<Effect> {
    let text = half_typed_note(model, piece).to_owned();
    let texts = Texts::from([(note::NOTE.key.to_owned(), text)]);
    match note::command(&Form::new(&texts, model.units()), piece) {
        Ok(filled) => vec![Effect::Record {
            events: filled.events,
            after: AfterRecorded {
                said: model.words().planks.noted.to_owned(),
                form: Some(note_key(piece)),
                ..AfterRecorded::default()
            },
        }],
        Err(_) => say(model, model.words().planks.note_empty),
    }
}

/// The question before something is deleted; `None` where it is not here.
pub fn ask_to_delete(model: &Model, what: Deletable) -> Option<Any> {
    let state = model.state();
    let is_here = match what {
        Deletable::Visit(id) => visit_here(model, id).is_some(),
        Deletable::Pile(id) => pile_here(model, id).is_some(),
        Deletable::Plank(id) => state.piece(id).is_some_and(|piece| !piece.withdrawn),
    };
    if !is_here {
        return None;
    }
    let found = queries::deletion(state, what.id());
    let words = &model.words().planks;
    let (name, much) = (name_of(model, what), how_much(model, what, &found));
    let question = match much.is_empty() {
        true => fill(words.delete_ask, &[("what", &name)]),
        false => fill(words.delete_ask_with, &[("what", &name), ("much", &much)]),
    };
    let in_doubt = match found.in_doubt.len() as u64 {
        0 => String::new(),
        n => format!(
            " {}",
            count(n, words.falls_in_doubt_one, words.falls_in_doubt_other)
        ),
    };
    let question = question + &in_doubt;
    Some(Any::Ask {
        question,
        yes: words.delete.to_owned(),
        action: Box::new(Action::Delete(what).into()),
    })
}

fn delete(model: &mut Model, what: Deletable) -> Vec<Effect> {
    model.dialog = None;
    let filled = match what {
        Deletable::Visit(id) | Deletable::Pile(id) => deleting::command(model.state(), id),
        Deletable::Plank(id) => deleting::plank(model.state(), model.record.log(), id),
    };
    let said = fill(
        model.words().planks.deleted,
        &[("what", &crate::parts::capital(&name_of(model, what)))],
    );
    let state = model.state();
    let go = match what {
        Deletable::Visit(_) => Route::Yard,
        Deletable::Pile(id) => state
            .pile(id)
            .map_or(Route::Yard, |pile| Route::Visit(pile.opened.visit)),
        Deletable::Plank(id) => {
            let visit = state.piece(id).and_then(|piece| state.visit_of(piece));
            visit.map_or(Route::Yard, |visit| Route::Visit(visit.id))
        }
    };
    record(filled.events, said, Some(go))
}

fn bring_back(model: &mut Model, what: Deletable) -> Vec<Effect> {
    let log = model.record.log();
    let found = queries::deleted(model.state(), log);
    let Some(found) = found.into_iter().find(|one| one.about == what.id()) else {
        return Vec::new();
    };
    let events = deleting::restore(log, &found.by).events;
    let name = crate::parts::capital(&name_of(model, what));
    let said = fill(model.words().planks.brought_back, &[("what", &name)]);
    record(events, said, None)
}

/// Hands a visit over to another device: as a file that is shared, or that is saved in the downloads.
fn save_visit(model: &mut Model, visit: Id) -> Vec<Effect> {
    let what = share::What::Visit(visit);
    let action = match model.shell.can_share {
        true => share::Action::Share(what),
        false => share::Action::Save(what),
    };
    share::update(model, action)
}

impl From<Action> for Any {
    fn from(action: Action) -> Self {
        Any::Yard(super::Action::Recorded(action))
    }
}
