//! What holds of every score, whatever the plank.

use Field::*;
use proptest::collection::vec;
use proptest::prelude::*;
use stillwood_core::plank::{DefectFound, DefectKind, Field, Instruments, Reading, Readings};
use stillwood_core::quantity::TraceOff;
use stillwood_core::verdict::{
    Criterion, Form, Orientation, Recommendation, Sheet, Spec, geometric_mean, sheet,
};

/// A plank on which everything was measured.
fn plank() -> impl Strategy<Value = Readings> {
    let sizes = (
        1200.0..4000.0f64,
        120.0..350.0f64,
        25.0..70.0f64,
        400.0..1000.0f64,
    );
    let shapes = (-15.0..15.0f64, -10.0..10.0f64, 0.0..20.0f64, -6.0..6.0f64);
    let rest = (0.0..0.1f64, 0.0..0.1f64, 7.0..14.0f64, -5.0..30.0f64);
    (sizes, shapes, rest, 0.0..90.0f64).prop_map(|(sizes, shapes, rest, rings)| {
        let (length, width, thickness, density) = sizes;
        let mass = length * width * thickness * density / 1e9;
        Readings::from(
            [
                (Length, length),
                (WidthNear, width),
                (ThicknessNear, thickness),
                (WeightWhole, mass),
                (Bow, shapes.0),
                (Crook, shapes.1),
                (Twist, shapes.2),
                (Cup, shapes.3),
                (GrainFace, rest.0),
                (GrainEdge, rest.1),
                (Moisture, rest.2),
                (WoodTemperature, rest.3),
                (RingAngle, rings),
            ]
            .map(|(field, value)| (field, taken(value))),
        )
    })
}

fn taken(value: f64) -> Reading {
    Reading::of_number(value, "")
}

fn specs() -> impl Strategy<Value = Spec> {
    (0..4usize).prop_map(|n| Spec::supplied().swap_remove(n))
}

fn judged(readings: &Readings, spec: &Spec) -> Sheet {
    sheet(readings, &[], &Instruments::default(), spec)
}

fn score_of(found: &Sheet, criterion: Criterion) -> Option<f64> {
    let mut scored = found.verdict.scored.iter();
    scored
        .find(|s| s.requirement.criterion == criterion)
        .map(|s| s.score)
}

/// Fields that shift the result towards better as they come nearer to nothing.
const SMALLER_IS_BETTER: [(Field, Criterion); 6] = [
    (Bow, Criterion::Straightness),
    (Twist, Criterion::Straightness),
    (Cup, Criterion::Straightness),
    (Crook, Criterion::Crook),
    (GrainFace, Criterion::GrainSlope),
    (GrainEdge, Criterion::GrainSlope),
];

proptest! {
    #[test]
    fn the_planks_score_is_that_of_its_weakest(readings in plank(), spec in specs()) {
        let found = judged(&readings, &spec).verdict;
        let scores: Vec<f64> = found.scored.iter().map(|s| s.score).collect();
        let least = scores.iter().copied().reduce(f64::min);
        prop_assert_eq!(found.score, least);
        prop_assert!(scores.iter().all(|s| (0.0..=100.0).contains(s)));
        let weakest = found.weakest.unwrap();
        let named = found.scored.iter().find(|s| s.requirement.criterion == weakest).unwrap();
        prop_assert_eq!(Some(named.score), least);
        // The mean lies between the least and the greatest, and is nothing as soon as one is.
        let mean = found.mean.unwrap();
        let most = scores.iter().copied().fold(0.0, f64::max);
        prop_assert!(mean <= most + 1e-9 && mean >= least.unwrap() - 1e-9);
        let beyond = found.scored.iter().any(|s| s.margin < 0.0);
        prop_assert!(!beyond || found.score == Some(0.0));
        prop_assert!(found.recommendation != Recommendation::Refused || found.score == Some(0.0));
    }

    #[test]
    fn a_better_value_never_lowers_the_score(
        readings in plank(), spec in specs(), which in 0..6usize, share in 0.0..1.0f64,
    ) {
        let (field, criterion) = SMALLER_IS_BETTER[which];
        let mut better = readings.clone();
        better.get_mut(&field).unwrap().value *= share;
        let (before, after) = (judged(&readings, &spec), judged(&better, &spec));
        prop_assert!(
            score_of(&after, criterion) >= score_of(&before, criterion),
            "{:?} {:?}", score_of(&before, criterion), score_of(&after, criterion)
        );
        prop_assert!(after.verdict.score >= before.verdict.score);
        prop_assert!(after.verdict.mean.unwrap() >= before.verdict.mean.unwrap() - 1e-9);
    }

    #[test]
    fn not_looking_never_raises_what_a_thing_scores(
        readings in plank(), spec in specs(), left in vec(any::<bool>(), 7),
    ) {
        let may_be_left = [Bow, Crook, Twist, Cup, GrainFace, GrainEdge, Moisture];
        let mut fewer = readings.clone();
        for (field, _) in may_be_left.iter().zip(left).filter(|(_, left)| *left) {
            // Across a part turned on edge the cup is next to nothing, and is not asked for.
            if !(*field == Cup && spec.orientation == Orientation::OnEdge) {
                fewer.remove(field);
            }
        }
        let (all, some) = (judged(&readings, &spec), judged(&fewer, &spec));
        for scored in &some.verdict.scored {
            let criterion = scored.requirement.criterion;
            // Parts are counted as if what was not looked at cost nothing; the straightness says so.
            if criterion != Criterion::Size {
                // Where all together can't be worked out (the part is wider than the plank), a bound
                // may still refuse it.
                let most = score_of(&all, criterion).unwrap_or(0.0);
                prop_assert!(scored.score <= most, "{criterion:?}");
            }
            prop_assert!(scored.at_best.is_none() || scored.score == 0.0);
        }
        let judged = some.verdict.scored.len() + some.verdict.unscored.len();
        prop_assert_eq!(judged, spec.criteria.len());
        prop_assert!(some.verdict.unscored.is_empty() || some.verdict.recommendation != Recommendation::Good);
    }

    #[test]
    fn a_fatal_fault_leaves_nothing(readings in plank(), spec in specs()) {
        let decay = DefectFound {
            kind: DefectKind::Decay,
            from: None,
            to: None,
            note: String::new(),
        };
        let found = sheet(&readings, &[decay], &Instruments::default(), &spec).verdict;
        prop_assert_eq!((found.recommendation, found.score), (Recommendation::Refused, Some(0.0)));
    }

    #[test]
    fn every_form_rises_towards_its_target(
        mut at in vec(-100.0..100.0f64, 4), a in -150.0..150.0f64, b in -150.0..150.0f64,
    ) {
        at.sort_by(f64::total_cmp);
        let (near, far) = if a < b { (a, b) } else { (b, a) };
        let at_most = Form::AtMost { target: at[0], limit: at[1] };
        prop_assert!(at_most.desirability(&mut TraceOff, "", near) >= at_most.desirability(&mut TraceOff, "", far));
        let at_least = Form::AtLeast { target: at[1], limit: at[0] };
        prop_assert!(at_least.desirability(&mut TraceOff, "", near) <= at_least.desirability(&mut TraceOff, "", far));
        let window = Form::Within {
            low_limit: at[0], low_target: at[1], high_target: at[2], high_limit: at[3],
        };
        let d = window.desirability(&mut TraceOff, "", a);
        prop_assert!((0.0..=1.0).contains(&d));
        prop_assert_eq!(d == 1.0, (at[1]..=at[2]).contains(&a));
        prop_assert!(window.is_sound() && at_most.is_sound() && at_least.is_sound());
        prop_assert!(window.margin(a) >= 0.0 || d == 0.0);
    }

    #[test]
    fn a_geometric_mean_lies_among_its_own(each in vec(0.0..=1.0f64, 1..8)) {
        let mean = geometric_mean(each.iter().copied()).unwrap();
        let least = each.iter().copied().fold(1.0, f64::min);
        let most = each.iter().copied().fold(0.0, f64::max);
        prop_assert!(mean >= least - 1e-9 && mean <= most + 1e-9);
    }
}
