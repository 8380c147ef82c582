//! What is done on the screens of the racks: as they open, at a key, at a press.

use super::PieceForm;
use super::deed::half_typed;
use super::shown::toggled;
use super::{Action, calendar, cut, list, put_away, rests, round, shown, weigh_round};
use crate::effect::{Effect, NewEvent};
use crate::form::{self, FormId};
use crate::model::Model;
use crate::route::Route;
use crate::tell;
use stillwood_core::record::queries::PutAway;
use stillwood_core::record::{Event, Id, Piece, Withdrawn};

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

/// What a screen of the racks does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    model.racks.more = false;
    weigh_round::opened(model);
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
        Route::RackPlanks(visit) => put_away::opened(model, PutAway::PlanksOfVisit(visit)),
        Route::RestParts(cut) => put_away::opened(model, PutAway::PartsOfCut(cut)),
        Route::RestBlank(blank) => put_away::opened(model, PutAway::GluedBlank(blank)),
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
        // What lies over the screen hears the key alone.
        _ if model.racks.more => match key {
            "Escape" => update(model, Action::More),
            _ => Vec::new(),
        },
        Route::LookOver => round::key(model, key),
        Route::Racks => list::key(model, key),
        _ => Vec::new(),
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    match model.route {
        Route::LookOver => round::typed(model, name, text),
        Route::Racks if name == list::WORDS => tell::choose(model, list::SCREEN, list::WORDS, text),
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
            tell::choose(model, list::SCREEN, list::OPEN, open)
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
            // Once it is closed, the shell gives the focus back to what had it.
            let sheet = open.then(|| Effect::Focus("more-sheet".to_owned()));
            sheet.into_iter().collect()
        }
        Action::Do(piece, deed) => {
            model.racks.deed = Some((piece, deed));
            vec![Effect::Go(Route::Deed(piece))]
        }
        Action::LeaveOut(plank) => put_away::leave_out(model, plank),
        Action::LookOver(place) => {
            let mut effects = round::choose(model, &place);
            effects.push(Effect::Go(Route::LookOver));
            effects
        }
        Action::WeighRack(place) => weigh_round::begin(model, place),
        Action::WeighLater => weigh_round::later(model),
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
            model.racks.round.chosen = Some(piece);
            Vec::new()
        }
        Action::UndoLast => round::undo_last(model),
        Action::CheckDeleted(piece) => round::check_deleted(model, piece),
        Action::NextFate(part) => cut::next_fate(model, part),
        Action::AllSprang => cut::all_sprang(model),
        Action::Toggle(form) => rests::toggle(model, form),
        Action::DeleteEntry(about, entry) => {
            let event = NewEvent::instead_of(about, Event::Withdrawn(Withdrawn {}), vec![entry]);
            tell::record(vec![event], model.words().racks.deleted.to_owned())
        }
    }
}
