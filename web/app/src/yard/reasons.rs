//! Reasons to reject a plank, as chips: those that are used most come first.

use super::Action;
use super::entering::Entering;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon};
use crate::words::{Spoken, fill};
use maud::{Markup, html};
use stillwood_core::plank::{Reason, ReasonGroup};
use stillwood_core::record::queries;
use stillwood_core::record::{Pile, State};

/// So many reasons are at hand in the quick sort.
const AT_HAND: usize = 8;

/// The groups of reasons, in the order in which they are shown.
const GROUPS: [ReasonGroup; 7] = [
    ReasonGroup::Shape,
    ReasonGroup::Grain,
    ReasonGroup::Drying,
    ReasonGroup::Breaks,
    ReasonGroup::Life,
    ReasonGroup::Unseen,
    ReasonGroup::Commerce,
];

fn chip(ui: &Ui<'_>, reason: Reason, chosen: &[Reason]) -> Markup {
    html! {
        button.chip type="button" title=(reason.definition().spoken()) aria-pressed=(chosen.contains(&reason).to_string())
            data-press=(ui.press(Action::Reason(reason)))
        {
            (reason.name().spoken())
        }
    }
}

/// The reasons at hand: those used most in this pile first, then those used most in all.
pub fn at_hand(state: &State, pile: Option<&Pile>) -> Vec<Reason> {
    let mut of = pile.map(used_most_first).unwrap_or_default();
    for reason in queries::sort_reasons(state) {
        if !of.contains(&reason) {
            of.push(reason);
        }
    }
    of.truncate(AT_HAND);
    of
}

/// The reasons at hand, and a key for the others.
pub fn usual_reasons(ui: &Ui<'_>, at_hand: &[Reason], chosen: &[Reason]) -> Markup {
    let mut of: Vec<Reason> = at_hand.to_vec();
    // What was chosen among the others stays in view.
    for reason in chosen {
        if !of.contains(reason) {
            of.push(*reason);
        }
    }
    let words = &ui.w.yard;
    html! {
        div.chips role="group" aria-label=(words.because_of) {
            @for reason in of { (chip(ui, reason, chosen)) }
            button.chip.quiet type="button" data-press=(ui.press(Action::AllReasons)) {
                (if ui.model.yard.all_reasons { words.fewer_reasons } else { words.other_reasons })
            }
        }
    }
}

/// All reasons, by group.
pub fn all_reasons(ui: &Ui<'_>, chosen: &[Reason]) -> Markup {
    let words = &ui.w.yard;
    let name = |group: ReasonGroup| match group {
        ReasonGroup::Shape => words.group_shape,
        ReasonGroup::Grain => words.group_grain,
        ReasonGroup::Drying => words.group_drying,
        ReasonGroup::Breaks => words.group_breaks,
        ReasonGroup::Life => words.group_life,
        ReasonGroup::Unseen => words.group_unseen,
        ReasonGroup::Commerce => words.group_commerce,
        ReasonGroup::Workshop | ReasonGroup::OwnDoing => words.group_workshop,
    };
    html! {
        @for group in GROUPS {
            h2.small { (name(group)) }
            div.chips {
                @for reason in Reason::ALL.iter().filter(|one| one.group() == group) {
                    (chip(ui, *reason, chosen))
                }
            }
        }
    }
}

/// The reasons of this pile, those used most first.
fn used_most_first(pile: &Pile) -> Vec<Reason> {
    let mut counted: Vec<(u64, Reason)> = pile
        .left_for()
        .into_iter()
        .filter_map(|(reason, count)| Some((count, reason?)))
        .collect();
    stillwood_core::order::sort_by(&mut counted, |a, b| b.0.cmp(&a.0));
    counted.into_iter().map(|(_, reason)| reason).collect()
}

/// The screen on which is chosen why a plank that is being measured is rejected.
pub fn rejecting(model: &Model, entering: &Entering) -> Page {
    let chosen = entering.rejecting.clone().unwrap_or_default();
    Page::new(entering.draft.mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            html! {
                button.key.quiet.back type="button" data-press=(ui.press(Action::NotRejecting)) aria-label=(ui.w.common.back) {
                    (icon(Icon::Back))
                }
                div.titles { h1 #title tabindex="-1" { (entering.draft.mark) } p.below { (ui.w.yard.why_rejected) } }
            }
        })
        .with(model, "body", "main", |ui| {
            let pile = ui.model.state().pile(entering.draft.pile);
            let at_hand = at_hand(ui.model.state(), pile);
            html! {
                div #reasons { (usual_reasons(ui, &at_hand, &chosen)) }
                @if ui.model.yard.all_reasons { (all_reasons(ui, &chosen)) }
            }
        })
        .with(model, "foot", "footer", |ui| {
            let words = &ui.w.yard;
            let name = match chosen.first() {
                Some(reason) => fill(words.reject_for, &[("reason", &reason.name().spoken())]),
                None => words.reject.to_owned(),
            };
            html! {
                button.key.no.big.wide type="button" data-press=(ui.press(Action::RejectNow)) { (name) }
            }
        })
}
