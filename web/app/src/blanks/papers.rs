//! A blank's papers, to read and to print: on the first page its section, its figures and its gluing, signed by the
//! maker; then how it kept, and in short what it came from. They never say what it cost.

use super::figures;
use super::{CHOICE, customers_view, history, page, row};
use crate::action::Action as Any;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, capital, icon, notices, task_head};
use crate::racks::over_time;
use crate::words::{Spoken, fill, wood_names};
use maud::{Markup, html};
use stillwood_core::quantity::mm;
use stillwood_core::record::{Id, Piece, PieceKind, queries};
use stillwood_core::season::{FEELER_MM, passed_in_words};

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model
        .state()
        .piece(id)
        .filter(|piece| row::is_blank(piece))?;
    let title = fill(model.words().blanks.papers_of, &[("mark", &piece.mark)]);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, &title, "", html! {}))
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", |ui| body(ui, piece))
        .with(model, "foot", "footer", |ui| {
            html! {
                button.key.main.big.wide type="button" data-press=(ui.press(Any::Print)) { (icon(Icon::Print)) (ui.w.blanks.print) }
            }
        });
    Some(page)
}

fn body(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.blanks;
    let state = ui.model.state();
    let hide = customers_view(ui.model);
    let row = row::row(ui.model, piece);
    let choose = Any::Choose {
        screen: CHOICE,
        name: "hide",
        value: (!hide).to_string(),
    };
    let mut all = figures::chosen_by(ui, piece, &row);
    all.retain(|one| one.shown.is_ok());
    all.push(figures::age(ui, &row));
    let glued = page::gluing_of(piece);
    let weighed = over_time::weighed_in_short(ui.model, piece, |on| row::day(ui, on));
    let family = queries::ancestors(state, piece.id)
        .into_iter()
        .filter_map(|id| state.piece(id));
    html! {
        div.row.no-print {
            button.chip type="button" role="checkbox" aria-checked=(hide.to_string()) data-press=(ui.press(choose)) {
                @if hide { (icon(Icon::Done)) } (words.customers_view)
            }
            span.below { (words.papers_hide_how) }
        }
        article.papers {
            section {
                p.paper-mark { (row.mark) }
                p.paper-wood { (wood_names::shown(&row.woods)) }
                figure.card.blank-drawn { (page::drawn(ui, &row)) figcaption { (row::section_said(ui, row.id)) } }
                @if let Some(reserved) = row::reserved_words(ui, &row, hide) { p { strong { (reserved) } } }
                div.two {
                    section {
                        h2 { (words.the_blank) }
                        (figures::facts(ui, &all))
                        p.below { (words.stiffness_is_usual) }
                    }
                    @if let Some(glued) = glued {
                        section {
                            h2 { (words.the_gluing) }
                            (figures::facts(ui, &page::gluing_facts(ui, piece, glued)))
                            @if glued.adhesive.brings_water == Some(true) { p.notice.doubt { (words.water_caution) } }
                        }
                    }
                }
                @if let Some(glued) = glued {
                    h2 { (words.its_laminates) }
                    ol.laminates { @for member in &glued.members { li { (laminate(ui, member, hide)) } } }
                }
                h2 { (words.trade_control) }
                (page::trade(ui, row.id))
                p.signed { span { (words.signed) } span { (words.signed_on) } }
            }
            section.second-page {
                h2 { (words.how_it_kept) }
                (over_time::movement(ui, piece))
                (over_time::weights(ui, piece))
                @if let Some(weighed) = weighed.filter(|_| piece.work.weighings.len() > 1) { p { (weighed) } }
                (entries(ui, piece, hide))
                h2 { (words.from_plank_to_blank) }
                p.below.no-print { (words.unfolded_is_printed) }
                div.two { @for one in family { (in_short(ui, one, hide)) } }
            }
        }
    }
}

/// All entries of a piece, folded away: they are on paper where they are unfolded.
fn entries(ui: &Ui<'_>, piece: &Piece, hide: bool) -> Markup {
    html! {
        details {
            summary { (fill(ui.w.blanks.all_entries_of, &[("mark", &piece.mark)])) }
            (history::of_piece(ui, piece, hide))
        }
    }
}

/// What a blank came from: from when to when it was a piece of its own, its weight and its movement, each in a line.
fn in_short(ui: &Ui<'_>, piece: &Piece, hide: bool) -> Markup {
    let words = &ui.w.blanks;
    let (_, until) = piece.life_on(ui.model.now.date());
    let from = piece.recorded.on;
    let passed = passed_in_words(from, until).spoken();
    let lasted = fill(
        words.from_until,
        &[
            ("from", &row::day(ui, from)),
            ("until", &row::day(ui, until)),
            ("passed", &passed),
        ],
    );
    let watched = queries::moved_so_far(ui.model.state(), piece, mm(FEELER_MM))
        .map(|so_far| so_far.in_words(ui.model.units()).spoken());
    html! {
        section.came-from {
            h3 { (kind(ui, piece)) " " (piece.mark) }
            p { (lasted) }
            @if let Some(weighed) = over_time::weighed_in_short(ui.model, piece, |on| row::day(ui, on)) { p { (weighed) } }
            @if let Some(watched) = watched { p { (capital(&watched)) "." } }
            (entries(ui, piece, hide))
        }
    }
}

/// A laminate, which way round, and the plank that it came from; the yard where that is not hidden.
fn laminate(ui: &Ui<'_>, member: &stillwood_core::record::Member, hide: bool) -> Markup {
    let words = &ui.w.blanks;
    let state = ui.model.state();
    let mark = state.piece(member.piece).map_or("", |piece| &piece.mark);
    let planks = queries::planks_of(state, member.piece)
        .into_iter()
        .filter_map(|id| state.piece(id));
    let from = planks.map(|plank| {
        let visit = state.visit_of(plank).filter(|_| !hide);
        match visit {
            Some(visit) => fill(
                words.from_plank_of_yard,
                &[
                    ("mark", &plank.mark),
                    ("yard", &visit.opened.yard),
                    ("day", &row::day(ui, visit.recorded.on)),
                ],
            ),
            None => fill(words.from_plank, &[("mark", &plank.mark)]),
        }
    });
    html! { span { strong { (mark) } ", " (page::lies(ui, member)) @for one in from { "; " (one) } } }
}

/// What a piece is called in its papers.
fn kind(ui: &Ui<'_>, piece: &Piece) -> &'static str {
    let words = &ui.w.blanks;
    match piece.work.kind {
        PieceKind::Plank => words.kind_plank,
        PieceKind::Piece => words.kind_rough_piece,
        PieceKind::Laminate => words.kind_laminate,
        PieceKind::Blank => words.kind_blank,
    }
}
