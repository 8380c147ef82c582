//! The defects of the plank that is being measured, each with its place and a note; and its wood, where that is not as
//! the pile says.

use super::Action as YardAction;
use super::entering::Entering;
use crate::action::Action as Any;
use crate::effect::Effect;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, toast};
use crate::route::Route;
use crate::words::{Spoken, fill, wood_names};
use maud::{Markup, html};
use stillwood_core::plank::{DefectKind, Field, Seen, Understood, understand};
use stillwood_core::record::{DraftDefect, queries};
use stillwood_core::wood::species;

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Show the defects, or go back to measuring.
    Show(bool),
    /// Add a defect.
    Add(DefectKind),
    /// Take one away, by its place in the list.
    Remove(usize),
    /// The wood is this one.
    Wood(String),
}

impl From<Action> for Any {
    fn from(action: Action) -> Self {
        Any::Yard(YardAction::Defects(action))
    }
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    if let Action::Show(show) = action {
        model.yard.defects = show;
        return vec![Effect::Focus("title".to_owned())];
    }
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    match action {
        Action::Show(_) => {}
        Action::Add(kind) => entering.draft.defects.push(DraftDefect {
            kind,
            from: String::new(),
            to: String::new(),
            note: String::new(),
        }),
        Action::Remove(at) => {
            if at < entering.draft.defects.len() {
                entering.draft.defects.remove(at);
            }
        }
        Action::Wood(name) => entering.draft.species = wood_names::as_recorded(&name),
    }
    super::kept::keep_entering(model)
}

/// Something typed into a field of this screen; false where it is none of its fields.
pub fn typed(model: &mut Model, name: &str, text: &str) -> bool {
    let Some(entering) = &mut model.yard.entering else {
        return false;
    };
    if name == "own-wood" {
        entering.draft.species = wood_names::as_recorded(text);
        return true;
    }
    let Some((field, at)) = name.rsplit_once('-') else {
        return false;
    };
    let defect = at
        .parse()
        .ok()
        .and_then(|at: usize| entering.draft.defects.get_mut(at));
    match (field, defect) {
        ("defect-from", Some(defect)) => defect.from = text.to_owned(),
        ("defect-to", Some(defect)) => defect.to = text.to_owned(),
        ("defect-note", Some(defect)) => defect.note = text.to_owned(),
        _ => return false,
    }
    true
}

/// The screen.
pub fn view(model: &Model, entering: &Entering) -> Page {
    let mark = &entering.draft.mark;
    Page::new(mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            html! {
                button.key.quiet.back type="button" data-press=(ui.press(Action::Show(false))) aria-label=(ui.w.common.back) {
                    (icon(Icon::Back))
                }
                div.titles { h1 #title tabindex="-1" { (mark) } p.below { (ui.w.planks.defects_and_wood) } }
            }
        })
        .with(model, "body", "main", |ui| body(ui, entering))
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            html! {
                button.key.main.big.wide type="button" data-press=(ui.press(Action::Show(false))) { (ui.w.planks.measure_on) }
            }
        })
}

fn body(ui: &Ui<'_>, entering: &Entering) -> Markup {
    let words = &ui.w.planks;
    html! {
        @for (at, defect) in entering.draft.defects.iter().enumerate() { (one(ui, at, defect)) }
        h2 { (ui.w.yard.add_defect) }
        div.chips role="group" aria-label=(ui.w.yard.add_defect) {
            @for kind in DefectKind::ALL {
                button.chip type="button" title=(kind.definition().spoken()) data-press=(ui.press(Action::Add(*kind))) { (kind.name().spoken()) }
            }
        }
        h2 { (words.wood) }
        (wood(ui, entering))
    }
}

fn one(ui: &Ui<'_>, at: usize, defect: &DraftDefect) -> Markup {
    let words = &ui.w.planks;
    let place = |name: &str, label: &str, text: &str| {
        let id = format!("{name}-{at}");
        let understood = understand(Field::BowKink, text, Seen::Measured, true, ui.model.units());
        let (class, said) = match &understood {
            Understood::Empty => ("below", String::new()),
            Understood::Unreadable(why) => ("below bad", why.spoken()),
            Understood::Read { shown, other, .. } => ("below", {
                format!("{} · {}", shown.spoken(), other.spoken())
            }),
        };
        html! {
            div.field {
                label for=(id) { (label) }
                input id=(id) name=(id) value=(text) inputmode="decimal" autocomplete="off";
                span class=(class) { (said) }
            }
        }
    };
    html! {
        section.card aria-label=(defect.kind.name().spoken()) {
            p.row {
                strong { (defect.kind.name().spoken()) }
                button.key.quiet type="button" data-press=(ui.press(Action::Remove(at)))
                    aria-label=(fill(words.remove_defect, &[("defect", &defect.kind.name().spoken())])) { (icon(Icon::Delete)) }
            }
            p.below { (defect.kind.definition().spoken()) }
            div.pair {
                (place("defect-from", words.from_near_end, &defect.from))
                (place("defect-to", words.to, &defect.to))
            }
            div.field {
                @let id = format!("defect-note-{at}");
                label for=(id) { (ui.w.yard.note) }
                input id=(id) name=(id) value=(defect.note) autocomplete="off";
            }
        }
    }
}

fn wood(ui: &Ui<'_>, entering: &Entering) -> Markup {
    let words = &ui.w.planks;
    let typed = &entering.draft.species;
    let own = queries::own_woods(ui.model.state());
    let found = wood_names::search_woods(species().iter().chain(&own), typed);
    let names: Vec<&str> = found.iter().take(4).map(|(wood, _)| wood.name()).collect();
    let offered = !typed.is_empty() && !names.contains(&typed.as_str());
    html! {
        div.field {
            label for="own-wood" { (fill(words.wood_of_plank, &[("wood", &wood_names::shown(&entering.species.text))])) }
            input id="own-wood" name="own-wood" value=(wood_names::in_field(typed)) autocomplete="off";
        }
        @if offered {
            div.chips {
                @for name in names {
                    button.chip type="button" data-press=(ui.press(Action::Wood(name.to_owned()))) { (wood_names::in_field(name)) }
                }
            }
        }
        (super::frame::key(ui, words.add_own_wood, Route::NewWood))
    }
}
