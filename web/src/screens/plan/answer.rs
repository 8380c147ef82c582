//! What a wish takes: whether what is in hand is enough, how many planks to start, and the last day of each
//! step.

use super::pace::both_ways;
use super::{Planned, Shown};
use crate::parts::{CollectAny, Facts, facts_drawn, given, told_fact, told_figure};
use crate::screens::figures::{counted, in_hand_words};
use chrono::NaiveDate;
use leptos::prelude::*;
use stillwood_core::record::{StartAnswer, StartFigure, TargetAnswer, TargetSet};
use stillwood_core::season::{
    LatestDays, StageShare, explain_latest, explain_survival, survival_of,
};

/// In a hundred.
fn times(chance: f64) -> String {
    format!("{:.0} times in 100", chance * 100.0)
}

/// The part of the screen.
pub(super) fn answered(shown: &Shown) -> AnyView {
    let (wish, answer) = (&shown.wish, &shown.least.answer);
    let known = answer.start.as_ref().ok().map(|start| {
        view! {
            {chances(start)}
            {stands_on(start)}
        }
    });
    let in_hand = in_hand_words(&answer.in_time, wish.laminates_per_blank);
    view! {
        <h2>"Is it enough?"</h2>
        {enough(wish, answer, "enough", "")}
        <p class="small">{format!("In hand and in time: {in_hand}.")}</p>
        {at_pace(shown)}
        {latest(shown)}
        {known}
    }
    .into_any()
}

/// Whether it is enough, or why that can't be told.
fn enough(wish: &TargetSet, answer: &TargetAnswer, id: &'static str, way: &'static str) -> AnyView {
    match &answer.start {
        Ok(start) => verdict(wish, answer, start, (id, way)),
        Err(why) => view! { <p class="note doubt" id=id>{why.to_string()}</p> }.into_any(),
    }
}

/// The same at the maker's pace; without a day it makes no difference.
fn at_pace(shown: &Shown) -> Option<AnyView> {
    let paced = &shown
        .paced
        .as_ref()
        .filter(|_| shown.wish.by.is_some())?
        .answer;
    let (wish, soonest) = (&shown.wish, &shown.least.answer);
    let same = paced.in_time == soonest.in_time && paced.planks_in_time == soonest.planks_in_time;
    if same {
        let words = "At your pace the same is in time.";
        return Some(view! { <p class="small" id="enough-at-pace">{words}</p> }.into_any());
    }
    let in_hand = in_hand_words(&paced.in_time, wish.laminates_per_blank);
    Some(
        view! {
            {enough(wish, paced, "enough-at-pace", "At your pace: ")}
            <p class="small">{format!("In time at your pace: {in_hand}.")}</p>
        }
        .into_any(),
    )
}

/// Whether it is enough, and what to start.
fn verdict(
    wish: &TargetSet,
    answer: &TargetAnswer,
    start: &StartAnswer,
    (id, way): (&'static str, &'static str),
) -> AnyView {
    let blanks = counted(wish.blanks as usize, "good blank", "good blanks");
    let by = wish.by.map_or_else(String::new, |by| format!(" by {by}"));
    let in_hand = start.chance_in_hand();
    let range = start.range_in_words().unwrap_or_default();
    let alone = format!("What is in hand gives {blanks}{by} {}.", times(in_hand));
    let (class, strong, rest) = match start.planks {
        Some(0) => ("note good", "Enough is in hand.".to_owned(), alone),
        _ if !answer.planks_in_time => (
            "note bad",
            "Not enough, and too late to start planks.".to_owned(),
            alone,
        ),
        Some(planks) => (
            "note",
            format!(
                "Start {} more.",
                counted(planks as usize, "plank", "planks")
            ),
            format!("{alone} With them it is {}. {range}", times(start.chance())),
        ),
        None => {
            let most = start.chances.len().saturating_sub(1);
            (
                "note doubt",
                "Too few to say.".to_owned(),
                format!(
                    "{alone} Even {most} planks more are not that sure: too few of yours are decided yet. {range}"
                ),
            )
        }
    };
    let tell = start.clone();
    let strong = told_figure("Whether it is enough".to_owned(), strong, move || {
        tell.worked(StartFigure::Planks)
    });
    view! { <p class=class id=id>{way}<strong>{strong}</strong> " " {rest}</p> }.into_any()
}

/// A step's name, and its day among the latest.
type StepDay = (&'static str, fn(&LatestDays) -> NaiveDate);

/// The steps and their last days.
const STEPS: [StepDay; 3] = [
    ("Planks bought, cut and set to rest by", |days| days.cut_by),
    ("Pieces ripped by", |days| days.rip_by),
    ("Laminates glued by", |days| days.glue_by),
];

/// The last day of each step.
fn latest(shown: &Shown) -> Option<AnyView> {
    let by = shown.wish.by?;
    let last = |planned: &Planned| Some(planned.answer.latest?.map_err(|why| why.to_string()));
    let soonest = match last(&shown.least)? {
        Ok(days) => days,
        Err(why) => return Some(view! { <p class="note doubt">{why}</p> }.into_any()),
    };
    let today = shown.today;
    let day = |name: &str, planned: &Planned, day: NaiveDate| {
        let rests = planned.rests;
        let told = told_figure(name.to_owned(), day.to_string(), move || {
            explain_latest(by, &rests).ok()
        });
        let late = (day < today).then(|| view! { <small>"too late"</small> });
        view! { {told} " " {late} }.into_any()
    };
    let paced = shown
        .paced
        .as_ref()
        .and_then(|paced| Some((paced, last(paced)?.ok()?)));
    let of = STEPS.into_iter();
    let drawn = match paced {
        None => {
            let fact = |(name, of): (&str, fn(&LatestDays) -> NaiveDate)| {
                (name.to_owned(), day(name, &shown.least, of(&soonest)))
            };
            facts_drawn(of.map(fact).collect())
        }
        Some((paced, own)) => {
            let row = |(name, of): (&str, fn(&LatestDays) -> NaiveDate)| {
                let least = day(name, &shown.least, of(&soonest));
                (name.to_owned(), least, day(name, paced, of(&own)))
            };
            both_ways("Last days", of.map(row).collect())
        }
    };
    Some(view! { <div id="latest">{drawn}</div> }.into_any())
}

/// How the chance grows with every plank: those around the answer.
fn chances(start: &StartAnswer) -> Option<AnyView> {
    let last = start
        .chances
        .len()
        .checked_sub(1)
        .filter(|last| *last > 0)?;
    let step = last.div_ceil(5).max(1);
    let shown = (0..last).step_by(step).chain([last]);
    let row = |planks: usize| {
        let chance = start.chances.get(planks).copied().unwrap_or_default();
        let name = match planks {
            0 => "None more".to_owned(),
            some => counted(some, "plank more", "planks more"),
        };
        (name, Some(times(chance)))
    };
    let of = shown.map(row).collect();
    Some(view! { <h3>"How sure with how many"</h3><Facts of=of /> }.into_any())
}

/// A stage's share, as counted or as taken.
fn share(name: &str, share: StageShare) -> (String, AnyView) {
    match share {
        StageShare::Known(share) => {
            let words = format!("{:.0} % taken, none decided", share * 100.0);
            (name.to_owned(), given(words))
        }
        StageShare::Counted(count) => {
            let tell = move || Some(explain_survival(&survival_of(count).ok()?));
            told_fact(name, format!("{} of {}", count.through, count.of), tell)
        }
    }
}

/// On what that stands: the shares, and which are known badly.
pub(crate) fn stands_on(start: &StartAnswer) -> AnyView {
    let [pieces, laminates, blanks] = start.shares;
    let average = match start.on_average {
        0.0 => "none".to_owned(),
        some => format!("{some:.1} planks"),
    };
    let tell = |figure| {
        let start = start.clone();
        move || start.worked(figure)
    };
    let of = vec![
        told_fact(
            "On average, without a margin",
            average,
            tell(StartFigure::OnAverage),
        ),
        share("Pieces that came through", pieces),
        share("Laminates that came through", laminates),
        share("Blanks that came through", blanks),
        told_fact(
            "Likeness of one plank's laminates",
            format!("{:.2}", start.intraclass_correlation),
            tell(StartFigure::IntraclassCorrelation),
        ),
    ];
    let few: Vec<String> = start
        .known_badly()
        .into_iter()
        .map(|kind| format!("{}s", kind.name()))
        .collect();
    let few = (!few.is_empty()).then(|| {
        let of = few.join(", ");
        view! {
            <p class="note doubt">
                {format!("Few are decided of your {of}: the answer is wide, and larger for it.")}
            </p>
        }
    });
    view! {
        <h3>"On what that stands"</h3>
        {facts_drawn(of)}
        {[few].into_iter().flatten().collect_any()}
    }
    .into_any()
}
