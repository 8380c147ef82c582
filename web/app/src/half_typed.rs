//! The way back to what was left half typed. A form that an earlier version kept names that version's screen: the key
//! under which it is kept tells which form it is, and so where it stands now.

use crate::action::Action;
use crate::blanks::{self, row::is_blank};
use crate::effect::Effect;
use crate::form::FormId;
use crate::model::{HalfTyped, Model};
use crate::racks;
use crate::route::Route;
use crate::tell::keep;
use stillwood_core::record::queries::PutAway;
use stillwood_core::record::{Id, WORKSHOP_COMMANDS};
use stillwood_core::season::Stage;

/// The ids in a key under which something is kept.
fn ids_in(key: &str) -> impl Iterator<Item = Id> {
    // nothing lost: a part that is no id is a name
    key.split('/').filter_map(|part| part.parse().ok())
}

/// The form that is kept under a key; none for what is kept in the same way and is no form.
pub fn form_of_key(key: &str) -> Option<FormId> {
    let mut all = vec![
        FormId::Visit(None),
        FormId::GlueUp,
        FormId::GluingLimits,
        FormId::RoomAir,
        FormId::Target(None),
        FormId::OwnWood(None),
    ];
    all.extend(Stage::ALL.map(FormId::RestTimes));
    if let Some(id) = ids_in(key).next() {
        all.extend([
            FormId::Visit(Some(id)),
            FormId::NewPile(id),
            FormId::EditPile(id),
            FormId::FlattenAgain(id),
            FormId::Moved(id),
            FormId::PutAway(PutAway::PlanksOfVisit(id)),
            FormId::PutAway(PutAway::PartsOfCut(id)),
            FormId::PutAway(PutAway::GluedBlank(id)),
            FormId::Cut(id),
            FormId::Spec(id),
            FormId::Target(Some(id)),
            FormId::OwnWood(Some(id)),
        ]);
        all.extend(
            WORKSHOP_COMMANDS
                .iter()
                .map(|one| FormId::Workshop(id, one.key)),
        );
    }
    all.into_iter().find(|form| form.key() == key)
}

/// The half-typed forms that are told of: those that have a name, of nothing that was deleted.
pub fn in_sight(model: &Model) -> impl Iterator<Item = (&String, &HalfTyped)> {
    let state = model.state();
    let is_deleted = move |id: Id| {
        state.visit(id).is_some_and(|visit| visit.withdrawn)
            || state.pile(id).is_some_and(|pile| pile.withdrawn)
            || state.piece(id).is_some_and(|piece| piece.withdrawn)
    };
    let told = model
        .forms
        .iter()
        .filter(|(_, form)| !form.words.is_empty());
    told.filter(move |(key, _)| !ids_in(key).any(is_deleted))
}

/// The screen on which a half-typed form stands.
pub fn screen(model: &Model, key: &str, kept: &HalfTyped) -> Route {
    let of_address = Route::of_address(&kept.at);
    match form_of_key(key) {
        Some(FormId::Visit(None)) => Route::NewVisit,
        Some(FormId::Visit(Some(id))) => Route::EditVisit(id),
        Some(FormId::NewPile(id)) => Route::NewPile(id),
        Some(FormId::EditPile(id)) => Route::EditPile(id),
        Some(FormId::Spec(id)) => Route::Spec(id),
        Some(FormId::Target(Some(id))) => Route::Target(id),
        Some(FormId::Target(None)) => Route::Plan,
        Some(FormId::OwnWood(None)) => Route::NewWood,
        Some(FormId::OwnWood(Some(id))) => Route::EditWood(id),
        Some(FormId::PutAway(which)) => racks::put_away_words::route(which),
        Some(FormId::Cut(id)) => Route::Cut(id),
        Some(FormId::Moved(_)) => Route::LookOver,
        Some(FormId::RestTimes(_) | FormId::RoomAir) => Route::RestTimes,
        Some(FormId::GluingLimits) => Route::GluingLimits,
        Some(FormId::GlueUp) if blanks::glue_up::is_typed(&kept.texts) => Route::GlueUp,
        Some(FormId::Workshop(id, _)) if model.state().piece(id).is_some_and(is_blank) => {
            Route::Blank(id)
        }
        Some(FormId::Workshop(id, _) | FormId::FlattenAgain(id)) => Route::Deed(id),
        Some(FormId::GlueUp) | None => of_address,
    }
}

/// Under which the form is kept that stood open last on a screen where several may.
const STOOD_OPEN: &str = "stood-open";

/// The screen's own name among those on which several forms may stand open.
fn name_of(route: Route) -> Option<&'static str> {
    match route {
        Route::Deed(_) => Some("deed"),
        Route::Blank(_) | Route::SideBySide => Some("blank"),
        Route::RestTimes => Some("rests"),
        _ => None,
    }
}

/// Keeps which form stands open, so that a reload opens this one and no other.
pub fn stands_open(model: &mut Model, route: Route, form: FormId) -> Vec<Effect> {
    let Some(name) = name_of(route) else {
        return Vec::new();
    };
    let shown = model.shown.entry(STOOD_OPEN.to_owned()).or_default();
    if shown.insert(name.to_owned(), form.key()) == Some(form.key()) {
        return Vec::new();
    }
    keep(format!("shown/{STOOD_OPEN}"), shown)
}

/// The form that stood open last on a screen.
pub fn stood_open(model: &Model, route: Route) -> Option<FormId> {
    let kept = model.shown.get(STOOD_OPEN)?.get(name_of(route)?)?;
    form_of_key(kept)
}

/// What leads to a half-typed form.
pub fn key_of(key: &str) -> Action {
    Action::GoOn(key.to_owned())
}
