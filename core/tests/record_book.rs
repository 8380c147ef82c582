//! What a maker sees: corrections, undo, two phones, planks recorded twice, missing files.

use std::collections::BTreeMap;
use stillwood_core::plank::{DefectFound, DefectKind, Field, Readings, Reason};
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Added, Decision, Entry, Event, EventMeta, EventStatus, Limits, Log, Marked, Measured, Noted,
    PassedOver, Withdrawn, read, sealed,
};
use stillwood_tests::invented::{
    Phone, day_of, judged, pile_terms, plank_readings, taken, visit_terms, wood,
};

fn width(mm: f64) -> Readings {
    Readings::from([(Field::WidthNear, taken(mm, "mm"))])
}

fn measured(mm: f64) -> Event {
    Event::Measured(Measured {
        readings: width(mm),
        ..Measured::default()
    })
}

fn undo() -> Event {
    Event::Withdrawn(Withdrawn {})
}

fn one_piece() -> (Phone, Id) {
    let mut phone = Phone::seeded("K7", 1);
    let visit = phone.open_visit("North");
    let pile = phone.open_pile(visit, "hard_maple");
    let piece = phone.mark(pile);
    (phone, piece)
}

fn width_of(entries: &[Entry], piece: Id) -> Option<f64> {
    State::project_entries(entries)
        .piece(piece)
        .unwrap()
        .value(Field::WidthNear)
}

#[test]
fn a_fault_told_again_is_one_fault_however_many_there_are() {
    let (mut phone, piece) = one_piece();
    let measured = |n: u32| {
        let defect = DefectFound {
            kind: DefectKind::Knot,
            from: Some(taken(f64::from(n), "mm")),
            to: None,
            note: String::new(),
        };
        Event::Measured(Measured {
            defects: vec![defect],
            ..Measured::default()
        })
    };
    for n in (0..100).chain(0..100) {
        phone.say(piece, measured(n));
    }
    let state = State::project_entries(&phone.written);
    let found = state.piece(piece).unwrap().defects_found();
    let places: Vec<f64> = found
        .iter()
        .map(|one| one.from.as_ref().unwrap().value)
        .collect();
    assert_eq!(places, (0..100).map(f64::from).collect::<Vec<_>>());
}

#[test]
fn a_correction_can_be_corrected_and_taken_back() {
    let (mut phone, piece) = one_piece();
    let first = phone.say(piece, measured(200.0));
    assert_eq!(width_of(&phone.written, piece), Some(200.0));
    let second = phone.correct(piece, measured(205.0), vec![first]);
    assert_eq!(width_of(&phone.written, piece), Some(205.0));
    let third = phone.correct(piece, measured(210.0), vec![second]);
    assert_eq!(width_of(&phone.written, piece), Some(210.0));
    let undo_third = phone.correct(piece, undo(), vec![third]);
    assert_eq!(width_of(&phone.written, piece), Some(205.0));
    phone.correct(piece, undo(), vec![undo_third]);
    assert_eq!(width_of(&phone.written, piece), Some(210.0));
    let state = State::project_entries(&phone.written);
    let history = &state.piece(piece).unwrap().history;
    assert_eq!(history.len(), 6);
    assert_eq!(history[1].standing, EventStatus::Replaced { by: third });
    assert!(state.disputes().is_empty());
}

#[test]
fn later_readings_are_laid_over_earlier_ones_and_both_are_kept() {
    let (mut phone, piece) = one_piece();
    let readings = plank_readings(&mut phone.dice);
    let first = phone.measure(piece, readings.clone());
    let second = phone.say(piece, measured(199.0));
    let state = State::project_entries(&phone.written);
    let held = &state.piece(piece).unwrap().readings;
    assert_eq!(held[&Field::WidthNear].entry, second);
    assert_eq!(
        held[&Field::WidthNear].earlier[0],
        (first, readings[&Field::WidthNear].clone())
    );
    assert_eq!(held[&Field::Length].entry, first);
}

#[test]
fn corrections_made_apart_are_both_shown_until_one_replaces_both() {
    let (mut phone, piece) = one_piece();
    let wrong = phone.say(piece, measured(20.0));
    let mut other = Phone::seeded("M4", 2);
    other.step = phone.step;
    let ours = phone.correct(piece, measured(200.0), vec![wrong]);
    let theirs = other.correct(piece, measured(210.0), vec![wrong]);
    let mut all = phone.written.clone();
    all.append(&mut other.written);
    let state = State::project_entries(&all);
    let [dispute] = state.disputes() else {
        panic!("{:?}", state.disputes())
    };
    assert_eq!((dispute.of, dispute.about), (wrong, piece));
    assert_eq!(dispute.candidates.len(), 2);
    let in_force = dispute.in_force().unwrap();
    assert_eq!(in_force, ours.max(theirs));
    let wanted = if in_force == ours { 200.0 } else { 210.0 };
    assert_eq!(
        state.piece(piece).unwrap().value(Field::WidthNear),
        Some(wanted)
    );

    // A correction of one of them settles nothing.
    phone.step = 100;
    let further = phone.correct(piece, measured(201.0), vec![ours]);
    let mut more = all.clone();
    more.push(phone.written.pop().unwrap());
    assert_eq!(State::project_entries(&more).disputes().len(), 1);
    assert_eq!(
        State::project_entries(&more).disputes()[0].in_force(),
        Some(further)
    );

    // One of both does.
    phone.step = 200;
    phone.correct(piece, measured(205.0), vec![further, theirs]);
    more.push(phone.written.pop().unwrap());
    assert!(State::project_entries(&more).disputes().is_empty());
    assert_eq!(width_of(&more, piece), Some(205.0));
}

#[test]
fn a_piece_taken_back_is_gone_and_its_readings_are_no_orphans() {
    let (mut phone, piece) = one_piece();
    let marked = phone.written.last().unwrap().id;
    phone.say(piece, measured(200.0));
    let undone = phone.correct(piece, undo(), vec![marked]);
    let state = State::project_entries(&phone.written);
    assert_eq!(state.pieces().count(), 0);
    assert!(state.piece(piece).unwrap().withdrawn);
    assert!(queries::orphans(&state).is_empty());
    assert_eq!(state.piles().next().unwrap().maybes(), 0);
    phone.correct(piece, undo(), vec![undone]);
    assert_eq!(State::project_entries(&phone.written).pieces().count(), 1);
}

#[test]
fn the_pile_counts_what_was_looked_at() {
    let (mut phone, piece) = one_piece();
    let pile = State::project_entries(&phone.written)
        .piece(piece)
        .unwrap()
        .pile;
    let pass = |count, reasons| Event::PassedOver(PassedOver { count, reasons });
    phone.say(pile, pass(3, vec![Reason::Twist, Reason::Kink]));
    phone.say(pile, pass(1, vec![Reason::Kink]));
    phone.say(pile, pass(2, vec![]));
    let wrong = phone.say(pile, pass(50, vec![Reason::Twist]));
    phone.correct(pile, undo(), vec![wrong]);
    let state = State::project_entries(&phone.written);
    let pile = state.pile(pile).unwrap();
    assert_eq!(
        (pile.looked_at(), pile.passed_over(), pile.maybes()),
        (7, 6, 1)
    );
    let wanted = [(Some(Reason::Twist), 3), (Some(Reason::Kink), 4), (None, 2)];
    assert_eq!(pile.left_for(), BTreeMap::from(wanted));
}

#[test]
fn the_judgement_in_force_is_the_last_and_the_earlier_ones_stay() {
    let (mut phone, piece) = one_piece();
    phone.say(piece, Event::Judged(judged(Decision::SetAside, None)));
    phone.say(piece, Event::Judged(judged(Decision::Take, Some(70.0))));
    let state = State::project_entries(&phone.written);
    let piece = state.piece(piece).unwrap();
    assert_eq!(piece.decision(), Some(Decision::Take));
    assert_eq!(piece.judgements.len(), 2);
    assert!(piece.judgements[0].judged.overruled());
    assert!(!piece.judgements[1].judged.overruled());
}

#[test]
fn entries_whose_file_is_not_here_wait_for_it() {
    let (mut phone, piece) = one_piece();
    phone.say(piece, measured(200.0));
    let late = phone.written[2..].to_vec();
    let mut log = Log::new();
    log.merge(phone.written[3..].to_vec());
    let state = State::project(&log);
    assert_eq!(queries::orphans(&state)[0].missing, piece);
    assert_eq!(
        queries::missing_runs(&state)[0].from..=queries::missing_runs(&state)[0].to,
        1..=3
    );
    log.merge(late);
    let state = State::project(&log);
    assert_eq!(state.pieces().count(), 1);
    assert_eq!(
        queries::orphans(&state).len(),
        1,
        "the pile is still missing"
    );
    log.merge(phone.written.clone());
    let state = State::project(&log);
    assert!(queries::orphans(&state).is_empty() && queries::missing_runs(&state).is_empty());
    assert_eq!(width_of(&phone.written, piece), Some(200.0));
}

#[test]
fn what_begins_late_or_again_is_folded_again() {
    let (mut phone, piece) = one_piece();
    let pile = State::project_entries(&phone.written)
        .piece(piece)
        .unwrap()
        .pile;
    let late = Id::from_u128(7);
    phone.say(late, measured(200.0));
    let mut state = State::project_entries(&phone.written);
    assert_eq!(queries::orphans(&state).len(), 1);
    for about in [late, piece] {
        let mark = "K7-900-X".to_owned();
        phone.say(about, Event::Marked(Marked { mark, pile }));
        assert!(!state.append(phone.written.last().unwrap()), "{about}");
        state = State::project_entries(&phone.written);
    }
    assert!(queries::orphans(&state).is_empty());
    assert_eq!(
        state.piece(late).unwrap().value(Field::WidthNear),
        Some(200.0)
    );
    assert_eq!(state.piece(late).unwrap().mark, "K7-900-X");
    assert_eq!(state.piece(piece).unwrap().mark, "K7-900-X (2)");
}

#[test]
fn a_visit_that_was_changed_is_taken_back_whole() {
    let mut phone = Phone::seeded("K7", 3);
    let visit = phone.open_visit("North");
    let before = State::project_entries(&phone.written)
        .visit(visit)
        .unwrap()
        .recorded
        .entry;
    let other = Event::VisitOpened(Box::new(visit_terms("South")));
    phone.correct(visit, other, vec![before]);
    let state = State::project_entries(&phone.written);
    assert_eq!(state.visit(visit).unwrap().opened.yard, "South");
    let begun = state.begun_by(visit);
    assert_eq!(begun.len(), 2);
    let gone = phone.correct(visit, Event::Withdrawn(Withdrawn {}), begun);
    let state = State::project_entries(&phone.written);
    assert_eq!((state.visits().count(), state.disputes().len()), (0, 0));
    // Undone, it is as it was changed.
    phone.correct(visit, Event::Withdrawn(Withdrawn {}), vec![gone]);
    let state = State::project_entries(&phone.written);
    assert_eq!(state.visit(visit).unwrap().opened.yard, "South");
    assert_eq!(state.visits().count(), 1);
}

/// What is found on it stays, and nothing else has to be folded again.
#[test]
fn a_change_of_a_visit_is_added_at_once() {
    let mut phone = Phone::seeded("K7", 3);
    let visit = phone.open_visit("North");
    let pile = phone.open_pile(visit, "hard_maple");
    phone.whole_plank(pile);
    let mut state = State::project_entries(&phone.written);
    let mut before = state.visit(visit).unwrap().recorded.entry;
    for yard in ["South", "East"] {
        let other = Event::VisitOpened(Box::new(visit_terms(yard)));
        before = phone.correct(visit, other, vec![before]);
        assert!(state.append(phone.written.last().unwrap()), "{yard}");
        assert_eq!(state, State::project_entries(&phone.written));
        assert_eq!(state.visit(visit).unwrap().opened.yard, yard);
    }
    // One that corrects what is not in force is not.
    let stale = phone.written[0].id;
    let other = Event::VisitOpened(Box::new(visit_terms("West")));
    phone.correct(visit, other, vec![stale]);
    assert!(!state.append(phone.written.last().unwrap()));
}

/// No honest device can write this: an entry names only what it has seen.
#[test]
fn corrections_that_go_round_in_a_circle_correct_only_forwards() {
    let (mut phone, piece) = one_piece();
    let first = phone.say(piece, measured(200.0));
    let second = phone.correct(piece, measured(205.0), vec![first]);
    let line = phone.written[3].to_line();
    let line = line.replace("\"v\":1", &format!("\"supersedes\":[\"{second}\"],\"v\":1"));
    phone.written[3] = Entry::from_json(&line, &Limits::default()).unwrap();
    assert_eq!(width_of(&phone.written, piece), Some(205.0));
    assert!(State::project_entries(&phone.written).disputes().is_empty());
}

#[test]
fn a_cloned_device_and_a_doubled_mark_are_told() {
    let (mut phone, piece) = one_piece();
    let pile = State::project_entries(&phone.written)
        .piece(piece)
        .unwrap()
        .pile;
    let mark = "K7-3-x".to_owned();
    let (one, two) = (phone.id(), Id::from_u128(5));
    phone.say(
        one,
        Event::Marked(Marked {
            mark: mark.clone(),
            pile,
        }),
    );
    let mut clone = Phone::seeded("K7", 9);
    (clone.seq, clone.step) = (phone.seq - 1, phone.step);
    let mark = mark.to_uppercase().replace('-', " ");
    clone.say(two, Event::Marked(Marked { mark, pile }));
    let mut log = Log::new();
    log.merge(phone.written.clone());
    log.merge(clone.written);
    let state = State::project(&log);
    assert_eq!(queries::cloned_devices(&state).len(), 1);
    assert_eq!(
        (
            queries::cloned_devices(&state)[0].seq,
            queries::cloned_devices(&state)[0].entries.len()
        ),
        (phone.seq, 2)
    );
    assert_eq!(queries::doubled_marks(&state).len(), 1);
    assert_eq!(queries::doubled_marks(&state)[0].pieces, [two, one]);
    assert_eq!(queries::pieces_with_mark(&state, "k7 3 X"), [two, one]);
}

#[test]
fn of_two_entries_under_one_id_both_are_kept() {
    let (mut phone, piece) = one_piece();
    phone.say(piece, measured(200.0));
    let good = phone.written.last().unwrap().clone();
    let line = sealed(&good.to_line().replace("200.0", "300.0")).unwrap();
    let bad = Entry::from_json(&line, &Limits::default()).unwrap();
    let mut log = Log::new();
    log.merge(phone.written.clone());
    assert_eq!(log.add(bad.clone()), Added::Altered);
    assert_eq!(log.add(good), Added::AlreadyHere);
    assert_eq!(log.add(bad), Added::AlreadyHere);
    assert_eq!(log.conflicts().len(), 1);
    let state = State::project(&log);
    let value = state.piece(piece).unwrap().value(Field::WidthNear);
    assert!(value == Some(200.0) || value == Some(300.0), "{value:?}");
    assert!(queries::missing_runs(&state).is_empty());
    let reading = read(log.to_file("0", "").as_bytes(), &Limits::default()).unwrap();
    assert_eq!(reading.accepted.len(), 5);
    let preview = queries::preview(&Log::new(), &reading);
    assert_eq!((preview.new, preview.altered.len()), (3, 1));
}

#[test]
fn the_next_numbers_are_one_more_than_the_highest_seen() {
    let (phone, _) = one_piece();
    let mut log = Log::new();
    assert_eq!((log.next_step(), log.next_seq("K7")), (1, 1));
    log.merge(phone.written);
    assert_eq!(
        (log.next_step(), log.next_seq("K7"), log.next_seq("M4")),
        (4, 4, 1)
    );
}

#[test]
fn an_entry_that_could_not_be_read_back_is_not_made() {
    let phone = Phone::seeded("K7", 1);
    let moment = |n| EventMeta {
        id: Id::from_u128(n),
        seq: 1,
        step: 1,
        on: day_of(1),
        on_confirmed: false,
        at: "any text\u{0}".to_owned(),
    };
    let about = Id::from_u128(1);
    let make = |n, event| phone.author.entry(moment(n), about, event);
    for number in [f64::NAN, f64::INFINITY] {
        assert!(make(2, measured(number)).is_err());
    }
    // Where a number may be absent, one that is none would be read back as none.
    let score = Some(f64::NAN);
    let said = make(9, Event::Judged(judged(Decision::Take, score)));
    assert_eq!(
        said.unwrap_err().to_string(),
        "body: a value can't be written down: judged"
    );
    let kind = "made_later".to_owned();
    assert!(make(10, Event::Unknown { kind }).is_err());
    assert!(make(3, measured(f64::MAX)).is_ok());
    assert!(make(3, measured(-0.0)).is_ok());
    let pile = about;
    assert!(
        make(
            4,
            Event::Marked(Marked {
                mark: "1".into(),
                pile
            })
        )
        .is_err()
    );
    assert!(
        make(
            5,
            Event::PileOpened(Box::new(pile_terms(about, wood("ash", "ash"))))
        )
        .is_err()
    );
    let mut terms = visit_terms("North");
    terms.spec.kerf_mm = f64::NAN;
    assert!(make(6, Event::VisitOpened(Box::new(terms))).is_err());
    let text = "x".repeat(100_000);
    let said = make(7, Event::Noted(Noted { text }))
        .unwrap_err()
        .to_string();
    assert!(
        said.starts_with("body.text: a text of 100002 bytes is too long"),
        "{said}"
    );
    let said = phone
        .author
        .correction(moment(8), about, undo(), vec![Id::from_u128(8)]);
    assert!(
        said.unwrap_err()
            .to_string()
            .starts_with("supersedes: it refers to itself")
    );
}
