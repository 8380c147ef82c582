//! All planks of the record as a table: sorted, filtered, counted, and a plank's sheet beside it where
//! there is room. The rows are worked out once for a state of the record, not at each keystroke.

mod filters;
mod table;

use crate::app::App;
use crate::held::{Part, remember};
use crate::parts::{Frame, live};
use crate::route::{Route, go};
use crate::screens::Under;
use crate::screens::figures::counted;
use crate::screens::sheet::PlankSheet;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::{Column, Filter, PlankRow, Table, sort_rows, table_rows};
use stillwood_core::verdict::Spec;

/// Rows shown at once, and added by "show more".
const PAGE: usize = 200;
/// Where a sheet has room beside the table.
const WIDE: &str = "(min-width: 900px)";

/// What the parts of this screen share.
#[derive(Clone, Copy)]
struct Shared {
    /// The rows, kept ready for another spec.
    table: StoredValue<Table>,
    /// Changes whenever the rows do.
    judged: Memo<u32>,
    /// The spec that all planks are judged under; none is that of each plank's visit.
    under: Under,
    filter: RwSignal<Filter>,
    sort: RwSignal<(Column, bool)>,
    open: RwSignal<Option<Id>>,
    shown: RwSignal<usize>,
}

impl Shared {
    fn new(app: App) -> Self {
        let table = StoredValue::new(Table::default());
        let under = RwSignal::new(None);
        // The rows are made anew when the record changes; another spec is laid on those that are there.
        let made = Memo::new(move |times: Option<&u32>| {
            let instruments = app.settings.with(|settings| settings.instruments);
            table.set_value(app.state(|state| Table::of(state, &instruments)));
            times.map_or(0, |times| times.wrapping_add(1))
        });
        let judged = Memo::new(move |last: Option<&(u32, u32)>| {
            let made = made.get();
            let (made_before, times) = last.copied().unwrap_or((made, 0));
            under.with(|under: &Option<(String, Spec)>| {
                let spec = under.as_ref().map(|(_, spec)| spec);
                // As it is made, each plank is judged under the spec of its visit.
                if spec.is_some() || (last.is_some() && made == made_before) {
                    table.update_value(|table| app.book_now(|state| table.judge(state, spec)));
                }
            });
            (made, times.wrapping_add(1))
        });
        Self {
            table,
            judged: Memo::new(move |_| judged.get().1),
            under,
            filter: RwSignal::new(Filter::default()),
            sort: RwSignal::new((Column::Score, true)),
            open: RwSignal::new(None),
            shown: RwSignal::new(PAGE),
        }
    }

    /// Reads the rows; whoever reads is told when they change.
    fn rows<T>(self, read: impl FnOnce(&[PlankRow]) -> T) -> T {
        self.judged.track();
        self.table.with_value(|table| read(table.rows()))
    }

    /// Judges all planks under a spec, or each under that of its visit.
    fn judge_under(self, spec: Option<(String, Spec)>) {
        self.shown.set(PAGE);
        self.under.set(spec);
        // Here and now: what is drawn after only reads.
        self.judged.get_untracked();
    }

    /// The rows that are wanted, in order.
    fn picked<T>(self, read: impl FnOnce(&[&PlankRow]) -> T) -> T {
        self.rows(|rows| {
            let (column, falls) = self.sort.get();
            let mut picked = self.filter.with(|filter| filter.of(rows));
            sort_rows(&mut picked, column, falls);
            read(&picked)
        })
    }
}

/// The screen.
#[component]
pub(crate) fn Planks() -> impl IntoView {
    let app = expect_context::<App>();
    let shared = Shared::new(app);
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
                    <PlankSheet id=id under=shared.under />
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
        let all = shared.rows(|rows| rows.len());
        (shared.picked(|picked| picked.len()), all)
    });
    let words = move || {
        let (picked, all) = how_many.get();
        let count = if picked == all {
            counted(all, "plank", "planks")
        } else {
            format!("{picked} of {all} planks")
        };
        shared.under.with(|under| match under {
            Some((name, _)) => format!("{count}, judged by {name}"),
            None => count,
        })
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
fn open_plank(open: RwSignal<Option<Id>>, id: Id) {
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
