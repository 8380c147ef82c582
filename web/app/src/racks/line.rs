//! Rows of lists: a piece with what is the matter with it, and a lot of one plank that opens to its members.

use super::Action;
use super::matter::matter;
use super::stock::{plain_tile, rack_name, tile_of};
use crate::page::Ui;
use crate::parts::{Icon, icon};
use crate::route::Route;
use crate::words::{RacksWords, count, dates, fill, wood_names};
use maud::{Markup, html};
use std::collections::BTreeMap;
use stillwood_core::record::queries::{Rack, RackPiece};
use stillwood_core::record::{Due, DueLot, DueRow, DueWhen, Id, NotAtRest, PieceKind};

/// So many of a kind, in words.
pub fn of_kind(words: &RacksWords, kind: PieceKind, n: usize) -> String {
    let (one, other) = match kind {
        PieceKind::Plank => (words.planks_one, words.planks_other),
        PieceKind::Piece => (words.pieces_one, words.pieces_other),
        PieceKind::Laminate => (words.laminates_one, words.laminates_other),
        PieceKind::Blank => (words.blanks_one, words.blanks_other),
    };
    count(n as u64, one, other)
}

/// The id of what is drawn of the piece that is chosen.
pub const CHOSEN: &str = "chosen-piece";

/// Whether a piece is the one that is chosen in the list of a wide screen, and shown beside it.
pub fn is_chosen(ui: &Ui<'_>, piece: Id) -> bool {
    let model = ui.model;
    model.shell.wide && model.route == Route::Racks && model.racks.chosen == Some(piece)
}

/// Whether the heading of a stretch says by itself how each piece below it stands.
pub fn heading_tells(when: DueWhen) -> bool {
    matches!(
        when,
        DueWhen::Ready | DueWhen::MayBeCut | DueWhen::WeightNotKnown
    )
}

/// What rows share.
pub struct Rows<'a> {
    /// The pieces by their ids.
    pub by_id: BTreeMap<Id, &'a RackPiece>,
    /// Each says on which rack it lies.
    pub with_place: bool,
    /// The lots that are open.
    pub open: Vec<String>,
}

impl Rows<'_> {
    /// All of them; how each stands only where the heading above does not tell it.
    pub fn draw(&self, ui: &Ui<'_>, rows: &[DueRow], told_above: bool) -> Markup {
        html! {
            ul.list {
                @for row in rows {
                    li {
                        @match row {
                            DueRow::One(line) => (self.one(ui, line, told_above)),
                            DueRow::Lot(lot) => (self.lot(ui, lot, told_above)),
                        }
                    }
                }
            }
        }
    }

    fn one(&self, ui: &Ui<'_>, line: &Due, told_above: bool) -> Markup {
        let Some(piece) = self.by_id.get(&line.piece) else {
            return Markup::default();
        };
        self.row(ui, piece, told_above)
    }

    /// A piece.
    pub fn piece(&self, ui: &Ui<'_>, piece: &RackPiece) -> Markup {
        self.row(ui, piece, false)
    }

    fn row(&self, ui: &Ui<'_>, piece: &RackPiece, told_above: bool) -> Markup {
        let words = &ui.w.racks;
        let known = ui.model.state().piece(piece.piece);
        let matter =
            known.map(|known| matter(ui.model, known, piece.due.as_ref().map(|due| &due.waits)));
        let place = known
            .and_then(|known| known.work.place())
            .map(|place| place.payload.as_str())
            .filter(|_| self.with_place);
        let reserved = piece.due.as_ref().is_some_and(|due| due.reserved);
        let chosen = is_chosen(ui, piece.piece);
        let said = matter.map(|matter| {
            let stands = if told_above {
                String::new()
            } else {
                matter.said
            };
            let reserved = reserved.then(|| words.reserved_short.to_owned());
            let place = place.map(|place| rack_name(words, place));
            let parts = [Some(stands), Some(matter.below), reserved, place];
            let parts = parts.into_iter().flatten().filter(|part| !part.is_empty());
            parts.collect::<Vec<_>>().join(" · ")
        });
        html! {
            a.item id=[chosen.then_some(CHOSEN)] aria-current=[chosen.then_some("true")]
                href=(Route::Piece(piece.piece).address()) data-press=(ui.press(Action::Show(piece.piece))) {
                (tile_of(piece))
                span.what {
                    strong { (piece.mark) } " " (wood_names::shown(&piece.wood))
                    @if let Some(said) = said { span.below { (said) } }
                }
                (icon(Icon::Forward))
            }
        }
    }

    /// Many of one plank or pile.
    fn lot(&self, ui: &Ui<'_>, lot: &DueLot, told_above: bool) -> Markup {
        let words = &ui.w.racks;
        let key = lot.key();
        let open = self.open.contains(&key);
        let members: Vec<&RackPiece> = lot
            .lines
            .iter()
            .filter_map(|line| self.by_id.get(&line.piece).copied())
            .collect();
        let Some(first) = members.iter().max_by_key(|one| one.sign()) else {
            return Markup::default();
        };
        let of = ui
            .model
            .state()
            .piece(lot.of)
            .map(|piece| piece.mark.clone());
        let of = of.unwrap_or_else(|| wood_names::shown(&first.wood));
        let name = of_kind(words, first.kind, members.len());
        let name = fill(words.lot_of, &[("count", &name), ("of", &of)]);
        let stands = lot.stands();
        let stands = stands.iter().filter_map(|(line, n)| {
            let piece = ui.model.state().piece(line.piece)?;
            Some((matter(ui.model, piece, Some(&line.waits)).said, *n))
        });
        let stands: Vec<(String, usize)> = stands.collect();
        let today = ui.model.now.date();
        let day = match lot.stage {
            None => words.since,
            Some(_) if lot.day > today => words.rests_until,
            Some(_) => words.day_of_lot,
        };
        let day = fill(day, &[("day", &dates::day(ui.w, lot.day, today))]);
        let day = (!stands.iter().any(|(said, _)| *said == day)).then_some(day);
        let said = stands.into_iter().map(|(said, n)| match n {
            n if n == members.len() => said,
            n => format!("{n}: {said}"),
        });
        let said = said.filter(|_| !told_above);
        let place = self.with_place.then(|| rack_name(words, &lot.place));
        let said: Vec<String> = said.chain(day).chain(place).collect();
        html! {
            button.item type="button" aria-expanded=(open.to_string()) data-press=(ui.press(Action::Fold(key))) {
                (tile_of(first))
                span.what {
                    strong { (name) } " " @if of != wood_names::shown(&first.wood) { (wood_names::shown(&first.wood)) }
                    span.below { (said.join(" · ")) }
                }
                span.turns { (icon(Icon::Forward)) }
            }
            @if open { ul.members { @for one in members { li { (self.row(ui, one, told_above)) } } } }
        }
    }
}

/// Wood that waits for no day.
pub fn not_at_rest(ui: &Ui<'_>, all: &[&NotAtRest]) -> Markup {
    html! {
        ul.list {
            @for one in all {
                @if let Some(piece) = ui.model.state().piece(one.piece) {
                    @let matter = matter(ui.model, piece, None);
                    li {
                        a.item aria-current=[is_chosen(ui, one.piece).then_some("true")]
                            href=(Route::Piece(one.piece).address()) data-press=(ui.press(Action::Show(one.piece))) {
                            (plain_tile(ui.model, piece))
                            span.what {
                                strong { (one.mark) }
                                " " (wood_names::shown(&stillwood_core::record::queries::woods_named(ui.model.state(), one.piece)))
                                span.below { (matter.said) " · " (matter.below) }
                            }
                            (icon(Icon::Forward))
                        }
                    }
                }
            }
        }
    }
}

/// What lies on a rack, in words.
pub fn kinds(words: &RacksWords, rack: &Rack) -> String {
    let kinds = rack
        .kinds()
        .into_iter()
        .map(|(kind, n)| of_kind(words, kind, n));
    kinds.collect::<Vec<_>>().join(", ")
}
