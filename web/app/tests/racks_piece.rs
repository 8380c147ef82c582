//! A piece: what is next for it, all that can be done with it, its charts and family.

mod at_the_desk;

use at_the_desk::{at, piece, press, region, says, says_not};
use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route};
use stillwood_core::record::Life;
use stillwood_core::season::Stage;

#[test]
fn what_moved_is_flattened_first_and_set_to_rest_in_the_same_form() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
    let foot: Vec<String> = {
        let foot = region(&desk, "foot");
        stillwood_app::desk::text_of(&foot)
            .lines()
            .map(str::to_owned)
            .collect()
    };
    assert_eq!(foot, ["More", "Discard", "Flatten and rest again"]);
    press(&mut desk, "Flatten and rest again");
    assert_eq!(desk.model.route, Route::Deed(id));
    // Crook moved: an edge is made straight, and no face need be flattened for it.
    let ticked = |desk: &Desk, field: &str| desk.model.form.as_ref().unwrap().text(field) == "yes";
    assert!(ticked(&desk, "An edge was made straight"));
    assert!(!ticked(&desk, "A face was made flat"));
    desk.type_into("Thickness", "9 stone");
    press(&mut desk, "Save");
    says(&desk, "can't be read");
    desk.type_into("Thickness", "48.2");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::Piece(id));
    says(&desk, "Rests until 20 May 2027");
    let known = desk.model.state().piece(id).unwrap();
    assert_eq!(known.work.rest().unwrap().on.to_string(), "2026-11-20");
    assert_eq!(
        known.work.machined.last().unwrap().on.to_string(),
        "2026-11-20"
    );
    // Both go with one undo.
    press(&mut desk, "Undo");
    desk.go(Route::Piece(id));
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
}

#[test]
fn a_plank_that_was_cut_lies_on_no_rack_and_dries_no_more() {
    let mut desk = at(Route::Racks);
    desk.go(Route::Piece(piece(&desk, "K7-5-P")));
    says(&desk, "since 25 Oct 2025");
    // It was there: its history says so.
    says(&desk, "Put on rack by the wall");
    for gone in ["Rack: ", "Rack by the wall", "Drying", "Four weighings"] {
        says_not(&desk, gone);
    }
}

#[test]
fn every_command_that_fits_lies_behind_more_and_records() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-5-P b3");
    desk.go(Route::Piece(id));
    desk.press("More");
    for name in [
        "Put on a rack",
        "Weigh",
        "Moisture",
        "Check movement",
        "Machined flat",
        "Rings and grain",
        "Stress test",
        "Set to rest",
        "Discard",
        "Downgrade",
        "Missing",
        "Reserve",
        "Used",
        "Cut",
        "Flatten and rest again",
    ] {
        says(&desk, name);
    }
    press(&mut desk, "Weigh");
    press(&mut desk, "Save");
    says(&desk, "This is still to be typed.");
    desk.type_into("Weight", "19 stone");
    says(&desk, "can't be read");
    desk.type_into("Weight", "431 g");
    press(&mut desk, "Save");
    let last = desk
        .model
        .state()
        .piece(id)
        .unwrap()
        .work
        .weighings
        .last()
        .unwrap()
        .payload
        .clone();
    assert!((last.mass.value - 0.431).abs() < 1e-9);
    says(&desk, "431 g on 20 Nov");
    // What is said of it lies over none of the keys.
    says(&desk, "Undo");
    desk.press("More");
    says_not(&desk, "Undo");
    desk.press("Close");
    // Discarded only with a reason, and brought back by one touch.
    desk.press("More");
    desk.press("Discard");
    desk.press("Save");
    says(&desk, "Say why");
    desk.press("sprang at the saw");
    desk.press("Save");
    says(&desk, "Discarded");
    assert!(
        desk.page().regions.iter().all(|one| one.id != "foot"),
        "nothing is to be done with it"
    );
    press(&mut desk, "Undo");
    assert!(matches!(
        desk.model.state().piece(id).unwrap().life().0,
        Life::Resting(Stage::Laminates)
    ));
}

#[test]
fn a_half_typed_form_stands_on_the_page_of_its_piece_and_goes_on() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-5-P b3");
    desk.go(Route::Piece(id));
    desk.press("More");
    desk.press("Weigh");
    desk.type_into("Weight", "43");
    desk.go(Route::Today);
    says(&desk, "K7-5-P b3: Weigh");
    desk.go(Route::Piece(id));
    says(&desk, "Half typed: Weigh.");
    press(&mut desk, "Go on");
    assert_eq!(desk.model.form.as_ref().unwrap().text("Weight"), "43");
    // The address of a form of which nothing is known leads to its piece.
    desk.press("Start afresh");
    desk.model.racks.deed = None;
    desk.model.shown.remove("stood-open");
    desk.go(Route::Deed(id));
    assert_eq!(desk.model.route, Route::Piece(id));
}

#[test]
fn figures_tell_how_they_are_worked_out_and_charts_say_what_they_show() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    press(&mut desk, "Change of crook");
    says(&desk, "How it is worked out");
    desk.act(Action::CloseDialog);
    let body = region(&desk, "body");
    assert!(
        body.contains("crook +3.4 mm, limit 2 mm"),
        "the chart says the same"
    );
    press(&mut desk, "Rest over since");
    desk.act(Action::CloseDialog);
    // The scale of the weights shows noise as noise: 6 % of moisture at least.
    let id = piece(&desk, "R4-9-A a");
    desk.go(Route::Piece(id));
    says(
        &desk,
        "The band is what it would weigh once settled in the air of its room.",
    );
    let id = piece(&desk, "K7-2-V");
    desk.go(Route::Piece(id));
    says(
        &desk,
        "Four weighings with the air of its room logged tell where it settles.",
    );
    says(&desk, "Yard sheet");
}

#[test]
fn a_family_goes_from_the_plank_to_what_was_made() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    says(&desk, "and 1 more of the same cut");
    press(&mut desk, "K7-13-M");
    says(&desk, "Cut");
    let laminate = piece(&desk, "K7-5-P a2");
    desk.go(Route::Piece(laminate));
    says(&desk, "K7-5-P a");
    says(&desk, "of the same cut");
}

#[test]
fn a_form_that_asks_for_a_rack_offers_those_that_are_known() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    press(&mut desk, "Flatten and rest again");
    press(&mut desk, "loft");
    assert_eq!(desk.model.form.as_ref().unwrap().text("Shelf"), "loft");
    desk.type_into("Thickness", "48.2");
    press(&mut desk, "Save");
    let known = desk.model.state().piece(id).unwrap();
    assert_eq!(known.work.rest().unwrap().payload.place, "loft");
}
