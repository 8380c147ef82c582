//! What putting pieces away is called: where the form stands, what it is about, what is said once it is done.

use crate::model::Model;
use crate::route::Route;
use crate::words::{count, fill};
use stillwood_core::record::queries::PutAway;

/// The screen of the form.
pub fn route(which: PutAway) -> Route {
    match which {
        PutAway::PlanksOfVisit(visit) => Route::RackPlanks(visit),
        PutAway::PartsOfCut(piece) => Route::RestParts(piece),
        PutAway::GluedBlank(piece) => Route::RestBlank(piece),
    }
}

/// The yard of the visit, or the mark of what was cut or glued.
pub(super) fn from(model: &Model, which: PutAway) -> Option<&str> {
    let state = model.state();
    match which {
        PutAway::PlanksOfVisit(visit) => Some(&state.visit(visit)?.opened.yard),
        PutAway::PartsOfCut(piece) | PutAway::GluedBlank(piece) => Some(&state.piece(piece)?.mark),
    }
}

/// What the form is about, where it is left half typed.
pub fn form_in_words(model: &Model, which: PutAway) -> String {
    let words = &model.words().racks;
    let from = from(model, which).unwrap_or_default();
    match which {
        PutAway::PlanksOfVisit(_) => fill(words.form_rack_planks, &[("yard", &from)]),
        PutAway::PartsOfCut(_) => fill(words.form_rest_parts, &[("mark", &from)]),
        PutAway::GluedBlank(_) => fill(words.form_rest_blank, &[("mark", &from)]),
    }
}

/// What is said once so many are put away.
pub fn said(model: &Model, which: PutAway, pieces: usize) -> String {
    let words = &model.words().racks;
    let (one, other) = match which {
        PutAway::PlanksOfVisit(_) => (words.planks_racked_one, words.planks_racked_other),
        PutAway::PartsOfCut(_) => (words.parts_rest_one, words.parts_rest_other),
        PutAway::GluedBlank(_) => (words.blank_rests, words.blank_rests),
    };
    count(pieces as u64, one, other)
}
