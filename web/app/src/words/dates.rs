//! Days as a maker writes them: `25 Apr`, with the year where it is another one.

use super::Words;
use chrono::{Datelike, NaiveDate};

words! {
    /// Days as a maker writes them.
    DateWords {
        january: "Jan",
        february: "Feb",
        march: "Mar",
        april: "Apr",
        may: "May",
        june: "Jun",
        july: "Jul",
        august: "Aug",
        september: "Sep",
        october: "Oct",
        november: "Nov",
        december: "Dec",
    }
}

/// The month's name.
pub fn month(words: &Words, day: NaiveDate) -> &'static str {
    let names = &words.dates;
    match day.month0() {
        0 => names.january,
        1 => names.february,
        2 => names.march,
        3 => names.april,
        4 => names.may,
        5 => names.june,
        6 => names.july,
        7 => names.august,
        8 => names.september,
        9 => names.october,
        10 => names.november,
        _ => names.december,
    }
}

/// The day; with its year where that is not the one of today.
pub fn day(words: &Words, day: NaiveDate, today: NaiveDate) -> String {
    let name = month(words, day);
    if day.year() == today.year() {
        format!("{}\u{a0}{name}", day.day())
    } else {
        format!("{}\u{a0}{name}\u{a0}{}", day.day(), day.year())
    }
}
