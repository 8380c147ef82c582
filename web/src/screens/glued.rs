//! What was said of a gluing, to be shown on a blank's papers and its page: the day, the glue and whether
//! it brings water, how long it stayed clamped. It works nothing out.

use crate::parts::given;
use leptos::prelude::*;
use stillwood_core::record::{Glued, Origin, Piece};

/// The caution about glue that brings water.
pub(crate) fn water_caution() -> AnyView {
    view! {
        <p class="note doubt" id="brings-water">
            "It brings water into the wood beside every joint: the blank swells there, and moves as it dries. \
             Glue that brings none is usual for necks (common practice); else give it a longer rest before \
             it is planed."
        </p>
    }
    .into_any()
}

/// The gluing that a blank came from.
pub(crate) fn gluing_of(piece: &Piece) -> Option<&Glued> {
    match &piece.work.origin {
        Origin::GluedFrom { glued, .. } => Some(glued),
        _ => None,
    }
}

/// Its facts, as far as they were said; nothing for what was not glued.
pub(crate) fn gluing_facts(piece: &Piece) -> Vec<(String, AnyView)> {
    let Some(glued) = gluing_of(piece) else {
        return Vec::new();
    };
    let glue = &glued.adhesive;
    let named = [&glue.name, &glue.mix, &glue.batch].map(String::as_str);
    let named: Vec<&str> = named.into_iter().filter(|part| !part.is_empty()).collect();
    let clamped = glued.clamp_time.as_ref();
    let water = match glue.brings_water {
        Some(true) => "yes",
        Some(false) => "no",
        None => "not known",
    };
    let of = [
        ("Glued", Some(piece.recorded.on.to_string())),
        (
            "Adhesive, mix, batch",
            (!named.is_empty()).then(|| named.join(", ")),
        ),
        ("The glue brings water", Some(water.to_owned())),
        (
            "Clamped",
            clamped.map(|taken| format!("{} {}", taken.typed.trim(), taken.unit)),
        ),
    ];
    of.into_iter()
        .filter_map(|(name, text)| Some((name.to_owned(), given(text?))))
        .collect()
}

/// The caution, where the glue of a blank brings water.
pub(crate) fn caution_of(piece: &Piece) -> Option<AnyView> {
    let brings = gluing_of(piece)?.adhesive.brings_water == Some(true);
    brings.then(water_caution)
}
