//! What the shell is to carry out. It decides nothing: whatever follows from an effect comes back as an action.

use crate::action::Action;
use crate::route::Route;
use stillwood_core::record::{Draft, Id};

pub use stillwood_core::record::NewEvent;

/// What follows once what was recorded is kept.
#[derive(Debug, Clone, Default)]
pub struct AfterRecorded {
    /// What is said.
    pub said: String,
    /// The screen to go to, in place of this one.
    pub go: Option<Route>,
    /// The half-typed plank that it came from: it goes with it, and comes back with an undo.
    pub draft: Option<Box<Draft>>,
    /// The form that it came from: it goes with it, and stands open again with an undo.
    pub form: Option<String>,
    /// What is done next.
    pub next: Option<Box<Action>>,
}

/// What the shell is to carry out.
#[derive(Debug, Clone)]
pub enum Effect {
    /// Make entries, write them, and only then say so: [`Action::Recorded`] or [`Action::NotRecorded`] follows.
    Record {
        /// What is to be written down, in one transaction.
        events: Vec<NewEvent>,
        /// What follows.
        after: AfterRecorded,
    },
    /// Keep something half typed or chosen under a key, as JSON.
    KeepDraft(String, String),
    /// Let it go.
    RemoveDraft(String),
    /// Keep a setting, as JSON.
    KeepSetting(&'static str, String),
    /// Take the next free mark of this device, asking other windows: [`Action::MarkTaken`] follows.
    TakeMark(MarkFor),
    /// Go to a screen, as a step that the back key undoes.
    Go(Route),
    /// Go to a screen in place of this one.
    Replace(Route),
    /// What the back key does.
    Back,
    /// Move the focus to an element, by its id.
    Focus(String),
    /// Scroll an element into view, by its id.
    ScrollTo(String),
    /// Do an action after so many milliseconds.
    After(u32, Box<Action>),
    /// A short buzz: something is saved.
    Buzz,
    /// Print the page.
    Print,
    /// Put a piece behind those of the file that is being written.
    WritePiece(String),
    /// Let go of the file that is being written, or was.
    DropFile,
    /// Give a file to be saved in the downloads.
    Download(FileMade),
    /// Offer a file to other programs of the device; where that is not possible it is downloaded.
    Share(FileMade),
    /// Ask the maker for a file.
    AskForFile,
    /// Have a picture taken and read the code in it: [`crate::today::Action::LabelRead`] follows.
    ReadLabel,
    /// Open the sample workshop in place of the maker's own record, or close it.
    OpenSample(bool),
    /// Drop files that were shared to the app, by where they lie.
    DropShared(Vec<String>),
    /// Start the newer version that waits.
    StartNewVersion,
    /// Look for a newer version.
    LookForNewVersion,
    /// Try again to write what could not be kept.
    TryAgain,
    /// Ask the browser to keep the record.
    AskToPersist,
    /// Work something long out beside the page: [`Action::WorkDone`] follows.
    Work(crate::work::Job),
    /// Stop that work.
    StopWork,
    /// Write entries of a file down, all or none, with their place in the list of imports:
    /// [`crate::book::incoming::Action::BroughtIn`] follows.
    BringIn(Box<crate::book::BringIn>),
    /// Stop that: nothing of the file stays, and [`crate::book::incoming::Action::Stopped`] follows.
    StopBringIn,
    /// Ask how the store stands: [`crate::book::settings::Action::Stored`] follows.
    AskStorage,
    /// Delete everything that this device holds.
    DeleteEverything,
}

/// What a mark is taken for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkFor {
    /// A plank of this pile that is measured at once.
    Measuring(Id),
    /// A plank of this pile that may be good: it is chalked and measured later.
    Maybe(Id),
    /// A blank that is glued.
    Blank,
}

/// A file to hand out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileMade {
    /// Its name.
    pub name: String,
    /// What it is, as `application/json`.
    pub kind: &'static str,
    /// What is in it.
    pub content: FileContent,
}

impl FileMade {
    /// A table of planks, as text with commas, made on a day.
    pub fn table_of_planks(day: &str, text: &str) -> FileMade {
        FileMade {
            name: format!("stillwood-planks-{day}.csv"),
            kind: "text/csv;charset=utf-8",
            // A spreadsheet takes it for UTF-8 by this mark.
            content: FileContent::Bytes(format!("\u{feff}{text}").into_bytes()),
        }
    }
}

/// What is in a file that is handed out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileContent {
    /// These bytes.
    Bytes(Vec<u8>),
    /// What was written by [`Effect::WritePiece`]: a long record is not held in memory as one text.
    Written,
}

impl FileMade {
    /// Its bytes; none of one that was written piece by piece.
    pub fn bytes(&self) -> &[u8] {
        match &self.content {
            FileContent::Bytes(bytes) => bytes,
            FileContent::Written => &[],
        }
    }
}
