//! At what pace the maker works, out of the record: for each stage how long wood lay from the day on which
//! its least rest was over to the day of the next step.
//!
//! It is told by the rests as they were, under the terms in force; what left for another reason, or waits
//! still, is never taken for a step.

use crate::order;
use crate::quantity::{Derivation, Length};
use crate::record::queries;
use crate::record::state::{End, Life};
use crate::record::state::{Piece, State};
use crate::season::{
    FEW_FOR_A_PACE, Lay, MeasureKey, Movement, Pace, PaceError, RestLength, Rests, Stage,
    measure_key, pace,
};
use chrono::NaiveDate;

/// How long wood lay in a stage, over its least rest.
#[derive(Debug, Clone, PartialEq)]
pub struct StagePace {
    pub stage: Stage,
    /// Piece by piece, those whose least rest was over.
    pub lays: Vec<Lay>,
    pub waiting: usize,
    /// How many were discarded, missing, reserved or downgraded meanwhile.
    pub left: usize,
    /// Of those that went on, how many did before their least rest was over: they count as no longer.
    pub sooner: usize,
    /// On how many days they went on.
    pub days: usize,
    /// The pace, or why none can be told.
    pub pace: Result<Pace, PaceError>,
}

/// The next step after a rest.
fn step_of(stage: Stage) -> &'static str {
    match stage {
        Stage::Pieces => "cut",
        Stage::Laminates => "glued",
        Stage::Blanks => "found still, or kept or used sooner",
    }
}

impl StagePace {
    /// Of what rested: when its least rest was over, and how it ended.
    fn of(
        stage: Stage,
        rested: impl Iterator<Item = (NaiveDate, Ended)>,
        today: NaiveDate,
    ) -> Self {
        let (mut lays, mut days) = (Vec::new(), Vec::new());
        let (mut waiting, mut left, mut sooner) = (0, 0, 0);
        for (due, ended) in rested {
            let until = match ended {
                Ended::WentOn(on) | Ended::Left(on) => on,
                Ended::Waits => today,
            };
            let over = (until - due).num_days();
            match ended {
                Ended::WentOn(on) => {
                    days.push(on);
                    sooner += usize::from(over < 0);
                }
                // It never came to where it could have gone on.
                _ if over < 0 => continue,
                Ended::Left(_) => left += 1,
                Ended::Waits => waiting += 1,
            }
            lays.push(Lay {
                days: u32::try_from(over).unwrap_or_default(),
                went_on: matches!(ended, Ended::WentOn(_)),
            });
        }
        Self {
            stage,
            waiting,
            left,
            sooner,
            days: order::set_of(days).len(),
            pace: pace(&lays),
            lays,
        }
    }

    /// How it was worked out; also why there is none.
    pub fn worked(&self) -> Derivation {
        let name = self.stage.name();
        let gone_on = self.lays.iter().filter(|lay| lay.went_on).count();
        let counted = format!(
            "Of {} {name} whose least rest is over, {gone_on} were {}, on {} different days; {} wait still, {} \
             left another way.",
            self.lays.len(),
            step_of(self.stage),
            self.days,
            self.waiting,
            self.left,
        );
        let sooner = (self.sooner > 0).then(|| {
            let count = self.sooner;
            format!("{count} went on before their least rest was over, and count as no day longer.")
        });
        let mut working = match &self.pace {
            Ok(pace) => pace.explain(&self.lays),
            Err(why) => Derivation::note(
                format!(
                    "{why}: plans keep to the least rest here. It takes {FEW_FOR_A_PACE} that went on, and half \
                     of all."
                ),
                "your own record",
            ),
        };
        working
            .notes
            .splice(0..0, std::iter::once(counted).chain(sooner));
        working
    }
}

/// The pace of every stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Paces {
    /// Pieces, laminates and blanks.
    pub stages: [StagePace; 3],
}

impl Paces {
    /// The stages of which one can be told.
    pub fn known(&self) -> impl Iterator<Item = Stage> {
        let known = self.stages.iter().filter(|one| one.pace.is_ok());
        known.map(|one| one.stage)
    }

    /// The least rests and as much longer as half of the maker's own lay, stage by stage; the least alone
    /// where no pace can be told. `None` where that is so of each.
    pub fn rests(&self, least: &Rests) -> Option<Rests> {
        let of = |stage| {
            let found = self.stages.iter().find(|one| one.stage == stage)?;
            Some(found.pace.as_ref().ok()?.half)
        };
        let any = self.known().next().is_some();
        any.then(|| Rests {
            weeks_in_room: least.weeks_in_room,
            ..Rests::each(|stage| RestLength {
                longer: of(stage).unwrap_or_default(),
                ..least.of(stage)
            })
        })
    }
}

#[derive(Clone, Copy)]
enum Ended {
    /// With the next step.
    WentOn(NaiveDate),
    Left(NaiveDate),
    Waits,
}

/// How much longer than its least rest wood lay in each stage before the next step: a piece until it
/// was cut, a laminate until it was glued, a blank until the check after which both keys had turned
/// (the weight is not asked), or until it was kept for somebody or used. The last rest of each counts,
/// under the terms in force. What is in doubt or taken back is left out, and what happened after
/// `today`. `feeler` as in [`queries::moved`].
pub fn paces(state: &State, feeler: Length, today: NaiveDate) -> Paces {
    let least = queries::least_rests(state);
    let counts = |piece: &&Piece| !piece.withdrawn && piece.work.unresolved.is_none();
    let of = |stage| {
        let rested = state.pieces().filter(counts).filter_map(|piece| {
            let rest = piece.work.rest()?;
            let due = least.of(stage).goes_on(rest.on).ok()?;
            let here = rest.payload.stage == stage && rest.on <= today;
            here.then(|| (due, ended(state, piece, due, feeler, today)))
        });
        StagePace::of(stage, rested, today)
    };
    Paces {
        stages: Stage::ALL.map(of),
    }
}

/// How what lies in its last rest ended, that was over on a day.
fn ended(state: &State, piece: &Piece, due: NaiveDate, feeler: Length, today: NaiveDate) -> Ended {
    let until_today = |day: &NaiveDate| *day <= today;
    let stage = queries::stage_of(piece);
    let (life, since) = piece.life();
    let step = match (
        stage,
        piece.work.end.as_ref().map(|end| (&end.payload, end.on)),
    ) {
        (Stage::Pieces, Some((End::Cut(_), on))) => Some(on),
        (Stage::Laminates, Some((End::GluedInto(_), on))) => Some(on),
        (Stage::Blanks, end) => {
            let used = end.filter(|(end, _)| matches!(end, End::Used(_)));
            let kept = piece.work.reserved.as_ref().map(|kept| kept.on);
            let used = used.map(|(_, on)| on);
            let sooner = used.into_iter().chain(kept).min();
            // It is never found still before its date.
            match sooner.filter(|day| *day <= due) {
                Some(day) => Some(day),
                None => {
                    let still = found_still(state, piece, due, feeler);
                    still.into_iter().chain(sooner).min()
                }
            }
        }
        _ => None,
    };
    let down = piece.work.downgraded.as_ref().map(|down| down.on);
    let gone = match life {
        Life::Resting(_) => None,
        _ => Some(since),
    };
    match step.filter(until_today) {
        Some(day) => Ended::WentOn(day),
        None => {
            let left = down.into_iter().chain(gone).min().filter(until_today);
            left.map_or(Ended::Waits, Ended::Left)
        }
    }
}

/// The day on which both keys of a rest had turned: its date, and its last two checks; `None` while
/// they have not.
fn found_still(state: &State, piece: &Piece, due: NaiveDate, feeler: Length) -> Option<NaiveDate> {
    let rest = piece.work.rest()?;
    let begun = (rest.on, rest.place);
    let looked = piece.work.checks.iter();
    let looked = looked.filter(|check| (check.on, check.place) > begun);
    if looked.count() < 2 {
        return None;
    }
    let checks = queries::moved(state, piece, feeler);
    let since = checks
        .iter()
        .filter(|check| (check.on, check.place) > begun);
    let mut movements: Vec<Movement> = Vec::new();
    let mut turned = None;
    for check in since {
        // What stood so on the day itself needs no check after it.
        if turned.is_some_and(|_| check.on > due) {
            break;
        }
        movements.push(check.movement);
        // The pace is that of the shape: weighings seldom tell the day.
        let still = measure_key(&movements, Some(true)) == MeasureKey::Still;
        turned = still.then(|| check.on.max(due));
    }
    turned
}
