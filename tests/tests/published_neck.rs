//! The laminated blank, held against published values.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use stillwood_core::neck::{Layer, cost_carried, stiffness_along_glue_lines, torsion_factor};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::mm;
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

/// What the formula named in the row gives for the row's inputs.
fn compute(row: &Row) -> f64 {
    match row.formula.as_str() {
        "torsion_factor" => torsion_factor(mm(20.0), mm(20.0 * row.number("ratio", ""))).unwrap(),
        "stiffness_along_glue_lines moment" => {
            let stiffness = stiffness_along_glue_lines(&mut TraceOff, &layers(row)).unwrap();
            let reference = 1e9 * row.number("reference", "");
            1e12 * stiffness.in_newton_square_metres() / reference
        }
        "cost_carried" => {
            let number = |name| row.number(name, "") as u32;
            let started = number("started");
            let each = Decimal::from(number("paid") / started);
            let parts: Vec<_> = (0..started)
                .map(|n| (each, n < number("through")))
                .collect();
            cost_carried(&parts).unwrap()[0].to_f64().unwrap()
        }
        other => panic!("row {} names {other}, which is not checked here", row.id),
    }
}

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/neck.csv"));
    assert!(rows.len() >= 18);
    for row in &rows {
        row.check(compute(row));
    }
}
