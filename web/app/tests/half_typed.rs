//! What was left half typed, by this version or an earlier one: each form is offered on Today, and a press opens that
//! very form with what was typed, whatever else is half typed of the same piece or screen.

mod at_the_desk;

use at_the_desk::{piece, press, sample, says, says_not};
use stillwood_app::desk::Desk;
use stillwood_app::half_typed::form_of_key;
use stillwood_app::model::{HalfTyped, Texts};
use stillwood_app::{Action, Route, book, yard};
use stillwood_core::plank::Field;
use stillwood_core::quantity::read::Units;

/// The keys and addresses under which version 0.1 kept forms.
fn of_the_old_version(desk: &Desk) -> Vec<(String, String)> {
    let visit = desk.model.state().visits().next().unwrap().id;
    let pile = desk.model.state().piles().next().unwrap().id;
    let (piece, second) = (piece(desk, "K7-5-P b3"), piece(desk, "K7-13-M a"));
    let mut kept: Vec<(String, String)> = [
        ("visit".to_owned(), "#/visit/new".to_owned()),
        (format!("visit/{visit}"), format!("#/visit-form/{visit}")),
        (format!("spec/{visit}"), format!("#/spec/{visit}")),
        (format!("pile-of/{visit}"), format!("#/new-pile/{visit}")),
        (format!("pile/{pile}"), format!("#/pile-form/{pile}")),
        ("wish".to_owned(), "#/plan".to_owned()),
        (format!("wish/{visit}"), format!("#/tally/{visit}")),
        ("own-wood".to_owned(), "#/own-wood".to_owned()),
        ("glue".to_owned(), "#/glue".to_owned()),
        ("gluing limits".to_owned(), "#/glue".to_owned()),
        ("room".to_owned(), "#/rests".to_owned()),
        ("terms/pieces".to_owned(), "#/rests".to_owned()),
        ("terms/laminates".to_owned(), "#/rests".to_owned()),
        ("terms/blanks".to_owned(), "#/rests".to_owned()),
    ]
    .into();
    for id in [piece, second] {
        for name in [
            "Weigh",
            "Moisture",
            "Check movement",
            "Throw out",
            "Reserve",
            "Release",
        ] {
            kept.push((format!("{id}/{name}"), format!("#/wood/{id}")));
        }
        kept.push((format!("{id}/cut"), format!("#/cut/{id}")));
        kept.push((format!("{id}/check"), "#/check".to_owned()));
    }
    kept
}

#[test]
fn each_form_of_the_old_version_opens_from_today_with_what_was_typed() {
    let mut desk = sample();
    let kept = of_the_old_version(&desk);
    for (n, (key, at)) in kept.iter().enumerate() {
        let form = form_of_key(key).unwrap_or_else(|| panic!("{key} is no form"));
        let field = form.fields().first().unwrap().key;
        let form = HalfTyped {
            at: at.clone(),
            words: format!("form {n}."),
            units: Units::Metric,
            texts: Texts::from([(field.to_owned(), format!("half {n}"))]),
        };
        desk.model.forms.insert(key.clone(), form);
    }
    for (n, (key, at)) in kept.iter().enumerate() {
        desk.go(Route::Today);
        assert!(desk.press(&format!("Form {n}.")), "{key} is not offered");
        let open = desk.model.form.as_ref();
        let open =
            open.unwrap_or_else(|| panic!("{key} of {at} does not open: {:?}", desk.model.route));
        assert_eq!(&open.key, key, "of {at}");
        assert!(
            open.texts.values().any(|text| *text == format!("half {n}")),
            "{key}: {:?}",
            open.texts
        );
        assert_eq!(
            desk.model.forms.len(),
            kept.len(),
            "{key}: nothing is lost by looking"
        );
    }
}

#[test]
fn what_is_no_form_leads_nowhere_and_is_kept() {
    let mut desk = sample();
    for key in [
        "",
        "nonsense",
        "visit/not-an-id",
        "01a0c451-a480-7b63-b0ec-0037c020bbb4/Nonsense",
    ] {
        assert!(form_of_key(key).is_none(), "{key}");
    }
    desk.act(Action::GoOn("nonsense".to_owned()));
    assert_eq!(desk.model.route, Route::Today);
}

#[test]
fn what_other_windows_left_half_typed_is_taken_in_and_what_is_open_here_stays() {
    let mut desk = sample();
    let pile = desk.model.state().piles().last().unwrap().id;
    let measure = |desk: &mut Desk, typed: &str| {
        desk.go(Route::Sort(pile));
        press(desk, "Measure it now");
        desk.keys(typed);
        desk.model.drafts.last().unwrap().clone()
    };
    let one = measure(&mut desk, "2620");
    let other = measure(&mut desk, "2480");
    // Another window decided on the first, typed on in the second, and began a visit.
    let mut theirs = other.clone();
    theirs.note = "theirs".into();
    let visit = HalfTyped {
        at: "#/visit/new".into(),
        words: "A visit, half typed".into(),
        units: Units::Metric,
        texts: Texts::from([("Yard".into(), "North".into())]),
    };
    desk.act(Action::HalfTyped {
        drafts: vec![theirs.clone()],
        forms: [("visit".to_owned(), visit)].into(),
    });
    assert_eq!(desk.model.drafts, [other], "it is open here");
    desk.go(Route::Today);
    says_not(&desk, &one.mark);
    says(&desk, "A visit, half typed");
    desk.act(Action::HalfTyped {
        drafts: vec![theirs.clone()],
        forms: Default::default(),
    });
    assert_eq!(desk.model.drafts, [theirs]);
    assert!(desk.model.forms.is_empty());
}

#[test]
fn what_was_typed_under_other_units_says_so_until_it_is_begun_afresh() {
    let mut desk = sample();
    desk.go(Route::NewVisit);
    desk.type_into("Budget", "100");
    let units = |desk: &mut Desk, units| {
        desk.go(Route::Settings);
        desk.act(book::settings::Action::Units(units));
        desk.go(Route::NewVisit);
    };
    units(&mut desk, Units::Inch);
    desk.type_into("Budget", "200");
    desk.go(Route::Today);
    desk.go(Route::NewVisit);
    assert_eq!(desk.model.form.as_ref().unwrap().found, Some(Units::Metric));
    press(&mut desk, "Start afresh");
    desk.type_into("Budget", "300");
    assert_eq!(desk.model.forms["visit"].units, Units::Inch);
    // A plank that was discarded keeps its meaning too.
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    desk.keys("100");
    desk.act(yard::Action::Discard);
    units(&mut desk, Units::Metric);
    let discarded = desk.model.yard.discarded.as_ref().unwrap();
    let length = &discarded.value(Field::Length).unwrap().text;
    assert!(
        length.starts_with("100 ") || length.contains("in") || length.contains('"'),
        "{length}"
    );
}

#[test]
fn settings_of_another_window_are_taken_up_and_what_is_open_keeps_its_meaning() {
    let mut desk = sample();
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    desk.keys("2620");
    let mut theirs = desk.model.settings.clone();
    theirs.units = Units::Inch;
    theirs.left_hand = true;
    desk.act(book::settings::Action::Kept(Box::new(theirs)));
    assert!(desk.model.settings.left_hand);
    let open = desk.model.yard.entering.as_ref().unwrap();
    let length = open.readings(&desk.model).readings[&Field::Length].value;
    assert_eq!(length, 2620.0);
}
