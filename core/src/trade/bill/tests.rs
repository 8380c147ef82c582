//! Six invented planks and the bills that several customs would make of them.

use super::*;
use crate::quantity::{inches, mm};
use crate::trade::{Halves, Rounding, Sawn, TallyMeasure, ThicknessBasis, board_feet};

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
fn six() -> [TallyLine; 6] {
    [
        ("B1", 2890.0, 188.0),
        ("B2", 2430.0, 216.0),
        ("B3", 3280.0, 169.0),
        ("B4", 3190.0, 153.0),
        ("B5", 2240.0, 163.0),
        ("B6", 2140.0, 158.0),
    ]
    .map(|(mark, length, width)| line(mark, length, width))
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

/// All planks under one rule.
fn compare(ours: &[TallyLine], agreed: &TallyRule, bill: &Bill) -> Comparison {
    let ours: Vec<_> = ours.iter().map(|line| (line, agreed)).collect();
    compare_with_bill(&ours, agreed, bill)
}

fn told(found: &Comparison) -> Vec<&[Habit]> {
    found.told.iter().map(|e| e.habits.as_slice()).collect()
}

const BOTH_UP: [Habit; 2] = [Habit::Width(Rounding::Up), Habit::Length(Rounding::Up)];

#[test]
fn a_total_alone_cannot_tell_between_two_customs() {
    let found = compare(&six(), &TallyRule::default(), &total("69.7"));
    assert_eq!(found.conclusion, Conclusion::CannotTellFromTotal);
    // What is told of is what fits, and nothing else.
    assert!(found.all_fit());
    let fits = told(&found);
    assert_eq!(fits[0], [Habit::Added(15)]);
    assert!(fits.contains(&BOTH_UP.as_slice()));
}

#[test]
fn the_lines_can_tell() {
    let added = by_line(["13.5", "13.0", "13.7", "12.1", "9.0", "8.4"]);
    let found = compare(&six(), &TallyRule::default(), &added);
    assert_eq!(found.conclusion, Conclusion::Explained);
    assert_eq!(told(&found), [[Habit::Added(15)]]);

    let up = by_line(["13.3", "12.0", "12.8", "12.8", "9.3", "9.3"]);
    let found = compare(&six(), &TallyRule::default(), &up);
    assert_eq!(found.conclusion, Conclusion::Explained);
    assert_eq!(told(&found), [BOTH_UP]);
}

#[test]
fn a_plain_percentage_that_nearly_fits_goes_before_pairs_that_fit_by_chance() {
    // Eight per cent on every plank, each line a little off by the yard's own measuring.
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
    let found = compare(&six(), &TallyRule::default(), &bill);
    assert_eq!(found.told[0].habits, [Habit::Added(8)]);
    assert!(!found.told[0].fits && found.told[0].nearly && !found.all_fit());
    assert_ne!(found.conclusion, Conclusion::Unexplained);
}

#[test]
fn the_agreed_rule_needs_no_explaining() {
    let found = compare(&six(), &TallyRule::default(), &total("60.6"));
    assert_eq!(
        (found.conclusion, found.told.len()),
        (Conclusion::Agrees, 0)
    );
    let off = compare(&six(), &TallyRule::default(), &total("93.21"));
    assert_eq!(
        (off.conclusion, off.told.len()),
        (Conclusion::Unexplained, NEAREST)
    );
    assert!(off.told.iter().all(|one| !one.fits && !one.nearly));
}

#[test]
fn whatever_the_total_those_are_told_of_that_fit_or_nearly_fit() {
    for tenths in 500..900 {
        let total = total(&format!("{}.{}", tenths / 10, tenths % 10));
        let found = compare(&six(), &TallyRule::default(), &total);
        let fit = |one: &BillExplanation| one.fits || one.nearly;
        let count = found.told.len();
        match found.conclusion {
            Conclusion::Agrees | Conclusion::NearlyAgrees => assert_eq!(count, 0),
            Conclusion::Explained => assert!(count == 1 && found.told.iter().all(fit)),
            Conclusion::CannotTellFromTotal => {
                assert!(count > 1 && found.told.iter().all(fit), "{total:?}");
            }
            Conclusion::Unexplained => assert!(!found.told.iter().any(fit), "{total:?}"),
            other => panic!("{other:?} of {total:?}"),
        }
    }
}

#[test]
fn halves_go_by_turns_through_planks_that_have_no_line_or_another_rule() {
    let surface = TallyRule {
        measure: TallyMeasure::SurfaceMeasure,
        ..TallyRule::default()
    };
    let twice_as_thick = TallyRule {
        thickness: ThicknessBasis::Measured,
        ..surface.clone()
    };
    // 6 in by 9 ft are 4.5 square feet: 4, 5 and 4 by turns.
    let plank = |mark: &str| TallyLine {
        mark: mark.into(),
        sawn: Sawn {
            length: Some(inches(108.0)),
            width: Some(inches(6.0)),
            thickness: Some(inches(1.0)),
            nominal: Some(inches(1.0)),
        },
        width_with_wane: None,
        mass: None,
    };
    let planks = ["C1", "C2", "C3"].map(plank);
    let bill = |mark: &str, quantity: &str| Bill {
        unit: TallyUnit::BoardFoot,
        billed: Billed::Lines(vec![BilledLine {
            mark: mark.into(),
            quantity: dec(quantity),
        }]),
    };
    for (mark, quantity) in [("C1", "4.0"), ("C2", "5.0"), ("C3", "4.0")] {
        let bill = bill(mark, quantity);
        let found = compare(&planks, &surface, &bill);
        assert_eq!(found.conclusion, Conclusion::Agrees, "{mark}");
        let [first, rest @ ..] = &planks;
        let mut ours = vec![(first, &twice_as_thick)];
        ours.extend(rest.iter().map(|line| (line, &surface)));
        let rule = if mark == "C1" {
            &twice_as_thick
        } else {
            &surface
        };
        let found = compare_with_bill(&ours, rule, &bill);
        assert_eq!(found.conclusion, Conclusion::Agrees, "{mark}");
    }
}

#[test]
fn nothing_rounded_and_exact_footage_are_tried_where_the_agreed_rule_is_another() {
    let exact = TallyRule::default();
    let agreed = TallyRule {
        width: Rounding::Up,
        ..exact.clone()
    };
    let surface = TallyRule {
        measure: TallyMeasure::SurfaceMeasure,
        ..exact.clone()
    };
    let mut halves = Halves::default();
    let quantities = six().map(|line| {
        let feet = board_feet(&exact, &line.sawn, &mut halves).unwrap();
        feet.round_dp(2).to_string()
    });
    let bill = by_line(quantities.each_ref().map(String::as_str));
    let found = compare(&six(), &agreed, &bill);
    assert_eq!(told(&found), [[Habit::Width(Rounding::None)]]);
    let found = compare(&six(), &surface, &bill);
    assert_eq!(told(&found), [[Habit::Measure(TallyMeasure::Exact)]]);
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
            Habit::Measure(TallyMeasure::SurfaceMeasure),
        ),
        (planks_by(&agreed, dec("0.92"), false), Habit::GrossFootage),
        (planks_by(&agreed, Decimal::ONE, true), Habit::WithWane),
        (
            planks_by(&measured, Decimal::ONE, false),
            Habit::Thickness(ThicknessBasis::Measured),
        ),
    ] {
        let found = compare(&planks, &agreed, &bill);
        assert_eq!(told(&found), [[habit]], "{:?}", found.conclusion);
        assert_eq!(found.conclusion, Conclusion::Explained);
    }
}

#[test]
fn planks_that_are_on_one_tally_only_are_left_out() {
    let mut bill = by_line(["13.5", "13.0", "13.7", "12.1", "9.0", "8.4"]);
    if let Billed::Lines(lines) = &mut bill.billed {
        lines[5].mark = "B1".into();
    }
    let mut planks = six();
    planks[1].sawn.width = None;
    let found = compare(&planks, &TallyRule::default(), &bill);
    assert_eq!(found.conclusion, Conclusion::Explained);
    let by_total = compare(&planks, &TallyRule::default(), &total("69.7"));
    assert_eq!(by_total.conclusion, Conclusion::NotComparable);
}

#[test]
fn a_bill_in_cubic_metres_is_read_to_its_own_places() {
    let bill = Bill {
        unit: TallyUnit::CubicMetre,
        billed: Billed::Total(dec("0.143")),
    };
    let found = compare(&six(), &TallyRule::default(), &bill);
    assert_eq!(found.conclusion, Conclusion::Agrees);
    let absurd = Bill {
        unit: TallyUnit::CubicMetre,
        billed: Billed::Total(Decimal::MAX),
    };
    let found = compare(&six(), &TallyRule::default(), &absurd);
    assert_eq!(found.conclusion, Conclusion::Unexplained);
}
