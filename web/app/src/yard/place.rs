//! The yard: visits by date, what is unfinished, and what was deleted.

use super::amounts::money;
use super::frame::key;
use super::named::day_of;
use super::named::{Deletable, name_of};
use super::recorded::{self, drafts_in_sight};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, capital, icon, place_page, toast};
use crate::route::Route;
use crate::words::{count, fill};
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::record::{Draft, Id, Total, Visit, queries};

/// The screen.
pub fn view(model: &Model) -> Page {
    place_page(model, model.words().yard.title)
        .with(model, "body", "main", body)
        .with(model, "toast", "div", toast)
}

fn body(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.planks;
    let state = ui.model.state();
    let mut visits: Vec<&Visit> = state.visits().collect();
    order::sort_by_key(&mut visits, |visit| {
        std::cmp::Reverse((visit.recorded.on, visit.id))
    });
    let planks = state.planks().count();
    let begun = ui
        .model
        .forms
        .values()
        .find(|form| form.at == Route::NewVisit.address());
    html! {
        @if visits.is_empty() {
            p { (words.no_visit_yet) }
        }
        button.key.main.big.whole type="button" data-press=(ui.press(Route::NewVisit)) { (icon(Icon::Add)) (words.start_a_visit) }
        @if begun.is_some() { p.below { (words.visit_half_typed) } }
        (unfinished(ui, drafts_in_sight(ui.model)))
        @if !visits.is_empty() {
            h2 { (words.visits) }
            ul.list { @for visit in &visits { li { (visit_item(ui, visit)) } } }
        }
        @if planks > 0 {
            div.keys.last {
                (key(ui, &fill(words.all_planks_n, &[("n", &planks)]), Route::Planks))
            }
        }
        (deleted(ui))
    }
}

fn visit_item(ui: &Ui<'_>, visit: &Visit) -> Markup {
    let words = &ui.w.planks;
    let state = ui.model.state();
    let piles = || state.piles_of(visit.id).filter(|pile| !pile.withdrawn);
    let looked: u64 = piles().map(|pile| pile.looked_at()).sum();
    let tally = queries::tally_of(state, visit.id);
    let bought = tally.as_ref().map_or(0, |tally| tally.planks.len());
    let paid = tally
        .map(|tally| tally.tally.money.gross)
        .filter(|paid| !paid.is_zero());
    html! {
        div.item.with-figure {
            a.what href=(Route::Visit(visit.id).address()) data-press=(ui.press(Route::Visit(visit.id))) {
                strong { (visit.opened.yard) }
                span.below { (day_of(ui.model, visit.recorded.on)) " · " (count(looked, words.turned_over_one, words.turned_over_other)) }
            }
            span.at-end {
                span { (count(bought as u64, words.bought_one, words.bought_other)) }
                @if let Some(paid) = paid {
                    strong {
                        (figure(ui, words.to_pay, &money(paid, &visit.opened.currency), Asked::VisitTotal(visit.id, Total::Gross)))
                    }
                }
            }
        }
    }
}

/// Planks that are half typed, each with a way to it.
pub fn unfinished<'a>(ui: &Ui<'_>, drafts: impl Iterator<Item = &'a Draft>) -> Markup {
    let words = &ui.w.planks;
    let begun: Vec<_> = drafts.filter(|draft| !draft.is_empty()).collect();
    html! {
        @if !begun.is_empty() {
            h2 { (words.unfinished) }
            ul.list {
                @for draft in begun { (half_typed(ui, draft)) }
            }
        }
    }
}

/// A plank that is half typed, in a list of them.
pub fn half_typed(ui: &Ui<'_>, draft: &Draft) -> Markup {
    let words = &ui.w.planks;
    html! {
        @if let Some(piece) = draft.piece {
            li {
                a.item href=(Route::Measure(piece).address()) data-press=(ui.press(Route::Measure(piece))) {
                    span.what {
                        strong { (draft.mark) }
                        span.below { (count(draft.fields_typed() as u64, words.typed_one, words.typed_other)) }
                    }
                    (icon(Icon::Forward))
                }
            }
        }
    }
}

/// What was deleted, each with a way back.
fn deleted(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.planks;
    let state = ui.model.state();
    let what = |about: Id| Deletable::of(state, about);
    let found = queries::deleted(state, ui.model.record.log());
    html! {
        @if !found.is_empty() {
            details {
                summary { (fill(words.deleted_list, &[("n", &found.len())])) }
                ul.list {
                    @for one in &found {
                        li.item {
                            span.what {
                                (capital(&name_of(ui.model, what(one.about))))
                                span.below {
                                    (fill(words.deleted_on, &[("day", &day_of(ui.model, one.on))])) " · "
                                    (count(one.took.planks.len() as u64, ui.w.common.planks_one, ui.w.common.planks_other))
                                }
                            }
                            (key(ui, ui.w.share.put_it_back, recorded::Action::BringBack(what(one.about))))
                        }
                    }
                }
            }
        }
    }
}
