//! Stiffness from how far a bar bends under a weight at mid-span.

use super::{Bar, StiffnessError, positive};
use crate::quantity::{Force, Length, Pressure, gpa, in_mm, in_newtons};

/// Modulus of elasticity from bending at mid-span between two supports: E = F s³/(4 b h³ d).
///
/// F is the added force, s the span, b the width, h the thickness in the direction of the bend, d the added
/// deflection. Holds for a span of 10 times the thickness and more, and a deflection up to a twentieth of the
/// span (both limits ours); an error outside. Shear adds 1.2 (E/G) (h/s)² to the deflection and so
/// makes E come out low: with E/G = 15, by 5 % at 19 times the thickness. It is not taken off.
///
/// Source: statics of the simple beam (textbook), as EN 408 uses it for mid-span loading; from memory.
///
/// ```
/// use stillwood_core::quantity::{in_gpa, kg, mm, newtons};
/// use stillwood_core::wood::{Bar, stiffness_from_bending};
/// let blank = Bar { length: mm(950.0), width: mm(48.0), thickness: mm(15.0), mass: kg(0.48) };
/// let e = stiffness_from_bending(&blank, mm(900.0), newtons(49.0), mm(4.4)).unwrap();
/// assert!((in_gpa(e) - 12.53).abs() < 0.01);
/// ```
pub fn stiffness_from_bending(
    bar: &Bar,
    span: Length,
    force: Force,
    deflection: Length,
) -> Result<Pressure, StiffnessError> {
    let s = positive("a span, mm,", in_mm(span))?;
    let b = positive("a width, mm,", in_mm(bar.width))?;
    let h = positive("a thickness, mm,", in_mm(bar.thickness))?;
    let d = positive("a deflection, mm,", in_mm(deflection))?;
    let newton = positive("a force, N,", in_newtons(force))?;
    let ratio = s / h;
    if ratio < 10.0 - 1e-9 {
        return Err(StiffnessError::TooStout { ratio, least: 10.0 });
    }
    if d > s / 20.0 {
        return Err(StiffnessError::BentTooFar { share: d / s });
    }
    // N/mm² are MPa.
    Ok(gpa(newton / (4.0 * b * d) * ratio * ratio * ratio / 1000.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{kg, mm, newtons};

    fn bent(thickness: f64, deflection: f64) -> Result<Pressure, StiffnessError> {
        let bar = Bar {
            length: mm(900.0),
            width: mm(48.0),
            thickness: mm(thickness),
            mass: kg(0.5),
        };
        stiffness_from_bending(&bar, mm(800.0), newtons(20.0), mm(deflection))
    }

    #[test]
    fn a_bar_is_slender_and_bent_a_little() {
        assert!(bent(80.0, 1.0).is_ok(), "ten times as long as it is thick");
        let stout = bent(80.1, 1.0).unwrap_err();
        assert!(
            matches!(stout, StiffnessError::TooStout { ratio, least } if ratio < 10.0 && least == 10.0)
        );
        assert!(bent(15.0, 40.0).is_ok(), "a twentieth of the span");
        let far = bent(15.0, 80.0).unwrap_err();
        assert!(matches!(far, StiffnessError::BentTooFar { share } if (share - 0.1).abs() < 1e-12));
    }
}
