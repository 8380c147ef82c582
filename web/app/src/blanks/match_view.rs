//! Match and glue: the slots of a blank drawn as its section, levels for crook and twist, and the laminates for the
//! slot that is looked at.

use super::at_hand::at_hand;
use super::in_hand::{self, InHand, in_hand};
use super::matching::count;
use super::{Action, comes_to, row, slot_view};
use crate::action::Action as Any;
use crate::drawings::section::{Slot, grain_run, slot};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, notices, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count as count_of, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::neck::MOST_PLACES;
use stillwood_core::quantity::in_mm;
use stillwood_core::record::{Member, ReadyLaminate, queries};

/// The room for the slots, pixels: of a phone and of a wide screen.
const ROOM: [(f64, f64); 2] = [(350.0, 132.0), (500.0, 190.0)];
/// What stands beside the drawing of a slot, pixels.
const BESIDE: f64 = 18.0;
/// No slot is scaled to less than this, pixels a millimetre; what has no room is scrolled to.
const LEAST_SCALE: f64 = 1.2;
/// A slot in which nothing stands is drawn so thick and deep, mm.
const EMPTY: (f64, f64) = (17.0, 48.0);

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().blanks;
    let places = count(model);
    let title = match places {
        0 => words.match_any.to_owned(),
        1 => words.match_one.to_owned(),
        n => fill(words.match_n, &[("n", &n)]),
    };
    let of = in_hand(model);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &title, &woods_of(ui), limits_key(ui))
        })
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", |ui| body(ui, of.as_ref()))
        .with(model, "toast", "div", toast);
    if at_hand(model).is_empty() {
        return page;
    }
    page.with(model, "foot", "footer", |ui| foot(ui, of.as_ref()))
}

fn limits_key(ui: &Ui<'_>) -> Markup {
    html! {
        button.key.quiet type="button" aria-label=(ui.w.blanks.how_far_off) data-press=(ui.press(Route::GluingLimits)) {
            (icon(Icon::Settings))
        }
    }
}

/// The woods of the set, from one side to the other.
fn woods_of(ui: &Ui<'_>) -> String {
    let set = ui.model.blanks.matching.set.iter().flatten();
    let woods: Vec<String> = set
        .filter_map(|one| {
            Some(wood_names::shown(
                &in_hand::laminate_of(ui.model, one)?.wood,
            ))
        })
        .collect();
    row::in_a_row(&woods, " · ")
}

fn body(ui: &Ui<'_>, of: Option<&InHand>) -> Markup {
    let words = &ui.w.blanks;
    if at_hand(ui.model).is_empty() {
        return html! {
            p.empty { (words.no_laminates) }
            button.key.main.big.whole type="button" data-press=(ui.press(Route::Racks)) { (ui.w.racks.to_the_racks) }
        };
    }
    html! {
        div.match {
            div {
                (slots(ui))
                (slot_view::turns(ui))
                (progress(ui))
                @if let Some(of) = of {
                    (comes_to::levels(ui, of))
                    (comes_to::figures(ui, of))
                    (comes_to::warnings(ui, of))
                }
            }
            div {
                (slot_view::laminates(ui, of))
                (slot_view::slot_in_hand(ui))
                @if let Some(of) = of { (comes_to::more_figures(ui, of)) }
                (slot_view::searched_through(ui))
                (how_many(ui))
            }
        }
    }
}

/// How many laminates make the blank.
fn how_many(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let n = count(ui.model);
    let wrong = ui
        .model
        .form
        .as_ref()
        .and_then(|form| form.errors.of("Laminates in the blank"));
    html! {
        div.stepper role="group" aria-label=(words.how_many) {
            span.name { (words.how_many) }
            button.key type="button" disabled[n <= 1] aria-label=(words.one_fewer)
                data-press=(ui.press(slot_view::giving_up(ui, Action::Count(n.saturating_sub(1).max(1))))) { (icon(Icon::Fewer)) }
            strong { (n) }
            button.key type="button" disabled[n >= MOST_PLACES] aria-label=(words.one_more)
                data-press=(ui.press(slot_view::giving_up(ui, Action::Count(n + 1)))) { (icon(Icon::Add)) }
        }
        @if n == 1 { p.below { (words.one_piece_how) } }
        @if let Some(why) = wrong { p.bad role="alert" { (why.spoken()) } }
    }
}

/// The blank's section: a key for each place.
fn slots(ui: &Ui<'_>) -> Markup {
    let model = ui.model;
    let matching = &model.blanks.matching;
    let found: Vec<Option<ReadyLaminate>> = matching
        .set
        .iter()
        .map(|one| in_hand::laminate_of(model, one.as_ref()?))
        .collect();
    let sizes = found.iter().map(|one| match one {
        Some(one) => (in_mm(one.laminate.thickness), in_mm(one.laminate.width)),
        None => EMPTY,
    });
    let sizes: Vec<(f64, f64)> = sizes.collect();
    let whole: f64 = sizes.iter().map(|(thick, _)| thick).sum();
    let deep = sizes.iter().map(|(_, deep)| *deep).fold(1.0, f64::max);
    let (wide, high) = ROOM[usize::from(model.shell.wide)];
    let wide = wide - BESIDE * sizes.len() as f64;
    let scale = (wide / whole.max(1.0)).min(high / deep).max(LEAST_SCALE);
    let one = |at: usize, found: &Option<ReadyLaminate>, (thickness, depth): (f64, f64)| {
        let member = matching.set.get(at).and_then(Option::as_ref);
        let drawn = Slot {
            thickness,
            depth,
            colour: found.as_ref().map(|one| row::colour_of(model, one.piece)),
            rings: found.as_ref().and_then(|one| {
                let lean = one.laminate.lean?;
                Some(queries::ring_slant(lean, one.ring_angle))
            }),
            turned_over: member.is_some_and(|one| one.turned_over),
            end_for_end: member.is_some_and(|one| one.turned),
            scale,
            clip: format!("slot-{at}"),
        };
        slot_key(ui, at, member, found.as_ref(), &drawn)
    };
    html! {
        div.slots role="radiogroup" aria-label=(ui.w.blanks.slots_label) {
            @for (at, (found, size)) in found.iter().zip(sizes).enumerate() { (one(at, found, size)) }
        }
    }
}

fn slot_key(
    ui: &Ui<'_>,
    at: usize,
    member: Option<&Member>,
    found: Option<&ReadyLaminate>,
    drawn: &Slot,
) -> Markup {
    let words = &ui.w.blanks;
    let place = at + 1;
    let mark = found.map_or(words.empty_slot, |one| &one.mark);
    let turned = member.map_or("", |member| slot_view::turned(ui, member));
    let rings = match drawn.rings {
        Some(_) => "",
        None if found.is_some() => words.rings_not_looked,
        None => "",
    };
    let label = fill(
        words.slot_label,
        &[
            ("place", &place),
            ("mark", &mark),
            ("turned", &turned),
            ("rings", &rings),
        ],
    );
    let runs = member.zip(found).and_then(|(member, one)| {
        let over = stillwood_core::neck::Turn {
            turned_over: member.turned_over,
            end_for_end: member.turned,
        };
        Some(one.laminate.rise?.sign() * over.of_runout())
    });
    html! {
        button.slot-key type="button" role="radio" aria-label=(label)
            aria-checked=((ui.model.blanks.matching.slot == at).to_string()) data-press=(ui.press(Action::Slot(at))) {
            (slot(drawn))
            @if found.is_some() { (grain_run(runs)) }
            strong { (mark) }
            span.below { (turned) }
        }
    }
}

/// How far the search is, with a key that stops it.
fn progress(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let matching = &ui.model.blanks.matching;
    let looked = matching.state.map_or(0, |state| state.looked_at);
    let done = matching.state.is_some_and(|state| state.done);
    let n = counted(looked);
    let shown = format!("{}", matching.at + 1);
    let of = matching.sets.len();
    html! {
        div.progress role="status" {
            @if matching.running {
                span { (fill(words.looking, &[("n", &n)])) }
                button.key type="button" data-press=(ui.press(Action::Stop)) { (words.stop) }
            } @else if !matching.trouble.is_empty() {
                span.doubt #no-match { (matching.trouble) }
            } @else if matching.by_hand {
                span { (against_proposal(ui)) }
                @if of > 0 { button.key type="button" data-press=(ui.press(Action::AsProposed)) { (words.as_proposed) } }
                @else { button.key type="button" data-press=(ui.press(Action::Seek)) { (words.find_best) } }
            } @else if of > 0 {
                span {
                    (fill(words.set_n_of, &[("n", &shown), ("all", &of)])) " "
                    @if done { (fill(words.looked_through, &[("n", &n)])) } @else { (fill(words.stopped_after, &[("n", &n)])) }
                }
                @if !done { button.key type="button" data-press=(ui.press(Action::Seek)) { (words.find_best) } }
            }
        }
        @if matching.running { progress aria-label=(words.looking_label) {} }
    }
}

/// What a change by hand did: better or worse, and what the levels showed before it.
fn against_proposal(ui: &Ui<'_>) -> String {
    let words = &ui.w.blanks;
    let (Some(now), Some(before)) = (in_hand(ui.model), in_hand::as_proposed(ui.model)) else {
        return words.by_hand.to_owned();
    };
    let word = comes_to::better_or_worse(ui, &now.judged, &before.judged);
    let [crook, twist] = [before.judged.mean_crook, before.judged.mean_twist]
        .map(|one| show::gap(in_mm(one), ui.model.units()));
    fill(
        words.against_proposal,
        &[("word", &word), ("crook", &crook), ("twist", &twist)],
    )
}

/// A large number with its thousands apart.
fn counted(number: u64) -> String {
    let digits = number.to_string();
    let mut words = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            words.push('\u{202f}');
        }
        words.push(digit);
    }
    words
}

/// What glues the set: with things left to check it is not the key that leads, and asks once.
fn foot(ui: &Ui<'_>, of: Option<&InHand>) -> Markup {
    let words = &ui.w.blanks;
    let matching = &ui.model.blanks.matching;
    let n = count(ui.model);
    let glue = match n {
        1 => words.make_one.to_owned(),
        n => fill(words.glue_n, &[("n", &n)]),
    };
    let to_check = of.map_or(0, |of| comes_to::ToCheck::of(ui, of).count());
    let open = to_check > 0;
    let action: Any = match open {
        false => Action::Glue.into(),
        true => Any::Ask {
            question: count_of(to_check as u64, words.glue_open_one, words.glue_open_other),
            yes: words.go_on_all_the_same.to_owned(),
            action: Box::new(Action::Glue.into()),
        },
    };
    html! {
        button.key.big type="button" disabled[matching.sets.len() < 2] data-press=(ui.press(slot_view::giving_up(ui, Action::NextBest))) { (words.next_best) }
        button.key.big.wide.main[!open] type="button" disabled[of.is_none()] data-press=(ui.press(action)) { (glue) }
    }
}
