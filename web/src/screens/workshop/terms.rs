//! The terms of a stage as they are typed: months, and the limits of each shape.

use super::asks::{Ask, Is, ask, hinted};
use super::form::Filled;
use crate::held::Wrong;
use stillwood_core::quantity::show;
use stillwood_core::record::{Event, StageSet};
use stillwood_core::season::{Limit, Stage, StageLimits};

const WEEKS: Ask = hinted(
    "Weeks in the room",
    Is::Weeks,
    "A plank lies so long on its shelf before it is cut. Empty: as supplied.",
);

/// What is asked of a stage.
pub(super) fn asked_of(stage: Stage) -> &'static [Ask] {
    match stage {
        Stage::Pieces => &TERMS,
        _ => TERMS.get(1..).unwrap_or_default(),
    }
}

static TERMS: [Ask; 12] = [
    WEEKS,
    ask("Months at least", Is::Months),
    ask("Months at most", Is::Months),
    ask("Bow: out beyond", Is::Small),
    ask("Bow: watched beyond", Is::Small),
    ask("Crook: out beyond", Is::Small),
    ask("Crook: watched beyond", Is::Small),
    ask("Twist: out beyond", Is::Small),
    ask("Twist: watched beyond", Is::Small),
    ask("Cup: out beyond", Is::Small),
    ask("Cup: watched beyond", Is::Small),
    hinted(
        "Limits hold over",
        Is::Length,
        "A longer piece may bend by more.",
    ),
];

/// The terms in force, as texts for the fields.
pub(super) fn begins(terms: &StageLimits) -> Vec<(&'static str, String)> {
    let length = |mm: f64| format!("{} mm", show::number(mm, 3));
    let mut begins = vec![
        ("Months at least", terms.months.to_string()),
        (
            "Months at most",
            terms
                .months_most
                .map(|most| most.to_string())
                .unwrap_or_default(),
        ),
        ("Limits hold over", length(terms.over_mm)),
    ];
    if let Some(weeks) = terms.weeks_in_room {
        begins.push((WEEKS.label, weeks.to_string()));
    }
    let mut put = |out: &'static str, watch: &'static str, limit: Option<Limit>| {
        if let Some(limit) = limit {
            begins.push((out, length(limit.reject_mm)));
            begins.push((watch, limit.warn_mm.map(length).unwrap_or_default()));
        }
    };
    put("Bow: out beyond", "Bow: watched beyond", terms.bow);
    put("Crook: out beyond", "Crook: watched beyond", terms.crook);
    put("Twist: out beyond", "Twist: watched beyond", terms.twist);
    put("Cup: out beyond", "Cup: watched beyond", terms.cup);
    begins
}

fn whole(typed: Filled, label: &str) -> Result<Option<u32>, Wrong> {
    let Some(taken) = typed.taken(label)? else {
        return Ok(None);
    };
    let value = taken.value;
    if value.fract() != 0.0 || !(0.0..=600.0).contains(&value) {
        let why = format!("A whole number up to 600, not {}.", taken.typed);
        return Err(Wrong::at(label, why));
    }
    Ok(Some(value as u32))
}

fn limit(typed: Filled, out: &str, watch: &str) -> Result<Option<Limit>, Wrong> {
    let warn_mm = typed.taken(watch)?.map(|taken| taken.value);
    match (typed.taken(out)?, warn_mm) {
        (None, None) => Ok(None),
        (None, Some(_)) => Err(Wrong::missing(out)),
        (Some(out_at), Some(warn_mm)) if warn_mm >= out_at.value => {
            let why = "It has to be less than where it is out.";
            Err(Wrong::at(watch, why))
        }
        (Some(out_at), warn_mm) => Ok(Some(Limit {
            reject_mm: out_at.value,
            warn_mm,
        })),
    }
}

/// The setting that was typed.
pub(super) fn stage_set(typed: Filled, stage: Stage) -> Result<Event, Wrong> {
    let least = whole(typed, "Months at least")?;
    let least = least.ok_or_else(|| Wrong::missing("Months at least"))?;
    let terms = StageLimits {
        bow: limit(typed, "Bow: out beyond", "Bow: watched beyond")?,
        crook: limit(typed, "Crook: out beyond", "Crook: watched beyond")?,
        cup: limit(typed, "Cup: out beyond", "Cup: watched beyond")?,
        months: least,
        months_most: whole(typed, "Months at most")?,
        over_mm: typed.needed("Limits hold over")?.value,
        twist: limit(typed, "Twist: out beyond", "Twist: watched beyond")?,
        weeks_in_room: match stage {
            Stage::Pieces => whole(typed, WEEKS.label)?,
            _ => None,
        },
    };
    if terms.over_mm <= 0.0 {
        return Err(Wrong::at("Limits hold over", "It must be more than 0."));
    }
    if terms.months_most.is_some_and(|most| most < terms.months) {
        let why = "It can't be fewer than at least.";
        return Err(Wrong::at("Months at most", why));
    }
    Ok(Event::StageSet(Box::new(StageSet { stage, terms })))
}
