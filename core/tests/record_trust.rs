//! A record that can't be poisoned: checksums, bounds, different lines under one id, imports undone.

use std::collections::BTreeSet;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Added, Decision, ENTRY_VERSION, Entry, EntryError, Event, ImportUndone, LARGEST_NUMBER, Limits,
    Log, Noted, State, Withdrawn, read, sealed,
};
use stillwood_tests::invented::bought::{lists, yard};
use stillwood_tests::invented::{Phone, judged};

fn limits() -> Limits {
    Limits::default()
}

fn refused(line: &str) -> EntryError {
    Entry::from_json(line, &limits()).expect_err(line).error
}

/// A line changed by hand, with a checksum that fits again.
fn changed(entry: &Entry, from: &str, to: &str) -> Entry {
    let line = entry.to_line();
    assert!(line.contains(from), "{line}: {from}");
    let line = sealed(&line.replacen(from, to, 1)).unwrap();
    Entry::from_json(&line, &limits()).unwrap()
}

/// The same entry as the version before wrote it: without a checksum.
fn old(entry: &Entry) -> Entry {
    let line = entry.to_line();
    let at = line.find(",\"checksum\":\"").unwrap();
    let end = at + ",\"checksum\":\"00000000\"".len();
    let line = format!("{}{}", &line[..at], &line[end..]).replace("\"v\":2", "\"v\":1");
    Entry::from_json(&line, &limits()).unwrap()
}

#[test]
fn a_new_entry_carries_a_checksum_and_must() {
    let (phone, _, _) = yard("K7", 1);
    let entry = &phone.written[2];
    let line = entry.to_line();
    assert_eq!(entry.v, ENTRY_VERSION);
    assert!(line.contains(",\"checksum\":\""), "{line}");
    assert_eq!(sealed(&line).as_deref(), Some(line.as_str()));
    let without = line.replacen("\"checksum\"", "\"chucksum\"", 1);
    assert_eq!(refused(&without), EntryError::ChecksumMissing(2));
    assert_eq!(
        refused(&line.replacen("\"v\":2", "\"v\":0", 1)),
        EntryError::ChecksumUnexpected(0)
    );
    // One of the version before carries none, and gets none.
    let before = old(entry);
    assert!(!before.to_line().contains("checksum"));
    assert_eq!(
        Entry::from_json(&before.to_line(), &limits()).unwrap(),
        before
    );
    assert_eq!(
        refused(&before.to_line().replacen("\"v\":1", "\"v\":3", 1)),
        EntryError::ChecksumMissing(3)
    );
}

#[test]
fn a_line_laid_out_by_another_tool_keeps_its_checksum() {
    let (phone, _, _) = yard("K7", 1);
    for entry in &phone.written {
        let value: serde_json::Value = serde_json::from_str(&entry.to_line()).unwrap();
        let laid_out = serde_json::to_string_pretty(&value).unwrap();
        assert_eq!(Entry::from_json(&laid_out, &limits()).as_ref(), Ok(entry));
        assert_eq!(Entry::from_kept(&laid_out, &limits()).as_ref(), Ok(entry));
    }
}

#[test]
fn what_a_newer_version_adds_is_under_the_checksum_too() {
    let (phone, _, _) = yard("K7", 1);
    for put in ["\"a_new_key\":1.0,\"about\"", "\"zz\":[1e2],\"about\""] {
        let line = phone.written[2].to_line().replacen("\"about\"", put, 1);
        assert_eq!(refused(&line), EntryError::ChecksumFails);
        let line = sealed(&line).unwrap();
        let entry = Entry::from_json(&line, &limits()).unwrap();
        assert_eq!(entry.to_line(), line);
        assert_eq!(
            refused(&line.replacen("zz", "zy", 1).replacen("a_new", "a_now", 1)),
            EntryError::ChecksumFails
        );
    }
}

/// Every bit of every line, one after the other, brought to the device that holds the good copy.
#[test]
fn no_flipped_bit_changes_what_is_held_of_the_new_version() {
    let (phone, _, _) = yard("K7", 3);
    let mut log = Log::new();
    log.merge(phone.written.clone());
    let mut tried = 0;
    for entry in &phone.written {
        let line = entry.to_line();
        for bit in 0..line.len() * 8 {
            let mut bytes = line.clone().into_bytes();
            bytes[bit / 8] ^= 1 << (bit % 8);
            let Ok(flipped) = String::from_utf8(bytes) else {
                continue;
            };
            tried += 1;
            if let Ok(read) = Entry::from_json(&flipped, &limits()) {
                panic!("{flipped} was taken for {}", read.to_line());
            }
        }
    }
    assert!(tried > 20_000);
}

/// Every bit of a line, one after the other, brought to a device that holds the good copy: how many conflicts
/// that makes, and what each takes out of a list.
fn flips_of(line: &str, log: &Log, before: &BTreeSet<String>) -> (u32, Vec<String>) {
    let (mut conflicts, mut lost) = (0, Vec::new());
    for bit in 0..line.len() * 8 {
        let mut bytes = line.as_bytes().to_vec();
        bytes[bit / 8] ^= 1 << (bit % 8);
        let Ok(flipped) = String::from_utf8(bytes) else {
            continue;
        };
        let Ok(entry) = Entry::from_json(&flipped, &limits()) else {
            continue;
        };
        let mut other = log.clone();
        let added = other.add(entry);
        conflicts += u32::from(added == Added::Altered);
        if added != Added::AlreadyHere {
            let after = lists(&State::project(&other));
            let gone: Vec<&String> = before.difference(&after).collect();
            if !gone.is_empty() {
                lost.push(format!("{line}\n{flipped}\n{gone:?}"));
            }
        }
    }
    (conflicts, lost)
}

#[test]
fn no_flipped_bit_takes_anything_of_the_old_version_out_of_a_list() {
    for sample in ["notebook-v1", "notebook-v1-workshop", "notebook-v1-gluing"] {
        let path = format!(
            "{}/../tests/samples/{sample}.json",
            env!("CARGO_MANIFEST_DIR")
        );
        let text = std::fs::read_to_string(path).unwrap();
        let mut log = Log::new();
        log.merge(read(text.as_bytes(), &limits()).unwrap().accepted);
        let before = lists(&State::project(&log));
        let lines = text.lines().filter(|line| line.starts_with("{\"about\""));
        // A thread a line: it is the longest of all tests.
        let found: Vec<(u32, Vec<String>)> = std::thread::scope(|threads| {
            let (log, before) = (&log, &before);
            let flips = |line| threads.spawn(move || flips_of(line, log, before));
            let all: Vec<_> = lines
                .map(|line| flips(line.trim_end_matches(',')))
                .collect();
            all.into_iter().map(|one| one.join().unwrap()).collect()
        });
        let conflicts: u32 = found.iter().map(|one| one.0).sum();
        assert!(conflicts > 100, "{sample}: {conflicts}");
        let lost: Vec<&String> = found.iter().flat_map(|one| &one.1).collect();
        assert!(lost.is_empty(), "{sample}: {} flips: {lost:?}", lost.len());
    }
}

#[test]
fn of_two_whole_lines_one_is_in_force_whatever_came_first_and_the_maker_settles_it() {
    let (phone, _, planks) = yard("K7", 5);
    let good = phone.written[3].clone();
    let other = changed(&good, "\"body\":{", "\"body\":{\"new\":1,");
    let record = |first: &Entry, second: &Entry| {
        let mut log = Log::new();
        let others = phone.written.iter().filter(|one| one.id != good.id);
        log.merge(others.cloned());
        log.merge([first.clone(), second.clone()]);
        log
    };
    let (one, two) = (record(&good, &other), record(&other, &good));
    assert_eq!(one, two);
    assert_eq!(State::project(&one), State::project(&two));
    assert_eq!(one.to_file("0", ""), two.to_file("0", ""));
    assert_eq!(
        one.entry(good.id),
        Some(&good),
        "what is understood goes before"
    );
    assert_eq!(
        State::project(&one).piece(planks[0]).unwrap().history.len(),
        3
    );
    let [conflict] = one.conflicts().try_into().unwrap();
    assert_eq!((conflict.total, conflict.settled), (2, false));
    assert!(one.is_unsettled());
    let differences = conflict.differences();
    assert_eq!(
        differences,
        [("body.new".to_owned(), vec![String::new(), "1".to_owned()])]
    );

    // Settled the other way, in an entry of its own, and settled again.
    let mut told = one.clone();
    for chosen in [1, 1] {
        let (about, event) = told.conflicts()[0].settle(chosen).unwrap();
        let wanted = told.conflicts()[0].variants[chosen].clone();
        let mut laptop = Phone::seeded("R2", 7);
        (laptop.seq, laptop.step) = (told.next_seq("R2") - 1, told.next_step() - 1);
        laptop.say(about, event);
        told.merge(laptop.written);
        assert!(told.conflicts()[0].settled);
        assert!(!told.is_unsettled());
        assert_eq!(told.entry(good.id), Some(&wanted));
    }
    // The file carries both lines and what was settled.
    let mut elsewhere = Log::new();
    elsewhere.merge(
        read(told.to_file("0", "").as_bytes(), &limits())
            .unwrap()
            .accepted,
    );
    assert_eq!(elsewhere, told);
    assert_eq!(elsewhere.entry(good.id), told.entry(good.id));
}

#[test]
fn many_lines_under_one_id_are_kept_counted_and_shown_a_few_at_a_time() {
    let (phone, _, _) = yard("K7", 5);
    let good = phone.written[2].clone();
    let mut log = Log::new();
    log.merge(phone.written.clone());
    for n in 0..500 {
        let at = format!("\"at\":\"{n} ");
        log.add(changed(&good, "\"at\":\"", &at));
    }
    let [conflict] = log.conflicts().try_into().unwrap();
    assert_eq!(conflict.total, 501);
    assert_eq!(
        conflict.variants.len(),
        stillwood_core::record::VARIANTS_SHOWN
    );
    assert_eq!(conflict.variants[0], &good);
    assert_eq!(log.len(), phone.written.len());
    assert_eq!(log.everything().count(), phone.written.len() + 500);
}

#[test]
fn numbers_and_days_that_no_shop_reaches_are_refused_in_a_file() {
    let (phone, _, _) = yard("K7", 5);
    let entry = &phone.written[3];
    let line = entry.to_line();
    let with = |from: &str, to: &str| sealed(&line.replacen(from, to, 1)).unwrap();
    let seq = format!("\"seq\":{}", entry.seq);
    let step = format!("\"step\":{}", entry.step);
    for key in [&seq, &step] {
        let name = key.split(':').next().unwrap();
        let last = with(key, &format!("{name}:{LARGEST_NUMBER}"));
        assert!(Entry::from_json(&last, &limits()).is_ok());
        for beyond in [LARGEST_NUMBER + 1, (1 << 53) - 1, u64::MAX] {
            let far = with(key, &format!("{name}:{beyond}"));
            assert_eq!(refused(&far), EntryError::CountTooLarge(beyond));
        }
    }
    let day = format!("\"on\":\"{}\"", entry.on);
    for (year, read) in [
        ("1899-12-31", false),
        ("1900-01-01", true),
        ("2200-12-31", true),
        ("2201-01-01", false),
    ] {
        let line = with(&day, &format!("\"on\":\"{year}\""));
        assert_eq!(Entry::from_json(&line, &limits()).is_ok(), read, "{year}");
    }
}

/// What an earlier version let in stays, comes last, is listed, and moves nobody's clock.
#[test]
fn what_is_stored_with_damaged_numbering_never_sets_the_clock() {
    let (mut phone, pile, planks) = yard("K7", 5);
    let far = |entry: &Entry, step: u64, seq: u64| {
        let line = old(entry).to_line();
        let line = line
            .replacen(
                &format!("\"step\":{}", entry.step),
                &format!("\"step\":{step}"),
                1,
            )
            .replacen(
                &format!("\"seq\":{}", entry.seq),
                &format!("\"seq\":{seq}"),
                1,
            );
        Entry::from_kept(&line, &limits()).unwrap()
    };
    let mut hostile = Phone::seeded("XX", 9);
    hostile.say(planks[0], Event::Judged(judged(Decision::Leave, None)));
    hostile.say(pile, Event::Noted(Noted { text: "far".into() }));
    let poison = [
        far(&hostile.written[0], (1 << 53) - 1, 1),
        far(&hostile.written[1], 1 << 41, 1 << 50),
    ];
    let mut log = Log::new();
    log.merge(phone.written.clone());
    let (step, seq) = (log.next_step(), log.next_seq("K7"));
    log.merge(poison.clone());
    assert_eq!((log.next_step(), log.next_seq("K7")), (step, seq));
    assert_eq!(log.next_seq("XX"), 1);
    assert_eq!(log.damaged_numbering().len(), 2);
    let state = State::project(&log);
    assert_eq!(
        state.piece(planks[0]).unwrap().decision(),
        Some(Decision::Leave)
    );
    assert_eq!(state.pile(pile).unwrap().notes.len(), 1);
    assert!(
        queries::missing_runs(&state).is_empty(),
        "{:?}",
        queries::missing_runs(&state)
    );

    // The maker's own entries afterwards are honest work: they are read everywhere, and what puts the
    // poison right counts.
    (phone.seq, phone.step) = (seq - 1, step - 1);
    phone.correct(
        planks[0],
        Event::Withdrawn(Withdrawn {}),
        vec![poison[0].id],
    );
    let own = phone.written.last().unwrap().clone();
    assert_eq!(
        Entry::from_json(&own.to_line(), &limits()).as_ref(),
        Ok(&own)
    );
    log.add(own);
    let state = State::project(&log);
    assert_eq!(
        state.piece(planks[0]).unwrap().decision(),
        Some(Decision::Take)
    );

    // An import with such entries is undone as any other.
    let undo = ImportUndone {
        brought: [poison[1].id].into_iter().collect(),
        name: "far.json".into(),
    };
    let about = phone.id();
    phone.say(about, Event::ImportUndone(Box::new(undo)));
    log.add(phone.written.last().unwrap().clone());
    assert_eq!(State::project(&log).pile(pile).unwrap().notes.len(), 0);
}

/// A step at the very end of what is read: the next one is still written, read, and in its order.
#[test]
fn a_clock_pushed_to_its_end_stops_nobody() {
    let (mut phone, _, planks) = yard("K7", 5);
    let mut hostile = Phone::seeded("XX", 9);
    hostile.say(planks[0], Event::Noted(Noted { text: "far".into() }));
    let far = changed(
        &hostile.written[0],
        "\"step\":1",
        &format!("\"step\":{LARGEST_NUMBER}"),
    );
    let mut log = Log::new();
    log.merge(phone.written.clone());
    log.add(far);
    let mut last = None;
    for n in 0..20 {
        (phone.seq, phone.step) = (log.next_seq("K7") - 1, log.next_step() - 1);
        let text = format!("note {n}");
        let replaced = last.into_iter().collect();
        last = Some(phone.correct(planks[0], Event::Noted(Noted { text }), replaced));
        let own = phone.written.last().unwrap();
        assert_eq!(
            Entry::from_json(&own.to_line(), &limits()).as_ref(),
            Ok(own)
        );
        log.add(own.clone());
        let notes: Vec<String> = State::project(&log)
            .piece(planks[0])
            .unwrap()
            .notes
            .iter()
            .map(|note| note.text.clone())
            .collect();
        assert!(
            notes.contains(&format!("note {n}")) && notes.len() == 2,
            "{notes:?}"
        );
    }
}

#[test]
fn a_mark_at_its_end_leaves_the_next_plank_a_name() {
    let (mut phone, pile, _) = yard("K7", 5);
    let last = (900_000..=999_999)
        .rev()
        .find_map(|n| stillwood_core::record::Mark::next("K7", n - 1).ok());
    let mark = last.unwrap().to_string();
    let piece = phone.id();
    phone.say(
        piece,
        Event::Marked(stillwood_core::record::Marked { mark, pile }),
    );
    let mut log = Log::new();
    log.merge(phone.written.clone());
    let mut given = BTreeSet::new();
    for _ in 0..5 {
        let mark = log.next_mark("K7", &[]).unwrap().to_string();
        assert!(given.insert(mark.clone()));
        assert!(
            queries::pieces_with_mark(&State::project(&log), &mark).is_empty(),
            "{mark}"
        );
        let piece = phone.id();
        phone.say(
            piece,
            Event::Marked(stillwood_core::record::Marked { mark, pile }),
        );
        log.merge([phone.written.last().unwrap().clone()]);
    }
}
