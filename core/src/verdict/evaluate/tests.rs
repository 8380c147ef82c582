//! The evaluation at its edges.

use super::*;
use crate::plank::{
    AtLeast, Bend, BendShape, Cup, Defect, MeterReading, Stations, Twist, TwistRead, Weighing,
};
use crate::quantity::{Moisture, Slope, celsius, kg, mm, propagate};
use crate::verdict::{Form, Orientation, Requirement, parts_held};

/// A plank of 2620 x 204 x 52, 19.7 kg, good in everything that is looked at.
pub(super) fn plank() -> Plank {
    let bend = |gap| Bend {
        gap: mm(gap),
        over: None,
        shape: BendShape::Even,
        signed: true,
    };
    Plank {
        length: Some(mm(2620.0)),
        widths: Stations::one(mm(204.0)),
        thicknesses: Stations::one(mm(52.0)),
        weighing: Some(Weighing::Whole(kg(19.7))),
        meter: Some(MeterReading {
            shown: Moisture::percent(8.0),
            wood: Some(celsius(20.0)),
        }),
        bow: Some(bend(2.0)),
        crook: Some(bend(1.0)),
        twist: Some(Twist {
            rise: mm(2.0),
            read: TwistRead::Corner,
            hand: None,
        }),
        grain_face: Some(Slope::tangent(0.01)),
        grain_edge: Some(Slope::tangent(0.01)),
        ..Plank::default()
    }
}

pub(super) fn spec() -> Spec {
    Spec::supplied().swap_remove(0)
}

pub(super) fn only(criterion: Criterion, form: Form) -> Spec {
    Spec {
        criteria: vec![Requirement { criterion, form }],
        ..spec()
    }
}

pub(super) fn value(criterion: Criterion, plank: &Plank, spec: &Spec) -> CriterionValue {
    evaluate(plank, &[], spec).of(criterion).unwrap().value
}

fn within(source: Source, half_width: f64) -> [Input<Source>; 1] {
    [Input::within(source, half_width)]
}

#[test]
fn a_good_plank_is_taken() {
    let found = evaluate(&plank(), &[], &spec());
    assert_eq!(found.recommendation, Recommendation::Good);
    assert_eq!(found.score, Some(100.0));
    assert!(found.unscored.is_empty() && found.reasons.is_empty() && found.closest().is_none());
}

#[test]
fn without_criteria_nothing_is_judged() {
    let none = Spec {
        criteria: vec![],
        ..spec()
    };
    let found = evaluate(&plank(), &[], &none);
    assert_eq!(
        (found.recommendation, found.score),
        (Recommendation::NothingYet, None)
    );
    assert_eq!((found.weakest, found.mean), (None, None));
}

#[test]
fn with_nothing_looked_at_nothing_is_judged() {
    let found = evaluate(&Plank::default(), &[], &spec());
    assert_eq!(
        (found.recommendation, found.score),
        (Recommendation::NothingYet, None)
    );
    assert_eq!(found.unscored.len(), spec().criteria.len());
    assert!(
        found
            .unscored
            .iter()
            .all(|u| u.not_looked && !u.why.is_empty())
    );
}

#[test]
fn one_thing_missing_is_good_so_far_and_named() {
    let bare = Plank {
        crook: None,
        ..plank()
    };
    let found = evaluate(&bare, &[], &spec());
    assert_eq!(found.recommendation, Recommendation::GoodSoFar);
    assert_eq!(found.unscored[0].criterion, Criterion::Crook);
    assert_eq!(found.unscored[0].why, "crook not looked at");
}

#[test]
fn a_fatal_defect_refuses_whatever_the_rest() {
    let defect = |kind| Defect {
        kind,
        from: None,
        to: None,
        note: String::new(),
    };
    let shaken = Plank {
        defects: [DefectKind::Shake, DefectKind::Pith, DefectKind::Shake]
            .map(defect)
            .to_vec(),
        ..plank()
    };
    let found = evaluate(&shaken, &[], &spec());
    assert_eq!(
        (found.recommendation, found.score),
        (Recommendation::Refused, Some(0.0))
    );
    assert_eq!(found.fatal_defects, [DefectKind::Shake, DefectKind::Pith]);
    assert_eq!(found.reasons, [Reason::Shake, Reason::Pith]);
    // A defect alone is enough.
    let nothing_else = Plank {
        defects: vec![defect(DefectKind::Shake)],
        ..Plank::default()
    };
    assert_eq!(
        evaluate(&nothing_else, &[], &spec()).recommendation,
        Recommendation::Refused
    );
    // What the maker does not call fatal does not refuse.
    let forgiving = Spec {
        fatal: vec![],
        ..spec()
    };
    assert_eq!(
        evaluate(&shaken, &[], &forgiving).recommendation,
        Recommendation::Good
    );
}

#[test]
fn at_the_limit_it_scores_nothing_and_is_too_close() {
    let slope = 0.01 * std::f64::consts::SQRT_2;
    let form = Form::AtMost {
        target: slope / 2.0,
        limit: slope,
    };
    let spec = only(Criterion::GrainSlope, form);
    let exact = evaluate(&plank(), &[], &spec);
    assert!(exact.score.unwrap() < 1e-9 && exact.recommendation == Recommendation::Good);
    let found = evaluate(&plank(), &within(Source::GrainFace, 1.0 / 300.0), &spec);
    assert_eq!(found.recommendation, Recommendation::TooClose);
    let close = found.closest().unwrap();
    assert_eq!(close.repeat(), Some(Source::GrainFace));
    assert!((close.probability() - 0.5).abs() < 0.01);
}

#[test]
fn a_quality_that_two_criteria_ask_for_is_as_uncertain_in_both() {
    let form = |limit| Form::AtMost {
        target: 0.01,
        limit,
    };
    let requirement = |limit| Requirement {
        criterion: Criterion::GrainSlope,
        form: form(limit),
    };
    let twice = Spec {
        criteria: vec![requirement(0.05), requirement(0.06)],
        ..spec()
    };
    let found = evaluate(&plank(), &within(Source::GrainFace, 1.0 / 300.0), &twice);
    assert_eq!(found.scored.len(), 2);
    assert_eq!(found.scored[0].estimate, found.scored[1].estimate);
    assert_eq!(found.scored[1].estimate.parts.len(), 1);
}

#[test]
fn where_limit_and_target_are_one_it_is_all_or_nothing() {
    let parts = |wanted| {
        let form = Form::AtLeast {
            target: wanted,
            limit: wanted,
        };
        evaluate(&plank(), &[], &only(Criterion::Size, form))
    };
    let held = parts(1.0).scored[0].estimate.value;
    assert!(held >= 2.0);
    assert_eq!(parts(held).score, Some(100.0));
    assert_eq!(parts(held + 1.0).score, Some(0.0));
    assert_eq!(parts(held + 1.0).reasons, [Reason::TooSmall]);
}

#[test]
fn a_bound_beyond_the_limit_counts_and_one_inside_does_not() {
    // The edge was not looked at: the grain slopes at least as on the face.
    let face = |tangent| Plank {
        grain_face: Some(Slope::tangent(tangent)),
        grain_edge: None,
        ..plank()
    };
    let form = Form::AtMost {
        target: 0.05,
        limit: 1.0 / 15.0,
    };
    let spec = only(Criterion::GrainSlope, form);
    let inputs = within(Source::GrainFace, 1.0 / 300.0);
    let surely = evaluate(&face(0.1), &inputs, &spec);
    assert_eq!(
        (surely.recommendation, surely.score),
        (Recommendation::Refused, Some(0.0))
    );
    assert_eq!(
        surely.scored[0].at_best.as_deref(),
        Some("edge not looked at")
    );
    assert_eq!(surely.reasons, [Reason::Runout]);
    let barely = evaluate(&face(0.067), &inputs, &spec);
    assert_eq!(
        (barely.recommendation, barely.score),
        (Recommendation::TooClose, Some(0.0))
    );
    let inside = evaluate(&face(0.01), &inputs, &spec);
    assert_eq!(
        (inside.recommendation, inside.score),
        (Recommendation::NothingYet, None)
    );
    assert_eq!(inside.unscored[0].why, "edge not looked at");
}

#[test]
fn the_eyes_last_step_is_a_bound() {
    let spec = Spec {
        orientation: Orientation::Flat,
        ..spec()
    };
    let with = |at_least| Plank {
        cup: Some(Cup {
            gap: mm(1.0),
            over: None,
        }),
        at_least,
        ..plank()
    };
    let of = |criterion: Criterion, at_least| value(criterion, &with(at_least), &spec);
    let closed = AtLeast::default();
    let bow = AtLeast {
        bow: true,
        ..closed
    };
    for (criterion, at_least, what) in [
        (Criterion::Straightness, bow, "bow"),
        (Criterion::Size, bow, "bow"),
        (
            Criterion::Crook,
            AtLeast {
                crook: true,
                ..closed
            },
            "crook",
        ),
        (
            Criterion::GrainSlope,
            AtLeast {
                grain_edge: true,
                ..closed
            },
            "grain",
        ),
    ] {
        let CriterionValue::Value(value) = of(criterion, closed) else {
            panic!("{criterion:?}: {:?}", of(criterion, closed));
        };
        let why = format!("{what} by eye so much or more: measure it");
        let CriterionValue::AtBest(bound, said) = of(criterion, at_least) else {
            panic!("{criterion:?}: {:?}", of(criterion, at_least));
        };
        assert_eq!((bound, said.to_string()), (value, why));
    }
    // Turned on edge, a cup is next to nothing across the part.
    let cup = AtLeast {
        cup: true,
        ..closed
    };
    assert!(matches!(
        of(Criterion::Straightness, cup),
        CriterionValue::AtBest(..)
    ));
    let edge = Spec {
        orientation: Orientation::OnEdge,
        ..spec.clone()
    };
    let on_edge = value(Criterion::Straightness, &with(cup), &edge);
    assert!(matches!(on_edge, CriterionValue::Value(_)), "{on_edge:?}");
}

#[test]
fn a_shape_that_was_not_looked_at_is_named() {
    let spec = Spec {
        orientation: Orientation::Flat,
        ..spec()
    };
    let found = evaluate(&plank(), &[], &spec);
    let why = found
        .unscored
        .iter()
        .find(|u| u.criterion == Criterion::Straightness);
    assert_eq!(why.unwrap().why, "cup not looked at");
}

#[test]
fn the_reason_is_what_takes_most() {
    let bent = |gap, shape| Plank {
        bow: Some(Bend {
            gap: mm(gap),
            over: None,
            shape,
            signed: true,
        }),
        ..plank()
    };
    let reasons = |plank: &Plank| evaluate(plank, &[], &spec()).reasons;
    assert_eq!(
        reasons(&bent(60.0, BendShape::Even)),
        [Reason::Bow, Reason::TooSmall]
    );
    let kinked = bent(40.0, BendShape::Kink(mm(1310.0)));
    // A cut on the kink costs nothing, while the plank holds parts beside it.
    assert_eq!(reasons(&kinked), []);
    let short = Plank {
        length: Some(mm(1500.0)),
        ..bent(40.0, BendShape::Kink(mm(750.0)))
    };
    assert_eq!(reasons(&short)[0], Reason::Kink);
    let thin = Plank {
        thicknesses: Stations::one(mm(30.0)),
        ..plank()
    };
    assert!(reasons(&thin).contains(&Reason::TooSmall));
    // 38 mm once planed, where 45 are needed: straight it would be too thin as well.
    let thin_and_bent = Plank {
        thicknesses: Stations::one(mm(40.0)),
        ..bent(9.0, BendShape::Even)
    };
    let found = reasons(&thin_and_bent);
    assert!(found[0] == Reason::TooSmall && !found.contains(&Reason::Bow));
    for (kilograms, reason) in [(30.0, Reason::TooHeavy), (12.0, Reason::TooLight)] {
        let plank = Plank {
            weighing: Some(Weighing::Whole(kg(kilograms))),
            ..plank()
        };
        assert_eq!(reasons(&plank), [reason]);
    }
}

#[test]
fn a_window_narrower_than_the_reading_is_uncertain_is_never_surely_inside() {
    let form = Form::Within {
        low_limit: 7.9,
        low_target: 8.0,
        high_target: 8.0,
        high_limit: 8.1,
    };
    let spec = only(Criterion::Moisture, form);
    let found = evaluate(&plank(), &within(Source::Meter, 1.0), &spec);
    assert_eq!(found.recommendation, Recommendation::TooClose);
    // Half of it lies beyond either limit: from one limit alone it would be over one half.
    assert!(found.scored[0].probability() < 0.2);
}

#[test]
fn a_gap_read_as_nothing_is_not_certain() {
    let straight = Plank {
        crook: Some(Bend {
            gap: mm(0.0),
            over: Some(mm(950.0)),
            shape: BendShape::Even,
            signed: false,
        }),
        ..plank()
    };
    let form = Form::AtMost {
        target: 0.3,
        limit: 0.5,
    };
    let spec = only(Criterion::Crook, form);
    let found = evaluate(&straight, &within(Source::Crook, 1.0), &spec);
    assert_eq!(found.recommendation, Recommendation::TooClose);
}

/// The plank with a knot that is cut round and costs a part.
fn knotted() -> Plank {
    let knot = Defect {
        kind: DefectKind::Knot,
        from: Some(mm(700.0)),
        to: None,
        note: String::new(),
    };
    Plank {
        defects: vec![knot],
        ..plank()
    }
}

#[test]
fn a_knot_that_is_cut_round_makes_no_size_uncertain() {
    let parts = |plank: &Plank| {
        let form = Form::AtLeast {
            target: 1.0,
            limit: 1.0,
        };
        let found = evaluate(
            plank,
            &[
                Input::within(Source::Scale, 0.1),
                Input::within(Source::Length, 0.1),
            ],
            &only(Criterion::Size, form),
        );
        found.scored[0].estimate.clone()
    };
    let (clear, knotted) = (parts(&plank()), parts(&knotted()));
    assert!(knotted.value < clear.value);
    assert_eq!((clear.standard, knotted.standard), (0.0, 0.0));
}

#[test]
fn each_uncertainty_is_that_of_its_quality_alone() {
    let inputs = [
        (Source::Length, 5.0),
        (Source::Width, 3.0),
        (Source::Thickness, 1.0),
        (Source::Scale, 0.1),
        (Source::Meter, 1.0),
        (Source::Temperature, 2.0),
        (Source::Bow, 1.0),
        (Source::Crook, 1.0),
        (Source::Twist, 1.0),
        (Source::GrainFace, 0.003),
        (Source::GrainEdge, 0.003),
    ]
    .map(|(source, half_width)| Input::within(source, half_width));
    let mut kinked = plank();
    kinked.bow = kinked.bow.map(|bow| Bend {
        shape: BendShape::Kink(mm(900.0)),
        ..bow
    });
    for plank in [plank(), knotted(), kinked] {
        for spec in Spec::supplied() {
            for found in evaluate(&plank, &inputs, &spec).scored {
                let criterion = found.requirement.criterion;
                let of = |plank: &Plank| value(criterion, plank, &spec).number();
                let alone = propagate(&inputs, |moved| match moved {
                    None => of(&plank),
                    Some((source, by)) => of(&plank.perturbed(source, by)),
                });
                // No source is left out of those that are said to move it.
                assert_eq!(Some(found.estimate), alone, "{criterion:?}");
            }
        }
    }
}

#[test]
fn parts_are_counted_in_what_planing_leaves_where_no_shape_was_looked_at() {
    let bare = Plank {
        bow: None,
        twist: None,
        cup: None,
        ..plank()
    };
    // 52 mm less 1.5 mm off each face.
    let spec = |thickness_mm: f64| {
        let spec = spec();
        Spec {
            part: crate::verdict::Part {
                thickness_mm,
                ..spec.part
            },
            orientation: Orientation::Flat,
            planing_mm: 1.5,
            ..spec
        }
    };
    let parts = |thickness| parts_held(&bare, &spec(thickness)).unwrap().parts;
    assert!(parts(49.0) > 0);
    assert_eq!(parts(49.1), 0);
}

#[test]
fn a_kinked_crook_is_cut_at_and_an_even_one_is_the_same_everywhere() {
    let crooked = |length: f64, shape| Plank {
        length: Some(mm(length)),
        crook: Some(Bend {
            gap: mm(8.0),
            over: None,
            shape,
            signed: true,
        }),
        ..plank()
    };
    let left = |plank: &Plank| value(Criterion::Crook, plank, &spec()).number().unwrap();
    let kink = |length| crooked(length, BendShape::Kink(mm(length / 2.0)));
    assert_eq!(left(&kink(2620.0)), 0.0);
    let part = spec().part.length_mm;
    // Too short for a part beside the kink: it lies inside, and costs half of its angle's rise.
    let short = part * 1.5;
    let inside = 8.0 * part / short;
    assert!((left(&kink(short)) - inside).abs() < 1e-9);
    let even = 8.0 * (part / 2620.0) * (part / 2620.0);
    assert!((left(&crooked(2620.0, BendShape::Even)) - even).abs() < 1e-9);
}

#[test]
fn parts_are_counted_beside_a_kink_that_is_cut_at() {
    let kinked = |shape| Plank {
        crook: Some(Bend {
            gap: mm(4.0),
            over: None,
            shape,
            signed: true,
        }),
        ..plank()
    };
    let spec = spec();
    let count = |plank: &Plank| value(Criterion::Size, plank, &spec).number().unwrap();
    let even = kinked(BendShape::Even);
    // Too far along for a second part behind it, too near for one before.
    let at = spec.end_trim_mm + spec.part.length_mm * 1.5;
    let kink = kinked(BendShape::Kink(mm(at)));
    for plank in [&even, &kink] {
        let held = parts_held(plank, &spec).unwrap().parts;
        assert_eq!(count(plank), f64::from(held));
    }
    let short = |plank: &Plank| Plank {
        length: Some(mm(2.0 * spec.end_trim_mm + 2.1 * spec.part.length_mm)),
        ..plank.clone()
    };
    assert_eq!(count(&short(&even)), 2.0 * count(&short(&kink)));
}

#[test]
fn the_supplied_limits_of_the_slab_follow_the_part() {
    for spec in Spec::supplied() {
        let form = spec.requirement(Criterion::Straightness).unwrap().form;
        assert_eq!(form, Form::of_slab(spec.slab_needed_mm()), "{}", spec.name);
    }
}

#[test]
fn supplied_limits_never_lie_inside_their_targets() {
    for spec in Spec::supplied() {
        for one in &spec.criteria {
            assert_eq!(spec.requirement(one.criterion), Some(*one));
            let (better, worse) = match one.form {
                Form::AtMost { target, limit } => (limit > target, target > 0.0),
                Form::AtLeast { target, limit } => (limit <= target, limit > 0.0),
                Form::Within {
                    low_limit,
                    low_target,
                    high_target,
                    high_limit,
                } => (
                    low_limit < low_target && low_target <= high_target,
                    high_target < high_limit,
                ),
            };
            assert!(better && worse, "{:?}", one.criterion);
            // No part is made of wood whose grain runs out within five times its own depth.
            if let (Criterion::GrainSlope, Form::AtMost { limit, .. }) = (one.criterion, one.form) {
                assert!(limit <= 0.2);
            }
        }
    }
}
