//! Which planks are wanted: by yard, wood, decision, verdict, reason, score and words; by which spec all of
//! them are judged; and the order, where the headings of the table are not in view.

use super::{PAGE, Shared};
use crate::app::App;
use crate::parts::{CollectAny, When, live};
use leptos::prelude::*;
use stillwood_core::order;
use stillwood_core::record::queries;
use stillwood_core::record::{Column, Decision, Filter, PlankRow};
use stillwood_core::verdict::Recommendation;

const DECISIONS: [Decision; 3] = [Decision::Take, Decision::Leave, Decision::SetAside];
const CALLS: [Recommendation; 5] = [
    Recommendation::Good,
    Recommendation::GoodSoFar,
    Recommendation::TooClose,
    Recommendation::Refused,
    Recommendation::NothingYet,
];

/// A choice of the list: its value in the page and its words.
type Choice = (String, String);

/// What stands in the rows, each once.
fn distinct(shared: Shared, get: fn(&PlankRow) -> &str) -> Vec<Choice> {
    shared.rows(|rows| {
        let texts = order::set_of(rows.iter().map(get).filter(|text| !text.is_empty()));
        texts
            .into_iter()
            .map(|text| (text.to_owned(), text.to_owned()))
            .collect()
    })
}

fn numbered(names: impl Iterator<Item = &'static str>) -> Vec<Choice> {
    names
        .enumerate()
        .map(|(at, name)| (at.to_string(), name.to_owned()))
        .collect()
}

/// What a value of the page stands for.
fn at<T: Copy>(of: &[T], value: &str) -> Option<T> {
    value
        .parse::<usize>()
        .ok()
        .and_then(|at| of.get(at).copied())
}

/// The value of the page that stands for one of a few.
fn place<T: Copy + PartialEq>(of: &[T], one: T) -> Option<String> {
    of.iter().position(|of| *of == one).map(|at| at.to_string())
}

/// The filters.
#[component]
pub(super) fn Filters(shared: Shared) -> impl IntoView {
    let filter = shared.filter;
    let narrow = move |change: &dyn Fn(&mut Filter)| {
        shared.shown.set(PAGE);
        filter.update(|filter| change(filter));
    };
    let reasons = Memo::new(move |_| {
        shared.rows(|rows| {
            let found = order::set_of(rows.iter().flat_map(|r| r.reasons.clone()));
            found.into_iter().collect::<Vec<_>>()
        })
    });
    let decisions = move || {
        let mut choices = numbered(DECISIONS.iter().map(|decision| decision.in_words()));
        choices.push(("none".to_owned(), "not yet decided".to_owned()));
        choices
    };
    let decided = move |value: String| {
        let wanted = match value.as_str() {
            "" => None,
            "none" => Some(None),
            other => at(&DECISIONS, other).map(Some),
        };
        narrow(&|filter| filter.decision = wanted);
    };
    let text = move |event| {
        let text = event_target_value(&event);
        narrow(&|filter| filter.text = text.clone());
    };
    let least = move |event| {
        let typed = event_target_value(&event).replace(',', ".");
        narrow(&|filter| filter.least_score = typed.trim().parse().ok());
    };
    let clear = move |_| {
        shared.shown.set(PAGE);
        filter.set(Filter::default());
    };
    let now = move |value: fn(&Filter) -> Option<String>| {
        Signal::derive(move || filter.with(value).unwrap_or_default())
    };
    let some = |text: String| (!text.is_empty()).then_some(text);
    let unfiltered = move || filter.with(|filter| *filter == Filter::default());
    view! {
        <div class="no-print">
            <label class="field">
                <span class="name">"Search: mark, yard, wood, reason, note"</span>
                <input
                    type="text" id="search" autocomplete="off"
                    prop:value=move || filter.with(|filter| filter.text.clone()) on:input=text
                />
            </label>
            <details>
                <summary>"Filters and order"</summary>
                <div class="filters">
                    <Pick
                        id="by-yard" name="Yard" all="all yards"
                        chosen=now(|filter| filter.yard.clone())
                        of=Signal::derive(move || distinct(shared, |row| &row.yard))
                        pick=move |value| narrow(&|filter| filter.yard = some(value.clone()))
                    />
                    <Pick
                        id="by-wood" name="Wood" all="all woods"
                        chosen=now(|filter| filter.species.clone())
                        of=Signal::derive(move || distinct(shared, |row| &row.species))
                        pick=move |value| narrow(&|filter| filter.species = some(value.clone()))
                    />
                    <Pick
                        id="by-decision" name="Decision" all="all"
                        chosen=now(|filter| Some(match filter.decision? {
                            None => "none".to_owned(),
                            Some(decision) => place(&DECISIONS, decision)?,
                        }))
                        of=Signal::derive(decisions) pick=decided
                    />
                    <Pick
                        id="by-verdict" name="Verdict" all="all"
                        chosen=now(|filter| place(&CALLS, filter.recommendation?))
                        of=Signal::derive(|| numbered(CALLS.iter().map(|call| call.words())))
                        pick=move |value| narrow(&|filter| filter.recommendation = at(&CALLS, &value))
                    />
                    <Pick
                        id="by-reason" name="Reason" all="all"
                        chosen=Signal::derive(move || {
                            let wanted = filter.with(|filter| filter.reason);
                            reasons
                                .with(|reasons| place(reasons, wanted?))
                                .unwrap_or_default()
                        })
                        of=Signal::derive(move || {
                            reasons.with(|reasons| numbered(reasons.iter().map(|r| r.name())))
                        })
                        pick=move |value| {
                            let wanted = reasons.with_untracked(|reasons| at(reasons, &value));
                            narrow(&|filter| filter.reason = wanted);
                        }
                    />
                    <label class="field">
                        <span class="name">"Score at least, of 100"</span>
                        <input
                            type="text" inputmode="decimal" id="least-score" autocomplete="off"
                            prop:value=move || {
                                filter
                                    .with(|f| f.least_score.map_or_else(String::new, |s| s.to_string()))
                            }
                            on:change=least
                        />
                    </label>
                    <Order shared=shared />
                    <JudgedBy shared=shared />
                </div>
            </details>
            <When so=move || !unfiltered()>
                <button id="clear-filters" on:click=clear>"Show all planks"</button>
            </When>
        </div>
    }
}

/// One list to choose from.
#[component]
fn Pick(
    id: &'static str,
    name: &'static str,
    all: &'static str,
    of: Signal<Vec<Choice>>,
    /// The value that is chosen; empty for all.
    #[prop(into)]
    chosen: Signal<String>,
    pick: impl Fn(String) + 'static,
) -> impl IntoView {
    let option = move |(value, words): Choice| {
        let this = value.clone();
        view! {
            <option value=value prop:selected=move || chosen.with(|c| *c == this)>
                {words}
            </option>
        }
    };
    view! {
        <label class="field">
            <span class="name">{name}</span>
            <select
                id=id
                on:change=move |event| pick(event_target_value(&event))
            >
                <option value="" prop:selected=move || chosen.with(String::is_empty)>
                    {all}
                </option>
                {live(move || of.get().into_iter().map(option).collect_any())}
            </select>
        </label>
    }
}

/// The spec that all planks are judged by: what else would the wood be good for?
#[component]
fn JudgedBy(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let specs = Memo::new(move |_| app.state(queries::specs));
    let chosen = move |name: &str| {
        shared
            .under
            .with(|under| under.as_ref().is_some_and(|(chosen, _)| chosen == name))
    };
    let choose = move |event| {
        let value = event_target_value(&event);
        shared.judge_under(specs.with_untracked(|specs| {
            let at: usize = value.parse().ok()?;
            specs.get(at).cloned()
        }));
    };
    let option = move |(at, name): (usize, String)| {
        let this = name.clone();
        view! { <option value=at.to_string() prop:selected=move || chosen(&this)>{name}</option> }
    };
    let options = move || {
        let names = specs.with(|specs| {
            specs
                .iter()
                .map(|(name, _)| name.clone())
                .enumerate()
                .collect::<Vec<_>>()
        });
        names.into_iter().map(option).collect_any()
    };
    view! {
        <label class="field long">
            <span class="name">"Judged by the sizes and limits of"</span>
            <select id="judged-by" on:change=choose>
                <option value="" prop:selected=move || shared.under.with(Option::is_none)>
                    "each plank's own visit"
                </option>
                {live(options)}
            </select>
        </label>
    }
}

/// The order, for where the headings are not in view.
#[component]
fn Order(shared: Shared) -> impl IntoView {
    let sort = shared.sort;
    let choose = move |event| {
        if let Some(column) = at(Column::ALL, &event_target_value(&event)) {
            sort.set((column, column.falls_first()));
        }
    };
    let option = move |(at, column): (usize, &Column)| {
        let column = *column;
        view! {
            <option value=at.to_string() prop:selected=move || sort.get().0 == column>
                {column.name()}
            </option>
        }
    };
    view! {
        <div class="field sorted">
            <label for="sort-by"><span class="name">"Sorted by"</span></label>
            <div class="row">
                <select id="sort-by" on:change=choose>
                    {Column::ALL.iter().enumerate().map(option).collect_any()}
                </select>
                <button on:click=move |_| sort.update(|(_, falls)| *falls = !*falls)>
                    {live(move || if sort.get().1 { "highest first" } else { "lowest first" })}
                </button>
            </div>
        </div>
    }
}
