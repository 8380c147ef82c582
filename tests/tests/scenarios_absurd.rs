//! Absurd values: asked about once or not accepted, never in the way of anything else. All invented.

use Field::*;
use rust_decimal::Decimal;
use stillwood_core::neck::{CutSpec, Zones, count_parts};
use stillwood_core::plank::{Field, Seen, Understood, describe, understand, warnings};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_kg, in_kg_per_m3, in_m3, in_mm, mm};
use stillwood_core::record::date;
use stillwood_core::trade::{PriceBasis, TallyRule, day_warning, price_warning, tally};
use stillwood_core::verdict::Criterion;
use stillwood_tests::yard::{A7, a7_with, line, sheet_of, terms, typed, wanted};

fn asked(field: Field, text: &str, units: Units) -> Understood {
    understand(field, text, Seen::Measured, false, units)
}

#[test]
fn absurd_values_are_asked_about_once_or_not_accepted() {
    for (field, text) in [(Length, "-2620"), (WidthNear, "0"), (Moisture, "0")] {
        let Understood::Unreadable(why) = asked(field, text, Units::Metric) else {
            panic!("{text}");
        };
        assert!(why.contains("more than 0"), "{why}");
    }
    for (field, text) in [
        (ThicknessNear, "520"),
        (Bow, "260"),
        (WidthMiddle, "20"),
        (Moisture, "145"),
    ] {
        let echo = asked(field, text, Units::Metric);
        assert!(echo.warning().is_some() && echo.taken().is_some(), "{text}");
        let again = understand(field, text, Seen::Measured, true, Units::Metric);
        assert!(again.warning().is_none() && again.taken().unwrap().confirmed);
    }
    let odd = a7_with(&[(WidthMiddle, "20")]);
    assert_eq!(warnings(&odd, None, Units::Metric)[0].field, WidthMiddle);
    let twisted = a7_with(&[(Twist, "250")]);
    assert_eq!(warnings(&twisted, None, Units::Metric)[0].field, Twist);
}

#[test]
fn no_absurd_value_gives_a_number_that_is_none() {
    let mut spec = wanted();
    spec.parts_per_blank = 0;
    spec.part.thickness_mm = 0.0;
    let absurd = [
        vec![(Length, "0.001")],
        vec![(ThicknessNear, "520"), (Bow, "260")],
        vec![(WidthNear, "205"), (WidthMiddle, "20"), (WidthFar, "193")],
        vec![(WidthNear, "10"), (WidthMiddle, "205")],
        vec![(Moisture, "145")],
        vec![(Twist, "2500")],
        vec![(RingDip, "0"), (RingChord, "0.001")],
        vec![(WeightOverhang, "1310")],
        vec![(BowKink, "0"), (CrookKink, "99999")],
        vec![(BowOver, "1")],
    ];
    for more in absurd {
        let readings = a7_with(&more);
        for spec in [wanted(), spec.clone()] {
            let found = sheet_of(&readings, &spec);
            let numbers = [
                found.volume.as_ref().map(|e| in_m3(e.value)),
                found.mass.as_ref().map(|e| in_kg(e.value)),
                found.density.as_ref().map(|e| in_kg_per_m3(e.value)),
                found.density_at_12.as_ref().map(|e| in_kg_per_m3(e.value)),
                found.slab.as_ref().map(|e| in_mm(e.value)),
                found.verdict.score,
                found.verdict.mean,
            ];
            assert!(
                numbers.iter().flatten().all(|n| n.is_finite()),
                "{more:?}: {numbers:?}"
            );
            assert!(found.verdict.scored.iter().all(|s| s.score.is_finite()
                && s.margin.is_finite()
                && (0.0..=1.0).contains(&s.probability())));
        }
    }
    let none = describe(&a7_with(&[]), &[]);
    let cut = CutSpec {
        parts_per_blank: 0,
        ..wanted().cut_spec()
    };
    assert_eq!(
        count_parts(&none, &cut, mm(47.3), Zones::default())
            .unwrap()
            .blanks,
        None
    );
}

#[test]
fn a_meter_that_only_says_wet_gives_no_density_at_12() {
    let found = sheet_of(&a7_with(&[(Moisture, "145")]), &wanted());
    assert!(found.density.is_some() && found.density_at_12.is_none());
    assert!(
        found.cannot[0].contains("only says wet"),
        "{:?}",
        found.cannot
    );
    let left_out: Vec<Criterion> = found.verdict.unscored.iter().map(|u| u.criterion).collect();
    assert_eq!(left_out, [Criterion::Density, Criterion::Moisture]);
}

#[test]
fn an_odd_plank_does_not_stop_the_tally_of_the_others() {
    let good = describe(&typed(&A7), &[]);
    let bare = describe(&typed(&[(Length, "2620")]), &[]);
    let found = tally(
        &[line("A7", &good), line("A8", &bare), line("A9", &good)],
        &terms(TallyRule::default()),
    );
    assert_eq!(found.without_footage, 1);
    assert_eq!(found.board_feet.round_dp(1).to_string(), "23.0");
    assert_eq!(found.money.net.to_string(), "333.68");
}

#[test]
fn a_price_without_its_point_and_a_day_to_come_are_asked_about() {
    let price = Decimal::from(1450);
    let asked = price_warning(price, PriceBasis::BoardFoot).expect("a question");
    assert!(asked.contains("14.50"), "{asked}");
    assert_eq!(
        price_warning(Decimal::new(1450, 2), PriceBasis::BoardFoot),
        None
    );
    let day = |text| date(text).expect("a day");
    let asked = day_warning(day("2062-10-03"), day("2026-10-03")).expect("a question");
    assert!(asked.contains("still to come"), "{asked}");
}
