//! Uncertainty: how far a result may be off, given how far each measurement may be.
//!
//! First-order propagation after JCGM 100:2008 (5.1.2, equation 10), with the sensitivities taken
//! numerically by moving each input by its standard uncertainty both ways (JCGM 100:2008 5.1.3, note
//! 2). Measurements made with one tape move together: they are one input. References from memory.

use super::{Angle, Area, Length, Mass, MassDensity, Moisture, Slope, Volume};
use crate::order;

/// A result with its standard uncertainty and what each measurement adds to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate<Q, S> {
    pub value: Q,
    /// Its standard uncertainty (one standard deviation).
    pub standard: Q,
    /// What each source adds: the change of the result for one standard uncertainty of that source,
    /// signed, largest first.
    pub parts: Vec<(S, Q)>,
}

impl<Q: Scalar, S: Copy> Estimate<Q, S> {
    /// From the value and what each source adds, in the order in which they were moved.
    ///
    /// The standard uncertainty is the root of the sum of squares; what adds nothing is not listed.
    fn of(value: Q, moved: impl Iterator<Item = (S, f64)>) -> Self {
        let mut parts: Vec<(S, f64)> = moved.filter(|(_, part)| *part != 0.0).collect();
        let variance = parts.iter().fold(0.0, |sum, (_, part)| sum + part * part);
        order::sort_by(&mut parts, |a, b| b.1.abs().total_cmp(&a.1.abs()));
        let each = |(source, part)| (source, Q::from_raw(part));
        Self {
            value,
            standard: Q::from_raw(variance.sqrt()),
            parts: parts.into_iter().map(each).collect(),
        }
    }

    /// The half-width of the 95 % interval: twice the standard uncertainty (JCGM 100:2008 6.2.1 with
    /// coverage factor 2).
    pub fn expanded(&self) -> Q {
        Q::from_raw(2.0 * self.standard.raw())
    }

    /// The measurement that adds most to the uncertainty.
    pub fn largest_source(&self) -> Option<S> {
        self.parts.first().map(|(source, _)| *source)
    }
}

impl<S: Copy> Estimate<f64, S> {
    /// The same as a quantity, of numbers in the unit that `unit` takes.
    pub(crate) fn in_unit<Q: Scalar>(&self, unit: fn(f64) -> Q) -> Estimate<Q, S> {
        let parts = self.parts.iter();
        Estimate {
            value: unit(self.value),
            standard: unit(self.standard),
            parts: parts.map(|(source, part)| (*source, unit(*part))).collect(),
        }
    }
}

/// One measurement, or a group that moves together: where it comes from and its standard uncertainty
/// in its own unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input<S> {
    pub source: S,
    pub standard: f64,
}

impl<S> Input<S> {
    /// From a resolution or tolerance: the true value lies anywhere within plus or minus
    /// `half_width`, so its standard uncertainty is `half_width / sqrt(3)` (JCGM 100:2008 4.3.7).
    pub fn within(source: S, half_width: f64) -> Self {
        Self {
            source,
            standard: half_width / 3.0_f64.sqrt(),
        }
    }
}

/// The result of `compute` with its uncertainty.
///
/// `compute(None)` is the result as measured; `compute(Some((source, by)))` is the result with that
/// source's measurements moved by `by`. Where a result exists on one side only (the other lies
/// outside a formula's range) that side alone is used; where both moves change the result the same way
/// (a gap of nothing, that either way can only grow), the larger change counts, or a reading of nothing
/// would be taken for certain. `None` when there is no result as measured.
pub fn propagate<Q: Scalar, S: Copy>(
    inputs: &[Input<S>],
    compute: impl Fn(Option<(S, f64)>) -> Option<Q>,
) -> Option<Estimate<Q, S>> {
    let value = compute(None)?;
    let moved = |input: &Input<S>, by: f64| compute(Some((input.source, by))).map(Q::raw);
    let part = |input: &Input<S>| {
        let above = moved(input, input.standard);
        let below = moved(input, -input.standard);
        (input.source, part(value.raw(), above, below))
    };
    Some(Estimate::of(value, inputs.iter().map(part)))
}

/// What a source adds, from the result as measured and with the source moved up and down by its standard
/// uncertainty, as [`propagate`] has it: signed, and nothing where neither gives a result.
fn part(value: f64, above: Option<f64>, below: Option<f64>) -> f64 {
    match (above, below) {
        (Some(above), Some(below)) => spread(above - value, below - value),
        (Some(above), None) => above - value,
        (None, Some(below)) => value - below,
        (None, None) => 0.0,
    }
}

/// From the changes of the result as a source is moved up and down.
fn spread(up: f64, down: f64) -> f64 {
    if up * down <= 0.0 {
        (up - down) / 2.0
    } else if up.abs() >= down.abs() {
        up
    } else {
        down
    }
}

/// A quantity that can be handled as one number in a fixed unit.
pub trait Scalar: Copy {
    /// The number in the fixed unit.
    fn raw(self) -> f64;
    /// From the number in the fixed unit.
    fn from_raw(raw: f64) -> Self;
}

macro_rules! scalars {
    ($($quantity:ident by $unit:ident),*) => {$(
        impl Scalar for $quantity {
            fn raw(self) -> f64 {
                self.get::<$unit>()
            }
            fn from_raw(raw: f64) -> Self {
                Self::new::<$unit>(raw)
            }
        }
    )*};
}

use uom::si::{
    angle::radian, area::square_meter, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, volume::cubic_meter,
};
scalars!(Length by meter, Area by square_meter, Volume by cubic_meter, Mass by kilogram,
    MassDensity by kilogram_per_cubic_meter, Angle by radian);

impl Scalar for Moisture {
    fn raw(self) -> f64 {
        self.in_percent()
    }
    fn from_raw(raw: f64) -> Self {
        Self::percent(raw)
    }
}

impl Scalar for Slope {
    fn raw(self) -> f64 {
        self.in_tangent()
    }
    fn from_raw(raw: f64) -> Self {
        Self::tangent(raw)
    }
}

impl Scalar for f64 {
    fn raw(self) -> f64 {
        self
    }
    fn from_raw(raw: f64) -> Self {
        raw
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(at: f64, by: f64, f: impl Fn(f64) -> Option<f64>) -> Option<Estimate<f64, char>> {
        let inputs = [Input {
            source: 'x',
            standard: by,
        }];
        propagate(&inputs, |moved| f(at + moved.map_or(0.0, |(_, by)| by)))
    }

    #[test]
    fn a_line_gives_its_slope_and_an_even_curve_its_middle_slope() {
        let line = of(3.0, 0.5, |x| Some(2.0 * x)).unwrap();
        assert_eq!((line.value, line.standard), (6.0, 1.0));
        assert_eq!(line.largest_source(), Some('x'));
        let square = of(3.0, 0.5, |x| Some(x * x)).unwrap();
        assert!((square.standard - 3.0).abs() < 1e-12);
    }

    #[test]
    fn what_only_one_side_moves_or_gives_counts_by_that_side() {
        // Moved up it changes by 2, moved down by nothing: half of it.
        let corner = of(3.0, 0.5, |x| Some(4.0 * (x - 3.0).max(0.0))).unwrap();
        assert_eq!(corner.standard, 1.0);
        let other = of(3.0, 0.5, |x| Some(4.0 * (x - 3.0).min(0.0))).unwrap();
        assert_eq!(other.standard, 1.0);
        // Where one side gives nothing, the other's change counts whole.
        let above = of(3.0, 0.5, |x| (x >= 3.0).then_some(2.0 * x)).unwrap();
        let below = of(3.0, 0.5, |x| (x <= 3.0).then_some(2.0 * x)).unwrap();
        assert_eq!(
            (above.parts, below.parts),
            (vec![('x', 1.0)], vec![('x', 1.0)])
        );
    }

    #[test]
    fn what_adds_most_comes_first_and_what_adds_nothing_is_not_listed() {
        let inputs = ['a', 'b', 'c', 'd'].map(|source| Input {
            source,
            standard: 1.0,
        });
        let sum = |moved: Option<(char, f64)>| match moved {
            Some(('a', by)) => Some(by),
            Some(('b', by)) => Some(-3.0 * by),
            Some(('c', by)) => Some(2.0 * by),
            _ => Some(0.0),
        };
        let found = propagate(&inputs, sum).unwrap();
        assert_eq!(found.parts, [('b', -3.0), ('c', 2.0), ('a', 1.0)]);
        assert_eq!(found.standard, 14.0_f64.sqrt());
    }

    #[test]
    fn a_gap_of_nothing_is_not_certain() {
        let folded = of(0.0, 0.5, |x| Some(10.0 - x.abs())).unwrap();
        assert_eq!(folded.standard, 0.5);
        assert_eq!(folded.parts, [('x', -0.5)]);
        // Nearly nothing: of two changes the same way, the larger counts, whichever move makes it.
        let peak = |at: f64| of(at, 0.5, |x| Some(10.0 - x.abs())).unwrap().parts;
        assert_eq!(peak(0.125), [('x', -0.5)]);
        assert_eq!(peak(-0.125), [('x', -0.5)]);
    }

    #[test]
    fn outside_a_formulas_range_the_other_side_stands_in() {
        let edge = of(1.0, 0.5, |x| (x <= 1.0).then_some(x)).unwrap();
        assert_eq!(edge.standard, 0.5);
        let nowhere_else = of(1.0, 0.5, |x| (x == 1.0).then_some(x)).unwrap();
        assert!(nowhere_else.parts.is_empty() && nowhere_else.largest_source().is_none());
        assert_eq!(of(2.0, 0.5, |x| (x <= 1.0).then_some(x)), None);
    }
}
