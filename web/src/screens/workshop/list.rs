//! What is due, by day across all shelves or shelf by shelf; then what waits to be set to rest.

use super::due::Drawn;
use super::waiting::{not_at_rest, show_more};
use super::{due, shelf_name, today};
use crate::app::{App, CalendarTold};
use crate::held::{Part, remember};
use crate::parts::{Choice, CollectAny, Frame, GoTo, TextField, live};
use crate::route::Route;
use crate::screens::figures::counted;
use crate::screens::home::HalfTypedForms;
use crate::shell::clock;
use crate::shell::files_out::download;
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Due, DueRow, PieceConflict, Waits, date, due_by_day, due_by_shelf};
use stillwood_core::season::{DateKey, calendar};

/// The orders of the list.
const ORDERS: [&str; 2] = ["By day", "By shelf"];

/// What is listed, in the order of the chips.
const WANTED: [&str; 6] = [
    "All",
    "Ripe",
    "Due this week",
    "Resting",
    "Weight still changing",
    "Steady, not yet ripe",
];

/// Rows shown at once, and added by "show more".
pub(super) const PAGE: usize = 100;

/// Whether a line is among what is wanted.
fn fits(line: &Due, wanted: usize) -> bool {
    let key = line.date_key();
    match wanted {
        1 => key == Some(DateKey::Ripe),
        2 => key == Some(DateKey::DueSoon),
        3 => key == Some(DateKey::Resting),
        4 => line.weight_changes(),
        5 => line.is_early(),
        _ => true,
    }
}

/// What is chosen of the list.
#[derive(Clone, Copy)]
struct Chosen {
    app: App,
    /// All that waits for a day.
    lines: Memo<Vec<Due>>,
    /// The place in [`WANTED`].
    wanted: RwSignal<usize>,
    /// The place in [`ORDERS`].
    order: RwSignal<usize>,
    typed: RwSignal<String>,
    /// The lots that are open.
    open: RwSignal<Vec<String>>,
    /// So many rows are shown.
    most: RwSignal<usize>,
}

impl Chosen {
    fn remembered(app: App) -> Self {
        let chosen = Self {
            app,
            lines: Memo::new(move |_| due(app)),
            wanted: RwSignal::new(0),
            order: RwSignal::new(0),
            typed: RwSignal::new(String::new()),
            open: RwSignal::new(Vec::new()),
            most: RwSignal::new(PAGE),
        };
        let parts = vec![
            Part::of("shown", chosen.wanted),
            Part::of("order", chosen.order),
            Part::text("words", chosen.typed),
            Part::of("open", chosen.open),
        ];
        remember(app, "workshop", parts);
        chosen
    }

    /// What rests, in numbers.
    fn counts(self) -> String {
        let rests = |line: &&Due| matches!(line.waits, Waits::Rest(..));
        self.lines.with(|lines| {
            let of = |wanted| {
                let lines = lines.iter().filter(rests);
                lines.filter(|line| fits(line, wanted)).count()
            };
            format!(
                "{} at rest: {} ripe, {} due this week, {} still changing in weight.",
                counted(of(0), "piece", "pieces"),
                of(1),
                of(2),
                of(4)
            )
        })
    }

    /// What of the list is chosen.
    fn picked(self) -> Vec<Due> {
        let (wanted, typed) = (self.wanted.get(), self.typed.get());
        let mut picked = self.lines.get();
        picked.retain(|line| fits(line, wanted));
        if !typed.trim().is_empty() {
            self.app.state(|state| {
                picked.retain(|line| line.has(&typed, &queries::woods_named(state, line.piece)));
            });
        }
        picked
    }

    /// The same, stretch by stretch, each under its heading.
    fn stretches(self) -> Vec<(String, Vec<Due>)> {
        let picked = self.picked();
        match self.order.get() {
            0 => due_by_day(picked, today())
                .into_iter()
                .map(|(when, lines)| (when.in_words(), lines))
                .collect(),
            _ => due_by_shelf(picked)
                .into_iter()
                .map(|(place, lines)| (shelf_name(&place), lines))
                .collect(),
        }
    }

    /// The rows that are shown, and what shows more of them.
    fn rows(self) -> AnyView {
        let stretches = self.stretches();
        if stretches.is_empty() {
            let words = if self.lines.with(Vec::is_empty) {
                "Nothing waits for a day yet. Put a plank on a shelf, or set a piece to rest."
            } else {
                "None."
            };
            return view! { <p>{words}</p> }.into_any();
        }
        let drawn = Drawn {
            app: self.app,
            with_shelf: self.order.get() == 0,
            open: self.open,
        };
        let (mut left, mut beyond) = (self.most.get(), 0);
        let mut shown = Vec::new();
        for (name, lines) in stretches {
            let count = lines.len();
            let mut rows = DueRow::folded(lines);
            let later = rows.split_off(left.min(rows.len()));
            left -= rows.len();
            beyond += later.iter().map(|row| row.lines().len()).sum::<usize>();
            if !rows.is_empty() {
                shown.push(drawn.stretch(format!("{name} ({count})"), rows));
            }
        }
        view! {
            {shown.collect_any()}
            {show_more(beyond, self.most)}
        }
        .into_any()
    }

    /// What is chosen, in words.
    fn in_words(self) -> String {
        let wanted = self.wanted.get();
        let chosen = WANTED.get(wanted).copied().unwrap_or_default();
        match (wanted, self.typed.get().trim()) {
            (0, "") => "Search and choose".to_owned(),
            (0, words) => format!("Shown: “{words}”"),
            (_, "") => format!("Shown: {chosen}"),
            (_, words) => format!("Shown: {chosen}, “{words}”"),
        }
    }
}

/// The screen.
#[component]
pub(crate) fn Workshop() -> impl IntoView {
    let app = expect_context::<App>();
    let chosen = Chosen::remembered(app);
    let of = WANTED.into_iter().enumerate().collect();
    let orders = ORDERS.into_iter().enumerate().collect();
    // What leaves something out is in view.
    let narrowed = chosen.wanted.get_untracked() != 0 || !chosen.typed.get_untracked().is_empty();
    view! {
        <Frame title="Workshop" back=Route::Home class="wide">
            {live(move || piece_conflicts(app))}
            <HalfTypedForms />
            <p role="status" id="rest-counts">{live(move || chosen.counts())}</p>
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
            <div id="order" class="no-print">
                <Choice name="What is due" value=chosen.order of=orders />
            </div>
            <details id="narrow" class="no-print" open=narrowed>
                <summary>{live(move || chosen.in_words())}</summary>
                <TextField name="Search: mark, shelf, wood" value=chosen.typed />
                <Choice name="Shown" value=chosen.wanted of=of />
            </details>
            <div id="shelves">{live(move || chosen.rows())}</div>
            {not_at_rest(app, chosen.typed)}
            <button id="calendar" class="wide-button no-print" on:click=move |_| save_calendar(app)>
                "Calendar file"
            </button>
        </Frame>
    }
}

/// Entries that can't both be true.
fn piece_conflicts(app: App) -> Option<AnyView> {
    let words = app.state(|state| {
        let one = |piece_conflict: &PieceConflict| {
            let mark = state
                .piece(piece_conflict.about)
                .map(|piece| piece.mark.clone());
            (
                piece_conflict.about,
                mark.unwrap_or_default(),
                piece_conflict.why.in_words(),
            )
        };
        queries::piece_conflicts(state)
            .iter()
            .map(one)
            .collect::<Vec<_>>()
    });
    let one = |(id, mark, why): (Id, String, &'static str)| {
        view! { <p>"Two stories of "<a href=Route::Wood(id).href()>{mark}</a>": "{why}"."</p> }
    };
    (!words.is_empty()).then(|| {
        view! {
            <div class="note doubt" id="clashes">
                {words.into_iter().map(one).collect_any()}
                <p class="small">"The first is in force. Take one of the two back in its history."</p>
            </div>
        }
        .into_any()
    })
}

/// The days on which rests are over, for any calendar program; those that an earlier file told of and
/// that will not come are taken back.
fn save_calendar(app: App) {
    let entries = app.record.with_value(|record| record.log().len());
    let sequence = u32::try_from(entries).unwrap_or(u32::MAX);
    let before = app
        .settings
        .with_untracked(|settings| settings.calendar.published());
    let days = app.book_now(|state| queries::calendar_days(state, sequence, &before));
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
