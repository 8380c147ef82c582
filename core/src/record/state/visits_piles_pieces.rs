//! The state of every visit, pile and piece, as the entries tell it.
//!
//! A state is projected from the entries and never edited. It holds nothing that they do not say.

use crate::order;
use crate::plank::{DefectFound, Field, Reading, Readings, Reason};
use crate::record::log::id::Id;
use crate::record::log::witness_stick::StickWeighed;
use crate::record::log::{
    Decision, Dispute, Entry, EventStatus, Judged, Measured, PileOpened, SpeciesNamed, VisitOpened,
    WoodAdded, YardFigures,
};
use crate::record::log::{GluingSet, RoomRead, TargetSet};
use crate::record::state::devices::Devices;
use crate::record::state::memo::{Memo, StateVersion};
use crate::record::state::numbers::Numbers;
use crate::record::state::{Dated, Origin, PieceConflict, Work};
use crate::season::{Stage, StageLimits};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// Who recorded something, and when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recorded {
    pub entry: Id,
    pub by: String,
    /// The day, as the maker says.
    pub on: NaiveDate,
    /// What the clock said.
    pub at: String,
}

impl Recorded {
    pub(crate) fn of(entry: &Entry) -> Self {
        Self {
            entry: entry.id,
            by: entry.by.clone(),
            on: entry.on,
            at: entry.at.clone(),
        }
    }
}

/// A line of a history: every entry about a thing, in force or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HistoryLine {
    pub entry: Id,
    pub standing: EventStatus,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    pub entry: Id,
    pub on: NaiveDate,
    pub text: String,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    pub id: Id,
    /// Who opened it, and when.
    pub recorded: Recorded,
    /// The terms in force.
    pub opened: VisitOpened,
    /// Since when it buys for as many blanks as it does.
    pub(crate) wanted: BlanksWanted,
    /// Its piles, those taken back left out.
    pub piles: BTreeSet<Id>,
    /// The yard's own total, of each figure the last that was said, and the entries that say so.
    pub yard_total: Option<(Vec<Id>, YardFigures)>,
    pub notes: Vec<Note>,
    /// Every entry about it.
    pub history: Vec<HistoryLine>,
    /// It was taken back.
    pub withdrawn: bool,
}

/// For how many blanks a visit buys, and since when.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct BlanksWanted {
    blanks: u32,
    /// The place of the entry that said so in the order of the entries.
    pub(crate) said: (u64, Id),
    /// It was changed on the visit itself, after it was opened.
    pub(crate) changed: bool,
}

impl BlanksWanted {
    /// As a visit is opened.
    pub(crate) fn opened(terms: &VisitOpened, place: (u64, Id)) -> Self {
        Self {
            blanks: terms.spec.blanks_wanted,
            said: place,
            changed: false,
        }
    }

    /// The visit's terms are said anew.
    pub(crate) fn said_anew(&mut self, terms: &VisitOpened, place: (u64, Id)) {
        if terms.spec.blanks_wanted != self.blanks {
            *self = Self {
                changed: true,
                ..Self::opened(terms, place)
            };
        }
    }
}

/// Planks looked at together and left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PassedLot {
    pub entry: Id,
    pub on: NaiveDate,
    pub count: u32,
    /// Why, the main reason first.
    pub reasons: Vec<Reason>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Pile {
    pub id: Id,
    /// Who began it, and when.
    pub recorded: Recorded,
    pub opened: PileOpened,
    /// Its pieces (the maybes), those taken back left out.
    pub pieces: BTreeSet<Id>,
    /// What was looked at and left in the quick sort.
    pub passed: Vec<PassedLot>,
    pub notes: Vec<Note>,
    /// Every entry about it.
    pub history: Vec<HistoryLine>,
    /// It was taken back.
    pub withdrawn: bool,
}

impl Pile {
    /// How many planks were left in the quick sort.
    pub fn passed_over(&self) -> u64 {
        self.passed.iter().map(|lot| u64::from(lot.count)).sum()
    }

    /// How many planks are worth a second look.
    pub fn maybes(&self) -> u64 {
        self.pieces.len() as u64
    }

    pub fn looked_at(&self) -> u64 {
        self.passed_over() + self.maybes()
    }

    /// How many were left for each reason; `None` is without a reason. One with several reasons counts for each.
    pub fn left_for(&self) -> BTreeMap<Option<Reason>, u64> {
        let mut counts = BTreeMap::new();
        let mut add = |reason, lot: &PassedLot| {
            *counts.entry(reason).or_default() += u64::from(lot.count);
        };
        for lot in &self.passed {
            if lot.reasons.is_empty() {
                add(None, lot);
            }
            lot.reasons
                .iter()
                .for_each(|reason| add(Some(*reason), lot));
        }
        counts
    }
}

/// A reading in use, where it is from, and those before it.
#[derive(Debug, Clone, PartialEq)]
pub struct CurrentReading {
    /// The reading in use: the latest.
    pub taken: Reading,
    pub entry: Id,
    /// Readings of the same field before it, oldest first.
    pub earlier: Vec<(Id, Reading)>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    pub entry: Id,
    pub on: NaiveDate,
    pub judged: Judged,
}

/// So many defects of a piece are looked through for one like a new one.
const FEW_DEFECTS: usize = 32;

/// A piece of wood: a plank, which more than one phone may have recorded, or what was made of one.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its id: the smallest of those told to be the same.
    pub id: Id,
    /// The other ids under which it was recorded.
    pub also: Vec<Id>,
    /// Who gave it its mark, and when.
    pub recorded: Recorded,
    /// All devices that gave it a mark.
    pub by: BTreeSet<String>,
    pub mark: String,
    pub marks: BTreeSet<String>,
    /// Its pile; of what was cut, that of the plank. A blank has none (the nil id): its laminates may
    /// come from several.
    pub pile: Id,
    /// The entries in force that measured it, oldest first.
    pub measured: Vec<Id>,
    pub readings: BTreeMap<Field, CurrentReading>,
    /// Defects found, with the entry that says so.
    pub defects: Vec<(Id, DefectFound)>,
    /// The same as texts, where they are many: to know one again.
    pub(crate) defects_in_full: BTreeSet<String>,
    /// The wood, where it is not as the pile says.
    pub species: Option<(Id, SpeciesNamed)>,
    /// All judgements, oldest first; the last is in force.
    pub judgements: Vec<Judgement>,
    /// The yard's own line, of each figure the last that was said, and the entries that say so.
    pub yard_line: Option<(Vec<Id>, YardFigures)>,
    pub notes: Vec<Note>,
    /// What the workshop says of it.
    pub work: Work,
    /// Every entry about it.
    pub history: Vec<HistoryLine>,
    /// It was taken back.
    pub withdrawn: bool,
    /// It was taken back because the maker deleted it, or all that it was made of.
    pub(crate) deleted: bool,
}

impl Piece {
    /// A plank as found in a yard, not taken back.
    pub fn is_from_yard(&self) -> bool {
        !self.withdrawn && self.work.origin == Origin::Yard
    }

    pub fn judgement(&self) -> Option<&Judgement> {
        self.judgements.last()
    }

    pub fn decision(&self) -> Option<Decision> {
        self.judgement().map(|j| j.judged.decision)
    }

    /// The value in use for a field, in the unit in which the field is kept.
    pub fn value(&self, field: Field) -> Option<f64> {
        self.reading(field).map(|taken| taken.value)
    }

    pub fn reading(&self, field: Field) -> Option<&Reading> {
        self.readings.get(&field).map(|held| &held.taken)
    }

    pub fn readings_in_use(&self) -> Readings {
        crate::order::map_of(
            self.readings
                .iter()
                .map(|(field, held)| (*field, held.taken.clone())),
        )
    }

    pub fn defects_found(&self) -> Vec<DefectFound> {
        self.defects.iter().map(|(_, d)| d.clone()).collect()
    }

    /// Lays a measurement over what is known.
    pub(crate) fn lay(&mut self, entry: Id, measured: &Measured) {
        self.measured.push(entry);
        for (field, taken) in &measured.readings {
            let taken = taken.clone();
            match self.readings.get_mut(field) {
                Some(held) => {
                    let before = std::mem::replace(&mut held.taken, taken);
                    held.earlier.push((held.entry, before));
                    held.entry = entry;
                }
                None => {
                    let earlier = Vec::new();
                    self.readings.insert(
                        *field,
                        CurrentReading {
                            taken,
                            entry,
                            earlier,
                        },
                    );
                }
            }
        }
        for defect in &measured.defects {
            if self.is_new(defect) {
                self.defects.push((entry, defect.clone()));
            }
        }
        if let Some(species) = &measured.species {
            self.species = Some((entry, species.clone()));
        }
    }

    /// Whether a defect was not found before. It is called once for each, and counts it as found.
    fn is_new(&mut self, defect: &DefectFound) -> bool {
        if self.defects.len() < FEW_DEFECTS {
            return self.defects.iter().all(|(_, known)| known != defect);
        }
        let in_full = |defect: &DefectFound| format!("{defect:?}");
        if self.defects_in_full.is_empty() {
            let known = self.defects.iter().map(|(_, known)| in_full(known));
            self.defects_in_full = order::set_of(known);
        }
        self.defects_in_full.insert(in_full(defect))
    }
}

/// A wood of the maker's own.
#[derive(Debug, Clone, PartialEq)]
pub struct Wood {
    pub about: Id,
    pub entry: Id,
    pub added: WoodAdded,
}

#[derive(Debug, Clone, Default, PartialEq)]
pub struct State {
    pub(crate) visits: BTreeMap<Id, Visit>,
    pub(crate) piles: BTreeMap<Id, Pile>,
    /// Each lies by itself, so that a piece is found by going through ids and nothing else.
    pub(crate) pieces: BTreeMap<Id, Box<Piece>>,
    pub(crate) woods: BTreeMap<String, Wood>,
    /// The entries that begin each visit, pile and wood of the maker's own: the first and those that
    /// changed it, in the order of the fold.
    pub(crate) begun: BTreeMap<Id, Vec<Id>>,
    /// The id that stands for a piece told to be the same as others.
    pub(crate) same: BTreeMap<Id, Id>,
    /// Pairs that the maker has spoken about, the smaller id first.
    pub(crate) told: BTreeMap<(Id, Id), bool>,
    pub(crate) disputes: Vec<Dispute>,
    pub(crate) orphans: BTreeMap<Id, Vec<Id>>,
    pub(crate) newer: Vec<Id>,
    pub(crate) piece_conflicts: Vec<PieceConflict>,
    pub(crate) rooms: BTreeMap<String, Vec<Dated<RoomRead>>>,
    /// Weighings of witness sticks, by their names, in the order of the days.
    pub(crate) sticks: BTreeMap<String, Vec<Dated<StickWeighed>>>,
    pub(crate) stages: BTreeMap<Stage, Dated<StageLimits>>,
    pub(crate) target: Option<Dated<TargetSet>>,
    pub(crate) gluing: Option<Dated<GluingSet>>,
    /// Entries taken out of force because the import that brought them was undone, with the entry that
    /// says so.
    pub(crate) undone: BTreeMap<Id, Id>,
    /// Visits and piles that the maker deleted, each with the entry that says so.
    pub(crate) deleted: BTreeMap<Id, Id>,
    pub(crate) devices: Devices,
    /// How many pieces carry a mark, as it is compared.
    pub(crate) marks_given: BTreeMap<String, usize>,
    pub(crate) numbers: Numbers,
    pub(crate) last: Option<(u64, Id)>,
    pub(crate) memo: Memo,
}

impl State {
    /// What tells this state from the same one before another entry came.
    pub(crate) fn version(&self) -> StateVersion {
        (self.last, self.pieces.len())
    }

    /// The visits, those taken back left out.
    pub fn visits(&self) -> impl Iterator<Item = &Visit> {
        self.visits.values().filter(|visit| !visit.withdrawn)
    }

    /// The visit that was made last; of several on one day that with the last id.
    pub fn last_visit(&self) -> Option<&Visit> {
        self.visits()
            .max_by_key(|visit| (visit.recorded.on, visit.id))
    }

    /// The piles, those taken back left out.
    pub fn piles(&self) -> impl Iterator<Item = &Pile> {
        self.piles.values().filter(|pile| !pile.withdrawn)
    }

    /// The pieces, each once, those taken back left out.
    pub fn pieces(&self) -> impl Iterator<Item = &Piece> {
        self.pieces
            .values()
            .map(Box::as_ref)
            .filter(|piece| !piece.withdrawn)
    }

    /// The planks found in yards, each once, those taken back left out.
    pub fn planks(&self) -> impl Iterator<Item = &Piece> {
        self.pieces
            .values()
            .map(Box::as_ref)
            .filter(|piece| piece.is_from_yard())
    }

    /// A visit, also one that was taken back.
    pub fn visit(&self, id: Id) -> Option<&Visit> {
        self.visits.get(&id)
    }

    /// A pile, also one that was taken back.
    pub fn pile(&self, id: Id) -> Option<&Pile> {
        self.piles.get(&id)
    }

    /// A piece under any of its ids, also one that was taken back.
    pub fn piece(&self, id: Id) -> Option<&Piece> {
        self.pieces.get(&self.stands_for(id)).map(Box::as_ref)
    }

    pub fn pieces_of(&self, pile: Id) -> impl Iterator<Item = &Piece> {
        let ids = self.piles.get(&pile).map(|pile| &pile.pieces);
        ids.into_iter()
            .flatten()
            .filter_map(|id| self.pieces.get(id).map(Box::as_ref))
    }

    pub fn piles_of(&self, visit: Id) -> impl Iterator<Item = &Pile> {
        let ids = self.visits.get(&visit).map(|visit| &visit.piles);
        ids.into_iter()
            .flatten()
            .filter_map(|id| self.piles.get(id))
    }

    pub fn visit_of(&self, piece: &Piece) -> Option<&Visit> {
        self.visit(self.pile(piece.pile)?.opened.visit)
    }

    /// The entries that say how a visit, a pile or a wood of the maker's own begins, changes among them:
    /// to take it back is to take all of them back, or the one before the last would count again.
    pub fn begun_by(&self, id: Id) -> Vec<Id> {
        self.begun.get(&id).cloned().unwrap_or_default()
    }

    /// Woods of the maker's own, by their ids.
    pub fn woods(&self) -> &BTreeMap<String, Wood> {
        &self.woods
    }

    /// The entry that took another out of force, because the import that brought it was undone.
    pub fn undone_by(&self, entry: Id) -> Option<Id> {
        self.undone.get(&entry).copied()
    }

    /// Corrections made apart, still to be settled.
    pub fn disputes(&self) -> &[Dispute] {
        &self.disputes
    }

    /// Entries that only a newer version understands.
    pub fn newer(&self) -> &[Id] {
        &self.newer
    }

    pub(crate) fn stands_for(&self, id: Id) -> Id {
        self.same.get(&id).copied().unwrap_or(id)
    }
}
