//! The fields of a form that stands open, drawn by what may be typed in each. What is wrong and what is asked stands
//! at the field.

use crate::drawings::{grain_sign, rings_sign};
use crate::form::{FormAction, FormId, OpenForm, field_id, is_short, names_a_wood};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Icon, icon};
use crate::words::{Spoken, spoken_name, wood_names};
use maud::{Markup, html};
use stillwood_core::plank::{Reason, ReasonGroup, RingTilt, RunoutDirection};
use stillwood_core::record::commands::visit::CURRENCY;
use stillwood_core::record::{FieldKind, FormField, read_as};

/// What a field offers that the record knows: what is kept for each, and what it is called.
pub type Offers<'a> = &'a dyn Fn(&FormField) -> Vec<(String, String)>;

/// A whole form: what was half typed, its fields, and its key. `offers` gives what is offered in fields that the
/// record fills.
pub fn form(ui: &Ui<'_>, offers: Offers<'_>) -> Markup {
    let Some(open) = &ui.model.form else {
        return Markup::default();
    };
    html! {
        div.form {
            (begun(ui, open))
            (fields(ui, open, &open.id.fields(), offers))
            (save_key(ui, open, ui.w.common.save))
        }
    }
}

/// Says that it was half typed before, with a way to start afresh.
pub fn begun(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let words = &ui.w.common;
    html! {
        @if let Some(found) = open.found {
            div.notice role="status" {
                p { (words.half_typed) @if found != ui.model.units() { " " (words.half_typed_units) } }
                div.keys {
                    button.key type="button" data-press=(ui.press(FormAction::Afresh)) { (words.start_afresh) }
                }
            }
        }
    }
}

/// The line of what is wrong with none of the fields, and the key that records the form.
pub fn save_key(ui: &Ui<'_>, open: &OpenForm, name: &str) -> Markup {
    html! {
        @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
        button.key.main.big.whole type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) { (name) }
    }
}

/// Fields, numbers beside each other.
pub fn fields(ui: &Ui<'_>, open: &OpenForm, fields: &[FormField], offers: Offers<'_>) -> Markup {
    let mut drawn = Vec::new();
    let mut beside: Vec<Markup> = Vec::new();
    for one in fields {
        let markup = field(ui, open, one, offers);
        if is_short(one) {
            beside.push(markup);
            continue;
        }
        if !beside.is_empty() {
            drawn.push(pair(&std::mem::take(&mut beside)));
        }
        drawn.push(markup);
    }
    if !beside.is_empty() {
        drawn.push(pair(&beside));
    }
    html! { @for one in &drawn { (one) } }
}

fn pair(fields: &[Markup]) -> Markup {
    html! { div.pair { @for one in fields { (one) } } }
}

/// One field.
pub fn field(ui: &Ui<'_>, open: &OpenForm, field: &FormField, offers: Offers<'_>) -> Markup {
    let label = ui.w.field(field.key).label;
    let text = open.text(field.key);
    let put = |value: String| ui.press(FormAction::Put(field.key, value));
    match field.kind {
        FieldKind::Tick => choice_key(
            ui,
            open,
            field,
            text == "yes",
            put(if text == "yes" {
                String::new()
            } else {
                "yes".to_owned()
            }),
        ),
        FieldKind::Switch => {
            let on = text == "true";
            choice_key(ui, open, field, on, put((!on).to_string()))
        }
        FieldKind::OneOf(names) => radios(ui, open, field, &numbered(ui, names), text),
        FieldKind::Named(names) => {
            let named = |name: &&'static str| (format!("\"{name}\""), ui.w.choice(name).to_owned());
            radios(
                ui,
                open,
                field,
                &names.iter().map(named).collect::<Vec<_>>(),
                text,
            )
        }
        FieldKind::Offered => select(ui, open, field, &offers(field), text),
        FieldKind::Reasons => reasons(ui, open, field),
        FieldKind::Rings => {
            let words = RingTilt::ALL.map(|tilt| (tilt.in_words(), rings_sign(tilt)));
            toggles(ui, open, field, &words, text)
        }
        FieldKind::Grain => {
            let words = RunoutDirection::ALL.map(|way| (way.in_words(), grain_sign(way)));
            toggles(ui, open, field, &words, text)
        }
        FieldKind::Note => html! {
            div.field {
                label for=(field_id(field.key)) { (label) }
                textarea id=(field_id(field.key)) name=(field.key) rows="3" { (text) }
                (below(ui, open, field))
            }
        },
        FieldKind::Gathered => Markup::default(),
        _ => typed(ui, open, field, offers),
    }
}

fn numbered(ui: &Ui<'_>, names: &'static [&'static str]) -> Vec<(String, String)> {
    let one = |(at, name): (usize, &&'static str)| (at.to_string(), ui.w.choice(name).to_owned());
    names.iter().enumerate().map(one).collect()
}

/// The field that names a rack: those that are known are pressed.
const RACK: &str = "Shelf";

/// So many racks stand there to be pressed; the others are found by typing.
const RACKS_AT_ONCE: usize = 8;

/// A field that is typed in, with what is understood of it.
fn typed(ui: &Ui<'_>, open: &OpenForm, field: &FormField, offers: Offers<'_>) -> Markup {
    let text = open.text(field.key);
    let text = match names_a_wood(field) {
        true => wood_names::in_field(text),
        false => text.to_owned(),
    };
    let id = field_id(field.key);
    let wrong = open.errors.of(field.key).is_some();
    let number = field.kind.is_number();
    let offered = if field.kind == FieldKind::Species || field.kind == FieldKind::Words {
        offers(field)
    } else {
        Vec::new()
    };
    let list = (!offered.is_empty()).then(|| format!("{id}-list"));
    html! {
        div.field {
            label for=(id) {
                (ui.w.field(field.key).label)
                @if field.kind == FieldKind::Money { @if let Some(currency) = currency_of(ui.model, open) { ", " (currency) } }
            }
            input id=(id) name=(field.key) value=(text) autocomplete="off" list=[list.as_deref()]
                type=(if field.kind == FieldKind::Day { "date" } else { "text" })
                inputmode=[number.then_some("decimal")] aria-invalid=[wrong.then_some("true")]
                aria-describedby={ (id) "-below" };
            (below(ui, open, field))
            @if let Some(list) = &list {
                datalist id=(list) { @for (value, _) in &offered { option value=(value) {} } }
                @if field.key == RACK {
                    div.chips role="group" aria-label=(ui.w.field(field.key).label) {
                        @for (value, name) in offered.iter().take(RACKS_AT_ONCE) {
                            button.chip type="button" aria-pressed=((value == text.trim()).to_string())
                                data-press=(ui.press(FormAction::Put(field.key, value.clone()))) { (name) }
                        }
                    }
                }
            }
        }
    }
}

/// The currency of the money in a form: as it is typed there, else that of the visit that the pile is of.
fn currency_of<'a>(model: &'a Model, open: &'a OpenForm) -> Option<&'a str> {
    let state = model.state();
    let of_visit = |id| Some(state.visit(id)?.opened.currency.as_str());
    let currency = match open.id {
        FormId::Visit(_) => Some(open.text(CURRENCY.key)),
        FormId::NewPile(visit) => of_visit(visit),
        FormId::EditPile(pile) => of_visit(state.pile(pile)?.opened.visit),
        _ => None,
    };
    currency.filter(|currency| !currency.is_empty())
}

/// What stands below a field: what is wrong, what is asked, what was understood, or the hint.
fn below(ui: &Ui<'_>, open: &OpenForm, field: &FormField) -> Markup {
    let id = field_id(field.key);
    let text = open.text(field.key);
    let read = read_as(field.kind, text, ui.model.units());
    let asked = open.questions.iter().find(|asked| asked.key == field.key);
    // What is read as it stands there is not said twice.
    let shown = read
        .as_ref()
        .ok()
        .and_then(Option::as_ref)
        .map(|(_, shown)| shown.spoken());
    let shown = shown.filter(|shown| shown != text.trim());
    html! {
        div.below id={ (id) "-below" } {
            @if let Some(error) = open.errors.of(field.key) { span.bad role="alert" { (error.spoken()) } }
            @else if let Some(asked) = asked {
                span.doubt { (asked.question.spoken()) }
                button.key type="button" data-press=(ui.press(FormAction::Confirm(asked.key.clone()))) {
                    (ui.w.common.keep_as_typed)
                }
            }
            @else if let Err(error) = &read { span.bad { (error.spoken()) } }
            @else if let Some(shown) = shown { (shown) }
            @else { (ui.w.field(field.key).hint) }
        }
    }
}

fn choice_key(ui: &Ui<'_>, open: &OpenForm, field: &FormField, on: bool, press: String) -> Markup {
    html! {
        div.field {
            button.chip type="button" id=(field_id(field.key)) role="checkbox" aria-checked=(on.to_string()) data-press=(press) {
                @if on { (icon(Icon::Done)) }
                (ui.w.field(field.key).label)
            }
            (below(ui, open, field))
        }
    }
}

fn radios(
    ui: &Ui<'_>,
    open: &OpenForm,
    field: &FormField,
    of: &[(String, String)],
    text: &str,
) -> Markup {
    let choices = html! {
        div.chips {
            @for (value, name) in of {
                button.chip type="button" role="radio" aria-checked=((value == text).to_string())
                    data-press=(ui.press(FormAction::Put(field.key, value.clone()))) { (name) }
            }
        }
    };
    group(ui, open, field, "radiogroup", &choices)
}

/// Several keys that are one field, under its name.
fn group(ui: &Ui<'_>, open: &OpenForm, field: &FormField, role: &str, keys: &Markup) -> Markup {
    let named = ui.w.field(field.key);
    html! {
        div.field role=(role) aria-label=(named.label) id=(field_id(field.key)) {
            span.name { (named.label) @if field.kind == FieldKind::Reasons { ". " (named.hint) } }
            (keys)
            (below(ui, open, field))
        }
    }
}

/// Pictures with their words, of which one is chosen; a second press takes it away.
fn toggles(
    ui: &Ui<'_>,
    open: &OpenForm,
    field: &FormField,
    of: &[(&'static str, Markup)],
    text: &str,
) -> Markup {
    let pictures = html! {
        div.chips {
            @for (words, picture) in of {
                @let put = if *words == text { String::new() } else { (*words).to_owned() };
                button.chip type="button" aria-pressed=((*words == text).to_string())
                    data-press=(ui.press(FormAction::Put(field.key, put))) { (picture) (spoken_name(words)) }
            }
        }
    };
    group(ui, open, field, "group", &pictures)
}

fn select(
    ui: &Ui<'_>,
    open: &OpenForm,
    field: &FormField,
    of: &[(String, String)],
    text: &str,
) -> Markup {
    html! {
        div.field {
            label for=(field_id(field.key)) { (ui.w.field(field.key).label) }
            select id=(field_id(field.key)) name=(field.key) {
                @for (value, name) in of { option value=(value) selected[value == text] { (name) } }
            }
            (below(ui, open, field))
        }
    }
}

/// Why a piece is discarded: what the workshop finds first, all else below.
fn reasons(ui: &Ui<'_>, open: &OpenForm, field: &FormField) -> Markup {
    // nothing lost: a list that this version can't read is one that it did not write
    let chosen: Vec<Reason> = serde_json::from_str(open.text(field.key)).unwrap_or_default();
    let of_the_shop = |reason: &&Reason| {
        matches!(
            reason.group(),
            ReasonGroup::Workshop | ReasonGroup::OwnDoing | ReasonGroup::Shape
        )
    };
    let chip = |reason: Reason| {
        html! {
            button.chip type="button" title=(reason.definition().spoken()) aria-pressed=(chosen.contains(&reason).to_string())
                data-press=(ui.press(FormAction::Reason(field.key, reason))) { (reason.name().spoken()) }
        }
    };
    let others = |reason: &&Reason| !of_the_shop(reason) && reason.group() != ReasonGroup::Commerce;
    let reasons = html! {
        div.chips { @for reason in Reason::ALL.iter().filter(of_the_shop) { (chip(*reason)) } }
        details {
            summary { (ui.w.common.other_reasons) }
            div.chips { @for reason in Reason::ALL.iter().filter(others) { (chip(*reason)) } }
        }
    };
    group(ui, open, field, "group", &reasons)
}
