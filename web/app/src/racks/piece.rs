//! A piece: what is the matter with it and what is next, how it moved and what it weighed over time, its family and
//! history, and all that can be done with it.

use super::deed::{half_typed, is_offered};
use super::family::family;
use super::history::history;
use super::matter::matter;
use super::over_time::{movement, weights};
use super::piece_facts::{facts, in_a_line};
use super::stock::{on_its_rack, plain_tile, rack_name, tile_of, waits};
use super::{Action, PieceForm};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, more_sheet, next_keys, sign, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, dates, fill, show};
use maud::{Markup, html};
use stillwood_core::quantity::{in_mm, mm};
use stillwood_core::record::queries;
use stillwood_core::record::{
    Id, NextStep, Piece, StressFound, StressTest, WORKSHOP_COMMANDS, Waits, likely_next,
};
use stillwood_core::season::{FEELER_MM, StressSays};

/// Something that can be done, as a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    PieceForm(PieceForm),
    Cut,
    Glue,
}

impl Step {
    fn of(step: NextStep, moved: bool) -> Option<Step> {
        match step {
            NextStep::Cut => Some(Step::Cut),
            NextStep::Glue => Some(Step::Glue),
            NextStep::Machine if moved => Some(Step::PieceForm(PieceForm::FlattenAgain)),
            step => {
                let command = WORKSHOP_COMMANDS
                    .iter()
                    .find(|one| one.step == Some(step))?;
                Some(Step::PieceForm(PieceForm::Workshop(command.key)))
            }
        }
    }

    fn name(self, model: &Model) -> &'static str {
        match self {
            Step::PieceForm(deed) => deed.name(model),
            Step::Cut => model.words().racks.cut,
            Step::Glue => model.words().racks.glue,
        }
    }

    fn action(self, piece: Id) -> crate::Action {
        match self {
            Step::PieceForm(deed) => Action::Do(piece, deed).into(),
            Step::Cut => Route::Cut(piece).into(),
            Step::Glue => Route::Match.into(),
        }
    }
}

/// It moved beyond its limit: then the keys are others.
fn has_moved(waits: Option<&Waits>) -> bool {
    use stillwood_core::season::MeasureKey;
    matches!(waits, Some(Waits::Rest(_, Ok(ready))) if ready.measure == MeasureKey::Moved)
}

/// What can be done, the likeliest first.
fn steps(model: &Model, piece: &Piece, waits: Option<&Waits>) -> Vec<Step> {
    let moved = has_moved(waits);
    let likely = likely_next(piece, waits, model.now.date());
    let mut steps: Vec<Step> = likely
        .into_iter()
        .filter_map(|step| Step::of(step, moved))
        .collect();
    steps.retain(|step| match step {
        Step::PieceForm(PieceForm::Workshop(name)) => is_offered(model, piece.id, name),
        _ => true,
    });
    for command in &WORKSHOP_COMMANDS {
        let step = Step::PieceForm(PieceForm::Workshop(command.key));
        if command.is_offered(piece, model.now.date()) && !steps.contains(&step) {
            steps.push(step);
        }
    }
    for other in [Step::Cut, Step::PieceForm(PieceForm::FlattenAgain)] {
        let rests = piece.work.rest().is_some();
        if !steps.contains(&other) && (other == Step::Cut || rests) {
            steps.push(other);
        }
    }
    steps
}

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model.state().piece(id)?;
    let waits = waits(model, piece);
    let words = &model.words().racks;
    let place = piece
        .work
        .place()
        .filter(|_| piece.is_at_hand())
        .map(|place| rack_name(words, &place.payload));
    let mark = piece.mark.clone();
    let ours = piece.is_at_hand() && piece.is_bought();
    let page = Page::new(mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &mark, &place.unwrap_or_default(), html! {
                a.key.quiet href=(Route::Label(id).address()) data-press=(ui.press(Route::Label(id))) aria-label=(ui.w.racks.label) title=(ui.w.racks.label) {
                    (icon(Icon::Label))
                }
            })
        })
        .with(model, "body", "main", |ui| {
            html! {
                (headline(ui, piece, waits.as_ref()))
                (conflict(ui, id))
                (begun(ui, id))
                (super::put_away::waiting_of_cut(ui, id))
                div.columns {
                    div {
                        (movement(ui, piece))
                        (weights(ui, piece))
                        (stress(ui, piece))
                    }
                    div {
                        (facts(ui, piece, waits.as_ref()))
                        (family(ui, piece))
                        (links(ui, piece))
                        (history(ui, piece))
                    }
                }
            }
        })
        .with(model, "toast", "div", toast);
    if !ours {
        return Some(page);
    }
    Some(page.with(model, "foot", "footer", |ui| {
        keys(ui, piece, waits.as_ref())
    }))
}

/// The same beside the list, in short.
pub fn beside(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let waits = waits(ui.model, piece);
    let route = Route::Piece(piece.id);
    html! {
        h2 { (piece.mark) }
        (headline(ui, piece, waits.as_ref()))
        (begun(ui, piece.id))
        div.keys {
            (key_of(ui, piece, steps(ui.model, piece, waits.as_ref()).first().copied(), "key main"))
            a.key href=(route.address()) data-press=(ui.press(route)) { (ui.w.racks.open_piece) }
        }
        (movement(ui, piece))
        (weights(ui, piece))
        (facts(ui, piece, waits.as_ref()))
        (family(ui, piece))
    }
}

/// How it stands, and of what it is.
fn headline(ui: &Ui<'_>, piece: &Piece, waits: Option<&Waits>) -> Markup {
    let matter = matter(ui.model, piece, waits);
    html! {
        div.looked-at {
            @match on_its_rack(ui.model, piece) {
                Some(one) => (tile_of(&one)),
                None => (plain_tile(ui.model, piece)),
            }
            div {
                p.matter {
                    @if let Some(judged) = matter.judged { span class=(judged.class()) { (sign(judged)) } }
                    strong { (matter.said) }
                }
                @if !matter.below.is_empty() { p { (matter.below) } }
                p.below { (in_a_line(ui.model, piece)) }
            }
        }
    }
}

/// Where two entries can't both be true: each can be deleted.
fn conflict(ui: &Ui<'_>, id: Id) -> Markup {
    let words = &ui.w.racks;
    let state = ui.model.state();
    let all = queries::piece_conflicts(state)
        .iter()
        .filter(|one| one.about == id);
    let about = |entry: Id| {
        ui.model
            .record
            .log()
            .entry(entry)
            .map_or(id, |entry| entry.about)
    };
    html! {
        @for one in all {
            div.notice.doubt role="status" {
                p { (words.two_stories_here) " " (one.why.in_words().spoken()) "." }
                div.keys {
                    button.key type="button" data-press=(ui.press(Action::DeleteEntry(about(one.set_aside), one.set_aside))) { (words.delete_second) }
                    @if let Some(entry) = one.in_force {
                        button.key type="button" data-press=(ui.press(Action::DeleteEntry(about(entry), entry))) { (words.delete_first) }
                    }
                }
            }
        }
    }
}

/// What was half typed about it.
fn begun(ui: &Ui<'_>, id: Id) -> Markup {
    html! {
        @for deed in half_typed(ui.model, id) {
            div.notice role="status" {
                p { (fill(ui.w.racks.half_typed_here, &[("form", &deed.name(ui.model))])) }
                div.keys {
                    button.key type="button" data-press=(ui.press(Action::Do(id, deed)))
                        aria-label={ (ui.w.racks.go_on) ": " (deed.name(ui.model)) } { (ui.w.racks.go_on) }
                }
            }
        }
    }
}

/// Its plank's sheet from the yard, and the papers of a blank.
fn links(ui: &Ui<'_>, piece: &Piece) -> Markup {
    use stillwood_core::record::PieceKind;
    html! {
        div.keys {
            @if piece.is_from_yard() {
                a.key href=(Route::Plank(piece.id).address()) data-press=(ui.press(Route::Plank(piece.id))) { (ui.w.racks.yard_sheet) }
            }
            @if piece.work.kind == PieceKind::Blank {
                a.key href=(Route::Blank(piece.id).address()) data-press=(ui.press(Route::Blank(piece.id))) { (ui.w.blanks.blank_page) }
                a.key href=(Route::Papers(piece.id).address()) data-press=(ui.press(Route::Papers(piece.id))) { (ui.w.racks.papers) }
            }
        }
    }
}

/// The tests for stress: what was measured, how it is usually read, and what that does at the bench.
fn stress(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let told = queries::explain_stress(ui.model.state(), piece.id, mm(FEELER_MM));
    html! {
        @if !told.is_empty() {
            h2.small { (words.stress) }
            @for one in &told { (stress_card(ui, one, one.piece != piece.id)) }
        }
    }
}

fn stress_card(ui: &Ui<'_>, told: &StressFound, of_another: bool) -> Markup {
    use crate::parts::Judged;
    let words = &ui.w.racks;
    let units = ui.model.units();
    let straight = matches!(
        told.says,
        StressSays::StraightProngs | StressSays::StraightHalves
    );
    let judged = if straight {
        Judged::Good
    } else {
        Judged::Doubt
    };
    let gap = told.tested.gap.value;
    let size = show::gap_either_way(gap, units);
    let way = gap.partial_cmp(&0.0).unwrap_or(std::cmp::Ordering::Equal);
    use std::cmp::Ordering::{Equal, Greater, Less};
    let (name, did, source) = match (told.tested.test, way) {
        (StressTest::Fork, Less) => (words.fork, words.prongs_close, words.fork_source),
        (StressTest::Fork, Greater) => (words.fork, words.prongs_spread, words.fork_source),
        (StressTest::Fork, Equal) => (words.fork, words.prongs_straight, words.fork_source),
        (StressTest::Ripped, Less) => (words.ripped, words.halves_pinch, words.common_practice),
        (StressTest::Ripped, Greater) => (words.ripped, words.halves_gape, words.common_practice),
        (StressTest::Ripped, Equal) => (words.ripped, words.halves_straight, words.common_practice),
    };
    let did = fill(did, &[("size", &size)]);
    let over = told
        .tested
        .over
        .as_ref()
        .map(|over| show::length(over.value, units));
    html! {
        div.card {
            p { span class=(judged.class()) { (sign(judged)) } strong { (told.says.in_words().spoken()) } }
            p {
                (name) @if of_another { " " (told.mark) } ", " (dates::day(ui.w, told.on, ui.model.now.date())) ": " (did)
                @if let Some(over) = over { " " (fill(words.over_length, &[("length", &over)])) } "."
            }
            @if let Some(spring) = &told.spring {
                p {
                    (words.laminate_springs) " "
                    (figure(ui, words.spring_of_part, &show::gap(in_mm(spring.by), units), Asked::Known(Box::new(spring.working.clone()))))
                    " " (fill(words.over_length, &[("length", &show::length(in_mm(spring.over), units))]))
                    @if let Some(out) = spring.out_at { "; " (fill(words.limit_is, &[("limit", &show::gap(in_mm(out), units))])) } "."
                }
            }
            p.below { (told.says.means().spoken()) " " (source) }
        }
    }
}

fn key_of(ui: &Ui<'_>, piece: &Piece, step: Option<Step>, class: &str) -> Markup {
    html! {
        @if let Some(step) = step {
            button class=(class) type="button" data-press=(ui.press(step.action(piece.id))) { (step.name(ui.model)) }
        }
    }
}

/// The one next act, the second, and all others behind "More".
fn keys(ui: &Ui<'_>, piece: &Piece, waits: Option<&Waits>) -> Markup {
    let steps = steps(ui.model, piece, waits);
    let more = ui.model.racks.more;
    html! {
        (next_keys(
            ui,
            (more, Action::More.into()),
            &key_of(ui, piece, steps.get(1).copied(), "key big"),
            &key_of(ui, piece, steps.first().copied(), "key main big wide"),
        ))
        @if more {
            @let all: Vec<_> = steps.iter().map(|step| (step.name(ui.model).to_owned(), step.action(piece.id))).collect();
            (more_sheet(ui, Action::More.into(), &all))
        }
    }
}
