//! What is due: all wood that waits for a day, what rests and the planks that get used to the room, in the
//! order of the days.
//!
//! The day is passed in. Each line is told once.

use crate::order;
use crate::quantity::Mass;
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::RestLine;
use crate::record::queries::marks::compare_marks;
use crate::record::queries::rests::place_of;
use crate::record::state::{Piece, State};
use crate::season::{
    DateKey, InRoom, MeasureKey, Readiness, Ready, RestError, Stage, in_room, is_look_old,
};
use chrono::{Datelike, NaiveDate};
use std::collections::BTreeMap;

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Waits {
    Rest(Stage, Result<Readiness, RestError>),
    /// A plank, that it may be cut.
    Room(Result<InRoom, RestError>),
}

/// Wood that waits for a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Due {
    pub piece: Id,
    pub mark: String,
    /// Of what it is: a piece or a laminate of a plank, a plank of a pile; a blank of nothing.
    pub of: Option<Id>,
    /// Its rack; empty where none was said.
    pub place: String,
    pub since: NaiveDate,
    /// It is kept for somebody on that day.
    pub reserved: bool,
    /// The day of its last look, if any: a rest that is over on an old look is looked at again.
    pub looked_at: Option<NaiveDate>,
    pub waits: Waits,
}

/// A stretch of the order by day, the first one first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DueWhen {
    /// Its day has come, and what is measured does not say that it may go on.
    Late,
    /// Its day has come and it was still, but nobody has looked for long.
    LookAgain,
    /// Its day has come and it kept its shape, but its weight is not known.
    WeightNotKnown,
    /// It may go on.
    Ready,
    MayBeCut,
    ThisWeek,
    /// Later in the month of today.
    ThisMonth,
    /// In a month, told by its first day.
    Month(NaiveDate),
    /// No day can be given.
    NoDay,
}

impl Due {
    pub fn name(&self) -> &'static str {
        match self.waits {
            Waits::Rest(stage, _) => stage.name(),
            Waits::Room(_) => PieceKind::Plank.name(),
        }
    }

    pub fn day(&self) -> Option<NaiveDate> {
        match &self.waits {
            Waits::Rest(_, ready) => ready.as_ref().ok().map(|ready| ready.due),
            Waits::Room(room) => room.as_ref().ok().map(|room| room.from),
        }
    }

    /// How the date's key stands.
    pub fn date_key(&self) -> Option<DateKey> {
        match &self.waits {
            Waits::Rest(_, ready) => ready.as_ref().ok().map(|ready| ready.date),
            Waits::Room(room) => room.as_ref().ok().map(|room| room.date),
        }
    }

    /// What is measured says that it may go on, and its day has not come.
    pub fn is_early(&self) -> bool {
        matches!(&self.waits, Waits::Rest(_, Ok(ready)) if ready.is_early())
    }

    /// All that it waited for has come.
    pub fn is_ready(&self) -> bool {
        match &self.waits {
            Waits::Rest(_, ready) => ready.is_ok_and(|ready| ready.is_ready()),
            Waits::Room(room) => room.is_ok_and(|room| room.may_be_cut()),
        }
    }

    /// Its day has come and nothing else speaks against it, but its weight is not known.
    fn lacks_only_its_weight(&self) -> bool {
        match &self.waits {
            Waits::Rest(_, ready) => ready.is_ok_and(|ready| ready.lacks_only_its_weight()),
            Waits::Room(room) => room.is_ok_and(|room| room.ready() == Ready::NotKnown),
        }
    }

    /// Its day has come, and it was not looked over often enough to tell how it stands.
    pub fn lacks_looks(&self) -> bool {
        let open = [MeasureKey::NotChecked, MeasureKey::TooClose];
        matches!(&self.waits, Waits::Rest(_, Ok(ready)) if open.contains(&ready.measure))
    }

    /// Its last look is too long ago to tell how it stands.
    pub fn is_look_old(&self, today: NaiveDate) -> bool {
        self.looked_at
            .is_some_and(|looked| is_look_old(looked, today))
    }

    /// Its weight says that it has not come to rest.
    pub fn weight_changes(&self) -> bool {
        match &self.waits {
            Waits::Rest(_, ready) => {
                ready.is_ok_and(|ready| ready.measure == MeasureKey::WeightChanging)
            }
            Waits::Room(room) => room.is_ok_and(|room| room.weight_at_rest == Some(false)),
        }
    }

    /// Where it stands in the order by day.
    pub fn when(&self, today: NaiveDate) -> DueWhen {
        let Some((key, day)) = self.date_key().zip(self.day()) else {
            return DueWhen::NoDay;
        };
        match key {
            DateKey::RestOver if self.is_ready() => match self.waits {
                Waits::Rest(..) if self.is_look_old(today) => DueWhen::LookAgain,
                Waits::Rest(..) => DueWhen::Ready,
                Waits::Room(_) => DueWhen::MayBeCut,
            },
            DateKey::RestOver if self.lacks_only_its_weight() => DueWhen::WeightNotKnown,
            DateKey::RestOver => DueWhen::Late,
            DateKey::DueSoon => DueWhen::ThisWeek,
            DateKey::Resting if (day.year(), day.month()) == (today.year(), today.month()) => {
                DueWhen::ThisMonth
            }
            DateKey::Resting => DueWhen::Month(day.with_day(1).unwrap_or(day)),
        }
    }
}

/// Lines by day; in each stretch they stay in their order.
pub fn due_by_day(lines: Vec<Due>, today: NaiveDate) -> Vec<(DueWhen, Vec<Due>)> {
    let mut stretches: BTreeMap<DueWhen, Vec<Due>> = BTreeMap::new();
    for line in lines {
        stretches.entry(line.when(today)).or_default().push(line);
    }
    stretches.into_iter().collect()
}

/// Since when a plank gets used to the room before it is cut; `None` for what is no plank of the
/// maker's, rests, was put to another use or never put in its place.
pub fn in_room_since(piece: &Piece) -> Option<NaiveDate> {
    let work = &piece.work;
    let waits = work.kind == PieceKind::Plank
        && work.rest().is_none()
        && work.downgraded.is_none()
        && piece.is_at_hand()
        && piece.is_bought();
    work.came.filter(|_| waits)
}

/// How it stands, by its weeks and its weighings. `scale` as for [`queries::drying_report`]. All screens ask this.
pub fn resting_in_room(
    state: &State,
    piece: &Piece,
    today: NaiveDate,
    scale: Mass,
) -> Option<Result<InRoom, RestError>> {
    let came = in_room_since(piece)?;
    Some(in_room(
        came,
        weeks_before_cut(state),
        today,
        queries::weight_at_rest(state, piece, scale),
    ))
}

/// Weeks that a plank lies in the room before it is cut, by the terms in force.
pub fn weeks_before_cut(state: &State) -> u32 {
    queries::stage_limits(state, Stage::Pieces).weeks_before_cut()
}

/// All that waits for a day, that of the first day in front, then by mark: what rests, see
/// [`queries::resting`], and the planks that get used to the room.
pub fn due(state: &State, resting: Vec<RestLine>, today: NaiveDate, scale: Mass) -> Vec<Due> {
    let mut lines: Vec<Due> = Vec::new();
    lines.extend(resting.into_iter().map(|line| due_of_rest(state, line)));
    let planks = queries::stock(state).filter(|p| p.work.kind == PieceKind::Plank);
    lines.extend(planks.filter_map(|piece| due_in_room(state, piece, today, scale)));
    in_order_of_days(&mut lines);
    lines
}

/// Those of the first day in front, then by mark.
pub fn in_order_of_days(lines: &mut [Due]) {
    order::sort_by(lines, |a, b| {
        let key = |line: &Due| (line.day().is_none(), line.day());
        let by_mark = || compare_marks(&a.mark, &b.mark);
        key(a).cmp(&key(b)).then_with(by_mark)
    });
}

/// A plank that waits to be cut; `None` where it does not.
pub(crate) fn due_in_room(
    state: &State,
    piece: &Piece,
    today: NaiveDate,
    scale: Mass,
) -> Option<Due> {
    let room = resting_in_room(state, piece, today, scale)?;
    Some(Due {
        piece: piece.id,
        mark: piece.mark.clone(),
        of: (!piece.pile.is_nil()).then_some(piece.pile),
        place: place_of(piece),
        since: piece.work.came?,
        reserved: piece.is_kept_on(today),
        looked_at: None,
        waits: Waits::Room(room),
    })
}

pub(crate) fn due_of_rest(state: &State, line: RestLine) -> Due {
    let piece = state.piece(line.piece);
    let cut = piece.filter(|p| matches!(p.work.kind, PieceKind::Piece | PieceKind::Laminate));
    Due {
        piece: line.piece,
        of: cut.and_then(|piece| queries::plank_of(state, piece)),
        mark: line.mark,
        place: line.place,
        since: line.since,
        reserved: line.reserved,
        looked_at: piece.and_then(|piece| Some(piece.work.checks.last()?.on)),
        waits: Waits::Rest(line.stage, line.ready),
    }
}
