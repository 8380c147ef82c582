//! What is done on the screens of the book: as they open, at a key, at a press.

use super::Imports;
use super::{
    Action, deleted, file_out, imports, incoming, own_wood, plan, questions, settings, settle,
    share, start, woods,
};
use crate::effect::Effect;
use crate::model::Model;
use crate::route::Route;
use crate::tell::say;

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
        Action::FileOut(action) => file_out::update(model, action),
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
