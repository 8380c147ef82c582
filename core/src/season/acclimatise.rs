//! How long a plank gets used to the air of the workshop before it is cut: weeks, from the day on which it
//! came.
//!
//! Days are the maker's, never a clock's. Whether the plank has dried in that time is told by the scale and
//! the meter, not here.

use super::rest::{DateKey, Ready, RestError, date_key};
use crate::quantity::Derivation;
use chrono::{Days, NaiveDate};

/// The day from which a plank may be cut that came on a day and lies so many weeks in the room.
///
/// An error beyond the calendar's end. Arithmetic of the calendar.
///
/// ```
/// use stillwood_core::{record::date, season::cut_from};
/// assert_eq!(cut_from(date("2026-12-10").unwrap(), 4), Ok(date("2027-01-07").unwrap()));
/// ```
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn cut_from(came: NaiveDate, weeks: u32) -> Result<NaiveDate, RestError> {
    let days = Days::new(u64::from(weeks) * 7);
    let beyond = RestError::WeeksBeyondTheCalendar { from: came, weeks };
    came.checked_add_days(days).ok_or(beyond)
}

/// How the day of [`cut_from`] was worked out. Errors as there.
///
/// No published value: it tells `cut_from`.
pub fn explain_cut_from(came: NaiveDate, weeks: u32) -> Result<Derivation, RestError> {
    let from = cut_from(came, weeks)?;
    Ok(Derivation::note(
        format!(
            "{came} + {weeks} weeks of 7 days = {from}: counted from the day on which it was first put in its place."
        ),
        "arithmetic of the calendar; the weeks are among the terms of pieces, yours to set",
    ))
}

/// How a plank stands that gets used to the room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InRoom {
    /// The day from which it may be cut.
    pub from: NaiveDate,
    pub date: DateKey,
    /// Whether its weight has come to rest; `None` where that is not known.
    pub weight_at_rest: Option<bool>,
}

impl InRoom {
    /// Whether it may be cut.
    pub fn ready(&self) -> Ready {
        match (self.date, self.weight_at_rest) {
            (DateKey::RestOver, Some(true)) => Ready::Yes,
            (DateKey::RestOver, None) => Ready::NotKnown,
            _ => Ready::No,
        }
    }

    /// It may be cut: its day has come, and its weight has come to rest.
    pub fn may_be_cut(&self) -> bool {
        self.ready() == Ready::Yes
    }
}

/// How a plank stands that came on a day.
///
/// An error where its day lies beyond the calendar.
pub fn in_room(
    came: NaiveDate,
    weeks: u32,
    today: NaiveDate,
    weight_at_rest: Option<bool>,
) -> Result<InRoom, RestError> {
    let from = cut_from(came, weeks)?;
    Ok(InRoom {
        from,
        date: date_key(from, today),
        weight_at_rest,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::date;

    fn day(text: &str) -> NaiveDate {
        date(text).unwrap()
    }

    #[test]
    fn weeks_are_counted_over_the_end_of_a_month_and_of_the_calendar() {
        for (came, weeks, from) in [
            ("2028-02-01", 4, "2028-02-29"),
            ("2027-02-01", 4, "2027-03-01"),
            ("2026-12-31", 8, "2027-02-25"),
            ("2026-11-25", 0, "2026-11-25"),
        ] {
            assert_eq!(cut_from(day(came), weeks), Ok(day(from)), "{came}");
        }
        for beyond in [
            cut_from(NaiveDate::MAX, 1),
            cut_from(day("2026-01-01"), u32::MAX),
        ] {
            assert!(matches!(
                beyond,
                Err(RestError::WeeksBeyondTheCalendar { .. })
            ));
        }
    }

    #[test]
    fn a_plank_may_be_cut_once_its_weeks_are_over_and_the_scale_says_so() {
        let at = |today: &str, weight| in_room(day("2026-09-01"), 4, day(today), weight).unwrap();
        for (today, weight, date, ready) in [
            ("2026-09-21", None, DateKey::Resting, Ready::No),
            ("2026-09-22", None, DateKey::DueSoon, Ready::No),
            ("2026-09-28", Some(true), DateKey::DueSoon, Ready::No),
            ("2026-09-29", None, DateKey::RestOver, Ready::NotKnown),
            ("2026-09-29", Some(true), DateKey::RestOver, Ready::Yes),
            ("2029-09-29", Some(false), DateKey::RestOver, Ready::No),
        ] {
            let found = at(today, weight);
            assert_eq!((found.date, found.ready()), (date, ready), "{today}");
            assert_eq!(found.may_be_cut(), ready == Ready::Yes);
        }
    }
}
