//! How records of hostile shapes are coped with, in a tenth of their size and in full: reading, merging, folding,
//! one more entry, and every question that a screen asks.
//!
//! `cargo bench --bench hostile -- [words] [N]` runs the shapes that hold a word, in an Nth of their size; with
//! `--test` every one of them once, in a thousandth.
//!
//! **How long** a question takes is the least of a few runs, each in cold caches, in time of the processor, so that
//! what else the machine does is left out. Over 2 s in full size it takes too long; what would take minutes there is
//! not run, and said so.
//!
//! **How it grows** is how much more the full size takes than its tenth: at most 13 times, which leaves room for the
//! logarithm of a sort and for none beside it. A time says less about that than it seems to: a tenth is found again in
//! the processor's caches after its first touch, the whole is fetched from memory each time, and by that alone takes
//! up to three times as long an entry. Where the times grow by more than 13, the instructions of both sizes are
//! counted, which no cache and no other program changes, and their ratio decides; a question whose time grows within
//! 13 is not counted. Without valgrind, and with `--test`, nothing is counted, and the time decides.

#[path = "hostile/measure.rs"]
mod measure;
#[path = "hostile/processor.rs"]
mod processor;
#[path = "hostile/questions.rs"]
mod questions;
#[path = "hostile/steps.rs"]
mod steps;

use measure::{Figures, Measure};
use questions::{Asked, QUESTIONS};
use std::collections::{BTreeMap, BTreeSet};
use std::hint::black_box;
use std::path::Path;
use std::time::Duration;
use steps::Counter;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{Limits, Log, read};
use stillwood_tests::invented::hostile::{Hostile, SHAPES, one_id};

/// Memory as the app in the browser has it: what was freed is not given back to the system, and asked for again.
#[cfg(unix)]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

const LARGEST_RATIO: f64 = 13.0;
const LONGEST: Duration = Duration::from_secs(2);
/// A tenth that takes longer than this is not run in full size.
const TOO_LONG: Duration = Duration::from_millis(2500);
/// The part of the sizes that `--test` runs.
const SHORTEST: usize = 1000;

/// The shape that is a file, and no record.
const ONE_ID: &str = "many entries under one id";
const ONE_ID_SIZE: usize = 8_000;

/// Reads, merges and folds the record of a shape, and asks of it what a screen asks.
fn measure_record(shape: Hostile, measure: &mut Measure) {
    let mut whole = Log::new();
    // Once beforehand, for the memory that it takes from the system.
    Log::new().merge(shape.entries.clone());
    let copies = shape.entries.clone();
    measure.once("merge", || drop(whole.merge(copies)));
    let file = whole.to_file("0.0.0", "");
    let limits = Limits::default();
    measure.least("read the file", || {
        drop(black_box(read(file.as_bytes(), &limits)));
    });
    let reading = read(file.as_bytes(), &limits).unwrap();
    assert!(
        reading.problems.is_empty(),
        "{:?}",
        reading.problems.first()
    );
    measure.least("fold", || drop(black_box(State::project(&whole))));
    let mut state = State::project(&whole);
    // One entry more, and the same folded anew: what it takes where it corrects something.
    let next = shape.next.clone();
    measure.once("append", || assert!(state.append(&next)));
    whole.merge([shape.next]);
    let asked = Asked::new(whole, reading, state, shape.piece);
    for (what, ask) in QUESTIONS {
        measure.least(what, || ask(black_box(&asked)));
    }
}

/// Reads, merges and folds a file of so many entries under one id.
fn measure_one_id(size: usize, measure: &mut Measure) {
    let file = one_id(size);
    let limits = Limits::default();
    let reading = read(file.as_bytes(), &limits).unwrap();
    let mut merged = Log::new();
    measure.least("read the file", || {
        drop(black_box(read(file.as_bytes(), &limits)));
    });
    let copies = reading.accepted.clone();
    measure.once("merge", || drop(merged.merge(copies)));
    measure.least("fold", || drop(black_box(State::project(&merged))));
    measure.least("preview", || {
        drop(black_box(queries::preview(&Log::new(), &reading)));
    });
}

fn measure_shape(shape: &str, size: usize, measure: &mut Measure) {
    match SHAPES.iter().find(|(name, ..)| *name == shape) {
        Some((_, _, make)) => measure_record(make(size), measure),
        None => measure_one_id(size, measure),
    }
}

fn timed(shape: &str, size: usize, skipped: BTreeSet<&'static str>) -> Figures {
    let mut measure = Measure::time(skipped);
    measure_shape(shape, size, &mut measure);
    measure.found
}

/// How questions did.
#[derive(Default)]
struct Tally {
    asked: usize,
    within: usize,
    counted: usize,
    too_long: usize,
}

fn told(nanoseconds: u64) -> String {
    format!("{:.1} ms", nanoseconds as f64 / 1e6)
}

fn growth(tenth: u64, full: u64) -> f64 {
    full as f64 / tenth.max(1) as f64
}

/// What the instructions say of those questions whose times grow by too much.
fn growth_of_steps(shape: &str, size: usize, which: &[&str]) -> BTreeMap<String, f64> {
    if which.is_empty() {
        return BTreeMap::new();
    }
    let tenth = steps::count(shape, size / 10, which);
    let full = steps::count(shape, size, which);
    let both = full.into_iter().filter_map(|(what, full)| {
        let tenth = tenth.get(&what)?;
        Some((what, growth(*tenth, full)))
    });
    both.collect()
}

/// Measures a shape in both sizes, and says of each question how it did.
fn compare(shape: &str, size: usize, counting: bool, tally: &mut Tally) {
    let tenth = timed(shape, size / 10, BTreeSet::new());
    let too_long = |(_, time): &(&'static str, u64)| Duration::from_nanos(*time) > TOO_LONG;
    let skipped = tenth.iter().copied().filter(too_long);
    let skipped: BTreeSet<&'static str> = skipped.map(|(what, _)| what).collect();
    let full: BTreeMap<&str, u64> = timed(shape, size, skipped).into_iter().collect();
    let in_time = |what: &str, tenth: u64| {
        let full = full.get(what)?;
        Some(growth(tenth, *full))
    };
    let grow = tenth
        .iter()
        .filter(|(what, time)| in_time(what, *time).is_some_and(|ratio| ratio > LARGEST_RATIO));
    let grow: Vec<&str> = grow.map(|(what, _)| *what).collect();
    let in_steps = match counting {
        true => growth_of_steps(shape, size, &grow),
        false => BTreeMap::new(),
    };
    for (what, tenth) in tenth {
        tally.asked += 1;
        let Some(&in_full) = full.get(what) else {
            tally.too_long += 1;
            println!(
                "{shape:34} {what:38} {:>10}    not run: TOO LONG",
                told(tenth)
            );
            continue;
        };
        let (ratio, counted) = (growth(tenth, in_full), in_steps.get(what));
        let within = counted.copied().unwrap_or(ratio) <= LARGEST_RATIO;
        let too_long = Duration::from_nanos(in_full) > LONGEST;
        tally.within += usize::from(within);
        tally.counted += usize::from(within && counted.is_some());
        tally.too_long += usize::from(too_long);
        let verdict = match (within, too_long) {
            (true, false) => "within",
            (false, false) => "GROWS",
            (true, true) => "TOO LONG",
            (false, true) => "GROWS, TOO LONG",
        };
        let counted = counted.map(|counted| format!("{counted:.1}"));
        println!(
            "{shape:34} {what:38} {:>10} {:>10} {ratio:6.1} {:>6} {verdict}",
            told(tenth),
            told(in_full),
            counted.unwrap_or_default(),
        );
    }
}

/// Counts the instructions of some questions: the part of the bench that runs under valgrind.
fn count(words: &[String]) {
    let [folder, shape, size, questions @ ..] = words else {
        panic!("a folder, a shape, its size and questions: {words:?}");
    };
    let counter = Counter::new(Path::new(folder));
    let mut measure = Measure::steps(counter, questions.iter().cloned().collect());
    measure_shape(shape, size.parse().expect("a size"), &mut measure);
    for (what, steps) in measure.found {
        println!("{what}\t{steps}");
    }
}

fn main() {
    let (mut words, mut part) = (Vec::new(), 1);
    let mut given = std::env::args().skip(1);
    while let Some(word) = given.next() {
        match word.parse::<usize>() {
            _ if word == steps::COUNT => return count(&given.collect::<Vec<_>>()),
            Ok(number) => part = number.max(1),
            Err(_) if word == "--test" => part = SHORTEST,
            Err(_) if word.starts_with('-') => {}
            Err(_) => words.push(word),
        }
    }
    let wanted =
        |name: &str| words.is_empty() || words.iter().any(|word| name.contains(word.as_str()));
    let of_size = |size: usize| (size / part).max(10);
    println!(
        "{:34} {:38} {:>10} {:>10} {:>6} {:>6}",
        "shape", "question", "a tenth", "full", "time", "steps"
    );
    let counting = part < SHORTEST && steps::can_be_counted();
    if !counting {
        println!("Nothing is counted, and the time decides.");
    }
    let mut tally = Tally::default();
    if wanted(ONE_ID) {
        compare(ONE_ID, of_size(ONE_ID_SIZE), counting, &mut tally);
    }
    for &(name, size, _) in SHAPES.iter().filter(|(name, ..)| wanted(name)) {
        compare(name, of_size(size), counting, &mut tally);
    }
    let Tally {
        asked,
        within,
        counted,
        too_long,
    } = tally;
    println!(
        "{within} of {asked} within {LARGEST_RATIO}, {counted} of them by their instructions; {too_long} over {} s",
        LONGEST.as_secs()
    );
}
