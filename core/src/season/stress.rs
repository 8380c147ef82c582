//! What a test for drying stress says: prongs sawn into a slice of the end, and an offcut ripped in two.
//!
//! It reads a gap and says which way the wood is strained and how far a part of it will spring. It never
//! says that a plank is bad: much of this is milled away.

use super::movement::standard_of;
use crate::quantity::{Length, Trace, formula, in_mm, mm};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StressSays {
    /// The prongs stay straight, as far as can be read.
    StraightProngs,
    /// The prongs close: casehardened.
    Casehardened,
    /// The prongs spread: casehardened in reverse.
    Reverse,
    /// The halves lie together, as far as can be read.
    StraightHalves,
    /// The halves spring open.
    SpringsOpen,
    /// The halves spring shut.
    SpringsShut,
}

impl StressSays {
    /// In the trade's words.
    pub fn in_words(self) -> &'static str {
        match self {
            StressSays::StraightProngs => "no stress across the section to be seen",
            StressSays::Casehardened => "casehardened",
            StressSays::Reverse => "casehardened in reverse",
            StressSays::StraightHalves => "no stress along the length to be seen",
            StressSays::SpringsOpen => "stress along the length: it springs open",
            StressSays::SpringsShut => "stress along the length: it springs shut",
        }
    }

    /// What that does at the bench.
    pub fn means(self) -> &'static str {
        match self {
            StressSays::StraightProngs | StressSays::StraightHalves => {
                "It should stay as it is when it is cut."
            }
            StressSays::Casehardened => {
                "The shell is pressed and the core pulled: resawn, each half goes hollow on its sawn face."
            }
            StressSays::Reverse => {
                "The shell is pulled and the core pressed: resawn, each half goes round on its sawn face."
            }
            StressSays::SpringsOpen => "Ripped, its parts bow away from each other.",
            StressSays::SpringsShut => {
                "Ripped, its parts bow towards each other and pinch the saw."
            }
        }
    }
}

/// Which side of straight a gap is, beyond what can be read: twice the standard uncertainty.
fn side(gap: Length, half_width: Length) -> i8 {
    let seen = standard_of(half_width) * 2.0;
    if gap > seen {
        1
    } else if gap < -seen {
        -1
    } else {
        0
    }
}

/// What the fork test says: prongs that close (a gap under nothing) are casehardened, prongs that spread
/// casehardened in reverse, straight ones show no stress.
///
/// `half_width` is how far off the gap may be read; less than twice its standard uncertainty is straight.
/// The prongs have to be even in moisture, or they say nothing. That closed prongs are casehardened and
/// straight ones free: a manual for operators of small dry kilns, figure 29 (read); the reverse from
/// memory.
///
/// No published value: a reading in words.
pub fn fork_says(gap: Length, half_width: Length) -> StressSays {
    match side(gap, half_width) {
        0 => StressSays::StraightProngs,
        1 => StressSays::Reverse,
        _ => StressSays::Casehardened,
    }
}

/// What an offcut ripped in two and laid together again says: halves that gape or pinch are under stress
/// along the length. Common practice, no source.
///
/// No published value: a reading in words.
pub fn ripped_says(gap: Length, half_width: Length) -> StressSays {
    match side(gap, half_width) {
        0 => StressSays::StraightHalves,
        1 => StressSays::SpringsOpen,
        _ => StressSays::SpringsShut,
    }
}

formula! {
    /// What a part springs.
    SPRING: "Spring of a laminate", "d", "mm";
    gap: "g", "gap between the halves, without its sign", "mm";
    length: "L", "length that it is told for", "mm";
    over: "l", "length of the offcut", "mm";
    = gap / 2.0 * sq(length / over);
    range "an even curve, both halves alike";
    source "geometry of the sagitta";
}

/// How far a part of the wood springs over a length: half the gap of the two halves, carried over as an
/// even curve, `g/2 (L/l)^2`.
///
/// g is the gap between the halves laid together, l the offcut's length, L the length asked for; both
/// halves are taken to curve alike. `None` for a length that is nothing or less. Derived here: geometry
/// of the sagitta.
///
/// No published value: the scaling of a sagitta, see `even_gap_over`, which is held in plank.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::{quantity::{in_mm, mm}, season::spring_of_part};
/// let spring = spring_of_part(&mut TraceOff, mm(0.4), mm(300.0), mm(900.0)).unwrap();
/// assert!((in_mm(spring) - 1.8).abs() < 1e-9);
/// ```
pub fn spring_of_part(
    trace: &mut impl Trace,
    gap: Length,
    over: Length,
    length: Length,
) -> Option<Length> {
    let known = over > mm(0.0) && length > mm(0.0);
    let values = [gap.abs(), length, over].map(in_mm);
    known
        .then(|| mm(trace.work(&SPRING, values)))
        .filter(|spring| spring.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;

    #[test]
    fn what_can_hardly_be_read_is_straight() {
        let feeler = mm(0.1);
        for (gap, fork, ripped) in [
            (-0.3, StressSays::Casehardened, StressSays::SpringsShut),
            (-0.1, StressSays::StraightProngs, StressSays::StraightHalves),
            (0.0, StressSays::StraightProngs, StressSays::StraightHalves),
            (0.1, StressSays::StraightProngs, StressSays::StraightHalves),
            (0.4, StressSays::Reverse, StressSays::SpringsOpen),
            // Two standard uncertainties: 0.2/√3 is 0.1155 mm.
            (
                0.115,
                StressSays::StraightProngs,
                StressSays::StraightHalves,
            ),
            (0.116, StressSays::Reverse, StressSays::SpringsOpen),
            (
                -0.115,
                StressSays::StraightProngs,
                StressSays::StraightHalves,
            ),
            (-0.116, StressSays::Casehardened, StressSays::SpringsShut),
        ] {
            assert_eq!(fork_says(mm(gap), feeler), fork, "{gap}");
            assert_eq!(ripped_says(mm(gap), feeler), ripped, "{gap}");
        }
    }

    #[test]
    fn a_spring_needs_a_length_and_has_no_sign() {
        let of = |gap, over| spring_of_part(&mut TraceOff, mm(gap), mm(over), mm(950.0));
        assert_eq!(of(0.4, 0.0), None);
        assert_eq!(of(0.4, -300.0), None);
        assert_eq!(of(0.4, f64::NAN), None);
        assert_eq!(of(-0.4, 300.0), of(0.4, 300.0));
    }
}
