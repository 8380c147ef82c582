//! The file of the whole record as it is written. That of a long record is written some entries at a time, each time
//! after the screen was painted: how far it is stands on the screen, and it can be stopped. A stop leaves no file.

use super::incoming_cards::progress;
use crate::action::Action as AppAction;
use crate::effect::{Effect, FileContent, FileMade};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Icon, icon};
use crate::route::Route;
use crate::tell::say;
use maud::{Markup, html};
use stillwood_core::record::{ChangedUnderFile, FileUnderWay, HandedWay, HandingEnd, NumberRanges};

/// So many entries are written at once, whatever waits.
const AT_ONCE: usize = 5_000;
/// Of more, so many before the screen is painted again.
const SLICE: usize = 2_000;

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Write on, if it is still this file.
    GoOn(u32),
    /// Stop writing it.
    Stop,
    /// Share the file that is ready. Browsers share only within a press.
    Share,
    /// Put the file away that is ready.
    PutAway,
}

/// The file that is being written, if any.
#[derive(Debug, Default)]
pub struct FileOut {
    turn: u32,
    making: Option<Making>,
}

#[derive(Debug)]
struct Making {
    way: HandedWay,
    name: String,
    file: FileUnderWay,
    /// The entries in it.
    entries: NumberRanges,
    /// The record that it is of.
    changes: u64,
    stage: Stage,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stage {
    Writing,
    /// It waits for the press that shares it.
    Ready,
    /// The shell hands it over.
    Given,
}

impl Making {
    fn of(model: &Model, way: HandedWay, name: String) -> Self {
        let (log, by) = (model.record.log(), &model.record.device().id);
        Self {
            way,
            name,
            file: FileUnderWay::begin(log, by, &model.shell.version, &model.now.at),
            entries: NumberRanges::of(log.everything()),
            changes: model.record.changes(),
            stage: Stage::Writing,
        }
    }

    fn is_long(&self) -> bool {
        self.file.progress().1 > AT_ONCE
    }
}

/// Writes the file of the whole record and hands it over: a short one within the press.
pub fn hand_over(model: &mut Model, way: HandedWay, name: String) -> Vec<Effect> {
    let making = Making::of(model, way, name);
    let is_long = making.is_long();
    let out = &mut model.book.file_out;
    out.turn = out.turn.wrapping_add(1);
    out.making = Some(making);
    let mut effects = vec![Effect::DropFile];
    effects.extend(match is_long {
        true => vec![go_on(out.turn)],
        false => write(model, AT_ONCE),
    });
    effects
}

/// The next entries are written once what there is has been shown.
fn go_on(turn: u32) -> Effect {
    Effect::After(0, Box::new(AppAction::from(Action::GoOn(turn))))
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::GoOn(turn) if turn == model.book.file_out.turn => write(model, SLICE),
        Action::GoOn(_) => Vec::new(),
        Action::Stop => {
            if !is_at(model, Stage::Writing) {
                return Vec::new();
            }
            let mut effects = drop_it(model);
            let said = model.words().share.writing_stopped;
            effects.extend(say(model, said));
            effects
        }
        Action::Share if is_at(model, Stage::Ready) => give(model),
        Action::PutAway if is_at(model, Stage::Ready) => drop_it(model),
        Action::Share | Action::PutAway => Vec::new(),
    }
}

fn is_at(model: &Model, stage: Stage) -> bool {
    let making = model.book.file_out.making.as_ref();
    making.is_some_and(|making| making.stage == stage)
}

fn drop_it(model: &mut Model) -> Vec<Effect> {
    model.book.file_out.making = None;
    vec![Effect::DropFile]
}

fn write(model: &mut Model, entries: usize) -> Vec<Effect> {
    let log = model.record.log();
    let out = &mut model.book.file_out;
    let turn = out.turn;
    let writing = |making: &&mut Making| making.stage == Stage::Writing;
    let Some(making) = out.making.as_mut().filter(writing) else {
        return Vec::new();
    };
    let piece = match making.file.go_on(log, entries) {
        Ok(piece) => piece,
        Err(ChangedUnderFile) => {
            let (way, name) = (making.way, std::mem::take(&mut making.name));
            return hand_over(model, way, name);
        }
    };
    let mut effects = vec![Effect::WritePiece(piece)];
    if !making.file.is_whole() {
        effects.push(go_on(turn));
    } else if making.way == HandedWay::Shared && making.is_long() {
        making.stage = Stage::Ready;
        if model.route != Route::Share {
            let said = model.words().share.file_ready;
            effects.extend(say(model, said));
        }
    } else {
        effects.extend(give(model));
    }
    effects
}

/// Gives the shell the file that is whole.
fn give(model: &mut Model) -> Vec<Effect> {
    let Some(making) = &mut model.book.file_out.making else {
        return Vec::new();
    };
    making.stage = Stage::Given;
    model.book.handing = Some(making.entries.clone());
    let file = FileMade {
        name: making.name.clone(),
        kind: "application/json",
        content: FileContent::Written,
    };
    vec![match making.way {
        HandedWay::Saved => Effect::Download(file),
        HandedWay::Shared => Effect::Share(file),
    }]
}

/// The handing over of a file has ended: a long one that was not shared after all is still there to be shared.
pub fn ended(model: &mut Model, end: HandingEnd) -> Vec<Effect> {
    let given = |making: &&mut Making| making.stage == Stage::Given;
    let Some(making) = model.book.file_out.making.as_mut().filter(given) else {
        return Vec::new();
    };
    let is_done = matches!(end, HandingEnd::Done(_));
    if making.way == HandedWay::Shared && making.is_long() && !is_done {
        making.stage = Stage::Ready;
        return Vec::new();
    }
    drop_it(model)
}

/// How far it is with a key that stops it, or the file that is ready; none where there is neither.
pub fn view(ui: &Ui<'_>) -> Option<Markup> {
    let words = &ui.w.share;
    let making = ui.model.book.file_out.making.as_ref()?;
    let is_of_now = making.changes == ui.model.record.changes();
    match making.stage {
        Stage::Writing => {
            let (done, of) = making.file.progress();
            Some(html! {
                (progress(words.writing, done, of))
                div.keys {
                    button.key.big type="button" data-press=(ui.press(Action::Stop)) { (words.stop) }
                }
            })
        }
        Stage::Ready if is_of_now => Some(html! {
            p role="status" { (words.file_ready) }
            button.key.main.big.whole type="button" data-press=(ui.press(Action::Share)) {
                (icon(Icon::Share)) (words.share_whole)
            }
            button.key.quiet.whole type="button" data-press=(ui.press(Action::PutAway)) { (words.put_away) }
        }),
        Stage::Ready | Stage::Given => None,
    }
}
