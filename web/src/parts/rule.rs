//! A tally rule while it is changed: on the visit, and on a pile that has one of its own.

use super::form::{Choice, NumberField};
use crate::held::Part;
use crate::screens::decimal;
use leptos::prelude::*;
use stillwood_core::trade::{Rounding, TallyMeasure, TallyRule, ThicknessBasis};

/// A rule, part by part.
#[derive(Clone, Copy)]
pub(crate) struct RuleEdited {
    measure: RwSignal<TallyMeasure>,
    width: RwSignal<Rounding>,
    length: RwSignal<Rounding>,
    thickness: RwSignal<ThicknessBasis>,
    added: RwSignal<String>,
}

impl RuleEdited {
    /// Beginning with a rule.
    pub(crate) fn new(rule: &TallyRule) -> Self {
        let added = rule.added_percent;
        let added = if added.is_zero() {
            String::new()
        } else {
            added.normalize().to_string()
        };
        Self {
            measure: RwSignal::new(rule.measure),
            width: RwSignal::new(rule.width),
            length: RwSignal::new(rule.length),
            thickness: RwSignal::new(rule.thickness),
            added: RwSignal::new(added),
        }
    }

    /// Its fields, to be kept while they are half typed.
    pub(crate) fn parts(self) -> [Part; 5] {
        [
            Part::of("measure", self.measure),
            Part::of("width", self.width),
            Part::of("length", self.length),
            Part::of("thickness", self.thickness),
            Part::text("Percent added", self.added),
        ]
    }

    /// The rule as it stands; none while the percentage can't be read.
    pub(crate) fn rule(self) -> Option<TallyRule> {
        let added = decimal(&self.added.get_untracked()).ok()?;
        Some(TallyRule {
            measure: self.measure.get_untracked(),
            width: self.width.get_untracked(),
            length: self.length.get_untracked(),
            thickness: self.thickness.get_untracked(),
            added_percent: added.unwrap_or_default(),
        })
    }
}

/// The fields of a rule.
#[component]
pub(crate) fn RuleFields(
    /// The rule that is changed.
    rule: RuleEdited,
) -> impl IntoView {
    let added = rule.added;
    let wrong = Signal::derive(move || added.with(|text| decimal(text)).err().unwrap_or_default());
    view! {
        <Choice
            name="Footage" value=rule.measure
            of=vec![
                (TallyMeasure::Exact, "exact"),
                (TallyMeasure::SurfaceMeasure, "surface measure"),
            ]
            hint="Surface measure: width in inches × length in feet ÷ 12, to the nearest whole foot, an exact half going down and up by turns; times the thickness in quarters."
        />
        <Choice
            name="Thickness charged" value=rule.thickness
            of=vec![(ThicknessBasis::Nominal, "nominal"), (ThicknessBasis::Measured, "measured")]
        />
        <Choice name="Width, to the inch" value=rule.width of=roundings() />
        <Choice name="Length, to the foot" value=rule.length of=roundings() />
        <NumberField name="Percent added" value=added error=wrong />
    }
}

fn roundings() -> Vec<(Rounding, &'static str)> {
    vec![
        (Rounding::None, "as measured"),
        (Rounding::Down, "down"),
        (Rounding::Nearest, "nearest"),
        (Rounding::Up, "up"),
    ]
}
