//! What the checks share: how a table of published values is read.

use serde::Deserialize;
use std::collections::BTreeMap;

/// Whether the published text itself was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum Read {
    /// The value was read in the source named.
    #[serde(rename = "read")]
    Read,
    /// The value is recalled or worked out; the source named was not read.
    #[serde(rename = "from memory")]
    FromMemory,
}

/// A row of published values, as it stands in the table.
#[derive(Debug, Clone, Deserialize)]
struct Line {
    id: String,
    formula: String,
    inputs: String,
    expected: f64,
    tolerance: f64,
    source: String,
    read: Read,
}

/// A published value and what it follows from.
#[derive(Debug, Clone)]
pub struct Row {
    /// Short name, unique in its table.
    pub id: String,
    /// Which formula it checks.
    pub formula: String,
    /// Inputs by name, each a number in the unit that the table writes behind it.
    pub inputs: BTreeMap<String, f64>,
    /// What the source gives.
    pub expected: f64,
    /// How far the formula may be off: the source's rounding.
    pub tolerance: f64,
    /// Where it stands.
    pub source: String,
    /// Whether that was read.
    pub read: Read,
}

impl Row {
    /// An input.
    ///
    /// # Panics
    /// When the row has no input of that name.
    pub fn input(&self, name: &str) -> f64 {
        match self.inputs.get(name) {
            Some(value) => *value,
            None => panic!("row {} has no input {name}", self.id),
        }
    }

    /// Holds a computed value against the row.
    ///
    /// # Panics
    /// When it is further off than the row allows.
    pub fn check(&self, found: f64) {
        assert!(
            (found - self.expected).abs() <= self.tolerance,
            "{} ({}): found {found}, expected {} within {}; {}",
            self.id,
            self.formula,
            self.expected,
            self.tolerance,
            self.source
        );
    }
}

/// The rows of a table with columns id, formula, inputs, expected, tolerance, source, read. Inputs are
/// written `name=value unit; name=value unit`.
///
/// # Panics
/// When a row can't be read, has no source, or repeats an id: a table that lost its provenance is no
/// check.
pub fn rows(csv_text: &str) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for line in csv::Reader::from_reader(csv_text.as_bytes()).deserialize::<Line>() {
        let line = line.unwrap_or_else(|error| panic!("a row can't be read: {error}"));
        assert!(
            !line.source.trim().is_empty(),
            "row {} has no source",
            line.id
        );
        assert!(
            rows.iter().all(|row| row.id != line.id),
            "row {} is there twice",
            line.id
        );
        rows.push(Row {
            inputs: inputs(&line.id, &line.inputs),
            id: line.id,
            formula: line.formula,
            expected: line.expected,
            tolerance: line.tolerance,
            source: line.source,
            read: line.read,
        });
    }
    rows
}

fn inputs(id: &str, text: &str) -> BTreeMap<String, f64> {
    let pairs = text
        .split(';')
        .map(str::trim)
        .filter(|pair| !pair.is_empty());
    pairs
        .map(|pair| {
            let read = pair.split_once('=').and_then(|(name, value)| {
                let number = value.split_whitespace().next()?;
                Some((name.trim().to_owned(), number.parse().ok()?))
            });
            read.unwrap_or_else(|| panic!("row {id}: {pair:?} is no name=value unit"))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "id,formula,inputs,expected,tolerance,source,read\n";

    #[test]
    fn a_row_is_read() {
        let rows = rows(&format!(
            "{HEAD}A-1,sum,a=1.5 mm; b=2,3.5,0.1,a book,read\n"
        ));
        assert_eq!((rows[0].input("a"), rows[0].input("b")), (1.5, 2.0));
        assert_eq!(rows[0].read, Read::Read);
        rows[0].check(3.55);
    }

    #[test]
    #[should_panic(expected = "no source")]
    fn a_row_without_a_source_fails() {
        rows(&format!("{HEAD}A-1,sum,a=1,1,0, ,from memory\n"));
    }

    #[test]
    #[should_panic(expected = "there twice")]
    fn a_repeated_id_fails() {
        rows(&format!(
            "{HEAD}A-1,sum,a=1,1,0,x,read\nA-1,sum,a=1,1,0,x,read\n"
        ));
    }
}
