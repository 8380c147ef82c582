//! A plank's whole sheet: what it is good for, what was read, what it costs, what happened to it, and what can be done
//! with it.

use super::amounts::{decided, money, volume};
use super::drawn::{Views, end_said, not_to_scale};
use super::figures::figures;
use super::forms::delete_key;
use super::frame::{facts, head_key, key};
use super::laid::laid;
use super::named::{Deletable, day_of, name_of};
use super::recorded::{Action, half_typed_note};
use super::verdict::{PlankSoFar, gauges, scored, standing_of};
use super::{reasons as chips, table};
use crate::action::Action as Any;
use crate::drawings::{PlankDrawn, edge_view, end_view};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, capital, history_line, icon, task_head, toast};
use crate::route::Route;
use crate::words::workshop::reasons;
use crate::words::{Spoken, fill, show, wood_names};
use maud::{Markup, html};
use std::fmt::Display;
use stillwood_core::neck::cost_per_part;
use stillwood_core::plank::{Field, Seen, not_looked_at};
use stillwood_core::quantity::in_kg_per_m3;
use stillwood_core::record::queries::own_readings;
use stillwood_core::record::{Decision, Id, Piece, PlankFigure, queries};
use stillwood_core::trade::tally_visit;
use stillwood_core::verdict::{Criterion, Number, Spec};
use stillwood_core::wood::Species;

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model.state().piece(id)?;
    if let Some((judging, chosen)) = &model.yard.judging
        && *judging == id
    {
        return Some(rejecting(model, piece, chosen));
    }
    let keys = |ui: &Ui<'_>| {
        html! {
            (head_key(ui, ui.w.planks.print, Icon::Print, Any::Print))
            button.key.quiet type="button" data-press=(ui.press(Route::Mark(id))) aria-label=(ui.w.yard.chalk_this) { (icon(Icon::Label)) }
        }
    };
    let page = Page::new(piece.mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &piece.mark, &origin(model, piece), keys(ui))
        })
        .with(
            model,
            "body",
            "main",
            |ui| html! { div.sheet-of-plank { (sheet(ui, piece)) } },
        )
        .with(model, "toast", "div", toast);
    Some(match piece.withdrawn {
        true => page,
        false => page.with(model, "foot", "footer", |ui| next_keys(ui, piece)),
    })
}

/// The plank beside a list, on a wide screen.
pub fn beside(model: &Model, page: Page, id: Id) -> Page {
    let Some(piece) = model.state().piece(id) else {
        return page;
    };
    if let Some((judging, chosen)) = &model.yard.judging
        && *judging == id
    {
        return page.with(model, "pane", "aside", |ui| {
            html! {
                h2 { (piece.mark) }
                p.below { (ui.w.yard.why_rejected) }
                (chips::all_reasons(ui, chosen))
                div.keys.last {
                    (key(ui, ui.w.common.cancel, Action::NotRejecting))
                    (reject_key(ui, chosen))
                }
            }
        });
    }
    page.with(model, "pane", "aside", |ui| {
        html! {
            div.row {
                div.titles { h2.large { (piece.mark) } " " span.below { (origin(model, piece)) } }
                (key(ui, ui.w.planks.open_sheet, Route::Plank(id)))
            }
            (sheet(ui, piece))
            div.keys.last.decision { (next_keys(ui, piece)) }
        }
    })
}

/// Wood, yard and day in a line.
fn origin(model: &Model, piece: &Piece) -> String {
    let state = model.state();
    let wood = queries::species_of(state, piece).map(|species| wood_names::shown(&species.text));
    let yard = state.visit_of(piece).map(|visit| visit.opened.yard.clone());
    let parts = [wood, yard, Some(day_of(model, piece.recorded.on))];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// How a plank in the record stands under a spec.
pub fn standing(model: &Model, piece: &Piece, spec: &Spec) -> PlankSoFar {
    let sheet = queries::sheet_under(model.state(), piece, spec, &model.settings.instruments);
    let own = own_readings(model.state(), piece.pile, &piece.readings_in_use());
    let shared =
        |criterion| criterion == Criterion::Moisture && !own.contains_key(&Field::Moisture);
    standing_of(model, spec, sheet, &shared)
}

fn sheet(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let model = ui.model;
    let (state, words, id) = (model.state(), &ui.w.planks, piece.id);
    let under = table::under(model);
    let of_visit = state.visit_of(piece).map(|visit| visit.opened.spec.clone());
    let spec = under.as_ref().map(|(_, spec)| spec.clone()).or(of_visit);
    let other = under.map(|(_, spec)| spec);
    let asked = |number: Number| match &other {
        Some(spec) => Asked::PlankUnder(id, PlankFigure::Sheet(number), Box::new(spec.clone())),
        None => Asked::Plank(id, PlankFigure::Sheet(number)),
    };
    let species = queries::species_of(state, piece);
    let wood = species.and_then(|species| queries::wood_of(state, species));
    html! {
        @if piece.withdrawn { (is_deleted(ui, piece)) }
        (decision(ui, piece))
        @if piece.readings.is_empty() && !piece.withdrawn {
            p { (words.not_measured) }
            div.keys { (key(ui, words.measure_it, Route::Measure(id))) }
        } @else if let Some(spec) = &spec {
            @let standing = standing(model, piece, spec);
            div.halves {
                div {
                    (scored(ui, &standing, asked(Number::PlankScore)))
                    @if other.is_some() { p.below { (fill(words.judged_under, &[("spec", &spec.name)])) } }
                    (laid(ui, spec, &standing.sheet, wood.as_ref(), asked(Number::Held)))
                    (views(ui, &standing, wood.as_ref()))
                }
                div { (gauges(ui, spec, &standing, wood.as_ref(), asked)) }
            }
            details {
                summary { (words.figures_and_workings) }
                (figures(ui, &standing.sheet, spec, asked))
            }
        }
        (readings(ui, piece))
        (costs(ui, piece))
        (cautions(ui, wood.as_ref()))
        (notes(ui, piece))
        (facts_of(ui, piece, wood.as_ref()))
        details {
            summary { (fill(words.history_n, &[("n", &piece.history.len())])) }
            p.below { (words.history_note) }
            ol.history { @for line in &piece.history { (history_line(ui, line)) } }
        }
        div.keys.last {
            @if !piece.withdrawn && !piece.readings.is_empty() { (key(ui, words.change_readings, Route::Measure(id))) }
            @if piece.is_bought() && piece.is_at_hand() { (key(ui, words.cut_it, Route::Cut(id))) }
            @if piece.is_bought() && piece.is_at_hand() { (key(ui, words.in_the_racks, Route::Piece(id))) }
            @else if piece.is_bought() && !piece.withdrawn { (decision_keys(ui, piece)) }
            (key(ui, words.print, Any::Print))
            (delete_key(ui, Deletable::Plank(id)))
        }
    }
}

/// That a plank is deleted, by itself or with its pile or visit, and the way back. What came with an import that was
/// undone is put back with it.
fn is_deleted(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.planks;
    let (state, log) = (ui.model.state(), ui.model.record.log());
    let with = queries::deleted_with(state, log, piece).map(|id| Deletable::of(state, id));
    let said = match with {
        Some(what @ (Deletable::Visit(_) | Deletable::Pile(_))) => fill(
            words.plank_deleted_with,
            &[("what", &name_of(ui.model, what))],
        ),
        None if state.undone_by(piece.recorded.entry).is_some() => words.plank_undone.to_owned(),
        _ => words.plank_deleted.to_owned(),
    };
    html! {
        div.notice.bad role="status" {
            p { (said) }
            @if let Some(what) = with {
                div.keys { (key(ui, ui.w.share.put_it_back, Action::BringBack(what))) }
            } @else if state.undone_by(piece.recorded.entry).is_some() {
                div.keys { (key(ui, ui.w.share.brought_title, Route::BroughtIn)) }
            }
        }
    }
}

/// Edge and end.
fn views(ui: &Ui<'_>, standing: &PlankSoFar, wood: Option<&Species>) -> Markup {
    let drawn = PlankDrawn {
        plank: &standing.sheet.plank,
        colour: wood.map_or(crate::drawings::UNDYED, Species::colour),
        parts: None,
        weakest: None,
    };
    html! {
        div.edge-and-end {
            div role="img" aria-label=(ui.w.yard.edge_view) { (edge_view(&drawn)) }
            div role="img" aria-label=(end_said(ui, &drawn)) { (end_view(&drawn)) }
        }
        @let scale = not_to_scale(ui, &drawn, Views::EdgeAndEnd);
        @if !scale.is_empty() { p.scale { (scale) } }
    }
}

/// The decision in force, and whether it went against the verdict.
fn decision(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.planks;
    let Some(judgement) = piece.judgement() else {
        return html! { p.below { (capital(words.undecided)) "." } };
    };
    let judged = &judgement.judged;
    let mut said = capital(decided(ui, Some(judged.decision)));
    if !judged.reasons.is_empty() {
        said = format!("{said}: {}", reasons(&judged.reasons));
    }
    html! {
        p.decided { strong { (said) } " · " (day_of(ui.model, judgement.on)) }
        @if let Some(proposed) = judged.proposed.filter(|_| judged.overruled()) {
            p.notice.doubt { (fill(words.overruled, &[("proposed", &decided(ui, Some(proposed)))])) }
        }
    }
}

/// The readings with how each was come by, the defects, and what was not looked at.
fn readings(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.planks;
    let units = ui.model.units();
    let found = piece.defects_found();
    let unseen = not_looked_at(&piece.described());
    html! {
        @if !piece.readings.is_empty() {
            details {
                summary { (fill(words.readings_n, &[("n", &piece.readings.len())])) }
                dl.facts.readings {
                    @for (field, held) in &piece.readings {
                        dt { (field.label().spoken()) }
                        dd {
                            (show::reading(*field, held.taken.value, units))
                            span.below {
                                @match held.taken.seen {
                                    Seen::ByEye => (words.how_by_eye),
                                    Seen::Measured => (fill(words.how_typed, &[("typed", &held.taken.typed.trim())])),
                                }
                                @if held.taken.confirmed { ", " (words.how_confirmed) }
                                @if !held.earlier.is_empty() {
                                    ", " (fill(words.read_times, &[("n", &(held.earlier.len() + 1))]))
                                }
                            }
                        }
                    }
                }
            }
        }
        @if !found.is_empty() {
            h2 { (words.defects) }
            ul { @for one in &found { li { (ui.w.events.defect(ui.model.units(), one)) } } }
        }
        @if !unseen.is_empty() && !piece.readings.is_empty() {
            p.below { (fill(words.not_looked_at, &[("what", &unseen.iter().map(|name| name.spoken()).collect::<Vec<_>>().join(", "))])) }
        }
    }
}

/// What it costs by its pile's terms, and what the yard says.
fn costs(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.planks;
    let state = ui.model.state();
    let (Some(visit), Some(charged)) = (state.visit_of(piece), queries::charged(state, piece))
    else {
        return html! {};
    };
    let currency = &visit.opened.currency;
    let tally = queries::tally_of(state, visit.id);
    let tallied = tally.and_then(|tally| {
        tally
            .planks
            .into_iter()
            .find(|plank| plank.piece == piece.id)
    });
    // A plank that was not bought is worked out by itself.
    let line = match &tallied {
        Some(plank) => Some(plank.tallied.clone()),
        None => tally_visit([(&charged.line, &charged.terms)])
            .lines
            .into_iter()
            .next(),
    };
    let Some(line) = line else {
        return html! {};
    };
    let bill = || Asked::Plank(piece.id, PlankFigure::Bill);
    let sheet = queries::sheet_of(state, piece, &ui.model.settings.instruments);
    let parts = sheet.and_then(|sheet| Some(sheet.held?.parts));
    let part = line.money.as_ref().ok().zip(parts);
    let part = part.and_then(|(paid, parts)| cost_per_part(paid.gross, parts));
    let mut of = Vec::new();
    let mut add = |name: &str, shown: Markup| of.push((name.to_owned(), shown));
    match &line.board_feet {
        Ok(feet) => add(
            words.volume_by_rule,
            figure(ui, words.volume_by_rule, &volume(*feet), bill()),
        ),
        Err(why) => add(words.volume_by_rule, html! { span.open { (why.spoken()) } }),
    }
    if let Some((price, basis)) = charged.terms.price {
        let per = fill(
            ui.w.yard.per_unit,
            &[
                ("price", &show::price(price, currency)),
                ("per", &basis.per().spoken()),
            ],
        );
        add(words.price, html! { (per) });
    }
    match &line.money {
        Ok(paid) => {
            add(
                words.cost_with_tax,
                figure(
                    ui,
                    words.cost_with_tax,
                    &money(paid.gross, currency),
                    bill(),
                ),
            );
            add(
                words.cost_without_tax,
                figure(
                    ui,
                    words.cost_without_tax,
                    &money(paid.net, currency),
                    bill(),
                ),
            );
        }
        Err(why) => add(words.cost_with_tax, html! { span.open { (why.spoken()) } }),
    }
    if let Some(part) = part {
        let asked = Asked::Plank(piece.id, PlankFigure::CostPerPart);
        add(
            words.wood_for_a_part,
            figure(ui, words.wood_for_a_part, &money(part, currency), asked),
        );
    }
    html! {
        h2 { (words.cost) }
        (facts(of))
        p.below { (fill(words.rule_is, &[("rule", &charged.terms.rule.in_words().spoken())])) }
        @if let Some((_, line)) = &piece.yard_line {
            p.below { (capital(&ui.w.events.yard(line.board_feet, line.cubic_metres, line.money))) "." }
        }
    }
}

/// What the wood may do to the maker, and what the law may ask.
fn cautions(ui: &Ui<'_>, wood: Option<&Species>) -> Markup {
    let words = &ui.w.planks;
    let (dust, trade) = match wood {
        Some(wood) => (wood.dust().words().spoken(), wood.trade().words().spoken()),
        None => (
            words.dust_unknown.to_owned(),
            words.trade_unknown.to_owned(),
        ),
    };
    html! {
        h2 { (words.cautions) }
        p { (dust) }
        p { (trade) }
    }
}

/// What the name of the field of a new note begins with; the piece follows.
pub const NEW_NOTE: &str = "new-note/";

fn notes(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.planks;
    html! {
        h2 { (words.notes) }
        @if !piece.notes.is_empty() {
            ul.notes { @for note in &piece.notes { li { bdi { (note.text) } " " span.below { (day_of(ui.model, note.on)) } } } }
        }
        div.field.no-print {
            label for="new-note" { (words.new_note) }
            textarea id="new-note" name={ (NEW_NOTE) (piece.id) } rows="2" { (half_typed_note(ui.model, piece.id)) }
        }
        div.keys { (key(ui, words.add_note, Action::AddNote(piece.id))) }
    }
}

/// Where it is from.
fn facts_of(ui: &Ui<'_>, piece: &Piece, wood: Option<&Species>) -> Markup {
    let words = &ui.w.planks;
    let state = ui.model.state();
    let others: Vec<&str> = piece
        .marks
        .iter()
        .filter(|mark| **mark != piece.mark)
        .map(String::as_str)
        .collect();
    let devices: Vec<&str> = piece.by.iter().map(String::as_str).collect();
    let mut of = Vec::new();
    let mut add = |name: &str, shown: String| {
        if !shown.is_empty() {
            of.push((name.to_owned(), html! { (shown) }));
        }
    };
    add(
        words.pile,
        state
            .pile(piece.pile)
            .map(super::named::pile_title)
            .unwrap_or_default(),
    );
    add(
        words.botanical,
        wood.map(|wood| wood.scientific_name().to_owned())
            .unwrap_or_default(),
    );
    let density = |rho| show::density(in_kg_per_m3(rho), ui.model.units());
    add(
        ui.w.woods.usual_density,
        wood.and_then(Species::usual_density_at_12)
            .map_or_else(String::new, |usual| {
                let ends = [("low", density(usual.low)), ("high", density(usual.high))];
                let ends = ends
                    .each_ref()
                    .map(|(key, end)| (*key, end as &dyn Display));
                fill(ui.w.woods.from_to, &ends)
            }),
    );
    if wood.is_some_and(|wood| state.woods().contains_key(wood.id())) {
        add(words.woods_numbers, words.your_data.to_owned());
    }
    add(words.marked_on, devices.join(", "));
    add(words.also_marked, others.join(", "));
    html! {
        h2 { (words.where_from) }
        (facts(of))
    }
}

/// What is next for it: the decision; for wood that was worked since, the way to what came of it.
fn next_keys(ui: &Ui<'_>, piece: &Piece) -> Markup {
    if piece.is_bought() && !piece.is_at_hand() {
        return html! {
            button.key.main.big.wide type="button" data-press=(ui.press(Route::Piece(piece.id))) { (ui.w.planks.in_the_racks) }
        };
    }
    decision_keys(ui, piece)
}

fn decision_keys(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.yard;
    let now = piece.decision();
    let one = |name: &str, decision: Decision| {
        let is_so = now == Some(decision);
        html! {
            button.key.big type="button" .main[decision == Decision::Take && !is_so] .wide[decision == Decision::Take]
                aria-pressed=(is_so.to_string()) data-press=(ui.press(Action::Decide(piece.id, decision)))
            {
                @if is_so { (icon(Icon::Done)) (capital(decided(ui, now))) } @else { (name) }
            }
        }
    };
    html! {
        (one(words.reject, Decision::Leave))
        (one(words.hold, Decision::SetAside))
        (one(words.buy, Decision::Take))
    }
}

fn reject_key(ui: &Ui<'_>, chosen: &[stillwood_core::plank::Reason]) -> Markup {
    let words = &ui.w.yard;
    let name = match chosen.first() {
        Some(reason) => fill(words.reject_for, &[("reason", &reason.name().spoken())]),
        None => words.reject.to_owned(),
    };
    html! { button.key.no.big.wide type="button" data-press=(ui.press(Action::RejectNow)) { (name) } }
}

/// Choosing why it is rejected.
fn rejecting(model: &Model, piece: &Piece, chosen: &[stillwood_core::plank::Reason]) -> Page {
    Page::new(piece.mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            html! {
                button.key.quiet.back type="button" data-press=(ui.press(Action::NotRejecting)) aria-label=(ui.w.common.back) {
                    (icon(Icon::Back))
                }
                div.titles { h1 #title tabindex="-1" { (piece.mark) } p.below { (ui.w.yard.why_rejected) } }
            }
        })
        .with(model, "body", "main", |ui| chips::all_reasons(ui, chosen))
        .with(model, "foot", "footer", |ui| reject_key(ui, chosen))
}
