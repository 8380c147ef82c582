//! A plank's sheet, and the list of all planks.

use super::*;
use stillwood_app::action::Changes;
use stillwood_app::{Page, view};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::commands::NewEvent;
use stillwood_core::record::{Event, Marked};

#[test]
fn a_planks_sheet_tells_verdict_readings_costs_cautions_and_history() {
    let mut desk = sample();
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
        "Marked K7-1-X",
    ] {
        says(&desk, what);
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
    says(&desk, "A new note");
    desk.go(Route::Plank(plank));
    says(&desk, "Grey streak at the pith side.");
    press(&mut desk, "Add the note");
    says(&desk, "Grey streak at the pith side.");
    press(&mut desk, "Add the note");
    says(&desk, "Type the note first.");
}

#[test]
fn a_decision_is_changed_on_the_sheet_with_its_reasons() {
    let mut desk = sample();
    let plank = piece_of(&desk, "K7-1-X");
    desk.go(Route::Plank(plank));
    press(&mut desk, "Reject");
    says(&desk, "Why is it rejected? The first is the main reason.");
    press(&mut desk, "knot");
    press(&mut desk, "twist");
    press(&mut desk, "Reject: knot");
    let piece = desk.model.state().piece(plank).unwrap();
    let judged = piece.judgement().unwrap().judged.clone();
    assert_eq!(judged.decision, Decision::Leave);
    assert_eq!(judged.reasons.len(), 2);
    says(&desk, "K7-1-X rejected. Against the verdict.");
    says(&desk, "Against the verdict, which proposed: bought.");
    press(&mut desk, "Undo");
    let piece = desk.model.state().piece(plank).unwrap();
    assert_eq!(piece.decision(), Some(Decision::Take));
}

#[test]
fn a_plank_is_deleted_and_brought_back() {
    let mut desk = sample();
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
    says(&desk, "This plank is deleted.");
    press(&mut desk, "Put it back");
    assert!(!desk.model.state().piece(plank).unwrap().withdrawn);
    says(&desk, "Change the readings");
}

#[test]
fn all_planks_are_filtered_sorted_judged_under_another_spec_and_saved() {
    let mut desk = wide();
    desk.go(Route::Planks);
    says(&desk, "53 planks");
    press(&mut desk, "Held 4");
    says(&desk, "4 of 53 planks");
    desk.type_into("search", "walnut");
    assert!(!is_said(&desk, "4 of 53 planks"));
    press(&mut desk, "Show all planks");
    says(&desk, "53 planks");
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
    says(&desk, &format!("53 planks, judged by {spec}"));
    says(&desk, "Judged by the sizes and limits of");
    press(&mut desk, "Save as CSV");
    let file = desk.files.last().unwrap();
    assert_eq!(file.kind, "text/csv;charset=utf-8");
    let csv = String::from_utf8(file.bytes().to_vec()).unwrap();
    assert!(
        csv.starts_with('\u{feff}'),
        "a spreadsheet takes it for UTF-8 by this mark"
    );
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
    // The first stands beside the list already: the next is one key away.
    desk.act(Action::Key("ArrowDown".into()));
    assert!(region(&desk, "pane").contains(&format!(">{}<", listed[1])));
    let scrolls = |effect: &Effect| matches!(effect, Effect::ScrollTo(id) if id == "chosen-row");
    assert!(desk.left.iter().any(scrolls));
    desk.act(Action::Key("Enter".into()));
    assert_eq!(desk.model.route, Route::Plank(piece_of(&desk, &listed[1])));
    let mut desk = wide();
    desk.go(Route::Planks);
    desk.act(Action::Key("Enter".into()));
    assert_eq!(desk.model.route, Route::Plank(piece_of(&desk, &listed[0])));
}

#[test]
fn the_unit_of_a_column_stands_in_its_heading_and_a_rejected_plank_says_why() {
    let mut desk = wide();
    desk.go(Route::Planks);
    let rows = |desk: &Desk| {
        let body = region(desk, "body");
        let table = text_of(body.split("<table").nth(1).unwrap());
        table.replace(['\n', '\u{a0}'], " ")
    };
    let metric = rows(&desk);
    let (heading, cells) = metric.split_once("Decision").unwrap();
    assert!(
        heading.contains("Size mm") && heading.contains("Weight kg"),
        "{heading}"
    );
    assert!(!cells.contains(" mm") && !cells.contains(" kg"), "{cells}");
    assert!(cells.contains("2180 × 150 × 52"), "{cells}");
    assert!(cells.contains("rejected: better one taken"), "{cells}");
    // Inches and pounds stand at their numbers.
    desk.act(stillwood_app::book::settings::Action::Units(Units::Inch));
    desk.go(Route::Planks);
    let inches = rows(&desk);
    let (heading, cells) = inches.split_once("Decision").unwrap();
    assert!(!heading.contains("Size mm"), "{heading}");
    assert!(cells.contains(" lb"), "{cells}");
}

#[test]
fn only_the_rows_near_the_view_are_drawn() {
    let mut desk = wide();
    desk.go(Route::Planks);
    assert_eq!(marks(&desk).len(), 53);
    desk.act(yard::table::Action::Scrolled(45));
    assert_eq!(marks(&desk).len(), 23, "from row 30 on");
    assert!(
        region(&desk, "body").contains("height=\"1160\""),
        "29 rows of 40 and a key above them"
    );
    // On paper nothing can be scrolled to: all are drawn while it is printed.
    desk.act(Action::Printing(true));
    assert_eq!(marks(&desk).len(), 53);
    desk.act(Action::Printing(false));
    assert_eq!(marks(&desk).len(), 23);
    press(&mut desk, "Show the rows before");
    assert_eq!(marks(&desk).len(), 53);
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    assert_eq!(marks(&desk).len(), 21, "another list begins at its top");
}

#[test]
fn every_figure_on_every_screen_of_the_yard_tells_how_it_is_worked_out() {
    let mut desk = sample();
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

#[test]
fn the_sheet_of_a_plank_is_printed() {
    let mut desk = sample();
    let id = piece_of(&desk, "K7-5-P");
    desk.go(Route::Plank(id));
    press(&mut desk, "Print");
    assert!(matches!(desk.left.last(), Some(Effect::Print)));
}

#[test]
fn a_planks_sheet_says_what_its_wood_usually_weighs() {
    let mut desk = sample();
    let id = piece_of(&desk, "K7-32-G");
    desk.go(Route::Plank(id));
    says(&desk, "Usual density 564 kg/m³ to 847 kg/m³");
}

#[test]
fn the_place_of_a_defect_is_said_once() {
    let mut desk = sample();
    let id = piece_of(&desk, "K7-5-P");
    desk.go(Route::Plank(id));
    says(&desk, "end check, from 0 mm to 90 mm");
}

/// The sample, and so many planks more on one of its piles.
fn with_many(planks: u64) -> Desk {
    let mut desk = wide();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let pile = pile_of(&desk, visit);
    let (events, ids): (Vec<NewEvent>, Vec<Id>) = (0..planks)
        .map(|n| {
            let mark = format!("Z-{n}-M");
            let id = |of: u8| Id::version_7(1_790_000_000_000 + n, &[of; 10]);
            (
                NewEvent::new(id(1), Event::Marked(Marked { mark, pile })),
                id(2),
            )
        })
        .unzip();
    let record = &mut desk.model.record;
    let made = record
        .entries(&events, &ids, &desk.model.now, 5_000)
        .unwrap();
    record.merge(made.into_iter().map(|one| one.entry().clone()).collect());
    desk
}

/// Does an action without what follows from it.
fn only(desk: &mut Desk, action: impl Into<Action>) -> Vec<Effect> {
    stillwood_app::update(&mut desk.model, action.into())
}

fn goes_on(effects: &[Effect]) -> bool {
    let next = |effect: &Effect| matches!(effect, Effect::After(0, _));
    effects.iter().any(next)
}

#[test]
fn a_long_list_is_worked_out_a_slice_at_a_time_shows_how_far_it_is_and_can_be_left() {
    let mut desk = with_many(1500);
    let all = desk.model.state().planks().count();
    assert_eq!(all, 53 + 1500);
    let first = only(&mut desk, Action::Shown(Route::Planks));
    assert!(goes_on(&first));
    says(&desk, &format!("Working out the planks: 0 of {all}."));
    // What is pressed meanwhile asks for nothing twice.
    assert!(!goes_on(&only(&mut desk, Action::Wide(true))));
    assert!(goes_on(&only(&mut desk, yard::table::Action::WorkOn)));
    says(&desk, &format!("Working out the planks: 250 of {all}."));
    assert!(marks(&desk).is_empty());

    // Left and come back to, it begins anew; a slice that was on its way does nothing on another screen.
    only(&mut desk, Action::Shown(Route::Today));
    assert!(!goes_on(&only(&mut desk, yard::table::Action::WorkOn)));
    desk.go(Route::Planks);
    says(&desk, &format!("{all} planks"));
    assert_eq!(marks(&desk).len(), 80);

    // Under another spec the same, to what is worked out at once for few.
    let spec = queries::specs(desk.model.state()).last().unwrap().0.clone();
    let typed = Action::Typed("judged-by".into(), spec.clone());
    assert!(goes_on(&only(&mut desk, typed)));
    says(&desk, &format!("judged by {spec}"));
    desk.act(yard::table::Action::WorkOn);
    says(&desk, &format!("{all} planks, judged by {spec}"));
    desk.type_into("search", "H3-");
    let mut few = wide();
    few.go(Route::Planks);
    few.type_into("judged-by", &spec);
    few.type_into("search", "H3-");
    assert_eq!(marks(&desk), marks(&few));
    assert_eq!(region(&desk, "pane"), region(&few, "pane"));

    // A new entry is seen.
    let id = piece_of(&desk, "Z-77-M");
    desk.act(yard::recorded::Action::Decide(id, Decision::SetAside));
    desk.type_into("search", "Z-77-M");
    says(&desk, &format!("1 of {all} planks"));
    assert!(region(&desk, "body").contains("held"));
}

#[test]
fn wood_that_was_worked_leads_on_and_its_decision_stands_lower() {
    let mut desk = sample();
    desk.go(Route::Plank(piece_of(&desk, "K7-5-P")));
    let foot = text_of(&region(&desk, "foot"));
    assert_eq!(foot.trim(), "In the racks");
    assert!(region(&desk, "body").contains("Bought"));
    let at_hand = |desk: &Desk| {
        let mut planks = desk.model.state().planks();
        planks
            .find(|piece| piece.is_bought() && piece.is_at_hand())
            .unwrap()
            .id
    };
    let at_hand = at_hand(&desk);
    desk.go(Route::Plank(at_hand));
    assert!(region(&desk, "foot").contains("Reject"));
}

#[test]
fn a_row_that_is_drawn_again_elsewhere_keeps_its_element() {
    let mut desk = with_many(200);
    desk.go(Route::Planks);
    // Each row whole, with what its keys do: one that says the same is not patched.
    let rows = |desk: &Desk| -> Vec<String> {
        let body = region(desk, "body");
        let rows = body.split("<tr id=\"").skip(1);
        rows.map(|row| row.split("</tr>").next().unwrap().to_owned())
            .collect()
    };
    let before = rows(&desk);
    desk.act(yard::table::Action::Scrolled(60));
    let after = rows(&desk);
    let stay = after.iter().filter(|row| before.contains(row)).count();
    assert_eq!(after.len(), 80);
    assert_eq!(stay, 30, "50 rows went");
    // Once it is known how many rows are in view, only those near them are drawn.
    desk.act(yard::table::Action::InView(60, 21));
    let (before, after) = (after, rows(&desk));
    assert_eq!(after.len(), 46);
    assert!(after.iter().all(|row| before.contains(row)));
    desk.act(yard::table::Action::InView(70, 21));
    let stay = rows(&desk).iter().filter(|row| after.contains(row)).count();
    assert_eq!(stay, 36, "10 rows went");
    // The page is told so: the rows that stay are left alone.
    let list = |desk: &Desk| {
        let body = region(desk, "body");
        let from = body.find("<table").unwrap();
        body[from..body.rfind("</table>").unwrap() + 8].to_owned()
    };
    let (was, _) = (list(&desk), desk.act(yard::table::Action::InView(80, 21)));
    let is = list(&desk);
    let to = stillwood_app::long_list::moved(&was, &is).unwrap();
    assert_eq!(
        (to.rows, to.stay),
        (50, 36),
        "with the rows that stand for others"
    );
    assert_eq!(to.after.matches("aria-rowindex").count(), 10);
}

#[test]
fn what_scrolling_changes_is_drawn_by_itself_as_on_the_whole_screen() {
    let mut desk = with_many(200);
    desk.go(Route::Planks);
    let scrolled = Action::from(yard::table::Action::InView(60, 21));
    assert_eq!(
        scrolled.changes(&desk.model.route),
        Changes::Alone(&["body"])
    );
    assert_eq!(Action::Back.changes(&desk.model.route), Changes::All);
    let others = |page: &Page| {
        let others = page.regions.iter().filter(|region| region.id != "body");
        others.map(|region| region.html.clone()).collect::<Vec<_>>()
    };
    let before = others(&view(&desk.model));
    desk.act(scrolled);
    let whole = view(&desk.model);
    assert_eq!(others(&whole), before);
    let alone = view::regions(&mut desk.model, &["body"]);
    let body = whole.regions.iter().find(|region| region.id == "body");
    assert_eq!(alone.len(), 1);
    assert_eq!(alone[0].html, body.unwrap().html);
    assert_eq!(view(&desk.model).regions.len(), whole.regions.len());
    assert!(view::regions(&mut desk.model, &["nowhere"]).is_empty());
}

#[test]
fn the_place_that_decides_is_marked_on_the_drawing_and_said() {
    let mut desk = sample();
    let all: Vec<Id> = desk.model.state().pieces().map(|piece| piece.id).collect();
    let mut marked = 0;
    for id in all {
        desk.go(Route::Plank(id));
        let regions = desk.page().regions;
        let html: String = regions.iter().map(|region| region.html.as_str()).collect();
        let marks = html.matches("class=\"weakest ").count();
        assert!(marks <= 1, "{marks}");
        assert_eq!(html.matches("Marked: ").count(), marks);
        marked += marks;
    }
    assert!(marked > 3, "{marked}");
}
