//! How many planks: worked answers, the simple form, and the exact chain of counted stages.

use super::StageShare::Known;
use super::average::blanks_expected;
use super::chance::{Reckoning, share_places};
use super::search::{alike, reaches, stages};
use super::*;
use crate::quantity::TraceOff;
use crate::season::effective::{FamilyEffect, ShareCount};
use crate::season::start::StartError;
use proptest::prelude::*;

fn counted(through: u32, of: u32) -> StageShare {
    StageShare::Counted(ShareCount::by_themselves(through, of))
}

fn nine_laminates(intraclass_correlation: f64) -> Way {
    Way {
        parts_per_plank: 9,
        part_stages: [0.85, 0.90, 0.75, 0.85].map(Known).into(),
        intraclass_correlation,
        parts_per_blank: 5,
        blank_stages: [0.98, 0.95].map(Known).into(),
    }
}

fn simple(stage: StageShare) -> Way {
    Way {
        parts_per_plank: 1,
        part_stages: vec![stage],
        intraclass_correlation: 0.0,
        parts_per_blank: 1,
        blank_stages: Vec::new(),
    }
}

fn found(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
    most: u32,
) -> Result<StartFound, StartError> {
    let task = StartTask {
        way: way.clone(),
        in_hand: in_hand.clone(),
        wanted,
        confidence,
        most,
    };
    StartSearch::new(task).map(StartSearch::finish)
}

/// The least planks that are enough; `None` where 200 are not.
fn planks_to_start(way: &Way, in_hand: &InHand, wanted: u32, confidence: f64) -> Option<u32> {
    let chances = found(way, in_hand, wanted, confidence, 200)
        .unwrap()
        .chances;
    let is_enough = reaches(*chances.last().unwrap(), confidence);
    is_enough.then(|| chances.len() as u32 - 1)
}

fn chance_of_blanks(way: &Way, planks: u32, in_hand: &InHand, wanted: u32) -> f64 {
    let found = found(way, in_hand, wanted, 1.0 - f64::EPSILON, planks).unwrap();
    *found.chances.last().unwrap()
}

/// The chance that at least so many of n come through, each by itself: the plain binomial sum.
fn at_least(wanted: u32, n: u32, p: f64) -> f64 {
    let mut term = libm::pow(1.0 - p, f64::from(n));
    let mut fewer = 0.0;
    for k in 0..wanted.min(n + 1) {
        fewer += term;
        term *= f64::from(n - k) / f64::from(k + 1) * p / (1.0 - p);
    }
    1.0 - fewer
}

#[test]
fn ten_blanks_need_more_than_the_mean() {
    let needed = |rho, c| planks_to_start(&nine_laminates(rho), &InHand::default(), 10, c);
    assert_eq!((needed(0.0, 0.8), needed(0.0, 0.9)), (Some(14), Some(15)));
    assert_eq!((needed(0.3, 0.8), needed(0.3, 0.9)), (Some(15), Some(16)));
    let way = nine_laminates(0.0);
    let mean = planks_on_average(&mut TraceOff, &way, &InHand::default(), 10).unwrap();
    assert!((mean - 12.24).abs() < 0.01);
}

#[test]
fn a_chance_that_is_just_reached_is_reached() {
    let needed =
        |wanted, c| planks_to_start(&simple(Known(0.5)), &InHand::default(), wanted, c).unwrap();
    assert_eq!(
        (needed(1, 0.5), needed(2, 0.25), needed(1, 0.75)),
        (1, 2, 2)
    );
}

#[test]
fn what_rests_already_is_counted_from_where_it_is() {
    let way = nine_laminates(0.0);
    let resting = InHand {
        parts: vec![Lot {
            pieces: 64,
            stages_done: 3,
        }],
        blanks: Vec::new(),
    };
    let chance = chance_of_blanks(&way, 0, &resting, 10);
    // Binomial (64, 0.85) laminates, every five a blank, each good with 0.931; computed with SciPy.
    assert!((chance - 0.638_429_33).abs() < 1e-8, "{chance}");
    let mean = blanks_expected(&mut TraceOff, &way, 0.0, &resting).unwrap();
    assert!((mean - 64.0 * 0.85 / 5.0 * 0.931).abs() < 1e-9);
    let more = planks_to_start(&way, &resting, 10, 0.9).unwrap();
    assert!(more > 1 && more < 6);
    assert_eq!(
        planks_on_average(&mut TraceOff, &way, &resting, 10).unwrap(),
        0.0
    );
    let done = InHand {
        parts: Vec::new(),
        blanks: vec![Lot {
            pieces: 10,
            stages_done: 2,
        }],
    };
    assert_eq!(planks_to_start(&way, &done, 10, 0.9), Some(0));
}

#[test]
fn few_counts_make_a_wide_answer() {
    let start = |stage| planks_to_start(&simple(stage), &InHand::default(), 10, 0.9).unwrap();
    let known = start(Known(0.8));
    let many = start(counted(800, 1000));
    let few = start(counted(8, 10));
    assert_eq!(known, 15);
    assert!((15..=16).contains(&many) && few > 17, "{many} {few}");
}

#[test]
fn nonsense_is_refused() {
    let none = InHand::default();
    let with = |change: fn(&mut Way)| {
        let mut way = nine_laminates(0.3);
        change(&mut way);
        found(&way, &none, 10, 0.9, 120).unwrap_err()
    };
    assert_eq!(
        with(|w| w.intraclass_correlation = 1.0),
        StartError::IntraclassCorrelation(1.0)
    );
    assert_eq!(with(|w| w.parts_per_blank = 0), StartError::NoParts);
    assert_eq!(
        with(|w| w.part_stages[0] = Known(0.0)),
        StartError::Share(0.0)
    );
    assert!(matches!(
        with(|w| w.part_stages[0] = counted(3, 2)),
        StartError::Counts(_)
    ));
    assert_eq!(
        with(|w| w.parts_per_plank = 1001),
        StartError::TooMany(1000)
    );
    assert_eq!(with(|w| w.parts_per_blank = 101), StartError::TooMany(1000));
    assert!(found(&nine_laminates(0.0), &none, 10, 1.0, 120).is_err());
    assert!(found(&nine_laminates(0.0), &none, 200, 0.9, 0).is_ok());
    let beyond = found(&nine_laminates(0.0), &none, 201, 0.9, 0).unwrap_err();
    assert_eq!(
        beyond.to_string(),
        "more than 1000 laminates: that is beyond what is reckoned here"
    );
    let hardly = found(&simple(Known(1e-4)), &none, 10, 0.9, 120).unwrap();
    assert_eq!((hardly.chances.len(), hardly.range.high), (121, None));
}

/// A large stock of many unlike lots has an answer: that of its lots added one by one.
#[test]
fn a_large_stock_is_reckoned_with() {
    let way = simple(Known(0.002));
    let lots = |counts: &[(u32, usize)]| InHand {
        parts: counts
            .iter()
            .flat_map(|(pieces, times)| {
                let lot = Lot {
                    pieces: *pieces,
                    stages_done: 0,
                };
                std::iter::repeat_n(lot, *times)
            })
            .collect(),
        ..InHand::default()
    };
    // Without likeness it does not matter how the wood is split up.
    let one_by_one = chance_of_blanks(&way, 0, &lots(&[(1, 4000)]), 10);
    for split in [&[(4000, 1)][..], &[(7, 500), (20, 24), (1, 20)]] {
        let chance = chance_of_blanks(&way, 0, &lots(split), 10);
        assert!((chance - one_by_one).abs() < 1e-9, "{chance} {one_by_one}");
    }
    let exact = at_least(10, 4000, 0.002);
    assert!((one_by_one - exact).abs() < 1e-9, "{one_by_one} {exact}");
    let full = planks_to_start(&nine_laminates(0.3), &lots(&[(9, 20_000)]), 10, 0.9);
    assert_eq!(full, Some(0));
    let beyond = found(&way, &lots(&[(u32::MAX, 1)]), 10, 0.9, 120);
    assert_eq!(beyond, Err(StartError::TooMany(1_000_000)));
}

/// Two counted stages one after the other: exactly a chain of beta-binomial counts.
#[test]
fn counted_stages_agree_with_the_exact_chain() {
    let mut way = simple(counted(17, 20));
    way.part_stages.push(counted(9, 12));
    let (started, wanted) = (24, 12);
    let found = chance_of_blanks(&way, started, &InHand::default(), wanted);
    let mut exact = 0.0;
    for (left, chance) in beta_binomial(started as usize, 17.5, 3.5)
        .iter()
        .enumerate()
    {
        let second = beta_binomial(left, 9.5, 3.5);
        exact += chance * second.iter().skip(wanted as usize).sum::<f64>();
    }
    assert!((found - exact).abs() < 0.005, "{found} {exact}");
}

/// The chance of 0 to n coming through, by the recurrence of neighbouring terms.
fn beta_binomial(n: usize, a: f64, b: f64) -> Vec<f64> {
    let mut terms = vec![1.0];
    for k in 0..n {
        let (x, left) = (k as f64, (n - k) as f64);
        let next = terms[k] * left / (x + 1.0) * (x + a) / (left - 1.0 + b);
        terms.push(next);
    }
    let sum: f64 = terms.iter().sum();
    terms.iter().map(|t| t / sum).collect()
}

proptest! {
    #[test]
    fn the_simple_form_is_one_case(wanted in 1u32..25, p in 0.3..0.99f64, c in 0.5..0.98f64) {
        let found = planks_to_start(&simple(Known(p)), &InHand::default(), wanted, c).unwrap();
        prop_assert!(at_least(wanted, found, p) >= c - 1e-9);
        prop_assert!(at_least(wanted, found - 1, p) < c + 1e-9);
    }

    #[test]
    fn likeness_leaves_the_mean_and_more_planks_never_harm(
        rho in 0.0..0.9f64, planks in 5u32..25,
    ) {
        let way = nine_laminates(rho);
        let none = InHand::default();
        let fewer = chance_of_blanks(&way, planks, &none, 8);
        let more = chance_of_blanks(&way, planks + 1, &none, 8);
        prop_assert!(more >= fewer - 1e-12);
        prop_assert!((0.0..=1.0).contains(&more));
        let mean = |way| blanks_expected(&mut TraceOff, way, f64::from(planks), &none).unwrap();
        prop_assert_eq!(mean(&way), mean(&nine_laminates(0.0)));
    }
}

#[test]
fn blanks_in_hand_are_expected_by_the_stages_they_have_left() {
    let way = nine_laminates(0.0);
    let lot = |pieces, stages_done| Lot {
        pieces,
        stages_done,
    };
    let held = |blanks: Vec<Lot>| {
        let held = InHand {
            parts: Vec::new(),
            blanks,
        };
        blanks_expected(&mut TraceOff, &way, 0.0, &held).unwrap()
    };
    assert!((held(vec![lot(10, 0)]) - 9.31).abs() < 1e-9);
    assert!((held(vec![lot(10, 1)]) - 9.5).abs() < 1e-9);
    assert!((held(vec![lot(10, 0), lot(2, 2)]) - 11.31).abs() < 1e-9);
}

#[test]
fn each_stage_is_told_by_its_name_with_its_share() {
    let way = Way {
        parts_per_plank: 9,
        part_stages: vec![Known(0.9), counted(5, 6)],
        intraclass_correlation: 0.0,
        parts_per_blank: 5,
        blank_stages: vec![Known(0.95)],
    };
    let notes = |blanks: Vec<Lot>| {
        let held = InHand {
            parts: Vec::new(),
            blanks,
        };
        explain_average(&way, &held, 10).unwrap().notes
    };
    let shares = [
        "Pieces: 90 %, taken as it is.",
        "Laminates: 5 of 6 came through; (5 + 1/2) / (6 + 1) = 78.6 %.",
        "Blanks: 95 %, taken as it is.",
    ];
    assert_eq!(notes(Vec::new()), shares);
    let two = Lot {
        pieces: 2,
        stages_done: 0,
    };
    let with_blanks = notes(vec![two]);
    assert_eq!(with_blanks[..3], shares);
    assert!(with_blanks[3].starts_with("2 blanks in hand"));
}

#[test]
fn three_planks_leave_a_wide_range_and_many_a_narrow_one() {
    let of = |planks: usize| {
        let came: Vec<(u32, u32)> = [(6, 8), (8, 8), (5, 8)]
            .into_iter()
            .cycle()
            .take(planks)
            .collect();
        let alike = FamilyEffect::of_planks(&came);
        let count = ShareCount::of_planks(&mut TraceOff, &came, alike).unwrap();
        let way = Way {
            parts_per_plank: 8,
            part_stages: vec![StageShare::Counted(count)],
            intraclass_correlation: 0.1,
            parts_per_blank: 5,
            blank_stages: vec![Known(0.95)],
        };
        let in_hand = InHand::default();
        let range = found(&way, &in_hand, 4, 0.9, 120).unwrap().range;
        (range, planks_to_start(&way, &in_hand, 4, 0.9))
    };
    let (few, _) = of(3);
    let (many, start) = of(60);
    let width = |range: StartRange| range.high.unwrap_or(120) - range.low.unwrap();
    assert!(width(few) >= 5, "{few:?}");
    assert!(width(many) <= 2, "{many:?}");
    // What is said lies in it.
    let start = start.unwrap();
    assert!(
        many.low <= Some(start) && Some(start) <= many.high,
        "{many:?} {start}"
    );
    let (nothing_known, in_hand) = (0.0, InHand::default());
    let mut way = simple(Known(0.8));
    way.intraclass_correlation = nothing_known;
    let one = found(&way, &in_hand, 4, 0.9, 120).unwrap().range;
    assert_eq!(one.low, one.high);
}

/// One reckoning for every place at which the shares are taken.
fn reckonings(way: &Way, in_hand: &InHand, wanted: u32) -> Vec<Reckoning> {
    let parts = alike(&in_hand.parts);
    let places = share_places(&stages(way)).unwrap();
    let one = |shares: &Vec<f64>| Reckoning::new(way, &parts, &in_hand.blanks, wanted, shares);
    places.iter().map(one).collect()
}

/// The mean over all places, with every one of them taken to the end.
fn chance_by_planks(mut reckonings: Vec<Reckoning>, confidence: f64, most: u32) -> Vec<f64> {
    let mut chances = Vec::new();
    loop {
        let sum: f64 = reckonings.iter().map(Reckoning::chance).sum();
        let chance = sum / reckonings.len() as f64;
        chances.push(chance);
        if reaches(chance, confidence) || chances.len() > most as usize {
            return chances;
        }
        reckonings.iter_mut().for_each(Reckoning::add_plank);
    }
}

#[test]
fn the_chances_and_the_range_reckoned_at_once_are_those_reckoned_by_themselves() {
    let count = ShareCount {
        through: 14,
        of: 20,
        counts_as: 9.0,
    };
    let way = |last: StageShare| Way {
        parts_per_plank: 7,
        part_stages: vec![StageShare::Counted(count), Known(0.9)],
        intraclass_correlation: 0.2,
        parts_per_blank: 5,
        blank_stages: vec![last],
    };
    let lots = InHand {
        parts: vec![Lot {
            pieces: 12,
            stages_done: 1,
        }],
        ..InHand::default()
    };
    // Sure after some planks; sure at once; and never within what is looked at.
    for (last, wanted, most) in [
        (Known(0.95), 6, 120),
        (StageShare::Counted(count), 1, 120),
        (Known(0.5), 9, 12),
    ] {
        let way = way(last);
        let StartFound { chances, range } = found(&way, &lots, wanted, 0.8, most).unwrap();
        let alone = chance_by_planks(reckonings(&way, &lots, wanted), 0.8, most);
        assert_eq!(chances, alone);
        // Place by place, as its page has it.
        let answers = reckonings(&way, &lots, wanted).into_iter();
        let mut answers: Vec<Option<u32>> = answers
            .map(|mut reckoning| {
                (0..=most).find(|planks| {
                    if *planks > 0 {
                        reckoning.add_plank();
                    }
                    reaches(reckoning.chance(), 0.8)
                })
            })
            .collect();
        answers.sort_by_key(|planks| planks.unwrap_or(u32::MAX));
        assert_eq!(answers.len(), 256);
        assert_eq!(range.low, answers[6]);
        assert_eq!(range.high, answers[249]);

        // However little is done at a time, the same is found.
        let task = StartTask {
            way,
            in_hand: lots.clone(),
            wanted,
            confidence: 0.8,
            most,
        };
        let mut search = StartSearch::new(task).unwrap();
        let mut told = vec![search.planks()];
        while !search.is_done() {
            search.go_on(1_000);
            told.push(search.planks());
        }
        assert!(told.is_sorted() && told.len() > 20, "{told:?}");
        assert_eq!(search.finish(), StartFound { chances, range });
    }
}
