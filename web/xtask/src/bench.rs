//! `bench`: how fast the core is, then how fast the built app is in a browser.

use anyhow::Result;
use std::process::Command;

use crate::command::{cargo, run};
use crate::place::Workspace;
use crate::{build, test};

const BROWSER_BENCH: &str = "bench_browser";

/// `cargo xtask bench`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    if let Some(word) = words.next()? {
        return Err(word.unexpected().into());
    }
    let workspace = Workspace::read()?;
    bench_core(&workspace)?;
    build::build(build::Options::default())?;
    run(&mut in_browser()?)
}

/// Criterion's benches, each by name: cargo's own choice would run the unit tests among them.
fn bench_core(workspace: &Workspace) -> Result<()> {
    let benches = workspace.targets("stillwood-core", "bench");
    let mut bench = cargo();
    bench.args(["bench", "--package", "stillwood-core"]);
    for name in benches {
        bench.args(["--bench", &name]);
    }
    run(&mut bench)
}

/// The built app, timed from outside: tests that are ignored unless asked for.
pub(crate) fn in_browser() -> Result<Command> {
    let mut test = test::browser_test_command()?;
    // One after another: each wants the machine for itself.
    test.args(["--test", BROWSER_BENCH, "--", "--nocapture", "--ignored"]);
    test.arg("--test-threads=1");
    Ok(test)
}
