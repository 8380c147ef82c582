//! A wood of the maker's own: from what is typed to the happening that is recorded, and from there to
//! the wood that everything is computed with.
//!
//! A name that was recorded before the wood was known stands for it from then on. A gap is never filled.

use super::{Book, SourcedNumber, SpeciesNamed, WoodAdded};
use crate::quantity::kg_per_m3;
use crate::quantity::read::Units;
use crate::wood::{
    Dust, OwnNumber, OwnNumberError, OwnWood, Shrinkage, Species, find, search_among, species,
};
use std::collections::BTreeMap;
use thiserror::Error;
use uom::si::f64::Pressure;
use uom::si::pressure::megapascal;

/// A wood while it is typed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WoodTyped {
    /// The name in use.
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
    /// It has no name.
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
        /// Its label.
        number: &'static str,
        /// Why.
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
    pub fn added(&self, book: &Book, id: &str, units: Units) -> Result<WoodAdded, WoodFault> {
        let common = self.name.trim().to_owned();
        self.named_alone(book, id)?;
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
        let value = |number: OwnNumber| numbers.get(number.key()).map(|kept| kept.value);
        match (value(OwnNumber::DensityLow), value(OwnNumber::DensityHigh)) {
            (None, None) => {}
            (Some(low), Some(high)) if low < high => {}
            _ => return Err(WoodFault::DensityRange),
        }
        Ok(WoodAdded {
            common,
            dust: (self.dust != Dust::Unknown).then_some(self.dust),
            id: id.to_owned(),
            note: self.note.trim().to_owned(),
            numbers,
            scientific: Some(self.scientific.trim().to_owned()).filter(|name| !name.is_empty()),
        })
    }

    /// A name stands for one wood only, or what is recorded by name would not know which.
    fn named_alone(&self, book: &Book, id: &str) -> Result<(), WoodFault> {
        let name = self.name.trim();
        if name.is_empty() {
            return Err(WoodFault::NoName);
        }
        if species().iter().any(|wood| goes_by(wood, name)) {
            return Err(WoodFault::InTable(name.to_owned()));
        }
        let mut own = book.woods().iter();
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

fn same(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

fn goes_by(wood: &Species, name: &str) -> bool {
    let scientific = wood.scientific_name();
    (!scientific.is_empty() && same(scientific, name))
        || wood.names().iter().any(|known| same(known, name))
}

impl WoodAdded {
    /// The wood as everything else asks it: its numbers are marked as the maker's data.
    pub fn species(&self) -> Species {
        let number = |of: OwnNumber| self.numbers.get(of.key()).map(|kept| kept.value);
        let percent = |of| number(of).map(Shrinkage::percent);
        let low = number(OwnNumber::DensityLow).map(kg_per_m3);
        Species::from(OwnWood {
            id: self.id.clone(),
            name: self.common.clone(),
            scientific: self.scientific.clone().unwrap_or_default(),
            basic_gravity: number(OwnNumber::BasicGravity),
            density_at_12: number(OwnNumber::Density).map(kg_per_m3),
            usual_density: low.zip(number(OwnNumber::DensityHigh).map(kg_per_m3)),
            radial: percent(OwnNumber::Radial),
            tangential: percent(OwnNumber::Tangential),
            volumetric: percent(OwnNumber::Volumetric),
            stiffness: number(OwnNumber::Stiffness).map(Pressure::new::<megapascal>),
            dust: self.dust.unwrap_or_default(),
        })
    }
}

impl Book {
    /// Every wood of the maker's own.
    pub fn own_woods(&self) -> Vec<Species> {
        self.woods()
            .values()
            .map(|wood| wood.added.species())
            .collect()
    }

    /// A wood by its id: of the table, or the maker's own.
    pub fn wood(&self, id: &str) -> Option<Species> {
        find(id)
            .cloned()
            .or_else(|| self.woods().get(id).map(|wood| wood.added.species()))
    }

    /// The wood that was named: by its id, else the wood of the maker's own that goes by that name,
    /// whenever it was added.
    pub fn wood_of(&self, named: &SpeciesNamed) -> Option<Species> {
        let known = named.id.as_deref().and_then(|id| self.wood(id));
        known.or_else(|| {
            let mut own = self.own_woods();
            own.retain(|wood| goes_by(wood, &named.text));
            own.into_iter().next()
        })
    }

    /// The wood that a typed name stands for, by one of its names in the table or among the maker's
    /// own; any other name is kept as it is. `None` where nothing is typed.
    pub fn wood_named(&self, typed: &str) -> Option<SpeciesNamed> {
        let text = typed.trim();
        if text.is_empty() {
            return None;
        }
        let own = self.own_woods();
        let id = search_among(species().iter().chain(&own), text)
            .into_iter()
            .find(|found| goes_by(found.species, text))
            .map(|found| found.species.id().to_owned());
        Some(SpeciesNamed {
            id,
            text: text.to_owned(),
        })
    }
}
