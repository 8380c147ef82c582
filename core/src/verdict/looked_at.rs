//! How many of a spec's criteria were looked at on a plank, and what may be shown of its evaluation for it.

use super::evaluate::{recommendation, weakest};
use super::{Criterion, CriterionScore, Evaluation, Recommendation, Spec, geometric_mean};
use crate::quantity::Conformance;

/// How much of what a spec asks was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LookedAt {
    /// The criteria of the spec.
    pub asked: usize,
    /// Those that were looked at, the moisture of the pile among them.
    pub looked: usize,
    /// Those that were looked at on the plank itself.
    pub on_the_plank: usize,
    /// The moisture was read on the plank itself.
    pub moisture_is_own: bool,
}

/// How much of what a spec asks was looked at. `moisture_is_own` is whether the moisture was read on the plank
/// itself: that of its pile says the same of every plank.
pub fn looked_at(evaluation: &Evaluation, spec: &Spec, moisture_is_own: bool) -> LookedAt {
    let of_spec = |criterion: Criterion| spec.requirement(criterion).is_some();
    let scored = evaluation.scored.iter();
    let looked: Vec<Criterion> = scored
        .map(|one| one.requirement.criterion)
        .filter(|criterion| of_spec(*criterion))
        .collect();
    let own = looked.iter();
    let own = own.filter(|criterion| moisture_is_own || **criterion != Criterion::Moisture);
    LookedAt {
        asked: spec.criteria.len(),
        looked: looked.len(),
        on_the_plank: own.count(),
        moisture_is_own,
    }
}

impl LookedAt {
    /// The evaluation as it may be shown: without a score, and without a recommendation save that of a fatal
    /// defect, while no criterion was looked at on the plank itself. The moisture of the pile, which says the same
    /// of every plank, ranks none of them: it decides only where it is surely beyond its limit.
    pub fn shown(self, evaluation: Evaluation) -> Evaluation {
        if self.on_the_plank > 0 {
            return match self.moisture_is_own {
                true => evaluation,
                false => without_moisture_of_the_pile(evaluation),
            };
        }
        let recommendation = match evaluation.fatal_defects.is_empty() {
            true => Recommendation::NothingYet,
            false => Recommendation::Refused,
        };
        let score = match evaluation.fatal_defects.is_empty() {
            true => None,
            false => evaluation.score,
        };
        Evaluation {
            recommendation,
            score,
            weakest: None,
            mean: None,
            of_pile: (!self.moisture_is_own).then_some(Criterion::Moisture),
            ..evaluation
        }
    }
}

/// Score, weakest criterion and recommendation by what was read on the plank itself.
fn without_moisture_of_the_pile(evaluation: Evaluation) -> Evaluation {
    let is_of_pile = |one: &&CriterionScore| one.requirement.criterion == Criterion::Moisture;
    let moisture = evaluation.scored.iter().find(is_of_pile);
    if moisture.is_none_or(|one| one.conformance == Conformance::Beyond) {
        return evaluation;
    }
    let own = evaluation.scored.iter().filter(|one| !is_of_pile(one));
    let own: Vec<CriterionScore> = own.cloned().collect();
    let decides = weakest(&own);
    Evaluation {
        recommendation: recommendation(&own, &evaluation.unscored, &evaluation.fatal_defects),
        score: match evaluation.fatal_defects.is_empty() {
            true => decides.map(|one| one.score),
            false => Some(0.0),
        },
        weakest: decides.map(|one| one.requirement.criterion),
        of_pile: Some(Criterion::Moisture),
        mean: geometric_mean(own.iter().map(|one| one.score / 100.0)).map(|mean| mean * 100.0),
        ..evaluation
    }
}
