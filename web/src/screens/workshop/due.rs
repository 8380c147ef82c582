//! Rows of the list of what is due: a piece with how its two keys stand, and a lot of one plank that opens
//! to its members. It draws what core says of them.

use crate::app::App;
use crate::parts::{CollectAny, live};
use crate::route::Route;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{Due, DueLot, DueRow, Waits};
use stillwood_core::season::{DateKey, InRoom, MeasureKey, Readiness};

/// So many lots are kept open.
const LOTS_OPEN: usize = 20;

/// The class of the word for how a rest stands.
pub(crate) fn class_of(ready: &Readiness) -> &'static str {
    if ready.is_ready() {
        "word good"
    } else if ready.measure == MeasureKey::Moved {
        "word bad"
    } else if ready.date == DateKey::Resting || ready.is_early() {
        "word"
    } else {
        "word doubt"
    }
}

fn class_in_room(room: &InRoom) -> &'static str {
    if room.may_be_cut() {
        "word good"
    } else if room.date == DateKey::Resting {
        "word"
    } else {
        "word doubt"
    }
}

/// The day of a rest, in words.
fn ripe(ready: &Readiness) -> String {
    match ready.date {
        DateKey::Ripe => format!("ripe since {}", ready.due),
        _ => format!("ripe on {}", ready.due),
    }
}

/// How a line stands: its word with the class, and its two keys.
fn told(line: &Due) -> (String, &'static str, Vec<String>) {
    match &line.waits {
        Waits::Rest(_, Ok(ready)) => {
            let (word, measure) = (ready.in_words(), ready.measure.in_words());
            let mut keys = vec![ripe(ready)];
            // It is not said twice.
            keys.extend((word != measure).then(|| measure.to_owned()));
            (word.to_owned(), class_of(ready), keys)
        }
        Waits::Room(Ok(room)) => {
            let date = match room.date {
                DateKey::Ripe => format!("may be cut since {}", room.from),
                _ => format!("may be cut from {}", room.from),
            };
            let keys = vec![date, room.weight_in_words().to_owned()];
            (room.in_words().to_owned(), class_in_room(room), keys)
        }
        Waits::Rest(_, Err(why)) | Waits::Room(Err(why)) => (why.to_string(), "word", Vec::new()),
    }
}

/// Since when it waits.
fn waits_since(line: &Due) -> String {
    match line.waits {
        Waits::Rest(..) => format!("since {}", line.since),
        Waits::Room(_) => format!("in the room since {}", line.since),
    }
}

/// What the rows share.
#[derive(Clone, Copy)]
pub(super) struct Drawn {
    /// The app.
    pub(super) app: App,
    /// Each says on which shelf it lies.
    pub(super) with_shelf: bool,
    /// The lots that are open.
    pub(super) open: RwSignal<Vec<String>>,
}

impl Drawn {
    /// A stretch of the list under its heading.
    pub(super) fn stretch(self, name: String, rows: Vec<DueRow>) -> AnyView {
        let row = |row: DueRow| match row {
            DueRow::One(line) => self.card(line),
            DueRow::Lot(lot) => self.lot(lot),
        };
        view! {
            <h2>{name}</h2>
            <ul class="plain shelf">{rows.into_iter().map(row).collect_any()}</ul>
        }
        .into_any()
    }

    fn shelf(self, place: &str) -> Option<AnyView> {
        let shown = self.with_shelf && !place.is_empty();
        shown.then(|| view! { <small>{place.to_owned()}</small> }.into_any())
    }

    /// Since when it waits, and of which wood it is.
    fn since(self, line: &Due) -> String {
        let woods = self
            .app
            .state(|state| queries::woods_named(state, line.piece));
        match woods.is_empty() {
            true => waits_since(line),
            false => format!("{} · {woods}", waits_since(line)),
        }
    }

    fn card(self, line: Due) -> AnyView {
        let (word, class, keys) = told(&line);
        let name = line.name();
        let kept = line.reserved.then_some(" · reserved");
        let since = self.since(&line);
        let shelf = self.shelf(&line.place);
        let key = |text: String| view! { <small>{text}</small> };
        view! {
            <li>
                <a class="card" href=Route::Wood(line.piece).href()>
                    <span class="row">
                        <span class="mark-small">{line.mark}</span>
                        <span class=class>{word}</span>
                    </span>
                    <span class="row">
                        <small>{name}" "{since}{kept}</small>
                        {keys.into_iter().map(key).collect_any()}
                        {shelf}
                    </span>
                </a>
            </li>
        }
        .into_any()
    }

    /// So many, and of what.
    fn name_of(self, lot: &DueLot) -> String {
        let count = lot.lines.len();
        self.app.state(|state| match lot.stage {
            Some(stage) => {
                let plank = state.piece(lot.of).map(|plank| plank.mark.as_str());
                format!(
                    "{count} {} of {}",
                    stage.name(),
                    plank.unwrap_or("one plank")
                )
            }
            None => {
                let woods = lot
                    .lines
                    .first()
                    .map(|line| queries::woods_named(state, line.piece));
                let woods = woods.filter(|woods| !woods.is_empty());
                format!(
                    "{count} planks of {}",
                    woods.as_deref().unwrap_or("one pile")
                )
            }
        })
    }

    fn lot(self, lot: DueLot) -> AnyView {
        let key = lot.key();
        let this = key.clone();
        let is_open = Memo::new(move |_| self.open.with(|open| open.contains(&this)));
        let toggle = move |_| {
            self.open.update(|open| {
                let all = open.len();
                open.retain(|one| *one != key);
                if open.len() == all {
                    open.push(key.clone());
                    // Those that were opened long ago are let go of.
                    let long_ago = open.len().saturating_sub(LOTS_OPEN);
                    open.drain(..long_ago);
                }
            });
        };
        let count = lot.lines.len();
        let name = self.name_of(&lot);
        let first = lot.lines.first();
        let day = first.and_then(|line| told(line).2.into_iter().next());
        // Planks are named by their wood.
        let since = first.map(|line| match lot.stage {
            Some(_) => self.since(line),
            None => waits_since(line),
        });
        let word = |(line, of): (&Due, usize)| {
            let (word, class, _) = told(line);
            let words = match of == count {
                true => word,
                false => format!("{of} {word}"),
            };
            view! { <span class=class>{words}</span> }
        };
        let words = lot.stands().into_iter().map(word).collect_any();
        let shelf = self.shelf(&lot.place);
        // Paper has no press that opens it: the names of all stand there.
        let marks: Vec<&str> = lot.lines.iter().map(|line| line.mark.as_str()).collect();
        let marks = marks.join(", ");
        let members = StoredValue::new(lot.lines);
        // The lot says where all of them lie.
        let inside = Drawn {
            with_shelf: false,
            ..self
        };
        let all = move || {
            is_open.get().then(|| {
                let cards = members.with_value(Clone::clone).into_iter();
                let cards = cards.map(|line| inside.card(line)).collect_any();
                view! { <ul class="plain shelf members">{cards}</ul> }
            })
        };
        view! {
            <li class="lot" class:open=move || is_open.get()>
                <button
                    type="button" class="card" aria-expanded=move || is_open.get().to_string()
                    on:click=toggle
                >
                    <span class="row">
                        <span class="mark-small">{name}</span>
                        {words}
                    </span>
                    <span class="row">
                        <small>{since}</small>
                        <small>{day}</small>
                        {shelf}
                    </span>
                </button>
                <p class="print-only">{marks}</p>
                {live(all)}
            </li>
        }
        .into_any()
    }
}
