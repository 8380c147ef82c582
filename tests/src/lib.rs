//! What the checks share: how a table of published values is read.
//!
//! A table has the columns id, formula, inputs, expected, tolerance, source and read; the inputs of a
//! row are `name=value unit` pairs with a semicolon between them. A table that is not so, or a row that
//! says nothing of its source, fails the check at once: nothing is skipped. [`yard`] and [`workshop`] hold
//! what the scenarios share, [`fuzz`] feeds the parsers; `browser` and `siege`, behind the feature `browser`,
//! drive the built app.

#[cfg(feature = "browser")]
pub mod browser;
pub mod dice;
pub mod fuzz;
pub mod invented;
pub mod phone;
pub mod shown_formula;
#[cfg(feature = "browser")]
pub mod siege;
pub mod starts;
pub mod workshop;
pub mod yard;

/// One published value and the formula that has to give it.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Short and unique in its table.
    pub id: String,
    /// The function that is checked (`emc`, `RingClass::of`) and, where it has several, the case.
    pub formula: String,
    /// What the formula is to give.
    pub expected: f64,
    /// How far it may be off, same unit.
    pub tolerance: f64,
    /// Document, edition, place.
    pub source: String,
    /// Whether the value was read there; otherwise it is from memory or computed.
    pub read: bool,
    inputs: Vec<(String, String)>,
}

impl Row {
    /// An input as a number; it has to carry this unit ("" for none).
    pub fn number(&self, name: &str, unit: &str) -> f64 {
        let text = self.text(name);
        let (value, found) = text.split_once(' ').unwrap_or((text, ""));
        assert_eq!(found, unit, "{}: unit of {name}", self.id);
        value
            .parse()
            .unwrap_or_else(|_| panic!("{}: {name}={text} is no number", self.id))
    }

    /// An input as a number, in the unit that the table writes behind it.
    pub fn input(&self, name: &str) -> f64 {
        let text = self.text(name);
        let value = text.split_once(' ').map_or(text, |(value, _)| value);
        value
            .parse()
            .unwrap_or_else(|_| panic!("{}: {name}={text} is no number", self.id))
    }

    /// An input as it stands.
    pub fn text(&self, name: &str) -> &str {
        self.inputs
            .iter()
            .find(|(input, _)| input == name)
            .map(|(_, value)| value.as_str())
            .unwrap_or_else(|| panic!("{}: no input {name}", self.id))
    }

    /// Fails when the formula gives something else.
    pub fn check(&self, found: f64) {
        assert!(
            (found - self.expected).abs() <= self.tolerance,
            "{} {}: found {found}, expected {} within {} ({})",
            self.id,
            self.formula,
            self.expected,
            self.tolerance,
            self.source
        );
    }
}

/// All rows of a table; panics, with the row, on anything that is not as it has to be.
pub fn rows(csv_text: &str) -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(csv_text.as_bytes());
    let heads = reader.headers().expect("a line of column names");
    assert_eq!(
        heads.iter().collect::<Vec<_>>(),
        [
            "id",
            "formula",
            "inputs",
            "expected",
            "tolerance",
            "source",
            "read"
        ]
    );
    let rows: Vec<Row> = reader
        .records()
        .map(|record| row(&record.expect("seven fields a row")))
        .collect();
    let mut ids: Vec<&str> = rows.iter().map(|row| row.id.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), rows.len(), "an id stands twice");
    rows
}

fn row(record: &csv::StringRecord) -> Row {
    let id = record[0].to_owned();
    let number = |text: &str| {
        text.parse::<f64>()
            .unwrap_or_else(|_| panic!("{id}: {text} is no number"))
    };
    let tolerance = number(&record[4]);
    assert!(tolerance >= 0.0, "{id}: tolerance {tolerance}");
    assert!(record[5].trim().len() > 3, "{id}: no source");
    Row {
        formula: record[1].to_owned(),
        expected: number(&record[3]),
        tolerance,
        source: record[5].to_owned(),
        read: match &record[6] {
            "read" => true,
            "from memory" => false,
            other => panic!("{id}: '{other}' is neither 'read' nor 'from memory'"),
        },
        inputs: inputs(&id, &record[2]),
        id,
    }
}

fn inputs(id: &str, text: &str) -> Vec<(String, String)> {
    text.split(';')
        .map(str::trim)
        .filter(|pair| !pair.is_empty())
        .map(|pair| {
            let (name, value) = pair
                .split_once('=')
                .unwrap_or_else(|| panic!("{id}: '{pair}' is not name=value"));
            (name.trim().to_owned(), value.trim().to_owned())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "id,formula,inputs,expected,tolerance,source,read\n";

    #[test]
    fn a_row_is_read_with_its_units() {
        let table = format!("{HEAD}A-1,f,T=20 degC; G=0.5; wood=oak,1.5,0.1,Some book,read\n");
        let row = &rows(&table)[0];
        assert_eq!(row.number("T", "degC"), 20.0);
        assert_eq!(row.number("G", ""), 0.5);
        assert_eq!(row.text("wood"), "oak");
        assert!(row.read);
        row.check(1.55);
    }

    #[test]
    #[should_panic(expected = "no source")]
    fn a_row_without_a_source_fails() {
        rows(&format!("{HEAD}A-1,f,,1,0,,read\n"));
    }

    #[test]
    #[should_panic(expected = "neither")]
    fn a_row_that_does_not_say_whether_it_was_read_fails() {
        rows(&format!("{HEAD}A-1,f,,1,0,Some book,perhaps\n"));
    }

    #[test]
    #[should_panic(expected = "found 2")]
    fn a_value_that_is_off_fails() {
        rows(&format!("{HEAD}A-1,f,,1,0.5,Some book,read\n"))[0].check(2.0);
    }
}
