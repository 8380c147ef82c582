//! Out: the whole record or one visit as a file, by download or by the share sheet, and the planks as
//! a table for a spreadsheet. A file that was handed over is not kept elsewhere before that is known.

use crate::app::App;
use crate::kept_elsewhere::this_device;
use crate::parts::{CollectAny, When, after_pause, live};
use crate::screens::figures::counted;
use crate::shell::clock;
use crate::shell::files_out::{Parcel, Pieces, ShareAs, ShareEnd, download};
use leptos::prelude::*;
use std::time::Duration;
use stillwood_core::order;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    HandedWay, HandingEnd, Limits, NumberRanges, ThisDevice, read, table_rows, to_csv,
};
use wasm_bindgen_futures::spawn_local;

/// A pause in what changes.
const PAUSE: Duration = Duration::from_millis(150);

/// The part of the screen.
#[component]
pub(super) fn Out() -> impl IntoView {
    let app = expect_context::<App>();
    let visits = move || {
        app.state(|state| {
            let mut visits: Vec<_> = state
                .visits()
                .map(|visit| (visit.recorded.on, visit.id, visit.opened.yard.clone()))
                .collect();
            order::sort(&mut visits);
            visits.reverse();
            visits
        })
    };
    let picked = RwSignal::new(None::<Id>);
    // The latest visit, until another one is picked.
    let chosen = move || {
        picked
            .get()
            .or_else(|| visits().first().map(|visit| visit.1))
    };
    let choice = move |(day, id, yard): (_, Id, String)| {
        view! {
            <option value=id.to_string() prop:selected=move || chosen() == Some(id)>
                {format!("{yard}, {day}")}
            </option>
        }
    };
    view! {
        <h2>"Hand over"</h2>
        <OnThisDeviceOnly />
        <div class="card">
            <h3>"The whole record"</h3>
            <p class="small">"For the laptop, for another phone, for safe keeping. Nothing is doubled when it comes back."</p>
            <Ways of=Signal::derive(|| Some(What::Whole)) save_id="export-all" share_id="share" />
        </div>
        <When so=move || !visits().is_empty()>
            <div class="card">
                <h3>"One visit"</h3>
                <label class="field">
                    <span class="name">"Which visit"</span>
                    <select
                        id="which-visit"
                        on:change=move |event| {
                            picked.set(event_target_value(&event).parse().ok());
                        }
                    >
                        {live(move || visits().into_iter().map(choice).collect_any())}
                    </select>
                </label>
                <Ways
                    of=Signal::derive(move || chosen().map(What::Visit))
                    save_id="export-visit" share_id="share-visit"
                />
            </div>
        </When>
        <div class="card">
            <h3>"A table for a spreadsheet"</h3>
            <p class="small">"All planks with figures, verdicts and reasons, as CSV. It can't be read back."</p>
            <button class="wide-button" id="export-csv" on:click=move |_| save_table(app)>
                "Save the table"
            </button>
        </div>
    }
}

/// How much would be lost with this device, and what the last file is worth.
#[component]
fn OnThisDeviceOnly() -> impl IntoView {
    let app = expect_context::<App>();
    let device = this_device();
    let words = move || {
        if app.demo.get() {
            return Some(
                "The sample workshop needs no keeping: it can be opened again at any time.".into(),
            );
        }
        Some(app.only_here()?.in_words(device))
    };
    let last = move || {
        let known = app.kept.get().filter(|_| !app.demo.get())?;
        Some(known.last_saved_in_words())
    };
    let open = move || if app.demo.get() { 0 } else { app.unconfirmed() };
    let ask = move || {
        let count = open();
        (count > 0).then(|| {
            let entries = counted(count, "entry", "entries");
            let other = match device {
                ThisDevice::Phone => "Has the laptop got it?",
                ThisDevice::Laptop => "Has another device got it?",
            };
            view! {
                <p>{format!("That file holds {entries} not known to be kept elsewhere. {other}")}</p>
                <button id="it-is-there" on:click=move |_| app.confirm_kept()>
                    {device.it_is_there()}
                </button>
            }
        })
    };
    view! {
        <div class="note" id="only-here">
            <p>{live(words)}</p>
            <p class="small" id="last-saved">{live(last)}</p>
            {live(ask)}
        </div>
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum What {
    Whole,
    Visit(Id),
}

/// The file, built before any tap: a browser shares only within one.
fn parcel(app: App, what: What) -> Result<Parcel, String> {
    let now = clock::now();
    let version = env!("CARGO_PKG_VERSION");
    let mut text = Pieces::default();
    let name = app.record.with_value(|record| {
        let (log, by) = (record.log(), record.by());
        match what {
            What::Whole => {
                log.to_file_in_pieces(by, version, &now.at, |piece| text.push(piece));
                by.to_owned()
            }
            What::Visit(id) => {
                let yard = record
                    .state()
                    .visit(id)
                    .map(|visit| visit.opened.yard.as_str());
                text.push(&queries::visit_to_file_by(log, by, id, version, &now.at));
                plain(yard.unwrap_or("visit"))
            }
        }
    });
    let demo = if app.demo.get_untracked() {
        "sample-"
    } else {
        ""
    };
    Parcel::json(&format!("stillwood-{demo}{name}-{}", now.day), text)
        .map_err(|why| why.to_string())
}

/// The entries of a file.
fn entries_of(app: App, what: What) -> NumberRanges {
    app.record.with_value(|record| {
        let log = record.log();
        match what {
            What::Whole => NumberRanges::of(log.everything()),
            What::Visit(id) => {
                let text = queries::visit_to_file(log, id, "", "");
                // What can't be read back was not handed over.
                read(text.as_bytes(), &Limits::default())
                    .map(|reading| NumberRanges::of(&reading.accepted))
                    .unwrap_or_default()
            }
        }
    })
}

/// A name that every file system takes.
fn plain(name: &str) -> String {
    let letters: String = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .take(40)
        .collect();
    letters.trim_matches('-').to_lowercase()
}

/// Download, always; share, where the browser shares such a file.
#[component]
fn Ways(of: Signal<Option<What>>, save_id: &'static str, share_id: &'static str) -> impl IntoView {
    let app = expect_context::<App>();
    let built = RwSignal::new_local(None::<Result<Parcel, String>>);
    // Whether it is of what stands now. A large record takes a while to build, so it waits for a
    // pause, or for the tap.
    let fresh = StoredValue::new(false);
    let build = move || {
        if !fresh.get_value() {
            fresh.set_value(true);
            built.set(of.get_untracked().map(|what| parcel(app, what)));
        }
    };
    let watch = move || {
        app.changed.track();
        of.track();
        fresh.set_value(false);
    };
    after_pause(PAUSE, watch, build);
    let entries = move || {
        let what = of.get_untracked();
        what.map_or_else(NumberRanges::default, |what| entries_of(app, what))
    };
    let save = move |_| {
        build();
        let done = built.with_untracked(|built| match built {
            Some(Ok(parcel)) => parcel.download().map_err(|why| why.to_string()),
            Some(Err(why)) => Err(why.clone()),
            None => Err("There is nothing to save.".into()),
        });
        match done {
            Ok(()) => {
                app.note_handing(HandingEnd::Done(HandedWay::Saved), entries());
                app.say("The browser took it for this device's downloads.");
            }
            Err(why) => app.say(why),
        }
    };
    let share = move |_| {
        build();
        let ending = built.with_untracked(|built| match built {
            Some(Ok(parcel)) => Some(parcel.share()),
            _ => None,
        });
        let Some(ending) = ending else { return };
        // What is recorded while the share sheet is open is not in the file.
        let entries = entries();
        spawn_local(async move {
            let end = match ending.await {
                ShareEnd::Shared => {
                    app.say("Handed over.");
                    HandingEnd::Done(HandedWay::Shared)
                }
                ShareEnd::Cancelled => HandingEnd::Cancelled,
                ShareEnd::Failed(why) => {
                    app.say(format!("It could not be shared ({why}). Save it instead."));
                    HandingEnd::Failed
                }
            };
            app.note_handing(end, entries);
        });
    };
    let shares = move || {
        built.with(|built| match built {
            Some(Ok(parcel)) => parcel.share_as(),
            _ => ShareAs::NotAvailable,
        })
    };
    let size = move || {
        built.with(|built| match built {
            Some(Ok(parcel)) => Some(size_in_words(parcel.size())),
            Some(Err(why)) => Some(why.clone()),
            None => None,
        })
    };
    view! {
        <div class="row stretch">
            <button class="primary" id=save_id on:click=save>"Save the file"</button>
            {live(move || {
                (shares() != ShareAs::NotAvailable)
                    .then(|| view! { <button id=share_id on:click=share>"Share…"</button> })
            })}
        </div>
        <p class="small">
            {live(size)}
            {live(move || {
                (shares() == ShareAs::Text)
                    .then_some(" This browser shares it only under a name that ends in .txt; it is read back all the same.")
            })}
        </p>
    }
}

/// A file's size for people.
fn size_in_words(bytes: f64) -> String {
    if bytes < 1_000_000.0 {
        format!("{:.0} kB.", (bytes / 1000.0).max(1.0))
    } else {
        format!("{:.1} MB.", bytes / 1_000_000.0)
    }
}

/// Saves all planks as CSV.
fn save_table(app: App) {
    let instruments = app.settings.with_untracked(|settings| settings.instruments);
    let rows = app.book_now(|state| queries::rows(state, &instruments));
    let day = clock::now().day;
    app.save_csv(&format!("stillwood-planks-{day}.csv"), table_rows(&rows));
}

impl App {
    /// Hands a table to the browser's downloads, so that a spreadsheet takes it for UTF-8.
    pub(crate) fn save_csv(self, name: &str, rows: Vec<Vec<String>>) {
        let done = to_csv(rows)
            .map_err(|why| why.to_string())
            .and_then(|text| {
                let text = format!("\u{feff}{text}");
                download(name, &text, "text/csv;charset=utf-8").map_err(|why| why.to_string())
            });
        match done {
            Ok(()) => self.say("The table is saved among this device's downloads."),
            Err(why) => self.say(why),
        }
    }
}
