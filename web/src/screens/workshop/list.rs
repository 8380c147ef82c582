//! What is due, by day across all shelves or shelf by shelf; then what waits to be set to rest.

use super::due::Drawn;
use super::{due, shelf_name, today};
use crate::app::{App, CalendarTold};
use crate::held::{Part, remember};
use crate::parts::{Choice, CollectAny, Frame, GoTo, TextField, live};
use crate::route::Route;
use crate::screens::figures::counted;
use crate::screens::home::HalfTypedForms;
use crate::shell::clock;
use crate::shell::files_out::download;
use chrono::NaiveDate;
use leptos::prelude::*;
use stillwood_core::notebook::{
    Book, Due, DueRow, Kind, Piece, Waits, date, due_by_day, due_by_shelf,
};
use stillwood_core::order;
use stillwood_core::season::{DateKey, calendar};
use uuid::Uuid;

/// The orders of the list.
const ORDERS: [&str; 2] = ["By day", "By shelf"];

/// What is listed, in the order of the chips.
const WANTED: [&str; 6] = [
    "All",
    "Ripe",
    "Due this week",
    "Resting",
    "Still drying",
    "Steady, not yet ripe",
];

/// Rows shown at once, and added by "show more".
const PAGE: usize = 100;

/// Whether a line is among what is wanted.
fn fits(line: &Due, wanted: usize) -> bool {
    let key = line.date_key();
    match wanted {
        1 => key == Some(DateKey::Ripe),
        2 => key == Some(DateKey::DueSoon),
        3 => key == Some(DateKey::Resting),
        4 => line.is_drying(),
        5 => line.is_early(),
        _ => true,
    }
}

/// Wood that does not rest, as the list shows it.
struct Waiting {
    id: Uuid,
    mark: String,
    words: String,
}

/// What waits for no day; of it, what has all words that were typed.
fn waiting(book: &Book, today: NaiveDate, typed: &str) -> Vec<Waiting> {
    let one = |piece: &Piece, words: String| Waiting {
        id: piece.id,
        mark: piece.mark.clone(),
        words,
    };
    let idle = book.stock().filter(|piece| {
        let waits = piece.work.rest().is_some() || book.in_room(piece, today, None).is_some();
        !waits && piece.is_bought()
    });
    let mut all: Vec<Waiting> = idle
        .map(|piece| {
            let (life, since) = piece.life();
            let kind = piece.work.kind;
            let mut words = format!("{}, {} since {since}", kind.name(), life.in_words());
            let woods = book.woods_named(piece.id);
            if !woods.is_empty() {
                words.push_str(&format!(" · {woods}"));
            }
            if kind == Kind::Plank && piece.work.came.is_none() {
                words.push_str(&format!(" · {}", cut_weeks_after(book.weeks_before_cut())));
            }
            one(piece, words)
        })
        .collect();
    let lost = book.missing_wood();
    all.extend(lost.map(|piece| one(piece, format!("not found since {}", piece.life().1))));
    let typed = typed.to_lowercase();
    all.retain(|one| {
        let text = format!("{} {}", one.mark, one.words).to_lowercase();
        typed.split_whitespace().all(|word| text.contains(word))
    });
    order::sort_by(&mut all, |a, b| a.mark.cmp(&b.mark));
    all
}

/// Of a plank that was never put on a shelf.
pub(super) fn cut_weeks_after(weeks: u32) -> String {
    format!(
        "may be cut {} after it is put on a shelf",
        counted(weeks as usize, "week", "weeks")
    )
}

/// The list as it is to be drawn, stretch by stretch.
fn stretches(lines: Vec<Due>, order: usize, today: NaiveDate) -> Vec<(String, Vec<Due>)> {
    match order {
        0 => due_by_day(lines, today)
            .into_iter()
            .map(|(when, lines)| (when.in_words(), lines))
            .collect(),
        _ => due_by_shelf(lines)
            .into_iter()
            .map(|(place, lines)| (shelf_name(&place), lines))
            .collect(),
    }
}

/// The screen.
#[component]
pub(crate) fn Workshop() -> impl IntoView {
    let app = expect_context::<App>();
    let lines = Memo::new(move |_| due(app));
    let wanted = RwSignal::new(0_usize);
    let order = RwSignal::new(0_usize);
    let typed = RwSignal::new(String::new());
    let open = RwSignal::new(Vec::<String>::new());
    let parts = vec![
        Part::of("shown", wanted),
        Part::of("order", order),
        Part::text("words", typed),
        Part::of("open", open),
    ];
    remember(app, "workshop", parts);
    let most = RwSignal::new(PAGE);
    let counts = move || {
        lines.with(|lines| {
            let rests = |line: &&Due| matches!(line.waits, Waits::Rest(..));
            let of = |wanted| {
                let lines = lines.iter().filter(rests);
                lines.filter(|line| fits(line, wanted)).count()
            };
            format!(
                "{} at rest: {} ripe, {} due this week, {} still drying.",
                counted(of(0), "piece", "pieces"),
                of(1),
                of(2),
                of(4)
            )
        })
    };
    let picked = Memo::new(move |_| {
        let (wanted, typed) = (wanted.get(), typed.get());
        let mut picked = lines.get();
        picked.retain(|line| fits(line, wanted));
        if !typed.trim().is_empty() {
            app.book(|book| {
                picked.retain(|line| line.has(&typed, &book.woods_named(line.piece)));
            });
        }
        picked
    });
    let shelves = move || {
        let picked = picked.get();
        if picked.is_empty() {
            let words = if lines.with(Vec::is_empty) {
                "Nothing rests yet. Open a piece below and set it to rest."
            } else {
                "None."
            };
            return view! { <p>{words}</p> }.into_any();
        }
        let (order, mut left) = (order.get(), most.get());
        let drawn = Drawn {
            app,
            with_shelf: order == 0,
            open,
        };
        let mut shown = Vec::new();
        let mut more = 0;
        for (name, lines) in stretches(picked, order, today()) {
            let count = lines.len();
            let mut rows = DueRow::folded(lines);
            let beyond = rows.split_off(left.min(rows.len()));
            left -= rows.len();
            more += beyond.iter().map(|row| row.lines().len()).sum::<usize>();
            if !rows.is_empty() {
                shown.push(drawn.stretch(format!("{name} ({count})"), rows));
            }
        }
        let more = (more > 0).then(|| {
            view! {
                <button
                    id="more-due" class="wide-button no-print"
                    on:click=move |_| most.update(|most| *most += PAGE)
                >
                    {format!("Show more ({more} not shown)")}
                </button>
            }
        });
        view! {
            {shown.collect_any()}
            {more}
        }
        .into_any()
    };
    let idle = move || {
        let waiting = app.book(|book| waiting(book, today(), &typed.get()));
        let (count, most) = (waiting.len(), most.get());
        (!waiting.is_empty()).then(|| {
            let cards = waiting.into_iter().take(most).map(card_of_waiting);
            let beyond = count.saturating_sub(most);
            view! {
                <h2>{format!("Not at rest ({count})")}</h2>
                <ul class="plain" id="waiting">{cards.collect_any()}</ul>
                {(beyond > 0).then(|| view! { <p>{format!("… and {beyond} more.")}</p> })}
            }
        })
    };
    let narrowed = move || match (wanted.get(), typed.get().trim()) {
        (0, "") => "Search and choose".to_owned(),
        (0, words) => format!("Shown: “{words}”"),
        (wanted, "") => format!("Shown: {}", WANTED[wanted.min(5)]),
        (wanted, words) => format!("Shown: {}, “{words}”", WANTED[wanted.min(5)]),
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
    let orders = ORDERS.into_iter().enumerate().collect();
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
            <div id="order">
                <Choice name="What is due" value=order of=orders />
            </div>
            <details id="narrow" class="no-print">
                <summary>{live(narrowed)}</summary>
                <TextField name="Search: mark, shelf, wood" value=typed />
                <Choice name="Shown" value=wanted of=of />
            </details>
            <div id="shelves">{live(shelves)}</div>
            {live(idle)}
            <button id="calendar" class="wide-button no-print" on:click=move |_| save_calendar(app)>
                "Calendar file"
            </button>
        </Frame>
    }
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
