//! Save and share: the record handed over as a file, records of other devices brought in, and what has to
//! be settled after they met. Nothing changes before the maker says so.

mod brought;
mod conflicts;
mod incoming;
mod out;
mod pairs;
mod settle;
mod to_settle;
mod troubles;

pub(crate) use to_settle::ToSettleBlock;

use crate::app::App;
use crate::imports::Imports;
use crate::parts::{Frame, live, show_named_place};
use crate::route::Route;
use crate::shell::files_in;
use crate::shell::listen::Listener;
use crate::start::take_file;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// The screen.
#[component]
pub(crate) fn Carry() -> impl IntoView {
    let app = expect_context::<App>();
    let over = RwSignal::new(false);
    let listening = StoredValue::new_local(drop_anywhere(app, over));
    on_cleanup(move || listening.dispose());
    app.read_kept();
    let imports = RwSignal::new(Imports::default());
    spawn_local(async move {
        match app.read_imports().await {
            Ok(found) => drop(imports.try_set(found)),
            Err(why) => app.say(format!(
                "The list of what was brought in can't be read: {why}"
            )),
        }
    });
    show_named_place();
    let demo = move || {
        app.demo.get().then(|| {
            view! {
                <p class="note doubt" id="demo-note">
                    "The sample workshop is open. What is saved or brought in here is its record, not yours."
                </p>
            }
        })
    };
    view! {
        <Frame title="Save and share" back=Route::Home class="wide">
            {live(demo)}
            <div class="two">
                <div>
                    <out::Out />
                    <incoming::FilesIn over=over imports=imports />
                    <brought::Brought imports=imports />
                </div>
                <div>
                    <pairs::Pairs />
                    <conflicts::Conflicts />
                    <settle::Disputes />
                    <troubles::Troubles />
                </div>
            </div>
        </Frame>
    }
}

/// Files may be dropped anywhere on the page, as long as this screen is open.
fn drop_anywhere(app: App, over: RwSignal<bool>) -> Vec<Listener> {
    let Some(window) = web_sys::window() else {
        return Vec::new();
    };
    let mut listeners = Vec::new();
    listeners.extend(Listener::new(&window, "dragover", move |event| {
        event.prevent_default();
        over.set(true);
    }));
    listeners.extend(Listener::new(&window, "dragleave", move |_| {
        over.set(false)
    }));
    listeners.extend(Listener::new(&window, "drop", move |event| {
        event.prevent_default();
        over.set(false);
        let data = event
            .dyn_into::<web_sys::DragEvent>()
            .ok()
            .and_then(|event| event.data_transfer());
        take(
            app,
            data.map(|data| files_in::dropped(&data))
                .unwrap_or_default(),
        );
    }));
    listeners
}

/// Reads files and puts them before the maker.
fn take(app: App, files: Vec<web_sys::File>) {
    spawn_local(async move {
        for file in files {
            take_file(app, &file).await;
        }
    });
}
