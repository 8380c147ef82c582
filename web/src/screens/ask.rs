//! Quick questions without a plank: one is open at a time, and its answer follows every key.

use crate::app::App;
use crate::parts::{
    Choice, CollectAny, Frame, TextField, WoodChosen, WoodField, facts_drawn, live, told_fact,
};
use crate::route::Route;
use leptos::prelude::*;
use stillwood_core::record::queries::quick_questions::{
    Input, InputKind, QUESTIONS, Question, Reply, Understanding, Way,
};

/// What is typed, by the labels: it stays when another question is opened.
#[derive(Clone, Copy)]
struct Asked {
    texts: StoredValue<Vec<(&'static str, RwSignal<String>)>>,
    wood: WoodChosen,
}

impl Asked {
    fn new() -> Self {
        let mut texts: Vec<(&'static str, RwSignal<String>)> = Vec::new();
        let ways = QUESTIONS.iter().flat_map(|question| question.ways);
        for input in ways.flat_map(|way| way.inputs) {
            if !texts.iter().any(|(label, _)| *label == input.label) {
                texts.push((input.label, RwSignal::new(input.begins.to_owned())));
            }
        }
        Self {
            texts: StoredValue::new(texts),
            wood: WoodChosen::new(String::new(), None),
        }
    }

    fn text(self, input: &Input) -> RwSignal<String> {
        let known = self.texts.with_value(|texts| {
            let mut texts = texts.iter();
            texts
                .find(|(label, _)| *label == input.label)
                .map(|(_, text)| *text)
        });
        known.unwrap_or_else(|| RwSignal::new(String::new()))
    }
}

/// The screen.
#[component]
pub(crate) fn Ask() -> impl IntoView {
    let asked = Asked::new();
    let open = RwSignal::new(None::<usize>);
    let one = move |(at, question): (usize, &'static &'static Question)| {
        let opened = move || open.get() == Some(at);
        view! {
            <section class="asked">
                <h2>
                    <button
                        type="button" class="card" aria-expanded=move || opened().to_string()
                        on:click=move |_| open.update(|open| *open = (*open != Some(at)).then_some(at))
                    >
                        {question.asks}
                    </button>
                </h2>
                {live(move || opened().then(|| view! { <Opened question=question asked=asked /> }))}
            </section>
        }
    };
    view! {
        <Frame title="Quick questions" back=Route::Home>
            <p class="small">"Any unit can be typed. Nothing asked here is recorded."</p>
            {QUESTIONS.iter().enumerate().map(one).collect_any()}
        </Frame>
    }
}

/// The question that is open.
#[component]
fn Opened(
    /// It.
    question: &'static Question,
    /// What is typed.
    asked: Asked,
) -> impl IntoView {
    let app = expect_context::<App>();
    let chosen = RwSignal::new(0_usize);
    let way = move || question.ways.get(chosen.get());
    let ways: Vec<(usize, &'static str)> = question
        .ways
        .iter()
        .map(|way| way.name)
        .enumerate()
        .collect();
    let ways = (ways.len() > 1).then(|| view! { <Choice name="How" value=chosen of=ways /> });
    let inputs = move || {
        let inputs = way().map(|way| way.inputs).unwrap_or_default();
        inputs
            .iter()
            .map(|input| field(app, asked, input))
            .collect_any()
    };
    let reply = move || {
        let way: &Way = way()?;
        let mut typed = Vec::new();
        for input in way.inputs {
            typed.push((input.label, asked.text(input).get()));
        }
        let wood = asked.wood.id.get().and_then(|id| app.wood(&id));
        Some(answered(way.reply(&typed, wood.as_ref(), app.units.get())))
    };
    view! {
        {ways}
        {live(inputs)}
        <div role="status" id="answer">{live(reply)}</div>
    }
}

/// One thing to type, with what is understood of it.
fn field(app: App, asked: Asked, input: &'static Input) -> AnyView {
    if input.kind == InputKind::Wood {
        return view! { <WoodField wood=asked.wood brief=true /> }.into_any();
    }
    let text = asked.text(input);
    let understood = move || text.with(|text| input.understand(text, app.units.get()));
    let echo = Signal::derive(move || match understood() {
        Understanding::Read(shown) => shown,
        Understanding::Empty if !input.needed => "may stay empty".into(),
        Understanding::Empty | Understanding::Unreadable(_) => String::new(),
    });
    let error = Signal::derive(move || match understood() {
        Understanding::Unreadable(why) => why,
        Understanding::Empty | Understanding::Read(_) => String::new(),
    });
    view! { <TextField name=input.label value=text echo=echo error=error /> }.into_any()
}

fn answered(reply: Reply) -> AnyView {
    match reply {
        Reply::Wants(labels) => {
            view! { <p class="small">{format!("Still to type: {}.", labels.join(", "))}</p> }
                .into_any()
        }
        Reply::Cannot(why) => view! { <p class="note bad">{why}</p> }.into_any(),
        Reply::Answer(answer) => {
            let of = answer.figures.iter().map(|figure| {
                let working = figure.working(&answer).clone();
                told_fact(&figure.name, figure.value.clone(), move || {
                    Some(working.clone())
                })
            });
            let (of, basis) = (of.collect::<Vec<_>>(), answer.basis.clone());
            view! {
                {facts_drawn(of)}
                <p class="small basis">{basis}</p>
            }
            .into_any()
        }
    }
}
