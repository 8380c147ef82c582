//! Stiffness, sound, slope of grain, oven-dry mass and cup against published values: every row of
//! `published/stiffness.csv`. A row without a source, or for a formula that is not here, fails.

use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{
    Moisture, Slope, gpa, hz, in_gpa, in_kg, in_metres_per_second, in_mm, kg, kg_per_m3,
    metres_per_second, mm, newtons,
};
use stillwood_core::wood::{
    Bar, Decrement, FreeChange, LineInLog, NODE_SHARE, Strength, cupping, decrement_from_decay,
    find, isotropic_correction, loss_tangent, mass_at, moisture_from_ovendry, property_at_moisture,
    shear_correction, sound_along, species, specific_stiffness, speed_of_sound, stiffness_by_rule,
    stiffness_from_bending, stiffness_from_flexural, stiffness_from_sound, stiffness_on_the_slope,
    strength_on_the_slope, strength_tested,
};
use stillwood_tests::{Row, rows};

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/stiffness.csv"));
    assert!(rows.iter().filter(|row| row.read).count() >= 30);
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
    let moisture = |name| Moisture::percent(row.number(name, "%"));
    let length = |name| mm(row.number(name, "mm"));
    let mass = |name| kg(row.number(name, "kg"));
    let density = || kg_per_m3(row.number("rho", "kg/m3"));
    let slope = || Slope::one_in(n("run"));
    let strength = || match row.text("strength") {
        "bending" => Strength::Bending,
        "impact" => Strength::Impact,
        "compression" => Strength::Compression,
        other => panic!("{}: strength {other}", row.id),
    };
    let decrement = || -> Decrement { decrement_from_decay(n("x1"), n("x2"), n("n")).unwrap() };
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
        "property_at_moisture" => {
            property_at_moisture(n("P12"), n("Pg"), moisture("Mp"), moisture("M")).unwrap()
        }
        "stiffness_by_rule rise" => {
            let risen = stiffness_by_rule(gpa(1.0), moisture("from"), moisture("to")).unwrap();
            100.0 * (in_gpa(risen) - 1.0)
        }
        "stiffness_from_sound" => {
            let speed = metres_per_second(row.number("V", "m/s"));
            in_gpa(stiffness_from_sound(&mut TraceOff, speed, density()).unwrap())
        }
        "speed_of_sound" => {
            let stiffness = gpa(row.number("E", "GPa"));
            in_metres_per_second(speed_of_sound(stiffness, density()).unwrap())
        }
        "strength_on_the_slope" => 100.0 * strength_on_the_slope(strength(), slope()).unwrap(),
        "strength_tested" => 100.0 * strength_tested(&mut TraceOff, strength(), slope()).unwrap(),
        "stiffness_on_the_slope least" => 100.0 * stiffness_on_the_slope(slope()).unwrap().0,
        "stiffness_on_the_slope most" => 100.0 * stiffness_on_the_slope(slope()).unwrap().1,
        "stiffness_from_flexural front" => flexural_front(),
        "stiffness_from_flexural root" => {
            let pi = std::f64::consts::PI;
            libm::pow(48.0 * pi * pi / flexural_front(), 0.25)
        }
        "stiffness_from_flexural node" => NODE_SHARE,
        "isotropic_correction" => isotropic_correction(n("slenderness"), n("poisson")).unwrap(),
        "isotropic_correction thin" => {
            let t = isotropic_correction(n("slenderness"), n("poisson")).unwrap();
            (t - 1.0) * n("slenderness") * n("slenderness")
        }
        "shear_correction thin" => {
            let t = shear_correction(n("slenderness"), n("ratio")).unwrap();
            (t - 1.0) * n("slenderness") * n("slenderness")
        }
        "sound_along" => in_metres_per_second(
            sound_along(&mut TraceOff, length("L"), hz(row.number("f", "Hz"))).unwrap(),
        ),
        "stiffness_from_bending" => {
            let bar = Bar {
                length: length("span"),
                width: length("b"),
                thickness: length("h"),
                mass: kg(1.0),
            };
            let force = newtons(row.number("F", "N"));
            in_gpa(stiffness_from_bending(&bar, length("span"), force, length("d")).unwrap())
        }
        "decrement_from_decay" => decrement().value(),
        "loss_tangent" => loss_tangent(decrement()).unwrap().value(),
        "moisture_from_ovendry" => moisture_from_ovendry(&mut TraceOff, mass("wet"), mass("dry"))
            .unwrap()
            .in_percent(),
        "mass_at" => in_kg(mass_at(mass("m"), moisture("from"), moisture("to")).unwrap()),
        "cupping gap" => in_mm(cup().gap),
        "cupping width" => in_mm(cup().width),
        other => panic!("{}: no formula {other}", row.id),
    }
}

/// The number in front of the bending note's formula: a bar of 1 m, 1 m, 1 m and 1 kg that rings at 1 Hz.
fn flexural_front() -> f64 {
    let bar = Bar {
        length: mm(1000.0),
        width: mm(1000.0),
        thickness: mm(1000.0),
        mass: kg(1.0),
    };
    in_gpa(stiffness_from_flexural(&bar, hz(1.0), 1.0).unwrap()) * 1e9
}
