//! The racks: what lies on them and how it stands, a piece and what can be done with it, a rack looked over,
//! cutting, rest times and rooms, labels.

pub mod calendar;
pub mod cut;
pub mod deed;
pub mod family;
pub mod history;
pub mod label;
pub mod line;
pub mod list;
pub mod look_over;
pub mod matter;
pub mod over_time;
pub mod piece;
pub mod piece_facts;
pub mod rack;
pub mod rests;
pub mod round;
pub mod shown;
pub mod stock;

use crate::effect::{AfterRecorded, Effect, NewEvent};
use crate::form::{self, FormId};
use crate::model::Model;
use crate::route::Route;
use round::Round;
use shown::toggled;
use stillwood_core::record::{Event, Id, Piece, WORKSHOP_COMMANDS, Withdrawn, workshop_command};

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

/// Which of a piece's forms are half typed.
pub fn half_typed(model: &Model, piece: Id) -> Vec<PieceForm> {
    let commands = WORKSHOP_COMMANDS.iter();
    let all = commands.map(|one| PieceForm::Workshop(one.key));
    let all = all.chain([PieceForm::FlattenAgain]);
    all.filter(|one| model.forms.contains_key(&one.form(piece).key()))
        .collect()
}

/// The form of a piece that its screen opens: the one that was chosen, else the one that stood there last, else the
/// only one that is half typed.
fn form_to_open(model: &Model, piece: Id) -> Option<PieceForm> {
    let chosen = model.racks.deed.filter(|(of, _)| *of == piece);
    if let Some((_, form)) = chosen {
        return Some(form);
    }
    match crate::half_typed::stood_open(model, Route::Deed(piece)) {
        Some(FormId::Workshop(of, name)) if of == piece => Some(PieceForm::Workshop(name)),
        Some(FormId::FlattenAgain(of)) if of == piece => Some(PieceForm::FlattenAgain),
        _ => match half_typed(model, piece).as_slice() {
            [only] => Some(*only),
            _ => None,
        },
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
    /// Look a rack over, by its name.
    LookOver(String),
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
    /// What became of a strip at the saw is another thing.
    NextFate(usize),
    /// All of a cut sprang.
    AllSprang,
    /// Open the form of rest times or of a room's air, or put it away.
    Toggle(FormId),
    /// Delete one of two entries that can't both be true.
    DeleteEntry(Id, Id),
}

/// What a screen of the racks does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    model.racks.more = false;
    match model.route {
        Route::LookOver => round::opened(model),
        Route::Deed(id) => {
            let deed = form_to_open(model, id);
            model.racks.deed = deed.map(|deed| (id, deed));
            match deed {
                Some(deed) => {
                    form::open(model, deed.form(id));
                    crate::half_typed::stands_open(model, Route::Deed(id), deed.form(id))
                }
                None => vec![Effect::Replace(Route::Piece(id))],
            }
        }
        Route::Cut(id) => {
            if model.state().piece(id).is_some_and(Piece::is_at_hand) {
                form::open(model, FormId::Cut(id));
            }
            Vec::new()
        }
        Route::RestTimes => rests::opened(model),
        Route::Racks => {
            model.racks.more_rows = 0;
            Vec::new()
        }
        _ => Vec::new(),
    }
}

/// A character of a keyboard.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    match model.route {
        Route::LookOver => round::key(model, key),
        Route::Racks => list::key(model, key),
        Route::Piece(_) if key == "Escape" && model.racks.more => update(model, Action::More),
        _ => Vec::new(),
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    match model.route {
        Route::LookOver => round::typed(model, name, text),
        Route::Racks if name == list::WORDS => {
            shown::choose(model, list::SCREEN, list::WORDS, text)
        }
        _ => Vec::new(),
    }
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Show(piece) if model.shell.wide && model.route == Route::Racks => {
            model.racks.chosen = Some(piece);
            Vec::new()
        }
        Action::Show(piece) => vec![Effect::Go(Route::Piece(piece))],
        Action::Fold(lot) => {
            let open = toggled(&shown::list(model, list::SCREEN, list::OPEN), &lot);
            shown::choose(model, list::SCREEN, list::OPEN, open)
        }
        Action::MoreRows => {
            model.racks.more_rows += list::ROWS;
            Vec::new()
        }
        Action::Calendar => calendar::hand_out(model),
        Action::More => {
            model.racks.more = !model.racks.more;
            let open = model.racks.more;
            // It would lie over what can be done.
            model.toast.take_if(|_| open);
            vec![Effect::Focus(
                if open { "more-sheet" } else { "title" }.to_owned(),
            )]
        }
        Action::Do(piece, deed) => {
            model.racks.deed = Some((piece, deed));
            vec![Effect::Go(Route::Deed(piece))]
        }
        Action::LookOver(place) => {
            let mut effects = round::choose(model, &place);
            effects.push(Effect::Go(Route::LookOver));
            effects
        }
        Action::NoChange(piece) => round::no_change(model, piece),
        Action::NoChangeThatDay(piece) => round::no_change_that_day(model, piece),
        Action::ItMoved(piece) => round::it_moved(model, piece),
        Action::NotMoved => {
            model.form = None;
            Vec::new()
        }
        Action::Looked(piece) => round::looked(model, piece),
        Action::Skip(piece) => round::skip(model, piece),
        Action::GoTo(piece) => {
            model.form = None;
            model.racks.round.at = Some(piece);
            Vec::new()
        }
        Action::UndoLast => round::undo_last(model),
        Action::NextFate(strip) => cut::next_fate(model, strip),
        Action::AllSprang => cut::all_sprang(model),
        Action::Toggle(form) => rests::toggle(model, form),
        Action::DeleteEntry(about, entry) => {
            let event = NewEvent::instead_of(about, Event::Withdrawn(Withdrawn {}), vec![entry]);
            vec![Effect::Record {
                events: vec![event],
                after: AfterRecorded {
                    said: model.words().racks.deleted.to_owned(),
                    ..AfterRecorded::default()
                },
            }]
        }
    }
}

/// Whether something of that stored name can be done with a piece now.
pub fn is_offered(model: &Model, piece: Id, name: &str) -> bool {
    let today = model.now.date();
    let piece = model.state().piece(piece);
    let command = workshop_command(name);
    command
        .zip(piece)
        .is_some_and(|(one, piece)| one.is_offered(piece, today))
}
