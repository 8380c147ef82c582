//! Faults of keys that act on what is not shown.

use super::*;
use stillwood_app::yard;
use stillwood_core::record::Decision;

fn key(desk: &mut Desk, key: &str) {
    desk.model.now.millis += 400;
    desk.act(Action::Key(key.to_owned()));
}

#[test]
fn no_key_of_a_keyboard_reaches_the_screen_below_an_open_dialog() {
    let mut desk = at_the_desk::sample_on("2026-11-21");
    desk.go(Route::Racks);
    desk.press("Look over Shelf A");
    press(&mut desk, "No change since last time");
    says(&desk, "1 of 5 looked over");
    desk.type_into("Day", "2026-11-18");
    press(&mut desk, "No change since last time");
    assert!(desk.model.dialog.is_some(), "the day is asked about");
    let before = desk.model.record.log().everything().count();
    for pressed in ["Backspace", "n", "m", "Enter", "ArrowDown"] {
        key(&mut desk, pressed);
    }
    assert_eq!(desk.model.record.log().everything().count(), before);
    assert!(desk.model.dialog.is_some());
    assert!(desk.model.form.is_none());
    key(&mut desk, "Escape");
    assert!(desk.model.dialog.is_none());

    let mut desk = measuring(&[]);
    desk.keys("2620");
    desk.act(Action::Ask {
        question: "Discard?".to_owned(),
        yes: "Discard".to_owned(),
        action: Box::new(yard::Action::Discard.into()),
    });
    desk.keys("120");
    key(&mut desk, "Backspace");
    key(&mut desk, "Enter");
    assert_eq!(text(&desk, Field::Length), "2620");
    assert_eq!(active(&desk), Some(Field::Length));
}

#[test]
fn no_key_of_a_keyboard_changes_a_measurement_that_is_not_shown() {
    let mut desk = measuring(&[]);
    desk.keys("2620");
    desk.act(yard::defects::Action::Show(true));
    press(&mut desk, "knot");
    for pressed in ["1", "2", "0", "Backspace", "Enter"] {
        key(&mut desk, pressed);
    }
    assert_eq!(text(&desk, Field::Length), "2620");
    assert_eq!(active(&desk), Some(Field::Length));
    desk.act(yard::defects::Action::Show(false));
    desk.keys("5");
    assert_eq!(text(&desk, Field::Length), "26205", "shown again");

    let mut desk = measuring(&[]);
    desk.keys("2620");
    desk.act(yard::Action::Decide(Decision::Leave));
    let shown = desk.reads();
    for pressed in ["1", "Enter", "2", "Backspace", "Enter"] {
        key(&mut desk, pressed);
    }
    assert_eq!(text(&desk, Field::Length), "2620");
    assert_eq!(desk.reads(), shown);
    assert!(matches!(desk.model.route, Route::Measure(_)));
}

#[test]
fn a_key_that_is_held_down_is_pressed_once() {
    let mut desk = at_the_desk::sample_on("2026-11-21");
    desk.act(Action::Wide(true));
    desk.go(Route::Racks);
    desk.press("Look over Shelf A");
    let held = |desk: &mut Desk, name: &str| {
        key(desk, name);
        for _ in 0..50 {
            desk.model.now.millis += 40;
            desk.act(Action::Key(name.to_owned()));
        }
    };
    held(&mut desk, "n");
    says(&desk, "1 of 5 looked over");
    held(&mut desk, "Enter");
    says(&desk, "2 of 5 looked over");
    held(&mut desk, "Backspace");
    says(&desk, "1 of 5 looked over");
    // What a keyboard itself calls held down does not come so far.
    let measure = Route::Measure(Id::from_u128(1));
    for (key, route, counts) in [
        ("Backspace", Route::LookOver, false),
        ("n", Route::LookOver, false),
        ("Enter", Route::Planks, false),
        ("ArrowDown", Route::Planks, true),
        ("Backspace", measure, true),
        ("5", measure, true),
        ("Enter", measure, false),
    ] {
        assert_eq!(Action::counts_held_down(key, &route), counts, "{key}");
    }
}

#[test]
fn no_key_of_a_keyboard_opens_a_piece_that_a_narrow_window_does_not_show() {
    let mut desk = at_the_desk::sample_on("2026-11-21");
    desk.go(Route::Racks);
    desk.act(Action::Wide(true));
    key(&mut desk, "ArrowDown");
    assert!(desk.model.racks.chosen.is_some());
    desk.act(Action::Wide(false));
    key(&mut desk, "Enter");
    assert_eq!(desk.model.route, Route::Racks);
}
