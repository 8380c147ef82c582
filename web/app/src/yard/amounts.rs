//! Sizes, decisions and what is in hand as texts.

use crate::page::Ui;
pub use crate::words::show::{feet, money, money_either_way, signed, volume};
use crate::words::{count, show};
use rust_decimal::Decimal;
use stillwood_core::quantity::in_mm;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Decision, InHandCount, PlankRow};
use stillwood_core::trade::TallyLine;
use stillwood_core::verdict::Recommendation;

use crate::parts::Judged;

/// `11.51`, under a heading that names the unit.
pub fn number(value: Decimal) -> String {
    show::rounded(value, 2)
}

/// Length × width × thickness of a plank as charged.
pub fn size(line: &TallyLine, units: Units) -> String {
    let sawn = &line.sawn;
    let sizes = [sawn.length, sawn.width, sawn.thickness];
    show::sizes(sizes.map(|size| size.map(in_mm)), units)
}

/// The sizes of a plank in a list; nothing where none is known.
pub fn row_size(row: &PlankRow, units: Units) -> Option<String> {
    let sizes = [row.length_mm, row.width_mm, row.thickness_mm];
    let known = sizes.iter().any(Option::is_some);
    known.then(|| show::sizes(sizes, units))
}

/// What was decided, in a word.
pub fn decided(ui: &Ui<'_>, decision: Option<Decision>) -> &'static str {
    decision.map_or(ui.w.planks.undecided, |decision| {
        ui.w.events.decision(decision)
    })
}

/// How a recommendation is judged, and its words.
pub fn called(ui: &Ui<'_>, recommendation: Recommendation) -> (Judged, &'static str) {
    let words = &ui.w.planks;
    match recommendation {
        Recommendation::Good => (Judged::Good, words.call_good),
        Recommendation::GoodSoFar => (Judged::Unknown, words.call_good_so_far),
        Recommendation::TooClose => (Judged::Doubt, words.call_too_close),
        Recommendation::Refused => (Judged::Bad, words.call_refused),
        Recommendation::NothingYet => (Judged::Unknown, words.call_nothing),
    }
}

/// What is in hand: `2 planks, 3 pieces, about 20 laminates to come`.
pub fn in_hand(ui: &Ui<'_>, found: &InHandCount, per_blank: u32) -> String {
    let words = &ui.w.planks;
    let common = &ui.w.common;
    let kinds = [
        (found.planks, common.planks_one, common.planks_other),
        (found.pieces, words.pieces_one, words.pieces_other),
        (found.laminates, words.laminates_one, words.laminates_other),
        (found.blanks, words.blanks_one, words.blanks_other),
    ];
    let some = kinds.into_iter().filter(|(n, ..)| *n > 0);
    let mut said: Vec<String> = some
        .map(|(n, one, other)| count(n as u64, one, other))
        .collect();
    if said.is_empty() {
        return words.nothing_in_hand.to_owned();
    }
    if found.planks + found.pieces > 0 {
        let (one, other) = match per_blank {
            1 => (words.parts_to_come_one, words.parts_to_come_other),
            _ => (words.laminates_to_come_one, words.laminates_to_come_other),
        };
        said.push(count(u64::from(found.expected), one, other));
        if found.unknown > 0 {
            said.push(count(
                found.unknown as u64,
                words.unknown_one,
                words.unknown_other,
            ));
        }
        if found.give_none > 0 {
            said.push(count(
                found.give_none as u64,
                words.gives_none_one,
                words.gives_none_other,
            ));
        }
    }
    said.join(", ")
}
