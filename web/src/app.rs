//! What the shell holds: the model, what is kept of it and where, and the page. An action goes through the model,
//! is painted, and its effects are carried out.

use crate::first_frame;
use crate::identity::Device;
use crate::page::Painted;
use crate::shell::background_worker::BackgroundWorker;
use crate::shell::channel::Channel;
use crate::shell::clock;
use crate::shell::files_out::Pieces;
use crate::shell::store::{Damage, PageKey, Store};
use crate::shell::timer;
use crate::shell::worker::Bridge;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use stillwood_app::action::Changes;
use stillwood_app::effect::Effect;
use stillwood_app::model::Now;
use stillwood_app::record::Record;
use stillwood_app::words::Language;
use stillwood_app::{Action, Model, today, update, view};
use wasm_bindgen_futures::spawn_local;

/// Entries that the store refused, and the drafts that they came from, as long as nothing newer is typed there.
#[derive(Debug, Clone, Default)]
pub(crate) struct Unsaved {
    pub(crate) lines: String,
    pub(crate) drafts: BTreeSet<String>,
}

/// What the shell knows of where the record is kept.
#[derive(Default)]
pub(crate) struct Keeping {
    /// Where it is kept; none where this browser keeps nothing.
    pub(crate) store: Option<Store>,
    /// What is in memory only.
    pub(crate) unsaved: Unsaved,
    /// The start could not read the settings or what is half typed: another start has to, once all is kept.
    pub(crate) start_anew: bool,
    /// What can't be read, with its bytes where it is a line of a page: it is left as it is.
    pub(crate) damage: BTreeMap<Damage, Vec<u8>>,
    /// Pages worth gathering.
    pub(crate) small_pages: BTreeSet<PageKey>,
    /// This device.
    pub(crate) device: Option<Device>,
    /// The line to the other windows.
    pub(crate) channel: Option<Channel>,
    /// The hold on the service worker.
    pub(crate) bridge: Option<Bridge>,
    /// Settings of this window that are on their way to the store.
    pub(crate) settings_on_their_way: usize,
    /// The bringing in of a file is to be stopped.
    pub(crate) stops_bringing_in: bool,
    /// The file that is being written.
    pub(crate) file_out: Pieces,
    /// Work beside the page.
    pub(crate) working: Option<BackgroundWorker>,
}

struct Inner {
    model: RefCell<Model>,
    keeping: RefCell<Keeping>,
    painted: RefCell<Painted>,
    shows_start: Cell<Option<bool>>,
    /// How often a part of the screen was put into the page before the rest.
    turns: Cell<u64>,
    /// The turn after which the rest is still to follow.
    rest_is_owed: Cell<Option<u64>>,
    language: Cell<Option<Option<Language>>>,
}

/// The shell; as cheap to copy as a pointer.
#[derive(Clone)]
pub(crate) struct App(Rc<Inner>);

/// The rest of the screen follows its part when no key has come for so long, ms: typed quickly, the next key would
/// wait until the drawing of the one before is painted. A seventh of a second passes between the keys of a quick hand.
const REST_FOLLOWS_AFTER_MS: i32 = 90;

/// Ids that one action may need at most are drawn before it.
const RANDOM_AT_HAND: usize = 512;

impl App {
    pub(crate) fn new(model: Model, keeping: Keeping) -> Self {
        Self(Rc::new(Inner {
            model: RefCell::new(model),
            keeping: RefCell::new(keeping),
            painted: RefCell::new(Painted::default()),
            shows_start: Cell::new(None),
            turns: Cell::new(0),
            rest_is_owed: Cell::new(None),
            language: Cell::new(None),
        }))
    }

    /// Reads the model.
    pub(crate) fn model<T>(&self, read: impl FnOnce(&Model) -> T) -> T {
        read(&self.0.model.borrow())
    }

    /// Reads the record.
    pub(crate) fn record<T>(&self, read: impl FnOnce(&Record) -> T) -> T {
        self.model(|model| read(&model.record))
    }

    /// Changes the model from outside of an action: what is read, merged or told by the store.
    pub(crate) fn change<T>(&self, change: impl FnOnce(&mut Model) -> T) -> T {
        change(&mut self.0.model.borrow_mut())
    }

    /// Reads what is known of where it is kept.
    pub(crate) fn keeping<T>(&self, read: impl FnOnce(&mut Keeping) -> T) -> T {
        read(&mut self.0.keeping.borrow_mut())
    }

    /// Where the record is kept.
    pub(crate) fn store(&self) -> Option<Store> {
        self.keeping(|keeping| keeping.store.clone())
    }

    /// Whether the sample workshop is open.
    pub(crate) fn is_sample(&self) -> bool {
        self.model(|model| model.shell.sample)
    }

    /// Does an action: through the model, onto the page, then what follows from it.
    pub(crate) fn act(&self, action: Action) {
        self.answers(action);
    }

    /// Does an action and tells whether anything came of it.
    pub(crate) fn answers(&self, action: Action) -> bool {
        let changes = self.model(|model| action.changes(&model.route));
        let effects = self.updated(action);
        let differs = match changes {
            Changes::All => self.paint(),
            Changes::Alone(regions) => self.paint_alone(regions),
            Changes::First(regions) => {
                self.paint_the_rest_later();
                self.paint_alone(regions)
            }
        };
        let came_of_it = differs || !effects.is_empty();
        for effect in effects {
            self.carry_out(effect);
        }
        came_of_it
    }

    /// Does an action before the first screen: all but painting.
    pub(crate) fn take_up(&self, action: Action) {
        for effect in self.updated(action) {
            self.carry_out(effect);
        }
    }

    /// Puts an action through the model.
    fn updated(&self, action: Action) -> Vec<Effect> {
        let mut model = self.0.model.borrow_mut();
        let now = clock::now();
        model.now = Now {
            day: now.day,
            at: now.at,
            millis: now.millis,
        };
        // nothing lost: without random numbers no id is made, and the maker is told so
        if let Ok(fresh) = clock::random_for_ids(RANDOM_AT_HAND.saturating_sub(model.random.len()))
        {
            model.random.extend(fresh);
        }
        update(&mut model, action)
    }

    /// Puts the screen into the page: only the regions that differ. Whether any did.
    pub(crate) fn paint(&self) -> bool {
        self.0.rest_is_owed.set(None);
        let page = view(&self.0.model.borrow());
        let looks = self.model(|model| (model.settings.scheme, model.settings.left_hand));
        let shows_start = self.model(today::home::is_start);
        if self.0.shows_start.replace(Some(shows_start)) != Some(shows_start) {
            first_frame::note(shows_start);
        }
        let chosen = self.model(|model| model.settings.language_chosen);
        if self.0.language.replace(Some(chosen)) != Some(chosen) {
            first_frame::note_language(chosen);
        }
        self.0.painted.borrow_mut().put(page, looks)
    }

    /// The same for these regions, where no other differs, or the others follow.
    fn paint_alone(&self, regions: &'static [&'static str]) -> bool {
        let drawn = self.change(|model| view::regions(model, regions));
        let mut painted = self.0.painted.borrow_mut();
        drawn
            .into_iter()
            .fold(false, |differs, region| painted.put_alone(region) | differs)
    }

    /// Puts the whole screen into the page soon after its part, unless it is put there before, or the next key comes
    /// first: then it follows that one.
    fn paint_the_rest_later(&self) {
        let turn = self.0.turns.get().wrapping_add(1);
        self.0.turns.set(turn);
        self.0.rest_is_owed.set(Some(turn));
        let app = self.clone();
        spawn_local(async move {
            timer::sleep(REST_FOLLOWS_AFTER_MS).await;
            timer::next_frame().await;
            if app.0.rest_is_owed.get() == Some(turn) {
                app.paint();
            }
        });
    }

    /// What a press on the page does.
    pub(crate) fn pressed(&self, press: &str) -> Option<Action> {
        self.0.painted.borrow().action(press)
    }
}
