//! Two phones in one pile: how many of the pairs that are offered are true. All invented, the same every time.

use std::collections::{BTreeMap, BTreeSet};
use stillwood_core::plank::{DefectFound, DefectKind, Field, Readings};
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::{Entry, Event, Measured, PAIRS_AT_ONCE, SamePlank, Sure, pairs};
use stillwood_tests::invented::{Dice, Phone, taken};

#[derive(Clone)]
struct Plank {
    length: f64,
    width: f64,
    thickness: f64,
    weight: f64,
    knots: Vec<f64>,
}

/// Something near a middle: the sum of twelve even numbers less six is as good as normal, with a deviation of
/// one.
fn about(dice: &mut Dice, middle: f64, deviation: f64) -> f64 {
    let even = |dice: &mut Dice| dice.below(1_000_000) as f64 / 1_000_000.0;
    let sum: f64 = (0..12).map(|_| even(dice)).sum();
    middle + deviation * (sum - 6.0)
}

fn to_the(step: f64, value: f64) -> f64 {
    (value / step).round() * step
}

/// What is done with a pile.
struct Trial {
    planks: usize,
    /// What share of the planks each phone measures, in percent.
    each: usize,
    weighed: bool,
    knots: bool,
    /// The second phone goes through the pile from the other side.
    contrary: bool,
    /// The second phone goes through the pile in no order.
    mixed: bool,
    make: fn(&mut Dice) -> Plank,
}

/// How the offers come out.
#[derive(Debug, Default)]
struct Found {
    shared: usize,
    right: usize,
    wrong: usize,
    likely: usize,
    likely_wrong: usize,
    possible: usize,
    possible_wrong: usize,
    /// Among those that are shown at once.
    shown_wrong: usize,
}

fn measure(phone: &mut Phone, pile: Id, plank: &Plank, trial: &Trial) -> Id {
    let piece = phone.mark(pile);
    let dice = &mut phone.dice;
    // A tape is read to the millimetre, and is off by two or so over the length; a caliper by a third.
    let read = [
        to_the(1.0, about(dice, plank.length, 2.0)),
        to_the(1.0, about(dice, plank.width, 1.0)),
        to_the(0.5, about(dice, plank.thickness, 0.3)),
        to_the(0.1, about(dice, plank.weight, 0.05)),
    ];
    let mut readings = Readings::from([
        (Field::Length, taken(read[0], "mm")),
        (Field::WidthMiddle, taken(read[1], "mm")),
        (Field::ThicknessNear, taken(read[2], "mm")),
    ]);
    if trial.weighed {
        readings.insert(Field::WeightWhole, taken(read[3], "kg"));
    }
    let mut defects = Vec::new();
    for knot in plank.knots.iter().filter(|_| trial.knots) {
        if phone.dice.below(10) < 8 {
            defects.push(DefectFound {
                kind: DefectKind::Knot,
                from: Some(taken(
                    to_the(10.0, about(&mut phone.dice, *knot, 10.0)),
                    "mm",
                )),
                to: None,
                note: String::new(),
            });
        }
    }
    let measured = Measured {
        readings,
        defects,
        species: None,
    };
    phone.say(piece, Event::Measured(measured));
    piece
}

/// Both phones' entries, and which pieces of theirs are one plank.
fn measured(trial: &Trial, seed: u64) -> (Vec<Entry>, BTreeSet<(Id, Id)>) {
    let mut dice = Dice::of_seed(seed);
    let pile: Vec<Plank> = (0..trial.planks).map(|_| (trial.make)(&mut dice)).collect();
    let mut written = Vec::new();
    let mut of: BTreeMap<usize, Vec<Id>> = BTreeMap::new();
    for (by, own) in [("K7", 1), ("M4", 2)] {
        let mut phone = Phone::seeded(by, seed * 10 + own);
        phone.day = "2026-10-05".parse().ok();
        let visit = phone.open_visit("North");
        let there = phone.open_pile(visit, "hard_maple");
        let mut order: Vec<usize> = (0..trial.planks).collect();
        if own == 2 && trial.contrary {
            order.reverse();
        }
        if own == 2 && trial.mixed {
            order.sort_by_key(|at| (at * 7919 + 13) % 1009);
        }
        for at in order {
            if dice.below(100) < trial.each {
                let piece = measure(&mut phone, there, &pile[at], trial);
                of.entry(at).or_default().push(piece);
            }
        }
        written.append(&mut phone.written);
    }
    let shared = of.into_values().filter_map(|both| match both[..] {
        [a, b] => Some((a.min(b), a.max(b))),
        _ => None,
    });
    (written, shared.collect())
}

fn tried(trial: &Trial) -> Found {
    let mut found = Found::default();
    for seed in 1..=8 {
        let (written, shared) = measured(trial, seed);
        found.shared += shared.len();
        let offered = pairs(&State::project_entries(&written));
        for (place, pair) in offered.iter().enumerate() {
            let right = shared.contains(&(pair.a, pair.b));
            found.right += usize::from(right);
            found.wrong += usize::from(!right);
            found.shown_wrong += usize::from(!right && place < PAIRS_AT_ONCE);
            match pair.sure() {
                Sure::Likely => {
                    found.likely += 1;
                    found.likely_wrong += usize::from(!right);
                }
                Sure::Possible => {
                    found.possible += 1;
                    found.possible_wrong += usize::from(!right);
                }
            }
        }
    }
    println!("{found:?}");
    found
}

/// Sawn to one length and to like widths.
fn like(dice: &mut Dice) -> Plank {
    Plank {
        length: about(dice, 2605.0, 8.0),
        width: about(dice, 200.0, 6.0),
        thickness: about(dice, 52.0, 1.0),
        weight: about(dice, 19.0, 1.5),
        knots: (0..dice.below(3))
            .map(|n| 300.0 + 700.0 * n as f64 + dice.tenth(0, 600))
            .collect(),
    }
}

/// Sawn so exactly that nothing tells one from another.
fn all_one(_: &mut Dice) -> Plank {
    Plank {
        length: 2600.0,
        width: 200.0,
        thickness: 52.0,
        weight: 19.0,
        knots: Vec::new(),
    }
}

/// Of any length and width.
fn unlike(dice: &mut Dice) -> Plank {
    Plank {
        length: dice.tenth(1800, 3400),
        width: dice.tenth(140, 300),
        thickness: about(dice, 52.0, 1.5),
        weight: dice.tenth(10, 30),
        knots: Vec::new(),
    }
}

const LIKE: Trial = Trial {
    planks: 360,
    each: 75,
    weighed: false,
    knots: false,
    contrary: false,
    mixed: false,
    make: like,
};

#[test]
fn of_unweighed_planks_of_one_length_most_offers_are_true() {
    for contrary in [false, true] {
        let found = tried(&Trial { contrary, ..LIKE });
        assert!(found.right > 3 * found.wrong, "{found:?}");
        assert!(found.right * 2 > found.shared, "{found:?}");
        assert!(found.likely > 5 * found.likely_wrong, "{found:?}");
        assert!(found.shown_wrong * 10 <= 4 * PAIRS_AT_ONCE, "{found:?}");
    }
}

#[test]
fn in_no_common_order_fewer_are_offered_and_most_are_true() {
    let found = tried(&Trial {
        mixed: true,
        ..LIKE
    });
    assert!(found.right > 2 * found.wrong, "{found:?}");
}

#[test]
fn weights_and_knots_tell_planks_of_one_length_apart() {
    let weighed = tried(&Trial {
        weighed: true,
        mixed: true,
        ..LIKE
    });
    assert!(2 * weighed.right > 3 * weighed.wrong, "{weighed:?}");
    let knots = tried(&Trial {
        knots: true,
        mixed: true,
        ..LIKE
    });
    let bare = tried(&Trial {
        mixed: true,
        ..LIKE
    });
    assert!(knots.right > bare.right, "{knots:?} {bare:?}");
    let both = tried(&Trial {
        weighed: true,
        knots: true,
        ..LIKE
    });
    assert!(both.right * 10 > both.shared * 9, "{both:?}");
    assert!(both.right > 10 * both.wrong, "{both:?}");
}

#[test]
fn where_nothing_is_alike_offers_are_true() {
    let found = tried(&Trial {
        make: unlike,
        mixed: true,
        ..LIKE
    });
    assert!(found.right * 10 > found.shared * 9, "{found:?}");
    assert!(found.right > 20 * found.wrong, "{found:?}");
}

#[test]
fn two_phones_at_different_planks_of_one_kind_get_hardly_an_offer() {
    // Each measures its own half of the pile.
    let mut written = Vec::new();
    for (by, own) in [("K7", 1), ("M4", 2)] {
        let mut dice = Dice::of_seed(40 + own);
        let mut phone = Phone::seeded(by, 50 + own);
        phone.day = "2026-10-05".parse().ok();
        let visit = phone.open_visit("North");
        let pile = phone.open_pile(visit, "hard_maple");
        for _ in 0..300 {
            let plank = like(&mut dice);
            measure(&mut phone, pile, &plank, &LIKE);
        }
        written.append(&mut phone.written);
    }
    let offered = pairs(&State::project_entries(&written));
    assert!(offered.len() < 30, "{}", offered.len());
    assert!(
        offered
            .iter()
            .filter(|pair| pair.sure() == Sure::Likely)
            .count()
            < 5
    );
}

#[test]
fn planks_that_nothing_tells_apart_are_not_called_likely() {
    let found = tried(&Trial {
        make: all_one,
        mixed: true,
        ..LIKE
    });
    assert!(found.likely == 0, "{found:?}");
}

#[test]
fn an_offer_says_how_sure_it_is_and_is_settled_for_good() {
    let (mut written, _) = measured(
        &Trial {
            weighed: true,
            planks: 30,
            ..LIKE
        },
        3,
    );
    let offered = pairs(&State::project_entries(&written));
    assert!(!offered.is_empty() && offered.windows(2).all(|two| two[0].chance >= two[1].chance));
    let first = &offered[0];
    assert_eq!(first.sure(), Sure::Likely);
    assert_eq!(
        first.in_words(),
        "Likely: 4 measurements and the place in the pile agree."
    );
    let mut phone = Phone::seeded("R2", 9);
    phone.step = 100_000;
    let told = SamePlank {
        other: first.b,
        same: false,
    };
    phone.say(first.a, Event::SamePlank(told));
    written.append(&mut phone.written);
    let after = pairs(&State::project_entries(&written));
    assert!(
        after
            .iter()
            .all(|pair| (pair.a, pair.b) != (first.a, first.b))
    );
}
