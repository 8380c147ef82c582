//! The best places for blanks along a plank: as many as go, and then where the wood is worth most.
//!
//! It knows lengths, defects to dodge and what a blank is worth at a place; what makes it worth that is
//! asked of the caller, or is the thickness of the straight slab there. It cuts across only, never along.

use super::part_count::{CuttingError, HAIR, checked_stick, zones_to_cut_round};
use super::{CutSpec, Place, Zones, places_along};
use crate::order;
use crate::plank::{FormError, Plank, Side, slab_at, slab_turns_at};
use crate::quantity::TraceOff;
use crate::quantity::{Length, in_mm};
use thiserror::Error;

/// Why no best places can be found.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PlacementError {
    /// A size that can't be cut.
    #[error(transparent)]
    Cutting(#[from] CuttingError),
    /// A size or shape of the plank that can't be carried over to a blank.
    #[error(transparent)]
    Form(#[from] FormError),
    /// More blanks than are weighed against each other.
    #[error("{0} blanks along one plank: more than 100 are not weighed against each other")]
    TooMany(usize),
    /// More defects than are weighed against each other.
    #[error("{0} defects along one plank: more than 200 are not dodged one by one")]
    TooManyZones(usize),
}

/// Blanks along a plank.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// Their places, from the near end on.
    pub places: Vec<Place>,
    /// What they are worth together.
    pub worth: f64,
}

/// The stick that blanks are cut from, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stick<'a> {
    pub length: Length,
    /// A blank's length.
    pub piece: Length,
    /// Width of the saw cut.
    pub kerf: Length,
    /// What is cut off each end.
    pub end_trim: Length,
    /// Stretches that no blank may hold.
    pub zones: &'a [Place],
}

impl Stick<'_> {
    fn holds(&self, start: f64) -> bool {
        let end = start + self.piece.value;
        let inside = start >= self.end_trim.value - HAIR
            && end <= (self.length - self.end_trim).value + HAIR;
        inside
            && !self
                .zones
                .iter()
                .any(|zone| zone.from.value < end - HAIR && zone.to.value > start + HAIR)
    }
}

/// What a blank is worth at a place.
#[derive(Clone, Copy)]
pub struct Worth<'a> {
    /// The worth of a blank that starts there. A start whose worth is no number is not used.
    pub of: &'a dyn Fn(Length) -> f64,
    /// The starts at which its course turns: between two of them it is a straight line or hollow upwards,
    /// and it never jumps.
    pub turns: &'a [Length],
    /// What a blank has to be worth at least; a start that is worth less is not used.
    pub enough: Option<f64>,
}

const MOST_BLANKS: usize = 100;
const MOST_ZONES: usize = 200;

/// The places of as many blanks as go, at most `most`, that are together worth most among all places for so
/// many.
///
/// It is exact. The starts that go and are worth enough lie in closed runs. Hold the count and the run that
/// each blank starts in: the starts are then a polyhedron (ends of runs, a kerf between neighbours), and cut
/// along the turns it falls into cells in which the sum of worths is hollow upwards, so that it is largest at
/// a corner. At a corner every blank is pinned, itself or by way of neighbours that touch it, to an end of a
/// run or to a turn. So it is enough to look at those ends and turns, moved by whole steps of blank and
/// kerf; among these starts the best row of each count is found from the best rows of one blank less. Of
/// rows worth alike the first from the near end is taken.
///
/// An error for sizes that can't be cut, and for more than 100 blanks or 200 zones. Derived here: linear
/// programming and Bellman's recurrence (textbook); held against a search of every millimetre.
///
/// ```
/// use stillwood_core::{neck::{Stick, Worth, best_places}, quantity::{in_mm, mm}};
/// let stick = Stick {
///     length: mm(2620.0), piece: mm(950.0), kerf: mm(3.2), end_trim: mm(70.0), zones: &[],
/// };
/// // Thinner towards the far end: the blanks lie as near as they go.
/// let worth = Worth { of: &|start| 52.0 - in_mm(start) / 500.0, turns: &[], enough: None };
/// let found = best_places(&stick, None, &worth).unwrap();
/// assert_eq!(found.places.len(), 2);
/// assert!((in_mm(found.places[1].from) - 1023.2).abs() < 1e-6);
/// ```
///
/// No published value: an optimum, held against brute force.
pub fn best_places(
    stick: &Stick<'_>,
    most: Option<usize>,
    worth: &Worth<'_>,
) -> Result<Placement, PlacementError> {
    let fits = places_along(
        stick.length,
        stick.piece,
        stick.kerf,
        stick.end_trim,
        stick.zones,
    )?
    .len();
    let count = most.map_or(fits, |most| most.min(fits));
    if count > MOST_BLANKS {
        return Err(PlacementError::TooMany(count));
    }
    if stick.zones.len() > MOST_ZONES {
        return Err(PlacementError::TooManyZones(stick.zones.len()));
    }
    let enough = worth.enough.unwrap_or(f64::MIN);
    let valued: Vec<(f64, f64)> = starts_to_weigh(stick, count, worth)
        .into_iter()
        .map(|start| (start, (worth.of)(metres(start))))
        .filter(|(_, worth)| worth.is_finite() && *worth >= enough)
        .collect();
    let (rows, worth) = best_row(&valued, count, (stick.piece + stick.kerf).value);
    Ok(Placement {
        places: rows
            .into_iter()
            .map(|start| Place {
                from: metres(start),
                to: metres(start) + stick.piece,
            })
            .collect(),
        worth,
    })
}

fn metres(value: f64) -> Length {
    Length {
        value,
        ..Length::default()
    }
}

/// Ends of runs and turns, moved by whole steps; those that go, in order.
fn starts_to_weigh(stick: &Stick<'_>, count: usize, worth: &Worth<'_>) -> Vec<f64> {
    let piece = stick.piece.value;
    let (first, last) = (
        stick.end_trim.value,
        (stick.length - stick.end_trim).value - piece,
    );
    let mut pins: Vec<f64> = worth.turns.iter().map(|turn| turn.value).collect();
    pins.retain(|turn| (first..=last).contains(turn));
    pins.extend([first, last]);
    order::sort_by(&mut pins, f64::total_cmp);
    if let Some(enough) = worth.enough {
        let just_enough: Vec<f64> = pins
            .windows(2)
            .flat_map(|cell| where_just_enough(worth.of, cell[0], cell[1], enough))
            .collect();
        pins.extend(just_enough);
    }
    for zone in stick.zones {
        pins.push(zone.to.value);
        pins.push(zone.from.value - piece);
    }
    let step = piece + stick.kerf.value;
    let mut starts: Vec<f64> = Vec::new();
    for pin in pins {
        for steps in 0..count {
            let moved = steps as f64 * step;
            starts.push(pin - moved);
            starts.push(pin + moved);
        }
    }
    starts.retain(|start| stick.holds(*start));
    order::sort_by(&mut starts, f64::total_cmp);
    starts.dedup_by(|next, kept| (*next - *kept).abs() < HAIR / 100.0);
    starts
}

/// Where a worth that is hollow upwards between two starts falls to what is just enough, from either side:
/// starts that are still worth it.
fn where_just_enough(of: &dyn Fn(Length) -> f64, from: f64, to: f64, enough: f64) -> Vec<f64> {
    let worth = |start: f64| of(metres(start));
    let (mut low, mut high) = (from, to);
    for _ in 0..60 {
        let third = (high - low) / 3.0;
        if worth(low + third) > worth(high - third) {
            low += third;
        } else {
            high -= third;
        }
    }
    let least = 0.5 * (low + high);
    let mut found = Vec::new();
    for end in [from, to] {
        // Written so that no number is neither.
        if worth(end) >= enough && worth(least) < enough {
            let (mut good, mut bad) = (end, least);
            for _ in 0..60 {
                let middle = 0.5 * (good + bad);
                if worth(middle) >= enough {
                    good = middle;
                } else {
                    bad = middle;
                }
            }
            found.push(good);
        }
    }
    found
}

/// The best row of `count` starts at least `step` apart, or of as many as there are, and its worth.
fn best_row(valued: &[(f64, f64)], count: usize, step: f64) -> (Vec<f64>, f64) {
    // For rows of each length: the best row that ends at each start, and the start before the last.
    let mut ends_at: Vec<Vec<Option<(f64, usize)>>> = Vec::new();
    for length in 0..count {
        let mut row = Vec::with_capacity(valued.len());
        let (mut before, mut best) = (0, None::<(f64, usize)>);
        for (start, worth) in valued {
            if length == 0 {
                row.push(Some((*worth, 0)));
                continue;
            }
            while valued
                .get(before)
                .is_some_and(|(earlier, _)| earlier + step <= start + HAIR)
            {
                if let Some((sum, _)) = ends_at[length - 1][before]
                    && best.is_none_or(|(known, _)| sum > known)
                {
                    best = Some((sum, before));
                }
                before += 1;
            }
            row.push(best.map(|(sum, from)| (sum + worth, from)));
        }
        if row.iter().all(Option::is_none) {
            break;
        }
        ends_at.push(row);
    }
    let mut last = None::<(f64, usize)>;
    for (at, ending) in ends_at.last().into_iter().flatten().enumerate() {
        if let Some((sum, _)) = ending
            && last.is_none_or(|(known, _)| *sum > known)
        {
            last = Some((*sum, at));
        }
    }
    let Some((worth, mut at)) = last else {
        return (Vec::new(), 0.0);
    };
    let mut row = Vec::new();
    for ending in ends_at.iter().rev() {
        row.push(valued[at].0);
        at = ending[at].map_or(0, |(_, from)| from);
    }
    row.reverse();
    (row, worth)
}

/// The best places of a plank's blanks, what they are worth, and the defects dodged.
#[derive(Debug, Clone, PartialEq)]
pub struct BestBlanks {
    /// Places along the plank, from its near end.
    pub places: Vec<Place>,
    /// The thickness of the straight slab at each, in the same order.
    pub slabs: Vec<Length>,
    /// The stretches cut round, and defects whose place is not known: the count may be too high by them.
    pub zones: Zones,
}

/// The places along a plank of as many blanks as go whose straight slab is thick enough, at most `most`, and
/// whose slabs are then together thickest; see [`best_places`] and [`slab_at`].
///
/// A blank is `cut.length` long and needs a slab of `cut.slab`; what is flattened is as wide as
/// [`CutSpec::flattened_width`], and loses `cut.planing` a face. Defects that are usually cut round are dodged; a kink lies where it costs
/// least. An error when
/// length or thickness is missing, or a width that cup or twist needs, or the sizes make no sense.
pub fn best_blanks(
    plank: &Plank,
    cut: &CutSpec,
    most: Option<usize>,
) -> Result<BestBlanks, PlacementError> {
    let zones = zones_to_cut_round(&plank.defects);
    let stick = Stick {
        length: checked_stick(Side::Length, plank.length)?,
        piece: cut.length,
        kerf: cut.kerf,
        end_trim: cut.end_trim,
        zones: &zones.places,
    };
    let piece = (cut.length, cut.flattened_width());
    let slab = |start| slab_at(&mut TraceOff, plank, start, piece, cut.planing);
    let worth = |start| slab(start).map_or(f64::NAN, |slab| in_mm(slab.thickness));
    let turns = slab_turns_at(plank, cut.length)?;
    let worth = Worth {
        of: &worth,
        turns: &turns,
        // A billionth of a metre, a trace of binary arithmetic.
        enough: Some(in_mm(cut.slab) - HAIR * 1000.0),
    };
    let found = best_places(&stick, most, &worth)?;
    let slabs: Result<Vec<Length>, FormError> = found
        .places
        .iter()
        .map(|place| Ok(slab(place.from)?.thickness))
        .collect();
    Ok(BestBlanks {
        slabs: slabs?,
        places: found.places,
        zones,
    })
}

#[cfg(test)]
mod tests;
