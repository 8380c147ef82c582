//! The set in hand: drawn with its turns, warned of first, told what it comes to, and changed by hand
//! with the effect beside it.

use super::{Gluing, drawn_of};
use crate::app::App;
use crate::drawings::blank_end;
use crate::parts::{CollectAny, facts_drawn, live, told_fact};
use leptos::prelude::*;
use stillwood_core::neck::{
    Judged, MatchFigure, MatchLimits, MatchWarning, Placed, Turn, judge_match, match_told,
};
use stillwood_core::notebook::{ReadyLaminate, blank_of, blank_size_told, blank_weight_told};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Length, Working, in_kg, in_mm, show};

/// A warning in words, and whether it is one to stop at.
fn warning(of: &MatchWarning) -> (String, bool) {
    match of {
        MatchWarning::MoistureSpread(spread) => (
            format!(
                "Moisture: {} from the driest to the wettest. They will move apart after gluing: let them rest \
                 together first.",
                show::moisture(spread.in_percent())
            ),
            true,
        ),
        MatchWarning::MixedRingClasses => (
            "Flatsawn, rift and quartersawn are mixed: they shrink by different amounts, and the joints will be felt."
                .to_owned(),
            true,
        ),
        MatchWarning::WoodNotMirrored => (
            "The woods are not the same on both sides of the middle: the blank can bend as the air changes.".to_owned(),
            true,
        ),
        MatchWarning::RingsNotAlternating(count) => (
            format!("The rings of {count} neighbours lean the same way: spin one of them."),
            false,
        ),
        MatchWarning::RunoutBothWays => (
            "The grain runs out both ways: the plane will tear one of them.".to_owned(),
            false,
        ),
        MatchWarning::NotMeasured(count) => (
            format!("Crook, twist or moisture was not measured, or without its side, on {count} of them."),
            false,
        ),
    }
}

/// A length, and what it was before the hand changed it.
fn changed(now: Length, before: Option<Length>, units: Units) -> String {
    let shown = |length: Length| show::length(in_mm(length), units);
    match before.filter(|before| shown(*before) != shown(now)) {
        Some(before) => format!("{} (was {})", shown(now), shown(before)),
        None => shown(now),
    }
}

/// How a figure of the set in hand was worked out, once it is asked.
fn tell(gluing: Gluing, figure: MatchFigure) -> impl Fn() -> Option<Working> + 'static {
    move || {
        let blank = gluing.blank.get_untracked();
        gluing.sought.with_untracked(|stock| {
            let laminates = Gluing::laminates(stock);
            match_told(figure, &laminates, &blank, &MatchLimits::default()).ok()
        })
    }
}

fn told(
    gluing: Gluing,
    judged: &Judged,
    before: Option<&Judged>,
    more: Vec<(String, AnyView)>,
    units: Units,
) -> AnyView {
    let warned = judged.warnings.iter().map(warning).map(|(words, stop)| {
        let class = if stop { "note bad" } else { "note doubt" };
        view! { <p class=class>{words}</p> }
    });
    let fact = |name, now, before, figure| {
        told_fact(name, changed(now, before, units), tell(gluing, figure))
    };
    let mut facts = vec![
        fact(
            "Crook it is left with",
            judged.mean_crook,
            before.map(|b| b.mean_crook),
            MatchFigure::Crook,
        ),
        fact(
            "Twist",
            judged.mean_twist,
            before.map(|b| b.mean_twist),
            MatchFigure::Twist,
        ),
        fact(
            "Bow",
            judged.bow_left,
            before.map(|b| b.bow_left),
            MatchFigure::Bow,
        ),
        told_fact(
            "How far from perfect, in limits",
            show::number(judged.cost, 2),
            tell(gluing, MatchFigure::Cost),
        ),
    ];
    facts.extend(more);
    view! {
        <div id="warnings">{warned.collect_any()}</div>
        {facts_drawn(facts)}
        <p class="small">
            "Of what each has moved since it was last flat, signed. A crook is averaged and never divided: only \
             opposite ones help, as with twist."
        </p>
    }
    .into_any()
}

/// The part of the screen.
pub(super) fn in_hand(app: App, gluing: Gluing) -> AnyView {
    let comes_to = move || {
        let blank = gluing.blank.get();
        if blank.is_empty() {
            return None;
        }
        let units = app.units.get();
        gluing.sought.with(|stock| {
            let laminates = Gluing::laminates(stock);
            let judged = match judge_match(&laminates, &blank, &MatchLimits::default()) {
                Ok(judged) => judged,
                Err(why) => {
                    return Some(view! { <p class="note bad">{why.to_string()}</p> }.into_any());
                }
            };
            let size = blank_of(stock, &blank);
            let sizes = size.as_ref().map(|size| {
                let sizes = [size.length, size.width, size.thickness].map(|one| Some(in_mm(one)));
                show::sizes(sizes, units)
            });
            let weight = size.and_then(|size| size.weight);
            let hand = move |told: fn(&[ReadyLaminate], &[Placed]) -> Option<Working>| {
                move || {
                    let blank = gluing.blank.get_untracked();
                    gluing.sought.with_untracked(|stock| told(stock, &blank))
                }
            };
            let weight = match weight {
                None => (
                    "Weight at 12 %".to_owned(),
                    "not known: weigh the laminates".into_any(),
                ),
                Some(weight) => {
                    let weight = show::mass(in_kg(weight), units);
                    told_fact("Weight at 12 %", weight, hand(blank_weight_told))
                }
            };
            let mut more = vec![weight];
            if let Some(sizes) = sizes {
                more.insert(0, told_fact("Blank", sizes, hand(blank_size_told)));
            }
            let drawn = drawn_of(stock, &blank);
            let before = gluing.before.get();
            Some(
                view! {
                    <h2>"The blank in hand"</h2>
                    {blank_end(&drawn, "in-hand", "From the marked end")}
                    {told(gluing, &judged, before.as_ref(), more, units)}
                }
                .into_any(),
            )
        })
    };
    view! {
        <section aria-label="The blank in hand" id="in-hand">
            {live(comes_to)}
            <ul class="plain" id="places">{live(move || places(gluing))}</ul>
        </section>
    }
    .into_any()
}

/// Each place: which laminate, how turned.
fn places(gluing: Gluing) -> AnyView {
    let blank = gluing.blank.get();
    let marks: Vec<String> = gluing
        .sought
        .with(|stock| stock.iter().map(|one| one.mark.clone()).collect());
    let turn = move |at: usize, by: Turn| {
        gluing.blank.update(|blank| {
            if let Some(one) = blank.get_mut(at) {
                one.turn = one.turn.then(by);
            }
        });
    };
    let place = move |(at, placed): (usize, Placed)| {
        let options = marks.iter().enumerate().map(|(n, mark)| {
            view! {
                <option value=n.to_string() selected=n == placed.laminate>{mark.clone()}</option>
            }
        });
        let options = options.collect_any();
        let button = move |name: &'static str, on: bool, by: Turn| {
            view! {
                <button
                    type="button" class="chip" aria-pressed=on.to_string()
                    aria-label=format!("Place {}: {name}", at + 1) on:click=move |_| turn(at, by)
                >
                    {name}
                </button>
            }
        };
        view! {
            <li class="off">
                <strong>{at + 1}</strong>
                <select
                    aria-label=format!("Laminate at place {}", at + 1)
                    on:change=move |event| swap(gluing, at, &event_target_value(&event))
                >
                    {options}
                </select>
                {button("rolled", placed.turn.rolled, Turn { rolled: true, spun: false })}
                {button("spun", placed.turn.spun, Turn { rolled: false, spun: true })}
            </li>
        }
    };
    blank.into_iter().enumerate().map(place).collect_any()
}

/// Puts another laminate at a place; one that stands elsewhere in the blank changes places with it.
fn swap(gluing: Gluing, at: usize, chosen: &str) {
    let Ok(chosen) = chosen.parse::<usize>() else {
        return;
    };
    gluing.blank.update(|blank| {
        let other = blank.iter().position(|one| one.laminate == chosen);
        match other {
            Some(other) if at < blank.len() => blank.swap(at, other),
            _ => {
                if let Some(one) = blank.get_mut(at) {
                    *one = Placed {
                        laminate: chosen,
                        turn: Turn::default(),
                    };
                }
            }
        }
    });
}
