//! Cutting a plank or a piece: the plan drawn first, what comes out of it and how it stands, then what really came
//! off the saw, with its marks, and whether it sprang.

use super::Action;
use super::piece_facts::money;
use super::stock::plain_tile;
use crate::drawings::{PartDrawn, PartStands, cut_from_above, cut_near_end, stretched};
use crate::drawings::{UNDYED, seen_larger};
use crate::effect::Effect;
use crate::explain::{Asked, figure, figure_as};
use crate::form::{self, FormAction, FormId, OpenForm};
use crate::model::{Model, Texts};
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, fields};
use crate::parts::{Icon, icon, sign, task_head, toast};
use crate::words::{Spoken, fill, show, spoken_name};
use maud::{Markup, html};
use std::collections::BTreeMap;
use stillwood_core::neck::{PartRow, PlannedPart, cost_per_part};
use stillwood_core::plank::RingClass;
use stillwood_core::quantity::{Derivation, in_mm};
use stillwood_core::record::commands::cut::{
    self, DAY, FATES, Fate, MARKS, PartOff, SPRANG, SPRANG_OVER,
};
use stillwood_core::record::commands::cut_plan::{self, PlannedCut};
use stillwood_core::record::queries;
use stillwood_core::record::{
    FieldErrors, Form, FormField, Id, Piece, PieceFigure, PieceKind, as_json, explain_plan,
};

/// The plan that stands in the form.
fn planned(model: &Model, open: &OpenForm, id: Id) -> Result<PlannedCut, FieldErrors> {
    let form = Form::new(&open.texts, model.units());
    cut_plan::planned(&form, id, &model.context())
}

fn open_cut(model: &Model) -> Option<(&OpenForm, Id)> {
    let open = model.form.as_ref()?;
    match open.id {
        FormId::Cut(id) => Some((open, id)),
        _ => None,
    }
}

/// How the plan was worked out.
pub fn explain_the_plan(model: &Model) -> Option<Derivation> {
    let (open, id) = open_cut(model)?;
    let planned = planned(model, open, id).ok()?;
    Some(explain_plan(&planned.stock, &planned.cut, &planned.plan))
}

/// How a part of it was worked out.
pub fn explain_a_part(model: &Model, part: usize) -> Option<Derivation> {
    let (open, id) = open_cut(model)?;
    let planned = planned(model, open, id).ok()?;
    let found = planned
        .plan
        .rows
        .iter()
        .flat_map(|row| &row.parts)
        .nth(part)?;
    let on_edge = planned.kind == PieceKind::Laminate;
    let piece = model.state().piece(id)?;
    Some(queries::explain_part(
        model.state(),
        piece,
        found,
        &planned.cut,
        on_edge,
    ))
}

/// The parts of the plan that stands in the form: what became of each, and the marks that were typed.
type PartsTyped = (Vec<Fate>, BTreeMap<usize, String>);

/// What the form holds of the parts of its plan; none where it has none.
fn parts_typed(model: &Model) -> Option<PartsTyped> {
    let (open, id) = open_cut(model)?;
    let planned = planned(model, open, id).ok()?;
    let form = Form::new(&open.texts, model.units());
    Some(cut::off_the_saw(&form, &planned.plan))
}

/// The same as the form keeps it. Both are of one plan: neither is put there without the other.
fn as_kept((fates, marks): &PartsTyped) -> Texts {
    Texts::from([
        (FATES.key.to_owned(), as_json(fates)),
        (MARKS.key.to_owned(), as_json(marks)),
    ])
}

/// What became of a part is another thing.
pub fn next_fate(model: &mut Model, part: usize) -> Vec<Effect> {
    let Some(mut typed) = parts_typed(model) else {
        return Vec::new();
    };
    if let Some(fate) = typed.0.get_mut(part) {
        *fate = match fate {
            Fate::Kept => Fate::Sprang,
            Fate::Sprang => Fate::NotCut,
            Fate::NotCut => Fate::Kept,
        };
    }
    form::typed(model, FATES.key, as_kept(&typed))
}

/// All of it that was cut sprang.
pub fn all_sprang(model: &mut Model) -> Vec<Effect> {
    let Some(mut typed) = parts_typed(model) else {
        return Vec::new();
    };
    for fate in typed.0.iter_mut().filter(|fate| **fate == Fate::Kept) {
        *fate = Fate::Sprang;
    }
    form::typed(model, FATES.key, as_kept(&typed))
}

/// A mark that is typed for a part, as the form keeps it, with what became of the parts of that plan; none for any
/// other text.
pub fn typed_mark(model: &Model, name: &str, text: &str) -> Option<Texts> {
    let part: usize = name
        .strip_prefix(MARKS.key)?
        .strip_prefix('/')?
        .parse()
        .ok()?;
    let mut typed = parts_typed(model)?;
    typed.1.insert(part, text.to_owned());
    Some(as_kept(&typed))
}

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model.state().piece(id)?;
    let words = &model.words().racks;
    let title = fill(words.cut_title, &[("mark", &piece.mark)]);
    let page = Page::new(title.clone(), Layout::Task).with(model, "head", "header", |ui| {
        task_head(
            ui,
            &title,
            &super::piece_facts::in_a_line(ui.model, piece),
            html! {},
        )
    });
    let Some((open, _)) = open_cut(model) else {
        return Some(page.with(
            model,
            "body",
            "main",
            |ui| html! { p.notice { (ui.w.racks.not_to_cut) } (plain_tile(ui.model, piece)) },
        ));
    };
    let planned = planned(model, open, id);
    let page = page
        .with(model, "body", "main", |ui| body(ui, open, piece, &planned))
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            let typed = parts_typed(ui.model);
            let any = typed.is_some_and(|(fates, _)| fates.iter().any(|fate| *fate != Fate::NotCut));
            html! {
                button.key.main.big type="button" disabled[open.busy || !any] data-press=(ui.press(FormAction::Save)) { (ui.w.racks.record_the_cut) }
            }
        });
    Some(page)
}

fn no_offers(_: &FormField) -> Vec<(String, String)> {
    Vec::new()
}

/// The sizes that are asked: those of the kind that is cut.
fn sizes(open: &OpenForm) -> Vec<FormField> {
    let laminate = open.text(cut_plan::KIND.key) == as_json(&PieceKind::Laminate);
    let across = if laminate {
        cut_plan::THICKNESS
    } else {
        cut_plan::PIECE_WIDTH
    };
    let mut all = vec![
        cut_plan::KIND,
        cut_plan::LENGTH,
        across,
        cut_plan::PLANING,
        cut_plan::KERF,
        cut_plan::END_TRIM,
        cut_plan::EDGE_TRIM,
    ];
    if laminate {
        all.push(cut_plan::WANTED);
    }
    all
}

fn body(
    ui: &Ui<'_>,
    open: &OpenForm,
    piece: &Piece,
    planned: &Result<PlannedCut, FieldErrors>,
) -> Markup {
    let words = &ui.w.racks;
    html! {
        (begun(ui, open))
        div.columns {
            div {
                @match planned {
                    Ok(planned) => (drawn(ui, piece, planned)),
                    Err(errors) => @for (_, error) in errors.all() { p.notice.doubt { (error.spoken()) } },
                }
                p.notice.doubt { (words.saw_caution) }
                h2.small { (words.what_is_cut) }
                (fields(ui, open, &sizes(open), &no_offers))
            }
            div {
                @if let Ok(planned) = planned {
                    h2.small { (words.off_the_saw) }
                    p.below { (words.marks_first) }
                    (parts(ui, open, piece, planned))
                }
                (fields(ui, open, &[SPRANG, SPRANG_OVER], &no_offers))
                (advice(ui, open))
                (fields(ui, open, &[DAY], &no_offers))
                @for key in [FATES.key, MARKS.key] {
                    @if let Some(error) = open.errors.of(key) { p.bad role="alert" { (error.spoken()) } }
                }
                @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
            }
        }
    }
}

/// How a part is drawn: only a laminate is chosen by its rings.
fn stands(kind: PieceKind, class: Option<RingClass>) -> (PartStands, &'static str) {
    match (kind, class) {
        (_, None) => (PartStands::Unknown, "?"),
        (PieceKind::Laminate, Some(RingClass::Quartersawn)) => (PartStands::Good, "Q"),
        (PieceKind::Laminate, Some(RingClass::Rift)) => (PartStands::Doubt, "R"),
        (PieceKind::Laminate, Some(RingClass::Flatsawn)) => (PartStands::Bad, "F"),
        (_, Some(_)) => (PartStands::Good, ""),
    }
}

fn kind_count(ui: &Ui<'_>, kind: PieceKind, n: usize) -> String {
    super::line::of_kind(&ui.w.racks, kind, n)
}

fn comes_out(ui: &Ui<'_>, planned: &PlannedCut) -> String {
    let words = &ui.w.racks;
    let n = planned.plan.parts();
    if n == 0 {
        return words.nothing_comes_out.to_owned();
    }
    let ways: Vec<String> = planned
        .counts()
        .into_iter()
        .map(|(class, n)| {
            format!(
                "{n} {}",
                class.map_or(words.rings_not_known, |class| spoken_name(class.name()))
            )
        })
        .collect();
    format!("{}: {}", kind_count(ui, planned.kind, n), ways.join(", "))
}

fn drawn(ui: &Ui<'_>, piece: &Piece, planned: &PlannedCut) -> Markup {
    let words = &ui.w.racks;
    let parts: Vec<PartDrawn> = planned
        .plan
        .rows
        .iter()
        .flat_map(|row| row.parts.iter().map(move |part| (row, part)))
        .map(|(row, part)| {
            let (stands, letter) = stands(planned.kind, planned.stands(part));
            PartDrawn {
                along: (in_mm(row.along.from), in_mm(row.along.to)),
                across: (in_mm(part.across.from), in_mm(part.across.to)),
                stands,
                letter,
            }
        })
        .collect();
    let defects: Vec<(f64, f64)> = planned
        .stock
        .patches
        .iter()
        .map(|patch| (in_mm(patch.along.from), in_mm(patch.along.to)))
        .collect();
    let size = (in_mm(planned.stock.length), in_mm(planned.stock.width));
    let wood = queries::species_of(ui.model.state(), piece)
        .and_then(|wood| queries::wood_of(ui.model.state(), wood));
    let colour = wood
        .as_ref()
        .map_or(UNDYED, |wood| wood.colour())
        .to_owned();
    let out = comes_out(ui, planned);
    let n = planned.plan.parts() as u32;
    let cost = queries::wood_cost(ui.model.state(), piece.id)
        .and_then(|(whole, currency)| Some(money(cost_per_part(whole, n)?, &currency)));
    let by = stretched(size, &parts);
    let unknown = parts.iter().any(|one| one.stands == PartStands::Unknown);
    let laminate = planned.kind == PieceKind::Laminate;
    html! {
        figure.card {
            (cut_from_above(size, &parts, &defects, &colour, &fill(words.from_above, &[("out", &out)])))
            @if let (Some(thickness), true) = (planned.thickness, laminate) {
                (cut_near_end((size.1, in_mm(thickness)), &parts, &colour, words.near_end))
            }
            figcaption {
                p { strong { (figure(ui, words.what_comes_out, &out, Asked::CutPlan)) } }
                @if let Some(cost) = cost { p { (words.wood_for_each) " " (figure(ui, words.wood_for_each, &cost, Asked::Piece(piece.id, PieceFigure::CostEach(n)))) } }
                @if laminate {
                    p.legend {
                        span.good { (sign(crate::parts::Judged::Good)) "Q " (words.quartersawn) }
                        span.doubt { (sign(crate::parts::Judged::Doubt)) "R " (words.rift) }
                        span.bad { (sign(crate::parts::Judged::Bad)) "F " (words.flatsawn) }
                        @if unknown { span.unknown { (sign(crate::parts::Judged::Unknown)) "? " (words.rings_not_known) } }
                    }
                } @else if unknown { p.below { (words.hatched_unknown) } }
                @if let Some(by) = seen_larger(by) { p.below { (fill(words.width_larger, &[("by", &show::decimal(&format!("{by:.1}")))])) } }
            }
        }
    }
}

fn fate_words(ui: &Ui<'_>, fate: Fate) -> &'static str {
    let words = &ui.w.racks;
    match fate {
        Fate::Kept => words.fate_kept,
        Fate::Sprang => words.fate_sprang,
        Fate::NotCut => words.fate_not_cut,
    }
}

/// What comes off as one part: its sizes and its rings, in words.
fn part_in_words(ui: &Ui<'_>, planned: &PlannedCut, row: &PartRow, part: &PlannedPart) -> String {
    let across = Some(in_mm(part.across.to - part.across.from));
    let thickness = planned.thickness.map(in_mm);
    let length = Some(in_mm(row.along.to - row.along.from));
    let sizes = match planned.kind {
        PieceKind::Laminate => [length, thickness, across],
        _ => [length, across, thickness],
    };
    let class = planned.stands(part);
    let rings = class.map_or(ui.w.racks.rings_not_known, |class| {
        spoken_name(class.name())
    });
    format!("{}, {rings}", show::sizes(sizes, ui.model.units()))
}

/// Each part with its mark and what became of it. What parts that come one after the other have in common is said
/// once, above them.
fn parts(ui: &Ui<'_>, open: &OpenForm, piece: &Piece, planned: &PlannedCut) -> Markup {
    let form = Form::new(&open.texts, ui.model.units());
    let off: Vec<PartOff> = cut::parts_off(&form, planned, piece.id, ui.model.state());
    let (fates, _) = cut::off_the_saw(&form, &planned.plan);
    let rows = planned.plan.rows.iter();
    let all = rows.flat_map(|row| row.parts.iter().map(move |part| (row, part)));
    let said = all.map(|(row, part)| part_in_words(ui, planned, row, part));
    let said: Vec<(usize, String)> = said.enumerate().collect();
    html! {
        @for alike in said.chunk_by(|(_, one), (_, other)| one == other) {
            @if let [(first, what), ..] = alike {
                p.alike {
                    @if alike.len() > 1 { (first + 1) "–" (first + alike.len()) ": " } @else { (first + 1) ": " }
                    (what)
                }
            }
            ul.off {
                @for (n, what) in alike {
                    @let fate = fates.get(*n).copied().unwrap_or(Fate::Kept);
                    (part_row(ui, (*n, what), fate, off.iter().find(|one| one.part == *n)))
                }
            }
        }
    }
}

fn part_row(ui: &Ui<'_>, (n, what): (usize, &str), fate: Fate, marked: Option<&PartOff>) -> Markup {
    let words = &ui.w.racks;
    let key = cut::mark_key(n);
    let number = n + 1;
    html! {
        li {
            div.row {
                (figure_as(ui, &fill(words.planned_part, &[("n", &number)]), what, &number.to_string(), Asked::PlannedPart(n)))
                @match marked {
                    Some(one) => {
                        input.mark id=(crate::form::field_id(&key)) name=(key) value=(one.mark) autocomplete="off" aria-label=(fill(words.mark_of_part, &[("n", &number)]))
                            aria-invalid=[one.wrong.is_some().then_some("true")];
                    },
                    None => span.mark.open { (words.fate_not_cut) },
                }
                button.chip type="button" aria-label=(fill(words.change_fate, &[("n", &number), ("fate", &fate_words(ui, fate))]))
                    aria-pressed=((fate != Fate::Kept).to_string()) data-press=(ui.press(Action::NextFate(n))) {
                    @if fate == Fate::Kept { (icon(Icon::Done)) } @else { (icon(Icon::Close)) } (fate_words(ui, fate))
                }
            }
            @if let Some(wrong) = marked.and_then(|one| one.wrong.as_ref()) { p.bad { (wrong.spoken()) } }
        }
    }
}

/// What to do where it sprang too far.
fn advice(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let words = &ui.w.racks;
    let form = Form::new(&open.texts, ui.model.units());
    let beyond = cut::spring_beyond(&form, ui.model.state());
    html! {
        @if let Some(limit) = beyond {
            div.notice.bad role="status" {
                p { (icon(Icon::Warn)) " " (fill(words.sprang_beyond, &[("limit", &show::gap(in_mm(limit), ui.model.units()))])) }
                div.keys { button.key type="button" data-press=(ui.press(Action::AllSprang)) { (words.all_sprang) } }
            }
        }
    }
}
