//! Tallies of invented planks, worked out by hand.

use super::*;
use crate::quantity::{TraceOff, kg, mm};
use crate::trade::{TallyMeasure, ThicknessBasis};

fn plank(mark: &str, length: f64, width: f64) -> TallyLine {
    TallyLine {
        mark: mark.into(),
        sawn: Sawn {
            length: Some(mm(length)),
            width: Some(mm(width)),
            thickness: Some(mm(52.0)),
            nominal: Some(mm(50.8)),
        },
        width_with_wane: None,
        mass: Some(kg(19.7)),
    }
}

fn terms(price: Decimal, basis: PriceBasis) -> Terms {
    Terms {
        rule: TallyRule::default(),
        price: Some((price, basis)),
        discount_percent: Decimal::ZERO,
        tax_percent: Decimal::from(20),
        prices_are: PricesAre::Net,
    }
}

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

#[test]
fn the_plank_of_the_yard_by_true_and_by_nominal_thickness() {
    let mut by = terms(dec("14.50"), PriceBasis::BoardFoot);
    let a7 = [plank("A7", 2620.0, 204.0)];
    let nominal = tally(&a7, &by);
    assert_eq!(nominal.board_feet.round_dp(1), dec("11.5"));
    assert_eq!(nominal.money.net.round(), dec("167"));
    by.rule.thickness = ThicknessBasis::Measured;
    let true_size = tally(&a7, &by);
    assert_eq!(true_size.board_feet.round_dp(1), dec("11.8"));
    assert_eq!(true_size.money.net.round(), dec("171"));
    assert_eq!(true_size.money.gross.round(), dec("205"));
    assert_eq!(true_size.cubic_metres.round_dp(4), dec("0.0278"));
}

#[test]
fn six_thousand_a_cubic_metre_is_14_16_a_board_foot() {
    let a7 = [plank("A7", 2620.0, 204.0)];
    let found = tally(&a7, &terms(dec("6000"), PriceBasis::CubicMetre));
    let each = found.money.net / found.board_feet;
    assert_eq!(each.round_dp(2), dec("14.16"));
}

#[test]
fn gross_prices_hold_the_tax_and_a_discount_comes_off_first() {
    let mut by = terms(dec("120"), PriceBasis::Piece);
    by.prices_are = PricesAre::Gross;
    by.discount_percent = dec("10");
    let found = tally(&[plank("A1", 2620.0, 204.0)], &by);
    let money = Money {
        net: dec("90.00"),
        tax: dec("18.00"),
        gross: dec("108.00"),
    };
    assert_eq!(found.money, money);
}

#[test]
fn the_total_is_rounded_once() {
    let by = Terms {
        tax_percent: Decimal::ZERO,
        ..terms(dec("0.105"), PriceBasis::Piece)
    };
    let planks = [plank("A1", 2620.0, 204.0), plank("A2", 2620.0, 204.0)];
    let found = tally(&planks, &by);
    assert_eq!(found.lines[0].money.unwrap().net, dec("0.11"));
    assert_eq!(found.money.net, dec("0.21"));
    // Where the lines come to another sum, that is told.
    assert_eq!(found.lines_add_up_to(), Some(dec("0.22")));
    let one = tally(&planks[..1], &by);
    assert_eq!(one.lines_add_up_to(), None);
}

#[test]
fn halves_turn_through_the_visit_and_each_pile_has_its_price() {
    // 12 ft x 8.5 in is 8.5 square feet: down, up, down.
    let half = plank("A1", 12.0 * 304.8, 215.9);
    let mut dear = terms(dec("10"), PriceBasis::BoardFoot);
    dear.rule.measure = TallyMeasure::SurfaceMeasure;
    let cheap = Terms {
        price: Some((dec("5"), PriceBasis::BoardFoot)),
        ..dear.clone()
    };
    let found = tally_visit([(&half, &dear), (&half, &cheap), (&half, &dear)]);
    let feet: Vec<Decimal> = found
        .lines
        .iter()
        .map(|line| line.board_feet.unwrap())
        .collect();
    assert_eq!(feet, ["16", "18", "16"].map(dec));
    assert_eq!(found.money.net, dec("410.00"));
    assert_eq!(found.money.gross, dec("492.00"));
    // Another tax is worked out for itself.
    let free = Terms {
        tax_percent: Decimal::ZERO,
        ..dear.clone()
    };
    let found = tally_visit([(&half, &dear), (&half, &free)]);
    assert_eq!(found.money.tax, dec("32.00"));
    assert_eq!(found.money.gross, dec("372.00"));
}

#[test]
fn a_difference_is_worth_what_the_price_makes_it() {
    let mut by = terms(dec("14.50"), PriceBasis::BoardFoot);
    by.discount_percent = dec("10");
    assert_eq!(by.worth_of(&mut TraceOff, "", dec("2")), Some(dec("26.10")));
    assert_eq!(
        by.worth_of(&mut TraceOff, "", dec("-2")),
        Some(dec("-26.10"))
    );
    assert_eq!(by.price_of_a_board_foot(), Some(dec("13.05")));
    by.price = Some((dec("6000"), PriceBasis::CubicMetre));
    let each = by.price_of_a_board_foot().unwrap();
    assert_eq!(each.round_dp(2), dec("12.74"));
    by.price = Some((dec("50"), PriceBasis::Piece));
    assert_eq!(by.worth_of(&mut TraceOff, "", dec("2")), None);
}

#[test]
fn an_odd_plank_blocks_no_other() {
    let mut odd = plank("A2", -2620.0, 204.0);
    odd.mass = None;
    let planks = [plank("A1", 2620.0, 204.0), odd];
    let found = tally(&planks, &terms(dec("14.50"), PriceBasis::BoardFoot));
    assert_eq!((found.without_footage, found.without_price), (1, 1));
    assert_eq!(found.money.net.round(), dec("167"));
    let by_weight = tally(&planks, &terms(dec("2"), PriceBasis::Kilogram));
    assert_eq!(by_weight.money.net, dec("39.40"));
    assert_eq!(by_weight.lines[1].money, Err(TallyError::NotWeighed));
    let absurd = tally(&planks, &terms(Decimal::MAX, PriceBasis::BoardFoot));
    assert_eq!(absurd.without_price, 2);
    let mut given_away = terms(dec("14.50"), PriceBasis::BoardFoot);
    given_away.discount_percent = dec("101");
    let given_away = tally(&planks, &given_away);
    assert_eq!(given_away.lines[0].money, Err(TallyError::Unreasonable));
    assert_eq!(
        absurd.money,
        Money {
            net: dec("0"),
            tax: dec("0"),
            gross: dec("0")
        }
    );
}
