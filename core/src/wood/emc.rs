//! Equilibrium moisture content: the moisture that wood settles at in air of a given temperature and
//! humidity. It never says how long that takes.

use crate::quantity::{Moisture, Temperature, Trace, TraceOff, formula, in_celsius};
use thiserror::Error;

/// Relative humidity of the air.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Humidity(f64);

impl Humidity {
    pub const fn percent(value: f64) -> Self {
        Self(value)
    }

    pub const fn in_percent(self) -> f64 {
        self.0
    }
}

/// Why no equilibrium can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum EmcError {
    /// The temperature is outside the published table.
    #[error("{celsius:.0} °C is outside the published table, which runs from -1 to 93 °C")]
    Temperature {
        /// As given, °C.
        celsius: f64,
    },
    /// Not a humidity, or nearer to saturation than the table goes.
    #[error("{percent:.0} % relative humidity is outside the published table (0 to 98 %)")]
    Humidity {
        /// As given, %.
        percent: f64,
    },
    /// No humidity in the table keeps wood at this moisture.
    #[error("no humidity between 0 and 98 % keeps wood at {percent:.1} %")]
    Moisture {
        /// As given, %.
        percent: f64,
    },
}

/// Table 4-2 as read runs from 30 to 200 °F.
const CELSIUS: std::ops::RangeInclusive<f64> = -1.12..=93.34;
const PERCENT_HUMIDITY: std::ops::RangeInclusive<f64> = 0.0..=98.0;

/// Equilibrium moisture content by the two-hydrate sorption equation.
///
/// `EMC = 1800/W [ Kh/(1-Kh) + (K1 K h + 2 K1 K2 K² h²)/(1 + K1 K h + K1 K2 K² h²) ]` in %, with h the
/// relative humidity as a fraction and W, K, K1, K2 parabolas in the temperature T in °C.
///
/// Holds from -1 to 93 °C and 0 to 98 % relative humidity; [`EmcError`] outside. Reproduces the
/// published table within 0.06 % moisture; for a real piece of wood claim no better than ±1 %.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-5, °C form (read in a transcription);
/// FPL-GTR-190 (2010), Table 4-2 (read).
pub fn emc(
    trace: &mut impl Trace,
    air: Temperature,
    humidity: Humidity,
) -> Result<Moisture, EmcError> {
    let (celsius, h) = checked(air, humidity)?;
    Ok(Moisture::percent(two_hydrate(trace, celsius, h)))
}

/// The relative humidity at which wood keeps a given moisture: [`emc`] solved for the humidity by
/// halving the interval, to better than 1e-9 %. Same range and source.
pub fn humidity_for_emc(air: Temperature, wood: Moisture) -> Result<Humidity, EmcError> {
    let (celsius, _) = checked(air, Humidity::percent(0.0))?;
    let percent = wood.in_percent();
    let two_hydrate = |celsius, h| two_hydrate(&mut TraceOff, celsius, h);
    let (mut low, mut high) = (0.0, *PERCENT_HUMIDITY.end() / 100.0);
    if !(0.0..=two_hydrate(celsius, high)).contains(&percent) {
        return Err(EmcError::Moisture { percent });
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if two_hydrate(celsius, middle) < percent {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(Humidity::percent(50.0 * (low + high)))
}

/// Equilibrium moisture content by the newer four-parameter equation.
///
/// `EMC = 100 [A T (1 - T/Tc)^B ln(1 - h)]^(C T^D)` in %, T in kelvin, h as a fraction, Tc 647.1 K,
/// A -0.000612, B 2.43, C 0.0577, D 0.430. At room temperature it lies -0.1 to +0.5 from the
/// older table.
///
/// Held to the range of [`emc`], in which the two were compared; [`EmcError`] outside.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-6, after Glass and others 2014, FPL-GTR-229
/// (coefficients read in a transcription).
pub fn emc_four_parameter(
    trace: &mut impl Trace,
    air: Temperature,
    humidity: Humidity,
) -> Result<Moisture, EmcError> {
    let (celsius, h) = checked(air, humidity)?;
    let (scale, power) = four_parameter(trace, celsius);
    Ok(Moisture::percent(
        trace.work(&FOUR_PARAMETER, [scale, h, power]),
    ))
}

/// The relative humidity at which wood keeps a given moisture, by the four-parameter equation:
/// `h = 1 - exp{ (EMC/100)^(1/(C T^D)) / (A T (1 - T/Tc)^B) }`. Range as [`emc`].
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-7 (read in a transcription).
pub fn humidity_for_emc_four_parameter(
    trace: &mut impl Trace,
    air: Temperature,
    wood: Moisture,
) -> Result<Humidity, EmcError> {
    let (celsius, _) = checked(air, Humidity::percent(0.0))?;
    let percent = wood.in_percent();
    if !(0.0..=100.0).contains(&percent) {
        return Err(EmcError::Moisture { percent });
    }
    let (scale, power) = four_parameter(trace, celsius);
    let h = trace.work(&KEPT_BY, [percent, power, scale]);
    if PERCENT_HUMIDITY.contains(&h) {
        Ok(Humidity::percent(h))
    } else {
        Err(EmcError::Moisture { percent })
    }
}

/// Temperature in °C and humidity as a fraction, both inside the table.
fn checked(air: Temperature, humidity: Humidity) -> Result<(f64, f64), EmcError> {
    let celsius = in_celsius(air);
    let percent = humidity.in_percent();
    if !CELSIUS.contains(&celsius) {
        return Err(EmcError::Temperature { celsius });
    }
    if !PERCENT_HUMIDITY.contains(&percent) {
        return Err(EmcError::Humidity { percent });
    }
    Ok((celsius, percent / 100.0))
}

fn two_hydrate(trace: &mut impl Trace, t: f64, h: f64) -> f64 {
    let w = trace.work(&MOLAR, [t]);
    let k = trace.work(&K, [t]);
    let k1 = trace.work(&K1, [t]);
    let k2 = trace.work(&K2, [t]);
    trace.work(&TWO_HYDRATE, [w, k, k1, k2, h])
}

formula! {
    /// W of the sorption equation.
    MOLAR: "Molar weight of the wood that binds one molecule", "W", "";
    t: "t", "temperature", "°C";
    = 349.0 + 1.29 * t + 0.0135 * sq(t);
    range "−1 to 93 °C";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-5 (read in a transcription)";
}

formula! {
    /// K of the sorption equation.
    K: "Dissolved water against the air's", "K", "";
    t: "t", "temperature", "°C";
    = 0.805 + 0.000736 * t - 0.00000273 * sq(t);
    range "−1 to 93 °C";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-5 (read in a transcription)";
}

formula! {
    /// K1 of the sorption equation.
    K1: "First hydrate", "K₁", "";
    t: "t", "temperature", "°C";
    = 6.27 - 0.00938 * t - 0.000303 * sq(t);
    range "−1 to 93 °C";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-5 (read in a transcription)";
}

formula! {
    /// K2 of the sorption equation.
    K2: "Second hydrate", "K₂", "";
    t: "t", "temperature", "°C";
    = 1.91 + 0.0407 * t - 0.000293 * sq(t);
    range "−1 to 93 °C";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-5 (read in a transcription)";
}

formula! {
    /// Equilibrium moisture content by the two-hydrate sorption equation.
    TWO_HYDRATE: "Moisture that wood settles at", "M", "%";
    w: "W", "from the temperature", "";
    k: "K", "from the temperature", "";
    k1: "K₁", "from the temperature", "";
    k2: "K₂", "from the temperature", "";
    h: "h", "relative humidity, as a share", "";
    = 1800.0 / w
        * (k * h / (1.0 - k * h)
            + (k1 * (k * h) + 2.0 * k1 * k2 * sq(k * h)) / (1.0 + k1 * (k * h) + k1 * k2 * sq(k * h)));
    range "0 to 98 % relative humidity; for a real piece claim no better than ±1 %";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-5 (read in a transcription)";
}

/// `A T (1 - T/Tc)^B` and `C T^D`.
fn four_parameter(trace: &mut impl Trace, celsius: f64) -> (f64, f64) {
    (trace.work(&SCALE, [celsius]), trace.work(&POWER, [celsius]))
}

formula! {
    /// A T (1 - T/Tc)^B.
    SCALE: "Scale, from the temperature", "a", "";
    t: "t", "temperature", "°C";
    = -0.000612 * (t + 273.15) * pow(1.0 - (t + 273.15) / 647.1, 2.43);
    range "−1 to 93 °C";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-6 (coefficients read in a transcription)";
}

formula! {
    /// C T^D.
    POWER: "Exponent, from the temperature", "n", "";
    t: "t", "temperature", "°C";
    = 0.0577 * pow(t + 273.15, 0.43);
    range "−1 to 93 °C";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-6 (coefficients read in a transcription)";
}

formula! {
    /// Equilibrium by the four-parameter equation.
    FOUR_PARAMETER: "Moisture that wood settles at, by the newer equation", "M", "%";
    a: "a", "scale", "";
    h: "h", "relative humidity, as a share", "";
    n: "n", "exponent", "";
    = 100.0 * pow(a * ln(1.0 - h), n);
    range "0 to 98 % relative humidity";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-6, after Glass and others 2014, FPL-GTR-229";
}

formula! {
    /// Humidity by the four-parameter equation.
    KEPT_BY: "Humidity that keeps it, by the newer equation", "H", "%";
    m: "M", "moisture to keep", "%";
    n: "n", "exponent", "";
    a: "a", "scale", "";
    = 100.0 * (1.0 - exp(pow(m / 100.0, 1.0 / n) / a));
    range "0 to 98 % relative humidity";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-7 (read in a transcription)";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::celsius;

    #[test]
    fn outside_the_table_is_an_error_that_names_the_value() {
        assert_eq!(
            emc(&mut TraceOff, celsius(-5.0), Humidity::percent(50.0)),
            Err(EmcError::Temperature { celsius: -5.0 })
        );
        let damp = emc(&mut TraceOff, celsius(20.0), Humidity::percent(99.0)).unwrap_err();
        assert_eq!(
            damp.to_string(),
            "99 % relative humidity is outside the published table (0 to 98 %)"
        );
        assert!(emc(&mut TraceOff, celsius(20.0), Humidity::percent(f64::NAN)).is_err());
        assert!(humidity_for_emc(celsius(20.0), Moisture::percent(40.0)).is_err());
        assert!(humidity_for_emc(celsius(20.0), Moisture::percent(-1.0)).is_err());
        assert!(
            humidity_for_emc_four_parameter(&mut TraceOff, celsius(20.0), Moisture::percent(60.0))
                .is_err()
        );
    }

    #[test]
    fn dry_air_dries_wood_through() {
        let dry = emc(&mut TraceOff, celsius(20.0), Humidity::percent(0.0)).unwrap();
        assert_eq!(dry.in_percent(), 0.0);
        let dry = emc_four_parameter(&mut TraceOff, celsius(20.0), Humidity::percent(0.0)).unwrap();
        assert_eq!(dry.in_percent(), 0.0);
    }
}
