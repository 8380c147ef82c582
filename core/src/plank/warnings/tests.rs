//! Questions raised by a plank that slips in its typing.

use super::*;
use crate::plank::{DefectKind, Seen, understand};
use crate::quantity::kg_per_m3;
use Field::*;

fn readings(typed: &[(Field, &str)], units: Units) -> Readings {
    typed
        .iter()
        .map(|(field, text)| {
            let echo = understand(*field, text, Seen::Measured, false, units);
            (*field, echo.taken().expect("a reading").clone())
        })
        .collect()
}

const SIZE: [(Field, &str); 5] = [
    (Length, "2620"),
    (WidthNear, "214"),
    (WidthMiddle, "205"),
    (WidthFar, "193"),
    (ThicknessNear, "52"),
];

/// The plank of the tests with some fields typed anew.
fn with(more: &[(Field, &str)]) -> Readings {
    let mut all = readings(&SIZE, Units::Metric);
    all.extend(readings(more, Units::Metric));
    all
}

fn asked(readings: &Readings) -> Vec<(Field, String)> {
    warnings(readings, Some(kg_per_m3(565.0)), Units::Metric)
        .into_iter()
        .map(|d| (d.field, d.warning.question))
        .collect()
}

#[test]
fn a_usual_plank_raises_no_question() {
    let usual = with(&[
        (WeightFirst, "10.3"),
        (WeightSecond, "9.4"),
        (Bow, "9"),
        (BowKink, "1310"),
        (Twist, "12 left"),
        (RingChord, "150"),
        (RingDip, "25"),
    ]);
    assert_eq!(asked(&usual), []);
    assert_eq!(asked(&Readings::new()), []);
}

#[test]
fn pounds_taken_for_kilograms_are_offered_as_pounds() {
    let heavy = with(&[(WeightWhole, "43.4")]);
    let found = warnings(&heavy, None, Units::Metric);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].field, WeightWhole);
    assert!(
        found[0].warning.question.contains("1558 kg/m³"),
        "{found:?}"
    );
    assert_eq!(found[0].warning.offers[0].text, "43.4 lb");
    assert!(
        found[0].warning.offers[0]
            .label
            .starts_with("43.4 lb = 19.69 kg: 707"),
        "{found:?}"
    );
    // Two ends: each has its own button.
    let ends = with(&[(WeightFirst, "22.7"), (WeightSecond, "20.7")]);
    let found = warnings(&ends, None, Units::Metric);
    let texts: Vec<&str> = found
        .iter()
        .flat_map(|d| d.warning.offers.iter().map(|o| o.text.as_str()))
        .collect();
    assert_eq!(texts, ["22.7 lb", "20.7 lb"]);
    // One pressed, the other not yet.
    let half = with(&[(WeightFirst, "22.7 lb"), (WeightSecond, "20.7")]);
    assert_eq!(asked(&half)[0].0, WeightSecond);
    // Typed with its unit the number is asked about all the same.
    let said = with(&[(WeightWhole, "43.4 kg")]);
    let offers = &warnings(&said, None, Units::Metric)[0].warning.offers;
    assert_eq!(offers[0].text, "43.4 lb");
}

#[test]
fn half_a_plank_is_asked_about() {
    let light = with(&[(WeightWhole, "8.94")]);
    let found = asked(&light);
    assert!(found[0].1.contains("321 kg/m³"), "{found:?}");
    assert!(found[0].1.contains("other end"), "{found:?}");
    // Where the wood is not known only what is under every wood is asked about.
    assert!(warnings(&light, None, Units::Metric).is_empty());
    // Kilograms taken for pounds.
    let mut inch = readings(&SIZE, Units::Metric);
    inch.extend(readings(&[(WeightWhole, "19.7")], Units::Inch));
    let found = warnings(&inch, Some(kg_per_m3(565.0)), Units::Inch);
    assert_eq!(found[0].warning.offers[0].text, "19.7 kg");
}

#[test]
fn one_of_three_far_from_the_others() {
    let slip = with(&[(WidthMiddle, "20")]);
    let found = warnings(&slip, None, Units::Metric);
    assert_eq!(found[0].field, WidthMiddle);
    assert!(found[0].warning.question.contains("214 mm and 193 mm"));
    assert_eq!(found[0].warning.offers[0].text, "200 mm");
    // A wide taper is no slip.
    let taper = with(&[(WidthNear, "300"), (WidthMiddle, "230"), (WidthFar, "160")]);
    assert_eq!(asked(&taper), []);
}

#[test]
fn shapes_that_no_plank_has() {
    for (more, field) in [
        (vec![(Twist, "250")], Twist),
        (vec![(Bow, "270")], Bow),
        (vec![(Crook, "-60"), (CrookOver, "500")], Crook),
        (vec![(Bow, "9"), (BowKink, "2700")], BowKink),
        (vec![(Bow, "9"), (BowOver, "3000")], BowOver),
        (vec![(Cup, "1"), (CupOver, "300")], CupOver),
        (vec![(RingChord, "25"), (RingDip, "150")], RingDip),
        (vec![(Length, "150")], Length),
    ] {
        let found = asked(&with(&more));
        assert_eq!(found.len(), 1, "{more:?}: {found:?}");
        assert_eq!(found[0].0, field);
    }
    let swapped = readings(
        &[(Length, "2620"), (WidthNear, "52"), (ThicknessNear, "205")],
        Units::Metric,
    );
    assert!(asked(&swapped)[0].1.contains("changed about"));
}

#[test]
fn what_the_maker_insists_on_is_not_asked_again() {
    let mut heavy = with(&[(WeightWhole, "43.4")]);
    heavy.get_mut(&WeightWhole).unwrap().confirmed = true;
    assert_eq!(asked(&heavy), []);
}

#[test]
fn a_fault_beyond_the_end() {
    let at = |text: &str| with(&[(BowKink, text)]).remove(&BowKink);
    let knot = |from: &str, to: &str| DefectFound {
        kind: DefectKind::Knot,
        from: at(from),
        to: at(to),
        note: String::new(),
    };
    let plank = with(&[]);
    let found = defect_warnings(
        &plank,
        &[knot("100", "160"), knot("2600", "2700")],
        Units::Metric,
    );
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].0, 1);
    assert!(found[0].1.question.contains("2700 mm"));
    assert!(defect_warnings(&Readings::new(), &[knot("1", "2")], Units::Metric).is_empty());
}
