//! A plank's sheet, and the list of all planks.

use super::*;

#[test]
fn a_planks_sheet_tells_verdict_readings_costs_cautions_and_history() {
    let mut desk = desk();
    let plank = piece_of(&desk, "K7-1-X");
    desk.go(Route::Plank(plank));
    for what in [
        "Bought · 17 Oct 2025",
        "16 parts of 950 × 45 × 16 mm",
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
        "Holds: 16 parts",
        "Weight: ",
        "Cost with tax: ",
        "Clean thickness, cut first",
    ] {
        press(&mut desk, figure);
        assert!(desk.model.dialog.is_some(), "{figure} is not told");
        press(&mut desk, "Close");
    }
    let Route::Plank(plank) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    desk.type_into(
        &format!("new-note/{plank}"),
        "Grey streak at the pith side.",
    );
    // It is kept while it is half typed, wherever the maker goes meanwhile.
    desk.go(Route::Today);
    expect(&desk, "A new note");
    desk.go(Route::Plank(plank));
    expect(&desk, "Grey streak at the pith side.");
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
        region(&desk, "body").contains("height=\"760\""),
        "19 rows of 40 and a key above them"
    );
    // On paper nothing can be scrolled to: all are drawn while it is printed.
    desk.act(Action::Printing(true));
    assert_eq!(marks(&desk).len(), 53);
    desk.act(Action::Printing(false));
    assert_eq!(marks(&desk).len(), 33);
    press(&mut desk, "Show the rows before");
    assert_eq!(marks(&desk).len(), 53);
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    assert_eq!(marks(&desk).len(), 21, "another list begins at its top");
}

#[test]
fn every_figure_on_every_screen_of_the_yard_tells_how_it_is_worked_out() {
    let mut desk = desk();
    let state = desk.model.state();
    let mut screens = vec![Route::Yard];
    for visit in state.visits() {
        screens.extend([
            Route::Visit(visit.id),
            Route::Tally(visit.id),
            Route::Seller(visit.id),
        ]);
        screens.extend(
            state
                .piles_of(visit.id)
                .map(|pile| Route::PileSummary(pile.id)),
        );
    }
    screens.extend(state.planks().take(8).map(|plank| Route::Plank(plank.id)));
    let mut figures = 0;
    for screen in screens {
        desk.go(screen);
        let page = desk.page();
        let told = desk.pressables().into_iter();
        for one in told.filter(|one| one.label.ends_with("How it is worked out")) {
            let action = page.action(&one.press).cloned().unwrap();
            desk.act(action);
            assert!(
                desk.model.dialog.is_some(),
                "{screen:?}: {} is not told",
                one.label
            );
            desk.act(Action::CloseDialog);
            figures += 1;
        }
    }
    assert!(figures > 250, "{figures} figures");
}
