//! What the wood of a piece was bought under: the yards' invoices and the countries of harvest, for its papers.

use crate::record::log::SpeciesNamed;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::State;
use std::collections::BTreeSet;

/// What one wood of a piece was bought under. What no pile says stands nowhere.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BoughtUnder {
    /// The numbers of the invoices.
    pub invoices: BTreeSet<String>,
    /// The countries in which the trees were felled.
    pub countries: BTreeSet<String>,
}

/// What a wood of a piece was bought under, by the piles of all the planks that it comes from.
pub fn bought_under(state: &State, piece: Id, wood: &SpeciesNamed) -> BoughtUnder {
    let wood = queries::wood_name(state, wood);
    let mut found = BoughtUnder::default();
    for plank in queries::planks_of(state, piece) {
        let Some(plank) = state.piece(plank) else {
            continue;
        };
        let of_wood = queries::species_of(state, plank);
        let is_it = of_wood.is_some_and(|named| queries::wood_name(state, named) == wood);
        let Some(pile) = state.pile(plank.pile).filter(|_| is_it) else {
            continue;
        };
        let (invoice, country) = (&pile.opened.invoice, &pile.opened.country_of_harvest);
        let said = |text: &&String| !text.is_empty();
        found.invoices.extend(Some(invoice).filter(said).cloned());
        found.countries.extend(Some(country).filter(said).cloned());
    }
    found
}
