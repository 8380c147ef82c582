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
use crate::entering::{defects_of, readings_of};
use crate::parts::{Criteria, Frame, Pictures, Results, ScoreStrip, after_pause, focus_on, live};
use crate::route::{Route, go};
use crate::screens::pile::missing;
use leptos::prelude::*;
pub(crate) use setting::wood_named;
use setting::{Setting, draft_of, plank_before, setting_of};
use std::time::Duration;
use stillwood_core::record::Id;
use stillwood_core::verdict::{Number, Sheet, sheet, working};

/// A pause in the typing.
const PAUSE: Duration = Duration::from_millis(150);

/// The screen.
#[component]
pub(crate) fn Measure(
    /// The piece.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    let Some(draft) = draft_of(app, id) else {
        return missing("No such plank");
    };
    let Some(setting) = setting_of(app, &draft, id) else {
        return missing("No such pile");
    };
    let mark = draft.mark.clone();
    entering.last.set(plank_before(app, setting.pile, id));
    entering.begin(draft);
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
    // What is read of the draft, once for the verdict and for the questions.
    let read = Memo::new(move |_| {
        let units = app.units.get();
        entering.draft.with(|draft| {
            let draft = draft.as_ref()?;
            Some((readings_of(draft, units).0, defects_of(draft, units)))
        })
    });
    let judged = Memo::new(move |_| {
        let instruments = app.settings.with(|settings| settings.instruments);
        read.with(|read| {
            let (readings, defects) = read.as_ref()?;
            Some(spec.with_value(|spec| sheet(readings, defects, &instruments, spec)))
        })
    });
    let settled = settled(judged);
    // The thumb starts where nothing is typed yet; a plank that is recorded is looked at first.
    let decided = app.book_now(|state| state.piece(id).is_some_and(|p| p.decision().is_some()));
    if let Some(field) = fields::first_empty(entering).filter(|_| !decided) {
        request_animation_frame(move || focus_on(field));
    }
    let back = Route::Pile(setting.pile);
    let of_pile = setting.species.clone();
    let named = Memo::new(move |_| {
        let own = entering.beside(|draft| draft.species.clone());
        wood_named(app, &own).unwrap_or_else(|| of_pile.clone())
    });
    let setting: StoredValue<Setting> = StoredValue::new(setting);
    let drop = move |_| {
        let dropped = entering.draft.get_untracked();
        entering.lay(None);
        app.drop_draft(id);
        app.dropped.set(dropped);
        app.say("Dropped. It can be brought back from the pile until the app is closed.");
        go(back);
    };
    let chalk = move || view! { <a class="button" href=Route::Mark(id).href()>"Chalk"</a> };
    let strip = move || {
        let verdict = judged.with(|sheet| sheet.as_ref().map(|sheet| sheet.verdict.clone()));
        let tell = move || {
            judged.with_untracked(|sheet| {
                spec.with_value(|spec| working(Number::PlankScore, sheet.as_ref()?, spec))
            })
        };
        verdict.map(|verdict| view! { <ScoreStrip verdict=verdict tell=Box::new(tell) /> })
    };
    let figures = move || {
        settled.get().map(|sheet| {
            let (units, spec) = (app.units.get(), spec.get_value());
            view! {
                <Criteria sheet=sheet.clone() spec=spec.clone() units=units />
                <Results sheet=sheet spec=spec units=units />
            }
        })
    };
    let pictures = move || {
        settled.get().map(|sheet| {
            let wood = app.wood_of(&named.get());
            view! { <Pictures sheet=sheet wood=wood spec=spec.get_value() units=app.units.get() /> }
        })
    };
    view! {
        <Frame title=mark back=back class="with-keypad" more=ViewFn::from(chalk)>
            <div class="stuck">{live(strip)}</div>
            <fields::Fields named=named settled=settled read=read />
            <h2>"Verdict"</h2>
            {live(figures)}
            {live(pictures)}
            <button class="quiet no-print" id="drop-draft" on:click=drop>
                "Drop what is typed here"
            </button>
            <bottom::Bottom setting=setting judged=judged />
        </Frame>
    }
    .into_any()
}

/// The sheet once the typing pauses. The strip with the verdict follows every keystroke; figures and
/// pictures, which stand further down, would make each of them slow.
fn settled(judged: Memo<Option<Sheet>>) -> RwSignal<Option<Sheet>> {
    let settled = RwSignal::new(judged.get_untracked());
    after_pause(
        PAUSE,
        move || judged.track(),
        move || {
            if let Some(sheet) = judged.try_get_untracked()
                && settled.with_untracked(|before| *before != sheet)
            {
                settled.set(sheet);
            }
        },
    );
    settled
}
