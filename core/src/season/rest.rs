//! When a rest is over: calendar months from a day, and the two keys, a date and a measurement, that
//! both have to turn.
//!
//! Days are the maker's, never a clock's, so no change of the clocks matters. It never ends a rest: it
//! says what speaks for ending it and what is missing.

use super::StageLimits;
use super::movement::Movement;
use crate::quantity::Derivation;
use chrono::{Datelike, Days, Months, NaiveDate};
use thiserror::Error;

/// Days before its date on which a rest counts as due soon.
pub const SOON_DAYS: u64 = 7;

/// Why no day can be given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum RestError {
    /// The calendar ends before.
    #[error("{months} months from {from} is beyond the calendar")]
    BeyondTheCalendar {
        from: NaiveDate,
        /// How many months.
        months: u32,
    },
    /// The calendar ends before.
    #[error("{weeks} weeks from {from} is beyond the calendar")]
    WeeksBeyondTheCalendar {
        from: NaiveDate,
        /// How many weeks.
        weeks: u32,
    },
}

/// The day on which a rest of so many calendar months is over: the same day of the month, or the last
/// day where that month is shorter (31 August and six months is 28 or 29 February).
///
/// An error beyond the calendar's end. Arithmetic of the calendar.
///
/// ```
/// use stillwood_core::{record::date, season::due_day};
/// assert_eq!(due_day(date("2026-08-31").unwrap(), 6), Ok(date("2027-02-28").unwrap()));
/// ```
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn due_day(from: NaiveDate, months: u32) -> Result<NaiveDate, RestError> {
    from.checked_add_months(Months::new(months))
        .ok_or(RestError::BeyondTheCalendar { from, months })
}

/// How the day of [`due_day`] was worked out. Errors as there.
///
/// No published value: it tells `due_day`.
pub fn explain_due(from: NaiveDate, months: u32) -> Result<Derivation, RestError> {
    let due = due_day(from, months)?;
    Ok(Derivation::note(
        format!(
            "{from} + {months} calendar months = {due}: the same day of the month, or the last one where \
             that month is shorter."
        ),
        "arithmetic of the calendar; the months are the stage's terms, yours to set",
    ))
}

/// The whole calendar months that have passed from a day to another: the most whose [`due_day`] is not after
/// it, none where it is not later.
///
/// ```
/// use stillwood_core::{record::date, season::whole_months};
/// let months = |from, to| whole_months(date(from).unwrap(), date(to).unwrap());
/// assert_eq!(months("2025-05-19", "2026-07-18"), 13);
/// assert_eq!(months("2025-05-19", "2026-07-19"), 14);
/// assert_eq!(months("2026-08-31", "2027-02-28"), 6);
/// ```
///
/// No published value: calendar arithmetic, `due_day` counted back.
pub fn whole_months(from: NaiveDate, to: NaiveDate) -> u32 {
    let of_year = |day: NaiveDate| i64::from(day.year()) * 12 + i64::from(day.month());
    let months = u32::try_from(of_year(to) - of_year(from)).unwrap_or(0);
    match due_day(from, months) {
        Ok(day) if day > to => months.saturating_sub(1),
        _ => months,
    }
}

/// The time from a day to another in words: `14 months`, under one `12 days`; `less than a day` where it is not later.
///
/// ```
/// use stillwood_core::{record::date, season::passed_in_words};
/// let passed = |from, to| passed_in_words(date(from).unwrap(), date(to).unwrap());
/// assert_eq!(passed("2025-05-19", "2026-07-19"), "14 months");
/// assert_eq!(passed("2026-07-18", "2026-07-19"), "1 day");
/// assert_eq!(passed("2026-07-19", "2026-07-19"), "less than a day");
/// assert_eq!(passed("2026-07-20", "2026-07-19"), "less than a day");
/// ```
pub fn passed_in_words(from: NaiveDate, to: NaiveDate) -> String {
    let (count, one) = match whole_months(from, to) {
        0 => ((to - from).num_days(), "day"),
        months => (months.into(), "month"),
    };
    match count {
        ..=0 => "less than a day".to_owned(),
        1 => format!("1 {one}"),
        several => format!("{several} {one}s"),
    }
}

/// How [`passed_in_words`] was counted.
///
/// No published value: it tells `whole_months`.
pub fn explain_passed(from: NaiveDate, to: NaiveDate) -> Derivation {
    Derivation::note(
        format!("From {from} to {to}: {}.", passed_in_words(from, to)),
        "arithmetic of the calendar: whole months, what is over them left out",
    )
}

/// The last day on which a rest of so many calendar months can begin to be over by `until`:
/// [`due_day`] turned round.
///
/// An error before the calendar's beginning. Arithmetic of the calendar.
///
/// ```
/// use stillwood_core::{record::date, season::begin_by};
/// // Begun on any of the last days of August, six months are over on 28 February.
/// assert_eq!(begin_by(date("2027-02-28").unwrap(), 6), Ok(date("2026-08-31").unwrap()));
/// ```
///
/// No published value: calendar arithmetic, `due_day` turned round.
pub fn begin_by(until: NaiveDate, months: u32) -> Result<NaiveDate, RestError> {
    let beyond = RestError::BeyondTheCalendar {
        from: until,
        months,
    };
    let mut latest = until
        .checked_sub_months(Months::new(months))
        .ok_or(beyond)?;
    // At a short month's end up to three later days come to the same day.
    for _ in 0..3 {
        match latest.succ_opt() {
            Some(next) if due_day(next, months).is_ok_and(|due| due <= until) => latest = next,
            _ => break,
        }
    }
    Ok(latest)
}

/// Whether the date's key has turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DateKey {
    Resting,
    /// Within [`SOON_DAYS`].
    DueSoon,
    /// The least rest is over. Wood only gets better: never called overdue.
    RestOver,
}

/// How the date's key stands on a day.
pub fn date_key(due: NaiveDate, today: NaiveDate) -> DateKey {
    let soon = today.checked_add_days(Days::new(SOON_DAYS));
    if today >= due {
        DateKey::RestOver
    } else if soon.is_none_or(|soon| soon >= due) {
        DateKey::DueSoon
    } else {
        DateKey::Resting
    }
}

/// Whether wood may go on to what comes next. What is not known is never taken for good.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ready {
    /// Its day has come, and all that was measured says so.
    Yes,
    /// Its day has come, and what was measured leaves it open.
    NotKnown,
    /// Its day has not come, or something measured speaks against it.
    No,
}

/// Whether the measurement's key has turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MeasureKey {
    /// Fewer than two checks since the rest began.
    NotChecked,
    /// The last two checks leave it open: measure again.
    TooClose,
    /// It moved beyond its limit in one of the last two.
    Moved,
    /// The movement is good, but the weight is still changing.
    WeightChanging,
    /// The movement is good, but whether the weight has come to rest is not known.
    WeightNotKnown,
    /// The last two checks are within limits, and the weight has come to rest.
    Still,
}

impl MeasureKey {
    /// In the maker's words.
    pub fn in_words(self) -> &'static str {
        match self {
            MeasureKey::NotChecked => "more looks wanted",
            MeasureKey::TooClose => "too close to call: check again",
            MeasureKey::Moved => "moved beyond its limit",
            MeasureKey::WeightChanging => "keeps its shape, weight still changing",
            MeasureKey::WeightNotKnown => "keeps its shape, weight not known",
            MeasureKey::Still => "keeps its shape, weight steady",
        }
    }
}

/// So many looks, the last ones, tell how a piece stands.
const LOOKS: usize = 2;

/// How the measurement's key stands: the movement at each check since the rest began, oldest first, and
/// whether the weight has come to rest (`None` where that is not known: then no more is said than that).
///
/// The last two checks count: one alone may have caught a piece on its way. Common practice, no source.
///
/// No published value: a rule of the maker's own.
pub fn measure_key(checks: &[Movement], weight_at_rest: Option<bool>) -> MeasureKey {
    let Some(last) = checks.last_chunk::<LOOKS>() else {
        return MeasureKey::NotChecked;
    };
    if last.contains(&Movement::Beyond) {
        MeasureKey::Moved
    } else if last.contains(&Movement::TooClose) {
        MeasureKey::TooClose
    } else if last.contains(&Movement::NotMeasured) {
        MeasureKey::NotChecked
    } else {
        match weight_at_rest {
            Some(true) => MeasureKey::Still,
            Some(false) => MeasureKey::WeightChanging,
            None => MeasureKey::WeightNotKnown,
        }
    }
}

/// How many looks are still wanted until [`measure_key`] tells how a piece stands, each of which measures it or says that
/// it has not changed: the last two have to show its movement. `has_start` is whether it is known what each of its shapes
/// moves from, because it was machined flat or measured once; until then the first look is that start and shows none.
///
/// ```
/// use stillwood_core::season::{Movement, looks_wanted};
/// assert_eq!(looks_wanted(&[], false), 3);
/// assert_eq!(looks_wanted(&[Movement::NotMeasured], true), 2);
/// assert_eq!(looks_wanted(&[Movement::NotMeasured, Movement::Within], true), 1);
/// assert_eq!(looks_wanted(&[Movement::Within, Movement::Within], true), 0);
/// ```
///
/// No published value: `measure_key` counted back.
pub fn looks_wanted(checks: &[Movement], has_start: bool) -> usize {
    let show_movement = checks.iter().rev();
    let show_movement = show_movement.take_while(|one| **one != Movement::NotMeasured);
    LOOKS.saturating_sub(show_movement.count()) + usize::from(!has_start)
}

/// How a rest stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Readiness {
    /// The day on which the least rest is over.
    pub due: NaiveDate,
    pub date: DateKey,
    pub measure: MeasureKey,
    /// See [`looks_wanted`].
    pub looks_wanted: usize,
}

impl Readiness {
    /// Whether its rest is over.
    pub fn ready(&self) -> Ready {
        use MeasureKey::*;
        match (self.date, self.measure) {
            (DateKey::RestOver, Still) => Ready::Yes,
            (DateKey::RestOver, NotChecked | TooClose | WeightNotKnown) => Ready::NotKnown,
            (DateKey::RestOver, Moved | WeightChanging) => Ready::No,
            (DateKey::Resting | DateKey::DueSoon, _) => Ready::No,
        }
    }

    /// Both keys have turned.
    pub fn is_ready(&self) -> bool {
        self.ready() == Ready::Yes
    }

    /// The date's key has turned and it kept its shape, but its weight is not known.
    pub fn lacks_only_its_weight(&self) -> bool {
        self.date == DateKey::RestOver && self.measure == MeasureKey::WeightNotKnown
    }

    /// Early: the measurement's key has turned, the date's has not.
    pub fn is_early(&self) -> bool {
        self.date != DateKey::RestOver && self.measure == MeasureKey::Still
    }
}

/// How a rest stands that began on a day, under the stage's terms. `has_start` as for [`looks_wanted`].
///
/// An error where the due day lies beyond the calendar.
pub fn readiness(
    since: NaiveDate,
    terms: &StageLimits,
    today: NaiveDate,
    checks: &[Movement],
    has_start: bool,
    weight_at_rest: Option<bool>,
) -> Result<Readiness, RestError> {
    let due = due_day(since, terms.months)?;
    Ok(Readiness {
        due,
        date: date_key(due, today),
        measure: measure_key(checks, weight_at_rest),
        looks_wanted: looks_wanted(checks, has_start),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::date;
    use crate::season::Stage;
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        date(text).unwrap()
    }

    #[test]
    fn months_end_where_the_month_ends() {
        for (from, months, due) in [
            ("2026-08-31", 6, "2027-02-28"),
            ("2027-08-31", 6, "2028-02-29"),
            ("2028-02-29", 12, "2029-02-28"),
            ("2028-02-29", 48, "2032-02-29"),
            ("2026-10-31", 1, "2026-11-30"),
            ("2026-03-28", 7, "2026-10-28"),
            ("2026-11-25", 0, "2026-11-25"),
        ] {
            assert_eq!(due_day(day(from), months), Ok(day(due)), "{from}");
        }
        assert!(due_day(NaiveDate::MAX, 1).is_err());
        assert!(due_day(day("2026-01-01"), u32::MAX).is_err());
        assert!(begin_by(day("2026-01-01"), u32::MAX).is_err());
    }

    #[test]
    fn a_week_before_it_is_due_soon_and_then_ripe_for_ever() {
        let due = day("2027-03-01");
        for (today, key) in [
            ("2027-02-21", DateKey::Resting),
            ("2027-02-22", DateKey::DueSoon),
            ("2027-02-28", DateKey::DueSoon),
            ("2027-03-01", DateKey::RestOver),
            ("2029-03-01", DateKey::RestOver),
        ] {
            assert_eq!(date_key(due, day(today)), key, "{today}");
        }
    }

    #[test]
    fn six_months_alone_do_not_pass_a_piece_that_moved_last_week() {
        use Movement::*;
        let terms = StageLimits::supplied(Stage::Laminates);
        let at = |checks: &[Movement], today: &str, weight| {
            readiness(day("2026-10-03"), &terms, day(today), checks, true, weight).unwrap()
        };
        let late = "2027-06-01";
        let weighed = Some(true);
        assert!(at(&[Steady, Within], late, weighed).is_ready());
        assert!(at(&[Beyond, Steady, Within], late, weighed).is_ready());
        assert!(!at(&[Steady, Within], "2027-04-02", weighed).is_ready());
        assert!(at(&[Steady, Within], "2027-04-03", weighed).is_ready());
        for (checks, weight, key) in [
            (&[Steady, Beyond][..], None, MeasureKey::Moved),
            (&[Beyond, Steady][..], None, MeasureKey::Moved),
            (&[Steady][..], None, MeasureKey::NotChecked),
            (&[][..], Some(true), MeasureKey::NotChecked),
            (&[Steady, TooClose][..], None, MeasureKey::TooClose),
            (
                &[Steady, Steady][..],
                Some(false),
                MeasureKey::WeightChanging,
            ),
            (&[Steady, Steady][..], None, MeasureKey::WeightNotKnown),
        ] {
            let found = at(checks, late, weight);
            assert_eq!(found.measure, key, "{checks:?}");
            assert!(!found.is_ready());
        }
    }

    #[test]
    fn what_is_not_known_is_neither_ready_nor_not() {
        use Movement::*;
        let terms = StageLimits::supplied(Stage::Laminates);
        let at = |today: &str, checks: &[Movement], weight| {
            readiness(day("2026-10-03"), &terms, day(today), checks, true, weight).unwrap()
        };
        let (early, over) = ("2027-04-02", "2027-04-03");
        for (today, checks, weight, ready) in [
            (over, &[Steady, Within][..], Some(true), Ready::Yes),
            (over, &[Steady, Within][..], None, Ready::NotKnown),
            (over, &[Steady, Within][..], Some(false), Ready::No),
            (over, &[Steady][..], Some(true), Ready::NotKnown),
            (over, &[Steady, TooClose][..], Some(true), Ready::NotKnown),
            (over, &[Steady, Beyond][..], None, Ready::No),
            (early, &[Steady, Within][..], Some(true), Ready::No),
            (early, &[Steady, Within][..], None, Ready::No),
        ] {
            let found = at(today, checks, weight);
            assert_eq!(found.ready(), ready, "{today} {checks:?} {weight:?}");
            let lacks = ready == Ready::NotKnown && weight.is_none();
            assert_eq!(found.lacks_only_its_weight(), lacks);
        }
    }

    #[test]
    fn early_late_ready_and_neither_are_told_apart() {
        let since = day("2026-10-03");
        let terms = StageLimits::supplied(Stage::Laminates);
        let checks = [Movement::Steady, Movement::Within];
        for (today, checks, early, ready) in [
            ("2027-01-01", &checks[..], true, Ready::No),
            ("2027-04-02", &checks[..], true, Ready::No),
            ("2027-04-03", &checks[..], false, Ready::Yes),
            ("2027-04-03", &checks[..1], false, Ready::NotKnown),
            ("2027-01-01", &checks[..1], false, Ready::No),
        ] {
            let found = readiness(since, &terms, day(today), checks, true, Some(true)).unwrap();
            let told = (found.is_early(), found.ready());
            assert_eq!(told, (early, ready), "{today}");
            assert!(!found.is_ready() || !early);
        }
    }

    #[test]
    fn so_many_looks_as_are_wanted_tell_and_one_less_does_not() {
        use Movement::*;
        for checks in [
            &[][..],
            &[NotMeasured],
            &[Steady],
            &[Steady, NotMeasured],
            &[NotMeasured, Steady],
            &[NotMeasured, Watch, Within],
        ] {
            // Where it is not known what it moves from, the first of them shows no movement.
            let shows_movement = checks.iter().any(|one| *one != NotMeasured);
            for first in [None, Some(NotMeasured)] {
                if shows_movement && first.is_some() {
                    continue;
                }
                let wanted = looks_wanted(checks, first.is_none());
                let after = |looks: usize| {
                    let more = first
                        .into_iter()
                        .chain(std::iter::repeat(Within))
                        .take(looks);
                    let all: Vec<Movement> = checks.iter().copied().chain(more).collect();
                    measure_key(&all, Some(true))
                };
                assert_ne!(after(wanted), MeasureKey::NotChecked, "{checks:?}");
                if let Some(less) = wanted.checked_sub(1) {
                    assert_eq!(after(less), MeasureKey::NotChecked, "{checks:?}");
                }
            }
        }
    }

    proptest! {
        #[test]
        fn the_last_day_to_begin_is_the_last(days in 0i32..200_000, months in 0u32..60) {
            let until = day("1990-01-01") + chrono::Duration::days(i64::from(days));
            let begin = begin_by(until, months).unwrap();
            prop_assert!(due_day(begin, months).unwrap() <= until);
            prop_assert!(due_day(begin.succ_opt().unwrap(), months).unwrap() > until);
        }

        #[test]
        fn begun_later_is_never_over_sooner(days in 0i32..200_000, months in 0u32..60) {
            let from = day("1990-01-01") + chrono::Duration::days(i64::from(days));
            let next = from.succ_opt().unwrap();
            prop_assert!(due_day(from, months).unwrap() <= due_day(next, months).unwrap());
        }
    }
}
