//! What a search promises of the sets that it does not propose, and how it spins those that it does.

use super::super::tests::{any_laminate, exactly, place, plain, searched};
use super::super::{MatchLimits, RingTilt, Turn, judge_match};
use super::*;
use crate::plank::RunoutDirection;
use crate::quantity::{Moisture, in_mm, kg_per_m3, mm};
use proptest::prelude::*;

/// The least cost of each set of three, in any order and rolled in any way, of laminates whose sides make
/// no difference.
fn each_set_of_three(stock: &[Laminate], limits: &MatchLimits) -> Vec<(Vec<usize>, f64)> {
    let mut sets: Vec<(Vec<usize>, f64)> = Vec::new();
    for at in 0..stock.len().pow(3) * 8 {
        let (turned_over, at) = (at % 8, at / 8);
        let three = [0, 1, 2].map(|place| at / stock.len().pow(place) % stock.len());
        if three[0] == three[1] || three[1] == three[2] || three[0] == three[2] {
            continue;
        }
        let blank = [0, 1, 2].map(|at| place(three[at], turned_over >> at & 1 == 1));
        let cost = judge_match(stock, &blank, limits).unwrap().cost;
        let mut members = three.to_vec();
        members.sort_unstable();
        match sets.iter_mut().find(|(known, _)| *known == members) {
            Some((_, least)) => *least = least.min(cost),
            None => sets.push((members, cost)),
        }
    }
    sets
}

/// A wish for any of these woods at each place.
fn any_places() -> impl Strategy<Value = Vec<Option<u32>>> {
    let wood = prop::sample::select(vec![None, None, Some(1), Some(2)]);
    prop::collection::vec(wood, 2..=6)
}

/// Each set with the least cost of any of its placings, the cheapest first, by going through all of them;
/// and that no placing costs less than what was said of it halfway.
fn all_placings(search: &mut MatchSearch) -> Vec<(Vec<usize>, f64)> {
    fn go(
        search: &mut MatchSearch,
        sums: &mut Vec<Sum>,
        choices: &mut Vec<Choice>,
        sets: &mut Vec<(Vec<usize>, f64)>,
    ) {
        let step = choices.len();
        let sum = sums[step];
        if step == search.order.len() {
            let cost = sum.cost(&search.limits);
            for (step, before) in sums.iter().enumerate() {
                let last = step.checked_sub(1).map(|at| choices[at].0);
                let bound = search.bound(before, step, last);
                assert!(bound <= cost + 1e-9, "{bound} {cost} at {step}");
            }
            let mut members: Vec<usize> = choices.iter().map(|choice| choice.0).collect();
            members.sort_unstable();
            match sets.iter_mut().find(|(known, _)| *known == members) {
                Some((_, least)) => *least = least.min(cost),
                None => sets.push((members, cost)),
            }
            return;
        }
        for laminate in 0..search.stock.len() {
            if !search.fits(step, laminate) {
                continue;
            }
            search.used[laminate] = true;
            for turned_over in [false, true] {
                sums.push(search.placed(sum, choices, step, (laminate, turned_over)));
                choices.push((laminate, turned_over));
                go(search, sums, choices, sets);
                choices.pop();
                sums.pop();
            }
            search.used[laminate] = false;
        }
    }
    let mut sets = Vec::new();
    go(
        search,
        &mut vec![Sum::default()],
        &mut Vec::new(),
        &mut sets,
    );
    sets.sort_by(|a, b| a.1.total_cmp(&b.1));
    sets
}

fn members(proposal: &Proposal) -> Vec<usize> {
    let mut members: Vec<usize> = proposal.blank.iter().map(|one| one.laminate).collect();
    members.sort_unstable();
    members
}

/// Laminates whose sides make no difference, of any size and however far they moved.
fn any_size() -> impl Strategy<Value = Laminate> {
    let sizes = (8.0..20.0f64, 40.0..60.0f64);
    (any_laminate(), sizes, -6.0..6.0f64, -6.0..6.0f64).prop_map(
        |(one, (thickness, width), crook, twist)| Laminate {
            thickness: mm(thickness),
            width: mm(width),
            crook: one.crook.map(|_| mm(crook)),
            twist: Some(mm(twist)),
            lean: None,
            rise: None,
            ..one
        },
    )
}

/// Laminates with their sides, that moved little or much.
fn any_movement() -> impl Strategy<Value = Laminate> {
    let times = prop::sample::select(vec![1.0, 8.0]);
    (any_laminate(), times).prop_map(|(one, times)| Laminate {
        crook: one.crook.map(|crook| crook * times),
        twist: one.twist.map(|twist| twist * times),
        ..one
    })
}

/// Laminates of two woods that are alike but for how they moved and to which side all of them lean and run
/// out: where they stand decides.
fn any_sides() -> impl Strategy<Value = Laminate> {
    let moved = (-8.0..8.0f64, -3.0..3.0f64);
    (moved, any::<[bool; 2]>(), 1u32..=2).prop_map(|((crook, twist), [left, rises], wood)| {
        Laminate {
            lean: Some(if left {
                RingTilt::Left
            } else {
                RingTilt::Right
            }),
            rise: Some(if rises {
                RunoutDirection::Rises
            } else {
                RunoutDirection::Falls
            }),
            wood,
            ..plain(crook, twist)
        }
    })
}

fn any_stock() -> impl Strategy<Value = Vec<Laminate>> {
    prop_oneof![
        prop::collection::vec(any_movement(), 4..7),
        prop::collection::vec(any_sides(), 5..7),
    ]
}

fn any_limits() -> impl Strategy<Value = MatchLimits> {
    (0.02..4.0f64, 0.02..4.0f64, 0.2..4.0f64).prop_map(|(crook, twist, thickness)| MatchLimits {
        crook: mm(crook),
        twist: mm(twist),
        thickness: mm(thickness),
        moisture_spread: Moisture::percent(1.0),
        density: kg_per_m3(40.0),
        modulus_share: 0.2,
    })
}

#[test]
fn as_many_places_as_there_is_wood_for_can_be_filled() {
    let stock = |woods: &[u32]| -> Vec<Laminate> {
        let of = |wood: &u32| Laminate {
            wood: *wood,
            ..plain(0.1, 0.1)
        };
        woods.iter().map(of).collect()
    };
    let placeable = |woods: &[u32], places: &[Option<u32>]| {
        let wish = MatchTarget {
            places: places.to_vec(),
            ..exactly(places.len())
        };
        match MatchSearch::new(&stock(woods), &wish) {
            Ok(_) => places.len(),
            Err(MatchError::TooFew { stock, .. }) => stock,
            Err(other) => panic!("{other}"),
        }
    };
    let wanted = [Some(1), Some(2), None];
    assert_eq!(placeable(&[1, 1, 2], &wanted), 3);
    assert_eq!(placeable(&[1, 1], &wanted), 2);
    assert_eq!(placeable(&[1, 1, 1], &wanted), 2);
    assert_eq!(placeable(&[2, 1], &wanted), 2);
    assert_eq!(placeable(&[3], &wanted), 1);
    assert_eq!(placeable(&[1, 1, 2], &[Some(1), Some(1), Some(1)]), 2);
    assert_eq!(placeable(&[1, 2], &[Some(1), Some(2), Some(1), Some(2)]), 2);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    // Whatever the sizes and the limits are: the best is found, the proposals stand in order, and no set
    // that is not proposed costs less than what is said of it.
    #[test]
    fn what_is_not_proposed_costs_what_is_said(
        stock in prop::collection::vec(any_size(), 5..8), limits in any_limits(),
        proposals in 1usize..4, indifferent in prop::sample::select(vec![0.0, 0.1, 1.0, 10.0]),
    ) {
        let all = each_set_of_three(&stock, &limits);
        let wish = MatchTarget { limits, proposals, indifferent, ..MatchTarget::of(3) };
        let mut search = MatchSearch::new(&stock, &wish).unwrap();
        loop {
            let state = search.go_on(40);
            let found = search.proposals();
            let proposed: Vec<_> = found.iter().map(members).collect();
            for (members, least) in &all {
                let told = proposed.contains(members) || *least >= state.no_other_below - 1e-9;
                prop_assert!(told, "{members:?} {least} {state:?}");
            }
            let costs: Vec<f64> = found.iter().map(|one| one.judged.cost).collect();
            prop_assert!(costs.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9));
            if state.done {
                let least = all.iter().map(|(_, cost)| *cost).fold(f64::INFINITY, f64::min);
                prop_assert!(costs[0] <= least + indifferent + 1e-9, "{costs:?} {least}");
                prop_assert_eq!(costs.len(), proposals);
                // What another could be cheaper by is no more than what the wish is indifferent to.
                let worst = costs[costs.len() - 1];
                prop_assert!(state.no_other_below >= worst - indifferent - 1e-9);
                break;
            }
        }
    }

    // Without any set to begin with, and so by its bounds and twins alone, the search finds the best sets,
    // whatever woods are wanted at the places; and each costs, spun, what it was found for.
    #[test]
    fn what_is_left_out_is_no_better(
        stock in any_stock(), places in any_places(), limits in any_limits(),
    ) {
        let wish = MatchTarget { places, limits, proposals: 3, indifferent: 0.0 };
        let mut search = match MatchSearch::new(&stock, &wish) {
            Ok(search) => search,
            Err(why) => {
                // Refused only where a wood that is asked for runs out, or laminates at all.
                let of = |wood| stock.iter().filter(|one| one.wood == wood).count();
                let asked = |wood| wish.places.iter().filter(|place| **place == wood).count();
                let named: usize = [1, 2].map(|wood| of(wood).min(asked(Some(wood)))).iter().sum();
                let placeable = named + asked(None).min(stock.len() - named);
                let too_few = MatchError::TooFew { stock: placeable, places: wish.places.len() };
                prop_assert!(placeable < wish.places.len());
                prop_assert_eq!(why, too_few);
                return Ok(());
            }
        };
        let all = all_placings(&mut search);
        search.next_start = STARTS;
        while !search.go_on(10_000).done {}
        prop_assert_eq!(search.found.len(), all.len().min(3));
        for ((found, proposal), (_, least)) in search.found.iter().zip(search.proposals()).zip(&all) {
            prop_assert!((found.cost - least).abs() < 1e-9, "{found:?} {least}");
            prop_assert!((found.cost - proposal.judged.cost).abs() < 1e-9, "{found:?} {proposal:?}");
            for (one, wood) in proposal.blank.iter().zip(&wish.places) {
                prop_assert!(wood.is_none_or(|wood| wood == stock[one.laminate].wood));
            }
        }
    }

    // Laminates whose rings lean can be spun in two ways only: the one that leaves less bow is proposed.
    #[test]
    fn rings_alternate_the_way_that_leaves_less_bow(
        stock in prop::collection::vec((-2.0..2.0f64, any::<bool>()), 4..6),
    ) {
        let leaning = |&(bow, left): &(f64, bool)| Laminate {
            bow: Some(mm(bow)),
            lean: Some(if left { RingTilt::Left } else { RingTilt::Right }),
            ..plain(0.1, 0.1)
        };
        let stock: Vec<Laminate> = stock.iter().map(leaning).collect();
        for proposal in searched(&stock, &exactly(4)) {
            let mut other = proposal.blank.clone();
            for one in &mut other {
                one.turn = one.turn.then(Turn { turned_over: false, end_for_end: true });
            }
            let other = judge_match(&stock, &other, &MatchLimits::default()).unwrap();
            prop_assert!((other.cost - proposal.judged.cost).abs() < 1e-9);
            let bow = |judged: &Judged| in_mm(judged.bow_left).abs();
            prop_assert!(bow(&proposal.judged) <= bow(&other) + 1e-12);
        }
    }

    // Of a laminate that leans and one that does not, no more is left than one has more than the other.
    #[test]
    fn a_free_laminate_is_spun_against_one_that_leans(
        (leaning, free) in (-2.0..2.0f64, -2.0..2.0f64), (left, first) in any::<(bool, bool)>(),
    ) {
        let one = |bow: f64, lean: RingTilt| Laminate {
            bow: Some(mm(bow)),
            lean: Some(lean),
            ..plain(0.1, 0.1)
        };
        let leaning = one(leaning, if left { RingTilt::Left } else { RingTilt::Right });
        let free = one(free, RingTilt::Neither);
        let stock = if first { [free, leaning] } else { [leaning, free] };
        let found = &searched(&stock, &exactly(2))[0].judged;
        let bow = |one: &Laminate| in_mm(one.bow.unwrap()).abs();
        let least = (bow(&leaning) - bow(&free)).abs() / 8.0;
        prop_assert!((in_mm(found.bow_left).abs() - least).abs() < 1e-9, "{found:?}");
    }

    // Of laminates that can be spun freely no more bow is left than the largest has.
    #[test]
    fn bows_are_spun_against_each_other(bows in prop::collection::vec(-2.0..2.0f64, 5..8)) {
        let free = |bow: &f64| Laminate {
            bow: Some(mm(*bow)),
            lean: Some(RingTilt::Neither),
            ..plain(0.1, 0.1)
        };
        let stock: Vec<Laminate> = bows.iter().map(free).collect();
        let largest = bows.iter().fold(0.0, |most: f64, bow| most.max(bow.abs()));
        for proposal in searched(&stock, &exactly(5)) {
            let left = in_mm(proposal.judged.bow_left).abs();
            prop_assert!(left * 125.0 <= largest + 1e-9, "{bows:?}");
        }
    }
}
