//! A phone that has bought some planks, and what stands in the lists of a record.

use super::{Dice, Phone, judged, plank_readings};
use std::collections::BTreeSet;
use stillwood_core::record::{Decision, Event, Id, State};

/// A phone that has bought some planks.
pub fn yard(by: &str, seed: u64) -> (Phone, Id, Vec<Id>) {
    let mut phone = Phone::seeded(by, seed);
    let visit = phone.open_visit("North");
    let pile = phone.open_pile(visit, "hard_maple");
    let mut dice = Dice::of_seed(seed);
    let mut planks = Vec::new();
    for n in 0..4 {
        let piece = phone.mark(pile);
        let readings = plank_readings(&mut dice);
        phone.measure(piece, readings);
        let decision = if n % 2 == 0 {
            Decision::Take
        } else {
            Decision::Leave
        };
        phone.say(piece, Event::Judged(judged(decision, Some(70.0))));
        planks.push(piece);
    }
    (phone, pile, planks)
}

/// Everything that stands in a list, in words.
pub fn lists(state: &State) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for visit in state.visits() {
        found.insert(format!("visit {}", visit.id));
    }
    for pile in state.piles() {
        found.insert(format!("pile {} of {}", pile.id, pile.opened.visit));
    }
    for piece in state.pieces() {
        found.insert(format!("piece {} {:?}", piece.id, piece.work.kind));
        if piece.is_from_yard() {
            found.insert(format!("plank {} in {}", piece.id, piece.pile));
        }
        if let Some(decision) = piece.decision() {
            found.insert(format!("{} {decision:?}", piece.id));
        }
        found.insert(format!("{} is {:?}", piece.id, piece.life().0));
    }
    // A wood has nothing but its own name, so any of two names may be the right one: it is counted.
    for n in 0..state.woods().len() {
        found.insert(format!("wood {n}"));
    }
    found
}
