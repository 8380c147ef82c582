//! Customs by which a yard's footage may differ from the agreed rule, and what each would give.
//!
//! It knows nothing of the bill.

use crate::trade::{
    Halves, Rounding, TallyLine, TallyMeasure, TallyRule, ThicknessBasis, board_feet,
};
use rust_decimal::Decimal;

/// A custom by which a bill may come out higher (or lower) than the agreed rule makes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Habit {
    /// Widths rounded to whole inches.
    Width(Rounding),
    /// Lengths rounded to whole feet.
    Length(Rounding),
    SurfaceMeasure,
    /// The other of the two thicknesses charged.
    Thickness(ThicknessBasis),
    WithWane,
    Added(u8),
    /// The footage before the kiln: net over 0.92.
    GrossFootage,
}

impl Habit {
    pub fn in_words(self) -> String {
        let way = |rounding| match rounding {
            Rounding::None => "taken as measured",
            Rounding::Down => "rounded down",
            Rounding::Nearest => "rounded to the nearest",
            Rounding::Up => "rounded up",
        };
        match self {
            Habit::Width(rounding) => format!("width {} to whole inches", way(rounding)),
            Habit::Length(rounding) => format!("length {} to whole feet", way(rounding)),
            Habit::SurfaceMeasure => "surface measure, to the nearest square foot".into(),
            Habit::Thickness(ThicknessBasis::Nominal) => "nominal thickness charged".into(),
            Habit::Thickness(ThicknessBasis::Measured) => "measured thickness charged".into(),
            Habit::WithWane => "all of the wane counted".into(),
            Habit::Added(percent) => format!("{percent} % added"),
            Habit::GrossFootage => "footage from before the kiln (divided by 0.92)".into(),
        }
    }

    /// Habits that can't stand together share a kind.
    fn kind(self) -> u8 {
        match self {
            Habit::Width(_) => 0,
            Habit::Length(_) => 1,
            Habit::SurfaceMeasure => 2,
            Habit::Thickness(_) => 3,
            Habit::WithWane => 4,
            Habit::Added(_) | Habit::GrossFootage => 5,
        }
    }

    /// All that differ from the agreed rule. The percentages are common practice, no source.
    fn beside(agreed: &TallyRule) -> Vec<Habit> {
        let ways = [Rounding::Down, Rounding::Nearest, Rounding::Up];
        let mut habits: Vec<Habit> = Vec::new();
        habits.extend(
            ways.iter()
                .filter(|w| **w != agreed.width)
                .map(|w| Habit::Width(*w)),
        );
        habits.extend(
            ways.iter()
                .filter(|w| **w != agreed.length)
                .map(|w| Habit::Length(*w)),
        );
        if agreed.measure != TallyMeasure::SurfaceMeasure {
            habits.push(Habit::SurfaceMeasure);
        }
        habits.push(Habit::Thickness(match agreed.thickness {
            ThicknessBasis::Nominal => ThicknessBasis::Measured,
            ThicknessBasis::Measured => ThicknessBasis::Nominal,
        }));
        habits.push(Habit::WithWane);
        habits.extend([5, 8, 10, 15].map(Habit::Added));
        habits.push(Habit::GrossFootage);
        habits
    }
}

/// The footage of each plank under the agreed rule with some habits changed; `None` when one of them
/// doesn't apply.
pub(super) fn footages(
    lines: &[&TallyLine],
    agreed: &TallyRule,
    habits: &[Habit],
) -> Option<Vec<Decimal>> {
    let mut rule = agreed.clone();
    let (mut gross, mut wane) = (false, false);
    for habit in habits {
        match *habit {
            Habit::Width(rounding) => rule.width = rounding,
            Habit::Length(rounding) => rule.length = rounding,
            Habit::SurfaceMeasure => rule.measure = TallyMeasure::SurfaceMeasure,
            Habit::Thickness(basis) => rule.thickness = basis,
            Habit::WithWane => wane = true,
            Habit::Added(percent) => rule.added_percent = Decimal::from(percent),
            Habit::GrossFootage => gross = true,
        }
    }
    if wane && lines.iter().all(|line| line.width_with_wane.is_none()) {
        return None;
    }
    let mut halves = Halves::default();
    lines
        .iter()
        .map(|line| {
            let mut sawn = line.sawn;
            if wane {
                sawn.width = line.width_with_wane.or(sawn.width);
            }
            let footage = board_feet(&rule, &sawn, &mut halves).ok()?;
            if gross {
                footage.checked_div(Decimal::new(92, 2))
            } else {
                Some(footage)
            }
        })
        .collect()
}

/// Candidates with the footage of each plank, those of fewer habits first. One that changes nothing
/// beside a simpler one is left out.
pub(super) fn candidates(
    lines: &[&TallyLine],
    agreed: &TallyRule,
) -> Vec<(Vec<Habit>, Vec<Decimal>)> {
    let mut found: Vec<(Vec<Habit>, Vec<Decimal>)> = Vec::new();
    let habits = Habit::beside(agreed);
    let mut tries: Vec<Vec<Habit>> = vec![Vec::new()];
    tries.extend(habits.iter().map(|h| vec![*h]));
    for (i, first) in habits.iter().enumerate() {
        let others = habits
            .iter()
            .skip(i + 1)
            .filter(|other| other.kind() != first.kind());
        tries.extend(others.map(|second| vec![*first, *second]));
    }
    for habits in tries {
        let Some(each) = footages(lines, agreed, &habits) else {
            continue;
        };
        let idle = found.iter().any(|(simpler, same)| {
            simpler.len() < habits.len()
                && simpler.iter().all(|habit| habits.contains(habit))
                && *same == each
        });
        if !idle {
            found.push((habits, each));
        }
    }
    found
}
