//! What is measured of a question: how long it takes, or how many instructions.

use super::processor::ProcessorTime;
use super::steps::Counter;
use std::collections::BTreeSet;
use std::hint::black_box;
use std::time::Duration;

const MOST_RUNS: u32 = 5;
const ENOUGH: Duration = Duration::from_millis(600);

/// Bytes that drive everything else out of the processor's caches.
const LARGER_THAN_CACHES: usize = 64 << 20;

/// Of each question its nanoseconds or its instructions.
pub(crate) type Figures = Vec<(&'static str, u64)>;

enum Kind {
    /// In cold caches: a maker asks once, of a record that lies in memory.
    Time {
        skipped: BTreeSet<&'static str>,
        filler: Vec<u8>,
    },
    Steps {
        counter: Counter,
        wanted: BTreeSet<String>,
    },
}

/// Measures one question after the other.
pub(crate) struct Measure {
    kind: Kind,
    pub(crate) found: Figures,
}

fn timed(filler: &mut [u8], run: impl FnOnce()) -> Duration {
    for byte in filler.iter_mut().step_by(64) {
        *byte = byte.wrapping_add(1);
    }
    black_box(filler);
    let begun = ProcessorTime::now();
    run();
    begun.elapsed()
}

fn nanoseconds(time: Duration) -> u64 {
    u64::try_from(time.as_nanos()).expect("no question takes centuries")
}

impl Measure {
    /// How long all take but some.
    pub(crate) fn time(skipped: BTreeSet<&'static str>) -> Self {
        let filler = vec![0; LARGER_THAN_CACHES];
        Self {
            kind: Kind::Time { skipped, filler },
            found: Vec::new(),
        }
    }

    /// How many instructions some take.
    pub(crate) fn steps(counter: Counter, wanted: BTreeSet<String>) -> Self {
        Self {
            kind: Kind::Steps { counter, wanted },
            found: Vec::new(),
        }
    }

    /// What can be asked again and again: the least of a few times.
    pub(crate) fn least(&mut self, what: &'static str, mut run: impl FnMut()) {
        let found = match &mut self.kind {
            Kind::Time { skipped, .. } if skipped.contains(what) => return,
            Kind::Time { filler, .. } => {
                let mut least = Duration::MAX;
                let mut all = Duration::ZERO;
                for _ in 0..MOST_RUNS {
                    let one = timed(filler, &mut run);
                    least = least.min(one);
                    all += one;
                    if all > ENOUGH {
                        break;
                    }
                }
                nanoseconds(least)
            }
            Kind::Steps { wanted, .. } if !wanted.contains(what) => return,
            Kind::Steps { counter, .. } => {
                // What is kept until the record changes is kept then, as it is where times are measured.
                run();
                counter.of(run)
            }
        };
        self.found.push((what, found));
    }

    /// What can be done only once, and has to be.
    pub(crate) fn once(&mut self, what: &'static str, run: impl FnOnce()) {
        let found = match &mut self.kind {
            Kind::Time { filler, .. } => nanoseconds(timed(filler, run)),
            Kind::Steps { counter, wanted } if wanted.contains(what) => counter.of(run),
            Kind::Steps { .. } => return run(),
        };
        self.found.push((what, found));
    }
}
