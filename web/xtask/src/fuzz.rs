//! `fuzz`: feeds every parser of the core with as many damaged inputs as are wanted.

use anyhow::Result;
use lexopt::ValueExt;

use crate::command::{cargo, run};

/// What is run when no number is given.
const INPUTS: u64 = 10_000_000;

/// `cargo xtask fuzz`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let (mut inputs, mut seed) = (INPUTS, 1_u64);
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("inputs") => inputs = words.value()?.parse()?,
            lexopt::Arg::Long("seed") => seed = words.value()?.parse()?,
            other => return Err(other.unexpected().into()),
        }
    }
    // A profile of its own: fast, and every overflow is an error.
    let mut fuzz = cargo();
    fuzz.args(["run", "--profile", "fuzz", "--package", "stillwood-tests"]);
    fuzz.args(["--bin", "fuzz", "--"]);
    run(fuzz.args([inputs.to_string(), seed.to_string()]))
}
