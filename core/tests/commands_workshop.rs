//! The commands of the workshop: a filled form becomes the events that it says; what is wrong is told field
//! by field, all at once; what is odd is asked once.

mod filled;

use filled::{Shop, asked, day, metric, only, typed, wrong};
use stillwood_core::plank::{Field, Reading, Reason, RingTilt};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::season::Stage;

fn fill(shop: &Shop, piece: Id, key: &str, texts: &[(&str, &str)]) -> Result<Filled, FieldErrors> {
    let command = workshop_command(key).unwrap();
    let texts = typed(command.begins(piece, &shop.context()), texts);
    command.command(&metric(&texts), piece, &shop.context())
}

fn reading(typed: &str, unit: &str, value: f64) -> Reading {
    Reading {
        typed: typed.to_owned(),
        ..Reading::of_number(value, unit)
    }
}

#[test]
fn every_form_becomes_its_event() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let made = |key: &str, texts: &[(&str, &str)]| only(fill(&shop, plank, key, texts));
    assert_eq!(
        made("Put on a shelf", &[("Shelf", " north wall ")]),
        Event::Placed(Placed {
            place: "north wall".into()
        })
    );
    let weighed = [
        ("Weight", "8.4"),
        ("Step of the scale", "1 g"),
        ("Scale", "kitchen"),
        ("The stick weighs", "120 g"),
    ];
    let Event::Weighed(weighed) = made("Weigh", &weighed) else {
        panic!()
    };
    assert_eq!(weighed.mass, reading("8.4", "kg", 8.4));
    assert_eq!(weighed.step, Some(reading("1 g", "g", 0.001)));
    assert_eq!(weighed.scale, "kitchen");
    assert_eq!(
        weighed.witness.as_ref().unwrap().mass,
        reading("120 g", "g", 0.12)
    );
    let Event::MoistureRead(read) = made(
        "Moisture",
        &[
            ("Meter shows", "10,5"),
            ("Depth of the pins", "8"),
            ("Meter", "pins"),
        ],
    ) else {
        panic!()
    };
    assert_eq!(read.shown, reading("10,5", "%", 10.5));
    assert_eq!(read.depth, Some(reading("8", "mm", 8.0)));
    let Event::MovementChecked(check) = made(
        "Check movement",
        &[
            ("Crook", "-0.3"),
            ("Crook over", "950"),
            ("Off by at most", "0.05"),
        ],
    ) else {
        panic!()
    };
    assert!(!check.nothing_moved);
    assert_eq!(check.readings[&Field::Crook], reading("-0.3", "mm", -0.3));
    assert_eq!(check.readings.len(), 2);
    assert_eq!(check.within, Some(reading("0.05", "mm", 0.05)));
    let Event::Machined(machined) = made(
        "Machined flat",
        &[("Thickness", "47"), ("Marked face and edge", "A up")],
    ) else {
        panic!()
    };
    assert!(machined.face && !machined.edge);
    assert_eq!(machined.reference, "A up");
    assert_eq!(machined.readings.len(), 1);
    let Event::StressTested(tested) = made("Stress test", &[("chosen", "1"), ("Gap", "-2")]) else {
        panic!()
    };
    assert_eq!(tested.test, StressTest::Fork);
    assert_eq!(tested.gap, reading("-2", "mm", -2.0));
    let Event::SetToRest(rest) = made(
        "Set to rest",
        &[
            ("chosen", "1"),
            ("Humidity of the air", "45 %"),
            ("Shelf", "2"),
        ],
    ) else {
        panic!()
    };
    assert_eq!(rest.stage, Stage::Laminates);
    assert_eq!(rest.climate.humidity, Some(reading("45 %", "%", 45.0)));
    assert_eq!(
        made("Throw out", &[("reasons", r#"["bow","crook"]"#)]),
        Event::Discarded(Discarded {
            reasons: vec![Reason::Bow, Reason::Crook]
        })
    );
    assert_eq!(
        made("Another use", &[("To what use", "lamp")]),
        Event::Downgraded(Downgraded {
            reasons: vec![],
            to: "lamp".into()
        })
    );
    assert_eq!(made("Not found", &[]), Event::Missing(Missing {}));
    assert_eq!(
        made(
            "Reserve",
            &[("For whom", "Ada"), ("Until, the last day", "2027-01-31")]
        ),
        Event::Reserved(Reserved {
            name: "Ada".into(),
            until: Some(day("2027-01-31"))
        })
    );
    assert_eq!(made("Release", &[]), Event::Released(Released {}));
    assert_eq!(
        made("Used", &[("What it became", "bass 7")]),
        Event::Used(Used {
            became: "bass 7".into()
        })
    );
    let Event::GrainSeen(seen) = made(
        "Rings and grain",
        &[("Rings on the near end", RingTilt::ALL[0].in_words())],
    ) else {
        panic!()
    };
    assert_eq!(seen.rings_lean, Some(RingTilt::ALL[0]));
}

#[test]
fn all_that_is_wrong_is_told_at_once_each_at_its_field() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let bad = |key: &str, texts: &[(&str, &str)]| wrong(fill(&shop, plank, key, texts));
    assert_eq!(bad("Put on a shelf", &[("Day", "")]), ["Shelf", "Day"]);
    assert_eq!(
        bad(
            "Weigh",
            &[
                ("Weight", "half"),
                ("Step of the scale", "1 ell"),
                ("Witness stick", "oak"),
                ("Day", "once")
            ]
        ),
        ["Weight", "Step of the scale", "The stick weighs", "Day"]
    );
    assert_eq!(
        bad("Moisture", &[("Wood temperature", "warm")]),
        ["Meter shows", "Wood temperature"]
    );
    assert_eq!(bad("Check movement", &[]), ["Nothing moved"]);
    assert_eq!(
        bad("Check movement", &[("Crook", "x"), ("Bow", "y")]),
        ["Crook", "Bow"]
    );
    assert_eq!(
        bad("Machined flat", &[("A face was made flat", "")]),
        ["A face was made flat"]
    );
    assert_eq!(bad("Rings and grain", &[]), ["Rings on the near end"]);
    assert_eq!(
        bad("Stress test", &[("Over a length of", "a")]),
        ["Gap", "Over a length of"]
    );
    assert_eq!(bad("Throw out", &[]), ["reasons"]);
    assert_eq!(bad("Another use", &[]), ["To what use"]);
    assert_eq!(
        bad("Reserve", &[("Until, the last day", "soon")]),
        ["For whom", "Until, the last day"]
    );
    assert_eq!(bad("Used", &[]), ["What it became"]);
}

#[test]
fn an_error_names_what_was_typed() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let errors = fill(&shop, plank, "Weigh", &[("Weight", "12 ell")]).unwrap_err();
    let why = errors.of("Weight").unwrap().to_string();
    assert_eq!(
        why,
        "“12 ell” can't be read. “ell” is not a unit that fits here."
    );
    let long = "a".repeat(81);
    let errors = fill(&shop, plank, "Put on a shelf", &[("Shelf", &long)]).unwrap_err();
    let why = errors.of("Shelf").unwrap().to_string();
    assert!(why.contains("has 81 letters"), "{why}");
    assert!(fill(&shop, plank, "Put on a shelf", &[("Shelf", &long[1..])]).is_ok());
}

#[test]
fn a_name_that_a_form_takes_can_be_recorded() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let reserve = |shop: &Shop, name: &str| fill(shop, plank, "Reserve", &[("For whom", name)]);
    let long = "a".repeat(41);
    let errors = reserve(&shop, &long).unwrap_err();
    let why = errors.of("For whom").unwrap().to_string();
    assert!(why.contains("at most 40"), "{why}");
    assert_eq!(wrong(reserve(&shop, "An\u{200b}na")), ["For whom"]);
    // Signs that belong to how it is written are no hidden signs.
    for name in [&long[1..], "Anna ❤\u{fe0f}", "می\u{200c}نا"] {
        shop.write(&reserve(&shop, name).unwrap().events);
        let kept = shop.state.piece(plank).unwrap().work.reserved.clone();
        assert_eq!(kept.unwrap().payload.name, name);
        shop.write(&fill(&shop, plank, "Release", &[]).unwrap().events);
    }
    let marks = [long, "K\u{202e}7".to_owned(), "M4 ❤\u{fe0f}".to_owned()];
    let faults = queries::naming_faults(&shop.state, &marks);
    assert!(matches!(faults[0], Some(queries::NamingFault::TooLong(_))));
    assert!(matches!(
        faults[1],
        Some(queries::NamingFault::HiddenSign(_))
    ));
    assert_eq!(faults[2], None);
}

#[test]
fn a_reservation_that_ends_before_it_begins_is_asked_about() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let key = "Until, the last day";
    let texts = [("For whom", "Ada"), (key, "2026-11-01")];
    assert_eq!(
        asked(&fill(&shop, plank, "Reserve", &texts).unwrap()),
        [key]
    );
    // What is odd about the day on which it is reserved is asked there.
    let texts = [("For whom", "Ada"), ("Day", "2027-11-01")];
    assert_eq!(
        asked(&fill(&shop, plank, "Reserve", &texts).unwrap()),
        ["Day"]
    );
}

#[test]
fn what_was_said_of_the_latest_day_holds_whenever_it_was_written_down() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let say = |shop: &mut Shop, key: &str, texts: &[(&str, &str)]| {
        let texts = typed(
            workshop_command(key)
                .unwrap()
                .begins(plank, &shop.context()),
            texts,
        );
        let command = workshop_command(key).unwrap();
        let filled = command.command(&metric(&texts), plank, &shop.context());
        let grown = shop.state.clone();
        shop.phone.step += 1;
        let ids = shop.write(&filled.unwrap().events);
        // Added to what is known, it says the same.
        let mut grown = grown;
        assert!(grown.append(shop.log.entry(ids[0]).unwrap()));
        assert_eq!(grown, shop.state);
    };
    say(
        &mut shop,
        "Set to rest",
        &[("chosen", "2"), ("Shelf", "2"), ("Day", "2026-06-03")],
    );
    say(
        &mut shop,
        "Set to rest",
        &[("chosen", "0"), ("Shelf", "1"), ("Day", "2026-03-01")],
    );
    say(&mut shop, "Not found", &[("Day", "2026-05-01")]);
    let work = |shop: &Shop| shop.state.piece(plank).unwrap().work.clone();
    assert_eq!(work(&shop).place().unwrap().payload, "2");
    assert_eq!(work(&shop).missing, None);
    assert_eq!(work(&shop).rests.len(), 2);
    assert_eq!(work(&shop).rest().unwrap().on, day("2026-06-03"));
    say(
        &mut shop,
        "Another use",
        &[("To what use", "lamp"), ("Day", "2026-07-01")],
    );
    say(
        &mut shop,
        "Another use",
        &[("To what use", "box"), ("Day", "2026-04-01")],
    );
    assert_eq!(work(&shop).downgraded.unwrap().payload.to, "lamp");
    say(&mut shop, "Not found", &[("Day", "2026-08-01")]);
    assert!(work(&shop).missing.is_some());
    say(
        &mut shop,
        "Put on a shelf",
        &[("Shelf", "3"), ("Day", "2026-08-01")],
    );
    assert_eq!(work(&shop).missing, None);
    assert_eq!(work(&shop).place().unwrap().payload, "3");
}

#[test]
fn what_was_machined_is_proposed_by_the_last_check_alone() {
    let mut shop = Shop::new();
    let plank = stillwood_tests::workshop::bought(&mut shop.phone, "A7");
    shop.phone.flatten(plank);
    let begins = |shop: &Shop| {
        let command = workshop_command("Machined flat").unwrap();
        let texts = command.begins(plank, &shop.context());
        ["A face was made flat", "An edge was made straight"].map(|key| texts[key].clone())
    };
    let check = |shop: &mut Shop, crook: f64| {
        let crook = stillwood_tests::invented::taken(crook, "mm");
        let readings = stillwood_core::plank::Readings::from([(Field::Crook, crook)]);
        shop.phone.check_of(plank, readings);
        shop.keep();
    };
    check(&mut shop, 30.0);
    assert_eq!(begins(&shop), ["", "yes"]);
    check(&mut shop, 0.0);
    assert_eq!(begins(&shop), ["yes", ""]);
}

#[test]
fn what_is_odd_is_asked_at_its_field_until_it_is_confirmed() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let command = workshop_command("Weigh").unwrap();
    let begun = command.begins(plank, &shop.context());
    let mut texts = typed(begun.clone(), &[("Weight", "8")]);
    let filled = command
        .command(&metric(&texts), plank, &shop.context())
        .unwrap();
    shop.write(&filled.events);
    texts.insert("Weight".into(), "4".into());
    texts.insert("Day".into(), "2036-11-28".into());
    let ask = |shop: &Shop, texts: &Texts| {
        command
            .command(&metric(texts), plank, &shop.context())
            .unwrap()
    };
    assert_eq!(asked(&ask(&shop, &texts)), ["Day", "Weight"]);
    confirm(&mut texts, "Weight");
    assert_eq!(asked(&ask(&shop, &texts)), ["Day"]);
    confirm(&mut texts, "Day");
    let filled = ask(&shop, &texts);
    assert_eq!(asked(&filled), [""; 0]);
    assert!(filled.events[0].on_confirmed);
    assert_eq!(filled.events[0].on, Some(day("2036-11-28")));
    let Event::Weighed(weighed) = &filled.events[0].event else {
        panic!()
    };
    assert!(weighed.mass.confirmed);
    // Another text is asked about again.
    texts.insert("Weight".into(), "3".into());
    assert_eq!(asked(&ask(&shop, &texts)), ["Weight"]);
}

#[test]
fn tools_and_terms_stand_as_last_time() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let texts = [
        ("Weight", "8 kg"),
        ("Scale", "bench"),
        ("Step of the scale", "5 g"),
    ];
    let filled = fill(&shop, plank, "Weigh", &texts).unwrap();
    shop.write(&filled.events);
    let filled = fill(&shop, plank, "Set to rest", &[("chosen", "2")]).unwrap();
    shop.write(&filled.events);
    let begins = |key: &str| {
        workshop_command(key)
            .unwrap()
            .begins(plank, &shop.context())
    };
    let weigh = begins("Weigh");
    assert_eq!(
        (weigh["Scale"].as_str(), weigh["Step of the scale"].as_str()),
        ("bench", "5 g")
    );
    assert_eq!(
        (weigh["Weight"].as_str(), weigh["Day"].as_str()),
        ("", "2026-11-28")
    );
    assert_eq!(begins("Set to rest")["chosen"], "2");
    assert_eq!(begins("Machined flat")["A face was made flat"], "yes");
}

#[test]
fn what_is_offered_fits_the_piece() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let offered = |shop: &Shop| {
        let piece = shop.state.piece(plank).unwrap();
        let all = WORKSHOP_COMMANDS.iter();
        let fits = all.filter(|command| command.is_offered(piece, shop.today));
        fits.map(|command| command.key).collect::<Vec<_>>()
    };
    assert!(!offered(&shop).contains(&"Rings and grain"));
    assert!(!offered(&shop).contains(&"Release"));
    assert!(offered(&shop).contains(&"Reserve"));
    let filled = fill(&shop, plank, "Reserve", &[("For whom", "Ada")]).unwrap();
    shop.write(&filled.events);
    assert!(offered(&shop).contains(&"Release") && !offered(&shop).contains(&"Reserve"));
    let filled = fill(&shop, plank, "Not found", &[]).unwrap();
    shop.write(&filled.events);
    assert_eq!(offered(&shop), ["Put on a shelf", "Throw out", "Release"]);
    for step in NextStep::ALL {
        let elsewhere = matches!(step, NextStep::Cut | NextStep::Glue);
        let mut all = WORKSHOP_COMMANDS.iter();
        assert_ne!(
            all.any(|one| one.step == Some(*step)),
            elsewhere,
            "{step:?}"
        );
    }
}

#[test]
fn a_bare_number_is_in_the_units_of_the_form() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let command = workshop_command("Weigh").unwrap();
    let texts = typed(command.begins(plank, &shop.context()), &[("Weight", "12")]);
    let form = Form::new(&texts, Units::Inch);
    let Event::Weighed(weighed) = only(command.command(&form, plank, &shop.context())) else {
        panic!()
    };
    assert_eq!(weighed.mass.unit, "lb");
    assert!((weighed.mass.value - 5.443).abs() < 0.001);
}

#[test]
fn a_piece_that_moved_is_flattened_and_set_to_rest_anew_in_one_form() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let rest = SetToRest {
        climate: Climate::default(),
        place: "rack A".into(),
        stage: Stage::Laminates,
    };
    let rest = NewEvent::new(plank, Event::SetToRest(std::sync::Arc::new(rest)));
    shop.write(&[rest.on(day("2026-03-01"))]);
    let begins = flatten_again::begins(plank, &shop.context());
    assert_eq!(begins["Shelf"], "rack A");
    assert_eq!(begins["A face was made flat"], "yes");
    let texts = typed(
        begins.clone(),
        &[
            ("Thickness", "9 stone"),
            ("A face was made flat", ""),
            ("Day", ""),
        ],
    );
    let errors = flatten_again::command(&metric(&texts), plank, &shop.context()).unwrap_err();
    let keys: Vec<&str> = errors.all().iter().map(|(key, _)| key.as_str()).collect();
    assert_eq!(keys, ["Thickness", "A face was made flat", "Day"]);
    let texts = typed(begins, &[("Thickness", "9.2"), ("Day", "2026-11-27")]);
    let filled = flatten_again::command(&metric(&texts), plank, &shop.context()).unwrap();
    assert!(filled.questions.is_empty());
    shop.write(&filled.events);
    let piece = shop.state.piece(plank).unwrap();
    let (flat, rest) = (
        piece.work.machined.last().unwrap(),
        piece.work.rest().unwrap(),
    );
    assert_eq!(flat.on, day("2026-11-27"));
    assert_eq!(rest.on, day("2026-11-27"));
    assert_eq!(rest.payload.stage, Stage::Laminates);
    assert_eq!(piece.work.place().unwrap().payload, "rack A");
}
