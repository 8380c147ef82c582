//! How long it takes to find sets of five in a stock of 200 laminates, and to cut all of it into blanks.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use stillwood_core::neck::{Laminate, MatchSearch, MatchTarget, Proposal};
use stillwood_core::plank::{RingClass, RingTilt, RunoutDirection};
use stillwood_core::quantity::{Moisture, kg_per_m3, mm};
use uom::si::f64::Pressure;
use uom::si::pressure::gigapascal;

/// As many laminates as a busy workshop has resting.
const STOCK: u32 = 200;
/// Placings looked at for one answer where it is not looked through to the end.
const PLACINGS: u64 = 250_000;

/// A laminate on which everything was measured, different for each number.
fn laminate(number: u32) -> Laminate {
    // Steps of the golden ratio spread evenly without a random number.
    let spread = |step: f64, half: f64| {
        let along = f64::from(number) * step;
        half * (2.0 * (along - along.floor()) - 1.0)
    };
    Laminate {
        thickness: mm(15.0 + spread(0.618_034, 0.5)),
        width: mm(48.0),
        wood: 1,
        crook: Some(mm(spread(0.754_878, 0.3))),
        bow: Some(mm(spread(0.569_840, 1.0))),
        twist: Some(mm(spread(0.819_173, 0.5))),
        lean: Some(if spread(0.671_044, 1.0) < 0.0 {
            RingTilt::Left
        } else {
            RingTilt::Right
        }),
        ring_class: Some(if number.is_multiple_of(5) {
            RingClass::Rift
        } else {
            RingClass::Quartersawn
        }),
        rise: Some(if spread(0.549_700, 1.0) < 0.0 {
            RunoutDirection::Falls
        } else {
            RunoutDirection::Rises
        }),
        moisture: Some(Moisture::percent(8.0 + spread(0.856_675, 1.0))),
        density: Some(kg_per_m3(700.0 + spread(0.733_892, 50.0))),
        modulus: Some(Pressure::new::<gigapascal>(12.0 + spread(0.628_707, 1.5))),
    }
}

fn sets(stock: &[Laminate], placings: u64) -> Vec<Proposal> {
    let mut search = MatchSearch::new(stock, &MatchTarget::of(5)).unwrap();
    while search.state().looked_at < placings && !search.go_on(50_000).done {}
    search.proposals()
}

fn matching(c: &mut Criterion) {
    let stock: Vec<Laminate> = (1..=STOCK).map(laminate).collect();
    let mut group = c.benchmark_group("200 laminates");
    group.sample_size(10);
    group.bench_function("the best sets of five, to the end", |b| {
        b.iter(|| sets(black_box(&stock), u64::MAX));
    });
    group.bench_function("good sets of five", |b| {
        b.iter(|| sets(black_box(&stock), PLACINGS));
    });
    group.bench_function("sixteen blanks, one after another", |b| {
        b.iter(|| {
            let mut left = stock.clone();
            for _ in 0..16 {
                let mut used: Vec<usize> = sets(&left, PLACINGS)[0]
                    .blank
                    .iter()
                    .map(|one| one.laminate)
                    .collect();
                used.sort_unstable();
                for laminate in used.into_iter().rev() {
                    left.swap_remove(laminate);
                }
            }
            left.len()
        });
    });
    group.finish();
}

criterion_group!(benches, matching);
criterion_main!(benches);
