//! `reference`: the core's results for many inputs against general-purpose libraries, which work the
//! same out by their own ways. Their numbers are worked out here, never kept.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::command::{cargo, find, in_root, output, run};
use crate::place::{self, Workspace};
use crate::tools;

/// How many inputs of each kind, and where they start.
const COUNT: &str = "500";
const SEED: &str = "1";

/// Asks the core, then the libraries; how many of its results they share.
pub(crate) fn check() -> Result<()> {
    let python = ready()?;
    let here = place::root().join("tests/reference");
    let folder = Workspace::read()?.target()?.join("reference");
    let mut ask = cargo();
    ask.args(["run", "--quiet", "--package", "stillwood-tests"]);
    ask.args(["--bin", "second_opinion", "--", COUNT, SEED]);
    let asked = folder.join("asked.jsonl");
    let lines = output(&mut ask)?;
    fs::write(&asked, lines).with_context(|| format!("cannot write {}", asked.display()))?;
    let asked = File::open(&asked).with_context(|| format!("cannot read {}", asked.display()))?;
    run(in_root(python)
        .arg(here.join("second_opinion.py"))
        .stdin(asked))
}

/// The Python that is asked, made ready where it is not.
pub(crate) fn ready() -> Result<PathBuf> {
    let folder = Workspace::read()?.target()?.join("reference");
    python(
        &folder,
        &place::root().join("tests/reference/requirements.txt"),
    )
}

/// The Python that has the libraries: an environment of its own below the target folder, made when it is
/// missing or the list of libraries has changed.
fn python(folder: &Path, wanted: &Path) -> Result<PathBuf> {
    let python = folder.join(if cfg!(windows) {
        "Scripts/python.exe"
    } else {
        "bin/python"
    });
    let installed = folder.join("installed.txt");
    let list = fs::read(wanted).with_context(|| format!("cannot read {}", wanted.display()))?;
    if python.is_file() && fs::read(&installed).is_ok_and(|found| found == list) {
        return Ok(python);
    }
    println!("The libraries for a second opinion are missing: pip fetches them.");
    environment(folder)?;
    let mut pip = in_root(&python);
    pip.args(["-m", "pip", "install", "--quiet"]);
    pip.args(["--disable-pip-version-check", "--no-input"]);
    run(pip.arg("--requirement").arg(wanted)).context("the libraries could not be fetched")?;
    fs::write(&installed, list).with_context(|| format!("cannot write {}", installed.display()))?;
    Ok(python)
}

fn environment(folder: &Path) -> Result<()> {
    let make = || -> Result<()> {
        let mut venv = in_root("python3");
        run(venv.args(["-m", "venv", "--clear"]).arg(folder))
    };
    if find("python3").is_some() && make().is_ok() {
        return Ok(());
    }
    if !tools::apt_install(&["python3", "python3-venv"])? {
        bail!(
            "a second opinion on the numbers needs Python 3.11 or newer with its venv. On Debian, as \
             root:\n\n    apt-get update && apt-get install -y python3 python3-venv\n\n\
             Elsewhere install Python, so that `python3` is on the PATH"
        );
    }
    make().context("python3-venv was installed, but no environment can be made")
}
