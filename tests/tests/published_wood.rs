//! What core says of wood, against the published world: every row of `published/wood.csv`, and every
//! cell of the table of equilibrium moisture contents. A row without a source, or for a formula that is
//! not here, fails.

use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{Moisture, celsius, degrees, in_kg_per_m3, in_mm, kg_per_m3, mm};
use stillwood_core::wood::{
    Across, ChangeCoefficient, Humidity, MeterError, Shrinkage, Species, change_by_coefficient,
    change_by_total_shrinkage, coefficient_at_angle, coefficient_from_shrinkage, density_at,
    density_at_12, density_from_gravity, emc, emc_four_parameter, find, gravity_from_basic,
    gravity_from_density, humidity_for_emc, humidity_for_emc_four_parameter, meter_corrected,
    shrinkage_at_angle, shrinkage_from_coefficient, species,
};
use stillwood_tests::{Row, rows};

const WOOD: &str = include_str!("../published/wood.csv");
const EMC_TABLE: &str = include_str!("../published/emc_table.csv");

#[test]
fn every_published_value_comes_out() {
    let rows = rows(WOOD);
    assert!(rows.len() >= 500, "{} rows", rows.len());
    for row in &rows {
        row.check(result_of(row));
    }
}

/// Wood Handbook, FPL-GTR-190 (2010), Table 4-2, read from 30 to 200 °F and 5 to 95 %.
#[test]
fn the_whole_table_of_equilibrium_moistures_comes_out() {
    let mut reader = csv::Reader::from_reader(EMC_TABLE.as_bytes());
    let humidities: Vec<f64> = reader
        .headers()
        .unwrap()
        .iter()
        .skip(1)
        .map(number)
        .collect();
    let mut cells = 0;
    for line in reader.records() {
        let line = line.unwrap();
        let fahrenheit = number(&line[0]);
        let air = celsius((fahrenheit - 32.0) / 1.8);
        for (&humidity, cell) in humidities.iter().zip(line.iter().skip(1)) {
            let found = emc(&mut TraceOff, air, Humidity::percent(humidity))
                .unwrap()
                .in_percent();
            let off = (found - number(cell)).abs();
            assert!(
                off <= 0.06,
                "{fahrenheit} °F, {humidity} %: {found}, not {cell}"
            );
            let back = humidity_for_emc(air, Moisture::percent(found)).unwrap();
            assert!((back.in_percent() - humidity).abs() < 1e-6);
            cells += 1;
        }
    }
    assert_eq!(cells, 342);
}

/// Wood Handbook, Tables 4-3 and 13-5, for every wood that has both: the printed coefficients follow
/// from the printed shrinkages, but for three woods whose rows are those of another.
#[test]
fn coefficients_follow_from_total_shrinkage_in_the_species_table() {
    let borrowed = ["ash-green", "birch-sweet", "maple-black"];
    let (mut held, mut off_by_row) = (0, std::collections::BTreeSet::new());
    for wood in species() {
        for (total, coefficient) in [
            (wood.radial_shrinkage(), wood.radial_coefficient()),
            (wood.tangential_shrinkage(), wood.tangential_coefficient()),
        ] {
            let (Some(total), Some(printed)) = (total, coefficient) else {
                continue;
            };
            let found = coefficient_from_shrinkage(total.value).unwrap();
            let off = found.in_per_percent() - printed.value.in_per_percent();
            if borrowed.contains(&wood.id()) {
                if off.abs() >= 1.1e-5 {
                    off_by_row.insert(wood.id());
                }
                continue;
            }
            assert!(off.abs() < 1.1e-5, "{}: {off}", wood.id());
            held += 1;
        }
    }
    assert!(held > 150, "{held} coefficients");
    // A wood that fits is left out for nothing.
    assert_eq!(off_by_row, borrowed.into());
}

fn result_of(row: &Row) -> f64 {
    let percent = |name| row.number(name, "%");
    let moisture = |name| Moisture::percent(percent(name));
    let shrinkage = |name| Shrinkage::percent(percent(name));
    let coefficient = |name| ChangeCoefficient::per_percent(row.number(name, ""));
    let temperature = |name| celsius(row.number(name, "degC"));
    let gravity = || row.number("G", "");
    let density = || kg_per_m3(row.number("rho", "kg/m3"));
    let size = || mm(row.number("D", "mm"));
    let rings = || degrees(row.number("rings", "deg"));
    let across = || match row.text("across") {
        "width" => Across::Width,
        "thickness" => Across::Thickness,
        other => panic!("{}: across {other}", row.id),
    };
    let humidity = || Humidity::percent(percent("RH"));
    let metered = || {
        meter_corrected(
            &mut TraceOff,
            moisture("shown"),
            temperature("wood"),
            temperature("calibrated"),
        )
    };
    match row.formula.as_str() {
        "emc" => emc(&mut TraceOff, temperature("T"), humidity())
            .unwrap()
            .in_percent(),
        "humidity_for_emc" => humidity_for_emc(temperature("T"), moisture("M"))
            .unwrap()
            .in_percent(),
        "emc_four_parameter" => emc_four_parameter(&mut TraceOff, temperature("T"), humidity())
            .unwrap()
            .in_percent(),
        "humidity_for_emc_four_parameter" => {
            humidity_for_emc_four_parameter(&mut TraceOff, temperature("T"), moisture("M"))
                .unwrap()
                .in_percent()
        }
        "meter_corrected" => metered().unwrap().in_percent(),
        "meter_corrected reaches" => match metered() {
            Ok(_) => 1.0,
            Err(MeterError::OnlyWet { .. } | MeterError::TooDry { .. }) => 0.0,
            Err(other) => panic!("{}: {other}", row.id),
        },
        "gravity_from_basic" => gravity_from_basic(gravity(), moisture("M")).unwrap(),
        "gravity_from_density" => {
            gravity_from_density(&mut TraceOff, density(), moisture("M")).unwrap()
        }
        "density_from_gravity" => {
            in_kg_per_m3(density_from_gravity(gravity(), moisture("M")).unwrap())
        }
        "density_at" => in_kg_per_m3(
            density_at(&mut TraceOff, density(), moisture("from"), moisture("to")).unwrap(),
        ),
        "density_at_12" => in_kg_per_m3(density_at_12(density(), moisture("from")).unwrap()),
        "coefficient_from_shrinkage" => coefficient_from_shrinkage(shrinkage("S"))
            .unwrap()
            .in_per_percent(),
        "shrinkage_from_coefficient" => shrinkage_from_coefficient(coefficient("C"))
            .unwrap()
            .in_percent(),
        "change_by_coefficient" => in_mm(
            change_by_coefficient(
                &mut TraceOff,
                size(),
                coefficient("C"),
                moisture("from"),
                moisture("to"),
            )
            .unwrap(),
        ),
        "change_by_total_shrinkage" => in_mm(
            change_by_total_shrinkage(
                &mut TraceOff,
                size(),
                shrinkage("S"),
                moisture("from"),
                moisture("to"),
            )
            .unwrap(),
        ),
        "shrinkage_at_angle" => {
            shrinkage_at_angle(shrinkage("S_R"), shrinkage("S_T"), rings(), across())
                .unwrap()
                .in_percent()
        }
        "coefficient_at_angle" => {
            coefficient_at_angle(coefficient("C_R"), coefficient("C_T"), rings(), across())
                .unwrap()
                .in_per_percent()
        }
        other => other
            .strip_prefix("species_")
            .zip(find(row.text("species")))
            .and_then(|(what, wood)| known_of(wood, what))
            .unwrap_or_else(|| panic!("{}: no formula {other}, or no such number", row.id)),
    }
}

/// A number of the species table by the name of its getter.
fn known_of(wood: &Species, what: &str) -> Option<f64> {
    let range = wood.usual_density_at_12();
    Some(match what {
        "basic_gravity" => wood.basic_gravity()?.value,
        "gravity_at_12" => wood.gravity_at_12()?.value,
        "density_at_12" => in_kg_per_m3(wood.density_at_12()?.value),
        "usual_density_low" => in_kg_per_m3(range?.low),
        "usual_density_high" => in_kg_per_m3(range?.high),
        "radial_shrinkage" => wood.radial_shrinkage()?.value.in_percent(),
        "tangential_shrinkage" => wood.tangential_shrinkage()?.value.in_percent(),
        "volumetric_shrinkage" => wood.volumetric_shrinkage()?.value.in_percent(),
        "radial_coefficient" => wood.radial_coefficient()?.value.in_per_percent(),
        "tangential_coefficient" => wood.tangential_coefficient()?.value.in_per_percent(),
        "stiffness_at_12" => wood.stiffness_at_12()?.value.value / 1e6,
        _ => return None,
    })
}

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}
