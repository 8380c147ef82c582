//! The yard's own tally beside ours: its total, or a line.

use super::FieldKind;
use super::filled::NewEvent;
use crate::quantity::read::{NotAnAmount, amount, under_a_thousand};
use crate::record::log::{Event, Id, Withdrawn, YardFigures};
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

    /// The stored name of a figure in it.
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

    /// The figure in it.
    pub fn of(self, figures: &mut YardFigures) -> &mut Option<Decimal> {
        match self {
            YardUnit::BoardFeet => &mut figures.board_feet,
            YardUnit::CubicMetres => &mut figures.cubic_metres,
            YardUnit::Money => &mut figures.money,
        }
    }
}

/// The yard's total as it is typed; `None` where it is as it was.
pub fn total(state: &State, visit: Id, typed: YardFigures) -> Option<NewEvent> {
    let known = state
        .visit(visit)
        .and_then(|visit| visit.yard_total.clone());
    let (entries, before) = known.unwrap_or_default();
    let event = (typed != YardFigures::default()).then(|| Event::YardTotal(typed.clone()));
    (typed != before).then(|| written(visit, entries, event))
}

/// The yard's line for a plank as it is typed; `None` where it is as it was.
pub fn line(state: &State, piece: Id, typed: YardFigures) -> Option<NewEvent> {
    let known = state.piece(piece).and_then(|piece| piece.yard_line.clone());
    let (entries, before) = known.unwrap_or_default();
    let event = (typed != YardFigures::default()).then(|| Event::YardLine(typed.clone()));
    (typed != before).then(|| written(piece, entries, event))
}

/// What is typed in place of all that was said before, which two devices may have said apart; where nothing is, that
/// is taken back.
fn written(about: Id, before: Vec<Id>, event: Option<Event>) -> NewEvent {
    let event = event.unwrap_or(Event::Withdrawn(Withdrawn {}));
    NewEvent::instead_of(about, event, before)
}
