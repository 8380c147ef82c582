//! A shell without a browser: it carries out effects in memory, presses what stands on a screen and reads it. Tests
//! and the gallery use it.

use crate::action::Action;
use crate::effect::{Effect, FileContent, FileMade, MarkFor};
use crate::model::{Model, Now};
use crate::page::Page;
use crate::record::{Device, Record};
use crate::route::Route;
use crate::settings::Settings;
use crate::words::Language;
use crate::work::work;
use crate::{book, update, view, yard};
use std::cell::Cell;
use std::collections::BTreeMap;
use stillwood_core::record::{HandedWay, HandingEnd, Id, Limits, read};

/// The shell.
pub struct Desk {
    /// What the app knows.
    pub model: Model,
    /// The screens gone through, the one that is shown last.
    pub trail: Vec<Route>,
    /// What is half typed, as it is kept.
    pub kept: BTreeMap<String, String>,
    /// Settings, as they are kept.
    pub settings: BTreeMap<String, String>,
    /// Files that were handed out.
    pub files: Vec<FileMade>,
    /// Effects that only a browser can carry out, as they came.
    pub left: Vec<Effect>,
    /// Whether the next write is refused.
    pub refuses: bool,
    /// The milliseconds from one press to the next.
    pub pace: u64,
    /// How often something was pressed, or a key of a keyboard.
    pub presses: usize,
    /// Whether work beside the page, or in slices, is done at once; else it is left.
    pub works: bool,
    /// How files that are handed over end; none is well.
    pub handing_ends: Option<HandingEnd>,
    /// The file that is being written.
    written: String,
    counter: u128,
}

/// Something that can be pressed: what it says, and what it does.
#[derive(Debug, Clone)]
pub struct Pressable {
    /// What it says to the eye.
    pub says: String,
    /// What it says to the ear, where that is another thing.
    pub label: String,
    /// It can't be pressed.
    pub disabled: bool,
    /// What stands at it.
    pub press: String,
}

thread_local! {
    static NEW_DESKS_SPEAK: Cell<Language> = const { Cell::new(Language::English) };
}

impl Desk {
    /// From here on, desks that this thread makes speak a language.
    pub fn new_ones_speak(language: Language) {
        NEW_DESKS_SPEAK.set(language);
    }

    /// An empty record on a day.
    pub fn new(day: &str) -> Self {
        let device = Device {
            id: "K7-4R9WXHPE2A".to_owned(),
            sign: "K7".to_owned(),
        };
        let now = Now {
            day: day.to_owned(),
            at: format!("{day}T09:00:00+01:00"),
            millis: 1_762_000_000_000,
        };
        let mut settings = Settings::default();
        settings.language_chosen = Some(NEW_DESKS_SPEAK.get());
        settings.speak(&[]);
        let mut desk = Self {
            model: Model::new(Record::new(device), settings, now),
            trail: vec![Route::Today],
            kept: BTreeMap::new(),
            settings: BTreeMap::new(),
            files: Vec::new(),
            left: Vec::new(),
            refuses: false,
            pace: 1_000,
            presses: 0,
            works: true,
            handing_ends: None,
            written: String::new(),
            counter: 0,
        };
        desk.draw_random();
        desk
    }

    /// A record out of a file, on a day.
    ///
    /// # Errors
    /// If the file can't be read.
    pub fn with_file(bytes: &[u8], day: &str) -> Result<Self, String> {
        let mut desk = Self::new(day);
        let reading = read(bytes, &Limits::default()).map_err(|why| why.to_string())?;
        for entry in reading.accepted {
            desk.model.record.add(entry);
        }
        desk.model.record.fold();
        Ok(desk)
    }

    fn draw_random(&mut self) {
        while self.model.random.len() < 256 {
            self.counter += 1;
            let mut ten = [0; 10];
            ten.copy_from_slice(
                &self
                    .counter
                    .wrapping_mul(0x9e37_79b9_7f4a_7c15)
                    .to_be_bytes()[6..],
            );
            self.model.random.push(ten);
        }
    }

    /// Does an action, and all that follows from it.
    pub fn act(&mut self, action: impl Into<Action>) {
        self.draw_random();
        let effects = update(&mut self.model, action.into());
        for effect in effects {
            self.carry_out(effect);
        }
    }

    fn show(&mut self, route: Route) {
        self.act(Action::Shown(route));
    }

    /// Goes to a screen.
    pub fn go(&mut self, route: Route) {
        self.act(Action::Go(route));
    }

    fn carry_out(&mut self, effect: Effect) {
        match effect {
            Effect::Go(route) => {
                self.trail.push(route);
                self.show(route);
            }
            Effect::Replace(route) => {
                self.trail.pop();
                self.trail.push(route);
                self.show(route);
            }
            Effect::Back => {
                self.trail.pop();
                let route = self.trail.last().copied().unwrap_or(Route::Today);
                self.show(route);
            }
            Effect::Record { events, after } => {
                if self.refuses {
                    let why = "the device is full".to_owned();
                    return self.act(Action::NotRecorded { why, after });
                }
                self.draw_random();
                let ids: Vec<Id> = events.iter().filter_map(|_| self.model.new_id()).collect();
                let first = self.model.record.own_entries().1 + 1;
                let made = self
                    .model
                    .record
                    .entries(&events, &ids, &self.model.now, first);
                match made {
                    Ok(written) => {
                        let entries = written.into_iter().map(|one| one.entry().clone()).collect();
                        self.act(Action::Recorded { entries, after });
                    }
                    Err(why) => self.act(Action::NotRecorded { why, after }),
                }
            }
            Effect::TakeMark(wanted) => {
                if let MarkFor::Measuring(pile) = wanted
                    && let Some((piece, _)) = yard::left_empty(&self.model, pile).first()
                {
                    return self.act(Action::Go(Route::Measure(*piece)));
                }
                let taken: Vec<String> = self
                    .model
                    .drafts
                    .iter()
                    .map(|one| one.mark.clone())
                    .collect();
                let record = &self.model.record;
                let mark = record.log().next_mark(&record.device().sign, &taken);
                let mark = mark.map_or(String::new(), |mark| mark.to_string());
                self.act(Action::MarkTaken { wanted, mark });
            }
            Effect::KeepDraft(key, json) => drop(self.kept.insert(key, json)),
            Effect::RemoveDraft(key) => drop(self.kept.remove(&key)),
            Effect::KeepSetting(key, json) => drop(self.settings.insert(key.to_owned(), json)),
            Effect::Work(job) if self.works => self.act(Action::WorkDone(work(&job))),
            Effect::WritePiece(piece) => self.written.push_str(&piece),
            Effect::DropFile => self.written.clear(),
            Effect::Download(file) => {
                self.keep_file(file);
                self.hand_over(HandedWay::Saved);
            }
            Effect::Share(file) => {
                self.keep_file(file);
                self.hand_over(HandedWay::Shared);
            }
            Effect::BringIn(bring) => self.bring_in(*bring),
            // What would be done after a while is done at once where it goes on by itself.
            Effect::After(0, action) if self.works => self.act(*action),
            other => self.left.push(other),
        }
    }

    fn hand_over(&mut self, way: HandedWay) {
        let end = self.handing_ends.unwrap_or(HandingEnd::Done(way));
        self.act(book::share::Action::HandedOver(
            end,
            "the device is busy".to_owned(),
        ));
    }

    fn bring_in(&mut self, bring: book::BringIn) {
        let (file, entries) = (bring.file, bring.entries);
        if self.refuses {
            return self.act(book::incoming::Action::Stopped(file, entries));
        }
        self.act(book::incoming::Action::BroughtIn {
            file,
            entries,
            import: bring.import.map(Box::new),
            trouble: String::new(),
        });
    }

    /// A file as the shell reads it.
    pub fn open_file(&mut self, name: &str, bytes: &[u8]) {
        self.act(Action::Book(book::Action::FileRead {
            name: name.to_owned(),
            bytes: bytes.to_vec(),
            came: book::Came::ByHand,
        }));
    }

    /// The screen.
    pub fn page(&self) -> Page {
        view(&self.model)
    }

    /// All that can be pressed on the screen; where something lies over it, only what is in that.
    pub fn pressables(&self) -> Vec<Pressable> {
        let page = self.page();
        let over = self.model.dialog.is_some();
        let regions = page
            .regions
            .iter()
            .filter(|region| !over || region.id == "over");
        regions
            .flat_map(|region| pressables_in(&region.html))
            .collect()
    }

    /// Keeps a file as it was handed over.
    fn keep_file(&mut self, mut file: FileMade) {
        if file.content == FileContent::Written {
            file.content = FileContent::Bytes(self.written.clone().into_bytes());
        }
        self.files.push(file);
    }

    /// Presses what says this, by eye or ear: exactly, else what begins with it. False where nothing does. In
    /// another language than English, what says this in English is pressed too: what a key does is the same.
    pub fn press(&mut self, says: &str) -> bool {
        let found = self.press_of(says).or_else(|| {
            let spoken = std::mem::take(&mut self.model.settings.language);
            let found = self.press_of(says);
            self.model.settings.language = spoken;
            found
        });
        let Some(press) = found else {
            return false;
        };
        let action = self.page().action(&press).cloned();
        let Some(action) = action else { return false };
        self.presses += 1;
        self.model.now.millis += self.pace;
        self.act(action);
        true
    }

    /// What stands at the key that says this.
    fn press_of(&self, says: &str) -> Option<String> {
        let says = plain(says);
        let all = self.pressables();
        let can = |one: &&Pressable| !one.disabled;
        let found = all
            .iter()
            .filter(can)
            .find(|one| one.says == says || one.label == says);
        let begins = |one: &&Pressable| one.says.starts_with(&says) || one.label.starts_with(&says);
        let found = found.or_else(|| all.iter().filter(can).find(begins));
        found.map(|one| one.press.clone())
    }

    /// Types into a field of the page, by its name.
    pub fn type_into(&mut self, name: &str, text: &str) {
        self.act(Action::Typed(name.to_owned(), text.to_owned()));
    }

    /// The keys of a keyboard, one after the other.
    pub fn keys(&mut self, text: &str) {
        for sign in text.chars() {
            self.presses += 1;
            self.act(Action::Key(sign.to_string()));
        }
    }

    /// What stands on the screen, as text: a line an element.
    pub fn reads(&self) -> String {
        let page = self.page();
        let texts = page.regions.iter().map(|region| text_of(&region.html));
        texts
            .filter(|text| !text.is_empty())
            .collect::<Vec<_>>()
            .join("\n")
    }
}

/// What attributes say: names for the ear, and words that show when a pointer rests.
pub fn attributes_of(html: &str) -> Vec<String> {
    let tags = html.split('<').filter_map(|part| part.split_once('>'));
    let named = |(tag, _): (&str, &str)| {
        let names = ["aria-label", "title", "placeholder", "alt"];
        names.map(|name| attribute(tag, name))
    };
    tags.flat_map(named).flatten().collect()
}

/// The texts between tags, a line each, with entities as signs.
pub fn text_of(html: &str) -> String {
    let mut lines = Vec::new();
    let mut rest = html;
    loop {
        let (text, after) = rest.split_once('<').unwrap_or((rest, ""));
        let text = plain(text);
        if !text.trim().is_empty() {
            lines.push(text.trim().to_owned());
        }
        if after.is_empty() {
            return lines.join("\n");
        }
        rest = after.split_once('>').map_or("", |(_, after)| after);
    }
}

fn plain(text: &str) -> String {
    let text = text.replace("&lt;", "<").replace("&gt;", ">");
    let text = text.replace("&quot;", "\"").replace("&amp;", "&");
    // Where a line may end is not read.
    text.replace('\u{a0}', " ")
}

fn attribute(tag: &str, name: &str) -> Option<String> {
    let (_, after) = tag.split_once(&format!(" {name}=\""))?;
    after.split_once('"').map(|(value, _)| plain(value))
}

fn pressables_in(html: &str) -> Vec<Pressable> {
    let mut found = Vec::new();
    let mut rest = html;
    while let Some((_, after)) = rest.split_once('<') {
        let Some((tag, inside)) = after.split_once('>') else {
            break;
        };
        rest = inside;
        let Some(press) = attribute(tag, "data-press") else {
            continue;
        };
        let name = tag.split(' ').next().unwrap_or_default();
        let content = inside
            .split_once(&format!("</{name}>"))
            .map_or("", |(content, _)| content);
        found.push(Pressable {
            says: text_of(content).replace('\n', " "),
            label: attribute(tag, "aria-label").unwrap_or_default(),
            disabled: tag.ends_with(" disabled") || tag.contains(" disabled "),
            press,
        });
    }
    found
}
