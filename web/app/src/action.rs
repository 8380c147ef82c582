//! What may be done: a press, a key, or what the shell has to say. A key on a screen carries one of these as data.

use crate::effect::MarkFor;
use crate::explain::Asked;
use crate::form::FormAction;
use crate::model::{HalfTyped, Now, Saving};
use crate::route::Route;
use crate::starts::Action as StartsAction;
use crate::work::Answer;
use crate::{blanks, book, racks, today, yard};
use std::collections::BTreeMap;
use stillwood_core::record::{Draft, Entry};

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Go to a screen.
    Go(Route),
    /// Go to a screen in place of this one.
    Replace(Route),
    /// What the back key does.
    Back,
    /// The address has changed: this screen is shown.
    Shown(Route),
    /// A character of a keyboard, or `Enter`, `Backspace`, `Escape`, `ArrowUp`, `ArrowDown`, where no field of
    /// the page has the focus.
    Key(String),
    /// Something typed into a field of the page, by the field's name.
    Typed(String, String),
    /// The form that stands open.
    Form(FormAction),
    /// Go on with a form that was left half typed, by the key under which it is kept.
    GoOn(String),
    /// Open a form again that was recorded and is undone, by its key and as it stood.
    Reopen(String, HalfTyped),
    /// On the screens of today.
    Today(today::Action),
    /// On the screens of the yard.
    Yard(yard::Action),
    /// On the screens of the racks.
    Racks(racks::Action),
    /// On the screens of the blanks.
    Blanks(blanks::Action),
    /// On the screens of the book.
    Book(book::Action),
    /// With the search for the planks to start.
    Starts(StartsAction),
    /// Tells how a number was worked out.
    Explain {
        /// What it is.
        name: String,
        /// As it is shown.
        figure: String,
        /// Which it is.
        of: Asked,
    },
    /// Asks before something is done.
    Ask {
        /// The question.
        question: String,
        /// What the key says that does it.
        yes: String,
        /// What it does.
        action: Box<Action>,
    },
    /// Closes what lies over the screen.
    CloseDialog,
    /// Deletes what was recorded last, and opens again what it came from.
    Undo,
    /// The word on what was done has had its turn.
    ToastOver(u32),
    /// Keeps a choice of what is shown, on this device.
    Choose {
        /// The screen.
        screen: &'static str,
        /// The choice.
        name: &'static str,
        /// What is chosen.
        value: String,
    },
    /// Try again to write what could not be kept.
    TryAgain,
    /// It is known that the store was emptied: it is told no more.
    EmptiedIsKnown,
    /// Start the newer version that waits.
    StartNewVersion,
    /// Open the sample workshop, or close it.
    OpenSample(bool),
    /// Print the page.
    Print,
    /// Drop files that were shared to the app and can't be read, by where they lie.
    DropShared(Vec<String>),

    /// Said by the shell: the first screen is painted. What takes long to work out follows.
    Started,
    /// Said by the shell: what was to be recorded is kept, as these entries.
    Recorded {
        /// The entries, to be merged.
        entries: Vec<Entry>,
        /// What follows.
        after: crate::effect::AfterRecorded,
    },
    /// Said by the shell: it could not be recorded, and why. What was typed stands as it was.
    NotRecorded {
        /// Why.
        why: String,
        /// What would have followed.
        after: crate::effect::AfterRecorded,
    },
    /// Said by the shell: a mark is this device's to give.
    MarkTaken {
        /// What it is for.
        wanted: MarkFor,
        /// The mark; empty where there is none left.
        mark: String,
    },
    /// Said by the shell: how the saving stands.
    Saving(Saving),
    /// Said by the shell: something half typed could not be kept, and why; none where it is kept.
    DraftTrouble(Option<String>),
    /// Said by the shell: the window is wide, or no more.
    Wide(bool),
    /// Said by the shell: the page is about to be printed, or no more.
    Printing(bool),
    /// Said by the shell: what the clock says.
    Clock(Now),
    /// Said by the shell: work beside the page is done.
    WorkDone(Answer),
    /// Said by the shell: files that were shared to the app can't be read: why, and where they lie.
    SharedUnread(Vec<String>, Vec<String>),
    /// Said by the shell: what is half typed as the windows of this device left it.
    HalfTyped {
        /// The planks.
        drafts: Vec<Draft>,
        /// The forms, by their keys.
        forms: BTreeMap<String, HalfTyped>,
    },
    /// Said by the shell: something for the maker to read.
    Say(String),
}

/// While a number is typed: the number, and how the plank stands with it. The drawing follows.
const MEASURED_FIRST: Changes = Changes::First(&["standing", "active-field"]);

/// What of the screen an action changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Changes {
    /// Any of it.
    All,
    /// These regions alone.
    Alone(&'static [&'static str]),
    /// These regions are looked at while it is done; the others follow as soon as the hand pauses.
    First(&'static [&'static str]),
}

impl Action {
    /// What of the screen it changes.
    pub fn changes(&self, route: &Route) -> Changes {
        use crate::parts::Key::{Add, Erase, Sign};
        match self {
            Action::Yard(yard::Action::Table(yard::table::Action::InView(..))) => {
                Changes::Alone(&["body"])
            }
            // The hand of a reading goes on to the next field.
            Action::Yard(yard::Action::Press(Add(" L" | " R"))) => Changes::All,
            Action::Yard(yard::Action::Press(Add(_) | Erase | Sign)) => MEASURED_FIRST,
            Action::Key(key)
                if matches!(route, Route::Measure(_))
                    && (key == "Backspace" || key.chars().count() == 1) =>
            {
                MEASURED_FIRST
            }
            _ => Changes::All,
        }
    }

    /// Whether a key of a keyboard that is held down counts again and again on a screen: arrows everywhere, and what is
    /// typed or erased while a plank is measured. Elsewhere it would record or delete something at each turn.
    pub fn counts_held_down(key: &str, route: &Route) -> bool {
        match key {
            "ArrowUp" | "ArrowDown" => true,
            "Enter" => false,
            _ => matches!(route, Route::Measure(_)),
        }
    }

    /// Deletes everything that this device holds.
    pub fn delete_everything() -> Action {
        book::settings::Action::DeleteEverything.into()
    }
}

macro_rules! into_action {
    ($($place:ident $of:path;)*) => {
        $(impl From<$of> for Action {
            fn from(action: $of) -> Self {
                Action::$place(action)
            }
        })*
    };
}

into_action! {
    Form FormAction;
    Today today::Action;
    Yard yard::Action;
    Racks racks::Action;
    Blanks blanks::Action;
    Book book::Action;
}

impl From<Route> for Action {
    fn from(route: Route) -> Self {
        Action::Go(route)
    }
}
