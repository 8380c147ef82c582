//! What the workshop's entries do to the state: pieces begin and end, and conflicts between entries are found.
//!
//! Called for entries in force, each in its place in the order of the entries. An entry that ends wood which is already gone
//! changes nothing but the list of conflicts, and leaves what it would have begun unresolved.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::witness_stick::stick_of;
use crate::record::log::{Child, PieceKind};
use crate::record::log::{Entry, Event};
use crate::record::state::work::by_days;
use crate::record::state::{Dated, End, Life, Origin, PieceConflict, PieceConflictKind};
use crate::record::state::{Piece, State};
use std::collections::BTreeSet;
use std::sync::Arc;

/// So many clashes are looked at one by one.
const FEW_CONFLICTS: usize = 16;

/// An entry, and its place in the order of the entries.
#[derive(Clone, Copy)]
struct EventInItsPlace<'a> {
    entry: &'a Entry,
    place: (u64, Id),
}

impl EventInItsPlace<'_> {
    fn dated<T>(self, payload: T) -> Dated<T> {
        Dated {
            entry: self.entry.id,
            on: self.entry.on,
            place: self.place,
            payload,
        }
    }
}

impl State {
    /// Once entries had their turn: the lists that they added to are put in the order of the days, all at
    /// once, for one by one it takes long where the last day was recorded first.
    pub(crate) fn end_of_work(&mut self, entries: &[&Entry]) {
        if entries.len() < self.pieces.len() {
            let about = entries.iter().map(|entry| self.stands_for(entry.about));
            for id in order::set_of(about) {
                if let Some(piece) = self.pieces.get_mut(&id) {
                    piece.work.by_days();
                }
            }
        } else {
            // To look at all of them is less than to find which are spoken of.
            self.pieces
                .values_mut()
                .for_each(|piece| piece.work.by_days());
        }
        let sticks = entries
            .iter()
            .filter_map(|entry| Some(stick_of(&entry.event, entry.about)?.0));
        for stick in order::set_of(sticks) {
            if let Some(weighings) = self.sticks.get_mut(&stick) {
                by_days(weighings);
            }
        }
        let rooms = entries.iter().filter_map(|entry| match &entry.event {
            Event::RoomRead(read) => Some(&read.room),
            _ => None,
        });
        for room in order::set_of(rooms) {
            if let Some(readings) = self.rooms.get_mut(room) {
                by_days(readings);
            }
        }
        self.find_circles();
    }

    /// Where wood is in doubt because its family goes in a circle, the clash says so.
    fn find_circles(&mut self) {
        let open = |piece_conflict: &PieceConflict| {
            matches!(
                piece_conflict.why,
                PieceConflictKind::Unresolved | PieceConflictKind::InACircle
            )
        };
        let open: Vec<usize> = (0..self.piece_conflicts.len())
            .filter(|at| open(&self.piece_conflicts[*at]))
            .collect();
        // A few are looked at one by one.
        let all = (open.len() > FEW_CONFLICTS).then(|| self.lineages());
        for at in open {
            let about = self.piece_conflicts[at].about;
            let circle = match &all {
                Some(all) => all.goes_in_a_circle(about),
                None => self.goes_in_a_circle(about),
            };
            self.piece_conflicts[at].why = match circle {
                true => PieceConflictKind::InACircle,
                false => PieceConflictKind::Unresolved,
            };
        }
    }

    /// What an entry in force does, in its place; what is listed is not yet in the order of the days, see
    /// [`Self::end_of_work`].
    pub(crate) fn work_in_turn(&mut self, entry: &Entry, place: (u64, Id)) {
        let event_in_place = EventInItsPlace { entry, place };
        if let Some((stick, weighed)) = stick_of(&entry.event, entry.about) {
            let weighings = self.sticks.entry(stick).or_default();
            weighings.push(event_in_place.dated(weighed));
        }
        match &entry.event {
            Event::Cut(cut) => {
                let end = End::Cut(Arc::clone(cut));
                let begun: Vec<Id> = cut.children.iter().map(|child| child.id).collect();
                if self.may_end(entry, &[entry.about], &begun) {
                    for child in &cut.children {
                        self.begin_child(entry, child);
                    }
                    self.end(event_in_place, entry.about, end);
                }
            }
            Event::Glued(glued) => {
                let members: Vec<Id> = glued.members.iter().map(|m| m.piece).collect();
                if self.may_end(entry, &members, &[entry.about]) {
                    let into = self.stands_for(entry.about);
                    if let Some(blank) = self.pieces.get_mut(&into) {
                        blank.work.unresolved = None;
                        blank.work.kind = PieceKind::Blank;
                        match &blank.work.origin {
                            // As it began with this very entry.
                            Origin::GluedFrom { glue, .. } if *glue == entry.id => {}
                            _ => {
                                blank.work.origin = Origin::GluedFrom {
                                    glue: entry.id,
                                    glued: glued.clone(),
                                };
                            }
                        }
                    }
                    for member in members {
                        self.end(event_in_place, member, End::GluedInto(into));
                    }
                }
            }
            Event::Discarded(discarded) => {
                if self.may_end(entry, &[entry.about], &[]) {
                    let piece = self.piece(entry.about);
                    let rests = piece.map(|piece| piece.work.rests.as_slice());
                    let rest = rests.into_iter().flatten().max_by_key(|rest| rest.on);
                    let stage = rest.map(|rest| rest.payload.stage);
                    let end = End::Discarded(discarded.clone(), stage);
                    self.end(event_in_place, entry.about, end);
                }
            }
            Event::Used(used) => {
                if self.may_end(entry, &[entry.about], &[]) {
                    self.end(event_in_place, entry.about, End::Used(used.clone()));
                }
            }
            Event::Reserved(_) => self.reserve(event_in_place),
            Event::RoomRead(read) => {
                let room = self.rooms.entry(read.room.clone()).or_default();
                room.push(event_in_place.dated((**read).clone()));
            }
            Event::StageSet(set) => {
                self.stages
                    .insert(set.stage, event_in_place.dated(set.terms));
            }
            Event::TargetSet(wished) => {
                self.target = Some(event_in_place.dated((**wished).clone()))
            }
            Event::GluingSet(set) => self.gluing = Some(event_in_place.dated(**set)),
            _ => {
                let id = self.stands_for(entry.about);
                if let Some(piece) = self.pieces.get_mut(&id) {
                    say(piece, event_in_place);
                }
            }
        }
    }

    /// Whether an entry may end these pieces and begin those; where not, the clash is noted. A piece that
    /// is not here is waited for and stands in nobody's way.
    fn may_end(&mut self, entry: &Entry, ends: &[Id], begins: &[Id]) -> bool {
        let piece_conflict = self.conflict_of(entry, ends, begins);
        // Discarded twice is discarded.
        let agreed = |piece_conflict: &PieceConflict| {
            piece_conflict.why == PieceConflictKind::GoneAlready
                && matches!(entry.event, Event::Discarded(_))
                && self.piece(entry.about).map(|p| p.life().0) == Some(Life::Discarded)
        };
        // Deleted wood is gone with all that was made of it: there is nothing to settle. Of a blank with other wood in it
        // there is.
        let is_deleted = |id: &Id| self.piece(*id).is_some_and(|piece| piece.deleted);
        match piece_conflict {
            None => true,
            Some(piece_conflict) => {
                if !agreed(&piece_conflict) && !ends.iter().chain(begins).all(is_deleted) {
                    self.piece_conflicts.push(piece_conflict);
                }
                false
            }
        }
    }

    fn conflict_of(&self, entry: &Entry, ends: &[Id], begins: &[Id]) -> Option<PieceConflict> {
        let piece_conflict = |piece: &Piece, in_force, why| PieceConflict {
            about: piece.id,
            in_force,
            set_aside: entry.id,
            why,
        };
        for id in ends {
            let Some(piece) = self.piece(*id) else {
                continue;
            };
            if piece.withdrawn && !piece.deleted {
                return Some(piece_conflict(piece, None, PieceConflictKind::TakenBack));
            }
            if let Some(begun) = piece.work.unresolved {
                return Some(piece_conflict(
                    piece,
                    Some(begun),
                    PieceConflictKind::Unresolved,
                ));
            }
            if let Some(end) = &piece.work.end {
                return Some(piece_conflict(
                    piece,
                    Some(end.entry),
                    PieceConflictKind::GoneAlready,
                ));
            }
        }
        let mut seen = BTreeSet::new();
        let twins = ends.iter().find(|id| !seen.insert(self.stands_for(**id)));
        if let Some(piece) = twins.and_then(|id| self.piece(*id)) {
            // Two ids that were told to be one piece.
            return Some(piece_conflict(
                piece,
                Some(entry.id),
                PieceConflictKind::GoneAlready,
            ));
        }
        begins.iter().find_map(|id| {
            let piece = self.piece(*id)?;
            let fresh = piece.work.unresolved.is_some();
            (!fresh).then(|| {
                piece_conflict(
                    piece,
                    Some(piece.recorded.entry),
                    PieceConflictKind::BegunAlready,
                )
            })
        })
    }

    fn begin_child(&mut self, entry: &Entry, child: &Child) {
        let parent = self.stands_for(entry.about);
        let pile = self.pieces.get(&parent).map(|piece| piece.pile);
        let id = self.stands_for(child.id);
        if let Some(piece) = self.pieces.get_mut(&id) {
            piece.work.unresolved = None;
            piece.work.kind = child.kind;
            match &mut piece.work.origin {
                // As it began with this very entry.
                Origin::CutFrom {
                    parent: begun_of,
                    cut,
                    place,
                } if *cut == entry.id && **place == *child => *begun_of = parent,
                origin => {
                    *origin = Origin::CutFrom {
                        parent,
                        cut: entry.id,
                        place: Box::new(child.clone()),
                    };
                }
            }
            piece.pile = pile.unwrap_or_default();
        }
    }

    fn end(&mut self, event_in_place: EventInItsPlace<'_>, id: Id, end: End) {
        let id = self.stands_for(id);
        if let Some(piece) = self.pieces.get_mut(&id) {
            piece.work.end = Some(event_in_place.dated(end));
        }
    }

    fn reserve(&mut self, event_in_place: EventInItsPlace<'_>) {
        let entry = event_in_place.entry;
        let Event::Reserved(reserved) = &entry.event else {
            return;
        };
        if !self.may_end(entry, &[entry.about], &[]) {
            return;
        }
        let id = self.stands_for(entry.about);
        let Some(piece) = self.pieces.get_mut(&id) else {
            return;
        };
        match &piece.work.reserved {
            Some(held) if held.payload.name != reserved.name && held.payload.holds_on(entry.on) => {
                self.piece_conflicts.push(PieceConflict {
                    about: id,
                    in_force: Some(held.entry),
                    set_aside: entry.id,
                    why: PieceConflictKind::ReservedAlready,
                });
            }
            _ => piece.work.reserved = Some(event_in_place.dated(reserved.clone())),
        }
    }
}

fn say(piece: &mut Piece, event_in_place: EventInItsPlace<'_>) {
    let work = &mut piece.work;
    match &event_in_place.entry.event {
        Event::Placed(placed) => {
            work.places.push(event_in_place.dated(placed.place.clone()));
            work.missing = None;
            let on = event_in_place.entry.on;
            work.came = Some(work.came.map_or(on, |came| came.min(on)));
        }
        Event::SetToRest(rest) => {
            if !rest.place.is_empty() {
                work.places.push(event_in_place.dated(rest.place.clone()));
            }
            work.missing = None;
            work.rests.push(event_in_place.dated(Arc::clone(rest)));
        }
        Event::Weighed(weighed) => work
            .weighings
            .push(event_in_place.dated(Arc::clone(weighed))),
        Event::MoistureRead(read) => work.moistures.push(event_in_place.dated(Arc::clone(read))),
        Event::MovementChecked(checked) => {
            work.checks.push(event_in_place.dated(Arc::clone(checked)));
        }
        Event::Machined(machined) => {
            work.machined
                .push(event_in_place.dated((**machined).clone()));
        }
        Event::GrainSeen(seen) => work.grain.push(event_in_place.dated((**seen).clone())),
        Event::StressTested(tested) => work.tests.push(event_in_place.dated((**tested).clone())),
        Event::Downgraded(down) => event_in_place
            .dated(down.clone())
            .lay_over(&mut work.downgraded),
        Event::Missing(_) => event_in_place.dated(()).lay_over(&mut work.missing),
        Event::Released(_) => work.reserved = None,
        _ => {}
    }
}
