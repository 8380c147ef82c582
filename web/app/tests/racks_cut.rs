//! A cut, rest times and rooms, labels.

mod at_the_desk;

use at_the_desk::{at, piece, press, region, says, says_not};
use stillwood_app::Route;
use stillwood_app::effect::Effect;
use stillwood_core::record::commands::cut_plan;
use stillwood_core::record::{Event, Life, queries};
use stillwood_core::season::Stage;

#[test]
fn a_cut_is_drawn_first_what_is_not_known_is_hatched_and_parts_take_their_marks() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(id));
    says(&desk, "10 laminates: 10 quartersawn");
    says(&desk, "Look for metal first.");
    let marks = queries::marks_for(
        desk.model.state(),
        "K7-13-M b",
        stillwood_core::record::PieceKind::Laminate,
        2,
    );
    assert_eq!(marks, ["K7-13-M b1", "K7-13-M b2"]);
    // Two parts of one mark are told at their fields.
    desk.type_into("marks/1", "K7-13-M b1");
    says(&desk, "stands on two of them");
    desk.press("Record the cut");
    assert!(desk.model.state().piece(id).unwrap().is_at_hand());
    desk.type_into("marks/1", "K7-13-M b22");
    // The third sprang, the tenth was not cut.
    press(&mut desk, "Piece 3: kept");
    press(&mut desk, "Piece 10: kept");
    press(&mut desk, "Piece 10: sprang");
    desk.type_into("It sprang by", "+9");
    says(&desk, "That is beyond your limit of 2 mm over this length.");
    press(&mut desk, "Record the cut");
    assert_eq!(desk.model.route, Route::Piece(id));
    says(&desk, "Cut");
    let made = queries::made_from(desk.model.state(), id);
    assert_eq!(made.len(), 9);
    assert!(
        desk.model
            .state()
            .pieces()
            .any(|piece| piece.mark == "K7-13-M b22")
    );
    let gone = made
        .iter()
        .filter(|id| desk.model.state().piece(**id).unwrap().life().0 == Life::Discarded);
    assert_eq!(gone.count(), 1);
    // It is no longer there to be cut.
    desk.go(Route::Cut(id));
    says(&desk, "It is no longer here to be cut");
}

#[test]
fn a_mark_that_was_typed_for_another_plan_is_not_taken_for_this_one() {
    let other_plan = || {
        let mut desk = at(Route::Racks);
        let id = piece(&desk, "K7-13-M b");
        desk.go(Route::Cut(id));
        desk.type_into("marks/0", "X1");
        assert!(region(&desk, "body").contains("X1"));
        desk.type_into(cut_plan::KERF.key, "9");
        says_not(&desk, "10 laminates");
        assert!(!region(&desk, "body").contains("X1"));
        desk
    };
    let mut desk = other_plan();
    press(&mut desk, "Piece 2: kept");
    assert!(!region(&desk, "body").contains("X1"));
    let mut desk = other_plan();
    desk.type_into("marks/1", "Y2");
    let body = region(&desk, "body");
    assert!(body.contains("Y2") && !body.contains("X1"), "{body}");
    let mut desk = other_plan();
    desk.act(stillwood_app::racks::Action::AllSprang);
    assert!(!region(&desk, "body").contains("X1"));
    // Of one plan, a fate leaves the marks as they were typed.
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(id));
    desk.type_into("marks/0", "X1");
    press(&mut desk, "Piece 2: kept");
    assert!(region(&desk, "body").contains("X1"));
}

#[test]
fn a_cut_of_wood_whose_rings_nobody_read_is_grey_and_never_green() {
    let mut desk = at(Route::Racks);
    let read = |piece: &stillwood_core::record::Piece| {
        piece
            .value(stillwood_core::plank::Field::RingAngle)
            .is_some()
            || piece
                .value(stillwood_core::plank::Field::RingChord)
                .is_some()
    };
    let state = desk.model.state();
    let found = queries::stock(state).find(|piece| {
        piece.work.kind == stillwood_core::record::PieceKind::Plank
            && piece.is_bought()
            && !read(piece)
            && queries::stock_to_cut(state, piece).is_some()
    });
    let Some(id) = found.map(|piece| piece.id) else {
        return;
    };
    desk.go(Route::Cut(id));
    desk.press("laminates");
    says(&desk, "rings not known");
    let body = region(&desk, "body");
    assert!(body.contains("strip unknown"));
    assert!(!body.contains("strip good"));
}

#[test]
fn rest_times_are_changed_and_what_is_wrong_stands_at_its_field() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "Rest times and rooms");
    says(&desk, "warn over 1 mm, reject over 2 mm");
    press(&mut desk, "Change: Rest time of laminates");
    desk.type_into("Months at least", "8.5");
    desk.type_into("Bow: watched beyond", "3");
    press(&mut desk, "Save");
    says(&desk, "A whole number up to 600");
    desk.type_into("Months at least", "8");
    desk.type_into("Bow: watched beyond", "");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::RestTimes);
    assert_eq!(
        queries::stage_limits(desk.model.state(), Stage::Laminates).months,
        8
    );
    says(&desk, "8 to 12 months");
}

#[test]
fn a_rooms_air_is_logged_and_what_wood_settles_at_is_told() {
    let mut desk = at(Route::Racks);
    desk.go(Route::RestTimes);
    press(&mut desk, "Log room air");
    desk.type_into("Room", "");
    press(&mut desk, "Save");
    says(&desk, "This is still to be typed.");
    desk.type_into("Room", "bench");
    desk.type_into("Humidity of the air", "45");
    press(&mut desk, "Save");
    says(&desk, "Bench");
    says(&desk, "8.5 %");
    let read = desk
        .model
        .record
        .log()
        .entries()
        .filter(|entry| matches!(entry.event, Event::RoomRead(_)));
    assert!(read.count() > 0);
    press(&mut desk, "wood settles at: 8.5 %");
    says(&desk, "How it is worked out");
}

#[test]
fn a_label_holds_the_whole_mark_as_a_code_and_no_cost() {
    let mut desk = at(Route::Racks);
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    press(&mut desk, "Label");
    let body = region(&desk, "body");
    assert!(body.contains("aria-label=\"K7-13-M a\""), "{body}");
    says(&desk, "rest over since 25 Apr 2026");
    for secret in ["EUR", "USD", "87.10", "score"] {
        says_not(&desk, secret);
    }
    press(&mut desk, "Print");
    assert!(matches!(desk.left.as_slice(), [.., Effect::Print]));
    desk.go(Route::Rack(id));
    press(&mut desk, "Label");
    says(&desk, "K7-13-M b");
    says_not(&desk, "EUR");
}

#[test]
fn where_all_of_it_sprang_what_was_never_cut_stays_so() {
    let mut desk = at(Route::Racks);
    desk.go(Route::Cut(piece(&desk, "K7-13-M b")));
    press(&mut desk, "Piece 10: kept");
    press(&mut desk, "Piece 10: sprang");
    desk.type_into("It sprang by", "+9");
    press(&mut desk, "All of it sprang");
    press(&mut desk, "Piece 9: sprang");
    press(&mut desk, "Piece 10: not cut");
}
