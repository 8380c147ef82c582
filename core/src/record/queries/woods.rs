//! The woods that are known: those of the table and the maker's own.
//!
//! A name that was recorded before the wood was known stands for it from then on.

use crate::quantity::kg_per_m3;
use crate::record::log::{SpeciesNamed, WoodAdded};
use crate::record::state::lineage::STEPS_WALKED;
use crate::record::state::{Piece, State};
use crate::wood::{OwnNumber, OwnWood, Shrinkage, Species, find, search_among, species};
use uom::si::f64::Pressure;
use uom::si::pressure::megapascal;

pub(crate) fn same(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

pub(crate) fn goes_by(wood: &Species, name: &str) -> bool {
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

/// The wood of a piece: its own, that of what it was cut from, or that of its pile. Of a blank see
/// [`crate::record::queries::woods_in`].
pub fn species_of<'a>(state: &'a State, piece: &'a Piece) -> Option<&'a SpeciesNamed> {
    let from = wood_told_of(state, piece)?;
    match &from.species {
        Some((_, species)) => Some(species),
        None => state.pile(from.pile).map(|pile| &pile.opened.species),
    }
}

/// The piece of which the wood of another is told: the nearest that it was cut from and whose wood was
/// named, else the first.
fn wood_told_of<'a>(state: &'a State, piece: &'a Piece) -> Option<&'a Piece> {
    let mut from = piece;
    for _ in 0..STEPS_WALKED {
        let parent = from.work.parent().filter(|_| from.species.is_none());
        match parent.and_then(|parent| state.piece(parent)) {
            Some(parent) => from = parent,
            None => return Some(from),
        }
    }
    state.piece(state.lineages().wood_of(from.id)?)
}

/// Every wood of the maker's own.
pub fn own_woods(state: &State) -> Vec<Species> {
    state
        .woods()
        .values()
        .map(|wood| wood.added.species())
        .collect()
}

/// A wood by its id: of the table, or the maker's own.
pub fn wood(state: &State, id: &str) -> Option<Species> {
    find(id)
        .cloned()
        .or_else(|| state.woods().get(id).map(|wood| wood.added.species()))
}

/// The wood that was named: by its id, else the wood of the maker's own that goes by that name,
/// whenever it was added.
pub fn wood_of(state: &State, named: &SpeciesNamed) -> Option<Species> {
    let known = named.id.as_deref().and_then(|id| wood(state, id));
    known.or_else(|| {
        let mut own = own_woods(state);
        own.retain(|wood| goes_by(wood, &named.text));
        own.into_iter().next()
    })
}

/// The one name of the wood that was named, by whichever of its names: that of the table, or the maker's own; else as
/// it was named.
pub fn wood_name(state: &State, named: &SpeciesNamed) -> String {
    let of_table = named.id.as_deref().and_then(find);
    let of_table = of_table.map(|wood| wood.name().to_owned());
    let name = of_table.or_else(|| Some(wood_of(state, named)?.name().to_owned()));
    name.unwrap_or_else(|| named.text.clone())
}

/// The wood that a typed name stands for, by one of its names in the table or among the maker's
/// own; any other name is kept as it is. `None` where nothing is typed.
pub fn wood_named(state: &State, typed: &str) -> Option<SpeciesNamed> {
    let text = typed.trim();
    if text.is_empty() {
        return None;
    }
    let own = own_woods(state);
    let id = search_among(species().iter().chain(&own), text)
        .into_iter()
        .find(|found| goes_by(found.species, text))
        .map(|found| found.species.id().to_owned());
    Some(SpeciesNamed {
        id,
        text: text.to_owned(),
    })
}
