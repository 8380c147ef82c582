//! A long list of which only the rows near the view are drawn: where it is scrolled, most of these rows stay as they
//! are. The page is told which go and which come, and leaves the others alone.

use std::collections::BTreeMap;

/// What a list's first tag has, and no other element.
const HAS_ROWS: &str = " data-row-height=";

/// Which rows stay, in one run, and what stands before and after them now.
#[derive(Debug, PartialEq, Eq)]
pub struct Moved<'a> {
    /// How many rows there were.
    pub rows: usize,
    /// How many of them stood before those that stay.
    pub gone_before: usize,
    /// How many stay.
    pub stay: usize,
    /// The markup of the rows before them.
    pub before: &'a str,
    /// The markup of the rows after them.
    pub after: &'a str,
}

/// A list's markup: what stands around the rows, the rows together, and where each begins.
struct List<'a> {
    around: [&'a str; 2],
    rows: &'a str,
    begins: Vec<usize>,
}

impl<'a> List<'a> {
    fn of(markup: &'a str) -> Option<Self> {
        let tag = markup.get(..=markup.find('>')?)?;
        if !tag.contains(HAS_ROWS) {
            return None;
        }
        let (from, row, end) = match markup.find("<tbody>") {
            Some(at) => (at + "<tbody>".len(), "<tr", "</tbody>"),
            None => (tag.len(), "<li", "</ul>"),
        };
        let to = markup.rfind(end)?;
        let rows = markup.get(from..to)?;
        let is_row = |at: &usize| matches!(rows.as_bytes().get(at + row.len()), Some(b' ' | b'>'));
        let found = rows.match_indices(row).map(|(at, _)| at);
        Some(Self {
            around: [markup.get(..from)?, markup.get(to..)?],
            rows,
            begins: found.filter(is_row).collect(),
        })
    }

    /// Where a row begins; of the one after the last, where the rows end.
    fn at(&self, row: usize) -> usize {
        self.begins.get(row).copied().unwrap_or(self.rows.len())
    }

    fn row(&self, row: usize) -> Option<&'a str> {
        self.begins.get(row)?;
        self.rows.get(self.at(row)..self.at(row + 1))
    }
}

/// Which rows of a list stay, where its markup was one and is another; `None` where it is no long list, where more than
/// rows differs, and where no row stays.
pub fn moved<'a>(was: &str, is: &'a str) -> Option<Moved<'a>> {
    let (was, is) = (List::of(was)?, List::of(is)?);
    if was.around != is.around {
        return None;
    }
    let stood = (0..was.begins.len()).filter_map(|at| Some((was.row(at)?, at)));
    let stood: BTreeMap<&str, usize> = stood.collect();
    // The longest run: a row that stands for others may be the same by chance.
    let mut longest = (0, 0, 0);
    let mut first = 0;
    while let Some(row) = is.row(first) {
        let run = stood.get(row).map_or(0, |before| {
            let stays = |n: &usize| {
                let row = is.row(first + n);
                row.is_some() && row == was.row(before + n)
            };
            let run = (0..is.begins.len()).take_while(stays).count();
            longest = longest.max((run, first, *before));
            run
        });
        first += run.max(1);
    }
    let (stay, first, gone_before) = longest;
    if stay == 0 {
        return None;
    }
    Some(Moved {
        rows: was.begins.len(),
        gone_before,
        stay,
        before: is.rows.get(..is.at(first))?,
        after: is.rows.get(is.at(first + stay)..)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: &[&str]) -> String {
        let rows: String = rows
            .iter()
            .map(|row| format!("<tr id=\"{row}\"><td>{row}<svg><track></track></svg></td></tr>"))
            .collect();
        format!(
            "<table data-row-height=\"40\"><thead><tr><th>Mark</th></tr></thead><tbody>{rows}</tbody></table>"
        )
    }

    fn list(rows: &[&str]) -> String {
        let rows: String = rows
            .iter()
            .map(|row| format!("<li><svg><line x1=\"1\"></line></svg>{row}</li>"))
            .collect();
        format!("<ul class=\"list\" data-row-height=\"64\">{rows}</ul>")
    }

    #[test]
    fn scrolled_down_the_rows_that_stay_are_one_run() {
        let (was, is) = (
            table(&["s1", "a", "b", "c", "m1"]),
            table(&["s2", "b", "c", "d", "m2"]),
        );
        let found = moved(&was, &is).unwrap();
        assert_eq!((found.rows, found.gone_before, found.stay), (5, 2, 2));
        assert!(found.before.starts_with("<tr id=\"s2\">") && found.before.ends_with("</tr>"));
        assert!(found.after.starts_with("<tr id=\"d\">") && found.after.contains("m2"));
    }

    #[test]
    fn scrolled_up_they_are_too() {
        let (was, is) = (list(&["b", "c", "d"]), list(&["a", "b", "c"]));
        let found = moved(&was, &is).unwrap();
        assert_eq!((found.rows, found.gone_before, found.stay), (3, 0, 2));
        assert!(found.before.contains(">a<") && !found.before.contains(">b<"));
        assert_eq!(found.after, "");
    }

    #[test]
    fn what_is_put_together_again_is_the_new_list() {
        let of = |from: usize, to: usize| {
            let names: Vec<String> = (from..to).map(|n| n.to_string()).collect();
            list(&names.iter().map(String::as_str).collect::<Vec<_>>())
        };
        for (was, is) in [((0, 9), (4, 13)), ((4, 13), (0, 9)), ((2, 5), (0, 9))] {
            let (was, is) = (of(was.0, was.1), of(is.0, is.1));
            let found = moved(&was, &is).unwrap();
            let old = List::of(&was).unwrap();
            let kept = old
                .rows
                .get(old.at(found.gone_before)..old.at(found.gone_before + found.stay))
                .unwrap();
            let put = format!("{}{kept}{}", found.before, found.after);
            assert_eq!(put, List::of(&is).unwrap().rows);
        }
    }

    #[test]
    fn where_more_than_rows_differs_or_none_stays_it_is_no_move() {
        let rows = ["a", "b"];
        let other = table(&rows).replace("Mark", "Mark ↓");
        assert_eq!(moved(&table(&rows), &other), None);
        assert_eq!(moved(&table(&rows), &table(&["c"])), None);
        assert_eq!(moved(&table(&rows), &table(&[])), None);
        let plain = table(&rows).replace(" data-row-height=\"40\"", "");
        assert_eq!(moved(&plain, &plain), None);
        assert_eq!(moved("<p>a</p>", "<p>b</p>"), None);
        assert_eq!(moved("", ""), None);
    }
}
