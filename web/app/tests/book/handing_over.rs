//! What is handed over and brought in.

use super::*;

#[test]
fn the_book_leads_to_all_that_it_holds_in_one_press() {
    let mut desk = phone();
    desk.go(Route::Book);
    says(&desk, "53 planks stand on this phone only.");
    for (told, route) in [
        ("Save and share", Route::Share),
        ("To settle", Route::Settle),
        ("Track record", Route::TrackRecord),
        ("Plan", Route::Plan),
        ("Quick questions", Route::QuickQuestions),
        ("Woods", Route::Woods),
        ("Settings", Route::Settings),
        ("Cautions and sources", Route::About),
    ] {
        press(&mut desk, told);
        assert_eq!(desk.model.route, route, "{told}");
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
    let reading = read(file.bytes(), &Limits::default()).unwrap();
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
    says(&desk, "Last saved: never.");
    press(&mut desk, "Save the visit to downloads");
    says(&desk, "53 planks stand on this phone only.");
    says(
        &desk,
        "Last saved: 20 Nov. A file in this device's downloads is not elsewhere.",
    );
    // Called off, or failed: nothing was handed over.
    for (end, told) in [
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
        says(&desk, "Last saved: never.");
        says(&desk, told);
        says_not(&desk, "It is on the laptop");
        assert!(!desk.settings.contains_key("kept_elsewhere"), "{end:?}");
    }
    press(&mut desk, "Share the record");
    assert_eq!(entries(desk.files.last().unwrap()), 877);
    says(&desk, "Handed over on 20 Nov.");
    says(&desk, "53 planks stand on this phone only.");
    says(&desk, "Has the laptop got the file?");
    press(&mut desk, "It is on the laptop");
    says(&desk, "Everything here is kept elsewhere too.");
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
    says(&other, "Everything here is kept elsewhere too.");
}

#[test]
fn its_own_file_says_nothing_and_the_laptops_file_shows_what_is_kept_elsewhere() {
    let mut here = phone();
    here.go(Route::Share);
    press(&mut here, "Share the record");
    let own = here.files.last().unwrap().clone();
    here.open_file("own.json", own.bytes());
    says(&here, "Here already\n877");
    let key = here
        .pressables()
        .into_iter()
        .find(|one| one.says == "Nothing new")
        .expect("the key");
    assert!(key.disabled);
    press(&mut here, "Leave it");
    says(&here, "53 planks stand on this phone only.");

    let mut there = laptop();
    there.go(Route::Share);
    there.open_file("phone.json", own.bytes());
    says(&there, "New planks\n53");
    says(&there, "New entries\n877");
    press(&mut there, "Bring in");
    says(&there, "phone.json: 877 entries, 53 planks.");
    says(&there, "Everything here is kept elsewhere too.");
    press(&mut there, "Save the visit to downloads");
    there.type_into("which visit", "");
    there.act(book::share::Action::Save(book::share::What::Whole));
    let back = there.files.last().unwrap().clone();
    let body = |file: &FileMade| text(file).split_once("\"entries\":").unwrap().1.to_owned();
    assert_eq!(body(&back), body(&own), "byte for byte");

    here.open_file("laptop.json", back.bytes());
    press(&mut here, "Note that 877 entries are kept there");
    says(&here, "877 entries count as kept elsewhere now.");
    says(&here, "Everything here is kept elsewhere too.");
}

#[test]
fn the_sample_workshop_is_not_said_to_stand_on_this_phone_only() {
    let mut desk = phone();
    desk.model.shell.sample = true;
    desk.go(Route::Share);
    says(&desk, "This is the sample workshop. It needs no saving.");
    says_not(&desk, "stand on this phone only");
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
        says(&desk, name);
        says(&desk, "This can't be brought in:");
        says(&desk, "Nothing has changed.");
        press(&mut desk, "Put it away");
        says_not(&desk, name);
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
    says(
        &desk,
        "This file is cut short: 481 of its 877 entries are here.",
    );
    says_not(&desk, "Can't be read");
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
    says(&desk, "Can't be read\n1");
    says(&desk, "entry ");
    press(&mut desk, "Bring in");
    says(&desk, "1 could not be read.");
    assert_eq!(desk.model.record.log().len(), 876);
}

#[test]
fn what_is_missing_of_a_file_cut_short_is_said_until_it_came() {
    let missing = "cut.json was cut short: 481 of its 877 entries came in. The rest is missing until you bring in the whole file.";
    let mut desk = empty();
    desk.open_file("cut.json", &SAMPLE[..SAMPLE.len() * 6 / 10]);
    says_not(&desk, missing);
    press(&mut desk, "Bring in");
    says(&desk, missing);
    desk.go(Route::BroughtIn);
    says(&desk, missing);
    // It is kept with the list of imports.
    let kept = serde_json::to_string(&desk.model.book.imports.list[0]).unwrap();
    desk.act(Action::Book(book::Action::ImportsRead(vec![kept])));
    desk.go(Route::Share);
    says(&desk, missing);
    // Nothing of an undone file is missed.
    desk.go(Route::BroughtIn);
    press(&mut desk, "Undo this import");
    press(&mut desk, "Undo it");
    says_not(&desk, missing);
    press(&mut desk, "Put it back");
    says(&desk, missing);
    desk.open_file("whole.json", SAMPLE);
    press(&mut desk, "Bring in");
    says_not(&desk, missing);
    desk.go(Route::BroughtIn);
    says_not(&desk, missing);
}

#[test]
fn as_many_files_are_counted_as_are_listed() {
    let mut desk = empty();
    desk.go(Route::Share);
    says(&desk, "No file was brought in on this device.");
    desk.open_file("one.json", SAMPLE);
    press(&mut desk, "Bring in");
    says(&desk, "Brought in\n1 file");
    // Of this one nothing is in the record: the list leaves it out.
    let json = r#"{"id":"019a","on":"2026-03-07","name":"old.json","brought":[],"planks":2}"#;
    desk.act(Action::Book(book::Action::ImportsRead(vec![json.into()])));
    desk.go(Route::BroughtIn);
    says(&desk, "No file was brought in on this device.");
    desk.go(Route::Share);
    says(&desk, "No file was brought in on this device.");
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
    says(&desk, "a<img src=x onerror=run()>.json");
}

#[test]
fn a_file_can_be_left_while_it_is_read_and_bringing_in_can_be_stopped() {
    let mut desk = empty();
    desk.go(Route::Share);
    desk.refuses = true;
    desk.open_file("phone.json", SAMPLE);
    press(&mut desk, "Bring in");
    assert!(desk.model.record.log().is_empty(), "it was stopped");
    says(&desk, "New entries\n877");
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
    says(&desk, "Reading: 0 of 877 entries.");
    says(&desk, "Bring it in only if you know it.");
    press(&mut desk, "Stop");
    says_not(&desk, "long.json");
    // The next bit, that was asked for already, finds nothing to do.
    for effect in effects {
        if let Effect::After(0, action) = effect {
            desk.act(*action);
        }
    }
    assert!(desk.model.record.log().is_empty());
}

/// A file is folded once, as it is looked at. The record says the same as if all were folded anew, also where
/// something was recorded between the look and the key.
#[test]
fn what_was_brought_in_says_what_its_entries_say() {
    for between in [false, true] {
        let mut desk = empty();
        desk.open_file("whole.json", SAMPLE);
        if between {
            desk.go(Route::Yard);
            press(&mut desk, "Start a visit");
            desk.type_into("Yard", "Hopple");
            press(&mut desk, "Save");
            desk.go(Route::Share);
        }
        press(&mut desk, "Bring in");
        assert!(desk.model.record.log().len() >= 877);
        let anew = State::project(desk.model.record.log());
        assert!(*desk.model.state() == anew, "{between}");
        assert_eq!(
            desk.model
                .state()
                .visits()
                .any(|visit| visit.opened.yard == "Hopple"),
            between
        );
    }
}

#[test]
fn an_import_is_undone_as_a_whole_and_put_back() {
    let mut desk = empty();
    desk.open_file("wrong.json", SAMPLE);
    press(&mut desk, "Bring in");
    press(&mut desk, "Brought in");
    says(&desk, "20 Nov: 877 entries, 53 planks.");
    press(&mut desk, "Undo this import");
    says(
        &desk,
        "Nothing has been added since to what this file brought in.",
    );
    press(&mut desk, "Cancel");
    assert_eq!(desk.model.state().planks().count(), 53);
    press(&mut desk, "Undo this import");
    press(&mut desk, "Undo it");
    says(&desk, "Undone on 20 Nov. Nothing in it counts.");
    assert_eq!(desk.model.state().planks().count(), 0);
    // The same file again asks, and puts it back.
    desk.open_file("again.json", SAMPLE);
    says(&desk, "You undid this file on 20 Nov. Put it back?");
    press(&mut desk, "Put it back");
    assert_eq!(desk.model.state().planks().count(), 53);
    // And from the list.
    desk.go(Route::BroughtIn);
    press(&mut desk, "Undo this import");
    press(&mut desk, "Undo it");
    press(&mut desk, "Put it back");
    assert_eq!(desk.model.state().planks().count(), 53);
    says(&desk, "Undo this import");
}

#[test]
fn what_was_recorded_since_is_told_before_an_import_is_undone() {
    let mut desk = empty();
    desk.open_file("wrong.json", SAMPLE);
    press(&mut desk, "Bring in");
    desk.go(Route::Settle);
    press(&mut desk, "Same plank: join");
    desk.go(Route::BroughtIn);
    press(&mut desk, "Undo this import");
    says(&desk, "1 entry was recorded since about what it brought:");
    says(&desk, "the same plank as another record");
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
    says(&desk, "1 note on a file that was brought in can't be read.");
}

#[test]
fn an_entry_of_two_stories_is_settled_by_the_maker() {
    let mut desk = phone();
    let other = changed("noted", "\"text\":\"", "\"text\":\"Wrong: ");
    desk.open_file("other.json", &file_of(&[other]));
    says(&desk, "Differ from the ones here\n1");
    press(&mut desk, "Bring in");
    says(&desk, "1 differs from the one here.");
    desk.go(Route::Settle);
    says(&desk, "1 entry has two stories.");
    says(&desk, "A is right");
    let second = desk
        .pressables()
        .into_iter()
        .find(|one| one.says.starts_with("B: "))
        .expect("the other story");
    press(&mut desk, &second.says);
    press(&mut desk, "B is right");
    says(&desk, "Settled.");
    says_not(&desk, "1 entry has two stories.");
    says(&desk, "Settled: 1");
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
    says(
        &desk,
        "2 pairs of records are so alike that each may be of one plank.",
    );
    says(&desk, "Likely: ");
    says(&desk, "Open K7-39-2");
    let planks = desk.model.state().planks().count();
    press(&mut desk, "Same plank: join");
    assert_eq!(desk.model.state().planks().count(), planks - 1);
    says(&desk, "1 pair of records is so alike");
    press(&mut desk, "Two planks: keep both");
    says(&desk, "Nothing to settle.");
    press(&mut desk, "Undo");
    says(&desk, "1 pair of records is so alike");
}
