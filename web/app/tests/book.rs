//! Save and share, what is to be settled, settings and quick questions: open, press, type, read.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use serde_json::Value;
use stillwood_app::book::{self, Persistence, Storage, VersionFound};
use stillwood_app::desk::Desk;
use stillwood_app::effect::FileMade;
use stillwood_app::record::Device;
use stillwood_app::settings::{Scheme, Settings};
use stillwood_app::{Action, Effect, Route};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{HandingEnd, KeptElsewhere, Limits, read, sealed};

const DAY: &str = "2026-11-20";
const SAMPLE: &[u8] = include_bytes!("../../../demo-data/two-yards.json");

/// A device that holds the sample as its own record, by the name of the phone that was in both yards.
fn phone() -> Desk {
    ready(Desk::with_file(SAMPLE, DAY).unwrap())
}

/// A device that holds nothing.
fn empty() -> Desk {
    ready(Desk::new(DAY))
}

fn laptop() -> Desk {
    let mut desk = empty();
    desk.model.record.becomes(Device {
        id: "M4-7T2KXQWE8B".into(),
        sign: "M4".into(),
    });
    desk.act(Action::Wide(true));
    desk.model.shell.can_share = false;
    desk
}

fn ready(mut desk: Desk) -> Desk {
    desk.model.shell.can_share = true;
    desk.model.shell.version = "0.11.0".into();
    desk.act(Action::Book(book::Action::Kept(KeptElsewhere::default())));
    desk
}

fn text(file: &FileMade) -> String {
    String::from_utf8(file.bytes.clone()).unwrap()
}

fn entries(file: &FileMade) -> usize {
    read(&file.bytes, &Limits::default())
        .unwrap()
        .accepted
        .len()
}

fn press(desk: &mut Desk, says: &str) {
    assert!(desk.press(says), "nothing says “{says}”:\n{}", desk.reads());
}

fn reads(desk: &Desk, says: &str) {
    let read = desk.reads();
    assert!(read.contains(says), "“{says}” does not stand here:\n{read}");
}

fn reads_not(desk: &Desk, says: &str) {
    let read = desk.reads();
    assert!(!read.contains(says), "“{says}” stands here:\n{read}");
}

/// The lines of the sample that one device wrote, or that begin with its visits: a file of its own.
fn lines_of(keep: impl Fn(&Value) -> bool) -> Vec<u8> {
    let sample = std::str::from_utf8(SAMPLE).unwrap();
    let lines = sample.lines().map(|line| line.trim_end_matches(','));
    let kept = lines.filter(|line| line.starts_with("{\"about\""));
    let kept: Vec<&str> = kept
        .filter(|line| keep(&serde_json::from_str(line).unwrap()))
        .collect();
    file_of(&kept)
}

fn file_of<T: AsRef<str>>(lines: &[T]) -> Vec<u8> {
    let head = r#"{"header":{"format":"stillwood-notebook","reader":1,"version":1,"what":"whole"},"entries":["#;
    let lines: Vec<&str> = lines.iter().map(AsRef::as_ref).collect();
    format!("{head}\n{}\n]}}\n", lines.join(",\n")).into_bytes()
}

/// An entry of the sample, changed and sealed again.
fn changed(happening: &str, from: &str, to: &str) -> String {
    let sample = std::str::from_utf8(SAMPLE).unwrap();
    let mut lines = sample.lines().map(|line| line.trim_end_matches(','));
    let named = format!("\"happening\":\"{happening}\"");
    let line = lines
        .find(|line| line.contains(&named) && line.contains(from))
        .unwrap();
    sealed(&line.replacen(from, to, 1)).unwrap()
}

#[test]
fn the_book_leads_to_all_that_it_holds_in_one_press() {
    let mut desk = phone();
    desk.go(Route::Book);
    reads(&desk, "53 planks stand on this phone only.");
    for (says, route) in [
        ("Save and share", Route::Share),
        ("To settle", Route::Settle),
        ("Track record", Route::TrackRecord),
        ("Plan", Route::Plan),
        ("Quick questions", Route::QuickQuestions),
        ("Woods", Route::Woods),
        ("Settings", Route::Settings),
        ("Cautions and sources", Route::About),
    ] {
        press(&mut desk, says);
        assert_eq!(desk.model.route, route, "{says}");
        desk.act(Action::Back);
        assert_eq!(desk.model.route, Route::Book);
    }
}

#[test]
fn the_visit_for_the_laptop_takes_two_presses() {
    let mut desk = phone();
    desk.go(Route::Book);
    press(&mut desk, "Save and share");
    press(&mut desk, "Share the visit");
    let file = desk.files.last().expect("a file");
    assert_eq!(file.name, "stillwood-plumlatch-lumber-2026-11-20.json");
    let reading = read(&file.bytes, &Limits::default()).unwrap();
    assert_eq!(reading.header.by.as_deref(), Some("K7-4R9WXHPE2A"));
    assert!(reading.problems.is_empty());
    let visits = reading
        .accepted
        .iter()
        .filter(|one| matches!(one.event, stillwood_core::record::Event::VisitOpened(_)));
    assert_eq!(visits.count(), 1, "one visit, and no other");
    assert!(entries(file) < 877);
}

#[test]
fn another_visit_can_be_chosen() {
    let mut desk = phone();
    desk.go(Route::Share);
    let other = desk
        .model
        .state()
        .visits()
        .next()
        .map(|visit| (visit.id, visit.opened.yard.clone()))
        .unwrap();
    desk.type_into("which visit", &other.0.to_string());
    press(&mut desk, "Share the visit");
    assert!(text(desk.files.last().unwrap()).contains(&other.1));
    assert!(text(desk.files.last().unwrap()).contains(&other.0.to_string()));
}

#[test]
fn a_file_in_the_downloads_is_not_elsewhere_and_one_that_was_shared_is_handed_over() {
    let mut desk = phone();
    desk.go(Route::Share);
    reads(&desk, "Last saved: never.");
    press(&mut desk, "Save to downloads");
    reads(&desk, "53 planks stand on this phone only.");
    reads(
        &desk,
        "Last saved: 2026-11-20. A file in this device's downloads is not elsewhere.",
    );
    // Called off, or failed: nothing was handed over.
    for (end, says) in [
        (HandingEnd::Cancelled, ""),
        (
            HandingEnd::Failed,
            "It could not be handed over (the device is busy).",
        ),
    ] {
        let mut desk = phone();
        desk.go(Route::Share);
        desk.handing_ends = Some(end);
        press(&mut desk, "Share the record");
        reads(&desk, "Last saved: never.");
        reads(&desk, says);
        reads_not(&desk, "It is on the laptop");
        assert!(!desk.settings.contains_key("kept_elsewhere"), "{end:?}");
    }
    press(&mut desk, "Share the record");
    assert_eq!(entries(desk.files.last().unwrap()), 877);
    reads(&desk, "Handed over on 2026-11-20.");
    reads(&desk, "53 planks stand on this phone only.");
    reads(&desk, "Has the laptop got the file?");
    press(&mut desk, "It is on the laptop");
    reads(&desk, "Everything here is kept elsewhere too.");
    let kept: KeptElsewhere = serde_json::from_str(&desk.settings["kept_elsewhere"]).unwrap();
    assert_eq!(kept.entries.count(), 877, "it is kept on the device");
}

#[test]
fn what_another_window_noted_is_joined() {
    let mut desk = phone();
    desk.go(Route::Share);
    press(&mut desk, "Share the record");
    press(&mut desk, "It is on the laptop");
    let noted = desk.model.shell.kept.clone().unwrap();
    let mut other = phone();
    other.go(Route::Share);
    other.act(Action::Book(book::Action::Kept(noted)));
    reads(&other, "Everything here is kept elsewhere too.");
}

#[test]
fn its_own_file_says_nothing_and_the_laptops_file_shows_what_is_kept_elsewhere() {
    let mut here = phone();
    here.go(Route::Share);
    press(&mut here, "Share the record");
    let own = here.files.last().unwrap().clone();
    here.open_file("own.json", &own.bytes);
    reads(&here, "Here already\n877");
    let key = here
        .pressables()
        .into_iter()
        .find(|one| one.says == "Nothing new")
        .expect("the key");
    assert!(key.disabled);
    press(&mut here, "Leave it");
    reads(&here, "53 planks stand on this phone only.");

    let mut there = laptop();
    there.go(Route::Share);
    there.open_file("phone.json", &own.bytes);
    reads(&there, "New planks\n53");
    reads(&there, "New entries\n877");
    press(&mut there, "Bring in");
    reads(&there, "phone.json: 877 entries, 53 planks.");
    reads(&there, "Everything here is kept elsewhere too.");
    press(&mut there, "Save to downloads");
    there.type_into("which visit", "");
    there.act(book::share::Action::Save(book::share::What::Whole));
    let back = there.files.last().unwrap().clone();
    let body = |file: &FileMade| text(file).split_once("\"entries\":").unwrap().1.to_owned();
    assert_eq!(body(&back), body(&own), "byte for byte");

    here.open_file("laptop.json", &back.bytes);
    press(&mut here, "Note that 877 entries are kept there");
    reads(&here, "877 entries count as kept elsewhere now.");
    reads(&here, "Everything here is kept elsewhere too.");
}

#[test]
fn the_sample_workshop_is_not_said_to_stand_on_this_phone_only() {
    let mut desk = phone();
    desk.model.shell.sample = true;
    desk.go(Route::Share);
    reads(&desk, "This is the sample workshop. It needs no saving.");
    reads_not(&desk, "stand on this phone only");
    press(&mut desk, "Share the record");
    assert!(
        desk.files
            .last()
            .unwrap()
            .name
            .starts_with("stillwood-sample-")
    );
    assert!(!desk.settings.contains_key("kept_elsewhere"));
}

#[test]
fn a_foreign_file_is_named_and_changes_nothing() {
    let mut desk = empty();
    desk.go(Route::Share);
    for (name, bytes) in [
        ("foreign.json", b"{\"planks\": [1, 2, 3]}".to_vec()),
        ("photo.jpg", b"\xff\xd8\xff\xe0 0123456789".to_vec()),
        ("empty.json", Vec::new()),
    ] {
        desk.open_file(name, &bytes);
        reads(&desk, name);
        reads(&desk, "This can't be brought in:");
        reads(&desk, "Nothing has changed.");
        press(&mut desk, "Put it away");
        reads_not(&desk, name);
    }
    assert!(desk.model.record.log().is_empty());
}

#[test]
fn what_is_damaged_is_told_with_its_place_and_what_is_whole_comes_in() {
    let sample = std::str::from_utf8(SAMPLE).unwrap();
    let mut desk = empty();
    desk.open_file("cut.json", &SAMPLE[..SAMPLE.len() * 6 / 10]);
    assert_eq!(
        desk.model.route,
        Route::Share,
        "a file leads to where it is looked at"
    );
    reads(&desk, "Can't be read\n1");
    reads(&desk, "the file is cut short after entry 481 of 877");
    press(&mut desk, "Leave it");
    let line = sample
        .lines()
        .find(|line| line.contains("\"value\":2620"))
        .or_else(|| {
            sample
                .lines()
                .find(|line| line.contains("\"happening\":\"weighed\""))
        })
        .unwrap();
    let huge = sample.replace(
        line,
        &line.replacen("\"value\":", "\"value\":1e999,\"was\":", 1),
    );
    desk.open_file("huge.json", huge.as_bytes());
    reads(&desk, "Can't be read\n1");
    reads(&desk, "entry ");
    press(&mut desk, "Bring in");
    reads(&desk, "1 could not be read.");
    assert_eq!(desk.model.record.log().len(), 876);
}

#[test]
fn a_name_with_a_script_in_it_is_text() {
    let mut desk = empty();
    desk.open_file("a<img src=x onerror=run()>.json", SAMPLE);
    let page = desk.page();
    assert!(
        page.regions
            .iter()
            .all(|region| !region.html.contains("<img"))
    );
    reads(&desk, "a<img src=x onerror=run()>.json");
}

#[test]
fn a_file_can_be_left_while_it_is_read_and_bringing_in_can_be_stopped() {
    let mut desk = empty();
    desk.go(Route::Share);
    desk.refuses = true;
    desk.open_file("phone.json", SAMPLE);
    press(&mut desk, "Bring in");
    assert!(desk.model.record.log().is_empty(), "it was stopped");
    reads(&desk, "New entries\n877");
    desk.refuses = false;
    press(&mut desk, "Bring in");
    assert_eq!(desk.model.record.log().len(), 877);
    desk.act(book::incoming::Action::Stop);
    assert!(matches!(desk.left.last(), Some(Effect::StopBringIn)));
}

#[test]
fn how_far_a_long_file_is_stands_on_the_screen_and_it_can_be_stopped() {
    let mut desk = empty();
    desk.go(Route::Share);
    let effects = stillwood_app::update(
        &mut desk.model,
        Action::Book(book::Action::FileRead {
            name: "long.json".into(),
            bytes: SAMPLE.to_vec(),
            came: book::Came::FromUnknown,
        }),
    );
    assert!(
        matches!(effects.first(), Some(Effect::After(0, _))),
        "it goes on by itself: {effects:?}"
    );
    reads(&desk, "Reading: 0 of 877 entries.");
    reads(&desk, "Bring it in only if you know it.");
    press(&mut desk, "Stop");
    reads_not(&desk, "long.json");
    // The next bit, that was asked for already, finds nothing to do.
    for effect in effects {
        if let Effect::After(0, action) = effect {
            desk.act(*action);
        }
    }
    assert!(desk.model.record.log().is_empty());
}

#[test]
fn an_import_is_undone_as_a_whole_and_put_back() {
    let mut desk = empty();
    desk.open_file("wrong.json", SAMPLE);
    press(&mut desk, "Bring in");
    press(&mut desk, "Brought in");
    reads(&desk, "2026-11-20: 877 entries, 53 planks.");
    press(&mut desk, "Undo this import");
    reads(&desk, "Nothing was recorded since about what it brought.");
    press(&mut desk, "Leave it");
    assert_eq!(desk.model.state().planks().count(), 53);
    press(&mut desk, "Undo this import");
    press(&mut desk, "Undo it");
    reads(&desk, "Undone on 2026-11-20. Nothing in it counts.");
    assert_eq!(desk.model.state().planks().count(), 0);
    // The same file again asks, and puts it back.
    desk.open_file("again.json", SAMPLE);
    reads(&desk, "You undid this file on 2026-11-20. Put it back?");
    press(&mut desk, "Put it back");
    assert_eq!(desk.model.state().planks().count(), 53);
    // And from the list.
    desk.go(Route::BroughtIn);
    press(&mut desk, "Undo this import");
    press(&mut desk, "Undo it");
    press(&mut desk, "Put it back");
    assert_eq!(desk.model.state().planks().count(), 53);
    reads(&desk, "Undo this import");
}

#[test]
fn what_was_recorded_since_is_told_before_an_import_is_undone() {
    let mut desk = empty();
    desk.open_file("wrong.json", SAMPLE);
    press(&mut desk, "Bring in");
    desk.go(Route::Settle);
    press(&mut desk, "Same plank");
    desk.go(Route::BroughtIn);
    press(&mut desk, "Undo this import");
    reads(&desk, "1 entry was recorded since about what it brought:");
    reads(&desk, "the same plank as another record");
}

#[test]
fn imports_are_kept_as_they_always_were() {
    let json = r#"{"id":"019a","on":"2026-03-07","name":"old.json","brought":[],"planks":2}"#;
    let mut desk = empty();
    desk.act(Action::Book(book::Action::ImportsRead(vec![
        json.into(),
        "{".into(),
    ])));
    assert_eq!(desk.model.book.imports.list.len(), 1);
    assert_eq!(desk.model.book.imports.list[0].name, "old.json");
    desk.go(Route::BroughtIn);
    reads(&desk, "1 note on a file that was brought in can't be read.");
}

#[test]
fn an_entry_of_two_stories_is_settled_by_the_maker() {
    let mut desk = phone();
    let other = changed("noted", "\"text\":\"", "\"text\":\"Wrong: ");
    desk.open_file("other.json", &file_of(&[other]));
    reads(&desk, "Differ from the ones here\n1");
    press(&mut desk, "Bring in");
    reads(&desk, "1 differs from the one here.");
    desk.go(Route::Settle);
    reads(&desk, "1 entry has two stories.");
    reads(&desk, "A is right");
    let second = desk
        .pressables()
        .into_iter()
        .find(|one| one.says.starts_with("B: "))
        .expect("the other story");
    press(&mut desk, &second.says);
    press(&mut desk, "B is right");
    reads(&desk, "Settled.");
    reads_not(&desk, "1 entry has two stories.");
    reads(&desk, "Settled: 1");
    let noted = second.says.contains("Wrong: ");
    let state = desk.model.state();
    let found = state.pieces().flat_map(|piece| &piece.history).count();
    assert!(found > 0);
    let entry = desk
        .model
        .record
        .log()
        .conflicts()
        .first()
        .map(|one| one.variants[0].to_line());
    assert_eq!(
        entry.unwrap().contains("Wrong: "),
        noted,
        "the chosen one is in force"
    );
}

#[test]
fn planks_that_may_be_one_are_offered_and_never_joined_unasked() {
    let mut desk = phone();
    desk.go(Route::Settle);
    reads(&desk, "2 pairs are so alike that each may be one plank.");
    reads(&desk, "Likely: ");
    let planks = desk.model.state().planks().count();
    press(&mut desk, "Same plank");
    assert_eq!(desk.model.state().planks().count(), planks - 1);
    reads(&desk, "1 pair is so alike that it may be one plank.");
    press(&mut desk, "Different");
    reads(&desk, "Nothing to settle.");
    press(&mut desk, "Undo");
    reads(&desk, "1 pair is so alike");
}

#[test]
fn gaps_are_told_and_send_nobody_away() {
    let mut desk = empty();
    let part = lines_of(|entry| entry["by"] != "H3" && entry["seq"].as_u64() != Some(5));
    desk.open_file("part.json", &part);
    press(&mut desk, "Bring in");
    desk.go(Route::Settle);
    reads(&desk, "Entries that have not come");
    reads(&desk, "That is usual where only a visit was brought in.");
}

#[test]
fn damage_of_the_store_is_told() {
    let mut desk = phone();
    desk.act(book::settings::Action::Stored(Storage {
        damaged: vec!["page 3, line 2: cut short".into()],
        ..Storage::default()
    }));
    desk.go(Route::Settle);
    reads(&desk, "1 part of what this device keeps is damaged.");
    reads(&desk, "page 3, line 2: cut short");
}

#[test]
fn what_was_deleted_can_be_put_back_for_good() {
    let mut desk = phone();
    desk.go(Route::Settle);
    press(&mut desk, "Different");
    press(&mut desk, "Undo");
    desk.go(Route::Share);
    reads(&desk, "2 deletions");
    press(&mut desk, "Deleted");
    reads(&desk, "another plank than a like record");
    press(&mut desk, "Put it back");
    reads(&desk, "Put back.");
    reads_not(&desk, "another plank than a like record");
    desk.go(Route::Settle);
    reads(&desk, "1 pair is so alike");
}

#[test]
fn the_table_is_one_that_a_spreadsheet_reads() {
    let mut desk = phone();
    desk.go(Route::Share);
    press(&mut desk, "Table for a spreadsheet");
    let file = desk.files.last().unwrap();
    assert_eq!(file.name, "stillwood-planks-2026-11-20.csv");
    assert!(file.bytes.starts_with("\u{feff}".as_bytes()));
    assert_eq!(text(file).lines().count(), 54, "a heading and 53 planks");
    reads(&desk, "It lies in this device's downloads.");
    reads(&desk, "Last saved: never.");
}

#[test]
fn the_calendar_tells_of_rests_and_takes_back_what_will_not_come() {
    let mut none = empty();
    none.go(Route::Share);
    press(&mut none, "Calendar file");
    reads(&none, "Nothing rests yet");
    assert!(none.files.is_empty());
    let mut desk = phone();
    desk.go(Route::Share);
    press(&mut desk, "Calendar file");
    assert!(text(desk.files.last().unwrap()).starts_with("BEGIN:VCALENDAR\r\n"));
    let (kept, wrong) = Settings::read(&desk.settings["settings"]);
    assert!(wrong.is_empty());
    assert!(!kept.calendar.published().days.is_empty());
    // All that was told of is gone: the next one takes it back.
    let mut gone = empty();
    gone.model.settings = kept;
    gone.go(Route::Share);
    press(&mut gone, "Calendar file");
    assert!(text(gone.files.last().unwrap()).contains("STATUS:CANCELLED"));
}

#[test]
fn settings_are_kept_with_what_a_newer_version_has_among_them() {
    let mut desk = phone();
    (desk.model.settings, _) = Settings::read(r#"{"units":"metric","new":{"a":1}}"#);
    desk.go(Route::Settings);
    assert!(
        matches!(desk.left.last(), Some(Effect::Focus(_)))
            && desk
                .left
                .iter()
                .any(|one| matches!(one, Effect::AskStorage))
    );
    press(&mut desk, "Shed, dark");
    press(&mut desk, "Left hand");
    press(&mut desk, "inches, lb, °F");
    assert_eq!(desk.model.settings.scheme, Some(Scheme::Shed));
    let kept: Value = serde_json::from_str(&desk.settings["settings"]).unwrap();
    assert_eq!(kept["new"]["a"], 1);
    assert_eq!(kept["scheme"], "shed");
    assert_eq!(kept["left_hand"], true);
    press(&mut desk, "As the device");
    assert_eq!(desk.model.settings.scheme, None);
}

#[test]
fn other_units_change_nothing_that_is_half_typed() {
    let mut desk = phone();
    let pile = desk.model.state().piles().next().unwrap().id;
    desk.act(stillwood_app::yard::Action::MeasureNew(pile));
    desk.keys("2620");
    assert_eq!(desk.model.drafts.len(), 1);
    desk.go(Route::Settings);
    press(&mut desk, "inches, lb, °F");
    assert_eq!(desk.model.settings.units, Units::Inch);
    let draft = &desk.model.drafts[0];
    let text = draft
        .value(stillwood_core::plank::Field::Length)
        .unwrap()
        .text
        .clone();
    assert_eq!(text, "2620 mm");
    assert!(
        desk.kept.values().any(|json| json.contains("2620 mm")),
        "and so it is kept"
    );
}

#[test]
fn a_tools_accuracy_is_a_number_or_said_to_be_none() {
    let mut desk = phone();
    desk.go(Route::Settings);
    desk.type_into("tool length", "2,5");
    assert_eq!(desk.model.settings.instruments.length_mm, 2.5);
    for wrong in ["", "two", "-1", "inf"] {
        desk.type_into("tool length", wrong);
        reads(&desk, "Type a number, 0 or more.");
        assert_eq!(desk.model.settings.instruments.length_mm, 2.5, "{wrong}");
    }
    let kept: Value = serde_json::from_str(&desk.settings["settings"]).unwrap();
    assert_eq!(kept["instruments"]["length_mm"], 2.5);
}

#[test]
fn a_device_has_a_name_that_its_maker_gives() {
    let mut desk = phone();
    desk.go(Route::Settings);
    desk.type_into("device name", " ");
    press(&mut desk, "Save the name");
    reads(&desk, "Type a name, such as");
    desk.type_into("device name", "The shop's phone");
    press(&mut desk, "Save the name");
    reads(&desk, "This device is called The shop's phone.");
    press(&mut desk, "Save the name");
    reads(&desk, "That is its name already.");
    reads(&desk, "K7-4R9WXHPE2A");
    reads(&desk, "H3: 657 entries");
}

#[test]
fn the_store_and_the_version_are_told() {
    let mut desk = phone();
    desk.go(Route::Settings);
    reads(
        &desk,
        "This browser does not say whether it keeps the record.",
    );
    press(&mut desk, "Ask the browser to keep it");
    assert!(matches!(desk.left.last(), Some(Effect::AskToPersist)));
    press(&mut desk, "Look for a newer version");
    assert!(matches!(desk.left.last(), Some(Effect::LookForNewVersion)));
    desk.act(book::settings::Action::Stored(Storage {
        persistence: Persistence::Granted,
        used_megabytes: Some(3.21),
        build: "abc123".into(),
        version_found: Some(VersionFound::Ready),
        damaged: Vec::new(),
    }));
    reads(&desk, "This browser has promised to keep the record.");
    reads(&desk, "Record and app take about 3.2 MB.");
    reads(&desk, "A newer version is ready.");
    reads(&desk, "Update now");
    reads_not(&desk, "Ask the browser to keep it");
}

#[test]
fn deleting_everything_is_asked_twice() {
    let mut desk = phone();
    desk.go(Route::Settings);
    let deletes = |desk: &Desk| {
        desk.left
            .iter()
            .any(|one| matches!(one, Effect::DeleteEverything))
    };
    press(&mut desk, "Delete everything");
    reads(&desk, "Delete everything on this device?");
    press(&mut desk, "Cancel");
    press(&mut desk, "Delete everything");
    press(&mut desk, "Go on");
    reads(&desk, "53 planks and all else go.");
    assert!(!deletes(&desk));
    press(&mut desk, "Delete it all");
    assert!(deletes(&desk));
    reads_not(&desk, "53 planks and all else go.");
}

#[test]
fn the_sample_workshop_is_opened_and_closed() {
    let mut desk = empty();
    desk.go(Route::Settings);
    press(&mut desk, "Open the sample workshop");
    assert!(matches!(desk.left.last(), Some(Effect::OpenSample(true))));
    desk.model.shell.sample = true;
    press(&mut desk, "Close the sample workshop");
    assert!(matches!(desk.left.last(), Some(Effect::OpenSample(false))));
}

#[test]
fn quick_questions_have_an_answer_at_every_key() {
    let mut desk = empty();
    desk.go(Route::QuickQuestions);
    press(&mut desk, "What moisture does wood settle at?");
    reads(&desk, "Still to type: Relative humidity.");
    desk.type_into("Relative humidity", "45");
    reads(&desk, "Wood settles at\n8.5 %");
    reads(&desk, "equation 4-5");
    desk.type_into("Relative humidity", "105");
    reads(&desk, "105 % relative humidity");
    press(&mut desk, "air that keeps it");
    desk.type_into("Moisture to keep", "8,5 %");
    reads(&desk, "Kept by a humidity of\n45");

    press(&mut desk, "How much wood is it, and what does it cost?");
    desk.type_into("Length", "8 ft");
    reads(&desk, "2438.4 mm = 96 in");
    desk.type_into("Width", "8 in");
    desk.type_into("Thickness", "8/4");
    desk.type_into("Price", "14,50");
    reads(&desk, "Board feet\n10.67 bf");
    reads(&desk, "Price\n154.67");
    press(&mut desk, "per piece");
    reads(&desk, "Price\n14.50");
    desk.type_into("Width", "8 stone");
    reads(&desk, "not a unit that fits here");
    reads(&desk, "Still to type: Width.");
    assert!(
        desk.model.record.log().is_empty(),
        "nothing asked is recorded"
    );
}

#[test]
fn an_answer_tells_how_it_was_worked_out_and_a_wood_is_found_by_its_name() {
    let mut desk = empty();
    desk.go(Route::QuickQuestions);
    press(&mut desk, "How much does a width shrink or swell?");
    desk.type_into("wood", "river cherry");
    reads(&desk, "No wood of that name in the table.");
    desk.type_into("wood", "hard maple");
    reads(&desk, "Acer saccharum");
    press(&mut desk, "What moisture does wood settle at?");
    desk.type_into("Relative humidity", "45");
    let figure = desk
        .pressables()
        .into_iter()
        .find(|one| one.says == "8.5 %")
        .expect("the figure is a key");
    press(&mut desk, &figure.says);
    reads(&desk, "How it is worked out");
    press(&mut desk, "Close");
    // What was typed for another question is still there.
    press(&mut desk, "How much does a width shrink or swell?");
    reads(&desk, "Acer saccharum");
}

#[test]
fn cautions_and_sources_are_said() {
    let mut desk = empty();
    desk.go(Route::About);
    for says in [
        "The dust of every wood harms.",
        "A plank may weigh 40 kg.",
        "Lists change.",
        "Within 1.645 standard uncertainties",
        "Wood Handbook",
    ] {
        reads(&desk, says);
    }
}

#[test]
fn a_deleted_visit_says_how_much_went_with_it_and_comes_back() {
    let mut desk = phone();
    let planks = desk.model.state().planks().count();
    let visit = desk
        .model
        .state()
        .visits()
        .max_by_key(|visit| visit.recorded.on);
    let visit = visit.map(|visit| visit.id).unwrap();
    let filled = stillwood_core::record::commands::delete::command(desk.model.state(), visit, true);
    let ids: Vec<_> = filled
        .events
        .iter()
        .filter_map(|_| desk.model.new_id())
        .collect();
    let first = desk.model.record.own_entries().1 + 1;
    let written = desk
        .model
        .record
        .entries(&filled.events, &ids, &desk.model.now, first);
    let entries = written
        .unwrap()
        .into_iter()
        .map(|one| one.entry().clone())
        .collect();
    desk.act(Action::Recorded {
        entries,
        after: Default::default(),
    });
    let left = desk
        .model
        .state()
        .planks()
        .filter(|plank| !plank.withdrawn)
        .count();
    assert!(left < planks, "its planks went with it");
    desk.go(Route::Deleted);
    reads(&desk, "visit to Plumlatch Lumber");
    reads(&desk, &format!("{} planks", planks - left));
    press(&mut desk, "Put it back");
    reads(&desk, "Put back.");
    let back = desk
        .model
        .state()
        .planks()
        .filter(|plank| !plank.withdrawn)
        .count();
    assert_eq!(back, planks);
}
