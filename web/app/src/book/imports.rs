//! What was brought in on this device, file by file: each can be undone as a whole, and put back. The list is kept
//! beside the record, each import as a setting of its own.

use super::parts::screen;
use super::worked::worked;
use crate::effect::Effect;
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::tell::record;
use crate::words::{count, fill};
use maud::{Markup, html};
use serde::{Deserialize, Serialize};
use std::rc::Rc;
use stillwood_core::order;
use stillwood_core::record::commands::{delete, undo_import};
use stillwood_core::record::queries;
use stillwood_core::record::{EntryIds, Event, Id};

/// Imports shown until all are asked for, and entries of what was recorded since.
const SHOWN: usize = 20;

/// A file that was brought in. Its shape is kept on devices: it does not change.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Import {
    /// Its own; later imports have later ones. It is kept under `import/` and this.
    pub id: String,
    /// The day.
    pub on: String,
    /// The file's name.
    pub name: String,
    /// The entries that were new.
    pub brought: EntryIds,
    /// How many planks were new.
    #[serde(default)]
    pub planks: usize,
    /// What is known of the file itself.
    #[serde(default)]
    pub file: Box<ImportedFile>,
}

/// A file that was brought in. Kept on devices with the import.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ImportedFile {
    /// The device that wrote the file, where the file says so.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub by: String,
    /// When it was written, by the clock of that device.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub written: String,
    /// It was written as a whole record.
    #[serde(default)]
    pub whole: bool,
    /// How much of it came, where it ended too early.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut_short: Option<CutShort>,
}

/// How much came of a file that ended too early. Kept on devices with the import.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutShort {
    /// The entries that arrived.
    pub here: usize,
    /// Those that the file says it holds, where it says so.
    pub of: Option<u64>,
}

impl Import {
    /// Whether what an earlier one lacks came with this: the same file in whole, or a whole record that the same device
    /// wrote later, since a record only grows.
    fn completes(&self, earlier: &Import) -> bool {
        let (now, before) = (&self.file, &earlier.file);
        let same_file = match (now.by.is_empty(), now.written.is_empty()) {
            (true, true) => self.name == earlier.name,
            _ => now.by == before.by && now.written == before.written,
        };
        let same_device = !now.by.is_empty() && now.by == before.by;
        let written_later = !before.written.is_empty() && now.written > before.written;
        now.cut_short.is_none() && (same_file || (now.whole && same_device && written_later))
    }
}

/// The imports of this device.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Imports {
    /// The latest first.
    pub list: Vec<Import>,
    /// How many can't be read.
    pub unread: usize,
}

impl Imports {
    /// As the device keeps them.
    pub fn read(texts: &[String]) -> Self {
        let mut imports = Self::default();
        for json in texts {
            match serde_json::from_str(json) {
                Ok(import) => imports.list.push(import),
                Err(_) => imports.unread += 1,
            }
        }
        order::sort_by(&mut imports.list, |a: &Import, b: &Import| b.id.cmp(&a.id));
        imports
    }
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Ask before an import is undone: what was recorded since is shown.
    AskUndo(String),
    /// Leave it as it is.
    NotUndo,
    /// Undo it.
    Undo(String),
    /// Put back what was undone by these entries.
    PutBack(Vec<Id>, String),
}

/// An import, and whether it was undone.
#[derive(Debug, Clone, PartialEq)]
struct Stands {
    /// It is told from the others by this.
    key: String,
    name: String,
    /// The day on which it was brought in, where that was here.
    on: Option<String>,
    brought: EntryIds,
    planks: usize,
    /// What is missing of it, in a sentence.
    missing: Option<String>,
    /// The entries that undo it; empty where it counts.
    undone: Vec<Id>,
    undone_on: Option<String>,
}

/// How imports stand: those of this device, and those that another device has undone.
fn stand(model: &Model) -> Vec<Stands> {
    let (log, state) = (model.record.log(), model.state());
    let undone_by = |brought: &EntryIds| {
        let undone = order::set_of(brought.iter().filter_map(|id| state.undone_by(id)));
        undone.into_iter().collect::<Vec<Id>>()
    };
    let day = |undone: &[Id]| {
        let entries = undone.iter().filter_map(|id| log.entry(*id));
        entries.map(|entry| entry.on.to_string()).max()
    };
    let here = |import: &&Import| import.brought.iter().any(|id| log.entry(id).is_some());
    let list = &model.book.imports.list;
    let counts = |import: &Import| undone_by(&import.brought).is_empty();
    // The latest stand first: what came later stands before.
    let own = list.iter().enumerate().filter(|(_, import)| here(import));
    let own = own.map(|(at, import)| {
        let undone = undone_by(&import.brought);
        let completed = || {
            let mut later = list.iter().take(at).filter(|one| here(one) && counts(one));
            later.any(|one| one.completes(import))
        };
        let cut_short = import.file.cut_short.filter(|_| undone.is_empty());
        let cut_short = cut_short.filter(|_| !completed());
        Stands {
            missing: cut_short.map(|cut| missing_of(model, &import.name, cut)),
            key: import.id.clone(),
            name: import.name.clone(),
            on: Some(import.on.clone()),
            brought: import.brought.clone(),
            planks: import.planks,
            undone_on: day(&undone),
            undone,
        }
    });
    let mut all: Vec<Stands> = own.collect();
    let told = order::set_of(all.iter().flat_map(|one| one.undone.clone()));
    for entry in log.entries() {
        let Event::ImportUndone(undone) = &entry.event else {
            continue;
        };
        let in_force = undone
            .brought
            .iter()
            .any(|id| state.undone_by(id) == Some(entry.id));
        if in_force && !told.contains(&entry.id) {
            all.push(Stands {
                key: entry.id.to_string(),
                name: undone.name.clone(),
                on: None,
                brought: undone.brought.clone(),
                planks: 0,
                missing: None,
                undone: vec![entry.id],
                undone_on: Some(entry.on.to_string()),
            });
        }
    }
    all
}

fn missing_of(model: &Model, name: &str, cut: CutShort) -> String {
    let words = &model.words().share;
    match cut.of {
        Some(of) => fill(
            words.missing_of,
            &[("name", &name), ("n", &cut.here), ("of", &of)],
        ),
        None => fill(words.missing, &[("name", &name), ("n", &cut.here)]),
    }
}

/// How many imports are listed, and what is missing of files that were cut short, each in a sentence, until it came
/// or the import is undone.
pub(super) fn listed(model: &Model) -> Rc<(usize, Vec<String>)> {
    let list = model.book.imports.list.iter();
    let kept: Vec<&str> = list.map(|one| one.id.as_str()).collect();
    worked(model, "imports", &kept, || {
        let all = stand(model);
        let listed = all.len();
        let missing = all.into_iter().filter_map(|one| one.missing).collect();
        (listed, missing)
    })
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::AskUndo(key) => {
            model.book.undoing = Some(key);
            Vec::new()
        }
        Action::NotUndo => {
            model.book.undoing = None;
            Vec::new()
        }
        Action::Undo(key) => {
            model.book.undoing = None;
            let Some(import) = stand(model).into_iter().find(|one| one.key == key) else {
                return Vec::new();
            };
            let Some(id) = model.new_id() else {
                let why = model.words().common.no_new_names;
                return crate::tell::say(model, why);
            };
            let said = fill(model.words().share.import_undone, &[("name", &import.name)]);
            let filled = undo_import::command(import.brought, import.name, id);
            record(filled.events, said)
        }
        Action::PutBack(undone, name) => put_back_imports(model, &undone, &name),
    }
}

/// Puts what was undone back in force: deletes the entries that undid it.
pub fn put_back_imports(model: &Model, undone: &[Id], name: &str) -> Vec<Effect> {
    record(
        delete::restore(model.record.log(), undone).events,
        fill(model.words().share.import_put_back, &[("name", &name)]),
    )
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().share;
    screen(model, words.brought_title, "").with(model, "body", "main", |ui| {
        let all = stand(ui.model);
        let shown = if ui.model.book.in_full.contains("imports") { all.len() } else { SHOWN };
        html! {
            p.below { (words.brought_below) }
            @if all.is_empty() { p.notice { (words.nothing_brought) } }
            @for import in all.iter().take(shown) { (card(ui, import)) }
            @if all.len() > shown {
                button.key.whole type="button" data-press=(ui.press(crate::Action::Book(super::Action::InFull("imports")))) {
                    (fill(words.show_all, &[("n", &all.len())]))
                }
            }
            @if ui.model.book.imports.unread > 0 {
                p.notice.doubt { (count(ui.model.book.imports.unread as u64, words.unread_imports_one, words.unread_imports_other)) }
            }
        }
    })
}

fn card(ui: &Ui<'_>, import: &Stands) -> Markup {
    let words = &ui.w.share;
    let entries = count(
        import.brought.len() as u64,
        words.entries_one,
        words.entries_other,
    );
    let planks = count(
        import.planks as u64,
        ui.w.common.planks_one,
        ui.w.common.planks_other,
    );
    let asked = ui.model.book.undoing.as_ref() == Some(&import.key);
    html! {
        section.card aria-label=(import.name) {
            h2 { bdi { (import.name) } }
            p.below {
                @match &import.on {
                    Some(on) => (fill(words.brought_on, &[("day", &ui.model.day_kept(on)), ("entries", &entries), ("planks", &planks)])),
                    None => (fill(words.undone_elsewhere, &[("entries", &entries)])),
                }
            }
            @if let Some(missing) = &import.missing { p.doubt { (crate::parts::sign(crate::parts::Judged::Doubt)) (missing) } }
            @if let Some(on) = &import.undone_on {
                p.doubt { (crate::parts::sign(crate::parts::Judged::Doubt)) (fill(words.undone_on, &[("day", &ui.model.day_kept(on))])) }
                button.key type="button" data-press=(ui.press(Action::PutBack(import.undone.clone(), import.name.clone()))) {
                    (words.put_it_back)
                }
            } @else if asked {
                (since(ui, import))
                div.keys {
                    button.key type="button" data-press=(ui.press(Action::NotUndo)) { (ui.w.common.cancel) }
                    button.key.no type="button" data-press=(ui.press(Action::Undo(import.key.clone()))) { (words.undo_it) }
                }
            } @else {
                button.key type="button" data-press=(ui.press(Action::AskUndo(import.key.clone()))) { (words.undo_import) }
            }
        }
    }
}

/// What was recorded since about what an import brought.
fn since(ui: &Ui<'_>, import: &Stands) -> Markup {
    let words = &ui.w.share;
    let (log, state) = (ui.model.record.log(), ui.model.state());
    let since = log.recorded_since(&import.brought);
    let lines = since.iter().take(SHOWN).map(|entry| {
        let device = queries::device_shown(state, &entry.by);
        format!(
            "{}, {}, {device}: {}",
            ui.w.about(ui.model.state(), entry.about),
            ui.model.day(entry.on),
            ui.w.events.event(ui.model.units(), &entry.event)
        )
    });
    let more = since.len().saturating_sub(SHOWN);
    html! {
        div.notice.doubt {
            @if since.is_empty() { p { (words.nothing_since) } } @else {
                p { (count(since.len() as u64, words.since_one, words.since_other)) }
                ol.problems { @for line in lines { li { bdi { (line) } } } }
                @if more > 0 { p { (fill(words.and_more, &[("n", &more)])) } }
            }
            p { (words.undo_means) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn import(written: &str, whole: bool, cut_short: Option<CutShort>) -> Import {
        let json = r#"{"id":"019a","on":"2026-03-07","name":"a.json","brought":[],"planks":2}"#;
        let mut import: Import = serde_json::from_str(json).unwrap();
        import.file = Box::new(ImportedFile {
            by: "K7-AAAAAAAAAA".into(),
            written: written.into(),
            whole,
            cut_short,
        });
        import
    }

    #[test]
    fn what_a_file_lacks_comes_with_the_same_or_with_a_whole_record_that_was_written_later() {
        let lacks = CutShort {
            here: 3,
            of: Some(9),
        };
        let cut = import("2026-11-20T12:00:00Z", true, Some(lacks));
        let completes =
            |written, whole, cut_short| import(written, whole, cut_short).completes(&cut);
        assert!(completes("2026-11-20T12:00:00Z", true, None));
        assert!(completes("2026-11-21T12:00:00Z", true, None));
        // An older file, one visit alone, or one that is cut short itself brings not all of it.
        assert!(!completes("2026-11-19T12:00:00Z", true, None));
        assert!(!completes("2026-11-21T12:00:00Z", false, None));
        assert!(!completes("2026-11-21T12:00:00Z", true, Some(lacks)));
    }
}
