//! Looking a rack over: a piece a screen on the phone, a table by keyboard on the laptop.

use super::Action;
use super::over_time::{ShapeLine, is_by_eye, shape_lines};
use super::piece_facts::in_a_line;
use super::round::{NOW, current, is_looked_at, pieces, places, title};
use super::stock::{Stock, on_its_rack, rack_name, tile_of};
use crate::drawings::spark;
use crate::form::{FormAction, FormId, OpenForm, field_id};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, bar, icon, sign, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count, dates, fill, show, spoken_name};
use maud::{Markup, html};
use std::sync::Arc;
use stillwood_core::record::commands::check_rack::{WHO, WITHIN};
use stillwood_core::record::commands::workshop::MOVED;
use stillwood_core::record::queries::RackPiece;
use stillwood_core::record::{DAY, Dated, FormField, Id, MovementChecked, Piece};
use stillwood_core::season::Warp;

/// The screen.
pub fn view(model: &Model) -> Page {
    let all = pieces(model);
    let now = current(model, &all);
    if model.shell.wide && !all.is_empty() {
        return wide(model, &all, now);
    }
    let title = title(model);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &title, &so_far(ui, &all), html! {})
        })
        .with(model, "body", "main", |ui| {
            html! {
                (progress(ui, &all))
                @match now {
                    _ if all.is_empty() => (choose_rack(ui)),
                    Some(id) => (one(ui, id)),
                    None => (all_done(ui, &all)),
                }
            }
        })
        .with(model, "toast", "div", toast);
    match now {
        Some(id) => page.with(model, "foot", "footer", |ui| keys(ui, id)),
        None => page,
    }
}

fn looked_at(model: &Model, all: &[(Id, String)]) -> usize {
    all.iter()
        .filter(|(id, _)| is_looked_at(model, *id))
        .count()
}

fn so_far(ui: &Ui<'_>, all: &[(Id, String)]) -> String {
    if all.is_empty() {
        return String::new();
    }
    fill(
        ui.w.racks.so_far,
        &[("n", &looked_at(ui.model, all)), ("all", &all.len())],
    )
}

fn progress(ui: &Ui<'_>, all: &[(Id, String)]) -> Markup {
    let done = looked_at(ui.model, all);
    html! {
        @if !all.is_empty() {
            progress.round max=(all.len()) value=(done) aria-label=(so_far(ui, all)) {}
        }
    }
}

fn choose_rack(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    let places = places(ui.model);
    html! {
        @if places.is_empty() {
            p.empty { (words.nothing_rests) }
            button.key.main.big.whole type="button" data-press=(ui.press(Route::Racks)) { (words.to_the_racks) }
        }
        @else {
            ul.list {
                @for (place, pieces) in &places {
                    li {
                        button.item type="button" data-press=(ui.press(Action::LookOver(place.clone()))) {
                            span.what {
                                strong { (rack_name(words, place)) }
                                span.below { (count(pieces.len() as u64, words.pieces_one, words.pieces_other)) }
                            }
                            (icon(Icon::Forward))
                        }
                    }
                }
            }
        }
    }
}

/// The form of a piece that moved, where it stands open.
fn form_of(model: &Model, id: Id) -> Option<&OpenForm> {
    model
        .form
        .as_ref()
        .filter(|form| form.id == FormId::Moved(id))
}

/// A piece: what it is, how it stood at the last checks against its limits.
fn one(ui: &Ui<'_>, id: Id) -> Markup {
    let words = &ui.w.racks;
    let Some(piece) = ui.model.state().piece(id) else {
        return Markup::default();
    };
    let lines = shape_lines(ui.model, piece);
    let flat = piece
        .work
        .machined
        .last()
        .map(|said| dates::day(ui.w, said.on, ui.model.now.date()));
    html! {
        div.looked-at {
            @if let Some(one) = on_its_rack(ui.model, piece) { (tile_of(&one)) }
            div {
                p.large { (piece.mark) }
                p.below {
                    (in_a_line(ui.model, piece))
                    @if let Some(flat) = flat { " · " (fill(words.flat_since, &[("day", &flat)])) }
                }
            }
        }
        @match form_of(ui.model, id) {
            Some(open) => (moved_fields(ui, open)),
            None => {
                h2.small { (change_since(ui, piece)) }
                p.below { (last_seen(ui, piece)) }
                (shapes(ui, piece, &lines))
                (what_no_change_tells(ui, piece, &lines))
                (day_and_name(ui))
            }
        }
    }
}

/// Since when “no change” counts: the day of the last look, and how it was made.
fn last_seen(ui: &Ui<'_>, piece: &Piece) -> String {
    let words = &ui.w.racks;
    let Some(said) = piece.work.checks.last() else {
        return words.never_looked_at.to_owned();
    };
    let sentence = match &said.payload {
        check if is_by_eye(check) => words.seen_by_eye,
        check if check.nothing_moved => words.seen_by_tool,
        _ => words.seen_measured,
    };
    let day = dates::day(ui.w, said.on, ui.model.now.date());
    fill(sentence, &[("day", &day)])
}

/// What the changes count from.
fn change_since(ui: &Ui<'_>, piece: &Piece) -> &'static str {
    match piece.work.machined.is_empty() {
        true => ui.w.racks.change_since_first_look,
        false => ui.w.racks.change_and_limit,
    }
}

fn shapes(ui: &Ui<'_>, piece: &Piece, lines: &[ShapeLine]) -> Markup {
    let measured = measured_last(piece);
    let is_measured = |warp: Warp| {
        measured.is_some_and(|check| check.payload.readings.contains_key(&warp.field()))
    };
    html! {
        ul.shapes {
            @for line in lines {
                li {
                    span { (crate::parts::capital(spoken_name(line.warp.name()))) }
                    (spark(&line.values(), line.limit, line.judged))
                    span.figure-of {
                        @match &line.last {
                            Some(last) => { @if line.limit.is_some() { (sign(line.judged)) } strong.by-eye[line.by_eye] { (last) } },
                            None if is_measured(line.warp) => span.open { (ui.w.racks.measured_once) },
                            None => span.open { (ui.w.racks.not_measured) },
                        }
                        @if let Some(limit) = &line.limit_shown { " " span.below { (fill(ui.w.racks.of_limit, &[("limit", limit)])) } }
                    }
                }
            }
        }
    }
}

/// How far “no change” counts.
fn what_no_change_tells(ui: &Ui<'_>, piece: &Piece, lines: &[ShapeLine]) -> Markup {
    let words = &ui.w.racks;
    html! {
        p.below {
            @if lines.iter().any(ShapeLine::is_measured) { (words.feeler_counts) }
            @else if let Some(check) = measured_last(piece) { (measured_on(ui, check)) }
            @else { (words.measure_once) }
        }
    }
}

/// The last check by which a piece was measured that was never machined flat.
fn measured_last(piece: &Piece) -> Option<&Dated<Arc<MovementChecked>>> {
    let shows = |check: &&Dated<Arc<MovementChecked>>| {
        let readings = &check.payload.readings;
        let mut warps = Warp::ALL.iter();
        warps.any(|warp| readings.contains_key(&warp.field()))
    };
    let mut checks = piece.work.checks.iter().rev();
    checks
        .find(shows)
        .filter(|_| piece.work.machined.is_empty())
}

/// When it was measured, and what.
fn measured_on(ui: &Ui<'_>, check: &Dated<Arc<MovementChecked>>) -> String {
    let shape = |warp: &Warp| {
        let read = check.payload.readings.get(&warp.field())?;
        let gap = show::gap(read.value, ui.model.units());
        Some(format!("{} {gap}", spoken_name(warp.name())))
    };
    let shapes: Vec<String> = Warp::ALL.iter().filter_map(shape).collect();
    let day = dates::day(ui.w, check.on, ui.model.now.date());
    fill(
        ui.w.racks.measured_once_on,
        &[("day", &day), ("shapes", &shapes.join(", "))],
    )
}

fn no_offers(_: &FormField) -> Vec<(String, String)> {
    Vec::new()
}

/// Bow, crook, cup and twist first, in the order in which they are shown; over which lengths, behind.
fn moved_fields(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let first = ["Bow", "Crook", "Cup", "Twist"];
    let known = |key: &&str| MOVED.iter().find(|field| field.key == *key).copied();
    let first: Vec<FormField> = first.iter().filter_map(known).collect();
    let others: Vec<FormField> = MOVED
        .iter()
        .filter(|field| !first.iter().any(|one| one.key == field.key))
        .copied()
        .collect();
    let typed = others
        .iter()
        .any(|field| !open.text(field.key).is_empty() || open.errors.of(field.key).is_some());
    html! {
        (crate::parts::field::begun(ui, open))
        div.form {
            (crate::parts::field::fields(ui, open, &first, &no_offers))
            details open[typed] {
                summary { (ui.w.racks.over_which_length) }
                (crate::parts::field::fields(ui, open, &others, &no_offers))
            }
            (day_of_form(ui, open))
            @if let Some(error) = open.errors.of("Nothing moved") { p.bad role="alert" { (error.spoken()) } }
            @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
        }
    }
}

/// The day and who looked, as they stand in the form of a piece that moved: open where something is to be answered.
fn day_of_form(ui: &Ui<'_>, open: &OpenForm) -> Markup {
    let fields = [DAY, WHO];
    let is_asked = |field: &FormField| {
        let mut asked = open.questions.iter();
        open.errors.of(field.key).is_some() || asked.any(|asked| asked.key == field.key)
    };
    let other_day = open.text(DAY.key) != ui.model.now.day;
    html! {
        details open[other_day || fields.iter().any(is_asked)] {
            summary { (ui.w.racks.day_and_who) }
            (crate::parts::field::fields(ui, open, &fields, &no_offers))
        }
    }
}

/// The day and who looked, once for the round.
fn day_and_name(ui: &Ui<'_>) -> Markup {
    let round = &ui.model.racks.round;
    let text = |field: FormField| round.texts.get(field.key).map_or("", String::as_str);
    let other_day = text(DAY) != ui.model.now.day || !text(WITHIN).is_empty();
    html! {
        details open[other_day || !round.errors.is_empty()] {
            summary { (ui.w.racks.day_and_name) }
            div.pair {
                @for (field, kind) in [(DAY, "date"), (WHO, "text"), (WITHIN, "text")] {
                    div.field {
                        label for=(field_id(field.key)) { (ui.w.field(field.key).label) }
                        input id=(field_id(field.key)) name=(field.key) type=(kind) value=(text(field)) autocomplete="off" inputmode=[(field == WITHIN).then_some("decimal")];
                        @if let Some(error) = round.errors.of(field.key) { span.bad role="alert" { (error.spoken()) } }
                        @else { span.below { (ui.w.field(field.key).hint) } }
                    }
                }
            }
        }
    }
}

fn keys(ui: &Ui<'_>, id: Id) -> Markup {
    let words = &ui.w.racks;
    let open = form_of(ui.model, id);
    let piece = ui.model.state().piece(id);
    let lines = piece.map_or_else(Vec::new, |piece| shape_lines(ui.model, piece));
    let measured = lines.iter().any(ShapeLine::is_measured)
        || piece.is_some_and(|piece| measured_last(piece).is_some());
    html! {
        div.stack {
            @match open {
                Some(open) => {
                    button.key.main.big type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) { (words.save_what_moved) }
                    button.key type="button" data-press=(ui.press(Action::NotMoved)) { (ui.w.common.cancel) }
                },
                None => {
                    @if measured {
                        button.key.main.biggest type="button" data-press=(ui.press(Action::NoChange(id))) { (words.no_change) }
                        button.key.big type="button" data-press=(ui.press(Action::ItMoved(id))) { (words.it_moved_measure) }
                    } @else {
                        // Until then “no change” tells nothing.
                        button.key.main.biggest type="button" data-press=(ui.press(Action::ItMoved(id))) { (words.measure_it) }
                        button.key.big type="button" data-press=(ui.press(Action::NoChange(id))) { (words.no_change) }
                    }
                    div.row {
                        button.key.quiet type="button" disabled[ui.model.racks.round.checked_this_round.is_empty()] data-press=(ui.press(Action::UndoLast)) {
                            (icon(Icon::Undo)) (words.undo_last)
                        }
                        button.key.quiet type="button" data-press=(ui.press(Action::Skip(id))) { (words.later) }
                    }
                },
            }
        }
    }
}

fn all_done(ui: &Ui<'_>, all: &[(Id, String)]) -> Markup {
    let words = &ui.w.racks;
    let stock = Stock::of(ui.model);
    let moved: Vec<&RackPiece> = stock
        .pieces()
        .filter(|one| all.iter().any(|(id, _)| *id == one.piece))
        .filter(|one| one.sign() == Some(stillwood_core::record::queries::RestSign::Moved))
        .collect();
    let rows = super::line::Rows {
        by_id: stock.by_id(),
        with_place: false,
        open: Vec::new(),
    };
    html! {
        p.large { (count(all.len() as u64, words.all_looked_over_one, words.all_looked_over_other)) }
        @if moved.is_empty() { p { (words.none_moved) } }
        @else {
            p { (count(moved.len() as u64, words.moved_one, words.moved_other)) }
            ul.list { @for one in moved { li { (rows.piece(ui, one)) } } }
        }
        (day_and_name(ui))
        div.keys.last {
            button.key type="button" disabled[ui.model.racks.round.checked_this_round.is_empty()] data-press=(ui.press(Action::UndoLast)) {
                (icon(Icon::Undo)) (words.undo_last)
            }
            a.key.main href=(Route::Racks.address()) data-press=(ui.press(Route::Racks)) { (words.to_the_racks) }
        }
    }
}

/// The same by keyboard: a row a piece.
fn wide(model: &Model, all: &[(Id, String)], now: Option<Id>) -> Page {
    let title = title(model);
    Page::new(title.clone(), Layout::ListAndPane)
        .with(model, "bar", "nav", bar)
        .with(model, "head", "header", |ui| {
            task_head(ui, &title, &so_far(ui, all), html! {})
        })
        .with(model, "body", "main", |ui| {
            html! {
                (progress(ui, all))
                p.below { (ui.w.racks.by_keyboard) }
                (table(ui, all, now))
            }
        })
        .with(model, "pane", "aside", |ui| {
            html! {
                @match now {
                    Some(id) => {
                        (pane(ui, id))
                        (keys(ui, id))
                        @if form_of(ui.model, id).is_none() { (day_and_name(ui)) }
                    },
                    None => (all_done(ui, all)),
                }
            }
        })
        .with(model, "toast", "div", toast)
}

fn pane(ui: &Ui<'_>, id: Id) -> Markup {
    let Some(piece) = ui.model.state().piece(id) else {
        return Markup::default();
    };
    html! {
        p.large { (piece.mark) }
        p.below { (in_a_line(ui.model, piece)) }
        @match form_of(ui.model, id) {
            Some(open) => (moved_fields(ui, open)),
            None => {
                @let lines = shape_lines(ui.model, piece);
                h2.small { (change_since(ui, piece)) }
                p.below { (last_seen(ui, piece)) }
                (shapes(ui, piece, &lines))
                (what_no_change_tells(ui, piece, &lines))
            }
        }
    }
}

fn table(ui: &Ui<'_>, all: &[(Id, String)], now: Option<Id>) -> Markup {
    let words = &ui.w.racks;
    let warps = Warp::ALL;
    html! {
        table.dense {
            thead {
                tr {
                    th scope="col" { (words.mark) }
                    @for warp in warps { th.number scope="col" { (crate::parts::capital(spoken_name(warp.name()))) } }
                    th scope="col" { (words.last_look) }
                    th scope="col" { (words.this_time) }
                }
            }
            tbody {
                @for (id, mark) in all {
                    @let piece = ui.model.state().piece(*id);
                    @let lines = piece.map(|piece| shape_lines(ui.model, piece)).unwrap_or_default();
                    @let last = piece.and_then(|piece| piece.work.checks.last()).map(|check| check.on);
                    tr data-press=(ui.press(Action::GoTo(*id))) aria-selected=((now == Some(*id)).to_string()) id=[(now == Some(*id)).then_some(NOW)] {
                        th scope="row" { button.figure type="button" data-press=(ui.press(Action::GoTo(*id))) { (mark) } }
                        @for warp in warps {
                            @let line = lines.iter().find(|line| line.warp == warp);
                            td.number {
                                @match line.and_then(|line| line.last.as_ref().map(|last| (line, last))) {
                                    Some((line, last)) => {
                                        @if line.limit.is_some() { (sign(line.judged)) } (last)
                                        @if let Some(limit) = &line.limit_shown { " " span.below { (fill(words.of_limit, &[("limit", limit)])) } }
                                    },
                                    None => span.open { "–" },
                                }
                            }
                        }
                        td { @if let Some(last) = last { (dates::day(ui.w, last, ui.model.now.date())) } @else { span.open { "–" } } }
                        td { @if is_looked_at(ui.model, *id) { (icon(Icon::Done)) span.hidden { (words.looked_at) } } }
                    }
                }
            }
        }
    }
}
