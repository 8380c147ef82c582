//! A blank as its card in the list shows it: what it is, where it stands, for whom it is kept. Core has
//! worked it out; here it is put into words.

use super::chosen_by::watched_words;
use crate::app::App;
use crate::parts::told_figure;
use crate::screens::piece_told;
use crate::screens::workshop::{class_of, rest_line};
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::order;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_kg, show};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Life, Piece, PieceFigure, PieceKind, State, date};
use stillwood_core::season::{DateKey, Readiness};

/// A blank in the list.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    pub(super) id: Id,
    pub(super) mark: String,
    pub(super) woods: String,
    /// Its length, then the wider of the two across, whichever way round it was measured.
    pub(super) sizes: [Option<f64>; 3],
    pub(super) kilograms: Option<f64>,
    /// The weight was read on the blank itself.
    weighed: bool,
    pub(super) life: Life,
    pub(super) since: String,
    /// Where it is in its life, or how its rest stands, and the class of that word.
    pub(super) word: (&'static str, &'static str),
    /// How its rest stands by both keys, and when it was looked at last.
    pub(super) rest: String,
    /// How it was watched for movement.
    pub(super) watched: Option<String>,
    /// It is kept for somebody today.
    pub(super) kept: bool,
    /// For whom it is kept or was, and until when.
    pub(super) kept_for: Option<String>,
    /// The same where nobody is to be named.
    pub(super) kept_until: Option<String>,
}

/// By both keys, and when it was looked at last.
fn rest_words(piece: &Piece, ready: &Readiness) -> String {
    let date = match ready.date {
        DateKey::Ripe => format!("ripe since {}", ready.due),
        _ => format!("ripe on {}", ready.due),
    };
    let checked = piece.work.checks.last();
    let checked = checked.map(|check| format!(" · last checked {}", check.on));
    let checked = checked.unwrap_or_default();
    format!("{date} · {}{checked}", ready.measure.in_words())
}

/// What is in the list, of a blank.
pub(super) fn row(app: App, state: &State, piece: &Piece, today: &str) -> Row {
    let units = app.units.get();
    let day = date(today);
    let (life, since) = day.map_or_else(|| piece.life(), |day| piece.life_on(day));
    let there = !matches!(life, Life::Used | Life::Discarded | Life::Cut);
    let line = rest_line(app, state, piece).filter(|_| there);
    let ready = line.and_then(|line| line.ready.ok());
    let word = match (&ready, life) {
        (Some(ready), Life::Resting(_)) => (ready.in_words(), class_of(ready)),
        _ => (life.in_words(), "word"),
    };
    let weight = queries::blank_weight(state, piece);
    let kept = day.is_none_or(|day| piece.is_kept_on(day));
    let reserved = piece.work.reserved.as_ref().map(|kept| &kept.payload);
    let kept_for = reserved.map(|said| match said.until {
        Some(until) if kept => format!("kept for {} until {until}", said.name),
        Some(until) => format!("was kept for {} until {until}", said.name),
        None => format!("kept for {}", said.name),
    });
    let kept_until = reserved.filter(|_| kept).map(|said| match said.until {
        Some(until) => format!("kept until {until}"),
        None => "kept".to_owned(),
    });
    Row {
        id: piece.id,
        mark: piece.mark.clone(),
        woods: queries::woods_named(state, piece.id),
        sizes: wider_first(queries::blank_size(state, piece)),
        kilograms: weight.map(|(mass, _)| in_kg(mass)),
        weighed: weight.is_some_and(|(_, weighed)| weighed),
        life,
        since: since.to_string(),
        word,
        rest: ready.map_or_else(String::new, |ready| rest_words(piece, &ready)),
        watched: there.then(|| watched_words(state, piece, units)).flatten(),
        kept: kept && reserved.is_some(),
        kept_for,
        kept_until,
    }
}

/// A blank is stacked across its laminates and measured as it lies: its width is the wider of the two.
fn wider_first([length, width, thickness]: [Option<f64>; 3]) -> [Option<f64>; 3] {
    match (width, thickness) {
        (Some(width), Some(thickness)) => [
            length,
            Some(width.max(thickness)),
            Some(width.min(thickness)),
        ],
        _ => [length, width, thickness],
    }
}

impl Row {
    /// It can be kept for somebody, or used.
    pub(super) fn is_there(&self) -> bool {
        matches!(self.life, Life::InShop | Life::Resting(_) | Life::Reserved)
    }

    pub(super) fn size(&self, app: App, units: Units) -> AnyView {
        let size = show::sizes(self.sizes, units);
        told_figure(
            "Size".to_owned(),
            size,
            piece_told(app, self.id, PieceFigure::Size),
        )
    }

    pub(super) fn weight(&self, app: App, units: Units) -> AnyView {
        let Some(kg) = self.kilograms else {
            return "not weighed".into_any();
        };
        let about = if self.weighed { "" } else { "about " };
        let weight = format!("{about}{}", show::mass(kg, units));
        told_figure(
            "Weight".to_owned(),
            weight,
            piece_told(app, self.id, PieceFigure::Weight),
        )
    }
}

/// All blanks, by mark.
pub(super) fn rows(app: App) -> Vec<Row> {
    let today = clock::now().day;
    let mut rows: Vec<Row> = app.state(|state| {
        let blanks = state.pieces().filter(|piece| {
            piece.work.kind == PieceKind::Blank
                && !piece.withdrawn
                && piece.work.unresolved.is_none()
        });
        blanks.map(|piece| row(app, state, piece, &today)).collect()
    });
    order::sort_by_key(&mut rows, |row| row.mark.clone());
    rows
}
