//! Visits, piles, the tally and the bill.

use super::*;
use stillwood_app::form::FormAction;
use stillwood_core::plank::Field;
use stillwood_core::record::commands::save_target;
use stillwood_core::record::{Draft, as_json};

#[test]
fn the_yard_lists_its_visits_with_counts_and_money() {
    let mut desk = sample();
    desk.go(Route::Yard);
    says(
        &desk,
        "Plumlatch Lumber 14 Nov 2025 · 122 turned over 9 planks bought 896.75 USD",
    );
    says(
        &desk,
        "17 Oct 2025 · 118 turned over 13 planks bought 1519.84 EUR",
    );
    press(&mut desk, "To pay, with tax: 896.75");
    says(&desk, "How it is worked out");
    press(&mut desk, "Close");
    press(&mut desk, "All planks");
    assert_eq!(desk.model.route, Route::Planks);
}

#[test]
fn a_visit_is_opened_with_the_terms_of_the_last_in_two_presses() {
    let mut desk = sample();
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
    says(&desk, "No pile yet.");
}

#[test]
fn after_the_phone_died_37_planks_and_the_one_half_typed_are_there() {
    let mut desk = first_day();
    let Route::Sort(pile) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    for n in 1..=37 {
        desk.go(Route::Sort(pile));
        press(&mut desk, "Measure it now");
        typed(&mut desk, "8 ft", "Next");
        let width = if n == 37 { "13.95 in" } else { "8 in" };
        typed(&mut desk, width, "thickness ?");
        typed(&mut desk, "52", "To the verdict");
        press(&mut desk, "Buy");
    }
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    typed(&mut desk, "2480", "Next");
    typed(&mut desk, "210", "Next");
    desk.keys("203");
    // All that the browser holds is the record and what was half typed.
    let log = desk.model.record.log();
    let mut again = Desk::with_file(log.to_file("0", "").as_bytes(), DAY).unwrap();
    let kept = desk
        .model
        .drafts
        .iter()
        .map(|draft| draft.to_json().unwrap());
    again.model.drafts = kept.map(|text| Draft::from_json(&text).unwrap()).collect();
    let visit = again.model.state().visits().next().unwrap().id;
    again.go(Route::Visit(visit));
    says(&again, "37 planks bought + 1 unfinished");
    says(&again, "402.60 bd ft");
    let draft = again.model.drafts[0].clone();
    assert_eq!(again.model.drafts.len(), 1);
    press(&mut again, &draft.mark);
    assert_eq!(again.model.route, Route::Measure(draft.piece.unwrap()));
    // It goes on at the third width, with the three values that were shown.
    let entering = again.model.yard.entering.as_ref().unwrap();
    assert_eq!(entering.active, Some(Field::WidthFar));
    let typed = [Field::Length, Field::WidthNear, Field::WidthMiddle];
    let typed = typed.map(|field| entering.value(field).text);
    assert_eq!(typed, ["2480", "210", "203"]);
}

#[test]
fn what_a_visit_is_for_is_told_apart_where_two_have_one_name() {
    let mut desk = sample();
    desk.go(Route::Yard);
    press(&mut desk, "Start a visit");
    let body = region(&desk, "body");
    let list = body.split("<option").skip(1);
    let named = list.filter_map(|one| one.split('>').nth(1));
    let offered: Vec<&str> = named.filter(|name| *name != "</option").collect();
    let named: std::collections::BTreeSet<&str> = offered.iter().copied().collect();
    assert_eq!(named.len(), offered.len(), "{offered:?}");
    says(
        &desk,
        "Laminates, light and dark, Vessingholt Timber Yard 17 Oct 2025",
    );
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
    says(&desk, "You had begun one.");
    press(&mut desk, "Start a visit");
    assert_eq!(desk.model.form.as_ref().unwrap().text("Currency"), "pounds");
}

#[test]
fn what_was_typed_is_quoted_once() {
    let mut desk = sample();
    desk.go(Route::NewPile(visit_of(&desk, "Plumlatch Lumber")));
    desk.type_into("Price", "much");
    press(&mut desk, "Save");
    says(&desk, "“much” is not a number.");
    assert!(!is_said(&desk, "can't be read"));
}

#[test]
fn a_tax_with_two_decimals_is_read_back_whole() {
    let mut desk = Desk::new(DAY);
    desk.go(Route::NewVisit);
    desk.type_into("Tax, %", "6,25");
    says(&desk, "6.25 %");
}

#[test]
fn a_pile_is_begun_and_its_wood_is_offered() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "New pile");
    desk.type_into("Wood", "hard ma");
    press(&mut desk, "hard maple");
    says(&desk, "Price, USD");
    desk.type_into("Price", "9.4");
    press(&mut desk, "Save");
    assert!(
        matches!(desk.model.route, Route::Sort(_)),
        "{}",
        desk.reads()
    );
    says(&desk, "9.40 USD");
}

#[test]
fn a_visit_shows_its_piles_what_is_short_and_its_planks() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    says(
        &desk,
        "Hard maple, shed 2, 8/4 81 turned over · 65 no · 16 maybe",
    );
    says(
        &desk,
        "Blanks needed enough in hand 4 blanks by 1 Sep 2028, 80 % sure.",
    );
    says(&desk, "Planks, best first");
    press(&mut desk, "Rejected 10");
    assert!(
        !is_said(&desk, "K7-32-G"),
        "a bought plank among the rejected"
    );
    press(&mut desk, "All 21");
    says(&desk, "K7-32-G");
    press(&mut desk, "Still to buy: enough in hand");
    says(&desk, "How it is worked out");
}

#[test]
fn the_planks_of_a_visit_come_back_to_its_own_order_and_the_heading_tells_which_it_is() {
    let mut desk = wide();
    desk.go(Route::Visit(visit_of(&desk, "Plumlatch Lumber")));
    let own = marks(&desk);
    press(&mut desk, "Mark");
    says(&desk, "Planks, sorted by: Mark");
    let sorted = marks(&desk);
    assert_ne!(sorted, own);
    // In a narrow window nothing sorts, and nothing would bring the order back.
    desk.act(Action::Wide(false));
    says(&desk, "Planks, best first");
    desk.act(Action::Wide(true));
    assert_eq!(marks(&desk), sorted);
    press(&mut desk, "Mark");
    says(&desk, "Planks, sorted by: Mark");
    press(&mut desk, "Mark");
    says(&desk, "Planks, best first");
    assert_eq!(marks(&desk), own);
}

#[test]
fn a_wood_that_no_pile_has_stands_chosen_among_the_blanks_needed() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let wood = stillwood_core::record::SpeciesNamed {
        id: None,
        text: "pear from the garden".to_owned(),
    };
    let put = |value| FormAction::Put(save_target::WOOD.key, value);
    for (route, chosen) in [
        (Route::Target(visit), " selected>pear from the garden"),
        (Route::Plan, "aria-checked=\"true\""),
    ] {
        desk.go(route);
        desk.act(put(as_json(&Some(&wood))));
        let body = region(&desk, "body");
        let at = body.rfind(">pear from the garden").unwrap();
        let option = &body[body[..at].rfind('<').unwrap()..at + 21];
        assert!(option.contains(chosen), "{option}");
    }
}

#[test]
fn sizes_and_limits_are_changed_and_the_target_is_saved() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "Sizes and limits");
    // The visit buys for the target, not for the number that stands in its field.
    says(
        &desk,
        "Blanks needed: the target of 20 Nov counts, 4. Change this and it counts on this visit instead.",
    );
    desk.type_into("Length, mm", "900");
    press(&mut desk, "shake");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::Visit(visit));
    let spec = &desk.model.state().visit(visit).unwrap().opened.spec;
    assert_eq!(spec.part.length_mm, 900.0);
    press(&mut desk, "Change the target");
    desk.type_into("Good blanks wanted", "40");
    press(&mut desk, "Save as target");
    says(&desk, "40 blanks by 1 Sep 2028, 80 % sure.");
    assert!(!is_said(&desk, "enough in hand"));
}

#[test]
fn a_visit_is_saved_for_the_laptop_in_one_press() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    desk.presses = 0;
    press(&mut desk, "Save for the laptop");
    assert_eq!(desk.presses, 1);
    let file = desk.files.last().unwrap();
    assert_eq!(file.name, "stillwood-plumlatch-lumber-2026-11-20.json");
    let reading = read(file.bytes(), &Limits::default()).unwrap();
    assert!(reading.accepted.iter().any(|entry| entry.about == visit));
    says(&desk, "downloads");
    // A wide window is the laptop: there it is not saved for one.
    desk.model.shell.wide = true;
    desk.go(Route::Visit(visit));
    assert!(region(&desk, "head").contains("Save the visit to downloads"));
    assert!(!is_said(&desk, "Save for the laptop"));
}

#[test]
fn deleting_a_visit_says_how_much_it_is_takes_it_out_of_every_list_and_is_undone() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Sort(pile_of(&desk, visit)));
    press(&mut desk, "Measure it now");
    desk.keys("2400");
    let planks = desk.model.state().planks().count();
    let pieces = desk.model.state().pieces().count();
    desk.go(Route::Visit(visit));
    says(&desk, "Unfinished planks");
    press(&mut desk, "Delete the visit");
    says(
        &desk,
        "Delete the visit to Plumlatch Lumber of 14 Nov 2025, with 2 piles, 21 planks",
    );
    says(&desk, "101 planks rejected in the sort");
    press(&mut desk, "Delete");
    assert_eq!(desk.model.route, Route::Yard);
    assert!(!is_said(&desk, "Unfinished planks"), "{}", desk.reads());
    assert!(!is_said(&desk, "122 turned over"));
    says(&desk, "Deleted · 1");
    assert_eq!(desk.model.state().planks().count(), planks - 21);
    let left = desk.model.state().pieces().count();
    assert!(left < pieces - 21, "its wood stays in the workshop");
    press(&mut desk, "Undo");
    assert_eq!(desk.model.state().pieces().count(), pieces);
    says(&desk, "122 turned over");
    says(&desk, "Unfinished planks");
}

#[test]
fn what_was_deleted_comes_back_from_the_list() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let deleted = |desk: &Desk| queries::deleted(desk.model.state(), desk.model.record.log());
    let before = deleted(&desk);
    let pieces = desk.model.state().pieces().count();
    desk.go(Route::EditVisit(visit));
    press(&mut desk, "Delete the visit");
    press(&mut desk, "Delete");
    desk.go(Route::Planks);
    assert!(!is_said(&desk, "K7-32-G"));
    desk.go(Route::Yard);
    press(&mut desk, "Put it back");
    says(
        &desk,
        "The visit to Plumlatch Lumber of 14 Nov 2025 is back.",
    );
    assert_eq!(desk.model.state().pieces().count(), pieces);
    assert_eq!(deleted(&desk), before, "the list holds what it held");
}

#[test]
fn nothing_of_a_deleted_pile_stands_behind_back_and_its_planks_lead_to_what_is_put_back() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let pile = pile_of(&desk, visit);
    let plank = desk.model.state().pieces_of(pile).next().unwrap().id;
    let screens = |pile: Id, visit: Id| {
        [
            Route::Sort(pile),
            Route::PileSummary(pile),
            Route::EditPile(pile),
            Route::Visit(visit),
            Route::NewPile(visit),
            Route::EditVisit(visit),
            Route::Tally(visit),
            Route::Seller(visit),
            Route::Spec(visit),
            Route::Target(visit),
        ]
    };
    let missing = |desk: &mut Desk, route: Route| {
        desk.go(route);
        is_said(desk, "This is not in the record on this device.")
    };
    for route in screens(pile, visit) {
        assert!(!missing(&mut desk, route), "{route:?}");
    }
    desk.go(Route::EditVisit(visit));
    press(&mut desk, "Delete the visit");
    press(&mut desk, "Delete");
    for route in screens(pile, visit) {
        assert!(missing(&mut desk, route), "{route:?}");
    }
    desk.go(Route::Plank(plank));
    says(
        &desk,
        "This plank was deleted with the visit to Plumlatch Lumber",
    );
    press(&mut desk, "Put it back");
    says(
        &desk,
        "The visit to Plumlatch Lumber of 14 Nov 2025 is back.",
    );
    assert!(!desk.model.state().piece(plank).unwrap().withdrawn);
}

#[test]
fn the_yards_total_against_ours_takes_its_digits_and_two_presses() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Tally(visit));
    says(
        &desk,
        "9 planks bought 157 parts 896.75 USD to pay, with tax",
    );
    // One press into the field, the digits, and one to compare.
    desk.presses = 1;
    desk.type_into("total-money", "1300.00");
    press(&mut desk, "Compare with ours");
    assert_eq!(desk.presses, 2);
    says(&desk, "The yard's figures are noted.");
    says(&desk, "Gap, without tax");
    press(&mut desk, "Gap in money: ");
    says(&desk, "theirs less ours");
    press(&mut desk, "Close");
    says(&desk, "illing rule");
    assert!(!is_said(&desk, "cheat"));
    let noted = |desk: &Desk| {
        let known = desk.model.state().visit(visit).unwrap().yard_total.clone();
        known
            .and_then(|(_, total)| total.money)
            .map(|money| money.to_string())
    };
    assert_eq!(noted(&desk).as_deref(), Some("1300.00"));
    // Undone, it stands there half typed, to be corrected.
    press(&mut desk, "Undo");
    assert_ne!(noted(&desk).as_deref(), Some("1300.00"));
    assert!(region(&desk, "body").contains("value=\"1300.00\""));
}

#[test]
fn a_total_with_the_tax_in_it_is_compared_without() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Tally(visit));
    desk.type_into("total-money", "1056.13");
    desk.type_into("total-board_feet", "118");
    press(&mut desk, "Compare with ours");
    says(&desk, "Gap, without tax +150.00 USD");
    says(&desk, "Theirs 118.00 bd ft; ours 100.00 bd ft");
    says(
        &desk,
        "Their total holds the tax, 62.13 USD of it. It is left out here.",
    );
    assert!(!is_said(&desk, "212.13"));
    press(&mut desk, "Gap in money: ");
    says(&desk, "Their total as the prices are");
    says(&desk, "994 − 844");
}

#[test]
fn what_is_to_pay_stands_first_and_paper_holds_every_total() {
    let mut desk = sample();
    desk.go(Route::Tally(visit_of(&desk, "Plumlatch Lumber")));
    let folds = |desk: &Desk| {
        let body = region(desk, "body");
        let at = |what: &str| body.find(what).expect("it stands there");
        (
            at("896.75"),
            at("Tax, weight and other totals"),
            at("52.75"),
        )
    };
    let (to_pay, name, tax) = folds(&desk);
    assert!(to_pay < name && name < tax);
    let summaries = |desk: &Desk| region(desk, "body").matches("<summary>").count();
    let on_screen = summaries(&desk);
    desk.act(Action::Printing(true));
    assert_eq!(
        summaries(&desk),
        on_screen - 2,
        "neither other totals nor the rule is hidden on paper"
    );
    says(&desk, "52.75 USD");
    says(&desk, "surface measure");
}

#[test]
fn a_bill_half_typed_is_kept_and_what_cannot_be_read_stands_at_its_field() {
    let mut desk = sample();
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
    says(&desk, "Gap, without tax");
    let kept: Vec<&String> = desk
        .kept
        .keys()
        .filter(|key| key.contains("bill/"))
        .collect();
    assert!(kept.is_empty(), "{kept:?}");
    // What says nothing new is half typed no more once it is compared.
    desk.type_into("total-money", "1300");
    press(&mut desk, "Compare with ours");
    assert!(desk.model.forms.is_empty(), "{:?}", desk.model.forms);
    assert!(!desk.kept.keys().any(|key| key.contains("bill/")));
}

#[test]
fn the_yards_lines_are_compared_plank_by_plank() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Vessingholt Timber Yard");
    desk.go(Route::Tally(visit));
    press(&mut desk, "m³");
    let plank = queries::taken_on(desk.model.state(), visit)[0].id;
    desk.type_into(&format!("line-cubic_metres-{plank}"), "0.05");
    press(&mut desk, "Compare the lines");
    says(&desk, "Theirs less ours, line by line");
    let line = desk.model.state().piece(plank).unwrap().yard_line.clone();
    assert_eq!(line.unwrap().1.cubic_metres.unwrap().to_string(), "0.05");
}

#[test]
fn a_pile_is_summed_up() {
    let mut desk = sample();
    let pile = pile_of(&desk, visit_of(&desk, "Plumlatch Lumber"));
    desk.go(Route::PileSummary(pile));
    says(&desk, "81 planks turned over");
    says(
        &desk,
        "Why no A plank may have several reasons. runout 25 bow 11 twist 11",
    );
    says(&desk, "Bought 6");
    press(&mut desk, "Go on sorting");
    assert_eq!(desk.model.route, Route::Sort(pile));
}

#[test]
fn where_all_maybes_are_measured_a_pile_leads_to_what_is_not_decided() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let next = piece_of(&desk, "R4-1-Q");
    desk.go(Route::PileSummary(pile_of(&desk, visit)));
    says(&desk, "Not yet decided 2");
    assert!(!is_said(&desk, "Measure the next maybe"));
    assert!(!is_said(&desk, "Planks bought"), "they stand below, once");
    press(&mut desk, "Decide on R4-1-Q");
    assert_eq!(desk.model.route, Route::Verdict(next));
    // On the visit too, before the long list of its planks.
    desk.go(Route::Visit(visit));
    press(&mut desk, "Decide · 2 left");
    assert_eq!(desk.model.route, Route::Verdict(next));
    press(&mut desk, "Hold");
    desk.go(Route::Visit(visit));
    press(&mut desk, "Decide · 1 left");
    press(&mut desk, "Hold");
    desk.go(Route::Visit(visit));
    assert!(!is_said(&desk, " left"));
}

#[test]
fn the_seller_sees_no_score_no_budget_and_no_note() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Tally(visit));
    says(&desk, "Left of the budget");
    says(&desk, "plank by plank it would be 896.76 USD.");
    press(&mut desk, "Turn the phone round");
    says(&desk, "896.75 USD");
    says(&desk, "plank by plank it would be 896.76 USD.");
    says(&desk, "K7-32-G");
    for hidden in [
        "budget",
        "Score",
        "Good",
        "Agreed at the gate",
        "Wood for one",
        "Blanks needed",
    ] {
        assert!(!is_said(&desk, hidden), "{hidden} is shown to the seller");
    }
    let all = desk.pressables().into_iter();
    let others = all.filter(|one| !one.label.contains("How it is worked out"));
    assert_eq!(others.count(), 1, "nothing but the way back");
}
