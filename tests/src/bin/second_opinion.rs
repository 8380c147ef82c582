//! What the core finds for many inputs, one JSON object a line: `second_opinion COUNT SEED`. The
//! libraries that work the same out stand in `tests/reference`. It compares nothing itself.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde_json::{Value, json};
use stillwood_core::plank::{
    MeterReading, Plank, Source, Stations, Weighing, density_as_measured, volume,
};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::normal_cdf;
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::{
    Input, Moisture, Scalar, celsius, in_kg_per_m3, kg, kg_per_m3, mm, propagate, show,
};
use stillwood_core::season::{StartSearch, StartTask};
use stillwood_core::trade::cubic_metres;
use stillwood_core::verdict::{Form, geometric_mean, moisture};
use stillwood_core::wood::density_at_12;
use stillwood_tests::dice::Dice;
use stillwood_tests::starts::{AS_GOOD_AS_SURE, start_one_by_one};

fn main() {
    let mut words = std::env::args().skip(1);
    let mut number = |what: &str| -> u64 {
        let word = words.next().and_then(|word| word.parse().ok());
        word.unwrap_or_else(|| panic!("{what} has to be a number: second_opinion COUNT SEED"))
    };
    let (count, seed) = (number("COUNT"), number("SEED"));
    for n in 0..count {
        let dice = &mut Dice::of(seed, n);
        let lines = [
            typed(dice),
            shown_density(dice),
            board_feet(dice),
            cdf(dice),
            conformance(dice),
            mean(dice),
            chance(dice),
            to_start(dice),
        ];
        for line in lines.into_iter().chain(weighed_plank(dice)) {
            println!("{line}");
        }
    }
}

/// A number with so many decimals, as it is typed.
fn decimals(dice: &mut Dice, most: usize) -> f64 {
    let tens = [1.0, 10.0, 100.0];
    dice.below(most) as f64 / dice.pick(&tens)
}

/// A unit as it is typed and as a library names it.
type Unit = (&'static str, &'static str);

const LENGTHS: [Unit; 6] = [
    ("mm", "mm"),
    ("cm", "cm"),
    ("m", "m"),
    ("\"", "inch"),
    ("in", "inch"),
    ("ft", "foot"),
];
const MASSES: [Unit; 4] = [("kg", "kg"), ("g", "g"), ("lb", "pound"), ("oz", "ounce")];
const TEMPERATURES: [Unit; 2] = [("C", "degC"), ("°F", "degF")];

fn typed(dice: &mut Dice) -> Value {
    let value = decimals(dice, 5000);
    let (more, second) = (dice.below(12), dice.once_in(2));
    let (quantity, unit, other) = match dice.below(3) {
        0 => ("length", *dice.pick(&LENGTHS), Some(("ft", "in", "inch"))),
        1 => ("mass", *dice.pick(&MASSES), Some(("lb", "oz", "ounce"))),
        _ => ("temperature", *dice.pick(&TEMPERATURES), None),
    };
    let mut text = format!("{value} {}", unit.0);
    let mut parts = vec![json!([value, unit.1])];
    if let Some((_, word, name)) = other.filter(|(first, ..)| second && *first == unit.0) {
        text = format!("{text} {more} {word}");
        parts.push(json!([more, name]));
    }
    let read = match quantity {
        "length" => read::length(&text, Units::Metric),
        "mass" => read::mass(&text, Units::Metric),
        _ => read::temperature(&text, Units::Metric),
    };
    let found = read.expect("a good number with a good unit").value;
    json!({"of": "typed", "quantity": quantity, "text": text, "parts": parts, "found": found})
}

fn shown_density(dice: &mut Dice) -> Value {
    let density = dice.between(100.0, 1400.0);
    let shown = show::density(density, Units::Inch);
    let found: Option<f64> = shown.split(' ').next().and_then(|text| text.parse().ok());
    json!({"of": "shown_density", "kg_per_m3": density, "found": found})
}

fn board_feet(dice: &mut Dice) -> Value {
    let tenths = dice.below(100_000) as i64 + 1;
    let found = cubic_metres(Decimal::new(tenths, 1)).and_then(|volume| volume.to_f64());
    json!({"of": "board_feet", "board_feet": tenths as f64 / 10.0, "found": found})
}

fn cdf(dice: &mut Dice) -> Value {
    let z = dice.between(-8.0, 8.0);
    json!({"of": "normal_cdf", "z": z, "found": normal_cdf(z)})
}

fn conformance(dice: &mut Dice) -> Value {
    let (low, width) = (dice.between(0.0, 10.0), dice.between(0.1, 5.0));
    let (value, standard) = (dice.between(-2.0, 18.0), dice.between(0.05, 3.0));
    let high = low + width;
    let form = Form::Within {
        low_limit: low,
        low_target: low,
        high_target: high,
        high_limit: high,
    };
    let found = form.conformance(value, standard);
    json!({"of": "conformance", "low": low, "high": high, "value": value, "standard": standard,
        "found": found})
}

fn mean(dice: &mut Dice) -> Value {
    let each: Vec<f64> = (0..1 + dice.below(7))
        .map(|_| dice.between(0.01, 1.0))
        .collect();
    json!({"of": "geometric_mean", "each": each, "found": geometric_mean(each.iter().copied())})
}

fn chances(task: StartTask) -> Vec<f64> {
    let search = StartSearch::new(task).expect("shares and a confidence that can be");
    search.finish().chances
}

fn chance(dice: &mut Dice) -> Value {
    let (wanted, share) = (1 + dice.below(60) as u32, dice.between(0.05, 1.0));
    let started = wanted + dice.below(200) as u32;
    let task = start_one_by_one(wanted, share, AS_GOOD_AS_SURE, started);
    let found = chances(task).last().copied();
    json!({"of": "chance_of_at_least", "wanted": wanted, "started": started, "share": share,
        "found": found})
}

fn to_start(dice: &mut Dice) -> Value {
    let (wanted, share) = (1 + dice.below(100) as u32, dice.between(0.05, 1.0));
    let confidence = dice.between(0.5, 0.999);
    let task = start_one_by_one(wanted, share, confidence, 10_000);
    let found = chances(task).len() - 1;
    json!({"of": "how_many_to_start", "wanted": wanted, "share": share, "confidence": confidence,
        "found": found})
}

/// Volume, density and density at 12 % of a plank weighed end by end, with their uncertainties.
fn weighed_plank(dice: &mut Dice) -> [Value; 3] {
    let length = dice.between(1500.0, 4000.0);
    let [widths, thicknesses] = [(120.0, 350.0), (40.0, 80.0)].map(|(low, high)| {
        let near = dice.between(low, high);
        [
            near,
            near * dice.between(0.9, 1.1),
            near * dice.between(0.9, 1.1),
        ]
    });
    let density = dice.between(450.0, 900.0);
    let half = length * widths[1] * thicknesses[1] * density / 2e9;
    let ends = [half * dice.between(0.9, 1.1), half];
    let (shown, warmth) = (dice.between(8.0, 16.0), dice.between(0.0, 30.0));
    let three = |[near, middle, far]: [f64; 3]| Stations::three(mm(near), mm(middle), mm(far));
    let plank = Plank {
        length: Some(mm(length)),
        widths: three(widths),
        thicknesses: three(thicknesses),
        weighing: Some(Weighing::Ends {
            first: kg(ends[0]),
            second: Some(kg(ends[1])),
            overhang: mm(0.0),
        }),
        meter: Some(MeterReading {
            shown: Moisture::percent(shown),
            wood: Some(celsius(warmth)),
        }),
        ..Plank::default()
    };
    let asked = |of: &str, found: Value, inputs: &[Input<Source>]| {
        let inputs: serde_json::Map<String, Value> = inputs
            .iter()
            .map(|input| (format!("{:?}", input.source), json!(input.standard)))
            .collect();
        json!({"of": of, "length": length, "widths": widths, "thicknesses": thicknesses, "ends": ends,
            "moisture": shown, "warmth": warmth, "inputs": inputs, "found": found})
    };
    let inputs = [
        (Source::Length, 5.0),
        (Source::Width, 3.0),
        (Source::Thickness, 1.0),
        (Source::Scale, 0.1),
        (Source::Meter, 1.0),
        (Source::Temperature, 2.0),
    ]
    .map(|(source, half_width)| Input::within(source, half_width * dice.between(0.2, 1.0)));
    let at_12 = |plank: &Plank| {
        let measured = kg_per_m3(in_kg_per_m3(
            density_as_measured(&mut TraceOff, plank).ok()?,
        ));
        density_at_12(measured, moisture(&mut TraceOff, plank).ok()?).ok()
    };
    let of_volume = estimate(&plank, &inputs, |plank| volume(&mut TraceOff, plank).ok());
    let of_density = estimate(&plank, &inputs, |plank| {
        density_as_measured(&mut TraceOff, plank).ok()
    });
    let of_density_at_12 = estimate(&plank, &inputs, at_12);
    [
        asked("volume", of_volume, &inputs),
        asked("density", of_density, &inputs),
        asked("density_at_12", of_density_at_12, &inputs),
    ]
}

fn estimate<Q: Scalar>(
    plank: &Plank,
    inputs: &[Input<Source>],
    result: impl Fn(&Plank) -> Option<Q>,
) -> Value {
    let found = propagate(inputs, |moved| match moved {
        None => result(plank),
        Some((source, by)) => result(&plank.perturbed(source, by)),
    })
    .expect("a plank on which all was measured");
    let parts: serde_json::Map<String, Value> = found
        .parts
        .iter()
        .map(|(source, part)| (format!("{source:?}"), json!(part.raw())))
        .collect();
    json!({"value": found.value.raw(), "standard": found.standard.raw(), "parts": parts})
}
