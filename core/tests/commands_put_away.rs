//! The planks that a visit brought home are put on a rack in one go, and what of them waits for it.

mod filled;

use filled::{Shop, asked, day, metric, typed, wrong};
use stillwood_core::record::commands::put_away;
use stillwood_core::record::queries::PutAway;
use stillwood_core::record::*;
use stillwood_tests::invented::judged;

/// Two visits: of the first three planks are bought, one is held, one not decided; of the second one is bought.
fn home() -> (Shop, Id, Vec<Id>) {
    let mut shop = Shop::new();
    let first = shop.phone.open_visit("North");
    let pile = shop.phone.open_pile(first, "hard_maple");
    let planks: Vec<Id> = (0..5).map(|_| shop.phone.mark(pile)).collect();
    let decide = |shop: &mut Shop, plank: Id, decision| {
        shop.phone
            .say(plank, Event::Judged(judged(decision, Some(70.0))));
    };
    for plank in &planks[..3] {
        decide(&mut shop, *plank, Decision::Take);
    }
    decide(&mut shop, planks[3], Decision::SetAside);
    let second = shop.phone.open_visit("South");
    let pile = shop.phone.open_pile(second, "ash");
    let plank = shop.phone.mark(pile);
    decide(&mut shop, plank, Decision::Take);
    shop.keep();
    (shop, first, planks)
}

fn fill(shop: &Shop, visit: Id, texts: &[(&str, &str)]) -> Result<Filled, FieldErrors> {
    let texts = typed(put_away::begins(&shop.context()), texts);
    put_away::command(
        &metric(&texts),
        PutAway::PlanksOfVisit(visit),
        &shop.context(),
    )
}

#[test]
fn the_bought_planks_of_a_visit_wait_for_a_rack_and_those_not_decided_do_not() {
    let (shop, first, planks) = home();
    let waiting = queries::to_put_away(&shop.state);
    assert_eq!(waiting.len(), 2);
    let of_first = waiting
        .iter()
        .find(|one| one.which == PutAway::PlanksOfVisit(first))
        .unwrap();
    assert_eq!(of_first.from, "North");
    let ids: Vec<Id> = of_first.pieces.iter().map(|(id, _)| *id).collect();
    assert_eq!(ids, planks[..3]);
}

#[test]
fn the_parts_of_a_cut_are_one_lot_whenever_each_came_to_its_place() {
    let mut shop = Shop::new();
    let plank = stillwood_tests::workshop::bought(&mut shop.phone, "A7");
    shop.phone.set_day("2026-10-01");
    let parts = [
        ("A7a", 80.0, 700.0),
        ("A7b", 710.0, 1300.0),
        ("A7c", 1310.0, 1900.0),
    ];
    let parts = shop.phone.crosscut(plank, &parts);
    shop.phone.set_day("2026-10-10");
    shop.phone.place(parts[0], "1");
    shop.keep();
    let waiting = queries::to_put_away(&shop.state);
    assert_eq!(waiting.len(), 1);
    assert_eq!(waiting[0].which, PutAway::PartsOfCut(plank));
    assert_eq!(waiting[0].pieces.len(), 3);
}

#[test]
fn they_are_put_on_a_rack_in_one_go_on_one_day() {
    let (mut shop, first, planks) = home();
    let filled = fill(&shop, first, &[("Shelf", " north wall ")]).unwrap();
    assert_eq!(filled.questions, []);
    let on = shop.today;
    let expected: Vec<NewEvent> = planks[..3]
        .iter()
        .map(|plank| {
            let place = "north wall".to_owned();
            NewEvent::new(*plank, Event::Placed(Placed { place })).on(on)
        })
        .collect();
    assert_eq!(filled.events, expected);
    shop.write(&filled.events);
    let waiting = queries::to_put_away(&shop.state);
    assert!(
        waiting
            .iter()
            .all(|one| one.which != PutAway::PlanksOfVisit(first))
    );
}

#[test]
fn any_of_them_can_be_left_out_and_waits_on() {
    let (mut shop, first, planks) = home();
    let left_out = format!("[\"{}\"]", planks[1]);
    let texts = [("Shelf", "loft"), ("pieces left out", &left_out)];
    let filled = fill(&shop, first, &texts).unwrap();
    let about: Vec<Id> = filled.events.iter().map(|one| one.about).collect();
    assert_eq!(about, [planks[0], planks[2]]);
    shop.write(&filled.events);
    let waiting = queries::to_put_away(&shop.state);
    let of_first = waiting
        .iter()
        .find(|one| one.which == PutAway::PlanksOfVisit(first))
        .unwrap();
    assert_eq!(of_first.pieces.len(), 1);
    assert_eq!(of_first.pieces[0].0, planks[1]);
}

#[test]
fn all_that_is_wrong_is_told_at_once_and_an_odd_day_is_asked_once() {
    let (shop, first, planks) = home();
    let all = as_json(&planks);
    let none = [("pieces left out", all.as_str()), ("On the rack since", "")];
    let errors = wrong(fill(&shop, first, &none));
    assert_eq!(errors, ["Shelf", "On the rack since", "pieces left out"]);
    let ahead = [("Shelf", "loft"), ("On the rack since", "2027-03-01")];
    let filled = fill(&shop, first, &ahead).unwrap();
    assert_eq!(asked(&filled), ["On the rack since"]);
    assert!(
        filled
            .events
            .iter()
            .all(|one| one.on == Some(day("2027-03-01")))
    );
}
