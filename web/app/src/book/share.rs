//! Save and share: how much stands on this device only, a visit or the whole record handed over, a table, a
//! calendar. A file that was handed over is not kept elsewhere before that is known.

use super::kept_elsewhere::change_kept;
use super::parts::screen;
use super::{file_out, incoming_cards, settle};
use crate::effect::{Effect, FileContent, FileMade};
use crate::form::field_id;
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, icon};
use crate::racks;
use crate::route::Route;
use crate::tell::say;
use crate::words::{Spoken, count, fill, in_table_file};
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::record::queries;
use stillwood_core::record::{
    HandedWay, HandingEnd, Id, Limits, NumberRanges, Visit, read, table_rows, to_csv,
};

/// What is handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// The whole record.
    Whole,
    /// One visit.
    Visit(Id),
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Offer it to other programs of the device.
    Share(What),
    /// Give it to the downloads.
    Save(What),
    /// All planks as a table.
    SaveTable,
    /// The days on which rests are over, as a calendar file.
    SaveCalendar,
    /// The maker says that the file that was handed over last is on another device.
    ItIsThere,
    /// Bring a file in.
    OpenFile,
    /// Said by the shell: how the handing over of a file ended, and why where it failed.
    HandedOver(HandingEnd, String),
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Share(what) => hand_over(model, what, HandedWay::Shared),
        Action::Save(what) => hand_over(model, what, HandedWay::Saved),
        Action::SaveTable => save_table(model),
        Action::SaveCalendar => racks::calendar::hand_out(model),
        Action::ItIsThere => {
            let mut effects = change_kept(model, |kept| {
                kept.confirm();
                true
            });
            let said = model.words().share.noted_elsewhere;
            effects.extend(say(model, said));
            effects
        }
        Action::OpenFile => vec![Effect::AskForFile],
        Action::HandedOver(end, why) => {
            let mut effects = file_out::ended(model, end);
            effects.extend(handed_over(model, end, &why));
            effects
        }
    }
}

/// The visit that is saved by itself was chosen.
pub fn typed(model: &mut Model, name: &str, text: &str) -> Vec<Effect> {
    if name == "which visit" {
        model.book.visit = text.parse().ok();
    }
    Vec::new()
}

fn hand_over(model: &mut Model, what: What, way: HandedWay) -> Vec<Effect> {
    let name = file_name(model, what);
    let id = match what {
        What::Whole => return file_out::hand_over(model, way, name),
        What::Visit(id) => id,
    };
    let (content, entries) = match visit_file(model, id) {
        Ok(made) => made,
        Err(why) => return say(model, why),
    };
    model.book.handing = Some(entries);
    let file = FileMade {
        name,
        kind: "application/json",
        content,
    };
    vec![match way {
        HandedWay::Saved => Effect::Download(file),
        HandedWay::Shared => Effect::Share(file),
    }]
}

/// The file of a visit, with the entries in it. What can't be read back was not handed over.
fn visit_file(model: &Model, id: Id) -> Result<(FileContent, NumberRanges), String> {
    let (record, version, at) = (&model.record, &model.shell.version, &model.now.at);
    let by = &record.device().id;
    let text = queries::visit_to_file(record.log(), record.state(), by, id, version, at);
    let reading = read(text.as_bytes(), &Limits::default()).map_err(|why| why.spoken())?;
    let entries = NumberRanges::of(&reading.accepted);
    Ok((FileContent::Bytes(text.into_bytes()), entries))
}

fn file_name(model: &Model, what: What) -> String {
    let of = match what {
        What::Whole => model.record.device().id.clone(),
        What::Visit(id) => {
            let visit = model.state().visit(id);
            plain(visit.map_or("visit", |visit| &visit.opened.yard))
        }
    };
    let sample = if model.shell.sample { "sample-" } else { "" };
    format!("stillwood-{sample}{of}-{}.json", model.now.day)
}

/// A name that every file system takes.
fn plain(name: &str) -> String {
    let letters = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' });
    let letters: String = letters.take(40).collect();
    letters.trim_matches('-').to_lowercase()
}

fn handed_over(model: &mut Model, end: HandingEnd, why: &str) -> Vec<Effect> {
    let words = &model.words().share;
    let why = why.spoken();
    let said_of_file = std::mem::take(&mut model.book.said_of_file);
    let Some(entries) = model.book.handing.take() else {
        return match end {
            HandingEnd::Failed => say(model, fill(words.not_handed_over, &[("why", &why)])),
            HandingEnd::Done(_) if said_of_file.is_empty() => say(model, words.file_saved),
            HandingEnd::Done(_) => say(model, said_of_file),
            HandingEnd::Cancelled => Vec::new(),
        };
    };
    let said = match end {
        HandingEnd::Done(HandedWay::Shared) => words.handed_over.to_owned(),
        HandingEnd::Done(HandedWay::Saved) => words.in_downloads.to_owned(),
        HandingEnd::Failed => fill(words.not_handed_over, &[("why", &why)]),
        HandingEnd::Cancelled => return Vec::new(),
    };
    let on = model.now.day.clone();
    let mut effects = match end {
        HandingEnd::Done(_) if !model.shell.sample => {
            change_kept(model, |kept| kept.hand_over(end, &on, entries))
        }
        _ => Vec::new(),
    };
    effects.extend(say(model, said));
    effects
}

fn save_table(model: &mut Model) -> Vec<Effect> {
    let rows = queries::rows(model.state(), &model.settings.instruments);
    let text = to_csv(table_rows(&rows, &in_table_file));
    let file = FileMade::table_of_planks(&model.now.day, &text);
    vec![Effect::Download(file)]
}

/// What stands on this device only, in a sentence; none until it is known.
pub fn only_here(model: &Model) -> Option<(bool, String)> {
    let words = &model.words().share;
    if model.shell.sample {
        return Some((false, words.sample_needs_no_keeping.to_owned()));
    }
    let kept = model.shell.kept.as_ref()?;
    let found = kept.only_here(model.record.log(), model.state());
    let device = this_device(model);
    let sentence = |one: &'static str, other: &'static str, n: usize| {
        fill(
            if n == 1 { one } else { other },
            &[("n", &n), ("device", &device)],
        )
    };
    Some(match (found.of, found.planks, found.entries) {
        (0, _, _) => (false, words.nothing_recorded.to_owned()),
        (_, _, 0) => (false, words.all_kept_elsewhere.to_owned()),
        (_, 0, entries) => (
            true,
            sentence(words.entries_only_one, words.entries_only_other, entries),
        ),
        (_, planks, _) => (
            true,
            sentence(words.planks_only_one, words.planks_only_other, planks),
        ),
    })
}

/// What this device is called in a sentence.
pub fn this_device(model: &Model) -> &'static str {
    match model.shell.wide {
        true => model.words().share.laptop,
        false => model.words().share.phone,
    }
}

/// The visits, the latest first.
fn visits(model: &Model) -> Vec<&Visit> {
    let mut visits: Vec<&Visit> = model.state().visits().collect();
    order::sort_by_key(&mut visits, |visit| (visit.recorded.on, visit.id));
    visits.reverse();
    visits
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().share;
    let page = screen(model, words.title, "");
    let waits = !model.book.incoming.is_empty() || !model.book.brought.is_empty();
    page.with(model, "body", "main", |ui| {
        html! {
            @if waits { (incoming_cards::files(ui)) }
            (kept(ui))
            div.columns {
                @if !ui.model.record.log().is_empty() { div { (visit_and_whole(ui)) } }
                div { (bring_in(ui)) (elsewhere(ui)) }
            }
        }
    })
}

/// How much would be lost with this device, and what the last file is worth.
fn kept(ui: &Ui<'_>) -> Markup {
    let (model, words) = (ui.model, &ui.w.share);
    let Some((open, said)) = only_here(model) else {
        return html! { p.below { (words.kept_not_known) } };
    };
    let handed = model
        .shell
        .kept
        .as_ref()
        .and_then(|kept| kept.handed.as_ref());
    let handed = handed.filter(|_| !model.shell.sample);
    let unconfirmed = model.shell.kept.as_ref().filter(|_| open);
    let unconfirmed =
        unconfirmed.map_or(0, |kept| kept.unconfirmed(model.record.log().everything()));
    let listed = super::imports::listed(model);
    let missing = &listed.1;
    let doubt = open || !missing.is_empty();
    html! {
        div #only-here class=(if doubt { "notice doubt" } else { "notice" }) {
            // What is missing comes first: nothing else is well while it is.
            @for said in missing { p.lead { bdi { (said) } } }
            p.lead[open || missing.is_empty()] { (said) }
            @if !model.shell.sample && !model.record.log().is_empty() {
                p.below #last-saved {
                    @match handed {
                        None => (words.never_saved),
                        Some(handed) => (fill(
                            match handed.way {
                                HandedWay::Saved => words.last_saved,
                                HandedWay::Shared => words.last_handed_over,
                            },
                            &[("day", &model.day_kept(&handed.on))],
                        )),
                    }
                }
            }
            @if unconfirmed > 0 {
                p { (if model.shell.wide { words.has_another_got_it } else { words.has_the_laptop_got_it }) }
                div.keys {
                    button.key type="button" data-press=(ui.press(Action::ItIsThere)) {
                        (if model.shell.wide { words.it_is_on_another } else { words.it_is_on_the_laptop })
                    }
                }
            }
        }
    }
}

fn hand_keys(ui: &Ui<'_>, what: What, main: bool) -> Markup {
    let words = &ui.w.share;
    let (share, save) = match what {
        What::Whole => (words.share_whole, words.save_whole),
        What::Visit(_) => (words.share_visit, words.save_visit),
    };
    let class = if main {
        "key main big whole"
    } else {
        "key big whole"
    };
    html! {
        @if ui.model.shell.can_share {
            button class=(class) type="button" data-press=(ui.press(Action::Share(what))) {
                (icon(Icon::Share)) (share)
            }
            button.key.quiet.whole type="button" data-press=(ui.press(Action::Save(what))) {
                (icon(Icon::Download)) (save)
            }
        } @else {
            button class=(class) type="button" data-press=(ui.press(Action::Save(what))) {
                (icon(Icon::Download)) (save)
            }
        }
    }
}

/// One visit by itself is what is handed over first; more than one go at once with the whole record.
fn visit_and_whole(ui: &Ui<'_>) -> Markup {
    match visits(ui.model).len() {
        0 | 1 => html! { (one_visit(ui, true)) (whole(ui, false)) },
        _ => html! { (whole(ui, true)) (one_visit(ui, false)) },
    }
}

/// One visit, the latest until another is chosen.
fn one_visit(ui: &Ui<'_>, main: bool) -> Markup {
    let words = &ui.w.share;
    let visits = visits(ui.model);
    let chosen = ui.model.book.visit;
    let visit = visits
        .iter()
        .find(|visit| Some(visit.id) == chosen)
        .or(visits.first());
    html! {
        @if let Some(visit) = visit {
            section.card {
                h2 { (words.one_visit) }
                @if visits.len() > 1 {
                    div.field {
                        label for=(field_id("which visit")) { (words.which_visit) }
                        select id=(field_id("which visit")) name="which visit" {
                            @for one in &visits {
                                option value=(one.id) selected[one.id == visit.id] {
                                    (one.opened.yard) ", " (ui.model.day(one.recorded.on))
                                }
                            }
                        }
                    }
                } @else {
                    p.below { (visit.opened.yard) ", " (ui.model.day(visit.recorded.on)) }
                }
                (hand_keys(ui, What::Visit(visit.id), main))
            }
        }
    }
}

fn whole(ui: &Ui<'_>, main: bool) -> Markup {
    let words = &ui.w.share;
    html! {
        section.card {
            h2 { (words.whole_record) }
            p.below { (words.whole_record_below) }
            @match file_out::view(ui) {
                Some(being_written) => (being_written),
                None => (hand_keys(ui, What::Whole, main)),
            }
        }
    }
}

fn bring_in(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.share;
    html! {
        section.card {
            h2 { (words.bring_in_title) }
            p.below { (words.bring_in_below) }
            button.key.big.whole type="button" data-press=(ui.press(Action::OpenFile)) {
                (icon(Icon::File)) (words.open_file)
            }
        }
    }
}

/// Ways to what follows from it, and files for other programs.
fn elsewhere(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.share;
    let to_settle = settle::found(ui.model)
        .iter()
        .filter(|one| !one.calm)
        .map(|one| one.count)
        .sum::<usize>();
    let settle = match to_settle {
        0 => words.nothing_to_settle.to_owned(),
        n => count(n as u64, words.to_settle_one, words.to_settle_other),
    };
    let brought = super::imports::listed(ui.model).0;
    let brought = match brought {
        0 => words.nothing_brought.to_owned(),
        n => count(n as u64, words.files_one, words.files_other),
    };
    let deleted = match settle::deletions(ui.model) {
        0 => words.nothing_deleted.to_owned(),
        n => count(n as u64, words.deletions_one, words.deletions_other),
    };
    html! {
        ul.list.spaced {
            (super::parts::opens(ui, Icon::Warn, words.settle_title, &settle, Route::Settle))
            (super::parts::opens(ui, Icon::File, words.brought_title, &brought, Route::BroughtIn))
            (super::parts::opens(ui, Icon::Delete, words.deleted_title, &deleted, Route::Deleted))
        }
        ul.list.spaced {
            li { button.item type="button" data-press=(ui.press(Action::SaveTable)) {
                (icon(Icon::Download))
                span.what { strong { (words.table) } span.below { (words.table_below) } }
            } }
            li { button.item type="button" data-press=(ui.press(Action::SaveCalendar)) {
                (icon(Icon::Plan))
                span.what { strong { (words.calendar) } span.below { (words.calendar_below) } }
            } }
        }
    }
}
