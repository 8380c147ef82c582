//! The sheet of reasons for leaving a plank: those that the computation found are proposed, the maker
//! chooses.

use crate::parts::CollectAny;
use leptos::prelude::*;
use stillwood_core::plank::{Reason, ReasonGroup};

const GROUPS: [(ReasonGroup, &str); 7] = [
    (ReasonGroup::Shape, "Shape"),
    (ReasonGroup::Grain, "Grain and growth"),
    (ReasonGroup::Drying, "Drying"),
    (ReasonGroup::Breaks, "Cracks and breaks"),
    (ReasonGroup::Life, "Life and dirt"),
    (ReasonGroup::Unseen, "Could not judge"),
    (
        ReasonGroup::Commerce,
        "Price and choice (says nothing against the wood)",
    ),
];

/// Chips for reasons; the first chosen is the main one.
#[component]
pub(crate) fn ReasonChips(
    /// What may be chosen.
    of: Vec<Reason>,
    /// What is chosen, the main one first.
    chosen: RwSignal<Vec<Reason>>,
) -> impl IntoView {
    let chip = move |reason: Reason| {
        let toggle = move |_| {
            chosen.update(
                |chosen| match chosen.iter().position(|one| *one == reason) {
                    Some(at) => {
                        chosen.remove(at);
                    }
                    None => chosen.push(reason),
                },
            );
        };
        view! {
            <button
                type="button" class="chip" title=reason.definition()
                aria-pressed=move || chosen.with(|c| c.contains(&reason)).to_string()
                on:click=toggle
            >
                {reason.name()}
            </button>
        }
    };
    view! { <div class="chips">{of.into_iter().map(chip).collect_any()}</div> }
}

/// All reasons, by group.
#[component]
pub(crate) fn AllReasons(
    /// What is chosen, the main one first.
    chosen: RwSignal<Vec<Reason>>,
) -> impl IntoView {
    let group = move |(group, name): &(ReasonGroup, &'static str)| {
        let of = Reason::ALL
            .iter()
            .copied()
            .filter(|r| r.group() == *group)
            .collect();
        view! {
            <h3>{*name}</h3>
            <ReasonChips of=of chosen=chosen />
        }
    };
    GROUPS.iter().map(group).collect_any()
}
