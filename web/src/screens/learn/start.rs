//! How many planks to start, by the maker's own counts.

use crate::app::App;
use crate::parts::{NumberField, live, told_figure};
use crate::screens::figures::{counted, in_hand_words};
use crate::screens::plan::stands_on;
use crate::screens::workshop::resting;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{StartAnswer, StartFigure, StartTarget, date};

fn answered(answer: &StartAnswer, wish: &StartTarget) -> AnyView {
    let figure = |words: String| {
        let answer = answer.clone();
        let tell = move || answer.worked(StartFigure::Planks);
        told_figure("Planks to start".to_owned(), words, tell)
    };
    let told = match answer.planks {
        Some(0) => {
            let chance = answer.chance() * 100.0;
            let blanks = wish.blanks;
            view! {
                <strong>{figure("Start none".to_owned())}</strong>
                {format!(": what is in hand gives {blanks} good blanks {chance:.0} times in 100.")}
            }
            .into_any()
        }
        Some(planks) => {
            let planks = counted(planks as usize, "plank", "planks");
            let chance = answer.chance() * 100.0;
            let blanks = wish.blanks;
            view! {
                <strong>{figure(format!("Start {planks}"))}</strong>
                {format!(": then {blanks} good blanks come of it {chance:.0} times in 100.")}
            }
            .into_any()
        }
        None => {
            let most = answer.chances.len().saturating_sub(1);
            view! { {format!("Start more than {most} planks: too few pieces are decided to say.")} }
                .into_any()
        }
    };
    view! {
        <p class="note" id="to-start">{told} " " {answer.range_in_words()}</p>
        <p class="small">
            {format!("In hand, counted in: {}.", in_hand_words(&answer.in_hand, wish.laminates_per_blank))}
        </p>
        {stands_on(answer)}
    }
    .into_any()
}

/// How many planks to start, by the maker's own counts.
pub(super) fn start(app: App) -> AnyView {
    let (given, spec) = app.book_now(|state| {
        let visits = state
            .visits()
            .map(|visit| (visit.recorded.on, &visit.opened.spec));
        let spec = visits
            .max_by_key(|(on, _)| *on)
            .map(|(_, spec)| spec.clone());
        (queries::laminates_per_plank(state), spec)
    });
    let text = |number: f64| RwSignal::new(format!("{number:.0}"));
    let blanks = text(
        spec.as_ref()
            .map_or(10.0, |spec| f64::from(spec.blanks_wanted)),
    );
    let per_blank = text(spec.map_or(5.0, |spec| f64::from(spec.parts_per_blank)));
    let per_plank = text(given.unwrap_or(9.0));
    let sure = text(90.0);
    let otherwise = text(85.0);
    let answer = move || {
        let whole = |text: RwSignal<String>| text.get().trim().parse::<u32>().ok();
        let wish = || {
            Some(StartTarget {
                blanks: whole(blanks)?,
                laminates_per_plank: whole(per_plank)?,
                laminates_per_blank: whole(per_blank)?,
                confidence: f64::from(whole(sure)?) / 100.0,
                share_unknown: f64::from(whole(otherwise)?) / 100.0,
                by_own_counts: true,
            })
        };
        let today = date(&clock::now().day);
        let (Some(wish), Some(today)) = (wish(), today) else {
            return view! { <p class="note doubt">"Whole numbers, please."</p> }.into_any();
        };
        let lines = resting(app);
        let answer = app.state(|state| {
            let per_plank = wish.laminates_per_plank;
            let (wood, _) = queries::wood_in_hand(state, &[], &lines, per_plank, today);
            queries::start_for(state, &wish, &wood)
        });
        match answer {
            Ok(answer) => answered(&answer, &wish),
            Err(why) => view! { <p class="note doubt">{why.to_string()}</p> }.into_any(),
        }
    };
    let hint = if given.is_some() {
        "what your planks gave on average"
    } else {
        "no plank was ripped yet"
    };
    view! {
        <section aria-label="How many planks to start" id="start">
            <h2>"How many planks to start"</h2>
            <div class="pair">
                <NumberField name="Good blanks wanted" value=blanks />
                <NumberField name="How sure, %" value=sure />
                <NumberField name="Laminates of a plank" value=per_plank hint=hint />
                <NumberField name="Laminates in a blank" value=per_blank />
                <NumberField name="Share where none is decided, %" value=otherwise />
            </div>
            {live(answer)}
        </section>
    }
    .into_any()
}
