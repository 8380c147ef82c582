//! What the workshop's entries do to the state: pieces begin and end, and clashes are found.
//!
//! Called for entries in force, each in its place in the order of the fold. An entry that ends wood which is already gone
//! changes nothing but the list of clashes, and leaves what it would have begun in doubt.

use crate::record::log::witness_stick::stick_of;
use crate::record::log::{Child, Kind};
use crate::record::log::{Entry, Happening};
use crate::record::state::work::by_days;
use crate::record::state::{Book, Piece};
use crate::record::state::{Clash, ClashKind, End, Life, Origin, Said};
use std::collections::BTreeSet;
use std::sync::Arc;
use uuid::Uuid;

/// So many clashes are looked at one by one.
const FEW_CLASHES: usize = 16;

/// An entry, and its place in the order of the fold.
#[derive(Clone, Copy)]
struct Happened<'a> {
    entry: &'a Entry,
    place: (u64, Uuid),
}

impl Happened<'_> {
    fn said<T>(self, said: T) -> Said<T> {
        Said {
            entry: self.entry.id,
            on: self.entry.on,
            place: self.place,
            said,
        }
    }
}

impl Book {
    /// What an entry in force does that comes after all others.
    pub(crate) fn work(&mut self, entry: &Entry, place: (u64, Uuid)) {
        self.work_in_turn(entry, place);
        let id = self.stands_for(entry.about);
        if let Some(piece) = self.pieces.get_mut(&id) {
            piece.work.by_days();
        }
        if let Some((stick, _)) = stick_of(&entry.happening, entry.about)
            && let Some(weighings) = self.sticks.get_mut(&stick)
        {
            by_days(weighings);
        }
        if let Happening::RoomRead(read) = &entry.happening
            && let Some(room) = self.rooms.get_mut(&read.room)
        {
            by_days(room);
        }
        self.find_circles();
    }

    /// Once all entries had their turn: what they list is put in the order of the days, all at once, for one by
    /// one it takes long where the last day was recorded first.
    pub(crate) fn end_of_work(&mut self) {
        for piece in self.pieces.values_mut() {
            piece.work.by_days();
        }
        self.sticks.values_mut().for_each(|all| by_days(all));
        self.rooms.values_mut().for_each(|all| by_days(all));
        self.find_circles();
    }

    /// Where wood is in doubt because its family goes in a circle, the clash says so.
    fn find_circles(&mut self) {
        let open = |clash: &Clash| matches!(clash.why, ClashKind::InDoubt | ClashKind::InACircle);
        let open: Vec<usize> = (0..self.clashes.len())
            .filter(|at| open(&self.clashes[*at]))
            .collect();
        // A few are looked at one by one.
        let all = (open.len() > FEW_CLASHES).then(|| self.lineages());
        for at in open {
            let about = self.clashes[at].about;
            let circle = match &all {
                Some(all) => all.goes_in_a_circle(about),
                None => self.goes_in_a_circle(about),
            };
            self.clashes[at].why = match circle {
                true => ClashKind::InACircle,
                false => ClashKind::InDoubt,
            };
        }
    }

    /// What an entry in force does, in its place; what is listed is not yet in the order of the days, see
    /// [`Self::end_of_work`].
    pub(crate) fn work_in_turn(&mut self, entry: &Entry, place: (u64, Uuid)) {
        let happened = Happened { entry, place };
        if let Some((stick, weighed)) = stick_of(&entry.happening, entry.about) {
            let weighings = self.sticks.entry(stick).or_default();
            weighings.push(happened.said(weighed));
        }
        match &entry.happening {
            Happening::Cut(cut) => {
                let end = End::Cut(Arc::clone(cut));
                let begun: Vec<Uuid> = cut.children.iter().map(|child| child.id).collect();
                if self.may_end(entry, &[entry.about], &begun) {
                    for child in &cut.children {
                        self.begin_child(entry, child);
                    }
                    self.end(happened, entry.about, end);
                }
            }
            Happening::Glued(glued) => {
                let members: Vec<Uuid> = glued.members.iter().map(|m| m.piece).collect();
                if self.may_end(entry, &members, &[entry.about]) {
                    let into = self.stands_for(entry.about);
                    if let Some(blank) = self.pieces.get_mut(&into) {
                        blank.work.in_doubt = None;
                        blank.work.kind = Kind::Blank;
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
                        self.end(happened, member, End::GluedInto(into));
                    }
                }
            }
            Happening::Discarded(discarded) => {
                if self.may_end(entry, &[entry.about], &[]) {
                    let piece = self.piece(entry.about);
                    let rest = piece.and_then(|piece| piece.work.rest());
                    let stage = rest.map(|rest| rest.said.stage);
                    let end = End::Discarded(discarded.clone(), stage);
                    self.end(happened, entry.about, end);
                }
            }
            Happening::Used(used) => {
                if self.may_end(entry, &[entry.about], &[]) {
                    self.end(happened, entry.about, End::Used(used.clone()));
                }
            }
            Happening::Reserved(_) => self.reserve(happened),
            Happening::RoomRead(read) => {
                let room = self.rooms.entry(read.room.clone()).or_default();
                room.push(happened.said((**read).clone()));
            }
            Happening::StageSet(set) => {
                self.stages.insert(set.stage, happened.said(set.terms));
            }
            Happening::Wished(wished) => self.wish = Some(happened.said((**wished).clone())),
            Happening::GluingSet(set) => self.gluing = Some(happened.said(**set)),
            _ => {
                let id = self.stands_for(entry.about);
                if let Some(piece) = self.pieces.get_mut(&id) {
                    say(piece, happened);
                }
            }
        }
    }

    /// Whether an entry may end these pieces and begin those; where not, the clash is noted. A piece that
    /// is not here is waited for and stands in nobody's way.
    fn may_end(&mut self, entry: &Entry, ends: &[Uuid], begins: &[Uuid]) -> bool {
        let clash = self.clash_of(entry, ends, begins);
        // Thrown out twice is thrown out.
        let agreed = |clash: &Clash| {
            clash.why == ClashKind::GoneAlready
                && matches!(entry.happening, Happening::Discarded(_))
                && self.piece(entry.about).map(|p| p.life().0) == Some(Life::Discarded)
        };
        match clash {
            None => true,
            Some(clash) => {
                if !agreed(&clash) {
                    self.clashes.push(clash);
                }
                false
            }
        }
    }

    fn clash_of(&self, entry: &Entry, ends: &[Uuid], begins: &[Uuid]) -> Option<Clash> {
        let clash = |piece: &Piece, in_force, why| Clash {
            about: piece.id,
            in_force,
            set_aside: entry.id,
            why,
        };
        for id in ends {
            let Some(piece) = self.piece(*id) else {
                continue;
            };
            if piece.withdrawn {
                return Some(clash(piece, None, ClashKind::TakenBack));
            }
            if let Some(begun) = piece.work.in_doubt {
                return Some(clash(piece, Some(begun), ClashKind::InDoubt));
            }
            if let Some(end) = &piece.work.end {
                return Some(clash(piece, Some(end.entry), ClashKind::GoneAlready));
            }
        }
        let mut seen = BTreeSet::new();
        let twins = ends.iter().find(|id| !seen.insert(self.stands_for(**id)));
        if let Some(piece) = twins.and_then(|id| self.piece(*id)) {
            // Two ids that were told to be one piece.
            return Some(clash(piece, Some(entry.id), ClashKind::GoneAlready));
        }
        begins.iter().find_map(|id| {
            let piece = self.piece(*id)?;
            let fresh = piece.work.in_doubt.is_some();
            (!fresh).then(|| clash(piece, Some(piece.recorded.entry), ClashKind::BegunAlready))
        })
    }

    fn begin_child(&mut self, entry: &Entry, child: &Child) {
        let parent = self.stands_for(entry.about);
        let pile = self.pieces.get(&parent).map(|piece| piece.pile);
        let id = self.stands_for(child.id);
        if let Some(piece) = self.pieces.get_mut(&id) {
            piece.work.in_doubt = None;
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

    fn end(&mut self, happened: Happened<'_>, id: Uuid, end: End) {
        let id = self.stands_for(id);
        if let Some(piece) = self.pieces.get_mut(&id) {
            piece.work.end = Some(happened.said(end));
        }
    }

    fn reserve(&mut self, happened: Happened<'_>) {
        let entry = happened.entry;
        let Happening::Reserved(reserved) = &entry.happening else {
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
            Some(held) if held.said.name != reserved.name && held.said.holds_on(entry.on) => {
                self.clashes.push(Clash {
                    about: id,
                    in_force: Some(held.entry),
                    set_aside: entry.id,
                    why: ClashKind::ReservedAlready,
                });
            }
            _ => piece.work.reserved = Some(happened.said(reserved.clone())),
        }
    }
}

fn say(piece: &mut Piece, happened: Happened<'_>) {
    let work = &mut piece.work;
    match &happened.entry.happening {
        Happening::Placed(placed) => {
            work.place = Some(happened.said(placed.place.clone()));
            work.missing = None;
            let on = happened.entry.on;
            work.came = Some(work.came.map_or(on, |came| came.min(on)));
        }
        Happening::SetToRest(rest) => {
            if !rest.place.is_empty() {
                work.place = Some(happened.said(rest.place.clone()));
            }
            work.missing = None;
            work.rests.push(happened.said(Arc::clone(rest)));
        }
        Happening::Weighed(weighed) => work.weighings.push(happened.said(Arc::clone(weighed))),
        Happening::MoistureRead(read) => work.moistures.push(happened.said(Arc::clone(read))),
        Happening::MovementChecked(checked) => {
            work.checks.push(happened.said(Arc::clone(checked)));
        }
        Happening::Machined(machined) => {
            work.machined.push(happened.said((**machined).clone()));
        }
        Happening::GrainSeen(seen) => work.grain.push(happened.said((**seen).clone())),
        Happening::StressTested(tested) => work.tests.push(happened.said((**tested).clone())),
        Happening::Downgraded(down) => work.downgraded = Some(happened.said(down.clone())),
        Happening::Missing(_) => work.missing = Some(happened.said(())),
        Happening::Released(_) => work.reserved = None,
        _ => {}
    }
}
