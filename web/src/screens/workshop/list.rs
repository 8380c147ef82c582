//! What rests, shelf by shelf: what is ripe, due, still drying; then what waits to be set to rest.

use super::{resting, shelf_name};
use crate::app::{App, CalendarTold};
use crate::held::{Part, remember};
use crate::parts::{Choice, CollectAny, Frame, GoTo, live};
use crate::route::Route;
use crate::screens::figures::counted;
use crate::screens::home::HalfTypedForms;
use crate::shell::clock;
use crate::shell::files_out::download;
use leptos::prelude::*;
use stillwood_core::notebook::{Book, Piece, RestLine, Shelf, date};
use stillwood_core::order;
use stillwood_core::season::{DateKey, MeasureKey, Readiness, calendar};
use uuid::Uuid;

/// What is listed, in the order of the chips.
const WANTED: [&str; 5] = ["All", "Ripe", "Due this week", "Resting", "Still drying"];

/// Whether a line is among what is wanted.
fn fits(line: &RestLine, wanted: usize) -> bool {
    let Ok(ready) = &line.ready else {
        return wanted == 0;
    };
    match wanted {
        1 => ready.date == DateKey::Ripe,
        2 => ready.date == DateKey::DueSoon,
        3 => ready.date == DateKey::Resting,
        4 => ready.measure == MeasureKey::StillDrying,
        _ => true,
    }
}

/// Wood that does not rest, as the list shows it.
struct Waiting {
    id: Uuid,
    mark: String,
    words: String,
}

fn waiting(book: &Book) -> Vec<Waiting> {
    let one = |piece: &Piece, words: String| Waiting {
        id: piece.id,
        mark: piece.mark.clone(),
        words,
    };
    let idle = book
        .stock()
        .filter(|piece| piece.work.rest().is_none() && piece.is_bought());
    let mut all: Vec<Waiting> = idle
        .map(|piece| {
            let (life, since) = piece.life();
            let kind = piece.work.kind.name();
            let words = format!("{kind}, {} since {since}", life.in_words());
            let woods = book.woods_named(piece.id);
            match woods.is_empty() {
                true => one(piece, words),
                false => one(piece, format!("{words} · {woods}")),
            }
        })
        .collect();
    let lost = book.missing_wood();
    all.extend(lost.map(|piece| one(piece, format!("not found since {}", piece.life().1))));
    order::sort_by(&mut all, |a, b| a.mark.cmp(&b.mark));
    all
}

/// The screen.
#[component]
pub(crate) fn Workshop() -> impl IntoView {
    let app = expect_context::<App>();
    let lines = Memo::new(move |_| resting(app));
    let wanted = RwSignal::new(0_usize);
    remember(app, "workshop", vec![Part::of("shown", wanted)]);
    let counts = move || {
        lines.with(|lines| {
            let of = |wanted| lines.iter().filter(|line| fits(line, wanted)).count();
            format!(
                "{} at rest: {} ripe, {} due this week, {} still drying.",
                counted(of(0), "piece", "pieces"),
                of(1),
                of(2),
                of(4)
            )
        })
    };
    let shelves = move || {
        let wanted = wanted.get();
        let mut picked = lines.get();
        picked.retain(|line| fits(line, wanted));
        if picked.is_empty() {
            let words = if lines.with(Vec::is_empty) {
                "Nothing rests yet. Open a piece below and set it to rest."
            } else {
                "None."
            };
            return view! { <p>{words}</p> }.into_any();
        }
        let woods = |id: Uuid| app.book(|book| book.woods_named(id));
        let shelves = Shelf::all(picked).into_iter();
        shelves.map(|one| shelf(one, &woods)).collect_any()
    };
    let idle = move || {
        let waiting = app.book(waiting);
        (!waiting.is_empty()).then(|| {
            view! {
                <h2>"Not at rest"</h2>
                <ul class="plain" id="waiting">{waiting.into_iter().map(card_of_waiting).collect_any()}</ul>
            }
        })
    };
    let clashes = move || {
        let words = app.book(|book| {
            let one = |clash: &stillwood_core::notebook::Clash| {
                let mark = book.piece(clash.about).map(|piece| piece.mark.clone());
                (clash.about, mark.unwrap_or_default(), clash.why.in_words())
            };
            book.clashes().iter().map(one).collect::<Vec<_>>()
        });
        let one = |(id, mark, why): (Uuid, String, &'static str)| {
            view! { <p>"Two stories of "<a href=Route::Wood(id).href()>{mark}</a>": "{why}"."</p> }
        };
        (!words.is_empty()).then(|| {
            view! {
                <div class="note doubt" id="clashes">
                    {words.into_iter().map(one).collect_any()}
                    <p class="small">"The first is in force. Take one of the two back in its history."</p>
                </div>
            }
        })
    };
    let of = WANTED.into_iter().enumerate().collect();
    view! {
        <Frame title="Workshop" back=Route::Home class="wide">
            {live(clashes)}
            <HalfTypedForms />
            <p role="status" id="rest-counts">{live(counts)}</p>
            <div class="row stretch no-print">
                <GoTo to=Route::Check name="Check a shelf" class="primary" />
                <GoTo to=Route::Rests name="Rests and rooms" />
            </div>
            <nav class="row stretch more-deeds no-print" aria-label="In the workshop">
                <a class="button" href="#/glue">"Glue up"</a>
                <a class="button" href="#/blanks">"Blanks"</a>
                <a class="button" href="#/plan">"Plan"</a>
                <a class="button" href="#/learn">"What came of it"</a>
            </nav>
            <Choice name="Shown" value=wanted of=of />
            <div id="shelves">{live(shelves)}</div>
            {live(idle)}
            <button id="calendar" class="wide-button no-print" on:click=move |_| save_calendar(app)>
                "Calendar file"
            </button>
        </Frame>
    }
}

fn shelf(shelf: Shelf, woods: &dyn Fn(Uuid) -> String) -> AnyView {
    let card = |line: RestLine| {
        let woods = woods(line.piece);
        card(line, woods)
    };
    view! {
        <h2>{format!("{} ({})", shelf_name(&shelf.place), shelf.lines.len())}</h2>
        <ul class="plain shelf">{shelf.lines.into_iter().map(card).collect_any()}</ul>
    }
    .into_any()
}

/// The class of the word for how a rest stands.
pub(crate) fn class_of(ready: &Readiness) -> &'static str {
    if ready.is_ready() {
        "word good"
    } else if ready.measure == MeasureKey::Moved {
        "word bad"
    } else if ready.date == DateKey::Resting {
        "word"
    } else {
        "word doubt"
    }
}

fn card(line: RestLine, woods: String) -> AnyView {
    let (word, class, keys) = match &line.ready {
        Ok(ready) => {
            let class = class_of(ready);
            let date = match ready.date {
                DateKey::Ripe => format!("ripe since {}", ready.due),
                _ => format!("ripe on {}", ready.due),
            };
            let keys = vec![date, ready.measure.in_words().to_owned()];
            (ready.in_words().to_owned(), class, keys)
        }
        Err(why) => (why.to_string(), "word", Vec::new()),
    };
    let of = match woods.is_empty() {
        true => woods,
        false => format!(" · {woods}"),
    };
    let kept = line.reserved.then_some(" · reserved");
    let key = |text: String| view! { <small>{text}</small> };
    view! {
        <li>
            <a class="card" href=Route::Wood(line.piece).href()>
                <span class="row">
                    <span class="mark-small">{line.mark}</span>
                    <span class=class>{word}</span>
                </span>
                <span class="row">
                    <small>{line.stage.name()}" since "{line.since.to_string()}{of}{kept}</small>
                    {keys.into_iter().map(key).collect_any()}
                </span>
            </a>
        </li>
    }
    .into_any()
}

fn card_of_waiting(waiting: Waiting) -> AnyView {
    view! {
        <li>
            <a class="card" href=Route::Wood(waiting.id).href()>
                <span class="row">
                    <span class="mark-small">{waiting.mark}</span>
                    <small>{waiting.words}</small>
                </span>
            </a>
        </li>
    }
    .into_any()
}

/// The days on which rests are over, for any calendar program; those that an earlier file told of and
/// that will not come are taken back.
fn save_calendar(app: App) {
    let entries = app.record.with_value(|record| record.notebook().len());
    let sequence = u32::try_from(entries).unwrap_or(u32::MAX);
    let before = app
        .settings
        .with_untracked(|settings| settings.calendar.published());
    let days = app.book_now(|book| book.calendar_days(sequence, &before));
    if days.is_empty() {
        return app.say("Nothing rests yet, so there is no day for a calendar.");
    }
    let now = clock::now();
    let millis = i64::try_from(now.millis).unwrap_or_default();
    let written = chrono::DateTime::from_timestamp_millis(millis).unwrap_or_default();
    let file = calendar(&days, written.naive_utc());
    let name = format!("stillwood-workshop-{}.ics", now.day);
    if let Err(why) = download(&name, &file, "text/calendar;charset=utf-8") {
        return app.say(why.to_string());
    }
    if let Some(today) = date(&now.day) {
        let told = CalendarTold::of(&before.after(&days, today));
        app.settings.update(|settings| settings.calendar = told);
        app.keep_settings();
    }
    let saved = "The calendar is saved among this device's downloads.";
    match days.iter().filter(|day| day.cancelled).count() {
        0 => app.say(saved),
        gone => app.say(format!(
            "{saved} It takes back {}.",
            counted(gone, "day that will not come", "days that will not come")
        )),
    }
}
