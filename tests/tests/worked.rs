//! What a screen tells of how a number was worked out is how it was worked out: for every plank of the
//! example, the last step gives the number of the sheet.

use rust_decimal::Decimal;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{
    Estimate, Scalar, in_degrees, in_kg, in_kg_per_m3, in_m3, in_mm, inches,
};
use stillwood_core::record;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::queries::quick_questions::{Input, InputKind, QUESTIONS, Reply};
use stillwood_core::record::{Total, explain_total};
use stillwood_core::trade::{
    PriceBasis, PricesAre, Sawn, TallyLine, TallyMeasure, TallyRule, Terms, explain_charge, tally,
};
use stillwood_core::verdict::{Form, Number, Sheet, Spec, working};
use stillwood_core::wood::{find, strength_tested};
use stillwood_tests::dice::Dice;
use stillwood_tests::shown_formula::{check_each, check_steps};

const EXAMPLE: &str = include_str!("../../demo-data/two-yards.json");

fn sheets() -> Vec<(String, Sheet, Spec)> {
    let limits = record::Limits::default();
    let read = record::read(EXAMPLE.as_bytes(), &limits).expect("the example is a notebook");
    let state = State::project_entries(&read.accepted);
    let sheets = state.pieces().filter_map(|piece| {
        let sheet = queries::sheet_of(&state, piece, &Instruments::default())?;
        let spec = state.visit_of(piece)?.opened.spec.clone();
        Some((piece.mark.clone(), sheet, spec))
    });
    sheets.collect()
}

fn value<Q: Scalar, S: Copy>(figure: &Option<Estimate<Q, S>>, of: fn(Q) -> f64) -> Option<f64> {
    Some(of(figure.as_ref()?.value))
}

fn on_sheet(number: Number, sheet: &Sheet, spec: &Spec) -> Option<f64> {
    match number {
        Number::Volume => value(&sheet.volume, in_m3),
        Number::Mass => value(&sheet.mass, in_kg),
        Number::Density => value(&sheet.density, in_kg_per_m3),
        Number::DensityAt12 => value(&sheet.density_at_12, in_kg_per_m3),
        Number::Moisture => value(&sheet.moisture, |m| m.in_percent()),
        Number::Slab => value(&sheet.slab, in_mm),
        Number::SlabBendInside => Some(in_mm(sheet.cut_first?.both.bend_inside.thickness)),
        Number::SlabOnKink => Some(in_mm(sheet.cut_first?.both.cut_on_kink.thickness)),
        Number::SlabCutOtherwise => Some(in_mm(sheet.slab_cut_otherwise?.slab.thickness)),
        Number::SlabWhole => Some(in_mm(sheet.whole?.thickness)),
        Number::BowLeft => Some(in_mm(sheet.bow_left?.inside)),
        Number::CrookLeft => Some(in_mm(sheet.crook_left?.inside)),
        Number::Grain => Some(sheet.grain?.at_least().in_tangent()),
        Number::Runout => Some(in_mm(sheet.runout?)),
        Number::Rings => Some(in_degrees(match spec.orientation {
            stillwood_core::verdict::Orientation::Flat => sheet.rings?.lies,
            stillwood_core::verdict::Orientation::OnEdge => sheet.rings?.stands,
        })),
        Number::Strength => {
            let left = strength_tested(&mut TraceOff, sheet.grain?.at_least()).ok()?;
            Some(100.0 * left)
        }
        Number::BestPlaces => sheet.best_places(spec)?.slabs.last().copied().map(in_mm),
        Number::RingsAcross | Number::Held | Number::Score(_) | Number::PlankScore => None,
    }
}

#[test]
fn the_last_step_gives_the_number_of_the_sheet() {
    use Number::*;
    let numbers = [
        Volume,
        Mass,
        Density,
        DensityAt12,
        Moisture,
        Slab,
        SlabBendInside,
        SlabOnKink,
        SlabCutOtherwise,
        SlabWhole,
        BowLeft,
        CrookLeft,
        Grain,
        Runout,
        Rings,
        Strength,
        BestPlaces,
    ];
    let mut shown = [0; 17];
    for (mark, sheet, spec) in sheets() {
        for (number, count) in numbers.into_iter().zip(&mut shown) {
            let (wanted, working) = (
                on_sheet(number, &sheet, &spec),
                working(number, &sheet, &spec),
            );
            let Some(working) = working else {
                assert_eq!(wanted, None, "{mark}: {number:?} is shown but not told");
                continue;
            };
            check_steps(&working);
            let Some(wanted) = wanted else { continue };
            let Some(last) = working.steps.last() else {
                assert!(
                    !working.notes.is_empty(),
                    "{mark}: {number:?} tells nothing"
                );
                continue;
            };
            // The step is in mm, the sheet in metres: all that may differ is the last binary digit.
            let same = (last.result - wanted).abs() <= 4.0 * f64::EPSILON * wanted.abs();
            assert!(same, "{mark}: {number:?}: {} {wanted}", last.result);
            *count += 1;
        }
    }
    assert!(
        shown.iter().filter(|count| **count > 3).count() >= 15,
        "{shown:?}"
    );
}

#[test]
fn rings_across_the_width_are_told_from_the_flattest_to_the_steepest() {
    let mut told = 0;
    for (mark, sheet, spec) in sheets() {
        let Some(across) = sheet.rings_across() else {
            continue;
        };
        let working = working(Number::RingsAcross, &sheet, &spec).expect("it is told");
        check_steps(&working);
        let results: Vec<f64> = working.steps.iter().map(|step| step.result).collect();
        for angle in [across.lie.least, across.lie.greatest] {
            assert!(results.contains(&in_degrees(angle)), "{mark}: {results:?}");
        }
        told += 1;
    }
    assert!(told > 0);
}

#[test]
fn a_score_is_told_as_it_was_given() {
    let (mut told, mut sure, mut spreads) = (0, 0, 0);
    for (mark, sheet, spec) in sheets() {
        for scored in &sheet.verdict.scored {
            let number = Number::Score(scored.requirement.criterion);
            let working = working(number, &sheet, &spec).expect("a score has its working");
            check_steps(&working);
            let shares: Vec<f64> = working
                .steps
                .iter()
                .filter(|step| step.explanation.name == "Desirability")
                .map(|step| step.result.clamp(0.0, 1.0))
                .collect();
            let least = shares.into_iter().reduce(f64::min);
            if scored.margin >= 0.0
                && let Some(least) = least
            {
                assert_eq!((least * 100.0).round(), scored.score, "{mark}");
                told += 1;
            }
            let beyond = working.notes.iter().any(|note| note.starts_with("Beyond"));
            assert_eq!(beyond, scored.margin < 0.0, "{mark}");
            if let Form::AtMost { .. } | Form::AtLeast { .. } = scored.requirement.form
                && scored.estimate.standard > 0.0
            {
                let last = working.steps.last().expect("how sure it is");
                assert_eq!(last.result, scored.probability(), "{mark}");
                sure += 1;
            }
            if let Some(spread) = working.spread {
                let all: f64 = spread.shares.iter().map(|(_, share)| share).sum();
                assert!((all - 100.0).abs() < 1e-6, "{mark}: {all}");
                spreads += 1;
            }
        }
    }
    assert!(
        told > 40 && sure > 40 && spreads > 40,
        "{told} {sure} {spreads}"
    );
}

#[test]
fn a_bill_is_told_to_the_cent() {
    let read = record::read(EXAMPLE.as_bytes(), &record::Limits::default())
        .expect("the example is a notebook");
    let state = State::project_entries(&read.accepted);
    let mut told = 0;
    for visit in state.visits() {
        let tally = queries::tally_of(&state, visit.id).expect("a tally");
        for plank in &tally.planks {
            let working = explain_charge(&plank.line, &plank.terms, &plank.tallied, "EUR");
            check_steps(&working);
            let Ok(money) = &plank.tallied.money else {
                continue;
            };
            let last = working.steps.last().expect("a bill has its steps");
            let billed = match plank.terms.prices_are {
                PricesAre::Net => money.gross,
                PricesAre::Gross => money.net,
            };
            assert_eq!(
                format!("{:.2}", last.result),
                billed.to_string(),
                "{}",
                plank.tallied.mark
            );
            told += 1;
        }
    }
    assert!(told > 10, "{told}");
}

#[test]
fn what_the_wood_costs_is_told_to_the_cent() {
    let read = record::read(EXAMPLE.as_bytes(), &record::Limits::default())
        .expect("the example is a notebook");
    let state = State::project_entries(&read.accepted);
    for visit in state.visits() {
        let tally = queries::tally_of(&state, visit.id).expect("a tally");
        for (total, wanted) in [
            (Total::CostPerPart, tally.cost_per_part),
            (Total::CostPerGoodBlank, tally.cost_per_good_blank),
        ] {
            let wanted = wanted.expect("the example has prices and parts");
            let working =
                explain_total(total, &tally, &visit.opened.spec, "EUR").expect("it is told");
            check_steps(&working);
            let last = working.steps.last().expect("a step");
            let wanted: f64 = wanted.try_into().expect("an amount");
            assert!(
                (last.result - wanted).abs() < 1e-9,
                "{} {wanted}",
                last.result
            );
        }
    }
}

#[test]
fn every_custom_of_a_yard_is_told() {
    let line = TallyLine {
        mark: "A1".into(),
        sawn: Sawn {
            length: Some(inches(96.0)),
            width: Some(inches(9.1)),
            thickness: Some(inches(2.05)),
            nominal: Some(inches(2.0)),
        },
        width_with_wane: None,
        mass: None,
    };
    let terms = Terms {
        rule: TallyRule {
            measure: TallyMeasure::SurfaceMeasure,
            added_percent: Decimal::from(15),
            ..TallyRule::default()
        },
        price: Some((Decimal::from(10), PriceBasis::BoardFoot)),
        discount_percent: Decimal::from(5),
        tax_percent: Decimal::from(20),
        prices_are: PricesAre::Gross,
    };
    let tallied = &tally(std::slice::from_ref(&line), &terms).lines[0];
    let working = explain_charge(&line, &terms, tallied, "EUR");
    check_steps(&working);
    let results: Vec<String> = working
        .steps
        .iter()
        .map(|step| format!("{:.4}", step.result))
        .collect();
    // 8 ft x 9.1 in is 6.0667 square feet, so 6; 12 bf, 13.8 with 15 %; 138, 131.10 with 5 % off.
    let by_hand = [
        "6.0667", "12.0000", "13.8000", "138.0000", "131.1000", "109.2500",
    ];
    assert_eq!(results, by_hand);
    assert_eq!(tallied.money.unwrap().net.to_string(), "109.25");
}

/// What is likely typed for an input, and what is less so.
fn likely(kind: InputKind) -> &'static [&'static str] {
    match kind {
        InputKind::Length => &["2620", "205", "52", "8 ft", "9 in", "3", "1 1/2 in"],
        InputKind::Temperature => &["8 C", "20", "68 F"],
        InputKind::Humidity => &["30", "45 %", "65", "80"],
        InputKind::Moisture => &["6", "8.5", "12", "19 %"],
        InputKind::Angle => &["10", "45", "85"],
        InputKind::Density => &["520", "705"],
        InputKind::Slope => &["1:10", "1:20"],
        InputKind::Mass => &["2.4", "19.7", "40 lb"],
        InputKind::Frequency => &["2220 Hz", "440"],
        InputKind::Amount => &["3", "14.50", "100"],
        InputKind::Wood => &[""],
    }
}

#[test]
fn every_step_of_a_quick_question_follows() {
    let mut dice = Dice::of(7, 1);
    let mut steps = 0;
    for question in QUESTIONS {
        for way in question.ways {
            let mut answers = 0;
            for _ in 0..300 {
                let text =
                    |input: &Input| (input.label, (*dice.pick(likely(input.kind))).to_owned());
                let typed: Vec<(&str, String)> = way.inputs.iter().map(text).collect();
                let reply = way.reply(&typed, find("maple-sugar"), Units::Metric);
                if let Reply::Answer(answer) = reply {
                    // An answer may have several figures: not every step leads to the last.
                    steps += check_each(&answer.working);
                    let beside = answer.figures.iter().filter_map(|one| one.beside.as_ref());
                    steps += beside.map(check_each).sum::<usize>();
                    answers += 1;
                }
            }
            assert!(answers > 0, "{} {}: no answer", question.asks, way.name);
        }
    }
    assert!(steps > 1000, "{steps}");
}
