//! Six invented planks and the bills that several customs would make of them.

use super::*;
use crate::quantity::mm;
use crate::trade::{Rounding, Sawn, TallyMeasure, ThicknessBasis};

fn line(mark: &str, length: f64, width: f64) -> TallyLine {
    TallyLine {
        mark: mark.into(),
        sawn: Sawn {
            length: Some(mm(length)),
            width: Some(mm(width)),
            thickness: Some(mm(52.0)),
            nominal: Some(mm(50.8)),
        },
        width_with_wane: None,
        mass: None,
    }
}

/// Six planks on which +15 % and rounding both sides up come to the same total.
fn six() -> Vec<TallyLine> {
    [
        ("B1", 2890.0, 188.0),
        ("B2", 2430.0, 216.0),
        ("B3", 3280.0, 169.0),
        ("B4", 3190.0, 153.0),
        ("B5", 2240.0, 163.0),
        ("B6", 2140.0, 158.0),
    ]
    .map(|(mark, length, width)| line(mark, length, width))
    .to_vec()
}

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn total(quantity: &str) -> Bill {
    Bill {
        unit: TallyUnit::BoardFoot,
        billed: Billed::Total(dec(quantity)),
    }
}

fn by_line(quantities: [&str; 6]) -> Bill {
    let lines = six()
        .into_iter()
        .zip(quantities)
        .map(|(line, quantity)| BilledLine {
            mark: line.mark,
            quantity: dec(quantity),
        });
    Bill {
        unit: TallyUnit::BoardFoot,
        billed: Billed::Lines(lines.collect()),
    }
}

fn fitting(found: &Comparison) -> Vec<&[Habit]> {
    let fits = found.explanations.iter().filter(|e| e.fits);
    fits.map(|e| e.habits.as_slice()).collect()
}

const BOTH_UP: [Habit; 2] = [Habit::Width(Rounding::Up), Habit::Length(Rounding::Up)];

#[test]
fn a_total_alone_cannot_tell_between_two_customs() {
    let found = compare_with_bill(
        &six(),
        &TallyRule::default(),
        &total("69.7"),
        Some(dec("14.50")),
    );
    assert!(matches!(found.conclusion, Conclusion::CannotTellFromTotal(n) if n >= 2));
    let fits = fitting(&found);
    assert_eq!(fits[0], [Habit::Added(15)]);
    assert!(fits.contains(&BOTH_UP.as_slice()));
    assert_eq!(found.ours.round_dp(1), dec("60.6"));
    assert_eq!(found.money.unwrap().round(), dec("132"));
}

#[test]
fn the_lines_can_tell() {
    let added = by_line(["13.5", "13.0", "13.7", "12.1", "9.0", "8.4"]);
    let found = compare_with_bill(&six(), &TallyRule::default(), &added, None);
    assert_eq!(found.conclusion, Conclusion::Explained);
    assert_eq!(found.explanations[0].habits, [Habit::Added(15)]);
    assert_eq!(found.planks[2].difference().round_dp(1), dec("1.8"));

    let up = by_line(["13.3", "12.0", "12.8", "12.8", "9.3", "9.3"]);
    let found = compare_with_bill(&six(), &TallyRule::default(), &up, None);
    assert_eq!(found.conclusion, Conclusion::Explained);
    assert_eq!(found.explanations[0].habits, BOTH_UP);
}

#[test]
fn a_plain_percentage_that_nearly_fits_goes_before_pairs_that_fit_by_chance() {
    // Eight per cent on every plank, each line a little off by the yard's own measuring.
    let exact = compare_with_bill(&six(), &TallyRule::default(), &total("60.6"), None);
    assert_eq!(exact.conclusion, Conclusion::Agrees);
    let off = [0.06, -0.06, 0.07, -0.06, 0.06, -0.07];
    let mut halves = Halves::default();
    let lines = six().into_iter().zip(off).map(|(line, off)| {
        let ours = board_feet(&TallyRule::default(), &line.sawn, &mut halves).unwrap();
        let billed = ours.to_f64().unwrap() * 1.08 + off;
        BilledLine {
            mark: line.mark,
            quantity: dec(&format!("{billed:.1}")),
        }
    });
    let bill = Bill {
        unit: TallyUnit::BoardFoot,
        billed: Billed::Lines(lines.collect()),
    };
    let found = compare_with_bill(&six(), &TallyRule::default(), &bill, None);
    assert_eq!(found.explanations[0].habits, [Habit::Added(8)]);
    assert!(!found.explanations[0].fits && found.explanations[0].nearly);
    assert_ne!(found.conclusion, Conclusion::Unexplained);
}

#[test]
fn the_agreed_rule_needs_no_explaining() {
    let found = compare_with_bill(&six(), &TallyRule::default(), &total("60.6"), None);
    assert_eq!(found.conclusion, Conclusion::Agrees);
    let off = compare_with_bill(&six(), &TallyRule::default(), &total("93.21"), None);
    assert_eq!(off.conclusion, Conclusion::Unexplained);
}

#[test]
fn surface_measure_before_the_kiln_and_wane_are_found() {
    let surface = TallyRule {
        measure: TallyMeasure::SurfaceMeasure,
        ..TallyRule::default()
    };
    let mut planks = six();
    planks[0].width_with_wane = Some(mm(230.0));
    let planks_by = |rule: &TallyRule, factor: Decimal, wane: bool| {
        let mut halves = Halves::default();
        let lines = planks.iter().map(|plank| {
            let mut sawn = plank.sawn;
            if wane {
                sawn.width = plank.width_with_wane.or(sawn.width);
            }
            let exact = board_feet(rule, &sawn, &mut halves).unwrap() / factor;
            BilledLine {
                mark: plank.mark.clone(),
                quantity: exact.round_dp(1),
            }
        });
        Bill {
            unit: TallyUnit::BoardFoot,
            billed: Billed::Lines(lines.collect()),
        }
    };
    let agreed = TallyRule::default();
    let measured = TallyRule {
        thickness: ThicknessBasis::Measured,
        ..agreed.clone()
    };
    for (bill, habit) in [
        (
            planks_by(&surface, Decimal::ONE, false),
            Habit::SurfaceMeasure,
        ),
        (planks_by(&agreed, dec("0.92"), false), Habit::GrossFootage),
        (planks_by(&agreed, Decimal::ONE, true), Habit::WithWane),
        (
            planks_by(&measured, Decimal::ONE, false),
            Habit::Thickness(ThicknessBasis::Measured),
        ),
    ] {
        let found = compare_with_bill(&planks, &agreed, &bill, None);
        assert_eq!(
            found.explanations[0].habits,
            [habit],
            "{:?}",
            found.conclusion
        );
        assert_eq!(found.conclusion, Conclusion::Explained);
    }
}

#[test]
fn planks_that_are_on_one_tally_only_are_named() {
    let mut bill = by_line(["13.5", "13.0", "13.7", "12.1", "9.0", "8.4"]);
    if let Billed::Lines(lines) = &mut bill.billed {
        lines[5].mark = "B1".into();
    }
    let mut planks = six();
    planks[1].sawn.width = None;
    let found = compare_with_bill(&planks, &TallyRule::default(), &bill, None);
    assert_eq!(found.not_billed, ["B6"]);
    assert_eq!(found.not_ours, ["B1"]);
    assert_eq!(found.not_measured[0].0, "B2");
    assert_eq!(found.planks.len(), 4);
    assert_eq!(found.conclusion, Conclusion::Explained);
    // A mark that nobody knows, and one that stands there a second time.
    if let Billed::Lines(lines) = &mut bill.billed {
        lines[4].mark = " Z9".into();
    }
    let found = compare_with_bill(&planks, &TallyRule::default(), &bill, None);
    assert_eq!(found.not_ours, [" Z9", "B1"]);
    let by_total = compare_with_bill(&planks, &TallyRule::default(), &total("69.7"), None);
    assert_eq!(by_total.conclusion, Conclusion::NotComparable);
}

#[test]
fn a_bill_in_cubic_metres_is_read_to_its_own_places() {
    let bill = Bill {
        unit: TallyUnit::CubicMetre,
        billed: Billed::Total(dec("0.143")),
    };
    let found = compare_with_bill(&six(), &TallyRule::default(), &bill, None);
    assert_eq!(found.conclusion, Conclusion::Agrees);
    let absurd = Bill {
        unit: TallyUnit::CubicMetre,
        billed: Billed::Total(Decimal::MAX),
    };
    let found = compare_with_bill(&six(), &TallyRule::default(), &absurd, Some(Decimal::MAX));
    assert_eq!(
        (found.conclusion, found.money),
        (Conclusion::Unexplained, None)
    );
}
