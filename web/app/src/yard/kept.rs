//! A half-typed plank, kept in memory and on the device.

use crate::effect::Effect;
use crate::model::Model;
use stillwood_core::record::Draft;

/// Keeps the plank that is being measured, with the ways in which it is weighed and its rings are read, in memory and
/// on the device.
pub fn keep_entering(model: &mut Model) -> Vec<Effect> {
    match &mut model.yard.entering {
        Some(entering) => {
            entering.draft.weighed_by = Some(entering.weighs);
            entering.draft.rings_by = Some(entering.rings);
            let draft = entering.draft.clone();
            keep_draft(model, draft)
        }
        None => Vec::new(),
    }
}

/// Keeps a half-typed plank, in memory and on the device.
pub fn keep_draft(model: &mut Model, draft: Draft) -> Vec<Effect> {
    let key = draft
        .piece
        .map(|piece| piece.to_string())
        .unwrap_or_default();
    let effects = crate::tell::keep(key, &draft);
    match model
        .drafts
        .iter_mut()
        .find(|known| known.piece == draft.piece)
    {
        Some(known) => *known = draft,
        None => model.drafts.push(draft),
    }
    effects
}
