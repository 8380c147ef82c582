//! How fast a rung bar falls silent: logarithmic decrement and loss tangent. It never says what is a good
//! tone.

use super::{StiffnessError, positive, within};
use crate::quantity::{Frequency, in_hz};

/// Logarithmic decrement: natural logarithm of one swing over the next.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Decrement(f64);

impl Decrement {
    pub const fn value(self) -> f64 {
        self.0
    }
}

/// Loss tangent: share of the stored energy lost in a swing, over 2 pi.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct LossTangent(f64);

impl LossTangent {
    pub const fn value(self) -> f64 {
        self.0
    }
}

/// Logarithmic decrement from two swings `cycles` apart: d = ln(x1/x2)/n.
///
/// x1 and x2 are sizes of swing in one unit. An error for a swing of nothing, n of nothing, or a later
/// swing that is not the smaller. Standard theory, from memory.
pub fn decrement_from_decay(
    first: f64,
    later: f64,
    cycles: f64,
) -> Result<Decrement, StiffnessError> {
    let x1 = positive("a first swing", first)?;
    let x2 = positive("a later swing", later)?;
    let n = positive("a count of swings", cycles)?;
    positive("a loss between swings", x1 - x2)?;
    Ok(Decrement(libm::log(x1 / x2) / n))
}

/// Loss tangent from the logarithmic decrement: tan delta = d/pi.
///
/// Holds for light damping: d up to 0.3, an error above (dry wood has about 0.02 to 0.05; both from
/// memory). Standard theory, from memory.
pub fn loss_tangent(decrement: Decrement) -> Result<LossTangent, StiffnessError> {
    let d = within("a logarithmic decrement", decrement.0, 0.0, 0.3)?;
    Ok(LossTangent(d / std::f64::consts::PI))
}

/// Loss tangent from the width of a resonance: tan delta = w/f.
///
/// f is the frequency, w the width of its peak where the power is half (3 dB down). Holds for light
/// damping: w up to a tenth of f, an error above. Standard theory, from memory.
///
/// No published value: no worked figure was found; held against `loss_tangent`.
pub fn loss_tangent_from_bandwidth(
    frequency: Frequency,
    width: Frequency,
) -> Result<LossTangent, StiffnessError> {
    let f = positive("a frequency, Hz,", in_hz(frequency))?;
    let w = positive("a width, Hz,", in_hz(width))?;
    Ok(LossTangent(within(
        "a width over its frequency",
        w / f,
        0.0,
        0.1,
    )?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::hz;
    use proptest::prelude::*;

    #[test]
    fn a_swing_that_grows_has_no_decrement() {
        assert!(decrement_from_decay(1.0, 1.0, 3.0).is_err());
        assert!(decrement_from_decay(1.0, 2.0, 3.0).is_err());
        assert!(decrement_from_decay(1.0, 0.0, 3.0).is_err());
        assert!(decrement_from_decay(1.0, f64::NAN, 3.0).is_err());
        let heavy = decrement_from_decay(2.0, 1.0, 1.0).unwrap();
        let refused = loss_tangent(heavy).unwrap_err().to_string();
        assert!(refused.ends_with("it lies between 0 and 0.3"), "{refused}");
    }

    proptest! {
        // A swing x(t) = exp(-pi f t tan d) gives its loss tangent back, and the half-power width agrees.
        #[test]
        fn the_loss_comes_back(tangent in 0.001..0.09f64, cycles in 1u32..40) {
            let later = libm::exp(-std::f64::consts::PI * tangent * f64::from(cycles));
            let d = decrement_from_decay(1.0, later, f64::from(cycles)).unwrap();
            let found = loss_tangent(d).unwrap();
            prop_assert!((found.value() - tangent).abs() < 1e-12);
            let wide = loss_tangent_from_bandwidth(hz(200.0), hz(200.0 * tangent)).unwrap();
            prop_assert!((wide.value() / tangent - 1.0).abs() < 1e-9);
        }
    }
}
