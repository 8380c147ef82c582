//! The book: save and share, settings, quick questions, woods, track record, plan, cautions and sources.

pub mod about;
pub mod deleted;
pub mod file_out;
pub mod imports;
pub mod incoming;
mod incoming_cards;
pub mod kept_elsewhere;
pub mod last_visit;
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
mod update;
pub mod woods;
pub mod worked;

use crate::model::Texts;
use std::collections::BTreeSet;
use stillwood_core::record::{KeptElsewhere, NumberRanges};
pub use update::{opened, typed, update};

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
    /// The file of the whole record, while it is written.
    pub file_out: file_out::FileOut,
    /// The entries of the file that is being handed over.
    pub handing: Option<NumberRanges>,
    /// What is said of a file without entries once it is handed over; empty where nothing but that.
    pub said_of_file: String,
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
    /// With the file of the whole record, while it is written.
    FileOut(file_out::Action),
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
    FileOut file_out::Action;
    Incoming incoming::Action;
    Imports imports::Action;
    Settle settle::Action;
    Settings settings::Action;
    Ask questions::Action;
    Woods woods::Action;
}
