//! The files that wait, each as a card: what is in it, what is new, what is damaged, and the keys.

use super::imports::CutShort;
use super::incoming::{self, Action, Came, Incoming, Looked, Stage, unreadable};
use super::parts::facts;
use crate::page::Ui;
use crate::words::{Spoken, count, fill};
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::record::queries;
use stillwood_core::record::{Id, Preview, Problem, Selection, visible_text};

/// Problems listed; the rest are counted.
const LISTED: usize = 20;

/// What was said of the files that were brought in, and the files that wait.
pub(super) fn files(ui: &Ui<'_>) -> Markup {
    html! {
        div #brought-in role="status" {
            @for said in &ui.model.book.brought { p.notice { (said) } }
        }
        @for file in &ui.model.book.incoming { (waiting(ui, file)) }
    }
}

fn waiting(ui: &Ui<'_>, file: &Incoming) -> Markup {
    let words = &ui.w.share;
    let leave = |says: &str| {
        html! {
            button.key.big type="button" data-press=(ui.press(Action::Leave(file.number))) { (says) }
        }
    };
    html! {
        section.card.incoming aria-label=(file.name) {
            h2 { bdi { (file.name) } }
            @if let Some(came) = came(ui, file.came) { p.notice.doubt { (came) } }
            @match &file.stage {
                Stage::Refused(why) => {
                    p.bad { (fill(words.cannot_bring_in, &[("why", why)])) }
                    div.keys { (leave(words.put_away)) }
                },
                Stage::Reading(reader) => {
                    @let (done, of) = reader.progress();
                    (progress(words.reading, done, of))
                    div.keys { (leave(words.stop)) }
                },
                Stage::Comparing(_) => {
                    p role="status" { (words.comparing) }
                    div.keys { (leave(words.stop)) }
                },
                Stage::BringingIn(_, done, of) => {
                    (progress(words.bringing_in, *done, *of))
                    div.keys {
                        button.key.big type="button" data-press=(ui.press(Action::Stop)) { (words.stop) }
                    }
                },
                Stage::Looked(looked) => (decide(ui, file, looked, &leave(words.leave_it))),
            }
        }
    }
}

/// How far it is, drawn and said.
pub(super) fn progress(sentence: &str, done: usize, of: usize) -> Markup {
    let said = fill(sentence, &[("done", &done), ("of", &of)]);
    html! {
        p role="status" { (said) }
        progress value=(done) max=(of.max(1)) aria-label=(said) {}
    }
}

fn came(ui: &Ui<'_>, came: Came) -> Option<&'static str> {
    let words = &ui.w.share;
    match came {
        Came::ByHand => None,
        Came::FromApp => Some(words.came_from_app),
        Came::FromUnknown => Some(words.came_from_unknown),
        Came::FromHere => Some(words.came_from_here),
    }
}

/// What bringing it in would do, and the keys.
fn decide(ui: &Ui<'_>, file: &Incoming, looked: &Looked, leave: &Markup) -> Markup {
    let words = &ui.w.share;
    let preview = &looked.preview;
    let gained = looked.gained(ui.model);
    let rows: [(&str, usize); 6] = [
        (words.new_planks, preview.new_pieces),
        (words.new_entries, preview.new),
        (words.here_already, preview.already_here),
        (words.differing, preview.altered.len()),
        (words.pairs_after, preview.pairs.len()),
        (
            words.problems,
            unreadable(preview).count() + looked.reading.more_problems,
        ),
    ];
    let always = [words.new_planks, words.new_entries];
    let rows = rows
        .into_iter()
        .filter(|(name, n)| *n > 0 || always.contains(name));
    let rows: Vec<(&str, String)> = rows.map(|(name, n)| (name, n.to_string())).collect();
    let key = match (looked.nothing_new(), gained) {
        (false, _) => words.bring_in.to_owned(),
        (true, 0) => words.nothing_new.to_owned(),
        (true, n) => count(
            n as u64,
            words.note_elsewhere_one,
            words.note_elsewhere_other,
        ),
    };
    html! {
        p.below { (origin(ui, looked)) }
        @if !preview.undone.is_empty() {
            div.notice.doubt {
                p { (fill(words.was_undone, &[("day", &undone_on(ui, &preview.undone))])) }
                div.keys {
                    button.key type="button" data-press=(ui.press(Action::PutBack(file.number))) { (words.put_it_back) }
                }
            }
        }
        (facts(&rows))
        @if let Some(said) = cut_short(ui, preview) { p.notice.doubt { (said) } }
        @if preview.newer { p.notice.doubt { (words.file_newer) } }
        @if !preview.altered.is_empty() { p.notice.doubt { (words.altered_below) } }
        (problems(ui, looked))
        div.keys.decide {
            (leave)
            button.key.main.big.grow type="button" disabled[looked.nothing_new() && gained == 0]
                data-press=(ui.press(Action::BringIn(file.number))) { (key) }
        }
    }
}

/// How much of a file is here that ends too early.
fn cut_short(ui: &Ui<'_>, preview: &Preview) -> Option<String> {
    let words = &ui.w.share;
    let CutShort { here, of } = incoming::cut_short(preview)?;
    Some(match of {
        Some(of) => fill(words.cut_short_of, &[("n", &here), ("of", &of)]),
        None => fill(words.cut_short, &[("n", &here)]),
    })
}

/// What can't be read, each with its place and reason.
fn problems(ui: &Ui<'_>, looked: &Looked) -> Markup {
    let words = &ui.w.share;
    let problems: Vec<&Problem> = unreadable(&looked.preview).collect();
    let more = problems.len().saturating_sub(LISTED) + looked.reading.more_problems;
    html! {
        @if !problems.is_empty() {
            div.notice.doubt {
                p { (words.problems_below) }
                ol.problems {
                    @for problem in problems.iter().take(LISTED) {
                        li { bdi { (visible_text(&problem.spoken())) } }
                    }
                }
                @if more > 0 { p { (fill(words.and_more, &[("n", &more)])) } }
            }
        }
    }
}

/// Where a file is from, in a line.
fn origin(ui: &Ui<'_>, looked: &Looked) -> String {
    let (words, reading) = (&ui.w.share, &looked.reading);
    let devices = order::set_of(reading.accepted.iter().map(|entry| entry.by.as_str()));
    let state = ui.model.state();
    let devices: Vec<&str> = devices
        .into_iter()
        .map(|by| queries::device_shown(state, by))
        .collect();
    let mut said = vec![match &reading.header.what {
        Selection::Whole if cut_short(ui, &looked.preview).is_some() => {
            words.part_of_a_record.to_owned()
        }
        Selection::Whole => words.a_whole_record.to_owned(),
        Selection::Visit => words.one_visit_of_it.to_owned(),
        Selection::Other(name) => fill(words.a_selection, &[("name", name)]),
    }];
    if !devices.is_empty() {
        said.push(fill(words.entered_on, &[("devices", &devices.join(", "))]));
    }
    if !reading.header.app.is_empty() {
        said.push(fill(words.written_by, &[("app", &reading.header.app)]));
    }
    if !reading.header.written.is_empty() {
        said.push(fill(
            words.written_at,
            &[("at", &moment(ui.model, &reading.header.written))],
        ));
    }
    visible_text(&said.join(" ")).into_owned()
}

/// A moment as a file gives it, to the minute.
fn moment(model: &crate::Model, written: &str) -> String {
    match written.split_once('T') {
        Some((day, time)) => format!(
            "{} {}",
            model.day_kept(day),
            time.chars().take(5).collect::<String>()
        ),
        None => written.to_owned(),
    }
}

/// The day of the last of the entries that undid an import.
fn undone_on(ui: &Ui<'_>, undone: &[Id]) -> String {
    let entries = undone
        .iter()
        .filter_map(|id| ui.model.record.log().entry(*id));
    let last = entries.map(|entry| entry.on).max();
    last.map_or_else(String::new, |last| ui.model.day(last))
}
