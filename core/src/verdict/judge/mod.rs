//! The verdict: every criterion scored, the weakest named, and what to say of the plank.

#[cfg(test)]
mod tests;

use super::candidate::Wanted;
use super::look::look;
use super::qualities::Qualities;
use super::quality::slab_in_part;
use super::ruling::{Marked, Marks, Ruling, Seen};
use super::{Call, Criterion, Form, Known, Quality, Spec, Standing};
use crate::neck::zones_to_cut_round;
use crate::order;
use crate::plank::{BendShape, DefectKind, Plank, Reason, Shape, Source};
use crate::quantity::{Estimate, Input, Parts};

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
}

impl Scored {
    /// The probability that the true value is inside the limit.
    pub fn probability(&self) -> f64 {
        let Estimate {
            value, standard, ..
        } = self.estimate;
        self.criterion.form.conformance(value, standard)
    }

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
            .min_by(|a, b| a.probability().total_cmp(&b.probability()))
    }
}

/// Judges a plank: pure, and live at every keystroke.
///
/// The score is the least of the criteria's desirabilities, times 100; a criterion beyond its limit
/// scores 0. A value whose distance to the limit is under 1.645 standard uncertainties is too close to
/// call. What was not looked at is left out and named; a bound that is already beyond the limit scores
/// 0 like any other value, and refuses where it is surely beyond.
pub fn judge(plank: &Plank, inputs: &[Input<Source>], spec: &Spec) -> Verdict {
    let zones = zones_to_cut_round(&plank.defects).places;
    let criteria = &spec.criteria;
    let asked = criteria.iter().map(|one| one.quality);
    let asked = asked.fold(Qualities::default(), Qualities::with);
    let mut parts: [Parts<Source>; Quality::COUNT] = Default::default();
    for quality in asked.each() {
        parts[quality as usize] = Parts::of_at_most(quality.sources(plank).count());
    }
    let known = look(
        plank,
        &zones,
        inputs,
        &Wanted::of(spec),
        asked,
        |quality, source, part| parts[quality as usize].add(source, part),
    );
    let faults = fatal_faults(plank, spec);
    let mut marks = Marks::default();
    let mut scored = Vec::with_capacity(criteria.len());
    let mut unscored = Vec::new();
    // A spec names a quality once; of one that does not, both criteria are told whole.
    let each_once = asked.count() == criteria.len();
    for criterion in criteria {
        let at = criterion.quality as usize;
        let parts = match each_once {
            true => std::mem::take(&mut parts[at]),
            false => parts[at].clone(),
        };
        let known = &known[at];
        let mark = Seen::of(known, parts.standard()).and_then(|seen| Marked::of(*criterion, seen));
        marks.add(mark);
        match mark {
            Some(mark) => scored.push(told(mark, known, parts)),
            None => unscored.push(left_out(criterion.quality, known)),
        }
    }
    let Ruling {
        call,
        score,
        weakest,
        mean,
    } = marks.rule(!faults.is_empty());
    Verdict {
        call,
        score,
        weakest,
        mean,
        reasons: reasons(plank, spec, &scored, &faults),
        scored,
        unscored,
        faults,
    }
}

/// The faults that refuse it, each once.
fn fatal_faults(plank: &Plank, spec: &Spec) -> Vec<DefectKind> {
    let mut faults: Vec<DefectKind> = Vec::new();
    for defect in &plank.defects {
        if spec.fatal.contains(&defect.kind) && !faults.contains(&defect.kind) {
            faults.push(defect.kind);
        }
    }
    faults
}

/// A criterion with all that is to be told of it.
fn told(mark: Marked, known: &Known, parts: Parts<Source>) -> Scored {
    Scored {
        criterion: mark.criterion,
        at_best: match known {
            Known::AtBest(_, why) => Some(why.to_string()),
            _ => None,
        },
        score: mark.score(),
        margin: mark.margin,
        standing: mark.standing,
        estimate: Estimate::of(mark.value, parts),
    }
}

/// A criterion that is not scored, and why.
fn left_out(quality: Quality, known: &Known) -> Unscored {
    let (why, not_looked) = match known {
        Known::AtBest(_, why) => (why.to_string(), true),
        Known::NotLooked(why) => ((*why).to_owned(), true),
        Known::Cannot(why) => (why.to_string(), false),
        // A value is always scored.
        Known::Value(_) => (String::new(), true),
    };
    Unscored {
        quality,
        why,
        not_looked,
    }
}

/// The reasons to leave it, from what is beyond its limit.
fn reasons(plank: &Plank, spec: &Spec, scored: &[Scored], faults: &[DefectKind]) -> Vec<Reason> {
    let mut found: Vec<Reason> = faults.iter().map(|kind| reason_for_fault(*kind)).collect();
    let mut beyond: Vec<&Scored> = scored.iter().filter(|s| s.margin < 0.0).collect();
    order::sort_by(&mut beyond, |a, b| {
        a.probability().total_cmp(&b.probability())
    });
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
