//! Movement and weight over time: against their limits, and beside what the room's air would make of the weight.

use super::stock::scale;
use crate::drawings::{Chart, Line, round_ticks};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Judged, sign};
use crate::words::{Spoken, count, dates, fill, show, spoken_name};
use chrono::NaiveDate;
use maud::{Markup, html};
use stillwood_core::quantity::{in_kg, in_mm, mm};
use stillwood_core::record::queries::{self, WeightChange};
use stillwood_core::record::{Checked, Id, MovementChecked, Piece};
use stillwood_core::season::{Change, FEELER_MM, Movement, Warp};

/// One shape, check by check since it was last made flat.
#[derive(Debug, Clone, PartialEq)]
pub struct ShapeLine {
    /// The shape.
    pub warp: Warp,
    /// The day from which its changes count: it was made flat, or seen for the first time.
    pub start: Option<NaiveDate>,
    /// Days of the checks that show it, and the changes, mm.
    pub changes: Vec<(NaiveDate, f64)>,
    /// The changes as a share of the limit, %; none where there is no limit.
    pub of_limit: Option<Vec<f64>>,
    /// The limit for this piece, mm.
    pub limit: Option<f64>,
    /// The limit in words.
    pub limit_shown: Option<String>,
    /// The last change in words; none where it was never measured.
    pub last: Option<String>,
    /// How it stands.
    pub judged: Judged,
    /// The check that the last change is of.
    pub check: Option<Id>,
    /// That check was by eye.
    pub by_eye: bool,
}

impl ShapeLine {
    /// It was measured.
    pub fn is_measured(&self) -> bool {
        !self.changes.is_empty()
    }

    /// The changes alone.
    pub fn values(&self) -> Vec<f64> {
        self.changes.iter().map(|(_, by)| *by).collect()
    }
}

/// How a change stands.
pub fn judged(movement: Option<Movement>) -> Judged {
    match movement {
        Some(Movement::Steady | Movement::Within) => Judged::Good,
        Some(Movement::Watch | Movement::TooClose) => Judged::Doubt,
        Some(Movement::Beyond) => Judged::Bad,
        Some(Movement::NotMeasured) | None => Judged::Unknown,
    }
}

/// Whether a look was by eye alone, and saw no change.
pub fn is_by_eye(check: &MovementChecked) -> bool {
    check.nothing_moved && check.within.is_none() && check.readings.is_empty()
}

/// All shapes that have a limit or were measured.
pub fn shape_lines(model: &Model, piece: &Piece) -> Vec<ShapeLine> {
    let units = model.units();
    let (checks, starts) = queries::moved_from(model.state(), piece, mm(FEELER_MM));
    let terms = queries::stage_limits(model.state(), queries::stage_of(piece));
    let line = |warp: Warp| {
        let all: Vec<(&Checked, &Change)> = queries::checks_since(&checks, &starts, warp)
            .flat_map(|check| {
                check
                    .changes
                    .iter()
                    .flatten()
                    .map(move |change| (check, change))
            })
            .filter(|(_, change)| change.warp == warp)
            .collect();
        let limit = all
            .last()
            .and_then(|(_, change)| change.limit)
            .or(warp.limit(&terms));
        let measured: Vec<(&Checked, &Change, f64)> = all
            .iter()
            .filter_map(|(check, change)| Some((*check, *change, in_mm(change.by?))))
            .collect();
        if limit.is_none() && measured.is_empty() {
            return None;
        }
        let last = measured.last();
        Some(ShapeLine {
            warp,
            start: starts.get(&warp).map(|start| start.on),
            changes: measured
                .iter()
                .map(|(check, _, by)| (check.on, *by))
                .collect(),
            of_limit: limit.map(|limit| {
                let all = measured.iter();
                all.map(|(_, _, by)| limit.percent_of(*by)).collect()
            }),
            limit: limit.map(|limit| limit.reject_mm),
            limit_shown: limit.map(|limit| show::gap(limit.reject_mm, units)),
            last: last.map(|(_, change, by)| {
                let plus = if change.signed && *by > 0.0 { "+" } else { "" };
                format!("{plus}{}", show::gap(*by, units))
            }),
            judged: last.map_or(Judged::Unknown, |(_, change, _)| judged(change.movement)),
            check: last.map(|(check, ..)| check.entry),
            by_eye: last.is_some_and(|(check, ..)| {
                let mut all = piece.work.checks.iter();
                let said = all.find(|said| said.entry == check.entry);
                said.is_some_and(|said| is_by_eye(&said.payload))
            }),
        })
    };
    Warp::ALL.into_iter().filter_map(line).collect()
}

fn days_between(first: NaiveDate, on: NaiveDate) -> f64 {
    (on - first).num_days() as f64
}

/// Marks of the days: the first, the last, and one between where there is room.
fn date_ticks(model: &Model, first: NaiveDate, last: NaiveDate) -> Vec<(f64, String)> {
    let named = |on: NaiveDate| {
        // With its year: wood lies for years, and its papers are read years later.
        let day = dates::day(model.words(), on, NaiveDate::default());
        (days_between(first, on), day)
    };
    if first == last {
        vec![named(first)]
    } else {
        vec![named(first), named(last)]
    }
}

/// How far the scale reaches beyond the largest limit.
const BEYOND_LIMIT: f64 = 1.25;

/// How it moved since it was made flat, drawn and as figures.
pub fn movement(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let lines = shape_lines(ui.model, piece);
    let checks = queries::moved(ui.model.state(), piece, mm(FEELER_MM));
    if checks.is_empty() {
        return html! {};
    }
    let drawn: Vec<&ShapeLine> = lines.iter().filter(|line| line.is_measured()).collect();
    let first = drawn.iter().filter_map(|line| line.start).min();
    let last = drawn.iter().filter_map(|line| line.changes.last());
    let last = last.map(|(on, _)| *on).max();
    // Of a shape that was left as it was when others were machined more is known.
    let flat = piece.work.machined.last().map(|said| said.on);
    let flat = flat.filter(|flat| first.is_none_or(|first| first >= *flat));
    html! {
        h2.small {
            @match flat {
                Some(flat) => (fill(words.movement_since, &[("day", &dates::with_year(ui.w, flat))])),
                None => (words.movement),
            }
        }
        @match first.zip(last) {
            Some(span) => (movement_chart(ui, &drawn, span)),
            None => p.below { (words.never_measured) },
        }
        dl.facts {
            @for line in lines.iter() {
                dt { (crate::parts::capital(spoken_name(line.warp.name()))) }
                dd class=(line.judged.class()) {
                    @match (&line.last, line.check) {
                        (Some(last), Some(check)) => {
                            @if line.limit.is_some() { (sign(line.judged)) }
                            @let name = fill(words.change_name, &[("warp", &line.warp.name().spoken())]);
                            (figure(ui, &name, last, Asked::Change(piece.id, check, line.warp)))
                        },
                        _ => span.open { (words.not_measured) },
                    }
                    @if let Some(limit) = &line.limit_shown { span.below { " " (fill(words.of_limit, &[("limit", limit)])) } }
                }
            }
        }
        (all_checks(ui, piece, &checks))
    }
}

/// Each shape as a share of its own limit, so that one line is the limit of all; in mm where one has none.
fn movement_chart(
    ui: &Ui<'_>,
    shown: &[&ShapeLine],
    (first, last): (NaiveDate, NaiveDate),
) -> Markup {
    let words = &ui.w.racks;
    let shares = shown.iter().all(|line| line.of_limit.is_some());
    let values = |line: &ShapeLine| match &line.of_limit {
        Some(of_limit) if shares => of_limit.clone(),
        _ => line.values(),
    };
    let largest = shown
        .iter()
        .flat_map(|line| values(line))
        .fold(0.0_f64, |most, by| most.max(by.abs()));
    let least = if shares { 100.0 * BEYOND_LIMIT } else { 0.5 };
    let reach = (largest * 1.1).max(least);
    let drawn: Vec<Line> = shown
        .iter()
        .enumerate()
        .map(|(at, line)| {
            let start = line.start.map(|start| (days_between(first, start), 0.0));
            let mut points: Vec<(f64, f64)> = start.into_iter().collect();
            let days = line.changes.iter().map(|(on, _)| days_between(first, *on));
            points.extend(days.zip(values(line)));
            Line {
                name: format!(
                    "{} {}",
                    line.warp.name().spoken(),
                    line.last.clone().unwrap_or_default()
                ),
                class: line.judged.class(),
                points,
                sign: at,
            }
        })
        .collect();
    let said: Vec<String> = shown
        .iter()
        .filter_map(|line| {
            let last = line.last.as_ref()?;
            Some(match &line.limit_shown {
                Some(limit) => fill(
                    words.change_of,
                    &[
                        ("warp", &line.warp.name().spoken()),
                        ("by", last),
                        ("limit", limit),
                    ],
                ),
                None => format!("{} {last}", line.warp.name().spoken()),
            })
        })
        .collect();
    let ticks = match shares {
        true => vec![-100.0, -50.0, 0.0, 50.0, 100.0],
        false => round_ticks((-reach, reach)),
    };
    let tick = |at: f64| match shares {
        true => (at, format!("{} %", show::number(at, 0))),
        false => (at, show::gap(at, ui.model.units())),
    };
    let chart = Chart {
        days: days_between(first, last),
        scale: (-reach, reach),
        lines: drawn,
        allowed: shares.then_some((-100.0, 100.0)),
        ticks: ticks.into_iter().map(tick).collect(),
        dates: date_ticks(ui.model, first, last),
        ..Chart::default()
    };
    html! {
        figure {
            (chart.draw(&said.join("; ")))
            @if shares { figcaption.below { (words.share_of_limit_drawn) } }
        }
    }
}

/// Every check with what it showed.
fn all_checks(ui: &Ui<'_>, piece: &Piece, checks: &[Checked]) -> Markup {
    let words = &ui.w.racks;
    html! {
        details {
            summary { (count(checks.len() as u64, words.checks_one, words.checks_other)) }
            ul.checks {
                @for check in checks.iter().rev() {
                    li {
                        p {
                            strong { (dates::with_year(ui.w, check.on)) } " "
                            span class=(judged(Some(check.movement)).class()) { (sign(judged(Some(check.movement)))) (check.movement.in_words().spoken()) }
                        }
                        p.below {
                            @match &check.changes {
                                Ok(changes) => {
                                    @for change in changes {
                                        @if let Some(said) = super::matter::change_in_words(ui.model, change) {
                                            (figure(ui, &fill(words.change_name, &[("warp", &change.warp.name().spoken())]), &said, Asked::Change(piece.id, check.entry, change.warp)))
                                            ". "
                                        }
                                    }
                                },
                                Err(why) => (why.spoken()),
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The least span of the scale for weights, as so many times what 1 % of moisture weighs.
const PERCENTS_SHOWN: f64 = 6.0;
/// The same as a share of the weight, while the air of its room is not known.
const SHARE_SHOWN: f64 = 0.06;

/// How often and how long it was weighed, and how its weight changed: `Weighed 6 times, from ...`; none where it never
/// was.
pub fn weighed_in_short(
    model: &Model,
    piece: &Piece,
    day: impl Fn(NaiveDate) -> String,
) -> Option<String> {
    let words = &model.words().racks;
    let known = queries::weight_over_time(model.state(), piece, scale(model))?;
    let (first, last) = (known.weighed.first()?, known.weighed.last()?);
    let mass = |mass| show::mass(in_kg(mass), model.units());
    // As its entries tell them: rounded, they would not differ by what is said beside them.
    let weighings = &piece.work.weighings;
    let as_read = [weighings.first()?, weighings.last()?]
        .map(|one| model.words().workshop.typed(&one.payload.mass));
    let Some(change) = known.change() else {
        return Some(fill(
            words.weighed_once,
            &[("day", &day(first.on)), ("mass", &as_read[0])],
        ));
    };
    let by = |sentence, by, off| fill(sentence, &[("mass", &mass(by)), ("off", &mass(off))]);
    let change = match change {
        WeightChange::Lighter(less, off) => by(words.lighter, less, off),
        WeightChange::Heavier(more, off) => by(words.heavier, more, off),
        WeightChange::Same => words.same_weight.to_owned(),
    };
    Some(fill(
        words.weighed_from_to,
        &[
            ("n", &known.weighed.len()),
            ("from", &day(first.on)),
            ("to", &day(last.on)),
            ("first", &as_read[0]),
            ("last", &as_read[1]),
            ("change", &change),
        ],
    ))
}

/// What it weighed, and what its room would make of it.
pub fn weights(ui: &Ui<'_>, piece: &Piece) -> Markup {
    let words = &ui.w.racks;
    let Some(known) = queries::weight_over_time(ui.model.state(), piece, scale(ui.model)) else {
        return html! {};
    };
    let (Some(first), Some(last)) = (known.weighed.first(), known.weighed.last()) else {
        return html! {};
    };
    let settles = html! {
        @if !known.settled.is_empty() { (words.band_is_air) }
        @else if piece.is_at_hand() { (words.no_band_yet) }
        @if let Some(one) = known.one_percent {
            " " (fill(words.one_percent_weighs, &[("mass", &show::mass(in_kg(one), ui.model.units()))]))
        }
    };
    if known.weighed.len() < 2 {
        return html! {
            h2.small { (words.weight) }
            @if let Some(said) = weighed_in_short(ui.model, piece, |on| dates::with_year(ui.w, on)) { p.below { (said) } }
            p.below { (settles) }
        };
    }
    let mass = show::mass(in_kg(last.mass), ui.model.units());
    let masses: Vec<f64> = known.weighed.iter().map(|one| in_kg(one.mass)).collect();
    let settled = known
        .settled
        .iter()
        .flat_map(|one| [in_kg(one.low), in_kg(one.high)]);
    let all = masses.iter().copied().chain(settled);
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), one| {
        (low.min(one), high.max(one))
    });
    let least = match known.one_percent {
        Some(one) => in_kg(one) * PERCENTS_SHOWN,
        None => high * SHARE_SHOWN,
    };
    // A scale on which what a scale can't tell is not a hill.
    let missing = ((least - (high - low)) / 2.0).max((high - low) * 0.08);
    let scale = (low - missing, high + missing);
    let dries = super::matter::dries(ui.model, piece);
    let said = fill(
        words.weighed_times,
        &[("n", &masses.len()), ("mass", &mass)],
    );
    let chart = Chart {
        days: days_between(first.on, last.on),
        scale,
        lines: vec![Line {
            name: mass.clone(),
            class: "weight",
            points: known
                .weighed
                .iter()
                .map(|one| (days_between(first.on, one.on), in_kg(one.mass)))
                .collect(),
            sign: 0,
        }],
        band: known
            .settled
            .iter()
            .map(|one| {
                (
                    days_between(first.on, one.on),
                    in_kg(one.low),
                    in_kg(one.high),
                )
            })
            .collect(),
        ticks: round_ticks(scale)
            .into_iter()
            .map(|at| (at, show::mass(at, ui.model.units())))
            .collect(),
        dates: date_ticks(ui.model, first.on, last.on),
        ..Chart::default()
    };
    html! {
        h2.small { @if known.settled.is_empty() { (words.weight) } @else { (words.weight_and_air) } }
        figure {
            (chart.draw(&format!("{said} {dries}")))
            figcaption.below { (settles) }
        }
    }
}
