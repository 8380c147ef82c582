//! Sorting and measuring: presses counted, and a maker's first day.

use super::*;
use stillwood_core::plank::Field;
use stillwood_core::quantity::read::Units;

#[test]
fn a_press_repeated_at_once_is_not_meant() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    let count = |desk: &Desk| desk.model.state().pile(pile).unwrap().passed_over();
    let before = count(&desk);
    press(&mut desk, "No");
    desk.pace = 200;
    press(&mut desk, "No");
    assert_eq!(count(&desk), before + 1);
    desk.pace = 400;
    press(&mut desk, "No");
    assert_eq!(count(&desk), before + 2);
    press(&mut desk, "Maybe");
    desk.pace = 100;
    press(&mut desk, "Chalked, next");
    says(&desk, "Chalk this on the plank");
    desk.pace = 1000;
    press(&mut desk, "Chalked, next");
    says(&desk, "planks turned over");
}

#[test]
fn a_plank_with_nothing_but_a_note_is_not_taken_for_another() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    let noted = desk.model.route;
    desk.type_into("note", "a knot by the far end");
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    assert_ne!(desk.model.route, noted, "its note is about another plank");
    // One that was left empty is taken up again.
    let empty = desk.model.route;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    assert_eq!(desk.model.route, empty);
}

#[test]
fn a_mark_that_is_not_recorded_is_not_shown_to_be_chalked() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    desk.refuses = true;
    press(&mut desk, "Maybe");
    says(&desk, "Not saved");
    assert!(
        !is_said(&desk, "Chalk this on the plank"),
        "{}",
        desk.reads()
    );
    desk.refuses = false;
    press(&mut desk, "Maybe");
    says(&desk, "Chalk this on the plank");
}

#[test]
fn a_reason_and_no_are_two_presses_and_reasons_stand_in_the_order_of_their_use() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    let all = desk.pressables().into_iter().map(|one| one.says);
    let used = ["runout", "twist", "too much figure"];
    let chips: Vec<String> = all.filter(|says| used.contains(&says.as_str())).collect();
    assert_eq!(chips, used);
    desk.presses = 0;
    press(&mut desk, "twist");
    press(&mut desk, "No");
    assert_eq!(desk.presses, 2);
    says(&desk, "No: twist.");
}

/// The sample, where a new plank of a pile has its length typed; the pile and the plank.
fn a_length_typed() -> (Desk, Id, Id) {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    let Route::Measure(piece) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    desk.keys("2400");
    (desk, pile, piece)
}

#[test]
fn a_plank_whose_record_was_lost_keeps_the_mark_that_is_chalked_on_it() {
    let (mut desk, pile, piece) = a_length_typed();
    press(&mut desk, "Chalk this on the plank");
    assert_eq!(desk.model.route, Route::Mark(piece));
    // A sign misread, and one that stands on other wood.
    let lost = stillwood_core::record::Mark::next("K7", 900)
        .unwrap()
        .to_string();
    let misread = lost.replace("K7-90", "K7-91");
    desk.type_into("chalked-mark", &misread);
    says(&desk, "does not add up");
    desk.type_into("chalked-mark", "K7-13-M");
    says(&desk, "Another plank has K7-13-M.");
    desk.type_into("chalked-mark", &lost.to_lowercase());
    press(&mut desk, &format!("It bears {lost}"));
    assert_eq!(desk.model.route, Route::Measure(piece));
    says(&desk, &lost);
    says(&desk, "2400");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    assert_eq!(desk.model.state().piece(piece).unwrap().mark, lost);
    // The next new one comes after it.
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    let next = &desk.model.yard.entering.as_ref().unwrap().draft.mark;
    assert!(next.starts_with("K7-9"), "{next}");
}

#[test]
fn what_was_typed_for_a_discarded_plank_comes_back() {
    let (mut desk, pile, piece) = a_length_typed();
    press(&mut desk, "Discard");
    press(&mut desk, "Discard");
    assert_eq!(desk.model.route, Route::Sort(pile));
    assert!(desk.model.drafts.is_empty());
    press(&mut desk, "Bring back what was typed for");
    assert_eq!(desk.model.route, Route::Measure(piece));
    assert_eq!(desk.model.drafts.len(), 1);
    says(&desk, "2400");
}

#[test]
fn defects_have_a_place_and_a_note_and_the_wood_may_differ() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    press(&mut desk, "Defects, wood · 0");
    press(&mut desk, "knot");
    desk.type_into("defect-from-0", "300");
    desk.type_into("defect-to-0", "about there");
    desk.type_into("defect-note-0", "sound");
    desk.type_into("own-wood", "cher");
    press(&mut desk, "black cherry");
    press(&mut desk, "Go on measuring");
    let entering = desk.model.yard.entering.as_ref().unwrap();
    let defect = &entering.draft.defects[0];
    assert_eq!(
        (defect.from.as_str(), defect.note.as_str()),
        ("300", "sound")
    );
    assert_eq!(entering.named(&desk.model).text, "black cherry");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    says(&desk, "The place of a defect can't be read yet");
    assert!(
        matches!(desk.model.route, Route::Verdict(_)),
        "nothing is recorded"
    );
}

#[test]
fn a_defect_is_said_to_be_cut_round_only_where_it_is() {
    let mut desk = begun();
    for text in ["2620", "205"] {
        desk.keys(text);
        press(&mut desk, "Next");
        if text == "205" {
            press(&mut desk, "thickness ?");
        }
    }
    desk.keys("52");
    let of = |desk: &Desk| {
        let entering = desk.model.yard.entering.as_ref().unwrap();
        entering.sheet(&desk.model).held.unwrap().parts
    };
    let clear = of(&desk);
    press(&mut desk, "Defects, wood · 0");
    press(&mut desk, "knot");
    press(&mut desk, "stain");
    press(&mut desk, "Go on measuring");
    press(&mut desk, "To the verdict");
    // Nobody knows where the knot is: nothing was taken off for it.
    assert_eq!(of(&desk), clear);
    says(
        &desk,
        "Knot without a place: not cut round, fewer may come out.",
    );
    assert!(!is_said(&desk, "knot cut round"), "{}", desk.reads());
    assert!(
        !is_said(&desk, "stain"),
        "a stain is not cut round: {}",
        desk.reads()
    );
    press(&mut desk, "Back");
    press(&mut desk, "Defects, wood · 2");
    desk.type_into("defect-from-0", "700");
    press(&mut desk, "Go on measuring");
    press(&mut desk, "To the verdict");
    assert!(of(&desk) < clear);
    says(&desk, ", knot cut round");
    assert!(!is_said(&desk, "without a place"), "{}", desk.reads());
}

#[test]
fn a_plank_in_full_takes_34_presses_typed() {
    let mut desk = begun();
    typed(&mut desk, "2620", "Next");
    // Its edges are parallel: one width is enough, and the thickness is pressed next.
    typed(&mut desk, "205", "thickness ?");
    typed(&mut desk, "52", "Next");
    for text in ["19.7", "9", "4", "12", "4", "12", "15"] {
        typed(&mut desk, text, "Next");
    }
    desk.keys("62");
    assert_eq!(desk.presses, 34);
    let entering = desk.model.yard.entering.as_ref().unwrap();
    let sheet = entering.sheet(&desk.model);
    assert!(
        sheet.verdict.unscored.is_empty(),
        "{:?}",
        sheet.verdict.unscored
    );
}

/// Chooses one of several, where it is not chosen already.
fn choose(desk: &mut Desk, chip: &str) {
    let body = region(desk, "active-field");
    let at = body
        .find(&format!("> {chip}<"))
        .or_else(|| body.find(&format!(">{chip}<")));
    let before = &body[..at.unwrap_or_else(|| panic!("no {chip} in {body}"))];
    let tag = &before[before.rfind("<button").unwrap()..];
    if tag.contains("aria-checked=\"false\"") {
        press(desk, chip);
    }
}

/// Measures A7 of the maker's own example: three widths of a tapered plank, both ends on the scale, every shape, the
/// grain on face and edge, the rings by their chord and dip.
fn measure_a7(desk: &mut Desk) {
    for text in ["2620", "214", "205", "193", "52"] {
        typed(desk, text, "Next");
    }
    choose(desk, "End by end");
    for text in ["10.3", "9.4", "9", "4"] {
        typed(desk, text, "Next");
    }
    typed(desk, "12", "left");
    for text in ["4", "12", "15"] {
        typed(desk, text, "Next");
    }
    choose(desk, "By chord and dip");
    typed(desk, "150", "Next");
    desk.keys("25");
    let entering = desk.model.yard.entering.as_ref().unwrap();
    let sheet = entering.sheet(&desk.model);
    let open = &sheet.verdict.unscored;
    assert!(open.is_empty(), "{open:?}");
    assert!(sheet.rings.is_some());
}

#[test]
fn the_tapered_plank_of_the_example_costs_its_digits_and_a_key_a_value() {
    let mut desk = begun();
    let digits = "2620 214 205 193 52 10.3 9.4 9 4 12 4 12 15 150 25";
    let digits = digits.chars().filter(|sign| *sign != ' ').count();
    assert_eq!(digits, 36);
    measure_a7(&mut desk);
    // A key goes on from each of the 15 values but the last; how it is weighed and how its rings are read is chosen once.
    assert_eq!(desk.presses, digits + 14 + 2);
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    press(&mut desk, "Measure another plank");
    desk.presses = 0;
    measure_a7(&mut desk);
    assert_eq!(
        desk.presses,
        digits + 14,
        "the next plank is weighed and read as the one before"
    );
}

#[test]
fn a_plank_takes_20_presses_by_eye_and_steps() {
    let mut desk = begun();
    typed(&mut desk, "2620", "Next");
    typed(&mut desk, "205", "thickness ?");
    typed(&mut desk, "52", "Next");
    press(&mut desk, "not looked at");
    for _ in 0..7 {
        let active = desk.model.yard.entering.as_ref().unwrap().active.unwrap();
        let steps = stillwood_core::plank::eye_steps(active);
        assert!(!steps.is_empty(), "{active:?} can't be judged by eye");
        press(&mut desk, steps[0].typed);
    }
    assert_eq!(desk.presses, 20);
    assert!(
        matches!(desk.model.route, Route::Verdict(_)),
        "{}",
        desk.reads()
    );
}

#[test]
fn a_day_from_the_first_visit_to_the_bill() {
    let mut desk = first_day();
    says(&desk, "hard maple, 8/4");
    measure_by_hand(&mut desk);
    let first = desk
        .model
        .yard
        .entering
        .as_ref()
        .unwrap()
        .draft
        .mark
        .clone();
    press(&mut desk, "To the verdict");
    says(&desk, "1:15.6");
    press(&mut desk, "Buy");
    assert!(!is_said(&desk, "Unfinished"), "{}", desk.reads());
    // After the only plank the pile is summed up, and no plank that nobody asked for is opened.
    assert!(
        matches!(desk.model.route, Route::PileSummary(_)),
        "{:?}",
        desk.model.route
    );
    says(&desk, "Bought 1");
    let plank = piece_of(&desk, &first);
    desk.go(Route::Plank(plank));
    // Worked by hand: 31 mm if it is flattened whole, 19.7 kg, 707 ± 22 kg/m³ as measured.
    for figure in [
        "flattened whole first: 31",
        "Weight: 19.7",
        "Density as measured: 707 ± 22",
    ] {
        let found = desk
            .pressables()
            .into_iter()
            .any(|one| one.label.contains(figure));
        assert!(found, "no {figure} in:\n{}", desk.reads());
    }
    // 2.620 × 0.204 × 0.0508 m are 11.5 board feet; at 14.50 and 20 % tax 200 EUR.
    says(&desk, "11.51 bd ft");
    says(&desk, "200.");
    let visit = visit_of(&desk, "Hopple");
    desk.go(Route::Tally(visit));
    says(&desk, "1 plank bought");
    says(&desk, "Tax, 20 %");
    press(&mut desk, "Turn the phone round");
    let seller = desk.reads().to_lowercase();
    for never in [
        "score",
        "weakest",
        "too close",
        "crook",
        "density",
        "undo",
        "budget",
        "short",
    ] {
        assert!(
            !seller.contains(never),
            "the seller reads {never}: {seller}"
        );
    }
}

#[test]
fn a_decision_that_is_undone_leaves_the_plank_as_it_was_typed() {
    let mut desk = first_day();
    measure_by_hand(&mut desk);
    let Route::Measure(piece) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    assert_eq!(desk.model.state().planks().count(), 1);
    press(&mut desk, "Undo");
    assert_eq!(desk.model.state().planks().count(), 0);
    desk.go(Route::Yard);
    says(&desk, "Unfinished planks");
    desk.go(Route::Measure(piece));
    says(&desk, "2620");
    says(&desk, "10.3 kg");
}

/// What stands in one row of the drawing.
fn row(desk: &Desk, id: &str) -> String {
    let drawing = region(desk, "drawing");
    let (_, from) = drawing.split_once(&format!("id=\"{id}\"")).unwrap();
    let (row, _) = from.split_once("</div>").unwrap();
    row.replace('\u{a0}', " ")
}

#[test]
fn each_field_stands_on_the_drawing_where_it_is_measured() {
    let mut desk = begun();
    assert!(row(&desk, "on-face").contains("crook ?"));
    assert!(row(&desk, "on-face").contains("Grain face"));
    assert!(row(&desk, "on-edge").contains("bow ?"));
    assert!(row(&desk, "on-edge").contains("Grain edge"));
    assert!(row(&desk, "rings").contains("rings ?"));
    assert!(row(&desk, "twist").contains("twist ?"));
    assert!(row(&desk, "cup").contains("cup ?"));
    for text in ["2620", "214", "205", "193", "52"] {
        typed(&mut desk, text, "Next");
    }
    press(&mut desk, "End by end");
    for text in ["10.3", "9.4", "9", "4", "12 L", "4", "12/300", "15/300"] {
        typed(&mut desk, text, "Next");
    }
    // A number without a unit is in millimetres, and the drawing says so; weights keep their unit.
    let weights = row(&desk, "weights");
    assert!(weights.contains(">first end 10.3 kg<") && weights.contains(">other end 9.4 kg<"));
    assert!(row(&desk, "twist").contains(">twist 12 left<"));
    says(&desk, "Numbers without a unit are mm.");
    press(&mut desk, "By chord and dip");
    let rings = row(&desk, "rings");
    // Small letters, as all names on the drawing.
    assert!(rings.contains(">ring chord ?<") && rings.contains(">ring dip ?<"));
}

#[test]
fn a_value_that_is_odd_beside_others_is_marked_at_its_place() {
    let weighed = |kg: &str| {
        let mut desk = begun();
        for text in ["2620", "214", "205", "193", "52", kg] {
            typed(&mut desk, text, "Next");
        }
        row(&desk, "weights")
    };
    let (usual, heavy) = (weighed("19.7"), weighed("86"));
    assert!(usual.contains("<span class=\"value\">19.7 kg"), "{usual}");
    assert!(
        heavy.contains("<span class=\"value asked\">86 kg"),
        "{heavy}"
    );
}

#[test]
fn a_question_leaves_its_field_in_sight_and_has_the_room_of_other_ways() {
    let mut desk = begun();
    for text in ["2620", "214", "205", "193", "52"] {
        typed(&mut desk, text, "Next");
    }
    says(&desk, "End by end");
    desk.left.clear();
    typed(&mut desk, "86", "Next");
    says(&desk, "heavier than solid wood");
    assert!(!is_said(&desk, "End by end"));
    let scrolls = |effect: &Effect| matches!(effect, Effect::ScrollTo(id) if id == "active");
    assert!(desk.left.iter().any(scrolls));
    // Another digit answers nothing, but it is typed on: the ways stand there again.
    desk.keys("0");
    says(&desk, "End by end");
}

#[test]
fn the_key_that_stands_out_fits_the_verdict() {
    let verdict = |slope: &str| {
        let mut desk = begun();
        for text in [
            "2620", "214", "205", "193", "52", "19.7", "3", "1", "0", "1", "12/300", slope,
        ] {
            typed(&mut desk, text, "Next");
        }
        press(&mut desk, "To the verdict");
        let foot = region(&desk, "foot");
        let main = foot
            .split("<button")
            .find(|key| key.contains("key big main"));
        text_of(main.unwrap()).trim().to_owned()
    };
    assert!(verdict("12/300").contains("Buy"), "{}", verdict("12/300"));
    assert!(verdict("15/300").contains("Hold"), "{}", verdict("15/300"));
    assert!(
        verdict("60/300").contains("Reject"),
        "{}",
        verdict("60/300")
    );
}

#[test]
fn the_hand_of_a_twist_goes_on_after_a_blank_too() {
    let mut desk = begun();
    press(&mut desk, "Twist");
    typed(&mut desk, "12 ", "left");
    let active = region(&desk, "active-field");
    assert!(active.contains("Cup"), "{active}");
    assert!(row(&desk, "twist").contains(">twist 12 left<"));
}

#[test]
fn density_is_shown_beside_what_is_usual_for_the_wood() {
    let mut desk = first_day();
    press(&mut desk, "Measure it now");
    press(&mut desk, "To the verdict");
    assert!(
        !is_said(&desk, "Density beside"),
        "nothing is known of it yet"
    );
    desk.act(Action::Back);
    let mut desk = first_day();
    measure_by_hand(&mut desk);
    press(&mut desk, "To the verdict");
    says(&desk, "Density beside the wood's usual");
    says(&desk, "As usual. Usual for");
    let body = region(&desk, "body");
    assert!(body.contains("class=\"gauge usual\""));
    press(&mut desk, "Buy");
    let plank = desk.model.state().planks().next().unwrap().id;
    desk.go(Route::Plank(plank));
    says(&desk, "As usual. Usual for");
}

#[test]
fn the_key_of_the_plank_before_tells_its_unit_where_another_is_meant_now() {
    let mut desk = begun();
    for text in ["2620", "205", "207", "204", "52"] {
        typed(&mut desk, text, "Next");
    }
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    press(&mut desk, "Measure another plank");
    desk.act(yard::Action::Activate(Field::ThicknessNear));
    says(&desk, "last: 52 mm");
    desk.model.settings.units = Units::Inch;
    says(&desk, "last: 52 mm");
    press(&mut desk, "last: 52 mm");
    let entering = desk.model.yard.entering.as_ref().unwrap();
    assert_eq!(entering.value(Field::ThicknessNear).text, "52 mm");
}
