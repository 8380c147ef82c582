//! A plank measured, judged and decided on, at the desk: what is pressed, what is read.

mod at_the_desk;

use at_the_desk::{press, region, sample, says, says_not};
use stillwood_app::action::Changes;
use stillwood_app::desk::Desk;
use stillwood_app::model::Saving;
use stillwood_app::parts::Key;
use stillwood_app::{Action, Effect, Route, view, yard};
use stillwood_core::plank::{Field, Rings, RingsBy};
use stillwood_core::quantity::in_degrees;
use stillwood_core::record::{Decision, Draft};

/// The sample workshop, measuring a new plank of its last pile.
fn measuring() -> Desk {
    let mut desk = sample();
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    assert!(matches!(desk.model.route, Route::Measure(_)));
    desk
}

/// Types values into the fields in the order of the tape.
fn type_all(desk: &mut Desk, values: &[&str]) {
    for value in values {
        desk.keys(value);
        press(desk, "Next");
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
        press(&mut desk, "Next");
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
    press(&mut desk, "End by end");
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
    press(&mut desk, "Whole");
    assert_eq!(text(&desk, Field::WeightWhole), "10.3");
    // Also after a restart: two weights are typed, and the way that is shown is the one that was used.
    let Route::Measure(piece) = desk.model.route else {
        panic!("measuring")
    };
    let kept = Draft::from_json(&desk.kept[&piece.to_string()]).unwrap();
    desk.go(Route::Today);
    desk.act(Action::HalfTyped {
        drafts: vec![kept],
        forms: Default::default(),
    });
    desk.go(Route::Measure(piece));
    assert_eq!(text(&desk, Field::WeightWhole), "10.3");
}

#[test]
fn only_the_way_of_reading_the_rings_that_is_shown_counts() {
    let mut desk = measuring();
    let stands = |desk: &Desk| {
        let entering = desk.model.yard.entering.as_ref().unwrap();
        let rings = entering.sheet(&desk.model).plank.rings;
        match rings {
            Some(Rings::Angle(angle)) => format!("{:.0} degrees", in_degrees(angle)),
            Some(Rings::Arc { .. }) => "an arc".to_owned(),
            None => "not looked at".to_owned(),
        }
    };
    desk.act(yard::Action::Activate(Field::RingAngle));
    press(&mut desk, "By chord and dip");
    type_all(&mut desk, &["150"]);
    desk.keys("25");
    assert_eq!(stands(&desk), "an arc");
    press(&mut desk, "By angle");
    assert_eq!(stands(&desk), "not looked at");
    desk.keys("64");
    assert_eq!(stands(&desk), "64 degrees");
    assert_eq!(
        text(&desk, Field::RingDip),
        "",
        "a hidden dip does not count"
    );
    // A field of the other way, pressed among the seldom needed, chooses that way: what is typed there is seen.
    desk.act(yard::Action::Activate(Field::RingDip));
    assert_eq!(text(&desk, Field::RingDip), "25");
    assert_eq!(stands(&desk), "an arc");
    // Opened again, what is shown and what counts are the same, whichever of the two was used last.
    let again = |desk: &mut Desk| {
        let route = desk.model.route;
        desk.go(Route::Today);
        desk.go(route);
    };
    again(&mut desk);
    assert_eq!(text(&desk, Field::RingDip), "25");
    assert_eq!(text(&desk, Field::RingAngle), "");
    assert_eq!(stands(&desk), "an arc");
    desk.act(yard::Action::ReadRings(RingsBy::Angle));
    again(&mut desk);
    assert_eq!(stands(&desk), "64 degrees");
}

#[test]
fn what_is_odd_is_asked_when_the_field_is_left_and_never_while_a_number_grows() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "214"]);
    assert_eq!(active(&desk), Some(Field::WidthMiddle));
    for typed in ["2", "0", "5", "5"] {
        desk.keys(typed);
        says_not(&desk, "Usual is");
    }
    let drawing = region(&desk, "drawing");
    assert!(drawing.contains("value asked\">2055"), "marked: {drawing}");
    press(&mut desk, "Next");
    assert_eq!(active(&desk), Some(Field::WidthMiddle), "asked first");
    says(&desk, "Width middle 2055 mm? Usual is");
    // Mended, nothing is asked; the next digit of a mend neither.
    press(&mut desk, "Delete the last sign");
    says_not(&desk, "Usual is");
    press(&mut desk, "Next");
    assert_eq!(active(&desk), Some(Field::WidthFar));
    // Kept, or taken as it is offered, it goes on by itself.
    desk.keys("19");
    press(&mut desk, "Next");
    press(&mut desk, "19 cm = 190 mm");
    assert_eq!(text(&desk, Field::WidthFar), "19 cm");
    assert_eq!(active(&desk), Some(Field::ThicknessNear));
    // Who goes on once more leaves it as it is; who comes back is asked again.
    desk.keys("2");
    press(&mut desk, "Next");
    assert_eq!(active(&desk), Some(Field::ThicknessNear));
    press(&mut desk, "Next");
    assert_eq!(active(&desk), Some(Field::WeightWhole));
    let thickness = || stillwood_app::yard::Action::Activate(Field::ThicknessNear);
    desk.act(thickness());
    says(&desk, "2 mm? Usual is");
    press(&mut desk, "Keep it as typed");
    assert_eq!(active(&desk), Some(Field::WeightWhole));
    desk.act(thickness());
    says_not(&desk, "Usual is");
}

#[test]
fn a_digit_is_shown_first_with_how_the_plank_stands_and_all_else_follows() {
    let mut desk = measuring();
    press(&mut desk, "twist");
    let route = desk.model.route;
    let first = Changes::First(&["standing", "active-field"]);
    let typed = |key| Action::from(stillwood_app::yard::Action::Press(key));
    for action in [
        typed(Key::Add("4")),
        typed(Key::Erase),
        Action::Key("5".to_owned()),
    ] {
        assert_eq!(action.changes(&route), first, "{action:?}");
        desk.act(action);
        let whole = view(&desk.model);
        let Changes::First(ids) = first else { return };
        for region in view::regions(&mut desk.model, ids) {
            let same = whole.regions.iter().find(|one| one.id == region.id);
            assert_eq!(region.html, same.unwrap().html);
        }
    }
    // These go on to another field, or another screen.
    for action in [
        typed(Key::Add(" L")),
        typed(Key::Next),
        Action::Key("Enter".to_owned()),
    ] {
        assert_eq!(action.changes(&route), Changes::All, "{action:?}");
    }
    let elsewhere = Action::Key("5".to_owned()).changes(&Route::Yard);
    assert_eq!(elsewhere, Changes::All);
}

#[test]
fn what_can_not_be_read_is_told_when_the_field_is_left() {
    let mut desk = measuring();
    press(&mut desk, "crook");
    desk.keys("4 / ");
    let hint = region(&desk, "active-field").to_owned();
    assert!(!hint.contains("bad"), "{hint}");
    press(&mut desk, "Next");
    assert_eq!(active(&desk), Some(Field::Crook));
    assert!(region(&desk, "active-field").contains("class=\"bad\""));
    press(&mut desk, "Next");
    assert_ne!(
        active(&desk),
        Some(Field::Crook),
        "it stands as it was typed"
    );
    assert_eq!(text(&desk, Field::Crook), "4 / ");
}

#[test]
fn the_moisture_of_the_pile_alone_gives_no_score() {
    let mut desk = measuring();
    says(&desk, "Nothing looked at yet");
    desk.press("To the verdict");
    says(&desk, "Nothing judged yet");
    let body = region(&desk, "body");
    assert!(!body.contains("gauge good"), "nothing is green: {}", body);
}

#[test]
fn nothing_is_green_while_a_hard_limit_has_not_been_looked_at() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52", "19.7", "1"]);
    let standing = region(&desk, "standing");
    assert!(standing.contains("segment looked"), "{}", standing);
    assert!(!standing.contains("segment good"), "{}", standing);
    desk.press("To the verdict");
    let body = region(&desk, "body");
    assert!(!body.contains("gauge good"), "{}", body);
    says(&desk, "not looked at");
}

#[test]
fn buying_a_plank_of_which_nothing_was_measured_asks_every_time() {
    let mut desk = measuring();
    let bought = |desk: &Desk| {
        let pieces = desk.model.state().planks();
        pieces
            .filter(|piece| piece.decision() == Some(Decision::Take))
            .count()
    };
    let before = bought(&desk);
    desk.press("To the verdict");
    press(&mut desk, "Buy");
    says(&desk, "Nothing was measured on it");
    assert_eq!(bought(&desk), before);
    press(&mut desk, "Cancel");
    assert_eq!(bought(&desk), before);
    press(&mut desk, "Buy");
    says(&desk, "Nothing was measured on it");
    assert_eq!(bought(&desk), before);
    // The key of the question buys.
    press(&mut desk, "Buy");
    assert_eq!(bought(&desk), before + 1);
}

#[test]
fn buying_with_an_open_question_asks_and_names_it() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52"]);
    desk.keys("197");
    desk.press("To the verdict");
    press(&mut desk, "Buy");
    says(&desk, "Open questions:");
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
    says(&desk, "Length can't be read yet");
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
    says(&desk, "the device is full");
    desk.refuses = false;
    press(&mut desk, "Hold");
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
    press(&mut desk, "Undo");
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
    press(&mut desk, "about 3");
    assert_eq!(active(&desk), Some(Field::Crook));
    says(&desk, "bow ≈ 3 mm");
}

#[test]
fn a_keyboard_types_into_the_field_that_is_active() {
    let mut desk = measuring();
    desk.keys("26205");
    desk.act(Action::Key("Backspace".to_owned()));
    assert_eq!(text(&desk, Field::Length), "2620");
    desk.act(Action::Key("Enter".to_owned()));
    assert_eq!(active(&desk), Some(Field::WidthNear));
}

#[test]
fn a_plank_recorded_says_how_it_is_worked_out() {
    let mut desk = measuring();
    type_all(&mut desk, &["2620", "205", "207", "204", "52", "19.7"]);
    desk.press("To the verdict");
    press(&mut desk, "density at 12 %");
    let reads = desk.reads();
    assert!(
        reads.contains("How it is worked out") && reads.contains("ρ"),
        "{reads}"
    );
    desk.act(Action::Key("Escape".to_owned()));
    says_not(&desk, "How it is worked out");
}

#[test]
fn no_with_a_reason_is_two_touches_and_maybe_with_its_mark_two() {
    let mut desk = sample();
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
    press(&mut desk, "Maybe");
    says(&desk, "Chalk this on the plank");
    press(&mut desk, "Chalked, next");
    assert_eq!(desk.presses, 2);
    assert_eq!(desk.model.state().pile(pile).unwrap().maybes(), maybe + 1);
    // The mark to be chalked is said over the pile, and never over the plank that is measured next.
    says(&desk, "Chalk on it:");
    press(&mut desk, "Measure it now");
    says_not(&desk, "Chalk on it:");
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
    says(&desk, "Not saved. No room.");
    desk.press("To the verdict");
    says(&desk, "Not saved. No room.");
    press(&mut desk, "Hold");
    says_not(&desk, "held.");
    let buzzes = |effect: &Effect| matches!(effect, Effect::Buzz);
    assert!(
        !desk.left.iter().any(buzzes),
        "a buzz says that it is saved"
    );
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
    says(&desk, "Trying again …");
    assert!(!desk.press("Trying again …"));
    desk.act(Action::Saving(Saving::Failed("Still no room.".to_owned())));
    says(&desk, "Not saved. Still no room.");
    says(&desk, "Try again");
    desk.act(Action::Saving(Saving::Busy));
    // Once the store takes it, all is as ever.
    desk.act(Action::Saving(Saving::Saved));
    says_not(&desk, "Not saved");
}
