//! A rack drawn as a rack: posts, a shelf, and the end grain of what lies on it. Many of one plank are one tile with
//! their number.

use super::line::{CHOSEN, is_chosen, kinds};
use super::stock::{Stock, judged, rack_name, sign_word, tile_of};
use super::{Action, weigh_round};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, sign, task_head, toast};
use crate::route::Route;
use crate::words::{dates, fill, wood_names};
use maud::{Markup, html};
use std::collections::BTreeMap;
use stillwood_core::record::queries::{Rack, RackPiece, RestSign, short_marks};
use stillwood_core::record::{Id, queries};

/// A rack of more pieces is drawn in lots.
const FULL: usize = 42;
/// So many tiles are drawn of a rack that is one of several.
const TILES: usize = 42;

/// What the tiles mean.
pub fn legend(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    html! {
        p.legend {
            span {
                svg.sign.ring-key viewBox="0 0 12 12" aria-hidden="true" {
                    circle cx="6" cy="6" r="4.5" fill="none" stroke="currentColor" stroke-width="2" pathLength="100"
                        stroke-dasharray="70 100" transform="rotate(-90 6 6)" {}
                }
                (words.ring_means)
            }
            @for one in RestSign::ALL {
                span class=(judged(one).class()) { (sign(judged(one))) (sign_word(words, one)) }
            }
        }
    }
}

/// When it was looked over, where something rests on it.
fn looked(ui: &Ui<'_>, rack: &Rack) -> String {
    let words = &ui.w.racks;
    if rack.at_rest() == 0 {
        return String::new();
    }
    match rack.looked_over() {
        Some(day) => {
            let day = dates::day(ui.w, day, ui.model.now.date());
            fill(words.looked_over_on, &[("day", &day)])
        }
        None => words.not_all_looked_over.to_owned(),
    }
}

/// A rack under its name.
pub fn drawn(ui: &Ui<'_>, rack: &Rack) -> Markup {
    let words = &ui.w.racks;
    let Some(first) = rack.pieces.first() else {
        return Markup::default();
    };
    let route = Route::Rack(first.piece);
    let (looked, kinds) = (looked(ui, rack), kinds(words, rack));
    html! {
        section.rack-of {
            div.row {
                h2 {
                    a href=(route.address()) data-press=(ui.press(route)) { (rack_name(words, &rack.place)) }
                    span.below { (kinds) @if let Some((air, _)) = air(ui, &rack.place) { " · " (air) } @if !looked.is_empty() { " · " (looked) } }
                }
                @if rack.at_rest() > 0 {
                    button.key type="button" data-press=(ui.press(Action::LookOver(rack.place.clone())))
                        aria-label=(fill(words.look_over_rack, &[("rack", &rack_name(words, &rack.place))])) { (words.look_over) }
                } @else { (weigh_round::key(ui, rack, "key", words.weigh)) }
            }
            (tiles(ui, rack, TILES))
        }
    }
}

/// Pieces that are one tile: of one plank, one kind, and standing in one way.
fn lots(rack: &Rack) -> Vec<(String, Vec<&RackPiece>)> {
    let mut lots: BTreeMap<(String, Option<RestSign>), Vec<&RackPiece>> = BTreeMap::new();
    for piece in &rack.pieces {
        let family = piece
            .mark
            .split_once(' ')
            .map_or(piece.mark.as_str(), |(family, _)| family);
        let family = if piece.due.as_ref().and_then(|due| due.of).is_some() {
            family
        } else {
            &piece.mark
        };
        lots.entry((family.to_owned(), piece.sign()))
            .or_default()
            .push(piece);
    }
    lots.into_iter()
        .map(|((family, _), pieces)| (family, pieces))
        .collect()
}

/// The pieces of a rack under its name that have a tile of their own, in the order of the tiles.
pub fn with_own_tile(rack: &Rack) -> Vec<Id> {
    if rack.pieces.len() <= FULL {
        return rack.pieces.iter().map(|one| one.piece).collect();
    }
    let lots = lots(rack).into_iter().take(TILES);
    let alone = lots.filter_map(|(_, pieces)| match pieces.as_slice() {
        [only] => Some(only.piece),
        _ => None,
    });
    alone.collect()
}

/// The tiles between the posts.
fn tiles(ui: &Ui<'_>, rack: &Rack, most: usize) -> Markup {
    let words = &ui.w.racks;
    let class = if rack.place.is_empty() {
        "rack floor"
    } else {
        "rack"
    };
    if rack.pieces.len() <= FULL {
        let marks: Vec<String> = rack.pieces.iter().map(|one| one.mark.clone()).collect();
        let short = short_marks(&marks);
        return html! {
            div class=(class) {
                @for (piece, short) in rack.pieces.iter().zip(&short) { (tile(ui, piece, short)) }
            }
        };
    }
    let lots = lots(rack);
    let beyond: usize = lots.iter().skip(most).map(|(_, pieces)| pieces.len()).sum();
    html! {
        div class=(class) {
            @for (family, pieces) in lots.iter().take(most) {
                @if let [only] = pieces.as_slice() { (tile(ui, only, family)) }
                @else if let Some(first) = pieces.first() {
                    @let route = Route::Rack(first.piece);
                    a.on-rack href=(route.address()) data-press=(ui.press(route))
                        aria-label=(fill(words.tile_lot, &[("n", &pieces.len()), ("of", family), ("sign", &said_of(ui, first))])) {
                        (tile_of(first))
                        span { strong { "×" (pieces.len()) } " " (family) }
                    }
                }
            }
            @if beyond > 0 { span.on-rack.more { (fill(words.and_more, &[("n", &beyond)])) } }
        }
    }
}

/// How a piece stands, in a word; of what is still, by a look of which day.
fn said_of(ui: &Ui<'_>, piece: &RackPiece) -> String {
    said_as_of(ui, piece, ui.model.now.date())
}

/// The same on paper: each day has its year.
pub fn said_on_paper(ui: &Ui<'_>, piece: &RackPiece) -> String {
    said_as_of(ui, piece, chrono::NaiveDate::default())
}

fn said_as_of(ui: &Ui<'_>, piece: &RackPiece, today: chrono::NaiveDate) -> String {
    let words = &ui.w.racks;
    match (piece.sign(), piece.still_on()) {
        (Some(RestSign::Watch), Some(on)) if piece.is_look_old => {
            let month = dates::month_of_year(ui.w, on);
            fill(words.not_looked_since, &[("month", &month)])
        }
        (Some(RestSign::Still), Some(on)) => {
            let day = dates::day(ui.w, on, today);
            fill(words.still_on, &[("day", &day)])
        }
        (Some(RestSign::NotKnown), _) if !piece.is_over() => words.resting.to_owned(),
        (Some(sign), _) => sign_word(words, sign).to_owned(),
        (None, _) if piece.is_downgraded => words.downgraded_short.to_owned(),
        (None, _) => words.not_set_to_rest.to_owned(),
    }
}

fn tile(ui: &Ui<'_>, piece: &RackPiece, short: &str) -> Markup {
    let chosen = is_chosen(ui, piece.piece);
    // What is read on the tile is heard as well.
    let mark = match piece.mark.contains(short) {
        true => piece.mark.clone(),
        false => format!("{short}, {}", piece.mark),
    };
    let label = fill(
        ui.w.racks.tile_piece,
        &[
            ("mark", &mark),
            ("wood", &wood_names::shown(&piece.wood)),
            ("sign", &said_of(ui, piece)),
        ],
    );
    html! {
        a.on-rack href=(Route::Piece(piece.piece).address()) data-press=(ui.press(Action::Show(piece.piece)))
            id=[chosen.then_some(CHOSEN)] aria-label=(label) aria-current=[chosen.then_some("true")] {
            (tile_of(piece))
            span { (short) }
        }
    }
}

/// The air of the room that a rack lies in, as it was read last; none of what lies on no rack: in which room that is,
/// nobody said.
fn air(ui: &Ui<'_>, place: &str) -> Option<(String, chrono::NaiveDate)> {
    if place.is_empty() {
        return None;
    }
    let state = ui.model.state();
    let room = queries::room_of_rack(state, place)?;
    let read = queries::rooms(state).get(room)?.last()?;
    let air = &read.payload.climate;
    let mut parts = Vec::new();
    parts.extend(
        air.temperature
            .as_ref()
            .map(|one| crate::words::show::temperature(one.value, ui.model.units())),
    );
    parts.extend(
        air.humidity
            .as_ref()
            .map(|one| crate::words::show::moisture(one.value)),
    );
    (!parts.is_empty()).then(|| (parts.join(", "), read.on))
}

/// The rack that a piece lies on.
pub fn rack_of(stock: &Stock, piece: Id) -> Option<&Rack> {
    stock
        .racks()
        .iter()
        .find(|rack| rack.pieces.iter().any(|one| one.piece == piece))
}

/// The page of one rack.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let stock = Stock::of(model);
    let rack = rack_of(&stock, id)?;
    let title = rack_name(&model.words().racks, &rack.place);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            let below = kinds(&ui.w.racks, rack);
            task_head(ui, &title, &below, html! {})
        })
        .with(model, "body", "main", |ui| {
            let air = air(ui, &rack.place).map(|(air, on)| {
                let day = dates::day(ui.w, on, ui.model.now.date());
                fill(ui.w.racks.air_read, &[("air", &air), ("day", &day)])
            });
            let looked = looked(ui, rack);
            html! {
                (legend(ui))
                @if let Some(air) = air { p.below { (air) } }
                @if !looked.is_empty() { p.below { (looked) } }
                (each(ui, rack))
            }
        })
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            html! {
                a.key.big href=(Route::RackLabel(id).address()) data-press=(ui.press(Route::RackLabel(id))) {
                    (icon(Icon::Label)) (ui.w.racks.label)
                }
                (weigh_round::key(ui, rack, if rack.at_rest() > 0 { "key big" } else { "key main big wide" }, ui.w.racks.weigh_this_rack))
                @if rack.at_rest() > 0 {
                    button.key.main.big.wide type="button" data-press=(ui.press(Action::LookOver(rack.place.clone()))) {
                        (ui.w.racks.look_over)
                    }
                }
            }
        });
    Some(page)
}

/// Every piece of a rack, family by family where there are many.
fn each(ui: &Ui<'_>, rack: &Rack) -> Markup {
    if rack.pieces.len() <= FULL {
        return tiles(ui, rack, usize::MAX);
    }
    let mut families: BTreeMap<&str, Vec<RackPiece>> = BTreeMap::new();
    for piece in &rack.pieces {
        let family = piece.mark.split_once(' ').map_or("", |(family, _)| family);
        families.entry(family).or_default().push(piece.clone());
    }
    html! {
        @for (family, pieces) in families {
            h2.small { @if family.is_empty() { (ui.w.racks.others) } @else { (family) } " (" (pieces.len()) ")" }
            div.rack {
                @for piece in &pieces {
                    (tile(ui, piece, piece.mark.split_once(' ').map_or(piece.mark.as_str(), |(_, part)| part)))
                }
            }
        }
    }
}
