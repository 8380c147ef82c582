//! A new visit to a yard, or one to change: yard, day, money, tally rule, and what wood is wanted for.

use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{
    Choice, CollectAny, DateField, Frame, NumberField, RuleEdited, RuleFields, TakeBack, TextField,
    Tick, live,
};
use crate::record::Deed;
use crate::route::{Route, go, replace};
use crate::shell::clock;
use leptos::prelude::*;
use rust_decimal::Decimal;
use stillwood_core::order;
use stillwood_core::quantity::read::amount;
use stillwood_core::record::Id;
use stillwood_core::record::{Event, VisitOpened, date};
use stillwood_core::trade::{PriceBasis, day_warning};
use stillwood_core::verdict::Spec;

/// An amount as a hand types it; what is wrong with it in words.
pub(crate) fn decimal(text: &str) -> Result<Option<Decimal>, String> {
    amount(text).map_err(|why| why.to_string())
}

fn wrong(text: RwSignal<String>) -> Signal<String> {
    Signal::derive(move || text.with(|text| decimal(text)).err().unwrap_or_default())
}

const YARD: &str = "Yard";
const DAY: &str = "Day";
const BUDGET: &str = "Budget";
const TAX: &str = "Tax, %";
const DISCOUNT: &str = "Discount, %";

/// The form.
#[component]
pub(crate) fn VisitForm(
    /// The visit to change; none is a new one.
    id: Option<Id>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let before = id.and_then(|id| {
        app.book_now(|state| {
            state
                .visit(id)
                .map(|visit| (visit.recorded.clone(), visit.opened.clone()))
        })
    });
    // A new visit starts as the last one did.
    let like = before
        .as_ref()
        .map(|(_, opened)| opened.clone())
        .or_else(|| {
            app.book_now(|state| {
                state
                    .visits()
                    .max_by_key(|visit| visit.recorded.on)
                    .map(|visit| VisitOpened {
                        yard: String::new(),
                        note: String::new(),
                        budget: None,
                        ..visit.opened.clone()
                    })
            })
        });
    let text = |get: &dyn Fn(&VisitOpened) -> String| {
        RwSignal::new(like.as_ref().map(get).unwrap_or_default())
    };
    let number = |value: Decimal| {
        if value.is_zero() {
            String::new()
        } else {
            value.normalize().to_string()
        }
    };
    let yard = text(&|v| v.yard.clone());
    let currency = text(&|v| v.currency.clone());
    let tax = text(&|v| number(v.tax_percent));
    let discount = text(&|v| number(v.discount_percent));
    let budget = text(&|v| v.budget.map(number).unwrap_or_default());
    let note = text(&|v| v.note.clone());
    let day = RwSignal::new(
        before
            .as_ref()
            .map_or_else(|| clock::now().day, |(recorded, _)| recorded.on.to_string()),
    );
    let basis = RwSignal::new(
        like.as_ref()
            .map_or(PriceBasis::BoardFoot, |v| v.price_basis),
    );
    let gross = RwSignal::new(like.as_ref().is_some_and(|v| v.prices_include_tax));
    let rule = like.as_ref().map(|v| v.rule.clone()).unwrap_or_default();
    let rule = RuleEdited::new(&rule);
    let specs = StoredValue::new(specs_on_offer(app));
    let first = like.as_ref().map_or(0, |v| {
        specs.with_value(|specs| specs.iter().position(|spec| *spec == v.spec).unwrap_or(0))
    });
    let spec = RwSignal::new(first);
    let keep_spec = before.as_ref().map(|(_, opened)| opened.spec.clone());
    let old = before.as_ref().map(|(recorded, _)| recorded.entry);
    let begun = {
        let fields = [
            (YARD, yard),
            (DAY, day),
            ("Currency", currency),
            (BUDGET, budget),
            (TAX, tax),
            (DISCOUNT, discount),
            ("Note", note),
        ];
        let mut parts: Vec<Part> = fields.map(|(name, text)| Part::text(name, text)).into();
        parts.push(Part::of("basis", basis));
        parts.push(Part::of("gross", gross));
        parts.push(Part::of("spec", spec));
        parts.extend(rule.parts());
        let key = id.map_or_else(|| "visit".to_owned(), |id| format!("visit/{id}"));
        let words = if id.is_some() {
            "a visit"
        } else {
            "a new visit"
        };
        Begun::open(app, key, words.to_owned(), parts)
    };
    let typed = move || -> Result<VisitOpened, Wrong> {
        if yard.get_untracked().trim().is_empty() {
            return Err(Wrong::at(YARD, "Give the yard a name."));
        }
        if date(&day.get_untracked()).is_none() {
            return Err(Wrong::at(DAY, "Which day was it?"));
        }
        let number = |label: &str, text: RwSignal<String>| {
            decimal(&text.get_untracked()).map_err(|why| Wrong::unread(label, &why))
        };
        let budget = number(BUDGET, budget)?;
        let (tax, discount) = (number(TAX, tax)?, number(DISCOUNT, discount)?);
        let unread = || Wrong::unread("Percent added", "it is not a number yet.");
        let rule = rule.rule().ok_or_else(unread)?;
        let chosen = specs.with_value(|specs| specs.get(spec.get_untracked()).cloned());
        let chosen = keep_spec.clone().or(chosen);
        Ok(VisitOpened {
            budget,
            currency: currency.get_untracked().trim().to_owned(),
            discount_percent: discount.unwrap_or_default(),
            note: note.get_untracked().trim().to_owned(),
            price_basis: basis.get_untracked(),
            prices_include_tax: gross.get_untracked(),
            rule,
            spec: chosen.ok_or("Say what the wood is for.")?,
            tax_percent: tax.unwrap_or_default(),
            yard: yard.get_untracked().trim().to_owned(),
        })
    };
    let save = move |_| {
        let opened = match typed() {
            Ok(opened) => opened,
            Err(wrong) => return begun.say(wrong),
        };
        let on = date(&day.get_untracked()).zip(date(&clock::now().day));
        let odd = on.and_then(|(on, today)| day_warning(on, today));
        if !begun.sure(odd.into_iter().map(|odd| (DAY.to_owned(), odd)).collect()) {
            return;
        }
        let Some(visit) = id.or_else(|| app.new_id()) else {
            return;
        };
        let deed = Deed::instead_of(
            visit,
            Event::VisitOpened(Box::new(opened)),
            old.into_iter().collect(),
        )
        .on(day.get_untracked())
        .really(begun.really(DAY));
        begun.record(vec![deed], move |_| match id {
            Some(_) => go(Route::Visit(visit)),
            None => replace(Route::Visit(visit)),
        });
    };
    let spec_chips = move || {
        specs.with_value(|specs| {
            specs
                .iter()
                .enumerate()
                .map(|(at, one)| {
                    view! {
                        <button
                            type="button" class="chip"
                            aria-pressed=move || (spec.get() == at).to_string()
                            on:click=move |_| spec.set(at)
                        >
                            {one.name.clone()}
                        </button>
                    }
                })
                .collect_any()
        })
    };
    let title = if id.is_some() {
        "Change the visit"
    } else {
        "New visit"
    };
    let back = id.map_or(Route::Home, Route::Visit);
    view! {
        <Frame title=title back=back class="with-decide">
            {begun.note()}
            <TextField name=YARD value=yard form=begun />
            <DateField name=DAY value=day form=begun />
            {id
                .is_none()
                .then(|| {
                    view! {
                        <div class="field" role="group" aria-label="What is the wood for?">
                            <span class="name">"What is the wood for?"</span>
                            <div class="chips">{live(spec_chips)}</div>
                            <span class="hint">
                                "Sizes and limits can be changed on the visit. Those supplied are common practice, no source."
                            </span>
                        </div>
                    }
                })}
            <div class="pair">
                <TextField name="Currency" value=currency hint="EUR, USD …" />
                <NumberField name=BUDGET value=budget form=begun error=wrong(budget) />
            </div>
            <Choice
                name="The yard's prices are per" value=basis
                of=vec![
                    (PriceBasis::BoardFoot, "board foot"),
                    (PriceBasis::CubicMetre, "m³"),
                    (PriceBasis::Piece, "piece"),
                    (PriceBasis::Kilogram, "kg"),
                ]
            />
            <div class="pair">
                <NumberField name=TAX value=tax form=begun error=wrong(tax) />
                <NumberField name=DISCOUNT value=discount form=begun error=wrong(discount) />
            </div>
            <Tick name="Prices include the tax" value=gross />
            <h2>"How the yard tallies"</h2>
            <RuleFields rule=rule />
            <TextField name="Note" value=note />
            {id.map(|id| {
                view! { <TakeBack name="Take this visit back" about=id to=Route::Home /> }
            })}
            <p class="error-line" role="alert" id="visit-fault">{live(move || begun.line())}</p>
            <div class="decide">
                <div class="row">
                    <button class="primary" id="save-visit" on:click=save>"Save the visit"</button>
                </div>
            </div>
        </Frame>
    }
}

/// The maker's own specs of earlier visits, newest first, then those supplied.
fn specs_on_offer(app: App) -> Vec<Spec> {
    let mut specs: Vec<Spec> = Vec::new();
    app.book_now(|state| {
        let mut visits: Vec<_> = state.visits().collect();
        order::sort_by_key(&mut visits, |visit| std::cmp::Reverse(visit.recorded.on));
        for visit in visits {
            if !specs.contains(&visit.opened.spec) && specs.len() < 4 {
                specs.push(visit.opened.spec.clone());
            }
        }
    });
    for supplied in Spec::supplied() {
        if !specs.contains(&supplied) {
            specs.push(supplied);
        }
    }
    specs
}
