//! Questions about what was typed: asked, with what else may have been meant; never in the way.

use crate::app::App;
use crate::parts::{CollectAny, focus_on, live};
use leptos::prelude::*;
use stillwood_core::plank::{DefectFound, Field, Readings, Warning, defect_warnings, warnings};
use stillwood_core::wood::Species;

/// One question, with its offers and "yes, really".
#[component]
pub(super) fn Question(
    /// The field that an offer is put into.
    field: Field,
    /// The question.
    warning: Warning,
    /// A way to the field.
    #[prop(optional)]
    look: bool,
) -> impl IntoView {
    let entering = expect_context::<App>().entering;
    let offer = move |offer: stillwood_core::plank::Offer| {
        let text = offer.text;
        view! {
            <button type="button" on:click=move |_| entering.put(field, text.clone())>
                {offer.label}
            </button>
        }
    };
    view! {
        <div class="note doubt" role="status">
            <p>{warning.question}</p>
            <div class="row">
                {warning.offers.into_iter().map(offer).collect_any()}
                {look
                    .then(|| {
                        view! {
                            <button type="button" on:click=move |_| focus_on(field)>
                                {format!("Look at {}", field.label().to_lowercase())}
                            </button>
                        }
                    })}
                <button type="button" on:click=move |_| entering.insist(field)>"Yes, really"</button>
            </div>
        </div>
    }
}

/// Questions that need several fields together, and those about the places of faults.
#[component]
pub(super) fn CrossWarnings(
    /// The wood, for the least density that it usually has.
    wood: Signal<Option<Species>>,
    /// The readings and the faults, as far as they can be read.
    read: Memo<Option<(Readings, Vec<DefectFound>)>>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let lightest = Memo::new(move |_| {
        let usual = wood.get()?.usual_density_at_12()?;
        Some(usual.low)
    });
    let asked = Memo::new(move |_| {
        let units = app.units.get();
        let lightest = lightest.get();
        read.with(|read| {
            let (readings, defects) = read.as_ref()?;
            let faults = defect_warnings(readings, defects, units);
            Some((warnings(readings, lightest, units), faults))
        })
    });
    live(move || {
        let (fields, faults) = asked.get()?;
        let fields = fields
            .into_iter()
            .map(|one| view! { <Question field=one.field warning=one.warning look=true /> })
            .collect_any();
        let faults = faults
            .into_iter()
            .map(|(_, warning)| view! { <div class="note doubt">{warning.question}</div> })
            .collect_any();
        Some(view! {
            {fields}
            {faults}
        })
    })
}
