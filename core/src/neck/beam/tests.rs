//! The laminated blank against closed forms, and what is refused.

use super::*;
use crate::quantity::{TraceOff, in_kg, kg_per_m3, mm};
use proptest::prelude::*;
use uom::si::pressure::gigapascal;

fn layer(thickness: f64, width: f64, gpa: f64) -> Layer {
    Layer {
        thickness: mm(thickness),
        width: mm(width),
        modulus: Pressure::new::<gigapascal>(gpa),
    }
}

#[test]
fn five_equal_laminates_hold_most_of_their_twist_back() {
    let five = |d| [(layer(15.0, 48.0, 12.6), mm(d)); 5];
    let twist = in_mm(twist_left_in_blank(&five(0.6)).unwrap());
    assert!((twist / 0.6 - 0.13).abs() < 0.005 && (twist - 0.08).abs() < 0.005);
}

#[test]
fn a_blank_of_maple_weighs() {
    let five = [(layer(15.0, 45.0, 12.6), kg_per_m3(705.0)); 5];
    assert!((in_kg(blank_weight(&mut TraceOff, &five, mm(950.0)).unwrap()) - 2.26).abs() < 0.005);
}

#[test]
fn a_rectangle_is_as_hard_to_twist_either_way_it_is_looked_at() {
    // The series holds for either side as a: k(a/b) a b³ = k(b/a) b a³.
    for ratio in [1.0, 1.3, 2.0, 3.2] {
        let (one, other) = (
            torsion_share(ratio),
            torsion_share(1.0 / ratio) * ratio * ratio,
        );
        assert!((one - other).abs() < 1e-6, "{ratio}: {one} {other}");
    }
    // A square; a strip without end.
    assert!((torsion_share(1.0) - 0.1406).abs() < 5e-5);
    assert!((torsion_share(1e6) - 1.0 / 3.0).abs() < 1e-5);
}

#[test]
fn unlike_laminates_hold_each_other_as_they_lie() {
    // Where the stiff ones lie matters, by as much as finite differences say; a mean of the moduli knows no difference.
    let of = |moduli: [f64; 5]| {
        let laminates = moduli.map(|modulus| (layer(15.0, 48.0, modulus), mm(0.6)));
        in_mm(twist_left_in_blank(&laminates).unwrap())
    };
    let (outside, inside) = (
        of([20.0, 9.0, 9.0, 9.0, 20.0]),
        of([9.0, 9.0, 20.0, 20.0, 9.0]),
    );
    assert!(outside > 1.02 * inside, "{outside} {inside}");
}

#[test]
fn nonsense_is_refused_in_words() {
    assert_eq!(
        stiffness_along_glue_lines(&mut TraceOff, &[]),
        Err(BeamError::NoLayers)
    );
    for bad in [
        layer(0.0, 48.0, 12.0),
        layer(15.0, -1.0, 12.0),
        layer(15.0, f64::NAN, 12.0),
        layer(15.0, 48.0, 0.0),
    ] {
        assert!(stiffness_along_glue_lines(&mut TraceOff, &[bad]).is_err());
        assert!(twist_left_in_blank(&[(bad, mm(0.0))]).is_err());
    }
    let bad = twist_left_in_blank(&[(layer(15.0, 48.0, 12.0), mm(f64::NAN))]).unwrap_err();
    assert_eq!(bad.to_string(), "a shape that is no number");
    assert!(
        blank_weight(
            &mut TraceOff,
            &[(layer(1.0, 1.0, 1.0), kg_per_m3(0.0))],
            mm(9.0)
        )
        .is_err()
    );
}

proptest! {
    // Glue lines that part one wood change nothing.
    #[test]
    fn a_stack_of_one_wood_is_a_solid_piece(cuts in prop::collection::vec(1.0..20.0f64, 1..8)) {
        let stack: Vec<Layer> = cuts.iter().map(|t| layer(*t, 48.0, 12.0)).collect();
        let solid = [layer(cuts.iter().sum(), 48.0, 12.0)];
        let same = |a: BendingStiffness, b: BendingStiffness| (a.0 / b.0 - 1.0).abs() < 1e-9;
        prop_assert!(same(stiffness_along_glue_lines(&mut TraceOff, &stack).unwrap(), stiffness_along_glue_lines(&mut TraceOff, &solid).unwrap()));
    }
}
