//! The place that is looked at: the laminate that stands there and its turns, and those that could stand there, each
//! with what the blank would come to. What is not ready says why it is not chosen.

use super::at_hand::{at_hand, downgraded};
use super::in_hand::{self, InHand};
use super::matching::{self, count};
use super::{Action, comes_to, row};
use crate::action::Action as Any;
use crate::drawings::tile;
use crate::drawings::{grain_sign, rings_sign};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Icon, Judged, icon, sign};
use crate::words::{Spoken, dates, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::neck::Judged as Comes;
use stillwood_core::order;
use stillwood_core::plank::{RingTilt, RunoutDirection};
use stillwood_core::quantity::in_mm;
use stillwood_core::record::{Member, ReadyLaminate, RestLine};
use stillwood_core::season::Ready;

/// So many laminates are listed before all are asked for.
const AT_FIRST: usize = 6;

/// How a laminate is turned, in a word or two.
pub fn turned(ui: &Ui<'_>, member: &Member) -> &'static str {
    let words = &ui.w.blanks;
    match (member.turned_over, member.turned) {
        (false, false) => words.as_is,
        (true, false) => words.turned_over,
        (false, true) => words.end_for_end,
        (true, true) => words.both_turned,
    }
}

/// An action that gives up the set in hand: it is asked about where the maker changed that by hand.
pub fn giving_up(ui: &Ui<'_>, action: Action) -> Any {
    let words = &ui.w.blanks;
    match ui.model.blanks.matching.by_hand {
        false => action.into(),
        true => Any::Ask {
            question: words.give_up_set.to_owned(),
            yes: words.give_up.to_owned(),
            action: Box::new(action.into()),
        },
    }
}

/// The laminate at the place that is looked at.
fn in_slot(ui: &Ui<'_>) -> Option<(Member, ReadyLaminate)> {
    let matching = &ui.model.blanks.matching;
    let member = matching.set.get(matching.slot)?.as_ref()?;
    Some((member.clone(), in_hand::laminate_of(ui.model, member)?))
}

/// The keys that turn the laminate at the place that is looked at, and how it lies.
pub fn turns(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let Some((member, one)) = in_slot(ui).filter(|_| count(ui.model) > 1) else {
        return Markup::default();
    };
    html! {
        section.in-slot aria-label=(fill(words.place_n, &[("n", &(ui.model.blanks.matching.slot + 1))])) {
            div.keys {
                button.key type="button" aria-pressed=(member.turned_over.to_string()) data-press=(ui.press(Action::TurnOver)) { @if member.turned_over { (icon(Icon::Done)) } (words.turn_over) }
                button.key type="button" aria-pressed=(member.turned.to_string()) data-press=(ui.press(Action::EndForEnd)) { @if member.turned { (icon(Icon::Done)) } (words.end_for_end_key) }
            }
            p.below { (fill(words.mark_lies, &[("mark", &one.mark), ("lies", &super::page::lies(ui, &member))])) }
        }
    }
}

/// What can only be seen on the laminate at the place that is looked at.
pub fn slot_in_hand(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let Some((_, one)) = in_slot(ui).filter(|_| count(ui.model) > 1) else {
        return Markup::default();
    };
    let open = one.laminate.lean.is_none() || one.laminate.rise.is_none();
    html! {
        details.sides {
            summary {
                @if open { span.open { (sign(Judged::Unknown)) (fill(words.sides_open, &[("mark", &one.mark)])) } }
                @else { (fill(words.sides_known, &[("mark", &one.mark)])) }
            }
            (sides(ui, &one))
        }
    }
}

/// How the rings rise and how the grain runs: a picture to press for each.
fn sides(ui: &Ui<'_>, one: &ReadyLaminate) -> Markup {
    let words = &ui.w.blanks;
    let name = |what: &str| fill(words.mark_what, &[("mark", &one.mark), ("what", &what)]);
    html! {
        p.below { (words.sides_how) }
        div.chips role="group" aria-label=(words.rings) {
            @for tilt in RingTilt::ALL {
                button.chip.picture type="button" aria-label=(name(&tilt.in_words().spoken())) aria-pressed=((one.laminate.lean == Some(tilt)).to_string())
                    data-press=(ui.press(Action::Rings(one.piece, tilt))) { (rings_sign(tilt)) }
            }
        }
        div.chips.more role="group" aria-label=(words.grain) {
            @for way in RunoutDirection::ALL {
                button.chip.picture type="button" aria-label=(name(&way.in_words().spoken())) aria-pressed=((one.laminate.rise == Some(way)).to_string())
                    data-press=(ui.press(Action::Grain(one.piece, way))) { (grain_sign(way)) }
            }
        }
    }
}

/// A laminate that could stand at the place, and what the blank would come to.
struct Offered {
    one: ReadyLaminate,
    here: bool,
    /// The place at which it stands, where that is another one.
    elsewhere: Option<usize>,
    comes: Option<Comes>,
}

/// Those that could stand at the place that is looked at: what stands there, then the best, then what is not ready.
fn offered(model: &Model, of: Option<&InHand>, at: usize) -> Vec<Offered> {
    let matching = &model.blanks.matching;
    let here = matching
        .set
        .get(at)
        .and_then(Option::as_ref)
        .map(|one| one.piece);
    let place_of = |id| {
        let stands = |one: &Option<Member>| one.as_ref().is_some_and(|one| one.piece == id);
        matching
            .set
            .iter()
            .position(stands)
            .filter(|place| *place != at)
    };
    let wanted = matching::wood_wanted(model, at);
    let fits =
        |one: &&ReadyLaminate| wanted.is_empty() || one.wood == wanted || Some(one.piece) == here;
    let stock = at_hand(model);
    let mut all: Vec<Offered> = stock
        .iter()
        .filter(fits)
        .map(|one| Offered {
            one: one.clone(),
            here: Some(one.piece) == here,
            elsewhere: place_of(one.piece),
            comes: of.and_then(|of| Some(in_hand::with_at(of, at, one)?.1)),
        })
        .collect();
    let cost = |one: &Offered| one.comes.as_ref().map_or(f64::MAX, |comes| comes.cost);
    order::sort_by(&mut all, |a, b| {
        let by = |one: &Offered| (!one.here, one.one.ready);
        by(a).cmp(&by(b)).then(cost(a).total_cmp(&cost(b)))
    });
    all
}

/// The laminates for the place that is looked at, and the wood that is wanted there.
pub fn laminates(ui: &Ui<'_>, of: Option<&InHand>) -> Markup {
    let words = &ui.w.blanks;
    let at = ui.model.blanks.matching.slot;
    let places = count(ui.model);
    if at >= places {
        return Markup::default();
    }
    let all = offered(ui.model, of, at);
    let now = of.map(|of| &of.judged);
    let shown = if ui.model.blanks.all {
        all.len()
    } else {
        AT_FIRST
    };
    // What is at rest is seen without asking for all: the first of each kind stands in the list.
    let first_not_ready = all
        .iter()
        .position(|one| one.one.ready == Ready::No)
        .filter(|at| *at >= shown);
    let wanted = matching::wood_wanted(ui.model, at);
    let heading = match wanted.is_empty() {
        true => fill(words.for_place, &[("n", &(at + 1))]),
        false => fill(
            words.for_place_wood,
            &[("n", &(at + 1)), ("wood", &wood_names::shown(&wanted))],
        ),
    };
    html! {
        h2.small #for-slot { (heading) }
        (woods(ui, at, &wanted))
        div.list role="radiogroup" aria-labelledby="for-slot" {
            @for one in all.iter().take(shown) { div.option { (item(ui, one, now)) } }
            @if let Some(one) = first_not_ready.and_then(|at| all.get(at)) { div.option { (item(ui, one, now)) } }
        }
        @if all.len() > AT_FIRST {
            button.key.whole type="button" data-press=(ui.press(Action::All)) {
                @if ui.model.blanks.all { (words.show_fewer) } @else { (fill(words.show_all, &[("n", &all.len())])) }
            }
        }
    }
}

/// Which wood is wanted at a place; only where there is a choice.
fn woods(ui: &Ui<'_>, at: usize, wanted: &str) -> Markup {
    let words = &ui.w.blanks;
    let mut names: Vec<String> = Vec::new();
    for one in at_hand(ui.model).iter() {
        if !one.wood.is_empty() && !names.contains(&one.wood) {
            names.push(one.wood.clone());
        }
    }
    if names.len() < 2 {
        return Markup::default();
    }
    let mirrored = matching::is_mirrored(ui.model);
    html! {
        details open[!wanted.is_empty()] {
        summary { (fill(words.wood_here_is, &[("wood", &if wanted.is_empty() { words.any_wood.to_owned() } else { wood_names::shown(wanted) })])) }
        div.chips role="radiogroup" aria-label=(words.wood_here) {
            button.chip type="button" role="radio" aria-checked=(wanted.is_empty().to_string())
                data-press=(ui.press(giving_up(ui, Action::Wood(at, String::new())))) { (words.any_wood) }
            @for name in names {
                button.chip type="button" role="radio" aria-checked=((name == wanted).to_string())
                    data-press=(ui.press(giving_up(ui, Action::Wood(at, name.clone())))) { (wood_names::shown(&name)) }
            }
            button.chip type="button" role="checkbox" aria-checked=(mirrored.to_string()) data-press=(ui.press(giving_up(ui, Action::Mirror(!mirrored)))) {
                @if mirrored { (icon(Icon::Done)) } (words.both_sides)
            }
        }
        }
    }
}

/// The share of a rest that is over, for the ring of its tile.
fn passed(ui: &Ui<'_>, line: Option<&RestLine>) -> f64 {
    line.and_then(|line| line.share_over(ui.model.now.date()))
        .unwrap_or_default()
}

/// Whether a laminate of which it is not known that it is ready stands in the set.
fn holds_one_not_known(model: &Model) -> bool {
    let standing = model.blanks.matching.set.iter().flatten();
    standing
        .filter_map(|member| in_hand::laminate_of(model, member))
        .any(|one| one.ready == Ready::NotKnown)
}

fn item(ui: &Ui<'_>, of: &Offered, now: Option<&Comes>) -> Markup {
    let words = &ui.w.blanks;
    let one = &of.one;
    let line = ui
        .model
        .state()
        .piece(one.piece)
        .and_then(|piece| row::rest_line(ui.model, piece));
    let rest = line.as_ref().and_then(|line| line.ready.as_ref().ok());
    let (judged, rest_said) = match rest {
        Some(ready) => row::rest_words(ui, ready),
        None => (Judged::Unknown, words.never_rested),
    };
    let standing = match (one.ready, judged) {
        (Ready::Yes, _) if one.is_look_old => Some(Judged::Doubt),
        (Ready::Yes, _) => Some(Judged::Good),
        (_, Judged::Unknown) => None,
        (_, judged) => Some(judged),
    };
    let colour = row::colour_of(ui.model, one.piece);
    let action: Any = match one.ready {
        _ if of.here => Action::Slot(ui.model.blanks.matching.slot).into(),
        Ready::Yes => Action::Put(one.piece).into(),
        // Said of one laminate of the set, it holds for the others of which as little is known.
        Ready::NotKnown if holds_one_not_known(ui.model) => Action::Put(one.piece).into(),
        ready => {
            // Where its rest is over, that was said.
            let until = rest
                .filter(|_| one.ready == Ready::No)
                .map(|ready| row::due_beside(ui, ready))
                .unwrap_or_default();
            let why = [rest_said, until.as_str()]
                .into_iter()
                .filter(|part| !part.is_empty())
                .collect::<Vec<_>>()
                .join("; ");
            let sentence = if ready == Ready::NotKnown {
                words.why_not_known
            } else {
                words.why_not_ready
            };
            Any::Ask {
                question: fill(sentence, &[("mark", &one.mark), ("why", &why)]),
                yes: words.use_it_anyway.to_owned(),
                action: Box::new(Action::Put(one.piece).into()),
            }
        }
    };
    let said = match (of.here, one.ready) {
        (true, _) => words.stands_here.to_owned(),
        (false, Ready::Yes) => {
            let effect = effect(ui, of.comes.as_ref(), now);
            match of.elsewhere {
                Some(place) => fill(
                    words.swaps_with,
                    &[("n", &(place + 1)), ("effect", &effect)],
                ),
                None => effect,
            }
        }
        (false, Ready::NotKnown) => fill(words.not_known_ready, &[("why", &rest_said)]),
        (false, Ready::No) => fill(words.not_ready, &[("why", &rest_said)]),
    };
    let old = ui
        .model
        .state()
        .piece(one.piece)
        .and_then(|piece| row::old_look(ui.model, piece))
        .filter(|_| one.ready == Ready::Yes)
        .map(|looked| dates::month_of_year(ui.w, looked));
    html! {
        button.item type="button" role="radio" aria-checked=(of.here.to_string()) data-press=(ui.press(action)) {
            (tile(&[&colour], passed(ui, line.as_ref()), standing))
            span.what {
                span.mark-and-state { strong { (one.mark) } " " span { (wood_names::shown(&one.wood)) } }
                span.below { (said) }
                @if let Some(month) = old { span.below.doubt { (fill(words.look_again_since, &[("month", &month)])) } }
            }
            @if of.here { (icon(Icon::Done)) } @else if one.ready != Ready::Yes { (icon(Icon::Info)) }
        }
    }
}

/// What the blank would come to, and whether that is better.
fn effect(ui: &Ui<'_>, comes: Option<&Comes>, now: Option<&Comes>) -> String {
    let words = &ui.w.blanks;
    let Some(comes) = comes else {
        return words.ready_to_glue.to_owned();
    };
    let units = ui.model.units();
    let [crook, twist] =
        [comes.mean_crook, comes.mean_twist].map(|one| show::gap(in_mm(one), units));
    let word = now.map_or_else(
        || words.the_same.to_owned(),
        |now| comes_to::better_or_worse(ui, comes, now),
    );
    fill(
        words.would_leave,
        &[("crook", &crook), ("twist", &twist), ("word", &word)],
    )
}

/// That laminates were put to another use, and so are not among those to match.
pub fn left_out(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let n = downgraded(ui.model) as u64;
    html! {
        @if n > 0 { p.below { (crate::words::count(n, words.downgraded_one, words.downgraded_other)) } }
    }
}

/// Which laminates are searched through: those that are ready, and what the maker takes in or leaves out.
pub fn searched_through(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let stock = at_hand(ui.model);
    let searched = matching::searched(ui.model);
    let n = stock
        .iter()
        .filter(|one| searched.contains(&one.piece))
        .count();
    let headings = [
        ((Ready::Yes, false), words.group_ready),
        ((Ready::Yes, true), words.group_look_old),
        ((Ready::NotKnown, false), words.group_not_known),
        ((Ready::No, false), words.group_not_ready),
    ];
    // How old a look is matters only where its rest is over.
    let group = |one: &ReadyLaminate| (one.ready, one.is_look_old && one.ready == Ready::Yes);
    html! {
        details.searched {
            summary { (fill(words.searched, &[("n", &n), ("all", &stock.len())])) }
            p.below { (words.searched_how) }
            (left_out(ui))
            @for (of_group, heading) in headings {
                @let of: Vec<&ReadyLaminate> = stock.iter().filter(|one| group(one) == of_group).collect();
                @if !of.is_empty() {
                    h2.small { (heading) }
                    div.chips {
                        @for one in of {
                            button.chip type="button" aria-pressed=(searched.contains(&one.piece).to_string()) data-press=(ui.press(Action::Take(one.piece))) {
                                strong { (one.mark) } span.below { (wood_names::shown(&one.wood)) }
                            }
                        }
                    }
                }
            }
            button.key.whole type="button" data-press=(ui.press(giving_up(ui, Action::Seek))) { (words.find_best) }
        }
    }
}
