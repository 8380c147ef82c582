//! How long reading, folding and writing a record take, beside what plain JSON parsing takes.

#[path = "../tests/invented/mod.rs"]
mod invented;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use stillwood_core::record::Book;
use stillwood_core::record::{Limits, Notebook, read};

const ENTRIES: usize = 20_000;

fn record(c: &mut Criterion) {
    let mut notebook = Notebook::new();
    notebook.merge(invented::record(ENTRIES, 1));
    let file = notebook.to_file("0.0.0", "");
    let limits = Limits::default();
    let read_again = read(file.as_bytes(), &limits).unwrap();
    assert!(read_again.problems.is_empty(), "{:?}", read_again.problems);
    let mut group = c.benchmark_group("record");
    group.sample_size(10);
    group.throughput(Throughput::Elements(notebook.len() as u64));
    group.bench_function("parse_as_json_value", |b| {
        b.iter(|| serde_json::from_str::<serde_json::Value>(black_box(&file)).unwrap());
    });
    group.bench_function("read", |b| {
        b.iter(|| read(black_box(file.as_bytes()), &limits).unwrap())
    });
    group.bench_function("merge", |b| {
        b.iter_batched(
            || read_again.accepted.clone(),
            |entries| {
                let mut empty = Notebook::new();
                empty.merge(entries);
                empty
            },
            criterion::BatchSize::LargeInput,
        );
    });
    group.bench_function("fold", |b| b.iter(|| Book::project(black_box(&notebook))));
    group.bench_function("write", |b| {
        b.iter(|| black_box(&notebook).to_file("0.0.0", ""))
    });
    group.finish();
}

criterion_group!(benches, record);
criterion_main!(benches);
