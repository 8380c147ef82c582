//! What was said of the gluing of a blank, in names and words.

use crate::page::Ui;
use stillwood_core::record::{Glued, Id, queries};

/// The glue, whether it brings water, how long it stayed clamped, and what else is of its batch.
pub fn gluing_facts(ui: &Ui<'_>, blank: Id, glued: &Glued) -> Vec<(&'static str, String)> {
    let words = &ui.w.blanks;
    let glue = &glued.adhesive;
    let named = [&glue.name, &glue.mix, &glue.batch].map(String::as_str);
    let named: Vec<&str> = named.into_iter().filter(|part| !part.is_empty()).collect();
    let water = match glue.brings_water {
        Some(true) => ui.w.common.yes,
        Some(false) => ui.w.common.no,
        None => words.not_known,
    };
    let clamped = glued.clamp_time.as_ref();
    let clamped = clamped.map(|taken| ui.w.workshop.typed(taken));
    let of = [
        (
            words.adhesive,
            (!named.is_empty()).then(|| named.join(", ")),
        ),
        (words.brings_water, Some(water.to_owned())),
        (words.clamped, clamped),
        (words.same_batch, same_batch(ui, blank, &glue.batch)),
    ];
    let said = of.into_iter();
    said.filter_map(|(name, text)| Some((name, text?)))
        .collect()
}

/// The marks of what else is touched by a batch of glue.
fn same_batch(ui: &Ui<'_>, id: Id, batch: &str) -> Option<String> {
    if batch.trim().is_empty() {
        return None;
    }
    let state = ui.model.state();
    let others = queries::touched_by_batch(state, batch)
        .into_iter()
        .filter(|other| *other != id);
    let marks: Vec<&str> = others
        .filter_map(|other| Some(state.piece(other)?.mark.as_str()))
        .collect();
    (!marks.is_empty()).then(|| marks.join(", "))
}
