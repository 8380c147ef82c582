//! The score of a criterion: what it comes to against what the spec asks of it.

use super::{Criterion, CriterionValue, Requirement};
use crate::plank::Source;
use crate::quantity::TraceOff;
use crate::quantity::{Conformance, Estimate};

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

    pub(super) fn desirability(&self) -> f64 {
        self.requirement
            .form
            .desirability(&mut TraceOff, "", self.estimate.value)
    }

    /// The margin as a share of the value; of nothing there is no share.
    pub(super) fn margin_share(&self) -> f64 {
        match self.estimate.value {
            0.0 => self.margin,
            value => self.margin / value.abs(),
        }
    }
}

/// A criterion that could not be scored, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unscored {
    pub criterion: Criterion,
    /// Why, in the maker's words.
    pub why: String,
    /// Whether looking would settle it.
    pub not_looked: bool,
}

/// What a criterion comes to for a plank under a spec, whether the spec asks for it or not.
#[derive(Debug, Clone, PartialEq)]
pub struct CriterionEvaluation {
    pub criterion: Criterion,
    pub value: CriterionValue,
    /// Its number with its uncertainty, where it has one.
    pub estimate: Option<Estimate<f64, Source>>,
}

/// The score of a criterion; `None` where there is only a bound that lies inside the limit: what was not
/// looked at never counts as good.
pub(super) fn score(
    requirement: Requirement,
    found: &CriterionEvaluation,
) -> Option<CriterionScore> {
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
        score: (form.desirability(&mut TraceOff, "", estimate.value) * 100.0).round(),
        margin,
        conformance: Conformance::of(margin, estimate.standard),
        estimate,
    })
}

/// A criterion that is not scored, and why.
pub(super) fn left_out(found: &CriterionEvaluation) -> Unscored {
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
