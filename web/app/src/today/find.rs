//! The search: by mark with or without dashes, by wood, yard, rack or reason.

use super::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, task_head};
use crate::racks::matter::matter;
use crate::racks::stock::{on_its_rack, plain_tile, rack_name, tile_of, waits};
use crate::route::Route;
use crate::words::{Spoken, called, count, dates, fill, wood_names};
use maud::{Markup, html};
use stillwood_core::record::queries;
use stillwood_core::record::{End, Found, Id, Life, Piece, PieceKind};

/// The name of the field.
pub const FIELD: &str = "find";

fn found(model: &Model) -> Found {
    queries::find_mark_called(model.state(), &model.today.find, &called)
}

/// All of it, the closest first.
fn all(found: &Found) -> Vec<Id> {
    let all = found
        .exactly
        .iter()
        .chain(&found.beginning)
        .chain(&found.by_words);
    all.copied().collect()
}

/// Where a piece is looked at: what was never bought on its plank's sheet.
fn route_of(piece: &Piece) -> Route {
    match (piece.work.kind, piece.life().0) {
        (PieceKind::Plank, Life::AtYard | Life::Left) => Route::Plank(piece.id),
        (PieceKind::Blank, _) => Route::Blank(piece.id),
        _ => Route::Piece(piece.id),
    }
}

/// The piece whose mark was typed, or the only one found.
pub fn only_one(model: &Model) -> Option<Route> {
    let one = the_one(&found(model))?;
    Some(route_of(model.state().piece(one)?))
}

/// The only one that was found, or the only one of exactly that mark.
fn the_one(found: &Found) -> Option<Id> {
    match (found.exactly.as_slice(), all(found).as_slice()) {
        ([only], _) | (_, [only]) => Some(*only),
        _ => None,
    }
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let title = model.words().today.find_title;
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, title, "", html! {}))
        .with(model, "body", "main", |ui| {
            html! {
                div.field {
                    label for="find" { (ui.w.common.find) }
                    input id="find" name=(FIELD) type="search" value=(ui.model.today.find) autocomplete="off" autocapitalize="characters" spellcheck="false" autofocus;
                }
                @if ui.model.shell.can_read_codes {
                    button.key.whole type="button" data-press=(ui.press(Action::ReadLabel)) { (icon(Icon::Label)) (ui.w.today.read_label) }
                }
                (results(ui))
            }
        })
}

fn results(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    if ui.model.today.find.trim().is_empty() {
        return html! { p.below { (words.find_hint) } };
    }
    let found = found(ui.model);
    let all = all(&found);
    html! {
        @if let Some(only) = the_one(&found).and_then(|id| ui.model.state().piece(id)) {
            button.key.main.whole type="button" data-press=(ui.press(Action::OpenFound)) { (fill(words.open_it, &[("mark", &only.mark)])) }
        }
        p.below role="status" {
            @match (&found.misread, all.len()) {
                (Some(error), _) => span.bad { (error.spoken()) "." },
                (None, 0) => (words.nothing_found),
                (None, n) => (count(n as u64, words.found_one, words.found_other)),
            }
        }
        ul.list {
            @for piece in all.iter().filter_map(|id| ui.model.state().piece(*id)) {
                @let route = route_of(piece);
                li {
                    a.item href=(route.address()) data-press=(ui.press(route)) {
                        @match on_its_rack(ui.model, piece) {
                            Some(one) => (tile_of(&one)),
                            None => (plain_tile(ui.model, piece)),
                        }
                        span.what {
                            strong { (piece.mark) } " " (wood_names::shown(&queries::woods_named(ui.model.state(), piece.id))) " " (piece.work.kind.name().spoken())
                            span.below { (where_it_is(ui, piece)) }
                        }
                        (icon(Icon::Forward))
                    }
                }
            }
        }
    }
}

/// Why it was rejected at the yard or discarded in the workshop, the main reason first.
fn reasons_of(piece: &Piece) -> String {
    let rejected = piece.judgement().map(|said| &said.judged.reasons);
    let discarded = piece.work.end.as_ref().and_then(|end| match &end.payload {
        End::Discarded(discarded, _) => Some(&discarded.reasons),
        _ => None,
    });
    let all = rejected.into_iter().chain(discarded).flatten();
    all.map(|reason| reason.name().spoken())
        .collect::<Vec<_>>()
        .join(", ")
}

fn where_it_is(ui: &Ui<'_>, piece: &Piece) -> String {
    let racks = &ui.w.racks;
    let (life, since) = piece.life();
    let life = match life {
        Life::AtYard => racks.at_the_yard,
        Life::Left => racks.was_rejected,
        Life::Bought => racks.bought,
        Life::InShop => racks.in_the_shop,
        Life::Resting(_) => racks.resting,
        Life::Reserved => racks.reserved,
        Life::Missing => racks.missing,
        Life::Cut => racks.was_cut,
        Life::GluedInto(_) => racks.was_glued,
        Life::Discarded => racks.was_discarded,
        Life::Used => racks.was_used,
        Life::Unresolved => racks.unresolved,
    };
    let since = dates::day(ui.w, since, ui.model.now.date());
    let since = format!("{life} {}", fill(racks.since, &[("day", &since)]));
    // What lies there is told by how it stands, as on its rack.
    let stands = on_its_rack(ui.model, piece).filter(|_| piece.work.missing.is_none());
    let mut parts = match stands {
        Some(_) => {
            let stands = matter(ui.model, piece, waits(ui.model, piece).as_ref()).said;
            let reserved = matches!(piece.life().0, Life::Reserved);
            vec![if reserved { since } else { String::new() }, stands]
        }
        None => vec![since, reasons_of(piece)],
    };
    let visit = ui.model.state().visit_of(piece);
    parts.extend(visit.map(|visit| visit.opened.yard.clone()));
    // What was cut, glued or used lies no more where it lay.
    let place = piece.work.place().filter(|_| piece.work.end.is_none());
    parts.extend(place.map(|place| rack_name(racks, &place.payload)));
    parts.retain(|part| !part.is_empty());
    parts.join(" · ")
}
