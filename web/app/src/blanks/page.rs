//! A blank: its section, its figures, what is next for it as the large key, its reservation and its history.

use super::Action;
use super::figures::{self, Figure};
use super::row::{self, Row};
use crate::action::Action as Any;
use crate::drawings::section::{room, section, section_unknown};
use crate::form::OpenForm;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{
    Icon, Judged, field, icon, more_sheet, next_keys, notices, sign, task_head, toast,
};
use crate::racks::matter::matter;
use crate::racks::{deed, gluing, history, over_time};
use crate::route::Route;
use crate::words::{Spoken, dates, fill, wood_names};
use maud::{Markup, html};
use std::collections::BTreeSet;
use stillwood_core::order;
use stillwood_core::record::{
    FormField, Glued, Id, Member, NextStep, Origin, Piece, PieceFigure, WORKSHOP_COMMANDS, Waits,
    WorkshopCommand, likely_next, queries,
};
use stillwood_core::season::{DateKey, Readiness};

/// The screen on a narrow window.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model
        .state()
        .piece(id)
        .filter(|piece| row::is_blank(piece))?;
    let row = row::row(model, piece);
    let page = Page::new(piece.mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &piece.mark, &wood_names::shown(&row.woods), html! {})
        })
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", |ui| match recording(ui, id, None) {
            Some(form) => form,
            None => told(ui, piece, &row),
        })
        .with(model, "toast", "div", toast);
    let open = model.blanks.recording.is_some_and(|(of, _)| of == id);
    Some(if open || !row.is_there() {
        page
    } else {
        page.with(model, "foot", "footer", |ui| keys(ui, piece))
    })
}

/// A blank in the pane of a wide screen.
pub fn whole(ui: &Ui<'_>, id: Id) -> Markup {
    let Some(piece) = ui
        .model
        .state()
        .piece(id)
        .filter(|piece| row::is_blank(piece))
    else {
        return html! { p { (ui.w.common.not_here) } };
    };
    let row = row::row(ui.model, piece);
    let open = recording(ui, id, None);
    html! {
        h2.mark { (piece.mark) }
        p.below { (wood_names::shown(&row.woods)) }
        @if let Some(form) = open { (form) }
        @else {
            @if row.is_there() { div.keys.next { (keys(ui, piece)) } }
            (told(ui, piece, &row))
        }
    }
}

/// The form of what is being recorded of a blank; with its mark where nothing above tells which it is.
pub fn recording(ui: &Ui<'_>, id: Id, mark: Option<&str>) -> Option<Markup> {
    let (_, name) = ui.model.blanks.recording.filter(|(of, _)| *of == id)?;
    let open: &OpenForm = ui.model.form.as_ref()?;
    let offers = |field: &FormField| deed::offers(ui.model, field);
    let (name, caution) = (ui.w.command(name), caution_of(ui, name));
    let title = mark.map_or_else(
        || name.to_owned(),
        |mark| fill(ui.w.common.form_piece, &[("mark", &mark), ("form", &name)]),
    );
    Some(html! {
        section.recording #recording aria-labelledby="recording-title" {
            h2 #recording-title { (title) }
            @if let Some(caution) = caution { p.notice.doubt { (caution) } }
            (field::begun(ui, open))
            (field::fields(ui, open, &open.id.fields(), &offers))
            (field::save_key(ui, open, ui.w.common.save))
            button.key.quiet.whole type="button" data-press=(ui.press(Action::CloseForm)) { (ui.w.common.cancel) }
        }
    })
}

/// What can hurt where a blank is worked.
fn caution_of(ui: &Ui<'_>, name: &str) -> Option<&'static str> {
    (name == "Machined flat").then_some(ui.w.blanks.caution_planing)
}

/// Until when it rests, in the words of its rack.
fn until(ui: &Ui<'_>, ready: &Readiness) -> String {
    let day = dates::day(ui.w, ready.due, ui.model.now.date());
    fill(ui.w.racks.rests_until, &[("day", &day)])
}

/// Its drawing, figures and history.
fn told(ui: &Ui<'_>, piece: &Piece, row: &Row) -> Markup {
    let words = &ui.w.blanks;
    // It stands in the words of its rack.
    let matter = matter(ui.model, piece, waits(ui.model, piece).as_ref());
    let judged = matter.judged.unwrap_or(Judged::Unknown);
    let mut all = figures::chosen_by(ui, piece, row);
    all.push(figures::age(ui, row));
    let glued = gluing_of(piece);
    let rest_figure = |shown: String| {
        let asked = crate::explain::Asked::Piece(row.id, PieceFigure::RestOverOn);
        let figure = Figure {
            name: words.rest,
            shown: Ok(shown),
            asked: Some(asked),
        };
        figure.drawn(ui)
    };
    html! {
        figure.card.blank-drawn {
            (drawn(ui, row))
            figcaption { (row::section_said(ui, row.id)) }
        }
        p class={ "stands " (judged.class()) } {
            (sign(judged))
            @match &row.rest {
                // Where it says until when it rests, that is the figure.
                Some(ready) if ready.date != DateKey::RestOver && matter.said == until(ui, ready) => strong { (rest_figure(matter.said.clone())) },
                Some(ready) => { strong { (matter.said) } " · " (rest_figure(row::due_words(ui, ready))) },
                None => strong { (matter.said) },
            }
        }
        @if !row.is_there() { p.below { (fill(words.since, &[("day", &row::day(ui, row.life.1))])) } }
        @if let Some(checked) = piece.work.checks.last() { p.below { (fill(words.last_checked, &[("day", &row::day(ui, checked.on))])) } }
        @if let Some(reserved) = row::reserved_words(ui, row, false) { p.reserved { strong { (reserved) } } }
        (figures::facts(ui, &all))
        p.below { (words.stiffness_is_usual) }
        @if let Some(glued) = glued { (gluing(ui, piece, glued)) }
        div.keys.links {
            @let beside = super::chosen_side_by_side(ui.model).contains(&row.id);
            @if row.is_there() {
                button.key type="button" aria-pressed=(beside.to_string()) data-press=(ui.press(Action::SideBySide(row.id))) {
                    @if beside { (icon(Icon::Done)) } (words.side_by_side)
                }
            }
            a.key href=(Route::Papers(row.id).address()) data-press=(ui.press(Route::Papers(row.id))) { (words.papers) }
            a.key href=(Route::Label(row.id).address()) data-press=(ui.press(Route::Label(row.id))) { (words.label) }
            a.key href=(Route::Piece(row.id).address()) data-press=(ui.press(Route::Piece(row.id))) { (words.readings) }
        }
        details { summary { (words.over_time) } (over_time::movement(ui, piece)) (over_time::weights(ui, piece)) }
        details { summary { (words.what_it_cost) } (costs(ui, row)) }
        details { summary { (words.trade_control) } (trade(ui, row.id)) }
        details open { summary { (words.history) } (history::lines(ui, piece)) }
    }
}

/// Its section, large.
pub fn drawn(ui: &Ui<'_>, row: &Row) -> Markup {
    let said = row::section_said(ui, row.id);
    match &row.section {
        Some(one) => section(one, room(std::iter::once(one)), &said),
        None => section_unknown(&said),
    }
}

/// What it is waiting for.
fn waits(model: &Model, piece: &Piece) -> Option<Waits> {
    let line = row::rest_line(model, piece)?;
    Some(Waits::Rest(line.stage, line.ready))
}

/// The command that a step is recorded by.
fn command_of(step: NextStep) -> Option<&'static WorkshopCommand> {
    WORKSHOP_COMMANDS
        .iter()
        .find(|command| command.step == Some(step))
}

/// What is next as the large key, the second beside it, all else behind More.
fn keys(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let today = ui.model.now.date();
    let offered = |command: &&'static WorkshopCommand| command.is_offered(piece, today);
    let mut next: Vec<&WorkshopCommand> = Vec::new();
    let steps = likely_next(piece, waits(ui.model, piece).as_ref(), today);
    for command in steps.into_iter().filter_map(command_of).filter(offered) {
        // What has moved is flattened before it is discarded.
        if command.key == "Throw out" {
            continue;
        }
        next.push(command);
    }
    let moved = row::rest_line(ui.model, piece)
        .and_then(|line| line.ready.ok())
        .is_some_and(|ready| row::rest_words(ui, &ready).0 == Judged::Bad);
    if moved {
        order::sort_by_key(&mut next, |command| command.step != Some(NextStep::Machine));
    }
    let discard = WORKSHOP_COMMANDS
        .iter()
        .find(|command| command.step == Some(NextStep::ThrowOut));
    let second = if moved { discard } else { next.get(1).copied() };
    let first = next.first().copied();
    let shown = |command: &&WorkshopCommand| {
        let is = |one: Option<&WorkshopCommand>| one.is_some_and(|one| one.key == command.key);
        is(first) || is(second)
    };
    let action = |command: &'static WorkshopCommand| match command.step {
        Some(NextStep::Release) => Action::Release(piece.id),
        _ => Action::Open(piece.id, command.key),
    };
    let key = |command: &'static WorkshopCommand, class: &'static str| {
        html! { button class={ "key big " (class) } type="button" data-press=(ui.press(action(command))) { (ui.w.command(command.key)) } }
    };
    let rest = WORKSHOP_COMMANDS
        .iter()
        .filter(|command| command.is_offered(piece, today) && !shown(command))
        .filter(|command| {
            command.step != Some(NextStep::Glue) && command.step != Some(NextStep::Cut)
        });
    let rest: Vec<(String, Any)> = rest
        .map(|command| (ui.w.command(command.key).to_owned(), action(command).into()))
        .collect();
    html! {
        @if ui.model.blanks.more { (more_sheet(ui, Action::More.into(), &rest)) }
        (next_keys(
            ui,
            (ui.model.blanks.more, Action::More.into()),
            &second.map_or_else(Markup::default, |second| key(second, "")),
            &first.map_or_else(Markup::default, |first| key(first, "main wide")),
        ))
    }
}

/// The gluing that a blank came from; none for one that was cut in one piece.
pub fn gluing_of(piece: &Piece) -> Option<&Glued> {
    match &piece.work.origin {
        Origin::GluedFrom { glued, .. } => Some(glued),
        _ => None,
    }
}

/// What was said of the gluing.
pub fn gluing_facts(ui: &Ui<'_>, piece: &Piece, glued: &Glued) -> Vec<Figure> {
    let said = gluing::gluing_facts(ui, piece.id, glued).into_iter();
    let fact = |(name, text)| Figure {
        name,
        shown: Ok(text),
        asked: None,
    };
    said.map(fact).collect()
}

/// How a laminate lies, in words.
pub fn lies(ui: &Ui<'_>, member: &Member) -> &'static str {
    let words = &ui.w.blanks;
    match (member.turned_over, member.turned) {
        (false, false) => words.lies_as_is,
        (true, false) => words.lies_turned_over,
        (false, true) => words.lies_end_for_end,
        (true, true) => words.lies_both,
    }
}

fn gluing(ui: &Ui<'_>, piece: &Piece, glued: &Glued) -> Markup {
    let words = &ui.w.blanks;
    let state = ui.model.state();
    html! {
        h2 { (words.the_gluing) }
        (figures::facts(ui, &gluing_facts(ui, piece, glued)))
        @if glued.adhesive.brings_water == Some(true) { p.notice.doubt { (words.water_caution) } }
        ol.laminates {
            @for member in &glued.members {
                @let mark = state.piece(member.piece).map_or("", |piece| &piece.mark);
                li {
                    a href=(Route::Piece(member.piece).address()) data-press=(ui.press(Route::Piece(member.piece))) { (mark) }
                    " " span.below { (lies(ui, member)) }
                }
            }
        }
    }
}

/// What its wood cost, laminate by laminate, with their share of what failed.
fn costs(ui: &Ui<'_>, row: &Row) -> Markup {
    let words = &ui.w.blanks;
    let state = ui.model.state();
    let Some(cost) = queries::blank_cost(state, row.id) else {
        return html! { p.below { (words.cost_not_known) } };
    };
    let shown = |value| figures::money(value, &cost.currency);
    let known = |derivation| Some(crate::explain::Asked::Known(Box::new(derivation)));
    let sum = |name, value, derivation| Figure {
        name,
        shown: Ok(shown(value)),
        asked: known(derivation),
    };
    let own = sum(words.own_wood, cost.own, cost.explain_sum(true));
    if cost.carried.is_zero() {
        return html! { (figures::facts(ui, &[own])) p.below { (words.others_pay) } };
    }
    let failed = sum(
        words.share_of_failed,
        cost.carried - cost.own,
        cost.explain_sum(false),
    );
    let whole = sum(words.together, cost.carried, cost.worked());
    let part = |part: &stillwood_core::record::PartCost| {
        let mark = state.piece(part.piece).map_or("", |piece| &piece.mark);
        let said = fill(
            words.part_cost,
            &[
                ("own", &shown(part.own)),
                ("failed", &shown(part.carried - part.own)),
            ],
        );
        let name = fill(words.wood_of, &[("mark", &mark)]);
        let action = Any::Explain {
            name: name.clone(),
            figure: said.clone(),
            of: crate::explain::Asked::Known(Box::new(part.worked(&cost.currency))),
        };
        html! { li { strong { (mark) } " " button.figure type="button" data-press=(ui.press(action)) { (said) } } }
    };
    html! {
        (figures::facts(ui, &[own, failed, whole]))
        ul.costs { @for one in &cost.parts { (part(one)) } }
    }
}

/// What the law may ask, wood by wood, and what the maker has to show for it.
pub fn trade(ui: &Ui<'_>, id: Id) -> Markup {
    let state = ui.model.state();
    let one = |named: &stillwood_core::record::SpeciesNamed| {
        let wood = queries::wood_of(state, named);
        let said = wood.map_or_else(
            || ui.w.blanks.listing_not_known.to_owned(),
            |wood| wood.trade().words().spoken(),
        );
        let under = queries::bought_under(state, id, named);
        let listed = |words: &str, all: BTreeSet<String>| {
            let all: Vec<String> = all.into_iter().collect();
            (!all.is_empty()).then(|| fill(words, &[("of", &all.join(", "))]))
        };
        let words = &ui.w.blanks;
        let papers = [
            listed(words.invoice, under.invoices),
            listed(words.country_of_harvest, under.countries),
        ];
        html! {
            p { strong { (wood_names::shown(&queries::wood_name(state, named))) } ": " (said) }
            @for line in papers.into_iter().flatten() { p.below { (line) } }
        }
    };
    html! { @for named in queries::woods_in(state, id) { (one(named)) } }
}
