//! A visit to a yard, new or changed: yard, day, money, tally rule, and what wood is wanted for.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{DAY, Form, FormReader, Texts, as_json, begun_from, texts_of};
use super::tally_rule::{self, number};
use crate::record::log::{Event, Id, VisitOpened};
use crate::record::queries::specs_on_offer;
use crate::record::state::State;
use crate::trade::{PriceBasis, day_warning};
use crate::verdict::Spec;

/// The yard's name.
pub const YARD: FormField = FormField::new("Yard", FieldKind::Words);
/// The currency's code or sign.
pub const CURRENCY: FormField = FormField::new("Currency", FieldKind::Words);
/// What may be spent.
pub const BUDGET: FormField = FormField::new("Budget", FieldKind::Money);
/// The tax.
pub const TAX: FormField = FormField::new("Tax, %", FieldKind::Percent);
/// Taken off the price.
pub const DISCOUNT: FormField = FormField::new("Discount, %", FieldKind::Percent);
/// The maker's note.
pub const NOTE: FormField = FormField::new("Note", FieldKind::Note);
/// What the yard's prices are per.
pub const BASIS: FormField = FormField::new("basis", BASES);
/// Whether the prices hold the tax already.
pub const WITH_TAX: FormField = FormField::new("gross", FieldKind::Switch);
/// What the wood is for: a whole spec, for what is on offer changes; asked of a new visit only.
pub const SPEC: FormField = FormField::new("spec", FieldKind::Offered);

pub(super) const BASES: FieldKind =
    FieldKind::Named(&["board_foot", "cubic_metre", "piece", "kilogram"]);
/// The letters or signs of a currency at most.
const CURRENCY_LETTERS: usize = 3;

/// What is asked.
pub const FIELDS: [FormField; 15] = [
    YARD,
    DAY,
    SPEC,
    CURRENCY,
    BUDGET,
    BASIS,
    TAX,
    DISCOUNT,
    WITH_TAX,
    tally_rule::MEASURE,
    tally_rule::THICKNESS,
    tally_rule::WIDTH,
    tally_rule::LENGTH,
    tally_rule::ADDED,
    NOTE,
];

/// The key under which the form is kept while it is half typed.
pub fn form_key(visit: Option<Id>) -> String {
    visit.map_or_else(|| "visit".to_owned(), |id| format!("visit/{id}"))
}

/// The spec that is chosen in a form. An older version kept its place in [`specs_on_offer`].
pub fn spec_chosen(form: &Form<'_>, state: &State) -> Option<Spec> {
    let by_place = || specs_on_offer(state).into_iter().nth(form.json(SPEC.key)?);
    form.json(SPEC.key).or_else(by_place)
}

/// A visit as it is; a new one with the terms of the last, but its own yard, budget and note.
pub fn begins(visit: Option<Id>, context: &Context<'_>) -> Texts {
    let state = context.state;
    let known = visit.and_then(|id| state.visit(id));
    let like = known.or_else(|| state.last_visit());
    let terms = like.map(|visit| &visit.opened);
    let own = known.map(|visit| &visit.opened);
    let day = known.map_or(context.today, |visit| visit.recorded.on);
    let words = |words: Option<&String>| words.cloned().unwrap_or_default();
    let basis = terms.map_or(PriceBasis::BoardFoot, |terms| terms.price_basis);
    let mut texts = texts_of([
        (YARD, words(own.map(|own| &own.yard))),
        (DAY, day.to_string()),
        (CURRENCY, words(terms.map(|terms| &terms.currency))),
        (
            BUDGET,
            own.and_then(|own| own.budget)
                .map(number)
                .unwrap_or_default(),
        ),
        (
            TAX,
            terms
                .map(|terms| number(terms.tax_percent))
                .unwrap_or_default(),
        ),
        (
            DISCOUNT,
            terms
                .map(|terms| number(terms.discount_percent))
                .unwrap_or_default(),
        ),
        (NOTE, words(own.map(|own| &own.note))),
        (BASIS, as_json(&basis)),
        (
            WITH_TAX,
            as_json(&terms.is_some_and(|terms| terms.prices_include_tax)),
        ),
    ]);
    if known.is_none() {
        let first = || specs_on_offer(state).into_iter().next();
        let spec = terms.map(|terms| terms.spec.clone()).or_else(first);
        texts.extend(texts_of([(SPEC, as_json(&spec))]));
    }
    let rule = terms.map(|terms| terms.rule.clone()).unwrap_or_default();
    texts.extend(tally_rule::begins(&rule));
    begun_from(texts, known.map(|known| known.recorded.entry))
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    visit: Option<Id>,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let known = visit.and_then(|id| context.state.visit(id));
    let mut read = form.reader();
    let yard = read.needed_words(YARD);
    let on = read.needed_day(DAY);
    let spec = match known {
        Some(known) => Some(known.opened.spec.clone()),
        None => spec_chosen(form, context.state),
    };
    if spec.is_none() {
        read.wrong(SPEC, FieldError::NoSpec);
    }
    let currency = currency(&mut read);
    let budget = read.amount(BUDGET);
    let (tax, discount) = (read.percent(TAX), read.percent(DISCOUNT));
    let rule = tally_rule::read(&mut read);
    let note = read.words(NOTE);
    let basis = form.json(BASIS.key);
    let prices_include_tax = read.is_ticked(WITH_TAX);
    let (opened, on) = read.finish(|| {
        let opened = VisitOpened {
            budget,
            currency,
            discount_percent: discount.unwrap_or_default(),
            note,
            price_basis: basis.unwrap_or(PriceBasis::BoardFoot),
            prices_include_tax,
            rule,
            spec: spec?,
            tax_percent: tax.unwrap_or_default(),
            yard,
        };
        Some((opened, on?))
    })?;
    let event = NewEvent::instead_of(
        visit.unwrap_or_else(new_id),
        Event::VisitOpened(Box::new(opened)),
        form.replaces(&begins(visit, context)),
    );
    let event = event.on(on).on_confirmed(form.is_confirmed(DAY.key));
    Ok(Filled::of(vec![event]).ask(form, DAY.key, day_warning(on, context.today)))
}

/// A currency's code or sign: three letters or signs at most, and no digit.
fn currency(read: &mut FormReader<'_>) -> String {
    let currency = read.form().text(CURRENCY.key).to_owned();
    let odd = |c: char| c.is_numeric() || c.is_whitespace() || c.is_control();
    if currency.chars().count() > CURRENCY_LETTERS || currency.contains(odd) {
        read.wrong(CURRENCY, FieldError::NoCurrency(currency.clone()));
    }
    currency
}
