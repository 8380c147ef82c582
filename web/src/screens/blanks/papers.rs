//! A blank's papers, to read and to print: its whole history from the yard on, and a card for the shelf.

use super::row::Row;
use super::sections::Sections;
use super::{cost_of_blank, known_of_choice};
use crate::app::App;
use crate::parts::{
    CollectAny, Tick, facts_drawn, given, live, print_button, shelf_card, told_figure,
};
use crate::route::Route;
use crate::screens::glued::{caution_of, gluing_facts, gluing_of};
use crate::screens::workshop::weighings_drawn;
use crate::screens::{piece_told, words};
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Event, EventStatus, Glued, Log, Piece, PieceFigure, State};

/// A card for the shelf.
pub(super) fn card(app: App, row: &Row) -> AnyView {
    let units = app.units.get();
    let glued = app.state(|state| {
        let piece = state.piece(row.id)?;
        Some(piece.recorded.on.to_string())
    });
    let due = app.state(|state| {
        let rest = state.piece(row.id)?.work.rest()?;
        let terms = queries::stage_limits(state, rest.payload.stage);
        stillwood_core::season::due_day(rest.on, terms.months)
            .ok()
            .map(|day| day.to_string())
    });
    let id = row.id;
    let told = |due| {
        told_figure(
            "Rests until".to_owned(),
            due,
            piece_told(app, id, PieceFigure::RestOverOn),
        )
    };
    let mut of = known(vec![
        ("Wood", Some(given(row.woods.clone()))),
        ("Size", Some(row.size(app, units))),
        ("Weight", Some(row.weight(app, units))),
        ("Glued", glued.map(given)),
        ("Rests until", due.map(told)),
    ]);
    of.extend(of_choice(app, row));
    of.extend(known(vec![("Kept", row.kept_for.clone().map(given))]));
    shelf_card(app, row.mark.clone(), facts_drawn(of).into_any())
}

/// The whole history; what is the maker's own can be hidden, to hand it out.
pub(super) fn history(app: App, row: &Row, hide: RwSignal<bool>) -> AnyView {
    let units = app.units.get();
    let (batch, caution, laminates, ancestors, trade) = app.state(|state| {
        let piece = state.piece(row.id);
        let glued = piece.and_then(gluing_of);
        let batch = glued.map(|glued| glued.adhesive.batch.as_str());
        (
            batch.and_then(|batch| same_batch(state, row.id, batch)),
            piece.and_then(caution_of),
            glued.map(|glued| laminates(state, glued)),
            queries::ancestors(state, row.id),
            trade(state, row.id),
        )
    });
    let whole: Vec<Id> = std::iter::once(row.id).chain(ancestors).collect();
    let trees = move || {
        app.record.with_value(|record| {
            let (state, log) = (record.state(), record.log());
            let pieces = whole.iter().filter_map(|id| state.piece(*id));
            let told = pieces.map(|piece| {
                let told = told(piece, log, units, hide.get());
                view! { {told} {weighings_drawn(app, state, piece)} }
            });
            told.collect_any()
        })
    };
    let picture = app.state(|state| section(state, row.id));
    let (id, shown) = (row.id, row.clone());
    let cost = move || (!hide.get()).then(|| cost_of_blank(app, id));
    view! {
        {print_button(app)}
        <p class="no-print"><Tick name="hide what is ours" value=hide /></p>
        <h2 class="mark sheet-mark" id="blank-mark">{row.mark.clone()}</h2>
        {picture}
        {live(move || facts_drawn(facts(app, &shown, batch.clone(), hide.get())))}
        {caution}
        {laminates}
        {live(cost)}
        <h3>"Trade control"</h3>
        {trade}
        <h3>"All that happened, from the blank back to the yard"</h3>
        {live(trees)}
    }
    .into_any()
}

/// Those of which there is something.
fn known(of: Vec<(&'static str, Option<AnyView>)>) -> Vec<(String, AnyView)> {
    let known = of.into_iter();
    known
        .filter_map(|(name, figure)| Some((name.to_owned(), figure?)))
        .collect()
}

/// What is known of it; `batch` are the marks of what else is of the same batch of glue. For whom it is kept
/// is left out where what is the maker's own is hidden.
fn facts(app: App, row: &Row, batch: Option<String>, hide: bool) -> Vec<(String, AnyView)> {
    let units = app.units.get();
    let mut of = known(vec![
        ("Wood", Some(given(row.woods.clone()))),
        ("Size", Some(row.size(app, units))),
        ("Weight", Some(row.weight(app, units))),
    ]);
    of.extend(of_choice(app, row));
    of.extend(app.state(|state| state.piece(row.id).map(gluing_facts).unwrap_or_default()));
    let kept = if hide { &row.kept_until } else { &row.kept_for };
    of.extend(known(vec![
        ("Of the same batch", batch.map(given)),
        ("Now", Some(given(row.life.in_words().to_owned()))),
        ("Kept", kept.clone().map(given)),
    ]));
    of
}

/// What it is chosen by, as far as that is known.
fn of_choice(app: App, row: &Row) -> Vec<(String, AnyView)> {
    let units = app.units.get();
    app.state(|state| {
        let piece = state.piece(row.id);
        let known = piece.map(|piece| known_of_choice(app, state, piece, units));
        known.unwrap_or_default()
    })
}

/// The marks of what else is touched by a batch of glue.
fn same_batch(state: &State, id: Id, batch: &str) -> Option<String> {
    if batch.trim().is_empty() {
        return None;
    }
    let touched = queries::touched_by_batch(state, batch);
    let others = touched.into_iter().filter(|other| *other != id);
    let marks: Vec<String> = others
        .filter_map(|other| state.piece(other).map(|piece| piece.mark.clone()))
        .collect();
    (!marks.is_empty()).then(|| marks.join(", "))
}

/// Each laminate, which way round, and where it came from.
fn laminates(state: &State, glued: &Glued) -> AnyView {
    let one = |(n, member): (usize, &stillwood_core::record::Member)| {
        let piece = state.piece(member.piece);
        let mark = piece.map_or_else(String::new, |piece| piece.mark.clone());
        let planks = queries::planks_of(state, member.piece);
        let from = planks.iter().filter_map(|id| {
            let plank = state.piece(*id)?;
            let visit = state.visit_of(plank);
            let yard = visit.map_or_else(String::new, |v| {
                format!("{}, {}", v.opened.yard, v.recorded.on)
            });
            Some(view! { <a href=Route::Sheet(*id).href()>{plank.mark.clone()}</a>" "{yard} })
        });
        let turns = [(member.turned_over, "rolled"), (member.turned, "spun")];
        let turns: Vec<&str> = turns
            .into_iter()
            .filter(|(so, _)| *so)
            .map(|(_, word)| word)
            .collect();
        view! {
            <li>
                <strong>{format!("{} {mark}", n + 1)}</strong>
                " from plank "
                {from.collect_any()}
                {(!turns.is_empty()).then(|| format!(" ({})", turns.join(", ")))}
            </li>
        }
    };
    view! {
        <h3>"Its laminates, from one side to the other"</h3>
        <ul class="plain" id="members">{glued.members.iter().enumerate().map(one).collect_any()}</ul>
    }
    .into_any()
}

/// Its section, drawn, and its woods by place; nothing where that of a laminate is not known.
fn section(state: &State, id: Id) -> Option<AnyView> {
    let section = queries::section_of(state, state.piece(id)?)?;
    let sections = Sections::of(std::iter::once(Some(&section)));
    Some(view! { <div id="section">{sections.drawn(0)}{sections.woods(0)}</div> }.into_any())
}

/// What the law may ask, wood by wood.
fn trade(state: &State, id: Id) -> AnyView {
    let one = |named: &&stillwood_core::record::SpeciesNamed| {
        let wood = queries::wood_of(state, named);
        let caution = wood.map_or_else(
            || {
                "Whether it is listed under CITES is not known here: check before you ship."
                    .to_owned()
            },
            |wood| wood.trade().words(),
        );
        view! { <p>{format!("{}: {caution}", named.text)}</p> }
    };
    queries::woods_in(state, id).iter().map(one).collect_any()
}

/// One piece's entries that are in force, oldest first; those that name for whom it was kept are left out where
/// what is the maker's own is hidden.
fn told(piece: &Piece, log: &Log, units: Units, hide: bool) -> AnyView {
    let lines = piece
        .history
        .iter()
        .filter(|line| line.standing == EventStatus::InForce)
        .filter_map(|line| log.entry(line.entry))
        .filter(|entry| !(hide && matches!(entry.event, Event::Reserved(_))))
        .map(|entry| {
            let what = words::event(&entry.event, units);
            view! { <li>{format!("{}: {what}", entry.on)}</li> }
        });
    view! {
        <h4>{format!("{} {}", piece.work.kind.name(), piece.mark)}</h4>
        <ul class="history given">{lines.collect_any()}</ul>
    }
    .into_any()
}
