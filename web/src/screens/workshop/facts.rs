//! What is known of a piece in the workshop, in names and figures: where it is, how its rest stands,
//! what it weighs, how it dries and how it has moved.

use super::{feeler, scale_of, today};
use crate::app::App;
use crate::drawings::weights;
use crate::parts::{CollectAny, facts_drawn, given, told_fact, told_figure};
use crate::screens::blanks::known_of_choice;
use crate::screens::figures::{counted, money};
use crate::screens::glued::{caution_of, gluing_facts};
use crate::screens::piece_told;
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::plank::{Reading, mean_of_stations};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Moisture, in_kg, in_kg_per_m3, in_m3, in_mm, mm, show};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Checked, Dated, Life, Piece, PieceFigure, PieceKind, State, Waits, Weighed,
};
use stillwood_core::season::{Change, DateKey, DriedTo, DryingReport, MeasureKey};

/// How it stands, where that is more than resting.
pub(super) fn word(waits: &Waits) -> Option<AnyView> {
    let words = match waits {
        Waits::Rest(_, Ok(ready)) => {
            let plain = ready.date == DateKey::Resting && ready.measure != MeasureKey::Moved;
            (!plain || ready.is_early()).then(|| ready.in_words())?
        }
        Waits::Room(Ok(room)) => room.in_words(),
        _ => return None,
    };
    Some(view! { <p><strong id="rest-word">{words}</strong></p> }.into_any())
}

/// The part of the sheet.
pub(super) fn facts(app: App, piece: &Piece, waits: Option<&Waits>) -> AnyView {
    let units = app.units.get();
    let scale = scale_of(app);
    app.state(|state| {
        let work = &piece.work;
        let (life, since) = piece.life_on(today());
        let (ready, room) = match waits {
            Some(Waits::Rest(_, ready)) => (ready.as_ref().ok(), None),
            Some(Waits::Room(room)) => (None, room.as_ref().ok()),
            None => (None, None),
        };
        let now = match life {
            Life::Resting(_) => format!("resting since {since}"),
            Life::InShop if room.is_some() => {
                format!("in the room since {}", work.came.unwrap_or(since))
            }
            life => format!("{} since {since}", life.in_words()),
        };
        let ripe = ready.is_some_and(|ready| ready.date == DateKey::Ripe);
        let kept = work.reserved.as_ref().map(|kept| {
            let until = kept.payload.until.map(|day| format!(", until {day}"));
            format!("{}{}", kept.payload.name, until.unwrap_or_default())
        });
        let woods: Vec<&str> = queries::woods_in(state, piece.id)
            .iter()
            .map(|wood| wood.text.as_str())
            .collect();
        let dries = queries::drying_report(state, piece, scale).map(|report| match report {
            Ok(report) => report.in_words(),
            Err(why) => why.to_string(),
        });
        let weighed = work
            .weighings
            .last()
            .map(|said| on(&said.payload.mass, said.on.to_string()));
        let no_air = (work.weighings.len() > 1 && dries.is_none())
            .then(|| "not known: read the air of its room".to_owned());
        let report = queries::drying_report(state, piece, scale).and_then(Result::ok);
        let of = [
            ("What", Some(work.kind.name().to_owned())),
            ("Now", Some(now)),
            ("May be cut", not_yet_there(state, piece)),
            (
                "Shelf",
                work.place.as_ref().map(|place| place.payload.clone()),
            ),
            ("Kept for", kept),
            (
                "Other use",
                work.downgraded.as_ref().map(|down| down.payload.to.clone()),
            ),
            ("Wood", (!woods.is_empty()).then(|| woods.join(", "))),
            ("Rings and grain", rings_and_grain(state, piece)),
            (
                "Movement",
                ready.map(|ready| ready.measure.in_words().to_owned()),
            ),
            ("Weight", weighed),
            ("Drying", dries.or(no_air)),
            (
                "Moisture",
                work.moistures
                    .last()
                    .map(|said| on(&said.payload.shown, said.on.to_string())),
            ),
        ];
        let of = of
            .into_iter()
            .filter_map(|(name, text)| Some((name.to_owned(), given(text?))));
        let mut of: Vec<_> = of.collect();
        of.extend(gluing_facts(piece));
        let id = piece.id;
        let mut tell = |name: &str, figure: Option<String>, of_piece: PieceFigure| {
            let fact = |figure| told_fact(name, figure, piece_told(app, id, of_piece));
            of.extend(figure.map(fact));
        };
        let due = ready.map(|ready| ready.due.to_string());
        let name = if ripe { "Ripe since" } else { "Ripe on" };
        tell(name, due, PieceFigure::RestOverOn);
        let from = room.map(|room| room.from.to_string());
        let name = match room.is_some_and(|room| room.date == DateKey::Ripe) {
            true => "May be cut since",
            false => "May be cut from",
        };
        tell(name, from, PieceFigure::CutFrom);
        tell("Size", size(state, piece, units), PieceFigure::Size);
        let density = queries::density_in_shop(state, piece);
        let density = density.map(|density| show::density(in_kg_per_m3(density), units));
        tell("Density at 12 %", density, PieceFigure::Density);
        for (name, figure, what) in dried(piece, report.as_ref(), units) {
            tell(name, figure, PieceFigure::Drying(what));
        }
        for (name, figure, what) in lost(app, state, piece, units) {
            tell(name, figure, what);
        }
        if work.kind == PieceKind::Blank {
            of.extend(known_of_choice(app, state, piece, units));
        }
        let mut tell = |name: &str, figure: Option<String>, of_piece: PieceFigure| {
            let fact = |figure| told_fact(name, figure, piece_told(app, id, of_piece));
            of.extend(figure.map(fact));
        };
        let cost = queries::wood_cost(state, id).map(|(cost, currency)| money(cost, &currency));
        tell("Wood in it, by the bills", cost, PieceFigure::WoodCost);
        view! {
            {facts_drawn(of)}
            {caution_of(piece)}
            {drying(piece, report.as_ref())}
        }
        .into_any()
    })
}

/// When a plank may be cut that was never put on a shelf.
fn not_yet_there(state: &State, piece: &Piece) -> Option<String> {
    let work = &piece.work;
    let waits = work.kind == PieceKind::Plank && work.came.is_none() && work.rest().is_none();
    let weeks = counted(queries::weeks_before_cut(state) as usize, "week", "weeks");
    (waits && piece.life().0 == Life::Reading)
        .then(|| format!("{weeks} after it is put on a shelf"))
}

/// How far it has dried.
fn dried(
    piece: &Piece,
    report: Option<&DryingReport>,
    units: Units,
) -> Vec<(&'static str, Option<String>, DriedTo)> {
    let Some(report) = report else {
        return Vec::new();
    };
    let fit = report.fit.as_ref();
    let moisture = |m: Moisture| show::moisture(m.in_percent());
    let left = fit.map(|fit| {
        let left = &fit.left;
        let [value, low, high] = [left.value, left.low, left.high].map(moisture);
        format!("{value} ({low} to {high}), if the air was as logged")
    });
    let settles = fit.map(|fit| show::mass(in_kg(fit.settles_at.value), units));
    let last = piece.work.weighings.last().map(|said| said.on);
    let near = fit.zip(last).and_then(|(fit, last)| {
        let days = fit.days_until_near.value.ceil();
        let later = chrono::Days::new(days as u64);
        match days > 0.0 {
            true => last
                .checked_add_days(later)
                .map(|day| format!("about {day}")),
            false => Some(format!("since {last}")),
        }
    });
    vec![
        ("Above its air's equilibrium", left, DriedTo::Left),
        ("It settles at", settles, DriedTo::SettlesAt),
        ("Within 0.5 % of it", near, DriedTo::NearIn),
        (
            "1 % of moisture weighs",
            Some(show::mass(in_kg(report.one_percent), units)),
            DriedTo::OnePercent,
        ),
    ]
}

/// What of it is not in the pieces that were cut from it.
fn lost(
    app: App,
    state: &State,
    piece: &Piece,
    units: Units,
) -> Vec<(&'static str, Option<String>, PieceFigure)> {
    let tools = app.settings.with(|settings| settings.instruments);
    let Some(account) = queries::cut_account(state, piece.id, &tools) else {
        return Vec::new();
    };
    let wood = account.wood.as_ref().map(|wood| {
        let lost = in_m3(wood.lost());
        format!(
            "{} m³, {:.0} % of it",
            show::number(lost, 5),
            wood.lost_percent()
        )
    });
    let mass = account
        .mass
        .map(|mass| show::mass(in_kg(mass.waste), units));
    vec![
        ("Wood not in its pieces", wood, PieceFigure::Lost),
        ("Weight not in its pieces", mass, PieceFigure::MassGone),
    ]
}

fn on(taken: &Reading, day: String) -> String {
    format!("{} on {day}", as_typed(taken))
}

/// What was typed, with the unit that was taken for granted.
fn as_typed(taken: &Reading) -> String {
    let typed = taken.typed.trim();
    if typed.ends_with(|sign: char| sign.is_ascii_digit()) {
        format!("{typed} {}", taken.unit)
    } else {
        typed.to_owned()
    }
}

/// How the rings of a laminate stand and its grain runs, as far as it is known.
fn rings_and_grain(state: &State, piece: &Piece) -> Option<String> {
    if piece.work.kind != PieceKind::Laminate {
        return None;
    }
    let (rings, seen) = (
        queries::rings_in(state, piece, mm(0.0)),
        piece.work.grain_seen(),
    );
    let leans = seen.rings_lean.or(rings.and_then(|rings| rings.leans));
    let parts = [
        rings.map(|rings| rings.class.name()),
        leans.map(|lean| lean.in_words()),
        seen.grain_rises.map(|rise| rise.in_words()),
    ];
    let parts: Vec<&str> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

fn size(state: &State, piece: &Piece, units: Units) -> Option<String> {
    let size = queries::size_of(state, piece);
    let sides = [
        size.length,
        mean_of_stations(&size.widths),
        mean_of_stations(&size.thicknesses),
    ];
    let known = sides.iter().any(Option::is_some);
    known.then(|| show::sizes(sides.map(|side| side.map(in_mm)), units))
}

/// The weighings of a piece as a drawing, for its papers; `None` of fewer than three.
pub(crate) fn weighings_drawn(app: App, state: &State, piece: &Piece) -> Option<AnyView> {
    let report = queries::drying_report(state, piece, scale_of(app)).and_then(Result::ok);
    drying(piece, report.as_ref())
}

/// The weighings as a drawing, and what the curve through them says.
fn drying(piece: &Piece, report: Option<&DryingReport>) -> Option<AnyView> {
    let weighings = &piece.work.weighings;
    let (first, last) = (weighings.first()?.on, weighings.last()?.on);
    if weighings.len() < 3 {
        return None;
    }
    let point =
        |said: &Dated<Arc<Weighed>>| ((said.on - first).num_days() as f64, said.payload.mass.value);
    let points: Vec<(f64, f64)> = weighings.iter().map(point).collect();
    let mass = |a: &&Dated<Arc<Weighed>>, b: &&Dated<Arc<Weighed>>| {
        a.payload.mass.value.total_cmp(&b.payload.mass.value)
    };
    let lightest = weighings.iter().min_by(mass)?;
    let heaviest = weighings.iter().max_by(mass)?;
    let ends = [lightest, heaviest].map(|said| as_typed(&said.payload.mass));
    let fit = report.and_then(|report| report.fit.as_ref());
    let settles = fit.map(|fit| (in_kg(fit.settles_at.low), in_kg(fit.settles_at.high)));
    let band = if fit.is_some() {
        " It settles in the green band."
    } else {
        ""
    };
    let said = format!(
        "Weighed {} times from {first} to {last}.{band}",
        points.len()
    );
    Some(weights(&points, settles, ends, said))
}

/// How it has moved since it was last machined flat, check by check.
pub(super) fn moved(app: App, piece: &Piece) -> Option<AnyView> {
    let units = app.units.get();
    let checks = app.state(|state| queries::moved(state, piece, feeler()));
    if checks.is_empty() {
        return None;
    }
    let id = piece.id;
    let row = |check: &Checked| {
        let what = match &check.changes {
            Ok(changes) => {
                let told = |one: &Change| change(app, id, check, one, units);
                changes.iter().filter_map(told).collect_any()
            }
            Err(why) => why.to_string().into_any(),
        };
        view! {
            <tr>
                <th scope="row" class="nb">{check.on.to_string()}</th>
                <td>{what}</td>
                <td>{check.movement.in_words()}</td>
            </tr>
        }
    };
    let flat = checks.last().and_then(|check| check.flat_on);
    let since = match flat {
        Some(day) => format!("Movement since it was made flat on {day}"),
        None => "Movement since the first check".to_owned(),
    };
    Some(
        view! {
            <h2>{since}</h2>
            <div class="scroll" tabindex="0" role="region" aria-label="The checks">
                <table id="checks">
                    <thead>
                        <tr>
                            <th scope="col">"Day"</th>
                            <th scope="col">"Change and its limit"</th>
                            <th scope="col">"Stands"</th>
                        </tr>
                    </thead>
                    <tbody>{checks.iter().map(row).collect_any()}</tbody>
                </table>
            </div>
        }
        .into_any(),
    )
}

/// A change against its limit; pressed, it tells how it was worked out.
fn change(app: App, id: Id, check: &Checked, change: &Change, units: Units) -> Option<AnyView> {
    let (check, warp) = (check.clone(), change.warp);
    let tell =
        move || app.book_now(|state| queries::change_worked(state, state.piece(id)?, &check, warp));
    let name = format!("Change of {}", change.warp.name());
    Some(told_figure(name, change_in_words(change, units)?, tell))
}

fn change_in_words(change: &Change, units: Units) -> Option<String> {
    let by = in_mm(change.by?);
    let sign = if change.signed && by > 0.0 { "+" } else { "" };
    let limit = change.limit.map_or_else(String::new, |limit| {
        format!(" of {}", show::gap(limit.reject_mm, units))
    });
    let by = show::gap(by, units);
    Some(format!("{} {sign}{by}{limit}", change.warp.name()))
}
