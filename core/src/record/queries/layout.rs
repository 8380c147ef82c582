//! A cut while it is laid out: what can be cut up, how the rings stand in what comes out of it, and how
//! far it may spring at the saw.
//!
//! It proposes places and records nothing; a ring angle that can't be known at a place stays unknown.

use crate::neck::{CuttingPlan, PartCut, Patch, PlannedPart, Stock, zones_to_cut_round};
use crate::plank::{
    Plank, Reading, RingClass, RingTilt, Rings, describe, described, mean_of_stations,
    ring_angle_at, turned_on_edge,
};
use crate::quantity::{
    Angle, Derivation, Length, Trace, TraceOff, degrees, formula, in_mm, mm, show,
};
use crate::record::log::id::Id;
use crate::record::log::{Child, PieceKind, Span};
use crate::record::queries;
use crate::record::queries::volume_account::laid_in;
use crate::record::state::Origin;
use crate::record::state::{Piece, State};
use crate::season::{Stage, Warp, limit_over};

/// How the rings stand at a place of a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingsStand {
    /// Acute angle to the wide face.
    pub angle: Angle,
    pub class: RingClass,
    /// To which side they lean as it stands on edge; `None` where only an angle was read.
    pub leans: Option<RingTilt>,
}

/// By what a plan is the best, and how that is known.
const PLANNED: &str = "the plan whose parts are worth most, all cuts gone through (Bellman's recurrence, textbook); \
     held against brute force";

formula! {
    /// What a part takes of the width.
    ROUGH: "A part as it comes off the saw", "b", "mm";
    finished: "t", "planed, across the width", "mm";
    planing: "p", "planing off each face", "mm";
    = finished + 2.0 * planing;
    range "rounded up to a whole step";
    source "geometry";
}

/// How many come out of a plan, and why no more.
pub fn explain_plan(stock: &Stock, cut: &PartCut, plan: &CuttingPlan) -> Derivation {
    let mut working = Derivation::default();
    let rough = working
        .steps
        .work(&ROUGH, [cut.thickness, cut.planing].map(in_mm));
    let mm = |size: Length| show::number(in_mm(size), 1);
    let rows: Vec<String> = plan
        .rows
        .iter()
        .map(|row| row.parts.len().to_string())
        .collect();
    let used = plan
        .rows
        .iter()
        .map(|row| row.parts.len() as f64 * rough)
        .fold(0.0, f64::max);
    let width = in_mm(stock.width);
    working.notes = vec![
        format!(
            "{} × {} mm of wood, {} mm off each end and {} mm off each edge; rows of {} mm, kerf {} mm, defects \
             cut round. Of all such cuts that one whose parts are worth most together, as their rings are wanted.",
            mm(stock.length),
            mm(stock.width),
            mm(cut.end_trim),
            mm(cut.edge_trim),
            mm(cut.length),
            mm(cut.kerf)
        ),
        format!(
            "Parts row by row from the near end: {} = {}. The fullest row takes {} of {} mm of width with its \
             parts, {} % of it.",
            rows.join(" + "),
            plan.parts(),
            show::number(used, 1),
            show::number(width, 1),
            show::number(100.0 * used / width, 0)
        ),
    ];
    working.source = PLANNED;
    working
}

/// The deepest that a family is followed.
const MOST_GENERATIONS: usize = 32;

/// A place laid out, in the words in which the record keeps it.
fn laid(value: Length) -> Reading {
    // Tenths of a millimetre: no saw goes finer.
    let value = (in_mm(value) * 10.0).round() / 10.0;
    Reading::of_number(value, "mm")
}

/// What a plan gives as the record keeps it, part by part in the order of the plan, each with its id
/// and mark; parts without one are left out.
pub fn laid_out(plan: &CuttingPlan, kind: PieceKind, named: &[(Id, String)]) -> Vec<Child> {
    let span = |from, to| {
        Some(Span {
            from: laid(from),
            to: laid(to),
        })
    };
    let mut children = Vec::new();
    let mut named = named.iter();
    for row in &plan.rows {
        for part in &row.parts {
            let Some((id, mark)) = named.next() else {
                return children;
            };
            children.push(Child {
                across: span(part.across.from, part.across.to),
                along: span(row.along.from, row.along.to),
                id: *id,
                kind,
                mark: mark.clone(),
                through: None,
            });
        }
    }
    children
}

/// To which side rings rise at an offset, in a plank as it lies with the pith below.
fn beside_pith(offset: Length, pith: Length) -> RingTilt {
    if offset < pith {
        RingTilt::Right
    } else if offset > pith {
        RingTilt::Left
    } else {
        RingTilt::Neither
    }
}

/// The rings as they were seen on a laminate itself.
fn rings_seen(piece: &Piece) -> Option<RingsStand> {
    let seen = piece.work.grain_seen();
    let angle = degrees(seen.ring_angle?.value);
    Some(RingsStand {
        angle,
        class: RingClass::of(angle).ok()?,
        leans: seen.rings_lean,
    })
}

/// The rings as they were read on a plank or a piece.
fn rings_read(piece: &Piece) -> Option<Rings> {
    if piece.readings.is_empty() {
        return None;
    }
    described(&|field| piece.reading(field), []).rings
}

/// One step down the family: the offset in the parent, and whether the piece was turned on edge.
fn in_parent(parent: &Plank, child: &Child, offset: Length) -> Option<(Length, bool)> {
    let Some(across) = &child.across else {
        return Some((offset, false));
    };
    let (from, to) = (mm(across.from.value), mm(across.to.value));
    // Places are laid out in the least width, as a plan is.
    let middle = (from + to) / 2.0 - parent.widths.least()? / 2.0;
    let through = match &child.through {
        Some(span) => mm(span.to.value) - mm(span.from.value),
        None => mean_of_stations(&parent.thicknesses)?,
    };
    let turned = to - from < through;
    Some((if turned { middle } else { middle + offset }, turned))
}

/// A piece as it is cut up: its length, its least width, and its defects that are usually cut round.
/// `None` while a size is not known.
pub fn stock_to_cut(state: &State, piece: &Piece) -> Option<Stock> {
    let size = queries::size_of(state, piece);
    let found = describe(&piece.readings_in_use(), &piece.defects_found());
    let zones = zones_to_cut_round(&found.defects);
    Some(Stock {
        length: size.length?,
        width: size.widths.least()?,
        patches: zones
            .places
            .into_iter()
            .map(|along| Patch {
                along,
                across: None,
            })
            .collect(),
    })
}

/// How the rings stand in a piece at an offset from mid-width: as seen or read on it, else as read on
/// what it was cut from, at its place there, turned on edge where it was ripped so. `None` where no
/// ring was read; and where only an angle was read elsewhere, for that leaves every class open here
/// ([`ring_angle_at`]).
///
/// A plank lies with its marked face up, its marked edge to the left and its near end in front, the
/// pith below: left of it the rings rise to the right. A part that is ripped off stands there as it
/// will on edge; what is cut flat rises a quarter turn to stand, and its rings then rise the other way.
pub fn rings_in(state: &State, piece: &Piece, offset: Length) -> Option<RingsStand> {
    rings_worked(state, &mut TraceOff, piece, offset)
}

/// How the rings will stand at an offset where a piece is laid out to be cut: as [`rings_in`], and where only an
/// angle was read, as at mid-width: it is measured, and tells more than nothing. `None` where nothing was read.
pub fn rings_to_cut(state: &State, piece: &Piece, offset: Length) -> Option<RingsStand> {
    rings_in(state, piece, offset).or_else(|| rings_in(state, piece, mm(0.0)))
}

fn rings_worked(
    state: &State,
    trace: &mut impl Trace,
    piece: &Piece,
    offset: Length,
) -> Option<RingsStand> {
    // Up to where the rings were looked at.
    let mut line = vec![piece];
    let (top, rings) = loop {
        let top = *line.last()?;
        if let Some(seen) = rings_seen(top) {
            return Some(seen);
        }
        if let Some(rings) = rings_read(top) {
            break (top, rings);
        }
        if line.len() == MOST_GENERATIONS {
            return None;
        }
        line.push(state.piece(top.work.parent()?)?);
    };
    // From there down the sizes, each once; then up with the offset.
    let mut sizes = vec![queries::size_of(state, top)];
    for below in line.iter().rev().skip(1) {
        let size = laid_in(below, sizes.last()?);
        sizes.push(size);
    }
    sizes.pop();
    let (mut offset, mut turns) = (offset, false);
    for (one, parent) in line.iter().zip(sizes.iter().rev()) {
        let Origin::CutFrom { place, .. } = &one.work.origin else {
            return None;
        };
        let (there, turned) = in_parent(parent, place, offset)?;
        (offset, turns) = (there, turns != turned);
    }
    let lies = ring_angle_at(trace, &rings, offset).ok()?;
    let angle = if turns {
        turned_on_edge(trace, lies).ok()?
    } else {
        lies
    };
    let leans = match rings {
        Rings::Arc { pith, .. } => Some(beside_pith(offset, pith)),
        Rings::Angle(_) => None,
    };
    let leans = leans.map(|leans| if turns { leans } else { leans.other_way() });
    Some(RingsStand {
        angle,
        class: RingClass::of(angle).ok()?,
        leans,
    })
}

/// How a part of a plan was worked out: what it takes of the width, and how its rings will stand.
/// `on_edge`: it is turned on edge once it is ripped.
pub fn explain_part(
    state: &State,
    piece: &Piece,
    part: &PlannedPart,
    cut: &PartCut,
    on_edge: bool,
) -> Derivation {
    let mut working = Derivation::default();
    let sizes = [cut.thickness, cut.planing].map(in_mm);
    working.steps.work(&ROUGH, sizes);
    let stock = queries::size_of(state, piece).widths.least();
    let middle = (part.across.from + part.across.to) / 2.0;
    let offset = stock.map(|width| middle - width / 2.0);
    let there = offset.and_then(|offset| rings_worked(state, &mut working.steps, piece, offset));
    // As [`rings_to_cut`] has it.
    let rings = there.or_else(|| rings_worked(state, &mut working.steps, piece, mm(0.0)));
    if rings.is_some() && there.is_none() {
        working
            .notes
            .push("Only an angle was read: its rings are taken as at mid-width.".to_owned());
    }
    match rings {
        Some(rings) if on_edge => {
            // Never an error: the angle has just been found to be acute.
            let _ = turned_on_edge(&mut working.steps, rings.angle);
        }
        Some(_) => {}
        None => working
            .notes
            .push("How its rings stand is not known.".to_owned()),
    }
    let place = [part.across.from, part.across.to].map(|at| show::number(in_mm(at), 1));
    working.notes.push(format!(
        "It lies from {} to {} mm across the width; cuts fall on steps of {} mm.",
        place[0],
        place[1],
        show::number(in_mm(cut.step), 2)
    ));
    working.source = PLANNED;
    working
}

/// How far wood may spring open or shut at the saw over a length: the bow at which a piece is out by
/// the terms in force, carried over to that length. `None` where the terms have none, or for no
/// length.
pub fn spring_allowed(state: &State, over: Length) -> Option<Length> {
    let terms = queries::stage_limits(state, Stage::Pieces);
    let limit = limit_over(
        &mut TraceOff,
        Warp::Bow,
        terms.bow?,
        terms.over_mm,
        Some(over),
    )
    .ok()?;
    Some(mm(limit.reject_mm))
}
