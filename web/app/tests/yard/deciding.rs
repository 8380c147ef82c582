//! Planks bought, rejected and undone: on the verdict, on a sheet, and with the keys of the phone.

use super::*;
use stillwood_core::plank::Field;

fn entries(desk: &Desk) -> usize {
    desk.model.record.log().everything().count()
}

/// A pile of maple with a plank that was marked and never measured.
fn marked() -> (Desk, Id) {
    let mut desk = begun();
    let pile = desk.model.yard.entering.as_ref().unwrap().draft.pile;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Maybe");
    press(&mut desk, "Chalked, next");
    let id = desk.model.state().pieces_of(pile).next().unwrap().id;
    (desk, id)
}

#[test]
fn buying_on_a_sheet_asks_what_the_verdict_asks() {
    let (mut desk, id) = marked();
    desk.go(Route::Plank(id));
    let before = entries(&desk);
    for _ in 0..2 {
        press(&mut desk, "Buy");
        says(&desk, "Nothing was measured on it");
        press(&mut desk, "Cancel");
        assert_eq!(entries(&desk), before);
    }
    press(&mut desk, "Buy");
    press(&mut desk, "Buy");
    assert!(desk.model.state().piece(id).unwrap().is_bought());
    // A second press of what is in force writes nothing down, and leaves the undo as it is.
    let before = entries(&desk);
    press(&mut desk, "Bought");
    assert_eq!(entries(&desk), before);
    press(&mut desk, "Undo");
    assert_eq!(desk.model.state().piece(id).unwrap().decision(), None);
}

#[test]
fn an_odd_weight_of_a_plank_that_was_held_is_asked_about_when_it_is_bought_on_its_sheet() {
    let (mut desk, id) = marked();
    desk.go(Route::Measure(id));
    for text in ["2620", "205", "205", "205", "52"] {
        typed(&mut desk, text, "Next");
    }
    desk.keys("43.4");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    desk.go(Route::Plank(id));
    press(&mut desk, "Buy");
    says(&desk, "Open questions:");
    press(&mut desk, "Cancel");
    // What is half typed is bought on its own verdict.
    desk.go(Route::Measure(id));
    desk.act(yard::Action::Activate(Field::WeightWhole));
    desk.act(Action::Key("Backspace".to_owned()));
    desk.go(Route::Plank(id));
    press(&mut desk, "Buy");
    assert_eq!(desk.model.route, Route::Verdict(id));
}

#[test]
fn a_maybe_that_is_undone_is_not_to_be_chalked() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    press(&mut desk, "Maybe");
    says(&desk, "Chalk this on the plank");
    press(&mut desk, "Undo");
    assert!(!is_said(&desk, "Chalk this on the plank"));
}

#[test]
fn undo_over_the_same_plank_brings_its_note_back() {
    let mut desk = begun();
    let Route::Measure(id) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    typed(&mut desk, "2620", "Next");
    desk.type_into("note", "grey at the pith");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    desk.go(Route::Measure(id));
    press(&mut desk, "Undo");
    assert!(region(&desk, "drawing").contains("grey at the pith"));
    desk.act(yard::Action::Activate(Field::WidthNear));
    desk.keys("205");
    assert!(desk.kept[&id.to_string()].contains("grey at the pith"));
    // It was not measured before: what it is decided on leads on in its pile.
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    assert!(matches!(desk.model.route, Route::PileSummary(_)));
}

#[test]
fn after_a_decision_the_way_back_leads_past_what_is_decided() {
    let (mut desk, first) = marked();
    let Route::Sort(pile) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    press(&mut desk, "Maybe");
    press(&mut desk, "Chalked, next");
    desk.go(Route::Measure(first));
    typed(&mut desk, "2620", "Next");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    // The next of the pile stands there; behind it is the pile, not the plank that was decided.
    assert!(matches!(desk.model.route, Route::Measure(next) if next != first));
    desk.act(Action::Back);
    assert_eq!(desk.model.route, Route::Sort(pile));
    // Who opens it again is not sent away.
    desk.go(Route::Plank(first));
    press(&mut desk, "Change the readings");
    assert_eq!(desk.model.route, Route::Measure(first));
    desk.act(Action::Back);
    assert_eq!(desk.model.route, Route::Plank(first));
    // What is undone is half typed again, and may be gone back to.
    desk.go(Route::Measure(first));
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    press(&mut desk, "Undo");
    desk.act(Action::Back);
    assert_eq!(desk.model.route, Route::Measure(first));
}

#[test]
fn the_phones_back_key_leaves_the_reasons_and_never_the_same_screen_twice() {
    let mut desk = begun();
    let measuring = desk.model.route;
    let below = desk.trail.len();
    desk.keys("26,2,0");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Reject");
    says(&desk, "Why is it rejected?");
    let back = |desk: &mut Desk| desk.act(Action::Back);
    back(&mut desk);
    assert!(!is_said(&desk, "Why is it rejected?"));
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    says(&desk, "Length can't be read yet");
    assert_eq!((desk.model.route, desk.trail.len()), (measuring, below));
}
