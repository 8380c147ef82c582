//! The reasons to leave a plank that an evaluation finds.

use super::{CountedSlab, Criterion, CriterionScore, Form};
use crate::order;
use crate::plank::{BendShape, DefectKind, Plank, Reason, Shape};
use crate::quantity::in_mm;

/// The reasons to leave it, from what is beyond its limit.
pub(super) fn reasons(
    plank: &Plank,
    slab: Option<&CountedSlab>,
    scored: &[CriterionScore],
    fatal_defects: &[DefectKind],
) -> Vec<Reason> {
    let mut found: Vec<Reason> = fatal_defects
        .iter()
        .map(|kind| reason_for_defect(*kind))
        .collect();
    let mut beyond: Vec<&CriterionScore> = scored.iter().filter(|s| s.margin < 0.0).collect();
    order::sort_by(&mut beyond, |a, b| {
        a.probability().total_cmp(&b.probability())
    });
    for one in beyond {
        let reason = match one.requirement.criterion {
            Criterion::Straightness => reason_for_slab(plank, slab, one.requirement.form),
            Criterion::Crook => Reason::Crook,
            Criterion::GrainSlope => Reason::Runout,
            Criterion::RingAngle => Reason::WrongRings,
            Criterion::Density if below_window(one) => Reason::TooLight,
            Criterion::Density => Reason::TooHeavy,
            // Too dry says nothing of a defect; it will take up water.
            Criterion::Moisture if below_window(one) => continue,
            Criterion::Moisture => Reason::TooWet,
            Criterion::Size => Reason::TooSmall,
        };
        if !found.contains(&reason) {
            found.push(reason);
        }
    }
    found.dedup();
    found
}

fn below_window(one: &CriterionScore) -> bool {
    match one.requirement.form {
        Form::Within { low_limit, .. } => one.estimate.value < low_limit,
        Form::AtLeast { .. } => true,
        Form::AtMost { .. } => false,
    }
}

/// What takes most of the slab; a plank that would be too thin without any bow, twist and cup is too small.
fn reason_for_slab(plank: &Plank, slab: Option<&CountedSlab>, form: Form) -> Reason {
    let Some(slab) = slab.map(CountedSlab::slab) else {
        return Reason::TooSmall;
    };
    let straight = in_mm(slab.without_losses());
    let too_thin = match form {
        Form::AtLeast { limit, .. }
        | Form::Within {
            low_limit: limit, ..
        } => straight < limit,
        Form::AtMost { .. } => false,
    };
    if too_thin {
        return Reason::TooSmall;
    }
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
        Some((Shape::Bow, _)) if plank.bow.is_some_and(|b| b.shape != BendShape::Even) => {
            Reason::Kink
        }
        Some((Shape::Bow, _)) => Reason::Bow,
        Some((Shape::Twist, _)) => Reason::Twist,
        Some((Shape::Cup, _)) => Reason::Cup,
        None => Reason::TooSmall,
    }
}

pub fn reason_for_defect(kind: DefectKind) -> Reason {
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
