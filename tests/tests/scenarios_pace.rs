//! The maker's own pace out of the record, and plans that go by it. All invented.

use chrono::NaiveDate;
use stillwood_core::plank::{Field, Reason};
use stillwood_core::quantity::mm;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Event, Expected, Missing, Origin, Paces, PieceKind, Reserved, StagePace, StageSet, State,
    TargetSet, Used, child_marks,
};
use stillwood_core::season::{
    FEELER_MM, Lay, Pace, PaceError, RestLength, Rests, Stage, StageLimits,
};
use stillwood_tests::workshop::{bought, day, scale};
use stillwood_tests::yard::{Phone, from_file};

fn paces(phone: &Phone, today: &str) -> Paces {
    queries::paces(&phone.state(), mm(FEELER_MM), day(today))
}

fn of(phone: &Phone, stage: Stage, today: &str) -> StagePace {
    let [pieces, laminates, blanks] = paces(phone, today).stages;
    match stage {
        Stage::Pieces => pieces,
        Stage::Laminates => laminates,
        Stage::Blanks => blanks,
    }
}

/// The days over the least rest of those that went on, and of those that did not, in order.
fn days(pace: &StagePace) -> (Vec<u32>, Vec<u32>) {
    let days = |went_on| {
        let some = pace.lays.iter().filter(|lay| lay.went_on == went_on);
        let mut days: Vec<u32> = some.map(|lay: &Lay| lay.days).collect();
        days.sort_unstable();
        days
    };
    (days(true), days(false))
}

/// Nine laminates that rest since 2027-01-10, and so could go on from 2027-07-10. Gives the phone and them.
fn nine_at_rest() -> (Phone, Vec<Id>) {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2027-01-10");
    let laminates = phone.rip(plank, &child_marks("A7", PieceKind::Laminate, 9), 16.0);
    for laminate in &laminates {
        phone.rest(*laminate, Stage::Laminates, "shelf 2");
    }
    (phone, laminates)
}

fn straight(phone: &mut Phone, piece: Id, on: &str) {
    phone.set_day(on);
    let shape = [(Field::Bow, "0"), (Field::Crook, "0"), (Field::Twist, "0")];
    phone.check(piece, &shape);
}

#[test]
fn laminates_lie_until_they_are_glued_and_what_waits_or_left_is_no_step() {
    let (mut phone, all) = nine_at_rest();
    phone.set_day("2027-07-01");
    // Thrown out before it could have gone on: it says nothing.
    phone.discard(all[8], Reason::Moved);
    let none = of(&phone, Stage::Laminates, "2027-07-09");
    assert!(none.lays.is_empty());
    assert_eq!(none.pace, Err(PaceError::TooFew(0)));
    phone.set_day("2027-07-31");
    let first = phone.glue("B001", &all[..3], "0417");
    phone.set_day("2027-08-09");
    phone.say(all[7], Event::Missing(Missing {}));
    let few = of(&phone, Stage::Laminates, "2027-08-09");
    assert_eq!(few.pace, Err(PaceError::TooFew(3)));
    assert!(
        few.worked().notes[0].starts_with("Of 8 laminates whose least rest is over, 3 were glued")
    );
    assert!(few.worked().notes[1].contains("plans keep to the least rest"));
    phone.set_day("2027-09-08");
    phone.glue("B002", &all[3..6], "0418");
    let found = of(&phone, Stage::Laminates, "2027-10-18");
    // One is lost since day 30, one waits since 100 days.
    assert_eq!(days(&found), (vec![21, 21, 21, 60, 60, 60], vec![30, 100]));
    assert_eq!(
        (found.waiting, found.left, found.sooner, found.days),
        (1, 1, 0, 2)
    );
    let pace = Pace {
        gone_on: 6,
        others: 2,
        tenth: 21,
        half: 60,
        nine_tenths: None,
    };
    assert_eq!(found.pace, Ok(pace));
    // Asked about an earlier day, it is as it was then.
    assert_eq!(of(&phone, Stage::Laminates, "2027-08-09"), few);
    // Taken back, it was never glued.
    let state = phone.state();
    let Origin::GluedFrom { glue, .. } = state.piece(first).unwrap().work.origin else {
        panic!("not glued");
    };
    phone.take_back(glue);
    assert_eq!(
        days(&of(&phone, Stage::Laminates, "2027-10-18")).0,
        [60, 60, 60]
    );
}

#[test]
fn a_rest_cut_short_is_told_and_longer_terms_count_as_if_they_always_stood() {
    let (mut phone, all) = nine_at_rest();
    phone.set_day("2027-06-30");
    phone.glue("B001", &all[..5], "0417");
    let found = of(&phone, Stage::Laminates, "2027-07-20");
    assert_eq!(days(&found), (vec![0; 5], vec![10; 4]));
    assert_eq!(found.sooner, 5);
    let told = found.worked();
    assert!(
        told.notes[1].starts_with("5 went on before"),
        "{:?}",
        told.notes
    );
    // By five months they lay four weeks longer, or a little less.
    let stage = Stage::Laminates;
    let terms = StageLimits {
        months: 5,
        ..StageLimits::supplied(stage)
    };
    let setting = phone.id();
    phone.say(
        setting,
        Event::StageSet(Box::new(StageSet { stage, terms })),
    );
    let found = of(&phone, stage, "2027-07-20");
    assert_eq!((days(&found).0, found.sooner), (vec![20; 5], 0));
    // Set to rest anew, the last rest counts.
    phone.set_day("2027-07-15");
    phone.rest(all[5], stage, "shelf 3");
    assert_eq!(days(&of(&phone, stage, "2027-07-20")).1, [40; 3]);
}

#[test]
fn a_piece_lies_until_it_is_cut_and_a_blank_until_it_is_found_still_or_kept() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2026-01-10");
    let pieces = phone.crosscut(plank, &[("A7a", 80.0, 1030.0), ("A7b", 1033.2, 1983.2)]);
    for piece in &pieces {
        phone.rest(*piece, Stage::Pieces, "shelf 1");
    }
    phone.set_day("2026-07-12");
    let laminates = phone.rip(pieces[0], &child_marks("A7a", PieceKind::Laminate, 8), 16.0);
    assert_eq!(
        days(&of(&phone, Stage::Pieces, "2026-07-20")),
        (vec![2], vec![10])
    );
    let blanks: Vec<Id> = ["B1", "B2", "B3", "B4"]
        .into_iter()
        .zip(laminates.chunks(2))
        .map(|(mark, pair)| phone.glue(mark, pair, "0417"))
        .collect();
    for blank in &blanks {
        phone.flatten(*blank);
        phone.rest(*blank, Stage::Blanks, "rack");
    }
    // Free from 2027-01-12. The first is found still before, the second after, the third is kept for
    // somebody, the fourth used, neither of them looked at.
    for on in ["2026-09-01", "2026-11-01", "2027-03-01"] {
        straight(&mut phone, blanks[0], on);
    }
    for on in ["2026-11-02", "2027-01-22", "2027-04-01"] {
        straight(&mut phone, blanks[1], on);
    }
    phone.set_day("2027-02-11");
    let name = "a customer".to_owned();
    phone.say(blanks[2], Event::Reserved(Reserved { name, until: None }));
    phone.set_day("2027-03-03");
    let became = "a bass".to_owned();
    phone.say(blanks[3], Event::Used(Used { became }));
    let found = of(&phone, Stage::Blanks, "2027-05-01");
    assert_eq!(days(&found), (vec![0, 10, 30, 50], vec![]));
    // Until then it waits.
    let before = of(&phone, Stage::Blanks, "2027-01-20");
    assert_eq!(days(&before), (vec![0], vec![8; 3]));
    // It is the same out of a file.
    let mut other = Phone::new("R4");
    other.hear(from_file(&phone.file()).accepted);
    assert_eq!(paces(&other, "2027-05-01"), paces(&phone, "2027-05-01"));
}

/// The wood in hand, and what a wish takes of it, at the least and at the maker's pace.
fn both(
    state: &State,
    by: &str,
    today: &str,
) -> [(Vec<NaiveDate>, stillwood_core::record::TargetAnswer); 2] {
    let today = day(today);
    let lines = queries::resting(state, today, mm(FEELER_MM), scale());
    let (wood, _) = queries::wood_in_hand(state, &[], &lines, 8, today);
    let wish = TargetSet {
        blanks: 1,
        by: Some(day(by)),
        laminates_per_blank: 3,
        sure_percent: 90,
        wood: None,
    };
    let expected = Expected {
        per_plank: 8,
        share_unknown: 0.9,
        by_own_counts: false,
    };
    let least = queries::least_rests(state);
    let paced = queries::paces(state, mm(FEELER_MM), today)
        .rests(&least)
        .unwrap();
    [least, paced].map(|rests: Rests| {
        let ahead = queries::plan_ahead(&wood, 3, &rests, today).unwrap();
        (
            ahead.blanks,
            queries::target_answer(state, &wish, &wood, expected, &rests, today),
        )
    })
}

#[test]
fn plans_go_by_the_least_and_by_the_pace_where_one_is_known() {
    let (mut phone, all) = nine_at_rest();
    phone.set_day("2027-07-31");
    phone.glue("B001", &all[..5], "0417");
    let state = phone.state();
    let today = "2027-08-01";
    let least = queries::least_rests(&state);
    let found = paces(&phone, today);
    let paced = found.rests(&least).unwrap();
    // Only laminates have a pace: what waits has waited a day longer than they did.
    assert_eq!(paced.pieces, least.pieces);
    assert_eq!(
        paced.laminates,
        RestLength {
            months: 6,
            longer: 21
        }
    );
    assert_eq!(paced.blanks, least.blanks);
    // A pace that is known of no stage plans nothing.
    assert_eq!(paces(&phone, "2027-07-30").rests(&least), None);
    // The four that are left can be glued today either way; those of a day before their pace could not.
    let [soonest, own] = both(&state, "2028-02-01", today);
    // The blank glued on the last day of July rests as well: not set to rest, it begins today.
    assert_eq!(soonest.0, [day("2028-02-01"), day("2028-02-01")]);
    assert_eq!(own.0, soonest.0);
    let latest = |of: &stillwood_core::record::TargetAnswer| of.latest.unwrap().unwrap();
    assert_eq!(latest(&soonest.1).rip_by, day("2027-02-01"));
    assert_eq!(latest(&own.1).rip_by, day("2027-01-11"));
    assert_eq!(latest(&own.1).glue_by, latest(&soonest.1).glue_by);
    // Planks are ripped straight to laminates here: they have no rest as pieces before that.
    assert_eq!(latest(&own.1).cut_by, day("2027-01-11"));
    assert_eq!(own.1.in_time, soonest.1.in_time);
    // Laminates set to rest today are free by the least three weeks before they are at that pace.
    let mut later = phone;
    later.set_day(today);
    for laminate in &all[5..] {
        later.rest(*laminate, Stage::Laminates, "shelf 3");
    }
    let state = later.state();
    let [soonest, own] = both(&state, "2028-08-10", today);
    assert_eq!(soonest.0[1], day("2028-08-01"));
    assert_eq!(own.0[1], day("2028-08-22"));
    assert_eq!(
        (soonest.1.in_time.laminates, own.1.in_time.laminates),
        (4, 0)
    );
}

#[test]
fn the_yard_buys_at_the_pace_that_is_known_and_else_by_the_least_rests() {
    let (mut phone, all) = nine_at_rest();
    phone.set_day("2027-07-31");
    phone.glue("B001", &all[..5], "0417");
    let wished = TargetSet {
        blanks: 1,
        by: Some(day("2028-09-07")),
        laminates_per_blank: 3,
        sure_percent: 90,
        wood: None,
    };
    let about = phone.id();
    phone.say(about, Event::TargetSet(Box::new(wished)));
    let state = phone.state();
    let visit = state.visits().next().unwrap().id;
    let needed = |today: &str| {
        let today = day(today);
        let paces = queries::paces(&state, mm(FEELER_MM), today);
        let tally = queries::tally_of(&state, visit).unwrap();
        let asked = queries::to_buy_question(&state, visit, &tally, &[], &paces, today);
        asked.unwrap().answered(None)
    };
    // A day on which too few have gone on: four weeks in the room and two rests of half a year, since planks are ripped
    // straight to laminates.
    let least = needed("2027-07-30");
    assert_eq!(
        (least.at_own_pace.len(), least.rests),
        (0, queries::least_rests(&state))
    );
    assert_eq!(least.ready_if_bought_now(), Some(day("2028-08-27")));
    assert!(least.answer.planks_in_time);
    // Laminates lay three weeks longer, so what is bought two days later misses the day.
    let paced = needed("2027-08-01");
    assert_eq!(paced.at_own_pace, [Stage::Laminates]);
    assert_eq!(paced.ready_if_bought_now(), Some(day("2028-09-21")));
    assert!(!paced.answer.planks_in_time);
    let told = paced.explain_ready().unwrap();
    assert!(
        told.notes.iter().any(|note| note.ends_with("2028-09-21.")),
        "{:?}",
        told.notes
    );
    // By the least rests it would have been in time.
    let mut soonest = paced;
    soonest.rests = queries::least_rests(&state);
    assert_eq!(soonest.ready_if_bought_now(), Some(day("2028-08-29")));
}
