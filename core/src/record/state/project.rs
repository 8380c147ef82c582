//! The entries of a log projected into the state of everything.
//!
//! The result depends on which entries there are, and on nothing else: not on the order in which they
//! came, nor on any clock. What begins something is read before what is said about it.

use crate::order;
use crate::record::log::EventStatus;
use crate::record::log::id::Id;
use crate::record::log::mark::plain_mark;
use crate::record::log::order_of_entries::{in_order, in_their_places};
use crate::record::log::related_pieces::related;
use crate::record::log::standing::EventStatuses;
use crate::record::log::{Entry, Event, Log};
use crate::record::state::origin::{
    PieceOrigin, begin_piece, delete_origins, note_origin, origins_of, same_pieces,
};
use crate::record::state::visits_piles_pieces::BlanksWanted;
use crate::record::state::{HistoryLine, Judgement, Note, PassedLot, Recorded, Wood};
use crate::record::state::{Piece, Pile, State, Visit};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

impl State {
    /// The state of everything that a log says.
    pub fn project(log: &Log) -> Self {
        let mut state = Self::project_entries(log.entries());
        // Lines that are not in force say nothing, but their running numbers are not missing.
        for entry in log.lines_beside() {
            state.numbers.note(entry);
        }
        state
    }

    /// The state that the entries tell. Each entry must be given once; their order does not matter.
    pub fn project_entries<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Self {
        let ordered = in_order(entries);
        let mut statuses = EventStatuses::settle(&ordered);
        let mut state = State::default();
        state.fold(&ordered, &statuses);
        state.undone = order::map_of(statuses.undone());
        state.disputes = std::mem::take(&mut statuses.disputes);
        order::sort_by_key(&mut state.disputes, |d| (d.of, d.in_force()));
        state
    }

    /// Adds an entry that comes last in the order of the fold and changes nothing before it: it is folded
    /// as all others were. `false`, with nothing changed, where the whole must be folded again.
    pub fn append(&mut self, entry: &Entry) -> bool {
        // Of entries at one step, one may be a damaged copy of another.
        let last = self
            .last
            .is_none_or(|last| last < entry.order() && last.0 != entry.step);
        let may = match entry.supersedes.as_slice() {
            [] => self.changes_nothing_before(entry),
            [replaced] => self.is_a_visit_anew(entry, *replaced),
            _ => false,
        };
        if !last || !may || self.says_of_deleted(entry) {
            return false;
        }
        if let [replaced] = entry.supersedes.as_slice() {
            self.replace_in_history(entry, *replaced);
        }
        self.fold(&[entry], &EventStatuses::default());
        true
    }

    /// Whether an entry that replaces none leaves all that was folded as it is: it begins nothing that was
    /// spoken of before, and no mark a second time.
    fn changes_nothing_before(&self, entry: &Entry) -> bool {
        let known = |id: &Id| {
            self.visits.contains_key(id)
                || self.piles.contains_key(id)
                || self.pieces.contains_key(id)
                || self.same.contains_key(id)
                || self.orphans.contains_key(id)
        };
        let opens = match entry.event {
            Event::SamePlank(_) | Event::ConflictSettled(_) | Event::ImportUndone(_) => {
                return false;
            }
            Event::VisitOpened(_) | Event::PileOpened(_) | Event::WoodAdded(_) => true,
            _ => false,
        };
        let begun = |(id, origin): &(Id, PieceOrigin<'_>)| {
            known(id) || self.marks_given.contains_key(&plain_mark(origin.mark))
        };
        !(opens && known(&entry.about) || origins_of(entry, true).iter().any(begun))
    }

    /// Whether an entry says anew on what terms a visit is, in place of the one in force, as it is when a
    /// spec is changed; what was found on the visit stays as it is.
    fn is_a_visit_anew(&self, entry: &Entry, replaced: Id) -> bool {
        let disputed = || self.disputes.iter().any(|one| one.about == entry.about);
        let visit = self.visits.get(&entry.about);
        matches!(entry.event, Event::VisitOpened(_))
            && visit.is_some_and(|visit| !visit.withdrawn && visit.recorded.entry == replaced)
            && !disputed()
    }

    fn replace_in_history(&mut self, entry: &Entry, replaced: Id) {
        let visit = self.visits.get_mut(&entry.about);
        for line in visit.into_iter().flat_map(|visit| &mut visit.history) {
            let by_it = line.standing == EventStatus::Replaced { by: replaced };
            if line.entry == replaced || by_it {
                line.standing = EventStatus::Replaced { by: entry.id };
            }
        }
    }

    /// Lays entries over what is known, in the order of the fold: all of a record over nothing, or those
    /// that come after it and change nothing of it.
    fn fold(&mut self, ordered: &[&Entry], statuses: &EventStatuses) {
        let mut origins = BTreeMap::new();
        let mut told = false;
        for entry in ordered {
            let in_force = statuses.of(entry.id) == EventStatus::InForce;
            match &entry.event {
                Event::SamePlank(of) if in_force => {
                    let pair = (entry.about.min(of.other), entry.about.max(of.other));
                    self.told.insert(pair, of.same);
                    told = true;
                }
                _ => self.open(entry, statuses.of(entry.id)),
            }
            for (id, origin) in origins_of(entry, in_force) {
                note_origin(&mut origins, id, origin);
            }
        }
        self.note_deleted(ordered, statuses);
        delete_origins(&mut origins, &self.told, |begun| match begun.in_force {
            true => self.pile_is_deleted(begun.pile),
            false => matches!(statuses.of(begun.entry.id), EventStatus::TakenBack { .. }),
        });
        if told {
            self.same = same_pieces(&self.told, &origins);
        }
        self.begin_pieces(origins);
        self.join_piles(ordered);
        for entry in ordered {
            self.apply(entry, statuses.of(entry.id));
        }
        for (place, entry) in in_their_places(ordered) {
            if statuses.of(entry.id) == EventStatus::InForce {
                self.work_in_turn(entry, place);
            }
        }
        self.end_of_work(ordered);
    }

    /// Visits, piles and woods begin; of several openings the last in force counts.
    fn open(&mut self, entry: &Entry, standing: EventStatus) {
        let id = entry.about;
        let in_force = standing == EventStatus::InForce;
        let withdrawn = !in_force;
        if matches!(
            entry.event,
            Event::VisitOpened(_) | Event::PileOpened(_) | Event::WoodAdded(_)
        ) {
            self.begun.entry(id).or_default().push(entry.id);
        }
        match &entry.event {
            Event::VisitOpened(opened) => match self.visits.get_mut(&id) {
                Some(visit) => {
                    if matches!(
                        standing,
                        EventStatus::InForce | EventStatus::Replaced { .. }
                    ) {
                        visit.wanted.said_anew(opened, entry.order());
                    }
                    if in_force {
                        visit.recorded = Recorded::of(entry);
                        visit.opened = (**opened).clone();
                        visit.withdrawn = false;
                    }
                }
                None => {
                    self.visits.insert(
                        id,
                        Visit {
                            id,
                            recorded: Recorded::of(entry),
                            opened: (**opened).clone(),
                            wanted: BlanksWanted::opened(opened, entry.order()),
                            piles: BTreeSet::new(),
                            yard_total: None,
                            notes: Vec::new(),
                            history: Vec::new(),
                            withdrawn,
                        },
                    );
                }
            },
            Event::PileOpened(opened) if in_force || !self.piles.contains_key(&id) => {
                self.piles.insert(
                    id,
                    Pile {
                        id,
                        recorded: Recorded::of(entry),
                        opened: (**opened).clone(),
                        pieces: BTreeSet::new(),
                        passed: Vec::new(),
                        notes: Vec::new(),
                        history: Vec::new(),
                        withdrawn,
                    },
                );
            }
            _ => {}
        }
    }

    fn begin_pieces(&mut self, mut origins: BTreeMap<Id, PieceOrigin<'_>>) {
        for (&id, origin) in &mut origins {
            if self.stands_for(id) == id {
                self.pieces.insert(id, Box::new(begin_piece(id, origin)));
            }
        }
        for (&id, origin) in &origins {
            let first = self.stands_for(id);
            if let Some(piece) = self.pieces.get_mut(&first) {
                if first != id {
                    piece.also.push(id);
                }
                if origin.in_force || first == id {
                    piece.by.insert(origin.entry.by.clone());
                    piece.marks.insert(origin.mark.to_owned());
                }
            }
        }
        self.tell_marks_apart(origins.keys());
    }

    /// Marks that were given twice are told apart on every screen: the second of these pieces that carries
    /// one is shown with a number behind it.
    fn tell_marks_apart<'a>(&mut self, begun: impl Iterator<Item = &'a Id>) {
        let mut given: BTreeMap<String, Vec<(NaiveDate, Id)>> = BTreeMap::new();
        let pieces = begun.filter_map(|id| self.pieces.get(id));
        for piece in pieces.filter(|piece| !piece.withdrawn) {
            let pieces = given.entry(plain_mark(&piece.mark)).or_default();
            pieces.push((piece.recorded.on, piece.id));
        }
        for pieces in given.values_mut().filter(|pieces| pieces.len() > 1) {
            order::sort(pieces);
            for (number, (_, id)) in (2_usize..).zip(&pieces[1..]) {
                if let Some(piece) = self.pieces.get_mut(id) {
                    piece.mark = format!("{} ({number})", piece.mark);
                }
            }
        }
        let counted = given.into_iter();
        self.marks_given
            .extend(counted.map(|(mark, pieces)| (mark, pieces.len())));
    }

    /// Planks join the piles, and piles the visits, that they were found on.
    fn join_piles(&mut self, entries: &[&Entry]) {
        for entry in entries {
            let id = entry.about;
            match &entry.event {
                Event::Marked(_) => {
                    let Some(piece) = self.pieces.get(&id) else {
                        continue;
                    };
                    if let Some(pile) = self.piles.get_mut(&piece.pile)
                        && piece.is_from_yard()
                    {
                        pile.pieces.insert(id);
                    }
                }
                Event::PileOpened(_) => {
                    let Some(pile) = self.piles.get(&id).filter(|pile| !pile.withdrawn) else {
                        continue;
                    };
                    if let Some(visit) = self.visits.get_mut(&pile.opened.visit) {
                        visit.piles.insert(id);
                    }
                }
                _ => {}
            }
        }
    }

    /// What an entry says of what has begun.
    fn apply(&mut self, entry: &Entry, standing: EventStatus) {
        self.last = self.last.max(Some(entry.order()));
        self.numbers.note(entry);
        self.devices.note_marks(entry);
        let in_force = standing == EventStatus::InForce;
        let line = HistoryLine {
            entry: entry.id,
            standing,
        };
        match &entry.event {
            Event::Unknown { .. } => self.newer.push(entry.id),
            Event::WoodAdded(added) => {
                if in_force {
                    let wood = Wood {
                        about: entry.about,
                        entry: entry.id,
                        added: (**added).clone(),
                    };
                    self.woods.insert(added.id.clone(), wood);
                }
                return;
            }
            Event::DeviceRenamed(renamed) => {
                if in_force {
                    self.devices.rename(renamed);
                }
                return;
            }
            Event::ImportUndone(_)
            | Event::RoomRead(_)
            | Event::StageSet(_)
            | Event::GluingSet(_)
            | Event::TargetSet(_) => return,
            Event::Marked(marked) if !self.piles.contains_key(&marked.pile) => {
                self.wait(marked.pile, entry.id);
            }
            Event::PileOpened(pile) if !self.visits.contains_key(&pile.visit) => {
                self.wait(pile.visit, entry.id);
            }
            Event::SamePlank(told) => self.tell(entry, told.other, line),
            _ => {}
        }
        let first = self.stands_for(entry.about);
        if let Some(piece) = self.pieces.get_mut(&first) {
            piece.history.push(line);
            if in_force {
                say_of_piece(piece, entry);
            }
        } else if let Some(pile) = self.piles.get_mut(&entry.about) {
            pile.history.push(line);
            if in_force {
                say_of_pile(pile, entry);
            }
        } else if let Some(visit) = self.visits.get_mut(&entry.about) {
            visit.history.push(line);
            if in_force {
                say_of_visit(visit, entry);
            }
        } else if !matches!(entry.event, Event::Unknown { .. })
            && !self.begun.contains_key(&entry.about)
        {
            self.wait(entry.about, entry.id);
        }
        self.tell_related(entry, line);
    }

    /// The pieces that an entry is about as well: its line stands in their history too.
    fn tell_related(&mut self, entry: &Entry, line: HistoryLine) {
        let about = self.stands_for(entry.about);
        let related = order::map_of(
            related(&entry.event)
                .into_iter()
                .map(|id| (self.stands_for(id), id)),
        );
        for (first, id) in related {
            match self.pieces.get_mut(&first) {
                Some(_) if first == about => {}
                Some(piece) => piece.history.push(line),
                None => self.wait(id, entry.id),
            }
        }
    }

    fn tell(&mut self, entry: &Entry, other: Id, line: HistoryLine) {
        let (first, second) = (self.stands_for(entry.about), self.stands_for(other));
        match self.pieces.get_mut(&second) {
            Some(_) if first == second => {}
            Some(piece) => piece.history.push(line),
            None => self.wait(other, entry.id),
        }
    }

    fn wait(&mut self, missing: Id, entry: Id) {
        self.orphans.entry(missing).or_default().push(entry);
    }
}

fn note(entry: &Entry, text: &str) -> Note {
    Note {
        entry: entry.id,
        on: entry.on,
        text: text.to_owned(),
    }
}

fn say_of_piece(piece: &mut Piece, entry: &Entry) {
    match &entry.event {
        Event::Measured(measured) => piece.lay(entry.id, measured),
        Event::Judged(judged) => piece.judgements.push(Judgement {
            entry: entry.id,
            on: entry.on,
            judged: judged.clone(),
        }),
        Event::YardLine(line) => {
            let (said, known) = piece.yard_line.get_or_insert_default();
            said.push(entry.id);
            *known = line.over(known);
        }
        Event::Noted(noted) => piece.notes.push(note(entry, &noted.text)),
        _ => {}
    }
}

fn say_of_pile(pile: &mut Pile, entry: &Entry) {
    match &entry.event {
        Event::PassedOver(passed) => pile.passed.push(PassedLot {
            entry: entry.id,
            on: entry.on,
            count: passed.count,
            reasons: passed.reasons.clone(),
        }),
        Event::Noted(noted) => pile.notes.push(note(entry, &noted.text)),
        _ => {}
    }
}

fn say_of_visit(visit: &mut Visit, entry: &Entry) {
    match &entry.event {
        Event::YardTotal(total) => {
            let (said, known) = visit.yard_total.get_or_insert_default();
            said.push(entry.id);
            *known = total.over(known);
        }
        Event::Noted(noted) => visit.notes.push(note(entry, &noted.text)),
        _ => {}
    }
}
