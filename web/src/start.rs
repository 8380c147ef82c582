//! The start: the store is opened, the record read and folded, and the first screen drawn. Whatever fails on the
//! way, the app opens and says what it can't do.

use crate::app::{App, Keeping};
use crate::files::IMPORT;
use crate::identity::{self, DEVICE, Device, SIGN};
use crate::kept_elsewhere::KEPT;
use crate::listeners;
use crate::shell::channel::{Channel, Hint};
use crate::shell::platform::warn;
use crate::shell::store::{
    ASIDE, Damage, Pages, Place, SAMPLE, Store, StoreError, TextsFound, name_and_message,
};
use crate::shell::worker::{Bridge, News};
use crate::shell::{clock, code_reader, platform, second_copy, timer};
use std::collections::BTreeMap;
use stillwood_app::book;
use stillwood_app::form::FORM;
use stillwood_app::model::{HalfTyped, Now, Saving, Texts};
use stillwood_app::record::Record;
use stillwood_app::settings::Settings;
use stillwood_app::{Action, Model};
use stillwood_core::record::Draft;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// Its file, which the build lays beside the app.
const SAMPLE_FILE: &str = "./demo-data/two-yards.json";
/// What stands before the key of what was chosen on a screen.
const SHOWN: &str = "shown/";

fn kept_for_all_windows() -> Option<web_sys::Storage> {
    // nothing lost: where it is refused there is none
    web_sys::window().and_then(|window| window.local_storage().ok().flatten())
}

fn sample_is_open() -> bool {
    // nothing lost: then it is the maker's own record that is opened
    let item = kept_for_all_windows().and_then(|keep| keep.get_item("demo").ok().flatten());
    item.is_some()
}

/// Loads the page anew: what is in memory goes.
pub(crate) fn load_anew() {
    if let Some(window) = web_sys::window() {
        let done = window
            .location()
            .replace("#/")
            .and_then(|()| window.location().reload());
        if let Err(why) = done {
            warn(&format!("could not start anew: {why:?}"));
        }
    }
}

/// Opens the sample workshop in place of the maker's own record, or closes it, and starts anew.
///
/// # Errors
/// Where the browser does not keep which of the two is open.
pub(crate) fn open_sample(open: bool) -> Result<(), String> {
    let done = kept_for_all_windows().map(|keep| match open {
        true => keep.set_item("demo", "open"),
        false => keep.remove_item("demo"),
    });
    if !matches!(done, Some(Ok(()))) {
        return Err(
            "This browser does not keep which workshop is open: the sample can't be opened or closed here."
                .to_owned(),
        );
    }
    spawn_local(async move {
        if !open {
            close_sample().await;
        }
        load_anew();
    });
    Ok(())
}

/// The sample's own database goes, and its second copy; the maker's are others.
async fn close_sample() {
    if let Err(why) = second_copy::discard(second_copy::OF_SAMPLE).await {
        warn(&format!("the sample's second copy stays: {why}"));
    }
    // nothing lost: where there is no database it is gone
    let factory = web_sys::window().and_then(|window| window.indexed_db().ok().flatten());
    let gone = factory.map(|factory| factory.delete_database(SAMPLE));
    if let Some(Err(why)) = gone {
        warn(&format!("the sample's database stays: {why:?}"));
    }
}

/// What the store keeps beside the record.
#[derive(Default)]
pub(crate) struct KeptTexts {
    pub(crate) drafts: Vec<Draft>,
    pub(crate) forms: BTreeMap<String, HalfTyped>,
    shown: BTreeMap<String, Texts>,
    settings: Settings,
    sign: Option<String>,
    device: Option<String>,
    /// What is kept elsewhere too, as it was noted.
    elsewhere: Option<String>,
    /// What was brought in from files.
    imports: Vec<String>,
    pub(crate) damaged: Vec<Damage>,
    trouble: Option<String>,
    /// What the settings hold is not known: the store would not give them.
    settings_unread: bool,
    /// What is half typed is not known.
    drafts_unread: bool,
}

impl KeptTexts {
    /// Each part for itself: one that can't be read does not hide the others.
    async fn of(store: &Store) -> Self {
        let mut read = Self::default();
        match store.read_settings().await {
            Ok(found) => read.take_settings(&found),
            Err(why) => {
                read.trouble = Some(why.to_string());
                read.settings_unread = true;
            }
        }
        match store.read_drafts().await {
            Ok(found) => read.take_drafts(&found),
            Err(why) => {
                read.trouble = Some(why.to_string());
                read.drafts_unread = true;
            }
        }
        for damage in &read.damaged {
            store.can_not_read(&damage.place);
        }
        read
    }

    /// By their keys; what can't be read is left where it is, and listed.
    pub(crate) fn take_drafts(&mut self, found: &TextsFound) {
        self.damaged.extend(found.damaged.clone());
        for (key, json) in &found.texts {
            let read = if key.starts_with(ASIDE) {
                Err("it was kept aside, for it could not be read".to_owned())
            } else if let Some(form) = key.strip_prefix(FORM) {
                let read = serde_json::from_str(json).map_err(|why| why.to_string());
                read.map(|read| drop(self.forms.insert(form.to_owned(), read)))
            } else if let Some(screen) = key.strip_prefix(SHOWN) {
                let read = serde_json::from_str(json).map_err(|why| why.to_string());
                read.map(|read| drop(self.shown.insert(screen.to_owned(), read)))
            } else {
                let read = Draft::from_json(json).map_err(|why| why.to_string());
                read.map(|draft| self.drafts.push(draft))
            };
            if let Err(why) = read {
                self.damaged
                    .push(Damage::of(Place::Draft(key.clone()), why));
            }
        }
    }

    /// What can't be read is left where it is, and listed; what is supplied stands for it meanwhile.
    fn take_settings(&mut self, found: &TextsFound) {
        self.damaged.extend(found.damaged.clone());
        for (key, json) in &found.texts {
            let place = || Place::Setting(key.clone());
            match key.as_str() {
                "settings" => {
                    let (settings, wrong) = Settings::read(json);
                    self.settings = settings;
                    self.damaged
                        .extend(wrong.into_iter().map(|why| Damage::of(place(), why)));
                }
                SIGN => match serde_json::from_str(json) {
                    Ok(sign) => self.sign = Some(sign),
                    Err(why) => self.damaged.push(Damage::of(place(), why.to_string())),
                },
                DEVICE => {
                    if let Err(why) = serde_json::from_str::<Device>(json) {
                        self.damaged.push(Damage::of(place(), why.to_string()));
                    }
                    self.device = Some(json.clone());
                }
                KEPT => self.elsewhere = Some(json.clone()),
                key if key.starts_with(IMPORT) => self.imports.push(json.clone()),
                key if key.starts_with(ASIDE) => {
                    let why = "it was kept aside, for it could not be read";
                    self.damaged.push(Damage::of(place(), why));
                }
                _ => {}
            }
        }
    }
}

/// The build, as the page names it.
fn build() -> String {
    let meta = web_sys::window()
        .and_then(|window| window.document())
        // nothing lost: the selector is written here
        .and_then(|document| document.query_selector("meta[name='build']").ok().flatten());
    meta.and_then(|meta| meta.get_attribute("content"))
        // nothing lost: a page without a build names none
        .unwrap_or_default()
}

/// Whether the platform hands files to other programs.
fn can_share() -> bool {
    let navigator = web_sys::window().map(|window| window.navigator());
    navigator.is_some_and(|navigator| {
        // nothing lost: then it is not offered
        js_sys::Reflect::has(&navigator, &"canShare".into()).unwrap_or(false)
    })
}

fn now() -> Now {
    let now = clock::now();
    Now {
        day: now.day,
        at: now.at,
        millis: now.millis,
    }
}

/// Opens the store, reads the record, and draws the first screen.
pub(crate) async fn start() {
    let sample = sample_is_open();
    let (store, mut trouble) = match Store::open_record(sample).await {
        Ok(store) => (Some(store), None),
        Err(why) => (None, Some(why.to_string())),
    };
    let mut read = match &store {
        Some(store) => KeptTexts::of(store).await,
        None => KeptTexts::default(),
    };
    trouble = trouble.or(read.trouble.take());
    // An identity that could not be read is not written over: this window has one of its own then.
    let place = store.as_ref().filter(|_| trouble.is_none());
    let mut settled =
        identity::settle(place, read.device.as_deref(), read.sign.clone(), !sample).await;
    if let Err(why) = &settled {
        trouble = Some(why.to_string());
        settled = identity::settle(None, None, read.sign.clone(), false).await;
    }
    let (device, notice) = match settled {
        Ok(identity) => (identity.device, identity.notice),
        Err(why) => (Device::nobody(), Some(why.to_string())),
    };
    let mut model = Model::new(Record::new(device.in_record()), read.settings, now());
    model.drafts = read.drafts;
    model.forms = read.forms;
    model.shown = read.shown;
    model.shell.sample = sample;
    model.shell.version = env!("CARGO_PKG_VERSION").to_owned();
    model.shell.storage.build = build();
    model.shell.can_share = can_share();
    model.shell.can_read_codes = code_reader::is_there();
    model.shell.languages = platform::languages();
    model.settings.speak(&model.shell.languages);
    model.shell.install_first = platform::is_ios() && !platform::is_installed();
    model.shell.identity_notice = notice;
    let keeping = Keeping {
        store: store.clone(),
        device: Some(device),
        start_anew: store.is_none() || read.settings_unread || read.drafts_unread,
        ..Keeping::default()
    };
    let app = App::new(model, keeping);
    if let Some(store) = &store {
        let each = |pages: Pages| {
            app.take_some_in(&pages, true);
        };
        if let Err(why) = store.read_each(each).await {
            trouble = Some(why.to_string());
        }
        app.change(|model| model.record.fold());
    }
    app.note_damage(read.damaged);
    let empty = app.record(|record| record.log().is_empty());
    if trouble.is_none()
        && let Err(why) = app.look_for_a_twin().await
    {
        trouble = Some(why.to_string());
    }
    if let Some(why) = trouble {
        app.change(|model| model.shell.saving = Saving::Failed(why));
    }
    // Where nothing is left a second copy may have all of it: the first screen waits for that.
    if empty && let Err(why) = app.take_second_copy().await {
        app.say(format!(
            "The second copy of the record can't be read: {why}"
        ));
    }
    if sample && app.record(|record| record.log().is_empty()) {
        load_sample(&app).await;
    }
    app.change(|model| model.shell.starting = true);
    // What could not be read stays unknown: it is not taken for nothing, and not written over.
    if !read.settings_unread {
        app.take_for_the_book(read.elsewhere.as_deref(), read.imports);
    }
    let Some(window) = web_sys::window() else {
        return;
    };
    // nothing lost: without the answer it is drawn as for a phone
    let wide = window.match_media("(min-width: 1024px)").ok().flatten();
    let wide = wide.is_some_and(|query| query.matches());
    app.change(|model| model.shell.wide = wide);
    app.act(Action::Shown(listeners::route(&window)));
    listeners::start(&app, &window);
    after_start(&app, store);
}

/// What can wait until the first screen stands.
fn after_start(app: &App, store: Option<Store>) {
    let hears = app.clone();
    let channel = Channel::open(move |hint| match hint {
        Hint::Written => hears.catch_up(),
        Hint::Returned => {
            // Another day may have begun while nobody looked.
            hears.act(Action::Clock(now()));
            hears.catch_up();
        }
    });
    app.keeping(|keeping| keeping.channel = Some(channel));
    if let Some(store) = store {
        let lost = app.clone();
        store.watch_loss(move || lost.catch_up());
        let kept_by = app.clone();
        store.watch_drafts(move |kept| {
            if kept == Err(StoreError::Emptied) {
                // It is written again with all else.
                return kept_by.catch_up();
            }
            let trouble = kept.err().map(|why| why.to_string());
            // Told after every key: the page hears of it only when it has changed.
            if kept_by.model(|model| model.shell.draft_trouble != trouble) {
                kept_by.act(Action::DraftTrouble(trouble));
            }
        });
    }
    let later = app.clone();
    spawn_local(async move {
        timer::painted().await;
        later.act(Action::Started);
        if let Err(why) = later.take_second_copy().await {
            later.say(format!(
                "The second copy of the record can't be read: {why}"
            ));
        }
        later.gather().await;
    });
    let news = app.clone();
    let bridge = Bridge::start("./sw.js", move |told| {
        news.change(|model| match told {
            News::ReadyOffline => {
                model.shell.offline = Some("Ready to work without a network.".into());
            }
            News::NewVersionReady => model.shell.new_version = true,
            News::NotInstalled(why) => model.shell.offline = Some(why.to_string()),
        });
        news.paint();
    });
    app.keeping(|keeping| keeping.bridge = Some(bridge));
    app.listen_for_files();
}

impl App {
    /// What is kept elsewhere, and what was brought in from files: the first screen tells of it.
    fn take_for_the_book(&self, elsewhere: Option<&str>, imports: Vec<String>) {
        let kept = match elsewhere {
            Some(json) => serde_json::from_str(json).map_err(|why| why.to_string()),
            None => Ok(self.model(|model| model.settings.kept_by_older_version())),
        };
        match kept {
            Ok(kept) => self.take_up(Action::Book(book::Action::Kept(kept))),
            // Nothing is taken for kept elsewhere that is not known to be.
            Err(why) => self.take_up(Action::Say(format!(
                "What is kept elsewhere can't be read ({why})."
            ))),
        }
        self.take_up(Action::Book(book::Action::ImportsRead(imports)));
    }
}

/// Reads the sample's file, which the build lays beside the app.
async fn load_sample(app: &App) {
    let Some(window) = web_sys::window() else {
        return;
    };
    let read = async {
        let answer = JsFuture::from(window.fetch_with_str(SAMPLE_FILE)).await?;
        let answer: web_sys::Response = answer.dyn_into()?;
        let status = answer.status();
        if !(200..300).contains(&status) {
            return Err(js_sys::Error::new(&format!("{status} {}", answer.status_text())).into());
        }
        JsFuture::from(answer.array_buffer()?).await
    };
    match read.await {
        Ok(bytes) => {
            let bytes = js_sys::Uint8Array::new(&bytes).to_vec();
            match stillwood_core::record::read(&bytes, &Default::default()) {
                Ok(reading) => {
                    if let Err(why) = app.bring_in(reading.accepted).await {
                        app.say(why);
                    }
                }
                Err(why) => app.say(why.to_string()),
            }
        }
        Err(why) => {
            let (name, message) = name_and_message(&why);
            app.say(format!("The sample can't be read: {name}: {message}"));
        }
    }
}
