//! What is likely to be done next with a piece, by where it is in its life: what a maker is offered first
//! who stands in front of it.
//!
//! It decides nothing and closes nothing off: all else can be done as well.

use crate::record::log::PieceKind;
use crate::record::queries::Waits;
use crate::record::state::Piece;
use crate::season::{DateKey, InRoom, MeasureKey, Readiness, Ready, is_look_old};
use chrono::NaiveDate;

/// Something that is likely next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NextStep {
    PutOnShelf,
    Weigh,
    ReadMoisture,
    CheckMovement,
    Machine,
    /// Its rings and its grain are looked at.
    SeeGrain,
    TestStress,
    SetToRest,
    Cut,
    /// It is glued up.
    Glue,
    /// It is kept for somebody.
    Reserve,
    /// It is free again.
    Release,
    Use,
    ThrowOut,
}

impl NextStep {
    pub const ALL: &'static [NextStep] = &[
        NextStep::PutOnShelf,
        NextStep::Weigh,
        NextStep::ReadMoisture,
        NextStep::CheckMovement,
        NextStep::Machine,
        NextStep::SeeGrain,
        NextStep::TestStress,
        NextStep::SetToRest,
        NextStep::Cut,
        NextStep::Glue,
        NextStep::Reserve,
        NextStep::Release,
        NextStep::Use,
        NextStep::ThrowOut,
    ];
}

/// What is likely next on a day with a piece at hand, the likeliest first, two or three of them; `waits` is
/// what it waits for.
pub fn likely_next(piece: &Piece, waits: Option<&Waits>, today: NaiveDate) -> Vec<NextStep> {
    use NextStep::*;
    let work = &piece.work;
    if work.missing.is_some() {
        return vec![PutOnShelf, ThrowOut];
    }
    if work.downgraded.is_some() {
        return vec![Use, PutOnShelf];
    }
    match waits {
        Some(Waits::Rest(_, Ok(ready))) => at_rest(piece, ready, today),
        Some(Waits::Rest(_, Err(_))) => vec![CheckMovement, Weigh],
        Some(Waits::Room(room)) => in_the_room(piece, room.as_ref().ok()),
        None if work.kind == PieceKind::Plank => vec![PutOnShelf, Weigh, ReadMoisture],
        None if work.machined.is_empty() => vec![Machine, SetToRest, Weigh],
        None => vec![SetToRest, Weigh, CheckMovement],
    }
}

/// A plank that gets used to the room.
fn in_the_room(piece: &Piece, room: Option<&InRoom>) -> Vec<NextStep> {
    use NextStep::*;
    let mut next = match room {
        Some(room) if room.may_be_cut() => vec![Cut, Weigh],
        Some(room) if room.ready() == Ready::NotKnown => vec![Weigh, Cut],
        _ => vec![Weigh, ReadMoisture],
    };
    next.extend(piece.work.tests.is_empty().then_some(TestStress));
    next
}

fn at_rest(piece: &Piece, ready: &Readiness, today: NaiveDate) -> Vec<NextStep> {
    use NextStep::*;
    let kept = piece.is_kept_on(today);
    let on = goes_on(piece, kept);
    let looked = piece.work.checks.last();
    let is_old = looked.is_some_and(|look| is_look_old(look.on, today));
    match (ready.measure, ready.date) {
        // What moved is flattened and rests again; it is discarded where that does not help.
        (MeasureKey::Moved, _) => vec![Machine, ThrowOut, CheckMovement],
        (_, DateKey::Resting | DateKey::DueSoon) => vec![CheckMovement, Weigh, ReadMoisture],
        (MeasureKey::WeightChanging, _) => vec![Weigh, CheckMovement, on],
        (MeasureKey::WeightNotKnown, _) => vec![Weigh, on, CheckMovement],
        // It was still, and nobody has looked for long: it is looked at before it goes on.
        (MeasureKey::Still, _) if is_old => vec![CheckMovement, on, Weigh],
        (MeasureKey::Still, _) => vec![on, then(piece, kept), CheckMovement],
        // A plank is looked at again as it is cut.
        (_, _) if piece.work.kind == PieceKind::Plank => vec![on, CheckMovement, Weigh],
        (_, _) => vec![CheckMovement, on, Weigh],
    }
}

fn goes_on(piece: &Piece, kept: bool) -> NextStep {
    match piece.work.kind {
        PieceKind::Plank | PieceKind::Piece => NextStep::Cut,
        PieceKind::Laminate => NextStep::Glue,
        PieceKind::Blank if kept => NextStep::Use,
        PieceKind::Blank => NextStep::Reserve,
    }
}

fn then(piece: &Piece, kept: bool) -> NextStep {
    match piece.work.kind {
        PieceKind::Laminate if piece.work.grain.is_empty() => NextStep::SeeGrain,
        PieceKind::Blank if kept => NextStep::Release,
        _ => NextStep::Weigh,
    }
}
