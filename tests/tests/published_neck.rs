//! The laminated blank, held against published values.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use stillwood_core::neck::{
    Layer, bow_from_strains, cost_to_survivors, neutral_axis, stiffness_across_glue_lines,
    stiffness_along_glue_lines, torsion_factor,
};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{in_mm, mm};
use stillwood_tests::{Row, rows};
use uom::si::f64::Pressure;
use uom::si::pressure::gigapascal;

/// Layers as `thickness x width x GPa`, the first face first.
fn layers(row: &Row) -> Vec<Layer> {
    let layer = |text: &str| {
        let sizes: Vec<f64> = text.split('x').map(|one| one.parse().unwrap()).collect();
        Layer {
            thickness: mm(sizes[0]),
            width: mm(sizes[1]),
            modulus: Pressure::new::<gigapascal>(sizes[2]),
        }
    };
    row.text("layers").split(' ').map(layer).collect()
}

/// Stress, MPa without its sign, in one layer so far from the first face: M E y/EI.
fn stress(row: &Row, layer: usize, from_face: f64) -> f64 {
    let layers = layers(row);
    let axis = in_mm(neutral_axis(&layers).unwrap());
    let stiffness = stiffness_across_glue_lines(&mut TraceOff, &layers)
        .unwrap()
        .in_newton_square_metres();
    let moment = 1000.0 * row.number("moment", "kN m");
    let gpa = layers[layer].modulus.get::<gigapascal>();
    (moment * gpa * 1e9 * (from_face - axis) / 1000.0 / stiffness / 1e6).abs()
}

/// What the formula named in the row gives for the row's inputs.
fn compute(row: &Row) -> f64 {
    match row.formula.as_str() {
        "torsion_factor" => torsion_factor(mm(20.0), mm(20.0 * row.number("ratio", ""))).unwrap(),
        "stiffness_across_glue_lines first_face" => stress(row, 0, 0.0),
        "stiffness_across_glue_lines joint" => stress(row, 0, in_mm(layers(row)[0].thickness)),
        "stiffness_across_glue_lines last_face" => {
            let whole: f64 = layers(row).iter().map(|one| in_mm(one.thickness)).sum();
            stress(row, layers(row).len() - 1, whole)
        }
        "stiffness_along_glue_lines moment" => {
            let stiffness = stiffness_along_glue_lines(&mut TraceOff, &layers(row)).unwrap();
            let reference = 1e9 * row.number("reference", "");
            1e12 * stiffness.in_newton_square_metres() / reference
        }
        "neutral_axis" => in_mm(neutral_axis(&layers(row)).unwrap()),
        // Held at one end, the other moves by four times the gap over the same length.
        "bow_from_strains end" => {
            let length = mm(row.number("length", "mm"));
            let strains = [row.number("strain", ""), 0.0];
            let pairs: Vec<_> = layers(row).into_iter().zip(strains).collect();
            4.0 * in_mm(bow_from_strains(&pairs, length).unwrap())
        }
        "cost_to_survivors" => {
            let number = |name| row.number(name, "") as u32;
            let steps = cost_to_survivors(
                Decimal::from(number("paid")),
                number("started"),
                &[number("through")],
            );
            steps.unwrap()[0].each.to_f64().unwrap()
        }
        other => panic!("row {} names {other}, which is not checked here", row.id),
    }
}

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/neck.csv"));
    assert!(rows.len() >= 20);
    for row in &rows {
        row.check(compute(row));
    }
}
