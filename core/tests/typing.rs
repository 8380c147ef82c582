//! What a hand types, and what is shown of it again.

use proptest::prelude::*;
use stillwood_core::plank::{
    Field, Reading, Seen, Sign, Understood, describe, eye_steps, retyped, understand, unusual,
};
use stillwood_core::quantity::read::{self, Units, Unreadable};
use stillwood_core::quantity::show;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[track_caller]
fn length(typed: &str, mm: f64) {
    let understood = read::length(typed, Units::Metric).expect(typed);
    assert!(
        near(understood.value, mm),
        "{typed}: {} is not {mm}",
        understood.value
    );
}

#[test]
fn lengths_in_any_mix_of_units() {
    for (typed, mm) in [
        ("2.4 m", 2400.0),
        ("2400", 2400.0),
        ("94 1/2\"", 2400.3),
        ("94 1/2”", 2400.3),
        ("94½ in", 2400.3),
        ("7'10 1/2\"", 2400.3),
        ("7′ 10½″", 2400.3),
        ("7 ft 10.5 in", 2400.3),
        ("7'10", 2387.6),
        ("7'", 2133.6),
        ("8''", 203.2),
        ("8/4", 50.8),
        ("5/4", 31.75),
        ("3/8", 9.525),
        ("7 3/8\"", 187.325),
        ("52mm", 52.0),
        ("52 MM", 52.0),
        ("8,25", 8.25),
        ("2.62 m", 2620.0),
        ("262cm", 2620.0),
        ("2' 7 1/2\"", 800.1),
        (" 205 ", 205.0),
        (".5 m", 500.0),
        ("205 mm.", 205.0),
    ] {
        length(typed, mm);
    }
    let inch = read::length("103 1/8", Units::Inch).expect("inches");
    assert!(near(inch.value, 2619.375) && inch.unit == "in");
    assert_eq!(
        read::length("8/4", Units::Metric).expect("quarters").unit,
        "/4"
    );
}

#[test]
fn what_cannot_be_read_says_why() {
    use Unreadable::*;
    for (typed, why) in [
        ("", NoNumber),
        ("plank", NoNumber),
        ("2.4 zz", UnknownUnit("zz".into())),
        ("2 4 m", LeftOver("4 m".into())),
        ("2620<script>", UnknownUnit("<".into())),
        ("1/0", DividedByZero),
        ("1.2.3", TwoPoints),
        ("2\u{200b}620", HiddenCharacter),
        ("26\u{202e}20", HiddenCharacter),
        ("9999999999999999", TooManyDigits),
        ("-2620", Negative),
        ("1.5/2", OddFraction),
        ("1e999", UnknownUnit("e".into())),
        ("NaN", NoNumber),
        ("7' 10 kg", UnknownUnit("kg".into())),
        ("1'200", TooManyInches),
        ("7' 12\"", TooManyInches),
    ] {
        assert_eq!(read::length(typed, Units::Metric), Err(why), "{typed:?}");
    }
    // 29 lb 2 oz, or 29.2 lb: it is not guessed.
    let bare = read::mass("29 2", Units::Inch);
    assert_eq!(bare, Err(LeftOver("2".into())));
    let many = read::mass("29 lb 16 oz", Units::Inch);
    assert_eq!(many, Err(TooManyOunces));
}

#[test]
fn gaps_twists_and_the_pith_keep_their_side() {
    let gap = |t: &str| read::gap(t, Units::Metric).map(|u| (u.value, u.signed));
    assert_eq!(gap("9"), Ok((9.0, false)));
    assert_eq!(gap("+9"), Ok((9.0, true)));
    assert_eq!(gap("-9"), Ok((-9.0, true)));
    assert_eq!(gap("−1/8\""), Ok((-3.175, true)));
    let sided = |t: &str| read::sided(t, Units::Metric).map(|u| (u.value, u.signed));
    assert_eq!(sided("12 left"), Ok((-12.0, true)));
    assert_eq!(sided("12R"), Ok((12.0, true)));
    assert_eq!(sided("12"), Ok((12.0, false)));
    assert_eq!(sided("12 links"), Ok((-12.0, true)));
    assert_eq!(sided("12 Rechts"), Ok((12.0, true)));
}

#[test]
fn a_side_that_was_stored_is_known_in_either_language() {
    for (typed, sign) in [
        ("12 links", Sign::Known),
        ("12 rechts", Sign::Known),
        ("12 L", Sign::Known),
        ("12", Sign::Unknown),
    ] {
        let stored = format!(r#"{{"typed":"{typed}","unit":"mm","value":-12.0}}"#);
        let reading: Reading = serde_json::from_str(&stored).expect("a reading");
        assert_eq!(reading.sign, sign, "{typed}");
    }
}

#[test]
fn masses_temperatures_moisture_angles() {
    let mass = |t: &str, u| read::mass(t, u).expect(t).value;
    assert!(near(mass("13.2 kg", Units::Metric), 13.2));
    assert!(near(mass("13,2", Units::Metric), 13.2));
    assert!(near(mass("29 lb 2 oz", Units::Metric), 13.210_877_776_25));
    assert!(near(mass("29lb2oz", Units::Metric), 13.210_877_776_25));
    assert!(near(mass("43.4", Units::Inch), 19.685_908_858));
    assert!(near(mass("850 g", Units::Metric), 0.85));
    assert!(near(
        read::temperature("46.4 °F", Units::Metric)
            .expect("F")
            .value,
        8.0
    ));
    assert!(near(
        read::temperature("-3", Units::Metric).expect("C").value,
        -3.0
    ));
    assert!(near(read::moisture("10,5 %").expect("%").value, 10.5));
    assert!(near(read::angle("64°").expect("deg").value, 64.0));
    assert_eq!(
        read::moisture("10.5 kg"),
        Err(Unreadable::UnknownUnit("kg".into()))
    );
}

#[test]
fn slopes_of_grain() {
    let slope = |t: &str| read::slope(t, Units::Metric).expect(t).value;
    assert!(near(slope("12/300"), 0.04));
    assert!(near(slope("12 in 300"), 0.04));
    assert!(near(slope("12"), 0.04));
    assert!(near(slope("12 mm"), 0.04));
    assert!(near(slope("12/300 mm"), 0.04));
    assert!(near(slope("12/300mm"), 0.04));
    assert!(near(slope("1:25"), 0.04));
    assert!(near(slope("1 in 25"), 0.04));
    assert!(near(slope("1/25"), 0.04));
    assert!(near(slope("4 %"), 0.04));
    assert!(near(slope("0"), 0.0));
    assert!((slope("2.29°") - 0.04).abs() < 1e-4);
    assert!(near(
        read::slope("1/2 in 12", Units::Inch).expect("in 12").value,
        1.0 / 24.0
    ));
    assert!(near(
        read::slope("0.6", Units::Inch).expect("rise").value,
        0.05
    ));
    assert_eq!(
        read::slope("3/2", Units::Metric),
        Err(Unreadable::OddFraction)
    );
}

#[test]
fn a_fraction_of_an_inch_alone_is_no_slope() {
    let asked = read::slope("1/2", Units::Inch).expect_err("a question");
    assert_eq!(
        asked.to_string(),
        "1 in 2, or 1/2 inch in what run? Type 1:2, or 1/2 in 12."
    );
    assert_eq!(read::slope("½", Units::Inch), Err(asked));
    let slope = |t: &str| read::slope(t, Units::Inch).expect(t).value;
    assert!(near(slope("1:2"), 0.5));
    assert!(near(slope("1/2 in 12"), 1.0 / 24.0));
    // No tape has such a fraction, and where millimetres are set none is meant.
    assert!(near(slope("1/25"), 0.04));
    assert!(near(slope("12/300"), 0.04));
    // More than one is no slope: it rises in the run of its own.
    assert!(near(slope("1 1/2"), 0.125));
    assert!(read::slope("1/2 mm", Units::Metric).is_err());
    assert!(near(
        read::slope("1/2", Units::Metric).expect("1 in 2").value,
        0.5
    ));
}

proptest! {
    /// What is shown, typed again, is the same value to the step shown.
    #[test]
    fn shown_lengths_read_back(tenths in 1_u32..80_000) {
        let mm = f64::from(tenths) / 10.0;
        let text = show::length(mm, Units::Metric);
        let back = read::length(&text, Units::Metric).expect("shown").value;
        prop_assert!((back - mm).abs() < 1e-9, "{} -> {}", text, back);
        let whole = mm.round();
        let text = show::long_length(whole, Units::Metric);
        let back = read::length(&text, Units::Metric).expect("shown").value;
        prop_assert!((back - whole).abs() < 1e-9, "{} -> {}", text, back);
    }

    #[test]
    fn shown_inches_read_back(parts in 1_u32..20_000) {
        let mm = f64::from(parts) / 64.0 * 25.4;
        let text = show::length(mm, Units::Inch);
        let back = read::length(&text, Units::Inch).expect("shown").value;
        prop_assert!((back - mm).abs() < 1e-9, "{} -> {}", text, back);
        let mm = f64::from(parts) / 16.0 * 25.4;
        let text = show::long_length(mm, Units::Inch);
        let back = read::length(&text, Units::Inch).expect("shown").value;
        prop_assert!((back - mm).abs() < 1e-9, "{} -> {}", text, back);
    }

    #[test]
    fn shown_masses_moistures_angles_read_back(parts in 0_u32..12_000) {
        let kg = f64::from(parts) / 100.0 + 1.0;
        prop_assert!(near(read::mass(&show::mass(kg, Units::Metric), Units::Metric).expect("kg").value, kg));
        let percent = f64::from(parts % 400) / 10.0;
        prop_assert!(near(read::moisture(&show::moisture(percent)).expect("%").value, percent));
        let degrees = f64::from(parts % 91);
        prop_assert!(near(read::angle(&show::angle(degrees)).expect("deg").value, degrees));
        let celsius = f64::from(parts % 600) / 10.0 - 20.0;
        let text = show::temperature(celsius, Units::Metric);
        prop_assert!(near(read::temperature(&text, Units::Metric).expect("C").value, celsius));
    }

    /// Nothing that is typed brings it down, and what is read is a finite number.
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,24}") {
        for units in [Units::Metric, Units::Inch] {
            for read in [
                read::length(&text, units), read::gap(&text, units), read::sided(&text, units),
                read::mass(&text, units), read::slope(&text, units), read::temperature(&text, units),
                read::moisture(&text), read::angle(&text),
            ].into_iter().flatten() {
                prop_assert!(read.value.is_finite());
            }
        }
    }

    /// A file keeps what was typed and no key for what it meant: read from there, it means the same.
    #[test]
    fn a_reading_means_the_same_after_it_was_kept(
        text in "[-+−–—]? ?[0-9]{1,4}([.,/][0-9]{1,2})? ?(mm|in|ft|m|kg|lb|g|%|deg|C|F|in 300|:25)? ?(L|R|left|right)?",
        step in 0usize..4,
        by_eye: bool,
        inches: bool,
    ) {
        let seen = if by_eye { Seen::ByEye } else { Seen::Measured };
        let units = if inches { Units::Inch } else { Units::Metric };
        for field in Field::ALL {
            let step = eye_steps(*field).get(step).map_or("", |step| step.typed);
            for typed in [text.as_str(), step] {
                if let Some(taken) = understand(*field, typed, seen, false, units).taken() {
                    let kept = serde_json::to_string(taken).unwrap();
                    prop_assert_eq!(&serde_json::from_str::<Reading>(&kept).unwrap(), taken);
                }
            }
        }
    }

    /// The same, with the characters that a measurement is made of.
    #[test]
    fn any_measurement_like_text_is_read_or_refused(text in "[-+0-9 .,/'\"mcinftkglbozLR:%°½]{0,16}") {
        for units in [Units::Metric, Units::Inch] {
            for read in [
                read::length(&text, units), read::gap(&text, units), read::sided(&text, units),
                read::mass(&text, units), read::slope(&text, units), read::temperature(&text, units),
                read::moisture(&text), read::angle(&text),
            ].into_iter().flatten() {
                prop_assert!(read.value.is_finite());
            }
        }
    }
}

#[test]
fn the_side_of_a_gap_is_known_with_every_sign_that_is_read_as_one() {
    for typed in ["-3", "−3", "–3", "—3", "+3"] {
        let echo = understand(Field::Bow, typed, Seen::Measured, false, Units::Metric);
        let taken = echo.taken().unwrap();
        assert_eq!(
            (taken.value.abs(), taken.sign),
            (3.0, Sign::Known),
            "{typed}"
        );
        let bow = describe(&[(Field::Bow, taken.clone())].into(), &[])
            .bow
            .unwrap();
        assert!(bow.signed, "{typed}");
    }
    let bare = understand(Field::Bow, "3", Seen::Measured, false, Units::Metric);
    assert_eq!(bare.taken().unwrap().sign, Sign::Unknown);
}

#[test]
fn a_bare_degree_sign_follows_the_units() {
    let celsius = |typed, units| read::temperature(typed, units).expect(typed).value;
    assert!(near(celsius("40°", Units::Metric), 40.0));
    assert!(near(
        celsius("40°", Units::Inch),
        celsius("40", Units::Inch)
    ));
    assert!(near(celsius("-4°", Units::Inch), -20.0));
    assert!(near(celsius("40°C", Units::Inch), 40.0));
    assert!(near(celsius("104° F", Units::Metric), 40.0));
    // It keeps its meaning where the units change, and so does what was read as Celsius before.
    const FIELD: Field = Field::WoodTemperature;
    let of = |typed, units| understand(FIELD, typed, Seen::Measured, true, units);
    let inch = of("40°", Units::Inch);
    assert_eq!(retyped(FIELD, inch.taken().unwrap()), "40° F");
    let metric = of("40°", Units::Metric);
    assert_eq!(retyped(FIELD, metric.taken().unwrap()), "40° C");
    // An odd one is asked about as a bare number is.
    let hot = of("68°", Units::Metric);
    let warning = unusual(
        Field::WoodTemperature,
        &Reading {
            confirmed: false,
            ..hot.taken().unwrap().clone()
        },
        Units::Metric,
    );
    let offers = warning.unwrap().offers;
    assert_eq!(
        offers.first().map(|offer| offer.text.as_str()),
        Some("68 °F")
    );
}

#[test]
fn a_reading_is_asked_about_for_what_it_is_and_not_read_again_in_other_units() {
    // 50 degrees Fahrenheit is a cool day; nobody means 50 degrees Celsius.
    let echo = understand(
        Field::WoodTemperature,
        "50",
        Seen::Measured,
        false,
        Units::Inch,
    );
    let taken = echo.taken().unwrap();
    assert_eq!(unusual(Field::WoodTemperature, taken, Units::Metric), None);
    let hot = understand(
        Field::WoodTemperature,
        "50",
        Seen::Measured,
        false,
        Units::Metric,
    );
    assert!(unusual(Field::WoodTemperature, hot.taken().unwrap(), Units::Inch).is_some());
}

#[test]
fn what_is_typed_anew_keeps_its_unit_whatever_the_units_are_now() {
    let cases = [
        (Field::Length, "94", Seen::Measured, "94 in"),
        (Field::Length, "94 1/2", Seen::Measured, "94 1/2"),
        (Field::Length, "94,", Seen::ByEye, "94 in"),
        (Field::Twist, "+1/4 R", Seen::Measured, "+1/4 R"),
        (Field::Twist, "0.5 left", Seen::Measured, "0.5 in left"),
        (Field::PithOffset, "1.5 L", Seen::Measured, "1.5 in L"),
        (Field::WeightFirst, "24", Seen::ByEye, "24 lb"),
        (Field::GrainFace, "2", Seen::Measured, "2 in 12"),
        (Field::Bow, "about 3", Seen::ByEye, "about 3"),
    ];
    for (field, typed, seen, anew) in cases {
        let echo = understand(field, typed, seen, false, Units::Inch);
        let taken = echo.taken().unwrap();
        assert_eq!(retyped(field, taken), anew);
        let again = understand(field, anew, seen, false, Units::Metric);
        assert_eq!(again.taken().unwrap().value, taken.value, "{anew}");
    }
}

#[test]
fn the_pith_lies_to_the_left_or_to_the_right_and_a_bare_number_is_asked_about() {
    let read = |typed: &str, confirmed| {
        let echo = understand(
            Field::PithOffset,
            typed,
            Seen::Measured,
            confirmed,
            Units::Metric,
        );
        match echo {
            Understood::Read {
                taken,
                shown,
                warning,
                ..
            } => (taken.value, shown, warning),
            other => panic!("{typed}: {other:?}"),
        }
    };
    for (typed, value, shown) in [
        ("40 left", -40.0, "40 mm left"),
        ("40L", -40.0, "40 mm left"),
        ("-40", -40.0, "40 mm left"),
        ("40 mm R", 40.0, "40 mm right"),
        ("+40", 40.0, "40 mm right"),
        ("0", 0.0, "0 mm"),
    ] {
        assert_eq!(
            read(typed, false),
            (value, shown.to_owned(), None),
            "{typed}"
        );
    }
    let echo = understand(
        Field::PithOffset,
        "40 L",
        Seen::Measured,
        false,
        Units::Metric,
    );
    assert!(matches!(echo, Understood::Read { other, .. } if other == "1 37/64 in"));
    // Without its side it is to the right, as it always was; the other side is a touch away.
    let (value, shown, warning) = read("40", false);
    assert_eq!((value, shown.as_str()), (40.0, "40 mm right"));
    let warning = warning.unwrap();
    assert!(warning.question.contains("away from the marked edge"));
    assert_eq!(read(&warning.offers[0].text, false).0, -40.0);
    assert_eq!(read("40", true).2, None);
    let far = read("900 left", false).2.unwrap();
    assert_eq!(
        far.question,
        "Pith off centre 900 mm left? Usual is 0 mm to 600 mm."
    );
}

#[test]
fn a_gap_is_read_back_as_it_was_typed_with_its_side() {
    for (field, typed, units, wanted) in [
        (
            Field::Twist,
            "8.25 left",
            Units::Metric,
            ("8.25 mm left", "0.325 in"),
        ),
        (
            Field::Twist,
            "0.15 L",
            Units::Metric,
            ("0.15 mm left", "0.006 in"),
        ),
        (Field::Twist, "8.25", Units::Metric, ("8.25 mm", "0.325 in")),
        (
            Field::Twist,
            "0.010 links",
            Units::Inch,
            ("0.01 in left", "0.25 mm"),
        ),
        (Field::Bow, "0.005", Units::Inch, ("0.005 in", "0.13 mm")),
        (
            Field::Bow,
            "-0.15",
            Units::Metric,
            ("−0.15 mm", "−0.006 in"),
        ),
        (
            Field::PithOffset,
            "40.25 L",
            Units::Metric,
            ("40.25 mm left", "1 37/64 in"),
        ),
    ] {
        match understand(field, typed, Seen::Measured, false, units) {
            Understood::Read { shown, other, .. } => {
                assert_eq!((shown.as_str(), other.as_str()), wanted, "{typed}");
            }
            other => panic!("{typed}: {other:?}"),
        }
    }
}

#[test]
fn what_no_plank_can_have_is_told_in_the_makers_units() {
    let refused = understand(Field::Length, "0", Seen::Measured, false, Units::Inch);
    let Understood::Unreadable(why) = refused else {
        panic!("{refused:?}");
    };
    assert!(why.ends_with(" in.") && !why.contains("mm"), "{why}");
}

#[test]
fn a_slope_of_one_sign_is_the_same_under_inches() {
    for (typed, anew) in [("½", "0.5:1"), ("⅞", "0.875:1"), ("3/8", "3:8")] {
        let echo = understand(
            Field::GrainFace,
            typed,
            Seen::Measured,
            false,
            Units::Metric,
        );
        let taken = echo.taken().unwrap();
        assert_eq!(retyped(Field::GrainFace, taken), anew);
        for units in [Units::Metric, Units::Inch] {
            let again = understand(Field::GrainFace, anew, Seen::Measured, false, units);
            assert_eq!(again.taken().unwrap().value, taken.value, "{anew}");
        }
    }
}
