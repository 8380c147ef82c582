//! How many of a spec's criteria were looked at on a plank, and what may be shown of its evaluation for it.

use super::{Criterion, Evaluation, Recommendation, Spec};

/// How much of what a spec asks was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LookedAt {
    /// The criteria of the spec.
    pub asked: usize,
    /// Those that were looked at, the moisture of the pile among them.
    pub looked: usize,
    /// Those that were looked at on the plank itself.
    pub on_the_plank: usize,
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
    }
}

impl LookedAt {
    /// Whether every hard limit of the spec was looked at: nothing is shown as good before that. Every criterion
    /// of a spec has one.
    pub fn all_limits(self) -> bool {
        self.looked == self.asked
    }

    /// The evaluation as it may be shown: without a score, and without a recommendation save that of a fatal
    /// defect, while no criterion was looked at on the plank itself.
    pub fn shown(self, evaluation: Evaluation) -> Evaluation {
        if self.on_the_plank > 0 {
            return evaluation;
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
            ..evaluation
        }
    }
}
