//! What the app knows: the record, what is half typed, the device's settings, and what stands on the screen.

use crate::effect::AfterRecorded;
use crate::form::{FormId, OpenForm};
use crate::record::Record;
use crate::route::Route;
use crate::settings::Settings;
use crate::starts::Starts;
use crate::words::{Words, dates, words_of};
use crate::{blanks, book, racks, today, yard};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use stillwood_core::quantity::Derivation;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Context, Draft, Id, KeptElsewhere, State, date};

/// Texts by the names of their fields, as a half-typed form keeps them.
pub type Texts = BTreeMap<String, String>;

/// A form as it was left half typed. Its shape is kept on devices: it does not change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HalfTyped {
    /// The address of its screen.
    pub at: String,
    /// What it is, in words; empty for one that is no news to anybody.
    pub words: String,
    /// What a bare number stood for.
    pub units: Units,
    /// What stands in its fields.
    pub texts: Texts,
}

/// What the clock says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Now {
    /// The day, as `2026-11-29`.
    pub day: String,
    /// With the time and its offset (RFC 3339): a remark.
    pub at: String,
    /// Milliseconds since 1970.
    pub millis: u64,
}

impl Now {
    /// The day. A clock that says none is taken for the first day of all.
    pub fn date(&self) -> NaiveDate {
        date(&self.day).unwrap_or_default()
    }
}

/// How the saving stands.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Saving {
    /// Everything acknowledged is kept.
    #[default]
    Saved,
    /// A write is under way.
    Busy,
    /// Something is in memory only, and why.
    Failed(String),
    /// It is in memory only, and is being written once more.
    Again(String),
}

/// A word on what was done, with its undoing.
#[derive(Debug, Clone, Default)]
pub struct Toast {
    /// What was done.
    pub text: String,
    /// The entries that "Undo" deletes, with what each is about.
    pub undo: Vec<(Id, Id)>,
    /// What comes back with them.
    pub after: AfterRecorded,
    /// The form that it was typed into, by its key: it opens again.
    pub form: Option<(String, HalfTyped)>,
    /// It goes by itself when its turn is over.
    pub turn: u32,
}

/// A number that was asked how it was worked out.
#[derive(Debug, Clone)]
pub struct Explained {
    /// What it is.
    pub name: String,
    /// As it is shown.
    pub figure: String,
    /// How it was worked out.
    pub derivation: Derivation,
}

/// What lies over the screen and waits for an answer.
#[derive(Debug, Clone)]
pub enum Dialog {
    /// How a number was worked out.
    Explained(Box<Explained>),
    /// A question that is answered with yes or no.
    Ask {
        /// The question.
        question: String,
        /// What the key says that does it.
        yes: String,
        /// What it does.
        action: Box<crate::Action>,
    },
}

/// What the shell says of the device and its store.
#[derive(Debug, Clone, Default)]
pub struct Shell {
    /// The window is wide: a laptop's.
    pub wide: bool,
    /// How the saving stands.
    pub saving: Saving,
    /// A half-typed plank or form could not be kept, and why.
    pub draft_trouble: Option<String>,
    /// A newer version waits.
    pub new_version: bool,
    /// A word on the offline copy.
    pub offline: Option<String>,
    /// The sample workshop is open in place of the maker's own record.
    pub sample: bool,
    /// The store was emptied from outside, and was written again.
    pub emptied: bool,
    /// This device has taken a new name, and why.
    pub identity_notice: Option<String>,
    /// What is kept elsewhere too; none until it is read.
    pub kept: Option<KeptElsewhere>,
    /// The platform can hand files to other programs.
    pub can_share: bool,
    /// The platform can read a code out of a picture.
    pub can_read_codes: bool,
    /// The languages that the browser is set to, the best first, as `de-AT`.
    pub languages: Vec<String>,
    /// On this platform the app is to be installed before the first entry: a tab may be cleared.
    pub install_first: bool,
    /// The first screen is not painted yet: what takes long to work out follows it.
    pub starting: bool,
    /// Only these regions of the screen are drawn: no other changes, or the others follow.
    pub draws_alone: Option<&'static [&'static str]>,
    /// The page is being printed: lists are drawn to their end.
    pub printing: bool,
    /// The app's version.
    pub version: String,
    /// How the store stands.
    pub storage: book::Storage,
}

impl Shell {
    /// Whether something is in memory only: it would go with the window.
    pub fn is_unsaved(&self) -> bool {
        matches!(self.saving, Saving::Failed(_) | Saving::Again(_))
    }
}

/// What the app knows.
pub struct Model {
    /// The record.
    pub record: Record,
    /// The device's settings.
    pub settings: Settings,
    /// Half-typed planks.
    pub drafts: Vec<Draft>,
    /// Half-typed forms, by their keys.
    pub forms: BTreeMap<String, HalfTyped>,
    /// What was chosen to be shown, screen by screen.
    pub shown: BTreeMap<String, Texts>,
    /// The screen.
    pub route: Route,
    /// The form that stands open on it.
    pub form: Option<OpenForm>,
    /// The half-typed form that the screen is to open.
    pub go_on: Option<FormId>,
    /// What the clock says.
    pub now: Now,
    /// What the shell says.
    pub shell: Shell,
    /// A word on what was done.
    pub toast: Option<Toast>,
    /// How many were shown.
    pub toast_turn: u32,
    /// What waits for an answer.
    pub dialog: Option<Dialog>,
    /// Random bytes of the shell's, for new ids; each is used once.
    pub random: Vec<[u8; 10]>,
    /// The searches for the planks to start.
    pub starts: Starts,
    /// Today's own.
    pub today: today::Local,
    /// The yard's own.
    pub yard: yard::Local,
    /// The racks' own.
    pub racks: racks::Local,
    /// The blanks' own.
    pub blanks: blanks::Local,
    /// The book's own.
    pub book: book::Local,
}

impl Model {
    /// At the start, over a record that was read.
    pub fn new(record: Record, settings: Settings, now: Now) -> Self {
        Self {
            record,
            settings,
            drafts: Vec::new(),
            forms: BTreeMap::new(),
            shown: BTreeMap::new(),
            route: Route::Today,
            form: None,
            go_on: None,
            now,
            shell: Shell::default(),
            toast: None,
            toast_turn: 0,
            dialog: None,
            random: Vec::new(),
            starts: Starts::default(),
            today: today::Local::default(),
            yard: yard::Local::default(),
            racks: racks::Local::default(),
            blanks: blanks::Local::default(),
            book: book::Local::default(),
        }
    }

    /// What the record says.
    pub fn state(&self) -> &State {
        self.record.state()
    }

    /// What was chosen to be shown on a screen; empty where nothing was.
    pub fn chosen(&self, screen: &str, name: &str) -> &str {
        let shown = self.shown.get(screen).and_then(|texts| texts.get(name));
        shown.map_or("", String::as_str)
    }

    /// A day as a maker writes it.
    pub fn day(&self, on: NaiveDate) -> String {
        dates::day(self.words(), on, self.now.date())
    }

    /// A day that is kept as a text, as a maker writes it; what is no day stays as it is.
    pub fn day_kept(&self, on: &str) -> String {
        date(on).map_or_else(|| on.to_owned(), |on| self.day(on))
    }

    /// What queries and commands are asked with.
    pub fn context(&self) -> Context<'_> {
        Context {
            state: self.record.state(),
            today: self.now.date(),
            instruments: &self.settings.instruments,
        }
    }

    /// The units that a bare number stands for.
    pub fn units(&self) -> Units {
        self.settings.units
    }

    /// The words of the language.
    pub fn words(&self) -> &'static Words {
        words_of(self.settings.language)
    }

    /// A new id; none where the shell has no random numbers.
    pub fn new_id(&mut self) -> Option<Id> {
        let random = self.random.pop()?;
        Some(Id::version_7(self.now.millis, &random))
    }
}
