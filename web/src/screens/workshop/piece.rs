//! A piece in the workshop: where it is in its life, what it came from and what became of it, what can
//! be done with it, and its history.

use super::deeds::{DOINGS, Doing};
use super::facts::{facts, moved, word};
use super::form::{Filled, Sheet, form};
use super::offered::{Opened, bring_into_view, offered};
use super::stress::stress;
use super::waits;
use crate::app::App;
use crate::parts::{CollectAny, Frame, live, shelf_card};
use crate::record::Deed;
use crate::route::Route;
use crate::screens::blanks::cost_of_blank;
use crate::screens::pile::missing;
use crate::screens::sheet::History;
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Event, Piece, PieceKind, State, Withdrawn};
use stillwood_core::season::Stage;

/// The screen.
#[component]
pub(crate) fn WoodScreen(
    /// The piece.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    if app.book_now(|state| state.piece(id).is_none()) {
        return missing("No such piece");
    }
    let piece = Memo::new(move |_| app.state(|state| state.piece(id).cloned()));
    let waiting = Memo::new(move |_| app.state(|state| waits(app, state, state.piece(id)?)));
    let mark = move || piece.with(|p| p.as_ref().map(|p| p.mark.clone()).unwrap_or_default());
    // What was half typed stands open again.
    let half_typed = |doing: &Doing| app.forms.with_untracked(|f| f.contains_key(&doing.key(id)));
    let open = RwSignal::new(DOINGS.iter().position(half_typed));
    let opened = Opened {
        form: open,
        all: RwSignal::new(false),
    };
    if open.with_untracked(Option::is_some) {
        request_animation_frame(bring_into_view);
    }
    let word = move || waiting.with(|waits| word(waits.as_ref()?));
    let state = move || {
        piece.with(|piece| waiting.with(|waits| Some(facts(app, piece.as_ref()?, waits.as_ref()))))
    };
    let checks = move || piece.with(|piece| moved(app, piece.as_ref()?));
    let doings = move || {
        piece.with(|piece| {
            let piece = piece.as_ref()?;
            let ours = piece.is_at_hand() && piece.is_bought();
            ours.then(|| waiting.with(|waits| offered(app, piece, waits.as_ref(), opened)))
        })
    };
    let tests = move || piece.with(|piece| stress(app, piece.as_ref()?));
    let cost = move || {
        let is_blank = piece.with(|p| p.as_ref().is_some_and(|p| p.work.kind == PieceKind::Blank));
        is_blank.then(|| cost_of_blank(app, id))
    };
    let form = move || {
        let doing = DOINGS.get(open.get()?)?;
        let close = move |()| {
            open.set(None);
            opened.all.set(false);
        };
        Some(deed_form(app, id, doing, Callback::new(close)))
    };
    let as_card = RwSignal::new(false);
    let card = move || {
        as_card.get().then(|| {
            view! {
                {shelf_card(app, mark(), live(state).into_any())}
                <button class="no-print wide-button" id="close-card" on:click=move |_| as_card.set(false)>
                    "Back to the piece"
                </button>
            }
        })
    };
    view! {
        <Frame title=Signal::derive(mark) back=Route::Workshop class="wide">
            {live(card)}
            <div hidden=move || as_card.get()>
                <p class="mark sheet-mark" id="sheet-mark">{live(mark)}</p>
                <div class="two">
                    <div>
                        {live(move || piece_conflict(app, id))}
                        {live(word)}
                        {live(doings)}
                        {live(form)}
                        {live(state)}
                        {live(move || family(app, id))}
                    </div>
                    <div>
                        {live(tests)}
                        {live(checks)}
                        {live(cost)}
                        <History piece=piece />
                        <button class="no-print wide-button" id="as-card" on:click=move |_| as_card.set(true)>
                            "Shelf card"
                        </button>
                    </div>
                </div>
            </div>
        </Frame>
    }
    .into_any()
}

/// The form of one thing that can be done with a piece; `close` follows once it is kept.
pub(crate) fn deed_form(app: App, id: Id, doing: &'static Doing, close: Callback<()>) -> AnyView {
    let known = app.book_now(|state| {
        let piece = state.piece(id)?;
        Some((piece.mark.clone(), begins(state, piece)))
    });
    let (mark, (begins, stage)) = known.unwrap_or_default();
    let sheet = Sheet {
        key: doing.key(id),
        words: format!("{mark}: {}", doing.name.to_lowercase()),
        asks: doing.asks,
        begins,
        pick: if doing.name == "Set to rest" {
            stage
        } else {
            0
        },
        day: None,
    };
    let save = move |filled: Filled| Ok((id, (doing.make)(filled)?));
    form(
        Filled::open(app, sheet),
        doing.name,
        mark,
        Arc::new(save),
        close,
    )
}

/// What stands in the forms at first: tools and shelf as last time; and the stage that it is in.
fn begins(state: &State, piece: &Piece) -> (Vec<(&'static str, String)>, usize) {
    let work = &piece.work;
    let stage = queries::stage_of(state, piece);
    let stage = Stage::ALL.iter().position(|one| *one == stage);
    let mut begins = vec![("A face was made flat", "yes".to_owned())];
    if let Some(last) = work.weighings.last() {
        let step = last.payload.step.as_ref();
        begins.push(("Scale", last.payload.scale.clone()));
        begins.push((
            "Step of the scale",
            step.map(|step| step.typed.clone()).unwrap_or_default(),
        ));
    }
    if let Some(last) = work.moistures.last() {
        begins.push(("Meter", last.payload.meter.clone()));
    }
    if let Some(last) = work.machined.last() {
        begins.push(("Marked face and edge", last.payload.reference.clone()));
    }
    (begins, stage.unwrap_or_default())
}

fn family(app: App, id: Id) -> AnyView {
    let links = |of: Vec<Id>| {
        app.state(|state| {
            let one = |id: Id| {
                let mark = state.piece(id).map(|piece| piece.mark.clone());
                let mark = mark.unwrap_or_else(|| "not in this record".to_owned());
                view! { <a class="button mark-small" href=Route::Wood(id).href()>{mark}</a> }
            };
            of.into_iter().map(one).collect_any()
        })
    };
    let row = |name: &'static str, of: Vec<Id>| {
        (!of.is_empty()).then(|| {
            view! {
                <div class="field" role="group" aria-label=name>
                    <span class="name">{name}</span>
                    <div class="chips">{links(of)}</div>
                </div>
            }
        })
    };
    let (from, into, of_yard) = app.state(|state| {
        let of_yard = state.piece(id).is_some_and(Piece::is_from_yard);
        (
            queries::made_of(state, id),
            queries::made_from(state, id),
            of_yard,
        )
    });
    let sheet = of_yard.then(|| {
        view! {
            <p><a class="button" href=Route::Sheet(id).href()>"Its sheet from the yard"</a></p>
        }
    });
    view! {
        {row("Made from", from)}
        {row("Made of it", into)}
        {sheet}
    }
    .into_any()
}

/// Where two entries can't both be true: the one set aside, to be taken back.
fn piece_conflict(app: App, id: Id) -> AnyView {
    let piece_conflicts = app.state(|state| {
        let of_it = queries::piece_conflicts(state)
            .iter()
            .filter(|piece_conflict| piece_conflict.about == id);
        of_it.copied().collect::<Vec<_>>()
    });
    let one = |piece_conflict: stillwood_core::record::PieceConflict| {
        let settle = move |entry: Id| {
            let about = app.record.with_value(|record| {
                let entry = record.log().entry(entry);
                entry.map_or(id, |entry| entry.about)
            });
            let deed = Deed::instead_of(about, Event::Withdrawn(Withdrawn {}), vec![entry]);
            app.write_and_say(vec![deed], "Taken back.".into(), None);
        };
        let in_force = piece_conflict.in_force.map(|entry| {
            view! { <button on:click=move |_| settle(entry)>"Take the first back"</button> }
        });
        view! {
            <div class="note doubt">
                <p>"Two stories can't both be true: "{piece_conflict.why.in_words()}"."</p>
                <div class="row">
                    <button on:click=move |_| settle(piece_conflict.set_aside)>"Take the second back"</button>
                    {in_force}
                </div>
            </div>
        }
    };
    piece_conflicts.into_iter().map(one).collect_any()
}
