//! A shelf looked through for movement: one touch for each piece that did not move, and the sizes of
//! those that did. Each makes an entry of its own.

use super::deeds::{MOVED, checked};
use super::form::{Filled, Sheet, form};
use super::{feeler, shelf_name};
use crate::app::App;
use crate::held::{Begun, Part, Wrong, remember};
use crate::parts::{CollectAny, DateField, Frame, TextField, live};
use crate::record::Deed;
use crate::route::Route;
use crate::shell::clock;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::order;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Event, MovementChecked, State, date};
use stillwood_core::season::Stage;

/// What lies on one shelf in one stage.
#[derive(Clone, PartialEq)]
struct Lot {
    place: String,
    stage: Stage,
    /// Ids with their marks, in the order of the marks.
    pieces: Vec<(Id, String)>,
}

fn lots(state: &State) -> Vec<Lot> {
    let mut found: BTreeMap<(String, Stage), Vec<(Id, String)>> = BTreeMap::new();
    for piece in queries::stock(state).filter(|piece| piece.work.rest().is_some()) {
        let place = piece.work.place.as_ref().map(|place| place.payload.clone());
        let lot = (place.unwrap_or_default(), queries::stage_of(state, piece));
        let pieces = found.entry(lot).or_default();
        pieces.push((piece.id, piece.mark.clone()));
    }
    let lot = |((place, stage), mut pieces): (_, Vec<(Id, String)>)| {
        order::sort_by(&mut pieces, |a, b| a.1.cmp(&b.1));
        Lot {
            place,
            stage,
            pieces,
        }
    };
    found.into_iter().map(lot).collect()
}

/// What the rows share.
#[derive(Clone, Copy)]
struct Round {
    app: App,
    day: RwSignal<String>,
    who: RwSignal<String>,
    /// Day and name while they are typed.
    begun: Begun,
    open: RwSignal<Option<Id>>,
}

impl Round {
    /// Asks about the day, once for the whole round; true where nothing is left to be answered.
    fn sure(self, id: Id, event: &Event) -> bool {
        let day = self.day.get_untracked();
        let Some(on) = date(&day) else {
            self.begun.say(Wrong::at("Day", "Which day was it?"));
            return false;
        };
        self.begun.sure_of(id, event, on, |_| "Day")
    }
}

/// The screen.
#[component]
pub(crate) fn Check() -> impl IntoView {
    let app = expect_context::<App>();
    let day = RwSignal::new(clock::now().day);
    let who = RwSignal::new(String::new());
    let parts = vec![Part::text("Day", day), Part::text("Who looked", who)];
    let round = Round {
        app,
        day,
        who,
        begun: Begun::open(app, "check".to_owned(), String::new(), parts),
        open: RwSignal::new(None),
    };
    let lots = Memo::new(move |_| app.state(lots));
    let chosen = RwSignal::new(None::<(String, Stage)>);
    remember(app, "check", vec![Part::of("shelf", chosen)]);
    open_half_typed(round, lots, chosen);
    // With one shelf there is nothing to choose.
    let lot = Memo::new(move |_| {
        lots.with(|lots| match (lots.as_slice(), chosen.get()) {
            ([only], _) => Some(only.clone()),
            (lots, Some((place, stage))) => {
                let mut lots = lots.iter();
                lots.find(|lot| lot.place == place && lot.stage == stage)
                    .cloned()
            }
            _ => None,
        })
    });
    let chip = move |of: Lot| {
        let key = (of.place.clone(), of.stage);
        let pressed = move || {
            let same = |lot: &Option<Lot>| {
                let lot = lot.as_ref();
                lot.is_some_and(|lot| lot.place == key.0 && lot.stage == key.1)
            };
            lot.with(same).to_string()
        };
        let words = format!(
            "{} · {} ({})",
            shelf_name(&of.place),
            of.stage.name(),
            of.pieces.len()
        );
        let choose = move |_| {
            round.open.set(None);
            chosen.set(Some((of.place.clone(), of.stage)));
        };
        view! {
            <button type="button" class="chip" aria-pressed=pressed on:click=choose>
                {words}
            </button>
        }
    };
    let chips = move || {
        let lots = lots.get();
        if lots.is_empty() {
            return view! { <p>"Nothing rests yet. Set a piece to rest first."</p> }.into_any();
        }
        lots.into_iter().map(chip).collect_any()
    };
    let count = move || {
        let lot = lot.get()?;
        let seen = app.state(|state| {
            let day = round.day.get();
            let of = lot.pieces.iter();
            of.filter(|(id, _)| seen_on(state, *id, &day).is_some())
                .count()
        });
        Some(format!("{seen} of {} checked.", lot.pieces.len()))
    };
    let rows = move || {
        let lot = lot.get()?;
        let rows = lot.pieces.into_iter();
        Some(rows.map(|(id, mark)| row(round, id, mark)).collect_any())
    };
    view! {
        <Frame title="Check a shelf" back=Route::Workshop class="wide">
            {round.begun.note()}
            <p class="error-line" role="alert" id="round-fault">{live(move || round.begun.line())}</p>
            <div class="pair">
                <DateField name="Day" value=round.day form=round.begun />
                <TextField name="Who looked" value=round.who />
            </div>
            <div class="field" role="group" aria-label="Shelf">
                <div class="chips" id="lots">{live(chips)}</div>
            </div>
            <p role="status" id="check-count">{live(count)}</p>
            <ul class="plain" id="to-check">{live(rows)}</ul>
        </Frame>
    }
}

/// Where a piece's sizes were half typed, its shelf and its fields stand open again.
fn open_half_typed(round: Round, lots: Memo<Vec<Lot>>, chosen: RwSignal<Option<(String, Stage)>>) {
    let half_typed = |(id, _): &&(Id, String)| {
        let key = key_of(*id);
        round
            .app
            .forms
            .with_untracked(|forms| forms.contains_key(&key))
    };
    let found = lots.with_untracked(|lots| {
        lots.iter().find_map(|lot| {
            let (id, _) = lot.pieces.iter().find(half_typed)?;
            Some((*id, (lot.place.clone(), lot.stage)))
        })
    });
    if let Some((id, lot)) = found {
        chosen.set(Some(lot));
        round.open.set(Some(id));
    }
}

/// How a piece stood at a check of that day; `None` where there was none.
fn seen_on(state: &State, id: Id, day: &str) -> Option<&'static str> {
    let piece = state.piece(id)?;
    let checks = queries::moved(state, piece, feeler());
    let last = checks
        .iter()
        .rev()
        .find(|check| check.on.to_string() == day)?;
    Some(last.movement.in_words())
}

fn row(round: Round, id: Id, mark: String) -> AnyView {
    let app = round.app;
    let seen = Memo::new(move |_| app.state(|state| seen_on(state, id, &round.day.get())));
    let is_open = Memo::new(move |_| round.open.get() == Some(id));
    let still = move |_| {
        let check = MovementChecked {
            nothing_moved: true,
            who: round.who.get_untracked().trim().to_owned(),
            ..MovementChecked::default()
        };
        let event = Event::MovementChecked(Arc::new(check));
        if round.sure(id, &event) {
            let mark = app.book_now(|state| state.piece(id).map(|piece| piece.mark.clone()));
            let words = event.workshop_words().unwrap_or_default();
            let said = format!("{}: {words}.", mark.unwrap_or_default());
            let deed = Deed::new(id, event).on(round.day.get_untracked());
            let deed = deed.really(round.begun.really("Day"));
            app.write_and_say(vec![deed], said, None);
        }
    };
    let open = move |_| {
        let open = !is_open.get_untracked();
        round.open.set(open.then_some(id));
        if open {
            request_animation_frame(focus_first);
        }
    };
    let word = move || {
        seen.get()
            .map(|word| view! { <small class="seen">"✓ "{word}</small> })
    };
    let untouched = move || {
        seen.get().is_none().then(|| {
            view! { <button type="button" class="still" on:click=still>"Nothing moved"</button> }
        })
    };
    let key = key_of(id);
    let half = Memo::new(move |_| app.has_begun(&key));
    let again = move || match (half.get(), seen.get()) {
        (true, _) => "Half typed…",
        (false, Some(_)) => "Again…",
        (false, None) => "Moved…",
    };
    let named = mark.clone();
    let fields = move || is_open.get().then(|| moved(round, id, named.clone()));
    view! {
        <li class="card" data-mark=mark.clone()>
            <div class="row">
                <a class="mark-small" href=Route::Wood(id).href()>{mark.clone()}</a>
                {live(word)}
                {live(untouched)}
                <button
                    type="button" class="moved" aria-expanded=move || is_open.get().to_string()
                    on:click=open
                >
                    {live(again)}
                </button>
            </div>
            {live(fields)}
        </li>
    }
    .into_any()
}

/// The fields for a piece that moved.
fn moved(round: Round, id: Id, mark: String) -> AnyView {
    let sheet = Sheet {
        key: key_of(id),
        words: format!("{mark}: check of a shelf"),
        asks: &MOVED,
        day: Some((round.day, round.begun)),
        ..Sheet::default()
    };
    let save = move |filled: Filled| {
        let mut event = checked(filled)?;
        if let Event::MovementChecked(check) = &mut event {
            Arc::make_mut(check).who = round.who.get_untracked().trim().to_owned();
        }
        Ok((id, event))
    };
    let close = Callback::new(move |()| round.open.set(None));
    form(
        Filled::open(round.app, sheet),
        "What moved",
        mark,
        Arc::new(save),
        close,
    )
}

/// Under which the check of a piece is kept while it is half typed.
fn key_of(id: Id) -> String {
    format!("{id}/check")
}

/// Puts the cursor into the first field.
fn focus_first() {
    let found = document().query_selector("#deed input").ok().flatten();
    let input = found.and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok());
    if let Some(input) = input
        && input.focus().is_err()
    {
        leptos::logging::warn!("the first field takes no focus");
    }
}
