//! What was left half typed, by this version or an earlier one: each form is offered on Today, and a press opens that
//! very form with what was typed, whatever else is half typed of the same piece or screen.

mod at_the_desk;

use at_the_desk::{piece, sample};
use stillwood_app::desk::Desk;
use stillwood_app::half_typed::form_of_key;
use stillwood_app::model::{HalfTyped, Texts};
use stillwood_app::{Action, Route};
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
        assert!(desk.press(&format!("form {n}.")), "{key} is not offered");
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
