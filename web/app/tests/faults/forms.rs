//! Faults of forms: what is accepted in silence, and which keys a field brings up.

use super::*;
use stillwood_app::effect::Effect;
use stillwood_app::form::FormId;
use stillwood_core::record::FieldKind;
use stillwood_core::record::WORKSHOP_COMMANDS;

#[test]
fn names_of_180_letters_and_other_nonsense_stand_at_their_fields() {
    let long = "Hopple and sons ".repeat(12);
    assert!(long.len() > 180);
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    for (route, key) in [
        (Route::NewVisit, "Yard"),
        (Route::NewPile(visit), "Name of the pile"),
        (Route::NewPile(visit), "Wood"),
        (Route::Spec(visit), "Name"),
        (Route::NewWood, "Name of the wood"),
    ] {
        desk.go(route);
        desk.type_into(key, &long);
        press(&mut desk, "Save");
        assert_eq!(desk.model.route, route, "{key}");
        let form = desk.model.form.as_ref().unwrap();
        assert!(form.errors.of(key).is_some(), "{key}: {:?}", form.errors);
    }
    desk.go(Route::NewVisit);
    for (key, text) in [("Yard", ""), ("Tax, %", "200"), ("Currency", "pounds")] {
        desk.type_into(key, text);
    }
    press(&mut desk, "Save");
    let form = desk.model.form.as_ref().unwrap();
    for key in ["Yard", "Tax, %", "Currency"] {
        assert!(form.errors.of(key).is_some(), "all at once: {key}");
    }
    // The first of them is looked at.
    assert_eq!(
        region(&desk, "body")
            .matches("aria-invalid=\"true\"")
            .count(),
        3
    );
}

#[test]
fn a_form_that_is_started_afresh_says_nothing_of_what_was_wrong() {
    let mut desk = sample();
    desk.go(Route::NewVisit);
    desk.type_into("Tax, %", "200");
    desk.go(Route::Today);
    desk.go(Route::NewVisit);
    press(&mut desk, "Save");
    assert!(region(&desk, "body").contains("aria-invalid"));
    press(&mut desk, "Start afresh");
    assert!(!region(&desk, "body").contains("aria-invalid"));
}

#[test]
fn of_two_questions_the_second_stands_until_it_is_answered_too() {
    let mut desk = sample();
    let id = piece(&desk, "K7-5-P b3");
    let weigh = stillwood_app::racks::PieceForm::Workshop("Weigh");
    desk.act(stillwood_app::racks::Action::Do(id, weigh));
    desk.type_into("Weight", "43 kg");
    desk.type_into("Day", "2027-06-01");
    press(&mut desk, "Save");
    let asked = |desk: &Desk| {
        let form = desk.model.form.as_ref();
        form.map_or(0, |form| form.questions.len())
    };
    assert_eq!(asked(&desk), 2, "{}", desk.reads());
    press(&mut desk, "Keep it as typed");
    assert_eq!(asked(&desk), 1, "{}", desk.reads());
    // What is typed anew is asked about anew.
    desk.type_into("Day", "2027-06-02");
    assert_eq!(asked(&desk), 0);
    press(&mut desk, "Save");
    assert_eq!(asked(&desk), 1);
    press(&mut desk, "Keep it as typed");
    assert!(desk.model.form.is_none(), "{}", desk.reads());
}

#[test]
fn a_number_brings_up_the_keys_for_numbers() {
    let desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let pile = desk.model.state().piles_of(visit).next().unwrap().id;
    let laminate = piece(&desk, "K7-5-P b3");
    let plain = |html: &str, fields: &[stillwood_core::record::FormField]| {
        for field in fields.iter().filter(|field| field.kind.is_number()) {
            let name = format!("name=\"{}\"", field.key);
            let Some(at) = html.find(&name) else { continue };
            let tag = &html[at..at + html[at..].find('>').unwrap()];
            assert!(tag.contains("inputmode=\"decimal\""), "{tag}");
        }
    };
    for (form, route) in [
        (FormId::Visit(None), Route::NewVisit),
        (FormId::NewPile(visit), Route::NewPile(visit)),
        (FormId::EditPile(pile), Route::EditPile(pile)),
        (FormId::GlueUp, Route::GlueUp),
        (FormId::GluingLimits, Route::GluingLimits),
        (FormId::Cut(laminate), Route::Cut(laminate)),
        (FormId::Spec(visit), Route::Spec(visit)),
        (FormId::Target(Some(visit)), Route::Target(visit)),
        (FormId::Target(None), Route::Plan),
        (FormId::OwnWood(None), Route::NewWood),
    ] {
        let mut desk = sample();
        desk.go(route);
        plain(&region(&desk, "body"), &form.fields());
    }
    for command in &WORKSHOP_COMMANDS {
        let mut desk = sample();
        let form = stillwood_app::racks::PieceForm::Workshop(command.key);
        desk.act(stillwood_app::racks::Action::Do(laminate, form));
        plain(&region(&desk, "body"), command.fields);
    }
    // No field of a form that wants a number is of a kind that is not known to be one.
    let weight = WORKSHOP_COMMANDS
        .iter()
        .find(|one| one.key == "Weigh")
        .unwrap();
    assert!(weight.fields.iter().any(|field| field.kind.is_number()));
    assert!(!FieldKind::Words.is_number());
}

#[test]
fn a_pile_is_changed_and_stays_in_its_visit() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let pile = desk.model.state().piles_of(visit).next().unwrap().id;
    desk.go(Route::EditPile(pile));
    desk.type_into("Name of the pile", "by the gate");
    press(&mut desk, "Save");
    let known = desk.model.state().pile(pile).unwrap();
    assert_eq!(known.opened.visit, visit);
    assert_eq!(known.opened.name, "by the gate", "{:?}", desk.model.form);
    assert!(desk.model.form.is_none());
}

#[test]
fn a_line_of_the_bill_that_cannot_be_read_is_shown_whatever_the_lines_are_counted_in() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Vessingholt Timber Yard");
    desk.go(Route::Tally(visit));
    let plank = stillwood_core::record::queries::taken_on(desk.model.state(), visit)[0].id;
    let field = format!("line-board_feet-{plank}");
    desk.type_into(&field, "about 5");
    let money = stillwood_core::record::commands::yard_tally::YardUnit::Money;
    desk.act(stillwood_app::yard::bill::Action::CountIn(money));
    press(&mut desk, "Compare the lines");
    says(&desk, "“about 5” is not a number.");
    let body = region(&desk, "body");
    let id = stillwood_app::form::field_id(&field);
    assert!(body.contains(&format!("id=\"{id}\"")), "{body}");
    // It is read out with its field.
    let below = format!("aria-describedby=\"{id}-below\"");
    assert!(body.contains(&below), "{body}");
    // The lines are folded in where none is wrong.
    let lines = body.find("Its lines").unwrap();
    assert!(
        body[..lines]
            .trim_end()
            .ends_with("<details open><summary>")
    );
    // Of several that can't be read the one that stands first on the screen is shown: a total stands above the lines.
    desk.type_into("total-money", "much");
    press(&mut desk, "Compare the lines");
    let mut focused = desk.left.iter().filter_map(|effect| match effect {
        Effect::Focus(id) => Some(id.as_str()),
        _ => None,
    });
    assert_eq!(focused.next_back(), Some("field-total-money"));
    desk.type_into("total-money", "");
    desk.type_into(&field, "5");
    press(&mut desk, "Compare the lines");
    says(&desk, "The yard's figures are noted.");
}
