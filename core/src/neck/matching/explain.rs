//! How the figures of a set of laminates were worked out, to be told. What they compute
//! is what [`super::judge_match`] says.

use super::formulas::{BOW_LEFT, BOWS, COST, CROOKS, MEAN_CROOK, MEAN_TWIST, SAYS, TWISTS};
use super::judge::{outside_in, placed_numbers, summed};
use super::prepared::{Numbers, QUIET, WARNED, limits};
use super::{Laminate, MatchError, MatchLimits, Placed};
use crate::quantity::{Derivation, Trace, in_mm};

/// A figure of a set of laminates.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MatchFigure {
    /// Crook that the blank is left with.
    Crook,
    Twist,
    Bow,
    /// What the set costs, in limits: how far from perfect it is.
    Cost,
}

/// How a figure of a set of laminates was worked out. Errors as in [`super::judge_match`].
pub fn explain_match(
    figure: MatchFigure,
    stock: &[Laminate],
    blank: &[Placed],
    within: &MatchLimits,
) -> Result<Derivation, MatchError> {
    let (all, limits) = (placed_numbers(stock, blank)?, limits(within)?);
    // In the order in which they are added up, so that the last digit is the same.
    let placed = outside_in(blank.len())
        .into_iter()
        .filter_map(|at| all.get(at));
    let placed: Vec<&(Numbers, Placed)> = placed.collect();
    let n = placed.len() as f64;
    let mut working = Derivation::default();
    let steps = &mut working.steps;
    match figure {
        MatchFigure::Crook => {
            mean_crook(steps, &placed);
        }
        MatchFigure::Twist => {
            mean_twist(steps, &placed, n);
        }
        MatchFigure::Bow => {
            let bow =
                |(one, at): &&(Numbers, Placed)| [at.turn.of_bow() * one.bow.unwrap_or_default()];
            let bows: Vec<[f64; 1]> = all.iter().map(|one| bow(&one)).collect();
            let bows = steps.add_up(&BOWS, &bows);
            steps.work(&BOW_LEFT, [bows, n]);
        }
        MatchFigure::Cost => {
            let (crook, twist) = (mean_crook(steps, &placed), mean_twist(steps, &placed, n));
            let most = [in_mm(within.crook), in_mm(within.twist)];
            let refs: Vec<_> = all.iter().map(|(one, at)| (one, at)).collect();
            let rest = summed(&refs, &limits).0.settled(&limits);
            steps.work(&COST, [crook, most[0], twist, most[1], rest]);
            working.notes.push(format!(
                "Unlike pairs: what mirrored laminates differ by in thickness, and {QUIET} of what they differ \
                 by in density and stiffness, each in limits. What was not measured counts 1, grain that runs out \
                 against the rest {QUIET} each. Moisture too far \
                 apart, mixed rings, a wood not mirrored: {WARNED} each, so that no set that is warned of goes \
                 before one that is not."
            ));
            working.notes.push(
                "The search goes through all sets, places and turns, and leaves out only those that a lower \
                 bound of this sum rules out."
                    .into(),
            );
        }
    }
    Ok(working)
}

fn mean_crook(trace: &mut impl Trace, placed: &[&(Numbers, Placed)]) -> f64 {
    let crook = |(one, at): &&(Numbers, Placed)| {
        let turned = if at.turn.turned_over { -1.0 } else { 1.0 };
        [one.say, turned * one.crook.unwrap_or_default()]
    };
    let crooks: Vec<[f64; 2]> = placed.iter().map(crook).collect();
    let says: Vec<[f64; 1]> = placed.iter().map(|(one, _)| [one.say]).collect();
    let crooks = trace.add_up(&CROOKS, &crooks);
    let says = trace.add_up(&SAYS, &says);
    trace.work(&MEAN_CROOK, [crooks, says])
}

fn mean_twist(trace: &mut impl Trace, placed: &[&(Numbers, Placed)], n: f64) -> f64 {
    let twists = placed
        .iter()
        .map(|(one, _)| [one.twist.unwrap_or_default()]);
    let twists = trace.add_up(&TWISTS, &twists.collect::<Vec<_>>());
    trace.work(&MEAN_TWIST, [twists, n])
}
