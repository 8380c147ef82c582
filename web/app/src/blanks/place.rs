//! The place of the blanks: laminates to match, and the blanks with their sections, found by what they have to be.

use super::at_hand::at_hand;
use super::filter::{self, Filter};
use super::row::{self, Group, Row};
use super::slot_view::left_out;
use super::{Action, BLANKS, MOST_SIDE_BY_SIDE, chosen_side_by_side, page};
use crate::action::Action as Any;
use crate::drawings::section::{room, section, section_unknown};
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, Judged, Typed, icon, place_with_pane, sign, typed};
use crate::route::Route;
use crate::words::{Spoken, count, fill, wood_names};
use maud::{Markup, html};
use stillwood_core::record::{Id, ReadyLaminate};
use stillwood_core::season::Ready;

/// So many blanks are drawn before all are asked for.
const AT_FIRST: usize = 40;

/// The id of the row of the blank that stands beside the list.
pub const CHOSEN: &str = "chosen-blank";

/// The screen.
pub fn view(model: &Model) -> Page {
    let title = model.words().blanks.title;
    // Where there is nothing to choose from, nothing stands beside it.
    let beside = !row::rows(model).is_empty();
    place_with_pane(model, title, body, beside.then_some(first))
}

/// The blank that stands beside the list of a wide screen: before one is chosen, the first of the list.
fn beside_the_list(model: &Model) -> Option<Id> {
    match model.route {
        Route::Blank(id) => Some(id),
        _ if model.shell.wide => listed(model).first().copied(),
        _ => None,
    }
}

/// Before a blank is chosen: the first of the list.
fn first(ui: &Ui<'_>) -> Markup {
    html! {
        @if let Some(id) = beside_the_list(ui.model) { (page::whole(ui, id)) }
        p.below.hint { (ui.w.blanks.choose_one) }
    }
}

/// What is matched, and the list of blanks.
pub fn body(ui: &Ui<'_>) -> Markup {
    let rows = row::rows(ui.model);
    let filter = Filter::of(ui.model);
    let fitting: Vec<&Row> = rows
        .iter()
        .filter(|row| filter.fits(ui.model, row))
        .collect();
    html! {
        (to_match(ui))
        @if rows.is_empty() {
            p.empty { (ui.w.blanks.no_blank_yet) }
            @if at_hand(ui.model).is_empty() {
                button.key.main.big.whole type="button" data-press=(ui.press(Route::Racks)) { (ui.w.racks.to_the_racks) }
            }
        }
        @else {
            (filters(ui, &filter, &rows))
            p.below role="status" { (counted(ui, fitting.len(), rows.iter().filter(|row| filter.looks_at(row)).count())) }
            (list(ui, &fitting))
            (side_by_side_bar(ui))
        }
    }
}

/// So many blanks are drawn.
fn drawn(model: &Model) -> usize {
    match model.blanks.all {
        true => usize::MAX,
        false => AT_FIRST,
    }
}

/// The blanks that the list draws, in its order.
pub fn listed(model: &Model) -> Vec<Id> {
    let filter = Filter::of(model);
    let mut rows = row::rows(model);
    rows.retain(|row| filter.fits(model, row));
    let groups = Group::ALL.iter();
    let ids = groups.flat_map(|group| rows.iter().filter(|row| row.group() == *group));
    ids.map(|row| row.id).take(drawn(model)).collect()
}

fn counted(ui: &Ui<'_>, some: usize, of: usize) -> String {
    let words = &ui.w.blanks;
    match some == of {
        true => count(of as u64, words.blanks_one, words.blanks_other),
        false => fill(words.some_of, &[("n", &some), ("all", &of)]),
    }
}

/// Laminates to match, wood by wood: ready, not known, at rest.
fn to_match(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let laminates = at_hand(ui.model);
    let mut woods: Vec<(String, Id)> = Vec::new();
    for one in laminates.iter() {
        if !woods.iter().any(|(wood, _)| *wood == one.wood) {
            woods.push((one.wood.clone(), one.piece));
        }
    }
    let of = |wood: &str, ready: Ready| {
        let so = |one: &&ReadyLaminate| one.wood == wood && one.ready == ready;
        laminates.iter().filter(so).count() as u64
    };
    let line = |wood: &str| {
        let parts = [
            (of(wood, Ready::Yes), Judged::Good, words.n_ready),
            (of(wood, Ready::NotKnown), Judged::Doubt, words.n_not_known),
            (of(wood, Ready::No), Judged::Unknown, words.n_drying),
        ];
        let parts = parts.into_iter().filter(|(n, ..)| *n > 0);
        html! { @for (n, judged, sentence) in parts { span class={ "part " (judged.class()) } { (sign(judged)) (fill(sentence, &[("n", &n)])) } " " } }
    };
    let half_typed = ui
        .model
        .forms
        .contains_key(stillwood_core::record::commands::glue::FORM_KEY);
    html! {
        section.to-match aria-labelledby="to-match" {
            h2 #to-match { (words.to_match) }
            @if woods.is_empty() { p.below { (words.no_laminates) } }
            @else {
                ul.woods {
                    @for (wood, piece) in &woods {
                        li {
                            svg.wood-swatch viewBox="0 0 12 24" aria-hidden="true" {
                                rect.wood x="0" y="0" width="12" height="24" rx="2" fill=(row::colour_of(ui.model, *piece)) {}
                            }
                            span.what { strong { (wood_names::shown(wood)) } span.below { (line(wood)) } }
                        }
                    }
                }
                (left_out(ui))
                button.key.main.big.whole type="button" data-press=(ui.press(Route::Match)) {
                    (if half_typed { words.go_on_matching } else { words.match_and_glue })
                }
            }
        }
    }
}

/// What a blank has to be.
fn filters(ui: &Ui<'_>, filter: &Filter, rows: &[Row]) -> Markup {
    let words = &ui.w.blanks;
    let wood = wood_names::shown(ui.model.chosen(BLANKS, "Wood").trim());
    // Each by its name in the record, and as it is shown.
    let mut woods: Vec<(&str, String)> = Vec::new();
    for one in rows.iter().flat_map(Row::each_wood) {
        let shown = wood_names::shown(one);
        if !woods.iter().any(|(_, known)| *known == shown) {
            woods.push((one, shown));
        }
    }
    let states = [
        ("", words.all_blanks),
        (filter::FREE, words.free),
        (filter::RESERVED, words.reserved),
    ];
    let open = filter.gone || Filter::any_typed(ui.model);
    let choose = |name: &'static str, value: String| Any::Choose {
        screen: BLANKS,
        name,
        value,
    };
    html! {
        h2 { (words.blanks) }
        div.chips role="radiogroup" aria-label=(words.free_or_reserved) {
            @for (value, name) in states {
                button.chip type="button" role="radio" aria-checked=((filter.state == value).to_string())
                    data-press=(ui.press(choose("state", value.to_owned()))) { (name) }
            }
        }
        // What an older version let the maker type is no name of a wood: it is shown, and can be taken away.
        @let typed = Some(&wood).filter(|wood| !wood.is_empty() && !woods.iter().any(|(_, shown)| shown == *wood));
        @if woods.len() > 1 || typed.is_some() {
            div.chips.more role="group" aria-label=(words.wood) {
                @if let Some(typed) = typed {
                    button.chip type="button" aria-pressed="true" data-press=(ui.press(Action::OfWood(String::new()))) { (typed) }
                }
                @for (one, shown) in &woods {
                    @let on = wood == *shown;
                    @let put = if on { String::new() } else { (*one).to_owned() };
                    button.chip type="button" aria-pressed=(on.to_string()) data-press=(ui.press(Action::OfWood(put))) { (shown) }
                }
            }
        }
        details.filters open[open] {
            summary { (icon(Icon::Filter)) (words.size_weight_stiffness) }
            div.pair {
                (field(ui, filter::LENGTH, words.length_at_least, ""))
                (field(ui, filter::WIDTH, words.width_at_least, ""))
                (field(ui, filter::WEIGHT, words.weight_at_most, ""))
                (field(ui, filter::STIFFNESS, words.stiffness_at_least, words.stiffness_hint))
            }
            button.chip type="button" role="checkbox" aria-checked=(filter.gone.to_string())
                data-press=(ui.press(choose("used", (!filter.gone).to_string()))) {
                @if filter.gone { (icon(Icon::Done)) } (words.gone_too)
            }
        }
    }
}

fn field(ui: &Ui<'_>, name: &'static str, label: &str, hint: &str) -> Markup {
    let wrong = filter::typed(ui.model, name).err();
    let understood = filter::understood(ui.model, name);
    typed(&Typed {
        name,
        label,
        value: ui.model.chosen(BLANKS, name),
        below: if understood.is_empty() {
            hint
        } else {
            &understood
        },
        error: &wrong.map_or_else(String::new, |why| why.spoken()),
        number: true,
        ..Typed::default()
    })
}

/// The blanks, group by group, their sections drawn to one scale.
fn list(ui: &Ui<'_>, rows: &[&Row]) -> Markup {
    let words = &ui.w.blanks;
    let room = room(rows.iter().filter_map(|row| row.section.as_ref()));
    let headings = [
        (Group::Ready, words.group_ready),
        (Group::LookAgain, ui.w.racks.over_look_again),
        (Group::Reserved, words.group_reserved),
        (Group::AtRest, words.group_at_rest),
        (Group::Gone, words.group_gone),
    ];
    let mut left = drawn(ui.model);
    let groups = headings.map(|(group, heading)| {
        let of: Vec<&&Row> = rows
            .iter()
            .filter(|row| row.group() == group)
            .take(left)
            .collect();
        left = left.saturating_sub(of.len());
        (heading, of)
    });
    let here = beside_the_list(ui.model);
    html! {
        @for (heading, of) in &groups {
            @if !of.is_empty() {
                h2.small { (heading) }
                ul.list.blanks { @for row in of { (item(ui, row, room, here == Some(row.id))) } }
            }
        }
        @if rows.len() > AT_FIRST {
            button.key.whole type="button" data-press=(ui.press(Action::All)) {
                @if ui.model.blanks.all { (words.show_fewer) } @else { (fill(words.show_all, &[("n", &rows.len())])) }
            }
        }
    }
}

fn item(ui: &Ui<'_>, row: &Row, room: (f64, f64), here: bool) -> Markup {
    let words = &ui.w.blanks;
    let (judged, stands) = row::stands(ui, row);
    let mut below = vec![row::size_words(ui, row)];
    below.extend(row::weight_words(ui, row));
    let beside = chosen_side_by_side(ui.model).contains(&row.id);
    let label = fill(words.side_by_side_label, &[("mark", &row.mark)]);
    html! {
        li.blank aria-current=[here.then_some("true")] {
            a.item id=[here.then_some(CHOSEN)] href=(Route::Blank(row.id).address()) data-press=(ui.press(Route::Blank(row.id))) {
                @match &row.section {
                    Some(drawn) => (section(drawn, room, &row::section_said(ui, row.id))),
                    None => (section_unknown(words.section_unknown)),
                }
                span.what {
                    span.mark-and-state { strong { (row.mark) } span class=(judged.class()) { (sign(judged)) (stands) } }
                    span.below { (wood_names::shown(&row.woods)) }
                    span.below { (below.join(" · ")) }
                    @if let Some(reserved) = row::reserved_words(ui, row, false) { span.below { strong { (reserved) } } }
                }
            }
            @if row.is_there() {
                button.chip.beside type="button" aria-pressed=(beside.to_string()) aria-label=(label)
                    data-press=(ui.press(Action::SideBySide(row.id))) {
                    @if beside { (icon(Icon::Done)) } @else { (icon(Icon::Add)) }
                }
            }
        }
    }
}

/// How many are chosen to stand side by side, and the way to them.
fn side_by_side_bar(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let chosen = chosen_side_by_side(ui.model).len();
    html! {
        // It stays in view while the list is scrolled: what is chosen leads on from there.
        div class=(if chosen == 0 { "chosen" } else { "chosen in-view" }) role="status" {
            @if chosen == 0 { p.below { (fill(words.side_by_side_how, &[("n", &MOST_SIDE_BY_SIDE)])) } }
            @else {
                p { (count(chosen as u64, words.chosen_one, words.chosen_other)) }
                div.keys {
                    button.key.main type="button" disabled[chosen < 2] data-press=(ui.press(Route::SideBySide)) { (words.side_by_side) }
                    button.key type="button" data-press=(ui.press(Action::NoneSideBySide)) { (words.clear) }
                }
            }
        }
    }
}

/// A blank: on a wide screen beside the list.
pub fn one(model: &Model, id: Id) -> Option<Page> {
    let is_here = model.state().piece(id).is_some_and(row::is_blank);
    match model.shell.wide {
        true => is_here.then(|| with_pane(model, id)),
        false => page::view(model, id),
    }
}

/// A blank on a wide screen: the list, and the blank in the pane.
fn with_pane(model: &Model, id: Id) -> Page {
    let title = model.words().blanks.title;
    place_with_pane(model, title, body, Some(|ui: &Ui<'_>| page::whole(ui, id)))
}
