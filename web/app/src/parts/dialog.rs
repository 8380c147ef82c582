//! What lies over the screen and waits for an answer.

use super::{Icon, icon};
use crate::action::Action;
use crate::model::{Dialog, Explained};
use crate::page::Ui;
use crate::words::{Spoken, fill};
use maud::{Markup, html};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Spread, Step};

/// What lies over the screen, where something does.
pub fn dialog(ui: &Ui<'_>) -> Markup {
    let Some(dialog) = &ui.model.dialog else {
        return Markup::default();
    };
    let words = &ui.w.common;
    html! {
        div.shade {
            section.sheet #dialog role="dialog" aria-modal="true" tabindex="-1" aria-labelledby="dialog-title" {
                @match dialog {
                    Dialog::Explained(explained) => (worked_out(ui, explained)),
                    Dialog::Ask { question, yes, action } => {
                        h2 #dialog-title { (question) }
                        div.keys {
                            // What is asked about is done against a doubt: the safe answer is the large one.
                            button.key.main type="button" data-press=(ui.press(Action::CloseDialog)) { (words.cancel) }
                            button.key type="button" data-press=(ui.press((**action).clone())) { (yes) }
                        }
                    }
                }
            }
        }
    }
}

/// How a number was worked out: its steps, what else there is to say, its uncertainty and source.
fn worked_out(ui: &Ui<'_>, explained: &Explained) -> Markup {
    let words = &ui.w.common;
    let derivation = &explained.derivation;
    html! {
        div.row {
            h2 #dialog-title { (explained.name) }
            button.key.quiet type="button" data-press=(ui.press(Action::CloseDialog)) aria-label=(words.close) {
                (icon(Icon::Close))
            }
        }
        p.large { (explained.figure) }
        p.below { (words.how_worked_out) }
        ol.steps { @for one in &derivation.steps { (step(ui, one)) } }
        @for note in &derivation.notes { p { (note.spoken()) } }
        @if let Some(spread) = &derivation.spread {
            p { (words.uncertainty) " " (shares(spread)) "." }
            @if let Some((source, _)) = spread.shares.first() {
                p { (fill(words.measure_more_finely, &[("source", &source.spoken())])) }
            }
        }
        @if ui.model.units() == Units::Inch && !derivation.steps.is_empty() { p.below { (words.in_metric) } }
        @if !derivation.source.is_empty() {
            p.below { (fill(words.source, &[("source", &derivation.source.spoken())])) }
        }
    }
}

fn shares(spread: &Spread) -> String {
    let shares = spread.shares_shown();
    let one = |(source, share): &(&str, f64)| format!("{} {share:.0} %", source.spoken());
    shares.map(one).collect::<Vec<_>>().join(", ")
}

/// A formula whose symbols may be words, as `bow`.
fn in_own_words(formula: &str) -> String {
    let mut said = String::new();
    let mut word = String::new();
    for sign in formula.chars().chain(['\n']) {
        if sign.is_alphabetic() {
            word.push(sign);
            continue;
        }
        let is_word = word.chars().count() > 2;
        said.push_str(&if is_word { word.spoken() } else { word.clone() });
        word.clear();
        said.push(sign);
    }
    crate::words::show::decimal(said.trim_end())
}

fn step(ui: &Ui<'_>, step: &Step) -> Markup {
    let input = |(symbol, name, value): (&str, &str, String)| {
        format!(
            "{} {}, {}",
            in_own_words(symbol),
            name.spoken(),
            value.spoken()
        )
    };
    let inputs: Vec<String> = step.inputs().into_iter().map(input).collect();
    html! {
        li {
            strong { (step.explanation.name.spoken()) }
            p.formula { (in_own_words(&step.in_symbols())) }
            p.formula { "= " @for part in step.terms_in_numbers() { span { (part.spoken()) } " " } }
            p.below {
                (inputs.join("; ")) ". "
                (fill(ui.w.common.holds, &[("range", &step.explanation.range.spoken()), ("source", &step.explanation.source.spoken())]))
            }
        }
    }
}
