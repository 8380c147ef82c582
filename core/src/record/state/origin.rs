//! Where pieces begin: with the mark given in the yard, with the cut that they come out of, or with the
//! gluing that makes them; and which records are told to be of one piece.
//!
//! It only finds the entry that a piece begins with. Whether a cut or a gluing could happen at all is
//! found when it is its turn in the order of the entries; until then what it begins is unresolved.

use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::log::{Entry, Event};
use crate::record::state::Piece;
use crate::record::state::Recorded;
use crate::record::state::{Origin, Work};
use std::collections::{BTreeMap, BTreeSet};

/// The entry that a piece begins with.
pub(crate) struct PieceOrigin<'a> {
    pub(crate) entry: &'a Entry,
    pub(crate) mark: &'a str,
    pub(crate) in_force: bool,
    /// The maker deleted it, or all that it was made of.
    deleted: bool,
    pub(crate) pile: Id,
    kind: PieceKind,
    origin: Origin,
}

impl PieceOrigin<'_> {
    fn delete(&mut self) {
        self.in_force = false;
        self.deleted = true;
    }
}

/// The pieces that begin with an entry.
pub(crate) fn origins_of(entry: &Entry, in_force: bool) -> Vec<(Id, PieceOrigin<'_>)> {
    let begun = |mark, pile, kind, origin| PieceOrigin {
        entry,
        mark,
        in_force,
        deleted: false,
        pile,
        kind,
        origin,
    };
    match &entry.event {
        Event::Marked(marked) => {
            let begun = begun(&marked.mark, marked.pile, PieceKind::Plank, Origin::Yard);
            vec![(entry.about, begun)]
        }
        Event::Cut(cut) => {
            let mut children = Vec::with_capacity(cut.children.len());
            for child in &cut.children {
                let origin = Origin::CutFrom {
                    parent: entry.about,
                    cut: entry.id,
                    place: Box::new(child.clone()),
                };
                let begun = begun(&child.mark, Id::nil(), child.kind, origin);
                children.push((child.id, begun));
            }
            children
        }
        Event::Glued(glued) => {
            let origin = Origin::GluedFrom {
                glue: entry.id,
                glued: glued.clone(),
            };
            let begun = begun(&glued.mark, Id::nil(), PieceKind::Blank, origin);
            vec![(entry.about, begun)]
        }
        _ => Vec::new(),
    }
}

/// Of several marks the last in force counts, of several cuts and gluings the first in force; a mark
/// goes before those. Of none in force the first is remembered.
pub(crate) fn note_origin<'a>(
    origins: &mut BTreeMap<Id, PieceOrigin<'a>>,
    id: Id,
    begun: PieceOrigin<'a>,
) {
    let goes_before = match origins.get(&id) {
        None => true,
        Some(known) => begun.in_force && (!known.in_force || begun.origin == Origin::Yard),
    };
    if goes_before {
        origins.insert(id, begun);
    }
}

/// Takes planks out of force that were deleted, by themselves or with their pile, and all that was made of them:
/// what was cut from them, and blanks that are glued of nothing else. Of a plank that is also known under another
/// pile, that record stays.
pub(crate) fn delete_origins(
    origins: &mut BTreeMap<Id, PieceOrigin<'_>>,
    told: &BTreeMap<(Id, Id), bool>,
    is_deleted: impl Fn(&PieceOrigin<'_>) -> bool,
) {
    let mut gone: BTreeSet<Id> = BTreeSet::new();
    for (&id, begun) in origins.iter_mut() {
        if begun.origin == Origin::Yard && is_deleted(begun) {
            begun.delete();
            gone.insert(id);
        }
    }
    if gone.is_empty() {
        return;
    }
    let same = same_pieces(told, origins);
    // A record of the same plank that is still in force stands for it.
    let stands = |id: &Id, gone: &BTreeSet<Id>| {
        let first = same.get(id).unwrap_or(id);
        gone.contains(first)
    };
    loop {
        let made_of_gone = |begun: &PieceOrigin<'_>| match &begun.origin {
            Origin::Yard => false,
            Origin::CutFrom { parent, .. } => stands(parent, &gone),
            Origin::GluedFrom { glued, .. } => {
                let mut members = glued.members.iter();
                !glued.members.is_empty() && members.all(|member| stands(&member.piece, &gone))
            }
        };
        let found = origins
            .iter()
            .filter(|(_, begun)| begun.in_force && made_of_gone(begun));
        let found: Vec<Id> = found.map(|(id, _)| *id).collect();
        if found.is_empty() {
            return;
        }
        for id in found {
            if let Some(begun) = origins.get_mut(&id) {
                begun.delete();
            }
            gone.insert(id);
        }
    }
}

/// For every piece told to be the same as another, the id that stands for all of them: the smallest
/// of those that are here and not taken back.
pub(crate) fn same_pieces(
    told: &BTreeMap<(Id, Id), bool>,
    origins: &BTreeMap<Id, PieceOrigin<'_>>,
) -> BTreeMap<Id, Id> {
    let mut neighbours: BTreeMap<Id, Vec<Id>> = BTreeMap::new();
    for ((a, b), _) in told.iter().filter(|(_, same)| **same) {
        neighbours.entry(*a).or_default().push(*b);
        neighbours.entry(*b).or_default().push(*a);
    }
    let mut same = BTreeMap::new();
    let mut seen = BTreeSet::new();
    for &start in neighbours.keys() {
        let mut group = Vec::new();
        let mut next = vec![start];
        while let Some(id) = next.pop() {
            if seen.insert(id) {
                group.push(id);
                next.extend(neighbours.get(&id).into_iter().flatten());
            }
        }
        let standing = |id: &&Id| origins.get(id).map(|b| (!b.in_force, **id));
        let first = group
            .iter()
            .filter(|id| origins.contains_key(id))
            .min_by_key(standing);
        if let Some(&first) = first {
            same.extend(group.iter().map(|id| (*id, first)));
        }
    }
    same
}

/// Takes the origin out of what begins it.
pub(crate) fn begin_piece(id: Id, begun: &mut PieceOrigin<'_>) -> Piece {
    let origin = std::mem::replace(&mut begun.origin, Origin::Yard);
    let of_the_workshop = origin != Origin::Yard;
    let mut work = Work::new(begun.kind, origin);
    if of_the_workshop {
        work.unresolved = Some(begun.entry.id);
    }
    Piece {
        id,
        also: Vec::new(),
        recorded: Recorded::of(begun.entry),
        by: BTreeSet::new(),
        mark: begun.mark.to_owned(),
        marks: BTreeSet::new(),
        pile: begun.pile,
        measured: Vec::new(),
        readings: BTreeMap::new(),
        defects: Vec::new(),
        defects_in_full: BTreeSet::new(),
        species: None,
        judgements: Vec::new(),
        yard_line: None,
        notes: Vec::new(),
        work,
        history: Vec::new(),
        withdrawn: !begun.in_force,
        deleted: begun.deleted,
    }
}
