//! A plank measured, judged and decided on, at the desk: what is pressed, what is read.

use stillwood_app::desk::Desk;
use stillwood_app::model::Saving;
use stillwood_app::{Action, Effect, Route};
use stillwood_core::plank::Field;
use stillwood_core::record::Decision;

const SAMPLE: &[u8] = include_bytes!("../../../demo-data/two-yards.json");

/// The sample workshop, measuring a new plank of its last pile.
fn measuring() -> Desk {
    let mut desk = Desk::with_file(SAMPLE, "2026-11-20").unwrap();
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    assert!(desk.press("Measure it now"), "{}", desk.reads());
    assert!(matches!(desk.model.route, Route::Measure(_)));
    desk
}

/// Types values into the fields in the order of the tape.
fn type_all(desk: &mut Desk, values: &[&str]) {
    for value in values {
        desk.keys(value);
        assert!(desk.press("Next"), "{}", desk.reads());
    }
}

fn active(desk: &Desk) -> Option<Field> {
    desk.model
        .yard
        .entering
        .as_ref()
        .and_then(|entering| entering.active)
}

fn text(desk: &Desk, field: Field) -> String {
    desk.model
        .yard
        .entering
        .as_ref()
        .map_or(String::new(), |entering| entering.value(field).text)
}

#[test]
fn next_goes_in_the_order_of_the_tape_and_then_to_the_verdict() {
    let mut desk = measuring();
    let mut seen = Vec::new();
    while let Some(field) = active(&desk) {
        seen.push(field);
        assert!(desk.press("Next"));
    }
    // The pile's moisture and temperature stand there already: nobody types them again.
    assert_eq!(
        seen,
        [
            Field::Length,
            Field::WidthNear,
            Field::WidthMiddle,
            Field::WidthFar,
            Field::ThicknessNear,
            Field::WeightWhole,
            Field::Bow,
            Field::Crook,
            Field::Twist,
            Field::Cup,
            Field::GrainFace,
            Field::GrainEdge,
            Field::RingAngle,
        ]
    );
    assert!(matches!(desk.model.route, Route::Verdict(_)));
}

#[test]
fn only_the_way_of_weighing_that_is_shown_counts_and_the_keypad_follows() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52"]);
    assert_eq!(active(&desk), Some(Field::WeightWhole));
    desk.keys("10.3");
    assert!(desk.press("End by end"));
    assert_eq!(
        active(&desk),
        Some(Field::WeightFirst),
        "the keys type into what is shown"
    );
    assert_eq!(
        text(&desk, Field::WeightWhole),
        "",
        "a hidden weight does not count"
    );
    desk.keys("10.3");
    desk.press("Next");
    desk.keys("9.4");
    desk.press("Next");
    assert_eq!(text(&desk, Field::WeightSecond), "9.4");
    let sheet = desk
        .model
        .yard
        .entering
        .as_ref()
        .unwrap()
        .sheet(&desk.model);
    let mass = stillwood_core::quantity::in_kg(sheet.mass.unwrap().value);
    assert!((mass - 19.7).abs() < 1e-9, "{mass}");
    // What was typed for the other way comes back with it.
    desk.press("weight");
    desk.press("Other end");
    assert!(desk.press("Whole"));
    assert_eq!(text(&desk, Field::WeightWhole), "10.3");
}

#[test]
fn the_moisture_of_the_pile_alone_gives_no_score() {
    let mut desk = measuring();
    assert!(
        desk.reads().contains("Nothing looked at yet"),
        "{}",
        desk.reads()
    );
    desk.press("To the verdict");
    assert!(
        desk.reads().contains("Nothing judged yet"),
        "{}",
        desk.reads()
    );
    let page = desk.page();
    let body = page
        .regions
        .iter()
        .find(|region| region.id == "body")
        .unwrap();
    assert!(
        !body.html.contains("gauge good"),
        "nothing is green: {}",
        body.html
    );
}

#[test]
fn nothing_is_green_while_a_hard_limit_has_not_been_looked_at() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52", "19.7", "1"]);
    let page = desk.page();
    let standing = page
        .regions
        .iter()
        .find(|region| region.id == "standing")
        .unwrap();
    assert!(
        standing.html.contains("segment looked"),
        "{}",
        standing.html
    );
    assert!(!standing.html.contains("segment good"), "{}", standing.html);
    desk.press("To the verdict");
    let page = desk.page();
    let body = page
        .regions
        .iter()
        .find(|region| region.id == "body")
        .unwrap();
    assert!(!body.html.contains("gauge good"), "{}", body.html);
    assert!(desk.reads().contains("not looked at"));
}

#[test]
fn buying_a_plank_of_which_nothing_was_measured_asks_once() {
    let mut desk = measuring();
    let bought = |desk: &Desk| {
        let pieces = desk.model.state().planks();
        pieces
            .filter(|piece| piece.decision() == Some(Decision::Take))
            .count()
    };
    let before = bought(&desk);
    desk.press("To the verdict");
    assert!(desk.press("Buy"));
    assert!(
        desk.reads().contains("Nothing was measured on it"),
        "{}",
        desk.reads()
    );
    assert_eq!(bought(&desk), before);
    assert!(desk.press("Cancel"));
    assert_eq!(bought(&desk), before);
    // It was asked: the second press buys.
    assert!(desk.press("Buy"));
    assert_eq!(bought(&desk), before + 1);
}

#[test]
fn buying_with_an_open_question_asks_and_names_it() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52"]);
    desk.keys("197");
    desk.press("To the verdict");
    assert!(desk.press("Buy"));
    assert!(desk.reads().contains("Open questions:"), "{}", desk.reads());
}

#[test]
fn what_cannot_be_read_is_named_and_nothing_is_recorded() {
    let mut desk = measuring();
    let before = desk.model.record.log().everything().count();
    desk.keys("26,2,0");
    desk.press("To the verdict");
    desk.press("Hold");
    assert!(matches!(desk.model.route, Route::Measure(_)));
    assert_eq!(active(&desk), Some(Field::Length));
    assert!(
        desk.reads().contains("Length can't be read yet"),
        "{}",
        desk.reads()
    );
    assert_eq!(desk.model.record.log().everything().count(), before);
}

#[test]
fn a_refused_write_leaves_the_plank_as_it_was_typed() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205"]);
    desk.press("To the verdict");
    desk.refuses = true;
    desk.press("Hold");
    assert_eq!(text(&desk, Field::WidthNear), "205");
    assert!(
        desk.reads().contains("the device is full"),
        "{}",
        desk.reads()
    );
    desk.refuses = false;
    assert!(desk.press("Hold"));
    assert!(
        !matches!(desk.model.route, Route::Verdict(_)),
        "{:?}",
        desk.model.route
    );
}

#[test]
fn undo_brings_the_plank_back_as_it_was_typed() {
    let mut desk = measuring();
    let Route::Measure(piece) = desk.model.route else {
        panic!("measuring")
    };
    type_all(&mut desk, &["2620", "205"]);
    desk.press("To the verdict");
    desk.press("Hold");
    assert!(
        desk.model
            .state()
            .piece(piece)
            .is_some_and(|piece| piece.decision().is_some())
    );
    assert!(desk.press("Undo"), "{}", desk.reads());
    assert!(
        desk.model
            .state()
            .piece(piece)
            .is_none_or(|piece| piece.decision().is_none())
    );
    desk.go(Route::Measure(piece));
    assert_eq!(text(&desk, Field::WidthNear), "205");
}

#[test]
fn what_is_typed_is_kept_at_every_key() {
    let mut desk = measuring();
    let Route::Measure(piece) = desk.model.route else {
        panic!("measuring")
    };
    for (typed, kept) in [("2", "\"2\""), ("6", "\"26\""), ("2", "\"262\"")] {
        desk.keys(typed);
        let draft = &desk.kept[&piece.to_string()];
        assert!(draft.contains(kept), "{draft}");
    }
}

#[test]
fn a_step_of_the_eye_goes_on_and_is_shown_as_by_eye() {
    let mut desk = measuring();
    desk.press("bow");
    assert_eq!(active(&desk), Some(Field::Bow));
    assert!(desk.press("about 3"));
    assert_eq!(active(&desk), Some(Field::Crook));
    assert!(desk.reads().contains("bow ≈ 3 mm"), "{}", desk.reads());
}

#[test]
fn a_keyboard_types_into_the_field_that_is_active() {
    let mut desk = measuring();
    desk.keys("2620");
    desk.act(Action::Key("Backspace".to_owned()));
    assert_eq!(text(&desk, Field::Length), "262");
    desk.act(Action::Key("Enter".to_owned()));
    assert_eq!(active(&desk), Some(Field::WidthNear));
}

#[test]
fn a_plank_recorded_says_how_it_is_worked_out() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52", "19.7"]);
    desk.press("To the verdict");
    assert!(desk.press("density at 12 %"), "{}", desk.reads());
    let reads = desk.reads();
    assert!(
        reads.contains("How it is worked out") && reads.contains("ρ"),
        "{reads}"
    );
    desk.act(Action::Key("Escape".to_owned()));
    assert!(!desk.reads().contains("How it is worked out"));
}

#[test]
fn no_with_a_reason_is_two_touches_and_maybe_with_its_mark_two() {
    let mut desk = Desk::with_file(SAMPLE, "2026-11-20").unwrap();
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    let (no, maybe) = {
        let pile = desk.model.state().pile(pile).unwrap();
        (pile.passed_over(), pile.maybes())
    };
    assert!(desk.press("twist") && desk.press("No"));
    assert_eq!(desk.model.state().pile(pile).unwrap().passed_over(), no + 1);
    assert!(
        desk.model.yard.reasons.is_empty(),
        "the next plank begins afresh"
    );
    desk.presses = 0;
    assert!(desk.press("Maybe"));
    assert!(
        desk.reads().contains("Chalk this on the plank"),
        "{}",
        desk.reads()
    );
    assert!(desk.press("Chalked, next"));
    assert_eq!(desk.presses, 2);
    assert_eq!(desk.model.state().pile(pile).unwrap().maybes(), maybe + 1);
    // The mark to be chalked is said over the pile, and never over the plank that is measured next.
    assert!(desk.reads().contains("Chalk on it:"), "{}", desk.reads());
    assert!(desk.press("Measure it now"));
    assert!(!desk.reads().contains("Chalk on it:"), "{}", desk.reads());
}

#[test]
fn the_first_buy_asks_the_browser_to_keep_the_record() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52"]);
    desk.press("To the verdict");
    desk.press("Hold");
    assert!(
        desk.left
            .iter()
            .any(|effect| matches!(effect, Effect::AskToPersist))
    );
}

#[test]
fn what_the_store_refuses_is_told_while_measuring_is_not_acknowledged_and_stays_half_typed() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205"]);
    let drafts = desk.kept.len();
    desk.act(Action::Saving(Saving::Failed("No room.".to_owned())));
    assert!(
        desk.reads().contains("Not saved. No room."),
        "{}",
        desk.reads()
    );
    desk.press("To the verdict");
    assert!(
        desk.reads().contains("Not saved. No room."),
        "{}",
        desk.reads()
    );
    assert!(desk.press("Hold"));
    assert!(!desk.reads().contains("held."), "{}", desk.reads());
    assert_eq!(
        desk.kept.len(),
        drafts,
        "what is not kept is half typed after a kill"
    );
    desk.act(Action::Saving(Saving::Busy));
    assert!(
        desk.reads().contains("Not saved. No room."),
        "a new try is not yet kept"
    );
    // It says that it is being tried, and is not to be pressed twice.
    assert!(desk.reads().contains("Trying again …"), "{}", desk.reads());
    assert!(!desk.press("Trying again …"));
    desk.act(Action::Saving(Saving::Failed("Still no room.".to_owned())));
    assert!(desk.reads().contains("Not saved. Still no room."));
    assert!(desk.reads().contains("Try again"));
    desk.act(Action::Saving(Saving::Busy));
    // Once the store takes it, all is as ever.
    desk.act(Action::Saving(Saving::Saved));
    assert!(!desk.reads().contains("Not saved"));
}
