//! Scores, uncertainty, conformance, units, marks and ids, held against published values.

use std::collections::BTreeMap;
use stillwood_core::plank::density_of;
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::{
    Estimate, GUARD_FACTOR, Input, Length, Mass, in_kg_per_m3, in_m3, kg, kg_per_m3, mm,
    normal_cdf, propagate, show,
};
use stillwood_core::record::Id;
use stillwood_core::record::Mark;
use stillwood_core::verdict::{Form, geometric_mean};
use stillwood_tests::{Row, rows};
use uom::si::{length, mass, mass_density, thermodynamic_temperature as temperature};

/// What the formula named in the row gives for the row's inputs.
fn compute(row: &Row) -> f64 {
    let number = |name| row.number(name, "");
    let text = || row.text("text");
    match row.formula.as_str() {
        "Form::desirability at_least" => Form::AtLeast {
            target: number("target"),
            limit: number("limit"),
        }
        .desirability(&mut TraceOff, "", number("value")),
        "Form::desirability at_most" => Form::AtMost {
            target: number("target"),
            limit: number("limit"),
        }
        .desirability(&mut TraceOff, "", number("value")),
        "Form::desirability within" => target_form(number("low"), number("target"), number("high"))
            .desirability(&mut TraceOff, "", number("value")),
        "geometric_mean" => {
            let each: Vec<f64> = row
                .text("d")
                .split(' ')
                .map(|d| d.parse().unwrap())
                .collect();
            geometric_mean(each).unwrap()
        }
        "geometric_mean reaction" => {
            let conversion = Form::AtLeast {
                target: 97.0,
                limit: 80.0,
            };
            let activity = target_form(55.0, 57.5, 60.0);
            geometric_mean([
                conversion.desirability(&mut TraceOff, "", number("conversion")),
                activity.desirability(&mut TraceOff, "", number("activity")),
            ])
            .unwrap()
        }
        "propagate" => propagated(row.text("model"), row.text("of")),
        "Form::conformance at_most" => Form::AtMost {
            target: number("limit"),
            limit: number("limit"),
        }
        .conformance(number("value"), number("u")),
        "Form::conformance at_least" => Form::AtLeast {
            target: number("limit"),
            limit: number("limit"),
        }
        .conformance(number("value"), number("u")),
        "Form::conformance within" => {
            let (low, high) = (number("low"), number("high"));
            target_form(low, (low + high) / 2.0, high).conformance(number("value"), number("u"))
        }
        "GUARD_FACTOR" => GUARD_FACTOR,
        "normal_cdf" => normal_cdf(number("z")),
        "read_length" => read_mm(text()),
        "read_mass" => read::mass(text(), Units::Metric).unwrap().value,
        "read_temperature" => read::temperature(text(), Units::Metric).unwrap().value,
        "read_volume" => in_m3(side(row, "length") * side(row, "width") * side(row, "thickness")),
        "density_of" => {
            let mass = read::mass(row.text("mass"), Units::Metric).unwrap().value;
            let volume = side(row, "length") * side(row, "width") * side(row, "thickness");
            in_kg_per_m3(density_of(kg(mass), volume).unwrap())
        }
        "show_density" => {
            let shown = show::density(row.number("rho", "kg/m3"), Units::Inch);
            shown.strip_suffix(" lb/ft³").unwrap().parse().unwrap()
        }
        "mark_check" => check_values(row.text("device"), number("number") as u32)[0] as f64,
        "mark_given_out" => check_values(row.text("device"), number("number") as u32).len() as f64,
        "uuid_v7_is" => {
            let made = Id::version_7(number("ms") as u64, &bytes(row.text("random"))).to_string();
            f64::from(u8::from(made == row.text("id")))
        }
        "uuid_v7_ms" => {
            let id: stillwood_core::record::Id = row.text("id").parse().unwrap();
            (id.as_u128() >> 80) as f64
        }
        "uuid_v7_version" => {
            Id::version_7(number("ms") as u64, &bytes(row.text("random"))).version_number() as f64
        }
        other => panic!("row {} names {other}, which is not checked here", row.id),
    }
}

fn target_form(low: f64, target: f64, high: f64) -> Form {
    Form::Within {
        low_limit: low,
        low_target: target,
        high_target: target,
        high_limit: high,
    }
}

fn read_mm(text: &str) -> f64 {
    read::length(text, Units::Metric).unwrap().value
}

fn side(row: &Row, name: &str) -> Length {
    mm(read_mm(row.text(name)))
}

fn bytes(hex: &str) -> [u8; 10] {
    std::array::from_fn(|at| u8::from_str_radix(&hex[2 * at..2 * at + 2], 16).unwrap())
}

/// The values of the check characters with which a mark is accepted: one, or none where it is not
/// given out.
fn check_values(device: &str, number: u32) -> Vec<usize> {
    "0123456789ABCDEFGHJKLMNPQRSTUVWXYZ"
        .chars()
        .filter(|check| Mark::parse(&format!("{device}-{number}-{check}")).is_ok())
        .map(|check| check.to_digit(36).unwrap() as usize)
        .collect()
}

/// One of the worked examples: its value, its standard uncertainty, or what one source adds.
fn propagated(model: &str, of: &str) -> f64 {
    let found = match model {
        "cadmium" => with_inputs(
            &[
                ("m", 100.28, 0.05),
                ("P", 0.9999, 0.0001 / 3.0_f64.sqrt()),
                ("V_flask", 100.0, 0.1 / 6.0_f64.sqrt()),
                ("V_rep", 0.0, 0.02),
                ("V_T", 0.0, 0.084 / 3.0_f64.sqrt()),
            ],
            |x| 1000.0 * x["m"] * x["P"] / (x["V_flask"] + x["V_rep"] + x["V_T"]),
        ),
        "cadmium volume whole" => {
            let (flask, warmth) = (0.1 / 6.0_f64.sqrt(), 0.084 / 3.0_f64.sqrt());
            let volume = (flask * flask + 0.02 * 0.02 + warmth * warmth).sqrt();
            with_inputs(
                &[
                    ("m", 100.28, 0.05),
                    ("P", 0.9999, 0.0001 / 3.0_f64.sqrt()),
                    ("V", 100.0, volume),
                ],
                |x| 1000.0 * x["m"] * x["P"] / x["V"],
            )
        }
        "end gauge" => with_inputs(
            &[
                ("l_s", 5.000_062_3e7, 25.0),
                ("d0", 215.0, 5.8),
                ("d1", 0.0, 3.9),
                ("d2", 0.0, 6.7),
                ("alpha_s", 11.5e-6, 2e-6 / 3.0_f64.sqrt()),
                ("d_alpha", 0.0, 1e-6 / 3.0_f64.sqrt()),
                ("d_theta", 0.0, 0.05 / 3.0_f64.sqrt()),
                ("theta_bar", -0.1, 0.2),
                ("Delta", 0.0, 0.5 / 2.0_f64.sqrt()),
            ],
            |x| {
                let theta = x["theta_bar"] + x["Delta"];
                let warmth = x["d_alpha"] * theta + x["alpha_s"] * x["d_theta"];
                x["l_s"] + x["d0"] + x["d1"] + x["d2"] - x["l_s"] * warmth
            },
        ),
        "impedance R" => impedance(|v, i, phi| v / i * libm::cos(phi)),
        "impedance X" => impedance(|v, i, phi| v / i * libm::sin(phi)),
        "impedance Z" => impedance(|v, i, _| v / i),
        other => panic!("no model {other}"),
    };
    match of {
        "value" => found.value,
        "u" => found.standard,
        part => found
            .parts
            .iter()
            .find(|(source, _)| *source == part)
            .map_or(0.0, |(_, part)| part.abs()),
    }
}

type Named<'a> = BTreeMap<&'a str, f64>;

fn with_inputs<'a>(
    table: &[(&'a str, f64, f64)],
    model: impl Fn(&Named<'a>) -> f64,
) -> Estimate<f64, &'a str> {
    let inputs: Vec<Input<&str>> = table
        .iter()
        .map(|&(source, _, standard)| Input { source, standard })
        .collect();
    propagate(&inputs, |nudge| {
        let moved = |name: &str| nudge.filter(|(of, _)| *of == name).map_or(0.0, |n| n.1);
        let at: Named<'a> = table
            .iter()
            .map(|&(name, value, _)| (name, value + moved(name)))
            .collect();
        Some(model(&at))
    })
    .unwrap()
}

/// JCGM 100:2008, H.2. Inputs that are correlated are sums of independent factors, each a source of its
/// own that moves several inputs together: the rows of a lower triangle whose square is the matrix of
/// correlations.
fn impedance(model: impl Fn(f64, f64, f64) -> f64) -> Estimate<f64, &'static str> {
    let (r_vi, r_vp, r_ip) = (-0.36, 0.86, -0.65);
    let l22 = (1.0_f64 - r_vi * r_vi).sqrt();
    let l32 = (r_ip - r_vp * r_vi) / l22;
    let l33 = (1.0_f64 - r_vp * r_vp - l32 * l32).sqrt();
    with_inputs(
        &[
            ("first", 0.0, 1.0),
            ("second", 0.0, 1.0),
            ("third", 0.0, 1.0),
        ],
        |f| {
            let (a, b, c) = (f["first"], f["second"], f["third"]);
            let v = 4.999 + 3.2e-3 * a;
            let i = 19.661e-3 + 9.5e-6 * (r_vi * a + l22 * b);
            let phi = 1.04446 + 7.5e-4 * (r_vp * a + l32 * b + l33 * c);
            model(v, i, phi)
        },
    )
}

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/verdict.csv"));
    assert!(rows.len() >= 90);
    for row in &rows {
        row.check(compute(row));
    }
}

/// What is typed in other units, by a second way: the `uom` crate's own factors.
#[test]
fn what_is_typed_agrees_with_a_library_of_units() {
    let near = |a: f64, b: f64| (a - b).abs() <= 1e-12 * a.abs().max(b.abs()).max(1e-3);
    for tenths in (1..4000).step_by(7) {
        let x = f64::from(tenths) / 10.0;
        let lengths = [
            ("in", Length::new::<length::inch>(x)),
            ("ft", Length::new::<length::foot>(x)),
            ("cm", Length::new::<length::centimeter>(x)),
            ("m", Length::new::<length::meter>(x)),
        ];
        for (unit, second) in lengths {
            let first = read_mm(&format!("{x} {unit}"));
            assert!(
                near(first, second.get::<length::millimeter>()),
                "{x} {unit}"
            );
        }
        // The library's pound and ounce are rounded to seven figures.
        let rounded = |a: f64, b: f64| (a - b).abs() <= 2e-7 * b;
        let masses = [
            ("lb", Mass::new::<mass::pound>(x)),
            ("oz", Mass::new::<mass::ounce>(x)),
            ("g", Mass::new::<mass::gram>(x)),
        ];
        for (unit, second) in masses {
            let first = read::mass(&format!("{x} {unit}"), Units::Metric).unwrap();
            assert!(
                rounded(first.value, second.get::<mass::kilogram>()),
                "{x} {unit}"
            );
        }
        let first = read::temperature(&format!("{x} F"), Units::Metric).unwrap();
        let second =
            uom::si::f64::ThermodynamicTemperature::new::<temperature::degree_fahrenheit>(x);
        let off = first.value - second.get::<temperature::degree_celsius>();
        assert!(off.abs() < 1e-9, "{x} F: {off}");
        let density = kg_per_m3(x);
        let shown = show::density(in_kg_per_m3(density), Units::Inch);
        let second = density.get::<mass_density::pound_per_cubic_foot>();
        let shown: f64 = shown.strip_suffix(" lb/ft³").unwrap().parse().unwrap();
        assert!((shown - second).abs() < 0.0501, "{x} kg/m3");
    }
}
