//! Files, whole and broken: what is accepted and what is said of the rest.

use stillwood_tests::invented;

use std::path::{Path, PathBuf};
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{
    ChangedUnderFile, Event, FileReading, FileUnderWay, Header, Limits, Log, NotOurs, Selection,
    read, write,
};

fn tests_folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../tests")
        .join(name)
}

fn open(path: &str) -> Result<FileReading, NotOurs> {
    let bytes = std::fs::read(tests_folder(path)).unwrap();
    read(&bytes, &Limits::default())
}

/// Every broken file, with how many of its entries are accepted and the words of its first problem;
/// `!` before the words where the file is refused as a whole.
#[rustfmt::skip]
const BROKEN: &[(&str, usize, &str)] = &[
    ("a_list", 0, "!JSON of another kind"),
    ("a_picture", 0, "!it is not JSON"),
    ("brackets_without_end", 4, "entry 4 (line 5), body.new: not proper JSON"),
    ("blank_in_itself", 4, "body.members: it refers to itself"),
    ("byte_order_mark", 5, ""),
    ("child_is_its_parent", 4, "entry 5 (line 6), body.children: it refers to itself"),
    ("child_named_twice", 4, "body.children: the same piece is named twice"),
    ("checksum_fails", 4, "entry 4 (line 5), checksum: the line is damaged: its checksum does not fit"),
    ("checksum_in_an_old_version", 4, "entry 4 (line 5), checksum: the line is damaged: it carries a checksum"),
    ("checksum_lost", 4, "entry 4 (line 5), checksum: the line is damaged: it carries no checksum"),
    ("closing_brackets", 0, "entry 1 (line 1), not proper JSON"),
    ("comma_after_the_last", 5, ""),
    ("count_differs", 4, "the header says 5 entries, the file holds 4"),
    ("cut_before_the_end", 5, "cut short after entry 5 of 5"),
    ("cut_between_entries", 3, "cut short after entry 3 of 5 (the header says)"),
    ("cut_in_a_sign", 4, "cut short after entry 4 of 5"),
    ("cut_in_an_entry", 2, "cut short after entry 2 of 5"),
    ("day_beyond_any_shop", 4, "entry 4 (line 5), on: the day 2201-01-01 is outside the years 1900 to 2200"),
    ("day_not_in_the_calendar", 4, "entry 4 (line 5), on: "),
    ("deep_in_what_is_not_known", 4, "entry 1 (line 2), body.new: "),
    ("device_name_too_long", 4, "entry 3 (line 4), by: "),
    ("empty", 0, "!the file is empty"),
    ("header_damaged", 5, "the header can't be read"),
    ("header_missing", 5, "the header can't be read"),
    ("header_without_a_format", 0, "!JSON of another kind"),
    ("id_not_an_id", 4, "entry 4 (line 5), id: "),
    ("kept_until_no_day", 4, "body.until: \"2027-02-30\" stands where a day such as "),
    ("key_missing", 4, "entry 4 (line 5), \"by\" is missing"),
    ("key_twice_deep_down", 4, "the key \"length\" comes twice"),
    ("key_twice_in_a_body", 4, "entry 4 (line 5), body.readings: "),
    ("key_twice_in_an_entry", 4, "the key \"on\" comes twice"),
    ("key_twice_in_what_is_not_known", 4, "the key \"a\" comes twice"),
    ("laid_out_and_cut", 3, "cut short after entry 3 of 5"),
    ("laid_out_and_wrong", 4, "entry 4 (line 136), body.readings.width_near.value: \"8 1/4\" stands where a number should be"),
    ("laid_out_by_another_tool", 5, ""),
    ("line_lost", 4, "entry 3 (line 4), "),
    ("mark_empty", 4, "entry 3 (line 4), body.mark: "),
    ("mark_turned_round", 4, "holds a sign that can't be seen"),
    ("mark_with_a_hidden_sign", 4, "\"K7\\u{200b}-5-P\" holds a sign that can't be seen"),
    ("not_a_number", 4, "entry 4 (line 5), body.readings.width_near.value: "),
    ("not_utf8", 4, "entry 5 (line 6), this is not text (UTF-8)"),
    ("nothing_but_brackets", 0, "entry 1 (line 2), a list stands where an entry should be"),
    ("null_for_a_number", 4, "entry 4 (line 5), body.readings.width_near.value: "),
    ("number_as_text", 4, "entry 4 (line 5), body.readings.width_near.value: "),
    ("number_beyond_any_shop", 4, "entry 4 (line 5), seq: 2199023255552 is beyond"),
    ("number_too_large", 4, "body.readings.width_near.value: a number is too large to be one"),
    ("number_very_large", 5, ""),
    ("on_one_line", 5, ""),
    ("only_white_space", 0, "!the file is empty"),
    ("other_format", 0, "!it says that it is \"somebody-elses\""),
    ("other_json", 0, "!JSON of another kind"),
    ("piece_in_itself", 4, "body.pile: it refers to itself"),
    ("pile_in_itself", 4, "body.visit: it refers to itself"),
    ("price_not_a_price", 4, "entry 2 (line 3), body.price: \"1e999\" stands where "),
    ("price_turned_round", 4, "entry 2 (line 3), body.price: "),
    ("price_with_a_hidden_sign", 4, "entry 2 (line 3), body.price: "),
    ("reason_from_a_newer_version", 5, ""),
    ("reason_not_known", 4, "body.defects.kind: \"moon_shake\" is not known here"),
    ("replaces_itself", 4, "supersedes: it refers to itself"),
    ("same_entry_twice", 5, ""),
    ("same_id_other_entry", 6, "another entry in this file has the same id"),
    ("script_in_names", 5, ""),
    ("something_after_the_end", 5, "something that does not belong to the file"),
    ("sorted_by_another_tool", 5, ""),
    ("step_beyond_any_shop", 4, "entry 4 (line 5), step: 1099511627777 is beyond"),
    ("step_below_nought", 4, "entry 4 (line 5), step: "),
    ("step_too_large", 4, "step: 18446744073709551615 is beyond any number that a workshop reaches"),
    ("two_byte_text", 0, "!UTF-16"),
    ("version_99", 5, ""),
    ("version_99_without_checksum", 0, "checksum: the line is damaged: it carries no checksum, and an entry of version 99 must"),
    ("windows_line_ends", 5, ""),
];

#[test]
fn broken_files_give_what_can_be_read_and_say_the_rest() {
    let mut faults = Vec::new();
    for (name, accepted, words) in BROKEN {
        let (found, said) = match open(&format!("broken/{name}.json")) {
            Ok(reading) => {
                let first = reading.problems.first().map(ToString::to_string);
                (reading.accepted.len(), first.unwrap_or_default())
            }
            Err(error) => (0, format!("!{error}")),
        };
        let fits = match words.strip_prefix('!') {
            Some(words) => said.starts_with('!') && said.contains(words),
            None => said.contains(words) && (words.is_empty() == said.is_empty()),
        };
        if found != *accepted || !fits {
            faults.push(format!("{name}: {found} accepted, said: {said}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_broken_file_is_in_the_list() {
    for file in std::fs::read_dir(tests_folder("broken")).unwrap() {
        let path = file.unwrap().path();
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        assert!(BROKEN.iter().any(|(known, _, _)| *known == name), "{name}");
    }
}

#[test]
fn what_can_be_read_of_a_broken_file_can_be_merged_and_written() {
    for (name, accepted, words) in BROKEN {
        // What can't be read at all stands so in the list.
        let read_at_all = open(&format!("broken/{name}.json"));
        assert_eq!(read_at_all.is_err(), words.starts_with('!'), "{name}");
        if let Ok(reading) = read_at_all {
            let mut log = Log::new();
            let preview = queries::preview(&log, &reading);
            // Each entry is told once; of one that is there with two texts both were accepted.
            let told = preview.new + preview.already_here + 2 * preview.altered.len();
            assert_eq!(told, *accepted, "{name}");
            log.merge(reading.accepted);
            let planks = State::project(&log).planks().count();
            assert_eq!(planks, preview.new_pieces, "{name}");
            let again = read(log.to_file("0", "").as_bytes(), &Limits::default()).unwrap();
            let altered = name.starts_with("same_id_other");
            assert_eq!(
                again.problems.is_empty(),
                !altered,
                "{name}: {:?}",
                again.problems
            );
            let mut back = Log::new();
            back.merge(again.accepted);
            assert_eq!(back, log, "{name}");
        }
    }
}

#[test]
fn the_same_record_in_every_layout() {
    let plain = open("broken/byte_order_mark.json").unwrap();
    for name in [
        "windows_line_ends",
        "laid_out_by_another_tool",
        "on_one_line",
        "sorted_by_another_tool",
        "comma_after_the_last",
    ] {
        let other = open(&format!("broken/{name}.json")).unwrap();
        assert_eq!(other.accepted, plain.accepted, "{name}");
        assert_eq!(other.header, plain.header, "{name}");
    }
}

#[test]
fn a_newer_version_is_said_and_carried_along() {
    let reading = open("broken/version_99.json").unwrap();
    assert!(reading.newer);
    let unknown = &reading.accepted[4];
    assert!(matches!(&unknown.event, Event::Unknown { kind } if kind == "sung_to"));
    assert!(unknown.body().contains("dead"));
    let reading = open("broken/reason_from_a_newer_version.json").unwrap();
    assert!(reading.accepted[3].body().contains("moon_shake"));
}

/// What was ever written must be read for ever, and is written again as it stands: the yard as the
/// first version wrote it, the workshop, a wish, and what is looked at and set for gluing; and entries with
/// checksums, with what came in with them.
#[test]
fn the_samples_of_every_version() {
    let mut kinds = Vec::new();
    for (name, count) in [
        ("notebook-v1.json", 15),
        ("notebook-v1-workshop.json", 25),
        ("notebook-v1-wish.json", 2),
        ("notebook-v1-gluing.json", 3),
        ("notebook-v1-room.json", 1),
        ("notebook-v2.json", 19),
    ] {
        let path = tests_folder(&format!("samples/{name}"));
        let text = std::fs::read_to_string(path).unwrap();
        let reading = read(text.as_bytes(), &Limits::default()).unwrap();
        assert_eq!(reading.problems, []);
        assert!(!reading.newer);
        assert_eq!(reading.accepted.len(), count);
        kinds.extend(reading.accepted.iter().map(|e| e.event.kind().to_owned()));
        assert_eq!(write(&reading.header, &reading.accepted), text);
    }
    for name in Event::NAMES {
        assert!(kinds.iter().any(|kind| kind == name), "{name}");
    }
}

/// Read in one go: a reader that began anew at each sign would not come to an end here.
#[test]
fn hostile_files_are_named() {
    let limits = Limits::default();
    let many = 4 << 20;
    let head = r#"{"header":{"format":"stillwood-notebook"},"entries":["#;
    let note = |text: &str| {
        let lines = std::fs::read_to_string(tests_folder("broken/byte_order_mark.json")).unwrap();
        let line = lines.lines().nth(5).unwrap().to_owned();
        format!("{head}\n{}\n]}}\n", line.replace("rings", text))
    };
    for (file, words) in [
        ("[".repeat(many), "JSON of another kind"),
        ("{\"a\":".repeat(many / 5), "JSON of another kind"),
        (format!("{head}{}", "[".repeat(many)), "cut short"),
        (format!("{head}\n{}", "[".repeat(many)), "cut short"),
        (
            format!("{head}{}", "}".repeat(many)),
            "more than 1000000 entries",
        ),
        (
            format!("{head}\n{}", "}\n".repeat(many / 2)),
            "more than 1000000 entries",
        ),
        (note(&"x".repeat(many)), "body.text: a text of 419"),
        (
            note(&"\\u0000".repeat(many / 6)),
            "body.text: a text of 419",
        ),
    ] {
        let said = match read(file.as_bytes(), &limits) {
            Ok(reading) => {
                assert!(reading.accepted.is_empty());
                let said = reading.problems.iter().map(ToString::to_string);
                format!(
                    "{}{}",
                    said.collect::<Vec<_>>().join("\n"),
                    reading.more_problems
                )
            }
            Err(error) => error.to_string(),
        };
        let shown: String = said.chars().take(300).collect();
        assert!(said.contains(words), "{words}: {shown}");
    }
    let large = vec![b' '; limits.file + 1];
    assert!(matches!(
        read(&large, &limits),
        Err(NotOurs::TooLarge { .. })
    ));
}

#[test]
fn the_same_entries_give_the_same_bytes() {
    let entries = invented::record(200, 3);
    let header = Header::new("0.1.0", "", Selection::Whole);
    let file = write(&header, &entries);
    assert_eq!(write(&header, entries.iter().rev()), file);
    assert_eq!(write(&header, entries.iter().chain(&entries)), file);
    assert!(file.ends_with("\n]}\n"));
    assert_eq!(file.lines().count(), entries.len() + 2);
}

/// A file under way to its end, so many entries at a time.
fn in_pieces(log: &Log, entries: usize) -> Vec<String> {
    let mut file = FileUnderWay::begin(log, "K7-4R9WXHPE2A", "0.1.0", "noon");
    let mut pieces = Vec::new();
    while !file.is_whole() {
        pieces.push(file.go_on(log, entries).unwrap());
        let written = pieces.len().saturating_mul(entries);
        let all = log.everything().count();
        assert_eq!(file.progress(), (written.min(all), all));
    }
    assert_eq!(file.go_on(log, entries).as_deref(), Ok(""), "it is whole");
    pieces
}

/// What is written some entries at a time is, joined, the same file.
#[test]
fn a_long_file_comes_in_pieces_of_whole_lines() {
    let mut log = Log::new();
    log.merge(invented::hostile::checks_of_one_piece(8_000).entries);
    let whole = log.to_file_by("K7-4R9WXHPE2A", "0.1.0", "noon");
    let pieces = in_pieces(&log, 1_000);
    assert!(pieces.len() > 2, "{} bytes in one piece", whole.len());
    // A piece ends with a line, whose comma begins the next one.
    let mut begin = pieces.iter().skip(1);
    assert!(begin.all(|piece| piece.starts_with(",\n") || piece.starts_with("\n]")));
    assert!(pieces.concat() == whole, "the pieces are not the file");
    // Of a record that is empty too.
    let empty = Log::new();
    let whole = empty.to_file_by("K7-4R9WXHPE2A", "0.1.0", "noon");
    assert_eq!(in_pieces(&empty, 10).concat(), whole);
}

/// It holds what was there when it was begun; where that is no longer there, it says so and is no file.
#[test]
fn a_file_under_way_holds_the_record_as_it_was_or_says_that_it_changed() {
    let mut log = Log::new();
    let mut entries = invented::hostile::checks_of_one_piece(40).entries;
    let late = entries.split_off(entries.len() - 5);
    log.merge(entries);
    let whole = log.to_file_by("K7-4R9WXHPE2A", "0.1.0", "noon");
    let begin = |log: &Log| FileUnderWay::begin(log, "K7-4R9WXHPE2A", "0.1.0", "noon");
    let mut file = begin(&log);
    let first = file.go_on(&log, 10).unwrap();
    log.merge(late);
    let rest = file.go_on(&log, usize::MAX).unwrap();
    assert!(file.is_whole() && format!("{first}{rest}") == whole);
    // Another line under an id: both are written by whoever begins after it, and nobody goes on without it.
    let mut file = begin(&log);
    let mut other = log.everything().next().unwrap().clone();
    other.at = "later".to_owned();
    let altered = log.merge([other]).altered;
    assert_eq!(altered.len(), 1, "it is another line");
    assert_eq!(file.go_on(&log, usize::MAX), Err(ChangedUnderFile));
    assert!(!file.is_whole());
    let whole = log.to_file_by("K7-4R9WXHPE2A", "0.1.0", "noon");
    assert_eq!(in_pieces(&log, 7).concat(), whole);
}
