//! This device: its name, its identity, the sign that begins its marks, and what it shares with another by
//! mistake.

use crate::app::App;
use crate::parts::{CollectAny, Facts, TextField, live};
use crate::record::Deed;
use crate::screens::figures::counted;
use leptos::prelude::*;
use std::collections::BTreeMap;
use stillwood_core::record::queries;
use stillwood_core::record::{DeviceRenamed, Event};

/// Other devices shown.
const SHOWN: usize = 20;

/// The part of the settings.
#[component]
pub(super) fn ThisDeviceNamed() -> impl IntoView {
    let app = expect_context::<App>();
    let by = move || app.record.with_value(|record| record.by().to_owned());
    let known = move || {
        app.state(|state| {
            queries::name_of_device(state, &by())
                .unwrap_or_default()
                .to_owned()
        })
    };
    let name = RwSignal::new(untrack(known));
    let error = RwSignal::new(String::new());
    let save = move |_| {
        let typed = name.get_untracked().trim().to_owned();
        if typed.is_empty() {
            error.set("Type a name, such as “phone” or “laptop in the shop”.".into());
            return;
        }
        error.set(String::new());
        if typed == untrack(known) {
            app.say("That is its name already.");
            return;
        }
        let Some(about) = app.new_id() else { return };
        let renamed = DeviceRenamed {
            by: untrack(by),
            name: typed.clone(),
            ..DeviceRenamed::default()
        };
        let deed = Deed::new(about, Event::DeviceRenamed(Box::new(renamed)));
        app.write_and_say(vec![deed], format!("This device is called {typed}."), None);
    };
    let facts = move || {
        app.changed.track();
        let by = by();
        let sign = app.record.with_value(|record| record.device().sign.clone());
        view! {
            <Facts of=vec![
                ("Its identity".to_owned(), Some(by)),
                ("Its marks begin with".to_owned(), Some(sign)),
            ] />
        }
    };
    let others = move || {
        let others = others(app);
        (!others.is_empty()).then(|| {
            let line = |text: String| view! { <li><bdi>{text}</bdi></li> };
            view! {
                <p>"Other devices in this record:"</p>
                <ul id="other-devices">{others.into_iter().map(line).collect_any()}</ul>
            }
        })
    };
    view! {
        <h2 id="device">"This device"</h2>
        {live(move || app.identity_notice.get().map(|why| view! { <p class="note doubt" id="new-identity">{why}</p> }))}
        <div id="device-shared">{live(move || shared(app))}</div>
        <TextField name="Name of this device" value=name error=error hint="Other devices show it beside what was entered here." />
        <button id="save-device-name" on:click=save>"Save the name"</button>
        {live(facts)}
        <p class="small">"Do not copy this device's storage to another: two devices under one identity can't be told apart."</p>
        {live(others)}
    }
}

/// The other devices that wrote entries, each with how many.
fn others(app: App) -> Vec<String> {
    app.changed.track();
    app.record.with_value(|record| {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for entry in record.log().entries() {
            if entry.by != record.by() {
                *counts.entry(&entry.by).or_default() += 1;
            }
        }
        let state = record.state();
        let line = |(by, count): (&str, usize)| {
            let entries = counted(count, "entry", "entries");
            match queries::name_of_device(state, by) {
                Some(name) => format!("{name} ({by}): {entries}"),
                None => format!("{by}: {entries}"),
            }
        };
        let more = counts.len().saturating_sub(SHOWN);
        let mut lines: Vec<String> = counts.into_iter().take(SHOWN).map(line).collect();
        if more > 0 {
            lines.push(format!("… and {more} more"));
        }
        lines
    })
}

/// What this or another device shares by mistake.
fn shared(app: App) -> AnyView {
    app.changed.track();
    let told = app.record.with_value(|record| {
        let (state, own) = (record.state(), record.by());
        let name = |by: &String| {
            let shown = match queries::name_of_device(state, by) {
                Some(name) => format!("{name} ({by})"),
                None => by.clone(),
            };
            if by == own {
                format!("{shown}, this device")
            } else {
                shown
            }
        };
        let mut told: Vec<String> = queries::shared_signs(state)
            .iter()
            .map(|one| {
                let devices: Vec<String> = one.devices.iter().map(name).collect();
                format!(
                    "Several devices begin their marks with {}: {}. Marks that were given twice are told \
                     apart on every screen.",
                    one.sign,
                    devices.join("; ")
                )
            })
            .collect();
        let mut clones: BTreeMap<String, usize> = BTreeMap::new();
        for clone in queries::cloned_devices(state) {
            *clones.entry(clone.by).or_default() += 1;
        }
        told.extend(clones.into_iter().map(|(by, count)| {
            let numbers = counted(count, "number was", "numbers were");
            format!(
                "Two devices write under one identity: {}. {numbers} used twice. Nothing is lost.",
                name(&by)
            )
        }));
        told
    });
    told.into_iter()
        .map(|text| view! { <p class="note doubt">{text}</p> })
        .collect_any()
}
