//! What the app puts into fields by itself: a decimal comma in German, and the same number as in English.

use super::{DAY, SAMPLE};
use stillwood_app::desk::Desk;
use stillwood_app::form::{self, FormAction, FormId};
use stillwood_app::page::Page;
use stillwood_app::words::{Language, speaking};
use stillwood_core::quantity::read::{Units, amount};
use stillwood_core::record::commands::{WORKSHOP_COMMANDS, pile, tally_rule, visit};
use stillwood_core::record::queries::PutAway;
use stillwood_core::record::{FieldKind, Id, read_as};
use stillwood_core::season::Stage;

fn desk(language: Language) -> Desk {
    Desk::new_ones_speak(language);
    let desk = Desk::with_file(SAMPLE, DAY).unwrap();
    Desk::new_ones_speak(Language::English);
    desk
}

fn open(desk: &mut Desk, id: FormId) {
    let language = desk.page().language;
    speaking(language, || form::open(&mut desk.model, id));
}

fn text(desk: &Desk, key: &str) -> String {
    desk.model.form.as_ref().unwrap().text(key).to_owned()
}

/// Every form that the record of a desk has something to put into.
fn forms(desk: &Desk) -> Vec<FormId> {
    let state = desk.model.state();
    let mut forms = vec![
        FormId::Visit(None),
        FormId::GlueUp,
        FormId::GluingLimits,
        FormId::RoomAir,
        FormId::Target(None),
        FormId::OwnWood(None),
    ];
    forms.extend(Stage::ALL.map(FormId::RestTimes));
    for visit in state.visits().map(|one| one.id) {
        forms.extend([
            FormId::Visit(Some(visit)),
            FormId::NewPile(visit),
            FormId::Spec(visit),
            FormId::Target(Some(visit)),
            FormId::PutAway(PutAway::PlanksOfVisit(visit)),
        ]);
    }
    forms.extend(state.piles().map(|one| FormId::EditPile(one.id)));
    forms.extend(
        state
            .woods()
            .values()
            .map(|wood| FormId::OwnWood(Some(wood.about))),
    );
    for (at, piece) in state.pieces().map(|one| one.id).enumerate() {
        forms.extend([
            FormId::Cut(piece),
            FormId::FlattenAgain(piece),
            FormId::Moved(piece),
        ]);
        let commands = WORKSHOP_COMMANDS.iter().filter(|_| at % 7 == 0);
        forms.extend(commands.map(|one| FormId::Workshop(piece, one.key)));
    }
    forms
}

fn point_between_digits(text: &str) -> bool {
    let signs: Vec<char> = text.chars().collect();
    let digit = |at: usize| signs.get(at).is_some_and(char::is_ascii_digit);
    (1..signs.len()).any(|at| signs[at] == '.' && digit(at - 1) && digit(at + 1))
}

/// Opens every form of two desks with the same record, and saves it as it stands. The numbers in it, what is wrong
/// and what is asked are the same. How many numbers had a decimal sign.
fn walk(english: &mut Desk, german: &mut Desk) -> usize {
    let mut decimals = 0;
    for id in forms(english) {
        open(english, id);
        open(german, id);
        for field in id
            .all_fields()
            .iter()
            .filter(|field| field.kind.is_number())
        {
            let (one, other) = (text(english, field.key), text(german, field.key));
            assert!(
                !point_between_digits(&other),
                "{id:?} {}: {other}",
                field.key
            );
            decimals += usize::from(point_between_digits(&one));
            if field.kind == FieldKind::Money || field.kind == FieldKind::Percent {
                assert_eq!(amount(&one), amount(&other), "{id:?} {}", field.key);
            }
            for units in [Units::Metric, Units::Inch] {
                let read = |text| {
                    // A number with a unit of its own is read by its own reader: the save below tells.
                    let read = read_as(field.kind, text, units).ok().flatten();
                    read.map(|(reading, shown)| (reading.value, reading.unit, shown))
                };
                assert_eq!(read(&one), read(&other), "{id:?} {}", field.key);
            }
        }
        for desk in [&mut *english, &mut *german] {
            desk.act(FormAction::Save);
        }
        let said = |desk: &Desk| {
            desk.model.form.as_ref().map(|form| {
                let wrong = form.errors.all().iter().map(|(key, _)| key.clone());
                let asked = form.questions.iter().map(|asked| asked.key.clone());
                (wrong.collect::<Vec<_>>(), asked.collect::<Vec<_>>())
            })
        };
        assert_eq!(said(english), said(german), "{id:?}");
    }
    decimals
}

#[test]
fn every_prefilled_form_has_a_comma_and_the_same_numbers() {
    let (mut english, mut german) = (desk(Language::English), desk(Language::German));
    let decimals = walk(&mut english, &mut german);
    assert!(decimals > 100, "only {decimals} numbers had a decimal sign");
}

fn the_visit(desk: &Desk) -> Id {
    let mut visits = desk.model.state().visits();
    visits.find(|one| one.opened.yard == "Yard").unwrap().id
}

/// A visit with every number that a comma could make doubtful.
fn with_thousandths(desk: &mut Desk) {
    let typed = |desk: &mut Desk, fields: &[(&str, &str)]| {
        for (key, text) in fields {
            desk.type_into(key, text);
        }
        desk.act(FormAction::Save);
    };
    desk.go(stillwood_app::Route::NewVisit);
    let numbers = [
        (visit::YARD.key, "Yard"),
        (visit::CURRENCY.key, "EUR"),
        (visit::BUDGET.key, "1450.125"),
        (visit::TAX.key, "8.125"),
        (visit::DISCOUNT.key, "0.125"),
        (tally_rule::ADDED.key, "2.125"),
    ];
    typed(desk, &numbers);
    let visit = the_visit(desk);
    desk.go(stillwood_app::Route::NewPile(visit));
    let numbers = [
        (pile::WOOD.key, "hard maple"),
        (pile::NOMINAL.key, "2.125 in"),
        (pile::PRICE.key, "14.1250"),
        (pile::MOISTURE.key, "11.25"),
    ];
    typed(desk, &numbers);
    assert!(desk.model.form.is_none(), "{:?}", desk.model.form);
}

#[test]
fn a_comma_before_three_digits_is_no_thousand_and_asks_nothing() {
    let (mut english, mut german) = (desk(Language::English), desk(Language::German));
    with_thousandths(&mut english);
    with_thousandths(&mut german);
    let pile_before = {
        let state = german.model.state();
        let visit = state
            .visits()
            .find(|one| one.opened.yard == "Yard")
            .unwrap();
        state.piles_of(visit.id).next().unwrap().clone()
    };
    open(&mut german, FormId::EditPile(pile_before.id));
    assert_eq!(text(&german, pile::PRICE.key), "14,1250");
    assert_eq!(text(&german, pile::NOMINAL.key), "2,125 in");
    let visit_before = pile_before.opened.visit;
    open(&mut german, FormId::Visit(Some(visit_before)));
    assert_eq!(text(&german, visit::TAX.key), "8,125");
    assert_eq!(text(&german, visit::DISCOUNT.key), "0,125");
    assert_eq!(text(&german, visit::BUDGET.key), "1450,125");
    walk(&mut english, &mut german);
    let reads = |desk: &Desk| {
        let pile = desk.model.state().pile(pile_before.id).unwrap();
        pile.opened
            .nominal_thickness
            .as_ref()
            .unwrap()
            .typed
            .clone()
    };
    assert_eq!(
        (reads(&english), reads(&german)),
        ("2.125 in".into(), "2,125 in".into())
    );
    let after = german.model.state().pile(pile_before.id).unwrap();
    assert_eq!(after.opened.price, pile_before.opened.price);
    let nominal = |pile: &stillwood_core::record::Pile| {
        pile.opened.nominal_thickness.as_ref().map(|one| one.value)
    };
    assert_eq!(nominal(after), nominal(&pile_before));
    let visit = |desk: &Desk| {
        desk.model
            .state()
            .visit(visit_before)
            .unwrap()
            .opened
            .clone()
    };
    assert_eq!(visit(&german), visit(&english));
}

#[test]
fn what_was_typed_stays_as_it_was_typed() {
    let mut german = desk(Language::German);
    german.go(stillwood_app::Route::GluingLimits);
    let field = german.model.form.as_ref().unwrap().id.fields()[0];
    german.type_into(field.key, "0.75");
    german.go(stillwood_app::Route::Today);
    german.go(stillwood_app::Route::GluingLimits);
    assert_eq!(text(&german, field.key), "0.75");
    german.act(FormAction::Afresh);
    assert!(!point_between_digits(&text(&german, field.key)));
}

/// Fields for numbers of a page, with what stands in them.
pub(crate) fn numbers_in_fields(page: &Page) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for region in &page.regions {
        for tag in region
            .html
            .split('<')
            .filter_map(|part| part.split_once('>'))
        {
            let attribute = |name: &str| {
                let (_, after) = tag.0.split_once(&format!(" {name}=\""))?;
                after.split_once('"').map(|(value, _)| value.to_owned())
            };
            if attribute("inputmode").as_deref() == Some("decimal")
                && let (Some(name), Some(value)) = (attribute("name"), attribute("value"))
            {
                found.push((name, value));
            }
        }
    }
    found
}

/// What the walk through the gallery types itself.
const TYPED_IN_THE_GALLERY: &[&str] = &["+0.8", "10.5"];

/// Fields in which a decimal point stands that nobody typed.
pub(crate) fn points_in_fields(page: &Page) -> Vec<String> {
    let numbers = numbers_in_fields(page).into_iter();
    numbers
        .filter(|(_, value)| {
            point_between_digits(value) && !TYPED_IN_THE_GALLERY.contains(&value.as_str())
        })
        .map(|(name, value)| format!("{name}: {value}"))
        .collect()
}
