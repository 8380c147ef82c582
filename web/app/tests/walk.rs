//! README's walk through the sample workshop, pressed as it is told.

use std::fs;
use std::path::{Path, PathBuf};
use stillwood_app::Route;
use stillwood_app::desk::Desk;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Presses what says this; README says it as well.
#[track_caller]
fn press(desk: &mut Desk, told: &str, says: &str) {
    let readme = fs::read_to_string(root().join("README.md")).expect("README");
    let (_, walk) = readme.split_once("## A walk").expect("its walk");
    let (walk, _) = walk.split_once("\n## ").expect("its end");
    assert!(walk.contains(told), "README's walk does not say “{told}”");
    let on = desk.reads();
    assert!(desk.press(says), "nothing says “{says}” on:\n{on}");
}

#[track_caller]
fn reads(desk: &Desk, text: &str) {
    let all = desk.reads().replace(['\n', '\u{a0}'], " ");
    assert!(all.contains(text), "no “{text}” in:\n{all}");
}

#[test]
fn the_walk_leads_where_it_says() {
    let sample = fs::read(root().join("demo-data/two-yards.json")).expect("the sample");
    let mut desk = Desk::with_file(&sample, "2026-11-20").expect("the sample");
    desk.go(Route::Today);
    for due in [
        "ready to work",
        "not yet still",
        "look again",
        "not known if weight is steady",
    ] {
        reads(&desk, &format!("Rest over, {due}"));
    }

    press(&mut desk, "Yard", "Yard");
    press(&mut desk, "Plumlatch Lumber", "Plumlatch Lumber");
    press(&mut desk, "hard maple", "Hard maple");
    press(&mut desk, "twist", "twist");
    press(&mut desk, "\"No\"", "No");
    reads(&desk, "No: twist.");
    press(&mut desk, "\"Maybe\"", "Maybe");
    reads(&desk, "Chalk this on the plank");
    press(&mut desk, "chalk", "Chalked, next");

    press(&mut desk, "\"Measure it now\"", "Measure it now");
    for text in ["2620", "214"] {
        desk.keys(text);
        press(&mut desk, text, "Next");
    }
    press(&mut desk, "\"To the verdict\"", "To the verdict");

    desk.go(Route::Yard);
    press(&mut desk, "Plumlatch Lumber", "Plumlatch Lumber");
    press(&mut desk, "\"Tally and bill\"", "Tally and bill");
    reads(&desk, "This billing rule fits");
    press(
        &mut desk,
        "\"Turn the phone round\"",
        "Turn the phone round",
    );

    desk.go(Route::Racks);
    press(&mut desk, "\"Look over\" Shelf B", "Look over Shelf B");
    press(
        &mut desk,
        "\"No change since last time\"",
        "No change since last time",
    );
    desk.go(Route::Racks);
    press(&mut desk, "\"K7-13 a\"", "K7-13 a");
    reads(&desk, "Flatten and rest again");

    desk.go(Route::Blanks);
    press(&mut desk, "\"Match and glue\"", "Match and glue");
    press(&mut desk, "Press a place", "Place 2");
    press(&mut desk, "\"Turn over\"", "Turn over");
    desk.go(Route::Blanks);
    for mark in ["H3-10-Y", "H3-11-W", "H3-12-U"] {
        press(&mut desk, "press +", &format!("{mark}: side by side"));
    }
    press(&mut desk, "\"Side by side\"", "Side by side");

    desk.go(Route::Book);
    press(&mut desk, "\"Save and share\"", "Save and share");
}
