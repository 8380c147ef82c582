//! What came of it: the share that came through each stage, told apart by what was known of the plank;
//! how long wood lasts until it is thrown out; which signs seen in the yard told anything; how many planks
//! to start; where the money went.

mod lasts;
mod money;
mod start;

use crate::app::App;
use crate::drawings::{ShareDrawn, shares_drawn};
use crate::parts::{Choice, CollectAny, Frame, live, told_figure};
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{Came, GroupedBy, PieceKind, PredictorFound};
use stillwood_core::season::{PredictorSays, explain_survival};

/// The screen.
pub(crate) fn learn_screen() -> AnyView {
    let app = expect_context::<App>();
    let kind = RwSignal::new(PieceKind::Laminate);
    let by = RwSignal::new(GroupedBy::Yard);
    let came = move || {
        let tools = app.settings.with(|settings| settings.instruments);
        app.state(|state| queries::what_came(state, kind.get(), by.get(), &tools))
    };
    let cues = move || {
        let tools = app.settings.with(|settings| settings.instruments);
        signs(app.state(|state| queries::predictors(state, &tools)))
    };
    view! {
        <Frame title="What came of it" back=Route::Workshop class="wide">
            <div class="two">
                <section aria-label="What came through">
                    <h2>"What came through"</h2>
                    <Choice
                        name="Of" value=kind
                        of=vec![
                            (PieceKind::Piece, "pieces"),
                            (PieceKind::Laminate, "laminates"),
                            (PieceKind::Blank, "blanks"),
                        ]
                    />
                    <Choice
                        name="Told apart by" value=by
                        of=GroupedBy::ALL.iter().map(|by| (*by, by.name())).collect()
                    />
                    <div id="came">{live(move || groups(came()))}</div>
                </section>
                <div>
                    {lasts::lasts(app)}
                    {start::start(app)}
                    {money::money(app)}
                    <section aria-label="Which signs told" id="signs">
                        <h2>"Which signs seen in the yard told"</h2>
                        {live(cues)}
                    </section>
                </div>
            </div>
        </Frame>
    }
    .into_any()
}

fn percent(share: f64) -> String {
    format!("{:.0}\u{a0}%", share * 100.0)
}

/// Each group: counts, the share, its interval, or words where they are few.
fn groups(came: Vec<Came>) -> AnyView {
    if came.is_empty() {
        return view! { <p class="note">"Nothing has come so far yet."</p> }.into_any();
    }
    let drawn: Vec<ShareDrawn> = came
        .iter()
        .map(|one| ShareDrawn {
            name: one.name.clone(),
            share: one.survival.map(|s| (s.low, s.share, s.high)),
        })
        .collect();
    let row = |one: &Came| {
        let count = &one.count;
        let share = match one.survival {
            None => "nothing decided yet".into_any(),
            Some(found) => {
                let share = match found.few {
                    true => "too few to say".to_owned(),
                    false => percent(found.share),
                };
                let words = format!(
                    "{} of {} came through: {share}, {} to {}",
                    found.through,
                    found.of,
                    percent(found.low),
                    percent(found.high)
                );
                let name = format!("Share that came through, {}", one.name);
                told_figure(name, words, move || Some(explain_survival(&found)))
            }
        };
        let parts = [
            (count.sprang, "sprang at the saw"),
            (count.failed, "moved or failed"),
            (count.waiting, "still waiting"),
            (count.missing, "missing"),
            (count.aside, "put aside"),
        ];
        let parts: Vec<String> = parts
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, words)| format!("{count} {words}"))
            .collect();
        let planks = counted(one.planks, "plank", "planks");
        let rest = std::iter::once(planks).chain(parts).collect::<Vec<_>>();
        view! {
            <li class="card">
                <h3>{one.name.clone()}</h3>
                <p>{share}</p>
                <p class="small">{rest.join(" · ")}</p>
            </li>
        }
    };
    view! {
        {shares_drawn(&drawn)}
        <ul class="plain">{came.iter().map(row).collect_any()}</ul>
        <p class="small">
            "The line holds the true share 95 times in 100. The pieces of one plank are alike: they count as fewer, \
             and few planks say little. Budget spent or a better one taken count nowhere."
        </p>
    }
    .into_any()
}

/// Each sign, and what it told.
fn signs(cues: Vec<PredictorFound>) -> AnyView {
    let row = |told: &PredictorFound| {
        let words = match &told.predictor {
            Err(_) => "nothing to compare yet".to_owned(),
            Ok(cue) => {
                let planks = counted(cue.pairs, "plank", "planks");
                let says = match cue.says {
                    PredictorSays::MoreWithMore => "more of it, more came through",
                    PredictorSays::MoreWithLess => "more of it, less came through",
                    other => other.words(),
                };
                match cue.interval {
                    Some((low, high)) => format!(
                        "{says}; {planks}, rank correlation {:.2} ({low:.2} to {high:.2})",
                        cue.spearman
                    ),
                    None => format!("{says}; {planks}"),
                }
            }
        };
        let asked = told.clone();
        let words = match &told.predictor {
            Err(_) => words.into_any(),
            Ok(_) => told_figure(format!("Sign: {}", told.name), words, move || {
                asked.working()
            }),
        };
        (told.name.to_owned(), words)
    };
    let rows = cues.iter().map(row).map(|(name, words)| {
        view! {
            <li class="told-sign">
                <strong>{name}</strong>
                <small>{words}</small>
            </li>
        }
    });
    view! {
        <p class="small">
            "One pair a plank: the sign, and what share of its laminates came through. That two go together is not \
             yet why."
        </p>
        <ul class="plain">{rows.collect_any()}</ul>
    }
    .into_any()
}
