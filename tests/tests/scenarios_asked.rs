//! What the workshop asks before it is recorded, marks before they are cut, and what a witness stick
//! says of the air. All invented.

use std::sync::Arc;
use stillwood_core::plank::Field;
use stillwood_core::quantity::kg;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Climate, Cut, Entry, Event, Limits, Machined, MovementChecked, NamingFault, PieceKind,
    RoomRead, StressTest, StressTested, Tension, WarningSubject, Weighed, Witness, date, sealed,
};
use stillwood_core::season::Stage;
use stillwood_tests::workshop::{bought, taken, to_the_rack};
use stillwood_tests::yard::{Phone, from_file, typed};

/// What is asked about an entry of a day.
fn asked(phone: &Phone, piece: Id, event: &Event, day: &str) -> Vec<(WarningSubject, String)> {
    let state = phone.state();
    let (on, today) = (date(day).unwrap(), date("2028-01-01").unwrap());
    let warnings = queries::work_warnings(&state, piece, event, on, today, Units::Metric);
    warnings
        .into_iter()
        .map(|one| (one.of, one.question))
        .collect()
}

fn weighing(mass: f64) -> Weighed {
    Weighed {
        mass: taken(mass, "kg"),
        scale: String::new(),
        step: None,
        witness: None,
    }
}

#[test]
fn a_mass_that_grew_and_a_day_before_the_last_are_asked_about() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2027-01-10");
    phone.weigh(plank, 19.0);
    let of = |mass: f64, day: &str| {
        let weighed = Event::Weighed(Arc::new(weighing(mass)));
        let found = asked(&phone, plank, &weighed, day);
        found.into_iter().map(|(of, _)| of).collect::<Vec<_>>()
    };
    assert_eq!(of(19.4, "2027-02-10"), [], "damper air does as much");
    assert_eq!(of(17.0, "2027-02-10"), [], "it dries");
    assert_eq!(of(20.5, "2027-02-10"), [WarningSubject::Mass]);
    assert_eq!(of(9.0, "2027-02-10"), [WarningSubject::Mass]);
    assert_eq!(of(19.0, "2027-01-09"), [WarningSubject::Day]);
    assert_eq!(
        of(19.0, "2028-01-02"),
        [WarningSubject::Day],
        "still to come"
    );
    let weighed = |mass| Event::Weighed(Arc::new(weighing(mass)));
    let question = |mass| {
        asked(&phone, plank, &weighed(mass), "2027-02-10")
            .remove(0)
            .1
    };
    assert!(
        question(20.5).contains(": 8 % heavier?"),
        "{}",
        question(20.5)
    );
    assert!(
        question(9.0).contains(": 53 % lighter?"),
        "{}",
        question(9.0)
    );
    // Before any weighing its size tells.
    assert_eq!(
        of(60.0, "2026-12-01"),
        [WarningSubject::Day, WarningSubject::Mass]
    );
    // What the maker insists on is asked no more.
    let mut sure = weighing(20.5);
    sure.mass.confirmed = true;
    let sure = Event::Weighed(Arc::new(sure));
    assert_eq!(asked(&phone, plank, &sure, "2027-02-10"), []);
}

#[test]
fn a_size_that_grew_a_shape_far_beyond_and_an_odd_air_are_asked_about() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let machined = |text: &str| {
        let readings = typed(&[(Field::ThicknessNear, text)]);
        let machined = Machined {
            face: true,
            readings,
            ..Machined::default()
        };
        asked(
            &phone,
            plank,
            &Event::Machined(Box::new(machined)),
            "2027-01-10",
        )
    };
    assert_eq!(machined("50 mm"), []);
    // A hair of tape or calliper is none: from 2 mm on it is asked.
    assert_eq!(machined("53.9 mm"), []);
    assert_eq!(machined("54.1 mm").len(), 1);
    let (of, question) = machined("60 mm").remove(0);
    assert_eq!(of, WarningSubject::Reading(Field::ThicknessNear));
    assert!(
        question.contains("60 mm") && question.contains("52 mm"),
        "{question}"
    );

    let checked = |text: &str| {
        let check = MovementChecked {
            readings: typed(&[(Field::Crook, text)]),
            ..MovementChecked::default()
        };
        asked(
            &phone,
            plank,
            &Event::MovementChecked(Arc::new(check)),
            "2027-01-10",
        )
    };
    assert_eq!(checked("+9 mm"), []);
    assert_eq!(
        checked("+400 mm")[0].0,
        WarningSubject::Reading(Field::Crook)
    );

    let room = RoomRead {
        climate: Climate {
            humidity: Some(taken(4.5, "%")),
            temperature: Some(taken(68.0, "degC")),
        },
        hygrometer: String::new(),
        room: "loft".into(),
        witness: None,
    };
    let found = asked(
        &phone,
        plank,
        &Event::RoomRead(Box::new(room)),
        "2020-01-10",
    );
    let found: Vec<WarningSubject> = found.into_iter().map(|(of, _)| of).collect();
    assert_eq!(
        found,
        [WarningSubject::Humidity, WarningSubject::Temperature]
    );
}

#[test]
fn a_gap_of_more_than_a_tenth_of_the_length_is_asked_about() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let tested = |gap: f64, over: Option<f64>| {
        let over = over.map(|over| taken(over, "mm"));
        let tested = StressTested {
            gap: taken(gap, "mm"),
            over: over.clone(),
            test: StressTest::Ripped,
        };
        let cut = Cut {
            children: Vec::new(),
            kerf: None,
            tension: Some(Tension {
                gap: taken(gap, "mm"),
                over,
            }),
        };
        let [tested, cut] = [
            Event::StressTested(Box::new(tested)),
            Event::Cut(Arc::new(cut)),
        ]
        .map(|said| asked(&phone, plank, &said, "2027-01-10"));
        assert_eq!(tested, cut);
        tested.into_iter().map(|(of, _)| of).collect::<Vec<_>>()
    };
    assert_eq!(tested(29.0, Some(300.0)), []);
    assert_eq!(tested(31.0, Some(300.0)), [WarningSubject::Gap]);
    assert_eq!(tested(-31.0, Some(300.0)), [WarningSubject::Gap]);
    // Where no length was noted it is that of the piece, 2620 mm.
    assert_eq!(tested(261.0, None), []);
    assert_eq!(tested(263.0, None), [WarningSubject::Gap]);
}

#[test]
fn a_day_insisted_on_is_read_again_from_the_file() {
    let mut phone = Phone::new("K7");
    bought(&mut phone, "A7");
    let read = from_file(&phone.file());
    let entry = &read.accepted[0];
    assert!(!entry.on_confirmed);
    let line = entry.to_line();
    assert!(!line.contains("on_insisted"), "{line}");
    let sure = line.replacen("\"seq\"", "\"on_insisted\":true,\"seq\"", 1);
    let sure = sealed(&sure).unwrap();
    let again = Entry::from_json(&sure, &Limits::default()).unwrap();
    assert!(again.on_confirmed);
    assert_eq!(again.to_line(), sure);
    let twice = sure.replacen("\"seq\"", "\"on_insisted\":true,\"seq\"", 1);
    assert!(Entry::from_json(&twice, &Limits::default()).is_err());
}

#[test]
fn marks_are_proposed_and_looked_at_before_the_cut() {
    let (phone, _, _) = to_the_rack();
    let state = phone.state();
    // A7 was cut to A7a, A7b and A7c: those are passed over, the way they are written makes no difference.
    assert_eq!(
        queries::marks_for(&state, "A7", PieceKind::Piece, 2),
        ["A7 d", "A7 e"]
    );
    assert_eq!(
        queries::marks_for(&state, "B1", PieceKind::Laminate, 2),
        ["B1 1", "B1 2"]
    );
    let marks = ["best", "a7-A", "", "x", "X "].map(str::to_owned);
    assert_eq!(
        queries::naming_faults(&state, &marks),
        [
            None,
            Some(NamingFault::MarkTaken("a7-A".into())),
            Some(NamingFault::Nothing),
            Some(NamingFault::Twice("x".into())),
            Some(NamingFault::Twice("X".into())),
        ]
    );
}

fn read_room(phone: &mut Phone, humidity: Option<f64>, stick: Option<f64>) {
    let read = RoomRead {
        climate: Climate {
            humidity: humidity.map(|humidity| taken(humidity, "%")),
            temperature: None,
        },
        hygrometer: String::new(),
        room: "loft".into(),
        witness: stick.map(|mass| Witness {
            mass: taken(mass, "kg"),
            name: "ash stick".into(),
        }),
    };
    let about = phone.id();
    phone.say(about, Event::RoomRead(Box::new(read)));
}

#[test]
fn a_witness_stick_tells_the_air_between_two_readings_of_the_hygrometer() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2027-01-01");
    phone.rest(plank, Stage::Pieces, "loft, shelf 2");
    read_room(&mut phone, Some(45.0), Some(0.500));
    let told = queries::witness_in(&phone.state(), "loft").unwrap();
    assert_eq!(told.says, None, "it counts from here");
    let at_45 = told.hygrometer.unwrap().in_percent();

    // Two months later the stick alone is weighed: 1 % heavier than its dry mass and what it held.
    phone.set_day("2027-03-01");
    read_room(&mut phone, None, Some(0.505));
    let told = queries::witness_in(&phone.state(), "loft").unwrap();
    let says = told.says.unwrap().unwrap().in_percent();
    assert!(
        (says - ((100.0 + at_45) * 1.01 - 100.0)).abs() < 1e-9,
        "{says}"
    );
    assert!(told.hygrometer.is_none() && !told.disagrees());

    // A hygrometer that was read a week before tells the air of the stick's day; both agree to half a
    // percent of moisture, so nothing is off.
    let mut near = Phone::with("N2", phone.log());
    near.set_day("2027-02-22");
    read_room(&mut near, Some(50.0), None);
    let told = queries::witness_in(&near.state(), "loft").unwrap();
    let read = told.hygrometer.unwrap().in_percent();
    assert!((says - read).abs() < 1.0, "{says} {read}");
    assert!(!told.disagrees());
    let mut far = Phone::with("N3", phone.log());
    far.set_day("2027-02-21");
    read_room(&mut far, Some(50.0), None);
    assert!(
        queries::witness_in(&far.state(), "loft")
            .unwrap()
            .hygrometer
            .is_none()
    );

    // The hygrometer says otherwise: that is told.
    read_room(&mut phone, Some(45.0), None);
    let told = queries::witness_in(&phone.state(), "loft").unwrap();
    assert!(told.disagrees(), "{told:?}");

    // A piece that gained no more than its room's air gave is not taken for wood that takes up water:
    // without the stick the air would seem to have stood still.
    let as_air = |with_stick: bool| {
        let mut phone = Phone::new("K7");
        let plank = bought(&mut phone, "A7");
        for (day, share) in [
            ("2027-01-01", 1.0),
            ("2027-03-01", 1.0),
            ("2027-05-01", 1.012),
        ] {
            phone.set_day(day);
            if day == "2027-01-01" {
                phone.rest(plank, Stage::Pieces, "loft, shelf 2");
                read_room(&mut phone, Some(45.0), Some(0.5));
            } else if with_stick {
                read_room(&mut phone, None, Some(0.5 * share));
            }
            phone.weigh(plank, 3.2 * share);
        }
        let state = phone.state();
        let piece = state.piece(plank).unwrap();
        queries::drying_report(&state, piece, kg(0.0005))
            .unwrap()
            .unwrap()
            .gained_as_air
    };
    assert!(as_air(true));
    assert!(!as_air(false));
}

#[test]
fn a_stick_that_is_another_one_is_asked_about() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2027-01-01");
    read_room(&mut phone, Some(45.0), Some(0.5));
    let beside = |mass: f64| {
        let mut weighed = weighing(19.7);
        weighed.witness = Some(Witness {
            mass: taken(mass, "kg"),
            name: "ash stick".into(),
        });
        asked(
            &phone,
            plank,
            &Event::Weighed(Arc::new(weighed)),
            "2027-02-01",
        )
    };
    assert_eq!(beside(0.505), []);
    assert_eq!(beside(0.6)[0].0, WarningSubject::Witness);
}

#[test]
fn what_was_weighed_in_one_room_is_not_judged_by_the_air_of_another() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2027-01-01");
    for (room, humidity) in [("Cellar", 65.0), ("Loft", 42.0)] {
        let about = phone.id();
        phone.read_room(about, room, Some(humidity), None);
    }
    phone.rest(plank, Stage::Pieces, "cellar, rack 1");
    for day in ["2027-01-01", "2027-02-01", "2027-03-01", "2027-04-01"] {
        phone.set_day(day);
        let mut weighed = weighing(19.7);
        weighed.witness = Some(Witness {
            mass: taken(0.5, "kg"),
            name: "ash stick".into(),
        });
        phone.say(plank, Event::Weighed(Arc::new(weighed)));
    }
    let stands = |phone: &Phone| {
        let state = phone.state();
        let piece = state.piece(plank).unwrap();
        let at_rest = queries::weight_at_rest(&state, piece, kg(0.001));
        (queries::weighed_in_room(&state, piece).len(), at_rest)
    };
    assert_eq!(stands(&phone), (4, Some(true)));
    // Moved on the day of the last weighing: with it begins what is known in the new room.
    phone.place(plank, "loft 1");
    assert_eq!(stands(&phone), (1, None));
    // The stick lay beside it in the cellar.
    let state = phone.state();
    assert!(queries::witness_in(&state, "Cellar").is_some());
    for (day, mass) in [
        ("2027-05-01", 19.5),
        ("2027-06-01", 19.36),
        ("2027-07-01", 19.26),
    ] {
        phone.set_day(day);
        phone.weigh_to_a_gram(plank, mass);
    }
    // Four weighings leave it open.
    assert_eq!(stands(&phone), (4, None));
    // Another rack of the same room changes nothing.
    phone.place(plank, "LOFT, rack 2");
    assert_eq!(stands(&phone), (4, None));
}

#[test]
fn a_rack_is_in_the_room_whose_whole_name_its_own_begins_with() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    for room in ["Room 1", "Room 2"] {
        let about = phone.id();
        phone.read_room(about, room, Some(45.0), None);
    }
    let mut has_air = |rack: &str| {
        phone.place(plank, rack);
        phone.weigh(plank, 19.7);
        let state = phone.state();
        queries::drying_report(&state, state.piece(plank).unwrap(), kg(0.1)).is_some()
    };
    assert!(has_air("Room 1") && has_air("room 1, left") && has_air("ROOM 2-b"));
    assert!(!has_air("Room 12") && !has_air("Room 1a") && !has_air("Roo"));
}

#[test]
fn a_blank_that_was_not_measured_is_asked_about_by_what_its_laminates_come_to() {
    let (phone, _, blank) = to_the_rack();
    let asked = |event: Event| {
        asked(&phone, blank, &event, "2027-12-20")
            .into_iter()
            .next()
    };
    let weighed = |mass| asked(Event::Weighed(Arc::new(weighing(mass))));
    assert_eq!(weighed(2.8), None);
    assert_eq!(weighed(28.0).unwrap().0, WarningSubject::Mass);
    let check = MovementChecked {
        readings: typed(&[(Field::Crook, "60")]),
        ..MovementChecked::default()
    };
    let check = asked(Event::MovementChecked(Arc::new(check)));
    assert_eq!(check.unwrap().0, WarningSubject::Reading(Field::Crook));
}
