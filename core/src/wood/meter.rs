//! The resistance (pin) moisture meter: what a reading means in wood that is colder or warmer than
//! the meter was calibrated for. It knows no species correction; that belongs to the meter's maker.

use crate::quantity::{Moisture, Temperature, Trace, formula, in_celsius};
use thiserror::Error;

/// Usual calibration temperature of a resistance meter, °C; the meter's own paper decides.
pub const CALIBRATION_CELSIUS: f64 = 20.0;

/// Why a reading can't be used as a number.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum MeterError {
    /// Above fibre saturation.
    #[error("{percent:.1} %: above 30 the meter only says wet")]
    OnlyWet {
        /// As shown or as corrected, whichever passed the limit, %.
        percent: f64,
    },
    /// Below the reliable range.
    #[error("{percent:.1} %: below 6 a pin meter can't tell how dry it is")]
    TooDry {
        /// As shown or as corrected, whichever passed the limit, %.
        percent: f64,
    },
    /// Neither hot nor cold wood that anyone measures.
    #[error("wood at {celsius:.0} °C: the correction holds from -20 to 60 °C")]
    Temperature {
        /// As given, °C.
        celsius: f64,
    },
}

formula! {
    /// A resistance meter's reading in wood that is colder or warmer than its calibration.
    CORRECTED: "Moisture, corrected for the wood's temperature", "M", "%";
    shown: "M₀", "what the meter shows", "%";
    calibrated: "t₀", "temperature of the calibration", "°C";
    wood: "t", "temperature of the wood", "°C";
    = shown + 0.5 * (calibrated - wood) / 5.6;
    range "6 to 30 %, wood from −20 to 60 °C";
    source "Wood Handbook, FPL-GTR-190 (2010), chapter 13: about 0.5 % for 5.6 °C (read)";
}

/// A resistance meter's reading, corrected for the temperature of the wood.
///
/// About 0.5 % moisture per 5.6 °C (10 °F): added when the wood is colder than the calibration,
/// subtracted when it is warmer. Holds where such meters are reliable, 6 to 30 % both as shown and as
/// corrected, and for wood from -20 to 60 °C (those two from memory); [`MeterError`] outside. The mean
/// of corrected readings of a lot comes within about 1 % of the truth.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 13 (read).
pub fn meter_corrected(
    trace: &mut impl Trace,
    shown: Moisture,
    wood: Temperature,
    calibrated_at: Temperature,
) -> Result<Moisture, MeterError> {
    let celsius = in_celsius(wood);
    if !(-20.0..=60.0).contains(&celsius) {
        return Err(MeterError::Temperature { celsius });
    }
    within_reach(shown.in_percent())?;
    let values = [shown.in_percent(), in_celsius(calibrated_at), celsius];
    let corrected = trace.work(&CORRECTED, values);
    within_reach(corrected)?;
    Ok(Moisture::percent(corrected))
}

fn within_reach(percent: f64) -> Result<(), MeterError> {
    if percent > 30.0 {
        Err(MeterError::OnlyWet { percent })
    } else if percent >= 6.0 {
        Ok(())
    } else {
        Err(MeterError::TooDry { percent })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use crate::quantity::celsius;

    fn read(shown: f64, wood: f64) -> Result<f64, MeterError> {
        meter_corrected(
            &mut TraceOff,
            Moisture::percent(shown),
            celsius(wood),
            celsius(CALIBRATION_CELSIUS),
        )
        .map(Moisture::in_percent)
    }

    #[test]
    fn outside_its_reach_the_meter_gives_no_number() {
        let wet = read(145.0, 20.0).unwrap_err();
        assert_eq!(wet.to_string(), "145.0 %: above 30 the meter only says wet");
        assert_eq!(read(5.9, 20.0), Err(MeterError::TooDry { percent: 5.9 }));
        assert!(matches!(
            read(29.8, 10.0),
            Err(MeterError::OnlyWet { percent }) if percent > 30.0
        ));
        assert!(matches!(read(6.2, 40.0), Err(MeterError::TooDry { .. })));
        assert!(matches!(
            read(12.0, 200.0),
            Err(MeterError::Temperature { .. })
        ));
        assert!(read(f64::NAN, 20.0).is_err());
        assert!(read(12.0, f64::NAN).is_err());
    }
}
