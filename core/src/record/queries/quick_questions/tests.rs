//! Each question asked as a thumb types it.

use super::*;
use crate::quantity::read::Units;
use crate::wood::{OwnWood, Shrinkage, Species, find};
use std::collections::BTreeMap;

/// The reply to a question by its place, asked one of its ways.
fn reply_in(
    units: Units,
    (at, way): (usize, usize),
    texts: &[(&'static str, &str)],
    wood: Option<&Species>,
) -> Reply {
    let way = &QUESTIONS[at].ways[way];
    let mut typed = BTreeMap::new();
    for input in way.inputs {
        typed.insert(input.label, input.begins.to_owned());
    }
    for (label, text) in texts {
        assert!(way.inputs.iter().any(|i| i.label == *label), "{label}");
        typed.insert(label, (*text).to_owned());
    }
    let typed: Vec<_> = typed.into_iter().collect();
    way.reply(&typed, wood, units)
}

/// The reply where millimetres are set.
fn reply_of(
    at: usize,
    way: usize,
    texts: &[(&'static str, &str)],
    wood: Option<&Species>,
) -> Reply {
    reply_in(Units::Metric, (at, way), texts, wood)
}

fn figures(reply: Reply) -> Vec<(String, String)> {
    match reply {
        Reply::Answer(answer) => {
            assert!(answer.basis.ends_with('.'), "{}", answer.basis);
            for figure in &answer.figures {
                let working = figure.working(&answer);
                let told = !working.steps.is_empty()
                    || !working.notes.is_empty() && !working.source.is_empty();
                assert!(told, "{} is shown but not told", figure.name);
            }
            let pair = |figure: Figure| (figure.name, figure.value);
            answer.figures.into_iter().map(pair).collect()
        }
        other => panic!("{other:?}"),
    }
}

fn first(reply: Reply) -> String {
    figures(reply).swap_remove(0).1
}

fn why_not(reply: Reply) -> String {
    match reply {
        Reply::Cannot(why) => why,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_air_of_a_shop() {
    let air = |humidity| first(reply_of(0, 0, &[("Relative humidity", humidity)], None));
    assert_eq!(air("45 % RH"), "8.5 %");
    assert_eq!(air("65"), "12 %");
    let fahrenheit = [("Air temperature", "68 F"), ("Relative humidity", "45")];
    assert_eq!(first(reply_of(0, 0, &fahrenheit, None)), "8.5 %");
    let keeps = first(reply_of(0, 1, &[("Moisture to keep", "8.5")], None));
    assert!(
        keeps.starts_with("45") && keeps.ends_with("% RH"),
        "{keeps}"
    );
    let beyond = reply_of(0, 0, &[("Relative humidity", "105")], None);
    assert!(why_not(beyond).contains("105 % relative humidity"));
}

#[test]
fn a_size_in_feet_metres_and_money() {
    let sizes = [("Length", "8 ft"), ("Width", "8 in"), ("Thickness", "8/4")];
    let found = figures(reply_of(1, 0, &sizes, None));
    assert_eq!(found[0].1, "10.67 bd ft");
    assert_eq!(found[1].1, "0.0252 m³");
    assert_eq!(found.len(), 2);
    let priced = [sizes.as_slice(), &[("How many", "3"), ("Price", "14,50")]].concat();
    let money = |way| figures(reply_of(1, way, &priced, None)).swap_remove(2).1;
    assert_eq!(money(0), "464.00");
    assert_eq!(money(1), "1.09");
    assert_eq!(money(2), "43.50");
    let nothing = [("Length", "8 ft"), ("Width", "0"), ("Thickness", "8/4")];
    assert!(why_not(reply_of(1, 0, &nothing, None)).contains("more than nothing"));
    let endless = [
        sizes.as_slice(),
        &[("How many", "79228162514264337593543950335")],
    ]
    .concat();
    assert!(why_not(reply_of(1, 0, &endless, None)).contains("more digits"));
}

#[test]
fn a_width_that_moves() {
    let maple = find("maple-sugar");
    let flat = [
        ("Width across the grain", "75"),
        ("Ring angle to the face", "0"),
        ("Moisture from", "10"),
        ("Moisture to", "8"),
    ];
    let moved = figures(reply_of(2, 0, &flat, maple));
    // 75 mm x 0.00353 x 2: read in the Wood Handbook's table of coefficients.
    assert_eq!(moved[0], ("It shrinks by".into(), "0.53 mm".into()));
    assert_eq!(moved[1].1, "74.5 mm");
    let air = [
        ("Width across the grain", "75"),
        ("Ring angle to the face", "90°"),
        ("Humidity from", "40"),
        ("Humidity to", "55"),
    ];
    let moved = figures(reply_of(2, 1, &air, maple));
    assert_eq!(moved[0].0, "It swells by");
    assert_eq!(moved[2].1, "7.7 % to 10.1 %");
    let too_steep = [flat[0], ("Ring angle to the face", "120"), flat[2], flat[3]];
    assert!(why_not(reply_of(2, 0, &too_steep, maple)).contains("between 0 and 90"));
}

#[test]
fn movement_is_told_in_the_units_that_are_set_and_nothing_is_called_nothing() {
    let maple = find("maple-sugar");
    let typed = |to| {
        [
            ("Width across the grain", "3 in"),
            ("Ring angle to the face", "0"),
            ("Moisture from", "10"),
            ("Moisture to", to),
        ]
    };
    // 3 in x 0.00353 x 2 = 0.021 in.
    let moved = figures(reply_in(Units::Inch, (2, 0), &typed("8"), maple));
    assert_eq!(moved[0], ("It shrinks by".into(), "0.021 in".into()));
    let still = figures(reply_in(Units::Inch, (2, 0), &typed("10"), maple));
    assert_eq!(still[0], ("It moves by".into(), "nothing".into()));
    let cup = [
        ("Width across the grain", "8 in"),
        ("Radius of the ring at mid-width", "5 in"),
        ("Moisture from", "12"),
        ("Moisture to", "8.5"),
    ];
    let year = [
        ("Width across the grain", "3 in"),
        ("Ring angle to the face", "0"),
        ("Coolest", "18 C"),
        ("Warmest", "22 C"),
        ("Least humid", "35"),
        ("Most humid", "55"),
        ("Moisture when planed", "8.5"),
    ];
    for (asked, texts) in [(8, &cup[..]), (9, &year[..])] {
        let found = figures(reply_in(Units::Inch, (asked, 0), texts, maple));
        assert!(
            found.iter().all(|(_, value)| !value.contains("mm")),
            "{found:?}"
        );
    }
}

#[test]
fn a_wood_of_the_makers_own_says_whose_data() {
    let own = |radial| {
        Species::from(OwnWood {
            name: "river cherry".into(),
            radial,
            tangential: Some(Shrinkage::percent(7.5)),
            ..OwnWood::default()
        })
    };
    let asked = [
        ("Width across the grain", "100"),
        ("Ring angle to the face", "0"),
        ("Moisture from", "12"),
        ("Moisture to", "10"),
    ];
    let known = own(Some(Shrinkage::percent(4.0)));
    let Reply::Answer(answer) = reply_of(2, 0, &asked, Some(&known)) else {
        panic!("no answer");
    };
    assert!(
        answer.basis.contains("Numbers of river cherry:"),
        "{}",
        answer.basis
    );
    assert!(answer.basis.contains("your data"), "{}", answer.basis);
    let half = why_not(reply_of(2, 0, &asked, Some(&own(None))));
    assert!(
        half.contains("how river cherry shrinks is not known"),
        "{half}"
    );
    assert_eq!(reply_of(2, 0, &asked, None), Reply::Wants(vec!["Wood"]));
}

#[test]
fn density_weight_meter_grain() {
    let dense = [("Density", "707"), ("Measured at moisture", "10.5")];
    let found = figures(reply_of(3, 0, &dense, None));
    assert_eq!(found[0].0, "Density at 12 %");
    assert!(found[0].1.starts_with("71"), "{}", found[0].1);
    let wet = [("Density", "900"), ("Measured at moisture", "45")];
    assert!(why_not(reply_of(3, 0, &wet, None)).contains("too wet"));
    let plank = [
        ("Length", "2620"),
        ("Width", "204"),
        ("Thickness", "52"),
        ("Density", "708.8"),
    ];
    assert_eq!(first(reply_of(5, 0, &plank, None)), "19.7 kg");
    let cold = [("Meter shows", "10.5"), ("Wood temperature", "8 °C")];
    assert_eq!(first(reply_of(6, 0, &cold, None)), "11.6 %");
    let grain = [
        ("Grain on the face", "12/300"),
        ("Grain on the edge", "15/300"),
        ("Length of the blank", "950"),
    ];
    let found = figures(reply_of(7, 0, &grain, None));
    assert_eq!(found[0].1, "1:15.6");
    assert_eq!(found[1].1, "60.8 mm");
}

#[test]
fn a_bow_in_a_blank() {
    let bent = [
        ("Gap under the string", "9"),
        ("over a length of", "2620"),
        ("Length of the blank", "950"),
    ];
    assert_eq!(first(reply_of(4, 0, &bent, None)), "1.2 mm");
    let thick = [bent.as_slice(), &[("Thickness of the plank", "52")]].concat();
    let found = figures(reply_of(4, 0, &thick, None));
    assert_eq!(found[1].1, "48.8 mm");
    let kinked = [thick.as_slice(), &[("Kink at, from an end", "1310")]].concat();
    let found = figures(reply_of(4, 1, &kinked, None));
    assert_eq!(found[0].1, "3.3 mm");
    assert_eq!(found[1].1, "0 mm");
    assert_eq!(found[3].1, "50 mm");
    let thin = [bent.as_slice(), &[("Thickness of the plank", "2")]].concat();
    assert_eq!(figures(reply_of(4, 0, &thin, None))[1].1, "nothing");
    let longer = [bent[0], bent[1], ("Length of the blank", "3 m")];
    assert!(why_not(reply_of(4, 0, &longer, None)).contains("can't be cut from"));
}

#[test]
fn what_is_missing_or_unreadable_is_named() {
    assert_eq!(
        reply_of(0, 0, &[], None),
        Reply::Wants(vec!["Relative humidity"])
    );
    let odd = [("Air temperature", "warm"), ("Relative humidity", "45")];
    assert_eq!(
        reply_of(0, 0, &odd, None),
        Reply::Wants(vec!["Air temperature"])
    );
    // One that need not be typed keeps the answer away once it can't be read.
    let odd = [
        ("Length", "8 ft"),
        ("Width", "8 in"),
        ("Thickness", "8/4"),
        ("Price", "dear"),
    ];
    assert_eq!(reply_of(1, 0, &odd, None), Reply::Wants(vec!["Price"]));
    let input = &QUESTIONS[0].ways[0].inputs[0];
    let said = |text| input.understand(text, Units::Metric);
    assert_eq!(said("68 F"), Understanding::Read("20 °C = 68 °F".into()));
    assert!(matches!(said("warm"), Understanding::Unreadable(_)));
    assert_eq!(said(" "), Understanding::Empty);
}

#[test]
fn one_label_means_one_thing() {
    let mut seen: BTreeMap<&str, InputKind> = BTreeMap::new();
    for input in QUESTIONS
        .iter()
        .flat_map(|question| question.ways)
        .flat_map(|way| way.inputs)
    {
        assert_eq!(*seen.entry(input.label).or_insert(input.kind), input.kind);
        let begins = input.understand(input.begins, Units::Metric);
        assert!(!matches!(begins, Understanding::Unreadable(_)), "{input:?}");
    }
}

proptest::proptest! {
    /// Whatever is typed, there is a reply, the same each time: what is still wanted, why not, or numbers.
    #[test]
    fn anything_typed_has_a_reply(texts in proptest::collection::vec("[-+0-9 .,/'\"mcinfkgl%°½RH]{0,12}", 7)) {
        for way in QUESTIONS.iter().flat_map(|question| question.ways) {
            let typed: Vec<(&'static str, String)> = way
                .inputs
                .iter()
                .map(|input| input.label)
                .zip(texts.iter().cloned())
                .collect();
            for units in [Units::Metric, Units::Inch] {
                let reply = way.reply(&typed, find("maple-sugar"), units);
                proptest::prop_assert_eq!(&way.reply(&typed, find("maple-sugar"), units), &reply);
                match reply {
                    Reply::Wants(labels) => {
                        let asked = |label| way.inputs.iter().any(|input| input.label == label);
                        proptest::prop_assert!(!labels.is_empty() && labels.iter().all(|one| asked(*one)));
                    }
                    Reply::Cannot(why) => proptest::prop_assert!(!why.trim().is_empty()),
                    Reply::Answer(answer) => {
                        proptest::prop_assert!(!answer.figures.is_empty());
                        for figure in answer.figures {
                            let nonsense = ["NaN", "inf"].iter().any(|word| figure.value.contains(word));
                            proptest::prop_assert!(!nonsense, "{typed:?}: {figure:?}");
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn a_board_cups_to_the_bark_side_as_it_dries() {
    let maple = find("maple-sugar");
    let typed = |to| {
        [
            ("Width across the grain", "205"),
            ("Radius of the ring at mid-width", "125"),
            ("Moisture from", "12"),
            ("Moisture to", to),
        ]
    };
    let dried = figures(reply_of(8, 0, &typed("8.5"), maple));
    assert_eq!(
        (dried[0].1.as_str(), dried[1].1.as_str()),
        ("0.46 mm", "on the bark side")
    );
    assert_eq!(
        figures(reply_of(8, 0, &typed("14"), maple))[1].1,
        "on the pith side"
    );
}

#[test]
fn a_bar_by_its_note_and_moisture_by_the_oven() {
    let bar = [
        ("Length of the bar", "950"),
        ("Its first note along the length", "2220 Hz"),
        ("Density", "705"),
    ];
    let Reply::Answer(answer) = reply_of(11, 0, &bar, None) else {
        panic!("no answer");
    };
    assert_eq!(answer.figures[0].value, "12.54 GPa");
    assert_eq!(answer.figures[1].value, "4218 m/s");
    assert_eq!(answer.working.steps.len(), 2);
    let oven = |wet, dry| {
        reply_of(
            10,
            0,
            &[("Mass as it was", wet), ("Mass oven-dry", dry)],
            None,
        )
    };
    assert_eq!(first(oven("136 g", "100 g")), "36 %");
    assert!(why_not(oven("100 g", "136 g")).contains("mixed up"));
}

#[test]
fn the_head_is_put_where_the_grain_falls_towards_it() {
    // A head of 13° and grain of 3°, 1 in 19.08: 10° (1:5.7) one way round, 16° (1:3.5) the other.
    let asked = |slope| {
        let typed = [("Angle of the head", "13"), ("Grain in side view", slope)];
        figures(reply_of(12, 0, &typed, None))
    };
    for slope in ["1 in 19.08", "3°"] {
        let found = asked(slope);
        let values: Vec<&str> = found.iter().map(|(_, value)| value.as_str()).collect();
        assert_eq!(
            values,
            [
                "at the end that the grain falls towards",
                "10° (1:5.7)",
                "16° (1:3.5)"
            ]
        );
    }
    assert_eq!(asked("0/300")[0].1, "either end");
    let steep = [("Angle of the head", "60"), ("Grain in side view", "3°")];
    assert!(why_not(reply_of(12, 0, &steep, None)).contains("from 0 to 45°"));
}

#[test]
fn the_shops_year_moves_a_width_both_ways() {
    let typed = [
        ("Width across the grain", "75"),
        ("Ring angle to the face", "0"),
        ("Coolest", "18"),
        ("Warmest", "22"),
        ("Least humid", "35"),
        ("Most humid", "55"),
        ("Moisture when planed", "8.5"),
    ];
    let found = figures(reply_of(9, 0, &typed, find("maple-sugar")));
    assert!(
        found[0].1.starts_with('−') && found[1].1.starts_with('+'),
        "{found:?}"
    );
    assert!(found[2].1.ends_with('%'), "{found:?}");
}
