//! What is done on the screens of the yard: as they open, at a key, at a press.

use super::entering::Entering;
use super::kept::{keep_draft, keep_entering};
use super::reasons::at_hand;
use super::sorting::{delete_last_no, is_repeated, no, take_mark};
use super::{Action, bill, decide, defects, forms, mark, plank, recorded, table};
use crate::effect::{Effect, MarkFor};
use crate::form::{self, FormId};
use crate::model::{Model, Toast};
use crate::parts::{Key, after_key};
use crate::route::Route;
use stillwood_core::plank::{Reason, Seen, retyped};
use stillwood_core::record::{Decision, Draft, DraftValue, Piece};

/// Whether a screen is one on which a plank was measured that is decided by now.
pub fn is_behind(model: &Model, route: Route) -> bool {
    let (Route::Measure(id) | Route::Verdict(id)) = route else {
        return false;
    };
    let is_decided = |piece: &Piece| piece.decision().is_some();
    let is_half_typed = |draft: &Draft| draft.piece == Some(id);
    model.yard.behind.contains(&id)
        && model.state().piece(id).is_some_and(is_decided)
        && !model.drafts.iter().any(is_half_typed)
}

/// A screen is gone to on purpose: it lies behind no more.
pub fn asked_for(model: &mut Model, route: Route) {
    if let Route::Measure(id) | Route::Verdict(id) = route {
        model.yard.behind.retain(|one| *one != id);
    }
}

/// What a screen of the yard does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    match model.route {
        Route::Measure(piece) | Route::Verdict(piece) => {
            let open = model.yard.entering.as_ref().map(|one| one.piece);
            if open != Some(piece) {
                model.yard.entering = Entering::open(model, piece);
            }
            if let Some(entering) = &mut model.yard.entering {
                entering.rejecting = None;
                entering.from_measuring |= matches!(model.route, Route::Measure(_));
            }
        }
        _ => model.yard.entering = None,
    }
    if let Route::Sort(pile) = model.route {
        let state = model.state();
        model.yard.reasons_at_hand = at_hand(state, state.pile(pile));
    }
    model.yard.busy = false;
    model.yard.judging = None;
    model.yard.defects = false;
    model.yard.chalked.clear();
    model.yard.table.first = 0;
    match model.route {
        Route::NewVisit => forms::open_visit(model),
        Route::EditVisit(id) => form::open(model, FormId::Visit(Some(id))),
        Route::NewPile(visit) => form::open(model, FormId::NewPile(visit)),
        Route::EditPile(id) => form::open(model, FormId::EditPile(id)),
        Route::Tally(_) => model.yard.bill = bill::Local::default(),
        Route::Spec(id) => form::open(model, FormId::Spec(id)),
        Route::Target(id) => form::open(model, FormId::Target(Some(id))),
        // Of another plank only what was decided on it, with its undo, stands over the one that is measured.
        Route::Measure(_) => {
            let of_another =
                |toast: &mut Toast| !toast.undo.is_empty() && toast.after.draft.is_none();
            model.toast.take_if(of_another);
        }
        // A word on what was decided is not for the seller.
        Route::Seller(_) => model.toast = None,
        _ => {}
    }
    if !matches!(model.route, Route::Sort(_)) {
        model.yard.to_chalk = None;
        model.yard.reasons.clear();
        model.yard.all_reasons = false;
    }
    Vec::new()
}

/// A character of a keyboard.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    if matches!(model.route, Route::Planks | Route::Visit(_)) {
        return table::key(model, key);
    }
    if !shows_measurements(model) {
        return Vec::new();
    }
    match key {
        "Enter" => update(model, Action::Press(Key::Next)),
        "Backspace" => update(model, Action::Press(Key::Erase)),
        sign if sign.chars().count() == 1 => change_active(model, |text| format!("{text}{sign}")),
        _ => Vec::new(),
    }
}

/// Whether the field that is typed in is on the screen: neither defects nor reasons to reject stand in its place.
fn shows_measurements(model: &Model) -> bool {
    let rejecting = |one: &Entering| one.rejecting.is_some();
    matches!(model.route, Route::Measure(_))
        && !model.yard.defects
        && !model.yard.entering.as_ref().is_some_and(rejecting)
}

/// Something typed into a field of the page.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    // A sheet stands beside a list as well.
    if let Some(piece) = name.strip_prefix(plank::NEW_NOTE) {
        // nothing lost: the name is written by the sheet itself
        let piece = piece.parse().ok();
        return piece.map_or_else(Vec::new, |piece| recorded::typed_note(model, piece, text));
    }
    match model.route {
        Route::Planks | Route::Visit(_) => return table::typed(model, name, text),
        Route::Tally(id) => return bill::typed(model, id, name, text),
        Route::Mark(_) => return mark::typed(model, name, text),
        _ => {}
    }
    if defects::typed(model, name, &text) {
        return keep_entering(model);
    }
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
    let text = if now.seen == Seen::ByEye {
        ""
    } else {
        &now.text
    };
    entering.put(field, change(text));
    entering.asking = false;
    keep_entering(model)
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::UseChalked(piece) => mark::use_chalked(model, piece),
        Action::Activate(field) => {
            let mut effects = Vec::new();
            if let Some(entering) = &mut model.yard.entering {
                let rings = entering.rings;
                entering.activate(field);
                if entering.rings != rings {
                    effects = keep_entering(model);
                }
            }
            effects.push(Effect::ScrollTo("active".to_owned()));
            effects
        }
        Action::Press(Key::Next) => step_on(model),
        Action::Press(Key::SameAsLast) => same_as_last(model),
        Action::Press(Key::NotLooked) => {
            let mut effects = change_active(model, |_| String::new());
            effects.extend(step_on(model));
            effects
        }
        // The hand stands last: with it the value is whole.
        Action::Press(key @ Key::Add(" L" | " R")) if has_number(model) => {
            let mut effects = change_active(model, |text| after_key(text, key));
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
            put_active(model, value)
        }
        Action::Offer(text) => {
            let value = DraftValue {
                text,
                ..DraftValue::default()
            };
            put_active(model, value)
        }
        Action::Confirm => {
            let value = model.yard.entering.as_ref().and_then(|entering| {
                let value = entering.value(entering.active?);
                Some(DraftValue {
                    confirmed: true,
                    ..value
                })
            });
            value.map_or_else(Vec::new, |value| put_active(model, value))
        }
        Action::Weigh(way) => {
            if let Some(entering) = &mut model.yard.entering {
                entering.weigh(way);
            }
            keep_entering(model)
        }
        Action::ReadRings(way) => {
            if let Some(entering) = &mut model.yard.entering {
                entering.read_rings(way);
            }
            let mut effects = keep_entering(model);
            effects.push(Effect::ScrollTo("active".to_owned()));
            effects
        }
        Action::More => {
            if let Some(entering) = &mut model.yard.entering {
                entering.more = !entering.more;
            }
            Vec::new()
        }
        Action::Discard => discard(model),
        Action::BringBackTyped => bring_back_typed(model),
        Action::Decide(Decision::Leave) => decide::choose_reasons(model),
        Action::Decide(decision) => decide::decide(model, decision, Vec::new(), false),
        Action::BuyAllTheSame => {
            model.dialog = None;
            decide::decide(model, Decision::Take, Vec::new(), true)
        }
        Action::RejectNow => {
            let chosen = model
                .yard
                .entering
                .as_ref()
                .and_then(|one| one.rejecting.clone());
            decide::decide(model, Decision::Leave, chosen.unwrap_or_default(), true)
        }
        Action::NotRejecting => {
            if let Some(entering) = &mut model.yard.entering {
                entering.rejecting = None;
            }
            Vec::new()
        }
        Action::Reason(reason) => {
            let chosen = reasons_in_choice(model);
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
        Action::No(_) | Action::Maybe(_) | Action::Chalked if is_repeated(model) => Vec::new(),
        Action::No(pile) => no(model, pile),
        Action::Maybe(pile) => take_mark(model, MarkFor::Maybe(pile)),
        Action::MeasureNew(pile) => take_mark(model, MarkFor::Measuring(pile)),
        Action::Chalk(piece, mark) => {
            if matches!(model.route, Route::Sort(_)) {
                model.yard.to_chalk = Some((piece, mark));
            }
            Vec::new()
        }
        Action::Chalked => {
            model.yard.to_chalk = None;
            Vec::new()
        }
        Action::DeleteLastNo(pile) => delete_last_no(model, pile),
        Action::Defects(action) => defects::update(model, action),
        Action::Recorded(action) => recorded::update(model, action),
        Action::Bill(action) => bill::update(model, action),
        Action::Table(action) => table::update(model, action),
    }
}

/// The reasons that are being chosen: of a plank in the record, of the one that is measured, else of the next No.
fn reasons_in_choice(model: &mut Model) -> &mut Vec<Reason> {
    let yard = &mut model.yard;
    let recorded = yard.judging.as_mut().map(|(_, reasons)| reasons);
    let entering = yard.entering.as_mut();
    let rejecting = entering.and_then(|one| one.rejecting.as_mut());
    recorded.or(rejecting).unwrap_or(&mut yard.reasons)
}

/// Whether a number stands in the field that is typed in.
fn has_number(model: &Model) -> bool {
    let entering = model.yard.entering.as_ref();
    let value = entering.and_then(|one| Some(one.value(one.active?)));
    value.is_some_and(|value| {
        value.seen != Seen::ByEye && value.text.trim_end().ends_with(|c: char| c.is_numeric())
    })
}

/// Puts a whole value into the field that is typed in, and goes on.
fn put_active(model: &mut Model, value: DraftValue) -> Vec<Effect> {
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    let Some(field) = entering.active else {
        return Vec::new();
    };
    entering.draft.put(field, value);
    let mut effects = keep_entering(model);
    effects.extend(step_on(model));
    effects
}

/// Goes on to the next field. What is odd, or can't be read, is asked about first; who goes on again leaves it so.
fn step_on(model: &mut Model) -> Vec<Effect> {
    let entering = model.yard.entering.as_ref();
    let asks = entering.is_some_and(|entering| !entering.asking && entering.is_odd(model));
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    if asks {
        entering.asking = true;
        // The question takes room from the drawing: the field that it is about stays in sight.
        return vec![Effect::ScrollTo("active".to_owned())];
    }
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
    value.map_or_else(Vec::new, |value| put_active(model, value))
}

fn bring_back_typed(model: &mut Model) -> Vec<Effect> {
    let Some(draft) = model.yard.discarded.take() else {
        return Vec::new();
    };
    let piece = draft.piece;
    let mut effects = keep_draft(model, draft);
    effects.extend(piece.map(|piece| Effect::Go(Route::Measure(piece))));
    effects
}

fn discard(model: &mut Model) -> Vec<Effect> {
    let Some(entering) = model.yard.entering.take() else {
        return Vec::new();
    };
    model
        .drafts
        .retain(|draft| draft.piece != Some(entering.piece));
    let pile = entering.draft.pile;
    model.yard.discarded = Some(entering.draft).filter(|draft| !draft.is_empty());
    vec![
        Effect::RemoveDraft(entering.piece.to_string()),
        Effect::Replace(Route::Sort(pile)),
    ]
}

/// What was decided is undone: what was typed is half typed again, also where the plank stands open meanwhile.
pub fn undone(model: &mut Model, draft: Draft) -> Vec<Effect> {
    if let Some(entering) = &mut model.yard.entering
        && Some(entering.piece) == draft.piece
    {
        entering.weighs = draft.weighed_by.unwrap_or(entering.weighs);
        entering.rings = draft.rings_by.unwrap_or(entering.rings);
        entering.draft = draft.clone();
    }
    keep_draft(model, draft)
}

/// What was decided could not be recorded: the plank stands as it was typed.
pub fn not_recorded(model: &mut Model, draft: &Draft) {
    if let Some(entering) = &mut model.yard.entering
        && Some(entering.piece) == draft.piece
    {
        entering.busy = false;
    }
}
