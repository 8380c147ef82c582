//! How a piece was watched for movement so far, in one line: how often, for how long, and the largest change
//! that any check showed.
//!
//! It adds no measurement: what is largest is a change that a check has found, with that check's
//! uncertainty.

use crate::quantity::read::Units;
use crate::quantity::{Derivation, Length, in_mm, show};
use crate::record::queries;
use crate::record::queries::Checked;
use crate::record::state::{Piece, State};
use crate::season::{Change, passed_in_words};
use chrono::NaiveDate;

/// How a piece was watched.
#[derive(Debug, Clone, PartialEq)]
pub struct MovedSoFar {
    pub checks: usize,
    /// Since when: the day on which it was made flat before its first check, else that check's.
    pub since: NaiveDate,
    /// The last check's day.
    pub until: NaiveDate,
    /// The largest change that a check showed, each since it was last made flat; `None` where no two shapes
    /// can be compared.
    pub largest: Option<(Checked, Change)>,
}

fn times(count: usize) -> String {
    match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        several => format!("{several} times"),
    }
}

/// How large a change is, whichever way; `None` where it was not measured.
fn size_of(change: &Change) -> Option<f64> {
    change.by.map(|by| in_mm(by).abs())
}

impl MovedSoFar {
    /// `checked 4 times in 14 months, largest change 0.2 mm`.
    pub fn in_words(&self, units: Units) -> String {
        let checked = format!(
            "checked {} in {}",
            times(self.checks),
            passed_in_words(self.since, self.until)
        );
        let largest = self.largest.as_ref().and_then(|(_, change)| {
            let at_least = if change.signed { "" } else { "at least " };
            Some(format!("{at_least}{}", show::gap(size_of(change)?, units)))
        });
        match largest {
            Some(largest) => format!("{checked}, largest change {largest}"),
            None => format!("{checked}, nothing to compare yet"),
        }
    }

    /// How large the largest change is and how far that may be off, mm; none where its side is not known, for then it
    /// may be larger.
    pub fn largest_within(&self) -> Option<(f64, f64)> {
        let (_, change) = self.largest.as_ref().filter(|(_, change)| change.signed)?;
        Some((size_of(change)?, 2.0 * in_mm(change.standard)))
    }

    /// `0.20 ± 0.16 mm, bow`: the largest change with its uncertainty, and of which shape.
    pub fn largest_in_words(&self, units: Units) -> Option<String> {
        let (_, change) = self.largest.as_ref()?;
        let expanded = 2.0 * in_mm(change.standard);
        let gap = show::gap_within(size_of(change)?, expanded, units);
        let at_least = if change.signed { "" } else { "at least " };
        Some(format!("{at_least}{gap}, {}", change.warp.name()))
    }
}

/// How a piece was watched for movement; `None` where it was never checked. `feeler` as in
/// [`queries::moved`].
pub fn moved_so_far(state: &State, piece: &Piece, feeler: Length) -> Option<MovedSoFar> {
    let checks = queries::moved(state, piece, feeler);
    let (first, last) = (checks.first()?, checks.last()?);
    let mut largest: Option<(&Checked, Change)> = None;
    for check in &checks {
        for change in check.changes.iter().flatten() {
            let more = largest.is_none_or(|(_, known)| size_of(change) > size_of(&known));
            if change.by.is_some() && more {
                largest = Some((check, *change));
            }
        }
    }
    Some(MovedSoFar {
        checks: checks.len(),
        since: first.flat_on.unwrap_or(first.on),
        until: last.on,
        largest: largest.map(|(check, change)| (check.clone(), change)),
    })
}

/// How [`MovedSoFar`] was counted, and its largest change worked out.
pub(crate) fn explain_moved_so_far(
    state: &State,
    piece: &Piece,
    feeler: Length,
) -> Option<Derivation> {
    let so_far = moved_so_far(state, piece, feeler)?;
    let days: Vec<String> = queries::moved(state, piece, feeler)
        .iter()
        .map(|check| check.on.to_string())
        .collect();
    let counted = format!(
        "Checked {}: {}. From {} to {} is {}.",
        times(so_far.checks),
        days.join(", "),
        so_far.since,
        so_far.until,
        passed_in_words(so_far.since, so_far.until),
    );
    let worked = so_far.largest.and_then(|(check, change)| {
        let worked = queries::change_worked(state, piece, &check, change.warp)?;
        let shape = change.warp.name();
        Some(worked.and(format!(
            "Of all shapes and checks this is the largest: {shape} on {}.",
            check.on
        )))
    });
    let mut working = worked.unwrap_or_default();
    if working.source.is_empty() {
        working.source = "your own checks";
    }
    working.notes.insert(0, counted);
    Some(working)
}
