//! All planks: on a wide screen a dense list with the chosen plank beside it, on a phone compact rows.

use super::frame::{head_key, inner, key};
use super::table::{self, Action, CALLS, Rows, ThereIs};
use super::{amounts, plank, table_drawn};
use crate::action::Action as Any;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, toast};
use crate::words::{Spoken, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::plank::Reason;
use stillwood_core::record::{Column, Decision, FieldKind, Filter, queries};

/// The decisions that can be filtered by; none is not yet decided.
const DECISIONS: [Option<Decision>; 4] = [
    Some(Decision::Take),
    Some(Decision::SetAside),
    Some(Decision::Leave),
    None,
];

/// The screen.
pub fn view(model: &Model) -> Page {
    let of = Rows::of(model);
    let (rows, picked) = (of.rows(), table::picked(model, &of));
    let wide = model.shell.wide;
    let chosen = table::beside(model, &picked).filter(|_| wide);
    let words = &model.words().planks;
    let layout = if wide {
        Layout::ListAndPane
    } else {
        Layout::Place
    };
    let below = match picked.len() == rows.len() {
        _ if matches!(of, Rows::UnderWay(..)) => String::new(),
        true => crate::words::count(
            rows.len() as u64,
            model.words().common.planks_one,
            model.words().common.planks_other,
        ),
        false => fill(words.some_of, &[("n", &picked.len()), ("all", &rows.len())]),
    };
    let below = match table::under(model) {
        Some((name, _)) => fill(
            words.judged_by,
            &[
                ("planks", &below),
                ("spec", &table::spec_shown(model, &name)),
            ],
        ),
        None => below,
    };
    let page = inner(model, layout, words.all_planks, &below, |ui| {
        html! {
            @if wide {
                (head_key(ui, words.print, Icon::Print, Any::Print))
                (head_key(ui, words.save_csv, Icon::Download, Action::SaveCsv))
            }
        }
    });
    let page = page
        .with(model, "body", "main", |ui| {
            html! {
                (filters(ui, &table::there_is(model, &of)))
                @if let Rows::UnderWay(done, all) = of { (under_way(ui, done, all)) }
                @else if rows.is_empty() { p.empty { (words.no_plank_yet) } }
                @else if picked.is_empty() { p.below { (words.no_plank_fits) } }
                @else if wide { (ui.part("planks", table_drawn::dense(ui, &picked, chosen))) }
                @else {
                    (ui.part("planks", table_drawn::compact(ui, &picked)))
                    div.keys.last {
                        (key(ui, ui.w.planks.print, Any::Print))
                        (key(ui, ui.w.planks.save_csv, Action::SaveCsv))
                    }
                }
            }
        })
        .with(model, "toast", "div", toast);
    match chosen {
        Some(id) => plank::beside(model, page, id),
        None if wide => page.with(model, "pane", "aside", |_| html! {}),
        None => page,
    }
}

/// How far the rows of a long record are; they can be left at any time.
fn under_way(ui: &Ui<'_>, done: usize, all: usize) -> Markup {
    let words = &ui.w.planks;
    let said = fill(words.working_out, &[("n", &done), ("all", &all)]);
    html! {
        p role="status" { (said) }
        progress value=(done) max=(all.max(1)) aria-label=(said) {}
        div.keys { (key(ui, ui.w.share.stop, Any::Back)) }
    }
}

/// The decisions as chips, with how many planks each has.
pub fn decisions(ui: &Ui<'_>, there_is: &ThereIs) -> Markup {
    let filter = table::filter(ui.model);
    let words = &ui.w.planks;
    let chip = |name: &str, wanted: Option<Option<Decision>>| {
        let n = there_is.planks(wanted);
        html! {
            @if n > 0 || wanted.is_none() || filter.decision == wanted {
                button.chip type="button" role="radio" aria-checked=((filter.decision == wanted).to_string())
                    data-press=(ui.press(Action::Decided(wanted))) { (name) " " (n) }
            }
        }
    };
    html! {
        div.chips role="radiogroup" aria-label=(words.by_decision) {
            (chip(words.all, None))
            @for decision in DECISIONS { (chip(&crate::parts::capital(amounts::decided(ui, decision)), Some(decision))) }
        }
    }
}

fn filters(ui: &Ui<'_>, there_is: &ThereIs) -> Markup {
    let words = &ui.w.planks;
    let filter = table::filter(ui.model);
    let plain = filter == Filter::default();
    html! {
        div.filters {
            (decisions(ui, there_is))
            details {
                summary { (if ui.model.shell.wide { words.filters_and_columns } else { words.filters_and_order }) @if !plain { " · " (words.filtered) } }
                div.pair { (fields(ui, there_is, &filter)) }
                @if ui.model.shell.wide {
                    p.name { (words.columns) }
                    div.chips role="group" aria-label=(words.columns) {
                        @for column in Column::ALL.iter().filter(|column| **column != Column::Mark) {
                            @let is_shown = table::columns(ui.model).contains(column);
                            button.chip type="button" aria-pressed=(is_shown.to_string())
                                data-press=(ui.press(Action::Column(*column))) { (column.name().spoken()) }
                        }
                    }
                }
            }
            @if !plain { div.keys { (key(ui, words.show_all, Action::Clear)) } }
        }
    }
}

fn fields(ui: &Ui<'_>, there_is: &ThereIs, filter: &Filter) -> Markup {
    let words = &ui.w.planks;
    let named = |names: &[String]| -> Vec<(String, String)> {
        names
            .iter()
            .map(|name| (name.clone(), name.clone()))
            .collect()
    };
    let woods = there_is.woods.iter();
    let woods = woods.map(|name| (wood_names::shown(name), name.clone()));
    // In the order of the names that are shown.
    let woods: Vec<_> = order::set_of(woods)
        .into_iter()
        .map(|(shown, name)| (name, shown))
        .collect();
    let numbered = |at: Option<usize>| at.map(|at| at.to_string()).unwrap_or_default();
    let reasons = Reason::ALL
        .iter()
        .enumerate()
        .filter(|(_, reason)| there_is.reasons.contains(reason));
    let reasons: Vec<_> = reasons
        .map(|(at, reason)| (at.to_string(), reason.name().spoken().to_owned()))
        .collect();
    let calls = CALLS.iter().enumerate();
    let calls: Vec<_> = calls
        .map(|(at, call)| (at.to_string(), amounts::called(ui, *call).1.to_owned()))
        .collect();
    let call = numbered(
        filter
            .recommendation
            .and_then(|call| CALLS.iter().position(|one| *one == call)),
    );
    let reason = numbered(
        filter
            .reason
            .and_then(|reason| Reason::ALL.iter().position(|one| *one == reason)),
    );
    let specs = queries::specs(ui.model.state())
        .into_iter()
        .map(|(name, _)| (name.clone(), table::spec_shown(ui.model, &name)))
        .collect::<Vec<_>>();
    let under = table::under(ui.model)
        .map(|(name, _)| name)
        .unwrap_or_default();
    let columns = Column::ALL.iter().enumerate();
    let columns: Vec<_> = columns
        .map(|(at, column)| (at.to_string(), column.name().spoken().to_owned()))
        .collect();
    let by =
        table::order(ui.model).and_then(|(by, _)| Column::ALL.iter().position(|one| *one == by));
    let score = filter
        .least_score
        .map(|score| show::in_field(FieldKind::Plain, &score.to_string()))
        .unwrap_or_default();
    html! {
        div.field {
            label for="search" { (words.search) }
            input id="search" name="search" type="search" value=(filter.text) autocomplete="off";
        }
        (pick("by-yard", words.by_yard, Some(words.all_yards), filter.yard.as_deref().unwrap_or_default(), &named(&there_is.yards)))
        (pick("by-wood", words.by_wood, Some(words.all_woods), filter.species.as_deref().unwrap_or_default(), &woods))
        (pick("by-verdict", words.by_verdict, Some(words.all), &call, &calls))
        (pick("by-reason", words.by_reason, Some(words.all), &reason, &reasons))
        div.field {
            label for="least-score" { (words.least_score) }
            input id="least-score" name="least-score" inputmode="decimal" value=(score) autocomplete="off";
        }
        (pick("sort-by", words.sort_by, None, &numbered(by), &columns))
        (pick("judged-by", words.judged_by_label, Some(words.own_visit), &under, &specs))
    }
}

/// One list to choose from.
fn pick(id: &str, label: &str, all: Option<&str>, chosen: &str, of: &[(String, String)]) -> Markup {
    html! {
        div.field {
            label for=(id) { (label) }
            select id=(id) name=(id) {
                @if let Some(all) = all { option value="" selected[chosen.is_empty()] { (all) } }
                @for (value, name) in of { option value=(value) selected[value == chosen] { (name) } }
            }
        }
    }
}
