//! A rack that is looked over: one press for each piece that has not changed, the sizes of those that moved, and the
//! last undone. The day and who looked are typed once.

use super::Action;
use super::stock::rack_name;
use crate::effect::{AfterRecorded, Effect, NewEvent};
use crate::form::{self, FORM, FormId};
use crate::half_typed;
use crate::last_press::LastPress;
use crate::model::{Dialog, HalfTyped, Model, Texts};
use crate::page::Ui;
use crate::route::Route;
use crate::tell::{self, keep};
use crate::words::{Spoken, fill};
use chrono::NaiveDate;
use maud::{Markup, html};
use stillwood_core::record::commands::check_rack::{self, ROUND_KEY, WHO, WITHIN};
use stillwood_core::record::{
    CONFIRMED, DAY, Event, FieldErrors, Filled, Form, Id, RackLot, Withdrawn, as_json, confirm,
    date, rack_lots,
};
use stillwood_core::season::Stage;

/// Under which the rack is kept that was looked over last.
const SCREEN: &str = "check";
const RACK: &str = "shelf";

/// The id of the row of the piece that is looked at now.
pub const NOW: &str = "now";

/// Among the texts of a round that are kept: the day on which they were typed.
const TYPED_ON: &str = "typed on";

/// A check that was not kept within so long may be made again.
const NOT_KEPT: u64 = 5_000;

/// The round.
#[derive(Debug, Default)]
pub struct Round {
    /// The rack.
    pub place: Option<String>,
    /// The piece that was chosen to be looked at.
    pub chosen: Option<Id>,
    /// To be looked at later.
    pub skipped: Vec<Id>,
    /// Those checked in this round with the day of the check, the last one last.
    pub checked_this_round: Vec<(Id, NaiveDate)>,
    /// Day and name, as typed.
    pub texts: Texts,
    /// What is wrong with them.
    pub errors: FieldErrors,
    /// When a key was last pressed.
    last_press: LastPress,
    /// A piece whose check is being written down, and since when, in milliseconds since 1970.
    being_written: Option<(Id, u64)>,
}

/// Forms that were left half typed, with the way to each.
pub fn half_typed_forms(ui: &Ui<'_>) -> Markup {
    let told = half_typed::in_sight(ui.model);
    let with_screens = told.map(|(key, form)| (key, form, half_typed::screen(ui.model, key, form)));
    let in_the_racks =
        with_screens.filter(|(_, _, screen)| screen.place() == crate::route::Place::Racks);
    html! {
        @for (key, form, screen) in in_the_racks {
            a.notice href=(screen.address()) data-press=(ui.press(half_typed::key_of(key))) {
                strong { (form.words) } " " span.below { (ui.w.racks.half_typed) }
            }
        }
    }
}

/// All that lies on racks and rests, rack by rack.
pub fn places(model: &Model) -> Vec<(String, Vec<(Id, String)>)> {
    let mut places: Vec<(String, Vec<(Id, String)>)> = Vec::new();
    for RackLot { place, pieces, .. } in rack_lots(model.state()) {
        match places.last_mut() {
            Some((known, all)) if *known == place => all.extend(pieces),
            _ => places.push((place, pieces)),
        }
    }
    places
}

/// What is looked over, in the order of the marks.
pub fn pieces(model: &Model) -> Vec<(Id, String)> {
    let place = model.racks.round.place.as_ref();
    let found = places(model)
        .into_iter()
        .find(|(known, _)| Some(known) == place);
    found.map(|(_, pieces)| pieces).unwrap_or_default()
}

/// The day of the round.
fn day_typed(model: &Model) -> Option<NaiveDate> {
    date(model.racks.round.texts.get(DAY.key)?)
}

/// Whether a piece was looked at on the day of the round.
pub fn is_looked_at(model: &Model, piece: Id) -> bool {
    let day = day_typed(model);
    let piece = model.state().piece(piece);
    piece.is_some_and(|piece| piece.work.checks.iter().any(|check| Some(check.on) == day))
}

/// The piece to be looked at now; none where all were.
pub fn current(model: &Model, pieces: &[(Id, String)]) -> Option<Id> {
    let round = &model.racks.round;
    let is_there = |id: &Id| pieces.iter().any(|(one, _)| one == id);
    let open = |id: &Id| !is_looked_at(model, *id);
    let ids = || pieces.iter().map(|(id, _)| *id);
    let chosen = round.chosen.filter(is_there);
    let next = || ids().find(|id| open(id) && !round.skipped.contains(id));
    chosen.or_else(next).or_else(|| ids().find(open))
}

/// Chooses the rack that is looked over.
pub fn choose(model: &mut Model, place: &str) -> Vec<Effect> {
    let round = &mut model.racks.round;
    if round.place.as_deref() != Some(place) {
        round.skipped.clear();
        round.checked_this_round.clear();
    }
    round.place = Some(place.to_owned());
    round.chosen = None;
    let stage = rack_lots(model.state())
        .into_iter()
        .find(|lot| lot.place == place);
    let kept = as_json(&Some((
        place.to_owned(),
        stage.map_or(Stage::Pieces, |lot| lot.stage),
    )));
    tell::choose(model, SCREEN, RACK, kept)
}

/// What is taken up of a round that was left: who looked, and on the day on which they were typed the day and how far
/// off the tool may be, this in the units that it was typed in.
fn taken_up(model: &Model) -> Texts {
    let Some(kept) = model.forms.get(ROUND_KEY) else {
        return Texts::new();
    };
    let is_of_today = kept.texts.get(TYPED_ON) == Some(&model.now.day);
    let same_units = kept.units == model.settings.units;
    let mut texts = kept.texts.clone();
    texts.retain(|key, _| match key.as_str() {
        TYPED_ON => false,
        key if key == WHO.key => true,
        key if key == WITHIN.key => is_of_today && same_units,
        _ => is_of_today,
    });
    texts
}

/// The round begins, or goes on.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    let taken_up = taken_up(model);
    model.racks.round.texts = check_rack::begins(&model.context());
    model.racks.round.texts.extend(taken_up);
    model.racks.round.errors = FieldErrors::default();
    model.racks.round.being_written = None;
    model.racks.round.chosen = None;
    let places = places(model);
    let has = |place: &str| places.iter().any(|(known, _)| known == place);
    let chosen = model.racks.round.place.as_deref();
    let chosen = chosen.filter(|place| has(place));
    // A piece of which something was half typed stands open again: on the rack that was chosen, else on its own.
    let of_chosen = places
        .iter()
        .filter(|(place, _)| chosen.is_none_or(|chosen| chosen == place));
    let half_typed = of_chosen
        .flat_map(|(_, pieces)| pieces)
        .map(|(id, _)| *id)
        .find(|id| model.forms.contains_key(&check_rack::form_key(*id)));
    if let Some(piece) = half_typed {
        return take_up(model, piece);
    }
    if chosen.is_some() {
        return Vec::new();
    }
    let kept: Option<(String, Stage)> =
        serde_json::from_str(model.chosen(SCREEN, RACK)).unwrap_or_default();
    let kept = kept.map(|(place, _)| place).filter(|place| has(place));
    model.racks.round.place = match places.as_slice() {
        [(only, _)] => Some(only.clone()),
        _ => kept,
    };
    Vec::new()
}

/// A key of a keyboard.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    if model.form.is_some() {
        return match key {
            "Escape" => {
                model.form = None;
                Vec::new()
            }
            _ => Vec::new(),
        };
    }
    let pieces = pieces(model);
    let Some(now) = current(model, &pieces) else {
        return Vec::new();
    };
    let at = pieces
        .iter()
        .position(|(id, _)| *id == now)
        .unwrap_or_default();
    let go = |at: Option<usize>| at.and_then(|at| pieces.get(at)).map(|(id, _)| *id);
    let to = match key {
        "ArrowDown" => go(at.checked_add(1)),
        "ArrowUp" => go(at.checked_sub(1)),
        "Enter" | "n" | "N" => return no_change(model, now),
        "m" | "M" => return it_moved(model, now),
        "Backspace" => return undo_last(model),
        _ => return Vec::new(),
    };
    model.racks.round.chosen = to.or(Some(now));
    vec![Effect::ScrollTo(NOW.to_owned())]
}

/// The day or who looked, as it is typed; kept at once.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    let round = &mut model.racks.round;
    round.texts.insert(name.to_owned(), text);
    round.errors = FieldErrors::default();
    let texts = round.texts.clone();
    keep_texts(model, texts)
}

/// Keeps those texts of the round that it does not begin with.
fn keep_texts(model: &mut Model, mut texts: Texts) -> Vec<Effect> {
    let begins = check_rack::begins(&model.context());
    texts.retain(|key, text| begins.get(key) != Some(text));
    let key = format!("{FORM}{ROUND_KEY}");
    if texts.is_empty() {
        model.forms.remove(ROUND_KEY);
        return vec![Effect::RemoveDraft(key)];
    }
    texts.insert(TYPED_ON.to_owned(), model.now.day.clone());
    let half_typed = HalfTyped {
        at: Route::LookOver.address(),
        words: String::new(),
        units: model.settings.units,
        texts,
    };
    let effects = keep(key, &half_typed);
    model.forms.insert(ROUND_KEY.to_owned(), half_typed);
    effects
}

/// Whether a key is pressed so soon after the one before it that it was not meant.
fn is_repeated(model: &mut Model) -> bool {
    model.racks.round.last_press.is_repeated(model.now.millis)
}

/// A piece has not changed since last time.
pub fn no_change(model: &mut Model, piece: Id) -> Vec<Effect> {
    let now = model.now.millis;
    let being_written = model.racks.round.being_written;
    let on_its_way = being_written
        .is_some_and(|(id, since)| id == piece && now.saturating_sub(since) < NOT_KEPT);
    if is_repeated(model) || on_its_way {
        return Vec::new();
    }
    let texts = model.racks.round.texts.clone();
    let form = Form::new(&texts, model.settings.units);
    match check_rack::no_change(&form, piece, &model.context()) {
        Err(errors) => {
            let first = errors.all().first().map(|(key, _)| form::field_id(key));
            model.racks.round.errors = errors;
            first.into_iter().map(Effect::Focus).collect()
        }
        Ok(Filled { questions, .. }) if !questions.is_empty() => {
            let question = questions.into_iter().next().map(|one| one.question);
            model.dialog = Some(Dialog::Ask {
                question: question.unwrap_or_default().spoken(),
                yes: model.words().common.keep_as_typed.to_owned(),
                action: Box::new(Action::NoChangeThatDay(piece).into()),
            });
            vec![Effect::Focus("dialog".to_owned())]
        }
        Ok(Filled { events, .. }) => {
            model.racks.round.being_written = Some((piece, now));
            vec![Effect::Record {
                events,
                after: AfterRecorded {
                    next: Some(Box::new(Action::Looked(piece).into())),
                    ..AfterRecorded::default()
                },
            }]
        }
    }
}

/// The day is as it should be.
pub fn no_change_that_day(model: &mut Model, piece: Id) -> Vec<Effect> {
    model.dialog = None;
    confirm(&mut model.racks.round.texts, DAY.key);
    model.racks.round.last_press = LastPress::default();
    no_change(model, piece)
}

/// A piece moved: its sizes are typed.
pub fn it_moved(model: &mut Model, piece: Id) -> Vec<Effect> {
    if is_repeated(model) {
        return Vec::new();
    }
    type_sizes(model, piece)
}

/// The form of a piece that moved opens on its rack, as it was left half typed.
pub fn take_up(model: &mut Model, piece: Id) -> Vec<Effect> {
    let places = places(model);
    let holds = |pieces: &[(Id, String)]| pieces.iter().any(|(id, _)| *id == piece);
    let Some((place, _)) = places.iter().find(|(_, pieces)| holds(pieces)) else {
        return Vec::new();
    };
    let mut effects = choose(model, place);
    effects.extend(type_sizes(model, piece));
    effects
}

fn type_sizes(model: &mut Model, piece: Id) -> Vec<Effect> {
    model.racks.round.chosen = Some(piece);
    let form = FormId::Moved(piece);
    let round = &model.racks.round.texts;
    let text = |key: &str| round.get(key).cloned().unwrap_or_default();
    // The day and who looked are those of the round. What else was half typed stands.
    let mut texts: Texts = [DAY.key, WHO.key]
        .map(|key| (key.to_owned(), text(key)))
        .into();
    let within = text(WITHIN.key);
    if Form::new(round, model.settings.units).is_confirmed(DAY.key) {
        let half_typed = model.forms.get(&form.key());
        let confirmed = half_typed.and_then(|kept| kept.texts.get(CONFIRMED));
        texts.extend(confirmed.map(|json| (CONFIRMED.to_owned(), json.clone())));
        confirm(&mut texts, DAY.key);
    }
    form::open_with(model, form, texts);
    form::offer(model, form, WITHIN.key, within);
    vec![Effect::Focus(form::field_id("Bow"))]
}

/// The day and who looked, as they stand in the form of a piece that moved, are those of the round from then on.
pub fn follow_form(model: &mut Model) -> Vec<Effect> {
    let open = model.form.as_ref();
    let Some(open) = open.filter(|open| matches!(open.id, FormId::Moved(_))) else {
        return Vec::new();
    };
    let is_confirmed = Form::new(&open.texts, model.settings.units).is_confirmed(DAY.key);
    let mut effects = Vec::new();
    for key in [DAY.key, WHO.key] {
        let open = model.form.as_ref();
        let text = open.map_or_else(String::new, |open| open.text(key).to_owned());
        if model.racks.round.texts.get(key) != Some(&text) {
            effects.extend(typed(model, key, text));
        }
    }
    if is_confirmed {
        confirm(&mut model.racks.round.texts, DAY.key);
    }
    effects
}

/// The check of a piece is recorded.
pub fn looked(model: &mut Model, piece: Id) -> Vec<Effect> {
    let day = day_typed(model).unwrap_or(model.now.date());
    let round = &mut model.racks.round;
    round.checked_this_round.retain(|(one, _)| *one != piece);
    round.checked_this_round.push((piece, day));
    round.skipped.retain(|one| *one != piece);
    round.chosen = None;
    round.being_written = None;
    let pieces = pieces(model);
    if current(model, &pieces).is_some() {
        return vec![Effect::ScrollTo(NOW.to_owned())];
    }
    // The rack is done: only who looked is kept for the next one.
    let mut texts = model.racks.round.texts.clone();
    texts.retain(|key, _| key == WHO.key);
    keep_texts(model, texts)
}

/// A piece is looked at later.
pub fn skip(model: &mut Model, piece: Id) -> Vec<Effect> {
    if is_repeated(model) {
        return Vec::new();
    }
    let round = &mut model.racks.round;
    round.skipped.retain(|one| *one != piece);
    round.skipped.push(piece);
    round.chosen = None;
    vec![Effect::ScrollTo(NOW.to_owned())]
}

/// Deletes the last check of the round.
pub fn undo_last(model: &mut Model) -> Vec<Effect> {
    if is_repeated(model) {
        return Vec::new();
    }
    let Some((piece, day)) = model.racks.round.checked_this_round.last().copied() else {
        return Vec::new();
    };
    let known = model.state().piece(piece);
    // Others of that day were made before it.
    let of_day = known
        .into_iter()
        .flat_map(|piece| &piece.work.checks)
        .filter(|check| check.on == day);
    let last = of_day
        .max_by_key(|check| check.place)
        .map(|check| check.entry);
    let mark = known.map(|piece| piece.mark.clone()).unwrap_or_default();
    let Some(entry) = last else {
        model.racks.round.checked_this_round.pop();
        return Vec::new();
    };
    let event = NewEvent::instead_of(piece, Event::Withdrawn(Withdrawn {}), vec![entry]);
    vec![Effect::Record {
        events: vec![event],
        after: AfterRecorded {
            said: fill(model.words().racks.check_deleted, &[("mark", &mark)]),
            next: Some(Box::new(Action::CheckDeleted(piece).into())),
            ..AfterRecorded::default()
        },
    }]
}

/// The last check of a piece is deleted: it is looked at again.
pub fn check_deleted(model: &mut Model, piece: Id) -> Vec<Effect> {
    let round = &mut model.racks.round;
    round.checked_this_round.retain(|(one, _)| *one != piece);
    round.chosen = Some(piece);
    vec![Effect::ScrollTo(NOW.to_owned())]
}

/// The name of the rack that is looked over.
pub fn title(model: &Model) -> String {
    let words = &model.words().racks;
    match &model.racks.round.place {
        Some(place) => rack_name(words, place),
        None => words.look_over_title.to_owned(),
    }
}
