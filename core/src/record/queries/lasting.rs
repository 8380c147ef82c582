//! How long wood lasts in the workshop before it is discarded: for each piece how long it was watched
//! and how that ended, for the survival curve.
//!
//! What rests still, went on, was put aside or can't be found counts as good up to the day that is known
//! of it, and never as failed.

use crate::order;
use crate::quantity::{Derivation, TraceOff};
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::{End, Life, Origin};
use crate::record::state::{Piece, State};
use crate::season::{
    FamilyEffect, ShareCount, StillIn, SurvivalError, SurvivalStep, Watched, still_in,
    survival_curve_of,
};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// Days of a mean month: a year of the calendar has 365.2425.
const DAYS_A_MONTH: f64 = 365.2425 / 12.0;

/// How long each piece was watched, and how that stands.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lasting {
    /// In months, and whether it failed then.
    pub watched: Vec<Watched>,
    /// How many of each plank's pieces were not discarded, and of how many; what is glued of several planks
    /// stands for itself.
    of_planks: BTreeMap<Id, (u32, u32)>,
    /// How many were discarded for a reason that tells of the wood.
    pub failed: usize,
    /// How many are there still, and count up to today.
    pub waiting: usize,
    /// How many went on, were put aside or lost from sight, and count up to that day.
    pub left: usize,
}

impl Lasting {
    /// How the share that is still in after so many months was worked out; `None` where nothing is watched.
    pub fn worked(&self, months: f64) -> Option<Derivation> {
        let curve = self.curve().ok()?;
        let until = curve.iter().take_while(|step| step.time <= months);
        let failures: Vec<String> = until
            .map(|step| {
                format!(
                    "after {:.1} months {} of the {} watched until then",
                    step.time, step.failed, step.at_risk
                )
            })
            .collect();
        let failures = match failures.is_empty() {
            true => "Discarded until then: none.".to_owned(),
            false => format!("Discarded: {}.", failures.join("; ")),
        };
        let how = "The share still in is the product of 1 − discarded / watched over these; one last seen \
                   good counts as watched up to that day. Its interval holds 95 of 100: Greenwood's variance, \
                   taken on ln(−ln S).";
        let source = "Kaplan and Meier 1958, Greenwood 1926, Kish 1965, from memory; a worked table was read";
        let told = Derivation::note(failures, source).and(how);
        let (all, counts_as) = (self.watched.len(), self.counts_as());
        if counts_as >= all as f64 {
            return Some(told);
        }
        Some(told.and(format!(
            "The pieces of one plank are alike: these {all} count as {counts_as:.1} by themselves, and the variance is \
             larger by as much."
        )))
    }

    /// The survival curve, its band for as many pieces as these count as.
    pub fn curve(&self) -> Result<Vec<SurvivalStep>, SurvivalError> {
        survival_curve_of(&self.watched, self.counts_as())
    }

    /// What share is still in after so many months; `None` beyond what was watched.
    pub fn still_in(&self, months: f64) -> Result<Option<StillIn>, SurvivalError> {
        still_in(&self.watched, self.counts_as(), months)
    }

    fn counts_as(&self) -> f64 {
        let planks: Vec<(u32, u32)> = self.of_planks.values().copied().collect();
        let all = self.watched.len() as f64;
        let alike = FamilyEffect::of_planks(&planks);
        ShareCount::of_planks(&mut TraceOff, &planks, alike).map_or(all, |found| found.counts_as)
    }

    fn add(&mut self, piece: &Piece, plank: Id, today: NaiveDate) {
        let begun = piece.recorded.on;
        let (life, since) = piece.life();
        let end = piece.work.end.as_ref().map(|end| (&end.payload, end.on));
        let (until, failed) = match end {
            Some((End::Discarded(why, _), on)) => {
                let main = why.reasons.first();
                (
                    on,
                    main.is_none_or(|reason| reason.counts_against_the_wood()),
                )
            }
            Some((_, on)) => (on, false),
            None if life == Life::Missing => (since, false),
            None => match &piece.work.downgraded {
                Some(down) => (down.on, false),
                None => (today, false),
            },
        };
        let there = end.is_none() && life != Life::Missing && piece.work.downgraded.is_none();
        match (failed, there) {
            (true, _) => self.failed += 1,
            (false, true) => self.waiting += 1,
            (false, false) => self.left += 1,
        }
        let of_plank = self.of_planks.entry(plank).or_default();
        of_plank.0 += u32::from(!failed);
        of_plank.1 += 1;
        // A day that was mistyped to before the beginning counts as the beginning.
        let days = (until - begun).num_days().max(0);
        self.watched.push(Watched {
            time: days as f64 / DAYS_A_MONTH,
            failed,
        });
    }
}

/// How long pieces, laminates or blanks last, each from the day on which it was cut or glued; all of
/// them together for `None`. Planks as they came from the yard are in none. What is in doubt or taken
/// back is left out, and so is what begins after `today`.
pub fn lasting(state: &State, kind: Option<PieceKind>, today: NaiveDate) -> Lasting {
    let mut lasting = Lasting::default();
    let counts = |piece: &&Piece| {
        let work = &piece.work;
        work.origin != Origin::Yard
            && kind.is_none_or(|kind| work.kind == kind)
            && work.unresolved.is_none()
            && !piece.withdrawn
            && piece.recorded.on <= today
    };
    for piece in state.pieces().filter(counts) {
        let plank = queries::plank_of(state, piece).unwrap_or(piece.id);
        lasting.add(piece, plank, today);
    }
    // Once: the curve, its band and each share are read from what is in order.
    order::sort_by(&mut lasting.watched, |a, b| a.time.total_cmp(&b.time));
    lasting
}
