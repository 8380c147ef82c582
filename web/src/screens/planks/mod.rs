//! All planks of the record as a table: sorted, filtered, counted, and a plank's sheet beside it where
//! there is room. The rows are worked out once for a state of the record, not at each keystroke.

mod filters;
mod table;

use crate::app::App;
use crate::held::{Part, remember};
use crate::parts::{Frame, live};
use crate::route::{Route, go};
use crate::screens::figures::counted;
use crate::screens::sheet::PlankSheet;
use crate::shell::clock;
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::notebook::{Column, Filter, PlankRow, sort_rows, table_rows};
use uuid::Uuid;

/// Rows shown at once, and added by "show more".
const PAGE: usize = 200;
/// Where a sheet has room beside the table.
const WIDE: &str = "(min-width: 900px)";

/// What the parts of this screen share.
#[derive(Clone, Copy)]
struct Shared {
    rows: Memo<Arc<Vec<PlankRow>>>,
    filter: RwSignal<Filter>,
    sort: RwSignal<(Column, bool)>,
    open: RwSignal<Option<Uuid>>,
    shown: RwSignal<usize>,
}

impl Shared {
    /// The rows that are wanted, in order.
    fn picked<T>(self, read: impl FnOnce(&[&PlankRow]) -> T) -> T {
        let rows = self.rows.get();
        let (column, falls) = self.sort.get();
        let mut picked = self.filter.with(|filter| filter.of(&rows));
        sort_rows(&mut picked, column, falls);
        read(&picked)
    }
}

/// The screen.
#[component]
pub(crate) fn Planks() -> impl IntoView {
    let app = expect_context::<App>();
    let rows = Memo::new(move |_| {
        let instruments = app.settings.with(|settings| settings.instruments);
        Arc::new(app.book(|book| book.rows(&instruments)))
    });
    let shared = Shared {
        rows,
        filter: RwSignal::new(Filter::default()),
        sort: RwSignal::new((Column::Score, true)),
        open: RwSignal::new(None),
        shown: RwSignal::new(PAGE),
    };
    let parts = vec![
        Part::of("filter", shared.filter),
        Part::of("order", shared.sort),
    ];
    remember(app, "planks", parts);
    let open = shared.open;
    let sheet = move || {
        open.get().map(|id| {
            view! {
                <aside aria-label="The plank's sheet" id="beside">
                    <div class="row">
                        <button class="no-print" id="close-sheet" on:click=move |_| open.set(None)>
                            "Close the sheet"
                        </button>
                        <a class="button no-print" href=Route::Sheet(id).href()>"Open it alone"</a>
                    </div>
                    <h2 class="visually-hidden">"Sheet"</h2>
                    <PlankSheet id=id />
                </aside>
            }
        })
    };
    view! {
        <Frame title="All planks" back=Route::Home class="wide whole-width">
            <div class:two=move || open.get().is_some()>
                <div>
                    <filters::Filters shared=shared />
                    <Counts shared=shared />
                    <table::Table shared=shared />
                </div>
                {live(sheet)}
            </div>
        </Frame>
    }
}

/// How many there are, and the way to a spreadsheet.
#[component]
fn Counts(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let how_many = Memo::new(move |_| {
        let all = shared.rows.with(|rows| rows.len());
        (shared.picked(|picked| picked.len()), all)
    });
    let words = move || {
        let (picked, all) = how_many.get();
        if picked == all {
            counted(all, "plank", "planks")
        } else {
            format!("{picked} of {all} planks")
        }
    };
    let save = move |_| {
        let rows = untrack(|| shared.picked(|picked| table_rows(picked.iter().copied())));
        let day = clock::now().day;
        app.save_csv(&format!("stillwood-planks-{day}.csv"), rows);
    };
    view! {
        <div class="row counts">
            <p role="status" id="plank-count">{live(words)}</p>
            <button id="export-csv" class="no-print" on:click=save>"Save these as CSV"</button>
        </div>
    }
}

/// Opens a plank: beside the table where there is room, else on its own screen.
fn open_plank(open: RwSignal<Option<Uuid>>, id: Uuid) {
    let wide = window()
        .match_media(WIDE)
        .ok()
        .flatten()
        .is_some_and(|query| query.matches());
    if wide {
        open.set(Some(id));
    } else {
        go(Route::Sheet(id));
    }
}
