//! Faults of looking a rack over.

use super::*;
use at_the_desk::sample_on;
use stillwood_app::racks::Action as Racks;

/// The rack of K7-1-X a, which was looked at on 20 November.
fn shelf_a() -> (Desk, Id) {
    let mut desk = sample_on("2026-11-21");
    desk.go(Route::Racks);
    desk.press("Look over Shelf A");
    let first = piece(&desk, "K7-1-X a");
    (desk, first)
}

fn days(desk: &Desk, id: Id) -> Vec<String> {
    let piece = desk.model.state().piece(id).unwrap();
    let mut checks: Vec<_> = piece.work.checks.iter().collect();
    checks.sort_by_key(|check| check.place);
    checks.iter().map(|check| check.on.to_string()).collect()
}

fn in_form(desk: &Desk, key: &str) -> String {
    desk.model.form.as_ref().unwrap().text(key).to_owned()
}

#[test]
fn a_question_about_the_day_is_shown_and_answered_where_a_piece_moved() {
    let (mut desk, id) = shelf_a();
    desk.type_into("Day", "2026-11-18");
    press(&mut desk, "It moved: measure");
    desk.type_into("Bow", "0.3");
    press(&mut desk, "Save, next");
    says(&desk, "That is before 2026-11-20");
    press(&mut desk, "Keep it as typed");
    assert_eq!(days(&desk, id).last().unwrap(), "2026-11-18");
    says(&desk, "1 of 5 looked over");
    // It was answered for the round.
    press(&mut desk, "No change since last time");
    assert!(desk.model.dialog.is_none(), "not asked again");
    says(&desk, "2 of 5 looked over");
}

#[test]
fn what_is_wrong_with_the_day_is_shown_and_mended_where_a_piece_moved() {
    let (mut desk, id) = shelf_a();
    desk.type_into("Day", "");
    press(&mut desk, "It moved: measure");
    desk.type_into("Bow", "0.3");
    press(&mut desk, "Save, next");
    says(&desk, "Which day was it?");
    let pane = region(&desk, "body");
    assert!(pane.contains("id=\"field-Day\""), "{pane}");
    desk.type_into("Day", "2026-11-21");
    press(&mut desk, "Save, next");
    assert_eq!(days(&desk, id).last().unwrap(), "2026-11-21");
    // It is the day of the round.
    assert_eq!(desk.model.racks.round.texts["Day"], "2026-11-21");
    says(&desk, "1 of 5 looked over");
    press(&mut desk, "Undo last");
    says(&desk, "The check of K7-1-X a is deleted.");
}

#[test]
fn what_was_half_typed_of_a_piece_that_moved_stands() {
    let (mut desk, id) = shelf_a();
    press(&mut desk, "It moved: measure");
    desk.type_into("Bow", "0.3");
    desk.type_into("Off by at most", "0.1");
    desk.go(Route::Racks);
    press(&mut desk, "K7-1-X a: It moved");
    assert_eq!(in_form(&desk, "Bow"), "0.3");
    assert_eq!(in_form(&desk, "Off by at most"), "0.1");
    press(&mut desk, "Save, next");
    let within = |desk: &Desk| {
        let piece = desk.model.state().piece(id).unwrap();
        let last = piece.work.checks.iter().max_by_key(|check| check.place);
        let of_last = last.unwrap().payload.within.as_ref();
        of_last.map(|within| within.value)
    };
    assert_eq!(within(&desk), Some(0.1));
    // Undone, it stands open as it was typed.
    press(&mut desk, "Undo");
    assert_eq!(in_form(&desk, "Bow"), "0.3");
    assert_eq!(in_form(&desk, "Off by at most"), "0.1");
}

#[test]
fn what_was_confirmed_of_a_piece_that_moved_stands_beside_a_day_that_was_confirmed() {
    let (mut desk, _) = shelf_a();
    desk.type_into("Day", "2026-11-18");
    press(&mut desk, "No change since last time");
    press(&mut desk, "Keep it as typed");
    let second = piece(&desk, "K7-13-M a");
    desk.act(Racks::GoTo(second));
    press(&mut desk, "It moved: measure");
    // A bow far beyond its limit is asked about.
    desk.type_into("Bow", "95");
    desk.type_into("Crook", "95");
    press(&mut desk, "Save, next");
    let confirmed = |desk: &Desk, key: &str| {
        let texts = &desk.model.form.as_ref().unwrap().texts;
        let units = desk.model.settings.units;
        stillwood_core::record::Form::new(texts, units).is_confirmed(key)
    };
    let asked = desk.model.form.as_ref().unwrap().questions.clone();
    let keys: Vec<&str> = asked.iter().map(|one| one.key.as_str()).collect();
    assert_eq!(keys, ["Bow", "Crook"]);
    press(&mut desk, "Keep it as typed");
    assert!(confirmed(&desk, "Bow"));
    press(&mut desk, "Cancel");
    desk.act(Racks::GoTo(second));
    press(&mut desk, "It moved: measure");
    for left in ["cancelled", "gone elsewhere"] {
        assert!(confirmed(&desk, "Bow"), "{left}");
        assert!(confirmed(&desk, "Day"), "for the round: {left}");
        assert!(!confirmed(&desk, "Crook"), "{left}");
        desk.go(Route::LookOver);
    }
}

#[test]
fn the_day_of_the_round_is_that_of_a_piece_that_was_half_typed_before() {
    let (mut desk, id) = shelf_a();
    press(&mut desk, "It moved: measure");
    desk.type_into("Bow", "0.3");
    press(&mut desk, "Cancel");
    desk.type_into("Day", "2026-11-20");
    desk.type_into("Who looked", "the apprentice");
    desk.type_into("Off by at most", "0.1");
    desk.act(Racks::GoTo(id));
    press(&mut desk, "It moved: measure");
    assert_eq!(in_form(&desk, "Day"), "2026-11-20");
    assert_eq!(in_form(&desk, "Who looked"), "the apprentice");
    assert_eq!(
        in_form(&desk, "Off by at most"),
        "0.1",
        "nothing stood in it"
    );
    assert_eq!(in_form(&desk, "Bow"), "0.3");
}

/// Presses “No change” until the rack is done.
fn look_over_all(desk: &mut Desk) {
    while desk.reads().contains("No change since last time") {
        press(desk, "No change since last time");
    }
    says(desk, "looked over.");
}

fn on_day(desk: &mut Desk, day: &str) {
    desk.model.now.day = day.to_owned();
    desk.go(Route::Racks);
}

#[test]
fn a_round_of_another_day_begins_on_its_own() {
    let (mut desk, id) = shelf_a();
    desk.type_into("Who looked", "the apprentice");
    desk.type_into("Off by at most", "0.1");
    look_over_all(&mut desk);
    let body = region(&desk, "body");
    assert!(body.contains("id=\"field-Day\""), "{body}");
    on_day(&mut desk, "2026-11-24");
    press(&mut desk, "Look over Shelf A");
    says(&desk, "0 of 5 looked over");
    let texts = &desk.model.racks.round.texts;
    assert_eq!(texts["Who looked"], "the apprentice");
    assert_eq!(texts["Off by at most"], "");
    press(&mut desk, "No change since last time");
    assert_eq!(days(&desk, id).last().unwrap(), "2026-11-24");
}

#[test]
fn a_day_and_a_feeler_are_kept_for_the_day_on_which_they_were_typed() {
    let (mut desk, _) = shelf_a();
    desk.type_into("Day", "2026-11-20");
    desk.type_into("Off by at most", "0.1");
    on_day(&mut desk, "2026-11-21");
    press(&mut desk, "Look over Shelf A");
    assert_eq!(desk.model.racks.round.texts["Day"], "2026-11-20");
    assert_eq!(desk.model.racks.round.texts["Off by at most"], "0.1");
    // A bare number stands for another length then.
    desk.model.settings.units = stillwood_core::quantity::read::Units::Inch;
    desk.go(Route::LookOver);
    assert_eq!(desk.model.racks.round.texts["Off by at most"], "");
    on_day(&mut desk, "2026-11-22");
    press(&mut desk, "Look over Shelf A");
    assert_eq!(desk.model.racks.round.texts["Day"], "2026-11-22");
}

#[test]
fn a_half_typed_look_opens_on_the_rack_that_was_chosen_or_where_none_was() {
    let (mut desk, _) = shelf_a();
    press(&mut desk, "It moved: measure");
    desk.type_into("Bow", "0.3");
    desk.go(Route::Racks);
    press(&mut desk, "Look over Shelf B");
    assert_eq!(desk.model.racks.round.place.as_deref(), Some("shelf B"));
    assert!(desk.model.form.is_none());
    // After a reload none is chosen.
    desk.model.racks.round.place = None;
    desk.go(Route::LookOver);
    assert_eq!(in_form(&desk, "Bow"), "0.3");
}

#[test]
fn a_field_stands_once_on_a_wide_screen_where_a_piece_moved() {
    let (mut desk, _) = shelf_a();
    desk.act(Action::Wide(true));
    press(&mut desk, "It moved: measure");
    let pane = region(&desk, "pane");
    assert_eq!(pane.matches("id=\"field-Day\"").count(), 1, "{pane}");
}

#[test]
fn that_a_check_is_deleted_is_said_once_it_is_kept() {
    let (mut desk, _) = shelf_a();
    press(&mut desk, "No change since last time");
    desk.refuses = true;
    press(&mut desk, "Undo last");
    says(&desk, "the device is full");
    says_not(&desk, "is deleted");
    says(&desk, "1 of 5 looked over");
    desk.refuses = false;
    press(&mut desk, "Undo last");
    says(&desk, "The check of K7-1-X a is deleted.");
    says(&desk, "0 of 5 looked over");
}

#[test]
fn a_question_about_the_day_is_asked_in_the_makers_language() {
    let (mut desk, id) = shelf_a();
    desk.model.settings.language = stillwood_app::words::Language::German;
    desk.type_into("Day", "2062-01-01");
    desk.act(Racks::NoChange(id));
    says(&desk, "Dieser Tag kommt erst noch.");
}
