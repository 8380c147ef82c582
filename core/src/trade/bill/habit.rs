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
    /// Widths rounded to whole inches, or not.
    Width(Rounding),
    /// Lengths rounded to whole feet, or not.
    Length(Rounding),
    /// The other of the two measures.
    Measure(TallyMeasure),
    /// The other of the two thicknesses charged.
    Thickness(ThicknessBasis),
    WithWane,
    Added(u8),
    /// The footage before the kiln: net over 0.92.
    GrossFootage,
}

impl Habit {
    pub fn in_words(self) -> String {
        let words = match self {
            Habit::Width(Rounding::None) => "width as measured",
            Habit::Width(Rounding::Down) => "width rounded down to whole inches",
            Habit::Width(Rounding::Nearest) => "width rounded to the nearest to whole inches",
            Habit::Width(Rounding::Up) => "width rounded up to whole inches",
            Habit::Length(Rounding::None) => "length as measured",
            Habit::Length(Rounding::Down) => "length rounded down to whole feet",
            Habit::Length(Rounding::Nearest) => "length rounded to the nearest to whole feet",
            Habit::Length(Rounding::Up) => "length rounded up to whole feet",
            Habit::Measure(TallyMeasure::SurfaceMeasure) => {
                "surface measure, to the nearest square foot"
            }
            Habit::Measure(TallyMeasure::Exact) => "exact footage, no surface measure",
            Habit::Thickness(ThicknessBasis::Nominal) => "nominal thickness charged",
            Habit::Thickness(ThicknessBasis::Measured) => "measured thickness charged",
            Habit::WithWane => "all of the wane counted",
            Habit::Added(percent) => return format!("{percent} % added"),
            Habit::GrossFootage => "footage from before the kiln (divided by 0.92)",
        };
        words.to_owned()
    }

    /// Habits that can't stand together share a kind.
    fn kind(self) -> u8 {
        match self {
            Habit::Width(_) => 0,
            Habit::Length(_) => 1,
            Habit::Measure(_) => 2,
            Habit::Thickness(_) => 3,
            Habit::WithWane => 4,
            Habit::Added(_) | Habit::GrossFootage => 5,
        }
    }

    /// All that differ from the agreed rule. The percentages are common practice, no source.
    fn beside(agreed: &TallyRule) -> Vec<Habit> {
        let ways = [
            Rounding::None,
            Rounding::Down,
            Rounding::Nearest,
            Rounding::Up,
        ];
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
        habits.push(Habit::Measure(match agreed.measure {
            TallyMeasure::Exact => TallyMeasure::SurfaceMeasure,
            TallyMeasure::SurfaceMeasure => TallyMeasure::Exact,
        }));
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

/// The footage of each plank of the tally, those under the agreed rule with some habits changed; `None` where it has
/// none. Nothing at all where one of the habits doesn't apply.
pub(super) fn footages(
    ours: &[(&TallyLine, &TallyRule)],
    agreed: &TallyRule,
    habits: &[Habit],
) -> Option<Vec<Option<Decimal>>> {
    let mut rule = agreed.clone();
    let (mut gross, mut wane) = (false, false);
    for habit in habits {
        match *habit {
            Habit::Width(rounding) => rule.width = rounding,
            Habit::Length(rounding) => rule.length = rounding,
            Habit::Measure(measure) => rule.measure = measure,
            Habit::Thickness(basis) => rule.thickness = basis,
            Habit::WithWane => wane = true,
            Habit::Added(percent) => rule.added_percent = Decimal::from(percent),
            Habit::GrossFootage => gross = true,
        }
    }
    let mut mine = ours.iter().filter(|(_, own)| *own == agreed);
    if wane && mine.all(|(line, _)| line.width_with_wane.is_none()) {
        return None;
    }
    let mut halves = Halves::default();
    let footage = |(line, own): &(&TallyLine, &TallyRule)| {
        let mut sawn = line.sawn;
        if *own != agreed {
            return board_feet(own, &sawn, &mut halves).ok();
        }
        if wane {
            sawn.width = line.width_with_wane.or(sawn.width);
        }
        let footage = board_feet(&rule, &sawn, &mut halves).ok()?;
        match gross {
            true => footage.checked_div(Decimal::new(92, 2)),
            false => Some(footage),
        }
    };
    Some(ours.iter().map(footage).collect())
}

/// Candidates with the footage of each plank compared, those of fewer habits first. One that changes nothing
/// beside a simpler one is left out.
pub(super) fn candidates(
    ours: &[(&TallyLine, &TallyRule)],
    compared: &[usize],
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
        let Some(all) = footages(ours, agreed, &habits) else {
            continue;
        };
        let each = compared.iter().map(|at| all.get(*at).copied().flatten());
        let Some(each) = each.collect::<Option<Vec<Decimal>>>() else {
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
