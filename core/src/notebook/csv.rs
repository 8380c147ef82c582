//! Rows of text as CSV that no spreadsheet runs.
//!
//! It knows no columns, and it never changes a cell that is a plain number.

/// The rows as CSV (RFC 4180). A cell that a spreadsheet would take for a formula gets an apostrophe
/// before it.
///
/// # Errors
/// What the CSV writer says; it writes to memory, so none is known.
pub fn to_csv<R, C>(rows: impl IntoIterator<Item = R>) -> Result<String, csv::Error>
where
    R: IntoIterator<Item = C>,
    C: AsRef<str>,
{
    let mut writer = csv::WriterBuilder::new()
        .flexible(true)
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    for row in rows {
        for cell in row {
            let cell = cell.as_ref();
            if is_formula(cell) {
                writer.write_field(format!("'{cell}"))?;
            } else {
                writer.write_field(cell)?;
            }
        }
        writer.write_record(None::<&[u8]>)?;
    }
    let bytes = writer
        .into_inner()
        .map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Whether a spreadsheet may take the cell for a formula.
fn is_formula(cell: &str) -> bool {
    let first = cell.chars().next();
    matches!(
        first,
        Some(
            '=' | '+'
                | '-'
                | '@'
                | '\t'
                | '\r'
                | '\n'
                | '\u{ff1d}'
                | '\u{ff0b}'
                | '\u{ff0d}'
                | '\u{ff20}'
        )
    ) && !is_plain_number(cell)
}

/// A sign, digits, and at most one point or comma between them.
fn is_plain_number(cell: &str) -> bool {
    let digits = cell.strip_prefix(['+', '-']).unwrap_or(cell);
    let mut parts = digits.splitn(2, ['.', ',']);
    let whole = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    parts.next().is_some_and(whole) && parts.next().is_none_or(whole)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_defused_and_numbers_are_not() {
        let rows = [
            vec!["mark", "note", "bow"],
            vec!["K7-13-M", "=HYPERLINK(\"x\")", "-9.5"],
            vec!["+3", "-1,5", "-1+2"],
            vec!["@a", "\tb", "\u{ff1d}1"],
            vec!["a,b", "c\"d", "-"],
        ];
        assert_eq!(
            to_csv(rows).unwrap(),
            "mark,note,bow\r\nK7-13-M,\"'=HYPERLINK(\"\"x\"\")\",-9.5\r\n+3,\"-1,5\",'-1+2\r\n\
             '@a,'\tb,'\u{ff1d}1\r\n\"a,b\",\"c\"\"d\",'-\r\n"
        );
    }
}
