//! How long reading, folding and writing a record take, beside what plain JSON parsing takes.

use stillwood_tests::invented;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use stillwood_core::record::State;
use stillwood_core::record::{DeviceId, Entry, EventMeta, Limits, Log, read};

const ENTRIES: usize = 20_000;

fn record(c: &mut Criterion) {
    let mut log = Log::new();
    log.merge(invented::record(ENTRIES, 1));
    let file = log.to_file("0.0.0", "");
    let limits = Limits::default();
    let read_again = read(file.as_bytes(), &limits).unwrap();
    assert!(read_again.problems.is_empty(), "{:?}", read_again.problems);
    let mut group = c.benchmark_group("record");
    group.sample_size(10);
    group.throughput(Throughput::Elements(log.len() as u64));
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
                let mut empty = Log::new();
                empty.merge(entries);
                empty
            },
            criterion::BatchSize::LargeInput,
        );
    });
    group.bench_function("fold", |b| b.iter(|| State::project(black_box(&log))));
    group.bench_function("write", |b| b.iter(|| black_box(&log).to_file("0.0.0", "")));
    group.finish();
}

fn parts(entry: &Entry) -> (DeviceId, EventMeta, Entry) {
    let author = DeviceId {
        by: entry.by.clone(),
    };
    let moment = EventMeta {
        id: entry.id,
        seq: entry.seq,
        step: entry.step,
        on: entry.on,
        on_confirmed: entry.on_confirmed,
        at: entry.at.clone(),
    };
    (author, moment, entry.clone())
}

/// One entry from its parts to the line that the store is given.
fn one_entry(c: &mut Criterion) {
    let made = invented::record(100, 1);
    let mut group = c.benchmark_group("one_entry");
    for kind in ["measured", "noted", "judged"] {
        let entry = made.iter().find(|entry| entry.event.kind() == kind);
        let entry = entry.unwrap();
        group.bench_function(kind, |b| {
            b.iter_batched(
                || parts(entry),
                |(author, moment, said)| {
                    author
                        .write(moment, said.about, said.event, said.supersedes)
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
