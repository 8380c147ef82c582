//! The one evaluation of a plank under a spec: what each criterion comes to and how far it may be off, how it
//! scores, which decides, and what to recommend.
//!
//! The verdict on a screen, a plank's sheet, the list of planks and the explanation of a number all read its
//! result.

#[cfg(test)]
mod kink_tests;
#[cfg(test)]
mod random_planks;
#[cfg(test)]
mod size_tests;
#[cfg(test)]
mod tests;

use super::criterion::Criterion;
use super::plank_under_spec::{CountedSlab, PlankUnderSpec};
use super::reasons::reasons;
use super::score::{CriterionEvaluation, CriterionScore, Unscored, left_out, score};
use super::{CriterionValue, Spec, geometric_mean};
use crate::neck::{PartCount, zones_to_cut_round};
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

/// The evaluation of a plank under a spec.
#[derive(Debug, Clone, PartialEq)]
pub struct Evaluation {
    pub recommendation: Recommendation,
    /// The plank's score, 0 to 100, whole points: that of its weakest criterion; 0 beyond a limit or with a
    /// fatal defect. `None` while nothing is scored.
    pub score: Option<f64>,
    /// The weakest criterion: it decides.
    pub weakest: Option<Criterion>,
    /// Geometric mean of all scores, 0 to 100: orders planks of one score.
    pub mean: Option<f64>,
    /// A criterion that was read on the pile and not on this plank: it decides on no plank by itself.
    pub of_pile: Option<Criterion>,
    /// Criteria scored, in the spec's order.
    pub scored: Vec<CriterionScore>,
    /// Criteria left out.
    pub unscored: Vec<Unscored>,
    pub fatal_defects: Vec<DefectKind>,
    /// Reasons to leave it that the computation found, the main one first.
    pub reasons: Vec<Reason>,
    /// What each criterion comes to, in the order in which they are shown.
    pub criteria: Vec<CriterionEvaluation>,
    /// The straight slab in what is sawn first, and which counts.
    pub slab: Result<CountedSlab, CriterionValue>,
    pub parts: Result<PartCount, CriterionValue>,
}

impl Evaluation {
    /// The scored criteria that are too close to call; not one that was read on the pile.
    pub(super) fn close(&self) -> impl Iterator<Item = &CriterionScore> {
        self.scored
            .iter()
            .filter(|one| one.conformance == Conformance::TooClose)
            .filter(|one| Some(one.requirement.criterion) != self.of_pile)
    }

    /// The scored criterion that is too close to call and nearest its limit; not one that was read on the pile.
    pub fn closest(&self) -> Option<&CriterionScore> {
        self.close()
            .min_by(|a, b| a.probability().total_cmp(&b.probability()))
    }

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
    // No reading moves a defect: they are left behind as the others are moved.
    let bare = &plank.without_defects();
    let measured = PlankUnderSpec {
        plank: bare,
        zones: &zones_to_cut_round(&plank.defects),
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
                    Some((source, by)) if criterion.is_moved_by(source, bare) => {
                        let perturbed = bare.perturbed(source, by);
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
    let fatal_defects = fatal_defects(plank, spec);
    let slab = measured.slab();
    let weakest = weakest(&scored);
    Evaluation {
        recommendation: recommendation(&scored, &unscored, &fatal_defects),
        score: match fatal_defects.is_empty() {
            true => weakest.map(|one| one.score),
            false => Some(0.0),
        },
        weakest: weakest.map(|one| one.requirement.criterion),
        mean: geometric_mean(scored.iter().map(|one| one.score / 100.0)).map(|mean| mean * 100.0),
        reasons: reasons(plank, slab.as_ref().ok(), &scored, &fatal_defects),
        parts: measured.parts(),
        slab,
        of_pile: None,
        scored,
        unscored,
        fatal_defects,
        criteria,
    }
}

/// The least desirable; of two that are as good, the one with the smaller margin as a share of its value, and
/// of those the first.
pub(super) fn weakest(scored: &[CriterionScore]) -> Option<&CriterionScore> {
    scored.iter().min_by(|a, b| {
        let order = a.desirability().total_cmp(&b.desirability());
        order.then_with(|| a.margin_share().total_cmp(&b.margin_share()))
    })
}

pub(super) fn recommendation(
    scored: &[CriterionScore],
    unscored: &[Unscored],
    fatal_defects: &[DefectKind],
) -> Recommendation {
    let any = |conformance| scored.iter().any(|one| one.conformance == conformance);
    if !fatal_defects.is_empty() || any(Conformance::Beyond) {
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
