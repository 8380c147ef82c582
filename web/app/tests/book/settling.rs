//! What is settled, deleted and set.

use super::*;

#[test]
fn gaps_are_told_and_send_nobody_away() {
    let mut desk = empty();
    let part = lines_of(|entry| entry["by"] != "H3" && entry["seq"].as_u64() != Some(5));
    desk.open_file("part.json", &part);
    press(&mut desk, "Bring in");
    desk.go(Route::Settle);
    says(&desk, "Entries that have not come");
    says(&desk, "That is usual where only a visit was brought in.");
}

#[test]
fn damage_of_the_store_is_told() {
    let mut desk = phone();
    desk.act(book::settings::Action::Stored(Storage {
        damaged: vec!["page 3, line 2: cut short".into()],
        ..Storage::default()
    }));
    desk.go(Route::Settle);
    says(&desk, "1 part of what this device keeps is damaged.");
    says(&desk, "page 3, line 2: cut short");
}

#[test]
fn planks_that_may_be_one_differ_loudly_where_no_tool_is_so_far_off() {
    let mut desk = phone();
    desk.go(Route::Settle);
    says(
        &desk,
        "No two readings are further apart than both may be off.",
    );
    says_not(&desk, "Bold with a sign");
    // One noted the side of the bow, the other did not: that tells nothing apart, and the table says why.
    says(&desk, "Bow −4.8 mm 4.8 mm, side not noted");
    says(&desk, "Crook 4.8 mm 6.3 mm");
    let loud = |desk: &Desk| {
        let regions = desk.page().regions;
        let body = regions.iter().find(|region| region.id == "body").unwrap();
        let rows = body.html.split("<tr").skip(1);
        let loud = rows.filter(|row| row.contains("class=\"apart\""));
        let names = loud.filter_map(|row| row.split("</th>").next()?.rsplit('>').next());
        names.map(str::to_owned).collect::<Vec<_>>()
    };
    // One plank, measured by two with tape, scale and meter: nothing is further apart than those may be off.
    assert!(loud(&desk).is_empty(), "{:?}", loud(&desk));
    desk.model.settings.instruments.width_mm = 0.5;
    assert_eq!(loud(&desk), ["Width near", "Width far"]);
    says(
        &desk,
        "Bold with a sign: further apart than both readings may be off.",
    );
}

#[test]
fn a_pair_is_asked_in_one_sentence_and_its_keys_say_what_they_do() {
    let mut desk = phone();
    desk.go(Route::Settle);
    says(&desk, "Are K7-39-2 and R4-3-M the same plank?");
    says(&desk, "Wood hard maple hard maple");
    // What the two have in common is folded: the answer is in reach.
    let read = desk.reads();
    let place = |text: &str| read.find(text).unwrap_or(usize::MAX);
    assert!(place("Device") < place("All readings side by side"));
    assert!(place("All readings side by side") < place("Width near"));
    assert!(
        !region(&desk, "body").contains("key big grow main"),
        "neither answer is urged"
    );
    says(
        &desk,
        "Joined, the plank is called K7-39-2 and keeps the readings of both.",
    );
    press(&mut desk, "Same plank: join");
    let called: Vec<&str> = desk
        .model
        .state()
        .planks()
        .map(|plank| plank.mark.as_str())
        .collect();
    assert!(
        called.contains(&"K7-39-2") && !called.contains(&"R4-3-M"),
        "as was told"
    );
}

#[test]
fn what_was_deleted_can_be_put_back_for_good() {
    let mut desk = phone();
    desk.go(Route::Settle);
    press(&mut desk, "Two planks: keep both");
    press(&mut desk, "Undo");
    desk.go(Route::Share);
    says(&desk, "2 deletions");
    press(&mut desk, "Deleted");
    says(&desk, "another plank than a like record");
    press(&mut desk, "Put it back");
    says(&desk, "Put back.");
    says_not(&desk, "another plank than a like record");
    desk.go(Route::Settle);
    says(&desk, "1 pair of records is so alike");
}

#[test]
fn the_table_is_one_that_a_spreadsheet_reads() {
    let mut desk = phone();
    desk.go(Route::Share);
    // What was said of something else before does not stand for it.
    desk.act(Action::Say("Noted.".to_owned()));
    press(&mut desk, "Table for a spreadsheet");
    let file = desk.files.last().unwrap();
    assert_eq!(file.name, "stillwood-planks-2026-11-20.csv");
    assert!(file.bytes().starts_with("\u{feff}".as_bytes()));
    assert_eq!(text(file).lines().count(), 54, "a heading and 53 planks");
    says(&desk, "It lies in this device's downloads.");
    says(&desk, "Last saved: never.");
}

#[test]
fn the_calendar_tells_of_rests_and_takes_back_what_will_not_come() {
    let mut none = empty();
    none.go(Route::Share);
    press(&mut none, "Calendar file");
    says(&none, "Nothing rests yet");
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
        says(&desk, "Type a number, 0 or more.");
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
    says(&desk, "Type a name, such as");
    desk.type_into("device name", "The shop's phone");
    press(&mut desk, "Save the name");
    says(&desk, "This device is called The shop's phone.");
    press(&mut desk, "Save the name");
    says(&desk, "That is its name already.");
    says(&desk, "K7-4R9WXHPE2A");
    says(&desk, "H3: 657 entries");
}

#[test]
fn the_store_and_the_version_are_told() {
    let mut desk = phone();
    desk.go(Route::Settings);
    says(
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
    says(&desk, "This browser has promised to keep the record.");
    says(&desk, "Record and app take about 3.2 MB.");
    says(&desk, "A newer version is ready.");
    says(&desk, "Update now");
    says_not(&desk, "Ask the browser to keep it");
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
    says(&desk, "Delete everything on this device?");
    press(&mut desk, "Cancel");
    press(&mut desk, "Delete everything");
    press(&mut desk, "Delete everything …");
    says(&desk, "53 planks and all else go.");
    assert!(!deletes(&desk));
    press(&mut desk, "Delete it all");
    assert!(deletes(&desk));
    says_not(&desk, "53 planks and all else go.");
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
fn two_stories_of_one_piece_are_told_apart_where_it_is_said() {
    let mut desk = phone();
    let lines = std::str::from_utf8(SAMPLE).unwrap().lines();
    let lines: Vec<Value> = lines
        .filter_map(|line| serde_json::from_str(line.trim_end_matches(',')).ok())
        .collect();
    let of = |happening: &str| {
        let mut found = lines.iter().filter(|line| line["happening"] == happening);
        found.next().unwrap().clone()
    };
    // A plank was cut, and elsewhere discarded.
    let mut discarded = of("discarded");
    discarded["about"] = of("cut")["about"].clone();
    discarded["id"] = "0199f102-da00-7000-8048-33000000ffff".into();
    discarded["by"] = "M4-7T2KXQWE8B".into();
    discarded["step"] = 9_000.into();
    discarded["seq"] = 1.into();
    let line = sealed(&discarded.to_string()).unwrap();
    desk.open_file("other.json", &file_of(&[line]));
    press(&mut desk, "Bring in");
    desk.go(Route::Settle);
    says(&desk, "1 piece has two stories.");
    says(
        &desk,
        "Open the piece: the notice on its page has the keys that delete the wrong one.",
    );
    press(&mut desk, "Open H3-2-Y");
    says(&desk, "Two stories can't both be true:");
    press(&mut desk, "Delete the second");
    desk.go(Route::Settle);
    says_not(&desk, "1 piece has two stories.");
}

#[test]
fn what_this_device_wrote_before_it_had_an_identity_is_not_called_anothers() {
    let mut desk = phone();
    desk.go(Route::Settings);
    says(&desk, "Its marks begin with\nK7");
    says(&desk, "H3: 657 entries");
    says_not(&desk, "K7: 181 entries");
}

#[test]
fn devices_of_the_sample_are_not_called_the_makers_others() {
    let mut desk = phone();
    desk.go(Route::Settings);
    says(&desk, "Other devices");
    desk.model.shell.sample = true;
    says(&desk, "Devices of the sample workshop, invented");
    says_not(&desk, "Other devices\nH3");
}

#[test]
fn quick_questions_have_an_answer_at_every_key() {
    let mut desk = empty();
    desk.go(Route::QuickQuestions);
    press(&mut desk, "What moisture does wood settle at?");
    says(&desk, "Still to type: Relative humidity.");
    desk.type_into("Relative humidity", "45");
    says(&desk, "Wood settles at\n8.5 %");
    says(&desk, "equation 4-5");
    desk.type_into("Relative humidity", "105");
    says(&desk, "105 % relative humidity");
    press(&mut desk, "air that keeps it");
    desk.type_into("Moisture to keep", "8,5 %");
    says(&desk, "Kept by a humidity of\n45");

    press(&mut desk, "How much wood is it, and what does it cost?");
    desk.type_into("Length", "8 ft");
    says(&desk, "2438.4 mm = 96 in");
    desk.type_into("Width", "8 in");
    desk.type_into("Thickness", "8/4");
    desk.type_into("Price", "14,50");
    says(&desk, "Board feet\n10.67 bd ft");
    says(&desk, "Price\n154.67");
    press(&mut desk, "per piece");
    says(&desk, "Price\n14.50");
    desk.type_into("Width", "8 stone");
    says(&desk, "not a unit that fits here");
    says(&desk, "Still to type: Width.");
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
    says(&desk, "No wood of that name in the table.");
    desk.type_into("wood", "hard maple");
    says(&desk, "Acer saccharum");
    press(&mut desk, "What moisture does wood settle at?");
    desk.type_into("Relative humidity", "45");
    let figure = desk
        .pressables()
        .into_iter()
        .find(|one| one.says == "8.5 %")
        .expect("the figure is a key");
    press(&mut desk, &figure.says);
    says(&desk, "How it is worked out");
    press(&mut desk, "Close");
    // What was typed for another question is still there.
    press(&mut desk, "How much does a width shrink or swell?");
    says(&desk, "Acer saccharum");
}

#[test]
fn cautions_and_sources_are_said() {
    let mut desk = empty();
    desk.go(Route::About);
    for told in [
        "The dust of every wood harms.",
        "A plank may weigh 40 kg.",
        "Lists change.",
        "Within 1.645 standard uncertainties",
        "Wood Handbook",
    ] {
        says(&desk, told);
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
    let filled = stillwood_core::record::commands::delete::command(desk.model.state(), visit);
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
    says(&desk, "visit to Plumlatch Lumber");
    says(&desk, &format!("{} planks", planks - left));
    says(&desk, "rejected in the sort");
    says_not(&desk, "1 entry");
    press(&mut desk, "Put it back");
    says(&desk, "Put back.");
    let back = desk
        .model
        .state()
        .planks()
        .filter(|plank| !plank.withdrawn)
        .count();
    assert_eq!(back, planks);
}

#[test]
fn the_sample_is_not_opened_over_what_is_in_memory_only_and_nothing_is_deleted_in_it() {
    let mut desk = sample();
    desk.model.shell.saving = Saving::Failed("the device is full".into());
    desk.go(Route::Settings);
    says(&desk, "Delete everything");
    press(&mut desk, "Open the sample workshop");
    says(&desk, "What is not saved yet is lost with this.");
    assert!(
        !desk
            .left
            .iter()
            .any(|one| matches!(one, Effect::OpenSample(_)))
    );
    press(&mut desk, "Open the sample workshop");
    assert!(
        desk.left
            .iter()
            .any(|one| matches!(one, Effect::OpenSample(true)))
    );
    desk.model.shell.sample = true;
    desk.model.dialog = None;
    says_not(&desk, "Delete everything");
}

#[test]
fn a_wood_of_a_question_is_known_in_every_language() {
    use stillwood_app::words::Language;
    let mut desk = empty();
    desk.model.settings.language = Language::German;
    desk.go(Route::QuickQuestions);
    let asks = "How much does a width shrink or swell?";
    let questions = stillwood_core::record::queries::quick_questions::QUESTIONS;
    let at = questions.iter().position(|one| one.asks == asks).unwrap();
    desk.act(stillwood_app::book::questions::Action::Open(at));
    desk.type_into("wood", "Zuckerahorn");
    says(&desk, "Acer saccharum");
    desk.model.settings.language = Language::English;
    says(&desk, "Acer saccharum");
    assert!(region(&desk, "body").contains("value=\"hard maple\""));
}
