//! The strips that came off the saw: each with its mark, proposed and to be typed anew, and what became
//! of it.

use super::Planned;
use super::record::Off;
use crate::app::App;
use crate::parts::{CollectAny, live, told_figure};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use stillwood_core::quantity::{Derivation, in_mm, show};
use stillwood_core::record::Id;
use stillwood_core::record::PieceKind;
use stillwood_core::record::queries;

/// What became of a strip at the saw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum Fate {
    Kept,
    Sprang,
    NotCut,
}

impl Fate {
    fn words(self) -> &'static str {
        match self {
            Fate::Kept => "kept",
            Fate::Sprang => "sprang: throw out",
            Fate::NotCut => "not cut",
        }
    }

    fn next(self) -> Self {
        match self {
            Fate::Kept => Fate::Sprang,
            Fate::Sprang => Fate::NotCut,
            Fate::NotCut => Fate::Kept,
        }
    }
}

/// A strip that came off the saw, and its mark.
pub(super) type Marked = (usize, String);

/// The marks of the strips that were cut, by the places of the strips in the plan.
pub(super) fn marks_off(app: App, id: Id, kind: PieceKind, off: Off) -> Vec<Marked> {
    let cut = off.fates.with(|fates| {
        let cut = fates.iter().enumerate();
        let cut = cut.filter(|(_, fate)| **fate != Fate::NotCut);
        cut.map(|(n, _)| n).collect::<Vec<_>>()
    });
    let parent = parent_mark(app, id);
    let proposed = app.state(|state| queries::marks_for(state, &parent, kind, cut.len()));
    let cut = cut.into_iter().zip(proposed);
    off.given.with(|given| {
        cut.map(|(n, proposed)| (n, given.get(&n).cloned().unwrap_or(proposed)))
            .collect()
    })
}

/// What is wrong with the marks, by the places of the strips.
pub(super) fn mark_faults(app: App, marks: &[Marked]) -> BTreeMap<usize, String> {
    let names: Vec<String> = marks.iter().map(|(_, mark)| mark.clone()).collect();
    let faults = app.state(|state| queries::naming_faults(state, &names));
    let faults = marks.iter().zip(faults);
    faults
        .filter_map(|((n, _), fault)| Some((*n, fault?.to_string())))
        .collect()
}

/// Each strip with its mark, which may be typed anew, and what became of it.
pub(super) fn strips(app: App, id: Id, plan: Memo<Result<Planned, String>>, off: Off) -> AnyView {
    let marks = Memo::new(move |_| {
        let kind = plan.with(|plan| plan.as_ref().map(|planned| planned.kind).ok());
        kind.map_or_else(Vec::new, |kind| marks_off(app, id, kind, off))
    });
    let faults = Memo::new(move |_| marks.with(|marks| mark_faults(app, marks)));
    let mark_of = move |n: usize| {
        marks.with(|marks| {
            let mark = marks.iter().find(|(at, _)| *at == n);
            mark.map(|(_, mark)| mark.clone())
        })
    };
    let row = move |(n, (words, fate)): (usize, (String, Fate))| {
        let why = move || faults.with(|faults| faults.get(&n).cloned());
        let name = format!("Mark of strip {}", n + 1);
        let input = (fate != Fate::NotCut).then(|| {
            view! {
                <input
                    type="text" class="mark-given" autocomplete="off" aria-label=name
                    aria-invalid=move || why().is_some().to_string()
                    prop:value=move || mark_of(n).unwrap_or_default()
                    on:input=move |event| {
                        let text = event_target_value(&event);
                        off.given.update(|given| drop(given.insert(n, text)));
                    }
                />
            }
        });
        let error = move || why().map(|why| view! { <span class="error">{why}</span> });
        let told = explain_strip(app, id, plan, n);
        let words = told_figure(format!("Strip {}", n + 1), words, told);
        let label = move || {
            let mark = mark_of(n).unwrap_or_else(|| format!("strip {}", n + 1));
            format!("{mark}: {}. Change", fate.words())
        };
        let next = move |_| {
            off.fates.update(|all| {
                if let Some(one) = all.get_mut(n) {
                    *one = one.next();
                }
            });
        };
        view! {
            <li class="off">
                {input}
                <small>{words}</small>
                <button
                    type="button" class="chip" aria-label=label
                    aria-pressed=(fate != Fate::Kept).to_string() on:click=next
                >
                    {fate.words()}
                </button>
                {live(error)}
            </li>
        }
    };
    let rows = move || {
        plan.with(|plan| match plan {
            Ok(planned) => off.fates.with(|fates| rows(app, planned, fates)),
            Err(_) => Vec::new(),
        })
        .into_iter()
        .enumerate()
        .map(row)
        .collect_any()
    };
    live(rows).into_any()
}

/// How a strip of the plan was worked out, once it is asked.
fn explain_strip(
    app: App,
    id: Id,
    plan: Memo<Result<Planned, String>>,
    n: usize,
) -> impl Fn() -> Option<Derivation> + 'static {
    move || {
        plan.with_untracked(|plan| {
            let planned = plan.as_ref().ok()?;
            let strip = planned
                .plan
                .rows
                .iter()
                .flat_map(|row| &row.strips)
                .nth(n)?;
            let on_edge = planned.kind == PieceKind::Laminate;
            app.book_now(|state| {
                let piece = state.piece(id)?;
                Some(queries::explain_strip(
                    state,
                    piece,
                    strip,
                    &planned.cut,
                    on_edge,
                ))
            })
        })
    }
}

/// What is written on the wood that is cut.
pub(super) fn parent_mark(app: App, id: Id) -> String {
    app.state(|state| state.piece(id).map(|piece| piece.mark.clone()))
        .unwrap_or_default()
}

/// Each strip's sizes and what became of it.
fn rows(app: App, planned: &Planned, fates: &[Fate]) -> Vec<(String, Fate)> {
    let units = app.units.get();
    let strips = planned
        .plan
        .rows
        .iter()
        .flat_map(|row| row.strips.iter().map(move |strip| (row, strip)));
    strips
        .zip(fates)
        .map(|((row, strip), fate)| {
            let across = in_mm(strip.across.to - strip.across.from);
            let thickness = planned.thickness.map(in_mm);
            let sizes = match planned.kind {
                PieceKind::Laminate => [thickness, Some(across)],
                _ => [Some(across), thickness],
            };
            let length = Some(in_mm(row.along.to - row.along.from));
            let rings = super::stands(strip, planned.kind).map_or("", |class| class.name());
            let words = format!(
                "{} {rings}",
                show::sizes([length, sizes[0], sizes[1]], units)
            );
            (words, *fate)
        })
        .collect()
}
