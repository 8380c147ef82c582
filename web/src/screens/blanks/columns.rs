//! The table of blanks side by side: a column for each, a line for each thing that one is chosen by. Core
//! has worked the figures out; here they are laid out.

use super::choice::Chosen;
use super::chosen_by::chosen_by;
use super::deeds::{KEEP, Open};
use super::row::{Row, row};
use super::sections::Sections;
use crate::app::App;
use crate::parts::{CollectAny, bring_into_view, given, told_figure};
use crate::route::Route;
use crate::screens::figures::money;
use crate::shell::clock;
use chrono::NaiveDate;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{BlankCost, Section, date};
use stillwood_core::season::{explain_passed, passed_in_words};

/// A blank beside others.
#[derive(Clone, PartialEq)]
pub(super) struct Column {
    pub(super) row: Row,
    /// Its laminates, where their sizes are known.
    section: Option<Section>,
    glued: NaiveDate,
    cost: Option<BlankCost>,
}

/// Those that were chosen and are there still, in the order in which they were.
pub(super) fn columns(app: App, chosen: Chosen) -> Vec<Column> {
    let today = clock::now().day;
    let ids = chosen.ids.get();
    app.state(|state| {
        let pieces = ids.iter().filter_map(|id| state.piece(*id));
        let column = |piece| Column {
            row: row(app, state, piece, &today),
            section: queries::section_of(state, piece),
            glued: piece.recorded.on,
            cost: queries::blank_cost(state, piece.id),
        };
        let all = pieces.filter(|piece| piece.is_at_hand()).map(column);
        all.filter(|column| column.row.is_there()).collect()
    })
}

/// A line of the table: its name and a figure for each blank.
type Line = (String, Vec<AnyView>);

/// The blanks in columns, what is known of them in lines.
pub(super) fn table(app: App, columns: &[Column], chosen: Chosen, open: Open) -> AnyView {
    let sections = Sections::of(columns.iter().map(|column| column.section.as_ref()));
    let head = columns.iter().enumerate().map(|(at, column)| {
        let (href, mark) = (Route::Wood(column.row.id).href(), column.row.mark.clone());
        view! {
            <th scope="col">
                <a class="mark" href=href>{mark}</a>
                {sections.drawn(at)}
            </th>
        }
    });
    let head = head.collect_any();
    let line = |(name, cells): Line| {
        let cells = cells.into_iter().map(|cell| view! { <td>{cell}</td> });
        view! { <tr><th scope="row">{name}</th>{cells.collect_any()}</tr> }
    };
    let woods = columns.iter().enumerate().map(|(at, column)| {
        let woods = sections.woods(at);
        woods.unwrap_or_else(|| column.row.woods.clone().into_any())
    });
    let mut all: Vec<Line> = vec![("Wood, by place".to_owned(), woods.collect())];
    all.extend(lines(app, columns, chosen.hide.get()));
    let all = all.into_iter().map(line).collect_any();
    let keep = columns
        .iter()
        .map(|column| view! { <td>{taps(column, chosen, open)}</td> });
    view! {
        <div class="scroll side-by-side" tabindex="0" role="region" aria-label="The blanks side by side">
            <table id="choice">
                <thead><tr><td></td>{head}</tr></thead>
                <tbody>
                    {all}
                    <tr class="no-print"><th scope="row">"Choose"</th>{keep.collect_any()}</tr>
                </tbody>
            </table>
        </div>
        <p class="small">
            "Sections are drawn to one scale; places are counted from one side. Stiffness is by what is usual for the \
             woods: none of these was measured."
        </p>
    }
    .into_any()
}

fn lines(app: App, columns: &[Column], hide: bool) -> Vec<Line> {
    let units = app.units.get();
    let each = |name: &str, of: &dyn Fn(&Column) -> AnyView| -> Line {
        (name.to_owned(), columns.iter().map(of).collect())
    };
    let mut lines = vec![
        each("Size", &|column| column.row.size(app, units)),
        each("Weight", &|column| column.row.weight(app, units)),
    ];
    lines.extend(chosen_lines(app, columns));
    lines.push(each("Glued", &|column| glued(column)));
    lines.push(each("Rest", &|column| rest(&column.row)));
    if columns.iter().any(|column| column.row.kept_for.is_some()) {
        lines.push(each("Kept", &|column| {
            let (named, bare) = (&column.row.kept_for, &column.row.kept_until);
            let words = if hide { bare } else { named };
            given(words.clone().unwrap_or_else(|| "free".to_owned()))
        }));
    }
    if !hide {
        lines.push(each("What its wood cost, with what failed", &cost));
    }
    lines
}

/// The lines of what each is chosen by.
fn chosen_lines(app: App, columns: &[Column]) -> Vec<Line> {
    let units = app.units.get();
    let mut lines: Vec<Line> = Vec::new();
    for column in columns {
        let of = app.state(|state| {
            let piece = state.piece(column.row.id);
            piece
                .map(|piece| chosen_by(app, state, piece, units))
                .unwrap_or_default()
        });
        for (at, (name, figure)) in of.into_iter().enumerate() {
            let figure = match figure {
                Ok(figure) => figure,
                Err(why) => view! { <small>{why}</small> }.into_any(),
            };
            match lines.get_mut(at) {
                Some((_, cells)) => cells.push(figure),
                None => lines.push((name, vec![figure])),
            }
        }
    }
    lines
}

/// When it was glued, and how long ago that is.
fn glued(column: &Column) -> AnyView {
    let glued = column.glued;
    let age = date(&clock::now().day).map(|today| {
        let ago = format!("{} ago", passed_in_words(glued, today));
        told_figure("Age".to_owned(), ago, move || {
            Some(explain_passed(glued, today))
        })
    });
    view! { {given(glued.to_string())} " " {age} }.into_any()
}

fn rest(row: &Row) -> AnyView {
    let (word, class) = row.word;
    view! {
        <span class=class>{word}</span>
        " "
        <small>{row.rest.clone()}</small>
    }
    .into_any()
}

fn cost(column: &Column) -> AnyView {
    let Some(cost) = column.cost.clone() else {
        return "not known".into_any();
    };
    let carried = money(cost.carried, &cost.currency);
    told_figure("What its wood cost".to_owned(), carried, move || {
        Some(cost.worked())
    })
}

/// Keep it, or take it out of the choice.
fn taps(column: &Column, chosen: Chosen, open: Open) -> AnyView {
    let (id, kept) = (column.row.id, column.row.kept);
    let is_open = move || open.get() == Some((id, KEEP));
    let keep = (!kept).then(|| {
        view! {
            <button
                type="button" class="primary keep" aria-expanded=move || is_open().to_string()
                on:click=move |_| {
                    open.update(|open| *open = (*open != Some((id, KEEP))).then_some((id, KEEP)));
                    bring_into_view("choice-form");
                }
            >
                "Keep " <span class="nb">{column.row.mark.clone()}</span> " for…"
            </button>
        }
    });
    let leave_out = move |_| chosen.ids.update(|ids| ids.retain(|one| *one != id));
    view! {
        {keep}
        <button type="button" class="quiet" on:click=leave_out>"Leave out"</button>
    }
    .into_any()
}
