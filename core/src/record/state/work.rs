//! What the workshop's entries say of one piece: where it came from, where it is, and what became of it.
//!
//! Part of the state that is projected from the entries; never edited, and no clock is asked: what is due
//! today is told by the queries.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::{
    Child, Cut, Discarded, Downgraded, Glued, GrainSeen, Machined, MoistureRead, MovementChecked,
    PieceKind, Reserved, SetToRest, StressTested, Used, Weighed,
};
use crate::season::Stage;
use chrono::NaiveDate;
use std::sync::Arc;

/// What was said, by which entry, and on which day it happened.
#[derive(Debug, Clone, PartialEq)]
pub struct Dated<T> {
    pub entry: Id,
    /// The day, as the maker says.
    pub on: NaiveDate,
    /// Its place in the order of the entries; of a correction, that of what it corrects.
    pub place: (u64, Id),
    pub payload: T,
}

impl<T> Dated<T> {
    /// Lays it over what was said before, unless that is of a later day.
    pub(crate) fn lay_over(self, known: &mut Option<Self>) {
        if known.as_ref().is_none_or(|known| known.on <= self.on) {
            *known = Some(self);
        }
    }
}

/// Puts what was said in the order of the days; of one day it stays in the order of the entries.
pub(crate) fn by_days<T>(said: &mut [Dated<T>]) {
    if !said.is_sorted_by_key(|one| one.on) {
        order::sort_by_key(said, |one| one.on);
    }
}

/// Where a piece came from.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    Yard,
    /// Cut from another piece.
    CutFrom {
        parent: Id,
        cut: Id,
        place: Box<Child>,
    },
    GluedFrom {
        glue: Id,
        /// Its laminates and how they were glued.
        glued: Box<Glued>,
    },
}

/// What became of a piece.
#[derive(Debug, Clone, PartialEq)]
pub enum End {
    Cut(Arc<Cut>),
    GluedInto(Id),
    /// Discarded, in the stage in which it rested last.
    Discarded(Discarded, Option<Stage>),
    Used(Used),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Life {
    /// Found at the yard, not decided.
    AtYard,
    Left,
    /// Bought, and not yet put in a place of the workshop.
    Bought,
    InShop,
    Resting(Stage),
    /// Kept for somebody.
    Reserved,
    Missing,
    /// Cut into others.
    Cut,
    GluedInto(Id),
    /// Discarded.
    Discarded,
    /// In an instrument, or handed over.
    Used,
    /// The entry that it begins with is set aside by a clash.
    Unresolved,
}

impl Life {
    /// In the trade's words.
    pub fn in_words(self) -> &'static str {
        match self {
            Life::AtYard => "at the yard",
            Life::Left => "rejected at the yard",
            Life::Bought => "bought",
            Life::InShop => "in the workshop",
            Life::Resting(_) => "resting",
            Life::Reserved => "reserved",
            Life::Missing => "missing",
            Life::Cut => "cut",
            Life::GluedInto(_) => "glued up",
            Life::Discarded => "discarded",
            Life::Used => "used",
            Life::Unresolved => "in doubt",
        }
    }
}

/// What the workshop says of a piece. What holds now (where it lies, in which stage it rests, that it is missing, to
/// what it was put) is what was said of the latest day, and of one day what was said last: a forgotten day that is
/// told later changes nothing of what came after it. Lists are in the same order.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    pub kind: PieceKind,
    pub origin: Origin,
    pub end: Option<Dated<End>>,
    /// The entry that it begins with, where that is set aside.
    pub unresolved: Option<Id>,
    /// Where it was put. See [`Work::place`].
    pub places: Vec<Dated<String>>,
    /// The first day on which it was put in a place of the workshop.
    pub came: Option<NaiveDate>,
    /// It can't be found; whatever puts it somewhere, of whichever day, says that it was found.
    pub missing: Option<Dated<()>>,
    /// For whom it is kept, until it is released; whether that still holds on a day, it says itself.
    pub reserved: Option<Dated<Reserved>>,
    /// To what it was put instead of a neck.
    pub downgraded: Option<Dated<Downgraded>>,
    /// Its rests; the last is the one that counts.
    pub rests: Vec<Dated<Arc<SetToRest>>>,
    pub weighings: Vec<Dated<Arc<Weighed>>>,
    /// What the meter showed.
    pub moistures: Vec<Dated<Arc<MoistureRead>>>,
    pub checks: Vec<Dated<Arc<MovementChecked>>>,
    pub machined: Vec<Dated<Machined>>,
    pub tests: Vec<Dated<StressTested>>,
    /// When its rings and its grain were looked at.
    pub grain: Vec<Dated<GrainSeen>>,
}

impl Work {
    pub(crate) fn new(kind: PieceKind, origin: Origin) -> Self {
        Self {
            kind,
            origin,
            end: None,
            unresolved: None,
            places: Vec::new(),
            came: None,
            missing: None,
            reserved: None,
            downgraded: None,
            rests: Vec::new(),
            weighings: Vec::new(),
            moistures: Vec::new(),
            checks: Vec::new(),
            machined: Vec::new(),
            tests: Vec::new(),
            grain: Vec::new(),
        }
    }

    /// Puts all that is listed in the order of the days, and forgets that it was missing where it was put in a place
    /// or set to rest on a later day.
    pub(crate) fn by_days(&mut self) {
        by_days(&mut self.rests);
        by_days(&mut self.places);
        by_days(&mut self.weighings);
        by_days(&mut self.moistures);
        by_days(&mut self.checks);
        by_days(&mut self.machined);
        by_days(&mut self.grain);
        by_days(&mut self.tests);
        let rested = self.rests.last().map(|rest| rest.on);
        let seen = rested.max(self.place().map(|place| place.on));
        self.missing.take_if(|missing| Some(missing.on) < seen);
    }

    /// What was seen of its rings and its grain, the last word on each.
    pub fn grain_seen(&self) -> GrainSeen {
        let all = self.grain.iter().map(|said| said.payload.clone());
        all.reduce(|before, after| after.after(before))
            .unwrap_or_default()
    }

    /// Where it was put last.
    pub fn place(&self) -> Option<&Dated<String>> {
        self.places.last()
    }

    /// Where it lay on a day; before the first day that is known, where it was put first.
    pub(crate) fn place_on(&self, day: NaiveDate) -> Option<&Dated<String>> {
        let until = self.places.partition_point(|put| put.on <= day);
        self.places.get(until.saturating_sub(1))
    }

    pub fn rest(&self) -> Option<&Dated<Arc<SetToRest>>> {
        self.rests.last()
    }

    /// The parent, of a piece that was cut.
    pub fn parent(&self) -> Option<Id> {
        match &self.origin {
            Origin::CutFrom { parent, .. } => Some(*parent),
            _ => None,
        }
    }
}
