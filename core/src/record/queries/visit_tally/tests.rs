//! An invented visit with two piles, projected and tallied.

use super::*;
use crate::plank::{Field, Reading, Readings};
use crate::quantity::{Derivation, in_kg};
use crate::record::log::{
    DeviceId, Entry, Event, EventMeta, Judged, Log, Marked, Measured, PileOpened, SpeciesNamed,
    VisitOpened, YardFigures,
};
use crate::record::queries;
use crate::trade::{Conclusion, PriceBasis, Rounding};
use crate::verdict::Spec;
use rust_decimal::prelude::ToPrimitive;

pub(crate) fn id(n: u128) -> Id {
    Id::from_u128(n)
}

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// Entries numbered in a row.
#[derive(Default)]
pub(crate) struct Writer {
    entries: Vec<Entry>,
}

impl Writer {
    pub(crate) fn write(&mut self, about: u128, event: Event) -> Id {
        let seq = self.entries.len() as u64 + 1;
        let moment = EventMeta {
            id: id(0x1000 + u128::from(seq)),
            seq,
            step: seq,
            on: "2026-03-07".parse().unwrap(),
            on_confirmed: false,
            at: String::new(),
        };
        let author = DeviceId { by: "K".into() };
        let entry = author.entry(moment, id(about), event).unwrap();
        let entry_id = entry.id;
        self.entries.push(entry);
        entry_id
    }

    pub(crate) fn state(&self) -> State {
        let mut log = Log::new();
        log.merge(self.entries.iter().cloned());
        State::project(&log)
    }
}

fn taken(value: f64) -> Reading {
    Reading::of_number(value, "mm")
}

pub(crate) fn visit() -> VisitOpened {
    VisitOpened {
        budget: Some(Decimal::from(1000)),
        currency: "EUR".into(),
        discount_percent: Decimal::ZERO,
        note: String::new(),
        price_basis: PriceBasis::BoardFoot,
        prices_include_tax: false,
        rule: TallyRule::default(),
        spec: Spec::supplied().swap_remove(0),
        tax_percent: Decimal::from(20),
        yard: "North".into(),
    }
}

pub(crate) fn pile(price: &str) -> PileOpened {
    PileOpened {
        country_of_harvest: String::new(),
        invoice: String::new(),
        moisture: None,
        name: String::new(),
        nominal_thickness: Some(taken(50.8)),
        price: Some(dec(price)),
        price_basis: None,
        price_confirmed: false,
        rule: None,
        species: SpeciesNamed {
            id: None,
            text: "river maple".into(),
        },
        visit: id(1),
        wood_temperature: None,
    }
}

pub(crate) fn plank(
    writer: &mut Writer,
    piece: u128,
    pile: u128,
    (length, width): (f64, f64),
    decision: Decision,
) {
    let marked = Marked {
        mark: format!("K-{piece}"),
        pile: id(pile),
    };
    writer.write(piece, Event::Marked(marked));
    let readings = Readings::from([
        (Field::Length, taken(length)),
        (Field::WidthNear, taken(width)),
        (Field::ThicknessNear, taken(52.0)),
        (Field::WeightWhole, taken(19.7)),
    ]);
    let measured = Measured {
        readings,
        ..Measured::default()
    };
    writer.write(piece, Event::Measured(measured));
    let judged = Judged {
        decision,
        proposed: None,
        reasons: Vec::new(),
        score: None,
        weakest: None,
    };
    writer.write(piece, Event::Judged(judged));
}

fn two_piles() -> Writer {
    let mut writer = Writer::default();
    writer.write(1, Event::VisitOpened(Box::new(visit())));
    writer.write(2, Event::PileOpened(Box::new(pile("14.50"))));
    let mut gross = pile("6000");
    gross.price_basis = Some(PriceBasis::CubicMetre);
    writer.write(3, Event::PileOpened(Box::new(gross)));
    plank(&mut writer, 10, 2, (2620.0, 204.0), Decision::Take);
    plank(&mut writer, 11, 3, (2620.0, 204.0), Decision::Take);
    plank(&mut writer, 12, 2, (2620.0, 204.0), Decision::Leave);
    writer
}

#[test]
fn a_visit_is_tallied_by_the_terms_of_each_pile() {
    let state = two_piles().state();
    let found = queries::tally_of(&state, id(1)).unwrap();
    let marks: Vec<&str> = found.planks.iter().map(|p| p.line.mark.as_str()).collect();
    assert_eq!(marks, ["K-10", "K-11"]);
    assert_eq!(found.tally.board_feet.round_dp(1), dec("23.0"));
    assert_eq!(found.exact_board_feet.round_dp(1), dec("23.6"));
    let exact = found.planks[0].exact_board_feet.unwrap();
    assert_eq!(exact.round_dp(2), dec("11.78"));
    let net = |n: usize| found.planks[n].tallied.money.unwrap().net;
    assert_eq!((net(0), net(1)), (dec("166.84"), dec("162.91")));
    assert_eq!(found.tally.money.gross, dec("395.70"));
    assert_eq!(found.budget_left, Some(dec("604.30")));
    assert!((in_kg(found.mass) - 39.4).abs() < 1e-9 && found.not_weighed == 0);
    let parts = found.planks[0].parts.unwrap();
    assert_eq!(found.planks[1].parts, Some(parts));
    let average = found.cost_per_part.unwrap();
    assert_eq!(average, dec("395.70") / Decimal::from(2 * parts));
}

#[test]
fn what_is_not_here_is_no_visit_and_an_empty_one_costs_nothing() {
    let mut writer = Writer::default();
    writer.write(1, Event::VisitOpened(Box::new(visit())));
    let state = writer.state();
    assert_eq!(queries::tally_of(&state, id(7)), None);
    let found = queries::tally_of(&state, id(1)).unwrap();
    assert_eq!(found.tally.money.gross, Decimal::ZERO);
    assert_eq!(found.cost_per_part, None);
    assert_eq!(found.budget_left, Some(dec("1000.00")));
}

fn line(feet: &str) -> Event {
    Event::YardLine(YardFigures {
        board_feet: Some(dec(feet)),
        ..YardFigures::default()
    })
}

#[test]
fn the_yards_lines_are_set_against_ours() {
    let mut writer = Writer::default();
    writer.write(1, Event::VisitOpened(Box::new(visit())));
    writer.write(2, Event::PileOpened(Box::new(pile("14.50"))));
    plank(&mut writer, 10, 2, (2620.0, 204.0), Decision::Take);
    plank(&mut writer, 11, 2, (2500.0, 190.0), Decision::Take);
    plank(&mut writer, 12, 2, (2400.0, 181.0), Decision::Take);
    // Widths 9, 8 and 8 inches: each up to the whole inch.
    writer.write(10, line("12.9"));
    writer.write(11, line("10.9"));
    let state = writer.state();
    let ours = queries::tally_of(&state, id(1)).unwrap();
    let found = queries::yard_against(&state, id(1), &ours).unwrap();
    assert_eq!(found.without_line, ["K-12"]);
    assert_eq!(found.planks[0].difference.unwrap().round_dp(1), dec("1.4"));
    assert_eq!(found.planks[0].money.unwrap().round(), dec("20"));
    // What is told of it is the same figure.
    let told = |working: Option<Derivation>| working.unwrap().steps.last().unwrap().result;
    let number = |value: Option<Decimal>| value.unwrap().to_f64().unwrap();
    for gap in &found.planks {
        assert!((told(gap.explain_volume()) - number(gap.difference)).abs() < 1e-9);
    }
    let [customs] = found.by_lines.as_slice() else {
        panic!("{:?}", found.by_lines);
    };
    assert_eq!(customs.found.conclusion, Conclusion::Explained);
    assert_eq!(
        customs.found.told[0].habits,
        [crate::trade::Habit::Width(Rounding::Up)]
    );
    assert_eq!(found.total, None);
}

#[test]
fn money_that_no_footage_explains_is_told_and_tax_is_known_for_what_it_is() {
    let with_total = |feet: Option<&str>, money: &str| {
        let mut one = Writer::default();
        one.write(1, Event::VisitOpened(Box::new(visit())));
        one.write(2, Event::PileOpened(Box::new(pile("14.50"))));
        plank(&mut one, 10, 2, (2620.0, 204.0), Decision::Take);
        let total = YardFigures {
            board_feet: feet.map(dec),
            money: Some(dec(money)),
            ..YardFigures::default()
        };
        one.write(1, Event::YardTotal(total));
        let state = one.state();
        let ours = queries::tally_of(&state, id(1)).unwrap();
        let found = queries::yard_against(&state, id(1), &ours).unwrap();
        if let Some(told) = found
            .total
            .as_ref()
            .and_then(|one| one.explain_money("EUR"))
        {
            let shown = found.total.as_ref().unwrap().money.unwrap();
            let shown: f64 = shown.to_string().parse().unwrap();
            assert!((told.steps.last().unwrap().result - shown).abs() < 1e-9);
        }
        let gap = found.total.as_ref().unwrap().money;
        if found.money_left.is_some_and(|left| left.is_tax) {
            // Without its tax: what the footage is worth more, or nothing.
            let more = if feet.is_some() { "21.66" } else { "0.00" };
            assert_eq!(gap.map(|gap| gap.round_dp(2)), Some(dec(more)));
        }
        (found.money_left, found.budget_left, ours)
    };
    // Ours are 11.5060 feet at 14.50: 166.84 without tax, 200.21 with its 20 %. Theirs are 13 feet: 188.50.
    let (left, budget, ours) = with_total(Some("13"), "188.50");
    let money = &ours.tally.money;
    assert_eq!((money.net, money.gross), (dec("166.84"), dec("200.21")));
    assert_eq!(left, None, "the footage explains it");
    let tax = money.gross / money.net;
    let close = |found: Option<Decimal>, wanted: Decimal| {
        assert!(
            (found.unwrap() - wanted).abs() <= dec("0.02"),
            "{found:?}, {wanted}"
        );
    };
    close(budget, dec("1000") - dec("188.50") * tax);
    // A fee of 25 beside the wood.
    let (left, ..) = with_total(Some("13"), "213.50");
    let left = left.unwrap();
    assert_eq!((left.left.round_dp(1), left.is_tax), (dec("25.0"), false));
    // The same wood, said with tax: the budget is not taxed twice.
    let taxed = (dec("188.50") * tax).round_dp(2);
    let (left, budget, _) = with_total(Some("13"), &taxed.to_string());
    let left = left.unwrap();
    assert!(left.is_tax);
    close(Some(left.left), taxed - dec("188.50"));
    assert_eq!(budget, Some(dec("1000") - taxed));
    // In money alone nothing tells footage from a fee.
    let (left, ..) = with_total(None, "213.50");
    assert_eq!(left, None);
    // But that it is just the tax on ours is seen.
    let (left, budget, _) = with_total(None, "200.21");
    assert!(left.unwrap().is_tax);
    assert_eq!(budget, Some(dec("799.79")));
}

#[test]
fn a_total_that_differs_by_its_tax_tells_no_footage() {
    let mut one = Writer::default();
    let terms = VisitOpened {
        tax_percent: Decimal::from(8),
        ..visit()
    };
    one.write(1, Event::VisitOpened(Box::new(terms)));
    one.write(2, Event::PileOpened(Box::new(pile("14.50"))));
    plank(&mut one, 10, 2, (2620.0, 204.0), Decision::Take);
    let total = YardFigures {
        money: Some(dec("180.19")),
        ..YardFigures::default()
    };
    one.write(1, Event::YardTotal(total));
    let state = one.state();
    let ours = queries::tally_of(&state, id(1)).unwrap();
    let found = queries::yard_against(&state, id(1), &ours).unwrap();
    assert!(found.money_left.unwrap().is_tax);
    let total = found.total.unwrap();
    assert_eq!((total.theirs, total.difference), (None, None));
    // The tax is no gap: their total without it is ours.
    assert_eq!(total.money, Some(dec("0.00")));
    let told = total.explain_money("EUR").unwrap();
    assert_eq!(told.steps.last().unwrap().result, 0.0);
    assert_eq!((total.customs, total.from_money), (None, false));
}

#[test]
fn money_that_no_number_holds_is_left_out() {
    let mut writer = two_piles();
    for plank in [10, 11] {
        let most = YardFigures {
            money: Some(Decimal::MAX),
            ..YardFigures::default()
        };
        writer.write(plank, Event::YardLine(most));
    }
    let most = YardFigures {
        money: Some(Decimal::MAX),
        ..YardFigures::default()
    };
    writer.write(1, Event::YardTotal(most));
    let state = writer.state();
    let ours = queries::tally_of(&state, id(1)).unwrap();
    let found = queries::yard_against(&state, id(1), &ours).unwrap();
    assert!(found.without_line.is_empty());
    assert_eq!((found.money_left, found.budget_left), (None, None));
}

#[test]
fn a_total_is_compared_in_footage_and_in_money() {
    let mut writer = two_piles();
    let total = |feet: Option<&str>, money: Option<&str>| {
        Event::YardTotal(YardFigures {
            board_feet: feet.map(dec),
            money: money.map(dec),
            ..YardFigures::default()
        })
    };
    writer.write(1, total(Some("26.5"), None));
    let state = writer.state();
    let ours = queries::tally_of(&state, id(1)).unwrap();
    let found = queries::yard_against(&state, id(1), &ours)
        .unwrap()
        .total
        .unwrap();
    assert_eq!(found.difference.unwrap().round_dp(1), dec("3.5"));
    // Two prices: what a board foot more is worth can't be said.
    assert_eq!(found.money, None);
    assert!(found.customs.is_some());
    let mut one = Writer::default();
    one.write(1, Event::VisitOpened(Box::new(visit())));
    one.write(2, Event::PileOpened(Box::new(pile("14.50"))));
    plank(&mut one, 10, 2, (2620.0, 204.0), Decision::Take);
    one.write(1, total(None, Some("191.87")));
    let state = one.state();
    let ours = queries::tally_of(&state, id(1)).unwrap();
    let found = queries::yard_against(&state, id(1), &ours)
        .unwrap()
        .total
        .unwrap();
    assert!(found.from_money);
    assert_eq!(found.money, Some(dec("25.03")));
    let told = found.explain_money("EUR").unwrap();
    assert!((told.steps[0].result - 25.03).abs() < 1e-9);
    assert_eq!(found.theirs, Some(dec("13.2")));
    let customs = found.customs.unwrap();
    assert!(customs.found.told.iter().any(|e| e.fits));
}
