//! Sizes and limits of a visit, and the blanks needed.

use super::named::{day_of, visit_here};
use crate::form::{FormAction, OpenForm};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, field, fields, save_key};
use crate::parts::{task_head, toast};
use crate::words::{Spoken, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::plank::DefectKind;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::commands::{save_target, spec, spec_criteria};
use stillwood_core::record::{
    Form as FormTexts, FormField, Id, SpeciesNamed, Visit, as_json, queries,
};
use stillwood_core::verdict::{Criterion, Form, Spec};

/// Sizes and limits.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let visit = visit_here(model, id)?;
    let title = model.words().planks.sizes_and_limits;
    let page = Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, &visit.opened.yard, html! {})
        })
        .with(model, "body", "main", |ui| body(ui, visit))
        .with(model, "toast", "div", toast);
    Some(page)
}

fn body(ui: &Ui<'_>, visit: &Visit) -> Markup {
    let before = &visit.opened.spec;
    let Some(open) = &ui.model.form else {
        return html! {};
    };
    let words = &ui.w.planks;
    let some = |of: &[FormField]| fields(ui, open, of, &|_| Vec::new());
    let piece_first = open.text(spec::PIECE_FIRST.key) == "true";
    html! {
        div.form {
            p.below { (words.limits_are_yours) }
            (begun(ui, open))
            (some(&[spec::NAME]))
            h2 { (words.the_part) }
            div.pair { (some(&[spec::LENGTH, spec::WIDTH, spec::THICKNESS, spec::PER_BLANK])) }
            (some(&[spec::LAID, spec::PIECE_FIRST]))
            @if piece_first { div.pair { (some(&[spec::PIECE_WIDTH])) } }
            h2 { (words.limits) }
            @for criterion in Criterion::ALL { (criterion_fields(ui, open, *criterion, before)) }
            h2 { (words.fatal_defects) }
            (fatal(ui, open))
            h2 { (words.work_and_yield) }
            div.pair {
                (some(&[spec::WANTED, spec::YIELD, spec::KERF, spec::PLANING, spec::END_TRIM, spec::EDGE_TRIM]))
            }
            (target_counts(ui, visit.id))
            (some(&[spec::ORDER]))
            (save_key(ui, open, ui.w.common.save))
        }
    }
}

/// Says so where the visit buys for a target, and not for the blanks that stand in its field.
fn target_counts(ui: &Ui<'_>, visit: Id) -> Markup {
    let target = queries::target_of_visit(ui.model.state(), visit);
    html! {
        @if let Some((target, Some(day))) = target {
            p.below {
                (fill(ui.w.planks.target_counts, &[
                    ("field", &ui.w.field(spec::WANTED.key).label),
                    ("day", &day_of(ui.model, day)),
                    ("n", &target.blanks),
                ]))
            }
        }
    }
}

fn criterion_fields(ui: &Ui<'_>, open: &OpenForm, criterion: Criterion, before: &Spec) -> Markup {
    let (on, numbers) = spec_criteria::fields_of(criterion);
    let asked = open.text(on.key) == "true";
    let follows = criterion == Criterion::Straightness && open.text(spec::FOLLOWS.key) == "true";
    let names: &[&'static str] = match (spec_criteria::start_form(before, criterion), criterion) {
        (_, Criterion::GrainSlope) => &["good from 1 in", "reject below 1 in"],
        (Form::AtMost { .. }, _) => &["good to", "reject above"],
        (Form::AtLeast { .. }, _) => &["good from", "reject below"],
        (Form::Within { .. }, _) => &["reject below", "good from", "good to", "reject above"],
    };
    html! {
        div.card {
            div.chips {
                (field(ui, open, &on, &|_| Vec::new()))
                @if asked && criterion == Criterion::Straightness { (field(ui, open, &spec::FOLLOWS, &|_| Vec::new())) }
            }
            @if asked {
                @if follows && criterion == Criterion::Straightness {
                    @if let Some(needed) = spec::slab_needed(&FormTexts::new(&open.texts, ui.model.units())) {
                        p.below { (of_slab(ui, needed)) }
                    }
                }
                @if !follows {
                    div.pair {
                        @for (one, name) in numbers.iter().zip(names) { (number(ui, open, one, name, criterion)) }
                    }
                }
            }
        }
    }
}

/// The limits that follow from the size of the part, in words.
fn of_slab(ui: &Ui<'_>, needed: f64) -> String {
    let shown = |mm: f64| show::length(mm, Units::Metric);
    match Form::of_slab(needed) {
        Form::AtLeast { target, limit } => fill(
            ui.w.planks.limits_of_size,
            &[("limit", &shown(limit)), ("target", &shown(target))],
        ),
        _ => String::new(),
    }
}

/// The unit that the numbers of a criterion have in the form.
fn unit(criterion: Criterion) -> &'static str {
    match criterion {
        Criterion::Straightness | Criterion::Crook => "mm",
        Criterion::Density => "kg/m³",
        Criterion::GrainSlope => "",
        Criterion::RingAngle => "°",
        Criterion::Moisture => "%",
        Criterion::Size => "",
    }
}

/// A number of a criterion; its stored name says nothing to a maker.
fn number(
    ui: &Ui<'_>,
    open: &OpenForm,
    one: &FormField,
    name: &'static str,
    criterion: Criterion,
) -> Markup {
    let id = crate::form::field_id(one.key);
    let label = format!("{}, {}", ui.w.choice(name), unit(criterion));
    let error = open.errors.of(one.key);
    html! {
        div.field {
            label for=(id) { (label.trim_end_matches(", ")) }
            input id=(id) name=(one.key) value=(open.text(one.key)) inputmode="decimal" autocomplete="off"
                aria-invalid=[error.as_ref().map(|_| "true")];
            @if let Some(error) = error { span.below.bad role="alert" { (error.spoken()) } }
        }
    }
}

/// The defects that refuse a plank, whatever else it is.
fn fatal(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    // nothing lost: a list that this version can't read is one that it did not write
    let chosen: Vec<DefectKind> =
        serde_json::from_str(open.text(spec::FATAL.key)).unwrap_or_default();
    let toggled = |kind: DefectKind| {
        let mut next = chosen.clone();
        match next.iter().position(|one| *one == kind) {
            Some(at) => drop(next.remove(at)),
            None => next.push(kind),
        }
        ui.press(FormAction::Put(spec::FATAL.key, as_json(&next)))
    };
    html! {
        div.chips role="group" aria-label=(ui.w.planks.fatal_defects) {
            @for kind in DefectKind::ALL {
                button.chip type="button" title=(kind.definition().spoken()) aria-pressed=(chosen.contains(kind).to_string())
                    data-press=(toggled(*kind)) { (kind.name().spoken()) }
            }
        }
    }
}

/// The blanks needed of a visit.
pub fn target(model: &Model, id: Id) -> Option<Page> {
    let visit = visit_here(model, id)?;
    let title = model.words().planks.blanks_needed;
    let offers = |ui: &Ui<'_>, one: &FormField| match one.key {
        key if key == save_target::HOW_SURE.key => save_target::SURE
            .iter()
            .map(|percent| (as_json(percent), format!("{percent} %")))
            .collect(),
        key if key == save_target::WOOD.key => {
            let open = ui.model.form.as_ref();
            let woods = open.map_or_else(Vec::new, |open| {
                save_target::woods(
                    &FormTexts::new(&open.texts, ui.model.units()),
                    ui.model.state(),
                )
            });
            let any = (
                as_json(&None::<SpeciesNamed>),
                ui.w.planks.any_wood.to_owned(),
            );
            let woods = woods
                .into_iter()
                .map(|wood| (as_json(&wood), wood_names::shown(&wood.text)));
            std::iter::once(any).chain(woods).collect()
        }
        _ => Vec::new(),
    };
    let page = Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, &visit.opened.yard, html! {})
        })
        .with(model, "body", "main", |ui| {
            html! {
                @if let Some(open) = &ui.model.form {
                    div.form {
                        (begun(ui, open))
                        (fields(ui, open, &save_target::FIELDS, &|one| offers(ui, one)))
                        (save_key(ui, open, ui.w.planks.save_as_target))
                    }
                }
            }
        })
        .with(model, "toast", "div", toast);
    Some(page)
}
