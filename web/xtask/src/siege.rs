//! `siege`: kills, wiped stores, full disks, hostile files, three tabs and wild clocks against the built
//! app, held against what it had said was saved.

use anyhow::{Context, Result};
use lexopt::ValueExt;
use std::env;
use std::process::Command;

use crate::command::{cargo, run};
use crate::place;
use crate::{build, tools};

/// How long it goes on in the test command.
pub(crate) const TEST_SECONDS: u64 = 60;

/// `cargo xtask siege`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut no_build = false;
    let mut seconds = 10 * 60;
    let mut rest = vec!["--seed".to_owned(), "1".to_owned()];
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("no-build") => no_build = true,
            lexopt::Arg::Long("minutes") => seconds = 60 * words.value()?.parse::<u64>()?,
            lexopt::Arg::Long(name @ ("seed" | "round" | "kind")) => {
                let name = format!("--{name}");
                rest.extend([name, words.value()?.string()?]);
            }
            other => return Err(other.unexpected().into()),
        }
    }
    build::ensure(no_build)?;
    run(besieged(seconds)?.args(rest))
}

/// The siege as it is called, with all it needs to know.
pub(crate) fn besieged(seconds: u64) -> Result<Command> {
    let this = env::current_exe().context("this tool does not know where it lies")?;
    let mut siege = cargo();
    siege.args(["run", "--package", "stillwood-tests"]);
    siege.args(["--features", "browser", "--bin", "siege"]);
    siege.env("STILLWOOD_DIST", place::dist());
    siege.env("STILLWOOD_XTASK", this);
    siege.env("CHROMEDRIVER", tools::driver()?);
    siege.args(["--", "--seconds", &seconds.to_string()]);
    Ok(siege)
}
