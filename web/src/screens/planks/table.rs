//! The table itself: a heading sorts, a row opens the plank.

use super::{PAGE, Shared, open_plank};
use crate::app::App;
use crate::parts::{CollectAny, When, call_class, given, live, told_figure};
use crate::route::Route;
use crate::screens::{figures, plank_told_under, words};
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::show;
use stillwood_core::record::{Column, PlankFigure, PlankRow};
use stillwood_core::verdict::Number;

/// Columns that hold numbers.
fn is_number(column: Column) -> bool {
    matches!(
        column,
        Column::Weight | Column::Density | Column::Score | Column::Cost | Column::CostPerPart
    )
}

/// Columns that read worse on two lines.
fn is_short(column: Column) -> bool {
    is_number(column) || matches!(column, Column::Size | Column::Day)
}

/// The table.
#[component]
pub(super) fn Table(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let rows = Memo::new(move |_| {
        let shown = shared.shown.get();
        shared.picked(|picked| {
            let rows = picked.iter().take(shown).map(|row| (*row).clone());
            (rows.collect::<Vec<_>>(), picked.len())
        })
    });
    // A row is drawn anew when the rows or the units changed, not when the order did.
    let version = move || (shared.judged.get(), app.units.get());
    let each = move || {
        let (version, units) = version();
        let rows = rows.with(|(rows, _)| rows.clone());
        rows.into_iter()
            .map(|row| (version, units, row))
            .collect::<Vec<_>>()
    };
    let more = move || rows.with(|(rows, all)| all.saturating_sub(rows.len()));
    view! {
        <div class="scroll" tabindex="0" role="region" aria-label="Planks">
            <table class="stacks planks" id="planks">
                <thead>
                    <tr>
                        {Column::ALL
                            .iter()
                            .map(|column| view! { <Heading shared=shared column=*column /> })
                            .collect_any()}
                    </tr>
                </thead>
                <tbody>
                    <For
                        each=each
                        key=|(version, units, row)| {
                            (*version, *units == Units::Inch, row.piece)
                        }
                        let((_, units, row))
                    >
                        <Row shared=shared row=row units=units />
                    </For>
                </tbody>
            </table>
        </div>
        <When so=move || { more() > 0 }>
            <button
                class="wide-button no-print" id="show-more"
                on:click=move |_| shared.shown.update(|shown| *shown += PAGE)
            >
                {live(move || format!("Show more ({} not shown)", more()))}
            </button>
        </When>
    }
}

#[component]
fn Heading(shared: Shared, column: Column) -> impl IntoView {
    let sort = shared.sort;
    let sorted = move || match sort.get() {
        (by, falls) if by == column => {
            if falls {
                "descending"
            } else {
                "ascending"
            }
        }
        _ => "none",
    };
    let arrow = move || match sorted() {
        "descending" => " ↓",
        "ascending" => " ↑",
        _ => "",
    };
    let press = move |_| {
        sort.update(|(by, falls)| {
            *falls = if *by == column {
                !*falls
            } else {
                column.falls_first()
            };
            *by = column;
        });
    };
    view! {
        <th scope="col" class:n=is_number(column) aria-sort=sorted>
            <button on:click=press>
                {column.name()} <span aria-hidden="true">{live(arrow)}</span>
            </button>
        </th>
    }
}

fn size(row: &PlankRow, units: Units) -> String {
    let sizes = [row.length_mm, row.width_mm, row.thickness_mm];
    if sizes.iter().all(Option::is_none) {
        return "–".to_owned();
    }
    show::sizes(sizes, units)
}

/// The figure of the plank that a column shows; `None` for what was typed or named.
fn figure_in(column: Column) -> Option<PlankFigure> {
    Some(match column {
        Column::Weight => PlankFigure::Sheet(Number::Mass),
        Column::Density => PlankFigure::Sheet(Number::DensityAt12),
        Column::Score => PlankFigure::Sheet(Number::PlankScore),
        Column::Cost => PlankFigure::Bill,
        Column::CostPerPart => PlankFigure::CostPerPart,
        _ => return None,
    })
}

/// What stands in a column.
fn cell(row: &PlankRow, column: Column, units: Units) -> String {
    let none = || "–".to_owned();
    let money = |value| figures::money(value, &row.currency);
    match column {
        Column::Mark => row.mark.clone(),
        Column::Yard => row.yard.clone(),
        Column::Day => row.on.to_string(),
        Column::Species => row.species.clone(),
        Column::Size => size(row, units),
        Column::Weight => row.mass_kg.map_or_else(none, |kg| show::mass(kg, units)),
        Column::Density => row
            .density_at_12
            .map_or_else(none, |density| show::density(density, units)),
        Column::Score => row.score.map_or_else(none, |score| format!("{score:.0}")),
        Column::Verdict => row
            .recommendation
            .map_or_else(none, |call| call.words().to_owned()),
        Column::Weakest => row.weakest.map_or_else(none, str::to_owned),
        Column::Decision => row
            .decision
            .map_or_else(|| "not yet".to_owned(), |d| d.in_words().to_owned()),
        Column::Reasons if row.reasons.is_empty() => none(),
        Column::Reasons => words::reasons(&row.reasons),
        Column::Cost => row.money.map_or_else(none, |paid| money(paid.gross)),
        Column::CostPerPart => row.cost_per_part.map_or_else(none, money),
    }
}

#[component]
fn Row(shared: Shared, row: PlankRow, units: Units) -> impl IntoView {
    let app = expect_context::<App>();
    let open = shared.open;
    let id = row.piece;
    let is_open = move || open.get() == Some(id);
    let press = move |event: web_sys::MouseEvent| {
        event.prevent_default();
        event.stop_propagation();
        open_plank(open, id);
    };
    let call = row.recommendation.map(call_class).unwrap_or_default();
    let cells = Column::ALL
        .iter()
        .filter(|column| **column != Column::Mark)
        .map(|column| {
            let text = cell(&row, *column, units);
            let shown = if let Some(figure) = figure_in(*column).filter(|_| text != "–") {
                let name = format!("{} of {}", column.name(), row.mark);
                let tell = plank_told_under(app, id, figure, Some(shared.under));
                told_figure(name, text, tell)
            } else if *column == Column::Verdict && !call.is_empty() {
                view! { <span class=format!("word {call}")>{text}</span> }.into_any()
            } else {
                given(text)
            };
            view! {
                <td
                    class:n=is_number(*column) class:nb=is_short(*column) data-label=column.name()>{shown}</td>
            }
        })
        .collect_any();
    view! {
        <tr class:open=is_open on:click=move |_| open_plank(open, id)>
            <th scope="row" data-label="Mark">
                <a
                    class="button mark" href=Route::Sheet(id).href()
                    aria-current=move || is_open().then_some("true") on:click=press
                >
                    {row.mark.clone()}
                </a>
            </th>
            {cells}
        </tr>
    }
}
