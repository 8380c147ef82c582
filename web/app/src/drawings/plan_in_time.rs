//! A plan on a line of time: for each lot its rests one after the other, to scale, with the months marked; today, the
//! day that is needed, and the earliest blanks.

use crate::words::Words;
use crate::words::dates::month;
use chrono::{Datelike, Days, Months, NaiveDate};
use maud::{Markup, html};

/// A rest.
#[derive(Debug, Clone)]
pub struct LegDrawn {
    /// The class of its fill.
    pub class: &'static str,
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
const TOP: f64 = 44.0;

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

/// The drawing. `wanted` is the day that is needed, `blanks` how many blanks come on which day.
pub fn plan_in_time(
    today: NaiveDate,
    wanted: Option<NaiveDate>,
    rows: &[RowDrawn],
    blanks: &[(NaiveDate, usize)],
    names: LineNames<'_>,
    said: &str,
) -> Markup {
    let legs = rows.iter().flat_map(|row| &row.legs);
    let mut days: Vec<NaiveDate> = legs.flat_map(|leg| [leg.from, leg.until]).collect();
    days.extend(wanted);
    days.extend(rows.iter().filter_map(|row| row.at_pace));
    days.extend(blanks.iter().map(|(day, _)| *day));
    let line = Line::over(today, &days);
    let blank_row = rows.len() as f64 * ROW + TOP;
    let foot = blank_row + if blanks.is_empty() { 0.0 } else { ROW };
    html! {
        svg.chart viewBox={ "0 0 360 " (foot + 12.0) } role="img" aria-label=(said) {
            (months(line, foot, &names))
            @for (n, one) in rows.iter().enumerate() { (row(line, n, one)) }
            (upright(line, today, foot, names.today))
            @if let Some(day) = wanted { (upright(line, day, foot, names.wanted)) }
            @for (n, one) in rows.iter().enumerate() {
                text.over x=(LEFT) y=(n as f64 * ROW + TOP + 2.0) { (one.name) }
            }
            (blanks_drawn(line, blank_row, blanks, names.blanks))
        }
    }
}

/// A line for each month, longer at those that are named; names as far apart as they fit.
fn months(line: Line, foot: f64, names: &LineNames<'_>) -> Markup {
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
            line.faint x1=(x) x2=(x) y1=(if named { 4.0 } else { 20.0 }) y2=(foot) {}
            @if named && x < LEFT + WIDE - 14.0 {
                text x=(x + 2.0) y="16" {
                    @if day.month() == 1 || apart == 12 { (day.year()) }
                    @else { (month(names.words, *day)) }
                }
            }
        }
    }
}

fn row(line: Line, n: usize, row: &RowDrawn) -> Markup {
    let y = n as f64 * ROW + TOP;
    html! {
        @for leg in row.legs.iter().filter(|leg| leg.until >= line.first) {
            @let (from, until) = (line.x(leg.from), line.x(leg.until));
            rect class=(leg.class) x=(from) y=(y + 6.0) width=((until - from).max(1.0)) height="14" {}
        }
        @if let Some((day, last)) = row.at_pace.zip(row.legs.last()) {
            @let (from, until) = (line.x(last.until), line.x(day));
            line.at-pace x1=(from) x2=(until) y1=(y + 13.0) y2=(y + 13.0) {}
            line.at-pace x1=(until) x2=(until) y1=(y + 6.0) y2=(y + 20.0) {}
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
            text.over x=(LEFT) y=(y + 2.0) { (name) }
            @for (x, count) in dots {
                circle.dot cx=(x) cy=(y + 16.0) r=(5.0 + 3.0 * count.to_string().len() as f64) {}
                text.on-dot x=(x) y=(y + 20.3) text-anchor="middle" { (count) }
            }
        }
    }
}

fn upright(line: Line, day: NaiveDate, foot: f64, name: &str) -> Markup {
    let x = line.x(day);
    let (anchor, at) = match x > LEFT + WIDE * 0.7 {
        true => ("end", x - 4.0),
        false => ("start", x + 4.0),
    };
    html! {
        line.upright x1=(x) x2=(x) y1="20" y2=(foot) {}
        text.over x=(at) y="32" text-anchor=(anchor) { (name) }
    }
}
