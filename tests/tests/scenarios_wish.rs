//! A wish, what is in hand for it, and what is still to be bought: dates, chances and money. All invented.

use chrono::NaiveDate;
use proptest::prelude::*;
use rust_decimal::Decimal;
use stillwood_core::plank::Field;
use stillwood_core::quantity::mm;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Event, Expected, InHandCount, Life, NotCounted, PieceKind, Reserved, SpeciesNamed, State,
    TargetAnswer, TargetSet, VisitOpened, WoodInHand,
};
use stillwood_core::season::{FEELER_MM, PlanPosition, Stage};
use stillwood_tests::workshop::{day, laminates_ready, scale, to_the_rack};
use stillwood_tests::yard::{A7, Phone, from_file};

fn target_of(blanks: u32, by: Option<&str>) -> TargetSet {
    TargetSet {
        blanks,
        by: by.map(day),
        laminates_per_blank: 5,
        sure_percent: 90,
        wood: None,
    }
}

fn in_hand(state: &State, today: &str) -> (Vec<WoodInHand>, NotCounted) {
    let lines = queries::resting(state, day(today), mm(FEELER_MM), scale());
    queries::wood_in_hand(state, &[], &lines, 8, day(today))
}

fn say(phone: &mut Phone, wish: TargetSet) -> Id {
    let about = phone.id();
    phone.say(about, Event::TargetSet(Box::new(wish)))
}

#[test]
fn the_last_wish_said_is_in_force_and_travels_in_the_file() {
    let mut phone = Phone::new("K7");
    assert_eq!(queries::target(&phone.state()), None);
    say(&mut phone, target_of(4, None));
    let more = target_of(10, Some("2029-05-01"));
    assert_eq!(more.confidence(), 0.9);
    let said = say(&mut phone, more.clone());
    let state = phone.state();
    assert_eq!(queries::target(&state).unwrap().0, &more);
    assert!(queries::orphans(&state).is_empty());
    let mut other = Phone::new("R4");
    other.hear(from_file(&phone.file()).accepted);
    assert_eq!(queries::target(&other.state()).unwrap().0, &more);
    phone.take_back(said);
    assert_eq!(
        queries::target(&phone.state()).unwrap().0,
        &target_of(4, None)
    );
}

#[test]
fn what_can_be_a_blank_is_in_hand_and_what_cannot_is_told() {
    let (mut phone, _, blank) = to_the_rack();
    let kinds =
        |wood: &[WoodInHand]| -> Vec<PieceKind> { wood.iter().map(|one| one.kind).collect() };
    let (wood, not) = in_hand(&phone.state(), "2027-12-11");
    let laminate = PieceKind::Laminate;
    assert_eq!(
        kinds(&wood),
        [
            laminate,
            laminate,
            laminate,
            PieceKind::Piece,
            PieceKind::Blank
        ]
    );
    assert_eq!(not, NotCounted::default());
    // The laminates have rested and kept their shape; the piece is 560 mm, no part of the spec fits.
    assert!(
        wood[..3]
            .iter()
            .all(|one| one.is_ready() && one.laminates == 1)
    );
    assert_eq!((wood[3].laminates, wood[4].laminates), (0, 0));
    // The piece is known to give none; of blanks and laminates nothing is expected.
    let count = InHandCount::of(&wood);
    assert_eq!((count.laminates, count.pieces, count.blanks), (3, 1, 1));
    assert_eq!((count.expected, count.unknown, count.give_none), (0, 0, 1));
    // A blank kept for somebody is no blank for the wish, a laminate that moved none either.
    let name = "a customer".to_owned();
    phone.say(blank, Event::Reserved(Reserved { name, until: None }));
    phone.set_day("2028-01-10");
    phone.check(wood[0].piece, &[(Field::Crook, "+2.0")]);
    let (wood, not) = in_hand(&phone.state(), "2028-01-11");
    assert_eq!(kinds(&wood), [laminate, laminate, PieceKind::Piece]);
    assert_eq!((not.moved, not.kept), (1, 1));
    // Of another wood there is none.
    let state = phone.state();
    let lines = queries::resting(&state, day("2028-01-11"), mm(FEELER_MM), scale());
    let named = |text: &str| SpeciesNamed {
        id: None,
        text: text.into(),
    };
    let today = day("2028-01-11");
    let of = |text| {
        queries::wood_in_hand(&state, &[named(text)], &lines, 8, today)
            .0
            .len()
    };
    assert_eq!((of("Hard Maple "), of("wenge")), (3, 0));
}

#[test]
fn what_was_kept_until_a_day_is_in_hand_again_after_it() {
    let (mut phone, _, resting) = to_the_rack();
    // Another that was not set to rest, of what is left of the plank.
    let laminates: Vec<Id> = queries::stock(&phone.state())
        .filter(|piece| piece.work.kind == PieceKind::Laminate)
        .map(|piece| piece.id)
        .collect();
    let idle = phone.glue("B013", &laminates[..2], "0417");
    for blank in [resting, idle] {
        let kept = Reserved {
            name: "a customer".into(),
            until: Some(day("2028-01-31")),
        };
        phone.say(blank, Event::Reserved(kept));
    }
    let state = phone.state();
    let blanks = |today| {
        let (wood, not) = in_hand(&state, today);
        (InHandCount::of(&wood).blanks, not.kept)
    };
    assert_eq!(blanks("2028-01-31"), (0, 2), "the last day is one of them");
    assert_eq!(blanks("2028-02-01"), (2, 0));
    let life = |today| state.piece(idle).unwrap().life_on(day(today)).0;
    assert_eq!(life("2028-01-31"), Life::Reserved);
    assert_eq!(life("2028-02-01"), Life::InShop);
}

#[test]
fn planks_and_pieces_count_with_what_those_like_them_gave() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let [first, second] = ["A7", "B1"].map(|mark| phone.plank(pile, mark, &A7));
    for plank in [first, second] {
        phone.place(plank, "floor");
    }
    let expected = |phone: &Phone, mark: &str| {
        let (wood, _) = in_hand(&phone.state(), "2027-01-01");
        wood.iter().find(|one| one.mark == mark).unwrap().laminates
    };
    let fits = expected(&phone, "B1");
    assert!(fits > 2, "{fits} fit");
    // Nothing is known yet: all that fit.
    let pieces = phone.crosscut(first, &[("A7a", 80.0, 1030.0), ("A7b", 1033.2, 1983.2)]);
    phone.rip(pieces[0], &["A7a1", "A7a2"].map(str::to_owned), 16.0);
    let of_piece = expected(&phone, "A7b");
    assert_eq!(
        expected(&phone, "B1"),
        fits,
        "one piece of the plank is not ripped yet"
    );
    phone.rip(pieces[1], &["A7b1".to_owned()], 16.0);
    // The first gave 3 of what fits, so that is what its twin is expected to give.
    assert_eq!(expected(&phone, "B1"), 3);
    assert!(of_piece >= 1);
}

/// What a wish takes of what [`laminates_ready`] has, under a share of nine in ten.
fn asked(state: &State, wish: &TargetSet, today: &str) -> TargetAnswer {
    let (wood, _) = in_hand(state, today);
    let expected = Expected {
        per_plank: 8,
        share_unknown: 0.9,
        by_own_counts: true,
    };
    queries::target_answer(
        state,
        wish,
        &wood,
        expected,
        &queries::least_rests(state),
        day(today),
    )
}

#[test]
fn forward_and_back_from_eight_ripe_laminates_and_a_plank() {
    let (phone, _, _) = laminates_ready();
    let state = phone.state();
    let today = "2026-04-01";
    let (wood, _) = in_hand(&state, today);
    let ahead = queries::plan_ahead(&wood, 5, &queries::least_rests(&state), day(today)).unwrap();
    // Five are glued today and rest half a year; three wait for the plank, cut today: its weeks in the room are over.
    let plank = wood
        .iter()
        .find(|one| one.kind == PieceKind::Plank)
        .unwrap();
    let blanks = (8 + plank.laminates) / 5;
    assert_eq!(ahead.blanks.len(), blanks as usize);
    assert_eq!(ahead.blanks[..2], [day("2026-10-01"), day("2027-10-01")]);
    let lots: Vec<(PieceKind, usize, Option<NaiveDate>)> = ahead
        .lots
        .iter()
        .map(|lot| (lot.kind, lot.pieces.len(), lot.blank_on()))
        .collect();
    let ripe = (PieceKind::Laminate, 8, Some(day("2026-10-01")));
    assert_eq!(lots, [ripe, (PieceKind::Plank, 1, Some(day("2027-10-01")))]);
    assert!(matches!(
        ahead.lots[1].standing,
        PlanPosition::Plank(Some(_))
    ));
    assert_eq!(ahead.lots[0].keys.values().sum::<usize>(), 8);
    // One blank by autumn: the laminates are ready, so only the blank itself may fail.
    let one = asked(&state, &target_of(1, Some("2026-10-01")), today);
    let start = one.start.unwrap();
    assert!((start.chance_in_hand() - 0.9).abs() < 1e-9 && start.planks == Some(0));
    assert_eq!((one.in_time.laminates, one.in_time.planks), (8, 0));
    assert!(!one.planks_in_time);
    let latest = one.latest.unwrap().unwrap();
    assert_eq!(latest.glue_by, day("2026-04-01"));
    // Too late to cut planks and to rip pieces.
    assert!(latest.rip_by < day(today) && day(today) <= latest.glue_by);
    // A day sooner nothing can be ready.
    let none = asked(&state, &target_of(1, Some("2026-09-30")), today);
    assert_eq!(none.start.unwrap().chance_in_hand(), 0.0);
    // Without a day the plank counts too, and more can be bought.
    let any = asked(&state, &target_of(3, None), today);
    assert!(any.latest.is_none() && any.planks_in_time);
    assert_eq!((any.in_time.laminates, any.in_time.planks), (8, 1));
    let start = any.start.unwrap();
    assert!(start.chances.is_sorted() && start.chance() >= 0.9);
    assert_eq!(
        start.known_badly(),
        [PieceKind::Piece, PieceKind::Laminate, PieceKind::Blank]
    );
}

#[test]
fn the_yard_is_told_planks_footage_and_money_that_are_still_short() {
    let mut phone = Phone::new("K7");
    let (visit, pile) = phone.pile();
    phone.sell_as_two_inches(pile);
    let needed = |phone: &Phone, today: &str| {
        let state = phone.state();
        let tally = queries::tally_of(&state, visit).unwrap();
        let (wood, _) = in_hand(&state, today);
        let paces = queries::paces(&state, mm(FEELER_MM), day(today));
        let asked = queries::to_buy_question(&state, visit, &tally, &wood, &paces, day(today));
        asked.unwrap().answered(None)
    };
    let today = "2026-10-03";
    // Nothing taken: the wish is the spec's, and what planks are like is not known.
    let before = needed(&phone, today);
    assert_eq!((before.wish.blanks, before.said_on), (10, None));
    assert_eq!((before.picks, &before.so_far), (0, &None));
    let short = before.planks().unwrap();
    let take = |phone: &mut Phone, mark: &str| {
        let plank = phone.plank(pile, mark, &A7);
        let judged = stillwood_core::record::Judged {
            decision: stillwood_core::record::Decision::Take,
            proposed: None,
            reasons: Vec::new(),
            score: None,
            weakest: None,
        };
        phone.say(plank, Event::Judged(judged));
    };
    for mark in ["A7", "B1"] {
        take(&mut phone, mark);
    }
    let after = needed(&phone, today);
    assert_eq!(after.picks, 2);
    let still = after.planks().unwrap();
    assert!(still < short, "{still} of {short}");
    let so_far = after.so_far.as_ref().unwrap();
    assert!(so_far.of_this_visit && so_far.planks == 2);
    let (feet, gross) = after.of_planks().unwrap();
    assert_eq!(feet, so_far.board_feet * Decimal::from(still));
    assert_eq!(gross, so_far.gross * Decimal::from(still));
    let told = after.worked(Some("EUR")).unwrap().steps[0].result;
    assert!((told - gross.to_string().parse::<f64>().unwrap()).abs() < 1e-6);
    // A smaller wish needs fewer; what it is said to be of is asked for.
    phone.set_day("2026-10-04");
    say(&mut phone, target_of(1, None));
    let small = needed(&phone, "2026-10-04");
    assert_eq!(
        (small.wish.blanks, small.said_on),
        (1, Some(day("2026-10-04")))
    );
    assert!(small.planks().unwrap() < still);
    // A piece of a plank that was cut counts as in hand, with its laminates.
    let plank = queries::taken_on(&phone.state(), visit)[0].id;
    let pieces = phone.crosscut(plank, &[("A7a", 80.0, 1030.0), ("A7b", 1033.2, 1983.2)]);
    phone.rest(pieces[0], Stage::Pieces, "shelf");
    let cut = needed(&phone, "2026-10-04");
    assert_eq!((cut.answer.in_time.pieces, cut.picks), (2, 1));
    assert!(cut.answer.in_time.expected > 0);
}

#[test]
fn a_target_holds_on_the_visit_that_is_made_for_it_until_its_number_is_changed_there() {
    let mut phone = Phone::new("K7");
    phone.set_day("2027-03-01");
    say(&mut phone, target_of(20, None));
    phone.set_day("2027-03-02");
    let visit = phone.open_visit_as_supplied("North");
    let wish = |phone: &Phone| {
        let (wish, on) = queries::target_of_visit(&phone.state(), visit).unwrap();
        (wish.blanks, on)
    };
    let kept = (20, Some(day("2027-03-01")));
    assert_eq!(wish(&phone), kept);
    // The terms are said anew, on the day of the visit as always: first the yard, then the number.
    let change = |phone: &mut Phone, change: &dyn Fn(&mut VisitOpened)| {
        let known = phone.state().visit(visit).unwrap().clone();
        let mut opened = known.opened;
        change(&mut opened);
        phone.correct(
            visit,
            Event::VisitOpened(Box::new(opened)),
            vec![known.recorded.entry],
        );
    };
    change(&mut phone, &|opened| opened.yard = "South".into());
    assert_eq!(wish(&phone), kept);
    change(&mut phone, &|opened| opened.spec.blanks_wanted = 6);
    assert_eq!(wish(&phone), (6, None));
    change(&mut phone, &|opened| opened.yard = "North".into());
    assert_eq!(wish(&phone), (6, None));
    // What is said after that holds again, on whatever day.
    phone.set_day("2027-03-02");
    say(&mut phone, target_of(8, None));
    assert_eq!(wish(&phone), (8, Some(day("2027-03-02"))));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]
    /// The later it may be, and the fewer are wanted, the surer it is.
    #[test]
    fn time_never_makes_a_wish_less_sure(days in 0u64..900, more in 0u64..300, blanks in 1u32..5) {
        let (phone, _, _) = laminates_ready();
        let state = phone.state();
        let by = |days| TargetSet {
            by: day("2026-04-01").checked_add_days(chrono::Days::new(days)),
            ..target_of(blanks, None)
        };
        let chance = |wish: &TargetSet| asked(&state, wish, "2026-04-01").start.unwrap().chance_in_hand();
        let soon = chance(&by(days));
        prop_assert!(soon <= chance(&by(days + more)) + 1e-12);
        let fewer = TargetSet { blanks: blanks - 1, ..by(days) };
        prop_assert!(soon <= chance(&fewer) + 1e-12);
    }
}

#[test]
fn a_wood_is_told_by_the_table_and_else_by_its_name() {
    let named = |id: Option<&str>, text: &str| SpeciesNamed {
        id: id.map(str::to_owned),
        text: text.into(),
    };
    let maple = named(Some("maple-sugar"), "hard maple");
    assert!(maple.is_same_wood(&named(Some("maple-sugar"), "rock maple")));
    assert!(!maple.is_same_wood(&named(Some("maple-red"), "hard maple")));
    // Where one of them is not of the table only the names are left.
    assert!(maple.is_same_wood(&named(None, " Hard maple")));
    assert!(!maple.is_same_wood(&named(None, "rock maple")));
}
