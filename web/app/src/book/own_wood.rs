//! A wood of the maker's own: whatever is known of it, each number with where it is from. It travels in the record.

use super::parts::choose;
use crate::action::Action as AppAction;
use crate::effect::{AfterRecorded, Effect};
use crate::form::{self, FormAction, FormId, OpenForm};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, field, save_key};
use crate::parts::{Icon, Typed, icon, task_head, toast, typed};
use crate::route::Route;
use crate::words::{Spoken, wood_names};
use maud::{Markup, html};
use stillwood_core::record::commands::{delete, own_wood_form};
use stillwood_core::record::{FormField, Id, as_json};
use stillwood_core::wood::{Dust, OwnNumber, species};

/// Woods of the table offered for what is typed.
const OFFERED: usize = 3;

/// The form opens: a new wood, or one to change.
pub fn opened(model: &mut Model, about: Option<Id>) {
    form::open(model, FormId::OwnWood(about));
}

/// Deletes a wood of the maker's own: its name stays on the planks.
pub fn delete_it(model: &Model, about: Id) -> Vec<Effect> {
    let filled = delete::command(model.state(), about);
    vec![Effect::Record {
        events: filled.events,
        after: AfterRecorded {
            said: model.words().woods.deleted.to_owned(),
            go: Some(Route::Woods),
            ..AfterRecorded::default()
        },
    }]
}

/// The screen.
pub fn view(model: &Model, about: Option<Id>) -> Option<Page> {
    let open = model.form.as_ref()?;
    let words = &model.words().woods;
    let page = Page::new(words.own, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, words.own, "", html! {})
        })
        .with(model, "body", "main", |ui| body(ui, open, about))
        .with(model, "toast", "div", toast);
    Some(page)
}

fn body(ui: &Ui<'_>, open: &OpenForm, about: Option<Id>) -> Markup {
    let words = &ui.w.woods;
    let none = |_: &FormField| Vec::new();
    let dust = |dust: Dust, name| {
        let value = as_json(&dust);
        let key = own_wood_form::DUST.key;
        (
            open.text(key) == value,
            name,
            AppAction::Form(FormAction::Put(key, value)),
        )
    };
    html! {
        (begun(ui, open))
        (field(ui, open, &own_wood_form::NAME, &none))
        @if about.is_none() { (meant(ui, open.text(own_wood_form::NAME.key))) }
        (field(ui, open, &own_wood_form::SCIENTIFIC, &none))
        p.below { (words.may_stay_empty) }
        div.pair { @for number in OwnNumber::ALL { (number_field(ui, open, *number)) } }
        (choose(ui, words.dust, vec![
            dust(Dust::Unknown, words.dust_unknown),
            dust(Dust::General, words.dust_general),
            dust(Dust::Irritant, words.dust_irritant),
            dust(Dust::Sensitiser, words.dust_sensitiser),
        ]))
        (field(ui, open, &own_wood_form::NOTE, &none))
        (save_key(ui, open, words.save))
        @if let Some(about) = about {
            @let ask = AppAction::Ask {
                question: words.delete_question.to_owned(),
                yes: words.delete_yes.to_owned(),
                action: Box::new(AppAction::Book(super::Action::DeleteWood(about))),
            };
            button.key.whole type="button" data-press=(ui.press(ask)) { (icon(Icon::Delete)) (words.delete) }
        }
    }
}

/// Woods of the table that may be meant: they need no wood of one's own.
fn meant(ui: &Ui<'_>, name: &str) -> Markup {
    let found = wood_names::search_woods(species(), name);
    html! {
        @if !found.is_empty() {
            div.field {
                span.name { (ui.w.woods.meant) }
                div.chips {
                    @for (wood, name) in found.iter().take(OFFERED) {
                        button.chip type="button" data-press=(ui.press(AppAction::Book(super::Action::Meant(wood.id().to_owned())))) {
                            (name)
                        }
                    }
                }
            }
        }
    }
}

/// It is in the table: its numbers are shown, and nothing is added.
pub fn is_in_table(model: &mut Model, id: &str) -> Vec<Effect> {
    let said = model.words().woods.in_table;
    let mut effects = vec![Effect::Replace(Route::Woods)];
    effects.extend(super::woods::show(model, id.to_owned()));
    effects.extend(crate::tell::say(model, said));
    effects
}

/// A number, what is understood of it, and where it is from once there is one.
fn number_field(ui: &Ui<'_>, open: &OpenForm, number: OwnNumber) -> Markup {
    let units = ui.model.units();
    let [value, from] = own_wood_form::fields_of(number);
    let text = open.text(value.key);
    let read = (!text.trim().is_empty()).then(|| number.read(text, units));
    let (below, mut error) = match &read {
        None => (number.hint(units).spoken(), String::new()),
        Some(Ok(read)) => (number.shown(read.value, units).spoken(), String::new()),
        Some(Err(why)) => (String::new(), why.spoken()),
    };
    if let Some(wrong) = open.errors.of(value.key) {
        error = wrong.spoken();
    }
    html! {
        (typed(&Typed { name: value.key, label: ui.w.field(value.key).label, value: text, below: &below, error: &error, number: true, ..Typed::default() }))
        @if read.is_some() {
            div.whole-row {
                (typed(&Typed { name: from.key, label: ui.w.field(from.key).label, value: open.text(from.key), ..Typed::default() }))
            }
        }
    }
}
