//! Faults of undoing, deleting and coming back.

use super::*;
use std::collections::BTreeMap;
use stillwood_app::form::FORM;
use stillwood_app::model::HalfTyped;
use stillwood_app::parts::capital;
use stillwood_core::record::State;

/// The same device after a reload at an address: what is kept, and nothing else.
fn reloaded(desk: &Desk, at: &str) -> Desk {
    let mut again = sample();
    let entries = desk.model.record.log().everything().cloned().collect();
    again.model.record.merge(entries);
    for (key, json) in &desk.kept {
        if let Some(key) = key.strip_prefix(FORM) {
            let form: HalfTyped = serde_json::from_str(json).unwrap();
            again.model.forms.insert(key.to_owned(), form);
        }
        if let Some(screen) = key.strip_prefix("shown/") {
            let texts: BTreeMap<String, String> = serde_json::from_str(json).unwrap();
            again.model.shown.insert(screen.to_owned(), texts);
        }
    }
    again.go(Route::of_address(at));
    again
}

fn form_text(desk: &Desk, key: &str) -> String {
    let form = desk.model.form.as_ref();
    form.unwrap_or_else(|| panic!("no form in:\n{}", desk.reads()))
        .text(key)
        .to_owned()
}

#[test]
fn undo_of_a_recorded_form_opens_it_again_with_its_texts() {
    let mut desk = sample();
    let id = piece(&desk, "K7-5-P b3");
    desk.go(Route::Piece(id));
    press(&mut desk, "More");
    press(&mut desk, "Weigh");
    desk.type_into("Scale", "by the door");
    desk.type_into("Weight", "431 g");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::Piece(id));
    assert!(desk.model.forms.is_empty());
    press(&mut desk, "Undo");
    assert_eq!(desk.model.route, Route::Deed(id));
    assert_eq!(form_text(&desk, "Weight"), "431 g");
    assert_eq!(form_text(&desk, "Scale"), "by the door");
    // It is half typed once more, and outlives a reload.
    let again = reloaded(&desk, &desk.model.route.address());
    assert_eq!(form_text(&again, "Weight"), "431 g");
    desk.type_into("Weight", "413 g");
    press(&mut desk, "Save");
    let piece = desk.model.state().piece(id).unwrap();
    let last = &piece.work.weighings.last().unwrap().payload;
    assert!((last.mass.value - 0.413).abs() < 1e-9);
}

#[test]
fn undo_of_a_new_visit_and_a_new_pile_opens_their_forms_again() {
    let mut desk = sample();
    desk.go(Route::NewVisit);
    desk.type_into("Yard", "Hopple");
    press(&mut desk, "Save");
    assert!(matches!(desk.model.route, Route::Visit(_)));
    press(&mut desk, "Undo");
    assert_eq!(desk.model.route, Route::NewVisit);
    assert_eq!(form_text(&desk, "Yard"), "Hopple");
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::NewPile(visit));
    desk.type_into("Wood", "black cherry");
    press(&mut desk, "Save");
    press(&mut desk, "Undo");
    assert_eq!(desk.model.route, Route::NewPile(visit));
    assert_eq!(form_text(&desk, "Wood"), "black cherry");
}

#[test]
fn a_deleted_visit_comes_back_with_its_edited_spec_and_leaves_nothing_half_typed_in_sight() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Spec(visit));
    desk.type_into("Length, mm", "873");
    press(&mut desk, "Save");
    let spec = |state: &State| state.visit(visit).unwrap().opened.spec.clone();
    let edited = spec(desk.model.state());
    assert_eq!(edited.part.length_mm, 873.0);
    // A plank, a pile, the spec and the bill half typed.
    let pile = desk.model.state().piles_of(visit).next().unwrap().id;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    desk.keys("2400");
    for (route, field) in [
        (Route::NewPile(visit), "Wood"),
        (Route::EditPile(pile), "Wood"),
        (Route::Spec(visit), "Width, mm"),
        (Route::Target(visit), "Good blanks wanted"),
        (Route::EditVisit(visit), "Yard"),
        (Route::Tally(visit), "total-money"),
    ] {
        desk.go(route);
        desk.type_into(field, "7");
    }
    let half_typed = desk.model.forms.len();
    desk.go(Route::Today);
    says(&desk, "Unfinished");
    let reads = desk.reads();
    assert_eq!(reads.matches("half typed").count(), half_typed, "{reads}");
    desk.go(Route::Visit(visit));
    press(&mut desk, "Delete the visit");
    press(&mut desk, "Delete");
    for place in [Route::Today, Route::Yard] {
        desk.go(place);
        says_not(&desk, "Unfinished");
        says_not(&desk, "half typed");
    }
    for place in [Route::Racks, Route::Planks, Route::Blanks] {
        desk.go(place);
        says_not(&desk, "K7-32-G");
    }
    desk.go(Route::Yard);
    press(&mut desk, "Put it back");
    assert_eq!(spec(desk.model.state()), edited);
    desk.go(Route::Today);
    assert_eq!(desk.reads().matches("half typed").count(), half_typed);
}

#[test]
fn of_two_half_typed_forms_of_a_piece_a_reload_opens_the_one_that_stood_there() {
    for (first, second) in [("Weigh", "Moisture"), ("Moisture", "Weigh")] {
        let mut desk = sample();
        let id = piece(&desk, "K7-5-P b3");
        for (name, text) in [(first, "4"), (second, "8")] {
            desk.go(Route::Piece(id));
            press(&mut desk, "More");
            press(&mut desk, name);
            let field = desk.model.form.as_ref().unwrap().id.fields()[0].key;
            desk.type_into(field, text);
        }
        let stood = desk.model.form.as_ref().unwrap().key.clone();
        let again = reloaded(&desk, &format!("#/deed/{id}"));
        let open = again.model.form.as_ref().unwrap();
        assert_eq!(open.key, stood, "{first}, {second}");
        // An address of which nothing more is known leads to the piece, and both are offered there.
        let mut desk = reloaded(&desk, "#/");
        desk.model.shown.clear();
        desk.go(Route::Deed(id));
        assert_eq!(desk.model.route, Route::Piece(id));
        for name in [first, second] {
            says(&desk, &format!("Half typed: {name}."));
        }
    }
}

#[test]
fn of_two_half_typed_forms_of_a_blank_a_reload_opens_the_one_that_stood_there() {
    for (first, second) in [("Weigh", "Moisture"), ("Moisture", "Weigh")] {
        let mut desk = sample();
        let id = find(&desk, |piece| {
            piece.work.kind == stillwood_core::record::PieceKind::Blank && piece.is_at_hand()
        });
        desk.go(Route::Blank(id));
        for name in [first, second] {
            desk.act(stillwood_app::blanks::Action::Open(id, name));
            let field = desk.model.form.as_ref().unwrap().id.fields()[0].key;
            desk.type_into(field, "5");
        }
        let stood = desk.model.form.as_ref().unwrap().key.clone();
        let again = reloaded(&desk, &desk.model.route.address());
        assert_eq!(again.model.form.as_ref().unwrap().key, stood);
    }
}

#[test]
fn of_two_half_typed_stages_a_reload_opens_the_one_that_stood_there() {
    use stillwood_core::season::Stage;
    for (first, second) in [
        (Stage::Pieces, Stage::Blanks),
        (Stage::Blanks, Stage::Pieces),
    ] {
        let mut desk = sample();
        desk.go(Route::RestTimes);
        for stage in [first, second] {
            let form = stillwood_app::form::FormId::RestTimes(stage);
            desk.act(stillwood_app::racks::Action::Toggle(form));
            let field = form.fields().last().unwrap().key;
            desk.type_into(field, "7");
        }
        let stood = desk.model.form.as_ref().unwrap().key.clone();
        let again = reloaded(&desk, "#/rests");
        assert_eq!(again.model.form.as_ref().unwrap().key, stood);
    }
}

#[test]
fn a_form_half_typed_outlives_a_reload_whichever_it_is() {
    use stillwood_app::form::FormId;
    use stillwood_core::record::WORKSHOP_COMMANDS;
    use stillwood_core::season::Stage;
    let desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let pile = desk.model.state().piles_of(visit).next().unwrap().id;
    let laminate = piece(&desk, "K7-5-P b3");
    let moved = piece(&desk, "K7-13-M a");
    let mut all = vec![
        (FormId::Visit(None), Route::NewVisit),
        (FormId::Visit(Some(visit)), Route::EditVisit(visit)),
        (FormId::NewPile(visit), Route::NewPile(visit)),
        (FormId::EditPile(pile), Route::EditPile(pile)),
        (FormId::GlueUp, Route::GlueUp),
        (FormId::GluingLimits, Route::GluingLimits),
        (FormId::FlattenAgain(moved), Route::Deed(moved)),
        (FormId::Cut(moved), Route::Cut(moved)),
        (FormId::RoomAir, Route::RestTimes),
        (FormId::Spec(visit), Route::Spec(visit)),
        (FormId::Target(Some(visit)), Route::Target(visit)),
        (FormId::Target(None), Route::Plan),
        (FormId::OwnWood(None), Route::NewWood),
        (FormId::Moved(moved), Route::LookOver),
    ];
    all.extend(Stage::ALL.map(|stage| (FormId::RestTimes(stage), Route::RestTimes)));
    for command in &WORKSHOP_COMMANDS {
        all.push((
            FormId::Workshop(laminate, command.key),
            Route::Deed(laminate),
        ));
    }
    for (form, route) in all {
        let mut desk = sample();
        open_by_hand(&mut desk, form, route);
        let open = desk.model.form.as_ref();
        let open = open.unwrap_or_else(|| panic!("{form:?} does not open"));
        assert_eq!(open.id, form);
        let typed = form.fields().into_iter().find(|field| {
            use stillwood_core::record::FieldKind;
            !matches!(field.kind, FieldKind::Gathered | FieldKind::Offered)
        });
        let field = typed.unwrap().key;
        desk.type_into(field, "half ty");
        let again = reloaded(&desk, &desk.model.route.address());
        let open = again.model.form.as_ref();
        let open = open.unwrap_or_else(|| panic!("{form:?} is closed after a reload"));
        assert_eq!((open.id, open.text(field)), (form, "half ty"));
        // And from Today it is one press away.
        let words = desk.model.forms[&form.key()].words.clone();
        let mut again = reloaded(&desk, "#/");
        press(&mut again, &capital(&words));
        let open = again.model.form.as_ref();
        let open = open.unwrap_or_else(|| panic!("{form:?} does not open from Today"));
        assert_eq!((open.id, open.text(field)), (form, "half ty"));
        // The set that is glued stands there as it was laid, and says nothing of it.
        if form != FormId::GlueUp {
            assert!(is_said(&again, "You had begun this"), "{form:?}");
        }
    }
}

/// Opens a form as a press would.
fn open_by_hand(desk: &mut Desk, form: stillwood_app::form::FormId, route: Route) {
    use stillwood_app::form::FormId;
    use stillwood_app::racks::{Action as Racks, PieceForm};
    match form {
        FormId::Workshop(id, name) => desk.act(Racks::Do(id, PieceForm::Workshop(name))),
        FormId::FlattenAgain(id) => desk.act(Racks::Do(id, PieceForm::FlattenAgain)),
        FormId::RestTimes(_) | FormId::RoomAir => {
            desk.go(route);
            desk.act(Racks::Toggle(form));
        }
        FormId::Moved(id) => {
            let place = desk.model.state().piece(id).unwrap();
            let place = place.work.place().unwrap().payload.clone();
            desk.act(Racks::LookOver(place));
            desk.act(Racks::ItMoved(id));
        }
        _ => desk.go(route),
    }
}
