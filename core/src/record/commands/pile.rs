//! A pile, new or changed: what its planks share, typed once.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{Form, FormReader, Texts, as_json, begun_from, texts_of};
use super::tally_rule;
use super::visit::BASES;
use crate::plank::{Field, Reading, retyped, understand};
use crate::record::log::{Event, Id, PileOpened, SpeciesNamed};
use crate::record::queries::{wood, wood_named};
use crate::record::state::{Pile, State};
use crate::trade::{PriceBasis, price_warning};

/// The wood, by any name.
pub const WOOD: FormField = FormField::new("Wood", FieldKind::Species);
/// The id of the wood that was chosen, or nothing.
pub const WOOD_CHOSEN: FormField = FormField::new("wood chosen", FieldKind::Offered);
/// The thickness that it is sold as.
pub const NOMINAL: FormField = FormField::new(
    "Thickness it is sold as",
    FieldKind::Of(Field::ThicknessNear),
);
/// Its price.
pub const PRICE: FormField = FormField::new("Price", FieldKind::Money);
/// What the price is per.
pub const BASIS: FormField = FormField::new("basis", BASES);
/// What the meter showed for the pile.
pub const MOISTURE: FormField = FormField::new("Moisture, %", FieldKind::Of(Field::Moisture));
/// How warm the wood is.
pub const WOOD_TEMPERATURE: FormField =
    FormField::new("Wood temperature", FieldKind::Of(Field::WoodTemperature));
/// The maker's name for it.
pub const NAME: FormField = FormField::new("Name of the pile", FieldKind::Words);
/// The number of the yard's invoice.
pub const INVOICE: FormField = FormField::new("Invoice", FieldKind::Words);
/// Where the trees were felled.
pub const COUNTRY: FormField = FormField::new("Country of harvest", FieldKind::Words);
/// Whether it has a tally rule of its own.
pub const HAS_RULE: FormField = FormField::new("has rule", FieldKind::Switch);

/// What is asked; the tally rule where it has one of its own.
pub const FIELDS: [FormField; 16] = [
    WOOD,
    WOOD_CHOSEN,
    NOMINAL,
    PRICE,
    BASIS,
    MOISTURE,
    WOOD_TEMPERATURE,
    NAME,
    INVOICE,
    COUNTRY,
    HAS_RULE,
    tally_rule::MEASURE,
    tally_rule::THICKNESS,
    tally_rule::WIDTH,
    tally_rule::LENGTH,
    tally_rule::ADDED,
];

/// The key under which the form is kept while it is half typed.
pub fn form_key(visit: Id, pile: Option<Id>) -> String {
    pile.map_or_else(|| format!("pile-of/{visit}"), |id| format!("pile/{id}"))
}

/// What the prices of a visit are per.
fn basis_of_visit(state: &State, visit: Id) -> PriceBasis {
    let visit = state.visit(visit);
    visit.map_or(PriceBasis::BoardFoot, |visit| visit.opened.price_basis)
}

/// The visit of a pile that is known, whatever was asked with it; that of a new one as asked.
fn its_visit(state: &State, visit: Id, pile: Option<Id>) -> Id {
    let known = pile.and_then(|id| state.pile(id));
    known.map_or(visit, |pile| pile.opened.visit)
}

/// A pile as it is; a new one with the terms of its visit.
pub fn begins(visit: Id, pile: Option<Id>, context: &Context<'_>) -> Texts {
    let state = context.state;
    let visit = its_visit(state, visit, pile);
    let known = pile.and_then(|id| state.pile(id)).map(|pile| &pile.opened);
    let wood = known.map(|pile| pile.species.clone()).unwrap_or_default();
    let reading = |field: Field, of: fn(&PileOpened) -> Option<&Reading>| {
        let taken = known.and_then(of);
        taken.map_or_else(String::new, |taken| retyped(field, taken))
    };
    let words = |of: fn(&PileOpened) -> &String| known.map(of).cloned().unwrap_or_default();
    let price = known.and_then(|pile| pile.price);
    let basis = known.and_then(|pile| pile.price_basis);
    let own_rule = known.and_then(|pile| pile.rule.clone());
    let mut texts = texts_of([
        (WOOD, wood.text),
        (WOOD_CHOSEN, as_json(&wood.id)),
        (
            NOMINAL,
            reading(Field::ThicknessNear, |p| p.nominal_thickness.as_ref()),
        ),
        (
            PRICE,
            price
                .map(|price| price.normalize().to_string())
                .unwrap_or_default(),
        ),
        (
            BASIS,
            as_json(&basis.unwrap_or_else(|| basis_of_visit(state, visit))),
        ),
        (MOISTURE, reading(Field::Moisture, |p| p.moisture.as_ref())),
        (
            WOOD_TEMPERATURE,
            reading(Field::WoodTemperature, |p| p.wood_temperature.as_ref()),
        ),
        (NAME, words(|p| &p.name)),
        (INVOICE, words(|p| &p.invoice)),
        (COUNTRY, words(|p| &p.country_of_harvest)),
        (HAS_RULE, as_json(&own_rule.is_some())),
    ]);
    let of_visit = || state.visit(visit).map(|visit| visit.opened.rule.clone());
    let rule = own_rule.or_else(of_visit).unwrap_or_default();
    texts.extend(tally_rule::begins(&rule));
    let entry = pile
        .and_then(|id| state.pile(id))
        .map(|pile| pile.recorded.entry);
    begun_from(texts, entry)
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    visit: Id,
    pile: Option<Id>,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let state = context.state;
    let known = pile.and_then(|id| state.pile(id));
    let visit = its_visit(state, visit, pile);
    let of_visit = basis_of_visit(state, visit);
    let mut read = form.reader();
    let species = species(&mut read, state, known);
    let nominal_thickness = read.reading(NOMINAL);
    let price = read.amount(PRICE);
    let moisture = read.reading(MOISTURE);
    let wood_temperature = read.reading(WOOD_TEMPERATURE);
    let name = read.words(NAME);
    let (invoice, country_of_harvest) = (read.words(INVOICE), read.words(COUNTRY));
    let has_rule = read.is_ticked(HAS_RULE);
    let rule = has_rule.then(|| tally_rule::read(&mut read));
    let basis = form.json(BASIS.key).filter(|basis| *basis != of_visit);
    let opened = read.finish(|| {
        Some(PileOpened {
            country_of_harvest,
            invoice,
            moisture,
            name,
            nominal_thickness,
            price,
            price_basis: basis,
            price_confirmed: form.is_confirmed(PRICE.key),
            rule,
            species: species?,
            visit,
            wood_temperature,
        })
    })?;
    let odd_price = opened
        .price
        .and_then(|price| price_warning(price, opened.price_basis.unwrap_or(of_visit)));
    let mut asked = Filled::default().ask(form, PRICE.key, odd_price);
    let readings = [
        (NOMINAL, Field::ThicknessNear, &opened.nominal_thickness),
        (MOISTURE, Field::Moisture, &opened.moisture),
        (
            WOOD_TEMPERATURE,
            Field::WoodTemperature,
            &opened.wood_temperature,
        ),
    ];
    for (at, field, taken) in readings {
        let Some(taken) = taken else { continue };
        let echo = understand(field, &taken.typed, taken.seen, taken.confirmed, form.units);
        let question = echo.warning().map(|warning| warning.question.clone());
        asked = asked.ask(form, at.key, question);
    }
    let event = NewEvent::instead_of(
        pile.unwrap_or_else(new_id),
        Event::PileOpened(Box::new(opened)),
        form.replaces(&begins(visit, pile, context)),
    );
    Ok(Filled {
        events: vec![event],
        ..asked
    })
}

/// The wood: the one that was chosen while it goes by the name that stands there, else the one that the name
/// stands for.
fn species(read: &mut FormReader<'_>, state: &State, known: Option<&Pile>) -> Option<SpeciesNamed> {
    let text = read.words(WOOD);
    if text.is_empty() {
        read.wrong(WOOD, FieldError::NoWood);
        return None;
    }
    let id: Option<String> = read.kept(WOOD_CHOSEN);
    let chosen = SpeciesNamed { id, text };
    let as_it_was = known.is_some_and(|known| known.opened.species == chosen);
    let chosen_wood = chosen.id.as_deref().and_then(|id| wood(state, id));
    let goes_by = chosen_wood.is_some_and(|wood| {
        let mut names = wood.names().iter();
        wood.name() == chosen.text || names.any(|name| **name == chosen.text)
    });
    if as_it_was || goes_by {
        return Some(chosen);
    }
    wood_named(state, &chosen.text)
}
