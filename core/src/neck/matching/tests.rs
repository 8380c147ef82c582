//! Matching: the turning group, worked sets, and the search against looking at everything.

use super::prepared::WARNED;
use super::*;
use proptest::prelude::*;
use uom::si::pressure::gigapascal;

pub(super) fn gpa(value: f64) -> Pressure {
    Pressure::new::<gigapascal>(value)
}

pub(super) fn plain(crook: f64, twist: f64) -> Laminate {
    Laminate {
        thickness: mm(15.0),
        width: mm(48.0),
        wood: 1,
        crook: Some(mm(crook)),
        bow: Some(mm(0.0)),
        twist: Some(mm(twist)),
        lean: Some(RingTilt::Right),
        ring_class: Some(RingClass::Quartersawn),
        rise: Some(RunoutDirection::Along),
        moisture: Some(Moisture::percent(8.0)),
        density: Some(kg_per_m3(700.0)),
        modulus: Some(gpa(12.0)),
    }
}

fn eight() -> Vec<Laminate> {
    [
        (0.30, 0.2),
        (0.24, -0.1),
        (0.90, 0.6),
        (0.20, 0.1),
        (-0.70, 0.9),
        (0.15, -0.3),
        (0.26, 0.1),
        (0.05, 0.8),
    ]
    .map(|(crook, twist)| plain(crook, twist))
    .into()
}

pub(super) fn place(laminate: usize, turned_over: bool) -> Placed {
    Placed {
        laminate,
        turn: Turn {
            turned_over,
            end_for_end: false,
        },
    }
}

pub(super) fn searched(stock: &[Laminate], wish: &MatchTarget) -> Vec<Proposal> {
    let mut search = MatchSearch::new(stock, wish).unwrap();
    while !search.go_on(10_000).done {}
    search.proposals()
}

pub(super) fn exactly(places: usize) -> MatchTarget {
    MatchTarget {
        indifferent: 0.0,
        ..MatchTarget::of(places)
    }
}

#[test]
fn turns_are_a_group_of_four_that_leaves_twist_alone() {
    let turn = |turned_over, end_for_end| Turn {
        turned_over,
        end_for_end,
    };
    let all = [
        turn(false, false),
        turn(true, false),
        turn(false, true),
        turn(true, true),
    ];
    for a in all {
        assert_eq!(a.then(a), Turn::default());
        for b in all {
            let both = a.then(b);
            assert_eq!(both, b.then(a));
            assert_eq!(both.of_bow(), a.of_bow() * b.of_bow());
            assert_eq!(both.of_lean(), a.of_lean() * b.of_lean());
            assert_eq!(both.of_runout(), a.of_runout() * b.of_runout());
        }
    }
}

#[test]
fn a_plus_b_minus_d_minus_f_minus_g_plus() {
    let stock = eight();
    let set = [
        place(0, false),
        place(1, true),
        place(3, true),
        place(5, true),
        place(6, false),
    ];
    let judged = judge_match(&stock, &set, &MatchLimits::default()).unwrap();
    assert!((in_mm(judged.mean_crook) + 0.01).abs() < 0.005);
    assert!(in_mm(judged.mean_twist).abs() < 1e-9);
    let best = &searched(&stock, &exactly(5))[0];
    let mut members: Vec<_> = best.blank.iter().map(|one| one.laminate).collect();
    members.sort_unstable();
    assert_eq!(members, [0, 1, 3, 5, 6]);
    assert!((best.judged.cost - judged.cost).abs() < 1e-9);
    // A swap by hand shows what it costs.
    let mut swapped = set;
    swapped[1] = place(2, true);
    let limits = MatchLimits::default();
    let worse = judge_match(&stock, &swapped, &limits).unwrap();
    assert!(worse.cost > judged.cost + 0.5);
    // And why.
    assert_eq!(
        worse.worse_by(&judged, &limits),
        Some(super::WorseBy::Crook)
    );
    assert_eq!(judged.worse_by(&worse, &limits), None);
    assert_eq!(judged.worse_by(&judged, &limits), None);
}

#[test]
fn warnings_stand_first() {
    let mut stock = eight();
    stock[1].moisture = Some(Moisture::percent(9.2));
    stock[3].ring_class = Some(RingClass::Rift);
    stock[5].wood = 2;
    let set = [
        place(0, false),
        place(1, true),
        place(3, true),
        place(5, true),
        place(6, false),
    ];
    let judged = judge_match(&stock, &set, &MatchLimits::default()).unwrap();
    assert!(judged.cost >= WARNED);
    let is_spread = |w: &MatchWarning| matches!(w, MatchWarning::MoistureSpread(s) if (s.in_percent() - 1.2).abs() < 1e-9);
    assert!(is_spread(&judged.warnings[0]));
    assert_eq!(
        judged.warnings[1..3],
        [
            MatchWarning::MixedRingClasses,
            MatchWarning::WoodNotMirrored
        ]
    );
    assert!(
        judged
            .warnings
            .contains(&MatchWarning::RingsNotAlternating(4))
    );
    // Where a set without a warning is to be had, it is proposed first.
    assert!(searched(&stock, &exactly(3))[0].judged.cost < WARNED);
}

#[test]
fn what_was_not_measured_never_counts_as_good() {
    let mut stock = eight();
    stock[0].crook = None;
    let set = [place(0, false), place(1, true), place(6, false)];
    let judged = judge_match(&stock, &set, &MatchLimits::default()).unwrap();
    let told = MatchWarning::NotMeasured {
        crook: 1,
        twist: 0,
        moisture: 0,
    };
    assert!(judged.warnings.contains(&told) && judged.cost > 1.0);
}

#[test]
fn proposals_alternate_their_rings_and_keep_the_makers_pattern() {
    let mut stock = eight();
    stock[4].wood = 2;
    stock[7].wood = 2;
    stock[2].lean = Some(RingTilt::Left);
    let wish = MatchTarget {
        places: [Some(1), Some(2), Some(1), Some(2), Some(1)].into(),
        ..exactly(5)
    };
    let found = searched(&stock, &wish);
    assert_eq!(found.len(), wish.proposals);
    for proposal in found {
        let woods: Vec<_> = proposal
            .blank
            .iter()
            .map(|one| stock[one.laminate].wood)
            .collect();
        assert_eq!(woods, [1, 2, 1, 2, 1]);
        let lean = |one: &Placed| stock[one.laminate].lean.unwrap().sign() * one.turn.of_lean();
        assert!(
            proposal
                .blank
                .windows(2)
                .all(|pair| lean(&pair[0]) * lean(&pair[1]) < 0.0)
        );
        assert!(
            !proposal
                .judged
                .warnings
                .iter()
                .any(|w| matches!(w, MatchWarning::RingsNotAlternating(_)))
        );
    }
}

#[test]
fn nonsense_is_refused_in_words() {
    let stock = eight();
    let new = |places| MatchSearch::new(&stock, &MatchTarget::of(places)).unwrap_err();
    assert_eq!(new(0), MatchError::Places(0));
    assert_eq!(
        new(9),
        MatchError::TooFew {
            stock: 8,
            places: 9
        }
    );
    assert_eq!(
        new(9).to_string(),
        "only 8 laminates for 9 places, of the woods wanted"
    );
    let limits = MatchLimits::default();
    let judged = |set: &[Placed]| judge_match(&stock, set, &limits).unwrap_err();
    assert_eq!(judged(&[]), MatchError::Places(0));
    assert_eq!(judged(&[place(8, false)]), MatchError::NotThere(8));
    assert_eq!(
        judged(&[place(1, false), place(1, true)]),
        MatchError::Twice(1)
    );
    let many = vec![stock[0]; MOST_LAMINATES + 1];
    assert_eq!(
        MatchSearch::new(&many, &MatchTarget::of(3)).unwrap_err(),
        MatchError::TooMany(2001)
    );
    let mut bad = stock.clone();
    bad[2].crook = Some(mm(f64::NAN));
    assert!(MatchSearch::new(&bad, &MatchTarget::of(3)).is_err());
    bad[2] = Laminate {
        thickness: mm(0.0),
        ..stock[2]
    };
    assert!(judge_match(&bad, &[place(0, false)], &limits).is_err());
    let none = MatchLimits {
        crook: mm(0.0),
        ..limits
    };
    assert!(judge_match(&stock, &[place(0, false)], &none).is_err());
    let pattern = MatchTarget {
        places: vec![Some(7); 3],
        ..MatchTarget::of(3)
    };
    assert!(MatchSearch::new(&stock, &pattern).is_err());
}

/// A turned laminate as the table of turns has it: its crook, bow, lean and runout.
#[test]
fn what_a_turn_does_is_what_is_seen_after_it() {
    // On edge: thickness to the right, width up, length away. Half turns are two of three axes reversed.
    for (turned_over, end_for_end) in [(false, false), (true, false), (false, true), (true, true)] {
        let turn = Turn {
            turned_over,
            end_for_end,
        };
        let [mut right, mut up, mut away] = [1.0, 1.0, 1.0];
        if turned_over {
            (right, up) = (-right, -up);
        }
        if end_for_end {
            (right, away) = (-right, -away);
        }
        // A bow bends to the right, whichever end is near; rings rise up over right, on the
        // end that is near; grain rises up over away, on the wide face.
        assert_eq!(turn.of_bow(), right);
        assert_eq!(turn.of_lean(), up * right);
        assert_eq!(turn.of_runout(), up * away);
    }
}

#[test]
fn grain_that_runs_out_against_the_rest_is_told_and_turned_where_it_can_be() {
    let mut stock = vec![plain(0.1, 0.0), plain(0.1, 0.0), plain(0.1, 0.0)];
    for one in &mut stock {
        one.rise = Some(RunoutDirection::Rises);
    }
    // Turned alike they run out alike, and then their rings do not alternate.
    let alike = [place(0, false), place(1, false), place(2, false)];
    let judged = judge_match(&stock, &alike, &MatchLimits::default()).unwrap();
    assert_eq!(judged.warnings, [MatchWarning::RingsNotAlternating(2)]);
    // The middle one rolled and spun: rings alternate, and the grain runs on one way.
    let both = Turn {
        turned_over: true,
        end_for_end: true,
    };
    let middle = |turn| {
        [
            place(0, false),
            Placed { laminate: 1, turn },
            place(2, false),
        ]
    };
    let judged = judge_match(&stock, &middle(both), &MatchLimits::default()).unwrap();
    assert_eq!(judged.warnings, []);
    // Only spun, it runs out against the others: a fifth of a limit dearer.
    let end_for_end = Turn {
        turned_over: false,
        end_for_end: true,
    };
    let against = judge_match(&stock, &middle(end_for_end), &MatchLimits::default()).unwrap();
    assert_eq!(against.warnings, [MatchWarning::RunoutBothWays(1)]);
    // A third of the crook is left where one of three is rolled.
    let crook = in_mm(judged.mean_crook - against.mean_crook) / 0.15;
    assert!((against.cost - judged.cost - 0.2 + crook).abs() < 1e-9);
    assert_eq!(searched(&stock, &exactly(3))[0].judged.warnings, []);
}

#[test]
fn a_side_that_was_not_looked_at_is_said_and_placed_as_if_it_did_not_matter() {
    let mut stock = eight();
    let known = searched(&stock, &exactly(5));
    stock[0].lean = None;
    stock[1].lean = None;
    stock[1].rise = None;
    let unknown = searched(&stock, &exactly(5));
    assert_eq!(unknown[0].judged.cost, known[0].judged.cost);
    let told = MatchWarning::NotLookedAt { rings: 2, grain: 1 };
    assert_eq!(unknown[0].judged.warnings, [told]);
    assert!(unknown[0].judged.cost < WARNED);
}

/// What is sent to be searched elsewhere is found there as here, to the last digit.
#[test]
fn what_is_sent_comes_back_the_same() {
    let mut stock = eight();
    stock[3].twist = None;
    stock[4].lean = None;
    let wish = MatchTarget {
        places: vec![Some(1), None, Some(1)],
        ..exactly(3)
    };
    let text = serde_json::to_string(&(&stock, &wish)).unwrap();
    let (sent, wished): (Vec<Laminate>, MatchTarget) = serde_json::from_str(&text).unwrap();
    assert_eq!(sent, stock);
    assert_eq!(wished, wish);
}

/// Whether the rings of a blank lean to one side at every other place, as far as they lean.
pub(super) fn alternates(stock: &[Laminate], blank: &[Placed]) -> bool {
    let sides = blank.iter().enumerate().map(|(at, one)| {
        let side = if at % 2 == 0 { 1.0 } else { -1.0 };
        side * one.turn.of_lean() * stock[one.laminate].lean.map_or(0.0, RingTilt::sign)
    });
    let sides: Vec<f64> = sides.filter(|side| *side != 0.0).collect();
    sides.iter().all(|side| *side == sides[0])
}

/// The least cost of any set, order and turn with alternating rings, by looking at each.
fn by_looking_at_all(stock: &[Laminate], places: usize) -> f64 {
    fn go(stock: &[Laminate], places: usize, blank: &mut Vec<Placed>, least: &mut f64) {
        if blank.len() == places {
            if !alternates(stock, blank) {
                return;
            }
            let cost = judge_match(stock, blank, &MatchLimits::default())
                .unwrap()
                .cost;
            *least = least.min(cost);
            return;
        }
        for laminate in 0..stock.len() {
            if blank.iter().any(|one| one.laminate == laminate) {
                continue;
            }
            for (turned_over, end_for_end) in
                [(false, false), (true, false), (false, true), (true, true)]
            {
                let turn = Turn {
                    turned_over,
                    end_for_end,
                };
                blank.push(Placed { laminate, turn });
                go(stock, places, blank, least);
                blank.pop();
            }
        }
    }
    let mut least = f64::INFINITY;
    go(stock, places, &mut Vec::new(), &mut least);
    least
}

pub(super) fn any_laminate() -> impl Strategy<Value = Laminate> {
    let known = (
        -1.0..1.0f64,
        -0.6..0.6f64,
        650.0..750.0f64,
        7.0..9.0f64,
        10.0..14.0f64,
    );
    let sides = (
        prop::option::of(prop::sample::select(&RingTilt::ALL[..])),
        prop::option::of(prop::sample::select(&RunoutDirection::ALL[..])),
    );
    (known, 0u32..5, 14.0..16.0f64, sides).prop_map(
        |((crook, twist, density, moisture, modulus), odd, thickness, (lean, rise))| Laminate {
            lean,
            rise,
            thickness: mm(thickness),
            density: Some(kg_per_m3(density)),
            moisture: Some(Moisture::percent(moisture)),
            modulus: (odd != 1).then(|| gpa(modulus)),
            wood: if odd == 2 { 2 } else { 1 },
            crook: (odd != 3).then(|| mm(crook)),
            ring_class: Some(if odd == 4 {
                RingClass::Rift
            } else {
                RingClass::Quartersawn
            }),
            ..plain(crook, twist)
        },
    )
}

/// All twisted to the left, but for one of them.
fn of_one_hand(mut stock: Vec<Laminate>, but: usize) -> Vec<Laminate> {
    for (at, one) in stock.iter_mut().enumerate() {
        let hand = if at == but { 1.0 } else { -1.0 };
        one.twist = one.twist.map(|twist| hand * twist.abs());
    }
    stock
}

/// Two hundred that differ in all but their wood, all twisted to the left: nothing cancels, and yet it is
/// soon known that no other set is better.
#[test]
fn a_large_stock_of_one_hand_is_looked_through_to_the_end() {
    let spread = |number: u32, step: f64| {
        let along = f64::from(number) * step;
        2.0 * (along - along.floor()) - 1.0
    };
    let laminate = |number| Laminate {
        thickness: mm(15.0 + 0.5 * spread(number, 0.618_034)),
        lean: None,
        rise: None,
        moisture: Some(Moisture::percent(8.0 + spread(number, 0.856_675))),
        density: Some(kg_per_m3(700.0 + 50.0 * spread(number, 0.733_892))),
        ..plain(
            0.3 * spread(number, 0.754_878),
            -0.1 - 0.5 * spread(number, 0.819_173).abs(),
        )
    };
    let stock: Vec<Laminate> = (1..=200).map(laminate).collect();
    let wish = MatchTarget::of(5);
    let mut search = MatchSearch::new(&stock, &wish).unwrap();
    let state = search.go_on(2_000_000);
    assert!(state.done, "{state:?}");
    let sets = search.proposals();
    let worst = sets.last().unwrap().judged.cost;
    assert!((worst - wish.indifferent - state.no_other_below).abs() < 1e-9);
    // No set has less twist than its least twisted.
    let twist = sets[0].judged.mean_twist;
    assert!(twist < mm(-0.1) && twist > mm(-0.2), "{twist:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10))]

    #[test]
    fn nothing_better_is_overlooked(stock in prop::collection::vec(any_laminate(), 5..7), places in 2usize..5) {
        let found = searched(&stock, &exactly(places));
        prop_assert!(found.iter().all(|one| alternates(&stock, &one.blank)));
        let least = by_looking_at_all(&stock, places);
        prop_assert!((found[0].judged.cost - least).abs() < 1e-9, "{} {least}", found[0].judged.cost);
    }

    // Where all twist to one hand, or nearly all, the twist can't be looked away from.
    #[test]
    fn nothing_better_is_overlooked_where_twist_has_one_hand(
        stock in prop::collection::vec(any_laminate(), 5..7), places in 2usize..5, other in 0usize..12,
    ) {
        let stock = of_one_hand(stock, other);
        let found = searched(&stock, &exactly(places));
        let least = by_looking_at_all(&stock, places);
        prop_assert!((found[0].judged.cost - least).abs() < 1e-9, "{} {least}", found[0].judged.cost);
    }

    // However the search is sliced, it finds the same; and what is indifferent stays within its bound.
    #[test]
    fn slices_change_nothing_and_the_bound_holds(
        stock in prop::collection::vec(any_laminate(), 9..12), slice in 1u64..500,
    ) {
        let whole = searched(&stock, &exactly(5));
        let mut sliced = MatchSearch::new(&stock, &exactly(5)).unwrap();
        while !sliced.go_on(slice).done {
            let state = sliced.state();
            prop_assert!(state.no_other_below <= whole[0].judged.cost + 1e-9);
        }
        prop_assert_eq!(sliced.proposals(), whole.clone());
        let near = searched(&stock, &MatchTarget { indifferent: 0.3, ..MatchTarget::of(5) });
        prop_assert!(near[0].judged.cost <= whole[0].judged.cost + 0.3 + 1e-9);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3))]

    // Five of five in every order, where which way the grain runs out depends on the place.
    #[test]
    fn no_better_order_is_overlooked(mut stock in prop::collection::vec(any_laminate(), 5)) {
        stock[0].lean = Some(RingTilt::Left);
        stock[0].rise = Some(RunoutDirection::Rises);
        let found = searched(&stock, &exactly(5));
        let least = by_looking_at_all(&stock, 5);
        prop_assert!((found[0].judged.cost - least).abs() < 1e-9, "{} {least}", found[0].judged.cost);
    }
}
