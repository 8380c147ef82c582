//! Files out and in: the record carried off the device, records of other devices brought in, and what
//! has to be settled after they met. Nothing changes before the maker says so.

mod incoming;
mod out;
mod pairs;
mod settle;
mod troubles;

use crate::app::App;
use crate::parts::Frame;
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
    let demo = move || {
        app.demo.get().then(|| {
            view! {
                <p class="note doubt" id="demo-note">
                    "The demo is open. What is saved or brought in here is the demo's record, not yours."
                </p>
            }
        })
    };
    view! {
        <Frame title="Files out and in" back=Route::Home class="wide">
            {demo}
            <div class="two">
                <div>
                    <out::Out />
                    <incoming::FilesIn over=over />
                </div>
                <div>
                    <pairs::Pairs />
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
