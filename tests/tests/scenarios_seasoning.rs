//! Seasoning: a year away, what moved since it was last flat, the two keys that end a rest, and dates for
//! a plan. All invented.

use stillwood_core::plank::{Field, Instruments, Reason};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{celsius, in_mm};
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Checked, DueWhen, End, Event, Log, Machined, Missing, Piece, PieceKind, RestLine, StageCount,
    StageSet, child_marks, due_by_day,
};
use stillwood_core::season::{
    DateKey, MeasureKey, Movement, PlanPosition, Ready, Stage, StageLimits, StockItem, Warp,
    earliest_blanks, latest_days,
};
use stillwood_core::wood::{Humidity, emc};
use stillwood_tests::workshop::{bought, day, feeler, scale, to_the_rack};
use stillwood_tests::yard::{A7, Phone, from_file};

/// 64 laminates and 9 pieces set to rest, pieces for seven months, then nobody looks for 402 days.
fn a_year_away() -> (Phone, Vec<Id>) {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let mut laminates = Vec::new();
    phone.set_day("2026-10-20");
    for n in 0..16 {
        let plank = phone.plank(pile, &format!("P{n}"), &A7);
        let marks: Vec<String> = (1..=4).map(|k| format!("P{n}-{k}")).collect();
        laminates.extend(phone.rip(plank, &marks, 16.0));
    }
    for (n, laminate) in laminates.iter().enumerate() {
        phone.flatten(*laminate);
        let place = if n < 40 { "shelf 2" } else { "box by the wall" };
        phone.rest(*laminate, Stage::Laminates, place);
    }
    phone.set_day("2026-10-17");
    let terms = StageLimits {
        months: 7,
        ..StageLimits::supplied(Stage::Pieces)
    };
    let stage = Stage::Pieces;
    let set = StageSet { stage, terms };
    phone.say(pile, Event::StageSet(Box::new(set)));
    for n in 0..3 {
        let plank = phone.plank(pile, &format!("Q{n}"), &A7);
        let thirds: Vec<(String, f64, f64)> = (0..3)
            .map(|k| {
                (
                    format!("Q{n}{k}"),
                    f64::from(k) * 860.0,
                    f64::from(k) * 860.0 + 850.0,
                )
            })
            .collect();
        let layout: Vec<(&str, f64, f64)> = thirds
            .iter()
            .map(|(m, a, b)| (m.as_str(), *a, *b))
            .collect();
        for piece in phone.crosscut(plank, &layout) {
            phone.rest(piece, Stage::Pieces, "shelf 1");
        }
    }
    (phone, laminates)
}

#[test]
fn a_year_away_everything_is_there_and_ripe() {
    let (mut phone, laminates) = a_year_away();
    let opened = day("2026-10-20") + chrono::Duration::days(402);
    let mut again = Log::new();
    again.merge(from_file(&phone.file()).accepted);
    assert_eq!(State::project(&again), phone.state());
    let lines = queries::resting(&State::project(&again), opened, feeler(), scale());
    assert_eq!(lines.len(), 64 + 9);
    for line in &lines {
        let ready = line.ready.as_ref().unwrap();
        assert_eq!(ready.date, DateKey::RestOver);
        assert_eq!(ready.measure, MeasureKey::NotChecked);
        let due = if line.stage == Stage::Laminates {
            "2027-04-20"
        } else {
            "2027-05-17"
        };
        assert_eq!(ready.due, day(due));
    }
    // Counted from the day on which it was last looked at: the 183rd and the 210th.
    let counted = |due: &str| (day(due) - day("2026-10-20")).num_days() + 1;
    assert_eq!((counted("2027-04-20"), counted("2027-05-17")), (183, 210));
    let due = queries::due(&State::project(&again), lines, opened, scale());
    let at = |place: &str| due.iter().filter(|line| line.place == place).count();
    assert_eq!(
        ["box by the wall", "shelf 1", "shelf 2"].map(at),
        [24, 9, 40]
    );

    // The box was flooded: three are not found, and count neither way.
    phone.set_day("2027-11-26");
    for lost in &laminates[61..] {
        phone.say(*lost, Event::Missing(Missing {}));
    }
    let state = phone.state();
    assert_eq!(
        queries::resting(&state, opened, feeler(), scale()).len(),
        61 + 9
    );
    assert_eq!(queries::missing_wood(&state).count(), 3);
    let total = |phone: &Phone| {
        let counts = queries::stage_counts(&phone.state(), PieceKind::Laminate);
        counts
            .values()
            .fold(StageCount::default(), |sum, one| StageCount {
                waiting: sum.waiting + one.waiting,
                missing: sum.missing + one.missing,
                failed: sum.failed + one.failed,
                ..sum
            })
    };
    assert_eq!((total(&phone).waiting, total(&phone).missing), (61, 3));
    phone.place(laminates[61], "shelf 2");
    phone.discard(laminates[62], Reason::Moved);
    let now = total(&phone);
    assert_eq!((now.waiting, now.missing, now.failed), (62, 1, 1));
    let gone = phone.state();
    let gone = gone.piece(laminates[62]).unwrap().work.end.clone().unwrap();
    assert!(matches!(
        gone.payload,
        End::Discarded(_, Some(Stage::Laminates))
    ));
}

/// A piece of 3.2 kg gains 71 g when the air goes from 40 to 55 %: that is the air, not the wood.
#[test]
fn what_the_air_gives() {
    let at = |percent| {
        let humidity = Humidity::percent(percent);
        emc(&mut TraceOff, celsius(20.0), humidity)
            .unwrap()
            .in_percent()
    };
    let dry = 3.2 / (1.0 + at(40.0) / 100.0);
    let gained = dry * (at(55.0) - at(40.0)) / 100.0;
    assert!((gained * 1000.0 - 71.0).abs() < 1.5, "{gained}");
}

/// What is said of it 402 days on: heavier by 71 g in air of 55 %, and that is the air.
#[test]
fn a_year_later_71_g_more_are_said_to_be_the_air() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let piece = phone.crosscut(plank, &[("A7a", 80.0, 1030.0)])[0];
    phone.rest(piece, Stage::Pieces, "loft 1");
    let mut weigh = |on: &str, humidity: f64, kg: f64| {
        phone.set_day(on);
        phone.read_room(piece, "loft", Some(humidity), Some(20.0));
        phone.weigh_to_a_gram(piece, kg);
        let state = phone.state();
        let report = queries::drying_report(&state, state.piece(piece).unwrap(), scale());
        report.unwrap().unwrap().in_words()
    };
    assert_eq!(weigh("2026-10-20", 40.0, 3.2), "too few weighings");
    let later = day("2026-10-20") + chrono::Duration::days(402);
    assert_eq!(
        weigh(&later.to_string(), 55.0, 3.271),
        "too few weighings; what it gained last is no more than the damper air accounts for"
    );
}

#[test]
fn moved_since_last_flat() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let piece = phone.crosscut(plank, &[("A7a", 80.0, 1030.0)])[0];
    phone.flatten(piece);
    phone.rest(piece, Stage::Laminates, "");
    let mut look = |on: &str, crook: &str| {
        phone.set_day(on);
        let zero = [
            (Field::Bow, "0"),
            (Field::Twist, "0"),
            (Field::Crook, crook),
        ];
        phone.check(piece, &zero);
        let state = phone.state();
        queries::moved(&state, state.piece(piece).unwrap(), feeler())
            .pop()
            .unwrap()
    };
    let crook = |checked: &Checked| {
        let changes = checked.changes.as_ref().unwrap();
        *changes
            .iter()
            .find(|change| change.warp == Warp::Crook)
            .unwrap()
    };
    let first = look("2026-11-03", "+0.10");
    assert_eq!(first.movement, Movement::Steady);
    let last = look("2027-06-03", "+0.45");
    assert!((in_mm(crook(&last).by.unwrap()) - 0.45).abs() < 1e-9);
    assert!((crook(&last).limit.unwrap().reject_mm - 0.3).abs() < 1e-9);
    assert_eq!(last.movement, Movement::Beyond);
    // Too close to call: within a tool's reach of the limit, either side.
    assert_eq!(look("2027-07-03", "-0.35").movement, Movement::TooClose);
    // Machined flat again, it counts from there.
    phone.set_day("2027-08-01");
    phone.flatten(piece);
    phone.set_day("2027-09-01");
    phone.nothing_moved(piece);
    let state = phone.state();
    let checks = queries::moved(&state, state.piece(piece).unwrap(), feeler());
    let last = checks.last().unwrap();
    assert_eq!(last.flat_on, Some(day("2027-08-01")));
    assert_eq!(last.movement, Movement::Steady);
    // By eye it is less sure than with a feeler: twice as far off.
    let u = in_mm(feeler()) / 3.0_f64.sqrt();
    let by_eye = (u * u + 4.0 * u * u).sqrt();
    assert!((in_mm(crook(last).standard) - by_eye).abs() < 1e-9);
}

/// What is machined counts from that day, and what is left as it was from its own; until each shape has such a day, the
/// first look is no movement.
#[test]
fn each_shape_counts_from_its_own_day() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let piece = phone.crosscut(plank, &[("A7a", 80.0, 1030.0)])[0];
    phone.rest(piece, Stage::Laminates, "");
    let face = |phone: &mut Phone| {
        let machined = Machined {
            face: true,
            ..Machined::default()
        };
        phone.say(piece, Event::Machined(Box::new(machined)));
    };
    let wanted = |phone: &Phone, on: &str| {
        let state = phone.state();
        let piece = state.piece(piece).unwrap();
        let line = queries::rest_line(&state, piece, day(on), feeler(), scale()).unwrap();
        line.ready.unwrap().looks_wanted
    };
    phone.set_day("2027-03-01");
    face(&mut phone);
    assert_eq!(wanted(&phone, "2027-03-02"), 3);
    let all = [
        (Field::Bow, "+0.1"),
        (Field::Crook, "+0.2"),
        (Field::Twist, "0.1 L"),
    ];
    for on in ["2027-04-01", "2027-05-01"] {
        phone.set_day(on);
        phone.check(piece, &all);
    }
    assert_eq!(wanted(&phone, "2027-05-02"), 1);
    phone.set_day("2027-06-01");
    face(&mut phone);
    phone.set_day("2027-07-01");
    phone.check(piece, &all);
    let state = phone.state();
    let found = state.piece(piece).unwrap();
    let (checks, starts) = queries::moved_from(&state, found, feeler());
    let counted = |warp| {
        let since = queries::checks_since(&checks, &starts, warp);
        let days: Vec<String> = since.map(|check| check.on.to_string()).collect();
        (starts[&warp].on.to_string(), days)
    };
    let texts = |days: &[&str]| days.iter().map(|day| (*day).to_owned()).collect::<Vec<_>>();
    assert_eq!(
        counted(Warp::Bow),
        ("2027-06-01".to_owned(), texts(&["2027-07-01"]))
    );
    let since = texts(&["2027-04-01", "2027-05-01", "2027-07-01"]);
    assert_eq!(counted(Warp::Crook), ("2027-04-01".to_owned(), since));
    let told = |warp| {
        let last = checks.last().unwrap();
        let working = queries::change_worked(&state, found, last, warp).unwrap();
        working.notes.last().cloned().unwrap()
    };
    assert_eq!(
        told(Warp::Bow),
        "It counts from 2027-06-01, when it was made flat."
    );
    assert_eq!(
        told(Warp::Crook),
        "It counts from 2027-04-01, the first check that has it."
    );
}

/// A gap whose side nobody noted lies where it lay while nothing moves; once it is read again, it may lie on the other.
#[test]
fn what_did_not_move_lies_on_the_side_where_it_lay() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let piece = phone.crosscut(plank, &[("A7a", 80.0, 1030.0)])[0];
    phone.rest(piece, Stage::Laminates, "");
    let crook = |phone: &Phone| {
        let state = phone.state();
        let checks = queries::moved(&state, state.piece(piece).unwrap(), feeler());
        let last = checks.last().unwrap().changes.clone().unwrap();
        let crook = last.into_iter().find(|change| change.warp == Warp::Crook);
        crook.unwrap()
    };
    let gaps = [
        (Field::Bow, "0.3"),
        (Field::Twist, "0.1"),
        (Field::Crook, "0.1"),
    ];
    phone.set_day("2026-11-03");
    phone.check(piece, &gaps);
    for day in ["2026-12-03", "2027-01-03"] {
        phone.set_day(day);
        phone.nothing_moved(piece);
        let change = crook(&phone);
        assert_eq!(change.movement, Some(Movement::Steady), "{day}");
        assert_eq!(change.at_most.map(in_mm), Some(0.0));
    }
    phone.set_day("2027-02-03");
    phone.check(piece, &gaps);
    let change = crook(&phone);
    assert_eq!(change.movement, Some(Movement::TooClose));
    assert!((in_mm(change.at_most.unwrap()) - 0.2).abs() < 1e-9);
    // Nothing moves after it, but on which side it came to lie is still not known.
    phone.set_day("2027-03-03");
    phone.nothing_moved(piece);
    assert_eq!(crook(&phone).movement, Some(Movement::TooClose));
}

#[test]
fn a_date_and_two_checks_end_a_rest() {
    let (phone, _, _) = to_the_rack();
    let state = phone.state();
    let laminate = |line: &RestLine| line.mark == "A7b2";
    let at = |today| {
        let lines = queries::resting(&state, day(today), feeler(), scale());
        lines.into_iter().find(laminate).unwrap().ready.unwrap()
    };
    assert_eq!(at("2027-12-10").ready(), Ready::Yes);
    assert_eq!(at("2027-12-02").ready(), Ready::No);
    assert_eq!(at("2027-12-02").date, DateKey::DueSoon);
    // The maker's own terms hold for what rests already.
    let mut longer = Phone::with("M4", phone.log());
    let terms = StageLimits {
        months: 12,
        ..StageLimits::supplied(Stage::Laminates)
    };
    let stage = Stage::Laminates;
    let about = longer.id();
    let set = StageSet { stage, terms };
    longer.say(about, Event::StageSet(Box::new(set)));
    let state = longer.state();
    let line = queries::resting(&state, day("2027-12-10"), feeler(), scale());
    let line = line.into_iter().find(laminate).unwrap();
    assert_eq!(line.ready.unwrap().due, day("2028-06-03"));
}

/// Three laminates that kept their shape: one weighs the same each time, one loses ever less, one is never
/// weighed. What is due, what rests and what may be glued say the same of each.
#[test]
fn what_was_not_weighed_is_nowhere_called_ready() {
    let mut phone = Phone::new("K7");
    phone.set_day("2026-11-01");
    let plank = bought(&mut phone, "A7");
    let marks = child_marks("A7", PieceKind::Laminate, 3);
    let laminates = phone.rip(plank, &marks, 16.0);
    for laminate in &laminates {
        phone.flatten(*laminate);
        phone.rest(*laminate, Stage::Laminates, "shelf 2");
    }
    let drying = [0.600, 0.590, 0.575, 0.560];
    for (visit, dries) in ["2026-11-01", "2026-12-01", "2027-02-01", "2027-05-01"]
        .into_iter()
        .zip(drying)
    {
        phone.set_day(visit);
        phone.read_the_shop();
        phone.weigh_to_a_gram(laminates[0], 0.56);
        phone.weigh_to_a_gram(laminates[1], dries);
        for laminate in &laminates {
            phone.nothing_moved(*laminate);
        }
    }
    let (state, today) = (phone.state(), day("2027-05-02"));
    let lines = queries::resting(&state, today, feeler(), scale());
    let rests = |piece: Id| {
        let line = lines.iter().find(|line| line.piece == piece).unwrap();
        line.ready.unwrap()
    };
    let found = laminates.iter().map(|piece| rests(*piece));
    let found: Vec<(MeasureKey, Ready)> = found.map(|rest| (rest.measure, rest.ready())).collect();
    assert_eq!(
        found,
        [
            (MeasureKey::Still, Ready::Yes),
            (MeasureKey::WeightChanging, Ready::No),
            (MeasureKey::WeightNotKnown, Ready::NotKnown),
        ]
    );
    let tools = Instruments::default();
    let (stock, _) = queries::laminates_to_glue(&state, &lines, today, feeler(), &tools);
    let glue: Vec<(&str, Ready)> = stock
        .iter()
        .map(|one| (one.mark.as_str(), one.ready))
        .collect();
    // In the order in which they are to be offered.
    assert_eq!(
        glue,
        [
            (marks[0].as_str(), Ready::Yes),
            (marks[2].as_str(), Ready::NotKnown),
            (marks[1].as_str(), Ready::No),
        ]
    );
    let (wood, _) = queries::wood_in_hand(&state, &[], &lines, 8, today);
    let ready: Vec<bool> = wood.iter().map(|one| one.is_ready()).collect();
    assert_eq!(ready, [true, false, false]);
    let due = queries::due(&state, lines.clone(), today, scale());
    let due: Vec<(DueWhen, String)> = due_by_day(due, today)
        .into_iter()
        .map(|(when, of)| (when, of[0].mark.clone()))
        .collect();
    let wanted = [
        (DueWhen::Late, &marks[1]),
        (DueWhen::WeightNotKnown, &marks[2]),
        (DueWhen::Ready, &marks[0]),
    ];
    assert_eq!(due, wanted.map(|(when, mark)| (when, mark.clone())));
}

#[test]
fn four_blanks_by_next_spring() {
    let (phone, _) = a_year_away();
    let state = phone.state();
    let rests = queries::least_rests(&state);
    // Each of the nine pieces is expected to give four laminates.
    let stage_of = |piece: &Piece| match piece.work.rest() {
        Some(rest) => PlanPosition::Resting(rest.payload.stage, rest.on),
        None => PlanPosition::Plank(piece.work.came),
    };
    let held: Vec<StockItem> = queries::stock(&state)
        .map(|piece| StockItem {
            standing: stage_of(piece),
            laminates: if piece.work.kind == PieceKind::Piece {
                4
            } else {
                1
            },
        })
        .collect();
    let today = day("2027-01-10");
    let found = earliest_blanks(&held, 5, &rests, today).unwrap();
    assert_eq!(found.len(), (64 + 9 * 4) / 5);
    // Laminates are free on 20 April 2027, so a blank glued then is ready six months on.
    assert_eq!(found[..12], [day("2027-10-20"); 12]);
    assert_eq!(found[13], day("2028-05-17"));
    let plan = latest_days(day("2028-04-30"), &rests).unwrap();
    assert_eq!(plan.glue_by, day("2027-10-31"));
    // Only to cut planks it is too late.
    assert!(plan.cut_by < today && today <= plan.rip_by);
    assert_eq!(rests.blanks.goes_on(plan.glue_by), Ok(day("2028-04-30")));
}

#[test]
fn how_long_laminates_last_counts_what_rests_up_to_today() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2026-01-01");
    let pieces = phone.crosscut(plank, &[("A7a", 80.0, 1030.0)]);
    phone.set_day("2026-07-01");
    let marks = child_marks("A7a", PieceKind::Laminate, 6);
    let laminates = phone.rip(pieces[0], &marks, 16.0);
    phone.set_day("2026-10-01");
    phone.discard(laminates[0], Reason::Sprang);
    phone.discard(laminates[1], Reason::Miscut);
    phone.set_day("2026-12-01");
    phone.glue("B1", &laminates[2..4], "0417");
    phone.set_day("2027-01-01");
    phone.discard(laminates[4], Reason::Moved);
    let state = phone.state();
    let lasting = queries::lasting(&state, Some(PieceKind::Laminate), day("2027-03-01"));
    assert_eq!((lasting.failed, lasting.waiting, lasting.left), (2, 1, 3));
    // 1 of 6 after three months; then one, miscut, and two that were glued are out of sight: 1 of 2.
    let at = |months| lasting.still_in(months).unwrap();
    assert_eq!(at(2.0).unwrap().share, 1.0);
    assert!((at(5.0).unwrap().share - 5.0 / 6.0).abs() < 1e-12);
    assert!((at(7.0).unwrap().share - 5.0 / 12.0).abs() < 1e-12);
    assert_eq!(at(9.0), None, "none was watched so long");
    let told = lasting.worked(7.0).unwrap();
    assert!(told.notes[0].contains("1 of the 6") && told.notes[0].contains("1 of the 2"));
    // The piece and the blank are counted with all, the plank is not.
    assert_eq!(
        queries::lasting(&state, None, day("2027-03-01"))
            .watched
            .len(),
        8
    );
    assert_eq!(
        queries::lasting(&state, None, day("2026-06-30"))
            .watched
            .len(),
        1
    );
    // The calendar's years come round after 400: 4800 months to the day.
    let far = queries::lasting(&state, Some(PieceKind::Laminate), day("2426-07-01"));
    let longest = far.watched.iter().map(|one| one.time).fold(0.0, f64::max);
    assert!((longest - 4800.0).abs() < 1e-9, "{longest}");
}
