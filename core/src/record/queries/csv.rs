//! Rows of text as CSV that no spreadsheet runs.
//!
//! It knows no columns, and it never changes a cell that is a plain number.

use crate::record::log::visible_text::is_hidden;
use std::borrow::Cow;

/// The rows as CSV (RFC 4180). A cell that a spreadsheet could take for a formula gets an apostrophe
/// before it; so does what stands behind a semicolon, a tab or a line end in a text, which some
/// spreadsheets take for the border of a cell.
///
/// Written here and not by a crate: that brings the standard reader of floats along, with ten kilobytes of tables.
pub fn to_csv<R, C>(rows: impl IntoIterator<Item = R>) -> String
where
    R: IntoIterator<Item = C>,
    C: AsRef<str>,
{
    let mut out = String::new();
    for row in rows {
        let start = out.len();
        for (at, cell) in row.into_iter().enumerate() {
            if at > 0 {
                out.push(',');
            }
            push_cell(&mut out, &defused(cell.as_ref()));
        }
        if out.len() == start {
            // One empty cell: bare it would be a line that readers pass over.
            out.push_str("\"\"");
        }
        out.push_str("\r\n");
    }
    out
}

/// A cell, in quotes where one of its signs has a meaning.
fn push_cell(out: &mut String, cell: &str) {
    if !cell.contains([',', '"', '\r', '\n']) {
        return out.push_str(cell);
    }
    out.push('"');
    for sign in cell.chars() {
        if sign == '"' {
            out.push('"');
        }
        out.push(sign);
    }
    out.push('"');
}

/// A cell in which nothing is taken for a formula.
fn defused(cell: &str) -> Cow<'_, str> {
    if is_plain_number(cell) {
        return Cow::Borrowed(cell);
    }
    let mut text = String::with_capacity(cell.len() + 4);
    for (at, part) in cell.split_inclusive([';', '\t', '\r', '\n']).enumerate() {
        if is_formula(part) || at == 0 && cell.starts_with(['\t', '\r', '\n']) {
            text.push('\'');
        }
        text.push_str(part);
    }
    Cow::Owned(text)
}

/// Whether a spreadsheet may take a text for a formula: by its first sign that is seen, for some pass over
/// blanks and signs of no width before it; or for a call of another program (`program|topic!item`), which
/// old ones take without a first sign.
fn is_formula(text: &str) -> bool {
    let first = text.chars().find(|c| !is_passed_over(*c));
    first.is_some_and(|c| OPENS_A_FORMULA.contains(&c)) || text.contains('|') && text.contains('!')
}

/// What opens a formula, in its plain width, in full and in small width, and the minus of mathematics.
const OPENS_A_FORMULA: [char; 15] = [
    '=', '+', '-', '@', '|', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}', '\u{ff5c}',
    '\u{fe66}', '\u{fe62}', '\u{fe63}', '\u{fe6b}', '\u{2212}',
];

/// Blanks, quotes, and what has no width.
fn is_passed_over(c: char) -> bool {
    c.is_whitespace() || c.is_control() || is_hidden(c) || matches!(c, '\'' | '"' | '`')
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
    use proptest::prelude::*;

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
            to_csv(rows),
            "mark,note,bow\r\nK7-13-M,\"'=HYPERLINK(\"\"x\"\")\",-9.5\r\n+3,\"-1,5\",'-1+2\r\n\
             '@a,'\tb,'\u{ff1d}1\r\n\"a,b\",\"c\"\"d\",'-\r\n"
        );
    }

    /// What comes out of a table in which this is the one cell.
    fn read_back(cell: &str) -> String {
        let table = to_csv([[cell]]);
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(table.as_bytes());
        let row = reader.records().next().unwrap().unwrap();
        row[0].to_owned()
    }

    #[test]
    fn attacks_are_defused() {
        for attack in [
            "=1+1",
            "+1+1",
            "-1+1",
            "@SUM(A1)",
            "=cmd|'/C calc'!A0",
            "cmd|'/C calc'!A0",
            "|calc",
            " =1+1",
            "   +1+1",
            "\u{a0}=1+1",
            "\u{3000}@x",
            "\u{200b}=1+1",
            "\u{feff}=1+1",
            "\u{202e}=1+1",
            "\u{ad}-1+1",
            "\u{0}=1+1",
            "\u{7f}=1+1",
            "'=1+1",
            "\"=1+1",
            "=HYPERLINK(\"http://127.0.0.1\",\"look\")",
            "-2+3+cmd|' /C calc'!A0",
            "\u{ff1d}1+1",
            "\u{ff0b}1",
            "\u{ff0d}1+1",
            "\u{ff20}x",
            "\u{fe66}1",
            "\u{2212}1+1",
            "--5",
            "+",
            "-1,5,2",
            "-1e5",
        ] {
            let cell = read_back(attack);
            assert_eq!(cell, format!("'{attack}"));
        }
    }

    #[test]
    fn what_stands_behind_another_border_is_defused_there() {
        assert_eq!(read_back("ash;=1+1"), "ash;'=1+1");
        assert_eq!(read_back("ash; \u{200b}@x;b"), "ash;' \u{200b}@x;b");
        assert_eq!(read_back("ash\n=1+1"), "ash\n'=1+1");
        assert_eq!(read_back("ash\t-x"), "ash\t'-x");
        for border in ["\t", "\r", "\n"] {
            assert_eq!(
                read_back(&format!("{border}=1+1")),
                format!("'{border}'=1+1")
            );
        }
        // Nothing in these is a formula.
        for text in [
            "Blue chalk, =1+1",
            "a=b",
            "far end; near end",
            "2 + 3",
            "K7-13-M",
            "a|b",
            "no!",
        ] {
            assert_eq!(read_back(text), text);
        }
    }

    #[test]
    fn numbers_stay_numbers() {
        for number in ["-9.5", "+3", "-1,5", "-0", "12", "0.25", "-12345.678"] {
            assert_eq!(to_csv([[number]]).trim_end().trim_matches('"'), number);
        }
    }

    proptest! {
        #[test]
        fn as_a_crate_for_it_writes(rows in proptest::collection::vec(
            proptest::collection::vec("[a-z,\"\r\n ;]{0,6}", 1..4), 0..4,
        )) {
            let mut writer = csv::WriterBuilder::new()
                .flexible(true)
                .terminator(csv::Terminator::CRLF)
                .from_writer(Vec::new());
            for row in &rows {
                writer.write_record(row.iter().map(|cell| defused(cell).into_owned())).unwrap();
            }
            prop_assert_eq!(to_csv(&rows).into_bytes(), writer.into_inner().unwrap());
        }

        #[test]
        fn no_cell_begins_as_a_formula_and_nothing_but_apostrophes_is_added(
            cell in "([=+@|;\u{ff1d}\u{200b}\u{feff}\u{202e} \t\r\n'\"-]|\\PC|[a-z0-9.,]){0,20}"
        ) {
            prop_assume!(!cell.is_empty());
            let table = to_csv([["first", cell.as_str()]]);
            let mut reader = csv::ReaderBuilder::new()
                .has_headers(false)
                .from_reader(table.as_bytes());
            let row = reader.records().next().unwrap().unwrap();
            let bare = |text: &str| text.replace('\'', "");
            prop_assert_eq!(bare(&row[1]), bare(&cell));
            if !is_plain_number(&cell) {
                for part in row[1].split([';', '\t', '\r', '\n']) {
                    let seen = part.trim_start_matches(|c: char| c.is_whitespace() || is_hidden(c));
                    prop_assert!(!seen.starts_with(['=', '+', '-', '@', '|', '\u{ff1d}']), "{:?}", row);
                }
            }
        }
    }
}
