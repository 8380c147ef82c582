//! Reading the quantities of wood and air that no tape shows: density, stiffness, percentages and plain
//! numbers.
//!
//! As in [`super::read`], what is not understood is said to be so; nothing is guessed.

use super::number::{finish, float, number_and_word, sign, tokens};
use super::understood::{UnderstoodNumber, Units, Unreadable};
use super::{GRAMS_PER_POUND, MM_PER_INCH};

/// A unit: how it is spelled, what one of it is in the unit that is kept, and how it is written.
type Unit = (&'static str, f64, &'static str);

/// A number with one of these units behind it, the first that fits; `bare` is what a number alone is
/// in. No sign.
fn with_unit(
    typed: &str,
    units: &[Unit],
    bare: (f64, &'static str),
) -> Result<UnderstoodNumber, Unreadable> {
    let plain = typed.trim().to_lowercase().replace('³', "3");
    let found = units
        .iter()
        .find_map(|(spelled, one, name)| Some((plain.strip_suffix(spelled)?, *one, *name)));
    let (number, one, unit) = found.unwrap_or((&plain, bare.0, bare.1));
    let mut rest = tokens(number)?;
    let minus = sign(&mut rest);
    if minus == Some(true) {
        return Err(Unreadable::Negative);
    }
    let (value, _, other) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
    if let Some(other) = other {
        return Err(Unreadable::UnknownUnit(other));
    }
    let understood = UnderstoodNumber {
        value: float(value) * one,
        unit,
        signed: minus.is_some(),
    };
    finish(&rest, understood)
}

/// A density, in kg/m³: `640`, `640 kg/m3`, `0.64 g/cm³`, `40 lb/ft3`; a bare number is in kg/m³, or in
/// lb/ft³ where inches are set.
pub fn density(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let foot = 12.0 * MM_PER_INCH / 1000.0;
    let pounds = GRAMS_PER_POUND / 1000.0 / (foot * foot * foot);
    let bare = match units {
        Units::Metric => (1.0, "kg/m3"),
        Units::Inch => (pounds, "lb/ft3"),
    };
    let spelled = [
        ("kg/m3", 1.0, "kg/m3"),
        ("g/cm3", 1000.0, "g/cm3"),
        ("lb/ft3", pounds, "lb/ft3"),
        ("lbs/ft3", pounds, "lb/ft3"),
        ("pcf", pounds, "lb/ft3"),
    ];
    with_unit(typed, &spelled, bare)
}

/// A modulus of elasticity, in MPa: `12.6`, `12600 MPa`, `1.83 Mpsi`; a bare number is in GPa.
pub fn stiffness(typed: &str) -> Result<UnderstoodNumber, Unreadable> {
    // A pound-force is exactly 0.45359237 kg under standard gravity, 9.80665 m/s².
    let psi = GRAMS_PER_POUND / 1000.0 * 9.806_65 / (MM_PER_INCH * MM_PER_INCH);
    let spelled = [
        ("gpa", 1000.0, "GPa"),
        ("mpa", 1.0, "MPa"),
        ("mpsi", psi * 1e6, "Mpsi"),
        ("psi", psi, "psi"),
    ];
    with_unit(typed, &spelled, (1000.0, "GPa"))
}

/// A percentage: `4.8`, `4,8 %`.
pub fn percent(typed: &str) -> Result<UnderstoodNumber, Unreadable> {
    with_unit(typed, &[("%", 1.0, "%")], (1.0, "%"))
}

/// A relative humidity, in percent: `45`, `45 %`, `45 % RH`.
pub fn humidity(typed: &str) -> Result<UnderstoodNumber, Unreadable> {
    let spelled = [
        ("% rh", 1.0, "%"),
        ("%rh", 1.0, "%"),
        ("rh", 1.0, "%"),
        ("%", 1.0, "%"),
    ];
    with_unit(typed, &spelled, (1.0, "%"))
}

/// A number that has no unit: `0.63`.
pub fn plain(typed: &str) -> Result<UnderstoodNumber, Unreadable> {
    with_unit(typed, &[], (1.0, ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn densities_in_any_unit() {
        let read = |text: &str| density(text, Units::Metric).unwrap().value;
        assert_eq!(read("640"), 640.0);
        assert_eq!(read("0,64 g/cm³"), 640.0);
        assert_eq!(read("640 KG/M3"), 640.0);
        assert!((read("40 lb/ft3") - 640.74).abs() < 0.01);
        assert_eq!(read("40 lb/ft³"), read("40 pcf"));
        assert_eq!(density("40", Units::Inch).unwrap().value, read("40 pcf"));
        assert_eq!(
            density("40 stone", Units::Metric),
            Err(Unreadable::UnknownUnit("stone".into()))
        );
        assert_eq!(density("-40", Units::Metric), Err(Unreadable::Negative));
        assert_eq!(density("kg/m3", Units::Metric), Err(Unreadable::NoNumber));
    }

    #[test]
    fn stiffness_humidity_and_plain_numbers() {
        assert_eq!(stiffness("12.6").unwrap().value, 12_600.0);
        assert_eq!(stiffness("12600 MPa").unwrap().value, 12_600.0);
        assert!((stiffness("1.83 Mpsi").unwrap().value - 12_617.4).abs() < 0.1);
        assert!((stiffness("1830000 psi").unwrap().value - 12_617.4).abs() < 0.1);
        for text in ["45", "45%", "45 % RH", "45 rh"] {
            assert_eq!(humidity(text).unwrap().value, 45.0, "{text}");
        }
        assert_eq!(percent("4,8 %").unwrap().value, 4.8);
        assert_eq!(plain("0.63").unwrap().value, 0.63);
        assert!(plain("0.63 kg").is_err() && percent("4 %%").is_err());
    }
}
