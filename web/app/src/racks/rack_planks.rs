//! The planks that a visit brought home are put on a rack together: one form for all, any of them left out.

use super::Action;
use super::deed::offers;
use super::stock::plain_tile;
use crate::effect::Effect;
use crate::form::{self, FormAction, FormId, OpenForm, field_id};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, fields};
use crate::parts::{Icon, icon, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count, fill};
use maud::{Markup, html};
use std::collections::BTreeSet;
use stillwood_core::record::commands::rack_planks::{LEFT_OUT, SINCE, planks};
use stillwood_core::record::queries::{on_no_rack, woods_named};
use stillwood_core::record::{Form, FormField, Id, as_json, workshop_command};

/// The stored name of putting one piece on a rack: the rack is asked for in the same field.
const ONE: &str = "Put on a shelf";

/// The rack, and since when.
fn asked() -> Vec<FormField> {
    let one = workshop_command(ONE);
    let mut asked = one.map_or_else(Vec::new, |one| one.fields.to_vec());
    asked.push(SINCE);
    asked
}

/// A line for each visit whose planks are on no rack yet, with the way to the form.
pub fn waiting(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    html! {
        @for one in on_no_rack(ui.model.state()) {
            @let route = Route::RackPlanks(one.visit);
            @let n = one.planks.len();
            @let sentence = if n == 1 { words.on_no_rack_one } else { words.on_no_rack_other };
            div.notice.beside {
                p { strong { (fill(sentence, &[("n", &n), ("yard", &one.yard)])) } }
                a.key href=(route.address()) data-press=(ui.press(route)) { (ui.w.command(ONE)) }
            }
        }
    }
}

fn all_of(model: &Model, open: &OpenForm, visit: Id) -> Vec<(Id, String, bool)> {
    let form = Form::new(&open.texts, model.units());
    planks(model.state(), &form, visit)
}

/// Leaves a plank out, or takes it in again.
pub fn leave_out(model: &mut Model, plank: Id) -> Vec<Effect> {
    let Some(open) = &model.form else {
        return Vec::new();
    };
    let form = Form::new(&open.texts, model.settings.units);
    let mut left_out: BTreeSet<Id> = form.json(LEFT_OUT.key).unwrap_or_default();
    if !left_out.remove(&plank) {
        left_out.insert(plank);
    }
    form::update(model, FormAction::Put(LEFT_OUT.key, as_json(&left_out)))
}

/// The screen.
pub fn view(model: &Model, visit: Id) -> Option<Page> {
    let yard = &model.state().visit(visit)?.opened.yard;
    let title = model.words().command(ONE);
    let page = Page::new(title, Layout::Task).with(model, "head", "header", |ui| {
        task_head(ui, title, yard, html! {})
    });
    let open = model.form.as_ref();
    let open = open.filter(|open| open.id == FormId::RackPlanks(visit));
    let all = open.map_or_else(Vec::new, |open| all_of(model, open, visit));
    let Some(open) = open.filter(|_| !all.is_empty()) else {
        return Some(page.with(model, "body", "main", |ui| {
            html! {
                p.empty { (ui.w.racks.all_racked) }
                button.key.big.whole type="button" data-press=(ui.press(Route::Racks)) { (ui.w.racks.to_the_racks) }
            }
        }));
    };
    let page = page
        .with(model, "body", "main", |ui| {
            html! {
                div.form {
                    (begun(ui, open))
                    (fields(ui, open, &asked(), &|field| offers(model, field)))
                    (which(ui, open, &all))
                    @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
                }
            }
        })
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| save_key(ui, open, &all));
    Some(page)
}

/// The planks: all chosen at first.
fn which(ui: &Ui<'_>, open: &OpenForm, all: &[(Id, String, bool)]) -> Markup {
    let label = ui.w.field(LEFT_OUT.key).label;
    html! {
        div.field role="group" aria-label=(label) id=(field_id(LEFT_OUT.key)) tabindex="-1" {
            span.name { (label) }
            ul.list {
                @for (id, mark, left_out) in all {
                    li {
                        button.item type="button" role="checkbox" aria-checked=((!left_out).to_string())
                            data-press=(ui.press(Action::LeaveOut(*id)))
                        {
                            @if let Some(piece) = ui.model.state().piece(*id) { (plain_tile(ui.model, piece)) }
                            span.what { strong { (mark) } " " (woods_named(ui.model.state(), *id)) }
                            span.tick { @if !left_out { (icon(Icon::Done)) } }
                        }
                    }
                }
            }
            @if let Some(why) = open.errors.of(LEFT_OUT.key) { p.bad role="alert" { (why.spoken()) } }
        }
    }
}

fn save_key(ui: &Ui<'_>, open: &OpenForm, all: &[(Id, String, bool)]) -> Markup {
    let words = &ui.w.racks;
    let chosen = all.iter().filter(|(_, _, left_out)| !left_out).count();
    let says = match chosen {
        0 => words.put_no_plank.to_owned(),
        n => count(n as u64, words.put_planks_one, words.put_planks_other),
    };
    html! {
        button.key.main.big type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) { (says) }
    }
}
