//! Pieces are put away together: one form for all, any of them left out. The planks that a visit brought home go on a
//! rack, the parts of a cut and a glued blank are set to rest.

use super::Action;
use super::deed::offers;
use super::put_away_words::{are_laminates, from, route};
use super::stock::plain_tile;
use crate::effect::Effect;
use crate::form::{self, FormAction, FormId, OpenForm, field_id};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, fields};
use crate::parts::{Icon, icon, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count, fill, wood_names};
use maud::{Markup, html};
use std::collections::BTreeSet;
use stillwood_core::record::commands::put_away::{LEFT_OUT, SINCE, pieces};
use stillwood_core::record::queries::{PutAway, ToPutAway, to_put_away, woods_named};
use stillwood_core::record::{Form, FormField, Id, as_json, workshop_command};

/// The stored name of what is done to one such piece by itself: the rack is asked for in the same field.
fn one(which: PutAway) -> &'static str {
    match which {
        PutAway::PlanksOfVisit(_) => "Put on a shelf",
        PutAway::PartsOfCut(_) | PutAway::GluedBlank(_) => "Set to rest",
    }
}

/// The rack, and since when.
fn asked() -> Vec<FormField> {
    let one = workshop_command("Put on a shelf");
    let mut asked = one.map_or_else(Vec::new, |one| one.fields.to_vec());
    asked.push(SINCE);
    asked
}

/// A line for each visit, cut and glued blank that is to be put away, with the way to the form.
pub fn waiting(ui: &Ui<'_>) -> Markup {
    lines(ui, &to_put_away(ui.model.state()))
}

/// The line of one cut, on the page of what was cut.
pub fn waiting_of_cut(ui: &Ui<'_>, cut: Id) -> Markup {
    let mut of_cut = to_put_away(ui.model.state());
    of_cut.retain(|one| one.which == PutAway::PartsOfCut(cut));
    lines(ui, &of_cut)
}

fn lines(ui: &Ui<'_>, all: &[ToPutAway]) -> Markup {
    let words = &ui.w.racks;
    html! {
        @for one_of in all {
            @let route = route(one_of.which);
            @let n = one_of.pieces.len();
            @let laminates = are_laminates(ui.model, one_of.pieces.iter().map(|(id, _)| *id));
            @let sentence = match (one_of.which, n) {
                (PutAway::PlanksOfVisit(_), 1) => words.on_no_rack_one,
                (PutAway::PlanksOfVisit(_), _) => words.on_no_rack_other,
                (PutAway::PartsOfCut(_), 1) if laminates => words.laminates_not_at_rest_one,
                (PutAway::PartsOfCut(_), _) if laminates => words.laminates_not_at_rest_other,
                (PutAway::PartsOfCut(_), 1) => words.parts_not_at_rest_one,
                (PutAway::PartsOfCut(_), _) => words.parts_not_at_rest_other,
                (PutAway::GluedBlank(_), _) => words.blank_not_at_rest,
            };
            div.notice.beside {
                p { strong { (fill(sentence, &[("n", &n), ("yard", &one_of.from), ("mark", &one_of.from)])) } }
                a.key href=(route.address()) data-press=(ui.press(route)) { (ui.w.command(one(one_of.which))) }
            }
        }
    }
}

/// The form opens.
pub fn opened(model: &mut Model, which: PutAway) -> Vec<Effect> {
    form::open(model, FormId::PutAway(which));
    Vec::new()
}

fn all_of(model: &Model, open: &OpenForm, which: PutAway) -> Vec<(Id, String, bool)> {
    let form = Form::new(&open.texts, model.units());
    pieces(model.state(), &form, which)
}

/// Leaves a piece out, or takes it in again.
pub fn leave_out(model: &mut Model, piece: Id) -> Vec<Effect> {
    let Some(open) = &model.form else {
        return Vec::new();
    };
    let form = Form::new(&open.texts, model.settings.units);
    let mut left_out: BTreeSet<Id> = form.json(LEFT_OUT.key).unwrap_or_default();
    if !left_out.remove(&piece) {
        left_out.insert(piece);
    }
    form::update(model, FormAction::Put(LEFT_OUT.key, as_json(&left_out)))
}

/// The screen.
pub fn view(model: &Model, which: PutAway) -> Option<Page> {
    let from = from(model, which)?;
    let title = model.words().command(one(which));
    let page = Page::new(title, Layout::Task).with(model, "head", "header", |ui| {
        task_head(ui, title, from, html! {})
    });
    let open = model.form.as_ref();
    let open = open.filter(|open| open.id == FormId::PutAway(which));
    let all = open.map_or_else(Vec::new, |open| all_of(model, open, which));
    let Some(open) = open.filter(|_| !all.is_empty()) else {
        return Some(page.with(model, "body", "main", |ui| {
            let words = &ui.w.racks;
            let nothing = match which {
                PutAway::PlanksOfVisit(_) => words.all_racked,
                PutAway::PartsOfCut(_) => words.all_at_rest,
                PutAway::GluedBlank(_) => words.blank_needs_no_rest,
            };
            html! {
                p.empty { (nothing) }
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
                    (chosen(ui, open, &all))
                    @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
                }
            }
        })
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            save_key(ui, open, which, &all)
        });
    Some(page)
}

/// The pieces: all chosen at first.
fn chosen(ui: &Ui<'_>, open: &OpenForm, all: &[(Id, String, bool)]) -> Markup {
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
                            span.what { strong { (mark) } " " (wood_names::shown(&woods_named(ui.model.state(), *id))) }
                            span.tick { @if !left_out { (icon(Icon::Done)) } }
                        }
                    }
                }
            }
            @if let Some(why) = open.errors.of(LEFT_OUT.key) { p.bad role="alert" { (why.spoken()) } }
        }
    }
}

fn save_key(ui: &Ui<'_>, open: &OpenForm, which: PutAway, all: &[(Id, String, bool)]) -> Markup {
    let words = &ui.w.racks;
    let chosen = || all.iter().filter(|(_, _, left_out)| !left_out);
    let laminates = are_laminates(ui.model, chosen().map(|(id, ..)| *id));
    let (of_none, one, other) = match which {
        PutAway::PlanksOfVisit(_) => (
            words.put_on_the_rack,
            words.put_planks_one,
            words.put_planks_other,
        ),
        PutAway::PartsOfCut(_) if laminates => (
            words.set_to_rest,
            words.rest_laminates_one,
            words.rest_laminates_other,
        ),
        PutAway::PartsOfCut(_) => (
            words.set_to_rest,
            words.rest_parts_one,
            words.rest_parts_other,
        ),
        PutAway::GluedBlank(_) => (words.set_to_rest, words.set_to_rest, words.set_to_rest),
    };
    let says = match chosen().count() {
        0 => of_none.to_owned(),
        n => count(n as u64, one, other),
    };
    html! {
        button.key.main.big type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) { (says) }
    }
}
