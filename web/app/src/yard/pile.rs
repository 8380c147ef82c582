//! What a pile came to: how many were turned over, why those were rejected, what is bought, held and still to measure.

use super::frame::{head_key, inner, key};
use super::named::{pile_here, pile_title};
use super::recorded::drafts_in_sight;
use super::sort::moisture_of;
use super::table_drawn::compact;
use super::visit::{in_which_order, pile_bar};
use super::{Action, place};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::capital;
use crate::parts::{Icon, toast};
use crate::route::Route;
use crate::words::{count, fill, spoken_name};
use maud::{Markup, html};
use std::cmp::Reverse;
use stillwood_core::order;
use stillwood_core::record::commands::next_maybe;
use stillwood_core::record::{Decision, Id, Pile, PlankRow, Visit, queries};

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let pile = pile_here(model, id)?;
    let title = pile_title(pile);
    let visit = model.state().visit(pile.opened.visit)?;
    let page = inner(model, Layout::Place, &title, &visit.opened.yard, |ui| {
        head_key(ui, ui.w.yard.change_pile, Icon::Edit, Route::EditPile(id))
    });
    let rows: Vec<PlankRow> = queries::ranked(model.state(), visit.id, &model.settings.instruments);
    let in_pile = |row: &&PlankRow| {
        model
            .state()
            .piece(row.piece)
            .is_some_and(|piece| piece.pile == id)
    };
    let rows: Vec<&PlankRow> = rows.iter().filter(in_pile).collect();
    let page = page
        .with(model, "body", "main", |ui| body(ui, visit, pile, &rows))
        .with(model, "toast", "div", toast);
    Some(page)
}

fn body(ui: &Ui<'_>, visit: &Visit, pile: &Pile, rows: &[&PlankRow]) -> Markup {
    let words = &ui.w.planks;
    let model = ui.model;
    let (all, no, maybe) = (pile.looked_at(), pile.passed_over(), pile.maybes());
    let decided = |decision: Option<Decision>| {
        rows.iter().filter(|row| row.decision == decision).count() as u64
    };
    // Where every maybe is measured, what is left is to decide on one.
    let to_measure = next_maybe(model.state(), pile.id, None);
    let undecided = rows.iter().find(|row| row.decision.is_none());
    let unfinished = drafts_in_sight(model).filter(|draft| draft.pile == pile.id);
    html! {
        p.count { strong { (all) } span { (count(all, ui.w.yard.turned_over_one, ui.w.yard.turned_over_other)) } }
        (pile_bar(all, no, maybe))
        p.row.below {
            span { (fill(ui.w.yard.no_count, &[("n", &no)])) }
            span { (fill(ui.w.yard.maybe_count, &[("n", &maybe)])) }
        }
        dl.facts {
            dt { (ui.w.bill.bought_label) } dd { (decided(Some(Decision::Take))) }
            dt { (ui.w.bill.held_label) } dd { (decided(Some(Decision::SetAside))) }
            dt { (ui.w.bill.rejected_label) } dd { (decided(Some(Decision::Leave))) }
            dt { (ui.w.bill.undecided_label) } dd { (decided(None)) }
        }
        @if let Some(moisture) = moisture_of(ui, pile) { p { (capital(&moisture)) } }
        @for note in &pile.notes { p { bdi { (note.text) } " " span.below { (super::named::day_of(ui.model, note.on)) } } }
        (why(ui, pile))
        @match (to_measure, undecided) {
            (Some(next), _) => (main_key(ui, ui.w.bill.measure_next, Route::Measure(next))),
            (None, Some(row)) => (main_key(ui, &fill(ui.w.bill.decide_on, &[("mark", &row.mark)]), Route::Verdict(row.piece))),
            (None, None) => (main_key(ui, ui.w.bill.to_the_visit, Route::Visit(pile.opened.visit))),
        }
        div.keys.last {
            (key(ui, ui.w.bill.sort_on, Route::Sort(pile.id)))
            (key(ui, ui.w.bill.measure_another, Action::MeasureNew(pile.id)))
            (key(ui, words.tally_and_bill, Route::Tally(pile.opened.visit)))
        }
        (place::unfinished(ui, unfinished))
        @if !rows.is_empty() {
            h2 { (in_which_order(ui, visit)) }
            (compact(ui, rows))
        }
    }
}

/// What comes next, as the largest key.
fn main_key(ui: &Ui<'_>, name: &str, to: Route) -> Markup {
    html! { button.key.main.big.whole type="button" data-press=(ui.press(to)) { (name) } }
}

/// Why planks were rejected in the sort, the most frequent reason first, each as a bar.
fn why(ui: &Ui<'_>, pile: &Pile) -> Markup {
    let mut counted: Vec<(u64, &str)> = pile
        .left_for()
        .into_iter()
        .map(|(reason, n)| {
            (
                n,
                reason.map_or(ui.w.bill.no_reason, |reason| spoken_name(reason.name())),
            )
        })
        .collect();
    order::sort_by_key(&mut counted, |(n, name)| (Reverse(*n), *name));
    let most = counted.first().map_or(1, |(n, _)| *n);
    html! {
        @if !counted.is_empty() {
            h2 { (ui.w.bill.why_no) }
            @if counted.iter().map(|(n, _)| n).sum::<u64>() > pile.passed_over() { p.below { (ui.w.bill.why_no_below) } }
            ul.bars {
                @for (n, name) in &counted {
                    li {
                        span { (name) }
                        svg.share viewBox={ "0 0 " (most) " 4" } preserveAspectRatio="none" aria-hidden="true" {
                            rect.no x="0" y="0" width=(n) height="4" {}
                        }
                        strong { (n) }
                    }
                }
            }
        }
    }
}
