//! Movement against its limits: signs, what was not measured, the edges of certainty.

use super::change::change;
use super::*;
use crate::plank::{Field, Plank, Reading, Readings, Seen, Stations, understand};
use crate::quantity::read::Units;
use crate::quantity::{TraceOff, in_mm, mm};
use crate::season::{Limit, Stage, StageLimits};
use proptest::prelude::*;

fn typed(texts: &[(Field, &str)]) -> Readings {
    let read = |field, text| -> Reading {
        let echo = understand(field, text, Seen::Measured, false, Units::Metric);
        echo.taken().unwrap().clone()
    };
    texts.iter().map(|(f, t)| (*f, read(*f, t))).collect()
}

fn laminate() -> Plank {
    Plank {
        length: Some(mm(950.0)),
        widths: Stations::one(mm(48.0)),
        ..Plank::default()
    }
}

fn shape(texts: &[(Field, &str)]) -> Warps {
    warps(&typed(texts), &laminate(), mm(0.1)).unwrap()
}

fn gap(value: f64, u: f64) -> Gap {
    Gap {
        value: mm(value),
        standard: mm(u),
        signed: true,
    }
}

fn crook(from: Gap, to: Gap, limit: Limit) -> Movement {
    let found = change(
        &mut TraceOff,
        Warp::Crook,
        Some(&from),
        Some(&to),
        Some(limit),
    );
    found.movement.unwrap()
}

#[test]
fn a_gap_over_the_whole_piece_is_as_sure_as_its_tool_and_one_over_part_of_it_less() {
    let tool = in_mm(standard_of(mm(0.1)));
    let standard = |warp, texts: &[(Field, &str)]| in_mm(shape(texts)[&warp].standard) / tool;
    let half = Some(4.0);
    for (warp, field, text, over, grows) in [
        (Warp::Bow, Field::Bow, "+0.4", (Field::BowOver, "475"), half),
        (
            Warp::Crook,
            Field::Crook,
            "-0.4",
            (Field::CrookOver, "475"),
            half,
        ),
        (
            Warp::Cup,
            Field::Cup,
            "+0.4",
            (Field::CupOver, "32"),
            Some(2.25),
        ),
        (
            Warp::Twist,
            Field::Twist,
            "0.4 left",
            (Field::TwistStick, "100"),
            None,
        ),
    ] {
        assert!(
            (standard(warp, &[(field, text)]) - 1.0).abs() < 1e-9,
            "{warp:?}"
        );
        // The gap of an even curve grows with the square of the length, and what it is off by with it.
        if let Some(grows) = grows {
            assert!(
                (standard(warp, &[(field, text), over]) - grows).abs() < 1e-6,
                "{warp:?}"
            );
        }
    }
}

#[test]
fn movement_or_measuring_error() {
    // Repeatability 0.05 mm: anything up to 0.14 mm is no movement.
    let limit = Limit::out(1.0);
    let at = |by| crook(gap(0.1, 0.05), gap(0.1 + by, 0.05), limit);
    assert_eq!(at(0.14), Movement::Steady);
    assert_eq!(at(0.15), Movement::Within);
    assert_eq!(at(-0.15), Movement::Within);
    assert_eq!(at(0.88), Movement::Within);
    assert_eq!(at(0.90), Movement::TooClose);
    assert_eq!(at(1.10), Movement::TooClose);
    assert_eq!(at(1.12), Movement::Beyond);
}

#[test]
fn a_tool_too_coarse_for_the_limit_never_calls_it_steady() {
    let coarse = standard_of(mm(1.0));
    let flat = Gap::flat(coarse);
    assert_eq!(crook(flat, flat, Limit::out(0.3)), Movement::TooClose);
}

#[test]
fn a_hollow_that_changed_sides_moved_by_the_sum() {
    let limit = Limit::out(0.5);
    let moved = crook(gap(0.4, 0.05), gap(-0.4, 0.05), limit);
    assert_eq!(moved, Movement::Beyond);
    let unsigned = |value| Gap {
        signed: false,
        ..gap(value, 0.05)
    };
    // The side was not noted: it may have stayed where it was, or moved by 0.8.
    let open = crook(unsigned(0.4), unsigned(0.4), limit);
    assert_eq!(open, Movement::TooClose);
    // Of a gap of nothing no side is asked.
    assert_eq!(
        crook(unsigned(0.0), gap(0.3, 0.05), limit),
        Movement::Within
    );
}

#[test]
fn the_watched_stretch() {
    let limit = Limit::watched(1.0, 2.0);
    let at = |by| crook(gap(0.0, 0.05), gap(by, 0.05), limit);
    assert_eq!(at(0.9), Movement::Within);
    assert_eq!(at(1.3), Movement::Watch);
    assert_eq!(at(2.3), Movement::Beyond);
}

#[test]
fn a_bow_limit_grows_with_the_square_of_the_length_and_a_twist_limit_with_the_length() {
    let over = |warp, length, watch: f64, out: f64| {
        let limit = Limit::watched(0.5, 1.0);
        let found = limit_over(&mut TraceOff, warp, limit, 950.0, Some(mm(length))).unwrap();
        assert!((found.reject_mm - out).abs() < 1e-9, "{found:?}");
        assert!((found.warn_mm.unwrap() - watch).abs() < 1e-9, "{found:?}");
    };
    over(Warp::Bow, 1900.0, 2.0, 4.0);
    over(Warp::Crook, 475.0, 0.125, 0.25);
    over(Warp::Twist, 1900.0, 1.0, 2.0);
    over(Warp::Cup, 1900.0, 0.5, 1.0);
    let out = Limit::out(1.0);
    for bad in [0.0, -950.0, f64::NAN, f64::INFINITY] {
        assert!(limit_over(&mut TraceOff, Warp::Bow, out, bad, Some(mm(900.0))).is_err());
    }
    let missing = limit_over(&mut TraceOff, Warp::Bow, out, 950.0, None).unwrap_err();
    assert!(missing.to_string().contains("length was not measured"));
}

#[test]
fn readings_over_a_shorter_straightedge_are_carried_over_to_the_whole() {
    let half = shape(&[(Field::Bow, "+0.2"), (Field::BowOver, "475")]);
    let bow = half[&Warp::Bow];
    assert!((in_mm(bow.value) - 0.8).abs() < 1e-9);
    assert!((in_mm(bow.standard) - 4.0 * in_mm(standard_of(mm(0.1)))).abs() < 1e-9);
    let sticks = shape(&[(Field::Twist, "1 left"), (Field::TwistStick, "480")]);
    assert!((in_mm(sticks[&Warp::Twist].value) + 0.1).abs() < 1e-9);
    // What was judged by eye may be off by twice as much; the scale carries that too.
    let mut glanced = typed(&[(Field::Bow, "+0.2"), (Field::BowOver, "475")]);
    for taken in glanced.values_mut() {
        taken.seen = Seen::ByEye;
    }
    let by_eye = warps(&glanced, &laminate(), mm(0.1)).unwrap()[&Warp::Bow];
    assert!((in_mm(by_eye.standard) - 8.0 * 0.1 / 3.0_f64.sqrt()).abs() < 1e-9);
    let unknown = Plank::default();
    let readings = typed(&[(Field::Bow, "+0.2"), (Field::BowOver, "475")]);
    assert!(warps(&readings, &unknown, mm(0.1)).is_err());
    let whole = typed(&[(Field::Bow, "+0.2"), (Field::Cup, "-0.1")]);
    assert!(warps(&whole, &unknown, mm(0.1)).unwrap()[&Warp::Cup].signed);
}

#[test]
fn what_has_a_limit_and_was_not_measured_is_never_still() {
    let terms = StageLimits::supplied(Stage::Laminates);
    let flat = shape(&[(Field::Bow, "0"), (Field::Crook, "0"), (Field::Twist, "0")]);
    let only_crook = shape(&[(Field::Crook, "+0.05")]);
    let found = changes(&flat, &only_crook, &terms, Some(mm(950.0))).unwrap();
    assert_eq!(worst(&found), Movement::NotMeasured);
    let found = changes(&flat, &flat, &terms, Some(mm(950.0))).unwrap();
    assert_eq!(worst(&found), Movement::Steady);
    let bent = shape(&[(Field::Bow, "0"), (Field::Crook, "+0.9")]);
    let found = changes(&flat, &bent, &terms, Some(mm(950.0))).unwrap();
    assert_eq!(worst(&found), Movement::Beyond);
    // A shape without a limit is told and not judged.
    let cupped = shape(&[(Field::Cup, "+0.3")]);
    let none = StageLimits {
        bow: None,
        crook: None,
        twist: None,
        ..terms
    };
    let found = changes(&cupped, &cupped, &none, None).unwrap();
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].movement, None);
    assert_eq!(worst(&found), Movement::NotMeasured);
}

proptest! {
    #[test]
    fn turning_the_piece_over_changes_no_verdict(a in -3.0..3.0f64, b in -3.0..3.0f64, out in 0.1..3.0f64) {
        let limit = Limit::out(out);
        let there = crook(gap(a, 0.06), gap(b, 0.06), limit);
        let over = crook(gap(-a, 0.06), gap(-b, 0.06), limit);
        prop_assert_eq!(there, over);
    }

    #[test]
    fn more_movement_is_never_a_better_verdict(by in 0.0..4.0f64, more in 0.0..1.0f64, out in 0.1..3.0f64) {
        let at = |by| crook(gap(0.0, 0.06), gap(by, 0.06), Limit::out(out));
        prop_assert!(at(by + more) >= at(by));
    }

    #[test]
    fn an_even_curve_at_its_limit_is_at_its_limit_at_any_length(length in 300.0..2000.0f64) {
        // 1 mm over 950 mm is the sagitta of one curvature, whatever the length.
        let limit = limit_over(&mut TraceOff, Warp::Bow, Limit::out(1.0), 950.0, Some(mm(length))).unwrap();
        let curvature = 8.0 * limit.reject_mm / (length * length);
        prop_assert!((curvature - 8.0 / (950.0 * 950.0)).abs() < 1e-15);
    }
}
