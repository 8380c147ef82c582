//! A plan on a line of time: for each lot its rests one after the other, to scale, with the months marked;
//! today, the day that is wished for, and the earliest blanks.

use crate::parts::CollectAny;
use chrono::{Datelike, Days, Months, NaiveDate};
use leptos::prelude::*;

/// A rest.
#[derive(Debug, Clone)]
pub(crate) struct LegDrawn {
    /// The class of its fill.
    pub(crate) class: &'static str,
    /// When it begins.
    pub(crate) from: NaiveDate,
    /// When it is over.
    pub(crate) until: NaiveDate,
}

/// A lot.
#[derive(Debug, Clone)]
pub(crate) struct RowDrawn {
    /// What it is.
    pub(crate) name: String,
    /// Its rests, in order.
    pub(crate) legs: Vec<LegDrawn>,
    /// When the last is over at the maker's own pace, where that is later.
    pub(crate) at_pace: Option<NaiveDate>,
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

/// The drawing. `wanted` is the day that is wished for, `blanks` how many blanks come on which day.
pub(crate) fn plan_in_time(
    today: NaiveDate,
    wanted: Option<NaiveDate>,
    rows: &[RowDrawn],
    blanks: &[(NaiveDate, usize)],
) -> AnyView {
    let legs = rows.iter().flat_map(|row| &row.legs);
    let mut days: Vec<NaiveDate> = legs.flat_map(|leg| [leg.from, leg.until]).collect();
    days.extend(wanted);
    days.extend(rows.iter().filter_map(|row| row.at_pace));
    let paced = rows.iter().any(|row| row.at_pace.is_some());
    days.extend(blanks.iter().map(|(day, _)| *day));
    let line = Line::over(today, &days);
    let blank_row = rows.len() as f64 * ROW + TOP;
    let foot = blank_row + if blanks.is_empty() { 0.0 } else { ROW };
    let said: Vec<String> = rows.iter().map(said).collect();
    view! {
        <figure>
            <svg
                class="drawing" viewBox=format!("0 0 360 {:.0}", foot + 12.0) role="img"
                aria-label=format!("A line of time from {today}. {}", said.join("; "))
            >
                {months(line, foot)}
                {rows.iter().enumerate().map(|(n, one)| row(line, n, one)).collect_any()}
                {upright(line, today, foot, "today")}
                {wanted.map(|day| upright(line, day, foot, "wanted"))}
                {rows.iter().enumerate().map(|(n, one)| name(n, one)).collect_any()}
                {blanks_drawn(line, blank_row, blanks)}
            </svg>
            <figcaption>
                <span class="key leg-pieces"></span>" rests as pieces, "
                <span class="key leg-laminates"></span>" as laminates, "
                <span class="key leg-blanks"></span>" as blanks."
                {paced.then_some(" The line behind a rest ends where it does at your pace.")}
            </figcaption>
        </figure>
    }
    .into_any()
}

fn said(row: &RowDrawn) -> String {
    let until: Vec<String> = row.legs.iter().map(|leg| leg.until.to_string()).collect();
    let at_pace = row.at_pace.map(|day| format!(", at your pace {day}"));
    let at_pace = at_pace.unwrap_or_default();
    format!("{}: {}{at_pace}", row.name, until.join(", then "))
}

/// A line for each month, longer at the year; names as far apart as they fit.
fn months(line: Line, foot: f64) -> AnyView {
    let all = line.months();
    let apart = (all.len() / 8 + 1) as u32;
    let apart = [1, 2, 3, 6, 12].into_iter().find(|step| *step >= apart);
    let apart = apart.unwrap_or(12);
    let tick = |day: &NaiveDate| {
        let x = line.x(*day);
        let named = day.month0().is_multiple_of(apart);
        let words = if day.month() == 1 || apart == 12 {
            day.format("%Y").to_string()
        } else {
            day.format("%b").to_string()
        };
        let name = (named && x < LEFT + WIDE - 14.0)
            .then(|| view! { <text x=x + 2.0 y="16">{words}</text> });
        let top = if named { 4.0 } else { 20.0 };
        view! {
            <line class="faint" x1=x x2=x y1=top y2=foot />
            {name}
        }
    };
    all.iter().map(tick).collect_any()
}

fn row(line: Line, n: usize, row: &RowDrawn) -> AnyView {
    let y = n as f64 * ROW + TOP;
    let legs = row
        .legs
        .iter()
        .filter(|leg| leg.until >= line.first)
        .map(|leg| {
            let (from, until) = (line.x(leg.from), line.x(leg.until));
            view! {
                <rect class=leg.class x=from y=y + 6.0 width=(until - from).max(1.0) height="14" />
            }
        });
    let at_pace = row.at_pace.zip(row.legs.last()).map(|(day, last)| {
        let (from, until) = (line.x(last.until), line.x(day));
        view! {
            <line class="at-pace" x1=from x2=until y1=y + 13.0 y2=y + 13.0 />
            <line class="at-pace" x1=until x2=until y1=y + 6.0 y2=y + 20.0 />
        }
    });
    view! {
        {legs.collect_any()}
        {at_pace}
    }
    .into_any()
}

/// Its name, over whatever line crosses it.
fn name(n: usize, row: &RowDrawn) -> AnyView {
    let y = n as f64 * ROW + TOP;
    view! { <text x=LEFT y=y + 2.0 class="over">{row.name.clone()}</text> }.into_any()
}

fn blanks_drawn(line: Line, y: f64, blanks: &[(NaiveDate, usize)]) -> Option<AnyView> {
    // Days that lie too near to be told apart are one dot, at the last of them.
    let mut dots: Vec<(f64, usize)> = Vec::new();
    for (day, count) in blanks {
        let x = line.x(*day);
        match dots.last_mut() {
            Some((before, sum)) if x - *before < 22.0 => (*before, *sum) = (x, *sum + count),
            _ => dots.push((x, *count)),
        }
    }
    let dot = |(x, count): &(f64, usize)| {
        let x = *x;
        let digits = count.to_string().len();
        let radius = 5.0 + 3.0 * digits as f64;
        view! {
            <circle class="dot" cx=x cy=y + 14.0 r=radius />
            <text class="on-dot" x=x y=y + 18.3 text-anchor="middle">{*count}</text>
        }
    };
    (!blanks.is_empty()).then(|| {
        view! {
            <text x=LEFT y=y + 2.0 class="over">"Blanks, at the earliest"</text>
            {dots.iter().map(dot).collect_any()}
        }
        .into_any()
    })
}

fn upright(line: Line, day: NaiveDate, foot: f64, name: &'static str) -> AnyView {
    let x = line.x(day);
    let (anchor, at) = if x > LEFT + WIDE * 0.7 {
        ("end", x - 4.0)
    } else {
        ("start", x + 4.0)
    };
    view! {
        <line class="straight" x1=x x2=x y1="20" y2=foot />
        <text x=at y="32" text-anchor=anchor class="over">{name}</text>
    }
    .into_any()
}
