//! What can be done with a plank from its sheet: decide again, measure again, note, print, take back.

use super::Shown;
use crate::app::App;
use crate::parts::{CollectAny, GoTo, When, live, print_page};
use crate::record::Deed;
use crate::route::Route;
use crate::screens::measure::proposal;
use crate::screens::reasons::AllReasons;
use leptos::prelude::*;
use stillwood_core::plank::Reason;
use stillwood_core::record::Id;
use stillwood_core::record::{
    Decision, Entry, Event, EventStatus, Judged, Noted, Piece, Withdrawn,
};

/// The buttons.
#[component]
pub(super) fn Deeds(shown: Shown) -> impl IntoView {
    let app = expect_context::<App>();
    let leaving = RwSignal::new(false);
    let chosen = RwSignal::new(Vec::<Reason>::new());
    let decide = move |decision: Decision, reasons: Vec<Reason>| {
        leaving.set(false);
        judge(app, shown, decision, reasons);
    };
    let ask_why = move |_| {
        let found = shown.own.with_untracked(|sheet| {
            sheet
                .as_ref()
                .map(|(sheet, _)| sheet.verdict.reasons.clone())
                .unwrap_or_default()
        });
        chosen.set(found);
        leaving.update(|leaving| *leaving = !*leaving);
    };
    let withdrawn = move || {
        shown
            .piece
            .with(|p| p.as_ref().is_some_and(|p| p.withdrawn))
    };
    let uncut = move || {
        let can = |piece: &Piece| piece.is_bought() && piece.is_at_hand();
        shown.piece.with(|piece| piece.as_ref().is_some_and(can))
    };
    let main = move || {
        chosen.with(|chosen| match chosen.first() {
            Some(reason) => format!("Leave it: {}", reason.name()),
            None => "Leave it".into(),
        })
    };
    view! {
        <div class="no-print">
            <div class="row stretch" role="group" aria-label="Decide again">
                <button class="take" id="take-now" on:click=move |_| decide(Decision::Take, Vec::new())>
                    "Take"
                </button>
                <button id="aside-now" on:click=move |_| decide(Decision::SetAside, Vec::new())>
                    "Set aside"
                </button>
                <button
                    class="leave" id="leave-why" aria-expanded=move || leaving.get().to_string()
                    on:click=ask_why
                >
                    "Leave…"
                </button>
            </div>
            <When so=move || leaving.get()>
                <section class="card" aria-label="Why is it left?">
                    <h2>"Why is it left? The first is the main reason."</h2>
                    <AllReasons chosen=chosen />
                    <button
                        class="leave wide-button" id="leave-now"
                        on:click=move |_| decide(Decision::Leave, chosen.get_untracked())
                    >
                        {live(main)}
                    </button>
                </section>
            </When>
            <div class="row stretch more-deeds">
                <When so=uncut>
                    <GoTo to=Route::Cut(shown.id) name="Cut" />
                </When>
                <GoTo to=Route::Measure(shown.id) name="Measure again" />
                <button
                    id="print"
                    on:click=move |_| print_page(app)
                >
                    "Print"
                </button>
                <Show
                    when=withdrawn
                    fallback=move || {
                        view! {
                            <button id="withdraw" class="leave" on:click=move |_| withdraw(app, shown)>
                                "Take the record back"
                            </button>
                        }
                    }
                >
                    <button id="bring-back" on:click=move |_| bring_back(app, shown)>
                        "Bring it back"
                    </button>
                </Show>
            </div>
        </div>
    }
}

/// Writes a new decision beside the earlier ones.
fn judge(app: App, shown: Shown, decision: Decision, reasons: Vec<Reason>) {
    let verdict = shown
        .own
        .with_untracked(|sheet| sheet.as_ref().map(|(sheet, _)| sheet.verdict.clone()));
    let proposed = verdict
        .as_ref()
        .and_then(|verdict| proposal(verdict.recommendation));
    let judged = Judged {
        decision,
        proposed,
        reasons,
        score: verdict.as_ref().and_then(|v| v.score),
        weakest: verdict.as_ref().and_then(|verdict| verdict.weakest),
    };
    let against = if judged.overruled() {
        ", against the computation"
    } else {
        ""
    };
    let text = format!("{} {}{against}.", mark(shown), decision.in_words());
    let deed = Deed::new(shown.id, Event::Judged(judged));
    app.write_and_say(vec![deed], text, None);
}

fn mark(shown: Shown) -> String {
    shown
        .piece
        .with_untracked(|piece| piece.as_ref().map(|piece| piece.mark.clone()))
        .unwrap_or_default()
}

/// A taking back of each entry in force that `wanted` picks from the plank's history.
fn take_back(app: App, piece: &Piece, wanted: impl Fn(&Entry) -> bool) -> Vec<Deed> {
    app.record.with_value(|record| {
        piece
            .history
            .iter()
            .filter(|line| line.standing == EventStatus::InForce)
            .filter_map(|line| record.log().entry(line.entry))
            .filter(|entry| wanted(entry))
            .map(|entry| {
                let event = Event::Withdrawn(Withdrawn {});
                Deed::instead_of(entry.about, event, vec![entry.id])
            })
            .collect()
    })
}

/// Takes the plank back: its marks no longer count, and so nothing about it does.
fn withdraw(app: App, shown: Shown) {
    let Some(piece) = shown.piece.get_untracked() else {
        return;
    };
    let marked = |entry: &Entry| matches!(entry.event, Event::Marked(_));
    let deeds = take_back(app, &piece, marked);
    app.write_and_say(deeds, format!("{} taken back.", piece.mark), None);
}

/// Takes back the taking back.
fn bring_back(app: App, shown: Shown) {
    let Some(piece) = shown.piece.get_untracked() else {
        return;
    };
    let is_mark = |id: &Id| {
        app.record.with_value(|record| {
            let entry = record.log().entry(*id);
            entry.is_some_and(|entry| matches!(entry.event, Event::Marked(_)))
        })
    };
    let of_a_mark = |entry: &Entry| {
        matches!(entry.event, Event::Withdrawn(_)) && entry.supersedes.iter().any(is_mark)
    };
    let deeds = take_back(app, &piece, of_a_mark);
    app.write_and_say(deeds, format!("{} counts again.", piece.mark), None);
}

/// Notes, and a new one.
#[component]
pub(super) fn Notes(shown: Shown) -> impl IntoView {
    let app = expect_context::<App>();
    let text = RwSignal::new(String::new());
    let notes = move || {
        shown.piece.get().map(|piece| {
            let one = |note: &stillwood_core::record::Note| {
                view! { <li>{format!("{}: {}", note.on, note.text)}</li> }
            };
            piece.notes.iter().map(one).collect_any()
        })
    };
    let add = move |_| {
        let typed = text.get_untracked().trim().to_owned();
        if typed.is_empty() {
            return;
        }
        text.set(String::new());
        let deed = Deed::new(shown.id, Event::Noted(Noted { text: typed }));
        app.write_and_say(vec![deed], "Noted.".into(), None);
    };
    view! {
        <h2>"Notes"</h2>
        <ul id="notes">{live(notes)}</ul>
        <div class="no-print">
            <label class="field">
                <span class="name">"A new note"</span>
                <textarea
                    id="new-note" rows="2" prop:value=move || text.get()
                    on:input=move |event| text.set(event_target_value(&event))
                ></textarea>
            </label>
            <button id="add-note" disabled=move || text.with(|t| t.trim().is_empty()) on:click=add>
                "Add the note"
            </button>
        </div>
    }
}
