//! Decimals of core as texts with their unit: volume and money. It rounds for show only. No line breaks
//! between a number and its unit.

use rust_decimal::{Decimal, RoundingStrategy};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_mm, show};
use stillwood_core::record::InHandCount;
use stillwood_core::trade::{TallyLine, cubic_metres};

fn rounded(value: Decimal, places: u32) -> Decimal {
    let mut rounded = value.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
    rounded.rescale(places);
    rounded
}

/// `166.84 EUR`; the number alone where no currency was given.
pub(crate) fn money(value: Decimal, currency: &str) -> String {
    let number = rounded(value, 2).to_string().replace('-', "−");
    if currency.is_empty() {
        number
    } else {
        format!("{number}\u{a0}{currency}")
    }
}

/// A figure in large letters, which may take two lines where letters are larger still.
pub(crate) fn breakable(figure: String) -> String {
    figure.replace('\u{a0}', " ")
}

/// `11.51 bf`.
pub(crate) fn feet(value: Decimal) -> String {
    format!("{}\u{a0}bf", rounded(value, 2)).replace('-', "−")
}

/// `0.0272 m³`.
pub(crate) fn metres(value: Decimal) -> String {
    format!("{}\u{a0}m³", rounded(value, 4)).replace('-', "−")
}

/// Board feet and cubic metres of one volume.
pub(crate) fn volume(board_feet: Decimal) -> String {
    match cubic_metres(board_feet) {
        Some(in_metres) => format!("{} · {}", feet(board_feet), metres(in_metres)),
        None => feet(board_feet),
    }
}

/// A difference with its sign: `+1.40 bf`.
pub(crate) fn signed(value: Decimal, shown: impl Fn(Decimal) -> String) -> String {
    if value.is_sign_positive() && !value.is_zero() {
        format!("+{}", shown(value))
    } else {
        shown(value)
    }
}

/// Length × width × thickness of a plank as charged.
pub(crate) fn size(line: &TallyLine, units: Units) -> String {
    let sawn = &line.sawn;
    show::sizes(
        [sawn.length, sawn.width, sawn.thickness].map(|size| size.map(in_mm)),
        units,
    )
}

/// A number of things: `1 plank`, `2 planks`.
pub(crate) fn counted(count: usize, one: &str, several: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {several}"),
    }
}

/// What is in hand: `2 planks, 3 pieces, 8 laminates, 1 blank, about 20 laminates to come of planks and
/// pieces`; parts where a blank is of one piece.
pub(crate) fn in_hand_words(count: &InHandCount, per_blank: u32) -> String {
    let kinds = [
        (count.planks, "plank", "planks"),
        (count.pieces, "piece", "pieces"),
        (count.laminates, "laminate", "laminates"),
        (count.blanks, "blank", "blanks"),
    ];
    let some = kinds.into_iter().filter(|(count, _, _)| *count > 0);
    let mut words: Vec<String> = some.map(|(n, one, more)| counted(n, one, more)).collect();
    if words.is_empty() {
        return "nothing".to_owned();
    }
    if count.planks + count.pieces > 0 {
        let of = match (count.planks, count.pieces) {
            (_, 0) => "the planks",
            (0, _) => "the pieces",
            _ => "planks and pieces",
        };
        let unknown = match count.unknown {
            0 => String::new(),
            some => format!("; none can be told of {some}"),
        };
        let expected = match per_blank {
            1 => counted(count.expected as usize, "part", "parts"),
            _ => counted(count.expected as usize, "laminate", "laminates"),
        };
        words.push(format!("about {expected} to come of {of}{unknown}"));
    }
    words.join(", ")
}
