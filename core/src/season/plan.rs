//! Dates of a plan: from the wood that is held to the earliest blanks, and from a day on which blanks are
//! wanted back to the day by which wood has to be cut.
//!
//! It reckons with the least rests and as if every piece came through: how many will not is said by
//! [`super::how_many_to_start`]. Days at the bench are counted as none.

use super::rest::{RestError, begin_by, due_day};
use super::{Stage, StageTerms};
use crate::order;
use chrono::NaiveDate;
use thiserror::Error;

/// The least rests of the three stages, in calendar months.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeastRests {
    /// Pieces.
    pub pieces: u32,
    /// Laminates.
    pub laminates: u32,
    /// Blanks.
    pub blanks: u32,
}

impl LeastRests {
    /// From the terms of each stage.
    pub fn from_terms(terms: impl Fn(Stage) -> StageTerms) -> Self {
        Self {
            pieces: terms(Stage::Pieces).months,
            laminates: terms(Stage::Laminates).months,
            blanks: terms(Stage::Blanks).months,
        }
    }

    /// Those of one stage.
    pub fn of(&self, stage: Stage) -> u32 {
        match stage {
            Stage::Pieces => self.pieces,
            Stage::Laminates => self.laminates,
            Stage::Blanks => self.blanks,
        }
    }
}

/// Where a piece of wood stands in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// A plank in hand: it can be cut today.
    Plank,
    /// Resting since a day.
    Resting(Stage, NaiveDate),
    /// At a stage and not set to rest: its rest would begin today.
    NotSetToRest(Stage),
}

/// Wood that is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Held {
    /// Where it stands.
    pub standing: Standing,
    /// How many laminates it is expected to give (a laminate one, a blank none).
    pub laminates: u32,
}

/// Why no plan can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum PlanError {
    /// A blank of no laminates.
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
    rests: &LeastRests,
    today: NaiveDate,
) -> Result<NaiveDate, RestError> {
    Ok(due_day(since, rests.of(stage))?.max(today))
}

/// A rest on the way to a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Leg {
    /// In which stage.
    pub stage: Stage,
    /// When it begins, or began.
    pub from: NaiveDate,
    /// When the wood is free for the next step, never before today.
    pub until: NaiveDate,
}

/// The rests that wood still has before it until it is a blank, in order, each begun on the day on which
/// the one before is over.
///
/// An error beyond the calendar. Arithmetic of the calendar.
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn way_ahead(
    standing: Standing,
    rests: &LeastRests,
    today: NaiveDate,
) -> Result<Vec<Leg>, RestError> {
    let (first, since) = match standing {
        Standing::Plank => (Stage::Pieces, today),
        Standing::Resting(stage, since) => (stage, since),
        Standing::NotSetToRest(stage) => (stage, today),
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
    held: &[Held],
    per_blank: u32,
    rests: &LeastRests,
    today: NaiveDate,
) -> Result<Vec<NaiveDate>, PlanError> {
    if per_blank == 0 {
        return Err(PlanError::NoLaminates);
    }
    let count: u64 = held.iter().map(|h| u64::from(h.laminates)).sum();
    if count > MOST {
        return Err(PlanError::TooMany(count));
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
    /// Planks cut to pieces and set to rest.
    pub cut_by: NaiveDate,
    /// Pieces ripped to laminates and set to rest.
    pub rip_by: NaiveDate,
    /// Laminates glued to blanks.
    pub glue_by: NaiveDate,
}

impl LatestDays {
    /// The steps that are too late on a day, in the trade's words.
    pub fn too_late(&self, today: NaiveDate) -> Vec<&'static str> {
        [
            ("cut planks", self.cut_by),
            ("rip pieces", self.rip_by),
            ("glue blanks", self.glue_by),
        ]
        .into_iter()
        .filter_map(|(step, by)| (by < today).then_some(step))
        .collect()
    }
}

/// By when wood has to be cut, ripped and glued, so that blanks are ready on a day.
///
/// Each is the last day whose rest is over in time, see [`begin_by`]. Arithmetic of the calendar.
///
/// ```
/// use stillwood_core::{notebook::date, season::{LeastRests, latest_days}};
/// let rests = LeastRests { pieces: 6, laminates: 6, blanks: 6 };
/// let plan = latest_days(date("2028-05-01").unwrap(), &rests).unwrap();
/// assert_eq!(plan.glue_by, date("2027-11-01").unwrap());
/// assert_eq!(plan.cut_by, date("2026-11-01").unwrap());
/// ```
///
/// No published value: calendar arithmetic, held in tests against days counted by hand.
pub fn latest_days(ready: NaiveDate, rests: &LeastRests) -> Result<LatestDays, RestError> {
    let glue_by = begin_by(ready, rests.blanks)?;
    let rip_by = begin_by(glue_by, rests.laminates)?;
    let cut_by = begin_by(rip_by, rests.pieces)?;
    Ok(LatestDays {
        cut_by,
        rip_by,
        glue_by,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::notebook::date;
    use proptest::prelude::*;

    const RESTS: LeastRests = LeastRests {
        pieces: 6,
        laminates: 6,
        blanks: 6,
    };

    fn day(text: &str) -> NaiveDate {
        date(text).unwrap()
    }

    fn held(standing: Standing, laminates: u32) -> Held {
        Held {
            standing,
            laminates,
        }
    }

    #[test]
    fn from_stock_to_the_earliest_blanks() {
        let today = day("2027-01-10");
        let stock = [
            held(Standing::Plank, 9),
            held(Standing::Resting(Stage::Laminates, day("2026-05-02")), 1),
            held(Standing::Resting(Stage::Laminates, day("2026-09-30")), 5),
            held(Standing::Resting(Stage::Blanks, day("2026-08-01")), 0),
            held(Standing::NotSetToRest(Stage::Blanks), 0),
        ];
        let found = earliest_blanks(&stock, 5, &RESTS, today).unwrap();
        let wanted = [
            "2027-02-01", // the blank that rests already
            "2027-07-10", // the one not yet set to rest
            "2027-09-30", // one ripe laminate and four that are free on 30 March
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
        let legs = way(Standing::Resting(Stage::Pieces, day("2026-08-31")));
        let wanted = [
            (Stage::Pieces, day("2026-08-31"), day("2027-02-28")),
            (Stage::Laminates, day("2027-02-28"), day("2027-08-28")),
            (Stage::Blanks, day("2027-08-28"), day("2028-02-28")),
        ];
        assert_eq!(legs, wanted);
        // Ripe long since: the next rest can't begin before today.
        let ripe = way(Standing::Resting(Stage::Laminates, day("2025-01-01")));
        assert_eq!(ripe[0].2, today);
        assert_eq!(ripe[1], (Stage::Blanks, today, day("2027-07-10")));
        assert_eq!(way(Standing::Plank).len(), 3);
        assert!(way_ahead(Standing::Plank, &RESTS, NaiveDate::MAX).is_err());
    }

    #[test]
    fn what_cannot_be_planned_is_said() {
        let today = day("2027-01-10");
        let none = earliest_blanks(&[], 0, &RESTS, today);
        assert_eq!(none, Err(PlanError::NoLaminates));
        assert_eq!(earliest_blanks(&[], 5, &RESTS, today), Ok(vec![]));
        let many = [held(Standing::Plank, u32::MAX)];
        let error = earliest_blanks(&many, 5, &RESTS, today).unwrap_err();
        assert!(error.to_string().contains("4294967295"));
        let far = earliest_blanks(&[held(Standing::Plank, 9)], 5, &RESTS, NaiveDate::MAX);
        assert!(matches!(far, Err(PlanError::Rest(_))));
    }

    #[test]
    fn what_is_too_late_is_named() {
        let plan = latest_days(day("2028-05-01"), &RESTS).unwrap();
        assert_eq!(plan.rip_by, day("2027-05-01"));
        assert_eq!(plan.too_late(day("2026-11-01")), Vec::<&str>::new());
        assert_eq!(
            plan.too_late(day("2027-05-02")),
            ["cut planks", "rip pieces"]
        );
    }

    proptest! {
        /// Forward from the last day to cut is in time; a day later is not.
        #[test]
        fn forward_and_backward_agree(days in 0i32..40_000, a in 0u32..18, b in 0u32..18, c in 0u32..18) {
            let rests = LeastRests { pieces: a, laminates: b, blanks: c };
            let ready = day("2026-01-01") + chrono::Duration::days(i64::from(days));
            let plan = latest_days(ready, &rests).unwrap();
            let from = |today| earliest_blanks(&[held(Standing::Plank, 5)], 5, &rests, today).unwrap()[0];
            prop_assert!(from(plan.cut_by) <= ready);
            prop_assert!(from(plan.cut_by.succ_opt().unwrap()) > ready);
        }

        #[test]
        fn more_wood_never_makes_a_blank_later(since in prop::collection::vec(0i64..700, 1..40), per in 1u32..7) {
            let today = day("2027-01-10");
            let rest = |days: &i64| held(
                Standing::Resting(Stage::Laminates, today - chrono::Duration::days(*days)),
                1,
            );
            let all: Vec<Held> = since.iter().map(rest).collect();
            let more = earliest_blanks(&all, per, &RESTS, today).unwrap();
            let fewer = earliest_blanks(&all[1..], per, &RESTS, today).unwrap();
            prop_assert!(fewer.iter().zip(&more).all(|(few, many)| many <= few));
            prop_assert_eq!(more.len(), since.len() / per as usize);
        }
    }
}
