//! Home after a visit, and after a cut: planks that are on no rack yet, and parts that are not at rest yet, are told on
//! Today and in the racks, and one form puts them all away.

mod at_the_desk;

use at_the_desk::{DAY, piece, press, sample, says, says_not};
use stillwood_app::desk::Desk;
use stillwood_app::{Route, blanks};
use stillwood_core::record::{Decision, Id, queries};
use stillwood_core::season::Stage;

/// A visit to Hopple: three planks bought, one held.
fn home() -> (Desk, Id, Vec<Id>) {
    let mut desk = Desk::new(DAY);
    let visit = visit(&mut desk);
    let planks = [(); 3].map(|()| plank(&mut desk, Decision::Take));
    plank(&mut desk, Decision::SetAside);
    (desk, visit, planks.to_vec())
}

/// A visit with a pile.
fn visit(desk: &mut Desk) -> Id {
    desk.go(Route::Yard);
    press(desk, "Start a visit");
    desk.type_into("Yard", "Hopple");
    press(desk, "Save");
    let visit = desk.model.state().visits().next().unwrap().id;
    press(desk, "New pile");
    desk.type_into("Wood", "hard maple");
    press(desk, "Save");
    visit
}

/// A plank of that pile, measured by its length alone, and decided.
fn plank(desk: &mut Desk, decision: Decision) -> Id {
    let pile = desk.model.state().piles().next().unwrap().id;
    desk.go(Route::Sort(pile));
    press(desk, "Measure it now");
    desk.keys("2620");
    press(desk, "Next");
    press(desk, "To the verdict");
    let Route::Verdict(id) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    match decision {
        Decision::Take => press(desk, "Buy"),
        _ => press(desk, "Hold"),
    }
    id
}

#[test]
fn what_a_visit_brought_home_is_told_on_today_and_in_the_racks() {
    let (mut desk, _, _) = home();
    for route in [Route::Today, Route::Racks] {
        desk.go(route);
        says(&desk, "3 planks from Hopple are on no rack yet");
        says_not(&desk, "Nothing is due this week");
    }
}

#[test]
fn one_form_puts_them_all_on_a_rack_and_one_press_undoes_it() {
    let (mut desk, _, planks) = home();
    desk.go(Route::Today);
    desk.presses = 0;
    press(&mut desk, "Put on a rack");
    desk.type_into("Shelf", "north wall");
    press(&mut desk, "Put 3 planks on the rack");
    assert_eq!(desk.presses, 2);
    assert_eq!(desk.model.route, Route::Racks);
    says(&desk, "3 planks are on their rack.");
    let place = |desk: &Desk, plank: &Id| {
        let place = desk.model.state().piece(*plank).unwrap().work.place.clone();
        place.map(|place| (place.payload, place.on.to_string()))
    };
    for plank in &planks {
        let there = ("north wall".to_owned(), DAY.to_owned());
        assert_eq!(place(&desk, plank), Some(there));
    }
    desk.go(Route::Today);
    says_not(&desk, "on no rack yet");
    desk.go(Route::Racks);
    press(&mut desk, "Undo");
    assert!(planks.iter().all(|plank| place(&desk, plank).is_none()));
    // The form stands open again with what was typed.
    assert!(matches!(desk.model.route, Route::RackPlanks(_)));
    says(&desk, "Put 3 planks on the rack");
}

#[test]
fn any_plank_can_be_left_out_and_none_at_all_is_said() {
    let (mut desk, visit, planks) = home();
    let marks: Vec<String> = planks
        .iter()
        .map(|id| desk.model.state().piece(*id).unwrap().mark.clone())
        .collect();
    desk.go(Route::RackPlanks(visit));
    for mark in &marks {
        press(&mut desk, mark);
    }
    desk.type_into("Shelf", "loft");
    press(&mut desk, "Put on the rack");
    says(&desk, "Choose a piece at least.");
    press(&mut desk, &marks[1]);
    press(&mut desk, "Put 1 plank on the rack");
    let lies = |id: &Id| desk.model.state().piece(*id).unwrap().work.place.is_some();
    assert_eq!(
        planks.iter().map(lies).collect::<Vec<_>>(),
        [false, true, false]
    );
    desk.go(Route::Today);
    says(&desk, "2 planks from Hopple are on no rack yet");
}

#[test]
fn a_visit_of_which_all_are_racked_says_so() {
    let mut desk = sample();
    let visit = desk.model.state().visits().next().unwrap().id;
    desk.go(Route::RackPlanks(visit));
    says(&desk, "All its planks are on a rack.");
}

#[test]
fn the_parts_of_a_cut_are_set_to_rest_together_from_the_page_of_what_was_cut() {
    let mut desk = sample();
    let cut = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(cut));
    press(&mut desk, "Record the cut");
    assert_eq!(desk.model.route, Route::Piece(cut));
    says(&desk, "10 laminates of K7-13-M b are not at rest yet");
    desk.go(Route::Today);
    says(&desk, "10 laminates of K7-13-M b are not at rest yet");
    desk.go(Route::Piece(cut));
    desk.presses = 0;
    press(&mut desk, "Set to rest");
    assert_eq!(desk.model.route, Route::RestParts(cut));
    // They may rest where they are: no rack has to be named.
    press(&mut desk, "K7-13-M b2");
    press(&mut desk, "Set 9 laminates to rest");
    assert_eq!(desk.presses, 3);
    says(&desk, "9 laminates are at rest.");
    let state = desk.model.state();
    let parts = queries::to_put_away(state);
    let left = parts.iter().find(|one| one.from == "K7-13-M b").unwrap();
    assert_eq!(left.pieces.len(), 1);
    let first = piece(&desk, "K7-13-M b1");
    let rest = state.piece(first).unwrap().work.rest().unwrap();
    assert_eq!(rest.payload.stage, Stage::Laminates);
    assert_eq!(rest.on.to_string(), DAY);
    desk.go(Route::Piece(cut));
    press(&mut desk, "Set to rest");
    press(&mut desk, "Set 1 laminate to rest");
    desk.go(Route::RestParts(cut));
    says(&desk, "No part of it waits to be set to rest.");
}

/// A rest that is over leads to the rack that is looked over; what was never measured there is measured first.
#[test]
fn what_has_rested_is_looked_over_from_today_in_the_order_of_its_marks() {
    let mut desk = sample();
    let cut = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(cut));
    press(&mut desk, "Record the cut");
    press(&mut desk, "Set to rest");
    desk.type_into("Shelf", "lamella shelf");
    press(&mut desk, "Set 10 laminates to rest");
    desk.model.now.day = "2028-01-10".to_owned();
    desk.go(Route::Racks);
    press(&mut desk, "By day");
    press(&mut desk, "10 laminates of K7-13-M");
    let reads = desk.reads();
    let at = |mark: &str| {
        reads
            .find(mark)
            .unwrap_or_else(|| panic!("{mark}: {reads}"))
    };
    assert!(at("K7-13-M b2") < at("K7-13-M b10"), "{reads}");
    desk.go(Route::Today);
    press(&mut desk, "Look over Lamella shelf");
    assert_eq!(desk.model.route, Route::LookOver);
    says(&desk, "0 of 10 looked over");
    press(&mut desk, "Measure it");
    says(&desk, "Save, next");
}

/// Where none is known to be ready the maker puts a set together by hand: each goes to the next empty place.
#[test]
fn a_set_that_is_put_together_by_hand_goes_on_at_the_next_empty_place() {
    let mut desk = Desk::new(DAY);
    visit(&mut desk);
    let pile = desk.model.state().piles().next().unwrap().id;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    for typed in ["2620", "214", "205", "193", "52"] {
        desk.keys(typed);
        press(&mut desk, "Next");
    }
    press(&mut desk, "To the verdict");
    let Route::Verdict(plank) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    press(&mut desk, "Buy");
    if desk.reads().contains("all the same") {
        press(&mut desk, "Buy");
    }
    desk.go(Route::Cut(plank));
    press(&mut desk, "Record the cut");
    press(&mut desk, "Set to rest");
    press(&mut desk, "Set 16 laminates to rest");
    desk.model.now.day = "2028-01-10".to_owned();
    desk.go(Route::Match);
    let none_chosen = "No laminate is chosen: press those that may be glued.";
    assert!(desk.reads().contains(none_chosen));
    press(&mut desk, "Show all");
    let mark = desk.model.state().piece(plank).unwrap().mark.clone();
    // It is not known whether they are ready. That is asked of the first, and holds for the others of the set.
    for n in 1..=3 {
        press(&mut desk, &format!("{mark} {n}"));
        if n == 1 {
            press(&mut desk, "Use it all the same");
        }
    }
    let set = &desk.model.blanks.matching.set;
    let standing: Vec<Option<Id>> = set
        .iter()
        .map(|one| one.as_ref().map(|one| one.piece))
        .collect();
    let marks = [1, 2, 3].map(|n| Some(piece(&desk, &format!("{mark} {n}"))));
    assert_eq!(standing, [marks[0], marks[1], marks[2], None, None]);
    assert_eq!(desk.model.blanks.matching.slot, 3);
    assert!(!desk.reads().contains(none_chosen));
    // Left and taken up again, the places that are still empty stand there.
    desk.go(Route::Today);
    desk.model.blanks = Default::default();
    desk.go(Route::Match);
    let set = &desk.model.blanks.matching.set;
    let standing: Vec<bool> = set.iter().map(Option::is_some).collect();
    assert_eq!(standing, [true, true, true, false, false]);
    assert!(!desk.reads().contains(none_chosen));
    assert_eq!(desk.model.blanks.matching.slot, 3);
    // One that takes another's place stays in view.
    press(&mut desk, "Place 2");
    press(&mut desk, &format!("{mark} 5"));
    assert_eq!(desk.model.blanks.matching.slot, 1);
}

/// The sample with a blank N1 that was glued a moment ago.
fn just_glued() -> (Desk, Id) {
    let mut desk = sample();
    desk.go(Route::Match);
    press(&mut desk, "Glue these 5");
    press(&mut desk, "Go on all the same");
    desk.type_into("Mark of the blank", "N1");
    press(&mut desk, "Record the gluing");
    let blank = piece(&desk, "N1");
    (desk, blank)
}

fn set_to_rest_from_today(desk: &mut Desk, blank: Id) {
    desk.go(Route::Today);
    says(desk, "N1 is glued and not at rest yet");
    press(desk, "Set to rest");
    assert_eq!(desk.model.route, Route::RestBlank(blank));
    press(desk, "Set to rest");
    says(desk, "The blank is at rest.");
}

/// A blank rests once it is glued: until it is set to rest, Today says so.
#[test]
fn a_blank_that_was_glued_is_set_to_rest_from_today() {
    let (mut desk, blank) = just_glued();
    // What was glued today was not glued "1 day ago".
    desk.go(Route::Blank(blank));
    says(&desk, "Glued");
    says_not(&desk, " ago");
    set_to_rest_from_today(&mut desk, blank);
    let rest = desk.model.state().piece(blank).unwrap().work.rest();
    assert_eq!(rest.unwrap().payload.stage, Stage::Blanks);
    desk.go(Route::Today);
    says_not(&desk, "N1 is glued");
    desk.go(Route::RestBlank(blank));
    says(&desk, "This blank does not wait to be set to rest.");
}

/// A blank that somebody chose before it ever rested still has to.
#[test]
fn a_blank_that_was_reserved_before_it_rested_is_set_to_rest_from_today() {
    let (mut desk, blank) = just_glued();
    desk.go(Route::Blank(blank));
    desk.act(blanks::Action::Open(blank, "Reserve"));
    desk.type_into("For whom", "Bo");
    desk.type_into("Until, the last day", "2027-12-01");
    press(&mut desk, "Save");
    set_to_rest_from_today(&mut desk, blank);
    desk.go(Route::Today);
    says_not(&desk, "N1 is glued");
}
