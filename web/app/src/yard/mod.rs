//! The yard: visits, piles, planks sorted, measured and judged, tally and bill.

pub mod decide;
pub mod entering;
pub mod mark;
pub mod measure;
pub mod reasons;
pub mod sort;
pub mod verdict;

use crate::effect::{AfterRecorded, Effect, MarkFor, NewEvent};
use crate::model::Model;
use crate::parts::{Key, after_key};
use crate::route::Route;
use crate::update::say;
use crate::words::fill;
use entering::{Entering, Weighs};
use stillwood_core::plank::{Field, Reason, Seen, retyped};
use stillwood_core::record::{
    Decision, Draft, DraftValue, Event, Id, Marked, PassedOver, Withdrawn,
};

/// What only the screens of the yard know.
#[derive(Debug, Default)]
pub struct Local {
    /// The plank being measured.
    pub entering: Option<Entering>,
    /// The reasons chosen for the next No, the main one first.
    pub reasons: Vec<Reason>,
    /// All reasons are shown.
    pub all_reasons: bool,
    /// The mark to be chalked, after a Maybe.
    pub to_chalk: Option<(Id, String)>,
    /// A No is being written down.
    pub busy: bool,
}

/// What may be done on the screens of the yard.
#[derive(Debug, Clone)]
pub enum Action {
    /// Type into this field.
    Activate(Field),
    /// A key of the keypad.
    Press(Key),
    /// A step of the eye, by its words.
    Step(&'static str),
    /// Put a text that may have been meant.
    Offer(String),
    /// The value is as typed: it is not asked about again.
    Confirm,
    /// Weigh another way.
    Weigh(Weighs),
    /// Show or hide the fields beside those that are always shown.
    More,
    /// Discard what is typed for the plank.
    Discard,
    /// Decide on the plank that is being measured.
    Decide(Decision),
    /// Reject it, for the reasons chosen.
    RejectNow,
    /// Back from choosing reasons.
    NotRejecting,
    /// Choose a reason, or take it away.
    Reason(Reason),
    /// Show all reasons, or fewer.
    AllReasons,
    /// No, for the reasons chosen.
    No(Id),
    /// Maybe: it gets a mark.
    Maybe(Id),
    /// The mark is chalked.
    Chalked,
    /// Measure a plank of a pile.
    MeasureNew(Id),
    /// Delete the last No of a pile.
    DeleteLastNo(Id),
}

/// What a screen of the yard does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    match model.route {
        Route::Measure(piece) | Route::Verdict(piece) => {
            let open = model.yard.entering.as_ref().map(|one| one.piece);
            if open != Some(piece) {
                model.yard.entering = Entering::open(model, piece);
            }
        }
        _ => model.yard.entering = None,
    }
    model.yard.busy = false;
    if !matches!(model.route, Route::Sort(_)) {
        model.yard.to_chalk = None;
        model.yard.reasons.clear();
        model.yard.all_reasons = false;
    }
    Vec::new()
}

/// A character of a keyboard.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    let typed = match key {
        "Enter" | "Tab" => Action::Press(Key::Next),
        "Backspace" => Action::Press(Key::Erase),
        _ => return typed_sign(model, key),
    };
    match model.route {
        Route::Measure(_) => update(model, typed),
        _ => Vec::new(),
    }
}

fn typed_sign(model: &mut Model, sign: &str) -> Vec<Effect> {
    if !matches!(model.route, Route::Measure(_)) || sign.chars().count() != 1 {
        return Vec::new();
    }
    change_active(model, |text| format!("{text}{sign}"))
}

/// Something typed into a field of the page.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    if name == "note" {
        entering.draft.note = text;
    }
    keep_entering(model)
}

/// Changes the text of the field that is typed in; a step of the eye gives way to it.
fn change_active(model: &mut Model, change: impl FnOnce(&str) -> String) -> Vec<Effect> {
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    let Some(field) = entering.active else {
        return Vec::new();
    };
    let now = entering.value(field);
    let text = if now.seen == Seen::ByEye { "" } else { &now.text };
    entering.put(field, change(text));
    keep_entering(model)
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Activate(field) => {
            if let Some(entering) = &mut model.yard.entering {
                entering.active = Some(field);
                entering.rejecting = None;
            }
            vec![Effect::ScrollTo("active".to_owned())]
        }
        Action::Press(Key::Next) => step_on(model),
        Action::Press(Key::SameAsLast) => same_as_last(model),
        Action::Press(Key::NotLooked) => {
            let mut effects = change_active(model, |_| String::new());
            effects.extend(step_on(model));
            effects
        }
        Action::Press(key) => change_active(model, |text| after_key(text, key)),
        Action::Step(words) => {
            let value = DraftValue {
                text: words.to_owned(),
                seen: Seen::ByEye,
                confirmed: false,
            };
            put_active(model, value, true)
        }
        Action::Offer(text) => {
            let value = DraftValue {
                text,
                ..DraftValue::default()
            };
            put_active(model, value, false)
        }
        Action::Confirm => {
            let value = model.yard.entering.as_ref().and_then(|entering| {
                let value = entering.value(entering.active?);
                Some(DraftValue {
                    confirmed: true,
                    ..value
                })
            });
            value.map_or_else(Vec::new, |value| put_active(model, value, false))
        }
        Action::Weigh(way) => {
            if let Some(entering) = &mut model.yard.entering {
                entering.weigh(way);
            }
            keep_entering(model)
        }
        Action::More => {
            if let Some(entering) = &mut model.yard.entering {
                entering.more = !entering.more;
            }
            Vec::new()
        }
        Action::Discard => discard(model),
        Action::Decide(Decision::Leave) => decide::choose_reasons(model),
        Action::Decide(decision) => decide::decide(model, decision, Vec::new(), false),
        Action::RejectNow => {
            let chosen = model.yard.entering.as_ref().and_then(|one| one.rejecting.clone());
            decide::decide(model, Decision::Leave, chosen.unwrap_or_default(), true)
        }
        Action::NotRejecting => {
            if let Some(entering) = &mut model.yard.entering {
                entering.rejecting = None;
            }
            Vec::new()
        }
        Action::Reason(reason) => {
            let rejecting = model.yard.entering.as_mut().and_then(|one| one.rejecting.as_mut());
            let chosen = rejecting.unwrap_or(&mut model.yard.reasons);
            match chosen.iter().position(|one| *one == reason) {
                Some(at) => drop(chosen.remove(at)),
                None => chosen.push(reason),
            }
            Vec::new()
        }
        Action::AllReasons => {
            model.yard.all_reasons = !model.yard.all_reasons;
            Vec::new()
        }
        Action::No(pile) => no(model, pile),
        Action::Maybe(pile) => take_mark(model, pile, MarkFor::Maybe),
        Action::MeasureNew(pile) => take_mark(model, pile, MarkFor::Measuring),
        Action::Chalked => {
            model.yard.to_chalk = None;
            Vec::new()
        }
        Action::DeleteLastNo(pile) => delete_last_no(model, pile),
    }
}

fn put_active(model: &mut Model, value: DraftValue, and_go_on: bool) -> Vec<Effect> {
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    let Some(field) = entering.active else {
        return Vec::new();
    };
    entering.draft.put(field, value);
    let mut effects = keep_entering(model);
    if and_go_on {
        effects.extend(step_on(model));
    }
    effects
}

fn step_on(model: &mut Model) -> Vec<Effect> {
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    entering.step_on();
    match entering.active {
        Some(_) => vec![Effect::ScrollTo("active".to_owned())],
        // Everything in the order of the tape was looked at or passed over.
        None => vec![Effect::Go(Route::Verdict(entering.piece))],
    }
}

fn same_as_last(model: &mut Model) -> Vec<Effect> {
    let value = model.yard.entering.as_ref().and_then(|entering| {
        let field = entering.active?;
        let before = entering.last.get(&field)?;
        Some(DraftValue {
            text: retyped(field, before),
            seen: before.seen,
            confirmed: before.confirmed,
        })
    });
    value.map_or_else(Vec::new, |value| put_active(model, value, true))
}

/// Keeps the plank that is being measured, in memory and on the device.
fn keep_entering(model: &mut Model) -> Vec<Effect> {
    match &model.yard.entering {
        Some(entering) => {
            let draft = entering.draft.clone();
            keep_draft(model, draft)
        }
        None => Vec::new(),
    }
}

/// Keeps a half-typed plank, in memory and on the device.
pub fn keep_draft(model: &mut Model, draft: Draft) -> Vec<Effect> {
    let key = draft.piece.map(|piece| piece.to_string()).unwrap_or_default();
    let effects = crate::update::keep(key, &draft);
    match model.drafts.iter_mut().find(|known| known.piece == draft.piece) {
        Some(known) => *known = draft,
        None => model.drafts.push(draft),
    }
    effects
}

fn discard(model: &mut Model) -> Vec<Effect> {
    let Some(entering) = model.yard.entering.take() else {
        return Vec::new();
    };
    model.drafts.retain(|draft| draft.piece != Some(entering.piece));
    vec![
        Effect::RemoveDraft(entering.piece.to_string()),
        Effect::Go(Route::Sort(entering.draft.pile)),
    ]
}

fn no(model: &mut Model, pile: Id) -> Vec<Effect> {
    if model.yard.busy {
        return Vec::new();
    }
    model.yard.all_reasons = false;
    let reasons = std::mem::take(&mut model.yard.reasons);
    let words = &model.words().yard;
    let said = match reasons.first() {
        Some(reason) => fill(words.said_no, &[("reason", &reason.name())]),
        None => words.said_no_without.to_owned(),
    };
    let event = Event::PassedOver(PassedOver { count: 1, reasons });
    vec![Effect::Record {
        events: vec![NewEvent::new(pile, event)],
        after: AfterRecorded {
            said,
            ..AfterRecorded::default()
        },
    }]
}

fn delete_last_no(model: &mut Model, pile: Id) -> Vec<Effect> {
    let last = model.state().pile(pile).and_then(|pile| pile.passed.last());
    let Some(entry) = last.map(|lot| lot.entry) else {
        return Vec::new();
    };
    let event = NewEvent::instead_of(pile, Event::Withdrawn(Withdrawn {}), vec![entry]);
    vec![Effect::Record {
        events: vec![event],
        after: AfterRecorded {
            said: model.words().yard.last_no_deleted.to_owned(),
            ..AfterRecorded::default()
        },
    }]
}

/// Takes the next mark; a plank that was begun and left empty is taken up again, so that its mark is not lost.
fn take_mark(model: &mut Model, pile: Id, then: MarkFor) -> Vec<Effect> {
    if model.yard.busy {
        return Vec::new();
    }
    let left = model.drafts.iter().find(|draft| {
        let known = draft.piece.and_then(|piece| model.state().piece(piece));
        draft.pile == pile && draft.typed.is_empty() && known.is_none()
    });
    if let (MarkFor::Measuring, Some(piece)) = (then, left.and_then(|draft| draft.piece)) {
        return vec![Effect::Go(Route::Measure(piece))];
    }
    model.yard.busy = true;
    vec![Effect::TakeMark { pile, then }]
}

/// A mark is this device's to give.
pub fn mark_taken(model: &mut Model, pile: Id, then: MarkFor, mark: String) -> Vec<Effect> {
    model.yard.busy = false;
    let piece = model.new_id().filter(|_| !mark.is_empty());
    let Some(piece) = piece else {
        let text = model.words().yard.no_mark_left;
        return say(model, text);
    };
    match then {
        // Blanks take theirs where they are glued.
        MarkFor::Blank => Vec::new(),
        MarkFor::Measuring => {
            let mut draft = Draft::new(pile, mark, model.now.at.clone());
            draft.piece = Some(piece);
            // Kept at once: its mark may be chalked before the first key.
            let mut effects = keep_draft(model, draft);
            effects.push(Effect::Go(Route::Measure(piece)));
            effects
        }
        MarkFor::Maybe => {
            model.yard.to_chalk = Some((piece, mark.clone()));
            let said = fill(model.words().yard.chalk_on_it, &[("mark", &mark)]);
            let event = Event::Marked(Marked { mark, pile });
            vec![Effect::Record {
                events: vec![NewEvent::new(piece, event)],
                after: AfterRecorded {
                    said,
                    ..AfterRecorded::default()
                },
            }]
        }
    }
}

/// What was decided could not be recorded: the plank stands as it was typed.
pub fn not_recorded(model: &mut Model, draft: Draft) {
    if let Some(entering) = &mut model.yard.entering
        && Some(entering.piece) == draft.piece
    {
        entering.busy = false;
    }
}
