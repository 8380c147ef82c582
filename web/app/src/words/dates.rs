//! Days as a maker writes them: `25 Apr`, with the year where it is another one.

use super::{Words, fill};
use chrono::{Datelike, NaiveDate};
use std::fmt::Display;

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
        day_of_month: "{day} {month}",
        day_of_year: "{day} {month} {year}",
        month_of_year: "{month} {year}",
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
    let sentence = match day.year() == today.year() {
        true => words.dates.day_of_month,
        false => words.dates.day_of_year,
    };
    filled(words, sentence, day).replace(' ', "\u{a0}")
}

/// The day with its year, in a line of text.
pub fn with_year(words: &Words, day: NaiveDate) -> String {
    filled(words, words.dates.day_of_year, day)
}

/// The month with its year.
pub fn month_of_year(words: &Words, day: NaiveDate) -> String {
    filled(words, words.dates.month_of_year, day).replace(' ', "\u{a0}")
}

fn filled(words: &Words, sentence: &str, day: NaiveDate) -> String {
    let parts: [(&str, &dyn Display); 3] = [
        ("day", &day.day()),
        ("month", &month(words, day)),
        ("year", &day.year()),
    ];
    fill(sentence, &parts)
}
