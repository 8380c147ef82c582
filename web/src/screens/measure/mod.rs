//! A plank being measured: the fields in the order of the tape, the verdict live at every keystroke,
//! the keypad under the thumb, and the decision.

mod bottom;
mod decide;
mod faults;
mod fields;
mod questions;
mod setting;

pub(super) use decide::proposal;

use crate::app::App;
use crate::entering::{Weighs, defects_of, readings_of};
use crate::parts::{Criteria, Frame, Pictures, Results, ScoreStrip, focus_on};
use crate::route::{Route, go};
use crate::screens::pile::missing;
use leptos::prelude::*;
use setting::{Setting, draft_of, plank_before, setting_of, wood_named};
use stillwood_core::plank::Field;
use stillwood_core::verdict::sheet;
use uuid::Uuid;

/// The screen.
#[component]
pub(crate) fn Measure(
    /// The piece.
    id: Uuid,
) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    let Some(draft) = draft_of(app, id) else {
        return missing("No such plank");
    };
    let Some(setting) = setting_of(app, &draft, id) else {
        return missing("No such pile");
    };
    if let Some(way) = Weighs::of(&draft) {
        entering.weighs.set(way);
    }
    let mark = draft.mark.clone();
    let begins = draft.value(Field::Length).is_none();
    entering.active.set(None);
    entering.last.set(plank_before(app, setting.pile, id));
    entering.draft.set(Some(draft));
    // What is half typed is kept at every keystroke.
    Effect::new(move |before: Option<()>| {
        let Some(draft) = entering.draft.get() else {
            return;
        };
        if before.is_some() && draft.piece == Some(id) {
            app.keep_draft(draft);
        }
    });
    let spec = StoredValue::new(setting.spec.clone());
    let judged = Memo::new(move |_| {
        let draft = entering.draft.get()?;
        let units = app.units.get();
        let (readings, _) = readings_of(&draft, units);
        let defects = defects_of(&draft, units);
        let instruments = app.settings.with(|settings| settings.instruments);
        Some(spec.with_value(|spec| sheet(&readings, &defects, &instruments, spec)))
    });
    // The thumb starts at the length.
    if begins {
        request_animation_frame(|| focus_on(Field::Length));
    }
    let back = Route::Pile(setting.pile);
    let of_pile = setting.species.clone();
    let named = Memo::new(move |_| {
        let own = entering
            .draft
            .with(|d| d.as_ref().map(|d| d.species.clone()).unwrap_or_default());
        wood_named(app, &own).unwrap_or_else(|| of_pile.clone())
    });
    let setting: StoredValue<Setting> = StoredValue::new(setting);
    let drop = move |_| {
        let dropped = entering.draft.get_untracked();
        entering.draft.set(None);
        app.drop_draft(id);
        app.dropped.set(dropped);
        app.say("Dropped. It can be brought back from the pile until the app is closed.");
        go(back);
    };
    let chalk = move || view! { <a class="button" href=Route::Mark(id).href()>"Chalk"</a> };
    let strip = move || {
        judged
            .get()
            .map(|sheet| view! { <ScoreStrip verdict=sheet.verdict /> })
    };
    let figures = move || {
        judged.get().map(|sheet| {
            let (units, spec) = (app.units.get(), spec.get_value());
            view! {
                <Criteria verdict=sheet.verdict.clone() units=units />
                <Results sheet=sheet spec=spec units=units />
            }
        })
    };
    let pictures = move || {
        judged.get().map(|sheet| {
            let wood = app.wood(named.get().id.as_deref());
            view! { <Pictures sheet=sheet wood=wood spec=spec.get_value() units=app.units.get() /> }
        })
    };
    view! {
        <Frame title=mark back=back class="with-keypad" more=ViewFn::from(chalk)>
            <div class="stuck">{strip}</div>
            <fields::Fields named=named judged=judged />
            <h2>"Verdict"</h2>
            {figures}
            {pictures}
            <button class="quiet no-print" id="drop-draft" on:click=drop>
                "Drop what is typed here"
            </button>
            <bottom::Bottom setting=setting judged=judged />
        </Frame>
    }
    .into_any()
}
