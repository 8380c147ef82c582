//! Stiffness, sound, slope of grain, oven-dry mass and cup against published values: every row of
//! `published/stiffness.csv`. A row without a source, or for a formula that is not here, fails.

use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{
    Slope, gpa, hz, in_gpa, in_metres_per_second, in_mm, kg, kg_per_m3, metres_per_second, mm,
};
use stillwood_core::wood::{
    FreeChange, LineInLog, cupping, find, moisture_from_ovendry, sound_along, species,
    specific_stiffness, speed_of_sound, stiffness_from_sound, strength_tested,
};
use stillwood_tests::{Row, rows};

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/stiffness.csv"));
    assert!(rows.iter().filter(|row| row.read).count() >= 16);
    for row in &rows {
        row.check(result_of(row));
    }
}

/// In air-dry wood, along the grain: 3000 to 6000 m/s (Gerhards as quoted by Han, Wu and Wang; read).
#[test]
fn sound_in_every_wood_of_the_table_is_as_fast_as_published() {
    let speeds: Vec<(&str, f64)> = species()
        .iter()
        .filter_map(|wood| {
            let speed = wood.speed_of_sound_at_12()?;
            Some((wood.id(), in_metres_per_second(speed)))
        })
        .collect();
    assert!(speeds.len() > 60, "{} woods", speeds.len());
    for (wood, speed) in speeds {
        assert!((3000.0..6000.0).contains(&speed), "{wood}: {speed} m/s");
    }
    let maple = find("maple-sugar").unwrap();
    let stiffness = maple.stiffness_at_12().unwrap().value;
    let density = maple.density_at_12().unwrap().value;
    let maple = specific_stiffness(&mut TraceOff, stiffness, density);
    assert!((maple.unwrap().in_mn_m_per_kg() - 17.86).abs() < 0.01);
    assert!(
        find("ebony-ceylon")
            .unwrap()
            .speed_of_sound_at_12()
            .is_none()
    );
}

fn result_of(row: &Row) -> f64 {
    let n = |name| row.input(name);
    let length = |name| mm(row.number(name, "mm"));
    let mass = |name| kg(row.number(name, "kg"));
    let density = || kg_per_m3(row.number("rho", "kg/m3"));
    let slope = || Slope::one_in(n("run"));
    let cup = || {
        let line = LineInLog {
            width: length("w"),
            pith_depth: length("depth"),
            pith_offset: length("offset"),
        };
        let change = FreeChange {
            radial: n("radial"),
            tangential: n("tangential"),
        };
        cupping(&line, change).unwrap()
    };
    match row.formula.as_str() {
        "stiffness_from_sound" => {
            let speed = metres_per_second(row.number("V", "m/s"));
            in_gpa(stiffness_from_sound(&mut TraceOff, speed, density()).unwrap())
        }
        "speed_of_sound" => {
            let stiffness = gpa(row.number("E", "GPa"));
            in_metres_per_second(speed_of_sound(stiffness, density()).unwrap())
        }
        "strength_tested" => 100.0 * strength_tested(&mut TraceOff, slope()).unwrap(),
        "sound_along" => in_metres_per_second(
            sound_along(&mut TraceOff, length("L"), hz(row.number("f", "Hz"))).unwrap(),
        ),
        "moisture_from_ovendry" => moisture_from_ovendry(&mut TraceOff, mass("wet"), mass("dry"))
            .unwrap()
            .in_percent(),
        "cupping gap" => in_mm(cup().gap),
        "cupping width" => in_mm(cup().width),
        other => panic!("{}: no formula {other}", row.id),
    }
}
