//! What is known of a piece in the workshop, in names and figures: where it is, how its rest stands,
//! what it weighs, how it dries and how it has moved.

use super::feeler;
use crate::app::App;
use crate::drawings::weights;
use crate::parts::{CollectAny, Facts};
use leptos::prelude::*;
use stillwood_core::notebook::{Book, Checked, Life, Piece, RestLine, Said, Weighed};
use stillwood_core::plank::{Taken, mean_of_stations};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Moisture, in_kg, in_mm, kg, show};
use stillwood_core::season::{Change, DateKey, DryingReport, MeasureKey};

/// The part of the sheet.
pub(super) fn facts(app: App, piece: &Piece, line: Option<&RestLine>) -> AnyView {
    let units = app.units.get();
    let scale = kg(app.settings.with(|settings| settings.instruments.scale_kg));
    app.book(|book| {
        let work = &piece.work;
        let (life, since) = piece.life();
        let now = match life {
            Life::Resting(_) => format!("resting since {since}"),
            life => format!("{} since {since}", life.in_words()),
        };
        let ready = line.and_then(|line| line.ready.as_ref().ok());
        let word = ready
            .filter(|ready| ready.measure == MeasureKey::Moved || ready.date != DateKey::Resting)
            .map(|ready| view! { <p><strong id="rest-word">{ready.in_words()}</strong></p> });
        let ripe = ready.is_some_and(|ready| ready.date == DateKey::Ripe);
        let kept = work.reserved.as_ref().map(|kept| {
            let until = kept.said.until.map(|day| format!(", until {day}"));
            format!("{}{}", kept.said.name, until.unwrap_or_default())
        });
        let woods: Vec<&str> = book
            .woods_in(piece.id)
            .iter()
            .map(|wood| wood.text.as_str())
            .collect();
        let dries = book.dries(piece, scale).map(|report| match report {
            Ok(report) => report.drying.words().to_owned(),
            Err(why) => why.to_string(),
        });
        let weighed = work
            .weighings
            .last()
            .map(|said| on(&said.said.mass, said.on.to_string()));
        let no_air = (work.weighings.len() > 1 && dries.is_none())
            .then(|| "not known: read the air of its room".to_owned());
        let of = vec![
            ("What", Some(work.kind.name().to_owned())),
            ("Now", Some(now)),
            ("Shelf", work.place.as_ref().map(|place| place.said.clone())),
            ("Kept for", kept),
            (
                "Other use",
                work.downgraded.as_ref().map(|down| down.said.to.clone()),
            ),
            ("Wood", (!woods.is_empty()).then(|| woods.join(", "))),
            ("Size", size(book, piece, units)),
            (
                if ripe { "Ripe since" } else { "Ripe on" },
                ready.map(|ready| ready.due.to_string()),
            ),
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
                    .map(|said| on(&said.said.shown, said.on.to_string())),
            ),
        ];
        let of: Vec<_> = of
            .into_iter()
            .map(|(name, figure)| (name.to_owned(), figure))
            .collect();
        let report = book.dries(piece, scale).and_then(Result::ok);
        view! {
            {word}
            <Facts of=of />
            {drying(piece, report.as_ref(), units)}
        }
        .into_any()
    })
}

fn on(taken: &Taken, day: String) -> String {
    format!("{} on {day}", as_typed(taken))
}

/// What was typed, with the unit that was taken for granted.
fn as_typed(taken: &Taken) -> String {
    let typed = taken.typed.trim();
    if typed.ends_with(|sign: char| sign.is_ascii_digit()) {
        format!("{typed} {}", taken.unit)
    } else {
        typed.to_owned()
    }
}

fn size(book: &Book, piece: &Piece, units: Units) -> Option<String> {
    let size = book.size_of(piece);
    let sides = [
        size.length,
        mean_of_stations(&size.widths),
        mean_of_stations(&size.thicknesses),
    ];
    let known = sides.iter().any(Option::is_some);
    known.then(|| show::sizes(sides.map(|side| side.map(in_mm)), units))
}

/// The weighings as a drawing, and what the curve through them says.
fn drying(piece: &Piece, report: Option<&DryingReport>, units: Units) -> Option<AnyView> {
    let weighings = &piece.work.weighings;
    let (first, last) = (weighings.first()?.on, weighings.last()?.on);
    if weighings.len() < 3 {
        return None;
    }
    let point = |said: &Said<Weighed>| ((said.on - first).num_days() as f64, said.said.mass.value);
    let points: Vec<(f64, f64)> = weighings.iter().map(point).collect();
    let mass =
        |a: &&Said<Weighed>, b: &&Said<Weighed>| a.said.mass.value.total_cmp(&b.said.mass.value);
    let lightest = weighings.iter().min_by(mass)?;
    let heaviest = weighings.iter().max_by(mass)?;
    let ends = [lightest, heaviest].map(|said| as_typed(&said.said.mass));
    let fit = report.and_then(|report| report.fit.as_ref());
    let settles = fit.map(|fit| (in_kg(fit.settles_at.low), in_kg(fit.settles_at.high)));
    let moisture = |m: Moisture| show::moisture(m.in_percent());
    let curve = fit.map(|fit| {
        format!(
            " Above the air's equilibrium by {} ({} to {}); it settles at {}, the green band.",
            moisture(fit.left.value),
            moisture(fit.left.low),
            moisture(fit.left.high),
            show::mass(in_kg(fit.settles_at.value), units),
        )
    });
    let said = format!(
        "Weighed {} times from {first} to {last}.{}",
        points.len(),
        curve.unwrap_or_default()
    );
    Some(weights(&points, settles, ends, said))
}

/// How it has moved since it was last machined flat, check by check.
pub(super) fn moved(app: App, piece: &Piece) -> Option<AnyView> {
    let units = app.units.get();
    let checks = app.book(|book| book.moved(piece, feeler()));
    if checks.is_empty() {
        return None;
    }
    let row = |check: &Checked| {
        let what = match &check.changes {
            Ok(changes) => {
                let of: Vec<String> = changes.iter().filter_map(|c| change(c, units)).collect();
                of.join("; ")
            }
            Err(why) => why.to_string(),
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

fn change(change: &Change, units: Units) -> Option<String> {
    let by = in_mm(change.by?);
    let sign = if change.signed && by > 0.0 { "+" } else { "" };
    let limit = change.limit.map_or_else(String::new, |limit| {
        format!(" of {}", show::gap(limit.out_mm, units))
    });
    let by = show::gap(by, units);
    Some(format!("{} {sign}{by}{limit}", change.warp.name()))
}
