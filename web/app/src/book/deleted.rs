//! What was deleted, the latest first, each with a way to put it back for good.

use super::parts::screen;
use super::worked::worked;
use crate::effect::Effect;
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::tell;
use crate::words::{count, fill, wood_names};
use crate::yard::named::{Deletable, how_much};
use maud::{Markup, html};
use stillwood_core::record::commands::delete;
use stillwood_core::record::queries;
use stillwood_core::record::{DeletedEntries, Event, Id};

/// Deletions shown until all are asked for, and entries listed of one.
const SHOWN: usize = 20;

/// Puts back what a deletion took.
pub fn restore(model: &Model, deletion: Id) -> Vec<Effect> {
    let all = queries::deleted_entries(model.record.log());
    let found = all.iter().find(|one| {
        one.deletions
            .first()
            .is_some_and(|entry| entry.id == deletion)
    });
    let Some(found) = found else {
        return Vec::new();
    };
    let by: Vec<Id> = found.deletions.iter().map(|entry| entry.id).collect();
    tell::record(
        delete::restore(model.record.log(), &by).events,
        model.words().share.put_back.to_owned(),
    )
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().share;
    screen(model, words.deleted_title, "").with(model, "body", "main", |ui| {
        let all = queries::deleted_entries(ui.model.record.log());
        let shown = if ui.model.book.in_full.contains("deleted") { all.len() } else { SHOWN };
        html! {
            p.below { (words.deleted_below) }
            @if all.is_empty() { p.notice { (words.nothing_deleted) } }
            @for one in all.iter().take(shown) { (card(ui, one)) }
            @if all.len() > shown {
                button.key.whole type="button" data-press=(ui.press(crate::Action::Book(super::Action::InFull("deleted")))) {
                    (fill(words.show_all, &[("n", &all.len())]))
                }
            }
        }
    })
}

/// What was deleted, in a line: the visit or pile that went with all in it, else what happened.
fn title(ui: &Ui<'_>, of: &DeletedEntries<'_>) -> String {
    let words = &ui.w.share;
    let first = |found: fn(&Event) -> bool| of.taken.iter().find(|entry| found(&entry.event));
    let begins = first(|one| matches!(one, Event::VisitOpened(_)))
        .or_else(|| first(|one| matches!(one, Event::PileOpened(_))));
    let begins = begins
        .or_else(|| first(|one| matches!(one, Event::Marked(_))))
        .or_else(|| of.taken.first());
    let Some(entry) = begins else {
        return String::new();
    };
    match (&entry.event, ui.model.state().piece(entry.about)) {
        (Event::VisitOpened(visit), _) => fill(words.about_visit, &[("yard", &visit.yard)]),
        (Event::PileOpened(pile), _) => fill(
            words.about_pile,
            &[("wood", &wood_names::shown(&pile.species.text))],
        ),
        (Event::Marked(marked), _) => fill(words.about_piece, &[("mark", &marked.mark)]),
        (other, Some(piece)) => format!(
            "{}: {}",
            piece.mark,
            ui.w.events.event(ui.model.units(), other)
        ),
        (other, None) => ui.w.events.event(ui.model.units(), other),
    }
}

fn card(ui: &Ui<'_>, of: &DeletedEntries<'_>) -> Markup {
    let words = &ui.w.share;
    let Some(deletion) = of.deletions.first() else {
        return Markup::default();
    };
    let device = queries::device_shown(ui.model.state(), &deletion.by);
    let more = of.taken.len().saturating_sub(SHOWN);
    html! {
        section.card aria-label=(title(ui, of)) {
            h2 { bdi { (title(ui, of)) } }
            p.below {
                (fill(words.deleted_on, &[("day", &ui.model.day(deletion.on)), ("device", &device)])) " "
                (went_with_it(ui, of)) "."
            }
            @if of.taken.len() > 1 {
                details {
                    summary { (words.what_it_took) }
                    ol.problems {
                        @for entry in of.taken.iter().take(SHOWN) { li { bdi { (ui.model.day(entry.on)) ": " (ui.w.events.event(ui.model.units(), &entry.event)) } } }
                    }
                    @if more > 0 { p.below { (fill(words.and_more, &[("n", &more)])) } }
                }
            }
            button.key type="button" data-press=(ui.press(crate::Action::Book(super::Action::PutBack(deletion.id)))) {
                (words.put_it_back)
            }
        }
    }
}

/// How much went with it, as was said before it was deleted: a visit or pile takes all of its own. Where that is nothing,
/// and of an import that was undone, how many entries.
fn went_with_it(ui: &Ui<'_>, of: &DeletedEntries<'_>) -> String {
    let (words, common, model) = (&ui.w.share, &ui.w.common, ui.model);
    let known = worked(model, "deleted", &(), || {
        queries::deleted(model.state(), model.record.log())
    });
    let by = |id: &Id| of.deletions.iter().any(|entry| entry.id == *id);
    let found = known.iter().find(|one| one.by.iter().any(by));
    let much = found.map(|one| {
        let what = Deletable::of(model.state(), one.about);
        how_much(model, what, &one.took)
    });
    if let Some(much) = much.filter(|much| !much.is_empty()) {
        return much;
    }
    let marked = of.taken.iter();
    let marked = marked.filter(|entry| matches!(entry.event, Event::Marked(_)));
    let planks = match (found, marked.count() as u64) {
        (Some(_), _) | (None, 0) => String::new(),
        (None, n) => count(n, common.planks_one, common.planks_other) + ", ",
    };
    let entries = of.taken.len() as u64;
    planks + &count(entries, words.entries_one, words.entries_other)
}
