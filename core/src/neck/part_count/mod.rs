//! The parts that a plank holds, and where each is cut.
//!
//! Parts lie in straight rows over the plank's least width, and a defect with a place is taken to go
//! right across: it never counts on ripping round a defect at one edge. It takes one layer of parts out
//! of the thickness and never resaws.

use crate::order;
use crate::plank::{Defect, DefectKind, DefectSeverity, Plank, Side, SizeError};
use crate::quantity::{Length, in_mm, is_positive, mm};
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
pub struct CutSpec {
    /// The part's size along the grain.
    pub length: Length,
    /// What the part takes of the plank's width: its width when it is laid flat, its thickness when it
    /// is turned on edge.
    pub across: Length,
    /// The thickness of straight slab that it needs: its thickness when it is laid flat, its width when
    /// it is turned on edge.
    pub slab: Length,
    /// The planed width of the piece that is sawn and flattened first and then ripped into parts; `None`
    /// where the parts come straight off the plank. A piece is as long as a part.
    pub piece: Option<Length>,
    /// What planing takes from each face.
    pub planing: Length,
    /// Width of the saw cut.
    pub kerf: Length,
    /// What is cut off each end.
    pub end_trim: Length,
    /// What is lost along both edges together.
    pub edge_trim: Length,
    pub parts_per_blank: u32,
}

impl CutSpec {
    /// The width of what is flattened: the piece sawn first, or the part itself.
    pub fn flattened_width(&self) -> Length {
        self.piece.unwrap_or(self.across)
    }

    /// Whether a part fits in a straight slab of this thickness. An error for a part under 1 mm.
    pub fn fits_in(&self, slab: Length) -> Result<bool, CuttingError> {
        Ok(slab.value >= part(self.slab)?.value - HAIR)
    }
}

/// A stretch along the plank from its near end, or across it from one edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    pub from: Length,
    pub to: Length,
}

/// The stretches to cut round, and the defects that can't be for want of a place.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Zones {
    /// Stretches that no part may hold.
    pub places: Vec<Place>,
    /// Defects to be cut round whose place was not noted.
    pub unplaced: Vec<DefectKind>,
}

/// A defect noted at one place reaches so far to either side, mm (common practice, no source).
const BESIDE_FAULT: f64 = 20.0;

/// The stretches that a plank's defects forbid: those that are usually cut round, by their places.
pub fn zones_to_cut_round(defects: &[Defect]) -> Zones {
    let mut zones = Zones::default();
    for defect in defects
        .iter()
        .filter(|d| d.kind.severity() == DefectSeverity::CutRound)
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
    let mut places = Vec::new();
    loop {
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
        let to = from + piece;
        if to > end + hair {
            return Ok(places);
        }
        places.push(Place { from, to });
        from = to + kerf;
    }
}

/// Places of the parts across a width w after edge trim: floor((w + k)/(t + k)) of them, from half the
/// trim on.
///
/// t is what a part takes, k the kerf. An error for a part under 1 mm or a kerf or trim under
/// nothing. Derived here: geometry.
///
/// No published value: a count, held against counts by hand.
pub fn places_across(
    width: Length,
    part: Length,
    kerf: Length,
    edge_trim: Length,
) -> Result<Vec<Place>, CuttingError> {
    let width = checked_stick(Side::Width, Some(width))?;
    places_along(width, part, kerf, edge_trim / 2.0, &[])
}

/// Places of the parts across a width: side by side, or in pieces that are sawn first and then ripped.
///
/// A part is sawn wider than it is by the planing of both its sides, and so is a piece that is sawn first, a
/// kerf between one and the next. A piece is planed before it is ripped: its parts lie in its planed width, as
/// the cutting plan lays them out. One too narrow to be ripped is a part as it is, if it is as wide as one.
fn parts_across(width: Length, cut: &CutSpec) -> Result<Vec<Place>, CuttingError> {
    let planed_off = not_negative(cut.planing)? * 2.0;
    let rough = part(cut.across)? + planed_off;
    let Some(piece) = cut.piece else {
        return places_across(width, rough, cut.kerf, cut.edge_trim);
    };
    let sawn = part(piece)? + planed_off;
    let mut within = places_across(piece, rough, cut.kerf, Length::default())?;
    if within.is_empty() && piece.value >= cut.across.value - HAIR {
        within.push(Place {
            from: Length::default(),
            to: piece,
        });
    }
    let pieces = places_across(width, sawn, cut.kerf, cut.edge_trim)?;
    let parts_of = |piece: &Place| {
        let from = piece.from + cut.planing;
        within.iter().map(move |part| Place {
            from: from + part.from,
            to: from + part.to,
        })
    };
    Ok(pieces.iter().flat_map(parts_of).collect())
}

/// How many blanks some parts make.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blanks {
    /// With the fraction of the last.
    pub exact: f64,
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
pub struct PartCount {
    /// Places along the plank, from its near end.
    pub along: Vec<Place>,
    /// Places of the parts across it, as sawn, from one edge of its least width.
    pub across: Vec<Place>,
    /// Whether the straight slab is thick enough; if not, the plank holds none.
    pub thick_enough: bool,
    pub parts: u32,
    /// How many blanks they make; `None` for blanks of no parts.
    pub blanks: Option<Blanks>,
    /// The stretches cut round, and defects whose place is not known: the count may be too high by them.
    pub zones: Zones,
}

/// The parts that a plank holds, given the thickness of the straight slab in it and the stretches to cut round
/// (see [`zones_to_cut_round`]).
///
/// The slab is what flattening leaves (see [`crate::plank::slab_cut_first`]); a kink is cut at where it is a
/// zone without length. An error when length or
/// width is missing, or the cutting has sizes that make no sense; no parts at all is an answer, not an
/// error.
///
/// ```
/// use stillwood_core::{neck::{CutSpec, Zones, count_parts}, plank::{Plank, Stations}, quantity::mm};
/// let plank = Plank {
///     length: Some(mm(2620.0)), widths: Stations::one(mm(205.0)), ..Plank::default()
/// };
/// let laminates = CutSpec {
///     length: mm(950.0), across: mm(16.0), slab: mm(45.0), piece: None, planing: mm(1.0),
///     kerf: mm(3.2), end_trim: mm(70.0), edge_trim: mm(10.0), parts_per_blank: 5,
/// };
/// let found = count_parts(&plank, &laminates, mm(47.3), Zones::default()).unwrap();
/// assert_eq!((found.along.len(), found.across.len(), found.parts), (2, 9, 18));
/// assert_eq!(found.blanks.unwrap().whole, 3);
/// // From pieces of 80 mm, planed, 3 each.
/// let first = CutSpec { piece: Some(mm(80.0)), ..laminates };
/// assert_eq!(count_parts(&plank, &first, mm(47.3), Zones::default()).unwrap().parts, 12);
/// ```
pub fn count_parts(
    plank: &Plank,
    cut: &CutSpec,
    slab: Length,
    zones: Zones,
) -> Result<PartCount, CuttingError> {
    let length = checked_stick(Side::Length, plank.length)?;
    let width = checked_stick(Side::Width, plank.widths.least())?;
    let along = places_along(length, cut.length, cut.kerf, cut.end_trim, &zones.places)?;
    let across = parts_across(width, cut)?;
    let thick_enough = cut.fits_in(slab)?;
    let parts = match (u32::try_from(along.len()), u32::try_from(across.len())) {
        (Ok(rows), Ok(parts)) if thick_enough => rows.saturating_mul(parts),
        _ => 0,
    };
    Ok(PartCount {
        thick_enough,
        parts,
        blanks: Blanks::from_parts(parts, cut.parts_per_blank),
        along,
        across,
        zones,
    })
}

#[cfg(test)]
mod tests;
