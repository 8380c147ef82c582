//! What a customer chooses a blank by: its section and stiffness, how it was watched for movement, what it
//! does over the workshop's year. All invented; the numbers are worked out by hand.

use stillwood_core::neck::BendingStiffness;
use stillwood_core::plank::{Field, Instruments};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_mm, mm};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Event, GrainSeen, Machined, MovedSoFar, NoYear, PieceFigure, PieceKind, Section, State,
    child_marks,
};
use stillwood_core::season::{FEELER_MM, Stage};
use stillwood_tests::workshop::{bought, taken};
use stillwood_tests::yard::{Phone, typed};

fn machine(phone: &mut Phone, piece: Id, sizes: [(Field, &str); 3]) {
    let machined = Machined {
        face: true,
        edge: true,
        readings: typed(&sizes),
        ..Machined::default()
    };
    phone.say(piece, Event::Machined(Box::new(machined)));
}

/// Three laminates of hard maple, 17.5 mm by 48.5, their rings upright, glued on 2027-12-10.
fn three_glued() -> (Phone, Id) {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2027-06-03");
    let laminates = phone.rip(plank, &child_marks("A7", PieceKind::Laminate, 3), 18.0);
    for laminate in &laminates {
        let sizes = [
            (Field::Length, "950"),
            (Field::WidthNear, "48.5"),
            (Field::ThicknessNear, "17.5"),
        ];
        machine(&mut phone, *laminate, sizes);
        let seen = GrainSeen {
            ring_angle: Some(taken(90.0, "deg")),
            ..GrainSeen::default()
        };
        phone.say(*laminate, Event::GrainSeen(Box::new(seen)));
    }
    phone.set_day("2027-12-10");
    let blank = phone.glue("B1", &laminates, "0417");
    (phone, blank)
}

fn section(state: &State, blank: Id) -> Option<Section> {
    queries::section_of(state, state.piece(blank).unwrap())
}

fn in_section(section: &Section) -> (Vec<f64>, f64) {
    let thick = section.laminates.iter().map(|one| in_mm(one.thickness));
    (thick.collect(), in_mm(section.depth))
}

fn newton_square_metres(stiffness: Option<BendingStiffness>) -> f64 {
    stiffness.unwrap().in_newton_square_metres()
}

#[test]
fn a_blank_is_as_stiff_as_what_was_planed_off_leaves_it() {
    let (mut phone, blank) = three_glued();
    let state = phone.state();
    let glued = section(&state, blank).unwrap();
    assert_eq!(in_section(&glued), (vec![17.5; 3], 48.5));
    // E t w³/12: 12.6 GPa, three of 17.5 mm, 48.5 mm deep.
    let stiff = newton_square_metres(glued.stiffness());
    let by_hand = |across: f64, deep: f64| 12.6 * across * (deep * deep * deep) / 12.0 / 1000.0;
    assert!((stiff - by_hand(52.5, 48.5)).abs() < 0.1, "{stiff}");
    // Planed to 49.5 mm by 46: a millimetre and a half off either side, however it lay on the bench.
    for [width, thickness] in [["49.5", "46"], ["46", "49.5"]] {
        let sizes = [
            (Field::Length, "950"),
            (Field::WidthNear, width),
            (Field::ThicknessNear, thickness),
        ];
        machine(&mut phone, blank, sizes);
        let state = phone.state();
        let planed = section(&state, blank).unwrap();
        assert_eq!(in_section(&planed), (vec![16.0, 17.5, 16.0], 46.0));
        let stiff = newton_square_metres(planed.stiffness());
        assert!((stiff - 5059.0).abs() < 0.5, "{stiff}");
        let told = queries::explain_piece_figure(
            &state,
            blank,
            PieceFigure::Stiffness,
            &Instruments::default(),
        );
        let told = told.unwrap();
        assert_eq!(told.steps.last().unwrap().result, stiff);
        assert!(told.notes[0].starts_with("The usual stiffness of each wood"));
    }
    // More off than the outer two are thick: nothing is said.
    let sizes = [
        (Field::Length, "950"),
        (Field::WidthNear, "17"),
        (Field::ThicknessNear, "15"),
    ];
    machine(&mut phone, blank, sizes);
    assert_eq!(section(&phone.state(), blank), None);
}

/// The pile turns out to be of a wood that no table has.
fn of_a_wood_not_known(phone: &mut Phone) {
    let state = phone.state();
    let pile = state.piles().next().unwrap();
    let mut opened = pile.opened.clone();
    opened.species.id = None;
    opened.species.text = "river wood".into();
    let begun = state.begun_by(pile.id);
    phone.correct(pile.id, Event::PileOpened(Box::new(opened)), begun);
}

#[test]
fn of_a_wood_that_is_not_known_no_stiffness_is_told() {
    let (mut phone, blank) = three_glued();
    of_a_wood_not_known(&mut phone);
    let section = section(&phone.state(), blank).unwrap();
    assert_eq!(section.laminates[0].wood, "river wood");
    assert_eq!(section.stiffness(), None);
}

fn so_far(phone: &Phone, blank: Id) -> Option<MovedSoFar> {
    let state = phone.state();
    queries::moved_so_far(&state, state.piece(blank).unwrap(), mm(FEELER_MM))
}

#[test]
fn how_it_was_watched_is_told_in_one_line() {
    let (mut phone, blank) = three_glued();
    assert_eq!(so_far(&phone, blank), None);
    phone.flatten(blank);
    phone.rest(blank, Stage::Blanks, "rack");
    let crooks = [
        ("2028-03-10", "+0.05"),
        ("2028-06-10", "-0.15"),
        ("2029-02-10", "+0.1"),
    ];
    for (day, crook) in crooks {
        phone.set_day(day);
        phone.check(blank, &[(Field::Crook, crook), (Field::Twist, "0")]);
    }
    let found = so_far(&phone, blank).unwrap();
    assert_eq!(
        found.in_words(Units::Metric),
        "checked 3 times in 14 months, largest change 0.15 mm"
    );
    // A tenth of a millimetre either way, twice: 2 √2 · 0.1/√3 = 0.163.
    let largest = found.largest_in_words(Units::Metric).unwrap();
    assert_eq!(largest, "0.15 ± 0.16 mm, crook");
    let largest = found.largest_in_words(Units::Inch).unwrap();
    assert_eq!(largest, "0.006 ± 0.006 in, crook");
    let state = phone.state();
    let told = queries::explain_piece_figure(
        &state,
        blank,
        PieceFigure::MovedSoFar,
        &Instruments::default(),
    );
    let told = told.unwrap();
    let counted = "Checked 3 times: 2028-03-10, 2028-06-10, 2029-02-10. From 2027-12-10 to 2029-02-10 is 14 \
                   months.";
    assert_eq!(told.notes[0], counted);
    let last = told.notes.last().unwrap();
    assert!(last.ends_with("crook on 2028-06-10."), "{last}");
    // Made flat again it counts anew, and what it did before still stands.
    phone.flatten(blank);
    phone.set_day("2029-03-10");
    phone.check(blank, &[(Field::Crook, "0"), (Field::Twist, "0")]);
    let found = so_far(&phone, blank).unwrap();
    assert_eq!(
        (found.checks, found.until.to_string()),
        (4, "2029-03-10".to_owned())
    );
    let largest = found.largest_in_words(Units::Metric).unwrap();
    assert_eq!(largest, "0.15 ± 0.16 mm, crook");
}

#[test]
fn what_can_not_be_compared_is_no_change() {
    let (mut phone, blank) = three_glued();
    phone.set_day("2028-03-10");
    phone.check(blank, &[(Field::Crook, "+0.05")]);
    let once = so_far(&phone, blank).unwrap();
    assert_eq!(
        once.in_words(Units::Metric),
        "checked once in less than a day, nothing to compare yet"
    );
    assert_eq!(once.largest_in_words(Units::Metric), None);
    // Without its side the change is at least the difference.
    phone.set_day("2028-04-09");
    phone.check(blank, &[(Field::Crook, "0.2")]);
    let twice = so_far(&phone, blank).unwrap();
    assert_eq!(
        twice.in_words(Units::Metric),
        "checked twice in 30 days, largest change at least 0.15 mm"
    );
}

fn air(phone: &mut Phone, day: &str, humidity: f64) {
    phone.set_day(day);
    let room = phone.id();
    phone.read_room(room, "rack", Some(humidity), Some(20.0));
}

fn three_glued_on_a_rack() -> (Phone, Id) {
    let (mut phone, blank) = three_glued();
    phone.flatten(blank);
    let sizes = [
        (Field::Length, "950"),
        (Field::WidthNear, "49.5"),
        (Field::ThicknessNear, "46"),
    ];
    machine(&mut phone, blank, sizes);
    phone.rest(blank, Stage::Blanks, "rack");
    (phone, blank)
}

#[test]
fn a_year_has_twelve_months_whatever_the_day_of_the_last_reading() {
    let (mut phone, blank) = three_glued_on_a_rack();
    // June a year ago and this June are one month of a year: nine were read.
    air(&mut phone, "2027-06-20", 45.0);
    for month in [
        "2027-07", "2027-08", "2027-09", "2027-10", "2027-11", "2027-12",
    ] {
        air(&mut phone, &format!("{month}-15"), 50.0);
    }
    air(&mut phone, "2028-01-15", 45.0);
    air(&mut phone, "2028-02-15", 45.0);
    air(&mut phone, "2028-06-15", 45.0);
    let state = phone.state();
    let moved = queries::blank_over_year(&state, state.piece(blank).unwrap());
    assert_eq!(moved, Err(NoYear::FewMonths(9)));
    for month in 3..=5 {
        air(&mut phone, &format!("2028-{month:02}-15"), 45.0);
    }
    let tools = Instruments::default();
    let told = queries::explain_piece_figure(&phone.state(), blank, PieceFigure::OverYear, &tools);
    let told = format!("{:?}", told.unwrap());
    assert!(told.contains("12 of the last twelve read"), "{told}");
}

#[test]
fn over_the_rooms_year_a_blank_swells_by_its_rings() {
    let (mut phone, blank) = three_glued_on_a_rack();
    let of = |phone: &Phone| {
        let state = phone.state();
        queries::blank_over_year(&state, state.piece(blank).unwrap())
    };
    assert_eq!(of(&phone), Err(NoYear::NoRoom));
    // A damp day long ago is no part of the year.
    air(&mut phone, "2026-01-15", 75.0);
    for month in 1..=9 {
        let humidity = if month == 2 { 40.0 } else { 45.0 };
        air(&mut phone, &format!("2028-{month:02}-15"), humidity);
    }
    assert_eq!(of(&phone), Err(NoYear::FewMonths(9)));
    // Two readings of October are one air between them: 55 %.
    air(&mut phone, "2028-10-01", 50.0);
    air(&mut phone, "2028-10-20", 60.0);
    let moved = of(&phone).unwrap();
    // Wood goes from 7.7 to 10.1 %: 2.4 points. Rings upright: radially along the glue lines, .00165 · 46 ·
    // 2.4; tangentially across them, .00353 · 49.5 · 2.4.
    let year = moved.year;
    let points = year.dampest.in_percent() - year.driest.in_percent();
    assert!((points - 2.4).abs() < 0.1, "{points}");
    assert!(
        (in_mm(moved.along) - 0.182).abs() < 0.01,
        "{:?}",
        moved.along
    );
    assert!(
        (in_mm(moved.across) - 0.419).abs() < 0.02,
        "{:?}",
        moved.across
    );
    let state = phone.state();
    let told = queries::explain_piece_figure(
        &state,
        blank,
        PieceFigure::OverYear,
        &Instruments::default(),
    );
    let told = told.unwrap();
    assert_eq!(told.steps.last().unwrap().result, in_mm(moved.across));
    let month = "The mean air of each month, 10 of the last twelve read: driest 2028-02, 7.7 %; dampest \
                 2028-10, 10.1 %.";
    assert!(told.notes[0].starts_with(month), "{}", told.notes[0]);
    // How a wood shrinks that is not known is not made up.
    of_a_wood_not_known(&mut phone);
    assert_eq!(of(&phone), Err(NoYear::Wood("river wood".into())));
}
