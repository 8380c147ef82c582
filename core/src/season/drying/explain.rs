//! How a figure of drying was worked out, to be told: the curve that was laid, what was minimised to lay
//! it, and the weighings that it was laid through.

use super::air::AirUncertainty;
use super::fit::DryingFit;
use super::formulas::{LEFT, SETTLES, days_until_near};
use super::one_percent::one_percent;
use super::report::DryingReport;
use super::weighing::{Weighing, grams};
use crate::quantity::{Derivation, Trace, TraceOff, in_kg, show};

/// A figure of a piece's drying.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DriedTo {
    /// How far it is above its air's equilibrium.
    Left,
    /// What it will weigh in that air.
    SettlesAt,
    /// Days until it is near its equilibrium.
    NearIn,
    /// What 1 % of moisture weighs in it.
    OnePercent,
}

/// How a figure of a piece's drying was worked out; `None` where no curve was laid.
pub fn explain_drying_figure(
    what: DriedTo,
    weighings: &[Weighing],
    report: &DryingReport,
) -> Option<Derivation> {
    let last = weighings.last()?;
    let mut working = Derivation::default();
    if what == DriedTo::OnePercent {
        one_percent(&mut working.steps, last.mass, last.air).ok()?;
        return Some(working);
    }
    let fit = report.fit.as_ref()?;
    let (dry, water) = (grams(fit.dry), grams(fit.left_mass.value));
    let air = last.air.in_percent();
    match what {
        DriedTo::SettlesAt => {
            working.steps.work(&SETTLES, [dry, air]);
        }
        DriedTo::Left => {
            working.steps.work(&LEFT, [water, dry]);
        }
        DriedTo::NearIn | DriedTo::OnePercent => {
            let left = working.steps.work(&LEFT, [water, dry]);
            if days_until_near(&mut TraceOff, fit.time_constant.value, left) > 0.0 {
                days_until_near(&mut working.steps, fit.time_constant.value, left);
            }
        }
    }
    working.notes = laid(weighings, fit);
    working.notes.push(interval(what, fit));
    working.notes.push(condition(fit));
    working.source = "the approach to a moving equilibrium: derived here; profile-likelihood intervals: standard, from memory";
    Some(working)
}

/// What was minimised, over what, and what went in.
fn laid(weighings: &[Weighing], fit: &DryingFit) -> Vec<String> {
    let first = weighings.first().map_or(0.0, |one| one.day);
    let one = |one: &Weighing| {
        format!(
            "day {:.0}: {} g, air {}",
            one.day - first,
            show::number(grams(one.mass), 1),
            show::moisture(one.air.in_percent())
        )
    };
    let all: Vec<String> = weighings.iter().map(one).collect();
    let tau = fit.time_constant;
    vec![
        "A curve was laid through the weighings: m = D · (1 + M / 100), dM/dt = (E − M) / τ, E the air's \
         equilibrium, which runs straight from one reading to the next. The sum of the squares of what the weighings are off it is the least over D, the first \
         M and τ, with τ from a tenth of the shortest gap to three times the days watched."
            .to_owned(),
        format!(
            "Found: D {} g, τ {:.0} days ({:.0} to {:.0}); a weighing is good to ± {} g (standard).",
            show::number(grams(fit.dry), 1),
            tau.value,
            tau.low,
            tau.high,
            show::number(grams(fit.spread), 2)
        ),
        format!("Weighed: {}.", all.join("; ")),
    ]
}

/// The 95 % interval of a figure.
fn interval(what: DriedTo, fit: &DryingFit) -> String {
    let (low, high, unit) = match what {
        DriedTo::SettlesAt => (in_kg(fit.settles_at.low), in_kg(fit.settles_at.high), "kg"),
        DriedTo::NearIn => (fit.days_until_near.low, fit.days_until_near.high, "days"),
        DriedTo::Left | DriedTo::OnePercent => {
            (fit.left.low.in_percent(), fit.left.high.in_percent(), "%")
        }
    };
    format!(
        "The true value lies from {} to {} {unit} in 95 of 100 cases.",
        show::number(low, 3),
        show::number(high, 3)
    )
}

/// What the interval holds under.
fn condition(fit: &DryingFit) -> String {
    if fit.air == AirUncertainty::AS_LOGGED {
        return "This holds if the air was as logged.".to_owned();
    }
    format!(
        "This holds if the air was as logged, each reading good to ± {} % of moisture by itself and all together to \
         ± {} % (standard), and if it changed evenly from one reading to the next.",
        show::number(fit.air.each_percent, 1),
        show::number(fit.air.all_percent, 1)
    )
}
