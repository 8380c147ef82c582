//! Wood in hand that can still be a blank: piece by piece, with the laminates to be expected of it.
//!
//! What is kept for somebody, put to another use, missing, or moved beyond its limit is left out; that is
//! counted, so that it can be said.

use crate::order;
use crate::record::log::PieceKind;
use crate::record::log::SpeciesNamed;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::RestLine;
use crate::record::queries::marks::compare_marks;
use crate::record::state::Life;
use crate::record::state::{Piece, State};
use crate::season::{InHand, Lot, MeasureKey, PlanPosition, Readiness, StockItem, is_look_old};
use crate::verdict::{FirstCut, Spec, parts_held};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// What the laminates to be expected of wood in hand are told by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LaminatesBy {
    /// Laminates and blanks: it is one, or has none to give.
    Itself,
    /// What fits in it.
    WhatFits,
    /// What fits in it, less what was lost of those that were ripped so far.
    LessLost,
    /// A plank whose size is not known: what a plank gives.
    PerPlank,
    /// A piece whose size is not known: none can be told.
    NotKnown,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WoodInHand {
    pub piece: Id,
    pub mark: String,
    pub kind: PieceKind,
    /// The plank that it is of; of a blank, itself.
    pub family: Id,
    pub standing: PlanPosition,
    /// How many laminates it is expected to give: of a laminate one, of a blank none.
    pub laminates: u32,
    /// What that is told by.
    pub laminates_by: LaminatesBy,
    /// How its rest stands; `None` where it does not rest.
    pub ready: Option<Readiness>,
    /// It was looked over last too long ago to tell how it stands.
    pub is_look_old: bool,
}

impl WoodInHand {
    /// As a plan takes it.
    pub fn held(&self) -> StockItem {
        StockItem {
            standing: self.standing,
            laminates: self.laminates,
        }
    }

    /// Its rest is over, and nothing about it is not known.
    pub fn is_ready(&self) -> bool {
        self.ready.is_some_and(|ready| ready.is_ready())
    }

    /// The stages that it has behind it: of laminates, those of pieces and laminates.
    fn stages_done(&self) -> usize {
        let before = usize::from(self.kind == PieceKind::Laminate);
        before + usize::from(self.is_ready())
    }
}

/// How much wood is in hand, kind by kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct InHandCount {
    pub planks: usize,
    pub pieces: usize,
    pub laminates: usize,
    pub blanks: usize,
    /// Laminates to be expected of planks and pieces.
    pub expected: u32,
    /// Planks and pieces of which none can be told.
    pub unknown: usize,
    /// Planks and pieces that give none: no part fits in them.
    pub give_none: usize,
}

impl InHandCount {
    pub fn of<'a>(wood: impl IntoIterator<Item = &'a WoodInHand>) -> Self {
        let mut count = Self::default();
        for one in wood {
            match one.kind {
                PieceKind::Plank => count.planks += 1,
                PieceKind::Piece => count.pieces += 1,
                PieceKind::Laminate => count.laminates += 1,
                PieceKind::Blank => count.blanks += 1,
            }
            if matches!(one.kind, PieceKind::Plank | PieceKind::Piece) {
                count.expected = count.expected.saturating_add(one.laminates);
                match one.laminates_by {
                    LaminatesBy::NotKnown => count.unknown += 1,
                    _ => count.give_none += usize::from(one.laminates == 0),
                }
            }
        }
        count
    }
}

/// Wood in hand as the chances take it: plank by plank, by the stages behind it.
pub fn lots_in_hand<'a>(wood: impl IntoIterator<Item = &'a WoodInHand>) -> InHand {
    let mut parts: BTreeMap<(Id, usize), u32> = BTreeMap::new();
    let mut blanks: BTreeMap<usize, u32> = BTreeMap::new();
    for one in wood {
        let done = one.stages_done();
        let place = match one.kind {
            PieceKind::Blank => blanks.entry(done).or_default(),
            _ => parts.entry((one.family, done)).or_default(),
        };
        *place = place.saturating_add(match one.kind {
            PieceKind::Blank => 1,
            _ => one.laminates,
        });
    }
    let lot = |(stages_done, pieces)| Lot {
        pieces,
        stages_done,
    };
    let parts = parts.into_iter().map(|((_, done), pieces)| (done, pieces));
    InHand {
        parts: parts.filter(|(_, pieces)| *pieces > 0).map(lot).collect(),
        blanks: blanks.into_iter().map(lot).collect(),
    }
}

/// What is not in hand although it is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct NotCounted {
    /// Moved beyond its limit.
    pub moved: usize,
    pub kept: usize,
}

/// Wood in hand of these woods, of any for none, that can still be a blank, by mark; and what of it is
/// not counted, on a day. `lines` are what rests then, see [`queries::resting`]. A plank or piece is expected to give of
/// the parts that fit in it, by the spec of its visit, the share that was got of those ripped so far;
/// a plank whose size is not known `per_plank`.
pub fn wood_in_hand(
    state: &State,
    woods: &[SpeciesNamed],
    lines: &[RestLine],
    per_plank: u32,
    today: NaiveDate,
) -> (Vec<WoodInHand>, NotCounted) {
    let rests: BTreeMap<Id, &RestLine> = order::map_of(lines.iter().map(|line| (line.piece, line)));
    let wanted = |wood: &SpeciesNamed| woods.iter().any(|one| one.is_same_wood(wood));
    let of_woods = |piece: &Piece| {
        woods.is_empty() || queries::woods_in(state, piece.id).into_iter().any(wanted)
    };
    let shares = cut_shares(state);
    let mut found = Vec::new();
    let mut not = NotCounted::default();
    for piece in queries::stock(state) {
        if piece.work.downgraded.is_some() || !piece.is_bought() || !of_woods(piece) {
            continue;
        }
        let line = rests.get(&piece.id);
        let ready = line.and_then(|line| line.ready.as_ref().ok());
        if piece.is_kept_on(today) {
            not.kept += 1;
        } else if ready.is_some_and(|ready| ready.measure == MeasureKey::Moved) {
            not.moved += 1;
        } else {
            let (laminates, laminates_by) = laminates_expected(state, piece, per_plank, &shares);
            let looked = piece.work.checks.last();
            found.push(WoodInHand {
                piece: piece.id,
                mark: piece.mark.clone(),
                kind: piece.work.kind,
                family: family_of(state, piece),
                standing: standing_of(piece),
                laminates,
                laminates_by,
                ready: ready.copied(),
                is_look_old: looked.is_some_and(|check| is_look_old(check.on, today)),
            });
        }
    }
    order::sort_by(&mut found, |a, b| compare_marks(&a.mark, &b.mark));
    (found, not)
}

fn family_of(state: &State, piece: &Piece) -> Id {
    queries::plank_of(state, piece).unwrap_or(piece.id)
}

fn standing_of(piece: &Piece) -> PlanPosition {
    match (piece.work.rest(), piece.work.kind) {
        (Some(rest), _) => PlanPosition::Resting(rest.payload.stage, rest.on),
        (None, PieceKind::Plank) => PlanPosition::Plank(piece.work.came),
        (None, _) => PlanPosition::NotSetToRest(queries::stage_of(piece)),
    }
}

fn laminates_expected(
    state: &State,
    piece: &Piece,
    per_plank: u32,
    shares: &CutShares,
) -> (u32, LaminatesBy) {
    let of_what_fits = |share: CutShare, fits: u32| match share.of(fits) {
        less if less < fits => (less, LaminatesBy::LessLost),
        all => (all, LaminatesBy::WhatFits),
    };
    match (piece.work.kind, parts_that_fit(state, piece)) {
        (PieceKind::Laminate, _) => (1, LaminatesBy::Itself),
        (PieceKind::Blank, _) => (0, LaminatesBy::Itself),
        (PieceKind::Plank, Some(fits)) => of_what_fits(shares.plank, fits),
        (PieceKind::Plank, None) => (per_plank, LaminatesBy::PerPlank),
        (PieceKind::Piece, Some(fits)) => of_what_fits(shares.piece, fits),
        (PieceKind::Piece, None) => (0, LaminatesBy::NotKnown),
    }
}

/// Parts of the spec of its visit that fit in a plank or piece; `None` where a size is not known.
fn parts_that_fit(state: &State, piece: &Piece) -> Option<u32> {
    let spec = &state.visit_of(piece)?.opened.spec;
    let held = match piece.work.kind {
        PieceKind::Plank => parts_held(&piece.described(), spec),
        _ => {
            // It is the piece that was sawn first, cut to length already: it is ripped, and nothing is
            // trimmed off its ends any more.
            let cut = Spec {
                first_cut: FirstCut::Part,
                end_trim_mm: 0.0,
                edge_trim_mm: 0.0,
                ..spec.clone()
            };
            parts_held(&queries::size_of(state, piece), &cut)
        }
    };
    held.ok().map(|held| held.parts)
}

/// What planks and pieces gave that were ripped to the last, of what fits in them; planks as in [`gave_of_planks`].
pub(crate) fn cut_shares(state: &State) -> CutShares {
    let mut shares = CutShares::default();
    let mut add = |piece: Id, gave: f64, of: fn(&mut CutShares) -> &mut CutShare| {
        let fits = state
            .piece(piece)
            .and_then(|piece| parts_that_fit(state, piece));
        if let Some(fits) = fits {
            let share = of(&mut shares);
            share.gave += gave;
            share.fits += f64::from(fits);
        }
    };
    for (plank, gave) in gave_of_planks(state) {
        add(plank, gave, |shares| &mut shares.plank);
    }
    for (piece, laminates) in ripped_to_the_last(state, PieceKind::Piece) {
        add(piece, f64::from(laminates), |shares| &mut shares.piece);
    }
    shares
}

/// How many laminates each plank gave that was ripped to the last, had none of its pieces been discarded: as many as
/// were ripped, divided by the share of its pieces that came through. What pieces fail is taken off by their stage.
pub(crate) fn gave_of_planks(state: &State) -> Vec<(Id, f64)> {
    let pieces = queries::stage_counts(state, PieceKind::Piece);
    let gave = |(plank, laminates): (Id, u32)| {
        let of_all = match pieces.get(&plank) {
            Some(count) if count.through > 0 => {
                f64::from(count.decided()) / f64::from(count.through)
            }
            // It was ripped straight to laminates.
            _ => 1.0,
        };
        (plank, f64::from(laminates) * of_all)
    };
    let planks = ripped_to_the_last(state, PieceKind::Plank);
    planks.into_iter().map(gave).collect()
}

/// Planks or pieces that gave laminates and have none left to give, each with how many.
fn ripped_to_the_last(state: &State, kind: PieceKind) -> Vec<(Id, u32)> {
    let mut cut = cut_below(state);
    cut.retain(|(piece, below)| piece.work.kind == kind && below.laminates > 0 && !below.open);
    let gave = |(piece, below): (&Piece, CutBelow)| (piece.id, below.laminates);
    cut.into_iter().map(gave).collect()
}

/// All pieces that were cut, with what was cut of each and of that again; each comes after what was cut of
/// it, so that all are counted in one go.
fn cut_below(state: &State) -> Vec<(&Piece, CutBelow)> {
    let mut from: BTreeMap<Id, Id> = BTreeMap::new();
    let mut waits_for: BTreeMap<Id, usize> = BTreeMap::new();
    let was_cut = |piece: &&Piece| piece.life().0 == Life::Cut;
    for piece in state.pieces().filter(was_cut) {
        let children = order::set_of(queries::made_from(state, piece.id));
        waits_for.insert(piece.id, children.len());
        from.extend(children.into_iter().map(|child| (child, piece.id)));
    }
    let mut below: BTreeMap<Id, CutBelow> = BTreeMap::new();
    let uncut = |id: &Id| !waits_for.contains_key(id);
    let mut ready: Vec<Id> = from.keys().copied().filter(uncut).collect();
    let none = waits_for.iter().filter(|(_, children)| **children == 0);
    ready.extend(none.map(|(id, _)| *id));
    let mut found = Vec::new();
    while let Some(id) = ready.pop() {
        let mut all = below.remove(&id).unwrap_or_default();
        if let Some(piece) = state.piece(id) {
            if waits_for.contains_key(&id) {
                found.push((piece, all));
            }
            let can_be_cut = matches!(piece.work.kind, PieceKind::Plank | PieceKind::Piece);
            all.open |= can_be_cut && piece.is_at_hand() && piece.work.downgraded.is_none();
            all.laminates += u32::from(piece.work.kind == PieceKind::Laminate);
        }
        let Some(parent) = from.get(&id) else {
            continue;
        };
        let of_parent = below.entry(*parent).or_default();
        of_parent.open |= all.open;
        of_parent.laminates = of_parent.laminates.saturating_add(all.laminates);
        if let Some(waits) = waits_for.get_mut(parent) {
            *waits = waits.saturating_sub(1);
            if *waits == 0 {
                ready.push(*parent);
            }
        }
    }
    found
}

/// What was cut of a piece, and of that again.
#[derive(Debug, Clone, Copy, Default)]
struct CutBelow {
    laminates: u32,
    /// Something of it can still be cut for a neck.
    open: bool,
}

/// What was ripped to the last gave, of what fits.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct CutShare {
    gave: f64,
    fits: f64,
}

impl CutShare {
    /// Laminates to be expected where so many fit: never more than that, and where nothing was ripped
    /// yet all of them.
    pub(crate) fn of(self, fits: u32) -> u32 {
        if self.fits == 0.0 {
            return fits;
        }
        let expected = f64::from(fits) * self.gave / self.fits;
        fits.min(expected.max(1.0) as u32)
    }
}

/// The same of planks and of pieces.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct CutShares {
    pub(crate) plank: CutShare,
    pub(crate) piece: CutShare,
}
