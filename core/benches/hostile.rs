//! How long records of hostile shapes take, in a tenth of their size and in full: reading, merging, folding,
//! one more entry, and every question that a screen asks.
//!
//! `cargo bench --bench hostile -- [words] [N]` runs the shapes that hold a word, in an Nth of their size; with
//! `--test` every one of them once, in a thousandth. Of each question the least of a few runs counts, in time of
//! the processor, so that what else the machine does is left out; what would take minutes in full size is not run
//! there, and said so. A question whose full size takes more than 13 times its tenth, or over 2 s, is marked.

#[path = "hostile/processor.rs"]
mod processor;
#[path = "hostile/questions.rs"]
mod questions;

use processor::ProcessorTime;
use questions::{Asked, QUESTIONS};
use std::hint::black_box;
use std::time::Duration;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{Limits, Log, read};
use stillwood_tests::invented::hostile::{Hostile, SHAPES, Shape, one_id};

/// Memory as the app in the browser has it: what was freed is not given back to the system, and asked for again.
#[cfg(unix)]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

const LARGEST_RATIO: f64 = 13.0;
const LONGEST: Duration = Duration::from_secs(2);
/// Beneath this a ratio says nothing: both are done at once.
const AT_ONCE: Duration = Duration::from_millis(20);
/// A tenth that takes longer than this is not run in full size.
const TOO_LONG: Duration = Duration::from_millis(2500);
const MOST_RUNS: u32 = 5;
const ENOUGH: Duration = Duration::from_millis(600);
/// The part of the sizes that `--test` runs.
const SHORTEST: usize = 1000;

/// Bytes that drive everything else out of the processor's caches.
const LARGER_THAN_CACHES: usize = 64 << 20;

/// Leaves nothing of a record in the processor's caches. A maker asks once, of a record that lies in memory; a
/// tenth that fits into the caches would be found there, and the whole would seem to take longer than it does.
fn cool_down(filler: &mut [u8]) {
    for byte in filler.iter_mut().step_by(64) {
        *byte = byte.wrapping_add(1);
    }
    black_box(filler);
}

/// The least of a few runs, each in cold caches.
fn least(mut run: impl FnMut()) -> Duration {
    let mut filler = vec![0; LARGER_THAN_CACHES];
    let begun = ProcessorTime::now();
    let mut least = Duration::MAX;
    for _ in 0..MOST_RUNS {
        cool_down(&mut filler);
        let one = ProcessorTime::now();
        run();
        least = least.min(one.elapsed());
        if begun.elapsed() > ENOUGH {
            break;
        }
    }
    least
}

/// A record, and the times of what makes it.
struct Made {
    asked: Asked,
    times: Vec<(&'static str, Duration)>,
}

fn make(shape: Hostile) -> Made {
    let mut times = Vec::new();
    let mut whole = Log::new();
    // Once beforehand, for the memory that it takes from the system.
    Log::new().merge(shape.entries.clone());
    let copies = shape.entries.clone();
    times.push(("merge", timed_once(|| drop(whole.merge(copies)))));
    let file = whole.to_file("0.0.0", "");
    let limits = Limits::default();
    times.push((
        "read the file",
        least(|| drop(black_box(read(file.as_bytes(), &limits)))),
    ));
    let reading = read(file.as_bytes(), &limits).unwrap();
    assert!(
        reading.problems.is_empty(),
        "{:?}",
        reading.problems.first()
    );
    times.push(("fold", least(|| drop(black_box(State::project(&whole))))));
    let mut state = State::project(&whole);
    // One entry more, and the same folded anew: what it takes where it corrects something.
    let next = shape.next.clone();
    times.push(("append", timed_once(|| assert!(state.append(&next)))));
    whole.merge([shape.next]);
    let asked = Asked::new(whole, reading, state, shape.piece);
    Made { asked, times }
}

fn timed_once(run: impl FnOnce()) -> Duration {
    cool_down(&mut vec![0; LARGER_THAN_CACHES]);
    let begun = ProcessorTime::now();
    run();
    begun.elapsed()
}

fn told(time: Duration) -> String {
    format!("{:.1} ms", 1000.0 * time.as_secs_f64())
}

fn line(shape: &str, what: &str, tenth: Duration, full: Option<Duration>) {
    let Some(full) = full else {
        println!(
            "{shape:34} {what:30} {:>12} {:>12}   !! not run",
            told(tenth),
            ""
        );
        return;
    };
    let ratio = full.as_secs_f64() / tenth.as_secs_f64();
    let grows = ratio > LARGEST_RATIO && full > AT_ONCE;
    let mark = match grows || full > LONGEST {
        true => "!!",
        false => "",
    };
    println!(
        "{shape:34} {what:30} {:>12} {:>12} {ratio:7.1} {mark}",
        told(tenth),
        told(full)
    );
}

fn run(&(name, size, shape): &Shape, part: usize) {
    let size = (size / part).max(10);
    let tenth = make(shape(size / 10));
    let too_long = tenth.times.iter().any(|(_, time)| *time > TOO_LONG);
    let full = (!too_long).then(|| make(shape(size)));
    for (at, (what, time)) in tenth.times.iter().enumerate() {
        let in_full = full.as_ref().map(|full| full.times[at].1);
        line(name, what, *time, in_full);
    }
    for (what, ask) in QUESTIONS {
        let time = least(|| ask(black_box(&tenth.asked)));
        let full = full.as_ref().filter(|_| time < TOO_LONG);
        let in_full = full.map(|full| least(|| ask(black_box(&full.asked))));
        line(name, what, time, in_full);
    }
}

fn run_one_id(part: usize) {
    let of = |size: usize| {
        let file = one_id(size);
        let limits = Limits::default();
        let reading = read(file.as_bytes(), &limits).unwrap();
        let mut merged = Log::new();
        let times = [
            least(|| drop(black_box(read(file.as_bytes(), &limits)))),
            timed_once(|| drop(merged.merge(reading.accepted.clone()))),
            least(|| drop(black_box(State::project(&merged)))),
            least(|| drop(black_box(queries::preview(&Log::new(), &reading)))),
        ];
        println!("one id: {} bytes", file.len());
        times
    };
    let full = (8_000 / part).max(10);
    let (tenth, full) = (of(full / 10), of(full));
    for (at, what) in ["read the file", "merge", "fold", "preview"]
        .into_iter()
        .enumerate()
    {
        line("many entries under one id", what, tenth[at], Some(full[at]));
    }
}

fn main() {
    let (mut words, mut part) = (Vec::new(), 1);
    for word in std::env::args().skip(1) {
        match word.parse::<usize>() {
            Ok(number) => part = number.max(1),
            Err(_) if word == "--test" => part = SHORTEST,
            Err(_) if word.starts_with('-') => {}
            Err(_) => words.push(word),
        }
    }
    let wanted =
        |name: &str| words.is_empty() || words.iter().any(|word| name.contains(word.as_str()));
    println!(
        "{:34} {:30} {:>12} {:>12} {:>7}",
        "shape", "question", "a tenth", "full", "ratio"
    );
    if wanted("many entries under one id") {
        run_one_id(part);
    }
    for shape in SHAPES.iter().filter(|shape| wanted(shape.0)) {
        run(shape, part);
    }
}
