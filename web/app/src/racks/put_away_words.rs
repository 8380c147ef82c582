//! What putting pieces away is called: where the form stands, what it is about, what is said once it is done.

use crate::model::Model;
use crate::route::Route;
use crate::words::{count, fill};
use stillwood_core::record::queries::{PutAway, to_put_away};
use stillwood_core::record::{Filled, Id, PieceKind};

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

/// Whether pieces are laminates, all of them: then they are called so, and not parts.
pub(super) fn are_laminates(model: &Model, mut pieces: impl Iterator<Item = Id>) -> bool {
    let kind = |id: Id| Some(model.state().piece(id)?.work.kind);
    pieces.all(|id| kind(id) == Some(PieceKind::Laminate))
}

/// What the form is about, where it is left half typed.
pub fn form_in_words(model: &Model, which: PutAway) -> String {
    let words = &model.words().racks;
    let from = from(model, which).unwrap_or_default();
    let of_it = to_put_away(model.state())
        .into_iter()
        .filter(|one| one.which == which);
    let ids = of_it.flat_map(|one| one.pieces).map(|(id, _)| id);
    match which {
        PutAway::PartsOfCut(_) if are_laminates(model, ids) => {
            fill(words.form_rest_laminates, &[("mark", &from)])
        }
        PutAway::PlanksOfVisit(_) => fill(words.form_rack_planks, &[("yard", &from)]),
        PutAway::PartsOfCut(_) => fill(words.form_rest_parts, &[("mark", &from)]),
        PutAway::GluedBlank(_) => fill(words.form_rest_blank, &[("mark", &from)]),
    }
}

/// What is said once they are put away.
pub fn said(model: &Model, which: PutAway, filled: &Filled) -> String {
    let words = &model.words().racks;
    let ids = filled.events.iter().map(|event| event.about);
    let (one, other) = match which {
        PutAway::PartsOfCut(_) if are_laminates(model, ids) => {
            (words.laminates_rest_one, words.laminates_rest_other)
        }
        PutAway::PlanksOfVisit(_) => (words.planks_racked_one, words.planks_racked_other),
        PutAway::PartsOfCut(_) => (words.parts_rest_one, words.parts_rest_other),
        PutAway::GluedBlank(_) => (words.blank_rests, words.blank_rests),
    };
    count(filled.events.len() as u64, one, other)
}
