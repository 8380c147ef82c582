//! A plank in the yard, from what is typed to the verdict: worked scenarios with the results that a
//! maker would come to by hand. All planks are invented; where a result is a formula's, the formula's
//! own source stands beside it in core.

use Field::*;
use rust_decimal::Decimal;
use stillwood_core::neck::{PartCut, PartWorth, Stock, places_across, places_along, plan_cuts};
use stillwood_core::plank::{
    DefectFound, DefectKind, Field, GrainSlope, Readings, Seen, Source, Understood,
    defect_warnings, describe, quartered_when_turned, slab_cut_first, understand, warnings,
};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{
    Conformance, Moisture as MoistureContent, celsius, degrees, in_kg, in_kg_per_m3, in_m3, in_mm,
    mm, show,
};
use stillwood_core::trade::{TallyRule, ThicknessBasis, tally};
use stillwood_core::verdict::{
    Criterion, FirstCut, Number, Orientation, Recommendation, SlabCounted, Spec, parts_held,
    working,
};
use stillwood_core::wood::{Across, Humidity, OwnWood, Shrinkage, Species, emc, find, search};
use stillwood_tests::yard::{A7, a7_with, line, sheet_of, terms, typed, wanted};

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{found} is not {expected} within {within}"
    );
}

#[test]
fn a7_is_worked_out_as_by_hand() {
    let readings = typed(&A7);
    let found = sheet_of(&readings, &wanted());
    let volume = in_m3(found.volume.as_ref().unwrap().value);
    assert!((0.0278..=0.0279).contains(&volume), "{volume}");
    near(in_kg(found.mass.as_ref().unwrap().value), 19.7, 1e-9);
    // By the three stations the volume is 0.02786; by the mean width, 0.02779 and 709 kg/m3.
    let density = found.density.as_ref().unwrap();
    near(in_kg_per_m3(density.value), 707.0, 0.5);
    near(in_kg_per_m3(density.expanded()), 22.0, 1.0);
    let at_12 = found.density_at_12.as_ref().unwrap();
    near(in_kg_per_m3(at_12.value), 712.0, 4.0);
    near(
        found.moisture.as_ref().unwrap().value.in_percent(),
        11.6,
        0.05,
    );
    let Some(GrainSlope::Combined(slope)) = found.grain else {
        panic!("{:?}", found.grain);
    };
    assert_eq!(show::slope(slope.in_tangent()), "1:15.6");
    near(in_mm(found.slab.as_ref().unwrap().value), 47.3, 0.06);
    near(in_mm(found.whole.unwrap().thickness), 31.0, 1e-9);
    near(in_mm(found.crook_left.unwrap().inside), 0.5, 0.03);
    assert!(found.cannot.is_empty(), "{:?}", found.cannot);
}

#[test]
fn ten_or_more_by_eye_may_refuse_and_never_passes() {
    let by_eye = |field: Field, words: &str| {
        let echo = understand(field, words, Seen::ByEye, false, Units::Metric);
        let Understood::Read { taken, shown, .. } = echo else {
            panic!("{echo:?}");
        };
        (taken, shown)
    };
    let (bow, shown) = by_eye(Bow, "10 or more");
    assert_eq!(shown, "at least 10 mm");
    assert_eq!(by_eye(Bow, "about 6").1, "6 mm");
    assert_eq!(by_eye(RingAngle, "quartered").1, "80°");
    let mut readings = typed(&A7);
    readings.insert(Bow, bow);
    assert!(describe(&readings, &[]).at_least.bow);
    // 10 mm over 2620 would leave plenty; more than that is not known.
    let verdict = sheet_of(&readings, &wanted()).verdict;
    let slab = |u: &&stillwood_core::verdict::Unscored| u.criterion == Criterion::Straightness;
    let left_out = verdict.unscored.iter().find(slab).unwrap();
    assert_eq!(left_out.why, "bow by eye so much or more: measure it");
    // The same words typed with a tape are no step of the eye, and a measured 10 is a value.
    readings.extend(typed(&[(Bow, "10")]));
    assert!(!describe(&readings, &[]).at_least.bow);
    let verdict = sheet_of(&readings, &wanted()).verdict;
    assert!(!verdict.unscored.iter().any(|u| slab(&u)));
    // Grain that is worse than 1 in 10 is beyond the limit, however much worse.
    readings.insert(GrainFace, by_eye(GrainFace, "worse").0);
    let verdict = sheet_of(&readings, &wanted()).verdict;
    assert_eq!(verdict.recommendation, Recommendation::Refused);
}

#[test]
fn a7_costs_171_true_and_167_nominal() {
    let plank = describe(&typed(&A7), &[]);
    let a7 = [line("A7", &plank)];
    let true_rule = TallyRule {
        thickness: ThicknessBasis::Measured,
        ..TallyRule::default()
    };
    for (rule, feet, net, gross) in [
        (true_rule, "11.8", 171, 205),
        (TallyRule::default(), "11.5", 167, 200),
    ] {
        let found = tally(&a7, &terms(rule));
        assert_eq!(found.board_feet.round_dp(1).to_string(), feet);
        assert_eq!(found.money.net.round(), Decimal::from(net));
        assert_eq!(found.money.gross.round(), Decimal::from(gross));
    }
}

#[test]
fn a7_is_at_the_limit_for_runout() {
    let found = sheet_of(&typed(&A7), &wanted()).verdict;
    assert_eq!(found.weakest, Some(Criterion::GrainSlope));
    assert_eq!(found.recommendation, Recommendation::TooClose);
    let grain = found
        .scored
        .iter()
        .find(|s| s.requirement.criterion == Criterion::GrainSlope)
        .unwrap();
    assert_eq!(grain.conformance, Conformance::TooClose);
    assert!(matches!(
        grain.repeat(),
        Some(Source::GrainFace | Source::GrainEdge)
    ));
    assert_eq!(found.score, Some(grain.score));
    assert!(grain.score > 0.0 && grain.score < 50.0);
    assert!(found.unscored.is_empty() && found.reasons.is_empty());
}

#[test]
fn a7_with_a_kink_and_its_rings() {
    let kinked = describe(&a7_with(&[(BowKink, "1310")]), &[]);
    let cut = slab_cut_first(&kinked, mm(950.0), mm(80.0), mm(1.0)).unwrap();
    near(in_mm(cut.bend_inside.thickness), 45.3, 0.06);
    near(in_mm(cut.cut_on_kink.thickness), 48.5, 0.06);
    let plank = describe(&typed(&A7), &[]);
    let band = quartered_when_turned(&mut TraceOff, &plank.rings.unwrap(), mm(204.0))
        .unwrap()
        .unwrap();
    near(in_mm(band.to), 72.0, 0.2);
    near(in_mm(band.from), -72.0, 0.2);
    // From a small log less comes out quartered.
    let small = describe(&a7_with(&[(RingChord, "96"), (RingDip, "24")]), &[]);
    let band = quartered_when_turned(&mut TraceOff, &small.rings.unwrap(), mm(204.0))
        .unwrap()
        .unwrap();
    near(in_mm(band.to), 35.0, 0.5);
}

/// Laminates of 950 x 45 x 16, as supplied; sawn in pieces of 80 mm first where that is said.
fn laminates(first_cut: FirstCut) -> Spec {
    Spec {
        first_cut,
        ..Spec::supplied().swap_remove(0)
    }
}

const PIECES_FIRST: FirstCut = FirstCut::Piece { width_mm: 80.0 };

#[test]
fn the_slab_is_that_of_what_is_sawn_first() {
    let slab = |first_cut| {
        let found = sheet_of(&typed(&A7), &laminates(first_cut));
        let shown = in_mm(found.slab.as_ref().unwrap().value);
        let scored = found.verdict.estimate(Criterion::Straightness).unwrap();
        near(scored.value, shown, 1e-9);
        let other = found.slab_cut_otherwise.unwrap();
        (shown, in_mm(other.slab.thickness), in_mm(other.width))
    };
    // By hand: 52 - 1.183 - 0.171 - 0.025 - 2 over a part of 16 mm;
    // 52 - 1.183 - 0.853 - 0.615 - 2 over a piece of 80 mm.
    let (parts, piece, width) = slab(FirstCut::Part);
    near(parts, 48.62, 0.01);
    // A piece for five parts of 18 mm, four kerfs of 3.2 mm between them.
    near(width, 102.8, 1e-9);
    near(piece, 52.0 - 1.183 - 1.096 - 1.016 - 2.0, 0.01);
    let (piece, parts, width) = slab(PIECES_FIRST);
    near(piece, 47.35, 0.01);
    near(parts, 48.62, 0.01);
    near(width, 16.0, 1e-9);
}

#[test]
fn a_plank_that_passes_in_parts_may_fail_in_pieces() {
    let cupped = a7_with(&[(ThicknessNear, "49"), (Cup, "6")]);
    let slab = |first_cut| {
        let spec = Spec {
            // What may be wrong with the readings is left aside.
            criteria: vec![
                laminates(first_cut)
                    .requirement(Criterion::Straightness)
                    .unwrap(),
            ],
            ..laminates(first_cut)
        };
        sheet_of(&cupped, &spec).verdict.scored[0].margin
    };
    assert!(slab(FirstCut::Part) > 0.0);
    assert!(slab(PIECES_FIRST) < 0.0);
    // Across a piece the cup counts, so that one that was not looked at is named.
    let mut unseen = typed(&A7);
    unseen.remove(&Cup);
    let verdict = |first_cut| sheet_of(&unseen, &laminates(first_cut)).verdict;
    assert!(verdict(FirstCut::Part).unscored.is_empty());
    assert_eq!(verdict(PIECES_FIRST).unscored[0].why, "cup not looked at");
}

#[test]
fn a_spec_that_does_not_say_the_first_cut_has_the_parts_straight_off_the_plank() {
    let written = serde_json::to_value(laminates(FirstCut::Part)).unwrap();
    // As it was written before it could be said.
    assert_eq!(written.get("first_cut"), None);
    assert_eq!(written["laid"], "on_edge");
    assert_eq!(written["criteria"][0]["quality"], "straightness");
    let read: Spec = serde_json::from_value(written).unwrap();
    assert_eq!(read, laminates(FirstCut::Part));
    let said = serde_json::to_value(laminates(PIECES_FIRST)).unwrap();
    assert_eq!(said["first_cut"]["piece"]["width_mm"], 80.0);
    let read: Spec = serde_json::from_value(said).unwrap();
    assert_eq!(read, laminates(PIECES_FIRST));
}

#[test]
fn the_cutting_plan_and_the_verdict_count_the_same() {
    let alike = PartWorth {
        quartersawn: 1.0,
        rift: 1.0,
        flatsawn: 1.0,
        unknown: 1.0,
    };
    let parts = |stock: (f64, f64), thickness, trims: (f64, f64)| {
        let stock = Stock {
            length: mm(stock.0),
            width: mm(stock.1),
            patches: Vec::new(),
        };
        let cut = PartCut {
            length: mm(950.0),
            thickness: mm(thickness),
            planing: mm(1.0),
            kerf: mm(3.2),
            end_trim: mm(trims.0),
            edge_trim: mm(trims.1),
            step: mm(0.1),
        };
        let plan = plan_cuts(&stock, &cut, &|_| None, &alike).unwrap();
        plan.parts() as u32
    };
    let plank = describe(&typed(&A7), &[]);
    for width in [30.0, 57.0, 80.0, 102.8, 130.0] {
        let spec = laminates(FirstCut::Piece { width_mm: width });
        let pieces = parts((2620.0, 193.0), width, (70.0, 5.0));
        let each = parts((950.0, width), 16.0, (0.0, 0.0));
        let held = parts_held(&plank, &spec).unwrap();
        assert_eq!(held.parts, pieces * each, "{width}");
        let told = working(Number::Held, &sheet_of(&typed(&A7), &spec), &spec).unwrap();
        let piece = format!("{width:.1} mm wide once planed");
        assert!(told.notes.iter().any(|note| note.contains(&piece)));
    }
    // Straight off the plank each part is planed on both its faces as well.
    let spec = laminates(FirstCut::Part);
    let held = parts_held(&plank, &spec).unwrap();
    assert_eq!(held.parts, parts((2620.0, 193.0), 16.0, (70.0, 5.0)));
}

#[test]
fn a_kink_that_is_cut_at_counts_the_same_on_the_sheet_as_in_the_verdict() {
    let spec = laminates(FirstCut::Part);
    let found = sheet_of(&a7_with(&[(BowKink, "1310")]), &spec);
    let scored = found.verdict.estimate(Criterion::Straightness).unwrap();
    near(in_mm(found.slab.unwrap().value), scored.value, 1e-9);
    let slab = found.cut_first.unwrap();
    assert_eq!(slab.counted, SlabCounted::CutOnKink);
    near(in_mm(slab.both.cut_on_kink.thickness), scored.value, 1e-9);
    // Of a kinked crook too: nothing is left where it is cut at.
    let crooked = sheet_of(&a7_with(&[(CrookKink, "1310")]), &spec);
    let left = crooked.verdict.estimate(Criterion::Crook).unwrap().value;
    near(left, 0.0, 1e-9);
    near(
        in_mm(crooked.counted(crooked.crook_left.unwrap())),
        left,
        1e-9,
    );
    // Its bow is even: nothing says that the cut takes it away.
    let told = working(Number::Slab, &crooked, &spec).unwrap();
    assert!(told.notes.iter().all(|note| !note.contains("kink")));
    // An even bow of the same gap is inside, wherever it is cut.
    let even = sheet_of(&typed(&A7), &spec).cut_first.unwrap();
    assert_eq!(even.counted, SlabCounted::BendInside);
}

fn asked(field: Field, text: &str, units: Units) -> Understood {
    understand(field, text, Seen::Measured, false, units)
}

#[test]
fn a_width_in_inches_is_offered_never_changed() {
    let echo = asked(WidthNear, "8.25", Units::Metric);
    near(echo.taken().unwrap().value, 8.25, 0.0);
    let warning = echo.warning().unwrap();
    let inches = warning.offers.iter().find(|o| o.text == "8.25 in").unwrap();
    assert!(inches.label.contains("209.6 mm") || inches.label.contains("209.5 mm"));
    let meant = asked(WidthNear, &inches.text, Units::Metric);
    near(meant.taken().unwrap().value, 209.55, 1e-9);
    assert_eq!(meant.warning(), None);
    let confirmed = understand(WidthNear, "8.25", Seen::Measured, true, Units::Metric);
    assert!(confirmed.warning().is_none() && confirmed.taken().unwrap().confirmed);
}

#[test]
fn a_weight_in_pounds_and_half_a_plank() {
    let maple = find("maple-sugar").unwrap().usual_density_at_12().unwrap();
    let whole = |text| {
        let mut readings = typed(&A7);
        readings.remove(&WeightFirst);
        readings.remove(&WeightSecond);
        readings.extend(typed(&[(WeightWhole, text)]));
        warnings(&readings, Some(maple.low), Units::Metric)
    };
    let heavy = whole("43.4");
    assert_eq!(heavy[0].field, WeightWhole);
    assert!(
        heavy[0]
            .warning
            .question
            .contains("heavier than solid wood")
    );
    let offer = &heavy[0].warning.offers[0];
    assert_eq!(offer.text, "43.4 lb");
    assert!(offer.label.contains("19.69 kg") && offer.label.contains("707 kg/m³"));
    let light = whole("8.94");
    assert!(light[0].warning.question.contains("321 kg/m³"));
    assert!(light[0].warning.question.contains("other end"));
    assert!(whole("19.7").is_empty());
}

#[test]
fn mixed_units_are_echoed_and_switching_them_changes_nothing() {
    for (text, mm) in [("2' 7 1/2\"", 800.1), ("825,5", 825.5), ("2.62 m", 2620.0)] {
        let Understood::Read { taken, other, .. } = asked(Length, text, Units::Metric) else {
            panic!("{text}");
        };
        near(taken.value, mm, 1e-9);
        assert_eq!(taken.typed, text);
        assert!(other.ends_with(" in"), "{other}");
    }
    let taken = asked(Length, "2620", Units::Metric)
        .taken()
        .unwrap()
        .clone();
    let inches = show::length(taken.value, Units::Inch);
    assert!(inches.starts_with("103 "), "{inches}");
    assert_eq!(show::length(taken.value, Units::Metric), "2620 mm");
}

#[test]
fn a_wood_that_is_in_no_table() {
    assert!(search("river cherry").iter().all(|m| !m.exact));
    assert_eq!(search("hrad mapel")[0].species.id(), "maple-sugar");
    // Volume, price, density, straightness and runout need no table.
    let found = sheet_of(&typed(&A7), &wanted());
    assert!(found.volume.is_some() && found.density_at_12.is_some() && found.slab.is_some());
    let flat = |wood: &Species| {
        wood.movement(
            &mut TraceOff,
            mm(205.0),
            (degrees(0.0), Across::Width),
            MoistureContent::percent(11.6),
            MoistureContent::percent(8.5),
        )
    };
    let unnamed = Species::from(OwnWood {
        name: "river cherry".into(),
        ..OwnWood::default()
    });
    assert!(flat(&unnamed).is_none() && unnamed.usual_density_at_12().is_none());
    assert!(unnamed.trade().words().contains("not known: no data"));
    let named = Species::from(OwnWood {
        name: "river cherry".into(),
        radial: Some(Shrinkage::percent(4.0)),
        tangential: Some(Shrinkage::percent(7.5)),
        ..OwnWood::default()
    });
    assert!(in_mm(flat(&named).unwrap().unwrap().change) < -1.0);
    assert_eq!(named.tangential_shrinkage().unwrap().source(), "your data");
}

#[test]
fn what_it_will_lose_at_home() {
    let home = emc(&mut TraceOff, celsius(20.0), Humidity::percent(45.0)).unwrap();
    near(home.in_percent(), 8.5, 0.05);
    let maple = find("maple-sugar").unwrap();
    let moved = maple
        .movement(
            &mut TraceOff,
            mm(205.0),
            (degrees(0.0), Across::Width),
            MoistureContent::percent(11.6),
            home,
        )
        .unwrap()
        .unwrap();
    near(in_mm(moved.change), -2.2, 0.06);
}

#[test]
fn ways_of_weighing_come_to_the_same() {
    let mass = |texts: &[(Field, &str)]| {
        let mut readings = typed(&[(Length, "2600"), (WidthNear, "204"), (ThicknessNear, "52")]);
        readings.extend(typed(texts));
        let found = sheet_of(&readings, &wanted());
        in_kg(found.mass.unwrap().value)
    };
    near(mass(&[(WeightWhole, "19.7 kg")]), 19.7, 1e-9);
    near(mass(&[(WeightFirst, "9.85")]), 19.7, 1e-9);
    near(
        mass(&[(WeightFirst, "10"), (WeightOverhang, "300")]),
        23.0,
        1e-9,
    );
    near(
        mass(&[(BalanceMass, "5"), (BalanceArm, "1037")]),
        19.7,
        0.03,
    );
    near(
        mass(&[(BalanceMass, "5"), (BalanceArm, "1047")]) / 19.7,
        1.05,
        0.005,
    );
}

#[test]
fn where_the_cuts_fall_and_how_many_parts() {
    let cuts = places_along(mm(2620.0), mm(950.0), mm(3.2), mm(70.0), &[]).unwrap();
    assert_eq!(cuts.len(), 2);
    near(2620.0 - 70.0 - in_mm(cuts[1].to) - 3.2, 560.0, 20.0);
    for (kerf, parts) in [(1.3, 11), (3.2, 10)] {
        let found = places_across(mm(205.0), mm(16.0), mm(kerf), mm(10.0)).unwrap();
        assert_eq!(found.len(), parts);
    }
    let plank = describe(&typed(&A7), &[]);
    assert_eq!(parts_held(&plank, &wanted()).unwrap().along.len(), 2);
}

#[test]
fn a_fault_beyond_the_end_of_the_plank_is_asked_about() {
    let place = |text: &str| typed(&[(BowKink, text)]).remove(&BowKink);
    let knot = DefectFound {
        kind: DefectKind::Knot,
        from: place("2700"),
        to: None,
        note: String::new(),
    };
    let found = defect_warnings(&typed(&A7), &[knot], Units::Metric);
    assert!(
        found[0].1.question.starts_with("knot at 2700 mm"),
        "{found:?}"
    );
}

#[test]
fn not_looked_at_is_never_good() {
    let everything = sheet_of(&typed(&A7), &wanted()).verdict;
    for (fields, criterion) in [
        (vec![GrainFace, GrainEdge], Criterion::GrainSlope),
        (vec![GrainEdge], Criterion::GrainSlope),
        (vec![Bow], Criterion::Straightness),
        (vec![Crook], Criterion::Crook),
        (vec![WeightFirst, WeightSecond], Criterion::Density),
        (vec![Moisture], Criterion::Moisture),
    ] {
        let mut readings = typed(&A7);
        readings.retain(|field, _| !fields.contains(field));
        let found = sheet_of(&readings, &wanted()).verdict;
        assert!(
            found
                .scored
                .iter()
                .all(|s| s.requirement.criterion != criterion)
        );
        let why = found.unscored.iter().find(|u| u.criterion == criterion);
        assert!(why.unwrap().not_looked, "{criterion:?}");
        assert!(
            found.recommendation < Recommendation::Good
                && everything.recommendation < Recommendation::Good
        );
    }
    let nothing = sheet_of(&Readings::new(), &wanted()).verdict;
    assert_eq!(
        (nothing.recommendation, nothing.score),
        (Recommendation::NothingYet, None)
    );
}

#[test]
fn a_window_and_a_density_that_is_beyond_it() {
    let mut spec = wanted();
    spec.orientation = Orientation::OnEdge;
    let found = sheet_of(
        &a7_with(&[(WeightFirst, "14"), (WeightSecond, "13")]),
        &spec,
    );
    assert_eq!(found.verdict.recommendation, Recommendation::Refused);
    assert_eq!(found.verdict.score, Some(0.0));
    assert_eq!(found.verdict.weakest, Some(Criterion::Density));
    near(in_kg_per_m3(found.density.unwrap().value), 969.0, 1.0);
}
