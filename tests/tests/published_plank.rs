//! Planks and board measure, held against published values.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use stillwood_core::plank::{self, RingClass, Side};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{Length, Slope, degrees, in_m3, in_mm, inches, mm};
use stillwood_core::trade;
use stillwood_core::trade::{ExactLength, Halves};
use stillwood_tests::{Row, rows};

fn exact(side: Side, value: Length) -> ExactLength {
    ExactLength::read(side, Some(value)).unwrap()
}

/// What the formula named in the row gives for the row's inputs.
fn compute(row: &Row) -> f64 {
    let inch = |name| inches(row.input(name));
    let millimetres = |name| mm(row.input(name));
    let decimal = |name| Decimal::from(row.input(name) as u32);
    let number = |value: Decimal| value.to_f64().unwrap();
    match row.formula.as_str() {
        "exact_board_feet" => number(
            trade::exact_board_feet(
                &mut TraceOff,
                exact(Side::Length, inch("length")),
                exact(Side::Width, inch("width")),
                exact(Side::Thickness, inch("thickness")),
            )
            .unwrap(),
        ),
        "inches_in_quarters" => number(trade::inches_in_quarters(exact(
            Side::Thickness,
            inch("thickness"),
        ))),
        "cubic_metres in_cubic_feet" => {
            let cubic_foot = 0.3048 * 0.3048 * 0.3048;
            number(trade::cubic_metres(decimal("board_feet")).unwrap()) / cubic_foot
        }
        "cubic_metres" => number(trade::cubic_metres(decimal("board_feet")).unwrap()),
        "board_feet_of" => number(trade::board_feet_of(decimal("volume")).unwrap()),
        "surface_measure" => {
            let length = exact(Side::Length, inch("length"));
            let width = exact(Side::Width, inch("width"));
            let halves = &mut Halves::default();
            number(trade::surface_measure(&mut TraceOff, length, width, halves).unwrap())
        }
        "prismoidal_volume" => {
            let metre = mm(1000.0);
            let area = |name| metre * metre * row.input(name);
            let length = metre * row.input("length");
            in_m3(plank::prismoidal_volume(
                length,
                area("near"),
                area("middle"),
                area("far"),
            ))
        }
        "ring_radius" => in_mm(
            plank::ring_radius(&mut TraceOff, millimetres("chord"), millimetres("dip")).unwrap(),
        ),
        "even_gap_over" => in_mm(plank::even_gap_over(
            millimetres("gap"),
            millimetres("over"),
            millimetres("length"),
        )),
        "combined_slope" => {
            let slope = |name| Slope::one_in(row.input(name));
            plank::combined_slope(&mut TraceOff, slope("face"), slope("edge"))
                .run()
                .unwrap()
        }
        // 0 flatsawn, 1 rift, 2 quartersawn.
        "RingClass::of" => match RingClass::of(degrees(row.input("angle"))).unwrap() {
            RingClass::Flatsawn => 0.0,
            RingClass::Rift => 1.0,
            RingClass::Quartersawn => 2.0,
        },
        other => panic!("row {} names {other}, which is not checked here", row.id),
    }
}

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/plank.csv"));
    assert!(rows.iter().filter(|row| row.read).count() >= 27);
    for row in &rows {
        row.check(compute(row));
    }
}
