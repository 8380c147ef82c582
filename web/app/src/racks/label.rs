//! Labels to print: a strip for a piece with its mark, wood, next date and a code that holds the whole mark, and lines
//! for a pencil; and the label of a rack. What wood cost stands on none.

use super::piece_facts::size;
use super::rack::{rack_of, said_on_paper};
use super::stock::{Stock, rack_name, waits};
use crate::action::Action;
use crate::drawings::code;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, task_head, toast};
use crate::words::{Spoken, dates, fill, wood_names};
use maud::{Markup, html};
use stillwood_core::record::queries::{self, RackPiece};
use stillwood_core::record::{Id, Piece, Waits};
use stillwood_core::season::DateKey;

/// So many lines are left for a pencil.
const LINES: usize = 6;

fn print_key(ui: &Ui<'_>) -> Markup {
    html! {
        button.key.main.big type="button" data-press=(ui.press(Action::Print)) { (icon(Icon::Print)) (ui.w.racks.print) }
    }
}

/// The date that comes next for a piece.
fn next_date(ui: &Ui<'_>, waits: Option<&Waits>) -> Option<String> {
    let words = &ui.w.racks;
    // On paper each day has its year.
    let day = |on: chrono::NaiveDate| dates::day(ui.w, on, chrono::NaiveDate::default());
    match waits? {
        Waits::Rest(_, Ok(ready)) => {
            let sentence = if ready.date == DateKey::RestOver {
                words.rest_over_since
            } else {
                words.rests_until
            };
            Some(fill(sentence, &[("day", &day(ready.due))]))
        }
        Waits::Room(Ok(room)) => Some(fill(words.cut_from, &[("day", &day(room.from))])),
        _ => None,
    }
}

/// The label of a piece.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model.state().piece(id)?;
    let title = fill(model.words().racks.label_of, &[("mark", &piece.mark)]);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &title, "", html! {})
        })
        .with(model, "body", "main", |ui| of_piece(ui, piece))
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", print_key);
    Some(page)
}

fn of_piece(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let waits = waits(ui.model, piece);
    let flat = piece.work.machined.last();
    let day = |on: chrono::NaiveDate| dates::day(ui.w, on, chrono::NaiveDate::default());
    html! {
        div.label {
            div.code-and-mark {
                (code(&piece.mark))
                div {
                    p.mark { (piece.mark) }
                    p { (wood_names::shown(&queries::woods_named(ui.model.state(), piece.id))) " " (piece.work.kind.name().spoken()) }
                    @if let Some(size) = size(ui.model, piece) { p { (size) } }
                    @if let Some(next) = next_date(ui, waits.as_ref()) { p { strong { (next) } } }
                    @if let Some(rest) = piece.work.rest() { p { (fill(words.resting_since, &[("day", &day(rest.on))])) } }
                    @if let Some(flat) = flat {
                        p { (fill(words.flat_since, &[("day", &day(flat.on))])) @if !flat.payload.reference.is_empty() { ", " (flat.payload.reference) } }
                    }
                }
            }
            (pencil_lines(ui))
        }
        p.below { (words.label_hint) }
    }
}

/// Blank lines for readings by pencil.
fn pencil_lines(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    html! {
        table.pencil {
            thead { tr { @for name in [words.pencil_day, words.pencil_bow, words.pencil_crook, words.pencil_twist, words.pencil_weight, words.pencil_who] { th scope="col" { (name) } } } }
            tbody { @for _ in 0..LINES { tr { @for _ in 0..6 { td {} } } } }
        }
    }
}

/// The label of the rack that a piece lies on.
pub fn of_rack(model: &Model, id: Id) -> Option<Page> {
    let stock = Stock::of(model);
    let rack = rack_of(&stock, id)?;
    let name = rack_name(&model.words().racks, &rack.place);
    let title = fill(model.words().racks.label_of, &[("mark", &name)]);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, &title, "", html! {}))
        .with(model, "body", "main", |ui| {
            let words = &ui.w.racks;
            let today = dates::day(ui.w, ui.model.now.date(), chrono::NaiveDate::default());
            // Wider than a phone: with the keyboard it can be scrolled to its end as well.
            html! {
                div.label tabindex="0" role="region" aria-label=(title) {
                    p.mark { (name) }
                    p { (super::line::kinds(words, rack)) ", " (today) }
                    table.pencil.given {
                        thead { tr { @for name in [words.mark, words.pencil_wood, words.pencil_next, words.pencil_stands, words.pencil_today] { th scope="col" { (name) } } } }
                        tbody { @for one in &rack.pieces { (rack_line(ui, one)) } }
                    }
                }
            }
        })
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", print_key);
    Some(page)
}

/// The day on which it may go on, with its year.
fn day_of(ui: &Ui<'_>, one: &RackPiece) -> String {
    let day = one.due.as_ref().and_then(|due| due.day());
    day.map_or_else(String::new, |on| {
        dates::day(ui.w, on, chrono::NaiveDate::default())
    })
}

fn rack_line(ui: &Ui<'_>, one: &RackPiece) -> Markup {
    html! {
        tr {
            th scope="row" { (one.mark) }
            td { (wood_names::shown(&one.wood)) }
            td { (day_of(ui, one)) }
            td { (said_on_paper(ui, one)) }
            td {}
        }
    }
}
