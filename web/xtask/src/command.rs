//! Running other programs: started in the repository, with a plain word when they fail.

use std::env;
use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

use crate::place;

/// The cargo that started this tool.
pub(crate) fn cargo() -> Command {
    in_root(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// A program to be started at the top of the repository.
pub(crate) fn in_root(program: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(program);
    command.current_dir(place::root());
    command
}

/// Runs it to its end; what it prints goes to the terminal.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| unstarted(command))?;
    if !status.success() {
        bail!("{} failed ({status})", shown(command));
    }
    Ok(())
}

/// Runs it to its end and returns what it printed.
pub(crate) fn output(command: &mut Command) -> Result<String> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .with_context(|| unstarted(command))?;
    if !output.status.success() {
        bail!("{} failed ({})", shown(command), output.status);
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// Runs cargo's test command to its end, shows what it prints and returns how many tests passed.
pub(crate) fn count_tests(command: &mut Command) -> Result<u64> {
    let mut child = command
        .stdout(Stdio::piped())
        .spawn()
        .with_context(|| unstarted(command))?;
    let mut passed = 0;
    if let Some(stdout) = child.stdout.take() {
        for line in BufReader::new(stdout).split(b'\n') {
            let line = line.context("its output broke off")?;
            let line = String::from_utf8_lossy(&line);
            println!("{line}");
            passed += passed_in(&line);
        }
    }
    let status = child.wait().context("it was lost sight of")?;
    if !status.success() {
        bail!("{} failed ({status})", shown(command));
    }
    Ok(passed)
}

/// The count in a line such as `test result: ok. 12 passed; 0 failed; ...`; else nought.
fn passed_in(line: &str) -> u64 {
    line.split_once("test result: ok. ")
        .and_then(|(_, rest)| rest.split_once(" passed"))
        .and_then(|(count, _)| count.trim().parse().ok())
        .unwrap_or(0)
}

/// Where a program lies on the PATH.
pub(crate) fn find(name: &str) -> Option<PathBuf> {
    let name = format!("{name}{}", env::consts::EXE_SUFFIX);
    let path = env::var_os("PATH")?;
    env::split_paths(&path)
        .map(|folder| folder.join(&name))
        .find(|file| file.is_file())
}

fn unstarted(command: &Command) -> String {
    format!("{} could not be started", shown(command))
}

fn shown(command: &Command) -> String {
    let program = PathBuf::from(command.get_program());
    let mut text = format!("`{}", program.file_stem().unwrap_or_default().display());
    for word in command.get_args() {
        text.push(' ');
        text.push_str(&word.to_string_lossy());
    }
    text.push('`');
    text
}

#[cfg(test)]
mod tests {
    use super::passed_in;

    #[test]
    fn counts_only_results_that_are_ok() {
        assert_eq!(
            passed_in("test result: ok. 12 passed; 0 failed; 1 ignored"),
            12
        );
        assert_eq!(passed_in("test result: FAILED. 12 passed; 1 failed"), 0);
        assert_eq!(passed_in("test wood::oak ... ok"), 0);
    }
}
