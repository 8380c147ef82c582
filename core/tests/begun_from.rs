//! What is half typed replaces what it was begun from, and nothing that came after.

mod filled;

use filled::{Shop, metric, only, typed};
use stillwood_core::plank::{Field, Reading, Readings, RingsBy, WeighedBy};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::verdict::Spec;
use stillwood_tests::invented::taken;

fn mm(field: Field, value: f64) -> (Field, Reading) {
    (field, taken(value, "mm"))
}

fn measured(readings: impl Into<Readings>) -> Event {
    Event::Measured(Measured {
        defects: Vec::new(),
        readings: readings.into(),
        species: None,
    })
}

fn decide(shop: &mut Shop, piece: Id, draft: &Draft) -> Vec<NewEvent> {
    let deciding = Deciding {
        piece,
        draft,
        weighed_by: WeighedBy::default(),
        rings_by: RingsBy::Angle,
        units: Units::Metric,
        decision: Decision::SetAside,
        reasons: &[],
        confirmed: true,
    };
    let filled = decide_plank::command(&deciding, &shop.context()).unwrap();
    shop.write(&filled.events);
    filled.events
}

fn open(shop: &Shop, piece: Id) -> Draft {
    plank_draft(&shop.state, piece, None, "").unwrap()
}

#[test]
fn what_another_measured_while_a_plank_was_open_stays_in_force() {
    let mut shop = Shop::new();
    let piece = shop.plank();
    let first = shop.phone.say(piece, measured([mm(Field::Length, 2480.0)]));
    shop.keep();
    let mut draft = open(&shop, piece);
    let again = DraftValue {
        text: "2475".into(),
        ..DraftValue::default()
    };
    draft.put(Field::Length, again);
    shop.phone.say(piece, measured([mm(Field::Twist, 4.0)]));
    shop.keep();
    let events = decide(&mut shop, piece, &draft);
    assert_eq!(events[0].supersedes, [first]);
    let known = shop.state.piece(piece).unwrap();
    assert_eq!(known.value(Field::Length), Some(2475.0));
    assert_eq!(known.value(Field::Twist), Some(4.0));
    // A draft that an older version kept does not say what it was begun from.
    let json = draft.to_json().unwrap();
    let older = Draft {
        begun_from: None,
        ..draft
    };
    assert_eq!(
        Draft::from_json(&json).unwrap().begun_from,
        Some(vec![first])
    );
    let events = decide(&mut shop, piece, &older);
    assert_eq!(events[0].supersedes.len(), 2);
}

#[test]
fn a_reading_that_was_cleared_does_not_come_back() {
    let mut shop = Shop::new();
    let piece = shop.plank();
    shop.phone.say(
        piece,
        measured([mm(Field::Bow, 9.0), mm(Field::Length, 2480.0)]),
    );
    shop.phone.say(
        piece,
        measured([mm(Field::Bow, 6.0), mm(Field::Length, 2480.0)]),
    );
    shop.keep();
    let mut draft = open(&shop, piece);
    draft.put(Field::Bow, DraftValue::default());
    decide(&mut shop, piece, &draft);
    assert_eq!(shop.state.piece(piece).unwrap().value(Field::Bow), None);
}

#[test]
fn a_plank_keeps_its_own_wood_when_that_was_renamed() {
    let mut shop = Shop::new();
    let piece = shop.plank();
    let own = SpeciesNamed {
        id: Some("a wood of mine".into()),
        text: "barn wood".into(),
    };
    let said = Event::Measured(Measured {
        defects: Vec::new(),
        readings: Readings::new(),
        species: Some(own.clone()),
    });
    shop.phone.say(piece, said);
    shop.keep();
    let draft = open(&shop, piece);
    assert_eq!(plank_setting(&shop.state, &draft).unwrap().species, own);
    decide(&mut shop, piece, &draft);
    let known = shop.state.piece(piece).unwrap();
    assert_eq!(known.species.as_ref().map(|(_, wood)| wood), Some(&own));
}

#[test]
fn terms_that_another_changed_meanwhile_are_disputed_and_not_replaced() {
    let mut shop = Shop::new();
    let visit = shop.phone.open_visit("North");
    shop.keep();
    let form = typed(
        visit::begins(Some(visit), &shop.context()),
        &[("Tax, %", "7")],
    );
    let of_spec = typed(
        spec::begins(visit, &shop.context()),
        &[("Blanks wanted", "9")],
    );
    let first = shop.state.visit(visit).unwrap().recorded.entry;
    let save = |shop: &Shop| {
        let mut no_id = || Id::from_u128(1);
        let filled = visit::command(&metric(&form), Some(visit), &shop.context(), &mut no_id);
        filled.unwrap().events
    };
    // What the form does not show may change: it goes on from there.
    let filled = spec::command(&metric(&of_spec), visit, &shop.context()).unwrap();
    let newer = shop.write(&filled.events);
    assert_eq!(save(&shop)[0].supersedes, newer);
    // What it shows was seen in the first entry alone.
    let mut other = shop.state.visit(visit).unwrap().opened.clone();
    other.tax_percent = 20.into();
    let event = Event::VisitOpened(Box::new(other));
    shop.write(&[NewEvent::instead_of(visit, event, newer)]);
    let events = save(&shop);
    assert_eq!(events[0].supersedes, [first]);
    shop.write(&events);
    assert_eq!(shop.state.disputes().len(), 1);
}

#[test]
fn a_new_visit_keeps_the_spec_that_was_chosen_whatever_is_on_offer_later() {
    let mut shop = Shop::new();
    let chosen = Spec::supplied()[1].clone();
    let texts = typed(
        visit::begins(None, &shop.context()),
        &[("Yard", "North"), ("spec", &as_json(&chosen))],
    );
    shop.phone.open_visit("South");
    shop.keep();
    let mut id = || Id::from_u128(1);
    let opened = only(visit::command(
        &metric(&texts),
        None,
        &shop.context(),
        &mut id,
    ));
    let Event::VisitOpened(opened) = opened else {
        panic!("{opened:?}")
    };
    assert_eq!(opened.spec, chosen);
}
