//! The blanks: laminates matched and glued, blanks at rest and finished, side by side, reserved, with their papers.

pub mod at_hand;
pub mod chosen;
pub mod comes_to;
pub mod figures;
pub mod filter;
pub mod glue_up;
pub mod history;
pub mod in_hand;
mod job;
pub mod match_view;
pub mod matching;
pub mod page;
pub mod papers;
pub mod place;
pub mod row;
pub mod side_by_side;
pub mod slot_view;
mod update;

use matching::Matching;
use stillwood_core::plank::{RingTilt, RunoutDirection};
use stillwood_core::record::Id;
pub use update::{answered, key, mark_taken, open_form, opened, typed, update};

pub use chosen::{chosen_side_by_side, customers_view};
pub use in_hand::MatchedFigure;
pub use job::{Answer, Job, SLICE, SearchInSlices, work, work_telling};

/// What only the screens of the blanks know.
#[derive(Debug, Default)]
pub struct Local {
    /// Laminates that are being matched.
    pub matching: Matching,
    /// What is being recorded of a blank: its form stands open on the screen.
    pub recording: Option<(Id, &'static str)>,
    /// All that can be done with a blank is shown.
    pub more: bool,
    /// Longer lists are shown whole.
    pub all: bool,
}

/// What may be done on the screens of the blanks.
#[derive(Debug, Clone)]
pub enum Action {
    /// Look for the sets that go together best.
    Seek,
    /// Stop looking.
    Stop,
    /// Show the next best set.
    NextBest,
    /// Back to the set as it was proposed.
    AsProposed,
    /// As many laminates make the blank.
    Count(usize),
    /// The wood wanted at a place; empty for any.
    Wood(usize, String),
    /// Woods are the same on both sides, or not.
    Mirror(bool),
    /// This place of the blank is looked at.
    Slot(usize),
    /// Put a laminate there.
    Put(Id),
    /// Turn the laminate there over.
    TurnOver,
    /// Turn it end for end.
    EndForEnd,
    /// Search through this laminate, or leave it out.
    Take(Id),
    /// How the rings of a laminate rise, as seen on the wood.
    Rings(Id, RingTilt),
    /// How its grain runs, as seen on the wood.
    Grain(Id, RunoutDirection),
    /// Go on to the gluing, with the set in hand.
    Glue,
    /// Show all of a longer list, or less of it.
    All,
    /// Show all that can be done with a blank, or less of it.
    More,
    /// Open the form of something done with a blank.
    Open(Id, &'static str),
    /// Close it.
    CloseForm,
    /// A blank that was reserved is free again.
    Release(Id),
    /// Put a blank side by side with others, or take it out.
    SideBySide(Id),
    /// None stand side by side.
    NoneSideBySide,
    /// Puts the limits for gluing as they are supplied into their form.
    LimitsAsSupplied,
    /// Show blanks of this wood only, or of all.
    OfWood(String),
}

/// The most blanks that stand side by side.
pub const MOST_SIDE_BY_SIDE: usize = 6;

/// Under which name what is chosen on the screen of blanks is kept on the device.
pub const BLANKS: &str = "blanks";
/// The same of blanks side by side.
pub const CHOICE: &str = "choice";
/// The same of the screen of gluing.
pub const GLUE: &str = "glue";
