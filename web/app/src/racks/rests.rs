//! Rest times and limits by stage, as the maker sets them; and the air of the rooms, with the moisture at which wood
//! settles in it.

use super::Action;
use crate::drawings::{Chart, Line, round_ticks};
use crate::effect::Effect;
use crate::explain::{Asked, figure};
use crate::form::{self, FormAction, FormId};
use crate::half_typed;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::field::{begun, fields};
use crate::parts::{Icon, icon, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count, dates, fill, show, spoken_name};
use maud::{Markup, html};
use stillwood_core::record::queries;
use stillwood_core::record::{Dated, FormField, RoomRead, WitnessFound};
use stillwood_core::season::{Limit, Stage, Warp};

/// What was half typed stands open again.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    let begun = |form: &FormId| model.forms.contains_key(&form.key());
    let stood = half_typed::stood_open(model, Route::RestTimes).filter(begun);
    let mut all = Stage::ALL.map(FormId::RestTimes).to_vec();
    all.push(FormId::RoomAir);
    let first = all.into_iter().find(begun);
    if let Some(form) = stood.or(first) {
        form::open(model, form);
    }
    Vec::new()
}

/// Opens a form, or puts it away.
pub fn toggle(model: &mut Model, form: FormId) -> Vec<Effect> {
    if model.form.as_ref().is_some_and(|open| open.id == form) {
        model.form = None;
        return Vec::new();
    }
    form::open(model, form);
    let mut effects = half_typed::stands_open(model, Route::RestTimes, form);
    let first = form.fields().first().map(|field| form::field_id(field.key));
    effects.extend(first.map(Effect::Focus));
    effects
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let title = model.words().racks.rest_times;
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, "", html! {})
        })
        .with(model, "body", "main", |ui| {
            html! {
                p.below { (ui.w.racks.rest_times_note) }
                div.columns {
                    div { @for stage in Stage::ALL { (stage_card(ui, stage)) } }
                    div { (rooms(ui)) }
                }
            }
        })
        .with(model, "toast", "div", toast)
}

fn stage_card(ui: &Ui<'_>, stage: Stage) -> Markup {
    let words = &ui.w.racks;
    let units = ui.model.units();
    let terms = queries::stage_limits(ui.model.state(), stage);
    let limit = |limit: Limit| {
        let reject = show::gap(limit.reject_mm, units);
        match limit.warn_mm {
            Some(warn) => fill(
                words.warn_and_reject,
                &[("warn", &show::gap(warn, units)), ("reject", &reject)],
            ),
            None => fill(words.reject_over, &[("reject", &reject)]),
        }
    };
    let months = match terms.months_most {
        Some(most) => fill(
            words.months_from_to,
            &[("least", &terms.months), ("most", &most)],
        ),
        None => count(
            u64::from(terms.months),
            words.months_least_one,
            words.months_least_other,
        ),
    };
    html! {
        section.card {
            h2 { (ui.w.racks.rest_of(stage)) }
            // What is typed anew stands in the form, and once.
            @if !is_open(ui, FormId::RestTimes(stage)) { dl.facts {
                @if stage == Stage::Pieces {
                    dt { (words.plank_before_cut) }
                    dd { (count(u64::from(terms.weeks_before_cut()), words.weeks_in_room_one, words.weeks_in_room_other)) }
                }
                dt { (words.at_rest) } dd { (months) }
                @for warp in Warp::ALL {
                    dt { (crate::parts::capital(spoken_name(warp.name()))) }
                    dd { @match warp.limit(&terms) { Some(of) => (limit(of)), None => span.open { (words.not_judged) } } }
                }
                dt { (words.limits_over) } dd { (show::length(terms.over_mm, units)) }
            } }
            (form_or_key(ui, FormId::RestTimes(stage), &fill(words.change_stage, &[("stage", &ui.w.racks.rest_of(stage))]), words.change))
        }
    }
}

fn is_open(ui: &Ui<'_>, id: FormId) -> bool {
    ui.model.form.as_ref().is_some_and(|open| open.id == id)
}

/// The form where it stands open, else the key that opens it.
fn form_or_key(ui: &Ui<'_>, id: FormId, label: &str, name: &str) -> Markup {
    let words = &ui.w.racks;
    let open = ui.model.form.as_ref().filter(|open| open.id == id);
    let offers = |field: &FormField| super::deed::offers(ui.model, field);
    html! {
        @match open {
            Some(open) => {
                div.form {
                    (begun(ui, open))
                    (fields(ui, open, &id.fields(), &offers))
                    @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
                    div.keys.next {
                        button.key.big type="button" data-press=(ui.press(Action::Toggle(id))) { (ui.w.common.cancel) }
                        button.key.main.big.wide type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) { (words.save) }
                    }
                }
            },
            None => button.key.whole type="button" aria-label=(label) data-press=(ui.press(Action::Toggle(id))) { (name) },
        }
    }
}

fn rooms(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    let rooms = queries::rooms(ui.model.state());
    html! {
        h2 { (words.rooms) }
        @if rooms.is_empty() { p.empty { (words.no_room_yet) } }
        @for (room, read) in rooms {
            section.card {
                h2 { (crate::parts::capital(room)) }
                @if let Some(last) = read.last() { (last_read(ui, room, last)) }
                @if let Some(told) = queries::witness_in(ui.model.state(), room) { (stick(ui, &told)) }
                (air_chart(ui, read))
            }
        }
        (form_or_key(ui, FormId::RoomAir, words.log_room_air, words.log_room_air))
    }
}

/// What was read last in a room, and where wood settles in that air.
fn last_read(ui: &Ui<'_>, room: &str, said: &Dated<RoomRead>) -> Markup {
    let words = &ui.w.racks;
    let air = &said.payload.climate;
    let parts: Vec<String> = [
        air.temperature
            .as_ref()
            .map(|one| show::temperature(one.value, ui.model.units())),
        air.humidity
            .as_ref()
            .map(|one| fill(words.humidity, &[("air", &show::moisture(one.value))])),
    ]
    .into_iter()
    .flatten()
    .collect();
    let day = dates::day(ui.w, said.on, ui.model.now.date());
    html! {
        p { (parts.join(", ")) " " span.below { (day) } }
        p {
            @match said.payload.settles_at() {
                Some(Ok(moisture)) => {
                    (words.wood_settles) " "
                    strong { (figure(ui, words.wood_settles, &show::moisture(moisture.in_percent()), Asked::RoomAir(room.to_owned()))) }
                },
                Some(Err(why)) => (why.spoken()),
                None => (words.no_humidity),
            }
        }
    }
}

/// What a stick says, beside what the hygrometer said about then.
fn stick(ui: &Ui<'_>, told: &WitnessFound) -> Markup {
    let words = &ui.w.racks;
    let name = if told.stick.is_empty() {
        words.the_stick
    } else {
        &told.stick
    };
    let known = |working: &Option<stillwood_core::quantity::Derivation>| {
        working.clone().map(|one| Asked::Known(Box::new(one)))
    };
    let shown = |name: &'static str, text: String, asked: Option<Asked>| match asked {
        Some(asked) => figure(ui, name, &text, asked),
        None => html! { (text) },
    };
    html! {
        p {
            strong { (name) } " " span.below { (dates::day(ui.w, told.on, ui.model.now.date())) } ": "
            @match &told.says {
                Some(Ok(air)) => { (words.wood_settles) " " (shown(words.by_the_stick, show::moisture(air.in_percent()), known(&told.working))) },
                Some(Err(why)) => (why.spoken()),
                None if told.hygrometer.is_some() => (words.counts_from_here),
                None => (words.counts_once_read),
            }
            @if let Some(air) = told.hygrometer {
                ", " (words.by_the_hygrometer) " " (shown(words.by_the_hygrometer, show::moisture(air.in_percent()), known(&told.hygrometer_working)))
            }
        }
        @if told.disagrees() { p.notice.doubt { (words.stick_apart) } }
    }
}

/// The least span of the scale, % moisture: what air does within days is no hill.
const LEAST_SPAN: f64 = 6.0;

/// Where wood settles in the air of a room, day by day.
fn air_chart(ui: &Ui<'_>, read: &[Dated<RoomRead>]) -> Markup {
    let words = &ui.w.racks;
    let known: Vec<(chrono::NaiveDate, f64)> = read
        .iter()
        .filter_map(|one| Some((one.on, one.payload.settles_at()?.ok()?.in_percent())))
        .collect();
    let (Some(first), Some(last)) = (known.first(), known.last()) else {
        return html! {};
    };
    if known.len() < 3 {
        return html! {};
    }
    let (low, high) = known.iter().fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(low, high), (_, one)| (low.min(*one), high.max(*one)),
    );
    let missing = ((LEAST_SPAN - (high - low)) / 2.0).max(0.5);
    let scale = ((low - missing).max(0.0), high + missing);
    let days = |on: chrono::NaiveDate| (on - first.0).num_days() as f64;
    let day = |on: chrono::NaiveDate| dates::day(ui.w, on, ui.model.now.date());
    let chart = Chart {
        days: days(last.0),
        scale,
        lines: vec![Line {
            name: show::moisture(last.1),
            class: "weight",
            points: known.iter().map(|(on, air)| (days(*on), *air)).collect(),
            sign: 0,
        }],
        ticks: round_ticks(scale)
            .into_iter()
            .map(|at| (at, show::moisture(at)))
            .collect(),
        dates: vec![(0.0, day(first.0)), (days(last.0), day(last.0))],
        ..Chart::default()
    };
    let said = fill(
        words.air_from_to,
        &[
            ("n", &known.len()),
            ("low", &show::moisture(low)),
            ("high", &show::moisture(high)),
        ],
    );
    html! {
        details {
            summary { (icon(Icon::Chart)) " " (words.air_over_time) }
            figure { (chart.draw(&said)) figcaption.below { (said) } }
        }
    }
}
