//! Days of the plan as a calendar file that other programs read: iCalendar, RFC 5545 (3.1 read in a
//! transcription, the other clauses from memory).
//!
//! Each day is a whole day without a time, so no change of the clocks moves it. The moment of writing
//! and the count of changes are passed in; nothing is repeated, invited or alarmed.

use chrono::{Datelike, NaiveDate, NaiveDateTime, Timelike};
use std::collections::BTreeMap;

/// The most octets in a line, its end left out: RFC 5545, 3.1.
const LINE: usize = 75;

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CalendarDay {
    /// What it is known by, the same whenever it is written again.
    pub uid: String,
    /// How often it has changed.
    pub sequence: u32,
    pub on: NaiveDate,
    pub summary: String,
    /// The rest of what there is to say.
    pub description: String,
    pub place: String,
    /// It was told of before and will not come: the program that reads this strikes it out.
    pub cancelled: bool,
}

/// What a calendar file told of before, so that the next can take back what is gone.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Published {
    /// The highest count of changes that was written.
    pub sequence: u32,
    /// The days, by their UID.
    pub days: BTreeMap<String, NaiveDate>,
}

impl Published {
    /// What has been told of once these days are written. A day that was cancelled is told of as
    /// cancelled until it is past: the file that said so first may never have been read.
    pub fn after(&self, written: &[CalendarDay], today: NaiveDate) -> Self {
        let kept = written
            .iter()
            .filter(|day| !day.cancelled || day.on >= today);
        let highest = written.iter().map(|day| day.sequence).max();
        Self {
            sequence: highest.unwrap_or_default().max(self.sequence),
            days: crate::order::map_of(kept.map(|day| (day.uid.clone(), day.on))),
        }
    }
}

/// The calendar file of some days, in the order given. `written` is the moment in UTC (DTSTAMP).
///
/// One VEVENT a day with DTSTART as a DATE (3.6.1: without DTEND it lasts that day), lines ended by CRLF
/// and folded at 75 octets (3.1), texts escaped (3.3.11), UID and SEQUENCE as given (3.8.4.7, 3.8.7.4),
/// STATUS where it is cancelled (3.8.1.11).
pub fn calendar(days: &[CalendarDay], written: NaiveDateTime) -> String {
    let mut out = String::new();
    for fixed in [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Stillwood//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
    ] {
        push_line(&mut out, fixed);
    }
    for day in days {
        push_line(&mut out, "BEGIN:VEVENT");
        push_text(&mut out, "UID", &day.uid);
        let day_written = day_as_digits(written.date());
        let time = written.time();
        let (hour, minute, second) = (time.hour(), time.minute(), time.second());
        push_line(
            &mut out,
            &format!("DTSTAMP:{day_written}T{hour:02}{minute:02}{second:02}Z"),
        );
        push_line(&mut out, &format!("SEQUENCE:{}", day.sequence));
        let on = day_as_digits(day.on);
        push_line(&mut out, &format!("DTSTART;VALUE=DATE:{on}"));
        push_text(&mut out, "SUMMARY", &day.summary);
        for (name, text) in [("DESCRIPTION", &day.description), ("LOCATION", &day.place)] {
            if !text.is_empty() {
                push_text(&mut out, name, text);
            }
        }
        if day.cancelled {
            push_line(&mut out, "STATUS:CANCELLED");
        }
        push_line(&mut out, "TRANSP:TRANSPARENT");
        push_line(&mut out, "END:VEVENT");
    }
    push_line(&mut out, "END:VCALENDAR");
    out
}

/// A date as RFC 5545 writes it, 3.3.4: `20261003`.
fn day_as_digits(day: NaiveDate) -> String {
    format!("{:04}{:02}{:02}", day.year(), day.month(), day.day())
}

fn push_text(out: &mut String, name: &str, text: &str) {
    push_line(out, &format!("{name}:{}", escaped(text)));
}

/// A text value: RFC 5545, 3.3.11. Control characters have no place in one and are left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.replace("\r\n", "\n").chars() {
        match sign {
            '\\' | ';' | ',' => out.extend(['\\', sign]),
            '\n' | '\r' => out.push_str("\\n"),
            '\t' => out.push(sign),
            _ if sign.is_control() => {}
            _ => out.push(sign),
        }
    }
    out
}

/// A content line, folded between whole characters.
fn push_line(out: &mut String, line: &str) {
    let mut octets = 0;
    for sign in line.chars() {
        if octets + sign.len_utf8() > LINE {
            out.push_str("\r\n ");
            octets = 1;
        }
        out.push(sign);
        octets += sign.len_utf8();
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::date;
    use proptest::prelude::*;

    fn one(summary: &str) -> String {
        let day = CalendarDay {
            uid: "laminates-2026-10-03@stillwood".into(),
            sequence: 2,
            on: date("2027-04-03").unwrap(),
            summary: summary.into(),
            description: String::new(),
            place: String::new(),
            cancelled: false,
        };
        let written = date("2026-10-03").unwrap().and_hms_opt(16, 0, 5).unwrap();
        calendar(&[day], written)
    }

    #[test]
    fn a_whole_day_as_the_standard_lays_it_out() {
        assert_eq!(
            one("64 laminates are ripe; shelf 3, left\nsee C:\\"),
            "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Stillwood//EN\r\nCALSCALE:GREGORIAN\r\n\
             METHOD:PUBLISH\r\nBEGIN:VEVENT\r\nUID:laminates-2026-10-03@stillwood\r\n\
             DTSTAMP:20261003T160005Z\r\nSEQUENCE:2\r\nDTSTART;VALUE=DATE:20270403\r\n\
             SUMMARY:64 laminates are ripe\\; shelf 3\\, left\\nsee C:\\\\\r\n\
             TRANSP:TRANSPARENT\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
        );
    }

    proptest! {
        #[test]
        fn no_line_is_too_long_and_unfolding_gives_the_text_back(text: String) {
            let file = one(&text);
            for line in file.split("\r\n") {
                prop_assert!(line.len() <= LINE);
                prop_assert!(!line.contains(['\r', '\n']));
            }
            let whole = file.replace("\r\n ", "");
            let wanted = format!("\r\nSUMMARY:{}\r\n", escaped(&text));
            prop_assert!(whole.contains(&wanted));
        }
    }
}
