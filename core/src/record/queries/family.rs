//! Families: what a piece was made of, what was made of it, whom a bad plank or a bad batch of glue
//! touches, and how many of each plank's wood came through a stage.
//!
//! It counts what the record says; what a share is worth is told elsewhere.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::SpeciesNamed;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::lineage::{FEW_PIECES, Lineages, STEPS_WALKED};
use crate::record::state::{End, Life, Origin};
use crate::record::state::{Piece, State};
use std::collections::{BTreeMap, BTreeSet};

/// Marks for what is cut out of a piece, the trade's way: letters for planks and pieces, numbers for
/// laminates. Past z letters go on as za, zb and so on.
///
/// ```
/// use stillwood_core::record::{PieceKind, child_marks};
/// assert_eq!(child_marks("K7-13-M", PieceKind::Piece, 3), ["K7-13-M a", "K7-13-M b", "K7-13-M c"]);
/// assert_eq!(child_marks("K7-13-M a", PieceKind::Laminate, 2), ["K7-13-M a1", "K7-13-M a2"]);
/// ```
pub fn child_marks(parent: &str, kind: PieceKind, count: usize) -> Vec<String> {
    child_marks_in_turn(parent, kind).take(count).collect()
}

/// The same, each made when it is asked for: letters past z grow longer and longer.
pub(crate) fn child_marks_in_turn(parent: &str, kind: PieceKind) -> impl Iterator<Item = String> {
    let gap = if parent.ends_with(|sign: char| sign.is_lowercase()) {
        ""
    } else {
        " "
    };
    let sign = move |n: usize| match kind {
        PieceKind::Laminate | PieceKind::Blank => (n + 1).to_string(),
        PieceKind::Plank | PieceKind::Piece => {
            let last = char::from(b'a' + (n % 26) as u8);
            format!("{}{last}", "z".repeat(n / 26))
        }
    };
    (0..).map(move |n| format!("{parent}{gap}{}", sign(n)))
}

/// What became of the wood of one family at a stage. Each piece is counted once.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct StageCount {
    /// Thrown out before it was set to rest: it sprang at the saw.
    pub sprang: u32,
    /// Thrown out after it was set to rest, for a reason that tells of the wood.
    pub failed: u32,
    /// Went on: cut, glued or used.
    pub through: u32,
    pub waiting: u32,
    /// Not where it should be: neither failed nor through until that is known.
    pub missing: u32,
    /// Thrown out by no fault of the wood, or put to another use.
    pub aside: u32,
}

impl StageCount {
    pub fn begun(&self) -> u32 {
        self.decided() + self.waiting + self.missing + self.aside
    }

    /// Those that tell something about the wood.
    pub fn decided(&self) -> u32 {
        self.sprang + self.failed + self.through
    }

    /// Counts another family in.
    pub fn join(&mut self, other: &StageCount) {
        self.sprang += other.sprang;
        self.failed += other.failed;
        self.through += other.through;
        self.waiting += other.waiting;
        self.missing += other.missing;
        self.aside += other.aside;
    }

    fn add(&mut self, piece: &Piece) {
        let work = &piece.work;
        let of_the_wood = |reasons: &[crate::plank::Reason]| {
            reasons.first().is_none_or(|r| r.counts_against_the_wood())
        };
        let place = match (piece.life().0, work.end.as_ref().map(|end| &end.payload)) {
            (Life::Missing, _) => &mut self.missing,
            (_, Some(End::Discarded(why, _))) if !of_the_wood(&why.reasons) => &mut self.aside,
            (_, Some(End::Discarded(..))) if work.rests.is_empty() => &mut self.sprang,
            (_, Some(End::Discarded(..))) => &mut self.failed,
            _ if work.downgraded.is_some() => &mut self.aside,
            (_, Some(_)) => &mut self.through,
            (_, None) => &mut self.waiting,
        };
        *place += 1;
    }
}

/// What a piece was made of: its parent, or its laminates in order.
pub fn made_of(state: &State, id: Id) -> Vec<Id> {
    match state.piece(id).map(|piece| &piece.work.origin) {
        Some(Origin::CutFrom { parent, .. }) => vec![state.stands_for(*parent)],
        Some(Origin::GluedFrom { glued, .. }) => {
            let members = glued.members.iter();
            members.map(|m| state.stands_for(m.piece)).collect()
        }
        _ => Vec::new(),
    }
}

/// What was made of a piece: what was cut from it, in order, or the blank that it is in.
pub fn made_from(state: &State, id: Id) -> Vec<Id> {
    match state.piece(id).and_then(|piece| piece.work.end.as_ref()) {
        Some(end) => match &end.payload {
            End::Cut(cut) => {
                let children = cut.children.iter();
                children.map(|child| state.stands_for(child.id)).collect()
            }
            End::GluedInto(blank) => vec![state.stands_for(*blank)],
            _ => Vec::new(),
        },
        None => Vec::new(),
    }
}

/// All that a piece was made of, nearest first, each once.
pub fn ancestors(state: &State, id: Id) -> Vec<Id> {
    walk(state, &[id], made_of)
}

/// All that was made of a piece, nearest first, each once: what a bad plank touches.
pub fn descendants(state: &State, id: Id) -> Vec<Id> {
    walk(state, &[id], made_from)
}

/// All that can be reached from some pieces, nearest first, each once; without them.
fn walk(state: &State, from: &[Id], next: fn(&State, Id) -> Vec<Id>) -> Vec<Id> {
    let mut found: Vec<Id> = from.iter().map(|id| state.stands_for(*id)).collect();
    let begun = found.len();
    let mut seen = order::set_of(found.iter().copied());
    let mut at = 0;
    while let Some(&id) = found.get(at) {
        let more = next(state, id);
        found.extend(more.into_iter().filter(|id| seen.insert(*id)));
        at += 1;
    }
    found.split_off(begun)
}

/// A piece and all that it was made of, each once and after its own parts; `None` where its family goes in
/// a circle.
pub(crate) fn parts_first(state: &State, id: Id) -> Option<Vec<Id>> {
    let mut order = Vec::new();
    // `false` while its parts are gone through: to come to it then is a circle.
    let mut done: BTreeMap<Id, bool> = BTreeMap::new();
    let mut open = vec![(state.stands_for(id), false)];
    while let Some((id, parts_done)) = open.pop() {
        if parts_done {
            done.insert(id, true);
            order.push(id);
            continue;
        }
        match done.insert(id, false) {
            None => {
                open.push((id, true));
                let parts = made_of(state, id).into_iter().rev();
                open.extend(parts.map(|part| (part, false)));
            }
            Some(false) => return None,
            Some(true) => {
                done.insert(id, true);
            }
        }
    }
    Some(order)
}

fn is_from_yard(state: &State, id: Id) -> bool {
    let piece = state.piece(id);
    piece.is_some_and(|piece| piece.work.origin == Origin::Yard)
}

/// The planks from the yard that some pieces come from; themselves, where they are such.
pub(crate) fn planks_of_all(state: &State, ids: &[Id]) -> Vec<Id> {
    let mut all: Vec<Id> = ids.iter().map(|id| state.stands_for(*id)).collect();
    all.extend(walk(state, ids, made_of));
    all.retain(|id| is_from_yard(state, *id));
    all
}

/// The planks from the yard that a piece comes from; itself, where it is one.
pub fn planks_of(state: &State, id: Id) -> Vec<Id> {
    planks_of_all(state, &[id])
}

/// [`planks_of`], where the family is small; `None` where it is not.
pub(crate) fn few_planks_of(state: &State, id: Id) -> Option<Vec<Id>> {
    let mut all = vec![state.stands_for(id)];
    let mut at = 0;
    while let Some(&id) = all.get(at) {
        let parts = state
            .pieces
            .get(&id)
            .into_iter()
            .flat_map(|piece| piece.made_of());
        for part in parts.map(|part| state.stands_for(part)) {
            if !all.contains(&part) {
                all.push(part);
            }
            if all.len() > FEW_PIECES {
                return None;
            }
        }
        at += 1;
    }
    all.retain(|id| is_from_yard(state, *id));
    Some(all)
}

/// The one plank that a piece comes from; `None` where there are several, or it is not here.
pub fn plank_of(state: &State, piece: &Piece) -> Option<Id> {
    let known = state.memo.known::<Lineages>(state.version());
    if let Some(known) = known.filter(|known| !known.goes_in_a_circle(piece.id)) {
        return known.plank_of(piece.id).one();
    }
    let mut from = piece;
    // What was only cut is followed straight up.
    for _ in 0..STEPS_WALKED {
        match from.work.origin {
            Origin::Yard => return Some(from.id),
            Origin::CutFrom { parent, .. } => from = state.piece(parent)?,
            Origin::GluedFrom { .. } => break,
        }
    }
    let planks = match from.work.origin {
        Origin::GluedFrom { .. } => few_planks_of(state, from.id),
        _ => None,
    };
    match planks.as_deref() {
        Some([plank]) => Some(*plank),
        Some(_) => None,
        None => state.lineages().plank_of(from.id).one(),
    }
}

/// The names of [`woods_in`], for one line; empty where none is known.
pub fn woods_named(state: &State, id: Id) -> String {
    let woods = woods_in(state, id);
    let names = woods.iter().map(|wood| queries::wood_name(state, wood));
    names.collect::<Vec<String>>().join(", ")
}

/// The woods in a piece, each once: of a blank, those of its laminates in order.
pub fn woods_in(state: &State, id: Id) -> Vec<&SpeciesNamed> {
    let mut woods: Vec<&SpeciesNamed> = Vec::new();
    let mut named = BTreeSet::new();
    let mut seen = BTreeSet::new();
    // The next one last, so that laminates come in their order.
    let mut parts = vec![state.stands_for(id)];
    while let Some(id) = parts.pop() {
        let Some(piece) = state.piece(id) else {
            continue;
        };
        if matches!(piece.work.origin, Origin::GluedFrom { .. }) {
            if seen.insert(id) {
                parts.extend(made_of(state, id).into_iter().rev());
            }
            continue;
        }
        if let Some(wood) = queries::species_of(state, piece)
            && named.insert(queries::wood_name(state, wood))
        {
            woods.push(wood);
        }
    }
    woods
}

/// What a batch of glue touches: the blanks glued with it, and all that was made of them.
pub fn touched_by_batch(state: &State, batch: &str) -> Vec<Id> {
    let plain = |text: &str| text.trim().to_lowercase();
    let glued_with = |piece: &&Piece| match &piece.work.origin {
        Origin::GluedFrom { glued, .. } => plain(&glued.adhesive.batch) == plain(batch),
        _ => false,
    };
    let blanks = state.pieces().filter(glued_with).map(|piece| piece.id);
    let blanks: Vec<Id> = blanks.collect();
    let made_of_them = walk(state, &blanks, made_from);
    order::set_of(blanks.into_iter().chain(made_of_them))
        .into_iter()
        .collect()
}

/// What became of the wood of each plank at one stage of its making, by the plank; blanks, which
/// come from several planks, each by itself. What is in doubt is left out.
pub fn stage_counts(state: &State, kind: PieceKind) -> BTreeMap<Id, StageCount> {
    let mut counts: BTreeMap<Id, StageCount> = BTreeMap::new();
    let of_kind = |piece: &&Piece| piece.work.kind == kind && piece.work.unresolved.is_none();
    // Of many pieces all families are found at once.
    state.lineages();
    for piece in state.pieces().filter(of_kind) {
        let family = plank_of(state, piece).unwrap_or(piece.id);
        counts.entry(family).or_default().add(piece);
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_piece_is_counted_once_and_families_add_up() {
        let count = StageCount {
            sprang: 1,
            failed: 2,
            through: 4,
            waiting: 8,
            missing: 16,
            aside: 32,
        };
        assert_eq!((count.decided(), count.begun()), (7, 63));
        let mut both = count;
        both.join(&count);
        let twice = StageCount {
            sprang: 2,
            failed: 4,
            through: 8,
            waiting: 16,
            missing: 32,
            aside: 64,
        };
        assert_eq!(both, twice);
    }

    #[test]
    fn past_z_letters_go_on() {
        let marks = child_marks("A7", PieceKind::Piece, 53);
        let of = |n: usize| marks[n].trim_start_matches("A7 ");
        assert_eq!([0, 25, 26, 51, 52].map(of), ["a", "z", "za", "zz", "zza"]);
    }
}
