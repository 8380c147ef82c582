//! The gluing: the glue and whether it brings water, how long it stays clamped, the room, the mark; and how far
//! laminates that are glued together may be off.

use super::in_hand;
use super::matching::count;
use super::{page, row};
use crate::explain::{Asked, figure};
use crate::form::{FormAction, FormId, field_id};
use crate::model::{Model, Texts};
use crate::page::{Layout, Page, Ui};
use crate::parts::{field, notices, task_head, toast};
use crate::words::{Spoken, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::quantity::{in_mm, in_mm2};
use stillwood_core::record::commands::{glue, gluing_limits};
use stillwood_core::record::queries;
use stillwood_core::record::{Form, FormField, Member, Origin, joints_of};

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().blanks;
    let title = match count(model) {
        1 => words.make_one.to_owned(),
        n => fill(words.glue_n, &[("n", &n)]),
    };
    Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, &title, words.glue_below, html! {}))
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", body)
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            let busy = ui.model.form.as_ref().is_none_or(|form| form.busy);
            html! {
                button.key.main.big.wide type="button" disabled[busy] data-press=(ui.press(FormAction::Save)) { (words.record_gluing) }
            }
        })
}

/// Whether something of the gluing itself is typed.
pub fn is_typed(texts: &Texts) -> bool {
    let fields = [
        glue::ADHESIVE,
        glue::BATCH,
        glue::MIX,
        glue::CLAMPED,
        glue::HUMIDITY,
        glue::TEMPERATURE,
    ];
    let typed = |field: &FormField| texts.get(field.key).is_some_and(|text| !text.is_empty());
    fields.iter().any(typed)
}

fn body(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let Some(open) = ui
        .model
        .form
        .as_ref()
        .filter(|form| form.id == FormId::GlueUp)
    else {
        return Markup::default();
    };
    let members = glue::in_hand(&Form::new(&open.texts, ui.model.units()));
    let one_piece = members.len() == 1;
    let offers = |field: &FormField| glues(ui, field.key);
    let draw = |of: &[FormField]| field::fields(ui, open, of, &offers);
    let wrong = [glue::IN_HAND, glue::CHOSEN, glue::COUNT].map(|one| open.errors.of(one.key));
    // The laminates in hand alone are no news: they were matched a moment ago.
    let begun = is_typed(&open.texts);
    html! {
        @if begun { (field::begun(ui, open)) }
        h2 { (words.which_way_round) }
        @if members.is_empty() { p.notice.doubt { (words.none_in_hand) } }
        ol.laminates { @for member in &members { (lies(ui, member)) } }
        @for why in wrong.into_iter().flatten() { p.bad role="alert" { (why.spoken()) } }
        (draw(&[glue::MARK]))
        @if !one_piece {
            h2 { (words.the_glue) }
            (draw(&[glue::ADHESIVE, glue::BATCH, glue::MIX]))
            (joints(ui, &members))
            (water(ui, open.text(glue::WATER.key)))
            @if open.text(glue::WATER.key) == "true" { p.notice.doubt #brings-water { (words.water_caution) } }
            h2 { (words.clamps_and_room) }
            (draw(&[glue::CLAMPED, glue::HUMIDITY, glue::TEMPERATURE]))
        }
        (draw(&[glue::DAY]))
        (cautions(ui, &members, one_piece))
        @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
    }
}

/// A laminate with the colour of its wood, and how it lies.
fn lies(ui: &Ui<'_>, member: &Member) -> Markup {
    let mark = ui
        .model
        .state()
        .piece(member.piece)
        .map_or("", |piece| &piece.mark);
    html! {
        li {
            svg.wood-swatch viewBox="0 0 12 24" aria-hidden="true" {
                rect.wood x="0" y="0" width="12" height="24" rx="2" fill=(row::colour_of(ui.model, member.piece)) {}
            }
            span { strong { (mark) } " " span.below { (page::lies(ui, member)) } }
        }
    }
}

/// How large the joints are: the glue to mix is by their area.
fn joints(ui: &Ui<'_>, members: &[Member]) -> Markup {
    let (words, units) = (&ui.w.blanks, ui.model.units());
    let laminates = members
        .iter()
        .map(|one| in_hand::laminate_of(ui.model, one));
    let laminates: Option<Vec<_>> = laminates.collect();
    let found = laminates.and_then(|laminates| joints_of(&laminates));
    html! {
        @if let Some((joints, derivation)) = found {
            @let shown = show::area(in_mm2(joints.area), units);
            p.below #joints {
                (fill(words.joints_are, &[
                    ("n", &joints.count),
                    ("length", &show::length(in_mm(joints.length), units)),
                    ("width", &show::length(in_mm(joints.width), units)),
                ]))
                " " (figure(ui, words.area_of_joints, &shown, Asked::Known(Box::new(derivation))))
                ". " (words.glue_by_area)
            }
        }
    }
}

/// Whether the glue brings water: not known is an answer.
fn water(ui: &Ui<'_>, text: &str) -> Markup {
    let words = &ui.w.blanks;
    let of = [
        ("false", ui.w.common.no),
        ("true", ui.w.common.yes),
        ("null", words.not_known),
    ];
    html! {
        div.field role="radiogroup" aria-label=(words.does_it_bring_water) id=(field_id(glue::WATER.key)) {
            span.name { (words.does_it_bring_water) }
            div.chips {
                @for (value, name) in of {
                    button.chip type="button" role="radio" aria-checked=((value == text).to_string())
                        data-press=(ui.press(FormAction::Put(glue::WATER.key, value.to_owned()))) { (name) }
                }
            }
        }
    }
}

/// Glues and mixes that were used before, the last first.
fn glues(ui: &Ui<'_>, key: &str) -> Vec<(String, String)> {
    let mut glued: Vec<_> = ui
        .model
        .state()
        .pieces()
        .filter_map(|piece| match &piece.work.origin {
            Origin::GluedFrom { glued, .. } => Some((piece.recorded.on, &glued.adhesive)),
            _ => None,
        })
        .collect();
    order::sort_by_key(&mut glued, |(on, _)| std::cmp::Reverse(*on));
    let mut names: Vec<(String, String)> = Vec::new();
    for (_, glue) in glued {
        let text = match key {
            key if key == glue::ADHESIVE.key => &glue.name,
            key if key == glue::BATCH.key => &glue.batch,
            key if key == glue::MIX.key => &glue.mix,
            _ => continue,
        };
        if !text.is_empty() && !names.iter().any(|(known, _)| known == text) {
            names.push((text.clone(), text.clone()));
        }
    }
    names
}

/// What can hurt between the planer and the clamps, and what is known of the woods in hand.
fn cautions(ui: &Ui<'_>, members: &[Member], one_piece: bool) -> Markup {
    let words = &ui.w.blanks;
    let mut woods: Vec<String> = Vec::new();
    for member in members {
        let piece = ui.model.state().piece(member.piece);
        let wood = piece.and_then(|piece| row::wood_of_piece(ui.model, piece));
        let named = in_hand::laminate_of(ui.model, member).map(|one| one.wood);
        if let (Some(wood), Some(named)) = (wood, named) {
            let said = format!(
                "{}: {}",
                wood_names::shown(&named),
                wood.dust().words().spoken()
            );
            if !woods.contains(&said) {
                woods.push(said);
            }
        }
    }
    html! {
        section.cautions #glue-cautions aria-label=(words.cautions) {
            h2.small { (words.cautions) }
            @if !one_piece {
                @if !queries::moisture_of_laminates_is_read(ui.model.state()) { p { (words.caution_moisture) } }
                p { (words.caution_glue) } p { (words.caution_clamps) }
            }
            p { (words.caution_planing) }
            @for said in woods { p { (said) } }
        }
    }
}

/// How far laminates that are glued together may be off.
pub fn limits_view(model: &Model) -> Page {
    let words = &model.words().blanks;
    let title = words.how_far_off;
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, title, "", html! {}))
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", |ui| {
            let none = |_: &FormField| Vec::new();
            let Some(open) = ui.model.form.as_ref().filter(|form| form.id == FormId::GluingLimits) else {
                return Markup::default();
            };
            html! {
                (field::begun(ui, open))
                p.below { (words.limits_how) }
                (field::fields(ui, open, &gluing_limits::FIELDS, &none))
                button.key.whole type="button" data-press=(ui.press(super::Action::LimitsAsSupplied)) { (words.as_supplied) }
                (field::save_key(ui, open, words.keep_limits))
            }
        })
        .with(model, "toast", "div", toast)
}
