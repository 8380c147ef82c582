//! Faults found, with their places along the plank; the plank's own wood; the maker's note.

use crate::app::App;
use crate::parts::{CollectAny, live};
use crate::route::Route;
use leptos::prelude::*;
use stillwood_core::plank::DefectKind;
use stillwood_core::record::DraftDefect;
use stillwood_core::wood::{search_among, species};

/// Changes one fault of the draft.
fn change(app: App, at: usize, set: impl FnOnce(&mut DraftDefect)) {
    app.entering.change_beside(|draft| {
        if let Some(defect) = draft.defects.get_mut(at) {
            set(defect);
        }
    });
}

/// Faults, with their places.
#[component]
pub(super) fn Faults() -> impl IntoView {
    let entering = expect_context::<App>().entering;
    let choosing = RwSignal::new(false);
    let count = Memo::new(move |_| entering.beside(|draft| draft.defects.len()));
    let add = move |kind: DefectKind| {
        choosing.set(false);
        entering.change_beside(|draft| {
            let (from, to, note) = Default::default();
            draft.defects.push(DraftDefect {
                from,
                kind,
                note,
                to,
            });
        });
    };
    let choice = move |kind: &DefectKind| {
        let kind = *kind;
        view! {
            <li>
                <button type="button" class="card" on:click=move |_| add(kind)>
                    <strong>{kind.name()}</strong>
                    <br />
                    <small>{kind.definition()}</small>
                </button>
            </li>
        }
    };
    view! {
        <h2>"Faults"</h2>
        {live(move || (0..count.get()).map(|at| view! { <Fault at=at /> }).collect_any())}
        <button
            type="button" id="add-fault" aria-expanded=move || choosing.get().to_string()
            on:click=move |_| {
                entering.active.set(None);
                choosing.update(|c| *c = !*c);
            }
        >
            "Add a fault"
        </button>
        {live(move || {
            choosing
                .get()
                .then(|| {
                    view! {
                        <ul class="plain">{DefectKind::ALL.iter().map(choice).collect_any()}</ul>
                    }
                })
        })}
    }
}

#[component]
fn Fault(at: usize) -> impl IntoView {
    let app = expect_context::<App>();
    let kind = move || {
        app.entering
            .beside(|draft| draft.defects.get(at).map(|d| d.kind.name()))
    };
    let remove = move |_| {
        app.entering.change_beside(|draft| {
            if at < draft.defects.len() {
                draft.defects.remove(at);
            }
        });
    };
    let place = move |name: &'static str, of: fn(&mut DraftDefect) -> &mut String| {
        let text = move || {
            app.entering.beside(|draft| {
                let mut defect = draft.defects.get(at).cloned();
                defect.as_mut().map(|d| of(d).clone()).unwrap_or_default()
            })
        };
        view! {
            <label class="field">
                <span class="name">{name}</span>
                <input
                    type="text" inputmode="decimal" autocomplete="off" prop:value=text
                    on:focus=move |_| app.entering.active.set(None)
                    on:input=move |event| {
                        let typed = event_target_value(&event);
                        change(app, at, |d| *of(d) = typed);
                    }
                />
            </label>
        }
    };
    view! {
        <div class="card">
            <div class="row">
                <strong>{kind}</strong>
                <button type="button" class="quiet" on:click=remove>"Remove"</button>
            </div>
            <div class="pair">
                {place("from near end, with its unit", |d| &mut d.from)}
                {place("to", |d| &mut d.to)}
            </div>
        </div>
    }
}

/// The plank's wood, where it is not as the pile says.
#[component]
pub(super) fn OwnWood() -> impl IntoView {
    let app = expect_context::<App>();
    let text = move || app.entering.beside(|draft| draft.species.clone());
    let put = move |text: String| app.entering.change_beside(|draft| draft.species = text);
    let offers = move || {
        let typed = text();
        let own = app.own_woods();
        let found = search_among(species().iter().chain(&own), &typed);
        let names: Vec<String> = found
            .iter()
            .take(4)
            .map(|found| found.species.name().to_owned())
            .collect();
        if names.contains(&typed) {
            Vec::new()
        } else {
            names
        }
    };
    let offer = move |name: String| {
        let shown = name.clone();
        view! {
            <button type="button" class="chip" on:click=move |_| put(name.clone())>
                {shown}
            </button>
        }
    };
    view! {
        <label class="field">
            <span class="name">"Wood, if not as the pile says"</span>
            <input
                type="text" autocomplete="off" id="own-wood" prop:value=text
                on:focus=move |_| app.entering.active.set(None)
                on:input=move |event| put(event_target_value(&event))
            />
        </label>
        <div class="chips">{live(move || offers().into_iter().map(offer).collect_any())}</div>
        <a class="button quiet" href=Route::OwnWood(None).href()>"Not in the list: add your own wood"</a>
    }
}

/// The maker's note.
#[component]
pub(super) fn NoteField() -> impl IntoView {
    let entering = expect_context::<App>().entering;
    let text = move || entering.beside(|draft| draft.note.clone());
    view! {
        <label class="field">
            <span class="name">"Note"</span>
            <textarea
                rows="2" prop:value=text
                on:focus=move |_| entering.active.set(None)
                on:input=move |event| {
                    let text = event_target_value(&event);
                    entering.change_beside(|draft| draft.note = text);
                }
            ></textarea>
        </label>
    }
}
