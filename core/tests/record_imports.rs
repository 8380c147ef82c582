//! Imports undone as a whole, marks given twice, devices that share a sign.

use std::collections::BTreeSet;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Decision, DeviceRenamed, Entry, EntryIds, Event, EventStatus, ImportUndone, Limits, Log, Noted,
    State, Withdrawn, read, sealed,
};
use stillwood_tests::invented::Phone;
use stillwood_tests::invented::bought::{lists, yard};

fn limits() -> Limits {
    Limits::default()
}

/// A line changed by hand, with a checksum that fits again.
fn changed(entry: &Entry, from: &str, to: &str) -> Entry {
    let line = entry.to_line();
    assert!(line.contains(from), "{line}: {from}");
    let line = sealed(&line.replacen(from, to, 1)).unwrap();
    Entry::from_json(&line, &limits()).unwrap()
}

fn undo(log: &Log, phone: &mut Phone, brought: EntryIds) -> Id {
    (phone.seq, phone.step) = (log.next_seq("K7") - 1, log.next_step() - 1);
    let about = phone.id();
    let undone = ImportUndone {
        brought,
        name: "from-the-other-phone.json".into(),
    };
    phone.say(about, Event::ImportUndone(Box::new(undone)))
}

#[test]
fn an_import_is_undone_as_a_whole_and_put_back() {
    let (mut phone, _, planks) = yard("K7", 5);
    let (mut other, _, theirs) = yard("M4", 6);
    // Theirs also corrects one of ours.
    other.step = 100;
    other.correct(
        planks[0],
        Event::Withdrawn(Withdrawn {}),
        vec![phone.written[4].id],
    );
    let mut log = Log::new();
    log.merge(phone.written.clone());
    let before = State::project(&log);
    let reading = read(
        {
            let mut file = Log::new();
            file.merge(other.written.clone());
            file.to_file("0", "")
        }
        .as_bytes(),
        &limits(),
    )
    .unwrap();
    let brought: EntryIds = reading.accepted.iter().map(|entry| entry.id).collect();
    log.merge(reading.accepted.clone());
    let with = State::project(&log);
    assert_eq!(with.piece(planks[0]).unwrap().decision(), None);

    // What was recorded since about what it brought is listed first.
    (phone.seq, phone.step) = (log.next_seq("K7") - 1, log.next_step() - 1);
    let note = phone.say(
        theirs[0],
        Event::Noted(Noted {
            text: "since".into(),
        }),
    );
    log.merge(phone.written.iter().cloned());
    let since: Vec<Id> = log
        .recorded_since(&brought)
        .iter()
        .map(|entry| entry.id)
        .collect();
    assert_eq!(since, [note]);

    let said = undo(&log, &mut phone, brought.clone());
    let (entries, step) = (log.len(), log.next_step());
    log.merge(phone.written.iter().cloned());
    assert_eq!((log.len(), log.next_step()), (entries + 1, step + 1));
    let state = State::project(&log);
    assert_eq!(lists(&state), lists(&before));
    assert_eq!(
        state.piece(planks[0]).unwrap().decision(),
        Some(Decision::Take)
    );
    assert!(state.piece(theirs[0]).unwrap().withdrawn);
    assert_eq!(state.undone_by(other.written[0].id), Some(said));
    let line = state.piece(theirs[0]).unwrap().history[0];
    assert_eq!(line.standing, EventStatus::Undone { by: said });

    // The same file once more asks, and taking the undoing back puts all of it in force again.
    let preview = queries::preview(&log, &reading);
    assert_eq!(
        (preview.new, preview.undone.as_slice()),
        (0, [said].as_slice())
    );
    (phone.seq, phone.step) = (log.next_seq("K7") - 1, log.next_step() - 1);
    let about = log.entry(said).unwrap().about;
    phone.correct(about, Event::Withdrawn(Withdrawn {}), vec![said]);
    log.merge(phone.written.iter().cloned());
    assert_eq!(lists(&State::project(&log)), lists(&with));
    assert!(queries::preview(&log, &reading).undone.is_empty());
    // And undone a second time.
    undo(&log, &mut phone, brought);
    log.merge(phone.written.iter().cloned());
    assert_eq!(lists(&State::project(&log)), lists(&before));
    // In any order of arrival.
    let mut back: Vec<Entry> = log.entries().cloned().collect();
    back.reverse();
    assert_eq!(State::project_entries(&back), State::project(&log));
}

/// What is found in an imported pile since, and all that is said of it, hangs on the import.
#[test]
fn piles_and_planks_found_in_what_an_import_brought_are_listed() {
    let mut other = Phone::new("M4");
    let (visit, pile) = other.pile();
    let mut phone = Phone::with("K7", other.log());
    let brought: EntryIds = other.written.iter().map(|entry| entry.id).collect();
    let plank = phone.mark(pile);
    phone.measure(plank, stillwood_core::plank::Readings::new());
    let own = phone.open_pile(visit, "ash");
    let (_, elsewhere) = phone.pile();
    phone.mark(elsewhere);
    phone.mark(own);
    let log = phone.log();
    let since = log.recorded_since(&brought);
    let about: Vec<Id> = since.iter().map(|entry| entry.about).collect();
    assert_eq!(about[..3], [plank, plank, own]);
    assert_eq!(about.len(), 4);
}

/// Two undoings that name each other: the later counts, nothing goes round in a circle.
#[test]
fn undoings_that_name_each_other_end() {
    let (mut phone, pile, _) = yard("K7", 5);
    let mut log = Log::new();
    let (first, second) = (Id::from_u128(71), Id::from_u128(72));
    log.merge(phone.written.clone());
    let brought = |ids: &[Id]| ids.iter().copied().collect::<EntryIds>();
    let one = undo(
        &log,
        &mut phone,
        brought(&[second, log.entries().last().unwrap().id]),
    );
    log.merge(phone.written.iter().cloned());
    undo(&log, &mut phone, brought(&[one, first]));
    log.merge(phone.written.iter().cloned());
    let state = State::project(&log);
    assert!(state.undone_by(one).is_some());
    assert!(!state.pile(pile).unwrap().withdrawn);
}

#[test]
fn an_undoing_of_many_entries_is_one_entry_and_is_read_again() {
    let mut phone = Phone::seeded("K7", 4);
    let brought: EntryIds = (0..40_000_u128).map(|n| Id::from_u128(n * 977)).collect();
    let id = undo(&Log::new(), &mut phone, brought.clone());
    let entry = phone.written.iter().find(|entry| entry.id == id).unwrap();
    let read = Entry::from_json(&entry.to_line(), &limits()).unwrap();
    let Event::ImportUndone(undone) = &read.event else {
        panic!("{}", read.event.kind());
    };
    assert_eq!(undone.brought, brought);
}

#[test]
fn marks_given_twice_are_told_apart_wherever_they_are_shown() {
    let (phone, _, planks) = yard("K7", 5);
    let (twin, _, others) = yard("K7", 6);
    let mut log = Log::new();
    log.merge(phone.written.iter().cloned());
    log.merge(twin.written.iter().cloned());
    let state = State::project(&log);
    assert_eq!(queries::doubled_marks(&state).len(), 4);
    let mut shown = BTreeSet::new();
    for id in planks.iter().chain(&others) {
        let piece = state.piece(*id).unwrap();
        assert!(shown.insert(piece.mark.clone()), "{}", piece.mark);
    }
    assert_eq!(
        shown.iter().filter(|mark| mark.ends_with(" (2)")).count(),
        4
    );
    // Both are found by what stands on the wood.
    let mark = state
        .piece(planks[0])
        .unwrap()
        .marks
        .first()
        .unwrap()
        .clone();
    assert_eq!(queries::pieces_with_mark(&state, &mark).len(), 2);
}

#[test]
fn two_devices_with_one_sign_are_told() {
    let (one, _, _) = yard("K7", 5);
    let (two, _, _) = yard("K7", 6);
    let told_as = |phone: &Phone, by: &str| -> Vec<Entry> {
        let again = |entry: &Entry| {
            let from = format!("\"by\":\"{}\"", entry.by);
            changed(entry, &from, &format!("\"by\":\"{by}\""))
        };
        phone.written.iter().map(again).collect()
    };
    let mut log = Log::new();
    log.merge(told_as(&one, "K7-AAAAAAAAAA"));
    log.merge(told_as(&two, "K7-BBBBBBBBBB"));
    let [shared] = queries::shared_signs(&State::project(&log))
        .try_into()
        .unwrap();
    assert_eq!((shared.sign.as_str(), shared.devices.len()), ("K7", 2));
    // One that only goes on under a new identity is no other device.
    let mut laptop = Phone::seeded("R2", 8);
    laptop.step = log.next_step();
    let about = laptop.id();
    let renamed = DeviceRenamed {
        by: "K7-BBBBBBBBBB".into(),
        formerly: vec!["K7-AAAAAAAAAA".into()],
        name: "The phone".into(),
    };
    laptop.say(about, Event::DeviceRenamed(Box::new(renamed)));
    log.merge(laptop.written);
    let state = State::project(&log);
    assert!(queries::shared_signs(&state).is_empty());
    assert_eq!(queries::device_shown(&state, "K7-BBBBBBBBBB"), "The phone");
    assert_eq!(queries::device_shown(&state, "K7-AAAAAAAAAA"), "K7");
}
