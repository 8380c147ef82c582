//! Every parser of the core, fed with what no hand and no app would write.
//!
//! An input follows from the seed and its number alone, so that a failure can be seen again; a clock or
//! the machine's randomness never enters. What is asked of the parsers stands in `parsers`, what they
//! are fed with in `inputs`.

mod inputs;
mod parsers;

use crate::dice::Dice;
pub(crate) use inputs::Corpus;
use parsers::{PARSERS, Tried};
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

/// What came of all inputs of one parser.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Count {
    /// Inputs accepted, in whole or in part.
    pub accepted: u64,
    /// Inputs refused, with a reason.
    pub refused: u64,
}

/// Feeds the parsers in turn, on as many threads; panics, with the seed and the input, at the first that
/// is not as it should be. Returns the name and the count of each parser.
pub fn run(seed: u64, inputs: u64, threads: u64) -> Vec<(&'static str, Count)> {
    let corpus = Corpus::read();
    let next = AtomicU64::new(0);
    let work = || {
        let mut counts = vec![Count::default(); PARSERS.len()];
        loop {
            let from = next.fetch_add(BATCH, Ordering::Relaxed);
            if from >= inputs {
                return counts;
            }
            for number in from..inputs.min(from + BATCH) {
                let (parser, tried) = one(&corpus, seed, number);
                match tried {
                    Tried::Accepted => counts[parser].accepted += 1,
                    Tried::Refused => counts[parser].refused += 1,
                }
            }
        }
    };
    let mut all = vec![Count::default(); PARSERS.len()];
    thread::scope(|scope| {
        let workers: Vec<_> = (0..threads.max(1)).map(|_| scope.spawn(work)).collect();
        for worker in workers {
            for (sum, count) in all.iter_mut().zip(worker.join().expect("a parser failed")) {
                sum.accepted += count.accepted;
                sum.refused += count.refused;
            }
        }
    });
    let names = PARSERS.iter().map(|parser| parser.name);
    names.zip(all).collect()
}

const BATCH: u64 = 500;

fn one(corpus: &Corpus, seed: u64, number: u64) -> (usize, Tried) {
    let mut dice = Dice::of(seed, number);
    // A file takes a hundred times as long as a length: of its kind come fewer.
    let often: u64 = PARSERS.iter().map(|parser| parser.often).sum();
    let mut at = number % often;
    let mut which = 0;
    while at >= PARSERS[which].often {
        at -= PARSERS[which].often;
        which += 1;
    }
    let parser = &PARSERS[which];
    let input = (parser.input)(corpus, &mut dice);
    let found = std::panic::catch_unwind(|| (parser.check)(&input, Dice::of(seed, !number)));
    match found.unwrap_or_else(|_| Err("it panics".into())) {
        Ok(tried) => (which, tried),
        Err(why) => panic!(
            "{}, seed {seed}, input {number}: {why}\n{}",
            parser.name,
            input.escape_ascii()
        ),
    }
}
