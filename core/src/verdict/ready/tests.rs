//! Ruled on ready, a plank is ruled on as it is judged: whatever it is, and whatever was asked before.

use super::*;
use crate::plank::{
    DefectFound, Field, Instruments, Readings, Seen, Taken, density_as_measured, describe,
    mass_as_weighed, volume,
};
use crate::quantity::{Estimate, Scalar, propagate};
use crate::verdict::{Form, Laid, judge, moisture, sheet};
use crate::wood::density_at_12;
use proptest::prelude::*;

fn taken(value: f64, by_eye: bool) -> Taken {
    Taken {
        insisted: false,
        seen: if by_eye { Seen::ByEye } else { Seen::Measured },
        typed: value.to_string(),
        unit: String::new(),
        value,
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

fn faults() -> impl Strategy<Value = Vec<DefectFound>> {
    let kind = prop::sample::select(DefectKind::ALL);
    let place = prop::option::of(100.0..2500.0f64);
    let fault = (kind, place).prop_map(|(kind, from)| DefectFound {
        kind,
        from: from.map(|at| taken(at, false)),
        to: None,
        note: String::new(),
    });
    prop::collection::vec(fault, 0..3)
}

/// The specs supplied, one after another with other limits, other sizes and another way of cutting.
fn specs() -> impl Strategy<Value = Vec<Spec>> {
    let one = (
        0..4usize,
        300.0..1200.0f64,
        any::<bool>(),
        any::<bool>(),
        0.5..1.5f64,
    );
    let change = |(at, length, other_length, on_edge, harder): (usize, f64, bool, bool, f64)| {
        let mut spec = Spec::supplied().swap_remove(at);
        if other_length {
            spec.part.length_mm = length;
        }
        if on_edge {
            spec.laid = Laid::OnEdge;
        }
        for criterion in &mut spec.criteria {
            if let Form::AtMost { limit, .. } = &mut criterion.form {
                *limit *= harder;
            }
        }
        spec
    };
    prop::collection::vec(one.prop_map(change), 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn it_rules_as_it_judges(readings in readings(), faults in faults(), specs in specs()) {
        let plank = describe(&readings, &faults);
        let inputs = Instruments::default().inputs(&readings);
        let mut ready = ReadyPlank::new(plank.clone(), inputs.clone());
        for spec in &specs {
            let ruling = ready.rule(&ReadySpec::new(spec));
            let found = judge(&plank, &inputs, spec);
            prop_assert_eq!(ruling.call, found.call);
            prop_assert_eq!(ruling.score, found.score);
            prop_assert_eq!(ruling.weakest, found.weakest);
            prop_assert_eq!(ruling.mean, found.mean);
            prop_assert_eq!(ready.fault(spec), found.faults.first().copied());
            let looked = spec.criteria.iter().map(|criterion| criterion.quality);
            for quality in looked.chain([Quality::Size]) {
                prop_assert_eq!(ready.number(quality), quality.of(&plank, spec).number());
            }
        }
    }

    // What is kept from the plank as measured is what would have been worked out of the plank as moved.
    #[test]
    fn every_uncertainty_is_that_of_its_quality_alone(
        readings in readings(), faults in faults(), specs in specs(),
    ) {
        let plank = describe(&readings, &faults);
        let inputs = Instruments::default().inputs(&readings);
        let spec = &specs[0];
        for found in judge(&plank, &inputs, spec).scored {
            let quality = found.criterion.quality;
            let of = |plank: &Plank| quality.of(plank, spec).number();
            let alone = propagate(&inputs, |nudge| match nudge {
                None => of(&plank),
                Some((source, by)) => of(&plank.nudged(source, by)),
            });
            prop_assert_eq!(Some(found.estimate), alone, "{:?}", quality);
        }
    }

    // On the sheet too: no source is left out of those that are said to move a figure.
    #[test]
    fn every_figure_of_a_sheet_moves_with_all_of_its_sources(
        readings in readings(), faults in faults(), specs in specs(),
    ) {
        let plank = describe(&readings, &faults);
        let tools = Instruments::default();
        let inputs = tools.inputs(&readings);
        let found = sheet(&readings, &faults, &tools, &specs[0]);
        let whole = |p: &Plank| volume(p).ok();
        let weight = |p: &Plank| mass_as_weighed(p.weighing?, p.length).ok();
        let read = |p: &Plank| moisture(p).ok();
        prop_assert_eq!(&found.volume, &moved(&plank, &inputs, whole));
        prop_assert_eq!(&found.mass, &moved(&plank, &inputs, weight));
        prop_assert_eq!(&found.moisture, &moved(&plank, &inputs, read));
        let density = |p: &Plank| density_as_measured(p).ok();
        prop_assert_eq!(&found.density, &moved(&plank, &inputs, density));
        let at_12 = |p: &Plank| density_at_12(density_as_measured(p).ok()?, moisture(p).ok()?).ok();
        prop_assert_eq!(&found.density_at_12, &moved(&plank, &inputs, at_12));
    }
}

fn moved<Q: Scalar>(
    plank: &Plank,
    inputs: &[Input<Source>],
    of: impl Fn(&Plank) -> Option<Q>,
) -> Option<Estimate<Q, Source>> {
    propagate(inputs, |nudge| match nudge {
        None => of(plank),
        Some((source, by)) => of(&plank.nudged(source, by)),
    })
}

#[test]
fn a_number_of_another_cut_is_not_told_for_this_one() {
    let mut readings = Readings::new();
    for (field, value) in [
        (Field::Length, 2620.0),
        (Field::WidthNear, 204.0),
        (Field::ThicknessNear, 52.0),
        (Field::Bow, 2.0),
    ] {
        readings.insert(field, taken(value, false));
    }
    let mut ready = ReadyPlank::new(describe(&readings, &[]), Vec::new());
    let mut spec = Spec::supplied().swap_remove(0);
    ready.rule(&ReadySpec::new(&spec));
    assert!(ready.number(Quality::Straightness).is_some());
    spec.part.length_mm /= 2.0;
    spec.criteria
        .retain(|one| one.quality != Quality::Straightness);
    ready.rule(&ReadySpec::new(&spec));
    assert_eq!(ready.number(Quality::Straightness), None);
    assert!(ready.number(Quality::Size).is_some());
}
