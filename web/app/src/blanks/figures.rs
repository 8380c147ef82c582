//! What a blank is chosen by: each figure tells how core worked it out; where one is not known, it says why.

use super::row::{self, Row};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::Ui;
pub use crate::words::show::money;
use crate::words::{Spoken, fill, show};
use maud::{Markup, html};
use stillwood_core::quantity::{in_mm, mm};
use stillwood_core::record::{Piece, PieceFigure, queries};
use stillwood_core::season::{FEELER_MM, explain_passed, passed_in_words};

/// A figure of a blank.
#[derive(Debug, Clone)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// As it is shown; else why it is not known.
    pub shown: Result<String, String>,
    /// How it was worked out; none where it was said by the maker.
    pub asked: Option<Asked>,
}

impl Figure {
    /// A figure of a piece.
    fn of(
        piece: &Piece,
        name: &'static str,
        shown: Result<String, String>,
        of: PieceFigure,
    ) -> Self {
        let asked = Some(Asked::Piece(piece.id, of));
        Self { name, shown, asked }
    }

    /// The text, known or not.
    pub fn text(&self) -> &str {
        match &self.shown {
            Ok(text) | Err(text) => text,
        }
    }

    /// As it is drawn: a key where it can tell how it was worked out.
    pub fn drawn(&self, ui: &Ui<'_>) -> Markup {
        match (&self.shown, &self.asked) {
            (Ok(text), Some(asked)) => figure(ui, self.name, text, asked.clone()),
            (Ok(text), None) => html! { (text) },
            (Err(why), _) => html! { span.open { (why) } },
        }
    }
}

/// How hard a blank is to bend, N m²; none where that of one of its woods is not known.
pub fn stiffness(model: &Model, piece: &Piece) -> Option<f64> {
    let stiffness = queries::section_of(model.state(), piece)?.stiffness()?;
    Some(stiffness.in_newton_square_metres())
}

/// What it is chosen by.
pub fn chosen_by(ui: &Ui<'_>, piece: &Piece, row: &Row) -> Vec<Figure> {
    let words = &ui.w.blanks;
    let (model, units) = (ui.model, ui.model.units());
    let not_known = || words.not_known.to_owned();
    let size = Figure::of(
        piece,
        words.size,
        Ok(row::size_words(ui, row)),
        PieceFigure::Size,
    );
    let weight = row::weight_words(ui, row).ok_or_else(|| words.not_weighed.to_owned());
    let weight = Figure::of(piece, words.weight, weight, PieceFigure::Weight);
    let stiff = stiffness(model, piece).map(|stiff| format!("{} N m²", show::number(stiff, 0)));
    let stiff = Figure::of(
        piece,
        words.stiffness,
        stiff.ok_or_else(not_known),
        PieceFigure::Stiffness,
    );
    let so_far = queries::moved_so_far(model.state(), piece, mm(FEELER_MM));
    let largest = so_far
        .as_ref()
        .and_then(|so_far| so_far.largest_in_words(units))
        .map(|largest| largest.spoken());
    let largest = largest.ok_or_else(|| words.nothing_to_compare.to_owned());
    let largest = Figure::of(piece, words.largest, largest, PieceFigure::MovedSoFar);
    let watched = so_far.map(|so_far| so_far.in_words(units).spoken());
    let watched = watched.ok_or_else(|| words.never_checked.to_owned());
    let watched = Figure::of(piece, words.watched, watched, PieceFigure::MovedSoFar);
    let year = match queries::blank_over_year(model.state(), piece) {
        Ok(moved) => {
            let [across, along] =
                [moved.across, moved.along].map(|moved| show::gap(in_mm(moved), units));
            Ok(fill(
                words.year_moves,
                &[("across", &across), ("along", &along)],
            ))
        }
        Err(why) => Err(fill(words.not_known_why, &[("why", &why.spoken())])),
    };
    let year = Figure::of(piece, words.over_year, year, PieceFigure::OverYear);
    vec![size, weight, stiff, largest, watched, year]
}

/// When it was glued, and how long ago that is.
pub fn age(ui: &Ui<'_>, row: &Row) -> Figure {
    let today = ui.model.now.date();
    let day = row::day(ui, row.glued);
    let name = ui.w.blanks.glued;
    if row.glued >= today {
        return Figure {
            name,
            shown: Ok(day),
            asked: None,
        };
    }
    let ago = passed_in_words(row.glued, today).spoken();
    Figure {
        name,
        shown: Ok(fill(ui.w.blanks.glued_ago, &[("day", &day), ("ago", &ago)])),
        asked: Some(Asked::Known(Box::new(explain_passed(row.glued, today)))),
    }
}

/// What its wood cost; none of the maker's customers sees it.
pub fn cost(ui: &Ui<'_>, row: &Row) -> Figure {
    let cost = queries::blank_cost(ui.model.state(), row.id);
    let shown = cost
        .as_ref()
        .map(|cost| money(cost.carried, &cost.currency));
    Figure {
        name: ui.w.blanks.wood_cost,
        shown: shown.ok_or_else(|| ui.w.blanks.cost_not_known.to_owned()),
        asked: cost.map(|cost| Asked::Known(Box::new(cost.worked()))),
    }
}

/// Names and figures in two columns.
pub fn facts(ui: &Ui<'_>, figures: &[Figure]) -> Markup {
    html! {
        dl.facts.fit {
            @for one in figures { dt { (one.name) } dd { (one.drawn(ui)) } }
        }
    }
}
