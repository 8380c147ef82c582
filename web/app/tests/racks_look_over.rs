//! A rack looked over: the touches that it costs, what moved, the last undone.

mod racks_sample;

use racks_sample::{checks, piece, sample, sample_on, says, says_not};
use stillwood_app::racks::Action as Racks;
use stillwood_app::{Action, Route};
use stillwood_core::record::Id;

#[test]
fn twenty_one_pieces_none_moved_are_twenty_two_presses() {
    let mut desk = sample();
    let on_b: Vec<Id> = desk
        .model
        .state()
        .pieces()
        .filter(|piece| {
            piece
                .work
                .place
                .as_ref()
                .is_some_and(|place| place.payload == "shelf B")
                && piece.is_at_hand()
        })
        .map(|piece| piece.id)
        .collect();
    assert_eq!(on_b.len(), 21);
    let before: usize = on_b.iter().map(|id| checks(&desk, *id)).sum();
    let mut presses = 1;
    assert!(desk.press("Look over Shelf B"));
    says(&desk, "0 of 21 looked over");
    while desk.reads().contains("No change since last time") {
        assert!(desk.press("No change since last time"));
        presses += 1;
        assert!(presses <= 22, "{presses} presses");
    }
    assert_eq!(presses, 22);
    says(&desk, "All 21 looked over.");
    let after: usize = on_b.iter().map(|id| checks(&desk, *id)).sum();
    assert_eq!(after, before + 21, "each has a check of its own");
}

#[test]
fn a_second_press_within_300_ms_counts_for_none_and_the_last_can_be_undone() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    let first = piece(&desk, "K7-1-X a");
    let before = checks(&desk, first);
    let second = piece(&desk, "K7-13-M a");
    let second_before = checks(&desk, second);
    assert!(desk.press("No change since last time"));
    says(&desk, "1 of 5 looked over");
    // The thumb falls twice: the next piece is on the screen by then.
    desk.model.now.millis += 200;
    desk.act(Racks::NoChange(second));
    says(&desk, "1 of 5 looked over");
    assert_eq!(checks(&desk, second), second_before);
    desk.model.now.millis += 150;
    desk.act(Racks::NoChange(second));
    says(&desk, "2 of 5 looked over");
    assert!(desk.press("Undo last"));
    says(&desk, "1 of 5 looked over");
    says(&desk, "The check of K7-13-M a is deleted.");
    assert!(desk.press("Undo last"));
    says(&desk, "0 of 5 looked over");
    assert_eq!(checks(&desk, first), before);
    let undo = desk
        .pressables()
        .into_iter()
        .find(|one| one.says == "Undo last")
        .unwrap();
    assert!(undo.disabled, "nothing is left of this round");
}

#[test]
fn what_moved_is_measured_and_all_that_is_wrong_stands_at_its_field() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    let id = piece(&desk, "K7-1-X a");
    let before = checks(&desk, id);
    assert!(desk.press("It moved: measure"));
    assert!(desk.press("Save, next"));
    says(&desk, "Type what was measured, or say that nothing moved.");
    desk.type_into("Bow", "much");
    desk.type_into("Crook", "+2.6");
    desk.type_into("Twist", "a lot");
    assert!(desk.press("Save, next"));
    says(&desk, "“much” can't be read.");
    says(&desk, "“a lot” can't be read.");
    assert_eq!(checks(&desk, id), before);
    // Half typed, it is offered where the racks are, and stands open again.
    desk.go(Route::Racks);
    says(&desk, "K7-1-X a: It moved");
    assert!(desk.press("K7-1-X a: It moved"));
    says(&desk, "You had begun this.");
    desk.type_into("Bow", "0.3");
    desk.type_into("Twist", "");
    assert!(desk.press("Save, next"));
    assert_eq!(checks(&desk, id), before + 1);
    says(&desk, "1 of 5 looked over");
    says_not(&desk, "Save, next");
    assert!(!desk.model.forms.contains_key(&format!("{id}/check")));
}

#[test]
fn the_day_and_who_looked_are_typed_once_for_the_round() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    desk.type_into("Who looked", "the apprentice");
    desk.type_into("Day", "");
    assert!(desk.press("No change since last time"));
    says(&desk, "Which day was it?");
    desk.type_into("Day", "2026-11-18");
    assert!(desk.press("No change since last time"));
    // Asked once for the round: another check is later.
    says(&desk, "That is before 2026-11-20");
    assert!(desk.press("Keep it as typed"));
    assert!(desk.press("No change since last time"));
    assert!(desk.model.dialog.is_none(), "not asked again");
    assert!(desk.press("Undo last"));
    let checked_id = piece(&desk, "K7-1-X a");
    let checked = desk.model.state().piece(checked_id).unwrap();
    let of_day = checked
        .work
        .checks
        .iter()
        .filter(|check| check.on.to_string() == "2026-11-18");
    let last = of_day.last().unwrap();
    assert_eq!(last.payload.who, "the apprentice");
    assert!(last.payload.nothing_moved);
    // The check of that day is undone, not the last by the calendar.
    let before = checks(&desk, checked_id);
    assert!(desk.press("Undo last"));
    assert_eq!(checks(&desk, checked_id), before - 1);
    let piece = desk.model.state().piece(checked_id).unwrap();
    assert!(
        piece
            .work
            .checks
            .iter()
            .all(|check| check.on.to_string() != "2026-11-18")
    );
    // A day to come is asked about once.
    desk.type_into("Day", "2062-01-01");
    assert!(desk.press("No change since last time"));
    assert!(desk.model.dialog.is_some(), "asked first");
    desk.act(Action::CloseDialog);
    // What is typed of the round is there again after a reload.
    desk.go(Route::LookOver);
    assert_eq!(desk.model.racks.round.texts["Who looked"], "the apprentice");
}

#[test]
fn a_rack_is_looked_over_by_keyboard_on_a_wide_screen() {
    let mut desk = sample_on("2026-11-21");
    desk.act(Action::Wide(true));
    desk.press("Look over Shelf A");
    says(&desk, "Enter or N: no change");
    for key in ["n", "ArrowDown", "Enter"] {
        desk.model.now.millis += 400;
        desk.act(Action::Key(key.to_owned()));
    }
    says(&desk, "2 of 5 looked over");
    desk.model.now.millis += 400;
    desk.act(Action::Key("m".to_owned()));
    says(&desk, "Save, next");
    desk.act(Action::Key("Escape".to_owned()));
    desk.model.now.millis += 400;
    desk.act(Action::Key("Backspace".to_owned()));
    says(&desk, "1 of 5 looked over");
}

#[test]
fn a_check_that_could_not_be_kept_is_told_and_can_be_made_again() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    desk.refuses = true;
    desk.press("No change since last time");
    says(&desk, "the device is full");
    says(&desk, "0 of 5 looked over");
    desk.refuses = false;
    desk.model.now.millis += 10_000;
    desk.press("No change since last time");
    says(&desk, "1 of 5 looked over");
}
