//! Damaged and hostile files: what is whole is offered, what is not is told once with its place, and
//! nothing of the stock is lost. All invented.

use Field::*;
use stillwood_core::plank::{Field, Seen, understand};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::queries;
use stillwood_core::record::{Event, FileProblem, FileReading, Limits, Log, NotOurs, Noted, read};
use stillwood_tests::yard::{Phone, count, from_file};

/// A stock of 212 planks, and a stranger's file of three to be damaged.
fn stock() -> Log {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    for n in 0..212 {
        let length = (2000 + n).to_string();
        phone.plank(pile, &format!("S{n}"), &[(Length, &length)]);
    }
    phone.log()
}

fn stranger() -> String {
    let mut phone = Phone::new("M4");
    let (visit, pile) = phone.pile();
    for n in 0..3 {
        phone.plank(pile, &format!("T{n}"), &[(Length, "2620")]);
    }
    let text = "for the table".into();
    phone.say(visit, Event::Noted(Noted { text }));
    phone.file()
}

/// Reads a damaged file beside the stock: nothing of the stock is lost, what is whole is offered, and
/// the damage is told once, with its place.
#[track_caller]
fn damaged(file: &str, says: &[&str]) -> FileReading {
    let mut log = stock();
    let reading = from_file(file);
    assert!(!reading.problems.is_empty(), "no problem found");
    let told: Vec<String> = reading.problems.iter().map(ToString::to_string).collect();
    for words in says {
        assert!(told[0].contains(words), "{told:?} does not say {words}");
    }
    let before = log.clone();
    queries::preview(&log, &reading);
    assert_eq!(log, before);
    log.merge(reading.accepted.clone());
    let kept = before.entries().all(|e| log.entry(e.id) == Some(e));
    assert!(kept && log.conflicts().is_empty());
    assert!(count(&log) >= 212);
    reading
}

/// The file with one piece of its text put in place of another, once.
fn with(find: &str, put: &str) -> String {
    let file = stranger();
    assert!(file.contains(find), "{find}");
    file.replacen(find, put, 1)
}

#[test]
fn damage_in_one_entry_leaves_the_others() {
    let whole = from_file(&stranger()).accepted.len();
    for (file, says) in [
        (
            with("\"price\":\"14.50\"", "\"price\":1e999"),
            vec!["price"],
        ),
        (
            with("\"price\":\"14.50\"", "\"price\":NaN"),
            vec!["not proper JSON"],
        ),
        (
            with("\"value\":2620", "\"value\":\"2620<script>\""),
            vec!["value"],
        ),
        (
            with("\"by\":\"M4\"", "\"by\":\"M4\",\"by\":\"M4\""),
            vec!["by"],
        ),
        (
            with("\"mark\":\"T0\"", "\"mark\":\"T\u{202e}0\""),
            vec!["mark", "can't be seen"],
        ),
        (
            with("\"mark\":\"T0\"", "\"mark\":\"T\u{200b}0\""),
            vec!["mark", "can't be seen"],
        ),
    ] {
        let reading = damaged(&file, &says);
        assert_eq!(reading.accepted.len(), whole - 1, "{says:?}");
        assert_eq!(reading.problems.len(), 1, "{:?}", reading.problems);
        assert!(reading.problems[0].entry.is_some() && reading.problems[0].line > 1);
    }
}

#[test]
fn a_note_of_40_megabytes_is_refused_by_its_size() {
    let long = "x".repeat(40 << 20);
    let reading = damaged(&with("for the table", &long), &["too long"]);
    assert_eq!(reading.problems.len(), 1);
}

#[test]
fn a_piece_that_lies_in_itself() {
    let file = stranger();
    let entry = |line: &&str| line.contains("\"happening\":\"marked\"");
    let line = file.lines().find(entry).unwrap();
    let id_after = |key: &str| {
        let at = line.find(key).unwrap() + key.len();
        &line[at..at + 36]
    };
    let (about, pile) = (id_after("\"about\":\""), id_after("\"pile\":\""));
    let broken = file.replace(line, &line.replace(pile, about));
    damaged(&broken, &["itself"]);
}

#[test]
fn a_file_cut_short_gives_what_is_whole() {
    let file = stranger();
    let all = from_file(&file).accepted.len();
    let mut cut = file.len() * 6 / 10;
    while !file.is_char_boundary(cut) {
        cut -= 1;
    }
    let reading = damaged(&file[..cut], &["cut short after entry"]);
    assert!(matches!(
        reading.problems[0].what,
        FileProblem::CutShort { of: Some(_), .. }
    ));
    assert!(!reading.accepted.is_empty() && reading.accepted.len() < all);
}

#[test]
fn a_newer_file_says_so_and_a_photo_is_no_file() {
    let newer = with("\"version\":1", "\"version\":99");
    let reading = from_file(&newer);
    assert!(reading.newer && queries::preview(&stock(), &reading).newer);
    let limits = Limits::default();
    let photo = b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01";
    assert_eq!(read(photo, &limits), Err(NotOurs::NotJson));
    let said = read(b"\x89PNG\r\n\x1a\n", &limits).unwrap_err().to_string();
    assert!(said.contains("not a Stillwood file"), "{said}");
    assert!(matches!(
        read(with("stillwood-notebook", "else").as_bytes(), &limits),
        Err(NotOurs::OtherFormat(_))
    ));
}

#[test]
fn hidden_signs_in_a_number_are_not_read() {
    for text in ["26\u{202e}20", "2\u{200b}620", "\u{feff}2620"] {
        let echo = understand(Length, text, Seen::Measured, false, Units::Metric);
        assert!(echo.taken().is_none(), "{text:?}");
    }
}
