//! How long reading, folding and writing a record take, beside what plain JSON parsing takes.

#[path = "../tests/invented/mod.rs"]
mod invented;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use stillwood_core::record::Book;
use stillwood_core::record::{Author, Entry, Limits, Moment, Notebook, read};

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

/// What an entry is made of.
fn parts(entry: &Entry) -> (Author, Moment, Entry) {
    let author = Author {
        by: entry.by.clone(),
    };
    let moment = Moment {
        id: entry.id,
        seq: entry.seq,
        step: entry.step,
        on: entry.on,
        on_insisted: entry.on_insisted,
        at: entry.at.clone(),
    };
    (author, moment, entry.clone())
}

/// One entry from its parts to the line that the store is given.
fn one_entry(c: &mut Criterion) {
    let made = invented::record(100, 1);
    let mut group = c.benchmark_group("one_entry");
    for kind in ["measured", "noted", "judged"] {
        let entry = made.iter().find(|entry| entry.happening.kind() == kind);
        let entry = entry.unwrap();
        group.bench_function(kind, |b| {
            b.iter_batched(
                || parts(entry),
                |(author, moment, said)| {
                    author
                        .write(moment, said.about, said.happening, said.supersedes)
                        .unwrap()
                },
                criterion::BatchSize::SmallInput,
            );
        });
    }
    group.finish();
}

criterion_group!(benches, record, one_entry);
criterion_main!(benches);
