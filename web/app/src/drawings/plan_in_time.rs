//! A plan on a line of time: for each lot its rests one after the other, to scale, with the months marked; today, the
//! day that is needed, and the earliest blanks. Upright lines stand beside the bars alone, so that no word lies on one.

use crate::words::Words;
use crate::words::dates::month;
use chrono::{Datelike, Days, Months, NaiveDate};
use maud::{Markup, html};

/// What rests: told apart by its colour and by how high its bar is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Resting {
    /// Rough pieces.
    Pieces,
    /// Laminates.
    Laminates,
    /// Blanks.
    Blanks,
}

impl Resting {
    fn class(self) -> &'static str {
        match self {
            Self::Pieces => "leg leg-pieces",
            Self::Laminates => "leg leg-laminates",
            Self::Blanks => "leg leg-blanks",
        }
    }

    /// How high its bar is.
    fn high(self) -> f64 {
        match self {
            Self::Pieces => 16.0,
            Self::Laminates => 11.0,
            Self::Blanks => 6.0,
        }
    }

    /// Its bar as it stands before its name below the drawing.
    pub fn swatch(self) -> Markup {
        html! {
            svg.swatch viewBox="0 0 12 18" aria-hidden="true" {
                rect class=(self.class()) x="1" y=(MIDDLE - 4.0 - self.high() / 2.0) width="10" height=(self.high()) {}
            }
        }
    }
}

/// A rest.
#[derive(Debug, Clone)]
pub struct LegDrawn {
    /// What rests.
    pub of: Resting,
    /// When it begins.
    pub from: NaiveDate,
    /// When it is over.
    pub until: NaiveDate,
}

/// A lot.
#[derive(Debug, Clone)]
pub struct RowDrawn {
    /// What it is.
    pub name: String,
    /// Its rests, in order.
    pub legs: Vec<LegDrawn>,
    /// When the last is over at the maker's usual pace, where that is later.
    pub at_pace: Option<NaiveDate>,
}

/// The names of the upright lines and of the last row.
#[derive(Debug, Clone, Copy)]
pub struct LineNames<'a> {
    /// Today.
    pub today: &'a str,
    /// The day that is needed.
    pub wanted: &'a str,
    /// The row of blanks.
    pub blanks: &'a str,
    /// The words that name the months.
    pub words: &'static Words,
}

const LEFT: f64 = 12.0;
const WIDE: f64 = 336.0;
const ROW: f64 = 40.0;
const TOP: f64 = 50.0;
/// From a row's line of words to the middle of its bars.
const MIDDLE: f64 = 13.0;
/// An upright line reaches so far above and below that.
const REACH: f64 = 9.0;

/// From the first day to the last, with the day's place on the line.
#[derive(Clone, Copy)]
struct Line {
    first: NaiveDate,
    last: NaiveDate,
}

impl Line {
    /// So that all that lies ahead is on it, and half a year of what lies behind.
    fn over(today: NaiveDate, days: &[NaiveDate]) -> Self {
        let back = today.checked_sub_months(Months::new(6)).unwrap_or(today);
        let first = days
            .iter()
            .copied()
            .min()
            .unwrap_or(today)
            .min(today)
            .max(back);
        let last = days.iter().copied().max().unwrap_or(today).max(today);
        Self {
            first: first.with_day(1).unwrap_or(first),
            last: last.checked_add_days(Days::new(20)).unwrap_or(last),
        }
    }

    fn x(self, day: NaiveDate) -> f64 {
        let whole = (self.last - self.first).num_days().max(1) as f64;
        let along = (day - self.first).num_days() as f64 / whole;
        LEFT + along.clamp(0.0, 1.0) * WIDE
    }

    /// A bar begins before it.
    fn cuts(self, leg: &LegDrawn) -> bool {
        leg.from < self.first && leg.until >= self.first
    }

    /// The first of each month on it.
    fn months(self) -> Vec<NaiveDate> {
        let mut months = Vec::new();
        let mut month = Some(self.first);
        while let Some(day) = month.filter(|day| *day <= self.last) {
            months.push(day);
            month = day.checked_add_months(Months::new(1));
        }
        months
    }
}

/// Whether one of the bars begins before the line does, so that it is drawn cut off.
pub fn is_cut(
    today: NaiveDate,
    wanted: Option<NaiveDate>,
    rows: &[RowDrawn],
    blanks: &[(NaiveDate, usize)],
) -> bool {
    let line = line_over(today, wanted, rows, blanks);
    rows.iter()
        .flat_map(|row| &row.legs)
        .any(|leg| line.cuts(leg))
}

fn line_over(
    today: NaiveDate,
    wanted: Option<NaiveDate>,
    rows: &[RowDrawn],
    blanks: &[(NaiveDate, usize)],
) -> Line {
    let legs = rows.iter().flat_map(|row| &row.legs);
    let mut days: Vec<NaiveDate> = legs.flat_map(|leg| [leg.from, leg.until]).collect();
    days.extend(wanted);
    days.extend(rows.iter().filter_map(|row| row.at_pace));
    days.extend(blanks.iter().map(|(day, _)| *day));
    Line::over(today, &days)
}

/// The drawing. `wanted` is the day that is needed, `blanks` how many blanks come on which day.
pub fn plan_in_time(
    today: NaiveDate,
    wanted: Option<NaiveDate>,
    rows: &[RowDrawn],
    blanks: &[(NaiveDate, usize)],
    names: LineNames<'_>,
    said: &str,
) -> Markup {
    let line = line_over(today, wanted, rows, blanks);
    let blank_row = rows.len() as f64 * ROW + TOP;
    let foot = blank_row + if blanks.is_empty() { 0.0 } else { ROW };
    let all = rows.len() + usize::from(!blanks.is_empty());
    html! {
        svg.chart viewBox={ "0 0 360 " (foot + 12.0) } role="img" aria-label=(said) {
            (months(line, all, &names))
            @for (n, one) in rows.iter().enumerate() { (row(line, n, one)) }
            (upright(line, today, all, names.today))
            @if let Some(day) = wanted { (upright(line, day, all, names.wanted)) }
            @for (n, one) in rows.iter().enumerate() {
                text.over x=(LEFT) y=(n as f64 * ROW + TOP) { (one.name) }
            }
            (blanks_drawn(line, blank_row, blanks, names.blanks))
        }
    }
}

/// An upright line, beside the bars of each row.
fn beside_bars(x: f64, rows: usize, reach: f64) -> String {
    (0..rows)
        .map(|n| {
            let middle = n as f64 * ROW + TOP + MIDDLE;
            format!("M{x:.1} {:.1}v{:.1}", middle - reach, reach * 2.0)
        })
        .collect()
}

/// A line for each month, with a mark at the top for those that are named; names as far apart as they fit.
fn months(line: Line, rows: usize, names: &LineNames<'_>) -> Markup {
    let all = line.months();
    let apart = u32::try_from(all.len() / 8 + 1).unwrap_or(12);
    let apart = [1, 2, 3, 6, 12]
        .into_iter()
        .find(|step| *step >= apart)
        .unwrap_or(12);
    html! {
        @for day in &all {
            @let x = line.x(*day);
            @let named = day.month0().is_multiple_of(apart);
            path.month d=(beside_bars(x, rows, REACH)) {}
            @if named && x < LEFT + WIDE - 14.0 {
                path.month d=(format!("M{x:.1} 18v5")) {}
                text x=(x) y="14" text-anchor=(if x < LEFT + 14.0 { "start" } else { "middle" }) {
                    @if day.month() == 1 || apart == 12 { (day.year()) }
                    @else { (month(names.words, *day)) }
                }
            }
        }
    }
}

fn row(line: Line, n: usize, row: &RowDrawn) -> Markup {
    let middle = n as f64 * ROW + TOP + MIDDLE;
    html! {
        @for leg in row.legs.iter().filter(|leg| leg.until >= line.first) {
            @let (from, until, high) = (line.x(leg.from), line.x(leg.until), leg.of.high());
            rect class=(leg.of.class()) x=(from) y=(middle - high / 2.0) width=((until - from).max(1.0)) height=(high) {}
            @if line.cuts(leg) { path.earlier d=(format!("M{:.1} {middle:.1}l7 -5v10z", LEFT - 9.0)) {} }
        }
        @if let Some((day, last)) = row.at_pace.zip(row.legs.last()) {
            @let (from, until) = (line.x(last.until), line.x(day));
            line.at-pace x1=(from) x2=(until) y1=(middle) y2=(middle) {}
            line.at-pace x1=(until) x2=(until) y1=(middle - 7.0) y2=(middle + 7.0) {}
        }
    }
}

fn blanks_drawn(line: Line, y: f64, blanks: &[(NaiveDate, usize)], name: &str) -> Markup {
    // Days that lie too near to be told apart are one dot, at the last of them.
    let mut dots: Vec<(f64, usize)> = Vec::new();
    for (day, count) in blanks {
        let x = line.x(*day);
        match dots.last_mut() {
            Some((before, sum)) if x - *before < 22.0 => (*before, *sum) = (x, *sum + count),
            _ => dots.push((x, *count)),
        }
    }
    html! {
        @if !blanks.is_empty() {
            text.over x=(LEFT) y=(y) { (name) }
            @for (x, count) in dots {
                circle.dot cx=(x) cy=(y + MIDDLE + 3.0) r=(5.0 + 3.0 * count.to_string().len() as f64) {}
                text.on-dot x=(x) y=(y + MIDDLE + 7.3) text-anchor="middle" { (count) }
            }
        }
    }
}

fn upright(line: Line, day: NaiveDate, rows: usize, name: &str) -> Markup {
    let x = line.x(day);
    let (anchor, at) = match x > LEFT + WIDE * 0.7 {
        true => ("end", x + 4.0),
        false => ("start", x - 4.0),
    };
    html! {
        path.upright d=(beside_bars(x, rows, REACH + 2.0)) {}
        text.over x=(at) y="34" text-anchor=(anchor) { (name) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use stillwood_core::record::date;

    fn day(text: &str) -> NaiveDate {
        date(text).unwrap_or_default()
    }

    #[test]
    fn a_bar_that_begins_before_the_line_has_a_sign_that_it_does() {
        let bar = |from: &str| RowDrawn {
            name: "8 laminates".to_owned(),
            legs: vec![LegDrawn {
                of: Resting::Laminates,
                from: day(from),
                until: day("2027-03-01"),
            }],
            at_pace: None,
        };
        let today = day("2026-11-30");
        let drawn = |row: RowDrawn| row_of(today, row);
        assert!(drawn(bar("2026-01-10")).contains("class=\"earlier\""));
        assert!(!drawn(bar("2026-09-10")).contains("class=\"earlier\""));
    }

    fn row_of(today: NaiveDate, one: RowDrawn) -> String {
        let rows = [one];
        let line = line_over(today, None, &rows, &[]);
        let drawn: String = rows
            .iter()
            .map(|one| row(line, 0, one).into_string())
            .collect();
        assert_eq!(is_cut(today, None, &rows, &[]), drawn.contains("earlier"));
        drawn
    }

    #[test]
    fn no_upright_line_goes_through_the_words_of_a_row() {
        // A row's words stand on its line, their letters 10 above it and 3 below it.
        let path = beside_bars(20.0, 3, REACH + 2.0);
        for (n, stroke) in path.split('M').skip(1).enumerate() {
            let (place, long) = stroke.split_once('v').unwrap();
            let top: f64 = place.split_once(' ').unwrap().1.parse().unwrap();
            let words = n as f64 * ROW + TOP;
            assert!(top > words + 1.0, "{stroke}");
            assert!(
                top + long.parse::<f64>().unwrap() < words + ROW - 10.0,
                "{stroke}"
            );
        }
    }
}
