//! How a piece has moved, check by check, since it was last machined flat.
//!
//! It brings the record's checks to the formulas of seasoning. A shape that was not measured at the start
//! counts from the first check that has it; "nothing moved" is the shape of the check before, by eye, or as finely as
//! the check says. A look by eye never takes from what was measured while that holds ([`is_look_old`]): where it
//! alone would leave a shape too close to call, the shape stands as it was measured.

use crate::order;
use crate::plank::{FormError, Plank, Stations};
use crate::quantity::{Derivation, Length, mm};
use crate::record::log::id::Id;
use crate::record::log::{Machined, MovementChecked, PieceKind};
use crate::record::queries;
use crate::record::state::{Dated, Origin};
use crate::record::state::{Piece, State};
use crate::season::{
    Change, EYE, Gap, LimitError, Movement, Stage, StageLimits, Warp, Warps, changes,
    explain_change, is_look_old, standard_of, warps, worst,
};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use thiserror::Error;

/// Why a check can't be held against a limit.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum MovedError {
    /// What was read can't be carried over to the piece.
    #[error(transparent)]
    Form(#[from] FormError),
    /// The limit can't.
    #[error(transparent)]
    Limit(#[from] LimitError),
}

#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    pub entry: Id,
    pub on: NaiveDate,
    /// Its place in the order of the fold, as in [`Dated::place`].
    pub place: (u64, Id),
    /// When it was machined flat last before; `None` where it never was.
    pub flat_on: Option<NaiveDate>,
    /// Where the changes count from, shape by shape.
    pub since: Starts,
    /// The changes since then, shape by shape.
    pub changes: Result<Vec<Change>, MovedError>,
    /// How it stands: as its worst shape.
    pub movement: Movement,
    /// The shape that the changes count from, and the shape as seen.
    shapes: (Warps, Warps),
    /// Shapes that a look by eye leaves as they were measured.
    stays: BTreeMap<Warp, AsMeasured>,
}

/// Where the changes of a shape count from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CountsFrom {
    pub on: NaiveDate,
    /// It was machined then; else it was seen at a check for the first time.
    pub machined: bool,
}

/// Where the changes of each shape count from; a shape that was never seen is in none.
pub type Starts = BTreeMap<Warp, CountsFrom>;

/// How a shape stood when it was measured last, and the day.
#[derive(Debug, Clone, Copy, PartialEq)]
struct AsMeasured {
    on: NaiveDate,
    movement: Movement,
}

/// What happened to a piece's shape, one after the other.
enum Step<'a> {
    Flat(&'a Dated<Machined>),
    Check(&'a Dated<Arc<MovementChecked>>),
}

impl Step<'_> {
    fn order(&self) -> (NaiveDate, (u64, Id)) {
        match self {
            Step::Flat(said) => (said.on, said.place),
            Step::Check(said) => (said.on, said.place),
        }
    }
}

/// The shape that movement counts from, and the shape as known last.
#[derive(Default)]
struct Shape {
    flat_on: Option<NaiveDate>,
    start: Warps,
    since: Starts,
    last: Warps,
    /// Read again since the start: on which side the last gap lies of the first is known by their signs alone.
    read_again: BTreeSet<Warp>,
    measured: BTreeMap<Warp, AsMeasured>,
}

/// What a check shows.
struct Shown {
    changes: Result<Vec<Change>, MovedError>,
    shapes: (Warps, Warps),
    stays: BTreeMap<Warp, AsMeasured>,
}

impl Shape {
    fn flattened(
        &mut self,
        said: &Dated<Machined>,
        size: &Plank,
        feeler: Length,
    ) -> Result<(), FormError> {
        let machined = &said.payload;
        let from_here = CountsFrom {
            on: said.on,
            machined: true,
        };
        let flat = Gap::flat(standard_of(feeler));
        for warp in Warp::ALL {
            let made = match warp {
                Warp::Crook => machined.edge,
                _ => machined.face,
            };
            if made {
                self.start.insert(warp, flat);
                self.since.insert(warp, from_here);
                self.last.insert(warp, flat);
                self.read_again.remove(&warp);
                self.measured.remove(&warp);
            }
        }
        self.flat_on = Some(said.on);
        let read = warps(&machined.readings, size, feeler)?;
        self.read_again.retain(|warp| !read.contains_key(warp));
        self.start.extend(read.clone());
        self.since
            .extend(read.keys().map(|warp| (*warp, from_here)));
        self.last.extend(read);
        Ok(())
    }

    /// The shape at a check, and what of it was read.
    fn seen(
        &self,
        check: &MovementChecked,
        size: &Plank,
        feeler: Length,
    ) -> Result<(Warps, BTreeSet<Warp>), FormError> {
        let half_width = check
            .within
            .as_ref()
            .map_or(feeler, |within| mm(within.value));
        let mut seen = Warps::new();
        if check.nothing_moved {
            // Felt with the tool whose reach is said; else by eye.
            let tool = if check.within.is_some() { 1.0 } else { EYE };
            let standard = standard_of(half_width) * tool;
            seen = self.last.clone();
            for gap in seen.values_mut() {
                gap.standard = gap.standard.max(standard);
            }
        }
        let read = warps(&check.readings, size, half_width)?;
        let names = order::set_of(read.keys().copied());
        seen.extend(read);
        Ok((seen, names))
    }

    /// The shape at the start and at a check, as they are held against each other. What never moved since the start
    /// lies on the side where it lay, whichever that is: its change has no sign to ask for.
    fn compared(&self, seen: &Warps, read: &BTreeSet<Warp>) -> (Warps, Warps) {
        let (mut from, mut to) = (self.start.clone(), seen.clone());
        for (warp, gap) in &mut to {
            if read.contains(warp) || self.read_again.contains(warp) {
                continue;
            }
            if let Some(first) = from.get_mut(warp) {
                (first.signed, gap.signed) = (true, true);
            }
        }
        (from, to)
    }

    fn check(
        &mut self,
        said: &Dated<Arc<MovementChecked>>,
        size: &Plank,
        terms: &StageLimits,
        feeler: Length,
    ) -> Shown {
        let check = &said.payload;
        let (seen, read) = match self.seen(check, size, feeler) {
            Ok(seen) => seen,
            Err(why) => {
                return Shown {
                    changes: Err(why.into()),
                    shapes: Default::default(),
                    stays: BTreeMap::new(),
                };
            }
        };
        let shapes = self.compared(&seen, &read);
        let mut found = changes(&shapes.0, &shapes.1, terms, size.length);
        let mut stays = BTreeMap::new();
        if let Ok(found) = &mut found {
            for change in found {
                let Some(movement) = change.movement else {
                    continue;
                };
                if read.contains(&change.warp) {
                    let on = said.on;
                    self.measured
                        .insert(change.warp, AsMeasured { on, movement });
                } else if let Some(kept) = self.kept_by_eye(check, change, said.on) {
                    change.movement = Some(kept.movement);
                    stays.insert(change.warp, kept);
                }
            }
            for (warp, gap) in seen {
                if read.contains(&warp) && self.start.contains_key(&warp) {
                    self.read_again.insert(warp);
                }
                self.start.entry(warp).or_insert(gap);
                self.since.entry(warp).or_insert(CountsFrom {
                    on: said.on,
                    machined: false,
                });
                self.last.insert(warp, gap);
            }
        }
        Shown {
            changes: found.map_err(MovedError::from),
            shapes,
            stays,
        }
    }

    /// How a shape was measured, where a look by eye saw no change and would alone leave it too close to call.
    fn kept_by_eye(
        &self,
        check: &MovementChecked,
        change: &Change,
        on: NaiveDate,
    ) -> Option<AsMeasured> {
        let by_eye = check.nothing_moved && check.within.is_none();
        let measured = self.measured.get(&change.warp)?;
        let holds =
            by_eye && change.movement == Some(Movement::TooClose) && !is_look_old(measured.on, on);
        holds.then_some(*measured)
    }
}

/// The terms in force for a stage: the maker's, else those supplied.
pub fn stage_limits(state: &State, stage: Stage) -> StageLimits {
    let set = state.stages.get(&stage);
    set.map_or_else(|| StageLimits::supplied(stage), |set| set.payload)
}

/// The stage that a piece is in: that of its rest, else that of what it is.
pub fn stage_of(piece: &Piece) -> Stage {
    match (piece.work.rest(), piece.work.kind) {
        (Some(rest), _) => rest.payload.stage,
        (None, PieceKind::Plank | PieceKind::Piece) => Stage::Pieces,
        (None, PieceKind::Laminate) => Stage::Laminates,
        (None, PieceKind::Blank) => Stage::Blanks,
    }
}

/// The size that its shape is judged over: of a blank that was not measured itself, what its laminates
/// come to.
fn shaped_size(state: &State, piece: &Piece) -> Plank {
    let own = queries::size_of(state, piece);
    if !matches!(piece.work.origin, Origin::GluedFrom { .. }) {
        return own;
    }
    let [length, width, thickness] = queries::blank_size(state, piece).map(|size| size.map(mm));
    let stations = |size: Option<Length>| size.map(Stations::one).unwrap_or_default();
    Plank {
        length,
        widths: stations(width),
        thicknesses: stations(thickness),
        ..own
    }
}

/// How a change that a check shows was worked out; `None` where there is none.
pub fn change_worked(
    state: &State,
    piece: &Piece,
    check: &Checked,
    warp: Warp,
) -> Option<Derivation> {
    let terms = stage_limits(state, stage_of(piece));
    let length = shaped_size(state, piece).length;
    let (from, seen) = &check.shapes;
    let working = explain_change(warp, (from, seen), &terms, length).ok()??;
    let working = match check.stays.get(&warp) {
        Some(kept) => working.and(format!(
            "By eye nothing has changed, which takes nothing from what was measured on {}: {} still.",
            kept.on,
            kept.movement.in_words()
        )),
        None => working,
    };
    let since = check.since.get(&warp)?;
    let day = since.on;
    Some(working.and(match since.machined {
        true => format!("It counts from {day}, when it was made flat."),
        false => format!("It counts from {day}, the first check that has it."),
    }))
}

/// Whether it is known what each shape of a piece that has a limit moves from: it was machined flat, or measured once.
/// `starts` are those of [`moved_from`].
pub fn has_start(state: &State, piece: &Piece, starts: &Starts) -> bool {
    let terms = stage_limits(state, stage_of(piece));
    let mut limited = Warp::ALL
        .into_iter()
        .filter(|warp| warp.limit(&terms).is_some());
    limited.all(|warp| starts.contains_key(&warp))
}

/// The checks whose change of a shape counts from where it counts from now; of `checks`, all of [`moved`].
pub fn checks_since<'a>(
    checks: &'a [Checked],
    starts: &Starts,
    warp: Warp,
) -> impl Iterator<Item = &'a Checked> {
    let now = starts.get(&warp).copied();
    let counts = move |check: &&Checked| check.since.get(&warp).copied() == now;
    checks.iter().filter(counts)
}

/// How a piece has moved, check by check, oldest first, against the terms of its stage. `feeler` is
/// how far off a gap may be where the check does not say (see [`crate::season::FEELER_MM`]).
pub fn moved(state: &State, piece: &Piece, feeler: Length) -> Vec<Checked> {
    moved_from(state, piece, feeler).0
}

/// The same, and where each shape counts from now.
pub fn moved_from(state: &State, piece: &Piece, feeler: Length) -> (Vec<Checked>, Starts) {
    let terms = stage_limits(state, stage_of(piece));
    let size = shaped_size(state, piece);
    let mut steps: Vec<Step<'_>> = piece.work.machined.iter().map(Step::Flat).collect();
    steps.extend(piece.work.checks.iter().map(Step::Check));
    crate::order::sort_by_key(&mut steps, Step::order);
    let mut shape = Shape::default();
    let mut found = Vec::new();
    for step in steps {
        match step {
            Step::Flat(said) => {
                // Flat all the same where what was read after can't be used.
                let _ = shape.flattened(said, &size, feeler);
            }
            Step::Check(said) => {
                let Shown {
                    changes,
                    shapes,
                    stays,
                } = shape.check(said, &size, &terms, feeler);
                found.push(Checked {
                    entry: said.entry,
                    on: said.on,
                    place: said.place,
                    flat_on: shape.flat_on,
                    since: shape.since.clone(),
                    movement: changes.as_deref().map_or(Movement::NotMeasured, worst),
                    changes,
                    shapes,
                    stays,
                });
            }
        }
    }
    (found, shape.since)
}
