//! The maker's own pace stage by stage, and the table in which a plan stands both ways.

use crate::parts::{CollectAny, facts_drawn, told_fact};
use leptos::prelude::*;
use stillwood_core::record::{Paces, StagePace};
use stillwood_core::season::Stage;

/// What lies, until which step.
fn name(stage: Stage) -> &'static str {
    match stage {
        Stage::Pieces => "Pieces, until cut",
        Stage::Laminates => "Laminates, until glued",
        Stage::Blanks => "Blanks, until found still",
    }
}

fn fact(one: &StagePace) -> (String, AnyView) {
    let words = match &one.pace {
        Ok(pace) => pace.in_words(),
        Err(why) => why.to_string(),
    };
    let tell = one.clone();
    told_fact(name(one.stage), words, move || Some(tell.worked()))
}

/// How it was counted, of how many.
fn cases(paces: &Paces) -> String {
    let known = paces.stages.iter().filter_map(|one| {
        let pace = one.pace.as_ref().ok()?;
        Some(format!("{} {}", pace.gone_on, one.stage.name()))
    });
    let known: Vec<String> = known.collect();
    match known.is_empty() {
        true => "Plans keep to the least rests until five of a stage have gone on.".to_owned(),
        false => format!(
            "Of {} that went on: half of them within so many days, eight in ten between those in brackets. \
             Where too few went on, plans keep to the least rest.",
            known.join(" and ")
        ),
    }
}

/// The part of the screen.
pub(super) fn own_pace(paces: &Paces) -> AnyView {
    view! {
        <h2>"Your own pace"</h2>
        <p class="small">"How much longer than the least rest yours lay before the next step."</p>
        {facts_drawn(paces.stages.iter().map(fact).collect())}
        <p class="small">{cases(paces)}</p>
    }
    .into_any()
}

/// Names with what stands at the least and what at the maker's pace.
pub(super) fn both_ways(name: &'static str, rows: Vec<(String, AnyView, AnyView)>) -> AnyView {
    let row = |(name, least, paced): (String, AnyView, AnyView)| {
        view! { <tr><th scope="row">{name}</th><td>{least}</td><td>{paced}</td></tr> }
    };
    view! {
        <div class="both">
            <table class="both-ways">
                <thead>
                    <tr>
                        <th scope="col">{name}</th>
                        <th scope="col">"At the least"</th>
                        <th scope="col">"At your pace"</th>
                    </tr>
                </thead>
                <tbody>{rows.into_iter().map(row).collect_any()}</tbody>
            </table>
        </div>
    }
    .into_any()
}
