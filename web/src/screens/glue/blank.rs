//! The set in hand: drawn with its turns, warned of first, told what it comes to, and changed by hand
//! with the effect beside it.

use super::{Gluing, drawn_of};
use crate::app::App;
use crate::drawings::blank_end;
use crate::parts::{CollectAny, facts_drawn, given, live, told_figure};
use leptos::prelude::*;
use stillwood_core::neck::{
    Judged, MatchFigure, MatchLimits, MatchWarning, Placed, Turn, explain_match, judge_match,
};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Derivation, in_kg, in_mm, show};
use stillwood_core::record::{
    BlankSize, ReadyLaminate, blank_of, explain_blank_size, explain_blank_stiffness,
    explain_blank_weight,
};

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
        MatchWarning::RunoutBothWays(count) => (
            format!("The grain of {count} runs out against the rest: the plane will tear it."),
            false,
        ),
        MatchWarning::NotMeasured { .. } => (
            format!(
                "Not measured, or without its side: {}. Each counts as one limit.",
                not_measured(of).unwrap_or_default()
            ),
            false,
        ),
        MatchWarning::NotLookedAt { rings, grain } => {
            let of = [(rings, "to which side the rings lean"), (grain, "which way the grain runs")];
            let of = of.into_iter().filter(|(count, _)| **count > 0);
            let of: Vec<String> = of.map(|(count, what)| format!("{what} on {count}")).collect();
            (
                format!(
                    "Not looked at: {}. They are placed as if it made no difference.",
                    of.join(", ")
                ),
                false,
            )
        }
    }
}

/// What was not measured on how many, in words; `None` of any other warning.
pub(super) fn not_measured(of: &MatchWarning) -> Option<String> {
    let MatchWarning::NotMeasured {
        crook,
        twist,
        moisture,
    } = of
    else {
        return None;
    };
    let of = [(crook, "crook"), (twist, "twist"), (moisture, "moisture")];
    let of = of.into_iter().filter(|(count, _)| **count > 0);
    let of: Vec<String> = of
        .map(|(count, what)| format!("{what} on {count}"))
        .collect();
    Some(of.join(", "))
}

/// The woods of a set, where it has more than one and none was asked for.
fn woods_mixed(gluing: Gluing, blank: &[Placed]) -> Option<AnyView> {
    let woods = gluing.sought.with(|stock| woods_of(stock, blank));
    let asked = gluing.woods.any_asked();
    (woods.len() > 1 && !asked).then(|| {
        let words = format!(
            "Of {} woods: {}. If it should be of one, leave the others out or say which wood stands where.",
            woods.len(),
            woods.join(", ")
        );
        view! { <p class="note doubt" id="woods-mixed">{words}</p> }.into_any()
    })
}

/// The woods in a set, each once, as they come.
pub(super) fn woods_of(stock: &[ReadyLaminate], blank: &[Placed]) -> Vec<String> {
    let mut woods: Vec<String> = Vec::new();
    for one in blank.iter().filter_map(|placed| stock.get(placed.laminate)) {
        if !woods.contains(&one.wood) {
            woods.push(one.wood.clone());
        }
    }
    woods
}

/// What a set comes to.
struct ComesTo {
    judged: Judged,
    size: Option<BlankSize>,
}

fn comes_to(
    stock: &[ReadyLaminate],
    blank: &[Placed],
    within: &MatchLimits,
) -> Result<ComesTo, String> {
    let laminates = Gluing::laminates(stock);
    let judged = judge_match(&laminates, blank, within).map_err(|why| why.to_string())?;
    let size = blank_of(stock, blank);
    Ok(ComesTo { judged, size })
}

/// How the figures of a set in hand are worked out.
#[derive(Clone, Copy)]
enum Told {
    Match(MatchFigure),
    Of(fn(&[ReadyLaminate], &[Placed]) -> Option<Derivation>),
}

impl Told {
    fn working(self, gluing: Gluing) -> Option<Derivation> {
        let (blank, within) = (gluing.blank.get_untracked(), gluing.limits.get_untracked());
        gluing.sought.with_untracked(|stock| match self {
            Told::Match(figure) => {
                explain_match(figure, &Gluing::laminates(stock), &blank, &within).ok()
            }
            Told::Of(told) => told(stock, &blank),
        })
    }
}

/// How far moistures are apart.
fn apart_told(stock: &[ReadyLaminate], blank: &[Placed]) -> Option<Derivation> {
    let read = |placed: &Placed| {
        let one = stock.get(placed.laminate)?;
        let read = one.laminate.moisture?.in_percent();
        Some(format!("{} {}", one.mark, show::moisture(read)))
    };
    let read: Vec<String> = blank.iter().filter_map(read).collect();
    Some(Derivation::note(
        format!(
            "The wettest less the driest, as each was read last: {}.",
            read.join("; ")
        ),
        "a difference of readings, each corrected for cold wood",
    ))
}

/// A figure of a set: as shown, where it is known; its size where less is better; the limit in words.
struct Figure {
    name: &'static str,
    shown: Option<String>,
    less_is_better: Option<f64>,
    limit: Option<String>,
    told: Told,
}

impl Figure {
    fn words(&self) -> &str {
        self.shown.as_deref().unwrap_or("not known")
    }
}

fn figures(of: &ComesTo, within: &MatchLimits, units: Units) -> Vec<Figure> {
    let (judged, size) = (&of.judged, of.size.as_ref());
    let gap = |name, length, limit: Option<_>, told| Figure {
        name,
        shown: Some(show::gap(in_mm(length), units)),
        less_is_better: Some(in_mm(length).abs()),
        limit: limit.map(|limit| show::gap(in_mm(limit), units)),
        told: Told::Match(told),
    };
    let plain = |name, shown: Option<String>, told| Figure {
        name,
        shown,
        less_is_better: None,
        limit: None,
        told: Told::Of(told),
    };
    let apart = judged.moisture_apart.map(|apart| apart.in_percent());
    let most = show::moisture(within.moisture_spread.in_percent());
    let sizes = size.map(|size| {
        let sizes = [size.length, size.width, size.thickness].map(|one| Some(in_mm(one)));
        show::sizes(sizes, units)
    });
    let weight = size.and_then(|size| size.weight);
    let weight = weight.map(|weight| show::mass(in_kg(weight), units));
    let stiff = size.and_then(|size| size.stiffness);
    let stiff = stiff.map(|stiff| stiff.in_newton_square_metres());
    let stiff = stiff.map(|stiff| format!("{} N m²", show::number(stiff, 0)));
    let (crook, twist) = (judged.mean_crook, judged.mean_twist);
    vec![
        gap(
            "Crook it is left with",
            crook,
            Some(within.crook),
            MatchFigure::Crook,
        ),
        gap("Twist", twist, Some(within.twist), MatchFigure::Twist),
        gap("Bow", judged.bow_left, None, MatchFigure::Bow),
        Figure {
            less_is_better: apart,
            limit: Some(most),
            ..plain("Moisture apart", apart.map(show::moisture), apart_told)
        },
        Figure {
            name: "How far from perfect, in limits",
            shown: Some(show::number(judged.cost, 2)),
            less_is_better: Some(judged.cost),
            limit: None,
            told: Told::Match(MatchFigure::Cost),
        },
        plain("Blank", sizes, explain_blank_size),
        plain("Weight at 12 %", weight, explain_blank_weight),
        plain(
            "Stiffness EI, of the woods' usual",
            stiff,
            explain_blank_stiffness,
        ),
    ]
}

/// How a figure changed from what it was, in words; `None` where it did not.
fn change(now: &Figure, before: &Figure) -> Option<(String, &'static str)> {
    (now.shown != before.shown).then(|| {
        let word = match (now.less_is_better, before.less_is_better) {
            (Some(now), Some(before)) if now < before => "better",
            (Some(now), Some(before)) if now > before => "worse",
            _ => "",
        };
        (format!("was {}", before.words()), word)
    })
}

fn told(gluing: Gluing, judged: &Judged, figures: Vec<Figure>, before: &[Figure]) -> AnyView {
    let warned = judged.warnings.iter().map(warning).map(|(words, stop)| {
        let class = if stop { "note bad" } else { "note doubt" };
        view! { <p class=class>{words}</p> }
    });
    let mut facts = Vec::new();
    for (at, figure) in figures.into_iter().enumerate() {
        let changed = before.get(at).and_then(|before| change(&figure, before));
        let changed = changed.map(|(was, word)| {
            let class = match word {
                "better" => "word good",
                "worse" => "word bad",
                _ => "",
            };
            let word = (!word.is_empty()).then(|| view! { " "<span class=class>{word}</span> });
            view! { <small class="was">{given(was)}{word}</small> }
        });
        let limit = figure.limit.map(|limit| {
            let limit = given(format!(" of {limit}"));
            view! { <small>{limit}</small> }
        });
        let name = figure.name.to_owned();
        let shown = match figure.shown {
            Some(shown) => {
                let told = figure.told;
                told_figure(name.clone(), shown, move || told.working(gluing))
            }
            None => "not known".into_any(),
        };
        let drawn = view! {
            {shown}
            {limit}
            {changed}
        };
        facts.push((name, drawn.into_any()));
    }
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
    // The set in hand and the one proposed, the same while nothing is changed.
    let both = move || {
        let (blank, proposed) = (gluing.blank.get(), gluing.proposed.get());
        let (within, units) = (gluing.limits.get(), app.units.get());
        gluing.sought.with(|stock| {
            let now = comes_to(stock, &blank, &within)?;
            let before = comes_to(stock, &proposed, &within).ok();
            let before = before.filter(|_| proposed != blank);
            let before = before.map(|before| figures(&before, &within, units));
            let figures = figures(&now, &within, units);
            Ok::<_, String>((now.judged, figures, before.unwrap_or_default()))
        })
    };
    let shown = move || {
        let blank = gluing.blank.get();
        if blank.is_empty() {
            return None;
        }
        let (judged, figures, before) = match both() {
            Ok(both) => both,
            Err(why) => return Some(view! { <p class="note bad">{why}</p> }.into_any()),
        };
        let drawn = gluing.sought.with(|stock| drawn_of(stock, &blank));
        Some(
            view! {
                <h2>"The blank in hand"</h2>
                {blank_end(&drawn, "in-hand", "From the near end")}
                {woods_mixed(gluing, &blank)}
                {told(gluing, &judged, figures, &before)}
            }
            .into_any(),
        )
    };
    let effect = move || {
        let (blank, proposed) = (gluing.blank.get(), gluing.proposed.get());
        if blank.is_empty() || blank == proposed {
            return None;
        }
        let (_, figures, before) = both().ok()?;
        let changed = figures.iter().zip(&before).filter_map(|(now, before)| {
            let (was, word) = change(now, before)?;
            let word = if word.is_empty() {
                String::new()
            } else {
                format!(", {word}")
            };
            Some(format!("{} {} ({was}{word})", now.name, now.words()))
        });
        let changes: Vec<String> = changed.collect();
        let words = if changes.is_empty() {
            "No figure changes.".to_owned()
        } else {
            format!("{}.", changes.join("; "))
        };
        let back = move |_| gluing.blank.set(gluing.proposed.get_untracked());
        Some(view! {
            <p class="small"><strong>"Against the proposal: "</strong>{given(words)}</p>
            <button type="button" id="as-proposed" on:click=back>"As proposed"</button>
        })
    };
    let any = move || !gluing.blank.with(Vec::is_empty);
    let heading = move || any().then(|| view! { <h3>"How it is stacked"</h3> });
    view! {
        <section aria-label="The blank in hand" id="in-hand">
            {live(shown)}
            {live(heading)}
            <ul class="plain" id="places">{live(move || places(gluing))}</ul>
            <div id="effect" role="status">{live(effect)}</div>
        </section>
    }
    .into_any()
}

/// How a laminate lies once it is turned, for who lays it.
fn lies(turn: Turn) -> &'static str {
    match (turn.turned_over, turn.end_for_end) {
        (false, false) => "near end in front, marked edge up",
        (true, false) => "near end in front, marked edge down",
        (false, true) => "far end in front, marked edge up",
        (true, true) => "far end in front, marked edge down",
    }
}

/// Each place: which laminate, how turned.
fn places(gluing: Gluing) -> AnyView {
    let blank = gluing.blank.get();
    let named = |one: &ReadyLaminate| format!("{}, {}", one.mark, one.wood);
    let marks: Vec<String> = gluing
        .sought
        .with(|stock| stock.iter().map(named).collect());
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
                {button("rolled", placed.turn.turned_over, Turn { turned_over: true, end_for_end: false })}
                {button("spun", placed.turn.end_for_end, Turn { turned_over: false, end_for_end: true })}
                <small>{lies(placed.turn)}</small>
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
