//! Cutting plans: worked counts, defects, rings, and the programme against trying everything.

use super::*;
use crate::neck::places_along;
use crate::plank::{Rings, ring_angle_at};
use crate::quantity::mm;
use proptest::prelude::*;

const ALIKE: PartWorth = PartWorth {
    quartersawn: 1.0,
    rift: 1.0,
    flatsawn: 1.0,
    unknown: 1.0,
};

fn cut(kerf: f64) -> PartCut {
    PartCut {
        length: mm(950.0),
        thickness: mm(13.0),
        planing: mm(1.5),
        kerf: mm(kerf),
        end_trim: mm(70.0),
        edge_trim: mm(5.0),
        step: mm(0.1),
    }
}

fn plank(patches: Vec<Patch>) -> Stock {
    Stock {
        length: mm(2620.0),
        width: mm(205.0),
        patches,
    }
}

fn place(from: f64, to: f64) -> Place {
    Place {
        from: mm(from),
        to: mm(to),
    }
}

#[test]
fn a_thin_kerf_gives_one_more() {
    let parts = |kerf| {
        plan_cuts(&plank(Vec::new()), &cut(kerf), &|_| None, &ALIKE)
            .unwrap()
            .rows[0]
            .parts
            .len()
    };
    assert_eq!((parts(1.3), parts(3.2)), (11, 10));
}

#[test]
fn a_defect_at_one_edge_spoils_only_its_parts() {
    let knot = Patch {
        along: place(500.0, 540.0),
        across: Some(place(0.0, 30.0)),
    };
    let plan = plan_cuts(&plank(vec![knot]), &cut(3.2), &|_| None, &ALIKE).unwrap();
    // Two rows fit, and 460 mm to move them by: no row has to hold the knot, but the two need all else.
    assert_eq!(plan.rows.len(), 2);
    assert_eq!(plan.parts(), 20);
    let across = Patch {
        across: None,
        ..knot
    };
    let wide = Patch {
        along: place(900.0, 1700.0),
        across: Some(place(0.0, 30.0)),
    };
    let plan = plan_cuts(&plank(vec![across, wide]), &cut(3.2), &|_| None, &ALIKE).unwrap();
    assert_eq!(plan.rows.len(), 2);
    assert!(plan.parts() < 20 && plan.parts() >= 17, "{}", plan.parts());
    for row in &plan.rows {
        assert!(!overlap(row.along, across.along));
        for part in &row.parts {
            assert!(!overlap(row.along, wide.along) || !overlap(part.across, place(0.0, 30.0)));
        }
    }
}

#[test]
fn a_row_ends_where_a_defect_begins_and_begins_where_one_ends() {
    let rows = |defects: &[(f64, f64)]| {
        let defects = defects.iter().map(|(from, to)| Patch {
            along: place(*from, *to),
            across: None,
        });
        let plan = plan_cuts(&plank(defects.collect()), &cut(3.2), &|_| None, &ALIKE).unwrap();
        let from = |row: &PartRow| (in_mm(row.along.from) * 10.0).round() / 10.0;
        plan.rows.iter().map(from).collect::<Vec<_>>()
    };
    // 70 to 2550 mm can be used; the rows are 950 mm.
    assert_eq!(rows(&[(1020.0, 2550.0)]), [70.0]);
    assert_eq!(rows(&[(1019.9, 2550.0)]), [0.0; 0]);
    assert_eq!(rows(&[(70.0, 1600.0)]), [1600.0]);
    assert_eq!(rows(&[(70.0, 1600.1)]), [0.0; 0]);
    assert_eq!(rows(&[(0.0, 600.0), (1550.0, 2620.0)]), [600.0]);
}

#[test]
fn rings_decide_where_their_worth_does() {
    let rings = Rings::Arc {
        chord: mm(150.0),
        dip: mm(25.0),
        pith: mm(0.0),
    };
    let angle = |offset: Length| ring_angle_at(&mut TraceOff, &rings, offset).ok();
    let quartered = PartWorth { rift: 0.0, ..ALIKE };
    let plan = plan_cuts(&plank(Vec::new()), &cut(3.2), &angle, &quartered).unwrap();
    // Parts whose middle is within 72 mm of mid-width.
    for part in &plan.rows[0].parts {
        assert_eq!(part.class, Some(RingClass::Quartersawn));
        let middle = (part.across.from + part.across.to) / 2.0 - mm(102.5);
        assert!(middle.abs() < mm(72.2));
    }
    assert_eq!(plan.rows[0].parts.len(), 8);
    let all = plan_cuts(&plank(Vec::new()), &cut(3.2), &angle, &ALIKE).unwrap();
    assert_eq!(all.rows[0].parts.len(), 10);
}

#[test]
fn nonsense_is_refused_and_nothing_is_an_answer() {
    let bad = |change: fn(&mut Stock, &mut PartCut)| {
        let (mut stock, mut cut) = (plank(Vec::new()), cut(3.2));
        change(&mut stock, &mut cut);
        plan_cuts(&stock, &cut, &|_| None, &ALIKE)
    };
    assert!(matches!(
        bad(|s, _| s.width = mm(0.0)),
        Err(CutPlanError::Size(_))
    ));
    assert!(matches!(
        bad(|s, _| s.length = mm(f64::NAN)),
        Err(CutPlanError::Size(_))
    ));
    assert!(matches!(
        bad(|_, c| c.kerf = mm(-1.0)),
        Err(CutPlanError::Negative(_))
    ));
    assert!(matches!(
        bad(|_, c| c.planing = mm(-1.0)),
        Err(CutPlanError::Negative(_))
    ));
    assert!(matches!(
        bad(|_, c| c.step = mm(1e-4)),
        Err(CutPlanError::TooFine { .. })
    ));
    assert_eq!(
        bad(|s, _| s.length = mm(900.0)).unwrap(),
        CuttingPlan::default()
    );
    assert_eq!(bad(|_, c| c.edge_trim = mm(300.0)).unwrap().parts(), 0);
    let nowhere = Patch {
        along: place(f64::NAN, 3.0),
        across: None,
    };
    assert!(matches!(
        plan_cuts(&plank(vec![nowhere]), &cut(3.2), &|_| None, &ALIKE),
        Err(CutPlanError::Patch { .. })
    ));
    let minus = PartWorth {
        rift: -1.0,
        ..ALIKE
    };
    let error = plan_cuts(&plank(Vec::new()), &cut(3.2), &|_| None, &minus).unwrap_err();
    assert_eq!(
        error.to_string(),
        "a part worth -1: it can't be less than nothing"
    );
}

/// The most that pieces are worth, by trying each start.
fn by_trying_all(from: usize, to: usize, size: usize, kerf: usize, worth: &[f64]) -> f64 {
    (from..(to + 1).saturating_sub(size))
        .map(|start| worth[start] + by_trying_all(start + size + kerf, to, size, kerf, worth))
        .fold(0.0, f64::max)
}

proptest! {
    #[test]
    fn the_programme_finds_the_most(
        worth in prop::collection::vec(0.0..3.0f64, 24), size in 2usize..8, kerf in 0usize..3,
    ) {
        let (best, starts) = best_starts((0, 24), size, kerf, &mut |at| worth[at]);
        prop_assert!((best - by_trying_all(0, 24, size, kerf, &worth)).abs() < 1e-6);
        let sum: f64 = starts.iter().map(|at| worth[*at]).sum();
        prop_assert!((sum - best).abs() < 1e-6);
        prop_assert!(starts.windows(2).all(|pair| pair[1] >= pair[0] + size + kerf));
    }

    // All worth the same, it holds as many as placing each as early as it goes.
    #[test]
    fn alike_it_is_the_plain_count(width in 60u32..300, part in 8u32..30, kerf in 1u32..5, knot in 0u32..300) {
        let knot = place(f64::from(knot), f64::from(knot) + 12.0);
        let stock = Stock {
            length: mm(f64::from(width)), width: mm(50.0),
            patches: vec![Patch { along: knot, across: None }],
        };
        let cut = PartCut {
            length: mm(f64::from(part)), thickness: mm(50.0), planing: mm(0.0), kerf: mm(f64::from(kerf)),
            end_trim: mm(0.0), edge_trim: mm(0.0), step: mm(1.0),
        };
        let plan = plan_cuts(&stock, &cut, &|_| None, &ALIKE).unwrap();
        let plain = places_along(stock.length, cut.length, cut.kerf, mm(0.0), &[knot]).unwrap();
        prop_assert_eq!(plan.parts(), plain.len());
    }
}

/// A plan is drawn anew at every key: with many defects it would take as many times as long.
#[test]
fn the_rings_are_asked_once_a_place_however_many_defects_there_are() {
    use std::cell::Cell;
    let defects = |n: usize| {
        let defect = |n: usize| Patch {
            along: place(60.0 * n as f64 + 80.0, 60.0 * n as f64 + 90.0),
            across: Some(place(4.0 * n as f64, 4.0 * n as f64 + 12.0)),
        };
        (0..n).map(defect).collect()
    };
    let asked = |n: usize| {
        let times = Cell::new(0_usize);
        let rings = |_: Length| {
            times.set(times.get() + 1);
            None
        };
        let plan = plan_cuts(&plank(defects(n)), &cut(3.2), &rings, &ALIKE).unwrap();
        times.get() - plan.parts()
    };
    let places = asked(0);
    assert!(places > 1_500, "{places}");
    assert_eq!(asked(40), places);
}
