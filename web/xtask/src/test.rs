//! `test`: every check there is, in order, stopping at the first that fails.

use std::env;
use std::fs;
use std::num::NonZero;
use std::process::Command;
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};
use lexopt::ValueExt;

use crate::command::{cargo, count_tests, run};
use crate::place::{self, Workspace};
use crate::{bench, build, checks, ladder, licences, reference, siege, tidy, tools, wasm};

/// One check. It returns how many tests it ran, where it runs any.
struct Part {
    name: &'static str,
    what: &'static str,
    check: fn() -> Result<Option<u64>>,
}

const PARTS: [Part; 16] = [
    Part {
        name: "fmt",
        what: "every file is as rustfmt writes it",
        check: fmt,
    },
    Part {
        name: "tidy",
        what: "the rules of the house",
        check: tidy_up,
    },
    Part {
        name: "ladder",
        what: "no file uses what stands higher, and no files use each other in a circle",
        check: laddered,
    },
    Part {
        name: "licences",
        what: "every crate's licence, and none in the app twice",
        check: licensed,
    },
    Part {
        name: "checks",
        what: "every formula held against published values",
        check: checked,
    },
    Part {
        name: "clippy",
        what: "no lint on this machine's code",
        check: clippy,
    },
    Part {
        name: "clippy-wasm",
        what: "no lint on the browser's code",
        check: clippy_wasm,
    },
    Part {
        name: "tests",
        what: "the core, the published world, this tool",
        check: tests,
    },
    Part {
        name: "doc-tests",
        what: "the examples in the core's pages",
        check: doc_tests,
    },
    Part {
        name: "benches",
        what: "every bench runs to its end, once and in its shortest form",
        check: benches,
    },
    Part {
        name: "reference",
        what: "the core's numbers against general-purpose libraries",
        check: second_opinion,
    },
    Part {
        name: "wasm-tests",
        what: "the browser's code inside a browser",
        check: wasm_tests,
    },
    Part {
        name: "build",
        what: "the app, within its size",
        check: build_app,
    },
    Part {
        name: "browser-tests",
        what: "the built app in a browser",
        check: browser_tests,
    },
    Part {
        name: "browser-benches",
        what: "every bench in a browser runs to its end, in its shortest form",
        check: browser_benches,
    },
    Part {
        name: "siege",
        what: "nothing acknowledged is lost, for a minute",
        check: besieged,
    },
];

enum End {
    Passed(Option<u64>, Duration),
    Failed(Duration),
    NotRun,
}

/// `cargo xtask test`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut only: Option<Vec<String>> = None;
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("only") => {
                let names = words.value()?.string()?;
                only = Some(
                    names
                        .split(',')
                        .map(|name| name.trim().to_owned())
                        .collect(),
                );
            }
            lexopt::Arg::Long("list") => {
                for part in PARTS.iter() {
                    println!("{:<14} {}", part.name, part.what);
                }
                return Ok(());
            }
            other => return Err(other.unexpected().into()),
        }
    }
    for name in only.iter().flatten() {
        if !PARTS.iter().any(|part| part.name == name) {
            bail!("no part \"{name}\"; `cargo xtask test --list` names them");
        }
    }
    let asked = |part: &&Part| match &only {
        Some(names) => names.iter().any(|name| name == part.name),
        None => true,
    };
    run_parts(&PARTS.iter().filter(asked).collect::<Vec<_>>())
}

fn run_parts(parts: &[&Part]) -> Result<()> {
    // What is missing should be known before the long parts, not after them.
    if parts
        .iter()
        .any(|part| part.name.contains("browser") || matches!(part.name, "wasm-tests" | "siege"))
    {
        tools::driver()?;
    }
    if parts.iter().any(|part| part.name == "browser-tests") {
        tools::engines()?;
        tools::axe()?;
    }
    if parts.iter().any(|part| part.name == "reference") {
        reference::ready()?;
    }
    if parts
        .iter()
        .any(|part| part.name.contains("wasm") || part.name == "build")
    {
        wasm::ensure_target()?;
    }
    let mut ends = Vec::new();
    let mut failure = None;
    for part in parts {
        if failure.is_some() {
            ends.push(End::NotRun);
            continue;
        }
        println!("\n== {}: {}", part.name, part.what);
        let start = Instant::now();
        match (part.check)() {
            Ok(count) => ends.push(End::Passed(count, start.elapsed())),
            Err(error) => {
                ends.push(End::Failed(start.elapsed()));
                failure = Some(error.context(part.name));
            }
        }
    }
    report(parts, &ends);
    match failure {
        Some(error) => Err(error),
        None => Ok(()),
    }
}

fn report(parts: &[&Part], ends: &[End]) {
    let (mut passed, mut failed, mut not_run) = (0, 0, 0);
    println!();
    for (part, end) in parts.iter().zip(ends) {
        let name = part.name;
        match end {
            End::Passed(count, time) => {
                passed += 1;
                let count = count
                    .map(|count| format!(", {count} tests"))
                    .unwrap_or_default();
                println!("{name:<14} passed in {} s{count}", time.as_secs());
            }
            End::Failed(time) => {
                failed += 1;
                println!("{name:<14} FAILED after {} s", time.as_secs());
            }
            End::NotRun => {
                not_run += 1;
                println!("{name:<14} did not run");
            }
        }
    }
    if parts.len() < PARTS.len() {
        println!("{} of {} parts were asked for", parts.len(), PARTS.len());
    }
    if not_run > 0 {
        println!("{passed} passed, {failed} failed, {not_run} did not run");
    } else {
        println!("{passed} passed, {failed} failed");
    }
}

fn fmt() -> Result<Option<u64>> {
    run(cargo().args(["fmt", "--all", "--check"])).context("`cargo fmt --all` mends it")?;
    Ok(None)
}

fn tidy_up() -> Result<Option<u64>> {
    tidy::check(&place::root())?;
    Ok(None)
}

fn laddered() -> Result<Option<u64>> {
    ladder::check(&place::root())?;
    Ok(None)
}

fn licensed() -> Result<Option<u64>> {
    licences::check()?;
    Ok(None)
}

fn checked() -> Result<Option<u64>> {
    checks::report(false)?;
    Ok(None)
}

fn clippy() -> Result<Option<u64>> {
    let mut clippy = cargo();
    // The app's crate is looked at for the browser, next: here it would cost a second compilation.
    clippy.args(["clippy", "--workspace", "--exclude", "stillwood-web"]);
    clippy.arg("--all-targets");
    clippy.args(["--features", "stillwood-tests/browser"]);
    run(clippy.args(["--", "-D", "warnings"]))?;
    Ok(None)
}

fn clippy_wasm() -> Result<Option<u64>> {
    let mut clippy = cargo();
    clippy.args(["clippy", "--package", "stillwood-web", "--all-targets"]);
    clippy.args(["--target", wasm::TARGET, "--", "-D", "warnings"]);
    run(&mut clippy)?;
    Ok(None)
}

fn tests() -> Result<Option<u64>> {
    let mut test = native_tests();
    some(count_tests(test.args(["--lib", "--bins", "--tests"]))?)
}

fn doc_tests() -> Result<Option<u64>> {
    Ok(Some(count_tests(native_tests().arg("--doc"))?))
}

/// In the tests' profile, not the benches' own: what is asked is whether they run, not how long.
fn benches() -> Result<Option<u64>> {
    let mut test = cargo();
    test.args(["test", "--package", "stillwood-core"]);
    let benches = Workspace::read()?.targets("stillwood-core", "bench");
    for name in &benches {
        test.args(["--bench", name]);
    }
    run(test.args(["--", "--test"]))?;
    some(benches.len() as u64)
}

fn second_opinion() -> Result<Option<u64>> {
    reference::check()?;
    Ok(None)
}

/// The same packages for both, so that what they depend on is compiled once. (Only the core has
/// examples in its pages.)
fn native_tests() -> Command {
    let mut test = cargo();
    test.arg("test");
    for package in [
        "stillwood-core",
        "stillwood-app",
        "stillwood-tests",
        "xtask",
    ] {
        test.args(["--package", package]);
    }
    test
}

fn wasm_tests() -> Result<Option<u64>> {
    let driver = tools::driver()?;
    let mut build = cargo();
    build.args(["build", "--package", "xtask", "--bin", "wasm-test-runner"]);
    run(build.args(["--features", "wasm-test-runner"]))?;
    let name = format!("wasm-test-runner{}", env::consts::EXE_SUFFIX);
    let runner = Workspace::read()?.target()?.join("debug").join(name);
    let runner = serde_json::to_string(&[runner]).context("the runner's path")?;

    let mut test = cargo();
    test.args([
        "test",
        "--package",
        "stillwood-web",
        "--target",
        wasm::TARGET,
    ]);
    test.args([
        "--config",
        &format!("target.{}.runner={runner}", wasm::TARGET),
    ]);
    // Which browser, where its flags are, and patience for a slow machine.
    test.env_remove("GECKODRIVER").env("CHROMEDRIVER", driver);
    test.env("WASM_BINDGEN_USE_BROWSER", "1");
    test.env(
        "WASM_BINDGEN_TEST_WEBDRIVER_JSON",
        place::root().join("web/webdriver.json"),
    );
    test.env("WASM_BINDGEN_TEST_TIMEOUT", "120");
    test.env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "30");
    some(count_tests(&mut test)?)
}

fn build_app() -> Result<Option<u64>> {
    // The size is told, not judged here: it is a goal, shown with the other figures.
    build::build(build::Options::default())?;
    Ok(None)
}

fn browser_tests() -> Result<Option<u64>> {
    build::ensure(true)?;
    let mut test = browser_test_command()?;
    test.env("STILLWOOD_AXE", tools::axe()?);
    let engines = tools::engines()?;
    test.env("GECKODRIVER", engines.geckodriver);
    test.env("WEBKIT_DRIVER", engines.webkit_driver);
    test.env("WEBKIT_BROWSER", engines.webkit_browser);
    let skipped = Workspace::read()?.target()?.join("skipped.txt");
    fs::write(&skipped, "").context("no list of what is skipped")?;
    test.env("STILLWOOD_SKIPPED", &skipped);
    // What holds the siege to its word is tested in the library.
    test.args(["--lib", "--test", "browser", "--", "--test-threads"]);
    test.arg(browsers_at_a_time().to_string());
    let count = some(count_tests(&mut test)?)?;
    let skipped = fs::read_to_string(&skipped).context("the list of what is skipped is gone")?;
    println!(
        "skipped for what an engine lacks: {}",
        skipped.lines().count()
    );
    skipped.lines().for_each(|line| println!("  {line}"));
    Ok(count)
}

/// As many as the machine has cores.
fn browsers_at_a_time() -> usize {
    thread::available_parallelism().map_or(1, NonZero::get)
}

fn browser_benches() -> Result<Option<u64>> {
    build::ensure(true)?;
    let mut test = bench::in_browser()?;
    test.env("STILLWOOD_BENCH_SHORTEST", "1");
    Ok(Some(count_tests(&mut test)?))
}

fn besieged() -> Result<Option<u64>> {
    build::ensure(true)?;
    run(&mut siege::besieged(siege::TEST_SECONDS)?)?;
    Ok(None)
}

/// cargo's test command for what drives the built app in a browser, with all it needs to know: the
/// built app, this tool to serve it with, and the driver.
pub(crate) fn browser_test_command() -> Result<Command> {
    let this = env::current_exe().context("this tool does not know where it lies")?;
    let mut test = cargo();
    test.args([
        "test",
        "--package",
        "stillwood-tests",
        "--features",
        "browser",
    ]);
    test.env("STILLWOOD_DIST", place::dist());
    test.env("STILLWOOD_XTASK", this);
    test.env("CHROMEDRIVER", tools::driver()?);
    Ok(test)
}

/// A part in which no test ran has shown nothing.
fn some(count: u64) -> Result<Option<u64>> {
    if count == 0 {
        bail!("no test ran");
    }
    Ok(Some(count))
}
