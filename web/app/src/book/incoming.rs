//! Files brought in: each is read bit by bit and looked at first: where it is from, what is new, what is damaged.
//! Then the maker brings in what is whole, or leaves it. Nothing changes before that.

use super::Action as BookAction;
use super::imports::{CutShort, Import, ImportedFile, put_back_imports};
use super::kept_elsewhere::change_kept;
use crate::action::Action as AppAction;
use crate::effect::Effect;
use crate::model::Model;
use crate::record::Folded;
use crate::route::Route;
use crate::words::{Spoken, count, fill};
use std::borrow::Cow;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Entry, EntryIds, FileProblem, FileReader, FileReading, Limits, NumberRanges, Preview, Problem,
    Selection, visible_text,
};

/// Entries read in one go, before it is shown how far it is.
const AT_ONCE: usize = 4_000;

/// By which way a file came, as far as the platform tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Came {
    /// Chosen, dropped or opened with the app by the maker.
    ByHand,
    /// Shared by another app of this device.
    FromApp,
    /// Shared; by whom, the platform does not tell.
    FromUnknown,
    /// Shared by a page of this address.
    FromHere,
}

/// A file that waits.
#[derive(Debug)]
pub struct Incoming {
    /// It is told from the others by this.
    pub number: u32,
    /// Its name, as it can be shown.
    pub name: String,
    /// By which way it came.
    pub came: Came,
    pub(super) stage: Stage,
}

#[derive(Debug)]
pub(super) enum Stage {
    /// It is being read.
    Reading(Box<FileReader<'static>>),
    /// It is read, and compared with the record next.
    Comparing(Box<FileReading>),
    /// It is looked at: the maker decides.
    Looked(Box<Looked>),
    /// It is being brought in: so many entries of so many.
    BringingIn(Box<Looked>, usize, usize),
    /// It can't be brought in, and why.
    Refused(String),
}

/// What is known of a file that was looked at.
#[derive(Debug)]
pub(super) struct Looked {
    pub(super) reading: FileReading,
    pub(super) preview: Preview,
    /// The record with what it brings; taken when it is brought in.
    after: Option<Folded>,
    /// Entries that it shows to be kept elsewhere.
    shown: NumberRanges,
}

/// What the shell is to bring in: all of it or none.
#[derive(Debug, Clone)]
pub struct BringIn {
    /// The file's number.
    pub file: u32,
    /// The entries that are not here.
    pub entries: Vec<Entry>,
    /// What it brings, for the list of imports: to be kept first, since an import that can't be undone is worse than
    /// one that brought nothing.
    pub import: Option<Import>,
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Go on reading.
    GoOn(u32),
    /// Bring it in.
    BringIn(u32),
    /// Leave it, or stop reading it.
    Leave(u32),
    /// Stop bringing it in.
    Stop,
    /// Put back what an undone import of the same had brought.
    PutBack(u32),
    /// Said by the shell: so many entries are written, of so many.
    Progress(u32, usize, usize),
    /// Said by the shell: it is brought in.
    BroughtIn {
        /// The file's number.
        file: u32,
        /// The entries.
        entries: Vec<Entry>,
        /// The import as it is kept in the list; none where that failed or nothing was new.
        import: Option<Box<Import>>,
        /// Why the entries, or their place in the list, are not kept yet; empty where all is well.
        trouble: String,
    },
    /// Said by the shell: it was stopped, and nothing was brought in. The entries come back.
    Stopped(u32, Vec<Entry>),
}

/// A file as the shell read it.
pub fn file_read(model: &mut Model, name: String, bytes: Vec<u8>, came: Came) -> Vec<Effect> {
    let files = &mut model.book.incoming;
    let number = files
        .iter()
        .map(|file| file.number)
        .max()
        .unwrap_or(0)
        .wrapping_add(1);
    let stage = match FileReader::begin(Cow::Owned(bytes), Limits::default()) {
        Ok(reader) => Stage::Reading(Box::new(reader)),
        Err(why) => Stage::Refused(why.spoken()),
    };
    files.push(Incoming {
        number,
        name: visible_text(&name).into_owned(),
        came,
        stage,
    });
    let mut effects = vec![go_on(number)];
    if model.route != Route::Share {
        effects.push(Effect::Go(Route::Share));
    }
    effects
}

/// Where a file stands among those that are looked at.
fn at(model: &Model, number: u32) -> Option<usize> {
    let mut files = model.book.incoming.iter();
    files.position(|file| file.number == number)
}

/// The next bit is done once what there is has been shown.
fn go_on(number: u32) -> Effect {
    let action = BookAction::Incoming(Action::GoOn(number));
    Effect::After(0, Box::new(AppAction::Book(action)))
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::GoOn(number) => one_step(model, number),
        Action::BringIn(number) => bring_in(model, number),
        Action::Leave(number) => {
            model.book.incoming.retain(|file| file.number != number);
            Vec::new()
        }
        Action::Stop => vec![Effect::StopBringIn],
        Action::PutBack(number) => {
            let found = at(model, number).map(|at| &model.book.incoming[at]);
            let Some((name, undone)) = found.and_then(|file| match &file.stage {
                Stage::Looked(looked) => Some((file.name.clone(), looked.preview.undone.clone())),
                _ => None,
            }) else {
                return Vec::new();
            };
            model.book.incoming.retain(|file| file.number != number);
            put_back_imports(model, &undone, &name)
        }
        Action::Progress(number, done, of) => {
            let found = at(model, number).map(|at| &mut model.book.incoming[at]);
            if let Some(Incoming {
                stage: Stage::BringingIn(_, now, all),
                ..
            }) = found
            {
                (*now, *all) = (done, of);
            }
            Vec::new()
        }
        Action::BroughtIn {
            file,
            entries,
            import,
            trouble,
        } => brought_in(model, file, entries, import.map(|import| *import), &trouble),
        Action::Stopped(number, entries) => {
            let Some(at) = at(model, number) else {
                return Vec::new();
            };
            let file = &mut model.book.incoming[at];
            let stage = std::mem::replace(&mut file.stage, Stage::Refused(String::new()));
            file.stage = match stage {
                Stage::BringingIn(mut looked, ..) => {
                    looked.reading.accepted.extend(entries);
                    Stage::Looked(looked)
                }
                other => other,
            };
            Vec::new()
        }
    }
}

/// Reads on, or compares with the record what was read.
fn one_step(model: &mut Model, number: u32) -> Vec<Effect> {
    let Some(at) = at(model, number) else {
        return Vec::new();
    };
    let stage = std::mem::replace(
        &mut model.book.incoming[at].stage,
        Stage::Refused(String::new()),
    );
    let (stage, goes_on) = match stage {
        Stage::Reading(mut reader) => match reader.read_some(AT_ONCE) {
            true => (Stage::Reading(reader), true),
            false => match reader.finish() {
                Ok(reading) => (Stage::Comparing(Box::new(reading)), true),
                Err(why) => (Stage::Refused(why.spoken()), false),
            },
        },
        Stage::Comparing(reading) => (Stage::Looked(Box::new(looked_at(model, *reading))), false),
        other => (other, false),
    };
    model.book.incoming[at].stage = stage;
    if goes_on {
        vec![go_on(number)]
    } else {
        Vec::new()
    }
}

fn looked_at(model: &Model, reading: FileReading) -> Looked {
    let (log, state) = (model.record.log(), model.state());
    let (preview, after) = queries::preview_with_state(log, state, &reading);
    let own = model.record.device().id.as_str();
    let formerly: Vec<&str> = queries::device_was(state, own).collect();
    let is_own = |by: &str| by == own || formerly.contains(&by);
    let by = reading.header.by.as_deref();
    let shown = queries::kept_elsewhere_by(log, is_own, by, &reading.accepted);
    Looked {
        reading,
        preview,
        after: Some(model.record.folded(after)),
        shown,
    }
}

impl Looked {
    pub(super) fn nothing_new(&self) -> bool {
        self.preview.new == 0 && self.preview.altered.is_empty()
    }

    /// Entries that would count as kept elsewhere from then on.
    pub(super) fn gained(&self, model: &Model) -> usize {
        match &model.shell.kept {
            Some(known) => known.news(&self.shown),
            None => stillwood_core::record::KeptElsewhere::default().news(&self.shown),
        }
    }
}

fn bring_in(model: &mut Model, number: u32) -> Vec<Effect> {
    let id = model.new_id();
    let on = model.now.day.clone();
    let Some(at) = at(model, number) else {
        return Vec::new();
    };
    let log = model.record.log();
    let file = &mut model.book.incoming[at];
    let Stage::Looked(looked) = &mut file.stage else {
        return Vec::new();
    };
    let entries = std::mem::take(&mut looked.reading.accepted);
    let entries: Vec<Entry> = entries
        .into_iter()
        .filter(|entry| !log.holds(entry))
        .collect();
    let brought: EntryIds = {
        let new = entries.iter().map(|entry| entry.id);
        new.filter(|id| log.entry(*id).is_none()).collect()
    };
    let import = id.filter(|_| !brought.is_empty()).map(|id| Import {
        id: id.to_string(),
        on,
        name: file.name.clone(),
        brought,
        planks: looked.preview.new_pieces,
        file: Box::new(ImportedFile {
            by: looked.reading.header.by.clone().unwrap_or_default(),
            written: looked.reading.header.written.clone(),
            whole: looked.reading.header.what == Selection::Whole,
            cut_short: cut_short(&looked.preview),
        }),
    });
    let of = entries.len();
    let stage = std::mem::replace(&mut file.stage, Stage::Refused(String::new()));
    file.stage = match stage {
        Stage::Looked(looked) => Stage::BringingIn(looked, 0, of),
        other => other,
    };
    if entries.is_empty() {
        // Nothing is written: what it shows of other devices is noted.
        return brought_in(model, number, entries, None, "");
    }
    vec![Effect::BringIn(Box::new(BringIn {
        file: number,
        entries,
        import,
    }))]
}

fn brought_in(
    model: &mut Model,
    number: u32,
    entries: Vec<Entry>,
    import: Option<Import>,
    trouble: &str,
) -> Vec<Effect> {
    let mut file = at(model, number).map(|at| model.book.incoming.remove(at));
    let after = file.as_mut().and_then(|file| match &mut file.stage {
        Stage::BringingIn(looked, ..) => looked.after.take(),
        _ => None,
    });
    model.record.merge_folded(entries, after);
    if let Some(import) = import {
        model.book.imports.list.insert(0, import);
    }
    let mut effects = vec![Effect::Buzz];
    if let Some(file) = file
        && let Stage::BringingIn(looked, ..) = file.stage
    {
        let gained = looked.gained(model);
        let said = said_of(model, &file.name, &looked.preview, gained);
        model.book.brought.push(said);
        if gained > 0 && trouble.is_empty() {
            effects.extend(change_kept(model, |kept| kept.see(&looked.shown)));
        }
    }
    if !trouble.is_empty() {
        model.book.brought.push(trouble.spoken());
    }
    // What others would bring may be here now.
    for at in 0..model.book.incoming.len() {
        let stage = std::mem::replace(
            &mut model.book.incoming[at].stage,
            Stage::Refused(String::new()),
        );
        model.book.incoming[at].stage = match stage {
            Stage::Looked(looked) => Stage::Looked(Box::new(looked_at(model, looked.reading))),
            other => other,
        };
    }
    effects
}

/// What stands in a file and can't be read. What is missing at its end is no such thing: it is told by itself.
pub(super) fn unreadable(preview: &Preview) -> impl Iterator<Item = &Problem> {
    preview.problems.iter().filter(|one| !is_cut_short(one))
}

fn is_cut_short(problem: &Problem) -> bool {
    matches!(problem.what, FileProblem::CutShort { .. })
}

/// How much is here of a file that ends too early.
pub(super) fn cut_short(preview: &Preview) -> Option<CutShort> {
    preview
        .problems
        .iter()
        .find_map(|problem| match problem.what {
            FileProblem::CutShort { after, of } => Some(CutShort { here: after, of }),
            _ => None,
        })
}

fn said_of(model: &Model, name: &str, before: &Preview, gained: usize) -> String {
    let words = &model.words().share;
    let many = |n: usize, one: &str, other: &str| count(n as u64, one, other);
    let mut said = vec![fill(
        words.brought_in,
        &[
            ("name", &name),
            (
                "entries",
                &many(before.new, words.entries_one, words.entries_other),
            ),
            (
                "planks",
                &many(
                    before.new_pieces,
                    model.words().common.planks_one,
                    model.words().common.planks_other,
                ),
            ),
        ],
    )];
    if before.already_here > 0 {
        said.push(many(
            before.already_here,
            words.were_here_one,
            words.were_here_other,
        ));
    }
    if !before.altered.is_empty() {
        said.push(many(
            before.altered.len(),
            words.differ_one,
            words.differ_other,
        ));
    }
    let unreadable = unreadable(before).count();
    if unreadable > 0 {
        said.push(many(unreadable, words.not_read_one, words.not_read_other));
    }
    if before.problems.iter().any(is_cut_short) {
        said.push(words.was_cut_short.to_owned());
    }
    if gained > 0 {
        said.push(many(
            gained,
            words.now_elsewhere_one,
            words.now_elsewhere_other,
        ));
    }
    said.join(" ")
}
