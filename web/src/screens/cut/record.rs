//! What came off the saw: which were kept, which sprang, how far it opened; one entry for the cut, and
//! one for each that is thrown out.

use super::{Planned, Typed, size, wrong};
use crate::app::App;
use crate::parts::{CollectAny, NumberField, live, told_figure};
use crate::record::Deed;
use crate::route::{Route, replace};
use leptos::prelude::*;
use stillwood_core::neck::{CuttingPlan, StripRow};
use stillwood_core::notebook::{
    Child, Cut, Discarded, Happening, Kind, Piece, Tension, child_marks, laid_out,
};
use stillwood_core::plank::{Reason, Seen, Taken};
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::{Working, in_mm, mm, show};
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

/// What became of a strip at the saw.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
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

/// As typed, with the value understood in mm.
fn taken(text: &str, units: Units) -> Option<Taken> {
    let understood = read::gap(text, units).ok()?;
    Some(Taken {
        insisted: false,
        seen: Seen::Measured,
        typed: text.trim().to_owned(),
        unit: understood.unit.to_owned(),
        value: understood.value,
    })
}

/// The strips that were cut, in the order of the plan.
fn cut_of(plan: &CuttingPlan, fates: &[Fate]) -> (CuttingPlan, Vec<Fate>) {
    let mut fates = fates.iter().copied();
    let mut cut = CuttingPlan::default();
    let mut theirs = Vec::new();
    for row in &plan.rows {
        let mut strips = Vec::new();
        for strip in &row.strips {
            let fate = fates.next().unwrap_or(Fate::Kept);
            if fate != Fate::NotCut {
                strips.push(*strip);
                theirs.push(fate);
            }
        }
        cut.rows.push(StripRow {
            along: row.along,
            strips,
        });
    }
    (cut, theirs)
}

#[derive(Clone, Copy)]
struct Sprung {
    gap: RwSignal<String>,
    over: RwSignal<String>,
}

/// The limit that the spring is beyond, mm, where it is.
fn beyond(app: App, sprung: Sprung) -> Option<f64> {
    let units = app.units.get();
    let gap = size(sprung.gap, units).ok()?;
    let over = size(sprung.over, units).ok()?;
    let allowed = app.book(|book| book.spring_allowed(over))?;
    (gap.abs() > allowed).then(|| in_mm(allowed))
}

/// What is typed but not to be read; an empty field is nothing wrong.
fn wrong_if_typed(app: App, text: RwSignal<String>) -> Signal<String> {
    let wrong = wrong(app, text);
    Signal::derive(move || {
        if text.with(|text| text.trim().is_empty()) {
            String::new()
        } else {
            wrong.get()
        }
    })
}

/// The part of the screen.
pub(super) fn came_off(
    app: App,
    id: Uuid,
    typed: Typed,
    plan: Memo<Result<Planned, String>>,
) -> AnyView {
    let count = Memo::new(move |_| {
        plan.with(|plan| plan.as_ref().map_or(0, |planned| planned.plan.strips()))
    });
    let fates = RwSignal::new(Vec::<Fate>::new());
    Effect::new(move |_| fates.set(vec![Fate::Kept; count.get()]));
    let sprung = Sprung {
        gap: RwSignal::new(String::new()),
        over: RwSignal::new(typed.length.get_untracked()),
    };
    let busy = RwSignal::new(false);
    let kept = move || fates.with(|fates| fates.iter().filter(|f| **f != Fate::NotCut).count());
    let advice = move || {
        let limit = beyond(app, sprung)?;
        let limit = show::length(limit, app.units.get());
        Some(view! {
            <div class="note bad" id="sprang">
                <p>
                    {format!(
                        "That is beyond your limit of {limit} over this length: wood with that stress goes on moving. \
                         Throw out what sprang.",
                    )}
                </p>
                <button
                    type="button" class="leave" id="all-sprang"
                    on:click=move |_| fates.update(|all| all.iter_mut().for_each(|f| *f = Fate::Sprang))
                >
                    "All of it sprang"
                </button>
            </div>
        })
    };
    let strips = move || {
        plan.with(|plan| match plan {
            Ok(planned) => fates.with(|fates| rows(app, id, planned, fates)),
            Err(_) => Vec::new(),
        })
        .into_iter()
        .enumerate()
        .map(move |(n, (mark, words, fate))| {
            let words = told_figure(
                format!("Strip {}", n + 1),
                words,
                strip_told(app, id, plan, n),
            );
            let label = format!("{mark}: {}. Change", fate.words());
            view! {
                <li class="off">
                    <span class="mark-small">{mark}</span>
                    <small>{words}</small>
                    <button
                        type="button" class="chip" aria-label=label
                        aria-pressed=(fate != Fate::Kept).to_string()
                        on:click=move |_| {
                            fates.update(|all| {
                                if let Some(one) = all.get_mut(n) {
                                    *one = one.next();
                                }
                            });
                        }
                    >
                        {fate.words()}
                    </button>
                </li>
            }
        })
        .collect_any()
    };
    let save = move |_| {
        if !busy.get_untracked() {
            record(app, id, typed, plan, fates, sprung, busy);
        }
    };
    view! {
        <h2>"Off the saw"</h2>
        <p class="small">
            "Write each mark on the wood before the cut, on both halves. Touch a word to change it."
        </p>
        <ul class="plain" id="off-the-saw">{live(strips)}</ul>
        <div class="pair">
            <NumberField
                name="It sprang by" value=sprung.gap hint="plus where it opens; empty where it did not"
                error=wrong_if_typed(app, sprung.gap)
            />
            <NumberField name="Over a length of" value=sprung.over error=wrong_if_typed(app, sprung.over) />
        </div>
        {live(advice)}
        <button
            class="primary wide-button" id="save-cut" on:click=save
            disabled=move || kept() == 0 || busy.get()
        >
            "Record the cut"
        </button>
        <p class="small">"A blade does not know you: guards and push sticks, and look for metal first."</p>
    }
    .into_any()
}

/// How a strip of the plan was worked out, once it is asked.
fn strip_told(
    app: App,
    id: Uuid,
    plan: Memo<Result<Planned, String>>,
    n: usize,
) -> impl Fn() -> Option<Working> + 'static {
    move || {
        plan.with_untracked(|plan| {
            let planned = plan.as_ref().ok()?;
            let strip = planned
                .plan
                .rows
                .iter()
                .flat_map(|row| &row.strips)
                .nth(n)?;
            let on_edge = planned.kind == Kind::Laminate;
            app.book_now(|book| {
                let piece = book.piece(id)?;
                Some(book.strip_told(piece, strip, &planned.cut, on_edge))
            })
        })
    }
}

fn parent_mark(app: App, id: Uuid) -> String {
    app.book(|book| book.piece(id).map(|piece| piece.mark.clone()))
        .unwrap_or_default()
}

/// Each strip's mark, sizes and what became of it.
fn rows(app: App, id: Uuid, planned: &Planned, fates: &[Fate]) -> Vec<(String, String, Fate)> {
    let units = app.units.get();
    let cut = fates.iter().filter(|fate| **fate != Fate::NotCut).count();
    let mut marks = child_marks(&parent_mark(app, id), planned.kind, cut).into_iter();
    let strips = planned
        .plan
        .rows
        .iter()
        .flat_map(|row| row.strips.iter().map(move |strip| (row, strip)));
    strips
        .zip(fates)
        .map(|((row, strip), fate)| {
            let mark = match fate {
                Fate::NotCut => "–".to_owned(),
                _ => marks.next().unwrap_or_default(),
            };
            let across = in_mm(strip.across.to - strip.across.from);
            let thickness = planned.thickness.map(in_mm);
            let sizes = match planned.kind {
                Kind::Laminate => [thickness, Some(across)],
                _ => [Some(across), thickness],
            };
            let length = Some(in_mm(row.along.to - row.along.from));
            let rings = super::stands(strip, planned.kind).map_or("", |class| class.name());
            let words = format!(
                "{} {rings}",
                show::sizes([length, sizes[0], sizes[1]], units)
            );
            (mark, words, *fate)
        })
        .collect()
}

fn record(
    app: App,
    id: Uuid,
    typed: Typed,
    plan: Memo<Result<Planned, String>>,
    fates: RwSignal<Vec<Fate>>,
    sprung: Sprung,
    busy: RwSignal<bool>,
) {
    let Ok(planned) = plan.get_untracked() else {
        return;
    };
    let units = app.units.get_untracked();
    let (cut, fates) = fates.with_untracked(|fates| cut_of(&planned.plan, fates));
    let marks = child_marks(&parent_mark(app, id), planned.kind, fates.len());
    let mut named = Vec::new();
    for mark in marks {
        let Some(child) = app.new_id() else { return };
        named.push((child, mark));
    }
    let children: Vec<Child> = laid_out(&cut, planned.kind, &named);
    let doubts = app.book_now(|book| {
        let piece: Option<&Piece> = book.piece(id);
        piece.map(|piece| book.cut_doubts(piece, &children).len())
    });
    if doubts != Some(0) {
        return app.say("The places of the pieces can't be right: look at the sizes again.");
    }
    let gap = sprung.gap.get_untracked();
    let tension = taken(&gap, units).map(|gap| Tension {
        gap,
        over: taken(&sprung.over.get_untracked(), units),
    });
    if tension.is_none() && !gap.trim().is_empty() {
        return app.say("How far it sprang is not understood.");
    }
    let thrown: Vec<Deed> = children
        .iter()
        .zip(&fates)
        .filter(|(_, fate)| **fate == Fate::Sprang)
        .map(|(child, _)| {
            let gone = Discarded {
                reasons: vec![Reason::Sprang],
            };
            Deed::new(child.id, Happening::Discarded(gone))
        })
        .collect();
    let said = format!(
        "{} cut: {} kept.",
        parent_mark(app, id),
        fates.len() - thrown.len()
    );
    let cut = Cut {
        children,
        kerf: taken(&typed.kerf.get_untracked(), units).filter(|kerf| mm(kerf.value) > mm(0.0)),
        tension,
    };
    let mut deeds = vec![Deed::new(id, Happening::Cut(Box::new(cut)))];
    deeds.extend(thrown);
    let about: Vec<Uuid> = deeds.iter().map(|deed| deed.about).collect();
    busy.set(true);
    spawn_local(async move {
        let ids = app.write(deeds, None).await;
        if ids.is_empty() {
            // The screen may be gone by then.
            busy.try_set(false);
            return;
        }
        app.toast.set(Some(crate::app::Toast {
            text: said,
            undo: ids.into_iter().zip(about).collect(),
            back_to: Some(Route::Cut(id)),
            draft: None,
        }));
        replace(Route::Wood(id));
    });
}
