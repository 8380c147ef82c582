//! What a piece came from and what became of it, as a small tree.

use super::stock::{on_its_rack, plain_tile, tile_of};
use crate::page::Ui;
use crate::route::Route;
use crate::words::{count, fill};
use maud::{Markup, html};
use stillwood_core::record::queries;
use stillwood_core::record::{Id, Life, Piece};

/// So many of one generation are drawn.
const DRAWN: usize = 12;

/// The part of the page; nothing for a piece without a family.
pub fn family(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let state = ui.model.state();
    let from = queries::made_of(state, piece.id);
    let into = queries::made_from(state, piece.id);
    if from.is_empty() && into.is_empty() {
        return html! {};
    }
    let one = |id: Id, here: bool| {
        let Some(known) = state.piece(id) else {
            return html! { span.member { (words.not_here) } };
        };
        let lies = on_its_rack(ui.model, known);
        let tile = lies.map_or_else(|| plain_tile(ui.model, known), |one| tile_of(&one));
        let gone = match known.life().0 {
            Life::Cut => words.was_cut,
            Life::GluedInto(_) => words.was_glued,
            Life::Discarded => words.was_discarded,
            Life::Used => words.was_used,
            Life::Missing => words.missing,
            _ => "",
        };
        html! {
            @if here {
                span.member.here { (tile) strong { (known.mark) } }
            } @else {
                a.member href=(Route::Piece(id).address()) data-press=(ui.press(Route::Piece(id))) {
                    (tile) span { (known.mark) @if !gone.is_empty() { span.below { (gone) } } }
                }
            }
        }
    };
    let several = |ids: &[Id]| {
        html! {
            ul.generation {
                @for id in ids.iter().take(DRAWN) { li { (one(*id, false)) } }
                @if ids.len() > DRAWN {
                    li { details {
                        summary { (fill(words.and_more, &[("n", &(ids.len() - DRAWN))])) }
                        ul.generation { @for id in ids.iter().skip(DRAWN) { li { (one(*id, false)) } } }
                    } }
                }
            }
        }
    };
    // Straight up to the plank: each that was only cut.
    let mut line = Vec::new();
    let mut up = from.clone();
    while let [only] = up.as_slice() {
        if line.contains(only) || *only == piece.id {
            break;
        }
        line.push(*only);
        up = queries::made_of(state, *only);
    }
    line.reverse();
    let beside = line
        .last()
        .map(|parent| queries::made_from(state, *parent))
        .unwrap_or_default();
    let beside = beside.iter().filter(|id| **id != piece.id).count();
    html! {
        h2.small { (words.family) }
        div.family {
            @if from.len() > 1 { p.below { (words.glued_from) } (several(&from)) }
            @for id in &line { (one(*id, false)) }
            (one(piece.id, true))
            @if beside > 0 { p.below.beside { (count(beside as u64, words.sibling_one, words.sibling_other)) } }
            @if !into.is_empty() { (several(&into)) }
        }
    }
}
