//! Files in and out, long work beside the page, and what the store and the offline copy have to say: carried out, and
//! told to the app.

use crate::app::App;
use crate::page::told;
use crate::shell::background_worker::{BackgroundWorker, serve};
use crate::shell::code_reader;
use crate::shell::files_in::{self, FileInError, Incoming};
use crate::shell::files_out::{Parcel, Pieces, ShareEnd, download};
use crate::shell::platform;
use crate::shell::store::{Persistence, ask_to_persist, bytes_used, persisted};
use crate::shell::worker::Checked;
use serde_wasm_bindgen::{from_value, to_value};
use stillwood_app::Action;
use stillwood_app::book::imports::Import;
use stillwood_app::book::incoming::Action as IncomingAction;
use stillwood_app::book::settings::Action as SettingsAction;
use stillwood_app::book::share::Action as ShareAction;
use stillwood_app::book::{self, BringIn, Came, VersionFound};
use stillwood_app::effect::{FileContent, FileMade};
use stillwood_app::today;
use stillwood_app::work::{Answer, Job, work, work_telling};
use stillwood_core::record::{HandedWay, HandingEnd};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Event, File, HtmlInputElement};

/// Where a record stands among the files.
const JSON: &str = "application/json";
/// What the settings that hold imports begin with.
pub(crate) const IMPORT: &str = "import/";

/// Where an import stands among the settings.
fn import_key(import: &Import) -> String {
    format!("{IMPORT}{}", import.id)
}

/// In the background worker: does every job that it is sent, telling how far it is.
pub(crate) fn work_in_the_background() {
    serve(|job, tell| {
        let told = |answer: &Answer| match to_value(answer) {
            Ok(answer) => tell(&answer),
            // nothing lost: the page takes what it can't read for a breakdown, and says so
            Err(_) => tell(&JsValue::UNDEFINED),
        };
        match from_value::<Job>(job) {
            Ok(job) => {
                let last = work_telling(&job, told);
                told(&last);
            }
            // nothing lost: the same
            Err(_) => tell(&JsValue::UNDEFINED),
        }
    });
}

/// A field of the page's kind for files, which stands in no page.
fn field_for_files(kinds: &str) -> Option<HtmlInputElement> {
    let document = web_sys::window()?.document()?;
    // nothing lost: every browser makes a field
    let field = document.create_element("input").ok()?;
    // nothing lost: the same
    let field: HtmlInputElement = field.dyn_into().ok()?;
    field.set_type("file");
    field.set_accept(kinds);
    Some(field)
}

impl App {
    /// A file of the record as it is handed over.
    fn parcel(&self, file: &FileMade) -> Result<Parcel, String> {
        let mut pieces = Pieces::default();
        match &file.content {
            FileContent::Bytes(bytes) => pieces.push(&String::from_utf8_lossy(bytes)),
            FileContent::Written => pieces = self.keeping(|keeping| keeping.file_out.clone()),
        }
        let stem = file.name.trim_end_matches(".json");
        Parcel::json(stem, pieces).map_err(|why| why.to_string())
    }

    fn book(&self, action: impl Into<Action>) {
        self.act(action.into());
    }

    /// Gives a file to the browser's downloads.
    pub(crate) fn download(&self, file: &FileMade) {
        let done = if file.kind == JSON {
            self.parcel(file)
                .and_then(|parcel| parcel.download().map_err(|why| why.to_string()))
        } else {
            let text = String::from_utf8_lossy(file.bytes());
            download(&file.name, &text, file.kind).map_err(|why| why.to_string())
        };
        let end = match &done {
            Ok(()) => HandingEnd::Done(HandedWay::Saved),
            // nothing lost: why follows
            Err(_) => HandingEnd::Failed,
        };
        // nothing lost: where it was done there is nothing to say
        self.book(ShareAction::HandedOver(end, done.err().unwrap_or_default()));
    }

    /// Offers a file to other programs of the device. It is called in the press itself, as browsers want it.
    pub(crate) fn share(&self, file: &FileMade) {
        let parcel = match self.parcel(file) {
            Ok(parcel) => parcel,
            Err(why) => return self.book(ShareAction::HandedOver(HandingEnd::Failed, why)),
        };
        let ended = parcel.share();
        let app = self.clone();
        spawn_local(async move {
            let (end, why) = match ended.await {
                ShareEnd::Shared => (HandingEnd::Done(HandedWay::Shared), String::new()),
                ShareEnd::Cancelled => (HandingEnd::Cancelled, String::new()),
                ShareEnd::Failed(why) => (HandingEnd::Failed, why),
            };
            app.book(ShareAction::HandedOver(end, why));
        });
    }

    /// Asks the maker for files.
    pub(crate) fn ask_for_file(&self) {
        let Some(input) = field_for_files(".json,.txt,application/json,text/plain") else {
            return;
        };
        input.set_multiple(true);
        self.once_chosen(&input, |app, files| app.take_files(files));
    }

    /// Has a picture taken and reads the code in it.
    pub(crate) fn read_label(&self) {
        let Some(input) = field_for_files("image/*") else {
            return;
        };
        // The camera behind the screen, where the device has one.
        told(input.set_attribute("capture", "environment"));
        self.once_chosen(&input, |app, files| {
            let Some(picture) = files.into_iter().next() else {
                return;
            };
            spawn_local(async move {
                match code_reader::read(&picture).await {
                    Ok(found) => app.act(Action::Today(today::Action::LabelRead(found))),
                    Err(why) => app.say(why),
                }
            });
        });
    }

    fn once_chosen(&self, input: &HtmlInputElement, take: impl FnOnce(Self, Vec<File>) + 'static) {
        let (app, field) = (self.clone(), input.clone());
        let chosen = Closure::once_into_js(move |_: Event| take(app, files_in::chosen(&field)));
        input.set_onchange(Some(chosen.unchecked_ref()));
        input.click();
    }

    /// Reads files one after the other and puts them before the maker.
    pub(crate) fn take_files(&self, files: Vec<File>) {
        let app = self.clone();
        spawn_local(async move {
            for file in files {
                let read = files_in::read(&file).await;
                app.took(read);
            }
        });
    }

    fn took(&self, read: Result<Incoming, FileInError>) {
        match read {
            Ok(Incoming { name, bytes, came }) => {
                let came = match came {
                    files_in::Came::ByHand => Came::ByHand,
                    files_in::Came::FromApp => Came::FromApp,
                    files_in::Came::FromUnknown => Came::FromUnknown,
                    files_in::Came::FromHere => Came::FromHere,
                };
                self.act(Action::Book(book::Action::FileRead { name, bytes, came }));
            }
            Err(why) => self.say(why.to_string()),
        }
    }

    /// Listens for files that are opened with the app, and takes those that were shared to it.
    pub(crate) fn listen_for_files(&self) {
        let app = self.clone();
        files_in::on_opened_with(move |opened| match opened {
            Ok(files) => app.take_files(files),
            Err(why) => app.say(why.to_string()),
        });
        if files_in::opened_by_share() {
            let app = self.clone();
            spawn_local(async move {
                let shared = files_in::take_shared().await;
                let none_read = shared.files.is_empty();
                shared.files.into_iter().for_each(|file| app.took(Ok(file)));
                let why: Vec<String> = shared.not_read.iter().map(ToString::to_string).collect();
                match (none_read, shared.stay) {
                    _ if why.is_empty() => {}
                    (true, stay) if !stay.is_empty() => app.act(Action::SharedUnread(why, stay)),
                    // Over the files that were read nothing is asked: what stays is told of again.
                    _ => app.say(why.join(" ")),
                }
            });
        }
    }

    /// Writes the entries of a file down, all or none, with their place in the list of imports; tells how far it is,
    /// and can be stopped until all are written.
    pub(crate) async fn bring_in_file(&self, bring: BringIn) {
        self.keeping(|keeping| keeping.stops_bringing_in = false);
        let BringIn {
            file,
            entries,
            import,
        } = bring;
        // The list first: an import that can't be undone is worse than one that brought nothing.
        if let (Some(import), Some(store)) = (&import, self.store()) {
            let kept = match serde_json::to_string(import) {
                Ok(json) => {
                    let put = store.put_setting(&import_key(import), &json).await;
                    put.map_err(|why| why.to_string())
                }
                Err(why) => Err(why.to_string()),
            };
            if let Err(why) = kept {
                self.book(IncomingAction::Stopped(file, entries));
                return self.say(why);
            }
        }
        let goes_on = |written: usize| {
            self.book(IncomingAction::Progress(file, written, entries.len()));
            !self.keeping(|keeping| keeping.stops_bringing_in)
        };
        let trouble = match self.append_foreign(&entries, goes_on).await {
            Ok(true) => String::new(),
            Ok(false) => {
                self.take_off_the_list(import.as_ref()).await;
                return self.book(IncomingAction::Stopped(file, entries));
            }
            Err(why) => why,
        };
        self.book(IncomingAction::BroughtIn {
            file,
            entries,
            import: import.map(Box::new),
            trouble,
        });
    }

    /// An import that was stopped brought nothing: its place in the list goes.
    async fn take_off_the_list(&self, import: Option<&Import>) {
        if let (Some(import), Some(store)) = (import, self.store())
            && let Err(why) = store.remove_setting(&import_key(import)).await
        {
            self.say(why.to_string());
        }
    }

    /// Tells how the store stands.
    pub(crate) fn tell_storage(&self) {
        let app = self.clone();
        spawn_local(async move {
            let persistence = persisted().await;
            let used = bytes_used().await;
            app.told_storage(persistence, used);
        });
    }

    fn told_storage(&self, persistence: Persistence, used: Option<f64>) {
        let mut storage = self.model(|model| model.shell.storage.clone());
        storage.persistence = match persistence {
            Persistence::Granted => book::Persistence::Granted,
            Persistence::NotGranted => book::Persistence::NotGranted,
            Persistence::Unknown => book::Persistence::Unknown,
        };
        storage.used_megabytes = used.map(|bytes| bytes / 1e6);
        storage.damaged =
            self.keeping(|keeping| keeping.damage.keys().map(ToString::to_string).collect());
        self.book(SettingsAction::Stored(storage));
    }

    /// Asks the browser to keep the record.
    pub(crate) fn ask_to_keep(&self) {
        let app = self.clone();
        spawn_local(async move {
            let persistence = ask_to_persist().await;
            let used = app.model(|model| model.shell.storage.used_megabytes.map(|used| used * 1e6));
            app.told_storage(persistence, used);
        });
    }

    /// Looks for a newer version, and tells what was found.
    pub(crate) fn look_for_new_version(&self) {
        let app = self.clone();
        spawn_local(async move {
            let bridge = app.keeping(|keeping| keeping.bridge.clone());
            let Some(bridge) = bridge else { return };
            let found = match bridge.check_now().await {
                Ok(Checked::UpToDate) => Some(VersionFound::UpToDate),
                Ok(Checked::Coming) => Some(VersionFound::Coming),
                Ok(Checked::Ready) => Some(VersionFound::Ready),
                Ok(Checked::NoWorker) => Some(VersionFound::NoOfflineCopy),
                // nothing lost: it is told that there is no network
                Err(_) if !platform::has_network() => Some(VersionFound::NoNetwork),
                Err(why) => {
                    app.say(why.to_string());
                    None
                }
            };
            let mut storage = app.model(|model| model.shell.storage.clone());
            storage.version_found = found;
            app.book(SettingsAction::Stored(storage));
        });
    }

    /// Works something long out beside the page; where the browser has no such workers, here and at
    /// once.
    pub(crate) fn work(&self, job: Job) {
        let broke_down = job.broke_down();
        let app = self.clone();
        let hear = move |answer: Option<JsValue>| {
            // nothing lost: what can't be read is told as a breakdown
            let answer = answer.and_then(|answer| from_value(answer).ok());
            app.act(Action::WorkDone(
                // nothing lost: the same
                answer.unwrap_or_else(|| broke_down.clone()),
            ));
        };
        let started = to_value(&job)
            // nothing lost: then it is worked out here
            .ok()
            .and_then(|job| BackgroundWorker::start(job, hear));
        match started {
            Some(worker) => self.keeping(|keeping| keeping.working = Some(worker)),
            None => {
                self.act(Action::WorkDone(work(&job)));
            }
        }
    }
}
