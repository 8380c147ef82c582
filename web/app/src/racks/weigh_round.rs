//! A rack that is weighed: piece by piece, each in its own form, those of which the weight alone is not known.

use super::deed::is_offered;
use super::stock::{Stock, rack_name};
use super::{Action, PieceForm};
use crate::effect::Effect;
use crate::form::FormId;
use crate::model::Model;
use crate::page::Ui;
use crate::route::Route;
use crate::words::fill;
use maud::{Markup, html};
use stillwood_core::record::queries::Rack;
use stillwood_core::record::{DueWhen, Id};

/// What is done with each, by its stored name.
const WEIGH: &str = "Weigh";

/// A round: the rack, and the piece whose turn it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighRound {
    place: String,
    at: Id,
}

/// Those of a rack that wait for their weight alone and were not weighed today, in the order of their marks.
pub fn to_weigh(model: &Model, rack: &Rack) -> Vec<Id> {
    let today = model.now.date();
    let waits = |id: &Id| {
        let piece = model.state().piece(*id);
        let last = piece.and_then(|piece| piece.work.weighings.last());
        last.is_none_or(|last| last.on != today) && is_offered(model, *id, WEIGH)
    };
    let all = rack.pieces.iter().filter(|one| {
        let due = one.due.as_ref();
        due.is_some_and(|due| due.when(today) == DueWhen::WeightNotKnown)
    });
    all.map(|one| one.piece).filter(waits).collect()
}

fn left(model: &Model, round: &WeighRound) -> Vec<Id> {
    let stock = Stock::of(model);
    let rack = stock.rack(&round.place);
    rack.map_or_else(Vec::new, |rack| to_weigh(model, rack))
}

/// The key that weighs a rack; nothing where no piece of it waits for that.
pub fn key(ui: &Ui<'_>, rack: &Rack, class: &str, shown: &str) -> Markup {
    let name = rack_name(&ui.w.racks, &rack.place);
    html! {
        @if !to_weigh(ui.model, rack).is_empty() {
            button class=(class) type="button" data-press=(ui.press(Action::WeighRack(rack.place.clone())))
                aria-label=(fill(ui.w.racks.weigh_rack, &[("rack", &name)])) { (shown) }
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
            model.racks.weighing = Some(WeighRound { place, at });
            go_to(model, at)
        }
        None => Vec::new(),
    }
}

fn go_to(model: &mut Model, piece: Id) -> Vec<Effect> {
    model.racks.deed = Some((piece, PieceForm::Workshop(WEIGH)));
    vec![Effect::Go(Route::Deed(piece))]
}

/// A piece is weighed later: the next one's turn.
pub fn later(model: &mut Model, piece: Id) -> Vec<Effect> {
    match next_after(model, piece) {
        Some(next) => turn_of(model, next),
        None => vec![Effect::Go(Route::Racks)],
    }
}

fn turn_of(model: &mut Model, next: Id) -> Vec<Effect> {
    if let Some(round) = &mut model.racks.weighing {
        round.at = next;
    }
    let mut effects = go_to(model, next);
    if let Some(Effect::Go(route)) = effects.pop() {
        effects.push(Effect::Replace(route));
    }
    effects
}

/// Whose turn it is after a piece: the first of those left that comes after it, else the first.
fn next_after(model: &Model, piece: Id) -> Option<Id> {
    let round = model.racks.weighing.as_ref()?;
    let stock = Stock::of(model);
    let rack = stock.rack(&round.place)?;
    let at = rack.pieces.iter().position(|one| one.piece == piece)?;
    let place_of = |id: &Id| rack.pieces.iter().position(|one| one.piece == *id);
    let left = to_weigh(model, rack);
    let mut others = left.iter().filter(|id| **id != piece);
    let after = others.clone().find(|id| place_of(id) > Some(at));
    after.or_else(|| others.next()).copied()
}

/// The screen after a weighing that belongs to a round; `None` where it belongs to none.
pub fn then(model: &Model, form: FormId) -> Option<Route> {
    let round = model.racks.weighing.as_ref()?;
    match form {
        FormId::Workshop(piece, WEIGH) if round.at == piece => {
            Some(next_after(model, piece).map_or(Route::Racks, Route::Deed))
        }
        _ => None,
    }
}

/// A screen of the racks opens: the round goes on with the form of the next piece, and ends on any other screen.
pub fn opened(model: &mut Model) {
    let Some(round) = model.racks.weighing.clone() else {
        return;
    };
    match model.route {
        Route::Deed(piece) if piece == round.at => {}
        Route::Deed(piece) if left(model, &round).contains(&piece) && !chosen(model, piece) => {
            model.racks.weighing = Some(WeighRound { at: piece, ..round });
            model.racks.deed = Some((piece, PieceForm::Workshop(WEIGH)));
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
