//! How much a board cups as it dries or takes up water: rings as circles about one pith, shrinking less
//! along the radius than along the ring.
//!
//! It is the board that lies free and is at one moisture throughout: a board held flat, or wetter inside
//! than outside, does otherwise. It knows no limit.

use super::shrinkage::{Movement, ShrinkageError};
use super::species::Species;
use crate::quantity::TraceOff;
use crate::quantity::{Derivation, Length, Moisture, in_mm, mm, show};
use thiserror::Error;

/// Where a board's line lay in the log, seen at its end: a face, or the line at half its thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineInLog {
    pub width: Length,
    /// From the line to the pith, square to the wide face.
    pub pith_depth: Length,
    /// From mid-width to the foot of the pith, along the width; nothing when it was sawn evenly about it.
    pub pith_offset: Length,
}

/// How much wood would change along the radius and along the ring, free, as a share of its size: less than
/// nothing when it shrinks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreeChange {
    /// Along the radius.
    pub radial: f64,
    /// Along the ring.
    pub tangential: f64,
}

/// Which side becomes hollow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hollow {
    /// The side away from the pith, as when wood dries.
    Bark,
    /// The side of the pith, as when it takes up water.
    Pith,
}

/// The shape that a straight line across a board takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cupping {
    /// The largest gap between the line and a straightedge from edge to edge, never less than nothing.
    pub gap: Length,
    /// Which side is hollow; `None` where radius and ring change alike.
    pub hollow: Option<Hollow>,
    /// Width from edge to edge, straight across.
    pub width: Length,
}

/// Why no cup can be told.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CupError {
    /// A width of nothing, less than nothing, or no number.
    #[error("a width of {:.1} mm: it has to be more than nothing", in_mm(*.0))]
    Width(Length),
    /// The pith in the line itself, or no number.
    #[error("the pith {:.1} mm off: a board that holds it splits rather than cups", in_mm(*.0))]
    Pith(Length),
    /// More than any wood changes.
    #[error("a change of {0:.3} of the size is not that of wood")]
    Change(f64),
    /// The wood's shrinkage does not reach the moistures.
    #[error(transparent)]
    Shrinkage(#[from] ShrinkageError),
}

/// The cup of a line across a board: every point at radius r and angle a about the pith goes to radius
/// r (1 + e_R) and angle a (1 + e_T)/(1 + e_R).
///
/// e_R and e_T are the free changes along the radius and along the ring, each within 0.2 of the size. So every
/// radius changes by e_R and every ring by e_T, which is the rule of [`super::shrinkage_at_angle`] at
/// every place at once; no part strains another, so it is exact for wood that is alike all over. For a board
/// sawn evenly about the pith the gap comes to nearly (e_R - e_T) w/2 atan(w/(2 h)), w the width and h the pith's
/// depth. An error for no width, the pith in the line (h under 1 mm, limit ours), or changes no wood has.
///
/// Derived here: geometry; held against integration of the strains along the line.
///
/// ```
/// use stillwood_core::{quantity::{in_mm, mm}, wood::{FreeChange, LineInLog, cupping}};
/// let line = LineInLog { width: mm(205.0), pith_depth: mm(125.0), pith_offset: mm(0.0) };
/// let cup = cupping(&line, FreeChange { radial: -0.0058, tangential: -0.0124 }).unwrap();
/// assert!((in_mm(cup.gap) - 0.46).abs() < 0.01);
/// ```
pub fn cupping(line: &LineInLog, change: FreeChange) -> Result<Cupping, CupError> {
    let (width, depth) = (in_mm(line.width), in_mm(line.pith_depth));
    if !(width > 0.0 && width.is_finite()) {
        return Err(CupError::Width(line.width));
    }
    let offset = in_mm(line.pith_offset);
    if !(depth >= 1.0 && depth.is_finite() && offset.is_finite()) {
        return Err(CupError::Pith(line.pith_depth));
    }
    for share in [change.radial, change.tangential] {
        if !(-0.2..=0.2).contains(&share) {
            return Err(CupError::Change(share));
        }
    }
    let grown = 1.0 + change.radial;
    let turned = (1.0 + change.tangential) / grown;
    // Across and away from the pith, after the change, of the point at angle a.
    let point = |a: f64| {
        let radius = grown * depth / libm::cos(a);
        (
            radius * libm::sin(turned * a),
            radius * libm::cos(turned * a),
        )
    };
    let angle = |from_middle: f64| libm::atan((from_middle - offset) / depth);
    let (first, last) = (angle(-width / 2.0), angle(width / 2.0));
    let (left, right) = (point(first), point(last));
    let (run, rise) = (right.0 - left.0, right.1 - left.1);
    let straight = (run * run + rise * rise).sqrt();
    // The line bends one way all along, so the gap has one largest place.
    let gap = |a: f64| {
        let (x, y) = point(a);
        (((x - left.0) * rise - (y - left.1) * run) / straight).abs()
    };
    Ok(Cupping {
        gap: mm(largest(&gap, first, last)),
        hollow: match turned {
            t if t < 1.0 => Some(Hollow::Bark),
            t if t > 1.0 => Some(Hollow::Pith),
            _ => None,
        },
        width: mm(straight),
    })
}

/// How a cup was worked out, in words: its largest gap is looked for.
pub fn explain_cupping(line: &LineInLog, change: FreeChange, found: &Cupping) -> Derivation {
    let number = |value: f64, places| show::number(value, places);
    Derivation::note(
        format!(
            "A line {} mm wide, the pith {} mm below it. Every point at radius r and angle a about the pith goes to \
             r · (1 + eR) and a · (1 + eT) / (1 + eR), with eR = {} and eT = {}, what the radius and the ring change \
             by between the two moistures.",
            number(in_mm(line.width), 1),
            number(in_mm(line.pith_depth), 1),
            number(change.radial, 5),
            number(change.tangential, 5)
        ),
        "geometry: derived here, held against integration of the strains; shrinkage: Wood Handbook",
    )
    .and(format!(
        "The straight line between its ends is then {} mm long; the largest gap under it, {} mm, is looked for by \
         thirds, sixty times.",
        number(in_mm(found.width), 2),
        number(in_mm(found.gap), 3)
    ))
}

/// The largest value of what rises to one place and falls after it.
fn largest(of: &dyn Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..60 {
        let third = (high - low) / 3.0;
        if of(low + third) < of(high - third) {
            low += third;
        } else {
            high -= third;
        }
    }
    of(0.5 * (low + high))
}

impl Species {
    /// How wood of this species would change between two moistures along the radius and along the ring;
    /// `None` where its shrinkage is not known.
    pub fn free_change(
        &self,
        from: Moisture,
        to: Moisture,
    ) -> Option<Result<FreeChange, ShrinkageError>> {
        let metre = mm(1000.0);
        let share = |coefficient, total| {
            Movement::find(&mut TraceOff, metre, (Some(coefficient), total), from, to)
                .map(|moved| (moved.change / metre).value)
        };
        let radial = share(
            self.radial_coefficient()?.value,
            self.radial_shrinkage()?.value,
        );
        let tangential = share(
            self.tangential_coefficient()?.value,
            self.tangential_shrinkage()?.value,
        );
        Some(radial.and_then(|radial| {
            Ok(FreeChange {
                radial,
                tangential: tangential?,
            })
        }))
    }

    /// How much a flat board of this wood cups between two moistures: [`cupping`] with
    /// [`Species::free_change`].
    pub fn cupping(
        &self,
        line: &LineInLog,
        from: Moisture,
        to: Moisture,
    ) -> Option<Result<Cupping, CupError>> {
        let change = self.free_change(from, to)?;
        Some(
            change
                .map_err(CupError::from)
                .and_then(|change| cupping(line, change)),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wood::find;
    use proptest::prelude::*;

    fn line(width: f64, depth: f64, offset: f64) -> LineInLog {
        LineInLog {
            width: mm(width),
            pith_depth: mm(depth),
            pith_offset: mm(offset),
        }
    }

    /// The gap by integrating the strain field along the line: first the turn of the line, then its rise.
    fn by_integration(width: f64, depth: f64, offset: f64, change: FreeChange) -> (f64, f64) {
        const STEPS: i32 = 4000;
        let (er, et) = (change.radial, change.tangential);
        // Strains at a point, from the directions of radius and ring there.
        let strains = |x: f64, y: f64| {
            let square = x * x + y * y;
            let (c, s) = (x * x / square, y * y / square);
            (er * c + et * s, (er - et) * x * y / square)
        };
        let step = width / f64::from(STEPS);
        let (mut turn, mut across, mut rise) = (0.0, 0.0, 0.0);
        let mut points = vec![(0.0, 0.0)];
        for i in 0..STEPS {
            let x = -width / 2.0 - offset + (f64::from(i) + 0.5) * step;
            let tiny = 1e-4 * depth;
            let bends = (strains(x + tiny, depth).1 - strains(x - tiny, depth).1) / (2.0 * tiny)
                - (strains(x, depth + tiny).0 - strains(x, depth - tiny).0) / (2.0 * tiny);
            let (along, sheared) = strains(x, depth);
            turn += bends * step / 2.0;
            across += (1.0 + along) * step;
            rise += (sheared + turn) * step;
            turn += bends * step / 2.0;
            points.push((across, rise));
        }
        let gap = points.iter().map(|(x, y)| (y - rise * x / across).abs());
        (gap.fold(0.0, f64::max), across)
    }

    #[test]
    fn a_dry_board_is_hollow_on_the_bark_side_and_a_damp_one_on_the_pith_side() {
        let maple = find("maple-sugar").unwrap();
        let at = Moisture::percent;
        let board = line(205.0, 125.0, 0.0);
        let dried = maple.cupping(&board, at(12.0), at(8.5)).unwrap().unwrap();
        assert_eq!(dried.hollow, Some(Hollow::Bark));
        assert!((in_mm(dried.gap) - 0.46).abs() < 0.01, "{:?}", dried.gap);
        let damp = maple.cupping(&board, at(8.5), at(12.0)).unwrap().unwrap();
        assert_eq!(damp.hollow, Some(Hollow::Pith));
        let still = cupping(
            &board,
            FreeChange {
                radial: 0.01,
                tangential: 0.01,
            },
        )
        .unwrap();
        assert!(still.hollow.is_none() && in_mm(still.gap) < 1e-9);
        assert!((in_mm(still.width) - 207.05).abs() < 1e-9);
        assert!(
            find("ebony-ceylon")
                .unwrap()
                .cupping(&board, at(12.0), at(8.0))
                .is_none()
        );
    }

    #[test]
    fn what_is_no_board_is_refused() {
        let change = FreeChange {
            radial: -0.01,
            tangential: -0.02,
        };
        assert!(cupping(&line(0.0, 100.0, 0.0), change).is_err());
        assert!(cupping(&line(f64::NAN, 100.0, 0.0), change).is_err());
        assert_eq!(
            cupping(&line(200.0, 0.0, 0.0), change)
                .unwrap_err()
                .to_string(),
            "the pith 0.0 mm off: a board that holds it splits rather than cups"
        );
        let wild = FreeChange {
            tangential: 0.3,
            ..change
        };
        assert_eq!(
            cupping(&line(200.0, 50.0, 0.0), wild),
            Err(CupError::Change(0.3))
        );
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        // The strains of the same rule, integrated along the line, give the same cup and width.
        #[test]
        fn the_strain_field_integrates_to_it(
            width in 40.0..320.0f64, depth in 15.0..400.0f64, offset in -150.0..150.0f64,
            radial in -0.05..0.0f64, more in 0.001..0.06f64,
        ) {
            let change = FreeChange { radial, tangential: radial - more };
            let found = cupping(&line(width, depth, offset), change).unwrap();
            let (gap, across) = by_integration(width, depth, offset, change);
            // Small strains are first order: they differ by about their square.
            let off = 2.5 * (more - radial);
            prop_assert!((in_mm(found.gap) - gap).abs() <= off * gap + 1e-3, "{:?} {gap}", found);
            prop_assert!((in_mm(found.width) / across - 1.0).abs() < 0.02);
        }

        // Nearly (e_R - e_T) w/2 atan(w/(2 h)) where it was sawn evenly and the change is small.
        #[test]
        fn a_board_sawn_evenly_follows_the_short_rule(
            width in 20.0..320.0f64, depth in 15.0..400.0f64, more in 0.001..0.01f64,
        ) {
            let change = FreeChange { radial: -0.004, tangential: -0.004 - more };
            let found = in_mm(cupping(&line(width, depth, 0.0), change).unwrap().gap);
            let rule = more * width / 2.0 * libm::atan(width / 2.0 / depth);
            prop_assert!((found / rule - 1.0).abs() < 0.03, "{found} {rule}");
        }
    }
}
