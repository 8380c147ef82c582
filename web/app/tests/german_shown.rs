//! German as it is put together on screens: what core says is in German there too, numbers have a comma, sentences end
//! once.

mod gallery;

use gallery::{Stage, every_state};
use std::collections::BTreeSet;
use stillwood_app::desk::Desk;
use stillwood_app::words::Language;
use stillwood_app::{Route, yard};
use stillwood_core::plank::Field;

const SAMPLE: &[u8] = include_bytes!("../../../demo-data/two-yards.json");

/// What no German line says: words of core's in the middle of a line, and what putting together leaves over.
const NEVER: &[&str] = &[
    "still drying",
    "too few weighings",
    "taking up water",
    "too close to call",
    "Ring chord",
    "Ring dip",
    "(phone)",
    "(laptop)",
    "?.",
    "6.25 %",
    "vor 18 Monate",
    "in 6 Monate",
    "bei Stücke",
    "Von 7 Stücke",
    "mit 2 Stapel,",
];

/// A sentence that ends twice; three points that were typed are none.
fn ends_twice(line: &str) -> bool {
    line.contains("..") && !line.contains("...")
}

#[test]
fn what_is_put_together_in_german_is_german() {
    Desk::new_ones_speak(Language::German);
    let (mut screens, mut found) = (0, BTreeSet::new());
    for wide in [false, true] {
        let stage = Stage {
            sample: SAMPLE,
            wide,
        };
        every_state(stage, &mut |name, desk| {
            screens += 1;
            for line in desk.reads().lines() {
                if ends_twice(line) || NEVER.iter().any(|never| line.contains(never)) {
                    found.insert(format!("{name}: {line}"));
                }
            }
        });
    }
    assert!(screens > 200, "only {screens} screens were seen");
    let found: Vec<String> = found.into_iter().collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn a_step_of_the_eye_is_german_where_it_stands_and_on_the_key_of_the_next_plank() {
    Desk::new_ones_speak(Language::German);
    let mut desk = Desk::with_file(SAMPLE, "2026-11-20").unwrap();
    let visit = desk.model.state().visits().next().unwrap().id;
    desk.go(Route::NewPile(visit));
    desk.type_into("Wood", "hard maple");
    assert!(desk.press("Save"));
    let Route::Sort(pile) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    let begin = |desk: &mut Desk| {
        desk.go(Route::Sort(pile));
        assert!(desk.press("Measure it now"));
        desk.act(yard::Action::Activate(Field::Bow));
        assert!(!desk.reads().contains("about"), "{}", desk.reads());
    };
    begin(&mut desk);
    assert!(desk.press("about 3"));
    desk.act(yard::Action::Activate(Field::Bow));
    assert!(!desk.reads().contains("about"), "{}", desk.reads());
    assert!(desk.press("To the verdict") && desk.press("Hold"));
    begin(&mut desk);
}
