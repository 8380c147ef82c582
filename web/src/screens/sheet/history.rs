//! The history of a piece of wood: every entry about it, struck through when it no longer counts.

use crate::app::App;
use crate::parts::{CollectAny, live};
use crate::screens::words;
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Entry, EventStatus, HistoryLine, Piece};

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
            let log = record.log();
            let known = piece
                .history
                .iter()
                .filter_map(|line| Some(one(line, log.entry(line.entry)?, units)));
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

fn one(line: &HistoryLine, entry: &Entry, units: Units) -> AnyView {
    let fate = match line.standing {
        EventStatus::InForce => None,
        EventStatus::Replaced { .. } => Some("corrected later"),
        EventStatus::TakenBack { .. } => Some("taken back later"),
        EventStatus::Undone { .. } => Some("its import was undone"),
        EventStatus::Outvoted { .. } => Some("another correction is in force"),
    };
    let really = if entry.on_confirmed {
        " (“yes, really”)"
    } else {
        ""
    };
    let who = format!("{}{really}, device {}", entry.on, entry.by);
    let what = words::event(&entry.event, units);
    let said = match fate {
        None => view! { <span>{what}</span> }.into_any(),
        Some(fate) => view! { <del>{what}</del> " (" {fate} ")" }.into_any(),
    };
    view! { <li><span class="small">{who}</span> <br /> {said}</li> }.into_any()
}
