//! The commands that change what was said before: spec, target, rest times, the air of a room, the yard's tally,
//! woods of the maker's own, and what is to be settled.

mod filled;

use filled::{Shop, asked, day, ids, metric, only, typed, visit, wrong};
use rust_decimal::Decimal;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::season::{Limit, Stage};
use stillwood_core::verdict::{Criterion, FirstCut, Form as LimitForm, Order, Orientation, Spec};

mod spec_form {
    use super::*;

    fn spec_of(shop: &Shop, visit: Id, texts: &[(&str, &str)]) -> Result<Filled, FieldErrors> {
        let texts = typed(spec::begins(visit, &shop.context()), texts);
        spec::command(&metric(&texts), visit, &shop.context())
    }

    fn changed(shop: &Shop, visit: Id, texts: &[(&str, &str)]) -> Spec {
        let Event::VisitOpened(opened) = only(spec_of(shop, visit, texts)) else {
            panic!()
        };
        opened.spec
    }

    #[test]
    fn a_spec_that_is_not_changed_stays_as_it_is() {
        let mut shop = Shop::new();
        for supplied in Spec::supplied() {
            let id = visit(&mut shop);
            let known = shop.state.visit(id).unwrap();
            let (entry, mut opened) = (known.recorded.entry, known.opened.clone());
            opened.spec = supplied.clone();
            let event = Event::VisitOpened(Box::new(opened));
            shop.write(&[NewEvent::instead_of(id, event, vec![entry])]);
            let filled = spec_of(&shop, id, &[]).unwrap();
            assert_eq!(filled.events[0].supersedes.len(), 1);
            let mut same = changed(&shop, id, &[]);
            // The spec's criteria in the order in which they are shown.
            let order =
                |criterion: Criterion| Criterion::ALL.iter().position(|one| *one == criterion);
            let mut before = supplied.clone();
            before.criteria.sort_by_key(|one| order(one.criterion));
            for (one, before) in same.criteria.iter_mut().zip(&before.criteria) {
                // A slope is typed as 1 in n.
                if one.criterion == Criterion::GrainSlope {
                    one.form = before.form;
                }
            }
            assert_eq!(same, before);
        }
    }

    #[test]
    fn limits_that_follow_from_the_size_are_derived_from_it() {
        let mut shop = Shop::new();
        let id = visit(&mut shop);
        let begun = spec::begins(id, &shop.context());
        assert_eq!(begun["limits follow the size"], "true");
        let orientation: Orientation = serde_json::from_str(&begun["laid"]).unwrap();
        let size = match orientation {
            Orientation::OnEdge => "Width, mm",
            Orientation::Flat => "Thickness, mm",
        };
        let of_slab = |spec: &Spec| spec.requirement(Criterion::Straightness).unwrap().form;
        let spec = changed(&shop, id, &[(size, "48")]);
        assert_eq!(of_slab(&spec), LimitForm::of_slab(48.0));
        // Limits of the maker's own stay.
        let own = [
            (size, "48"),
            ("limits follow the size", "false"),
            ("straight slab 0", "47"),
            ("straight slab 1", "45"),
        ];
        assert_eq!(
            of_slab(&changed(&shop, id, &own)),
            LimitForm::AtLeast {
                target: 47.0,
                limit: 45.0
            }
        );
        // A form that was half typed before it could be said follows where its limits did.
        let mut texts = typed(begun, &[(size, "25"), ("straight slab 0", "27")]);
        texts.insert("straight slab 1".into(), "25".into());
        texts.remove("limits follow the size");
        assert!(spec::follows_size(&metric(&texts)));
        texts.insert("straight slab 1".into(), "24".into());
        assert!(!spec::follows_size(&metric(&texts)));
    }

    #[test]
    fn sizes_counts_and_criteria_are_read() {
        let mut shop = Shop::new();
        let id = visit(&mut shop);
        let spec = changed(
            &shop,
            id,
            &[
                ("Name", " Mine "),
                ("Length, mm", "900,5"),
                ("a piece first", "true"),
                ("Width of a piece, planed, mm", "110"),
                ("Parts in a blank", "3"),
                ("Blanks wanted", "0"),
                ("Come through, %", "60"),
                ("order", "\"score\""),
                ("fatal", "[\"pith\"]"),
                ("ring angle", "true"),
                ("ring angle 0", "70"),
                ("ring angle 1", "50"),
                ("crook", "false"),
                ("slope of grain 0", "25"),
            ],
        );
        assert_eq!((spec.name.as_str(), spec.part.length_mm), ("Mine", 900.5));
        assert_eq!(spec.first_cut, FirstCut::Piece { width_mm: 110.0 });
        assert_eq!((spec.parts_per_blank, spec.blanks_wanted), (3, 0));
        assert_eq!((spec.expected_yield, spec.order), (0.6, Order::Score));
        assert_eq!(spec.fatal.len(), 1);
        assert!(spec.requirement(Criterion::Crook).is_none());
        assert_eq!(
            spec.requirement(Criterion::RingAngle).unwrap().form,
            LimitForm::AtLeast {
                target: 70.0,
                limit: 50.0
            }
        );
        let LimitForm::AtMost { target, .. } =
            spec.requirement(Criterion::GrainSlope).unwrap().form
        else {
            panic!()
        };
        assert_eq!(target, 1.0 / 25.0);
    }

    #[test]
    fn all_that_is_wrong_is_told_at_its_field() {
        let mut shop = Shop::new();
        let id = visit(&mut shop);
        let bad = [
            ("Length, mm", "0"),
            ("Width, mm", ""),
            ("Thickness, mm", "thick"),
            ("Parts in a blank", "0"),
            ("Blanks wanted", "2.5"),
            ("Come through, %", "140"),
            ("Saw cut, mm", "-1"),
            ("limits follow the size", "false"),
            ("straight slab 0", "x"),
            ("moisture 1", "11"),
            ("slope of grain 1", "0"),
        ];
        assert_eq!(
            wrong(spec_of(&shop, id, &bad)),
            [
                "Length, mm",
                "Width, mm",
                "Thickness, mm",
                "Parts in a blank",
                "Blanks wanted",
                "Come through, %",
                "Saw cut, mm",
                "straight slab 0",
                "slope of grain 1",
                "moisture 0"
            ]
        );
    }
}

#[test]
fn a_target_is_kept() {
    let mut shop = Shop::new();
    let begins = save_target::begins(&queries::target_now(&shop.state));
    assert_eq!(begins["Good blanks wanted"], "10");
    let keep = |texts: &[(&str, &str)]| {
        let texts = typed(begins.clone(), texts);
        save_target::command(&metric(&texts), &mut ids())
    };
    let said = [
        ("Good blanks wanted", "6"),
        ("Ready by", "2028-09-01"),
        ("how sure", "80"),
        ("wood", r#"{"text":"hard maple"}"#),
    ];
    let Event::TargetSet(wish) = only(keep(&said)) else {
        panic!()
    };
    assert_eq!((wish.blanks, wish.sure_percent), (6, 80));
    assert_eq!(wish.by, Some(day("2028-09-01")));
    assert_eq!(wish.wood.as_ref().unwrap().text, "hard maple");
    let bad = [
        ("Good blanks wanted", "2.5"),
        ("Laminates in a blank", "0"),
        ("Ready by", "soon"),
    ];
    assert_eq!(
        wrong(keep(&bad)),
        ["Good blanks wanted", "Laminates in a blank", "Ready by"]
    );
    shop.write(&keep(&said).unwrap().events);
    assert_eq!(queries::target_now(&shop.state).blanks, 6);
}

#[test]
fn rest_times_and_limits_are_set() {
    let shop = Shop::new();
    let set = |stage: Stage, texts: &[(&str, &str)]| {
        let texts = typed(rest_times::begins(stage, &shop.context()), texts);
        rest_times::command(&metric(&texts), stage, &shop.context(), &mut ids())
    };
    for stage in Stage::ALL {
        let Event::StageSet(as_it_was) = only(set(stage, &[])) else {
            panic!()
        };
        assert_eq!(as_it_was.terms, queries::stage_limits(&shop.state, stage));
    }
    let said = [
        ("Weeks in the room", "6"),
        ("Months at least", "9"),
        ("Months at most", "12"),
        ("Bow: out beyond", "1.5 mm"),
        ("Bow: watched beyond", ""),
        ("Cup: out beyond", ""),
        ("Cup: watched beyond", ""),
    ];
    let Event::StageSet(stage) = only(set(Stage::Pieces, &said)) else {
        panic!()
    };
    assert_eq!(stage.terms.weeks_in_room, Some(6));
    assert_eq!((stage.terms.months, stage.terms.months_most), (9, Some(12)));
    assert_eq!(
        stage.terms.bow,
        Some(Limit {
            reject_mm: 1.5,
            warn_mm: None
        })
    );
    assert_eq!(stage.terms.cup, None);
    let bad = [
        ("Months at least", "nine"),
        ("Months at most", "700"),
        ("Bow: out beyond", ""),
        ("Bow: watched beyond", "1"),
        ("Crook: out beyond", "1"),
        ("Crook: watched beyond", "2"),
        ("Limits hold over", "0"),
        ("Day", ""),
    ];
    assert_eq!(
        wrong(set(Stage::Laminates, &bad)),
        [
            "Months at least",
            "Months at most",
            "Bow: out beyond",
            "Crook: watched beyond",
            "Limits hold over",
            "Day"
        ]
    );
    let fewer = [("Months at least", "9"), ("Months at most", "3")];
    assert_eq!(wrong(set(Stage::Blanks, &fewer)), ["Months at most"]);
}

#[test]
fn the_air_of_a_room_is_logged_under_one_id() {
    let mut shop = Shop::new();
    let read = |shop: &Shop, texts: &[(&str, &str)]| {
        let texts = typed(log_room_air::begins(&shop.context()), texts);
        let mut id = ids();
        log_room_air::command(&metric(&texts), &shop.log, &shop.context(), &mut id)
    };
    let said = [
        ("Room", "loft"),
        ("Humidity of the air", "45"),
        ("Temperature of the air", "20"),
        ("Hygrometer", "dial"),
    ];
    let filled = read(&shop, &said).unwrap();
    let about = filled.events[0].about;
    let Event::RoomRead(air) = only(Ok(filled.clone())) else {
        panic!()
    };
    assert_eq!(
        (air.room.as_str(), air.hygrometer.as_str()),
        ("loft", "dial")
    );
    shop.write(&filled.events);
    let begins = log_room_air::begins(&shop.context());
    assert_eq!(begins["Room"], "loft");
    let again = read(&shop, &[("Humidity of the air", "50")]).unwrap();
    assert_eq!(again.events[0].about, about);
    assert_eq!(
        wrong(read(&shop, &[("Room", "")])),
        ["Room", "Humidity of the air"]
    );
    let bad = [
        ("Humidity of the air", "damp"),
        ("Witness stick", "oak"),
        ("Day", "x"),
    ];
    assert_eq!(
        wrong(read(&shop, &bad)),
        ["Humidity of the air", "The stick weighs", "Day"]
    );
    let odd = [
        ("Humidity of the air", "3"),
        ("Temperature of the air", "68"),
    ];
    assert_eq!(
        asked(&read(&shop, &odd).unwrap()),
        ["Humidity of the air", "Temperature of the air"]
    );
}

#[test]
fn the_unnamed_sticks_of_two_rooms_are_two() {
    let mut shop = Shop::new();
    let read = |shop: &mut Shop, room: &str, humidity: &str, stick: &str, day: &str| {
        let said = [
            ("Room", room),
            ("Humidity of the air", humidity),
            ("Temperature of the air", "20"),
            ("The stick weighs", stick),
            ("Day", day),
        ];
        let texts = typed(log_room_air::begins(&shop.context()), &said);
        let mut id = ids();
        let filled =
            log_room_air::command(&metric(&texts), &shop.log, &shop.context(), &mut id).unwrap();
        assert_eq!(asked(&filled), [] as [&str; 0]);
        shop.write(&filled.events);
    };
    read(&mut shop, "loft", "45", "120 g", "2026-06-01");
    read(&mut shop, "cellar", "60", "300 g", "2026-06-02");
    read(&mut shop, "loft", "", "121 g", "2026-08-01");
    let found = queries::witness_in(&shop.state, "loft").unwrap();
    // 120 g in air of 45 %, and now 121 g: a little damper.
    let says = found.says.unwrap().unwrap().in_percent();
    assert!((8.0..11.0).contains(&says), "{says}");
    assert!(found.working.is_some());
    // The stick of the cellar is only what it counts from.
    let found = queries::witness_in(&shop.state, "cellar").unwrap();
    assert_eq!(found.says, None);
}

#[test]
fn a_share_of_more_than_all_is_no_limit() {
    let shop = Shop::new();
    let limit = |share: &str| {
        let begins = gluing_limits::begins(&shop.context());
        let texts = typed(begins, &[("Stiffness apart, a share", share)]);
        gluing_limits::command(&metric(&texts), &shop.context(), &mut ids())
    };
    assert!(limit("0.2").is_ok() && limit("1").is_ok());
    assert_eq!(wrong(limit("20")), ["Stiffness apart, a share"]);
}

#[test]
fn what_the_yard_says_is_written_changed_and_taken_away() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let visit = shop.state.visits().next().unwrap().id;
    let money = YardFigures {
        money: Some(Decimal::new(145_050, 2)),
        ..YardFigures::default()
    };
    let first = yard_tally::total(&shop.state, visit, money.clone()).unwrap();
    let first = shop.write(&[first]);
    let both = YardFigures {
        board_feet: Some(Decimal::from(96)),
        ..money
    };
    let second = yard_tally::total(&shop.state, visit, both.clone()).unwrap();
    assert_eq!(second.supersedes, first);
    assert_eq!(second.event, Event::YardTotal(both.clone()));
    shop.write(&[second]);
    assert_eq!(yard_tally::total(&shop.state, visit, both), None);
    let line = |cubic_metres| YardFigures {
        cubic_metres,
        ..YardFigures::default()
    };
    assert_eq!(yard_tally::line(&shop.state, plank, line(None)), None);
    let said = yard_tally::line(&shop.state, plank, line(Some(Decimal::ONE))).unwrap();
    shop.write(&[said]);
    // Another device told the money, and did not know of this.
    let money = YardFigures {
        money: Some(Decimal::from(80)),
        ..YardFigures::default()
    };
    shop.phone.say(plank, Event::YardLine(money));
    shop.keep();
    let (said, known) = shop.state.piece(plank).unwrap().yard_line.clone().unwrap();
    assert_eq!(known.cubic_metres, Some(Decimal::ONE));
    assert_eq!(known.money, Some(Decimal::from(80)));
    let away = yard_tally::line(&shop.state, plank, line(None)).unwrap();
    assert_eq!(away.event, Event::Withdrawn(Withdrawn {}));
    assert_eq!((away.supersedes.len(), &away.supersedes), (2, &said));
    shop.write(&[away]);
    assert_eq!(shop.state.piece(plank).unwrap().yard_line, None);
}

#[test]
fn a_wood_of_the_makers_own_tells_all_that_is_wrong() {
    let mut shop = Shop::new();
    let keep = |shop: &Shop, wood: Option<&str>, texts: &[(&str, &str)]| {
        let begins = own_wood_form::begins(wood, "", &shop.context(), Units::Metric);
        let texts = typed(begins, texts);
        let mut id = || Id::from_u128(texts.len() as u128 + shop.log.len() as u128);
        own_wood_form::command(&metric(&texts), wood, &shop.context(), &mut id)
    };
    let said = [
        ("Name of the wood", "bog yew"),
        ("Density at 12 %", "640"),
        ("Density at 12 %: where from?", "weighed"),
        ("Its dust", "\"irritant\""),
    ];
    let filled = keep(&shop, None, &said).unwrap();
    let Event::WoodAdded(added) = only(Ok(filled.clone())) else {
        panic!()
    };
    assert_eq!(added.common, "bog yew");
    assert_eq!(added.numbers.len(), 1);
    let entries = shop.write(&filled.events);
    let id = added.id.clone();
    let filled = keep(&shop, Some(&id), &[("Note on the wood", "dark")]).unwrap();
    assert_eq!(filled.events[0].supersedes, entries);
    let bad = [
        ("Name of the wood", "bog yew"),
        ("Density at 12 %", "heavy"),
        ("Usual density from", "700"),
        ("Usual density to", "600"),
    ];
    assert_eq!(
        wrong(keep(&shop, None, &bad)),
        ["Density at 12 %", "Name of the wood", "Usual density to"]
    );
    let gone = delete::command(&shop.state, filled.events[0].about);
    shop.write(&gone.events);
    assert!(shop.state.woods().is_empty());
}

#[test]
fn a_device_is_named_once() {
    let mut shop = Shop::new();
    let name = |shop: &Shop, text: &str| {
        let texts = typed(
            device_name::begins(&shop.state, "K7"),
            &[("Name of this device", text)],
        );
        device_name::command(&metric(&texts), &shop.state, "K7", &mut ids())
    };
    assert_eq!(wrong(name(&shop, "  ")), ["Name of this device"]);
    let filled = name(&shop, "phone").unwrap();
    shop.write(&filled.events);
    assert_eq!(name(&shop, "phone").unwrap().events, []);
}

#[test]
fn a_note_that_turns_the_text_is_shown_harmlessly() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    let text = typed(Texts::new(), &[("A new note", "left \u{202e}thgir end")]);
    let filled = note::command(&metric(&text), plank).unwrap();
    shop.write(&filled.events);
    let shown = &shop.state.piece(plank).unwrap().notes[0].text;
    assert!(!shown.contains('\u{202e}'), "{shown:?}");
    assert!(shown.contains("left") && shown.contains("end"));
    assert_eq!(
        wrong(note::command(&metric(&Texts::new()), plank)),
        ["A new note"]
    );
}
