//! The one evaluation of a plank under a spec: what each criterion comes to and how far it may be off, how it
//! scores, which decides, and what to recommend.
//!
//! The verdict on a screen, a plank's sheet, the list of planks and the explanation of a number all read its
//! result.

#[cfg(test)]
mod tests;

use super::criterion::Criterion;
use super::plank_under_spec::{CountedSlab, PlankUnderSpec};
use super::reasons::reasons;
use super::{CriterionValue, Requirement, Spec, geometric_mean};
use crate::neck::PartCount;
use crate::plank::{DefectKind, Plank, Reason, Source};
use crate::quantity::{Conformance, Estimate, Input, propagate};
use serde::{Deserialize, Serialize};

/// What the computation says of a plank. The maker decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Recommendation {
    /// Nothing was looked at that the spec asks for.
    NothingYet,
    /// Beyond a limit, or a fatal defect.
    Refused,
    /// Near a limit: a measurement should be repeated.
    TooClose,
    /// Good in all that was looked at; something was not.
    GoodSoFar,
    /// Good in all that the spec asks for.
    Good,
}

impl Recommendation {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Recommendation::NothingYet => "nothing judged yet",
            Recommendation::Refused => "leave it",
            Recommendation::TooClose => "too close to call",
            Recommendation::GoodSoFar => "good as far as looked at",
            Recommendation::Good => "take it",
        }
    }
}

/// A criterion that could be scored.
#[derive(Debug, Clone, PartialEq)]
pub struct CriterionScore {
    /// The criterion, and what the spec asks of it.
    pub requirement: Requirement,
    /// The value with its uncertainty, in the criterion's unit.
    pub estimate: Estimate<f64, Source>,
    /// Where the value is only the best that it can be: what was not looked at.
    pub at_best: Option<String>,
    /// 0 to 100, whole points.
    pub score: f64,
    /// How far inside the limit, in the criterion's unit; negative is beyond.
    pub margin: f64,
    /// Where it stands, given its uncertainty.
    pub conformance: Conformance,
}

impl CriterionScore {
    /// The probability that the true value is inside the limit.
    pub fn probability(&self) -> f64 {
        let Estimate {
            value, standard, ..
        } = self.estimate;
        self.requirement.form.conformance(value, standard)
    }

    /// What to measure again when it is too close to call: what adds most to the uncertainty.
    pub fn repeat(&self) -> Option<Source> {
        (self.conformance == Conformance::TooClose)
            .then(|| self.estimate.largest_source())
            .flatten()
    }

    fn desirability(&self) -> f64 {
        self.requirement.form.desirability(self.estimate.value)
    }

    /// The margin as a share of the value; of nothing there is no share.
    fn margin_share(&self) -> f64 {
        match self.estimate.value {
            0.0 => self.margin,
            value => self.margin / value.abs(),
        }
    }
}

/// A criterion that could not be scored, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unscored {
    /// What it looks at.
    pub criterion: Criterion,
    /// Why, in the maker's words.
    pub why: String,
    /// Whether looking would settle it.
    pub not_looked: bool,
}

/// What a criterion comes to for a plank under a spec, whether the spec asks for it or not.
#[derive(Debug, Clone, PartialEq)]
pub struct CriterionEvaluation {
    /// The criterion.
    pub criterion: Criterion,
    /// What it comes to.
    pub value: CriterionValue,
    /// Its number with its uncertainty, where it has one.
    pub estimate: Option<Estimate<f64, Source>>,
}

/// The evaluation of a plank under a spec.
#[derive(Debug, Clone, PartialEq)]
pub struct Evaluation {
    /// What to say of it.
    pub recommendation: Recommendation,
    /// The plank's score, 0 to 100, whole points: that of its weakest criterion; 0 beyond a limit or with a
    /// fatal defect. `None` while nothing is scored.
    pub score: Option<f64>,
    /// The weakest criterion: it decides.
    pub weakest: Option<Criterion>,
    /// Geometric mean of all scores, 0 to 100: orders planks of one score.
    pub mean: Option<f64>,
    /// Criteria scored, in the spec's order.
    pub scored: Vec<CriterionScore>,
    /// Criteria left out.
    pub unscored: Vec<Unscored>,
    /// Fatal defects found.
    pub faults: Vec<DefectKind>,
    /// Reasons to leave it that the computation found, the main one first.
    pub reasons: Vec<Reason>,
    /// What each criterion comes to, in the order in which they are shown.
    pub criteria: Vec<CriterionEvaluation>,
    /// The straight slab in what is sawn first, and which counts.
    pub slab: Result<CountedSlab, CriterionValue>,
    /// The parts that it holds.
    pub parts: Result<PartCount, CriterionValue>,
}

impl Evaluation {
    /// The scored criterion that is too close to call and nearest its limit.
    pub fn closest(&self) -> Option<&CriterionScore> {
        self.scored
            .iter()
            .filter(|one| one.conformance == Conformance::TooClose)
            .min_by(|a, b| a.probability().total_cmp(&b.probability()))
    }

    /// What a criterion comes to.
    pub fn of(&self, criterion: Criterion) -> Option<&CriterionEvaluation> {
        self.criteria.iter().find(|one| one.criterion == criterion)
    }

    /// A criterion's number with its uncertainty, where it has one.
    pub fn estimate(&self, criterion: Criterion) -> Option<&Estimate<f64, Source>> {
        self.of(criterion)?.estimate.as_ref()
    }
}

/// Evaluates a plank under a spec: pure, and live at every keystroke.
///
/// Each criterion is worked out from the plank as measured, and again with each of its readings moved by its
/// standard uncertainty both ways (see [`propagate`]). A criterion's score is its desirability, times 100, in
/// whole points; beyond its limit it is 0. The plank's score is the least of them. A value whose distance to
/// the limit is under 1.645 standard uncertainties is too close to call. What was not looked at is left out
/// and named; a bound that is already beyond the limit scores 0 like any other value, and refuses where it is
/// surely beyond.
pub fn evaluate(plank: &Plank, inputs: &[Input<Source>], spec: &Spec) -> Evaluation {
    let measured = PlankUnderSpec {
        plank,
        cut: &spec.cut_spec(),
        orientation: spec.orientation,
    };
    let criteria: Vec<CriterionEvaluation> = Criterion::ALL
        .iter()
        .map(|criterion| {
            let value = measured.value(*criterion);
            CriterionEvaluation {
                criterion: *criterion,
                estimate: propagate(inputs, |moved| match moved {
                    Some((source, by)) if criterion.is_moved_by(source, plank) => {
                        let perturbed = plank.perturbed(source, by);
                        measured.with(&perturbed).value(*criterion).number()
                    }
                    _ => value.number(),
                }),
                value,
            }
        })
        .collect();
    let mut scored = Vec::with_capacity(spec.criteria.len());
    let mut unscored = Vec::new();
    for requirement in &spec.criteria {
        let found = criteria
            .iter()
            .find(|one| one.criterion == requirement.criterion);
        if let Some(found) = found {
            match score(*requirement, found) {
                Some(score) => scored.push(score),
                None => unscored.push(left_out(found)),
            }
        }
    }
    let faults = fatal_defects(plank, spec);
    let slab = measured.slab();
    let weakest = weakest(&scored);
    Evaluation {
        recommendation: recommendation(&scored, &unscored, &faults),
        score: match faults.is_empty() {
            true => weakest.map(|one| one.score),
            false => Some(0.0),
        },
        weakest: weakest.map(|one| one.requirement.criterion),
        mean: geometric_mean(scored.iter().map(|one| one.score / 100.0)).map(|mean| mean * 100.0),
        reasons: reasons(plank, slab.as_ref().ok(), &scored, &faults),
        parts: measured.parts(),
        slab,
        scored,
        unscored,
        faults,
        criteria,
    }
}

/// The score of a criterion; `None` where there is only a bound that lies inside the limit: what was not
/// looked at never counts as good.
fn score(requirement: Requirement, found: &CriterionEvaluation) -> Option<CriterionScore> {
    let estimate = found.estimate.clone()?;
    let form = requirement.form;
    let margin = form.margin(estimate.value);
    let at_best = match found.value {
        CriterionValue::AtBest(..) if margin >= 0.0 => return None,
        CriterionValue::AtBest(_, why) => Some(why.to_string()),
        _ => None,
    };
    Some(CriterionScore {
        requirement,
        at_best,
        score: (form.desirability(estimate.value) * 100.0).round(),
        margin,
        conformance: Conformance::of(margin, estimate.standard),
        estimate,
    })
}

/// A criterion that is not scored, and why.
fn left_out(found: &CriterionEvaluation) -> Unscored {
    let (why, not_looked) = match found.value {
        CriterionValue::AtBest(_, why) => (why.to_string(), true),
        CriterionValue::NotLooked(why) => (why.to_owned(), true),
        CriterionValue::Cannot(why) => (why.to_string(), false),
        // A value is always scored.
        CriterionValue::Value(_) => (String::new(), true),
    };
    Unscored {
        criterion: found.criterion,
        why,
        not_looked,
    }
}

/// The least desirable; of two that are as good, the one with the smaller margin as a share of its value, and
/// of those the first.
fn weakest(scored: &[CriterionScore]) -> Option<&CriterionScore> {
    scored.iter().min_by(|a, b| {
        let order = a.desirability().total_cmp(&b.desirability());
        order.then_with(|| a.margin_share().total_cmp(&b.margin_share()))
    })
}

fn recommendation(
    scored: &[CriterionScore],
    unscored: &[Unscored],
    faults: &[DefectKind],
) -> Recommendation {
    let any = |conformance| scored.iter().any(|one| one.conformance == conformance);
    if !faults.is_empty() || any(Conformance::Beyond) {
        Recommendation::Refused
    } else if scored.is_empty() {
        Recommendation::NothingYet
    } else if any(Conformance::TooClose) {
        Recommendation::TooClose
    } else if !unscored.is_empty() {
        Recommendation::GoodSoFar
    } else {
        Recommendation::Good
    }
}

/// The defects that refuse it, each once.
fn fatal_defects(plank: &Plank, spec: &Spec) -> Vec<DefectKind> {
    let mut fatal: Vec<DefectKind> = Vec::new();
    for defect in &plank.defects {
        if spec.fatal.contains(&defect.kind) && !fatal.contains(&defect.kind) {
            fatal.push(defect.kind);
        }
    }
    fatal
}
