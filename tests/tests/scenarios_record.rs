//! The record in the yard and after: a phone that dies, two phones, damaged files, a phone that lost its
//! storage. All invented.

use Field::*;
use rust_decimal::Decimal;
use stillwood_core::notebook::{
    Draft, DraftValue, Entry, FileProblem, Happening, Limits, Mark, NotOurs, Notebook, Noted,
    Reading, SpeciesNamed, pairs, read,
};
use stillwood_core::plank::{Field, Line, Seen, TallyRule, describe, tally, understand};
use stillwood_core::quantity::read::Units;
use stillwood_tests::yard::{Phone, line, terms};
use uuid::Uuid;

fn lines(notebook: &Notebook) -> Vec<Line> {
    notebook
        .fold()
        .pieces()
        .map(|piece| line(&piece.mark, &describe(&piece.readings_in_use(), &[])))
        .collect()
}

fn from_file(text: &str) -> Reading {
    read(text.as_bytes(), &Limits::default()).unwrap()
}

fn count(notebook: &Notebook) -> usize {
    notebook.fold().pieces().count()
}

#[test]
fn a_phone_that_dies_in_the_middle_of_a_plank() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    for n in 1..=36 {
        let sizes = [(Length, "8 ft"), (WidthNear, "8 in"), (ThicknessNear, "52")];
        phone.plank(pile, &format!("A{n}"), &sizes);
    }
    let last = [
        (Length, "8 ft"),
        (WidthNear, "13.95 in"),
        (ThicknessNear, "52"),
    ];
    phone.plank(pile, "A37", &last);
    let mut draft = Draft::new(pile, "A38".into(), "2026-10-03T11:00:00+02:00".into());
    for (field, text) in [(Length, "2480"), (WidthNear, "210"), (WidthMiddle, "203")] {
        let text = text.to_owned();
        draft.put(
            field,
            DraftValue {
                text,
                ..DraftValue::default()
            },
        );
    }
    let (kept, half) = (phone.file(), draft.to_json().unwrap());
    drop((phone, draft));

    let opened = Phone::with("K7", {
        let mut notebook = Notebook::new();
        notebook.merge(from_file(&kept).accepted);
        notebook
    });
    let found = tally(&lines(&opened.notebook), &terms(TallyRule::default()));
    assert_eq!(found.lines.len(), 37);
    assert_eq!(found.board_feet.round_dp(6), Decimal::new(4026, 1));
    let draft = Draft::from_json(&half).unwrap();
    assert_eq!(draft.fields_typed(), 3);
    assert_eq!(draft.value(WidthMiddle).unwrap().text, "203");
    assert!(draft.value(WidthFar).is_none());
    assert_eq!((draft.pile, draft.mark.as_str()), (pile, "A38"));
}

/// Two phones on one day in one yard: 24 and 19 planks, five of them the same. Nothing else is alike.
fn two_phones() -> (Phone, Phone) {
    let mut a = Phone::new("K7");
    let mut b = Phone::new("M4");
    let (_, pile_a) = a.pile();
    let (_, pile_b) = b.pile();
    let plank = |phone: &mut Phone, pile, mark: &str, length: u32, width: &str, weight: &str| {
        let length = length.to_string();
        let texts = [
            (Length, length.as_str()),
            (WidthNear, width),
            (ThicknessNear, "52"),
            (WeightWhole, weight),
        ];
        phone.plank(pile, mark, &texts)
    };
    for n in 0..24 {
        plank(
            &mut a,
            pile_a,
            &format!("K7-{n}"),
            2020 + 40 * n,
            "205",
            "19.7",
        );
    }
    for n in 0..5 {
        plank(
            &mut b,
            pile_b,
            &format!("M4-{n}"),
            2020 + 40 * n,
            "204",
            "19.8",
        );
    }
    for n in 5..19 {
        plank(
            &mut b,
            pile_b,
            &format!("M4-{n}"),
            3020 + 40 * n,
            "180",
            "15",
        );
    }
    (a, b)
}

#[test]
fn two_phones_meet_on_a_laptop() {
    let (a, b) = two_phones();
    let (file_a, file_b) = (a.file(), b.file());
    let mut laptops = Vec::new();
    for order in [[&file_a, &file_b], [&file_b, &file_a]] {
        let mut notebook = Notebook::new();
        for file in order {
            let reading = from_file(file);
            assert!(reading.problems.is_empty());
            let preview = notebook.preview(&reading);
            let merged = notebook.merge(reading.accepted);
            assert_eq!((preview.new, merged.altered.len()), (merged.new, 0));
        }
        for file in order {
            let again = from_file(file);
            assert_eq!(notebook.preview(&again).new, 0);
            assert_eq!(notebook.merge(again.accepted).new, 0);
        }
        assert_eq!(count(&notebook), 43);
        assert_eq!(pairs(&notebook.fold()).len(), 5);
        laptops.push(notebook);
    }
    assert_eq!(laptops[0], laptops[1]);
    assert_eq!(laptops[0].to_file("x", "y"), laptops[1].to_file("x", "y"));

    let mut laptop = Phone::with("R2", laptops.swap_remove(0));
    for pair in pairs(&laptop.notebook.fold()) {
        laptop.tell(pair.a, pair.b, true);
    }
    let book = laptop.notebook.fold();
    assert_eq!(book.pieces().count(), 38);
    assert!(pairs(&book).is_empty());
    // Both readings are kept, one is in use.
    let shared = book.pieces().find(|piece| !piece.also.is_empty()).unwrap();
    let weight = &shared.readings[&WeightWhole];
    let mut both: Vec<&str> = weight
        .earlier
        .iter()
        .map(|(_, t)| t.typed.as_str())
        .collect();
    both.push(&weight.taken.typed);
    both.sort_unstable();
    assert_eq!(both, ["19.7", "19.8"]);
    assert_eq!(shared.marks.len(), 2);
    // The other order and the files once more change nothing.
    let told = laptop.file();
    let mut other = Notebook::new();
    for file in [&told, &file_b, &file_a, &told] {
        other.merge(from_file(file).accepted);
    }
    assert_eq!(other, laptop.notebook);
    assert_eq!(count(&other), 38);
}

#[test]
fn a_true_twin_told_different_is_never_offered_again() {
    let (a, b) = two_phones();
    let mut laptop = Phone::with("R2", a.notebook);
    laptop
        .notebook
        .merge(b.notebook.entries().cloned().collect::<Vec<_>>());
    let offered = pairs(&laptop.notebook.fold());
    laptop.tell(offered[0].a, offered[0].b, false);
    let left = pairs(&laptop.notebook.fold());
    assert_eq!(left.len(), 4);
    assert!(
        left.iter()
            .all(|p| (p.a, p.b) != (offered[0].a, offered[0].b))
    );
    let mut elsewhere = Notebook::new();
    elsewhere.merge(from_file(&laptop.file()).accepted);
    assert_eq!(pairs(&elsewhere.fold()).len(), 4);
    assert_eq!(count(&elsewhere), 43);
}

#[test]
fn a_file_read_and_written_again_is_the_same_byte_for_byte() {
    let (a, _) = two_phones();
    let first = a.file();
    let mut laptop = Notebook::new();
    laptop.merge(from_file(&first).accepted);
    assert_eq!(laptop.to_file("0.1.0", "2026-10-03T18:00:00+02:00"), first);
}

/// A stock of 212 planks, and a stranger's file of three to be damaged.
fn stock() -> Notebook {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    for n in 0..212 {
        let length = (2000 + n).to_string();
        phone.plank(pile, &format!("S{n}"), &[(Length, &length)]);
    }
    phone.notebook
}

fn stranger() -> String {
    let mut phone = Phone::new("M4");
    let (visit, pile) = phone.pile();
    for n in 0..3 {
        phone.plank(pile, &format!("T{n}"), &[(Length, "2620")]);
    }
    let text = "for the table".into();
    phone.record(visit, Happening::Noted(Noted { text }));
    phone.file()
}

/// Reads a damaged file beside the stock: nothing of the stock is lost, what is whole is offered, and
/// the damage is told once, with its place.
#[track_caller]
fn damaged(file: &str, says: &[&str]) -> Reading {
    let mut notebook = stock();
    let reading = from_file(file);
    assert!(!reading.problems.is_empty(), "no problem found");
    let told: Vec<String> = reading.problems.iter().map(ToString::to_string).collect();
    for words in says {
        assert!(told[0].contains(words), "{told:?} does not say {words}");
    }
    let before = notebook.clone();
    notebook.preview(&reading);
    assert_eq!(notebook, before);
    notebook.merge(reading.accepted.clone());
    let kept = before.entries().all(|e| notebook.entry(e.id) == Some(e));
    assert!(kept && notebook.damaged().is_empty());
    assert!(count(&notebook) >= 212);
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
    assert!(reading.newer && stock().preview(&reading).newer);
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

/// The next mark of a device: above every number of its own in the record.
fn next_mark(notebook: &Notebook, by: &str) -> Mark {
    let book = notebook.fold();
    let own = book
        .pieces()
        .flat_map(|piece| &piece.marks)
        .filter_map(|text| Mark::parse(text).ok())
        .filter(|mark| mark.device() == by)
        .map(|mark| mark.number());
    Mark::next(by, own.max().unwrap_or(0)).unwrap()
}

#[test]
fn after_storage_is_lost_no_mark_is_given_twice() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let add = |phone: &mut Phone| {
        let mark = next_mark(&phone.notebook, "K7").to_string();
        phone.plank(pile, &mark, &[(Length, "2620")])
    };
    for _ in 0..31 {
        add(&mut phone);
    }
    let exported = phone.file();
    for _ in 0..4 {
        add(&mut phone);
    }
    let on_the_laptop = phone.file();
    let last = next_mark(&phone.notebook, "K7");

    let mut restored = Notebook::new();
    restored.merge(from_file(&exported).accepted);
    assert_eq!(count(&restored), 31);
    let reused = next_mark(&restored, "K7");
    assert!(reused < last);
    // The laptop knows better: once its file is in, the number is above all of them.
    restored.merge(from_file(&on_the_laptop).accepted);
    assert_eq!(count(&restored), 35);
    assert_eq!(next_mark(&restored, "K7"), last);

    // A number used twice all the same is found when the records meet.
    let mut careless = Phone::with("K7", Notebook::new());
    careless.notebook.merge(from_file(&exported).accepted);
    let twin = careless.plank(pile, &reused.to_string(), &[(Length, "2000")]);
    careless.notebook.merge(from_file(&on_the_laptop).accepted);
    let book = careless.notebook.fold();
    let doubled = book.doubled_marks();
    assert_eq!(doubled.len(), 1);
    assert!(doubled[0].pieces.contains(&twin));
    assert!(!book.clones().is_empty());
}

#[test]
fn a_wood_with_only_a_name_is_recorded_and_named_later() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile_of(SpeciesNamed {
        id: None,
        text: "river cherry".into(),
    });
    let piece = phone.plank(pile, "C1", &[(Length, "2620"), (WidthNear, "204")]);
    let named = |phone: &Phone| {
        let book = phone.notebook.fold();
        let piece = book.piece(piece).unwrap().clone();
        book.species_of(&piece).cloned().unwrap()
    };
    assert_eq!(named(&phone).text, "river cherry");
    assert_eq!(named(&phone).id, None);
    let again = from_file(&phone.file());
    assert!(again.problems.is_empty());
}

#[test]
fn nothing_depends_on_the_order_of_arrival() {
    let (a, b) = two_phones();
    let mut entries: Vec<Entry> = a
        .notebook
        .entries()
        .chain(b.notebook.entries())
        .cloned()
        .collect();
    let mut straight = Notebook::new();
    straight.merge(entries.clone());
    entries.reverse();
    let mut turned = Notebook::new();
    turned.merge(entries);
    assert_eq!(straight, turned);
    assert_eq!(straight.fold(), turned.fold());
    assert_eq!(straight.fold().piece(Uuid::nil()), None);
}
