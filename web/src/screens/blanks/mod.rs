//! The blanks: found by wood, size and weight, kept for somebody until a day, let go, used; and each
//! one's papers.

mod cost;
mod deeds;
mod papers;

pub(crate) use cost::cost_of_blank;

use crate::app::App;
use crate::held::{Part, remember};
use crate::parts::{
    CollectAny, Frame, GoTo, NumberField, TextField, Tick, bring_into_view, live, told_figure,
};
use crate::route::Route;
use crate::screens::figures::counted;
use crate::screens::piece_told;
use crate::screens::workshop::{class_of, rest_line};
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::notebook::{Book, Kind, Life, Piece, PieceFigure, date};
use stillwood_core::order;
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::{in_kg, show};
use stillwood_core::season::{DateKey, Readiness};
use uuid::Uuid;

/// Which paper of a blank is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Paper {
    /// Its whole history.
    History,
    /// A card for the shelf.
    Card,
}

/// A blank in the list.
#[derive(Debug, Clone, PartialEq)]
struct Row {
    id: Uuid,
    mark: String,
    woods: String,
    sizes: [Option<f64>; 3],
    kilograms: Option<f64>,
    /// The weight was read on the blank itself.
    weighed: bool,
    life: Life,
    since: String,
    /// Where it is in its life, or how its rest stands, and the class of that word.
    word: (&'static str, &'static str),
    /// How its rest stands by both keys, and when it was looked at last.
    rest: String,
    /// For whom it is kept today, and until when.
    kept: Option<String>,
}

/// What is looked for.
#[derive(Clone, Copy)]
struct Filter {
    wood: RwSignal<String>,
    length: RwSignal<String>,
    width: RwSignal<String>,
    weight: RwSignal<String>,
    used: RwSignal<bool>,
}

impl Filter {
    /// Whether a row fits; what is not understood asks for nothing, what is not known does not fit.
    fn fits(self, row: &Row, units: Units) -> bool {
        let wood = self.wood.get().trim().to_lowercase();
        let length = |text: RwSignal<String>| read::length(&text.get(), units).ok();
        let at_least = |text, size: Option<f64>| {
            length(text).is_none_or(|least| size.is_some_and(|size| size >= least.value))
        };
        let most = read::mass(&self.weight.get(), units).ok();
        let light = most.is_none_or(|most| row.kilograms.is_some_and(|kg| kg <= most.value));
        let there = !matches!(row.life, Life::Used | Life::Discarded);
        (there || self.used.get())
            && row.woods.to_lowercase().contains(&wood)
            && at_least(self.length, row.sizes[0])
            && at_least(self.width, row.sizes[1])
            && light
    }
}

/// By both keys, and when it was looked at last.
fn rest_words(piece: &Piece, ready: &Readiness) -> String {
    let date = match ready.date {
        DateKey::Ripe => format!("ripe since {}", ready.due),
        _ => format!("ripe on {}", ready.due),
    };
    let checked = piece.work.checks.last();
    let checked = checked.map(|check| format!(" · last checked {}", check.on));
    let checked = checked.unwrap_or_default();
    format!("{date} · {}{checked}", ready.measure.in_words())
}

/// What is in the list, of a blank.
fn row(app: App, book: &Book, piece: &Piece, today: &str) -> Row {
    let (life, since) = piece.life();
    let there = !matches!(life, Life::Used | Life::Discarded | Life::Cut);
    let line = rest_line(app, book, piece).filter(|_| there);
    let ready = line.and_then(|line| line.ready.ok());
    let word = match (&ready, life) {
        (Some(ready), Life::Resting(_)) => (ready.in_words(), class_of(ready)),
        _ => (life.in_words(), "word"),
    };
    let weight = book.blank_weight(piece);
    let reserved = piece.work.reserved.as_ref().map(|kept| &kept.said);
    let holds = |until| date(today).is_none_or(|today| today <= until);
    let kept = reserved.map(|kept| match kept.until {
        Some(until) if holds(until) => format!("kept for {} until {until}", kept.name),
        Some(until) => format!("was kept for {} until {until}", kept.name),
        None => format!("kept for {}", kept.name),
    });
    Row {
        id: piece.id,
        mark: piece.mark.clone(),
        woods: book.woods_named(piece.id),
        sizes: book.blank_size(piece),
        kilograms: weight.map(|(mass, _)| in_kg(mass)),
        weighed: weight.is_some_and(|(_, weighed)| weighed),
        life,
        since: since.to_string(),
        word,
        rest: ready.map_or_else(String::new, |ready| rest_words(piece, &ready)),
        kept,
    }
}

impl Row {
    fn size(&self, app: App, units: Units) -> AnyView {
        let size = show::sizes(self.sizes, units);
        told_figure(
            "Size".to_owned(),
            size,
            piece_told(app, self.id, PieceFigure::Size),
        )
    }

    fn weight(&self, app: App, units: Units) -> AnyView {
        let Some(kg) = self.kilograms else {
            return "not weighed".into_any();
        };
        let about = if self.weighed { "" } else { "about " };
        let weight = format!("{about}{}", show::mass(kg, units));
        told_figure(
            "Weight".to_owned(),
            weight,
            piece_told(app, self.id, PieceFigure::Weight),
        )
    }
}

fn rows(app: App) -> Vec<Row> {
    let today = clock::now().day;
    let mut rows: Vec<Row> = app.book(|book| {
        let blanks = book.pieces().filter(|piece| {
            piece.work.kind == Kind::Blank && !piece.withdrawn && piece.work.in_doubt.is_none()
        });
        blanks.map(|piece| row(app, book, piece, &today)).collect()
    });
    order::sort_by_key(&mut rows, |row| row.mark.clone());
    rows
}

/// The screen.
pub(crate) fn blanks_screen() -> AnyView {
    let app = expect_context::<App>();
    let text = || RwSignal::new(String::new());
    let filter = Filter {
        wood: text(),
        length: text(),
        width: text(),
        weight: text(),
        used: RwSignal::new(false),
    };
    let parts = vec![
        Part::text("Wood", filter.wood),
        Part::text("Length at least", filter.length),
        Part::text("Width at least", filter.width),
        Part::text("Weight at most", filter.weight),
        Part::of("used", filter.used),
    ];
    remember(app, "blanks", parts);
    let open = RwSignal::new(None::<(Uuid, Paper)>);
    let all = Memo::new(move |_| rows(app));
    let ids: Vec<Uuid> = all.with_untracked(|all| all.iter().map(|row| row.id).collect());
    let form: deeds::Open = RwSignal::new(deeds::half_typed(app, &ids));
    let fitting = Memo::new(move |_| {
        let units = app.units.get();
        let mut rows = all.get();
        rows.retain(|row| filter.fits(row, units));
        rows
    });
    let count = move || {
        let (some, of) = (fitting.with(Vec::len), all.with(Vec::len));
        match of {
            0 => "No blank is glued yet.".to_owned(),
            _ if some == of => counted(of, "blank", "blanks"),
            _ => format!("{some} of {of} blanks"),
        }
    };
    let card = move |row: Row| {
        let units = app.units.get();
        let (id, kept) = (row.id, row.kept.clone());
        let free = matches!(row.life, Life::InShop | Life::Resting(_) | Life::Reserved);
        let opened = move |paper| open.get() == Some((id, paper));
        let paper = move |name: &'static str, paper| {
            view! {
                <button
                    type="button" aria-expanded=move || opened(paper).to_string()
                    on:click=move |_| {
                        let this = Some((id, paper));
                        if open.get_untracked() == this {
                            open.set(None);
                        } else {
                            open.set(this);
                            bring_into_view("paper");
                        }
                    }
                >
                    {name}
                </button>
            }
        };
        view! {
            <li class="card">
                <div class="row">
                    <span class="mark">{row.mark.clone()}</span>
                    <span class=row.word.1>{row.word.0}</span>
                </div>
                <div class="row">
                    <span>{row.woods.clone()}</span>
                    <span>{row.weight(app, units)}</span>
                </div>
                <p class="small">{row.size(app, units)}" · since "{row.since.clone()}</p>
                {(!row.rest.is_empty()).then(|| view! { <p class="small">{row.rest.clone()}</p> })}
                {kept.map(|kept| view! { <p><strong>{kept}</strong></p> })}
                <div class="row stretch">
                    {paper("Its history", Paper::History)}
                    {paper("Shelf card", Paper::Card)}
                </div>
                {free.then(|| deeds::deeds(app, id, row.mark.clone(), row.kept.is_some(), form))}
            </li>
        }
    };
    let shown = move || {
        let (id, paper) = open.get()?;
        let row = all.with(|all| all.iter().find(|row| row.id == id).cloned())?;
        Some(match paper {
            Paper::History => papers::history(app, &row),
            Paper::Card => papers::card(app, &row),
        })
    };
    view! {
        <Frame title="Blanks" back=Route::Workshop class="wide">
            <div class:two=move || open.with(Option::is_some)>
                <div class="no-print">
                    <div class="pair">
                        <TextField name="Wood" value=filter.wood />
                        <NumberField name="Weight at most" value=filter.weight />
                        <TextField name="Length at least" value=filter.length inputmode="decimal" />
                        <TextField name="Width at least" value=filter.width inputmode="decimal" />
                    </div>
                    <div class="row counts">
                        <p role="status" id="blank-count">{live(count)}</p>
                        <Tick name="used and thrown out too" value=filter.used />
                    </div>
                    <ul class="plain shelf" id="blanks">
                        {live(move || fitting.get().into_iter().map(card).collect_any())}
                    </ul>
                    <GoTo to=Route::Glue name="Glue up a blank" class="wide-button" />
                </div>
                <aside aria-label="Paper" id="paper">{live(shown)}</aside>
            </div>
        </Frame>
    }
    .into_any()
}
