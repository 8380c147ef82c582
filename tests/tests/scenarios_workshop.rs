//! The workshop: from a plank to a blank on the rack, where the wood of every cut went, and what a bad
//! batch of glue touches. All invented.

use stillwood_core::plank::{Field, Instruments};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{Length, celsius, in_kg, in_m3, in_mm, kg};
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Discarded, End, Event, Life, Log, Machined, Missing, PieceKind, StressTest, StressTested, Used,
    child_marks,
};
use stillwood_core::season::{
    AirUncertainty, Drying, Movement, Stage, StressSays, Weighing, drying_in_air,
};
use stillwood_core::wood::{Humidity, emc};
use stillwood_tests::workshop::{bought, day, feeler, taken, to_the_rack};
use stillwood_tests::yard::{Phone, from_file, typed};

fn life(phone: &Phone, piece: Id) -> Life {
    phone.state().piece(piece).unwrap().life().0
}

#[test]
fn plank_to_rack() {
    let (phone, plank, blank) = to_the_rack();
    let state = phone.state();
    assert!(queries::piece_conflicts(&state).is_empty() && queries::orphans(&state).is_empty());
    // The blank's page: its laminates in order, the piece, the plank and the yard's bill.
    let made_of = queries::made_of(&state, blank);
    let marks: Vec<&str> = made_of
        .iter()
        .map(|id| state.piece(*id).unwrap().mark.as_str())
        .collect();
    assert_eq!(marks, ["A7a1", "A7a2", "A7a3", "A7a4", "A7b1"]);
    assert_eq!(queries::ancestors(&state, blank).len(), 8);
    assert_eq!(queries::planks_of(&state, blank), [plank]);
    let found = state.piece(plank).unwrap();
    assert_eq!(state.visit_of(found).unwrap().opened.yard, "North");
    assert_eq!(queries::woods_in(&state, blank)[0].text, "hard maple");
    for laminate in &made_of {
        let laminate = state.piece(*laminate).unwrap();
        assert_eq!(laminate.life(), (Life::GluedInto(blank), day("2027-12-10")));
        assert_eq!(laminate.work.weighings.len(), 4);
        let checks = queries::moved(&state, laminate, feeler());
        assert_eq!(checks.len(), 2);
        assert_eq!(checks[1].flat_on, Some(day("2027-06-03")));
        assert_eq!(checks[1].movement, Movement::Within);
        assert_eq!(
            queries::species_of(&state, laminate).unwrap().text,
            "hard maple"
        );
    }
    // Everything under the plank is touched by it.
    assert_eq!(queries::descendants(&state, plank).len(), 3 + 8 + 1);
    assert_eq!(state.pieces_of(found.pile).count(), 1);
    // A laminate turned on edge is 52 wide and 16 thick.
    let size = queries::size_of(&state, state.piece(made_of[0]).unwrap());
    let sizes = [size.length, size.widths.least(), size.thicknesses.least()];
    assert_eq!(
        sizes.map(|s| s.map(|s| in_mm(s).round())),
        [Some(950.0), Some(52.0), Some(16.0)]
    );

    // The laptop reads the same and writes the same, byte for byte.
    let file = phone.file();
    let mut laptop = Log::new();
    laptop.merge(from_file(&file).accepted);
    assert_eq!(laptop.to_file("0.1.0", "2026-10-03T18:00:00+02:00"), file);
    assert_eq!(State::project(&laptop), state);
}

#[test]
fn where_the_wood_of_a_cut_went() {
    let (phone, plank, _) = to_the_rack();
    let state = phone.state();
    let account = queries::cut_account(&state, plank, &Instruments::default()).unwrap();
    assert!(account.warnings.is_empty() && !account.is_questioned());
    let wood = account.wood.unwrap();
    let pieces = wood.pieces.iter().flatten().map(|v| in_m3(*v)).sum::<f64>();
    let sum = pieces + in_m3(wood.kerf) + in_m3(wood.waste);
    assert!((sum - in_m3(wood.whole)).abs() < 1e-12);
    // Two saw cuts between the pieces; the trims and a hair's taper are waste.
    assert!((in_m3(wood.kerf) - 2.0 * 3.2 * 204.0 * 52.0 * 1e-9).abs() < 1e-12);
    let trims = (2620.0 - 2460.0 - 6.4) * 204.0 * 52.0 * 1e-9;
    assert!((in_m3(wood.waste) / trims - 1.0).abs() < 0.05);
    assert_eq!(account.mass, None);
}

#[test]
fn where_all_the_wood_of_a_plank_is_now() {
    let (mut phone, plank, _) = to_the_rack();
    let find = |phone: &Phone, mark: &str| queries::pieces_with_mark(&phone.state(), mark)[0];
    let thrown = find(&phone, "A7b4");
    phone.say(thrown, Event::Discarded(Discarded::default()));
    let lost = find(&phone, "A7b3");
    phone.say(lost, Event::Missing(Missing {}));
    // A7b2 is planed from 16 to 15.2 mm.
    let planed = find(&phone, "A7b2");
    let machined = Machined {
        face: true,
        readings: typed(&[(Field::ThicknessNear, "15.2"), (Field::WidthNear, "52")]),
        ..Machined::default()
    };
    phone.say(planed, Event::Machined(Box::new(machined)));
    let ledger = queries::volume_balance(&phone.state(), plank, &Instruments::default()).unwrap();
    let sum: f64 = ledger.parts().iter().map(|part| in_m3(*part)).sum();
    assert!((sum - in_m3(ledger.whole)).abs() < 1e-12);
    let laminate = 950.0 * 52.0 * 16.0 * 1e-9;
    for (found, laminates) in [
        (ledger.glued, 5.0),
        (ledger.thrown_out, 1.0),
        (ledger.missing, 1.0),
        (ledger.planed, 0.05),
    ] {
        assert!((in_m3(found) - laminates * laminate).abs() < 1e-12);
    }
    // Left: A7b2, and A7c as it was cut.
    let left = 0.95 * laminate + 560.0 * 204.0 * 52.0 * 1e-9;
    assert!((in_m3(ledger.in_hand) - left).abs() < 1e-12);
}

#[test]
fn mass_never_grows_from_parent_to_children_unquestioned() {
    let weighed = |kg: f64| {
        let mut phone = Phone::new("K7");
        let plank = bought(&mut phone, "A7");
        phone.weigh(plank, 19.7);
        let halves = [("A7a", 0.0, 1310.0), ("A7b", 1313.2, 2620.0)];
        for half in phone.crosscut(plank, &halves) {
            phone.weigh(half, kg);
        }
        let account = queries::cut_account(&phone.state(), plank, &Instruments::default());
        account.unwrap().mass.unwrap()
    };
    let usual = weighed(9.8);
    assert!((in_kg(usual.waste) - 0.1).abs() < 1e-9);
    assert!(!usual.is_questioned());
    // 4.99 g more than before is within three readings of a scale in steps of 5 g, each off by 1.44 g as a
    // standard: twice the root of three of them. 5.01 g is not.
    assert!(!weighed(9.852_495).is_questioned() && weighed(9.852_505).is_questioned());
    assert!(weighed(9.875).is_questioned() && weighed(9.854).is_questioned());
}

#[test]
fn a_cut_that_cannot_be_is_questioned_before_it_is_recorded() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let children = {
        let mut trial = Phone::with("X9", phone.log());
        let layout = [("A7a", 0.0, 1400.0), ("A7b", 1300.0, 2700.0)];
        trial.crosscut(plank, &layout);
        let state = trial.state();
        match &state
            .piece(plank)
            .unwrap()
            .work
            .end
            .as_ref()
            .unwrap()
            .payload
        {
            End::Cut(cut) => cut.children.clone(),
            other => panic!("{other:?}"),
        }
    };
    let state = phone.state();
    let warnings = queries::warnings_of_cut(&state, state.piece(plank).unwrap(), &children);
    let said: Vec<String> = warnings
        .iter()
        .map(|warning| warning.question(|n| children[n].mark.clone()))
        .collect();
    assert_eq!(
        said,
        [
            "A7b reaches 80 mm beyond the wood that it is cut from",
            "A7b and A7a share wood"
        ]
    );
}

#[test]
fn a_slip_in_a_cut_is_put_right_after_its_wood_was_glued() {
    let (mut phone, plank, blank) = to_the_rack();
    let before = phone.state();
    let end = before.piece(plank).unwrap().work.end.clone().unwrap();
    let End::Cut(mut cut) = end.payload else {
        panic!("{end:?}");
    };
    std::sync::Arc::make_mut(&mut cut).kerf = Some(taken(2.4, "mm"));
    phone.set_day("2026-12-01");
    let right = phone.correct(plank, Event::Cut(cut), vec![end.entry]);
    let glue = before.piece(blank).unwrap().recorded.entry;
    let Event::Glued(mut glued) = phone.log().entry(glue).unwrap().event.clone() else {
        panic!("glued");
    };
    glued.adhesive.batch = "0418".into();
    phone.set_day("2027-12-10");
    phone.correct(blank, Event::Glued(glued), vec![glue]);
    let state = phone.state();
    assert!(
        queries::piece_conflicts(&state).is_empty(),
        "{:?}",
        queries::piece_conflicts(&state)
    );
    assert_eq!(
        state.piece(plank).unwrap().work.end.as_ref().unwrap().entry,
        right
    );
    assert_eq!(
        queries::descendants(&state, plank),
        queries::descendants(&before, plank)
    );
    assert_eq!(queries::touched_by_batch(&state, "0418"), [blank]);
    assert_eq!(life(&phone, blank), Life::Resting(Stage::Blanks));
}

#[test]
fn what_a_bad_batch_of_glue_touches() {
    let mut phone = Phone::new("K7");
    let mut blanks = Vec::new();
    for n in 0..8 {
        let plank = bought(&mut phone, &format!("A{n}"));
        let laminates = phone.rip(plank, &child_marks("A", PieceKind::Laminate, 5), 16.0);
        let batch = if n < 6 { "0417" } else { "0418" };
        blanks.push(phone.glue(&format!("B{n}"), &laminates, batch));
    }
    let became = "bass 12".into();
    phone.say(blanks[0], Event::Used(Used { became }));
    let state = phone.state();
    let mut touched = queries::touched_by_batch(&state, " 0417");
    touched.sort();
    let mut wanted = blanks[..6].to_vec();
    wanted.sort();
    assert_eq!(touched, wanted);
    assert!(queries::touched_by_batch(&state, "0419").is_empty());
    let counts = queries::stage_counts(&state, PieceKind::Blank);
    assert_eq!(counts.values().map(|count| count.through).sum::<u32>(), 1);
}

#[test]
fn what_goes_with_a_plank_and_what_falls_into_doubt_is_told_before_it_is_deleted() {
    let mut phone = Phone::new("K7");
    let [one, other] = ["A1", "A2"].map(|mark| bought(&mut phone, mark));
    let laminates = phone.rip(one, &child_marks("A1", PieceKind::Laminate, 5), 16.0);
    let of_other = phone.rip(other, &child_marks("A2", PieceKind::Laminate, 2), 16.0);
    let own = phone.glue("B1", &laminates[..3], "0417");
    let mixed = phone.glue("B2", &[&laminates[3..4], &of_other[..1]].concat(), "0417");
    let told = queries::deletion(&phone.state(), one);
    assert_eq!((told.planks, told.piles), (vec![one], Vec::new()));
    let mut gone = [&laminates[..], &[own]].concat();
    gone.sort();
    assert_eq!((told.made_of_them, told.in_doubt), (gone, vec![mixed]));
    // Of a piece that was cut nothing is told.
    let told = queries::deletion(&phone.state(), laminates[0]);
    assert_eq!(told, queries::Deletion::default());
}

fn read_room(phone: &mut Phone, room: &str, humidity: f64) {
    let about = phone.id();
    phone.read_room(about, room, Some(humidity), None);
}

#[test]
fn a_piece_has_settled_when_its_weight_follows_the_air_of_its_room() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2026-12-01");
    phone.rest(plank, Stage::Pieces, "loft, shelf 2");
    let series = [
        ("2026-12-01", 3.264),
        ("2026-12-31", 3.231),
        ("2027-01-30", 3.213),
        ("2027-03-02", 3.204),
        ("2027-04-01", 3.199),
    ];
    let drying = |phone: &Phone| {
        let state = phone.state();
        let piece = state.piece(plank).unwrap();
        let report = queries::drying_report(&state, piece, kg(0.1));
        let at_rest = queries::weight_at_rest(&state, piece, kg(0.1));
        (report.map(|report| report.unwrap().drying), at_rest)
    };
    for (n, (day, mass)) in series.into_iter().enumerate() {
        phone.set_day(day);
        phone.weigh(plank, mass);
        if n == 0 {
            // Nothing is said while no air is known.
            assert_eq!(drying(&phone), (None, None));
            read_room(&mut phone, "loft", 45.0);
        }
        if n == 2 {
            assert_eq!(drying(&phone), (Some(Drying::TooFew), None));
        }
    }
    let (word, at_rest) = drying(&phone);
    assert!(
        matches!(word, Some(Drying::Steady | Drying::TooCloseToCall)),
        "{word:?}"
    );
    assert_ne!(at_rest, Some(false));
    // Weighed twice on a day: the later counts.
    phone.weigh(plank, 3.199);
    assert_eq!(drying(&phone), (word, at_rest));
    // The air of another room is not the air of this one.
    read_room(&mut phone, "shed", 90.0);
    assert_eq!(drying(&phone), (word, at_rest));
    phone.rest(plank, Stage::Pieces, "cellar");
    assert_eq!(drying(&phone), (None, None));
}

#[test]
fn a_test_of_an_offcut_speaks_for_all_that_was_cut_from_the_plank() {
    let (mut phone, plank, _) = to_the_rack();
    let mut tested = |gap: f64, over: Option<f64>, test| {
        let tested = StressTested {
            gap: taken(gap, "mm"),
            over: over.map(|over| taken(over, "mm")),
            test,
        };
        phone.say(plank, Event::StressTested(Box::new(tested)));
    };
    tested(0.4, Some(475.0), StressTest::Ripped);
    tested(-0.3, None, StressTest::Fork);
    tested(0.4, None, StressTest::Ripped);
    let state = phone.state();
    let piece = queries::made_from(&state, plank)[0];
    let told = queries::explain_stress(&state, piece, feeler());
    let says: Vec<StressSays> = told.iter().map(|told| told.says).collect();
    use StressSays::*;
    assert_eq!(says, [SpringsOpen, Casehardened, SpringsOpen]);
    assert!(
        told.iter()
            .all(|told| told.piece == plank && told.mark == "A7")
    );
    // Half of the gap, over twice the length: four times as much; the limit of pieces stands beside it.
    let spring = told[0].spring.as_ref().unwrap();
    let near = |length: Length, wanted: f64| (in_mm(length) - wanted).abs() < 1e-9;
    assert!(near(spring.by, 0.8) && near(spring.over, 950.0));
    assert!(near(spring.out_at.unwrap(), 2.0));
    assert!((spring.working.steps[0].result - 0.8).abs() < 1e-9);
    // A fork has no spring along the length, and without the offcut's length none is told.
    assert_eq!((&told[1].spring, &told[2].spring), (&None, &None));
}

#[test]
fn a_scale_that_is_off_is_off_at_both_ends() {
    // How far the waste is left open where the plank was weighed in the yard and its pieces on the bench.
    let left_open = |readings: &[(Field, &str)]| {
        let mut phone = Phone::new("K7");
        let (_, pile) = phone.pile();
        let sizes = [
            (Field::Length, "2620"),
            (Field::WidthNear, "200"),
            (Field::ThicknessNear, "52"),
        ];
        let plank = phone.plank(pile, "A7", &[&sizes, readings].concat());
        for half in phone.crosscut(plank, &[("A7a", 0.0, 1310.0), ("A7b", 1313.2, 2620.0)]) {
            phone.weigh(half, 9.8);
        }
        let tools = Instruments::default();
        let account = queries::cut_account(&phone.state(), plank, &tools).unwrap();
        let mass = account.mass.unwrap();
        assert!((in_kg(mass.whole) - 19.7).abs() < 1e-9);
        // A step of 5 g: off by half of it either way, a rectangle.
        let half = 0.0025_f64 / 3.0_f64.sqrt();
        let all = in_kg(mass.standard);
        let rest = all * all - 2.0 * half * half;
        rest.sqrt() / (tools.scale_kg / 3.0_f64.sqrt())
    };
    let whole = left_open(&[(Field::WeightWhole, "19.7")]);
    let ends = left_open(&[(Field::WeightFirst, "10.3"), (Field::WeightSecond, "9.4")]);
    assert!((whole - 1.0).abs() < 1e-9, "{whole}");
    assert!((ends - 2.0).abs() < 1e-9, "{ends}");
}

#[test]
fn pieces_that_hold_more_than_there_was_are_questioned_beyond_the_tape() {
    // A plank cut in two halves, the second reaching so far beyond the end, mm.
    let account = |over: f64| {
        let mut phone = Phone::new("K7");
        let plank = bought(&mut phone, "A7");
        phone.crosscut(
            plank,
            &[("A7a", 0.0, 1310.0), ("A7b", 1310.0, 2620.0 + over)],
        );
        let state = phone.state();
        queries::cut_account(&state, plank, &Instruments::default()).unwrap()
    };
    let all = account(0.0);
    let waste =
        |account: &stillwood_core::record::CutAccount| in_m3(account.wood.as_ref().unwrap().waste);
    let a_millimetre = (waste(&all) - waste(&account(100.0))) / 100.0;
    // So many standard uncertainties more wood than there was.
    let more = |times: f64| {
        let account = account((waste(&all) + times * in_m3(all.standard)) / a_millimetre);
        assert!((waste(&account) + times * in_m3(all.standard)).abs() < 1e-9);
        account.is_questioned()
    };
    assert!(!more(0.0) && !more(1.0) && !more(1.99));
    assert!(more(2.01));
}

#[test]
fn what_is_said_of_drying_is_what_the_weighings_and_the_air_of_their_days_say() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2026-12-01");
    phone.rest(plank, Stage::Pieces, "loft, shelf 2");
    let mut series = Vec::new();
    // The room was first read on the second weighing's day: that is the air of the one before, too.
    for (on, mass, read, humidity) in [
        ("2026-12-01", 3.264, None, 45.0),
        ("2026-12-31", 3.231, Some(45.0), 45.0),
        ("2027-01-30", 3.213, None, 45.0),
        ("2027-03-02", 3.204, Some(60.0), 60.0),
        ("2027-04-01", 3.199, None, 60.0),
    ] {
        phone.set_day(on);
        phone.weigh(plank, mass);
        if let Some(humidity) = read {
            read_room(&mut phone, "loft", humidity);
        }
        series.push(Weighing {
            day: (day(on) - day("2026-12-01")).num_days() as f64,
            mass: kg(mass),
            air: emc(&mut TraceOff, celsius(20.0), Humidity::percent(humidity)).unwrap(),
        });
    }
    let state = phone.state();
    let piece = state.piece(plank).unwrap();
    // The bench scale's step is 5 g: it may be off by half of that, whatever is usual.
    let air = AirUncertainty::OF_A_DIAL;
    let wanted = drying_in_air(&series, &[], air, kg(0.0025));
    assert_eq!(queries::drying_report(&state, piece, kg(0.1)), Some(wanted));
}

#[test]
fn a_waist_between_the_stations_leaves_more_open_of_what_a_cut_lost() {
    let standard = |middle: &str| {
        let mut phone = Phone::new("K7");
        let (_, pile) = phone.pile();
        let sizes = [
            (Field::Length, "2620"),
            (Field::WidthNear, "210"),
            (Field::WidthMiddle, middle),
            (Field::WidthFar, "210"),
            (Field::ThicknessNear, "52"),
        ];
        let plank = phone.plank(pile, "A7", &sizes);
        phone.crosscut(plank, &[("A7a", 0.0, 1310.0), ("A7b", 1313.2, 2620.0)]);
        let state = phone.state();
        in_m3(
            queries::cut_account(&state, plank, &Instruments::default())
                .unwrap()
                .standard,
        )
    };
    // 30 mm of waist: a prismoid has 190 mm on average, straight pieces 195; the tape leaves the same open of both.
    let (straight, waisted) = (standard("210"), standard("180"));
    let of_shape = 2.620 * 0.005 * 0.052;
    let both = (straight * straight + of_shape * of_shape).sqrt();
    assert!((waisted / both - 1.0).abs() < 0.02, "{waisted} {both}");
}
