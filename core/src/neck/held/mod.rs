//! The parts that a plank holds, and where each is cut.
//!
//! Parts lie in straight rows over the plank's least width, and a fault with a place is taken to go
//! right across: it never counts on ripping round a fault at one edge. It takes one layer of parts out
//! of the thickness and never resaws.

use crate::order;
use crate::plank::{Defect, DefectKind, Plank, Side, SizeError, Standing};
use crate::quantity::{Length, in_mm, is_positive, mm};
use crate::verdict::Spec;
use thiserror::Error;

/// Why no count can be made.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CuttingError {
    /// A size of the plank is missing or not positive.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// A part smaller than a millimetre, or no number.
    #[error("a part of {:.1} mm: it has to be at least 1 mm each way", in_mm(*.0))]
    PartTooSmall(Length),
    /// A kerf or trim that is less than nothing, or no number.
    #[error("a kerf or trim of {:.1} mm: it can't be less than nothing", in_mm(*.0))]
    Negative(Length),
    /// A plank longer or wider than 100 m.
    #[error("a plank of {:.0} mm is longer than any", in_mm(*.0))]
    TooLarge(Length),
}

/// How a plank is cut up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cutting {
    /// The part's size along the grain.
    pub length: Length,
    /// What the part takes of the plank's width: its width when it is laid flat, its thickness when it
    /// is turned on edge.
    pub across: Length,
    /// The thickness of straight slab that it needs: its thickness when it is laid flat, its width when
    /// it is turned on edge.
    pub slab: Length,
    /// Width of the saw cut.
    pub kerf: Length,
    /// What is cut off each end.
    pub end_trim: Length,
    /// What is lost along both edges together.
    pub edge_trim: Length,
    /// How many parts make a blank.
    pub parts_per_blank: u32,
}

impl Cutting {
    /// How a spec has it cut.
    pub fn of(spec: &Spec) -> Self {
        Self {
            length: mm(spec.part.length_mm),
            across: mm(spec.across_mm()),
            slab: mm(spec.slab_needed_mm()),
            kerf: mm(spec.kerf_mm),
            end_trim: mm(spec.end_trim_mm),
            edge_trim: mm(spec.edge_trim_mm),
            parts_per_blank: spec.parts_per_blank,
        }
    }

    fn fits_in(&self, slab: Length) -> Result<bool, CuttingError> {
        Ok(slab.value >= part(self.slab)?.value - HAIR)
    }
}

/// A stretch along the plank from its near end, or across it from one edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Where it starts.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// The stretches to cut round, and the faults that can't be for want of a place.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Zones {
    /// Stretches that no part may hold.
    pub places: Vec<Place>,
    /// Faults to be cut round whose place was not noted.
    pub unplaced: Vec<DefectKind>,
}

/// A fault noted at one place reaches so far to either side, mm (common practice, no source).
const BESIDE_FAULT: f64 = 20.0;

/// The stretches that a plank's faults forbid: those that are usually cut round, by their places.
pub fn zones_to_cut_round(defects: &[Defect]) -> Zones {
    let mut zones = Zones::default();
    for defect in defects
        .iter()
        .filter(|d| d.kind.standing() == Standing::CutRound)
    {
        match (defect.from, defect.to) {
            (None, None) => zones.unplaced.push(defect.kind),
            (Some(one), None) | (None, Some(one)) => zones.places.push(Place {
                from: one - mm(BESIDE_FAULT),
                to: one + mm(BESIDE_FAULT),
            }),
            (Some(from), Some(to)) => zones.places.push(Place {
                from: from.min(to),
                to: from.max(to),
            }),
        }
    }
    zones
}

/// A trace of binary arithmetic, not of wood: a part that fits to a billionth of a metre fits.
pub(super) const HAIR: f64 = 1e-9;

fn not_negative(value: Length) -> Result<Length, CuttingError> {
    if value.value >= 0.0 && value.value <= f64::MAX {
        Ok(value)
    } else {
        Err(CuttingError::Negative(value))
    }
}

fn part(value: Length) -> Result<Length, CuttingError> {
    if value.value >= 0.001 - HAIR && value.value <= f64::MAX {
        Ok(value)
    } else {
        Err(CuttingError::PartTooSmall(value))
    }
}

pub(super) fn checked_stick(side: Side, value: Option<Length>) -> Result<Length, CuttingError> {
    let value = value.ok_or(SizeError::Missing(side))?;
    if !is_positive(value.value) {
        return Err(SizeError::NotPositive { side, value }.into());
    }
    if value.value > 100.0 {
        return Err(CuttingError::TooLarge(value));
    }
    Ok(value)
}

/// Places of as many pieces of a length l as a stick of length L holds: from the near end on, each as
/// early as it goes, a kerf between one and the next, none over a zone.
///
/// No other placing holds more (each piece ends as early as any placing could have it). With zones at
/// least a kerf long, the count is the sum of floor((r + k)/(l + k)) over the clear runs r, k the kerf.
/// A zone without length is a place to cut at: a piece may end there. An error for a piece under 1 mm or
/// a kerf or trim under nothing. Derived here: geometry.
///
/// No published value: a count, held against the sum over clear runs.
///
/// ```
/// use stillwood_core::{neck::{Place, places_along}, quantity::mm};
/// let knot = Place { from: mm(1100.0), to: mm(1180.0) };
/// let cuts = places_along(mm(2620.0), mm(950.0), mm(3.2), mm(60.0), &[knot]).unwrap();
/// assert_eq!(cuts.len(), 2);
/// assert!((cuts[1].from - mm(1180.0)).abs() < mm(1e-6));
/// ```
pub fn places_along(
    stick: Length,
    piece: Length,
    kerf: Length,
    end_trim: Length,
    zones: &[Place],
) -> Result<Vec<Place>, CuttingError> {
    Ok(pieces_along(stick, piece, kerf, end_trim, zones)?.collect())
}

/// The places of [`places_along`], one after another.
fn pieces_along(
    stick: Length,
    piece: Length,
    kerf: Length,
    end_trim: Length,
    zones: &[Place],
) -> Result<impl Iterator<Item = Place>, CuttingError> {
    let (piece, kerf) = (part(piece)?, not_negative(kerf)?);
    let stick = checked_stick(Side::Length, Some(stick))?;
    let hair = Length {
        value: HAIR,
        ..Length::default()
    };
    let end = stick - not_negative(end_trim)?;
    let is_place = |zone: &&Place| !zone.from.is_nan() && !zone.to.is_nan();
    let mut zones: Vec<Place> = zones.iter().filter(is_place).copied().collect();
    order::sort_by(&mut zones, |a, b| a.from.value.total_cmp(&b.from.value));
    let mut from = end_trim;
    let (mut begun, mut reach) = (0, f64::NEG_INFINITY);
    Ok(std::iter::from_fn(move || {
        // Past all zones that begin before the piece would end, until none of them is in the way.
        loop {
            while let Some(zone) = zones
                .get(begun)
                .filter(|zone| zone.from < from + piece - hair)
            {
                reach = zone.to.value.max(reach);
                begun += 1;
            }
            if reach <= (from + hair).value {
                break;
            }
            from = Length {
                value: reach,
                ..from
            };
        }
        let place = Place {
            from,
            to: from + piece,
        };
        from = place.to + kerf;
        (place.to <= end + hair).then_some(place)
    }))
}

/// Places of the strips across a width w after edge trim: floor((w + k)/(t + k)) of them, from half the
/// trim on.
///
/// t is what a strip takes, k the kerf. An error for a strip under 1 mm or a kerf or trim under
/// nothing. Derived here: geometry.
///
/// No published value: a count, held against counts by hand.
pub fn places_across(
    width: Length,
    strip: Length,
    kerf: Length,
    edge_trim: Length,
) -> Result<Vec<Place>, CuttingError> {
    Ok(strips_across(width, strip, kerf, edge_trim)?.collect())
}

fn strips_across(
    width: Length,
    strip: Length,
    kerf: Length,
    edge_trim: Length,
) -> Result<impl Iterator<Item = Place>, CuttingError> {
    let width = checked_stick(Side::Width, Some(width))?;
    pieces_along(width, strip, kerf, edge_trim / 2.0, &[])
}

/// How many blanks some parts make.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blanks {
    /// With the fraction of the last.
    pub exact: f64,
    /// Whole ones.
    pub whole: u32,
}

impl Blanks {
    /// From a count of parts; `None` for blanks of no parts.
    pub fn from_parts(parts: u32, parts_per_blank: u32) -> Option<Self> {
        Some(Self {
            exact: f64::from(parts) / f64::from(parts_per_blank),
            whole: parts.checked_div(parts_per_blank)?,
        })
    }
}

/// What a plank holds, with the places of the cuts for a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Places along the plank, from its near end.
    pub along: Vec<Place>,
    /// Places across it, from one edge of its least width.
    pub across: Vec<Place>,
    /// Whether the straight slab is thick enough; if not, the plank holds none.
    pub thick_enough: bool,
    /// How many parts.
    pub parts: u32,
    /// How many blanks they make; `None` for blanks of no parts.
    pub blanks: Option<Blanks>,
    /// What is left of the length beside the parts: trim, kerfs, faults and offcuts.
    pub left_along: Length,
    /// What is left of the least width beside the parts.
    pub left_across: Length,
    /// The stretches cut round, and faults whose place is not known: the count may be too high by them.
    pub zones: Zones,
}

/// The parts that a plank holds, given the thickness of the straight slab in it.
///
/// The slab is what flattening leaves (see [`crate::plank::slab_cut_first`]); no part lies across one of
/// `cuts_at`, so that a cut falls on a kink. An error when length or
/// width is missing, or the cutting has sizes that make no sense; no parts at all is an answer, not an
/// error.
///
/// ```
/// use stillwood_core::{neck::{Cutting, held}, plank::{Plank, Stations}, quantity::mm};
/// let plank = Plank {
///     length: Some(mm(2620.0)), widths: Stations::one(mm(205.0)), ..Plank::default()
/// };
/// let laminates = Cutting {
///     length: mm(950.0), across: mm(16.0), slab: mm(45.0), kerf: mm(3.2),
///     end_trim: mm(70.0), edge_trim: mm(10.0), parts_per_blank: 5,
/// };
/// let found = held(&plank, &laminates, mm(47.3), &[]).unwrap();
/// assert_eq!((found.along.len(), found.across.len(), found.parts), (2, 10, 20));
/// assert_eq!(found.blanks.unwrap().whole, 4);
/// ```
pub fn held(
    plank: &Plank,
    cutting: &Cutting,
    slab: Length,
    cuts_at: &[Length],
) -> Result<Held, CuttingError> {
    let length = checked_stick(Side::Length, plank.length)?;
    let width = checked_stick(Side::Width, plank.widths.least())?;
    let mut zones = zones_to_cut_round(&plank.defects);
    zones
        .places
        .extend(cuts_at.iter().map(|at| Place { from: *at, to: *at }));
    let along = places_along(
        length,
        cutting.length,
        cutting.kerf,
        cutting.end_trim,
        &zones.places,
    )?;
    let across = places_across(width, cutting.across, cutting.kerf, cutting.edge_trim)?;
    let thick_enough = cutting.fits_in(slab)?;
    let parts = parts_of(along.len(), across.len(), thick_enough);
    let taken = |places: &[Place]| {
        places.iter().fold(Length::default(), |sum, place| {
            sum + (place.to - place.from)
        })
    };
    Ok(Held {
        thick_enough,
        parts,
        blanks: Blanks::from_parts(parts, cutting.parts_per_blank),
        left_along: length - taken(&along),
        left_across: width - taken(&across),
        along,
        across,
        zones,
    })
}

/// How many pieces lie behind one another along the plank, as [`held`] has it, with the stretches that none
/// may hold.
pub(crate) fn count_along(
    plank: &Plank,
    cutting: &Cutting,
    zones: &[Place],
) -> Result<usize, CuttingError> {
    let length = checked_stick(Side::Length, plank.length)?;
    let pieces = pieces_along(
        length,
        cutting.length,
        cutting.kerf,
        cutting.end_trim,
        zones,
    )?;
    Ok(pieces.count())
}

/// How many strips lie side by side across its least width, as [`held`] has it.
pub(crate) fn count_across(plank: &Plank, cutting: &Cutting) -> Result<usize, CuttingError> {
    let width = checked_stick(Side::Width, plank.widths.least())?;
    let strips = strips_across(width, cutting.across, cutting.kerf, cutting.edge_trim)?;
    Ok(strips.count())
}

/// The count of parts, as [`held`] has it, from [`count_along`], [`count_across`] and the slab.
pub(crate) fn count_held(
    along: usize,
    across: usize,
    cutting: &Cutting,
    slab: Length,
) -> Result<u32, CuttingError> {
    Ok(parts_of(along, across, cutting.fits_in(slab)?))
}

fn parts_of(rows: usize, strips: usize, thick_enough: bool) -> u32 {
    match (u32::try_from(rows), u32::try_from(strips)) {
        (Ok(rows), Ok(strips)) if thick_enough => rows.saturating_mul(strips),
        _ => 0,
    }
}

#[cfg(test)]
mod tests;
