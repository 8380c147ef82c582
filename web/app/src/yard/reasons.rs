//! Reasons to reject a plank, as chips: those that are used most come first.

use super::Action;
use crate::page::Ui;
use maud::{Markup, html};
use stillwood_core::plank::{Reason, ReasonGroup};

/// The reasons at hand in the quick sort: what shows in ten seconds.
const QUICK: [Reason; 8] = [
    Reason::Runout,
    Reason::Knot,
    Reason::Twist,
    Reason::Crook,
    Reason::Bow,
    Reason::Checks,
    Reason::TooHeavy,
    Reason::Sapwood,
];

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
        button.chip type="button" title=(reason.definition()) aria-pressed=(chosen.contains(&reason).to_string())
            data-press=(ui.press(Action::Reason(reason)))
        {
            (reason.name())
        }
    }
}

/// The usual reasons, in the order in which they were used in this pile, and a key for all others.
pub fn usual_reasons(ui: &Ui<'_>, used: &[Reason], chosen: &[Reason]) -> Markup {
    let mut of: Vec<Reason> = used.to_vec();
    let more = QUICK.into_iter().chain(chosen.iter().copied());
    for reason in more {
        if !of.contains(&reason) {
            of.push(reason);
        }
    }
    let words = &ui.w.yard;
    html! {
        div.chips role="group" aria-label=(words.because_of) {
            @for reason in of.into_iter().take(QUICK.len().max(chosen.len())) { (chip(ui, reason, chosen)) }
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
