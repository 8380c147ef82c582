//! Showing quantities: with their unit, to the digits that a tape, scale or meter can tell.
//!
//! A single value that is shown can be read again by [`super::read`] as the same value, to the step that is shown. Not
//! so `straight`, the three sizes of [`sizes`], and a value with its ± or its range.

use super::read::Units;
use super::{GRAMS_PER_POUND, MM_PER_INCH};

/// A number with at most `places` decimals, without trailing zeros.
pub fn number(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".into()
    } else {
        text.replace('-', "−")
    }
}

/// A length in mm: `2620 mm`, `47.3 mm`; in inches `103 1/8 in`, to the 64th.
pub fn length(mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} mm", number(mm, 1)),
        Units::Inch => format!("{} in", whole_and_fraction(mm / MM_PER_INCH, 64)),
    }
}

/// A small gap in mm as feelers tell it: `0.15 mm`; in inches `0.006 in`, to the thousandth.
pub fn gap(mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} mm", number(mm, 2)),
        Units::Inch => format!("{} in", number(mm / MM_PER_INCH, 3)),
    }
}

/// A small gap with its ±: `0.20 ± 0.16 mm`, `0.008 ± 0.006 in`.
pub fn gap_within(mm: f64, expanded_mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} mm", give_or_take(mm, expanded_mm, 2)),
        Units::Inch => {
            let text = give_or_take(mm / MM_PER_INCH, expanded_mm / MM_PER_INCH, 3);
            format!("{text} in")
        }
    }
}

/// A share as whole per cent, the number alone: `85`.
pub fn whole_percent(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}

/// Whether a value, as the whole number that is shown of it, is at least what is asked for.
pub fn reaches_as_whole(value: f64, least: f64) -> bool {
    value.round() >= least
}

/// A gap without its sign: where words say which way it goes.
pub fn gap_either_way(mm: f64, units: Units) -> String {
    gap(mm.abs(), units)
}

/// Length, width and thickness in one: `2620 × 204 × 52 mm`; what was not measured is a question mark.
pub fn sizes(mm: [Option<f64>; 3], units: Units) -> String {
    let one = |mm: Option<f64>| match (mm, units) {
        (None, _) => "?".to_owned(),
        (Some(mm), Units::Metric) => number(mm, 1),
        (Some(mm), Units::Inch) => whole_and_fraction(mm / MM_PER_INCH, 16),
    };
    let unit = match units {
        Units::Metric => "mm",
        Units::Inch => "in",
    };
    format!("{} {unit}", mm.map(one).join(" × "))
}

/// A length along a plank: metres from 1 m, feet and inches from 2 ft, to the 16th.
pub fn long_length(mm: f64, units: Units) -> String {
    match units {
        Units::Metric if mm.abs() >= 1000.0 => format!("{} m", number(mm / 1000.0, 3)),
        Units::Inch if mm.abs() >= 24.0 * MM_PER_INCH => {
            let sixteenths = (mm.abs() / MM_PER_INCH * 16.0).round();
            let feet = (sixteenths / 192.0).floor();
            let inches = (sixteenths - feet * 192.0) / 16.0;
            let sign = if mm < 0.0 { "−" } else { "" };
            format!("{sign}{feet:.0}′ {}″", whole_and_fraction(inches, 16))
        }
        _ => length(mm, units),
    }
}

/// Inches as a whole and a fraction in lowest terms.
fn whole_and_fraction(inches: f64, parts: u32) -> String {
    let sign = if inches < 0.0 { "−" } else { "" };
    let all = (inches.abs() * f64::from(parts)).round();
    let whole = (all / f64::from(parts)).floor();
    let mut over = (all - whole * f64::from(parts)) as u32;
    let mut under = parts;
    if over == 0 {
        return format!("{sign}{whole:.0}");
    }
    while over.is_multiple_of(2) {
        over /= 2;
        under /= 2;
    }
    if whole == 0.0 {
        format!("{sign}{over}/{under}")
    } else {
        format!("{sign}{whole:.0} {over}/{under}")
    }
}

/// A mass in kg: `19.7 kg`, under 1 kg in grams; in pounds `43.4 lb`.
pub fn mass(kg: f64, units: Units) -> String {
    match units {
        Units::Metric if kg.abs() < 1.0 => format!("{} g", number(kg * 1000.0, 0)),
        Units::Metric => format!("{} kg", number(kg, 2)),
        Units::Inch => format!("{} lb", number(kg * 1000.0 / GRAMS_PER_POUND, 2)),
    }
}

/// An area: `0.17 m²`, or `1.9 ft²`.
pub fn area(mm2: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} m²", number(mm2 / 1e6, 2)),
        Units::Inch => {
            let foot = 12.0 * MM_PER_INCH;
            format!("{} ft²", number(mm2 / (foot * foot), 1))
        }
    }
}

/// A density: `709 kg/m³`, or `44.3 lb/ft³`.
pub fn density(kg_per_m3: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} kg/m³", number(kg_per_m3, 0)),
        Units::Inch => {
            format!("{} lb/ft³", number(per_cubic_foot(kg_per_m3), 1))
        }
    }
}

/// A moisture content: `11.6 %`.
pub fn moisture(percent: f64) -> String {
    format!("{} %", number(percent, 1))
}

/// A temperature: `8 °C`, `46 °F`.
pub fn temperature(celsius: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} °C", number(celsius, 1)),
        Units::Inch => format!("{} °F", number(celsius * 9.0 / 5.0 + 32.0, 1)),
    }
}

/// A slope of grain: `1:15.6`; flatter than 1:500 is `straight`.
pub fn slope(tangent: f64) -> String {
    if tangent.abs() < 0.002 {
        "straight".into()
    } else {
        format!("1:{}", number(1.0 / tangent.abs(), 1))
    }
}

/// A slope of grain with the range of its 95 % interval: `1:15.6 (1:14.1 to 1:17.4)`.
pub fn slope_within(tangent: f64, expanded: f64) -> String {
    if expanded <= 0.0 || !expanded.is_finite() || tangent.abs() < 0.002 {
        return slope(tangent);
    }
    let steep = slope(tangent.abs() + expanded);
    let flat = slope((tangent.abs() - expanded).max(0.0));
    format!("{} ({steep} to {flat})", slope(tangent))
}

/// An angle: `64°`.
pub fn angle(degrees: f64) -> String {
    format!("{}°", number(degrees, 0))
}

/// A value with the half-width of its 95 % interval, both to the digits that the interval can tell:
/// `709 ± 22`, `11.6 ± 1.2`. Without an uncertainty the value alone, to `places`.
pub fn give_or_take(value: f64, expanded: f64, places: usize) -> String {
    if expanded <= 0.0 || !expanded.is_finite() {
        return number(value, places);
    }
    let mut decimals = 0;
    let mut scaled = expanded;
    while scaled < 9.5 && decimals < places {
        scaled *= 10.0;
        decimals += 1;
    }
    format!("{value:.decimals$} ± {expanded:.decimals$}").replace('-', "−")
}

/// A length with its ±: `47.3 ± 1.2 mm`, `1.86 ± 0.05 in`.
pub fn length_within(mm: f64, expanded_mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} mm", give_or_take(mm, expanded_mm, 1)),
        Units::Inch => {
            let text = give_or_take(mm / MM_PER_INCH, expanded_mm / MM_PER_INCH, 3);
            format!("{text} in")
        }
    }
}

/// The step to which [`length_within`] shows a length that is sure, mm.
pub fn length_step(units: Units) -> f64 {
    match units {
        Units::Metric => 0.1,
        Units::Inch => 0.001 * MM_PER_INCH,
    }
}

/// The step to which [`density_within`] shows a density that is sure, kg/m³.
pub fn density_step(units: Units) -> f64 {
    match units {
        Units::Metric => 1.0,
        Units::Inch => 0.1 / per_cubic_foot(1.0),
    }
}

/// A mass with its ±: `19.70 ± 0.23 kg`, `43.4 ± 0.5 lb`.
pub fn mass_within(kg: f64, expanded_kg: f64, units: Units) -> String {
    let pounds = |kg: f64| kg * 1000.0 / GRAMS_PER_POUND;
    match units {
        Units::Metric => format!("{} kg", give_or_take(kg, expanded_kg, 2)),
        Units::Inch => format!("{} lb", give_or_take(pounds(kg), pounds(expanded_kg), 2)),
    }
}

/// A density with its ±: `709 ± 22 kg/m³`, `44.3 ± 1.4 lb/ft³`.
pub fn density_within(kg_per_m3: f64, expanded: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} kg/m³", give_or_take(kg_per_m3, expanded, 0)),
        Units::Inch => {
            let text = give_or_take(per_cubic_foot(kg_per_m3), per_cubic_foot(expanded), 1);
            format!("{text} lb/ft³")
        }
    }
}

/// Kilograms per cubic metre in pounds per cubic foot.
fn per_cubic_foot(kg_per_m3: f64) -> f64 {
    let foot_m = 12.0 * MM_PER_INCH / 1000.0;
    kg_per_m3 * foot_m * foot_m * foot_m * 1000.0 / GRAMS_PER_POUND
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lengths_change_their_unit_where_a_tape_does() {
        assert_eq!(long_length(999.0, Units::Metric), "999 mm");
        assert_eq!(long_length(1000.0, Units::Metric), "1 m");
        assert_eq!(long_length(-2400.0, Units::Metric), "−2.4 m");
        assert_eq!(long_length(24.0 * 25.4, Units::Inch), "2′ 0″");
        assert_eq!(long_length(23.5 * 25.4, Units::Inch), "23 1/2 in");
    }

    #[test]
    fn a_length_is_as_fine_as_its_doubt() {
        assert_eq!(length_within(47.3, 1.2, Units::Metric), "47.3 ± 1.2 mm");
        assert_eq!(length_within(47.3, 12.0, Units::Metric), "47 ± 12 mm");
        // 47.244 mm is 1.86 in, 1.27 mm 0.05 in; never finer than the places of the unit.
        assert_eq!(length_within(47.244, 1.27, Units::Inch), "1.860 ± 0.050 in");
        assert_eq!(
            length_within(47.244, 0.0127, Units::Inch),
            "1.860 ± 0.001 in"
        );
    }

    #[test]
    fn a_feeler_is_not_rounded_away() {
        assert_eq!(gap(0.15, Units::Metric), "0.15 mm");
        assert_eq!(gap(-0.15, Units::Inch), "−0.006 in");
    }

    #[test]
    fn sizes_share_their_unit() {
        let plank = [Some(2620.0), Some(203.2), None];
        assert_eq!(sizes(plank, Units::Metric), "2620 × 203.2 × ? mm");
        assert_eq!(sizes(plank, Units::Inch), "103 1/8 × 8 × ? in");
    }
}
