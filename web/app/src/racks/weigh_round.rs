//! A rack that is weighed: piece by piece, each in its own form, those of which the weight alone is not known.

use super::stock::{Stock, rack_name};
use super::{Action, PieceForm, WeighRound};
use crate::effect::Effect;
use crate::model::Model;
use crate::page::Ui;
use crate::route::Route;
use crate::words::fill;
use maud::{Markup, html};
use stillwood_core::record::queries::Rack;
use stillwood_core::record::{DueWhen, Id, Piece, workshop_command};

/// What is done with each, by its stored name.
const WEIGH: &str = "Weigh";

/// Those of a rack that wait for their weight alone and were not weighed today, in the order of their marks.
pub fn to_weigh(model: &Model, rack: &Rack) -> Vec<Id> {
    let today = model.now.date();
    let can_be = |piece: &Piece| {
        let last = piece.work.weighings.last();
        last.is_none_or(|last| last.on != today)
            && workshop_command(WEIGH).is_some_and(|one| one.is_offered(piece, today))
    };
    let waits = |id: &Id| model.state().piece(*id).is_some_and(can_be);
    let all = rack.pieces.iter().filter(|one| {
        let due = one.due.as_ref();
        due.is_some_and(|due| due.when(today) == DueWhen::WeightNotKnown)
    });
    all.map(|one| one.piece).filter(waits).collect()
}

fn left(model: &Model, round: &WeighRound) -> Vec<Id> {
    let stock = Stock::of(model);
    let rack = stock.rack(&round.place);
    let mut left = rack.map_or_else(Vec::new, |rack| to_weigh(model, rack));
    left.retain(|id| !round.done.contains(id));
    left
}

/// The key that weighs a rack, with the rack's name where it stands among several; nothing where no piece of it waits
/// for that.
pub fn key(ui: &Ui<'_>, rack: &Rack, class: &str, shown: &str) -> Markup {
    let name = rack_name(&ui.w.racks, &rack.place);
    html! {
        @if !to_weigh(ui.model, rack).is_empty() {
            button class=(class) type="button" data-press=(ui.press(Action::WeighRack(rack.place.clone())))
                aria-label=[(shown == ui.w.racks.weigh).then(|| fill(ui.w.racks.weigh_rack, &[("rack", &name)]))] { (shown) }
        }
    }
}

/// How many are left of the round that a piece stands in.
pub fn so_far(model: &Model, piece: Id) -> Option<String> {
    let words = &model.words().racks;
    let round = model.racks.weighing.as_ref()?;
    let left = left(model, round).len();
    let sentence = match left {
        1 => words.left_to_weigh_one,
        _ => words.left_to_weigh_other,
    };
    let rack = rack_name(words, &round.place);
    let said = fill(sentence, &[("n", &left), ("rack", &rack)]);
    (round.at == piece).then_some(said)
}

/// The round begins with the first that waits.
pub fn begin(model: &mut Model, place: String) -> Vec<Effect> {
    let stock = Stock::of(model);
    let first = stock.rack(&place).map(|rack| to_weigh(model, rack));
    match first.and_then(|all| all.first().copied()) {
        Some(at) => {
            let (next, done) = (None, Vec::new());
            let round = WeighRound {
                place,
                at,
                next,
                done,
            };
            stands_at(model, round);
            vec![Effect::Go(Route::Deed(at))]
        }
        None => Vec::new(),
    }
}

/// It is the turn of the piece at which a round stands.
fn stands_at(model: &mut Model, round: WeighRound) {
    let next = next_after(model, &round);
    model.racks.deed = Some((round.at, PieceForm::Workshop(WEIGH)));
    model.racks.weighing = Some(WeighRound { next, ..round });
}

/// A piece is weighed later: it is the next one's turn.
pub fn later(model: &mut Model) -> Vec<Effect> {
    let round = model.racks.weighing.clone();
    match round.and_then(|round| Some((round.next?, round))) {
        Some((next, round)) => {
            stands_at(model, WeighRound { at: next, ..round });
            vec![Effect::Replace(Route::Deed(next))]
        }
        None => vec![Effect::Go(Route::Racks)],
    }
}

/// Whose turn it is after a piece: the first of those left that comes after it, else the first.
fn next_after(model: &Model, round: &WeighRound) -> Option<Id> {
    let stock = Stock::of(model);
    let rack = stock.rack(&round.place)?;
    let place_of = |id: &Id| rack.pieces.iter().position(|one| one.piece == *id);
    let at = place_of(&round.at)?;
    let left = left(model, round);
    let mut others = left.iter().filter(|id| **id != round.at);
    let after = others.clone().find(|id| place_of(id) > Some(at));
    after.or_else(|| others.next()).copied()
}

/// A screen of the racks opens: the round goes on with the form of the next piece, and ends on any other screen.
pub fn opened(model: &mut Model) {
    let Some(round) = model.racks.weighing.clone() else {
        return;
    };
    match model.route {
        Route::Deed(piece) if chosen(model, piece) => model.racks.weighing = None,
        Route::Deed(piece) if piece == round.at => {}
        Route::Deed(piece) if round.next == Some(piece) => {
            let mut done = round.done;
            done.push(round.at);
            let at = piece;
            stands_at(model, WeighRound { at, done, ..round });
        }
        _ => model.racks.weighing = None,
    }
}

/// Something else was chosen to be done with a piece.
fn chosen(model: &Model, piece: Id) -> bool {
    model
        .racks
        .deed
        .is_some_and(|(of, form)| of == piece && form != PieceForm::Workshop(WEIGH))
}
