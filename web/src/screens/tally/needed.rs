//! What is still needed for the wish: planks, footage and money, with what rests in the workshop and this
//! visit's picks counted in; and the wish, to be changed.

use super::Shared;
use crate::app::App;
use crate::parts::{facts_drawn, given, live, told_fact, told_figure};
use crate::screens::figures::{counted, feet, in_hand_words, money};
use crate::screens::plan::stands_on;
use crate::screens::wish::{WishTyped, keep_wish, wish_fields};
use crate::screens::workshop::{feeler, resting};
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{StartFigure, StillToBuy, VisitTally, date};
use stillwood_core::season::Stage;

/// What a visit still has to bring home; `None` where it is not here.
pub(crate) fn still_to_buy(app: App, visit: Id, tally: &VisitTally) -> Option<StillToBuy> {
    let today = date(&clock::now().day)?;
    let lines = resting(app);
    app.state(|state| {
        let (wish, _) = queries::target_of_visit(state, visit)?;
        let woods = match wish.wood {
            Some(wood) => vec![wood],
            None => queries::woods_of_visit(state, visit),
        };
        let per_plank = queries::laminates_to_expect(state, Some(tally));
        let (wood, _) = queries::wood_in_hand(state, &woods, &lines, per_plank, today);
        let paces = queries::paces(state, feeler(), today);
        queries::still_to_buy(state, visit, tally, &wood, &paces, today)
    })
}

/// How many planks are short, in words, and the class of the note.
fn short_words(needed: &StillToBuy) -> (String, &'static str) {
    match (&needed.answer.start, needed.planks()) {
        (Err(why), _) => (why.to_string(), "note doubt"),
        (Ok(_), Some(0)) => ("enough is in hand".to_owned(), "note good"),
        (Ok(_), _) if !needed.answer.planks_in_time => {
            let pace = if needed.at_own_pace.is_empty() {
                ""
            } else {
                " at your pace"
            };
            (
                format!("short, and planks bought today come too late{pace}"),
                "note bad",
            )
        }
        (Ok(_), Some(planks)) => {
            let planks = counted(planks as usize, "plank short", "planks short");
            (planks, "note")
        }
        (Ok(start), None) => {
            let most = start.chances.len().saturating_sub(1);
            (
                format!("too few to say: more than {most} planks short"),
                "note doubt",
            )
        }
    }
}

/// The same, as a figure that tells how it was worked out.
pub(crate) fn short_figure(needed: &StillToBuy) -> AnyView {
    let (short, _) = short_words(needed);
    match needed.answer.start.clone() {
        Ok(start) => told_figure("Still needed".to_owned(), short, move || {
            start.worked(StartFigure::Planks)
        }),
        Err(_) => short.into_any(),
    }
}

/// When blanks of planks bought today can be ready, and by which rests that is reckoned.
pub(crate) fn ready_line(needed: &StillToBuy) -> Option<AnyView> {
    let day = needed.ready_if_bought_now()?.to_string();
    let tell = needed.clone();
    let told = told_figure("Ready if bought today".to_owned(), day, move || {
        tell.explain_ready()
    });
    let by = pace_words(&needed.at_own_pace);
    Some(
        view! { <p class="small" id="ready-if-bought">"Planks bought today can be blanks on " {told} ". " {by}</p> }
            .into_any(),
    )
}

/// By which rests it is reckoned.
fn pace_words(known: &[Stage]) -> String {
    let named = |of: &dyn Fn(&Stage) -> bool| {
        let stages = Stage::ALL.into_iter().filter(of);
        stages.map(Stage::name).collect::<Vec<_>>().join(" and ")
    };
    match known.len() {
        0 => "By the least rests: too few of yours have gone on to tell your pace.".to_owned(),
        count if count == Stage::ALL.len() => "At your own pace.".to_owned(),
        _ => format!(
            "At your own pace for {}; for {} by the least rest: too few have gone on.",
            named(&|stage| known.contains(stage)),
            named(&|stage| !known.contains(stage)),
        ),
    }
}

/// What is wished for, in words.
pub(crate) fn wish_words(needed: &StillToBuy) -> String {
    let wish = &needed.wish;
    let blanks = counted(wish.blanks as usize, "blank", "blanks");
    let by = wish.by.map_or_else(String::new, |by| format!(" by {by}"));
    let wood = wish.wood.as_ref();
    let wood = wood.map_or_else(String::new, |wood| format!(" of {}", wood.text));
    format!("{blanks}{wood}{by}, {} % sure", wish.sure_percent)
}

/// The card.
#[component]
pub(super) fn Needed(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let key = format!("wish/{}", shared.visit);
    // What was half typed stands open again.
    let begun = app.forms.with_untracked(|forms| forms.contains_key(&key));
    let open = RwSignal::new(begun);
    let needed = Memo::new(move |_| {
        let tally = shared.tally.get()?;
        still_to_buy(app, shared.visit, &tally)
    });
    let card = move || {
        needed
            .get()
            .map(|needed| card(needed, &shared.currency.get()))
    };
    let form = move || {
        let wish = open.get().then(|| needed.get_untracked())??.wish;
        Some(wish_form(app, key.clone(), WishTyped::of(&wish), open))
    };
    view! {
        <h2>"Still needed"</h2>
        {live(card)}
        <button
            type="button" class="wide-button" aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|open| *open = !*open)
        >
            "Change the wish"
        </button>
        {live(form)}
    }
}

fn card(needed: StillToBuy, currency: &str) -> AnyView {
    let (_, class) = short_words(&needed);
    let wished = match needed.said_on {
        Some(on) => format!("{} (said on {on})", wish_words(&needed)),
        None => format!(
            "{}, as the visit's sizes and limits have it",
            wish_words(&needed)
        ),
    };
    let picks = (needed.picks > 0).then(|| {
        let picks = counted(needed.picks, "plank", "planks");
        ("Taken on this visit, in that".to_owned(), picks.into_any())
    });
    let per_blank = needed.wish.laminates_per_blank;
    let in_hand = in_hand_words(&needed.answer.in_time, per_blank);
    let mut facts: Vec<(String, AnyView)> = picks.into_iter().collect();
    facts.push((
        match per_blank {
            1 => "Parts to expect of a plank".to_owned(),
            _ => "Laminates to expect of a plank".to_owned(),
        },
        given(format!("about {}", needed.per_plank)),
    ));
    let buys = needed.answer.planks_in_time;
    let of_planks = needed
        .of_planks()
        .filter(|(feet, _)| buys && !feet.is_zero());
    if let Some((footage, gross)) = of_planks {
        let one = |name: &str, figure, currency: Option<String>| {
            let needed = needed.clone();
            told_fact(name, figure, move || needed.worked(currency.as_deref()))
        };
        facts.push(one("That is about", feet(footage), None));
        facts.push(one(
            "And costs about, with tax",
            money(gross, currency),
            Some(currency.to_owned()),
        ));
    }
    let stands = needed.answer.start.as_ref().ok().map(stands_on);
    view! {
        <p class=class id="short-by">"Still needed: " <strong>{short_figure(&needed)}</strong></p>
        <p>"TargetSet for: " {given(format!("{wished}."))}</p>
        <p class="small">{format!("In hand, counted in: {in_hand}.")}</p>
        {ready_line(&needed)}
        {facts_drawn(facts)}
        {stands}
    }
    .into_any()
}

fn wish_form(app: App, key: String, typed: WishTyped, open: RwSignal<bool>) -> AnyView {
    let begun = typed.begun(app, key);
    let keep = move |_| keep_wish(typed, begun, move || open.set(false));
    view! {
        <div class="card" id="wish-form">
            {wish_fields(typed, begun)}
            <p class="error-line" role="alert">{live(move || begun.line())}</p>
            <button
                type="button" class="primary wide-button" id="keep-wish" on:click=keep
                disabled=move || begun.busy()
            >
                "Keep this wish"
            </button>
        </div>
    }
    .into_any()
}
