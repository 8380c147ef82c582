//! The book: save and share, settings, quick questions, woods, track record, plan, cautions and sources.

pub mod about;
pub mod deleted;
pub mod imports;
pub mod incoming;
mod incoming_cards;
pub mod own_wood;
pub mod parts;
pub mod place;
pub mod plan;
pub mod plan_ahead;
pub mod questions;
pub mod settings;
pub mod settle;
pub mod settle_cards;
pub mod share;
pub mod start;
pub mod track_record;
pub mod woods;
pub mod worked;

use crate::effect::Effect;
use crate::model::{Model, Texts};
use crate::route::Route;
use crate::update::say;
use std::collections::BTreeSet;
use stillwood_core::record::{KeptElsewhere, NumberRanges};

pub use imports::{Import, Imports};
pub use incoming::{BringIn, Came};
pub use settings::{Persistence, Storage, VersionFound};

/// What only the screens of the book know.
#[derive(Debug, Default)]
pub struct Local {
    /// Files that wait to be brought in, or to be left.
    pub incoming: Vec<incoming::Incoming>,
    /// What was said of the files that were brought in since the screen was opened.
    pub brought: Vec<String>,
    /// What was brought in on this device, file by file.
    pub imports: Imports,
    /// The entries of the file that is being handed over.
    pub handing: Option<NumberRanges>,
    /// The visit that is saved by itself; none is the latest.
    pub visit: Option<stillwood_core::record::Id>,
    /// The text chosen in each conflict.
    pub chosen_text: Vec<(stillwood_core::record::Id, usize)>,
    /// Lists that are shown in full.
    pub in_full: BTreeSet<&'static str>,
    /// The import that is about to be undone.
    pub undoing: Option<String>,
    /// What is typed into the fields of the settings.
    pub texts: Texts,
    /// What is asked under quick questions.
    pub questions: questions::Asking,
    /// The wood that is shown.
    pub wood: Option<String>,
    /// What takes a while to work out.
    pub worked: worked::Worked,
}

/// What may be done on the screens of the book.
#[derive(Debug, Clone)]
pub enum Action {
    /// Hand something over.
    Share(share::Action),
    /// With files that are brought in.
    Incoming(incoming::Action),
    /// With what was brought in.
    Imports(imports::Action),
    /// With what is to be settled.
    Settle(settle::Action),
    /// Put back what was deleted: what it took, by its place in the list.
    PutBack(stillwood_core::record::Id),
    /// Show a list in full, or not.
    InFull(&'static str),
    /// With the settings.
    Settings(settings::Action),
    /// With the quick questions.
    Ask(questions::Action),
    /// With the woods.
    Woods(woods::Action),
    /// Delete a wood of the maker's own.
    DeleteWood(stillwood_core::record::Id),
    /// A wood of the table was meant: none of one's own is added.
    Meant(String),

    /// Said by the shell: a file was chosen, dropped, shared or opened with the app, as the shell read it.
    FileRead {
        /// Its name.
        name: String,
        /// Its bytes.
        bytes: Vec<u8>,
        /// By which way it came.
        came: Came,
    },
    /// Said by the shell: what is kept elsewhere, as this device or another window of it has noted it.
    Kept(KeptElsewhere),
    /// Said by the shell: the imports of this device as they are kept, each as JSON.
    ImportsRead(Vec<String>),
}

macro_rules! into_action {
    ($($name:ident $of:path;)*) => {
        $(impl From<$of> for crate::Action {
            fn from(action: $of) -> Self {
                crate::Action::Book(Action::$name(action))
            }
        })*
    };
}

into_action! {
    Share share::Action;
    Incoming incoming::Action;
    Imports imports::Action;
    Settle settle::Action;
    Settings settings::Action;
    Ask questions::Action;
    Woods woods::Action;
}

/// What a screen does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    model.book.undoing = None;
    model.book.chosen_text.clear();
    model.book.in_full.clear();
    model.book.texts.clear();
    if model.route != Route::Share {
        model.book.brought.clear();
    }
    match model.route {
        Route::Settings => settings::opened(model),
        Route::NewWood => {
            own_wood::opened(model, None);
            Vec::new()
        }
        Route::EditWood(id) => {
            own_wood::opened(model, Some(id));
            Vec::new()
        }
        Route::Plan => {
            plan::opened(model);
            Vec::new()
        }
        _ => Vec::new(),
    }
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Share(action) => share::update(model, action),
        Action::Incoming(action) => incoming::update(model, action),
        Action::Imports(action) => imports::update(model, action),
        Action::Settle(action) => settle::update(model, action),
        Action::PutBack(id) => deleted::restore(model, id),
        Action::InFull(list) => {
            if !model.book.in_full.remove(list) {
                model.book.in_full.insert(list);
            }
            Vec::new()
        }
        Action::Settings(action) => settings::update(model, action),
        Action::Ask(action) => questions::update(model, action),
        Action::Woods(action) => woods::update(model, action),
        Action::DeleteWood(about) => {
            model.dialog = None;
            own_wood::delete_it(model, about)
        }
        Action::Meant(id) => own_wood::is_in_table(model, &id),
        Action::FileRead { name, bytes, came } => incoming::file_read(model, name, bytes, came),
        Action::Kept(read) => {
            // What another window has noted is joined to what this one knows.
            match &mut model.shell.kept {
                Some(known) => known.join(&read),
                None => model.shell.kept = Some(read),
            }
            Vec::new()
        }
        Action::ImportsRead(texts) => {
            model.book.imports = Imports::read(&texts);
            match model.book.imports.unread {
                0 => Vec::new(),
                unread => {
                    let words = &model.words().share;
                    let text = crate::words::count(
                        u64::try_from(unread).unwrap_or(u64::MAX),
                        words.unread_imports_one,
                        words.unread_imports_other,
                    );
                    say(model, text)
                }
            }
        }
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    match model.route {
        Route::Share => share::typed(model, name, &text),
        Route::Settings => settings::typed(model, name, text),
        Route::QuickQuestions => questions::typed(model, name, text),
        Route::Woods => woods::typed(model, name, text),
        Route::TrackRecord => start::typed(model, name, text),
        _ => Vec::new(),
    }
}
