//! The blanks: laminates matched and glued, blanks at rest and finished, side by side, reserved, with their papers.

pub mod comes_to;
pub mod figures;
pub mod filter;
pub mod glue_up;
pub mod history;
pub mod in_hand;
mod job;
pub mod match_view;
pub mod matching;
pub mod page;
pub mod papers;
pub mod place;
pub mod row;
pub mod side_by_side;
pub mod slot_view;

pub use in_hand::MatchedFigure;
pub use job::{Answer, Job, SLICE, SearchInSlices, work, work_telling};

use crate::effect::{AfterRecorded, Effect, MarkFor, NewEvent};
use crate::form::{self, FormId};
use crate::half_typed;
use crate::model::Model;
use crate::route::Route;
use crate::update::{keep, say};
use crate::words::fill;
use matching::Matching;
use stillwood_core::neck::MatchLimits;
use stillwood_core::plank::{RingTilt, RunoutDirection};
use stillwood_core::record::commands::{glue, gluing_limits};
use stillwood_core::record::{Event, Id, Released, workshop_command};

/// What only the screens of the blanks know.
#[derive(Debug, Default)]
pub struct Local {
    /// Laminates that are being matched.
    pub matching: Matching,
    /// What is being recorded of a blank: its form stands open on the screen.
    pub recording: Option<(Id, &'static str)>,
    /// All that can be done with a blank is shown.
    pub more: bool,
    /// Longer lists are shown whole.
    pub all: bool,
}

/// What may be done on the screens of the blanks.
#[derive(Debug, Clone)]
pub enum Action {
    /// Look for the sets that go together best.
    Seek,
    /// Stop looking.
    Stop,
    /// Show the next best set.
    NextBest,
    /// Back to the set as it was proposed.
    AsProposed,
    /// As many laminates make the blank.
    Count(usize),
    /// The wood wanted at a place; empty for any.
    Wood(usize, String),
    /// Woods are the same on both sides, or not.
    Mirror(bool),
    /// This place of the blank is looked at.
    Slot(usize),
    /// Put a laminate there.
    Put(Id),
    /// Turn the laminate there over.
    TurnOver,
    /// Turn it end for end.
    EndForEnd,
    /// Search through this laminate, or leave it out.
    Take(Id),
    /// How the rings of a laminate rise, as seen on the wood.
    Rings(Id, RingTilt),
    /// How its grain runs, as seen on the wood.
    Grain(Id, RunoutDirection),
    /// Go on to the gluing, with the set in hand.
    Glue,
    /// Show all of a longer list, or less of it.
    All,
    /// Show all that can be done with a blank, or less of it.
    More,
    /// Open the form of something done with a blank.
    Open(Id, &'static str),
    /// Close it.
    CloseForm,
    /// A blank that was reserved is free again.
    Release(Id),
    /// Put a blank side by side with others, or take it out.
    SideBySide(Id),
    /// None stand side by side.
    NoneSideBySide,
    /// Puts the limits for gluing as they are supplied into their form.
    LimitsAsSupplied,
    /// Show blanks of this wood only, or of all.
    OfWood(String),
}

/// The most blanks that stand side by side.
pub const MOST_SIDE_BY_SIDE: usize = 6;

/// Under which name what is chosen on the screen of blanks is kept on the device.
pub const BLANKS: &str = "blanks";
/// The same of blanks side by side.
pub const CHOICE: &str = "choice";
/// The same of the screen of gluing.
pub const GLUE: &str = "glue";

/// What a screen does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    model.blanks.recording = None;
    model.blanks.more = false;
    model.blanks.all = false;
    let mut effects = match model.route {
        Route::Match => Vec::new(),
        // Nobody looks at what is being looked for.
        _ => matching::stop(model),
    };
    effects.extend(opened_here(model));
    effects
}

fn opened_here(model: &mut Model) -> Vec<Effect> {
    match model.route {
        Route::Match => matching::opened(model),
        Route::GlueUp => {
            form::open(model, FormId::GlueUp);
            matching::take_up(model);
            let pile = Id::from_u128(0);
            let then = MarkFor::Blank;
            let has_mark = model
                .form
                .as_ref()
                .is_some_and(|form| !form.text(glue::MARK.key).is_empty());
            if has_mark {
                Vec::new()
            } else {
                vec![Effect::TakeMark { pile, then }]
            }
        }
        Route::GluingLimits => {
            form::open(model, FormId::GluingLimits);
            Vec::new()
        }
        // Its gluing was undone.
        Route::Blank(id) if model.state().piece(id).is_some_and(|piece| piece.withdrawn) => {
            vec![Effect::Replace(Route::Blanks)]
        }
        Route::Blank(id) => take_up_half_typed(model, &[id]),
        Route::SideBySide => {
            let ids = chosen_side_by_side(model);
            take_up_half_typed(model, &ids)
        }
        _ => Vec::new(),
    }
}

/// A form of one of these blanks that was left half typed stands open again.
fn take_up_half_typed(model: &mut Model, ids: &[Id]) -> Vec<Effect> {
    // Of several it is the one that stood open last.
    if let Some(FormId::Workshop(id, name)) = half_typed::stood_open(model, model.route)
        && ids.contains(&id)
        && model.forms.contains_key(&FormId::Workshop(id, name).key())
    {
        return open_form(model, id, name);
    }
    for id in ids {
        for command in &stillwood_core::record::WORKSHOP_COMMANDS {
            if model.forms.contains_key(&command.form_key(*id)) {
                return open_form(model, *id, command.key);
            }
        }
    }
    Vec::new()
}

/// Opens a form of something done with a blank.
pub fn open_form(model: &mut Model, id: Id, name: &'static str) -> Vec<Effect> {
    if workshop_command(name).is_none() {
        return Vec::new();
    }
    form::open(model, FormId::Workshop(id, name));
    model.blanks.recording = Some((id, name));
    let mut effects = half_typed::stands_open(model, model.route, FormId::Workshop(id, name));
    effects.push(Effect::ScrollTo("recording".to_owned()));
    effects
}

/// A key of a keyboard: up and down go through the list of a wide screen.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    let step = match key {
        "ArrowUp" => -1,
        "ArrowDown" => 1,
        _ => return Vec::new(),
    };
    let here = match model.route {
        Route::Blank(id) => Some(id),
        Route::Blanks => None,
        _ => return Vec::new(),
    };
    if !model.shell.wide || model.blanks.recording.is_some() {
        return Vec::new();
    }
    let ids = place::listed(model);
    let at = here.and_then(|id| ids.iter().position(|one| *one == id));
    let next = match at {
        Some(at) => at.checked_add_signed(step),
        None => Some(0),
    };
    let next = next.and_then(|next| ids.get(next));
    next.map_or_else(Vec::new, |id| vec![Effect::Replace(Route::Blank(*id))])
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    // What was asked before it is answered.
    model.dialog = None;
    match action {
        Action::All => {
            model.blanks.all = !model.blanks.all;
            Vec::new()
        }
        Action::More => {
            model.blanks.more = !model.blanks.more;
            // It would lie over what can be done.
            let open = model.blanks.more;
            model.toast.take_if(|_| open);
            Vec::new()
        }
        Action::Open(id, name) => open_form(model, id, name),
        Action::CloseForm => {
            model.blanks.recording = None;
            model.form = None;
            Vec::new()
        }
        Action::Release(id) => {
            let mark = model.state().piece(id).map_or("", |piece| &piece.mark);
            let said = fill(model.words().blanks.said_free, &[("mark", &mark)]);
            record(vec![NewEvent::new(id, Event::Released(Released {}))], said)
        }
        Action::SideBySide(id) => turn_side_by_side(model, id),
        Action::NoneSideBySide => keep_choice(model, &[]),
        Action::OfWood(wood) => choose(model, BLANKS, "Wood", wood),
        Action::LimitsAsSupplied => {
            let supplied = gluing_limits::texts(&MatchLimits::default());
            let mut effects = Vec::new();
            for field in gluing_limits::FIELDS {
                let text = supplied.get(field.key).cloned().unwrap_or_default();
                effects.extend(form::update(model, form::FormAction::Put(field.key, text)));
            }
            effects
        }
        Action::Glue => matching::glue(model),
        other => matching::update(model, other),
    }
}

/// Records something, says so, and stays where it is.
fn record(events: Vec<NewEvent>, said: String) -> Vec<Effect> {
    let after = AfterRecorded {
        said,
        ..AfterRecorded::default()
    };
    vec![Effect::Record { events, after }]
}

/// Keeps a choice of what is shown.
pub fn choose(model: &mut Model, screen: &'static str, name: &str, value: String) -> Vec<Effect> {
    let shown = model.shown.entry(screen.to_owned()).or_default();
    shown.insert(name.to_owned(), value);
    keep(format!("shown/{screen}"), shown)
}

/// What was chosen to be shown; empty where nothing was.
pub fn chosen<'a>(model: &'a Model, screen: &str, name: &str) -> &'a str {
    let shown = model.shown.get(screen).and_then(|shown| shown.get(name));
    shown.map_or("", String::as_str)
}

/// The blanks that were chosen to stand side by side and are there still, in the order in which they were.
pub fn chosen_side_by_side(model: &Model) -> Vec<Id> {
    let ids = chosen(model, CHOICE, "blanks").split_whitespace();
    let ids = ids.filter_map(|id| id.parse().ok());
    ids.filter(|id| row::is_there(model, *id)).collect()
}

fn keep_choice(model: &mut Model, ids: &[Id]) -> Vec<Effect> {
    let ids: Vec<String> = ids.iter().map(Id::to_string).collect();
    choose(model, CHOICE, "blanks", ids.join(" "))
}

fn turn_side_by_side(model: &mut Model, id: Id) -> Vec<Effect> {
    let mut ids = chosen_side_by_side(model);
    match ids.iter().position(|one| *one == id) {
        Some(at) => drop(ids.remove(at)),
        None if ids.len() >= MOST_SIDE_BY_SIDE => {
            let text = fill(
                model.words().blanks.six_at_most,
                &[("n", &MOST_SIDE_BY_SIDE)],
            );
            return say(model, text);
        }
        None => ids.push(id),
    }
    if model.blanks.recording.is_some_and(|(of, _)| of == id) {
        model.blanks.recording = None;
        model.form = None;
    }
    keep_choice(model, &ids)
}

/// Whether what is the maker's own is hidden from a customer: it is, until the maker says otherwise.
pub fn customers_view(model: &Model) -> bool {
    chosen(model, CHOICE, "hide") != "false"
}

/// Something typed into a field that is no form: what a blank has to be.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    match model.route {
        Route::Blanks | Route::Blank(_) if filter::NAMES.contains(&name) => {
            choose(model, BLANKS, name, text)
        }
        _ => Vec::new(),
    }
}

/// A mark is this device's to give: the blank gets it, unless one was typed meanwhile.
pub fn mark_taken(model: &mut Model, mark: String) -> Vec<Effect> {
    form::offer(model, FormId::GlueUp, glue::MARK.key, mark);
    Vec::new()
}

/// Takes what the work beside the page gave.
pub fn answered(model: &mut Model, answer: Answer) -> Vec<Effect> {
    matching::answered(model, answer);
    Vec::new()
}
