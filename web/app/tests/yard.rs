//! The screens of the yard: what they show of the sample, what each key does, errors at their fields, and how many
//! presses a thing takes.

use std::fs;
use stillwood_app::action::Action;
use stillwood_app::desk::{Desk, text_of};
use stillwood_app::{Effect, Route, yard};
use stillwood_core::record::{Decision, Id, Limits, queries, read};

const DAY: &str = "2026-11-20";

fn desk() -> Desk {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../demo-data/two-yards.json"
    );
    Desk::with_file(&fs::read(path).unwrap(), DAY).unwrap()
}

fn wide() -> Desk {
    let mut desk = desk();
    desk.act(Action::Wide(true));
    desk
}

fn visit_of(desk: &Desk, yard: &str) -> Id {
    let visits = desk.model.state().visits();
    let visits = visits.filter(|visit| visit.opened.yard == yard);
    visits.max_by_key(|visit| visit.recorded.on).unwrap().id
}

fn pile_of(desk: &Desk, visit: Id) -> Id {
    let mut piles = desk.model.state().piles_of(visit);
    piles.find(|pile| !pile.withdrawn).unwrap().id
}

fn piece_of(desk: &Desk, mark: &str) -> Id {
    let mut planks = desk.model.state().planks();
    planks.find(|piece| piece.mark == mark).unwrap().id
}

/// Whether the screen says this, wherever an element ends between its words.
fn says(desk: &Desk, what: &str) -> bool {
    desk.reads()
        .replace('\n', " ")
        .replace('\u{a0}', " ")
        .contains(what)
}

#[track_caller]
fn expect(desk: &Desk, what: &str) {
    assert!(says(desk, what), "no {what:?} in:\n{}", desk.reads());
}

#[track_caller]
fn press(desk: &mut Desk, what: &str) {
    assert!(desk.press(what), "no key {what:?} in:\n{}", desk.reads());
}

fn region(desk: &Desk, id: &str) -> String {
    let page = desk.page();
    let found = page.regions.into_iter().find(|region| region.id == id);
    found.unwrap().html
}

#[test]
fn the_yard_lists_its_visits_with_counts_and_money() {
    let mut desk = desk();
    desk.go(Route::Yard);
    expect(
        &desk,
        "Plumlatch Lumber 2025-11-14 · 122 turned over 9 planks bought 896.75 USD",
    );
    expect(
        &desk,
        "2025-10-17 · 118 turned over 13 planks bought 1519.84 EUR",
    );
    press(&mut desk, "To pay, with tax: 896.75");
    expect(&desk, "How it is worked out");
    press(&mut desk, "Close");
    press(&mut desk, "All planks");
    assert_eq!(desk.model.route, Route::Planks);
}

#[test]
fn a_visit_is_opened_with_the_terms_of_the_last_in_two_presses() {
    let mut desk = desk();
    desk.go(Route::Yard);
    desk.presses = 0;
    press(&mut desk, "Start a visit");
    press(&mut desk, "Save");
    assert_eq!(desk.presses, 2);
    let Route::Visit(id) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    let state = desk.model.state();
    let last = state
        .visits()
        .find(|visit| visit.recorded.on.to_string() == "2025-11-14");
    let (last, new) = (&last.unwrap().opened, &state.visit(id).unwrap().opened);
    assert_eq!(new.yard, last.yard);
    assert_eq!((new.tax_percent, &new.rule), (last.tax_percent, &last.rule));
    assert_eq!(new.budget, None, "a budget is not carried over");
    expect(&desk, "No pile yet.");
}

#[test]
fn all_that_is_wrong_with_a_visit_stands_at_its_fields() {
    let mut desk = Desk::new(DAY);
    desk.go(Route::Yard);
    press(&mut desk, "Start a visit");
    desk.type_into("Tax, %", "200");
    desk.type_into("Currency", "pounds");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::NewVisit);
    let form = desk.model.form.as_ref().unwrap();
    for key in ["Yard", "Tax, %", "Currency"] {
        assert!(form.errors.of(key).is_some(), "{key}");
    }
    // What was typed stands there when the form is opened again.
    desk.go(Route::Yard);
    expect(&desk, "You had begun one.");
    press(&mut desk, "Start a visit");
    assert_eq!(desk.model.form.as_ref().unwrap().text("Currency"), "pounds");
}

#[test]
fn a_tax_with_two_decimals_is_read_back_whole() {
    let mut desk = Desk::new(DAY);
    desk.go(Route::NewVisit);
    desk.type_into("Tax, %", "6,25");
    expect(&desk, "6.25 %");
}

#[test]
fn a_pile_is_begun_and_its_wood_is_offered() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "New pile");
    desk.type_into("Wood", "hard ma");
    press(&mut desk, "hard maple");
    desk.type_into("Price", "9.4");
    press(&mut desk, "Save");
    assert!(
        matches!(desk.model.route, Route::Sort(_)),
        "{}",
        desk.reads()
    );
    expect(&desk, "USD 9.4");
}

#[test]
fn a_visit_shows_its_piles_what_is_short_and_its_planks() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    expect(
        &desk,
        "Hard maple, shed 2, 8/4 81 turned over · 65 no · 16 maybe",
    );
    expect(
        &desk,
        "Blanks needed enough in hand 4 blanks by 2028-09-01, 80 % sure.",
    );
    expect(&desk, "Planks, best first");
    press(&mut desk, "Rejected 10");
    assert!(!says(&desk, "K7-32-G"), "a bought plank among the rejected");
    press(&mut desk, "All 21");
    expect(&desk, "K7-32-G");
    press(&mut desk, "Still to buy: enough in hand");
    expect(&desk, "How it is worked out");
}

#[test]
fn sizes_and_limits_are_changed_and_the_target_is_saved() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "Sizes and limits");
    desk.type_into("Length, mm", "900");
    press(&mut desk, "shake");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::Visit(visit));
    let spec = &desk.model.state().visit(visit).unwrap().opened.spec;
    assert_eq!(spec.part.length_mm, 900.0);
    press(&mut desk, "Change the target");
    desk.type_into("Good blanks wanted", "40");
    press(&mut desk, "Save as target");
    expect(&desk, "40 blanks by 2028-09-01, 80 % sure.");
    assert!(!says(&desk, "enough in hand"));
}

#[test]
fn a_visit_is_saved_for_the_laptop_in_one_press() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    desk.presses = 0;
    press(&mut desk, "Save for the laptop");
    assert_eq!(desk.presses, 1);
    let file = desk.files.last().unwrap();
    assert_eq!(file.name, "stillwood-plumlatch-lumber-2026-11-20.json");
    let reading = read(&file.bytes, &Limits::default()).unwrap();
    assert!(reading.accepted.iter().any(|entry| entry.about == visit));
    expect(&desk, "Carry it to the laptop");
}

#[test]
fn deleting_a_visit_says_how_much_it_is_takes_it_out_of_every_list_and_is_undone() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Sort(pile_of(&desk, visit)));
    press(&mut desk, "Measure it now");
    desk.keys("2400");
    let planks = desk.model.state().planks().count();
    let pieces = desk.model.state().pieces().count();
    desk.go(Route::Visit(visit));
    expect(&desk, "Unfinished planks");
    press(&mut desk, "Delete the visit");
    expect(
        &desk,
        "Delete the visit to Plumlatch Lumber of 2025-11-14, with 2 piles, 21 planks",
    );
    expect(&desk, "101 planks rejected in the sort");
    press(&mut desk, "Delete");
    assert_eq!(desk.model.route, Route::Yard);
    assert!(!says(&desk, "Unfinished planks"), "{}", desk.reads());
    assert!(!says(&desk, "122 turned over"));
    expect(&desk, "Deleted · 1");
    assert_eq!(desk.model.state().planks().count(), planks - 21);
    let left = desk.model.state().pieces().count();
    assert!(left < pieces - 21, "its wood stays in the workshop");
    press(&mut desk, "Undo");
    assert_eq!(desk.model.state().pieces().count(), pieces);
    expect(&desk, "122 turned over");
    expect(&desk, "Unfinished planks");
}

#[test]
fn what_was_deleted_comes_back_from_the_list() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let deleted = |desk: &Desk| queries::deleted(desk.model.state(), desk.model.record.log());
    let before = deleted(&desk);
    let pieces = desk.model.state().pieces().count();
    desk.go(Route::EditVisit(visit));
    press(&mut desk, "Delete the visit");
    press(&mut desk, "Delete");
    desk.go(Route::Planks);
    assert!(!says(&desk, "K7-32-G"));
    desk.go(Route::Yard);
    press(&mut desk, "Bring it back");
    expect(
        &desk,
        "The visit to Plumlatch Lumber of 2025-11-14 is back.",
    );
    assert_eq!(desk.model.state().pieces().count(), pieces);
    assert_eq!(deleted(&desk), before, "the list holds what it held");
}

#[test]
fn the_yards_total_against_ours_takes_its_digits_and_two_presses() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Tally(visit));
    expect(
        &desk,
        "9 planks bought 173 parts 896.75 USD to pay, with tax",
    );
    // One press into the field, the digits, and one to compare.
    desk.presses = 1;
    desk.type_into("total-money", "1300.00");
    press(&mut desk, "Compare with ours");
    assert_eq!(desk.presses, 2);
    expect(&desk, "The yard's figures are noted.");
    expect(&desk, "Gap, without tax");
    press(&mut desk, "Gap in money: ");
    expect(&desk, "theirs less ours");
    press(&mut desk, "Close");
    expect(&desk, "illing rule");
    assert!(!says(&desk, "cheat"));
    press(&mut desk, "Undo");
    assert!(!region(&desk, "body").contains("value=\"1300.00\""));
}

#[test]
fn a_bill_half_typed_is_kept_and_what_cannot_be_read_stands_at_its_field() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Vessingholt Timber Yard");
    desk.go(Route::Tally(visit));
    desk.type_into("total-money", "1300 or so");
    desk.type_into("total-board_feet", "118");
    press(&mut desk, "Compare with ours");
    let known = desk.model.state().visit(visit).unwrap().yard_total.clone();
    let known = known.and_then(|(_, total)| total.board_feet);
    assert_eq!(known, None, "nothing is recorded while a figure is wrong");
    assert!(region(&desk, "body").contains("aria-invalid=\"true\""));
    desk.go(Route::Yard);
    desk.go(Route::Tally(visit));
    let body = region(&desk, "body");
    assert!(body.contains("value=\"1300 or so\"") && body.contains("value=\"118\""));
    desk.type_into("total-money", "1300");
    press(&mut desk, "Compare with ours");
    expect(&desk, "Gap, without tax");
    let kept: Vec<&String> = desk
        .kept
        .keys()
        .filter(|key| key.contains("bill/"))
        .collect();
    assert!(kept.is_empty(), "{kept:?}");
}

#[test]
fn the_yards_lines_are_compared_plank_by_plank() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Vessingholt Timber Yard");
    desk.go(Route::Tally(visit));
    press(&mut desk, "m³");
    let plank = queries::taken_on(desk.model.state(), visit)[0].id;
    desk.type_into(&format!("line-cubic_metres-{plank}"), "0.05");
    press(&mut desk, "Compare the lines");
    expect(&desk, "Theirs less ours, line by line");
    let line = desk.model.state().piece(plank).unwrap().yard_line.clone();
    assert_eq!(line.unwrap().1.cubic_metres.unwrap().to_string(), "0.05");
}

#[test]
fn a_planks_sheet_tells_verdict_readings_costs_cautions_and_history() {
    let mut desk = desk();
    let plank = piece_of(&desk, "K7-1-X");
    desk.go(Route::Plank(plank));
    for what in [
        "Bought · 2025-10-17",
        "18 parts of 950 × 45 × 16 mm",
        "How it is worked out",
        "Readings · ",
        "Cost with tax",
        "Cautions",
        "All wood dust harms",
        "History · ",
        "marked K7-1-X",
    ] {
        expect(&desk, what);
    }
    for figure in [
        "Score of 100: 100",
        "Holds: 18 parts",
        "Weight: ",
        "Cost with tax: ",
        "Clean thickness, cut first",
    ] {
        press(&mut desk, figure);
        assert!(desk.model.dialog.is_some(), "{figure} is not told");
        press(&mut desk, "Close");
    }
    desk.type_into("new-note", "Grey streak at the pith side.");
    press(&mut desk, "Add the note");
    expect(&desk, "Grey streak at the pith side.");
    press(&mut desk, "Add the note");
    expect(&desk, "Type the note first.");
}

#[test]
fn a_decision_is_changed_on_the_sheet_with_its_reasons() {
    let mut desk = desk();
    let plank = piece_of(&desk, "K7-1-X");
    desk.go(Route::Plank(plank));
    press(&mut desk, "Reject");
    expect(&desk, "Why is it rejected? The first is the main reason.");
    press(&mut desk, "knot");
    press(&mut desk, "twist");
    press(&mut desk, "Reject: knot");
    let piece = desk.model.state().piece(plank).unwrap();
    let judged = piece.judgement().unwrap().judged.clone();
    assert_eq!(judged.decision, Decision::Leave);
    assert_eq!(judged.reasons.len(), 2);
    expect(&desk, "K7-1-X rejected. Against the verdict.");
    expect(&desk, "Against the verdict, which proposed: bought.");
    press(&mut desk, "Undo");
    let piece = desk.model.state().piece(plank).unwrap();
    assert_eq!(piece.decision(), Some(Decision::Take));
}

#[test]
fn a_plank_is_deleted_and_brought_back() {
    let mut desk = desk();
    let held = queries::rows(desk.model.state(), &desk.model.settings.instruments);
    let held = held
        .iter()
        .find(|row| row.decision == Some(Decision::SetAside));
    let plank = held.unwrap().piece;
    desk.go(Route::Plank(plank));
    press(&mut desk, "Delete the plank");
    press(&mut desk, "Delete");
    assert!(desk.model.state().piece(plank).unwrap().withdrawn);
    desk.go(Route::Plank(plank));
    expect(&desk, "This plank is deleted.");
    press(&mut desk, "Bring it back");
    assert!(!desk.model.state().piece(plank).unwrap().withdrawn);
    expect(&desk, "Change the readings");
}

/// The marks in the dense list, from above.
fn marks(desk: &Desk) -> Vec<String> {
    let body = region(desk, "body");
    let rows = body.split("<th scope=\"row\">").skip(1);
    rows.map(|row| text_of(row.split("</th>").next().unwrap()))
        .collect()
}

#[test]
fn all_planks_are_filtered_sorted_judged_under_another_spec_and_saved() {
    let mut desk = wide();
    desk.go(Route::Planks);
    expect(&desk, "53 planks");
    press(&mut desk, "Held 4");
    expect(&desk, "4 of 53 planks");
    desk.type_into("search", "walnut");
    assert!(!says(&desk, "4 of 53 planks"));
    press(&mut desk, "Show all planks");
    expect(&desk, "53 planks");
    press(&mut desk, "Mark");
    assert_eq!(desk.model.shown["planks"]["order"], "[\"Mark\",false]");
    assert_eq!(marks(&desk)[0], "H3-2-Y");
    press(&mut desk, "Mark");
    assert_ne!(marks(&desk)[0], "H3-2-Y");
    let headings = |desk: &Desk| region(desk, "body").matches("<th scope=\"col\"").count();
    let before = headings(&desk);
    press(&mut desk, "Cost a part");
    assert_eq!(headings(&desk), before + 1);
    let spec = queries::specs(desk.model.state()).last().unwrap().0.clone();
    desk.type_into("judged-by", &spec);
    expect(&desk, &format!("53 planks, judged by {spec}"));
    expect(&desk, "Judged by the sizes and limits of");
    press(&mut desk, "Save as CSV");
    let csv = String::from_utf8(desk.files.last().unwrap().bytes.clone()).unwrap();
    assert_eq!(csv.lines().count(), 54);
    press(&mut desk, "Print");
    assert!(
        desk.left
            .iter()
            .any(|effect| matches!(effect, Effect::Print))
    );
}

#[test]
fn the_keyboard_goes_through_the_list_and_the_pane_shows_what_is_chosen() {
    let mut desk = wide();
    desk.go(Route::Planks);
    let listed = marks(&desk);
    assert!(region(&desk, "pane").contains(&listed[0]));
    desk.act(Action::Key("ArrowDown".into()));
    desk.act(Action::Key("ArrowDown".into()));
    assert!(region(&desk, "pane").contains(&format!(">{}<", listed[1])));
    let scrolls = |effect: &Effect| matches!(effect, Effect::ScrollTo(id) if id == "chosen-row");
    assert!(desk.left.iter().any(scrolls));
    desk.act(Action::Key("Enter".into()));
    assert_eq!(desk.model.route, Route::Plank(piece_of(&desk, &listed[1])));
}

#[test]
fn only_the_rows_near_the_view_are_drawn() {
    let mut desk = wide();
    desk.go(Route::Planks);
    assert_eq!(marks(&desk).len(), 53);
    desk.act(yard::table::Action::Scrolled(45));
    assert_eq!(marks(&desk).len(), 33, "from row 20 on");
    assert!(
        region(&desk, "body").contains("height=\"800\""),
        "20 rows of 40 above them"
    );
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    assert_eq!(marks(&desk).len(), 21, "another list begins at its top");
}

#[test]
fn a_press_repeated_at_once_is_not_meant() {
    let mut desk = desk();
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
    expect(&desk, "Chalk this on the plank");
    desk.pace = 1000;
    press(&mut desk, "Chalked, next");
    expect(&desk, "planks turned over");
}

#[test]
fn a_reason_and_no_are_two_presses_and_reasons_stand_in_the_order_of_their_use() {
    let mut desk = desk();
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
    expect(&desk, "No: twist.");
}

#[test]
fn what_was_typed_for_a_discarded_plank_comes_back() {
    let mut desk = desk();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    let Route::Measure(piece) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    desk.keys("2400");
    press(&mut desk, "Discard");
    press(&mut desk, "Discard");
    assert_eq!(desk.model.route, Route::Sort(pile));
    assert!(desk.model.drafts.is_empty());
    press(&mut desk, "Bring back what was typed for");
    assert_eq!(desk.model.route, Route::Measure(piece));
    assert_eq!(desk.model.drafts.len(), 1);
    expect(&desk, "2400");
}

#[test]
fn a_pile_is_summed_up() {
    let mut desk = desk();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::PileSummary(pile));
    expect(&desk, "81 planks turned over");
    expect(&desk, "Why no runout 25 twist 11");
    expect(&desk, "Bought 6");
    press(&mut desk, "Sort on");
    assert_eq!(desk.model.route, Route::Sort(pile));
}

#[test]
fn the_seller_sees_no_score_no_budget_and_no_note() {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Tally(visit));
    expect(&desk, "Left of the budget");
    press(&mut desk, "Turn the phone round");
    expect(&desk, "896.75 USD");
    expect(&desk, "K7-32-G");
    for hidden in [
        "budget",
        "Score",
        "Good",
        "Agreed at the gate",
        "Wood for one",
        "Blanks needed",
    ] {
        assert!(!says(&desk, hidden), "{hidden} is shown to the seller");
    }
    let all = desk.pressables().into_iter();
    let others = all.filter(|one| !one.label.contains("How it is worked out"));
    assert_eq!(others.count(), 1, "nothing but the way back");
}

#[test]
fn defects_have_a_place_and_a_note_and_the_wood_may_differ() {
    let mut desk = desk();
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
    press(&mut desk, "Measure on");
    let entering = desk.model.yard.entering.as_ref().unwrap();
    let defect = &entering.draft.defects[0];
    assert_eq!(
        (defect.from.as_str(), defect.note.as_str()),
        ("300", "sound")
    );
    assert_eq!(entering.named(&desk.model).text, "black cherry");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    expect(&desk, "The place of a defect can't be read yet");
    assert!(
        matches!(desk.model.route, Route::Verdict(_)),
        "nothing is recorded"
    );
}

/// A pile of which moisture and temperature are known, and a plank begun in it.
fn begun() -> Desk {
    let mut desk = desk();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "New pile");
    for (field, text) in [
        ("Wood", "hard maple"),
        ("Moisture, %", "10.5"),
        ("Wood temperature", "8 °C"),
    ] {
        desk.type_into(field, text);
    }
    press(&mut desk, "Save");
    press(&mut desk, "Measure it now");
    desk.presses = 0;
    desk
}

/// Types a number and goes on with one press.
fn typed(desk: &mut Desk, text: &str, then: &str) {
    desk.keys(text);
    press(desk, then);
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
        press(&mut desk, steps[0].0);
    }
    assert_eq!(desk.presses, 20);
    assert!(
        matches!(desk.model.route, Route::Verdict(_)),
        "{}",
        desk.reads()
    );
}
