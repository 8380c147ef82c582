//! Volume and money as texts with their unit. It rounds for show only; no line breaks between a number and its unit.

use crate::page::Ui;
use crate::words::count;
use rust_decimal::{Decimal, RoundingStrategy};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_mm, show};
use stillwood_core::record::{Decision, InHandCount, PlankRow};
use stillwood_core::trade::{TallyLine, cubic_metres};
use stillwood_core::verdict::Recommendation;

use crate::parts::Judged;

fn rounded(value: Decimal, places: u32) -> String {
    let mut rounded = value.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
    rounded.rescale(places);
    rounded.to_string().replace('-', "−")
}

/// `166.84 EUR`; the number alone where no currency was given.
pub fn money(value: Decimal, currency: &str) -> String {
    let number = rounded(value, 2);
    match currency {
        "" => number,
        currency => format!("{number}\u{a0}{currency}"),
    }
}

/// `11.51`, under a heading that names the unit.
pub fn number(value: Decimal) -> String {
    rounded(value, 2)
}

/// `11.51 bd ft`.
pub fn feet(value: Decimal) -> String {
    format!("{}\u{a0}bd\u{a0}ft", rounded(value, 2))
}

/// Board feet and cubic metres of one volume; the line may break between them.
pub fn volume(board_feet: Decimal) -> String {
    match cubic_metres(board_feet) {
        Some(metres) => format!("{} · {}\u{a0}m³", feet(board_feet), rounded(metres, 4)),
        None => feet(board_feet),
    }
}

/// A difference with its sign: `+1.40 bd ft`.
pub fn signed(value: Decimal, shown: impl Fn(Decimal) -> String) -> String {
    match value.is_sign_positive() && !value.is_zero() {
        true => format!("+{}", shown(value)),
        false => shown(value),
    }
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
    let words = &ui.w.planks;
    match decision {
        Some(Decision::Take) => words.bought,
        Some(Decision::Leave) => words.rejected,
        Some(Decision::SetAside) => words.held,
        None => words.undecided,
    }
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
    }
    said.join(", ")
}
