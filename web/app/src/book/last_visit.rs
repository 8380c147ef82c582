//! What the last visit still has to bring home, as the plan shows it.

use super::start::{asked, resting};
use super::worked::worked;
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::Ui;
use crate::starts;
use crate::words::show::{feet, money};
use crate::words::{Spoken, count, fill};
use maud::{Markup, html};
use std::rc::Rc;
use stillwood_core::quantity::{Derivation, mm};
use stillwood_core::record::queries;
use stillwood_core::record::{ExpectedBy, StartFigure, StillToBuy, ToBuyQuestion, Visit};
use stillwood_core::season::{FEELER_MM, StartTask};

/// The last visit, and what is asked of it.
type OfLastVisit = Option<(Visit, ToBuyQuestion)>;

/// The search that it needs.
pub fn task(model: &Model) -> Option<StartTask> {
    let asked = asked_of_it(model);
    let (_, asked) = asked.as_ref().as_ref()?;
    asked.task().cloned()
}

fn asked_of_it(model: &Model) -> Rc<OfLastVisit> {
    let (state, today) = (model.state(), model.now.date());
    let needed = || {
        let visit = state.last_visit()?;
        let tally = queries::tally_of(state, visit.id)?;
        let (target, _) = queries::target_of_visit(state, visit.id)?;
        let woods = match target.wood {
            Some(wood) => vec![wood],
            None => queries::woods_of_visit(state, visit.id),
        };
        let per_plank = queries::laminates_to_expect(state, Some(&tally));
        let (wood, _) = queries::wood_in_hand(state, &woods, &resting(model), per_plank, today);
        let paces = queries::paces(state, mm(FEELER_MM), today);
        let needed = queries::to_buy_question(state, visit.id, &tally, &wood, &paces, today)?;
        Some((visit.clone(), needed))
    };
    worked(model, "last visit", &(), needed)
}

/// The part of the screen; with the key that stops the search where no other part has it.
pub fn view(ui: &Ui<'_>, with_key: bool) -> Markup {
    let (words, model) = (&ui.w.track, ui.model);
    html! {
        @if let Some((visit, needed)) = &*asked_of_it(model) {
            section aria-label=(words.last_visit) {
                h2 { (words.last_visit) }
                p.below { (fill(words.last_visit_of, &[("yard", &visit.opened.yard), ("day", &ui.model.day(visit.recorded.on))])) }
                @match starts::to_buy_answer(model, needed) {
                    Some(needed) => (still_needed(ui, &needed, &visit.opened.currency)),
                    None if with_key => (starts::view(ui)),
                    None => p.below { (starts::in_a_word(ui)) },
                }
            }
        }
    }
}

/// A figure, that tells how it was worked out where there is something to tell.
fn told(ui: &Ui<'_>, name: &str, shown: &str, working: Option<Derivation>) -> Markup {
    match working {
        Some(working) => figure(ui, name, shown, Asked::Known(Box::new(working))),
        None => html! { (shown) },
    }
}

/// What the laminates to expect of a plank are told by.
pub fn expected_by(ui: &Ui<'_>, needed: &StillToBuy) -> &'static str {
    match needed.per_plank_by {
        ExpectedBy::WhatFits => ui.w.track.by_what_fits,
        ExpectedBy::LessLost => ui.w.track.by_what_fits_less,
        ExpectedBy::Ripped => ui.w.track.by_ripped,
        ExpectedBy::CommonPractice => ui.w.track.none_ripped,
    }
}

fn still_needed(ui: &Ui<'_>, needed: &StillToBuy, currency: &str) -> Markup {
    let words = &ui.w.track;
    let short = match (&needed.answer.start, needed.planks()) {
        (Err(why), _) => why.spoken(),
        (Ok(_), Some(0)) => words.is_enough.to_owned(),
        (Ok(_), _) if !needed.answer.planks_in_time => words.come_too_late.to_owned(),
        (Ok(_), Some(planks)) => count(planks, words.planks_short_one, words.planks_short_other),
        (Ok(start), None) => {
            let sentence = match start.known_badly().is_empty() {
                true => words.over_short,
                false => words.more_short,
            };
            fill(sentence, &[("n", &start.chances.len().saturating_sub(1))])
        }
    };
    let costs = needed
        .of_planks()
        .filter(|(feet, _)| needed.answer.planks_in_time && !feet.is_zero());
    html! {
        dl.facts {
            dt { (words.still_needed) }
            dd { @match &needed.answer.start {
                Ok(start) => (asked(ui, words.still_needed, &short, start, StartFigure::Planks)),
                Err(_) => (short),
            } }
            @if needed.picks > 0 {
                dt { (words.bought_in_that) }
                dd { (count(needed.picks as u64, ui.w.common.planks_one, ui.w.common.planks_other)) }
            }
            dt { (words.expect_of_plank) }
            dd {
                (fill(words.about, &[("n", &needed.per_plank)]))
                span.below { (expected_by(ui, needed)) }
            }
            @if let Some((volume, gross)) = costs {
                dt { (words.that_is_about) }
                dd { (told(ui, words.that_is_about, &feet(volume), needed.worked(None))) }
                dt { (words.costs_about) }
                dd { (told(ui, words.costs_about, &money(gross, currency), needed.worked(Some(currency)))) }
            }
            @if let (Some(day), Some(working)) = (needed.ready_if_bought_now(), needed.explain_ready()) {
                dt { (words.ready_if_bought) }
                dd { (figure(ui, words.ready_if_bought, &ui.model.day(day), Asked::Known(Box::new(working)))) }
            }
        }
    }
}
