//! The laminated blank against closed forms, and what is refused.

use super::*;
use crate::quantity::{in_kg, kg_per_m3, mm};
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
fn five_equal_laminates_forgive_unequally() {
    let five = |d| [(layer(15.0, 48.0, 12.6), mm(d)); 5];
    let bow = in_mm(bow_left_in_blank(&five(0.6)).unwrap());
    assert!((bow - 0.6 / 25.0).abs() < 1e-9);
    let crook = in_mm(crook_left_in_blank(&five(0.6)).unwrap());
    assert!((crook - 0.6).abs() < 1e-9);
    let twist = in_mm(twist_left_in_blank(&five(0.6)).unwrap());
    assert!((twist / 0.6 - 0.13).abs() < 0.005 && (twist - 0.08).abs() < 0.005);
}

#[test]
fn a_stiff_laminate_has_more_say() {
    let pair = [
        (layer(15.0, 48.0, 18.0), mm(1.0)),
        (layer(15.0, 48.0, 9.0), mm(-1.0)),
    ];
    assert!((in_mm(crook_left_in_blank(&pair).unwrap()) - 1.0 / 3.0).abs() < 1e-9);
}

#[test]
fn a_blank_of_maple_weighs() {
    let five = [(layer(15.0, 45.0, 12.6), kg_per_m3(705.0)); 5];
    assert!((in_kg(blank_weight(&mut TraceOff, &five, mm(950.0)).unwrap()) - 2.26).abs() < 0.005);
}

#[test]
fn a_clamp_bends_a_laminate_as_its_bending_test_would() {
    use crate::quantity::kg;
    use crate::wood::{Bar, stiffness_from_bending};
    // What straightens a crook is what would have bent it: the modulus comes out as it went in.
    for (thickness, width, modulus, crook, over) in [
        (15.0, 48.0, 12.6, 0.5, 950.0),
        (8.0, 60.0, 9.0, -1.2, 700.0),
    ] {
        let force = force_to_straighten(&layer(thickness, width, modulus), mm(crook), mm(over));
        let bar = Bar {
            length: mm(over),
            width: mm(thickness),
            thickness: mm(width),
            mass: kg(0.5),
        };
        let found =
            stiffness_from_bending(&bar, mm(over), force.unwrap(), mm(crook.abs())).unwrap();
        assert!((in_gpa(found) / modulus - 1.0).abs() < 1e-9);
    }
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
    assert_eq!(neutral_axis(&[]), Err(BeamError::NoLayers));
    for bad in [
        layer(0.0, 48.0, 12.0),
        layer(15.0, -1.0, 12.0),
        layer(15.0, f64::NAN, 12.0),
        layer(15.0, 48.0, 0.0),
    ] {
        assert!(stiffness_across_glue_lines(&mut TraceOff, &[bad]).is_err());
        assert!(twist_left_in_blank(&[(bad, mm(0.0))]).is_err());
    }
    let bad = bow_left_in_blank(&[(layer(15.0, 48.0, 12.0), mm(f64::NAN))]).unwrap_err();
    assert_eq!(bad.to_string(), "a shape that is no number");
    assert!(
        blank_weight(
            &mut TraceOff,
            &[(layer(1.0, 1.0, 1.0), kg_per_m3(0.0))],
            mm(9.0)
        )
        .is_err()
    );
    assert!(force_to_straighten(&layer(1.0, 1.0, 1.0), mm(1.0), mm(0.0)).is_err());
    assert!(bow_from_strains(&[(layer(1.0, 1.0, 1.0), f64::INFINITY)], mm(9.0)).is_err());
}

/// Timoshenko's closed form for two layers: m the ratio of thicknesses, n that of the moduli.
fn two_layer_curvature(t1: f64, t2: f64, e1: f64, e2: f64, difference: f64) -> f64 {
    let (m, n, h) = (t1 / t2, e1 / e2, t1 + t2);
    6.0 * difference * (1.0 + m) * (1.0 + m)
        / (h * (3.0 * (1.0 + m) * (1.0 + m) + (1.0 + m * n) * (m * m + 1.0 / (m * n))))
}

proptest! {
    #[test]
    fn two_layers_follow_the_closed_form(
        t1 in 2.0..30.0f64, t2 in 2.0..30.0f64, e1 in 5.0..20.0f64, e2 in 5.0..20.0f64,
        strain in -2e-3..2e-3f64,
    ) {
        let pair = [(layer(t1, 48.0, e1), strain), (layer(t2, 48.0, e2), 0.0)];
        let found = in_mm(bow_from_strains(&pair, mm(950.0)).unwrap());
        let expected = two_layer_curvature(t1, t2, e1, e2, strain) * 950.0 * 950.0 / 8.0;
        prop_assert!((found - expected).abs() < 1e-9 * (1.0 + expected.abs()), "{found} {expected}");
    }

    // Glue lines that part one wood change nothing.
    #[test]
    fn a_stack_of_one_wood_is_a_solid_piece(cuts in prop::collection::vec(1.0..20.0f64, 1..8)) {
        let stack: Vec<Layer> = cuts.iter().map(|t| layer(*t, 48.0, 12.0)).collect();
        let solid = [layer(cuts.iter().sum(), 48.0, 12.0)];
        let same = |a: BendingStiffness, b: BendingStiffness| (a.0 / b.0 - 1.0).abs() < 1e-9;
        prop_assert!(same(stiffness_across_glue_lines(&mut TraceOff, &stack).unwrap(), stiffness_across_glue_lines(&mut TraceOff, &solid).unwrap()));
        prop_assert!(same(stiffness_along_glue_lines(&mut TraceOff, &stack).unwrap(), stiffness_along_glue_lines(&mut TraceOff, &solid).unwrap()));
    }

    // Mirrored strains bow nothing.
    #[test]
    fn what_is_symmetrical_stays_straight(t in 2.0..20.0f64, strain in -1e-3..1e-3f64) {
        let outer = (layer(t, 48.0, 15.0), strain);
        let three = [outer, (layer(9.0, 48.0, 10.0), 0.0), outer];
        let bow = in_mm(bow_from_strains(&three, mm(950.0)).unwrap());
        prop_assert!(bow.abs() < 1e-9);
    }
}
