//! Reading what a hand types: units mixed freely, decimal comma as well as point, fractions of an
//! inch, feet and inches.
//!
//! A reader returns what was understood, or why it could not be; it never guesses between two
//! meanings in silence. Whether a value makes sense for a plank is not asked here.

pub use super::amount::{NotAnAmount, amount, under_a_thousand};
pub use super::of_wood::{density, humidity, percent, plain, stiffness};
pub use super::understood::{UnderstoodNumber, Units, Unreadable};

use super::number::{finish, float, number_and_word, sign, tokens};
use super::{GRAMS_PER_POUND, MM_PER_INCH};
use rust_decimal::Decimal;

/// The run over which a bare slope is a rise, mm: 300 mm, or 12 in.
pub fn slope_run_mm(units: Units) -> f64 {
    match units {
        Units::Metric => 300.0,
        Units::Inch => 12.0 * MM_PER_INCH,
    }
}

fn is_inch(unit: &str) -> bool {
    matches!(unit, "\"" | "in" | "ins" | "inch" | "inches")
}

fn is_foot(unit: &str) -> bool {
    matches!(unit, "'" | "ft" | "foot" | "feet")
}

/// Millimetres in one of a unit, and how the unit is written.
fn length_unit(unit: &str) -> Result<(Decimal, &'static str), Unreadable> {
    let mm_per_inch = Decimal::new(254, 1);
    Ok(match unit {
        "mm" => (Decimal::ONE, "mm"),
        "cm" => (Decimal::TEN, "cm"),
        "m" => (Decimal::ONE_THOUSAND, "m"),
        u if is_inch(u) => (mm_per_inch, "in"),
        u if is_foot(u) => (mm_per_inch * Decimal::from(12), "ft"),
        other => return Err(Unreadable::UnknownUnit(other.to_owned())),
    })
}

/// A length, in mm: `2.4 m`, `2400`, `94 1/2"`, `7'10 1/2"`, `8/4`, `52mm`.
///
/// A bare number is in `units`; a bare fraction is in inches whatever the units, and `8/4` is two
/// inches by the trade's quarters. No sign.
pub fn length(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let understood = gap(typed, units)?;
    if understood.signed && understood.value < 0.0 {
        Err(Unreadable::Negative)
    } else {
        Ok(understood)
    }
}

/// A gap under a straightedge, in mm: as [`length()`], with a plus or minus if the side was noted.
pub fn gap(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let mut rest = tokens(typed)?;
    let minus = sign(&mut rest);
    let (value, fraction, unit) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
    let (mm, mut name) = match unit.as_deref() {
        Some(u) => {
            let (factor, name) = length_unit(u)?;
            (times(value, factor)?, name)
        }
        None => match (fraction, units) {
            (Some((over, 4)), _)
                if over >= 4 && value * Decimal::from(4) == Decimal::from(over) =>
            {
                (times(value, Decimal::new(254, 1))?, "/4")
            }
            (Some(_), _) | (None, Units::Inch) => (times(value, Decimal::new(254, 1))?, "in"),
            (None, Units::Metric) => (value, "mm"),
        },
    };
    let mut total = mm;
    if name == "ft"
        && let Some((inches, _, inch_unit)) = number_and_word(&mut rest)
    {
        if let Some(other) = inch_unit.as_deref().filter(|u| !is_inch(u)) {
            return Err(Unreadable::UnknownUnit(other.to_owned()));
        }
        if inches >= Decimal::from(12) {
            return Err(Unreadable::TooManyInches);
        }
        total += times(inches, Decimal::new(254, 1))?;
        name = "ft in";
    }
    let value = float(if minus == Some(true) { -total } else { total });
    finish(
        &rest,
        UnderstoodNumber {
            value,
            unit: name,
            signed: minus.is_some(),
        },
    )
}

/// What is typed before a hand or a side, and whether that is the left one: `left`, `links`, `L`, `right`, `rechts`,
/// `R`. `None` where there is none.
pub(crate) fn before_side(typed: &str) -> Option<(String, bool)> {
    const SIDES: [(&str, bool); 6] = [
        ("left", true),
        ("links", true),
        ("l", true),
        ("right", false),
        ("rechts", false),
        ("r", false),
    ];
    let lower = typed.trim_end().to_lowercase();
    let mut sides = SIDES.iter();
    sides.find_map(|(side, left)| Some((lower.strip_suffix(side)?.to_owned(), *left)))
}

/// A gap with its hand or a distance with its side, in mm: `12 L`, `12 left`, `12 links`, `-12` for left and `+12`
/// or `12 R` for right.
pub fn sided(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let Some((front, left)) = before_side(typed) else {
        return gap(typed, units);
    };
    let plain = length(&front, units)?;
    let value = if left { -plain.value } else { plain.value };
    Ok(UnderstoodNumber {
        value,
        signed: true,
        ..plain
    })
}

/// A mass, in kg: `13.2 kg`, `29 lb 2 oz`, `4500 g`.
pub fn mass(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let mut rest = tokens(typed)?;
    let minus = sign(&mut rest);
    if minus == Some(true) {
        return Err(Unreadable::Negative);
    }
    let (value, _, unit) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
    let pound = kilograms_per_pound();
    let (factor, mut name) = match unit.as_deref() {
        Some("kg" | "kgs" | "kilo" | "kilos") => (Decimal::ONE, "kg"),
        Some("g") => (Decimal::new(1, 3), "g"),
        Some("lb" | "lbs" | "pound" | "pounds") => (pound, "lb"),
        Some("oz") => (pound / Decimal::from(16), "oz"),
        Some(other) => return Err(Unreadable::UnknownUnit(other.to_owned())),
        None if units == Units::Inch => (pound, "lb"),
        None => (Decimal::ONE, "kg"),
    };
    let mut total = times(value, factor)?;
    // Ounces follow only where pounds were named: a bare "29 2" may as well be 29.2.
    if unit.is_some()
        && name == "lb"
        && let Some((ounces, _, ounce_unit)) = number_and_word(&mut rest)
    {
        if let Some(other) = ounce_unit.as_deref().filter(|u| *u != "oz") {
            return Err(Unreadable::UnknownUnit(other.to_owned()));
        }
        if ounces >= Decimal::from(16) {
            return Err(Unreadable::TooManyOunces);
        }
        total += times(ounces, pound / Decimal::from(16))?;
        name = "lb oz";
    }
    finish(
        &rest,
        UnderstoodNumber {
            value: float(total),
            unit: name,
            signed: minus.is_some(),
        },
    )
}

/// A moisture content, in percent: `10.5`, `10,5 %`.
pub fn moisture(typed: &str) -> Result<UnderstoodNumber, Unreadable> {
    one_unit(typed, &["%"], "%")
}

/// An angle, in degrees: `64`, `64°`, `64 deg`.
pub fn angle(typed: &str) -> Result<UnderstoodNumber, Unreadable> {
    one_unit(typed, &["°", "deg", "degree", "degrees"], "deg")
}

fn one_unit(
    typed: &str,
    spellings: &[&str],
    name: &'static str,
) -> Result<UnderstoodNumber, Unreadable> {
    let mut rest = tokens(typed)?;
    let minus = sign(&mut rest);
    if minus == Some(true) {
        return Err(Unreadable::Negative);
    }
    let (value, _, unit) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
    if let Some(other) = unit.filter(|u| !spellings.contains(&u.as_str())) {
        return Err(Unreadable::UnknownUnit(other));
    }
    finish(
        &rest,
        UnderstoodNumber {
            value: float(value),
            unit: name,
            signed: minus.is_some(),
        },
    )
}

/// A temperature, in degrees Celsius: `8`, `-3 C`, `46 °F`. A degree sign alone is as bare as a number: it is in
/// `units`.
pub fn temperature(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let mut rest = tokens(typed)?;
    let minus = sign(&mut rest);
    let (value, _, unit) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
    let value = if minus == Some(true) { -value } else { value };
    let fahrenheit = match unit.as_deref() {
        Some("c") => false,
        Some("f") => true,
        None | Some("°") => units == Units::Inch,
        Some(other) => return Err(Unreadable::UnknownUnit(other.to_owned())),
    };
    let (celsius, name) = if fahrenheit {
        (
            (value - Decimal::from(32)) * Decimal::from(5) / Decimal::from(9),
            "degF",
        )
    } else {
        (value, "degC")
    };
    finish(
        &rest,
        UnderstoodNumber {
            value: float(celsius),
            unit: name,
            signed: minus.is_some(),
        },
    )
}

/// A slope of grain, as a tangent: `12/300`, `12 in 300`, `1:25`, `2.3°`, `4 %`; a bare number is a
/// rise over [`slope_run_mm`], and `12/300 mm` is 12 mm in 300 mm. A fraction of an inch is no slope where inches are
/// set or a unit follows: `1/2` may be 1 in 2, or half an inch in a run that was not typed.
pub fn slope(typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
    let mut rest = tokens(typed)?;
    let minus = sign(&mut rest);
    if minus == Some(true) {
        return Err(Unreadable::Negative);
    }
    let (first, fraction, between) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
    // "12/300" was joined to one number with its fraction; a unit may stand behind it.
    let is_length = |unit: &str| length_unit(unit).is_ok();
    let ends = rest.is_empty() && between.as_deref().is_none_or(is_length);
    if let Some((over, under)) = fraction
        && ends
        && (over >= under || first < Decimal::ONE)
    {
        if over >= under {
            return Err(Unreadable::OddFraction);
        }
        let may_be_a_rise = units == Units::Inch || between.is_some();
        if may_be_a_rise && matches!(under, 2 | 4 | 8 | 16 | 32 | 64) {
            return Err(Unreadable::FractionOrSlope(over, under));
        }
        return Ok(UnderstoodNumber {
            value: float(first),
            unit: "in",
            signed: minus.is_some(),
        });
    }
    let over = |run: Decimal| {
        let ratio = first.checked_div(run).ok_or(Unreadable::DividedByZero)?;
        Ok(float(ratio))
    };
    let (value, unit) = match between.as_deref() {
        None => (over(own_run(units))?, over_own_run(units)),
        Some("%") => (float(first) / 100.0, "%"),
        Some("°" | "deg" | "degree" | "degrees") => (libm::tan(float(first).to_radians()), "deg"),
        Some("in" | "on" | ":" | "over") => {
            let (run, _, unit) = number_and_word(&mut rest).ok_or(Unreadable::NoNumber)?;
            // A unit of the run may stand there; a word that is none was never meant.
            unit.as_deref().map(length_unit).transpose()?;
            (over(run)?, "in")
        }
        Some("mm") if rest.is_empty() => {
            let metric = Units::Metric;
            (over(own_run(metric))?, over_own_run(metric))
        }
        Some(other) => return Err(Unreadable::UnknownUnit(other.to_owned())),
    };
    finish(
        &rest,
        UnderstoodNumber {
            value,
            unit,
            signed: minus.is_some(),
        },
    )
}

/// The run of a bare slope in the unit of its rise: see [`slope_run_mm`].
fn own_run(units: Units) -> Decimal {
    match units {
        Units::Metric => Decimal::from(300),
        Units::Inch => Decimal::from(12),
    }
}

fn over_own_run(units: Units) -> &'static str {
    match units {
        Units::Metric => "in 300",
        Units::Inch => "in 12",
    }
}

fn kilograms_per_pound() -> Decimal {
    // 0.45359237 kg, exact.
    let grams = Decimal::new(45_359_237, 5);
    debug_assert!((float(grams) - GRAMS_PER_POUND).abs() < 1e-9);
    grams / Decimal::ONE_THOUSAND
}

fn times(a: Decimal, b: Decimal) -> Result<Decimal, Unreadable> {
    a.checked_mul(b).ok_or(Unreadable::TooManyDigits)
}
