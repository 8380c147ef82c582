//! What may be chosen in the list of planks, and the spec that was chosen for it.

use crate::action::Action as Any;
use crate::model::Model;
use crate::route::Route;
use serde::de::DeserializeOwned;
use stillwood_core::record::{Column, Decision, Id, queries};
use stillwood_core::verdict::Spec;

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Go to this row.
    Scrolled(usize),
    /// Said by the shell: this row is the first in view, of so many.
    InView(usize, usize),
    /// Show a plank beside the list.
    Choose(Id),
    /// Sort by a column; a second press turns the order, and a third goes back to a visit's own.
    Sort(Column),
    /// Only planks so decided; none is all.
    Decided(Option<Option<Decision>>),
    /// Show a column, or hide it.
    Column(Column),
    /// Show all planks again.
    Clear,
    /// Work out the next planks of a long record.
    WorkOn,
    /// Save what is listed as a table for spreadsheets.
    SaveCsv,
}

impl From<Action> for Any {
    fn from(action: Action) -> Self {
        Any::Yard(super::Action::Table(action))
    }
}

/// Under which name the choices of the screen are kept.
pub(super) fn screen(model: &Model) -> &'static str {
    match model.route {
        Route::Visit(_) => "visit",
        _ => "planks",
    }
}

/// What was chosen on it; none where nothing was.
pub(super) fn shown<T: DeserializeOwned>(model: &Model, name: &str) -> Option<T> {
    let text = model.shown.get(screen(model))?.get(name)?;
    // nothing lost: a choice that this version can't read is one that it did not write
    serde_json::from_str(text).ok()
}

/// The spec that all planks are judged under, with its name; none is that of each plank's visit.
pub fn under(model: &Model) -> Option<(String, Spec)> {
    if !matches!(model.route, Route::Planks) {
        return None;
    }
    let name: String = shown(model, "under")?;
    queries::specs(model.state())
        .into_iter()
        .find(|(known, _)| *known == name)
}
