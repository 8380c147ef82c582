//! The straight slab in a piece cut from one place along the plank, where thickness and bend are those of
//! that place.
//!
//! Between the stations the thickness is taken to run straight; it never looks for a thinner place there.

use super::form::in_plank;
use super::volume::positive;
use super::{
    BendShape, FormError, Plank, Side, Slab, along, bend_left_at, cup_left, mean_of_stations,
    twist_left,
};
use crate::quantity::{Length, Trace};

/// The straight slab in a piece of l x b that starts at `from` from the near end, cut first and flattened
/// after: t - bow - w/2 - cup - 2 p.
///
/// As [`super::slab_cut_first`], but t is the least thickness over the piece's own stretch, on straight lines
/// between the stations, and the bow that of its place: a kink costs by where it lies in the piece, see
/// [`bend_left_at`]. An error as there, and when the piece does not lie in the plank. Derived here:
/// geometry.
///
/// No published value: geometry, held against `slab_cut_first`.
pub fn slab_at(
    trace: &mut impl Trace,
    plank: &Plank,
    from: Length,
    (length, width): (Length, Length),
    planing: Length,
) -> Result<Slab, FormError> {
    let plank_length = positive(Side::Length, plank.length)?;
    positive(Side::Length, Some(length))?;
    in_plank(plank_length, from, length)?;
    let plank_width = mean_of_stations(&plank.widths);
    let bow = match &plank.bow {
        Some(bow) => Some(bend_left_at(trace, bow, plank_length, from, length)?),
        None => None,
    };
    let twist = match &plank.twist {
        Some(twist) => {
            let plank = (plank_length, plank_width);
            Some(twist_left(trace, twist, plank, (length, width))? / 2.0)
        }
        None => None,
    };
    let cup = match &plank.cup {
        Some(cup) => Some(cup_left(
            trace,
            cup,
            positive(Side::Width, plank_width)?,
            width,
        )?),
        None => None,
    };
    let thickness = thinnest(plank, plank_length, from, from + length)?;
    Ok(Slab::after(
        trace,
        thickness,
        [bow, twist, cup],
        planing * 2.0,
    ))
}

/// The starts of a piece of length l at which the slab of [`slab_at`] turns from one course to another:
/// where an end of the piece passes mid-length or a kink, and where its thinner end changes. In no
/// order; between two of them the slab's thickness is a straight line or hollow upwards, so that it is
/// largest at one of them.
pub fn slab_turns_at(plank: &Plank, length: Length) -> Result<Vec<Length>, FormError> {
    let plank_length = positive(Side::Length, plank.length)?;
    let middle = plank_length / 2.0;
    let mut turns = vec![middle, middle - length];
    if let Some(BendShape::Kink(at)) = plank.bow.map(|bow| bow.shape) {
        turns.extend([at, at - length]);
    }
    let [near, mid, far] = stations(plank)?;
    // Across mid-length both ends are equally thick where the two lines meet: one falls, the other rises.
    let (first, second) = ((mid - near) / middle, (far - mid) / middle);
    if first != second {
        turns.push(middle + length * (second / (first - second)).value);
    }
    turns.retain(|start| start.value.is_finite());
    Ok(turns)
}

fn stations(plank: &Plank) -> Result<[Length; 3], FormError> {
    let least = plank.thicknesses.least();
    positive(Side::Thickness, least)?;
    Ok(along(&plank.thicknesses).unwrap_or_default())
}

/// The least thickness between two places, on straight lines between the stations.
fn thinnest(
    plank: &Plank,
    plank_length: Length,
    from: Length,
    to: Length,
) -> Result<Length, FormError> {
    let [near, mid, far] = stations(plank)?;
    let middle = plank_length / 2.0;
    let at = |place: Length| {
        if place < middle {
            near + (mid - near) * (place / middle).value
        } else {
            mid + (far - mid) * ((place - middle) / middle).value
        }
    };
    let ends = at(from).min(at(to));
    let least = if from < middle && to > middle {
        ends.min(mid)
    } else {
        ends
    };
    Ok(positive(Side::Thickness, Some(least))?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Hand, Stations, Twist, TwistRead};
    use crate::quantity::TraceOff;
    use crate::quantity::{in_mm, mm};

    fn plank() -> Plank {
        Plank {
            length: Some(mm(2000.0)),
            widths: Stations::one(mm(200.0)),
            thicknesses: Stations::three(mm(54.0), mm(50.0), mm(56.0)),
            ..Plank::default()
        }
    }

    fn slab(plank: &Plank, from: f64) -> f64 {
        let size = (mm(800.0), mm(100.0));
        in_mm(
            slab_at(&mut TraceOff, plank, mm(from), size, mm(1.5))
                .unwrap()
                .thickness,
        )
    }

    #[test]
    fn a_piece_is_as_thick_as_its_thinnest_place() {
        // Two tapers that meet at 1000 mm; 1.5 mm off each face.
        for (from, thinnest) in [
            (0.0, 50.8),
            (200.0, 50.0),
            (600.0, 50.0),
            (1000.0, 50.0),
            (1200.0, 51.2),
        ] {
            let found = slab(&plank(), from);
            assert!((found - (thinnest - 3.0)).abs() < 1e-9, "{from}: {found}");
        }
    }

    #[test]
    fn a_twist_costs_half_of_its_rise() {
        let twisted = Plank {
            twist: Some(Twist {
                rise: mm(20.0),
                read: TwistRead::Corner,
                hand: Some(Hand::Left),
            }),
            ..plank()
        };
        // Over 800 of 2000 mm and 100 of 200 mm: a fifth of 20 mm, half of it at either face.
        let costs = slab(&plank(), 400.0) - slab(&twisted, 400.0);
        assert!((costs - 2.0).abs() < 1e-9, "{costs}");
    }
}
