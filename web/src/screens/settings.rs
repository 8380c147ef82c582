//! The device's settings: its name, units, how far the maker's tools may be off, storage, the app's version.

use crate::app::App;
use crate::parts::{Choice, CollectAny, Frame, NumberField, live, show_named_place};
use crate::route::Route;
use crate::screens::device::ThisDeviceNamed;
use crate::screens::own_wood::OwnWoods;
use crate::shell::store::{Persistence, bytes_used};
use crate::shell::worker::Checked;
use leptos::prelude::*;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::show;
use wasm_bindgen_futures::spawn_local;

/// One tool: its label, and the number in the instruments.
type Tool = (&'static str, fn(&mut Instruments) -> &mut f64);

const TOOLS: [Tool; 11] = [
    ("Length, mm", |i| &mut i.length_mm),
    ("Width, mm", |i| &mut i.width_mm),
    ("Thickness, mm", |i| &mut i.thickness_mm),
    ("Scale, kg", |i| &mut i.scale_kg),
    ("Bearer's place, mm", |i| &mut i.place_mm),
    ("Moisture meter, %", |i| &mut i.meter_percent),
    ("Thermometer, °C", |i| &mut i.temperature_c),
    ("Gap under the string, mm", |i| &mut i.gap_mm),
    ("Grain over 300 mm, mm", |i| &mut i.slope_mm),
    ("Ring angle, degrees", |i| &mut i.ring_degrees),
    ("Ring dip, mm", |i| &mut i.ring_dip_mm),
];

/// The screen.
#[component]
pub(crate) fn SettingsScreen() -> impl IntoView {
    let app = expect_context::<App>();
    show_named_place();
    let units = RwSignal::new(app.settings.with_untracked(|settings| settings.units));
    Effect::new(move |before: Option<Units>| {
        let now = units.get();
        if let Some(before) = before.filter(|before| *before != now) {
            app.restate_drafts(before);
            app.settings.update(|settings| settings.units = now);
            app.keep_settings();
        }
        now
    });
    let tool = move |(name, at): &Tool| {
        let at = *at;
        let mut instruments = app.settings.with_untracked(|settings| settings.instruments);
        let text = RwSignal::new(show::number(*at(&mut instruments), 3));
        let value = move || {
            let typed: f64 = text.get().trim().replace(',', ".").parse().ok()?;
            (typed.is_finite() && typed >= 0.0).then_some(typed)
        };
        let wrong = Signal::derive(move || {
            if value().is_some() {
                String::new()
            } else {
                "A number, 0 or more.".into()
            }
        });
        Effect::new(move |before: Option<()>| {
            let now = value();
            if let (Some(()), Some(now)) = (before, now) {
                app.settings
                    .update(|settings| *at(&mut settings.instruments) = now);
                app.keep_settings();
            }
        });
        view! { <NumberField name=*name value=text error=wrong /> }
    };
    view! {
        <Frame title="Settings" back=Route::Home>
            <Choice
                name="Units" value=units
                of=vec![(Units::Metric, "mm, kg, °C"), (Units::Inch, "inches, lb, °F")]
                hint="Any unit can be typed at any time. This changes how things are shown; nothing recorded changes."
            />
            <h2>"Accuracy of your tools"</h2>
            <p class="small">
                "How far a reading may be off, either way: a result's ± comes from it. The numbers supplied are common practice, no source."
            </p>
            <div class="pair">{TOOLS.iter().map(tool).collect_any()}</div>
            <OwnWoods />
            <ThisDeviceNamed />
            <Keeping />
            <Version />
        </Frame>
    }
}

/// What this browser promises about the record.
#[component]
fn Keeping() -> impl IntoView {
    let app = expect_context::<App>();
    let words = move || match app.persistence.get() {
        Persistence::Granted => {
            "This browser has promised not to clear the record by itself. A lost phone still loses it: save a file now and then."
        }
        Persistence::NotGranted => {
            "This browser has not promised to keep the record: when the device runs short, or after some time without a visit, it may clear everything at once. Install the app, and save a file often."
        }
        Persistence::Unknown => {
            "This browser does not say whether it keeps the record. Install the app, and save a file often."
        }
    };
    let used = RwSignal::new(None::<f64>);
    spawn_local(async move { used.set(bytes_used().await) });
    let used = move || {
        used.get().map(|bytes| {
            format!(
                "Record and app take about {} MB here.",
                show::number(bytes / 1e6, 1)
            )
        })
    };
    let damaged = app.record.with_value(crate::record::Record::damaged_pages);
    view! {
        <h2>"Where the record is"</h2>
        <p id="keeping">{live(words)}</p>
        <p class="small">{live(used)}</p>
        {(damaged > 0)
            .then(|| {
                view! {
                    <p class="note bad">
                        {format!("{damaged} stored pages hold something that can't be read. They are left as they are; what is whole is used.")}
                    </p>
                }
            })}
        <button on:click=move |_| app.ask_to_keep()>"Ask the browser to keep it"</button>
    }
}

/// The version, and looking for a newer one.
#[component]
fn Version() -> impl IntoView {
    let app = expect_context::<App>();
    let said = RwSignal::new(String::new());
    let build = document()
        .query_selector("meta[name=build]")
        .ok()
        .flatten()
        .and_then(|meta| meta.get_attribute("content"))
        .unwrap_or_default();
    let check = move |_| {
        spawn_local(async move {
            let Some(bridge) = app.bridge.get_value() else {
                return;
            };
            said.set(match bridge.check_now().await {
                Ok(Checked::UpToDate) => "This is the newest version.".into(),
                Ok(Checked::Coming) => "A newer version is on its way.".into(),
                Ok(Checked::Ready) => {
                    app.new_version.set(true);
                    "A newer version is ready.".into()
                }
                Ok(Checked::NoWorker) => "This browser keeps no offline copy.".into(),
                Err(why) => why.to_string(),
            });
        });
    };
    view! {
        <h2 id="version">"Version"</h2>
        <p>{format!("Stillwood {} ({build})", env!("CARGO_PKG_VERSION"))}</p>
        <p class="small">{live(move || app.offline.get())}</p>
        <button id="check-update" on:click=check>"Look for a newer version"</button>
        <p role="status">{said}</p>
    }
}
