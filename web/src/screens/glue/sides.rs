//! What can only be seen on the wood: to which side the rings of a laminate lean, and which way its grain
//! runs out. A picture is tapped for each; nothing has to be typed.

use super::Gluing;
use crate::app::App;
use crate::drawings::{grain_sign, rings_sign};
use crate::parts::{CollectAny, live};
use crate::record::Deed;
use leptos::prelude::*;
use stillwood_core::neck::Laminate;
use stillwood_core::plank::{RingTilt, RunoutDirection};
use stillwood_core::record::Id;
use stillwood_core::record::{Event, GrainSeen};

/// The part of the screen, closed at first.
pub(super) fn to_look_at(app: App, gluing: Gluing) -> AnyView {
    let missing = move || {
        let chosen = gluing.chosen.get();
        gluing.stock.with(|stock| {
            let unseen = |one: &Laminate| one.lean.is_none() || one.rise.is_none();
            let mut stock = stock.iter();
            let of = |(missing, all), one: &stillwood_core::record::ReadyLaminate| {
                if chosen.contains(&one.piece) {
                    (missing + usize::from(unseen(&one.laminate)), all + 1)
                } else {
                    (missing, all)
                }
            };
            stock.by_ref().fold((0, 0), of)
        })
    };
    let words = move || match missing() {
        (0, _) => "Rings and grain: all looked at".to_owned(),
        (missing, all) => format!("Rings and grain: {missing} of {all} to look at"),
    };
    // Rows stay as they are while only what is seen in them changes.
    let rows = Memo::new(move |_| {
        let chosen = gluing.chosen.get();
        gluing.stock.with(|stock| {
            let ours = stock.iter().filter(|one| chosen.contains(&one.piece));
            ours.map(|one| (one.piece, one.mark.clone()))
                .collect::<Vec<_>>()
        })
    });
    let rows = move || {
        let rows = rows.get().into_iter();
        rows.map(|(id, mark)| row(app, gluing, id, mark))
            .collect_any()
    };
    view! {
        <details id="sides">
            <summary>{live(words)}</summary>
            <p class="small">
                "Stand each on edge: marked edge up, marked face to the right, near end towards you, as it stood in \
                 its plank. The first three pictures: how the rings rise on that end. The other three: how the grain \
                 runs on the marked face, near end to the left."
            </p>
            <ul class="plain">{live(rows)}</ul>
        </details>
    }
    .into_any()
}

fn row(app: App, gluing: Gluing, id: Id, mark: String) -> AnyView {
    let laminate = Memo::new(move |_| {
        gluing.stock.with(|stock| {
            let one = stock.iter().find(|one| one.piece == id);
            one.map(|one| (one.laminate.lean, one.laminate.rise))
        })
    });
    let rings = RingTilt::ALL.map(|lean| {
        let on = move || laminate.get().is_some_and(|seen| seen.0 == Some(lean));
        let seen = GrainSeen {
            rings_lean: Some(lean),
            ..GrainSeen::default()
        };
        picture(
            app,
            (id, &mark),
            (lean.in_words(), rings_sign(lean)),
            on,
            seen,
        )
    });
    let grain = RunoutDirection::ALL.map(|rise| {
        let on = move || laminate.get().is_some_and(|seen| seen.1 == Some(rise));
        let seen = GrainSeen {
            grain_rises: Some(rise),
            ..GrainSeen::default()
        };
        picture(
            app,
            (id, &mark),
            (rise.in_words(), grain_sign(rise)),
            on,
            seen,
        )
    });
    let unseen = move || {
        let (lean, rise) = laminate.get()?;
        let unseen = lean.is_none() || rise.is_none();
        unseen.then(|| view! { <small class="word doubt">"to look at"</small> })
    };
    view! {
        <li class="off looked" data-mark=mark.clone()>
            <div class="row">
                <span class="mark-small">{mark.clone()}</span>
                {live(unseen)}
            </div>
            <div class="signs" role="group" aria-label=format!("{mark}: rings")>{rings.collect_any()}</div>
            <div class="signs" role="group" aria-label=format!("{mark}: grain")>{grain.collect_any()}</div>
        </li>
    }
    .into_any()
}

/// A picture that is tapped to say what is seen.
fn picture(
    app: App,
    (id, mark): (Id, &str),
    (words, drawn): (&'static str, AnyView),
    on: impl Fn() -> bool + Send + Sync + 'static,
    seen: GrainSeen,
) -> AnyView {
    let said = format!("{mark}: {words}.");
    let tap = move |_| {
        let event = Event::GrainSeen(Box::new(seen.clone()));
        app.write_and_say(vec![Deed::new(id, event)], said.clone(), None);
    };
    view! {
        <button
            type="button" class="chip" aria-label=format!("{mark}: {words}")
            aria-pressed=move || on().to_string() on:click=tap
        >
            {drawn}
        </button>
    }
    .into_any()
}
