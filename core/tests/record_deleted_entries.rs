//! What was deleted is listed and can be put back for good; a file that is read bit by bit gives what it gives when it
//! is read at once.

use std::borrow::Cow;
use stillwood_core::record::*;
use stillwood_tests::invented::Phone;
use stillwood_tests::invented::bought::yard;

#[test]
fn what_was_deleted_is_listed_and_can_be_put_back() {
    let (mut phone, _, planks) = yard("K7", 5);
    let noted = |text: &str| Event::Noted(Noted { text: text.into() });
    let (first, second) = (planks[0], planks[1]);
    let one = phone.say(first, noted("one"));
    let other = phone.say(second, noted("other"));
    assert_eq!(deleted_entries(&log_of(&phone)), []);
    let deletion = phone.correct(first, Event::Withdrawn(Withdrawn {}), vec![one]);
    phone.correct(second, Event::Withdrawn(Withdrawn {}), vec![other]);
    let log = log_of(&phone);
    let found = deleted_entries(&log);
    let taken: Vec<Id> = found
        .iter()
        .flat_map(|one| one.taken.iter().map(|entry| entry.id))
        .collect();
    assert!(taken.contains(&one) && taken.contains(&other), "{taken:?}");
    // Put back, and it is in the list no more.
    let first_of = |id: Id| {
        found
            .iter()
            .find(|found| found.deletions.iter().any(|entry| entry.id == id))
            .unwrap()
    };
    let by: Vec<Id> = first_of(deletion)
        .deletions
        .iter()
        .map(|entry| entry.id)
        .collect();
    for event in commands::delete::restore(&log, &by).events {
        phone.correct(event.about, event.event, event.supersedes);
    }
    let log = log_of(&phone);
    assert!(
        deleted_entries(&log)
            .iter()
            .all(|found| found.taken.iter().all(|entry| entry.id != one))
    );
    let state = State::project(&log);
    let notes = &state.piece(first).unwrap().history;
    let line = notes.iter().find(|line| line.entry == one).unwrap();
    assert_eq!(line.standing, EventStatus::InForce);
}

fn log_of(phone: &Phone) -> Log {
    let mut log = Log::new();
    for entry in &phone.written {
        log.add(entry.clone());
    }
    log
}

#[test]
fn a_file_that_is_read_bit_by_bit_gives_what_it_gives_at_once() {
    let (phone, _, _) = yard("K7", 7);
    let file = log_of(&phone).to_file("test", "now");
    let cut = &file.as_bytes()[..file.len() * 6 / 10];
    for bytes in [file.as_bytes(), cut] {
        let whole = read(bytes, &Limits::default()).unwrap();
        let mut reader = FileReader::begin(Cow::Borrowed(bytes), Limits::default()).unwrap();
        let (none, of) = reader.progress();
        assert_eq!(none, 0);
        let mut steps = 0;
        while reader.read_some(3) {
            steps += 1;
            assert_eq!(reader.progress(), (3 * steps, of));
        }
        assert!(steps > 1, "{steps}");
        assert_eq!(reader.finish().unwrap(), whole);
    }
    let stopped = FileReader::begin(Cow::Borrowed(b"7".as_slice()), Limits::default());
    assert_eq!(stopped.err(), Some(NotOurs::NotJson));
}
