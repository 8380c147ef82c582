//! How long one evaluation, one sheet and a whole yard's planks under a new spec take.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use stillwood_core::plank::{
    DefectFound, DefectKind, Field, Instruments, Plank, Readings, Seen, Source, describe,
    understand,
};
use stillwood_core::quantity::Input;
use stillwood_core::quantity::read::Units;
use stillwood_core::verdict::{Spec, evaluate, sheet};

/// How many planks are judged under a new spec.
const YARD: u32 = 10_000;

/// A plank on which everything was measured, a little different for each number.
fn measured(number: u32) -> (Readings, Vec<DefectFound>) {
    let length = (2000 + number % 1500).to_string();
    let width = (150 + number % 90).to_string();
    let bow = (1 + number % 12).to_string();
    let texts = [
        (Field::Length, length.as_str()),
        (Field::WidthNear, width.as_str()),
        (Field::WidthMiddle, width.as_str()),
        (Field::WidthFar, width.as_str()),
        (Field::ThicknessNear, "52"),
        (Field::WeightFirst, "10.3"),
        (Field::WeightSecond, "9.4"),
        (Field::Moisture, "10.5"),
        (Field::WoodTemperature, "8"),
        (Field::Bow, bow.as_str()),
        (Field::Crook, "4"),
        (Field::Twist, "12 left"),
        (Field::Cup, "4"),
        (Field::RingChord, "150"),
        (Field::RingDip, "25"),
        (Field::GrainFace, "12/300"),
        (Field::GrainEdge, "15/300"),
    ];
    let take = |(field, text): (Field, &str)| {
        let echo = understand(field, text, Seen::Measured, false, Units::Metric);
        Some((field, echo.taken()?.clone()))
    };
    let readings: Readings = texts.into_iter().filter_map(take).collect();
    let knot = DefectFound {
        kind: DefectKind::PinKnot,
        from: readings.get(&Field::WidthNear).cloned(),
        to: None,
        note: "beside the edge".into(),
    };
    (readings, vec![knot])
}

fn described(number: u32, tools: &Instruments) -> (Plank, Vec<Input<Source>>) {
    let (readings, defects) = measured(number);
    (describe(&readings, &defects), tools.inputs(&readings))
}

fn verdicts(c: &mut Criterion) {
    let tools = Instruments::default();
    let specs = Spec::supplied();
    let (spec, other) = (&specs[0], &specs[1]);
    let (plank, inputs) = described(7, &tools);
    c.bench_function("one evaluation", |b| {
        b.iter(|| evaluate(black_box(&plank), black_box(&inputs), black_box(spec)));
    });
    let (readings, defects) = measured(7);
    c.bench_function("one sheet", |b| {
        b.iter(|| sheet(black_box(&readings), black_box(&defects), &tools, spec));
    });
    let yard: Vec<_> = (0..YARD).map(|n| described(n, &tools)).collect();
    let mut turns = [spec, other].into_iter().cycle();
    let mut group = c.benchmark_group("a yard");
    group.sample_size(10);
    group.bench_function("10,000 planks under a new spec", |b| {
        b.iter(|| {
            let Some(spec) = turns.next() else { return 0.0 };
            let planks = yard.iter();
            let scores = planks.map(|(plank, inputs)| evaluate(plank, inputs, spec).score);
            scores.flatten().sum::<f64>()
        });
    });
    group.finish();
}

criterion_group!(benches, verdicts);
criterion_main!(benches);
