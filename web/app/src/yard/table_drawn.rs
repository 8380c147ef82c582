//! The list of planks drawn: a dense table on a wide screen, compact rows on a phone. Only the rows near the view are
//! there; what stands for the others is as high as they are.

use super::amounts::{called, decided, money, row_size};
use super::table::{Action, ROW, columns, order};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Judged, sign};
use crate::route::Route;
use crate::words::{Spoken, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Column, Decision, Id, PlankRow, queries};
use stillwood_core::wood::Species;

fn is_number(column: Column) -> bool {
    matches!(
        column,
        Column::Size
            | Column::Weight
            | Column::Density
            | Column::Score
            | Column::Cost
            | Column::CostPerPart
    )
}

/// A score with its sign.
fn score(ui: &Ui<'_>, row: &PlankRow) -> Markup {
    let (judged, said) = row
        .recommendation
        .map_or((Judged::Unknown, ""), |one| called(ui, one));
    html! {
        span class={ "badge " (judged.class()) } title=(said) {
            (sign(judged)) @match row.score { Some(score) => (format!("{score:.0}")), None => "–" }
        }
    }
}

/// A sample of a wood's colour.
pub fn swatch(ui: &Ui<'_>, row: &PlankRow) -> Markup {
    let state = ui.model.state();
    let species = state
        .piece(row.piece)
        .and_then(|piece| queries::species_of(state, piece));
    let wood = species.and_then(|species| queries::wood_of(state, species));
    let colour = wood.as_ref().map(Species::colour);
    html! {
        svg class=(if colour.is_some() { "swatch" } else { "swatch unknown" }) viewBox="0 0 14 14" aria-hidden="true" {
            rect x="1" y="1" width="12" height="12" rx="2" fill=(colour.unwrap_or("none")) {}
        }
    }
}

/// The unit that stands once, in the heading of a column. Inches and pounds stand at their numbers.
fn unit(column: Column, units: Units) -> Option<&'static str> {
    match (column, units) {
        (Column::Size, Units::Metric) => Some("mm"),
        (Column::Weight, Units::Metric) => Some("kg"),
        _ => None,
    }
}

/// What is shown in a column, without the unit in its heading. Another unit stays: a light piece has grams.
fn bare(shown: String, column: Column, units: Units) -> String {
    let number = unit(column, units).and_then(|unit| shown.strip_suffix(unit));
    number.map_or_else(|| shown.clone(), |number| number.trim_end().to_owned())
}

/// How a cell of a column is set: numbers end at one edge, and a wood's name has more room.
fn class(column: Column) -> Option<&'static str> {
    match column {
        Column::Species => Some("wood-name"),
        _ => is_number(column).then_some("n"),
    }
}

/// What stands in a column.
fn cell(ui: &Ui<'_>, row: &PlankRow, column: Column) -> Markup {
    let units = ui.model.units();
    let or_none = |text: Option<String>| html! { @match text { Some(text) => (text), None => span.open { "–" } } };
    let in_money = |value| money(value, &row.currency);
    match column {
        Column::Mark => html! { (row.mark) },
        Column::Yard => html! { (row.yard) },
        Column::Day => html! { (super::named::day_of(ui.model, row.on)) },
        Column::Species => html! { (swatch(ui, row)) (wood_names::shown(&row.species)) },
        Column::Size => or_none(row_size(row, units).map(|size| bare(size, column, units))),
        Column::Weight => {
            let weight = row.mass_kg.map(|kg| show::mass(kg, units));
            or_none(weight.map(|weight| bare(weight, column, units)))
        }
        Column::Density => or_none(
            row.density_at_12
                .map(|density| show::density(density, units)),
        ),
        Column::Score => score(ui, row),
        Column::Verdict => or_none(row.recommendation.map(|one| called(ui, one).1.to_owned())),
        Column::Weakest => or_none(row.weakest.map(|name| name.spoken())),
        Column::Decision => {
            let main = row
                .reasons
                .first()
                .filter(|_| row.decision == Some(Decision::Leave));
            let decision = decided(ui, row.decision);
            match main.map(|reason| reason.name().spoken()) {
                Some(reason) => {
                    let said = format!("{decision}: {reason}");
                    html! { span title=(said) { (said) } }
                }
                None => html! { (decision) },
            }
        }
        Column::Reasons => {
            let names: Vec<String> = row
                .reasons
                .iter()
                .map(|reason| reason.name().spoken())
                .collect();
            or_none((!names.is_empty()).then(|| names.join(", ")))
        }
        Column::Cost => or_none(row.money.map(|paid| in_money(paid.gross))),
        Column::CostPerPart => or_none(row.cost_per_part.map(in_money)),
    }
}

fn spacer(rows: usize, height: usize, columns: usize) -> Markup {
    html! {
        @if rows > 0 {
            tr.spacer aria-hidden="true" { td colspan=(columns) { svg width="1" height=(rows * height) {} } }
        }
    }
}

/// A key for the rows that are not drawn, for whoever does not scroll.
fn more(ui: &Ui<'_>, name: &str, at: usize) -> Markup {
    html! { button.key.quiet type="button" data-press=(ui.press(Action::Scrolled(at))) { (name) } }
}

/// The rows on a wide screen.
pub fn dense(ui: &Ui<'_>, picked: &[&PlankRow], chosen: Option<Id>) -> Markup {
    let words = &ui.w.planks;
    let columns = columns(ui.model);
    let (first, last) = drawn(ui.model, picked.len());
    let sorted = order(ui.model);
    let heading = |column: Column| {
        let state = match sorted {
            Some((by, true)) if by == column => "descending",
            Some((by, false)) if by == column => "ascending",
            _ => "none",
        };
        let arrow = match state {
            "descending" => " ↓",
            "ascending" => " ↑",
            _ => "",
        };
        html! {
            th scope="col" class=[is_number(column).then_some("n")] aria-sort=(state) {
                button type="button" data-press=(ui.press(Action::Sort(column))) {
                    (column.name().spoken()) span aria-hidden="true" { (arrow) }
                    @if let Some(unit) = unit(column, ui.model.units()) { " " span.below { (unit) } }
                }
            }
        }
    };
    html! {
        table.plank-table #planks data-row-height=(ROW[0]) aria-rowcount=(picked.len() + 1) {
            thead { tr { (heading(Column::Mark)) @for column in &columns { (heading(*column)) } } }
            tbody {
                @if first > 0 {
                    (spacer(first - 1, ROW[0], columns.len() + 1))
                    tr.more-rows { td colspan=(columns.len() + 1) { (more(ui, words.rows_before, first.saturating_sub(ui.model.yard.table.drawn() / 2))) } }
                }
                @for (at, row) in picked.iter().enumerate().take(last).skip(first) {
                    @let is_chosen = chosen == Some(row.piece);
                    @let press = ui.press_of_row(at, Action::Choose(row.piece));
                    tr id=(row_id(row, is_chosen)) aria-rowindex=(at + 2) aria-selected=(is_chosen.to_string())
                        data-press=(press)
                    {
                        th scope="row" {
                            a href=(Route::Plank(row.piece).address()) aria-current=[is_chosen.then_some("true")]
                                data-press=(press) { (row.mark) }
                        }
                        @for column in &columns {
                            td class=[class(*column)] { (cell(ui, row, *column)) }
                        }
                    }
                }
                @if last < picked.len() {
                    tr.more-rows { td colspan=(columns.len() + 1) { (more(ui, words.rows_after, last)) } }
                    (spacer(picked.len() - last - 1, ROW[0], columns.len() + 1))
                }
            }
        }
    }
}

/// A row's id: by it a row that is drawn again elsewhere is moved, not drawn anew.
fn row_id(row: &PlankRow, is_chosen: bool) -> String {
    match is_chosen {
        true => "chosen-row".to_owned(),
        false => format!("row-{}", row.piece),
    }
}

/// The first row that is drawn, and the one after the last.
fn drawn(model: &Model, rows: usize) -> (usize, usize) {
    if model.shell.printing {
        return (0, rows);
    }
    let first = model.yard.table.first.min(rows.saturating_sub(1));
    (first, rows.min(first + model.yard.table.drawn()))
}

/// The rows on a phone.
pub fn compact(ui: &Ui<'_>, picked: &[&PlankRow]) -> Markup {
    let words = &ui.w.planks;
    let (first, last) = drawn(ui.model, picked.len());
    let space = |rows: usize| {
        html! {
            @if rows > 0 { li.spacer aria-hidden="true" { svg width="1" height=(rows * ROW[1]) {} } }
        }
    };
    html! {
        ul.list.rows #planks data-row-height=(ROW[1]) {
            @if first > 0 {
                (space(first - 1))
                li.more-rows { (more(ui, words.rows_before, first.saturating_sub(ui.model.yard.table.drawn() / 2))) }
            }
            @for (at, row) in picked.iter().enumerate().take(last).skip(first) {
                li id=(row_id(row, false)) { (compact_row(ui, at, row)) }
            }
            @if last < picked.len() {
                li.more-rows { (more(ui, words.rows_after, last)) }
                (space(picked.len() - last - 1))
            }
        }
    }
}

fn compact_row(ui: &Ui<'_>, at: usize, row: &PlankRow) -> Markup {
    let to = match row.decision {
        Some(_) => Route::Plank(row.piece),
        None if row.score.is_some() => Route::Verdict(row.piece),
        None => Route::Measure(row.piece),
    };
    let words = &ui.w.planks;
    let size = row_size(row, ui.model.units());
    let cost = row.cost_per_part.map(|cost| money(cost, &row.currency));
    let below = match row.decision {
        None if row.score.is_some() => words.decide_on_it.to_owned(),
        None => words.measure_it.to_owned(),
        Some(Decision::Take) => {
            cost.map_or_else(String::new, |cost| fill(words.a_part, &[("cost", &cost)]))
        }
        Some(_) => row
            .reasons
            .first()
            .map(|reason| reason.name())
            .or(row.weakest)
            .unwrap_or_default()
            .spoken(),
    };
    html! {
        a.item href=(to.address()) data-press=(ui.press_of_row(at, to)) {
            (swatch(ui, row))
            span.what {
                span.line { strong { (row.mark) } " " span.small { (decided(ui, row.decision)) } }
                span.below.line { @match &size { Some(size) => (size), None => (wood_names::shown(&row.species)) } }
            }
            span.at-end {
                @if row.decision.is_some() || row.score.is_some() { (score(ui, row)) }
                span.below.line { (below) }
            }
        }
    }
}
