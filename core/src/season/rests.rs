//! How long wood is to lie in each stage: the least rest of its terms, and days that it lies longer.
//!
//! Days are the calendar's. It does not know whose days those are: see [`super::pace`](super::pace()).

use super::rest::{RestError, begin_by, due_day};
use super::{Stage, StageLimits};
use chrono::{Days, NaiveDate};

/// How long wood lies in a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RestLength {
    /// The least rest, in calendar months.
    pub months: u32,
    /// Days that it lies longer before the next step.
    pub longer: u32,
}

impl RestLength {
    /// The least rest and no longer.
    pub fn least(months: u32) -> Self {
        Self { months, longer: 0 }
    }

    /// No rest at all.
    pub fn is_none(self) -> bool {
        self.months == 0 && self.longer == 0
    }

    fn beyond(self, from: NaiveDate) -> RestError {
        RestError::BeyondTheCalendar {
            from,
            months: self.months,
        }
    }

    /// The day on which wood that lies since a day goes on: that of [`due_day`], and so many days more.
    ///
    /// An error beyond the calendar's end. Arithmetic of the calendar.
    ///
    /// No published value: calendar arithmetic, held in tests against days counted by hand.
    pub fn goes_on(self, since: NaiveDate) -> Result<NaiveDate, RestError> {
        let longer = Days::new(self.longer.into());
        due_day(since, self.months)?
            .checked_add_days(longer)
            .ok_or(self.beyond(since))
    }

    /// The last day on which wood can be laid to rest to go on by `until`: [`Self::goes_on`] turned
    /// round.
    ///
    /// An error before the calendar's beginning. Arithmetic of the calendar.
    ///
    /// No published value: calendar arithmetic, `goes_on` turned round.
    pub fn lay_by(self, until: NaiveDate) -> Result<NaiveDate, RestError> {
        let longer = Days::new(self.longer.into());
        let due = until.checked_sub_days(longer).ok_or(self.beyond(until))?;
        begin_by(due, self.months)
    }

    /// `6 months and 21 days`.
    pub fn in_words(self) -> String {
        let counted = |count: u32, one: &str| match count {
            1 => format!("1 {one}"),
            several => format!("{several} {one}s"),
        };
        match self.longer {
            0 => counted(self.months, "month"),
            days => format!(
                "{} and {}",
                counted(self.months, "month"),
                counted(days, "day")
            ),
        }
    }
}

/// How long a plank lies in the room before it is cut, and wood in each of the three stages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rests {
    /// Weeks that a plank lies in the room before it is cut.
    pub weeks_in_room: u32,
    pub pieces: RestLength,
    pub laminates: RestLength,
    pub blanks: RestLength,
}

impl Rests {
    /// Of each stage as told, with no weeks in the room before.
    pub fn each(of: impl Fn(Stage) -> RestLength) -> Self {
        Self {
            weeks_in_room: 0,
            pieces: of(Stage::Pieces),
            laminates: of(Stage::Laminates),
            blanks: of(Stage::Blanks),
        }
    }

    /// The weeks in the room and the least rests of each stage's terms.
    pub fn least(terms: impl Fn(Stage) -> StageLimits) -> Self {
        Self {
            weeks_in_room: terms(Stage::Pieces).weeks_before_cut(),
            ..Self::each(|stage| RestLength::least(terms(stage).months))
        }
    }

    pub fn of(&self, stage: Stage) -> RestLength {
        match stage {
            Stage::Pieces => self.pieces,
            Stage::Laminates => self.laminates,
            Stage::Blanks => self.blanks,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::date;
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        date(text).unwrap()
    }

    #[test]
    fn longer_by_so_many_days() {
        let rest = RestLength {
            months: 6,
            longer: 21,
        };
        // Half a year from the end of August is the end of February; three weeks from there.
        assert_eq!(rest.goes_on(day("2026-08-31")), Ok(day("2027-03-21")));
        assert_eq!(rest.lay_by(day("2027-03-21")), Ok(day("2026-08-31")));
        assert_eq!(rest.lay_by(day("2027-03-20")), Ok(day("2026-08-27")));
        assert_eq!(rest.in_words(), "6 months and 21 days");
        let one = RestLength {
            months: 1,
            longer: 1,
        };
        assert_eq!(one.in_words(), "1 month and 1 day");
        assert_eq!(RestLength::least(12).in_words(), "12 months");
    }

    #[test]
    fn the_calendar_ends() {
        let rest = RestLength {
            months: 0,
            longer: u32::MAX,
        };
        assert!(rest.goes_on(day("2026-01-01")).is_err());
        assert!(rest.lay_by(day("2026-01-01")).is_err());
    }

    proptest! {
        #[test]
        fn the_last_day_to_lay_it_down_is_the_last(days in 0i32..200_000, months in 0u32..60, longer in 0u32..900) {
            let until = day("1990-01-01") + chrono::Duration::days(i64::from(days));
            let rest = RestLength { months, longer };
            let by = rest.lay_by(until).unwrap();
            prop_assert!(rest.goes_on(by).unwrap() <= until);
            prop_assert!(rest.goes_on(by.succ_opt().unwrap()).unwrap() > until);
        }
    }
}
