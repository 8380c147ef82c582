//! A cutting plan: laminates out of a plank or a piece, round its defects, by what each is worth.
//!
//! The plank is first cut across into rows as long as a laminate, then each row is ripped for itself, so a
//! defect at one edge spoils only the parts that it lies in. It gives places for a drawing, and never
//! judges wood: what a part is worth by its rings is passed in, and so is how they stand.

use super::Place;
use crate::plank::{RingClass, turned_on_edge};
use crate::quantity::TraceOff;
use crate::quantity::{Angle, Length, in_mm, is_positive};
use std::cell::OnceCell;
use thiserror::Error;

/// A defect to be cut round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Along the plank, from its near end.
    pub along: Place,
    /// Across it, from one edge; `None` for right across.
    pub across: Option<Place>,
}

/// What is cut up.
#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// Along the grain.
    pub length: Length,
    pub width: Length,
    pub patches: Vec<Patch>,
}

/// What is cut out, and what is lost to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartCut {
    /// Along the grain, allowance included.
    pub length: Length,
    /// Finished thickness: what a part takes of the width, less planing.
    pub thickness: Length,
    /// What planing takes off each face.
    pub planing: Length,
    /// Width of the saw cut.
    pub kerf: Length,
    /// What is cut off each end.
    pub end_trim: Length,
    /// What is cut off each edge.
    pub edge_trim: Length,
    /// Cuts fall on multiples of this; sizes count as the next multiple up.
    pub step: Length,
}

/// What a part is worth, by how it is sawn once it is turned on edge; a part that is worth nothing is
/// not cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartWorth {
    pub quartersawn: f64,
    pub rift: f64,
    pub flatsawn: f64,
    /// Where how the rings stand is not known.
    pub unknown: f64,
}

impl PartWorth {
    fn of(&self, class: Option<RingClass>) -> f64 {
        match class {
            Some(RingClass::Quartersawn) => self.quartersawn,
            Some(RingClass::Rift) => self.rift,
            Some(RingClass::Flatsawn) => self.flatsawn,
            None => self.unknown,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedPart {
    /// Across the plank, from one edge; rough.
    pub across: Place,
    /// The angle of its rings to its wide face once it is turned on edge, where known.
    pub ring_angle: Option<Angle>,
    /// How it is sawn then.
    pub class: Option<RingClass>,
    pub worth: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct PartRow {
    /// Along the plank, from its near end.
    pub along: Place,
    pub parts: Vec<PlannedPart>,
}

/// Where all cuts fall.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CuttingPlan {
    /// The rows, from the near end on.
    pub rows: Vec<PartRow>,
    /// What all parts are worth together.
    pub worth: f64,
}

impl CuttingPlan {
    pub fn parts(&self) -> usize {
        self.rows.iter().map(|row| row.parts.len()).sum()
    }
}

/// Why no plan can be made.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CutPlanError {
    /// A size that is nothing, less than nothing, or no number.
    #[error("{:.1} mm: it has to be more than nothing", in_mm(*.0))]
    Size(Length),
    /// A kerf, trim or planing that is less than nothing, or no number.
    #[error("a kerf, trim or planing of {:.1} mm: it can't be less than nothing", in_mm(*.0))]
    Negative(Length),
    /// A worth that is less than nothing, or no number.
    #[error("a part worth {0}: it can't be less than nothing")]
    Worth(f64),
    /// A defect whose place is no number, or ends before it starts.
    #[error("a defect from {:.1} to {:.1} mm: its place has to be two numbers in order", in_mm(*.from), in_mm(*.to))]
    Patch {
        /// Where it is said to start.
        from: Length,
        /// Where it is said to end.
        to: Length,
    },
    /// More steps than are gone through.
    #[error("cuts every {:.2} mm are too fine for a plank of {:.0} mm", in_mm(*.step), in_mm(*.over))]
    TooFine { step: Length, over: Length },
}

/// The most steps along or across.
const MOST_STEPS: f64 = 200_000.0;

/// Steps, whole numbers of the grid.
struct Grid {
    step: Length,
}

impl Grid {
    /// The next multiple up; a trace of binary arithmetic is not a step.
    fn up(&self, value: Length) -> Result<usize, CutPlanError> {
        if value.value < 0.0 || !value.value.is_finite() {
            return Err(CutPlanError::Negative(value));
        }
        let steps = ((value / self.step).value - 1e-6).ceil().max(0.0);
        if steps > MOST_STEPS {
            return Err(CutPlanError::TooFine {
                step: self.step,
                over: value,
            });
        }
        Ok(steps as usize)
    }

    fn at(&self, steps: usize) -> Length {
        self.step * steps as f64
    }

    fn place(&self, from: usize, size: usize) -> Place {
        Place {
            from: self.at(from),
            to: self.at(from + size),
        }
    }
}

fn positive(value: Length) -> Result<Length, CutPlanError> {
    if is_positive(value.value) {
        Ok(value)
    } else {
        Err(CutPlanError::Size(value))
    }
}

/// The most that pieces of one size are worth on a stick, and where they start: a dynamic programme over
/// the ends of the stick.
///
/// `worth(start)` is what a piece is worth there; pieces lie between `from` and `to`, a kerf between one
/// and the next. Best(x) = the larger of best(x - 1) and worth(x - size) + best(x - size - kerf): exact
/// over all starts on the grid. Of plans worth the same, that whose cuts come first.
fn best_starts(
    (from, to): (usize, usize),
    size: usize,
    kerf: usize,
    worth: &mut dyn FnMut(usize) -> f64,
) -> (f64, Vec<usize>) {
    let span = to.saturating_sub(from);
    let mut best = vec![0.0; span + 1];
    let mut cut = vec![false; span + 1];
    for end in 1..=span {
        best[end] = best[end - 1];
        if let Some(start) = end.checked_sub(size) {
            let taken = worth(from + start) + best[start.saturating_sub(kerf)];
            // Only what is worth more than a trace of arithmetic moves a cut.
            if taken > best[end] + 1e-9 {
                (best[end], cut[end]) = (taken, true);
            }
        }
    }
    let mut starts = Vec::new();
    let mut end = span;
    while end > 0 {
        if cut[end] {
            starts.push(from + end - size);
            end = (end - size).saturating_sub(kerf);
        } else {
            end -= 1;
        }
    }
    starts.reverse();
    (best[span], starts)
}

/// The cutting plan that is worth most.
///
/// `ring_angle` gives, for an offset from mid-width, the acute angle between the rings and the wide face
/// there, or `None`; a part is taken at its middle, and turned on edge. A row is as worth as its best
/// rip, and the rows are chosen so that all are worth most: a dynamic programme along, over one across for
/// every set of defects that a row can hold. Exact among cuts on multiples of the step. An error for sizes
/// or worths that make no sense, or too fine a step; no part at all is an answer. Derived here: geometry.
///
/// ```
/// use stillwood_core::neck::{Stock, PartCut, PartWorth, plan_cuts};
/// use stillwood_core::quantity::mm;
/// let plank = Stock { length: mm(2620.0), width: mm(205.0), patches: Vec::new() };
/// let cut = PartCut {
///     length: mm(950.0), thickness: mm(13.0), planing: mm(1.5), kerf: mm(3.2),
///     end_trim: mm(70.0), edge_trim: mm(5.0), step: mm(0.1),
/// };
/// let alike = PartWorth { quartersawn: 1.0, rift: 1.0, flatsawn: 1.0, unknown: 1.0 };
/// let plan = plan_cuts(&plank, &cut, &|_| None, &alike).unwrap();
/// assert_eq!((plan.rows.len(), plan.parts()), (2, 20));
/// ```
///
/// No published value: an optimum, held against brute force.
pub fn plan_cuts(
    stock: &Stock,
    cut: &PartCut,
    ring_angle: &dyn Fn(Length) -> Option<Angle>,
    worth: &PartWorth,
) -> Result<CuttingPlan, CutPlanError> {
    let grid = Grid {
        step: positive(cut.step)?,
    };
    for patch in &stock.patches {
        for Place { from, to } in patch.across.into_iter().chain([patch.along]) {
            if !(from <= to && from.value.is_finite() && to.value.is_finite()) {
                return Err(CutPlanError::Patch { from, to });
            }
        }
    }
    for value in [worth.quartersawn, worth.rift, worth.flatsawn, worth.unknown] {
        if !(value >= 0.0 && value.is_finite()) {
            return Err(CutPlanError::Worth(value));
        }
    }
    let kerf = grid.up(cut.kerf)?;
    let length = grid.up(positive(cut.length)?)?;
    grid.up(cut.planing)?;
    let across = Across {
        grid: &grid,
        span: inside(&grid, positive(stock.width)?, cut.edge_trim)?,
        rough: grid.up(positive(cut.thickness)? + 2.0 * cut.planing)?,
        kerf,
        middle: stock.width / 2.0,
        ring_angle,
        worth,
        worths: OnceCell::new(),
    };
    let along = inside(&grid, positive(stock.length)?, cut.end_trim)?;
    let mut rips: Rips = Vec::new();
    let (all, starts) = {
        let mut row_worth = |start| {
            let held = held_in(&stock.patches, grid.place(start, length));
            rip(&mut rips, held, &across, &stock.patches).0
        };
        best_starts(along, length, kerf, &mut row_worth)
    };
    let mut plan = CuttingPlan {
        rows: Vec::new(),
        worth: all,
    };
    for start in starts {
        let held = held_in(&stock.patches, grid.place(start, length));
        let parts = rip(&mut rips, held, &across, &stock.patches).1;
        plan.rows.push(PartRow {
            along: grid.place(start, length),
            parts: parts.into_iter().map(|at| across.part(at)).collect(),
        });
    }
    Ok(plan)
}

/// What lies between two trims, in steps.
fn inside(grid: &Grid, whole: Length, trim: Length) -> Result<(usize, usize), CutPlanError> {
    let from = grid.up(trim)?;
    grid.up(whole)?;
    let to = ((whole - trim) / grid.step).value + 1e-6;
    Ok((from, to.floor().max(0.0) as usize))
}

/// Whether two stretches share more than an edge.
fn overlap(a: Place, b: Place) -> bool {
    let hair = Length {
        value: 1e-9,
        ..Length::default()
    };
    a.from < b.to - hair && a.to > b.from + hair
}

/// The defects that a row holds.
fn held_in(patches: &[Patch], row: Place) -> Vec<usize> {
    (0..patches.len())
        .filter(|at| overlap(patches[*at].along, row))
        .collect()
}

/// What a row is worth that holds a set of defects, and where its parts start.
type Rips = Vec<(Vec<usize>, (f64, Vec<usize>))>;

/// The best rip of a row that holds these defects; each set of defects is ripped once.
fn rip(
    rips: &mut Rips,
    held: Vec<usize>,
    across: &Across<'_>,
    patches: &[Patch],
) -> (f64, Vec<usize>) {
    // The next row mostly holds what the last one held.
    if let Some((_, found)) = rips.iter().rev().find(|(set, _)| *set == held) {
        return found.clone();
    }
    let found = across.rip(&held, patches);
    rips.push((held, found.clone()));
    found
}

/// What is the same for every row.
struct Across<'a> {
    grid: &'a Grid,
    span: (usize, usize),
    rough: usize,
    kerf: usize,
    middle: Length,
    ring_angle: &'a dyn Fn(Length) -> Option<Angle>,
    worth: &'a PartWorth,
    /// What an unspoilt part is worth at each start: asked of the rings once, not once a set of defects.
    worths: OnceCell<Vec<f64>>,
}

impl Across<'_> {
    fn worths(&self) -> &[f64] {
        let (from, to) = self.span;
        let starts = from..(to + 1).saturating_sub(self.rough);
        self.worths
            .get_or_init(|| starts.map(|start| self.part(start).worth).collect())
    }

    fn rip(&self, held: &[usize], patches: &[Patch]) -> (f64, Vec<usize>) {
        if held.iter().any(|at| patches[*at].across.is_none()) {
            return (0.0, Vec::new());
        }
        let zones: Vec<Place> = held.iter().filter_map(|at| patches[*at].across).collect();
        let worths = self.worths();
        let mut worth = |start: usize| {
            let across = self.grid.place(start, self.rough);
            let spoilt = zones.iter().any(|zone| overlap(*zone, across));
            let at = start.checked_sub(self.span.0);
            let unspoilt = at.and_then(|at| worths.get(at)).copied();
            unspoilt.filter(|_| !spoilt).unwrap_or_default()
        };
        best_starts(self.span, self.rough, self.kerf, &mut worth)
    }

    fn part(&self, start: usize) -> PlannedPart {
        let across = self.grid.place(start, self.rough);
        let middle = (across.from + across.to) / 2.0 - self.middle;
        let ring_angle =
            (self.ring_angle)(middle).and_then(|angle| turned_on_edge(&mut TraceOff, angle).ok());
        let class = ring_angle.and_then(|angle| RingClass::of(angle).ok());
        PlannedPart {
            across,
            ring_angle,
            class,
            worth: self.worth.of(class),
        }
    }
}

#[cfg(test)]
mod tests;
