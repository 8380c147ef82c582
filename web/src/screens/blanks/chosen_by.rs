//! What a blank is chosen by, name by name: how stiff it is, how it was watched for movement, what it does
//! over the year. Each figure tells how core worked it out.

use crate::app::App;
use crate::parts::told_figure;
use crate::screens::piece_told;
use crate::screens::workshop::feeler;
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_mm, show};
use stillwood_core::record::queries;
use stillwood_core::record::{Piece, PieceFigure, State};

/// Their names.
const STIFFNESS: &str = "Stiffness EI, of the woods' usual";
const WATCHED: &str = "Watched";
const LARGEST: &str = "Largest change";
const OVER_YEAR: &str = "Over its room's year";

/// How a blank was watched for movement, in one line.
pub(super) fn watched_words(state: &State, piece: &Piece, units: Units) -> Option<String> {
    let so_far = queries::moved_so_far(state, piece, feeler())?;
    Some(so_far.in_words(units))
}

/// The line, to be pressed.
pub(super) fn watched(app: App, id: stillwood_core::record::Id, words: String) -> AnyView {
    let tell = piece_told(app, id, PieceFigure::MovedSoFar);
    told_figure(WATCHED.to_owned(), words, tell)
}

/// How hard a blank is to bend, N m²; `None` where that of one of its woods is not known.
pub(super) fn stiffness(state: &State, piece: &Piece) -> Option<f64> {
    let stiffness = queries::section_of(state, piece)?.stiffness()?;
    Some(stiffness.in_newton_square_metres())
}

/// Names and figures; where one is not known, why.
pub(super) fn chosen_by(
    app: App,
    state: &State,
    piece: &Piece,
    units: Units,
) -> Vec<(String, Result<AnyView, String>)> {
    let stiff = stiffness(state, piece);
    let stiff = stiff.map(|stiff| format!("{} N m²", show::number(stiff, 0)));
    let so_far = queries::moved_so_far(state, piece, feeler());
    let watched = so_far.as_ref().map(|so_far| so_far.in_words(units));
    let largest = so_far.and_then(|so_far| so_far.largest_in_words(units));
    let over_year = queries::blank_over_year(state, piece).map(|moved| {
        let [across, along] =
            [moved.across, moved.along].map(|moved| show::gap(in_mm(moved), units));
        format!("{across} in width, {along} in depth")
    });
    let of = [
        (STIFFNESS, stiff.ok_or("not known"), PieceFigure::Stiffness),
        (
            WATCHED,
            watched.ok_or("never checked"),
            PieceFigure::MovedSoFar,
        ),
        (
            LARGEST,
            largest.ok_or("nothing to compare yet"),
            PieceFigure::MovedSoFar,
        ),
    ];
    let of = of.map(|(name, words, figure)| (name, words.map_err(str::to_owned), figure));
    let year = over_year.map_err(|why| format!("not known: {why}"));
    let id = piece.id;
    let told = |(name, words, figure): (&str, Result<String, String>, PieceFigure)| {
        let tell = piece_told(app, id, figure);
        let drawn = words.map(|words| told_figure(name.to_owned(), words, tell));
        (name.to_owned(), drawn)
    };
    let all = of
        .into_iter()
        .chain([(OVER_YEAR, year, PieceFigure::OverYear)]);
    all.map(told).collect()
}

/// Those of which something is known.
pub(crate) fn known_of_choice(
    app: App,
    state: &State,
    piece: &Piece,
    units: Units,
) -> Vec<(String, AnyView)> {
    let of = chosen_by(app, state, piece, units).into_iter();
    of.filter_map(|(name, figure)| Some((name, figure.ok()?)))
        .collect()
}
