//! The maker's own pace: how much longer than its least rest wood lies before the next step is done.
//!
//! It counts days that are passed in. What still waits is never taken for gone on, and few are never
//! taken for a pace.

use super::survival::{SurvivalStep, Watched, survival_curve};
use super::survival_error::SurvivalError;
use crate::quantity::Derivation;
use thiserror::Error;

/// Fewer that went on than these make no pace (common practice, no source).
pub const FEW_FOR_A_PACE: u32 = 5;

/// How long a piece lay over its least rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lay {
    /// Days from the one on which its least rest was over.
    pub days: u32,
    /// The next step was done then; otherwise it waits still, or left another way.
    pub went_on: bool,
}

/// How much longer than their least rest pieces lie, in days.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pace {
    pub gone_on: u32,
    /// How many did not, and count as longer than they were watched.
    pub others: u32,
    /// A tenth have gone on by then.
    pub tenth: u32,
    /// Half have: this is what is planned with.
    pub half: u32,
    /// Nine tenths have; `None` while too many wait to say.
    pub nine_tenths: Option<u32>,
}

/// Why no pace can be told.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PaceError {
    #[error("too few to say: {0} went on")]
    TooFew(u32),
    /// More than half wait longer than any that went on.
    #[error("too few to say: {gone_on} went on, and more wait still")]
    MostWait {
        /// How many went on.
        gone_on: u32,
    },
    /// Counts that can't be.
    #[error(transparent)]
    Counts(#[from] SurvivalError),
}

/// The share that waited longer than a day, day by day on which any went on.
fn still_waiting(lays: &[Lay]) -> Result<Vec<SurvivalStep>, SurvivalError> {
    let watched = |lay: &Lay| Watched {
        time: f64::from(lay.days),
        failed: lay.went_on,
    };
    survival_curve(&lays.iter().map(watched).collect::<Vec<_>>())
}

/// The first day by which all but a share have gone on.
fn all_but(curve: &[SurvivalStep], share: f64) -> Option<u32> {
    // A hair more, so that half of ten is half.
    let step = curve.iter().find(|step| step.share <= share + 1e-12)?;
    Some(step.time as u32)
}

/// The pace at which pieces went on: the first days by which a tenth, half and nine tenths had, of the
/// curve of [`survival_curve`] in which going on stands for failing.
///
/// What waits still, or left another way, counts as watched up to then. An error for fewer than
/// [`FEW_FOR_A_PACE`] that went on, or where half have not by any day that is known. Kaplan and Meier
/// 1958 (from memory).
///
/// ```
/// use stillwood_core::season::{Lay, pace};
/// let went = |days| Lay { days, went_on: true };
/// let waits = Lay { days: 30, went_on: false };
/// let found = pace(&[went(7), went(7), went(14), went(21), went(40), waits]).unwrap();
/// assert_eq!((found.gone_on, found.half, found.nine_tenths), (5, 14, Some(40)));
/// ```
pub fn pace(lays: &[Lay]) -> Result<Pace, PaceError> {
    let gone_on = lays.iter().filter(|lay| lay.went_on).count() as u32;
    if gone_on < FEW_FOR_A_PACE {
        return Err(PaceError::TooFew(gone_on));
    }
    let curve = still_waiting(lays)?;
    let (tenth, half) = (all_but(&curve, 0.9), all_but(&curve, 0.5));
    let (Some(tenth), Some(half)) = (tenth, half) else {
        return Err(PaceError::MostWait { gone_on });
    };
    Ok(Pace {
        gone_on,
        others: lays.len() as u32 - gone_on,
        tenth,
        half,
        nine_tenths: all_but(&curve, 0.1),
    })
}

impl Pace {
    /// `21 days (7 to 140)`: half, and between which eight in ten lie.
    pub fn in_words(&self) -> String {
        let (tenth, half) = (self.tenth, self.half);
        let unit = if half == 1 { "day" } else { "days" };
        match self.nine_tenths {
            Some(most) if most == tenth => format!("{half} {unit}"),
            Some(most) => format!("{half} {unit} ({tenth} to {most})"),
            None => format!("{half} {unit} ({tenth} and over)"),
        }
    }

    /// How it was worked out of these.
    ///
    /// No published value: it tells `pace`.
    pub fn explain(&self, lays: &[Lay]) -> Derivation {
        let curve = still_waiting(lays).unwrap_or_default();
        let marks = [("a tenth", 0.9), ("half", 0.5), ("nine tenths", 0.1)];
        let reached = |(name, share): (&str, f64)| {
            let step = curve.iter().find(|step| step.share <= share + 1e-12);
            step.map_or_else(
                || format!("{name} not by any day that is known"),
                |step| {
                    let left = step.share * 100.0;
                    let (days, watched) = (step.time, step.at_risk);
                    format!("{name} by day {days} ({watched} lay until then; {left:.0} % of all lie longer)")
                },
            )
        };
        let reached: Vec<String> = marks.into_iter().map(reached).collect();
        Derivation::note(
            format!("Gone on, in days over the least rest: {}.", reached.join("; ")),
            "Kaplan and Meier 1958, from memory; a worked table was read; the days are your own record's",
        )
        .and(
            "The share that lies longer is the product of 1 − gone on / lay until then, over the days on which \
             any went on. What waits still or left another way counts as lying up to then. Plans add the day \
             by which half had gone on to the least rest.",
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn lays(days: &[u32], waiting: &[u32]) -> Vec<Lay> {
        let lay = |went_on| {
            move |days: &u32| Lay {
                days: *days,
                went_on,
            }
        };
        let gone = days.iter().map(lay(true));
        gone.chain(waiting.iter().map(lay(false))).collect()
    }

    #[test]
    fn with_none_waiting_it_is_the_plain_median() {
        let days = [3, 1, 4, 2, 5, 6, 7, 8, 9, 10];
        let found = pace(&lays(&days, &[])).unwrap();
        assert_eq!(
            (found.tenth, found.half, found.nine_tenths),
            (1, 5, Some(9))
        );
        assert_eq!((found.gone_on, found.others), (10, 0));
        assert_eq!(found.in_words(), "5 days (1 to 9)");
        let same = pace(&lays(&[1; 6], &[])).unwrap();
        assert_eq!(same.in_words(), "1 day");
    }

    #[test]
    fn what_waits_makes_it_longer_and_in_the_end_unknown() {
        let days = [10, 20, 30, 40, 50];
        assert_eq!(pace(&lays(&days, &[])).unwrap().half, 30);
        // Of eight watched, two have gone on by day 20, 6/8; then 5/6 and 4/6 of that, of those watched.
        let found = pace(&lays(&days, &[25, 60, 60])).unwrap();
        assert_eq!((found.half, found.nine_tenths, found.others), (40, None, 3));
        assert_eq!(found.in_words(), "40 days (10 and over)");
        // One that waits for less long than any went on says nothing.
        assert_eq!(pace(&lays(&days, &[5; 9])).unwrap().half, 30);
        let most = pace(&lays(&days, &[60; 6]));
        assert_eq!(most, Err(PaceError::MostWait { gone_on: 5 }));
    }

    #[test]
    fn few_make_no_pace() {
        let few = pace(&lays(&[1, 2, 3, 4], &[])).unwrap_err();
        assert_eq!(few.to_string(), "too few to say: 4 went on");
        assert_eq!(pace(&[]), Err(PaceError::TooFew(0)));
    }

    #[test]
    fn it_tells_where_its_days_come_from() {
        let all = lays(&[10, 20, 30, 40, 50], &[60; 3]);
        let told = pace(&all).unwrap().explain(&all);
        let first = "Gone on, in days over the least rest: a tenth by day 10 (8 lay until then; 88 % of all lie \
                     longer); \
                     half by day 40 (5 lay until then; 50 % of all lie longer); nine tenths not by any day \
                     that is known.";
        assert_eq!(told.notes[0], first);
    }

    proptest! {
        #[test]
        fn its_days_are_in_order_and_waiting_never_shortens_it(
            days in prop::collection::vec(0u32..500, 5..60), waiting in prop::collection::vec(0u32..600, 0..40),
        ) {
            let plain = pace(&lays(&days, &[])).unwrap();
            prop_assert!(plain.tenth <= plain.half && Some(plain.half) <= plain.nine_tenths);
            // At least half have gone on by the half, and fewer before.
            let by = |day: u32| 2 * days.iter().filter(|d| **d <= day).count();
            prop_assert!(by(plain.half) >= days.len());
            prop_assert!(plain.half == 0 || by(plain.half - 1) < days.len());
            match pace(&lays(&days, &waiting)) {
                Ok(found) => {
                    prop_assert!(found.half >= plain.half && found.tenth >= plain.tenth);
                    prop_assert!(found.nine_tenths.is_none() || found.nine_tenths >= plain.nine_tenths);
                }
                Err(why) => prop_assert_eq!(why, PaceError::MostWait { gone_on: days.len() as u32 }),
            }
        }
    }
}
