//! What is due: planks that get used to the room, rests by day and by shelf, lots of one plank; and what is
//! likely to be done next with a piece. All invented.

use stillwood_core::plank::{Field, Instruments};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Downgraded, Due, DueRow, DueWhen, Event, Missing, NextStep, PieceFigure, PieceKind, Reserved,
    StageSet, State, StressTest, StressTested, Waits, child_marks, due_by_day, likely_next,
};
use stillwood_core::season::{Stage, StageLimits};
use stillwood_tests::workshop::{bought, day, feeler, scale, taken, to_the_rack};
use stillwood_tests::yard::{A7, Phone};

fn due(state: &State, today: &str) -> Vec<Due> {
    let lines = queries::resting(state, day(today), feeler(), scale());
    queries::due(state, lines, day(today), scale())
}

fn waits(state: &State, piece: Id, today: &str) -> Option<Waits> {
    let mut due = due(state, today).into_iter();
    due.find(|line| line.piece == piece).map(|line| line.waits)
}

fn next(phone: &Phone, piece: Id, today: &str) -> Vec<NextStep> {
    let state = phone.state();
    let waits = waits(&state, piece, today);
    likely_next(state.piece(piece).unwrap(), waits.as_ref(), day(today))
}

#[test]
fn a_plank_says_from_when_it_may_be_cut() {
    let mut phone = Phone::new("K7");
    phone.set_day("2026-09-01");
    let plank = bought(&mut phone, "A7");
    let from = |phone: &Phone| {
        let state = phone.state();
        let line = due(&state, "2026-09-02")
            .into_iter()
            .find(|line| line.piece == plank);
        line.map(|line| (line.since.to_string(), line.day().unwrap().to_string()))
    };
    let told = |since: &str, day: &str| Some((since.to_owned(), day.to_owned()));
    assert_eq!(from(&phone), told("2026-09-01", "2026-09-29"));
    // Carried to another shelf it does not begin anew; an earlier day that is written down later counts.
    phone.set_day("2026-09-20");
    phone.place(plank, "loft");
    assert_eq!(from(&phone), told("2026-09-01", "2026-09-29"));
    phone.set_day("2026-08-25");
    let earlier = phone.place(plank, "yard");
    assert_eq!(from(&phone), told("2026-08-25", "2026-09-22"));
    phone.take_back(earlier);
    assert_eq!(from(&phone), told("2026-09-01", "2026-09-29"));
    // By the maker's own terms.
    let stage = Stage::Pieces;
    for (weeks, day) in [
        (Some(8), "2026-10-27"),
        (Some(0), "2026-09-01"),
        (None, "2026-09-29"),
    ] {
        let terms = StageLimits {
            weeks_in_room: weeks,
            ..StageLimits::supplied(stage)
        };
        let setting = phone.id();
        phone.say(
            setting,
            Event::StageSet(Box::new(StageSet { stage, terms })),
        );
        assert_eq!(from(&phone), told("2026-09-01", day));
    }
    let state = phone.state();
    let worked =
        queries::explain_piece_figure(&state, plank, PieceFigure::CutFrom, &Instruments::default());
    let said = format!("{:?}", worked.unwrap());
    assert!(
        said.contains("2026-09-01 + 4 weeks of 7 days = 2026-09-29"),
        "{said}"
    );
    // Set to rest, cut or put to another use it waits for that day no more.
    let mut other = Phone::with("R4", phone.log());
    other.rest(plank, stage, "loft");
    assert!(matches!(
        waits(&other.state(), plank, "2026-09-02"),
        Some(Waits::Rest(..))
    ));
    let mut other = Phone::with("R4", phone.log());
    let down = Downgraded {
        reasons: vec![],
        to: "lamps".into(),
    };
    other.say(plank, Event::Downgraded(down));
    assert_eq!(waits(&other.state(), plank, "2026-09-02"), None);
    phone.crosscut(plank, &[("A7a", 80.0, 1030.0)]);
    assert_eq!(waits(&phone.state(), plank, "2026-09-02"), None);
}

#[test]
fn across_racks_by_day_and_a_plank_in_it() {
    let (mut phone, _, blank) = to_the_rack();
    phone.set_day("2027-12-01");
    let plank = bought(&mut phone, "B1");
    let state = phone.state();
    let lines = due(&state, "2027-12-10");
    // Two pieces were ripped, one is left; of eight laminates five are glued.
    assert_eq!(lines.len(), 1 + 3 + 1 + 1);
    let told = |today: &str| {
        let stretches = due_by_day(due(&state, today), day(today));
        let of = stretches.into_iter().map(|(when, lines)| {
            let marks: Vec<String> = lines.into_iter().map(|line| line.mark).collect();
            (when, marks.join(" "))
        });
        of.collect::<Vec<_>>()
    };
    let wanted = |of: &[(DueWhen, &str)]| -> Vec<(DueWhen, String)> {
        of.iter()
            .map(|(when, marks)| (*when, (*marks).to_owned()))
            .collect()
    };
    let june = DueWhen::Month(day("2028-06-01"));
    assert_eq!(
        told("2027-12-10"),
        wanted(&[
            (DueWhen::Late, "A7c"),
            (DueWhen::Ready, "A7b2 A7b3 A7b4"),
            (DueWhen::ThisMonth, "B1"),
            (june, "B012"),
        ])
    );
    assert_eq!(
        told("2027-12-29"),
        wanted(&[
            (DueWhen::Late, "A7c"),
            // Nobody weighed it.
            (DueWhen::WeightNotKnown, "B1"),
            (DueWhen::Ready, "A7b2 A7b3 A7b4"),
            (june, "B012"),
        ])
    );
    let mut places: Vec<&str> = lines.iter().map(|line| line.place.as_str()).collect();
    places.sort_unstable();
    assert_eq!(
        places,
        ["floor", "rack", "shelf 1", "shelf 2", "shelf 2", "shelf 2"]
    );
    let of = |piece: Id| lines.iter().find(|line| line.piece == piece).unwrap();
    assert_eq!(of(blank).name(), "blanks");
    assert_eq!(of(plank).when(day("2027-12-10")), DueWhen::ThisMonth);
}

#[test]
fn eight_laminates_of_one_plank_are_one_row_until_they_part() {
    let mut phone = Phone::new("K7");
    phone.set_day("2026-09-03");
    let plank = bought(&mut phone, "A7");
    let marks = child_marks("A7", PieceKind::Laminate, 8);
    let laminates = phone.rip(plank, &marks, 16.0);
    for laminate in &laminates {
        phone.flatten(*laminate);
        phone.rest(*laminate, Stage::Laminates, "shelf 3");
    }
    let rows = |phone: &Phone, today: &str| {
        let stretches = due_by_day(due(&phone.state(), today), day(today));
        let rows = stretches
            .into_iter()
            .flat_map(|(_, lines)| DueRow::folded(lines));
        rows.map(|row| row.lines().len()).collect::<Vec<_>>()
    };
    assert_eq!(rows(&phone, "2026-10-01"), [8]);
    // One is carried elsewhere, one set to rest anew: six are left, and these stand by themselves.
    phone.place(laminates[0], "loft");
    phone.set_day("2026-09-10");
    phone.rest(laminates[1], Stage::Laminates, "");
    assert_eq!(rows(&phone, "2026-10-01"), [1, 6, 1]);
    // Two found still: before the day they stay in their row, on the day they are ready and the others not.
    for visit in ["2026-12-03", "2027-02-03"] {
        phone.set_day(visit);
        for laminate in &laminates[2..4] {
            phone.check(
                *laminate,
                &[(Field::Crook, "0"), (Field::Bow, "0"), (Field::Twist, "0")],
            );
        }
    }
    let weighed_on = ["2026-09-10", "2026-10-10", "2026-12-03", "2027-02-03"];
    phone.weigh_in_steady_air_on(&weighed_on, &laminates[2..4], 0.56);
    assert_eq!(rows(&phone, "2027-02-20"), [1, 6, 1]);
    let early = due(&phone.state(), "2027-02-20");
    assert_eq!(early.iter().filter(|line| line.is_early()).count(), 2);
    assert_eq!(rows(&phone, "2027-03-03"), [1, 4, 1, 1, 1]);
}

#[test]
fn what_is_likely_next_follows_the_life_of_the_wood() {
    use NextStep::*;
    let mut phone = Phone::new("K7");
    phone.set_day("2026-09-01");
    let (_, pile) = phone.pile();
    let plank = phone.plank(pile, "A7", &A7);
    assert_eq!(
        next(&phone, plank, "2026-09-01"),
        [PutOnShelf, Weigh, ReadMoisture]
    );
    phone.place(plank, "floor");
    assert_eq!(
        next(&phone, plank, "2026-09-02"),
        [Weigh, ReadMoisture, TestStress]
    );
    // Its weeks are over, but nobody weighed it.
    assert_eq!(next(&phone, plank, "2026-09-29"), [Weigh, Cut, TestStress]);
    let tested = StressTested {
        gap: taken(0.0, "mm"),
        over: None,
        test: StressTest::Ripped,
    };
    phone.say(plank, Event::StressTested(Box::new(tested)));
    assert_eq!(next(&phone, plank, "2026-09-29"), [Weigh, Cut]);

    phone.set_day("2026-10-01");
    let pieces = phone.crosscut(plank, &[("A7a", 80.0, 1030.0), ("A7b", 1033.2, 1983.2)]);
    let piece = pieces[0];
    assert_eq!(
        next(&phone, piece, "2026-10-01"),
        [Machine, SetToRest, Weigh]
    );
    phone.flatten(piece);
    assert_eq!(next(&phone, piece, "2026-10-01")[0], SetToRest);
    phone.rest(piece, Stage::Pieces, "shelf 1");
    assert_eq!(
        next(&phone, piece, "2026-10-02"),
        [CheckMovement, Weigh, ReadMoisture]
    );
    assert_eq!(
        next(&phone, piece, "2027-04-01"),
        [CheckMovement, Cut, Weigh]
    );
    let straight = [(Field::Bow, "0"), (Field::Crook, "0"), (Field::Twist, "0")];
    for visit in ["2027-02-01", "2027-04-01"] {
        phone.set_day(visit);
        phone.check(piece, &straight);
    }
    assert_eq!(
        next(&phone, piece, "2027-04-01"),
        [Weigh, Cut, CheckMovement]
    );
    let weighed_on = ["2026-10-01", "2026-11-01", "2027-01-01", "2027-04-01"];
    phone.weigh_in_steady_air_on(&weighed_on, &[piece], 2.1);
    assert_eq!(
        next(&phone, piece, "2027-04-01"),
        [Cut, Weigh, CheckMovement]
    );
    phone.check(piece, &[(Field::Crook, "+9")]);
    assert_eq!(next(&phone, piece, "2027-04-01")[..2], [Machine, ThrowOut]);

    let laminate = phone.rip(pieces[1], &child_marks("A7b", PieceKind::Laminate, 1), 16.0)[0];
    phone.flatten(laminate);
    phone.rest(laminate, Stage::Laminates, "shelf 2");
    assert_eq!(
        next(&phone, laminate, "2027-10-01"),
        [CheckMovement, Glue, Weigh]
    );
    for visit in ["2027-07-01", "2027-10-01"] {
        phone.set_day(visit);
        phone.check(laminate, &straight);
    }
    assert_eq!(
        next(&phone, laminate, "2027-10-01"),
        [Weigh, Glue, CheckMovement]
    );
    let weighed_on = ["2027-04-01", "2027-05-01", "2027-07-01", "2027-10-01"];
    phone.weigh_in_steady_air_on(&weighed_on, &[laminate], 0.56);
    assert_eq!(
        next(&phone, laminate, "2027-10-01"),
        [Glue, SeeGrain, CheckMovement]
    );
    phone.say(laminate, Event::Missing(Missing {}));
    assert_eq!(next(&phone, laminate, "2027-10-01"), [PutOnShelf, ThrowOut]);
}

#[test]
fn a_blank_that_rested_is_offered_and_one_that_is_kept_is_used() {
    use NextStep::*;
    let (mut phone, _, blank) = to_the_rack();
    for visit in ["2028-03-10", "2028-06-10"] {
        assert_eq!(next(&phone, blank, visit)[0], CheckMovement);
        phone.set_day(visit);
        phone.check(
            blank,
            &[(Field::Crook, "0"), (Field::Twist, "0"), (Field::Bow, "0")],
        );
    }
    assert_eq!(
        next(&phone, blank, "2028-06-10"),
        [Weigh, Reserve, CheckMovement]
    );
    let weighed_on = ["2027-12-10", "2028-01-10", "2028-03-10", "2028-06-10"];
    phone.weigh_in_steady_air_on(&weighed_on, &[blank], 2.7);
    assert_eq!(next(&phone, blank, "2028-06-10")[0], Reserve);
    let kept = Reserved {
        name: "Bo".into(),
        until: Some(day("2028-07-01")),
    };
    phone.say(blank, Event::Reserved(kept));
    let used = [Use, Release, CheckMovement];
    assert_eq!(next(&phone, blank, "2028-06-10"), used);
    assert_eq!(next(&phone, blank, "2028-07-01"), used);
    // It has run out.
    assert_eq!(next(&phone, blank, "2028-07-02")[0], Reserve);
}
