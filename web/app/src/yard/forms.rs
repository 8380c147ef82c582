//! The forms of a visit and of a pile.

use super::named::{Deletable, pile_here, spec_names, visit_here};
use super::recorded::ask_to_delete;
use crate::form::{self, FormAction, FormId, OpenForm};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, fields, save_key};
use crate::parts::{Icon, icon, task_head, toast};
use crate::route::Route;
use crate::words::wood_names;
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::record::commands::{pile, tally_rule, visit};
use stillwood_core::record::{DAY, FieldKind, Form, FormField, Id, as_json, queries};
use stillwood_core::verdict::Spec;
use stillwood_core::wood::species;

/// So many woods are offered at once.
const OFFERED: usize = 6;

/// How the yard bills.
const RULE: [FormField; 5] = [
    tally_rule::MEASURE,
    tally_rule::THICKNESS,
    tally_rule::WIDTH,
    tally_rule::LENGTH,
    tally_rule::ADDED,
];

/// Opens the form of a new visit on the terms of the last one, its yard among them.
pub fn open_visit(model: &mut Model) {
    form::open(model, FormId::Visit(None));
    let last = model.state().last_visit();
    if let Some(yard) = last.map(|visit| visit.opened.yard.clone()) {
        form::begin_with(model, visit::YARD.key, yard);
    }
}

/// What the record offers in a field.
fn offers(ui: &Ui<'_>, open: &OpenForm, field: &FormField) -> Vec<(String, String)> {
    let state = ui.model.state();
    match field.key {
        key if key == visit::SPEC.key => {
            let mut specs = queries::specs_on_offer(state);
            // What was chosen stays, whatever is on offer by now.
            let form = Form::new(&open.texts, ui.model.units());
            let chosen = visit::spec_chosen(&form, state);
            specs.extend(chosen.clone().filter(|chosen| !specs.contains(chosen)));
            let value = |spec: &Spec| match chosen.as_ref() == Some(spec) {
                true => open.text(field.key).to_owned(),
                false => as_json(spec),
            };
            let names = spec_names(ui.model, &specs);
            specs.iter().map(value).zip(names).collect()
        }
        key if key == visit::YARD.key => {
            let yards = order::set_of(state.visits().map(|visit| visit.opened.yard.as_str()));
            yards
                .into_iter()
                .map(|yard| (yard.to_owned(), yard.to_owned()))
                .collect()
        }
        _ => Vec::new(),
    }
}

fn some(ui: &Ui<'_>, open: &OpenForm, of: &[FormField]) -> Markup {
    fields(ui, open, of, &|field| offers(ui, open, field))
}

fn screen(
    model: &Model,
    title: &str,
    below: &str,
    deletes: Option<Deletable>,
    draw: impl FnOnce(&Ui<'_>, &OpenForm) -> Markup,
) -> Page {
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, below, html! {})
        })
        .with(model, "body", "main", |ui| {
            html! {
                @if let Some(open) = &model.form {
                    div.form {
                        (begun(ui, open))
                        (draw(ui, open))
                        (save_key(ui, open, ui.w.common.save))
                    }
                }
                @if let Some(what) = deletes { div.keys.last { (delete_key(ui, what)) } }
            }
        })
        .with(model, "toast", "div", toast)
}

/// The key that deletes something, after it has asked.
pub fn delete_key(ui: &Ui<'_>, what: Deletable) -> Markup {
    let words = &ui.w.planks;
    let name = match what {
        Deletable::Visit(_) => words.delete_visit,
        Deletable::Pile(_) => words.delete_pile,
        Deletable::Plank(_) => words.delete_plank,
    };
    html! {
        @if let Some(ask) = ask_to_delete(ui.model, what) {
            button.key.quiet type="button" data-press=(ui.press(ask)) { (icon(Icon::Delete)) (name) }
        }
    }
}

fn visit_fields(ui: &Ui<'_>, open: &OpenForm, is_new: bool) -> Markup {
    let words = &ui.w.planks;
    html! {
        (some(ui, open, &[visit::YARD, DAY]))
        @if is_new { (some(ui, open, &[visit::SPEC])) }
        h2 { (words.money_of_visit) }
        (some(ui, open, &[visit::BUDGET, visit::TAX, visit::DISCOUNT]))
        (some(ui, open, &[visit::CURRENCY, visit::BASIS, visit::WITH_TAX]))
        (rule(ui, open))
        (some(ui, open, &[visit::NOTE]))
    }
}

/// How the yard bills, folded away: a yard bills as it did the last time. What holds stands in its line, and it opens
/// where something in it is wrong.
fn rule(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let chosen = RULE.iter().filter_map(|field| in_a_line(ui, open, field));
    let chosen = chosen.collect::<Vec<_>>().join(" · ");
    let wrong = RULE.iter().any(|field| open.errors.of(field.key).is_some());
    html! {
        details.folded open[wrong] data-open[wrong] {
            summary { span { strong { (ui.w.planks.how_it_bills) } span.below { (chosen) } } }
            (some(ui, open, &RULE))
        }
    }
}

/// What stands in a field, with its name; nothing for an empty one.
fn in_a_line(ui: &Ui<'_>, open: &OpenForm, field: &FormField) -> Option<String> {
    let text = open.text(field.key);
    let shown = match field.kind {
        FieldKind::Named(names) => {
            let name = names.iter().find(|name| as_json(name) == text)?;
            ui.w.choice(name).to_owned()
        }
        _ => text.to_owned(),
    };
    (!shown.is_empty()).then(|| format!("{}: {shown}", ui.w.field(field.key).label))
}

/// A new visit.
pub fn new_visit(model: &Model) -> Page {
    screen(
        model,
        model.words().planks.start_a_visit,
        "",
        None,
        |ui, open| visit_fields(ui, open, true),
    )
}

/// A visit to change.
pub fn edit_visit(model: &Model, id: Id) -> Option<Page> {
    let visit = visit_here(model, id)?;
    let title = model.words().planks.change_visit;
    let what = Some(Deletable::Visit(id));
    Some(screen(
        model,
        title,
        &visit.opened.yard,
        what,
        |ui, open| visit_fields(ui, open, false),
    ))
}

fn pile_fields(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let words = &ui.w.planks;
    let has_rule = open.text(pile::HAS_RULE.key) == "true";
    html! {
        (some(ui, open, &[pile::WOOD]))
        (woods(ui, open))
        (some(ui, open, &[pile::NOMINAL, pile::PRICE, pile::BASIS, pile::MOISTURE, pile::WOOD_TEMPERATURE, pile::NAME, pile::INVOICE, pile::COUNTRY]))
        h2 { (words.how_it_bills) }
        (some(ui, open, &[pile::HAS_RULE]))
        @if has_rule { (some(ui, open, &RULE)) }
    }
}

/// Woods that what is typed may mean.
fn woods(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let typed = open.text(pile::WOOD.key);
    let own = queries::own_woods(ui.model.state());
    let found = wood_names::search_woods(species().iter().chain(&own), typed);
    let names: Vec<&str> = found
        .iter()
        .take(OFFERED)
        .map(|(wood, _)| wood.name())
        .collect();
    html! {
        @if !names.contains(&typed) {
            div.chips role="group" aria-label=(ui.w.planks.woods_offered) {
                @for name in &names {
                    button.chip type="button" data-press=(ui.press(FormAction::Put(pile::WOOD.key, (*name).to_owned()))) { (wood_names::in_field(name)) }
                }
            }
        }
        @if !typed.is_empty() && !names.contains(&typed) {
            button.key.quiet type="button" data-press=(ui.press(Route::NewWood)) { (ui.w.planks.add_own_wood) }
        }
    }
}

/// A new pile of a visit.
pub fn new_pile(model: &Model, id: Id) -> Option<Page> {
    let visit = visit_here(model, id)?;
    Some(screen(
        model,
        model.words().planks.new_pile,
        &visit.opened.yard,
        None,
        pile_fields,
    ))
}

/// A pile to change.
pub fn edit_pile(model: &Model, id: Id) -> Option<Page> {
    let pile = pile_here(model, id)?;
    let title = super::named::pile_title(pile);
    let what = Some(Deletable::Pile(id));
    Some(screen(
        model,
        model.words().yard.change_pile,
        &title,
        what,
        pile_fields,
    ))
}
