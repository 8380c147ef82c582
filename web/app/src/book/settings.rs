//! Settings: units, language, colours, left hand, the accuracy of the maker's tools, this device's name, its store,
//! the version, the sample workshop, deleting everything.

use super::parts::{choose, facts, opens, screen};
use crate::action::Action as AppAction;
use crate::effect::{Effect, NewEvent};
use crate::form::field_id;
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, Judged, Typed, ask_to_delete_everything, icon, sign, typed as field};
use crate::route::Route;
use crate::settings::{Scheme, Settings};
use crate::tell::{self, say};
use crate::words::{Language, Spoken, count, fill, show};
use crate::yard::kept::{keep_draft, keep_entering};
use maud::{Markup, html};
use std::collections::BTreeMap;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{DeviceRenamed, Event, queries, restated};

/// Other devices shown.
const SHOWN: usize = 20;

/// What the platform promises of the record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Persistence {
    /// It is never cleared without being asked for.
    Granted,
    /// It may be cleared when the device runs short.
    NotGranted,
    /// It does not say.
    #[default]
    Unknown,
}

/// What a look for a newer version found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VersionFound {
    /// This is the newest.
    UpToDate,
    /// A newer one is being fetched.
    Coming,
    /// A newer one is ready.
    Ready,
    /// The platform keeps no offline copy.
    NoOfflineCopy,
    /// There is no network now.
    NoNetwork,
}

/// What the shell says of the device's store.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Storage {
    /// What the platform promises.
    pub persistence: Persistence,
    /// How much record and app take, in megabytes.
    pub used_megabytes: Option<f64>,
    /// What can't be read of what is kept, each in words.
    pub damaged: Vec<String>,
    /// The build, beside the version.
    pub build: String,
    /// What the last look for a newer version found.
    pub version_found: Option<VersionFound>,
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Said by the shell: another window has kept these.
    Kept(Box<Settings>),
    /// The units of a bare number.
    Units(Units),
    /// The language of the screens; none is as the browser has it.
    Language(Option<Language>),
    /// The colours; none is as the device has it.
    Scheme(Option<Scheme>),
    /// The keys lie for the left hand, or not.
    LeftHand(bool),
    /// Keep the name of this device.
    SaveName,
    /// Ask the platform to keep the record.
    AskToPersist,
    /// Look for a newer version.
    LookForNewVersion,
    /// Delete everything: it was asked twice.
    DeleteEverything,
    /// Said by the shell: what there is to say of the store.
    Stored(Storage),
}

/// A tool: its stored name, and the number in the instruments.
type Tool = (&'static str, fn(&mut Instruments) -> &mut f64);

const TOOLS: [Tool; 11] = [
    ("tool length", |i| &mut i.length_mm),
    ("tool width", |i| &mut i.width_mm),
    ("tool thickness", |i| &mut i.thickness_mm),
    ("tool scale", |i| &mut i.scale_kg),
    ("tool place", |i| &mut i.place_mm),
    ("tool meter", |i| &mut i.meter_percent),
    ("tool temperature", |i| &mut i.temperature_c),
    ("tool gap", |i| &mut i.gap_mm),
    ("tool slope", |i| &mut i.slope_mm),
    ("tool ring angle", |i| &mut i.ring_degrees),
    ("tool ring dip", |i| &mut i.ring_dip_mm),
];

/// The field of the device's name.
const NAME: &str = "device name";

/// The settings open: how the store stands is asked for.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    model.shell.storage.version_found = None;
    vec![Effect::AskStorage]
}

/// Keeps the settings on the device.
pub fn keep(model: &mut Model) -> Vec<Effect> {
    match model.settings.to_json() {
        Ok(json) => vec![Effect::KeepSetting("settings", json)],
        Err(why) => say(model, why.spoken()),
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    let tool = TOOLS.iter().find(|(of, _)| *of == name);
    let read = tool.and_then(|(_, at)| Some((at, Instruments::read_error(&text)?)));
    model.book.texts.insert(name.to_owned(), text);
    match read {
        Some((at, value)) => {
            *at(&mut model.settings.instruments) = value;
            keep(model)
        }
        None => Vec::new(),
    }
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Kept(settings) => taken_up(model, *settings),
        Action::Units(units) => {
            let before = model.settings.units;
            if before == units {
                return Vec::new();
            }
            model.settings.units = units;
            let mut effects = keep(model);
            // What is half typed keeps its meaning: a bare number gets the unit that it was typed under.
            for draft in model.drafts.clone() {
                effects.extend(keep_draft(model, restated(&draft, before)));
            }
            restate_aside(model, before);
            effects
        }
        Action::Language(language) => {
            model.settings.language_chosen = language;
            model.settings.speak(&model.shell.languages);
            keep(model)
        }
        Action::Scheme(scheme) => {
            model.settings.scheme = scheme;
            keep(model)
        }
        Action::LeftHand(left) => {
            model.settings.left_hand = left;
            keep(model)
        }
        Action::SaveName => save_name(model),
        Action::AskToPersist => vec![Effect::AskToPersist],
        Action::LookForNewVersion => {
            model.shell.storage.version_found = None;
            vec![Effect::LookForNewVersion]
        }
        Action::DeleteEverything => {
            model.dialog = None;
            vec![Effect::DeleteEverything]
        }
        Action::Stored(storage) => {
            if storage.version_found == Some(VersionFound::Ready) {
                model.shell.new_version = true;
            }
            model.shell.storage = storage;
            Vec::new()
        }
    }
}

/// What "Bring back" and "Undo" would bring back keeps its meaning too.
fn restate_aside(model: &mut Model, before: Units) {
    let undone = model.toast.as_mut();
    let undone = undone.and_then(|toast| toast.after.draft.as_deref_mut());
    for draft in model.yard.discarded.as_mut().into_iter().chain(undone) {
        *draft = restated(draft, before);
    }
}

/// Takes up what another window has set. That window restated what is half typed; what is open here it did not know.
fn taken_up(model: &mut Model, settings: Settings) -> Vec<Effect> {
    let before = model.settings.units;
    model.settings = settings;
    model.settings.speak(&model.shell.languages);
    if model.settings.units == before {
        return Vec::new();
    }
    restate_aside(model, before);
    if let Some(form) = &mut model.form
        && model.forms.contains_key(&form.key)
    {
        form.found = form.found.or(Some(before));
    }
    let Some(entering) = &mut model.yard.entering else {
        return Vec::new();
    };
    entering.draft = restated(&entering.draft, before);
    keep_entering(model)
}

fn known_name(model: &Model) -> &str {
    let by = &model.record.device().id;
    queries::name_of_device(model.state(), by).unwrap_or_default()
}

fn save_name(model: &mut Model) -> Vec<Effect> {
    let words = &model.words().book;
    let typed = model
        .book
        .texts
        .get(NAME)
        .map_or(known_name(model), String::as_str);
    let name = typed.trim().to_owned();
    if name.is_empty() {
        model.book.texts.insert(NAME.to_owned(), String::new());
        return vec![Effect::Focus(field_id(NAME))];
    }
    if name == known_name(model) {
        return say(model, words.name_is_that);
    }
    let by = model.record.device().id.clone();
    let Some(about) = model.new_id() else {
        let why = model.words().common.no_new_names;
        return say(model, why);
    };
    let said = fill(words.name_saved, &[("name", &name)]);
    let renamed = DeviceRenamed {
        by,
        name,
        ..DeviceRenamed::default()
    };
    let event = NewEvent::new(about, Event::DeviceRenamed(Box::new(renamed)));
    tell::record(vec![event], said)
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().book;
    screen(model, words.settings, "").with(model, "body", "main", |ui| {
        html! {
            div.columns {
                div { (looks(ui)) (store(ui)) (version(ui)) }
                div {
                    (tools(ui)) (device(ui)) (sample(ui))
                    // The sample goes when it is closed; the maker's own record is not open here.
                    @if !ui.model.shell.sample { (delete(ui)) }
                }
            }
        }
    })
}

fn looks(ui: &Ui<'_>) -> Markup {
    let (words, settings) = (&ui.w.book, &ui.model.settings);
    let units = |units, name| (settings.units == units, name, Action::Units(units).into());
    let scheme = |scheme, name| {
        (
            settings.scheme == scheme,
            name,
            Action::Scheme(scheme).into(),
        )
    };
    let hand = |left, name| {
        (
            settings.left_hand == left,
            name,
            Action::LeftHand(left).into(),
        )
    };
    html! {
        section {
            (choose(ui, words.units, vec![units(Units::Metric, words.units_metric), units(Units::Inch, words.units_inch)]))
            p.below { (words.units_below) }
            (choose(ui, words.colours, vec![
                scheme(None, words.as_device),
                scheme(Some(Scheme::Paper), words.paper),
                scheme(Some(Scheme::Shed), words.shed),
                scheme(Some(Scheme::Sun), words.sun),
            ]))
            (choose(ui, words.hand, vec![hand(false, words.right_hand), hand(true, words.left_hand)]))
            p.below { (words.hand_below) }
            (choose(ui, words.language, languages(settings.language_chosen, words.as_device)))
        }
    }
}

/// As the browser has it, and each language by its own name.
fn languages(
    chosen: Option<Language>,
    as_device: &'static str,
) -> Vec<(bool, &'static str, crate::Action)> {
    let known = Language::ALL.map(|one| (Some(one), one.own_name()));
    let all = std::iter::once((None, as_device)).chain(known);
    all.map(|(one, name)| (chosen == one, name, Action::Language(one).into()))
        .collect()
}

fn tools(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.book;
    let mut instruments = ui.model.settings.instruments;
    html! {
        section {
            h2 { (words.tools) }
            p.below { (words.tools_below) }
            div.pair {
                @for (name, at) in TOOLS {
                    @let now = show::number(*at(&mut instruments), 3);
                    @let text = ui.model.book.texts.get(name).cloned().unwrap_or(now);
                    (field(&Typed {
                        name,
                        label: ui.w.field(name).label,
                        value: &text,
                        below: "",
                        error: if Instruments::read_error(&text).is_some() { "" } else { words.tool_wrong },
                        number: true,
                        ..Typed::default()
                    }))
                }
            }
        }
    }
}

fn device(ui: &Ui<'_>) -> Markup {
    let (words, model) = (&ui.w.book, ui.model);
    let text = model
        .book
        .texts
        .get(NAME)
        .map_or(known_name(model), String::as_str);
    let wrong = model
        .book
        .texts
        .get(NAME)
        .is_some_and(|text| text.trim().is_empty());
    let device = model.record.device();
    let others = others(model);
    html! {
        section #device {
            h2 { (words.this_device) }
            @if let Some(why) = &model.shell.identity_notice { p.notice.doubt { (why.spoken()) } }
            (field(&Typed {
                name: NAME,
                label: words.device_name,
                value: text,
                below: words.device_name_below,
                error: if wrong { words.device_name_wrong } else { "" },
                number: false,
                ..Typed::default()
            }))
            button.key type="button" data-press=(ui.press(Action::SaveName)) { (words.save_name) }
            (facts(&[(words.identity, device.id.clone()), (words.marks_begin, device.sign.clone())]))
            p.below { (words.never_copy) }
            @if !others.is_empty() {
                h3 { @if ui.model.shell.sample { (words.devices_of_sample) } @else { (words.other_devices) } }
                ul.plain { @for line in &others { li { bdi { (line) } } } }
            }
        }
    }
}

/// The other devices that wrote entries, each with how many. What this device wrote under an earlier identity is its
/// own; a device of the first version had no identity but its sign. The sample's devices are all invented.
fn others(model: &Model) -> Vec<String> {
    let words = &model.words().share;
    let (state, own) = (model.state(), model.record.device());
    let formerly: Vec<&str> = queries::device_was(state, &own.id).collect();
    let is_own = |by: &str| {
        by == own.id || formerly.contains(&by) || (!model.shell.sample && by == own.sign)
    };
    let mut counts: BTreeMap<&str, u64> = BTreeMap::new();
    for entry in model.record.log().entries() {
        if !is_own(&entry.by) {
            *counts.entry(&entry.by).or_default() += 1;
        }
    }
    let more = counts.len().saturating_sub(SHOWN);
    let line = |(by, n): (&str, u64)| {
        let entries = count(n, words.entries_one, words.entries_other);
        match queries::name_of_device(state, by) {
            Some(name) => format!("{name} ({by}): {entries}"),
            None => format!("{by}: {entries}"),
        }
    };
    let mut lines: Vec<String> = counts.into_iter().take(SHOWN).map(line).collect();
    if more > 0 {
        lines.push(fill(words.and_more, &[("n", &more)]));
    }
    lines
}

/// What the platform promises about the record.
fn store(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.book;
    let storage = &ui.model.shell.storage;
    let (judged, said) = match storage.persistence {
        Persistence::Granted => (Judged::Good, words.store_granted),
        Persistence::NotGranted => (Judged::Doubt, words.store_not_granted),
        Persistence::Unknown => (Judged::Unknown, words.store_unknown),
    };
    html! {
        section {
            h2 { (words.store) }
            p { (sign(judged)) (said) }
            @if let Some(used) = storage.used_megabytes {
                p.below { (fill(words.store_used, &[("n", &show::number(used, 1))])) }
            }
            @if !storage.damaged.is_empty() {
                p.notice.doubt { (count(storage.damaged.len() as u64, ui.w.share.damage_one, ui.w.share.damage_other)) " " (ui.w.share.damage_means) }
            }
            @if storage.persistence != Persistence::Granted {
                button.key type="button" data-press=(ui.press(Action::AskToPersist)) { (words.ask_to_keep) }
            }
            ul.list.spaced { (opens(ui, Icon::Share, ui.w.share.title, words.save_often, Route::Share)) }
        }
    }
}

fn version(ui: &Ui<'_>) -> Markup {
    let (words, shell) = (&ui.w.book, &ui.model.shell);
    let found = shell.storage.version_found.map(|found| match found {
        VersionFound::UpToDate => words.version_newest,
        VersionFound::Coming => words.version_coming,
        VersionFound::Ready => words.version_ready,
        VersionFound::NoOfflineCopy => words.version_no_copy,
        VersionFound::NoNetwork => words.version_no_network,
    });
    html! {
        section #version {
            h2 { (words.version) }
            p {
                "Stillwood " (shell.version)
                @if !shell.storage.build.is_empty() { " (" (shell.storage.build) ")" }
            }
            @if let Some(offline) = &shell.offline { p.below { (offline.spoken()) } }
            button.key type="button" data-press=(ui.press(Action::LookForNewVersion)) { (words.look_for_version) }
            p role="status" { @if let Some(found) = found { (found) } }
        }
    }
}

fn sample(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.book;
    let open = ui.model.shell.sample;
    let mut switch = AppAction::OpenSample(!open);
    if ui.model.shell.is_unsaved() {
        switch = AppAction::Ask {
            question: words.sample_unsaved.to_owned(),
            yes: (if open {
                words.close_sample
            } else {
                words.open_sample
            })
            .to_owned(),
            action: Box::new(switch),
        };
    }
    html! {
        section {
            h2 { (ui.w.common.sample) }
            p.below { (if open { words.sample_is_open } else { words.sample_below }) }
            button.key type="button" data-press=(ui.press(switch)) {
                (icon(Icon::Yard)) (if open { words.close_sample } else { words.open_sample })
            }
        }
    }
}

fn delete(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.book;
    let ask = ask_to_delete_everything(ui);
    html! {
        section {
            h2 { (words.delete_title) }
            p.below { (words.delete_below) }
            button.key type="button" data-press=(ui.press(ask)) { (icon(Icon::Delete)) (words.delete_key) }
        }
    }
}
