//! The table as rows of text for a spreadsheet: plain numbers with a point, the units in the headings.

use crate::record::log::Decision;
use crate::record::queries::Called;
use crate::record::queries::table::row::PlankRow;
use crate::trade::cubic_metres;
use crate::verdict::Recommendation;
use rust_decimal::Decimal;

pub const HEADINGS: [&str; 26] = [
    "mark",
    "yard",
    "day",
    "wood",
    "length mm",
    "width mm",
    "thickness mm",
    "weight kg",
    "moisture %",
    "density at 12 % kg/m3",
    "score of 100",
    "verdict",
    "weakest",
    "decision",
    "main reason",
    "other reasons",
    "board feet by the yard's rule",
    "m3 by the yard's rule",
    "cost without tax",
    "cost with tax",
    "currency",
    "parts",
    "cost a part with tax",
    "notes",
    "invoice",
    "country of harvest",
];

fn number(value: Option<f64>, places: usize) -> String {
    value.map_or_else(String::new, |value| format!("{value:.places$}"))
}

fn decimal(value: Option<Decimal>, places: u32) -> String {
    value.map_or_else(String::new, |value| value.round_dp(places).to_string())
}

/// The headings and a row for each plank, for [`crate::record::queries::to_csv`]. It is for the maker's eye and is never
/// read again: headings, woods and the words in cells are as they are `called`, where they are. Numbers keep their point,
/// so that a table saved in one language stands below one saved in another.
pub fn table_rows<'a>(
    rows: impl IntoIterator<Item = &'a PlankRow>,
    called: Called<'_>,
) -> Vec<Vec<String>> {
    let headings = HEADINGS.iter().map(|text| say(text, called)).collect();
    let mut out: Vec<Vec<String>> = vec![headings];
    out.extend(rows.into_iter().map(|row| cells(row, called)));
    out
}

fn say(name: &str, called: Called<'_>) -> String {
    called(name).unwrap_or_else(|| name.to_owned())
}

fn cells(row: &PlankRow, called: Called<'_>) -> Vec<String> {
    let say = |name: &str| say(name, called);
    let reasons = row.reasons.iter().map(|reason| say(reason.name()));
    let reasons: Vec<String> = reasons.collect();
    let (main, others) = match reasons.split_first() {
        Some((main, others)) => (main.clone(), others.join("; ")),
        None => (String::new(), String::new()),
    };
    vec![
        row.mark.clone(),
        row.yard.clone(),
        row.on.to_string(),
        say(&row.species),
        number(row.length_mm, 1),
        number(row.width_mm, 1),
        number(row.thickness_mm, 1),
        number(row.mass_kg, 2),
        number(row.moisture, 1),
        number(row.density_at_12, 0),
        number(row.score, 0),
        say(row.recommendation.map_or("", recommended)),
        say(row.weakest.unwrap_or_default()),
        say(row.decision.map_or("", decided)),
        main,
        others,
        decimal(row.board_feet, 2),
        decimal(row.board_feet.and_then(cubic_metres), 5),
        decimal(row.money.map(|money| money.net), 2),
        decimal(row.money.map(|money| money.gross), 2),
        row.currency.clone(),
        row.parts.map_or_else(String::new, |n| n.to_string()),
        decimal(row.cost_per_part, 2),
        row.notes.join("; "),
        row.invoice.clone(),
        row.country_of_harvest.clone(),
    ]
}

/// What was decided, in the file's word.
fn decided(decision: Decision) -> &'static str {
    match decision {
        Decision::Take => "bought",
        Decision::Leave => "rejected",
        Decision::SetAside => "held",
    }
}

/// What the evaluation recommends, in the file's words.
fn recommended(recommendation: Recommendation) -> &'static str {
    match recommendation {
        Recommendation::NothingYet => "nothing judged yet",
        Recommendation::Refused => "reject it",
        Recommendation::TooClose => "too close to call",
        Recommendation::GoodSoFar => "good as far as looked at",
        Recommendation::Good => "buy it",
    }
}
