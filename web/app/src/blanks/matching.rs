//! Laminates that are being matched: the search, the set that is shown, and what the maker changes in it by hand.

use super::at_hand::{AtHand, at_hand};
use super::in_hand::{in_hand, with_at};
use super::{Action, Answer, GLUE, Job};
use crate::effect::{Effect, NewEvent};
use crate::form::{self, FormAction, FormId};
use crate::model::Model;
use crate::route::Route;
use crate::tell::{choose, record};
use crate::words::{Spoken, fill};
use crate::work;
use stillwood_core::neck::{MOST_PLACES, Placed, SearchState};
use stillwood_core::record::commands::glue;
use stillwood_core::record::{Event, Form, GrainSeen, Id, Member, as_json, queries};

/// What is known of a matching under way.
#[derive(Debug, Default)]
pub struct Matching {
    /// The set that is shown, place by place; nothing where no laminate stands yet.
    pub set: Vec<Option<Member>>,
    /// The place that is looked at.
    pub slot: usize,
    /// The search goes on.
    pub running: bool,
    /// How far it is.
    pub state: Option<SearchState>,
    /// The best sets so far, the best first.
    pub sets: Vec<Vec<Member>>,
    /// Which of them is shown.
    pub at: usize,
    /// The set was changed by hand.
    pub by_hand: bool,
    /// Why nothing can be looked for.
    pub trouble: String,
    job_number: u32,
    sought: Vec<Id>,
    /// All laminates that can be glued.
    pub at_hand: AtHand,
}

/// The woods wanted, place by place; empty for any.
pub fn woods_wanted(model: &Model) -> Vec<String> {
    // nothing lost: a list that this version can't read is one that it did not write
    let mut woods: Vec<String> =
        serde_json::from_str(model.chosen(GLUE, "woods by place")).unwrap_or_default();
    woods.resize(MOST_PLACES, String::new());
    // An older version kept whichever of its names a yard has.
    let one_name = |wood: &mut String| {
        if let Some(named) = queries::wood_named(model.state(), wood) {
            *wood = queries::wood_name(model.state(), &named);
        }
    };
    woods.iter_mut().for_each(one_name);
    woods
}

/// Whether woods are the same on both sides: they are, until the maker says otherwise.
pub fn is_mirrored(model: &Model) -> bool {
    model.chosen(GLUE, "the same on both sides") != "false"
}

/// The wood wanted at a place; empty for any.
pub fn wood_wanted(model: &Model, at: usize) -> String {
    let said = glue::place_said(at, count(model), is_mirrored(model));
    woods_wanted(model).get(said).cloned().unwrap_or_default()
}

/// How many laminates make the blank; 0 where that is not understood.
pub fn count(model: &Model) -> usize {
    let text = model
        .form
        .as_ref()
        .map_or("", |form| form.text(glue::COUNT.key));
    let count = text.trim().parse().unwrap_or(0);
    if count > MOST_PLACES { 0 } else { count }
}

/// The laminates that are searched through.
pub fn searched(model: &Model) -> Vec<Id> {
    let form = model.form.as_ref();
    form.map_or_else(Vec::new, |form| {
        glue::chosen(&Form::new(&form.texts, model.settings.units))
    })
}

/// What the screen does when it opens: what was left half typed is taken up, else it looks at once.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    form::open(model, FormId::GlueUp);
    if take_up(model) {
        return Vec::new();
    }
    seek(model)
}

/// Takes up the laminates that are in hand in the form; false where there are none.
pub fn take_up(model: &mut Model) -> bool {
    let Some(form) = &model.form else {
        return false;
    };
    let members = glue::in_hand(&Form::new(&form.texts, model.settings.units));
    if members.is_empty() {
        return false;
    }
    // Places that were empty stand empty again, behind the others.
    let places = count(model).max(members.len());
    let mut set: Vec<Option<Member>> = members.into_iter().map(Some).collect();
    set.resize(places, None);
    let matching = &mut model.blanks.matching;
    let empty = set.iter().position(Option::is_none);
    let slot = empty.unwrap_or(matching.slot.min(places.saturating_sub(1)));
    if matching.set != set {
        let job_number = matching.job_number;
        *matching = Matching {
            set,
            slot,
            job_number,
            by_hand: true,
            ..Matching::default()
        };
    }
    true
}

/// Looks for the sets that go together best.
fn seek(model: &mut Model) -> Vec<Effect> {
    let mut effects = stop(model);
    let (woods, mirrored) = (woods_wanted(model), is_mirrored(model));
    let Some(form) = &model.form else {
        return effects;
    };
    let read = Form::new(&form.texts, model.settings.units);
    let found = glue::search(&read, &woods, mirrored, &model.context());
    let places = count(model);
    let matching = &mut model.blanks.matching;
    let job_number = matching.job_number.wrapping_add(1);
    *matching = Matching {
        set: vec![None; places],
        slot: matching.slot.min(places.saturating_sub(1)),
        job_number,
        ..Matching::default()
    };
    match found {
        Ok(found) => {
            matching.running = true;
            matching.sought = found.stock.iter().map(|one| one.piece).collect();
            effects.push(Effect::Work(work::Job::Match(Job {
                number: job_number,
                stock: found.laminates,
                wish: found.wish,
            })));
        }
        Err(errors) => {
            let first = errors.all().first().map(|(_, why)| why.spoken());
            matching.trouble = first.unwrap_or_default();
        }
    }
    effects
}

/// Stops looking.
pub fn stop(model: &mut Model) -> Vec<Effect> {
    let matching = &mut model.blanks.matching;
    if !std::mem::take(&mut matching.running) {
        return Vec::new();
    }
    vec![Effect::StopWork]
}

/// What the search has found so far. What the maker changed by hand stays.
pub fn answered(model: &mut Model, answer: Answer) {
    let broke_down = model.words().blanks.broke_down;
    let matching = &mut model.blanks.matching;
    if answer.number != matching.job_number || !matching.running {
        return;
    }
    matching.running = !answer.is_last();
    let Some(state) = answer.state else {
        matching.trouble = broke_down.to_owned();
        return;
    };
    matching.state = Some(state);
    let member = |placed: &Placed| {
        Some(Member {
            piece: *matching.sought.get(placed.laminate)?,
            turned_over: placed.turn.turned_over,
            turned: placed.turn.end_for_end,
        })
    };
    let sets = answer
        .sets
        .iter()
        .map(|set| set.iter().filter_map(member).collect());
    matching.sets = sets.collect();
    if !matching.by_hand {
        matching.at = matching.at.min(matching.sets.len().saturating_sub(1));
        show_proposal(matching);
    }
}

fn show_proposal(matching: &mut Matching) {
    if let Some(set) = matching.sets.get(matching.at) {
        matching.set = set.iter().cloned().map(Some).collect();
        matching.by_hand = false;
    }
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    let slot = model.blanks.matching.slot;
    match action {
        Action::Seek => {
            let mut effects = keep_in_hand(model, false);
            effects.extend(seek(model));
            effects
        }
        Action::Stop => stop(model),
        Action::NextBest => {
            let matching = &mut model.blanks.matching;
            matching.at = (matching.at + 1) % matching.sets.len().max(1);
            show_proposal(matching);
            keep_in_hand(model, false)
        }
        Action::AsProposed => {
            show_proposal(&mut model.blanks.matching);
            keep_in_hand(model, false)
        }
        Action::Count(n) => {
            let mut effects = put(model, glue::COUNT.key, n.to_string());
            effects.extend(keep_in_hand(model, false));
            effects.extend(seek(model));
            effects
        }
        Action::Wood(at, wood) => {
            let mut woods = woods_wanted(model);
            let said = glue::place_said(at, count(model), is_mirrored(model));
            if let Some(place) = woods.get_mut(said) {
                *place = wood;
            }
            again_with(model, "woods by place", as_json(&woods))
        }
        Action::Mirror(on) => again_with(model, "the same on both sides", on.to_string()),
        Action::Slot(at) => {
            model.blanks.matching.slot = at;
            model.blanks.all = false;
            Vec::new()
        }
        Action::Put(id) => put_in(model, slot, id),
        Action::TurnOver => turn(model, slot, |member| {
            member.turned_over = !member.turned_over
        }),
        Action::EndForEnd => turn(model, slot, |member| member.turned = !member.turned),
        Action::Take(id) => {
            let mut all = searched(model);
            match all.iter().position(|one| *one == id) {
                Some(at) => drop(all.remove(at)),
                None => all.push(id),
            }
            put(model, glue::CHOSEN.key, glue::chosen_text(&all))
        }
        Action::Rings(id, tilt) => {
            let seen = GrainSeen {
                rings_lean: Some(tilt),
                ..GrainSeen::default()
            };
            see(model, id, seen, tilt.in_words())
        }
        Action::Grain(id, way) => {
            let seen = GrainSeen {
                grain_rises: Some(way),
                ..GrainSeen::default()
            };
            see(model, id, seen, way.in_words())
        }
        _ => Vec::new(),
    }
}

/// Puts a text into the form that stands open.
fn put(model: &mut Model, key: &'static str, text: String) -> Vec<Effect> {
    form::update(model, FormAction::Put(key, text))
}

/// Keeps the set in the form, once the maker has a hand in it; else none stands there.
fn keep_in_hand(model: &mut Model, keep: bool) -> Vec<Effect> {
    let set = &model.blanks.matching.set;
    let members: Vec<Member> = set.iter().flatten().filter(|_| keep).cloned().collect();
    put(model, glue::IN_HAND.key, as_json(&members))
}

fn again_with(model: &mut Model, name: &str, value: String) -> Vec<Effect> {
    let mut effects = choose(model, GLUE, name, value);
    effects.extend(keep_in_hand(model, false));
    effects.extend(seek(model));
    effects
}

/// Puts a laminate at a place, turned as suits the others best; one that stands elsewhere changes places with what
/// stands there.
fn put_in(model: &mut Model, at: usize, id: Id) -> Vec<Effect> {
    let other = at_hand(model).iter().find(|one| one.piece == id).cloned();
    let Some(other) = other else {
        return Vec::new();
    };
    let best = in_hand(model).and_then(|of| with_at(&of, at, &other));
    let matching = &mut model.blanks.matching;
    match best {
        Some((members, _)) => matching.set = members.into_iter().map(Some).collect(),
        None => {
            let from = matching
                .set
                .iter()
                .position(|one| one.as_ref().is_some_and(|one| one.piece == id));
            match from {
                Some(from) if at < matching.set.len() => matching.set.swap(at, from),
                _ => {
                    let member = Member {
                        piece: id,
                        turned_over: false,
                        turned: false,
                    };
                    let stood = matching.set.get_mut(at).and_then(|one| one.replace(member));
                    let places = matching.set.iter().enumerate();
                    let empty = places.filter(|(_, one)| one.is_none()).map(|(at, _)| at);
                    let next = empty.clone().find(|next| *next > at);
                    // A set that is put together by hand goes on at the next empty place.
                    if let (None, Some(next)) = (stood, next.or(empty.min())) {
                        matching.slot = next;
                    }
                }
            }
        }
    }
    changed_by_hand(model)
}

fn turn(model: &mut Model, at: usize, turn: impl FnOnce(&mut Member)) -> Vec<Effect> {
    if let Some(Some(member)) = model.blanks.matching.set.get_mut(at) {
        turn(member);
    }
    changed_by_hand(model)
}

fn changed_by_hand(model: &mut Model) -> Vec<Effect> {
    let matching = &mut model.blanks.matching;
    matching.by_hand = true;
    // Why no set was found by itself is no word on the one that is put together now.
    matching.trouble.clear();
    keep_in_hand(model, true)
}

fn see(model: &mut Model, id: Id, seen: GrainSeen, words: &str) -> Vec<Effect> {
    let mark = model.state().piece(id).map_or("", |piece| &piece.mark);
    let said = fill(
        model.words().blanks.said_seen,
        &[("mark", &mark), ("what", &words)],
    );
    record(
        vec![NewEvent::new(id, Event::GrainSeen(Box::new(seen)))],
        said,
    )
}

/// Goes on to the gluing, with the set that is shown.
pub fn glue(model: &mut Model) -> Vec<Effect> {
    if in_hand(model).is_none() {
        return Vec::new();
    }
    let mut effects = stop(model);
    effects.extend(keep_in_hand(model, true));
    effects.push(Effect::Go(Route::GlueUp));
    effects
}
