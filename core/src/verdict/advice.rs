//! What to do about a plank under a spec: about its weakest criterion, which decides.

use super::{Criterion, CriterionScore, Evaluation, Form, Requirement};
use crate::plank::{DefectKind, Source};
use crate::quantity::read::Units;
use crate::quantity::{Conformance, GUARD_FACTOR, show};

/// What to do about a plank.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// A defect refuses it, whatever is measured.
    Defect(DefectKind),
    /// It is surely beyond the limit of this criterion.
    Beyond(Criterion),
    /// This criterion is too close to call: measure again.
    MeasureAgain {
        /// The criterion: the weakest, where that is too close; else the one nearest its limit.
        criterion: Criterion,
        /// What adds most to its uncertainty; `None` where nothing does.
        source: Option<Source>,
        /// A value from which it would be inside with the uncertainty that it has, in the criterion's unit; it is
        /// shown without being rounded. `None` where no value that can be read is so far inside.
        settles_at: Option<f64>,
        /// The other criteria that are too close to call as well.
        also_close: Vec<Criterion>,
    },
    /// Good so far: this criterion of the spec was not looked at.
    LookAt {
        /// The criterion.
        criterion: Criterion,
        /// What is missing, in the maker's words.
        why: String,
    },
    /// Nothing is left to do.
    Nothing,
}

impl Evaluation {
    /// What to do about the plank. It speaks of the weakest criterion while that decides, and always of the
    /// criterion that it names.
    pub fn advice(&self, units: Units) -> Advice {
        if let Some(defect) = self.fatal_defects.first() {
            return Advice::Defect(*defect);
        }
        let of = |criterion: Option<Criterion>| {
            let mut scored = self.scored.iter();
            scored.find(|one| Some(one.requirement.criterion) == criterion)
        };
        let weakest = of(self.weakest);
        let own = self.scored.iter();
        let own = own.filter(|one| Some(one.requirement.criterion) != self.of_pile);
        let mut beyond = own.filter(|one| one.conformance == Conformance::Beyond);
        let is_beyond = |one: &&CriterionScore| one.conformance == Conformance::Beyond;
        if let Some(one) = weakest.filter(is_beyond).or_else(|| beyond.next()) {
            return Advice::Beyond(one.requirement.criterion);
        }
        let is_close = |one: &&CriterionScore| one.conformance == Conformance::TooClose;
        if let Some(one) = weakest.filter(is_close).or_else(|| self.closest()) {
            return Advice::MeasureAgain {
                criterion: one.requirement.criterion,
                source: one.repeat(),
                settles_at: settles_at(one, units),
                also_close: self
                    .close()
                    .map(|other| other.requirement.criterion)
                    .filter(|other| *other != one.requirement.criterion)
                    .collect(),
            };
        }
        let mut unscored = self.unscored.iter();
        match unscored.find(|one| one.not_looked) {
            Some(one) => Advice::LookAt {
                criterion: one.criterion,
                why: one.why.clone(),
            },
            None => Advice::Nothing,
        }
    }
}

/// A value from which a criterion would be inside with the uncertainty that it has: the guard band inside its limit,
/// of a window inside the nearer one; rounded inwards to a step in which it is shown. `None` where the guard band takes
/// all that the limit leaves: what has a greatest value alone is never less than nothing, and a window may be narrower
/// than two of them.
fn settles_at(one: &CriterionScore, units: Units) -> Option<f64> {
    let Requirement { criterion, form } = one.requirement;
    let guard = GUARD_FACTOR * one.estimate.standard;
    let below = |limit: f64| last_shown_below(criterion, limit - guard, units);
    let above = |limit: f64| first_shown_above(criterion, limit + guard, units);
    match form {
        Form::AtMost { limit, .. } => Some(below(limit)).filter(|value| *value > 0.0),
        Form::AtLeast { limit, .. } => Some(above(limit)),
        Form::Within {
            low_limit,
            high_limit,
            ..
        } => {
            let value = one.estimate.value;
            let (least, most) = (above(low_limit), below(high_limit));
            let nearer = match value - low_limit < high_limit - value {
                true => least,
                false => most,
            };
            (least <= most).then_some(nearer)
        }
    }
}

/// A trace of binary arithmetic: a value so near a step is that step.
const HAIR: f64 = 1e-9;

/// The largest value up to this one that is shown without being rounded.
fn last_shown_below(criterion: Criterion, value: f64, units: Units) -> f64 {
    if criterion == Criterion::GrainSlope {
        // It is shown as 1 in so many, to the tenth.
        return 10.0 / (10.0 / value - HAIR).ceil();
    }
    let step = shown_step(criterion, units);
    (value / step + HAIR).floor() * step
}

/// The smallest value from this one on that is shown without being rounded.
fn first_shown_above(criterion: Criterion, value: f64, units: Units) -> f64 {
    if criterion == Criterion::GrainSlope {
        return 10.0 / (10.0 / value + HAIR).floor();
    }
    let step = shown_step(criterion, units);
    (value / step - HAIR).ceil() * step
}

/// The step to which a criterion's value is shown, in its unit.
fn shown_step(criterion: Criterion, units: Units) -> f64 {
    match criterion {
        Criterion::Straightness | Criterion::Crook => show::length_step(units),
        Criterion::Density => show::density_step(units),
        Criterion::Moisture => 0.1,
        Criterion::GrainSlope | Criterion::RingAngle | Criterion::Size => 1.0,
    }
}
