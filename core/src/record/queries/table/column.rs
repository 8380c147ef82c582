//! The columns of the table, and the order that each gives.
//!
//! What is not known comes last, whichever way the column is sorted.

use crate::order;
use crate::plank::Reason;
use crate::record::log::Decision;
use crate::record::queries::table::row::PlankRow;
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Column {
    Mark,
    Yard,
    Day,
    Species,
    /// Size: sorted by length, then width.
    Size,
    Weight,
    /// Density at 12 %.
    Density,
    /// Score; planks of one score by the geometric mean.
    Score,
    /// What the computation says.
    Verdict,
    Weakest,
    Decision,
    Reasons,
    Cost,
    CostPerPart,
}

impl Column {
    /// All, in the order in which they are shown.
    pub const ALL: &'static [Column] = &[
        Column::Mark,
        Column::Yard,
        Column::Day,
        Column::Species,
        Column::Size,
        Column::Weight,
        Column::Density,
        Column::Score,
        Column::Verdict,
        Column::Weakest,
        Column::Decision,
        Column::Reasons,
        Column::Cost,
        Column::CostPerPart,
    ];

    pub fn name(self) -> &'static str {
        match self {
            Column::Mark => "Mark",
            Column::Yard => "Yard",
            Column::Day => "Day",
            Column::Species => "Wood",
            Column::Size => "Size",
            Column::Weight => "Weight",
            Column::Density => "Density at 12 %",
            Column::Score => "Score",
            Column::Verdict => "Verdict",
            Column::Weakest => "Weakest",
            Column::Decision => "Decision",
            Column::Reasons => "Reasons",
            Column::Cost => "Cost with tax",
            Column::CostPerPart => "Cost a part",
        }
    }

    /// Whether its best is at the top when it is sorted downwards.
    pub fn falls_first(self) -> bool {
        matches!(self, Column::Score | Column::Verdict | Column::Day)
    }

    /// The order of two rows, smaller first; what is not known last in both ways.
    fn order(self, a: &PlankRow, b: &PlankRow, falls: bool) -> Ordering {
        match self {
            Column::Mark => by(Some(&a.by_mark), Some(&b.by_mark), falls, Ord::cmp),
            Column::Yard => words(&a.yard, &b.yard, falls),
            Column::Day => by(Some(a.on), Some(b.on), falls, Ord::cmp),
            Column::Species => words(&a.species, &b.species, falls),
            Column::Size => number(a.length_mm, b.length_mm, falls)
                .then_with(|| number(a.width_mm, b.width_mm, falls)),
            Column::Weight => number(a.mass_kg, b.mass_kg, falls),
            Column::Density => number(a.density_at_12, b.density_at_12, falls),
            Column::Score => {
                number(a.score, b.score, falls).then_with(|| number(a.mean, b.mean, falls))
            }
            Column::Verdict => by(a.recommendation, b.recommendation, falls, Ord::cmp),
            Column::Weakest => by(a.weakest, b.weakest, falls, Ord::cmp),
            Column::Decision => by(a.decision, b.decision, falls, |a: &Decision, b| a.cmp(b)),
            Column::Reasons => {
                let main = |row: &PlankRow| row.reasons.first().copied();
                by(main(a), main(b), falls, |a: &Reason, b| a.cmp(b))
            }
            Column::Cost => {
                let paid = |row: &PlankRow| row.money.map(|money| money.gross);
                by(paid(a), paid(b), falls, Ord::cmp)
            }
            Column::CostPerPart => by(a.cost_per_part, b.cost_per_part, falls, Ord::cmp),
        }
    }
}

fn by<T>(a: Option<T>, b: Option<T>, falls: bool, order: impl Fn(&T, &T) -> Ordering) -> Ordering {
    match (a, b) {
        (Some(a), Some(b)) if falls => order(&b, &a),
        (Some(a), Some(b)) => order(&a, &b),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    }
}

fn number(a: Option<f64>, b: Option<f64>, falls: bool) -> Ordering {
    by(a, b, falls, f64::total_cmp)
}

fn words(a: &str, b: &str, falls: bool) -> Ordering {
    let known = |text| Some(text).filter(|text: &&str| !text.is_empty());
    by(known(a), known(b), falls, |a, b| small(a).cmp(small(b)))
}

fn small(text: &str) -> impl Iterator<Item = char> {
    text.chars().flat_map(char::to_lowercase)
}

/// Sorts rows by a column; equal ones by their marks.
pub fn sort_rows(rows: &mut [&PlankRow], column: Column, falls: bool) {
    order::sort_by(rows, |a, b| {
        column
            .order(a, b, falls)
            .then_with(|| Column::Mark.order(a, b, false))
            .then(a.piece.cmp(&b.piece))
    });
}
