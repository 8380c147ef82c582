//! A visit: what is still to buy, its piles, what is unfinished, its planks in the order of their worth.

use super::amounts::{feet, money};
use super::forms::delete_key;
use super::frame::{head_key, inner, key};
use super::named::Deletable;
use super::named::day_of;
use super::named::{pile_title, visit_here};
use super::place::unfinished;
use super::planks::decisions;
use super::recorded::{self, drafts_in_sight};
use super::table::{self, Rows, ThereIs};
use super::{needed, plank, table_drawn};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, toast};
use crate::route::Route;
use crate::words::{Spoken, count, fill, show};
use maud::{Markup, html};
use stillwood_core::quantity::in_kg;
use stillwood_core::record::{Id, Pile, PlankRow, Total, Visit, VisitTally, queries};
use stillwood_core::verdict::Order;

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let visit = visit_here(model, id)?;
    let words = &model.words().planks;
    let of = Rows::of(model);
    let (rows, picked) = (of.rows(), table::picked(model, &of));
    let wide = model.shell.wide;
    let chosen = table::beside(model, &picked).filter(|_| wide);
    let layout = if chosen.is_some() {
        Layout::ListAndPane
    } else {
        Layout::Place
    };
    let day = day_of(model, visit.recorded.on);
    let page = inner(model, layout, &visit.opened.yard, &day, |ui| {
        // On a phone these keys stand further down: the name has the room.
        html! {
            @if wide {
                // A wide window is the laptop itself.
                @let name = if ui.model.shell.can_share { ui.w.share.share_visit } else { ui.w.share.save_visit };
                (head_key(ui, name, Icon::Share, recorded::Action::SaveVisit(id)))
                (head_key(ui, words.change_visit, Icon::Edit, Route::EditVisit(id)))
            }
        }
    });
    let page = page
        .with(model, "body", "main", |ui| {
            body(ui, visit, rows, &picked, chosen)
        })
        .with(model, "toast", "div", toast);
    Some(match chosen {
        Some(chosen) => plank::beside(model, page, chosen),
        None => page,
    })
}

fn body(
    ui: &Ui<'_>,
    visit: &Visit,
    rows: &[PlankRow],
    picked: &[&PlankRow],
    chosen: Option<Id>,
) -> Markup {
    let words = &ui.w.planks;
    let (model, id) = (ui.model, visit.id);
    let state = model.state();
    let tally = queries::tally_of(state, id);
    let piles: Vec<&Pile> = state.piles_of(id).filter(|pile| !pile.withdrawn).collect();
    let here = |pile: Id| piles.iter().any(|one| one.id == pile);
    let drafts = || drafts_in_sight(model).filter(|draft| here(draft.pile));
    html! {
        @if !visit.opened.note.is_empty() { p.below { bdi { (visit.opened.note) } } }
        @for note in &visit.notes { p.below { bdi { (note.text) } } }
        div.halves {
            div {
                h2 { (words.piles) }
                @if piles.is_empty() { p.below { (words.no_pile_yet) } }
                @else { ul.list { @for pile in &piles { li { (pile_item(ui, pile)) } } } }
                button.key.whole type="button" .main[piles.is_empty()] data-press=(ui.press(Route::NewPile(id))) {
                    (icon(Icon::Add)) (words.new_pile)
                }
            }
            div {
                @if let Some(tally) = &tally {
                    (bought(ui, visit, rows, tally, drafts().filter(|draft| !draft.is_empty()).count()))
                    (needed::drawn(ui, id, |needed| needed::card(ui, id, needed, &visit.opened.currency)))
                }
            }
        }
        (unfinished(ui, drafts()))
        @if !rows.is_empty() {
            h2 {
                @match table::order(model) {
                    Some((column, _)) => (fill(words.planks_sorted, &[("column", &column.name().spoken())])),
                    None => (in_which_order(ui, visit)),
                }
            }
            (decisions(ui, &ThereIs::of(rows)))
            @if model.shell.wide { (table_drawn::dense(ui, picked, chosen)) } @else { (table_drawn::compact(ui, picked)) }
        }
        div.keys.last {
            (key(ui, words.sellers_view, Route::Seller(id)))
            (key(ui, words.change_visit, Route::EditVisit(id)))
            (delete_key(ui, Deletable::Visit(id)))
        }
    }
}

/// In which order its planks stand where no column sorts them.
pub fn in_which_order(ui: &Ui<'_>, visit: &Visit) -> &'static str {
    match visit.opened.spec.order {
        Order::Score => ui.w.planks.planks_best_first,
        Order::CostPerPart => ui.w.planks.planks_cheapest_first,
    }
}

/// What the planks bought come to, how many are half typed beside them, and what is next: to the tally, to the planks
/// that are not decided, and home with the visit.
fn bought(
    ui: &Ui<'_>,
    visit: &Visit,
    rows: &[PlankRow],
    tally: &VisitTally,
    unfinished: usize,
) -> Markup {
    let words = &ui.w.planks;
    let asked = |name: &str, shown: String, total: Total| {
        figure(ui, name, &shown, Asked::VisitTotal(visit.id, total))
    };
    let mass = show::mass(in_kg(tally.mass), ui.model.units());
    html! {
        section.card aria-label=(words.tally_and_bill) {
            p.row {
                span {
                    (count(tally.planks.len() as u64, words.bought_one, words.bought_other))
                    @if unfinished > 0 { " " (fill(words.and_unfinished, &[("n", &unfinished)])) }
                }
                strong { (asked(words.to_pay, money(tally.tally.money.gross, &visit.opened.currency), Total::Gross)) }
            }
            @if !tally.planks.is_empty() {
                p.below {
                    (asked(words.volume_by_rule, feet(tally.tally.board_feet), Total::ByTheRule)) " · "
                    (asked(words.weight, mass, Total::Mass)) " · " (words.tax_paid)
                }
            }
            div.keys {
                (key(ui, words.tally_and_bill, Route::Tally(visit.id)))
                (next_undecided(ui, rows))
                @if !ui.model.shell.wide { (key(ui, words.save_visit, recorded::Action::SaveVisit(visit.id))) }
            }
        }
    }
}

/// The way to the first plank that is not decided: to its verdict where it was measured.
fn next_undecided(ui: &Ui<'_>, rows: &[PlankRow]) -> Markup {
    let undecided = || rows.iter().filter(|row| row.decision.is_none());
    let Some(next) = undecided().next() else {
        return html! {};
    };
    let piece = ui.model.state().piece(next.piece);
    let (name, to) = match piece.is_some_and(|piece| piece.readings.is_empty()) {
        true => (ui.w.planks.measure_left, Route::Measure(next.piece)),
        false => (ui.w.planks.decide_left, Route::Verdict(next.piece)),
    };
    key(ui, &fill(name, &[("n", &undecided().count())]), to)
}

fn pile_item(ui: &Ui<'_>, pile: &Pile) -> Markup {
    let words = &ui.w.planks;
    let (all, no, maybe) = (pile.looked_at(), pile.passed_over(), pile.maybes());
    let of_yard = &ui.w.yard;
    html! {
        div.item.with-figure {
            a.what href=(Route::Sort(pile.id).address()) data-press=(ui.press(Route::Sort(pile.id))) {
                strong { (pile_title(pile)) }
                (pile_bar(all, no, maybe))
                span.below {
                    (count(all, words.turned_over_one, words.turned_over_other)) " · "
                    (fill(of_yard.no_count, &[("n", &no)])) " · " (fill(of_yard.maybe_count, &[("n", &maybe)]))
                }
            }
            button.key.quiet type="button" data-press=(ui.press(Route::PileSummary(pile.id)))
                aria-label=(fill(words.summary_of, &[("pile", &pile_title(pile))])) { (icon(Icon::Chart)) }
        }
    }
}

/// The pile as a bar of no and maybe.
pub fn pile_bar(all: u64, no: u64, maybe: u64) -> Markup {
    html! {
        svg.share viewBox={ "0 0 " (all.max(1)) " 4" } preserveAspectRatio="none" aria-hidden="true" {
            rect.no x="0" y="0" width=(no) height="4" {}
            rect.maybe x=(no) y="0" width=(maybe) height="4" {}
        }
    }
}
