//! The history of a piece of wood: every entry about it, struck through when it no longer counts.

use crate::app::App;
use crate::parts::{CollectAny, live};
use crate::screens::words;
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Entry, Line, Piece, Standing};

/// The part of the sheet.
#[component]
pub(crate) fn History(
    /// The piece.
    piece: Memo<Option<Piece>>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let lines = move || {
        let units = app.units.get();
        let piece = piece.get()?;
        let lines = app.record.with_value(|record| {
            let notebook = record.notebook();
            let known = piece
                .history
                .iter()
                .filter_map(|line| Some(one(line, notebook.entry(line.entry)?, units)));
            known.collect_any()
        });
        Some(lines)
    };
    view! {
        <h2>"History"</h2>
        <p class="small">"Nothing is ever rubbed out: what was corrected or taken back is struck through."</p>
        <ol class="history given" id="history">{live(lines)}</ol>
    }
}

fn one(line: &Line, entry: &Entry, units: Units) -> AnyView {
    let fate = match line.standing {
        Standing::InForce => None,
        Standing::Replaced { .. } => Some("corrected later"),
        Standing::TakenBack { .. } => Some("taken back later"),
        Standing::Undone { .. } => Some("its import was undone"),
        Standing::Outvoted { .. } => Some("another correction is in force"),
    };
    let really = if entry.on_insisted {
        " (“yes, really”)"
    } else {
        ""
    };
    let who = format!("{}{really}, device {}", entry.on, entry.by);
    let what = words::happening(&entry.happening, units);
    let said = match fate {
        None => view! { <span>{what}</span> }.into_any(),
        Some(fate) => view! { <del>{what}</del> " (" {fate} ")" }.into_any(),
    };
    view! { <li><span class="small">{who}</span> <br /> {said}</li> }.into_any()
}
