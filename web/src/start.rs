//! The start: the store is opened, the record read and folded, and the first screen drawn. Whatever
//! fails on the way, the app opens and says what it can't do.

use crate::app::{App, Saving, Settings};
use crate::held::{FORM, HalfTyped, SHOWN, Texts};
use crate::identity::{self, DEVICE, Device, SIGN};
use crate::record::Record;
use crate::route::follow_address;
use crate::shell::channel::{Channel, Hint};
use crate::shell::files_in;
use crate::shell::store::{
    ASIDE, Damage, PageKey, Pages, Place, Store, StoreError, TextsFound, ask_to_persist, persisted,
};
use crate::shell::worker::{Bridge, News};
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::record::Draft;
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

/// Tells other tabs to look at the store, though no page was written.
pub(crate) fn nudge_tabs() {
    tell_tabs(PageKey::from_number(0.0));
}

/// Loads the page anew: what is in memory goes.
pub(crate) fn load_anew() {
    crate::route::replace(crate::route::Route::Home);
    if let Some(window) = web_sys::window()
        && let Err(why) = window.location().reload()
    {
        leptos::logging::error!("could not start anew: {why:?}");
    }
}

fn kept_for_all_windows() -> Option<web_sys::Storage> {
    // nothing lost: where it is refused there is none
    web_sys::window().and_then(|window| window.local_storage().ok().flatten())
}

fn demo_is_open() -> bool {
    kept_for_all_windows()
        // nothing lost: then it is the maker's own record that is opened
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
            // nothing lost: the example's own database, and where there is none it is gone
            .and_then(|window| window.indexed_db().ok().flatten())
            .map(|factory| factory.delete_database(DEMO));
        if let Some(Err(why)) = gone {
            leptos::logging::warn!("the demo's database stays: {why:?}");
        }
    }
    load_anew();
}

/// The store of the maker's own record, or of the example. Of the maker's own every write looks whether
/// it is still what it was; the example's may go at any time.
pub(crate) async fn open_store(demo: bool) -> Result<Store, StoreError> {
    if demo {
        return Store::open_named(DEMO).await;
    }
    let store = Store::open().await?;
    store.claim().await?;
    Ok(store)
}

/// What the store keeps beside the record.
#[derive(Default)]
struct Held {
    drafts: Vec<Draft>,
    forms: BTreeMap<String, HalfTyped>,
    shown: BTreeMap<String, Texts>,
}

impl Held {
    /// By their keys; what can't be read is left where it is, and listed.
    fn of(found: &TextsFound) -> (Self, Vec<Damage>) {
        let (mut held, mut damaged) = (Self::default(), found.damaged.clone());
        for (key, json) in &found.texts {
            let read = if key.starts_with(ASIDE) {
                Err("it was kept aside, for it could not be read".to_owned())
            } else if let Some(form) = key.strip_prefix(FORM) {
                let read = serde_json::from_str(json).map_err(|why| why.to_string());
                read.map(|read| drop(held.forms.insert(form.to_owned(), read)))
            } else if let Some(screen) = key.strip_prefix(SHOWN) {
                let read = serde_json::from_str(json).map_err(|why| why.to_string());
                read.map(|read| drop(held.shown.insert(screen.to_owned(), read)))
            } else {
                let read = Draft::from_json(json).map_err(|why| why.to_string());
                read.map(|draft| held.drafts.push(draft))
            };
            if let Err(why) = read {
                damaged.push(Damage::of(Place::Draft(key.clone()), why));
            }
        }
        (held, damaged)
    }
}

/// What the settings hold.
#[derive(Default)]
struct SettingsFound {
    settings: Settings,
    /// What begins this device's marks, as older versions keep it.
    sign: Option<String>,
    /// This device's identity, as text.
    device: Option<String>,
}

impl SettingsFound {
    /// What can't be read is left where it is, and listed; what is supplied stands for it meanwhile.
    fn of(found: &TextsFound) -> (Self, Vec<Damage>) {
        let (mut read, mut damaged) = (Self::default(), found.damaged.clone());
        for (key, json) in &found.texts {
            let place = || Place::Setting(key.clone());
            match key.as_str() {
                "settings" => {
                    let (settings, wrong) = Settings::read(json);
                    read.settings = settings;
                    damaged.extend(wrong.into_iter().map(|why| Damage::of(place(), why)));
                }
                SIGN => match serde_json::from_str(json) {
                    Ok(sign) => read.sign = Some(sign),
                    Err(why) => damaged.push(Damage::of(place(), why.to_string())),
                },
                DEVICE => {
                    if let Err(why) = serde_json::from_str::<Device>(json) {
                        damaged.push(Damage::of(place(), why.to_string()));
                    }
                    read.device = Some(json.clone());
                }
                key if key.starts_with(ASIDE) => {
                    let why = "it was kept aside, for it could not be read";
                    damaged.push(Damage::of(place(), why));
                }
                _ => {}
            }
        }
        (read, damaged)
    }
}

/// All that the store holds.
#[derive(Default)]
struct Read {
    settings: SettingsFound,
    held: Held,
    damaged: Vec<Damage>,
    trouble: Option<String>,
}

impl Read {
    /// Each part for itself: one that can't be read does not hide the others.
    async fn of(store: &Store) -> Self {
        let mut read = Self::default();
        match store.read_settings().await {
            Ok(found) => {
                let (settings, damaged) = SettingsFound::of(&found);
                read.settings = settings;
                read.damaged.extend(damaged);
            }
            Err(why) => read.trouble = Some(why.to_string()),
        }
        match store.read_drafts().await {
            Ok(found) => {
                let (held, damaged) = Held::of(&found);
                read.held = held;
                read.damaged.extend(damaged);
            }
            Err(why) => read.trouble = Some(why.to_string()),
        }
        for damage in &read.damaged {
            store.can_not_read(&damage.place);
        }
        read
    }
}

/// Opens the store, reads the record, and returns the state for the first screen.
pub(crate) async fn start() -> App {
    let demo = demo_is_open();
    let (store, mut trouble) = match open_store(demo).await {
        Ok(store) => (Some(store), None),
        Err(why) => (None, Some(why.to_string())),
    };
    let mut read = match &store {
        Some(store) => Read::of(store).await,
        None => Read::default(),
    };
    trouble = trouble.or(read.trouble.take());
    // An identity that could not be read is not written over: this window has one of its own then.
    let place = store.as_ref().filter(|_| trouble.is_none());
    let (seen, sign) = (read.settings.device.as_deref(), read.settings.sign.take());
    let mut settled = identity::settle(place, seen, sign.clone(), !demo).await;
    if let Err(why) = &settled {
        trouble = Some(why.to_string());
        settled = identity::settle(None, None, sign, false).await;
    }
    let (device, notice) = match settled {
        Ok(identity) => (identity.device, identity.notice),
        Err(why) => (Device::nobody(), Some(why.to_string())),
    };
    let mut record = Record::new(device, store.clone());
    if let Some(store) = &store {
        let each = |pages: Pages| {
            record.take_some_in(&pages, true);
        };
        if let Err(why) = store.read_each(each).await {
            trouble = Some(why.to_string());
        }
        record.fold();
    }
    record.note_damage(read.damaged);
    let empty = record.log().is_empty();
    let app = App::new(record, read.settings.settings, follow_address());
    app.demo.set(demo);
    app.drafts.set(read.held.drafts);
    app.forms.set(read.held.forms);
    app.shown.set_value(read.held.shown);
    app.identity_notice.set(notice);
    if trouble.is_none()
        && let Err(why) = app.look_for_a_twin().await
    {
        trouble = Some(why.to_string());
    }
    if let Some(why) = trouble {
        app.saving.set(Saving::Failed(why));
    }
    // Where nothing is left a second copy may have all of it: the first screen waits for that.
    if empty && let Err(why) = app.take_second_copy().await {
        app.say(format!(
            "The second copy of the record can't be read: {why}"
        ));
    }
    if demo && app.record.with_value(|record| record.log().is_empty()) {
        load_demo(app).await;
    }
    after_start(app, store);
    app
}

/// What can wait until the first screen stands.
fn after_start(app: App, store: Option<Store>) {
    let channel = Channel::open(move |hint| match hint {
        Hint::Written(_) | Hint::Returned => app.catch_up(),
    });
    CHANNEL.set(Some(channel));
    if let Some(store) = store {
        store.watch_loss(move || app.catch_up());
        store.watch_drafts(move |kept| {
            if kept == Err(StoreError::Emptied) {
                // It is written again with all else.
                return app.catch_up();
            }
            let trouble = kept.err().map(|why| why.to_string());
            // Told after every key: the page hears of it only when it has changed.
            if app
                .draft_trouble
                .with_untracked(|before| *before != trouble)
            {
                app.draft_trouble.set(trouble);
            }
        });
        spawn_local(async move {
            if let Err(why) = app.take_second_copy().await {
                app.say(format!(
                    "The second copy of the record can't be read: {why}"
                ));
            }
            app.gather().await;
        });
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
            match stillwood_core::record::read(&bytes, &Default::default()) {
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
            let kept = match settings.to_json() {
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
}
