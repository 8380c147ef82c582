//! What came of it: the share that came through each stage, told apart by what was known of the plank;
//! which signs seen in the yard told anything; how many planks to start.

use crate::app::App;
use crate::drawings::{ShareDrawn, shares_drawn};
use crate::parts::{
    Choice, CollectAny, Frame, NumberField, facts_drawn, given, live, told_fact, told_figure,
};
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use stillwood_core::notebook::{
    Came, CueTold, GroupedBy, Kind, StartAnswer, StartFigure, StartWish,
};
use stillwood_core::season::{CueSays, StageShare, survival, survival_told};

/// The screen.
pub(crate) fn learn_screen() -> AnyView {
    let app = expect_context::<App>();
    let kind = RwSignal::new(Kind::Laminate);
    let by = RwSignal::new(GroupedBy::Yard);
    let came = move || {
        let tools = app.settings.with(|settings| settings.instruments);
        app.book(|book| book.what_came(kind.get(), by.get(), &tools))
    };
    let cues = move || {
        let tools = app.settings.with(|settings| settings.instruments);
        signs(app.book(|book| book.cues(&tools)))
    };
    view! {
        <Frame title="What came of it" back=Route::Workshop class="wide">
            <div class="two">
                <section aria-label="What came through">
                    <h2>"What came through"</h2>
                    <Choice
                        name="Of" value=kind
                        of=vec![
                            (Kind::Piece, "pieces"),
                            (Kind::Laminate, "laminates"),
                            (Kind::Blank, "blanks"),
                        ]
                    />
                    <Choice
                        name="Told apart by" value=by
                        of=GroupedBy::ALL.iter().map(|by| (*by, by.name())).collect()
                    />
                    <div id="came">{live(move || groups(came()))}</div>
                </section>
                <div>
                    {start(app)}
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
    format!("{:.0} %", share * 100.0)
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
                told_figure(name, words, move || Some(survival_told(&found)))
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
                <strong>{one.name.clone()}</strong>
                <p>{share}</p>
                <p class="small">{rest.join(" · ")}</p>
            </li>
        }
    };
    view! {
        {shares_drawn(&drawn)}
        <ul class="plain">{came.iter().map(row).collect_any()}</ul>
        <p class="small">
            "The line holds the true share 95 times in 100, were each piece for itself; those of one plank are \
             alike, so it is wider than that. Budget spent or a better one taken count nowhere."
        </p>
    }
    .into_any()
}

/// Each sign, and what it told.
fn signs(cues: Vec<CueTold>) -> AnyView {
    let row = |told: &CueTold| {
        let words = match &told.cue {
            Err(_) => "nothing to compare yet".to_owned(),
            Ok(cue) => {
                let planks = counted(cue.pairs, "plank", "planks");
                let says = match cue.says {
                    CueSays::MoreWithMore => "more of it, more came through",
                    CueSays::MoreWithLess => "more of it, less came through",
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
        let words = match &told.cue {
            Err(_) => words.into_any(),
            Ok(_) => told_figure(format!("Sign: {}", told.name), words, move || {
                asked.working()
            }),
        };
        (told.name.to_owned(), words)
    };
    let rows = cues.iter().map(row).map(|(name, words)| {
        view! {
            <li class="off">
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

fn share_words(name: &str, share: StageShare) -> (String, AnyView) {
    match share {
        StageShare::Known(share) => {
            let words = format!("{} (taken: none decided)", percent(share));
            (name.to_owned(), given(words))
        }
        StageShare::Counted { through, of } => {
            let tell = move || Some(survival_told(&survival(through, of).ok()?));
            told_fact(name, format!("{through} of {of}"), tell)
        }
    }
}

fn answered(app: App, answer: &StartAnswer, wish: &StartWish) -> AnyView {
    let wish = *wish;
    let tell = move |figure| move || app.book_now(|book| book.start_worked(&wish, figure));
    let [pieces, laminates, blanks] = answer.shares;
    let of = vec![
        told_fact(
            "On average, without a margin",
            format!("{:.1} planks", answer.start.on_average),
            tell(StartFigure::OnAverage),
        ),
        share_words("Pieces that came through", pieces),
        share_words("Laminates", laminates),
        share_words("Blanks", blanks),
        told_fact(
            "Likeness of one plank's laminates",
            format!("{:.2}", answer.likeness),
            tell(StartFigure::Likeness),
        ),
        (
            "In hand, counted in".to_owned(),
            given(format!(
                "{}, {}",
                counted(answer.laminates as usize, "laminate", "laminates"),
                counted(answer.blanks as usize, "blank", "blanks")
            )),
        ),
    ];
    let planks = counted(answer.start.planks as usize, "plank", "planks");
    view! {
        <p class="note" id="to-start">
            <strong>"Start " {told_figure("Planks to start".to_owned(), planks, tell(StartFigure::Planks))}</strong>
            {format!(
                ": then {} good blanks come of it {:.0} times in 100.",
                wish.blanks,
                answer.start.chance * 100.0,
            )}
        </p>
        {facts_drawn(of)}
    }
    .into_any()
}

/// How many planks to start, by the maker's own counts.
fn start(app: App) -> AnyView {
    let (given, spec) = app.book_now(|book| {
        let visits = book
            .visits()
            .map(|visit| (visit.recorded.on, &visit.opened.spec));
        let spec = visits
            .max_by_key(|(on, _)| *on)
            .map(|(_, spec)| spec.clone());
        (book.laminates_per_plank(), spec)
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
            Some(StartWish {
                blanks: whole(blanks)?,
                laminates_per_plank: whole(per_plank)?,
                laminates_per_blank: whole(per_blank)?,
                confidence: f64::from(whole(sure)?) / 100.0,
                share_unknown: f64::from(whole(otherwise)?) / 100.0,
            })
        };
        let Some(wish) = wish() else {
            return view! { <p class="note doubt">"Whole numbers, please."</p> }.into_any();
        };
        match app.book(|book| book.start_for(&wish)) {
            Ok(answer) => answered(app, &answer, &wish),
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
