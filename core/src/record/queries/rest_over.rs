//! The days on which a rest is over, for a calendar of any kind, and those that were told of before
//! and will not come.
//!
//! It writes no file and remembers nothing: what was told of before is passed in.

use crate::order;
use crate::record::queries;
use crate::record::queries::rests::place_of;
use crate::record::state::Life;
use crate::record::state::{Piece, State};
use crate::season::{CalendarDay, Published, Stage, due_day};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// What was set to rest in one stage on one day.
type Lot = (Stage, NaiveDate);

fn uid_of((stage, since): Lot) -> String {
    format!("{}-{since}@stillwood", stage.name())
}

/// The marks, in the order of the alphabet.
fn marks(pieces: &[&Piece]) -> String {
    let mut marks: Vec<&str> = pieces.iter().map(|piece| piece.mark.as_str()).collect();
    order::sort(&mut marks);
    marks.join(", ")
}

/// What became of a piece that no longer rests so, in the trade's words.
fn instead(piece: &Piece) -> String {
    match (piece.life().0, piece.work.rest()) {
        _ if piece.withdrawn => "deleted".to_owned(),
        (Life::Resting(_) | Life::Reserved, _) if piece.work.downgraded.is_some() => {
            "downgraded".to_owned()
        }
        (Life::Resting(_) | Life::Reserved, Some(rest)) => {
            format!("set to rest anew {}", rest.on)
        }
        (life, _) => life.in_words().to_owned(),
    }
}

/// The days on which a rest is over, for a calendar: one for all that was set to rest in one
/// stage on one day. A day keeps its UID when the terms change. A day that was told of before and of
/// which nothing rests any more is cancelled, and says what became of its wood. `sequence` is a number
/// that only grows, such as the record's step; it is raised over what was told before.
pub fn calendar_days(state: &State, sequence: u32, before: &Published) -> Vec<CalendarDay> {
    let sequence = sequence.max(before.sequence.saturating_add(1));
    let mut lots: BTreeMap<Lot, Vec<&Piece>> = BTreeMap::new();
    for piece in queries::stock(state).filter(|piece| piece.work.downgraded.is_none()) {
        if let Some(rest) = piece.work.rest() {
            let lot = lots.entry((rest.payload.stage, rest.on)).or_default();
            lot.push(piece);
        }
    }
    let over = |(lot, pieces): (&Lot, &Vec<&Piece>)| rest_over_day(state, *lot, pieces, sequence);
    let mut days: Vec<CalendarDay> = lots.iter().filter_map(over).collect();
    let told = order::set_of(days.iter().map(|day| day.uid.clone()));
    let gone: Vec<(&String, &NaiveDate)> = before
        .days
        .iter()
        .filter(|(uid, _)| !told.contains(*uid))
        .collect();
    if !gone.is_empty() {
        let rested = ever_rested(state);
        let cancelled = |(uid, on): (&String, &NaiveDate)| {
            let pieces = rested.get(uid).map_or(&[][..], Vec::as_slice);
            cancelled_day(uid, *on, pieces, sequence)
        };
        days.extend(gone.into_iter().map(cancelled));
    }
    order::sort_by_key(&mut days, |day| (day.on, day.uid.clone()));
    days
}

fn rest_over_day(
    state: &State,
    (stage, since): Lot,
    pieces: &[&Piece],
    sequence: u32,
) -> Option<CalendarDay> {
    let places = order::set_of(pieces.iter().map(|piece| place_of(piece)));
    let places: Vec<String> = places.into_iter().filter(|p| !p.is_empty()).collect();
    Some(CalendarDay {
        uid: uid_of((stage, since)),
        sequence,
        on: due_day(since, queries::stage_limits(state, stage).months).ok()?,
        summary: format!(
            "Rest over: {} {} set to rest {since}",
            pieces.len(),
            stage.name()
        ),
        description: marks(pieces),
        place: places.join(", "),
        cancelled: false,
    })
}

/// All that was ever set to rest, whatever came of it, by the UID of its day.
fn ever_rested(state: &State) -> BTreeMap<String, Vec<&Piece>> {
    let mut rested: BTreeMap<String, Vec<&Piece>> = BTreeMap::new();
    for piece in state.pieces() {
        for rest in &piece.work.rests {
            let lot = rested
                .entry(uid_of((rest.payload.stage, rest.on)))
                .or_default();
            lot.push(piece);
        }
    }
    rested
}

fn cancelled_day(uid: &str, on: NaiveDate, pieces: &[&Piece], sequence: u32) -> CalendarDay {
    let mut became: BTreeMap<String, Vec<&Piece>> = BTreeMap::new();
    for piece in pieces {
        became.entry(instead(piece)).or_default().push(piece);
    }
    let told = |(what, of): (String, Vec<&Piece>)| format!("{what}: {}", marks(&of));
    let told: Vec<String> = became.into_iter().map(told).collect();
    let what = uid.strip_suffix("@stillwood").unwrap_or(uid);
    let (stage, since) = what.split_once('-').unwrap_or((what, ""));
    CalendarDay {
        uid: uid.to_owned(),
        sequence,
        on,
        summary: format!("Gone: {stage} set to rest {since}"),
        description: if told.is_empty() {
            "deleted".to_owned()
        } else {
            told.join("; ")
        },
        place: String::new(),
        cancelled: true,
    }
}
