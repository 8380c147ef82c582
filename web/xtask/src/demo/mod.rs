//! `demo`: the invented scenario that the app opens, made from its table of planks.

mod air;
mod bench;
mod first_wood;
mod phone;
mod row;
mod saw;
mod seasons;
mod story;
mod summary;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod workshop_tests;
mod yards;

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use stillwood_core::record::{Entry, Header, Selection, write};

use crate::place;

/// What a hand typed for each plank.
const TABLE: &str = "demo-data/two-yards.csv";
const NOTEBOOK: &str = "demo-data/two-yards.json";

/// `cargo xtask demo`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut summary = false;
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("summary") => summary = true,
            other => return Err(other.unexpected().into()),
        }
    }
    let entries = entries()?;
    if summary {
        print!("{}", summary::of(&entries));
        return Ok(());
    }
    let text = log(&entries);
    let path = file(NOTEBOOK);
    fs::write(&path, &text).with_context(|| format!("cannot write {NOTEBOOK}"))?;
    println!(
        "{NOTEBOOK}: {} entries, {} bytes",
        entries.len(),
        text.len()
    );
    Ok(())
}

fn entries() -> Result<Vec<Entry>> {
    let table = read(TABLE)?;
    let rows = row::rows(&table)?;
    if rows.is_empty() {
        bail!("{TABLE} holds no plank");
    }
    let (first, last_mark) = story::tell_first(&rows)?;
    seasons::tell(first, last_mark, story::tell(&rows)?)
}

/// The file, byte for byte the same whenever and wherever it is made.
fn log(entries: &[Entry]) -> String {
    let header = Header::new("0.1.0", "2026-11-20T18:30:00+01:00", Selection::Whole);
    write(&header, entries)
}

fn file(name: &str) -> PathBuf {
    place::root().join(Path::new(name))
}

fn read(name: &str) -> Result<String> {
    fs::read_to_string(file(name)).with_context(|| format!("cannot read {name}"))
}
