//! The yard's own tally beside ours: a figure of its total, or of a line.

use super::FieldKind;
use super::field_error::{FieldError, FieldErrors};
use super::filled::{Filled, NewEvent};
use crate::quantity::read::{NotAnAmount, amount, under_a_thousand};
use crate::record::log::{Event, Id, Withdrawn, YardLine, YardTotal};
use crate::record::state::State;
use rust_decimal::Decimal;

/// What the yard counts in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YardUnit {
    /// Board feet.
    BoardFeet,
    /// Cubic metres.
    CubicMetres,
    /// Money.
    Money,
}

impl YardUnit {
    /// All of them.
    pub const ALL: [YardUnit; 3] = [YardUnit::BoardFeet, YardUnit::CubicMetres, YardUnit::Money];

    /// The name under which a figure in it is told to be wrong.
    pub fn key(self) -> &'static str {
        match self {
            YardUnit::BoardFeet => "board_feet",
            YardUnit::CubicMetres => "cubic_metres",
            YardUnit::Money => "money",
        }
    }

    /// What may be typed as a figure in it.
    pub fn kind(self) -> FieldKind {
        match self {
            YardUnit::BoardFeet | YardUnit::Money => FieldKind::Money,
            YardUnit::CubicMetres => FieldKind::Plain,
        }
    }

    /// Reads a figure in it; nothing typed is none.
    pub fn read(self, typed: &str) -> Result<Option<Decimal>, NotAnAmount> {
        match self {
            YardUnit::BoardFeet | YardUnit::Money => amount(typed),
            YardUnit::CubicMetres => under_a_thousand(typed),
        }
    }

    /// The figure of a line.
    pub fn of_line(self, line: &mut YardLine) -> &mut Option<Decimal> {
        match self {
            YardUnit::BoardFeet => &mut line.board_feet,
            YardUnit::CubicMetres => &mut line.cubic_metres,
            YardUnit::Money => &mut line.money,
        }
    }

    /// The figure of a total.
    pub fn of_total(self, total: &mut YardTotal) -> &mut Option<Decimal> {
        match self {
            YardUnit::BoardFeet => &mut total.board_feet,
            YardUnit::CubicMetres => &mut total.cubic_metres,
            YardUnit::Money => &mut total.money,
        }
    }
}

/// A figure of the yard's total; nothing typed takes it away. Without an event where it is as it was.
pub fn total(state: &State, visit: Id, unit: YardUnit, typed: &str) -> Result<Filled, FieldErrors> {
    let known = state
        .visit(visit)
        .and_then(|visit| visit.yard_total.clone());
    let (entry, before) = known.unzip();
    let before = before.unwrap_or_default();
    let mut total = before.clone();
    *unit.of_total(&mut total) = figure(unit, typed)?;
    let event = (total != YardTotal::default()).then(|| Event::YardTotal(total.clone()));
    Ok(written(
        visit,
        entry,
        event.filter(|_| total != before),
        total == before,
    ))
}

/// A figure of the yard's line for a plank; nothing typed takes it away. Without an event where it is as it was.
pub fn line(state: &State, piece: Id, unit: YardUnit, typed: &str) -> Result<Filled, FieldErrors> {
    let known = state.piece(piece).and_then(|piece| piece.yard_line.clone());
    let (entry, before) = known.unzip();
    let before = before.unwrap_or_default();
    let mut line = before.clone();
    *unit.of_line(&mut line) = figure(unit, typed)?;
    let event = (line != YardLine::default()).then(|| Event::YardLine(line.clone()));
    Ok(written(
        piece,
        entry,
        event.filter(|_| line != before),
        line == before,
    ))
}

fn figure(unit: YardUnit, typed: &str) -> Result<Option<Decimal>, FieldErrors> {
    unit.read(typed).map_err(|why| {
        let (typed, why) = (typed.trim().to_owned(), why.to_string());
        FieldErrors::at(unit.key(), FieldError::NotRead { typed, why })
    })
}

/// A figure in place of the one before; none takes it back.
fn written(about: Id, before: Option<Id>, event: Option<Event>, as_it_was: bool) -> Filled {
    let events = match (event, before) {
        _ if as_it_was => Vec::new(),
        (Some(event), before) => {
            let before = before.into_iter().collect();
            vec![NewEvent::instead_of(about, event, before)]
        }
        (None, Some(before)) => {
            let withdrawn = Event::Withdrawn(Withdrawn {});
            vec![NewEvent::instead_of(about, withdrawn, vec![before])]
        }
        (None, None) => Vec::new(),
    };
    Filled::of(events)
}
