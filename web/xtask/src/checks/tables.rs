//! The published values: each with the formula that has to give it, and whether it was read.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

/// A table that is a grid of values of one formula, all of them read, with its source in the test that
/// checks it.
const GRIDS: [(&str, &str); 1] = [("emc_table.csv", "emc")];

#[derive(Debug, PartialEq)]
pub(super) struct Value {
    /// The formula: the first word of the row's column.
    pub(super) formula: String,
    /// Whether it was read; otherwise it is from memory, or worked out.
    pub(super) read: bool,
}

pub(super) fn values(folder: &Path) -> Result<Vec<Value>> {
    let cannot = || format!("cannot read {}", folder.display());
    let mut values = Vec::new();
    for entry in fs::read_dir(folder).with_context(cannot)? {
        let path = entry.with_context(cannot)?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if !name.ends_with(".csv") {
            continue;
        }
        let text = fs::read_to_string(&path).with_context(|| format!("cannot read {name}"))?;
        let grid = GRIDS.iter().find(|(grid, _)| *grid == name);
        values.extend(match grid {
            Some((_, formula)) => grid_of(&text, formula)?,
            None => rows_of(&text).with_context(|| name.to_string())?,
        });
    }
    Ok(values)
}

fn grid_of(text: &str, formula: &str) -> Result<Vec<Value>> {
    let mut cells = 0;
    for line in csv::Reader::from_reader(text.as_bytes()).records() {
        cells += line?.len() - 1;
    }
    let value = |_| Value {
        formula: formula.to_owned(),
        read: true,
    };
    Ok((0..cells).map(value).collect())
}

/// The rows of a table; an error for one that does not say what, whence and whether it was read.
pub(super) fn rows_of(text: &str) -> Result<Vec<Value>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads = reader.headers()?.clone();
    let column = |name: &str| {
        let place = heads.iter().position(|head| head == name);
        place.with_context(|| format!("no column {name}"))
    };
    let (id, formula) = (column("id")?, column("formula")?);
    let (source, read) = (column("source")?, column("read")?);
    let mut values = Vec::new();
    for line in reader.records() {
        let line = line?;
        let Some(name) = line[formula]
            .split(' ')
            .next()
            .filter(|name| !name.is_empty())
        else {
            bail!("{} names no formula", &line[id]);
        };
        if line[source].trim().is_empty() {
            bail!("{} has no source", &line[id]);
        }
        values.push(Value {
            formula: name.to_owned(),
            read: match &line[read] {
                "read" => true,
                "from memory" => false,
                other => bail!("{}: '{other}' is neither read nor from memory", &line[id]),
            },
        });
    }
    Ok(values)
}
