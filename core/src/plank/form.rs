//! What is left of a plank's bow, crook, cup and twist in a piece cut out of it.
//!
//! Pure geometry of small curves: it never says how much is too much, and a shape that was not looked
//! at never enters.

use super::{Bend, BendShape, Cup, Side, SizeError, Twist, TwistRead};
use crate::quantity::{Length, Trace, TraceOff, formula, in_mm, is_positive, mm};
use thiserror::Error;

/// Why a shape can't be carried over to a piece.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum FormError {
    /// A size that is nothing, less than nothing, or no number.
    #[error("a piece or straightedge of {:.1} mm: it has to be more than nothing", in_mm(*.0))]
    NotPositive(Length),
    #[error("the gap is no number")]
    NoNumber,
    /// The piece is larger than what it is cut from.
    #[error("a piece of {:.0} mm can't be cut from {:.0} mm", in_mm(*.piece), in_mm(*.from))]
    PieceTooLarge { piece: Length, from: Length },
    /// The straightedge is longer than what it lies on.
    #[error(
        "the straightedge is {:.0} mm but lies on {:.0} mm: leave it empty where it reaches all over",
        in_mm(*.over), in_mm(*.on)
    )]
    StraightedgeTooLong { over: Length, on: Length },
    /// The kink's place is not in the plank.
    #[error("a kink at {:.0} mm is not inside a plank of {:.0} mm", in_mm(*.at), in_mm(*.length))]
    KinkOutside {
        at: Length,
        /// The plank's length.
        length: Length,
    },
    /// A piece that would reach beyond the plank.
    #[error(
        "a piece from {:.0} to {:.0} mm does not lie in a plank of {:.0} mm",
        in_mm(*.from), in_mm(*.to), in_mm(*.length)
    )]
    PieceOutside {
        /// Where it would start.
        from: Length,
        /// Where it would end.
        to: Length,
        /// The plank's length.
        length: Length,
    },
    /// A size of the plank that is needed was not measured.
    #[error(transparent)]
    Size(#[from] SizeError),
}

/// Sizes that are all more than nothing; else the first that is not.
fn sizes<const N: usize>(sizes: [Length; N]) -> Result<(), FormError> {
    let amiss = sizes.iter().find(|size| !is_positive(size.value));
    amiss.map_or(Ok(()), |size| Err(FormError::NotPositive(*size)))
}

fn gap(value: Length) -> Result<Length, FormError> {
    if value.value.is_finite() {
        Ok(value.abs())
    } else {
        Err(FormError::NoNumber)
    }
}

/// The length that was read over: the straightedge, or all of it.
fn read_over(over: Option<Length>, whole: Length) -> Result<Length, FormError> {
    let Some(over) = over else {
        return Ok(whole);
    };
    sizes([over])?;
    if over > whole {
        return Err(FormError::StraightedgeTooLong { over, on: whole });
    }
    Ok(over)
}

/// The gap under a straightedge of another length on the same even curve: d (l/s)^2.
///
/// d is the gap read over s, l the other length. Both follow from the curvature 8 d/s^2, the parabola
/// in place of the circle: with d under a fiftieth of s, the error is under 0.2 % of d. Derived here:
/// geometry of the sagitta.
pub fn even_gap_over(read: Length, over: Length, length: Length) -> Length {
    mm(EVEN.of([in_mm(read), in_mm(length), in_mm(over)]))
}

formula! {
    /// The gap of an even curve over another length.
    EVEN: "Gap left of an even curve", "d′", "mm";
    d: "d", "gap as read", "mm";
    l: "l", "size of the part", "mm";
    s: "s", "what the gap was read over", "mm";
    = d * sq(l / s);
    range "an even curve, its gap under a fiftieth of its length";
    source "geometry of the sagitta";
}

formula! {
    /// The angle of a kink.
    KINK: "Angle of the kink", "φ", "rad";
    d: "d", "gap as read", "mm";
    s: "s", "what the gap was read over", "mm";
    q: "q", "from the nearer end of that to the kink", "mm";
    = d * s / (q * (s - q));
    range "small angles";
    source "geometry";
}

formula! {
    /// The gap that a kink leaves.
    KINK_GAP: "Gap left of the kink", "d′", "mm";
    f: "φ", "angle of the kink", "rad";
    q: "q", "from an end of the part to the kink; where its place is open, where it costs most", "mm";
    l: "l", "size of the part", "mm";
    = f * q * (l - q) / l;
    range "small angles";
    source "geometry";
}

formula! {
    /// The rise that an even twist leaves.
    TWIST: "Rise left of the twist", "w′", "mm";
    w: "w", "rise as read", "mm";
    l: "l", "length of the part", "mm";
    plank: "L", "length of the plank", "mm";
    b: "b", "width of the part", "mm";
    over: "W", "width that the rise was read over", "mm";
    = w * (l / plank) * (b / over);
    range "an even twist";
    source "geometry";
}

/// What is left of a bend in a piece, by where the cut falls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendLeft {
    /// The gap with the bend inside the piece; for a kink, where it costs most.
    pub inside: Length,
    /// The gap with the cut falling on the kink: nothing. For an even curve, the same as inside.
    pub cut_on_it: Length,
}

/// The gap left in a piece of length l cut from a bent plank of length L, without its sign.
///
/// Even curve: the gap d read over s (or over all of L) becomes d (l/s)^2, see [`even_gap_over`].
///
/// Kink at p from an end, of angle f between its two straight halves: the gap over a length with the
/// kink at q from its end is f q (l - q)/l. Read over all of the plank, f = d L/(p (L - p)). Read with a
/// shorter straightedge s, that is taken to lie with its middle as near to the kink as the plank
/// allows. In the piece the kink is put as near to the middle as the plank allows, which is where it
/// costs most: d l L/(4 p (L - p)) when it can be centred, d (l/L) for a kink at mid-length. A cut
/// that falls on the kink leaves nothing.
///
/// An error when l is longer than L, s longer than L, or the kink not inside the plank. Derived here:
/// geometry of small angles.
///
/// No published value: geometry, held against a kinked line point by point.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::{Bend, BendShape, bend_left}, quantity::{in_mm, mm}};
/// let bow = Bend { gap: mm(9.0), over: None, shape: BendShape::Even, signed: true };
/// let left = bend_left(&mut TraceOff, &bow, mm(2620.0), mm(950.0)).unwrap();
/// assert!((in_mm(left.inside) - 1.18).abs() < 0.01);
/// let kink = Bend { shape: BendShape::Kink(mm(1310.0)), ..bow };
/// let left = bend_left(&mut TraceOff, &kink, mm(2620.0), mm(950.0)).unwrap();
/// assert!((in_mm(left.inside) - 3.26).abs() < 0.01 && in_mm(left.cut_on_it) == 0.0);
/// ```
pub fn bend_left(
    trace: &mut impl Trace,
    bend: &Bend,
    plank: Length,
    piece: Length,
) -> Result<BendLeft, FormError> {
    sizes([plank, piece])?;
    if piece > plank {
        return Err(FormError::PieceTooLarge { piece, from: plank });
    }
    let read = gap(bend.gap)?;
    let over = read_over(bend.over, plank)?;
    match bend.shape {
        BendShape::Even => {
            let left = mm(trace.work(&EVEN, [in_mm(read), in_mm(piece), in_mm(over)]));
            Ok(BendLeft {
                inside: left,
                cut_on_it: left,
            })
        }
        BendShape::Kink(at) => {
            let angle = angle_as_read(trace, read, over, at, plank)?;
            let nearest_middle = at.min(plank - at).min(piece / 2.0);
            let values = [angle, in_mm(nearest_middle), in_mm(piece)];
            Ok(BendLeft {
                inside: mm(trace.work(&KINK_GAP, values)),
                cut_on_it: Length::default(),
            })
        }
    }
}

/// The gap left in a piece of length l that starts at a from the plank's near end, without its sign.
///
/// Even curve: d (l/s)^2, the same at every place. Kink at p: f (p - a)(a + l - p)/l, and nothing when p
/// is not inside the piece; symbols as in [`bend_left`]. An error as there, and when the piece does not lie
/// in the plank. Derived here: geometry of small angles.
///
/// No published value: geometry, held against `bend_left`.
pub fn bend_left_at(
    trace: &mut impl Trace,
    bend: &Bend,
    plank: Length,
    from: Length,
    piece: Length,
) -> Result<Length, FormError> {
    in_plank(plank, from, piece)?;
    let BendShape::Kink(at) = bend.shape else {
        return Ok(bend_left(trace, bend, plank, piece)?.inside);
    };
    let left = bend_left(&mut TraceOff, bend, plank, piece)?;
    let inside = at - from;
    if !(inside > Length::default() && inside < piece) {
        return Ok(left.cut_on_it);
    }
    let over = read_over(bend.over, plank)?;
    let angle = angle_as_read(trace, gap(bend.gap)?, over, at, plank)?;
    let values = [angle, in_mm(inside), in_mm(piece)];
    Ok(mm(trace.work(&KINK_GAP, values)))
}

/// A place in the plank, to a billionth of a metre: a trace of binary arithmetic, not of wood.
pub(super) fn in_plank(plank: Length, from: Length, piece: Length) -> Result<(), FormError> {
    let to = from + piece;
    if from.value >= -1e-9 && to.value <= plank.value + 1e-9 {
        Ok(())
    } else {
        Err(FormError::PieceOutside {
            from,
            to,
            length: plank,
        })
    }
}

/// Angle of a kink inside the plank, in radians, read with the straightedge's middle as near to it as the
/// plank allows.
fn angle_as_read(
    trace: &mut impl Trace,
    read: Length,
    over: Length,
    at: Length,
    plank: Length,
) -> Result<f64, FormError> {
    if !(at.value > 0.0 && at < plank) {
        return Err(FormError::KinkOutside { at, length: plank });
    }
    let nearest_middle = at.min(plank - at).min(over / 2.0);
    Ok(trace.work(&KINK, [in_mm(read), in_mm(over), in_mm(nearest_middle)]))
}

/// The gap left of the cup in a piece of width b: c (b/W)^2, without its sign.
///
/// c is the gap read over W, the plank's width or a shorter straightedge. An error when b or the
/// straightedge is wider than the plank. Derived here: geometry, see [`even_gap_over`].
///
/// No published value: it is [`even_gap_over`], which has a row.
pub fn cup_left(
    trace: &mut impl Trace,
    cup: &Cup,
    plank_width: Length,
    piece_width: Length,
) -> Result<Length, FormError> {
    sizes([plank_width, piece_width])?;
    if piece_width > plank_width {
        return Err(FormError::PieceTooLarge {
            piece: piece_width,
            from: plank_width,
        });
    }
    let over = read_over(cup.over, plank_width)?;
    let values = [in_mm(gap(cup.gap)?), in_mm(piece_width), in_mm(over)];
    Ok(mm(trace.work(&EVEN, values)))
}

/// The rise of the fourth corner left in a piece of l x b: w l b/(L W).
///
/// w is the rise read over the plank's length L and over W: the plank's width for the rise of a corner,
/// the stick's length for the gap at winding sticks (longer than the plank is wide, they magnify). An
/// even twist is taken. An error when l is longer or b wider than the plank; `None` for the plank's
/// width is an error only where it is needed. Derived here: geometry.
///
/// No published value: geometry, held against planks worked by hand.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{plank::{Twist, TwistRead, twist_left}, quantity::{in_mm, mm}};
/// let twist = Twist { rise: mm(12.0), read: TwistRead::Corner, hand: None };
/// let left = twist_left(&mut TraceOff, &twist, (mm(2620.0), Some(mm(204.0))), (mm(950.0), mm(80.0))).unwrap();
/// assert!((in_mm(left) - 1.71).abs() < 0.01);
/// ```
pub fn twist_left(
    trace: &mut impl Trace,
    twist: &Twist,
    (plank_length, plank_width): (Length, Option<Length>),
    (length, width): (Length, Length),
) -> Result<Length, FormError> {
    sizes([plank_length, length, width])?;
    if length > plank_length {
        return Err(FormError::PieceTooLarge {
            piece: length,
            from: plank_length,
        });
    }
    if let Some(from) = plank_width.filter(|from| width > *from) {
        return Err(FormError::PieceTooLarge { piece: width, from });
    }
    let read_over = match twist.read {
        TwistRead::Corner => plank_width.ok_or(SizeError::Missing(Side::Width))?,
        TwistRead::Sticks(stick) => stick,
    };
    sizes([read_over])?;
    let rise = gap(twist.rise)?;
    let values = [rise, length, plank_length, width, read_over].map(in_mm);
    Ok(mm(trace.work(&TWIST, values)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;
    use proptest::prelude::*;

    fn bend(gap: f64, shape: BendShape) -> Bend {
        Bend {
            gap: mm(gap),
            over: None,
            shape,
            signed: true,
        }
    }

    fn close(found: Length, expected: f64, within: f64) -> bool {
        (in_mm(found) - expected).abs() < within
    }

    #[test]
    fn crook_of_4_mm_leaves_half_a_millimetre() {
        let left = bend_left(
            &mut TraceOff,
            &bend(-4.0, BendShape::Even),
            mm(2620.0),
            mm(950.0),
        )
        .unwrap();
        assert!(close(left.inside, 0.526, 0.001));
        assert_eq!(left.inside, left.cut_on_it);
    }

    #[test]
    fn a_kink_off_centre_costs_more() {
        let kink = bend(9.0, BendShape::Kink(mm(475.0)));
        let left = bend_left(&mut TraceOff, &kink, mm(2620.0), mm(950.0)).unwrap();
        assert!(close(left.inside, 5.5, 0.01), "{:?}", left.inside);
        // Over the whole plank it is what was read.
        let whole = bend_left(&mut TraceOff, &kink, mm(2620.0), mm(2620.0)).unwrap();
        assert!(close(whole.inside, 9.0, 1e-9));
    }

    #[test]
    fn a_kink_is_the_same_from_either_end() {
        for at in [100.0, 400.0, 700.0] {
            let left = |at| {
                bend_left(
                    &mut TraceOff,
                    &bend(9.0, BendShape::Kink(mm(at))),
                    mm(2620.0),
                    mm(950.0),
                )
            };
            let (near, far) = (left(at).unwrap().inside, left(2620.0 - at).unwrap().inside);
            assert!(close(near, in_mm(far), 1e-9), "{at}: {near:?} {far:?}");
        }
    }

    #[test]
    fn a_piece_lies_in_its_plank_or_is_refused() {
        let even = bend(4.0, BendShape::Even);
        let at = |from, piece| bend_left_at(&mut TraceOff, &even, mm(2620.0), mm(from), mm(piece));
        assert!(at(0.0, 950.0).is_ok() && at(1670.0, 950.0).is_ok());
        for from in [-0.1, 1670.1, 2700.0] {
            let refused = matches!(at(from, 950.0), Err(FormError::PieceOutside { .. }));
            assert!(refused, "{from}");
        }
        // A trace of binary arithmetic is not outside: tenths that add up to the whole.
        for tenths in 1..100 {
            let from = f64::from(tenths) / 10.0;
            assert!(at(from, 2620.0 - from).is_ok(), "{from}");
        }
        assert!(at(0.3 - 0.1 - 0.2, 950.0).is_ok());
    }

    #[test]
    fn a_short_straightedge_is_scaled_to_curvature_first() {
        let mut even = bend(2.0, BendShape::Even);
        even.over = Some(mm(1000.0));
        let left = bend_left(&mut TraceOff, &even, mm(2000.0), mm(2000.0)).unwrap();
        assert!(close(left.inside, 8.0, 1e-9));
        // A kink at mid-length: 2 mm under 1 m is 4 mm under 2 m.
        let mut kink = bend(2.0, BendShape::Kink(mm(1000.0)));
        kink.over = Some(mm(1000.0));
        let left = bend_left(&mut TraceOff, &kink, mm(2000.0), mm(2000.0)).unwrap();
        assert!(close(left.inside, 4.0, 1e-9));
    }

    #[test]
    fn twist_from_long_sticks_is_less_than_it_looks() {
        let sticks = Twist {
            rise: mm(12.0),
            read: TwistRead::Sticks(mm(408.0)),
            hand: None,
        };
        let piece = (mm(2620.0), mm(204.0));
        let left = twist_left(&mut TraceOff, &sticks, (mm(2620.0), None), piece).unwrap();
        assert!(close(left, 6.0, 1e-9));
        let corner = Twist {
            read: TwistRead::Corner,
            ..sticks
        };
        assert_eq!(
            twist_left(&mut TraceOff, &corner, (mm(2620.0), None), piece),
            Err(FormError::Size(SizeError::Missing(Side::Width)))
        );
    }

    #[test]
    fn cup_goes_with_the_square_of_the_width() {
        let cup = Cup {
            gap: mm(-4.0),
            over: None,
        };
        assert!(close(
            cup_left(&mut TraceOff, &cup, mm(204.0), mm(80.0)).unwrap(),
            0.615,
            0.001
        ));
    }

    #[test]
    fn the_impossible_is_refused_in_words() {
        let even = bend(9.0, BendShape::Even);
        let error = bend_left(&mut TraceOff, &even, mm(900.0), mm(950.0)).unwrap_err();
        assert_eq!(
            error.to_string(),
            "a piece of 950 mm can't be cut from 900 mm"
        );
        assert!(bend_left(&mut TraceOff, &even, mm(f64::NAN), mm(950.0)).is_err());
        assert!(
            bend_left(
                &mut TraceOff,
                &bend(f64::NAN, BendShape::Even),
                mm(1e3),
                mm(9e2)
            )
            .is_err()
        );
        for at in [0.0, 2620.0, -5.0, f64::NAN] {
            let kink = bend(9.0, BendShape::Kink(mm(at)));
            assert!(bend_left(&mut TraceOff, &kink, mm(2620.0), mm(950.0)).is_err());
        }
        let long = Bend {
            over: Some(mm(3000.0)),
            ..even
        };
        assert!(bend_left(&mut TraceOff, &long, mm(2620.0), mm(950.0)).is_err());
    }

    proptest! {
        // A kinked line measured point by point under the piece's chord.
        #[test]
        fn the_worst_place_for_a_kink_is_found(
            at in 50.0..2570.0f64, piece in 100.0..2620.0f64, start in 0.0..1.0f64,
        ) {
            let (length, read) = (2620.0, 9.0);
            let kink = bend(read, BendShape::Kink(mm(at)));
            let claimed = in_mm(bend_left(&mut TraceOff, &kink, mm(length), mm(piece)).unwrap().inside);
            let from = start * (length - piece);
            // The plank's line: flat ends in a string from end to end, the kink 9 mm off it.
            let line = |x: f64| if x < at { read * x / at } else { read * (length - x) / (length - at) };
            let chord = |x: f64| line(from) + (line(from + piece) - line(from)) * (x - from) / piece;
            let inside = at > from && at < from + piece;
            let measured = if inside { line(at) - chord(at) } else { 0.0 };
            prop_assert!(measured <= claimed + 1e-6, "{measured} {claimed}");
            // And at its place each piece has what is measured there.
            let there = bend_left_at(&mut TraceOff, &kink, mm(length), mm(from), mm(piece)).unwrap();
            prop_assert!((in_mm(there) - measured).abs() < 1e-6, "{measured} {there:?}");
        }
    }
}
