//! The racks: what lies on them and how it stands, a piece and what can be done with it, a rack looked over,
//! cutting, rest times and rooms, labels.

pub mod calendar;
pub mod cut;
pub mod deed;
pub mod family;
pub mod gluing;
pub mod history;
pub mod label;
pub mod line;
pub mod list;
pub mod look_over;
pub mod matter;
pub mod over_time;
pub mod piece;
pub mod piece_facts;
pub mod put_away;
pub mod put_away_words;
pub mod rack;
pub mod rests;
pub mod round;
pub mod shown;
pub mod stock;
mod update;
pub mod weigh_round;

use crate::form::FormId;
use crate::model::Model;
use round::Round;
use stillwood_core::record::Id;
pub use update::{key, opened, typed, update};

pub use deed::{half_typed, is_offered};
pub use round::follow_form;

/// What only the screens of the racks know.
#[derive(Debug, Default)]
pub struct Local {
    /// The piece that is shown beside the list on a wide screen.
    pub chosen: Option<Id>,
    /// What is being done, and with which piece.
    pub deed: Option<(Id, PieceForm)>,
    /// All that can be done is shown.
    pub more: bool,
    /// So many rows are shown beyond the first.
    pub more_rows: usize,
    /// A rack that is looked over.
    pub round: Round,
    /// A rack that is weighed.
    pub weighing: Option<WeighRound>,
}

/// A rack that is weighed, piece by piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighRound {
    /// The rack.
    pub place: String,
    /// The piece whose turn it is.
    pub at: Id,
    /// Whose turn it is then.
    pub next: Option<Id>,
    /// Those weighed in this round: of another day than today, some would come again.
    pub done: Vec<Id>,
}

/// Something done with a piece, typed into a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceForm {
    /// A command of the workshop, by its stored name.
    Workshop(&'static str),
    /// Flattened and set to rest anew.
    FlattenAgain,
}

impl PieceForm {
    /// Its form.
    pub fn form(self, piece: Id) -> FormId {
        match self {
            PieceForm::Workshop(name) => FormId::Workshop(piece, name),
            PieceForm::FlattenAgain => FormId::FlattenAgain(piece),
        }
    }

    /// What it is called.
    pub fn name(self, model: &Model) -> &'static str {
        match self {
            PieceForm::Workshop(name) => model.words().command(name),
            PieceForm::FlattenAgain => model.words().racks.flatten_again,
        }
    }
}

/// What may be done on the screens of the racks.
#[derive(Debug, Clone)]
pub enum Action {
    /// Show a piece: beside the list where the window is wide, else on a screen of its own.
    Show(Id),
    /// Open or fold a lot, by its key.
    Fold(String),
    /// Show more rows.
    MoreRows,
    /// Hand out the days on which rests are over, for a calendar program.
    Calendar,
    /// Show all that can be done with a piece, or hide it.
    More,
    /// Do something with a piece.
    Do(Id, PieceForm),
    /// Leave a plank out that would be put on a rack with others, or take it in again.
    LeaveOut(Id),
    /// Look a rack over, by its name.
    LookOver(String),
    /// Weigh a rack piece by piece, by its name.
    WeighRack(String),
    /// Weigh the piece whose turn it is later.
    WeighLater,
    /// A piece has not changed since last time.
    NoChange(Id),
    /// A piece has not changed, and the day is as it should be.
    NoChangeThatDay(Id),
    /// A piece moved: its sizes are typed.
    ItMoved(Id),
    /// Back from typing its sizes.
    NotMoved,
    /// The check of a piece is recorded.
    Looked(Id),
    /// Look at a piece later.
    Skip(Id),
    /// Go to a piece of the round.
    GoTo(Id),
    /// Delete the last check of the round.
    UndoLast,
    /// The last check of a piece is deleted.
    CheckDeleted(Id),
    /// What became of a part at the saw is another thing.
    NextFate(usize),
    /// All of a cut sprang.
    AllSprang,
    /// Open the form of rest times or of a room's air, or put it away.
    Toggle(FormId),
    /// Delete one of two entries that can't both be true.
    DeleteEntry(Id, Id),
}
