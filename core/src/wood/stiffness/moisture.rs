//! Stiffness carried from one moisture to another.
//!
//! Two ways: the handbook's equation, which needs the wood's mean green value, and the laboratory's plain
//! percentage, which needs nothing. It never guesses a green value.

use super::{StiffnessError, positive};
use crate::quantity::{Moisture, Pressure, gpa, in_gpa};

/// Moisture at which strength and stiffness begin to rise as wood dries, where a wood's own is not known.
/// White ash has 24, yellow birch 27. Wood Handbook, FPL-GTR-282 (2021), chapter 5 (read in a transcription).
pub const INTERSECTION: Moisture = Moisture::percent(25.0);

/// Change of stiffness for 1 % of moisture, as a share. Forest Products Laboratory, Moisture adjustments
/// for wood strength content, Table 1: modulus of elasticity 2 % (read).
const PER_PERCENT: f64 = 0.02;

/// A mechanical property at moisture M: `P = P12 (P12/Pg)^((12 - M)/(Mp - 12))`.
///
/// P12 is the property at 12 %, Pg green, in one unit; Mp the intersection moisture, from 20 to 30 %
/// ([`INTERSECTION`] where it is not known). Holds from 6 % to Mp (the lower end is ours); an error outside. For
/// the mean of a wood: a single piece follows it only roughly.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 5-3 (read in a transcription).
pub fn property_at_moisture(
    at_12: f64,
    green: f64,
    intersection: Moisture,
    at: Moisture,
) -> Result<f64, StiffnessError> {
    let (p12, pg) = (
        positive("a value at 12 %", at_12)?,
        positive("a green value", green)?,
    );
    let (mp, m) = reached(intersection, at)?;
    Ok(p12 * libm::pow(p12 / pg, (12.0 - m) / (mp - 12.0)))
}

/// Modulus of elasticity at 12 % of wood tested at moisture M:
/// `E12 = [E^(Mp - 12) Eg^(12 - M)]^(1/(Mp - M))`, which is [`property_at_moisture`] turned round.
///
/// E is the tested value, Eg the green value, Mp the intersection moisture. Holds from 6 % to 1 % below Mp.
///
/// Derived here: the equation of `property_at_moisture`.
///
/// No published value: `property_at_moisture` turned to 12 %, which has rows.
pub fn stiffness_to_12(
    tested: Pressure,
    at: Moisture,
    green: Pressure,
    intersection: Moisture,
) -> Result<Pressure, StiffnessError> {
    let e = positive("a stiffness, GPa,", in_gpa(tested))?;
    let eg = positive("a green stiffness, GPa,", in_gpa(green))?;
    let (mp, m) = reached(intersection, at)?;
    if m > mp - 1.0 {
        return Err(StiffnessError::Moisture {
            percent: m,
            high: mp - 1.0,
        });
    }
    let share = (mp - 12.0) / (mp - m);
    Ok(gpa(eg * libm::pow(e / eg, share)))
}

/// Modulus of elasticity at another moisture by the laboratory's approximate method: 2 % of the tested value
/// for each 1 % of moisture, more as it dries: `E' = E [1 + 0.02 (M - M')]`.
///
/// For a single piece whose green stiffness is not known. Both moistures from 6 to 20 % (ours); an error
/// outside.
///
/// Source: Forest Products Laboratory, Moisture adjustments for wood strength content, approximate method
/// and Table 1 (read). Newer numbers are less: a middle trend of +9 % from 12 to 6 % and -13 % from 12 to 20 %
/// (Wood Handbook, chapter 5, from memory), and by [`property_at_moisture`] the fourteen woods whose green
/// stiffness was read change by 0.5 to 2.8 %, half of them by less than 1.3 %.
pub fn stiffness_by_rule(
    tested: Pressure,
    from: Moisture,
    to: Moisture,
) -> Result<Pressure, StiffnessError> {
    let e = positive("a stiffness, GPa,", in_gpa(tested))?;
    let points = moisture_up_to(20.0, from)? - moisture_up_to(20.0, to)?;
    Ok(gpa(e * (1.0 + PER_PERCENT * points)))
}

fn reached(intersection: Moisture, at: Moisture) -> Result<(f64, f64), StiffnessError> {
    let mp = super::within(
        "an intersection moisture, %,",
        intersection.in_percent(),
        20.0,
        30.0,
    )?;
    Ok((mp, moisture_up_to(mp, at)?))
}

fn moisture_up_to(high: f64, at: Moisture) -> Result<f64, StiffnessError> {
    let percent = at.in_percent();
    if (6.0..=high).contains(&percent) {
        Ok(percent)
    } else {
        Err(StiffnessError::Moisture { percent, high })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn three_points_drier_is_three_times_two_percent_stiffer() {
        let at = Moisture::percent;
        let drier = stiffness_by_rule(gpa(12.0), at(12.0), at(9.0)).unwrap();
        assert!((in_gpa(drier) - 12.72).abs() < 1e-12);
    }

    #[test]
    fn what_is_nearly_wet_through_is_not_carried_to_12() {
        let mp = INTERSECTION.in_percent();
        let to_12 = |percent: f64| {
            stiffness_to_12(
                gpa(12.0),
                Moisture::percent(percent),
                gpa(10.0),
                INTERSECTION,
            )
        };
        assert!(to_12(mp - 1.0).is_ok());
        let wet = to_12(mp - 0.9).unwrap_err();
        assert!(
            matches!(wet, StiffnessError::Moisture { high, .. } if high == mp - 1.0),
            "{wet}"
        );
    }

    #[test]
    fn wet_or_bone_dry_wood_is_not_carried_over() {
        let at = Moisture::percent;
        let wet = stiffness_by_rule(gpa(12.0), at(21.0), at(12.0)).unwrap_err();
        assert_eq!(
            wet.to_string(),
            "21.0 %: stiffness can be carried over only between 6 and 20 % moisture"
        );
        assert!(property_at_moisture(12.0, 10.0, INTERSECTION, at(5.0)).is_err());
        assert!(property_at_moisture(12.0, 10.0, INTERSECTION, at(26.0)).is_err());
        assert!(property_at_moisture(12.0, 0.0, INTERSECTION, at(9.0)).is_err());
        assert!(property_at_moisture(12.0, 10.0, at(12.0), at(9.0)).is_err());
        assert!(stiffness_to_12(gpa(12.0), at(24.5), gpa(10.0), INTERSECTION).is_err());
        assert!(stiffness_to_12(gpa(f64::NAN), at(9.0), gpa(10.0), INTERSECTION).is_err());
    }

    proptest! {
        // There and back again.
        #[test]
        fn twelve_percent_comes_back(
            e12 in 7.0..20.0f64, share in 0.6..0.99f64, m in 6.0..23.0f64, mp in 24.0..30.0f64,
        ) {
            let (mp, m) = (Moisture::percent(mp), Moisture::percent(m));
            let tested = property_at_moisture(e12, e12 * share, mp, m).unwrap();
            let back = stiffness_to_12(gpa(tested), m, gpa(e12 * share), mp).unwrap();
            prop_assert!((in_gpa(back) - e12).abs() < 1e-9);
            // Drier is stiffer.
            prop_assert!((tested - e12) * (12.0 - m.in_percent()) >= 0.0);
        }
    }
}
