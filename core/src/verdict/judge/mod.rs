//! The verdict: every criterion scored, the weakest named, and what to say of the plank.

#[cfg(test)]
mod tests;

use super::quality::{Candidate, Known, Wanted, slab_in_part};
use super::{Criterion, Form, Quality, Spec, Standing, geometric_mean, standing};
use crate::order;
use crate::plank::{BendShape, DefectKind, Moved, Plank, Reason, Shape, Source};
use crate::quantity::{Estimate, Input, Parts};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A criterion that could be scored.
#[derive(Debug, Clone, PartialEq)]
pub struct Scored {
    /// The criterion.
    pub criterion: Criterion,
    /// The value with its uncertainty, in the criterion's unit.
    pub estimate: Estimate<f64, Source>,
    /// Where the value is only the best that it can be: what was not looked at.
    pub at_best: Option<String>,
    /// 0 to 100.
    pub score: f64,
    /// How far inside the limit, in the criterion's unit; negative is beyond.
    pub margin: f64,
    /// Where it stands, given its uncertainty.
    pub standing: Standing,
    /// The probability that the true value is inside the limit.
    pub probability: f64,
}

impl Scored {
    /// What to measure again when it is too close to call: what adds most to the uncertainty.
    pub fn repeat(&self) -> Option<Source> {
        (self.standing == Standing::TooClose)
            .then(|| self.estimate.largest_source())
            .flatten()
    }
}

/// A criterion that could not be scored, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unscored {
    /// What it looks at.
    pub quality: Quality,
    /// Why, in the maker's words.
    pub why: String,
    /// Whether looking would settle it.
    pub not_looked: bool,
}

/// What the computation says of a plank. The maker decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Call {
    /// Nothing was looked at that the spec asks for.
    NothingYet,
    /// Beyond a limit, or a fatal fault.
    Refused,
    /// Near a limit: a measurement should be repeated.
    TooClose,
    /// Good in all that was looked at; something was not.
    GoodSoFar,
    /// Good in all that the spec asks for.
    Good,
}

impl Call {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Call::NothingYet => "nothing judged yet",
            Call::Refused => "leave it",
            Call::TooClose => "too close to call",
            Call::GoodSoFar => "good as far as looked at",
            Call::Good => "take it",
        }
    }
}

/// The verdict on a plank under a spec.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// What to say of it.
    pub call: Call,
    /// The plank's score, 0 to 100: that of its weakest criterion; 0 beyond a limit or with a fatal fault.
    /// `None` while nothing is scored.
    pub score: Option<f64>,
    /// The weakest criterion.
    pub weakest: Option<Quality>,
    /// Geometric mean of all scores, 0 to 100: orders planks of one score.
    pub mean: Option<f64>,
    /// Criteria scored, in the spec's order.
    pub scored: Vec<Scored>,
    /// Criteria left out.
    pub unscored: Vec<Unscored>,
    /// Fatal faults found.
    pub faults: Vec<DefectKind>,
    /// Reasons to leave it that the computation found, the main one first.
    pub reasons: Vec<Reason>,
}

impl Verdict {
    /// The scored criterion that is too close to call and nearest its limit.
    pub fn closest(&self) -> Option<&Scored> {
        self.scored
            .iter()
            .filter(|s| s.standing == Standing::TooClose)
            .min_by(|a, b| a.probability.total_cmp(&b.probability))
    }
}

/// Judges a plank: pure, and live at every keystroke.
///
/// The score is the least of the criteria's desirabilities, times 100; a criterion beyond its limit
/// scores 0. A value whose distance to the limit is under 1.645 standard uncertainties is too close to
/// call. What was not looked at is left out and named; a bound that is already beyond the limit scores
/// 0 like any other value, and refuses where it is surely beyond.
pub fn judge(plank: &Plank, inputs: &[Input<Source>], spec: &Spec) -> Verdict {
    judge_moved(plank, &plank.moved(inputs), spec)
}

/// [`judge`], with the plank as its inputs move it.
pub(super) fn judge_moved(plank: &Plank, moved: &[Moved], spec: &Spec) -> Verdict {
    let mut scored = Vec::new();
    let mut unscored = Vec::new();
    for (criterion, known, parts) in looked_at(plank, moved, spec) {
        match score(criterion, known, parts) {
            Ok(one) => scored.push(one),
            Err(one) => unscored.push(one),
        }
    }
    let mut faults: Vec<DefectKind> = Vec::new();
    for defect in &plank.defects {
        if spec.fatal.contains(&defect.kind) && !faults.contains(&defect.kind) {
            faults.push(defect.kind);
        }
    }
    let weakest = scored.iter().min_by(|a, b| {
        a.score
            .total_cmp(&b.score)
            .then(a.margin_share().total_cmp(&b.margin_share()))
    });
    let score = match (faults.is_empty(), weakest) {
        (false, _) => Some(0.0),
        (true, weakest) => weakest.map(|s| s.score),
    };
    let shares: Vec<f64> = scored.iter().map(|s| s.score / 100.0).collect();
    let refused = !faults.is_empty() || scored.iter().any(|s| s.standing == Standing::Beyond);
    let call = if refused {
        Call::Refused
    } else if scored.is_empty() {
        Call::NothingYet
    } else if scored.iter().any(|s| s.standing == Standing::TooClose) {
        Call::TooClose
    } else if unscored.is_empty() {
        Call::Good
    } else {
        Call::GoodSoFar
    };
    Verdict {
        call,
        score,
        weakest: weakest.map(|s| s.criterion.quality),
        mean: geometric_mean(&shares).map(|mean| mean * 100.0),
        reasons: reasons(plank, spec, &scored, &faults),
        scored,
        unscored,
        faults,
    }
}

impl Scored {
    fn margin_share(&self) -> f64 {
        if self.estimate.value == 0.0 {
            self.margin
        } else {
            self.margin / self.estimate.value.abs()
        }
    }
}

/// For each criterion what is known of it, and what each source adds to its uncertainty. A source's
/// qualities are worked out together, for they share the slab.
fn looked_at(
    plank: &Plank,
    moved: &[Moved],
    spec: &Spec,
) -> Vec<(Criterion, Known, Parts<Source>)> {
    let wanted = Wanted::of(plank, spec);
    let as_measured = Candidate::new(plank, &wanted);
    let look = |criterion: &Criterion| {
        let quality = criterion.quality;
        let parts = Parts::of_at_most(quality.sources().len());
        (*criterion, quality.of_candidate(&as_measured), parts)
    };
    let mut looked_at: Vec<_> = spec.criteria.iter().map(look).collect();
    for moved in moved {
        let above = Candidate::new(&moved.above, &wanted);
        let below = Candidate::new(&moved.below, &wanted);
        for (criterion, known, parts) in &mut looked_at {
            let quality = criterion.quality;
            if let Some(value) = known.number()
                && quality.sources().contains(&moved.source)
            {
                let [above, below] = [&above, &below].map(|moved| quality.of_candidate(moved));
                parts.add(moved.source, value, above.number(), below.number());
            }
        }
    }
    looked_at
}

fn score(criterion: Criterion, known: Known, parts: Parts<Source>) -> Result<Scored, Unscored> {
    let unscored = |why: String, not_looked| {
        Err(Unscored {
            quality: criterion.quality,
            why,
            not_looked,
        })
    };
    let (value, at_best) = match known {
        Known::Value(value) => (value, None),
        Known::AtBest(value, why) => (value, Some(why)),
        Known::NotLooked(why) => return unscored(why.into(), true),
        Known::Cannot(why) => return unscored(why, false),
    };
    let estimate = Estimate::of(value, parts);
    let margin = criterion.form.margin(estimate.value);
    let standing = standing(margin, estimate.standard);
    if let Some(why) = &at_best
        && margin >= 0.0
    {
        return unscored(why.to_string(), true);
    }
    let share = criterion.form.desirability(estimate.value);
    let probability = criterion
        .form
        .conformance(estimate.value, estimate.standard);
    Ok(Scored {
        criterion,
        at_best: at_best.map(Cow::into_owned),
        score: share * 100.0,
        margin,
        standing,
        probability,
        estimate,
    })
}

/// The reasons to leave it, from what is beyond its limit.
fn reasons(plank: &Plank, spec: &Spec, scored: &[Scored], faults: &[DefectKind]) -> Vec<Reason> {
    let mut found: Vec<Reason> = faults.iter().map(|kind| reason_for_fault(*kind)).collect();
    let mut beyond: Vec<&Scored> = scored.iter().filter(|s| s.margin < 0.0).collect();
    order::sort_by(&mut beyond, |a, b| a.probability.total_cmp(&b.probability));
    for one in beyond {
        let reason = match one.criterion.quality {
            Quality::Straightness => reason_for_slab(plank, spec),
            Quality::Crook => Reason::Crook,
            Quality::GrainSlope => Reason::Runout,
            Quality::RingAngle => Reason::WrongRings,
            Quality::Density if below_window(one) => Reason::TooLight,
            Quality::Density => Reason::TooHeavy,
            // Too dry says nothing of a fault; it will take up water.
            Quality::Moisture if below_window(one) => continue,
            Quality::Moisture => Reason::TooWet,
            Quality::Size => Reason::TooSmall,
        };
        if !found.contains(&reason) {
            found.push(reason);
        }
    }
    found.dedup();
    found
}

fn below_window(one: &Scored) -> bool {
    match one.criterion.form {
        Form::Within { low_limit, .. } => one.estimate.value < low_limit,
        Form::AtLeast { .. } => true,
        Form::AtMost { .. } => false,
    }
}

/// What takes most of the slab; too thin from the start is too small.
fn reason_for_slab(plank: &Plank, spec: &Spec) -> Reason {
    let Ok(slab) = slab_in_part(plank, spec) else {
        return Reason::TooSmall;
    };
    let losses = [
        (Shape::Bow, slab.bow_loss),
        (Shape::Twist, slab.twist_loss),
        (Shape::Cup, slab.cup_loss),
    ];
    let worst = losses
        .into_iter()
        .filter_map(|(shape, loss)| Some((shape, loss?)))
        .max_by(|a, b| a.1.value.total_cmp(&b.1.value));
    match worst {
        Some((_, loss)) if loss.value <= 0.0005 => Reason::TooSmall,
        Some((Shape::Bow, _)) if plank.bow.is_some_and(|b| b.shape != BendShape::Even) => {
            Reason::Kink
        }
        Some((Shape::Bow, _)) => Reason::Bow,
        Some((Shape::Twist, _)) => Reason::Twist,
        Some((Shape::Cup, _)) => Reason::Cup,
        None => Reason::TooSmall,
    }
}

/// The reason that a fault gives.
pub fn reason_for_fault(kind: DefectKind) -> Reason {
    use DefectKind as D;
    match kind {
        D::Knot | D::PinKnot => Reason::Knot,
        D::Swirl | D::Burl | D::Curl => Reason::Figure,
        D::SpiralGrain => Reason::SpiralGrain,
        D::InterlockedGrain | D::DiagonalGrain => Reason::Runout,
        D::Check | D::EndCheck => Reason::Checks,
        D::Split => Reason::Split,
        D::Shake => Reason::Shake,
        D::Honeycomb | D::Collapse | D::CaseHardening => Reason::DryingStress,
        D::CompressionFailure | D::Brash => Reason::CompressionFailure,
        D::Decay | D::Stain => Reason::Decay,
        D::WormHole => Reason::Worm,
        D::BarkPocket | D::GumPocket => Reason::BarkPocket,
        D::Wane => Reason::TooSmall,
        D::Sapwood => Reason::Sapwood,
        D::Pith | D::JuvenileWood => Reason::Pith,
        D::ReactionWood => Reason::ReactionWood,
        D::UnevenThickness => Reason::UnevenThickness,
        D::HandlingDamage => Reason::Damage,
    }
}
