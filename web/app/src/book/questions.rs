//! Quick questions without a plank: one is open at a time, its answer follows every key, and each figure tells how it
//! was worked out.

use super::parts::{choose, screen};
use crate::effect::Effect;
use crate::explain::{Asked, figure};
use crate::model::{Model, Texts};
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, Typed, icon, typed as field};
use crate::words::{Spoken, fill, spoken_name, wood_names};
use maud::{Markup, html};
use std::collections::BTreeMap;
use stillwood_core::record::queries;
use stillwood_core::record::queries::quick_questions::{
    Answer, Input, InputKind, QUESTIONS, Question, Reply, Understanding, Way,
};
use stillwood_core::wood::{Species, species};

/// What is asked.
#[derive(Debug, Default)]
pub struct Asking {
    /// The question that is open.
    pub open: Option<usize>,
    /// The way chosen of each question.
    ways: BTreeMap<usize, usize>,
    /// What is typed, by the labels: it stays when another question is opened.
    texts: Texts,
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Open a question, or close it.
    Open(usize),
    /// Ask it another way.
    Way(usize, usize),
}

/// The text in which the wood is named.
const WOOD: &str = "wood";

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    let asking = &mut model.book.questions;
    match action {
        Action::Open(at) if asking.open == Some(at) && !model.shell.wide => {
            asking.open = None;
            Vec::new()
        }
        Action::Open(at) => {
            asking.open = Some(at);
            vec![Effect::ScrollTo(format!("question-{at}"))]
        }
        Action::Way(at, way) => {
            asking.ways.insert(at, way);
            Vec::new()
        }
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    let text = match name {
        WOOD => wood_names::as_recorded(&text),
        _ => text,
    };
    model.book.questions.texts.insert(name.to_owned(), text);
    Vec::new()
}

/// What stands in a field.
fn text<'a>(model: &'a Model, input: &Input) -> &'a str {
    let name = if input.kind == InputKind::Wood {
        WOOD
    } else {
        input.label
    };
    model
        .book
        .questions
        .texts
        .get(name)
        .map_or(input.begins, String::as_str)
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().book;
    let mut page = screen(model, words.questions, "");
    if model.shell.wide {
        page.layout = Layout::ListAndPane;
        page = page.with(model, "body", "main", |ui| list(ui, false));
        return page.with(model, "pane", "aside", |ui| match open(model) {
            Some((at, question)) => html! {
                h2 { (question.asks.spoken()) }
                (opened(ui, at, question))
            },
            None => html! { p.below { (ui.w.book.pick_question) } },
        });
    }
    page.with(model, "body", "main", |ui| list(ui, true))
}

fn open(model: &Model) -> Option<(usize, &'static Question)> {
    let at = model.book.questions.open?;
    Some((at, QUESTIONS.get(at)?))
}

/// The questions; on a narrow screen the open one stands in its place.
fn list(ui: &Ui<'_>, in_place: bool) -> Markup {
    let words = &ui.w.book;
    let open = ui.model.book.questions.open;
    html! {
        p.below { (words.questions_hint) }
        ul.list.spaced {
            @for (at, question) in QUESTIONS.iter().enumerate() {
                @let is_open = open == Some(at);
                li id={ "question-" (at) } {
                    button.item type="button" aria-expanded=(is_open.to_string()) aria-current=[is_open.then_some("true")]
                        data-press=(ui.press(Action::Open(at)))
                    {
                        span.what { strong { (question.asks.spoken()) } }
                        (icon(if is_open && in_place { Icon::Close } else { Icon::Forward }))
                    }
                    @if is_open && in_place { div.inside { (opened(ui, at, question)) } }
                }
            }
        }
    }
}

/// The question that is open.
fn opened(ui: &Ui<'_>, at: usize, question: &'static Question) -> Markup {
    let words = &ui.w.book;
    let chosen = ui.model.book.questions.ways.get(&at).copied().unwrap_or(0);
    let Some(way) = question.ways.get(chosen).or(question.ways.first()) else {
        return Markup::default();
    };
    let ways = question.ways.iter().enumerate();
    let ways = ways.map(|(n, one)| {
        (
            n == chosen,
            spoken_name(one.name),
            Action::Way(at, n).into(),
        )
    });
    html! {
        @if question.ways.len() > 1 { (choose(ui, words.question_way, ways.collect())) }
        div.pair {
            @for input in way.inputs.iter().filter(|input| input.kind != InputKind::Wood) { (one_field(ui, input)) }
        }
        @for input in way.inputs.iter().filter(|input| input.kind == InputKind::Wood) { (wood_field(ui, input)) }
        div #answer.answer role="status" { (answer(ui, way)) }
    }
}

fn one_field(ui: &Ui<'_>, input: &'static Input) -> Markup {
    let value = text(ui.model, input);
    let (below, error) = match input.understand(value, ui.model.units()) {
        Understanding::Read(shown) if shown.spoken() == value.trim() => {
            (String::new(), String::new())
        }
        Understanding::Read(shown) => (shown.spoken(), String::new()),
        Understanding::Empty if !input.needed => {
            (ui.w.book.may_stay_empty.to_owned(), String::new())
        }
        Understanding::Empty => (String::new(), String::new()),
        Understanding::Unreadable(why) => (String::new(), why.spoken()),
    };
    field(&Typed {
        name: input.label,
        label: &input.label.spoken(),
        value,
        below: &below,
        error: &error,
        number: true,
        ..Typed::default()
    })
}

/// The wood that is named: of the table, or the maker's own.
fn wood_named(model: &Model, input: &Input) -> Option<Species> {
    let named = queries::wood_named(model.state(), text(model, input))?;
    queries::wood(model.state(), named.id.as_deref()?)
}

fn wood_field(ui: &Ui<'_>, input: &'static Input) -> Markup {
    let value = wood_names::in_field(text(ui.model, input));
    let found = wood_named(ui.model, input);
    let own = queries::own_woods(ui.model.state());
    let names: Vec<&str> = own
        .iter()
        .chain(species())
        .map(wood_names::wood_name)
        .collect();
    let unknown = found.is_none() && !value.trim().is_empty();
    field(&Typed {
        name: WOOD,
        label: ui.w.book.wood,
        value: &value,
        below: found.as_ref().map_or("", Species::scientific_name),
        error: if unknown { ui.w.book.wood_unknown } else { "" },
        offered: &names,
        ..Typed::default()
    })
}

fn answer(ui: &Ui<'_>, way: &'static Way) -> Markup {
    let words = &ui.w.book;
    let typed: Vec<(&'static str, String)> = way
        .inputs
        .iter()
        .map(|input| (input.label, text(ui.model, input).to_owned()))
        .collect();
    let wood = way
        .inputs
        .iter()
        .find(|input| input.kind == InputKind::Wood);
    let wood = wood.and_then(|input| wood_named(ui.model, input));
    match way.reply(&typed, wood.as_ref(), ui.model.units()) {
        Reply::Wants(labels) => {
            html! { p.below { (fill(words.still_to_type, &[("what", &labels.iter().map(|label| label.spoken()).collect::<Vec<_>>().join(", "))])) } }
        }
        Reply::Cannot(why) => html! { p.bad { (why.spoken()) } },
        Reply::Answer(answer) => answered(ui, &answer),
    }
}

/// The figures, the one asked for large.
fn answered(ui: &Ui<'_>, answer: &Answer) -> Markup {
    let asked = |one: &queries::quick_questions::Figure| {
        Asked::Known(Box::new(one.working(answer).clone()))
    };
    html! {
        @if let Some((first, others)) = answer.figures.split_first() {
            p.name { (first.name.spoken()) }
            p.large { (figure(ui, &first.name.spoken(), &first.value.spoken(), asked(first))) }
            dl.facts {
                @for one in others { dt { (one.name.spoken()) } dd { (figure(ui, &one.name.spoken(), &one.value.spoken(), asked(one))) } }
            }
        }
        p.below { (answer.basis.spoken()) }
    }
}
