//! Dates of a plan: from the wood that is held to the earliest blanks, and from a day on which blanks are
//! wanted back to the day by which wood has to be cut.
//!
//! It reckons with the rests that it is given, the least ones or longer, with the weeks that a plank lies in the room
//! before it is cut, and as if every piece came through: how many will not is said by [`super::StartSearch`]. Days
//! at the bench are counted as none.

use super::acclimatise::cut_from;
use super::rest::RestError;
use super::{Rests, Stage};
use crate::order;
use crate::quantity::Derivation;
use chrono::{Days, NaiveDate};
use thiserror::Error;

/// Where a piece of wood stands in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanPosition {
    /// A plank, since when it lies in its place; none where it is not there yet, or still to be bought: it comes today.
    Plank(Option<NaiveDate>),
    /// Resting since a day.
    Resting(Stage, NaiveDate),
    /// At a stage and not set to rest: its rest would begin today.
    NotSetToRest(Stage),
}

/// Wood that is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StockItem {
    pub standing: PlanPosition,
    /// How many laminates it is expected to give (a laminate one, a blank none).
    pub laminates: u32,
}

/// Why no plan can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum SeasonPlanError {
    #[error("a blank of no laminates: it takes at least one")]
    NoLaminates,
    /// More than can be reckoned.
    #[error("{0} laminates: more than {MOST} are not reckoned with here")]
    TooMany(u64),
    /// A rest beyond the calendar.
    #[error(transparent)]
    Rest(#[from] RestError),
}

/// The most laminates that are planned with.
const MOST: u64 = 100_000;

/// The day from which a thing at a stage is free for the next, never before today.
fn free(
    stage: Stage,
    since: NaiveDate,
    rests: &Rests,
    today: NaiveDate,
) -> Result<NaiveDate, RestError> {
    Ok(rests.of(stage).goes_on(since)?.max(today))
}

/// A rest on the way to a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Leg {
    pub stage: Stage,
    /// When it begins, or began.
    pub from: NaiveDate,
    /// When the wood is free for the next step, never before today.
    pub until: NaiveDate,
}

/// The day on which a plank is cut that lies in its place since a day, or comes today: when its weeks in the room are
/// over, never before today.
///
/// An error beyond the calendar. Arithmetic of the calendar.
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn cut_on(
    came: Option<NaiveDate>,
    rests: &Rests,
    today: NaiveDate,
) -> Result<NaiveDate, RestError> {
    Ok(cut_from(came.unwrap_or(today), rests.weeks_in_room)?.max(today))
}

/// The rests that wood still has before it until it is a blank, in order, each begun on the day on which
/// the one before is over. A plank is cut when its weeks in the room are over, see [`cut_on`]; one whose pieces do not
/// rest goes straight to laminates.
///
/// An error beyond the calendar. Arithmetic of the calendar.
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn way_ahead(
    standing: PlanPosition,
    rests: &Rests,
    today: NaiveDate,
) -> Result<Vec<Leg>, RestError> {
    let (first, since) = match standing {
        PlanPosition::Plank(came) => {
            let first = match rests.pieces.is_none() {
                true => Stage::Laminates,
                false => Stage::Pieces,
            };
            (first, cut_on(came, rests, today)?)
        }
        PlanPosition::Resting(stage, since) => (stage, since),
        PlanPosition::NotSetToRest(stage) => (stage, today),
    };
    let mut from = since;
    let mut legs = Vec::new();
    for stage in Stage::ALL.into_iter().filter(|stage| *stage >= first) {
        let until = free(stage, from, rests, today)?;
        legs.push(Leg { stage, from, until });
        from = until;
    }
    Ok(legs)
}

/// How the last day of [`way_ahead`] was worked out. Errors as there.
///
/// No published value: it tells `way_ahead`.
pub fn explain_ahead(
    standing: PlanPosition,
    rests: &Rests,
    today: NaiveDate,
) -> Result<Derivation, RestError> {
    let legs = way_ahead(standing, rests, today)?;
    let leg = |leg: &Leg| {
        let (name, rest) = (leg.stage.name(), rests.of(leg.stage).in_words());
        format!("{} and {rest} as {name}: {}.", leg.from, leg.until)
    };
    let mut working = Derivation::note(
        "Each rest begins on the day on which the one before is over; days at the bench are counted as none.",
        "arithmetic of the calendar; months are the stage's terms, yours to set",
    );
    working.notes.splice(0..0, legs.iter().map(leg));
    if let PlanPosition::Plank(came) = standing
        && rests.weeks_in_room > 0
    {
        let came = came.unwrap_or(today);
        let from = cut_from(came, rests.weeks_in_room)?;
        let days = 7 * u64::from(rests.weeks_in_room);
        let room = format!("{came} and {days} days in the room: {from}.");
        working.notes.insert(0, room);
    }
    Ok(working)
}

/// The earliest day for each blank that the wood in hand can give, earliest first.
///
/// Blanks that are held come when their rest is over. Laminates are put together `per_blank` at a time in
/// the order in which they come free: the k-th blank can't be glued before k times as many are free, so
/// no other order gives it earlier. Then it rests as a blank. Which laminates go together is not asked:
/// give the wood of one kind of blank at a time.
///
/// An error for blanks of no laminates, beyond the calendar, or above 100000 laminates. Arithmetic of
/// the calendar.
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn earliest_blanks(
    held: &[StockItem],
    per_blank: u32,
    rests: &Rests,
    today: NaiveDate,
) -> Result<Vec<NaiveDate>, SeasonPlanError> {
    if per_blank == 0 {
        return Err(SeasonPlanError::NoLaminates);
    }
    let count: u64 = held.iter().map(|h| u64::from(h.laminates)).sum();
    if count > MOST {
        return Err(SeasonPlanError::TooMany(count));
    }
    let mut blanks = Vec::new();
    let mut laminates: Vec<NaiveDate> = Vec::new();
    for one in held {
        let legs = way_ahead(one.standing, rests, today)?;
        let over = |stage| legs.iter().find(|leg| leg.stage == stage);
        match (over(Stage::Laminates), over(Stage::Blanks)) {
            (Some(leg), _) => laminates.extend((0..one.laminates).map(|_| leg.until)),
            (None, Some(leg)) => blanks.push(leg.until),
            (None, None) => {}
        }
    }
    order::sort(&mut laminates);
    for set in laminates.chunks_exact(per_blank as usize) {
        if let Some(&glued) = set.last() {
            blanks.push(free(Stage::Blanks, glued, rests, today)?);
        }
    }
    order::sort(&mut blanks);
    Ok(blanks)
}

/// The last days on which each step can be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LatestDays {
    /// Planks bought and put in their place.
    pub buy_by: NaiveDate,
    /// Planks cut to pieces and set to rest.
    pub cut_by: NaiveDate,
    /// Pieces ripped to laminates and set to rest.
    pub rip_by: NaiveDate,
    /// Laminates glued to blanks.
    pub glue_by: NaiveDate,
}

/// By when planks have to be bought and wood cut, ripped and glued, so that blanks are ready on a day.
///
/// Each is the last day whose rest is over in time, see [`lay_by`](super::RestLength::lay_by); a plank is bought its
/// weeks in the room before it is cut. Arithmetic of the calendar.
///
/// ```
/// use stillwood_core::{record::date, season::{RestLength, Rests, latest_days}};
/// let rests = Rests::each(|_| RestLength::least(6));
/// let plan = latest_days(date("2028-05-01").unwrap(), &rests).unwrap();
/// assert_eq!(plan.glue_by, date("2027-11-01").unwrap());
/// assert_eq!(plan.cut_by, date("2026-11-01").unwrap());
/// ```
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn latest_days(ready: NaiveDate, rests: &Rests) -> Result<LatestDays, RestError> {
    let glue_by = rests.blanks.lay_by(ready)?;
    let rip_by = rests.laminates.lay_by(glue_by)?;
    let cut_by = rests.pieces.lay_by(rip_by)?;
    Ok(LatestDays {
        buy_by: bought_by(cut_by, rests.weeks_in_room)?,
        cut_by,
        rip_by,
        glue_by,
    })
}

/// [`cut_from`] turned round.
fn bought_by(cut_by: NaiveDate, weeks: u32) -> Result<NaiveDate, RestError> {
    let beyond = RestError::WeeksBeyondTheCalendar {
        from: cut_by,
        weeks,
    };
    let days = Days::new(u64::from(weeks) * 7);
    cut_by.checked_sub_days(days).ok_or(beyond)
}

/// How the days of [`latest_days`] were worked out. Errors as there.
///
/// No published value: it tells `latest_days`.
pub fn explain_latest(ready: NaiveDate, rests: &Rests) -> Result<Derivation, RestError> {
    let days = latest_days(ready, rests)?;
    let step = |until: NaiveDate, stage: Stage, by: NaiveDate| {
        let (name, rest) = (stage.name(), rests.of(stage).in_words());
        format!("{until} less {rest} as {name}: {by}.")
    };
    let laminates = Derivation::note(
        step(ready, Stage::Blanks, days.glue_by),
        "arithmetic of the calendar; months are the stage's terms, yours to set",
    )
    .and(step(days.glue_by, Stage::Laminates, days.rip_by));
    let all = match rests.pieces.is_none() {
        true => laminates,
        false => laminates.and(step(days.rip_by, Stage::Pieces, days.cut_by)),
    };
    let all = match rests.weeks_in_room {
        0 => all,
        weeks => all.and(format!(
            "{} less {} days in the room: {}.",
            days.cut_by,
            7 * u64::from(weeks),
            days.buy_by
        )),
    };
    Ok(all.and(
        "Each is the last day whose rest is over in time; days at the bench are counted as none.",
    ))
}

#[cfg(test)]
mod tests {
    use super::super::RestLength;
    use super::*;
    use crate::record::date;
    use proptest::prelude::*;

    const HALF_A_YEAR: RestLength = RestLength {
        months: 6,
        longer: 0,
    };
    const RESTS: Rests = Rests {
        weeks_in_room: 0,
        pieces: HALF_A_YEAR,
        laminates: HALF_A_YEAR,
        blanks: HALF_A_YEAR,
    };

    /// As many months, and as many days longer.
    fn any_rests() -> impl Strategy<Value = Rests> {
        let rest = (0u32..18, 0u32..400).prop_map(|(months, longer)| RestLength { months, longer });
        (0u32..9, prop::array::uniform3(rest)).prop_map(
            |(weeks_in_room, [pieces, laminates, blanks])| Rests {
                weeks_in_room,
                pieces,
                laminates,
                blanks,
            },
        )
    }

    fn day(text: &str) -> NaiveDate {
        date(text).unwrap()
    }

    fn held(standing: PlanPosition, laminates: u32) -> StockItem {
        StockItem {
            standing,
            laminates,
        }
    }

    #[test]
    fn from_stock_to_the_earliest_blanks() {
        let today = day("2027-01-10");
        let stock = [
            held(PlanPosition::Plank(None), 9),
            held(
                PlanPosition::Resting(Stage::Laminates, day("2026-05-02")),
                1,
            ),
            held(
                PlanPosition::Resting(Stage::Laminates, day("2026-09-30")),
                5,
            ),
            held(PlanPosition::Resting(Stage::Blanks, day("2026-08-01")), 0),
            held(PlanPosition::NotSetToRest(Stage::Blanks), 0),
        ];
        let found = earliest_blanks(&stock, 5, &RESTS, today).unwrap();
        let wanted = [
            "2027-02-01", // the blank that rests already
            "2027-07-10", // the one not yet set to rest
            "2027-09-30", // one laminate whose rest is over and four that are free on 30 March
            "2028-07-10", // the fifth of them waits for the plank, cut today
            "2028-07-10",
        ];
        assert_eq!(found, wanted.map(day));
    }

    #[test]
    fn the_way_ahead_goes_on_where_each_rest_is_over() {
        let today = day("2027-01-10");
        let way = |standing| {
            let legs = way_ahead(standing, &RESTS, today).unwrap();
            legs.iter()
                .map(|leg| (leg.stage, leg.from, leg.until))
                .collect::<Vec<_>>()
        };
        let legs = way(PlanPosition::Resting(Stage::Pieces, day("2026-08-31")));
        let wanted = [
            (Stage::Pieces, day("2026-08-31"), day("2027-02-28")),
            (Stage::Laminates, day("2027-02-28"), day("2027-08-28")),
            (Stage::Blanks, day("2027-08-28"), day("2028-02-28")),
        ];
        assert_eq!(legs, wanted);
        // Over long since: the next rest can't begin before today.
        let over = way(PlanPosition::Resting(Stage::Laminates, day("2025-01-01")));
        assert_eq!(over[0].2, today);
        assert_eq!(over[1], (Stage::Blanks, today, day("2027-07-10")));
        assert_eq!(way(PlanPosition::Plank(None)).len(), 3);
        assert!(way_ahead(PlanPosition::Plank(None), &RESTS, NaiveDate::MAX).is_err());
        // Ten days longer in each stage add up, and what is over its pace can go on today.
        let rests = Rests::each(|_| RestLength {
            longer: 10,
            ..HALF_A_YEAR
        });
        let since = PlanPosition::Resting(Stage::Laminates, day("2026-07-20"));
        let legs = way_ahead(since, &rests, today).unwrap();
        assert_eq!(
            (legs[0].until, legs[1].until),
            (day("2027-01-30"), day("2027-08-09"))
        );
        let long_since = PlanPosition::Resting(Stage::Laminates, day("2026-06-20"));
        let legs = way_ahead(long_since, &rests, today).unwrap();
        assert_eq!(legs[0].until, today);
    }

    /// A plank is cut when its four weeks in the room are over: those of one to be bought begin today, those of one that
    /// lies there on the day on which it came; over long since, it is cut today.
    #[test]
    fn a_plank_lies_in_the_room_before_it_is_cut() {
        let today = day("2027-01-10");
        let rests = Rests {
            weeks_in_room: 4,
            ..RESTS
        };
        let first = |came: Option<&str>| {
            let legs = way_ahead(PlanPosition::Plank(came.map(day)), &rests, today).unwrap();
            (legs[0].from, legs[2].until)
        };
        assert_eq!(first(None), (day("2027-02-07"), day("2028-08-07")));
        let came = Some("2026-12-20");
        assert_eq!(first(came), (day("2027-01-17"), day("2028-07-17")));
        assert_eq!(first(Some("2026-10-01")), (today, day("2028-07-10")));
        let last = latest_days(day("2028-08-07"), &rests).unwrap();
        assert_eq!((last.buy_by, last.cut_by), (today, day("2027-02-07")));
        let told = explain_ahead(PlanPosition::Plank(None), &rests, today).unwrap();
        assert_eq!(
            told.notes[0],
            "2027-01-10 and 28 days in the room: 2027-02-07."
        );
        let told = explain_latest(day("2028-08-07"), &rests).unwrap();
        assert_eq!(
            told.notes[3],
            "2027-02-07 less 28 days in the room: 2027-01-10."
        );
        // What rests already was cut long since.
        let rests_now = PlanPosition::Resting(Stage::Pieces, today);
        assert_eq!(
            way_ahead(rests_now, &rests, today),
            way_ahead(rests_now, &RESTS, today)
        );
    }

    #[test]
    fn the_way_ahead_is_told_rest_by_rest() {
        let rests = Rests {
            laminates: RestLength {
                months: 6,
                longer: 21,
            },
            ..RESTS
        };
        let told = explain_ahead(PlanPosition::Plank(None), &rests, day("2027-01-10")).unwrap();
        assert_eq!(
            told.notes[..3],
            [
                "2027-01-10 and 6 months as pieces: 2027-07-10.",
                "2027-07-10 and 6 months and 21 days as laminates: 2028-01-31.",
                "2028-01-31 and 6 months as blanks: 2028-07-31.",
            ]
        );
    }

    #[test]
    fn the_last_days_are_told_one_from_another() {
        let rests = Rests {
            laminates: RestLength {
                months: 6,
                longer: 21,
            },
            ..RESTS
        };
        let told = explain_latest(day("2028-05-01"), &rests).unwrap();
        assert_eq!(
            told.notes[..3],
            [
                "2028-05-01 less 6 months as blanks: 2027-11-01.",
                "2027-11-01 less 6 months and 21 days as laminates: 2027-04-11.",
                "2027-04-11 less 6 months as pieces: 2026-10-11.",
            ]
        );
    }

    #[test]
    fn what_cannot_be_planned_is_said() {
        let today = day("2027-01-10");
        let none = earliest_blanks(&[], 0, &RESTS, today);
        assert_eq!(none, Err(SeasonPlanError::NoLaminates));
        assert_eq!(earliest_blanks(&[], 5, &RESTS, today), Ok(vec![]));
        let many = [held(PlanPosition::Plank(None), u32::MAX)];
        let error = earliest_blanks(&many, 5, &RESTS, today).unwrap_err();
        assert!(error.to_string().contains("4294967295"));
        let far = earliest_blanks(
            &[held(PlanPosition::Plank(None), 9)],
            5,
            &RESTS,
            NaiveDate::MAX,
        );
        assert!(matches!(far, Err(SeasonPlanError::Rest(_))));
    }

    proptest! {
        /// Forward from the last day to buy is in time; a day later is not.
        #[test]
        fn forward_and_backward_agree(days in 0i32..40_000, rests in any_rests()) {
            let ready = day("2026-01-01") + chrono::Duration::days(i64::from(days));
            let plan = latest_days(ready, &rests).unwrap();
            let from = |today| earliest_blanks(&[held(PlanPosition::Plank(None), 5)], 5, &rests, today).unwrap()[0];
            prop_assert!(from(plan.buy_by) <= ready);
            prop_assert!(from(plan.buy_by.succ_opt().unwrap()) > ready);
        }

        /// However much longer wood lies, no blank is ready sooner, and no step may be later.
        #[test]
        fn longer_is_never_earlier(rests in any_rests(), since in prop::collection::vec((0usize..5, 0i64..900), 1..30)) {
            let today = day("2027-01-10");
            let least = Rests::each(|stage| RestLength::least(rests.of(stage).months));
            let stands = |(at, days): &(usize, i64)| {
                let since = today - chrono::Duration::days(*days);
                match at {
                    0 => held(PlanPosition::Plank(Some(since)), 4),
                    1 => held(PlanPosition::NotSetToRest(Stage::Laminates), 1),
                    2 => held(PlanPosition::Resting(Stage::Pieces, since), 3),
                    3 => held(PlanPosition::Resting(Stage::Laminates, since), 1),
                    _ => held(PlanPosition::Resting(Stage::Blanks, since), 0),
                }
            };
            let all: Vec<StockItem> = since.iter().map(stands).collect();
            for one in &all {
                // From the last rest back: a plank whose pieces do not rest has one less.
                let until = |rests| -> Vec<NaiveDate> {
                    way_ahead(one.standing, rests, today).unwrap().iter().rev().map(|leg| leg.until).collect()
                };
                prop_assert!(until(&rests).iter().zip(until(&least)).all(|(longer, soonest)| *longer >= soonest));
            }
            let blanks = |rests| earliest_blanks(&all, 3, rests, today).unwrap();
            let (longer, soonest) = (blanks(&rests), blanks(&least));
            prop_assert_eq!(longer.len(), soonest.len());
            prop_assert!(longer.iter().zip(&soonest).all(|(longer, soonest)| longer >= soonest));
            let (longer, last) = (latest_days(today, &rests).unwrap(), latest_days(today, &least).unwrap());
            prop_assert!(longer.cut_by <= last.cut_by && longer.rip_by <= last.rip_by && longer.glue_by <= last.glue_by);
        }

        #[test]
        fn more_wood_never_makes_a_blank_later(since in prop::collection::vec(0i64..700, 1..40), per in 1u32..7) {
            let today = day("2027-01-10");
            let rest = |days: &i64| held(
                PlanPosition::Resting(Stage::Laminates, today - chrono::Duration::days(*days)),
                1,
            );
            let all: Vec<StockItem> = since.iter().map(rest).collect();
            let more = earliest_blanks(&all, per, &RESTS, today).unwrap();
            let fewer = earliest_blanks(&all[1..], per, &RESTS, today).unwrap();
            prop_assert!(fewer.iter().zip(&more).all(|(few, many)| many <= few));
            prop_assert_eq!(more.len(), since.len() / per as usize);
        }
    }
}
