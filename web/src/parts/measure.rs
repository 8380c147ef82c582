//! One measurement on the entry screen: label, what is typed, the echo, and the eye's steps.

use crate::app::App;
use crate::entering::{Entering, echo_of};
use crate::parts::{CollectAny, live};
use leptos::prelude::*;
use stillwood_core::plank::{Field, Seen, Understood, eye_steps};
use stillwood_core::record::DraftValue;

fn dom_id(field: Field) -> String {
    format!("f-{field:?}")
}

/// Puts the thumb on a field: the cursor goes there and the field into view.
pub(crate) fn focus_on(field: Field) {
    use wasm_bindgen::JsCast;
    let found = document().get_element_by_id(&dom_id(field));
    if let Some(input) = found.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()) {
        let options = web_sys::FocusOptions::new();
        options.set_prevent_scroll(true);
        if input.focus_with_options(&options).is_err() {
            leptos::logging::warn!("{field:?} takes no focus");
        }
        let view = web_sys::ScrollIntoViewOptions::new();
        view.set_block(web_sys::ScrollLogicalPosition::Nearest);
        input.scroll_into_view_with_scroll_into_view_options(&view);
    }
}

/// A field with its echo.
#[component]
pub(crate) fn MeasureCell(
    /// What is measured.
    field: Field,
    /// Its width on the screen: "" (as its row has it) or "whole".
    #[prop(optional)]
    class: &'static str,
    /// Called when Enter is pressed.
    next: Callback<Field>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    // A key in one field leaves all others as they are: nothing of them is worked out or drawn again.
    let value = Memo::new(move |_| entering.value(field));
    let echo = Memo::new(move |_| value.with(|value| echo_of(field, value, app.units.get())));
    let id = dom_id(field);
    let echo_id = format!("{id}-echo");
    let said = move || match echo.get() {
        Understood::Empty => String::new(),
        Understood::Unreadable(why) => why,
        Understood::Read {
            warning: Some(warning),
            ..
        } => warning.question,
        Understood::Read { shown, other, .. } if other.is_empty() => shown,
        Understood::Read { shown, other, .. } => format!("{shown} = {other}"),
    };
    let text = move || value.with(|value| value.text.clone());
    view! {
        <div
            class=format!("measure {class}")
            class:active=move || entering.active.get() == Some(field)
            class:by-eye=move || value.with(|value| value.seen == Seen::ByEye)
            class:unread=move || echo.with(|echo| matches!(echo, Understood::Unreadable(_)))
            class:doubted=move || echo.with(|echo| echo.warning().is_some())
        >
            <label for=id.clone()>{field.label()}</label>
            <input
                id=id
                type="text"
                inputmode="none"
                autocomplete="off"
                spellcheck="false"
                title=field.meaning()
                aria-describedby=echo_id.clone()
                aria-invalid=move || echo.with(|echo| matches!(echo, Understood::Unreadable(_))).to_string()
                prop:value=text
                on:focus=move |_| entering.active.set(Some(field))
                on:input=move |event| entering.put(field, event_target_value(&event))
                on:keydown=move |event| {
                    if event.key() == "Enter" {
                        event.prevent_default();
                        next.run(field);
                    }
                }
            />
            <div class="echo" id=echo_id>{live(said)}</div>
        </div>
    }
}

/// The eye's coarse steps for a field: one touch each.
#[component]
pub(crate) fn EyeSteps(
    /// What is judged.
    field: Field,
) -> impl IntoView {
    let entering: Entering = expect_context::<App>().entering;
    let value = Memo::new(move |_| entering.value(field));
    let choose = move |words: &'static str| {
        let now = value.get_untracked();
        let same = now.seen == Seen::ByEye && now.text == words;
        let text = if same {
            String::new()
        } else {
            words.to_owned()
        };
        entering.put_value(
            field,
            DraftValue {
                text,
                seen: Seen::ByEye,
                confirmed: false,
            },
        );
    };
    view! {
        <div class="steps" role="group" aria-label=format!("{} by eye", field.label())>
            {eye_steps(field)
                .iter()
                .map(|step| {
                    let words = step.typed;
                    let pressed = move || {
                        value
                            .with(|now| now.seen == Seen::ByEye && now.text == words)
                            .to_string()
                    };
                    view! {
                        <button
                            type="button" aria-pressed=pressed
                            on:mousedown=|event| event.prevent_default()
                            on:click=move |_| choose(words)
                        >
                            {words}
                        </button>
                    }
                })
                .collect_any()}
        </div>
    }
}

/// A field beside its steps for the eye.
#[component]
pub(crate) fn MeasureOrEye(
    /// What is measured or judged.
    field: Field,
    /// Called when Enter is pressed.
    next: Callback<Field>,
) -> impl IntoView {
    view! {
        <div class="with-steps">
            <MeasureCell field=field class="whole" next=next />
            <EyeSteps field=field />
        </div>
    }
}
