//! The search: by mark with or without dashes, by wood, yard, rack or reason.

use super::Action;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, task_head};
use crate::racks::stock::{Stock, plain_tile, rack_name, tile_of};
use crate::route::Route;
use crate::words::{count, dates, fill};
use maud::{Markup, html};
use stillwood_core::record::queries::{self, Finding, FoundWood};
use stillwood_core::record::{Life, PieceKind};

/// The name of the field.
pub const FIELD: &str = "find";
/// So many are shown at first, and more at each press.
pub const SHOWN: usize = 40;

fn found(model: &Model) -> Finding {
    queries::find(model.state(), &model.today.find, SHOWN + model.today.more)
}

/// Where a piece is looked at: what was never bought on its plank's sheet.
fn route_of(found: &FoundWood) -> Route {
    match (found.kind, found.life.0) {
        (PieceKind::Plank, Life::AtYard | Life::Left) => Route::Plank(found.piece),
        (PieceKind::Blank, _) => Route::Blank(found.piece),
        _ => Route::Piece(found.piece),
    }
}

/// The piece whose mark was typed in full, or the only one found.
pub fn only_one(model: &Model) -> Option<Route> {
    let finding = found(model);
    let exact = finding.exact();
    let one = match finding.found.as_slice() {
        [only] => Some(only),
        all => all.iter().find(|one| Some(one.piece) == exact),
    };
    one.map(route_of)
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
                (results(ui))
            }
        })
}

fn results(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    if ui.model.today.find.trim().is_empty() {
        return html! { p.below { (words.find_hint) } };
    }
    let finding = found(ui.model);
    let stock = Stock::of(ui.model);
    let by_id = stock.by_id();
    html! {
        @if only_one(ui.model).is_some() {
            button.key.main.whole type="button" data-press=(ui.press(Action::OpenFound)) { (words.open_it) }
        }
        p.below role="status" {
            @match (&finding.mark_error, finding.found.len() + finding.more) {
                (Some(error), _) => span.bad { (error) "." },
                (None, 0) => (words.nothing_found),
                (None, n) => (count(n as u64, words.found_one, words.found_other)),
            }
        }
        ul.list {
            @for one in &finding.found {
                @let route = route_of(one);
                li {
                    a.item href=(route.address()) data-press=(ui.press(route)) {
                        @match (by_id.get(&one.piece), ui.model.state().piece(one.piece)) {
                            (Some(piece), _) => (tile_of(piece)),
                            (None, Some(piece)) => (plain_tile(ui.model, piece)),
                            (None, None) => {},
                        }
                        span.what {
                            strong { (one.mark) } " " (one.wood) " " (one.kind.name())
                            span.below { (where_it_is(ui, one)) }
                        }
                        (icon(Icon::Forward))
                    }
                }
            }
        }
        @if finding.more > 0 {
            button.key.whole type="button" data-press=(ui.press(Action::More)) {
                (count(finding.more as u64, ui.w.racks.show_more_one, ui.w.racks.show_more_other))
            }
        }
    }
}

fn where_it_is(ui: &Ui<'_>, found: &FoundWood) -> String {
    let racks = &ui.w.racks;
    let (life, since) = found.life;
    let life = match life {
        Life::AtYard => racks.at_the_yard,
        Life::Left => racks.was_rejected,
        Life::Reading => racks.bought,
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
    let mut parts = vec![format!("{life} {}", fill(racks.since, &[("day", &since)]))];
    parts.extend(
        [&found.reasons, &found.yard]
            .into_iter()
            .filter(|one| !one.is_empty())
            .cloned(),
    );
    if !found.place.is_empty() {
        parts.push(rack_name(racks, &found.place));
    }
    parts.join(" · ")
}
