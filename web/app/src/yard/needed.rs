//! What is still to buy for the blanks needed: planks, footage and money, with what rests in the workshop and this
//! visit's planks counted in.

use super::amounts::{feet, in_hand, money};
use super::frame::{facts, key};
use super::named::day_of;
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Judged, sign};
use crate::route::Route;
use crate::starts;
use crate::words::{Spoken, count, fill, show, spoken_name, wood_names};
use chrono::NaiveDate;
use maud::{Markup, html};
use std::cell::RefCell;
use std::rc::Rc;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::{Derivation, kg, mm};
use stillwood_core::record::{Id, StartAnswer, StartFigure, StillToBuy, ToBuyQuestion, queries};
use stillwood_core::season::{
    FEELER_MM, Stage, StageShare, StartTask, explain_survival, survival_of,
};

/// What was worked out, kept until the record, the tools or the day change: it takes long.
#[derive(Debug, Default)]
pub struct Kept(RefCell<Option<(Of, Option<Rc<ToBuyQuestion>>)>>);

/// Of what it was worked out: changes of the record, visit, day, tools.
type Of = (u64, Id, NaiveDate, Instruments);

/// What is asked of a visit: what it still has to bring home. `None` where it is not here.
fn asked(model: &Model, visit: Id) -> Option<Rc<ToBuyQuestion>> {
    let of = (
        model.record.changes(),
        visit,
        model.now.date(),
        model.settings.instruments,
    );
    let mut kept = model.yard.needed.0.borrow_mut();
    if let Some((known, found)) = kept.as_ref()
        && *known == of
    {
        return found.clone();
    }
    let found = asked_anew(model, visit).map(Rc::new);
    *kept = Some((of, found.clone()));
    found
}

fn asked_anew(model: &Model, visit: Id) -> Option<ToBuyQuestion> {
    let (state, today) = (model.state(), model.now.date());
    let tally = queries::tally_of(state, visit)?;
    let (feeler, scale) = (mm(FEELER_MM), kg(model.settings.instruments.scale_kg));
    let lines = queries::resting(state, today, feeler, scale);
    let (wish, _) = queries::target_of_visit(state, visit)?;
    let woods = match wish.wood {
        Some(wood) => vec![wood],
        None => queries::woods_of_visit(state, visit),
    };
    let per_plank = queries::laminates_to_expect(state, Some(&tally));
    let (wood, _) = queries::wood_in_hand(state, &woods, &lines, per_plank, today);
    let paces = queries::paces(state, feeler, today);
    queries::to_buy_question(state, visit, &tally, &wood, &paces, today)
}

/// The search that a screen of a visit needs.
pub fn task(model: &Model, visit: Id) -> Option<StartTask> {
    asked(model, visit)?.task().cloned()
}

/// What a visit still has to bring home, as it is drawn; how far that is while it is worked out.
pub fn drawn(ui: &Ui<'_>, visit: Id, draw: impl FnOnce(&StillToBuy) -> Markup) -> Markup {
    let words = &ui.w.planks;
    let Some(asked) = asked(ui.model, visit) else {
        return Markup::default();
    };
    match starts::to_buy_answer(ui.model, &asked) {
        Some(needed) => draw(&needed),
        None => html! {
            section.card aria-label=(words.blanks_needed) {
                p { (words.blanks_needed) }
                (starts::view(ui))
            }
        },
    }
}

/// How many planks are short, in words, and how that is judged.
fn short(ui: &Ui<'_>, needed: &StillToBuy) -> (Judged, String) {
    let words = &ui.w.planks;
    match (&needed.answer.start, needed.planks()) {
        (Err(why), _) => (Judged::Unknown, why.spoken()),
        (Ok(_), Some(0)) => (Judged::Good, words.enough.to_owned()),
        (Ok(_), _) if !needed.answer.planks_in_time => (Judged::Bad, words.too_late.to_owned()),
        (Ok(_), Some(planks)) => (
            Judged::Doubt,
            count(u64::from(planks), words.short_one, words.short_other),
        ),
        (Ok(start), None) => {
            let most = start.chances.len().saturating_sub(1);
            let sentence = match start.known_badly().is_empty() {
                true => words.short_over,
                false => words.short_unknown,
            };
            (Judged::Unknown, fill(sentence, &[("n", &most)]))
        }
    }
}

/// The woods that are counted: that of the target, else those of the visit's piles.
fn counted(ui: &Ui<'_>, visit: Id, needed: &StillToBuy) -> String {
    let woods = match &needed.wish.wood {
        Some(wood) => vec![wood.clone()],
        None => queries::woods_of_visit(ui.model.state(), visit),
    };
    let names: Vec<String> = woods
        .iter()
        .map(|wood| wood_names::shown(&wood.text))
        .collect();
    match names.is_empty() {
        true => ui.w.track.any_wood_counted.to_owned(),
        false => names.join(", "),
    }
}

fn target(ui: &Ui<'_>, needed: &StillToBuy) -> String {
    let (words, wish) = (&ui.w.planks, &needed.wish);
    let mut said = count(u64::from(wish.blanks), words.blanks_one, words.blanks_other);
    if let Some(wood) = &wish.wood {
        said = fill(
            words.target_of,
            &[("blanks", &said), ("wood", &wood_names::shown(&wood.text))],
        );
    }
    if let Some(by) = wish.by {
        said = fill(
            words.target_by,
            &[("blanks", &said), ("day", &day_of(ui.model, by))],
        );
    }
    fill(
        words.target_sure,
        &[("blanks", &said), ("percent", &wish.sure_percent)],
    )
}

fn pace(ui: &Ui<'_>, known: &[Stage]) -> String {
    let words = &ui.w.planks;
    let named = |of: &dyn Fn(&Stage) -> bool| {
        let stages = Stage::ALL.into_iter().filter(of).map(Stage::name);
        stages.map(spoken_name).collect::<Vec<_>>().join(", ")
    };
    match known.len() {
        0 => words.pace_least.to_owned(),
        all if all == Stage::ALL.len() => words.pace_own.to_owned(),
        _ => fill(
            words.pace_some,
            &[
                ("own", &named(&|stage| known.contains(stage))),
                ("least", &named(&|stage| !known.contains(stage))),
            ],
        ),
    }
}

/// How many planks are short.
fn how_many(ui: &Ui<'_>, needed: &StillToBuy) -> Markup {
    let words = &ui.w.planks;
    let (judged, said) = short(ui, needed);
    let start = needed.answer.start.as_ref().ok();
    let derivation = start.and_then(|start| start.worked(StartFigure::Planks));
    html! {
        strong class=(judged.class()) {
            (sign(judged))
            (told(ui, words.still_to_buy, &said, derivation))
        }
    }
}

/// In one line, with the way to the visit, which tells what it stands on.
pub fn line(ui: &Ui<'_>, visit: Id, needed: &StillToBuy) -> Markup {
    let words = &ui.w.planks;
    html! {
        section.card aria-label=(words.blanks_needed) {
            p.row { span { (words.blanks_needed) } (how_many(ui, needed)) }
            p.below { (target(ui, needed)) }
            div.keys { (key(ui, words.still_to_buy, Route::Visit(visit))) }
        }
    }
}

/// The card: what is needed, what is short, what is in hand, and what that stands on.
pub fn card(ui: &Ui<'_>, visit: Id, needed: &StillToBuy, currency: &str) -> Markup {
    let words = &ui.w.planks;
    let ready = needed.ready_if_bought_now();
    html! {
        section.card aria-label=(words.blanks_needed) {
            p.row { span { (words.blanks_needed) } (how_many(ui, needed)) }
            p.below {
                (target(ui, needed)) " "
                @match needed.said_on {
                    Some(day) => (fill(words.target_said_on, &[("day", &day_of(ui.model, day))])),
                    None => (words.target_of_spec),
                }
            }
            p.below { (fill(words.in_hand, &[("wood", &counted(ui, visit, needed)), ("what", &in_hand(ui, &needed.answer.in_time, needed.wish.laminates_per_blank))])) }
            @if let (Some(day), Some(derivation)) = (ready, needed.explain_ready()) {
                p.below {
                    (words.ready_if_bought) " "
                    (figure(ui, words.ready_if_bought, &day_of(ui.model, day), Asked::Known(Box::new(derivation))))
                    ". " (pace(ui, &needed.at_own_pace))
                }
            }
            details {
                summary { (words.what_it_stands_on) }
                (what_it_takes(ui, needed, currency))
            }
            div.keys {
                (key(ui, words.sizes_and_limits, Route::Spec(visit)))
                (key(ui, words.change_target, Route::Target(visit)))
            }
        }
    }
}

/// What the planks still needed come to, where that can be told, and what the answer stands on.
fn what_it_takes(ui: &Ui<'_>, needed: &StillToBuy, currency: &str) -> Markup {
    let words = &ui.w.planks;
    let mut of = Vec::new();
    if needed.picks > 0 {
        let picks = count(
            needed.picks as u64,
            ui.w.common.planks_one,
            ui.w.common.planks_other,
        );
        of.push((words.bought_counted_in.to_owned(), html! { (picks) }));
    }
    let per_plank = fill(words.about, &[("what", &needed.per_plank)]);
    of.push((
        words.parts_of_a_plank.to_owned(),
        html! { (per_plank) span.below { (crate::book::last_visit::expected_by(ui, needed)) } },
    ));
    let buys = needed.answer.planks_in_time;
    let planks = needed.of_planks();
    if let Some((footage, gross)) = planks.filter(|(footage, _)| buys && !footage.is_zero()) {
        let mut add = |name: &str, shown: String, currency: Option<&str>| {
            of.push((
                name.to_owned(),
                told(ui, name, &shown, needed.worked(currency)),
            ));
        };
        add(words.needed_volume, feet(footage), None);
        add(words.needed_money, money(gross, currency), Some(currency));
    }
    html! {
        (facts(of))
        @if let Ok(start) = &needed.answer.start { (stands_on(ui, start)) }
    }
}

fn told(ui: &Ui<'_>, name: &str, shown: &str, derivation: Option<Derivation>) -> Markup {
    match derivation {
        Some(derivation) => figure(ui, name, shown, Asked::Known(Box::new(derivation))),
        None => html! { (shown) },
    }
}

/// The shares that came through, and which of them are known badly.
fn stands_on(ui: &Ui<'_>, start: &StartAnswer) -> Markup {
    let words = &ui.w.planks;
    let share = |name: &'static str, share: StageShare| {
        let shown = match share {
            StageShare::Known(share) => {
                let percent = show::whole_percent(share);
                html! { (fill(words.share_taken, &[("percent", &percent)])) }
            }
            StageShare::Counted(counted) => {
                let shown = fill(
                    words.share_counted,
                    &[("through", &counted.through), ("of", &counted.of)],
                );
                let derivation = survival_of(counted).ok();
                told(
                    ui,
                    name,
                    &shown,
                    derivation.map(|survival| explain_survival(&survival)),
                )
            }
        };
        (name.to_owned(), shown)
    };
    let average = match start.on_average {
        0.0 => words.no_planks.to_owned(),
        some => fill(
            words.planks_about,
            &[("n", &show::decimal(&format!("{some:.1}")))],
        ),
    };
    let family = show::decimal(&format!("{:.2}", start.intraclass_correlation));
    let [pieces, laminates, blanks] = start.shares;
    let shares = [
        (words.pieces_through, pieces),
        (words.laminates_through, laminates),
        (words.blanks_through, blanks),
    ];
    let shares = shares
        .into_iter()
        .filter_map(|(name, of)| Some(share(name, of?)));
    let mut of = vec![(
        words.on_average.to_owned(),
        told(
            ui,
            words.on_average,
            &average,
            start.worked(StartFigure::OnAverage),
        ),
    )];
    of.extend(shares);
    of.push((
        words.family_effect.to_owned(),
        told(
            ui,
            words.family_effect,
            &family,
            start.worked(StartFigure::IntraclassCorrelation),
        ),
    ));
    html! {
        (facts(of))
        (crate::book::start::known_badly(ui, start))
    }
}
