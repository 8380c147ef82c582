//! A wood of the maker's own: from what is typed to the event that is recorded, and from there to
//! the wood that everything is computed with.
//!
//! A name that was recorded before the wood was known stands for it from then on. A gap is never filled.

use crate::quantity::read::Units;
use crate::record::log::{SourcedNumber, WoodAdded};
use crate::record::queries::woods::{goes_by, same};
use crate::record::state::State;
use crate::wood::{Dust, OwnNumber, OwnNumberError, species};
use std::collections::BTreeMap;
use thiserror::Error;

#[derive(Debug, Clone, PartialEq, Default)]
pub struct WoodTyped {
    pub name: String,
    /// The botanical name.
    pub scientific: String,
    /// The maker's note.
    pub note: String,
    /// What its dust is known to do.
    pub dust: Dust,
    /// Each number as typed, with where the maker has it from; of two of a kind the later counts.
    pub numbers: Vec<(OwnNumber, String, String)>,
}

/// Why a wood is not recorded yet.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum WoodFault {
    #[error("What is the wood called? Any name will do.")]
    NoName,
    /// The table has a wood of this name.
    #[error("“{0}” is in the table already; give yours a name of its own")]
    InTable(String),
    /// Another wood of the maker's own has this name.
    #[error("you have a wood called “{0}” already: change that one")]
    YoursAlready(String),
    /// A number can't be kept.
    #[error("{number}: {why}")]
    Number {
        number: &'static str,
        why: OwnNumberError,
    },
    /// The usual density ends below where it begins, or has one end only.
    #[error("The usual density needs both ends, the lighter one first.")]
    DensityRange,
}

impl WoodTyped {
    /// A wood as it is recorded, to be changed.
    pub fn of(added: &WoodAdded, units: Units) -> Self {
        let mut numbers = Vec::new();
        for number in OwnNumber::ALL {
            if let Some(kept) = added.numbers.get(number.key()) {
                let text = if kept.typed.is_empty() {
                    number.shown(kept.value, units)
                } else {
                    kept.typed.clone()
                };
                numbers.push((*number, text, kept.source.clone()));
            }
        }
        Self {
            name: added.common.clone(),
            scientific: added.scientific.clone().unwrap_or_default(),
            note: added.note.clone(),
            dust: added.dust.unwrap_or_default(),
            numbers,
        }
    }

    /// What is recorded; `id` is what the record refers to the wood by. The first fault, where there is
    /// one.
    pub fn added(&self, state: &State, id: &str, units: Units) -> Result<WoodAdded, WoodFault> {
        let common = self.name.trim().to_owned();
        self.named_alone(state, id)?;
        let mut numbers = BTreeMap::new();
        for (number, text, source) in &self.numbers {
            if text.trim().is_empty() {
                continue;
            }
            let understood = number.read(text, units).map_err(|why| WoodFault::Number {
                number: number.label(),
                why,
            })?;
            let kept = SourcedNumber {
                source: source.trim().to_owned(),
                typed: with_its_unit(text.trim(), understood.unit),
                unit: number.kept_in().to_owned(),
                value: understood.value,
            };
            numbers.insert(number.key().to_owned(), kept);
        }
        self.density_range_is_whole(units)?;
        Ok(WoodAdded {
            common,
            dust: (self.dust != Dust::Unknown).then_some(self.dust),
            id: id.to_owned(),
            note: self.note.trim().to_owned(),
            numbers,
            scientific: Some(self.scientific.trim().to_owned()).filter(|name| !name.is_empty()),
        })
    }

    /// The usual density has both ends or none, the lighter one first.
    pub(super) fn density_range_is_whole(&self, units: Units) -> Result<(), WoodFault> {
        let value = |wanted: OwnNumber| {
            let mut typed = self.numbers.iter().rev();
            let typed =
                typed.find(|(number, text, _)| *number == wanted && !text.trim().is_empty());
            let (number, text, _) = typed?;
            Some(number.read(text, units).ok()?.value)
        };
        match (value(OwnNumber::DensityLow), value(OwnNumber::DensityHigh)) {
            (None, None) => Ok(()),
            (Some(low), Some(high)) if low < high => Ok(()),
            _ => Err(WoodFault::DensityRange),
        }
    }

    /// A name stands for one wood only, or what is recorded by name would not know which.
    pub(super) fn named_alone(&self, state: &State, id: &str) -> Result<(), WoodFault> {
        let name = self.name.trim();
        if name.is_empty() {
            return Err(WoodFault::NoName);
        }
        if species().iter().any(|wood| goes_by(wood, name)) {
            return Err(WoodFault::InTable(name.to_owned()));
        }
        let mut own = state.woods().iter();
        if own.any(|(other, wood)| other != id && same(&wood.added.common, name)) {
            return Err(WoodFault::YoursAlready(name.to_owned()));
        }
        Ok(())
    }
}

/// What was typed, with the unit that was taken for granted, so that it reads the same under other
/// units.
fn with_its_unit(typed: &str, unit: &str) -> String {
    let bare = typed.ends_with(|c: char| c.is_numeric() || c == '.');
    if bare && !unit.is_empty() && !typed.contains(char::is_alphabetic) {
        format!("{typed} {unit}")
    } else {
        typed.to_owned()
    }
}
