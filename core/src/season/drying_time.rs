//! How long red oak takes to dry in steady air. It knows no other wood and no weather.

use crate::quantity::{Length, Moisture, Temperature, formula, in_celsius, in_mm};
use thiserror::Error;

/// Why no time can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum DryingTimeError {
    /// Thinner or thicker than boards are.
    #[error("{mm} mm: the drying time holds for boards of 15 to 80 mm")]
    Thickness {
        /// As given.
        mm: f64,
    },
    /// Colder or hotter than the yard and the kiln.
    #[error("{celsius} °C: the drying time holds from 15 to 80 °C")]
    Air {
        /// As given.
        celsius: f64,
    },
    /// Not wet before, drier after, and the air drier still.
    #[error("from {from} % to {to} % in air that keeps wood at {air} %: that is no drying of wood")]
    NoDrying {
        /// Moisture before, %.
        from: f64,
        /// Moisture after, %.
        to: f64,
        /// Equilibrium with the air, %.
        air: f64,
    },
}

/// Days in which a board of red oak dries from one moisture to another in steady air:
/// `t = L^1.52 / (0.0575 + 0.00142 p) ln((M1 - Me)/(M2 - Me))`.
///
/// L is the thickness in inches, 15 to 80 mm; p the pressure of saturated vapour at the air's temperature in
/// mmHg, by Antoine's equation, 15 to 80 °C; M1 and M2 the mean moisture before and after and Me the
/// equilibrium with the air, in %, each below the one before and none over 120 %. An error outside; the
/// limits are ours. The constants are of northern red oak in a kiln: in a yard, whose air is never steady,
/// it gives the order of size only, and close above Me it hangs on the last tenth of Me.
///
/// Source: a public notebook on the drying of red oak, with the constants and a worked value (read); that
/// they are those of Tschernitz and Simpson, Wood Science 11(4), 1979, is from memory.
///
/// ```
/// use stillwood_core::{quantity::{Moisture, celsius, inches}, season::red_oak_drying_days};
/// let percent = Moisture::percent;
/// let days = red_oak_drying_days(inches(1.5), celsius(22.2), percent(13.55), percent(100.0), percent(14.0));
/// assert_eq!(days.unwrap().round(), 113.0);
/// ```
pub fn red_oak_drying_days(
    thickness: Length,
    air: Temperature,
    equilibrium: Moisture,
    from: Moisture,
    to: Moisture,
) -> Result<f64, DryingTimeError> {
    let (l, celsius) = (in_mm(thickness), in_celsius(air));
    // A hair, for what came through another unit.
    let within = |value: f64, low: f64, high: f64| value >= low - 1e-9 && value <= high + 1e-9;
    if !within(l, 15.0, 80.0) {
        return Err(DryingTimeError::Thickness { mm: l });
    }
    if !within(celsius, 15.0, 80.0) {
        return Err(DryingTimeError::Air { celsius });
    }
    let (me, m1, m2) = (equilibrium.in_percent(), from.in_percent(), to.in_percent());
    if !(0.0 <= me && me < m2 && m2 < m1 && m1 <= 120.0) {
        return Err(DryingTimeError::NoDrying {
            from: m1,
            to: m2,
            air: me,
        });
    }
    Ok(DAYS.of([l, SATURATED.of([celsius]), m1, m2, me]))
}

formula! {
    /// Pressure of saturated vapour over water.
    SATURATED: "Pressure of saturated vapour", "p", "mmHg";
    t: "T", "temperature of the air", "°C";
    = pow(10.0, 8.07131 - 1730.63 / (233.426 + t));
    range "1 to 99 °C";
    source "Antoine's equation for water, as a public notebook has it (read)";
}

formula! {
    /// Days of drying in steady air.
    DAYS: "Days of drying", "t", "days";
    l: "L", "thickness", "mm";
    p: "p", "pressure of saturated vapour", "mmHg";
    from: "M₁", "moisture before", "%";
    to: "M₂", "moisture after", "%";
    air: "Mₑ", "equilibrium with the air", "%";
    = pow(l / 25.4, 1.52) / (0.0575 + 0.00142 * p) * ln((from - air) / (to - air));
    range "northern red oak, 15 to 80 mm, 15 to 80 °C, steady air";
    source "constants as a public notebook on red oak has them (read)";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{celsius, inches, mm};

    const OAK: [f64; 3] = [7.4, 85.0, 25.0];

    fn days(thickness: Length, air: f64, [me, m1, m2]: [f64; 3]) -> Result<f64, DryingTimeError> {
        let percent = Moisture::percent;
        red_oak_drying_days(
            thickness,
            celsius(air),
            percent(me),
            percent(m1),
            percent(m2),
        )
    }

    /// 191.8194885 mmHg at 150 °F: printed in the notebook.
    #[test]
    fn vapour_is_saturated_at_the_pressure_that_is_printed() {
        let pressure = SATURATED.of([(150.0 - 32.0) / 1.8]);
        assert!((pressure - 191.819_488_5).abs() < 5e-8, "{pressure}");
    }

    #[test]
    fn thick_and_cold_takes_longer() {
        let thin = days(inches(1.0), 40.0, OAK).unwrap();
        let thick = days(inches(2.0), 40.0, OAK).unwrap();
        assert!((thick / thin - libm::pow(2.0, 1.52)).abs() < 1e-9);
        assert!(days(inches(1.0), 20.0, OAK).unwrap() > thin);
    }

    #[test]
    fn outside_its_range_it_says_so() {
        assert!(days(mm(80.0), 80.0, OAK).is_ok());
        assert!(days(mm(14.9), 40.0, OAK).is_err() && days(mm(81.0), 40.0, OAK).is_err());
        assert!(days(mm(25.0), 14.0, OAK).is_err() && days(mm(25.0), 81.0, OAK).is_err());
        let reached = days(mm(25.0), 40.0, [25.0, 85.0, 25.0]).unwrap_err();
        assert_eq!(
            reached.to_string(),
            "from 85 % to 25 % in air that keeps wood at 25 %: that is no drying of wood"
        );
        assert!(days(mm(25.0), 40.0, [7.4, 25.0, 25.0]).is_err());
        assert!(days(mm(25.0), 40.0, [7.4, 121.0, 25.0]).is_err());
        assert!(days(mm(25.0), 40.0, [f64::NAN, 85.0, 25.0]).is_err());
        assert!(days(mm(f64::NAN), 40.0, OAK).is_err());
        assert!(days(mm(25.0), f64::NAN, OAK).is_err());
    }
}
