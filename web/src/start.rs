//! The start: the store is opened, the record read and folded, and the first screen drawn. Whatever
//! fails on the way, the app opens and says what it can't do.

use crate::app::{App, Carried, Saving, Settings};
use crate::held::{FORM, HalfTyped, SHOWN, Texts};
use crate::record::{Record, gather};
use crate::route::follow_address;
use crate::shell::channel::{Channel, Hint};
use crate::shell::store::{PageKey, Store, StoreError, ask_to_persist, persisted};
use crate::shell::worker::{Bridge, News};
use crate::shell::{clock, files_in};
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::notebook::{Draft, device_name};
use wasm_bindgen_futures::spawn_local;

/// The database of the demo, apart from the maker's own.
const DEMO: &str = "stillwood-demo";

/// Its file, which the build lays beside the app.
const DEMO_FILE: &str = "./demo-data/two-yards.json";

thread_local! {
    static CHANNEL: RefCell<Option<Channel>> = const { RefCell::new(None) };
}

/// Tells other tabs that a page was written.
pub(crate) fn tell_tabs(key: PageKey) {
    CHANNEL.with_borrow(|channel| {
        if let Some(channel) = channel {
            channel.tell(key);
        }
    });
}

fn kept_for_all_windows() -> Option<web_sys::Storage> {
    web_sys::window().and_then(|window| window.local_storage().ok().flatten())
}

fn demo_is_open() -> bool {
    kept_for_all_windows()
        .and_then(|keep| keep.get_item("demo").ok().flatten())
        .is_some()
}

/// Opens the demo in place of the maker's own record, or closes it, and starts anew.
pub(crate) fn set_demo(open: bool) {
    if let Some(keep) = kept_for_all_windows() {
        let done = if open {
            keep.set_item("demo", "open")
        } else {
            keep.remove_item("demo")
        };
        if let Err(why) = done {
            leptos::logging::error!("the demo can't be switched: {why:?}");
            return;
        }
    }
    if !open {
        // The demo's own database goes; the maker's is another one.
        let gone = web_sys::window()
            .and_then(|window| window.indexed_db().ok().flatten())
            .map(|factory| factory.delete_database(DEMO));
        if let Some(Err(why)) = gone {
            leptos::logging::warn!("the demo's database stays: {why:?}");
        }
    }
    crate::route::replace(crate::route::Route::Home);
    if let Some(window) = web_sys::window()
        && let Err(why) = window.location().reload()
    {
        leptos::logging::error!("could not start anew: {why:?}");
    }
}

/// The store of the maker's own record, or of the example.
pub(crate) async fn open_store(demo: bool) -> Result<Store, StoreError> {
    if demo {
        Store::open_named(DEMO).await
    } else {
        Store::open().await
    }
}

/// What the store keeps beside the record.
#[derive(Default)]
struct Held {
    drafts: Vec<Draft>,
    forms: BTreeMap<String, HalfTyped>,
    shown: BTreeMap<String, Texts>,
}

impl Held {
    /// By their keys; what can't be read is left where it is.
    fn of(texts: &[(String, String)]) -> Self {
        let mut held = Self::default();
        for (key, json) in texts {
            if let Some(key) = key.strip_prefix(FORM) {
                if let Ok(form) = serde_json::from_str(json) {
                    held.forms.insert(key.to_owned(), form);
                }
            } else if let Some(key) = key.strip_prefix(SHOWN) {
                if let Ok(shown) = serde_json::from_str(json) {
                    held.shown.insert(key.to_owned(), shown);
                }
            } else if let Ok(draft) = Draft::from_json(json) {
                held.drafts.push(draft);
            }
        }
        held
    }
}

/// Opens the store, reads the record, and returns the state for the first screen.
pub(crate) async fn start() -> App {
    let demo = demo_is_open();
    let (store, trouble) = match open_store(demo).await {
        Ok(store) => (Some(store), None),
        Err(why) => (None, Some(why.to_string())),
    };
    let mut settings = Settings::default();
    let mut by = None;
    let mut held = Held::default();
    let mut pages = Default::default();
    let mut trouble = trouble;
    if let Some(store) = &store {
        match store.all_settings().await {
            Ok(texts) => {
                for (key, json) in texts {
                    match key.as_str() {
                        "settings" => settings = serde_json::from_str(&json).unwrap_or_default(),
                        "by" => by = serde_json::from_str(&json).ok(),
                        _ => {}
                    }
                }
            }
            Err(why) => trouble = Some(why.to_string()),
        }
        match store.all_drafts().await {
            Ok(texts) => held = Held::of(&texts),
            Err(why) => trouble = Some(why.to_string()),
        }
        match store.read_all().await {
            Ok(read) => pages = read,
            Err(why) => trouble = Some(why.to_string()),
        }
    }
    let by = match by {
        Some(by) => by,
        // A name that could not be read is not written over.
        None => new_device(store.as_ref().filter(|_| trouble.is_none())).await,
    };
    let mut record = Record::new(by, store.clone());
    record.take_in(&pages);
    let empty = record.notebook().is_empty();
    let app = App::new(record, settings, follow_address());
    app.demo.set(demo);
    app.drafts.set(held.drafts);
    app.forms.set(held.forms);
    app.shown.set_value(held.shown);
    if let Some(why) = trouble {
        app.saving.set(Saving::Failed(why));
    }
    if demo && empty {
        load_demo(app).await;
    }
    after_start(app, store, pages);
    app
}

/// Gives this device a short name, at random, and keeps it.
async fn new_device(store: Option<&Store>) -> String {
    let random = clock::random_bytes16().unwrap_or_default();
    let by = device_name(u32::from_le_bytes([
        random[0], random[1], random[2], random[3],
    ]));
    if let (Some(store), Ok(json)) = (store, serde_json::to_string(&by))
        && let Err(why) = store.put_setting("by", &json).await
    {
        leptos::logging::error!("the device's name is not kept: {why}");
    }
    by
}

/// What can wait until the first screen stands.
fn after_start(app: App, store: Option<Store>, pages: crate::shell::store::Pages) {
    let channel = Channel::open(move |hint| match hint {
        Hint::Written(_) | Hint::Returned => app.catch_up(),
    });
    CHANNEL.set(Some(channel));
    if let Some(store) = store {
        store.watch_drafts(move |kept| {
            let trouble = kept.err().map(|why| why.to_string());
            // Told after every key: the page hears of it only when it has changed.
            if app
                .draft_trouble
                .with_untracked(|before| *before != trouble)
            {
                app.draft_trouble.set(trouble);
            }
        });
        spawn_local(async move { gather(&store, &pages).await });
    }
    let bridge = Bridge::start("./sw.js", move |news| match news {
        News::ReadyOffline => {
            app.offline
                .set(Some("Ready to work without a network.".into()));
        }
        News::NewVersionReady => app.new_version.set(true),
        News::NotInstalled(why) => app.offline.set(Some(why.to_string())),
    });
    app.bridge.set_value(Some(bridge));
    spawn_local(async move { app.persistence.set(persisted().await) });
    files_in::on_opened_with(move |opened| match opened {
        Ok(files) => {
            for file in files {
                spawn_local(async move { take_file(app, &file).await });
            }
        }
        Err(why) => app.say(why.to_string()),
    });
    if files_in::opened_by_share() {
        spawn_local(async move {
            match files_in::take_shared().await {
                Ok(files) => {
                    app.incoming
                        .update(|waiting| waiting.extend(files.into_iter().map(Arc::new)));
                    crate::route::replace(crate::route::Route::Carry);
                }
                Err(why) => app.say(why.to_string()),
            }
        });
    }
}

/// Reads a file that came from outside and puts it before the maker.
pub(crate) async fn take_file(app: App, file: &web_sys::File) {
    match files_in::read(file).await {
        Ok(incoming) => {
            app.incoming
                .update(|waiting| waiting.push(Arc::new(incoming)));
            crate::route::go(crate::route::Route::Carry);
        }
        Err(why) => app.say(why.to_string()),
    }
}

/// Reads the demo's file, which the build lays beside the app.
async fn load_demo(app: App) {
    use wasm_bindgen::JsCast;
    use wasm_bindgen_futures::JsFuture;
    let Some(window) = web_sys::window() else {
        return;
    };
    let read = async {
        let answer = JsFuture::from(window.fetch_with_str(DEMO_FILE)).await?;
        let answer: web_sys::Response = answer.dyn_into()?;
        JsFuture::from(answer.array_buffer()?).await
    };
    match read.await {
        Ok(bytes) => {
            let bytes = js_sys::Uint8Array::new(&bytes).to_vec();
            match stillwood_core::notebook::read(&bytes, &Default::default()) {
                Ok(reading) => {
                    if let Err(why) = app.bring_in(reading.accepted, None).await {
                        app.say(why);
                    }
                }
                Err(why) => app.say(why.to_string()),
            }
        }
        Err(why) => app.say(format!("The demo can't be read: {why:?}")),
    }
}

impl App {
    /// Keeps the device's settings.
    pub(crate) fn keep_settings(self) {
        let settings = self.settings.get_untracked();
        spawn_local(async move {
            let Some(store) = self.record.with_value(Record::store) else {
                return;
            };
            let kept = match serde_json::to_string(&settings) {
                Ok(json) => store
                    .put_setting("settings", &json)
                    .await
                    .map_err(|why| why.to_string()),
                Err(why) => Err(why.to_string()),
            };
            if let Err(why) = kept {
                self.say(format!("The settings are not kept: {why}"));
            }
        });
    }

    /// Asks the browser to keep the record, after the first real save.
    pub(crate) fn ask_to_keep(self) {
        if self.persistence.get_untracked() == crate::shell::store::Persistence::Granted {
            return;
        }
        spawn_local(async move { self.persistence.set(ask_to_persist().await) });
    }

    /// Notes that entries have come out of a file, so that they are not on this device only.
    pub(crate) fn note_brought_in(self, new: usize) {
        let on = clock::now().day;
        self.settings
            .update(|settings| match &mut settings.carried {
                Some(carried) => carried.entries += new,
                None => settings.carried = Some(Carried { on, entries: new }),
            });
        self.keep_settings();
    }
}
