//! What stands around every screen: the bar with the way back, news that matter, and short words on
//! what was done.

use crate::app::{App, Saving};
use crate::parts::live;
use crate::record::Deed;
use crate::route::{Route, go};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use stillwood_core::record::Id;
use stillwood_core::record::{Event, Withdrawn};
use wasm_bindgen_futures::spawn_local;

/// The bar on top and the page under it.
#[component]
pub(crate) fn Frame(
    /// The screen's name.
    #[prop(into)]
    title: Signal<String>,
    /// Where "back" goes; none on the home screen.
    #[prop(optional, into)]
    back: Option<Route>,
    /// More classes for the page.
    #[prop(optional)]
    class: &'static str,
    /// Buttons at the right of the bar.
    #[prop(optional)]
    more: Option<ViewFn>,
    /// The screen.
    children: Children,
) -> impl IntoView {
    let app = expect_context::<App>();
    let tall = RwSignal::new(false);
    request_animation_frame(move || {
        // The screen may be gone by then.
        tall.try_set(bar_has_two_rows());
    });
    view! {
        <div class=format!("page {class}") class:tall=move || tall.get()>
            <header class="top">
                {back
                    .map(|back| {
                        view! {
                            <a class="button back" href=back.href() aria-label="back">
                                "←"
                            </a>
                        }
                    })}
                <h1>{live(move || title.get())}</h1>
                {more.map(|more| more.run())}
                {move || app.demo.get().then(|| view! { <span class="word doubt">"example"</span> })}
                <SavedSign />
            </header>
            <main>
                <Banners />
                {children()}
            </main>
        </div>
    }
}

/// Whether the bar needs more than one row, where the window is narrow or the letters are large: then
/// it goes with the page and takes no room from what is below.
fn bar_has_two_rows() -> bool {
    let part = |css: &str| {
        let found = document().query_selector(css).ok().flatten();
        found.and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok())
    };
    let (first, last) = (
        part("header.top > :first-child"),
        part("header.top > :last-child"),
    );
    first.zip(last).is_some_and(|(first, last)| {
        last.offset_top() >= first.offset_top() + first.offset_height()
    })
}

/// Brings what was opened under the eye, where it stands below and not beside: on a phone.
pub(crate) fn bring_into_view(id: &'static str) {
    request_animation_frame(move || {
        let beside = window().match_media("(min-width: 900px)").ok().flatten();
        let below = beside.is_none_or(|query| !query.matches());
        if let Some(part) = document().get_element_by_id(id).filter(|_| below) {
            part.scroll_into_view();
        }
    });
}

/// Whether everything is kept.
#[component]
fn SavedSign() -> impl IntoView {
    let app = expect_context::<App>();
    view! {
        <span class="small" role="status" id="saving">
            {live(move || match app.saving.get() {
                Saving::Saved => "saved",
                Saving::Busy => "saving…",
                Saving::Failed(_) => "NOT SAVED",
            })}
        </span>
    }
}

/// News that stay until something is done about them.
#[component]
pub(crate) fn Banners() -> impl IntoView {
    let app = expect_context::<App>();
    let failed = move || match app.saving.get() {
        Saving::Failed(why) => Some(why),
        Saving::Saved | Saving::Busy => None,
    };
    let take_over = move |_| {
        spawn_local(async move {
            // Looked up and waited for here: what is half typed is kept before the page reloads.
            if let Some(store) = app.record.with_value(crate::record::Record::store)
                && let Err(why) = store.drafts_kept().await
            {
                app.say(format!(
                    "Not updated: what is half typed can't be kept ({why})."
                ));
                return;
            }
            let Some(bridge) = app.bridge.get_value() else {
                return;
            };
            match bridge.take_over().await {
                Ok(true) => {}
                Ok(false) => app.new_version.set(false),
                Err(why) => app.say(why.to_string()),
            }
        });
    };
    view! {
        <div class="bars">
            {live(move || {
                failed()
                    .map(|why| {
                        view! {
                            <div class="note bad" role="alert" id="not-saved">
                                <p>
                                    <strong>"Not saved. "</strong>
                                    {why}
                                    " What you entered is still here, in this window."
                                </p>
                                <div class="row">
                                    <button on:click=move |_| app.try_again()>"Try again"</button>
                                    <a class="button" href=Route::Carry.href()>"Save as a file"</a>
                                </div>
                            </div>
                        }
                    })
            })}
            {live(move || app.emptied.get().then(|| view! { <Emptied /> }))}
            {live(move || {
                app.draft_trouble
                    .get()
                    .map(|why| view! { <div class="note bad" role="alert">{why}</div> })
            })}
            {live(move || {
                app.new_version
                    .get()
                    .then(|| {
                        view! {
                            <div class="note" role="status" id="new-version">
                                <p>"New version ready. Half-typed planks are kept."</p>
                                <div class="row">
                                    <button class="primary" on:click=take_over>"Update now"</button>
                                    <button on:click=move |_| app.new_version.set(false)>"Later"</button>
                                </div>
                            </div>
                        }
                    })
            })}
        </div>
    }
}

/// The store was emptied from outside; whoever meant it deletes everything.
#[component]
fn Emptied() -> impl IntoView {
    let app = expect_context::<App>();
    let asked = RwSignal::new(false);
    let ask = move || {
        if asked.get() {
            view! {
                <p>
                    "Delete the whole record, everything half typed and the settings on this device? \
                     This can't be undone."
                </p>
                <div class="row">
                    <button id="delete-everything-really" on:click=move |_| app.delete_everything()>
                        "Yes, delete everything"
                    </button>
                    <button on:click=move |_| asked.set(false)>"No"</button>
                </div>
            }
            .into_any()
        } else {
            view! {
                <div class="row">
                    <button on:click=move |_| app.emptied.set(false)>"OK"</button>
                    <button id="delete-everything" on:click=move |_| asked.set(true)>
                        "Delete everything"
                    </button>
                </div>
            }
            .into_any()
        }
    };
    view! {
        <div class="note bad" role="alert" id="emptied">
            <p>"The store was emptied from outside. It was written again."</p>
            {live(ask)}
        </div>
    }
}

/// A short word on what was done, with an undo.
#[component]
pub(crate) fn Toasts() -> impl IntoView {
    let app = expect_context::<App>();
    // A word goes by itself after a while.
    Effect::new(move |_| {
        if let Some(shown) = app.toast.get() {
            set_timeout(
                move || {
                    if app.toast.get_untracked().as_ref() == Some(&shown) {
                        app.toast.set(None);
                    }
                },
                std::time::Duration::from_secs(8),
            );
        }
    });
    view! {
        <div aria-live="polite">
            {live(move || {
                app.toast
                    .get()
                    .map(|toast| {
                        let undo = toast.clone();
                        view! {
                            <div class="toast" on:click=move |_| app.toast.set(None)>
                                <span>{toast.text}</span>
                                {(!undo.undo.is_empty())
                                    .then(|| {
                                        view! {
                                            <button on:click=move |_| {
                                                app.toast.set(None);
                                                app.undo(undo.clone());
                                            }>"Undo"</button>
                                        }
                                    })}
                            </div>
                        }
                    })
            })}
        </div>
    }
}

/// A button that goes to a screen.
#[component]
pub(crate) fn GoTo(
    /// The screen.
    to: Route,
    /// Its name.
    name: &'static str,
    /// Classes.
    #[prop(optional)]
    class: &'static str,
) -> impl IntoView {
    view! {
        <button class=class on:click=move |_| go(to)>
            {name}
        </button>
    }
}

/// Takes back what was begun, with an undo.
#[component]
pub(crate) fn TakeBack(
    /// The button's words.
    name: &'static str,
    /// The visit or the pile.
    about: Id,
    /// Where to go then.
    to: Route,
) -> impl IntoView {
    let app = expect_context::<App>();
    let back = move |_| {
        let withdrawn = Event::Withdrawn(Withdrawn {});
        let deed = Deed::instead_of(
            about,
            withdrawn,
            app.book_now(|state| state.begun_by(about)),
        );
        app.write_and_say(
            vec![deed],
            "Taken back, and out of every list.".into(),
            Some(to),
        );
        go(to);
    };
    view! {
        <button type="button" class="quiet" id="take-back" on:click=back>
            {name}
        </button>
    }
}
