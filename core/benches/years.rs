//! How long ten years of a workshop take: the fold of the record, what is due, and what came of the wood.

use stillwood_tests::invented;

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::{kg, mm};
use stillwood_core::record::queries;
use stillwood_core::record::{
    DueRow, GroupedBy, Log, PieceKind, RestLine, StartTarget, State, date, due_by_day,
};
use stillwood_core::season::FEELER_MM;

const PLANKS: u64 = 5000;

fn what_rests(state: &State) -> Vec<RestLine> {
    let scale = kg(0.1);
    let today = date("2026-10-01").unwrap();
    queries::resting(state, today, mm(FEELER_MM), scale)
}

fn rows_by_day(state: &State, lines: &[RestLine]) -> usize {
    let today = date("2026-10-01").unwrap();
    let due = queries::due(state, lines.to_vec(), today, kg(0.1));
    let stretches = due_by_day(due, today).into_iter();
    stretches
        .map(|(_, lines)| DueRow::folded(lines).len())
        .sum()
}

fn planks_to_start(state: &State, lines: &[RestLine], wish: &StartTarget) -> Option<u32> {
    let today = date("2026-10-01").unwrap();
    let (wood, _) = queries::wood_in_hand(state, &[], lines, wish.laminates_per_plank, today);
    queries::start_for(state, wish, &wood).unwrap().planks
}

fn years(c: &mut Criterion) {
    let mut log = Log::new();
    log.merge(invented::years::ten_years(PLANKS));
    let state = State::project(&log);
    let lines = what_rests(&state);
    println!(
        "{} entries of {} pieces, {} at rest",
        log.len(),
        state.pieces().count(),
        lines.len()
    );
    let tools = Instruments::default();
    let wish = StartTarget {
        blanks: 10,
        laminates_per_plank: 6,
        laminates_per_blank: 5,
        confidence: 0.9,
        share_unknown: 0.8,
        by_own_counts: true,
    };
    let mut group = c.benchmark_group("ten years");
    group.sample_size(10);
    group.bench_function("fold", |b| b.iter(|| State::project(&log)));
    group.bench_function("what is due", |b| b.iter(|| what_rests(&state)));
    println!("{} rows by day", rows_by_day(&state, &lines));
    group.bench_function("its rows by day, folded", |b| {
        b.iter(|| rows_by_day(&state, &lines))
    });
    for by in GroupedBy::ALL {
        group.bench_function(format!("what came through, by {}", by.name()), |b| {
            b.iter(|| queries::what_came(&state, PieceKind::Laminate, black_box(by), &tools));
        });
    }
    group.bench_function("which signs told", |b| {
        b.iter(|| queries::predictors(&state, &tools))
    });
    group.bench_function("how many to start", |b| {
        b.iter(|| planks_to_start(&state, &lines, black_box(&wish)));
    });
    group.finish();
}

criterion_group!(benches, years);
criterion_main!(benches);
