//! What holds of the evaluation of any plank under any spec.

use super::*;
use crate::plank::{
    BendShape, DefectFound, Field, Instruments, Reading, Readings, Seen, density_as_measured,
    describe, mass_as_weighed, volume,
};
use crate::quantity::TraceOff;
use crate::quantity::{Scalar, in_mm};
use crate::verdict::{
    Figure, FirstCut, Form, Number, Orientation, SlabCounted, parts_held, sheet, working,
};
use proptest::prelude::*;

fn taken(value: f64, by_eye: bool) -> Reading {
    Reading {
        seen: if by_eye { Seen::ByEye } else { Seen::Measured },
        ..Reading::of_number(value, "")
    }
}

/// Usual values for every field, each there or not.
fn readings() -> impl Strategy<Value = Readings> {
    let usual = |field: &Field| match field {
        Field::Length => 700.0..4000.0,
        Field::WidthNear | Field::WidthMiddle | Field::WidthFar => 60.0..300.0,
        Field::ThicknessNear | Field::ThicknessMiddle | Field::ThicknessFar => 20.0..70.0,
        Field::WeightWhole | Field::WeightFirst | Field::WeightSecond => 3.0..30.0,
        Field::Moisture => 5.0..32.0,
        Field::WoodTemperature => -5.0..30.0,
        Field::Bow | Field::Crook | Field::Cup => -12.0..12.0,
        Field::Twist => -15.0..15.0,
        Field::GrainFace | Field::GrainEdge => 0.0..0.1,
        Field::RingAngle => 0.0..90.0,
        Field::BowKink | Field::CrookKink => 100.0..2500.0,
        Field::BalanceMass => 2.0..6.0,
        _ => 50.0..1500.0,
    };
    let often = |field: &Field| match field {
        Field::Length | Field::WidthNear | Field::ThicknessNear => 0.95,
        Field::BowKink | Field::CrookKink | Field::WeightOverhang => 0.2,
        Field::BowOver | Field::CrookOver | Field::CupOver | Field::TwistStick => 0.2,
        _ => 0.7,
    };
    let fields: Vec<_> = Field::ALL
        .iter()
        .map(|field| {
            let read = (usual(field), prop::bool::weighted(0.2));
            (Just(*field), prop::option::weighted(often(field), read))
        })
        .collect();
    fields.prop_map(|all| {
        let there = all
            .into_iter()
            .filter_map(|(field, read)| Some((field, read?)));
        there
            .map(|(field, (value, by_eye))| (field, taken(value, by_eye)))
            .collect()
    })
}

fn defects() -> impl Strategy<Value = Vec<DefectFound>> {
    let kind = prop::sample::select(DefectKind::ALL);
    let place = prop::option::of(100.0..2500.0f64);
    let defect = (kind, place).prop_map(|(kind, from)| DefectFound {
        kind,
        from: from.map(|at| taken(at, false)),
        to: None,
        note: String::new(),
    });
    prop::collection::vec(defect, 0..3)
}

/// The specs supplied, with other sizes, limits, ways of lying and first cuts.
fn specs() -> impl Strategy<Value = Spec> {
    let change = (
        0..4usize,
        prop::option::of(300.0..1200.0f64),
        any::<bool>(),
        0.5..1.5f64,
        prop::option::of(20.0..150.0f64),
    );
    change.prop_map(|(at, length, on_edge, harder, piece)| {
        let mut spec = Spec::supplied().swap_remove(at);
        spec.part.length_mm = length.unwrap_or(spec.part.length_mm);
        if on_edge {
            spec.orientation = Orientation::OnEdge;
        }
        for requirement in &mut spec.criteria {
            if let Form::AtMost { limit, .. } = &mut requirement.form {
                *limit *= harder;
            }
        }
        if let Some(width_mm) = piece {
            spec.first_cut = FirstCut::Piece { width_mm };
        }
        spec
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    // No source is left out of those that are said to move a criterion, whatever the plank.
    #[test]
    fn every_reading_is_moved_that_moves_a_criterion(
        readings in readings(), defects in defects(), spec in specs(),
    ) {
        let plank = describe(&readings, &defects);
        let inputs = Instruments::default().inputs(&readings);
        for found in evaluate(&plank, &inputs, &spec).criteria {
            let of = |plank: &Plank| {
                let alone = evaluate(plank, &[], &spec);
                alone.of(found.criterion).and_then(|one| one.value.number())
            };
            let all_moved = moved(&plank, &inputs, of);
            prop_assert_eq!(&found.estimate, &all_moved, "{:?}", found.criterion);
        }
    }

    // Sheet, explanation and count read the one evaluation: which slab counts is told by none of them anew.
    #[test]
    fn the_sheet_and_its_explanation_tell_the_slab_that_counts(
        readings in readings(), defects in defects(), spec in specs(),
    ) {
        let found = sheet(&readings, &defects, &Instruments::default(), &spec);
        prop_assert_eq!(&found.held, &parts_held(&found.plank, &spec).ok());
        let Some(slab) = found.cut_first else {
            prop_assert!(found.slab.is_none());
            return Ok(());
        };
        let counted = in_mm(slab.slab().thickness);
        let shown = in_mm(found.slab.as_ref().unwrap().value);
        prop_assert!((counted - shown).abs() < 1e-9, "{counted} {shown}");
        let kinked = [found.plank.bow, found.plank.crook]
            .into_iter()
            .flatten()
            .any(|bend| bend.shape != BendShape::Even);
        let parts = found.held.as_ref().map_or(0, |held| held.parts);
        prop_assert!(slab.counted == SlabCounted::BendInside || kinked && parts > 0);
        for number in [Number::Slab, Number::Score(Criterion::Straightness)] {
            let Some(told) = working(number, &found, &spec) else {
                // A score is told where it was given.
                prop_assert!(number != Number::Slab);
                continue;
            };
            let step = told.steps.iter().find(|step| step.explanation.name == "Straight slab").unwrap();
            prop_assert!((step.result - counted).abs() < 1e-9, "{} {counted}", step.result);
        }
    }

    #[test]
    fn every_figure_of_a_sheet_moves_with_all_of_its_sources(
        readings in readings(), defects in defects(), spec in specs(),
    ) {
        let plank = describe(&readings, &defects);
        let tools = Instruments::default();
        let inputs = tools.inputs(&readings);
        let found = sheet(&readings, &defects, &tools, &spec);
        let whole = |p: &Plank| volume(&mut TraceOff, p).ok();
        let weight = |p: &Plank| mass_as_weighed(&mut TraceOff, p).ok();
        let density = |p: &Plank| density_as_measured(&mut TraceOff, p).ok();
        prop_assert_eq!(&found.volume, &moved(&plank, &inputs, whole));
        prop_assert_eq!(&found.mass, &moved(&plank, &inputs, weight));
        prop_assert_eq!(&found.density, &moved(&plank, &inputs, density));
    }

    #[test]
    fn every_score_is_in_whole_points(
        readings in readings(), defects in defects(), spec in specs(),
    ) {
        let found = sheet(&readings, &defects, &Instruments::default(), &spec).verdict;
        let scores = found.scored.iter().map(|one| one.score).chain(found.score);
        for score in scores {
            prop_assert_eq!(score, score.round());
        }
    }
}

fn moved<Q: Scalar>(
    plank: &Plank,
    inputs: &[Input<Source>],
    of: impl Fn(&Plank) -> Option<Q>,
) -> Figure<Q> {
    propagate(inputs, |moved| match moved {
        None => of(plank),
        Some((source, by)) => of(&plank.perturbed(source, by)),
    })
}
